//! Situations are the same for the same seed, can be played, and fit their theme.

use proptest::prelude::*;
use standpoint_geometry::Play;

use super::*;
use crate::{check::check, patterns::Pattern};

/// Levels that situations are drawn for.
fn levels() -> impl Strategy<Value = Level> {
    let drawn = |level: &Level| !matches!(level, Level::RedJunior | Level::OrangeJunior);
    proptest::sample::select(Level::ALL.into_iter().filter(drawn).collect::<Vec<_>>())
}

fn play(exercise: &Exercise, solver: &mut Solver) -> Play {
    exercise.answer(solver).unwrap().play().unwrap().clone()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn every_situation_drawn_is_sound_met_and_on_theme(
        seed in any::<u64>(), level in levels(), left_handed in any::<bool>(),
        theme in proptest::sample::select(Theme::ALL.to_vec()),
    ) {
        let mut solver = Solver::new();
        let exercise = Exercise::drawn(theme, seed, Trainee { level, left_handed, figures: 0 }, &mut solver);
        prop_assert!(check(&exercise.board).is_empty(), "{:?}", check(&exercise.board));
        let answer = exercise.answer(&mut solver).unwrap();
        prop_assert!(answer.play().is_some(), "{theme:?}: {:?}", answer.outcome);
        prop_assert_eq!(exercise.board.near.hand == Hand::Left, left_handed);
        let situation = exercise.board.situation(0, 0).unwrap();
        match theme {
            Theme::Return => {
                let spec = exercise.spec();
                prop_assert!(spec.shot.contact.y < -10.5, "met at the baseline");
                prop_assert!(spec.opponent_place.y > 11.3 && spec.opponent_place.x.abs() < 1.3, "from a server's place");
            }
            _ => prop_assert_eq!(Theme::of(&situation), Some(theme)),
        }
    }

    #[test]
    fn the_same_seed_is_the_same_situation(
        seed in any::<u64>(), theme in proptest::sample::select(Theme::ALL.to_vec()),
    ) {
        let trainee = Trainee::of_level(Level::Club, false);
        let mut used = Solver::new();
        let first = Exercise::drawn(theme, seed, trainee, &mut used);
        let _other = Exercise::drawn(theme, seed ^ 1, trainee, &mut used);
        // A used solver gives the same.
        prop_assert_eq!(&Exercise::drawn(theme, seed, trainee, &mut used), &first);
        prop_assert_eq!(Exercise::drawn(theme, seed, trainee, &mut Solver::new()), first);
    }

    #[test]
    fn the_mirror_image_of_a_situation_has_the_mirror_image_of_its_answer(
        seed in any::<u64>(), theme in proptest::sample::select(Theme::ALL.to_vec()),
    ) {
        let mut solver = Solver::new();
        let trainee = Trainee::of_level(Level::Tournament, false);
        let exercise = Exercise::drawn(theme, seed, trainee, &mut solver);
        let (plain, mirror) = (play(&exercise, &mut solver), play(&exercise.mirrored(), &mut solver));
        prop_assert!((plain.spot.exposure - mirror.spot.exposure).abs() < 2e-3);
        // Where several places are about as good, the spot may be another of them.
        let there = DVec2::new(-plain.spot.place.x, plain.spot.place.y);
        let situation = exercise.mirrored().board.situation(0, 0).unwrap();
        let judged = solver.what_if(&situation, &[there]).unwrap();
        prop_assert!(judged[0].place.exposure - mirror.spot.exposure < 5e-3, "{there}: {judged:?}");
        prop_assert_eq!(exercise.mirrored().mirrored(), exercise);
    }
}

#[test]
fn a_left_hander_gets_the_mirror_image_against_the_same_opponent() {
    let mut solver = Solver::new();
    for theme in Theme::ALL {
        let of = |left_handed, solver: &mut Solver| {
            Exercise::drawn(theme, 11, Trainee::of_level(Level::Club, left_handed), solver)
        };
        let (right, left) = (of(false, &mut solver), of(true, &mut solver));
        assert_eq!(left.board.near.hand, Hand::Left);
        assert_eq!(*left.spec(), right.spec().mirrored());
    }
}

#[test]
fn the_plain_ball_of_every_theme_can_be_played_and_met_at_every_level() {
    let (mut solver, mut missed) = (Solver::new(), Vec::new());
    for level in Level::ALL.into_iter().filter(|level| !matches!(level, Level::RedJunior | Level::OrangeJunior)) {
        for theme in Theme::ALL {
            for hand in [Hand::Right, Hand::Left] {
                let board = plain(theme, (level, None), hand, &mut solver);
                let answer = solver.solve(&board.situation(0, 0).unwrap());
                if !answer.as_ref().is_ok_and(|answer| answer.play().is_some()) {
                    let why = answer.map(|answer| answer.outcome);
                    missed.push(format!("{level:?}, {theme:?}, against a {hand:?}-hander: {why:?}"));
                }
            }
        }
    }
    assert!(missed.is_empty(), "{missed:#?}");
}

#[test]
fn seeds_differ() {
    let mut solver = Solver::new();
    let trainee = Trainee::of_level(Level::Club, false);
    let one = Exercise::drawn(Theme::CrossCourt, 1, trainee, &mut solver);
    let two = Exercise::drawn(Theme::CrossCourt, 2, trainee, &mut solver);
    assert_ne!(one.board, two.board);
}

#[test]
fn the_shots_of_the_coached_player_are_taken_from_a_board_as_they_come_about() {
    let mut solver = Solver::new();
    let mut board = Board::demo();
    let page = Pattern::CrossCrossLine.page(&board, false);
    board.pages.push(Arc::new(page));
    let found = Exercise::of_board(&board, &mut solver);
    assert!(found.len() >= 3, "{}", found.len());
    for exercise in &found {
        assert_eq!(exercise.spec().hitter_end, board.coached);
        assert!(exercise.answer(&mut solver).unwrap().play().is_some());
        assert!(check(&exercise.board).is_empty(), "{:?}", check(&exercise.board));
    }
    let prints: std::collections::HashSet<_> = found.iter().map(|exercise| &exercise.item).collect();
    assert_eq!(prints.len(), found.len());
    assert_eq!(Exercise::of_board(&board, &mut solver), found, "and the same way every time");
}
