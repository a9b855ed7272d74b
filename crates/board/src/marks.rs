//! Marks on a page: pen strokes, arrows, words, cones, ball baskets and zones, in layers.

use glam::DVec2;

/// Identifier of a mark; unique on its page and stable.
pub type MarkId = u32;

/// Purpose of a mark; determines colour and pattern, so that meaning never depends on colour alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Ink {
    /// Plain drawing.
    #[default]
    Plain,
    /// The player who is coached.
    Coached,
    /// The other player.
    Other,
    /// The ball.
    Ball,
    /// Something to watch out for.
    Warning,
}

impl Ink {
    /// All inks, in the order tools list them.
    pub const ALL: [Self; 5] = [Self::Plain, Self::Coached, Self::Other, Self::Ball, Self::Warning];
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Pattern {
    /// Solid: the path of a ball.
    #[default]
    Solid,
    /// Dashed: the path of a player.
    Dashed,
}

/// The form of a mark; places in the world frame, m.
#[derive(Debug, Clone, PartialEq)]
pub enum Form {
    /// A line drawn by hand, at least two points.
    Pen {
        /// The points after smoothing.
        points: Vec<DVec2>,
        /// Solid or dashed.
        pattern: Pattern,
    },
    /// An arrow.
    Arrow {
        /// Where it starts.
        from: DVec2,
        /// Where its head is.
        to: DVec2,
        /// How far the middle of the curve lies to the left of the straight line, m; 0 is straight.
        bend: f64,
        /// Solid or dashed.
        pattern: Pattern,
    },
    /// Words.
    Text {
        /// The middle of the first line's left edge.
        at: DVec2,
        /// May have several lines.
        text: String,
        /// Height of the letters on the court, m.
        size: f64,
    },
    /// A cone.
    Cone {
        /// Where it stands.
        at: DVec2,
    },
    /// A basket of balls.
    Basket {
        /// Where it stands.
        at: DVec2,
    },
    /// A player's or helper's place, with a letter.
    Person {
        /// Where.
        at: DVec2,
        /// One or two letters.
        letter: String,
    },
    /// A zone: a rectangle or an ellipse along the axes.
    Zone {
        /// One corner of the rectangle around it.
        from: DVec2,
        /// The opposite corner.
        to: DVec2,
        /// Whether it is an ellipse.
        round: bool,
    },
}

/// The layer of a mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Layer {
    /// Free drawing.
    #[default]
    Sketch,
    /// Equipment and places of a drill.
    Drill,
    /// Words.
    Notes,
}

impl Layer {
    /// All layers, from the ground up.
    pub const ALL: [Self; 3] = [Self::Drill, Self::Sketch, Self::Notes];
}

/// A step of a presentation, in the order in which a shot is revealed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Step {
    /// The shot and the two players.
    #[default]
    Shot,
    /// The opponent's angle of replies.
    Angle,
    /// The two best replies.
    Replies,
    /// The answer.
    Answer,
}

impl Step {
    /// All steps, in order.
    pub const ALL: [Self; 4] = [Self::Shot, Self::Angle, Self::Replies, Self::Answer];

    /// The step counted from 1.
    #[must_use]
    pub fn number(self) -> usize {
        self as usize + 1
    }
}

/// From when on a mark is there while its page is presented; the first step of the first shot by default.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Appears {
    /// Index of the shot; an index past the last shot means the last one.
    pub shot: usize,
    /// Step of that shot.
    pub step: Step,
}

impl Appears {
    /// From the beginning of the page.
    pub const AT_ONCE: Self = Self { shot: 0, step: Step::Shot };

    /// The same on a page with so many shots.
    #[must_use]
    pub fn within(self, shots: usize) -> Self {
        Self { shot: self.shot.min(shots.saturating_sub(1)), ..self }
    }
}

/// One mark.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Number of the mark, unique on its page.
    pub id: MarkId,
    /// Its layer.
    pub layer: Layer,
    /// Its purpose.
    pub ink: Ink,
    /// From when on it is there in a presentation.
    pub appears: Appears,
    /// Its form.
    pub form: Form,
}

/// The marks of a page.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Marks {
    /// From the ground up.
    pub list: Vec<Mark>,
    /// Layers that are not shown.
    pub hidden: Vec<Layer>,
}

impl Form {
    /// The same form moved by a displacement.
    #[must_use]
    pub fn moved(&self, by: DVec2) -> Self {
        self.mapped(|p| p + by)
    }

