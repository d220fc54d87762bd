//! Walks a display list onto a canvas, each class in its colours.
//!
//! Must not know: what the shapes show. Neighbours of one class become one path, so that styles change
//! rarely.

use js_sys::Array;
use picture::{Class, Item, List, Piece, View};
use wasm_bindgen::JsValue;
use web_sys::CanvasRenderingContext2d;

/// Each class's fill and stroke as the page's style sheet has them; empty where there is none.
#[derive(Clone, Debug, Default)]
pub struct Palette {
    fills: Vec<String>,
    strokes: Vec<String>,
}

impl Palette {
    /// From a list of strings: for each class in its order, fill, then stroke.
    pub fn new(colours: &Array) -> Self {
        let colour = |i: usize| colours.get(i as u32).as_string().unwrap_or_default();
        Self {
            fills: (0..Class::ALL.len()).map(|i| colour(2 * i)).collect(),
            strokes: (0..Class::ALL.len()).map(|i| colour(2 * i + 1)).collect(),
        }
    }
}

/// Width of a class's line on the screen, px, where the list gives none in mm.
fn line_px(class: Class) -> f64 {
    match class {
        Class::Metal | Class::Window | Class::Hub | Class::Bolt | Class::Ring => 1.0,
        Class::Track | Class::Division | Class::Leader | Class::MarkRim | Class::OtherMark => 1.25,
        Class::Stripe | Class::Reference | Class::Knob | Class::MarkIn | Class::MarkOut => 0.75,
        Class::Arrow | Class::Ghost | Class::CountTick => 1.5,
        Class::Held => 1.0,
        Class::Unhung => 2.0,
        Class::Drift | Class::Picked => 2.5,
        Class::Fault => 3.5,
        Class::Winding => 7.0,
        Class::Turned => 7.0,
        Class::Hand => 2.0,
        Class::BeltTooth | Class::BeltBody | Class::CoverMark | Class::MapTouch => 0.0,
        Class::Port | Class::CylinderWall | Class::CrankThrow | Class::Rod => 1.0,
        Class::Piston | Class::Valve | Class::MapLine => 1.0,
        Class::ValveTouching | Class::Gap | Class::MapMark | Class::MapPoint => 2.0,
        Class::NearArc => 2.0,
        Class::ContactArc => 5.0,
    }
}

/// Paints `list` in `view` onto a canvas cleared before, whose pixels are `density` to a px.
///
/// # Errors
/// What the canvas refuses.
pub fn paint(
    ctx: &CanvasRenderingContext2d,
    list: &List,
    palette: &Palette,
    view: &View,
    density: f64,
) -> Result<(), JsValue> {
    let scale = view.scale * density;
    let (x, y) = (view.origin.x * density, view.origin.y * density);
    ctx.set_transform(scale, 0.0, 0.0, -scale, x, y)?;
    ctx.set_line_join("round");
    ctx.set_line_cap("butt");
    let mut group: Option<&Item> = None;
    for item in list.items() {
        let goes_on = group.is_some_and(|g| g.class == item.class && g.width_mm == item.width_mm);
        if !goes_on {
            if let Some(done) = group {
                finish(ctx, done, palette, view.scale);
            }
            ctx.begin_path();
            group = Some(item);
        }
        for piece in list.outline(item) {
            match piece {
                Piece::Move(p) => ctx.move_to(p.x, p.y),
                Piece::Line(p) => ctx.line_to(p.x, p.y),
                Piece::Arc { centre, radius, from_rad, sweep_rad } => ctx.arc_with_anticlockwise(
                    centre.x,
                    centre.y,
                    radius.max(0.0),
                    from_rad,
                    from_rad + sweep_rad,
                    sweep_rad < 0.0,
                )?,
                Piece::Close => ctx.close_path(),
            }
        }
    }
    if let Some(done) = group {
        finish(ctx, done, palette, view.scale);
    }
    ctx.set_transform(1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
}

/// Dash and gap of a class's line on the screen, px; none where it is whole.
fn dash_px(class: Class) -> Option<[f64; 2]> {
    (class == Class::Unhung).then_some([8.0, 6.0])
}

fn finish(ctx: &CanvasRenderingContext2d, item: &Item, palette: &Palette, scale: f64) {
    let class = item.class as usize;
    if let Some(fill) = palette.fills.get(class).filter(|c| !c.is_empty()) {
        ctx.set_fill_style_str(fill);
        ctx.fill();
    }
    if let Some(stroke) = palette.strokes.get(class).filter(|c| !c.is_empty()) {
        ctx.set_stroke_style_str(stroke);
        let px = line_px(item.class);
        ctx.set_line_width(if item.width_mm > 0.0 { item.width_mm } else { px / scale });
        let dashed = dash_px(item.class);
        if let Some(dash) = dashed {
            let _ = ctx
                .set_line_dash(&dash.iter().map(|px| JsValue::from(px / scale)).collect::<Array>());
        }
        ctx.stroke();
        if dashed.is_some() {
            let _ = ctx.set_line_dash(&Array::new());
        }
    }
}
