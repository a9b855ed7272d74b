//! What the program remembers between runs, kept in the platform's configuration directory.

use std::{
    fs, io,
    path::{Path, PathBuf},
};

use serde::{Deserialize, Serialize};
use standpoint_language::Language;

/// Names the directory of the settings instead of the platform's own, for tests and portable installations.
pub const CONFIG_DIR_VARIABLE: &str = "STANDPOINT_CONFIG_DIR";
/// Names the directory of copies of unsaved work instead of the platform's own.
pub const DATA_DIR_VARIABLE: &str = "STANDPOINT_DATA_DIR";
/// Least and greatest size of text and controls, in hundredths of the usual.
pub const TEXT_SIZES: (u16, u16) = (80, 200);
const FILE: &str = "settings.ron";
const RECENT_KEPT: usize = 8;
const TABLES_KEPT: usize = 20;

/// Light or dark interface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum ThemeChoice {
    /// As the desktop says.
    #[default]
    System,
    /// Light.
    Light,
    /// Dark.
    Dark,
}

/// The settings. Anything a file does not mention has its default.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// Light or dark interface.
    pub theme: ThemeChoice,
    /// Size of text and controls, in hundredths of the usual.
    pub text_size: u16,
    /// The language that is spoken; that of the desktop unless one was chosen.
    pub language: Option<Language>,
    /// Quarter turns of the board, clockwise; 0 has the near side down.
    pub turn: u8,
    /// Whether dragged things are held lightly by the lines.
    pub snap: bool,
    /// Whether the side panel is shown.
    pub panel: bool,
    /// Whether the bar with the drawing tools is shown.
    pub tools: bool,
    /// Whether the row of shots is shown.
    pub rally: bool,
    /// Whether the pages are shown.
    pub pages: bool,
    /// Whether shots are weighed against each other instead of answering the one that is drawn.
    pub weighing: bool,
    /// What is shown on the court.
    pub layers: Layers,
    /// What is shown on the court in the other case: answering or weighing.
    pub other_layers: Layers,
    /// A folder whose boards are listed in the library.
    pub own_boards: Option<PathBuf>,
    /// How tables of shots were read, the latest first: their headings, and which held what.
    pub tables: Vec<(Vec<String>, standpoint_board::chart::import::Mapping)>,
    /// Whether reports are made for Letter paper instead of A4.
    pub letter_paper: bool,
    /// Boards opened lately, the latest first.
    pub recent: Vec<PathBuf>,
    /// Whether the hints of the first start have been shown.
    pub hints_shown: bool,
    /// Whether the keys of the presentation have been shown.
    pub present_keys_shown: bool,
}

/// What is shown on the court.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Layers {
    /// The shading of the exposure and its level lines.
    pub field: bool,
    /// The wedge of the opponent's directions.
    pub wedge: bool,
    /// The two best replies.
    pub replies: bool,
    /// The bisector of the wedge.
    pub bisector: bool,
    /// The recovery run.
    pub run: bool,
    /// The shots that are weighed against each other.
    pub ghosts: bool,
    /// The worth of every target.
    pub aim: bool,
    /// The reach at the net after an approach.
    pub net: bool,
}

impl Default for Layers {
    fn default() -> Self {
        Self {
            field: true,
            wedge: true,
            replies: true,
            bisector: true,
            run: true,
            ghosts: false,
            aim: false,
            net: false,
        }
    }
}

impl Layers {
    /// What is shown while shots are weighed: the shots beside each other, and nothing that belongs to one of them only.
    #[must_use]
    pub fn weighing() -> Self {
        Self {
            field: false,
            wedge: false,
            replies: false,
            bisector: false,
            run: false,
            ghosts: true,
            aim: true,
            net: true,
        }
    }
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            theme: ThemeChoice::default(),
            text_size: 100,
            language: None,
            turn: 0,
            snap: false,
            panel: true,
            tools: true,
            rally: true,
            pages: true,
            weighing: false,
            layers: Layers::default(),
            other_layers: Layers::weighing(),
            own_boards: None,
            tables: Vec::new(),
            letter_paper: false,
            recent: Vec::new(),
            hints_shown: false,
            present_keys_shown: false,
        }
    }
}

