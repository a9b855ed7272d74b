//! Sizes of paper.

/// Points in a millimetre: 72 points are an inch of 25.4 mm.
pub const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// A size of paper, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Paper {
    /// 210 mm by 297 mm. Source: ISO 216, size A4.
    #[default]
    A4,
    /// 8.5 in by 11 in. Source: ANSI/ASME Y14.1, size A, the North American letter.
    Letter,
}

impl Paper {
    /// All sizes.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Width and height, mm.
    #[must_use]
    pub fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (8.5 * 25.4, 11.0 * 25.4),
        }
    }

    /// Width and height, points.
    #[must_use]
    pub fn size(self) -> (f32, f32) {
        let (width, height) = self.size_mm();
        ((width * POINTS_PER_MM) as f32, (height * POINTS_PER_MM) as f32)
    }

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }
}
