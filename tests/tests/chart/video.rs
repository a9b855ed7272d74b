//! Moments in a video: chapters by the grammar of WebVTT (W3C Candidate Recommendation, 4 April 2019), and a table.

use glam::DVec2;
use proptest::{collection::vec, prelude::*};
use standpoint_board::chart::{
    Chart, ObservedShot, Point,
    score::{self, Ending, Log},
};
use standpoint_charting::moments::{
    Around, Missing, Moments, chapters, of_points, of_shots, timestamp, title, write_csv,
};
use standpoint_geometry::{End, Level, Stroke};

use crate::larkfield;

/// A cue as the file has it: milliseconds, and the text without its escapes.
type Cue = (u64, u64, String);

/// Reads a file of chapters by the productions of the recommendation, and nothing that they do not allow.
fn parsed(text: &str) -> Result<Vec<Cue>, String> {
    // WebVTT file body: the signature, two or more line terminators, then blocks apart by blank lines.
    let rest = text.strip_prefix("WEBVTT\n").ok_or("no signature")?;
    if text.contains(['\r', '\0']) {
        return Err("a control character".to_owned());
    }
    let mut cues = Vec::new();
    if rest.is_empty() {
        return Ok(cues);
    }
    for block in rest.strip_prefix('\n').ok_or("no blank line after the signature")?.split("\n\n") {
        let mut lines = block.trim_end_matches('\n').split('\n');
        let timings = lines.next().ok_or("no timings")?;
        // WebVTT cue timings: timestamp, one or more blanks, "-->", one or more blanks, timestamp.
        let (start, end) = timings.split_once(" --> ").ok_or(format!("no arrow in {timings:?}"))?;
        let (start, end) = (stamp(start)?, stamp(end)?);
        // "greater than or equal to the start time offsets of all previous cues"; the end "greater than the start".
        if end <= start || cues.iter().any(|(before, ..): &Cue| *before > start) {
            return Err(format!("cues out of order at {timings:?}"));
        }
        // Chapter title text: one line, not empty here, of cue text spans and character references.
        let title = lines.next().ok_or("no title")?;
        if title.is_empty() || title.contains("-->") || lines.next().is_some() {
            return Err(format!("not a title: {block:?}"));
        }
        cues.push((start, end, unescaped(title)?));
    }
    // Nested cues: "either one cue's times lie fully within the other's, or they do not overlap".
    for (i, (start, end, _)) in cues.iter().enumerate() {
        for (other_start, other_end, _) in &cues[i + 1..] {
            let apart = end <= other_start;
            let within = start <= other_start && other_end <= end || other_start <= start && end <= other_end;
            if !apart && !within {
                return Err(format!("{start} to {end} overlaps {other_start} to {other_end}"));
            }
        }
    }
    Ok(cues)
}

/// WebVTT timestamp: two or more digits of hours, two of minutes and of seconds, each at most 59, three of milliseconds.
fn stamp(text: &str) -> Result<u64, String> {
    let wrong = || format!("not a timestamp: {text:?}");
    let digits = |part: &str, count: usize| {
        let right = part.bytes().all(|byte| byte.is_ascii_digit()) && part.len() >= count;
        right.then(|| part.parse::<u64>().unwrap()).ok_or_else(wrong)
    };
    let parts: Vec<&str> = text.split(':').collect();
    let [hours, minutes, rest] = parts.as_slice() else { return Err(wrong()) };
    let (seconds, millis) = rest.split_once('.').ok_or_else(wrong)?;
    if minutes.len() != 2 || seconds.len() != 2 || millis.len() != 3 {
        return Err(wrong());
    }
    let (minutes, seconds) = (digits(minutes, 2)?, digits(seconds, 2)?);
    if minutes > 59 || seconds > 59 {
        return Err(wrong());
    }
    Ok(((digits(hours, 2)? * 60 + minutes) * 60 + seconds) * 1000 + digits(millis, 3)?)
}

/// A cue text span has no `&` and no `<`; a character reference is one of HTML's.
fn unescaped(text: &str) -> Result<String, String> {
    if text.contains('<') {
        return Err(format!("a tag in {text:?}"));
    }
    let mut out = String::new();
    let mut parts = text.split('&');
    out.push_str(parts.next().unwrap_or_default());
    for part in parts {
        let (name, rest) = part.split_once(';').ok_or(format!("a bare & in {text:?}"))?;
        let known = [("amp", '&'), ("lt", '<'), ("gt", '>')];
        out.push(known.iter().find(|(known, _)| *known == name).ok_or(format!("&{name};"))?.1);
        out.push_str(rest);
    }
    Ok(out)
}

fn serve(time: f64) -> ObservedShot {
    ObservedShot {
        hitter: End::Near,
        contact: DVec2::new(0.6, -11.9),
        landing: Some(DVec2::new(-2.4, 5.0)),
        stroke: Some(Stroke::Serve),
        time: Some(time),
        met_time: Some(time + 0.7),
        ..ObservedShot::default()
    }
}

/// Points that begin at these times.
fn charted(times: &[f64]) -> Chart {
    let mut chart = Chart::new(larkfield(Level::Club));
    for (i, time) in times.iter().enumerate() {
        let label = (i + 1).to_string();
        chart.points.push(Point { label, shots: vec![serve(*time)], ..Point::default() });
    }
    chart
}

fn all(chart: &Chart) -> Moments {
    of_points(chart, &score::log::log(chart), 0..chart.points.len(), Around::default())
}

