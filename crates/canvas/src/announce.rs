//! Accessibility of hand-painted items: role, label, value.

use egui::{EventFilter, Id, Rect, Response, Sense, Ui, accesskit::Role};
use standpoint_geometry::{End, Outcome};
use standpoint_language::{mark, text, tr};
use standpoint_ui::transform::Transform;
use standpoint_workbench::{replying, session::Session, standing, words};

use super::{Canvas, handles, touch_rect};

/// Announces something painted in a rectangle.
pub fn item(ui: &Ui, id: Id, rect: Rect, role: Role, label: &str, value: &str) {
    let response = ui.interact(rect, id, Sense::hover());
    describe(ui, &response, role, label, value);
}

/// Gives a response its role, label and value.
pub fn describe(ui: &Ui, response: &Response, role: Role, label: &str, value: &str) {
    response.widget_info(|| egui::WidgetInfo::labeled(role, true, label));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(value);
    });
}

/// The court as a whole; its value is the headline.
pub fn court(ui: &Ui, response: &Response, session: &Session) {
    let headline = standpoint_workbench::headline::sentence(session).0;
    describe(ui, response, Role::GraphicsDocument, text("Court"), &headline);
}

/// The handles: they take the focus, and keep the arrow keys to themselves.
pub fn handles(ui: &Ui, at: &Transform, session: &Session, touch: f32) {
    for handle in handles::handles(session) {
        let id = Canvas::handle_id(handle.id);
        let response = ui.interact(touch_rect(at.screen_from_court(handle.place), touch), id, Sense::FOCUSABLE);
        let end = if handle.place.y <= 0.0 { End::Near } else { End::Far };
        let value = words::place(handle.place, end, &session.court(), session.units());
        describe(ui, &response, Role::GraphicsObject, handle.id.label(), &value);
        ui.ctx().accesskit_node_builder(id, |node| {
            node.set_description(tr!("{}. Arrow keys move it, with Shift further", handle.id.hint()));
        });
        if response.has_focus() {
            let filter = EventFilter { horizontal_arrows: true, vertical_arrows: true, tab: false, escape: false };
            ui.memory_mut(|m| m.set_focus_lock_filter(id, filter));
        }
    }
}

/// Items of the answer on the court.
pub fn answer(ui: &Ui, at: &Transform, session: &Session) {
    let Some(answer) = session.answer() else { return };
    let (units, court, end) = (session.units(), session.court(), session.hitter_end());
    // The identity is the same in every language.
    let spot = |name: &'static str, place, value: String| {
        let rect = touch_rect(at.screen_from_court(place), 28.0);
        item(ui, Id::unique(("mark", name)), rect, Role::GraphicsSymbol, text(name), &value);
    };
    let Outcome::Play(play) = &answer.outcome else { return };
    spot(mark("Spot"), play.spot.place, standing::place(play, end, &court, units));
    if play.recovery.short_by > standpoint_workbench::words::SHORT {
        let reached = play.recovery.reached.place;
        spot(mark("Place reached"), reached, words::place(reached, end, &court, units));
    }
    for (i, reply) in session.best().into_iter().enumerate() {
        let name = if i == 0 { mark("Reply 1") } else { mark("Reply 2") };
        let value = tr!(
            "{}, {} in, {}, {}",
            words::reply_struck(reply.name, reply.stroke),
            words::percent(reply.chance_in),
            words::spare(reply.time_to_spare),
            replying::describe(reply)
        );
        spot(name, reply.landing, value);
    }
    if let Some(elsewhere) = session.what_if() {
        let (first, second) = standpoint_workbench::elsewhere::describe(elsewhere, session);
        spot(mark("What if"), elsewhere.chosen.reply.met_at.truncate(), format!("{first}. {second}"));
    }
    let width = words::decimal(play.wedge.width().to_degrees(), 0);
    spot(mark("Opponent's angle"), play.wedge.apex, tr!("{} degrees", width));
    let net = answer.shot.net;
    let over = tr!("{} over the net", words::fine_length(net.clearance, units));
    spot(mark("Net crossing"), glam::dvec2(net.x, 0.0), over);
}
