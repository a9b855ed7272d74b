//! Reads an observed shot from the cells of a row, and collects every fault.

use std::str;
use std::sync::Arc;

use csv::ByteRecord;
use glam::DVec2;
use standpoint_geometry::{End, units::RPM};

use super::column::{Column, plain};
use super::fault::{CellFault, FaultKind};
use super::mapping::{Layout, Mapping, Sides};
use super::point_facts::PointFacts;
use super::whose::Whose;
use crate::spreadsheet::unguarded;
use standpoint_board::chart::check::{IN_THE_NET, SPEED_KMH, TIME_S, TOPSPIN_RPM};
use standpoint_board::chart::ends::Ends;
use standpoint_board::chart::model::{ObservedShot, Who};
use standpoint_board::chart::score::notation;
use standpoint_board::check::LINE_LIMIT;
use standpoint_board::file::Named;
use standpoint_board::play_area::{HIGHEST_CONTACT, LOWEST_CONTACT, PlayArea};

/// Slack for places, m: rounding in a file must not push a place off the site or over the net.
const SLACK_M: f64 = 5e-3;
/// Words for yes and no.
const YES_NO: [(&str, bool); 6] =
    [("yes", true), ("no", false), ("true", true), ("false", false), ("1", true), ("0", false)];

/// A place with its column and its owner.
type Sited = (Option<DVec2>, (Column, &'static str));

/// The cells of one row.
pub(super) struct Cells<'a> {
    pub record: &'a ByteRecord,
    pub layout: &'a Layout,
    pub mapping: &'a Mapping,
    pub area: &'a PlayArea,
    /// Whether decimals may follow a comma.
    pub decimal_comma: bool,
    pub faults: Vec<CellFault>,
}

impl<'a> Cells<'a> {
    fn fault(&mut self, column: Column, kind: FaultKind) {
        self.faults.push(CellFault { column: self.layout.heading(column).to_owned(), kind });
    }

    /// The text of a cell; `None` if it is blank or the file has no such column.
    pub fn text(&mut self, column: Column) -> Option<&'a str> {
        let bytes = self.record.get(self.layout.at[column.index()]?)?;
        if bytes.contains(&b'\n') {
            let lines = 1 + bytes.iter().filter(|b| **b == b'\n').count() as u64;
            self.fault(column, FaultKind::LineBreak { lines });
            return None;
        }
        match str::from_utf8(bytes) {
            Ok(text) => Some(text.trim()).filter(|text| !text.is_empty()),
            Err(_) => {
                self.fault(column, FaultKind::NotText);
                None
            }
        }
    }

    /// A text that fits into a chart.
    pub fn line(&mut self, column: Column) -> Option<&'a str> {
        let text = unguarded(self.text(column)?);
        let found = text.chars().count();
        if found > LINE_LIMIT {
            self.fault(column, FaultKind::TextTooLong { found, limit: LINE_LIMIT });
        }
        if let Some(c) = text.chars().find(|c| c.is_control()) {
            self.fault(column, FaultKind::ControlCharacter { found: u32::from(c) });
        }
        Some(text)
    }

    fn number(&mut self, column: Column) -> Option<f64> {
        let text = self.text(column)?;
        let with_point = if self.decimal_comma { text.replace(',', ".") } else { text.to_owned() };
        let number = with_point.parse().ok().filter(|number: &f64| number.is_finite());
        if number.is_none() {
            self.fault(column, FaultKind::NotANumber { found: shortened(text) });
        }
        number
    }

    /// A number within bounds; `per_unit` converts from the unit of the file to that of the chart.
    fn bounded(&mut self, column: Column, per_unit: f64, (low, high): (f64, f64), unit: &'static str) -> Option<f64> {
        let found = self.number(column)?;
        let value = found * per_unit;
        if (low..=high).contains(&value) {
            return Some(value);
        }
        let rounded = |bound: f64| (bound / per_unit * 100.0).round() / 100.0;
        self.fault(column, FaultKind::OutOfRange { found, low: rounded(low), high: rounded(high), unit });
        None
    }

    fn choice<T: Copy>(&mut self, column: Column, names: impl Iterator<Item = (&'static str, T)>) -> Option<T> {
        let text = self.text(column)?;
        let text = self.mapping.value(column, text);
        let wanted = plain(text);
        let names: Vec<_> = names.collect();
        let found = names.iter().find(|(name, _)| plain(name) == wanted).map(|(_, choice)| *choice);
        if found.is_none() {
            let known = names.iter().map(|(name, _)| *name).collect();
            self.fault(column, FaultKind::UnknownName { found: shortened(text), known });
        }
        found
    }

    fn named<T: Named>(&mut self, column: Column) -> Option<T> {
        self.choice(column, T::NAMES.iter().copied())
    }

    /// A place as the file has it, in metres.
    fn place(&mut self, x: Column, y: Column) -> Option<DVec2> {
        let unit = self.mapping.lengths;
        let blank = [x, y].map(|column| self.is_blank(column));
        let pair = (self.number(x), self.number(y));
        if blank[0] != blank[1] {
            self.fault(if blank[0] { x } else { y }, FaultKind::HalfAPlace);
        }
        let (found_x, found_y) = (pair.0?, pair.1?);
        let place = DVec2::new(found_x, found_y) * unit.metres();
        let mut on_site = true;
        for (column, found, metres, limit) in
            [(x, found_x, place.x, self.area.half_width), (y, found_y, place.y, self.area.half_length)]
        {
            if metres.abs() > limit + SLACK_M {
                let limit = limit / unit.metres();
                self.fault(column, FaultKind::OffSite { found, limit, unit: unit.sign() });
                on_site = false;
            }
        }
        // Moves a place back if rounding has pushed it off the site.
        let limits = DVec2::new(self.area.half_width, self.area.half_length);
        on_site.then(|| place.clamp(-limits, limits))
    }

    fn is_blank(&self, column: Column) -> bool {
        let cell = self.layout.at[column.index()].and_then(|i| self.record.get(i));
        cell.is_none_or(|bytes| bytes.trim_ascii().is_empty())
    }

    /// Checks the end of a place; `slack` is the tolerance beyond the net, m.
    fn place_at(&mut self, place: Option<DVec2>, (column, whose): (Column, &'static str), end: End, slack: f64) {
        let Some(place) = place else { return };
        if place.y * end.sign() > slack {
            let unit = self.mapping.lengths;
            let found = (place.y / unit.metres() * 1000.0).round() / 1000.0;
            let found_end = if place.y < 0.0 { "near" } else { "far" };
            self.fault(column, FaultKind::WrongEnd { found, unit: unit.sign(), end: found_end, whose });
        }
    }

    /// The shot of the row and the ends of the players; valid only without faults.
    pub fn shot(&mut self) -> (ObservedShot, Ends) {
        use Column as C;
        let places = [
            (C::ContactX, C::ContactY, "the hitter's"),
            (C::LandingX, C::LandingY, "the landing"),
            (C::MetX, C::MetY, "the opponent's"),
            (C::StoodX, C::StoodY, "the hitter's"),
            (C::HitterX, C::HitterY, "the hitter's"),
            (C::OpponentX, C::OpponentY, "the opponent's"),
        ]
        .map(|(x, y, whose)| (self.place(x, y), (y, whose)));
        for column in [C::ContactX, C::ContactY] {
            if self.is_blank(column) {
                self.fault(column, FaultKind::Blank);
            }
        }
        let [contact, landing, met, stood, hitter_place, opponent_place] = places;
        let whose = self.choice(C::Hitter, Whose::NAMES.into_iter());
        let changed = self.changed_ends();
        let ends = changed.unwrap_or_else(|| self.ends_by(whose, contact.0));
        let named = whose.map(|whose| whose.end(ends));
        // The frame of the file: the hitter's end in it.
        let at = match self.mapping.sides {
            Sides::HitterNear => End::Near,
            Sides::AsFilmed => named.unwrap_or(match contact.0 {
                Some(place) if place.y > 0.0 => End::Far,
                _ => End::Near,
            }),
        };
        for (place, column) in [contact, stood, hitter_place] {
            self.place_at(place, column, at, SLACK_M);
        }
        for ((place, column), slack) in [(landing, IN_THE_NET), (met, SLACK_M), (opponent_place, SLACK_M)] {
            self.place_at(place, column, at.other(), slack);
        }
        if self.is_blank(C::LandingX) && self.is_blank(C::LandingY) && self.is_blank(C::MetX) && self.is_blank(C::MetY)
        {
            self.fault(C::LandingX, FaultKind::NowhereToGo);
        }
        let hitter = match self.mapping.sides {
            Sides::HitterNear => named.unwrap_or_default(),
            Sides::AsFilmed => at,
        };
        // Moves a place back if rounding has pushed it over the net.
        let own_side = |(place, column): Sited, end: End| {
            let back = |place: DVec2| DVec2::new(place.x, (place.y * end.sign()).min(0.0) * end.sign());
            (place.map(back), column)
        };
        let [contact, stood, hitter_place] = [contact, stood, hitter_place].map(|place| own_side(place, at));
        let [met, opponent_place] = [met, opponent_place].map(|place| own_side(place, at.other()));
        let turn = |place: Option<DVec2>| {
            place.map(|place| if self.mapping.sides == Sides::HitterNear { hitter.turn2(place) } else { place })
        };
        let [contact, landing, met, stood, hitter_place, opponent_place] =
            [contact, landing, met, stood, hitter_place, opponent_place].map(|(place, _)| turn(place));
        let (lengths, speeds) = (self.mapping.lengths, self.mapping.speeds);
        let height = (LOWEST_CONTACT, HIGHEST_CONTACT);
        let speed = (SPEED_KMH.0 / 3.6, SPEED_KMH.1 / 3.6);
        let spin = (TOPSPIN_RPM.0 * RPM, TOPSPIN_RPM.1 * RPM);
        let shot = ObservedShot {
            hitter,
            contact: contact.unwrap_or_default(),
            contact_height: self.bounded(C::ContactHeight, lengths.metres(), height, lengths.sign()),
            landing,
            met,
            stood,
            hitter_place,
            opponent_place,
            stroke: self.named(C::Stroke),
            wing: self.named(C::Wing),
            speed: self.bounded(C::Speed, speeds.metres_per_second(), speed, speeds.sign()),
            topspin: self.bounded(C::Topspin, RPM, spin, "rpm"),
            time: self.bounded(C::Time, 1.0, TIME_S, "s"),
            met_time: self.bounded(C::MetTime, 1.0, TIME_S, "s"),
            struck_by: Who { level: self.named(C::HitterLevel), hand: self.named(C::HitterHand) },
            against: Who { level: self.named(C::OpponentLevel), hand: self.named(C::OpponentHand) },
            serve: self.named(C::Serve),
            call: self.named(C::Call),
        };
        if let (Some(struck), Some(met)) = (shot.time, shot.met_time)
            && met <= struck
        {
            self.fault(C::MetTime, FaultKind::MetTooEarly { met, struck });
        }
        (shot, ends)
    }

    /// The ends of the players where they were not told: a hitter known by name is at one of them.
    fn ends_by(&self, whose: Option<Whose>, contact: Option<DVec2>) -> Ends {
        match (whose, contact, self.mapping.sides) {
            (Some(Whose::Began(player)), Some(contact), Sides::AsFilmed) => {
                let at = if contact.y > 0.0 { End::Far } else { End::Near };
                if at == player { Ends::AsBegun } else { Ends::Changed }
            }
            _ => Ends::AsBegun,
        }
    }

    /// The facts of the row about its point.
    pub fn point_facts(&mut self, ends: Ends) -> PointFacts {
        use Column as C;
        let date = self.text(C::Date).and_then(|text| match text.parse() {
            Ok(date) => Some(date),
            Err(_) => {
                self.fault(C::Date, FaultKind::NotADate { found: shortened(text) });
                None
            }
        });
        PointFacts {
            date,
            server: self.end_of(C::Server, ends),
            side: self.named(C::Side),
            winner: self.end_of(C::Winner, ends),
            ending: self.named(C::Ending),
            miss: self.named(C::Miss),
            score: self.score(),
            video_offset: self.bounded(C::VideoOffset, 1.0, (-TIME_S.1, TIME_S.1), "s"),
        }
    }

    /// A score, as far as it can be read without the format of the match.
    fn score(&mut self) -> Option<Arc<str>> {
        let text = self.line(Column::Score)?;
        if notation::is_written_as_one(text) {
            return Some(text.into());
        }
        self.fault(Column::Score, FaultKind::NotAScore { found: shortened(text) });
        None
    }

    /// Checks the facts of a row against earlier rows of the same point, and adds new ones.
    pub fn agree(&mut self, before: &PointFacts, now: &PointFacts) -> PointFacts {
        use Column as C;
        let fields = [
            (C::Server, differ(before.server, now.server)),
            (C::Side, differ(before.side, now.side)),
            (C::Winner, differ(before.winner, now.winner)),
            (C::Ending, differ(before.ending, now.ending)),
            (C::Miss, differ(before.miss, now.miss)),
            (C::Score, differ(before.score.as_ref(), now.score.as_ref())),
            (C::VideoOffset, differ(before.video_offset, now.video_offset)),
        ];
        for (column, differs) in fields {
            if differs {
                self.fault(column, FaultKind::OtherThanBefore);
            }
        }
        before.clone().or(now)
    }

    /// Whether the players had changed ends, where it was told.
    fn changed_ends(&mut self) -> Option<Ends> {
        let changed = self.choice(Column::ChangedEnds, YES_NO.into_iter())?;
        Some(if changed { Ends::Changed } else { Ends::AsBegun })
    }

    /// The end of a player.
    fn end_of(&mut self, column: Column, ends: Ends) -> Option<End> {
        self.choice(column, Whose::NAMES.into_iter()).map(|whose| whose.end(ends))
    }
}

fn differ<T: PartialEq>(before: Option<T>, now: Option<T>) -> bool {
    before.zip(now).is_some_and(|(before, now)| before != now)
}

/// The first 40 characters, for a message.
fn shortened(text: &str) -> String {
    standpoint_board::file::shortened(text)
}
