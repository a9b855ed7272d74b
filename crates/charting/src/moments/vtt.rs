//! Chapters of a video as WebVTT (W3C Candidate Recommendation, 4 April 2019).

use std::fmt::Write;

use super::Moment;

/// A time as WebVTT writes it: `00:01:05.250`.
#[must_use]
pub fn timestamp(seconds: f64) -> String {
    stamp(millis(seconds))
}

fn millis(seconds: f64) -> u64 {
    (seconds.max(0.0) * 1000.0).round() as u64
}

fn stamp(millis: u64) -> String {
    let (seconds, rest) = (millis / 1000, millis % 1000);
    format!("{:02}:{:02}:{:02}.{rest:03}", seconds / 3600, seconds / 60 % 60, seconds % 60)
}

/// Chapters for these moments of one video, each with its title, in any order.
///
/// Chapters may be nested or apart, but not overlap (the recommendation's files "using only nested cues"), so one ends
/// where the next begins.
pub fn chapters<'a>(moments: impl IntoIterator<Item = (&'a Moment, String)>) -> String {
    let mut cues: Vec<(u64, u64, String)> = moments
        .into_iter()
        .map(|(moment, title)| {
            let start = millis(moment.start);
            (start, millis(moment.end).max(start + 1), title)
        })
        .collect();
    cues.sort_by_key(|cue| cue.0);
    for i in (1..cues.len()).rev() {
        let (next, following) = (cues[i].0, cues[i].1);
        let cue = &mut cues[i - 1];
        cue.1 = if cue.0 == next { following } else { cue.1.min(next) };
    }
    let mut out = "WEBVTT\n".to_owned();
    for (start, end, title) in cues {
        let _ = write!(out, "\n{} --> {}\n{}\n", stamp(start), stamp(end), escaped(&title));
    }
    out
}

/// A title in one line: `&`, `<` and `-->` have a meaning of their own in a cue.
fn escaped(title: &str) -> String {
    let mut out = String::with_capacity(title.len());
    for c in title.trim().chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    if out.is_empty() { "-".to_owned() } else { out }
}
