//! The menu bar, made from the catalogue.

use std::path::PathBuf;

use egui::{Button, MenuBar, RichText, ScrollArea, Sense, Ui, vec2};
use standpoint_language::{text, tr};

use crate::{
    commands::{
        BoardCommand, Command, Facts, HelpCommand, Menu, Spec, TeachCommand, ViewCommand, catalogue::CATALOGUE,
        key_names,
    },
    theme::{Theme, focus::Following as _, icons::Icon},
};

/// Width of a command in a menu.
const ENTRY: f32 = 320.0;

/// The most used commands, from the left.
const TOOLS: [Command; 7] = [
    Command::Help(HelpCommand::Finder),
    Command::Board(BoardCommand::Undo),
    Command::Board(BoardCommand::Redo),
    Command::View(ViewCommand::Fit),
    Command::View(ViewCommand::Turn),
    Command::Teach(TeachCommand::Present),
    Command::View(ViewCommand::Panel),
];
/// The order in which a narrow window drops them.
const LEAST_MISSED: [Command; 7] = [
    Command::View(ViewCommand::Fit),
    Command::View(ViewCommand::Turn),
    Command::Teach(TeachCommand::Present),
    Command::Help(HelpCommand::Finder),
    Command::Board(BoardCommand::Redo),
    Command::Board(BoardCommand::Undo),
    Command::View(ViewCommand::Panel),
];
/// Number of tools that take precedence over the last menus.
const ALWAYS: f32 = 4.0;

/// What was chosen in the menus.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Chosen {
    /// A command.
    Command(Command),
    /// A board opened lately.
    Recent(PathBuf),
}

/// The bar: menus on the left, tools on the right. Menus without room go into a "More" menu.
pub fn ui(ui: &mut Ui, facts: &Facts, theme: &Theme) -> Option<Chosen> {
    let mut chosen = None;
    MenuBar::new().ui(ui, |ui| {
        ui.set_min_height(theme.m.control + 4.0);
        let tool_width = theme.m.control + 4.0 + ui.spacing().item_spacing.x;
        let (menus, more) = Menu::ALL.split_at(fitting(ui, ui.available_width() - ALWAYS * tool_width));
        for menu in menus {
            ui.menu_button(menu.label(), |ui| entries(ui, *menu, facts, theme, &mut chosen));
        }
        if !more.is_empty() {
            ui.menu_button(text("More"), |ui| {
                for menu in more {
                    ui.menu_button(menu.label(), |ui| entries(ui, *menu, facts, theme, &mut chosen));
                }
            });
        }
        let there = (ui.available_width() / tool_width) as usize;
        let missed = &LEAST_MISSED[..TOOLS.len().saturating_sub(there)];
        super::ends::end(ui, "tools", |ui| {
            for command in TOOLS.into_iter().filter(|command| !missed.contains(command)) {
                if let Some(command) = tool(ui, command.spec(), command.spec().icon, facts, theme) {
                    chosen = Some(Chosen::Command(command));
                }
            }
        });
    });
    chosen
}

/// Number of menus that fit into a width, beside the "More" menu if not all fit.
fn fitting(ui: &Ui, width: f32) -> usize {
    let font = egui::TextStyle::Button.resolve(ui.style());
    let of = |title: &str| {
        let galley = ui.painter().layout_no_wrap(title.to_owned(), font.clone(), ui.visuals().text_color());
        galley.size().x + 2.0 * ui.spacing().button_padding.x + ui.spacing().item_spacing.x
    };
    let ends = Menu::ALL.iter().scan(0.0, |end, menu| {
        *end += of(menu.label());
        Some(*end)
    });
    let ends: Vec<f32> = ends.collect();
    if ends.last().is_none_or(|end| *end <= width) {
        return ends.len();
    }
    ends.iter().take_while(|end| **end + of(text("More")) <= width).count()
}

fn entries(ui: &mut Ui, menu: Menu, facts: &Facts, theme: &Theme, chosen: &mut Option<Chosen>) {
    // A long menu scrolls where the window has no room for it; no command gets out of reach.
    let room = (ui.ctx().content_rect().height() - theme.m.control - 4.0 * theme.m.space.item).max(theme.m.touch);
    let list = ScrollArea::vertical().id_salt(menu.label()).max_height(room).min_scrolled_height(room);
    list.show_following(ui, |ui| {
        lines(ui, menu, facts, theme, chosen);
    });
}

/// The commands of a menu.
fn lines(ui: &mut Ui, menu: Menu, facts: &Facts, theme: &Theme, chosen: &mut Option<Chosen>) {
    // Quit is last in its menu.
    let (out_of, others): (Vec<&Spec>, Vec<&Spec>) = CATALOGUE
        .iter()
        .filter(|spec| spec.menu == menu)
        .partition(|spec| spec.command == Command::Board(BoardCommand::Quit));
    for spec in others.into_iter().chain(out_of) {
        if spec.opens_group {
            ui.separator();
        }
        if let Some(command) = entry(ui, spec, facts, theme) {
            *chosen = Some(Chosen::Command(command));
        }
        if spec.command == Command::Board(BoardCommand::Open)
            && let Some(path) = recent(ui, &facts.settings.recent)
        {
            *chosen = Some(Chosen::Recent(path));
        }
    }
}

