//! Pages as a PDF: vectors, text that can be selected, a list of parts to jump to.

use krilla::{
    Document as Writer,
    annotation::{LinkAnnotation, Target},
    destination::XyzDestination,
    geom::{Point, Rect, Size},
    metadata::Metadata,
    outline::{Outline, OutlineNode},
    page::PageSettings,
};
use krilla_svg::{SurfaceExt as _, SvgSettings};
use standpoint_language::tr;
use usvg::{Options, Tree};

use crate::{Document, SheetError, faces::Faces, layout::Pages};

impl Document {
    /// The document as a PDF.
    ///
    /// # Errors
    /// When a drawing is no proper SVG or the writer gives up.
    pub fn to_pdf(&self) -> Result<Vec<u8>, SheetError> {
        pages(&self.pages()?, &self.title)
    }
}

/// Pages as a PDF.
///
/// # Errors
/// When a drawing is no proper SVG or the writer gives up.
pub fn pages(pages: &Pages, title: &str) -> Result<Vec<u8>, SheetError> {
    let failed = || SheetError::Pdf(tr!("the size of the paper makes no sense"));
    let (width, height) = pages.size;
    let size = Size::from_wh(width, height).ok_or_else(failed)?;
    let mut writer = Writer::new();
    for (i, page) in pages.pages.iter().enumerate() {
        let svg = pages.to_svg(i, title).unwrap_or_default();
        let tree = parse(&svg)?;
        let mut sheet = writer.start_page_with(PageSettings::from_wh(width, height).ok_or_else(failed)?);
        for link in &page.links {
            let [x, y, w, h] = link.rect;
            let to = XyzDestination::new(link.page, Point::from_xy(0.0, 0.0));
            if let Some(rect) = Rect::from_xywh(x, y, w, h) {
                sheet.add_annotation(LinkAnnotation::new(rect, Target::Destination(to.into())).into());
            }
        }
        let mut surface = sheet.surface();
        surface.draw_svg(&tree, size, SvgSettings::default());
        surface.finish();
        sheet.finish();
    }
    let mut outline = Outline::new();
    for entry in &pages.entries {
        let to = XyzDestination::new(entry.page, Point::from_xy(0.0, 0.0));
        outline.push_child(OutlineNode::new(entry.title.clone(), to));
    }
    writer.set_outline(outline);
    writer.set_metadata(Metadata::new().title(title.to_owned()).creator("Standpoint".to_owned()));
    writer.finish().map_err(|error| SheetError::Pdf(format!("{error:?}")))
}

/// Reads an SVG with the faces that its text needs.
///
/// # Errors
/// When it is no proper SVG.
pub fn parse(svg: &str) -> Result<Tree, SheetError> {
    let options = Options { fontdb: Faces::for_text(svg), ..Options::default() };
    Ok(Tree::from_str(svg, &options)?)
}
