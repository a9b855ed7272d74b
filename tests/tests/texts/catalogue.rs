//! Reading and writing of the catalogues.

use std::{collections::BTreeMap, fmt::Write as _, fs};

use rspolib::{FileOptions, pofile};

use super::sources::{Key, Texts};

/// The catalogues and the languages they are in.
pub const CATALOGUES: [(&str, &str); 1] =
    [(concat!(env!("CARGO_MANIFEST_DIR"), "/../assets/languages/de.po"), "German")];

/// A catalogue's translation of a text.
#[derive(Debug, Clone, Default)]
pub struct Entry {
    pub texts: Vec<String>,
    pub fuzzy: bool,
}

/// The entries of a catalogue in their order.
pub fn entries(path: &str) -> Vec<(Key, Entry)> {
    // The reader takes a path or the text itself; it does not read bytes.
    let text = fs::read_to_string(path).unwrap_or_else(|e| panic!("{path}: {e}"));
    let file = pofile(FileOptions::from(text.as_str())).unwrap_or_else(|e| panic!("{path}: {e:?}"));
    assert_eq!(file.entries.len(), text.matches("\nmsgid ").count() - 1, "{path} is read in part only");
    let read = |entry: rspolib::POEntry| {
        let texts = match entry.msgid_plural {
            Some(_) => entry.msgstr_plural,
            None => vec![entry.msgstr.unwrap_or_default()],
        };
        let fuzzy = entry.flags.iter().any(|flag| flag == "fuzzy");
        (Key { context: entry.msgctxt, text: entry.msgid }, Entry { texts, fuzzy })
    };
    file.entries.into_iter().map(read).collect()
}

/// The entries of a catalogue by text. Of duplicates, as after a merge, the translated entry wins.
pub fn read(path: &str) -> BTreeMap<Key, Entry> {
    let mut found = BTreeMap::<Key, Entry>::new();
    for (key, entry) in entries(path) {
        let there = found.entry(key).or_default();
        if there.texts.iter().all(String::is_empty) {
            *there = entry;
        }
    }
    found
}

/// A catalogue with all texts, keeping existing translations, ordered by first place in the sources.
pub fn written(path: &str, texts: &Texts, there: &BTreeMap<Key, Entry>) -> String {
    let now = fs::read_to_string(path).unwrap();
    let mut out = now.split("\n\n").next().unwrap_or_default().to_owned();
    out.push('\n');
    let mut ordered: Vec<_> = texts.iter().collect();
    ordered.sort_by_key(|(key, found)| (file_of(&found.places[0]).to_owned(), (*key).clone()));
    for (key, found) in ordered {
        let mut files: Vec<&str> = found.places.iter().map(|place| file_of(place)).collect();
        files.dedup();
        let said = there.get(key).map(|entry| entry.texts.clone()).unwrap_or_default();
        let nth = |i: usize| quoted(said.get(i).map_or("", String::as_str));
        let _ = writeln!(out, "\n#: {}", files.join(" "));
        if let Some(context) = &key.context {
            let _ = writeln!(out, "msgctxt {}", quoted(context));
        }
        let _ = writeln!(out, "msgid {}", quoted(&key.text));
        match &found.plural {
            Some(plural) => {
                let _ = writeln!(out, "msgid_plural {}", quoted(plural));
                let _ = writeln!(out, "msgstr[0] {}\nmsgstr[1] {}", nth(0), nth(1));
            }
            None => {
                let _ = writeln!(out, "msgstr {}", nth(0));
            }
        }
    }
    out
}

fn file_of(place: &str) -> &str {
    place.rsplit_once(':').map_or(place, |(file, _)| file)
}

fn quoted(text: &str) -> String {
    let inner = text.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', "\\n").replace('\t', "\\t");
    format!("\"{inner}\"")
}
