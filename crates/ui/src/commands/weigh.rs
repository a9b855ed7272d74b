//! The catalogue's entries about weighing shots.

use egui::{Key, Modifiers};
use standpoint_workbench::weigh::state::Page;

use super::{
    command::{Command, WeighCommand},
    spec::{Menu, PLAIN, SHIFT, Spec, entry},
};
use crate::theme::icons::Icon;

const ALT: Modifiers = Modifiers::ALT;

/// In the order of [`WeighCommand`].
pub static ENTRIES: [Spec; 11] = [
    entry(
        Command::Weigh(WeighCommand::Weigh),
        Menu::Weigh,
        "Compare shots",
        "Compare the shots from this contact with each other",
    )
    .keys(PLAIN, Key::W)
    .icon(Icon::Weigh)
    .on(|f| f.settings.weighing),
    entry(
        Command::Weigh(WeighCommand::WeighShots),
        Menu::Weigh,
        "Which shot",
        "Cross-court, down the line and others side by side",
    )
    .keys(ALT, Key::Num1)
    .group()
    .on(|f| f.settings.weighing && f.weigh.page == Page::Shots),
    entry(
        Command::Weigh(WeighCommand::WeighAim),
        Menu::Weigh,
        "Where to aim",
        "What every target of this stroke is worth",
    )
    .keys(ALT, Key::Num2)
    .on(|f| f.settings.weighing && f.weigh.page == Page::Aim),
    entry(
        Command::Weigh(WeighCommand::WeighTurn),
        Menu::Weigh,
        "When to change direction",
        "Two shots while one cause changes",
    )
    .keys(ALT, Key::Num3)
    .on(|f| f.settings.weighing && f.weigh.page == Page::Turn),
    entry(
        Command::Weigh(WeighCommand::WeighNet),
        Menu::Weigh,
        "Approach and net",
        "What an approach covers and what it leaves open",
    )
    .keys(ALT, Key::Num4)
    .on(|f| f.settings.weighing && f.weigh.page == Page::Net),
    entry(
        Command::Weigh(WeighCommand::ShowGhosts),
        Menu::Weigh,
        "Compared shots on the court",
        "Show the ticked shots with their letters",
    )
    .keys(PLAIN, Key::Num6)
    .group()
    .on(|f| f.weigh.on_court.ghosts),
    entry(
        Command::Weigh(WeighCommand::ShowAim),
        Menu::Weigh,
        "Aim map on the court",
        "Shade every target by the points won with it",
    )
    .keys(PLAIN, Key::A)
    .icon(Icon::Target)
    .on(|f| f.weigh.on_court.aim),
    entry(
        Command::Weigh(WeighCommand::ShowNet),
        Menu::Weigh,
        "Reach at the net",
        "Show what one and two steps reach after an approach",
    )
    .keys(PLAIN, Key::Num0)
    .on(|f| f.weigh.on_court.net),
    entry(
        Command::Weigh(WeighCommand::AimToMiddle),
        Menu::Weigh,
        "Aim map with recovery to the middle",
        "Judge the targets as if the hitter always went back to the middle",
    )
    .keys(SHIFT, Key::A)
    .on(|f| f.weigh.to_middle),
    entry(
        Command::Weigh(WeighCommand::AddTarget),
        Menu::Weigh,
        "Another target to compare",
        "Put a target on the far half to be dragged",
    )
    .keys(PLAIN, Key::E)
    .icon(Icon::Add)
    .group(),
    entry(
        Command::Weigh(WeighCommand::Approach),
        Menu::Weigh,
        "This shot is an approach",
        "The hitter goes to the net behind it",
    )
    .keys(PLAIN, Key::V)
    .on(|f| f.weigh.approach),
];
