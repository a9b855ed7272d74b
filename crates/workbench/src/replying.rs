//! Effect and frequency of the opponent's replies in words.

use standpoint_geometry::Reply;
use standpoint_language::{text, tr};

/// A reply that wins outright less often than this counts as keeping the rally going.
const OUTRIGHT: f64 = 0.15;

/// How often: `4 times in 10`, `once in 10`.
#[must_use]
pub fn times_in_ten(share: f64) -> String {
    match (share * 10.0).round() as i64 {
        ..=0 => text("less than once in 10").to_owned(),
        1 => text("once in 10").to_owned(),
        10.. => text("nearly always").to_owned(),
        times => tr!("{} times in 10", standpoint_language::whole(times as usize)),
    }
}

/// What a reply does: `wins outright 4 times in 10`, `keeps the rally`.
#[must_use]
pub fn does(reply: &Reply) -> String {
    if reply.wins_outright < OUTRIGHT {
        return text("keeps the rally").to_owned();
    }
    tr!("wins outright {}", times_in_ten(reply.wins_outright))
}

/// How often it is chosen: `chosen 5 times in 10`.
#[must_use]
pub fn chosen(reply: &Reply) -> String {
    tr!("chosen {}", times_in_ten(reply.share))
}

/// Effect and frequency: `wins outright 4 times in 10, chosen 5 times in 10`.
#[must_use]
pub fn describe(reply: &Reply) -> String {
    format!("{}, {}", does(reply), chosen(reply))
}

#[cfg(test)]
mod tests {
    use standpoint_board::Board;
    use standpoint_geometry::solve;

    use super::*;

    #[test]
    fn a_reply_is_told_by_what_it_does_and_how_often_it_comes() {
        let situation = Board::demo().situation(0, 0).unwrap();
        let mut reply = solve(&situation).unwrap().play().unwrap().best[0].clone();
        (reply.wins_outright, reply.share) = (0.42, 0.5);
        assert_eq!(describe(&reply), "wins outright 4 times in 10, chosen 5 times in 10");
        (reply.wins_outright, reply.share) = (0.14, 0.08);
        assert_eq!(describe(&reply), "keeps the rally, chosen once in 10");
        (reply.wins_outright, reply.share) = (0.97, 0.02);
        assert_eq!(describe(&reply), "wins outright nearly always, chosen less than once in 10");
    }
}
