//! The catalogue's entries about charts.

use egui::Key;
use standpoint_language::mark;
use standpoint_workbench::chart::{NotesLocation, Tab};

use super::{
    command::{ChartCommand, Command},
    spec::{BUSY, CTRL_SHIFT, Menu, NO_REPORT, NO_SHOTS, SHIFT, Spec, entry},
};

/// In the order of [`ChartCommand`].
pub static ENTRIES: [Spec; 18] = [
    entry(
        Command::Chart(ChartCommand::Room),
        Menu::Chart,
        "Match analysis",
        "What really happened: note matches, and see where the players stood",
    )
    .keys(SHIFT, Key::M)
    .on(|f| f.chart.open),
    entry(
        Command::Chart(ChartCommand::Note),
        Menu::Chart,
        "Note a match",
        "Note shots while you watch, with the mouse or keys alone",
    )
    .group()
    .on(|f| f.chart.open && f.chart.tab == Tab::Note),
    entry(
        Command::Chart(ChartCommand::Audit),
        Menu::Chart,
        "Positioning report",
        "Where players stood against where they should have stood",
    )
    .keys(CTRL_SHIFT, Key::A)
    .on(|f| f.chart.open && f.chart.tab == Tab::Audit),
    entry(
        Command::Chart(ChartCommand::Measure),
        Menu::Chart,
        "Player tests",
        "Players from sprints, a speed gun and a target test, and their shot patterns",
    )
    .on(|f| f.chart.open && f.chart.tab == Tab::Measure),
    entry(
        Command::Chart(ChartCommand::WithBoard),
        Menu::Chart,
        "Notes with the board",
        "Work on the notes in the board's file",
    )
    .group()
    .on(|f| f.chart.open && f.chart.kept == NotesLocation::Board),
    entry(
        Command::Chart(ChartCommand::Alone),
        Menu::Chart,
        "Notes in a file of their own",
        "Work on the notes in a chart file, whatever board is open",
    )
    .on(|f| f.chart.open && f.chart.kept == NotesLocation::Alone),
    entry(
        Command::Chart(ChartCommand::Move),
        Menu::Chart,
        "Move the notes",
        "From the board to a file of their own, or from there to the board",
    )
    .when(|f| f.chart.open && f.chart.shots > 0, mark("Open the match analysis and note a shot first")),
    entry(Command::Chart(ChartCommand::Open), Menu::Chart, "Open chart…", "Open a chart from a file")
        .group()
        .when(|f| !f.busy, BUSY),
    entry(Command::Chart(ChartCommand::Save), Menu::Chart, "Save chart as…", "Save the chart to a file")
        .when(|f| !f.busy && f.chart.shots > 0, NO_SHOTS),
    entry(Command::Chart(ChartCommand::Import), Menu::Chart, "Import CSV…", "Read shots from a table with any columns")
        .keys(CTRL_SHIFT, Key::I)
        .when(|f| !f.busy, BUSY),
    entry(
        Command::Chart(ChartCommand::Season),
        Menu::Chart,
        "Open season folder…",
        "Read a folder of charts and tables, each a match",
    )
    .when(|f| !f.busy, BUSY),
    entry(
        Command::Chart(ChartCommand::Roster),
        Menu::Chart,
        "Roster…",
        "Players kept in a folder: put them on the board, keep measured ones",
    ),
    entry(
        Command::Chart(ChartCommand::Shots),
        Menu::Chart,
        "Export the report shot by shot…",
        "Write every shot of the report to a CSV file",
    )
    .group()
    .when(|f| !f.busy && f.chart.audited, NO_REPORT),
    entry(
        Command::Chart(ChartCommand::Summary),
        Menu::Chart,
        "Export the report group by group…",
        "Write the figures of every group to a CSV file",
    )
    .when(|f| !f.busy && f.chart.audited, NO_REPORT),
    entry(
        Command::Chart(ChartCommand::Report),
        Menu::Chart,
        "Export the report as PDF…",
        "Write the report to be printed",
    )
    .when(|f| !f.busy && f.chart.audited, NO_REPORT),
    entry(
        Command::Chart(ChartCommand::Scouting),
        Menu::Chart,
        "Export scouting sheet…",
        "How this player plays as an opponent, on one page",
    )
    .when(|f| !f.busy && f.chart.audited, NO_REPORT),
    entry(
        Command::Chart(ChartCommand::Chapters),
        Menu::Chart,
        "Export video chapters…",
        "Write the points as chapters (WebVTT), so that a video player can jump to them",
    )
    .group()
    .when(|f| !f.busy && f.chart.shots > 0, NO_SHOTS),
    entry(
        Command::Chart(ChartCommand::Moments),
        Menu::Chart,
        "Export video moments as CSV…",
        "Write every point with its place in the video",
    )
    .when(|f| !f.busy && f.chart.shots > 0, NO_SHOTS),
];
