//! Two shots ahead, in words and as shots of the board.

use glam::DVec2;
use standpoint_board::ShotSpec;
use standpoint_geometry::{Choice, Direction, Planned, ReceiptChoice, ReplyName, Situation, direction};
use standpoint_language::{text, tr};

use super::scheduler::PlanOf;
use crate::{compare_words, edit::Edit, words};

/// The way a reply comes, to begin a sentence; `situation` is the one with the shot that it answers.
#[must_use]
pub fn comes(reply: ReplyName, situation: &Situation) -> &'static str {
    match reply {
        ReplyName::CrossCourt | ReplyName::ShortAngle if goes_across(situation) => {
            text("If it comes cross-court again")
        }
        ReplyName::CrossCourt | ReplyName::ShortAngle => text("If it comes cross-court"),
        ReplyName::DownTheLine => text("If it comes down the line"),
        ReplyName::Middle | ReplyName::AtTheBody => text("If it comes through the middle"),
        ReplyName::RightCorner => text("If it comes to the right"),
        ReplyName::LeftCorner => text("If it comes to the left"),
        ReplyName::Lob => text("If a lob comes"),
        ReplyName::DropShot => text("If a drop shot comes"),
        ReplyName::ServeWide | ReplyName::ServeBody | ReplyName::ServeT => text("If it comes back"),
    }
}

/// Whether the shot of a situation goes across.
fn goes_across(situation: &Situation) -> bool {
    let end = situation.hitter_end;
    let contact = end.turn3(situation.shot.contact).truncate();
    let court = &situation.conditions.court;
    let beside = contact.x.abs() > court.half_width() / 4.0;
    beside && direction(court, contact, end.turn2(situation.shot.target), contact.x.signum()) == Direction::Across
}

/// What to play against a reply: `If it comes across again (37 in 100): down the line wins 56, cross-court 54`.
#[must_use]
pub fn sentence(planned: &Planned, situation: &Situation) -> String {
    let (comes, share) = (comes(planned.reply, situation), words::points(planned.share));
    let Some(next) = &planned.next else { return tr!("{0} ({1} in 100): not reached", comes, share) };
    let name = |choice: Choice| compare_words::choice(choice).to_owned();
    match next.other {
        Some((other, win)) => tr!(
            "{0} ({1} in 100): {2} wins {3}, {4} {5}",
            comes,
            share,
            name(next.choice),
            words::points(next.win),
            name(other),
            words::points(win)
        ),
        None => tr!("{0} ({1} in 100): {2} wins {3}", comes, share, name(next.choice), words::points(next.win)),
    }
}

/// The change that makes ordinary shots of it: the shot, the reply, and the next shot where the reply is reached.
#[must_use]
pub fn rally(plan: &PlanOf, reply: usize) -> Option<Edit> {
    let planned = plan.replies.get(reply)?;
    let situation = &plan.situation;
    let spec = |shot, end, place: DVec2, other: DVec2| ShotSpec {
        hitter_end: end,
        shot,
        receipt: ReceiptChoice::Best,
        hitter_place: Some(place),
        opponent_place: other,
        follows: true,
        recover_to: None,
        recover_in: None,
    };
    let (here, there) = (situation.hitter_end, situation.hitter_end.other());
    let theirs = planned.shot.contact.truncate();
    let mut then = vec![spec(planned.shot, there, theirs, situation.hitter_place)];
    if let Some(next) = &planned.next {
        then.push(spec(next.shot, here, next.place, theirs));
    }
    Some(Edit::PlayOn { shot: situation.shot, then })
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use standpoint_board::{Board, check, rally::Rally};
    use standpoint_geometry::Solver;

    use super::{super::state::Item, *};
    use crate::selection::Selection;

    #[test]
    fn a_plan_becomes_shots_that_the_board_plays_as_planned() {
        let mut board = Board::demo();
        let situation = board.situation(0, 0).unwrap();
        let mut solver = Solver::new();
        let replies: Arc<[Planned]> = solver.plan(&situation).unwrap().into();
        assert!(!replies.is_empty());
        for (i, planned) in replies.iter().enumerate() {
            let item = Item::Usual(Choice::AsDrawn);
            let plan = PlanOf { item, situation: Arc::new(situation), replies: Arc::clone(&replies) };
            rally(&plan, i).unwrap().apply(&mut board, Selection { page: 0, shot: 0 });
            assert_eq!(check::check(&board), vec![], "such a page can be saved");
            let page = board.page(0).unwrap().clone();
            assert_eq!(page.shots.len(), 3);
            let mut known = Rally::new();
            let last = known.resolve(&board, &page, 2, &mut solver).expect("the rally goes on");
            let next = planned.next.as_ref().expect("it is reached");
            assert!(last.spec.shot.contact.distance(next.shot.contact) < 1e-6, "from where it is met");
            assert!(last.result.is_ok());
        }
    }

    #[test]
    fn the_plan_is_told_in_a_sentence() {
        let situation = Board::demo().situation(0, 0).unwrap();
        let plan = Solver::new().plan(&situation).unwrap();
        let said = sentence(&plan[0], &situation);
        assert!(said.starts_with("If it comes ") && said.contains(" in 100): ") && said.contains(" wins "), "{said}");
        let lost = Planned { next: None, ..plan[0].clone() };
        assert!(sentence(&lost, &situation).ends_with("not reached"));
    }
}
