//! Settings, stored in the platform's configuration directory.

// The fuzz target of the settings takes this file alone, and finds the module by its path.
#[path = "settings/shown.rs"]
mod shown;

use std::{
    fs,
    io::{self, Read as _},
    path::{Path, PathBuf},
};

use serde::{Deserialize, Serialize};
use standpoint_board::Units;
use standpoint_language::{Language, tr};

use shown::FormerParts;
pub use shown::{Layers, Parts, Perspective, Sight};

/// Environment variable: directory of the settings, for tests and portable installations.
pub const CONFIG_DIR_VARIABLE: &str = "STANDPOINT_CONFIG_DIR";
/// Environment variable: directory of crash copies.
pub const DATA_DIR_VARIABLE: &str = "STANDPOINT_DATA_DIR";
/// Least and greatest size of text and controls, in hundredths of the usual.
pub const TEXT_SIZES: (u16, u16) = (80, 200);
const FILE: &str = "settings.ron";
/// Name that an unreadable file gets when another takes its place.
const UNREADABLE: &str = "settings.unreadable.ron";
/// Largest file that is read, bytes; far above what the limits below allow.
const SIZE_LIMIT: u64 = 1 << 20;
const RECENT_KEPT: usize = 8;
const TABLES_KEPT: usize = 20;
/// Longest headings of a table that are kept, bytes.
const HEADINGS_LIMIT: usize = 16 * 1024;
/// Longest path that is kept, bytes: more than systems allow.
const PATH_LIMIT: usize = 16 * 1024;

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
    /// The chosen language; that of the desktop if none was chosen.
    pub language: Option<Language>,
    /// Quarter turns of the board, clockwise; 0 has the near side down. Only the end counts while `turned` is not set.
    pub turn: u8,
    /// Whether the coach has chosen how the court lies; it lies or stands as it is larger otherwise.
    pub turned: bool,
    /// Whether dragged things snap to the lines.
    pub snap: bool,
    /// Whether the bar with the drawing tools is shown.
    pub tools: bool,
    /// The parts of the window that were shown or hidden by hand.
    pub parts: Parts,
    /// Whether shots are compared, instead of answering the drawn one.
    #[serde(rename = "weighing")]
    pub comparing: bool,
    /// The view in perspective.
    pub perspective: Perspective,
    /// What is shown on the court.
    pub layers: Layers,
    /// What is shown on the court in the other mode, answering or comparing.
    pub other_layers: Layers,
    /// A folder whose boards are listed in the library.
    pub own_boards: Option<PathBuf>,
    /// The folder of the roster, where it is not with the program's data.
    pub roster: Option<PathBuf>,
    /// Mappings of imported tables, the latest first: headings, and the column of each.
    pub tables: Vec<(Vec<String>, standpoint_charting::import::Mapping)>,
    /// Whether new boards are in feet; the desktop decides until units are chosen.
    pub feet: Option<bool>,
    /// Whether reports are made for Letter paper instead of A4.
    pub letter_paper: bool,
    /// Boards opened lately, the latest first.
    pub recent: Vec<PathBuf>,
    /// Whether the hints of the first start have been shown.
    pub hints_shown: bool,
    /// Whether the keys of the presentation have been shown.
    pub present_keys_shown: bool,
}

/// A file of settings that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unreadable {
    /// Where it is.
    pub path: PathBuf,
    /// Why, with the place in it.
    pub why: String,
    /// Where it is moved once other settings are stored.
    pub kept: PathBuf,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            theme: ThemeChoice::default(),
            text_size: 100,
            language: None,
            turn: 0,
            turned: false,
            snap: false,
            tools: true,
            parts: Parts::default(),
            comparing: false,
            perspective: Perspective::default(),
            layers: Layers::default(),
            other_layers: Layers::comparing(),
            own_boards: None,
            roster: None,
            tables: Vec::new(),
            feet: None,
            letter_paper: false,
            recent: Vec::new(),
            hints_shown: false,
            present_keys_shown: false,
        }
    }
}

