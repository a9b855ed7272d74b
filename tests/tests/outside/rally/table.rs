//! The published aggregates.

/// One bin of a published table.
#[derive(Debug, Clone, Copy)]
pub struct Bin {
    pub low: f64,
    pub high: f64,
    /// Strokes counted, and the share of them after which the striker won the point.
    pub n: f64,
    pub win: f64,
}

impl Bin {
    pub fn middle(&self) -> f64 {
        0.5 * (self.low + self.high)
    }

    pub fn holds(&self, value: f64) -> bool {
        self.low < value && value <= self.high
    }
}

/// The bins of a table for one group, from the lowest up. `share` is the name of the column with the shares.
pub fn bins(text: &str, group: &str, share: &str) -> Vec<Bin> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let names = reader.headers().expect("a header").clone();
    let column = |name: &str| names.iter().position(|n| n == name).unwrap_or_else(|| panic!("no column {name}"));
    let (n, win) = (column("N"), column(share));
    let rows = reader.records().map(|row| row.expect("a row")).filter(|row| &row[0] == group);
    rows.map(|row| {
        let edges = row[1].trim_start_matches('(').trim_end_matches(']').split(", ");
        let edges: Vec<f64> = edges.map(|e| e.parse().expect("an edge")).collect();
        let number = |i: usize| row[i].parse().expect("a number");
        Bin { low: edges[0], high: edges[1], n: number(n), win: number(win) }
    })
    .collect()
}

/// The bins that hold the middle eight tenths of the strokes: those whose middle lies between a tenth and nine tenths of them.
pub fn middle_eight_tenths(bins: &[Bin]) -> Vec<Bin> {
    let all: f64 = bins.iter().map(|b| b.n).sum();
    let mut below = 0.0;
    let inner = |b: &&Bin| {
        below += b.n;
        (0.1..=0.9).contains(&((below - 0.5 * b.n) / all))
    };
    bins.iter().filter(inner).copied().collect()
}

/// Slope of the least-squares line through shares, each bin weighted by the strokes counted in it.
pub fn slope(points: impl Iterator<Item = (Bin, f64)> + Clone) -> f64 {
    let n: f64 = points.clone().map(|(b, _)| b.n).sum();
    let mean = points.clone().fold((0.0, 0.0), |m, (b, y)| (m.0 + b.n * b.middle() / n, m.1 + b.n * y / n));
    let (mut xy, mut xx) = (0.0, 0.0);
    for (b, y) in points {
        xy += b.n * (b.middle() - mean.0) * (y - mean.1);
        xx += b.n * (b.middle() - mean.0).powi(2);
    }
    xy / xx
}
