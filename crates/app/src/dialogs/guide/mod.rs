//! The guide and the other documents, read in the window without a network.

mod library;
mod markdown;

use std::collections::BTreeMap;

use egui::{ComboBox, FontFamily, Label, RichText, ScrollArea, TextStyle, Ui, vec2};
use standpoint_language::{text, text_in};
use standpoint_ui::{
    theme::{Theme, focus::Following as _, fonts, style},
    widgets::row,
};

use super::painted::Painted;
use library::{DOCUMENTS, Document};
use markdown::{Block, Span};

/// Width of running text, points: longer lines are hard to follow.
const COLUMN: f32 = 680.0;
/// Room that a line of a list is set in by, points.
const INSET: f32 = 18.0;

/// The document that is read.
#[derive(Debug, Clone, PartialEq)]
pub struct Guide {
    at: usize,
    blocks: Vec<Block>,
    /// The heading to scroll to.
    wanted: Option<String>,
    /// Documents that were left by a link.
    before: Vec<usize>,
    pictures: BTreeMap<String, Painted>,
}

impl Default for Guide {
    fn default() -> Self {
        Self {
            at: 0,
            blocks: markdown::blocks(DOCUMENTS[0].text()),
            wanted: None,
            before: Vec::new(),
            pictures: BTreeMap::new(),
        }
    }
}

impl Guide {
    fn document(&self) -> &'static Document {
        &DOCUMENTS[self.at]
    }

    fn open(&mut self, at: usize, heading: Option<&str>) {
        if at != self.at {
            self.before.push(self.at);
            self.show(at);
        }
        // Without a heading the document begins at its top.
        let top = || self.blocks.iter().find_map(heading_of).map(|(_, _, name)| name.to_owned());
        self.wanted = heading.map(str::to_owned).or_else(top);
    }

    fn show(&mut self, at: usize) {
        self.at = at;
        self.blocks = markdown::blocks(self.document().text());
        self.pictures.clear();
    }

    /// Whether text is nothing but a link to this document.
    fn is_itself(&self, said: &[Span]) -> bool {
        let [Span { link: Some(link), .. }] = said else { return false };
        library::find(link).is_some_and(|(at, _)| at == self.at)
    }

    fn follow(&mut self, ui: &Ui, link: &str) {
        if let Some(heading) = link.strip_prefix('#') {
            self.wanted = Some(heading.to_owned());
        } else if let Some((at, heading)) = library::find(link) {
            self.open(at, heading);
        } else if link.starts_with("http") {
            ui.ctx().open_url(egui::OpenUrl::new_tab(link));
        }
    }

    /// The window's content.
    pub fn ui(&mut self, ui: &mut Ui, theme: &Theme) {
        self.choices(ui);
        if self.document().is_foreign() {
            row::note(ui, theme, text("This page is in English."));
        }
        ui.separator();
        let height = (ui.ctx().content_rect().height() - 200.0).max(160.0);
        let mut followed = None;
        let scroll = ScrollArea::vertical().id_salt(self.at).max_height(height).auto_shrink([false, true]);
        scroll.show_following(ui, |ui| {
            // Lines of text, not of controls.
            ui.spacing_mut().interact_size.y = 0.0;
            ui.set_max_width((ui.available_width() - theme.m.space.section).min(COLUMN));
            let blocks = std::mem::take(&mut self.blocks);
            for (number, block) in blocks.iter().enumerate() {
                ui.push_id(number, |ui| followed = self.block(ui, block, theme).or(followed.take()));
            }
            self.blocks = blocks;
        });
        if let Some(link) = followed {
            self.follow(ui, &link);
        }
    }

    /// Which document, and where in it.
    fn choices(&mut self, ui: &mut Ui) {
        let (mut opened, mut jumped) = (None, None);
        ui.horizontal(|ui| {
            let back = ui.add_enabled(!self.before.is_empty(), egui::Button::new(text_in("guide", "Back")));
            if back.clicked()
                && let Some(at) = self.before.pop()
            {
                self.show(at);
            }
            let shown = self.document().title();
            let list = ComboBox::from_id_salt("documents").selected_text(shown).height(400.0).show_ui(ui, |ui| {
                for (at, document) in DOCUMENTS.iter().enumerate() {
                    if ui.selectable_label(at == self.at, document.title()).clicked() {
                        opened = Some(at);
                    }
                }
            });
            list.response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::ComboBox, true, text("Document")));
            let list =
                ComboBox::from_id_salt(("headings", self.at)).selected_text(text("Go to…")).width(240.0).height(400.0);
            let list = list.show_ui(ui, |ui| {
                for (depth, words, name) in self.blocks.iter().filter_map(heading_of).filter(|(depth, ..)| *depth > 1) {
                    let said = if depth > 2 { format!("    {words}") } else { words.to_owned() };
                    if ui.selectable_label(false, said).clicked() {
                        jumped = Some(name.to_owned());
                    }
                }
            });
            list.response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::ComboBox, true, text("Section")));
        });
        if let Some(at) = opened {
            self.open(at, None);
        }
        self.wanted = jumped.or(self.wanted.take());
    }

    /// One block; returns the link that was clicked.
    fn block(&mut self, ui: &mut Ui, block: &Block, theme: &Theme) -> Option<String> {
        match block {
            Block::Heading(depth, words, name) => {
                ui.add_space(if *depth > 1 { theme.m.space.section } else { theme.m.space.hair });
                let look = if *depth > 2 {
                    style::emphasis()
                } else if *depth > 1 {
                    style::title()
                } else {
                    TextStyle::Heading
                };
                let heading = ui.add(Label::new(RichText::new(words).text_style(look)).wrap());
                if self.wanted.as_ref() == Some(name) {
                    self.wanted = None;
                    heading.scroll_to_me(Some(egui::Align::TOP));
                }
                ui.add_space(theme.m.space.hair);
                None
            }
            // A link to the same document in the other language leads nowhere here.
            Block::Paragraph(said) if self.is_itself(said) => None,
            Block::Paragraph(said) => {
                ui.add_space(theme.m.space.small);
                let followed = spans(ui, said, false, theme);
                ui.add_space(theme.m.space.small);
                followed
            }
            Block::Item(inset, number, said) => {
                ui.horizontal_top(|ui| {
                    ui.spacing_mut().item_spacing.x = 0.0;
                    ui.add_space(INSET * *inset as f32);
                    let marker = number.as_ref().map_or_else(|| "•".to_owned(), |number| format!("{number}."));
                    let (place, _) = ui.allocate_exact_size(vec2(INSET, theme.m.text.body), egui::Sense::hover());
                    let font = TextStyle::Body.resolve(ui.style());
                    ui.painter().text(place.left_top(), egui::Align2::LEFT_TOP, marker, font, *theme.ui.soft);
                    ui.vertical(|ui| spans(ui, said, false, theme)).inner
                })
                .inner
            }
            Block::Table(rows) => table(ui, rows, theme),
            Block::Picture(file, shows) => {
                self.picture(ui, file, shows, theme);
                None
            }
            Block::Code(lines) => {
                egui::Frame::new().fill(*theme.ui.sunken).inner_margin(theme.m.space.item).show(ui, |ui| {
                    ui.set_min_width(ui.available_width());
                    ui.add(Label::new(RichText::new(lines).text_style(TextStyle::Monospace)).wrap());
                });
                ui.add_space(theme.m.space.small);
                None
            }
        }
    }

    /// A picture; its pixels are read when it comes into view.
    fn picture(&mut self, ui: &mut Ui, file: &str, shows: &str, theme: &Theme) {
        let Some(bytes) = library::picture(file) else { return };
        let size = size(bytes);
        let width = ui.available_width().min(size.x);
        let (rect, response) =
            ui.allocate_exact_size(vec2(width, width * size.y / size.x.max(1.0)), egui::Sense::hover());
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, shows));
        if ui.is_rect_visible(rect) {
            if !self.pictures.contains_key(file)
                && let Some(image) = library::pixels(bytes)
            {
                self.pictures.insert(file.to_owned(), Painted::new(ui.ctx(), file, image));
            }
            if let Some(picture) = self.pictures.get(file) {
                picture.paint(ui, rect);
                let edge = egui::Stroke::new(theme.m.stroke.hair, *theme.ui.outline);
                ui.painter().rect_stroke(rect, 0.0, edge, egui::StrokeKind::Inside);
            }
        }
        row::note(ui, theme, shows);
        ui.add_space(theme.m.space.item);
    }
}

