//! The court of a rehearsal: the question with the current answer, then the solution.

use egui::{Pos2, Rect, Sense, Ui, Vec2, accesskit::Role};
use glam::DVec2;
use standpoint_board::rehearse::{Question, choose};
use standpoint_canvas::{
    announce,
    brush::{Brush, Dash, Side},
    captions, court, eye, ghost,
    labels::{LabelId, Placer, Wish},
    marks, tags, touch_rect,
};
use standpoint_geometry::{End, Stroke};
use standpoint_language::{text, tr};
use standpoint_workbench::{compare_words, session::Session, settings::Sight, words};

use super::{
    course::{Course, Stand},
    words::letter,
};
use crate::present::{show::Show, stage::Stage};

/// State kept between frames.
#[derive(Default)]
pub struct Scene {
    stage: Stage,
    placer: Placer,
}

impl Scene {
    /// Paints and announces; `revealed` is a show with everything revealed, `covered` one with the shot alone.
    pub fn paint(
        &mut self,
        ui: &Ui,
        brush: &Brush<'_>,
        rect: Rect,
        course: &Course,
        (covered, revealed): (&Show, &Show),
    ) {
        let session = course.session();
        let (own, brush) = (brush, &brush.of(session));
        match (course.question(), course.stand()) {
            (Question::Place, Stand::Asking) => {
                self.stage.paint(own, rect, session, covered);
                incoming(brush, session);
                ghost::figure(brush, course.place());
                let end = if course.place().y <= 0.0 { End::Near } else { End::Far };
                let value = words::place(course.place(), end, &session.court(), session.units());
                let at = touch_rect(brush.point(course.place()), brush.theme.m.touch);
                let id = egui::Id::unique("rehearsed place");
                announce::item(ui, id, at, Role::GraphicsObject, text("Your place"), &value);
            }
            (Question::Place, Stand::Answered(_)) => {
                self.stage.paint(own, rect, session, revealed);
                announce::answer(ui, &brush.at, session);
            }
            (Question::Shot, _) => self.choice(ui, brush, rect, course),
        }
    }

    fn choice(&mut self, ui: &Ui, brush: &Brush<'_>, rect: Rect, course: &Course) {
        let session = course.session();
        let lines = session.court();
        court::ground(brush, &lines);
        court::lines(brush, &lines);
        court::net(brush, &lines);
        let Some(spec) = session.shot() else { return };
        incoming(brush, session);
        let from = brush.point(spec.shot.contact.truncate());
        for (i, offer) in course.offers().iter().enumerate() {
            let to = brush.point(offer.weighed.shot.target);
            let chosen = course.chosen() == Some(i);
            let m = &brush.theme.m;
            let (width, dash) =
                if chosen { (m.stroke.bold, Dash::Solid) } else { (m.stroke.thin, Dash::Pattern(m.pattern.dashed)) };
            brush.line(&[from, to], width, Side::Hitter, dash);
            brush.arrow_head(from, to, 12.0, Side::Hitter);
        }
        marks::opponent(brush, spec.opponent_place);
        marks::hitter(brush, session.board().hitter_place(spec));
        marks::ball(brush, spec.shot.contact.truncate(), Side::Hitter);
        let things = [spec.opponent_place, session.board().hitter_place(spec), spec.shot.contact.truncate()];
        self.placer.begin(rect.shrink(6.0), things.map(|place| touch_rect(brush.point(place), 28.0)));
        for i in 0..course.offers().len() {
            self.tag(ui, brush, course, i);
        }
        captions::names(brush, &mut self.placer, session);
    }

