//! Layout of the JSON: a line for each field, lists of numbers in one line.

use std::io::{self, Write};

use serde_json::ser::Formatter;

/// Objects are indented, arrays are not broken.
#[derive(Debug, Default)]
pub struct Layout {
    depth: usize,
    empty: bool,
}

impl Layout {
    fn line<W: ?Sized + Write>(&self, out: &mut W) -> io::Result<()> {
        out.write_all(b"\n")?;
        (0..self.depth).try_for_each(|_| out.write_all(b"  "))
    }
}

impl Formatter for Layout {
    fn begin_array_value<W: ?Sized + Write>(&mut self, out: &mut W, first: bool) -> io::Result<()> {
        if first { Ok(()) } else { out.write_all(b", ") }
    }

    fn begin_object<W: ?Sized + Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.depth += 1;
        self.empty = true;
        out.write_all(b"{")
    }

    fn end_object<W: ?Sized + Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.depth -= 1;
        if !self.empty {
            self.line(out)?;
        }
        self.empty = false;
        out.write_all(b"}")
    }

    fn begin_object_key<W: ?Sized + Write>(&mut self, out: &mut W, first: bool) -> io::Result<()> {
        if !first {
            out.write_all(b",")?;
        }
        self.empty = false;
        self.line(out)
    }

    fn begin_object_value<W: ?Sized + Write>(&mut self, out: &mut W) -> io::Result<()> {
        out.write_all(b": ")
    }
}

#[cfg(test)]
mod tests {
    use serde::Serialize;
    use serde_json::json;

    use super::*;

    #[test]
    fn objects_take_lines_and_lists_do_not() {
        let value = json!({"a": 1, "e": {}, "l": [[1, 2], [3, 4]], "o": [{"p": 0}]});
        let mut text = Vec::new();
        value.serialize(&mut serde_json::Serializer::with_formatter(&mut text, Layout::default())).unwrap();
        let text = String::from_utf8(text).unwrap();
        assert_eq!(
            text,
            "{\n  \"a\": 1,\n  \"e\": {},\n  \"l\": [[1, 2], [3, 4]],\n  \"o\": [{\n    \"p\": 0\n  }]\n}"
        );
        assert_eq!(serde_json::from_str::<serde_json::Value>(&text).unwrap(), value);
    }
}
