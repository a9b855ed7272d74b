//! The import dialog: columns, units, and rows that could not be read.

mod bad;
mod columns;
mod sample;
mod sketch;
mod values;

use std::{path::PathBuf, sync::Arc};

use egui::{Label, RichText, Ui};
use standpoint_board::chart::Setup;
use standpoint_charting::import::{Imported, LengthUnit, Mapping, Sides, SpeedUnit};
use standpoint_language::{text, tr, whole};
use standpoint_ui::{
    commands::{Action, Outbox},
    theme::Theme,
};
use standpoint_workbench::chart::{Act, sample::Sample};

/// How far it has come.
#[derive(Debug, Clone)]
enum Stage {
    /// The sample is being read.
    Looking,
    /// It cannot be read.
    Unreadable(String),
    /// Columns are being chosen.
    Mapping(Box<Sample>),
    /// The whole file is being read.
    Reading(Box<Sample>),
    /// It has been read.
    Read(Box<Sample>, Arc<Imported>),
}

/// The dialog's state.
#[derive(Debug, Clone)]
pub struct Import {
    /// The file.
    pub path: PathBuf,
    mapping: Mapping,
    /// The players whose names may stand in the file.
    setup: Arc<Setup>,
    /// Shots that are noted already, to which those of the file may be added.
    noted: usize,
    /// Whether the mapping is one that was used before.
    remembered: bool,
    stage: Stage,
    /// Where the list of bad rows goes.
    list: String,
    /// Message.
    pub said: Option<String>,
}

impl PartialEq for Import {
    fn eq(&self, other: &Self) -> bool {
        let same = match (&self.stage, &other.stage) {
            (Stage::Looking, Stage::Looking) => true,
            (Stage::Unreadable(a), Stage::Unreadable(b)) => a == b,
            (Stage::Mapping(a), Stage::Mapping(b)) | (Stage::Reading(a), Stage::Reading(b)) => a == b,
            (Stage::Read(_, a), Stage::Read(_, b)) => Arc::ptr_eq(a, b),
            _ => false,
        };
        same && self.path == other.path && self.mapping == other.mapping && self.said == other.said
    }
}

impl Import {
    /// A dialog for a file whose sample is being read.
    #[must_use]
    pub fn new(path: PathBuf, setup: Arc<Setup>, noted: usize) -> Self {
        let stem = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        let list = path.with_file_name(format!("{stem}-bad-rows.csv")).to_string_lossy().into_owned();
        let (mapping, stage) = (Mapping::default(), Stage::Looking);
        Self { path, mapping, setup, noted, remembered: false, stage, list, said: None }
    }

    /// The mapping as chosen.
    #[must_use]
    pub fn mapping(&self) -> &Mapping {
        &self.mapping
    }

    /// The headings of the file.
    #[must_use]
    pub fn headings(&self) -> &[String] {
        match &self.stage {
            Stage::Mapping(sample) | Stage::Reading(sample) | Stage::Read(sample, _) => &sample.headings,
            _ => &[],
        }
    }

    /// What was read.
    #[must_use]
    pub fn imported(&self) -> Option<&Arc<Imported>> {
        match &self.stage {
            Stage::Read(_, imported) => Some(imported),
            _ => None,
        }
    }

    /// Takes the sample; `kept` is the mapping used for these headings before.
    pub fn looked(&mut self, looked: Result<Sample, String>, kept: Option<Mapping>) {
        match looked {
            Ok(mut sample) => {
                self.remembered = kept.is_some();
                self.mapping = kept.unwrap_or_default().suggested(&sample.headings);
                sample.check(&self.mapping);
                self.suggest(&mut sample);
                self.stage = match sample.problem.take() {
                    Some(problem) => Stage::Unreadable(problem),
                    None => Stage::Mapping(Box::new(sample)),
                };
            }
            Err(problem) => self.stage = Stage::Unreadable(problem),
        }
    }

    /// Takes the likeliest meaning of words that have none yet.
    fn suggest(&mut self, sample: &mut Sample) {
        let known = self.mapping.values.clone();
        let mut mapping = self.mapping.clone().with_suggested_values(&sample.words, &self.setup);
        // What somebody chose before stays.
        for (column, words) in known {
            mapping.values.entry(column).or_default().extend(words);
        }
        if mapping != self.mapping {
            self.mapping = mapping;
            sample.check(&self.mapping);
        }
    }

    /// The whole file is being read.
    pub fn begin(&mut self) {
        if let Stage::Mapping(sample) | Stage::Read(sample, _) = std::mem::replace(&mut self.stage, Stage::Looking) {
            self.stage = Stage::Reading(sample);
        }
    }

    /// The whole file has been read.
    pub fn read(&mut self, imported: Result<Arc<Imported>, String>) {
        let Stage::Reading(sample) = std::mem::replace(&mut self.stage, Stage::Looking) else { return };
        match imported {
            Ok(imported) => self.stage = Stage::Read(sample, imported),
            Err(problem) => {
                self.said = Some(problem);
                self.stage = Stage::Mapping(sample);
            }
        }
    }

    /// Width of the dialog, points: that of the columns side by side while choosing them.
    #[must_use]
    pub fn width(&self) -> f32 {
        match &self.stage {
            Stage::Mapping(_) | Stage::Reading(_) => 940.0,
            Stage::Read(_, imported) if !imported.bad.is_empty() => 860.0,
            _ => 640.0,
        }
    }

