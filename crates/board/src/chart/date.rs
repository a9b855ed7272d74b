//! A day of the calendar.

use std::fmt;
use std::str::FromStr;

use standpoint_language::{text, tr};

/// A day of the Gregorian calendar, written as in ISO 8601: `2026-05-03`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

/// A text that is not a date.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}", tr!("`{}` is not a date", found))]
pub struct NoDate {
    /// Text found.
    pub found: String,
}

impl NoDate {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> String {
        text("Write the year, the month and the day, as in 2026-05-03.").to_owned()
    }
}

impl Date {
    /// A day, if it exists.
    #[must_use]
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap = year.is_multiple_of(4) && !year.is_multiple_of(100) || year.is_multiple_of(400);
        let days = match month {
            2 => 28 + u8::from(leap),
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => return None,
        };
        ((1..=9999).contains(&year) && (1..=days).contains(&day)).then_some(Self { year, month, day })
    }

    /// Days since the first of January of the year 1 (after Reingold & Dershowitz, Calendrical Calculations).
    #[must_use]
    pub fn days(self) -> i32 {
        let (year, month, day) = (i32::from(self.year), i32::from(self.month), i32::from(self.day));
        // Years that begin with March end with the leap day.
        let (y, m) = if month > 2 { (year, month - 3) } else { (year - 1, month + 9) };
        365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + day - 307
    }

    /// The day this many days after the first of January 1970; `None` outside the calendar.
    #[must_use]
    pub fn of_unix_day(day: i64) -> Option<Self> {
        // Counted from the first of March of the year 0, in spans of 400 years (after Hinnant, "chrono-compatible low-level
        // date algorithms").
        let from_march = day + 719_468;
        let span = from_march.div_euclid(146_097);
        let of_span = from_march.rem_euclid(146_097);
        let year = (of_span - of_span / 1460 + of_span / 36_524 - of_span / 146_096) / 365;
        let of_year = of_span - (365 * year + year / 4 - year / 100);
        let month = (5 * of_year + 2) / 153;
        let of_month = of_year - (153 * month + 2) / 5 + 1;
        let (month, later) = if month < 10 { (month + 3, 0) } else { (month - 9, 1) };
        let year = year + span * 400 + later;
        Self::new(u16::try_from(year).ok()?, u8::try_from(month).ok()?, u8::try_from(of_month).ok()?)
    }

    /// The first date in a text, such as the name of a file.
    #[must_use]
    pub fn within(text: &str) -> Option<Self> {
        let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        text.char_indices().find_map(|(at, _)| {
            let part = text.get(at..at + 10)?;
            let apart = !digit(text[..at].chars().next_back()) && !digit(text[at + 10..].chars().next());
            part.parse().ok().filter(|_| apart)
        })
    }
}

impl FromStr for Date {
    type Err = NoDate;

    fn from_str(text: &str) -> Result<Self, NoDate> {
        let parts: Vec<&str> = text.split('-').collect();
        let number = |part: &str, digits: usize| {
            (part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit()))
                .then(|| part.parse::<u16>().ok())?
        };
        let date = match parts.as_slice() {
            [year, month, day] => number(year, 4).zip(number(month, 2)).zip(number(day, 2)),
            _ => None,
        };
        date.and_then(|((year, month), day)| Self::new(year, month as u8, day as u8))
            .ok_or_else(|| NoDate { found: crate::file::tree::shortened(text) })
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_of_the_calendar_are_told_from_others() {
        // Leap years by the Gregorian rule: 2000 and 2024 are, 1900 and 2026 are not.
        for (text, is) in [
            ("2026-05-03", true),
            ("2024-02-29", true),
            ("2000-02-29", true),
            ("1900-02-29", false),
            ("2026-02-29", false),
            ("2026-13-01", false),
            ("2026-04-31", false),
            ("26-04-30", false),
            ("2026-4-30", false),
            ("2026-+4-30", false),
        ] {
            assert_eq!(text.parse::<Date>().is_ok(), is, "{text}");
        }
        let date: Date = "2026-05-03".parse().unwrap();
        assert_eq!(date.to_string(), "2026-05-03");
        assert!(date < "2026-11-02".parse().unwrap());
    }

    #[test]
    fn days_are_counted_through_leap_years() {
        let days = |text: &str| text.parse::<Date>().unwrap().days();
        assert_eq!((days("0001-01-01"), days("0001-03-01")), (0, 59));
        assert_eq!((days("2024-03-01") - days("2024-02-28"), days("2026-03-01") - days("2026-02-28")), (2, 1));
        // 400 Gregorian years have 146,097 days.
        assert_eq!(days("2400-06-15") - days("2000-06-15"), 146_097);
    }

    #[test]
    fn days_since_1970_are_days_of_the_calendar() {
        assert_eq!(Date::of_unix_day(0), Date::new(1970, 1, 1));
        // 2000-03-01 is day 11,017 (`date -u -d 2000-03-01 +%s` divided by 86,400).
        assert_eq!(Date::of_unix_day(11_017), Date::new(2000, 3, 1));
        let first = Date::new(1970, 1, 1).unwrap().days();
        for day in (-700_000..700_000).step_by(97) {
            let date = Date::of_unix_day(day).unwrap();
            assert_eq!(i64::from(date.days() - first), day, "{date}");
        }
        assert_eq!(Date::of_unix_day(i64::from(i32::MAX)), None);
    }

    #[test]
    fn a_date_is_found_in_a_name() {
        assert_eq!(Date::within("final 2026-05-03 ü.csv"), Date::new(2026, 5, 3));
        assert_eq!(Date::within("ü2026-05-03"), Date::new(2026, 5, 3));
        assert_eq!(Date::within("12026-05-031"), None);
        assert_eq!(Date::within("no date"), None);
    }
}
