//! Dialogs over the board, one at a time.

pub mod conflict;
pub mod explain;
pub mod export;
pub mod finder;
pub mod guard;
pub mod guide;
pub mod keys;
pub mod left;
pub mod library;
pub mod opening;
pub mod painted;
pub mod path;
pub mod patterns;
pub mod problems;
pub mod roster;

use std::path::PathBuf;

use egui::{
    Align2, Context, Frame, Id, Label, LayerId, Modal, Popup, RichText, Role, ScrollArea, Sense, StrokeKind, Ui, Vec2,
    WidgetInfo, vec2,
};
use standpoint_chart_room::import;
use standpoint_geometry::Stage;
use standpoint_language::text;
use standpoint_ui::{
    commands::{Action, Facts, Outbox, choices},
    theme::{Theme, focus::Following as _, icons::Icon, style},
    widgets::{ends, primary::primary},
};
use standpoint_workbench::session::Session;

use crate::panels::pages;

/// What is asked.
#[derive(Debug, Clone, Default, PartialEq)]
pub enum Dialog {
    /// Nothing.
    #[default]
    None,
    /// Which command.
    Finder(finder::Finder),
    /// A file by its typed path.
    Path(path::PathEntry),
    /// What to do with unsaved changes.
    Guard(After),
    /// The export dialog.
    Export(Box<export::Exporting>),
    /// Problems of a file.
    Problems(problems::Problems),
    /// The list of keys.
    Keys,
    /// The guide.
    Guide(Box<guide::Guide>),
    /// How the figures are computed.
    How(crate::dialogs::explain::How),
    /// Title, notes and cues of the page.
    Words,
    /// Which pattern.
    Patterns(patterns::Patterns),
    /// What to do about a file that is open elsewhere or not as it was.
    Conflict(conflict::Conflict),
    /// What to do with unsaved work that was left.
    Left(left::LeftWork),
    /// Which teaching board.
    Library(library::Shelf),
    /// How a table of shots is read.
    Import(Box<import::Import>),
    /// The players that are kept.
    Roster(Box<roster::RosterList>),
    /// Which matches of a folder.
    Season(Box<standpoint_chart_room::season::SeasonChoice>),
    /// Nothing is asked: a board is being read.
    Opening(opening::Opening),
    /// What to do with notes of a match that are not saved.
    LeaveChart(standpoint_workbench::chart::leave::Then),
}

/// The action that waits for the choice about unsaved changes.
#[derive(Debug, Clone, PartialEq)]
pub enum After {
    /// A new board.
    New,
    /// A new board on the court of a stage.
    Stage(Stage),
    /// The demo board.
    Demo,
    /// A board to choose.
    Open,
    /// This board.
    OpenPath(PathBuf),
    /// A copy of this teaching board.
    Teaching(choices::Pick),
    /// The end.
    Quit,
}

impl Dialog {
    /// Shows the dialog.
    pub fn show(&mut self, ctx: &Context, session: &Session, facts: &Facts, theme: &Theme, out: &mut Outbox) {
        match self {
            Self::None => {}
            Self::Finder(finder) => window(ctx, theme, text("Find a command"), (460.0, false), out, |ui, out| {
                finder.ui(ui, facts, theme, out);
            }),
            Self::Path(entry) => {
                window(ctx, theme, entry.title(), (480.0, true), out, |ui, out| entry.ui(ui, theme, out))
            }
            Self::Guard(after) => window(ctx, theme, text("Keep the changes?"), (440.0, false), out, |ui, out| {
                guard::ui(ui, after, theme, out);
            }),
            Self::Export(exporting) => {
                let width = export::Exporting::width(ctx);
                window(ctx, theme, text("Export"), (width, true), out, |ui, out| exporting.ui(ui, theme, out));
            }
            Self::Problems(problems) => window(ctx, theme, &problems.title, (560.0, false), out, |ui, out| {
                problems.ui(ui, theme, out);
            }),
            Self::Words => window(ctx, theme, text("Title, notes and cues"), (560.0, false), out, |ui, out| {
                let height = (ui.ctx().content_rect().height() - 220.0).clamp(160.0, 420.0);
                ui.scope(|ui| {
                    ui.set_max_height(height);
                    pages::words::ui(ui, false, session, theme, out);
                });
                ui.add_space(theme.m.space.group);
                if primary(ui, theme, true, text("Done")) {
                    out.push(Action::CloseDialog);
                }
            }),
            Self::Patterns(patterns) => {
                window(ctx, theme, text("Add a pattern page"), (540.0, false), out, |ui, out| {
                    patterns.ui(ui, session, theme, out);
                })
            }
            Self::Conflict(conflict) => window(ctx, theme, conflict.title(), (480.0, false), out, |ui, out| {
                conflict.ui(ui, theme, out);
            }),
            Self::Left(left) => window(ctx, theme, text("Recover unsaved boards"), (560.0, false), out, |ui, out| {
                left.ui(ui, theme, out)
            }),
            Self::Library(shelf) => {
                window(ctx, theme, text("Library"), (900.0, false), out, |ui, out| shelf.ui(ui, theme, out))
            }
            Self::Import(import) => window(ctx, theme, text("Import shots"), (import.width(), true), out, |ui, out| {
                import.ui(ui, theme, out)
            }),
            Self::Roster(roster) => window(ctx, theme, text("Roster"), (640.0, false), out, |ui, out| {
                roster.ui(ui, theme, out);
            }),
            Self::Season(season) => window(ctx, theme, text("Season"), (640.0, true), out, |ui, out| {
                season.ui(ui, theme, out);
            }),
            Self::Opening(opening) => {
                let wait = opening.since + opening::SOON_S - ctx.input(|i| i.time);
                if wait > 0.0 {
                    ctx.request_repaint_after_secs(wait as f32);
                } else {
                    window(ctx, theme, text("Opening a board"), (440.0, true), out, |ui, out| {
                        opening.ui(ui, theme, out);
                    });
                }
            }
            Self::LeaveChart(then) => window(ctx, theme, text("Keep the notes?"), (440.0, false), out, |ui, out| {
                standpoint_chart_room::leave::ui(ui, then, theme, out);
            }),
            Self::How(how) => {
                window(ctx, theme, text("How the figures came about"), (640.0, false), out, |ui, _| how.ui(ui, theme));
            }
            Self::Guide(guide) => {
                window(ctx, theme, text("Guide"), (760.0, false), out, |ui, _| guide.ui(ui, theme));
            }
            Self::Keys => window(ctx, theme, text("Keys"), (520.0, false), out, |ui, _| keys::ui(ui, theme)),
        }
    }

