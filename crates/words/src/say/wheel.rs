//! A wheel in a few words.
//!
//! Must not know: where it stands.

use crate::lang::Lang;

/// What stands under a wheel's name: `48 teeth`, `on the back`, `smooth, on the teeth`.
pub fn wheel_note(lang: Lang, teeth: Option<u32>, on_the_back: bool) -> String {
    match (teeth, on_the_back) {
        (Some(z), _) => lang.teeth(f64::from(z), 0),
        (None, true) => lang.pick("on the back", "auf dem Rücken").to_owned(),
        (None, false) => lang.pick("smooth, on the teeth", "glatt, an den Zähnen").to_owned(),
    }
}
