//! A pinhole camera that stands upright: places in space as points of a picture.
//!
//! The picture plane lies ahead of the eye. Points in it count to the right and up, in halves of the picture's width: a
//! point at the right edge has `x == 1`. Nothing behind the eye is seen.

use glam::{DVec2, DVec3, dvec2};

/// Nothing nearer to the eye than this is seen, m.
pub const NEAR: f64 = 0.25;

/// The camera.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pinhole {
    eye: DVec3,
    right: DVec3,
    up: DVec3,
    ahead: DVec3,
    /// Distance of the picture plane in halves of the picture's width.
    focal: f64,
}

impl Pinhole {
    /// A camera at `eye` whose picture has `at` in its middle and shows `width` radians from left to right. The horizon is
    /// level; a camera that looks straight up or down has the far end of the court up.
    #[must_use]
    pub fn new(eye: DVec3, at: DVec3, width: f64) -> Self {
        let ahead = (at - eye).try_normalize().unwrap_or(DVec3::Y);
        let right = ahead.cross(DVec3::Z).try_normalize().unwrap_or(DVec3::X);
        let up = right.cross(ahead);
        Self { eye, right, up, ahead, focal: 1.0 / (width / 2.0).tan() }
    }

    /// Where the eye is.
    #[must_use]
    pub fn eye(&self) -> DVec3 {
        self.eye
    }

    /// How far ahead of the eye something is, m; negative behind it.
    #[must_use]
    pub fn depth(&self, point: DVec3) -> f64 {
        (point - self.eye).dot(self.ahead)
    }

    /// The point of the picture at which something is seen.
    #[must_use]
    pub fn seen(&self, point: DVec3) -> Option<DVec2> {
        let depth = self.depth(point);
        (depth >= NEAR).then(|| self.project(point - self.eye, depth))
    }

    fn project(&self, from_eye: DVec3, depth: f64) -> DVec2 {
        dvec2(from_eye.dot(self.right), from_eye.dot(self.up)) * (self.focal / depth)
    }

    /// Length in the picture of a metre across the line of sight at a place.
    #[must_use]
    pub fn scale(&self, point: DVec3) -> Option<f64> {
        let depth = self.depth(point);
        (depth >= NEAR).then(|| self.focal / depth)
    }

    /// The part of a stretch that is seen.
    #[must_use]
    pub fn stretch(&self, from: DVec3, to: DVec3) -> Option<(DVec2, DVec2)> {
        let (a, b) = (self.depth(from), self.depth(to));
        if a < NEAR && b < NEAR {
            return None;
        }
        // Where the stretch meets the nearest plane that is seen.
        let cut = || from + (to - from) * ((NEAR - a) / (b - a));
        let from_seen = self.seen(from).unwrap_or_else(|| self.project(cut() - self.eye, NEAR));
        let to_seen = self.seen(to).unwrap_or_else(|| self.project(cut() - self.eye, NEAR));
        Some((from_seen, to_seen))
    }

    /// The stretches of a path that are seen, joined where they hang together.
    #[must_use]
    pub fn path(&self, points: &[DVec3]) -> Vec<Vec<DVec2>> {
        let mut parts: Vec<Vec<DVec2>> = Vec::new();
        let mut open = false;
        for pair in points.windows(2) {
            let Some((a, b)) = self.stretch(pair[0], pair[1]) else {
                open = false;
                continue;
            };
            match parts.last_mut().filter(|_| open) {
                Some(part) => part.push(b),
                None => parts.push(vec![a, b]),
            }
            open = self.depth(pair[1]) >= NEAR;
        }
        parts
    }

    /// The corners of the part of a flat shape that is seen; empty when none is.
    #[must_use]
    pub fn shape(&self, corners: &[DVec3]) -> Vec<DVec2> {
        let mut seen = Vec::with_capacity(corners.len() + 2);
        for (i, corner) in corners.iter().enumerate() {
            let before = corners[(i + corners.len() - 1) % corners.len()];
            let (a, b) = (self.depth(before), self.depth(*corner));
            if (a < NEAR) != (b < NEAR) {
                let cut = before + (*corner - before) * ((NEAR - a) / (b - a));
                seen.push(self.project(cut - self.eye, NEAR));
            }
            seen.extend(self.seen(*corner));
        }
        seen
    }