impl Settings {
    /// Switches to the chosen language, or to that of the desktop.
    pub fn speak(&self) {
        standpoint_language::speak(self.language.unwrap_or_else(Language::of_system));
    }

    /// The units chosen for new boards, if any.
    #[must_use]
    pub fn units(&self) -> Option<Units> {
        self.feet.map(|feet| if feet { Units::Feet } else { Units::Metres })
    }

    /// Puts a board at the head of the recent ones.
    pub fn remember(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.recent.retain(|p| *p != path);
        self.recent.insert(0, path);
        self.recent.truncate(RECENT_KEPT);
    }

    /// Remembers how a table with these headings is read.
    pub fn keep_mapping(&mut self, headings: &[String], mapping: &standpoint_charting::import::Mapping) {
        if length(headings) > HEADINGS_LIMIT {
            return;
        }
        self.tables.retain(|(known, _)| known != headings);
        self.tables.insert(0, (headings.to_vec(), mapping.clone()));
        self.tables.truncate(TABLES_KEPT);
    }

    /// The mapping last used for a table with these headings.
    #[must_use]
    pub fn mapping_for(&self, headings: &[String]) -> Option<standpoint_charting::import::Mapping> {
        self.tables.iter().find(|(known, _)| known == headings).map(|(_, mapping)| mapping.clone())
    }

    /// Reads settings from a directory. An unreadable file is reported and replaced by the defaults;
    /// [`Settings::store`] then keeps it beside the new one.
    #[must_use]
    pub fn load(dir: &Path) -> (Self, Option<Unreadable>) {
        let path = dir.join(FILE);
        let read = match read(&path) {
            Ok(None) => Ok(Self::default()),
            Ok(Some(bytes)) => Self::from_bytes(&bytes),
            Err(problem) => Err(problem.to_string()),
        };
        match read {
            Ok(settings) => (settings, None),
            Err(why) => (Self::default(), Some(Unreadable { path, why, kept: free_name(dir) })),
        }
    }

    /// Settings from the bytes of a file, with numbers and lists clamped to their bounds.
    ///
    /// # Errors
    ///
    /// The message, with the place in the file.
    pub fn from_bytes(bytes: &[u8]) -> Result<Self, String> {
        if bytes.len() as u64 > SIZE_LIMIT {
            return Err(tr!("it has more than {} bytes", SIZE_LIMIT));
        }
        let text = std::str::from_utf8(bytes).map_err(|e| tr!("byte {} is not UTF-8", e.valid_up_to()))?;
        let problem = |e: ron::error::SpannedError| {
            let at = e.span.start;
            tr!("line {}, column {}: {}", at.line, at.col, shortened(&e.code.to_string()))
        };
        let settings: Self = ron::from_str(text).map_err(problem)?;
        let former: FormerParts = ron::from_str(text).map_err(problem)?;
        Ok(Self { parts: former.into_parts(settings.parts), ..settings }.within_bounds())
    }

    /// The settings clamped to their bounds: a file may have been written by hand.
    #[must_use]
    fn within_bounds(mut self) -> Self {
        self.text_size = self.text_size.clamp(TEXT_SIZES.0, TEXT_SIZES.1);
        self.turn %= 4;
        let sensible = |path: &PathBuf| path.as_os_str().len() <= PATH_LIMIT;
        self.own_boards = self.own_boards.filter(sensible);
        self.roster = self.roster.filter(sensible);
        self.recent.retain(sensible);
        self.recent.truncate(RECENT_KEPT);
        self.tables.retain(|(headings, mapping)| {
            let wanted = mapping.columns.values().map(String::len).sum::<usize>();
            length(headings) <= HEADINGS_LIMIT && wanted <= HEADINGS_LIMIT
        });
        self.tables.truncate(TABLES_KEPT);
        self
    }

    /// The settings as text.
    ///
    /// # Errors
    ///
    /// When they cannot be put into text.
    pub fn to_text(&self) -> io::Result<String> {
        ron::ser::to_string_pretty(self, ron::ser::PrettyConfig::default()).map_err(io::Error::other)
    }

