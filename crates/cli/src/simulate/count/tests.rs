use standpoint_geometry::{Stroke, Wing};

use super::*;

fn stroke(contact: [f32; 3], landing: [f32; 2]) -> PlayedStroke {
    PlayedStroke {
        point: 0,
        number: 3,
        striker: 0,
        server: 0,
        ad: false,
        serve: 0,
        stroke: Stroke::Topspin,
        wing: Wing::Forehand,
        contact,
        air: false,
        available: 1.2,
        spare: 0.5,
        other: [0.0, 13.0],
        speed: 28.0,
        topspin: 200.0,
        aim: landing,
        landing,
        clearance: 0.8,
        ending: Ending::Returned,
        worth: 0.5,
        won: false,
    }
}

#[test]
fn a_way_is_told_eight_metres_behind_the_net() {
    let way = |x: f32, lands: f32, depth: f32| Way::of(&stroke([x, 12.0, 1.0], [lands, depth]));
    assert_eq!(way(3.0, -3.0, 8.0), Way::Cross);
    assert_eq!(way(3.0, 3.0, 8.0), Way::Line);
    assert_eq!(way(-3.0, 1.3, 8.0), Way::Middle);
    assert_eq!(way(-3.0, 1.4, 8.0), Way::Cross);
    assert_eq!(way(0.9, 3.0, 8.0), Way::CentreToSide);
    assert_eq!(way(0.9, 0.0, 8.0), Way::CentreToMiddle);
    // From 3 m right and 12 m back to 0 at 4 m: at 8 m the line is 0.75 m left.
    assert_eq!(way(3.0, 0.0, 4.0), Way::Middle);
    assert_eq!(way(3.0, -1.0, 4.0), Way::Cross, "the line goes on to 2.0 m left");
}

#[test]
fn a_point_of_two_faults_and_one_of_four_strokes_are_counted() {
    let serve = |point, which, ending| PlayedStroke {
        point,
        number: 1,
        serve: which,
        ending,
        stroke: Stroke::Serve,
        ..stroke([0.8, 11.5, 2.7], [-2.0, 5.5])
    };
    let rally = |number: u32, striker, ending, won| PlayedStroke {
        point: 1,
        number,
        striker,
        ending,
        won,
        ..stroke([2.0, 12.0, 1.0], [-2.0, 9.0])
    };
    let strokes = [
        serve(0, 1, Ending::Net),
        serve(0, 2, Ending::Long),
        PlayedStroke { won: true, ..serve(1, 1, Ending::Returned) },
        rally(2, 1, Ending::Returned, false),
        rally(3, 0, Ending::Returned, true),
        rally(4, 1, Ending::Wide, false),
    ];
    let figures = Figures::new(&strokes, &Court::default());
    let serving = &figures.serving[0];
    assert_eq!(serving.points, 2);
    assert_eq!(serving.won, Some(Num(0.5)));
    assert_eq!(serving.first_in, Some(Num(0.5)));
    assert_eq!(serving.won_on_first, Some(Num(1.0)));
    assert_eq!(serving.won_on_second, Some(Num(0.0)));
    assert_eq!(serving.double_faults_of_second, Some(Num(1.0)));
    assert_eq!(serving.first_in_unreturned, Some(Num(0.0)));
    assert_eq!(serving.second_in_unreturned, None);
    assert_eq!(figures.serving[1].points, 0);
    assert_eq!(figures.lengths.to_4, Num(1.0));
    assert_eq!(figures.lengths.mean, Num(2.0), "one stroke and three");
    assert_eq!((figures.endings.double_fault, figures.endings.wide), (Num(0.5), Num(0.5)));
    assert_eq!(figures.rally.goes_in, Some(Num(0.5)));
    assert_eq!(figures.directions[0].share, Some(Num(1.0)));
    assert_eq!(figures.net.share_of_points, Some(Num(0.0)));
    assert_eq!(figures.net.won, None);
}

#[test]
fn quantiles_lie_where_they_should() {
    let spread = spread((0..=100).map(|i| i as f32).collect()).unwrap();
    assert_eq!((spread.p10, spread.p50, spread.p90), (Num(10.0), Num(50.0), Num(90.0)));
    assert!(super::spread(Vec::new()).is_none());
}