/// A command as a line of a menu; the command when it was chosen.
pub fn entry(ui: &mut Ui, spec: &Spec, facts: &Facts, theme: &Theme) -> Option<Command> {
    let keys = spec.shortcut.map(|s| key_names::of(ui.ctx(), &s)).unwrap_or_default();
    let label = label(spec, facts);
    let on = spec.on.is_some_and(|on| on(facts));
    let enabled = (spec.enabled)(facts);
    let response = ui.horizontal(|ui| {
        gutter(ui, spec, on, enabled, theme);
        let button = Button::selectable(on, label)
            .shortcut_text(RichText::new(keys).color(*theme.ui.soft))
            .min_size(vec2(ENTRY, theme.m.control));
        ui.add_enabled(enabled, button)
    });
    let why_not = spec.why_not(facts).unwrap_or_default();
    let clicked = response.inner.on_hover_text(spec.hint()).on_disabled_hover_text(why_not).clicked();
    if clicked {
        ui.close();
    }
    clicked.then_some(spec.command)
}

/// The space before a command's name: a tick when it is on, else its icon.
pub fn gutter(ui: &mut Ui, spec: &Spec, on: bool, enabled: bool, theme: &Theme) {
    let (rect, _) = ui.allocate_exact_size(vec2(20.0, theme.m.control), Sense::hover());
    let color = if enabled { *theme.ui.soft } else { theme.ui.soft.gamma_multiply(0.6) };
    let rect = rect.shrink2(vec2(1.0, 6.0));
    match spec.icon {
        _ if on => theme.icons.paint(ui.painter(), rect, Icon::Tick, *theme.ui.accent),
        Some(icon) => theme.icons.paint(ui.painter(), rect, icon, color),
        None => {}
    }
}

/// The current label of a command: undo and redo name their step.
#[must_use]
pub fn label(spec: &Spec, facts: &Facts) -> String {
    match (spec.command, facts.undo, facts.redo) {
        (Command::Board(BoardCommand::Undo), Some(what), _) => tr!("Undo: {}", text(what)),
        (Command::Board(BoardCommand::Redo), _, Some(what)) => tr!("Redo: {}", text(what)),
        _ => spec.label().to_owned(),
    }
}

fn recent(ui: &mut Ui, paths: &[PathBuf]) -> Option<PathBuf> {
    let mut chosen = None;
    ui.add_enabled_ui(!paths.is_empty(), |ui| {
        ui.menu_button(text("Open recent"), |ui| {
            for path in paths {
                let name = path.file_name().map_or_else(|| path.to_string_lossy(), |n| n.to_string_lossy());
                if ui.button(name).on_hover_text(path.to_string_lossy()).clicked() {
                    chosen = Some(path.clone());
                    ui.close();
                }
            }
        });
    });
    chosen
}

/// Tooltip of a button: label, keys and hint.
pub fn tip(ctx: &egui::Context, label: &str, spec: &Spec) -> String {
    let keys = spec.shortcut.map(|s| format!("  ({})", key_names::of(ctx, &s))).unwrap_or_default();
    format!("{label}{keys}\n{}", spec.hint())
}

/// A command as a button with an icon; the command when it was pressed.
pub fn tool(ui: &mut Ui, spec: &Spec, icon: Option<Icon>, facts: &Facts, theme: &Theme) -> Option<Command> {
    let enabled = (spec.enabled)(facts);
    let on = spec.on.is_some_and(|on| on(facts));
    let size = vec2(theme.m.control + 4.0, theme.m.control);
    let response = ui.add_enabled_ui(enabled, |ui| ui.allocate_response(size, Sense::click())).inner;
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, enabled, spec.label()));
    let visuals = ui.style().interact_selectable(&response, on);
    if on || response.hovered() || response.has_focus() {
        ui.painter().rect(
            response.rect,
            visuals.corner_radius,
            visuals.weak_bg_fill,
            visuals.bg_stroke,
            egui::StrokeKind::Inside,
        );
    }
    let color = if enabled { *theme.ui.ink } else { theme.ui.soft.gamma_multiply(0.6) };
    theme.icons.paint(ui.painter(), response.rect.shrink(6.0), icon.unwrap_or(Icon::Layers), color);
    let clicked = response.clicked();
    let tip = tip(ui.ctx(), &label(spec, facts), spec);
    let why_not = format!("{tip}\n{}", spec.why_not(facts).unwrap_or_default());
    response.on_hover_text(tip).on_disabled_hover_text(why_not);
    clicked.then_some(spec.command)
}
