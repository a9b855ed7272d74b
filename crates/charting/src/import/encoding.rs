//! Text in other encodings, converted to UTF-8 as it is read.

use std::io::{self, BufRead, BufReader, Read};

use encoding_rs::{CoderResult, Decoder, UTF_16BE, UTF_16LE, WINDOWS_1252};
use serde::{Deserialize, Serialize};

/// How the text of a file is encoded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Encoding {
    /// UTF-8, or ASCII, which is the same.
    Utf8,
    /// UTF-16, the lower byte first.
    Utf16Le,
    /// UTF-16, the higher byte first.
    Utf16Be,
    /// The code page of Western Europe.
    Windows1252,
}

impl Encoding {
    /// All.
    pub const ALL: [Self; 4] = [Self::Utf8, Self::Utf16Le, Self::Utf16Be, Self::Windows1252];

    /// Its standard name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Utf8 => "UTF-8",
            Self::Utf16Le => "UTF-16 LE",
            Self::Utf16Be => "UTF-16 BE",
            Self::Windows1252 => "Windows-1252",
        }
    }

    /// By the byte order mark, and how long that is.
    fn of_mark(bytes: &[u8]) -> Option<(Self, usize)> {
        match bytes {
            [0xef, 0xbb, 0xbf, ..] => Some((Self::Utf8, 3)),
            [0xff, 0xfe, ..] => Some((Self::Utf16Le, 2)),
            [0xfe, 0xff, ..] => Some((Self::Utf16Be, 2)),
            _ => None,
        }
    }

    fn decoder(self) -> Option<Decoder> {
        let encoding = match self {
            Self::Utf8 => return None,
            Self::Utf16Le => UTF_16LE,
            Self::Utf16Be => UTF_16BE,
            Self::Windows1252 => WINDOWS_1252,
        };
        Some(encoding.new_decoder_without_bom_handling())
    }
}

/// Chunk size for detecting and decoding, bytes.
const CHUNK: usize = 64 * 1024;

/// A reader that yields UTF-8.
///
/// The byte order mark decides the encoding. Without one, text counts as UTF-8 until the first byte beyond ASCII; if the
/// rest of that chunk is valid UTF-8, it is UTF-8, and Windows-1252 otherwise.
pub(super) struct Utf8<R: Read> {
    input: BufReader<R>,
    chosen: Option<Encoding>,
    decoder: Option<Decoder>,
    begun: bool,
    ended: bool,
    /// Incomplete bytes at the end of a chunk that may begin a UTF-8 character.
    carried: Vec<u8>,
    out: Vec<u8>,
    at: usize,
}

impl<R: Read> Utf8<R> {
    pub fn new(input: R, chosen: Option<Encoding>) -> Self {
        let decoder = chosen.and_then(Encoding::decoder);
        let input = BufReader::with_capacity(CHUNK, input);
        Self { input, chosen, decoder, begun: false, ended: false, carried: Vec::new(), out: Vec::new(), at: 0 }
    }

    /// The detected encoding; plain ASCII counts as UTF-8.
    pub fn encoding(&self) -> Encoding {
        self.chosen.unwrap_or(Encoding::Utf8)
    }

    fn choose(&mut self, encoding: Encoding) {
        (self.chosen, self.decoder) = (Some(encoding), encoding.decoder());
    }

    /// Skips the byte order mark, which is no part of the text. A mark of the given encoding is skipped in any case.
    fn begin(&mut self) -> io::Result<()> {
        self.begun = true;
        // A pipe may give less than a mark at first.
        let mut head = Vec::new();
        self.input.by_ref().take(3).read_to_end(&mut head)?;
        let mark = Encoding::of_mark(&head).filter(|(found, _)| self.chosen.is_none_or(|chosen| chosen == *found));
        let after = mark.map_or(0, |(_, length)| length);
        if let Some((found, _)) = mark {
            self.choose(found);
        }
        let head = head.split_off(after);
        self.take(&head);
        Ok(())
    }

    /// Decodes the next chunk.
    fn fill(&mut self) -> io::Result<()> {
        (self.at, self.out) = (0, std::mem::take(&mut self.out));
        self.out.clear();
        if !self.begun {
            return self.begin();
        }
        let mut chunk = std::mem::take(&mut self.carried);
        let fresh = self.input.fill_buf()?;
        let count = fresh.len();
        chunk.extend_from_slice(fresh);
        self.input.consume(count);
        self.ended = count == 0;
        self.take(&chunk);
        Ok(())
    }

