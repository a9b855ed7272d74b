//! Usual figures of each stroke, with which a newly chosen stroke begins.
//!
//! Our choice, so that each stroke can be played from its usual place and then be changed.

use glam::{DVec2, DVec3, dvec2};
use standpoint_board::{Board, ShotSpec};
use standpoint_geometry::{
    AimError, Court, End, Player, SolveError, Stroke, solve,
    units::{KMH, RPM},
};

/// Chooses a stroke for a shot, with usual speed, spin and height and, where needed, a usual place.
pub fn choose(board: &mut Board, at: crate::selection::Selection, stroke: Stroke) {
    let court = board.court.court();
    let Some(spec) = board.shot(at.page, at.shot).copied() else { return };
    let player = board.card(spec.hitter_end).player();
    let mut shot = usual(spec, stroke, &player, &court);
    if spec.follows {
        // It is struck where the shot before was met.
        shot.shot.contact = spec.shot.contact;
        shot.hitter_place = spec.hitter_place;
    }
    let shot = playable(board, shot);
    if let Some(place) = board.shot_mut(at.page, at.shot) {
        *place = shot;
    }
}

/// Brings speed and spin of a player's shots to what the player can do now, as they were to what the player `before`
/// could; a serve and an overhead are struck as high as the player reaches. On the page in view a shot that cannot be
/// played so is brought to the nearest speed at which it can.
pub fn adapt(board: &mut Board, page_in_view: usize, end: End, before: &Player) {
    let after = board.card(end).player();
    if after == *before {
        return;
    }
    for page in 0..board.pages.len() {
        let shots = board.page(page).map_or(0, |page| page.shots.len());
        for shot in 0..shots {
            let Some(spec) = board.shot(page, shot).copied().filter(|spec| spec.hitter_end == end) else { continue };
            let mut spec = scaled(spec, before, &after);
            spec.shot.contact = board.play_area().clamp_contact(end, spec.shot.contact);
            if page == page_in_view && !spec.follows {
                spec = playable(board, spec);
            }
            if let Some(place) = board.shot_mut(page, shot) {
                *place = spec;
            }
        }
    }
}

/// A shot with the share of the player's own speed, spin and reach that it had of those of the player before.
fn scaled(mut spec: ShotSpec, before: &Player, after: &Player) -> ShotSpec {
    let share = |new: f64, old: f64| if old.abs() > 1e-9 { new / old } else { 1.0 };
    let (speed, spin, height) = match spec.shot.stroke {
        Stroke::Serve => (
            share(after.serve.first_speed, before.serve.first_speed),
            share(after.serve.topspin, before.serve.topspin),
            share(after.serve.height, before.serve.height),
        ),
        Stroke::Overhead => (
            share(after.forehand.speed, before.forehand.speed),
            share(after.forehand.topspin, before.forehand.topspin),
            share(after.reach.overhead, before.reach.overhead),
        ),
        // A drop shot and a lob are touched, not struck: their speed is the court's.
        Stroke::Drop | Stroke::Lob => (1.0, share(after.forehand.topspin, before.forehand.topspin), 1.0),
        _ => (
            share(after.forehand.speed, before.forehand.speed),
            share(after.forehand.topspin, before.forehand.topspin),
            1.0,
        ),
    };
    // Bounds of a board, as its check has them.
    spec.shot.speed = (spec.shot.speed * speed).clamp(11.0 * KMH, 270.0 * KMH);
    let most = 6600.0 * RPM;
    spec.shot.topspin = (spec.shot.topspin * spin).clamp(-most, most);
    spec.shot.contact.z *= height;
    spec
}

/// The shot with the speed nearest to its own at which it can be played; unchanged when there is none.
fn playable(board: &Board, spec: ShotSpec) -> ShotSpec {
    let mut tried = spec;
    for _ in 0..16 {
        match solve(&board.situation_of(&tried)) {
            Ok(_) => return tried,
            Err(SolveError::Aim(AimError::TooSlow { .. })) => tried.shot.speed *= 1.06,
            Err(SolveError::Aim(AimError::TooFast | AimError::Net { .. })) => tried.shot.speed *= 0.95,
            Err(_) => break,
        }
    }
    spec
}

