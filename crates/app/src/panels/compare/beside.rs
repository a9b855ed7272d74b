//! The ticked shots side by side, and their differences in words.

use egui::{Align, Label, Layout, RichText, Ui, pos2, vec2};
use standpoint_board::Units;
use standpoint_geometry::{Answer, Court, End, Outcome, Play, Quality, Weighed};
use standpoint_language::{mark, text, tr};
use standpoint_ui::{
    commands::Outbox,
    theme::{Theme, style},
    widgets::row::{self, NOTHING},
};
use standpoint_workbench::{
    compare::{
        scheduler::Row,
        state::{CompareState, Item},
        words as said,
    },
    words,
};

use super::{CompareView, bits, detail};

/// Width of the labels before the columns.
const LABEL: f32 = 118.0;
/// Height of a line.
const LINE: f32 = 22.0;
/// Columns beside each other at most.
const COLUMNS: usize = 3;

/// The section.
pub fn ui(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    row::section(ui, view.theme, mark("Side by side"), true, |ui| {
        let all = view.comparison.beside();
        let ranked: Vec<(usize, &Row)> = all.iter().copied().enumerate().collect();
        if ranked.is_empty() {
            row::note(ui, view.theme, text("Tick the shots to see their figures beside each other."));
        }
        for block in ranked.chunks(COLUMNS) {
            columns(ui, block, view, out);
            ui.add_space(view.theme.m.space.item);
        }
        differences(ui, &all, view);
    });
}

fn columns(ui: &mut Ui, block: &[(usize, &Row)], view: CompareView<'_>, out: &mut Outbox) {
    let width = (ui.available_width() - LABEL) / block.len().max(2) as f32;
    let spacing = std::mem::take(&mut ui.spacing_mut().item_spacing.y);
    heads(ui, block, width, view.theme);
    let facts = Facts { court: view.session.court(), end: view.session.hitter_end(), units: view.session.units() };
    let bests: Vec<Option<f64>> = block.iter().map(|(_, row)| row.win()).collect();
    let best = bests.iter().flatten().copied().fold(0.0, f64::max);
    for (label, of) in FIGURES {
        line(ui, text(label), width, view.theme, block.iter().map(|(_, row)| (value(row, *of, &facts), false)));
    }
    let wins = block.iter().map(|(_, row)| {
        let win = row.win();
        (win.map_or_else(|| NOTHING.to_owned(), words::points), win.is_some_and(|win| win >= best))
    });
    line(ui, text("Wins in 100"), width, view.theme, wins);
    ui.spacing_mut().item_spacing.y = spacing;
    uses(ui, block, width, out);
}

fn heads(ui: &mut Ui, block: &[(usize, &Row)], width: f32, theme: &Theme) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        ui.allocate_exact_size(vec2(LABEL, 40.0), egui::Sense::hover());
        for (rank, row) in block {
            let (rect, _) = ui.allocate_exact_size(vec2(width, 40.0), egui::Sense::hover());
            bits::letter(ui, pos2(rect.right() - 10.0, rect.top() + 10.0), *rank, theme);
            let name = RichText::new(said::label(row.item)).small().color(*theme.ui.soft);
            let place = egui::Rect::from_min_max(pos2(rect.left() + 4.0, rect.top() + 21.0), rect.max);
            let builder = egui::UiBuilder::new().max_rect(place).layout(Layout::right_to_left(Align::Min));
            ui.scope_builder(builder, |ui| ui.add(Label::new(name).truncate()));
        }
    });
}

fn line(ui: &mut Ui, label: &str, width: f32, theme: &Theme, values: impl Iterator<Item = (String, bool)>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        cell(ui, LABEL, RichText::new(label).color(*theme.ui.soft), Layout::left_to_right(Align::Center));
        for (value, strong) in values {
            let plain = RichText::new(value);
            let said = if strong { plain.text_style(style::emphasis()).color(*theme.ui.accent) } else { plain };
            cell(ui, width, said, Layout::right_to_left(Align::Center));
        }
    });
}

fn cell(ui: &mut Ui, width: f32, text: RichText, layout: Layout) {
    ui.allocate_ui_with_layout(vec2(width, LINE), layout, |ui| {
        ui.set_min_size(vec2(width, LINE));
        ui.add(Label::new(text).truncate());
    });
}

