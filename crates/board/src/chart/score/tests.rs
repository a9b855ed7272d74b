//! Counting is checked against the ITF Rules of Tennis (2014 edition; rule numbers have been the same since
//! 2006). The quotation is beside each check; "from memory" where the wording was not at hand.

use standpoint_geometry::End::{Far, Near};

use super::*;
use crate::chart::ends::Ends;

fn plain() -> Tally {
    Tally::new(MatchFormat::default(), Near)
}

/// Plays points; `n` is won by the player who began near, `f` by the other.
fn play(tally: &mut Tally, points: &str) {
    for point in points.chars().filter(|c| !c.is_whitespace()) {
        tally.point(if point == 'n' { Near } else { Far }).unwrap();
    }
}

/// Plays games to love.
fn games(tally: &mut Tally, games: &str) {
    for game in games.chars().filter(|c| !c.is_whitespace()) {
        play(tally, &game.to_string().repeat(4));
    }
}

/// Six games all.
fn six_all(tally: &mut Tally) {
    games(tally, "nfnfnf nfnfnf");
}

#[test]
fn rule_5a_love_15_30_40_game() {
    // "No point - Love, first point - 15, second point - 30, third point - 40, fourth point - Game".
    let mut tally = plain();
    for expected in ["0-0", "15-0", "30-0", "40-0"] {
        assert_eq!(notation::points(&tally), expected);
        play(&mut tally, "n");
    }
    assert_eq!((tally.games(), tally.points()), ([1, 0], [0, 0]));
}

#[test]
fn rule_5a_two_points_in_a_row_after_deuce() {
    // "A player/team needs to win two consecutive points immediately after Deuce to win the Game".
    let mut tally = plain();
    play(&mut tally, "nnnfff");
    assert_eq!(notation::points(&tally), "40-40");
    play(&mut tally, "f");
    assert_eq!(notation::points(&tally), "40-A");
    // "If the opposing player/team wins the next point, the score is again Deuce".
    play(&mut tally, "n");
    assert_eq!(notation::points(&tally), "40-40");
    play(&mut tally, "nfnfnfff");
    assert_eq!((tally.games(), tally.points()), ([0, 1], [0, 0]));
}

#[test]
fn rule_5b_tie_break_to_seven_with_a_margin_of_two() {
    // "The first player/team to win seven points wins the Game and Set, provided there is a margin of two points".
    let mut tally = plain();
    six_all(&mut tally);
    assert_eq!(tally.game(), GameKind::TieBreak(7));
    play(&mut tally, "nnnnnn ffffff f");
    assert_eq!((tally.sets().len(), notation::points(&tally).as_str()), (0, "6-7"));
    play(&mut tally, "n n n");
    assert_eq!(tally.sets(), [SetScore { games: [7, 6], tie_break: Some([9, 7]) }]);
}

#[test]
fn rule_5b_service_in_a_tie_break() {
    // "The player whose turn it is to serve shall serve the first point of the tie-break game. The following two points
    // shall be served by the opponent(s). After this, each player/team shall serve alternately for two consecutive
    // points until the end". "The player/team whose turn it was to serve first in the tie-break game shall be the
    // receiver in the first game of the following set."
    let mut tally = plain();
    six_all(&mut tally);
    let mut servers = Vec::new();
    for point in "nfnfnfnfnfnf".chars() {
        servers.push(tally.server());
        play(&mut tally, &point.to_string());
    }
    assert_eq!(servers, [Near, Far, Far, Near, Near, Far, Far, Near, Near, Far, Far, Near]);
    play(&mut tally, "nn");
    assert_eq!((tally.sets().len(), tally.server()), (1, Far));
}

#[test]
fn rule_6_sets_with_and_without_a_tie_break() {
    // 6 a: "The first player/team to win six games wins that Set, provided there is a margin of two games over the
    // opponent(s). If necessary, the set shall continue until this margin is achieved." 6 b: "If the score reaches six
    // games all, a tie-break game shall be played."
    let mut tally = plain();
    games(&mut tally, "nfnfnfnfnf n");
    assert_eq!((tally.sets().len(), tally.games()), (0, [6, 5]));
    games(&mut tally, "n");
    assert_eq!(tally.sets(), [SetScore { games: [7, 5], tie_break: None }]);
    let mut long = Tally::new(MatchFormat { set: SetRule::Advantage, ..MatchFormat::default() }, Near);
    six_all(&mut long);
    assert_eq!(long.game(), GameKind::Standard);
    games(&mut long, "nfnfn");
    assert_eq!((long.sets().len(), long.games()), (0, [9, 8]));
    games(&mut long, "n");
    assert_eq!(long.sets(), [SetScore { games: [10, 8], tie_break: None }]);
}

