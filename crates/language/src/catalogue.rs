//! Looking texts up.

use std::{borrow::Cow, collections::HashMap, sync::LazyLock};

use rspolib::{FileOptions, pofile};
use tr::Translator;

use super::{Language, spoken};

static GERMAN: LazyLock<Texts> = LazyLock::new(|| Texts::read(include_str!("../../../assets/languages/de.po")));

/// The texts of one language.
///
/// Own code, because the catalogue reader of `tr` does not parse the bytes.
struct Texts {
    /// Translations, singular and plural, by context (empty for most) and English text.
    said: HashMap<String, HashMap<String, Vec<String>>>,
}

impl Texts {
    fn read(catalogue: &str) -> Self {
        let mut said = HashMap::<String, HashMap<String, Vec<String>>>::new();
        // A test of the workspace has parsed the built-in catalogue.
        for entry in pofile(FileOptions::from(catalogue)).map(|file| file.entries).unwrap_or_default() {
            let forms =
                if entry.msgid_plural.is_some() { entry.msgstr_plural } else { entry.msgstr.into_iter().collect() };
            if forms.iter().all(|form| !form.is_empty()) {
                said.entry(entry.msgctxt.unwrap_or_default()).or_default().insert(entry.msgid, forms);
            }
        }
        Self { said }
    }

    fn find(&self, english: &str, context: Option<&str>, form: usize) -> Option<&str> {
        self.said.get(context.unwrap_or_default())?.get(english)?.get(form).map(String::as_str)
    }
}

/// The catalogue of the current language, or none for English.
fn current() -> Option<&'static Texts> {
    match spoken() {
        Language::English => None,
        Language::German => Some(&GERMAN),
    }
}

/// A fixed text in the current language; unchanged without a translation.
#[must_use]
pub fn text(english: &'static str) -> &'static str {
    look_up(english, None)
}

/// An ambiguous fixed text in a context.
#[must_use]
pub fn text_in(context: &'static str, english: &'static str) -> &'static str {
    look_up(english, Some(context))
}

/// A text that is not in the sources, such as a line of a built-in board.
#[must_use]
pub fn text_of(english: &str) -> Cow<'_, str> {
    Cow::Borrowed(current().and_then(|texts| texts.find(english, None, 0)).unwrap_or(english))
}

/// A label inside a sentence: with a small first letter in English, unchanged in German, which capitalises
/// nouns everywhere.
#[must_use]
pub fn within(label: &str) -> String {
    let mut letters = label.chars();
    match (spoken(), letters.next()) {
        (Language::English, Some(first)) => first.to_lowercase().chain(letters).collect(),
        _ => label.to_owned(),
    }
}

fn look_up(english: &'static str, context: Option<&'static str>) -> &'static str {
    current().and_then(|texts| texts.find(english, context, 0)).unwrap_or(english)
}

/// The translator of `tr!` for the current language.
#[derive(Debug, Clone, Copy)]
pub struct Catalogue;

impl Translator for Catalogue {
    fn translate<'a>(&'a self, string: &'a str, context: Option<&'a str>) -> Cow<'a, str> {
        Cow::Borrowed(current().and_then(|texts| texts.find(string, context, 0)).unwrap_or(string))
    }

    fn ntranslate<'a>(&'a self, n: u64, singular: &'a str, plural: &'a str, context: Option<&'a str>) -> Cow<'a, str> {
        // Both languages have one form for one and another for everything else.
        let form = usize::from(n != 1);
        let english = if n == 1 { singular } else { plural };
        Cow::Borrowed(current().and_then(|texts| texts.find(singular, context, form)).unwrap_or(english))
    }
}
