//! The display list: shapes one after the other in flat buffers that are kept from frame to frame.
//!
//! Must not know: what the shapes mean to an engine, or what colour they get.

use drive::DVec2;
use engine::Kind;

/// How a shape is to be painted. The order is the order of painting: later ones lie on top.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum Class {
    /// From a label that stands off to the wheel that it names.
    Leader,
    /// The line along which the tensioner moves.
    Track,
    /// The metal of a wheel.
    Metal,
    /// What is cut out of it.
    Window,
    /// A ring turned into it.
    Ring,
    /// A hub.
    Hub,
    /// The hole or bolt in a hub.
    Bolt,
    /// The arrow that says which way it runs.
    Arrow,
    /// The belt's teeth.
    BeltTooth,
    /// The belt's body, a line as wide as the belt is thick above its teeth.
    BeltBody,
    /// The way of a belt that cannot be hung so: a dashed line, nothing like a belt.
    Unhung,
    /// A stripe painted across the belt.
    Stripe,
    /// A tick at a tooth of the belt, to count by.
    CountTick,
    /// The dot at a sprocket's reference groove.
    Reference,
    /// A mark on a wheel that is not its timing mark.
    OtherMark,
    /// The rim that carries a mark beyond its sprocket: a damper or flywheel.
    MarkRim,
    /// The mark on the cover.
    CoverMark,
    /// Where a mark that is out of time should be.
    Ghost,
    /// How far it is out: an arc and its arrowhead.
    Drift,
    /// A wheel's mark, in time.
    MarkIn,
    /// A wheel's mark, out of time.
    MarkOut,
    /// A bar across a wheel that is held.
    Held,
    /// A ring round a part that cannot be as it is.
    Fault,
    /// A ring round the part that is picked.
    Picked,
    /// The dial's winding.
    Winding,
    /// The part of it that has been turned through.
    Turned,
    /// Its divisions.
    Division,
    /// Its hand.
    Hand,
    /// Its knob.
    Knob,
    /// The channel to a valve.
    Port,
    /// A cylinder's wall and head, cut.
    CylinderWall,
    /// The crank's throw.
    CrankThrow,
    /// The connecting rod.
    Rod,
    /// A piston, cut.
    Piston,
    /// A valve: stem and head.
    Valve,
    /// A valve that would be in the same place as its piston.
    ValveTouching,
    /// The gap along the bore from a valve to its piston.
    Gap,
    /// On the dial: some gap is below the usual margin.
    NearArc,
    /// On the dial: some valve would touch.
    ContactArc,
    /// On the contact map: where a valve would touch.
    MapTouch,
    /// Its frame and its lines.
    MapLine,
    /// Its marks in time.
    MapMark,
    /// Where crank and camshaft stand on it.
    MapPoint,
}

impl Class {
    /// All of them, in the order of painting.
    pub const ALL: [Self; 43] = [
        Self::Leader,
        Self::Track,
        Self::Metal,
        Self::Window,
        Self::Ring,
        Self::Hub,
        Self::Bolt,
        Self::Arrow,
        Self::BeltTooth,
        Self::BeltBody,
        Self::Unhung,
        Self::Stripe,
        Self::CountTick,
        Self::Reference,
        Self::OtherMark,
        Self::MarkRim,
        Self::CoverMark,
        Self::Ghost,
        Self::Drift,
        Self::MarkIn,
        Self::MarkOut,
        Self::Held,
        Self::Fault,
        Self::Picked,
        Self::Winding,
        Self::Turned,
        Self::Division,
        Self::Hand,
        Self::Knob,
        Self::Port,
        Self::CylinderWall,
        Self::CrankThrow,
        Self::Rod,
        Self::Piston,
        Self::Valve,
        Self::ValveTouching,
        Self::Gap,
        Self::NearArc,
        Self::ContactArc,
        Self::MapTouch,
        Self::MapLine,
        Self::MapMark,
        Self::MapPoint,
    ];

    /// Its name in style sheets.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Leader => "leader",
            Self::Track => "track",
            Self::Metal => "metal",
            Self::Window => "window",
            Self::Ring => "ring",
            Self::Hub => "hub",
            Self::Bolt => "bolt",
            Self::Arrow => "arrow",
            Self::BeltTooth => "belt-tooth",
            Self::BeltBody => "belt-body",
            Self::Unhung => "unhung",
            Self::Stripe => "stripe",
            Self::CountTick => "count-tick",
            Self::Reference => "reference",
            Self::OtherMark => "other-mark",
            Self::MarkRim => "mark-rim",
            Self::CoverMark => "cover-mark",
            Self::Ghost => "ghost",
            Self::Drift => "drift",
            Self::MarkIn => "mark-in",
            Self::MarkOut => "mark-out",
            Self::Held => "held",
            Self::Fault => "fault",
            Self::Picked => "picked",
            Self::Winding => "winding",
            Self::Turned => "turned",
            Self::Division => "division",
            Self::Hand => "hand",
            Self::Knob => "knob",
            Self::Port => "port",
            Self::CylinderWall => "cylinder-wall",
            Self::CrankThrow => "crank-throw",
            Self::Rod => "rod",
            Self::Piston => "piston",
            Self::Valve => "valve",
            Self::ValveTouching => "valve-touching",
            Self::Gap => "gap",
            Self::NearArc => "near-arc",
            Self::ContactArc => "contact-arc",
            Self::MapTouch => "map-touch",
            Self::MapLine => "map-line",
            Self::MapMark => "map-mark",
            Self::MapPoint => "map-point",
        }
    }
}

