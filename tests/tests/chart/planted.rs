//! Findings and habits: the planted ones are found, and no others, over 100 seeds.

use std::sync::Arc;

use glam::DVec2;
use standpoint_board::{
    chart::{
        Setup,
        score::{CourtSide, ServeNumber},
    },
    model::ShotSpec,
};
use standpoint_charting::{
    audit::{Assumed, AuditedShot, Context, Direction, FromSide, Judged, Length, Origin, Outcome, Pressure, Role},
    fit::Habits,
    insight::{self, Axis, Cells, Change, Insight, Measure, ShotGroup, changes, insights},
    invented::{self, Habit},
    scouting::{self, Case, Choices, STRENGTH, Smoothing, Tell, Way, tells},
};
use standpoint_geometry::{End, Level, ReadyArea, Stroke, Wing};

use crate::{audited, larkfield};

/// Pseudo-random numbers by a linear congruence, good enough here.
struct Dice(u64);

impl Dice {
    fn seeded(seed: u64) -> Self {
        let mut dice = Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5851_f42d_4c95_7f2d);
        (0..8).for_each(|_| _ = dice.even());
        dice
    }

    fn even(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 11) as f64 + 0.5) / (1u64 << 53) as f64
    }

    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.even()).sum::<f64>() - 6.0
    }

    fn one_of<T: Copy>(&mut self, choices: &[T]) -> T {
        choices[((self.even() * choices.len() as f64) as usize).min(choices.len() - 1)]
    }
}

/// A rally stroke with each property drawn independently, by a player who stands in the right place but for chance.
fn stroke(dice: &mut Dice) -> AuditedShot {
    let wing = dice.one_of(&[Wing::Forehand, Wing::Forehand, Wing::Forehand, Wing::Backhand, Wing::Backhand]);
    // Mostly from the wing's own side, as players do.
    let own = if wing == Wing::Forehand { FromSide::Right } else { FromSide::Left };
    let side = dice.one_of(&[own, own, own, FromSide::Middle, FromSide::Right, FromSide::Left]);
    let directions = [Direction::CrossCourt, Direction::CrossCourt, Direction::Middle, Direction::DownTheLine];
    let kind = dice.one_of(&[Stroke::Topspin, Stroke::Topspin, Stroke::Topspin, Stroke::Slice, Stroke::Flat]);
    let direction = dice.one_of(&directions);
    let shot = AuditedShot {
        origin: Origin { session: Arc::from("Sunday"), point: Arc::from("1"), ..Origin::default() },
        began: End::Near,
        level: None,
        stroke: kind,
        wing,
        direction: Direction::Middle,
        way: Way::Middle,
        side,
        contact: DVec2::ZERO,
        landing: DVec2::ZERO,
        context: Context {
            pressure: Some(dice.one_of(&[Pressure::AtEase, Pressure::AtEase, Pressure::Hurried])),
            length: dice.one_of(&[Length::Short, Length::Short, Length::Middle, Length::Long]),
            role: Some(dice.one_of(&Role::ALL)),
            serve: None,
        },
        assumed: Assumed::default(),
        outcome: Outcome::NotSeen,
    };
    sent(shot, direction)
}

/// The shot sent in a direction.
fn sent(shot: AuditedShot, direction: Direction) -> AuditedShot {
    let way = match direction {
        Direction::CrossCourt | Direction::InsideOut | Direction::ServeWide => Way::Across,
        Direction::Middle | Direction::ServeBody => Way::Middle,
        Direction::DownTheLine | Direction::InsideIn | Direction::ServeMiddle => Way::Line,
    };
    AuditedShot { direction, way, ..shot }
}