    /// The tag of a shot: its letter and name, and what it wins once answered.
    fn tag(&mut self, ui: &Ui, brush: &Brush<'_>, course: &Course, i: usize) {
        let offer = &course.offers()[i];
        let answered = *course.stand() != Stand::Asking;
        let best = answered && i == choose::best(course.offers());
        let first = format!("{}  {}", letter(i), compare_words::choice_label(offer.weighed.choice));
        let chosen = course.chosen() == Some(i);
        let won = || words::points(offer.win);
        let second = match (answered, best, chosen) {
            (true, true, true) => tr!("{} in 100 won, the best, your choice", won()),
            (true, true, false) => tr!("{} in 100 won, the best", won()),
            (true, false, true) => tr!("{} in 100 won, your choice", won()),
            (true, false, false) => tr!("{} in 100 won", won()),
            (false, _, true) => text("your choice").to_owned(),
            (false, _, false) => tr!("click, or {}", letter(i)),
        };
        let side = if best || (chosen && !answered) { Side::Hitter } else { Side::Opponent };
        let (ink, edge) = brush.inks(side);
        let galley = tags::two_lines(brush, &first, &second, edge);
        let pad = egui::vec2(8.0, 5.0);
        let anchor = brush.point(offer.weighed.shot.target);
        let wish = Wish { id: LabelId::Ghost(i), anchor, size: galley.size() + pad * 2.0, gap: 12.0, beside: false };
        let rect =
            self.placer.place(&wish).unwrap_or_else(|| Rect::from_min_size(anchor + Vec2::splat(12.0), wish.size));
        let radius = egui::CornerRadius::same(brush.theme.m.radius.medium as u8);
        brush.painter.rect(rect, radius, ink, egui::Stroke::new(1.4, edge), egui::StrokeKind::Inside);
        brush.painter.galley(rect.min + pad, galley, edge);
        let response = ui.interact(rect, egui::Id::unique(("offer", i)), Sense::hover());
        announce::describe(
            ui,
            &response,
            Role::GraphicsSymbol,
            &tr!("Shot {}", letter(i)),
            &format!("{first}. {second}"),
        );
    }
}

/// The ball that came to the hitter, from where the opponent stands: in thin dashes with an arrow.
fn incoming(brush: &Brush<'_>, session: &Session) {
    let Some(spec) = session.shot() else { return };
    let (from, to) = (brush.point(spec.opponent_place), brush.point(spec.shot.contact.truncate()));
    // The first part is left to the name of the opponent.
    let from = from.lerp(to, 0.22);
    let along = (to - from).normalized();
    let end = to - along * 9.0 * brush.growth();
    if spec.shot.stroke == Stroke::Serve || !along.is_finite() {
        return;
    }
    let m = &brush.theme.m;
    brush.line(&[from, end], m.stroke.thin, Side::Opponent, Dash::Pattern(m.pattern.dash_dot));
    brush.arrow_head(from, end, 11.0, Side::Opponent);
}

/// The same situation through the eyes of the trainee.
pub fn eyes(ui: &Ui, brush: &Brush<'_>, rect: Rect, course: &Course) {
    let session = course.session();
    let answered = *course.stand() != Stand::Asking;
    let shown = eye::Shown { wedge: answered, replies: answered, answer: answered };
    match course.question() {
        Question::Shot => {
            let targets: Vec<(String, DVec2, bool)> = course
                .offers()
                .iter()
                .enumerate()
                .map(|(i, offer)| (letter(i).to_string(), offer.weighed.shot.target, course.chosen() == Some(i)))
                .collect();
            eye::choice(brush, rect, session, &targets);
        }
        Question::Place => {
            let place = (!answered).then(|| course.place());
            eye::paint_from(brush, rect, session, Sight::Eyes, shown, place);
        }
    }
    eye::announce(ui, egui::Id::unique("rehearsed perspective"), rect, session, Sight::Eyes, shown);
}

/// The shot whose target is seen nearest to a point of the screen, if one is near.
#[must_use]
pub fn offer_seen_at(course: &Course, rect: Rect, pos: Pos2) -> Option<usize> {
    let targets: Vec<DVec2> = course.offers().iter().map(|offer| offer.weighed.shot.target).collect();
    let seen = eye::targets(rect, course.session(), &targets);
    let far = seen.iter().enumerate().filter_map(|(i, at)| at.map(|at| (i, at.distance(pos))));
    far.min_by(|a, b| a.1.total_cmp(&b.1)).filter(|(_, far)| *far < NEAR).map(|(i, _)| i)
}

/// A click chooses a shot when it comes as near as this to its target, points.
const NEAR: f32 = 70.0;

/// The shot whose target is nearest to a point of the screen, if one is near.
#[must_use]
pub fn offer_at(course: &Course, brush_at: &standpoint_ui::transform::Transform, pos: Pos2) -> Option<usize> {
    let far = |i: usize| brush_at.screen_from_court(course.offers()[i].weighed.shot.target).distance(pos);
    (0..course.offers().len()).min_by(|a, b| far(*a).total_cmp(&far(*b))).filter(|i| far(*i) < NEAR)
}