/// The size of a picture, points, from the head of its file.
fn size(bytes: &[u8]) -> egui::Vec2 {
    let number = |at: usize| bytes.get(at..at + 4).and_then(|four| four.try_into().ok()).map_or(1, u32::from_be_bytes);
    vec2(number(16) as f32, number(20) as f32)
}

fn heading_of(block: &Block) -> Option<(usize, &str, &str)> {
    match block {
        Block::Heading(depth, words, name) => Some((*depth, words, name)),
        _ => None,
    }
}

/// Running text; returns the link that was clicked.
fn spans(ui: &mut Ui, said: &[Span], strong: bool, theme: &Theme) -> Option<String> {
    let mut followed = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, theme.m.space.hair);
        for span in said {
            let mut words = RichText::new(&span.text);
            if span.strong || strong {
                words = words.family(fonts::strong());
            } else if span.code {
                words = words.family(FontFamily::Monospace).size(theme.m.text.small);
            }
            if span.slanted {
                words = words.italics();
            }
            match &span.link {
                Some(link) => {
                    if ui.link(words.color(*theme.ui.accent)).clicked() {
                        followed = Some(link.clone());
                    }
                }
                None => {
                    ui.add(Label::new(words).wrap());
                }
            }
        }
    });
    followed
}

/// A table whose columns are as wide as what they hold needs.
fn table(ui: &mut Ui, rows: &[Vec<Vec<Span>>], theme: &Theme) -> Option<String> {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let longest = |column: usize| {
        let length = |row: &Vec<Vec<Span>>| {
            row.get(column).map_or(0, |cell| cell.iter().map(|span| span.text.chars().count()).sum::<usize>())
        };
        rows.iter().map(length).max().unwrap_or(0).clamp(6, 60) as f32
    };
    let wants: Vec<f32> = (0..columns).map(longest).collect();
    let gap = theme.m.space.group;
    let room = ui.available_width() - gap * columns.saturating_sub(1) as f32;
    let widths: Vec<f32> = wants.iter().map(|want| room * want / wants.iter().sum::<f32>()).collect();
    let mut followed = None;
    for (number, row) in rows.iter().enumerate() {
        if number > 0 {
            ui.separator();
        }
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = gap;
            for (cell, width) in row.iter().zip(&widths) {
                let column = egui::Layout::top_down(egui::Align::Min);
                ui.allocate_ui_with_layout(vec2(*width, theme.m.text.body), column, |ui| {
                    ui.set_width(*width);
                    followed = spans(ui, cell, number == 0, theme).or(followed.take());
                });
            }
        });
    }
    ui.add_space(theme.m.space.item);
    followed
}
