//! Common reading of files: a mark with a version at the beginning, and every problem reported with
//! its line.

use std::collections::HashSet;

use super::fields::{Diagnostics, Found, is_within, locate};
use super::tree::{self, Node, Stop, Value, Why};
use crate::check::board::Finding;
use crate::problem::{Place, Problem, ProblemKind, Report};

/// One kind of file.
#[derive(Debug)]
pub struct Format {
    /// The part that marks the file and holds its version.
    pub mark: &'static str,
    /// The last version that is read.
    pub version: u32,
    /// Largest file, bytes.
    pub size_limit: u64,
    /// Most values in a file.
    pub value_limit: usize,
    /// Problem reported for a file without the mark.
    pub stranger: ProblemKind,
}

impl Format {
    /// An error when the file is too large.
    pub fn size_allowed(&self, bytes: u64) -> Result<(), Report> {
        if bytes <= self.size_limit {
            return Ok(());
        }
        Err(Report::of(Problem::new("", ProblemKind::TooLarge { bytes, limit: self.size_limit })))
    }

    /// Parses once, converts, checks, and reports everything that is wrong.
    pub fn read<T>(
        &self,
        text: &str,
        convert: impl FnOnce(&mut Diagnostics, &Node<'_>) -> T,
        check: impl FnOnce(&T) -> Vec<Finding>,
    ) -> Result<T, Report> {
        self.size_allowed(text.len() as u64)?;
        let lines = Lines::of(text);
        let mut notes = Diagnostics::default();
        if let Some(version) = tree::leading_version(text, self.mark)
            && self.newer(&mut notes, &version)
        {
            return Err(lines.report(notes));
        }
        let root = tree::parse(text, self.value_limit).map_err(|stop| lines.report_stop(stop))?;
        if !self.version_known(&mut notes, &root) {
            return Err(lines.report(notes));
        }
        let read = convert(&mut notes, &root);
        if notes.unlisted == 0 {
            note_findings(&mut notes, &root, check(&read));
        }
        if notes.found.is_empty() { Ok(read) } else { Err(lines.report(notes)) }
    }

    /// Notes a version beyond the last known.
    fn newer(&self, notes: &mut Diagnostics, version: &Node<'_>) -> bool {
        let Value::Number(number) = version.value else { return false };
        let newer = number.fract() == 0.0 && number > f64::from(self.version);
        if newer {
            let kind = ProblemKind::NewerVersion { found: number as u64, known: u64::from(self.version) };
            notes.add(version.at, self.mark, kind);
        }
        newer
    }

    /// The version of a file, if known.
    pub fn version_in(&self, root: &Node<'_>) -> Option<u32> {
        let Value::Number(number) = self.version_node(root)?.value else { return None };
        (1..=self.version).find(|version| number.total_cmp(&f64::from(*version)).is_eq())
    }

    fn version_node<'n, 't>(&self, root: &'n Node<'t>) -> Option<&'n Node<'t>> {
        let Value::Struct(_, fields) = &root.value else { return None };
        fields.iter().find(|field| field.name == self.mark).map(|field| &field.node)
    }

    /// Whether the file has a known version; otherwise notes the problem.
    fn version_known(&self, notes: &mut Diagnostics, root: &Node<'_>) -> bool {
        let Some(version) = self.version_node(root) else {
            notes.add(root.at, "", self.stranger.clone());
            return false;
        };
        if self.newer(notes, version) {
            return false;
        }
        let known = self.version_in(root).is_some();
        if !known {
            let found = match &version.value {
                Value::Number(number) => number.to_string(),
                other => other.describe(),
            };
            let kind = ProblemKind::NoSuchVersion { found, mark: self.mark, last: self.version };
            notes.add(version.at, self.mark, kind);
        }
        known
    }
}

/// The text in the bytes of a file.
pub fn text_of(bytes: &[u8]) -> Result<&str, Report> {
    std::str::from_utf8(bytes).map_err(|error| {
        let byte = error.valid_up_to();
        let before = String::from_utf8_lossy(&bytes[..byte]);
        let kind = ProblemKind::NotText { byte };
        Report::of(Problem { at: Some(Lines::of(&before).place(byte)), role: String::new(), kind })
    })
}

/// Adds the problems of a check, except those based on a part that is missing or wrong in the file, where the check saw
/// a default.
fn note_findings(notes: &mut Diagnostics, root: &Node<'_>, findings: Vec<Finding>) {
    let wrong: HashSet<String> = notes.found.iter().map(|found| found.role.clone()).collect();
    let stands_in = |role: &str| wrong.iter().any(|part| is_within(role, part));
    for finding in findings {
        let rests = finding.rests_on.as_deref();
        let shaken = rests.is_some_and(|rests| stands_in(rests) || wrong.iter().any(|part| is_within(part, rests)));
        if !shaken && !stands_in(&finding.problem.role) {
            let at = locate(root, &finding.problem.role).at;
            notes.add(at, finding.problem.role, finding.problem.kind);
        }
    }
}

/// Offsets of the lines of a text.
struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    fn of(text: &'t str) -> Self {
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { text, starts }
    }

    fn place(&self, at: usize) -> Place {
        let line = self.starts.partition_point(|start| *start <= at);
        let start = self.starts[line - 1];
        Place { line, column: self.text[start..at].chars().count() + 1 }
    }

    fn problem(&self, Found { at, role, kind }: Found) -> Problem {
        Problem { at: Some(self.place(at)), role, kind }
    }

    fn report(&self, mut notes: Diagnostics) -> Report {
        notes.found.sort_by_key(|found| found.at);
        let problems = notes.found.into_iter().map(|found| self.problem(found)).collect();
        Report { problems, unlisted: notes.unlisted }
    }

    fn report_stop(&self, stop: Stop) -> Report {
        let kind = match stop.why {
            Why::Kind(kind) => kind,
            Why::Unclosed(what, opened) => ProblemKind::Unclosed { what, opened: self.place(opened) },
        };
        Report::of(self.problem(Found { at: stop.at, role: String::new(), kind }))
    }
}
