//! Which shots an audit shows: by server, serve, score, wing, side, pressure, length, session and date; and how they compare.

use egui::{ComboBox, Label, RichText, TextEdit, Ui};
use standpoint_board::chart::score::ServeNumber;
use standpoint_charting::{
    audit::{FromSide, Length, Pressure, Role},
    filter::{AtStake, Lead},
    insight,
};
use standpoint_geometry::{End, Wing};
use standpoint_language::{text, tr, whole};
use standpoint_ui::theme::Theme;
use standpoint_workbench::{
    chart::{
        Act,
        filters::{Compared, Filters},
    },
    words,
};

/// The row of filters.
pub fn ui(
    ui: &mut Ui,
    filters: &Filters,
    (names, player): ([&str; 2], End),
    compared: &Compared,
    theme: &Theme,
    out: &mut Vec<Act>,
) {
    let mut now = filters.clone();
    ui.horizontal_wrapped(|ui| {
        let serving = |end: End| tr!("{} serves", names[usize::from(end == End::Far)]);
        pick(ui, text("any server"), &mut now.points.server, &[End::Near, End::Far], serving);
        let number = |number: ServeNumber| match number {
            ServeNumber::First => text("first serve").to_owned(),
            ServeNumber::Second => text("second serve").to_owned(),
        };
        pick(ui, text("any serve"), &mut now.points.serve, &[ServeNumber::First, ServeNumber::Second], number);
        pick(ui, text("any score"), &mut now.points.at_stake, &AtStake::ALL, at_stake);
        pick(ui, text("any lead"), &mut now.points.lead, &Lead::ALL, lead);
        pick(ui, text("any wing"), &mut now.shots.wing, &[Wing::Forehand, Wing::Backhand], wing);
        pick(ui, text("any side"), &mut now.shots.side, &FromSide::ALL, side);
        pick(ui, text("any pressure"), &mut now.shots.pressure, &Pressure::ALL, pressure);
        pick(ui, text("any length"), &mut now.shots.length, &Length::ALL, length);
        pick(ui, text("serving or receiving"), &mut now.shots.role, &Role::ALL, role);
        for (typed, hint, name) in [
            (&mut now.from, text("from 2026-05-03"), text("From this day")),
            (&mut now.to, text("to 2026-05-03"), text("To this day")),
        ] {
            let field =
                TextEdit::singleline(typed).align(egui::Align2::LEFT_CENTER).hint_text(hint).desired_width(112.0);
            ui.add(field).accessible_name(name);
        }
        if !filters.is_all() && ui.button(text("Show all")).clicked() {
            now = Filters::default();
        }
    });
    now.read_dates();
    if now != *filters {
        out.push(Act::Filter(Box::new(now)));
    }
    if !filters.is_all() {
        let (shown, all) = compared.shots;
        let said = tr!("{0} of {1} shots", whole(shown), whole(all));
        ui.label(RichText::new(said).small().color(*theme.ui.soft));
        lines(ui, text("Against the other shots"), &compared.rest[usize::from(player == End::Far)], theme);
    }
}

/// What differs, in sentences.
pub fn lines(ui: &mut Ui, title: &str, said: &[String], theme: &Theme) {
    let quiet = |said: &str| Label::new(RichText::new(said).small().color(*theme.ui.soft)).wrap();
    ui.add(quiet(title));
    if said.is_empty() {
        ui.add(quiet(text("Nothing differs beyond luck.")));
    }
    for line in said.iter().take(3) {
        ui.add(Label::new(line.as_str()).wrap());
    }
}

fn pick<T: PartialEq + Copy>(ui: &mut Ui, any: &str, now: &mut Option<T>, all: &[T], name: impl Fn(T) -> String) {
    let shown = now.map_or_else(|| any.to_owned(), &name);
    let combo = ComboBox::from_id_salt(any).width(118.0).truncate().selected_text(shown);
    let response = combo.show_ui(ui, |ui| {
        ui.selectable_value(now, None, any);
        for of in all {
            ui.selectable_value(now, Some(*of), name(*of));
        }
    });
    response.response.accessible_name(any);
}

fn wing(wing: Wing) -> String {
    words::wing(wing).to_owned()
}

fn side(side: FromSide) -> String {
    insight::side(side).to_owned()
}

fn pressure(pressure: Pressure) -> String {
    insight::pressure(pressure).to_owned()
}

fn length(length: Length) -> String {
    match length {
        Length::Short => text("strokes 1 to 4"),
        Length::Middle => text("strokes 5 to 8"),
        Length::Long => text("stroke 9 and later"),
    }
    .to_owned()
}

fn role(role: Role) -> String {
    if role == Role::Serving { text("serving") } else { text("receiving") }.to_owned()
}

fn at_stake(at_stake: AtStake) -> String {
    match at_stake {
        AtStake::BreakPoint => text("break points"),
        AtStake::GamePoint => text("game points"),
        AtStake::SetPoint => text("set points"),
        AtStake::MatchPoint => text("match points"),
        AtStake::Nothing => text("no game at stake"),
    }
    .to_owned()
}

fn lead(lead: Lead) -> String {
    match lead {
        Lead::Ahead => text("server ahead"),
        Lead::Level => text("level"),
        Lead::Behind => text("server behind"),
    }
    .to_owned()
}
