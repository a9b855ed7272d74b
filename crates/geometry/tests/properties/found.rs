//! Drives at which the whole-answer properties once failed: hard cases for any search of the best place.

use standpoint_geometry::{
    BackhandGrip, End, Hand, Level, Movement, Player, Reach, ReceiptChoice, Settings, Shot, Situation, Solver, Stroke,
};

use crate::{
    people::{meeting_most, usual_conditions},
    whole::{SPOT_SLACK, of_its_area},
};

/// What differs between the drives.
struct Found {
    hand: Hand,
    bounces: u8,
    /// Reaction, greatest speed, time constant and the factor backwards.
    movement: [f64; 4],
    /// Forehand, backhand, ahead, overhead.
    reach: [f64; 4],
    /// The opponent's hand.
    other: Hand,
    contact: [f64; 3],
    target: [f64; 2],
    /// Speed and topspin.
    struck: [f64; 2],
    /// Where the opponent stands across the court.
    stands: f64,
}

impl Found {
    fn situation(&self) -> Situation {
        let usual = Level::Club.player(self.hand, BackhandGrip::TwoHanded);
        let [reaction_s, v_max, tau_s, backward_factor] = self.movement;
        let [forehand, backhand, ahead, overhead] = self.reach;
        let hitter = Player {
            bounces: self.bounces,
            movement: Movement { reaction_s, v_max, tau_s, backward_factor, ..usual.movement },
            reach: Reach { forehand, backhand, ahead, overhead },
            ..usual
        };
        let contact = glam::DVec3::from_array(self.contact);
        let [speed, topspin] = self.struck;
        Situation {
            conditions: usual_conditions(),
            hitter_end: End::Near,
            hitter,
            opponent: meeting_most(Level::Club.player(self.other, BackhandGrip::TwoHanded)),
            hitter_place: glam::DVec2::new(contact.x - 0.7, contact.y),
            opponent_place: glam::DVec2::new(self.stands, 12.8),
            hitter_pressure: 0.0,
            hitter_habits: None,
            opponent_habits: None,
            shot: Shot {
                contact,
                stroke: Stroke::Topspin,
                target: glam::DVec2::from_array(self.target),
                speed,
                topspin,
                sidespin: 0.0,
            },
            receipt: ReceiptChoice::Best,
            settings: Settings::default(),
        }
    }
}

/// Valleys that a coarse search took for higher than they are.
#[test]
fn no_place_is_better_than_the_spot_where_valleys_are_narrow() {
    let found = [
        Found {
            hand: Hand::Right,
            bounces: 2,
            movement: [0.1027, 5.5071, 0.1565, 1.1172],
            reach: [3.1028, 3.0996, 1.6655, 3.7116],
            other: Hand::Right,
            contact: [-2.1599, -13.3343, 1.2227],
            target: [-0.2413, 9.1330],
            struck: [25.7875, 176.7909],
            stands: -0.0241,
        },
        Found {
            hand: Hand::Left,
            bounces: 1,
            movement: [0.0009, 7.5734, 0.2265, 1.2537],
            reach: [2.6249, 3.1073, 2.3789, 2.9777],
            other: Hand::Right,
            contact: [0.3042, -12.9869, 0.8584],
            target: [-2.1036, 9.3383],
            struck: [24.7575, 202.1143],
            stands: -1.9338,
        },
        Found {
            hand: Hand::Right,
            bounces: 2,
            movement: [0.2161, 11.9185, 0.1177, 1.1247],
            reach: [1.7940, 0.4542, 2.4013, 3.9963],
            other: Hand::Right,
            contact: [-2.9961, -12.1693, 0.7429],
            target: [-1.1702, 7.6407],
            struck: [26.9212, 213.6418],
            stands: -1.3343,
        },
        Found {
            hand: Hand::Right,
            bounces: 2,
            movement: [0.0461, 8.6899, 0.4780, 1.6581],
            reach: [3.3785, 3.2779, 2.8528, 3.7738],
            other: Hand::Right,
            contact: [2.7900, -11.4211, 1.2001],
            target: [0.4424, 10.0680],
            struck: [27.5200, 239.1064],
            stands: 0.2332,
        },
        Found {
            hand: Hand::Left,
            bounces: 2,
            movement: [0.0053, 9.3512, 0.1637, 1.1945],
            reach: [3.0826, 0.6649, 0.7383, 3.8258],
            other: Hand::Right,
            contact: [-2.5852, -11.7285, 0.8907],
            target: [-2.7914, 7.5012],
            struck: [25.6568, 153.6069],
            stands: -0.9061,
        },
        Found {
            hand: Hand::Right,
            bounces: 1,
            movement: [0.2684, 10.0367, 0.0870, 1.7503],
            reach: [3.4787, 2.0087, 3.3519, 3.9758],
            other: Hand::Left,
            contact: [-0.3903, -12.2481, 0.6771],
            target: [1.3859, 9.2799],
            struck: [23.3341, 157.2301],
            stands: -1.1761,
        },
        Found {
            hand: Hand::Left,
            bounces: 1,
            movement: [0.0522, 11.6003, 0.5516, 2.3637],
            reach: [0.8388, 3.3361, 2.8776, 3.3694],
            other: Hand::Left,
            contact: [-3.0459, -11.0553, 0.6572],
            target: [-1.3941, 9.2860],
            struck: [29.7095, 196.3775],
            stands: -0.3952,
        },
    ];
    let mut solver = Solver::new();
    for (n, s) in found.iter().map(Found::situation).enumerate() {
        let answer = solver.solve(&s).unwrap();
        let play = answer.play().unwrap();
        for at in of_its_area(&mut solver, &s, play) {
            assert!(at.exposure >= play.spot.exposure - SPOT_SLACK, "drive {n}: {at:?} against {:?}", play.spot);
        }
    }
}