impl Settings {
    /// Puts a board at the head of the recent ones.
    pub fn remember(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.recent.retain(|p| *p != path);
        self.recent.insert(0, path);
        self.recent.truncate(RECENT_KEPT);
    }

    /// Remembers how a table with these headings is read.
    pub fn keep_mapping(&mut self, headings: &[String], mapping: &standpoint_board::chart::import::Mapping) {
        self.tables.retain(|(known, _)| known != headings);
        self.tables.insert(0, (headings.to_vec(), mapping.clone()));
        self.tables.truncate(TABLES_KEPT);
    }

    /// How a table with these headings was read the last time.
    #[must_use]
    pub fn mapping_for(&self, headings: &[String]) -> Option<standpoint_board::chart::import::Mapping> {
        self.tables.iter().find(|(known, _)| known == headings).map(|(_, mapping)| mapping.clone())
    }

    /// Speaks the language that was chosen, or else that of the desktop, from now on.
    pub fn speak(&self) {
        speak(self.language.unwrap_or_else(Language::of_system));
    }

    /// Reads settings from a directory; what cannot be read counts as not there, since nothing of value is lost.
    #[must_use]
    pub fn load(dir: &Path) -> Self {
        fs::read_to_string(dir.join(FILE)).ok().and_then(|text| ron::from_str(&text).ok()).unwrap_or_default()
    }

    /// Writes the settings; the former file stays until the new one is complete.
    ///
    /// # Errors
    ///
    /// When the directory cannot be made or written.
    pub fn store(&self, dir: &Path) -> io::Result<()> {
        fs::create_dir_all(dir)?;
        let text = ron::ser::to_string_pretty(self, ron::ser::PrettyConfig::default()).map_err(io::Error::other)?;
        let new = dir.join(format!("{FILE}.{}.new", std::process::id()));
        fs::write(&new, text)?;
        fs::rename(&new, dir.join(FILE))
    }
}

/// Speaks a language from now on, in the texts of every crate.
pub fn speak(language: Language) {
    standpoint_language::set_translator!(standpoint_language::Catalogue);
    standpoint_board::speak_up();
    standpoint_sheet::speak_up();
    standpoint_language::speak(language);
}

/// The directory of the settings, if the platform has one.
#[must_use]
pub fn directory() -> Option<PathBuf> {
    std::env::var_os(CONFIG_DIR_VARIABLE)
        .map(PathBuf::from)
        .or_else(|| directories::ProjectDirs::from("", "", "standpoint").map(|dirs| dirs.config_dir().to_owned()))
}

/// The directory of copies of unsaved work, if the platform has one.
#[must_use]
pub fn data_directory() -> Option<PathBuf> {
    std::env::var_os(DATA_DIR_VARIABLE)
        .map(PathBuf::from)
        .or_else(|| directories::ProjectDirs::from("", "", "standpoint").map(|dirs| dirs.data_local_dir().to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_survive_a_restart() {
        let dir = tempfile::tempdir().unwrap();
        let mut settings = Settings { turn: 3, snap: true, ..Settings::default() };
        settings.remember(Path::new("/boards/a.ron"));
        settings.remember(Path::new("/boards/b.ron"));
        settings.remember(Path::new("/boards/a.ron"));
        settings.store(dir.path()).unwrap();
        assert_eq!(Settings::load(dir.path()), settings);
        assert_eq!(settings.recent, [PathBuf::from("/boards/a.ron"), PathBuf::from("/boards/b.ron")]);
    }

    #[test]
    fn an_unreadable_file_means_defaults() {
        let dir = tempfile::tempdir().unwrap();
        fs::write(dir.path().join(FILE), "(theme: 3").unwrap();
        assert_eq!(Settings::load(dir.path()), Settings::default());
    }

    #[test]
    fn an_older_file_keeps_what_it_says() {
        let dir = tempfile::tempdir().unwrap();
        fs::write(dir.path().join(FILE), "(snap: true)").unwrap();
        assert_eq!(Settings::load(dir.path()), Settings { snap: true, ..Settings::default() });
    }
}
