//! Carries out the actions of the chart room.

use std::{path::PathBuf, sync::Arc};

use egui::{Context, ViewportCommand};
use standpoint_board::{Board, chart::Setup};
use standpoint_chart_room::{import::Import, season::SeasonChoice};
use standpoint_charting::notebook::{Notebook, Refusal};
use standpoint_geometry::End;
use standpoint_language::{mark, text, tr};
use standpoint_sheet::Paper as Sheet;
use standpoint_ui::commands::{BoardCommand, ChartCommand, Command, Menu, ViewCommand, choices::Pick};
use standpoint_workbench::{
    chart::{
        Act, ChartFile, Done, NotesLocation, Tab, files,
        leave::{NotesChoice, Then},
    },
    edit::Edit,
    rehearsal::Begin,
    wanted::Look,
    words,
};

use crate::{
    app::App,
    dialogs::{After, Dialog, path::Purpose, problems::Problems},
};

impl App {
    /// Runs a command while the room is open; returns whether it is done. Commands of the board lead back to the board.
    pub(crate) fn run_in_room(&mut self, ctx: &Context, command: Command) -> bool {
        if !self.room.is_open() {
            return false;
        }
        match command {
            Command::Board(BoardCommand::Undo) => {
                self.undo_in_room();
            }
            Command::Board(BoardCommand::Redo) => {
                self.room.message = match self.room.kept {
                    NotesLocation::Alone => self.room.alone.notes.redo().map(|what| tr!("Redone: {}", text(what))),
                    NotesLocation::Board => self.session.redo(),
                };
            }
            // The notes are in the board's file.
            Command::Board(BoardCommand::Save) | Command::Board(BoardCommand::SaveAs)
                if self.room.kept == NotesLocation::Board =>
            {
                return false;
            }
            Command::Board(BoardCommand::Save) => self.save_notes(ctx),
            Command::Board(BoardCommand::SaveAs) => self.ask_chart(ctx, ChartFile::Save),
            Command::Board(BoardCommand::Open) => self.ask_chart(ctx, ChartFile::Open),
            _ => {
                let stays = matches!(command.spec().menu, Menu::Chart | Menu::Look | Menu::Help | Menu::Teach)
                    || matches!(
                        command,
                        Command::Board(BoardCommand::Quit)
                            | Command::View(ViewCommand::Turn)
                            | Command::View(ViewCommand::Flip)
                            | Command::Board(BoardCommand::Metres)
                            | Command::Board(BoardCommand::Feet)
                            | Command::Board(BoardCommand::Save)
                            | Command::Board(BoardCommand::SaveAs)
                    );
                if !stays {
                    self.room.open = false;
                }
                return false;
            }
        }
        true
    }

    /// Commands of the room's own menu.
    pub(crate) fn run_on_chart(&mut self, ctx: &Context, command: ChartCommand) {
        match command {
            ChartCommand::Room if self.room.open => self.chart_act(ctx, Act::Leave),
            ChartCommand::Room => self.enter_room(),
            ChartCommand::Note => self.chart_act(ctx, Act::Tab(Tab::Note)),
            ChartCommand::Audit => self.chart_act(ctx, Act::Tab(Tab::Audit)),
            ChartCommand::Measure => self.chart_act(ctx, Act::Tab(Tab::Measure)),
            ChartCommand::WithBoard => self.chart_act(ctx, Act::Keep(NotesLocation::Board)),
            ChartCommand::Alone => self.chart_act(ctx, Act::Keep(NotesLocation::Alone)),
            ChartCommand::Move => self.chart_act(ctx, Act::MoveNotes),
            ChartCommand::Open => self.ask_chart(ctx, ChartFile::Open),
            ChartCommand::Save => self.ask_chart(ctx, ChartFile::Save),
            ChartCommand::Import => self.ask_chart(ctx, ChartFile::Import),
            ChartCommand::Roster => self.show_roster(ctx, None),
            ChartCommand::Season => self.ask_chart(ctx, ChartFile::Season),
            ChartCommand::Shots => self.ask_chart(ctx, ChartFile::Shots),
            ChartCommand::Summary => self.ask_chart(ctx, ChartFile::Summary),
            ChartCommand::Scouting => self.ask_chart(ctx, ChartFile::Scouting),
            ChartCommand::Report => self.ask_chart(ctx, ChartFile::Report),
            ChartCommand::Chapters => self.ask_chart(ctx, ChartFile::Chapters),
            ChartCommand::Moments => self.ask_chart(ctx, ChartFile::Moments),
        }
    }

