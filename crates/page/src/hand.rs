//! A hand on the drive: what it holds, and what its moving does.
//!
//! Must not know: pointers or fingers; it is told points in the drive's millimetres.

use drive::{Angle, Carrier, DVec2, wrap_rad};
use job::{Action, Job};

/// What the hand holds.
#[derive(Clone, Copy, Debug)]
pub enum Hold {
    /// A sprocket's rim.
    Shaft {
        /// Index of its wheel.
        wheel: usize,
        /// Direction from its centre to the hand, as last told.
        at: Angle,
    },
    /// The tensioner's wheel.
    Tensioner {
        /// From the hand to the wheel's centre when it was taken hold of, mm.
        offset: DVec2,
    },
}

impl Hold {
    /// What a hand at `point` on `wheel` takes hold of; a smooth wheel that does not move, nothing.
    pub fn take(job: &Job, wheel: usize, point: DVec2) -> Option<Self> {
        let centre = job.stance().discs.get(wheel)?.centre;
        if wheel == job.drive().tensioner().wheel {
            return Some(Self::Tensioner { offset: centre - point });
        }
        job.drive().sprocket_of(wheel)?;
        Some(Self::Shaft { wheel, at: Angle::of(point - centre) })
    }

    /// What moving to `point` does, and the hold from there.
    pub fn moved(self, job: &Job, point: DVec2) -> (Self, Action) {
        let drive = job.drive();
        match self {
            Self::Shaft { wheel, at } => {
                let centre = job.stance().discs[wheel].centre;
                let now = Angle::of(point - centre);
                let sense = drive.wheels()[wheel].sense(drive.crank_turns()).sign();
                let deg = Angle::from_rad(sense * wrap_rad(now.rad() - at.rad())).deg();
                let shaft = job.plan().id(wheel).to_owned();
                (Self::Shaft { wheel, at: now }, Action::Turn { shaft, deg })
            }
            Self::Tensioner { offset } => {
                let tensioner = drive.tensioner();
                let home = drive.wheels()[tensioner.wheel].centre;
                let asked = point + offset;
                let travel = match tensioner.carrier {
                    Carrier::Slide { tightening } => (asked - home).dot(tightening.unit()),
                    Carrier::Pivot { pivot, tightening } => {
                        let turn = Angle::of(asked - pivot).rad() - Angle::of(home - pivot).rad();
                        tightening.sign() * wrap_rad(turn)
                    }
                };
                let travel = travel.clamp(tensioner.right_back, tensioner.fully_out);
                let travel = job.travel_unit().outside(travel);
                (self, Action::TensionerTo { travel })
            }
        }
    }
}
