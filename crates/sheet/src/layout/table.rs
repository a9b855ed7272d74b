//! Laying out tables: columns as wide as what stands in them, heads repeated overleaf, cells wrapped.

use super::{
    flow::Flow,
    wrap::{Set, first_line, lines},
};
use crate::{Align, Table, faces::Weight};

/// Least width of a column, points.
const LEAST: f32 = 16.0;

pub fn table(flow: &mut Flow, table: &Table) {
    if table.columns.is_empty() {
        return;
    }
    let tokens = flow.tokens;
    let headed = table.columns.iter().any(|column| !column.title.is_empty());
    let mut widths = widths(flow, table);
    let mut laid_for = flow.frame().width;
    if headed {
        // A head is never alone at the foot of a frame.
        let first = table.rows.first().map_or(0.0, |row| height(flow, table, row, &widths));
        flow.need(head_height(flow, table, &widths) + first.min(flow.line_height(tokens.text.body) * 4.0));
        if flow.frame().width.total_cmp(&laid_for).is_ne() {
            (widths, laid_for) = (self::widths(flow, table), flow.frame().width);
        }
        head(flow, table, &widths);
    }
    for row in &table.rows {
        let mut cells: Vec<&str> = (0..table.columns.len()).map(|i| row.get(i).map_or("", |c| c.trim_end())).collect();
        loop {
            let all = height(flow, table, &cells, &widths);
            let pad = 2.0 * tokens.space.small;
            let fits = all <= flow.room();
            let line = flow.line_height(tokens.text.body);
            let whole_page = flow.whole().bottom - flow.whole().top;
            let may_split = all > whole_page - 3.0 * line && flow.room() >= pad + 2.0 * line;
            if !fits && !may_split {
                flow.next_frame();
                if flow.frame().width.total_cmp(&laid_for).is_ne() {
                    (widths, laid_for) = (self::widths(flow, table), flow.frame().width);
                }
                if headed {
                    head(flow, table, &widths);
                }
                continue;
            }
            let most = if fits { usize::MAX } else { ((flow.room() - pad) / line).floor().max(1.0) as usize };
            cells = put_row(flow, table, &cells, &widths, most);
            if cells.iter().all(|rest| rest.is_empty()) {
                break;
            }
        }
    }
    flow.y += tokens.space.group;
}

/// Height of the head with the first row.
pub fn least(flow: &Flow, table: &Table) -> f32 {
    let widths = widths(flow, table);
    let first = table.rows.first().map_or(0.0, |row| height(flow, table, row, &widths));
    head_height(flow, table, &widths) + first.min(flow.line_height(flow.tokens.text.body) * 4.0)
}

fn body(flow: &Flow) -> Set {
    Set { size: flow.tokens.text.body, weight: Weight::Medium }
}

fn small(flow: &Flow) -> Set {
    Set { size: flow.tokens.text.small, weight: Weight::Strong }
}

/// Widths of the columns with what lies between them: as wide as their text, or shared out where there is too much.
fn widths(flow: &Flow, table: &Table) -> Vec<f32> {
    let (set, head, gap) = (body(flow), small(flow), gap(flow));
    let room = flow.frame().width - gap * (table.columns.len() - 1) as f32;
    let slack = 1.03;
    let mut natural = Vec::new();
    let mut least = Vec::new();
    for (i, column) in table.columns.iter().enumerate() {
        let cells = || table.rows.iter().filter_map(|row| row.get(i)).flat_map(|cell| cell.lines());
        let widest = cells().map(|line| set.width(line)).fold(head.width(&column.title), f32::max);
        let word = cells().map(|line| set.longest_word(line)).fold(head.longest_word(&column.title), f32::max);
        natural.push((widest * slack).max(LEAST));
        least.push((word * slack).max(LEAST).min(room * 0.5));
    }
    let (all, needed): (f32, f32) = (natural.iter().sum(), least.iter().sum());
    if all <= room {
        // The rest goes to the columns of text, so that the table is as wide as its frame.
        let texts = table.columns.iter().filter(|c| c.align == Align::Left).count().max(1) as f32;
        let any = table.columns.iter().any(|c| c.align == Align::Left);
        let extra = (room - all) / texts;
        return natural
            .iter()
            .zip(&table.columns)
            .map(|(w, c)| if !any || c.align == Align::Left { w + extra } else { *w })
            .collect();
    }
    if needed >= room {
        return least.iter().map(|w| w * room / needed).collect();
    }
    let share = (room - needed) / (all - needed);
    natural.iter().zip(&least).map(|(n, l)| l + (n - l).max(0.0) * share).collect()
}

