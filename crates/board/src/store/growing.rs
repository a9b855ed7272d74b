//! A file that is written in parts and takes its place only when complete.

use std::fs::{self, File, Metadata};
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use super::{SaveError, follow_links, former, keep_access, save_error, sync_folder, temporary};

/// A file written in parts beside the one it will replace.
///
/// Data goes to a temporary file in the same folder; [`Self::finish`] puts it in place in one step. Dropped before
/// that, it leaves no files and the former file is unchanged.
#[derive(Debug)]
pub struct GrowingFile {
    target: PathBuf,
    folder: PathBuf,
    temporary: PathBuf,
    former: Option<Metadata>,
    /// `None` once the file is in place.
    file: Option<BufWriter<File>>,
}

impl GrowingFile {
    /// Begins a file with this final name.
    ///
    /// # Errors
    ///
    /// See [`SaveError`].
    pub fn begin(path: &Path) -> Result<Self, SaveError> {
        let target = follow_links(path)?;
        let former = former(&target)?;
        let folder = match target.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
            _ => PathBuf::from("."),
        };
        let (temporary, file) =
            temporary::create(&folder, former.as_ref()).map_err(|source| save_error(&target, &folder, source))?;
        Ok(Self { target, folder, temporary, former, file: Some(BufWriter::new(file)) })
    }

    /// Where it grows, for whoever ends the program without dropping it.
    #[must_use]
    pub fn temporary(&self) -> &Path {
        &self.temporary
    }

    /// Makes sure that everything is on the disk and puts the file in its place.
    ///
    /// # Errors
    ///
    /// See [`SaveError`]; the former file is unchanged, except after [`SaveError::Unconfirmed`].
    pub fn finish(mut self) -> Result<(), SaveError> {
        self.place().map_err(|source| save_error(&self.target, &self.folder, source))?;
        self.file = None;
        temporary::sweep(&self.folder);
        sync_folder(&self.folder).map_err(|source| SaveError::Unconfirmed { path: self.target.clone(), source })
    }

    /// Finishes a file that was stopped halfway: it is put beside its final place, and the former file is unchanged.
    /// Returns its path: `rows.csv` becomes `rows.stopped.csv`, or `rows.stopped-2.csv` where that is taken.
    ///
    /// # Errors
    ///
    /// See [`SaveError`].
    pub fn finish_beside(mut self) -> Result<PathBuf, SaveError> {
        let free = (1..=u32::MAX).map(|number| beside(&self.target, number)).find(|path| !path.exists());
        self.target = free.unwrap_or_else(|| beside(&self.target, 0));
        self.former = None;
        let path = self.target.clone();
        self.finish().map(|()| path)
    }

    fn place(&mut self) -> io::Result<()> {
        let Some(file) = &mut self.file else { return Ok(()) };
        file.flush()?;
        if let Some(former) = &self.former {
            keep_access(file.get_ref(), former)?;
        }
        file.get_ref().sync_all()?;
        // The file stays open, and so locked, until it is in place.
        fs::rename(&self.temporary, &self.target)
    }

    /// A write error as a [`SaveError`].
    #[must_use]
    pub fn explain(&self, source: io::Error) -> SaveError {
        save_error(&self.target, &self.folder, source)
    }
}

/// The name of a file stopped halfway.
fn beside(target: &Path, number: u32) -> PathBuf {
    let word = if number == 1 { "stopped".to_owned() } else { format!("stopped-{number}") };
    match target.extension() {
        Some(ending) => target.with_extension(format!("{word}.{}", ending.to_string_lossy())),
        None => target.with_extension(word),
    }
}

impl Write for GrowingFile {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match &mut self.file {
            Some(file) => file.write(bytes),
            None => Err(io::Error::other("the file is already in its place")),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.as_mut().map_or(Ok(()), Write::flush)
    }
}

impl Drop for GrowingFile {
    fn drop(&mut self) {
        if self.file.is_some() {
            // Errors are ignored here; the next save in this folder removes it.
            let _ = fs::remove_file(&self.temporary);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> Vec<String> {
        let names =
            fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned());
        let mut names: Vec<String> = names.collect();
        names.sort();
        names
    }

    #[test]
    fn a_file_that_is_given_up_leaves_nothing_and_the_former_one_as_it_was() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("report.csv");
        fs::write(&path, "former").unwrap();
        let mut growing = GrowingFile::begin(&path).unwrap();
        growing.write_all(&[b'x'; 100_000]).unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap(), "former");
        assert_eq!(names(dir.path()).len(), 2);
        drop(growing);
        assert_eq!(
            (names(dir.path()), fs::read_to_string(&path).unwrap()),
            (vec!["report.csv".into()], "former".into())
        );
    }

    #[test]
    fn a_file_that_is_finished_is_whole() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("report.csv");
        let mut growing = GrowingFile::begin(&path).unwrap();
        for i in 0..10_000 {
            writeln!(growing, "{i}").unwrap();
        }
        growing.finish().unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap().lines().count(), 10_000);
        assert_eq!(names(dir.path()), ["report.csv"]);
        assert!(matches!(GrowingFile::begin(dir.path()), Err(SaveError::IsFolder(_))));
        assert!(matches!(GrowingFile::begin(&dir.path().join("gone/a")), Err(SaveError::NoFolder(_))));
    }

    #[test]
    fn what_is_given_up_halfway_goes_beside_and_takes_nobodys_place() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("rows.csv");
        fs::write(&path, "former").unwrap();
        for half in ["one", "two"] {
            let mut file = GrowingFile::begin(&path).unwrap();
            file.write_all(half.as_bytes()).unwrap();
            file.finish_beside().unwrap();
        }
        let read = |name: &str| fs::read_to_string(dir.path().join(name)).unwrap();
        assert_eq!(["rows.csv", "rows.stopped.csv", "rows.stopped-2.csv"].map(read), ["former", "one", "two"]);
    }
}