    /// The form mirrored left to right. Words stay readable: the middle of their estimated width is mirrored.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        match self.mapped(|p| DVec2::new(-p.x, p.y) + DVec2::ZERO) {
            Self::Arrow { from, to, bend, pattern } => Self::Arrow { from, to, bend: 0.0 - bend, pattern },
            other => other.words_moved_back(),
        }
    }

    /// The form turned by half a turn about the middle of the net. Words stay readable, as in [`Self::mirrored`].
    #[must_use]
    pub fn turned(&self) -> Self {
        self.mapped(|p| DVec2::ZERO - p).words_moved_back()
    }

    /// Shifts mirrored words left by their width, as their left edge is at the mirrored right edge.
    fn words_moved_back(self) -> Self {
        match self {
            Self::Text { at, text, size } => {
                // Letters are about half as wide as high.
                let longest = text.lines().map(|line| line.chars().count()).max().unwrap_or(0);
                let at = at - DVec2::new(0.5 * size * longest as f64, 0.0);
                Self::Text { at, text, size }
            }
            other => other,
        }
    }

    /// The form with all its places mapped.
    #[must_use]
    pub fn mapped(&self, f: impl Fn(DVec2) -> DVec2) -> Self {
        match self.clone() {
            Self::Pen { points, pattern } => Self::Pen { points: points.into_iter().map(f).collect(), pattern },
            Self::Arrow { from, to, bend, pattern } => Self::Arrow { from: f(from), to: f(to), bend, pattern },
            Self::Text { at, text, size } => Self::Text { at: f(at), text, size },
            Self::Cone { at } => Self::Cone { at: f(at) },
            Self::Basket { at } => Self::Basket { at: f(at) },
            Self::Person { at, letter } => Self::Person { at: f(at), letter },
            Self::Zone { from, to, round } => Self::Zone { from: f(from), to: f(to), round },
        }
    }

    /// Points along the form's line, or its places, for selecting and erasing.
    #[must_use]
    pub fn outline(&self) -> Vec<DVec2> {
        match self {
            Self::Pen { points, .. } => points.clone(),
            Self::Arrow { from, to, bend, .. } => arc(*from, *to, *bend),
            Self::Text { at, .. } | Self::Cone { at } | Self::Basket { at } | Self::Person { at, .. } => vec![*at],
            Self::Zone { from, to, round: false } => {
                vec![*from, DVec2::new(to.x, from.y), *to, DVec2::new(from.x, to.y), *from]
            }
            Self::Zone { from, to, round: true } => {
                let (center, half) = ((*from + *to) / 2.0, (*to - *from) / 2.0);
                (0..=40)
                    .map(|i| center + half * DVec2::from_angle(f64::from(i) / 40.0 * std::f64::consts::TAU))
                    .collect()
            }
        }
    }

    /// Distance from a place to the form, m; 0 inside a zone.
    #[must_use]
    pub fn distance(&self, place: DVec2) -> f64 {
        if let Self::Zone { from, to, round } = self {
            let (center, half) = ((*from + *to) / 2.0, ((*to - *from) / 2.0).abs().max(DVec2::splat(1e-6)));
            let q = (place - center) / half;
            if (*round && q.length() <= 1.0) || (!round && q.abs().max_element() <= 1.0) {
                return 0.0;
            }
        }
        let outline = self.outline();
        match outline.as_slice() {
            [one] => one.distance(place),
            points => points.windows(2).map(|w| to_segment(place, w[0], w[1])).fold(f64::INFINITY, f64::min),
        }
    }

    /// Where a cone, basket or person stands.
    #[must_use]
    pub fn standing_at(&self) -> Option<DVec2> {
        match self {
            Self::Cone { at } | Self::Basket { at } | Self::Person { at, .. } => Some(*at),
            _ => None,
        }
    }
}

/// Points of a curve from one place to another whose middle lies `bend` to the left of the straight line.
#[must_use]
pub fn arc(from: DVec2, to: DVec2, bend: f64) -> Vec<DVec2> {
    if bend.abs() < 1e-9 {
        return vec![from, to];
    }
    let left = (to - from).perp().normalize_or_zero();
    // A parabola: its middle is half as far from the line as its control point.
    let control = (from + to) / 2.0 + left * (2.0 * bend);
    (0..=24)
        .map(|i| {
            let u = f64::from(i) / 24.0;
            from.lerp(control, u).lerp(control.lerp(to, u), u)
        })
        .collect()
}

fn to_segment(p: DVec2, a: DVec2, b: DVec2) -> f64 {
    let way = b - a;
    let u = if way.length_squared() > 0.0 { ((p - a).dot(way) / way.length_squared()).clamp(0.0, 1.0) } else { 0.0 };
    p.distance(a + way * u)
}

impl Marks {
    /// Adds a mark on top and returns its number.
    pub fn add(&mut self, layer: Layer, ink: Ink, form: Form) -> MarkId {
        let id = self.list.iter().map(|m| m.id).max().map_or(1, |most| most + 1);
        self.list.push(Mark { id, layer, ink, appears: Appears::AT_ONCE, form });
        id
    }

    /// Adds a copy of a mark on top, in another form, and returns its number.
    pub fn add_copy(&mut self, of: &Mark, form: Form) -> MarkId {
        let id = self.add(of.layer, of.ink, form);
        if let Some(copy) = self.get_mut(id) {
            copy.appears = of.appears;
        }
        id
    }

    /// The marks that are there at a moment of the presentation of their page, which has so many shots.
    #[must_use]
    pub fn until(&self, now: Appears, shots: usize) -> Self {
        let there = |mark: &&Mark| mark.appears.within(shots) <= now;
        Self { list: self.list.iter().filter(there).cloned().collect(), hidden: self.hidden.clone() }
    }

