//! Settings: any bytes are read or refused in words, what is read is within its bounds, and it comes back as it was.

use crate::program::{Settings, TEXT_SIZES};

/// Reads bytes as settings.
pub fn check(bytes: &[u8]) {
    let settings = match Settings::from_bytes(bytes) {
        Ok(settings) => settings,
        Err(said) => {
            assert!(!said.is_empty() && said.len() < 2000, "{} bytes of words", said.len());
            return;
        }
    };
    assert!((TEXT_SIZES.0..=TEXT_SIZES.1).contains(&settings.text_size) && settings.turn < 4);
    assert!(settings.recent.len() <= 8 && settings.tables.len() <= 20);
    let text = settings.to_text().expect("settings can be put into text");
    assert_eq!(Settings::from_bytes(text.as_bytes()).as_ref(), Ok(&settings));
}
