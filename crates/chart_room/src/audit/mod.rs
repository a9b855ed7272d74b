//! The audit on screen: the court with every place, the figures beside it.

mod filters;
mod moments;
mod pictures;
mod scatter;
mod shots;
mod summary;

use egui::{CentralPanel, ComboBox, Frame, Label, Margin, Panel, ProgressBar, RichText, ScrollArea, Ui};
use standpoint_board::{Units, chart::Setup};
use standpoint_charting::{
    audit::{AuditedShot, Compare},
    pictures::Kind,
    report::PlayerReport,
};
use standpoint_geometry::End;
use standpoint_language::{mark, text, tr, whole};
use standpoint_ui::{
    theme::{Theme, focus::Following as _, style},
    widgets::tabs,
};
use standpoint_workbench::{
    chart::{
        Act, ChartFile,
        filters::{Compared, Filters},
        worker::Audited,
    },
    words,
};

/// Parts of the audit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Page {
    /// Figures of groups.
    #[default]
    Summary,
    /// Histograms and trends.
    Pictures,
    /// What cost most.
    Moments,
    /// Every shot.
    Shots,
}

/// Input of the page.
pub struct AuditView<'a> {
    /// The result, if there is one.
    pub audited: Option<&'a Audited>,
    /// Players and conditions.
    pub setup: &'a Setup,
    /// Which shots are shown.
    pub filters: &'a Filters,
    /// How they compare.
    pub compared: &'a Compared,
    /// Shots noted.
    pub shots: usize,
    /// Progress of a running audit.
    pub progress: Option<(u64, u64)>,
    /// Estimated seconds left, once known.
    pub left: Option<f64>,
    /// Units.
    pub units: Units,
    /// Whether reports are made for Letter paper.
    pub letter: bool,
    /// How it looks.
    pub theme: &'a Theme,
}

/// What is looked at.
#[derive(Debug, Clone, Default)]
pub struct AuditPage {
    /// The player, by the end at which they began.
    pub player: End,
    page: Page,
    /// The table of the summary that is open.
    by: usize,
    /// The shot that is shown on the court.
    chosen: Option<usize>,
    /// The finding whose shots are shown there, by its place in the report.
    finding: Option<usize>,
    /// The picture that is asked for, or all.
    pub picture: Option<Kind>,
    /// The findings whose drill sheets are asked for.
    pub drills: Vec<usize>,
    /// Where the spot is looked for.
    pub compare: Compare,
}

/// A report with its shots.
struct ReportView<'a> {
    view: &'a AuditView<'a>,
    report: &'a PlayerReport,
    player: End,
    shots: &'a [AuditedShot],
}

impl AuditPage {
    /// Shows the audit, or how to begin one.
    pub fn show(&mut self, ui: &mut Ui, view: &AuditView<'_>, out: &mut Vec<Act>) {
        let Some(audited) = view.audited else {
            (self.chosen, self.finding) = (None, None);
            return waiting(ui, view, &mut self.compare, out);
        };
        let report = |end: End| audited.report.players.iter().find(|player| player.began == words::end(end));
        let Some(found) = report(self.player).or_else(|| report(self.player.other())) else {
            if !view.filters.is_all() {
                return nothing_left(ui, view, out);
            }
            return waiting(ui, view, &mut self.compare, out);
        };
        let player = if found.began == words::end(End::Near) { End::Near } else { End::Far };
        let told = ReportView { view, report: found, player, shots: &audited.shots };
        let edge = view.theme.m.space.edge as i8;
        let frame = Frame::new().fill(*view.theme.ui.panel).inner_margin(Margin::symmetric(edge, 6));
        let wide = ui.available_width() >= view.theme.m.panel.below_width;
        if wide {
            // Narrower than this the tables have no room for their words.
            let whole = ui.available_width();
            let width = (whole * 0.56).max(TABLES.min(whole * 0.65));
            Panel::right("audit figures").frame(frame).default_size(width).resizable(true).show(ui, |ui| {
                self.figures(ui, &told, out);
            });
        } else {
            let height = ui.available_height() * 0.58;
            Panel::bottom("audit figures below").frame(frame).default_size(height).resizable(true).show(ui, |ui| {
                self.figures(ui, &told, out);
            });
        }
        CentralPanel::no_frame().show(ui, |ui| scatter::ui(ui, &told, &mut self.chosen, self.finding));
    }