    /// Carries out what was asked for in the room.
    pub(crate) fn chart_act(&mut self, ctx: &Context, act: Act) {
        if !matches!(act, Act::Tab(_)) {
            self.room.message = None;
        }
        let stamp = self.room.clock.stamp(ctx);
        if self.act_on_notes(&act, stamp) {
            return;
        }
        match act {
            Act::Tab(tab) => {
                if !self.room.open {
                    self.enter_room();
                }
                self.room.tab = tab;
            }
            Act::Clock(act) => self.room.clock.act(act, ctx.input(|i| i.time)),
            Act::Leave => self.room.open = false,
            Act::Keep(kept) => self.keep_notes(kept),
            Act::MoveNotes => self.move_notes(),
            Act::Ask(paper) => self.ask_chart(ctx, paper),
            Act::File(paper, path) => self.chart_file(ctx, paper, path),
            Act::Left(choice) => self.left_notes(ctx, choice),
            Act::Take(chart) => {
                self.change_notes(|notes| notes.set_chart(mark("Import"), *chart));
                if self.room.kept == NotesLocation::Alone {
                    (self.room.alone.path, self.room.alone.stamp) = (None, None);
                }
                self.room.tab = Tab::Audit;
                self.room.open = true;
            }
            Act::Add(chart) => {
                let points: Vec<_> = chart.points.into_iter().map(Arc::new).collect();
                let added = points.iter().map(|point| point.shots.len()).sum::<usize>();
                self.change_notes(|notes| notes.add_points(mark("Import"), &points, &chart.setup.sessions));
                self.room.tab = Tab::Audit;
                self.room.open = true;
                self.room.message = Some(tr!("One shot added" | "{n} shots added" % added));
            }
            Act::Audit => self.begin_audit(ctx),
            Act::Compare(compare) => {
                self.room.desk.compare = compare;
                self.begin_audit(ctx);
            }
            Act::Letter(letter) => self.settings.letter_paper = letter,
            Act::Stop => self.room.worker.finish_early(),
            Act::Player(end) => self.room.desk.player = end,
            Act::UseInChart(end, card) => {
                let mut setup = (**self.notes().setup()).clone();
                let said = tr!("{} plays with these figures in the chart from now on", card.name);
                match end {
                    End::Near => setup.near = *card,
                    End::Far => setup.far = *card,
                }
                self.change_notes(|notes| notes.set_setup(mark("Measured player"), setup));
                self.room.message = Some(said);
            }
            Act::UseOnBoard(end, fit) => {
                let mut card = self.session.board().card(end).clone();
                fit.apply(&mut card);
                let said = tr!("{} plays with these figures on the board from now on", card.name);
                self.step(Edit::Player(end, Box::new(card)));
                self.room.message = Some(said);
            }
            Act::Open(shot) => self.open_moment(ctx, &shot),
            Act::Roster(act) => self.roster_act(ctx, act),
            Act::Filter(filters) => self.room.filter(self.session.document(), *filters),
            Act::Picture(kind) => {
                self.room.desk.picture = kind;
                self.ask_chart(ctx, ChartFile::Pictures);
            }
            Act::Drills(findings) => {
                self.room.desk.drills = findings;
                self.ask_chart(ctx, ChartFile::Drills);
            }
            Act::OpenDrill(finding) => {
                if let Some(board) = self.room.drills(self.session.document(), &[finding]) {
                    self.room.open = false;
                    self.guarded(ctx, After::Teaching(Pick { board: Arc::new(board) }));
                }
            }
            Act::Rehearse(finding) => match self.room.moments_of(self.session.document(), finding) {
                Some(board) => self.rehearse_from(ctx, &board, Begin { board: true, ..Begin::default() }),
                None => self.room.message = Some(text("None of these moments can be rehearsed").to_owned()),
            },
            _ => {}
        }
    }

