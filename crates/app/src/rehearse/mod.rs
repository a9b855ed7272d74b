//! The rehearsal: a player alone chooses a place or a shot, and sees what it costs.
//!
//! Like the presentation it works on copies; the board stays unchanged.

mod choices;
pub mod course;
mod court;
mod keys;
pub mod players;
mod progress;
mod words;

use egui::{
    Button, CentralPanel, Context, Frame, Id, Label, Margin, Panel, Rect, RichText, Sense, TextStyle, Ui,
    accesskit::Role,
};
use standpoint_board::rehearse::Question;
use standpoint_canvas::{action, announce, brush::Brush, eye};
use standpoint_geometry::Level;
use standpoint_language::{decimal, text, text_in};
use standpoint_ui::{
    theme::{Look, Theme, fonts},
    transform::CourtView,
};
use standpoint_workbench::edit::Colours;

use self::{
    course::{Course, Kinds, Source, Stand},
    players::Players,
};
use crate::{crash_recovery, present::show::Show};

/// Words on the court are larger than in the board's window.
const COURT_TEXT: f32 = 16.0;
/// Run-off that is shown in every situation, m.
const ROOM: glam::DVec2 = glam::dvec2(1.0, 4.0);

/// A rehearsal in its window.
pub struct Rehearsing {
    course: Course,
    /// Whom it is about, by name.
    pub(crate) player: String,
    scene: court::Scene,
    covered: Show,
    revealed: Show,
    view: CourtView,
    /// Whether the coach has chosen how the court lies.
    turned: bool,
    /// Points a metre as the court was shown last.
    scale: f32,
    /// Whether the shots to choose from are seen through the eyes of the trainee.
    eyes: bool,
    players: Players,
    colours: Colours,
    limit: Option<f64>,
    /// When the question was asked, s of the window's clock.
    asked_at: Option<f64>,
    progress: bool,
}

/// What was asked for in a frame.
#[derive(Debug, Clone, PartialEq)]
enum Asked {
    /// The answer, or the next question.
    Enter,
    Put(glam::DVec2),
    Choose(usize),
    Source(Source),
    Kinds(Kinds),
    Limit(Option<f64>),
    Hands,
    /// A level, or the figures of the board's own player.
    Level(Option<Level>),
    /// One of the players of this machine, or nobody in particular.
    Player(Option<String>),
    /// A name is typed.
    Typed(Option<String>),
    Eyes,
    Progress,
    Leave,
}

impl Rehearsing {
    /// A rehearsal of a course by one of the players, on a court turned by so many quarters, by the coach or by itself.
    pub(crate) fn new(
        course: Course,
        player: String,
        players: Players,
        (turn, turned): (u8, bool),
        colours: Colours,
    ) -> Self {
        Self {
            course,
            player,
            scene: court::Scene::default(),
            covered: Show::default(),
            revealed: Show::revealed(),
            view: CourtView::fitted(turn),
            turned,
            scale: 0.0,
            eyes: false,
            players,
            colours,
            limit: None,
            asked_at: None,
            progress: false,
        }
    }

    /// Points a metre as the court was shown last, for tests.
    #[must_use]
    pub fn court_scale(&self) -> f32 {
        self.scale
    }

    /// What is asked and answered, for tests.
    #[must_use]
    pub fn course(&self) -> &Course {
        &self.course
    }

    /// Mean points of this sitting and how many answers.
    pub(crate) fn sitting(&self) -> Option<(u32, u32)> {
        self.course.sitting()
    }