fn usual(mut spec: ShotSpec, stroke: Stroke, player: &Player, court: &Court) -> ShotSpec {
    let end = spec.hitter_end;
    let drive = player.forehand;
    let from_serve = spec.shot.stroke == Stroke::Serve;
    // Speed as a part of the rally speed, spin as a part of the topspin of a drive, height in metres.
    let (speed, topspin, height) = match stroke {
        Stroke::Topspin => (drive.speed, drive.topspin, 0.9),
        Stroke::Flat => (drive.speed * 1.1, drive.topspin * 0.3, 1.1),
        Stroke::Slice => (drive.speed * 0.75, -drive.topspin * 0.7, 0.8),
        Stroke::Drop => (55.0 * KMH, -drive.topspin * 0.6, 0.7),
        Stroke::Lob => (72.0 * KMH, drive.topspin * 0.5, 0.7),
        Stroke::Volley => (drive.speed * 0.65, -drive.topspin * 0.3, 1.2),
        Stroke::Overhead => (drive.speed * 1.25, drive.topspin * 0.2, player.reach.overhead),
        Stroke::Serve => (player.serve.first_speed, player.serve.topspin / 3.0, player.serve.height),
    };
    spec.shot = standpoint_geometry::Shot { stroke, speed, topspin, sidespin: 0.0, ..spec.shot };
    spec.shot.contact.z = height;
    let seen = end.turn2(spec.shot.contact.truncate());
    let target = end.turn2(spec.shot.target);
    match stroke {
        Stroke::Volley | Stroke::Overhead if seen.y < -0.5 * court.half_length() => {
            let at_net = dvec2(seen.x * 0.5, -0.28 * court.half_length());
            put(&mut spec, at_net.extend(height));
        }
        Stroke::Drop => spec.shot.target = end.turn2(dvec2(target.x, 0.27 * court.half_length())),
        Stroke::Lob => spec.shot.target = end.turn2(dvec2(target.x, 0.86 * court.half_length())),
        Stroke::Serve => serve(&mut spec, seen, court, height),
        _ if from_serve => put(&mut spec, dvec2(seen.x, -court.half_length() - 0.5).extend(height)),
        _ => {}
    }
    spec
}

/// Moves the contact, in the hitter's frame; the hitter moves along.
fn put(spec: &mut ShotSpec, contact: DVec3) {
    spec.shot.contact = spec.hitter_end.turn3(contact);
    spec.hitter_place = None;
}

/// From beside the centre mark into the box on the other side.
fn serve(spec: &mut ShotSpec, seen: DVec2, court: &Court, height: f64) {
    let side = if seen.x >= 0.0 { 1.0 } else { -1.0 };
    put(spec, dvec2(side * 0.9, -court.half_length() + 0.2).extend(height));
    // The ball is met over the court, from behind the baseline.
    spec.hitter_place = Some(spec.hitter_end.turn2(dvec2(side * 0.6, -court.half_length() - 0.25)));
    let box_depth = court.service_line.unwrap_or(0.5 * court.half_length());
    spec.shot.target = spec.hitter_end.turn2(dvec2(-side * 0.75 * court.half_width(), box_depth * 0.88));
    spec.opponent_place = spec.hitter_end.turn2(dvec2(-side * 0.8 * court.half_width(), court.half_length() + 1.0));
}

#[cfg(test)]
mod tests {
    use standpoint_board::PlayerCard;
    use standpoint_geometry::Level;

    use super::*;
    use crate::selection::Selection;

    #[test]
    fn every_stroke_can_be_played_as_it_is_first_chosen() {
        for level in [Level::Club, Level::Tournament, Level::ProMan, Level::ProWoman, Level::JuniorGirl] {
            for stroke in Stroke::ALL {
                let mut board = Board::demo();
                board.near = PlayerCard::of_level("Mara", level);
                choose(&mut board, Selection::default(), stroke);
                let answer = solve(&board.situation(0, 0).unwrap());
                assert!(answer.is_ok(), "{stroke:?} by {level:?}: {}", answer.unwrap_err());
            }
        }
    }

    #[test]
    fn a_new_level_plays_its_own_speed_and_spin() {
        let mut board = Board::demo();
        let usual = board.shot(0, 0).unwrap().shot;
        for level in Level::ALL {
            let mut changed = board.clone();
            crate::edit::Edit::Level(End::Near, level).apply(&mut changed, Selection::default());
            let answer = solve(&changed.situation(0, 0).unwrap());
            assert!(answer.is_ok(), "{level:?}: {}", answer.unwrap_err());
        }
        let before = board.near.player().forehand;
        crate::edit::Edit::Level(End::Near, Level::ProMan).apply(&mut board, Selection::default());
        let (now, pro) = (board.shot(0, 0).unwrap().shot, board.near.player().forehand);
        assert!((now.topspin / usual.topspin - pro.topspin / before.topspin).abs() < 1e-9);
        assert!(now.speed > usual.speed, "a professional strikes harder");
        let far = Board::demo();
        crate::edit::Edit::Level(End::Far, Level::ProMan).apply(&mut board, Selection::default());
        assert_eq!(board.shot(0, 0).unwrap().shot, now, "the other player's shots are theirs");
        assert_eq!(far.shot(0, 0).unwrap().shot, usual);
    }

    #[test]
    fn back_from_a_serve_the_hitter_is_behind_the_baseline_again() {
        let mut board = Board::demo();
        for stroke in [Stroke::Serve, Stroke::Topspin] {
            choose(&mut board, Selection::default(), stroke);
        }
        assert!(solve(&board.situation(0, 0).unwrap()).is_ok());
    }
}
