//! Conversions between the internal units (SI) and everyday ones.

/// Metres per second in one kilometre per hour.
pub const KMH: f64 = 1.0 / 3.6;
/// Metres per second in one mile per hour (international mile, exactly 1609.344 m).
pub const MPH: f64 = 1609.344 / 3600.0;
/// Radians per second in one revolution per minute.
pub const RPM: f64 = std::f64::consts::TAU / 60.0;
/// Radians in one degree.
pub const DEG: f64 = std::f64::consts::PI / 180.0;
/// Metres in one foot (exact).
pub const FOOT: f64 = 0.3048;
/// Metres in one inch (exact).
pub const INCH: f64 = 0.0254;
/// Standard acceleration of free fall, m/s² (ISO 80000-3).
pub const GRAVITY: f64 = 9.806_65;

/// A length in whole feet and inches, rounded to the nearest inch: `(negative, feet, inches)`.
///
/// ```
/// assert_eq!(standpoint_geometry::units::feet_inches(1.37), (false, 4, 6));
/// ```
#[must_use]
pub fn feet_inches(metres: f64) -> (bool, u32, u32) {
    let inches = (metres.abs() / INCH).round();
    let feet = (inches / 12.0).floor();
    (metres < 0.0 && inches > 0.0, feet as u32, (inches - feet * 12.0) as u32)
}