fn gap(flow: &Flow) -> f32 {
    flow.tokens.space.group
}

fn height<T: AsRef<str>>(flow: &Flow, table: &Table, row: &[T], widths: &[f32]) -> f32 {
    let set = body(flow);
    let cells = row.iter().take(table.columns.len()).zip(widths);
    let most = cells.map(|(cell, width)| lines(cell.as_ref(), set, *width).len()).max().unwrap_or(1).max(1);
    most as f32 * flow.line_height(set.size) + 2.0 * flow.tokens.space.small
}

fn head_height(flow: &Flow, table: &Table, widths: &[f32]) -> f32 {
    let set = small(flow);
    let most = table.columns.iter().zip(widths).map(|(c, w)| lines(&c.title, set, *w).len()).max().unwrap_or(1);
    most as f32 * flow.line_height(set.size) + 2.0 * flow.tokens.space.small
}

/// Left edge of each column.
fn lefts(flow: &Flow, widths: &[f32]) -> Vec<f32> {
    let mut x = flow.frame().left;
    widths
        .iter()
        .map(|width| {
            let left = x;
            x += width + gap(flow);
            left
        })
        .collect()
}

fn head(flow: &mut Flow, table: &Table, widths: &[f32]) {
    let tokens = flow.tokens;
    let (set, height, top) = (small(flow), head_height(flow, table, widths), flow.y);
    let (frame, bleed) = (flow.frame(), tokens.space.small);
    flow.fill([frame.left - bleed, top, frame.width + 2.0 * bleed, height], &tokens.ground);
    for ((column, left), width) in table.columns.iter().zip(lefts(flow, widths)).zip(widths) {
        for (i, line) in lines(&column.title, set, *width).into_iter().enumerate() {
            let y = top + tokens.space.small + i as f32 * flow.line_height(set.size);
            put_cell(flow, (left, y), *width, line, set, column.align, &tokens.ink);
        }
    }
    flow.y = top + height;
}

fn put_cell(flow: &mut Flow, (left, y): (f32, f32), width: f32, line: &str, set: Set, align: Align, color: &str) {
    let x = if align == Align::Right { left + width } else { left };
    flow.set_line((x, y), line, set, align, color);
}

/// Sets at most so many lines of a row and returns what is left of its cells.
fn put_row<'a>(flow: &mut Flow, table: &Table, cells: &[&'a str], widths: &[f32], most: usize) -> Vec<&'a str> {
    let tokens = flow.tokens;
    let (set, top) = (body(flow), flow.y);
    let (line_height, pad) = (flow.line_height(set.size), tokens.space.small);
    let mut deepest = 1;
    let mut rests = Vec::with_capacity(cells.len());
    for (((cell, column), left), width) in cells.iter().zip(&table.columns).zip(lefts(flow, widths)).zip(widths) {
        let (mut rest, mut count): (&str, usize) = (cell, 0);
        while !rest.is_empty() && count < most {
            let (line, more) = first_line(rest, set, *width);
            let y = top + pad + count as f32 * line_height;
            put_cell(flow, (left, y), *width, line, set, column.align, &tokens.ink);
            (rest, count) = (more, count + 1);
        }
        deepest = deepest.max(count);
        rests.push(rest);
    }
    flow.y = top + 2.0 * pad + deepest as f32 * line_height;
    let frame = flow.frame();
    let bleed = pad;
    flow.rule(frame.left - bleed, frame.width + 2.0 * bleed, tokens.stroke.hair, &tokens.rule);
    rests
}