    /// Height of the horizon in the picture.
    #[must_use]
    pub fn horizon(&self) -> f64 {
        // Far ahead on the level of the eye.
        let level = DVec3::new(self.ahead.x, self.ahead.y, 0.0).normalize_or(DVec3::Y);
        self.focal * level.dot(self.up) / level.dot(self.ahead)
    }
}

#[cfg(test)]
mod tests {
    use glam::{DMat3, dvec3};

    use super::*;

    /// Dimensions of the court, m: ITF Rules of Tennis, Rule 1 and Rule 2.
    const LENGTH: f64 = 23.77;
    const SINGLES: f64 = 8.23;
    const NET_MIDDLE: f64 = 0.914;

    /// A small repeatable pseudo-random generator, -1 to 1.
    struct Numbers(u64);

    impl Numbers {
        fn next(&mut self) -> f64 {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (self.0 >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
        }

        fn point(&mut self, size: f64) -> DVec3 {
            dvec3(self.next(), self.next(), self.next()) * size
        }
    }

    /// The same by matrices: x = K R (X - C) in homogeneous coordinates; R is a turn around the vertical and a tilt
    /// (Hartley and Zisserman, Multiple View Geometry, 2nd edition, section 6.1, from memory).
    fn by_matrices(eye: DVec3, at: DVec3, width: f64, point: DVec3) -> DVec3 {
        let d = at - eye;
        let (turn, tilt) = (d.x.atan2(d.y), d.z.atan2(d.x.hypot(d.y)));
        // World axes to those of the camera: x right, y down, z ahead.
        let around = DMat3::from_rotation_z(turn);
        let axes = DMat3::from_cols(dvec3(1.0, 0.0, 0.0), dvec3(0.0, 0.0, 1.0), dvec3(0.0, -1.0, 0.0));
        let nod = DMat3::from_rotation_x(-tilt);
        let f = (std::f64::consts::FRAC_PI_2 - width / 2.0).tan();
        let k = DMat3::from_diagonal(dvec3(f, f, 1.0));
        k * nod * axes * around * (point - eye)
    }

    #[test]
    fn it_agrees_with_the_textbook_camera() {
        let mut numbers = Numbers(3);
        let mut seen = 0;
        for _ in 0..4000 {
            let (eye, at, point) = (numbers.point(12.0), numbers.point(12.0), numbers.point(20.0));
            let width = 0.9 + 0.6 * numbers.next();
            let camera = Pinhole::new(eye, at, width);
            let h = by_matrices(eye, at, width, point);
            assert!((camera.depth(point) - h.z).abs() < 1e-9, "{eye} {at} {point}");
            if let Some(p) = camera.seen(point) {
                let expected = dvec2(h.x / h.z, -h.y / h.z);
                assert!((p - expected).length() < 1e-7 * (1.0 + expected.length()), "{p} against {expected}");
                seen += 1;
            } else {
                assert!(h.z < NEAR);
            }
        }
        assert!(seen > 1000);
    }

    /// Tangents of the angles to the right of the picture's centre and above it.
    fn tangents(camera: &Pinhole, width: f64, point: DVec3) -> DVec2 {
        camera.seen(point).unwrap() * (width / 2.0).tan()
    }

