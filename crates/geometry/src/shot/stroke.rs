//! Kinds of stroke.

/// Kinds of stroke.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Stroke {
    /// Drive with topspin.
    #[default]
    Topspin,
    /// Drive with little spin.
    Flat,
    /// Drive with backspin.
    Slice,
    /// Soft ball that dies behind the net.
    Drop,
    /// High ball over the opponent; takes the high solution.
    Lob,
    /// Ball struck before the bounce.
    Volley,
    /// Smash.
    Overhead,
    /// Serve.
    Serve,
}

impl Stroke {
    /// All strokes, in the order menus list them.
    pub const ALL: [Self; 8] =
        [Self::Topspin, Self::Flat, Self::Slice, Self::Drop, Self::Lob, Self::Volley, Self::Overhead, Self::Serve];
}
