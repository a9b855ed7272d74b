//! How a point that the model played on has ended, in words.

use standpoint_board::Board;
use standpoint_geometry::{End, PlayedOn, worth::Ending};
use standpoint_language::{text, tr};

/// What the line at the bottom says after the model has played on from a shot of the hitter at an end.
#[must_use]
pub fn told(played: &PlayedOn, hitter: End, board: &Board) -> String {
    let name = |end: End| board.card(end).name.clone();
    let count = played.shots.len();
    let (Some(ending), Some(won)) = (played.ending, played.won) else {
        return tr!("{n} more shot: points from here mostly last that long"
            | "{n} more shots: points from here mostly last that long" % count);
    };
    let winner = name(if won { hitter } else { hitter.other() });
    let how = match ending {
        Ending::Untouched | Ending::Returned => text("the last ball is not reached"),
        Ending::Net => text("the last ball goes into the net"),
        Ending::Long => text("the last ball goes long"),
        Ending::Wide => text("the last ball goes wide"),
    };
    tr!("{0} wins the point: {1}", winner, how)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_winner_is_named_with_how_it_ended() {
        let board = Board::demo();
        let point = PlayedOn { shots: Vec::new(), ending: Some(Ending::Long), won: Some(true) };
        let said = told(&point, End::Near, &board);
        assert!(said.starts_with(&board.near.name) && said.contains("goes long"), "{said}");
        let other = told(&PlayedOn { won: Some(false), ..point.clone() }, End::Near, &board);
        assert!(other.starts_with(&board.far.name));
        let open = told(&PlayedOn { ending: None, won: None, ..point }, End::Near, &board);
        assert!(open.starts_with("0 more shots"), "{open}");
    }
}
