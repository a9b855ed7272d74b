//! Which files are read, and which are written.

use std::{
    collections::HashSet,
    fs,
    path::{Path, PathBuf},
};

use standpoint_board::{Board, file};
use standpoint_language::tr;
use standpoint_workbench::wanted::Format;

use super::args::SheetArgs;
use crate::fault::Fault;

/// A board with the requested pages.
pub struct Source {
    /// Where it came from.
    pub file: PathBuf,
    /// The board.
    pub board: Board,
    /// Pages counted from 0.
    pub pages: Vec<usize>,
}

/// A file to be made.
pub struct Job {
    /// Where it goes.
    pub path: PathBuf,
    /// What it is.
    pub format: Format,
    /// Its title.
    pub title: String,
    /// The boards in it with their pages.
    pub boards: Vec<(Board, Vec<usize>)>,
    /// From which file it is made, when it is one.
    from: Option<PathBuf>,
}

impl Job {
    /// What to name in a message.
    pub fn place(&self) -> String {
        self.from.as_ref().unwrap_or(&self.path).display().to_string()
    }
}

/// Input files and their output.
pub struct Plan {
    /// The boards in order.
    pub files: Vec<PathBuf>,
    format: Format,
    output: PathBuf,
    into_folder: bool,
}

impl Plan {
    /// Finds the boards and their output files.
    ///
    /// # Errors
    /// An output without a known format, a folder without boards, or an unreadable one.
    pub fn new(args: &SheetArgs) -> Result<Self, Box<Fault>> {
        let output = args.output.clone();
        let shown = output.display().to_string();
        let by_ending = Format::of(&output);
        let into_folder = output.is_dir() || (by_ending.is_none() && output.extension().is_none());
        let format = match (args.format.map(super::args::FormatArg::format), by_ending) {
            (Some(asked), Some(ending)) if asked != ending && !into_folder => {
                let what = format!("the file ends in .{}, but --format asks for {}", ending.ending(), asked.ending());
                return Err(Fault::new("range", &shown, what, "Leave --format out, or name the file after it."));
            }
            (Some(asked), _) => asked,
            (None, Some(ending)) if !into_folder => ending,
            (None, _) if into_folder => Format::Pdf,
            (None, _) => {
                let what = "the ending does not say what to write".to_owned();
                return Err(Fault::new("range", &shown, what, "End it in .pdf, .svg, .png, .gif or .apng."));
            }
        };
        if into_folder {
            fs::create_dir_all(&output).map_err(|error| {
                let what = format!("the folder cannot be made: {error}");
                Fault::new("file", &shown, what, "Choose another folder, or make it yourself.")
            })?;
        }
        let mut files = Vec::new();
        for path in &args.boards {
            if path.is_dir() { files.extend(boards_in(path)?) } else { files.push(path.clone()) }
        }
        Ok(Self { files, format, output, into_folder })
    }

    /// The files to be made.
    pub fn jobs(&self, sources: Vec<Source>) -> Vec<Job> {
        let mut names = Names::default();
        if self.format == Format::Pdf && !self.into_folder {
            let title = match sources.as_slice() {
                [one] => one.board.title.clone(),
                several => tr!("Sheets of {} boards", several.len()),
            };
            let from = (sources.len() == 1).then(|| sources[0].file.clone());
            let boards = sources.into_iter().map(|source| (source.board, source.pages)).collect();
            return vec![Job { path: self.output.clone(), format: self.format, title, boards, from }];
        }
        let one = sources.len() == 1 && sources[0].pages.len() == 1;
        let mut jobs = Vec::new();
        for source in sources {
            let stem = source.file.file_stem().map_or_else(|| "board".into(), |stem| stem.to_string_lossy());
            let parts: Vec<Vec<usize>> = match self.format {
                Format::Pdf => vec![source.pages.clone()],
                _ => source.pages.iter().map(|page| vec![*page]).collect(),
            };
            let several = parts.len() > 1;
            for pages in parts {
                let number = pages.first().map_or(1, |page| page + 1);
                let path = if self.into_folder {
                    let name = if several { format!("{stem}-{number}") } else { stem.clone().into_owned() };
                    names.free(&self.output, &name, self.format.ending())
                } else if one {
                    self.output.clone()
                } else {
                    self.numbered(jobs.len() + 1)
                };
                let (title, from) = (source.board.title.clone(), Some(source.file.clone()));
                jobs.push(Job { path, format: self.format, title, boards: vec![(source.board.clone(), pages)], from });
            }
        }
        jobs
    }

    /// `rally.png` as `rally-2.png`.
    fn numbered(&self, number: usize) -> PathBuf {
        let stem = self.output.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        let ending = self.output.extension().map(|e| e.to_string_lossy().into_owned()).unwrap_or_default();
        self.output.with_file_name(format!("{stem}-{number}.{ending}"))
    }
}

/// Names given to files of a folder, each once.
#[derive(Default)]
struct Names(HashSet<String>);

impl Names {
    fn free(&mut self, folder: &Path, name: &str, ending: &str) -> PathBuf {
        let mut file = format!("{name}.{ending}");
        let mut again = 1;
        while !self.0.insert(file.to_lowercase()) {
            again += 1;
            file = format!("{name} ({again}).{ending}");
        }
        folder.join(file)
    }
}

/// The boards of a folder, in the order of their names.
fn boards_in(folder: &Path) -> Result<Vec<PathBuf>, Box<Fault>> {
    let shown = folder.display().to_string();
    let entries = fs::read_dir(folder).map_err(|error| {
        let what = format!("the folder cannot be read: {error}");
        Fault::new("file", &shown, what, "Look at its permissions, or name the boards one by one.")
    })?;
    let is_board = |path: &PathBuf| path.is_file() && path.extension().is_some_and(|e| e == file::EXTENSION);
    let mut found: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).filter(is_board).collect();
    found.sort();
    if found.is_empty() {
        let what = format!("there is no board (.{}) in this folder", file::EXTENSION);
        return Err(Fault::new("file", &shown, what, "Name a folder with boards, or the boards themselves."));
    }
    Ok(found)
}
