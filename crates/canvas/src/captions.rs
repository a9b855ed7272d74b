//! Words on the court.

use egui::{CornerRadius, Pos2, Rect, Stroke, StrokeKind, vec2};
use glam::DVec2;
use standpoint_board::Units;
use standpoint_geometry::{NetCrossing, Outcome, Play, Reply};
use standpoint_language::{text, tr};
use standpoint_workbench::{session::Session, settings::Settings, words};

use super::{
    brush::{Brush, Side},
    handles,
    labels::{LabelId, Placer, Wish},
    marks, numbers, tags, touch_rect,
};

/// Registers the areas that labels must not cover, including `taken`.
pub fn begin(
    brush: &Brush<'_>,
    placer: &mut Placer,
    canvas: Rect,
    taken: Vec<Rect>,
    session: &Session,
    settings: &Settings,
) {
    let ghosts = settings.comparing && settings.layers.ghosts;
    placer.begin(canvas.shrink(6.0), obstacles(brush, session, ghosts).into_iter().chain(taken));
    placer.avoid(lines(brush, session, settings, ghosts));
    let court = session.court();
    let corner = DVec2::new(court.outer_half_width(), court.half_length());
    placer.beside(Rect::from_two_pos(brush.point(-corner), brush.point(corner)));
    if let Some(play) = session.play().filter(|_| !ghosts) {
        let around = brush.at.length(CLEAR_M).max(2.0 * marks::spot_radius(brush));
        placer.keep_clear(touch_rect(brush.point(play.spot.place), 2.0 * around));
    }
}

/// Paints labels, the most important first; labels without room are left to the panel.
///
/// With `ghosts` several shots are compared: then the drawn one alone has no labels.
pub fn paint(brush: &Brush<'_>, placer: &mut Placer, session: &Session, settings: &Settings, ghosts: bool) {
    let units = session.units();
    if let Some(elsewhere) = session.what_if() {
        super::ghost::tag(brush, placer, session, elsewhere);
    }
    if let Some(play) = session.play() {
        if settings.layers.replies && session.what_if().is_none() {
            let places = numbers::places(brush, session);
            for (i, (reply, place)) in session.best().into_iter().zip(places).enumerate() {
                reply_tag(brush, placer, i, reply, place);
            }
        }
        if settings.layers.run {
            short(brush, placer, play, units);
        }
    }
    if let Some(answer) = session.answer().filter(|_| !ghosts) {
        if let Outcome::Winner { late_by, closest } = &answer.outcome {
            let said = tr!("{} too late", words::seconds(*late_by));
            tags::plain(brush, placer, LabelId::Receipt, closest.truncate(), 12.0, &said);
        }
        net(brush, placer, &answer.shot.net, units);
        super::returner::tag(brush, placer, answer);
    }
    names(brush, placer, session);
    if let Some(play) = session.play().filter(|_| settings.layers.bisector) {
        // Beside the spot, else wherever along the line there is room.
        let along = |share: f64| play.wedge.apex.lerp(play.bisector.place, share);
        let mut places = ALONG_BISECTOR.into_iter().map(along);
        places.any(|place| tags::where_clear(brush, placer, LabelId::Bisector, place, 8.0, text("bisector")));
    }
}

/// Where the bisector may be named, as shares of the way from the opponent's contact to the spot's depth.
const ALONG_BISECTOR: [f64; 6] = [1.0, 1.04, 0.75, 0.6, 0.45, 0.3];

/// How far around the spot no callout covers the ground, m.
const CLEAR_M: f64 = 1.2;

/// Areas that labels must not cover.
fn obstacles(brush: &Brush<'_>, session: &Session, ghosts: bool) -> Vec<Rect> {
    let mark = 28.0;
    let mut rects: Vec<Rect> =
        handles::handles(session).iter().map(|h| touch_rect(brush.point(h.place), mark)).collect();
    if let Some(play) = session.play().filter(|_| !ghosts) {
        rects.push(touch_rect(brush.point(play.spot.place), 2.0 * marks::spot_radius(brush) + 8.0));
        rects.push(touch_rect(brush.point(play.recovery.reached.place), mark));
        let number = 2.0 * numbers::number_radius(brush);
        rects.extend(numbers::places(brush, session).into_iter().map(|place| touch_rect(place, number)));
    }
    if let Some(play) = session.answer().and_then(|answer| answer.returner.as_deref()).filter(|_| !ghosts) {
        rects.push(super::returner::obstacle(brush, play));
    }
    rects
}