#[test]
fn rule_7_best_of_three_and_of_five() {
    // "A match can be played to the best of 3 sets (a player/team needs to win 2 sets to win the match) or to the best
    // of 5 sets (a player/team needs to win 3 sets to win the match)."
    for (sets, needed) in [(SetsToWin::One, 1), (SetsToWin::Two, 2), (SetsToWin::Three, 3)] {
        let mut tally = Tally::new(MatchFormat { sets, ..MatchFormat::default() }, Near);
        for set in 1..=needed {
            assert_eq!(tally.winner(), None);
            games(&mut tally, "ffffff");
            assert_eq!(tally.sets_won(), [0, set]);
        }
        assert_eq!((tally.winner(), tally.point(Near)), (Some(Far), Err(ScoreError::MatchOver)));
        assert_eq!(tally.standing(), None);
    }
}

#[test]
fn rule_10_change_of_ends() {
    // "The players shall change ends at the end of the first, third and every subsequent odd game of each set. The
    // players shall also change ends at the end of each set unless the total number of games in that set is even, in
    // which case the players change ends at the end of the first game of the next set."
    let after = |played: &str| {
        let mut tally = plain();
        games(&mut tally, played);
        tally.ends().unwrap()
    };
    for (played, ends) in [
        ("", Ends::AsBegun),
        ("n", Ends::Changed),
        ("nf", Ends::Changed),
        ("nfn", Ends::AsBegun),
        ("nfnf", Ends::AsBegun),
        ("nfnfn", Ends::Changed),
        // 6-0: even, no change at the end of the set (three so far), but after the first game of the next.
        ("nnnnnn", Ends::Changed),
        ("nnnnnn f", Ends::AsBegun),
        // 6-1: odd, changed at the end of the set (four), and again after the first game of the next.
        ("nnnfnnn", Ends::AsBegun),
        ("nnnfnnn f", Ends::Changed),
    ] {
        assert_eq!(after(played), ends, "{played}");
    }
}

#[test]
fn rule_10_ends_in_a_tie_break() {
    // "During a tie-break game, players shall change ends after every six points."
    let mut tally = plain();
    six_all(&mut tally);
    let begun = tally.ends().unwrap();
    let mut seen = Vec::new();
    for point in "nfnfnf nfnfnf nn".chars().filter(|c| *c != ' ') {
        seen.push(tally.ends().unwrap() == begun);
        play(&mut tally, &point.to_string());
    }
    let expected: Vec<bool> = (0..14).map(|point| point / 6 % 2 == 0).collect();
    assert_eq!(seen, expected);
    // 8-6 after two changes within the tie-break; the set has 13 games, so they change once more.
    assert_eq!((tally.sets().len(), tally.ends()), (1, Some(begun.other())));
    // Appendix V, change of ends: "players shall change ends after the first point and thereafter after every four points".
    let format = MatchFormat { tie_break_ends: TieBreakEnds::OneThenFour, ..MatchFormat::default() };
    let mut other = Tally::new(format, Near);
    six_all(&mut other);
    let begun = other.ends().unwrap();
    let mut changed_after = Vec::new();
    let mut ends = begun;
    for (i, point) in "nfnfnfnfnf".chars().enumerate() {
        play(&mut other, &point.to_string());
        if other.ends() != Some(ends) {
            changed_after.push(i + 1);
            ends = other.ends().unwrap();
        }
    }
    assert_eq!(changed_after, [1, 5, 9]);
}

#[test]
fn rule_14_order_of_service() {
    // "At the end of each standard game, the receiver shall become the server and the server shall become the receiver
    // for the next game."
    let mut tally = plain();
    for game in 0..20 {
        assert_eq!(tally.server(), if game % 2 == 0 { Near } else { Far });
        games(&mut tally, if game % 2 == 0 { "n" } else { "f" });
        if tally.game() != GameKind::Standard {
            break;
        }
    }
}

