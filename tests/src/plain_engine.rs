//! Piston and valve worked out the plain way, from an engine's figures: textbook formulas as they are
//! printed, seat to seat durations by halving, everything found by looking everywhere. It is here to
//! disagree with the crate under test if that is wrong.
//!
//! Must not know: the crate under test, but for how figures are stated.

use core::f64::consts::PI;
use engine::{Figures, Kind, Law, LiftPoint, Motion, Top, ValveFigures};

/// Depth of a piston below its top at `deg` after it, mm.
pub fn depth_mm(stroke_mm: f64, rod_mm: f64, deg: f64) -> f64 {
    let a = stroke_mm / 2.0;
    let (sin, cos) = libm::sincos(deg * PI / 180.0);
    a * (1.0 - cos) + rod_mm - libm::sqrt(rod_mm * rod_mm - a * a * sin * sin)
}

/// Share of the lift at a share u of the rise.
pub fn rise(law: Law, u: f64) -> f64 {
    let p = |n: i32| (0..n).fold(1.0, |product, _| product * u);
    match law {
        Law::Harmonic => 0.5 * (1.0 - libm::cos(PI * u)),
        Law::Cycloidal => u - libm::sin(2.0 * PI * u) / (2.0 * PI),
        Law::Polynomial345 => 10.0 * p(3) - 15.0 * p(4) + 6.0 * p(5),
        Law::Polynomial4567 => 35.0 * p(4) - 84.0 * p(5) + 70.0 * p(6) - 20.0 * p(7),
    }
}

/// One valve's lift over the angle from its cylinder's overlap top.
#[derive(Clone, Debug)]
pub enum PlainLift {
    /// A law about a centre, half the seat to seat duration, greatest lift.
    Law(Law, f64, f64, f64),
    /// Measured points with a slope at each, and the middle of the whole.
    Table(Vec<(LiftPoint, f64)>, f64),
}

impl PlainLift {
    /// From what is stated; `None` where that is degrees alone.
    pub fn of(motion: &Motion) -> Option<Self> {
        match motion {
            Motion::Stated { .. } => None,
            Motion::Law { events, at_lift_mm, lift_mm, law } => {
                let centre = 0.5 * (events.opens_deg + events.closes_deg);
                let stated = 0.5 * (events.closes_deg - events.opens_deg);
                // The half duration at which the lift where events are stated is what was stated.
                let (mut low, mut high) = (stated, 2000.0);
                for _ in 0..200 {
                    let half = 0.5 * (low + high);
                    let lift = lift_mm * rise(*law, 1.0 - stated / half);
                    if lift < *at_lift_mm { low = half } else { high = half }
                }
                let half = if *at_lift_mm > 0.0 { 0.5 * (low + high) } else { stated };
                Some(Self::Law(*law, centre, half, *lift_mm))
            }
            Motion::Measured { points, .. } => {
                let n = points.len();
                let steep = |i: usize| {
                    (points[i + 1].lift_mm - points[i].lift_mm)
                        / (points[i + 1].at_deg - points[i].at_deg)
                };
                let mut slopes = vec![0.0; n];
                for (i, slope) in slopes.iter_mut().enumerate().take(n - 1).skip(1) {
                    if steep(i - 1) * steep(i) > 0.0 {
                        *slope = (steep(i - 1) + steep(i)) / 2.0;
                    }
                }
                for i in 0..n - 1 {
                    if steep(i) != 0.0 {
                        let (a, b) = (slopes[i] / steep(i), slopes[i + 1] / steep(i));
                        if libm::hypot(a, b) > 3.0 {
                            let tau = 3.0 / libm::hypot(a, b);
                            slopes[i] = tau * a * steep(i);
                            slopes[i + 1] = tau * b * steep(i);
                        }
                    }
                }
                let middle = 0.5 * (points[0].at_deg + points[n - 1].at_deg);
                Some(Self::Table(points.iter().copied().zip(slopes).collect(), middle))
            }
        }
    }

    /// Lift at `deg` after the overlap top, mm.
    pub fn mm(&self, deg: f64) -> f64 {
        match self {
            Self::Law(law, centre, half, most) => {
                let away = (deg - centre - 720.0 * libm::round((deg - centre) / 720.0)).abs();
                if away >= *half { 0.0 } else { most * rise(*law, 1.0 - away / half) }
            }
            Self::Table(points, middle) => {
                let deg = deg - 720.0 * libm::round((deg - middle) / 720.0);
                let inside =
                    points.windows(2).find(|ab| ab[0].0.at_deg <= deg && deg < ab[1].0.at_deg);
                inside.map_or(0.0, |ab| {
                    let ((a, slope_a), (b, slope_b)) = (ab[0], ab[1]);
                    let width = b.at_deg - a.at_deg;
                    let t = (deg - a.at_deg) / width;
                    // The four Hermite polynomials.
                    a.lift_mm * (1.0 + 2.0 * t) * (1.0 - t) * (1.0 - t)
                        + slope_a * width * t * (1.0 - t) * (1.0 - t)
                        + b.lift_mm * t * t * (3.0 - 2.0 * t)
                        + slope_b * width * t * t * (t - 1.0)
                })
            }
        }
    }
}

