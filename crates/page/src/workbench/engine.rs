//! Calls for the pictures of the engine: the section, the curves, and what they say.
//!
//! Must not know: any formula, any sentence.

use super::Workbench;
use crate::crossing::out;
use crate::painter::paint;
use crate::panel::wheel_names;
use advice::{NotStated, TEETH_EACH_WAY};
use drive::DVec2;
use engine::Kind;
use js_sys::Float64Array;
use picture::{Boxed, Section, View};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;
use words::say;

/// The share of the section's width that the whole cylinder gets; the rest is the close-up.
const WHOLE_SHARE: f64 = 0.36;
const BETWEEN_PX: f64 = 10.0;
/// From the foot of a gap to the middle of its tag.
const TAG_PX: DVec2 = DVec2::new(22.0, 16.0);

/// What the page says of the engine's pictures.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct EnginePart {
    /// Why there is no picture at all, in a sentence; empty where there is.
    pub missing: String,
    /// What else is not stated, a sentence each.
    pub lacking: Vec<String>,
    /// Whether some gap can be told.
    pub gaps: bool,
    /// The cylinders' names.
    pub cylinders: Vec<String>,
    /// The cylinder shown.
    pub cylinder: usize,
    /// Whether somebody chose it.
    pub chosen: bool,
    /// How it stands, in a sentence.
    pub section: String,
    /// The gaps of its intake and its exhaust valve, for tags; empty where not known.
    pub gap_tags: Vec<String>,
    /// Whether each would touch.
    pub touching: Vec<bool>,
    /// Where in the dial's two turns something would touch, in a sentence.
    pub arcs: String,
    /// What the dial's arcs mean, in sentences.
    pub arcs_note: String,
    /// The unit of lengths.
    pub unit: String,
    /// Least gaps against teeth out: the valves' names.
    pub valves: Vec<String>,
    /// The rows of that table.
    pub teeth: Vec<TeethRow>,
    /// The teeth that the shown cylinder's camshafts are out, in words.
    pub teeth_now: String,
    /// The camshafts by name, in the engine's order.
    pub camshafts: Vec<String>,
}

/// A number of teeth out, and every valve's least gap.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct TeethRow {
    /// The teeth, in words.
    pub teeth: String,
    /// The gaps, in the order of the valves.
    pub gaps: Vec<String>,
}

#[wasm_bindgen]
impl Workbench {
    /// What the page says of the engine's pictures.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = enginePart)]
    pub fn engine_part(&mut self) -> Result<Ts<EnginePart>, JsError> {
        let part = self.part();
        out(&part)
    }

    /// Shows a cylinder, by index; below 0 the one with the least gap.
    #[wasm_bindgen(js_name = chooseCylinder)]
    pub fn choose_cylinder(&mut self, cylinder: i32) {
        self.valves.choose(usize::try_from(cylinder).ok());
    }

    /// Paints the cylinder in section on a cleared canvas: the whole at the left, the chamber enlarged
    /// beside it. Nothing where nothing can be drawn.
    ///
    /// # Errors
    /// What the canvas refuses.
    #[wasm_bindgen(js_name = paintSection)]
    pub fn paint_section(
        &mut self,
        ctx: &CanvasRenderingContext2d,
        width: f64,
        height: f64,
        density: f64,
    ) -> Result<(), JsValue> {
        let cylinder = self.valves.cylinder(&self.job);
        let Some(plan) = self.job.plan().engine.as_ref() else { return Ok(()) };
        let sense = self.job.drive().crank_turns();
        let (Some(section), Some(stand)) =
            (Section::new(&plan.engine, cylinder, sense), advice::stand(&self.job))
        else {
            return Ok(());
        };
        self.list.clear();
        section.draw(&mut self.list, &stand);
        let [whole, close] = section_places(width, height);
        for (place, corners) in [(whole, section.whole()), (close, section.chamber())] {
            ctx.save();
            ctx.begin_path();
            let [x, y, w, h] =
                [place.left, place.top, place.width, place.height].map(|px| px * density);
            ctx.rect(x, y, w, h);
            ctx.clip();
            paint(ctx, &self.list, &self.palette, &into_box(corners, &place), density)?;
            ctx.restore();
        }
        Ok(())
    }

