//! A shot of the rally as a chip: number, hitter, stroke, target and outcome.

use std::sync::Arc;

use egui::{
    Align2, Color32, CornerRadius, FontId, Galley, Id, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui, pos2,
    text::LayoutJob, vec2,
};
use standpoint_board::{ShotSpec, Units, rally::Resolved};
use standpoint_geometry::Outcome;
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Command, Facts, Outbox, RallyCommand},
    theme::{Theme, fonts, icons::Icon},
    widgets::{menu, mini},
};
use standpoint_workbench::{
    selection::Selection,
    session::Session,
    words::{self, SHORT},
};

/// Least width of a chip.
const WIDTH: f32 = 158.0;
/// Where its text begins, beside the small court.
const TEXT: f32 = 38.0;
/// What is left free behind its text.
const AFTER: f32 = 6.0;
/// Room before a chip for the sign that it follows the one before.
const JOINT: f32 = 16.0;

/// Height of a chip.
#[must_use]
pub fn height(roomy: bool) -> f32 {
    if roomy { 60.0 } else { 44.0 }
}

/// Outcome of a shot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fate {
    /// In a few words.
    pub text: String,
    /// Whether the rally cannot go on as it is written.
    pub trouble: bool,
}

/// Outcome of a shot, if known.
#[must_use]
pub fn fate(session: &Session, shot: usize) -> Fate {
    let said = |said: String| Fate { text: said, trouble: false };
    let trouble = |said: &str| Fate { text: said.to_owned(), trouble: true };
    let Some(resolved) = session.rally().get(shot) else {
        return if session.rally_ends_early() { trouble(text("point already over")) } else { said("…".to_owned()) };
    };
    let Ok(answer) = &resolved.result else { return trouble(text("cannot be played")) };
    let chance = words::percent(answer.shot.chance_in);
    match &answer.outcome {
        Outcome::Winner { .. } => said(won(&chance)),
        Outcome::NoReply(_) => said(unanswered(&chance)),
        Outcome::Play(play) if play.recovery.short_by > SHORT => {
            said(short(&chance, play.recovery.short_by, session.units()))
        }
        Outcome::Play(_) => said(tr!("{} in", chance)),
    }
}

fn won(chance: &str) -> String {
    tr!("{} in, winner", chance)
}

fn unanswered(chance: &str) -> String {
    tr!("{} in, no reply", chance)
}

fn short(chance: &str, by: f64, units: Units) -> String {
    tr!("{0} in, not there by {1}", chance, words::length(by, units))
}

/// Width of a chip: the longest outcome fits in the current language, whatever this one is, so that nothing
/// moves while a shot is dragged.
fn width(ui: &Ui, units: Units, theme: &Theme) -> f32 {
    let chance = words::percent(1.0);
    let longest = [won(&chance), unanswered(&chance), short(&chance, 8.8, units)]
        .into_iter()
        .map(|said| line(ui, &said, strong(theme), *theme.ui.ink, f32::INFINITY).size().x)
        .fold(0.0, f32::max);
    (TEXT + longest.ceil() + AFTER).max(WIDTH)
}

fn strong(theme: &Theme) -> FontId {
    FontId::new(theme.m.text.small + 0.5, fonts::strong())
}

/// The chip, with the sign of its link to the one before.
#[expect(clippy::too_many_arguments, reason = "a leaf that is called from one place")]
pub fn ui(
    ui: &mut Ui,
    session: &Session,
    shot: usize,
    roomy: bool,
    turned_to: bool,
    facts: &Facts,
    theme: &Theme,
    out: &mut Outbox,
) {
    let at = session.selection();
    let Some(written) = session.page().and_then(|page| page.shots.get(shot)) else { return };
    let spec = session.rally().get(shot).map_or(*written, |resolved: &Resolved| resolved.spec);
    let (joint, _) = ui.allocate_exact_size(vec2(if shot == 0 { 0.0 } else { JOINT }, height(roomy)), Sense::hover());
    if shot > 0 {
        hang_together(ui, joint, written.follows, theme);
    }
    let (rect, _) = ui.allocate_exact_size(vec2(width(ui, session.units(), theme), height(roomy)), Sense::hover());
    let response = ui.interact(rect, Id::unique(("shot chip", shot)), Sense::click());
    let chosen = shot == at.shot;
    let (name, fate) = (session.board().card(spec.hitter_end).name.as_str(), fate(session, shot));
    let stroke = words::stroke(spec.shot.stroke);
    announce(ui, &response, chosen, &tr!("Shot {0}: {1}, {2}", shot + 1, name, stroke), &fate.text);
    if chosen && turned_to {
        response.scroll_to_me(None);
    }
    if ui.is_rect_visible(rect) {
        ground(ui, &response, chosen, theme);
        drawing(
            ui,
            Rect::from_min_size(rect.min + vec2(5.0, 4.0), vec2(26.0, rect.height() - 8.0)),
            session,
            &spec,
            theme,
        );
        let text = Rect::from_min_max(rect.min + vec2(TEXT, 4.0), rect.max - vec2(AFTER, 4.0));
        lines(ui, text, &format!("{}  {name}", shot + 1), roomy.then_some(stroke), &fate, theme);
    }
    if response.clicked() {
        out.push(Action::Select(Selection { shot, ..at }));
    }
    context(&response, shot, at, facts, theme, out);
}

