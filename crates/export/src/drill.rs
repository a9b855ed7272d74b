//! A page as a sheet to take to the court.

use standpoint_board::{Board, Page};
use standpoint_geometry::SurfaceKind;
use standpoint_language::{mark, text, tr, within};
use standpoint_sheet::{Block, Document, Figure};
use standpoint_workbench::{
    edit::DrillPart, headline, replying, selection::Selection, session::Session, wanted::Look, words,
};

use super::{offscreen_canvas::OffscreenCanvas, places, sequence};

/// Footer of every page.
pub const FOOTER: &str = mark("Standpoint. Figures are estimates of a model, made to teach with.");

/// The usual cautions. Common practice, no source.
pub const CAUTIONS: [&str; 4] = [
    mark("Warm up before you start, and clear loose balls from the court while you play."),
    mark(
        "Drink, rest in the shade, and stop when somebody is tired, dizzy or in pain; few balls played well are worth \
         more than many.",
    ),
    mark("A qualified coach decides what suits these players."),
    mark("Medical questions go to a professional."),
];

/// From so many pages on a list of contents is worth a sheet of its own.
const LISTED: usize = 4;

/// What is filled in by hand.
const FIELDS: [&str; 4] = [mark("Date"), mark("Group"), mark("Duration"), mark("Scoring")];

/// Words that mark cautions written in the notes, in every language; a board with its own cautions keeps them.
const SAYS_CAUTIONS: [[&str; 3]; 2] =
    [["warm up", "loose balls", "qualified coach"], ["aufwärmen", "lose bälle", "ausgebildeter trainer"]];

/// The pages of a board that are wanted, counted from 0, as one document for each list of boards.
///
/// Pages that a board does not have are left out.
pub fn document(canvas: &mut OffscreenCanvas, boards: &[(Board, Vec<usize>)], title: &str, look: &Look) -> Document {
    let mut document = Document::new(look.paper, title);
    document.footer(text(FOOTER));
    document.contents(boards.iter().map(|(_, pages)| pages.len()).sum::<usize>() >= LISTED);
    for (board, pages) in boards {
        let mut session = Session::new(board.clone(), None);
        for page in pages {
            add_page(&mut document, canvas, &mut session, *page, look);
        }
    }
    document
}

fn add_page(document: &mut Document, canvas: &mut OffscreenCanvas, session: &mut Session, index: usize, look: &Look) {
    let Some(shared) = session.board().pages.get(index).cloned() else { return };
    let page: &Page = &shared;
    let shot = look.shot.min(page.shots.len().saturating_sub(1));
    session.select(Selection { page: index, shot });
    // What takes more than a sheet in any case is set closer only where that saves one.
    let mut best: Option<(usize, Document)> = None;
    for room in [Room::Usual, Room::Close, Room::Closest] {
        let mut tried = Document::new(look.paper, "");
        fill(&mut tried, canvas, session, (index, page), (look, room));
        let sheets = tried.pages().map_or(usize::MAX, |laid| laid.pages.len());
        if best.as_ref().is_none_or(|(fewest, _)| sheets < *fewest) {
            best = Some((sheets, tried));
        }
        if best.as_ref().is_some_and(|(fewest, _)| *fewest <= 1) {
            break;
        }
    }
    if let Some((_, mut best)) = best {
        document.blocks.append(&mut best.blocks);
    }
}

/// How much room a page of a board takes on its sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Room {
    /// As much as it likes.
    Usual,
    /// Set closer, with a smaller court.
    Close,
    /// Also without the drawing of all shots, which the table tells in words.
    Closest,
}

