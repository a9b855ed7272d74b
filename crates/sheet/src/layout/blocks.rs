//! Laying out the blocks of a document.

use super::{
    begins_a_page,
    flow::Flow,
    table,
    wrap::{Set, first_line, lines},
};
use crate::{Align, Block, Figure, KeyFigure, faces::Weight};

/// Indent of list items, in multiples of the text size.
const INDENT: f32 = 1.7;
/// Height that a field leaves for writing, points.
const FIELD: f32 = 17.0;
/// Width a figure leaves for the text beside it at least, as a part of the page.
const LEAST_BESIDE: f32 = 0.42;

/// Lays out blocks; a heading stays with what it is over.
pub fn blocks(flow: &mut Flow, blocks: &[Block]) {
    for (i, wanted) in blocks.iter().enumerate() {
        if matches!(wanted, Block::Heading(_) | Block::Subheading(_)) {
            let after = blocks[i + 1..].iter().position(|next| !matches!(next, Block::Note(_)));
            let kept = &blocks[i..=after.map_or(i, |after| (i + 1 + after).min(blocks.len() - 1))];
            let space = &flow.tokens.space;
            let gaps = space.section + space.small * kept.len() as f32;
            flow.need(kept.iter().map(|kept| least(flow, kept)).sum::<f32>() + gaps);
        }
        block(flow, wanted);
    }
}

/// The height that a block takes at least before it may go on elsewhere.
fn least(flow: &Flow, block: &Block) -> f32 {
    let (text, width) = (&flow.tokens.text, flow.frame().width);
    let high = |words: &str, set: Set| lines(words, set, width).len() as f32 * flow.line_height(set.size);
    let medium = |size| Set { size, weight: Weight::Medium };
    match block {
        Block::Heading(title) => high(title, strong(text.heading)),
        Block::Subheading(title) => high(title, strong(text.subheading)),
        Block::Note(words) => high(words, medium(text.small)),
        Block::Dense(_) => 0.0,
        Block::Table(wanted) => table::least(flow, wanted),
        Block::Figure(figure) | Block::Beside(figure, _) => {
            let whole = flow.whole();
            let room = if matches!(block, Block::Figure(_)) { width } else { whole.width * (1.0 - LEAST_BESIDE) };
            let (_, high, caption) = measured(flow, figure, (room, whole.bottom - whole.top));
            high + caption.len() as f32 * flow.line_height(text.small)
        }
        Block::Part(_) | Block::PageBreak => 0.0,
        Block::Fields(_) => flow.line_height(text.small) + FIELD,
        Block::KeyFigures(_) => flow.line_height(text.figure) + flow.line_height(text.small),
        Block::Paragraph(_) | Block::Said(..) | Block::Bullets(_) | Block::Steps(_) => {
            2.0 * flow.line_height(text.body)
        }
    }
}

pub fn block(flow: &mut Flow, block: &Block) {
    if begins_a_page(block) {
        flow.new_page();
    }
    let tokens = flow.tokens;
    let (text, space) = (&tokens.text, &tokens.space);
    let body = Set { size: text.body, weight: Weight::Medium };
    match block {
        Block::PageBreak => {}
        Block::Part(title) => {
            flow.enter(title);
            flow.text(title, strong(text.title), &tokens.ink, 0.0, None);
            flow.y += space.item;
        }
        Block::Heading(title) => heading(flow, title, text.heading, space.section),
        Block::Subheading(title) => heading(flow, title, text.subheading, space.group),
        Block::Paragraph(words) => {
            flow.text(words, body, &tokens.ink, 0.0, None);
            flow.y += space.item;
        }
        Block::Said(title, words) => said(flow, title, words),
        Block::Dense(dense) => flow.tokens = flow.tokens_for(*dense),
        Block::Note(words) => {
            flow.text(words, Set { size: text.small, ..body }, &tokens.soft, 0.0, None);
            flow.y += space.item;
        }
        Block::Bullets(items) => list(flow, items.iter().map(|item| ("•".to_owned(), item))),
        Block::Steps(items) => list(flow, items.iter().enumerate().map(|(i, item)| (format!("{}.", i + 1), item))),
        Block::Fields(labels) => fields(flow, labels),
        Block::KeyFigures(figures) => key_figures(flow, figures),
        Block::Table(wanted) => table::table(flow, wanted),
        Block::Figure(wanted) => figure(flow, wanted),
        Block::Beside(wanted, blocks) => beside(flow, wanted, blocks),
    }
}

