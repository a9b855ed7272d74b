//! The lines of a file, each ended with one line feed, with a limit on the length of a row.

use std::fmt;
use std::io::{self, BufRead, BufReader, Read};
use std::sync::Arc;
use std::sync::atomic::{AtomicU8, AtomicU64, Ordering};

use super::encoding::{Encoding, Utf8};

/// Longest row, bytes; otherwise an unclosed quote would take the rest of the file.
pub(super) const ROW_LIMIT: u64 = 1 << 20;
/// Most bytes that readers buffer ahead of the current row.
const AHEAD: u64 = 1 << 16;

/// Position in a file, shared with its row reader.
#[derive(Debug, Default)]
pub(super) struct Gauge {
    /// Bytes taken from the file.
    taken: AtomicU64,
    /// Bytes handed out since the last complete row.
    since_row: AtomicU64,
    encoding: AtomicU8,
}

impl Gauge {
    pub fn bytes(&self) -> u64 {
        self.taken.load(Ordering::Relaxed)
    }

    pub fn encoding(&self) -> Encoding {
        let at = usize::from(self.encoding.load(Ordering::Relaxed));
        Encoding::ALL.get(at).copied().unwrap_or(Encoding::Utf8)
    }

    /// Marks the row as complete.
    pub fn next_row(&self) {
        self.since_row.store(0, Ordering::Relaxed);
    }

    fn handed_out(&self, bytes: u64) -> io::Result<()> {
        if self.since_row.fetch_add(bytes, Ordering::Relaxed) + bytes > ROW_LIMIT + AHEAD {
            return Err(io::Error::other(Endless));
        }
        Ok(())
    }
}

/// A row did not end.
#[derive(Debug)]
pub(super) struct Endless;

impl fmt::Display for Endless {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a row without an end")
    }
}

impl std::error::Error for Endless {}

/// Counts the bytes read from a file.
struct Counted<R> {
    inner: R,
    gauge: Arc<Gauge>,
}

impl<R: Read> Read for Counted<R> {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        let count = self.inner.read(out)?;
        self.gauge.taken.fetch_add(count as u64, Ordering::Relaxed);
        Ok(count)
    }
}

/// Ends every line, also the last one, with one line feed, so that lines can be counted.
pub(super) struct Lines<R: Read> {
    inner: BufReader<Utf8<Counted<R>>>,
    gauge: Arc<Gauge>,
    after_return: bool,
    last: u8,
}

impl<R: Read> Lines<R> {
    pub fn new(input: R, encoding: Option<Encoding>, gauge: Arc<Gauge>) -> Self {
        let counted = Counted { inner: input, gauge: Arc::clone(&gauge) };
        Self { inner: BufReader::new(Utf8::new(counted, encoding)), gauge, after_return: false, last: b'\n' }
    }
}

impl<R: Read> Read for Lines<R> {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        let mut written = 0;
        while written == 0 && !out.is_empty() {
            let bytes = self.inner.fill_buf()?;
            if bytes.is_empty() {
                if self.last == b'\n' {
                    break;
                }
                (out[0], self.last, written) = (b'\n', b'\n', 1);
                break;
            }
            let taken = bytes.len().min(out.len());
            for byte in &bytes[..taken] {
                let paired = *byte == b'\n' && self.after_return;
                self.after_return = *byte == b'\r';
                if !paired {
                    self.last = if self.after_return { b'\n' } else { *byte };
                    out[written] = self.last;
                    written += 1;
                }
            }
            self.inner.consume(taken);
        }
        let encoding = self.inner.get_ref().encoding();
        let at = Encoding::ALL.iter().position(|known| *known == encoding).unwrap_or_default();
        self.gauge.encoding.store(at as u8, Ordering::Relaxed);
        self.gauge.handed_out(written as u64)?;
        Ok(written)
    }
}
