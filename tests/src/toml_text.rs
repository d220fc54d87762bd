//! A random layout as the text of a layout file.
//!
//! Must not know: how such a file is read. Numbers are written so that they come back bit for bit.

use crate::random::RandomLayout;
use crate::tensioning::Kind;
use core::fmt::Write;
use drive::{Carrier, Face, Fixing, MarkOn, Rim, Sense};

fn sense(s: Sense) -> &'static str {
    match s {
        Sense::Clockwise => "clockwise",
        Sense::Anticlockwise => "anticlockwise",
    }
}

impl RandomLayout {
    /// The layout file of these parts.
    pub fn toml(&self) -> String {
        let mut text = String::new();
        // Writing into a string cannot fail.
        let _ = self.head(&mut text);
        for i in 0..self.parts.wheels.len() {
            let _ = self.wheel(&mut text, i);
        }
        let _ = self.tensioner(&mut text);
        text
    }

    fn head(&self, t: &mut String) -> core::fmt::Result {
        let belt = &self.parts.belt;
        writeln!(t, "format = 1\ntitle = \"Random drive {}\"", self.seed)?;
        writeln!(t, "about = \"Drawn at random for the proofs. Not a real engine.\"")?;
        writeln!(t, "crank_turns = \"{}\"", sense(self.parts.crank_turns))?;
        writeln!(t, "\n[belt]\nteeth = {}\npitch_mm = {:?}", belt.teeth, belt.pitch_mm)?;
        writeln!(t, "thickness_mm = {:?}", belt.thickness_mm)?;
        writeln!(t, "tooth_height_mm = {:?}", belt.tooth_height_mm)?;
        writeln!(t, "pitch_line_differential_mm = {:?}", belt.pitch_line_differential_mm)?;
        writeln!(t, "width_mm = 25.4\ntensile_stiffness_n = 400000.0\nmass_kg_per_m = 0.11")
    }

    fn wheel(&self, t: &mut String, i: usize) -> core::fmt::Result {
        let (wheel, stated) = (&self.parts.wheels[i], &self.stated);
        let id = &stated.ids[i];
        let role = match (i, i == self.parts.tensioner.wheel, wheel.teeth(), wheel.mark) {
            (0, ..) => "crank",
            (_, true, ..) => "tensioner",
            (_, _, None, _) => "idler",
            (_, _, Some(_), None) => "water_pump",
            (_, _, Some(_), Some(_)) => "other",
        };
        let face = match wheel.face() {
            Face::Toothed => "toothed",
            Face::Back => "back",
        };
        writeln!(t, "\n[[wheel]]\nid = \"{id}\"\nname = \"{id}\"\nrole = \"{role}\"")?;
        writeln!(t, "face = \"{face}\"")?;
        match wheel.rim {
            Rim::Toothed { teeth } => writeln!(t, "teeth = {teeth}")?,
            Rim::Smooth { .. } => {
                writeln!(t, "outside_diameter_mm = {:?}", stated.outside_diameter_mm[i])?;
            }
        }
        writeln!(t, "at_mm = [{:?}, {:?}]", wheel.centre.x, wheel.centre.y)?;
        if let Some(mark) = wheel.mark {
            let on = match mark.on {
                MarkOn::Groove => "groove",
                MarkOn::Tooth => "tooth",
            };
            let clock = stated.cover_clock_deg[i];
            writeln!(t, "mark = {{ cover_clock_deg = {clock:?}, on = \"{on}\" }}")?;
        }
        match (wheel.fixing, stated.slot_deg[i]) {
            (Fixing::Slotted { .. }, Some([back, forward])) => {
                writeln!(t, "fixing = \"slotted\"\nslot_deg = [{back:?}, {forward:?}]")?;
            }
            (Fixing::Taper, _) => writeln!(t, "fixing = \"taper\"")?,
            _ => {}
        }
        if let Some(on) = stated.lock_on[i] {
            writeln!(t, "lock = {{ by = \"pin\", on = \"{on}\" }}")?;
        }
        if wheel.spring_torque_n_m != 0.0 {
            writeln!(t, "spring_torque_n_m = {:?}", wheel.spring_torque_n_m)?;
        }
        writeln!(t, "friction_n_m = {:?}", wheel.friction_n_m)
    }

    fn tensioner(&self, t: &mut String) -> core::fmt::Result {
        let stated = &self.stated;
        let kind = match self.kind {
            Kind::Slide => "slide",
            Kind::Arm => "arm",
            Kind::Eccentric => "eccentric",
            Kind::SprungEccentric => "sprung_eccentric",
        };
        let [back, out] = stated.travel;
        writeln!(t, "\n[tensioner]\nwheel = \"tensioner\"\nkind = \"{kind}\"")?;
        match self.parts.tensioner.carrier {
            Carrier::Slide { .. } => {
                writeln!(t, "tightening_clock_deg = {:?}", stated.tightening_clock_deg)?;
                writeln!(t, "travel_mm = [{back:?}, {out:?}]\npinned_mm = {:?}", stated.pinned)?;
            }
            Carrier::Pivot { pivot, tightening } => {
                let at = if self.kind == Kind::Arm { "pivot_mm" } else { "bolt_mm" };
                writeln!(t, "{at} = [{:?}, {:?}]", pivot.x, pivot.y)?;
                writeln!(t, "tightening = \"{}\"", sense(tightening))?;
                writeln!(t, "travel_deg = [{back:?}, {out:?}]")?;
            }
        }
        match self.kind {
            Kind::Slide => writeln!(t, "force_n = 350.0"),
            Kind::Arm => writeln!(t, "pinned_deg = {:?}\nmoment_n_m = 12.0", stated.pinned),
            Kind::Eccentric => writeln!(t, "set_deg = {:?}", stated.pinned),
            Kind::SprungEccentric => {
                writeln!(t, "moment_n_m = 4.0\npointer_window_deg = [{back:?}, {out:?}]")
            }
        }
    }
}
