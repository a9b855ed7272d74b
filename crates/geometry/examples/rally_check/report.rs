//! The figures of simulated points beside the published ones.

use std::collections::HashMap;

use standpoint_geometry::{
    Wing,
    worth::{Ending, PlayedStroke},
};

use crate::tables::{Row, compare, slope, table};

pub fn report(group: &str, rows: &[PlayedStroke]) {
    let half = 11.885_f32;
    let mut all = Vec::new();
    for (i, s) in rows.iter().enumerate() {
        let same = |j: usize| rows.get(j).filter(|r| r.point == s.point);
        let last = i.checked_sub(1).and_then(same);
        let own = i.checked_sub(2).and_then(same);
        let own_way = own
            .filter(|o| o.striker == s.striker)
            .map_or(-1.0, |o| ((o.contact[0] - s.contact[0]).powi(2) + (o.contact[1] - s.contact[1]).powi(2)).sqrt());
        all.push(Row { s, own_way, next: same(i + 1), last });
    }
    let ground: Vec<&Row<'_>> = all.iter().filter(|r| r.s.number >= 3 && r.s.serve == 0 && !r.s.air).collect();
    let volley: Vec<&Row<'_>> = all.iter().filter(|r| r.s.number >= 3 && r.s.serve == 0 && r.s.air).collect();
    let good = |r: &Row<'_>| matches!(r.s.ending, Ending::Returned | Ending::Untouched);
    let share = |rows: &[&Row<'_>], f: &dyn Fn(&Row<'_>) -> bool| {
        rows.iter().filter(|r| f(r)).count() as f64 / rows.len().max(1) as f64
    };

    // Points.
    let points: std::collections::BTreeSet<u32> = rows.iter().map(|r| r.point).collect();
    let n = points.len() as f64;
    let firsts: Vec<&Row<'_>> = all.iter().filter(|r| r.s.serve == 1).collect();
    let seconds: Vec<&Row<'_>> = all.iter().filter(|r| r.s.serve == 2).collect();
    let first_in: Vec<&Row<'_>> = firsts.iter().copied().filter(|r| good(r)).collect();
    let won = |rows: &[&Row<'_>]| share(rows, &|r| r.s.won);
    let unreturned = |rows: &[&Row<'_>]| {
        share(rows, &|r| r.next.is_none_or(|n| !matches!(n.ending, Ending::Returned | Ending::Untouched)))
    };
    let published = table("points.csv");
    let p =
        |c: &str| published.iter().find(|r| r["group"] == group).map_or(f64::NAN, |r| r[c].parse().unwrap_or(f64::NAN));
    let line = |name: &str, sim: f64, real: f64| {
        println!("  {name:<44} {sim:>7.3}  published {real:>7.3}  {:+.3}", sim - real)
    };
    println!("points");
    let server_won = all
        .iter()
        .filter(|r| r.s.number == 1 && r.s.server == r.s.striker && (r.s.serve == 2 || (good(r))))
        .filter(|r| r.s.won)
        .count() as f64
        / n;
    line("serve points won", server_won, p("serve_points_won"));
    line("first serves in", share(&firsts, &good), p("first_in"));
    line("won on first", won(&first_in), p("win_on_first"));
    line("won on second", won(&seconds), p("win_on_second_incl_df"));
    line("aces per first in", share(&first_in, &|r| r.s.ending == Ending::Untouched), p("ace_rate_first_in"));
    line("first not returned", unreturned(&first_in), p("unreturned_first_in"));
    let second_in: Vec<&Row<'_>> = seconds.iter().copied().filter(|r| good(r)).collect();
    line("second not returned", unreturned(&second_in), p("unreturned_second_in"));
    line("double faults per second", 1.0 - share(&seconds, &good), p("double_fault_per_second"));
    // Lengths: strokes that count, that is without a last one that misses? Published: shots of the rally with the serve.
    let mut lengths: HashMap<u32, u32> = HashMap::new();
    for r in rows {
        let good = matches!(r.ending, Ending::Returned | Ending::Untouched);
        let l = lengths.entry(r.point).or_default();
        *l = (*l).max(if good || r.number == 1 { r.number } else { r.number - 1 });
    }
    let lens = table("rally_length.csv");
    let q = |c: &str| {
        lens.iter()
            .find(|r| r["group"] == group && r["serve"] == "all")
            .map_or(f64::NAN, |r| r[c].parse().unwrap_or(f64::NAN))
    };
    let count = |a: u32, b: u32| lengths.values().filter(|l| **l >= a && **l <= b).count() as f64 / n;
    line("strokes 1-4", count(0, 4), q("s1_4"));
    line("strokes 5-8", count(5, 8), q("s5_8"));
    line("strokes 9+", count(9, 9999), q("s9p"));
    line("1", count(0, 1), q("s1"));
    line("2", count(2, 2), q("s2"));
    line("3", count(3, 3), q("s3"));
    line("4", count(4, 4), q("s4"));

    println!(
        "rally strokes: {} ground, {} volleys ({:.3} of all; published 0.035)",
        ground.len(),
        volley.len(),
        volley.len() as f64 / (ground.len() + volley.len()) as f64
    );
    line("ground: won by the striker", won(&ground), 0.480);
    line("ground: goes in", share(&ground, &good), if group == "men" { 0.863 } else { 0.846 });
    let errors: Vec<&Row<'_>> = ground.iter().copied().filter(|r| !good(r)).collect();
    line("errors into the net", share(&errors, &|r| r.s.ending == Ending::Net), 0.44);
    line("errors long", share(&errors, &|r| r.s.ending == Ending::Long), 0.26);
    line("errors wide", share(&errors, &|r| r.s.ending == Ending::Wide), 0.24);
    line("untouched winners per ground stroke", share(&ground, &|r| r.s.ending == Ending::Untouched), 0.055);

    let depth = |r: &Row<'_>| f64::from(r.s.contact[1] - half);
    let curve = |name: &str, file: &str, column: &str, rows: &[&Row<'_>], x: &dyn Fn(&Row<'_>) -> f64| {
        compare(name, group, file, column, rows, x, &|r| r.s.won, &good);
    };
    curve("ground by contact depth", "ground_by_contact_depth.csv", "depth_bin", &ground, &depth);
    let calm: Vec<&Row<'_>> = ground
        .iter()
        .copied()
        .filter(|r| r.own_way >= 0.0 && r.own_way < 3.0 && r.s.available > 1.2 && r.s.contact[0].abs() < 3.0)
        .collect();
    curve("unhurried by contact depth", "unpressured_ground_by_contact_depth.csv", "depth_bin", &calm, &depth);
    curve("ground by contact height", "ground_by_contact_height.csv", "height_bin", &ground, &|r| {
        f64::from(r.s.contact[2])
    });
    curve("ground by time available", "ground_by_time_available.csv", "time_bin", &ground, &|r| {
        f64::from(r.s.available)
    });
    curve("ground by sideways place", "ground_by_contact_lateral.csv", "lat_bin", &ground, &|r| {
        f64::from(r.s.contact[0].abs())
    });
    let moved: Vec<&Row<'_>> = ground.iter().copied().filter(|r| r.own_way >= 0.0).collect();
    curve("ground by own way", "ground_by_distance_between_own_contacts.csv", "disp_bin", &moved, &|r| {
        f64::from(r.own_way)
    });
    curve("volleys by contact height", "volley_by_contact_height.csv", "height_bin", &volley, &|r| {
        f64::from(r.s.contact[2])
    });
    curve("volleys by contact depth", "volley_by_contact_depth.csv", "depth_bin", &volley, &depth);
    let back = |r: &Row<'_>| r.s.contact[1] > half - 2.0;
    let landed: Vec<&Row<'_>> = ground.iter().copied().filter(|r| good(r) && back(r)).collect();
    let both: Vec<&Row<'_>> =
        landed.iter().copied().filter(|r| r.last.is_none_or(|l| l.contact[1] > half - 2.0)).collect();
    let hitter = |name: &str, file: &str, column: &str, rows: &[&Row<'_>], x: &dyn Fn(&Row<'_>) -> f64| {
        compare(name, group, file, column, rows, x, &|r| r.s.won, &|r| r.s.ending != Ending::Untouched);
    };
    hitter("hitter wins by landing depth", "landed_by_depth.csv", "land_bin", &both, &|r| f64::from(r.s.landing[1]));
    hitter("hitter wins by landing sideways", "landed_by_lateral.csv", "ly_bin", &both, &|r| {
        f64::from(r.s.landing[0].abs())
    });
    hitter("hitter wins by speed", "landed_by_speed.csv", "v_bin", &both, &|r| f64::from(r.s.speed));
    let off = |r: &Row<'_>| r.last.map_or(0.0, |l| f64::from((l.contact[0] + r.s.landing[0]).abs()));
    hitter("hitter wins by distance off", "landed_by_distance_from_opponents_last_contact.csv", "off_bin", &both, &off);
    println!("slow and short");
    for (a, b, low, high, real) in
        [(4.0, 6.0, 0.0, 24.0, 0.423), (6.0, 7.0, 0.0, 24.0, 0.397), (6.0, 7.0, 33.0, 99.0, 0.606)]
    {
        let rows: Vec<&Row<'_>> = both
            .iter()
            .copied()
            .filter(|r| r.s.landing[1] > a && r.s.landing[1] <= b && r.s.speed > low && r.s.speed <= high)
            .collect();
        line(&format!("lands {a}-{b} m at {low}-{high} m/s: {} balls", rows.len()), won(&rows), real);
    }
    println!("next contact depth by landing depth");
    for (a, b, real) in
        [(4.0, 5.0, -0.5), (5.0, 6.0, 0.5), (6.0, 7.0, 1.0), (8.0, 9.0, 1.4), (10.0, 11.0, 1.95), (11.0, 12.0, 2.3)]
    {
        let mut next: Vec<f64> = both
            .iter()
            .filter(|r| r.s.landing[1] > a && r.s.landing[1] <= b)
            .filter_map(|r| r.next)
            .map(|n| f64::from(n.contact[1] - half))
            .collect();
        line(&format!("landing {a}-{b} m: {} balls", next.len()), quantile(&mut next, 0.5), real);
    }

    println!("directions");
    let mut kinds: HashMap<&str, Vec<&Row<'_>>> = HashMap::new();
    for r in &ground {
        kinds.entry(direction(r.s)).or_default().push(r);
    }
    let published = table("direction.csv");
    for d in ["cross", "line", "middle", "from_centre_to_side", "from_centre_to_middle"] {
        let rows = kinds.get(d).map_or(&[][..], Vec::as_slice);
        let get = |c: &str| {
            published
                .iter()
                .find(|r| r["group"] == group && r["dir"] == d)
                .map_or(f64::NAN, |r| r[c].parse().unwrap_or(f64::NAN))
        };
        let total: f64 =
            published.iter().filter(|r| r["group"] == group).filter_map(|r| r["N"].parse::<f64>().ok()).sum();
        println!(
            "  {d:<24} share {:.3} ({:.3})  in {:.3} ({:.3})  won {:.3} ({:.3})",
            rows.len() as f64 / ground.len() as f64,
            get("N") / total,
            share(rows, &good),
            get("p_in"),
            won(rows),
            get("p_win")
        );
    }
    println!("deciles 5/10/50/90/95 (published)");
    let deciles = table("deciles.csv");
    let quant = |name: &str, mut v: Vec<f64>| {
        let real = |c: &str| {
            deciles
                .iter()
                .find(|r| r["group"] == group && r["quantity"] == name)
                .map_or(f64::NAN, |r| r[c].parse().unwrap_or(f64::NAN))
        };
        let mut out = format!("  {name:<36}");
        for (c, q) in
            [("p5", 0.05), ("p10", 0.1), ("p30", 0.3), ("p50", 0.5), ("p70", 0.7), ("p90", 0.9), ("p95", 0.95)]
        {
            out += &format!(" {:.2} ({:.2})", quantile(&mut v, q), real(c));
        }
        println!("{out}");
    };
    let ins: Vec<&Row<'_>> = ground.iter().copied().filter(|r| good(r)).collect();
    quant("landing depth from net", ins.iter().map(|r| f64::from(r.s.landing[1])).collect());
    quant("landing |x| lateral", ins.iter().map(|r| f64::from(r.s.landing[0].abs())).collect());
    quant("net clearance above net", ins.iter().map(|r| f64::from(r.s.clearance)).collect());
    quant("contact depth behind baseline", ins.iter().map(|r| depth(r)).collect());
    quant("contact height", ins.iter().map(|r| f64::from(r.s.contact[2])).collect());
    quant("contact |lateral|", ins.iter().map(|r| f64::from(r.s.contact[0].abs())).collect());
    quant("time available in (est.)", ins.iter().map(|r| f64::from(r.s.available)).collect());
    quant("initial speed m/s (est.)", ins.iter().map(|r| f64::from(r.s.speed)).collect());
    quant("own displacement", ins.iter().filter(|r| r.own_way >= 0.0).map(|r| f64::from(r.own_way)).collect());
    // Standing: where the other player is at a ground stroke struck from the back, the other not at the net.
    let stands: Vec<&Row<'_>> = ground.iter().copied().filter(|r| back(r) && r.s.other[1] > 8.0).collect();
    let mut v: Vec<f64> = stands.iter().map(|r| f64::from(r.s.other[1] - half)).collect();
    println!(
        "  standing 10/50/90 % behind the baseline: {:.2} {:.2} {:.2}  published -0.7/2.1/3.4 and -0.1/1.6/3.4",
        quantile(&mut v, 0.1),
        quantile(&mut v, 0.5),
        quantile(&mut v, 0.9)
    );
    let xs: Vec<(f64, f64)> = stands.iter().map(|r| (f64::from(r.s.contact[0]), f64::from(r.s.other[0]))).collect();
    println!(
        "  slope of standing against the striker's sideways place (cross-court side): {:.3}  published 0.14-0.22",
        slope(&xs)
    );
    // Both frames: the far player's x is the negative of the near one's, so equal signs mean the cross-court side.

    let net = net_points(&all);
    let published = table("net_points.csv");
    let r = published.iter().find(|r| r["group"] == group && r["definition"] == "either").expect("either");
    println!(
        "net: {:.3} of points with a return struck (published {}), won {:.3} ({})",
        net.0, r["share_of_points_with_a_player_at_net"], net.1, r["p_win_at_net"]
    );
    let mut strokes: HashMap<String, usize> = HashMap::new();
    for r in &ground {
        *strokes.entry(format!("{:?}", r.s.stroke)).or_default() += 1;
    }
    println!("strokes: {strokes:?}, forehands {:.3}", share(&ground, &|r| r.s.wing == Wing::Forehand));
    let model: f64 = ground.iter().map(|r| f64::from(r.s.worth)).sum::<f64>() / ground.len() as f64;
    println!("mean worth by the model {model:.3}");
}

fn net_points(all: &[Row<'_>]) -> (f64, f64) {
    let mut by: HashMap<u32, Vec<&PlayedStroke>> = HashMap::new();
    for r in all {
        by.entry(r.s.point).or_default().push(r.s);
    }
    let (mut points, mut at_net, mut players, mut won) = (0, 0, 0, 0);
    for strokes in by.values() {
        if !strokes.iter().any(|s| s.number == 2) {
            continue;
        }
        points += 1;
        let mut any = false;
        for p in 0..2 {
            let near = |s: &&&PlayedStroke| s.striker == p && s.serve == 0 && (s.air || s.contact[1] < 6.4);
            if let Some(s) = strokes.iter().find(near) {
                any = true;
                players += 1;
                won += i32::from(s.won);
            }
        }
        at_net += i32::from(any);
    }
    (f64::from(at_net) / f64::from(points), f64::from(won) / f64::from(players))
}

/// The line from the contact through the crossing at the net, carried on to 8 m behind the net.
fn direction(s: &PlayedStroke) -> &'static str {
    let u = (s.contact[1] + 8.0) / (s.contact[1] + s.landing[1]);
    let x = s.contact[0] + u * (s.landing[0] - s.contact[0]);
    let middle = x.abs() < 1.37;
    if s.contact[0].abs() < 1.0 {
        if middle { "from_centre_to_middle" } else { "from_centre_to_side" }
    } else if middle {
        "middle"
    } else if x * s.contact[0] > 0.0 {
        "line"
    } else {
        "cross"
    }
}

fn quantile(v: &mut [f64], q: f64) -> f64 {
    v.sort_by(f64::total_cmp);
    if v.is_empty() { f64::NAN } else { v[((v.len() - 1) as f64 * q).round() as usize] }
}