fn uses(ui: &mut Ui, block: &[(usize, &Row)], width: f32, out: &mut Outbox) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        ui.allocate_exact_size(vec2(LABEL, 30.0), egui::Sense::hover());
        for (rank, row) in block {
            let layout = Layout::right_to_left(Align::Center);
            ui.allocate_ui_with_layout(vec2(width, 30.0), layout, |ui| {
                ui.set_min_width(width);
                let weighed = row.weighed().filter(|weighed| weighed.result.is_ok());
                let label = tr!("Use {}", CompareState::letter(*rank));
                let drawn = row.item == Item::Usual(standpoint_geometry::Choice::AsDrawn);
                let button = ui.add_enabled(weighed.is_some() && !drawn, egui::Button::new(label));
                let hint = tr!("The shot on the board becomes this one: {}", said::name(row.item));
                if button.on_hover_text(hint).clicked()
                    && let Some(weighed) = weighed
                {
                    detail::use_shot(weighed.shot, out);
                }
            });
        }
    });
}

/// The others against the first one that can be played.
fn differences(ui: &mut Ui, all: &[&Row], view: CompareView<'_>) {
    let playable: Vec<(Item, &Weighed)> =
        all.iter().filter_map(|row| Some((row.item, row.weighed().filter(|w| w.result.is_ok())?))).collect();
    let Some((first, others)) = playable.split_first() else { return };
    for other in others {
        if let Some(sentence) = said::against(*first, *other, view.session.units()) {
            ui.add(Label::new(sentence).wrap());
        }
    }
}

struct Facts {
    court: Court,
    end: End,
    units: Units,
}

type Figure = fn(&Shown<'_>, &Facts) -> String;

/// A shot that can be played.
struct Shown<'a> {
    weighed: &'a Weighed,
    quality: &'a Quality,
    answer: &'a Answer,
}

fn value(row: &Row, of: Figure, facts: &Facts) -> String {
    let shown = row.weighed().and_then(|weighed| {
        let (quality, answer) = weighed.result.as_ref().ok()?;
        Some(Shown { weighed, quality, answer })
    });
    shown.map_or_else(|| NOTHING.to_owned(), |shown| of(&shown, facts))
}

/// A figure of what follows when the opponent meets the ball.
fn of_play(shown: &Shown<'_>, figure: impl Fn(&Play) -> String) -> String {
    shown.answer.play().map_or_else(|| NOTHING.to_owned(), figure)
}

const FIGURES: &[(&str, Figure)] = &[
    (mark("Speed"), |s, f| words::speed(s.weighed.shot.speed, f.units)),
    (mark("Make rate"), |s, _| words::percent(s.quality.chance.good)),
    (mark("Over the net"), |s, f| words::fine_length(s.quality.clearance, f.units)),
    (mark("Net height"), |s, f| words::fine_length(s.quality.net_height, f.units)),
    (mark("To their contact"), |s, _| match &s.answer.outcome {
        Outcome::Play(play) => words::seconds(play.receipt.time),
        Outcome::NoReply(receipt) => words::seconds(receipt.time),
        Outcome::Winner { .. } => text("winner").to_owned(),
    }),
    (mark("Their wing"), |s, _| of_play(s, |p| words::wing(p.receipt.wing).to_owned())),
    (mark("Opponent's spare time"), |s, _| of_play(s, |p| words::seconds(p.receipt.time_to_spare))),
    (mark("Opponent's angle"), |s, _| of_play(s, |p| format!("{}°", words::decimal(p.wedge.width().to_degrees(), 0)))),
    (mark("Spot, left-right"), |s, f| of_play(s, |p| across(p, f))),
    (mark("Spot, depth"), |s, f| of_play(s, |p| deep(p, f))),
    (mark("Recovery"), |s, f| of_play(s, |p| words::length(p.recovery.distance, f.units))),
    (mark("Needs"), |s, _| of_play(s, |p| words::seconds(p.recovery.needed))),
    (mark("Has"), |s, _| of_play(s, |p| words::seconds(p.recovery.available))),
    (mark("Opponent wins after it"), |s, _| of_play(s, |p| words::points(p.recovery.reached.exposure))),
];

fn across(play: &Play, facts: &Facts) -> String {
    let x = facts.end.turn2(play.spot.place).x;
    let aside = words::length(x.abs(), facts.units);
    if x >= 0.0 { tr!("{} right", aside) } else { tr!("{} left", aside) }
}

fn deep(play: &Play, facts: &Facts) -> String {
    let behind = -facts.end.turn2(play.spot.place).y - facts.court.half_length();
    let by = words::length(behind.abs(), facts.units);
    if behind >= 0.0 { tr!("{} behind", by) } else { tr!("{} inside", by) }
}
