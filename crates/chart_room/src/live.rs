//! The panel beside the court while a match is noted live: score, what comes next, and how points end.

use egui::{Align2, Button, ComboBox, Label, RichText, Sense, Ui, vec2};
use standpoint_board::chart::{
    SessionInfo,
    score::{Ending, GameRule, LastSet, Miss, SetRule, SetsToWin, Tally, at, notation},
};
use standpoint_canvas::announce;
use standpoint_charting::notebook::{DueServe, Live, Notebook, ShotPlace};
use standpoint_geometry::End;
use standpoint_language::{text, tr};
use standpoint_ui::{
    theme::{Theme, style},
    widgets::row,
};
use standpoint_workbench::chart::{Act, ChartFile};

use super::{
    keys,
    note_bits::{self, NoteView},
    questions,
};

/// Height of a line of the score.
const LINE: f32 = 30.0;
/// Width of a column of it.
const COLUMN: f32 = 30.0;
/// Width of the points.
const POINTS: f32 = 44.0;

/// How a match is noted: live, or place by place.
pub fn choice(ui: &mut Ui, notes: &Notebook, out: &mut Vec<Act>) {
    let live = notes.live();
    ui.horizontal_wrapped(|ui| {
        let match_ = Button::selectable(live.is_some(), text("Match, live")).frame_when_inactive(true);
        let said = text("The score is kept; a key for a serve, one or two for a stroke");
        if ui.add(match_).on_hover_text(said).clicked() && live.is_none() {
            out.push(Act::Live(Some(Live::default())));
        }
        let places = Button::selectable(live.is_none(), text("Place by place")).frame_when_inactive(true);
        let said = text("Contact, landing, opponent’s contact and position of every shot");
        if ui.add(places).on_hover_text(said).clicked() && live.is_some() {
            out.push(Act::Live(None));
        }
    });
}

/// The score, what comes next, and the ways round it.
pub fn ui(ui: &mut Ui, view: &NoteView<'_>, out: &mut Vec<Act>) {
    let (notes, theme) = (view.notes, view.theme);
    score(ui, notes, theme);
    ui.add_space(theme.m.space.small);
    ui.label(RichText::new(questions::next(notes)).text_style(style::figure()));
    let due = notes.due_serve();
    let how = match (due, notes.live_step()) {
        (Some(due), _) if due.chosen => text("The receiver chooses the side; a click in a box tells it"),
        (Some(_), _) => text("A digit or a click: wide, body or T, as they lie on the screen"),
        (None, Some(ShotPlace::Landing)) => text("A digit or a click; a wing or a stroke before it, if you like"),
        (None, _) => text("A digit or a click"),
    };
    row::note(ui, theme, how);
    ui.add_space(theme.m.space.small);
    if let Some(due) = due {
        serves(ui, &due, out);
    }
    endings(ui, notes, out);
    ui.add_space(theme.m.space.item);
    forced(ui, notes, theme, out);
}

/// Whether positions are noted too.
pub fn positions(ui: &mut Ui, live: Live, out: &mut Vec<Act>) {
    let mut positions = live.positions;
    if ui
        .checkbox(&mut positions, text("Positions too: two inputs a stroke"))
        .on_hover_text(text("After every landing comes where its hitter stood; the positioning report needs it"))
        .changed()
    {
        out.push(Act::Live(Some(Live { positions })));
    }
}

/// The serve as buttons.
fn serves(ui: &mut Ui, due: &DueServe, out: &mut Vec<Act>) {
    ui.horizontal_wrapped(|ui| {
        for (place, label) in due.places.iter().zip([text("T"), text("Body"), text("Wide")]) {
            if ui.button(label).clicked() {
                out.push(Act::Place(*place));
            }
        }
        if ui.add(note_bits::keyed(text("other server"), keys::OTHER_END)).clicked() {
            out.push(Act::SwapServer);
        }
    });
}

