//! Files from other programs: any columns, units and sides; every unreadable row is reported with its line.

use proptest::{prelude::*, sample::select};
use standpoint_board::chart::{Chart, Ends, Point};
use standpoint_charting::import::{
    Column, Encoding, FaultKind, HeaderFault, Imported, LengthUnit, Mapping, ReadError, Sides, SpeedUnit, read_chart,
    read_headings, write_chart,
};
use standpoint_geometry::{End, Level, Stroke};

use crate::{file, larkfield};

fn read(text: &str, mapping: &Mapping) -> Imported {
    read_chart(text.as_bytes(), mapping, larkfield(Level::Club).clone()).unwrap()
}

fn refused(text: &str, mapping: &Mapping) -> HeaderFault {
    match read_chart(text.as_bytes(), mapping, larkfield(Level::Club)) {
        Err(ReadError::Header(fault)) => fault,
        other => panic!("{other:?}"),
    }
}

/// Columns in any order and under any names.
fn mapping() -> impl Strategy<Value = Mapping> {
    let lengths = select(vec![LengthUnit::Metres, LengthUnit::Feet]);
    let speeds = select(vec![SpeedUnit::Kmh, SpeedUnit::Mph, SpeedUnit::MetresPerSecond]);
    let sides = select(vec![Sides::AsFilmed, Sides::HitterNear]);
    let separator = select(vec![None, Some(';'), Some('\t')]);
    (lengths, speeds, sides, separator, any::<bool>()).prop_map(|(lengths, speeds, sides, separator, renamed)| {
        let name = |column: Column| (column, format!("Col {}", column.name().to_uppercase()));
        let columns = if renamed { Column::ALL.into_iter().map(name).collect() } else { Default::default() };
        Mapping { columns, lengths, speeds, sides, separator, ..Mapping::default() }
    })
}