    /// Keeps marks with the shots they appear with after a shot was inserted.
    pub(crate) fn shot_inserted(&mut self, at: usize) {
        for mark in self.list.iter_mut().filter(|m| m.appears > Appears::AT_ONCE && m.appears.shot >= at) {
            mark.appears.shot += 1;
        }
    }

    /// Keeps marks with the shots they appear with after a shot was removed; those of that shot come with the next one.
    pub(crate) fn shot_removed(&mut self, at: usize) {
        for mark in self.list.iter_mut().filter(|m| m.appears.shot > at) {
            mark.appears.shot -= 1;
        }
    }

    /// The mark with a number.
    #[must_use]
    pub fn get(&self, id: MarkId) -> Option<&Mark> {
        self.list.iter().find(|m| m.id == id)
    }

    /// The mark with a number, to be changed.
    pub fn get_mut(&mut self, id: MarkId) -> Option<&mut Mark> {
        self.list.iter_mut().find(|m| m.id == id)
    }

    /// Removes marks.
    pub fn remove(&mut self, ids: &[MarkId]) {
        self.list.retain(|m| !ids.contains(&m.id));
    }

    /// Copies marks, moved by a displacement, and returns the copies' numbers.
    pub fn copy(&mut self, ids: &[MarkId], by: DVec2) -> Vec<MarkId> {
        let copies: Vec<Mark> = self.list.iter().filter(|m| ids.contains(&m.id)).cloned().collect();
        copies.into_iter().map(|m| self.add_copy(&m, m.form.moved(by))).collect()
    }

    /// Moves marks.
    pub fn shift(&mut self, ids: &[MarkId], by: DVec2) {
        for mark in self.list.iter_mut().filter(|m| ids.contains(&m.id)) {
            mark.form = mark.form.moved(by);
        }
    }

    /// Whether a layer is shown.
    #[must_use]
    pub fn shows(&self, layer: Layer) -> bool {
        !self.hidden.contains(&layer)
    }

    /// Shows or hides a layer.
    pub fn show(&mut self, layer: Layer, shown: bool) {
        self.hidden.retain(|l| *l != layer);
        if !shown {
            self.hidden.push(layer);
        }
    }

    /// The marks that are shown, from the ground up.
    pub fn shown(&self) -> impl Iterator<Item = &Mark> {
        Layer::ALL.into_iter().filter(|l| self.shows(*l)).flat_map(|l| self.list.iter().filter(move |m| m.layer == l))
    }

    /// The topmost shown mark within `reach` metres of a place.
    #[must_use]
    pub fn under(&self, place: DVec2, reach: f64) -> Option<MarkId> {
        let mut shown: Vec<&Mark> = self.shown().collect();
        shown.reverse();
        // Things come before lines, and lines before the zones they lie on.
        let rank = |m: &Mark| match m.form {
            Form::Zone { .. } => 2,
            Form::Pen { .. } | Form::Arrow { .. } => 1,
            _ => 0,
        };
        shown.into_iter().filter(|m| m.form.distance(place) <= reach).min_by_key(|m| rank(m)).map(|m| m.id)
    }
}

/// Smooths a line drawn by hand: drops redundant points, then rounds the corners.
///
/// `tolerance` is the largest distance of a dropped point from the line, m.
/// Douglas & Peucker (Cartographica 10, 1973, 112) for dropping, Chaikin's corner cutting (Computer Graphics and Image
/// Processing 3, 1974, 346) for rounding; both ends stay.
#[must_use]
pub fn smoothed(points: &[DVec2], tolerance: f64) -> Vec<DVec2> {
    let mut kept = Vec::new();
    if let (Some(first), Some(last)) = (points.first(), points.last()) {
        kept.push(*first);
        simplify(points, tolerance, &mut kept);
        if points.len() > 1 {
            kept.push(*last);
        }
    }
    if kept.len() < 3 {
        return kept;
    }
    for _ in 0..2 {
        let mut cut = vec![kept[0]];
        for pair in kept.windows(2) {
            cut.push(pair[0].lerp(pair[1], 0.25));
            cut.push(pair[0].lerp(pair[1], 0.75));
        }
        cut.push(kept[kept.len() - 1]);
        kept = cut;
    }
    kept
}

/// Adds the inner points that must stay.
fn simplify(points: &[DVec2], tolerance: f64, kept: &mut Vec<DVec2>) {
    if points.len() < 3 {
        return;
    }
    let (a, b) = (points[0], points[points.len() - 1]);
    let farthest = points[1..points.len() - 1]
        .iter()
        .enumerate()
        .map(|(i, p)| (i + 1, to_segment(*p, a, b)))
        .max_by(|x, y| x.1.total_cmp(&y.1));
    if let Some((i, distance)) = farthest
        && distance > tolerance
    {
        simplify(&points[..=i], tolerance, kept);
        kept.push(points[i]);
        simplify(&points[i..], tolerance, kept);
    }
}
