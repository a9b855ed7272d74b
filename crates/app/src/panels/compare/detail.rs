//! A shot's own quality: its chances and its room to miss.

use egui::{Frame, Margin, Ui};
use standpoint_geometry::{Quality, Shot, Weighed};
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Outbox},
    widgets::row,
};
use standpoint_workbench::{
    compare::state::{Change, Item},
    edit::{Edit, Gesture},
    session::Session,
    words,
};

use super::CompareView;

/// The details of a shot of the list.
pub fn ui(ui: &mut Ui, item: Item, weighed: &Weighed, view: CompareView<'_>, out: &mut Outbox) {
    let theme = view.theme;
    let margin = Margin { left: theme.m.space.section as i8, bottom: theme.m.space.item as i8, ..Margin::ZERO };
    Frame::new().inner_margin(margin).show(ui, |ui| {
        match &weighed.result {
            Ok((quality, _)) => {
                for (label, value) in lines(&weighed.shot, quality, view.session) {
                    row::figure(ui, theme, label, &value);
                }
            }
            Err(refusal) => {
                let (what, remedy) = words::refusal(refusal, view.session.units());
                row::note(ui, theme, &tr!("Cannot be played: {0}. {1}.", what, remedy));
            }
        }
        ui.horizontal(|ui| {
            if ui.button(text("Use this shot")).on_hover_text(text("The shot on the board becomes this one")).clicked()
            {
                use_shot(weighed.shot, out);
            }
            if let Item::Target(number) = item
                && ui.button(text("Take the target away")).clicked()
            {
                out.push(Action::Compare(Change::RemoveTarget(number)));
            }
        });
    });
}

/// Makes a shot the one on the board, as one step.
pub fn use_shot(shot: Shot, out: &mut Outbox) {
    out.push(Action::Gesture(Gesture::Seal));
    out.push(Action::Edit(Edit::Shot(shot)));
    out.push(Action::Gesture(Gesture::Seal));
}

fn lines(shot: &Shot, quality: &Quality, session: &Session) -> Vec<(&'static str, String)> {
    let units = session.units();
    let chance = &quality.chance;
    let degrees = |radians: f64| format!("{}°", words::decimal(radians.to_degrees(), 1));
    let lines = if shot.stroke == standpoint_geometry::Stroke::Serve {
        (text("Before the service line"), text("From the side of the box"))
    } else {
        (text("Before the baseline"), text("Inside the sideline"))
    };
    vec![
        (text("Stroke"), format!("{}, {}", words::stroke(shot.stroke), words::speed(shot.speed, units))),
        (text("Make rate"), words::percent(chance.good)),
        (
            text("Net, long, wide"),
            format!("{}, {}, {}", words::percent(chance.net), words::percent(chance.long), words::percent(chance.wide)),
        ),
        (lines.0, words::length(quality.to_back_line, units)),
        (lines.1, words::length(quality.to_side_line, units)),
        (text("Room up and down"), degrees(quality.vertical_window())),
        (text("Room left and right"), degrees(quality.lateral_window())),
        (text("Court along the shot"), words::length(quality.length_available, units)),
        (text("To the bounce"), words::seconds(quality.time_to_landing)),
    ]
}