/// One valve over its piston, in an engine whose shafts turn by themselves.
#[derive(Clone, Debug)]
pub struct PlainValve {
    /// Its camshaft.
    pub camshaft: usize,
    /// Its cylinder.
    pub cylinder: usize,
    /// Which valve.
    pub kind: Kind,
    /// Its lift.
    pub lift: PlainLift,
    /// Cosine of its lean.
    pub cos_lean: f64,
    /// Room at the top, mm.
    pub at_top_mm: f64,
    /// Phases that are looked at.
    pub phases_deg: Vec<f64>,
}

/// An engine whose shafts turn by themselves.
#[derive(Clone, Debug)]
pub struct PlainEngine {
    stroke_mm: f64,
    rod_mm: f64,
    at_marks_deg: f64,
    fires_at_deg: Vec<f64>,
    /// Every valve of every cylinder.
    pub valves: Vec<PlainValve>,
    sum_mm: Option<f64>,
}

impl PlainEngine {
    /// From whole figures; `None` where something is missing.
    pub fn of(figures: &Figures) -> Option<Self> {
        let crank = figures.crank?;
        let overlap = if figures.at_marks.top == Top::Overlap { 360.0 } else { 0.0 };
        let mut valves = Vec::new();
        for (camshaft, c) in figures.camshafts.iter().enumerate() {
            let phases_deg = c.phaser_deg.map_or(vec![0.0], |[back, ahead]| {
                (0..=20).map(|i| back + (ahead - back) * f64::from(i) / 20.0).collect()
            });
            let kinds = [(Kind::Intake, &c.intake), (Kind::Exhaust, &c.exhaust)];
            for (kind, stated) in kinds {
                let Some(ValveFigures { motion, room, .. }) = stated else { continue };
                let (lift, room) = (PlainLift::of(motion)?, (*room)?);
                valves.extend(c.cylinders.iter().map(|&cylinder| PlainValve {
                    camshaft,
                    cylinder,
                    kind,
                    lift: lift.clone(),
                    cos_lean: libm::cos(room.lean_deg * PI / 180.0),
                    at_top_mm: room.gap_at_top_mm,
                    phases_deg: phases_deg.clone(),
                }));
            }
        }
        Some(Self {
            stroke_mm: crank.stroke_mm,
            rod_mm: crank.rod_mm,
            at_marks_deg: figures.at_marks.crank_atdc_deg + overlap,
            fires_at_deg: figures.fires_at_deg.clone(),
            valves,
            sum_mm: figures.valves_meet_at_lift_sum_mm,
        })
    }

    fn lift_mm(&self, valve: &PlainValve, cam_deg: f64) -> f64 {
        let deg = self.at_marks_deg + cam_deg - self.fires_at_deg[valve.cylinder] - 360.0;
        valve.phases_deg.iter().map(|phase| valve.lift.mm(deg + phase)).fold(0.0, f64::max)
    }

    /// The least gap of one camshaft's valves over their pistons, mm.
    pub fn camshaft_gap_mm(&self, camshaft: usize, crank_deg: f64, cam_deg: f64) -> f64 {
        let own = self.valves.iter().filter(|v| v.camshaft == camshaft);
        own.map(|valve| {
            let after_top = self.at_marks_deg + crank_deg - self.fires_at_deg[valve.cylinder];
            valve.at_top_mm + depth_mm(self.stroke_mm, self.rod_mm, after_top)
                - valve.cos_lean * self.lift_mm(valve, cam_deg)
        })
        .fold(f64::INFINITY, f64::min)
    }

    /// The least sum of lifts left between two camshafts' valves of one cylinder, mm.
    pub fn pair_gap_mm(&self, a: usize, a_deg: f64, b: usize, b_deg: f64) -> f64 {
        let Some(sum) = self.sum_mm else { return f64::INFINITY };
        let mut least = f64::INFINITY;
        for v in self.valves.iter().filter(|v| v.camshaft == a) {
            for w in self.valves.iter().filter(|w| w.camshaft == b && w.cylinder == v.cylinder) {
                if v.kind != w.kind {
                    least = least.min(sum - self.lift_mm(v, a_deg) - self.lift_mm(w, b_deg));
                }
            }
        }
        least
    }

    /// The least of all gaps, mm.
    pub fn gap_mm(&self, crank_deg: f64, cams_deg: &[f64]) -> f64 {
        let pistons =
            cams_deg.iter().enumerate().map(|(i, deg)| self.camshaft_gap_mm(i, crank_deg, *deg));
        let mut least = pistons.fold(f64::INFINITY, f64::min);
        for (a, a_deg) in cams_deg.iter().enumerate() {
            for (b, b_deg) in cams_deg.iter().enumerate().skip(a + 1) {
                least = least.min(self.pair_gap_mm(a, *a_deg, b, *b_deg));
            }
        }
        least
    }
}
