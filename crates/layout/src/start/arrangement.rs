//! The arrangements from which a layout can be started: which wheels there are, in what order, and roughly
//! where. Data only.
//!
//! Must not know: how large anything is.

use crate::choice::{Arrangement, Role};

/// The wheels of an arrangement.
#[derive(Debug)]
pub(super) struct Shape {
    /// The sprockets in the order in which a clockwise belt meets them, the crank first. The belt round
    /// them alone is convex.
    pub sprockets: &'static [Sprocket],
    /// Smooth wheels on the belt's back, the tensioner first; each presses on another span.
    pub pressed: &'static [Pressed],
}

/// A sprocket. Its centre is `beside` driven-sprocket radii and `along` times the scale from the crank's,
/// x to the right and y up.
#[derive(Debug)]
pub(super) struct Sprocket {
    pub id: &'static str,
    pub name: &'static str,
    pub role: Role,
    /// What stands as close as sprockets let: in pitch radii of a driven sprocket with its belt.
    pub beside: [f64; 2],
    /// What grows with the belt: in parts of the scale.
    pub along: [f64; 2],
}

/// A smooth wheel on the back.
#[derive(Debug)]
pub(super) struct Pressed {
    pub id: &'static str,
    pub name: &'static str,
    pub role: Role,
    /// Index of the sprocket that its span leaves.
    pub after: usize,
}

const fn driven(
    id: &'static str,
    name: &'static str,
    role: Role,
    beside: [f64; 2],
    along: [f64; 2],
) -> Sprocket {
    Sprocket { id, name, role, beside, along }
}

const CRANK: Sprocket = driven("crank", "Crankshaft", Role::Crank, [0.0; 2], [0.0; 2]);

/// In the run that leaves the crank, which runs slack.
const TENSIONER: Pressed =
    Pressed { id: "tensioner", name: "Tensioner", role: Role::Tensioner, after: 0 };

const fn idler(after: usize) -> Pressed {
    Pressed { id: "idler", name: "Idler", role: Role::Idler, after }
}

const ONE: Shape = Shape {
    sprockets: &[CRANK, driven("cam", "Camshaft", Role::Camshaft, [0.0; 2], [0.0, 1.0])],
    pressed: &[TENSIONER],
};

const TWO: Shape = Shape {
    sprockets: &[
        CRANK,
        driven("cam_left", "Left camshaft", Role::Camshaft, [-1.0, 0.0], [0.0, 1.0]),
        driven("cam_right", "Right camshaft", Role::Camshaft, [1.0, 0.0], [0.0, 1.0]),
    ],
    pressed: &[TENSIONER],
};

const VEE: Shape = Shape {
    sprockets: &[
        CRANK,
        driven("cam_left", "Left camshaft", Role::Camshaft, [0.0; 2], [-0.5, 0.9]),
        driven("cam_right", "Right camshaft", Role::Camshaft, [0.0; 2], [0.5, 0.9]),
    ],
    pressed: &[TENSIONER, idler(1)],
};

/// Exhaust camshafts outside, intake camshafts inside, each pair square to its bank.
const VEE_TWO: Shape = Shape {
    sprockets: &[
        CRANK,
        driven(
            "cam_left_out",
            "Left exhaust camshaft",
            Role::Camshaft,
            [-0.82, -0.57],
            [-0.6, 0.9],
        ),
        driven("cam_left_in", "Left intake camshaft", Role::Camshaft, [0.82, 0.57], [-0.6, 0.9]),
        driven("cam_right_in", "Right intake camshaft", Role::Camshaft, [-0.82, 0.57], [0.6, 0.9]),
        driven(
            "cam_right_out",
            "Right exhaust camshaft",
            Role::Camshaft,
            [0.82, -0.57],
            [0.6, 0.9],
        ),
    ],
    pressed: &[TENSIONER, idler(2)],
};

const PUMP: Shape = Shape {
    sprockets: &[
        CRANK,
        driven("cam", "Camshaft", Role::Camshaft, [0.0; 2], [-0.25, 1.0]),
        driven("injection_pump", "Injection pump", Role::InjectionPump, [0.0; 2], [0.5, 0.62]),
    ],
    pressed: &[TENSIONER],
};

const BALANCE: Shape = Shape {
    sprockets: &[
        CRANK,
        driven("balance", "Balance shaft", Role::BalanceShaft, [0.0; 2], [1.0, 0.3]),
    ],
    pressed: &[TENSIONER],
};

/// Teeth with which a camshaft turns once for two turns of a crank with so many.
pub const fn camshaft_teeth(crank_teeth: u32) -> u32 {
    crank_teeth * 2
}

impl Arrangement {
    /// Every arrangement, in the order of [`Self::WORDS`].
    pub const ALL: [Self; 6] = [
        Self::InLineOne,
        Self::InLineTwo,
        Self::VeeOne,
        Self::VeeTwo,
        Self::InjectionPump,
        Self::BalanceShaft,
    ];

    pub(super) const fn shape(self) -> &'static Shape {
        match self {
            Self::InLineOne => &ONE,
            Self::InLineTwo => &TWO,
            Self::VeeOne => &VEE,
            Self::VeeTwo => &VEE_TWO,
            Self::InjectionPump => &PUMP,
            Self::BalanceShaft => &BALANCE,
        }
    }

    /// Teeth that a driven sprocket has for its shaft to turn as it must: a camshaft and an injection pump
    /// once for two turns of the crank, a balance shaft twice for one. `None` where a crank of so many teeth
    /// has no such sprocket.
    pub const fn usual_teeth(self, crank_teeth: u32) -> Option<u32> {
        match self {
            Self::BalanceShaft if crank_teeth % 2 == 1 => None,
            Self::BalanceShaft => Some(crank_teeth / 2),
            _ => Some(camshaft_teeth(crank_teeth)),
        }
    }

    /// Three counts that go together, to begin with: crank, driven, belt.
    pub const fn example(self) -> [u32; 3] {
        match self {
            Self::InLineOne => [22, 44, 109],
            Self::InLineTwo => [24, 48, 152],
            Self::VeeOne => [24, 48, 173],
            Self::VeeTwo => [24, 48, 245],
            Self::InjectionPump => [24, 48, 142],
            Self::BalanceShaft => [36, 18, 81],
        }
    }
}