fn titled(moments: &Moments, chart: &Chart) -> String {
    chapters(moments.list.iter().map(|moment| (moment, title(moment, &chart.setup))))
}

#[test]
fn times_are_written_as_the_grammar_has_them() {
    for (seconds, text) in [
        (0.0, "00:00:00.000"),
        (65.25, "00:01:05.250"),
        (3599.9996, "01:00:00.000"),
        (360_000.001, "100:00:00.001"),
        (-1.0, "00:00:00.000"),
    ] {
        assert_eq!(timestamp(seconds), text);
        assert!(stamp(&timestamp(seconds)).is_ok());
    }
}

#[test]
fn a_match_comes_out_as_chapters() {
    let chart = charted(&[10.0, 12.0, 40.0]);
    let cues = parsed(&titled(&all(&chart), &chart)).unwrap();
    let times: Vec<(u64, u64)> = cues.iter().map(|cue| (cue.0, cue.1)).collect();
    // The first would go on until 13.2 s; the second begins at 10.5 s.
    assert_eq!(times, [(8500, 10_500), (10_500, 15_200), (38_500, 43_200)]);
    assert_eq!(cues[1].2, "Point 2 · 0-0 15-0 · Mara Quell serves · Mara Quell wins: ace");
    assert_eq!(parsed(&chapters([])), Ok(vec![]));
}

#[test]
fn names_cannot_break_the_file() {
    let mut chart = charted(&[10.0, 20.0]);
    chart.setup.near.name = "Mara <b>&amp; Quell --> Ivo".to_owned();
    chart.points[1].label = "two\nlines\r\n\nand\0more".to_owned();
    let cues = parsed(&titled(&all(&chart), &chart)).unwrap();
    assert!(cues[0].2.contains("Mara <b>&amp; Quell --> Ivo serves"), "{cues:?}");
    assert!(cues[1].2.starts_with("Point two lines   and more"), "{cues:?}");
}

#[test]
fn an_offset_holds_until_another_is_told_and_in_its_session_only() {
    let mut chart = charted(&[10.0, 20.0, 5.0, 30.0]);
    chart.points[0].video_offset = Some(100.0);
    // The clock was set back to zero after a pause; without the offset the point has no place.
    assert_eq!(all(&chart).missing, [(2, Missing::ClockBack)]);
    chart.points[2].video_offset = Some(160.0);
    chart.points[3].session = "Monday".to_owned();
    let moments = all(&chart);
    let starts: Vec<f64> = moments.list.iter().map(|moment| moment.start + 1.5).collect();
    assert_eq!(starts, [110.0, 120.0, 165.0, 30.0]);
    assert_eq!(moments.sessions(), ["", "Monday"]);
    chart.points[1].shots[0].time = None;
    chart.points[1].shots[0].met_time = None;
    chart.points[3].video_offset = Some(-600.0);
    assert_eq!(all(&chart).missing, [(1, Missing::Untimed), (3, Missing::BeforeVideo)]);
}

#[test]
fn single_shots_have_moments_of_their_own() {
    let mut chart = charted(&[10.0]);
    let mut back = serve(11.0);
    (back.hitter, back.contact) = (End::Far, DVec2::new(-2.6, 12.0));
    (back.stroke, back.landing) = (Some(Stroke::Topspin), Some(DVec2::new(1.0, -9.0)));
    chart.points[0].shots.push(back);
    chart.points[0].video_offset = Some(5.0);
    let moments = of_shots(&chart, &Log::default(), [(0, 1), (0, 0), (9, 9)], Around { before: 0.0, after: 0.0 });
    let found: Vec<_> = moments.list.iter().map(|moment| (moment.shot, moment.start)).collect();
    assert_eq!(found, [(Some(0), 15.0), (Some(1), 16.0)]);
    assert_eq!(title(&moments.list[1], &chart.setup), "Point 1, shot 2");
}

#[test]
fn the_table_says_the_same() {
    let mut chart = charted(&[10.0, 70.0]);
    chart.setup.session_mut("").video = "court 3.mp4".to_owned();
    chart.points[1].ending = Some(Ending::Ace);
    let mut table = Vec::new();
    write_csv(&all(&chart), &chart.setup, &mut table).unwrap();
    let mut reader = csv::Reader::from_reader(table.as_slice());
    let rows: Vec<csv::StringRecord> = reader.records().collect::<Result<_, _>>().unwrap();
    let last: Vec<&str> = rows[1].iter().collect();
    let title = "Point 2 · 0-0 15-0 · Mara Quell serves · Mara Quell wins: ace";
    let expected =
        ["68.500", "73.200", "00:01:08.500", "", "court 3.mp4", "2", "", "0-0 15-0", "Mara Quell", "Mara Quell", title];
    assert_eq!(last, expected);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    /// Whatever the times and the names, the file obeys the grammar and has a chapter for each point with a place.
    #[test]
    fn any_moments_make_a_sound_file(
        steps in vec(0.0..9.0f64, 0..12),
        offset in -20.0..5000.0f64,
        name in "\\PC{0,12}",
    ) {
        let mut time = 0.0;
        let times: Vec<f64> = steps.iter().map(|step| { time += step; time }).collect();
        let mut chart = charted(&times);
        chart.setup.near.name = name;
        if let Some(point) = chart.points.first_mut() {
            point.video_offset = Some(offset);
        }
        let moments = all(&chart);
        prop_assert_eq!(moments.list.len() + moments.missing.len(), times.len());
        let cues = parsed(&titled(&moments, &chart)).map_err(TestCaseError::fail)?;
        prop_assert_eq!(cues.len(), moments.list.len());
    }
}
