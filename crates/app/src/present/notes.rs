//! The coach's own window: notes and cues of the page, what comes next, and the time.

use egui::{
    Align, CentralPanel, Frame, Layout, RichText, ScrollArea, Ui, ViewportBuilder, ViewportClass, ViewportId, vec2,
};
use standpoint_language::{text, tr};
use standpoint_ui::theme::Theme;

use super::{
    Presenting, keys,
    show::{Move, Show},
    words,
};

/// Size of the window when it opens, pixels.
const SIZE: (f32, f32) = (640.0, 520.0);

/// Shows the window; its keys work as in the presentation.
pub fn ui(ctx: &egui::Context, presenting: &mut Presenting, theme: &Theme) -> Vec<Move> {
    let zoom = ctx.zoom_factor();
    let builder = ViewportBuilder::default()
        .with_title(text("Notes – Standpoint"))
        .with_app_id("standpoint")
        .with_inner_size(vec2(SIZE.0, SIZE.1) / zoom);
    let id = ViewportId::from_hash_of("presenter notes");
    // The clock moves on even when nothing else does.
    ctx.request_repaint_after_secs(1.0);
    ctx.show_viewport_immediate(id, builder, |ui, class| {
        let mut asked = Vec::new();
        if class == ViewportClass::EmbeddedWindow {
            body(ui, presenting, theme, 1.0);
            return asked;
        }
        asked.extend(keys::read(ui.ctx()));
        if ui.ctx().input(|i| i.viewport().close_requested()) {
            asked.push(Move::Notes);
        }
        // The magnification applies to the projector only, not to this window.
        let size = 1.0 / zoom;
        let frame = Frame::new().fill(*theme.ui.panel).inner_margin(theme.m.space.edge * size);
        CentralPanel::default().frame(frame).show(ui, |ui| body(ui, presenting, theme, size));
        asked
    })
}

fn body(ui: &mut Ui, presenting: &Presenting, theme: &Theme, size: f32) {
    let sized = |said: &str, points: f32| RichText::new(said).size(points * size);
    let (show, session) = (&presenting.show, &presenting.session);
    ui.spacing_mut().item_spacing = vec2(8.0, 6.0) * size;
    ui.horizontal(|ui| {
        ui.label(sized(&presenting.clock(), 30.0).family(standpoint_ui::theme::fonts::strong()));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.label(sized(&running(presenting.seconds()), 20.0).color(*theme.ui.soft));
        });
    });
    ui.label(sized(&state(show, presenting), 17.0).color(*theme.ui.soft));
    ui.label(sized(&tr!("Next: {}", words::next(show, session)), 20.0));
    ui.separator();
    ScrollArea::vertical().auto_shrink([false, true]).show(ui, |ui| {
        let Some(page) = session.page() else { return };
        ui.label(sized(&page.title, 22.0).family(standpoint_ui::theme::fonts::strong()));
        let notes = without_tags(&page.notes);
        if !notes.is_empty() {
            ui.label(sized(&notes, 20.0));
        }
        for cue in &page.cues {
            ui.label(sized(&format!("•  {cue}"), 20.0));
        }
        if notes.is_empty() && page.cues.is_empty() {
            ui.label(sized(text("No notes on this page"), 18.0).color(*theme.ui.soft));
        }
        let (first, second) = words::describe(show, session);
        ui.separator();
        ui.label(sized(text("On the screen"), 15.0).color(*theme.ui.soft));
        ui.label(sized(&first, 18.0));
        ui.label(sized(&second, 16.0).color(*theme.ui.soft));
    });
}

/// The notes without the lines of tags that the library finds boards by.
fn without_tags(notes: &str) -> String {
    let is_tags = |line: &str| !line.trim().is_empty() && line.split_whitespace().all(|word| word.starts_with('#'));
    let lines: Vec<&str> = notes.lines().filter(|line| !is_tags(line)).collect();
    lines.join("\n").trim().to_owned()
}

/// Progress of the presentation.
fn state(show: &Show, presenting: &Presenting) -> String {
    let (step, of) = words::count(show, &presenting.session);
    let place = words::place(&presenting.session);
    let said =
        if place.is_empty() { tr!("Step {} of {}", step, of) } else { tr!("{}, step {} of {}", place, step, of) };
    if show.black { tr!("{} – the screen is black", said) } else { said }
}

/// A time that runs, in minutes and seconds.
#[must_use]
pub fn running(seconds: f64) -> String {
    let whole = seconds.max(0.0) as u64;
    format!("{}:{:02}", whole / 60, whole % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_are_not_read_out() {
        assert_eq!(without_tags("Stay low.\n#net #drill\nBall # 2"), "Stay low.\nBall # 2");
    }

    #[test]
    fn a_running_time_is_minutes_and_seconds() {
        assert_eq!(running(0.0), "0:00");
        assert_eq!(running(75.9), "1:15");
        assert_eq!(running(-1.0), "0:00");
    }
}
