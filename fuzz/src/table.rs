//! Tables of shots (CSV): every row is read or told with its line, and what is read is well.

use standpoint_board::chart::{Setup, check};
use standpoint_charting::import::{LengthUnit, Mapping, ReadError, Sides, SpeedUnit, read_chart, read_headings};

use super::chart::{comes_back, goes_through_a_table};

/// Reads bytes as a table; the first one says in which units and from which side.
pub fn check(bytes: &[u8]) {
    let Some((how, table)) = bytes.split_first() else { return };
    let mapping = mapping(*how);
    let lines = lines(table);
    if let Ok(headings) = read_headings(table, mapping.separator) {
        let suggested = mapping.suggested(&headings);
        read(table, &suggested, lines);
    }
    read(table, &mapping, lines);
}

fn mapping(how: u8) -> Mapping {
    Mapping {
        lengths: if how & 1 == 0 { LengthUnit::Metres } else { LengthUnit::Feet },
        speeds: [SpeedUnit::Kmh, SpeedUnit::Mph, SpeedUnit::MetresPerSecond, SpeedUnit::Kmh][usize::from(how >> 1 & 3)],
        sides: if how & 8 == 0 { Sides::AsFilmed } else { Sides::HitterNear },
        separator: [None, Some(','), Some(';'), Some('\t')][usize::from(how >> 4 & 3)],
        ..Mapping::default()
    }
}

/// Lines, however they end.
fn lines(table: &[u8]) -> u64 {
    let pairs = table.windows(2).filter(|pair| *pair == b"\r\n").count();
    let ends = table.iter().filter(|byte| matches!(byte, b'\n' | b'\r')).count();
    (ends - pairs) as u64 + 1
}

fn read(table: &[u8], mapping: &Mapping, lines: u64) {
    let imported = match read_chart(table, mapping, Setup::default()) {
        Ok(imported) => imported,
        Err(ReadError::Io(error)) => panic!("memory can be read: {error}"),
        Err(fault) => {
            assert!(!fault.to_string().is_empty() && !fault.remedy().is_empty());
            return;
        }
    };
    assert_eq!(imported.rows, (imported.chart.shots() + imported.bad.len()) as u64);
    let mut before = 1;
    for bad in &imported.bad {
        assert!(bad.line > before && bad.line <= lines, "line {} of {lines} after {before}", bad.line);
        before = bad.line;
        assert!(!bad.faults.is_empty() && bad.faults.iter().all(|fault| !fault.kind.remedy().is_empty()));
    }
    assert_eq!(check::check(&imported.chart), []);
    comes_back(&imported.chart);
    goes_through_a_table(&imported.chart);
}
