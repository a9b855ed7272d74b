//! Charts: read and well, or refused with a place and a remedy.

use standpoint_board::chart::{Chart, check, file};
use standpoint_charting::{
    audit::{Auditor, Compare, asks},
    import::{Mapping, read_chart, write_chart},
};

use super::board::refused;

/// Shots that are audited: each takes several milliseconds.
const AUDITED: usize = 2;

/// Reads bytes as a chart.
pub fn check(bytes: &[u8]) {
    match file::from_bytes(bytes) {
        Err(report) => refused(&report, bytes),
        Ok(chart) => {
            assert_eq!(check::check(&chart), []);
            comes_back(&chart);
            goes_through_a_table(&chart);
            can_be_audited(&chart);
        }
    }
}

/// What is saved is what was read, and saving again changes nothing.
pub fn comes_back(chart: &Chart) {
    let text = file::to_text(chart).expect("a chart that is well is written");
    let read = file::from_text(&text).unwrap_or_else(|report| panic!("{report}"));
    let mut tidy = chart.clone();
    tidy.tidy();
    assert_eq!(read, tidy);
    assert_eq!(file::to_text(&read).as_ref(), Ok(&text));
}

/// A chart written as a table has a row for every shot, and every row is read again.
pub fn goes_through_a_table(chart: &Chart) {
    let mut table = Vec::new();
    write_chart(chart, &Mapping::default(), &mut table).expect("memory can be written");
    let read = read_chart(table.as_slice(), &Mapping::default(), chart.setup.clone()).expect("its own heading");
    assert_eq!(read.bad, [], "{}", String::from_utf8_lossy(&table));
    assert_eq!((read.rows as usize, read.chart.shots()), (chart.shots(), chart.shots()));
}

/// The audit takes any chart that is well.
fn can_be_audited(chart: &Chart) {
    let mut auditor = Auditor::new(&chart.setup, Compare::default());
    for ask in asks(chart).take(AUDITED) {
        let shot = auditor.audit(&ask);
        let _ = (shot.title(), shot.board(&chart.setup));
    }
}
