//! One cylinder in section, seen at the belt end with its axis upright: crank throw, rod, piston, and its
//! valves over it, in millimetres.
//!
//! Along the bore everything is true: throw, rod, how far the piston stands below its top, how far each
//! valve is open along its own leaning stem. A valve's lowest point over the flat crown is the gap that
//! the engine gives, below zero where both would be in the same place. What the layout does not state is
//! drawn in proportion to the bore and says nothing: where the valves stand across it, how large their
//! heads are, how tall the piston is.
//!
//! Must not know: what makes the shafts stand where they do.

use crate::list::{Class, List, Part};
use drive::{DVec2, Sense};
use engine::{Engine, Kind, Phasing, SliderCrank, Stand};

/// A valve nearer to the piston than this touches it, mm: a turn that a contact stops ends there but for rounding.
pub const TOUCHING_MM: f64 = 1e-6;

/// Without a stated bore: so many times the stroke.
const BORE_TO_STROKE: f64 = 1.05;
/// All these are shares of the bore: from the middle of the bore to the middle of a valve's head.
const VALVE_OFF: f64 = 0.25;
/// The heads' radii.
const INTAKE_RADIUS: f64 = 0.19;
const EXHAUST_RADIUS: f64 = 0.165;
/// From a head's face up its stem.
const STEM_LONG: f64 = 0.78;
const STEM_HALF: f64 = 0.022;
const WALL: f64 = 0.1;
/// From the piston's pin up to its crown, and down to the end of its skirt.
const CROWN_ABOVE_PIN: f64 = 0.36;
const SKIRT_BELOW_PIN: f64 = 0.2;
/// How far the head reaches above the lowest place of its roof.
const HEAD_HIGH: f64 = 0.5;
/// Of the close-up: how far it reaches below the piston's top.
const CLOSE_BELOW: f64 = 0.42;

/// A cylinder whose picture can be drawn.
#[derive(Clone, Copy, Debug)]
pub struct Section<'a> {
    engine: &'a Engine,
    crank: &'a SliderCrank,
    cylinder: usize,
    sense: Sense,
    bore_mm: f64,
}

/// A valve as the section has it.
struct Standing {
    kind: Kind,
    /// Middle of the face of the head with the valve shut.
    seat: DVec2,
    /// Down the stem into the cylinder, and along the face away from the bore's axis.
    down: DVec2,
    across: DVec2,
    radius: f64,
    lift_mm: f64,
    gap_mm: f64,
}

impl Standing {
    /// The point of its head that is nearest to the crown.
    fn lowest(&self) -> DVec2 {
        let face = self.seat + self.down * self.lift_mm;
        let [a, b] = [1.0, -1.0].map(|s| face + self.across * (s * self.radius));
        if a.y <= b.y { a } else { b }
    }
}

impl<'a> Section<'a> {
    /// The picture of a cylinder, by index, of an engine whose crank turns as `sense`; `None` without
    /// stroke and rod, or such a cylinder.
    pub fn new(engine: &'a Engine, cylinder: usize, sense: Sense) -> Option<Self> {
        let crank = engine.crank().filter(|_| cylinder < engine.cylinders())?;
        let bore_mm = engine.bore_mm().unwrap_or(BORE_TO_STROKE * crank.stroke_mm());
        Some(Self { engine, crank, cylinder, sense, bore_mm })
    }

    /// Where the crown stands with the piston at its top, mm above the crank's axis.
    pub fn crown_top_mm(&self) -> f64 {
        0.5 * self.crank.stroke_mm() + self.crank.rod_mm() + CROWN_ABOVE_PIN * self.bore_mm
    }

    /// The lowest and highest corner of the whole picture.
    pub fn whole(&self) -> (DVec2, DVec2) {
        let throw = 0.5 * self.crank.stroke_mm() + 0.22 * self.bore_mm;
        let half = throw.max((0.5 + WALL) * self.bore_mm);
        let high = self.roof_mm() + (HEAD_HIGH + 0.34) * self.bore_mm;
        (DVec2::new(-half, -throw), DVec2::new(half, high))
    }

    /// The lowest and highest corner of what is worth enlarging: the chamber.
    pub fn chamber(&self) -> (DVec2, DVec2) {
        let half = (0.5 + 0.6 * WALL) * self.bore_mm;
        let low = self.crown_top_mm() - CLOSE_BELOW * self.bore_mm;
        let high = self.roof_mm() + 0.3 * self.bore_mm;
        (DVec2::new(-half, low), DVec2::new(half, high))
    }

    /// Draws it on top of what `list` holds, with the shafts where `stand` has them. A valve whose lift
    /// or room is not known is left out.
    pub fn draw(&self, list: &mut List, stand: &Stand) {
        let at_deg = self.engine.from_overlap_deg(self.cylinder, stand.crank_deg);
        let depth_mm = self.crank.depth_mm(at_deg);
        let [intake, exhaust] = Kind::BOTH.map(|kind| self.valve(kind, stand, at_deg));
        let both = || [&intake, &exhaust].into_iter().flatten();
        self.walls(list, both());
        self.throw(list, at_deg, depth_mm);
        self.piston(list, depth_mm);
        for valve in both() {
            self.draw_valve(list, valve);
        }
        for valve in both() {
            self.gap(list, valve, depth_mm);
        }
    }

