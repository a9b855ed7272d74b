//! Every text of the program is in every catalogue, with all its placeholders.
//!
//! After texts were added or changed, run `cargo test -p standpoint-tests --test texts write -- --ignored`: it adds the
//! new ones to the catalogues, empty, and removes those that no source uses. Then translate them and run the tests.

#![allow(clippy::unwrap_used, reason = "a check that cannot read the sources has failed")]

mod catalogue;
mod sources;

use std::collections::{BTreeMap, BTreeSet};

use catalogue::{CATALOGUES, Entry, entries, read, written};
use sources::{Found, Key, texts};

/// The placeholders of a text: `{}`, `{name}`, `{0}`. Those without a name are numbered by their order.
fn things(text: &str) -> BTreeSet<String> {
    let plain = text.replace("{{", "").replace("}}", "");
    let mut unnamed = 0..;
    plain
        .split('{')
        .skip(1)
        .filter_map(|rest| rest.split_once('}'))
        .map(|(name, _)| match name {
            "" => unnamed.next().map_or_else(String::new, |i: i32| i.to_string()),
            named => named.to_owned(),
        })
        .collect()
}

fn missing(found: &Found, entry: Option<&Entry>) -> Option<String> {
    let forms = if found.plural.is_some() { 2 } else { 1 };
    match entry {
        None => Some("is not there".to_owned()),
        Some(entry) if entry.texts.len() != forms || entry.texts.iter().any(String::is_empty) => {
            Some("is not translated".to_owned())
        }
        Some(entry) if entry.fuzzy => Some("is marked as uncertain".to_owned()),
        Some(_) => None,
    }
}

#[test]
fn every_text_is_in_every_catalogue() {
    let texts = texts();
    for (path, language) in CATALOGUES {
        let there = read(path);
        assert_eq!(there.len(), entries(path).len(), "{path} has a text twice; `write` puts it right");
        let bad: Vec<String> = texts
            .iter()
            .filter_map(|(key, found)| {
                missing(found, there.get(key)).map(|why| format!("{}: {key:?} {why}", found.places.join(", ")))
            })
            .collect();
        assert!(bad.is_empty(), "{language}: {} texts:\n{}", bad.len(), bad.join("\n"));
    }
}

#[test]
fn a_translation_has_room_for_the_same_things() {
    let texts = texts();
    for (path, language) in CATALOGUES {
        for (key, entry) in read(path) {
            let Some(found) = texts.get(&key) else { continue };
            let wanted: BTreeSet<String> =
                things(&key.text).union(&found.plural.as_deref().map(things).unwrap_or_default()).cloned().collect();
            for (i, text) in entry.texts.iter().enumerate() {
                let got = things(text);
                // The singular may spell the number as a word.
                let one = found.plural.is_some() && i == 0;
                let fits = if one { got.is_subset(&wanted) } else { got == wanted };
                assert!(fits, "{language}: {key:?} holds {wanted:?}, its translation {text:?} {got:?}");
            }
        }
    }
}

#[test]
fn a_translation_ends_as_its_text_does() {
    for (path, language) in CATALOGUES {
        for (key, entry) in read(path) {
            for end in ["…", ".", ":", "?", " ", "\n"] {
                let (english, other) = (key.text.ends_with(end), entry.texts.iter().any(|t| t.ends_with(end)));
                assert_eq!(english, other, "{language}: {key:?} and {:?}: {end:?} at the end of one", entry.texts);
            }
        }
    }
}

#[test]
fn no_catalogue_keeps_what_nothing_says() {
    let texts = texts();
    for (path, language) in CATALOGUES {
        let idle: Vec<Key> = read(path).into_keys().filter(|key| !texts.contains_key(key)).collect();
        assert!(idle.is_empty(), "{language}: no source says {idle:#?}");
    }
}

#[test]
fn nothing_is_shown_without_having_been_looked_up() {
    let bare = sources::untranslated();
    assert!(bare.is_empty(), "shown in English whatever the language:\n{}", bare.join("\n"));

    let source = r#"
        #[error("two columns are called `{heading}`")] struct A;
        #[error("{}", tr!("fine {}", x))] struct B;
        fn f() { ui.label("Bare"); ui.label(text("Fine")); ui.label(format!("{} m", x)); RichText::new("Bare too"); drag.suffix(" m"); }
        mod tests { fn g() { ui.label("Of a test"); } }
    "#;
    let mut found = Vec::new();
    sources::bare("x.rs", source.parse().unwrap(), &mut found);
    let expected = ["x.rs:2: \"two columns are called `{heading}`\"", "x.rs:4: \"Bare\"", "x.rs:4: \"Bare too\""];
    assert_eq!(found, expected);
}

#[test]
fn texts_are_found_in_all_their_forms() {
    let source = r#"
        fn f() {
            let a = text("Plain"); let b = format!("{}", tr!("{} inside {}", x, tr!("inner")));
            let c = tr!("sense" => "One thing" | "{n} things" % n, y);
            let d = [mark("Marked"), text_in("court", "Net"), text(label), painter.text(pos, "not this")];
            wrapped(text("a \
                          line"));
            let e = [entry(Command::Open, Menu::Board, "Open…", "Open a board").keys(CTRL, "no"), map.entry("not this")];
        }
    "#;
    let mut found = BTreeMap::new();
    sources::read("x.rs", source, &mut found);
    let keys: Vec<(Option<&str>, &str, Option<&str>)> = found
        .iter()
        .map(|(k, f): (&Key, &Found)| (k.context.as_deref(), k.text.as_str(), f.plural.as_deref()))
        .collect();
    let expected = [
        (None, "Marked", None),
        (None, "Open a board", None),
        (None, "Open…", None),
        (None, "Plain", None),
        (None, "a line", None),
        (None, "inner", None),
        (None, "{} inside {}", None),
        (Some("court"), "Net", None),
        (Some("sense"), "One thing", Some("{n} things")),
    ];
    assert_eq!(keys, expected);
}

#[test]
fn the_things_of_a_text_are_told_apart() {
    let of = |text: &str| things(text).into_iter().collect::<Vec<_>>();
    assert_eq!(of("{} of {}"), ["0", "1"]);
    assert_eq!(of("{1} von {0}"), ["0", "1"]);
    assert_eq!(of("{n} shots of {name}, {{kept}}"), ["n", "name"]);
}

#[test]
#[ignore = "writes the catalogues"]
fn write() {
    let texts = texts();
    for (path, _) in CATALOGUES {
        let there = read(path);
        std::fs::write(path, written(path, &texts, &there)).unwrap();
    }
}
