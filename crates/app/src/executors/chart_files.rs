//! The files of the chart room: asked for, written, and taken up when they are done.

use std::{path::PathBuf, sync::Arc};

use egui::{Context, ViewportCommand};
use standpoint_board::{Board, chart::Setup, store::saved_words};
use standpoint_chart_room::{import::Import, season::SeasonChoice};
use standpoint_language::tr;
use standpoint_sheet::Paper as Sheet;
use standpoint_workbench::{
    chart::{
        ChartFile, Done, NotesLocation, files,
        leave::{NotesChoice, Then},
    },
    wanted::Look,
    words,
};

use crate::{
    app::App,
    dialogs::{Dialog, path::Purpose, problems::Problems},
};

impl App {
    fn write_audit(
        &mut self,
        ctx: &Context,
        path: PathBuf,
        paper: ChartFile,
        audited: Arc<standpoint_workbench::chart::worker::Audited>,
    ) {
        let (setup, units) = (Arc::clone(self.notes().setup()), self.session.units());
        let on = if self.settings.letter_paper { Sheet::Letter } else { Sheet::A4 };
        self.files
            .start_chart(ctx, move || standpoint_export::audit_files::write(path, paper, on, &audited, &setup, units));
    }

    /// Asks for a file of the room.
    pub(crate) fn ask_chart(&mut self, ctx: &Context, paper: ChartFile) {
        let near = self.chart_path(paper);
        self.files.ask(ctx, Purpose::Chart(paper), &near);
    }

    /// Path of such a file, or a suggestion.
    pub(crate) fn chart_path(&self, paper: ChartFile) -> PathBuf {
        match (&self.room.alone.path, paper) {
            (Some(path), ChartFile::Save | ChartFile::Open) => path.clone(),
            (_, ChartFile::Roster) => self.roster_folder().unwrap_or_default(),
            (Some(path), ChartFile::Season) => path.parent().map(PathBuf::from).unwrap_or_default(),
            (None, ChartFile::Season) => self.suggested_path().parent().map(PathBuf::from).unwrap_or_default(),
            (Some(path), _) => path.with_file_name(paper.name()),
            (None, _) => self.suggested_path().with_file_name(paper.name()),
        }
    }

    fn save_chart(&mut self, ctx: &Context, path: PathBuf) {
        let source = &self.room.alone;
        let (chart, version) = (source.notes.chart(), source.notes.version());
        // Under another name any file may be overwritten; the file dialog has asked.
        let expected = source.stamp.filter(|_| source.path.as_ref() == Some(&path));
        self.files.start_chart(ctx, move || files::save(path, &chart, version, expected));
    }

    /// A file of the room was chosen.
    pub(super) fn chart_file(&mut self, ctx: &Context, paper: ChartFile, path: PathBuf) {
        match paper {
            ChartFile::Open if !self.notes_are_saved() => self.dialog = Dialog::LeaveChart(Then::Open(path)),
            ChartFile::Open => self.files.start_chart(ctx, move || files::open(path)),
            // Notes that are with the board stay there: a chart file of them is a copy.
            ChartFile::Save if self.room.kept == NotesLocation::Board => {
                let chart = self.notes().chart();
                self.files.start_chart(ctx, move || files::copy(path, &chart));
            }
            ChartFile::Save => self.save_chart(ctx, path),
            ChartFile::Import => {
                let setup = Arc::new(self.import_setup());
                let noted = self.notes().shots();
                self.dialog = Dialog::Import(Box::new(Import::new(path.clone(), setup, noted)));
                self.files.start_chart(ctx, move || files::look(path));
            }
            ChartFile::Season => {
                let (settings, setup) = (self.settings.clone(), self.board_setup());
                let tables = move |headings: &[String]| settings.mapping_for(headings);
                self.room.message = Some(tr!("Reading {}…", path.display()));
                self.files.start_chart(ctx, move || files::season(path, tables, &setup));
            }
            ChartFile::Roster => {
                self.settings.roster = Some(path);
                self.show_roster(ctx, None);
            }
            ChartFile::BadRows => {
                if let Dialog::Import(import) = &self.dialog
                    && let Some(imported) = import.imported()
                {
                    let imported = Arc::clone(imported);
                    self.files.start_chart(ctx, move || files::bad_rows(path, &imported));
                }
            }
            ChartFile::Drills => {
                let Some(board) = self.room.drills(self.session.document(), &self.room.desk.drills) else { return };
                let board = Board { units: self.session.units(), ..board };
                let paper = if self.settings.letter_paper { Sheet::Letter } else { Sheet::A4 };
                let look = Look { paper, ..Look::default() };
                self.files.start_chart(ctx, move || standpoint_export::audit_files::drills(path, &board, &look));
            }
            ChartFile::Pictures => {
                let Some(audited) = self.room.audited(self.session.document()).cloned() else { return };
                let (setup, units) = (Arc::clone(self.notes().setup()), self.session.units());
                let of = (self.room.desk.player, self.room.desk.picture);
                self.files.start_chart(ctx, move || {
                    standpoint_export::audit_files::pictures(path, &audited, &setup, units, of)
                });
            }
            ChartFile::Scouting => {
                let Some(audited) = self.room.audited(self.session.document()).cloned() else { return };
                let (chart, player) = (self.notes().chart(), self.room.desk.player);
                let on = if self.settings.letter_paper { Sheet::Letter } else { Sheet::A4 };
                self.files.start_chart(ctx, move || {
                    standpoint_export::audit_files::scouting(path, on, &audited, &chart, player)
                });
            }
            ChartFile::Chapters | ChartFile::Moments => {
                let (chart, session) = (self.notes().chart(), self.notes().session().to_owned());
                self.files.start_chart(ctx, move || files::moments(path, paper, &chart, &session));
            }
            ChartFile::Shots | ChartFile::Summary | ChartFile::Report => {
                let Some(audited) = self.room.audited(self.session.document()).cloned() else { return };
                self.write_audit(ctx, path, paper, audited);
            }
        }
    }

