//! The words and tables of the report.

use standpoint_board::{
    Units,
    chart::{
        Setup,
        import::BadRow,
        report::{Figure as Spread, GroupReport, PlayerReport, RecoveryHabit, ReportModel},
        stats::Estimate,
    },
};
use standpoint_geometry::frame::End;
use standpoint_sheet::{Block, Column, Document, Figure, KeyFigure, Paper, SheetError, Table};

use super::{draw, places::Places};
use crate::words;

/// What stands at the foot of every page.
const FOOTER: &str = "Estimates of a model for these two players. A qualified coach decides.";
/// Width of the court and of half a line of drawings, points.
const COURT: f32 = 190.0;
const HALF: f32 = 225.0;

/// Everything a report on paper tells.
pub struct Told<'a> {
    /// What came out.
    pub report: &'a ReportModel,
    /// Players and conditions.
    pub setup: &'a Setup,
    /// Units.
    pub units: Units,
    /// On what it is printed.
    pub paper: Paper,
    /// Places of both players.
    pub places: &'a [Places; 2],
    /// Rows that could not be read.
    pub bad: &'a [BadRow],
    /// How many more there were.
    pub unlisted: u64,
}

impl Told<'_> {
    /// The report.
    ///
    /// # Errors
    /// When a drawing cannot be made.
    pub fn document(&self) -> Result<Document, SheetError> {
        let title = self.report.title.trim();
        let name = if title.is_empty() { "Audit of a chart".to_owned() } else { format!("Audit: {title}") };
        let mut doc = Document::new(self.paper, name);
        doc.footer(FOOTER);
        for player in &self.report.players {
            self.player(&mut doc, player)?;
        }
        if self.report.players.is_empty() {
            doc.paragraph("No row could be read.");
        }
        self.meanings(&mut doc);
        self.bad_rows(&mut doc);
        Ok(doc)
    }

    fn player(&self, doc: &mut Document, player: &PlayerReport) -> Result<(), SheetError> {
        doc.part(player.name.clone());
        let level = player.level.replace('_', " ");
        doc.note(format!(
            "{}. Began at the {} end; level {level}, {} hand. {} shots, {} places judged.",
            self.report.title.trim(),
            player.began,
            player.hand,
            player.all.shots,
            player.all.judged
        ));
        if player.all.judged == 0 {
            doc.paragraph("No place could be judged.");
            return Ok(());
        }
        doc.key_figures(self.key_figures(player));
        doc.paragraph(sentence(player));
        let end = if player.began == words::end(End::Far) { 1 } else { 0 };
        let court = draw::court(&self.setup.court.court(), &self.places[end], COURT)?;
        let caption =
            "Discs: where they stood, larger where it cost more; rings: where they should have. They face up.";
        let facts = self.facts(player);
        doc.add(Block::Beside(Figure::new(court).width(COURT).caption(caption), vec![Block::Table(facts)]));
        self.groups(doc, player);
        self.pictures(doc, player)?;
        self.moments(doc, player);
        self.habits(doc, player);
        Ok(())
    }

    fn key_figures(&self, player: &PlayerReport) -> Vec<KeyFigure> {
        let all = &player.all;
        let length = |figure: &Spread| words::fine_length(figure.mean.unwrap_or_default().abs(), self.units);
        let side = |figure: &Spread, above: &'static str, below: &'static str| {
            if figure.mean.unwrap_or_default() < 0.0 { below } else { above }
        };
        let mut figures = vec![
            KeyFigure::new(points(all.avoidable.mean), "points in 100 lost by the place"),
            KeyFigure::new(length(&all.across), format!("to the {}", side(&all.across, "right", "left"))),
            KeyFigure::new(length(&all.along), side(&all.along, "too deep", "too far forward")),
        ];
        if let Some(share) = all.to_the_middle {
            figures
                .push(KeyFigure::new(format!("{} %", percent(share.value)), "stood in the middle, where it mattered"));
        }
        figures
    }

    fn facts(&self, player: &PlayerReport) -> Table {
        let all = &player.all;
        let (unit, name, _) = words::length_unit(self.units);
        let mut table = Table::new([Column::left(""), Column::right("")]);
        let with_interval = |figure: &Spread, factor: f64, figures: usize| match (figure.mean, figure.low, figure.high)
        {
            (Some(mean), Some(low), Some(high)) => {
                let text = |value: f64| words::decimal(value * factor, figures);
                format!("{} ({} to {})", text(mean), text(low), text(high))
            }
            (Some(mean), ..) => words::decimal(mean * factor, figures),
            _ => "–".to_owned(),
        };
        let mut row = |label: String, value: String| table.row([label, value]);
        row(format!("To the right of the best place, {name}"), with_interval(&all.across, 1.0 / unit, 2));
        row(format!("Too deep, {name}"), with_interval(&all.along, 1.0 / unit, 2));
        row("Cost, points in 100".to_owned(), with_interval(&all.avoidable, 100.0, 1));
        row("Extra at the spot, points in 100".to_owned(), with_interval(&all.extra, 100.0, 1));
        row("Spot in reach, %".to_owned(), all.reachable.map_or_else(|| "–".to_owned(), shared));
        row("Time there was, s".to_owned(), with_interval(&all.available_s, 1.0, 2));
        row("Time needed, s".to_owned(), with_interval(&all.needed_s, 1.0, 2));
        if let Some(share) = player.recovery.share {
            row("Of the way from the middle, %".to_owned(), shared(share));
        }
        if let (Some(own), Some(model)) = (player.ready.player, player.ready.model) {
            let text = |value: f64| words::decimal(value, 2);
            row(
                "To the other side for each 1 the opponent is wide".to_owned(),
                format!("{} ({} to {})", text(own.value), text(own.low), text(own.high)),
            );
            row("The same, by the model".to_owned(), text(model.value));
        }
        table
    }

    fn groups(&self, doc: &mut Document, player: &PlayerReport) {
        doc.heading("By kind of shot");
        let (_, unit, _) = words::length_unit(self.units);
        let columns = [
            Column::left("Group"),
            Column::right("Shots"),
            Column::right("Judged"),
            Column::right(format!("Right, {unit}")),
            Column::right(format!("Too deep, {unit}")),
            Column::right("Cost in 100"),
            Column::right("In reach, %"),
            Column::right("Middle, %"),
        ];
        let mut table = Table::new(columns);
        for by in &player.tables {
            for named in &by.groups {
                table.row(self.group(&format!("{}: {}", by.by, named.name.replace('_', " ")), &named.group));
            }
        }
        for named in &player.sessions {
            table.row(self.group(&format!("session: {}", named.name), &named.group));
        }
        doc.table(table);
    }

    fn group(&self, name: &str, of: &GroupReport) -> [String; 8] {
        let (unit, ..) = words::length_unit(self.units);
        let length = |figure: &Spread| figure.mean.map_or_else(String::new, |mean| words::decimal(mean / unit, 2));
        let share = |share: Option<Estimate>| share.map_or_else(String::new, |share| percent(share.value));
        [
            name.to_owned(),
            of.shots.to_string(),
            of.judged.to_string(),
            length(&of.across),
            length(&of.along),
            points(of.avoidable.mean),
            share(of.reachable),
            share(of.to_the_middle),
        ]
    }

    fn pictures(&self, doc: &mut Document, player: &PlayerReport) -> Result<(), SheetError> {
        doc.page_break();
        doc.heading("How the errors are spread");
        let (unit, name, _) = words::length_unit(self.units);
        let pictures = [
            (&player.across, 1.0 / unit, 1, format!("Across: left to right, {name}")),
            (&player.along, 1.0 / unit, 1, format!("Along: too far forward to too deep, {name}")),
            (&player.avoidable, 100.0, 0, "Cost, points in 100".to_owned()),
        ];
        let caption = "Each from the best place in reach, which is at the dashed line.";
        doc.figure(Figure::new(draw::histograms(&pictures, 2.0 * HALF)?).width(2.0 * HALF).caption(caption));
        if player.blocks.len() > 1 {
            doc.heading("How they change");
            let values = |of: fn(&standpoint_board::chart::report::BlockReport) -> Option<f64>| -> Vec<f64> {
                player.blocks.iter().map(|block| of(block).unwrap_or_default() / unit).collect()
            };
            let drawing = draw::trend(&values(|block| block.across), &values(|block| block.along), name, 2.0 * HALF)?;
            let length = player.blocks.first().map_or(1, |block| block.shots);
            let caption = format!("Mean error over {length} judged shots in a row each: across solid, along dashed.");
            doc.figure(Figure::new(drawing).width(2.0 * HALF).caption(caption));
        }
        Ok(())
    }

    fn moments(&self, doc: &mut Document, player: &PlayerReport) {
        if player.costliest.is_empty() {
            return;
        }
        doc.heading("The moments that cost most");
        let (unit, name, _) = words::length_unit(self.units);
        let lined = player.costliest.iter().any(|moment| moment.line.is_some());
        let mut columns = vec![Column::left("Where"), Column::left("Shot")];
        columns.extend(
            [format!("Right, {name}"), format!("Too deep, {name}"), "Cost in 100".to_owned()].map(Column::right),
        );
        if lined {
            columns.push(Column::right("Line"));
        }
        let mut table = Table::new(columns);
        for moment in &player.costliest {
            let length = |metres: f64| words::decimal(metres / unit, 2);
            let mut cells = vec![
                moment.title.clone(),
                format!("{} {}", moment.stroke, moment.direction.replace('_', " ")),
                length(moment.across),
                length(moment.along),
                points(Some(moment.avoidable)),
            ];
            if lined {
                cells.push(moment.line.map_or_else(String::new, |line| line.to_string()));
            }
            table.row(cells);
        }
        doc.table(table);
    }

    fn habits(&self, doc: &mut Document, player: &PlayerReport) {
        doc.heading("Where the ball goes");
        let mut table = Table::new([
            Column::left("Stroke"),
            Column::left("Direction"),
            Column::right("Shots"),
            Column::right("Share, %"),
            Column::right("Missed, %"),
        ]);
        for habit in &player.habits {
            for of in &habit.directions {
                let direction = of.direction.label().to_owned();
                table.row([
                    habit.stroke.to_owned(),
                    direction,
                    of.shots.to_string(),
                    shared(of.share),
                    shared(of.missed),
                ]);
            }
        }
        doc.table(table);
    }

    fn meanings(&self, doc: &mut Document) {
        doc.part("What the figures mean");
        doc.paragraph(self.report.estimate);
        doc.bullets([
            "The spot is where the least is lost to the opponent's best reply. The best place in reach is the one that could be run to by the opponent's contact; it is the spot when there was time.",
            "Cost is what was lost beyond that at the best place in reach; extra is what was lost beyond that at the spot.",
            "In the middle: nearer to the middle than a third of the way to where they should have been, counted only where the two are at least 0.4 m apart.",
            "In brackets stands the interval at 95 %. Single shots say little.",
            "Places noted by eye are good to half a metre; no audit can be better than its chart.",
        ]);
        doc.note("To be talked over with a qualified coach. Warm up, clear loose balls, and mind heat and load when you train; medical questions go to a professional.");
    }

    fn bad_rows(&self, doc: &mut Document) {
        if self.bad.is_empty() {
            return;
        }
        doc.heading(format!("Rows that could not be read: {}", self.report.bad_rows));
        let mut table =
            Table::new([Column::right("Line"), Column::left("Column"), Column::left("What is wrong, and what to do")]);
        for row in self.bad {
            for fault in &row.faults {
                let why = format!("{}. {}", fault.kind, fault.kind.remedy());
                table.row([row.line.to_string(), fault.column.clone(), why]);
            }
        }
        doc.table(table);
        if self.unlisted > 0 {
            doc.note(format!("And {} more; --bad-rows lists them all.", self.unlisted));
        }
    }
}

/// Where the player recovers to, in a sentence.
fn sentence(player: &PlayerReport) -> String {
    let what = match player.recovery.habit {
        RecoveryHabit::TooFew => return "Too few shots that tell to say where this player recovers to.".to_owned(),
        RecoveryHabit::Middle => "Recovers to the middle, whatever the ball",
        RecoveryHabit::Spot => "Recovers to where the model says",
        RecoveryHabit::Between => "Recovers between the middle and where the model says, or now here and now there",
    };
    format!("{what}, as {} shots that tell show.", player.recovery.telling)
}

fn points(share: Option<f64>) -> String {
    share.map_or_else(String::new, |share| words::decimal(100.0 * share, 1))
}

fn percent(share: f64) -> String {
    words::decimal(100.0 * share, 0)
}

fn shared(share: Estimate) -> String {
    format!("{} ({} to {})", percent(share.value), percent(share.low), percent(share.high))
}
