//! Writing the little XML that an SVG needs.

/// Text as it may stand between tags or in an attribute; control characters, which XML forbids, are left out.
#[must_use]
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // Source: Extensible Markup Language 1.0, section 2.2, production Char.
            '\u{fffe}' | '\u{ffff}' => {}
            '\t' | '\n' => out.push(' '),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// A number rounded to a hundredth of a point.
#[must_use]
pub fn number(value: f32) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_xml_forbids_never_gets_in() {
        assert_eq!(escaped("a<b & \"c\"\u{1}\n>"), "a&lt;b &amp; &quot;c&quot; &gt;");
    }

    #[test]
    fn numbers_are_short() {
        assert_eq!([number(1.0), number(-0.001), number(2.456), number(f32::NAN)], ["1", "0", "2.46", "0"]);
    }
}
