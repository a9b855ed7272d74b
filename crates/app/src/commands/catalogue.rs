//! The catalogue of commands: label, hint, shortcut, icon, menu, when it can be used and whether it is on.

use std::sync::LazyLock;

use egui::{Key, KeyboardShortcut, Modifiers};
use standpoint_language::{Language, text, text_in};

use super::{Facts, chart, pages, rally, sketch, teach, weigh};
use crate::{
    edit::Colours,
    settings::{TEXT_SIZES, ThemeChoice},
    theme::icons::Icon,
};

/// A command.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "label and hint of each stand in the catalogue")]
pub enum Command {
    NewBoard,
    DemoBoard,
    Open,
    Save,
    SaveAs,
    Export,
    CopyPicture,
    Quit,
    Undo,
    Redo,
    SwapHitter,
    Mirror,
    ResetReceipt,
    ResetHitter,
    Snap,
    Metres,
    Feet,
    Fit,
    ZoomIn,
    ZoomOut,
    Turn,
    Flip,
    Panel,
    ToCourt,
    ShowField,
    ShowWedge,
    ShowReplies,
    ShowBisector,
    ShowRun,
    ColoursSurface,
    ColoursPaper,
    ColoursBright,
    ThemeSystem,
    ThemeLight,
    ThemeDark,
    LargerText,
    SmallerText,
    LanguageSystem,
    LanguageEnglish,
    LanguageGerman,
    Finder,
    How,
    Shortcuts,
    Hints,
    // The entries of `commands::rally`.
    NextShot,
    PreviousShot,
    AddShotAfter,
    AddShotBefore,
    DuplicateShot,
    DeleteShot,
    Follow,
    CoachOther,
    RecoverToMiddle,
    RecoverToSpot,
    Play,
    StepOn,
    StepBack,
    LeavePlaying,
    Loop,
    PaceTrue,
    PaceHalf,
    PaceQuarter,
    ShowRally,
    // The entries of `commands::pages`.
    NextPage,
    PreviousPage,
    AddPage,
    AddPattern,
    DuplicatePage,
    DeletePage,
    PageUp,
    PageDown,
    ShowPages,
    // The entries of `commands::weigh`.
    Weigh,
    WeighShots,
    WeighAim,
    WeighTurn,
    WeighNet,
    ShowGhosts,
    ShowAim,
    ShowNet,
    AimToMiddle,
    AddTarget,
    Approach,
    // The entries of `commands::sketch`.
    ToolHand,
    ToolSelect,
    ToolBallWay,
    ToolPlayerWay,
    ToolPen,
    ToolWords,
    ToolCone,
    ToolBasket,
    ToolPerson,
    ToolZone,
    ToolOval,
    ToolEraser,
    NextInk,
    InkPlain,
    InkCoached,
    InkOther,
    InkBall,
    InkWarning,
    DuplicateMarks,
    DeleteMarks,
    ChooseAllMarks,
    SwapPattern,
    ShowDrill,
    ShowSketch,
    ShowWords,
    ShowAllMarks,
    ShowTools,
    Library,
    LeftWork,
    // The entries of `commands::chart`.
    ChartRoom,
    ChartNote,
    ChartAudit,
    ChartMeasure,
    ChartWithBoard,
    ChartAlone,
    ChartMove,
    ChartOpen,
    ChartSave,
    ChartImport,
    ChartShots,
    ChartSummary,
    ChartReport,
    // The entries of `commands::teach`.
    Present,
    Rehearse,
}

/// The menus, in their order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Menu {
    /// Files.
    Board,
    /// Changes.
    Edit,
    /// What is drawn.
    Draw,
    /// Shots and playing them.
    Rally,
    /// Pages.
    Page,
    /// Shots against each other.
    Weigh,
    /// What really happened.
    Chart,
    /// Showing and practising.
    Teach,
    /// What is seen.
    View,
    /// How it looks.
    Look,
    /// Help.
    Help,
}

impl Menu {
    /// All menus.
    pub const ALL: [Self; 11] = [
        Self::Board,
        Self::Edit,
        Self::Draw,
        Self::Rally,
        Self::Page,
        Self::Weigh,
        Self::Chart,
        Self::Teach,
        Self::View,
        Self::Look,
        Self::Help,
    ];

    /// The menu's title.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Board => text_in("menu", "Board"),
            Self::Edit => text_in("menu", "Edit"),
            Self::Draw => text_in("menu", "Draw"),
            Self::Rally => text_in("menu", "Rally"),
            Self::Page => text_in("menu", "Page"),
            Self::Weigh => text_in("menu", "Weigh"),
            Self::Chart => text_in("menu", "Chart"),
            Self::Teach => text_in("menu", "Teach"),
            Self::View => text_in("menu", "View"),
            Self::Look => text_in("menu", "Look"),
            Self::Help => text_in("menu", "Help"),
        }
    }
}

