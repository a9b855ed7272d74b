//! The catalogue’s entries about the view of the board.

use egui::Key;
use standpoint_language::mark;

use super::{
    command::{Command, ViewCommand},
    spec::{Menu, PLAIN, SHIFT, Spec, entry},
};
use standpoint_workbench::settings::Sight;

use crate::theme::icons::Icon;

/// In the order of [`ViewCommand`].
pub static ENTRIES: [Spec; 19] = [
    entry(Command::View(ViewCommand::Fit), Menu::View, "Fit the court", "Show the whole court as large as it gets")
        .keys(PLAIN, Key::F)
        .icon(Icon::Fit)
        .when(|f| !f.fitted, mark("The court is as large as it gets already")),
    entry(
        Command::View(ViewCommand::ZoomIn),
        Menu::View,
        "Zoom in",
        "Come closer; the wheel or a pinch does so around the pointer",
    )
    .keys(PLAIN, Key::Plus)
    .icon(Icon::ZoomIn),
    entry(Command::View(ViewCommand::ZoomOut), Menu::View, "Zoom out", "Step back")
        .keys(PLAIN, Key::Minus)
        .icon(Icon::ZoomOut),
    entry(
        Command::View(ViewCommand::Turn),
        Menu::View,
        "Turn the court",
        "Turn the court by a quarter: upright, or lying",
    )
    .keys(PLAIN, Key::T)
    .icon(Icon::Turn)
    .group(),
    entry(Command::View(ViewCommand::Flip), Menu::View, "Other side down", "Look from the other end of the court")
        .keys(SHIFT, Key::T)
        .icon(Icon::Flip),
    entry(
        Command::View(ViewCommand::TurnedFreely),
        Menu::View,
        "As the court is largest",
        "Let the court lie or stand, whichever is larger in this window",
    )
    .group()
    .on(|f| !f.settings.turned),
    entry(Command::View(ViewCommand::Upright), Menu::View, "Court upright", "Keep the court upright")
        .on(|f| f.settings.turned && f.settings.turn.is_multiple_of(2)),
    entry(Command::View(ViewCommand::Lying), Menu::View, "Court lying", "Keep the court lying on its side")
        .on(|f| f.settings.turned && !f.settings.turn.is_multiple_of(2)),
    entry(
        Command::View(ViewCommand::Clean),
        Menu::View,
        "Court alone",
        "Show the court without menus and panels; Escape or a menu brings them back",
    )
    .keys(PLAIN, Key::F11)
    .icon(Icon::Fit)
    .group()
    .on(|f| f.parts.clean),
    entry(
        Command::View(ViewCommand::Eyes),
        Menu::View,
        "Player’s eye",
        "Show beside the court what the hitter sees from the spot as the opponent strikes",
    )
    .keys(PLAIN, Key::F3)
    .icon(Icon::Eye)
    .group()
    .on(|f| f.settings.perspective.shown && !f.settings.perspective.alone),
    entry(
        Command::View(ViewCommand::EyesAlone),
        Menu::View,
        "Player’s eye instead of the court",
        "Show what the hitter sees as large as the window allows",
    )
    .keys(SHIFT, Key::F3)
    .on(|f| f.settings.perspective.shown && f.settings.perspective.alone),
    entry(
        Command::View(ViewCommand::EyesBehind),
        Menu::View,
        "From behind the court",
        "Look from behind the hitter’s end instead of through their eyes, where there is room for one view only",
    )
    .keys(PLAIN, Key::F7)
    .on(|f| f.settings.perspective.sight == Sight::Behind),
    entry(Command::View(ViewCommand::Panel), Menu::View, "Side panel", "Show or hide the panel with the figures")
        .keys(PLAIN, Key::P)
        .icon(Icon::Panel)
        .on(|f| f.parts.panel),
    entry(
        Command::View(ViewCommand::ToCourt),
        Menu::View,
        "Go to the ball",
        "Give the keys to the ball target; Tab goes on to the other things",
    )
    .keys(PLAIN, Key::C),
    entry(
        Command::View(ViewCommand::ShowField),
        Menu::View,
        "Shading of the places",
        "Shade every place by the points that the opponent wins against it",
    )
    .keys(PLAIN, Key::Num1)
    .icon(Icon::Layers)
    .group()
    .on(|f| f.settings.layers.field),
    entry(
        Command::View(ViewCommand::ShowWedge),
        Menu::View,
        "Angle of replies",
        "Show the directions left to the opponent",
    )
    .keys(PLAIN, Key::Num2)
    .on(|f| f.settings.layers.wedge),
    entry(
        Command::View(ViewCommand::ShowReplies),
        Menu::View,
        "Two best replies",
        "Show the opponent's two best replies",
    )
    .keys(PLAIN, Key::Num3)
    .on(|f| f.settings.layers.replies),
    entry(
        Command::View(ViewCommand::ShowBisector),
        Menu::View,
        "Bisector",
        "Show the middle of the opponent's angle, the simple rule to teach",
    )
    .keys(PLAIN, Key::Num4)
    .on(|f| f.settings.layers.bisector),
    entry(Command::View(ViewCommand::ShowRun), Menu::View, "Recovery", "Show the way to the spot")
        .keys(PLAIN, Key::Num5)
        .on(|f| f.settings.layers.run),
];
