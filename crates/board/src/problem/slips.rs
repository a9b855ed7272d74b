//! Suggestions for misspelled names.

use standpoint_language::tr;

/// `a`, `b` or `c`.
pub fn listed(names: &[&str]) -> String {
    match names {
        [] => tr!("nothing"),
        [one] => format!("`{one}`"),
        [head @ .., last] => {
            let head: Vec<String> = head.iter().map(|name| format!("`{name}`")).collect();
            tr!("{} or `{}`", head.join(", "), last)
        }
    }
}

/// The known name closest to `word`: at most two letters changed, added or lost.
pub fn nearest<'n>(word: &str, known: &[&'n str]) -> Option<&'n str> {
    if word.len() > 40 {
        return None;
    }
    let word = word.to_lowercase();
    let (distance, name) = known.iter().map(|name| (edits(&word, &name.to_lowercase()), *name)).min()?;
    (distance <= 2 && distance < name.len()).then_some(name)
}

/// Edit distance of two words.
fn edits(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.chars().enumerate() {
        let mut corner = row[0];
        row[0] = i + 1;
        for (j, y) in b.iter().enumerate() {
            let change = corner + usize::from(x != *y);
            corner = row[j + 1];
            row[j + 1] = change.min(row[j] + 1).min(corner + 1);
        }
    }
    row[b.len()]
}
