//! What is told of a point beside its shots, put right.

use egui::{ComboBox, Ui};
use standpoint_board::chart::{
    ObservedShot, Point,
    score::{CourtSide, Ending, Miss, ServeCall, ServeNumber, facts},
};
use standpoint_charting::notebook::{Notebook, Tell};
use standpoint_geometry::{End, Stroke};
use standpoint_language::{text, tr};
use standpoint_ui::{theme::Theme, widgets::row};
use standpoint_workbench::chart::Act;

use super::note_bits;

/// The fields of a point.
pub fn ui(ui: &mut Ui, notes: &Notebook, index: usize, theme: &Theme, out: &mut Vec<Act>) {
    let Some(point) = notes.points().get(index) else { return };
    let seen = seen(notes, point);
    let name = |end: End| notes.setup().card(point.ends.began(end)).name.clone();
    let mut field = Fields { theme, out, index };
    let ends = [End::Near, End::Far];
    field.choose(ui, text("Server"), (point.server, seen.server), &ends, name, Tell::Server);
    let side = |side: CourtSide| match side {
        CourtSide::Deuce => text("deuce side").to_owned(),
        CourtSide::Ad => text("ad side").to_owned(),
    };
    field.choose(ui, text("From"), (point.side, seen.side), &CourtSide::ALL, side, Tell::Side);
    field.choose(ui, text("Won by"), (point.winner, seen.winner), &ends, name, Tell::Winner);
    let ending = |ending: Ending| note_bits::capital(text(ending.label()));
    field.choose(ui, text("Ended by"), (point.ending, seen.ending), &Ending::ALL, ending, Tell::Ending);
    field.choose(ui, text("Missed"), (point.miss, seen.miss), &Miss::ALL, miss, Tell::Miss);
    let score = note_bits::field(ui, theme, text("Score"), &point.score, text("before it, as 6-4 2-3 40-30"));
    field.out.extend(score.map(|score| Act::Tell(index, Tell::Score(score))));
}

fn miss(miss: Miss) -> String {
    match miss {
        Miss::Net => text("In the net").to_owned(),
        Miss::Long => text("Long").to_owned(),
        Miss::Wide => text("Wide").to_owned(),
    }
}

/// What the shots say of a point by themselves.
fn seen(notes: &Notebook, point: &Point) -> standpoint_board::chart::score::PointFacts {
    let bare = Point { server: None, side: None, winner: None, ending: None, miss: None, ..point.clone() };
    facts(&bare, &notes.setup().court.court())
}

struct Fields<'a> {
    theme: &'a Theme,
    out: &'a mut Vec<Act>,
    index: usize,
}

impl Fields<'_> {
    /// One of several values, or what the shots say.
    fn choose<T: Copy + PartialEq>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        (told, seen): (Option<T>, Option<T>),
        all: &[T],
        name: impl Fn(T) -> String,
        tell: impl Fn(Option<T>) -> Tell,
    ) {
        let by_shots = seen.map_or_else(|| text("not known").to_owned(), |seen| tr!("{} (from the shots)", name(seen)));
        let mut now = told;
        row::row(ui, self.theme, label, |ui| {
            let shown = told.map_or_else(|| by_shots.clone(), &name);
            let combo = ComboBox::from_id_salt(("told", label)).width(ui.available_width()).selected_text(shown);
            combo
                .show_ui(ui, |ui| {
                    ui.selectable_value(&mut now, None, by_shots.as_str());
                    for of in all {
                        ui.selectable_value(&mut now, Some(*of), name(*of));
                    }
                })
                .response
        });
        if now != told {
            self.out.push(Act::Tell(self.index, tell(now)));
        }
    }
}

/// What was called of a serve, and which one it was.
pub fn serve(ui: &mut Ui, shot: &ObservedShot, theme: &Theme, out: &mut Vec<Act>) {
    if shot.stroke != Some(Stroke::Serve) {
        return;
    }
    let (mut number, mut call) = (shot.serve, shot.call);
    row::row(ui, theme, text("Serve"), |ui| {
        let first = ui.selectable_label(number == Some(ServeNumber::First), text("First"));
        let second = ui.selectable_label(number == Some(ServeNumber::Second), text("Second"));
        for (clicked, of) in [(first.clicked(), ServeNumber::First), (second.clicked(), ServeNumber::Second)] {
            if clicked {
                number = Some(of).filter(|of| number != Some(*of));
            }
        }
        first
    });
    row::row(ui, theme, text("Call"), |ui| {
        let calls = [(ServeCall::In, text("In")), (ServeCall::Fault, text("Fault")), (ServeCall::Let, text("Let"))];
        let responses = calls.map(|(of, label)| (of, ui.selectable_label(call == Some(of), label)));
        for (of, response) in &responses {
            if response.clicked() {
                call = Some(*of).filter(|of| call != Some(*of));
            }
        }
        let [(_, first), ..] = responses;
        first
    });
    if number != shot.serve {
        out.push(Act::ServeNumber(number));
    }
    if call != shot.call {
        out.push(Act::Call(call));
    }
}
