//! Breaking a document into pages.
//!
//! Text flows through frames: the column beside a figure, then what is left of the page, then the next page. A block is
//! laid out line by line in the frame it has reached, so nothing is ever cut off.

mod blocks;
mod contents;
mod flow;
mod table;
mod wrap;

use crate::{Document, SheetError, document::Block, paper::POINTS_PER_MM, tokens::Tokens, xml};
use flow::Flow;

/// A link to a page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Link {
    /// Left, top, width and height, points.
    pub rect: [f32; 4],
    /// Index of the page it leads to.
    pub page: usize,
}

/// A page.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Page {
    /// The elements of an SVG as large as the paper.
    pub body: String,
    /// The links.
    pub links: Vec<Link>,
}

/// A part of the document and where it begins.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its title.
    pub title: String,
    /// Index of its first page.
    pub page: usize,
}

/// A document broken into pages.
#[derive(Debug, Clone, PartialEq)]
pub struct Pages {
    /// Size of a page, points.
    pub size: (f32, f32),
    /// The pages in order.
    pub pages: Vec<Page>,
    /// The parts in order.
    pub entries: Vec<Entry>,
}

impl Pages {
    /// A page as an SVG of its own.
    #[must_use]
    pub fn to_svg(&self, page: usize, title: &str) -> Option<String> {
        let body = &self.pages.get(page)?.body;
        let (width, height) = self.size;
        let mm = |points: f32| format!("{:.3}", f64::from(points) / POINTS_PER_MM);
        Some(format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"{}mm\" \
             height=\"{}mm\" viewBox=\"0 0 {width:.4} {height:.4}\"><title>{}</title>{body}</svg>",
            mm(width),
            mm(height),
            xml::escaped(title),
        ))
    }
}

impl Document {
    /// The document broken into pages.
    ///
    /// # Errors
    /// When the tokens cannot be read.
    pub fn pages(&self) -> Result<Pages, SheetError> {
        pages(self)
    }
}

fn pages(document: &Document) -> Result<Pages, SheetError> {
    let tokens = Tokens::load()?;
    let mut flow = Flow::new(document.paper, tokens);
    blocks::blocks(&mut flow, &document.blocks);
    let (mut pages, mut entries) = flow.finish();
    if document.contents {
        let before = contents::pages(document, tokens, &entries, 0).len();
        let front = contents::pages(document, tokens, &entries, before);
        pages.splice(0..0, front);
        entries.iter_mut().for_each(|entry| entry.page += before);
    }
    contents::footers(document, tokens, &mut pages);
    Ok(Pages { size: document.paper.size(), pages, entries })
}

/// Whether a block begins on a new page.
fn begins_a_page(block: &Block) -> bool {
    matches!(block, Block::Part(_) | Block::PageBreak)
}
