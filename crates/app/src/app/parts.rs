//! Which parts of the window are shown: those the board needs, as long as the court stays the largest thing in the window.

use egui::{Vec2, vec2};
use standpoint_ui::{commands::PartFacts, theme::tokens::Measures};

use super::App;
use crate::panels;

/// The court inside its lines covers at least this part of the window, as far as folding can bring that about.
const WANTED: f32 = 0.158;
/// The ground that is reckoned with, m: a court with the run-off of a deep exchange, and the lines.
const GROUND: Vec2 = vec2(15.5, 34.5);
const LINES: Vec2 = vec2(10.97, 23.77);
/// A window lower than this has no line at the bottom.
const LOW: f32 = 480.0;
/// Heights of menu and sentence, of the status line, and of the key below the court, points.
const ABOVE: f32 = 36.0 + 64.0;
const STATUS: f32 = 26.0;
const KEY: f32 = 26.0;
/// Part of the room's height that the court keeps above a panel.
const ABOVE_PANEL: f32 = 0.62;

/// How the parts are shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Layout {
    /// The panel's usual width, where it is shown.
    pub panel: Option<f32>,
    /// Whether the pages are shown slim, where they are shown.
    pub pages: Option<bool>,
    pub rally: bool,
    pub tools: bool,
    pub status: bool,
}

/// What a board and the settings ask for.
#[derive(Debug, Clone, Copy)]
struct Wanted {
    pages: bool,
    rally: bool,
    /// Whether pages and rally were asked for by hand: then they stay in any window.
    kept: (bool, bool),
    tools: bool,
    /// Shown or hidden by hand.
    panel: Option<bool>,
}

impl Layout {
    /// The parts in a window of a size: one after the other gives way until the court is large enough.
    fn of(window: Vec2, wanted: Wanted, m: &Measures) -> Self {
        let panel = wanted.panel != Some(false);
        let slim = window.x < panels::pages::SLIM_BELOW;
        let mut layout = Self {
            panel: panel.then_some(m.panel.width),
            pages: wanted.pages.then_some(slim),
            rally: wanted.rally,
            tools: wanted.tools,
            status: window.y >= LOW,
        };
        let steps: [fn(&mut Self, Wanted, &Measures); 6] = [
            |layout, _, _| layout.pages = layout.pages.map(|_| true),
            |layout, _, m| layout.panel = layout.panel.map(|_| m.panel.least),
            |layout, _, _| layout.panel = None,
            |layout, _, _| layout.tools = false,
            |layout, wanted, _| layout.rally &= wanted.kept.1,
            |layout, wanted, _| layout.pages = layout.pages.filter(|_| wanted.kept.0),
        ];
        for step in steps {
            if layout.share(window, m) >= WANTED {
                break;
            }
            step(&mut layout, wanted, m);
        }
        if layout.panel.is_none() && wanted.panel == Some(true) {
            layout.panel = Some(m.panel.width.min(window.x / 2.0).max(m.panel.least));
            // The panel was asked for, the row of shots came by itself: there is no court left below both in a low window.
            if !m.panel.beside(window) && layout.share(window, m) < WANTED / 2.0 {
                layout.rally &= wanted.kept.1;
            }
        }
        layout
    }

    /// The part of a window that the court inside its lines would cover, about.
    fn share(&self, window: Vec2, m: &Measures) -> f32 {
        let (slim, wide) = panels::pages::WIDTHS;
        let pages = self.pages.map_or(0.0, |is_slim| if is_slim { slim } else { wide });
        let rally = if self.rally { panels::rally::height(window.y, m) } else { 0.0 };
        let status = if self.status { STATUS } else { 0.0 };
        let room = window - vec2(pages, ABOVE + status + rally);
        // Below the court the panel takes about as much of the room as beside it.
        let room = match self.panel {
            Some(width) if m.panel.beside(room) => room - vec2(width, 0.0),
            Some(_) => room * vec2(1.0, ABOVE_PANEL),
            None => room,
        };
        let tools = if self.tools { panels::tools::width(room.y, m) } else { 0.0 };
        let room = room - vec2(tools, KEY);
        let scale = |size: Vec2| (room.x / size.x).min(room.y / size.y).max(0.0);
        let scale = scale(GROUND).max(scale(vec2(GROUND.y, GROUND.x)));
        LINES.x * LINES.y * scale * scale / (window.x * window.y)
    }
}