    /// The foot of a valve's gap on the crown; `None` for a valve that is left out.
    pub fn gap_foot(&self, kind: Kind, stand: &Stand) -> Option<DVec2> {
        let at_deg = self.engine.from_overlap_deg(self.cylinder, stand.crank_deg);
        let low = self.valve(kind, stand, at_deg)?.lowest();
        Some(DVec2::new(low.x, self.crown_top_mm() - self.crank.depth_mm(at_deg)))
    }

    fn valve(&self, kind: Kind, stand: &Stand, at_deg: f64) -> Option<Standing> {
        let camshaft = self.engine.moved_by(self.cylinder, kind)?;
        let stated = self.engine.camshafts().get(camshaft)?.valve(kind)?;
        let (lobe, room) = (stated.lobe()?, stated.room()?);
        let cam_deg = stand.camshaft_deg(camshaft);
        let error_deg = cam_deg - stand.crank_deg;
        let gap = self.engine.gap(camshaft, kind, error_deg, Phasing::AtRest)?;
        let lift_mm = lobe.lift_mm(self.engine.from_overlap_deg(self.cylinder, cam_deg));
        // The intake stands at the left.
        let (side, radius) = match kind {
            Kind::Intake => (-1.0, INTAKE_RADIUS * self.bore_mm),
            Kind::Exhaust => (1.0, EXHAUST_RADIUS * self.bore_mm),
        };
        let (sin, cos) = libm::sincos(room.lean_deg.to_radians());
        let low = self.crown_top_mm() + room.gap_at_top_mm;
        Some(Standing {
            kind,
            seat: DVec2::new(side * VALVE_OFF * self.bore_mm, low + radius * sin.abs()),
            down: DVec2::new(-side * sin, -cos),
            across: DVec2::new(side * cos, -sin),
            radius,
            lift_mm,
            gap_mm: gap.at_mm(at_deg),
        })
    }

    /// The lowest place of the roof: no valve's room is less.
    fn roof_mm(&self) -> f64 {
        let rooms = Kind::BOTH.into_iter().filter_map(|kind| {
            let camshaft = self.engine.moved_by(self.cylinder, kind)?;
            let room = self.engine.camshafts().get(camshaft)?.valve(kind)?.room()?;
            Some(room.gap_at_top_mm)
        });
        self.crown_top_mm() + rooms.fold(f64::INFINITY, f64::min).clamp(0.0, self.bore_mm)
    }

