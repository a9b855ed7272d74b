//! The catalogue's entries about shots and playing them.

use egui::Key;
use standpoint_board::playback::Pace;
use standpoint_language::mark;

use super::{
    command::{Command, RallyCommand},
    spec::{CTRL, CTRL_SHIFT, Menu, PLAIN, SHIFT, Spec, entry},
};
use crate::theme::icons::Icon;

/// In the order of [`RallyCommand`].
pub static ENTRIES: [Spec; 21] = [
    entry(Command::Rally(RallyCommand::NextShot), Menu::Rally, "Next shot", "Look at the shot after this one")
        .keys(PLAIN, Key::Period)
        .icon(Icon::Next)
        .when(|f| f.rally.at.shot + 1 < f.rally.shots, mark("This is the last shot of the page")),
    entry(Command::Rally(RallyCommand::PreviousShot), Menu::Rally, "Previous shot", "Look at the shot before this one")
        .keys(PLAIN, Key::Comma)
        .icon(Icon::Previous)
        .when(|f| f.rally.at.shot > 0, mark("This is the first shot of the page")),
    entry(
        Command::Rally(RallyCommand::AddShotAfter),
        Menu::Rally,
        "Add a shot after",
        "The other player answers; later shots change sides",
    )
    .keys(PLAIN, Key::N)
    .icon(Icon::Add)
    .group(),
    entry(Command::Rally(RallyCommand::AddShotBefore), Menu::Rally, "Add a shot before", "Put a shot before this one")
        .keys(SHIFT, Key::N),
    entry(
        Command::Rally(RallyCommand::DuplicateShot),
        Menu::Rally,
        "Play the shot once more",
        "Put an answer and then the same shot again after this one",
    )
    .keys(CTRL, Key::D)
    .icon(Icon::Duplicate),
    entry(
        Command::Rally(RallyCommand::DeleteShot),
        Menu::Rally,
        "Delete the shot",
        "Take this shot out; later shots change sides",
    )
    .keys(SHIFT, Key::Delete)
    .icon(Icon::Bin)
    .when(|f| f.rally.shots > 1, mark("It is the only shot of the page")),
    entry(
        Command::Rally(RallyCommand::Follow),
        Menu::Rally,
        "Continue from previous shot",
        "Start where the shot before was met; a shot whose contact was dragged starts by itself",
    )
    .keys(PLAIN, Key::G)
    .icon(Icon::Link)
    .when(|f| f.rally.at.shot > 0, mark("This is the first shot of the page"))
    .on(|f| f.rally.follows),
    entry(
        Command::Rally(RallyCommand::CoachOther),
        Menu::Rally,
        "Coach the other player",
        "The sentence over the court speaks to the other player",
    )
    .keys(CTRL_SHIFT, Key::O)
    .icon(Icon::Coach)
    .group(),
    entry(
        Command::Rally(RallyCommand::RecoverToMiddle),
        Menu::Rally,
        "What if in the middle?",
        "Let the hitter recover to the middle instead of the spot and see what that opens",
    )
    .keys(PLAIN, Key::H)
    .icon(Icon::WhatIf)
    .when(|f| f.rally.met, mark("This shot is not returned: there is nothing to recover for")),
    entry(
        Command::Rally(RallyCommand::RecoverToSpot),
        Menu::Rally,
        "Recover to the spot again",
        "Let go of the recovery place that was chosen by hand",
    )
    .keys(SHIFT, Key::H)
    .when(|f| f.rally.recovers_elsewhere, mark("The hitter recovers to the spot already")),
    entry(Command::Rally(RallyCommand::Play), Menu::Rally, "Play or pause", "Play the rally with true timing")
        .keys(PLAIN, Key::Space)
        .icon(Icon::Play)
        .group()
        .when(|f| f.rally.duration > 0.0, mark("There is nothing to play: no shot of this page can be played"))
        .on(|f| f.rally.playback.playing),
    entry(
        Command::Rally(RallyCommand::StepOn),
        Menu::Rally,
        "Step to the next contact",
        "Go to the moment of the next contact",
    )
    .keys(PLAIN, Key::K)
    .icon(Icon::StepOn)
    .when(|f| f.rally.duration > 0.0, mark("There is nothing to play: no shot of this page can be played")),
    entry(
        Command::Rally(RallyCommand::StepBack),
        Menu::Rally,
        "Step to the contact before",
        "Go to the moment of the contact before",
    )
    .keys(PLAIN, Key::J)
    .icon(Icon::StepBack)
    .when(|f| f.rally.duration > 0.0, mark("There is nothing to play: no shot of this page can be played")),
    entry(
        Command::Rally(RallyCommand::LeavePlaying),
        Menu::Rally,
        "Back to the board",
        "Leave the moment that is shown and edit again",
    )
    .icon(Icon::Close)
    .when(|f| f.rally.playback.time.is_some(), mark("The rally is not being played")),
    entry(Command::Rally(RallyCommand::Loop), Menu::Rally, "Loop", "Start again at the end")
        .keys(SHIFT, Key::L)
        .icon(Icon::Loop)
        .on(|f| f.rally.playback.looping),
    entry(Command::Rally(RallyCommand::PaceTrue), Menu::Rally, "True pace", "As fast as it is")
        .keys(PLAIN, Key::Num7)
        .group()
        .on(|f| f.rally.playback.pace == Pace::True),
    entry(Command::Rally(RallyCommand::PaceHalf), Menu::Rally, "Half pace", "Half as fast as it is")
        .keys(PLAIN, Key::Num8)
        .on(|f| f.rally.playback.pace == Pace::Half),
    entry(Command::Rally(RallyCommand::PaceQuarter), Menu::Rally, "Quarter pace", "A quarter as fast as it is")
        .keys(PLAIN, Key::Num9)
        .on(|f| f.rally.playback.pace == Pace::Quarter),
    entry(
        Command::Rally(RallyCommand::LetThemPlay),
        Menu::Rally,
        "Let them play",
        "The model plays the point on from this shot, the likeliest way; its shots take the place of those that follow",
    )
    .keys(SHIFT, Key::G)
    .group()
    .when(|f| f.rally.met, mark("This shot is not returned: there is nothing to recover for")),
    entry(
        Command::Rally(RallyCommand::PlayAnotherWay),
        Menu::Rally,
        "Let them play another way",
        "Another point from this shot at each press, by the chances the model gives",
    )
    .keys(SHIFT, Key::J)
    .when(|f| f.rally.met, mark("This shot is not returned: there is nothing to recover for")),
    entry(
        Command::Rally(RallyCommand::ShowRally),
        Menu::View,
        "Rally strip",
        "Show or hide the row of shots below the court",
    )
    .keys(SHIFT, Key::P)
    .group()
    .on(|f| f.parts.rally),
];