#[test]
fn rule_17_alternate_halves_beginning_with_the_right() {
    // "When serving in a standard game, the server shall stand behind alternate halves of the court, starting from the
    // right half of the court in every game. In a tie-break game, the service shall be served from behind alternate
    // halves of the court, with the first served from the right half of the court."
    let mut tally = plain();
    let mut sides = Vec::new();
    for point in "nnfffnnn".chars() {
        sides.push(tally.side().unwrap());
        play(&mut tally, &point.to_string());
    }
    use CourtSide::{Ad, Deuce};
    assert_eq!(sides, [Deuce, Ad, Deuce, Ad, Deuce, Ad, Deuce, Ad]);
    assert_eq!((tally.games(), tally.side()), ([1, 0], Some(Deuce)));
    let mut tie_break = plain();
    six_all(&mut tie_break);
    assert_eq!(tie_break.side(), Some(Deuce));
    play(&mut tie_break, "n");
    assert_eq!(tie_break.side(), Some(Ad));
}

#[test]
fn rules_19_20_22_and_24a_faults_lets_and_double_faults() {
    use ServeCall::{Fault, In, Let};
    use ServeNumber::{First, Second};
    let mut count = ServeCount::default();
    // Rule 20: "If the first service is a fault, the server shall serve again without delay".
    assert_eq!(count.serve(Fault), Ok(AfterServe::Second));
    // Rule 22: "In the case of a service let, that particular service shall not count, and the server shall serve again,
    // but a service let does not cancel a previous fault."
    assert_eq!(count.serve(Let), Ok(AfterServe::Again(Second)));
    // Rule 24 a: the point is lost if "the player serves two consecutive faults".
    assert_eq!(count.serve(Fault), Ok(AfterServe::DoubleFault));
    assert_eq!(count.serve(In), Err(ScoreError::NoServeDue));
    let mut count = ServeCount::default();
    assert_eq!(count.serve(Let), Ok(AfterServe::Again(First)));
    assert_eq!(count.serve(In), Ok(AfterServe::InPlay(First)));
    // Rule 23: "In all cases when a let is called, except when a service let is called on a second service, the whole
    // point shall be replayed."
    count.replay();
    assert_eq!(count.due(), Some(First));
}

#[test]
fn appendix_v_no_ad() {
    // "If both players/teams have won three points each, the score is Deuce and a deciding point shall be played. The
    // receiver(s) shall choose whether to receive the service from the right half or the left half of the court."
    let mut tally = Tally::new(MatchFormat { game: GameRule::NoAd, ..MatchFormat::default() }, Near);
    play(&mut tally, "nnnfff");
    assert!(tally.is_deciding_point());
    assert_eq!(tally.side(), None);
    assert_eq!((tally.stakes().game, tally.stakes().break_point), ([true, true], true));
    play(&mut tally, "f");
    assert_eq!((tally.games(), tally.is_deciding_point()), ([0, 1], false));
}

#[test]
fn appendix_v_short_sets() {
    // "The first player/team who wins four games wins that set, provided there is a margin of two games over the
    // opponent(s). If the score reaches four games all, a tie-break game shall be played."
    let mut tally = Tally::new(MatchFormat { set: SetRule::Short, ..MatchFormat::default() }, Near);
    games(&mut tally, "nnfn n");
    assert_eq!(tally.sets(), [SetScore { games: [4, 1], tie_break: None }]);
    games(&mut tally, "nfnfnfnf");
    assert_eq!((tally.games(), tally.game()), ([4, 4], GameKind::TieBreak(7)));
    play(&mut tally, "fffffff");
    assert_eq!(tally.sets()[1], SetScore { games: [4, 5], tie_break: Some([0, 7]) });
}

#[test]
fn appendix_v_match_tie_break() {
    // "When the score in a match is one set all, or two sets all in best of five sets matches, one tie-break game shall
    // be played to decide the match. This tie-break game replaces the deciding final set. The player/team who first wins
    // ten points shall win this match tie-break and the match provided there is a margin of two points". "When using the
    // match tie-break to replace the final set: the original order of service continues."
    let format = MatchFormat { last_set: LastSet::MatchTieBreak10, ..MatchFormat::default() };
    let mut tally = Tally::new(format, Near);
    games(&mut tally, "nnnfnnn ffffff");
    assert_eq!((tally.game(), tally.server()), (GameKind::TieBreak(10), Far));
    play(&mut tally, "nnnnnnnnn fffffffff n");
    assert_eq!(tally.winner(), None);
    play(&mut tally, "n");
    assert_eq!((tally.winner(), tally.sets()[2].tie_break), (Some(Near), Some([11, 9])));
    assert_eq!(notation::write(&tally), "6-1 0-6 1-0(9)");
    let seven = MatchFormat { last_set: LastSet::MatchTieBreak7, ..MatchFormat::default() };
    let mut tally = Tally::new(seven, Near);
    games(&mut tally, "nnnnnn ffffff");
    play(&mut tally, "nnnnnnn");
    assert_eq!(tally.winner(), Some(Near));
}