fn announce(ui: &Ui, response: &Response, chosen: bool, label: &str, value: &str) {
    response.widget_info(|| egui::WidgetInfo::selected(egui::accesskit::Role::Button, true, chosen, label));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(value);
    });
}

fn ground(ui: &Ui, response: &Response, chosen: bool, theme: &Theme) {
    let c = &theme.ui;
    let fill = match (chosen, response.hovered()) {
        (true, _) => *c.chosen,
        (false, true) => *c.hovered,
        (false, false) => *c.raised,
    };
    let edge = if chosen { Stroke::new(theme.m.stroke.medium, *c.accent) } else { Stroke::new(1.0, *c.line) };
    let edge = if response.has_focus() { Stroke::new(theme.m.stroke.bold, *c.accent) } else { edge };
    let radius = CornerRadius::same(theme.m.radius.medium as u8);
    ui.painter().rect(response.rect, radius, fill, edge, StrokeKind::Inside);
}

/// An arrow from the shot before, or a gap where the shot starts by itself.
fn hang_together(ui: &Ui, rect: Rect, follows: bool, theme: &Theme) {
    let (painter, c) = (ui.painter(), rect.center());
    let stroke = Stroke::new(1.6, *theme.ui.soft);
    if follows {
        painter.line_segment([c - vec2(5.0, 0.0), c + vec2(4.0, 0.0)], stroke);
        painter.line(vec![c + vec2(0.0, -4.0), c + vec2(4.5, 0.0), c + vec2(0.0, 4.0)], stroke);
    } else {
        for x in [-2.0, 2.0] {
            painter.line_segment([c + vec2(x, -9.0), c + vec2(x, 9.0)], stroke);
        }
    }
}

fn drawing(ui: &Ui, rect: Rect, session: &Session, spec: &ShotSpec, theme: &Theme) {
    let (at, shapes) = mini::court(rect, &session.court(), false, theme);
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    painter.extend(shapes);
    let way = mini::Way { end: spec.hitter_end, from: spec.shot.contact.truncate(), to: spec.shot.target };
    painter.extend(mini::way(&at, &way, session.board().coached, 1.6, theme));
}

fn lines(ui: &Ui, rect: Rect, title: &str, stroke: Option<&str>, fate: &Fate, theme: &Theme) {
    let (c, m) = (&theme.ui, &theme.m.text);
    let strong = strong(theme);
    let plain = FontId::new(m.small, egui::FontFamily::Proportional);
    let put = |at: Pos2, anchor: Align2, galley: Arc<Galley>, color: Color32| {
        ui.painter().galley(anchor.anchor_size(at, galley.size()).min, galley, color);
    };
    put(rect.left_top(), Align2::LEFT_TOP, line(ui, title, strong.clone(), *c.ink, rect.width()), *c.ink);
    if let Some(stroke) = stroke {
        let galley = line(ui, stroke, plain, *c.soft, rect.width());
        put(rect.left_center(), Align2::LEFT_CENTER, galley, *c.soft);
    }
    let (color, mut left) = (if fate.trouble { *c.bad } else { *c.ink }, rect.left_bottom());
    if fate.trouble {
        let icon = Rect::from_min_size(pos2(left.x, left.y - 15.0), vec2(14.0, 14.0));
        theme.icons.paint(ui.painter(), icon, Icon::Warning, color);
        left.x += 17.0;
    }
    put(left, Align2::LEFT_BOTTOM, line(ui, &fate.text, strong, color, rect.right() - left.x), color);
}

/// One line of text that is cut with an ellipsis where there is no room.
fn line(ui: &Ui, text: &str, font: FontId, color: Color32, width: f32) -> Arc<Galley> {
    let mut job = LayoutJob::simple_singleline(text.to_owned(), font, color);
    job.wrap = egui::text::TextWrapping::truncate_at_width(width);
    ui.painter().layout_job(job)
}

/// Context menu of a shot.
fn context(response: &Response, shot: usize, at: Selection, facts: &Facts, theme: &Theme, out: &mut Outbox) {
    response.context_menu(|ui| {
        let commands = [
            Command::Rally(RallyCommand::AddShotBefore),
            Command::Rally(RallyCommand::AddShotAfter),
            Command::Rally(RallyCommand::DuplicateShot),
            Command::Rally(RallyCommand::Follow),
            Command::Rally(RallyCommand::RecoverToMiddle),
            Command::Rally(RallyCommand::DeleteShot),
        ];
        let there = facts.at(Selection { shot, ..at });
        for command in commands {
            if let Some(command) = menu::entry(ui, command.spec(), &there, theme) {
                out.extend([Action::Select(Selection { shot, ..at }), Action::Run(command)]);
            }
        }
    });
}
