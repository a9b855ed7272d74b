//! Text and tables of the report.

use standpoint_board::{Units, chart::Setup};
use standpoint_charting::{
    import::BadRow,
    pictures::{Kind, Picture, Pictures},
    report::{
        FIRST, Figure as Spread, FindingReport, GroupReport, PlayerReport, RecoveryHabit, ReportModel, TellReport,
    },
    stats::Estimate,
};
use standpoint_geometry::End;
use standpoint_language::{mark, text, tr, whole};
use standpoint_sheet::{Block, Column, Document, Figure, KeyFigure, Paper, SheetError, Table};
use standpoint_workbench::{
    chart::{names, trend},
    words,
};

use super::{draw, places::Places};
use crate::pictures::PicturePress;

/// Footer of every page.
const FOOTER: &str = mark("Estimates of a model for these two players. A qualified coach decides.");
/// Width of the court and of half a line of drawings, points.
const COURT: f32 = 190.0;
const HALF: f32 = 225.0;
/// Pictures beside each other.
const BESIDE: usize = 2;
/// Shots that a group needs to be told of.
const FEWEST: u64 = 15;

/// Input of a printed report.
pub struct ReportInput<'a> {
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
    /// What the shots of both players look like.
    pub pictures: &'a Pictures,
    /// Rows that could not be read.
    pub bad: &'a [BadRow],
    /// How many more there were.
    pub unlisted: u64,
}

