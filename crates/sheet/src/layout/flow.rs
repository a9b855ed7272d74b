//! The frames that a document flows through, and what is painted into them.

use std::fmt::Write as _;

use super::{
    Entry, Page,
    wrap::{Set, first_line},
};
use crate::{
    Paper,
    document::Align,
    drawing::Drawing,
    faces::{FAMILY, Weight},
    paper::POINTS_PER_MM,
    tokens::Tokens,
    xml::{escaped, number},
};

/// A column being filled from the top.
#[derive(Debug, Clone, Copy)]
pub struct Frame {
    pub left: f32,
    pub width: f32,
    pub top: f32,
    pub bottom: f32,
}

/// Where the document has got to.
pub struct Flow {
    pub tokens: &'static Tokens,
    page: Frame,
    frame: Frame,
    /// Bottom of the figure beside which the frame lies.
    beside: Option<f32>,
    pub y: f32,
    pages: Vec<Page>,
    entries: Vec<Entry>,
}

impl Flow {
    pub fn new(paper: Paper, tokens: &'static Tokens) -> Self {
        let (width, height) = paper.size();
        let mm = |mm: f64| (mm * POINTS_PER_MM) as f32;
        let side = mm(tokens.margin.side);
        let page = Frame {
            left: side,
            width: width - 2.0 * side,
            top: mm(tokens.margin.top),
            bottom: height - mm(tokens.margin.bottom),
        };
        Self { tokens, page, frame: page, beside: None, y: page.top, pages: vec![Page::default()], entries: Vec::new() }
    }

