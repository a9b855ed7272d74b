//! The clock of a match that is noted, which runs beside its video.

use egui::{Button, Context, DragValue, Ui};
use standpoint_charting::notebook::{Notebook, Tell};
use standpoint_language::{parse_decimal, text};
use standpoint_ui::{theme::Theme, widgets::row};
use standpoint_workbench::chart::{Act, ClockAct};

/// How often the window is drawn while it runs, s.
const TICK_S: f32 = 0.2;

/// A clock that can be paused and set.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Clock {
    /// What it said when it was last started, paused or set, s.
    at: f64,
    /// When it was started, by the window's time.
    since: Option<f64>,
}

impl Clock {
    /// What it says, s.
    #[must_use]
    pub fn now(&self, window: f64) -> f64 {
        self.at + self.since.map_or(0.0, |since| (window - since).max(0.0))
    }

    /// Whether it runs.
    #[must_use]
    pub fn runs(&self) -> bool {
        self.since.is_some()
    }

    /// Starts, pauses or sets it.
    pub fn act(&mut self, act: ClockAct, window: f64) {
        *self = match act {
            ClockAct::Start => Self { at: self.now(window), since: Some(window) },
            ClockAct::Pause => Self { at: self.now(window), since: None },
            ClockAct::Set(at) => Self { at: at.max(0.0), since: self.since.map(|_| window) },
        };
    }

    /// What strokes that are noted now have for a time; none while nobody has started it.
    #[must_use]
    pub fn stamp(&self, ctx: &Context) -> Option<f64> {
        if self.runs() {
            ctx.request_repaint_after_secs(TICK_S);
        }
        (self.runs() || self.at > 0.0).then(|| self.now(ctx.input(|i| i.time)))
    }
}

/// A time as a clock shows it: `1:02:05` or `2:05`.
#[must_use]
pub fn told(seconds: f64) -> String {
    let whole = seconds.max(0.0) as u64;
    let (h, m, s) = (whole / 3600, whole / 60 % 60, whole % 60);
    if h > 0 { format!("{h}:{m:02}:{s:02}") } else { format!("{m}:{s:02}") }
}

/// The seconds of such a text; a plain number counts as seconds.
#[must_use]
pub fn read(typed: &str) -> Option<f64> {
    let parts: Vec<&str> = typed.trim().split(':').collect();
    if parts.len() > 3 {
        return None;
    }
    let mut sum = 0.0;
    for part in parts {
        sum = sum * 60.0 + parse_decimal(part.trim()).filter(|part| *part >= 0.0)?;
    }
    Some(sum)
}

/// The clock with its keys, and where the video is against it.
pub fn ui(ui: &mut Ui, clock: &Clock, notes: &Notebook, theme: &Theme, out: &mut Vec<Act>) {
    let window = ui.input(|i| i.time);
    row::row(ui, theme, text("Clock"), |ui| {
        let mut now = clock.now(window).floor();
        let field = DragValue::new(&mut now)
            .speed(0.0)
            .range(0.0..=1e6)
            .custom_formatter(|value, _| told(value))
            .custom_parser(read);
        let field = ui.add(field).on_hover_text(text("Set it to where the video is: minutes and seconds"));
        if field.changed() {
            out.push(Act::Clock(ClockAct::Set(now)));
        }
        let (label, act) =
            if clock.runs() { (text("Pause"), ClockAct::Pause) } else { (text("Start the clock"), ClockAct::Start) };
        if ui.add(Button::new(label)).on_hover_text(text("Every stroke keeps its time")).clicked() {
            out.push(Act::Clock(act));
        }
        field
    });
    let Some(point) = notes.open_at().map(|at| at.point).or(notes.points().len().checked_sub(1)) else { return };
    let offsets = notes.points()[..=point].iter().rev();
    let known = offsets.take_while(|p| p.session == notes.points()[point].session).find_map(|p| p.video_offset);
    row::row(ui, theme, text("Video offset"), |ui| {
        let mut offset = known.unwrap_or(0.0);
        let field = DragValue::new(&mut offset).speed(0.1).max_decimals(1).suffix(" s").range(-1e5..=1e5);
        let said = text("Seconds to add to the clock for the position in the video, from the last point on");
        let field = ui.add(field).on_hover_text(said);
        if field.changed() {
            out.push(Act::Tell(point, Tell::VideoOffset(Some(offset))));
        }
        field
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_runs_pauses_and_is_set() {
        let mut clock = Clock::default();
        clock.act(ClockAct::Start, 100.0);
        assert!((clock.now(130.0) - 30.0).abs() < 1e-9);
        clock.act(ClockAct::Pause, 130.0);
        assert!(!clock.runs() && (clock.now(500.0) - 30.0).abs() < 1e-9);
        clock.act(ClockAct::Start, 500.0);
        clock.act(ClockAct::Set(90.0), 510.0);
        assert!((clock.now(511.0) - 91.0).abs() < 1e-9);
    }

    #[test]
    fn times_are_read_as_they_are_shown() {
        for seconds in [0.0, 59.0, 125.0, 3725.0] {
            assert_eq!(read(&told(seconds)), Some(seconds));
        }
        assert_eq!((read("12.5"), read("1:2:3:4"), read("-5"), read("a:1")), (Some(12.5), None, None, None));
    }
}
