//! Published tables, and curves beside them.

use std::{collections::HashMap, path::Path};

use standpoint_geometry::worth::PlayedStroke;

/// One stroke with what the tables ask of it.
pub struct Row<'a> {
    pub s: &'a PlayedStroke,
    pub own_way: f32,
    pub next: Option<&'a PlayedStroke>,
    pub last: Option<&'a PlayedStroke>,
}

/// Prints a curve beside the published one and how far they lie apart over the middle eight tenths of the strokes.
pub fn compare(
    name: &str,
    group: &str,
    file: &str,
    column: &str,
    rows: &[&Row<'_>],
    x: &dyn Fn(&Row<'_>) -> f64,
    win: &dyn Fn(&Row<'_>) -> bool,
    second: &dyn Fn(&Row<'_>) -> bool,
) {
    let published = table(file);
    let bins: Vec<&HashMap<String, String>> = published.iter().filter(|r| r["group"] == group).collect();
    let total: f64 = bins.iter().filter_map(|r| r["N"].parse::<f64>().ok()).sum();
    let (mut before, mut weight, mut apart) = (0.0, 0.0, 0.0);
    let mut points = Vec::new();
    let mut text = String::new();
    for bin in bins {
        let (a, b) = bin[column].trim_matches(['(', ']']).split_once(", ").expect("a bin");
        let (a, b): (f64, f64) = (a.parse().expect("low"), b.parse().expect("high"));
        let n: f64 = bin["N"].parse().expect("N");
        let middle = before + n / 2.0;
        before += n;
        let inside: Vec<&&Row<'_>> = rows.iter().filter(|r| (a..b).contains(&x(r))).collect();
        let m = inside.len() as f64;
        let sim = inside.iter().filter(|r| win(r)).count() as f64 / m;
        let sim2 = inside.iter().filter(|r| second(r)).count() as f64 / m;
        let get = |c: &str| bin.get(c).and_then(|v| v.parse::<f64>().ok());
        let real = get("p_win").or(get("p_hitter_wins")).unwrap_or(f64::NAN);
        let real2 = get("p_in").or(get("share_untouched_winner").map(|v| 1.0 - v)).unwrap_or(f64::NAN);
        let core = middle > 0.1 * total && middle < 0.9 * total;
        let mark = if core { '*' } else { ' ' };
        text += &format!(
            "   {mark}{a:>6.2}..{b:<6.2} n {:.3} ({:.3})  won {sim:.3} ({real:.3})  {sim2:.3} ({real2:.3})\n",
            m / rows.len() as f64,
            n / total
        );
        if core && m > 0.0 {
            weight += n;
            apart += n * (sim - real).abs();
            points.push(((a + b) / 2.0, sim, real, n));
        }
    }
    let fit = |y: fn(&(f64, f64, f64, f64)) -> f64| {
        let w: f64 = points.iter().map(|p| p.3).sum();
        let (mx, my) =
            (points.iter().map(|p| p.3 * p.0).sum::<f64>() / w, points.iter().map(|p| p.3 * y(p)).sum::<f64>() / w);
        points.iter().map(|p| p.3 * (p.0 - mx) * (y(p) - my)).sum::<f64>()
            / points.iter().map(|p| p.3 * (p.0 - mx).powi(2)).sum::<f64>()
    };
    println!(
        "{name}: mean difference {:.3}; slope {:+.3} (published {:+.3})",
        apart / weight,
        fit(|p| p.1),
        fit(|p| p.2)
    );
    if std::env::var_os("QUIET").is_none() {
        print!("{text}");
    }
}

/// A table of the published figures: one map a row.
pub fn table(name: &str) -> Vec<HashMap<String, String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/data/rally").join(name);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let split = |line: &str| {
        let (mut cells, mut quoted) = (vec![String::new()], false);
        for c in line.chars() {
            match c {
                '"' => quoted = !quoted,
                ',' if !quoted => cells.push(String::new()),
                c => cells.last_mut().expect("one").push(c),
            }
        }
        cells
    };
    let mut lines = text.lines();
    let header = split(lines.next().expect("a header"));
    lines.map(|l| header.iter().cloned().zip(split(l)).collect()).collect()
}

/// Slope of a straight line through points.
pub fn slope(xy: &[(f64, f64)]) -> f64 {
    let n = xy.len() as f64;
    let (mx, my) = (xy.iter().map(|p| p.0).sum::<f64>() / n, xy.iter().map(|p| p.1).sum::<f64>() / n);
    xy.iter().map(|p| (p.0 - mx) * (p.1 - my)).sum::<f64>() / xy.iter().map(|p| (p.0 - mx).powi(2)).sum::<f64>()
}
