//! Parses RON into a tree that keeps the position of every value.
//!
//! The `ron` crate reports one error and, after parsing, no position. This tree keeps the position of every value, so
//! that all problems of a file can be reported at once, each with its line. It reads a subset of RON: no
//! `#![enable(..)]`, byte strings or number suffixes, none of which the program writes.

use std::borrow::Cow;

use standpoint_language::{mark, tr};

use crate::problem::ProblemKind;

/// Most levels of nested brackets; a board of version 2 needs 9.
pub const DEPTH_LIMIT: usize = 32;
/// Values in a file. 200 pages of 20 shots are about 100 000; the limit keeps a hostile file of 16 MiB from taking more
/// than some 100 MB of memory.
pub const VALUE_LIMIT: usize = 1_000_000;

/// A value and its first byte.
#[derive(Debug)]
pub struct Node<'t> {
    pub at: usize,
    pub value: Value<'t>,
}

/// A part of a struct.
#[derive(Debug)]
pub struct Field<'t> {
    pub at: usize,
    pub name: &'t str,
    pub node: Node<'t>,
}

/// A value.
#[derive(Debug)]
pub enum Value<'t> {
    Number(f64),
    Bool(bool),
    Text(Cow<'t, str>),
    Char,
    /// A name alone: `Topspin`, `None`.
    Name(&'t str),
    List(Vec<Node<'t>>),
    /// `(a: 1)` or `Name(a: 1)`.
    Struct(Option<&'t str>, Vec<Field<'t>>),
    /// `(1, 2)`, `Name(1)` or `()`.
    Tuple(Option<&'t str>, Vec<Node<'t>>),
    Map,
}

impl Value<'_> {
    /// Its kind, for a message.
    pub fn describe(&self) -> String {
        match self {
            Self::Number(number) => tr!("the number {}", number),
            Self::Bool(flag) => format!("{flag}"),
            Self::Text(_) => tr!("a text"),
            Self::Char => tr!("a character"),
            Self::Name(name) => tr!("the name `{}`", shortened(name)),
            Self::List(_) => tr!("a list"),
            Self::Struct(None, _) => tr!("named parts in parentheses"),
            Self::Tuple(None, _) => tr!("values in parentheses"),
            Self::Struct(Some(name), _) | Self::Tuple(Some(name), _) => format!("`{}(...)`", shortened(name)),
            Self::Map => tr!("a map in braces"),
        }
    }
}

/// Position and reason of the end of parsing.
#[derive(Debug)]
pub struct Stop {
    pub at: usize,
    pub why: Why,
}

/// Why reading stopped.
#[derive(Debug)]
pub enum Why {
    Kind(ProblemKind),
    /// The file ended inside what began at this byte.
    Unclosed(&'static str, usize),
}

pub(super) type Read<T> = Result<T, Stop>;

/// Reads a whole file.
pub fn parse(text: &str, value_limit: usize) -> Read<Node<'_>> {
    let mut reader = Reader::new(text, value_limit);
    reader.blanks()?;
    if reader.peek().is_none() {
        return Err(Stop { at: 0, why: Why::Kind(ProblemKind::Empty) });
    }
    let node = reader.value(0)?;
    reader.blanks()?;
    match reader.peek() {
        None => Ok(node),
        Some(_) => Err(reader.unexpected(mark("the end of the file"))),
    }
}

/// The version at the beginning of the file; readable even if the rest is not valid notation.
pub fn leading_version<'t>(text: &'t str, mark: &str) -> Option<Node<'t>> {
    let mut reader = Reader::new(text, VALUE_LIMIT);
    reader.blanks().ok()?;
    reader.take('(').then_some(())?;
    reader.blanks().ok()?;
    (reader.name()? == mark).then_some(())?;
    reader.blanks().ok()?;
    reader.take(':').then_some(())?;
    reader.blanks().ok()?;
    reader.value(DEPTH_LIMIT - 1).ok()
}

pub(super) struct Reader<'t> {
    pub(super) text: &'t str,
    pub(super) at: usize,
    values: usize,
    value_limit: usize,
}

