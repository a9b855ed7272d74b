//! The shot: hitter, stroke, speed, spin and contact height.

use egui::{Response, Ui};
use standpoint_board::Units;
use standpoint_geometry::{End, ReadyArea, Stroke, units::RPM};
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, BoardCommand, Command, Outbox},
    theme::Theme,
    widgets::row::{self, Quantity},
};
use standpoint_workbench::{edit::Edit, session::Session, words};

use super::edited;

/// The section.
pub fn ui(ui: &mut Ui, session: &Session, theme: &Theme, out: &mut Outbox) {
    let Some(spec) = session.shot() else { return };
    let units = session.units();
    row::row(ui, theme, text("Hitter"), |ui| hitter(ui, session, out));
    row::row(ui, theme, text("Stroke"), |ui| {
        let name = |s: Stroke| words::stroke(s).to_owned();
        edited(row::choice(ui, "stroke", spec.shot.stroke, &Stroke::ALL, name), out, Edit::Stroke)
    });
    row::row(ui, theme, text("Speed"), |ui| {
        edited(row::slider(ui, speed(spec.shot.speed, units)), out, set_speed(units))
    });
    let spin = if spec.shot.topspin < 0.0 { text("Backspin") } else { text("Topspin") };
    row::row(ui, theme, spin, |ui| {
        let q = Quantity {
            value: spec.shot.topspin / RPM,
            range: -4000.0..=5000.0,
            step: 50.0,
            unit: text("rpm"),
            figures: 0,
        };
        edited(row::two_way_slider(ui, q), out, |rpm| Edit::Topspin(rpm * RPM))
    })
    .on_hover_text(text("Left of the middle it is backspin, right of it topspin"));
    side_spin(ui, spec.shot.sidespin, theme, out);
    row::row(ui, theme, text("Contact height"), |ui| {
        let (unit, name, figures) = words::length_unit(units);
        let step = if units == Units::Metres { 0.05 } else { 1.0 };
        let range = (0.1 / unit)..=(3.2 / unit);
        let q = Quantity { value: spec.shot.contact.z / unit, range, step, unit: name, figures };
        edited(row::slider(ui, q), out, move |v| Edit::ContactHeight(v * unit))
    });
    row::row(ui, theme, text("Recover to"), |ui| {
        let all = [ReadyArea::Anywhere, ReadyArea::Back, ReadyArea::Net];
        let now = session.board().ready_area(spec);
        edited(row::choice(ui, "recover in", now, &all, ready), out, |area| Edit::RecoverIn(Some(area)))
    });
    let goes_in = session.answer().map_or_else(|| row::NOTHING.to_owned(), |a| words::percent(a.shot.chance_in));
    row::figure_of(ui, theme, standpoint_workbench::explain::ExplainStep::GoesIn, text("Make rate"), &goes_in);
}

/// Side spin: the slider goes the way that the ball curves.
fn side_spin(ui: &mut Ui, sidespin: f64, theme: &Theme, out: &mut Outbox) {
    let label = match (sidespin / RPM).round() {
        rpm if rpm > 0.0 => text("Curves left"),
        rpm if rpm < 0.0 => text("Curves right"),
        _ => text("Side spin"),
    };
    row::row(ui, theme, label, |ui| {
        let range = -3000.0..=3000.0;
        let q = Quantity { value: -sidespin / RPM, range, step: 50.0, unit: text("rpm"), figures: 0 };
        edited(row::two_way_slider(ui, q), out, |rpm| Edit::Sidespin(-rpm * RPM))
    })
    .on_hover_text(text(
        "Side spin: left of the middle the ball curves to the hitter's left, right of it to the right",
    ));
}

/// A part of the court to recover to.
fn ready(area: ReadyArea) -> String {
    match area {
        ReadyArea::Anywhere => text("anywhere"),
        ReadyArea::Back => text("behind the service line"),
        ReadyArea::Net => text("the net"),
    }
    .to_owned()
}

fn speed(value: f64, units: Units) -> Quantity {
    let (unit, name) = words::speed_unit(units);
    let range = (20.0 * words::speed_unit(Units::Metres).0 / unit).round()..=(230.0 / 3.6 / unit).round();
    Quantity { value: value / unit, range, step: 1.0, unit: name, figures: 0 }
}

fn set_speed(units: Units) -> impl Fn(f64) -> Edit {
    let unit = words::speed_unit(units).0;
    move |v| Edit::Speed(v * unit)
}

/// Who hits: two buttons side by side.
fn hitter(ui: &mut Ui, session: &Session, out: &mut Outbox) -> Response {
    let hitting = session.hitter_end();
    let width = (ui.available_width() - ui.spacing().item_spacing.x) / 2.0;
    let height = ui.spacing().interact_size.y;
    ui.horizontal(|ui| {
        let mut one = |ui: &mut Ui, end: End| {
            let name = &session.board().card(end).name;
            let button =
                egui::Button::selectable(end == hitting, name.as_str()).truncate().min_size([width, height].into());
            let response = ui.add_sized([width, height], button);
            if response.clicked() && end != hitting {
                out.push(Action::Run(Command::Board(BoardCommand::SwapHitter)));
            }
            response.on_hover_text(match end {
                End::Near => text("The player at the near end hits"),
                End::Far => text("The player at the far end hits"),
            })
        };
        let near = one(ui, End::Near);
        let far = one(ui, End::Far);
        near | far
    })
    .inner
}
