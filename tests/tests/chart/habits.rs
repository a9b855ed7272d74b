//! Planted habits are recovered, and the model's good player stands where good players were measured to stand.

use standpoint_board::chart::Chart;
use standpoint_board::{BounceFigures, SurfaceChoice};
use standpoint_charting::{
    audit::Outcome,
    fit::Habits,
    invented::{self, Habit},
    report::{RecoveryHabit, ReportModel},
    stats::Estimate,
};
use standpoint_geometry::{End, Level, PACE_REFERENCE_RESTITUTION, Surface, SurfaceKind};

use crate::{audited, larkfield};

const SEED: u64 = 20_260_503;

fn report(chart: &Chart) -> ReportModel {
    let (findings, kept) = audited(chart);
    let mut habits = Habits::default();
    kept.shots.iter().for_each(|shot| habits.add(shot));
    ReportModel::new(&chart.setup, &findings, &habits)
}

#[test]
fn the_player_who_always_goes_to_the_middle_is_told_from_the_one_who_does_not() {
    let chart = invented::chart(&larkfield(Level::Tournament), SEED, 60, [Habit::EXPERT, Habit::MIDDLE]);
    let report = report(&chart);
    let [expert, middle] = &report.players[..] else { panic!("{:?}", report.players.len()) };
    assert!((expert.recovery.share.unwrap().value - 1.0).abs() < 0.15, "{:?}", expert.recovery);
    assert_eq!(expert.recovery.habit, RecoveryHabit::Spot);
    assert!(middle.recovery.share.unwrap().value.abs() < 0.15, "{:?}", middle.recovery);
    assert_eq!(middle.recovery.habit, RecoveryHabit::Middle);
    // Shot by shot too, as far as the scatter of their places allows.
    assert!(expert.all.to_the_middle.unwrap().value < 0.3, "{:?}", expert.all.to_the_middle);
    assert!(middle.all.to_the_middle.unwrap().value > 0.5, "{:?}", middle.all.to_the_middle);
    // Going to the middle costs points.
    let (best, worst) = (expert.all.avoidable.mean.unwrap(), middle.all.avoidable.mean.unwrap());
    assert!(worst > 1.5 * best, "{best} {worst}");
}

#[test]
fn a_player_who_goes_half_the_way_is_placed_in_between() {
    let half = Habit { to_the_spot: 0.5, ..Habit::EXPERT };
    let chart = invented::chart(&larkfield(Level::Tournament), SEED, 40, [half, half]);
    for player in &report(&chart).players {
        let share = player.recovery.share.unwrap();
        assert!(share.low > 0.2 && share.high < 0.8 && share.holds(0.5), "{share:?}");
    }
}

#[test]
fn a_planted_error_comes_back_with_its_sign_at_both_ends() {
    let near = Habit { across: 0.6, along: 0.8, ..Habit::EXPERT };
    let far = Habit { across: -0.5, along: -0.4, ..Habit::EXPERT };
    // Nineteen of twenty intervals hold what was planted; fewer than eight of ten do so in one of ninety cases (binomial).
    let mut held = 0;
    for seed in SEED..SEED + 5 {
        let chart = invented::chart(&larkfield(Level::Club), seed, 24, [near, far]);
        let report = report(&chart);
        for (player, habit) in report.players.iter().zip([near, far]) {
            let (across, along) = (player.all.across, player.all.along);
            assert!((across.mean.unwrap() - habit.across).abs() < 0.08, "{across:?}");
            assert!((along.mean.unwrap() - habit.along).abs() < 0.08, "{along:?}");
            assert!((across.deviation.unwrap() - habit.scatter).abs() < 0.08, "{across:?}");
            held += u32::from((across.low.unwrap()..=across.high.unwrap()).contains(&habit.across));
        }
    }
    assert!(held >= 8, "{held} of 10");
}

#[test]
fn changing_ends_changes_nothing() {
    let setup = larkfield(Level::Club);
    let planted = Habit { across: 0.6, ..Habit::EXPERT };
    let chart = invented::chart(&setup, SEED, 10, [planted, Habit::MIDDLE]);
    let mut turned = chart.clone();
    for point in &mut turned.points {
        point.ends = standpoint_board::chart::Ends::Changed;
        for shot in &mut point.shots {
            shot.hitter = shot.hitter.other();
            shot.contact = -shot.contact;
            let places =
                [&mut shot.landing, &mut shot.met, &mut shot.stood, &mut shot.hitter_place, &mut shot.opponent_place];
            places.into_iter().for_each(|place| *place = place.map(|place| -place));
        }
    }
    let (before, after) = (audited(&chart).1, audited(&turned).1);
    for (a, b) in before.shots.iter().zip(&after.shots) {
        assert_eq!(a.began, b.began);
        match (&a.outcome, &b.outcome) {
            (Outcome::Judged(a), Outcome::Judged(b)) => {
                assert!((a.spot - b.spot).length() < 1e-9 && (a.avoidable - b.avoidable).abs() < 1e-9);
            }
            (a, b) => assert_eq!(a, b),
        }
    }
}