/// Moves the player off the spot by so much; the cost grows with the square of it, plus chance.
fn standing(mut shot: AuditedShot, across: f64, dice: &mut Dice) -> AuditedShot {
    let off = DVec2::new(across + 0.5 * dice.normal(), 0.5 * dice.normal());
    let cost = 0.08 * off.length_squared() + 0.02 * dice.even();
    shot.outcome = Outcome::Judged(Box::new(Judged {
        stood: off,
        spot: DVec2::ZERO,
        goal: DVec2::ZERO,
        middle: DVec2::ZERO,
        met: DVec2::new(0.0, 12.0),
        reachable: true,
        short_by: 0.0,
        available: 1.2,
        needed: 1.0,
        exposure: 0.3 + cost,
        extra: cost,
        avoidable: cost,
        to_the_middle: None,
        spec: ShotSpec::cross_court(),
        ready: ReadyArea::Back,
        struck_by: standpoint_board::chart::Who::default(),
        against: standpoint_board::chart::Who::default(),
    }));
    shot
}

/// A player's shots, with an error planted in some of them.
fn season(seed: u64, shots: usize, planted: impl Fn(&AuditedShot) -> f64) -> Vec<AuditedShot> {
    let mut dice = Dice::seeded(seed);
    (0..shots)
        .map(|_| {
            let shot = stroke(&mut dice);
            let across = planted(&shot);
            standing(shot, across, &mut dice)
        })
        .collect()
}

fn found(shots: &[AuditedShot]) -> Vec<Insight> {
    insights(&Cells::of(shots))
}

const BACKHAND_CORNER: ShotGroup = ShotGroup {
    wing: Some(Wing::Backhand),
    side: Some(FromSide::Left),
    direction: None,
    stroke: None,
    pressure: None,
    length: None,
    role: None,
};

#[test]
fn an_error_that_was_planted_is_found_and_nothing_else() {
    let (mut right, mut others, mut held) = (0, 0, 0);
    for seed in 0..100 {
        let shots = season(seed, 300, |shot| if BACKHAND_CORNER.holds(shot) { 1.1 } else { 0.0 });
        let told = found(&shots);
        let planted = shots.iter().filter(|shot| BACKHAND_CORNER.holds(shot)).count() as u64;
        match told.first() {
            Some(first) if first.group == BACKHAND_CORNER => {
                assert_eq!((first.player, first.axis, first.shots), (End::Near, Axis::Across, planted), "{seed}");
                assert!(first.cost.value > first.cost_elsewhere.value && first.chance <= insight::CHANCE, "{first:?}");
                right += 1;
                held += usize::from(first.error.holds(1.1));
                others += told.len() - 1;
            }
            _ => others += told.len(),
        }
    }
    // Intervals at 95 percent: 90 of 100 is what one in a hundred runs of such a check falls below (binomial).
    assert!(right == 100 && others == 0 && held >= 90, "{right} right, {others} others, {held} held");
}

#[test]
fn two_errors_are_told_one_after_the_other_by_what_they_cost() {
    let hurried = ShotGroup { wing: Some(Wing::Forehand), pressure: Some(Pressure::Hurried), ..ShotGroup::default() };
    let (mut both, mut others) = (0, 0);
    for seed in 0..100 {
        let shots = season(1000 + seed, 600, |shot| match (BACKHAND_CORNER.holds(shot), hurried.holds(shot)) {
            (true, _) => 1.2,
            (_, true) => -0.9,
            _ => 0.0,
        });
        let told = found(&shots);
        let groups: Vec<ShotGroup> = told.iter().map(|insight| insight.group).collect();
        both += usize::from(groups.contains(&BACKHAND_CORNER) && groups.contains(&hurried));
        others += groups.iter().filter(|group| **group != BACKHAND_CORNER && **group != hurried).count();
        assert!(told.windows(2).all(|pair| pair[0].lost >= pair[1].lost), "{told:?}");
    }
    assert!(both >= 98 && others <= 2, "{both} both, {others} others");
}

#[test]
fn nothing_is_told_of_a_player_without_a_habit_or_from_a_few_shots() {
    let told: usize = (0..100).map(|seed| found(&season(2000 + seed, 300, |_| 0.0)).len()).sum();
    assert_eq!(told, 0);
    // The same error everywhere is no habit of a group; the report shows it in its means.
    let everywhere: usize = (0..100).map(|seed| found(&season(3000 + seed, 300, |_| 0.8)).len()).sum();
    assert_eq!(everywhere, 0);
    let few: usize = (0..100)
        .map(|seed| found(&season(4000 + seed, 24, |shot| if BACKHAND_CORNER.holds(shot) { 1.5 } else { 0.0 })).len())
        .sum();
    assert_eq!(few, 0);
}