fn close(a: &Chart, b: &Chart) -> Result<(), TestCaseError> {
    prop_assert_eq!(a.points.len(), b.points.len());
    for (p, q) in a.points.iter().zip(&b.points) {
        prop_assert_eq!((&p.session, &p.label, p.ends), (&q.session, &q.label, q.ends));
        prop_assert_eq!(p.shots.len(), q.shots.len());
        let told = |p: &Point| (p.server, p.side, p.winner, p.ending, p.miss, p.score.clone());
        prop_assert_eq!(told(p), told(q));
        prop_assert_eq!(p.video_offset.is_some(), q.video_offset.is_some());
        prop_assert!((p.video_offset.unwrap_or_default() - q.video_offset.unwrap_or_default()).abs() < 2e-4);
        let date = |chart: &Chart| chart.setup.session(&p.session).and_then(|session| session.date);
        prop_assert_eq!(date(a), date(b));
        for (s, t) in p.shots.iter().zip(&q.shots) {
            prop_assert_eq!((s.hitter, s.stroke, s.wing), (t.hitter, t.stroke, t.wing));
            prop_assert_eq!((s.struck_by, s.against), (t.struck_by, t.against));
            prop_assert_eq!((s.serve, s.call), (t.serve, t.call));
            let places = |s: &standpoint_board::chart::ObservedShot| {
                [Some(s.contact), s.landing, s.met, s.stood, s.hitter_place, s.opponent_place]
            };
            for (u, v) in places(s).into_iter().zip(places(t)) {
                prop_assert_eq!(u.is_some(), v.is_some());
                prop_assert!((u.unwrap_or_default() - v.unwrap_or_default()).length() < 2e-4);
            }
            let numbers =
                |s: &standpoint_board::chart::ObservedShot| [s.contact_height, s.speed, s.topspin, s.time, s.met_time];
            for (u, v) in numbers(s).into_iter().zip(numbers(t)) {
                prop_assert_eq!(u.is_some(), v.is_some());
                prop_assert!((u.unwrap_or_default() - v.unwrap_or_default()).abs() < 2e-4);
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    /// The same chart comes back whatever the units, the side from which places are told, the names and the separator:
    /// conversion and half-turn undo each other.
    #[test]
    fn a_chart_comes_back_from_a_table_written_in_any_way(chart in file::chart(), mapping in mapping()) {
        let mut table = Vec::new();
        write_chart(&chart, &mapping, &mut table).unwrap();
        let read = read_chart(table.as_slice(), &mapping, chart.setup.clone()).unwrap();
        prop_assert_eq!(&read.bad, &vec![]);
        prop_assert_eq!(read.rows as usize, chart.shots());
        close(&read.chart, &chart)?;
    }

    /// The order of columns does not matter; unknown columns are reported and ignored.
    #[test]
    fn columns_may_stand_in_any_order(chart in file::chart(), seed in 0usize..1000) {
        let mut table = Vec::new();
        write_chart(&chart, &Mapping::default(), &mut table).unwrap();
        let mut csv = csv_rows(std::str::from_utf8(&table).unwrap());
        let columns = csv[0].len();
        for row in &mut csv {
            row.rotate_left(seed % columns);
            row.insert(seed % columns, "weather".to_owned());
        }
        let text: Vec<String> = csv.iter().map(|row| row.join("\t")).collect();
        let read = read(&(text.join("\n") + "\n"), &Mapping::default());
        prop_assert_eq!(&read.bad, &vec![]);
        prop_assert_eq!(&read.unused, &vec!["weather".to_owned()]);
        close(&read.chart, &chart)?;
    }
}

/// The cells of a table whose cells contain no separators.
fn csv_rows(text: &str) -> Vec<Vec<String>> {
    let text = text.replace("\"Monday, \"\"late\"\"\"", "Monday; 'late'");
    let late = |cell: &str| cell.replace("Monday; 'late'", "\"Monday, \"\"late\"\"\"");
    text.lines().map(|line| line.split(',').map(late).collect()).collect()
}

#[test]
fn every_bad_row_is_told_with_its_line_and_the_rest_is_read() {
    let text = "\u{feff}point,hitter,contact_x,contact_y,landing_x,landing_y,stood_x,stood_y,stroke,speed,time,met_time\r\n\
                1,near,3,-12,-3,9,0.5,-13,topspin,100,0,1.2\r\n\
                1,far,abc,12,3,-9,,13,topspni,100,0,1\r\n\
                \r\n\
                1,near,3,-12,-3,9\r\n\
                1,near,3,12,-3,9,0.5,-13,,400,5,4\r\n\
                2,near,30,-12,-3,9,,,,,,\r\n\
                2,near,3,-12,,,,,,,,\r\n\
                2,far,\"2,5\",12,3,-9,,,,,,\r\n\
                3,near,,-12,-3,9,,,,,,\r\n\
                \"3\n4\",near,3,-12,-3,9,,,,,,\r\n\
                5,near,3,-12,-3,9,0.5,-13,,,,";
    let read = read(text, &Mapping::default());
    let lines: Vec<u64> = read.bad.iter().map(|row| row.line).collect();
    assert_eq!(lines, [3, 5, 6, 7, 8, 9, 10, 11], "{:#?}", read.bad);
    assert_eq!((read.rows, read.chart.shots() + read.bad.len()), (10, 10));
    let said: Vec<String> = read.bad.iter().map(ToString::to_string).collect();
    let all = said.join("\n");
    for expected in [
        "line 3, column `contact_x`: `abc` is not a number. Write a number such as 3.25",
        "line 3, column `stood_x`: one coordinate is given and the other is not.",
        "line 3, column `stroke`: `topspni` is not one of the names allowed here. Did you mean `Topspin`?",
        "line 5, the row has 6 cells, the heading 12.",
        "line 6, column `contact_y`: 12 m lies at the far end, and the hitter's place is at the other.",
        "line 6, column `speed`: 400 is outside 11 to 270 km/h.",
        "line 6, column `met_time`: 4 s is not after the contact at 5 s.",
        "line 7, column `contact_x`: 30 m lies outside the site",
        "line 8, column `landing_x`: the shot neither lands nor is it met.",
        "line 9, column `contact_x`: `2,5` is not a number. Write a point for the decimals",
        "line 10, column `contact_x`: the cell is blank. Write a number here.",
        "line 11, column `point`: the cell goes on over 2 lines. Close the quote, or remove it.",
    ] {
        assert!(all.contains(expected), "{expected}\nis not in\n{all}");
    }
    // Shots after a bad row are not joined to those before it.
    assert_eq!(read.chart.points.iter().map(|point| point.shots.len()).collect::<Vec<_>>(), [1, 1]);
}

#[test]
fn a_quote_that_is_not_closed_swallows_nothing_in_silence() {
    let text =
        "point,contact_x,contact_y,landing_x,landing_y\n1,3,-12,-3,9\n\"2,3,-12,-3,9\n3,3,-12,-3,9\n4,3,-12,-3,9\n";
    let read = read(text, &Mapping::default());
    assert_eq!((read.rows, read.bad.len(), read.bad[0].line), (2, 1, 3));
    assert!(matches!(read.bad[0].faults[0].kind, FaultKind::LineBreak { lines: 3.. }), "{:?}", read.bad[0]);
}

#[test]
fn bytes_that_are_no_text_are_told_where_they_matter() {
    let mut text = b"session,contact_x,contact_y,landing_x,landing_y\nSunday,3,-12,-3,9\n".to_vec();
    text.extend(b"S\xffnday,3,-12,-3,9\nSunday,3,-12,-3,9\n");
    let utf8 = Mapping { encoding: Some(Encoding::Utf8), ..Mapping::default() };
    let told = read_chart(text.as_slice(), &utf8, larkfield(Level::Club)).unwrap();
    assert_eq!((told.rows, told.bad.len(), told.bad[0].line), (3, 1, 3));
    assert_eq!(told.bad[0].faults[0].kind, FaultKind::NotText);
    // Bytes that are not UTF-8 are read as Windows-1252 by default, where 0xFF is y with diaeresis.
    let read = read_chart(text.as_slice(), &Mapping::default(), larkfield(Level::Club)).unwrap();
    assert_eq!((read.bad.len(), read.encoding), (0, Encoding::Windows1252));
    assert_eq!(read.chart.points[1].session, "S\u{ff}nday");
}

#[test]
fn a_heading_that_does_not_fit_is_told_with_what_there_is() {
    let plain = Mapping::default();
    assert_eq!(refused("", &plain), HeaderFault::Empty);
    assert_eq!(refused("1,2,3\n4,5,6\n", &plain), HeaderFault::NoHeader);
    let missing = refused("contact_x,y,landing_x,landing_y\n", &plain);
    assert!(missing.to_string().contains("`contact_y`") && missing.remedy().contains("`y`"), "{missing:?}");
    let twice = refused("contact_x,contact x,contact_y,landing_x,landing_y\n", &plain);
    assert_eq!(twice, HeaderFault::Twice { heading: "contact_x".to_owned() });
    let mapping = Mapping { columns: [(Column::ContactX, "CX".to_owned())].into(), ..Mapping::default() };
    let unknown = refused("cx,contact_y,landing_x,landing_y\n", &mapping);
    assert_eq!(unknown.remedy(), "Did you mean `cx`?");
}

#[test]
fn commas_may_stand_before_decimals_where_they_separate_nothing() {
    let text = "contact_x;contact_y;landing_x;landing_y;stroke\n3,25;-12,5;-2;9;SLICE\n";
    let read = read(text, &Mapping::default());
    let shot = read.chart.points[0].shots[0];
    assert!((shot.contact.x - 3.25).abs() < 1e-12 && (shot.contact.y + 12.5).abs() < 1e-12);
    assert_eq!(shot.stroke, Some(Stroke::Slice));
}

#[test]
fn who_struck_it_follows_from_the_end_or_from_the_column() {
    let filmed = read("contact_x,contact_y,landing_x,landing_y\n1,-12,2,9\n1,12,2,-9\n", &Mapping::default());
    let hitters: Vec<End> = filmed.chart.points.iter().map(|point| point.shots[0].hitter).collect();
    assert_eq!(hitters, [End::Near, End::Far]);
    let near = Mapping { sides: Sides::HitterNear, ..Mapping::default() };
    let text = "hitter,contact_x,contact_y,landing_x,landing_y,changed_ends\nnear,1,-12,2,9,no\nfar,1,-12,2,9,yes\n";
    let turned = read(text, &near);
    let shots: Vec<_> = turned.chart.points.iter().map(|point| (point.ends, point.shots[0])).collect();
    assert_eq!(shots[0].1.contact, -shots[1].1.contact);
    assert_eq!((shots[1].1.hitter, shots[0].0, shots[1].0), (End::Far, Ends::AsBegun, Ends::Changed));
}

#[test]
fn a_mapping_is_suggested_from_the_headings_and_can_be_kept() {
    let headings = read_headings("Contact X;CONTACT-Y;landing_x;LandingY;stroke\n".as_bytes(), None).unwrap();
    let mapping = Mapping { lengths: LengthUnit::Feet, ..Mapping::default() }.suggested(&headings);
    assert_eq!(mapping.columns[&Column::ContactY], "CONTACT-Y");
    assert_eq!((mapping.columns.len(), mapping.lengths), (5, LengthUnit::Feet));
}

#[test]
fn a_hundred_thousand_rows_are_read_and_their_counts_add_up() {
    let mut text = String::from("point,hitter,contact_x,contact_y,landing_x,landing_y,met_x,met_y,stood_x,stood_y\n");
    for i in 0..100_000u32 {
        let x = f64::from(i % 71) * 0.1 - 3.5;
        // Every thousandth row has an error.
        let slip = if i % 1000 == 999 { "o" } else { "" };
        text.push_str(&format!("{},near,{x:.2},-12.1{slip},{:.2},9.2,1.5,12.8,0.3,-12.9\n", i / 4, -x));
    }
    let read = read(&text, &Mapping::default());
    assert_eq!((read.rows, read.bad.len(), read.chart.shots()), (100_000, 100, 99_900));
    assert!(read.bad.iter().enumerate().all(|(i, bad)| bad.line == 1001 + 1000 * i as u64), "{:?}", read.bad[0]);
}

/// The example shipped with the program is read to the last row.
#[test]
fn the_example_has_no_bad_row() {
    let file = std::fs::File::open(concat!(env!("CARGO_MANIFEST_DIR"), "/../assets/examples/larkfield-practice.csv"));
    let imported = read_chart(file.unwrap(), &Mapping::default(), larkfield(Level::Club));
    let imported = imported.unwrap();
    assert_eq!((imported.rows, imported.bad.len(), imported.unused.len()), (96, 0, 0));
    assert_eq!(imported.chart.points.len(), 12);
}

/// Rows with overlong texts or control characters are refused, so that the chart read can be saved.
#[test]
fn texts_that_a_chart_cannot_keep_are_told() {
    let long = "x".repeat(500);
    let text = format!(
        "session,point,contact_x,contact_y,landing_x,landing_y\nSun\0day,1,3,-12,-3,9\nSunday,{long},3,-12,-3,9\n\
         Sunday,1,3,-12,-3,9\n"
    );
    let read = read(&text, &Mapping::default());
    let said: Vec<String> = read.bad.iter().map(ToString::to_string).collect();
    assert_eq!(said.len(), 2, "{said:?}");
    assert_eq!(said[0], "line 2, column `session`: the text contains the control character U+0000. Remove it.");
    assert!(said[1].starts_with("line 3, column `point`: the text has 500 characters,"), "{said:?}");
    assert!(standpoint_board::chart::file::to_text(&read.chart).is_ok());
}

/// Places a few millimetres off the site or over the net come from rounding; they are moved back, so that the chart can
/// be saved.
#[test]
fn places_that_rounding_has_pushed_over_a_border_come_back() {
    let setup = larkfield(Level::Club);
    let area = standpoint_board::PlayArea::of(&setup.court);
    let (x, y) = (area.half_width + 0.004, area.half_length + 0.004);
    let text = format!(
        "contact_x,contact_y,landing_x,landing_y,met_x,met_y,stood_x,stood_y\n{x},-{y},,,-{x},{y},0,0.004\n\
         1,0.004,,,2,-0.004,3,-11\n"
    );
    let read = read(&text, &Mapping { sides: Sides::HitterNear, ..Mapping::default() });
    assert_eq!(read.bad, vec![]);
    let shots: Vec<_> = read.chart.points.iter().map(|point| point.shots[0]).collect();
    assert_eq!((shots[0].contact.x, shots[0].contact.y), (area.half_width, -area.half_length));
    assert_eq!((shots[0].stood.unwrap().y, shots[1].contact.y, shots[1].met.unwrap().y), (0.0, 0.0, 0.0));
    assert_eq!(standpoint_board::chart::check::check(&read.chart), vec![]);
}
