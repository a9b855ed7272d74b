//! The costliest moments open as boards that agree with the audit.

use standpoint_board::file;
use standpoint_charting::invented::Habit;
use standpoint_geometry::{Level, Solver};

use crate::{audited, larkfield};

#[test]
fn a_moment_is_a_board_whose_answer_is_that_of_the_audit() {
    let setup = larkfield(Level::Club);
    let chart = standpoint_charting::invented::chart(&setup, 5, 30, [Habit::MIDDLE, Habit::MIDDLE]);
    let (findings, _) = audited(&chart);
    let costliest = findings.costliest();
    assert_eq!(costliest.len(), 10);
    let costs: Vec<f64> = costliest.iter().map(|shot| shot.judged().unwrap().avoidable).collect();
    assert!(costs.windows(2).all(|pair| pair[0] >= pair[1]), "{costs:?}");
    for shot in costliest {
        let board = shot.board(&setup).unwrap();
        // The board can be saved and comes back the same.
        let mut tidy = board.clone();
        tidy.tidy();
        assert_eq!(file::from_text(&file::to_text(&board).unwrap()).unwrap(), tidy);
        let judged = shot.judged().unwrap();
        let situation = board.situation(0, 0).unwrap();
        let mut solver = Solver::new();
        let answer = solver.solve(&situation).unwrap();
        let play = answer.play().unwrap();
        let spot = shot.began.turn2(play.spot.place);
        assert!((spot - judged.spot).length() < 0.01, "{spot} {}", judged.spot);
        let stood = shot.began.turn2(judged.stood);
        let exposure = solver.exposures(&situation, &[stood]).unwrap()[0].exposure;
        assert!((exposure - play.spot.exposure - judged.extra).abs() < 1e-4);
        assert!(board.pages[0].notes.contains("Model estimates"), "{}", board.pages[0].notes);
        assert_eq!(board.coached, shot.began);
    }
}

#[test]
fn a_moment_of_someone_else_has_their_figures() {
    let setup = larkfield(Level::Club);
    let mut chart = standpoint_charting::invented::chart(&setup, 5, 4, [Habit::MIDDLE, Habit::MIDDLE]);
    for shot in chart.points.iter_mut().flat_map(|point| &mut point.shots) {
        shot.struck_by.level = Some(Level::ProWoman);
        shot.against.level = Some(Level::JuniorBoy);
    }
    let (findings, _) = audited(&chart);
    let shot = findings.costliest()[0];
    assert_eq!(shot.level, Some(Level::ProWoman));
    let board = shot.board(&setup).unwrap();
    assert_eq!(board.card(shot.began).level(), Some(Level::ProWoman));
    assert_eq!(board.card(shot.began.other()).level(), Some(Level::JuniorBoy));
}
