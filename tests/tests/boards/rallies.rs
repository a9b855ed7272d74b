//! Rallies of any players with any targets: each shot starts where the last one ended, and time has no jumps.

use std::sync::{Arc, OnceLock};

use glam::DVec2;
use proptest::{collection::vec, option, prelude::*, sample::select};
use standpoint_board::{
    Board, Page, PlayerCard, check,
    patterns::Pattern,
    playback::{Control, Pace, Playback, Timeline},
    rally::{Ended, Rally, Resolved},
};
use standpoint_geometry::{Answer, End, Hand, Level, Outcome, ReceiptChoice, Solver};

/// The patterns of two tournament players, from either end and on both wings; laid out once.
fn patterns() -> &'static [(End, Page)] {
    static PAGES: OnceLock<Vec<(End, Page)>> = OnceLock::new();
    PAGES.get_or_init(|| {
        let mut pages = Vec::new();
        for coached in [End::Near, End::Far] {
            let board = Board { coached, ..Board::blank() };
            let both = Pattern::ALL.into_iter().flat_map(|p| [(p, false), (p, true)]);
            pages.extend(both.map(|(pattern, mirrored)| (coached, pattern.page(&board, mirrored))));
        }
        pages
    })
}

/// A rally after a pattern, with its targets, receipts and recoveries moved.
fn board() -> impl Strategy<Value = Board> {
    // Levels that can play from one baseline to the other; the youngest have their own courts.
    let able: Vec<Level> =
        Level::ALL.into_iter().filter(|l| *l > Level::OrangeJunior && *l != Level::Improver).collect();
    let card = move || {
        (select(able.clone()), select(vec![Hand::Right, Hand::Left])).prop_map(|(level, hand)| {
            let mut card = PlayerCard::of_level("Somebody", level);
            card.hand = hand;
            card
        })
    };
    let place = || (-4.0..4.0f64, -13.0..-0.5f64).prop_map(|(x, y)| DVec2::new(x, y));
    let changes =
        vec(((-0.6..0.6f64, -1.2..0.5f64), option::weighted(0.2, place()), option::weighted(0.3, place())), 5);
    (card(), card(), any::<prop::sample::Index>(), changes).prop_map(|(near, far, which, changes)| {
        let (coached, mut page) = which.get(patterns()).clone();
        let mut board = Board { near, far, coached, ..Board::blank() };
        let area = board.play_area();
        for (spec, ((dx, dy), receipt, recovery)) in page.shots.iter_mut().zip(changes) {
            let (here, there) = (spec.hitter_end, spec.hitter_end.other());
            spec.shot.target = area.clamp_at(there, spec.shot.target + here.turn2(DVec2::new(dx, dy)));
            spec.receipt = receipt.map_or(ReceiptChoice::Best, |place| ReceiptChoice::Near(there.turn2(place)));
            spec.recover_to = recovery.map(|place| here.turn2(place));
        }
        board.pages = vec![Arc::new(page)];
        board.tidy();
        board
    })
}

fn resolved(board: &Board, page: &Page) -> (Vec<Resolved>, Option<Ended>) {
    let (mut rally, mut solver, mut shots) = (Rally::new(), Solver::new(), Vec::new());
    for i in 0..page.shots.len() {
        match rally.resolve(board, page, i, &mut solver) {
            Ok(shot) => shots.push(shot.clone()),
            Err(ended) => return (shots, Some(ended)),
        }
    }
    (shots, None)
}

