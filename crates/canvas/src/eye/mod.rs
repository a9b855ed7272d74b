//! What is seen from the court: through the eyes of the hitter who waits at the spot, and from behind the court.
//!
//! Painted with the same painter as everything else, from the back to the front. Everything is turned so that the player
//! whose view it is stands at the near end.

mod figure;
mod film;

use egui::{Align2, Rect, Stroke, Ui, accesskit::Role};
use glam::{DVec2, DVec3, dvec2};
use standpoint_geometry::{Court, End, Outcome, Play, Player, Reply};
use standpoint_language::{text, tr};
use standpoint_ui::theme::Theme;
use standpoint_workbench::{session::Session, settings::Sight, words};

use super::{
    announce,
    brush::{Brush, Side},
    field,
    flights::{met_time, number_mark},
    pinhole::Pinhole,
};
use figure::Figure;
use film::Film;

/// Height of the eyes as a part of stature: Drillis and Contini, Body Segment Parameters, 1966 (from memory).
const EYES: f64 = 0.936;
/// Height at which a serve is struck as a part of stature (common practice, no source). A player in a wheelchair sits as
/// much lower as they serve.
const SERVE: f64 = 1.5;
/// How far beyond the outermost thing the view through the eyes reaches on either side, and its bounds, rad.
const BESIDE: f64 = 0.10;
const WIDTHS: (f64, f64) = (0.80, 1.75);
/// How far behind the baseline a player waits while nothing has been told, m.
const UNTOLD: f64 = 1.5;
/// Where the camera behind the court stands: so far behind the player and so high, m; and how wide it looks, rad.
const BEHIND: (f64, f64) = (7.5, 4.6);
const BEHIND_WIDTH: f64 = 1.05;
/// A player looks down at the court: the horizon stands so far up the upper half of the picture.
const LOOKS_DOWN: f64 = 0.5;
/// A picture wider than so many times its height shows less of what lies above and below than a person sees.
const WIDEST: f64 = 2.2;

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

/// Height of a player's eyes, m.
#[must_use]
pub fn eye_height(player: &Player) -> f64 {
    player.serve.height * EYES / SERVE
}

/// Who stands where as the opponent strikes; in the frame of the player whose view it is.
#[derive(Debug, Clone, Copy)]
struct Stage {
    /// The end of the player whose view it is.
    end: End,
    me: DVec2,
    eyes: f64,
    other: DVec2,
    /// Stature of the opponent, m.
    tall: f64,
    ball: Option<DVec3>,
}

impl Stage {
    /// As the opponent meets the shot being looked at, or as far as it gets.
    ///
    /// Until the answer is `told`, the player waits in the middle behind the baseline.
    fn of(session: &Session, told: bool) -> Option<Self> {
        let spec = session.shot()?;
        let end = session.hitter_end();
        let board = session.board();
        let (me, other) = (board.card(end).player(), board.card(end.other()).player());
        let (place, ball) = match session.answer().map(|answer| &answer.outcome) {
            Some(Outcome::Play(play)) => (play.receipt.place, Some(play.receipt.contact)),
            Some(Outcome::NoReply(receipt)) => (receipt.place, Some(receipt.contact)),
            Some(Outcome::Winner { closest, .. }) => (closest.truncate(), None),
            None => (spec.opponent_place, None),
        };
        let spot = spec.recover_to.or_else(|| session.play().map(|play| play.spot.place)).map(|place| end.turn2(place));
        let middle = dvec2(0.0, -session.court().half_length() - UNTOLD);
        Some(Self {
            end,
            me: if told { spot.unwrap_or_else(|| end.turn2(board.hitter_place(spec))) } else { middle },
            eyes: eye_height(&me),
            other: end.turn2(place),
            tall: other.serve.height / SERVE,
            ball: ball.map(|ball| end.turn3(ball)),
        })
    }

    /// As the hitter is about to strike: for the choice of a shot.
    fn striking(session: &Session) -> Option<Self> {
        let spec = session.shot()?;
        let end = session.hitter_end();
        let board = session.board();
        let place = board.hitter_place(spec);
        let (me, other) = (board.card(end).player(), board.card(end.other()).player());
        Some(Self {
            end,
            me: end.turn2(place),
            eyes: eye_height(&me),
            other: end.turn2(spec.opponent_place),
            tall: other.serve.height / SERVE,
            ball: None,
        })
    }

