//! A display list as a stand-alone SVG drawing, true to size: one unit is a millimetre, y turned down.
//!
//! Every shape is one path that tells by `data-part` what it shows; neighbours of one class stand in
//! one group named after it. Nothing is drawn that the list does not hold, but for the wheels' names
//! beside the wheels and the lines of the caption.
//!
//! Must not know: what the texts say, or in which language. Colours stand in `svg/style.css` alone.

mod names;
mod outline;
mod text;

use crate::ground::Ground;
use crate::list::{Class, Item, List, Part};
use drive::DVec2;
use engine::Kind;
use names::{Name, Sizes, names};
use outline::{bounds, number, path_data};
use text::{escaped, wrapped};

/// What stands on a drawing beside its shapes.
#[derive(Clone, Copy, Debug)]
pub struct Texts<'a> {
    /// What the drawing is called.
    pub title: &'a str,
    /// What it shows, in a sentence or some.
    pub about: &'a str,
    /// The language of all texts, as in `xml:lang`.
    pub language: &'a str,
    /// Each wheel, by index.
    pub wheels: &'a [WheelTexts<'a>],
}

/// What a wheel is called.
#[derive(Clone, Copy, Debug)]
pub struct WheelTexts<'a> {
    /// In the layout file.
    pub id: &'a str,
    /// By people: stands beside the wheel.
    pub name: &'a str,
    /// Its index among the sprockets, if it is one.
    pub sprocket: Option<usize>,
}

/// Colours and line widths of every class.
const STYLE: &str = include_str!("svg/style.css");
/// Free room round everything, in ems.
const MARGIN_EM: f64 = 1.0;

/// The drawing of what `list` holds as SVG text; `ground` is that of the same drive or sketch. The
/// same values give the same text on every machine.
///
/// Coordinates have at most four decimals. `data-part` is `wheel ID`, `cover ID`, `stripe ID`,
/// `belt-tooth N`, `belt-on-sprockets`, `belt-run N`, `dial`.
pub fn svg(list: &List, ground: &Ground, texts: &Texts<'_>) -> String {
    let drawn = bounds(list);
    let sizes = Sizes::of(drawn.1 - drawn.0);
    let (names, leaders) = names(list, ground, texts, &sizes, drawn);
    let corners = names.iter().map(|name| (name.low, name.high));
    let (low, high) = corners.fold(drawn, |(low, high), (l, h)| (low.min(l), high.max(h)));
    let margin = DVec2::splat(MARGIN_EM * sizes.em_mm);
    let (low, high) = (low - margin, high + margin);
    // Below what is drawn the caption: title, then what it is about.
    let lines = wrapped(texts.about, (high.x - low.x) / sizes.em_mm - 2.0 * MARGIN_EM);
    let below = sizes.line_mm * (lines.len() as f64 + 1.5);
    let size = high - low + DVec2::new(0.0, below);

    let mut out = opening(texts, &sizes, DVec2::new(low.x, -high.y), size);
    groups(&mut out, &leaders, texts);
    groups(&mut out, list, texts);
    out += "<g class=\"names\">\n";
    for name in &names {
        wheel_name(&mut out, name, texts, &sizes);
    }
    out += "</g>\n<g class=\"caption\">\n";
    let about = lines.iter().map(|line| (line.as_str(), "about"));
    for (i, (line, class)) in std::iter::once((texts.title, "title")).chain(about).enumerate() {
        let at = DVec2::new(low.x + margin.x, low.y - sizes.line_mm * (i as f64 + 0.6));
        let at = format!("x=\"{}\" y=\"{}\"", number(at.x), number(-at.y));
        out += &format!("<text class=\"{class}\" {at}>{}</text>\n", escaped(line));
    }
    out + "</g>\n</svg>\n"
}

fn wheel_name(out: &mut String, name: &Name, texts: &Texts<'_>, sizes: &Sizes) {
    let Some(wheel) = texts.wheels.get(name.wheel) else { return };
    let x = number((name.low.x + name.high.x) / 2.0);
    *out += &format!("<text data-part=\"wheel {}\">", escaped(wheel.id));
    for (i, line) in name.lines.iter().enumerate() {
        // Letters stand on a line about two thirds down their row.
        let y = number(-name.high.y + sizes.line_mm * (i as f64 + 0.5) + 0.35 * sizes.em_mm);
        *out += &format!("<tspan x=\"{x}\" y=\"{y}\">{}</tspan>", escaped(line));
    }
    *out += "</text>\n";
}

fn opening(texts: &Texts<'_>, sizes: &Sizes, corner: DVec2, size: DVec2) -> String {
    let [x, y, width, height] = [corner.x, corner.y, size.x, size.y].map(number);
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"{x} {y} {width} {height}\" font-size=\"{}\" role=\"img\" \
         aria-labelledby=\"title about\" xml:lang=\"{}\">\n\
         <title id=\"title\">{}</title>\n<desc id=\"about\">{}</desc>\n<style>\n{STYLE}</style>\n\
         <rect class=\"paper\" x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"/>\n",
        number(sizes.em_mm),
        escaped(texts.language),
        escaped(texts.title),
        escaped(texts.about),
    )
}

/// Emits a list's shapes; neighbours of one class and one width as one group.
fn groups(out: &mut String, list: &List, texts: &Texts<'_>) {
    let mut group: Option<(Class, f64)> = None;
    for item in list.items() {
        let this = (item.class, item.width_mm);
        if group != Some(this) {
            out.push_str(if group.is_some() { "</g>\n" } else { "" });
            *out += &format!("<g class=\"{}\"", item.class.name());
            if item.width_mm > 0.0 {
                *out += &format!(" stroke-width=\"{}\"", number(item.width_mm));
            }
            out.push_str(">\n");
            group = Some(this);
        }
        *out += &format!(
            "<path data-part=\"{}\" d=\"{}\"/>\n",
            part_name(item, texts),
            path_data(list.outline(item))
        );
    }
    out.push_str(if group.is_some() { "</g>\n" } else { "" });
}

fn part_name(item: &Item, texts: &Texts<'_>) -> String {
    let id = |i: usize| texts.wheels.get(i).map_or_else(|| i.to_string(), |w| escaped(w.id));
    match item.part {
        Part::Wheel(i) => format!("wheel {}", id(i)),
        Part::Cover(i) => format!("cover {}", id(i)),
        Part::Stripe(k) => {
            let wheel = texts.wheels.iter().position(|w| w.sprocket == Some(k));
            format!("stripe {}", wheel.map_or_else(|| k.to_string(), id))
        }
        Part::BeltTooth(n) => format!("belt-tooth {n}"),
        Part::Belt(None) => "belt-on-sprockets".to_owned(),
        Part::Belt(Some(run)) => format!("belt-run {run}"),
        Part::Dial => "dial".to_owned(),
        Part::Cylinder(c) => format!("cylinder {}", c + 1),
        Part::Piston(c) => format!("piston {}", c + 1),
        Part::Valve(c, Kind::Intake) => format!("intake-valve {}", c + 1),
        Part::Valve(c, Kind::Exhaust) => format!("exhaust-valve {}", c + 1),
        Part::Map(camshaft) => format!("contact-map {camshaft}"),
    }
}

#[cfg(test)]
mod tests;
