//! The documents and pictures that are built into the program.

use standpoint_language::{Language, mark};

/// A document: its file, what it is called, its text in English and, where there is one, in German.
pub struct Document {
    /// The name of the English file.
    pub file: &'static str,
    title: &'static str,
    english: &'static str,
    german: Option<&'static str>,
}

impl Document {
    /// Its name.
    #[must_use]
    pub fn title(&self) -> &'static str {
        standpoint_language::text(self.title)
    }

    /// Its text in the language that is spoken, or else in English.
    #[must_use]
    pub fn text(&self) -> &'static str {
        match standpoint_language::spoken() {
            Language::German => self.german.unwrap_or(self.english),
            Language::English => self.english,
        }
    }

    /// Whether it is shown in another language than the one that is spoken.
    #[must_use]
    pub fn is_foreign(&self) -> bool {
        standpoint_language::spoken() != Language::English && self.german.is_none()
    }
}

macro_rules! docs {
    ($file:literal) => {
        include_str!(concat!("../../../../../docs/", $file))
    };
}

/// All documents, the guide first.
pub static DOCUMENTS: [Document; 8] = [
    Document { file: "guide.md", title: mark("Guide"), english: docs!("guide.md"), german: Some(docs!("guide.de.md")) },
    Document { file: "present.md", title: mark("Presenting"), english: docs!("present.md"), german: None },
    Document { file: "rehearse.md", title: mark("Rehearsing"), english: docs!("rehearse.md"), german: None },
    Document { file: "sheets.md", title: mark("Sheets and pictures"), english: docs!("sheets.md"), german: None },
    Document {
        file: "charting.md",
        title: mark("Match analysis"),
        english: docs!("charting.md"),
        german: Some(docs!("charting.de.md")),
    },
    Document {
        file: "model.md",
        title: mark("The model"),
        english: docs!("model.md"),
        german: Some(docs!("model.de.md")),
    },
    Document {
        file: "command-line.md",
        title: mark("The command line"),
        english: docs!("command-line.md"),
        german: Some(docs!("command-line.de.md")),
    },
    Document { file: "file-format.md", title: mark("The file format"), english: docs!("file-format.md"), german: None },
];

/// The document that a link leads to, and the heading in it.
#[must_use]
pub fn find(link: &str) -> Option<(usize, Option<&str>)> {
    let (file, heading) = link.split_once('#').map_or((link, None), |(file, heading)| (file, Some(heading)));
    let file = file.replace(".de.md", ".md");
    let at = DOCUMENTS.iter().position(|document| document.file == file)?;
    Some((at, heading))
}

macro_rules! pictures {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_bytes!(concat!("../../../../../docs/", $name)))),*]
    };
}

/// The pictures of the documents, by the path in them.
static PICTURES: &[(&str, &[u8])] = pictures![
    "pictures/guide-aim.png",
    "pictures/guide-answer.png",
    "pictures/guide-bright.png",
    "pictures/guide-finder.png",
    "pictures/guide-how.png",
    "pictures/guide-import.png",
    "pictures/guide-library.png",
    "pictures/guide-net.png",
    "pictures/guide-note.png",
    "pictures/guide-present.png",
    "pictures/guide-rally.png",
    "pictures/guide-rehearse.png",
    "pictures/guide-turn.png",
    "pictures/guide-weigh.png",
    "pictures/de/guide-aim.png",
    "pictures/de/guide-answer.png",
    "pictures/de/guide-bright.png",
    "pictures/de/guide-finder.png",
    "pictures/de/guide-how.png",
    "pictures/de/guide-import.png",
    "pictures/de/guide-library.png",
    "pictures/de/guide-net.png",
    "pictures/de/guide-note.png",
    "pictures/de/guide-present.png",
    "pictures/de/guide-rally.png",
    "pictures/de/guide-rehearse.png",
    "pictures/de/guide-turn.png",
    "pictures/de/guide-weigh.png",
    "pictures/present.png",
    "pictures/rehearse.png",
    "pictures/sheet.png",
];

/// The bytes of a picture.
#[must_use]
pub fn picture(file: &str) -> Option<&'static [u8]> {
    PICTURES.iter().find(|(name, _)| *name == file).map(|(_, bytes)| *bytes)
}

/// The size of a picture in pixels and its pixels.
#[must_use]
pub fn pixels(bytes: &[u8]) -> Option<egui::ColorImage> {
    let mut decoder = png::Decoder::new(std::io::Cursor::new(bytes));
    decoder.set_transformations(png::Transformations::normalize_to_color8() | png::Transformations::ALPHA);
    let mut reader = decoder.read_info().ok()?;
    let mut buffer = vec![0; reader.output_buffer_size()?];
    let info = reader.next_frame(&mut buffer).ok()?;
    let size = [info.width as usize, info.height as usize];
    let bytes = buffer.get(..info.buffer_size())?;
    match info.color_type {
        png::ColorType::Rgba => Some(egui::ColorImage::from_rgba_unmultiplied(size, bytes)),
        png::ColorType::GrayscaleAlpha => {
            let grey: Vec<u8> = bytes.chunks_exact(2).map(|pair| pair[0]).collect();
            Some(egui::ColorImage::from_gray(size, &grey))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{
        super::markdown::{Block, Span, blocks},
        *,
    };

    /// All texts, each with its language.
    fn texts() -> Vec<(&'static str, &'static str)> {
        DOCUMENTS
            .iter()
            .flat_map(|document| {
                let german = document.german.map(|text| (document.file, text));
                std::iter::once((document.file, document.english)).chain(german)
            })
            .collect()
    }

    fn links(block: &Block) -> Vec<&str> {
        let spans: Vec<&Span> = match block {
            Block::Paragraph(spans) | Block::Item(_, _, spans) => spans.iter().collect(),
            Block::Table(rows) => rows.iter().flatten().flatten().collect(),
            _ => Vec::new(),
        };
        spans.into_iter().filter_map(|span| span.link.as_deref()).collect()
    }

    #[test]
    fn every_picture_of_the_documents_is_there_and_can_be_shown() {
        for (file, text) in texts() {
            for block in blocks(text) {
                if let Block::Picture(path, shows) = block {
                    let bytes = picture(&path).unwrap_or_else(|| panic!("{file}: {path} is not built in"));
                    assert!(pixels(bytes).is_some(), "{path}");
                    assert!(!shows.is_empty(), "{path} says what it shows");
                }
            }
        }
    }

    #[test]
    fn every_link_between_the_documents_leads_somewhere() {
        for (file, text) in texts() {
            let all = blocks(text);
            for link in all.iter().flat_map(links).filter(|link| !link.starts_with("http")) {
                let Some(heading) = link.strip_prefix('#') else {
                    assert!(find(link).is_some(), "{file}: {link}");
                    continue;
                };
                let there = all.iter().any(|block| matches!(block, Block::Heading(_, _, name) if name == heading));
                assert!(there, "{file}: {link}");
            }
        }
    }
}