/// Areas that labels avoid: the net, and the paths of ball and player in small pieces.
fn lines(brush: &Brush<'_>, session: &Session, settings: &Settings, ghosts: bool) -> Vec<Rect> {
    let mut rects = Vec::new();
    let mut along = |from: DVec2, to: DVec2, width: f32| {
        let (a, b) = (brush.point(from), brush.point(to));
        let pieces = (a.distance(b) / 14.0).ceil().max(1.0);
        rects.extend((0..=pieces as usize).map(|i| touch_rect(a.lerp(b, i as f32 / pieces), width)));
    };
    let half = session.court().outer_half_width();
    along(DVec2::new(-half, 0.0), DVec2::new(half, 0.0), 8.0);
    if ghosts {
        return rects;
    }
    if let Some(answer) = session.answer() {
        let from = answer.shot.path.first().map_or(answer.shot.landing.place, |p| p.point.truncate());
        along(from, answer.shot.landing.place, 6.0);
    }
    if let Some(play) = session.play() {
        along(play.recovery.start, play.spot.place, 8.0);
        for ring in play.contours.iter().flat_map(|contour| &contour.rings) {
            ring.windows(2).step_by(3).for_each(|w| along(w[0], w[1], 4.0));
        }
        for reply in play.best.iter().filter(|_| settings.layers.replies) {
            along(play.wedge.apex, reply.landing, 6.0);
            along(reply.landing, reply.met_at.truncate(), 4.0);
        }
    }
    rects
}

/// The tag of a reply: its name, its chance and the time it leaves.
pub fn reply_tag(brush: &Brush<'_>, placer: &mut Placer, i: usize, reply: &Reply, place: Pos2) {
    let (_, edge) = brush.inks(Side::Opponent);
    let second = tr!("{} in, {}", words::percent(reply.chance_in), words::spare(reply.time_to_spare));
    let first = format!("{}  {}", i + 1, words::reply_struck(reply.name, reply.stroke));
    placed_tag(brush, placer, i, place, (tags::two_lines(brush, &first, &second, edge), Some(first)));
}

/// The same with its name alone, for those who read it from afar.
pub fn short_reply_tag(brush: &Brush<'_>, placer: &mut Placer, i: usize, reply: &Reply, place: Pos2) {
    let (_, edge) = brush.inks(Side::Opponent);
    let said = format!("{}  {}", i + 1, words::reply(reply.name));
    placed_tag(brush, placer, i, place, (brush.text(said, edge), None));
}

/// Places a tag; on a court that is small for it, it goes beside the court or is replaced by the short one.
fn placed_tag(
    brush: &Brush<'_>,
    placer: &mut Placer,
    i: usize,
    anchor: Pos2,
    (galley, short): (std::sync::Arc<egui::Galley>, Option<String>),
) {
    let short = short.filter(|_| placer.is_small_for(galley.size().x));
    let (ink, edge) = brush.inks(Side::Opponent);
    let pad = vec2(8.0, 5.0);
    let wish = Wish { id: LabelId::Reply(i), anchor, size: galley.size() + pad * 2.0, gap: 16.0, beside: true };
    let beside = if short.is_some() { placer.place_beside(&wish) } else { placer.place(&wish) };
    let Some(rect) = beside else {
        // A small court has room for the name alone, if at all.
        if let Some(said) = short {
            placed_tag(brush, placer, i, anchor, (brush.text(said, edge), None));
        }
        return;
    };
    tags::leader(brush, anchor, rect, Side::Opponent);
    let radius = CornerRadius::same(brush.theme.m.radius.medium as u8);
    brush.painter.rect(rect, radius, ink, Stroke::new(1.0, edge.gamma_multiply(0.8)), StrokeKind::Inside);
    brush.painter.galley(rect.min + pad, galley, edge);
}

/// Distance by which the run falls short.
pub fn short(brush: &Brush<'_>, placer: &mut Placer, play: &Play, units: Units) {
    if play.recovery.short_by > words::SHORT {
        let said = tr!("not there by {}", words::length(play.recovery.short_by, units));
        tags::plain(brush, placer, LabelId::Short, play.recovery.reached.place, 17.0, &said);
    }
}

/// The height over the net.
fn net(brush: &Brush<'_>, placer: &mut Placer, net: &NetCrossing, units: Units) {
    let said = tr!("{} over the net", words::fine_length(net.clearance, units));
    tags::plain(brush, placer, LabelId::Net, DVec2::new(net.x, 0.0), 12.0, &said);
}

/// The players' names.
pub fn names(brush: &Brush<'_>, placer: &mut Placer, session: &Session) {
    let Some(spec) = session.shot() else { return };
    let gap = marks::player_radius(brush) + 7.0;
    let board = session.board();
    let hitter = board.hitter_place(spec);
    tags::plain(brush, placer, LabelId::Hitter, hitter, gap, &board.card(spec.hitter_end).name);
    let other = spec.hitter_end.other();
    tags::plain(brush, placer, LabelId::Opponent, spec.opponent_place, gap, &board.card(other).name);
}