/// The blocks of a page.
fn fill(
    document: &mut Document,
    canvas: &mut OffscreenCanvas,
    session: &mut Session,
    (index, page): (usize, &Page),
    (look, room): (&Look, Room),
) {
    let shot = session.selection().shot;
    let title = page.title.trim();
    let close = room > Room::Usual;
    document.add(Block::Dense(close));
    document.part(if title.is_empty() { tr!("Page {}", index + 1) } else { title.to_owned() });
    document.note(about(session.board()));
    document.add(Block::Fields(FIELDS.map(|field| text(field).to_owned()).to_vec()));
    let picture = if close { canvas.small_picture(session, look) } else { canvas.picture(session, look) };
    let mut drawing = Figure::new(picture);
    if page.shots.len() > 1 {
        drawing = drawing.caption(tr!("Shot {} of {}", shot + 1, page.shots.len()));
    }
    let mut beside = beside(session, page);
    if close {
        beside = run_in(beside);
    }
    if look.turn.is_multiple_of(2) {
        let widest = drawing.drawing.width * LARGEST;
        let width = if close { widest } else { UPRIGHT.min(widest) };
        document.add(Block::Beside(drawing.width(width), beside));
    } else {
        document.figure(drawing);
        beside.into_iter().for_each(|block| document.add(block));
    }
    below(document, canvas, session, (index, page), (look, room));
    document.add(Block::Dense(false));
}

/// The blocks with headings on the line of the text that they are over, and short lists as running text.
fn run_in(blocks: Vec<Block>) -> Vec<Block> {
    let mut set: Vec<Block> = Vec::new();
    // The sentence of the answer stays over its reason.
    let mut answer = true;
    for block in blocks {
        let said = match (set.last(), block) {
            (Some(Block::Subheading(_)), other) if std::mem::take(&mut answer) => {
                set.push(other);
                continue;
            }
            (Some(Block::Subheading(title)), Block::Paragraph(words)) => Block::Said(title.clone(), words),
            (Some(Block::Subheading(title)), Block::Bullets(items)) => Block::Said(title.clone(), items.join(" · ")),
            (_, other) => {
                set.push(other);
                continue;
            }
        };
        set.pop();
        set.push(said);
    }
    set
}

/// Width of an upright court on paper, points: its letters are then as large as captions.
const UPRIGHT: f32 = 212.0;

/// Most points on paper for a point of a drawing, so that the letters of a small court are not larger.
const LARGEST: f32 = 0.58;

/// Width of the upright drawing of all shots, points.
const OVERVIEW: f32 = 132.0;

/// The same where everything is set closer.
const SMALL_OVERVIEW: f32 = 100.0;

/// Subject of the page: board, court and players, in a line.
fn about(board: &Board) -> String {
    let surface = match board.surface.kind {
        SurfaceKind::Hard => text("hard court"),
        SurfaceKind::Clay => text("clay"),
        SurfaceKind::Grass => text("grass"),
        SurfaceKind::Custom => text("custom surface"),
    };
    let player = |end| {
        let card = board.card(end);
        let level = card.level().map_or_else(|| tr!("custom"), |level| within(words::level(level)));
        format!("{} ({level})", sequence::player(board, end))
    };
    let (near, far) = (player(standpoint_geometry::End::Near), player(standpoint_geometry::End::Far));
    tr!("{} · {} · near {}, far {}", board.title.trim(), surface, near, far)
}