#[test]
fn the_last_set_is_played_as_chosen() {
    for (last_set, game) in [
        (LastSet::AsOthers, GameKind::TieBreak(7)),
        (LastSet::LongTieBreak, GameKind::TieBreak(10)),
        (LastSet::Advantage, GameKind::Standard),
    ] {
        let mut tally = Tally::new(MatchFormat { last_set, ..MatchFormat::default() }, Near);
        six_all(&mut tally);
        assert_eq!(tally.game(), GameKind::TieBreak(7), "the first set is as usual");
        play(&mut tally, "nnnnnnn");
        games(&mut tally, "ffffff");
        six_all(&mut tally);
        assert_eq!(tally.game(), game);
    }
}

#[test]
fn what_is_at_stake_is_known_before_the_point() {
    let mut tally = plain();
    play(&mut tally, "fff");
    let stakes = tally.stakes();
    assert_eq!(
        (stakes.game, stakes.break_point, stakes.set, stakes.match_),
        ([false, true], true, [false; 2], [false; 2])
    );
    let mut tally = plain();
    games(&mut tally, "nnnnnn nnnnn");
    play(&mut tally, "nnn");
    let stakes = tally.stakes();
    assert_eq!((stakes.set, stakes.match_), ([true, false], [true, false]));
    assert!(stakes.break_point, "the twelfth game is served by the far player");
}

#[test]
fn a_score_is_written_and_read_back_at_every_point_of_a_match() {
    let formats = [
        MatchFormat::default(),
        MatchFormat { game: GameRule::NoAd, set: SetRule::Short, ..MatchFormat::default() },
        MatchFormat {
            last_set: LastSet::MatchTieBreak10,
            tie_break_ends: TieBreakEnds::OneThenFour,
            ..MatchFormat::default()
        },
        MatchFormat { sets: SetsToWin::Three, last_set: LastSet::Advantage, ..MatchFormat::default() },
    ];
    let mut dice = crate::dice::Dice::new(41);
    for format in formats {
        for first in [Near, Far] {
            let mut tally = Tally::new(format, first);
            while tally.winner().is_none() {
                let text = notation::write(&tally);
                let read = notation::read(&text, format, first).unwrap_or_else(|error| panic!("{text}: {error}"));
                // Advantage is written without the number of deuces.
                let same = Tally { points: read.points, ..tally.clone() };
                assert_eq!(read, same, "{text}");
                assert_eq!((notation::write(&read), read.server(), read.side()), (text, tally.server(), tally.side()));
                tally.point(if dice.even() < 0.5 { Near } else { Far }).unwrap();
            }
        }
    }
}

#[test]
fn scores_that_cannot_be_are_refused_with_the_reason() {
    let refused = |text: &str| notation::read(text, MatchFormat::default(), Near).unwrap_err();
    assert!(matches!(refused("40-30"), ScoreError::NotAScore { .. }));
    assert!(matches!(refused("6-4 3-2 41-30"), ScoreError::NotAScore { .. }));
    assert!(matches!(refused("6-5 0-0 0-0"), ScoreError::NoSuchSet { set: 1, .. }));
    assert!(matches!(refused("8-6 0-0 0-0"), ScoreError::NoSuchSet { set: 1, .. }));
    assert!(matches!(refused("6-4 7-6 0-0 0-0"), ScoreError::MatchOver));
    assert!(matches!(refused("6-3 0-0"), ScoreError::NoSuchGames { .. }));
    assert!(matches!(refused("2-3 A-30"), ScoreError::NoSuchPoints { .. }));
    assert!(matches!(refused("6-6 8-5"), ScoreError::NoSuchPoints { .. }));
    assert_eq!(notation::read("7-6 0-0 0-0", MatchFormat::default(), Near).unwrap().ends(), None);
    assert!(notation::read("7-6(5) 0-0 0-0", MatchFormat::default(), Near).unwrap().ends().is_some());
}
