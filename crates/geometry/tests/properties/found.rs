//! Drives that the properties of whole answers once found at fault, each with what was wrong.

use standpoint_geometry::{
    frame::End,
    player::{BackhandGrip, Hand, Movement, Player, Reach},
    presets::Level,
    situation::{ReceiptChoice, Settings, Shot, Situation, Stroke},
    solver::Solver,
};

use crate::{
    people::{meeting_most, usual_conditions},
    whole::{SLACK, SPOT_SLACK, exposures, later, reaching_farther},
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
    /// How much later the player reacts, or farther reaches.
    change: f64,
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

/// The first look took a ball that goes over the highest reach for one that is hardly met just below it, and so a valley by
/// the net for higher than the one at the back.
#[test]
fn a_valley_by_the_net_is_entered_though_lobs_go_over_it() {
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
            change: 0.0,
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
            change: 0.0,
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
            change: 0.0,
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
            change: 0.0,
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
            change: 0.0,
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
            change: 0.0,
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
            change: 0.0,
        },
    ];
    let mut solver = Solver::new();
    for (n, s) in found.iter().map(Found::situation).enumerate() {
        let spot = solver.solve(&s).unwrap().play().unwrap().spot;
        for at in exposures(&mut solver, &s, s.hitter) {
            assert!(at >= spot.exposure - SPOT_SLACK, "drive {n}: {at} is less than {} at the spot", spot.exposure);
        }
    }
}

/// A ball can be met well on its rise and again on its fall. Only the better one of the samples was looked around, so that
/// whoever came later and found the other one better met it better still.
#[test]
fn a_later_player_finds_no_better_meeting() {
    let found = [
        Found {
            hand: Hand::Left,
            bounces: 2,
            movement: [0.5741, 2.1450, 2.4833, 2.5714],
            reach: [2.6414, 3.3180, 2.3233, 1.8888],
            other: Hand::Right,
            contact: [-2.6689, -11.0822, 0.8762],
            target: [0.6481, 8.2988],
            struck: [22.7775, 234.8493],
            stands: -2.1702,
            change: 0.1204,
        },
        Found {
            hand: Hand::Right,
            bounces: 1,
            movement: [0.1674, 5.4630, 0.1275, 2.7175],
            reach: [0.5626, 3.0108, 1.6408, 1.1568],
            other: Hand::Right,
            contact: [0.9973, -12.1050, 1.2409],
            target: [0.0630, 9.8981],
            struck: [29.0735, 268.0676],
            stands: 0.3698,
            change: 0.0285,
        },
    ];
    let mut solver = Solver::new();
    for (n, f) in found.iter().enumerate() {
        let s = f.situation();
        let (a, b) = (exposures(&mut solver, &s, s.hitter), exposures(&mut solver, &s, later(s.hitter, f.change)));
        assert!(!a.is_empty() && a.iter().zip(&b).all(|(a, b)| *b >= *a - SLACK), "drive {n}: {a:?} {b:?}");
    }
}

/// The same with a longer reach; in the last one the better meeting lies beside a sample that is next to the best one.
#[test]
fn a_longer_reach_misses_no_better_meeting() {
    let found = [
        Found {
            hand: Hand::Right,
            bounces: 1,
            movement: [0.2957, 3.9844, 1.9897, 3.7754],
            reach: [3.1047, 2.3389, 2.7356, 1.1529],
            other: Hand::Left,
            contact: [2.2154, -12.7586, 1.0916],
            target: [1.2386, 8.0152],
            struck: [26.6215, 273.2039],
            stands: -2.5886,
            change: 0.2513,
        },
        Found {
            hand: Hand::Left,
            bounces: 2,
            movement: [0.0444, 6.4144, 0.5866, 2.9943],
            reach: [2.4663, 3.1569, 2.0113, 1.3152],
            other: Hand::Right,
            contact: [-0.2152, -12.3445, 0.6832],
            target: [1.6909, 9.7930],
            struck: [23.4721, 227.6497],
            stands: -2.3501,
            change: 0.2198,
        },
        Found {
            hand: Hand::Left,
            bounces: 1,
            movement: [1.2789, 11.7134, 2.2853, 3.3638],
            reach: [2.4400, 2.6791, 1.2083, 1.0068],
            other: Hand::Left,
            contact: [-1.2460, -12.3203, 1.2431],
            target: [2.5535, 8.7219],
            struck: [27.7133, 188.5361],
            stands: -0.3402,
            change: 0.1413,
        },
        Found {
            hand: Hand::Right,
            bounces: 2,
            movement: [0.0589, 5.5163, 0.7640, 1.7469],
            reach: [1.6781, 2.9527, 0.5753, 3.3658],
            other: Hand::Right,
            contact: [1.8952, -11.8342, 0.8384],
            target: [1.0739, 10.0495],
            struck: [24.9350, 193.7810],
            stands: -0.6458,
            change: 0.3567,
        },
        Found {
            hand: Hand::Left,
            bounces: 2,
            movement: [0.5203, 9.2522, 0.6497, 3.5606],
            reach: [2.5252, 2.3501, 0.1996, 3.5332],
            other: Hand::Right,
            contact: [1.1813, -13.3686, 0.9514],
            target: [3.0006, 10.5006],
            struck: [27.8037, 204.2869],
            stands: 2.3864,
            change: 0.2285,
        },
        Found {
            hand: Hand::Left,
            bounces: 2,
            movement: [0.0828, 7.6060, 0.6962, 3.2639],
            reach: [1.8725, 2.3614, 2.2762, 1.3163],
            other: Hand::Left,
            contact: [-2.8230, -13.0408, 0.6616],
            target: [1.6363, 9.1363],
            struck: [25.2477, 279.3954],
            stands: -1.3506,
            change: 0.0064,
        },
        Found {
            hand: Hand::Left,
            bounces: 1,
            movement: [0.967_580_696, 10.381_746_307, 3.990_700_016, 2.083_881_502],
            reach: [0.3, 3.307_543_337, 3.201_815_81, 2.262_529_617],
            other: Hand::Right,
            contact: [0.0, -11.905_810_864, 1.290_100_452],
            target: [-3.164_101_243, 8.808_064_479],
            struck: [22.822_441_278, 220.638_340_868],
            stands: 0.0,
            change: 0.070_673_302_754,
        },
    ];
    let mut solver = Solver::new();
    for (n, f) in found.iter().enumerate() {
        let s = f.situation();
        let longer = reaching_farther(s.hitter, f.change);
        let (a, b) = (exposures(&mut solver, &s, s.hitter), exposures(&mut solver, &s, longer));
        assert!(!a.is_empty() && a.iter().zip(&b).all(|(a, b)| *b <= *a + SLACK), "drive {n}: {a:?} {b:?}");
    }
}
