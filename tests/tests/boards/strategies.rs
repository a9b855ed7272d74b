//! Random valid boards.

use std::sync::Arc;

use glam::DVec2;
use proptest::{
    collection::vec,
    option,
    prelude::*,
    sample::{select, subsequence},
};
use standpoint_board::{
    Board, BounceFigures, CourtChoice, Drill, Figures, KnownHabits, Page, PlayArea, PlayerCard, ShotSpec,
    SurfaceChoice, Units,
    chart::Date,
    marks::{Appears, Form, Ink, Layer, Marks, Pattern, Step},
};
use standpoint_geometry::{
    Air, BackhandGrip, BallType, End, FlightLaw, Hand, Level, Movement, NetPosts, Player, Reach, ReadyArea,
    ReceiptChoice, ReplyHabits, RunOff, ServeSkill, Settings, Shot, Stage, Stroke, SurfaceKind, WingSkill,
    units::{DEG, KMH, RPM},
};

fn end() -> impl Strategy<Value = End> {
    select(vec![End::Near, End::Far])
}

fn line() -> impl Strategy<Value = String> {
    "[^\\p{Cc}]{0,20}"
}

fn notes() -> impl Strategy<Value = String> {
    "([^\\p{Cc}]|[\\n\\t\"\\\\]){0,40}"
}

fn place(area: PlayArea, end: End) -> impl Strategy<Value = DVec2> {
    (-area.half_width..=area.half_width, -area.half_length..=0.0).prop_map(move |(x, y)| end.turn2(DVec2::new(x, y)))
}

fn receipt(area: PlayArea, end: End) -> impl Strategy<Value = ReceiptChoice> {
    prop_oneof![Just(ReceiptChoice::Best), place(area, end).prop_map(ReceiptChoice::Near)]
}

fn shot(area: PlayArea) -> impl Strategy<Value = ShotSpec> {
    end().prop_flat_map(move |end| {
        let shot = (
            (place(area, end), 0.03..4.0),
            select(Stroke::ALL.to_vec()),
            place(area, end.other()),
            11.0..270.0,
            -6600.0..6600.0,
            -6600.0..6600.0,
        );
        let around = (receipt(area, end.other()), option::of(place(area, end)), place(area, end.other()));
        let recover_in = option::of(select(vec![ReadyArea::Anywhere, ReadyArea::Back, ReadyArea::Net]));
        let recover = (option::of(place(area, end)), recover_in);
        (shot, around, recover).prop_map(move |(shot, around, (recover_to, recover_in))| {
            let (receipt, hitter_place, opponent_place) = around;
            let ((contact, height), stroke, target, speed, topspin, sidespin) = shot;
            ShotSpec {
                hitter_end: end,
                shot: Shot {
                    contact: contact.extend(height),
                    stroke,
                    target,
                    speed: speed * KMH,
                    topspin: topspin * RPM,
                    sidespin: sidespin * RPM,
                },
                receipt,
                hitter_place,
                opponent_place,
                follows: false,
                recover_to,
                recover_in,
            }
        })
    })
}

/// A rally in which any shot that may follow the one before it can occur.
fn shots(area: PlayArea) -> impl Strategy<Value = Vec<ShotSpec>> {
    vec((shot(area), any::<bool>()), 1..4).prop_map(|shots| {
        let mut rally: Vec<ShotSpec> = Vec::new();
        for (spec, follows) in shots {
            let can = rally.last().is_some_and(|before| before.hitter_end != spec.hitter_end);
            rally.push(ShotSpec { follows: follows && can, ..spec });
        }
        rally
    })
}

fn pattern() -> impl Strategy<Value = Pattern> {
    select(vec![Pattern::Solid, Pattern::Dashed])
}

fn form(area: PlayArea) -> impl Strategy<Value = Form> {
    let limits = area.mark_limits();
    let at = move || (-limits.x..=limits.x, -limits.y..=limits.y).prop_map(|(x, y)| DVec2::new(x, y));
    let letter = "[A-Zü場]{1,2}";
    prop_oneof![
        (vec(at(), 2..30), pattern()).prop_map(|(points, pattern)| Form::Pen { points, pattern }),
        (at(), at(), -50.0..=50.0, pattern()).prop_map(|(from, to, bend, pattern)| Form::Arrow {
            from,
            to,
            bend,
            pattern
        }),
        (at(), notes(), 0.05..=5.0).prop_map(|(at, text, size)| Form::Text { at, text, size }),
        at().prop_map(|at| Form::Cone { at }),
        at().prop_map(|at| Form::Basket { at }),
        (at(), letter).prop_map(|(at, letter)| Form::Person { at, letter }),
        (at(), at(), any::<bool>()).prop_map(|(from, to, round)| Form::Zone { from, to, round }),
    ]
}

fn marks(area: PlayArea) -> impl Strategy<Value = Marks> {
    let mark = (select(Layer::ALL.to_vec()), select(Ink::ALL.to_vec()), form(area), appears(), 1..1000u32);
    (vec(mark, 0..6), subsequence(Layer::ALL.to_vec(), 0..=3)).prop_map(|(list, hidden)| {
        let mut marks = Marks { list: Vec::new(), hidden };
        for (layer, ink, form, appears, gap) in list {
            let id = marks.add(layer, ink, form);
            if let Some(mark) = marks.get_mut(id) {
                mark.id += gap;
                mark.appears = appears;
            }
        }
        marks
    })
}

fn appears() -> impl Strategy<Value = Appears> {
    (0..4usize, select(Step::ALL.to_vec())).prop_map(|(shot, step)| Appears { shot, step })
}

