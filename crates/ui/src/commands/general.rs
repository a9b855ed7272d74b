//! The catalogue's entries about the board as a whole: files, changes, how the window looks, help.

use egui::Key;
use standpoint_language::Language;
use standpoint_workbench::{
    edit::Colours,
    settings::{TEXT_SIZES, ThemeChoice},
};

use super::catalogue::{CTRL, CTRL_SHIFT, Command, Menu, PLAIN, SHIFT, Spec, entry};
use crate::theme::icons::Icon;

/// In the order of the menus.
pub static ENTRIES: [Spec; 44] = [
    entry(Command::NewBoard, Menu::Board, "New board", "Start from an empty board with one shot")
        .keys(CTRL, Key::N)
        .icon(Icon::NewBoard),
    entry(Command::DemoBoard, Menu::Board, "Demo board", "Open the board that explains the idea"),
    entry(Command::Open, Menu::Board, "Open…", "Open a board from a file")
        .keys(CTRL, Key::O)
        .icon(Icon::Open)
        .group()
        .when(|f| !f.busy),
    entry(Command::Save, Menu::Board, "Save", "Save the board to its file")
        .keys(CTRL, Key::S)
        .icon(Icon::Save)
        .when(|f| !f.busy),
    entry(Command::SaveAs, Menu::Board, "Save as…", "Save the board to another file")
        .keys(CTRL_SHIFT, Key::S)
        .when(|f| !f.busy),
    entry(Command::Export, Menu::Board, "Sheet or picture…", "Make a sheet to print, a picture or a moving picture")
        .keys(CTRL, Key::E)
        .group()
        .when(|f| !f.busy),
    entry(Command::CopyPicture, Menu::Board, "Copy picture", "Put a picture of the court as shown on the clipboard")
        .keys(CTRL_SHIFT, Key::E),
    entry(Command::Quit, Menu::Board, "Quit", "Close the window").keys(CTRL, Key::Q).group(),
    entry(Command::Undo, Menu::Edit, "Undo", "Take the last change back")
        .keys(CTRL, Key::Z)
        .icon(Icon::Undo)
        .when(|f| f.undo.is_some()),
    entry(Command::Redo, Menu::Edit, "Redo", "Make the change again that was taken back")
        .keys(CTRL_SHIFT, Key::Z)
        .also(CTRL, Key::Y)
        .icon(Icon::Redo)
        .when(|f| f.redo.is_some()),
    entry(
        Command::SwapHitter,
        Menu::Edit,
        "Hand the ball to the other side",
        "The other player hits, from the same picture turned round",
    )
    .keys(PLAIN, Key::X)
    .icon(Icon::Swap)
    .group(),
    entry(Command::Mirror, Menu::Edit, "Mirror left and right", "Mirror the court and both players' hands")
        .keys(PLAIN, Key::M)
        .icon(Icon::Mirror),
    entry(
        Command::ResetReceipt,
        Menu::Edit,
        "Let the opponent choose the contact",
        "Put the opponent's contact back where it serves them best",
    )
    .keys(PLAIN, Key::R)
    .icon(Icon::Reset)
    .when(|f| f.receipt_moved),
    entry(
        Command::ResetHitter,
        Menu::Edit,
        "Put the hitter beside the ball",
        "Put the hitter back at a comfortable distance from the contact",
    )
    .keys(SHIFT, Key::R)
    .when(|f| f.hitter_moved),
    entry(Command::Snap, Menu::Edit, "Hold by the lines", "Dragged things are held lightly by the lines of the court")
        .keys(PLAIN, Key::L)
        .icon(Icon::Snap)
        .group()
        .on(|f| f.settings.snap),
    entry(Command::Metres, Menu::Edit, "Metres and km/h", "Show lengths in metres and speeds in kilometres an hour")
        .icon(Icon::Ruler)
        .group()
        .on(|f| !f.feet),
    entry(Command::Feet, Menu::Edit, "Feet and mph", "Show lengths in feet and inches and speeds in miles an hour")
        .keys(PLAIN, Key::U)
        .on(|f| f.feet),
    entry(Command::Fit, Menu::View, "Fit the court", "Show the whole court as large as it gets")
        .keys(PLAIN, Key::F)
        .icon(Icon::Fit)
        .when(|f| !f.fitted),
    entry(Command::ZoomIn, Menu::View, "Zoom in", "Come closer; the wheel or a pinch does so around the pointer")
        .keys(PLAIN, Key::Plus)
        .icon(Icon::ZoomIn),
    entry(Command::ZoomOut, Menu::View, "Zoom out", "Step back").keys(PLAIN, Key::Minus).icon(Icon::ZoomOut),
    entry(Command::Turn, Menu::View, "Turn the court", "Turn the court by a quarter: upright or lying")
        .keys(PLAIN, Key::T)
        .icon(Icon::Turn)
        .group(),
    entry(Command::Flip, Menu::View, "Other side down", "Look from the other end of the court")
        .keys(SHIFT, Key::T)
        .icon(Icon::Flip),
    entry(Command::Panel, Menu::View, "Side panel", "Show or hide the panel with the figures")
        .keys(PLAIN, Key::P)
        .icon(Icon::Panel)
        .group()
        .on(|f| f.settings.panel),
    entry(
        Command::ToCourt,
        Menu::View,
        "Go to the ball",
        "Give the keys to the ball target; Tab goes on to the other things",
    )
    .keys(PLAIN, Key::C),
    entry(Command::ShowField, Menu::View, "Shading of the places", "Shade every place by the points lost from there")
        .keys(PLAIN, Key::Num1)
        .icon(Icon::Layers)
        .group()
        .on(|f| f.settings.layers.field),
    entry(Command::ShowWedge, Menu::View, "Wedge of directions", "Show the directions left to the opponent")
        .keys(PLAIN, Key::Num2)
        .on(|f| f.settings.layers.wedge),
    entry(Command::ShowReplies, Menu::View, "Two best replies", "Show the opponent's two best replies")
        .keys(PLAIN, Key::Num3)
        .on(|f| f.settings.layers.replies),
    entry(Command::ShowBisector, Menu::View, "Bisector", "Show the middle of the wedge, the simple rule to teach")
        .keys(PLAIN, Key::Num4)
        .on(|f| f.settings.layers.bisector),
    entry(Command::ShowRun, Menu::View, "Recovery run", "Show the way to the spot")
        .keys(PLAIN, Key::Num5)
        .on(|f| f.settings.layers.run),
    entry(Command::ColoursSurface, Menu::Look, "Court in the colours of its surface", "Clay, grass or hard court")
        .on(|f| f.colours == Colours::Surface),
    entry(Command::ColoursPaper, Menu::Look, "Court as on paper", "Black lines on white, for print")
        .on(|f| f.colours == Colours::Paper),
    entry(
        Command::ColoursBright,
        Menu::Look,
        "Court for a bright room",
        "Strong contrast for sunlight or a weak projector",
    )
    .keys(PLAIN, Key::B)
    .on(|f| f.colours == Colours::Bright),
    entry(Command::ThemeSystem, Menu::Look, "Light or dark as the desktop", "Follow the desktop")
        .icon(Icon::Theme)
        .group()
        .on(|f| f.settings.theme == ThemeChoice::System),
    entry(Command::ThemeLight, Menu::Look, "Light", "Light panels").on(|f| f.settings.theme == ThemeChoice::Light),
    entry(Command::ThemeDark, Menu::Look, "Dark", "Dark panels")
        .keys(PLAIN, Key::D)
        .on(|f| f.settings.theme == ThemeChoice::Dark),
    entry(Command::LargerText, Menu::Look, "Larger text", "Make text and controls larger")
        .keys(CTRL, Key::Plus)
        .group()
        .when(|f| f.settings.text_size < TEXT_SIZES.1),
    entry(Command::SmallerText, Menu::Look, "Smaller text", "Make text and controls smaller")
        .keys(CTRL, Key::Minus)
        .when(|f| f.settings.text_size > TEXT_SIZES.0),
    entry(Command::LanguageSystem, Menu::Look, "Language of the desktop", "Speak the language the desktop is set to")
        .group()
        .on(|f| f.settings.language.is_none()),
    entry(Command::LanguageEnglish, Menu::Look, "English", "Speak English, with a decimal point")
        .on(|f| f.settings.language == Some(Language::English)),
    entry(Command::LanguageGerman, Menu::Look, "Deutsch", "Speak German, with a decimal comma")
        .on(|f| f.settings.language == Some(Language::German)),
    entry(Command::Finder, Menu::Help, "Find a command…", "Type a few letters of what should be done")
        .keys(CTRL, Key::K)
        .icon(Icon::Search),
    entry(Command::How, Menu::Help, "How the figures came about", "Every step of the computation for this shot")
        .keys(PLAIN, Key::F2)
        .when(|f| !f.chart.open),
    entry(Command::Shortcuts, Menu::Help, "Keys", "List all keys").keys(PLAIN, Key::F1).icon(Icon::Keyboard),
    entry(Command::Hints, Menu::Help, "Show the hints again", "Show the hints of the first start"),
];
