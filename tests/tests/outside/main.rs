//! The computation against outside sources: published values, worked examples, reference integrations.
//!
//! Every number that was not computed here has its source in a comment beside it.

mod air;
mod bounce;
mod court;
mod flights;
mod oracle;
mod pace;
mod positions;
mod rally;
mod situations;
mod strokes;
mod symmetry;
mod worked_examples;

/// Fails unless two numbers agree within an absolute tolerance.
#[track_caller]
fn near(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} instead of {expected} within {tolerance}");
}
