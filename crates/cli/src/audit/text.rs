//! The report in words.

use std::{
    io::{self, Write},
    path::PathBuf,
};

use standpoint_board::Units;
use standpoint_charting::{
    import::BadRow,
    report::{FIRST, Figure, GroupReport, MomentReport, PlayerReport, RecoveryHabit, ReportModel},
    stats::Estimate,
};
use standpoint_language::whole;
use standpoint_workbench::{
    chart::{names, trend},
    phrases::{BASIS, bare_length, length_heading},
    words,
};

use crate::{
    fault,
    table::{Lean, Table, facts},
};

/// The faults of a row, one line each: `FILE:LINE: column: what — remedy`.
pub fn bad_row(place: &str, row: &BadRow) -> Vec<String> {
    let line = |fault: &standpoint_charting::import::CellFault| {
        let column = if fault.column.is_empty() { String::new() } else { format!(": column `{}`", fault.column) };
        fault::line(&format!("{place}:{}{column}", row.line), &fault.kind.to_string(), &fault.kind.remedy())
    };
    row.faults.iter().map(line).collect()
}

/// Note that rows were left out.
pub fn left_out(place: &str, bad: u64, rows: u64) -> String {
    let (what, remedy) = match bad {
        1 => (
            format!("1 row of {} could not be read", whole(rows as usize)),
            "Correct it and run the report again; the answer is that of the others.",
        ),
        _ => {
            let what = format!("{} rows of {} could not be read", whole(bad as usize), whole(rows as usize));
            (what, "Correct them and run the report again; the answer is that of the others.")
        }
    };
    fault::line(place, &what, remedy)
}

/// Note that an audit was stopped, with its progress and files.
pub fn stopped(place: &str, rows: u64, kept: &[PathBuf]) -> String {
    let done = if rows == 1 {
        "the first row is done".to_owned()
    } else {
        format!("the first {} rows are done", whole(rows as usize))
    };
    let kept: Vec<String> = kept.iter().map(|path| path.display().to_string()).collect();
    let kept = if kept.is_empty() { String::new() } else { format!(", and kept in {}", kept.join(", ")) };
    format!("{place}: stopped before the end; {done}{kept}.")
}

/// Writes the report.
///
/// # Errors
/// When it cannot be written.
pub fn write(out: &mut dyn Write, place: &str, report: &ReportModel, units: Units) -> io::Result<()> {
    let title = report.title.trim();
    if title.is_empty() || place.contains(title) {
        writeln!(out, "{place}")?;
    } else {
        writeln!(out, "{title} ({place})")?;
    }
    let bad = match report.bad_rows {
        0 => String::new(),
        1 => ", 1 row could not be read".to_owned(),
        bad => format!(", {} could not be read", words::rows(bad as usize)),
    };
    writeln!(
        out,
        "{} in {}{bad}. {BASIS}",
        words::shots(report.shots as usize),
        words::played(report.points as usize)
    )?;
    if !report.complete {
        writeln!(out, "Stopped before the end: this is about the first {}.", words::rows(report.rows as usize))?;
    }
    findings(out, report)?;
    for player in &report.players {
        self::player(out, player, units)?;
    }
    for reason in &report.not_playable {
        writeln!(out, "\nNo flight was found for {}: {}.", words::shots(reason.shots as usize), reason.reason)?;
    }
    Ok(())
}

/// The findings, in three sentences at most.
fn findings(out: &mut dyn Write, report: &ReportModel) -> io::Result<()> {
    writeln!(out, "\nWhat it shows")?;
    for (rank, finding) in report.findings.iter().take(FIRST).enumerate() {
        let name = report.players.iter().find(|player| player.began == finding.began());
        let name = name.map_or(finding.began(), |player| player.name.as_str());
        writeln!(out, "  {}. {name}. {}.", rank + 1, finding.sentence())?;
    }
    if report.findings.is_empty() {
        writeln!(out, "  Nothing that the evidence carries: no group of shots differs beyond luck from the others.")?;
    }
    Ok(())
}

fn player(out: &mut dyn Write, player: &PlayerReport, units: Units) -> io::Result<()> {
    let all = &player.all;
    let title = format!("{} ({}, {}, {} hand)", player.name, player.began, names::group(player.level), player.hand);
    let mut lines = vec![("Shots", shots(all))];
    if all.judged > 0 {
        lines.push(("Stood", stood(all, units)));
        lines.push(("Points given away", cost(all)));
        lines.push(("In time", in_time(all)));
        lines.push(("Recovers", recovers(player)));
        lines.extend(ready(player).map(|ready| ("Ready position", ready)));
    }
    facts(out, &title, &lines)?;
    if all.judged == 0 {
        return Ok(());
    }
    writeln!(out)?;
    groups(player, units).write(out)?;
    for (i, said) in trend::sentences(player, units).iter().enumerate() {
        writeln!(out, "{}  {said}", if i == 0 { "\n" } else { "" })?;
    }
    if !player.tells.is_empty() {
        writeln!(out, "\n  To know as an opponent")?;
        for tell in player.tells.iter().take(FIRST) {
            writeln!(out, "  {}", tell.sentence())?;
        }
    }
    if !player.costliest.is_empty() {
        writeln!(out, "\n  The moments that cost most")?;
        moments(&player.costliest, units).write(out)?;
    }
    Ok(())
}