#[test]
fn findings_of_parts_put_together_are_those_of_the_whole() {
    let shots = season(7, 400, |shot| if BACKHAND_CORNER.holds(shot) { 1.1 } else { 0.0 });
    let (a, b) = shots.split_at(170);
    let mut merged = Cells::of(a);
    merged.merge(&Cells::of(b));
    assert_eq!(insights(&merged), found(&shots));
    let mut choices = Choices::of(a);
    choices.merge(&Choices::of(b));
    assert_eq!(choices, Choices::of(&shots));
}

#[test]
fn what_changed_from_one_period_to_another_is_told_and_nothing_else() {
    let compared = |first: &[AuditedShot], second: &[AuditedShot]| {
        changes((&Cells::of(first), End::Near), (&Cells::of(second), End::Near))
    };
    let (mut right, mut others, mut held, mut nothing) = (0, 0, 0, 0);
    for seed in 0..100 {
        let before = season(8000 + seed, 300, |shot| if BACKHAND_CORNER.holds(shot) { 1.2 } else { 0.0 });
        let after = season(9000 + seed, 300, |_| 0.0);
        let told = compared(&before, &after);
        let is = |change: &&Change| change.group == BACKHAND_CORNER && change.measure == Measure::Across;
        right += told.iter().filter(is).count();
        others += told.iter().filter(|change| !is(change)).count();
        held += told.iter().filter(|change| is(change) && change.difference.holds(-1.2)).count();
        nothing += compared(&after, &season(10_000 + seed, 300, |_| 0.0)).len();
    }
    assert!(right == 100 && others <= 1 && held >= 90 && nothing == 0, "{right} {others} {held} {nothing}");
    // A change everywhere is reported for all shots.
    let (before, after) = (season(1, 300, |_| 0.9), season(2, 300, |_| 0.0));
    let told = compared(&before, &after);
    assert_eq!((told.len(), told[0].group, told[0].shots), (1, ShotGroup::default(), (300, 300)));
}

#[test]
fn a_finding_is_a_sentence_with_interval_and_count() {
    let shots = season(3, 300, |shot| if BACKHAND_CORNER.holds(shot) { 1.1 } else { 0.0 });
    let said = insight::sentence(&found(&shots)[0]);
    let count = shots.iter().filter(|shot| BACKHAND_CORNER.holds(shot)).count();
    assert!(said.starts_with("Backhand, from the left: stands 1.") && said.contains(" m too far right ("), "{said}");
    assert!(
        said.contains(" points in 100 given away (") && said.ends_with(&format!(" elsewhere; {count} shots")),
        "{said}"
    );
}

/// The whole chain: charted places, the model's answers, and a habit of the backhand corner planted in a good player.
#[test]
fn an_error_planted_in_a_chart_comes_through_the_audit() {
    let mut chart = invented::chart(&larkfield(Level::Tournament), 31, 90, [Habit::EXPERT, Habit::EXPERT]);
    for point in &mut chart.points {
        for shot in &mut point.shots {
            let backhand = shot.hitter == End::Near && shot.wing == Some(Wing::Backhand) && shot.contact.x < -1.4;
            if let (true, Some(stood)) = (backhand, &mut shot.stood) {
                stood.x += 1.3;
            }
        }
    }
    let kept = audited(&chart).1;
    let told = found(&kept.shots);
    let first = told.first().unwrap();
    assert_eq!((first.player, first.axis), (End::Near, Axis::Across), "{told:#?}");
    assert_eq!((first.group.wing, first.error.value > 0.8), (Some(Wing::Backhand), true), "{told:#?}");
    assert!(told.iter().all(|insight| insight.player == End::Near), "{told:#?}");
}

/// Rally strokes of an opponent whose chance to go across, through the middle or down the line depends on the case.
fn rallies(seed: u64, shots: usize, chances: impl Fn(&AuditedShot) -> [f64; 3]) -> Choices {
    let mut dice = Dice::seeded(seed);
    let mut choices = Choices::default();
    for _ in 0..shots {
        let shot = stroke(&mut dice);
        let [across, middle, _] = chances(&shot);
        let direction = match dice.even() {
            chance if chance < across => Direction::CrossCourt,
            chance if chance < across + middle => Direction::Middle,
            _ => Direction::DownTheLine,
        };
        choices.add(&sent(shot, direction));
    }
    choices
}

