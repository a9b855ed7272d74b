//! The time bar of a rally, with its key moments.

use egui::{
    Align2, CornerRadius, EventFilter, FontId, Id, Key, Modifiers, Rect, Response, Sense, Shape, Stroke, Ui, pos2, vec2,
};
use standpoint_board::playback::{Control, Timeline};
use standpoint_geometry::End;
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::{Theme, fonts},
};
use standpoint_workbench::{session::Session, words};

/// One press of an arrow key, s.
const STEP: f64 = 0.05;

/// The bar.
pub fn ui(ui: &mut Ui, width: f32, session: &Session, theme: &Theme, out: &mut Outbox) {
    let (rect, _) = ui.allocate_exact_size(vec2(width, theme.m.control), Sense::hover());
    let response = ui.interact(rect, Id::unique("scrub"), Sense::click_and_drag());
    let timeline = session.timeline();
    let duration = timeline.duration();
    let time = session.playback().time.unwrap_or(0.0);
    let chance = chance_at(session, time).map(|chance| (coached(session), chance));
    announce(ui, &response, time, duration, chance);
    let track = Rect::from_min_max(rect.min + vec2(8.0, 0.0), rect.max - vec2(8.0, 0.0));
    if let Some(pos) = response.interact_pointer_pos().filter(|_| duration > 0.0) {
        let part = f64::from((pos.x - track.left()) / track.width()).clamp(0.0, 1.0);
        if response.drag_started() || response.clicked() {
            out.push(Action::Play(Control::Pause));
        }
        out.push(Action::Play(Control::Seek(part * duration)));
    }
    keys(ui, &response, time, duration, out);
    if ui.is_rect_visible(rect) {
        chances(ui, track, session, theme);
        paint(ui, track, timeline, session.playback().time, response.has_focus(), theme);
    }
    response.on_hover_text(format!(
        "{}\n{}",
        text("Numbers: contacts. Dots: bounces. Small triangles: the hitter lands from the split step."),
        tr!("The line: the chance of {} to win the point; high is good for them.", coached(session)),
    ));
}

/// The name of the player who is coached.
fn coached(session: &Session) -> &str {
    &session.board().card(session.board().coached).name
}

/// The chance of the coached player to win the point at a time: what is known last.
fn chance_at(session: &Session, time: f64) -> Option<f64> {
    let near = session.chances().iter().take_while(|(t, _)| *t <= time + 1e-9).last()?.1;
    Some(if session.board().coached == End::Near { near } else { 1.0 - near })
}

/// The chance to win the point along the rally, in steps: it changes when a ball is struck and when it is in.
fn chances(ui: &Ui, track: Rect, session: &Session, theme: &Theme) {
    let all = session.chances();
    let duration = session.timeline().duration().max(1e-6);
    let near = session.board().coached == End::Near;
    let x = |t: f64| track.left() + track.width() * (t / duration) as f32;
    let y = |p: f64| track.bottom() - 2.0 - (track.height() - 4.0) * (if near { p } else { 1.0 - p }) as f32;
    let even = [pos2(track.left(), y(0.5)), pos2(track.right(), y(0.5))];
    let color = *theme.ui.accent;
    ui.painter().extend(Shape::dashed_line(&even, Stroke::new(1.0, *theme.ui.line), 3.0, 4.0));
    let ends = all.iter().skip(1).map(|(t, _)| *t).chain([duration]);
    let steps: Vec<egui::Pos2> =
        all.iter().zip(ends).flat_map(|(&(t, p), end)| [pos2(x(t), y(p)), pos2(x(end), y(p))]).collect();
    ui.painter().line(steps, Stroke::new(1.6, color));
}

fn announce(ui: &Ui, response: &Response, time: f64, duration: f64, chance: Option<(&str, f64)>) {
    response.widget_info(|| egui::WidgetInfo::slider(duration > 0.0, time, text("Time of the rally")));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        let clock = clock(time, duration);
        node.set_value(match chance {
            Some((name, chance)) => tr!("{0}; {1} wins {2} in 100", clock, name, words::points(chance)),
            None => clock,
        });
    });
}

fn keys(ui: &Ui, response: &Response, time: f64, duration: f64, out: &mut Outbox) {
    if !response.has_focus() || duration <= 0.0 {
        return;
    }
    let filter = EventFilter { horizontal_arrows: true, vertical_arrows: false, tab: false, escape: false };
    ui.memory_mut(|m| m.set_focus_lock_filter(response.id, filter));
    let times = |key| ui.input_mut(|i| i.count_and_consume_key(Modifiers::NONE, key)) as f64;
    let by = (times(Key::ArrowRight) - times(Key::ArrowLeft)) * STEP;
    if by != 0.0 {
        out.push(Action::Play(Control::Pause));
        out.push(Action::Play(Control::Seek(time + by)));
    }
}

fn paint(ui: &Ui, track: Rect, timeline: &Timeline, time: Option<f64>, focused: bool, theme: &Theme) {
    let (painter, c) = (ui.painter(), &theme.ui);
    let duration = timeline.duration().max(1e-6);
    let x = |t: f64| track.left() + track.width() * (t / duration) as f32;
    let y = track.center().y + 4.0;
    let bar = Rect::from_min_max(pos2(track.left(), y - 3.0), pos2(track.right(), y + 3.0));
    painter.rect(bar, CornerRadius::same(3), *c.sunken, Stroke::new(1.0, *c.outline), egui::StrokeKind::Outside);
    if let Some(time) = time {
        let done = Rect::from_min_max(bar.min, pos2(x(time), bar.bottom()));
        painter.rect_filled(done, CornerRadius::same(3), *c.accent);
    }
    let font = FontId::new(theme.m.text.small, fonts::strong());
    for stretch in &timeline.stretches {
        let contact = x(stretch.start);
        painter.line_segment([pos2(contact, y - 7.0), pos2(contact, y + 7.0)], Stroke::new(2.0, *c.ink));
        let number = (stretch.shot + 1).to_string();
        painter.text(pos2(contact + 3.0, y - 4.0), Align2::LEFT_BOTTOM, number, font.clone(), *c.ink);
        for bounce in &stretch.bounces {
            painter.circle(pos2(x(stretch.start + bounce), y), 3.0, *c.raised, Stroke::new(1.5, *c.ink));
        }
        if let Some(split) = stretch.split_step {
            let tip = pos2(x(stretch.start + split), y + 4.5);
            let foot = vec![tip, tip + vec2(-4.0, 6.0), tip + vec2(4.0, 6.0)];
            painter.add(Shape::convex_polygon(foot, *c.ink, Stroke::NONE));
        }
    }
    if let Some(time) = time {
        let knob = pos2(x(time), y);
        painter.circle(knob, 8.0, *c.accent, Stroke::new(2.0, *c.on_accent));
    }
    if focused {
        painter.rect_stroke(
            track.expand2(vec2(8.0, 0.0)),
            CornerRadius::same(4),
            Stroke::new(2.0, *c.accent),
            egui::StrokeKind::Inside,
        );
    }
}

/// The time of a rally: `1.20 of 4.05 s`.
pub(super) fn clock(time: f64, duration: f64) -> String {
    tr!("{0} of {1}", words::decimal(time, 2), words::seconds(duration))
}
