//! `audit`: how far players stood from where the model has them, in a file of charted shots.

mod drills;
mod files;
mod input;
mod layout;
mod merge;
mod players;
mod progress;
mod season;
mod stop;
mod text;

use std::{
    io::{self, Write},
    path::{Path, PathBuf},
};

use clap::{Args, ValueEnum};
use standpoint_board::{
    Units,
    chart::{Chart, Setup},
    file as board_file,
};
use standpoint_charting::{
    audit::{AuditError, AuditedShot, Compare, Crew, Summary, Watch},
    fit::Habits,
    import::{BadRow, ReadError, RowReader},
    report::{BadRowsCsv, NoShots, Passing, ReportJson, ReportModel, ShotWriter, ShotsCsv, summary_csv},
};
use standpoint_export::report::PdfReport;
use standpoint_geometry::End;
use standpoint_sheet::Paper;

use self::{
    files::{Files, or_nowhere},
    input::Table,
    players::PlayersArg,
    progress::Bar,
};
pub use self::{
    input::{Content, Input},
    layout::LayoutArgs,
};
use super::{
    EXIT_INPUT, EXIT_OK, EXIT_STOPPED,
    args::{Form, Reading},
    complain,
    exact::{Exact, threads_of},
    fault::{Fault, Stop, line},
};

/// Arguments of `audit`.
#[derive(Debug, Args)]
pub struct AuditArgs {
    /// The charted shots: a CSV file, a chart, a folder of matches, or `-` for what is piped in.
    #[arg(required_unless_present = "merge")]
    pub file: Option<PathBuf>,
    /// Put parts together that were made apart, in this order: files that `--part` has written.
    #[arg(long, value_name = "FILE", num_args = 1.., conflicts_with_all = [
        "file", "players", "csv", "pdf", "drills", "player", "bad_rows", "anywhere", "threads", "map", "mapping", "lengths", "speeds", "sides", "separator",
    ])]
    pub merge: Vec<PathBuf>,
    /// Who plays where: a board or a chart, or a level, or two with a comma between, that of the player who began at the
    /// near end first. Without it a chart's own, and for a CSV file two competitive adults on a hard court.
    #[arg(long, value_name = "WHO")]
    pub players: Option<PlayersArg>,
    /// JSON or CSV.
    #[command(flatten)]
    pub form: Form,
    /// Write the answer here; the file takes its place only when it is complete.
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Write the figures of every group here as well, as CSV.
    #[arg(long, value_name = "FILE")]
    pub summary: Option<PathBuf>,
    /// Write what `--merge` puts together here as well: everything but the shots.
    #[arg(long, value_name = "FILE")]
    pub part: Option<PathBuf>,
    /// Write a report to be printed here as well, as PDF.
    #[arg(long, value_name = "FILE")]
    pub pdf: Option<PathBuf>,
    /// Write drills for the first three findings of a player here as well: sheets as PDF, or a board where the file ends in
    /// `.standpoint`.
    #[arg(long, value_name = "FILE")]
    pub drills: Option<PathBuf>,
    /// Whose matches are taken of a folder, and whose drills: a name, or the one who began at this end. Without it whoever has
    /// most matches, and whoever gives away most.
    #[arg(long, value_name = "NAME|near|far")]
    pub player: Option<String>,
    /// The paper of both.
    #[arg(long, value_enum, default_value = "a4")]
    pub paper: PaperArg,
    /// Write what is wrong with rows that cannot be read here as well, as CSV.
    #[arg(long, value_name = "FILE")]
    pub bad_rows: Option<PathBuf>,
    /// How a CSV file is read.
    #[command(flatten)]
    pub layout: LayoutArgs,
    /// Look for the spot anywhere, not only in the part of the court, at the net or in the back, where the player stood.
    #[arg(long)]
    pub anywhere: bool,
    /// How many cores compute; all of them without it, and never more than there are.
    #[arg(long, value_name = "N", default_value_t = 0, hide_default_value = true)]
    pub threads: usize,
    /// Exact or quick.
    #[command(flatten)]
    pub exact: Exact,
    /// Units.
    #[command(flatten)]
    pub reading: Reading,
}

const ENDS: [End; 2] = [End::Near, End::Far];

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PaperArg {
    /// 210 by 297 mm.
    A4,
    /// 8.5 by 11 inches.
    Letter,
}

impl PaperArg {
    /// The paper.
    pub fn paper(self) -> Paper {
        match self {
            Self::A4 => Paper::A4,
            Self::Letter => Paper::Letter,
        }
    }
}

impl AuditArgs {
    /// The file that is named first.
    pub fn first(&self) -> &Path {
        self.file.as_deref().or(self.merge.first().map(PathBuf::as_path)).unwrap_or(Path::new("-"))
    }

