//! Level lines of the exposure field.

use contour::ContourBuilder;
use glam::DVec2;

use crate::solver::answer::{Contour, Field};

/// The areas where the field is within each of `above_least` of `least`, in the same order.
///
/// Rings are closed; they end at the field's border where the area reaches it. Only the part of the field that holds the
/// widest area is traced.
#[must_use]
pub fn contours(field: &Field, least: f64, above_least: &[f64]) -> Vec<Contour> {
    let widest = above_least.iter().copied().fold(0.0, f64::max);
    let limit = (least + widest) as f32;
    let Some((x0, y0, x1, y1)) = bounds(field, limit) else {
        return above_least.iter().map(|&a| Contour { above_least: a, rings: Vec::new() }).collect();
    };
    let (columns, rows) = (x1 - x0 + 1, y1 - y0 + 1);
    // The tracer fills where values are high, so the values are negated.
    let values: Vec<f64> = (y0..=y1)
        .flat_map(|j| field.values[j * field.columns + x0..=j * field.columns + x1].iter().map(|&v| -f64::from(v)))
        .collect();
    let thresholds: Vec<f64> = above_least.iter().map(|a| -(least + a)).collect();
    let builder = ContourBuilder::new(columns, rows, true);
    let traced = builder.contours(&values, &thresholds).unwrap_or_default();
    let corner = field.origin + DVec2::new(x0 as f64, y0 as f64) * field.step;
    above_least
        .iter()
        .enumerate()
        .map(|(i, &above_least)| {
            let rings = traced.get(i).map_or_else(Vec::new, |c| {
                c.geometry()
                    .0
                    .iter()
                    .flat_map(|p| std::iter::once(p.exterior()).chain(p.interiors()))
                    // The tracer puts samples in the middle of unit cells.
                    .map(|ring| ring.0.iter().map(|c| corner + (DVec2::new(c.x, c.y) - 0.5) * field.step).collect())
                    .collect()
            });
            Contour { above_least, rings }
        })
        .collect()
}

/// Columns and rows that hold every value up to the limit, with one sample more on each side.
fn bounds(field: &Field, limit: f32) -> Option<(usize, usize, usize, usize)> {
    let mut found: Option<(usize, usize, usize, usize)> = None;
    for j in 0..field.rows {
        for i in 0..field.columns {
            if field.values[j * field.columns + i] <= limit {
                let (a, b, c, d) = found.unwrap_or((i, j, i, j));
                found = Some((a.min(i), b.min(j), c.max(i), d.max(j)));
            }
        }
    }
    found.map(|(a, b, c, d)| {
        (a.saturating_sub(1), b.saturating_sub(1), (c + 1).min(field.columns - 1), (d + 1).min(field.rows - 1))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_round_valley_has_a_round_zone_in_the_right_place() {
        let center = DVec2::new(0.6, -12.3);
        let mut field =
            Field { origin: DVec2::new(-4.0, -16.0), step: 0.25, columns: 33, rows: 33, values: Vec::new() };
        for j in 0..33 {
            for i in 0..33 {
                let p = field.origin + DVec2::new(f64::from(i), f64::from(j)) * field.step;
                field.values.push((0.5 + 0.02 * (p - center).length_squared()) as f32);
            }
        }
        let c = contours(&field, 0.5, &[0.02, 0.05]);
        for (contour, radius) in c.iter().zip([1.0, 2.5f64.sqrt()]) {
            assert_eq!(contour.rings.len(), 1);
            assert!(contour.rings[0].len() > 12);
            for p in &contour.rings[0] {
                assert!((p.distance(center) - radius).abs() < 0.02, "{p} {radius}");
            }
        }
    }

    #[test]
    fn an_empty_field_has_no_rings() {
        let c = contours(&Field::default(), 0.5, &[0.02]);
        assert!(c[0].rings.is_empty());
    }
}
