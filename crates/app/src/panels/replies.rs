//! The opponent's two best replies in a table.

use egui::{Align, Grid, Layout, RichText, Ui};
use standpoint_board::Units;
use standpoint_geometry::Reply;
use standpoint_language::text;
use standpoint_ui::{
    theme::{Theme, style},
    widgets::row,
};
use standpoint_workbench::{replying, session::TIE, words};

/// The section. The columns keep their width, so that figures keep their place.
pub fn ui(ui: &mut Ui, best: &[&Reply], units: Units, theme: &Theme) {
    let widths = columns(ui.available_width());
    Grid::new("replies").num_columns(4).min_row_height(24.0).spacing([0.0, 2.0]).show(ui, |ui| {
        for (head, width) in ["", text("make rate"), text("to spare"), text("wins")].into_iter().zip(widths) {
            cell(ui, width, RichText::new(head).small().color(*theme.ui.soft), !head.is_empty());
        }
        ui.end_row();
        for i in 0..2 {
            match best.get(i) {
                Some(reply) => {
                    reply_row(ui, i, reply, widths);
                    ui.end_row();
                    struck(ui, &how_struck(reply, units), widths[0], theme);
                    ui.end_row();
                    struck(ui, &replying::describe(reply), widths[0], theme);
                }
                None => {
                    cell(ui, widths[0], RichText::new(row::NOTHING), false);
                    // As many lines as a reply has.
                    for _ in 0..2 {
                        ui.end_row();
                        struck(ui, "", widths[0], theme);
                    }
                }
            }
            ui.end_row();
        }
    });
    let said = match best {
        [one, two] if (one.exposure - two.exposure).abs() < TIE => {
            text("Both win as much: a step to either side gives one of them more.")
        }
        [_, ..] => text("The first is the more dangerous."),
        [] => row::NOTHING,
    };
    row::note(ui, theme, said);
}

fn columns(width: f32) -> [f32; 4] {
    // As wide as the longest heads in either language.
    let (rate, figures) = (82.0, 60.0);
    [(width - rate - 2.0 * figures).max(100.0), rate, figures, figures]
}

fn reply_row(ui: &mut Ui, i: usize, reply: &Reply, widths: [f32; 4]) {
    let strong = |text: String| RichText::new(text).text_style(style::emphasis());
    cell(ui, widths[0], strong(format!("{}  {}", i + 1, words::reply(reply.name))), false);
    cell(ui, widths[1], RichText::new(words::percent(reply.chance_in)), true);
    cell(ui, widths[2], RichText::new(words::seconds(reply.time_to_spare)), true);
    cell(ui, widths[3], RichText::new(words::points(reply.exposure)), true);
}

/// With what it is struck, and how fast.
fn how_struck(reply: &Reply, units: Units) -> String {
    format!("{}, {}", words::stroke(reply.stroke), words::speed(reply.speed, units))
}

/// A small line under a reply; it may run on under the empty cells beside it.
fn struck(ui: &mut Ui, said: &str, width: f32, theme: &Theme) {
    let galley = egui::WidgetText::from(RichText::new(said).small()).into_galley(
        ui,
        Some(egui::TextWrapMode::Extend),
        f32::INFINITY,
        egui::TextStyle::Small,
    );
    let (rect, response) = ui.allocate_exact_size([width, galley.size().y].into(), egui::Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, said));
    ui.painter().galley(rect.left_top() + egui::vec2(18.0, -3.0), galley, *theme.ui.soft);
}

fn cell(ui: &mut Ui, width: f32, text: RichText, right: bool) {
    let layout = if right { Layout::right_to_left(Align::Center) } else { Layout::left_to_right(Align::Center) };
    ui.allocate_ui_with_layout([width, 24.0].into(), layout, |ui| {
        ui.set_min_width(width);
        ui.add(egui::Label::new(text).truncate());
    });
}
