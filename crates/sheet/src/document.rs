//! A document, built block by block.

use crate::{Drawing, Paper};

/// Alignment of text in its column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Align {
    /// At the left edge.
    #[default]
    Left,
    /// At the right edge, as figures do.
    Right,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Its heading.
    pub title: String,
    /// Its alignment.
    pub align: Align,
}

impl Column {
    /// A column of text.
    #[must_use]
    pub fn left(title: impl Into<String>) -> Self {
        Self { title: title.into(), align: Align::Left }
    }

    /// A column of figures.
    #[must_use]
    pub fn right(title: impl Into<String>) -> Self {
        Self { title: title.into(), align: Align::Right }
    }
}

/// A table; its head is repeated overleaf, and cells wrap.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// The columns; without any title there is no head.
    pub columns: Vec<Column>,
    /// The rows. Missing cells are empty; extra cells are dropped.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// A table without rows.
    #[must_use]
    pub fn new(columns: impl IntoIterator<Item = Column>) -> Self {
        Self { columns: columns.into_iter().collect(), rows: Vec::new() }
    }

    /// Adds a row.
    pub fn row<T: Into<String>>(&mut self, cells: impl IntoIterator<Item = T>) {
        self.rows.push(cells.into_iter().map(Into::into).collect());
    }
}

/// A key figure with its label.
#[derive(Debug, Clone, PartialEq)]
pub struct KeyFigure {
    /// The figure with its unit.
    pub value: String,
    /// Its label.
    pub label: String,
}

impl KeyFigure {
    /// A key figure.
    #[must_use]
    pub fn new(value: impl Into<String>, label: impl Into<String>) -> Self {
        Self { value: value.into(), label: label.into() }
    }
}

/// A drawing in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What is drawn.
    pub drawing: Drawing,
    /// Its width on paper, points; `None` fills the column. It is shrunk to fit.
    pub width: Option<f32>,
    /// What stands below it.
    pub caption: Option<String>,
}

impl Figure {
    /// A drawing as wide as its column.
    #[must_use]
    pub fn new(drawing: Drawing) -> Self {
        Self { drawing, width: None, caption: None }
    }

    /// The drawing with this width, points.
    #[must_use]
    pub fn width(mut self, width: f32) -> Self {
        self.width = Some(width);
        self
    }

    /// The drawing with a caption.
    #[must_use]
    pub fn caption(mut self, caption: impl Into<String>) -> Self {
        self.caption = Some(caption.into());
        self
    }
}

/// A piece of a document.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// The title of a part, on a new page; it stands in the contents.
    Part(String),
    /// A heading.
    Heading(String),
    /// A heading within a section.
    Subheading(String),
    /// Running text; line breaks are kept.
    Paragraph(String),
    /// Running text whose heading stands at the beginning of its first line.
    Said(String, String),
    /// Small secondary text.
    Note(String),
    /// Sets what follows closer, in letters as large as captions at least, or as usual again.
    Dense(bool),
    /// A list, each item with a dot.
    Bullets(Vec<String>),
    /// A list, each item with its number.
    Steps(Vec<String>),
    /// Figures beside each other.
    KeyFigures(Vec<KeyFigure>),
    /// Lines to write on, beside each other, each with what belongs there.
    Fields(Vec<String>),
    /// A table.
    Table(Table),
    /// A drawing.
    Figure(Figure),
    /// A drawing at the left with blocks at its right, which continue below it.
    Beside(Figure, Vec<Block>),
    /// A page break.
    PageBreak,
}

/// A document.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Its paper.
    pub paper: Paper,
    /// Its title.
    pub title: String,
    /// Footer of every page.
    pub footer: String,
    /// Whether it begins with a list of its parts.
    pub contents: bool,
    /// Its pieces.
    pub blocks: Vec<Block>,
}

impl Document {
    /// An empty document.
    #[must_use]
    pub fn new(paper: Paper, title: impl Into<String>) -> Self {
        Self { paper, title: title.into(), footer: String::new(), contents: false, blocks: Vec::new() }
    }

    /// Sets the footer of every page, beside its number.
    pub fn footer(&mut self, text: impl Into<String>) {
        self.footer = text.into();
    }

    /// Whether it begins with a list of its parts.
    pub fn contents(&mut self, wanted: bool) {
        self.contents = wanted;
    }

    /// Adds a block.
    pub fn add(&mut self, block: Block) {
        self.blocks.push(block);
    }

    /// Begins a part on a new page.
    pub fn part(&mut self, title: impl Into<String>) {
        self.add(Block::Part(title.into()));
    }

    /// Adds a heading.
    pub fn heading(&mut self, text: impl Into<String>) {
        self.add(Block::Heading(text.into()));
    }

    /// Adds a heading within a section.
    pub fn subheading(&mut self, text: impl Into<String>) {
        self.add(Block::Subheading(text.into()));
    }

    /// Adds running text.
    pub fn paragraph(&mut self, text: impl Into<String>) {
        self.add(Block::Paragraph(text.into()));
    }

    /// Adds small secondary text.
    pub fn note(&mut self, text: impl Into<String>) {
        self.add(Block::Note(text.into()));
    }

    /// Adds a list with dots.
    pub fn bullets<T: Into<String>>(&mut self, items: impl IntoIterator<Item = T>) {
        self.add(Block::Bullets(items.into_iter().map(Into::into).collect()));
    }

    /// Adds a list with numbers.
    pub fn steps<T: Into<String>>(&mut self, items: impl IntoIterator<Item = T>) {
        self.add(Block::Steps(items.into_iter().map(Into::into).collect()));
    }

    /// Adds figures beside each other.
    pub fn key_figures(&mut self, figures: impl IntoIterator<Item = KeyFigure>) {
        self.add(Block::KeyFigures(figures.into_iter().collect()));
    }

    /// Adds a table.
    pub fn table(&mut self, table: Table) {
        self.add(Block::Table(table));
    }

    /// Adds a drawing.
    pub fn figure(&mut self, figure: Figure) {
        self.add(Block::Figure(figure));
    }

    /// Puts the next block on a new page.
    pub fn page_break(&mut self) {
        self.add(Block::PageBreak);
    }
}
