//! The catalogue's entries about comparing shots.

use egui::{Key, Modifiers};
use standpoint_workbench::compare::state::Page;

use super::{
    command::{Command, CompareCommand},
    spec::{Menu, PLAIN, SHIFT, Spec, entry},
};
use crate::theme::icons::Icon;

const ALT: Modifiers = Modifiers::ALT;

/// In the order of [`CompareCommand`].
pub static ENTRIES: [Spec; 11] = [
    entry(
        Command::Compare(CompareCommand::Compare),
        Menu::Compare,
        "Compare shots",
        "Compare the shots from this contact with each other",
    )
    .keys(PLAIN, Key::W)
    .icon(Icon::Compare)
    .on(|f| f.settings.comparing),
    entry(
        Command::Compare(CompareCommand::CompareShots),
        Menu::Compare,
        "Which shot",
        "Cross-court, down the line and others side by side",
    )
    .keys(ALT, Key::Num1)
    .group()
    .on(|f| f.settings.comparing && f.comparison.page == Page::Shots),
    entry(
        Command::Compare(CompareCommand::CompareAim),
        Menu::Compare,
        "Where to aim",
        "What every target of this stroke is worth",
    )
    .keys(ALT, Key::Num2)
    .on(|f| f.settings.comparing && f.comparison.page == Page::Aim),
    entry(
        Command::Compare(CompareCommand::CompareTurn),
        Menu::Compare,
        "When to change direction",
        "Two shots while one cause changes",
    )
    .keys(ALT, Key::Num3)
    .on(|f| f.settings.comparing && f.comparison.page == Page::Turn),
    entry(
        Command::Compare(CompareCommand::CompareNet),
        Menu::Compare,
        "Approach and net",
        "What an approach covers and what it leaves open",
    )
    .keys(ALT, Key::Num4)
    .on(|f| f.settings.comparing && f.comparison.page == Page::Net),
    entry(
        Command::Compare(CompareCommand::ShowGhosts),
        Menu::Compare,
        "Compared shots on the court",
        "Show the ticked shots with their letters",
    )
    .keys(PLAIN, Key::Num6)
    .group()
    .on(|f| f.comparison.on_court.ghosts),
    entry(
        Command::Compare(CompareCommand::ShowAim),
        Menu::Compare,
        "Aim map on the court",
        "Shade every target by the points won with it",
    )
    .keys(PLAIN, Key::A)
    .icon(Icon::Target)
    .on(|f| f.comparison.on_court.aim),
    entry(
        Command::Compare(CompareCommand::ShowNet),
        Menu::Compare,
        "Reach at the net",
        "Show what one and two steps reach after an approach",
    )
    .keys(PLAIN, Key::Num0)
    .on(|f| f.comparison.on_court.net),
    entry(
        Command::Compare(CompareCommand::AimToMiddle),
        Menu::Compare,
        "Aim map with recovery to the middle",
        "Judge the targets as if the hitter always went back to the middle",
    )
    .keys(SHIFT, Key::A)
    .on(|f| f.comparison.to_middle),
    entry(
        Command::Compare(CompareCommand::AddTarget),
        Menu::Compare,
        "Another target to compare",
        "Put a target on the far half to be dragged",
    )
    .keys(PLAIN, Key::E)
    .icon(Icon::Add)
    .group(),
    entry(
        Command::Compare(CompareCommand::Approach),
        Menu::Compare,
        "This shot is an approach",
        "The hitter goes to the net behind it",
    )
    .keys(PLAIN, Key::V)
    .on(|f| f.comparison.approach),
];