/// What the catalogue says about a command.
#[derive(Clone, Copy)]
pub struct Spec {
    /// The command.
    pub command: Command,
    label: &'static str,
    hint: &'static str,
    /// Its keys.
    pub shortcut: Option<KeyboardShortcut>,
    /// Its icon.
    pub icon: Option<Icon>,
    /// Where it is listed.
    pub menu: Menu,
    /// Whether a separator stands before it.
    pub opens_group: bool,
    /// Whether it can be used.
    pub enabled: fn(&Facts) -> bool,
    /// Whether it is on, for those that can be.
    pub on: Option<fn(&Facts) -> bool>,
}

pub(super) const CTRL: Modifiers = Modifiers::COMMAND;
pub(super) const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
pub(super) const PLAIN: Modifiers = Modifiers::NONE;
pub(super) const SHIFT: Modifiers = Modifiers::SHIFT;

pub(super) const fn entry(command: Command, menu: Menu, label: &'static str, hint: &'static str) -> Spec {
    Spec { command, label, hint, shortcut: None, icon: None, menu, opens_group: false, enabled: |_| true, on: None }
}

impl Spec {
    /// Its name, in the language that is spoken.
    #[must_use]
    pub fn label(&self) -> &'static str {
        text(self.label)
    }

    /// What it does, in a sentence in the language that is spoken.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        text(self.hint)
    }

    /// Its name in English.
    #[must_use]
    pub fn english_label(&self) -> &'static str {
        self.label
    }

    /// Its name and what it does in English, by which it is found in any language.
    #[must_use]
    pub fn english(&self) -> (&'static str, &'static str) {
        (self.label, self.hint)
    }

    pub(super) const fn keys(mut self, modifiers: Modifiers, key: Key) -> Self {
        self.shortcut = Some(KeyboardShortcut::new(modifiers, key));
        self
    }

    pub(super) const fn icon(mut self, icon: Icon) -> Self {
        self.icon = Some(icon);
        self
    }

    pub(super) const fn group(mut self) -> Self {
        self.opens_group = true;
        self
    }

    pub(super) const fn when(mut self, enabled: fn(&Facts) -> bool) -> Self {
        self.enabled = enabled;
        self
    }

    pub(super) const fn on(mut self, on: fn(&Facts) -> bool) -> Self {
        self.on = Some(on);
        self
    }
}

/// The catalogue: the entries below, then those of the parts of the window that have a list of their own. Plain letters
/// work while no text is being typed.
pub static CATALOGUE: LazyLock<Vec<Spec>> = LazyLock::new(|| {
    [&BASE[..], &rally::ENTRIES, &pages::ENTRIES, &weigh::ENTRIES, &sketch::ENTRIES, &chart::ENTRIES, &teach::ENTRIES]
        .concat()
});

static BASE: [Spec; 44] = [
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

impl Command {
    /// What the catalogue says about this command.
    #[must_use]
    pub fn spec(self) -> &'static Spec {
        // The order of the catalogue is the order of the enum, which a test checks.
        &CATALOGUE[self as usize]
    }
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn every_command_stands_where_it_is_looked_up() {
        for (i, spec) in CATALOGUE.iter().enumerate() {
            assert_eq!(spec.command as usize, i, "{}", spec.label);
        }
    }

    #[test]
    fn no_two_commands_share_their_keys_or_their_name() {
        let mut keys = HashSet::new();
        let mut labels = HashSet::new();
        for spec in CATALOGUE.iter() {
            assert!(labels.insert(spec.label.to_lowercase()), "{} twice", spec.label);
            if let Some(shortcut) = spec.shortcut {
                assert!(keys.insert(format!("{shortcut:?}")), "{} has keys of another command", spec.label);
            }
        }
    }

    #[test]
    fn no_command_takes_a_key_that_moves_or_leaves_a_thing_on_the_court() {
        let taken = [
            Key::ArrowUp,
            Key::ArrowDown,
            Key::ArrowLeft,
            Key::ArrowRight,
            Key::Tab,
            Key::Escape,
            Key::Delete,
            Key::Enter,
        ];
        for spec in CATALOGUE.iter() {
            let free = |s: KeyboardShortcut| s.modifiers != PLAIN || !taken.contains(&s.logical_key);
            assert!(spec.shortcut.is_none_or(free), "{}", spec.label);
        }
    }

    #[test]
    fn every_command_has_a_hint_that_is_a_sentence_without_a_stop() {
        for spec in CATALOGUE.iter() {
            assert!(spec.hint.len() > 5 && !spec.hint.ends_with('.'), "{}", spec.label);
        }
    }
}
