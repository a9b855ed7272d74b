//! The library: teaching boards with small pictures, found by words and tags.

use std::{path::PathBuf, sync::Arc};

use egui::{Key, Label, Modifiers, Rect, RichText, ScrollArea, Sense, TextEdit, Ui, vec2};
use standpoint_board::library::{Entry, Library, Source};
use standpoint_language::{text, tr};
use standpoint_ui::{
    commands::{Action, Outbox, choices::Pick},
    theme::{Theme, focus::Following as _, style},
    widgets::mini,
};

/// Least width of a card, its height, and the width of its picture, points.
const CARD: (f32, f32) = (262.0, 156.0);
const PICTURE: f32 = 84.0;
/// Tags shown to choose from.
const TAGS: usize = 14;

/// The library's state.
#[derive(Debug, Clone, Default)]
pub struct Shelf {
    /// The boards, once they have been read.
    pub library: Option<Arc<Library>>,
    /// The folder of one's own boards.
    pub own: Option<PathBuf>,
    typed: String,
    tag: Option<String>,
    begun: bool,
}

impl PartialEq for Shelf {
    fn eq(&self, other: &Self) -> bool {
        let same = match (&self.library, &other.library) {
            (Some(a), Some(b)) => Arc::ptr_eq(a, b),
            (None, None) => true,
            _ => false,
        };
        same && self.own == other.own && self.typed == other.typed && self.tag == other.tag
    }
}

impl Shelf {
    /// A shelf that is still being filled.
    #[must_use]
    pub fn new(own: Option<PathBuf>) -> Self {
        Self { own, ..Self::default() }
    }

    /// The field, the tags and the boards that fit.
    pub fn ui(&mut self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        let field = TextEdit::singleline(&mut self.typed)
            .align(egui::Align2::LEFT_CENTER)
            .hint_text(text("approach, left-hander, serve…"))
            .desired_width(f32::INFINITY);
        let field = ui.add(field).accessible_name(text("Search the library"));
        if !std::mem::replace(&mut self.begun, true) {
            field.request_focus();
        }
        ui.add_space(theme.m.space.small);
        let height = (ui.ctx().content_rect().height() * 0.55).max(180.0);
        let Some(library) = self.library.clone() else {
            ui.label(RichText::new(text("Reading the boards…")).color(*theme.ui.soft));
            ui.add_space(height);
            return;
        };
        self.tags(ui, &library);
        ui.add_space(theme.m.space.item);
        let found = self.found(&library);
        let enter = field.lost_focus() && ui.input_mut(|i| i.consume_key(Modifiers::NONE, Key::Enter));
        if let Some(first) = found.first().filter(|_| enter) {
            open(first, out);
        }
        // Constant height, so that nothing moves during a search.
        ui.scope(|ui| {
            ui.set_height(height);
            ScrollArea::vertical().max_height(height).auto_shrink([false, false]).show_following(ui, |ui| {
                let gap = theme.m.space.item;
                ui.spacing_mut().item_spacing = vec2(gap, gap);
                let whole = ui.available_width() - gap;
                let columns = ((whole + gap) / (CARD.0 + gap)).floor().max(1.0);
                let width = ((whole + gap) / columns - gap).floor();
                for row in found.chunks(columns as usize) {
                    ui.horizontal(|ui| row.iter().for_each(|entry| card(ui, entry, width, theme, out)));
                }
                if found.is_empty() {
                    ui.label(RichText::new(text("No board has all of these words")).color(*theme.ui.soft));
                }
                for (path, why) in &library.unreadable {
                    let said = format!("{}: {why}", path.display());
                    ui.add(Label::new(RichText::new(said).small().color(*theme.ui.bad)).wrap());
                }
            });
        });
        ui.add_space(theme.m.space.item);
        self.foot(ui, theme, out);
    }

