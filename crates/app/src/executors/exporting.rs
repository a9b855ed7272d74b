//! Exports from the window.

use std::path::{Path, PathBuf};

use egui::{ColorImage, Context};
use standpoint_board::store;
use standpoint_export::{make, offscreen_canvas::OffscreenCanvas};
use standpoint_language::{text, tr};
use standpoint_workbench::{
    session::Session,
    wanted::{Export, Format, Look},
};

use crate::{
    app::App,
    dialogs::{
        Dialog,
        export::{Exporting, preview_pixels},
        path::Purpose,
        problems::Problems,
    },
};

impl App {
    /// Opens the export dialog with its last choice.
    pub(crate) fn show_export(&mut self) {
        let pages = self.session.board().pages.len();
        let whole = self.export.whole && pages > 1;
        self.dialog = Dialog::Export(Box::new(Exporting::new(Export { pages, whole, ..self.export.clone() })));
    }

    /// Asks for the path of the export.
    pub(crate) fn ask_export(&mut self, ctx: &Context, wanted: Export) {
        let format = wanted.format;
        self.export = wanted;
        let near = self.export_path(format);
        self.files.ask(ctx, Purpose::Export(format), &near);
    }

    /// Suggested path of an export: beside the board, under its name.
    pub(crate) fn export_path(&self, format: Format) -> PathBuf {
        self.suggested_path().with_extension(format.ending())
    }

    /// Turn, layers and shot as they are in the window.
    fn as_seen(&self, look: &Look) -> Look {
        let lying = look.size.is_some_and(|(width, height)| width > height);
        // A court that lies only because the window is wide stands on paper.
        let seen = if self.settings.turned { self.view.turn } else { self.view.turn / 2 * 2 };
        let turn = if lying && seen.is_multiple_of(2) { seen + 1 } else { seen };
        // The layers of a comparison do not apply to a sheet.
        let layers = if self.settings.comparing { self.settings.other_layers } else { self.settings.layers };
        Look { turn, layers, shot: self.session.selection().shot, ..look.clone() }
    }

    /// The pages of the board that are exported.
    fn pages_wanted(&self, whole: bool) -> Vec<usize> {
        if whole { (0..self.session.board().pages.len()).collect() } else { vec![self.session.selection().page] }
    }

    /// Makes what the open export dialog shows of the export, on a thread of its own.
    pub(crate) fn preview_export(&mut self, ctx: &Context) {
        let Dialog::Export(exporting) = &mut self.dialog else { return };
        let Some(asked) = exporting.outdated(ctx) else { return };
        let (export, number) = (asked.0.clone(), asked.1);
        let (board, pages) = (self.session.board().clone(), self.pages_wanted(export.whole));
        let (look, size) = (self.as_seen(&export.look), preview_pixels(ctx));
        self.files.preview(ctx, asked, move || {
            let mut canvas = OffscreenCanvas::new().map_err(|error| error.to_string())?;
            make::preview(&mut canvas, &board, &pages, (export.format, &look), (number, size))
                .map_err(|error| format!("{error}. {}", error.remedy()))
        });
    }

    /// Makes the export on a thread of its own.
    pub(crate) fn export_to(&mut self, ctx: &Context, path: PathBuf) {
        let (format, whole) = (self.export.format, self.export.whole);
        let path = if Format::of(&path) == Some(format) { path } else { with_ending(&path, format) };
        let board = self.session.board().clone();
        let pages = self.pages_wanted(whole);
        let look = self.as_seen(&self.export.look);
        self.message = Some(tr!("Making {}…", path.display()));
        self.files.export(ctx, move || {
            let mut canvas = OffscreenCanvas::new().map_err(|error| vec![error.to_string()])?;
            let said = |error: make::MakeError| vec![format!("{error}. {}", error.remedy())];
            let jobs: Vec<(PathBuf, Vec<usize>)> = match format {
                Format::Pdf => vec![(path, pages)],
                _ if pages.len() == 1 => vec![(path, pages)],
                _ => pages.iter().map(|page| (numbered(&path, page + 1), vec![*page])).collect(),
            };
            let mut made = Vec::new();
            let mut session = Session::new(board.clone(), None);
            for (path, pages) in jobs {
                let bytes = match (format, pages.first()) {
                    (Format::Pdf, _) | (_, None) => {
                        make::pdf(&mut canvas, &[(board.clone(), pages)], &board.title, &look)
                    }
                    (_, Some(page)) => make::page(&mut canvas, &mut session, *page, format, &look),
                }
                .map_err(said)?;
                store::save_data(&path, &bytes).map_err(|error| vec![format!("{error}. {}", error.remedy())])?;
                made.push(path);
            }
            Ok(made)
        });
    }

    /// Sheets or pictures have been made.
    pub(crate) fn exported(&mut self, made: Result<Vec<PathBuf>, Vec<String>>) {
        match made {
            Ok(paths) => {
                self.message = match paths.as_slice() {
                    [] => None,
                    [one] => Some(tr!("Made {}", one.display())),
                    [first, .., last] => Some(tr!("Made {0} to {1}", first.display(), last.display())),
                };
            }
            Err(lines) => {
                self.message = None;
                let title = text("The export failed").to_owned();
                self.dialog = Dialog::Problems(Problems { title, lines, save_as: false });
            }
        }
    }

    /// Puts a picture of the court as it is shown on the clipboard.
    pub(crate) fn copy_picture(&mut self, ctx: &Context) {
        let look = self.as_seen(&Look { colours: self.session.colours(), ..Look::default() });
        let made = OffscreenCanvas::new()
            .map_err(|error| error.to_string())
            .and_then(|mut canvas| make::pixels(&mut canvas, &self.session, &look).map_err(|error| error.to_string()));
        match made {
            Ok(_) if !clipboard_takes_pictures() => {
                self.message = Some(
                    text("This desktop's clipboard takes no pictures: export the picture to a file instead").to_owned(),
                );
            }
            Ok(pixels) => {
                let size = [pixels.width as usize, pixels.height as usize];
                ctx.copy_image(ColorImage::from_rgba_unmultiplied(size, &pixels.rgba));
                let said = if self.settings.comparing {
                    text("A picture of the answer is on the clipboard; the comparison is not on it")
                } else {
                    text("The picture is on the clipboard")
                };
                self.message = Some(said.to_owned());
            }
            Err(problem) => self.message = Some(tr!("The picture cannot be copied: {}", problem)),
        }
    }
}

/// Whether the desktop's clipboard takes pictures. Under Wayland that needs a protocol of the compositor, or X11
/// support; without either, copying would fail silently.
fn clipboard_takes_pictures() -> bool {
    std::env::var_os("WAYLAND_DISPLAY").is_none() || arboard::Clipboard::new().is_ok()
}

/// A path with the ending of a format after its own name.
fn with_ending(path: &Path, format: Format) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(format!(".{}", format.ending()));
    path.with_file_name(name)
}

/// `rally.png` as `rally-2.png`.
fn numbered(path: &Path, number: usize) -> PathBuf {
    let part = |part: Option<&std::ffi::OsStr>| part.map(|p| p.to_string_lossy().into_owned()).unwrap_or_default();
    path.with_file_name(format!("{}-{number}.{}", part(path.file_stem()), part(path.extension())))
}
