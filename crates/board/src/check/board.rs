//! Checks a board without its chart.
//!
//! The bounds are wide: they reject typing errors and hostile files, not unusual players. They lie within those of
//! [`standpoint_geometry::Situation::validate`], so that a valid board can always be computed; a test
//! checks that. Numbers in messages are in the units of the file.

use glam::{DVec2, DVec3};
use standpoint_geometry::{
    End, Player, ReceiptChoice, ReplyHabits, WingSkill,
    units::{DEG, KMH, RPM},
};
use standpoint_language::mark;

use crate::file::habits::{COUNT_LIMIT, MATCH_LIMIT};
use crate::model::{Board, Page, ShotSpec};
use crate::play_area::{HIGHEST_CONTACT, LOWEST_CONTACT, PlayArea};
use crate::player_card::{Figures, PlayerCard};
use crate::problem::{Problem, ProblemKind};

mod marks;

pub use marks::{LETTER_LIMIT, MARK_LIMIT, POINT_LIMIT, WORDS_LIMIT};

/// Characters in a title, a name or the name of a theme.
pub const LINE_LIMIT: usize = 200;
/// Characters in the notes of a page, and in each part of its drill.
pub const NOTES_LIMIT: usize = 20_000;
/// Cues on a page; more than a player can remember.
pub const CUE_LIMIT: usize = 50;
/// Slack for coordinates, m: rounding to the file's 0.1 mm must not push a place off the site.
const SLACK: f64 = 1e-4;

/// A problem, and the part it is based on: if that part is wrong itself, the problem may not exist.
#[derive(Debug)]
pub(crate) struct Finding {
    pub problem: Problem,
    pub rests_on: Option<String>,
}

impl Finding {
    /// The problem with its role prefixed by the containing part.
    pub(super) fn within(self, part: &str) -> Self {
        let inside = |role: &str| if role.is_empty() { part.to_owned() } else { format!("{part}.{role}") };
        let problem = Problem { role: inside(&self.problem.role), ..self.problem };
        Self { problem, rests_on: self.rests_on.map(|role| inside(&role)) }
    }
}

/// The problems of everything but the chart, each with the part it is based on.
pub(crate) fn findings(board: &Board) -> Vec<Finding> {
    let mut check = Check { area: board.play_area(), found: Vec::new() };
    check.line("title", &board.title);
    check.number("court.run_off.behind", board.court.run_off.behind, (0.0, 20.0), "m");
    check.number("court.run_off.beside", board.court.run_off.beside, (0.0, 20.0), "m");
    if let Some(figures) = board.surface.measured {
        check.number("surface.measured.friction", figures.friction, (0.05, 1.5), "");
        check.number("surface.measured.restitution", figures.restitution, (0.2, 1.0), "");
        check.number("surface.measured.grip_restitution", figures.grip_restitution, (0.0, 1.0), "");
    }
    check.number("air.temperature_c", board.air.temperature_c, (-30.0, 60.0), "°C");
    check.number("air.altitude_m", board.air.altitude_m, (-450.0, 6000.0), "m");
    check.card("players.near", &board.near);
    check.card("players.far", &board.far);
    check.line("theme", &board.theme);
    check.number("settings.edge_chance", board.settings.edge_chance, (0.3, 0.95), "");
    check.number("settings.zone_tolerance", board.settings.zone_tolerance, (0.001, 0.3), "");
    if board.pages.is_empty() {
        check.add("pages", ProblemKind::NoPage);
    }
    for (i, page) in board.pages.iter().enumerate() {
        check.page(&format!("pages[{i}]"), page);
    }
    check.amount(board);
    check.found
}

struct Check {
    area: PlayArea,
    found: Vec<Finding>,
}

impl Check {
    fn add(&mut self, role: &str, kind: ProblemKind) {
        self.found.push(Finding { problem: Problem::new(role, kind), rests_on: None });
    }

    fn add_resting(&mut self, role: &str, kind: ProblemKind, rests_on: String) {
        self.found.push(Finding { problem: Problem::new(role, kind), rests_on: Some(rests_on) });
    }

    fn line(&mut self, role: &str, text: &str) {
        self.text(role, text, LINE_LIMIT, &[]);
    }

    fn text(&mut self, role: &str, text: &str, limit: usize, allowed: &[char]) {
        let found = text.chars().count();
        if found > limit {
            self.add(role, ProblemKind::TextTooLong { found, limit });
        }
        if let Some(c) = text.chars().find(|c| c.is_control() && !allowed.contains(c)) {
            self.add(role, ProblemKind::ControlCharacter { found: u32::from(c) });
        }
    }

