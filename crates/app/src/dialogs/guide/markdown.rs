//! Reads the part of Markdown that the documents are written in.

/// A piece of a document.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A heading: its depth, its words, and the name that links give it.
    Heading(usize, String, String),
    /// Running text.
    Paragraph(Vec<Span>),
    /// A line of a list: how far it is set in, and its number in a numbered one.
    Item(usize, Option<String>, Vec<Span>),
    /// Rows of cells; the first row has the headings.
    Table(Vec<Vec<Vec<Span>>>),
    /// A picture: its file and what it shows.
    Picture(String, String),
    /// Lines that stay as they are.
    Code(String),
}

/// Words of one look.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Span {
    /// The words.
    pub text: String,
    /// Emphasised.
    pub strong: bool,
    /// Quoted from the window.
    pub slanted: bool,
    /// To be typed.
    pub code: bool,
    /// Where it leads.
    pub link: Option<String>,
}

/// The blocks of a document.
#[must_use]
pub fn blocks(document: &str) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut lines = document.lines().peekable();
    while let Some(line) = lines.next() {
        let bare = line.trim();
        if bare.is_empty() {
            continue;
        }
        if bare.starts_with("```") {
            let code: Vec<&str> = lines.by_ref().take_while(|line| !line.trim().starts_with("```")).collect();
            blocks.push(Block::Code(code.join("\n")));
        } else if let Some((depth, words)) = heading(bare) {
            let words: String = spans(words).into_iter().map(|span| span.text).collect();
            let name = name(&words);
            blocks.push(Block::Heading(depth, words, name));
        } else if let Some(picture) = picture(bare) {
            blocks.push(picture);
        } else if bare.starts_with('|') {
            let mut rows = vec![row(bare)];
            while let Some(next) = lines.next_if(|next| next.trim().starts_with('|')) {
                let is_rule = next.chars().all(|c| "|-: ".contains(c));
                if !is_rule {
                    rows.push(row(next.trim()));
                }
            }
            blocks.push(Block::Table(rows));
        } else {
            let inset = (line.len() - line.trim_start().len()) / 2;
            let (marker, first) = item(bare).map_or((None, bare), |(marker, rest)| (Some(marker), rest));
            let mut said = first.to_owned();
            while let Some(next) = lines.next_if(|next| goes_on(next)) {
                said.push(' ');
                said.push_str(next.trim());
            }
            let spans = spans(&said);
            blocks.push(match marker {
                Some(number) => Block::Item(inset, number, spans),
                None => Block::Paragraph(spans),
            });
        }
    }
    blocks
}

fn heading(line: &str) -> Option<(usize, &str)> {
    let depth = line.chars().take_while(|c| *c == '#').count();
    let words = line[depth..].strip_prefix(' ')?;
    (depth > 0).then_some((depth, words))
}

/// The name of a heading in links.
#[must_use]
pub fn name(words: &str) -> String {
    let kept = words.to_lowercase();
    kept.chars().filter(|c| c.is_alphanumeric() || " -_".contains(*c)).map(|c| if c == ' ' { '-' } else { c }).collect()
}

fn picture(line: &str) -> Option<Block> {
    let (shows, rest) = line.strip_prefix("![")?.split_once("](")?;
    Some(Block::Picture(rest.strip_suffix(')')?.to_owned(), shows.to_owned()))
}

/// The marker of a line of a list, and what follows it.
fn item(line: &str) -> Option<(Option<String>, &str)> {
    if let Some(rest) = line.strip_prefix("* ").or_else(|| line.strip_prefix("- ")) {
        return Some((None, rest));
    }
    let (number, rest) = line.split_once(". ")?;
    let counts = !number.is_empty() && number.chars().all(|c| c.is_ascii_digit());
    counts.then(|| (Some(number.to_owned()), rest))
}

/// Whether a line goes on with the text before it.
fn goes_on(line: &str) -> bool {
    let bare = line.trim();
    let begins = bare.starts_with(['|', '#']) || bare.starts_with("![") || bare.starts_with("```");
    !bare.is_empty() && !begins && item(bare).is_none()
}

