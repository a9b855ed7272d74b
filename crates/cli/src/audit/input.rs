//! Input of an audit: a table, a chart, or the chart in a board.

use std::{
    fs::File,
    io::{self, BufRead, BufReader, Read},
    path::Path,
    sync::{
        Arc,
        atomic::Ordering,
        mpsc::{Receiver, RecvTimeoutError, sync_channel},
    },
    thread,
    time::Duration,
};

use standpoint_board::{
    Board,
    chart::{Chart, file as chart_file},
    file as board_file,
    store::{self, LoadError},
};

use super::stop;
use crate::{fault::Fault, load::load_fault};

/// A table, read row by row.
pub type Table = Box<dyn Read>;
/// Bytes read at once from what may let one wait.
const PIECE: usize = 64 * 1024;
/// How often a stop is looked for while nothing comes.
const LOOK_UP: Duration = Duration::from_millis(50);
/// Bytes read to detect the kind of a file.
const LOOK: usize = 4096;

/// What is audited.
pub struct Input {
    /// Name in messages.
    pub place: String,
    /// Size: bytes of a table, shots of a chart; `None` for piped input.
    pub size: Option<u64>,
    /// What is in it.
    pub content: Content,
}

/// What is in a file.
pub enum Content {
    /// A chart with its players.
    Chart(Box<Chart>),
    /// Rows.
    Table(Table),
}

impl Input {
    /// Opens a file, or standard input for `-`, and detects its kind.
    ///
    /// # Errors
    /// A file that cannot be read, or a chart that is not sound.
    pub fn open(path: &Path) -> Result<Self, Box<Fault>> {
        if path.as_os_str() == "-" {
            return Self::of("standard input", path, None, Box::new(Patient::new(io::stdin())));
        }
        let failed = |source: io::Error| load_fault(path, "chart", &load_error(path, source));
        let metadata = std::fs::metadata(path).map_err(failed)?;
        if metadata.is_dir() {
            return Err(load_fault(path, "chart", &LoadError::IsFolder(path.to_owned())));
        }
        // A pipe with a name is read like the standard input.
        let size = metadata.is_file().then_some(metadata.len());
        let file = File::open(path).map_err(failed)?;
        let input: Table = if size.is_some() { Box::new(file) } else { Box::new(Patient::new(file)) };
        Self::of(&path.display().to_string(), path, size, input)
    }

    /// Title of its report: the name of the file.
    pub fn title(&self) -> String {
        let stem = Path::new(&self.place).file_stem();
        stem.map_or_else(|| self.place.clone(), |stem| stem.to_string_lossy().into_owned())
    }

    fn of(place: &str, path: &Path, size: Option<u64>, input: Table) -> Result<Self, Box<Fault>> {
        let failed = |source: io::Error| load_fault(path, "chart", &load_error(path, source));
        let mut input = BufReader::with_capacity(64 * 1024, input);
        let Some(kind) = Kind::of(input.fill_buf().map_err(failed)?) else {
            let content = Content::Table(Box::new(input));
            return Ok(Self { place: place.to_owned(), size, content });
        };
        let mut bytes = Vec::new();
        input.take(board_file::SIZE_LIMIT + 1).read_to_end(&mut bytes).map_err(failed)?;
        let chart = match kind {
            Kind::Chart => read_chart(path, &bytes)?,
            Kind::Board => read_board(path, &bytes)?.chart.map(Arc::unwrap_or_clone).ok_or_else(|| no_chart(place))?,
        };
        Ok(Self { place: place.to_owned(), size: Some(chart.shots() as u64), content: Content::Chart(Box::new(chart)) })
    }
}

/// Input that may let one wait, read on a thread of its own so that a stop need not wait for it.
struct Patient {
    pieces: Receiver<io::Result<Vec<u8>>>,
    piece: io::Cursor<Vec<u8>>,
}

