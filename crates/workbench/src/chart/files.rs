//! Files of the chart room, read and written on a thread of their own.

use std::{
    fs::File,
    io::{BufReader, Read, Write as _},
    path::{Path, PathBuf},
    sync::Arc,
};

use standpoint_board::{
    chart::{Chart, Setup, file as chart_file, score},
    store::{self, GrowingFile, LoadError, Stamp},
};
use standpoint_charting::{
    import::{Imported, Mapping, read_chart},
    moments,
    report::BadRowsCsv,
    season::{self, Season},
};
use standpoint_language::{text, tr};

use crate::chart::sample::Sample;

/// Length of the sample of a table that is read before the table itself, bytes.
const LOOK: u64 = 64 * 1024;

/// What a file is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ChartFile {
    /// A chart to open.
    Open,
    /// The chart.
    Save,
    /// A table to read shots from.
    Import,
    /// A folder of matches.
    Season,
    /// A folder of players.
    Roster,
    /// What is wrong with rows of a table.
    BadRows,
    /// The audit, shot by shot.
    Shots,
    /// The audit, group by group.
    Summary,
    /// The audit, to be printed.
    Report,
    /// Sheets of drills for findings.
    Drills,
    /// A player as an opponent, on one page.
    Scouting,
    /// Pictures of the shots, in pixels or as vectors.
    Pictures,
    /// Points as chapters of their video.
    Chapters,
    /// Points with their places in their videos.
    Moments,
}

impl ChartFile {
    /// Title of its file dialog.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Open => text("Open a chart"),
            Self::Save => text("Save the chart"),
            Self::Import => text("Import shots from a CSV file"),
            Self::Season => text("Open a folder of matches as a season"),
            Self::Roster => text("Folder of the roster"),
            Self::BadRows => text("Save the list of bad rows"),
            Self::Shots => text("Export the report shot by shot"),
            Self::Summary => text("Export the report group by group"),
            Self::Report => text("Export the report as PDF"),
            Self::Drills => text("Save the drill sheets"),
            Self::Scouting => text("Save the scouting sheet"),
            Self::Pictures => text("Save the pictures (PNG or SVG)"),
            Self::Chapters => text("Save the points as chapters of the video"),
            Self::Moments => text("Save the points with their place in the video"),
        }
    }

    /// What is done with it.
    #[must_use]
    pub fn verb(self) -> &'static str {
        match self {
            Self::Open | Self::Season | Self::Roster => text("Open"),
            Self::Import => text("Import"),
            _ => text("Save"),
        }
    }

    /// Whether the file is written, not read.
    #[must_use]
    pub fn is_written(self) -> bool {
        !matches!(self, Self::Open | Self::Import | Self::Season | Self::Roster)
    }

    /// Name of the kind of file, and its endings.
    #[must_use]
    pub fn kind(self) -> (&'static str, &'static [&'static str]) {
        match self {
            Self::Open | Self::Save => (text("Standpoint chart"), &[chart_file::EXTENSION]),
            Self::Import => (text("Table of shots"), &["csv", "tsv", "txt"]),
            Self::Report | Self::Drills | Self::Scouting => ("PDF", &["pdf"]),
            Self::Chapters => (text("Chapters of a video"), &["vtt"]),
            Self::Pictures => (text("Picture"), &["png", "svg"]),
            _ => (text("Table"), &["csv"]),
        }
    }

    /// The name suggested for a new one.
    #[must_use]
    pub fn name(self) -> String {
        let stem = match self {
            Self::Season | Self::Roster => return String::new(),
            Self::Open | Self::Save => "match",
            Self::Import => "shots",
            Self::BadRows => "bad-rows",
            Self::Shots => "audit-shots",
            Self::Summary => "audit-summary",
            Self::Report => "audit",
            Self::Drills => "drills",
            Self::Scouting => "scouting",
            Self::Pictures => "pictures",
            Self::Chapters => "chapters",
            Self::Moments => "moments",
        };
        format!("{stem}.{}", self.kind().1[0])
    }
}

/// Result of a file operation.
pub enum Done {
    /// A chart was read.
    Opened(PathBuf, Result<(Box<Chart>, Stamp), Vec<String>>),
    /// The chart was written in the state of this version.
    Saved(PathBuf, u64, Result<(Stamp, bool), Vec<String>>),
    /// A table was looked at.
    Looked(PathBuf, Result<Sample, String>),
    /// A table was read.
    Imported(PathBuf, Result<Arc<Imported>, String>),
    /// A folder of matches was read.
    Season(PathBuf, Result<Arc<Season>, String>),
    /// A table was written.
    Written(PathBuf, Result<(), String>),
}

/// Reads a chart.
pub fn open(path: PathBuf) -> Done {
    let read = chart_file::open(&path).map(|(chart, stamp)| (Box::new(chart), stamp));
    let chart = read.map_err(|error| match error {
        LoadError::Content { report, .. } => report.to_string().lines().map(str::to_owned).collect(),
        other => vec![format!("{other}. {}", other.remedy())],
    });
    Done::Opened(path, chart)
}

