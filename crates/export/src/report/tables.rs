//! Tables of the report.

use standpoint_charting::{
    report::{Figure as Spread, GroupReport, PlayerReport},
    stats::Estimate,
};
use standpoint_language::{text, tr, whole};
use standpoint_sheet::{Column, Document, Table};
use standpoint_workbench::{chart::names, words};

use super::input::{FEWEST, ReportInput};

impl ReportInput<'_> {
    pub(super) fn facts(&self, player: &PlayerReport) -> Table {
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

    pub(super) fn groups(&self, doc: &mut Document, player: &PlayerReport) {
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

    pub(super) fn group(&self, name: &str, of: &GroupReport) -> [String; 8] {
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

    pub(super) fn moments(&self, doc: &mut Document, player: &PlayerReport) {
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

    pub(super) fn habits(&self, doc: &mut Document, player: &PlayerReport) {
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

    pub(super) fn bad_rows(&self, doc: &mut Document) {
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

pub(super) fn points(share: Option<f64>) -> String {
    share.map_or_else(String::new, |share| words::decimal(100.0 * share, 1))
}

pub(super) fn percent(share: f64) -> String {
    words::decimal(100.0 * share, 0)
}

pub(super) fn shared(share: Estimate) -> String {
    tr!("{} ({} to {})", percent(share.value), percent(share.low), percent(share.high))
}
