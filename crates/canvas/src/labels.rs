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
    /// The reply that is planned for.
    PlanReply,
    /// The shot to play then.
    PlanNext,
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
    /// Whether it goes beside the court where there is room, with a line to its point.
    pub beside: bool,
}

/// Places labels in order. Remembers the side of each, so that labels do not jump.
#[derive(Debug, Clone, Default)]
pub struct Placer {
    sides: HashMap<LabelId, usize>,
    taken: Vec<Rect>,
    avoided: Vec<Rect>,
    bounds: Option<Rect>,
    /// What callouts are placed beside.
    court: Option<Rect>,
    /// Ground that no callout covers, around the spot.
    kept_clear: Option<Rect>,
}

/// Unit directions tried, beginning with the right, and how far out, in gaps.
const SIDES: [(f32, f32); 8] =
    [(1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.0, 1.0), (0.8, -0.8), (-0.8, -0.8), (0.8, 0.8), (-0.8, 0.8)];
/// Hysteresis: least improvement before a label changes sides.
const STAYS: i64 = 34;
const REACHES: [f32; 3] = [1.0, 2.4, 4.2];
/// Places along a side of the court that are tried, from the one nearest to the point on, in widths or heights of the label.
const SHIFTS: [f32; 7] = [0.0, 0.6, -0.6, 1.2, -1.2, 2.2, -2.2];
/// Room between the court and what stands beside it, points.
const OFF: f32 = 8.0;
/// What a place on the court costs a label that belongs beside it, and each point of its way there.
const ON_COURT: f32 = 130.0;
const PER_POINT: f32 = 0.5;
/// A court is small for a callout when it is not so many times as wide.
const SMALL: f32 = 3.2;

impl Placer {
    /// Begins a frame with obstacles and bounds.
    pub fn begin(&mut self, bounds: Rect, obstacles: impl IntoIterator<Item = Rect>) {
        self.bounds = Some(bounds);
        self.kept_clear = None;
        self.avoided.clear();
        self.taken.clear();
        self.taken.extend(obstacles);
    }

    /// Labels that belong beside the court go beside this.
    pub fn beside(&mut self, court: Rect) {
        self.court = Some(court);
    }

    /// Ground that no callout covers: it is rather left out.
    pub fn keep_clear(&mut self, ground: Rect) {
        self.kept_clear = Some(ground);
    }

    /// Whether the court is so small that a callout of this width would cover much of it.
    #[must_use]
    pub fn is_small_for(&self, width: f32) -> bool {
        self.court.is_some_and(|court| court.size().min_elem() < SMALL * width)
    }

    /// The rectangle for a callout beside the court, or `None` when there is no room for it there.
    pub fn place_beside(&mut self, wish: &Wish) -> Option<Rect> {
        let rect = self.place(wish)?;
        if self.court.is_some_and(|court| court.intersects(rect)) {
            self.taken.pop();
            return None;
        }
        Some(rect)
    }

    /// Things that labels rather leave uncovered, such as pieces of a line.
    pub fn avoid(&mut self, rects: impl IntoIterator<Item = Rect>) {
        self.avoided.extend(rects);
    }

    /// The rectangle for a label, or `None` when there is no room for it.
    pub fn place(&mut self, wish: &Wish) -> Option<Rect> {
        let last = self.sides.get(&wish.id).copied();
        let near = SIDES.len() * REACHES.len();
        let court = self.court.filter(|_| wish.beside);
        let all = near + if court.is_some() { 4 * SHIFTS.len() } else { 0 };
        let rect = |i: usize| match court.filter(|_| i >= near) {
            Some(court) => docked(wish, court, i - near),
            None => candidate(wish, i),
        };
        let cost = |i: usize| {
            let covered = 10 * self.covered(rect(i));
            let kept = if last == Some(i) { STAYS } else { 0 };
            let place = match court {
                Some(court) if rect(i).intersects(court) => ON_COURT,
                Some(_) => PER_POINT * rect(i).distance_to_pos(wish.anchor),
                None => 0.0,
            };
            covered as i64 + (8 * (i.min(near) / SIDES.len()) + i % SIDES.len()) as i64 - kept + place as i64
        };
        let clear = |rect: Rect| !self.kept_clear.is_some_and(|ground| wish.beside && ground.intersects(rect));
        let choice = (0..all).filter(|i| self.is_free(rect(*i)) && clear(rect(*i))).min_by_key(|i| cost(*i))?;
        let rect = rect(choice);
        self.sides.insert(wish.id, choice);
        self.taken.push(rect);
        Some(rect)
    }

