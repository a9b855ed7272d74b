//! The catalogue’s entries about the board as a whole: files and changes.

use egui::Key;
use standpoint_language::mark;

use super::{
    command::{BoardCommand, Command},
    spec::{BUSY, CTRL, CTRL_SHIFT, Menu, PLAIN, SHIFT, Spec, entry},
};
use crate::theme::icons::Icon;

/// In the order of [`BoardCommand`].
pub static ENTRIES: [Spec; 22] = [
    entry(Command::Board(BoardCommand::NewBoard), Menu::Board, "New board", "Start from an empty board with one shot")
        .keys(CTRL, Key::N)
        .icon(Icon::NewBoard),
    entry(
        Command::Board(BoardCommand::NewRed),
        Menu::Board,
        "New board, Red",
        "Start on the 11 m court with its ball and two players of about 8",
    ),
    entry(
        Command::Board(BoardCommand::NewOrange),
        Menu::Board,
        "New board, Orange",
        "Start on the 18 m court with its ball and two players of about 10",
    ),
    entry(
        Command::Board(BoardCommand::NewGreen),
        Menu::Board,
        "New board, Green",
        "Start on the full court with the Green ball and two players of about 12",
    ),
    entry(Command::Board(BoardCommand::DemoBoard), Menu::Board, "Demo board", "Open the board that explains the idea"),
    entry(Command::Board(BoardCommand::Open), Menu::Board, "Open…", "Open a board from a file")
        .keys(CTRL, Key::O)
        .icon(Icon::Open)
        .group()
        .when(|f| !f.busy, BUSY),
    entry(Command::Board(BoardCommand::Save), Menu::Board, "Save", "Save the board to its file")
        .keys(CTRL, Key::S)
        .icon(Icon::Save)
        .when(|f| !f.busy, BUSY),
    entry(Command::Board(BoardCommand::SaveAs), Menu::Board, "Save as…", "Save the board to another file")
        .keys(CTRL_SHIFT, Key::S)
        .when(|f| !f.busy, BUSY),
    entry(
        Command::Board(BoardCommand::Export),
        Menu::Board,
        "Export…",
        "Make a sheet to print, a picture or an animation",
    )
    .keys(CTRL, Key::E)
    .group()
    .when(|f| !f.busy, BUSY),
    entry(
        Command::Board(BoardCommand::CopyPicture),
        Menu::Board,
        "Copy picture",
        "Put a picture of the court as shown on the clipboard",
    )
    .keys(CTRL_SHIFT, Key::E),
    entry(Command::Board(BoardCommand::Quit), Menu::Board, "Quit", "Close the window").keys(CTRL, Key::Q).group(),
    entry(Command::Board(BoardCommand::Undo), Menu::Edit, "Undo", "Take the last change back")
        .keys(CTRL, Key::Z)
        .icon(Icon::Undo)
        .when(|f| f.undo.is_some(), mark("There is nothing to undo")),
    entry(Command::Board(BoardCommand::Redo), Menu::Edit, "Redo", "Make the change again that was taken back")
        .keys(CTRL_SHIFT, Key::Z)
        .also(CTRL, Key::Y)
        .icon(Icon::Redo)
        .when(|f| f.redo.is_some(), mark("There is nothing to redo")),
    entry(
        Command::Board(BoardCommand::SwapHitter),
        Menu::Edit,
        "Swap ends",
        "The other player hits, from the same picture turned round",
    )
    .keys(PLAIN, Key::X)
    .icon(Icon::Swap)
    .group(),
    entry(
        Command::Board(BoardCommand::Mirror),
        Menu::Edit,
        "Mirror this page",
        "Left and right change on this page; the players keep their hands",
    )
    .keys(PLAIN, Key::M)
    .icon(Icon::Mirror),
    entry(
        Command::Board(BoardCommand::MirrorBoard),
        Menu::Edit,
        "Mirror all pages",
        "Left and right change on every page; the players keep their hands",
    ),
    entry(
        Command::Board(BoardCommand::SwapHands),
        Menu::Edit,
        "Change both players' hands",
        "A right-hander becomes a left-hander, and the other way round",
    ),
    entry(
        Command::Board(BoardCommand::ResetReceipt),
        Menu::Edit,
        "Automatic contact point",
        "Put the opponent's contact back where it serves them best",
    )
    .keys(PLAIN, Key::R)
    .icon(Icon::Reset)
    .when(|f| f.receipt_moved, mark("The contact point is automatic already")),
    entry(
        Command::Board(BoardCommand::ResetHitter),
        Menu::Edit,
        "Put the hitter beside the ball",
        "Put the hitter back at a comfortable distance from the contact",
    )
    .keys(SHIFT, Key::R)
    .when(|f| f.hitter_moved, mark("The hitter stands beside the ball already")),
    entry(
        Command::Board(BoardCommand::Snap),
        Menu::Edit,
        "Snap to lines",
        "What is dragged snaps to the lines of the court",
    )
    .keys(PLAIN, Key::L)
    .icon(Icon::Snap)
    .group()
    .on(|f| f.settings.snap),
    entry(
        Command::Board(BoardCommand::Metres),
        Menu::Edit,
        "Metres and km/h",
        "Show lengths in metres and speeds in kilometres an hour",
    )
    .icon(Icon::Ruler)
    .group()
    .on(|f| !f.feet),
    entry(
        Command::Board(BoardCommand::Feet),
        Menu::Edit,
        "Feet and mph",
        "Show lengths in feet and inches and speeds in miles an hour",
    )
    .keys(PLAIN, Key::U)
    .on(|f| f.feet),
];