fn strong(size: f32) -> Set {
    Set { size, weight: Weight::Strong }
}

/// A heading, never alone at the foot of a frame.
fn heading(flow: &mut Flow, title: &str, size: f32, above: f32) {
    let tokens = flow.tokens;
    let lines = lines(title, strong(size), flow.frame().width).len() as f32;
    flow.gap(above);
    flow.need(flow.line_height(size) * lines + 3.0 * flow.line_height(tokens.text.body));
    flow.text(title, strong(size), &tokens.ink, 0.0, None);
    flow.y += tokens.space.small;
}

/// Running text after its heading, on the same line.
fn said(flow: &mut Flow, title: &str, words: &str) {
    let tokens = flow.tokens;
    let (bold, body) = (strong(tokens.text.body), Set { size: tokens.text.body, weight: Weight::Medium });
    let height = flow.line_height(body.size);
    flow.gap(tokens.space.small);
    flow.need(2.0 * height);
    let frame = flow.frame();
    let lead = bold.width(title) + tokens.space.group;
    let (first, rest) = first_line(words, body, frame.width - lead);
    flow.set_line((frame.left, flow.y), title, bold, Align::Left, &tokens.ink);
    if lead < 0.6 * frame.width {
        flow.set_line((frame.left + lead, flow.y), first, body, Align::Left, &tokens.ink);
        flow.y += height;
        flow.text(rest, body, &tokens.ink, 0.0, None);
    } else {
        flow.y += height;
        flow.text(words, body, &tokens.ink, 0.0, None);
    }
    flow.y += tokens.space.item;
}

fn list<'a>(flow: &mut Flow, items: impl Iterator<Item = (String, &'a String)>) {
    let tokens = flow.tokens;
    let set = Set { size: tokens.text.body, weight: Weight::Medium };
    for (mark, item) in items {
        flow.text(item, set, &tokens.ink, INDENT * set.size, Some(&mark));
        flow.y += tokens.space.small;
    }
    flow.y += tokens.space.small;
}

/// Lines to write on, as wide as each other.
fn fields(flow: &mut Flow, labels: &[String]) {
    let tokens = flow.tokens;
    let small = Set { size: tokens.text.small, weight: Weight::Medium };
    let gap = tokens.space.section;
    let height = FIELD + flow.line_height(small.size);
    flow.need(height);
    let (left, top, width) = (flow.frame().left, flow.y, flow.frame().width);
    let column = (width - gap * labels.len().saturating_sub(1) as f32) / labels.len().max(1) as f32;
    flow.y = top + FIELD;
    for (i, label) in labels.iter().enumerate() {
        let x = left + i as f32 * (column + gap);
        flow.rule(x, column, tokens.stroke.thin, &tokens.rule);
        flow.set_line((x, top + FIELD + tokens.space.small / 2.0), label, small, Align::Left, &tokens.soft);
    }
    flow.y = top + height + tokens.space.group;
}