const USUAL: [f64; 3] = [0.5, 0.3, 0.2];
const UNDER_PRESSURE: Case = Case::Rally { wing: Some(Wing::Backhand), side: None, pressure: Some(Pressure::Hurried) };

fn backhand_under_pressure(shot: &AuditedShot) -> bool {
    shot.wing == Wing::Backhand && shot.context.pressure == Some(Pressure::Hurried)
}

#[test]
fn a_habit_that_was_planted_is_told_and_nothing_else() {
    let (mut right, mut others) = (0, 0);
    for seed in 0..100 {
        let habit = |shot: &AuditedShot| if backhand_under_pressure(shot) { [0.9, 0.05, 0.05] } else { USUAL };
        let told: Vec<Tell> = tells(&rallies(5000 + seed, 700, habit), End::Near, &Smoothing::default());
        let is = |tell: &&Tell| tell.case == UNDER_PRESSURE && tell.way == Way::Across;
        right += told.iter().filter(is).count();
        others += told.iter().filter(|tell| !is(tell)).count();
        for tell in told.iter().filter(is) {
            assert!(tell.share.value > tell.elsewhere + 0.2 && tell.chance <= scouting::CHANCE, "{tell:?}");
        }
        assert_eq!(tells(&rallies(5000 + seed, 700, habit), End::Far, &Smoothing::default()), []);
    }
    assert!(right >= 97 && others <= 3, "{right} right, {others} others");
    let nothing: usize =
        (0..100).map(|seed| tells(&rallies(6000 + seed, 700, |_| USUAL), End::Near, &Smoothing::default()).len()).sum();
    assert_eq!(nothing, 0);
}

#[test]
fn smoothed_shares_hold_what_was_planted_as_often_as_they_say() {
    // Counts are drawn about the expected ones, as the prior assumes; then an interval at 95 percent holds 95 in 100.
    let expected = |_: Case| USUAL;
    let smoothing = Smoothing { expected: Some(&expected), ..Smoothing::default() };
    let (mut held, mut whole) = (0, 0);
    for seed in 0..100 {
        let choices = rallies(7000 + seed, 120, |_| USUAL);
        for wing in [Wing::Forehand, Wing::Backhand] {
            let case = Case::Rally { wing: Some(wing), side: None, pressure: None };
            let habit = choices.habit(End::Near, case, &smoothing);
            assert!((habit.replies().iter().sum::<f64>() - 1.0).abs() < 1e-12);
            for (share, planted) in habit.shares.iter().zip(USUAL) {
                held += usize::from(share.share.holds(planted));
                whole += 1;
            }
        }
    }
    assert!(held * 100 >= whole * 93, "{held} of {whole}");
}

#[test]
fn few_shots_say_what_was_expected_and_many_what_was_seen() {
    let expected = |_: Case| [0.2, 0.2, 0.6];
    let smoothing = Smoothing { expected: Some(&expected), ..Smoothing::default() };
    let of = |shots: usize| {
        let choices = rallies(1, shots, |_| [1.0, 0.0, 0.0]);
        choices.habit(End::Near, Case::RALLY, &smoothing)
    };
    let none = of(0);
    assert!((none.shares[2].share.value - 0.6).abs() < 1e-12 && none.shots == 0);
    assert!((none.strength - STRENGTH).abs() < 1e-12);
    // By hand: 8 across of 8, and 8 more with 0.2 of them across.
    assert!((of(8).shares[0].share.value - (8.0 + 8.0 * 0.2) / 16.0).abs() < 1e-12);
    assert!(of(2000).shares[0].share.value > 0.99 && of(2000).shares[0].counted == 2000);
    // The widest interval is that of zero counts.
    let width = |habit: &scouting::Habit| habit.shares[0].share.high - habit.shares[0].share.low;
    assert!(width(&none) > width(&of(8)) && width(&of(8)) > width(&of(2000)));
}