impl App {
    /// How the parts of the window are shown now.
    pub(crate) fn layout(&self) -> Layout {
        let parts = self.settings.parts;
        let pages = self.session.board().pages.len() > 1;
        let shots = self.session.page().is_some_and(|page| page.shots.len() > 1);
        let wanted = Wanted {
            pages: parts.pages.unwrap_or(pages),
            rally: parts.rally.unwrap_or(shots),
            kept: (parts.pages == Some(true), parts.rally == Some(true)),
            tools: self.settings.tools,
            panel: parts.panel,
        };
        Layout::of(self.window, wanted, self.look.measures())
    }

    /// The parts that are shown, for the catalogue of commands.
    pub(super) fn part_facts(&self) -> PartFacts {
        let layout = self.layout();
        PartFacts {
            clean: self.canvas.clean,
            panel: layout.panel.is_some(),
            rally: layout.rally,
            pages: layout.pages.is_some(),
        }
    }

    /// Shows a part that is hidden and hides one that is shown; what the board and the window would have by themselves is
    /// left to them again.
    pub(crate) fn fold(&mut self, part: Part) {
        self.canvas.clean = false;
        let shown = self.layout();
        let (shown, by_hand) = match part {
            Part::Panel => (shown.panel.is_some(), &mut self.settings.parts.panel),
            Part::Rally => (shown.rally, &mut self.settings.parts.rally),
            Part::Pages => (shown.pages.is_some(), &mut self.settings.parts.pages),
        };
        *by_hand = if by_hand.is_some() { None } else { Some(!shown) };
        // Left to itself it may be as it was.
        let now = self.layout();
        let (now, by_hand) = match part {
            Part::Panel => (now.panel.is_some(), &mut self.settings.parts.panel),
            Part::Rally => (now.rally, &mut self.settings.parts.rally),
            Part::Pages => (now.pages.is_some(), &mut self.settings.parts.pages),
        };
        if now == shown {
            *by_hand = Some(!shown);
        }
    }

    /// Shows the side panel.
    pub(crate) fn show_panel(&mut self) {
        if self.layout().panel.is_none() {
            self.fold(Part::Panel);
        }
    }
}

/// A part that folds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Part {
    Panel,
    Rally,
    Pages,
}

#[cfg(test)]
mod tests {
    use standpoint_ui::theme::tokens::Tokens;

    use super::*;

    fn layout(x: f32, y: f32, wanted: Wanted) -> Layout {
        Layout::of(vec2(x, y), wanted, &Tokens::load().unwrap().measures)
    }

    const ONE: Wanted = Wanted { pages: false, rally: false, kept: (false, false), tools: true, panel: None };

    #[test]
    fn a_large_window_shows_everything() {
        let all = Wanted { pages: true, rally: true, ..ONE };
        let layout = layout(1920.0, 1080.0, all);
        assert!(layout.panel.is_some() && layout.pages == Some(false) && layout.rally && layout.tools && layout.status);
    }

    #[test]
    fn in_a_small_window_the_panel_waits_until_it_is_asked_for() {
        assert_eq!(layout(512.0, 384.0, ONE).panel, None);
        assert!(layout(512.0, 384.0, Wanted { panel: Some(true), ..ONE }).panel.is_some());
        assert!(layout(1440.0, 900.0, ONE).panel.is_some());
        assert_eq!(layout(1440.0, 900.0, Wanted { panel: Some(false), ..ONE }).panel, None);
    }

    #[test]
    fn a_panel_that_is_asked_for_takes_the_place_of_the_rally_in_a_low_window() {
        let wanted = Wanted { rally: true, panel: Some(true), ..ONE };
        let low = layout(512.0, 384.0, wanted);
        assert!(low.panel.is_some() && !low.rally);
        assert!(layout(512.0, 384.0, Wanted { kept: (false, true), ..wanted }).rally, "unless it was asked for too");
        let usual = layout(1024.0, 768.0, wanted);
        assert!(usual.panel.is_some() && usual.rally);
    }

    #[test]
    fn in_the_smallest_window_the_rally_waits_too_unless_it_was_asked_for() {
        let both = Wanted { pages: true, rally: true, ..ONE };
        assert!(!layout(640.0, 360.0, both).rally);
        let kept = layout(640.0, 360.0, Wanted { kept: (true, true), ..both });
        assert!(kept.rally && kept.pages.is_some());
        assert!(layout(1024.0, 768.0, both).rally, "a usual window has room for them");
    }
}