/// Writes a chart, unless the file has changed from `expected`; `None` overwrites any file.
pub fn save(path: PathBuf, chart: &Chart, version: u64, expected: Option<Stamp>) -> Done {
    let path = with_ending(path, ChartFile::Save);
    let parted = store::other_names(&path) > 0;
    let result = chart_file::save_over(&path, chart, expected.as_ref())
        .map(|stamp| (stamp, parted))
        .map_err(|error| format!("{error}. {}", error.remedy()).lines().map(str::to_owned).collect());
    Done::Saved(path, version, result)
}

/// Writes a copy of a chart that is kept elsewhere.
pub fn copy(path: PathBuf, chart: &Chart) -> Done {
    let path = with_ending(path, ChartFile::Save);
    let result = chart_file::save(&path, chart).map_err(|error| format!("{error}. {}", error.remedy()));
    Done::Written(path, result)
}

/// Looks at the beginning of a table.
pub fn look(path: PathBuf) -> Done {
    let sample = begin_of(&path).map(Sample::new);
    Done::Looked(path, sample)
}

fn begin_of(path: &Path) -> Result<Vec<u8>, String> {
    let failed = |error: std::io::Error| tr!("{} cannot be read: {}", path.display(), error);
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(failed)?;
    if file.metadata().map_err(failed)?.is_dir() {
        return Err(tr!("{} is a folder. Choose a file in it.", path.display()));
    }
    let whole = file.metadata().map_err(failed)?.len() <= LOOK;
    file.take(LOOK).read_to_end(&mut bytes).map_err(failed)?;
    if !whole && let Some(last) = bytes.iter().rposition(|byte| *byte == b'\n') {
        bytes.truncate(last + 1);
    }
    Ok(bytes)
}

/// Reads a whole table.
pub fn import(path: PathBuf, mapping: &Mapping, setup: Setup) -> Done {
    let read = || {
        let file = File::open(&path).map_err(|error| tr!("{} cannot be read: {}", path.display(), error))?;
        let imported = read_chart(BufReader::new(file), mapping, setup);
        imported.map(Arc::new).map_err(|error| format!("{error}. {}", error.remedy()))
    };
    let imported = read();
    Done::Imported(path, imported)
}

/// Reads a folder of matches; `tables` says how tables with some headings were read before.
pub fn season(folder: PathBuf, tables: impl Fn(&[String]) -> Option<Mapping>, setup: &Setup) -> Done {
    let mapping = |headings: &[String]| tables(headings).unwrap_or_default().suggested(headings);
    let read = season::read_folder(&folder, mapping, setup);
    let read = read.map(Arc::new).map_err(|error| tr!("{} cannot be read: {}", folder.display(), error));
    Done::Season(folder, read)
}

/// Writes a table by parts.
pub fn write(path: PathBuf, paper: ChartFile, fill: impl FnOnce(&mut GrowingFile) -> std::io::Result<()>) -> Done {
    let path = with_ending(path, paper);
    let done = || {
        let said = |error: &standpoint_board::store::SaveError| format!("{error}. {}", error.remedy());
        let mut file = GrowingFile::begin(&path).map_err(|error| said(&error))?;
        fill(&mut file).map_err(|error| said(&file.explain(error)))?;
        file.finish().map_err(|error| said(&error))
    };
    let result = done();
    Done::Written(path, result)
}

/// Writes what is wrong with the rows of a table.
pub fn bad_rows(path: PathBuf, imported: &Imported) -> Done {
    write(path, ChartFile::BadRows, |file| {
        let mut rows = BadRowsCsv::new(file)?;
        imported.bad.iter().try_for_each(|row| rows.write(row))?;
        rows.finish()
    })
}

/// Writes bytes that have been made.
pub fn made(path: PathBuf, paper: ChartFile, bytes: &[u8]) -> Done {
    write(path, paper, |file| file.write_all(bytes))
}

/// Writes where the points of a chart are in their videos: chapters of one video, or a table of all.
pub fn moments(path: PathBuf, paper: ChartFile, chart: &Chart, session: &str) -> Done {
    let log = score::log::log(chart);
    let all = moments::of_points(chart, &log, 0..chart.points.len(), moments::Around::default());
    if all.list.is_empty() {
        let why = text("No point has a time. Start the clock before you note, or read times from a table.");
        return Done::Written(path, Err(why.to_owned()));
    }
    write(path, paper, |file| match paper {
        ChartFile::Chapters => {
            // Each session has a video of its own.
            let of_video = all.of_session(session).map(|moment| (moment, moments::title(moment, &chart.setup)));
            file.write_all(moments::chapters(of_video).as_bytes())
        }
        _ => moments::write_csv(&all, &chart.setup, file),
    })
}

fn with_ending(path: PathBuf, paper: ChartFile) -> PathBuf {
    if path.extension().is_some() { path } else { path.with_extension(paper.kind().1[0]) }
}
