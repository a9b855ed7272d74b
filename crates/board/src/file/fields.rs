//! Reads parts from the tree, notes every problem and continues with a default.

use standpoint_language::mark;

use super::tree::{Field, Node, Value, shortened};
use crate::problem::ProblemKind;

/// Most problems listed; a file with more is not repaired by hand.
pub const LISTED: usize = 200;

/// A problem and its byte offset in the file.
#[derive(Debug)]
pub struct Found {
    pub at: usize,
    pub role: String,
    pub kind: ProblemKind,
}

/// The problems so far.
#[derive(Debug, Default)]
pub struct Diagnostics {
    pub found: Vec<Found>,
    pub unlisted: usize,
}

impl Diagnostics {
    pub fn add(&mut self, at: usize, role: impl Into<String>, kind: ProblemKind) {
        if self.found.len() < LISTED {
            self.found.push(Found { at, role: role.into(), kind });
        } else {
            self.unlisted += 1;
        }
    }
}

/// File names of the variants of an enum.
pub trait Named: Copy + PartialEq + 'static {
    /// Every variant with its name.
    const NAMES: &'static [(&'static str, Self)];

    /// Its name.
    fn name(self) -> &'static str {
        Self::NAMES.iter().find(|(_, choice)| *choice == self).map_or("Unnamed", |(name, _)| name)
    }
}

/// The parts of one struct in the file; `None` where it is missing or of another kind.
#[derive(Debug)]
pub struct Parts<'n, 't> {
    at: usize,
    role: String,
    fields: Option<&'n [Field<'t>]>,
}