/// How a ball or the point ended.
fn endings(ui: &mut Ui, notes: &Notebook, out: &mut Vec<Act>) {
    let serving = notes.due_serve().is_some();
    ui.horizontal_wrapped(|ui| {
        let not_returned = if notes.points().last().is_some_and(|point| point.shots.len() == 1) && !serving {
            text("Ace  Enter")
        } else {
            text("Winner  Enter")
        };
        let buttons = [
            (not_returned.to_owned(), Act::NotReturned, !serving),
            (tr!("Net  {}", "−"), Act::Missed(Miss::Net), true),
            (tr!("Long  {}", "+"), Act::Missed(Miss::Long), !serving),
            (tr!("Wide  {}", "/"), Act::Missed(Miss::Wide), !serving),
            (tr!("Let  {}", "."), Act::Let, !serving),
            (tr!("Volleyed  {}", "0"), Act::Skip, notes.live_step() == Some(ShotPlace::Landing) && !serving),
        ];
        for (label, act, can) in buttons {
            if ui.add_enabled(can, Button::new(label)).clicked() {
                out.push(act);
            }
        }
        if ui.add_enabled(notes.undo_label().is_some(), Button::new(text("Take back"))).clicked() {
            out.push(Act::Undo);
        }
    });
}

/// The one question that a point leaves.
fn forced(ui: &mut Ui, notes: &Notebook, theme: &Theme, out: &mut Vec<Act>) {
    let Some(point) = notes.asks_for_error() else { return };
    row::note(ui, theme, &tr!("Point {}: was the error forced? Or go on.", point + 1));
    ui.horizontal_wrapped(|ui| {
        for (label, ending) in
            [(tr!("Forced  {}", "0"), Ending::ForcedError), (tr!("Unforced  {}", "."), Ending::UnforcedError)]
        {
            if ui.button(label).clicked() {
                out.push(Act::ErrorWas(ending));
            }
        }
    });
    ui.add_space(theme.m.space.small);
}

/// The score as on a board at the court: a line for each player, a dot for the server.
fn score(ui: &mut Ui, notes: &Notebook, theme: &Theme) {
    let tally = notes.tally();
    let columns = columns(tally.as_ref());
    let server = notes.due_serve().map(|due| notes.ends().began(due.end));
    let server = server.or_else(|| tally.as_ref().and_then(Tally::standing).map(|standing| standing.server));
    let size = vec2(ui.available_width(), 2.0 * LINE);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let names = [End::Near, End::Far].map(|player| notes.setup().card(player).name.clone());
    let said = tally.as_ref().map_or_else(|| "0-0 0-0".to_owned(), notation::write);
    let value =
        tr!("{0} against {1}: {2}; {3} serves", names[0], names[1], said, names[at(server.unwrap_or(End::Near))]);
    let label = text("Score");
    announce::describe(ui, &response, egui::accesskit::Role::Status, label, &value);
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, theme.m.radius.small, *theme.ui.canvas);
    let width = POINTS + COLUMN * (columns.len().saturating_sub(1)) as f32;
    for player in [End::Near, End::Far] {
        let middle = rect.top() + LINE * (at(player) as f32 + 0.5);
        let left = rect.left() + theme.m.space.item;
        if server == Some(player) {
            painter.circle_filled(egui::pos2(left + 4.0, middle), 4.0, *theme.ui.accent);
        }
        let room = (rect.width() - width - 2.0 * theme.m.space.item - 14.0).max(20.0);
        let font = egui::FontId::new(theme.m.text.body, standpoint_ui::theme::fonts::strong());
        let mut job = egui::text::LayoutJob::simple(names[at(player)].clone(), font, *theme.ui.ink, room);
        job.wrap = egui::text::TextWrapping::truncate_at_width(room);
        let galley = painter.layout_job(job);
        painter.galley(egui::pos2(left + 14.0, middle - galley.size().y / 2.0), galley, *theme.ui.ink);
        let mut right = rect.right() - theme.m.space.item;
        for (i, column) in columns.iter().rev().enumerate() {
            let (font, ink) = if i == 0 {
                (egui::FontId::new(theme.m.text.figure, standpoint_ui::theme::fonts::strong()), *theme.ui.ink)
            } else {
                (egui::FontId::proportional(theme.m.text.title), if i == 1 { *theme.ui.ink } else { *theme.ui.soft })
            };
            painter.text(egui::pos2(right, middle), Align2::RIGHT_CENTER, &column[at(player)], font, ink);
            right -= if i == 0 { POINTS } else { COLUMN };
        }
    }
}

