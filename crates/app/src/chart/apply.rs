//! What is asked for in the room, carried out.

use std::{path::PathBuf, sync::Arc};

use egui::{Context, ViewportCommand};
use standpoint_board::chart::{Setup, notebook::Notebook};
use standpoint_geometry::frame::End;

use super::{
    Act, Done, Face, Paper, files,
    leave::{Choice, Then},
};
use crate::{
    app::App,
    commands::{Command, Menu},
    dialogs::{After, Dialog, import::Import, library::Pick, path::Purpose, problems::Problems},
    edit::Edit,
};

impl App {
    /// A command while the room is open. Whether it has been dealt with; one that belongs to the board leads back to it.
    pub(crate) fn run_in_room(&mut self, ctx: &Context, command: Command) -> bool {
        if !self.room.is_open() {
            return false;
        }
        match command {
            Command::Undo => self.room.message = self.room.notes.undo().map(|what| format!("Taken back: {what}")),
            Command::Redo => self.room.message = self.room.notes.redo().map(|what| format!("Made again: {what}")),
            Command::Save => match self.room.path.clone() {
                Some(path) => self.save_chart(ctx, path),
                None => self.ask_chart(ctx, Paper::Save),
            },
            Command::SaveAs => self.ask_chart(ctx, Paper::Save),
            Command::Open => self.ask_chart(ctx, Paper::Open),
            _ => {
                let stays = matches!(command.spec().menu, Menu::Chart | Menu::Look | Menu::Help)
                    || matches!(
                        command,
                        Command::Quit | Command::Turn | Command::Flip | Command::Metres | Command::Feet
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
    pub(crate) fn run_on_chart(&mut self, ctx: &Context, command: Command) {
        match command {
            Command::ChartRoom if self.room.open => self.chart_act(ctx, Act::Leave),
            Command::ChartRoom => self.enter_room(),
            Command::ChartNote => self.chart_act(ctx, Act::Face(Face::Note)),
            Command::ChartAudit => self.chart_act(ctx, Act::Face(Face::Audit)),
            Command::ChartMeasure => self.chart_act(ctx, Act::Face(Face::Measure)),
            Command::ChartOpen => self.ask_chart(ctx, Paper::Open),
            Command::ChartSave => self.ask_chart(ctx, Paper::Save),
            Command::ChartImport => self.ask_chart(ctx, Paper::Import),
            Command::ChartShots => self.ask_chart(ctx, Paper::Shots),
            Command::ChartSummary => self.ask_chart(ctx, Paper::Summary),
            Command::ChartReport => self.ask_chart(ctx, Paper::Report),
            _ => {}
        }
    }

    /// Opens the room; an empty notebook has the players of the board.
    fn enter_room(&mut self) {
        if self.room.notes.shots() == 0 && self.room.notes.undo_label().is_none() {
            let title = "New chart".to_owned();
            self.room.notes = super::blank(Setup { title, ..self.board_setup() });
        }
        self.room.open = true;
        self.room.message = None;
    }

    fn board_setup(&self) -> Setup {
        Setup::of_board(self.session.board())
    }

    /// Carries out what was asked for in the room.
    pub(crate) fn chart_act(&mut self, ctx: &Context, act: Act) {
        if !matches!(act, Act::Face(_)) {
            self.room.message = None;
        }
        let notes = &mut self.room.notes;
        match act {
            Act::Face(face) => {
                if !self.room.open {
                    self.enter_room();
                }
                self.room.face = face;
            }
            Act::Leave => self.room.open = false,
            Act::Place(place) => {
                let refused = notes.place(place).err();
                self.refused(refused);
            }
            Act::Skip => {
                let refused = notes.skip().err();
                self.refused(refused);
            }
            Act::EndPoint => notes.end_point(),
            Act::Stroke(stroke) => notes.stroke(stroke),
            Act::Wing(wing) => notes.wing(wing),
            Act::Session(session) => notes.set_session(session),
            Act::ChangeEnds => notes.change_ends(),
            Act::RemovePoint(index) => notes.remove_point(index),
            Act::TakeSetup => {
                let setup = Setup { title: notes.setup().title.clone(), ..Setup::of_board(self.session.board()) };
                notes.set_setup("Players of the board", setup);
            }
            Act::Undo => {
                notes.undo();
            }
            Act::Ask(paper) => self.ask_chart(ctx, paper),
            Act::File(paper, path) => self.chart_file(ctx, paper, path),
            Act::Left(choice) => self.left_notes(ctx, choice),
            Act::Take(chart) => {
                notes.set_chart("Import", *chart);
                self.room.path = None;
                self.room.face = Face::Audit;
                self.room.open = true;
            }
            Act::Audit => {
                let ctx = ctx.clone();
                let (chart, version) = (notes.chart(), notes.version());
                self.room.worker.start(chart, version, move || ctx.request_repaint());
            }
            Act::Stop => self.room.worker.stop(),
            Act::Player(end) => self.room.desk.player = end,
            Act::UseInChart(end, card) => {
                let mut setup = (**notes.setup()).clone();
                let said = format!("{} plays with these figures in the chart from now on", card.name);
                match end {
                    End::Near => setup.near = *card,
                    End::Far => setup.far = *card,
                }
                notes.set_setup("Measured player", setup);
                self.room.message = Some(said);
            }
            Act::UseOnBoard(end, fit) => {
                let mut card = self.session.board().card(end).clone();
                fit.apply(&mut card);
                let said = format!("{} plays with these figures on the board from now on", card.name);
                self.step(Edit::Player(end, Box::new(card)));
                self.room.message = Some(said);
            }
            Act::Open(shot) => {
                if let Some(board) = shot.board(self.room.notes.setup()) {
                    self.room.open = false;
                    self.guarded(ctx, After::Teaching(Pick { board: Arc::new(board) }));
                }
            }
        }
    }

    fn refused(&mut self, refusal: Option<standpoint_board::chart::notebook::Refusal>) {
        self.room.message = refusal.map(|refusal| format!("Not noted: {refusal}"));
    }

    /// Asks for a file of the room.
    pub(crate) fn ask_chart(&mut self, ctx: &Context, paper: Paper) {
        let near = self.chart_path(paper);
        self.files.ask(ctx, Purpose::Chart(paper), &near);
    }

    /// Where such a file is, or might be.
    pub(crate) fn chart_path(&self, paper: Paper) -> PathBuf {
        match (&self.room.path, paper) {
            (Some(path), Paper::Save | Paper::Open) => path.clone(),
            (Some(path), _) => path.with_file_name(paper.name()),
            (None, _) => self.suggested_path().with_file_name(paper.name()),
        }
    }

    fn save_chart(&mut self, ctx: &Context, path: PathBuf) {
        let (chart, version) = (self.room.notes.chart(), self.room.notes.version());
        self.files.start_chart(ctx, move || files::save(path, &chart, version));
    }

    /// A file of the room was chosen.
    fn chart_file(&mut self, ctx: &Context, paper: Paper, path: PathBuf) {
        match paper {
            Paper::Open if !self.room.notes.is_saved() => self.dialog = Dialog::LeaveChart(Then::Open(path)),
            Paper::Open => self.files.start_chart(ctx, move || files::open(path)),
            Paper::Save => self.save_chart(ctx, path),
            Paper::Import => {
                self.dialog = Dialog::Import(Box::new(Import::new(path.clone())));
                self.files.start_chart(ctx, move || files::look(path));
            }
            Paper::BadRows => {
                if let Dialog::Import(import) = &self.dialog
                    && let Some(imported) = import.imported()
                {
                    let imported = Arc::clone(imported);
                    self.files.start_chart(ctx, move || files::bad_rows(path, &imported));
                }
            }
            Paper::Shots | Paper::Summary | Paper::Report => {
                let Some(audited) = self.room.audited().cloned() else { return };
                let (setup, units) = (Arc::clone(self.room.notes.setup()), self.session.units());
                self.files.start_chart(ctx, move || super::audit::write(path, paper, &audited, &setup, units));
            }
        }
    }

    /// Reads the table of the import dialog with its mapping.
    pub(crate) fn import_table(&mut self, ctx: &Context) {
        let setup = if self.room.notes.shots() == 0 { self.board_setup() } else { (**self.room.notes.setup()).clone() };
        let Dialog::Import(import) = &mut self.dialog else { return };
        let title = import.path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        let (path, mapping) = (import.path.clone(), import.mapping().clone());
        import.begin();
        self.settings.keep_mapping(import.headings(), &mapping);
        self.files.start_chart(ctx, move || files::import(path, &mapping, Setup { title, ..setup }));
    }

    fn left_notes(&mut self, ctx: &Context, choice: Choice) {
        let Dialog::LeaveChart(then) = std::mem::take(&mut self.dialog) else { return };
        match choice {
            Choice::Discard => {
                self.room.notes.saved(self.room.notes.version());
                self.proceed_from_chart(ctx, then);
            }
            Choice::Save => {
                self.room.then = Some(then);
                self.run_in_room_save(ctx);
            }
        }
    }

    fn run_in_room_save(&mut self, ctx: &Context) {
        match self.room.path.clone() {
            Some(path) => self.save_chart(ctx, path),
            None => self.ask_chart(ctx, Paper::Save),
        }
    }

    fn proceed_from_chart(&mut self, ctx: &Context, then: Then) {
        match then {
            Then::Quit => ctx.send_viewport_cmd(ViewportCommand::Close),
            Then::Open(path) => self.files.start_chart(ctx, move || files::open(path)),
        }
    }

    /// Takes up what has been done with files of the room.
    pub(crate) fn chart_done(&mut self, ctx: &Context, done: Done) {
        match done {
            Done::Opened(path, Ok(chart)) => {
                self.room.notes = Notebook::new(*chart);
                self.room.audited = None;
                self.room.worker.stop();
                self.room.message = Some(format!("{} shots", self.room.notes.shots()));
                (self.room.path, self.room.open) = (Some(path), true);
            }
            Done::Opened(path, Err(lines)) => self.chart_problem(format!("{} cannot be opened", path.display()), lines),
            Done::Saved(path, version, Ok(())) => {
                self.room.notes.saved(version);
                self.room.message = Some(format!("Saved to {}", path.display()));
                self.room.path = Some(path);
                if let Some(then) = self.room.then.take() {
                    self.proceed_from_chart(ctx, then);
                }
            }
            Done::Saved(path, _, Err(lines)) => {
                self.room.then = None;
                self.chart_problem(format!("{} cannot be saved", path.display()), lines);
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
            Done::Written(path, Ok(())) => {
                let said = format!("Saved to {}", path.display());
                if let Dialog::Import(import) = &mut self.dialog {
                    import.said = Some(said.clone());
                }
                self.room.message = Some(said);
            }
            Done::Written(path, Err(problem)) => {
                if let Dialog::Import(import) = &mut self.dialog {
                    import.said = Some(problem);
                } else {
                    self.chart_problem(format!("{} cannot be saved", path.display()), vec![problem]);
                }
            }
        }
    }

    fn chart_problem(&mut self, title: String, lines: Vec<String>) {
        self.dialog = Dialog::Problems(Problems { title, lines, save_as: false });
    }
}
