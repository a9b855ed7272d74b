//! Words and encodings of other programs, and matches whose facts are noted beside the shots.

use standpoint_board::chart::{
    Chart, Date, Ends,
    score::{CourtSide, Ending, Miss, ServeCall, ServeNumber, log},
};
use standpoint_charting::import::{
    Column, Encoding, Imported, Mapping, ReadError, read_chart, suggested_value, unknown_values, write_chart,
};
use standpoint_geometry::{End, Level, Stroke, Wing};

use crate::larkfield;

fn read(bytes: &[u8], mapping: &Mapping) -> Imported {
    read_chart(bytes, mapping, larkfield(Level::Club)).unwrap()
}

const GERMAN: &str = "point;changed_ends;hitter;contact_x;contact_y;landing_x;landing_y;wing;stroke;ending\n\
                      1;;Mara;3,0;-12,0;-3,0;9,0;VH;Smash;\n\
                      1;;Tander;-3,0;12,0;3,0;-9,0;Rückhand;Schmetterball;UE\n\
                      2;;Ivo Tander;3,0;-12,0;-3,0;9,0;VH;banana;\n";

#[test]
fn words_of_a_file_are_suggested_and_read() {
    let setup = larkfield(Level::Club);
    let unknown = unknown_values(GERMAN.as_bytes(), &Mapping::default(), &setup, 200).unwrap();
    assert_eq!(unknown[&Column::Wing].keys().collect::<Vec<_>>(), ["Rückhand", "VH"]);
    assert_eq!(unknown[&Column::Wing]["VH"], 2);
    let mapping = Mapping::default().with_suggested_values(&unknown, &setup);
    assert!(!mapping.values[&Column::Stroke].contains_key("banana"), "nothing is made up for what nobody knows");
    let imported = read(GERMAN.as_bytes(), &mapping);
    assert_eq!(imported.bad.len(), 1);
    assert!(imported.bad[0].to_string().contains("line 4, column `stroke`: `banana` is not one of the names"));
    let point = &imported.chart.points[0];
    let strokes: Vec<_> = point.shots.iter().map(|shot| (shot.hitter, shot.wing, shot.stroke)).collect();
    let overhead = Some(Stroke::Overhead);
    let expected = [(End::Near, Some(Wing::Forehand), overhead), (End::Far, Some(Wing::Backhand), overhead)];
    assert_eq!((strokes.as_slice(), point.ending), (expected.as_slice(), Some(Ending::UnforcedError)));
}

#[test]
fn players_who_are_named_tell_at_which_ends_they_are() {
    let mut mapping = Mapping::default();
    let names = [("Mara Quell", "near_player"), ("Ivo Tander", "far_player")];
    for column in [Column::Hitter, Column::Winner] {
        let values = names.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
        mapping.values.insert(column, values);
    }
    let text = "point,hitter,contact_x,contact_y,landing_x,landing_y,winner\n\
                1,Mara Quell,3,-12,-3,9,\n1,Ivo Tander,-3,12,3,-9,Ivo Tander\n\
                2,ivo tander,3,-12,-3,9,Mara Quell\n";
    let imported = read(text.as_bytes(), &mapping);
    assert_eq!(imported.bad, []);
    let told: Vec<_> = imported.chart.points.iter().map(|point| (point.ends, point.winner)).collect();
    assert_eq!(told, [(Ends::AsBegun, Some(End::Far)), (Ends::Changed, Some(End::Far))]);
    assert_eq!(imported.chart.points[1].shots[0].hitter, End::Near);
}

#[test]
fn suggestions_are_words_that_the_columns_hold() {
    let setup = larkfield(Level::Club);
    for (column, value, meaning) in [
        (Column::Wing, "FH", Some("forehand")),
        (Column::Wing, "rh", Some("backhand")),
        (Column::HitterHand, "RH", Some("right")),
        (Column::Stroke, "Smash", Some("overhead")),
        (Column::Hitter, "Quell", Some("near_player")),
        (Column::Serve, "2nd", Some("second")),
        (Column::Ending, "Doppelfehler", Some("double fault")),
        (Column::Wing, "", None),
        (Column::Hitter, "", None),
        (Column::ContactX, "FH", None),
    ] {
        assert_eq!(suggested_value(column, value, &setup), meaning, "{value}");
    }
}