    /// Whether a program waits for JSON on the standard output.
    pub fn wants_json(&self) -> bool {
        self.form.json && self.output.is_none()
    }
}

/// Makes the positioning report of a file.
///
/// # Errors
/// A file that cannot be read, players that are not there, or an answer that cannot be written.
pub fn run(args: &AuditArgs, out: &mut dyn Write) -> Result<u8, Stop> {
    let Some(file) = &args.file else { return merge::run(args, out) };
    let is_season = file.is_dir();
    let (input, sound) = if is_season {
        let nobody = players::without(args.players.as_ref(), &season_title(file))?;
        season::open(file, &nobody, args)?
    } else {
        (Input::open(file)?, true)
    };
    // The players of a folder have been put into its tables, and those of its charts stay.
    let players = args.players.as_ref().filter(|_| !is_season);
    let setup = players::setup(players, &input)?;
    let player = match &args.player {
        // Whose matches a folder is read for began at the near end.
        _ if is_season => Some(End::Near),
        player => player.as_deref().map(|name| whose(name, &setup, &input.place)).transpose()?,
    };
    let mapping = args.layout.mapping()?;
    let source = match input.content {
        Content::Chart(chart) => Source::Chart(Box::new(Chart { setup: setup.clone(), ..*chart })),
        Content::Table(table) => {
            let reader = RowReader::new(table, &mapping, &setup.court);
            Source::Table(Box::new(reader.map_err(|error| read_fault(&input.place, &error))?))
        }
    };
    // Players that single rows name are answered for from the nearest level.
    args.exact.ensure(&standpoint_workbench::solved::of_setup(&setup));
    // Before any file is begun, so that a stop always tidies up.
    stop::wanted();
    let mut files = Files::begin(args)?;
    let bar = Bar::new(input.size);
    let job = Job { args, setup: &setup, player, place: &input.place, bar: &bar };
    let done = job.report(source, &mut files, out);
    bar.clear();
    match done {
        Ok(report) if !report.complete => {
            let kept = files.finish_beside()?;
            complain(&text::stopped(&input.place, report.rows, &kept));
            Ok(EXIT_STOPPED)
        }
        Ok(report) => {
            let without_drills = args.drills.is_some() && files.drills.is_none();
            files.finish()?;
            if let Some(path) = args.drills.as_deref().filter(|_| without_drills) {
                let what = "there is nothing to make drills of: no group of shots differs beyond luck from the others";
                complain(&line(&path.display().to_string(), what, "Add matches, or ask for the other --player."));
            }
            if report.bad_rows == 0 {
                return Ok(if sound && !without_drills { EXIT_OK } else { EXIT_INPUT });
            }
            complain(&text::left_out(&input.place, report.bad_rows, report.rows));
            Ok(EXIT_INPUT)
        }
        Err(AuditError::Write(error)) => Err(files.unwritten(error)),
        Err(AuditError::Read(error)) => {
            // The answer has begun: errors go to people only.
            read_fault(&input.place, &error).lines.iter().for_each(|line| complain(line));
            Ok(EXIT_INPUT)
        }
        Err(error @ (AuditError::Threads(_) | AuditError::Stopped)) => {
            Err(Fault::new("threads", "standpoint", error.to_string(), "Ask for fewer with --threads.").into())
        }
    }
}

/// The title of a folder of matches.
fn season_title(folder: &Path) -> String {
    folder.file_name().map_or_else(|| folder.display().to_string(), |name| name.to_string_lossy().into_owned())
}

/// The player of a name or an end.
fn whose(wanted: &str, setup: &Setup, place: &str) -> Result<End, Box<Fault>> {
    let named = |end: &End| setup.card(*end).name.trim() == wanted.trim();
    match (ENDS.into_iter().find(named), wanted) {
        (Some(end), _) => Ok(end),
        (None, "near") => Ok(End::Near),
        (None, "far") => Ok(End::Far),
        _ => {
            let names = ENDS.map(|end| format!("`{}`", setup.card(end).name)).join(" or ");
            let what = format!("nobody in it is called `{wanted}`");
            Err(Fault::new("player", place, what, format!("Write near, far, {names}.")))
        }
    }
}

/// Setup of a table without players.
pub fn setup_without_players(title: &str) -> Setup {
    Setup { title: title.to_owned(), ..Setup::default() }
}

/// What is wrong with a table.
pub fn read_fault(place: &str, error: &ReadError) -> Box<Fault> {
    let (kind, remedy) = match error {
        ReadError::Header(_) => (
            "heading",
            error.remedy().replace("Say which column it is, as in `", "Say which column it is, as in `--map "),
        ),
        ReadError::EndlessRow { .. } => ("row", error.remedy()),
        ReadError::Io(_) => ("file", error.remedy()),
    };
    Fault::new(kind, place, error.to_string(), remedy)
}

