//! The figures of a player, one by one.

use standpoint_board::Units;
use standpoint_geometry::{
    Player, Wing, WingSkill,
    units::{KMH, RPM},
};
use standpoint_language::{mark, text};

use crate::words;

/// One of the figures that make a player.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "each names the figure of the player that it is")]
pub enum PlayerFigure {
    Reaction,
    TopSpeed,
    Acceleration,
    Backwards,
    FollowThrough,
    Reach(Wing),
    ReachAhead,
    ReachUp,
    Speed(Wing),
    Topspin(Wing),
    SpreadUp(Wing),
    SpreadSide(Wing),
    FirstServe,
    SecondServe,
    ServeHeight,
    ServeTopspin,
    ServeSpread,
}

/// Figures that are shown together, under a heading in English.
pub const GROUPS: [(&str, &[PlayerFigure]); 5] = {
    use PlayerFigure as F;
    use Wing::{Backhand, Forehand};
    [
        (mark("Movement"), &[F::Reaction, F::TopSpeed, F::Acceleration, F::Backwards, F::FollowThrough]),
        (mark("Reach"), &[F::Reach(Forehand), F::Reach(Backhand), F::ReachAhead, F::ReachUp]),
        (mark("Forehand"), &[F::Speed(Forehand), F::Topspin(Forehand), F::SpreadUp(Forehand), F::SpreadSide(Forehand)]),
        (mark("Backhand"), &[F::Speed(Backhand), F::Topspin(Backhand), F::SpreadUp(Backhand), F::SpreadSide(Backhand)]),
        (mark("Serve"), &[F::FirstServe, F::SecondServe, F::ServeHeight, F::ServeTopspin, F::ServeSpread]),
    ]
};

/// How a figure is shown and entered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// SI units in the unit that is shown.
    pub unit: f64,
    /// Its name.
    pub name: &'static str,
    /// Least and most, in that unit: what a board can hold, or less where more makes no sense.
    pub range: (f64, f64),
    /// One step.
    pub step: f64,
    /// Figures behind the point.
    pub figures: usize,
}

