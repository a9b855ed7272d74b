//! The output files of an audit.

use std::{
    io::{self, Write},
    path::PathBuf,
};

use standpoint_board::store::GrowingFile;

use super::AuditArgs;
use crate::{
    fault::{Fault, Stop},
    output::{begin, fault as save_fault},
};

/// The requested files. Each is put in its place only when complete.
pub struct Files {
    pub answer: Option<GrowingFile>,
    pub summary: Option<GrowingFile>,
    pub part: Option<GrowingFile>,
    pub pdf: Option<GrowingFile>,
    pub drills: Option<GrowingFile>,
    pub bad_rows: Option<GrowingFile>,
}

impl Files {
    /// Begins them.
    ///
    /// # Errors
    /// A file that cannot be written.
    pub fn begin(args: &AuditArgs) -> Result<Self, Box<Fault>> {
        let begin = |path: &Option<PathBuf>| path.as_deref().map(begin).transpose();
        Ok(Self {
            answer: begin(&args.output)?,
            summary: begin(&args.summary)?,
            part: begin(&args.part)?,
            pdf: begin(&args.pdf)?,
            drills: begin(&args.drills)?,
            bad_rows: begin(&args.bad_rows)?,
        })
    }

    fn all(self) -> impl Iterator<Item = GrowingFile> {
        [self.bad_rows, self.summary, self.part, self.pdf, self.drills, self.answer].into_iter().flatten()
    }

    /// Puts the complete files in their places.
    ///
    /// # Errors
    /// A file that cannot be written.
    pub fn finish(self) -> Result<(), Stop> {
        for file in self.all() {
            file.finish().map_err(|error| save_fault(&error))?;
        }
        Ok(())
    }

    /// Puts the partial files of a stopped audit beside their places, and returns their paths.
    ///
    /// # Errors
    /// A file that cannot be written.
    pub fn finish_beside(self) -> Result<Vec<PathBuf>, Stop> {
        let beside = |file: GrowingFile| file.finish_beside().map_err(|error| save_fault(&error).into());
        self.all().map(beside).collect()
    }

    /// Why the answer could not be written.
    pub fn unwritten(&self, error: io::Error) -> Stop {
        match &self.answer {
            Some(file) => save_fault(&file.explain(error)).into(),
            None => error.into(),
        }
    }
}

/// A file to write to, or nowhere.
pub fn or_nowhere<'f>(file: &'f mut Option<GrowingFile>, nowhere: &'f mut io::Sink) -> &'f mut dyn Write {
    match file {
        Some(file) => file,
        None => nowhere,
    }
}