impl<'n, 't> Parts<'n, 't> {
    /// The parts of `node`, which must all be among `known`.
    pub fn of(notes: &mut Diagnostics, node: Option<&'n Node<'t>>, role: &str, known: &'static [&'static str]) -> Self {
        let mut parts = Self { at: node.map_or(0, |node| node.at), role: role.to_owned(), fields: None };
        let Some(node) = node else { return parts };
        let Value::Struct(_, fields) = &node.value else {
            let found = node.value.describe();
            notes.add(node.at, role, ProblemKind::WrongKind { expected: mark("named parts in parentheses"), found });
            return parts;
        };
        parts.fields = Some(fields);
        let mut seen = vec![false; known.len()];
        for field in fields {
            match known.iter().position(|name| *name == field.name) {
                None => {
                    let part = shortened(field.name);
                    let role = parts.role(&part);
                    notes.add(field.at, role, ProblemKind::UnknownPart { part, known: known.to_vec() });
                }
                Some(i) if seen[i] => notes.add(field.at, parts.role(known[i]), ProblemKind::Twice { part: known[i] }),
                Some(i) => seen[i] = true,
            }
        }
        parts
    }

    /// The role of a part.
    pub fn role(&self, part: &str) -> String {
        if self.role.is_empty() { part.to_owned() } else { format!("{}.{part}", self.role) }
    }

    /// A part that may be left out, or written as `None` or `Some(..)`.
    pub fn optional(&self, part: &'static str) -> Option<&'n Node<'t>> {
        let node = &self.fields?.iter().find(|field| field.name == part)?.node;
        match &node.value {
            Value::Name("None") => None,
            Value::Tuple(Some("Some"), items) if items.len() == 1 => items.first(),
            _ => Some(node),
        }
    }

    /// A part that has to be there.
    pub fn required(&self, notes: &mut Diagnostics, part: &'static str) -> Option<&'n Node<'t>> {
        let fields = self.fields?;
        let found = fields.iter().find(|field| field.name == part).map(|field| &field.node);
        if found.is_none() {
            notes.add(self.at, self.role(part), ProblemKind::Missing { part });
        }
        found
    }

    /// A struct inside.
    pub fn parts(&self, notes: &mut Diagnostics, part: &'static str, known: &'static [&'static str]) -> Self {
        let node = self.required(notes, part);
        let mut parts = Self::of(notes, node, &self.role(part), known);
        if node.is_none() {
            parts.at = self.at;
        }
        parts
    }

    /// A number.
    pub fn number(&self, notes: &mut Diagnostics, part: &'static str) -> f64 {
        match self.required(notes, part) {
            Some(Node { value: Value::Number(number), .. }) => *number,
            other => self.wrong(notes, part, other, mark("a number"), 0.0),
        }
    }

    /// `true` or `false`.
    pub fn flag(&self, notes: &mut Diagnostics, part: &'static str) -> bool {
        match self.required(notes, part) {
            Some(Node { value: Value::Bool(flag), .. }) => *flag,
            other => self.wrong(notes, part, other, mark("`true` or `false`"), false),
        }
    }

    /// A text.
    pub fn text(&self, notes: &mut Diagnostics, part: &'static str) -> String {
        match self.required(notes, part) {
            Some(Node { value: Value::Text(text), .. }) => text.clone().into_owned(),
            other => self.wrong(notes, part, other, mark("a text in quotes"), String::new()),
        }
    }

    /// One of the names of `T`; its first variant as a default.
    pub fn choice<T: Named>(&self, notes: &mut Diagnostics, part: &'static str) -> T {
        let stand_in = T::NAMES[0].1;
        match self.required(notes, part) {
            Some(Node { value: Value::Name(name), at }) => {
                choice_named(notes, *at, &self.role(part), name).unwrap_or(stand_in)
            }
            other => self.wrong(notes, part, other, mark("a name"), stand_in),
        }
    }

    /// One of the names of `T`, for a part that may be left out.
    pub fn optional_choice<T: Named>(&self, notes: &mut Diagnostics, part: &'static str) -> Option<T> {
        match self.optional(part)? {
            Node { value: Value::Name(name), at } => choice_named(notes, *at, &self.role(part), name),
            other => self.wrong(notes, part, Some(other), mark("a name"), None),
        }
    }

    /// The entries of a list.
    pub fn list(&self, notes: &mut Diagnostics, part: &'static str) -> &'n [Node<'t>] {
        match self.required(notes, part) {
            Some(Node { value: Value::List(items), .. }) => items,
            other => self.wrong(notes, part, other, mark("a list in brackets"), &[]),
        }
    }

    fn wrong<T>(
        &self,
        notes: &mut Diagnostics,
        part: &str,
        node: Option<&Node<'t>>,
        expected: &'static str,
        stand_in: T,
    ) -> T {
        if let Some(node) = node {
            notes.add(node.at, self.role(part), ProblemKind::WrongKind { expected, found: node.value.describe() });
        }
        stand_in
    }
}

/// The variant with this name; notes a problem if there is none.
pub fn choice_named<T: Named>(notes: &mut Diagnostics, at: usize, role: &str, name: &str) -> Option<T> {
    let found = T::NAMES.iter().find(|(known, _)| *known == name).map(|(_, choice)| *choice);
    if found.is_none() {
        let known = T::NAMES.iter().map(|(known, _)| *known).collect();
        notes.add(at, role, ProblemKind::UnknownName { found: shortened(name), known });
    }
    found
}

/// The deepest node on the way to a role such as `pages[0].shots[2].contact.x`.
pub fn locate<'n, 't>(root: &'n Node<'t>, role: &str) -> &'n Node<'t> {
    let mut node = root;
    for step in role.split(['.', '[', ']']).filter(|step| !step.is_empty()) {
        if let Value::Tuple(Some("Some"), items) = &node.value
            && let Some(inner) = items.first()
        {
            node = inner;
        }
        let next = match &node.value {
            Value::List(items) => step.parse().ok().and_then(|index: usize| items.get(index)),
            Value::Struct(_, fields) => fields.iter().find(|field| field.name == step).map(|field| &field.node),
            _ => None,
        };
        match next {
            Some(next) => node = next,
            None => break,
        }
    }
    node
}

/// Whether `role` is `part` or inside it.
pub fn is_within(role: &str, part: &str) -> bool {
    match role.strip_prefix(part) {
        Some(rest) => rest.is_empty() || part.is_empty() || rest.starts_with(['.', '[']),
        None => false,
    }
}