/// A court of medium pace, as most hard courts are rated (category 3 of the ITF's classes).
fn medium_pace() -> SurfaceChoice {
    let medium = Surface::from_pace(37.0);
    SurfaceChoice {
        kind: SurfaceKind::Custom,
        measured: Some(BounceFigures {
            friction: medium.friction,
            restitution: PACE_REFERENCE_RESTITUTION,
            grip_restitution: medium.grip_restitution,
        }),
    }
}

/// Where receivers stand for each metre the hitter is wide (open data). The only positions of players in it
/// are those of one final of professional men on a hard court, 0.247 ± 0.030 m (taken for one standard error; the
/// collection does not say). Of women only the balls are known: the middle of the band in which they cross a metre
/// behind the baseline, 0.232 (0.237 of men), which is where the model's spot is compared to. Of juniors and clubs
/// nothing is known, so nothing is held against them.
#[test]
#[ignore = "not met yet, see 'What is not met' in docs/model.md"]
fn an_expert_stands_as_far_to_the_other_side_as_professionals_do_within_the_errors_of_both() {
    // Measured by this model with this seed: men 0.195 (0.180 to 0.209) at their places; women 0.204 (0.191 to 0.217) at
    // theirs, and 0.208 and 0.228 at the model's spots; tournament players 0.169. Men are flatter than those on camera by
    // a fifth, 1.7 standard errors; were ±0.030 half of a 95 % interval, it would be three.
    let (camera, error) = (0.247, 0.030);
    for (level, balls) in [(Level::ProMan, 0.237), (Level::ProWoman, 0.232)] {
        let mut setup = larkfield(level);
        setup.surface = medium_pace();
        let report = report(&invented::chart(&setup, SEED, 120, [Habit::EXPERT, Habit::MIDDLE]));
        let [expert, middle] = [0, 1].map(|player: usize| report.players[player].ready);
        let (stood, spot) = (expert.player.unwrap(), expert.model.unwrap());
        let one = |estimate: Estimate| (estimate.high - estimate.low) / (2.0 * 1.96);
        assert!(one(stood) < 0.01, "it is narrow enough to tell: {stood:?}");
        if level == Level::ProMan {
            assert!((stood.value - camera).abs() < 2.0 * f64::hypot(error, one(stood)), "{stood:?}");
        }
        // The geometry of the balls, within a fifth, as the wedge is weighted by how hard a ball is to play.
        assert!((spot.value / balls - 1.0).abs() < 0.2, "{level:?} {spot:?}");
        // Always going to the middle contradicts both, and the check distinguishes it.
        let middle = middle.player.unwrap();
        assert!(middle.value.abs() < 0.1 && middle.high < camera - 2.0 * error, "{level:?} {middle:?}");
    }
}

#[test]
fn what_was_not_noted_is_filled_in_and_the_habit_still_shows() {
    let mut chart = invented::chart(&larkfield(Level::Tournament), SEED, 60, [Habit::EXPERT, Habit::MIDDLE]);
    for shot in chart.points.iter_mut().flat_map(|point| &mut point.shots) {
        shot.contact_height = None;
        (shot.met, shot.hitter_place, shot.opponent_place) = (None, None, None);
        (shot.stroke, shot.wing, shot.speed, shot.topspin) = (None, None, None, None);
        (shot.time, shot.met_time) = (None, None);
    }
    let (findings, _) = audited(&chart);
    let report = report(&chart);
    assert_eq!(report.players[0].recovery.habit, RecoveryHabit::Spot, "{:?}", report.players[0].recovery);
    assert_eq!(report.players[1].recovery.habit, RecoveryHabit::Middle, "{:?}", report.players[1].recovery);
    let near = findings.section(End::Near);
    assert_eq!((near.assumed.speed, near.assumed.height), (near.all.judged(), near.all.judged()));
    // The next shot of the point shows where this one was met.
    assert!(near.assumed.met < near.all.judged() / 2, "{:?}", near.assumed);
}

#[test]
fn shares_of_directions_come_back() {
    let chart = invented::chart(&larkfield(Level::Club), SEED, 40, [Habit::EXPERT, Habit::EXPERT]);
    let report = report(&chart);
    for player in &report.players {
        let shots: u64 = player.habits.iter().map(|habit| habit.shots).sum();
        assert_eq!(shots, player.all.shots);
        for habit in &player.habits {
            let sum: f64 = habit.directions.iter().map(|direction| direction.share.value).sum();
            assert!((sum - 1.0).abs() < 1e-9);
        }
    }
}
