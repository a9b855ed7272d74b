//! The texts used by the sources, found in their tokens.

use std::{
    collections::BTreeMap,
    fs,
    path::{Path, PathBuf},
};

use proc_macro2::{Delimiter, Group, TokenStream, TokenTree};
use standpoint_board::{
    library::{Library, Source},
    teaching,
};

/// Lookup key of a text.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Key {
    pub context: Option<String>,
    pub text: String,
}

/// A text used by a source.
#[derive(Debug, Clone, Default)]
pub struct Found {
    pub plural: Option<String>,
    pub places: Vec<String>,
}

pub type Texts = BTreeMap<Key, Found>;

/// All texts of the workspace and of the boards that come with it.
pub fn texts() -> Texts {
    let mut texts = Texts::new();
    for (name, source) in sources() {
        read(&name, &source, &mut texts);
    }
    teaching_boards(&mut texts);
    texts
}

/// Words shown directly from the sources, in English whatever the language, with their places. The command line is in
/// English only, and messages shown without the theme are not translated yet.
pub fn untranslated() -> Vec<String> {
    let mut found = Vec::new();
    for (name, source) in sources() {
        let inner = name.starts_with("cli/") || name.contains("/theme/") || name.ends_with("tests.rs");
        if !inner {
            let tokens: TokenStream = source.parse().unwrap_or_else(|e| panic!("{name}: {e}"));
            bare(&name, tokens, &mut found);
        }
    }
    found
}

/// The sources by their names, in order.
fn sources() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut files = Vec::new();
    for entry in fs::read_dir(root.join("crates")).unwrap() {
        let folder = entry.unwrap().path();
        // The language crate itself and the geometry show no texts.
        if !folder.ends_with("language") && !folder.ends_with("geometry") {
            walk(&folder.join("src"), &mut files);
        }
    }
    files.sort();
    let name = |file: &Path| file.strip_prefix(root.join("crates")).unwrap().display().to_string();
    files.iter().map(|file| (name(file), fs::read_to_string(file).unwrap())).collect()
}

/// Functions that show their first argument.
const SHOWING: [&str; 17] = [
    "accessible_name",
    "button",
    "checkbox",
    "error",
    "heading",
    "hint_text",
    "label",
    "menu_button",
    "monospace",
    "on_disabled_hover_text",
    "on_hover_text",
    "prefix",
    "selectable_label",
    "selected_text",
    "small",
    "strong",
    "suffix",
];
/// Types that show the text they are built from.
const SHOWN: [&str; 3] = ["Button", "Label", "RichText"];

/// Adds literals with words in them that are shown without a lookup.
pub fn bare(name: &str, tokens: TokenStream, found: &mut Vec<String>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let word = |i: usize, names: &[&str]| match tokens.get(i) {
        Some(TokenTree::Ident(ident)) => names.iter().any(|name| ident == name),
        _ => false,
    };
    for (i, token) in tokens.iter().enumerate() {
        let TokenTree::Group(group) = token else { continue };
        // Tests within a source may use any text.
        let tests = i > 0 && word(i - 1, &["tests"]);
        if !tests {
            bare(name, group.stream(), found);
        }
        let shows = i > 0 && word(i - 1, &SHOWING) || i > 3 && word(i - 1, &["new"]) && word(i - 4, &SHOWN);
        if !shows || group.delimiter() != Delimiter::Parenthesis {
            continue;
        }
        let first =
            group.stream().into_iter().find(|token| !matches!(token, TokenTree::Punct(p) if p.as_char() == '&'));
        let Some(said) = first.as_ref().and_then(string) else { continue };
        // Units and names of formats are the same in every language.
        let unit =
            ["km/h", "mph", "m/s", "rpm", "PDF", "PNG", "CSV"].iter().fold(said.clone(), |s, u| s.replace(u, ""));
        let letters = unit.split(|c: char| !c.is_alphabetic()).any(|word| word.chars().count() > 2);
        if letters {
            found.push(format!("{name}:{}: {said:?}", token.span().start().line));
        }
    }
}

