//! Player figures from measurements: sprints, speed-gun readings, a target test, and habits from a chart.

mod court;
mod habits;

use egui::{CentralPanel, Frame, Label, Margin, Panel, RichText, ScrollArea, TextEdit, Ui};
use standpoint_board::{
    PlayerCard, Units,
    chart::{Chart, Setup, check},
};
use standpoint_charting::report::ReportModel;
use standpoint_geometry::{End, Wing, units::FOOT};
use standpoint_language::{text, text_in, tr};
use standpoint_ui::{
    theme::{Theme, focus::Following as _, style},
    widgets::{row, tabs},
};
use standpoint_workbench::{
    chart::{
        Act, RosterAct,
        measure::{
            fits::{self, Fitted},
            forms,
        },
    },
    words,
};

/// Input of the page.
pub struct MeasureView<'a> {
    /// Players and conditions.
    pub setup: &'a Setup,
    /// Report of an audit, for the habits.
    pub report: Option<&'a ReportModel>,
    /// Units.
    pub units: Units,
    /// How it looks.
    pub theme: &'a Theme,
}

/// What is being measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Test {
    #[default]
    Sprints,
    Speeds,
    Target,
    Habits,
}

/// The measurements as they are entered.
#[derive(Debug, Clone, Default)]
pub struct FitView {
    player: End,
    test: Test,
    wing: Wing,
    sprints: String,
    /// Whether its distances are feet, once somebody has chosen.
    sprint_feet: Option<bool>,
    run_up: String,
    speeds: String,
    /// The target test, on the court.
    target: court::Range,
    /// The fit and its measurements.
    found: Option<(fits::Question, Fitted)>,
}

/// Width of the forms that the table of patterns can be read in, points.
const TABLE: f32 = 560.0;

impl FitView {
    /// The page.
    pub fn show(&mut self, ui: &mut Ui, view: &MeasureView<'_>, out: &mut Vec<Act>) {
        let edge = view.theme.m.space.edge as i8;
        let frame = Frame::new().fill(*view.theme.ui.panel).inner_margin(Margin::symmetric(edge, 6));
        let wide = ui.available_width() >= view.theme.m.panel.below_width;
        let panel = if wide {
            // Narrower than this the table of patterns has no room for its words.
            let whole = ui.available_width();
            let width = (whole * 0.46).max(TABLE.min(whole * 0.56));
            Panel::right("measure forms").default_size(width).resizable(true)
        } else {
            let height = ui.available_height() * 0.62;
            Panel::bottom("measure forms below").default_size(height).resizable(true)
        };
        panel.frame(frame).show(ui, |ui| {
            ScrollArea::vertical().auto_shrink([false, false]).show_following(ui, |ui| self.forms(ui, view, out));
        });
        CentralPanel::no_frame().show(ui, |ui| {
            self.target.ui(ui, view.setup, view.theme, self.test == Test::Target);
        });
    }

    fn forms(&mut self, ui: &mut Ui, view: &MeasureView<'_>, out: &mut Vec<Act>) {
        let theme = view.theme;
        let players =
            [End::Near, End::Far].map(|end| (end, view.setup.card(end).name.as_str(), text("Tests of this player")));
        if let Some(end) = tabs::row(ui, theme, self.player, &players) {
            self.player = end;
        }
        let tests = [
            (Test::Sprints, text("Sprints"), text("Timed runs to top speed and quickness")),
            (Test::Speeds, text("Speed gun"), text("Readings to the usual speed of a wing")),
            (Test::Target, text("Target test"), text("Ten balls at a target to the spread of a wing")),
            (Test::Habits, text("Shot patterns"), text("What the chart shows of this player's choices")),
        ];
        if let Some(test) = tabs::row(ui, theme, self.test, &tests) {
            self.test = test;
        }
        ui.add_space(theme.m.space.item);
        match self.test {
            Test::Habits => return habits::ui(ui, view, self.player),
            Test::Sprints => self.sprints(ui, view),
            Test::Speeds => self.speeds(ui, view),
            Test::Target => self.target(ui, view),
        }
        let question = self.question(view);
        if self.found.as_ref().is_none_or(|(asked, _)| *asked != question) {
            let found = question.answer();
            self.found = Some((question, found));
        }
        if let Some((_, found)) = &self.found {
            ui.add_space(theme.m.space.item);
            self.result(ui, found, view, out);
        }
    }