    /// Options and exports of the audit.
    fn beside(&self, ui: &mut Ui, told: &ReportView<'_>, out: &mut Vec<Act>) {
        ui.horizontal(|ui| {
            let label = |compare: Compare| COMPARED.iter().find(|c| c.0 == compare).map_or("", |c| text(c.1));
            let compare = told.view.audited.map_or(self.compare, |audited| audited.compare);
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                let menu = ui.menu_button(text("Export"), |ui| {
                    for (paper, label) in EXPORTS {
                        if ui.button(text(label)).clicked() {
                            out.push(Act::Ask(paper));
                        }
                    }
                    ui.separator();
                    for (letter, label) in [(false, text("PDF on A4")), (true, text("PDF on Letter"))] {
                        if ui.radio(told.view.letter == letter, label).clicked() {
                            out.push(Act::Letter(letter));
                        }
                    }
                });
                menu.response.on_hover_text(text("The report as CSV, or as PDF to be printed"));
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    let combo = ComboBox::from_id_salt("compare").width(ui.available_width()).truncate();
                    let shown = combo.selected_text(label(compare)).show_ui(ui, |ui| {
                        for (choice, label, hint) in COMPARED {
                            if ui.selectable_label(compare == choice, text(label)).on_hover_text(text(hint)).clicked()
                                && compare != choice
                            {
                                out.push(Act::Compare(choice));
                            }
                        }
                    });
                    shown.response.accessible_name(text("Where the spot is looked for"));
                });
            });
        });
    }

    fn figures(&mut self, ui: &mut Ui, told: &ReportView<'_>, out: &mut Vec<Act>) {
        let theme = told.view.theme;
        let players =
            [End::Near, End::Far].map(|end| (end, told.view.setup.card(end).name.as_str(), text("Their places")));
        if let Some(end) = tabs::row(ui, theme, told.player, &players) {
            (self.chosen, self.finding) = (None, None);
            out.push(Act::Player(end));
        }
        let pages = [
            (Page::Summary, text("Summary"), text("Figures by kind of shot, wing, direction, side, level and session")),
            (Page::Pictures, text("Pictures"), text("How the errors are spread, and how they change")),
            (Page::Moments, text("Moments"), text("The moments that cost most")),
            (Page::Shots, text("Shots"), text("Every shot")),
        ];
        if let Some(page) = tabs::row(ui, theme, self.page, &pages) {
            self.page = page;
        }
        self.beside(ui, told, out);
        let names = [End::Near, End::Far].map(|end| told.view.setup.card(end).name.as_str());
        let view = told.view;
        egui::CollapsingHeader::new(text("Filter and compare")).id_salt("filters").show_unindented(ui, |ui| {
            filters::ui(ui, view.filters, (names, told.player), view.compared, theme, out);
            if view.compared.shots.1 > 0 {
                filters::lines(ui, &tr!("{} against {}", names[0], names[1]), &view.compared.players, theme);
            }
        });
        ui.add_space(theme.m.space.small);
        match self.page {
            Page::Shots => shots::ui(ui, told, &mut self.chosen),
            page => {
                ScrollArea::vertical().id_salt(page).auto_shrink([false, false]).show_following(ui, |ui| match page {
                    Page::Summary => summary::ui(ui, told, &mut self.by, &mut self.finding, out),
                    Page::Pictures => pictures::ui(ui, told, out),
                    Page::Moments | Page::Shots => moments::ui(ui, told, &mut self.chosen, out),
                });
            }
        }
    }
}

/// Width of the figures that tables can be read in, points.
const TABLES: f32 = 650.0;

/// What can be written.
const EXPORTS: [(ChartFile, &str); 4] = [
    (ChartFile::Scouting, mark("Scouting sheet as PDF…")),
    (ChartFile::Report, mark("Report as PDF…")),
    (ChartFile::Shots, mark("Every shot as CSV…")),
    (ChartFile::Summary, mark("Every group as CSV…")),
];

