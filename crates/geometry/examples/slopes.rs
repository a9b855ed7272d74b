use glam::*; use standpoint_geometry::{*, situation::*, player::*, presets::Level, court::*};
fn sit(tx: f64, ty: f64, lvl: Level, ox: f64) -> Situation {
    let p = lvl.player(Hand::Right, BackhandGrip::TwoHanded);
    Situation { conditions: Conditions { court: Court::new(Stage::Full, NetPosts::SinglesSticks), surface: surface::Surface::default(), ball: ball::Ball::default(), air: air::Air::default(), law: flight::FlightLaw::default() },
      hitter_end: frame::End::Near, hitter: p, opponent: p, hitter_place: dvec2(-0.8, -12.9), opponent_place: dvec2(ox, 12.5),
      shot: Shot { contact: dvec3(0.0, -12.4, 0.95), stroke: Stroke::Topspin, target: dvec2(tx, ty), speed: p.forehand.speed, topspin: p.forehand.topspin, sidespin: 0.0 },
      receipt: ReceiptChoice::Best, settings: Settings::default() }
}
fn main() {
    let mut solver = solver::Solver::new();
    for lvl in [Level::GreenJunior, Level::Club, Level::Tournament, Level::ProWoman, Level::ProMan] {
      for follow in [0.9, 0.5] {
      let mut pts = vec![]; let mut net: Vec<Vec<(f64,f64)>> = vec![vec![];3];
      for i in -8..=8 { let tx = i as f64 * 0.4; 
        for ready in [ReadyArea::Back] {
        let mut s = sit(tx, 8.5, lvl, tx*1.3*follow); s.settings.ready = ready;
        if let Ok(a) = solver.solve(&s) && let Some(p) = a.play() { pts.push((p.receipt.contact.x, p.spot.place.x, p.spot.place.y, p.spot.exposure, p.best.iter().map(|b| format!("{:?}", b.name)).collect::<Vec<_>>().join("/"), p.receipt.pressure));
          for (k, d) in [2.0,3.0,4.0].iter().enumerate() {
          let places: Vec<DVec2> = (-60..=60).map(|i| dvec2(i as f64*0.05, -d)).collect();
          let e = solver.exposures(&s, &places).unwrap();
          let m = e.iter().min_by(|a,b| a.exposure.total_cmp(&b.exposure)).unwrap();
          net[k].push((p.receipt.contact.x, m.place.x)); }
        } } }
      let slope = |v: &[(f64,f64)]| { let n=v.len() as f64; let (mx,my)=(v.iter().map(|p|p.0).sum::<f64>()/n, v.iter().map(|p|p.1).sum::<f64>()/n); v.iter().map(|p|(p.0-mx)*(p.1-my)).sum::<f64>()/v.iter().map(|p|(p.0-mx).powi(2)).sum::<f64>() };
      println!("{lvl:?} follow {follow} slope {:.3}  net2 {:.3} net3 {:.3} net4 {:.3}", -slope(&pts.iter().map(|p|(p.0,p.1)).collect::<Vec<_>>()), slope(&net[0]), slope(&net[1]), slope(&net[2]));
      if follow == 0.9 { for p in pts.iter().step_by(2) { println!("   rc {:5.2} pr {:.2} -> S ({:5.2},{:6.2}) e {:.3} {}", p.0,p.5,p.1,p.2,p.3,p.4); } }
      }
    }
}