    /// One frame; returns whether the rehearsal goes on.
    pub(crate) fn frame(&mut self, ui: &mut Ui, look: &Look) -> bool {
        let ctx = ui.ctx().clone();
        let mut asked = self.keys(&ctx);
        self.time(&ctx);
        let mut theme = look.theme(ui.visuals().dark_mode, self.colours, self.course.session().ground());
        theme.m.text.court = COURT_TEXT;
        let ground = Frame::new().fill(*theme.ui.panel);
        let edge = theme.m.space.edge as i8;
        Panel::top("rehearsal choices").frame(ground.inner_margin(Margin::symmetric(edge, 4))).show(ui, |ui| {
            self.choices(ui, &theme, &mut asked);
        });
        Panel::bottom("rehearsal foot").frame(ground.inner_margin(Margin::symmetric(edge, 6))).show(ui, |ui| {
            self.foot(ui, &theme, &mut asked);
        });
        if self.progress {
            CentralPanel::default().frame(ground.inner_margin(Margin::same(edge))).show(ui, |ui| {
                progress::ui(ui, self.course.log().history(), crash_recovery::now() as u64, &theme);
            });
        } else {
            Panel::top("rehearsal head").frame(ground.inner_margin(Margin::symmetric(edge, 6))).show(ui, |ui| {
                self.head(ui, &theme);
            });
            CentralPanel::no_frame().show(ui, |ui| self.court(ui, &theme, &mut asked));
        }
        if !asked.is_empty() {
            ctx.request_repaint();
        }
        asked.into_iter().all(|asked| self.go(asked))
    }

    fn go(&mut self, asked: Asked) -> bool {
        let now = crash_recovery::now();
        match asked {
            Asked::Enter if self.progress => self.progress = false,
            Asked::Enter if *self.course.stand() == Stand::Asking => self.course.answer(now, false),
            Asked::Enter => self.next(now),
            Asked::Put(place) => self.course.put(place),
            Asked::Choose(index) => self.course.choose(index),
            Asked::Source(source) => {
                self.course.source = source;
                self.next(now);
            }
            Asked::Kinds(kinds) => {
                self.course.kinds = kinds;
                self.next(now);
            }
            Asked::Limit(limit) => {
                self.limit = limit;
                self.asked_at = None;
            }
            Asked::Hands => {
                self.course.change_hands(now);
                self.asked_at = None;
            }
            Asked::Level(level) => {
                self.course.change_level(level, now);
                self.asked_at = None;
            }
            Asked::Player(name) => {
                let log = self.players.choose(name.as_deref(), now);
                self.players.typed = None;
                self.course.change_player(log, now);
                self.asked_at = None;
            }
            Asked::Typed(name) => self.players.typed = name,
            Asked::Eyes => self.eyes = !self.eyes,
            Asked::Progress => {
                self.progress = !self.progress;
                self.asked_at = None;
            }
            Asked::Leave => return false,
        }
        true
    }

    fn next(&mut self, now: f64) {
        self.course.ask(now);
        self.asked_at = None;
    }

    /// Seconds left to answer, when they are counted.
    fn left(&self, ctx: &Context) -> Option<f64> {
        let counted = *self.course.stand() == Stand::Asking && !self.progress;
        let limit = self.limit.filter(|_| counted)?;
        Some((limit - (ctx.input(|i| i.time) - self.asked_at?)).max(0.0))
    }

    /// Advances the clock; at the end the current answer counts.
    fn time(&mut self, ctx: &Context) {
        self.asked_at.get_or_insert(ctx.input(|i| i.time));
        match self.left(ctx) {
            Some(left) if left <= 0.0 => self.course.answer(crash_recovery::now(), true),
            Some(_) => ctx.request_repaint_after_secs(0.1),
            None => {}
        }
    }

