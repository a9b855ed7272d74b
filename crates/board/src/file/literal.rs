//! Numbers, texts and characters of the notation.

use std::borrow::Cow;

use standpoint_language::mark;

use super::tree::{Read, Reader, Stop, Value, Why, shortened};
use crate::problem::ProblemKind;

impl<'t> Reader<'t> {
    pub(super) fn number(&mut self) -> Read<Value<'t>> {
        let start = self.at;
        let sign = if self.take('-') { -1.0 } else { 1.0 };
        if sign > 0.0 {
            self.take('+');
        }
        let digits = self.at;
        let mut last = ' ';
        while let Some(c) = self.peek() {
            let exponent_sign = matches!(c, '+' | '-') && matches!(last, 'e' | 'E');
            if !(c.is_ascii_alphanumeric() || c == '_' || c == '.' || exponent_sign) {
                break;
            }
            last = c;
            self.at += 1;
        }
        let written = &self.text[digits..self.at];
        magnitude(written).map(|m| Value::Number(sign * m)).ok_or_else(|| {
            let found = format!("`{}`", shortened(&self.text[start..self.at]));
            Stop { at: start, why: Why::Kind(ProblemKind::Syntax { expected: mark("a number"), found }) }
        })
    }

    /// A text in quotes, with escapes.
    pub(super) fn text_literal(&mut self) -> Read<Cow<'t, str>> {
        let opened = self.at;
        self.at += 1;
        let mut text = Cow::Borrowed("");
        loop {
            let plain = self.run(|c| c != '"' && c != '\\');
            if text.is_empty() {
                text = Cow::Borrowed(plain);
            } else if !plain.is_empty() {
                text.to_mut().push_str(plain);
            }
            match self.peek() {
                Some('"') => {
                    self.at += 1;
                    return Ok(text);
                }
                Some(_) => {
                    if let Some(c) = self.escape(mark("the text"), opened)? {
                        text.to_mut().push(c);
                    }
                }
                None => return Err(Stop { at: self.at, why: Why::Unclosed(mark("the text"), opened) }),
            }
        }
    }

    /// `r"..."`, `r#"..."#` and so on.
    pub(super) fn raw_text(&mut self) -> Read<&'t str> {
        let opened = self.at;
        self.at += 1;
        let hashes = self.run(|c| c == '#');
        if !self.take('"') {
            return Err(syntax(opened, mark("a value"), "`r#`"));
        }
        let end = format!("\"{hashes}");
        let rest = self.rest();
        match rest.find(&end) {
            Some(length) => {
                self.at += length + end.len();
                Ok(&rest[..length])
            }
            None => Err(Stop { at: self.text.len(), why: Why::Unclosed(mark("the text"), opened) }),
        }
    }

    /// A character in single quotes. No part of a board is a character, so only its place matters.
    pub(super) fn char_literal(&mut self) -> Read<Value<'t>> {
        let opened = self.at;
        self.at += 1;
        match self.peek() {
            Some('\\') => {
                self.escape(mark("the character"), opened)?;
            }
            Some(c) => self.at += c.len_utf8(),
            None => {}
        }
        if self.take('\'') { Ok(Value::Char) } else { Err(syntax(opened, mark("a character in quotes"), "`'`")) }
    }

    /// A backslash and what follows; nothing for an escaped end of line, which joins two lines.
    fn escape(&mut self, what: &'static str, opened: usize) -> Read<Option<char>> {
        let at = self.at;
        self.at += 1;
        let Some(letter) = self.peek() else { return Err(Stop { at: self.at, why: Why::Unclosed(what, opened) }) };
        self.at += letter.len_utf8();
        let c = match letter {
            'n' => Some('\n'),
            'r' => Some('\r'),
            't' => Some('\t'),
            '0' => Some('\0'),
            '\\' | '"' | '\'' => Some(letter),
            'x' => self.hex(2),
            'u' => self.braced_hex(),
            '\n' => {
                self.run(char::is_whitespace);
                return Ok(None);
            }
            _ => None,
        };
        let wrong = || syntax(at, mark("an escaped character"), &format!("`\\{}`", letter.escape_debug()));
        c.map(Some).ok_or_else(wrong)
    }

    fn braced_hex(&mut self) -> Option<char> {
        self.take('{').then_some(())?;
        let digits = self.run(|c| c.is_ascii_hexdigit());
        self.take('}').then_some(())?;
        u32::from_str_radix(digits, 16).ok().and_then(char::from_u32)
    }

    fn hex(&mut self, length: usize) -> Option<char> {
        let digits = self.rest().get(..length)?;
        let c = u32::from_str_radix(digits, 16).ok().and_then(char::from_u32)?;
        self.at += length;
        Some(c)
    }
}

fn syntax(at: usize, expected: &'static str, found: &str) -> Stop {
    Stop { at, why: Why::Kind(ProblemKind::Syntax { expected, found: found.to_owned() }) }
}

/// The number without its sign: decimal, `inf`, `NaN`, hexadecimal, octal or binary.
fn magnitude(written: &str) -> Option<f64> {
    let digits = written.replace('_', "");
    let radix = match digits.get(..2) {
        Some("0x") => 16,
        Some("0o") => 8,
        Some("0b") => 2,
        _ => 10,
    };
    if radix != 10 {
        return u64::from_str_radix(digits.get(2..)?, radix).ok().map(|whole| whole as f64);
    }
    match digits.as_str() {
        "inf" => Some(f64::INFINITY),
        "NaN" => Some(f64::NAN),
        // Rust's own parser also knows "infinity" and "nan", RON does not.
        _ if digits.starts_with(|c: char| c.is_ascii_digit() || c == '.') => digits.parse().ok(),
        _ => None,
    }
}
