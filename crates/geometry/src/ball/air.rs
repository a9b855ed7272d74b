//! The air, whose density slows the ball and bends its path.

/// Pressure at sea level, Pa (International Standard Atmosphere).
pub const SEA_LEVEL_PRESSURE: f64 = 101_325.0;
/// Gas constant of dry air, J/(kg K).
pub const GAS_CONSTANT: f64 = 287.05;
/// 0 °C in kelvin.
pub const CELSIUS_ZERO: f64 = 273.15;
/// Heights to which the formulas are clamped, m. The lower troposphere covers every court.
pub const ALTITUDE_RANGE: (f64, f64) = (-500.0, 9_000.0);
/// Temperatures to which the formulas are clamped, °C.
pub const TEMPERATURE_RANGE: (f64, f64) = (-60.0, 70.0);

/// Temperature and altitude.
///
/// ```
/// use standpoint_geometry::Air;
/// let standard = Air { temperature_c: 15.0, altitude_m: 0.0 };
/// assert!((standard.density() - 1.225).abs() < 1e-3);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Temperature, °C.
    pub temperature_c: f64,
    /// Height above sea level, m.
    pub altitude_m: f64,
}

impl Default for Air {
    fn default() -> Self {
        Self { temperature_c: 20.0, altitude_m: 0.0 }
    }
}

impl Air {
    /// Pressure at this altitude, Pa: `101325 (1 - 2.25577e-5 h)^5.25588` (International Standard Atmosphere).
    /// Altitudes outside `ALTITUDE_RANGE` count as its ends.
    #[must_use]
    pub fn pressure(&self) -> f64 {
        let h = self.altitude_m.clamp(ALTITUDE_RANGE.0, ALTITUDE_RANGE.1);
        SEA_LEVEL_PRESSURE * (1.0 - 2.255_77e-5 * h).powf(5.255_88)
    }

    /// Density of dry air, kg/m³: `p / (287.05 T)`. Humidity is left out: at 21 °C and 50 % it would lower the density
    /// by 0.4 %. Temperatures outside `TEMPERATURE_RANGE` count as its ends.
    #[must_use]
    pub fn density(&self) -> f64 {
        let kelvin = self.temperature_c.clamp(TEMPERATURE_RANGE.0, TEMPERATURE_RANGE.1) + CELSIUS_ZERO;
        self.pressure() / (GAS_CONSTANT * kelvin)
    }
}