impl<'t> Reader<'t> {
    fn new(text: &'t str, value_limit: usize) -> Self {
        let at = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        Self { text, at, values: 0, value_limit }
    }

    pub(super) fn rest(&self) -> &'t str {
        &self.text[self.at..]
    }

    pub(super) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    pub(super) fn take(&mut self, expected: char) -> bool {
        let there = self.peek() == Some(expected);
        if there {
            self.at += expected.len_utf8();
        }
        there
    }

    /// The longest beginning of the rest whose characters all pass.
    pub(super) fn run(&mut self, passes: impl Fn(char) -> bool) -> &'t str {
        let rest = self.rest();
        let end = rest.find(|c| !passes(c)).unwrap_or(rest.len());
        self.at += end;
        &rest[..end]
    }

    fn unexpected(&self, expected: &'static str) -> Stop {
        let found = match self.peek() {
            None => tr!("the end of the file"),
            Some(c) if c.is_control() => tr!("the control character U+{}", format!("{:04X}", u32::from(c))),
            Some(c) if is_name(c) => format!("`{}`", shortened(Self { ..*self }.run(is_name))),
            Some(c) => format!("`{c}`"),
        };
        Stop { at: self.at, why: Why::Kind(ProblemKind::Syntax { expected, found }) }
    }

    /// Steps over blanks and comments.
    fn blanks(&mut self) -> Read<()> {
        loop {
            self.run(char::is_whitespace);
            if self.rest().starts_with("//") {
                self.run(|c| c != '\n');
            } else if self.rest().starts_with("/*") {
                self.block_comment()?;
            } else {
                return Ok(());
            }
        }
    }

    fn block_comment(&mut self) -> Read<()> {
        let opened = self.at;
        let mut depth = 0usize;
        loop {
            let rest = self.rest();
            if rest.starts_with("/*") {
                depth += 1;
                self.at += 2;
            } else if rest.starts_with("*/") {
                depth -= 1;
                self.at += 2;
                if depth == 0 {
                    return Ok(());
                }
            } else if let Some(c) = rest.chars().next() {
                self.at += c.len_utf8();
            } else {
                return Err(Stop { at: self.at, why: Why::Unclosed(mark("the comment"), opened) });
            }
        }
    }

    fn name(&mut self) -> Option<&'t str> {
        let starts = self.peek().is_some_and(|c| c.is_alphabetic() || c == '_');
        starts.then(|| self.run(is_name))
    }

    fn value(&mut self, depth: usize) -> Read<Node<'t>> {
        let at = self.at;
        self.values += 1;
        if self.values > self.value_limit {
            return Err(Stop { at, why: Why::Kind(ProblemKind::TooManyValues { limit: self.value_limit }) });
        }
        let value = match self.peek() {
            Some('"') => Value::Text(self.text_literal()?),
            Some('r') if self.rest().starts_with("r\"") || self.rest().starts_with("r#") => {
                Value::Text(Cow::Borrowed(self.raw_text()?))
            }
            Some('\'') => self.char_literal()?,
            Some('(') => self.parens(None, depth)?,
            Some('[') => self.list(depth)?,
            Some('{') => self.map(depth)?,
            Some(c) if c.is_ascii_digit() || matches!(c, '+' | '-' | '.') => self.number()?,
            _ => self.named(depth)?,
        };
        Ok(Node { at, value })
    }

    /// `true`, `inf`, `Name`, `Name(...)`.
    fn named(&mut self, depth: usize) -> Read<Value<'t>> {
        let Some(name) = self.name() else { return Err(self.unexpected(mark("a value"))) };
        match name {
            "true" => return Ok(Value::Bool(true)),
            "false" => return Ok(Value::Bool(false)),
            "inf" => return Ok(Value::Number(f64::INFINITY)),
            "NaN" => return Ok(Value::Number(f64::NAN)),
            _ => {}
        }
        let after = self.at;
        self.blanks()?;
        if self.peek() == Some('(') {
            return self.parens(Some(name), depth);
        }
        self.at = after;
        Ok(Value::Name(name))
    }

    /// Enters brackets: steps over the opening one and checks the depth.
    fn enter(&mut self, depth: usize) -> Read<usize> {
        let opened = self.at;
        if depth >= DEPTH_LIMIT {
            return Err(Stop { at: opened, why: Why::Kind(ProblemKind::TooDeep { limit: DEPTH_LIMIT }) });
        }
        self.at += 1;
        self.blanks()?;
        Ok(opened)
    }

    /// After an entry: a comma, or the closing bracket (true).
    fn closes(&mut self, close: char, expected: &'static str, what: &'static str, opened: usize) -> Read<bool> {
        self.blanks()?;
        let comma = self.take(',');
        self.blanks()?;
        if self.take(close) {
            return Ok(true);
        }
        match self.peek() {
            None => Err(Stop { at: self.at, why: Why::Unclosed(what, opened) }),
            Some(_) if comma => Ok(false),
            Some(_) => Err(self.unexpected(expected)),
        }
    }

    fn list(&mut self, depth: usize) -> Read<Value<'t>> {
        let opened = self.enter(depth)?;
        let mut items = Vec::new();
        if self.take(']') {
            return Ok(Value::List(items));
        }
        loop {
            self.open_end(mark("the list"), opened)?;
            items.push(self.value(depth + 1)?);
            if self.closes(']', mark("`,` or `]`"), mark("the list"), opened)? {
                return Ok(Value::List(items));
            }
        }
    }

    fn map(&mut self, depth: usize) -> Read<Value<'t>> {
        let opened = self.enter(depth)?;
        if self.take('}') {
            return Ok(Value::Map);
        }
        loop {
            self.open_end(mark("the map"), opened)?;
            self.value(depth + 1)?;
            self.blanks()?;
            if !self.take(':') {
                self.open_end(mark("the map"), opened)?;
                return Err(self.unexpected("`:`"));
            }
            self.blanks()?;
            self.value(depth + 1)?;
            if self.closes('}', mark("`,` or `}`"), mark("the map"), opened)? {
                return Ok(Value::Map);
            }
        }
    }

    fn parens(&mut self, name: Option<&'t str>, depth: usize) -> Read<Value<'t>> {
        let opened = self.enter(depth)?;
        if self.take(')') {
            return Ok(Value::Tuple(name, Vec::new()));
        }
        let start = self.at;
        let is_struct = self.name().is_some() && {
            self.blanks()?;
            self.peek() == Some(':')
        };
        self.at = start;
        if is_struct { self.fields(name, depth, opened) } else { self.tuple(name, depth, opened) }
    }

    fn fields(&mut self, name: Option<&'t str>, depth: usize, opened: usize) -> Read<Value<'t>> {
        const WHAT: &str = mark("the parenthesis");
        let mut fields = Vec::new();
        loop {
            let at = self.at;
            let Some(field) = self.name() else { return Err(self.unexpected(mark("the name of a part"))) };
            self.blanks()?;
            if !self.take(':') {
                self.open_end(WHAT, opened)?;
                return Err(self.unexpected("`:`"));
            }
            self.blanks()?;
            self.open_end(WHAT, opened)?;
            fields.push(Field { at, name: field, node: self.value(depth + 1)? });
            if self.closes(')', mark("`,` or `)`"), WHAT, opened)? {
                return Ok(Value::Struct(name, fields));
            }
        }
    }

    fn tuple(&mut self, name: Option<&'t str>, depth: usize, opened: usize) -> Read<Value<'t>> {
        const WHAT: &str = mark("the parenthesis");
        let mut items = Vec::new();
        loop {
            self.open_end(WHAT, opened)?;
            items.push(self.value(depth + 1)?);
            if self.closes(')', mark("`,` or `)`"), WHAT, opened)? {
                return Ok(Value::Tuple(name, items));
            }
        }
    }

    /// An error when the file ends here.
    fn open_end(&self, what: &'static str, opened: usize) -> Read<()> {
        match self.peek() {
            Some(_) => Ok(()),
            None => Err(Stop { at: self.at, why: Why::Unclosed(what, opened) }),
        }
    }
}

pub(super) fn is_name(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// The first 40 characters, for a message.
pub fn shortened(text: &str) -> String {
    match text.char_indices().nth(40) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}
