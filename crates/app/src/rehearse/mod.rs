//! The rehearsal: a player alone chooses a place or a shot, and sees what it costs.
//!
//! Like the presentation it works on copies; the board stays unchanged.

pub mod course;
mod court;
pub mod players;
mod progress;
mod words;

use egui::{
    Button, CentralPanel, ComboBox, Context, Frame, Id, Key, Label, Margin, Modifiers, Panel, Rect, RichText,
    ScrollArea, Sense, TextEdit, Ui, accesskit::Role,
};
use standpoint_board::rehearse::{Question, Theme as Topic, Trainee};
use standpoint_canvas::{action, announce, brush::Brush, eye, handles};
use standpoint_geometry::Level;
use standpoint_language::{decimal, text, text_in, tr};
use standpoint_ui::{
    theme::{Look, Theme, icons::Icon},
    transform::CourtView,
    widgets::ends,
};
use standpoint_workbench::{edit::Colours, words as spoken};

use self::{
    course::{Course, Kinds, Source, Stand},
    players::Players,
};
use crate::{crash_recovery, present::show::Show};

/// Times to answer that can be chosen, s.
const LIMITS: [Option<f64>; 4] = [None, Some(15.0), Some(8.0), Some(4.0)];
/// Steps of the arrow keys, m.
const STEPS: (f64, f64) = (0.25, 1.0);
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

    /// The keys, unless something else has the focus.
    fn keys(&self, ctx: &Context) -> Vec<Asked> {
        if ctx.memory(egui::Memory::focused).is_some() || egui::Popup::is_any_open(ctx) {
            return Vec::new();
        }
        let mut asked = Vec::new();
        let pressed = |modifiers, key| ctx.input_mut(|i| i.consume_key(modifiers, key));
        if pressed(Modifiers::NONE, Key::Escape) {
            asked.push(if self.progress { Asked::Progress } else { Asked::Leave });
        }
        if pressed(Modifiers::NONE, Key::Enter) && self.may_answer() {
            asked.push(Asked::Enter);
        }
        if pressed(Modifiers::NONE, Key::V) {
            asked.push(Asked::Eyes);
        }
        if self.progress {
            return asked;
        }
        match self.course.question() {
            Question::Place => asked.extend(self.steps(ctx)),
            Question::Shot => {
                let count = self.course.offers().len();
                let letters = [(Key::A, 0), (Key::B, 1), (Key::C, 2), (Key::Num1, 0), (Key::Num2, 1), (Key::Num3, 2)];
                let by_letter = letters.into_iter().find(|(key, _)| pressed(Modifiers::NONE, *key)).map(|(_, i)| i);
                let on = [Key::ArrowRight, Key::ArrowDown].into_iter().any(|key| pressed(Modifiers::NONE, key));
                let back = [Key::ArrowLeft, Key::ArrowUp].into_iter().any(|key| pressed(Modifiers::NONE, key));
                let last = count.saturating_sub(1);
                let turned = match self.course.chosen() {
                    Some(chosen) if on => Some((chosen + 1) % count.max(1)),
                    Some(chosen) if back => Some((chosen + last) % count.max(1)),
                    None if on => Some(0),
                    None if back => Some(last),
                    _ => None,
                };
                asked.extend(by_letter.or(turned).map(Asked::Choose));
            }
        }
        asked
    }

    /// Whether there is an answer: a place always exists, a shot has to be chosen.
    fn may_answer(&self) -> bool {
        let chosen = self.course.question() != Question::Shot || self.course.chosen().is_some();
        self.progress || chosen || *self.course.stand() != Stand::Asking
    }

    /// Arrow keys as a step of the place, in screen directions.
    fn steps(&self, ctx: &Context) -> Option<Asked> {
        // Only the direction matters here.
        let rect = Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(800.0, 600.0));
        let at = self.view.transform(rect, &self.course.session().court());
        handles::arrows(ctx, &at, STEPS).map(|by| Asked::Put(self.course.place() + by))
    }

    /// The options of the rehearsal.
    fn choices(&self, ui: &mut Ui, theme: &Theme, asked: &mut Vec<Asked>) {
        let mut leaving = Vec::new();
        // One row at any width: the choices can be pulled sideways where there is no room for all.
        let choices = |ui: &mut Ui| {
            ScrollArea::horizontal().id_salt("rehearsal choices").show(ui, |ui| {
                ui.horizontal(|ui| {
                    self.sources(ui, asked);
                    self.levels(ui, asked);
                    self.who(ui, asked);
                    let kinds = [
                        (Kinds::Both, text("Place and shot")),
                        (Kinds::Place, text("Where to stand")),
                        (Kinds::Shot, text("Which shot")),
                    ];
                    let shown = kinds.iter().find(|(kind, _)| *kind == self.course.kinds).map_or("", |(_, name)| name);
                    let list = ComboBox::from_id_salt("rehearsal kinds").selected_text(shown).show_ui(ui, |ui| {
                        for (kind, name) in kinds {
                            if ui.selectable_label(kind == self.course.kinds, name).clicked() {
                                asked.push(Asked::Kinds(kind));
                            }
                        }
                    });
                    name(&list.response, text("Questions"), shown);
                    let said = |limit: Option<f64>| {
                        limit.map_or_else(|| tr!("No time limit"), |s| tr!("{} seconds", decimal(s, 0)))
                    };
                    let list =
                        ComboBox::from_id_salt("rehearsal time").selected_text(said(self.limit)).show_ui(ui, |ui| {
                            for limit in LIMITS {
                                if ui.selectable_label(limit == self.limit, said(limit)).clicked() {
                                    asked.push(Asked::Limit(limit));
                                }
                            }
                        });
                    name(&list.response, text("Time"), &said(self.limit));
                    let mut left_handed = self.course.trainee().left_handed;
                    if ui
                        .checkbox(&mut left_handed, text("Left-handed"))
                        .on_hover_text(text("Mirror the situations"))
                        .changed()
                    {
                        asked.push(Asked::Hands);
                    }
                    let eyes = ui.selectable_label(self.eyes, text("Player’s eye"));
                    if eyes.on_hover_text(text("See it as the player does (V)")).clicked() {
                        asked.push(Asked::Eyes);
                    }
                })
            });
        };
        ends::row(ui, "ways out", choices, |ui| {
            if ui.selectable_label(self.progress, text("Progress")).clicked() {
                leaving.push(Asked::Progress);
            }
            if icon(ui, Icon::Close, text("Leave the rehearsal"), theme) {
                leaving.push(Asked::Leave);
            }
        });
        asked.extend(leaving);
    }

    fn sources(&self, ui: &mut Ui, asked: &mut Vec<Asked>) {
        let label = |source: Source| match source {
            Source::Mixed => text("All themes"),
            Source::Theme(theme) => theme.label(),
            Source::Board => text("Shots of the board"),
        };
        let now = self.course.source;
        let list = ComboBox::from_id_salt("rehearsal themes").selected_text(label(now)).show_ui(ui, |ui| {
            let themes = Topic::ALL.into_iter().map(Source::Theme);
            let board = self.course.board_has_some().then_some(Source::Board);
            for source in std::iter::once(Source::Mixed).chain(themes).chain(board) {
                if ui.selectable_label(source == now, label(source)).clicked() {
                    asked.push(Asked::Source(source));
                }
            }
        });
        name(&list.response, text_in("rehearsal", "Theme"), label(now));
    }

    /// At which level the trainee plays.
    fn levels(&self, ui: &mut Ui, asked: &mut Vec<Asked>) {
        let now = self.course.trainee();
        let shown = words::who(&self.course, now);
        let list = ComboBox::from_id_salt("rehearsal levels").selected_text(shown.as_str()).show_ui(ui, |ui| {
            if let Some(own) = self.course.own()
                && ui.selectable_label(now.figures != 0, tr!("{} as measured", own.name)).clicked()
            {
                asked.push(Asked::Level(None));
            }
            // Situations are drawn on the full court.
            for level in Level::ALL.into_iter().filter(|level| Trainee::of_level(*level, false).level == *level) {
                let on = now.figures == 0 && level == now.level;
                if ui.selectable_label(on, spoken::level(level)).clicked() {
                    asked.push(Asked::Level(Some(level)));
                }
            }
        });
        name(&list.response, text("Level"), &shown);
    }

    /// Whose history it is.
    fn who(&self, ui: &mut Ui, asked: &mut Vec<Asked>) {
        if !self.players.kept() {
            return;
        }
        if let Some(typed) = &self.players.typed {
            let mut typed = typed.clone();
            let field = TextEdit::singleline(&mut typed).char_limit(players::LONGEST).desired_width(150.0);
            let field = ui.add(field.hint_text(text("Name")));
            let done = field.lost_focus();
            if !done {
                field.request_focus();
            }
            let entered = done && ui.input(|i| i.key_pressed(Key::Enter));
            asked.push(match (entered, done) {
                (true, _) if players::cleaned(&typed).is_some() => Asked::Player(Some(typed)),
                (_, true) => Asked::Typed(None),
                (_, false) if field.changed() => Asked::Typed(Some(typed)),
                _ => return,
            });
            return;
        }
        let nobody = text("Everybody here");
        let now = self.players.current.as_deref();
        let list = ComboBox::from_id_salt("rehearsal players").selected_text(now.unwrap_or(nobody)).show_ui(ui, |ui| {
            if ui.selectable_label(now.is_none(), nobody).clicked() {
                asked.push(Asked::Player(None));
            }
            for known in self.players.known() {
                if ui.selectable_label(now == Some(known), known).clicked() {
                    asked.push(Asked::Player(Some(known.clone())));
                }
            }
            if ui.selectable_label(false, text("New player…")).clicked() {
                asked.push(Asked::Typed(Some(String::new())));
            }
        });
        name(&list.response, text("History of"), now.unwrap_or(nobody));
    }

    fn head(&self, ui: &mut Ui, theme: &Theme) {
        let (first, second) = words::describe(&self.course);
        ui.add(Label::new(RichText::new(first).heading()).truncate());
        ui.add(Label::new(RichText::new(second).color(*theme.ui.soft)).truncate());
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

/// Names a list for assistive technology.
fn name(response: &egui::Response, label: &str, value: &str) {
    let said = format!("{label}: {value}");
    response.widget_info(|| egui::WidgetInfo::labeled(Role::ComboBox, true, said.as_str()));
}

fn icon(ui: &mut Ui, icon: Icon, label: &str, theme: &Theme) -> bool {
    let response = ui.allocate_response(egui::Vec2::splat(theme.m.control), Sense::click());
    response.widget_info(|| egui::WidgetInfo::labeled(Role::Button, true, label));
    let visuals = ui.style().interact(&response);
    if response.hovered() || response.has_focus() {
        let corner = visuals.corner_radius;
        ui.painter().rect(response.rect, corner, visuals.weak_bg_fill, visuals.bg_stroke, egui::StrokeKind::Inside);
    }
    theme.icons.paint(ui.painter(), response.rect.shrink(6.0), icon, *theme.ui.ink);
    response.on_hover_text(label).clicked()
}