    fn card<'v>(&self, view: &MeasureView<'v>) -> &'v PlayerCard {
        view.setup.card(self.player)
    }

    fn sprints(&mut self, ui: &mut Ui, view: &MeasureView<'_>) {
        let unit = self.sprint_unit(view).1;
        ui.horizontal(|ui| {
            ui.label(text("Distances in"));
            for (feet, label) in [(false, text("metres")), (true, text("feet"))] {
                if ui.selectable_label(self.in_feet(view) == feet, label).clicked() {
                    self.sprint_feet = Some(feet);
                }
            }
        });
        let how = tr!(
            "Runs from standing, timed by gates. One a line: the distance from the first gate in {} and the time in s; two \
             distances at least, each several times.",
            unit
        );
        row::note(ui, view.theme, &how);
        let example = match view.units {
            Units::Metres => text("for example\n5 1.10\n10 1.86\n20 3.21"),
            Units::Feet => text("for example\n15 1.03\n30 1.73\n60 2.97"),
        };
        field(ui, text("Sprint times"), &mut self.sprints, example);
        row::row(ui, view.theme, text("Run-up"), |ui| {
            let hint = tr!("0.5, from the line to the first gate, {}", unit);
            ui.add(
                TextEdit::singleline(&mut self.run_up)
                    .align(egui::Align2::LEFT_CENTER)
                    .hint_text(hint)
                    .desired_width(f32::INFINITY),
            )
        });
    }

    /// Whether distances of sprints are feet: as chosen, else as the board has it.
    fn in_feet(&self, view: &MeasureView<'_>) -> bool {
        self.sprint_feet.unwrap_or(view.units == Units::Feet)
    }

    /// Metres in the unit of sprint distances, and its name: nobody measures a run in inches.
    fn sprint_unit(&self, view: &MeasureView<'_>) -> (f64, &'static str) {
        if self.in_feet(view) { (FOOT, text_in("feet", "ft")) } else { (1.0, "m") }
    }

    fn speeds(&mut self, ui: &mut Ui, view: &MeasureView<'_>) {
        self.wings(ui, view);
        let (_, unit) = words::speed_unit(view.units);
        let how = tr!(
            "Readings in {}, off the racket, with blanks between them; three at least. A gun beside the line of the ball \
             reads too little.",
            unit
        );
        row::note(ui, view.theme, &how);
        field(ui, text("Readings"), &mut self.speeds, text("for example 96 101 98 94 103"));
    }

    fn target(&mut self, ui: &mut Ui, view: &MeasureView<'_>) {
        self.wings(ui, view);
        let how = text(
            "Ten balls from one place at one target: click on the court where each one landed; five at least. The player \
             hits as in a rally, at their usual speed.",
        );
        row::note(ui, view.theme, how);
        self.target.controls(ui, view.units, view.theme);
    }

    fn wings(&mut self, ui: &mut Ui, view: &MeasureView<'_>) {
        let wings = [
            (Wing::Forehand, text("Forehand"), text("This wing")),
            (Wing::Backhand, text("Backhand"), text("This wing")),
        ];
        if let Some(wing) = tabs::row(ui, view.theme, self.wing, &wings) {
            self.wing = wing;
        }
        ui.add_space(view.theme.m.space.small);
    }

    fn question(&self, view: &MeasureView<'_>) -> fits::Question {
        let card = self.card(view).clone();
        match self.test {
            Test::Sprints => {
                let (unit, _) = self.sprint_unit(view);
                fits::Question::Sprints(card, forms::pairs(&self.sprints), self.run_up.trim().to_owned(), unit)
            }
            Test::Speeds => {
                let (unit, _) = words::speed_unit(view.units);
                fits::Question::Speeds(card, self.wing, forms::numbers(&self.speeds), unit)
            }
            Test::Target | Test::Habits => {
                fits::Question::Target(card, self.wing, Box::new(self.target.test(view.setup)))
            }
        }
    }

    /// The fit with its interval, and buttons to use it.
    fn result(&self, ui: &mut Ui, found: &Fitted, view: &MeasureView<'_>, out: &mut Vec<Act>) {
        let theme = view.theme;
        match found {
            Fitted::Nothing => {}
            Fitted::Problem(problem) => {
                ui.add(Label::new(RichText::new(problem).color(*theme.ui.warn)).wrap());
            }
            Fitted::Found(fit) => {
                ui.label(RichText::new(text("Found")).text_style(style::title()));
                for (label, value) in fit.lines(view.units) {
                    row::figure(ui, theme, &label, &value);
                }
                for note in &fit.notes(view.units) {
                    row::note(ui, theme, note);
                }
                ui.add_space(theme.m.space.item);
                let mut card = self.card(view).clone();
                fit.apply(&mut card);
                if let Some(problem) = refused(view.setup, self.player, &card) {
                    ui.add(Label::new(RichText::new(problem).color(*theme.ui.warn)).wrap());
                    return;
                }
                ui.horizontal_wrapped(|ui| {
                    let name = &card.name;
                    let button = egui::Button::new(tr!("Use for {} in the chart", name)).fill(*theme.ui.chosen);
                    if ui.add(button).clicked() {
                        out.push(Act::UseInChart(self.player, Box::new(card.clone())));
                    }
                    let keep = text("Keep in the roster");
                    if ui
                        .button(keep)
                        .on_hover_text(text("The player with these figures, and when they were found"))
                        .clicked()
                    {
                        let lines = fit.lines(view.units);
                        let said: Vec<String> = lines.iter().map(|(label, value)| format!("{label} {value}")).collect();
                        let act = RosterAct::KeepMeasured(Box::new(card.clone()), said.join("; "));
                        out.push(Act::Roster(act));
                    }
                    if ui
                        .button(text("Use on the board"))
                        .on_hover_text(text("For the player at the same end of the board"))
                        .clicked()
                    {
                        out.push(Act::UseOnBoard(self.player, Box::new(fit.clone())));
                    }
                });
            }
        }
    }
}

/// Why these figures do not fit into a card.
fn refused(setup: &Setup, end: End, card: &PlayerCard) -> Option<String> {
    let mut setup = setup.clone();
    match end {
        End::Near => setup.near = card.clone(),
        End::Far => setup.far = card.clone(),
    }
    let problems = check::check(&Chart::new(setup));
    problems
        .first()
        .map(|problem| tr!("The model cannot compute with that: {}. {}", problem.kind, problem.kind.remedy()))
}

fn field(ui: &mut Ui, name: &str, text: &mut String, hint: &str) {
    let field = TextEdit::multiline(text).desired_rows(5).desired_width(f32::INFINITY).hint_text(hint);
    ui.add(field).accessible_name(name);
}
