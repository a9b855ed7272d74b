//! The drawings of the report: places on the court, histograms, a trend.

use std::fmt::Write as _;

use glam::DVec2;
use standpoint_charting::stats::Histogram;
use standpoint_geometry::Court;
use standpoint_sheet::{Drawing, SheetError, faces::FAMILY, tokens::Tokens, xml};
use standpoint_workbench::words;

use super::places::Places;

/// Ground shown around the lines of the half, m.
const BESIDE_M: f64 = 1.2;
const BEHIND_M: f64 = 4.0;
const BEYOND_NET_M: f64 = 0.8;
/// Most places with lines to the recommended places.
const WITH_LINES: usize = 80;

/// Draws with the inks of paper.
pub struct Pencil {
    tokens: &'static Tokens,
    body: String,
}

impl Pencil {
    /// State of one drawing.
    ///
    /// # Errors
    /// When the tokens of paper cannot be read.
    pub fn new() -> Result<Self, SheetError> {
        Ok(Self { tokens: Tokens::load()?, body: String::new() })
    }

    fn add(&mut self, element: std::fmt::Arguments<'_>) {
        // Writing to a string does not fail.
        let _ = self.body.write_fmt(element);
    }

    fn line(&mut self, from: (f32, f32), to: (f32, f32), width: f32, ink: &str, dash: &str) {
        let n = xml::number;
        let dash = if dash.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dash}\"") };
        self.add(format_args!(
            "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"{ink}\" stroke-width=\"{}\"{dash}/>",
            n(from.0),
            n(from.1),
            n(to.0),
            n(to.1),
            n(width)
        ));
    }

    fn bar(&mut self, x: f32, y: f32, width: f32, height: f32) {
        let (n, ink) = (xml::number, self.tokens.soft.as_str());
        let text = format!(
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{ink}\"/>",
            n(x),
            n(y),
            n(width.max(0.1)),
            n(height.max(0.0))
        );
        self.body.push_str(&text);
    }

    fn text(&mut self, at: (f32, f32), anchor: &str, text: &str) {
        let (n, ink, size) = (xml::number, self.tokens.soft.as_str(), self.tokens.text.small);
        let text = format!(
            "<text x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\" font-family=\"{FAMILY}, sans-serif\" font-weight=\"500\" \
             font-size=\"{}\" fill=\"{ink}\">{}</text>",
            n(at.0),
            n(at.1),
            n(size),
            xml::escaped(text)
        );
        self.body.push_str(&text);
    }

    fn done(self, width: f32, height: f32) -> Drawing {
        Drawing::new(width, height, self.body)
    }
}

/// The half of a player with every place: discs for actual places, rings for recommended ones.
///
/// # Errors
/// When the tokens of paper cannot be read.
pub fn court(court: &Court, places: &Places, width: f32) -> Result<Drawing, SheetError> {
    let mut pencil = Pencil::new()?;
    let (half, long) = (court.outer_half_width(), court.half_length());
    let metre = f64::from(width) / (2.0 * (half + BESIDE_M));
    let height = ((long + BEHIND_M + BEYOND_NET_M) * metre) as f32;
    let at = |place: DVec2| {
        let x = ((place.x + half + BESIDE_M) * metre) as f32;
        let y = ((BEYOND_NET_M - place.y) * metre) as f32;
        (x.clamp(0.0, width), y.clamp(0.0, height))
    };
    let t = pencil.tokens;
    for line in court.lines().iter().filter(|line| line.from.y.min(line.to.y) < 0.1) {
        let near = |place: DVec2| at(DVec2::new(place.x, place.y.min(0.0)));
        pencil.line(near(line.from), near(line.to), t.stroke.thin, &t.rule, "");
    }
    let post = half + 0.6;
    pencil.line(at(DVec2::new(-post, 0.0)), at(DVec2::new(post, 0.0)), 1.8, &t.ink, "");
    let n = xml::number;
    if places.kept.len() <= WITH_LINES {
        for spot in &places.kept {
            let goal = at(spot.goal);
            pencil.line(at(spot.stood), goal, t.stroke.hair, &t.soft, "");
            let ink = t.soft.as_str();
            pencil.add(format_args!(
                "<circle cx=\"{}\" cy=\"{}\" r=\"1.6\" fill=\"none\" stroke=\"{ink}\" stroke-width=\"0.6\"/>",
                n(goal.0),
                n(goal.1)
            ));
        }
    }
    for spot in &places.kept {
        let (x, y) = at(spot.stood);
        let radius = 1.2 + (spot.cost * 16.0).min(3.2) as f32;
        let ink = t.ink.as_str();
        pencil.add(format_args!(
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"{ink}\" fill-opacity=\"0.55\"/>",
            n(x),
            n(y),
            n(radius)
        ));
    }
    Ok(pencil.done(width, height))
}