impl Patient {
    fn new(mut input: impl Read + Send + 'static) -> Self {
        // A few pieces ahead at most: memory does not grow with the input.
        let (send, pieces) = sync_channel(2);
        thread::spawn(move || {
            let mut room = vec![0; PIECE];
            loop {
                let piece = match input.read(&mut room) {
                    Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
                    read => read.map(|count| room[..count].to_vec()),
                };
                let ends = piece.as_ref().map_or(true, Vec::is_empty);
                if send.send(piece).is_err() || ends {
                    break;
                }
            }
        });
        Self { pieces, piece: io::Cursor::default() }
    }
}

impl Read for Patient {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        while self.piece.position() >= self.piece.get_ref().len() as u64 {
            match self.pieces.recv_timeout(LOOK_UP) {
                Ok(Ok(piece)) if piece.is_empty() => return Ok(0),
                Ok(piece) => self.piece = io::Cursor::new(piece?),
                Err(RecvTimeoutError::Timeout) if !stop::flag().load(Ordering::Relaxed) => {}
                Err(RecvTimeoutError::Timeout) => return Err(io::Error::other("stopped")),
                // It has ended.
                Err(RecvTimeoutError::Disconnected) => return Ok(0),
            }
        }
        self.piece.read(out)
    }
}

fn load_error(path: &Path, source: io::Error) -> LoadError {
    match source.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => LoadError::NotThere(path.to_owned()),
        io::ErrorKind::PermissionDenied => LoadError::NotAllowed(path.to_owned()),
        _ => LoadError::Other { path: path.to_owned(), source },
    }
}

/// Kind of a file of this program.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Chart,
    Board,
}

impl Kind {
    /// The kind by the beginning of the file, unless it is a table.
    fn of(begin: &[u8]) -> Option<Self> {
        let begin = String::from_utf8_lossy(&begin[..begin.len().min(LOOK)]);
        let begin = begin.trim_start_matches('\u{feff}').trim_start();
        // Comments may come first.
        let ours = begin.starts_with('(') || begin.starts_with("//") || begin.starts_with("/*");
        let at = |mark: &str| begin.find(mark).filter(|_| ours);
        match (at("standpoint_chart"), at("standpoint_board")) {
            (Some(chart), Some(board)) if board < chart => Some(Self::Board),
            (Some(_), _) => Some(Self::Chart),
            (None, board) => board.map(|_| Self::Board),
        }
    }
}

fn no_chart(place: &str) -> Box<Fault> {
    let remedy = "Name a chart or a CSV file, or move notes to this board in the match analysis.";
    Fault::new("no_chart", place, "no notes of a match are kept with this board", remedy)
}

fn read_board(path: &Path, bytes: &[u8]) -> Result<Board, Box<Fault>> {
    board_file::from_bytes(bytes)
        .map_err(|report| load_fault(path, "board", &LoadError::Content { path: path.to_owned(), report }))
}

fn read_chart(path: &Path, bytes: &[u8]) -> Result<Chart, Box<Fault>> {
    chart_file::from_bytes(bytes)
        .map_err(|report| load_fault(path, "chart", &LoadError::Content { path: path.to_owned(), report }))
}

/// Reads a board or a chart for its players.
///
/// # Errors
/// A file that cannot be read or is not sound.
pub fn setup_of(path: &Path) -> Result<standpoint_board::chart::Setup, Box<Fault>> {
    let bytes = store::load_bytes(path, board_file::SIZE_LIMIT).map_err(|error| load_fault(path, "board", &error))?;
    if Kind::of(&bytes) == Some(Kind::Chart) {
        return Ok(read_chart(path, &bytes)?.setup);
    }
    Ok(standpoint_board::chart::Setup::of_board(&read_board(path, &bytes)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chart_and_a_board_are_told_from_a_table_by_how_they_begin() {
        assert_eq!(Kind::of(b"\xef\xbb\xbf// ours\n(\n  standpoint_chart: 1,"), Some(Kind::Chart));
        assert_eq!(Kind::of(b"(standpoint_chart: 1"), Some(Kind::Chart));
        assert_eq!(Kind::of(b"(standpoint_board: 2, title: \"standpoint_chart\""), Some(Kind::Board));
        assert_eq!(Kind::of(b"point,contact_x,standpoint_chart"), None);
        assert_eq!(Kind::of(b""), None);
    }
}