/// Adds the texts of the boards shipped with the program.
fn teaching_boards(texts: &mut Texts) {
    for entry in Library::shipped().entries {
        let Source::Shipped(name) = entry.source else { continue };
        teaching::reword(&mut entry.board.as_ref().clone(), &mut |line| {
            add(texts, None, line.to_owned(), None, format!("boards/{name}.standpoint:0"));
            line.to_owned()
        });
    }
}

fn walk(dir: &Path, files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(dir).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            walk(&path, files);
        } else if path.extension().is_some_and(|e| e == "rs") {
            files.push(path);
        }
    }
}

/// Adds the texts of one source.
pub fn read(name: &str, source: &str, texts: &mut Texts) {
    let tokens: TokenStream = source.parse().unwrap_or_else(|e| panic!("{name}: {e}"));
    scan(name, tokens, texts);
}

fn scan(name: &str, tokens: TokenStream, texts: &mut Texts) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    for (i, token) in tokens.iter().enumerate() {
        if let TokenTree::Group(group) = token {
            scan(name, group.stream(), texts);
        }
        let TokenTree::Ident(ident) = token else { continue };
        // A method of this name is another function.
        if i > 0 && matches!(&tokens[i - 1], TokenTree::Punct(p) if p.as_char() == '.') {
            continue;
        }
        let after = |n: usize| tokens.get(i + n);
        match (ident.to_string().as_str(), after(1), after(2)) {
            ("tr", Some(TokenTree::Punct(p)), Some(TokenTree::Group(group))) if p.as_char() == '!' => {
                macro_call(name, group, texts);
            }
            ("text" | "mark", Some(TokenTree::Group(group)), _) => call(name, group, false, texts),
            ("text_in", Some(TokenTree::Group(group)), _) => call(name, group, true, texts),
            // A command of the catalogue: its label and its hint.
            ("entry", Some(TokenTree::Group(group)), _) => {
                literals(group).into_iter().for_each(|(text, at)| add(texts, None, text, None, format!("{name}:{at}")));
            }
            _ => {}
        }
    }
}

fn call(name: &str, group: &Group, with_context: bool, texts: &mut Texts) {
    if group.delimiter() != Delimiter::Parenthesis {
        return;
    }
    // Calls whose first argument is no literal belong to other functions.
    if group.stream().into_iter().next().is_none_or(|t| string(&t).is_none()) {
        return;
    }
    let mut said = literals(group).into_iter();
    let context = if with_context { said.next().map(|(text, _)| text) } else { None };
    if let Some((text, at)) = said.next() {
        add(texts, context, text, None, format!("{name}:{at}"));
    }
}

fn macro_call(name: &str, group: &Group, texts: &mut Texts) {
    let tokens: Vec<TokenTree> = group.stream().into_iter().collect();
    let at = group.span().start().line;
    let punct = |i: usize, c: char| matches!(tokens.get(i), Some(TokenTree::Punct(p)) if p.as_char() == c);
    let literal = |i: usize| tokens.get(i).and_then(string);
    let (context, first) = if punct(1, '=') && punct(2, '>') { (literal(0), 3) } else { (None, 0) };
    let Some(text) = literal(first) else { return };
    let plural = if punct(first + 1, '|') { literal(first + 2) } else { None };
    add(texts, context, text, plural, format!("{name}:{at}"));
}

fn literals(group: &Group) -> Vec<(String, usize)> {
    group.stream().into_iter().filter_map(|t| string(&t).map(|text| (text, t.span().start().line))).collect()
}

fn string(token: &TokenTree) -> Option<String> {
    let TokenTree::Literal(literal) = token else { return None };
    syn::parse_str::<syn::LitStr>(&literal.to_string()).ok().map(|l| l.value())
}

fn add(texts: &mut Texts, context: Option<String>, text: String, plural: Option<String>, place: String) {
    let found = texts.entry(Key { context, text }).or_default();
    found.plural = found.plural.take().or(plural);
    found.places.push(place);
}
