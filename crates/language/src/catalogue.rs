//! Looking texts up.

use std::{borrow::Cow, sync::LazyLock};

use tr::{PoTranslator, Translator};

use super::{Language, spoken};

static GERMAN: LazyLock<Option<PoTranslator>> =
    LazyLock::new(|| PoTranslator::from_vec_u8(include_bytes!("../../../assets/languages/de.po").to_vec()).ok());

/// The catalogue of the language that is spoken, or none for English.
fn current() -> Option<&'static PoTranslator> {
    match spoken() {
        Language::English => None,
        Language::German => GERMAN.as_ref(),
    }
}

/// A fixed text in the language that is spoken; itself where that has none for it.
#[must_use]
pub fn text(english: &'static str) -> &'static str {
    look_up(english, None)
}

/// A fixed text that means different things in different places, in the sense of one of them.
#[must_use]
pub fn text_in(context: &'static str, english: &'static str) -> &'static str {
    look_up(english, Some(context))
}

fn look_up(english: &'static str, context: Option<&'static str>) -> &'static str {
    match current().map(|catalogue| catalogue.translate(english, context)) {
        Some(Cow::Borrowed(found)) => found,
        // Catalogues hand out what they hold.
        Some(Cow::Owned(_)) | None => english,
    }
}

/// What `tr!` asks: whichever language is spoken at that moment.
#[derive(Debug, Clone, Copy)]
pub struct Catalogue;

impl Translator for Catalogue {
    fn translate<'a>(&'a self, string: &'a str, context: Option<&'a str>) -> Cow<'a, str> {
        current().map_or(Cow::Borrowed(string), |catalogue| catalogue.translate(string, context))
    }

    fn ntranslate<'a>(&'a self, n: u64, singular: &'a str, plural: &'a str, context: Option<&'a str>) -> Cow<'a, str> {
        match current() {
            Some(catalogue) => catalogue.ntranslate(n, singular, plural, context),
            None => Cow::Borrowed(if n == 1 { singular } else { plural }),
        }
    }
}
