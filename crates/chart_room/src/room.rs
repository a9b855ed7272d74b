//! The room: state and layout.

mod audits;

use std::sync::Arc;

use egui::{Button, CentralPanel, ComboBox, Context, Frame, Id, Label, Margin, Panel, Rect, RichText, Sense, Ui};
use standpoint_board::chart::Setup;
use standpoint_canvas::brush::Brush;
use standpoint_charting::notebook::Notebook;
use standpoint_language::{text, tr};
use standpoint_ui::{
    theme::{Theme, fonts, icons::Icon},
    transform::CourtView,
    widgets::{ends, tabs},
};
use standpoint_workbench::{
    chart::{
        Act, ChartFacts, ChartSource, NotesLocation, Tab,
        filters::{Compared, Filters},
        worker::{Audited, Worker},
    },
    document::Document,
    settings::Settings,
    words,
};

use super::{
    audit,
    clock::Clock,
    court, measure, note, note_bits,
    pad::{self, Pad},
};

/// Width of the list of places where notes are kept, at least and at most, points.
const KEPT: (f32, f32) = (110.0, 220.0);

/// The width of a button with these words.
fn button_width(ui: &Ui, label: &str) -> f32 {
    let font = egui::TextStyle::Button.resolve(ui.style());
    fonts::width(ui.painter(), label, font) + 2.0 * ui.spacing().button_padding.x
}

/// The chart room.
pub struct Room {
    /// Whether it is open.
    pub open: bool,
    /// What it is used for.
    pub tab: Tab,
    /// The notes that are worked on.
    pub kept: NotesLocation,
    /// The clock of the match.
    pub clock: Clock,
    /// The notes that are in a file of their own.
    pub alone: ChartSource,
    /// The last audits, by where the notes are kept.
    audits: [Option<Arc<Audited>>; 2],
    pad: Pad,
    view: CourtView,
    rect: Option<Rect>,
    /// Runs audits on threads.
    pub worker: Worker,
    /// Location of the notes being audited.
    auditing: NotesLocation,
    /// Which shots of it are shown.
    filters: Filters,
    /// Those shots, by the version of the notes, and how they compare.
    part: Option<(u64, Arc<Audited>, Compared)>,
    /// The audit page.
    pub desk: audit::AuditPage,
    fit_view: measure::FitView,
    /// Message.
    pub message: Option<String>,
    /// What to do once the chart has been saved.
    pub then: Option<standpoint_workbench::chart::leave::Then>,
}

impl Default for Room {
    fn default() -> Self {
        Self {
            open: false,
            tab: Tab::default(),
            kept: NotesLocation::default(),
            clock: Clock::default(),
            alone: ChartSource::blank(Setup::default()),
            audits: [None, None],
            pad: Pad::default(),
            view: CourtView::fitted(0),
            rect: None,
            worker: Worker::default(),
            auditing: NotesLocation::default(),
            filters: Filters::default(),
            part: None,
            desk: audit::AuditPage::default(),
            fit_view: measure::FitView::default(),
            message: None,
            then: None,
        }
    }
}