    /// Whether a dialog is open.
    #[must_use]
    pub fn is_open(&self) -> bool {
        *self != Self::None
    }
}

/// Distance of a dialog from the upper edge, as a share of the window: contents may grow while the title stays.
const TOP: f32 = 0.1;

/// Raises open lists over the dialog. The toolkit keeps the former order of layers, and a click
/// that opens a list raises the dialog with it, so a list that was open in an earlier dialog would come under this one.
fn raise_lists(ctx: &Context, dialog: LayerId) {
    if Popup::is_any_open(ctx) {
        let layers = ctx.memory(|memory| memory.areas().visible_layer_ids());
        layers.into_iter().filter(|layer| layer.order == dialog.order && *layer != dialog).for_each(|layer| {
            ctx.move_to_top(layer);
        });
    }
}

/// A window over the board with a title; Escape closes it, and so does a click beside it unless it holds work.
fn window(
    ctx: &Context,
    theme: &Theme,
    title: &str,
    (width, holds_work): (f32, bool),
    out: &mut Outbox,
    body: impl FnOnce(&mut Ui, &mut Outbox),
) {
    let width = width.min(ctx.content_rect().width() - 2.0 * theme.m.space.section);
    let frame = Frame::window(&ctx.global_style()).inner_margin(theme.m.space.edge);
    let id = Id::unique("dialog");
    // As high as the window lets it be, not as the toolkit's usual area.
    let area = Modal::default_area(id)
        .default_height(ctx.content_rect().height() - 2.0 * theme.m.space.section)
        .anchor(Align2::CENTER_TOP, vec2(0.0, TOP * ctx.content_rect().height()));
    raise_lists(ctx, area.layer());
    let modal = Modal::new(id).area(area).frame(frame).backdrop_color(*theme.ui.shadow);
    let shown = modal.show(ctx, |ui| {
        ui.set_width(width);
        let closed = head(ui, title, theme);
        ui.add_space(theme.m.space.small);
        let room = ctx.content_rect().height() - 2.0 * (theme.m.space.item + theme.m.space.edge);
        reachable(ui, room - ui.min_rect().height(), (title, theme), |ui| body(ui, out));
        closed
    });
    // A click beside a dialog must not discard what was chosen or typed in it.
    let beside = shown.backdrop_response.clicked();
    if shown.inner || (shown.should_close() && !(beside && holds_work)) {
        out.push(Action::CloseDialog);
    }
}

/// Contents that scroll where a low window, or large text, has no room for all of them: no button gets out of reach.
fn reachable(ui: &mut Ui, room: f32, (title, theme): (&str, &Theme), body: impl FnOnce(&mut Ui)) {
    let id = Id::unique(("tall dialog", title));
    let tall = ui.data(|data| data.get_temp(id)).unwrap_or(false);
    let height = if tall {
        let room = room.max(theme.m.touch);
        let contents = ScrollArea::vertical().id_salt("dialog contents").max_height(room).auto_shrink([false, true]);
        contents.show_following(ui, body).content_size.y
    } else {
        ui.scope(body).response.rect.height()
    };
    if tall != (height > room) {
        ui.data_mut(|data| data.insert_temp(id, !tall));
        ui.ctx().request_repaint();
    }
}

/// The title, and the way out for whoever has no keyboard; returns whether it was taken.
fn head(ui: &mut Ui, title: &str, theme: &Theme) -> bool {
    let mut closed = false;
    let said = |ui: &mut Ui| {
        ui.add(Label::new(RichText::new(title).text_style(style::title())).truncate());
    };
    ends::row(ui, "dialog head", said, |ui| {
        let (rect, response) = ui.allocate_exact_size(Vec2::splat(theme.m.control), Sense::click());
        let name = text("Close the dialog");
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
        let visuals = ui.style().interact(&response);
        if response.hovered() || response.has_focus() {
            let corner = visuals.corner_radius;
            ui.painter().rect(rect, corner, visuals.weak_bg_fill, visuals.bg_stroke, StrokeKind::Inside);
        }
        theme.icons.paint(ui.painter(), rect.shrink(7.0), Icon::Close, *theme.ui.soft);
        closed = response.on_hover_text(name).clicked();
    });
    closed
}
