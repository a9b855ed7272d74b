//! Where the digits of a keypad lie on the half in question.

use egui::{Context, Key, Modifiers};
use glam::{DVec2, dvec2};
use standpoint_board::chart::ObservedShot;
use standpoint_charting::notebook::{Draft, DueServe, Notebook, ShotPlace};
use standpoint_geometry::{Court, End};
use standpoint_ui::transform::Transform;

/// Rows of places where players are: at the net, in the court, behind the baseline (m beyond it).
const AT_NET_M: f64 = 2.5;
const BEHIND_M: f64 = 1.0;

/// The digits in the rows of a keypad.
const KEYPAD: [[Key; 3]; 3] =
    [[Key::Num7, Key::Num8, Key::Num9], [Key::Num4, Key::Num5, Key::Num6], [Key::Num1, Key::Num2, Key::Num3]];

/// The end at which the next place is; for a contact that begins a point that of the cursor.
#[must_use]
pub fn end(draft: &Draft, cursor: Option<DVec2>) -> End {
    match draft.step() {
        ShotPlace::Contact => match cursor {
            Some(place) if place.y > 0.0 => End::Far,
            Some(_) => End::Near,
            // The opponent's end for an inserted shot, else the near one.
            None => draft.hitter,
        },
        ShotPlace::Landing | ShotPlace::Met => draft.hitter.other(),
        ShotPlace::Stood => draft.hitter,
    }
}

/// The end at which a place of a shot is.
#[must_use]
pub fn end_of(shot: &ObservedShot, step: ShotPlace) -> End {
    match step {
        ShotPlace::Contact | ShotPlace::Stood => shot.hitter,
        ShotPlace::Landing | ShotPlace::Met => shot.hitter.other(),
    }
}

/// The middles of the nine parts of a half, row by row as they lie on the screen.
#[must_use]
pub fn ninths(court: &Court, end: End, step: ShotPlace, at: &Transform) -> [DVec2; 9] {
    let half = court.half_length();
    let rows = match step {
        ShotPlace::Landing => [half / 6.0, half / 2.0, half * 5.0 / 6.0],
        _ => [AT_NET_M, half * 0.68, half + BEHIND_M],
    };
    let column = court.half_width() * 2.0 / 3.0;
    let mut places: Vec<DVec2> =
        rows.iter().flat_map(|y| [-column, 0.0, column].map(|x| end.turn2(dvec2(x, -y)))).collect();
    let point = |p: &DVec2| at.screen_from_court(*p);
    places.sort_by(|a, b| point(a).y.total_cmp(&point(b).y));
    places.chunks_mut(3).for_each(|row| row.sort_by(|a, b| point(a).x.total_cmp(&point(b).x)));
    std::array::from_fn(|i| places[i])
}

/// Where the digits lie for what is asked for next.
pub struct Asked {
    /// The places of the digits, row by row as they lie on a keypad.
    pub nine: [DVec2; 9],
    /// The digits that are worth showing.
    pub shown: Vec<(DVec2, u8)>,
}

/// What is asked for next.
#[must_use]
pub fn asked(notes: &Notebook, cursor: Option<DVec2>, court: &Court, at: &Transform) -> Asked {
    const DIGITS: [u8; 9] = [7, 8, 9, 4, 5, 6, 1, 2, 3];
    if let Some(due) = notes.due_serve() {
        let (nine, shown) = serve_ninths(&due, at);
        return Asked { nine, shown };
    }
    let step = notes.live_step().unwrap_or(notes.draft().step());
    let end = end(notes.draft(), cursor);
    let nine = ninths(court, end, step, at);
    Asked { nine, shown: nine.into_iter().zip(DIGITS).collect() }
}

/// The places of a serve by the digits: those of one line across the service box are one place.
fn serve_ninths(due: &DueServe, at: &Transform) -> ([DVec2; 9], Vec<(DVec2, u8)>) {
    let mut by_screen = due.places;
    let point = |p: &DVec2| at.screen_from_court(*p);
    let apart = point(&due.places[0]) - point(&due.places[2]);
    if apart.x.abs() >= apart.y.abs() {
        by_screen.sort_by(|a, b| point(a).x.total_cmp(&point(b).x));
        let [a, b, c] = by_screen;
        ([a, b, c, a, b, c, a, b, c], vec![(a, 4), (b, 5), (c, 6)])
    } else {
        by_screen.sort_by(|a, b| point(a).y.total_cmp(&point(b).y));
        let [a, b, c] = by_screen;
        ([a, a, a, b, b, b, c, c, c], vec![(a, 8), (b, 5), (c, 2)])
    }
}

/// The place of a pressed digit, one of nine as on a keypad.
pub fn digit(ctx: &Context, nine: &[DVec2; 9]) -> Option<DVec2> {
    let keys = KEYPAD.iter().flatten();
    keys.zip(nine).find(|(key, _)| ctx.input_mut(|i| i.consume_key(Modifiers::NONE, **key))).map(|(_, place)| *place)
}

#[cfg(test)]
mod tests {
    use egui::{Rect, pos2, vec2};
    use standpoint_ui::transform::CourtView;

    use super::*;

    #[test]
    fn digits_lie_on_the_court_as_on_the_keypad_however_it_is_turned() {
        let court = Court::default();
        for turn in 0..4 {
            let at = CourtView::fitted(turn).transform(Rect::from_min_size(pos2(0.0, 0.0), vec2(700.0, 700.0)), &court);
            for end in [End::Near, End::Far] {
                for step in [ShotPlace::Contact, ShotPlace::Landing] {
                    let nine = ninths(&court, end, step, &at).map(|place| at.screen_from_court(place));
                    assert!(nine[0].y < nine[3].y && nine[3].y < nine[6].y, "turn {turn}");
                    assert!(nine[0].x < nine[1].x && nine[1].x < nine[2].x, "turn {turn}");
                    assert!(ninths(&court, end, step, &at).iter().all(|p| p.y * end.sign() < 0.0));
                }
            }
        }
    }
}