    /// Writes the settings atomically. A former file that cannot be read is kept beside the new one:
    /// it may have been written by hand.
    ///
    /// # Errors
    ///
    /// When the directory cannot be made or written.
    pub fn store(&self, dir: &Path) -> io::Result<()> {
        fs::create_dir_all(dir)?;
        let path = dir.join(FILE);
        // What has that name and holds no settings: another text, or a folder.
        let readable = match read(&path) {
            Ok(former) => former.is_none_or(|bytes| Self::from_bytes(&bytes).is_ok()),
            Err(_) => false,
        };
        if !readable {
            fs::rename(&path, free_name(dir))?;
        }
        // A link stays one, and what it leads to is replaced.
        let path = fs::canonicalize(&path).unwrap_or(path);
        let new = path.with_file_name(format!("{FILE}.{}.new", std::process::id()));
        let stored = fs::write(&new, self.to_text()?).and_then(|()| fs::rename(&new, path));
        if stored.is_err() {
            // Why it failed matters more than a left-over that cannot be removed either.
            let _ = fs::remove_file(&new);
        }
        stored
    }
}

/// The bytes of a file, at most one more than the limit; none if there is no file.
fn read(path: &Path) -> io::Result<Option<Vec<u8>>> {
    let file = match fs::File::open(path) {
        Err(problem) if problem.kind() == io::ErrorKind::NotFound => return Ok(None),
        file => file?,
    };
    let mut bytes = Vec::new();
    file.take(SIZE_LIMIT + 1).read_to_end(&mut bytes)?;
    Ok(Some(bytes))
}

/// Free path for an unreadable file; earlier ones are kept, up to a hundred.
fn free_name(dir: &Path) -> PathBuf {
    let names = (2..100).map(|n| dir.join(format!("settings.unreadable-{n}.ron")));
    let first = dir.join(UNREADABLE);
    std::iter::once(first.clone()).chain(names).find(|path| !path.exists()).unwrap_or(first)
}

fn length(headings: &[String]) -> usize {
    headings.iter().map(String::len).sum()
}

/// The beginning of the parser's message, which may quote the file at length.
fn shortened(said: &str) -> String {
    const MOST: usize = 200;
    if said.chars().count() <= MOST {
        return said.to_owned();
    }
    said.chars().take(MOST).chain(['…']).collect()
}

/// The directory of the settings, if the platform has one.
#[must_use]
pub fn directory() -> Option<PathBuf> {
    std::env::var_os(CONFIG_DIR_VARIABLE).map(PathBuf::from).or_else(|| platform(directories::ProjectDirs::config_dir))
}

/// The directory of copies of unsaved work, if the platform has one.
#[must_use]
pub fn data_directory() -> Option<PathBuf> {
    std::env::var_os(DATA_DIR_VARIABLE)
        .map(PathBuf::from)
        .or_else(|| platform(directories::ProjectDirs::data_local_dir))
}

/// A directory of the platform. It is never one within the working folder, as it would be with `HOME=some/folder`: the
/// next start from elsewhere would not find it again.
pub(crate) fn platform(of: impl Fn(&directories::ProjectDirs) -> &Path) -> Option<PathBuf> {
    directories::ProjectDirs::from("", "", "standpoint")
        .map(|dirs| of(&dirs).to_owned())
        .filter(|dir| dir.is_absolute())
}

/// What is wrong with the home folder, when nothing can be kept because of it.
#[must_use]
pub fn homeless() -> Option<String> {
    let home = std::env::var_os("HOME").map(PathBuf::from)?;
    let nowhere = directory().is_none() || data_directory().is_none();
    (nowhere && home.is_relative()).then(|| {
        tr!(
            "HOME is `{}`, which is not a whole path, so nothing is kept: neither settings nor unsaved work nor solved rallies; set it to one that begins with /",
            home.display()
        )
    })
}

#[cfg(test)]
mod tests;
