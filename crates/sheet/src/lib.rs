//! Sheets of Standpoint: documents laid out on paper, and drawings as SVG, PDF, PNG and moving pictures.
//!
//! * [`shapes`] turns what the canvas paints, a list of [`epaint`] shapes, into a [`Drawing`]: vectors with real text.
//! * [`document`] builds a document block by block, [`layout`] breaks it into pages of [`paper`]: nothing is cut
//!   off, what does not fit goes on overleaf.
//! * [`pdf`] writes pages as a PDF with text that can be selected, [`raster`] paints a drawing in pixels,
//!   [`motion`] puts frames together to a GIF or an animated PNG.
//! * [`faces`] are the typefaces, [`tokens`] the colours and sizes of paper.
//!
//! Lengths are points of 1/72 inch, the origin is the upper left corner. No board and no window.
//!
//! # A document
//!
//! ```
//! use standpoint_sheet::{Align, Column, Document, KeyFigure, Paper, Table};
//!
//! let mut doc = Document::new(Paper::A4, "How a season went");
//! doc.footer("Figures are estimates of a model");
//! doc.contents(true);
//! doc.part("Spring");
//! doc.paragraph("Runs of text are wrapped, and go on overleaf where a page ends.");
//! doc.key_figures([KeyFigure::new("23", "points lost in 100")]);
//! doc.heading("By wing");
//! let mut table = Table::new([Column::left("Wing"), Column::right("Shots")]);
//! table.row(["Forehand", "120"]);
//! table.row(["Backhand", "95"]);
//! doc.table(table);
//! let pdf: Vec<u8> = doc.to_pdf()?;
//! assert!(pdf.starts_with(b"%PDF-"));
//! # assert_eq!(Column::left("").align, Align::Left);
//! # Ok::<(), standpoint_sheet::SheetError>(())
//! ```
//!
//! A figure is a [`Drawing`]; one can be made from any SVG fragment:
//!
//! ```
//! # use standpoint_sheet::{Document, Drawing, Figure, Paper};
//! let bars = Drawing::new(200.0, 60.0, r##"<rect x="0" y="20" width="120" height="14" fill="#14181A"/>"##);
//! let mut doc = Document::new(Paper::Letter, "Bars");
//! doc.figure(Figure::new(bars).caption("One bar"));
//! # doc.to_pdf().map(|_| ())
//! # ?; Ok::<(), standpoint_sheet::SheetError>(())
//! ```

#![cfg_attr(not(test), deny(clippy::unwrap_used))]

pub mod document;
pub mod drawing;
pub mod faces;
pub mod layout;
pub mod motion;
pub mod paper;
pub mod pdf;
pub mod raster;
pub mod shapes;
pub mod tokens;
pub mod xml;

use standpoint_language::tr;

pub use document::{Align, Block, Column, Document, Figure, KeyFigure, Table};
pub use drawing::Drawing;
pub use paper::Paper;

/// Connects the texts of this crate to [`standpoint_language::speak`]; until then they are English.
pub fn speak_up() {
    standpoint_language::set_translator!(standpoint_language::Catalogue);
}

/// Why a sheet could not be made.
#[derive(Debug, thiserror::Error)]
pub enum SheetError {
    /// A drawing is no proper SVG.
    #[error("{}", tr!("the drawing cannot be read: {}", .0))]
    Drawing(#[from] usvg::Error),
    /// The PDF writer gave up.
    #[error("{}", tr!("the PDF cannot be made: {}", .0))]
    Pdf(String),
    /// A picture that is too small or too large.
    #[error("{}", tr!("a picture of {} by {} pixels cannot be made; from 16 to {} each way it can", width, height, most))]
    Size {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
        /// Most pixels each way.
        most: u32,
    },
    /// A moving picture without a single frame.
    #[error("{}", tr!("there is nothing to show in an animation"))]
    NoFrames,
    /// The PNG writer gave up.
    #[error("{}", tr!("the PNG cannot be made: {}", .0))]
    Png(#[from] png::EncodingError),
    /// The GIF writer gave up.
    #[error("{}", tr!("the GIF cannot be made: {}", .0))]
    Gif(#[from] gif::EncodingError),
    /// The built-in tokens are not valid; a test prevents that.
    #[error("{}", tr!("the tokens of paper cannot be read: {}", .0))]
    Tokens(#[from] ron::error::SpannedError),
}