    /// Places a label that is not worth covering anything: none of the things that labels avoid.
    pub fn place_clear(&mut self, wish: &Wish) -> Option<Rect> {
        let rect = self.place(wish)?;
        if self.covered(rect) == 0 {
            return Some(rect);
        }
        self.taken.pop();
        None
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

/// A place beside the court, at one of its four sides.
fn docked(wish: &Wish, court: Rect, i: usize) -> Rect {
    let shift = SHIFTS[i / 4];
    let (x, y) = (wish.anchor.x + shift * wish.size.x, wish.anchor.y + shift * wish.size.y);
    let half = wish.size / 2.0 + Vec2::splat(OFF);
    let center = match i % 4 {
        0 => Pos2::new(x, court.top() - half.y),
        1 => Pos2::new(x, court.bottom() + half.y),
        2 => Pos2::new(court.left() - half.x, y),
        _ => Pos2::new(court.right() + half.x, y),
    };
    Rect::from_center_size(center, wish.size)
}

#[cfg(test)]
mod tests {
    use egui::pos2;

    use super::*;

    /// A small repeatable pseudo-random generator, 0 to 1.
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
            placer.beside(bounds.shrink(60.0));
            let mut rects = vec![obstacle];
            for i in 0..12 {
                let wish = Wish {
                    id: LabelId::Reply(i),
                    anchor: pos2(numbers.next() * 500.0, numbers.next() * 400.0),
                    size: vec2(40.0 + numbers.next() * 90.0, 18.0 + numbers.next() * 20.0),
                    gap: 10.0,
                    beside: i % 2 == 0,
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
    fn callouts_go_beside_the_court_where_there_is_room() {
        let bounds = Rect::from_min_size(Pos2::ZERO, vec2(900.0, 600.0));
        let wish = |at| Wish { id: LabelId::Net, anchor: at, size: vec2(120.0, 40.0), gap: 8.0, beside: true };
        // A court with room above and below it, then a court that leaves no room.
        let (lying, filling) = (Rect::from_min_max(pos2(20.0, 150.0), pos2(880.0, 450.0)), bounds);
        for at in [pos2(100.0, 160.0), pos2(450.0, 300.0), pos2(800.0, 440.0)] {
            let mut placer = Placer::default();
            placer.begin(bounds, []);
            placer.beside(lying);
            assert!(!placer.place(&wish(at)).unwrap().intersects(lying), "{at}");
            placer.beside(filling);
            assert!(placer.place(&wish(at)).is_some());
        }
    }

    #[test]
    fn callouts_of_a_small_court_go_beside_it_or_stay_away_from_the_spot() {
        let bounds = Rect::from_min_size(Pos2::ZERO, vec2(300.0, 400.0));
        let court = Rect::from_center_size(bounds.center(), vec2(290.0, 390.0));
        let spot = Rect::from_center_size(pos2(150.0, 330.0), vec2(80.0, 80.0));
        let wish = |at| Wish { id: LabelId::Reply(0), anchor: at, size: vec2(120.0, 40.0), gap: 8.0, beside: true };
        for at in [pos2(150.0, 300.0), pos2(120.0, 350.0), pos2(200.0, 330.0)] {
            let mut placer = Placer::default();
            placer.begin(bounds, []);
            placer.beside(court);
            placer.keep_clear(spot);
            assert!(placer.is_small_for(120.0) && placer.place_beside(&wish(at)).is_none());
            assert!(placer.place(&wish(at)).is_none_or(|rect| !rect.intersects(spot)), "{at}");
        }
    }

    #[test]
    fn a_label_stays_on_its_side_while_there_is_room() {
        let bounds = Rect::from_min_size(Pos2::ZERO, vec2(500.0, 400.0));
        let mut placer = Placer::default();
        let wish =
            |x| Wish { id: LabelId::Spot, anchor: pos2(x, 200.0), size: vec2(80.0, 20.0), gap: 8.0, beside: false };
        placer.begin(bounds, []);
        placer.place(&wish(480.0));
        placer.begin(bounds, []);
        let rect = placer.place(&wish(250.0)).unwrap();
        assert!(rect.right() < 250.0, "it had to go left near the edge and stays there");
    }
}