    /// Whether the number is finite and within its bounds.
    fn number(&mut self, role: &str, found: f64, (low, high): (f64, f64), unit: &'static str) -> bool {
        let kind = if !found.is_finite() {
            ProblemKind::NotFinite { found }
        } else if found < low || found > high {
            ProblemKind::OutOfRange { found, low, high, unit }
        } else {
            return true;
        };
        self.add(role, kind);
        false
    }

    /// A number with another unit in the file than in the board. A little slack, because the division is not exact.
    fn scaled(&mut self, role: &str, value: f64, per_unit: f64, (low, high): (f64, f64), unit: &'static str) {
        let found = value / per_unit;
        let nearest = found.clamp(low, high);
        let found = if (found - nearest).abs() < 1e-6 { nearest } else { found };
        self.number(role, found, (low, high), unit);
    }

    fn card(&mut self, role: &str, card: &PlayerCard) {
        self.line(&format!("{role}.name"), &card.name);
        if let Figures::Custom(player) = &card.figures {
            self.custom(&format!("{role}.figures"), player);
        }
        if let Some(known) = &card.habits {
            self.line(&format!("{role}.habits.of"), &known.of);
            self.number(&format!("{role}.habits.matches"), f64::from(known.matches), (0.0, MATCH_LIMIT), "");
            self.counts(&format!("{role}.habits"), &known.counts);
        }
    }

    fn counts(&mut self, role: &str, counts: &ReplyHabits) {
        self.number(&format!("{role}.strength"), counts.strength, (0.1, 1000.0), "");
        let most = ReplyHabits::cases().flat_map(|case| counts.counts(case)).max().unwrap_or_default();
        self.number(role, f64::from(most), (0.0, COUNT_LIMIT), "");
    }

    fn custom(&mut self, role: &str, player: &Player) {
        let part = |name: &str| format!("{role}.{name}");
        self.number(&part("bounces"), f64::from(player.bounces), (1.0, 2.0), "");
        let movement = &player.movement;
        self.number(&part("movement.reaction_s"), movement.reaction_s, (0.0, 1.5), "s");
        self.number(&part("movement.top_speed_m_s"), movement.v_max, (1.0, 12.0), "m/s");
        self.number(&part("movement.time_constant_s"), movement.tau_s, (0.05, 4.0), "s");
        self.number(&part("movement.backward_factor"), movement.backward_factor, (1.0, 4.0), "");
        self.number(&part("movement.follow_through_s"), movement.follow_through_s, (0.0, 2.0), "s");
        let reach = &player.reach;
        self.number(&part("reach.forehand"), reach.forehand, (0.3, 3.5), "m");
        self.number(&part("reach.backhand"), reach.backhand, (0.3, 3.5), "m");
        self.number(&part("reach.ahead"), reach.ahead, (0.1, 3.5), "m");
        self.number(&part("reach.overhead"), reach.overhead, (1.0, 4.0), "m");
        self.wing(&part("forehand"), &player.forehand);
        self.wing(&part("backhand"), &player.backhand);
        let serve = &player.serve;
        self.scaled(&part("serve.first_speed_kmh"), serve.first_speed, KMH, (10.0, 280.0), "km/h");
        self.scaled(&part("serve.second_speed_kmh"), serve.second_speed, KMH, (10.0, 280.0), "km/h");
        self.number(&part("serve.height"), serve.height, (0.5, HIGHEST_CONTACT), "m");
        self.scaled(&part("serve.topspin_rpm"), serve.topspin, RPM, (-6600.0, 6600.0), "rpm");
        self.scaled(&part("serve.spread_deg"), serve.spread, DEG, (0.06, 17.0), "°");
    }

    fn wing(&mut self, role: &str, wing: &WingSkill) {
        self.scaled(&format!("{role}.speed_kmh"), wing.speed, KMH, (18.0, 216.0), "km/h");
        self.scaled(&format!("{role}.topspin_rpm"), wing.topspin, RPM, (0.0, 5700.0), "rpm");
        self.scaled(&format!("{role}.spread_up_deg"), wing.spread_up, DEG, (0.06, 17.0), "°");
        self.scaled(&format!("{role}.spread_side_deg"), wing.spread_side, DEG, (0.06, 17.0), "°");
    }

