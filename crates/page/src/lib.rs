//! The page's door into the program (being built).
use wasm_bindgen::prelude::*;

/// Called once, before anything else: a panic then says in the console where it was.
#[wasm_bindgen(start)]
pub fn start() {
    console_error_panic_hook::set_once();
}
