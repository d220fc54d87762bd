//! Calls that move wheels about in the view, the belt following.
//!
//! Must not know: pointers or fingers; the text of a layout, beyond that a wheel's place stands in it.

use super::{Opened, Workbench};
use crate::crossing::out;
use drive::DVec2;
use layout::{Edit, Sketch, Value, apply};
use tsify::Ts;
use wasm_bindgen::prelude::{JsError, wasm_bindgen};

/// A wheel on the move.
#[derive(Clone, Copy, Debug)]
pub struct Move {
    wheel: usize,
    /// From the hand to the wheel's `at_mm`, mm: a tensioner's wheel need not stand there.
    offset: DVec2,
}

#[wasm_bindgen]
impl Workbench {
    /// Takes hold of the wheel at a point of the view (px) to move it; its index, −1 if there is none.
    #[wasm_bindgen(js_name = takeWheel)]
    pub fn take_wheel(&mut self, x: f64, y: f64) -> i32 {
        let point = self.view.to_mm(DVec2::new(x, y));
        let wheel = match &self.draft {
            Some(draft) => draft.part_at(point),
            None => self.picture.part_at(&self.job, point),
        };
        self.moving = wheel.and_then(|wheel| {
            let at = Sketch::of(self.job.text())?.layout.wheels.get(wheel)?.at_mm;
            Some(Move { wheel, offset: DVec2::from_array(at) - point })
        });
        self.moving.map_or(-1, |held| i32::try_from(held.wheel).unwrap_or(-1))
    }

    /// Moves the wheel that is held to a point of the view (px), in the view as it is. With `goes_on`, the
    /// same drag goes on.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = moveWheelTo)]
    pub fn move_wheel_to(
        &mut self,
        x: f64,
        y: f64,
        goes_on: bool,
    ) -> Result<Option<Ts<Opened>>, JsError> {
        let Some(held) = self.moving else { return Ok(None) };
        let at = self.view.to_mm(DVec2::new(x, y)) + held.offset;
        self.place_wheel(held.wheel, at, goes_on)
    }

    /// Moves a wheel by so many mm to the right and up.
    ///
    /// # Errors
    /// Never in practice.
    #[wasm_bindgen(js_name = nudgeWheel)]
    pub fn nudge_wheel(
        &mut self,
        wheel: usize,
        right_mm: f64,
        up_mm: f64,
    ) -> Result<Option<Ts<Opened>>, JsError> {
        let sketch = Sketch::of(self.job.text());
        let Some(at) = sketch.and_then(|s| s.layout.wheels.get(wheel).map(|w| w.at_mm)) else {
            return Ok(None);
        };
        self.place_wheel(wheel, DVec2::from_array(at) + DVec2::new(right_mm, up_mm), false)
    }
}

impl Workbench {
    fn place_wheel(
        &mut self,
        wheel: usize,
        at: DVec2,
        goes_on: bool,
    ) -> Result<Option<Ts<Opened>>, JsError> {
        // A tenth of a millimetre is finer than a hand.
        let at_mm = (at * 10.0).round() / 10.0;
        let value = Value::Numbers(at_mm.to_array().to_vec());
        let edit = Edit::Set { path: format!("wheel[{wheel}].at_mm"), value };
        let Ok(text) = apply(self.job.text(), &[edit]) else { return Ok(None) };
        let problems = self.write(&text, goes_on);
        self.remake();
        out(&Opened { problems }).map(Some)
    }
}