    fn page(&mut self, role: &str, page: &Page) {
        self.line(&format!("{role}.title"), &page.title);
        self.text(&format!("{role}.notes"), &page.notes, NOTES_LIMIT, &['\n', '\r', '\t']);
        let drill = &page.drill;
        for (part, text) in [
            ("feed", &drill.feed),
            ("targets", &drill.targets),
            ("progression", &drill.progression),
            ("equipment", &drill.equipment),
        ] {
            self.text(&format!("{role}.drill.{part}"), text, NOTES_LIMIT, &['\n', '\r', '\t']);
        }
        if page.shots.is_empty() {
            self.add(&format!("{role}.shots"), ProblemKind::NoShot);
        }
        self.few(&format!("{role}.cues"), mark("cues"), page.cues.len(), CUE_LIMIT);
        for (i, cue) in page.cues.iter().enumerate() {
            self.line(&format!("{role}.cues[{i}]"), cue);
        }
        for (i, shot) in page.shots.iter().enumerate() {
            let role = format!("{role}.shots[{i}]");
            self.shot(&role, shot);
            self.order(&role, shot, i.checked_sub(1).map(|before| &page.shots[before]));
        }
        self.marks(role, &page.marks);
    }

    /// Whether a shot can come after the one before it.
    fn order(&mut self, role: &str, spec: &ShotSpec, before: Option<&ShotSpec>) {
        let follows = format!("{role}.follows");
        match before {
            None if spec.follows => self.add(&follows, ProblemKind::FollowsNothing),
            Some(before) if spec.follows && before.hitter_end == spec.hitter_end => {
                self.add_resting(&follows, ProblemKind::SameEnd, format!("{role}.hitter"));
            }
            _ => {}
        }
    }

    /// Whether there are not too many.
    fn few(&mut self, role: &str, what: &'static str, found: usize, limit: usize) {
        if found > limit {
            self.add(role, ProblemKind::TooMany { what, found, limit });
        }
    }

    fn shot(&mut self, role: &str, spec: &ShotSpec) {
        let part = |name: &str| format!("{role}.{name}");
        let (hitter, shot) = (spec.hitter_end, &spec.shot);
        let at_end = |whose, end| Owner { whose, end, rests_on: part("hitter") };
        self.contact(&part("contact"), shot.contact, at_end(mark("the hitter's"), hitter));
        self.place(&part("target"), shot.target, at_end(mark("the target's"), hitter.other()));
        self.scaled(&part("speed_kmh"), shot.speed, KMH, (11.0, 270.0), "km/h");
        self.scaled(&part("topspin_rpm"), shot.topspin, RPM, (-6600.0, 6600.0), "rpm");
        self.scaled(&part("sidespin_rpm"), shot.sidespin, RPM, (-6600.0, 6600.0), "rpm");
        if let ReceiptChoice::Near(place) = spec.receipt {
            self.place(&part("receipt"), place, at_end(mark("the opponent's"), hitter.other()));
        }
        if let Some(place) = spec.hitter_place {
            self.place(&part("hitter_place"), place, at_end(mark("the hitter's"), hitter));
        }
        self.place(&part("opponent_place"), spec.opponent_place, at_end(mark("the opponent's"), hitter.other()));
        if let Some(place) = spec.recover_to {
            self.place(&part("recover_to"), place, at_end(mark("the hitter's"), hitter));
        }
    }

    fn contact(&mut self, role: &str, contact: DVec3, owner: Owner) {
        self.place(role, contact.truncate(), owner);
        self.number(&format!("{role}.height"), contact.z, (LOWEST_CONTACT, HIGHEST_CONTACT), "m");
    }

    fn place(&mut self, role: &str, place: DVec2, owner: Owner) {
        let on_site_x = self.coordinate(&format!("{role}.x"), place.x, self.area.half_width);
        let y_role = format!("{role}.y");
        let on_site_y = self.coordinate(&y_role, place.y, self.area.half_length);
        if on_site_x && on_site_y && place.y * owner.end.sign() > 0.0 {
            let bound = match owner.end {
                End::Near => mark("0 or negative"),
                End::Far => mark("0 or positive"),
            };
            let kind = ProblemKind::WrongEnd { found: place.y, whose: owner.whose, bound };
            self.add_resting(&y_role, kind, owner.rests_on);
        }
    }

    fn coordinate(&mut self, role: &str, found: f64, limit: f64) -> bool {
        if !found.is_finite() {
            self.add(role, ProblemKind::NotFinite { found });
        } else if found.abs() > limit + SLACK {
            self.add_resting(role, ProblemKind::OffSite { found, limit }, "court".to_owned());
        } else {
            return true;
        }
        false
    }
}

/// The player a place belongs to.
struct Owner {
    whose: &'static str,
    end: End,
    rests_on: String,
}