fn shots(all: &GroupReport) -> String {
    let parts = [
        (all.judged, "judged"),
        (all.winners, "not reached by the model's opponent"),
        (all.no_reply, "hardly returned by the model's opponent"),
        (all.missed, "missed"),
        (all.not_seen, "without the place where the player stood"),
        (all.not_playable, "without a flight"),
    ];
    let parts: Vec<String> =
        parts.iter().filter(|(count, _)| *count > 0).map(|(count, what)| format!("{count} {what}")).collect();
    format!("{}: {}", all.shots, parts.join(", "))
}

fn stood(all: &GroupReport, units: Units) -> String {
    let one = |figure: &Figure, above: &str, below: &str| {
        let mean = figure.mean.unwrap_or_default();
        let give =
            figure.high.map_or_else(String::new, |high| format!(" ± {}", words::fine_length(high - mean, units)));
        format!("{}{give} {}", words::fine_length(mean.abs(), units), if mean < 0.0 { below } else { above })
    };
    format!(
        "{}, {}, from the best place in reach",
        one(&all.across, "to the right", "to the left"),
        one(&all.along, "too deep", "too far forward")
    )
}

fn cost(all: &GroupReport) -> String {
    format!("{} in 100", interval_points(&all.avoidable))
}

fn interval_points(figure: &Figure) -> String {
    let points = |share: f64| words::decimal(100.0 * share, 1);
    match (figure.mean, figure.high) {
        (Some(mean), Some(high)) => format!("{} ± {}", points(mean), points(high - mean)),
        (Some(mean), None) => points(mean),
        _ => "no".to_owned(),
    }
}

fn in_time(all: &GroupReport) -> String {
    let Some(share) = all.reachable else { return String::new() };
    let seconds = |figure: &Figure| figure.mean.map_or_else(|| "?".to_owned(), words::seconds);
    format!(
        "the spot could be reached after {} of the shots; {} to the opponent's contact, {} needed",
        shared(share),
        seconds(&all.available_s),
        seconds(&all.needed_s)
    )
}

/// A share with its interval: `62 % (55 to 69)`.
fn shared(share: Estimate) -> String {
    let percent = |value: f64| words::decimal(100.0 * value, 0);
    format!("{} % ({} to {})", percent(share.value), percent(share.low), percent(share.high))
}

fn recovers(player: &PlayerReport) -> String {
    let recovery = &player.recovery;
    let what = match recovery.habit {
        RecoveryHabit::TooFew => return format!("{} shots that count are too few to say where to", recovery.telling),
        RecoveryHabit::Middle => "to the middle, whatever the ball",
        RecoveryHabit::Spot => "to where the model says",
        RecoveryHabit::Between => "between the middle and where the model says, or now here and now there",
    };
    let share =
        recovery.share.map_or_else(String::new, |share| format!(": {} of the way from the middle", shared(share)));
    format!("{what}{share}, by {} shots that count", recovery.telling)
}

fn ready(player: &PlayerReport) -> Option<String> {
    let (own, model) = (player.ready.player?, player.ready.model?);
    let number = |value: f64| words::decimal(value, 2);
    Some(format!(
        "{} ({} to {}) to the other side of the middle for each 1 the opponent is wide; the model {} ({} shots)",
        number(own.value),
        number(own.low),
        number(own.high),
        number(model.value),
        player.ready.shots
    ))
}

fn groups(player: &PlayerReport, units: Units) -> Table {
    use Lean::{Left, Right};
    let mut table = Table::new(&[Left, Left, Right, Right, Right, Right, Right, Right, Right]);
    let unit = length_heading(units);
    table.heading(&["", "", "", "", "right", "too deep", "given away", "in time", "to the middle"]);
    table.heading(&["by", "", "shots", "judged", unit, unit, "in 100", "%", "%"]);
    let named = player.tables.iter().flat_map(|table| table.groups.iter().map(|named| (table.by, named)));
    for (by, named) in named.chain(player.sessions.iter().map(|named| ("session", named))) {
        let of = &named.group;
        let length = |figure: &Figure| figure.mean.map_or_else(String::new, |mean| bare_length(mean, 2, units));
        let share = |share: Option<Estimate>| share.map_or_else(String::new, |s| format!("{:.0}", 100.0 * s.value));
        table.row(vec![
            by.to_owned(),
            if by == "session" { named.name.clone() } else { names::group(&named.name).into_owned() },
            of.shots.to_string(),
            of.judged.to_string(),
            length(&of.across),
            length(&of.along),
            of.avoidable.mean.map_or_else(String::new, |mean| words::decimal(100.0 * mean, 1)),
            share(of.reachable),
            share(of.to_the_middle),
        ]);
    }
    table
}

fn moments(moments: &[MomentReport], units: Units) -> Table {
    use Lean::{Left, Right};
    let mut table = Table::new(&[Right, Left, Left, Right, Right, Right]);
    let unit = length_heading(units);
    table.heading(&["line", "where", "shot", "right", "too deep", "given away"]);
    table.heading(&["", "", "", unit, unit, "in 100"]);
    for moment in moments {
        table.row(vec![
            moment.line.map_or_else(String::new, |line| line.to_string()),
            moment.title.clone(),
            names::struck_named(moment.stroke, moment.direction),
            bare_length(moment.across, 2, units),
            bare_length(moment.along, 2, units),
            words::decimal(100.0 * moment.avoidable, 1),
        ]);
    }
    table
}
