//! The typefaces of sheets: those of the window, and the system's for characters they lack.

use std::sync::{Arc, OnceLock};

use skrifa::{
    FontRef, MetadataProvider as _,
    charmap::Charmap,
    instance::{LocationRef, Size},
    metrics::GlyphMetrics,
};
use usvg::fontdb::{Database, Family, Query, Source, Weight as DbWeight};

/// The family of all text.
pub const FAMILY: &str = "Barlow";

const MEDIUM: &[u8] = include_bytes!("../../../assets/fonts/Barlow-Medium-Tabular.ttf");
const STRONG: &[u8] = include_bytes!("../../../assets/fonts/Barlow-SemiBold-Tabular.ttf");

/// How heavy a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Weight {
    /// Running text.
    #[default]
    Medium,
    /// Emphasised text.
    Strong,
}

impl Weight {
    /// The number of the weight in SVG.
    #[must_use]
    pub fn number(self) -> u16 {
        match self {
            Self::Medium => 500,
            Self::Strong => 600,
        }
    }
}

/// Metrics of a typeface: its characters and their widths.
struct Face {
    characters: Charmap<'static>,
    metrics: GlyphMetrics<'static>,
    units_per_em: f32,
}

impl Face {
    fn parse(bytes: &'static [u8]) -> Option<Self> {
        let font = FontRef::new(bytes).ok()?;
        let (size, location) = (Size::unscaled(), LocationRef::default());
        Some(Self {
            characters: font.charmap(),
            metrics: font.glyph_metrics(size, location),
            units_per_em: f32::from(font.metrics(size, location).units_per_em),
        })
    }

    fn has(&self, c: char) -> bool {
        self.characters.map(c).is_some()
    }

    /// Advance of a character in ems, when the face has it.
    fn advance(&self, c: char) -> Option<f32> {
        Some(self.metrics.advance_width(self.characters.map(c)?)? / self.units_per_em)
    }
}

/// Typefaces that a text can be set in.
pub struct Faces {
    database: Arc<Database>,
    /// The faces in the order in which a character is looked for, for each weight.
    chains: [Vec<Face>; 2],
}

impl Faces {
    /// The faces built into the program.
    #[must_use]
    pub fn built_in() -> &'static Self {
        static FACES: OnceLock<Faces> = OnceLock::new();
        FACES.get_or_init(|| {
            let bytes = [MEDIUM, STRONG, epaint_default_fonts::UBUNTU_LIGHT];
            let mut database = Database::new();
            for face in bytes {
                database.load_font_source(Source::Binary(Arc::new(face)));
            }
            database.set_sans_serif_family(FAMILY);
            let parsed = |order: [&'static [u8]; 2]| order.into_iter().filter_map(Face::parse).collect::<Vec<_>>();
            let other = epaint_default_fonts::UBUNTU_LIGHT;
            Self { database: Arc::new(database), chains: [parsed([MEDIUM, other]), parsed([STRONG, other])] }
        })
    }

    /// The faces for a text: built-in ones, and the system's for missing characters.
    #[must_use]
    pub fn for_text(text: &str) -> Arc<Database> {
        static WITH_SYSTEM: OnceLock<Arc<Database>> = OnceLock::new();
        let faces = Self::built_in();
        if text.chars().all(|c| faces.has(c)) {
            return Arc::clone(&faces.database);
        }
        let all = WITH_SYSTEM.get_or_init(|| {
            let mut database = (*faces.database).clone();
            database.load_system_fonts();
            Arc::new(database)
        });
        Arc::clone(all)
    }

    fn chain(&self, weight: Weight) -> &[Face] {
        &self.chains[usize::from(weight == Weight::Strong)]
    }

    fn has(&self, c: char) -> bool {
        c.is_whitespace() || c.is_control() || self.chains[0].iter().any(|face| face.has(c))
    }

    /// Width of a text set in one line, points. Kerning, which can only be a little less or more, is not reckoned
    /// with; characters in none of the faces count as a full em.
    #[must_use]
    pub fn width(&self, text: &str, size: f32, weight: Weight) -> f32 {
        text.chars().map(|c| self.advance(c, weight)).sum::<f32>() * size
    }

    /// Advance of a character in ems.
    fn advance(&self, c: char, weight: Weight) -> f32 {
        if c.is_control() {
            return 0.0;
        }
        self.chain(weight).iter().find_map(|face| face.advance(c)).unwrap_or(1.0)
    }

    /// Whether the program's own family is there in a weight, for tests.
    #[must_use]
    pub fn is_there(&self, weight: Weight) -> bool {
        let query = Query { families: &[Family::Name(FAMILY)], weight: DbWeight(weight.number()), ..Query::default() };
        self.database.query(&query).and_then(|id| self.database.face(id)).is_some_and(|f| f.weight.0 == weight.number())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_weights_are_found_by_their_name() {
        let faces = Faces::built_in();
        assert!(faces.is_there(Weight::Medium) && faces.is_there(Weight::Strong));
    }

    #[test]
    fn the_width_of_a_text_is_what_the_renderer_makes_of_it() {
        // Compared with the text layout of usvg, which shapes with kerning.
        let faces = Faces::built_in();
        for text in ["Stand 1.0 m right of the centre mark", "WAVE To. 10,25", "0123456789"] {
            for weight in [Weight::Medium, Weight::Strong] {
                let svg = format!(
                    "<svg xmlns='http://www.w3.org/2000/svg' width='900' height='40'><text x='10' y='30' \
                     font-family='{FAMILY}' font-weight='{}' font-size='20'>{text}</text></svg>",
                    weight.number()
                );
                let options = usvg::Options { fontdb: Faces::for_text(text), ..usvg::Options::default() };
                let tree = usvg::Tree::from_str(&svg, &options).unwrap();
                let drawn = tree.root().layer_bounding_box().width();
                let ours = faces.width(text, 20.0, weight);
                // Never too narrow for its column, nor much too wide.
                let ratio = ours / drawn;
                assert!((0.99..1.06).contains(&ratio), "{text}: {ours} reckoned, {drawn} drawn");
            }
        }
    }
}
