//! Density of the air.

use standpoint_geometry::Air;

use crate::near;

fn density(temperature_c: f64, altitude_m: f64) -> f64 {
    Air { temperature_c, altitude_m }.density()
}

#[test]
fn standard_air_at_sea_level_has_the_published_density() {
    // International Standard Atmosphere: 15 °C, 101,325 Pa, 1.225 kg/m3.
    near(density(15.0, 0.0), 1.225, 5e-4);
    near(Air { temperature_c: 15.0, altitude_m: 0.0 }.pressure(), 101_325.0, 1e-6);
}

#[test]
fn standard_air_thins_with_altitude_as_tabulated() {
    // International Standard Atmosphere, relative density; 6.5 K colder per kilometre.
    let table = [(500.0, 0.9529), (1000.0, 0.9075), (1500.0, 0.8638), (2000.0, 0.8217), (2500.0, 0.7812)];
    for (altitude, relative) in table {
        near(density(15.0 - 0.0065 * altitude, altitude) / density(15.0, 0.0), relative, 1e-4);
    }
}

#[test]
fn a_published_case_of_moist_air_agrees_within_its_moisture() {
    // 70 F, 30 inHg, 50 % relative humidity: 1.197 kg/m3 (published case). Ours is dry air at sea level pressure (29.92
    // inHg), so the pressure is scaled, and 0.4 % is allowed for the water vapour left out.
    let dry = density((70.0 - 32.0) / 1.8, 0.0) * 30.0 / 29.921_26;
    near(dry, 1.197, 0.004 * 1.197 + 1e-3);
    assert!(dry > 1.197, "moist air is lighter than dry air");
}

#[test]
fn air_outside_the_range_of_the_formulas_is_still_air() {
    for (t, h) in [(-300.0, 0.0), (20.0, 1e6), (20.0, -1e6), (1e6, 0.0)] {
        assert!(density(t, h) > 0.1 && density(t, h) < 3.0, "{t} {h}");
    }
}