fn wing() -> impl Strategy<Value = WingSkill> {
    (18.0..216.0, 0.0..5700.0, 0.06..17.0, 0.06..17.0).prop_map(|(speed, topspin, up, side)| WingSkill {
        speed: speed * KMH,
        topspin: topspin * RPM,
        spread_up: up * DEG,
        spread_side: side * DEG,
    })
}

fn custom() -> impl Strategy<Value = Player> {
    let movement = (0.0..1.5, 1.0..12.0, 0.05..4.0, 1.0..4.0, 0.0..2.0);
    let reach = (0.3..3.5, 0.3..3.5, 0.1..3.5, 1.0..4.0);
    let serve = (10.0..280.0, 10.0..280.0, 0.5..4.0, -6600.0..6600.0, 0.06..17.0);
    (1..=2u8, movement, reach, wing(), wing(), serve).prop_map(|(bounces, m, r, forehand, backhand, s)| Player {
        hand: Hand::Right,
        grip: BackhandGrip::TwoHanded,
        bounces,
        movement: Movement { reaction_s: m.0, v_max: m.1, tau_s: m.2, backward_factor: m.3, follow_through_s: m.4 },
        reach: Reach { forehand: r.0, backhand: r.1, ahead: r.2, overhead: r.3 },
        forehand,
        backhand,
        serve: ServeSkill {
            first_speed: s.0 * KMH,
            second_speed: s.1 * KMH,
            height: s.2,
            topspin: s.3 * RPM,
            spread: s.4 * DEG,
        },
    })
}

fn card() -> impl Strategy<Value = PlayerCard> {
    let hand = select(vec![Hand::Right, Hand::Left]);
    let grip = select(vec![BackhandGrip::OneHanded, BackhandGrip::TwoHanded]);
    let figures = prop_oneof![
        select(Level::ALL.to_vec()).prop_map(Figures::Level),
        custom().prop_map(|player| Figures::Custom(Box::new(player))),
    ];
    (line(), hand, grip, figures, option::of(habits())).prop_map(|(name, hand, grip, mut figures, known)| {
        if let Figures::Custom(player) = &mut figures {
            (player.hand, player.grip) = (hand, grip);
        }
        PlayerCard { name, hand, grip, figures, habits: known.map(Box::new) }
    })
}

fn habits() -> impl Strategy<Value = KnownHabits> {
    let counts = vec(proptest::array::uniform3(0..=1_000_000_u32), ReplyHabits::cases().count());
    let last = option::of((1_i64..40_000).prop_map(|day| Date::of_unix_day(day).unwrap()));
    (line(), 0..=100_000_u32, last, any::<bool>(), 0.1..1000.0, counts).prop_map(
        |(of, matches, last, used, strength, all)| {
            let mut counts = ReplyHabits::default();
            ReplyHabits::cases().zip(all).for_each(|(case, seen)| counts.set(case, seen));
            counts.strength = strength;
            KnownHabits { of, matches, last, used, counts }
        },
    )
}

fn court() -> impl Strategy<Value = CourtChoice> {
    let posts = select(vec![NetPosts::SinglesSticks, NetPosts::DoublesPosts]);
    (select(Stage::ALL.to_vec()), posts, 0.0..=20.0, 0.0..=20.0)
        .prop_map(|(stage, posts, behind, beside)| CourtChoice { stage, posts, run_off: RunOff { behind, beside } })
}

fn surface() -> impl Strategy<Value = SurfaceChoice> {
    let figures = (0.05..1.5, 0.2..1.0, 0.0..1.0).prop_map(|(friction, restitution, grip_restitution)| BounceFigures {
        friction,
        restitution,
        grip_restitution,
    });
    (select(SurfaceKind::ALL.to_vec()), option::of(figures))
        .prop_map(|(kind, measured)| SurfaceChoice { kind, measured })
}

fn settings() -> impl Strategy<Value = Settings> {
    let ready = select(vec![ReadyArea::Anywhere, ReadyArea::Back, ReadyArea::Net]);
    (0.3..0.95, 0.001..0.3, ready).prop_map(|(edge_chance, zone_tolerance, ready)| Settings {
        edge_chance,
        zone_tolerance,
        ready,
    })
}

/// A valid board with any number of pages and shots.
pub fn board() -> impl Strategy<Value = Board> {
    court().prop_flat_map(|court| {
        let area = PlayArea::of(&court);
        let drill = (notes(), notes(), notes(), notes()).prop_map(|(feed, targets, progression, equipment)| Drill {
            feed,
            targets,
            progression,
            equipment,
        });
        let drill = prop_oneof![Just(Drill::default()), drill];
        let page = (line(), notes(), vec(line(), 0..3), drill, shots(area), marks(area)).prop_map(
            |(title, notes, cues, drill, shots, marks)| Arc::new(Page { title, notes, cues, drill, shots, marks }),
        );
        let place = (surface(), select(BallType::ALL.to_vec()), -30.0..60.0, -450.0..6000.0);
        let law = select(vec![FlightLaw::Constant, FlightLaw::SpinDependent]);
        let look = (line(), line(), end(), select(Units::ALL.to_vec()), settings());
        (place, law, card(), card(), look, vec(page, 1..4)).prop_map(
            move |((surface, ball, temperature_c, altitude_m), law, near, far, look, pages)| {
                let (title, theme, coached, units, settings) = look;
                let air = Air { temperature_c, altitude_m };
                Board {
                    title,
                    court,
                    surface,
                    ball,
                    air,
                    law,
                    near,
                    far,
                    coached,
                    units,
                    theme,
                    settings,
                    pages,
                    chart: None,
                }
            },
        )
    })
}
