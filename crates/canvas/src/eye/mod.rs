//! What is seen from the court: through the eyes of the hitter who waits at the spot, and from behind the court.
//!
//! Painted with the same painter as everything else, from the back to the front. Everything is turned so that the player
//! whose view it is stands at the near end.

mod answer;
mod figure;
mod film;
mod scenery;
mod stage;

use egui::{Align2, Rect, Ui, accesskit::Role};
use glam::{DVec2, DVec3};
use standpoint_geometry::Reply;
use standpoint_language::{text, tr};
use standpoint_ui::theme::Theme;
use standpoint_workbench::{session::Session, settings::Sight, words};

use super::{
    announce,
    brush::{Brush, Side},
};
use answer::{flight, marks, wedge, zone};
use figure::Figure;
use film::Film;
use scenery::{ground, lines, net};
use stage::{EYES, Stage};

pub use stage::eye_height;

/// What is revealed of the answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shown {
    /// The wedge on the ground.
    pub wedge: bool,
    /// The flights of the two best replies.
    pub replies: bool,
    /// The zone and the spot.
    pub answer: bool,
}

impl Shown {
    /// Everything.
    pub const ALL: Self = Self { wedge: true, replies: true, answer: true };
}

/// Paints what is seen into a rectangle.
pub fn paint(brush: &Brush<'_>, rect: Rect, session: &Session, sight: Sight, shown: Shown) {
    paint_from(brush, rect, session, sight, shown, None);
}

/// The same with the player at another place than the spot.
pub fn paint_from(brush: &Brush<'_>, rect: Rect, session: &Session, sight: Sight, shown: Shown, place: Option<DVec2>) {
    let Some(mut stage) = Stage::of(session, shown.answer) else { return };
    if let Some(place) = place {
        stage.me = stage.end.turn2(place);
    }
    let play = session.play();
    let best = if shown.replies { session.best() } else { Vec::new() };
    let mut watched: Vec<DVec3> = vec![stage.other.extend(0.0)];
    watched.extend(best.iter().map(|reply| stage.end.turn2(reply.landing).extend(0.0)));
    let painter = brush.painter.with_clip_rect(rect);
    let brush = &brush.with(&painter);
    let camera = stage.camera(sight, &watched, ratio(rect));
    let film = Film { brush, camera, rect, end: stage.end };
    let court = session.court();
    ground(&film, &court);
    if let Some(play) = play.filter(|_| shown.answer) {
        film.field(&play.field, play.spot.exposure);
        zone(&film, play);
    }
    lines(&film, &court);
    if let Some(play) = play.filter(|_| shown.wedge) {
        wedge(&film, play);
    }
    // What stands on the other side of the net is behind it.
    Figure { place: stage.other, tall: stage.tall, side: Side::Opponent, ball: stage.ball }.paint(&film);
    for (i, reply) in best.iter().enumerate().rev() {
        flight(&film, reply, i, true);
    }
    net(&film, &court);
    for (i, reply) in best.iter().enumerate().rev() {
        flight(&film, reply, i, false);
    }
    for (i, reply) in best.iter().enumerate().rev() {
        marks(&film, reply, i);
    }
    if sight == Sight::Behind && (shown.answer || play.is_none()) {
        let tall = stage.eyes / EYES;
        Figure { place: stage.me, tall, side: Side::Hitter, ball: None }.paint(&film);
    }
    title(brush, rect, sight, session);
}

