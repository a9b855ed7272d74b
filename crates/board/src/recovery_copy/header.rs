//! Header of a copy, in comments at its beginning.

use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

/// Part of a copy read for its header, bytes: more than the longest path in its escaped form.
const READ: u64 = 32 * 1024;

/// Facts about the work in a copy.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct About {
    /// The file that the work was opened from or saved to, if any.
    pub original: Option<PathBuf>,
    /// The time, s since the beginning of 1970.
    pub kept_at: f64,
}

/// Facts in the header of a copy.
#[derive(Debug, Default)]
pub struct Said {
    pub title: String,
    pub original: Option<PathBuf>,
    pub process: u32,
    pub kept_at: f64,
}

/// The comments of the header.
pub fn text(title: &str, about: &About) -> String {
    let mut text = format!(
        "// A copy of unsaved work, kept in case the program is stopped. It is a file like any other.\n\
         // title: {}\n// process: {}\n// kept_at: {}\n",
        escaped(title.as_bytes()),
        std::process::id(),
        about.kept_at,
    );
    if let Some(original) = &about.original {
        text += &format!("// original: {}\n", escaped(&bytes_of(original)));
    }
    text
}

/// The header of the copy at this path; missing facts are empty.
pub fn read(path: &Path) -> Said {
    let mut bytes = Vec::new();
    // An unreadable copy has no header.
    let _ = File::open(path).and_then(|file| file.take(READ).read_to_end(&mut bytes));
    let text = String::from_utf8_lossy(&bytes);
    let part = |name: &str| {
        let mut lines = text.lines().take_while(|line| line.starts_with("//"));
        lines.find_map(|line| line.strip_prefix("// ")?.strip_prefix(name)?.strip_prefix(": "))
    };
    Said {
        title: part("title").map(|title| String::from_utf8_lossy(&plain(title)).into_owned()).unwrap_or_default(),
        original: part("original").map(|path| path_of(plain(path))),
        process: part("process").and_then(|process| process.parse().ok()).unwrap_or(0),
        kept_at: part("kept_at").and_then(|time| time.parse().ok()).filter(|t: &f64| t.is_finite()).unwrap_or(0.0),
    }
}

/// Bytes as one line of text: `%` and two digits for anything but a plain character.
fn escaped(bytes: &[u8]) -> String {
    let mut text = String::new();
    for chunk in bytes.utf8_chunks() {
        for c in chunk.valid().chars() {
            if c.is_control() || c == '%' {
                text.extend(c.to_string().bytes().map(|byte| format!("%{byte:02X}")));
            } else {
                text.push(c);
            }
        }
        text.extend(chunk.invalid().iter().map(|byte| format!("%{byte:02X}")));
    }
    text
}

/// The bytes of an escaped text.
fn plain(text: &str) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut rest = text.as_bytes();
    while let Some((first, after)) = rest.split_first() {
        let hex = after.get(..2).and_then(|hex| std::str::from_utf8(hex).ok());
        match hex.and_then(|hex| u8::from_str_radix(hex, 16).ok()) {
            Some(byte) if *first == b'%' => {
                bytes.push(byte);
                rest = &after[2..];
            }
            _ => {
                bytes.push(*first);
                rest = after;
            }
        }
    }
    bytes
}

#[cfg(unix)]
fn bytes_of(path: &Path) -> Vec<u8> {
    std::os::unix::ffi::OsStrExt::as_bytes(path.as_os_str()).to_owned()
}

#[cfg(unix)]
fn path_of(bytes: Vec<u8>) -> PathBuf {
    std::ffi::OsString::from(<std::ffi::OsStr as std::os::unix::ffi::OsStrExt>::from_bytes(&bytes)).into()
}

#[cfg(not(unix))]
fn bytes_of(path: &Path) -> Vec<u8> {
    path.to_string_lossy().into_owned().into_bytes()
}

#[cfg(not(unix))]
fn path_of(bytes: Vec<u8>) -> PathBuf {
    String::from_utf8_lossy(&bytes).into_owned().into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn any_bytes_fit_into_one_line_and_come_back() {
        for bytes in [&b"plain/path"[..], b"100%\n// process: 3", "ü 場 %".as_bytes(), b"\xff\xfe\n%41", b"%", b"%%4"]
        {
            let line = escaped(bytes);
            assert!(!line.contains('\n'), "{line}");
            assert_eq!(plain(&line), bytes, "{line}");
        }
    }
}
