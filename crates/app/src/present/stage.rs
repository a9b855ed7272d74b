//! The picture of a presentation: the court with what is revealed so far, spotlight and ink.

use egui::{Color32, Mesh, Painter, Pos2, Rect, Stroke, Vec2, epaint::Vertex};
use standpoint_board::marks::Marks;
use standpoint_canvas::{
    announce,
    brush::{Brush, Dash},
    captions, court,
    field::{self, Shading},
    flights, ghost,
    labels::{LabelId, Placer},
    marks, moment, numbers, scene, sketch, tags, touch_rect, wedge,
};
use standpoint_geometry::Outcome;
use standpoint_language::{mark, text, tr};
use standpoint_workbench::{
    session::Session,
    settings::{Layers, Settings},
    words,
};

use super::show::{RevealStep, Show};

/// How dark it gets around the spotlight, and its radius in metres on the court.
const DARKNESS: f32 = 0.82;
const LIGHT_M: f64 = 2.2;
/// Width of temporary ink, points.
const INK: f32 = 4.5;

/// State kept between frames.
#[derive(Default)]
pub struct Stage {
    shading: Shading,
    placer: Placer,
}

impl Stage {
    /// Paints the court as far as it is revealed.
    pub fn paint(&mut self, brush: &Brush<'_>, rect: Rect, session: &Session, show: &Show) {
        let (own, brush) = (brush, &brush.of(session));
        let lines = session.court();
        let drawn = show.marks(session);
        let drawn = drawn.as_ref();
        court::ground(brush, &lines);
        if let Some(moment) = session.moment() {
            court::lines(brush, &lines);
            moment::paint(own, session, drawn, &moment);
        } else {
            self.ground(brush, session, drawn, show.step());
            flying(brush, session, show.step());
            scene::things(brush, session);
            reached(brush, session, show.step());
            if let Some(drawn) = drawn {
                sketch::marks(brush, drawn);
            }
            self.words(brush, rect, (session, drawn), show.step());
            if let Some(play) = session.play().filter(|_| show.step() == RevealStep::Answer) {
                marks::spot(brush, play.spot.place);
            }
        }
        for line in show.ink(session.selection()) {
            let points = brush.points(line.iter().copied());
            let court = &brush.theme.court;
            brush.cased(&points, Stroke::new(INK, *court.alert), *court.alert_ink, Dash::Solid);
        }
    }

    fn ground(&mut self, brush: &Brush<'_>, session: &Session, drawn: Option<&Marks>, step: RevealStep) {
        let lines = session.court();
        let answer = session.play().filter(|_| step == RevealStep::Answer);
        if let Some(play) = answer {
            self.shading.paint(brush, &play.field, play.spot.exposure, session.generation());
        }
        court::lines(brush, &lines);
        if let Some(play) = answer {
            field::contours(brush, &play.contours);
        }
        if let Some(play) = session.play().filter(|_| step >= RevealStep::Wedge) {
            wedge::wedge(brush, &play.wedge);
        }
        if let Some(drawn) = drawn {
            sketch::zones(brush, drawn);
        }
        court::net(brush, &lines);
    }

    /// The words on the court, those of what is revealed only.
    fn words(&mut self, brush: &Brush<'_>, rect: Rect, (session, drawn): (&Session, Option<&Marks>), step: RevealStep) {
        let settings = Settings { layers: layers(step), ..Settings::default() };
        let play = session.play().filter(|_| step == RevealStep::Answer);
        captions::begin(brush, &mut self.placer, rect, Vec::new(), session, &settings);
        if let Some(drawn) = drawn {
            self.placer.avoid(sketch::covered(brush, drawn));
        }
        let what_if = session.what_if().filter(|_| step == RevealStep::Answer);
        if let Some(elsewhere) = what_if {
            ghost::tag(brush, &mut self.placer, session, elsewhere);
        }
        if step >= RevealStep::Replies && what_if.is_none() {
            let places = numbers::places(brush, session);
            for (i, (reply, place)) in session.best().into_iter().zip(places).enumerate() {
                captions::short_reply_tag(brush, &mut self.placer, i, reply, place);
            }
        }
        if let Some(play) = play {
            captions::short(brush, &mut self.placer, play, session.units());
        }
        if let Some(Outcome::Winner { late_by, closest }) =
            session.answer().map(|answer| &answer.outcome).filter(|_| step == RevealStep::Answer)
        {
            let said = tr!("{} too late", words::seconds(*late_by));
            tags::plain(brush, &mut self.placer, LabelId::Receipt, closest.truncate(), 12.0, &said);
        }
        captions::names(brush, &mut self.placer, session);
    }
}