impl PlayerFigure {
    /// What it is called beside its control.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Reaction => text("Reaction"),
            Self::TopSpeed => text("Top speed"),
            Self::Acceleration => text("Acceleration"),
            Self::Backwards => text("Backwards"),
            Self::FollowThrough => text("Follow-through"),
            Self::Reach(Wing::Forehand) => text("Forehand"),
            Self::Reach(Wing::Backhand) => text("Backhand"),
            Self::ReachAhead => text("Ahead"),
            Self::ReachUp => text("Overhead"),
            Self::Speed(_) => text("Rally speed"),
            Self::Topspin(_) | Self::ServeTopspin => text("Topspin"),
            Self::SpreadUp(_) => text("Spread, height"),
            Self::SpreadSide(_) => text("Spread, side"),
            Self::FirstServe => text("First serve"),
            Self::SecondServe => text("Second serve"),
            Self::ServeHeight => text("Contact height"),
            Self::ServeSpread => text("Spread"),
        }
    }

    /// What it means.
    #[must_use]
    pub fn hint(self) -> &'static str {
        match self {
            Self::Reaction => text("From the opponent's contact to the first movement"),
            Self::TopSpeed => text("The greatest speed of a sprint"),
            Self::Acceleration => text("How long a sprint takes to come near its top speed: less is quicker"),
            Self::Backwards => text("How much longer a metre backwards counts than one forwards"),
            Self::FollowThrough => text("From the own contact to the first step of the recovery"),
            Self::Reach(_) => text("How far to the side the ball can be struck, lunging"),
            Self::ReachAhead => text("How far ahead of the body the ball can be struck"),
            Self::ReachUp => text("The greatest height at which the ball can be struck"),
            Self::Speed(_) => text("The usual speed of a drive off the racket"),
            Self::Topspin(_) => text("The usual topspin of a drive"),
            Self::SpreadUp(_) => text("How much the height of the direction varies, as a standard deviation"),
            Self::SpreadSide(_) => text("How much the side of the direction varies, as a standard deviation"),
            Self::FirstServe | Self::SecondServe => text("Its speed off the racket"),
            Self::ServeHeight => text("Height at which the serve is struck"),
            Self::ServeTopspin => text("Topspin of the second serve; the first one has a third of it"),
            Self::ServeSpread => text("How much the direction varies, as a standard deviation"),
        }
    }

    /// Its value in SI units.
    #[must_use]
    pub fn of(self, player: &Player) -> f64 {
        *self.place(&mut { *player })
    }

    /// Where it stands in a player.
    pub(super) fn place(self, player: &mut Player) -> &mut f64 {
        fn skill(player: &mut Player, wing: Wing) -> &mut WingSkill {
            match wing {
                Wing::Forehand => &mut player.forehand,
                Wing::Backhand => &mut player.backhand,
            }
        }
        match self {
            Self::Reaction => &mut player.movement.reaction_s,
            Self::TopSpeed => &mut player.movement.v_max,
            Self::Acceleration => &mut player.movement.tau_s,
            Self::Backwards => &mut player.movement.backward_factor,
            Self::FollowThrough => &mut player.movement.follow_through_s,
            Self::Reach(Wing::Forehand) => &mut player.reach.forehand,
            Self::Reach(Wing::Backhand) => &mut player.reach.backhand,
            Self::ReachAhead => &mut player.reach.ahead,
            Self::ReachUp => &mut player.reach.overhead,
            Self::Speed(wing) => &mut skill(player, wing).speed,
            Self::Topspin(wing) => &mut skill(player, wing).topspin,
            Self::SpreadUp(wing) => &mut skill(player, wing).spread_up,
            Self::SpreadSide(wing) => &mut skill(player, wing).spread_side,
            Self::FirstServe => &mut player.serve.first_speed,
            Self::SecondServe => &mut player.serve.second_speed,
            Self::ServeHeight => &mut player.serve.height,
            Self::ServeTopspin => &mut player.serve.topspin,
            Self::ServeSpread => &mut player.serve.spread,
        }
    }

    /// How it is shown and entered.
    #[must_use]
    pub fn measured(self, units: Units) -> Measured {
        let plain = |name, range, step, figures| Measured { unit: 1.0, name, range, step, figures };
        let degrees = |range| Measured { unit: 1.0_f64.to_radians(), name: "°", range, step: 0.1, figures: 1 };
        let rpm = |range| Measured { unit: RPM, name: text("rpm"), range, step: 50.0, figures: 0 };
        let speed = |low: f64, high: f64| {
            let (unit, name) = words::speed_unit(units);
            let range = ((low * KMH / unit).ceil(), (high * KMH / unit).floor());
            Measured { unit, name, range, step: 1.0, figures: 0 }
        };
        let length = |low: f64, high: f64| {
            let (unit, name, figures) = words::length_unit(units);
            let step = if units == Units::Metres { 0.05 } else { 1.0 };
            Measured {
                unit,
                name,
                range: ((low / unit / step).ceil() * step, (high / unit / step).floor() * step),
                step,
                figures,
            }
        };
        match self {
            Self::Reaction => plain("s", (0.1, 0.8), 0.01, 2),
            Self::TopSpeed => plain("m/s", (2.0, 10.0), 0.1, 1),
            Self::Acceleration => plain("s", (0.2, 2.5), 0.05, 2),
            Self::Backwards => plain("×", (1.0, 3.0), 0.05, 2),
            Self::FollowThrough => plain("s", (0.0, 1.0), 0.05, 2),
            Self::Reach(_) => length(0.5, 3.0),
            Self::ReachAhead => length(0.2, 2.5),
            Self::ReachUp => length(1.2, 3.6),
            Self::Speed(_) => speed(20.0, 200.0),
            Self::Topspin(_) => rpm((0.0, 5000.0)),
            Self::SpreadUp(_) | Self::SpreadSide(_) => degrees((0.2, 10.0)),
            Self::FirstServe | Self::SecondServe => speed(20.0, 260.0),
            Self::ServeHeight => length(0.8, 3.6),
            Self::ServeTopspin => rpm((0.0, 5500.0)),
            Self::ServeSpread => degrees((0.2, 8.0)),
        }
    }
}

#[cfg(test)]
mod tests {
    use standpoint_board::{Board, check};
    use standpoint_geometry::End;

    use super::*;
    use crate::{edit::Edit, selection::Selection};

    #[test]
    fn every_figure_can_be_set_to_its_ends_and_the_board_can_still_be_saved() {
        for figure in GROUPS.iter().flat_map(|(_, figures)| figures.iter().copied()) {
            for units in [Units::Metres, Units::Feet] {
                let measured = figure.measured(units);
                for end in [measured.range.0, measured.range.1] {
                    let mut board = Board::demo();
                    let value = end * measured.unit;
                    Edit::Figure(End::Far, figure, value).apply(&mut board, Selection::default());
                    assert!((figure.of(&board.card(End::Far).player()) - value).abs() < 1e-12, "{figure:?}");
                    assert_eq!(check::check(&board), vec![], "{figure:?} at {end} {}", measured.name);
                    assert!(board.situation(0, 0).unwrap().validate().is_empty(), "{figure:?} at {end}");
                }
            }
        }
    }
}
