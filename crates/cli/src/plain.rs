//! What a terminal would obey is written as text.
//!
//! A title or a cell of somebody else's file may hold characters that move the cursor, change colours, or turn the
//! direction of reading (U+202E makes `exe.gpj` of `jpg.exe`). In words and in JSON they are written as `\\u202e`, which
//! JSON reads as the character.

use std::{
    borrow::Cow,
    io::{self, Write},
};

/// Whether a terminal would obey it instead of showing it.
fn commands(c: char) -> bool {
    match c {
        '\n' | '\t' => false,
        // Marks, embeddings, overrides and isolates of direction (Unicode, UAX #9, 2), and breaks of lines.
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => true,
        other => other.is_control(),
    }
}

/// The text as a terminal may have it.
#[must_use]
pub fn plain(text: &str) -> Cow<'_, str> {
    if !text.contains(commands) {
        return text.into();
    }
    let mut shown = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        if commands(c) {
            shown.push_str(&format!("\\u{:04x}", u32::from(c)));
        } else {
            shown.push(c);
        }
    }
    shown.into()
}

/// A writer whose text is [`plain`], unless it is for programs that take the bytes as they are.
pub struct Plain<W: Write> {
    inner: W,
    on: bool,
    /// The beginning of a character whose rest has not come yet.
    held: Vec<u8>,
}

impl<W: Write> Plain<W> {
    /// Writes plain text when `on`, else the bytes as they come.
    pub fn new(inner: W, on: bool) -> Self {
        Self { inner, on, held: Vec::new() }
    }
}

impl<W: Write> Write for Plain<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if !self.on {
            return self.inner.write(bytes);
        }
        let mut all = std::mem::take(&mut self.held);
        all.extend_from_slice(bytes);
        let whole = match std::str::from_utf8(&all) {
            Err(error) if error.error_len().is_none() => error.valid_up_to(),
            _ => all.len(),
        };
        self.held = all.split_off(whole);
        self.inner.write_all(plain(&String::from_utf8_lossy(&all)).as_bytes())?;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.inner.flush()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_terminal_would_obey_is_shown() {
        assert_eq!(
            plain("a\u{202e}b\u{1b}[31m\r\u{7f}\u{9b}\u{2066}"),
            "a\\u202eb\\u001b[31m\\u000d\\u007f\\u009b\\u2066"
        );
        assert_eq!(plain("Größe 6′ 3″ – 场 🎾\t1\n"), "Größe 6′ 3″ – 场 🎾\t1\n");
    }

    #[test]
    fn characters_that_come_in_pieces_stay_whole() {
        let text = "a\u{202e}ü场🎾\u{2069}\n";
        for size in 1..text.len() {
            let mut out = Vec::new();
            let mut writer = Plain::new(&mut out, true);
            text.as_bytes().chunks(size).for_each(|piece| writer.write_all(piece).unwrap());
            assert_eq!(String::from_utf8(out).unwrap(), "a\\u202eü场🎾\\u2069\n");
        }
        let mut out = Vec::new();
        Plain::new(&mut out, false).write_all(text.as_bytes()).unwrap();
        assert_eq!(out, text.as_bytes());
    }
}
