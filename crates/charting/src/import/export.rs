//! Writes charts as CSV files according to a mapping.

use std::io::{self, Write};

use glam::DVec2;
use standpoint_geometry::units::RPM;

use super::column::Column;
use super::mapping::{Mapping, Sides};
use crate::report::names;
use crate::spreadsheet::{guarded, io_error};
use standpoint_board::chart::ends::Ends;
use standpoint_board::chart::model::{Chart, ObservedShot, Point, Setup};
use standpoint_board::file::Named;

/// Decimals of written numbers: a tenth of a millimetre.
const DECIMALS: usize = 4;

/// Writes a chart with every column; [`super::read_chart`] with the same mapping reads it back.
///
/// # Errors
/// When it cannot be written.
pub fn write_chart(chart: &Chart, mapping: &Mapping, out: impl Write) -> io::Result<()> {
    let separator = mapping.separator.and_then(|separator| u8::try_from(separator).ok()).unwrap_or(b',');
    let mut csv = csv::WriterBuilder::new().delimiter(separator).from_writer(out);
    let heading = |column: Column| mapping.columns.get(&column).map_or(column.name(), String::as_str);
    csv.write_record(Column::ALL.map(heading)).map_err(io_error)?;
    for point in &chart.points {
        for shot in &point.shots {
            csv.write_record(cells(&chart.setup, point, shot, mapping)).map_err(io_error)?;
        }
    }
    csv.flush()
}

/// The cells of a shot in the order of [`Column::ALL`], as [`write_chart`] writes them.
#[must_use]
pub fn cells(setup: &Setup, point: &Point, shot: &ObservedShot, mapping: &Mapping) -> [String; Column::ALL.len()] {
    Column::ALL.map(|column| cell(setup, point, shot, mapping, column))
}

fn cell(setup: &Setup, point: &Point, shot: &ObservedShot, mapping: &Mapping, column: Column) -> String {
    use Column as C;
    let metres = mapping.lengths.metres();
    let own = |place: DVec2| match mapping.sides {
        Sides::AsFilmed => place,
        Sides::HitterNear => shot.hitter.turn2(place),
    };
    let x = |place: Option<DVec2>| number(place.map(|place| own(place).x), metres);
    let y = |place: Option<DVec2>| number(place.map(|place| own(place).y), metres);
    let word = |name: Option<&str>| name.unwrap_or_default().to_owned();
    match column {
        C::Session => guarded(&point.session).into_owned(),
        C::Point => guarded(&point.label).into_owned(),
        C::ChangedEnds => if point.ends == Ends::Changed { "yes" } else { "no" }.to_owned(),
        C::Hitter => names::end(shot.hitter).to_owned(),
        C::ContactX => x(Some(shot.contact)),
        C::ContactY => y(Some(shot.contact)),
        C::ContactHeight => number(shot.contact_height, metres),
        C::LandingX => x(shot.landing),
        C::LandingY => y(shot.landing),
        C::MetX => x(shot.met),
        C::MetY => y(shot.met),
        C::StoodX => x(shot.stood),
        C::StoodY => y(shot.stood),
        C::HitterX => x(shot.hitter_place),
        C::HitterY => y(shot.hitter_place),
        C::OpponentX => x(shot.opponent_place),
        C::OpponentY => y(shot.opponent_place),
        C::Stroke => word(shot.stroke.map(names::stroke)),
        C::Wing => word(shot.wing.map(names::wing)),
        C::Speed => number(shot.speed, mapping.speeds.metres_per_second()),
        C::Topspin => number(shot.topspin, RPM),
        C::Time => number(shot.time, 1.0),
        C::MetTime => number(shot.met_time, 1.0),
        C::HitterLevel => word(shot.struck_by.level.map(|level| names::level(Some(level)))),
        C::HitterHand => word(shot.struck_by.hand.map(names::hand)),
        C::OpponentLevel => word(shot.against.level.map(|level| names::level(Some(level)))),
        C::OpponentHand => word(shot.against.hand.map(names::hand)),
        C::Date => {
            setup.session(&point.session).and_then(|session| session.date).map_or_else(String::new, |d| d.to_string())
        }
        C::Server => word(point.server.map(names::end)),
        C::Side => small(point.side),
        C::Serve => small(shot.serve),
        C::Call => small(shot.call),
        C::Winner => word(point.winner.map(names::end)),
        C::Ending => small(point.ending),
        C::Miss => small(point.miss),
        C::Score => point.score.clone(),
        C::VideoOffset => number(point.video_offset, 1.0),
    }
}

/// The name of a choice in small letters: `forced_error`.
fn small<T: Named>(choice: Option<T>) -> String {
    let mut small = String::new();
    for c in choice.map_or("", Named::name).chars() {
        if c.is_uppercase() && !small.is_empty() {
            small.push('_');
        }
        small.extend(c.to_lowercase());
    }
    small
}

/// A number in a unit; blank where there is none.
fn number(value: Option<f64>, unit: f64) -> String {
    let Some(value) = value else { return String::new() };
    let text = format!("{:.DECIMALS$}", value / unit);
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}