    /// Where on that canvas a tag with the intake valve's and one with the exhaust valve's gap have their
    /// middle, px: x and y one after the other; no numbers for a valve that is left out.
    #[wasm_bindgen(js_name = sectionTags)]
    pub fn section_tags(&mut self, width: f64, height: f64) -> Float64Array {
        let cylinder = self.valves.cylinder(&self.job);
        let section =
            self.job.plan().engine.as_ref().and_then(|plan| {
                Section::new(&plan.engine, cylinder, self.job.drive().crank_turns())
            });
        let stand = advice::stand(&self.job);
        let [_, close] = section_places(width, height);
        let place = |kind: Kind| {
            let (section, stand) = (section.as_ref()?, stand.as_ref()?);
            let foot = section.gap_foot(kind, stand)?;
            let at = into_box(section.chamber(), &close).to_px(foot);
            // A valve's lowest point lies near the wall: the tag keeps off it.
            let inward = if at.x < close.left + close.width / 2.0 { TAG_PX.x } else { -TAG_PX.x };
            let y = (at.y + TAG_PX.y).clamp(TAG_PX.y, height - TAG_PX.y);
            Some([at.x + inward, y])
        };
        let flat = Kind::BOTH.map(|kind| place(kind).unwrap_or([f64::NAN; 2])).concat();
        Float64Array::from(flat.as_slice())
    }

    /// The curves of the cylinder shown, one column of places after the other, lengths in the reader's
    /// unit: places in degrees; intake lift and the same in time; exhaust lift and the same in time; the
    /// piston below the shut intake valve and below the shut exhaust valve. No numbers in a column that is
    /// not known.
    #[wasm_bindgen(js_name = valveCurves)]
    pub fn valve_curves(&mut self) -> Float64Array {
        let cylinder = self.valves.cylinder(&self.job);
        let places: Vec<f64> = advice::curve_places_deg().collect();
        let unknown = || vec![f64::NAN; places.len()];
        let curves = Kind::BOTH.map(|kind| advice::valve_curve(&self.job, cylinder, kind));
        let mut columns = vec![places.clone()];
        for curve in &curves {
            columns.push(curve.as_ref().map_or_else(unknown, |c| c.valve_mm.clone()));
            columns.push(curve.as_ref().map_or_else(unknown, |c| c.in_time_mm.clone()));
        }
        for curve in &curves {
            columns.push(curve.as_ref().map_or_else(unknown, |c| c.piston_mm.clone()));
        }
        for column in &mut columns[1..] {
            column.iter_mut().for_each(|mm| *mm = self.reader.in_unit(*mm));
        }
        Float64Array::from(columns.concat().as_slice())
    }

    /// What the curves read at a place, by its index, in a sentence.
    #[wasm_bindgen(js_name = curveReading)]
    pub fn curve_reading(&mut self, place: usize) -> String {
        let cylinder = self.valves.cylinder(&self.job);
        let Some(deg) = advice::curve_places_deg().nth(place) else { return String::new() };
        let read = |kind| {
            let curve = advice::valve_curve(&self.job, cylinder, kind)?;
            let (down, piston) = (curve.valve_mm[place], curve.piston_mm[place]);
            Some((kind, down, piston - down))
        };
        let valves: Vec<_> = Kind::BOTH.into_iter().filter_map(read).collect();
        say::curve_sentence(self.reader, deg, &valves)
    }

    /// Least gaps of the cylinder shown against teeth out, one column after the other, lengths in the
    /// reader's unit: teeth; intake; exhaust; and each again at the present choice alone.
    #[wasm_bindgen(js_name = teethCurves)]
    pub fn teeth_curves(&mut self) -> Float64Array {
        let teeth: Vec<f64> =
            (-TEETH_EACH_WAY..=TEETH_EACH_WAY).map(|teeth| teeth as f64).collect();
        let unknown = vec![f64::NAN; teeth.len()];
        let gaps = Kind::BOTH.map(|kind| self.gaps_of(kind));
        let mut columns = vec![teeth];
        for gap in &gaps {
            columns.push(gap.as_ref().map_or_else(|| unknown.clone(), |(_, mm)| mm.clone()));
        }
        for gap in &gaps {
            let mut now = unknown.clone();
            if let Some((camshaft, mm)) = gap
                && let Some(i) = self.place_now(*camshaft)
            {
                now[i] = mm[i];
            }
            columns.push(now);
        }
        for column in &mut columns[1..] {
            column.iter_mut().for_each(|mm| *mm = self.reader.in_unit(*mm));
        }
        Float64Array::from(columns.concat().as_slice())
    }