#[test]
fn files_in_other_encodings_say_the_same() {
    let setup = larkfield(Level::Club);
    let unknown = unknown_values(GERMAN.as_bytes(), &Mapping::default(), &setup, 200).unwrap();
    let mapping = Mapping::default().with_suggested_values(&unknown, &setup);
    let plain = read(GERMAN.as_bytes(), &mapping);
    let utf_16: Vec<u8> = std::iter::once(0xfeff).chain(GERMAN.encode_utf16()).flat_map(u16::to_le_bytes).collect();
    let code_page: Vec<u8> = GERMAN.chars().map(|c| u8::try_from(u32::from(c)).unwrap()).collect();
    for (bytes, encoding) in [(utf_16, Encoding::Utf16Le), (code_page, Encoding::Windows1252)] {
        let read = read(&bytes, &mapping);
        assert_eq!(read.encoding, encoding);
        assert_eq!((&read.chart, &read.bad, read.rows), (&plain.chart, &plain.bad, plain.rows));
    }
}

#[test]
fn a_mapping_of_an_earlier_program_is_read() {
    let mapping: Mapping = ron_of("(columns: {contact_x: \"hit x\"}, lengths: feet, sides: hitter_near)");
    assert!(mapping.values.is_empty() && mapping.encoding.is_none());
    let with: Mapping = ron_of("(values: {wing: {\"VH\": \"forehand\"}}, encoding: Some(windows1252))");
    assert_eq!(with.encoding, Some(Encoding::Windows1252));
}

fn ron_of(text: &str) -> Mapping {
    ron::from_str(text).unwrap()
}

const MATCH: &str = "date,session,point,server,side,serve,call,winner,ending,miss,score,video_offset,hitter,contact_x,contact_y,landing_x,landing_y,stroke\n\
    2026-05-03,Cup,1,near,deuce,first,fault,,,,0-0 0-0,-3.5,near,0.6,-11.9,-4.6,5,serve\n\
    2026-05-03,Cup,1,,,second,let,,,,,,near,0.6,-11.9,-2.4,5,serve\n\
    2026-05-03,Cup,1,,,second,,far,Forced Error,net,,,near,0.6,-11.9,-2.4,5,serve\n\
    2026-05-03,Cup,2,near,,,,,,,,,near,-0.6,-11.9,2.4,5,serve\n\
    2026-05-03,Cup,2,far,,,,,,,,,near,-0.6,-11.9,2.4,5,serve\n\
    2026-05-03,Cup,3,nobody,,third,,,,,40,,near,-0.6,-11.9,2.4,5,serve\n\
    2026-05-33,Cup,4,,,,,,,,,,near,-0.6,-11.9,2.4,5,serve\n";

#[test]
fn a_match_is_read_from_a_table_and_slips_are_told() {
    let imported = read(MATCH.as_bytes(), &Mapping::default());
    let point = &imported.chart.points[0];
    assert_eq!((point.server, point.side, point.winner), (Some(End::Near), Some(CourtSide::Deuce), Some(End::Far)));
    assert_eq!((point.ending, point.miss), (Some(Ending::ForcedError), Some(Miss::Net)));
    assert_eq!((point.score.as_str(), point.video_offset), ("0-0 0-0", Some(-3.5)));
    let serves: Vec<_> = point.shots.iter().map(|shot| (shot.serve, shot.call)).collect();
    let (first, second) = (Some(ServeNumber::First), Some(ServeNumber::Second));
    assert_eq!(serves, [(first, Some(ServeCall::Fault)), (second, Some(ServeCall::Let)), (second, None)]);
    assert_eq!(imported.chart.setup.session("Cup").unwrap().date, Date::new(2026, 5, 3));
    let said: Vec<String> = imported.bad.iter().map(ToString::to_string).collect();
    let all = said.join("\n");
    for expected in [
        "line 6, column `server`: a row before it says something else of the same point. Say it in one row",
        "line 7, column `server`: `nobody` is not one of the names allowed here. Write one of",
        "line 7, column `serve`: `third` is not one of the names allowed here.",
        "line 7, column `score`: `40` is not a score. Write the finished sets, the games and the points",
        "line 8, column `date`: `2026-05-33` is not a date. Write the year, the month and the day",
    ] {
        assert!(all.contains(expected), "{expected}\nis not in\n{all}");
    }
    let log = log::log(&imported.chart);
    assert_eq!(log.sessions[0].points[1].score, "0-0 0-15");
}