impl Room {
    /// Whether the room is open.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.open
    }

    /// The notes that are worked on, for tests and for what is built around the window.
    #[must_use]
    pub fn notes<'a>(&'a self, document: &'a Document) -> &'a Notebook {
        self.notes_in(self.kept, document)
    }

    /// Notes by where they are kept.
    #[must_use]
    pub fn notes_in<'a>(&'a self, kept: NotesLocation, document: &'a Document) -> &'a Notebook {
        match kept {
            NotesLocation::Alone => &self.alone.notes,
            NotesLocation::Board => document.notes(),
        }
    }

    /// Where they are kept.
    #[must_use]
    pub fn kept(&self) -> NotesLocation {
        self.kept
    }

    /// Another document is in place.
    pub fn document_replaced(&mut self, document: &Document) {
        if self.auditing == NotesLocation::Board {
            self.worker.stop();
        }
        if !document.notes().is_blank() && self.alone.notes.is_blank() {
            self.kept = NotesLocation::Board;
        }
    }

    /// Where a place is on the screen while a match is noted, once it has been shown.
    #[must_use]
    pub fn point(&self, document: &Document, place: glam::DVec2) -> Option<egui::Pos2> {
        Some(pad::point(&self.view, self.rect?, &self.notes(document).setup().court.court(), place))
    }

    /// Facts for the catalogue of commands.
    #[must_use]
    pub fn facts(&self, document: &Document) -> ChartFacts {
        let (open, tab, kept) = (self.open, self.tab, self.kept);
        ChartFacts { open, tab, kept, shots: self.notes(document).shots(), audited: self.audited(document).is_some() }
    }

    fn court_id() -> Id {
        Id::unique("chart court")
    }

    /// Takes finished work, and returns the actions of pointer and keys.
    pub fn react(
        &mut self,
        ctx: &Context,
        document: &Document,
        idle: bool,
        touch: f32,
        settings: &Settings,
    ) -> Vec<Act> {
        match self.worker.take() {
            Some(Ok(audited)) => {
                self.audits[self.auditing as usize] = Some(Arc::new(audited));
                let filters = std::mem::take(&mut self.filters);
                self.filter(document, filters);
            }
            Some(Err(problem)) => self.message = Some(problem),
            None => {}
        }
        let mut out = Vec::new();
        if !self.open {
            return out;
        }
        // A clock that runs is drawn again and again.
        let _ = self.clock.stamp(ctx);
        if !idle {
            return out;
        }
        if self.tab == Tab::Note {
            self.settle_view(document, settings);
            let (Some(rect), Some(response)) = (self.rect, ctx.read_response(Self::court_id())) else { return out };
            let notes = match self.kept {
                NotesLocation::Alone => &self.alone.notes,
                NotesLocation::Board => document.notes(),
            };
            let court = notes.setup().court.court();
            let at = self.view.transform(rect, &court);
            self.pad.pointer(ctx, &response, notes, &at, touch, &mut out);
            let focus = ctx.memory(egui::Memory::focused);
            if !ctx.text_edit_focused() && focus.is_none_or(|id| id == Self::court_id()) {
                self.pad.keys(ctx, notes, &court, &at, &mut out);
            }
            if self.pad.held.is_none() {
                self.view = pad::moved(ctx, &response, self.view, rect, &court);
            }
        }
        out
    }

    /// Turns the court as it was chosen; else it lies or stands as it is larger.
    fn settle_view(&mut self, document: &Document, settings: &Settings) {
        let fitted = CourtView::fitted(settings.turn);
        let wanted = match self.rect {
            Some(rect) if !settings.turned => fitted.largest(rect, &self.notes(document).setup().court.court()),
            _ => fitted,
        };
        if self.view.turn != wanted.turn {
            self.view = wanted;
        }
    }

    /// Shows the room.
    pub fn show(&mut self, ui: &mut Ui, board: &OfBoard<'_>, theme: &Theme, out: &mut Vec<Act>) {
        let (document, units) = (board.document, board.document.board().units);
        let ground = Frame::new().fill(*theme.ui.panel);
        let edge = theme.m.space.edge as i8;
        Panel::bottom("chart status").frame(ground.inner_margin(Margin::symmetric(edge, 2))).show(ui, |ui| {
            self.status(ui, board, theme);
        });
        let head = ground.inner_margin(Margin::symmetric(edge, theme.m.space.small as i8));
        Panel::top("chart head").frame(head).show(ui, |ui| self.head(ui, document, theme, out));
        match self.tab {
            Tab::Note => self.note(ui, board, theme, out),
            Tab::Measure => {
                let audited = self.audited(document).cloned();
                let report = audited.as_deref().map(|audited| &audited.report);
                let view =
                    measure::MeasureView { setup: &Arc::clone(self.notes(document).setup()), report, units, theme };
                self.fit_view.show(ui, &view, out);
            }
            Tab::Audit => {
                let (audited, compared) = self.shown(document).map(|(a, c)| (Arc::clone(a), c.cloned())).unzip();
                let compared = compared.flatten().unwrap_or_default();
                let view = audit::AuditView {
                    filters: &self.filters.clone(),
                    compared: &compared,
                    audited: audited.as_deref(),
                    setup: &Arc::clone(self.notes(document).setup()),
                    shots: self.notes(document).shots(),
                    progress: self.worker.progress(),
                    left: self.worker.left(),
                    units,
                    letter: board.letter,
                    theme,
                };
                self.desk.show(ui, &view, out);
            }
        }
    }

    fn head(&self, ui: &mut Ui, document: &Document, theme: &Theme, out: &mut Vec<Act>) {
        let whole = ui.available_width();
        let narrow = whole < theme.m.panel.below_width;
        let title = |ui: &mut Ui| {
            let title = &self.notes(document).setup().title;
            if !narrow {
                ui.add(Label::new(RichText::new(title).text_style(egui::TextStyle::Heading)).truncate());
            }
        };
        ends::row(ui, "head", title, |ui| {
            let tabs = [
                (Tab::Note, text("Note"), text("Note a match shot by shot")),
                (Tab::Audit, text("Positioning report"), text("Where players stood against where they should have")),
                (
                    Tab::Measure,
                    text("Player tests"),
                    text("Players from sprints, a speed gun, a target test, and their shot patterns"),
                ),
            ];
            let wide = egui::vec2(tabs::width(ui, theme, &tabs), theme.m.control);
            // What has no room gives way to the tabs: the list stands in the menu too, and the way back has a sign.
            let gap = ui.spacing().item_spacing.x;
            let tab_room = whole - wide.x - gap;
            let back = text("Back to the board");
            let back_width = button_width(ui, back);
            ui.allocate_ui_with_layout(wide, egui::Layout::left_to_right(egui::Align::Center), |ui| {
                if let Some(tab) = tabs::row(ui, theme, self.tab, &tabs) {
                    out.push(Act::Tab(tab));
                }
            });
            // A list is wider than what it is told by its frame and the gap before its sign.
            let frame = 2.0 * ui.spacing().button_padding.x + gap;
            let keeping = tab_room - back_width - theme.m.space.item - 2.0 * gap - frame;
            if keeping >= KEPT.0 {
                ui.add_space(theme.m.space.item);
                // It truncates to the room that it is given.
                let room = egui::vec2(keeping.min(KEPT.1) + frame, theme.m.control);
                ui.allocate_ui_with_layout(room, egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    self.keeping(ui, document, keeping.min(KEPT.1), out);
                });
            }
            let left = if tab_room >= back_width {
                ui.add(Button::new(back))
            } else {
                let (rect, response) = ui.allocate_exact_size(egui::Vec2::splat(theme.m.control), Sense::click());
                response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, back));
                if response.hovered() || response.has_focus() {
                    ui.painter().rect_filled(rect, theme.m.radius.small, *theme.ui.hovered);
                }
                theme.icons.paint(ui.painter(), rect.shrink(6.0), Icon::Close, *theme.ui.ink);
                response.on_hover_text(back)
            };
            if left.clicked() {
                out.push(Act::Leave);
            }
        });
    }

    /// Location of the notes, and its menu.
    fn keeping(&self, ui: &mut Ui, document: &Document, width: f32, out: &mut Vec<Act>) {
        let combo = ComboBox::from_id_salt("kept").truncate().selected_text(self.kept.phrase());
        let menu = combo.width(width).show_ui(ui, |ui| {
            for kept in NotesLocation::ALL {
                let count = self.notes_in(kept, document).shots();
                let label = format!("{} ({})", kept.label(), words::shots(count));
                if ui.selectable_label(self.kept == kept, label).on_hover_text(kept.hint()).clicked() {
                    out.push(Act::Keep(kept));
                }
            }
            ui.separator();
            let there = !self.notes(document).is_blank();
            if ui.add_enabled(there, Button::new(self.kept.other().moving())).clicked() {
                out.push(Act::MoveNotes);
            }
        });
        menu.response
            .on_hover_text(text("Where these notes are kept"))
            .accessible_name(text("Where these notes are kept"));
    }

    fn note(&mut self, ui: &mut Ui, board: &OfBoard<'_>, theme: &Theme, out: &mut Vec<Act>) {
        let p = &theme.m.panel;
        let edge = theme.m.space.edge as i8;
        let frame = Frame::new().fill(*theme.ui.panel).inner_margin(Margin::symmetric(edge, 6));
        let panel = if p.beside(ui.available_size()) {
            Panel::right("chart notes").default_size(p.width).size_range(p.least..=p.most)
        } else {
            let height = ui.available_height();
            Panel::bottom("chart notes below").default_size(0.45 * height).max_size(0.7 * height).resizable(true)
        };
        let (document, units) = (board.document, board.document.board().units);
        let (notes, pad) = match self.kept {
            NotesLocation::Alone => (&self.alone.notes, &mut self.pad),
            NotesLocation::Board => (document.notes(), &mut self.pad),
        };
        let clock = self.clock;
        panel.frame(frame).show(ui, |ui| note::ui(ui, &note_bits::NoteView { notes, units, theme, clock }, pad, out));
        CentralPanel::no_frame().show(ui, |ui| self.court(ui, document, theme));
    }

    fn court(&mut self, ui: &mut Ui, document: &Document, theme: &Theme) {
        let rect = ui.available_rect_before_wrap();
        let response = ui.interact(rect, Self::court_id(), Sense::CLICK | Sense::DRAG);
        ui.advance_cursor_after_rect(rect);
        if self.rect != Some(rect) {
            ui.ctx().request_repaint();
        }
        self.rect = Some(rect);
        court::announce(ui, &response, self.notes(document), &self.pad);
        let painter = ui.painter_at(rect);
        painter.rect_filled(rect, 0.0, *theme.ui.canvas);
        let at = self.view.transform(rect, &self.notes(document).setup().court.court());
        court::paint(&Brush::new(&painter, at, theme), self.notes(document), &self.pad);
    }

    fn status(&self, ui: &mut Ui, board: &OfBoard<'_>, theme: &Theme) {
        ui.horizontal(|ui| {
            ui.set_min_height(22.0);
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                ui.label(RichText::new(self.whereabouts(board)).small().color(*theme.ui.soft));
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    let usual = text("Figures are estimates of a model; a qualified coach decides");
                    let news = self.message.as_deref().or(board.said);
                    let said = news.unwrap_or(usual);
                    let color = if news.is_some() { *theme.ui.ink } else { *theme.ui.soft };
                    ui.add(Label::new(RichText::new(said).small().color(color)).truncate());
                });
            });
        });
    }

    /// File of the notes, and whether they are saved.
    fn whereabouts(&self, board: &OfBoard<'_>) -> String {
        let path = match self.kept {
            NotesLocation::Alone => self.alone.path.as_deref(),
            NotesLocation::Board => board.document.path(),
        };
        let name = path.and_then(|path| path.file_name()).map(|name| name.to_string_lossy().into_owned());
        let saved = match self.kept {
            NotesLocation::Alone => self.alone.notes.is_saved(),
            NotesLocation::Board => board.document.is_saved(),
        };
        match (self.kept, name, saved) {
            (NotesLocation::Alone, Some(name), true) => name,
            (NotesLocation::Alone, Some(name), false) => tr!("{}, changed", name),
            (NotesLocation::Alone, None, true) => text("chart not saved to a file yet").to_owned(),
            (NotesLocation::Alone, None, false) => text("chart not saved to a file yet, changed").to_owned(),
            (NotesLocation::Board, Some(name), true) => tr!("with {}", name),
            (NotesLocation::Board, Some(name), false) => tr!("with {}, changed", name),
            (NotesLocation::Board, None, true) => text("with a board not saved to a file yet").to_owned(),
            (NotesLocation::Board, None, false) => text("with a board not saved to a file yet, changed").to_owned(),
        }
    }
}

/// The board's state shown in the room.
#[derive(Clone, Copy)]
pub struct OfBoard<'a> {
    /// The board with its notes.
    pub document: &'a Document,
    /// The board's message since the room was opened.
    pub said: Option<&'a str>,
    /// Whether reports are made for Letter paper.
    pub letter: bool,
}