    /// What that plot reads at a place, by its index, in a sentence.
    #[wasm_bindgen(js_name = teethReading)]
    pub fn teeth_reading(&mut self, place: usize) -> String {
        let read =
            |(kind, gap): (Kind, Option<(usize, Vec<f64>)>)| Some((kind, *gap?.1.get(place)?));
        let gaps = Kind::BOTH.map(|kind| (kind, self.gaps_of(kind)));
        let valves: Vec<_> = gaps.into_iter().filter_map(read).collect();
        let teeth = i64::try_from(place).unwrap_or(0) - TEETH_EACH_WAY;
        say::teeth_sentence(self.reader, teeth, &valves)
    }

    /// The same for the present choice, each valve at its own camshaft's teeth; empty where both are at one
    /// place of the plot, which then says it.
    #[wasm_bindgen(js_name = gapsNow)]
    pub fn gaps_now(&mut self) -> String {
        let told = Kind::BOTH.map(|kind| {
            let (camshaft, gaps) = self.gaps_of(kind)?;
            let teeth = advice::camshaft_teeth_out(&self.job, camshaft)?;
            let gap = self.place_now(camshaft).and_then(|place| gaps.get(place).copied());
            Some((kind, teeth, gap))
        });
        let told: Vec<_> = told.into_iter().flatten().collect();
        let first = told.first().map(|(_, teeth, _)| *teeth);
        let one_place = told.iter().all(|(_, teeth, gap)| Some(*teeth) == first && gap.is_some());
        if one_place { String::new() } else { say::gaps_now(self.reader, &told) }
    }

    /// Where on that plot the present choice is, of the intake's camshaft or else the exhaust's; the
    /// middle where it is beyond the plot.
    #[wasm_bindgen(js_name = teethPlace)]
    pub fn teeth_place(&mut self) -> usize {
        let mut of = |kind| self.gaps_of(kind).and_then(|(camshaft, _)| self.place_now(camshaft));
        of(Kind::Intake).or_else(|| of(Kind::Exhaust)).unwrap_or(TEETH_EACH_WAY as usize)
    }

    /// A number as the reader writes it, for an axis that names the unit.
    #[wasm_bindgen(js_name = axisNumber)]
    pub fn axis_number(&self, number: f64) -> String {
        self.reader.lang.short_number(number, 3)
    }
}