    /// Who plays in a table that is imported: those of the notes, or of the board where nothing is noted.
    fn import_setup(&self) -> Setup {
        let notes = self.notes();
        if notes.shots() == 0 { self.board_setup() } else { (**notes.setup()).clone() }
    }

    /// Reads the table of the import dialog with its mapping.
    pub(crate) fn import_table(&mut self, ctx: &Context) {
        let setup = self.import_setup();
        let Dialog::Import(import) = &mut self.dialog else { return };
        let title = import.path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        let (path, mapping) = (import.path.clone(), import.mapping().clone());
        import.begin();
        self.settings.keep_mapping(import.headings(), &mapping);
        self.files.start_chart(ctx, move || files::import(path, &mapping, Setup { title, ..setup }));
    }

    pub(super) fn left_notes(&mut self, ctx: &Context, choice: NotesChoice) {
        let Dialog::LeaveChart(then) = std::mem::take(&mut self.dialog) else { return };
        match choice {
            NotesChoice::Discard => {
                let notes = &mut self.room.alone.notes;
                notes.saved(notes.version());
                self.proceed_from_chart(ctx, then);
            }
            NotesChoice::Save => {
                // The notes in a file of their own are meant.
                self.room.kept = NotesLocation::Alone;
                self.room.then = Some(then);
                self.save_notes(ctx);
            }
        }
    }

    /// Saves the notes that are in a file of their own.
    pub(super) fn save_notes(&mut self, ctx: &Context) {
        match self.room.alone.path.clone() {
            Some(path) => self.save_chart(ctx, path),
            None => self.ask_chart(ctx, ChartFile::Save),
        }
    }

    fn proceed_from_chart(&mut self, ctx: &Context, then: Then) {
        match then {
            Then::Quit => ctx.send_viewport_cmd(ViewportCommand::Close),
            Then::Open(path) => self.files.start_chart(ctx, move || files::open(path)),
        }
    }

    /// Handles finished file work of the room.
    pub(crate) fn chart_done(&mut self, ctx: &Context, done: Done) {
        match done {
            Done::Opened(path, Ok((chart, stamp))) => {
                self.put_notes(*chart, Some((path, Some(stamp))));
                self.room.message = Some(words::shots(self.notes().shots()));
            }
            Done::Opened(path, Err(lines)) => self.chart_problem(tr!("{} cannot be opened", path.display()), lines),
            Done::Saved(path, version, Ok((stamp, parted))) => {
                self.room.message = Some(saved_words(&path, parted));
                let source = &mut self.room.alone;
                source.notes.saved(version);
                (source.path, source.stamp) = (Some(path), Some(stamp));
                if let Some(then) = self.room.then.take() {
                    self.proceed_from_chart(ctx, then);
                }
            }
            Done::Saved(path, _, Err(lines)) => {
                self.room.then = None;
                self.chart_problem(tr!("{} cannot be saved", path.display()), lines);
            }
            Done::Looked(path, looked) => {
                let kept = looked.as_ref().ok().and_then(|sample| self.settings.mapping_for(&sample.headings));
                if let Dialog::Import(import) = &mut self.dialog
                    && import.path == path
                {
                    import.looked(looked, kept);
                }
            }
            Done::Imported(path, imported) => {
                if let Dialog::Import(import) = &mut self.dialog
                    && import.path == path
                {
                    import.read(imported);
                }
            }
            Done::Season(path, Ok(season)) => {
                self.room.message = None;
                self.dialog = Dialog::Season(Box::new(SeasonChoice::new(path, season)));
            }
            Done::Season(path, Err(problem)) => {
                self.chart_problem(tr!("{} cannot be opened", path.display()), vec![problem]);
            }
            Done::Written(path, Ok(())) => {
                let said = tr!("Saved to {}", path.display());
                if let Dialog::Import(import) = &mut self.dialog {
                    import.said = Some(said.clone());
                }
                self.room.message = Some(said);
            }
            Done::Written(path, Err(problem)) => {
                if let Dialog::Import(import) = &mut self.dialog {
                    import.said = Some(problem);
                } else {
                    self.chart_problem(tr!("{} cannot be saved", path.display()), vec![problem]);
                }
            }
        }
    }

    fn chart_problem(&mut self, title: String, lines: Vec<String>) {
        self.dialog = Dialog::Problems(Problems { title, lines, save_as: false });
    }
}
