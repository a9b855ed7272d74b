//! The texts that people read, in their language, and the numbers in them.
//!
//! English is in the sources, beside the code; every other language is one gettext
//! catalogue in `assets/languages`, built into the program. Which language is spoken is one setting of the process:
//! [`speak`] changes it from the next frame on. Everything is English before `speak` has
//! been called, so the command line and the tests are English.
//!
//! * [`text`] translates a fixed text and costs nothing: `text("Save")`, also `text(label)` for labels from a table.
//! * [`tr!`] translates a text with placeholders: `tr!("{} of {}", shot, count)`. Numbers are passed as text
//!   already, from [`decimal`], because the catalogue does not know formats such as `{:.1}`. Several:
//!   `tr!("One shot" | "{n} shots" % count)`. An ambiguous text has a context: `tr!("court" => "Net")`,
//!   [`text_in`]`("court", "Net")`.
//! * [`within`] puts a translated label into a sentence.
//! * [`text_of`] translates texts of built-in files.
//! * [`mark`] marks a text in a table that is translated later, where it is shown.
//!   The labels and hints in `entry(…)` of the catalogue of commands need no mark; `Spec::label` and `Spec::hint` translate.
//!
//! The crates whose texts are in the catalogue call `tr::set_translator!(standpoint_language::Catalogue)` once, from
//! their `speak_up`, which calls those of the crates below it. A test of the workspace reads all sources for these forms
//! and checks that every text is translated, with the same placeholders.

mod catalogue;
mod number;

use std::sync::atomic::{AtomicU8, Ordering};

use serde::{Deserialize, Serialize};
pub use tr::{set_translator, tr};

pub use self::{
    catalogue::{Catalogue, text, text_in, text_of, within},
    number::{brief, brief_in_file, decimal, parse_decimal, whole},
};

/// The languages there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
pub enum Language {
    /// English, the language of the sources.
    #[default]
    English,
    /// German.
    German,
}

impl Language {
    /// All of them, in the order of their own names.
    pub const ALL: [Self; 2] = [Self::German, Self::English];

    /// The language of a tag such as `de-AT` or `de_DE.UTF-8`; English if unsupported.
    #[must_use]
    pub fn of_tag(tag: &str) -> Self {
        match tag.split(['-', '_', '.', '@']).next() {
            Some(primary) if primary.eq_ignore_ascii_case("de") => Self::German,
            _ => Self::English,
        }
    }

    /// The language that the desktop is set to.
    #[must_use]
    pub fn of_system() -> Self {
        system_tag().map_or(Self::English, |tag| Self::of_tag(&tag))
    }
}

/// Whether the computer's region measures in feet: the United States and Liberia do.
///
/// Source: CLDR supplemental data, `measurementData`, measurement system US (Myanmar is listed as UK there by now; from
/// memory).
#[must_use]
pub fn system_uses_feet() -> bool {
    system_tag().is_some_and(|tag| uses_feet(&tag))
}

fn system_tag() -> Option<String> {
    sys_locale::get_locale()
}

fn uses_feet(tag: &str) -> bool {
    tag.split(['-', '_', '.', '@']).skip(1).any(|part| part == "US" || part == "LR")
}

static SPOKEN: AtomicU8 = AtomicU8::new(0);

/// The current language.
#[must_use]
pub fn spoken() -> Language {
    if SPOKEN.load(Ordering::Relaxed) == 1 { Language::German } else { Language::English }
}

/// Changes the language of the whole process.
pub fn speak(language: Language) {
    let code = match language {
        Language::English => 0,
        Language::German => 1,
    };
    SPOKEN.store(code, Ordering::Relaxed);
}

/// Marks a text that is kept in a table and translated where it is shown, by [`text`]: a test finds it by this name.
#[must_use]
pub const fn mark(english: &'static str) -> &'static str {
    english
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tag_of_the_desktop_names_a_language() {
        // Forms: BCP 47 and POSIX locale names.
        for tag in ["de", "de-AT", "de_DE.UTF-8", "DE", "de-Latn-CH", "de_DE@euro"] {
            assert_eq!(Language::of_tag(tag), Language::German, "{tag}");
        }
        for tag in ["en-GB", "C", "", "POSIX", "fr-FR", "den", "nl-DE"] {
            assert_eq!(Language::of_tag(tag), Language::English, "{tag}");
        }
    }

    #[test]
    fn feet_go_with_the_country_and_not_with_the_language() {
        assert!(uses_feet("en-US") && uses_feet("es_US.UTF-8"));
        assert!(!uses_feet("en-GB") && !uses_feet("us") && !uses_feet("de-DE"));
    }
}
