//! Calls for the belt-off contact map: to see it, to read it, and to move in it.
//!
//! Must not know: any formula, any sentence.

use super::{Told, Workbench};
use crate::crossing::out;
use crate::painter::paint;
use crate::panel::wheel_names;
use drive::DVec2;
use engine::{Meeting, wrap_cycle, wrap_turn};
use job::Action;
use picture::{MAP_REACH, View};
use tsify::Ts;
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;
use words::say;

#[wasm_bindgen]
impl Workbench {
    /// Paints the contact map of a camshaft, `size` px square, on a cleared canvas.
    ///
    /// # Errors
    /// What the canvas refuses.
    #[wasm_bindgen(js_name = paintMap)]
    pub fn paint_map(
        &mut self,
        ctx: &CanvasRenderingContext2d,
        camshaft: usize,
        size: f64,
        density: f64,
    ) -> Result<(), JsValue> {
        self.list.clear();
        if let Some(stand) = advice::stand(&self.job)
            && let Some(map) = self.valves.map(&self.job, camshaft)
        {
            map.draw(&mut self.list, &stand);
        }
        paint(ctx, &self.list, &self.palette, &map_view(size), density)
    }

    /// What the contact map of a camshaft says of where the shafts stand.
    #[wasm_bindgen(js_name = mapReading)]
    pub fn map_reading(&mut self, camshaft: usize) -> String {
        let job = &self.job;
        let (Some(plan), Some(stand)) = (job.plan().engine.as_ref(), advice::stand(job)) else {
            return String::new();
        };
        let names = wheel_names(job.plan(), self.reader.lang);
        let name = |wheel: usize| names.get(wheel).copied().unwrap_or_default();
        let crank = name(job.drive().sprockets()[0].wheel);
        let cam = name(plan.wheels.get(camshaft).copied().unwrap_or_default());
        let cam_deg = stand.camshaft_deg(camshaft);
        let near = plan.engine.loose().ok().and_then(|loose| {
            let near = loose.near(camshaft, stand.crank_deg, cam_deg)?;
            match near.parts {
                Meeting::Piston { cylinder, valve, .. } => Some((cylinder, valve, near.gap_mm)),
                Meeting::Valves { .. } => None,
            }
        });
        let shafts = [(crank, wrap_turn(stand.crank_deg)), (cam, wrap_cycle(cam_deg) / 2.0)];
        say::map_sentence(self.reader, shafts, near)
    }

    /// With the belt off, turns crank and camshaft to a point of the map (px from its top left corner,
    /// on a map of `size` px). With `goes_on`, the same drag goes on. Nothing with the belt on.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = mapTurn)]
    pub fn map_turn(
        &mut self,
        camshaft: usize,
        x: f64,
        y: f64,
        size: f64,
        goes_on: bool,
    ) -> Result<Option<Ts<Told>>, JsError> {
        let Some(stand) = advice::stand(&self.job) else { return Ok(None) };
        let aim = map_view(size).to_mm(DVec2::new(x, y));
        let aim = aim.clamp(DVec2::splat(-MAP_REACH), DVec2::splat(MAP_REACH));
        let crank_deg = wrap_turn(aim.x - wrap_turn(stand.crank_deg));
        let cam_deg = wrap_cycle(2.0 * aim.y - stand.camshaft_deg(camshaft)) / 2.0;
        self.turn_both(camshaft, crank_deg, cam_deg, goes_on)
    }

    /// With the belt off, turns the crank and a camshaft by so many degrees each.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = mapStep)]
    pub fn map_step(
        &mut self,
        camshaft: usize,
        crank_deg: f64,
        cam_deg: f64,
    ) -> Result<Option<Ts<Told>>, JsError> {
        self.turn_both(camshaft, crank_deg, cam_deg, false)
    }
}

impl Workbench {
    fn turn_both(
        &mut self,
        camshaft: usize,
        crank_deg: f64,
        cam_deg: f64,
        goes_on: bool,
    ) -> Result<Option<Ts<Told>>, JsError> {
        let wheel = self.job.plan().engine.as_ref().and_then(|p| p.wheels.get(camshaft).copied());
        let Some(wheel) = wheel.filter(|_| !self.job.cord().is_on()) else { return Ok(None) };
        let crank = self.job.drive().sprockets()[0].wheel;
        self.run = None;
        let mut all =
            Told { done: false, text: String::new(), stopped: false, other_layout: false };
        for (wheel, deg) in [(crank, crank_deg), (wheel, cam_deg)] {
            if deg == 0.0 {
                continue;
            }
            let shaft = self.job.plan().id(wheel).to_owned();
            let told = self.do_it(&Action::Turn { shaft, deg }, goes_on || all.done);
            all.done |= told.done;
            all.text = format!("{} {}", all.text, told.text).trim().to_owned();
        }
        if all.text.is_empty() { Ok(None) } else { out(&all).map(Some) }
    }
}

/// The map's own units in a square of `size` px.
fn map_view(size: f64) -> View {
    View { scale: size / 2.0 / MAP_REACH, origin: DVec2::splat(size / 2.0) }
}
