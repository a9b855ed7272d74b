//! What is compared, as chosen by the person. Not part of the board.

use glam::DVec2;
use standpoint_geometry::{Cause, Choice, Court, End, ReceiptChoice, Shot, Situation};
use standpoint_language::{text, text_in};

use crate::settings::{Layers, Settings};

/// A shot in the comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Item {
    /// One of the usual choices.
    Usual(Choice),
    /// A target placed by hand, by its number.
    Target(u32),
}

/// The parts of the panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum Page {
    /// Shots side by side.
    #[default]
    Shots,
    /// Where to aim.
    Aim,
    /// When to change direction.
    Turn,
    /// Approach and net.
    Net,
}

impl Page {
    /// All, in their order.
    pub const ALL: [Self; 4] = [Self::Shots, Self::Aim, Self::Turn, Self::Net];

    /// Its name.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Shots => text_in("weigh", "Shots"),
            Self::Aim => text_in("weigh", "Aim"),
            Self::Turn => text_in("weigh", "When"),
            Self::Net => text_in("weigh", "Net"),
        }
    }

    /// What it answers.
    #[must_use]
    pub fn hint(self) -> &'static str {
        match self {
            Self::Shots => text("Shots from this contact side by side"),
            Self::Aim => text("What every target is worth"),
            Self::Turn => text("When it pays to change direction"),
            Self::Net => text("Approach and net: what is covered and what is left open"),
        }
    }
}

/// A target placed by hand, in the frame of a near hitter, so that it turns with the board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Target {
    /// Its number, counted from 1.
    pub number: u32,
    /// Where.
    pub seen: DVec2,
}

/// A change of the comparison. Places are in the world frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// Show another part of the panel.
    Page(Page),
    /// Adds or removes a shot.
    Show(Item, bool),
    /// Opens or closes the details of a shot.
    Unfold(Item),
    /// Adds a target, here or in a free place.
    AddTarget(Option<DVec2>),
    /// Move a target.
    MoveTarget(u32, DVec2),
    /// Take a target away.
    RemoveTarget(u32),
    /// Show what follows one of the replies to a shot on the court, by its number.
    Plan(Item, usize),
    /// Judge targets by the recovery to the middle instead of the best one.
    ToMiddle(bool),
    /// Vary another cause.
    Cause(Cause),
    /// Changes the first or second shot of the sweep.
    Pair(usize, Choice),
}

/// What is weighed.
#[derive(Debug, Clone, PartialEq)]
pub struct CompareState {
    /// The part of the panel.
    pub page: Page,
    /// The shots that stand beside each other, in any order.
    pub shown: Vec<Item>,
    /// Targets placed by hand.
    pub targets: Vec<Target>,
    /// The shot whose details are unfolded.
    pub unfolded: Option<Item>,
    /// The reply whose consequence is shown on the court; by default the likeliest to the best shot.
    pub planned: Option<(Item, usize)>,
    /// Whether targets are judged by the recovery to the middle.
    pub to_middle: bool,
    /// The cause that is varied.
    pub cause: Cause,
    pair: [Choice; 2],
}

impl Default for CompareState {
    fn default() -> Self {
        let question = [Choice::CrossCourt, Choice::DownTheLine, Choice::ServeWide, Choice::ServeT];
        Self {
            page: Page::default(),
            shown: question.map(Item::Usual).to_vec(),
            targets: Vec::new(),
            unfolded: None,
            planned: None,
            to_middle: false,
            cause: Cause::OpponentWide,
            pair: [Choice::CrossCourt, Choice::DownTheLine],
        }
    }
}

impl CompareState {
    /// Makes a change, on the court and for the hitter at an end.
    pub fn change(&mut self, change: Change, court: &Court, hitter: End) {
        match change {
            Change::Page(page) => self.page = page,
            Change::Show(item, on) => {
                self.shown.retain(|shown| *shown != item);
                if on {
                    self.shown.push(item);
                }
            }
            Change::Unfold(item) => self.unfolded = (self.unfolded != Some(item)).then_some(item),
            Change::AddTarget(place) => self.add(place.map(|p| hitter.turn2(p)), court),
            Change::MoveTarget(number, place) => {
                let seen = kept(hitter.turn2(place), court);
                if let Some(target) = self.targets.iter_mut().find(|t| t.number == number) {
                    target.seen = seen;
                }
            }
            Change::RemoveTarget(number) => {
                self.targets.retain(|t| t.number != number);
                self.shown.retain(|item| *item != Item::Target(number));
            }
            Change::Plan(item, reply) => self.planned = Some((item, reply)),
            Change::ToMiddle(on) => self.to_middle = on,
            Change::Cause(cause) => self.cause = cause,
            Change::Pair(which, choice) => {
                // Two equal shots would show nothing: the other one takes the former place.
                if self.pair[1 - which] == choice {
                    self.pair[1 - which] = self.pair[which];
                }
                self.pair[which] = choice;
            }
        }
    }

