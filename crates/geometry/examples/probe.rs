use glam::*; use standpoint_geometry::{*, situation::*, player::*, presets::Level, court::*, units::*};
fn sit(cx: f64, tx: f64, ty: f64, lvl: Level) -> Situation {
    let p = lvl.player(Hand::Right, BackhandGrip::TwoHanded);
    Situation { conditions: Conditions { court: Court::new(Stage::Full, NetPosts::SinglesSticks), surface: surface::Surface::default(), ball: ball::Ball::default(), air: air::Air::default(), law: flight::FlightLaw::default() },
      hitter_end: frame::End::Near, hitter: p, opponent: p, hitter_place: dvec2(cx-0.8, -12.9), opponent_place: dvec2(0.0, 12.5),
      shot: Shot { contact: dvec3(cx, -12.4, 0.95), stroke: Stroke::Topspin, target: dvec2(tx, ty), speed: p.forehand.speed, topspin: p.forehand.topspin, sidespin: 0.0 },
      receipt: ReceiptChoice::Best, settings: Settings::default() }
}
fn main() {
    let mut solver = solver::Solver::new();
    for lvl in [Level::Club, Level::Tournament, Level::ProMan] {
      println!("== {lvl:?}");
      for (cx, tx, ty) in [(3.0,-3.0,9.0),(3.0,-2.0,9.0),(3.0,0.0,9.0),(3.0,2.0,9.0),(3.0,3.2,9.0),(0.0,0.0,9.0),(0.0,3.2,8.0),(0.0,-3.2,8.0),(0.0,-3.2,5.0), (3.0,-3.6,4.5)] {
        let s = sit(cx,tx,ty,lvl);
        match solver.solve(&s) {
          Err(e) => println!("{cx} {tx} {ty}: {e}"),
          Ok(a) => { let sh=&a.shot; print!("c{cx:4.1} t({tx:4.1},{ty:3.1}) e{:4.1} clr{:4.2} in{:3.0}% ", sh.elevation/DEG, sh.net.clearance, sh.chance_in*100.0);
            match &a.outcome { answer::Outcome::Play(p) => {
              let r=&p.receipt; print!("rc({:4.1},{:4.1},{:3.1}) t{:4.2} {:?} spare{:4.2} pr{:3.2} | wedge {:4.1}..{:4.1} n{} | S*({:5.2},{:6.2}) e{:.3} mid{:.3} bis{:5.2} |", r.contact.x,r.contact.y,r.contact.z,r.time,r.wing,r.time_to_spare,r.pressure, p.wedge.left/DEG, p.wedge.right/DEG, p.replies_weighed, p.spot.place.x,p.spot.place.y,p.spot.exposure,p.middle.exposure,p.bisector.place.x);
              for b in &p.best { print!(" {:?}/{:?} ({:.1},{:.1}) in{:.2} sp{:.2} e{:.3} v{:.0}", b.name,b.stroke,b.landing.x,b.landing.y,b.chance_in,b.time_to_spare,b.exposure,b.speed*3.6); }
              println!(" rec d{:.1} av{:.2} need{:.2} short{:.1}", p.recovery.distance,p.recovery.available,p.recovery.needed,p.recovery.short_by);
            } o => println!("{o:?}") } } }
      }
    }
    let s = sit(3.0,-3.0,9.0,Level::Tournament);
    let mut ts = vec![]; for i in 0..200 { let mut q=s; q.shot.target.x = -3.0 + 0.01*i as f64; let t=std::time::Instant::now(); let _=std::hint::black_box(solver.solve(&q)); ts.push(t.elapsed().as_secs_f64()*1e3);} ts.sort_by(f64::total_cmp); println!("median {:.3} ms  p90 {:.3}", ts[100], ts[180]);
}
