//! The keys of `[belt]`.

use crate::key::{Bounds, Key, Kind, Unit, mm, teeth};

pub(super) static BELT: &[Key] = &[
    Key::required("teeth", Kind::Whole(teeth(20.0, 400.0)), "Teeth all round the belt."),
    Key::required(
        "pitch_mm",
        Kind::Number(mm(1.0, 40.0)),
        "From one tooth to the next along the pitch line.",
    ),
    Key::required(
        "thickness_mm",
        Kind::Number(mm(0.5, 30.0)),
        "The whole belt, from the tip of a tooth to the back.",
    ),
    Key::required(
        "tooth_height_mm",
        Kind::Number(mm(0.2, 20.0)),
        "From the land between the teeth to the tip of a tooth.",
    ),
    Key::required(
        "pitch_line_differential_mm",
        Kind::Number(mm(0.0, 5.0)),
        "From the land between the teeth up to the pitch line, where the cords lie.",
    ),
    Key::optional("width_mm", Kind::Number(mm(1.0, 200.0)), "Width of the belt."),
    Key::optional(
        "tensile_stiffness_n",
        Kind::Number(Bounds { least: 1000.0, most: 1.0e8, unit: Unit::Newtons }),
        "Force over strain: the pull that would stretch the belt to double its length.",
    ),
    Key::optional(
        "mass_kg_per_m",
        Kind::Number(Bounds { least: 0.001, most: 10.0, unit: Unit::KilogramsPerMetre }),
        "Mass of one metre of belt.",
    ),
    Key::optional(
        "direction_arrow",
        Kind::Flag,
        "Whether an arrow on the belt says which way it runs.",
    ),
];