fn key_figures(flow: &mut Flow, figures: &[KeyFigure]) {
    let tokens = flow.tokens;
    let (large, small) = (strong(tokens.text.figure), Set { size: tokens.text.small, weight: Weight::Medium });
    let gap = tokens.space.section;
    let mut rest = figures;
    while !rest.is_empty() {
        let width = flow.frame().width;
        let least = |f: &KeyFigure| large.width(&f.value).max(small.longest_word(&f.label)).max(72.0).min(width);
        // As many as fit beside each other, each as wide as the widest needs.
        let mut count = 1;
        for n in 2..=rest.len().min(5) {
            let widest = rest[..n].iter().map(least).fold(0.0, f32::max);
            if (widest + gap) * n as f32 - gap <= width {
                count = n;
            }
        }
        let (row, more) = rest.split_at(count);
        let column = (width - gap * (count - 1) as f32) / count as f32;
        let labels: Vec<Vec<&str>> = row.iter().map(|f| lines(&f.label, small, column)).collect();
        let values: Vec<Vec<&str>> = row.iter().map(|f| lines(&f.value, large, column)).collect();
        let most = |all: &[Vec<&str>]| all.iter().map(Vec::len).max().unwrap_or(0) as f32;
        let value_height = most(&values) * flow.line_height(large.size);
        let height = value_height + most(&labels) * flow.line_height(small.size);
        flow.need(height);
        let (left, top) = (flow.frame().left, flow.y);
        for (i, (value, label)) in values.iter().zip(&labels).enumerate() {
            let x = left + i as f32 * (column + gap);
            for (j, line) in value.iter().enumerate() {
                let y = top + j as f32 * flow.line_height(large.size);
                flow.set_line((x, y), line, large, Align::Left, &tokens.ink);
            }
            for (j, line) in label.iter().enumerate() {
                let y = top + value_height + j as f32 * flow.line_height(small.size);
                flow.set_line((x, y), line, small, Align::Left, &tokens.soft);
            }
        }
        flow.y = top + height + tokens.space.group;
        rest = more;
    }
}

/// Width and height of a figure in a room, and the lines of its caption.
fn measured<'a>(flow: &Flow, figure: &'a Figure, (width, height): (f32, f32)) -> (f32, f32, Vec<&'a str>) {
    let set = Set { size: flow.tokens.text.small, weight: Weight::Medium };
    let drawing = &figure.drawing;
    let wanted = figure.width.unwrap_or(width).min(width);
    let caption = figure.caption.as_deref().map(|c| lines(c, set, wanted)).unwrap_or_default();
    let below = caption.len() as f32 * flow.line_height(set.size);
    let ratio = drawing.height / drawing.width.max(1.0);
    let wide = wanted.min((height - below).max(1.0) / ratio.max(1e-6));
    (wide, wide * ratio, caption)
}

fn put(flow: &mut Flow, figure: &Figure, wide: f32, high: f32, caption: &[&str]) -> f32 {
    let tokens = flow.tokens;
    let (left, top) = (flow.frame().left, flow.y);
    flow.draw(&figure.drawing, (left, top), wide);
    let set = Set { size: tokens.text.small, weight: Weight::Medium };
    let mut y = top + high;
    for line in caption {
        flow.set_line((left, y), line, set, Align::Left, &tokens.soft);
        y += flow.line_height(set.size);
    }
    y
}

fn figure(flow: &mut Flow, figure: &Figure) {
    let whole = flow.whole();
    let (wide, high, caption) = measured(flow, figure, (flow.frame().width, whole.bottom - whole.top));
    let below = caption.len() as f32 * flow.line_height(flow.tokens.text.small);
    flow.need(high + below);
    flow.y = put(flow, figure, wide, high, &caption) + flow.tokens.space.group;
}

fn beside(flow: &mut Flow, figure: &Figure, blocks: &[Block]) {
    let whole = flow.whole();
    let most = whole.width * (1.0 - LEAST_BESIDE);
    let (wide, high, caption) = measured(flow, figure, (most, whole.bottom - whole.top));
    let below = caption.len() as f32 * flow.line_height(flow.tokens.text.small);
    flow.leave_beside();
    flow.need(high + below);
    let top = flow.y;
    let bottom = put(flow, figure, wide, high, &caption);
    flow.y = top;
    flow.stand_beside(whole.left + wide + flow.tokens.space.section, bottom);
    self::blocks(flow, blocks);
    flow.leave_beside();
    flow.y += flow.tokens.space.group;
}