/// Paints the shots to choose from as the hitter sees them, each with its letter where it lands.
pub fn choice(brush: &Brush<'_>, rect: Rect, session: &Session, targets: &[(String, DVec2, bool)]) {
    let Some(stage) = Stage::striking(session) else { return };
    let mut watched: Vec<DVec3> = targets.iter().map(|(_, place, _)| stage.end.turn2(*place).extend(0.0)).collect();
    watched.push(stage.other.extend(0.0));
    let painter = brush.painter.with_clip_rect(rect);
    let brush = &brush.with(&painter);
    let film = Film { brush, camera: stage.camera(Sight::Eyes, &watched, ratio(rect)), rect, end: stage.end };
    let court = session.court();
    ground(&film, &court);
    lines(&film, &court);
    let mut letters = Vec::new();
    for (letter, place, chosen) in targets {
        let place = stage.end.turn2(*place).extend(0.0);
        film.disc(place, if *chosen { 0.5 } else { 0.35 }, Side::Hitter);
        letters.extend(film.point(place).map(|at| (letter, at)));
    }
    Figure { place: stage.other, tall: stage.tall, side: Side::Opponent, ball: None }.paint(&film);
    net(&film, &court);
    // The letters stand over the net, so that none is hidden by it.
    for (letter, at) in letters {
        let galley = brush.text(letter.clone(), *brush.theme.court.ink);
        brush.haloed(at - egui::vec2(0.0, galley.size().y), Align2::CENTER_CENTER, &galley);
    }
    title(brush, rect, Sight::Eyes, session);
}

/// Where the letter of a target is seen, for a click.
#[must_use]
pub fn targets(rect: Rect, session: &Session, targets: &[DVec2]) -> Vec<Option<egui::Pos2>> {
    let Some(stage) = Stage::striking(session) else { return vec![None; targets.len()] };
    let watched: Vec<DVec3> = targets.iter().map(|place| stage.end.turn2(*place).extend(0.0)).collect();
    let mut all = watched.clone();
    all.push(stage.other.extend(0.0));
    let camera = stage.camera(Sight::Eyes, &all, ratio(rect));
    watched.into_iter().map(|place| camera.seen(place).map(|p| film::on_screen(rect, p))).collect()
}

fn ratio(rect: Rect) -> f64 {
    f64::from(rect.width() / rect.height().max(1.0))
}

/// Whose view it is, in the upper left corner.
fn title(brush: &Brush<'_>, rect: Rect, sight: Sight, session: &Session) {
    let said = label(sight, session);
    let galley = brush.text(said, *brush.theme.court.ink);
    let at = rect.left_top() + egui::vec2(brush.theme.m.space.edge, brush.theme.m.space.item);
    // The letters are made for the court's ground, and the sky is of another colour in every look.
    let plate = Rect::from_min_size(at, galley.size()).expand2(egui::vec2(8.0, 3.0));
    brush.painter.rect_filled(plate, brush.theme.m.radius.medium, *brush.theme.court.surround);
    brush.haloed(at, Align2::LEFT_TOP, &galley);
}

/// Whose view it is.
#[must_use]
pub fn label(sight: Sight, session: &Session) -> String {
    let name = &session.board().card(session.hitter_end()).name;
    match sight {
        Sight::Eyes => tr!("What {} sees", name),
        Sight::Behind => text("From behind the court").to_owned(),
    }
}

/// How far beside the opponent each of the best replies comes, degrees to the right: as the player sees it.
#[must_use]
pub fn bearings(session: &Session) -> Vec<f64> {
    let Some(stage) = Stage::of(session, true) else { return Vec::new() };
    let to_other = stage.other - stage.me;
    let bearing = |reply: &&Reply| {
        // To where it is met: that is where the player has to go.
        let way = stage.end.turn2(reply.met_at.truncate()) - stage.me;
        -to_other.angle_to(way).to_degrees()
    };
    session.best().iter().map(bearing).collect()
}

/// Tells assistive technology what is seen.
pub fn announce(ui: &Ui, id: egui::Id, rect: Rect, session: &Session, sight: Sight, shown: Shown) {
    let said = if shown.replies {
        let each = bearings(session).into_iter().enumerate().map(|(i, degrees)| {
            let aside = words::decimal(degrees.abs(), 0);
            if degrees >= 0.0 {
                tr!("reply {0} comes {1}° to the right of the opponent", i + 1, aside)
            } else {
                tr!("reply {0} comes {1}° to the left of the opponent", i + 1, aside)
            }
        });
        each.collect::<Vec<_>>().join(", ")
    } else {
        String::new()
    };
    announce::item(ui, id, rect, Role::GraphicsDocument, &label(sight, session), &said);
}