    /// The dialog.
    pub fn ui(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        let path = self.path.to_string_lossy().into_owned();
        ui.add(Label::new(RichText::new(path).small().color(*theme.ui.soft)).truncate());
        ui.add_space(theme.m.space.small);
        let (mut changed, mut columns_changed) = (false, false);
        match &mut self.stage {
            Stage::Looking => {
                ui.label(text("Looking at the file…"));
                close(ui, out);
            }
            Stage::Unreadable(problem) => {
                ui.add(Label::new(RichText::new(problem.as_str()).color(*theme.ui.bad)).wrap());
                close(ui, out);
            }
            Stage::Mapping(sample) => {
                if self.remembered {
                    ui.label(RichText::new(text("As you read a file with these headings before")).small());
                }
                let before = self.mapping.clone();
                units(ui, &mut self.mapping);
                ui.add_space(theme.m.space.small);
                columns::ui(ui, sample, &mut self.mapping, theme);
                values::ui(ui, sample, &mut self.mapping, &self.setup, theme);
                changed = self.mapping != before;
                columns_changed = self.mapping.columns != before.columns;
                if changed {
                    self.said = None;
                    sample.check(&self.mapping);
                }
                ui.add_space(theme.m.space.small);
                ui.horizontal_top(|ui| {
                    sketch::ui(ui, sample, theme);
                    ui.vertical(|ui| sample::preview(sample, ui, &self.mapping, theme));
                });
                ui.add_space(theme.m.space.group);
                let ready = sample.faults.is_none();
                ui.horizontal(|ui| {
                    if standpoint_ui::widgets::primary::primary(ui, theme, ready, text("Read the file")) {
                        out.push(Action::ReadTable);
                    }
                    if ui.button(text("Cancel")).clicked() {
                        out.push(Action::CloseDialog);
                    }
                    if let Some(why) = sample.faults.as_ref().or(self.said.as_ref()) {
                        ui.add(Label::new(RichText::new(why.as_str()).small().color(*theme.ui.warn)).wrap());
                    }
                });
            }
            Stage::Reading(_) => {
                ui.horizontal(|ui| {
                    ui.spinner();
                    ui.label(text("Reading…"));
                });
                close(ui, out);
            }
            Stage::Read(sample, imported) => {
                let imported = Arc::clone(imported);
                bad::ui(ui, &imported, &mut self.list, self.said.as_deref(), theme, out);
                let mut again = false;
                ui.horizontal(|ui| {
                    let shots = imported.chart.shots();
                    if standpoint_ui::widgets::primary::primary(
                        ui,
                        theme,
                        shots > 0,
                        tr!("Use this shot" | "Use these {0} shots" % shots, whole(shots)),
                    ) {
                        out.push(Action::CloseDialog);
                        out.push(Action::Chart(Act::Take(Box::new(imported.chart.clone()))));
                    }
                    let there = self.noted;
                    let add = tr!("Add to the one that is noted" | "Add to the {n} that are noted" % there);
                    if there > 0 && ui.add_enabled(shots > 0, egui::Button::new(add)).clicked() {
                        out.push(Action::CloseDialog);
                        out.push(Action::Chart(Act::Add(Box::new(imported.chart.clone()))));
                    }
                    again = ui.button(text("Back to the columns")).clicked();
                    if ui.button(text("Cancel")).clicked() {
                        out.push(Action::CloseDialog);
                    }
                });
                if again {
                    self.said = None;
                    let sample = sample.clone();
                    self.stage = Stage::Mapping(sample);
                }
            }
        }
        // Another column has other words.
        if changed
            && columns_changed
            && let Stage::Mapping(mut sample) = std::mem::replace(&mut self.stage, Stage::Looking)
        {
            self.suggest(&mut sample);
            self.stage = Stage::Mapping(sample);
        }
    }
}

fn close(ui: &mut Ui, out: &mut Outbox) {
    if ui.button(text("Cancel")).clicked() {
        out.push(Action::CloseDialog);
    }
}

/// Units and sides, each a short row of choices.
fn units(ui: &mut Ui, mapping: &mut Mapping) {
    ui.horizontal_wrapped(|ui| {
        ui.add(Label::new(text("Places in")).extend());
        for (unit, label) in [(LengthUnit::Metres, text("metres")), (LengthUnit::Feet, text("feet"))] {
            ui.selectable_value(&mut mapping.lengths, unit, label);
        }
        ui.separator();
        ui.add(Label::new(text("Speeds in")).extend());
        let all = [(SpeedUnit::Kmh, "km/h"), (SpeedUnit::Mph, "mph"), (SpeedUnit::MetresPerSecond, "m/s")];
        for (unit, label) in all {
            ui.selectable_value(&mut mapping.speeds, unit, label);
        }
        ui.separator();
        ui.add(Label::new(text("The hitter is")).extend());
        for (sides, label) in
            [(Sides::AsFilmed, text("at either end, as filmed")), (Sides::HitterNear, text("always at the near end"))]
        {
            ui.selectable_value(&mut mapping.sides, sides, label);
        }
    });
}
/// A label of a fixed width before its control.
fn label(ui: &mut Ui, said: impl Into<egui::WidgetText>, width: f32, theme: &Theme) -> egui::Response {
    let layout = egui::Layout::left_to_right(egui::Align::Center);
    let row = ui.allocate_ui_with_layout(egui::vec2(width, theme.m.control), layout, |ui| {
        ui.set_min_width(width);
        ui.add(egui::Label::new(said).truncate())
    });
    row.inner
}
