//! A random engine behind a random drive, as the `[engine]` of its layout file.
//!
//! Must not know: how such a file is read. Numbers are written so that they come back bit for bit.

use crate::random::RandomLayout;
use crate::random_engine::{Drawn, between, figures};
use core::fmt::Write;
use engine::{CamshaftFigures, Events, Figures, Kind, Law, Motion, Spring, Top, ValveFigures};
use fastrand::Rng;

/// A layout file with an engine, and what it says of that.
pub struct WithEngine {
    /// The file.
    pub text: String,
    /// The engine's figures, as exact as the file states them.
    pub figures: Figures,
    /// The wheel of each of its camshafts.
    pub wheels: Vec<usize>,
}

impl RandomLayout {
    /// The layout file of these parts with a random engine, its camshafts on the marked wheels: as many
    /// of them as there are wheels.
    pub fn toml_with_engine(&self) -> WithEngine {
        let mut rng = Rng::with_seed(self.seed);
        let rng = &mut rng;
        let drawn = [Drawn::Usual, Drawn::Tight, Drawn::ValvesMeet][rng.usize(0..3)];
        let mut figures = figures(self.seed, drawn);
        let moving = self.parts.tensioner.wheel;
        let wheels = self.parts.wheels.iter().enumerate().skip(1);
        let mut wheels: Vec<usize> =
            wheels.filter(|(i, w)| w.mark.is_some() && *i != moving).map(|(i, _)| i).collect();
        figures.camshafts.truncate(wheels.len());
        wheels.truncate(figures.camshafts.len());
        thin_out(rng, &mut figures);

        let mut text = self.toml();
        for (camshaft, &wheel) in figures.camshafts.iter_mut().zip(&wheels) {
            let head = format!("name = \"{0}\"\nrole = ", self.stated.ids[wheel]);
            let mut new = format!("{head}\"camshaft\"\n");
            if camshaft.phaser_deg.is_some() {
                let low = between(rng, -20.0, 10.0);
                let high = low + between(rng, 1.0, 25.0);
                // Of the crank, from where it rests.
                let (rest, from) = if rng.bool() { ("late", low) } else { ("early", high) };
                camshaft.phaser_deg = Some([2.0 * (low - from), 2.0 * (high - from)]);
                let range = format!("range_cam_deg = [{low:?}, {high:?}]");
                new += &format!("phaser = {{ rest = \"{rest}\", {range}, locks = true }}\n");
            }
            text = text.replacen(&format!("{head}\"other\"\n"), &new, 1);
        }
        // Writing into a string cannot fail.
        let _ = self.engine(&mut text, &mut figures, &wheels);
        WithEngine { text, figures, wheels }
    }

    fn engine(&self, t: &mut String, figures: &mut Figures, wheels: &[usize]) -> core::fmt::Result {
        writeln!(t, "\n[engine]")?;
        if let Some(mm) = figures.bore_mm {
            writeln!(t, "bore_mm = {mm:?}")?;
        }
        match figures.crank {
            Some(c) => writeln!(t, "stroke_mm = {:?}\nrod_mm = {:?}", c.stroke_mm, c.rod_mm)?,
            // Either alone places no piston.
            None => writeln!(t, "rod_mm = 140.0")?,
        }
        if let Some(ratio) = figures.compression_ratio {
            writeln!(t, "compression_ratio = {ratio:?}")?;
        }
        writeln!(t, "crank_at_marks_atdc_deg = {:?}", figures.at_marks.crank_atdc_deg)?;
        if figures.at_marks.top == Top::Overlap {
            writeln!(t, "cylinder_1_at_marks = \"overlap\"")?;
        }
        writeln!(t, "fires_at_deg = {:?}", figures.fires_at_deg)?;
        if let Some(mm) = figures.valves_meet_at_lift_sum_mm {
            writeln!(t, "valves_meet_at_lift_sum_mm = {mm:?}")?;
        }
        for (CamshaftFigures { cylinders, intake, exhaust, .. }, &wheel) in
            figures.camshafts.iter_mut().zip(wheels)
        {
            let numbers: Vec<usize> = cylinders.iter().map(|index| index + 1).collect();
            writeln!(t, "\n[[engine.camshaft]]\nwheel = \"{}\"", self.stated.ids[wheel])?;
            writeln!(t, "cylinders = {numbers:?}")?;
            if let Some(figures) = intake {
                writeln!(t, "[engine.camshaft.intake]")?;
                valve(t, figures, Kind::Intake)?;
            }
            if let Some(figures) = exhaust {
                writeln!(t, "[engine.camshaft.exhaust]")?;
                valve(t, figures, Kind::Exhaust)?;
            }
        }
        Ok(())
    }
}