fn row(line: &str) -> Vec<Vec<Span>> {
    let inner = line.strip_prefix('|').unwrap_or(line);
    let inner = inner.strip_suffix('|').unwrap_or(inner);
    // A bar that belongs to a cell is escaped.
    let escaped = inner.replace("\\|", "\u{0}");
    escaped.split('|').map(|cell| spans(&cell.trim().replace('\u{0}', "|"))).collect()
}

/// The spans of running text.
#[must_use]
pub fn spans(text: &str) -> Vec<Span> {
    let mut spans: Vec<Span> = Vec::new();
    let (mut now, mut rest) = (Span::default(), text);
    let mut flush = |now: &mut Span| {
        if !now.text.is_empty() {
            spans.push(now.clone());
            now.text.clear();
        }
    };
    while let Some(c) = rest.chars().next() {
        if let Some((words, target, after)) = link(rest) {
            flush(&mut now);
            let words = words.replace("**", "").replace('`', "");
            flush(&mut Span { text: words, link: Some(target.to_owned()), ..now.clone() });
            rest = after;
        } else if let Some((code, after)) = rest.strip_prefix('`').and_then(|rest| rest.split_once('`')) {
            flush(&mut now);
            flush(&mut Span { text: code.to_owned(), code: true, ..now.clone() });
            rest = after;
        } else if let Some(after) = rest.strip_prefix("**") {
            flush(&mut now);
            now.strong = !now.strong;
            rest = after;
        } else if let Some(after) = rest.strip_prefix('*').filter(|after| now.slanted || closes(after)) {
            flush(&mut now);
            now.slanted = !now.slanted;
            rest = after;
        } else {
            now.text.push(c);
            rest = &rest[c.len_utf8()..];
        }
    }
    flush(&mut now);
    spans
}

/// Whether an asterisk begins slanted words: there are words at once, and another one ends them.
fn closes(after: &str) -> bool {
    after.starts_with(|c: char| !c.is_whitespace()) && after.contains('*')
}

fn link(text: &str) -> Option<(&str, &str, &str)> {
    let (words, rest) = text.strip_prefix('[')?.split_once("](")?;
    if words.contains('[') {
        return None;
    }
    let (target, after) = rest.split_once(')')?;
    Some((words, target, after))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(text: &str) -> Span {
        Span { text: text.to_owned(), ..Span::default() }
    }

    #[test]
    fn text_lists_tables_and_pictures_are_read() {
        let read = blocks(
            "# Title\n\nTwo lines\nof text.\n\n* one\n  goes on\n1. first\n\n| a | b |\n|---|---|\n| c \\| d | e |\n\n![What](p/x.png)\n```\nas is\n```\n",
        );
        assert_eq!(
            read,
            [
                Block::Heading(1, "Title".to_owned(), "title".to_owned()),
                Block::Paragraph(vec![plain("Two lines of text.")]),
                Block::Item(0, None, vec![plain("one goes on")]),
                Block::Item(0, Some("1".to_owned()), vec![plain("first")]),
                Block::Table(vec![
                    vec![vec![plain("a")], vec![plain("b")]],
                    vec![vec![plain("c | d")], vec![plain("e")]]
                ]),
                Block::Picture("p/x.png".to_owned(), "What".to_owned()),
                Block::Code("as is".to_owned()),
            ]
        );
    }

    #[test]
    fn words_keep_their_look_and_links_their_target() {
        let read = spans("Press **F1** or *this*, `Ctrl+K`, see [there](a.md#b); 2 * 3.");
        let looks: Vec<(&str, bool, bool, bool)> =
            read.iter().map(|span| (span.text.as_str(), span.strong, span.slanted, span.code)).collect();
        assert_eq!(looks[1], ("F1", true, false, false));
        assert_eq!(looks[3], ("this", false, true, false));
        assert_eq!(looks[5], ("Ctrl+K", false, false, true));
        assert_eq!(read[7].link.as_deref(), Some("a.md#b"));
        assert_eq!(read.last().unwrap(), &plain("; 2 * 3."));
    }

    #[test]
    fn headings_have_the_names_that_links_use() {
        assert_eq!(name("Zeichnen und Hütchen"), "zeichnen-und-hütchen");
        assert_eq!(name("Files, and when something goes wrong"), "files-and-when-something-goes-wrong");
    }
}
