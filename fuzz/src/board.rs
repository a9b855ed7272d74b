//! Boards: read and well, or refused with a place and a remedy.

use standpoint_board::{Board, Report, check, file, playback::Timeline, rally::Rally};
use standpoint_geometry::{Answer, Outcome, Play, Solver};

/// Shots that are answered: one takes several milliseconds, and a file may hold thousands.
const ANSWERED: usize = 2;

/// Reads bytes as a board.
pub fn check(bytes: &[u8]) {
    match file::from_bytes(bytes) {
        Err(report) => refused(&report, bytes),
        Ok(board) => {
            assert_eq!(check::check(&board), []);
            comes_back(&board);
            can_be_answered(&board);
        }
    }
}

/// Every problem of a refused file has a place inside the file, and says what to do.
pub fn refused(report: &Report, bytes: &[u8]) {
    assert!(report.count() > 0);
    let lines: Vec<&[u8]> = bytes.split(|byte| *byte == b'\n').collect();
    for problem in &report.problems {
        let said = problem.to_string();
        assert!(said.len() < 2000, "{} bytes of words", said.len());
        assert!(!problem.kind.remedy().trim().is_empty(), "{said}");
        let at = problem.at.unwrap_or_else(|| panic!("no place: {said}"));
        let line = lines.get(at.line.wrapping_sub(1)).unwrap_or_else(|| panic!("no such line: {said}"));
        // Behind the last character is inside still: there something is missing.
        let characters = String::from_utf8_lossy(line).chars().count();
        assert!((1..=characters + 1).contains(&at.column), "no such column: {said}");
    }
}

/// What is saved is what was read, and saving again changes nothing.
fn comes_back(board: &Board) {
    let text = file::to_text(board).expect("a board that is well is written");
    let read = file::from_text(&text).unwrap_or_else(|report| panic!("{report}"));
    let mut tidy = board.clone();
    tidy.tidy();
    assert_eq!(read, tidy);
    assert_eq!(file::to_text(&read).as_ref(), Ok(&text));
}

/// Every situation can be put to the solver, and what it answers is finite.
fn can_be_answered(board: &Board) {
    let mut solver = Solver::new();
    for page in &board.pages {
        for shot in &page.shots {
            assert_eq!(board.situation_of(shot).validate(), []);
        }
    }
    let page = board.pages.first().expect("a page");
    for spec in page.shots.iter().take(ANSWERED) {
        if let Ok(answer) = solver.solve(&board.situation_of(spec)) {
            finite(&answer);
        }
    }
    let mut short = board.clone();
    short.pages.truncate(1);
    if let Some(page) = short.page_mut(0) {
        page.shots.truncate(ANSWERED);
    }
    let mut rally = Rally::new();
    while rally.advance(&short, &short.pages[0], &mut solver) {}
    let timeline = Timeline::new(&short, rally.all_known());
    assert!(timeline.duration().is_finite());
    let _ = timeline.at(0.5 * timeline.duration());
}

/// No number of an answer is without meaning.
pub fn finite(answer: &Answer) {
    let shot = &answer.shot;
    assert!(shot.path.iter().all(|point| point.time.is_finite() && point.point.is_finite()));
    assert!((0.0..=1.0).contains(&shot.chance_in), "{}", shot.chance_in);
    match &answer.outcome {
        Outcome::Winner { late_by, closest } => assert!(late_by.is_finite() && closest.is_finite()),
        Outcome::Play(play) => finite_play(play),
        Outcome::NoReply(receipt) => assert!(receipt.time.is_finite() && receipt.contact.is_finite()),
    }
    if let Some(play) = &answer.returner {
        finite_play(play);
    }
}

fn finite_play(play: &Play) {
    for at in [play.spot, play.middle, play.recovery.reached] {
        assert!(at.place.is_finite());
        assert!((0.0..=1.0).contains(&at.exposure), "{}", at.exposure);
    }
    assert!(play.field.values.iter().all(|value| (0.0..=1.0).contains(value)));
    assert!(!play.best.is_empty() && play.best.len() <= 2);
    for reply in &play.best {
        assert!(reply.landing.is_finite() && reply.time_to_spare.is_finite() && reply.exposure.is_finite());
        assert!((0.0..=1.0).contains(&reply.chance_in));
    }
    assert!(play.contours.iter().flat_map(|contour| &contour.rings).flatten().all(|point| point.is_finite()));
    let run = &play.recovery;
    assert!([run.distance, run.available, run.needed, run.short_by].iter().all(|n| n.is_finite() && *n >= 0.0));
}
