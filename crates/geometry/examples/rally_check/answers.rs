//! What a coach sees of a solved rally.

use std::time::Instant;

use glam::{DVec2, dvec2};
use standpoint_geometry::{
    Cause, Choice, Conditions, End, Player, ReceiptChoice, Settings, Shot, Situation, Solver, Stroke, Wing, sweep,
    usual_delivery, weigh,
    worth::{Game, Games, Matchup},
};

use crate::tables::slope;

/// What a coach sees: the worth of a waist-high ball by time to spare, places to wait, across against down the line.
pub fn answers(game: Game, conditions: &Conditions, p: &Player) {
    print!("worth of a waist-high ball from 1.2 m behind at 0.1/0.3/0.5/0.7/0.9 s:");
    for wing in [Wing::Forehand, Wing::Backhand] {
        for t in [0.1, 0.3, 0.5, 0.7, 0.9] {
            print!(" {:.2}", game.worth_at(0, [0.0, 13.1, 1.0], false, wing, t).0);
        }
        print!(" /");
    }
    println!();
    Games::shared().insert(Matchup { conditions: *conditions, players: [*p, *p] }.canonical(), game);
    let mut solver = Solver::new();
    let ball = |contact: DVec2, target: DVec2| {
        let wing = if contact.x >= 0.0 { Wing::Forehand } else { Wing::Backhand };
        let beside = if contact.x >= 0.0 { 0.8 } else { -0.8 };
        let contact = contact.extend(1.0);
        let (speed, topspin) = usual_delivery(conditions, p, wing, Stroke::Topspin, contact, target);
        Situation {
            conditions: *conditions,
            hitter_end: End::Near,
            hitter: *p,
            opponent: *p,
            hitter_place: dvec2(contact.x - beside, contact.y - 0.2),
            opponent_place: dvec2(-0.2 * contact.x, 13.4),
            hitter_pressure: 0.0,
            hitter_habits: None,
            opponent_habits: None,
            shot: Shot { contact, stroke: Stroke::Topspin, target, speed, topspin, sidespin: 0.0 },
            receipt: ReceiptChoice::Best,
            settings: Settings::default(),
        }
    };
    print!("spots (from, to: across, behind [range]; opponent wins, 2 m left, right, 3 and 5 m inside):");
    for (from, to) in
        [(0.0, 0.0), (0.0, 2.0), (0.0, -2.0), (-2.0, 2.0), (2.0, -2.0), (-3.2, 2.9), (3.2, -2.9), (3.2, 2.9)]
    {
        let s = ball(dvec2(from, -13.0), dvec2(to, 8.3));
        let answer = solver.solve(&s).expect("can be played");
        let Some(play) = answer.play() else { continue };
        let spot = play.spot;
        let at = spot.place;
        let places =
            [at - dvec2(2.0, 0.0), at + dvec2(2.0, 0.0), dvec2(at.x, -8.9), dvec2(at.x, -6.9), dvec2(at.x, -4.5)];
        let others = solver.exposures(&s, &places).expect("can be played");
        print!(
            "\n  spot {from} {to}: {:.2} {:.2} met {:.1} spare {:.2} {:.3}",
            at.x,
            -at.y - 11.885,
            play.receipt.contact.y.abs() - 11.885,
            play.receipt.time_to_spare,
            spot.exposure
        );
        for o in others {
            print!(" {:+.3}", o.exposure - spot.exposure);
        }
    }
    println!();
    if std::env::var_os("DRAGS").is_some() {
        drags(&mut solver, &ball);
    }
    let mut net: [Vec<(f64, f64)>; 2] = Default::default();
    print!("at the net after an approach:");
    for i in -7..=7 {
        let mut s = ball(dvec2(1.6, -6.8), dvec2(f64::from(i) * 0.4, 10.2));
        s.shot.stroke = Stroke::Slice;
        (s.shot.speed, s.shot.topspin) = (23.0, -125.0);
        s.settings.ready = standpoint_geometry::ReadyArea::Net;
        let answer = solver.solve(&s).expect("can be played");
        let Some(play) = answer.play() else { continue };
        let x = play.receipt.contact.x;
        net[0].push((x, play.spot.place.x));
        let line: Vec<DVec2> = (-80..=80).map(|i| dvec2(f64::from(i) * 0.05, -3.0)).collect();
        let least = solver.exposures(&s, &line).expect("can be played");
        let least = least.into_iter().min_by(|a, b| a.exposure.total_cmp(&b.exposure)).expect("places");
        net[1].push((x, least.place.x));
        print!(" {:.1}:{:.2},{:.1}/{:.2}", x, play.spot.place.x, -play.spot.place.y, least.place.x);
    }
    println!("; slopes {:.3} {:.3}", slope(&net[0]), slope(&net[1]));
    for side in [1.0, -1.0] {
        let s = ball(dvec2(3.2 * side, -12.9), dvec2(-2.9 * side, 9.6));
        let wins: Vec<f64> = weigh(
            &mut solver,
            &s,
            &[Choice::CrossCourt, Choice::DownTheLine, Choice::Middle, Choice::ShortAngle, Choice::Drop, Choice::Lob],
        )
        .iter()
        .map(|w| w.win().unwrap_or(f64::NAN))
        .collect();
        print!("corner {side}: ");
        for w in &wins {
            print!(" {w:.3}");
        }
        let mut wide = s;
        wide.opponent_place.x = -side;
        let choices = [Choice::CrossCourt, Choice::DownTheLine];
        let found = sweep(&mut solver, &wide, choices, Cause::OpponentWide, (0.0, 7.5), 15).expect("valid");
        print!("   line less across by 1 m:");
        for p in found.points.iter().step_by(2) {
            print!(" {:+.3}", p.win[1].unwrap_or(f64::NAN) - p.win[0].unwrap_or(f64::NAN));
        }
        println!();
    }
}