/// Blocks beside the drawing: answer, cues, drill and cautions.
fn beside(session: &Session, page: &Page) -> Vec<Block> {
    let (said, _) = headline::sentence(session);
    let mut blocks = vec![Block::Subheading(said), Block::Paragraph(headline::explanation(session))];
    if page.shots.len() == 1
        && let Some(shot) = sequence::only(session)
    {
        blocks.insert(0, Block::Paragraph(shot));
    }
    let best = session.best();
    if !best.is_empty() {
        blocks.push(Block::Subheading(text("Best replies to be ready for").to_owned()));
        blocks.push(Block::Steps(
            best.iter()
                .map(|reply| {
                    let chance = words::percent(reply.chance_in);
                    let more = format!("{}; {}", words::spare(reply.time_to_spare), replying::describe(reply));
                    tr!("{}: {} go in, {}", words::reply_struck(reply.name, reply.stroke), chance, more)
                })
                .collect(),
        ));
    }
    let cues: Vec<String> = page.cues.iter().map(|cue| cue.trim().to_owned()).filter(|cue| !cue.is_empty()).collect();
    if !cues.is_empty() {
        blocks.push(Block::Subheading(text("Cues").to_owned()));
        blocks.push(Block::Bullets(cues));
    }
    for part in [DrillPart::Feed, DrillPart::Targets, DrillPart::Progression] {
        said_of(&mut blocks, text(part.label()), part.of(&page.drill));
    }
    let drawn = places::equipment(&page.marks).map(|drawn| tr!("On the drawing: {}.", drawn));
    let named = page.drill.equipment.trim();
    let equipment: Vec<&str> =
        [named, drawn.as_deref().unwrap_or_default()].into_iter().filter(|text| !text.is_empty()).collect();
    said_of(&mut blocks, text(DrillPart::Equipment.label()), &equipment.join("\n"));
    said_of(&mut blocks, text("Notes"), &notes(&page.notes));
    blocks.push(Block::Subheading(text("Before you start").to_owned()));
    blocks.push(Block::Paragraph(CAUTIONS.map(text).join(" ")));
    blocks
}

fn said_of(blocks: &mut Vec<Block>, heading: &str, said: &str) {
    if !said.trim().is_empty() {
        blocks.push(Block::Subheading(heading.to_owned()));
        blocks.push(Block::Paragraph(said.trim().to_owned()));
    }
}

/// Blocks below the drawing: set-up, shots in order, and the origin of the figures.
fn below(
    document: &mut Document,
    canvas: &mut OffscreenCanvas,
    session: &mut Session,
    (index, page): (usize, &Page),
    (look, room): (&Look, Room),
) {
    let (court, units) = (session.court(), session.units());
    if let Some(table) = places::setting_up(&court, &page.marks, units) {
        document.heading(text("Setting up"));
        document.note(text(
            "Each place is measured from two lines, to their outer edges; left and right as on the drawing.",
        ));
        document.table(table);
    }
    if page.shots.len() > 1 {
        document.heading(text("Sequence"));
        let table = sequence::table(session, index);
        if room == Room::Closest {
            document.table(table);
            return;
        }
        let all = canvas.overview(session, &Look { size: None, ..look.clone() });
        let width = match (look.turn.is_multiple_of(2), room) {
            (true, Room::Usual) => OVERVIEW,
            (true, _) => SMALL_OVERVIEW,
            (false, _) => UPRIGHT,
        };
        let drawn = Figure::new(all).width(width).caption(text("All shots by their numbers"));
        document.add(Block::Beside(drawn, vec![Block::Table(table)]));
    }
}

/// The notes without lines of tags, and without a paragraph of cautions that the sheet brings itself.
fn notes(text: &str) -> String {
    let is_tags = |line: &str| {
        let mut words = line.split_whitespace().peekable();
        words.peek().is_some() && words.all(|word| word.starts_with('#'))
    };
    let says_cautions = |line: &str| {
        let line = line.to_lowercase();
        SAYS_CAUTIONS.iter().any(|cautions| cautions.iter().all(|words| line.contains(words)))
    };
    let kept: Vec<&str> = text.lines().filter(|line| !is_tags(line) && !says_cautions(line)).collect();
    kept.join("\n").trim().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_leave_out_tags_and_cautions_that_are_said_anyway() {
        let text = "First\nWarm up, clear loose balls; a qualified coach decides.\n#drill #net\nLast #kept";
        assert_eq!(notes(text), "First\nLast #kept");
    }

    #[test]
    fn the_cautions_of_the_sheet_say_all_of_them() {
        let all = CAUTIONS.join(" ").to_lowercase();
        for caution in ["warm up", "loose balls", "shade", "pain", "qualified coach", "medical"] {
            assert!(all.contains(caution), "{caution}");
        }
    }
}