#[test]
fn charts_of_the_same_players_are_added_and_others_are_not() {
    let mut chart = read(MATCH.as_bytes(), &Mapping::default()).chart;
    let mut more = Chart::new(larkfield(Level::Club));
    more.setup.title = "Monday".to_owned();
    more.points.push(chart.points[0].clone());
    more.setup.session_mut("Cup").video = "court 3.mp4".to_owned();
    let points = chart.points.len();
    assert_eq!(chart.add(more.clone()), Ok(()));
    assert_eq!(chart.points.len(), points + 1);
    let session = chart.setup.session("Cup").unwrap();
    assert_eq!((session.date, session.video.as_str()), (Date::new(2026, 5, 3), "court 3.mp4"));
    more.setup.far.name = "Lena Brook".to_owned();
    assert!(chart.add(more).is_err());
    assert_eq!(chart.points.len(), points + 1);
}

#[test]
fn an_endless_row_is_refused_with_its_line() {
    let head = b"point,contact_x,contact_y,landing_x,landing_y\n1,3,-12,-3,9\n".to_vec();
    let endless = |text: &[u8]| {
        let input = std::io::Read::chain(head.as_slice(), Forever { text: text.to_vec(), at: 0, given: 0 });
        read_chart(input, &Mapping::default(), larkfield(Level::Club)).unwrap_err()
    };
    // One line without an end, and a quote that is not closed, with lines in it.
    for text in [&b"1,"[..], b"\"1,3,-12,-3,9\n"] {
        let error = endless(text);
        assert!(matches!(error, ReadError::EndlessRow { line: 3, .. }), "{error}");
        assert!(error.to_string().contains("goes on for more than 1048576 bytes"), "{error}");
        assert!(error.remedy().contains("Close a quote"), "{}", error.remedy());
    }
    let heading = Forever { text: b"point,".to_vec(), at: 0, given: 0 };
    let error = read_chart(heading, &Mapping::default(), larkfield(Level::Club)).unwrap_err();
    assert!(matches!(error, ReadError::EndlessRow { line: 1, .. }), "{error}");
}

#[test]
fn a_fault_names_no_more_of_a_heading_than_a_line() {
    let long = "x".repeat(600_000);
    let text = format!("{long},contact_y,landing_x,landing_y\nabc,-12,-3,9\n");
    let mapping = Mapping { columns: [(Column::ContactX, long)].into(), ..Mapping::default() };
    let bad = read(text.as_bytes(), &mapping).bad;
    assert!(bad[0].faults[0].column.len() == 200 && bad[0].to_string().contains("`abc` is not a number"));
}

/// A text over and over; a quote only at the first time. Fails the check when more is asked for than a row may have.
struct Forever {
    text: Vec<u8>,
    at: usize,
    given: usize,
}

impl std::io::Read for Forever {
    fn read(&mut self, out: &mut [u8]) -> std::io::Result<usize> {
        let rest = &self.text[self.at..];
        let count = rest.len().min(out.len());
        out[..count].copy_from_slice(&rest[..count]);
        self.at += count;
        self.given += count;
        assert!(self.given < 4 << 20, "memory grows with the row");
        if self.at == self.text.len() {
            self.at = 0;
            self.text.retain(|byte| *byte != b'"');
        }
        Ok(count)
    }
}

#[test]
fn what_is_told_of_a_match_is_written_in_words() {
    let chart = read(MATCH.as_bytes(), &Mapping::default()).chart;
    let mut table = Vec::new();
    write_chart(&chart, &Mapping::default(), &mut table).unwrap();
    let table = String::from_utf8(table).unwrap();
    let row = table.lines().nth(3).unwrap();
    assert!(row.ends_with("2026-05-03,near,deuce,second,,far,forced_error,net,0-0 0-0,-3.5"), "{row}");
}
