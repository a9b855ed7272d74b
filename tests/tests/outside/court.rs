//! Court, net and balls. Source unless named otherwise: ITF Rules of Tennis, Rule 1 and Appendices VII and IX; ITF
//! Technical Booklet 2015, Table 5.

use glam::dvec2;
use standpoint_geometry::{
    Ball, BallType, Court, End, LineName, NetPosts, RUN_OFF_INTERNATIONAL, RUN_OFF_RECREATIONAL, Side, Stage,
    units::feet_inches,
};

use crate::near;

fn full(posts: NetPosts) -> Court {
    Court::new(Stage::Full, posts)
}

#[test]
fn the_full_court_has_the_dimensions_of_the_rules() {
    let court = full(NetPosts::SinglesSticks);
    near(court.length, 23.77, 1e-9);
    near(court.singles_width, 8.23, 1e-9);
    near(court.doubles_width.expect("doubles"), 10.97, 1e-9);
    near(court.service_line.expect("service line"), 6.40, 1e-9);
    // 78, 27, 36 and 21 ft.
    assert_eq!(feet_inches(court.length), (false, 78, 0));
    assert_eq!(feet_inches(court.singles_width), (false, 27, 0));
    assert_eq!(feet_inches(court.doubles_width.expect("doubles")), (false, 36, 0));
    assert_eq!(feet_inches(court.service_line.expect("service line")), (false, 21, 0));
    // Alley 1.37 m, net to baseline 11.89 m.
    near((court.doubles_width.expect("doubles") - court.singles_width) / 2.0, 1.37, 1e-9);
    near(court.half_length(), 11.89, 0.0051);
}

#[test]
fn the_net_has_the_heights_of_the_rules() {
    let court = full(NetPosts::SinglesSticks);
    // 0.914 m (3 ft) at the strap; 1.07 m (3 ft 6 in) at sticks and posts.
    near(court.net_height(0.0), 0.914, 5e-4);
    for posts in [NetPosts::SinglesSticks, NetPosts::DoublesPosts] {
        let court = full(posts);
        near(court.net_height(court.post_x()), 1.07, 3.5e-3);
        assert_eq!(feet_inches(court.net_height(court.post_x())), (false, 3, 6));
        near(court.net_height(court.post_x() + 3.0), court.net_height(court.post_x()), 1e-12);
        near(court.net_height(-2.0), court.net_height(2.0), 1e-12);
    }
    // Sticks 5.03 m and posts 6.40 m from the centre.
    near(full(NetPosts::SinglesSticks).post_x(), 5.03, 5e-3);
    near(full(NetPosts::DoublesPosts).post_x(), 6.40, 5e-3);
}

#[test]
fn the_tape_at_the_sideline_follows_from_the_straight_line() {
    // Computed from the rules in feet: 1.039 m with sticks, 1.012 m with the doubles net.
    for (posts, height) in [(NetPosts::SinglesSticks, 1.039), (NetPosts::DoublesPosts, 1.012)] {
        let court = full(posts);
        near(court.net_height(court.half_width()), height, 6e-4);
    }
    // 0.125 m higher there than at the strap, with sticks.
    let court = full(NetPosts::SinglesSticks);
    near(court.net_height(court.half_width()) - court.net_height(0.0), 0.125, 6e-4);
}

#[test]
fn diagonals_and_angles_of_the_court_are_those_known() {
    let court = full(NetPosts::SinglesSticks);
    let corner = dvec2(court.half_width(), court.half_length());
    // Setting out a court: half-court diagonals 14.46 m (singles) and 16.18 m (doubles, 53 ft 1 in).
    near(dvec2(court.singles_width, court.half_length()).length(), 14.46, 6e-3);
    near(dvec2(court.outer_half_width() * 2.0, court.half_length()).length(), 16.18, 7e-3);
    // Computed: corner to corner 25.16 m, 5.8 % more than down the line, crossing at the strap, 19.09 degrees off.
    near(corner.length() * 2.0, 25.16, 6e-3);
    near(corner.length() * 2.0 / court.length, 1.058, 6e-4);
    near(court.singles_width.atan2(court.length).to_degrees(), 19.09, 0.01);
    // Computed: from the centre mark the far baseline spans 19.64 degrees.
    near(2.0 * court.half_width().atan2(court.length).to_degrees(), 19.64, 0.01);
}

#[test]
fn run_offs_are_those_recommended() {
    // International 6.40 and 3.66 m, recreational 5.48 and 3.05 m.
    let court = full(NetPosts::SinglesSticks).with_run_off(RUN_OFF_INTERNATIONAL);
    near(court.site_half_length(), 11.885 + 6.40, 1e-9);
    near(court.site_half_width(), 5.485 + 3.66, 1e-9);
    let court = court.with_run_off(RUN_OFF_RECREATIONAL);
    near(court.site_half_length(), 11.885 + 5.48, 1e-9);
    near(court.site_half_width(), 5.485 + 3.05, 1e-9);
}

