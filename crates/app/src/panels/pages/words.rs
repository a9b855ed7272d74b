//! Title, notes and cues of the page being looked at.

use egui::{Align2, CollapsingHeader, Response, RichText, ScrollArea, TextEdit, Ui};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::{Theme, focus::Following as _},
};
use standpoint_workbench::{
    edit::{DrillPart, Edit, Gesture},
    session::Session,
};

/// The fields, filling the room or as high as they need. Continuous typing is one step of undo.
pub fn ui(ui: &mut Ui, fills: bool, session: &Session, theme: &Theme, out: &mut Outbox) {
    let Some(page) = session.page() else { return };
    ScrollArea::vertical().id_salt("page words").auto_shrink([false, !fills]).show_following(ui, |ui| {
        let mut title = page.title.clone();
        let field = TextEdit::singleline(&mut title).align(Align2::LEFT_CENTER).desired_width(f32::INFINITY);
        let response = ui.add(field.hint_text(text("Title"))).accessible_name(text("Page title"));
        typed(&response, out, || Edit::PageTitle(title));
        caption(ui, theme, text("Notes"));
        let mut notes = page.notes.clone();
        let field = TextEdit::multiline(&mut notes).desired_width(f32::INFINITY).desired_rows(3);
        let response = ui.add(field.hint_text(text("What the page is about"))).accessible_name(text("Page notes"));
        typed(&response, out, || Edit::PageNotes(notes));
        caption(ui, theme, text("Cues, one to a line"));
        let mut cues = page.cues.join("\n");
        let field = TextEdit::multiline(&mut cues).desired_width(f32::INFINITY).desired_rows(2);
        let response = ui.add(field.hint_text(text("Recover before you look"))).accessible_name(text("Page cues"));
        typed(&response, out, || Edit::PageCues(cues.split('\n').map(str::to_owned).collect()));
        if response.lost_focus() && page.cues.iter().any(|cue| cue.trim().is_empty()) {
            let kept = page.cues.iter().map(|cue| cue.trim().to_owned()).filter(|cue| !cue.is_empty()).collect();
            out.push(Action::Edit(Edit::PageCues(kept)));
            out.push(Action::Gesture(Gesture::Seal));
        }
        drill(ui, session, theme, out);
    });
}

/// Drill of the page, as printed on the sheet.
fn drill(ui: &mut Ui, session: &Session, theme: &Theme, out: &mut Outbox) {
    let Some(page) = session.page() else { return };
    ui.add_space(theme.m.space.small);
    let heading = RichText::new(text("Drill, for the sheet")).small();
    CollapsingHeader::new(heading).id_salt("page drill").default_open(!page.drill.is_empty()).show_unindented(
        ui,
        |ui| {
            for part in DrillPart::ALL {
                caption(ui, theme, text(part.label()));
                let mut said = part.of(&page.drill).clone();
                let field = TextEdit::multiline(&mut said).desired_width(f32::INFINITY).desired_rows(2);
                let response = ui.add(field.hint_text(hint(part))).accessible_name(of_drill(part));
                typed(&response, out, || Edit::PageDrill(part, said));
            }
        },
    );
}

fn of_drill(part: DrillPart) -> &'static str {
    match part {
        DrillPart::Feed => text("Drill feed"),
        DrillPart::Targets => text("Drill targets"),
        DrillPart::Progression => text("Drill progression"),
        DrillPart::Equipment => text("Drill equipment"),
    }
}

fn hint(part: DrillPart) -> &'static str {
    match part {
        DrillPart::Feed => text("Who feeds, from where, how often"),
        DrillPart::Targets => text("What is aimed at, and what counts"),
        DrillPart::Progression => text("How it gets easier or harder"),
        DrillPart::Equipment => text("What is needed besides what is drawn"),
    }
}

fn caption(ui: &mut Ui, theme: &Theme, said: &str) {
    ui.label(RichText::new(said).small().color(*theme.ui.soft));
}

fn typed(response: &Response, out: &mut Outbox, edit: impl FnOnce() -> Edit) {
    if response.changed() {
        out.push(Action::Edit(edit()));
    }
    if response.lost_focus() {
        out.push(Action::Gesture(Gesture::Seal));
    }
}
