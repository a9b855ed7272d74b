//! The bar with the drawing tools and inks, beside the court.

use egui::{Align2, Frame, Panel, Popup, Rect, RectAlign, ScrollArea, Sense, TextStyle, Ui, Vec2, vec2};
use standpoint_board::marks::Ink;
use standpoint_canvas::inks;
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Command, DrawCommand, Facts, Outbox},
    theme::{Theme, focus::Following as _, fonts, icons::Icon, tokens::Measures},
    widgets::menu,
};
use standpoint_workbench::sketch::tape;

/// The tools in groups.
const GROUPS: [&[Command]; 4] = [
    &[Command::Draw(DrawCommand::ToolHand), Command::Draw(DrawCommand::ToolSelect)],
    &[
        Command::Draw(DrawCommand::ToolBallWay),
        Command::Draw(DrawCommand::ToolPlayerWay),
        Command::Draw(DrawCommand::ToolPen),
        Command::Draw(DrawCommand::ToolWords),
    ],
    &[
        Command::Draw(DrawCommand::ToolCone),
        Command::Draw(DrawCommand::ToolBasket),
        Command::Draw(DrawCommand::ToolPerson),
    ],
    &[
        Command::Draw(DrawCommand::ToolZone),
        Command::Draw(DrawCommand::ToolOval),
        Command::Draw(DrawCommand::ToolEraser),
    ],
];
/// Inks and layers, which open a list.
const LISTS: usize = 2;
/// Width of these lists, points.
const LIST: f32 = 250.0;
/// Room for a name beside the width that a finger needs, points.
const NAME: f32 = 24.0;
/// The smallest type of a name, points.
const LEAST_NAME: f32 = 9.0;
/// The lowest that a tool gets in one column, points.
const LOWEST: f32 = 40.0;
/// Height of the line with a name, points.
const NAME_LINE: f32 = 14.0;

/// How many columns the bar needs to fit into a height.
fn columns(height: f32, m: &Measures) -> usize {
    if tools() as f32 * LOWEST + gaps(m) <= height { 1 } else { 2 }
}

/// Height of a tool: as a finger needs it, or a little less where that brings all of them into sight.
fn row_height(height: f32, columns: usize, m: &Measures) -> f32 {
    let (rows, gaps) = if columns > 1 { (tools().div_ceil(columns), 0.0) } else { (tools(), gaps(m)) };
    ((height - gaps) / rows as f32).floor().clamp(LOWEST, m.touch)
}

fn tools() -> usize {
    GROUPS.iter().map(|group| group.len()).sum::<usize>() + LISTS
}

/// Room between the groups in one column.
fn gaps(m: &Measures) -> f32 {
    GROUPS.len() as f32 * m.space.item / 2.0
}

/// Width of the bar in a room of a height.
#[must_use]
pub fn width(height: f32, m: &Measures) -> f32 {
    columns(height, m) as f32 * (m.touch + NAME)
}

/// The bar as a panel at the left of what is left of the window.
pub fn bar(ui: &mut Ui, facts: &Facts, theme: &Theme, out: &mut Outbox) {
    let height = ui.available_height();
    let columns = columns(height, &theme.m);
    let panel = Panel::left("tools").frame(Frame::new().fill(*theme.ui.panel)).resizable(false);
    let mut theme = theme.clone();
    theme.m.touch = row_height(height, columns, &theme.m);
    let wide = width(height, &theme.m);
    panel.exact_size(wide).show(ui, |ui| self::ui(ui, facts, columns, &theme, out));
}

fn ui(ui: &mut Ui, facts: &Facts, columns: usize, theme: &Theme, out: &mut Outbox) {
    ui.spacing_mut().item_spacing = Vec2::ZERO;
    ScrollArea::vertical().scroll_bar_visibility(egui::scroll_area::ScrollBarVisibility::AlwaysHidden).show_following(
        ui,
        |ui| {
            if columns == 1 {
                for (i, group) in GROUPS.into_iter().enumerate() {
                    if i > 0 {
                        ui.add_space(theme.m.space.item / 2.0);
                    }
                    group.iter().for_each(|command| tool(ui, *command, facts, theme, out));
                }
                ui.add_space(theme.m.space.item / 2.0);
                ink_list(ui, facts, theme, out);
                layer_list(ui, facts, theme, out);
                return;
            }
            let all: Vec<Command> = GROUPS.concat();
            for pair in all.chunks(2) {
                ui.horizontal(|ui| pair.iter().for_each(|command| tool(ui, *command, facts, theme, out)));
            }
            ui.horizontal(|ui| {
                ink_list(ui, facts, theme, out);
                layer_list(ui, facts, theme, out);
            });
        },
    );
}

/// A tool: a target for a finger, framed when it is in hand.
fn tool(ui: &mut Ui, command: Command, facts: &Facts, theme: &Theme, out: &mut Outbox) {
    let spec = command.spec();
    let on = spec.on.is_some_and(|on| on(facts));
    let response = button(ui, (spec.label(), spec.label()), on, theme, |ui, rect, color| {
        theme.icons.paint(ui.painter(), rect, spec.icon.unwrap_or(Icon::Pen), color);
    });
    if response.on_hover_text(menu::tip(ui.ctx(), spec.label(), spec)).clicked() {
        out.push(Action::Run(command));
    }
}