impl Workbench {
    fn part(&mut self) -> EnginePart {
        let lang = self.reader.lang;
        let cylinder = self.valves.cylinder(&self.job);
        let arcs = say::arcs_sentence(lang, self.valves.arcs(&self.job));
        let names: Vec<String> =
            wheel_names(self.job.plan(), lang).into_iter().map(str::to_owned).collect();
        let name = |wheel: usize| names.get(wheel).map(String::as_str).unwrap_or_default();
        let all: Vec<&str> = names.iter().map(String::as_str).collect();
        let lacks = advice::not_stated(&self.job);
        let none = |l: &&NotStated| {
            matches!(l, NotStated::Engine | NotStated::Crank | NotStated::Camshafts)
        };
        let missing = lacks.iter().find(none);
        let missing = missing.map_or(String::new(), |l| say::not_stated(lang, l, &all));
        let teeth = self.valves.teeth(&self.job).to_vec();
        let plan = self.job.plan().engine.as_ref();
        let reading = plan.and_then(|plan| {
            let stand = advice::stand(&self.job)?;
            advice::cylinder_reading(&plan.engine, &stand, cylinder)
        });
        let gap_of = |kind: Kind| {
            let valve = reading.as_ref()?.valves.iter().find(|v| v.valve == kind)?;
            valve.gap_mm
        };
        let gaps = Kind::BOTH.map(gap_of);
        let row = |i: usize| TeethRow {
            teeth: say::teeth_place(lang, i as i64 - TEETH_EACH_WAY),
            gaps: teeth.iter().map(|valve| say::least_gap(self.reader, valve.gaps_mm[i])).collect(),
        };
        EnginePart {
            lacking: if missing.is_empty() {
                lacks.iter().map(|l| say::not_stated(lang, l, &all)).collect()
            } else {
                Vec::new()
            },
            missing,
            gaps: !teeth.is_empty(),
            cylinders: (0..plan.map_or(0, |plan| plan.engine.cylinders()))
                .map(|cylinder| say::cylinder_name(lang, cylinder))
                .collect(),
            cylinder,
            chosen: self.valves.chosen().is_some(),
            section: reading
                .as_ref()
                .map_or(String::new(), |reading| say::cylinder_sentence(self.reader, reading)),
            gap_tags: gaps
                .iter()
                .map(|gap| gap.map_or(String::new(), |mm| self.reader.length(mm)))
                .collect(),
            touching: gaps
                .iter()
                .map(|gap| gap.is_some_and(|mm| mm < picture::TOUCHING_MM))
                .collect(),
            arcs,
            arcs_note: say::arcs_note(self.reader),
            unit: self.reader.unit().to_owned(),
            valves: teeth
                .iter()
                .map(|valve| {
                    format!("{}, {}", name(valve.wheel), say::valve_name(lang, valve.valve))
                })
                .collect(),
            teeth: (0..=2 * TEETH_EACH_WAY as usize)
                .filter(|_| !teeth.is_empty())
                .map(row)
                .collect(),
            teeth_now: self.teeth_now(cylinder, &all),
            camshafts: plan
                .map_or(&[][..], |plan| &plan.wheels)
                .iter()
                .map(|wheel| name(*wheel).to_owned())
                .collect(),
        }
    }

    /// `Left camshaft: 2 teeth ahead`, for each camshaft of a cylinder.
    fn teeth_now(&self, cylinder: usize, names: &[&str]) -> String {
        let Some(plan) = self.job.plan().engine.as_ref() else { return String::new() };
        let mut camshafts: Vec<usize> = Kind::BOTH
            .into_iter()
            .filter_map(|kind| plan.engine.moved_by(cylinder, kind))
            .collect();
        camshafts.dedup();
        let told = camshafts.into_iter().filter_map(|camshaft| {
            let teeth = advice::camshaft_teeth_out(&self.job, camshaft)?;
            let name = names.get(*plan.wheels.get(camshaft)?)?;
            Some(format!("{name}: {}", say::teeth_place(self.reader.lang, teeth)))
        });
        told.collect::<Vec<_>>().join("; ")
    }

    /// The camshaft and the least gaps against teeth of a valve of the cylinder shown.
    fn gaps_of(&mut self, kind: Kind) -> Option<(usize, Vec<f64>)> {
        let cylinder = self.valves.cylinder(&self.job);
        let camshaft = self.job.plan().engine.as_ref()?.engine.moved_by(cylinder, kind)?;
        let all = self.valves.teeth(&self.job);
        let valve = all.iter().find(|v| v.camshaft == camshaft && v.valve == kind)?;
        Some((camshaft, valve.gaps_mm.clone()))
    }

    fn place_now(&self, camshaft: usize) -> Option<usize> {
        let teeth = advice::camshaft_teeth_out(&self.job, camshaft)?;
        usize::try_from(teeth + TEETH_EACH_WAY).ok().filter(|i| *i <= 2 * TEETH_EACH_WAY as usize)
    }
}

/// Where the whole cylinder goes, and its close-up.
fn section_places(width: f64, height: f64) -> [Boxed; 2] {
    let left = width * WHOLE_SHARE;
    let beside = left + BETWEEN_PX;
    let whole = Boxed { left: 0.0, top: 0.0, width: left, height };
    [whole, Boxed { left: beside, width: width - beside, ..whole }]
}

/// A view of what lies between two corners, as large as a box lets it, in its middle.
fn into_box((low, high): (DVec2, DVec2), place: &Boxed) -> View {
    let size = high - low;
    let scale = (place.width / size.x).min(place.height / size.y).max(1e-6);
    let middle = (low + high) / 2.0;
    let centre = DVec2::new(place.left + place.width / 2.0, place.top + place.height / 2.0);
    View { scale, origin: DVec2::new(centre.x - middle.x * scale, centre.y + middle.y * scale) }
}