    fn take(&mut self, chunk: &[u8]) {
        let mut chunk = chunk;
        if self.chosen.is_none()
            && let Some(first) = chunk.iter().position(|byte| !byte.is_ascii())
        {
            match std::str::from_utf8(&chunk[first..]) {
                // The chunk ends within the first character that could decide.
                Err(error) if error.error_len().is_none() && error.valid_up_to() == 0 && !self.ended => {
                    self.carried = chunk[first..].to_vec();
                    chunk = &chunk[..first];
                }
                Err(error) if error.error_len().is_some() || error.valid_up_to() == 0 => {
                    self.choose(Encoding::Windows1252);
                }
                _ => self.choose(Encoding::Utf8),
            }
        }
        match &mut self.decoder {
            None => self.out.extend_from_slice(chunk),
            Some(decoder) => {
                let mut text = String::with_capacity(chunk.len() * 3 + 16);
                let (result, ..) = decoder.decode_to_string(chunk, &mut text, self.ended);
                debug_assert!(result == CoderResult::InputEmpty);
                self.out.extend_from_slice(text.as_bytes());
            }
        }
    }
}

impl<R: Read> Read for Utf8<R> {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        while self.at == self.out.len() && !self.ended {
            self.fill()?;
        }
        let rest = &self.out[self.at..];
        let count = rest.len().min(out.len());
        out[..count].copy_from_slice(&rest[..count]);
        self.at += count;
        Ok(count)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(bytes: &[u8], chosen: Option<Encoding>) -> (Vec<u8>, Encoding) {
        let mut reader = Utf8::new(bytes, chosen);
        let mut text = Vec::new();
        reader.read_to_end(&mut text).unwrap();
        (text, reader.encoding())
    }

    /// A reader of one byte at a time, like a slow pipe.
    struct Slow<'a>(&'a [u8]);

    impl Read for Slow<'_> {
        fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
            let count = self.0.len().min(out.len()).min(1);
            out[..count].copy_from_slice(&self.0[..count]);
            self.0 = &self.0[count..];
            Ok(count)
        }
    }

    fn utf_16(text: &str, order: fn(u16) -> [u8; 2]) -> Vec<u8> {
        std::iter::once(0xfeff).chain(text.encode_utf16()).flat_map(order).collect()
    }

    #[test]
    fn each_encoding_is_told_and_read() {
        let text = "Rückhand;Aufschläge;场 🎾\n";
        assert_eq!(read(text.as_bytes(), None), (text.into(), Encoding::Utf8));
        let marked = [b"\xef\xbb\xbf", text.as_bytes()].concat();
        assert_eq!(read(&marked, None), (text.into(), Encoding::Utf8));
        assert_eq!(read(&utf_16(text, u16::to_le_bytes), None), (text.into(), Encoding::Utf16Le));
        assert_eq!(read(&utf_16(text, u16::to_be_bytes), None), (text.into(), Encoding::Utf16Be));
        // From the table of the code page: 0xFC is u with diaeresis, 0x80 the euro sign, 0x96 an en dash.
        assert_eq!(read(b"R\xfcckhand \x80 \x96\n", None), ("Rückhand € –\n".into(), Encoding::Windows1252));
        assert_eq!(read(b"plain\n", None), ("plain\n".into(), Encoding::Utf8));
        assert_eq!(read(b"", None), (vec![], Encoding::Utf8));
    }

    #[test]
    fn a_slow_pipe_gives_the_same() {
        let code_page = |text: &[u8]| text.to_vec();
        let texts = [utf_16("Rück 🎾", u16::to_le_bytes), "\u{feff}Rück 🎾".into(), "Rück 🎾".into()];
        // 0xE4 could begin a character of UTF-8, and 0xFC could not; the last one ends with the file.
        for bytes in texts.into_iter().chain([code_page(b"R\xfcck"), code_page(b"sp\xe4t"), code_page(b"juch\xe9")]) {
            let mut slow = Vec::new();
            let mut reader = Utf8::new(Slow(&bytes), None);
            reader.read_to_end(&mut slow).unwrap();
            assert_eq!((slow, reader.encoding()), read(&bytes, None));
        }
    }

    #[test]
    fn a_choice_counts_more_than_what_it_looks_like() {
        assert_eq!(read("ü".as_bytes(), Some(Encoding::Windows1252)).0, "Ã¼".as_bytes());
        let late = [&[b'a'; 3 * CHUNK][..], b"\xfc"].concat();
        assert_eq!(read(&late, None).0.len(), 3 * CHUNK + 2);
    }
}
