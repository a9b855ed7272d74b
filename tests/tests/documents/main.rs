//! Every link and picture of the documents resolves, and every picture is used.

#![allow(clippy::unwrap_used, reason = "a check that cannot read the documents has failed")]

use std::{
    collections::BTreeSet,
    fs,
    path::{Path, PathBuf},
};

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};

/// The links of a document, and the anchors of its headings.
#[derive(Debug, Default, PartialEq)]
struct Read {
    links: Vec<String>,
    names: BTreeSet<String>,
}

fn read(text: &str) -> Read {
    let mut read = Read::default();
    let mut heading = None;
    for event in Parser::new_ext(text, Options::ENABLE_TABLES) {
        match event {
            Event::Start(Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. }) => {
                read.links.push(dest_url.to_string());
            }
            Event::Start(Tag::Heading { .. }) => heading = Some(String::new()),
            Event::End(TagEnd::Heading(_)) => read.names.extend(heading.take().map(|said| name(&said))),
            Event::Text(said) | Event::Code(said) => {
                if let Some(heading) = &mut heading {
                    heading.push_str(&said);
                }
            }
            _ => {}
        }
    }
    read
}

/// The anchor of a heading: lower case, dashes for blanks, only letters, digits, dashes and underscores.
///
/// Source: the rules of the code hosts' rendering of Markdown, from memory.
fn name(heading: &str) -> String {
    let kept = heading.chars().filter(|c| c.is_alphanumeric() || [' ', '-', '_'].contains(c));
    kept.flat_map(char::to_lowercase).map(|c| if c == ' ' { '-' } else { c }).collect()
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let all = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    all.filter(|path| path.extension().is_some_and(|found| found == ending)).collect()
}

fn documents() -> Vec<PathBuf> {
    [files(&root(), "md"), files(&root().join("docs"), "md")].concat()
}

/// The fault of a link of a document in this folder, if any.
fn broken(folder: &Path, own: &Read, link: &str) -> Option<String> {
    if link.contains("://") {
        return None;
    }
    let (path, fragment) = link.split_once('#').map_or((link, None), |(path, name)| (path, Some(name)));
    let target = folder.join(path);
    if !target.exists() {
        return Some(format!("{link}: there is no such file"));
    }
    let there = if path.is_empty() { &own.names } else { &read(&fs::read_to_string(&target).ok()?).names };
    fragment.filter(|name| !there.contains(*name)).map(|_| format!("{link}: there is no such heading"))
}

#[test]
fn every_link_and_picture_of_the_documents_is_there() {
    let documents = documents();
    assert!(documents.len() > 10, "{documents:?}");
    let mut bad = Vec::new();
    for document in documents {
        let read = read(&fs::read_to_string(&document).unwrap());
        let folder = document.parent().unwrap();
        let problems = read.links.iter().filter_map(|link| broken(folder, &read, link));
        bad.extend(problems.map(|why| format!("{}: {why}", document.display())));
    }
    assert!(bad.is_empty(), "{}", bad.join("\n"));
}

#[test]
fn every_picture_is_shown_in_a_document() {
    let shown: BTreeSet<PathBuf> = documents()
        .iter()
        .flat_map(|document| {
            let links = read(&fs::read_to_string(document).unwrap()).links;
            let folder = document.parent().unwrap().to_owned();
            links.into_iter().filter_map(move |link| folder.join(link).canonicalize().ok())
        })
        .collect();
    let pictures = root().join("docs/pictures");
    let there = [files(&pictures, "png"), files(&pictures.join("de"), "png")].concat();
    let idle: Vec<&PathBuf> = there.iter().filter(|path| !shown.contains(&path.canonicalize().unwrap())).collect();
    assert!(idle.is_empty(), "{idle:#?}");
}

#[test]
fn links_and_names_are_read() {
    let found = read("# Die *ersten* fünf Minuten?\n\n[a](b.md#c) ![p](q.png)\n\n| `x` [d](#e) |\n|---|\n");
    assert_eq!(found.links, ["b.md#c", "q.png", "#e"]);
    assert_eq!(found.names.into_iter().collect::<Vec<_>>(), ["die-ersten-fünf-minuten"]);
    let own = Read { names: BTreeSet::from(["here".to_owned()]), ..Read::default() };
    assert_eq!(broken(Path::new("."), &own, "#here"), None);
    assert!(broken(Path::new("."), &own, "#there").is_some());
    assert!(broken(Path::new("."), &own, "missing.png").is_some());
    assert_eq!(broken(Path::new("."), &own, "https://example.org/x"), None);
}