    fn head(&self, ui: &mut Ui, theme: &Theme) {
        let (first, second) = words::describe(&self.course);
        // The question is never cut off: it gets smaller, and takes a second line where that is not enough.
        let font = TextStyle::Heading.resolve(ui.style());
        let font = fonts::fitting(ui.painter(), &first, font, ui.available_width(), theme.m.text.title);
        ui.add(Label::new(RichText::new(first).font(font)).wrap());
        let font = TextStyle::Body.resolve(ui.style());
        let font = fonts::fitting(ui.painter(), &second, font, ui.available_width(), theme.m.text.small);
        ui.add(Label::new(RichText::new(second).font(font).color(*theme.ui.soft)).wrap());
        let (rect, response) = ui.allocate_exact_size(egui::vec2(ui.available_width(), 6.0), Sense::hover());
        if let (Some(left), Some(limit)) = (self.left(ui.ctx()), self.limit) {
            ui.painter().rect_filled(rect, 3.0, *theme.ui.sunken);
            let part = rect.with_max_x(rect.left() + rect.width() * (left / limit) as f32);
            ui.painter().rect_filled(part, 3.0, if left < 2.0 { *theme.ui.warn } else { *theme.ui.accent });
            announce::describe(
                ui,
                &response,
                Role::ProgressIndicator,
                text("Time left"),
                &format!("{} s", decimal(left, 0)),
            );
        }
    }

    fn foot(&self, ui: &mut Ui, theme: &Theme, asked: &mut Vec<Asked>) {
        ui.horizontal(|ui| {
            let label = match (self.progress, self.course.stand()) {
                (true, _) => text("Back to the questions"),
                (false, Stand::Asking) => text_in("rehearsal", "Answer"),
                (false, Stand::Answered(_)) => text_in("rehearsal", "Next"),
            };
            let label = RichText::new(label).color(*theme.ui.on_accent);
            let button = Button::new(label).fill(*theme.ui.accent).min_size(egui::vec2(120.0, theme.m.touch));
            let response = ui.add_enabled(self.may_answer(), button);
            if response.on_disabled_hover_text(text("Choose a shot first")).clicked() {
                asked.push(Asked::Enter);
            }
            ui.vertical(|ui| {
                let sitting = words::sitting(&self.course);
                let about = words::about(&self.course);
                let line = if sitting.is_empty() { about } else { format!("{about} · {sitting}") };
                ui.add(Label::new(line).truncate());
                if let Some(notice) = self.course.log().notice() {
                    ui.label(RichText::new(notice).color(*theme.ui.warn));
                }
                ui.label(RichText::new(text(words::CAUTION)).small().color(*theme.ui.soft));
            });
        });
    }

    fn court(&mut self, ui: &mut Ui, theme: &Theme, asked: &mut Vec<Asked>) {
        let rect = ui.available_rect_before_wrap();
        let response = ui.interact(rect, Id::unique("rehearsal"), Sense::CLICK | Sense::DRAG);
        let (first, second) = words::describe(&self.course);
        announce::describe(ui, &response, Role::GraphicsDocument, text("Rehearsal"), &format!("{first}. {second}"));
        let pressed = response.clicked() || response.dragged() || response.is_pointer_button_down_on();
        let (above, seen) = if self.eyes { eye::beside(rect, theme) } else { (rect, Rect::NOTHING) };
        if !pressed {
            // As much ground in every situation: else the view would give the answer away.
            self.view = action::fitted_with(self.view, above, self.course.session(), self.turned, ROOM);
        }
        let at = self.view.transform(above, &self.course.session().court());
        self.scale = at.scale();
        if let Some(pos) = response.interact_pointer_pos().filter(|_| pressed) {
            match self.course.question() {
                Question::Place if above.contains(pos) => asked.push(Asked::Put(at.court_from_screen(pos))),
                Question::Place => {}
                Question::Shot => {
                    let chosen = if self.eyes && seen.contains(pos) {
                        court::offer_seen_at(&self.course, seen, pos)
                    } else {
                        court::offer_at(&self.course, &at, pos)
                    };
                    asked.extend(chosen.map(Asked::Choose));
                }
            }
        }
        let painter = ui.painter_at(above);
        painter.rect_filled(above, 0.0, *theme.ui.canvas);
        let brush = Brush::new(&painter, at, theme);
        self.scene.paint(ui, &brush, above, &self.course, (&self.covered, &self.revealed));
        if self.eyes {
            let painter = ui.painter_at(seen);
            let brush = brush.with(&painter);
            court::eyes(ui, &brush.of(self.course.session()), seen, &self.course);
        }
    }
}
