//! Advice on what to play against an opponent and where to stand, as sentences supported by the evidence.
//!
//! The rules are common practice, without a source; each sentence gives its number of shots.

use standpoint_board::chart::score::{CourtSide, ServeNumber};
use standpoint_geometry::{Way, Wing};
use standpoint_language::{decimal, text, tr};

use super::case::Case;
use super::profile::{Count, Profile};
use super::tell::{FEWEST, Tell};

/// Share of points won below which a second serve is one to attack. A choice.
const WEAK_SECOND: f64 = 0.45;
/// Share of serves above which a way is one to wait for. A choice.
const EXPECTED: f64 = 0.5;
/// Share of short returns above which the server can come in. A choice.
const SHORT: f64 = 0.6;

fn hundred(share: f64) -> String {
    decimal(100.0 * share, 0)
}

/// Sentences on what to play.
#[must_use]
pub fn play(profile: &Profile) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(weaker) = profile.weaker {
        let missed = |wing: Wing| profile.wings.iter().find(|of| of.wing == wing).map(|of| of.missed);
        let other = if weaker == Wing::Forehand { Wing::Backhand } else { Wing::Forehand };
        if let (Some(own), Some(others)) = (missed(weaker), missed(other)) {
            let share = |of: Count| hundred(of.part as f64 / of.whole.max(1) as f64);
            said.push(match weaker {
                Wing::Forehand => tr!(
                    "To the forehand: it misses {} in 100, the backhand {} ({} and {} shots)",
                    share(own),
                    share(others),
                    own.whole,
                    others.whole
                ),
                Wing::Backhand => tr!(
                    "To the backhand: it misses {} in 100, the forehand {} ({} and {} shots)",
                    share(own),
                    share(others),
                    own.whole,
                    others.whole
                ),
            });
        }
    }
    let second = profile.won_on(ServeNumber::Second);
    if let Some(share) = second.share().filter(|share| *share < WEAK_SECOND) {
        said.push(tr!("Attack the second serve: it wins {} points in 100 ({} points)", hundred(share), second.whole));
    }
    for of in &profile.returns {
        if let Some(short) = of.deep.share().map(|deep| 1.0 - deep).filter(|short| *short >= SHORT) {
            let from = of.deep.whole;
            said.push(match of.number {
                ServeNumber::First => tr!(
                    "After your first serve move in: {} returns in 100 land short ({} returns)",
                    hundred(short),
                    from
                ),
                ServeNumber::Second => tr!(
                    "After your second serve move in: {} returns in 100 land short ({} returns)",
                    hundred(short),
                    from
                ),
            });
        }
    }
    if let Some(share) = profile.unforced.share().filter(|share| *share >= EXPECTED) {
        said.push(tr!(
            "Keep the ball in play: {} in 100 of the points they lose end with an unforced error ({} points)",
            hundred(share),
            profile.unforced.whole
        ));
    }
    said
}

/// Sentences on where to wait for the serve and in the rally.
#[must_use]
pub fn stand(profile: &Profile) -> Vec<String> {
    let mut said = Vec::new();
    for side in CourtSide::ALL {
        for number in [ServeNumber::First, ServeNumber::Second] {
            let share = |way| profile.serve_share(side, number, way);
            let best =
                Way::ALL.into_iter().filter_map(|way| Some((share(way)?, way))).max_by(|a, b| a.0.total_cmp(&b.0));
            let Some((share, way)) = best.filter(|(share, _)| *share >= EXPECTED) else { continue };
            let shots = profile.serves.iter().find(|of| of.side == side && of.number == number);
            let shots = shots.map_or(0, |of| of.habit.shots);
            let case = super::words::case(&Case::Serve { side: Some(side), number: Some(number) });
            let share = hundred(share);
            said.push(match way {
                Way::Across => tr!("{}: wait for it wide ({} in 100; {} serves)", case, share, shots),
                Way::Middle => tr!("{}: make room, it comes at the body ({} in 100; {} serves)", case, share, shots),
                Way::Line => tr!("{}: wait for it at the T ({} in 100; {} serves)", case, share, shots),
            });
        }
    }
    let rally = profile.tells.iter().filter(|tell| matches!(tell.case, Case::Rally { .. }) && tell.shots >= FEWEST);
    said.extend(rally.take(3).map(lean));
    said
}

/// The way to lean because of a habit.
fn lean(tell: &Tell) -> String {
    let case = super::words::case(&tell.case);
    let share = hundred(tell.share.value);
    match tell.way {
        Way::Across => {
            tr!("{}: stand further towards their cross-court ({} in 100; {} shots)", case, share, tell.shots)
        }
        Way::Middle => tr!("{}: stay nearer to the middle ({} in 100; {} shots)", case, share, tell.shots),
        Way::Line => tr!("{}: stand further towards the line ({} in 100; {} shots)", case, share, tell.shots),
    }
}

/// The sentence where the evidence supports no advice.
#[must_use]
pub fn nothing() -> &'static str {
    text("Nothing that the evidence carries yet")
}
