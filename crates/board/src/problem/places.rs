//! The part of a file that has a problem, in a reader's terms: `page 2, shot 1, contact.x`.

use standpoint_language::tr;

/// The place named by a role such as `pages[1].shots[0].contact.x`. Pages, shots, marks, points, sessions and cues are
/// counted from 1; the rest keeps its name in the file.
#[must_use]
pub fn where_said(role: &str) -> String {
    let mut said: Vec<String> = Vec::new();
    let mut names: Vec<&str> = Vec::new();
    for part in role.split('.') {
        match counted(part) {
            Some(counted) => {
                // A list within a named part, such as the chart of a board, identifies the place alone.
                names.clear();
                said.push(counted);
            }
            None => names.push(part),
        }
    }
    if !names.is_empty() {
        said.push(names.join("."));
    }
    said.join(", ")
}

/// An entry of a list by its number.
fn counted(part: &str) -> Option<String> {
    let (list, rest) = part.split_once('[')?;
    let number = rest.strip_suffix(']')?.parse::<usize>().ok()?.checked_add(1)?;
    Some(match list {
        "pages" => tr!("page {}", number),
        "shots" => tr!("shot {}", number),
        "marks" => tr!("mark {}", number),
        "points" => tr!("point {}", number),
        "sessions" => tr!("session {}", number),
        "cues" => tr!("cue {}", number),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_and_shots_are_counted_as_on_the_screen() {
        assert_eq!(where_said("pages[1].shots[0].contact.x"), "page 2, shot 1, contact.x");
        assert_eq!(where_said("pages[0].marks[2].form.points[1].y"), "page 1, mark 3, point 2, y");
        assert_eq!(where_said("chart.points[4].shots[1]"), "point 5, shot 2");
        assert_eq!(where_said("players.near.figures.reach"), "players.near.figures.reach");
        assert_eq!(where_said("pages[0].hidden_layers[1]"), "page 1, hidden_layers[1]");
        assert_eq!(where_said("pages[99999999999999999999999]"), "pages[99999999999999999999999]");
        assert_eq!(where_said(""), "");
    }
}