    fn eye(&self) -> DVec3 {
        self.me.extend(self.eyes)
    }

    /// The camera, so that all these places are in the picture as far as a person can see them.
    fn camera(&self, sight: Sight, watched: &[DVec3], ratio: f64) -> Pinhole {
        match sight {
            Sight::Eyes => {
                let eye = self.eye();
                let middle = self.other.extend(0.9);
                let ahead = (middle - eye).truncate();
                let beside = |place: &DVec3| ahead.angle_to((*place - eye).truncate()).abs();
                let reach = watched.iter().map(beside).fold(0.0, f64::max) + BESIDE;
                let width = (2.0 * reach).clamp(WIDTHS.0, WIDTHS.1);
                // What lands near the feet is in sight as well.
                let low = watched.iter().map(|place| (eye.z - place.z) / (*place - eye).truncate().length().max(0.5));
                let low = low.fold(0.0, f64::max).min(0.9);
                let half_height = (width / 2.0).tan() / ratio;
                let least = LOOKS_DOWN * half_height.atan();
                let down = (low.atan() - half_height.atan() + 0.08).clamp(least, 0.5_f64.max(least));
                let along = ahead.normalize_or(DVec2::Y);
                Pinhole::new(eye, eye + along.extend(-down.tan()), width)
            }
            Sight::Behind => {
                let back = self.me.y.min(-11.885) - BEHIND.0;
                let eye = DVec3::new(self.me.x * 0.6, back, BEHIND.1);
                let width = if ratio > WIDEST { BEHIND_WIDTH * 1.25 } else { BEHIND_WIDTH };
                Pinhole::new(eye, DVec3::new(self.me.x * 0.2, -6.0, 0.0), width)
            }
        }
    }
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

/// Sky, the screen behind the far end, the run-off and the court.
fn ground(film: &Film<'_, '_>, court: &Court) {
    let theme = film.brush.theme;
    film.brush.painter.rect_filled(film.rect, 0.0, *theme.ui.canvas);
    let c = &theme.court;
    film.below_horizon(*c.surround);
    let (wide, long) = (court.site_half_width(), court.site_half_length());
    let back: Vec<DVec3> = [(-wide, 0.0), (wide, 0.0), (wide, 3.0), (-wide, 3.0)]
        .into_iter()
        .map(|(x, z)| DVec3::new(x, long, z))
        .collect();
    film.shape(&back, *c.surround, Stroke::NONE);
    film.shape(&back, c.halo.gamma_multiply(0.45), Stroke::NONE);
    let (x, y) = (court.outer_half_width(), court.half_length());
    let inside = [dvec2(-x, -y), dvec2(x, -y), dvec2(x, y), dvec2(-x, y)].map(|p| p.extend(0.0));
    film.shape(&inside, *c.court, Stroke::NONE);
}

fn lines(film: &Film<'_, '_>, court: &Court) {
    let color = *film.brush.theme.court.line;
    for line in court.lines() {
        let along = (line.to - line.from).normalize_or_zero();
        let across = along.perp() * line.width / 2.0;
        let corners = [line.from - across, line.from + across, line.to + across, line.to - across];
        film.shape(&corners.map(|p| p.extend(0.0)), color, Stroke::NONE);
        film.plain(&[line.from.extend(0.0), line.to.extend(0.0)], Stroke::new(1.0, color));
    }
}

fn net(film: &Film<'_, '_>, court: &Court) {
    let c = &film.brush.theme.court;
    let post = court.post_x();
    let top = |x: f64| DVec3::new(x, 0.0, court.net_height(x));
    let places: Vec<f64> = (0..=24).map(|i| post * (f64::from(i) / 12.0 - 1.0)).collect();
    for pair in places.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let mesh = [DVec3::new(a, 0.0, 0.0), DVec3::new(b, 0.0, 0.0), top(b), top(a)];
        film.shape(&mesh, c.net.gamma_multiply(0.30), Stroke::NONE);
        film.plain(&[mesh[0], mesh[3]], Stroke::new(0.8, c.net.gamma_multiply(0.5)));
    }
    for part in [0.2, 0.4, 0.6, 0.8] {
        let at = |x: f64| DVec3::new(x, 0.0, court.net_height(x) * part);
        film.plain(&[at(-post), at(0.0), at(post)], Stroke::new(0.8, c.net.gamma_multiply(0.5)));
    }
    for pair in places.windows(2) {
        let (a, b) = (top(pair[0]), top(pair[1]));
        let band = [a - DVec3::Z * 0.06, b - DVec3::Z * 0.06, b, a];
        film.shape(&band, *c.tape, Stroke::NONE);
    }
    film.plain(&[top(-post), top(0.0), top(post)], Stroke::new(1.4, *c.tape));
    film.plain(&[DVec3::ZERO, top(0.0)], Stroke::new(2.0, *c.tape));
    for x in [-post, post] {
        film.plain(&[DVec3::new(x, 0.0, 0.0), top(x)], Stroke::new(3.0, *c.net));
    }
}