/// How far the spot moves while the target is dragged in steps of a tenth of a metre.
fn drags(solver: &mut Solver, ball: &dyn Fn(DVec2, DVec2) -> Situation) {
    let start = Instant::now();
    let mut moves: Vec<(f64, f64, DVec2, DVec2)> = Vec::new();
    let mut answers = 0;
    for contact in [dvec2(0.0, -13.0), dvec2(3.2, -12.6), dvec2(-3.2, -12.6), dvec2(1.0, -9.5)] {
        let across: Vec<DVec2> = (0..=62).map(|i| dvec2(f64::from(i) * 0.1 - 3.1, 9.0)).collect();
        let along: Vec<DVec2> = (0..=48).map(|i| dvec2(2.0, 6.0 + f64::from(i) * 0.1)).collect();
        for line in [across, along] {
            let spots: Vec<Option<(DVec2, bool)>> = line
                .iter()
                .map(|to| {
                    answers += 1;
                    let answer = solver.solve(&ball(contact, *to)).expect("can be played");
                    answer.play().map(|p| (p.spot.place, p.at_net))
                })
                .collect();
            for (pair, to) in spots.windows(2).zip(&line) {
                if let [Some(a), Some(b)] = pair
                    && a.1 == b.1
                {
                    let by = (a.0 - b.0).abs();
                    moves.push((by.x, by.y, contact, *to));
                }
            }
        }
    }
    let time = start.elapsed().as_secs_f64() * 1e3 / f64::from(answers);
    let n = moves.len() as f64;
    let most = |f: fn(&(f64, f64, DVec2, DVec2)) -> f64| moves.iter().copied().max_by(|a, b| f(a).total_cmp(&f(b)));
    println!(
        "drag by 0.1 m: {:.3} over 0.1 m sideways, {:.3} over 0.3 m in depth; most {:?} and {:?}; {time:.2} ms an answer",
        moves.iter().filter(|m| m.0 > 0.1).count() as f64 / n,
        moves.iter().filter(|m| m.1 > 0.3).count() as f64 / n,
        most(|m| m.0),
        most(|m| m.1)
    );
}