fn is_sound(answer: &Answer) -> bool {
    let shot = &answer.shot;
    let path = shot.path.iter().all(|p| p.point.is_finite() && p.time.is_finite());
    let ordered = shot.path.windows(2).all(|pair| pair[0].time <= pair[1].time);
    let chance = (0.0..=1.0).contains(&shot.chance_in);
    let rest = match &answer.outcome {
        Outcome::Winner { late_by, closest } => *late_by >= 0.0 && closest.is_finite(),
        Outcome::NoReply(receipt) => receipt.contact.is_finite(),
        Outcome::Play(play) => {
            let places = [play.spot, play.middle, play.recovery.reached];
            places.iter().all(|p| p.place.is_finite() && (0.0..=1.0).contains(&p.exposure))
                && play.field.values.iter().all(|value| (0.0..=1.0).contains(value))
                && (0.0..=1.0).contains(&play.receipt.pressure)
        }
    };
    path && ordered && chance && rest
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(80))]

    #[test]
    fn each_shot_starts_where_the_one_before_ended(board in board()) {
        let page = board.page(0).unwrap();
        let (shots, ended) = resolved(&board, page);
        prop_assert_eq!(shots.len() == page.shots.len(), ended.is_none());
        for shot in &shots {
            prop_assert!(shot.result.as_ref().map_or(true, is_sound));
        }
        for pair in shots.windows(2) {
            let play = pair[0].play().expect("only a shot that is returned is followed");
            let next = &pair[1].spec;
            prop_assert_eq!(next.hitter_end, pair[0].spec.hitter_end.other());
            prop_assert_eq!((next.shot.contact, next.hitter_place), (play.receipt.contact, Some(play.receipt.place)));
            prop_assert_eq!(next.opponent_place, pair[0].recovered(play));
            prop_assert!(board.play_area().holds(next.opponent_place));
        }
    }

    #[test]
    fn a_rally_with_its_places_written_into_it_can_be_saved(board in board()) {
        let mut board = board;
        let (shots, _) = resolved(&board, board.page(0).unwrap());
        let page = board.page_mut(0).unwrap();
        for (i, shot) in shots.iter().enumerate() {
            page.shots[i] = shot.spec;
        }
        board.tidy();
        prop_assert_eq!(check::check(&board), vec![]);
    }

    #[test]
    fn nobody_and_no_ball_jumps_and_scrubbing_shows_what_playing_shows(board in board()) {
        const STEP_S: f64 = 1.0 / 120.0;
        let (shots, _) = resolved(&board, board.page(0).unwrap());
        let timeline = Timeline::new(&board, &shots);
        prop_assert!(timeline.stretches.windows(2).all(|pair| (pair[0].end - pair[1].start).abs() < 1e-12));
        let mut player = Playback::default().after(Control::Play, &timeline);
        let mut last = timeline.at(0.0);
        prop_assert_eq!(last.is_some(), !shots.is_empty() && shots[0].result.is_ok());
        while player.playing {
            player = player.passed(STEP_S, &timeline);
            let time = player.time.unwrap();
            let (now, before) = (timeline.at(time).unwrap(), last.unwrap());
            prop_assert!(now.ball.is_finite() && now.near.is_finite() && now.far.is_finite());
            // Limits of this test: a ball at 80 m/s off the racket, a player at 13 m/s.
            prop_assert!(now.ball.distance(before.ball) < 80.0 * STEP_S, "{} to {} at {}", before.ball, now.ball, time);
            for (a, b) in [(before.near, now.near), (before.far, now.far)] {
                prop_assert!(a.distance(b) < 13.0 * STEP_S, "{} to {} at {}", a, b, time);
            }
            let scrubbed = Playback::default().after(Control::Seek(time), &timeline);
            prop_assert_eq!(timeline.at(scrubbed.time.unwrap()).unwrap(), now);
            last = Some(now);
        }
        // Slow motion shows the same moments, later.
        let slow = Playback::default().after(Control::Play, &timeline).after(Control::Pace(Pace::Quarter), &timeline);
        let (mut slow, mut fast) = (slow, Playback::default().after(Control::Play, &timeline));
        for _ in 0..20 {
            slow = slow.passed(0.4, &timeline);
            fast = fast.passed(0.1, &timeline);
            prop_assert!((slow.time.unwrap() - fast.time.unwrap()).abs() < 1e-9);
        }
    }

    #[test]
    fn putting_in_and_taking_out_keeps_the_ends_alternating(
        board in board(),
        steps in vec((any::<bool>(), any::<prop::sample::Index>(), any::<prop::sample::Index>()), 1..12)
    ) {
        let mut board = board;
        for (put, at, which) in steps {
            let page = board.page_mut(0).unwrap();
            if put {
                let spec = page.shots[which.index(page.shots.len())];
                page.insert_shot(at.index(page.shots.len() + 1), spec);
            } else {
                let count = page.shots.len();
                prop_assert_eq!(page.remove_shot(at.index(count), None), count > 1);
            }
            prop_assert!(!page.shots[0].follows);
            prop_assert!(page.shots.windows(2).all(|pair| !pair[1].follows || pair[0].hitter_end != pair[1].hitter_end));
            prop_assert_eq!(check::check(&board), vec![]);
        }
    }
}