#[test]
fn junior_courts_lie_inside_the_ranges_allowed() {
    let within = |value: f64, low: f64, high: f64| assert!((low..=high).contains(&value), "{value}");
    // Orange: 17.68-18.29 x 6.10-8.23 m, net centre 0.800-0.914 m.
    let orange = Court::new(Stage::Orange, NetPosts::SinglesSticks);
    within(orange.length, 17.68, 18.29);
    within(orange.singles_width, 6.10, 8.23);
    within(orange.net_height(0.0), 0.800, 0.914);
    // Red: 10.97-12.80 x 4.27-6.10 m, net centre 0.800-0.838 m.
    let red = Court::new(Stage::Red, NetPosts::SinglesSticks);
    within(red.length, 10.97, 12.80);
    within(red.singles_width, 4.27, 6.10);
    within(red.net_height(0.0), 0.800, 0.838);
    assert_eq!(red.service_box(End::Near, true), None);
    // Green: the full court.
    let green = Court::new(Stage::Green, NetPosts::SinglesSticks);
    assert_eq!(Court { stage: Stage::Full, ..green }, full(NetPosts::SinglesSticks));
}

#[test]
fn painted_lines_end_on_the_dimensions_of_the_court() {
    for stage in Stage::ALL {
        let court = Court::new(stage, NetPosts::DoublesPosts);
        let lines = court.lines();
        let (mut x, mut y) = (0.0_f64, 0.0_f64);
        for line in &lines {
            let along = (line.to - line.from).normalize();
            let aside = along.perp() * line.width / 2.0;
            for corner in [line.from + aside, line.from - aside, line.to + aside, line.to - aside] {
                x = x.max(corner.x.abs());
                y = y.max(corner.y.abs());
            }
            // Centre line and marks 5 cm; other lines 2.5 to 5 cm; baseline up to 10 cm.
            match line.name {
                LineName::CenterServiceLine | LineName::CenterMark(_) => near(line.width, 0.05, 1e-12),
                LineName::Baseline(_) => assert!((0.025..=0.10).contains(&line.width)),
                _ => assert!((0.025..=0.05).contains(&line.width)),
            }
        }
        near(x, court.outer_half_width(), 1e-9);
        near(y, court.half_length(), 1e-9);
        let singles =
            lines.iter().find(|line| line.name == LineName::SinglesSideline(Side::Right)).expect("a sideline");
        near(singles.from.x + singles.width / 2.0, court.half_width(), 1e-9);
    }
    let names = |court: Court| court.lines().len();
    // Two baselines, marks and service lines, one centre line, four sidelines.
    assert_eq!(names(full(NetPosts::SinglesSticks)), 11);
    assert_eq!(names(Court::new(Stage::Red, NetPosts::SinglesSticks)), 6);
}

#[test]
fn service_boxes_are_named_as_the_player_who_faces_the_net_sees_them() {
    let court = full(NetPosts::SinglesSticks);
    let holds = |end, right, x, y| court.service_box(end, right).expect("a box").contains(dvec2(x, y));
    assert!(holds(End::Near, true, 2.0, -3.0) && !holds(End::Near, false, 2.0, -3.0));
    assert!(holds(End::Far, true, -2.0, 3.0) && !holds(End::Far, false, -2.0, 3.0));
    // A ball on the line is in, the centre line belongs to both boxes; just outside is out.
    assert!(holds(End::Far, true, -4.115, 6.40) && !holds(End::Far, true, -4.12, 6.0));
    assert!(holds(End::Near, true, 0.02, -1.0) && holds(End::Near, false, 0.02, -1.0));
    assert!(!holds(End::Near, true, 1.0, -6.41) && !holds(End::Near, true, 1.0, 0.1));
}

#[test]
fn the_lines_belong_to_the_singles_court() {
    let court = full(NetPosts::SinglesSticks);
    assert!(court.contains_singles(dvec2(4.115, -11.885)));
    assert!(!court.contains_singles(dvec2(4.12, 0.0)) && !court.contains_singles(dvec2(0.0, 11.89)));
}

#[test]
fn balls_lie_inside_the_ranges_of_their_approval() {
    // ITF ball approval: mass g, diameter cm, rebound cm from 254 cm. Type 1 rebound and the sizes and masses of the
    // stage balls are from memory.
    let table = [
        (BallType::Type1, 56.0..=59.4, 6.54..=6.86, 138.0..=151.0),
        (BallType::Type2, 56.0..=59.4, 6.54..=6.86, 135.0..=147.0),
        (BallType::Type3, 56.0..=59.4, 7.00..=7.30, 135.0..=147.0),
        (BallType::HighAltitude, 56.0..=59.4, 6.54..=6.86, 122.0..=135.0),
        (BallType::Stage1, 47.0..=51.5, 6.30..=6.86, 120.0..=135.0),
        (BallType::Stage2, 36.0..=46.9, 6.00..=6.86, 105.0..=120.0),
        (BallType::Stage3, 36.0..=49.0, 7.00..=8.00, 85.0..=105.0),
    ];
    assert_eq!(table.len(), BallType::ALL.len());
    for (kind, mass, diameter, rebound) in table {
        let ball = Ball::new(kind);
        assert!(mass.contains(&(ball.mass * 1e3)), "{kind:?} mass");
        assert!(diameter.contains(&(ball.radius * 200.0)), "{kind:?} diameter");
        assert!(rebound.contains(&(ball.rebound * 1e2)), "{kind:?} rebound");
    }
}

#[test]
fn the_drop_gives_the_known_restitution() {
    // Computed: sqrt(135/254) = 0.729, sqrt(147/254) = 0.761.
    for (rebound, e) in [(1.35, 0.729), (1.47, 0.761)] {
        near(Ball { rebound, ..Ball::new(BallType::Type2) }.drop_restitution(), e, 5e-4);
    }
}
