//! Which language is spoken.

use standpoint_language::Language;

use crate::settings::Settings;

/// Speaks a language from now on, in the texts of every crate.
pub fn speak(language: Language) {
    standpoint_language::set_translator!(standpoint_language::Catalogue);
    standpoint_board::speak_up();
    standpoint_sheet::speak_up();
    standpoint_language::speak(language);
}

impl Settings {
    /// Speaks the language that was chosen, or else that of the desktop, from now on.
    pub fn speak(&self) {
        speak(self.language.unwrap_or_else(Language::of_system));
    }
}
