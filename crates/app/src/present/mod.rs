//! The presentation: full screen for a projector, one shot at a time, revealed step by step.
//!
//! It works on a copy of the board, so that board and selection stay unchanged;
//! ink drawn here is temporary.

mod bar;
mod keys;
mod notes;
pub mod show;
pub mod stage;
mod words;

use egui::{Context, CursorIcon, Id, PointerButton, Rect, Sense, Ui, accesskit::Role};
use standpoint_canvas::{
    action, announce,
    brush::Brush,
    eye,
    key::{self, Key},
};
use standpoint_language::text;
use standpoint_ui::{
    theme::{Look, Theme},
    transform::CourtView,
};
use standpoint_workbench::{
    edit::Colours,
    session::{LONGEST_FRAME_S, Session},
    settings::Sight,
};

use self::show::{Move, RevealStep, Show};

/// How long the keys are shown at the first presentation, s.
const KEYS_S: f64 = 15.0;
/// Size of all words of the picture, points: capitals of at least 16 minutes of arc (ISO 9241-303, from memory) when a picture
/// two metres wide is read from eight metres away. It is laid out 960 points wide on a screen of 16 to 10, and capitals
/// are 0.7 of the size.
pub(crate) const LEGIBLE: f32 = 26.0;
/// Points of temporary ink keep this far apart on the screen.
const APART: f32 = 2.0;

/// A presentation in its window.
pub struct Presenting {
    show: Show,
    session: Session,
    stage: stage::Stage,
    view: CourtView,
    /// Whether the coach has chosen how the court lies.
    turned: bool,
    /// Points a metre as the court was shown last.
    scale: f32,
    colours: Colours,
    /// Whether the window filled the screen before.
    pub(crate) was_full: bool,
    /// When it began, s of the window's clock.
    began: Option<f64>,
    now: f64,
    notes: bool,
    /// End of the display of the keys; `None` keeps them.
    keys_until: Option<f64>,
    /// When the playing rally was last advanced.
    played_at: Option<f64>,
    pen_down: bool,
}

impl Presenting {
    pub(crate) fn new(session: &Session, (turn, turned): (u8, bool), hints: bool, was_full: bool) -> Self {
        let mut copy = Session::new(session.board().clone(), None);
        copy.select(session.selection());
        Self {
            show: Show::default(),
            session: copy,
            stage: stage::Stage::default(),
            view: CourtView::fitted(turn),
            turned,
            scale: 0.0,
            colours: Colours::Bright,
            was_full,
            began: None,
            now: 0.0,
            notes: false,
            keys_until: hints.then_some(KEYS_S),
            played_at: None,
            pen_down: false,
        }
    }

    /// Computes everything anew after the game behind the answers has changed.
    pub(crate) fn renew(&mut self) {
        self.session.renew();
    }

    /// What is shown, for tests.
    #[must_use]
    pub fn show(&self) -> &Show {
        &self.show
    }

    /// The copy that is presented, for tests.
    #[must_use]
    pub fn session(&self) -> &Session {
        &self.session
    }

    /// Points a metre as the court was shown last, for tests.
    #[must_use]
    pub fn court_scale(&self) -> f32 {
        self.scale
    }

    /// Seconds since it began.
    fn seconds(&self) -> f64 {
        self.now - self.began.unwrap_or(self.now)
    }

    /// The time of day.
    fn clock(&self) -> String {
        jiff::Zoned::now().strftime("%H:%M").to_string()
    }

    /// Carries out a move; returns whether the presentation goes on.
    fn go(&mut self, asked: Move) -> bool {
        if asked != Move::Keys {
            // Going on hides the keys, which cover the court.
            self.keys_until = None;
        }
        if self.show.go(&mut self.session, asked) {
            return true;
        }
        match asked {
            Move::Notes => self.notes = !self.notes,
            Move::Keys => {
                let shown = self.keys_until.is_some_and(|until| self.seconds() < until);
                self.keys_until = (!shown).then_some(f64::INFINITY);
            }
            Move::Colours => {
                self.colours = if self.colours == Colours::Bright { Colours::Surface } else { Colours::Bright };
            }
            Move::Turn => (self.turned, self.view.turn) = (true, self.view.turn ^ 1),
            Move::Leave => return false,
            _ => {}
        }
        true
    }

    fn time_passes(&mut self, ctx: &Context) {
        self.now = ctx.input(|i| i.time);
        self.began.get_or_insert(self.now);
        let last = self.played_at.replace(self.now).unwrap_or(self.now);
        let playing = self.session.pass((self.now - last).min(LONGEST_FRAME_S));
        if !playing {
            self.played_at = None;
        }
        if self.session.fill() || playing {
            ctx.request_repaint();
        }
    }

    /// One frame: input, then the picture; returns whether the presentation goes on.
    pub(crate) fn frame(&mut self, ui: &mut Ui, look: &Look) -> bool {
        let ctx = ui.ctx().clone();
        let mut asked = keys::read(&ctx);
        self.time_passes(&ctx);
        let theme = self.theme(look, ui.visuals().dark_mode);
        let rect = ui.available_rect_before_wrap();
        for asked in asked.drain(..) {
            if !self.go(asked) {
                return false;
            }
        }
        asked.extend(self.picture(ui, rect, &theme));
        if self.notes {
            asked.extend(notes::ui(&ctx, self, &theme));
        }
        if !asked.is_empty() {
            ctx.request_repaint();
        }
        asked.into_iter().all(|asked| self.go(asked))
    }

