//! A span that is plucked, and one that is pushed in its middle: two ways to measure its tension.
//!
//! Must not know: which span.
//!
//! The belt is taken for a string without stiffness, fixed where it leaves one wheel and meets the next. A
//! real one is a little stiffer, and sounds a little higher.

const MM_PER_M: f64 = 1000.0;

/// Lowest tone of a span, Hz: √(T/m′)/(2ℓ). Tension N, 0 or more; mass of a metre of belt kg/m and length
/// mm, above 0.
pub fn tone_hz(tension_n: f64, mass_kg_per_m: f64, span_mm: f64) -> f64 {
    libm::sqrt(tension_n / mass_kg_per_m) * MM_PER_M / (2.0 * span_mm)
}

/// The tension with which a span sounds so, N: 4·m′·ℓ²·f².
pub fn tone_tension_n(hz: f64, mass_kg_per_m: f64, span_mm: f64) -> f64 {
    let per_s = 2.0 * hz * span_mm / MM_PER_M;
    mass_kg_per_m * per_s * per_s
}

/// What it takes to push the middle of a span aside by `aside_mm`, N: 2·T·sin α with tan α = 2δ/ℓ, the
/// tension staying as it is. For a small push 4·T·δ/ℓ.
pub fn pushes_back_n(tension_n: f64, span_mm: f64, aside_mm: f64) -> f64 {
    4.0 * tension_n * aside_mm / libm::hypot(span_mm, 2.0 * aside_mm)
}

/// The tension with which a span gives so far to a push in its middle, N. `aside_mm` above 0.
pub fn pushed_tension_n(push_n: f64, span_mm: f64, aside_mm: f64) -> f64 {
    push_n * libm::hypot(span_mm, 2.0 * aside_mm) / (4.0 * aside_mm)
}