/// What a shape shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// A wheel, by index.
    Wheel(usize),
    /// The mark on the cover of a wheel, by index.
    Cover(usize),
    /// A belt tooth, by number.
    BeltTooth(usize),
    /// The belt's body on a sprocket (`None`), or in a run, by index.
    Belt(Option<usize>),
    /// The stripe painted at sprocket (by index among the sprockets).
    Stripe(usize),
    /// The dial.
    Dial,
    /// The wall, the head and the channels of a cylinder, by index.
    Cylinder(usize),
    /// A cylinder's piston, rod and throw.
    Piston(usize),
    /// A valve of a cylinder, or the gap below it.
    Valve(usize, Kind),
    /// The contact map of a camshaft, by its index in the engine.
    Map(usize),
}

/// One step of an outline, read back from the list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// Go to, without drawing.
    Move(DVec2),
    /// Straight on to.
    Line(DVec2),
    /// Along an arc, which joins on where the outline is.
    Arc {
        /// Centre.
        centre: DVec2,
        /// Radius.
        radius: f64,
        /// Where it starts, rad from +x, anticlockwise.
        from_rad: f64,
        /// How far it goes, rad, anticlockwise positive.
        sweep_rad: f64,
    },
    /// Back to where the outline began.
    Close,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Op {
    Move,
    Line,
    Arc,
    Close,
}

/// One shape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Item {
    /// How it is painted.
    pub class: Class,
    /// What it shows.
    pub part: Part,
    /// Width of its line in mm where that means something (the belt's body); else 0.
    pub width_mm: f64,
    ops: (usize, usize),
    numbers: usize,
}

/// All shapes, in the order of painting.
#[derive(Clone, Debug, Default)]
pub struct List {
    items: Vec<Item>,
    ops: Vec<Op>,
    numbers: Vec<f64>,
}

impl List {
    /// Empties it and keeps its buffers.
    pub fn clear(&mut self) {
        self.items.clear();
        self.ops.clear();
        self.numbers.clear();
    }

    /// The shapes.
    pub fn items(&self) -> &[Item] {
        &self.items
    }

    /// The outline of a shape.
    pub fn outline(&self, item: &Item) -> impl Iterator<Item = Piece> + '_ {
        let mut at = item.numbers;
        let ops = self.ops.get(item.ops.0..item.ops.1).unwrap_or_default();
        ops.iter().map(move |op| {
            let n = &self.numbers[at..];
            let (piece, used) = match op {
                Op::Move => (Piece::Move(DVec2::new(n[0], n[1])), 2),
                Op::Line => (Piece::Line(DVec2::new(n[0], n[1])), 2),
                Op::Arc => (
                    Piece::Arc {
                        centre: DVec2::new(n[0], n[1]),
                        radius: n[2],
                        from_rad: n[3],
                        sweep_rad: n[4],
                    },
                    5,
                ),
                Op::Close => (Piece::Close, 0),
            };
            at += used;
            piece
        })
    }

    /// Begins a shape.
    pub fn begin(&mut self, class: Class, part: Part) {
        self.begin_wide(class, part, 0.0);
    }

    /// Begins a shape whose line has a width in mm.
    pub fn begin_wide(&mut self, class: Class, part: Part, width_mm: f64) {
        let at = self.ops.len();
        self.items.push(Item { class, part, width_mm, ops: (at, at), numbers: self.numbers.len() });
    }

    fn op(&mut self, op: Op, numbers: &[f64]) {
        self.ops.push(op);
        self.numbers.extend_from_slice(numbers);
        if let Some(item) = self.items.last_mut() {
            item.ops.1 = self.ops.len();
        }
    }

    /// Starts a new outline at `p`.
    pub fn move_to(&mut self, p: DVec2) {
        self.op(Op::Move, &[p.x, p.y]);
    }

    /// Goes straight on to `p`.
    pub fn line_to(&mut self, p: DVec2) {
        self.op(Op::Line, &[p.x, p.y]);
    }

    /// Goes along an arc; anticlockwise positive.
    pub fn arc(&mut self, centre: DVec2, radius: f64, from_rad: f64, sweep_rad: f64) {
        self.op(Op::Arc, &[centre.x, centre.y, radius, from_rad, sweep_rad]);
    }

    /// Back to where the outline began.
    pub fn close(&mut self) {
        self.op(Op::Close, &[]);
    }

    /// A whole circle.
    pub fn circle(&mut self, centre: DVec2, radius: f64) {
        self.move_to(centre + DVec2::new(radius, 0.0));
        self.arc(centre, radius, 0.0, core::f64::consts::TAU);
        self.close();
    }

    /// A closed outline through points.
    pub fn polygon(&mut self, points: impl IntoIterator<Item = DVec2>) {
        let mut points = points.into_iter();
        if let Some(first) = points.next() {
            self.move_to(first);
            points.for_each(|p| self.line_to(p));
            self.close();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_goes_in_comes_out() {
        let mut list = List::default();
        list.begin(Class::Metal, Part::Wheel(3));
        list.circle(DVec2::new(1.0, 2.0), 5.0);
        list.begin_wide(Class::BeltBody, Part::Belt(Some(1)), 2.0);
        list.move_to(DVec2::ZERO);
        list.line_to(DVec2::X);
        let first: Vec<Piece> = list.outline(&list.items()[0]).collect();
        assert!(matches!(first[1], Piece::Arc { radius: 5.0, .. }) && first.len() == 3);
        let second: Vec<Piece> = list.outline(&list.items()[1]).collect();
        assert_eq!(second, [Piece::Move(DVec2::ZERO), Piece::Line(DVec2::X)]);
        assert_eq!(list.items()[1].width_mm, 2.0);
    }

    #[test]
    fn classes_are_listed_in_their_order() {
        for (i, class) in Class::ALL.iter().enumerate() {
            assert_eq!(*class as usize, i);
        }
    }
}