    /// The boards with all of the words and the tag.
    fn found<'a>(&self, library: &'a Library) -> Vec<&'a Entry> {
        let has = |entry: &&Entry| self.tag.as_ref().is_none_or(|tag| entry.tags.contains(tag));
        library.search(&self.typed).into_iter().filter(has).collect()
    }

    fn tags(&mut self, ui: &mut Ui, library: &Library) {
        ui.horizontal_wrapped(|ui| {
            for (tag, count) in library.tags().into_iter().take(TAGS) {
                let on = self.tag.as_ref() == Some(&tag);
                let chip = egui::Button::new(RichText::new(format!("#{tag}")).small()).selected(on);
                let response = ui.add(chip).on_hover_text(tr!("1 board" | "{n} boards" % count));
                if response.clicked() {
                    self.tag = (!on).then_some(tag);
                }
            }
        });
    }

    fn foot(&self, ui: &mut Ui, theme: &Theme, out: &mut Outbox) {
        ui.horizontal(|ui| {
            if ui.button(text("Folder of your own…")).clicked() {
                out.push(Action::ChooseOwnFolder);
            }
            let own = self.own.as_ref().map_or_else(
                || text("Boards in a folder of your own are listed here too").to_owned(),
                |own| own.display().to_string(),
            );
            ui.add(Label::new(RichText::new(own).small().color(*theme.ui.soft)).truncate());
        });
    }
}

fn open(entry: &Entry, out: &mut Outbox) {
    out.push(Action::CloseDialog);
    out.push(Action::OpenTeaching(Pick { board: Arc::clone(&entry.board) }));
}

/// A card: picture, title and subject of a board.
fn card(ui: &mut Ui, entry: &Entry, width: f32, theme: &Theme, out: &mut Outbox) {
    let (rect, response) = ui.allocate_exact_size(vec2(width, CARD.1), Sense::click());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &entry.title));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(entry.summary.as_str());
    });
    let visuals = ui.style().interact(&response);
    let painter = ui.painter();
    painter.rect(rect, theme.m.radius.medium, visuals.weak_bg_fill, visuals.bg_stroke, egui::StrokeKind::Inside);
    let inner = rect.shrink(theme.m.space.item);
    picture(ui, Rect::from_min_size(inner.min, vec2(PICTURE, inner.height())), entry, theme);
    let words = inner.with_min_x(inner.left() + PICTURE + theme.m.space.item);
    let mut beside =
        ui.new_child(egui::UiBuilder::new().max_rect(words).layout(egui::Layout::top_down(egui::Align::Min)));
    beside.shrink_clip_rect(words);
    beside.spacing_mut().item_spacing.y = theme.m.space.hair;
    let label = |ui: &mut Ui, words: RichText| ui.add(Label::new(words).wrap().selectable(false));
    label(&mut beside, RichText::new(&entry.title).text_style(style::emphasis()));
    label(&mut beside, RichText::new(&entry.summary).small().color(*theme.ui.soft));
    if let Source::Own(path) = &entry.source {
        let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
        label(&mut beside, RichText::new(tr!("yours: {}", name)).small());
    }
    if response.on_hover_text(format!("{}\n{}", entry.summary, entry.tags.join(", "))).clicked() {
        open(entry, out);
    }
}

/// The first page as a small drawing.
fn picture(ui: &Ui, rect: Rect, entry: &Entry, theme: &Theme) {
    let Some(page) = entry.board.page(0) else { return };
    let (at, shapes) = mini::court(rect, &entry.board.court.court(), false, theme);
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    painter.extend(shapes);
    for way in mini::ways(page) {
        painter.extend(mini::way(&at, &way, entry.board.coached, 1.6, theme));
    }
    painter.extend(mini::marks(&at, &page.marks, theme));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_and_a_tag_narrow_the_shelf() {
        let library = Library::shipped();
        let mut shelf = Shelf::new(None);
        let all = shelf.found(&library).len();
        assert!(all >= 12);
        shelf.typed = "approach".to_owned();
        let some = shelf.found(&library).len();
        assert!(some > 0 && some < all);
        shelf.typed = String::new();
        shelf.tag = library.tags().first().map(|(tag, _)| tag.clone());
        assert!(shelf.found(&library).iter().all(|entry| entry.tags.contains(shelf.tag.as_ref().unwrap())));
    }
}