/// The views that have room in a rectangle: both side by side where it is wide, else the one that is wanted.
#[must_use]
pub fn split(rect: Rect, wanted: Sight) -> Vec<(Rect, Sight)> {
    if rect.width() >= 2.6 * rect.height() {
        let (left, right) = rect.split_left_right_at_fraction(0.5);
        return vec![
            (left.with_max_x(left.right() - 1.0), Sight::Eyes),
            (right.with_min_x(right.left() + 1.0), Sight::Behind),
        ];
    }
    vec![(rect, wanted)]
}

/// The part of a canvas that the views take, below the court or beside it, and what they leave.
#[must_use]
pub fn beside(canvas: Rect, theme: &Theme) -> (Rect, Rect) {
    let gap = theme.m.space.hair;
    if canvas.width() > 1.9 * canvas.height() {
        let (court, view) = canvas.split_left_right_at_fraction(0.62);
        return (court.with_max_x(court.right() - gap), view);
    }
    let (court, view) = canvas.split_top_bottom_at_fraction(0.58);
    (court.with_max_y(court.bottom() - gap), view)
}

#[cfg(test)]
mod tests {
    use egui::{Pos2, vec2};
    use standpoint_board::Board;
    use standpoint_geometry::{BackhandGrip, Hand, Level};

    use super::*;

    #[test]
    fn eyes_are_as_high_as_people_are() {
        // Eye heights: standing adults between 1.45 and 1.85 m, a seated player between 1.0 and 1.35 m (from memory).
        for level in Level::ALL {
            let height = eye_height(&level.player(Hand::Right, BackhandGrip::TwoHanded));
            let (least, most) = match level {
                Level::Wheelchair => (1.0, 1.4),
                Level::RedJunior | Level::OrangeJunior | Level::GreenJunior => (0.9, 1.6),
                _ => (1.4, 1.9),
            };
            assert!((least..most).contains(&height), "{}: {height}", level.label());
        }
    }

    #[test]
    fn opponent_and_replies_are_in_the_picture_from_either_end() {
        for swap in [false, true] {
            let mut session = Session::new(Board::demo(), None);
            if swap {
                session.edit(&standpoint_workbench::edit::Edit::SwapEnds);
            }
            let stage = Stage::of(&session, true).unwrap();
            assert!(stage.me.y < 0.0 && stage.other.y > 0.0);
            let best = session.best();
            let landings: Vec<DVec3> = best.iter().map(|r| stage.end.turn2(r.landing).extend(0.0)).collect();
            let rect = Rect::from_min_size(Pos2::ZERO, vec2(800.0, 500.0));
            for sight in [Sight::Eyes, Sight::Behind] {
                let mut watched = landings.clone();
                watched.push(stage.other.extend(0.0));
                let camera = stage.camera(sight, &watched, ratio(rect));
                for place in &watched {
                    let at = film::on_screen(rect, camera.seen(*place).unwrap());
                    assert!(rect.contains(at), "{sight:?}: {place} is at {at}");
                }
            }
        }
    }

    #[test]
    fn left_and_right_are_those_of_the_player() {
        let session = Session::new(Board::demo(), None);
        let stage = Stage::of(&session, true).unwrap();
        let watched: Vec<DVec3> =
            session.best().iter().map(|r| stage.end.turn2(r.met_at.truncate()).extend(0.0)).collect();
        let mut all = watched.clone();
        all.push(stage.other.extend(0.0));
        let camera = stage.camera(Sight::Eyes, &all, 1.6);
        let middle = camera.seen(stage.other.extend(0.9)).unwrap().x;
        for (place, bearing) in watched.iter().zip(bearings(&session)) {
            if let Some(seen) = camera.seen(*place).filter(|_| bearing.abs() > 1.0) {
                assert_eq!(seen.x > middle, bearing > 0.0, "{place}");
            }
        }
    }
}
