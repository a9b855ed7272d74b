//! A scouting sheet of one page: serve, return, rally, what to play, and where to stand.

use std::fmt::Write as _;

use standpoint_board::chart::{Setup, score::CourtSide, score::ServeNumber};
use standpoint_charting::scouting::{self, Count, Habit, Profile, ServeProfile, Way};
use standpoint_geometry::{Court, Hand, Wing};
use standpoint_language::{mark, text, tr};
use standpoint_sheet::{
    Block, Column, Document, Drawing, Figure, Paper, SheetError, Table, faces::FAMILY, tokens::Tokens, xml,
};
use standpoint_workbench::words;

/// What stands at the foot of the page.
const FOOTER: &str = mark("Counted from charted matches and smoothed; a qualified coach decides.");
/// Width of the drawing of serves, points.
const SERVES: f32 = 200.0;
/// Sentences of each kind.
const SAID: usize = 4;
/// Shots that it takes before a share is told. As for habits.
const FEWEST: u64 = scouting::FEWEST;

/// The sheet.
///
/// # Errors
/// When the tokens of paper cannot be read.
pub fn document(profile: &Profile, setup: &Setup, paper: Paper) -> Result<Document, SheetError> {
    let card = setup.card(profile.player);
    let mut doc = Document::new(paper, tr!("Scouting: {}", card.name));
    doc.footer(text(FOOTER));
    doc.part(tr!("Scouting: {}", card.name));
    let hand = if card.hand == Hand::Left { text("left-handed") } else { text("right-handed") };
    let level =
        card.level().map_or_else(|| text("figures measured").to_owned(), |level| words::level(level).to_owned());
    let from = tr!("{0} points, {1} shots charted; {2}", profile.points, profile.shots, setup.title.trim());
    doc.note(format!("{hand}, {level}. {from}"));
    let drawing = serves(&setup.court.court(), profile)?;
    let caption = text(
        "Serves as the receiver sees them; above first, below second serves, in 100. The darker, the more often; a dash: \
         too few.",
    );
    let beside = vec![
        Block::Subheading(text("What to play").to_owned()),
        list(scouting::play(profile)),
        Block::Subheading(text("Where to stand").to_owned()),
        list(scouting::stand(profile)),
    ];
    doc.add(Block::Beside(Figure::new(drawing).width(SERVES).caption(caption), beside));
    doc.subheading(text("Serve"));
    doc.table(serve_table(profile));
    doc.subheading(text("Return"));
    doc.table(return_table(profile));
    doc.subheading(text("Rally"));
    doc.table(rally_table(profile));
    if !profile.tells.is_empty() {
        doc.subheading(text("Habits beyond luck"));
        doc.bullets(profile.tells.iter().take(3).map(scouting::sentence));
    }
    let strength = profile.serves.first().map_or(scouting::STRENGTH, |of| of.habit.strength);
    doc.note(tr!(
        "Shares are drawn towards what is expected by {} shots; nothing is told of fewer than {}. Wide and cross-court are \
         to the sideline, T and line along the middle or the same side.",
        words::decimal(strength, 0),
        FEWEST
    ));
    Ok(doc)
}

/// The same in plain words, for a terminal.
#[must_use]
pub fn in_words(profile: &Profile, setup: &Setup) -> String {
    let mut out = String::new();
    let name = &setup.card(profile.player).name;
    let _ = writeln!(out, "{}", tr!("{0}: {1} points, {2} shots charted", name, profile.points, profile.shots));
    for (title, lines) in [
        (text("What to play"), scouting::play(profile)),
        (text("Where to stand"), scouting::stand(profile)),
        (text("Habits beyond luck"), profile.tells.iter().map(scouting::sentence).collect()),
    ] {
        let _ = writeln!(out, "\n{title}");
        let lines = if lines.is_empty() { vec![scouting::nothing().to_owned()] } else { lines };
        for line in lines {
            let _ = writeln!(out, "  {line}");
        }
    }
    out
}

fn list(mut said: Vec<String>) -> Block {
    said.truncate(SAID);
    if said.is_empty() { Block::Paragraph(scouting::nothing().to_owned()) } else { Block::Bullets(said) }
}

fn hundred(share: f64) -> String {
    words::decimal(100.0 * share, 0)
}

/// A share with how many it is from, where there are enough.
fn counted(of: Count) -> String {
    match of.share() {
        Some(share) => tr!("{0} ({1})", hundred(share), of.whole),
        None => tr!("– ({})", of.whole),
    }
}

/// The three ways of a habit, where there are enough shots.
fn ways(habit: &Habit) -> [String; 3] {
    let told = habit.shots >= FEWEST;
    habit.shares.map(|share| if told { hundred(share.share.value) } else { "–".to_owned() })
}

fn side(side: CourtSide) -> &'static str {
    match side {
        CourtSide::Deuce => text("deuce side"),
        CourtSide::Ad => text("ad side"),
    }
}

fn number(number: ServeNumber) -> &'static str {
    match number {
        ServeNumber::First => text("First serve"),
        ServeNumber::Second => text("Second serve"),
    }
}

fn serve_table(profile: &Profile) -> Table {
    let mut table = Table::new([
        Column::left(text("In 100 (of how many)")),
        Column::right(text("Serves")),
        Column::right(text("Wide")),
        Column::right(text("Body")),
        Column::right(text("T")),
        Column::right(text("In")),
        Column::right(text("Points won")),
    ]);
    for of in &profile.serves {
        let [wide, body, tee] = ways(&of.habit);
        let name = format!("{}, {}", number(of.number), side(of.side));
        table.row([name, of.habit.shots.to_string(), wide, body, tee, counted(of.made), counted(of.won)]);
    }
    table
}