/// Where the shots come from.
enum Source {
    Chart(Box<Chart>),
    Table(Box<RowReader<Table>>),
}

/// Two writers of the same shots.
struct Both<'w> {
    first: &'w mut dyn ShotWriter,
    second: Option<&'w mut dyn ShotWriter>,
}

impl ShotWriter for Both<'_> {
    fn shot(&mut self, shot: &AuditedShot) -> io::Result<()> {
        self.first.shot(shot)?;
        self.second.as_mut().map_or(Ok(()), |second| second.shot(shot))
    }

    fn bad(&mut self, row: &BadRow) -> io::Result<()> {
        self.first.bad(row)?;
        self.second.as_mut().map_or(Ok(()), |second| second.bad(row))
    }

    fn finish(&mut self, report: &ReportModel) -> io::Result<()> {
        self.first.finish(report)?;
        self.second.as_mut().map_or(Ok(()), |second| second.finish(report))
    }
}

/// One audit.
struct Job<'a> {
    args: &'a AuditArgs,
    setup: &'a Setup,
    /// Whose drills are wanted, where that is said.
    player: Option<End>,
    place: &'a str,
    bar: &'a Bar,
}

impl Job<'_> {
    /// Computes everything and writes it.
    fn report(&self, source: Source, files: &mut Files, out: &mut dyn Write) -> Result<ReportModel, AuditError> {
        let out: &mut dyn Write = match &mut files.answer {
            Some(file) => file,
            None => out,
        };
        let (mut nowhere, mut not_there) = (io::sink(), io::sink());
        let mut bad_rows = BadRowsCsv::new(or_nowhere(&mut files.bad_rows, &mut nowhere))?;
        let form = &self.args.form;
        let mut writer: Box<dyn ShotWriter + '_> = match (form.json, form.csv) {
            (true, _) => Box::new(ReportJson::new(&mut *out)?),
            (_, true) => Box::new(ShotsCsv::new(&mut *out)),
            _ => Box::new(NoShots),
        };
        let units = self.args.reading.units(Units::Metres);
        let mut pdf = files.pdf.as_mut().map(|file| PdfReport::new(file, self.setup, units, self.args.paper.paper()));
        let mut kept = self.args.drills.is_some().then(drills::Keeping::default);
        let mut both = Both { first: &mut *writer, second: pdf.as_mut().map(|pdf| pdf as &mut dyn ShotWriter) };
        let mut both = Both { first: &mut both, second: kept.as_mut().map(|kept| kept as &mut dyn ShotWriter) };
        let mut on_bad = |row: &BadRow| {
            self.bar.tell(|| text::bad_row(self.place, row).iter().for_each(|line| complain(line)));
            bad_rows.write(row)
        };
        let mut sink = Passing { writer: &mut both, habits: Habits::default(), on_bad: &mut on_bad };
        let compare = if self.args.anywhere { Compare::Anywhere } else { Compare::SamePart };
        let crew = Crew::new(self.setup, compare, threads_of(self.args.threads))?;
        let mut progress = |progress| self.bar.show(progress);
        let mut watch = Watch { progress: &mut progress, stop: stop::wanted() };
        let (findings, complete) = match source {
            Source::Table(reader) => crew.audit_rows_so_far(*reader, &mut sink, &mut watch)?,
            Source::Chart(chart) => crew.audit_chart_so_far(&chart, &mut sink, &mut watch)?,
        };
        stop::finishing();
        let report = ReportModel { complete, ..ReportModel::new(self.setup, &findings, &sink.habits) };
        if let Some(part) = &mut files.part {
            Summary::new(self.setup, &findings, &sink.habits).write(part)?;
        }
        self.bar.clear();
        sink.writer.finish(&report)?;
        if let Some((kept, path)) = kept.as_ref().zip(self.args.drills.as_deref()) {
            let as_board = path.extension().is_some_and(|ending| ending == board_file::EXTENSION);
            match drills::board(kept, &findings, self.setup, self.player, units) {
                None => files.drills = None,
                Some(board) => {
                    if let Some(file) = &mut files.drills {
                        drills::write(&board, as_board, self.args.paper.paper(), file)?;
                    }
                }
            }
        }
        drop(pdf);
        drop(writer);
        bad_rows.finish()?;
        summary_csv(&report, or_nowhere(&mut files.summary, &mut not_there))?;
        if !form.json && !form.csv {
            text::write(out, self.place, &report, units)?;
        }
        Ok(report)
    }
}