/// A histogram with its unit factor, decimals and title.
pub type Titled<'h> = (&'h Histogram, f64, usize, String);

/// Histograms beside each other, each with its title and the ends of its scale.
///
/// # Errors
/// When the tokens of paper cannot be read.
pub fn histograms(all: &[Titled<'_>], width: f32) -> Result<Drawing, SheetError> {
    let mut pencil = Pencil::new()?;
    let gap = 18.0;
    let each = (width - gap * (all.len() as f32 - 1.0)) / all.len().max(1) as f32;
    for (i, of) in all.iter().enumerate() {
        histogram(&mut pencil, of, i as f32 * (each + gap), each);
    }
    Ok(pencil.done(width, BARS + HEAD + FOOT))
}

/// Height of bars, of the title above them and of the scale below, points.
const BARS: f32 = 70.0;
const HEAD: f32 = 16.0;
const FOOT: f32 = 12.0;

fn histogram(pencil: &mut Pencil, (of, factor, figures, title): &Titled<'_>, left: f32, width: f32) {
    let first = of.counts.iter().position(|count| *count > 0).unwrap_or(0);
    let last = of.counts.iter().rposition(|count| *count > 0).unwrap_or(of.counts.len().saturating_sub(1));
    let most = of.counts.iter().copied().max().unwrap_or(0).max(1) as f32;
    let step = width / (last + 1 - first) as f32;
    let (t, ground) = (pencil.tokens, HEAD + BARS);
    for (i, count) in of.counts[first..=last].iter().enumerate() {
        let tall = (BARS - 4.0) * *count as f32 / most;
        pencil.bar(left + i as f32 * step + 0.4, ground - tall, step - 0.8, tall);
    }
    pencil.line((left, ground), (left + width, ground), t.stroke.thin, &t.rule, "");
    let value = |i: usize| (of.low + of.step * i as f64) * factor;
    let zero = -of.low / of.step - first as f64;
    let foot = ground + FOOT - 2.0;
    if (0.0..=(last + 1 - first) as f64).contains(&zero) {
        let x = zero as f32 * step;
        pencil.line((left + x, HEAD), (left + x, ground), t.stroke.thin, &t.ink, "3 2");
        if x > 24.0 && x < width - 24.0 {
            pencil.text((left + x, foot), "middle", "0");
        }
    }
    pencil.text((left, foot), "start", &words::decimal(value(first), *figures));
    pencil.text((left + width, foot), "end", &words::decimal(value(last + 1), *figures));
    pencil.text((left, 8.0), "start", title);
}

/// Two lines over blocks or sessions: across solid, along dashed.
///
/// # Errors
/// When the tokens of paper cannot be read.
pub fn trend(across: &[f64], along: &[f64], unit: &str, width: f32) -> Result<Drawing, SheetError> {
    let mut pencil = Pencil::new()?;
    let (height, left) = (92.0, 26.0);
    let all = || across.iter().chain(along).copied();
    let high = all().fold(0.1, f64::max);
    let low = all().fold(-0.1, f64::min);
    let y = |value: f64| 8.0 + (height - 16.0) * ((high - value) / (high - low)) as f32;
    let x = |i: usize, count: usize| left + 4.0 + (width - left - 8.0) * (i as f32 + 0.5) / count.max(1) as f32;
    let t = pencil.tokens;
    pencil.line((left, y(0.0)), (width, y(0.0)), t.stroke.thin, &t.rule, "");
    for value in [high, 0.0, low] {
        pencil.text((left - 3.0, y(value) + 2.8), "end", &words::decimal(value, 1));
    }
    pencil.text((left + 2.0, 7.0), "start", unit);
    for (values, dash, ink) in [(across, "", &t.ink), (along, "4 2.5", &t.soft)] {
        for (i, pair) in values.windows(2).enumerate() {
            pencil.line((x(i, values.len()), y(pair[0])), (x(i + 1, values.len()), y(pair[1])), 1.1, ink, dash);
        }
    }
    Ok(pencil.done(width, height))
}