/// The layers of the board's window that a step amounts to.
fn layers(step: RevealStep) -> Layers {
    Layers {
        field: step >= RevealStep::Answer,
        wedge: step >= RevealStep::Wedge,
        replies: step >= RevealStep::Replies,
        bisector: false,
        run: step >= RevealStep::Answer,
        ghosts: false,
        aim: false,
        net: false,
    }
}

/// What flies and runs.
fn flying(brush: &Brush<'_>, session: &Session, step: RevealStep) {
    let Some(answer) = session.answer() else {
        if let Some(spec) = session.shot() {
            flights::refused(brush, spec.shot.contact.truncate(), spec.shot.target);
        }
        return;
    };
    let what_if = session.what_if().filter(|_| step == RevealStep::Answer);
    if let Some(play) = answer.play() {
        if step >= RevealStep::Replies && what_if.is_none() {
            for (i, reply) in session.best().into_iter().enumerate().rev() {
                flights::reply(brush, reply, i);
            }
        }
        if step == RevealStep::Answer {
            marks::run(brush, &play.recovery, play.spot.place);
        }
        if let Some(spec) = session.shot() {
            marks::chase(brush, spec.opponent_place, &play.receipt);
        }
    }
    if let Outcome::Winner { closest, .. } = &answer.outcome
        && step == RevealStep::Answer
    {
        marks::missed(brush, closest.truncate());
    }
    flights::shot(brush, &answer.shot, scene::until(answer));
    if step >= RevealStep::Replies && what_if.is_none() {
        let places = numbers::places(brush, session);
        for (i, (reply, place)) in session.best().into_iter().zip(places).enumerate() {
            flights::reply_marks(brush, reply, i, place);
        }
    }
    if let Some(elsewhere) = what_if {
        ghost::paint(brush, session, elsewhere);
    }
}

/// The place really reached.
fn reached(brush: &Brush<'_>, session: &Session, step: RevealStep) {
    if let Some(play) =
        session.play().filter(|play| step == RevealStep::Answer && play.recovery.short_by > words::SHORT)
    {
        marks::reached(brush, play.recovery.reached.place);
    }
}

/// Announces only what is revealed, so that screen readers do not reveal more.
pub fn announce(ui: &egui::Ui, at: &standpoint_ui::transform::Transform, session: &Session, step: RevealStep) {
    if step == RevealStep::Answer {
        return announce::answer(ui, at, session);
    }
    if step < RevealStep::Replies {
        return;
    }
    for (i, reply) in session.best().into_iter().enumerate() {
        let rect = touch_rect(at.screen_from_court(reply.landing), 28.0);
        let name = if i == 0 { mark("Reply 1") } else { mark("Reply 2") };
        let id = egui::Id::unique(("mark", name));
        announce::item(ui, id, rect, egui::accesskit::Role::GraphicsSymbol, text(name), words::reply(reply.name));
    }
}

/// Darkens everything but a soft disc.
pub fn spotlight(painter: &Painter, rect: Rect, center: Pos2, scale: f32, unlit: Color32) {
    const PIECES: u32 = 72;
    let radius = (LIGHT_M as f32 * scale).max(60.0);
    let dark = unlit.gamma_multiply(DARKNESS);
    let far = rect.width() + rect.height();
    let mut mesh = Mesh::default();
    for i in 0..PIECES {
        let along = Vec2::angled(std::f32::consts::TAU * i as f32 / PIECES as f32);
        for (reach, color) in [(radius * 0.8, unlit.gamma_multiply(0.0)), (radius, dark), (far, dark)] {
            mesh.vertices.push(Vertex { pos: center + along * reach, uv: egui::epaint::WHITE_UV, color });
        }
    }
    for i in 0..PIECES {
        let (a, b) = (3 * i, 3 * ((i + 1) % PIECES));
        for k in [0, 1] {
            mesh.add_triangle(a + k, b + k, a + k + 1);
            mesh.add_triangle(b + k, b + k + 1, a + k + 1);
        }
    }
    painter.add(mesh);
}