/// Finished sets, games and points, each for both players.
fn columns(tally: Option<&Tally>) -> Vec<[String; 2]> {
    let Some(tally) = tally else { return vec![["0".to_owned(), "0".to_owned()], ["0".to_owned(), "0".to_owned()]] };
    let mut columns: Vec<[String; 2]> =
        tally.sets().iter().map(|set| set.games.map(|games| games.to_string())).collect();
    if tally.winner().is_none() {
        columns.push(tally.games().map(|games| games.to_string()));
        let points = notation::points(tally);
        let (near, far) = points.split_once('-').unwrap_or((points.as_str(), ""));
        columns.push([near.to_owned(), far.to_owned()]);
    }
    columns
}

/// How the match is played, and what goes out of it.
pub fn settings(ui: &mut Ui, notes: &Notebook, theme: &Theme, out: &mut Vec<Act>) {
    let info = notes.setup().session(notes.session()).cloned();
    let info = info.unwrap_or(SessionInfo { name: notes.session().to_owned(), ..SessionInfo::default() });
    let format = info.format.unwrap_or_default();
    let mut changed = format;
    pick(ui, theme, text("Sets"), &mut changed.sets, &SetsToWin::ALL, |sets| match sets {
        SetsToWin::One => text("one set"),
        SetsToWin::Two => text("best of three"),
        SetsToWin::Three => text("best of five"),
    });
    pick(ui, theme, text("A set"), &mut changed.set, &SetRule::ALL, |set| match set {
        SetRule::TieBreak => text("six games, tie-break"),
        SetRule::Advantage => text("six games, two ahead"),
        SetRule::Short => text("four games, tie-break"),
    });
    pick(ui, theme, text("Last set"), &mut changed.last_set, &LastSet::ALL, |last| match last {
        LastSet::AsOthers => text("as the others"),
        LastSet::Advantage => text("two games ahead"),
        LastSet::LongTieBreak => text("tie-break to 10"),
        LastSet::MatchTieBreak7 => text("match tie-break to 7"),
        LastSet::MatchTieBreak10 => text("match tie-break to 10"),
    });
    pick(ui, theme, text("Deuce"), &mut changed.game, &GameRule::ALL, |game| match game {
        GameRule::Advantage => text("advantage"),
        GameRule::NoAd => text("deciding point"),
    });
    if changed != format {
        out.push(Act::TellSession(Box::new(SessionInfo { format: Some(changed), ..info.clone() })));
    }
    let video = note_bits::field(ui, theme, text("Video"), &info.video, text("the file of it"));
    if let Some(video) = video {
        out.push(Act::TellSession(Box::new(SessionInfo { video, ..info })));
    }
    ui.horizontal_wrapped(|ui| {
        let there = notes.shots() > 0;
        for (label, file) in
            [(text("Video chapters…"), ChartFile::Chapters), (text("Moments as CSV…"), ChartFile::Moments)]
        {
            let hint = text("Points with their place in the video, for any video player");
            if ui.add_enabled(there, Button::new(label)).on_hover_text(hint).clicked() {
                out.push(Act::Ask(file));
            }
        }
    });
    for trouble in notes.troubles().iter().rev().take(2) {
        ui.add(Label::new(RichText::new(trouble.to_string()).small().color(*theme.ui.warn)).wrap());
    }
}

fn pick<T: PartialEq + Copy>(
    ui: &mut Ui,
    theme: &Theme,
    label: &str,
    now: &mut T,
    all: &[T],
    name: impl Fn(T) -> &'static str,
) {
    row::row(ui, theme, label, |ui| {
        let combo = ComboBox::from_id_salt(label).width(ui.available_width()).selected_text(name(*now));
        combo
            .show_ui(ui, |ui| {
                for of in all {
                    ui.selectable_value(now, *of, name(*of));
                }
            })
            .response
    });
}
