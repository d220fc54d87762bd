//! From the one truth to shapes: a flat display list in millimetres, each shape with a class and the
//! part that it shows; where labels and handles go; which part is at a point.
//!
//! Nothing is drawn that the readings do not state: every mark, belt tooth and hanging run can be
//! recovered from the list.
//!
//! **Must not know:** colours and line widths on a screen (a class has a name, whoever paints decides),
//! browsers, words.

mod belt_shape;
mod contact_map;
mod count_shape;
mod dial;
mod drive_picture;
mod ground;
mod labels;
mod list;
mod mark_shape;
mod section;
mod sketch_picture;
mod svg;
mod view;
mod wheel_shape;

pub use contact_map::{ContactMap, MAP_REACH};
pub use dial::{DIAL_REACH, Dial, dial_angle_deg};
pub use drive_picture::DrivePicture;
pub use ground::Ground;
pub use labels::{LabelBox, LabelPlace, leaders, place_labels};
pub use list::{Class, Item, List, Part, Piece};
pub use section::{Section, TOUCHING_MM};
pub use sketch_picture::SketchPicture;
pub use svg::{Texts, WheelTexts, svg};
pub use view::{Boxed, View};
