//! How much ground the action of a page needs: the view that fits the court shows that much run-off and no more.

use egui::Rect;
use glam::{DVec2, dvec2};
use standpoint_geometry::{Court, Outcome, Play};
use standpoint_ui::transform::{CourtView, Ground};
use standpoint_workbench::session::Session;

/// Run-off that is always shown behind the baselines and beside the outermost lines, m.
pub const LEAST: DVec2 = dvec2(1.2, 2.0);
/// Ground around the middle of whatever has to be seen, m.
const AROUND: f64 = 0.7;
/// Ground around the line of the recovery zone, m.
const ZONE: f64 = 0.1;
/// The ground ends at multiples of this, m: a small change of a shot leaves the view as it is.
const STEP: f64 = 0.25;
/// Ground that is left over by this much, m, is given up again.
const SPARE: f64 = 1.6;

/// The ground that has to be seen of the page being looked at.
#[must_use]
pub fn ground(session: &Session, least: DVec2) -> Ground {
    let court = session.court();
    let half = dvec2(court.outer_half_width(), court.half_length());
    let mut ground = Ground { least: -half - least, most: half + least };
    for place in places(session) {
        ground.least = ground.least.min(place - AROUND);
        ground.most = ground.most.max(place + AROUND);
    }
    let site = dvec2(court.site_half_width(), court.site_half_length());
    Ground { least: (ground.least / STEP).floor() * STEP, most: (ground.most / STEP).ceil() * STEP }
        .within(site.max(half + least))
}

/// Everything that stands, lands or is met somewhere.
fn places(session: &Session) -> Vec<DVec2> {
    let mut places = Vec::new();
    for spec in session.page().into_iter().flat_map(|page| &page.shots) {
        places.extend([spec.opponent_place, spec.shot.contact.truncate(), spec.shot.target]);
        places.extend(spec.hitter_place);
    }
    for resolved in session.rally() {
        let spec = &resolved.spec;
        places.push(session.board().hitter_place(spec));
        let Ok(answer) = &resolved.result else { continue };
        places.extend(answer.returner.as_deref().map(|receiver| receiver.spot.place));
        match &answer.outcome {
            Outcome::Play(play) => {
                places.extend([play.spot.place, play.receipt.place, play.receipt.contact.truncate()]);
                places.push(play.recovery.reached.place);
                places.extend(zone_around_spot(play));
            }
            Outcome::NoReply(receipt) => places.push(receipt.place),
            Outcome::Winner { closest, .. } => places.push(closest.truncate()),
        }
    }
    for mark in session.marks().into_iter().flat_map(|marks| marks.shown()) {
        places.extend(mark.form.outline());
    }
    places
}

/// The part of the recovery zone that the spot lies in.
fn zone_around_spot(play: &Play) -> impl Iterator<Item = DVec2> + '_ {
    let rings = play.contours.first().into_iter().flat_map(|zone| &zone.rings);
    let near = |ring: &&Vec<DVec2>| {
        let (least, most) =
            ring.iter().fold((DVec2::INFINITY, DVec2::NEG_INFINITY), |(a, b), p| (a.min(*p), b.max(*p)));
        play.spot.place.cmpge(least).all() && play.spot.place.cmple(most).all()
    };
    // The lines end there: a little less ground around them than around a player.
    let inwards = move |place: &DVec2| *place - (*place - play.spot.place).clamp_length_max(AROUND - ZONE);
    rings.filter(near).flatten().map(inwards)
}

/// The view that fits the court into a rectangle: with the ground that the action needs, lying or standing as it is larger
/// unless `turned` by the coach.
///
/// What the view showed before stays as long as it does, so that nothing jumps: it gives way to what needs more ground, or
/// much less.
#[must_use]
pub fn fitted(view: CourtView, rect: Rect, session: &Session, turned: bool) -> CourtView {
    fitted_with(view, rect, session, turned, LEAST)
}

/// The same with at least so much run-off beside the lines and behind them, m.
#[must_use]
pub fn fitted_with(view: CourtView, rect: Rect, session: &Session, turned: bool, least: DVec2) -> CourtView {
    let wanted = ground(session, least);
    let kept = view.ground.filter(|shown| {
        let (a, b) = (wanted.least - shown.least, shown.most - wanted.most);
        shown.contains(&wanted) && a.max_element().max(b.max_element()) <= SPARE
    });
    let view = view.of(kept.unwrap_or(wanted));
    if turned { view } else { view.largest(rect, &session.court()) }
}

/// Part of a window that the court inside its outermost lines covers.
#[must_use]
pub fn share(view: &CourtView, rect: Rect, window: Rect, court: &Court) -> f32 {
    let scale = view.transform(rect, court).scale();
    let lines = 4.0 * court.outer_half_width() * court.half_length();
    lines as f32 * scale * scale / window.area()
}

#[cfg(test)]
mod tests {
    use egui::{Pos2, vec2};
    use standpoint_board::Board;

    use super::*;

    #[test]
    fn the_ground_holds_the_whole_action_and_little_more() {
        let session = Session::new(Board::demo(), None);
        let shown = ground(&session, LEAST);
        let court = session.court();
        for place in places(&session) {
            assert!(shown.contains(&Ground { least: place, most: place }), "{place}");
        }
        assert!(shown.size().y < court.length + 11.0, "{shown:?}");
        assert!(shown.most.y - court.half_length() >= 2.0 && -shown.least.y - court.half_length() >= 2.0);
    }

    #[test]
    fn the_place_where_a_serve_is_received_is_in_sight() {
        let library = standpoint_board::library::Library::shipped();
        let board = library.search("serve").into_iter().find(|entry| entry.title.starts_with("Serve wide")).unwrap();
        let session = Session::new((*board.board).clone(), None);
        let receiver =
            session.answer().and_then(|answer| answer.returner.as_deref()).expect("it is a serve").spot.place;
        let shown = ground(&session, LEAST);
        assert!(shown.contains(&Ground { least: receiver - 0.5, most: receiver + 0.5 }), "{receiver} in {shown:?}");
    }

    #[test]
    fn the_view_stays_until_the_action_leaves_it() {
        let session = Session::new(Board::demo(), None);
        let rect = Rect::from_min_size(Pos2::ZERO, vec2(1000.0, 700.0));
        let first = fitted(CourtView::fitted(0), rect, &session, false);
        assert_eq!(first.turn, 1, "it lies in a wide window");
        assert_eq!(fitted(CourtView::fitted(0), rect, &session, true).turn, 0, "unless the coach has chosen");
        let wider = Ground { least: first.ground.unwrap().least - 1.0, most: first.ground.unwrap().most + 1.0 };
        let kept = fitted(first.of(wider), rect, &session, false);
        assert_eq!(kept.ground, Some(wider));
        let much_wider = Ground { least: wider.least - 1.0, most: wider.most };
        assert_eq!(fitted(first.of(much_wider), rect, &session, false).ground, first.ground);
    }
}
