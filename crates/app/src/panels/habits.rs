//! Where a player was seen to send the ball: taken by name, and whether the answers rest on it.

use egui::{Button, ComboBox, Label, RichText, Ui};
use standpoint_board::KnownHabits;
use standpoint_geometry::End;
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Outbox},
    roster,
    theme::Theme,
    widgets::row,
};
use standpoint_workbench::{
    chart::{Act, HabitsFrom, RosterAct},
    edit::Edit,
    habits,
    session::Session,
};

/// The rows of a player.
pub fn ui(ui: &mut Ui, session: &Session, end: End, theme: &Theme, out: &mut Outbox) {
    let card = session.board().card(end);
    let known = card.habits.as_deref();
    row::row(ui, theme, text("Habits"), |ui| {
        let shown = known.map_or_else(|| text("not known").to_owned(), |known| known.of.clone());
        let combo = ComboBox::from_id_salt("habits").width(ui.available_width()).truncate().selected_text(shown);
        let combo = combo.show_ui(ui, |ui| sources(ui, session, end, known, out));
        combo.response.on_hover_text(text("Where this player was seen to send the ball, counted in matches"))
    });
    let Some(known) = known else { return };
    let mut used = known.used;
    if ui.checkbox(&mut used, text("Against this opponent")).changed() {
        out.push(Action::Edit(Edit::UseHabits(end, used)));
    }
    row::note(ui, theme, &habits::origin(known));
    if let Some(said) = habits::sentence(session).filter(|_| known.used && end != session.hitter_end()) {
        ui.add(Label::new(RichText::new(said).small()).wrap());
    }
}

/// The players whose habits are known, by name.
fn sources(ui: &mut Ui, session: &Session, end: End, known: Option<&KnownHabits>, out: &mut Outbox) {
    let mut take = |from| out.push(Action::Chart(Act::Roster(RosterAct::Habits(end, from))));
    let mut any = false;
    for player in roster::players(ui.ctx()).iter().filter(|player| player.matches > 0) {
        any = true;
        let matches = tr!("one match" | "{n} matches" % player.matches);
        let label = tr!("{0}, roster: {1}", player.name, matches);
        if ui.selectable_label(known.is_some_and(|known| known.of == player.name), label).clicked() {
            take(HabitsFrom::Roster(player.name.clone()));
        }
    }
    let notes = session.document().notes();
    if notes.shots() > 0 {
        any = true;
        for player in [End::Near, End::Far] {
            let label = tr!("{}, from the notes of this board", notes.setup().card(player).name);
            if ui.selectable_label(false, label).clicked() {
                take(HabitsFrom::Notes(player));
            }
        }
    }
    if !any {
        ui.label(text("Enter a charted match in the roster first (match analysis)"));
    }
    if known.is_some() {
        ui.separator();
        if ui.add(Button::selectable(false, text("Without habits"))).clicked() {
            out.push(Action::Edit(Edit::Habits(end, None)));
        }
    }
}