    /// The tokens for text set closer, or as usual.
    pub fn tokens_for(&self, dense: bool) -> &'static Tokens {
        let tokens = if dense { Tokens::dense() } else { Tokens::load() };
        tokens.unwrap_or(self.tokens)
    }

    pub fn frame(&self) -> Frame {
        self.frame
    }

    /// The whole text area of a page.
    pub fn whole(&self) -> Frame {
        self.page
    }

    /// Height left in the frame.
    pub fn room(&self) -> f32 {
        self.frame.bottom - self.y
    }

    /// Whether nothing stands in the frame yet.
    pub fn is_fresh(&self) -> bool {
        self.y <= self.frame.top + 0.01
    }

    /// Leaves a gap, but not at the top of a frame.
    pub fn gap(&mut self, height: f32) {
        if !self.is_fresh() {
            self.y += height;
        }
    }

    /// Goes on below the figure, or overleaf.
    pub fn next_frame(&mut self) {
        if let Some(bottom) = self.beside.take() {
            let top = bottom + self.tokens.space.group;
            self.frame = Frame { top, ..self.page };
            self.y = top;
            if self.has_room_below(bottom) {
                return;
            }
        }
        self.pages.push(Page::default());
        self.frame = self.page;
        self.y = self.page.top;
    }

    /// Whether some lines of full width go below a figure that ends there.
    fn has_room_below(&self, bottom: f32) -> bool {
        self.page.bottom - (bottom + self.tokens.space.group) > self.tokens.text.body * 4.0
    }

    /// Makes room for something of this height, in another frame if need be.
    pub fn need(&mut self, height: f32) {
        // Two turns lead from beside a figure to a page of its own.
        for _ in 0..2 {
            if self.room() < height && !(self.is_fresh() && self.beside.is_none() && self.frame.top <= self.page.top) {
                self.next_frame();
            }
        }
    }

    /// Begins a new page, unless this one is still empty.
    pub fn new_page(&mut self) {
        let empty = self.pages.last().is_none_or(|page| page.body.is_empty());
        self.beside = None;
        if !empty {
            self.pages.push(Page::default());
        }
        self.frame = self.page;
        self.y = self.page.top;
    }

    /// Lets blocks stand in the column at the right of something that ends `bottom`.
    pub fn stand_beside(&mut self, left: f32, bottom: f32) {
        let right = self.page.left + self.page.width;
        // Where a page has no room below the figure, the column may as well go down to its end.
        let end = if self.has_room_below(bottom) { bottom.min(self.page.bottom) } else { self.page.bottom };
        self.frame = Frame { left, width: right - left, top: self.y, bottom: end };
        self.beside = Some(bottom);
    }

    /// Goes back to the full width, below the figure.
    pub fn leave_beside(&mut self) {
        if let Some(bottom) = self.beside.take() {
            self.y = bottom.max(self.y);
            self.frame = self.page;
        }
    }

    /// Notes that a part begins here.
    pub fn enter(&mut self, title: &str) {
        self.entries.push(Entry { title: title.to_owned(), page: self.pages.len() - 1 });
    }

    pub fn finish(self) -> (Vec<Page>, Vec<Entry>) {
        (self.pages, self.entries)
    }

    /// The page being filled.
    pub fn page(&mut self) -> &mut Page {
        if self.pages.is_empty() {
            self.pages.push(Page::default());
        }
        let last = self.pages.len() - 1;
        &mut self.pages[last]
    }

    /// Height of a line.
    pub fn line_height(&self, size: f32) -> f32 {
        size * self.tokens.space.line
    }

    /// Sets a line whose upper edge is `y`; `x` is its left or right end.
    pub fn set_line(&mut self, (x, y): (f32, f32), text: &str, set: Set, align: Align, color: &str) {
        let baseline = y + self.line_height(set.size) * 0.5 + set.size * 0.35;
        put_text(&mut self.page().body, (x, baseline), text, set, align, color);
    }

    /// Sets running text from where the flow is, through as many frames as it takes; every line is `indent` from the
    /// left. `first` is painted before the first line, as the mark of a list.
    pub fn text(&mut self, text: &str, set: Set, color: &str, indent: f32, first: Option<&str>) {
        let height = self.line_height(set.size);
        let (mut rest, mut mark) = (text.trim_end(), first);
        while !rest.is_empty() || mark.is_some() {
            // The last line of a paragraph does not go overleaf alone.
            let in_frame = |rest| first_line(rest, set, self.frame.width - indent).1;
            let after = in_frame(rest);
            let last_two = !after.is_empty() && in_frame(after).is_empty();
            self.need(if last_two { 2.0 * height } else { height });
            let Frame { left, width, .. } = self.frame;
            let (line, more) = first_line(rest, set, width - indent);
            if let Some(mark) = mark.take() {
                let at = (left + indent - self.tokens.space.item, self.y);
                self.set_line(at, mark, set, Align::Right, color);
            }
            self.set_line((left + indent, self.y), line, set, Align::Left, color);
            self.y += height;
            rest = more;
        }
    }

    /// A rule across the frame at the flow's height.
    pub fn rule(&mut self, left: f32, width: f32, stroke: f32, color: &str) {
        let y = number(self.y);
        let (a, b) = (number(left), number(left + width));
        let _ = write!(
            self.page().body,
            "<line x1=\"{a}\" y1=\"{y}\" x2=\"{b}\" y2=\"{y}\" stroke=\"{color}\" stroke-width=\"{stroke}\"/>"
        );
    }

    /// A filled rectangle.
    pub fn fill(&mut self, [x, y, width, height]: [f32; 4], color: &str) {
        let [x, y, width, height] = [x, y, width, height].map(number);
        let _ = write!(
            self.page().body,
            "<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" fill=\"{color}\"/>"
        );
    }

    /// A drawing with its upper left corner here, so wide.
    pub fn draw(&mut self, drawing: &Drawing, (x, y): (f32, f32), width: f32) {
        let height = width * drawing.height / drawing.width.max(1.0);
        // An SVG of its own, so that nothing leaves its place.
        let _ = write!(
            self.page().body,
            "<svg x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" viewBox=\"0 0 {} {}\">{}</svg>",
            number(x),
            number(y),
            number(width),
            number(height),
            number(drawing.width),
            number(drawing.height),
            drawing.body
        );
    }
}

/// Writes a line of text on its baseline.
pub fn put_text(body: &mut String, (x, baseline): (f32, f32), text: &str, set: Set, align: Align, color: &str) {
    if text.trim().is_empty() {
        return;
    }
    let anchor = if align == Align::Right { " text-anchor=\"end\"" } else { "" };
    let weight = if set.weight == Weight::Strong { 600 } else { 500 };
    let _ = write!(
        body,
        "<text x=\"{}\" y=\"{}\" font-family=\"{FAMILY}, sans-serif\" font-weight=\"{weight}\" font-size=\"{}\" \
         fill=\"{color}\"{anchor}>{}</text>",
        number(x),
        number(baseline),
        number(set.size),
        escaped(text)
    );
}
