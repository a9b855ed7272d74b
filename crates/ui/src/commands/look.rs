//! The catalogue’s entries about how the window looks and speaks.

use egui::Key;
use standpoint_language::{Language, mark};
use standpoint_workbench::{
    edit::Colours,
    settings::{TEXT_SIZES, ThemeChoice},
};

use super::{
    command::{Command, LookCommand},
    spec::{CTRL, Menu, PLAIN, Spec, entry},
};
use crate::theme::icons::Icon;

/// In the order of [`LookCommand`].
pub static ENTRIES: [Spec; 11] = [
    entry(
        Command::Look(LookCommand::ColoursSurface),
        Menu::Look,
        "Court in the colours of its surface",
        "Clay, grass or hard court",
    )
    .on(|f| f.colours == Colours::Surface),
    entry(Command::Look(LookCommand::ColoursPaper), Menu::Look, "Court as on paper", "Black lines on white, for print")
        .on(|f| f.colours == Colours::Paper),
    entry(
        Command::Look(LookCommand::ColoursBright),
        Menu::Look,
        "Court for a bright room",
        "Strong contrast for sunlight or a weak projector",
    )
    .keys(PLAIN, Key::B)
    .on(|f| f.colours == Colours::Bright),
    entry(Command::Look(LookCommand::ThemeSystem), Menu::Look, "Light or dark as the desktop", "Follow the desktop")
        .icon(Icon::Theme)
        .group()
        .on(|f| f.settings.theme == ThemeChoice::System),
    entry(Command::Look(LookCommand::ThemeLight), Menu::Look, "Light", "Light panels")
        .on(|f| f.settings.theme == ThemeChoice::Light),
    entry(Command::Look(LookCommand::ThemeDark), Menu::Look, "Dark", "Dark panels")
        .keys(PLAIN, Key::D)
        .on(|f| f.settings.theme == ThemeChoice::Dark),
    entry(Command::Look(LookCommand::LargerText), Menu::Look, "Larger text", "Make text and controls larger")
        .keys(CTRL, Key::Plus)
        .group()
        .when(|f| f.settings.text_size < TEXT_SIZES.1, mark("The text has its largest size already")),
    entry(Command::Look(LookCommand::SmallerText), Menu::Look, "Smaller text", "Make text and controls smaller")
        .keys(CTRL, Key::Minus)
        .when(|f| f.settings.text_size > TEXT_SIZES.0, mark("The text has its smallest size already")),
    entry(
        Command::Look(LookCommand::LanguageSystem),
        Menu::Look,
        "Language of the desktop",
        "Speak the language the desktop is set to",
    )
    .group()
    .on(|f| f.settings.language.is_none()),
    entry(Command::Look(LookCommand::LanguageEnglish), Menu::Look, "English", "Speak English, with a decimal point")
        .on(|f| f.settings.language == Some(Language::English)),
    entry(Command::Look(LookCommand::LanguageGerman), Menu::Look, "Deutsch", "Speak German, with a decimal comma")
        .on(|f| f.settings.language == Some(Language::German)),
];