/// Leaves figures out, here and there, and adds springs.
fn thin_out(rng: &mut Rng, figures: &mut Figures) {
    figures.bore_mm = rng.bool().then(|| between(rng, 60.0, 110.0));
    figures.compression_ratio = figures.compression_ratio.filter(|_| rng.bool());
    figures.crank = figures.crank.filter(|_| rng.u8(0..6) > 0);
    for camshaft in &mut figures.camshafts {
        for valve in camshaft.intake.iter_mut().chain(&mut camshaft.exhaust) {
            valve.room = valve.room.filter(|_| rng.u8(0..6) > 0);
            valve.spring = rng.bool().then(|| Spring {
                shut_n: between(rng, 100.0, 400.0),
                rate_n_per_mm: between(rng, 10.0, 60.0),
            });
            if let Motion::Law { events, .. } = valve.motion
                && rng.u8(0..6) == 0
            {
                valve.motion = Motion::Stated { events };
            }
        }
    }
}

/// The events as written, and those that come back from what is written.
fn written(t: &mut String, kind: Kind, events: &mut Events) -> core::fmt::Result {
    let (before, after) = events.before_after_deg(kind);
    *events = Events::of(kind, before, after);
    let (opens, closes) = match kind {
        Kind::Intake => ("opens_btdc_deg", "closes_abdc_deg"),
        Kind::Exhaust => ("opens_bbdc_deg", "closes_atdc_deg"),
    };
    writeln!(t, "{opens} = {before:?}\n{closes} = {after:?}")
}

fn valve(t: &mut String, valve: &mut ValveFigures, kind: Kind) -> core::fmt::Result {
    match &mut valve.motion {
        Motion::Stated { events } => written(t, kind, events)?,
        Motion::Law { events, at_lift_mm, lift_mm, law } => {
            written(t, kind, events)?;
            let law = match law {
                Law::Harmonic => "harmonic",
                Law::Cycloidal => "cycloidal",
                Law::Polynomial345 => "3-4-5",
                Law::Polynomial4567 => "4-5-6-7",
            };
            writeln!(t, "lift_mm = {lift_mm:?}\nlaw = \"{law}\"")?;
            writeln!(t, "events_at_lift_mm = {at_lift_mm:?}")?;
        }
        Motion::Measured { points, at_lift_mm } => {
            let at: Vec<f64> = points.iter().map(|point| point.at_deg).collect();
            let lift: Vec<f64> = points.iter().map(|point| point.lift_mm).collect();
            writeln!(t, "measured_at_deg = {at:?}\nmeasured_lift_mm = {lift:?}")?;
            writeln!(t, "events_at_lift_mm = {at_lift_mm:?}")?;
        }
    }
    if let Some(room) = valve.room {
        writeln!(t, "lean_deg = {:?}\ngap_at_tdc_mm = {:?}", room.lean_deg, room.gap_at_top_mm)?;
    }
    if let Some(spring) = valve.spring {
        writeln!(t, "spring_shut_n = {:?}", spring.shut_n)?;
        writeln!(t, "spring_rate_n_per_mm = {:?}", spring.rate_n_per_mm)?;
    }
    Ok(())
}
