//! Everything that is painted on the court, from the ground up.

use egui::Rect;
use standpoint_geometry::{Answer, Outcome, Play};
use standpoint_workbench::{compare::Comparison, session::Session, settings::Settings, words};

use super::{
    brush::{Brush, Side},
    captions, compare, court,
    field::{self, Shading},
    flights, ghost,
    handles::{self, HandleId},
    key::Key,
    labels::Placer,
    marks, moment, numbers, returner, sketch, wedge,
};

/// Items under the pointer, dragged, or focused.
#[derive(Debug, Clone, Copy, Default)]
pub struct State {
    /// Under the pointer.
    pub hovered: Option<HandleId>,
    /// Held.
    pub held: Option<HandleId>,
    /// With the focus of the keyboard.
    pub focused: Option<HandleId>,
}

/// State kept between frames.
#[derive(Default)]
pub struct Scene {
    shading: Shading,
    overlay: compare::Overlay,
    placer: Placer,
}

impl Scene {
    /// Paints the scene into a rectangle.
    pub fn paint(
        &mut self,
        brush: &Brush<'_>,
        rect: Rect,
        (session, weighed): (&Session, &Comparison),
        settings: &Settings,
        state: State,
    ) {
        let (own, brush) = (brush, &brush.of(session));
        let on_court = weighed.state().on_court(settings);
        let weighed = compare::OverlayView { session, comparison: weighed, layers: &on_court };
        let lines = session.court();
        court::ground(brush, &lines);
        if let Some(moment) = session.moment() {
            let mut faint = brush.painter.clone();
            faint.multiply_opacity(moment::DIM);
            let faint = brush.with(&faint);
            self.ground_answer(&faint, session, settings);
            court::lines(brush, &lines);
            if let Some(play) = session.play() {
                marks::spot(&faint, play.spot.place);
            }
            return moment::paint(own, session, session.marks(), &moment);
        }
        self.shade(brush, session, settings);
        self.overlay.ground(brush, weighed);
        court::lines(brush, &lines);
        level_lines(brush, session, settings);
        self.overlay.lines(brush, weighed);
        if let Some(drawn) = session.marks() {
            sketch::zones(brush, drawn);
        }
        court::net(brush, &lines);
        if on_court.ghosts {
            // Only the compared shots are painted; the drawn one is among them when ticked.
            flights::hinted(brush, session);
        } else if let Some(answer) = session.answer() {
            if let Some(play) = &answer.returner {
                returner::paint(brush, play);
            }
            flying(brush, answer, session, settings);
        }
        if let Some(spec) = session.shot().filter(|_| session.answer().is_none()) {
            flights::refused(brush, spec.shot.contact.truncate(), spec.shot.target);
        }
        self.overlay.flights(brush, weighed);
        if let Some(elsewhere) = session.what_if() {
            ghost::paint(brush, session, elsewhere);
        }
        things(brush, session);
        let play = session.play();
        // While comparing, each shot has its own spot.
        let play = play.filter(|_| !on_court.ghosts);
        if let Some(play) = play {
            reached(brush, play, settings);
        }
        if let Some(drawn) = session.marks() {
            sketch::marks(brush, drawn);
        }
        let taken = self.overlay.obstacles(brush, weighed);
        captions::begin(brush, &mut self.placer, rect, taken, session, settings);
        if let Some(drawn) = session.marks() {
            self.placer.avoid(sketch::covered(brush, drawn));
        }
        self.overlay.tags(brush, &mut self.placer, weighed);
        captions::paint(brush, &mut self.placer, session, settings, on_court.ghosts);
        // Nothing lies over the answer.
        if let Some(play) = play {
            marks::spot(brush, play.spot.place);
        }
        rings(brush, session, state);
    }

    fn shade(&mut self, brush: &Brush<'_>, session: &Session, settings: &Settings) {
        if let Some(play) = session.play().filter(|_| settings.layers.field) {
            self.shading.paint(brush, &play.field, play.spot.exposure, session.generation());
        }
    }

    /// The parts of the answer on the ground.
    fn ground_answer(&mut self, brush: &Brush<'_>, session: &Session, settings: &Settings) {
        self.shade(brush, session, settings);
        if let Some(play) = session.play().filter(|_| settings.layers.field) {
            field::contours(brush, &play.contours);
        }
    }
}

/// Level lines, wedge and bisector.
fn level_lines(brush: &Brush<'_>, session: &Session, settings: &Settings) {
    let Some(play) = session.play() else { return };
    if settings.layers.field {
        field::contours(brush, &play.contours);
    }
    if settings.layers.wedge {
        wedge::wedge(brush, &play.wedge);
    }
    if settings.layers.bisector {
        wedge::bisector(brush, play.wedge.apex, &play.bisector, &session.court());
    }
}

/// Everything that flies and runs.
fn flying(brush: &Brush<'_>, answer: &Answer, session: &Session, settings: &Settings) {
    if let Outcome::Winner { closest, .. } = &answer.outcome {
        marks::missed(brush, closest.truncate());
    }
    if let Some(play) = answer.play() {
        if settings.layers.replies && session.what_if().is_none() {
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
    flights::shot(brush, &answer.shot, until(answer));
    if settings.layers.replies && session.what_if().is_none() {
        let places = numbers::places(brush, session);
        for (i, (reply, place)) in session.best().into_iter().zip(places).enumerate() {
            flights::reply_marks(brush, reply, i, place);
        }
    }
}

/// When the shot is met, or the end of its path, s.
#[must_use]
pub fn until(answer: &Answer) -> f64 {
    match &answer.outcome {
        Outcome::Play(play) => play.receipt.time,
        Outcome::NoReply(receipt) => receipt.time,
        Outcome::Winner { .. } => answer.shot.path.last().map_or(0.0, |p| p.time),
    }
}

/// The players, the balls and the target.
pub fn things(brush: &Brush<'_>, session: &Session) {
    let Some(spec) = session.shot() else { return };
    marks::opponent(brush, spec.opponent_place);
    marks::hitter(brush, session.board().hitter_place(spec));
    marks::ball(brush, spec.shot.contact.truncate(), Side::Hitter);
    marks::target(brush, spec.shot.target);
    if let Some(contact) = handles::receipt_contact(session) {
        marks::ball(brush, contact.truncate(), Side::Opponent);
    }
}

/// The place really reached.
fn reached(brush: &Brush<'_>, play: &Play, settings: &Settings) {
    if settings.layers.run && play.recovery.short_by > words::SHORT {
        marks::reached(brush, play.recovery.reached.place);
    }
}

/// The keys to what is shaded: one for each shading that is asked for, empty while there is none.
#[must_use]
pub fn keys(session: &Session, weighed: &Comparison, settings: &Settings) -> Vec<Option<Key>> {
    let aim = weighed.state().on_court(settings).aim;
    let exposure = settings.layers.field.then(|| session.play().map(Key::exposure));
    exposure.into_iter().chain(aim.then(|| compare::aim::key(weighed))).collect()
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
