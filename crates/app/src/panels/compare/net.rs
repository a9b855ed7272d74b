//! Approach and net: what is covered from there and what is left open.

use egui::{Label, RichText, Ui};
use standpoint_geometry::{NetPosition, ReplyName};
use standpoint_language::{mark, text, tr};
use standpoint_ui::{
    commands::{Action, Command, CompareCommand, Outbox},
    theme::style,
    widgets::row,
};
use standpoint_workbench::{
    compare::{self, Comparison, task::AtNet, words as said},
    compare_words,
    session::Session,
    words::{self, SHORT},
};

use super::{CompareView, bits};

/// Result of the approach, for the headline.
#[must_use]
pub fn sentence(session: &Session, comparison: &Comparison) -> (String, String) {
    let Some(found) = comparison.scheduler().at_net() else {
        return (text("Looking at the net …").to_owned(), String::new());
    };
    let at_net = match found {
        Ok(at_net) => at_net,
        Err(refusal) => return words::refusal(refusal, session.units()),
    };
    let units = session.units();
    let first = match (&at_net.position, at_net.shot.win()) {
        (Some(_), Some(win)) if short(at_net) > SHORT => tr!(
            "As an approach it wins {0} in 100: you do not get to the net position by {1}",
            words::points(win),
            words::length(short(at_net), units)
        ),
        (Some(position), Some(win)) => tr!(
            "As an approach it wins {0} in 100, from {1}",
            words::points(win),
            words::place(position.place, session.hitter_end(), &session.court(), units)
        ),
        (None, Some(_)) => text("Nothing comes back from this approach").to_owned(),
        _ => text("This shot is no approach").to_owned(),
    };
    let second = at_net.position.as_ref().map(|p| said::lob(p, &session.court(), units)).unwrap_or_default();
    (first, second)
}

/// How far the hitter is from the net position when the opponent strikes, m.
fn short(at_net: &AtNet) -> f64 {
    let answer = at_net.shot.result.as_ref().ok().map(|(_, answer)| answer);
    answer.and_then(|answer| answer.play()).map_or(0.0, |play| play.recovery.short_by)
}

/// The part of the panel.
pub fn ui(ui: &mut Ui, view: CompareView<'_>, out: &mut Outbox) {
    row::section(ui, view.theme, mark("At the net"), true, |ui| {
        let mut approach = compare::is_approach(view.session);
        if ui.checkbox(&mut approach, text("This shot is an approach")).changed() {
            out.push(Action::Run(Command::Compare(CompareCommand::Approach)));
        }
        let mut rings = view.layers.net;
        if ui.checkbox(&mut rings, text("Show the reach on the court")).changed() {
            out.push(Action::Run(Command::Compare(CompareCommand::ShowNet)));
        }
        match view.comparison.scheduler().at_net() {
            Some(Ok(at_net)) => figures(ui, at_net, view),
            Some(Err(refusal)) => {
                let (what, remedy) = words::refusal(refusal, view.session.units());
                row::note(ui, view.theme, &tr!("It cannot be played: {0}. {1}.", what, remedy));
            }
            None => super::working(ui, view.theme),
        }
    });
    if let Some(Ok(at_net)) = view.comparison.scheduler().at_net() {
        row::section(ui, view.theme, mark("Which approach"), true, |ui| approaches(ui, at_net, view));
    }
}

fn figures(ui: &mut Ui, at_net: &AtNet, view: CompareView<'_>) {
    let units = view.session.units();
    let theme = view.theme;
    let of = |figure: &dyn Fn(&NetPosition) -> String| {
        at_net.position.as_ref().map_or_else(|| row::NOTHING.to_owned(), figure)
    };
    let open = |lost: f64| if lost > 0.0 { words::points(lost) } else { text("closed").to_owned() };
    let spot = at_net.shot.result.as_ref().ok().and_then(|(_, answer)| Some(answer.play()?.spot.place.y.abs()));
    let spot = spot.map_or_else(|| row::NOTHING.to_owned(), |from_net| words::length(from_net, units));
    row::figure(ui, theme, text("The spot, from the net"), &spot);
    row::figure(ui, theme, text("You get to, from the net"), &of(&|p| words::length(p.place.y.abs(), units)));
    row::figure(ui, theme, text("Does not get to the spot by"), &words::length(short(at_net), units));
    row::figure(ui, theme, text("Lost to the pass down the line"), &of(&|p| open(p.line)));
    row::figure(ui, theme, text("Lost to the cross-court pass"), &of(&|p| open(p.across)));
    row::figure(ui, theme, text("Lost to the lob"), &of(&|p| open(p.lob)));
    row::figure(ui, theme, text("What hurts most"), &of(&|p| words::reply(p.worst).to_owned()));
    row::figure(ui, theme, text("They meet it with"), &said::wing(at_net).unwrap_or_else(|| row::NOTHING.to_owned()));
    if let Some(position) = &at_net.position {
        let close = position.worst == ReplyName::Lob && position.too_close;
        let color = if close { *theme.ui.warn } else { *theme.ui.ink };
        ui.add(Label::new(RichText::new(said::lob(position, &view.session.court(), units)).color(color)).wrap());
    }
    row::note(ui, theme, text("Rings: solid without a step, dashed after one, dotted after two."));
}

fn approaches(ui: &mut Ui, at_net: &AtNet, view: CompareView<'_>) {
    let range = bits::range(at_net.approaches.iter().filter_map(|w| w.win()));
    let best = at_net.approaches.iter().filter_map(|w| w.win()).fold(0.0, f64::max);
    for weighed in &at_net.approaches {
        let label = compare_words::choice_label(weighed.choice);
        ui.horizontal(|ui| {
            let name = RichText::new(label).text_style(style::emphasis());
            let layout = egui::Layout::left_to_right(egui::Align::Center);
            ui.allocate_ui_with_layout([116.0, bits::LINE].into(), layout, |ui| {
                ui.set_min_width(116.0);
                ui.add(Label::new(name).truncate());
            });
            match weighed.win() {
                Some(win) => {
                    let dot = bits::Dot { win, range, strong: win >= best };
                    let width = ui.available_width();
                    bits::dot(ui, width, dot, &tr!("Approach {}", label), view.theme);
                }
                None => {
                    let why = weighed.result.as_ref().err().map(|e| words::refusal(e, view.session.units()).0);
                    ui.label(RichText::new(why.unwrap_or_default()).small().color(*view.theme.ui.warn));
                }
            }
        });
    }
    if let Some(sentence) = said::approaches(at_net, view.session.units()) {
        ui.add(Label::new(sentence).wrap());
    }
}