/// Width of the choices before there is an audit.
const CHOICES: f32 = 430.0;

/// Where the spot may be looked for.
const COMPARED: [(Compare, &str, &str); 2] = [
    (
        Compare::SamePart,
        mark("Spot in the part of the court where they stood"),
        mark("At the net or in the back: whether to go to the net is another question"),
    ),
    (Compare::Anywhere, mark("Spot anywhere"), mark("The best place of all, at the net or in the back")),
];

/// Remaining time, coarsely rounded.
fn time_left(seconds: f64) -> String {
    let minutes = (seconds / 60.0).round() as usize;
    match minutes {
        0 => text("Less than a minute to go").to_owned(),
        _ => tr!("One minute to go" | "{n} minutes to go" % minutes),
    }
}

/// A filter that no shot passes.
fn nothing_left(ui: &mut Ui, view: &AuditView<'_>, out: &mut Vec<Act>) {
    let frame = Frame::new().fill(*view.theme.ui.panel).inner_margin(view.theme.m.space.section);
    CentralPanel::default().frame(frame).show(ui, |ui| {
        ui.label(RichText::new(text("No shot passes the filter")).text_style(style::figure()));
        let names = [End::Near, End::Far].map(|end| view.setup.card(end).name.as_str());
        filters::ui(ui, view.filters, (names, End::Near), view.compared, view.theme, out);
    });
}

/// Before there is an audit: explanation and button, or progress.
fn waiting(ui: &mut Ui, view: &AuditView<'_>, compare: &mut Compare, out: &mut Vec<Act>) {
    let theme = view.theme;
    let frame = Frame::new().fill(*theme.ui.panel).inner_margin(theme.m.space.section);
    CentralPanel::default().frame(frame).show(ui, |ui| {
        ui.vertical_centered(|ui| {
            ui.set_max_width(520.0);
            ui.add_space(ui.available_height() * 0.2);
            if let Some((done, all)) = view.progress {
                ui.label(RichText::new(text("Making the report")).text_style(style::figure()));
                let share = if all == 0 { 0.0 } else { done as f32 / all as f32 };
                ui.add(ProgressBar::new(share).text(tr!("{} of {} shots", whole(done as usize), whole(all as usize))));
                let left = view.left.map_or_else(|| " ".to_owned(), time_left);
                ui.label(RichText::new(left).color(*theme.ui.soft));
                // Away from the start button: a second click must not stop the audit.
                ui.add_space(3.0 * theme.m.touch);
                let hint = text("Shows what has been done so far");
                if ui.button(text("Stop")).on_hover_text(hint).clicked() {
                    out.push(Act::Stop);
                }
                return;
            }
            if view.shots == 0 {
                ui.label(RichText::new(text("No shots to report on yet")).text_style(style::figure()));
                let how = text("Note a match, import a CSV file, or drop one on this window.");
                ui.add(Label::new(RichText::new(how).color(*theme.ui.soft)).wrap());
                return;
            }
            ui.label(RichText::new(words::shots(view.shots)).text_style(style::figure()));
            let what = text(
                "The report works out for each shot where this player should have stood, and how far they were from \
                 it. Every figure is an estimate of a model for these two players.",
            );
            ui.add(Label::new(RichText::new(what).color(*theme.ui.soft)).wrap());
            ui.add_space(theme.m.space.group);
            let size = egui::vec2(CHOICES, 2.0 * theme.m.control);
            ui.allocate_ui_with_layout(size, egui::Layout::top_down(egui::Align::LEFT), |ui| {
                for (choice, label, hint) in COMPARED {
                    if ui.radio(*compare == choice, text(label)).on_hover_text(text(hint)).clicked() {
                        *compare = choice;
                    }
                }
            });
            ui.add_space(theme.m.space.group);
            if standpoint_ui::widgets::primary::primary(ui, theme, true, text("Make the report")) {
                out.push(Act::Audit);
            }
        });
    });
}