    /// Carries out an action on the notes; returns whether it was one.
    fn act_on_notes(&mut self, act: &Act, stamp: Option<f64>) -> bool {
        if *act == Act::Undo {
            self.undo_in_room();
            return true;
        }
        let of_board = Setup::of_board(self.session.board());
        let Some(noted) = self.change_notes(|notes| note(notes, act, of_board, stamp)) else { return false };
        self.room.message = noted.err().map(|refusal| tr!("Not noted: {}", refusal));
        true
    }

    /// Undoes the last step; with notes kept in the board, that may be a step of the board.
    fn undo_in_room(&mut self) {
        self.room.message = match self.room.kept {
            NotesLocation::Alone => self.room.alone.notes.undo().map(|what| tr!("Undone: {}", text(what))),
            NotesLocation::Board => self.session.undo(),
        };
    }

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

    fn begin_audit(&mut self, ctx: &Context) {
        let ctx = ctx.clone();
        self.room.audit(self.session.document(), move || ctx.request_repaint());
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
    fn chart_file(&mut self, ctx: &Context, paper: ChartFile, path: PathBuf) {
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

    fn left_notes(&mut self, ctx: &Context, choice: NotesChoice) {
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
    fn save_notes(&mut self, ctx: &Context) {
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
            Done::Saved(path, version, Ok(stamp)) => {
                self.room.message = Some(tr!("Saved to {}", path.display()));
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

/// Applies an action to the notes; `None` when it is about something else.
fn note(notes: &mut Notebook, act: &Act, of_board: Setup, stamp: Option<f64>) -> Option<Result<(), Refusal>> {
    let picked = notes.picked().is_some();
    if matches!(act, Act::Place(_) | Act::Missed(_)) {
        notes.set_clock(stamp);
    }
    match act {
        Act::Place(place) => return Some(notes.place(*place)),
        Act::Skip => return Some(notes.skip()),
        Act::Unseen(step) => return Some(notes.pick_unseen(*step)),
        Act::NotReturned => return Some(notes.not_returned()),
        Act::Missed(miss) => return Some(notes.missed(*miss)),
        Act::Let => return Some(notes.play_let()),
        Act::Live(live) => notes.set_live(*live),
        Act::ErrorWas(ending) => notes.error_was(*ending),
        Act::SwapServer => notes.swap_server(),
        Act::Tell(point, tell) => notes.tell(*point, tell.clone()),
        Act::TellSession(info) => notes.tell_session((**info).clone()),
        Act::Call(call) => notes.call(*call),
        Act::ServeNumber(number) => notes.serve_number(*number),
        Act::EndPoint => notes.end_point(),
        Act::Stroke(stroke) if picked => notes.pick_stroke(*stroke),
        Act::Stroke(stroke) => notes.stroke(*stroke),
        Act::Wing(wing) if picked => notes.pick_wing(*wing),
        Act::Wing(wing) => notes.wing(*wing),
        Act::Session(session) => notes.set_session(session.clone()),
        Act::ChangeEnds => notes.change_ends(),
        Act::RemovePoint(index) => notes.remove_point(*index),
        Act::Pick(at) => notes.pick(*at),
        Act::PickBeside(forward) => notes.pick_beside(*forward),
        Act::Move { step, place, done } => {
            notes.pick_place(*step, *place);
            if *done {
                notes.seal();
            }
        }
        Act::Height(height) => notes.pick_height(*height),
        Act::Speed(speed) => notes.pick_speed(*speed),
        Act::RemoveShot => notes.pick_remove(),
        Act::Insert(behind) => notes.insert(*behind),
        Act::SessionOf(point, session) => notes.set_session_of(*point, session.clone()),
        Act::Label(point, label) => notes.set_label(*point, label.clone()),
        Act::Title(title) => notes.set_title(title.clone()),
        Act::Name(began, name) => notes.set_name(*began, name.clone()),
        Act::TakeSetup => {
            let (title, sessions) = (notes.setup().title.clone(), notes.setup().sessions.clone());
            let setup = Setup { title, sessions, ..of_board };
            notes.set_setup(mark("Players of the board"), setup);
        }
        _ => return None,
    }
    Some(Ok(()))
}