#[test]
fn a_case_that_was_hardly_seen_takes_the_habit_of_the_wider_one() {
    let choices = rallies(2, 400, |shot| if shot.wing == Wing::Backhand { [0.1, 0.1, 0.8] } else { USUAL });
    let narrow =
        Case::Rally { wing: Some(Wing::Backhand), side: Some(FromSide::Right), pressure: Some(Pressure::Hurried) };
    let habit = choices.habit(End::Near, narrow, &Smoothing::default());
    assert!(habit.shots < 40 && habit.shares[Way::Line as usize].expected > 0.6, "{habit:?}");
}

#[test]
fn serves_are_told_by_side_and_number() {
    let mut dice = Dice::seeded(9);
    let mut choices = Choices::default();
    for i in 0..240 {
        let side = if i % 2 == 0 { CourtSide::Deuce } else { CourtSide::Ad };
        let number = if i % 3 == 0 { ServeNumber::Second } else { ServeNumber::First };
        let mut serve = stroke(&mut dice);
        serve.stroke = Stroke::Serve;
        serve.context.serve = Some((side, number));
        let wide = if (side, number) == (CourtSide::Ad, ServeNumber::Second) { 0.9 } else { 0.3 };
        let direction = if dice.even() < wide { Direction::ServeWide } else { Direction::ServeMiddle };
        choices.add(&sent(serve, direction));
    }
    let told = tells(&choices, End::Near, &Smoothing::default());
    let second = Case::Serve { side: Some(CourtSide::Ad), number: Some(ServeNumber::Second) };
    assert_eq!((told.len(), told[0].case, told[0].way), (1, second, Way::Across), "{told:#?}");
    // Expected: 36 of 40; eight prior shots of the usual mix lower that a little.
    assert!((0.75..0.95).contains(&told[0].share.value) && told[0].share.value < told[0].counted as f64 / 40.0);
    let said = scouting::sentence(&told[0]);
    let begins = said.starts_with("Second serve, from the ad side: serves wide ");
    assert!(begins && said.ends_with(&format!("elsewhere; {} of 40 shots", told[0].counted)), "{said}");
    assert_eq!(choices.counts(End::Near, Case::SERVE).iter().sum::<u64>(), 240);
}

#[test]
fn wide_serves_from_either_side_are_not_pooled() {
    let mut dice = Dice::seeded(12);
    let mut habits = Habits::default();
    for i in 0..200 {
        let (side, x) = if i % 2 == 0 { (CourtSide::Deuce, -3.6) } else { (CourtSide::Ad, 3.6) };
        let mut serve = stroke(&mut dice);
        (serve.wing, serve.stroke, serve.direction) = (Wing::Forehand, Stroke::Serve, Direction::ServeWide);
        serve.context.serve = Some((side, ServeNumber::First));
        serve.landing = DVec2::new(x + 0.2 * dice.normal(), 5.0 + 0.4 * dice.normal());
        habits.add(&serve);
    }
    let told = habits.of(End::Near);
    assert_eq!(told.iter().map(|wing| wing.serves).collect::<Vec<_>>(), [Some(CourtSide::Deuce), Some(CourtSide::Ad)]);
    for wing in &told {
        let (across, along) = wing.directions[0].scatter.unwrap();
        assert!((0.15..0.25).contains(&across) && (0.3..0.5).contains(&along), "{across} {along}");
    }
}

#[test]
fn what_a_shot_was_struck_under_is_read_off_a_chart() {
    let setup: Setup = larkfield(Level::Club);
    let chart = invented::chart(&setup, 4, 10, [Habit::EXPERT; 2]);
    let shots = audited(&chart).1.shots;
    assert!(shots.iter().filter(|shot| shot.origin.shot_number == 1).all(|shot| shot.context.pressure.is_none()));
    let later = shots.iter().filter(|shot| shot.origin.shot_number > 1);
    assert!(later.clone().count() > 10 && later.into_iter().all(|shot| shot.context.pressure.is_some()));
    assert!(shots.iter().any(|shot| shot.context.length == Length::Middle));
}
