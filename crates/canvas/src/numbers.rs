//! Where the numbers of the replies stand: where the reply bounces, or beside that where another sign stands there, so that no
//! sign hides another one.

use egui::{Pos2, Stroke, Vec2};
use standpoint_geometry::Reply;
use standpoint_workbench::session::Session;

use super::{
    brush::{Brush, Dash, Side},
    handles, marks, sketch,
};

/// Directions that are tried around the bounce, and how far, in radii of a number.
const DIRECTIONS: usize = 12;
const REACHES: [f32; 3] = [1.9, 2.6, 3.4];
/// Room between two signs, points.
const APART: f32 = 2.0;
/// Radius of the point that marks the bounce of a number that stands beside it, points.
const POINT: f32 = 3.0;

/// Radius of the number of a reply, points: as its letters need.
#[must_use]
pub fn number_radius(brush: &Brush<'_>) -> f32 {
    brush.font().size * 0.9
}

/// A sign that takes a circle of the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sign {
    /// Its middle.
    pub center: Pos2,
    /// Its radius, points.
    pub radius: f32,
}

/// The signs on the court that a number may hide: players, balls, target and spot, and what is drawn.
#[must_use]
pub fn signs(brush: &Brush<'_>, session: &Session) -> Vec<Sign> {
    let growth = brush.growth();
    let sign = |place, radius| Sign { center: brush.point(place), radius };
    let mut signs = Vec::new();
    if let Some(spec) = session.shot() {
        signs.extend([
            sign(spec.opponent_place, marks::player_radius(brush)),
            sign(session.board().hitter_place(spec), marks::player_radius(brush)),
            sign(spec.shot.contact.truncate(), 7.0 * growth),
            sign(spec.shot.target, 12.0 * growth),
        ]);
    }
    signs.extend(handles::receipt_contact(session).map(|contact| sign(contact.truncate(), 11.0 * growth)));
    signs.extend(session.play().map(|play| sign(play.spot.place, marks::spot_radius(brush))));
    for mark in session.marks().into_iter().flat_map(|marks| marks.shown()) {
        signs.extend(mark.form.standing_at().map(|place| sign(place, sketch::thing_radius(brush) * 1.1)));
    }
    signs
}

/// The middle of the number of each of the best replies, in their order.
#[must_use]
pub fn places(brush: &Brush<'_>, session: &Session) -> Vec<Pos2> {
    let mut signs = signs(brush, session);
    let radius = number_radius(brush);
    let mut places = Vec::new();
    for reply in session.best() {
        let bounce = brush.point(reply.landing);
        let free = |at: &Pos2| signs.iter().all(|sign| sign.center.distance(*at) >= sign.radius + radius + APART);
        let around = REACHES.iter().flat_map(|reach| {
            (0..DIRECTIONS).map(move |i| {
                let turn = std::f32::consts::TAU * i as f32 / DIRECTIONS as f32;
                bounce + Vec2::angled(turn) * (reach * radius)
            })
        });
        let place = std::iter::once(bounce).chain(around).find(free).unwrap_or(bounce);
        signs.push(Sign { center: place, radius });
        places.push(place);
    }
    places
}

/// Paints the line from a number to the bounce that it stands beside.
pub fn link(brush: &Brush<'_>, reply: &Reply, place: Pos2) {
    let bounce = brush.point(reply.landing);
    if bounce.distance(place) < POINT {
        return;
    }
    let (ink, edge) = brush.inks(Side::Opponent);
    brush.cased(&[bounce, place], Stroke::new(1.6, ink), edge, Dash::Solid);
    brush.painter.circle(bounce, POINT, ink, Stroke::new(1.2, edge));
}

#[cfg(test)]
mod tests {
    use egui::{Context, Painter, RawInput, Rect, vec2};
    use standpoint_board::{
        Board,
        marks::{Form, Ink, Layer},
    };
    use standpoint_ui::{theme::Look, transform::CourtView};
    use standpoint_workbench::edit::{Colours, Ground};

    use super::*;

    /// Runs a closure with a brush on a sheet and with one on a large court.
    fn with_brushes(session: &Session, check: impl Fn(&Brush<'_>)) {
        let look = Look::load().unwrap();
        let ctx = Context::default();
        look.install(&ctx);
        let theme = look.theme(false, Colours::Paper, Ground::Hard);
        for size in [vec2(360.0, 820.0), vec2(1200.0, 640.0)] {
            let rect = Rect::from_min_size(Pos2::ZERO, size);
            let turn = u8::from(size.x > size.y);
            let at = CourtView::fitted(turn).transform(rect, &session.court());
            let input = RawInput { screen_rect: Some(rect), ..RawInput::default() };
            let mut output = ctx.run_ui(input, |ui| {
                let painter: Painter = ui.painter_at(rect);
                check(&Brush::new(&painter, at, &theme).of(session));
            });
            output.textures_delta.clear();
        }
    }

    #[test]
    fn a_number_stands_beside_a_cone_that_lies_where_the_reply_bounces() {
        let landings: Vec<_> = Session::new(Board::demo(), None).best().iter().map(|reply| reply.landing).collect();
        let mut board = Board::demo();
        for at in &landings {
            board.page_mut(0).unwrap().marks.add(Layer::Drill, Ink::Plain, Form::Cone { at: *at });
        }
        let session = Session::new(board, None);
        with_brushes(&session, |brush| {
            let places = places(brush, &session);
            assert_eq!(places.len(), 2);
            for (place, landing) in places.iter().zip(&landings) {
                let bounce = brush.point(*landing);
                assert!(place.distance(bounce) > number_radius(brush), "the cone is seen");
                assert!(place.distance(bounce) < 5.0 * number_radius(brush), "and the number is near");
            }
        });
    }

    #[test]
    fn no_number_hides_a_sign_or_the_other_number_on_any_teaching_board() {
        for entry in &standpoint_board::library::Library::shipped().entries {
            let (name, board) = (&entry.title, &entry.board);
            for page in 0..board.pages.len() {
                let mut session = Session::new((**board).clone(), None);
                session.select(standpoint_workbench::selection::Selection { page, shot: 0 });
                with_brushes(&session, |brush| {
                    let (radius, signs) = (number_radius(brush), signs(brush, &session));
                    let places = places(brush, &session);
                    for place in &places {
                        let hidden = signs.iter().find(|sign| sign.center.distance(*place) < sign.radius + radius);
                        assert!(hidden.is_none(), "{name}, page {page}: {place} over {hidden:?}");
                    }
                    if let [one, two] = places[..] {
                        assert!(one.distance(two) >= 2.0 * radius, "{name}, page {page}");
                    }
                });
            }
        }
    }
}
