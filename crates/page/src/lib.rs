//! The page's door into the program: typed calls, and the painter that walks a display list onto a
//! canvas.
//!
//! Everything crosses once: a call hands over plain values, and what comes back is a copy. The page
//! holds one [`Workbench`] and no part of its truth.
//!
//! **Must not know:** any formula, any sentence.

mod crossing;
mod draft;
mod hand;
mod painter;
mod panel;
mod run;
mod shipped;
mod telling;
mod valves;
mod workbench;

pub use workbench::Workbench;

use wasm_bindgen::prelude::wasm_bindgen;

/// Called once, before anything else: a panic then says in the console where it was.
#[wasm_bindgen(start)]
pub fn start() {
    console_error_panic_hook::set_once();
}
