//! Wheels as they are laid out, whether or not a belt can run round them: where each stands with the tensioner
//! bolted up, and the way that a belt would take.
//!
//! Must not know: whether that belt can be hung, or what is wrong with it.

use drive::{Disc, Moving, Parts, Path, Scene, When, not_touched};
use layout::{Layout, Sketch, TensionerKind};

/// Wheels as they are laid out.
#[derive(Clone, Debug)]
pub struct LaidOut {
    /// Each wheel's pitch circle.
    pub discs: Vec<Disc>,
    /// The way round them; `None` where there is none, or it would miss a wheel.
    pub path: Option<Path>,
    /// What the belt has over that way, mm, negative where it is short; `None` without one.
    pub misfit_mm: Option<f64>,
}

/// The wheels of a sketch as they are laid out.
pub fn laid_out(Sketch { layout, parts }: &Sketch) -> LaidOut {
    let Some(mut moving) = moving(parts) else {
        return LaidOut { discs: discs(parts), path: None, misfit_mm: None };
    };
    let found = moving.stand_at(bolted(layout)).is_ok() && !misses_a_wheel(parts, &moving);
    let Moving { discs, path, .. } = moving;
    let path = found.then_some(path);
    let misfit_mm = path.as_ref().map(|path| parts.belt.pitch_length_mm() - path.length_mm);
    LaidOut { discs, path, misfit_mm }
}

fn misses_a_wheel(parts: &Parts, Moving { discs, path, .. }: &Moving<'_>) -> bool {
    let outside_mm: Vec<f64> =
        parts.wheels.iter().map(|wheel| wheel.outside_radius_mm(&parts.belt)).collect();
    let sense = parts.crank_turns.sign();
    let scene = Scene { belt: &parts.belt, discs, outside_mm: &outside_mm, path, sense };
    let mut missed = Vec::new();
    not_touched(&scene, When::Taut, &mut missed);
    !missed.is_empty()
}

/// The circles with the tensioner free to move.
pub(crate) fn moving(parts: &Parts) -> Option<Moving<'_>> {
    let home = parts.wheels.get(parts.tensioner.wheel)?.centre;
    let (belt, tensioner) = (&parts.belt, &parts.tensioner);
    Some(Moving { belt, tensioner, home, discs: discs(parts), path: Path::default() })
}

fn discs(parts: &Parts) -> Vec<Disc> {
    parts.wheels.iter().map(|wheel| wheel.disc(&parts.belt, parts.crank_turns)).collect()
}

/// Where the tensioner stands bolted up; a sprung eccentric of which the file does not say, in the middle of
/// its pointer's window.
pub(crate) fn bolted(layout: &Layout) -> f64 {
    let kind = layout.tensioner.kind;
    kind.bolted_travel().unwrap_or(match kind {
        TensionerKind::SprungEccentric { pointer_window_deg: [low, high], .. } => {
            kind.travel_unit().inside((low + high) / 2.0)
        }
        _ => 0.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIX: &str = include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");
    const PUMP: &str = "at_mm = [6.0, 240.0]";

    fn with_pump_at(at: &str) -> LaidOut {
        assert!(SIX.contains(PUMP));
        laid_out(&Sketch::of(&SIX.replace(PUMP, &format!("at_mm = {at}"))).unwrap())
    }

    #[test]
    fn the_way_is_there_wherever_a_line_goes_round_and_touches_every_wheel() {
        let teeth = |belt: u32| {
            let text = SIX.replace("teeth = 173", &format!("teeth = {belt}"));
            laid_out(&Sketch::of(&text).unwrap()).misfit_mm.unwrap() / 9.525
        };
        assert!(teeth(173).abs() < 1.0);
        assert!((teeth(140) - teeth(173) + 33.0).abs() < 1e-9, "33 teeth shorter");
        // Pressed in deeper it takes a longer belt; into a sprocket there is no line; lifted off, no wrap.
        let deeper = with_pump_at("[6.0, 200.0]").misfit_mm.unwrap();
        assert!(deeper < with_pump_at("[6.0, 240.0]").misfit_mm.unwrap() - 10.0);
        for none in ["[160.0, 320.0]", "[6.0, 500.0]"] {
            let laid = with_pump_at(none);
            assert!(laid.path.is_none() && laid.misfit_mm.is_none(), "{none}");
            assert_eq!(laid.discs.len(), 6, "{none}");
        }
    }
}
