//! Every stroke in the columns of a chart.

use std::io::{self, Write};

use glam::DVec2;
use standpoint_board::{
    Board,
    chart::{ObservedShot, Point, Setup},
    play_area::PlayArea,
};
use standpoint_charting::{
    import::{Column, Mapping, cells},
    spreadsheet::io_error,
};
use standpoint_geometry::{
    End,
    worth::{Ending, PlayedStroke},
};

use super::{ENDS, count::ended};
use crate::names;

/// Columns besides those of a chart: 1 or 2 for a serve, outcome of the stroke, and of the point.
const MORE: [&str; 4] = ["serve_number", "outcome", "won_by", "ended"];

/// Writes the strokes of points that come in order.
pub fn write(strokes: &[PlayedStroke], board: &Board, out: &mut dyn Write) -> io::Result<()> {
    let mapping = Mapping::default();
    let (area, setup) = (PlayArea::of(&board.court), Setup::default());
    let mut csv = csv::Writer::from_writer(out);
    csv.write_record(Column::ALL.map(Column::name).iter().chain(&MORE)).map_err(io_error)?;
    for strokes in strokes.chunk_by(|a, b| a.point == b.point) {
        let point = Point { label: (strokes[0].point + 1).to_string(), ..Point::default() };
        let (won_by, how) = last(strokes);
        let mut clock = 0.0;
        for (i, stroke) in strokes.iter().enumerate() {
            // The time of a fault is unrelated to the next stroke.
            clock += f64::from(stroke.available);
            let next = strokes.get(i + 1).filter(|next| next.striker != stroke.striker);
            let mut row = cells(&setup, &point, &shot(stroke, next, clock, &area), &mapping).to_vec();
            let serve = if stroke.serve > 0 { stroke.serve.to_string() } else { String::new() };
            row.extend([serve, outcome(stroke).to_owned(), won_by.to_owned(), how.to_owned()]);
            csv.write_record(&row).map_err(io_error)?;
        }
    }
    csv.flush()
}

/// Who won a point, and how it ended.
fn last(strokes: &[PlayedStroke]) -> (&'static str, &'static str) {
    strokes.last().map_or(("", ""), |last| {
        let striker = usize::from(last.striker);
        let winner = if last.won { striker } else { 1 - striker };
        (names::end(ENDS[winner.min(1)]), ended(last))
    })
}

/// Outcome of a stroke.
fn outcome(stroke: &PlayedStroke) -> &'static str {
    match stroke.ending {
        Ending::Returned => "met",
        Ending::Untouched => "untouched",
        Ending::Net => "net",
        Ending::Long => "long",
        Ending::Wide => "wide",
    }
}

/// A place of a player's own frame on the site.
fn placed([x, depth]: [f32; 2], end: End, area: &PlayArea) -> DVec2 {
    area.clamp_at(end, end.turn2(DVec2::new(f64::from(x), -f64::from(depth))))
}

fn shot(stroke: &PlayedStroke, next: Option<&PlayedStroke>, clock: f64, area: &PlayArea) -> ObservedShot {
    let end = ENDS[usize::from(stroke.striker).min(1)];
    let [x, depth, height] = stroke.contact;
    let contact = placed([x, depth], end, area);
    let [lands_x, lands_y] = stroke.landing.map(f64::from);
    let landing = match stroke.ending {
        // Where it meets the net on the way.
        Ending::Net => {
            let share = f64::from(depth) / (f64::from(depth) + lands_y).max(0.1);
            area.clamp_at(end.other(), end.turn2(DVec2::new(f64::from(x) + share * (lands_x - f64::from(x)), 0.0)))
        }
        _ => area.clamp_at(end.other(), end.turn2(DVec2::new(lands_x, lands_y))),
    };
    // A ball taken before the bounce has not landed.
    let landed = next.is_none_or(|next| !next.air);
    ObservedShot {
        hitter: end,
        contact,
        contact_height: Some(f64::from(height)),
        landing: landed.then_some(landing),
        met: next.map(|next| placed([next.contact[0], next.contact[1]], end.other(), area)),
        stood: next.map(|next| placed(next.other, end, area)),
        hitter_place: None,
        opponent_place: Some(placed(stroke.other, end.other(), area)),
        stroke: Some(stroke.stroke),
        wing: Some(stroke.wing),
        speed: (stroke.speed > 0.0).then(|| f64::from(stroke.speed)),
        topspin: Some(f64::from(stroke.topspin)),
        time: Some(clock),
        met_time: next.map(|next| clock + f64::from(next.available)),
        ..ObservedShot::default()
    }
}

#[cfg(test)]
mod tests {
    use standpoint_charting::import::read_chart;
    use standpoint_geometry::worth::stand_in;
    use standpoint_workbench::solved::of_board;

    use super::*;
    use crate::simulate::play;

    #[test]
    fn what_is_written_reads_back_as_a_chart() {
        let board = Board::demo();
        let (game, _) = stand_in(&of_board(&board));
        let strokes = play::points(&game, 40, 3, 1).unwrap();
        let mut file = Vec::new();
        write(&strokes, &board, &mut file).unwrap();
        let read = read_chart(file.as_slice(), &Mapping::default(), Setup::of_board(&board)).unwrap();
        assert_eq!(read.bad, []);
        assert_eq!(read.rows, strokes.len() as u64);
        assert_eq!(read.chart.points.len(), 40);
        assert_eq!(read.unused, MORE);
        let shots = read.chart.points.iter().flat_map(|point| &point.shots);
        for (shot, stroke) in shots.zip(&strokes) {
            assert_eq!(shot.hitter, ENDS[usize::from(stroke.striker)]);
            let own = shot.hitter.turn2(shot.contact);
            assert!((own.x - f64::from(stroke.contact[0])).abs() < 2e-4);
            assert!((own.y + f64::from(stroke.contact[1])).abs() < 2e-4);
            assert_eq!(shot.stroke, Some(stroke.stroke));
            // The player who meets the ball stands on the other side.
            let other = shot.hitter.other().turn2(shot.opponent_place.unwrap());
            assert!(other.y < 0.0);
            if let (Some(landing), Ending::Returned) = (shot.landing, stroke.ending) {
                assert!((shot.hitter.turn2(landing).y - f64::from(stroke.landing[1])).abs() < 2e-4);
            }
        }
        let text = String::from_utf8(file).unwrap();
        assert!(text.lines().skip(1).all(|line| line.contains(",near,") || line.contains(",far,")));
    }
}
