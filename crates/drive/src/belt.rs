//! The belt's own measures: pitch, tooth count and section.
//!
//! Must not know: where it runs.

use core::f64::consts::TAU;

/// A timing belt with teeth on one face.
///
/// The *pitch line* is the line along the cords, which keeps its length when the belt bends. All
/// lengths along the belt are measured on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Belt {
    /// Teeth all round.
    pub teeth: u32,
    /// From one tooth to the next along the pitch line, mm.
    pub pitch_mm: f64,
    /// The whole belt, tooth tip to back, mm.
    pub thickness_mm: f64,
    /// From the land between the teeth to a tooth's tip, mm.
    pub tooth_height_mm: f64,
    /// From the land between the teeth up to the pitch line, mm.
    pub pitch_line_differential_mm: f64,
}

impl Belt {
    /// Length of the pitch line, teeth · pitch, mm.
    pub fn pitch_length_mm(&self) -> f64 {
        f64::from(self.teeth) * self.pitch_mm
    }

    /// Pitch radius of a sprocket, z·p/2π, mm: z grooves one pitch apart on the pitch circle
    /// (pitch diameter p·z/π: SDP/SI handbook D265).
    pub fn sprocket_pitch_radius_mm(&self, teeth: u32) -> f64 {
        f64::from(teeth) * self.pitch_mm / TAU
    }

    /// From the pitch line out to the belt's back, mm.
    pub fn back_mm(&self) -> f64 {
        self.thickness_mm - self.tooth_height_mm - self.pitch_line_differential_mm
    }

    /// From the pitch line in to the tips of the teeth, mm.
    pub fn tips_mm(&self) -> f64 {
        self.tooth_height_mm + self.pitch_line_differential_mm
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sections and diameters from published tables (SDP/SI handbook D265: pitch diameter p·z/π,
    /// outside diameter less twice the differential; L section 9.525 mm, differential 0.381 mm).
    #[test]
    fn pitch_and_outside_diameters() {
        let l = Belt {
            teeth: 50,
            pitch_mm: 9.525,
            thickness_mm: 3.6,
            tooth_height_mm: 1.91,
            pitch_line_differential_mm: 0.381,
        };
        for (z, pitch_diameter, outside) in [
            (20, 60.638, 59.876),
            (24, 72.766, 72.004),
            (40, 121.276, 120.514),
            (48, 145.531, 144.769),
        ] {
            let d = 2.0 * l.sprocket_pitch_radius_mm(z);
            assert!((d - pitch_diameter).abs() < 0.005);
            assert!((d - 2.0 * l.pitch_line_differential_mm - outside).abs() < 0.005);
        }
        let eight = Belt { pitch_mm: 8.0, pitch_line_differential_mm: 0.686, ..l };
        for (z, pitch_diameter, outside) in
            [(22, 56.023, 54.651), (24, 61.116, 59.744), (48, 122.231, 120.859)]
        {
            let d = 2.0 * eight.sprocket_pitch_radius_mm(z);
            assert!((d - pitch_diameter).abs() < 0.01);
            assert!((d - 2.0 * eight.pitch_line_differential_mm - outside).abs() < 0.01);
        }
    }

    #[test]
    fn the_section_adds_up() {
        let b = Belt {
            teeth: 1,
            pitch_mm: 1.0,
            thickness_mm: 5.5,
            tooth_height_mm: 3.5,
            pitch_line_differential_mm: 0.686,
        };
        assert!((b.back_mm() + b.tips_mm() - b.thickness_mm).abs() < 1e-15);
    }
}