    fn walls<'v>(&self, list: &mut List, valves: impl Iterator<Item = &'v Standing> + Clone) {
        let part = Part::Cylinder(self.cylinder);
        let (half, wall) = (0.5 * self.bore_mm, WALL * self.bore_mm);
        let roof = self.roof_mm();
        let foot = self.crown_top_mm() - self.crank.stroke_mm() - 0.3 * self.bore_mm;
        for side in [-1.0, 1.0] {
            list.begin(Class::CylinderWall, part);
            list.polygon([
                DVec2::new(side * half, foot),
                DVec2::new(side * (half + wall), foot),
                DVec2::new(side * (half + wall), roof),
                DVec2::new(side * half, roof),
            ]);
        }
        // The head, its roof along the faces of the shut valves.
        let top = roof + HEAD_HIGH * self.bore_mm;
        list.begin(Class::CylinderWall, part);
        let mut under = vec![DVec2::new(-half - wall, roof), DVec2::new(-half, roof)];
        for valve in valves.clone() {
            let [outer, inner] =
                [1.0, -1.0].map(|s| valve.seat + valve.across * (s * valve.radius));
            let left_to_right = if outer.x < inner.x { [outer, inner] } else { [inner, outer] };
            under.extend(left_to_right);
        }
        under.extend([DVec2::new(half, roof), DVec2::new(half + wall, roof)]);
        under.extend([DVec2::new(half + wall, top), DVec2::new(-half - wall, top)]);
        list.polygon(under);
        for valve in valves {
            self.port(list, valve, top);
        }
    }

    /// From the seat up and out to the side of the head.
    fn port(&self, list: &mut List, valve: &Standing, top: f64) {
        let b = self.bore_mm;
        let out = valve.across.x.signum() * (0.5 + WALL) * b;
        let at = |across: f64, up: f64| {
            valve.seat + valve.across * (across * valve.radius) - valve.down * (up * b)
        };
        list.begin(Class::Port, Part::Cylinder(self.cylinder));
        list.polygon([
            at(0.9, 0.0),
            at(0.85, 0.09),
            DVec2::new(out, (at(0.85, 0.09).y + 0.12 * b).min(top - 0.04 * b)),
            DVec2::new(out, (at(0.85, 0.09).y + 0.36 * b).min(top - 0.02 * b)),
            at(0.0, 0.34),
            at(-0.75, 0.2),
            at(-0.9, 0.0),
        ]);
    }

    fn throw(&self, list: &mut List, at_deg: f64, depth_mm: f64) {
        let part = Part::Piston(self.cylinder);
        let b = self.bore_mm;
        let throw_mm = 0.5 * self.crank.stroke_mm();
        let (sin, cos) = libm::sincos(at_deg.to_radians());
        // Turning on from the top, clockwise goes to the right.
        let big_end = DVec2::new(-self.sense.sign() * throw_mm * sin, throw_mm * cos);
        let pin = DVec2::new(0.0, self.crown_top_mm() - CROWN_ABOVE_PIN * b - depth_mm);
        let web = 0.2 * b;
        let along = big_end / throw_mm;
        let beside = drive::rot90(along);
        list.begin(Class::CrankThrow, part);
        let from = drive::Angle::of(-beside).rad();
        list.move_to(big_end - beside * web);
        list.arc(big_end, web, from, std::f64::consts::PI);
        list.line_to(beside * web);
        list.arc(DVec2::ZERO, web, from + std::f64::consts::PI, std::f64::consts::PI);
        list.close();
        let way = (pin - big_end).normalize_or_zero();
        let out = drive::rot90(way);
        list.begin(Class::Rod, part);
        list.polygon([
            big_end + out * (0.13 * b),
            big_end - out * (0.13 * b),
            pin - out * (0.075 * b),
            pin + out * (0.075 * b),
        ]);
        // Between the rod and its eye, so that each keeps its own outline.
        list.begin(Class::CrankThrow, part);
        list.circle(DVec2::ZERO, 0.11 * b);
        list.begin(Class::Rod, part);
        list.circle(big_end, 0.155 * b);
        list.begin(Class::CrankThrow, part);
        list.circle(big_end, 0.1 * b);
    }

    fn piston(&self, list: &mut List, depth_mm: f64) {
        let part = Part::Piston(self.cylinder);
        let b = self.bore_mm;
        let crown = self.crown_top_mm() - depth_mm;
        let pin = crown - CROWN_ABOVE_PIN * b;
        let half = 0.49 * b;
        list.begin(Class::Piston, part);
        list.polygon([
            DVec2::new(-half, crown),
            DVec2::new(half, crown),
            DVec2::new(half, pin - SKIRT_BELOW_PIN * b),
            DVec2::new(half - 0.07 * b, pin - SKIRT_BELOW_PIN * b),
            DVec2::new(half - 0.09 * b, pin - 0.02 * b),
            DVec2::new(0.19 * b, pin + 0.17 * b),
            DVec2::new(-0.19 * b, pin + 0.17 * b),
            DVec2::new(-half + 0.09 * b, pin - 0.02 * b),
            DVec2::new(-half + 0.07 * b, pin - SKIRT_BELOW_PIN * b),
            DVec2::new(-half, pin - SKIRT_BELOW_PIN * b),
        ]);
        for groove in 1..=3 {
            let y = crown - f64::from(groove) * 0.055 * b;
            for side in [-1.0, 1.0] {
                list.begin(Class::Ring, part);
                list.move_to(DVec2::new(side * half, y));
                list.line_to(DVec2::new(side * (half - 0.035 * b), y));
            }
        }
        list.begin(Class::Rod, part);
        list.circle(DVec2::new(0.0, pin), 0.1 * b);
        list.begin(Class::CrankThrow, part);
        list.circle(DVec2::new(0.0, pin), 0.062 * b);
    }

    fn draw_valve(&self, list: &mut List, valve: &Standing) {
        let class = if valve.gap_mm < TOUCHING_MM { Class::ValveTouching } else { Class::Valve };
        let b = self.bore_mm;
        let face = valve.seat + valve.down * valve.lift_mm;
        let at = |across: f64, up: f64| face + valve.across * across - valve.down * (up * b);
        let (r, stem) = (valve.radius, STEM_HALF * b);
        list.begin(class, Part::Valve(self.cylinder, valve.kind));
        list.polygon([
            at(r, 0.0),
            at(r, 0.018),
            at(0.55 * r, 0.05),
            at(stem * 1.6, 0.12),
            at(stem, 0.2),
            at(stem, STEM_LONG),
            at(-stem, STEM_LONG),
            at(-stem, 0.2),
            at(-stem * 1.6, 0.12),
            at(-0.55 * r, 0.05),
            at(-r, 0.018),
            at(-r, 0.0),
        ]);
    }

    /// From the valve's lowest point straight along the bore to the crown.
    fn gap(&self, list: &mut List, valve: &Standing, depth_mm: f64) {
        let low = valve.lowest();
        let crown = DVec2::new(low.x, self.crown_top_mm() - depth_mm);
        list.begin(Class::Gap, Part::Valve(self.cylinder, valve.kind));
        list.move_to(low);
        list.line_to(crown);
    }
}
