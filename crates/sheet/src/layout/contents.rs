//! The list of parts at the beginning, and the foot of every page.

use standpoint_language::text;

use super::{
    Entry, Link, Page,
    flow::{Flow, put_text},
    wrap::{Set, first_line, lines},
};
use crate::{Align, Document, faces::Weight, paper::POINTS_PER_MM, tokens::Tokens};

/// Room for the number of a page, points.
const NUMBER: f32 = 34.0;

/// The pages that list the parts; the parts begin `before` pages later than their entries say.
pub fn pages(document: &Document, tokens: &'static Tokens, entries: &[Entry], before: usize) -> Vec<Page> {
    let mut flow = Flow::new(document.paper, tokens);
    let title = Set { size: tokens.text.title, weight: Weight::Strong };
    flow.text(&document.title, title, &tokens.ink, 0.0, None);
    flow.y += tokens.space.small;
    let heading = Set { size: tokens.text.heading, weight: Weight::Strong };
    flow.text(text("Contents"), heading, &tokens.soft, 0.0, None);
    flow.y += tokens.space.item;
    let set = Set { size: tokens.text.subheading, weight: Weight::Medium };
    let (line_height, pad) = (flow.line_height(set.size), tokens.space.small);
    for entry in entries {
        let width = flow.whole().width - NUMBER;
        flow.need(lines(&entry.title, set, width).len().max(1) as f32 * line_height + 2.0 * pad);
        let (frame, top, page) = (flow.frame(), flow.y, entry.page + before);
        flow.y += pad;
        let number = (page + 1).to_string();
        flow.set_line((frame.left + frame.width, flow.y), &number, set, Align::Right, &tokens.ink);
        flow.text(&entry.title, Set { ..set }, &tokens.ink, 0.0, None);
        flow.y += pad;
        flow.rule(frame.left, frame.width, tokens.stroke.hair, &tokens.rule);
        let rect = [frame.left, top, frame.width, flow.y - top];
        flow.page().links.push(Link { rect, page });
    }
    flow.finish().0
}

/// Adds footer and number to every page.
pub fn footers(document: &Document, tokens: &Tokens, pages: &mut [Page]) {
    let (width, height) = document.paper.size();
    let side = (tokens.margin.side * POINTS_PER_MM) as f32;
    let y = height - (tokens.margin.bottom * POINTS_PER_MM * 0.5) as f32;
    let set = Set { size: tokens.text.small, weight: Weight::Medium };
    let count = pages.len();
    for (i, page) in pages.iter_mut().enumerate() {
        let number = format!("{} / {count}", i + 1);
        let room = width - 2.0 * side - NUMBER;
        let (said, rest) = first_line(&document.footer, set, room);
        let said = if rest.is_empty() { said.to_owned() } else { format!("{}…", said.trim_end_matches('.')) };
        put_text(&mut page.body, (side, y), &said, set, Align::Left, &tokens.soft);
        put_text(&mut page.body, (width - side, y), &number, set, Align::Right, &tokens.soft);
    }
}
