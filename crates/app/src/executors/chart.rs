//! Carries out the actions of the chart room.

use std::sync::Arc;

use egui::Context;
use standpoint_board::chart::Setup;
use standpoint_charting::notebook::{Notebook, Refusal};
use standpoint_geometry::End;
use standpoint_language::{mark, text, tr};
use standpoint_ui::commands::{BoardCommand, ChartCommand, Command, Menu, ViewCommand, choices::Pick};
use standpoint_workbench::{
    chart::{Act, ChartFile, NotesLocation, Tab},
    edit::Edit,
    rehearsal::Begin,
};

use crate::{app::App, dialogs::After};

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

    fn begin_audit(&mut self, ctx: &Context) {
        let ctx = ctx.clone();
        self.room.audit(self.session.document(), move || ctx.request_repaint());
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
