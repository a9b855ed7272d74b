//! Everything that is painted on the court, from the ground up.

use egui::Rect;
use standpoint_geometry::answer::{Answer, Outcome, Play};

use super::{
    brush::{Brush, Side},
    captions, court,
    field::{self, Shading},
    flights,
    handles::{self, HandleId},
    key,
    labels::Placer,
    marks, wedge,
};
use crate::{session::Session, settings::Settings};

/// What the hand and the keys are at.
#[derive(Debug, Clone, Copy, Default)]
pub struct State {
    /// Under the pointer.
    pub hovered: Option<HandleId>,
    /// Held.
    pub held: Option<HandleId>,
    /// With the focus of the keyboard.
    pub focused: Option<HandleId>,
}

/// What is kept from frame to frame.
#[derive(Default)]
pub struct Scene {
    shading: Shading,
    placer: Placer,
}

impl Scene {
    /// Paints the scene into a rectangle.
    pub fn paint(&mut self, brush: &Brush<'_>, rect: Rect, session: &Session, settings: &Settings, state: State) {
        let lines = session.court();
        let layers = settings.layers;
        let play = session.play();
        court::ground(brush, &lines);
        if let Some(play) = play.filter(|_| layers.field) {
            self.shading.paint(brush, play, session.generation());
        }
        court::lines(brush, &lines);
        if let Some(play) = play {
            if layers.field {
                field::contours(brush, &play.contours);
            }
            if layers.wedge {
                wedge::wedge(brush, &play.wedge);
            }
            if layers.bisector {
                wedge::bisector(brush, play.wedge.apex, &play.bisector, &lines);
            }
        }
        court::net(brush, &lines);
        if let Some(answer) = session.answer() {
            flying(brush, answer, session, settings);
        }
        if let (Some(_), Some(spec)) = (session.refusal(), session.shot()) {
            flights::refused(brush, spec.shot.contact.truncate(), spec.shot.target);
        }
        things(brush, session);
        if let Some(play) = play {
            places(brush, play, settings);
        }
        rings(brush, session, state);
        let key_rect = play.filter(|_| layers.field).map(|play| key::paint(brush, rect, play));
        captions::paint(brush, &mut self.placer, rect, key_rect, session, settings);
    }
}

/// Everything that flies and runs.
fn flying(brush: &Brush<'_>, answer: &Answer, session: &Session, settings: &Settings) {
    let end = answer.shot.path.last().map_or(0.0, |p| p.time);
    let until = match &answer.outcome {
        Outcome::Play(play) => play.receipt.time,
        Outcome::NoReply(receipt) => receipt.time,
        Outcome::Winner { .. } => end,
    };
    if let Outcome::Winner { closest, .. } = &answer.outcome {
        marks::missed(brush, closest.truncate());
    }
    if let Some(play) = answer.play() {
        if settings.layers.replies {
            for (i, reply) in session.best().into_iter().enumerate().rev() {
                flights::reply(brush, reply, i);
            }
        }
        if settings.layers.run {
            marks::run(brush, &play.recovery, play.spot.place);
        }
        if let Some(spec) = session.shot() {
            marks::chase(brush, spec.opponent_place, &play.receipt);
        }
    }
    flights::shot(brush, &answer.shot, until);
    for (i, reply) in session.best().into_iter().enumerate().filter(|_| settings.layers.replies) {
        flights::reply_marks(brush, reply, i);
    }
}

/// The players, the balls and the target.
fn things(brush: &Brush<'_>, session: &Session) {
    let Some(spec) = session.shot() else { return };
    marks::opponent(brush, spec.opponent_place);
    marks::hitter(brush, session.board().hitter_place(spec));
    marks::ball(brush, spec.shot.contact.truncate(), Side::Hitter);
    marks::target(brush, spec.shot.target);
    if let Some(contact) = handles::receipt_contact(session) {
        marks::ball(brush, contact.truncate(), Side::Opponent);
    }
}

/// The spot and the place really reached.
fn places(brush: &Brush<'_>, play: &Play, settings: &Settings) {
    if settings.layers.run && play.recovery.short_by > captions::SHORT {
        marks::reached(brush, play.recovery.reached.place);
    }
    marks::spot(brush, play.spot.place);
}

/// Rings around what is under the pointer, held or has the focus.
fn rings(brush: &Brush<'_>, session: &Session, state: State) {
    for handle in handles::handles(session) {
        let strong = state.held == Some(handle.id) || state.focused == Some(handle.id);
        if strong || state.hovered == Some(handle.id) {
            marks::halo(brush, brush.point(handle.place), strong);
        }
    }
}