    /// The theme with larger words on the court.
    fn theme(&self, look: &Look, dark: bool) -> Theme {
        let mut theme = look.theme(dark, self.colours, self.session.ground());
        theme.m.text.court = LEGIBLE;
        theme.m.text.small = LEGIBLE;
        theme
    }

    fn picture(&mut self, ui: &mut Ui, rect: Rect, theme: &Theme) -> Vec<Move> {
        let painter = ui.painter_at(rect);
        let response = ui.interact(rect, Id::unique("presentation"), Sense::CLICK | Sense::DRAG);
        announce::describe(
            ui,
            &response,
            Role::GraphicsDocument,
            text("Presentation"),
            &words::announced(&self.show, &self.session),
        );
        if self.show.black {
            painter.rect_filled(rect, 0.0, *theme.ui.unlit);
            ui.ctx().set_cursor_icon(CursorIcon::None);
            return if response.clicked() { vec![Move::Black] } else { Vec::new() };
        }
        painter.rect_filled(rect, 0.0, *theme.ui.panel);
        let (head, rest) = rect.split_top_bottom_at_y(rect.top() + bar::HEAD);
        let (rest, foot) = rest.split_top_bottom_at_y(rest.bottom() - bar::FOOT);
        // The key has its room from the first step on, so that the court stays where it is.
        let (court, key) = rest.split_top_bottom_at_y(rest.bottom() - key::strip_height(theme));
        if !self.pen_down {
            self.view = action::fitted(self.view, court, &self.session, self.turned);
        }
        let at = self.view.transform(court, &self.session.court());
        self.scale = at.scale();
        let mut asked = self.pointer(ui, &response, court, &at);
        let court_painter = ui.painter_at(court);
        court_painter.rect_filled(court, 0.0, *theme.ui.canvas);
        let brush = Brush::new(&court_painter, at, theme);
        match self.show.sight.filter(|_| self.session.moment().is_none()) {
            Some(sight) => self.perspective(ui, &brush, court, sight),
            None => {
                self.stage.paint(&brush, court, &self.session, &self.show);
                if self.session.moment().is_none() {
                    stage::announce(ui, &at, &self.session, self.show.step());
                }
            }
        }
        let answer = self.session.play().filter(|_| self.show.step() == RevealStep::Answer);
        key::strip(&brush.with(&painter), key, answer.map(Key::exposure).as_ref());
        bar::head(ui, head, &self.show, &self.session, theme);
        asked.extend(bar::foot(ui, foot, &self.show, &self.session, theme));
        if let Some(light) = ui.ctx().pointer_latest_pos().filter(|_| self.show.spotlight) {
            stage::spotlight(&painter, rect, light, at.scale(), *theme.ui.unlit);
        }
        if let Some(until) = self.keys_until {
            if self.seconds() < until {
                bar::keys_overlay(ui, court, theme);
                if until.is_finite() {
                    ui.ctx().request_repaint_after_secs((until - self.seconds()) as f32 + 0.05);
                }
            } else {
                self.keys_until = None;
            }
        }
        asked
    }

    /// The court as the player sees it, or from behind, as far as it is revealed.
    fn perspective(&self, ui: &Ui, brush: &Brush<'_>, rect: Rect, sight: Sight) {
        let step = self.show.step();
        let shown = eye::Shown {
            wedge: step >= RevealStep::Wedge,
            replies: step >= RevealStep::Replies,
            answer: step == RevealStep::Answer,
        };
        eye::paint(&brush.of(&self.session), rect, &self.session, sight, shown);
        eye::announce(ui, Id::unique("presented perspective"), rect, &self.session, sight, shown);
    }

    /// A click goes on, one with the other button goes back; with the pen in hand the pointer draws instead.
    fn pointer(
        &mut self,
        ui: &Ui,
        response: &egui::Response,
        court: Rect,
        at: &standpoint_ui::transform::Transform,
    ) -> Vec<Move> {
        if !self.show.drawing {
            self.pen_down = false;
            return match () {
                () if response.clicked() => vec![Move::Forward],
                () if response.clicked_by(PointerButton::Secondary) => vec![Move::Back],
                () => Vec::new(),
            };
        }
        if response.hovered() {
            ui.ctx().set_cursor_icon(CursorIcon::Crosshair);
        }
        let (down, pos) = ui.input(|i| (i.pointer.primary_down(), i.pointer.latest_pos()));
        let pos = pos.filter(|pos| court.contains(*pos) && response.is_pointer_button_down_on());
        let (Some(pos), true) = (pos, down) else {
            self.pen_down = false;
            return Vec::new();
        };
        let (page, place) = (self.session.selection(), at.court_from_screen(pos));
        if !std::mem::replace(&mut self.pen_down, true) {
            self.show.begin_line(page, place);
        } else {
            let last = self.show.ink(page).last().and_then(|line| line.last()).copied();
            if last.is_none_or(|last| at.screen_from_court(last).distance(pos) >= APART) {
                self.show.draw_on(page, place);
            }
        }
        Vec::new()
    }
}