fn zone(film: &Film<'_, '_>, play: &Play) {
    let (stroke, dash) = field::contour_style(film.brush.theme, 0);
    for ring in play.contours.first().into_iter().flat_map(|zone| &zone.rings) {
        let places: Vec<DVec3> = ring.iter().map(|place| film.end.turn2(*place).extend(0.0)).collect();
        film.stroke(&places, stroke, dash);
    }
    film.spot(film.end.turn2(play.spot.place));
}

fn wedge(film: &Film<'_, '_>, play: &Play) {
    let wedge = &play.wedge;
    let [apex, left, right] =
        [wedge.apex, wedge.left_landing, wedge.right_landing].map(|place| film.end.turn2(place).extend(0.0));
    film.shape(&[apex, left, right], *film.brush.theme.court.wedge, Stroke::NONE);
    let long = super::brush::Dash::Pattern(film.brush.theme.m.pattern.long);
    for landing in [left, right] {
        film.cased(&[apex, landing], film.brush.theme.m.stroke.thin, Side::Opponent, long);
    }
}

/// The flight of a reply: its part beyond the net or the one on this side, with its shadow on the ground.
fn flight(film: &Film<'_, '_>, reply: &Reply, number: usize, beyond: bool) {
    let met = met_time(reply);
    let seen = |p: &&standpoint_geometry::PathPoint| p.time <= met + 1e-9;
    let all: Vec<DVec3> = reply.path.iter().filter(seen).map(|p| film.end.turn3(p.point)).collect();
    let Some(crossing) = all.iter().position(|p| p.y <= 0.0) else { return };
    let part = if beyond { &all[..=crossing] } else { &all[crossing.saturating_sub(1)..] };
    let theme = film.brush.theme;
    let shadow: Vec<DVec3> = part.iter().map(|p| p.truncate().extend(0.0)).collect();
    film.plain(&shadow, Stroke::new(2.4, theme.court.hitter_ink.gamma_multiply(0.35)));
    let width = if number == 0 { theme.m.stroke.bold * 1.3 } else { theme.m.stroke.bold };
    film.cased(part, width, Side::Opponent, super::brush::Dash::Solid);
}

/// Its number where it lands, and a square where it is met.
fn marks(film: &Film<'_, '_>, reply: &Reply, number: usize) {
    let met = film.end.turn3(reply.met_at);
    if let Some(at) = film.point(met) {
        super::flights::meeting(film.brush, at);
    }
    let landing = film.end.turn2(reply.landing).extend(0.0);
    film.disc(landing, 0.22, Side::Opponent);
    if let Some(at) = film.point(landing) {
        number_mark(film.brush, at - egui::vec2(0.0, 20.0), number);
    }
}

/// Whose view it is, in the upper left corner.
fn title(brush: &Brush<'_>, rect: Rect, sight: Sight, session: &Session) {
    let said = label(sight, session);
    let galley = brush.text(said, *brush.theme.court.ink);
    let at = rect.left_top() + egui::vec2(brush.theme.m.space.edge, brush.theme.m.space.item);
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
        // Adults' eyes stand between 1.45 and 1.85 m, those of a seated player between 1.0 and 1.35 m (from memory).
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
