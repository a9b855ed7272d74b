//! Practice from a finding: a page with a drill, and the moments themselves for a rehearsal.

use std::sync::Arc;

use glam::DVec2;
use standpoint_board::chart::model::Setup;
use standpoint_board::marks::{Form, Ink, Layer, Marks};
use standpoint_board::model::{Board, Drill, Page};
use standpoint_language::{decimal, text, tr};

use crate::audit::{AuditedShot, Judged};
use crate::insight::{Axis, Insight, group, sentence};

/// Most moments of a rehearsal: enough for one sitting. A choice.
pub const MOMENTS: usize = 24;
/// Balls of a set, and sets; common practice, no source.
const BALLS: usize = 8;
const SETS: usize = 4;
/// Radius of the drawn place to recover to, m.
const PLACE_M: f64 = 0.6;
/// Half sizes of the zone that balls are aimed at, across and along, m.
const ZONE_M: (f64, f64) = (0.9, 1.2);

/// The shots of a finding, those that gave away most first.
#[must_use]
pub fn shots_of<'a>(insight: &Insight, shots: &'a [AuditedShot]) -> Vec<&'a AuditedShot> {
    let own = |shot: &&AuditedShot| shot.began == insight.player && insight.group.holds(shot);
    let mut found: Vec<(&AuditedShot, &Judged)> =
        shots.iter().filter(own).filter_map(|shot| Some((shot, shot.judged()?))).collect();
    found.sort_by(|a, b| b.1.avoidable.total_cmp(&a.1.avoidable));
    found.into_iter().map(|(shot, _)| shot).collect()
}

/// A page to practise a finding: the ball most like the others, the place to recover to, and the drill. `None` where
/// none of the shots is left.
#[must_use]
pub fn page(insight: &Insight, shots: &[AuditedShot]) -> Option<Page> {
    let own = shots_of(insight, shots);
    let shot = typical(&own)?;
    let judged = shot.judged()?;
    let mut page = shot.page()?;
    // The place to be is practised, not the place where they were.
    for spec in &mut page.shots {
        spec.recover_to = None;
    }
    page.title = tr!("Recover: {}", group(&insight.group));
    page.notes = tr!(
        "{}\nThe ball on the drawing is the one of these that is most like the others: {}.\nModel estimates; a qualified \
         coach decides.",
        sentence(insight),
        shot.title()
    );
    page.cues = cues(insight);
    page.drill = drill(insight, judged);
    page.marks = marks(shot, judged);
    Some(page)
}

/// A board with a page for each of these findings, in their order; `None` where there are none to practise.
#[must_use]
pub fn board(setup: &Setup, insights: &[&Insight], shots: &[AuditedShot]) -> Option<Board> {
    let pages: Vec<Arc<Page>> = insights.iter().filter_map(|insight| page(insight, shots)).map(Arc::new).collect();
    let player = insights.first()?.player;
    if pages.is_empty() {
        return None;
    }
    let mut board = setup.board(pages);
    board.coached = player;
    board.title = tr!("Drills for {}", setup.card(player).name);
    Some(board)
}

/// The moments of a finding as a board to rehearse from, the costliest first.
#[must_use]
pub fn rehearsal(setup: &Setup, insight: &Insight, shots: &[AuditedShot]) -> Option<Board> {
    let own = shots_of(insight, shots);
    let pages: Vec<Arc<Page>> = own.iter().take(MOMENTS).filter_map(|shot| shot.page()).map(Arc::new).collect();
    if pages.is_empty() {
        return None;
    }
    let mut board = setup.board(pages);
    board.coached = insight.player;
    board.title = tr!("{}: {}", setup.card(insight.player).name, group(&insight.group));
    Some(board)
}

/// The shot most like the others: nearest to their mean contact, landing, and place to be.
fn typical<'a>(shots: &[&'a AuditedShot]) -> Option<&'a AuditedShot> {
    let places = |shot: &AuditedShot| Some([shot.contact, shot.landing, shot.judged()?.goal]);
    let all: Vec<[DVec2; 3]> = shots.iter().filter_map(|shot| places(shot)).collect();
    let mean = [0, 1, 2].map(|i| all.iter().map(|of| of[i]).sum::<DVec2>() / all.len().max(1) as f64);
    let away = |shot: &AuditedShot| {
        let of = places(shot).unwrap_or(mean);
        (0..3).map(|i| of[i].distance_squared(mean[i])).sum::<f64>()
    };
    shots.iter().copied().min_by(|a, b| away(a).total_cmp(&away(b)))
}

/// Cues for the court; common practice, no source.
fn cues(insight: &Insight) -> Vec<String> {
    let metres = decimal(insight.error.value.abs(), 1);
    let (first, where_to) = match (insight.axis, insight.error.value > 0.0) {
        (Axis::Across, true) => (tr!("{} m further left than you are used to", metres), text("Push off to the left")),
        (Axis::Across, false) => {
            (tr!("{} m further right than you are used to", metres), text("Push off to the right"))
        }
        (Axis::Along, true) => {
            (tr!("{} m further forward than you are used to", metres), text("Come up behind your ball"))
        }
        (Axis::Along, false) => (tr!("{} m deeper than you are used to", metres), text("Make room behind you")),
    };
    let still = text("Stand still on the mark when the opponent strikes");
    vec![first, where_to.to_owned(), still.to_owned()]
}