    fn add(&mut self, seen: Option<DVec2>, court: &Court) {
        let number = (1..).find(|n| self.targets.iter().all(|t| t.number != *n)).unwrap_or(1);
        // Alternating from the middle to the sides, so that new targets do not overlap.
        let share = [0.0, 0.5, -0.5, 0.25, -0.25, 0.75, -0.75][(number as usize - 1) % 7];
        let free = || DVec2::new(share * court.half_width(), 0.7 * court.half_length());
        self.targets.push(Target { number, seen: kept(seen.unwrap_or_else(free), court) });
        self.shown.push(Item::Target(number));
    }

    /// The two shots that are followed while a cause varies: those chosen, or else the first ones that exist there.
    #[must_use]
    pub fn pair(&self, situation: &Situation) -> Option<[Choice; 2]> {
        let there = |choice: &Choice| choice.shot(situation).is_some();
        if self.pair.iter().all(there) {
            return Some(self.pair);
        }
        let mut all = Choice::ALL.into_iter().filter(|c| *c != Choice::AsDrawn && there(c));
        Some([all.next()?, all.next()?])
    }

    /// All shots that can be compared from a contact, in the order of the list, each as a situation. The usual choices look
    /// for a target themselves, so the target of the drawn shot is left out of theirs.
    ///
    /// A receipt chosen by hand belongs to the drawn shot only.
    #[must_use]
    pub fn questions(&self, drawn: &Situation) -> Vec<(Item, Situation)> {
        let asked = |shot: Shot| Situation { shot, receipt: ReceiptChoice::Best, ..*drawn };
        let usual = Choice::ALL.into_iter().filter_map(|choice| {
            choice.shot(drawn)?;
            let situation = if choice == Choice::AsDrawn { *drawn } else { any_target(drawn) };
            Some((Item::Usual(choice), situation))
        });
        let targets = self.targets.iter().map(|target| {
            let shot = Shot { target: drawn.hitter_end.turn2(target.seen), sidespin: 0.0, ..drawn.shot };
            (Item::Target(target.number), asked(shot))
        });
        usual.chain(targets).collect()
    }

    /// Layers on the court: everything switched on while answering; while comparing, the layers of
    /// the open part of the panel.
    #[must_use]
    pub fn on_court(&self, settings: &Settings) -> Layers {
        let mut layers = settings.layers;
        if settings.comparing {
            layers.ghosts &= matches!(self.page, Page::Shots | Page::Turn);
            layers.aim &= self.page == Page::Aim;
            layers.net &= self.page == Page::Net;
        }
        layers
    }

    /// The letter of a shot among those that stand beside each other.
    #[must_use]
    pub fn letter(rank: usize) -> char {
        char::from(b'A' + (rank % 26) as u8)
    }
}

/// The situation with the opponent free to choose the receipt.
pub(super) fn free(drawn: &Situation) -> Situation {
    Situation { receipt: ReceiptChoice::Best, ..*drawn }
}

/// The situation without its target, as a key for work that tries its own targets.
pub(super) fn any_target(drawn: &Situation) -> Situation {
    let mut situation = free(drawn);
    situation.shot.target = situation.hitter_end.turn2(DVec2::new(0.0, 8.0));
    situation
}

/// A target on the far half.
fn kept(seen: DVec2, court: &Court) -> DVec2 {
    let side = court.outer_half_width() + 1.0;
    seen.clamp(DVec2::new(-side, 0.3), DVec2::new(side, court.half_length() + 1.5))
}

#[cfg(test)]
mod tests {
    use glam::dvec2;
    use standpoint_board::Board;

    use super::*;

    #[test]
    fn targets_are_numbered_and_kept_on_the_other_half() {
        let (mut state, court) = (CompareState::default(), Court::default());
        for _ in 0..3 {
            state.change(Change::AddTarget(None), &court, End::Near);
        }
        state.change(Change::RemoveTarget(2), &court, End::Near);
        state.change(Change::AddTarget(Some(dvec2(-1.0, -8.0))), &court, End::Far);
        let numbers: Vec<u32> = state.targets.iter().map(|t| t.number).collect();
        assert_eq!(numbers, [1, 3, 2], "a free number is given again");
        assert_eq!(state.targets[2].seen, dvec2(1.0, 8.0), "as a near hitter sees it");
        state.change(Change::MoveTarget(1, dvec2(0.0, -4.0)), &court, End::Near);
        assert!(state.targets[0].seen.y > 0.0);
        assert!(state.shown.contains(&Item::Target(2)));
    }

    #[test]
    fn the_pair_never_is_one_shot_twice() {
        let mut state = CompareState::default();
        let (court, situation) = (Court::default(), Board::demo().situation(0, 0).unwrap());
        state.change(Change::Pair(0, Choice::DownTheLine), &court, End::Near);
        assert_eq!(state.pair(&situation), Some([Choice::DownTheLine, Choice::CrossCourt]));
    }

    #[test]
    fn a_contact_chosen_by_hand_counts_for_the_drawn_shot_only() {
        let mut drawn = Board::demo().situation(0, 0).unwrap();
        drawn.receipt = ReceiptChoice::Near(dvec2(0.0, 12.0));
        for (item, situation) in CompareState::default().questions(&drawn) {
            let kept = item == Item::Usual(Choice::AsDrawn);
            assert_eq!(situation.receipt == drawn.receipt, kept, "{item:?}");
        }
    }
}
