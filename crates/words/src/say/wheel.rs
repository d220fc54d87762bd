//! A wheel in a few words.
//!
//! Must not know: where it stands.

use crate::lang::Lang;
use layout::{Face, Rim, Role, SeenAt, WheelValues};

/// What stands under a wheel's name: `48 teeth`, `on the back`, `24 teeth, mark at the damper`, `on the
/// back, set before the tensioner`.
pub fn wheel_note(lang: Lang, wheel: &WheelValues) -> String {
    let rim = match (wheel.rim, wheel.face) {
        (Rim::Toothed { teeth }, _) => lang.teeth(f64::from(teeth), 0),
        (Rim::Smooth { .. }, Face::Back) => lang.pick("on the back", "auf dem Rücken").to_owned(),
        (Rim::Smooth { .. }, Face::Toothed) => {
            lang.pick("smooth, on the teeth", "glatt, an den Zähnen").to_owned()
        }
    };
    let more = match wheel.mark.and_then(|mark| mark.seen_at) {
        Some(SeenAt::Damper) => lang.pick("mark at the damper", "Markierung am Dämpfer"),
        Some(SeenAt::Flywheel) => lang.pick("mark at the flywheel", "Markierung am Schwungrad"),
        // It stands where the layout has it: this program moves the tensioner alone.
        Some(SeenAt::Cover) | None if wheel.role == Role::Adjuster => {
            lang.pick("set before the tensioner", "vor der Spannrolle eingestellt")
        }
        Some(SeenAt::Cover) | None => return rim,
    };
    format!("{rim}, {more}")
}
