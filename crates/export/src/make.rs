//! Files made of boards.

use standpoint_board::Board;
use standpoint_language::{text, tr};
use standpoint_sheet::{SheetError, motion::Motion, raster};
use standpoint_ui::theme::LookError;
use standpoint_workbench::{
    selection::Selection,
    session::Session,
    wanted::{Format, Look},
};

use super::{drill, offscreen_canvas::OffscreenCanvas};

/// Why something could not be made.
#[derive(Debug, thiserror::Error)]
pub enum MakeError {
    /// A built-in file is not valid.
    #[error(transparent)]
    Look(#[from] LookError),
    /// The sheet itself.
    #[error(transparent)]
    Sheet(#[from] SheetError),
    /// The rally of a page has no shot that can be played.
    #[error("{}", tr!("page {} has no rally to be shown: its first shot cannot be played", .0))]
    NoRally(usize),
}

impl MakeError {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> &'static str {
        match self {
            Self::NoRally(_) => text("Change its first shot, or make a picture instead of an animation."),
            Self::Sheet(SheetError::Size { .. }) => text("Choose another size."),
            Self::Look(_) | Self::Sheet(_) => text("This is a fault of the program; please report it with the board."),
        }
    }
}

/// Pixels a point of a picture whose size nobody has chosen.
const FINE: f32 = 2.0;

/// The pages wanted of boards as one PDF.
///
/// # Errors
/// See [`MakeError`].
pub fn pdf(
    canvas: &mut OffscreenCanvas,
    boards: &[(Board, Vec<usize>)],
    title: &str,
    look: &Look,
) -> Result<Vec<u8>, MakeError> {
    // A sheet has its own place for the drawing, seen from above, so a size of pixels says nothing there.
    let look = Look { size: None, sight: None, ..look.clone() };
    Ok(drill::document(canvas, boards, title, &look).to_pdf()?)
}

/// What an export will look like, for the eye only.
#[derive(Debug, Clone, PartialEq)]
pub struct Preview {
    /// One of its sheets or pictures.
    pub picture: raster::Pixels,
    /// How many there are.
    pub count: usize,
}

/// What these pages of a board, counted from 0, will look like: the sheet or picture with this number, at most so many pixels
/// wide and high. Of an animation it is a moment of the rally.
///
/// # Errors
/// See [`MakeError`].
pub fn preview(
    canvas: &mut OffscreenCanvas,
    board: &Board,
    pages: &[usize],
    (format, look): (Format, &Look),
    (number, (width, height)): (usize, (u32, u32)),
) -> Result<Preview, MakeError> {
    if format == Format::Pdf {
        let look = Look { size: None, sight: None, ..look.clone() };
        let sheets = drill::document(canvas, &[(board.clone(), pages.to_vec())], &board.title, &look).pages()?;
        let count = sheets.pages.len();
        let width = width.min((height as f32 * sheets.size.0 / sheets.size.1) as u32);
        return Ok(Preview { picture: raster::page(&sheets, number.min(count.saturating_sub(1)), width)?, count });
    }
    let mut session = Session::new(board.clone(), None);
    let page = pages.get(number.min(pages.len().saturating_sub(1))).copied().unwrap_or(0);
    let shots = session.board().page(page).map_or(0, |page| page.shots.len());
    let shot = if format.moves() { 0 } else { look.shot.min(shots.saturating_sub(1)) };
    session.select(Selection { page, shot });
    let drawing = if format.moves() {
        canvas.moment(&mut session, look).ok_or(MakeError::NoRally(page + 1))?
    } else {
        canvas.picture(&session, look)
    };
    let (w, h) = look.size.map_or((drawing.width, drawing.height), |(w, h)| (w as f32, h as f32));
    let scale = (width as f32 / w).min(height as f32 / h);
    let size = ((w * scale).round().max(16.0) as u32, (h * scale).round().max(16.0) as u32);
    let picture = raster::pixels(&drawing, size, canvas.ground(&session, look))?;
    Ok(Preview { picture, count: pages.len() })
}

/// One page of a board, counted from 0, as a picture that may move.
///
/// # Errors
/// See [`MakeError`].
pub fn page(
    canvas: &mut OffscreenCanvas,
    session: &mut Session,
    page: usize,
    format: Format,
    look: &Look,
) -> Result<Vec<u8>, MakeError> {
    let shots = session.board().page(page).map_or(0, |page| page.shots.len());
    session.select(Selection { page, shot: look.shot.min(shots.saturating_sub(1)) });
    let title = session.page().map(|page| page.title.clone()).unwrap_or_default();
    match format {
        Format::Pdf => pdf(canvas, &[(session.board().clone(), vec![page])], &title, look),
        Format::Svg => Ok(canvas.picture(session, look).to_svg(&title).into_bytes()),
        Format::Png => Ok(pixels(canvas, session, look)?.to_png()?),
        Format::Gif => Ok(motion(canvas, session, page, look)?.to_gif()?),
        Format::Apng => Ok(motion(canvas, session, page, look)?.to_apng()?),
    }
}

/// The picture of the shot being looked at, in pixels.
///
/// # Errors
/// See [`MakeError`].
pub fn pixels(canvas: &mut OffscreenCanvas, session: &Session, look: &Look) -> Result<raster::Pixels, MakeError> {
    let drawing = canvas.picture(session, look);
    let usual = ((drawing.width * FINE).round() as u32, (drawing.height * FINE).round() as u32);
    Ok(raster::pixels(&drawing, look.size.unwrap_or(usual), canvas.ground(session, look))?)
}

fn motion(canvas: &mut OffscreenCanvas, session: &mut Session, page: usize, look: &Look) -> Result<Motion, MakeError> {
    session.select(Selection { page, shot: 0 });
    let (drawings, duration) = canvas.rally(session, look);
    let first = drawings.first().ok_or(MakeError::NoRally(page + 1))?;
    let usual = (first.width.round() as u32, first.height.round() as u32);
    let ground = canvas.ground(session, look);
    Ok(Motion::paint(&drawings, look.size.unwrap_or(usual), ground, (look.rate, duration))?)
}