fn button(
    ui: &mut Ui,
    (label, name): (&str, &str),
    on: bool,
    theme: &Theme,
    paint: impl FnOnce(&Ui, Rect, egui::Color32),
) -> egui::Response {
    let (rect, response) = ui.allocate_exact_size(vec2(theme.m.touch + NAME, theme.m.touch), Sense::click());
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, on, label));
    let visuals = ui.style().interact_selectable(&response, on);
    let inner = rect.shrink(3.0);
    if on || response.hovered() || response.has_focus() {
        let (radius, edge) = (visuals.corner_radius, visuals.bg_stroke);
        ui.painter().rect(inner, radius, visuals.weak_bg_fill, edge, egui::StrokeKind::Inside);
    }
    if on {
        // A bar at the edge says it without colour.
        let bar = Rect::from_min_size(inner.left_top() + vec2(0.0, 6.0), vec2(3.0, inner.height() - 12.0));
        ui.painter().rect_filled(bar, 1.5, *theme.ui.accent);
    }
    let above = inner.with_max_y(inner.bottom() - NAME_LINE);
    paint(ui, Rect::from_center_size(above.center(), Vec2::splat(above.height() - 3.0)), *theme.ui.ink);
    let small = TextStyle::Small.resolve(ui.style());
    let font = fonts::fitting(ui.painter(), name, small, inner.width() - 4.0, LEAST_NAME);
    let at = inner.center_bottom() - vec2(0.0, 1.0);
    ui.painter().text(at, Align2::CENTER_BOTTOM, name, font, *theme.ui.ink);
    response
}

/// The ink in use; it opens the list of all.
fn ink_list(ui: &mut Ui, facts: &Facts, theme: &Theme, out: &mut Outbox) {
    let label = tr!("Colour: {}", tape::ink(facts.sketch.ink));
    let response = button(ui, (&label, text("Colour")), false, theme, |ui, rect, _| {
        swatch(ui, rect, facts.sketch.ink, theme);
    });
    let response =
        response.on_hover_text(format!("{label}\n{}", text("The colour of the next mark, and of what is selected")));
    Popup::menu(&response).align(RectAlign::RIGHT_END).width(LIST).show(|ui| {
        for (ink, command) in [
            (Ink::Plain, Command::Draw(DrawCommand::InkPlain)),
            (Ink::Coached, Command::Draw(DrawCommand::InkCoached)),
            (Ink::Other, Command::Draw(DrawCommand::InkOther)),
            (Ink::Ball, Command::Draw(DrawCommand::InkBall)),
            (Ink::Warning, Command::Draw(DrawCommand::InkWarning)),
        ] {
            ui.horizontal(|ui| {
                let (rect, _) = ui.allocate_exact_size(vec2(theme.m.touch, theme.m.touch), Sense::hover());
                swatch(ui, rect.shrink(10.0), ink, theme);
                let chosen = facts.sketch.ink == ink;
                if ui.add(item(chosen, tape::ink(ink), theme)).on_hover_text(command.spec().hint()).clicked() {
                    out.push(Action::Run(command));
                }
            });
        }
    });
}

/// A line of a list, as wide as the list and as high as a finger needs.
fn item<'a>(chosen: bool, label: &'a str, theme: &Theme) -> egui::Button<'a> {
    // Something at the right keeps the label at the left.
    egui::Button::selectable(chosen, label).shortcut_text("").min_size(vec2(LIST - theme.m.touch, theme.m.touch))
}

/// An ink on the ground of the court, as it will look there.
fn swatch(ui: &Ui, rect: Rect, ink: Ink, theme: &Theme) {
    ui.painter().rect_filled(rect.expand(3.0), theme.m.radius.small, *theme.court.court);
    inks::sample(ui.painter(), &theme.court, ink, rect);
}

/// The layers of the page: which are shown.
fn layer_list(ui: &mut Ui, facts: &Facts, theme: &Theme, out: &mut Outbox) {
    let hidden = facts.sketch.hidden.len();
    let label = if hidden == 0 { text("Layers").to_owned() } else { tr!("Layers, {} hidden", hidden) };
    let response = button(ui, (&label, text("Layers")), hidden > 0, theme, |ui, rect, color| {
        theme.icons.paint(ui.painter(), rect, Icon::Layers, color);
    });
    let response = response.on_hover_text(format!("{label}\n{}", text("Show or hide what is drawn on this page")));
    let list = Popup::menu(&response).align(RectAlign::RIGHT_END).width(LIST);
    list.close_behavior(egui::PopupCloseBehavior::CloseOnClickOutside).show(|ui| {
        for command in [
            Command::Draw(DrawCommand::ShowWords),
            Command::Draw(DrawCommand::ShowSketch),
            Command::Draw(DrawCommand::ShowDrill),
        ] {
            line(ui, command, facts, theme, out);
        }
        if facts.sketch.chosen > 0 {
            ui.separator();
            ui.label(text("The selected marks, in a presentation"));
            for command in [
                Command::Draw(DrawCommand::AppearWithShot),
                Command::Draw(DrawCommand::AppearWithAngle),
                Command::Draw(DrawCommand::AppearWithReplies),
                Command::Draw(DrawCommand::AppearWithAnswer),
            ] {
                line(ui, command, facts, theme, out);
            }
        }
    });
}

/// A command that is on or off, as a line of a list.
fn line(ui: &mut Ui, command: Command, facts: &Facts, theme: &Theme, out: &mut Outbox) {
    let spec = command.spec();
    let on = spec.on.is_some_and(|on| on(facts));
    ui.horizontal(|ui| {
        ui.set_min_height(theme.m.touch);
        menu::gutter(ui, spec, on, true, theme);
        if ui.add(item(on, spec.label(), theme)).on_hover_text(spec.hint()).clicked() {
            out.push(Action::Run(command));
        }
    });
}
