//! Scratch: answers in a line each.
use glam::{dvec2, dvec3};
use standpoint_geometry::{answer::Outcome, air::Air, ball::{Ball, BallType}, court::{Court, NetPosts, Stage}, flight::FlightLaw, frame::End, player::{BackhandGrip, Hand}, presets::Level, situation::*, solver::Solver, surface::Surface, units::*};
fn main() {
    let level = match std::env::args().nth(1).as_deref() { Some("club") => Level::Club, Some("women") => Level::ProWoman, Some("tour") => Level::Tournament, _ => Level::ProMan };
    let p = level.player(Hand::Right, BackhandGrip::TwoHanded);
    let conditions = Conditions { court: Court::new(Stage::Full, NetPosts::SinglesSticks), surface: Surface::from_pace(37.0), ball: Ball::new(BallType::Type2), air: Air { temperature_c: 20.0, altitude_m: 0.0 }, law: FlightLaw::SpinDependent };
    let mut solver = Solver::new();
    {
        let (game, _) = standpoint_geometry::worth::stand_in(&standpoint_geometry::worth::matchup(level));
        for spare in [0.9, 0.4, 0.0] {
        for h in [0.5, 1.0, 1.5] {
            print!("spare {spare} h {h}: ");
            for d in [-6.0, -4.0, -3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0, 4.0f32] { print!("{:.3} ", game.worth_at(0, [0.0, 11.885 + d, h], false, standpoint_geometry::player::Wing::Forehand, spare).0); }
            println!();
        }}
        for h in [0.5, 1.0, 1.5, 2.2] { print!("air h {h}: "); for d in [2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0f32] { print!("{:.3} ", game.worth_at(0, [0.0, d, h], true, standpoint_geometry::player::Wing::Forehand, 0.4).0); } println!(); }
        print!("x at 12.9: "); for x in [0.0, 1.0, 2.0, 3.0, 4.0, 5.0f32] { print!("{:.3}/{:.3} ", game.worth_at(0, [x, 12.9, 1.0], false, standpoint_geometry::player::Wing::Forehand, 0.9).0, game.worth_at(0, [-x, 12.9, 1.0], false, standpoint_geometry::player::Wing::Backhand, 0.9).0); } println!();
    }
    let k = p.forehand.speed;
    let ask = |name: &str, contact: (f64, f64, f64), target: (f64, f64), opp: (f64, f64), stroke: Stroke, speed: f64, solver: &mut Solver| {
        let s = Situation { conditions, hitter_end: End::Near, hitter: p, opponent: p, hitter_place: dvec2(contact.0 - 0.75, contact.1 - 0.4), opponent_place: dvec2(opp.0, opp.1), hitter_pressure: 0.0,
            shot: Shot { contact: dvec3(contact.0, contact.1, contact.2), stroke, target: dvec2(target.0, target.1), speed, topspin: match stroke { Stroke::Topspin => p.forehand.topspin, Stroke::Slice | Stroke::Volley => -1000.0 * RPM, _ => 0.0 }, sidespin: 0.0 }, receipt: ReceiptChoice::Best, settings: Settings::default() };
        let t = std::time::Instant::now();
        match solver.solve(&s) {
            Err(e) => println!("{name}: {e}"),
            Ok(a) => match &a.outcome {
                Outcome::Play(play) => {
                    let ms = t.elapsed().as_secs_f64() * 1e3;
                    let win = solver.win(&s).unwrap();
                    let r = &play.receipt;
                    println!("{name}: spot ({:.2},{:.2}) range {:.1}..{:.1} W {:.3} reached ({:.2},{:.2}) {:.3} net {} | win {win:.3} in {:.2} | met {:.2},{:.2} h {:.2} t {:.2} {:?} spare {:.2} reach {:.2} p {:.2} | {} {} replies {ms:.2} ms", play.spot.place.x, -play.spot.place.y - 11.885, play.depth_range.0, play.depth_range.1, play.spot.exposure, play.recovery.reached.place.x, -play.recovery.reached.place.y - 11.885, play.recovery.reached.exposure, play.at_net, a.shot.chance_in, r.contact.x, r.contact.y - 11.885, r.contact.z, r.time, r.wing, r.time_to_spare, r.reach, r.pressure, play.best.iter().map(|b| format!("{:?} {:?} {:.0} km/h share {:.2} worth {:.2} outright {:.2} in {:.2} at ({:.1},{:.1});", b.name, b.stroke, b.speed * 3.6, b.share, b.exposure, b.wins_outright, b.chance_in, b.landing.x, b.landing.y)).collect::<String>(), play.replies_weighed);
                }
                Outcome::Winner { late_by, .. } => println!("{name}: winner by {late_by:.2} win {:.3}", solver.win(&s).unwrap()),
                Outcome::NoReply(_) => println!("{name}: no reply"),
            },
        }
    };
    let o = (-0.6, 13.2);
    use Stroke::*;
    for (n, t) in [("cross deep", (-3.0, 10.0)), ("cross mid", (-3.0, 8.3)), ("line deep", (3.0, 10.0)), ("line mid", (3.0, 8.3)), ("middle deep", (0.0, 10.0)), ("middle short", (0.0, 6.0)), ("short angle", (-3.3, 5.5))] {
        ask(&format!("FH corner {n}"), (3.2, -12.8, 1.0), t, o, Topspin, k * if n == "short angle" { 0.75 } else { 1.0 }, &mut solver);
    }
    for w in [0.0, 2.0, 4.0, 5.0] { ask(&format!("line, opponent {w} wide"), (3.2, -12.8, 1.0), (3.0, 9.5), (-w, 13.0), Topspin, k, &mut solver); ask(&format!("cross, opponent {w} wide"), (3.2, -12.8, 1.0), (-3.0, 9.5), (-w, 13.0), Topspin, k, &mut solver); }
    ask("middle neutral", (0.0, -12.8, 1.0), (0.0, 9.5), (0.0, 13.2), Topspin, k, &mut solver);
    ask("slow 6", (0.0, -12.8, 1.0), (0.5, 6.0), (0.0, 13.2), Topspin, k * 0.7, &mut solver);
    ask("slow 8.3", (0.0, -12.8, 1.0), (0.5, 8.3), (0.0, 13.2), Topspin, k * 0.7, &mut solver);
    ask("approach line", (3.0, -9.0, 1.0), (3.2, 10.0), (0.5, 13.2), Slice, k * 0.75, &mut solver);
    ask("approach cross", (3.0, -9.0, 1.0), (-3.2, 10.0), (0.5, 13.2), Slice, k * 0.75, &mut solver);
    ask("volley", (1.0, -3.0, 1.3), (-3.0, 9.0), (1.0, 13.2), Volley, k * 0.6, &mut solver);
    ask("serve wide", (0.8, -11.5, p.serve.height), (-3.5, 5.5), (-3.2, 13.5), Serve, p.serve.first_speed, &mut solver);
    ask("serve T", (0.8, -11.5, p.serve.height), (-0.5, 5.8), (-3.2, 13.5), Serve, p.serve.first_speed, &mut solver);
    let mut times: Vec<f64> = Vec::new();
    for i in 0..200 { 
        let s = Situation { conditions, hitter_end: End::Near, hitter: p, opponent: p, hitter_place: dvec2(2.4, -13.2), opponent_place: dvec2(-0.6, 13.2), hitter_pressure: 0.0, shot: Shot { contact: dvec3(3.2, -12.8, 1.0), stroke: Topspin, target: dvec2(-3.0 + 0.03 * f64::from(i), 9.5), speed: k, topspin: p.forehand.topspin, sidespin: 0.0 }, receipt: ReceiptChoice::Best, settings: Settings::default() };
        let t = std::time::Instant::now(); let _ = std::hint::black_box(solver.solve(&s)); times.push(t.elapsed().as_secs_f64() * 1e3);
    }
    times.sort_by(f64::total_cmp);
    println!("solve: median {:.2} ms, least {:.2}", times[100], times[0]);
}
