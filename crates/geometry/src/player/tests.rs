use super::*;

fn runner(v_max: f64, tau_s: f64) -> Movement {
    Movement { reaction_s: 0.2, v_max, tau_s, backward_factor: 1.2, follow_through_s: 0.3 }
}

#[test]
fn sprint_time_inverts_sprint_distance() {
    let m = runner(7.4, 0.86);
    for d in [0.001, 0.1, 1.0, 5.0, 20.0, 100.0] {
        assert!((m.sprint_distance(m.sprint_time(d)) - d).abs() < 1e-9);
    }
}

#[test]
fn stride_stays_within_two_and_a_half_percent_of_the_sprint() {
    for (v, tau) in [(3.5, 0.7), (6.4, 0.84), (8.0, 0.87), (8.6, 0.95)] {
        let m = runner(v, tau);
        let stride = m.stride();
        let mut d = 0.5;
        while d <= 12.0 {
            let ratio = stride.time(d) / m.sprint_time(d);
            assert!((ratio - 1.0).abs() < 0.025, "v {v} tau {tau} d {d}: {ratio}");
            assert!((stride.distance(stride.time(d)) - d).abs() < 1e-9);
            d += 0.25;
        }
    }
}

#[test]
fn splits_of_a_planted_runner_are_found_again() {
    let m = runner(7.7, 0.81);
    let splits: Vec<_> = [5.0, 10.0, 20.0].map(|d| (d, m.sprint_time(d + 0.5) - m.sprint_time(0.5))).to_vec();
    let fit = runner(1.0, 1.0).fitted_to_splits(&splits, 0.5).expect("fits");
    assert!((fit.v_max - 7.7).abs() < 1e-6 && (fit.tau_s - 0.81).abs() < 1e-6);
}

#[test]
fn impossible_splits_are_refused_with_the_reason() {
    let m = runner(7.0, 0.85);
    assert_eq!(m.fitted_to_splits(&[(5.0, 1.0)], 0.0), Err(SprintFitError::TooFew));
    assert_eq!(m.fitted_to_splits(&[(5.0, 2.0), (10.0, 1.9)], 0.0), Err(SprintFitError::NotIncreasing));
    assert_eq!(m.fitted_to_splits(&[(5.0, f64::NAN), (10.0, 1.9)], 0.0), Err(SprintFitError::NotPositive));
    assert_eq!(m.fitted_to_splits(&[(5.0, 0.2), (20.0, 0.6)], 0.0), Err(SprintFitError::OutOfRange));
}