fn drill(insight: &Insight, judged: &Judged) -> Drill {
    let feed = tr!(
        "Feed to the player's place on the drawing. The player strikes to the zone and recovers; a second ball is played \
         from where the opponent stands. {} sets of {} balls.",
        SETS,
        BALLS
    );
    let targets = tr!(
        "One point for a ball in the zone, one for both feet on the mark when the opponent strikes ({} s after the own \
         contact). {} of {} count.",
        decimal(judged.available, 1),
        BALLS - 2,
        BALLS
    );
    let progression = match insight.axis {
        Axis::Across => text(
            "First without a second ball; then with it to either side; then play the point out. Harder: feed earlier, so \
             that the mark is only just in reach.",
        ),
        Axis::Along => text(
            "First without a second ball; then with deep and short second balls by turns; then play the point out. Harder: \
             do not tell which comes.",
        ),
    };
    Drill { feed, targets, progression: progression.to_owned(), equipment: text("Balls, two cones").to_owned() }
}

/// The place to recover to and the zone to aim at, in the frame of the board.
fn marks(shot: &AuditedShot, judged: &Judged) -> Marks {
    let own = |place: DVec2| shot.began.turn2(place);
    let zone = |middle: DVec2, half: DVec2, round: bool, ink: Ink| {
        let (from, to) = (own(middle - half), own(middle + half));
        (ink, Form::Zone { from: from.min(to), to: from.max(to), round })
    };
    let forms = [
        zone(judged.goal, DVec2::splat(PLACE_M), true, Ink::Coached),
        zone(shot.landing, DVec2::new(ZONE_M.0, ZONE_M.1), false, Ink::Ball),
        (Ink::Plain, Form::Cone { at: own(judged.goal + DVec2::new(0.0, PLACE_M)) }),
        (Ink::Warning, Form::Cone { at: own(judged.stood) }),
    ];
    let mut marks = Marks::default();
    for (ink, form) in forms {
        marks.add(Layer::Drill, ink, form);
    }
    marks
}

#[cfg(test)]
mod tests {
    use standpoint_board::check;
    use standpoint_geometry::End;

    use super::*;
    use crate::audit::{CollectedShots, Compare, Crew, Watch};
    use crate::insight::insights;
    use crate::invented::{self, Habit};

    /// An audit of a chart in which the near player goes to the model's place and the far one always to the middle.
    fn audited() -> (Setup, Vec<AuditedShot>, Vec<Insight>) {
        let setup = Setup::default();
        let chart = invented::chart(&setup, 5, 40, [Habit::EXPERT, Habit::MIDDLE]);
        let crew = Crew::new(&setup, Compare::default(), 2).unwrap();
        let mut kept = CollectedShots::default();
        let stop = std::sync::atomic::AtomicBool::new(false);
        let (findings, _) =
            crew.audit_chart_so_far(&chart, &mut kept, &mut Watch { progress: &mut |_| (), stop: &stop }).unwrap();
        let found = insights(&findings.cells);
        (setup, kept.shots, found)
    }

    #[test]
    fn a_finding_becomes_a_drill_with_its_own_ball_and_a_rehearsal_of_its_moments() {
        let (setup, shots, found) = audited();
        let Some(insight) = found.iter().find(|insight| insight.player == End::Far) else {
            panic!("the middle costs points somewhere");
        };
        let own = shots_of(insight, &shots);
        assert_eq!(own.len() as u64, insight.shots.max(own.len() as u64), "every shot of the group is there");
        let board = board(&setup, &[insight], &shots).unwrap();
        assert!(check::check(&board).is_empty(), "{:?}", check::check(&board));
        let page = &board.pages[0];
        assert_eq!((board.coached, page.shots.len(), page.shots[0].recover_to), (End::Far, 1, None));
        assert!(!page.drill.is_empty() && page.cues.len() == 3 && page.notes.contains(&sentence(insight)));
        // The mark lies at the model's place, at the player's own end; the zone where the ball landed.
        let Form::Zone { from, to, round: true } = page.marks.list[0].form else { panic!() };
        assert!((from + to).y / 2.0 > 0.0, "at the far end");
        let moments = rehearsal(&setup, insight, &shots).unwrap();
        assert!(check::check(&moments).is_empty());
        assert_eq!(moments.pages.len(), own.len().min(MOMENTS));
        let mut solver = standpoint_geometry::Solver::new();
        let exercises = standpoint_board::rehearse::Exercise::of_board(&moments, &mut solver);
        assert!(exercises.len() * 10 >= moments.pages.len() * 9, "{} of {}", exercises.len(), moments.pages.len());
    }
}
