//! Placement of labels on the court, covering neither each other nor important items.

use std::collections::HashMap;

use egui::{Pos2, Rect, Vec2, vec2};

/// Key of a label; keeps its side between frames.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LabelId {
    /// The spot.
    Spot,
    /// Where the player really gets to.
    Short,
    /// One of the best replies.
    Reply(usize),
    /// The height over the net.
    Net,
    /// The two players.
    Hitter,
    /// The two players.
    Opponent,
    /// The bisector.
    Bisector,
    /// A level line.
    Contour(usize),
    /// The contact of the opponent.
    Receipt,
    /// Where the receiver of a serve waits.
    Receiver,
    /// The wedge.
    Wedge,
    /// A compared shot, by its rank.
    Ghost(usize),
    /// The spot after such a shot.
    GhostSpot(usize),
    /// The best place to aim at.
    Aim,
    /// What so many steps reach at the net.
    Reach(usize),
    /// A place to recover to that was chosen by hand.
    Elsewhere,
}

/// A label that wants to be placed.
#[derive(Debug, Clone, Copy)]
pub struct Wish {
    /// Whose label it is.
    pub id: LabelId,
    /// The point it belongs to.
    pub anchor: Pos2,
    /// Its size.
    pub size: Vec2,
    /// How far it keeps from the point.
    pub gap: f32,
}

/// Places labels in order. Remembers the side of each, so that labels do not jump.
#[derive(Debug, Clone, Default)]
pub struct Placer {
    sides: HashMap<LabelId, usize>,
    taken: Vec<Rect>,
    avoided: Vec<Rect>,
    bounds: Option<Rect>,
}

/// Unit directions tried, beginning with the right, and how far out, in gaps.
const SIDES: [(f32, f32); 8] =
    [(1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.0, 1.0), (0.8, -0.8), (-0.8, -0.8), (0.8, 0.8), (-0.8, 0.8)];
/// Hysteresis: least improvement before a label changes sides.
const STAYS: i64 = 34;
const REACHES: [f32; 3] = [1.0, 2.4, 4.2];

impl Placer {
    /// Begins a frame with obstacles and bounds.
    pub fn begin(&mut self, bounds: Rect, obstacles: impl IntoIterator<Item = Rect>) {
        self.bounds = Some(bounds);
        self.avoided.clear();
        self.taken.clear();
        self.taken.extend(obstacles);
    }

    /// Adds areas that labels avoid, such as pieces of a line.
    pub fn avoid(&mut self, rects: impl IntoIterator<Item = Rect>) {
        self.avoided.extend(rects);
    }

    /// The rectangle for a label, or `None` when there is no room for it.
    pub fn place(&mut self, wish: &Wish) -> Option<Rect> {
        let last = self.sides.get(&wish.id).copied();
        let free = (0..SIDES.len() * REACHES.len()).filter(|i| self.is_free(candidate(wish, *i)));
        let choice = free.min_by_key(|i| {
            let covered = self.covered(candidate(wish, *i));
            let kept = if last == Some(*i) { STAYS } else { 0 };
            (10 * covered + 8 * (i / SIDES.len()) + i % SIDES.len()) as i64 - kept
        })?;
        self.sides.insert(wish.id, choice);
        let rect = candidate(wish, choice);
        self.taken.push(rect);
        Some(rect)
    }

    /// How many avoided things a rectangle would cover.
    fn covered(&self, rect: Rect) -> usize {
        self.avoided.iter().filter(|a| a.intersects(rect)).count()
    }

    fn is_free(&self, rect: Rect) -> bool {
        self.bounds.is_none_or(|b| b.contains_rect(rect)) && !self.taken.iter().any(|t| t.intersects(rect))
    }
}

fn candidate(wish: &Wish, i: usize) -> Rect {
    let (x, y) = SIDES[i % SIDES.len()];
    let out = wish.gap * REACHES[(i / SIDES.len()).min(REACHES.len() - 1)];
    let center = wish.anchor + vec2(x * (out + wish.size.x / 2.0), y * (out + wish.size.y / 2.0));
    Rect::from_center_size(center, wish.size)
}

#[cfg(test)]
mod tests {
    use egui::pos2;

    use super::*;

    /// A small generator of repeatable numbers in 0 to 1.
    struct Numbers(u64);

    impl Numbers {
        fn next(&mut self) -> f32 {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (self.0 >> 40) as f32 / (1_u64 << 24) as f32
        }
    }

    #[test]
    fn labels_never_overlap_or_leave_the_canvas() {
        let bounds = Rect::from_min_size(Pos2::ZERO, vec2(500.0, 400.0));
        let mut numbers = Numbers(7);
        let mut placer = Placer::default();
        let mut placed_in_all = 0;
        for _ in 0..300 {
            let obstacle =
                Rect::from_center_size(pos2(numbers.next() * 500.0, numbers.next() * 400.0), vec2(44.0, 44.0));
            placer.begin(bounds, [obstacle]);
            let mut rects = vec![obstacle];
            for i in 0..12 {
                let wish = Wish {
                    id: LabelId::Reply(i),
                    anchor: pos2(numbers.next() * 500.0, numbers.next() * 400.0),
                    size: vec2(40.0 + numbers.next() * 90.0, 18.0 + numbers.next() * 20.0),
                    gap: 10.0,
                };
                if let Some(rect) = placer.place(&wish) {
                    assert!(bounds.contains_rect(rect));
                    assert!(rects.iter().all(|r| !r.intersects(rect)), "{rect:?} overlaps");
                    rects.push(rect);
                    placed_in_all += 1;
                }
            }
        }
        assert!(placed_in_all > 3000, "most labels find a place: {placed_in_all}");
    }

    #[test]
    fn a_label_stays_on_its_side_while_there_is_room() {
        let bounds = Rect::from_min_size(Pos2::ZERO, vec2(500.0, 400.0));
        let mut placer = Placer::default();
        let wish = |x| Wish { id: LabelId::Spot, anchor: pos2(x, 200.0), size: vec2(80.0, 20.0), gap: 8.0 };
        placer.begin(bounds, []);
        placer.place(&wish(480.0));
        placer.begin(bounds, []);
        let rect = placer.place(&wish(250.0)).unwrap();
        assert!(rect.right() < 250.0, "it had to go left near the edge and stays there");
    }
}