    #[test]
    fn the_angles_of_the_court_from_the_middle_of_the_baseline() {
        // From the middle of a baseline, on the ground, looking along the centre line.
        let width = 70_f64.to_radians();
        let eye = dvec3(0.0, -LENGTH / 2.0, 0.0);
        let camera = Pinhole::new(eye, dvec3(0.0, 0.0, 0.0), width);
        // Half the far baseline subtends atan(4.115 / 23.77) = 9.82 degrees.
        let corner = tangents(&camera, width, dvec3(SINGLES / 2.0, LENGTH / 2.0, 0.0));
        assert!((corner.x.atan().to_degrees() - 9.82).abs() < 0.005, "{}", corner.x.atan().to_degrees());
        assert!(corner.y.abs() < 1e-12);
        // The middle of the net rises atan(0.914 / 11.885) = 4.40 degrees.
        let tape = tangents(&camera, width, dvec3(0.0, 0.0, NET_MIDDLE));
        assert!((tape.y.atan().to_degrees() - 4.40).abs() < 0.005);
        // The far court subtends 19.64 degrees at its baseline and 38.20 at the net.
        let net = tangents(&camera, width, dvec3(SINGLES / 2.0, 0.0, 0.0));
        assert!((2.0 * net.x.atan().to_degrees() - 38.20).abs() < 0.005);
    }

    #[test]
    fn the_net_hides_the_far_baseline_from_everybody_but_the_tallest() {
        // By similar triangles the eye must be at 2 x 0.914 m to see the far baseline over the middle of the net.
        let width = 1.0;
        for (height, over) in [(1.6, false), (1.82, false), (1.84, true), (2.2, true)] {
            let camera = Pinhole::new(dvec3(0.0, -LENGTH / 2.0, height), dvec3(0.0, 0.0, 1.0), width);
            let tape = camera.seen(dvec3(0.0, 0.0, NET_MIDDLE)).unwrap();
            let baseline = camera.seen(dvec3(0.0, LENGTH / 2.0, 0.0)).unwrap();
            assert_eq!(baseline.y > tape.y, over, "eye at {height} m");
        }
    }

    #[test]
    fn the_edge_of_the_picture_and_the_horizon_are_where_they_should_be() {
        let width = 1.2_f64;
        let eye = dvec3(1.0, -13.0, 1.6);
        let camera = Pinhole::new(eye, dvec3(1.0, 0.0, 0.4), width);
        let level = (1.2 / 13.0_f64).atan();
        assert!((camera.horizon() - level.tan() / (width / 2.0).tan()).abs() < 1e-12);
        let far = camera.seen(dvec3(1.0, 1e7, 1.6)).unwrap();
        assert!((far.y - camera.horizon()).abs() < 1e-6);
        // Half the width of view to the right of the line of sight.
        let level_camera = Pinhole::new(eye, eye + DVec3::Y, width);
        let edge = level_camera.seen(eye + dvec3((width / 2.0).tan(), 1.0, 0.0) * 5.0).unwrap();
        assert!((edge.x - 1.0).abs() < 1e-12);
    }

    #[test]
    fn what_is_behind_the_eye_is_cut_off() {
        let camera = Pinhole::new(dvec3(0.0, -12.0, 1.6), dvec3(0.0, 0.0, 1.0), 1.2);
        let (behind, ahead) = (dvec3(1.0, -20.0, 0.0), dvec3(1.0, 5.0, 0.0));
        assert_eq!(camera.seen(behind), None);
        assert_eq!(camera.stretch(behind, behind - DVec3::Y), None);
        let (a, b) = camera.stretch(behind, ahead).unwrap();
        assert_eq!(camera.stretch(ahead, behind).unwrap(), (b, a));
        assert!((b - camera.seen(ahead).unwrap()).length() < 1e-12);
        // The picture of a straight line is straight, so the cut lies on it.
        let half = camera.seen(dvec3(1.0, -5.0, 0.0)).unwrap();
        let cross = (b - a).perp_dot(half - a);
        assert!(cross.abs() < 1e-9, "{cross}");
        let square = [dvec3(-1.0, -20.0, 0.0), dvec3(1.0, -20.0, 0.0), dvec3(1.0, 0.0, 0.0), dvec3(-1.0, 0.0, 0.0)];
        assert_eq!(camera.shape(&square).len(), 4);
        assert!(camera.shape(&square[..2]).is_empty());
        assert_eq!(camera.path(&[behind, ahead, behind, ahead]).len(), 2);
    }
}