fn return_table(profile: &Profile) -> Table {
    let mut table = Table::new([
        Column::left(text("In 100 (of how many)")),
        Column::right(text("Back in the court")),
        Column::right(text("Of these deep")),
        Column::right(text("Points won")),
    ]);
    for of in &profile.returns {
        let name = match of.number {
            ServeNumber::First => text("Against first serves"),
            ServeNumber::Second => text("Against second serves"),
        };
        table.row([name.to_owned(), counted(of.made), counted(of.deep), counted(of.won)]);
    }
    table
}

fn rally_table(profile: &Profile) -> Table {
    let mut table = Table::new([
        Column::left(text("In 100 (of how many)")),
        Column::right(text("Shots")),
        Column::right(text("Cross-court")),
        Column::right(text("Middle")),
        Column::right(text("Line")),
        Column::right(text("Missed")),
    ]);
    for of in &profile.wings {
        let wing = match of.wing {
            Wing::Forehand => text("Forehand"),
            Wing::Backhand => text("Backhand"),
        };
        for (habit, when) in [(&of.at_ease, text("with time")), (&of.hurried, text("under pressure"))] {
            let [across, middle, line] = ways(habit);
            // Misses are of the wing, whatever the time.
            let missed = if std::ptr::eq(habit, &of.at_ease) { counted(of.missed) } else { String::new() };
            table.row([format!("{wing}, {when}"), habit.shots.to_string(), across, middle, line, missed]);
        }
    }
    table
}

/// The half of the receiver with both service boxes, each in three parts, seen from behind the receiver's baseline towards
/// the net: the deuce side of the server is on the right.
fn serves(court: &Court, profile: &Profile) -> Result<Drawing, SheetError> {
    let t = Tokens::load()?;
    let service = court.service_line.unwrap_or(court.half_length() / 2.0);
    let (half, below) = (court.half_width(), 1.6);
    let metre = SERVES / (2.0 * half as f32);
    let height = ((service + below) as f32) * metre;
    let n = xml::number;
    let mut body = String::new();
    for of in &profile.serves {
        zone(&mut body, of, t, (half as f32 * metre, service as f32 * metre));
    }
    let mut line = |from: (f32, f32), to: (f32, f32), width: f32, ink: &str| {
        let _ = write!(
            body,
            "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"{ink}\" stroke-width=\"{}\"/>",
            n(from.0),
            n(from.1),
            n(to.0),
            n(to.1),
            n(width)
        );
    };
    let depth = service as f32 * metre;
    line((0.0, 1.0), (SERVES, 1.0), 2.0, &t.ink);
    line((0.0, depth), (SERVES, depth), t.stroke.thin, &t.ink);
    line((SERVES / 2.0, 0.0), (SERVES / 2.0, depth), t.stroke.thin, &t.ink);
    for x in [t.stroke.thin / 2.0, SERVES - t.stroke.thin / 2.0] {
        line((x, 0.0), (x, height), t.stroke.thin, &t.ink);
    }
    Ok(Drawing::new(SERVES, height, body))
}

/// The three parts of a service box with the shares of one serve: first serves in the upper half, second in the lower.
fn zone(body: &mut String, of: &ServeProfile, t: &Tokens, (half, depth): (f32, f32)) {
    let n = xml::number;
    let told = of.habit.shots >= FEWEST;
    let upper = of.number == ServeNumber::First;
    let (top, tall) = if upper { (0.0, depth / 2.0) } else { (depth / 2.0, depth / 2.0) };
    let third = half / 3.0;
    for (i, way) in [Way::Line, Way::Middle, Way::Across].into_iter().enumerate() {
        let share = of.habit.shares[way as usize].share.value;
        // From the middle line outwards; the deuce box is on the right as the receiver sees it.
        let out = third * i as f32;
        let left = match of.side {
            CourtSide::Deuce => half + out,
            CourtSide::Ad => half - out - third,
        };
        let (shade, said) = if told { (share * 0.75, hundred(share)) } else { (0.0, "–".to_owned()) };
        let _ = write!(
            body,
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\" fill-opacity=\"{}\" stroke=\"{}\" \
             stroke-width=\"0.4\"/>",
            n(left),
            n(top),
            n(third),
            n(tall),
            t.soft,
            n(shade as f32),
            t.rule
        );
        let (x, y) = (left + third / 2.0, top + tall / 2.0 + 3.0);
        let ink = if shade > 0.4 { "#FFFFFF" } else { t.ink.as_str() };
        let _ = write!(
            body,
            "<text x=\"{}\" y=\"{}\" text-anchor=\"middle\" font-family=\"{FAMILY}, sans-serif\" font-weight=\"600\" \
             font-size=\"{}\" fill=\"{ink}\">{}</text>",
            n(x),
            n(y),
            n(t.text.body),
            xml::escaped(&said)
        );
    }
}

#[cfg(test)]
mod tests {
    use standpoint_board::chart::Chart;
    use standpoint_charting::scouting::profile;
    use standpoint_geometry::End;

    use super::*;

    #[test]
    fn it_is_one_page_even_with_nothing_to_say() {
        let setup = Setup::default();
        let profile = profile(&Chart::new(setup.clone()), &[], End::Near);
        for paper in [Paper::A4, Paper::Letter] {
            let doc = document(&profile, &setup, paper).unwrap();
            assert_eq!(doc.pages().unwrap().pages.len(), 1);
        }
        assert!(in_words(&profile, &setup).contains("Nothing that the evidence carries yet"));
    }
}