impl ReportInput<'_> {
    /// The report.
    ///
    /// # Errors
    /// When a drawing cannot be made.
    pub fn document(&self) -> Result<Document, SheetError> {
        let title = self.report.title.trim();
        let name =
            if title.is_empty() { text("Positioning report").to_owned() } else { tr!("Positioning report: {}", title) };
        let mut doc = Document::new(self.paper, name);
        doc.footer(text(FOOTER));
        if !self.report.complete {
            let rows = self.report.rows;
            doc.note(tr!("The report was stopped before its end: this is about the first {} rows.", rows));
        }
        for player in &self.report.players {
            self.player(&mut doc, player)?;
        }
        if self.report.players.is_empty() {
            doc.paragraph(text("No row could be read."));
        }
        self.meanings(&mut doc);
        self.bad_rows(&mut doc);
        Ok(doc)
    }

    fn player(&self, doc: &mut Document, player: &PlayerReport) -> Result<(), SheetError> {
        if player.all.judged == 0 {
            // Not worth a page of its own.
            doc.heading(player.name.clone());
        } else {
            doc.part(player.name.clone());
        }
        let level = names::group(player.level);
        let near = player.began == words::end(End::Near);
        let (title, hand) = (self.report.title.trim(), names::group(player.hand));
        let (shots, judged) = (words::shots(player.all.shots as usize), whole(player.all.judged as usize));
        doc.note(if near {
            tr!("{}. Began at the near end; level {}, {} hand. {}, {} judged.", title, level, hand, shots, judged)
        } else {
            tr!("{}. Began at the far end; level {}, {} hand. {}, {} judged.", title, level, hand, shots, judged)
        });
        if player.all.judged == 0 {
            doc.paragraph(text("No place could be judged."));
            return Ok(());
        }
        self.findings(doc, player);
        doc.key_figures(self.key_figures(player));
        doc.paragraph(sentence(player));
        let end = if player.began == words::end(End::Far) { 1 } else { 0 };
        let court = draw::court(&self.setup.court.court(), &self.places[end], COURT)?;
        let caption =
            text("Discs: where they stood, larger where it cost more; rings: where they should have. They face up.");
        let facts = self.facts(player);
        doc.add(Block::Beside(Figure::new(court).width(COURT).caption(caption), vec![Block::Table(facts)]));
        self.groups(doc, player);
        self.on_court(doc, player);
        self.pictures(doc, player)?;
        self.moments(doc, player);
        self.habits(doc, player);
        Ok(())
    }

    /// Findings about a player, and habits for their opponents.
    fn findings(&self, doc: &mut Document, player: &PlayerReport) {
        let own = self.report.findings.iter().filter(|finding| finding.began() == player.began);
        let said: Vec<String> = own.take(FIRST).map(FindingReport::sentence).collect();
        if said.is_empty() {
            doc.paragraph(text("No group of shots differs beyond luck from the others."));
        } else {
            doc.steps(said);
        }
        if !player.tells.is_empty() {
            doc.subheading(text("To know as an opponent"));
            doc.bullets(player.tells.iter().take(FIRST).map(TellReport::sentence));
        }
    }

    fn key_figures(&self, player: &PlayerReport) -> Vec<KeyFigure> {
        let all = &player.all;
        let length = |figure: &Spread| words::fine_length(figure.mean.unwrap_or_default().abs(), self.units);
        let side = |figure: &Spread, above: &'static str, below: &'static str| {
            if figure.mean.unwrap_or_default() < 0.0 { below } else { above }
        };
        let mut figures = vec![
            KeyFigure::new(points(all.avoidable.mean), text("points in 100 given away by the place")),
            KeyFigure::new(length(&all.across), side(&all.across, text("to the right"), text("to the left"))),
            KeyFigure::new(length(&all.along), side(&all.along, text("too deep"), text("too far forward"))),
        ];
        if let Some(share) = all.to_the_middle {
            figures.push(KeyFigure::new(
                format!("{} %", percent(share.value)),
                text("stood in the middle, where it mattered"),
            ));
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
                let number = |value: f64| words::decimal(value * factor, figures);
                tr!("{} ({} to {})", number(mean), number(low), number(high))
            }
            (Some(mean), ..) => words::decimal(mean * factor, figures),
            _ => "–".to_owned(),
        };
        let mut row = |label: String, value: String| table.row([label, value]);
        row(tr!("To the right of the best place, {}", name), with_interval(&all.across, 1.0 / unit, 2));
        row(tr!("Too deep, {}", name), with_interval(&all.along, 1.0 / unit, 2));
        row(text("Points given away, in 100").to_owned(), with_interval(&all.avoidable, 100.0, 1));
        row(text("Given away against the spot, points in 100").to_owned(), with_interval(&all.extra, 100.0, 1));
        row(text("Spot in reach, %").to_owned(), all.reachable.map_or_else(|| "–".to_owned(), shared));
        row(text("Time there was, s").to_owned(), with_interval(&all.available_s, 1.0, 2));
        row(text("Time needed, s").to_owned(), with_interval(&all.needed_s, 1.0, 2));
        if let Some(share) = player.recovery.share {
            row(text("Of the way from the middle, %").to_owned(), shared(share));
        }
        if let (Some(own), Some(model)) = (player.ready.player, player.ready.model) {
            let number = |value: f64| words::decimal(value, 2);
            row(
                text("To the other side for each 1 the opponent is wide").to_owned(),
                tr!("{} ({} to {})", number(own.value), number(own.low), number(own.high)),
            );
            row(text("The same, by the model").to_owned(), number(model.value));
        }
        table
    }

    fn groups(&self, doc: &mut Document, player: &PlayerReport) {
        let (_, unit, _) = words::length_unit(self.units);
        let columns = [
            Column::left(text("Group")),
            Column::right(text("Shots")),
            Column::right(text("Judged")),
            Column::right(tr!("Right, {}", unit)),
            Column::right(tr!("Too deep, {}", unit)),
            Column::right(text("Given away in 100")),
            Column::right(text("In reach, %")),
            Column::right(text("Middle, %")),
        ];
        let mut table = Table::new(columns);
        for by in &player.tables {
            for named in by.groups.iter().filter(|named| named.group.shots >= FEWEST) {
                table.row(self.group(&format!("{}: {}", by_what(by.by), names::group(&named.name)), &named.group));
            }
        }
        for named in player.sessions.iter().filter(|named| named.group.shots >= FEWEST) {
            table.row(self.group(&tr!("session: {}", named.name), &named.group));
        }
        if table.rows.is_empty() {
            return;
        }
        doc.heading(text("By kind of shot"));
        doc.table(table);
        doc.note(tr!("Groups of fewer than {} shots are left out.", FEWEST));
    }

    fn group(&self, name: &str, of: &GroupReport) -> [String; 8] {
        let (unit, ..) = words::length_unit(self.units);
        let length = |figure: &Spread| figure.mean.map_or_else(String::new, |mean| words::decimal(mean / unit, 2));
        let share = |share: Option<Estimate>| share.map_or_else(String::new, |share| percent(share.value));
        [
            name.to_owned(),
            whole(of.shots as usize),
            whole(of.judged as usize),
            length(&of.across),
            length(&of.along),
            points(of.avoidable.mean),
            share(of.reachable),
            share(of.to_the_middle),
        ]
    }

    /// Pictures on the court, as far as there are enough shots for them.
    fn on_court(&self, doc: &mut Document, player: &PlayerReport) {
        let end = if player.began == words::end(End::Far) { End::Far } else { End::Near };
        let all = self.pictures.player(end).iter();
        // Positions stand on the first page already.
        let wanted: Vec<&Picture> = all.filter(|of| of.tells() && of.kind != Kind::Positions).collect();
        let Ok(mut press) = PicturePress::new() else { return };
        let court = self.setup.court.court();
        for (i, row) in wanted.chunks(BESIDE).enumerate() {
            if i == 0 {
                doc.heading(text("On the court"));
            }
            let drawing = press.drawing(row, &court, self.units, (BESIDE, HALF));
            let width = drawing.width;
            doc.figure(Figure::new(drawing).width(width));
        }
    }

    fn pictures(&self, doc: &mut Document, player: &PlayerReport) -> Result<(), SheetError> {
        if player.all.judged < FEWEST {
            return Ok(());
        }
        doc.heading(text("How the errors are spread"));
        let (unit, name, _) = words::length_unit(self.units);
        let pictures = [
            (&player.across, 1.0 / unit, 1, tr!("Left-right: left to right, {}", name)),
            (&player.along, 1.0 / unit, 1, tr!("Depth: too far forward to too deep, {}", name)),
            (&player.avoidable, 100.0, 0, text("Points given away, in 100").to_owned()),
        ];
        let caption = text("Each from the best place in reach, which is at the dashed line.");
        doc.figure(Figure::new(draw::histograms(&pictures, 2.0 * HALF)?).width(2.0 * HALF).caption(caption));
        if player.blocks.len() > 1 {
            doc.heading(text("How they change"));
            let values = |of: fn(&standpoint_charting::report::BlockReport) -> Option<f64>| -> Vec<f64> {
                player.blocks.iter().map(|block| of(block).unwrap_or_default() / unit).collect()
            };
            let drawing = draw::trend(&values(|block| block.across), &values(|block| block.along), name, 2.0 * HALF)?;
            let length = player.blocks.first().map_or(1, |block| block.shots);
            let caption = tr!("Mean error over {} judged shots in a row each: left-right solid, depth dashed.", length);
            doc.figure(Figure::new(drawing).width(2.0 * HALF).caption(caption));
            doc.bullets(trend::sentences(player, self.units));
        }
        Ok(())
    }

    fn moments(&self, doc: &mut Document, player: &PlayerReport) {
        if player.costliest.is_empty() {
            return;
        }
        doc.heading(text("The moments that cost most"));
        let (unit, name, _) = words::length_unit(self.units);
        let lined = player.costliest.iter().any(|moment| moment.line.is_some());
        let mut columns = vec![Column::left(text("Where")), Column::left(text("Shot"))];
        columns.extend(
            [tr!("Right, {}", name), tr!("Too deep, {}", name), text("Given away in 100").to_owned()]
                .map(Column::right),
        );
        if lined {
            columns.push(Column::right(text("Line")));
        }
        let mut table = Table::new(columns);
        for moment in &player.costliest {
            let length = |metres: f64| words::decimal(metres / unit, 2);
            let mut cells = vec![
                moment.title.clone(),
                names::struck_named(moment.stroke, moment.direction),
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
        let mut table = Table::new([
            Column::left(text("Stroke")),
            Column::left(text("Direction")),
            Column::right(text("Shots")),
            Column::right(text("Share, %")),
            Column::right(text("Missed, %")),
        ]);
        for habit in &player.habits {
            for of in habit.directions.iter().filter(|of| of.shots >= FEWEST) {
                let direction = names::direction(of.direction).to_owned();
                table.row([
                    names::group(habit.stroke).into_owned(),
                    direction,
                    whole(of.shots as usize),
                    shared(of.share),
                    shared(of.missed),
                ]);
            }
        }
        if table.rows.is_empty() {
            return;
        }
        doc.heading(text("Where the ball goes"));
        doc.table(table);
    }

    fn meanings(&self, doc: &mut Document) {
        doc.heading(text("What the figures mean"));
        doc.paragraph(text(self.report.estimate));
        doc.bullets([
            text(
                "The spot is where the opponent wins least. The best place in reach is the one that could be run \
                  to by the opponent's contact; it is the spot when there was time.",
            ),
            text(
                "Points given away are those that the opponent wins beyond what the best place in reach allows; \
                  against the spot, beyond what the spot allows.",
            ),
            text(
                "In the middle: nearer to the middle than a third of the way to where they should have been, counted only where the two are at least 0.4 m apart.",
            ),
            text("In brackets stands the interval at 95 %. Single shots say little."),
            text("Places noted by eye are good to half a metre; no report can be better than its chart."),
        ]);
        doc.note(text(
            "To be talked over with a qualified coach. Warm up, clear loose balls, and mind heat and load when you train; medical questions go to a professional.",
        ));
    }

    fn bad_rows(&self, doc: &mut Document) {
        if self.bad.is_empty() {
            return;
        }
        doc.heading(tr!("Rows that could not be read: {}", self.report.bad_rows));
        let mut table = Table::new([
            Column::right(text("Line")),
            Column::left(text("Column")),
            Column::left(text("What is wrong, and what to do")),
        ]);
        for row in self.bad {
            for fault in &row.faults {
                let why = format!("{}. {}", fault.kind, fault.kind.remedy());
                table.row([row.line.to_string(), fault.column.clone(), why]);
            }
        }
        doc.table(table);
        if self.unlisted > 0 {
            doc.note(tr!("And {} more; --bad-rows lists them all.", self.unlisted));
        }
    }
}

/// Where the player recovers to, in a sentence.
fn sentence(player: &PlayerReport) -> String {
    let what = match player.recovery.habit {
        RecoveryHabit::TooFew => {
            return text("Too few shots that count to say where this player recovers to.").to_owned();
        }
        RecoveryHabit::Middle => text("Recovers to the middle, whatever the ball"),
        RecoveryHabit::Spot => text("Recovers to where the model says"),
        RecoveryHabit::Between => {
            text("Recovers between the middle and where the model says, or now here and now there")
        }
    };
    tr!("{0}, shown by {n} shot that counts." | "{0}, shown by {n} shots that count." % player.recovery.telling, what)
}

/// The property that a table of groups is by.
fn by_what(by: &'static str) -> &'static str {
    match by {
        "stroke" => text("stroke"),
        "wing" => text("wing"),
        "direction" => text("direction"),
        "side" => text("struck from"),
        "level" => text("level"),
        other => other,
    }
}

fn points(share: Option<f64>) -> String {
    share.map_or_else(String::new, |share| words::decimal(100.0 * share, 1))
}

fn percent(share: f64) -> String {
    words::decimal(100.0 * share, 0)
}

fn shared(share: Estimate) -> String {
    tr!("{} ({} to {})", percent(share.value), percent(share.low), percent(share.high))
}
