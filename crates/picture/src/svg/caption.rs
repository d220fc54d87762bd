//! Where the wheels' names stand on a drawing, and how large its letters are.
//!
//! Must not know: how a name is written down.

use super::{Texts, width_em};
use crate::ground::Ground;
use crate::labels::{LabelBox, leaders, place_labels};
use crate::list::{Class, List, Part, Piece};
use crate::outline_points;
use crate::view::View;
use drive::DVec2;
