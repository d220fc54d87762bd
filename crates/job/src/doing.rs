//! How each action is done to the one truth.
//!
//! Must not know: what it means to a mechanic, or how undo goes back.

use crate::action::{
    Action, BeltMove, Did, HangAs, MOST_DEG, Moved, Outcome, Refusal, Stopped, TensionerMove,
    TensionerState, TensionerStop,
};
use crate::bench::Job;
use crate::contact::first_contact;
use crate::work::{HungSo, TakenOff};
use drive::{Fixing, Gap, Hold, Seat, TooShort, Turned, comes_off_with_mm, wrap_to};
use layout::LockOn;
use std::collections::BTreeMap;

impl Job {
    pub(crate) fn do_it(&mut self, action: &Action) -> Result<Outcome, Refusal> {
        let mut gave = Vec::new();
        let before = self.cord.turned().to_vec();
        let did = match action {
            Action::Turn { shaft, deg } => self.turn(shaft, *deg)?,
            Action::TurnTo { crank_deg } => self.turn_to(*crank_deg)?,
            Action::BringForward { shaft } => self.bring_forward(shaft)?,
            Action::Hold { shaft } => self.hold(shaft)?,
            Action::Release { shaft } => self.release(shaft)?,
            Action::Slacken { shaft } => self.slacken(shaft)?,
            Action::Tighten { shaft } => self.tighten(shaft)?,
            Action::Belt(BeltMove::Off) => self.take_off()?,
            Action::Hang(how) => self.hang(how, &mut gave)?,
            Action::TensionerTo { travel } => {
                let unit = self.plan.travel_unit();
                in_range(*travel, -MOST_DEG, MOST_DEG, unit.name())?;
                let state = TensionerState::DrawnBack;
                self.move_tensioner(unit.inside(*travel), state)
            }
            Action::Tensioner(to) => self.tensioner(*to),
            Action::SetTeeth(teeth) => self.set_teeth(teeth)?,
        };
        let turns = matches!(
            action,
            Action::Turn { .. }
                | Action::TurnTo { .. }
                | Action::BringForward { .. }
                | Action::SetTeeth(_)
        );
        // While shafts are turned friction is taken to hold the others: springs are known at marks only.
        let sprang =
            if turns { Vec::new() } else { self.cord.spring_back(&self.plan.drive, &self.stance) };
        let travel = self.stance.travel;
        if self.work.tensioner == TensionerState::PinOut && self.cord.is_on() {
            self.take_up();
        }
        let took_up = (self.stance.travel != travel).then(|| self.travel());
        let sprang: Vec<Moved> = sprang.into_iter().map(|s| self.moved(s)).collect();
        // What was asked for, what gave and what sprang is told as such.
        let own = match &did {
            Did::Held { wheel, .. } => Some(*wheel),
            _ => None,
        };
        let told = |wheel: usize| {
            own == Some(wheel) || gave.iter().chain(&sprang).any(|moved| moved.wheel == wheel)
        };
        let drew = if turns { Vec::new() } else { self.drawn_since(&before) };
        let drew = drew.into_iter().filter(|moved| !told(moved.wheel)).collect();
        Ok(Outcome { did, gave, drew, sprang, took_up })
    }

    /// The shafts that are not where they were. A shaft's whole turns are not told: they are counted
    /// anew when a belt is hung, and nothing moves by that.
    fn drawn_since(&self, before: &[Turned]) -> Vec<Moved> {
        let drive = &self.plan.drive;
        let moved = |(k, was): (usize, &Turned)| {
            let turn_deg = f64::from(drive.sprockets()[k].teeth) * drive.crank_deg_per_tooth();
            (k, wrap_to(self.cord.turned()[k].since(*was), turn_deg))
        };
        let all = before.iter().enumerate().map(moved);
        all.map(|by| self.moved(by)).filter(|moved| moved.deg.abs() > DRAWN_FROM_DEG).collect()
    }

    /// A sprocket that moved by crank degrees, as a wheel and its own.
    fn moved(&self, (k, crank_deg): (usize, f64)) -> Moved {
        let sprocket = &self.plan.drive.sprockets()[k];
        let ratio = f64::from(self.plan.drive.crank_teeth()) / f64::from(sprocket.teeth);
        Moved { wheel: sprocket.wheel, deg: crank_deg * ratio }
    }

    /// Turns shaft `k` to `to` as far as it goes; gives what stopped it short.
    fn turn_shaft_to(&mut self, k: usize, to: Turned) -> Option<Stopped> {
        let drive = &self.plan.drive;
        let before = self.cord.clone();
        let held = self.cord.turn_shaft(drive, &self.stance, k, to);
        let mut stopped = held.map(|held| Stopped::Held(drive.sprockets()[held].wheel));
        let engine = self.plan.engine.as_ref().filter(|_| self.feels_contact);
        let contact = engine.and_then(|plan| first_contact(plan, drive, &before, &self.cord, k));
        if let Some((after_deg, contact)) = contact {
            let forward = self.cord.shaft(k).since(before.shaft(k)) > 0.0;
            let place = before.shaft(k).plus(if forward { after_deg } else { -after_deg });
            self.cord = before;
            self.cord.turn_shaft(drive, &self.stance, k, place);
            stopped = Some(Stopped::Contact(contact));
        }
        self.work.turned(self.cord.turned()[0]);
        stopped
    }

    fn turn(&mut self, shaft: &str, deg: f64) -> Result<Did, Refusal> {
        let (wheel, k) = self.sprocket(shaft)?;
        in_range(deg, -MOST_DEG, MOST_DEG, "deg")?;
        self.free(k)?;
        let drive = &self.plan.drive;
        let ratio = f64::from(drive.sprockets()[k].teeth) / f64::from(drive.crank_teeth());
        let before = self.cord.shaft(k);
        let to = before.plus(deg * ratio).tidy();
        in_range(to.total_deg(), -MOST_DEG, MOST_DEG, "deg")?;
        let stopped_by = self.turn_shaft_to(k, to);
        // What was asked for, unless it was stopped.
        let deg = stopped_by.map_or(deg, |_| self.cord.shaft(k).since(before) / ratio);
        Ok(Did::Turned { wheel, deg, stopped_by })
    }

    fn turn_to(&mut self, crank_deg: f64) -> Result<Did, Refusal> {
        in_range(crank_deg, -MOST_DEG, MOST_DEG, "deg")?;
        self.free(0)?;
        let stopped_by = self.turn_shaft_to(0, Turned::from_deg(crank_deg));
        let crank_deg = stopped_by.map_or(crank_deg, |_| self.crank().total_deg());
        Ok(Did::TurnedTo { crank_deg, stopped_by })
    }

    fn bring_forward(&mut self, shaft: &str) -> Result<Did, Refusal> {
        let (wheel, k) = self.sprocket(shaft)?;
        self.free(k)?;
        if !self.cord.is_on() {
            return Err(Refusal::BeltIsOff);
        }
        let before = self.cord.turned()[k];
        let to = self.cord.drawn_up(&self.plan.drive, &self.stance, k);
        let slip_deg = self.cord.slip_deg(k);
        let stopped_by = self.turn_shaft_to(k, to.plus(-slip_deg));
        let Moved { deg, .. } = self.moved((k, self.cord.turned()[k].since(before)));
        let deg = if deg < ROUNDING_DEG { 0.0 } else { deg };
        Ok(Did::BroughtForward { wheel, deg, stopped_by })
    }

    fn hold(&mut self, shaft: &str) -> Result<Did, Refusal> {
        let (wheel, k) = self.sprocket(shaft)?;
        let lock = self.plan.layout.wheels[wheel].lock;
        let hold = match lock.map(|lock| lock.on) {
            Some(LockOn::Sprocket) => Hold::Sprocket,
            Some(LockOn::Shaft | LockOn::Flywheel) | None => Hold::Shaft,
        };
        let mut locked = false;
        if lock.is_some() && self.cord.holds()[k].is_none() {
            // A lock goes in where the shaft stands in its timed place. It draws it exactly there where
            // nothing else would turn with it: the belt off, or the sprocket loose on its shaft.
            let drive = &self.plan.drive;
            let loose = matches!(self.cord.seats()[k], Seat::Loose { .. });
            let alone = !self.cord.is_on() || (loose && hold == Hold::Shaft);
            let finds_teeth = if alone { LOCK_FINDS_TEETH } else { LOCK_FITS_TEETH };
            let place = match hold {
                Hold::Shaft => self.cord.shaft(k),
                Hold::Sprocket => self.cord.turned()[k],
            };
            let teeth = drive.sprockets()[k].teeth;
            let off = drive::mark_error_teeth(place, teeth, drive.crank_teeth());
            if off.abs() < finds_teeth {
                let to = place.plus(-off * drive.crank_deg_per_tooth());
                let crank = self.cord.turned()[0];
                let stopped = match hold {
                    Hold::Shaft => self.cord.turn_shaft(drive, &self.stance, k, to),
                    Hold::Sprocket => self.cord.turn(drive, &self.stance, k, to),
                };
                locked = stopped.is_none();
                self.work.set_right(self.cord.turned()[0].since(crank));
            }
        }
        self.cord.hold(k, Some(hold));
        Ok(Did::Held { wheel, locked })
    }

    fn release(&mut self, shaft: &str) -> Result<Did, Refusal> {
        let (wheel, k) = self.sprocket(shaft)?;
        if self.cord.holds()[k].is_none() {
            return Err(Refusal::IsNotHeld { found: shaft.to_owned() });
        }
        self.cord.hold(k, None);
        Ok(Did::Released { wheel })
    }

    fn slacken(&mut self, shaft: &str) -> Result<Did, Refusal> {
        let (wheel, k) = self.floating(shaft)?;
        self.cord.slacken(k);
        Ok(Did::Slackened { wheel })
    }

    fn tighten(&mut self, shaft: &str) -> Result<Did, Refusal> {
        let (wheel, k) = self.floating(shaft)?;
        self.cord.tighten(k);
        let Moved { deg: slip_deg, .. } = self.moved((k, self.cord.slip_deg(k)));
        Ok(Did::Tightened { wheel, slip_deg })
    }

    fn take_off(&mut self) -> Result<Did, Refusal> {
        if self.cord.is_on() {
            self.room()?;
            let held = |k: usize| k == 0 || self.cord.holds()[k].is_some();
            let so = TakenOff {
                marks_up: self.marked().all(|k| self.mark_is_up(k)),
                held: self.marked().all(|k| held(k) && (k == 0 || self.mark_is_up(k))),
            };
            self.cord.take_off();
            self.work.taken_off(so);
        }
        Ok(Did::TakenOff)
    }

    /// The sprockets that are to be timed.
    fn marked(&self) -> impl Iterator<Item = usize> {
        (0..self.cord.turned().len()).filter(|k| self.plan.drive.is_marked(*k))
    }

    fn mark_error_teeth(&self, k: usize) -> f64 {
        let drive = &self.plan.drive;
        let teeth = drive.sprockets()[k].teeth;
        drive::mark_error_teeth(self.cord.turned()[k], teeth, drive.crank_teeth())
    }

    fn mark_is_up(&self, k: usize) -> bool {
        self.mark_error_teeth(k).abs() < UP_TEETH
    }

    /// Whether the tensioner leaves room for teeth to pass the grooves.
    fn room(&self) -> Result<(), Refusal> {
        let drive = &self.plan.drive;
        let slack_mm = drive.belt().pitch_length_mm() - self.stance.path.length_mm;
        let needs_mm = comes_off_with_mm(drive, &self.stance);
        if slack_mm < needs_mm {
            let fully_back = self.stance.travel <= drive.tensioner().right_back;
            return Err(Refusal::NoRoom { slack_mm, needs_mm, fully_back });
        }
        Ok(())
    }

    fn hang(&mut self, how: &HangAs, gave: &mut Vec<Moved>) -> Result<Did, Refusal> {
        let drive = &self.plan.drive;
        self.room()?;
        let in_time = drive.gap_teeth_in_time();
        let teeth = match how {
            HangAs::InTime => in_time.clone(),
            HangAs::AsItFalls => self.cord.teeth_as_it_falls(drive, &self.stance),
            HangAs::Teeth(named) => self.counted(named, &in_time)?,
        };
        let forced = self.cord.put_on(drive, &self.stance, &teeth).map_err(|short| {
            let TooShort { gap, teeth } = short;
            Refusal::DoesNotReach {
                from: self.sprocket_id(gap.from),
                to: self.sprocket_id(gap.to),
                teeth,
            }
        })?;
        let so = HungSo {
            crank_back: self.mark_error_teeth(0) <= -UP_TEETH,
            bolt_slack: self.cord.seats().iter().any(|seat| matches!(seat, Seat::Loose { .. })),
        };
        self.work.hung(self.cord.turned()[0], so);
        gave.extend(forced.into_iter().map(|f| self.moved(f)));
        Ok(Did::Hung { in_time: teeth == in_time })
    }

    /// Teeth in every gap where a person named some.
    fn counted(&self, named: &BTreeMap<String, i64>, in_time: &[i64]) -> Result<Vec<i64>, Refusal> {
        let drive = &self.plan.drive;
        let gaps = drive.gaps();
        let names: Vec<String> = gaps.iter().map(|gap| self.gap_name(*gap)).collect();
        let belt = i64::from(drive.belt().teeth);
        let mut teeth = in_time.to_vec();
        let mut open = vec![true; gaps.len()];
        for (name, n) in named {
            let Some(g) = names.iter().position(|known| known == name) else {
                return Err(Refusal::NoSuchCount { found: name.clone(), counts: names });
            };
            in_range(*n as f64, 1.0, belt as f64, "teeth")?;
            (teeth[g], open[g]) = (*n, false);
        }
        let sum: i64 = teeth.iter().sum();
        if sum == belt {
            return Ok(teeth);
        }
        let tensioner = drive.tensioner_run();
        let tensioners = gaps.iter().position(|gap| drive.runs_of(*gap).any(|j| j == tensioner));
        let last = gaps.len() - 1;
        let takes_rest = [tensioners, Some(last)]
            .into_iter()
            .flatten()
            .chain((0..gaps.len()).rev())
            .find(|g| open[*g]);
        let Some(g) = takes_rest else { return Err(Refusal::CountsDoNotSum { sum, belt }) };
        teeth[g] += belt - sum;
        if teeth[g] < 1 {
            return Err(Refusal::CountsDoNotSum { sum: sum - in_time[g], belt });
        }
        Ok(teeth)
    }

    fn tensioner(&mut self, to: TensionerMove) -> Did {
        let drive = &self.plan.drive;
        let taut = drive.taut().travel;
        let locked = self.plan.is_locked_by_hand();
        let bolted = if locked { TensionerState::Locked } else { TensionerState::Pinned };
        let (travel, state) = match to {
            TensionerMove::Back => (drive.tensioner().right_back, TensionerState::Back),
            TensionerMove::BoltUp => (self.plan.bolted_travel().unwrap_or(taut), bolted),
            TensionerMove::PullPin if locked => (taut, TensionerState::Locked),
            TensionerMove::PullPin => (taut, TensionerState::PinOut),
        };
        self.move_tensioner(travel, state)
    }

    fn move_tensioner(&mut self, travel: f64, state: TensionerState) -> Did {
        let drive = &self.plan.drive;
        let free = drive.stance_at(travel).travel;
        let within = self.cord.travel_within_holds(drive, &self.stance, free);
        self.stance = drive.stance_at(within);
        if self.cord.is_on() {
            self.cord.give_way(drive, &self.stance);
        }
        self.work.tensioner_is(state, self.cord.turned()[0]);
        let stopped = if within != free {
            Some(TensionerStop::Holds)
        } else if free != travel {
            Some(TensionerStop::End)
        } else {
            None
        };
        Did::TensionerMoved { travel: self.travel(), state, stopped }
    }

    /// A tensioner with its pin out follows wherever slack comes within its reach.
    fn take_up(&mut self) {
        let drive = &self.plan.drive;
        let taut = drive.taut().travel;
        if self.stance.travel < taut {
            let within = self.cord.travel_within_holds(drive, &self.stance, taut);
            self.stance = drive.stance_at(within);
            self.cord.give_way(drive, &self.stance);
        }
    }

    fn set_teeth(&mut self, teeth: &BTreeMap<String, i64>) -> Result<Did, Refusal> {
        if !self.cord.is_on() {
            return Err(Refusal::BeltIsOff);
        }
        let drive = &self.plan.drive;
        let mut set = Vec::with_capacity(teeth.len());
        for (id, n) in teeth {
            let wheel = self.wheel(id)?;
            let timed = drive.wheels()[wheel].mark.is_some();
            let Some(sprocket) = drive.sprocket_of(wheel).filter(|_| timed) else {
                let timed = self.ids(|i| drive.wheels()[i].mark.is_some());
                return Err(Refusal::NotTimed { found: id.clone(), timed });
            };
            // Half a turn either way is every place there is.
            let most = f64::from(drive.sprockets()[sprocket].teeth / 2);
            in_range(*n as f64, -most, most, "teeth")?;
            // With the crank every other shaft is moved.
            let moves = |k: usize| if sprocket == 0 { k != 0 } else { k == sprocket };
            let held = self.cord.holds().iter().enumerate().find(|(k, h)| h.is_some() && moves(*k));
            if let Some((k, _)) = held.filter(|_| *n != self.cord.teeth_out()[sprocket]) {
                return Err(Refusal::IsHeld { found: self.sprocket_id(k) });
            }
            set.push((wheel, sprocket, *n));
        }
        for (_, sprocket, n) in &set {
            self.cord.set_teeth(drive, *sprocket, *n);
        }
        Ok(Did::TeethSet(set.into_iter().map(|(wheel, _, n)| (wheel, n)).collect()))
    }

    /// Refuses a held shaft.
    fn free(&self, k: usize) -> Result<(), Refusal> {
        match self.cord.holds()[k] {
            Some(Hold::Sprocket) if matches!(self.cord.seats()[k], Seat::Loose { .. }) => Ok(()),
            Some(_) => Err(Refusal::IsHeld { found: self.sprocket_id(k) }),
            None => Ok(()),
        }
    }

    fn sprocket(&self, id: &str) -> Result<(usize, usize), Refusal> {
        let wheel = self.wheel(id)?;
        match self.plan.drive.sprocket_of(wheel) {
            Some(k) => Ok((wheel, k)),
            None => Err(Refusal::NotASprocket { found: id.to_owned(), shafts: self.shafts() }),
        }
    }

    fn floating(&self, id: &str) -> Result<(usize, usize), Refusal> {
        let (wheel, k) = self.sprocket(id)?;
        let floats = |i: usize| {
            let wheel = &self.plan.drive.wheels()[i];
            wheel.teeth().is_some() && wheel.fixing != Fixing::Keyed
        };
        if !floats(wheel) {
            let floating = self.ids(floats);
            return Err(Refusal::DoesNotFloat { found: id.to_owned(), floating });
        }
        Ok((wheel, k))
    }

    fn sprocket_id(&self, k: usize) -> String {
        self.plan.id(self.plan.drive.sprockets()[k].wheel).to_owned()
    }

    /// A gap as counts name it: `crank>cam_left`.
    pub fn gap_name(&self, gap: Gap) -> String {
        format!("{}>{}", self.sprocket_id(gap.from), self.sprocket_id(gap.to))
    }

    fn wheel(&self, id: &str) -> Result<usize, Refusal> {
        self.plan
            .wheel_index(id)
            .ok_or_else(|| Refusal::NoSuchShaft { found: id.to_owned(), shafts: self.shafts() })
    }

    fn shafts(&self) -> Vec<String> {
        self.ids(|i| self.plan.drive.wheels()[i].teeth().is_some())
    }

    fn ids(&self, which: impl Fn(usize) -> bool) -> Vec<String> {
        let all = 0..self.plan.drive.wheels().len();
        all.filter(|i| which(*i)).map(|i| self.plan.id(i).to_owned()).collect()
    }
}

/// A shaft that is drawn along by less than this stays where it is but for rounding, degrees.
const DRAWN_FROM_DEG: f64 = 1e-6;

/// A shaft that is brought forward by less was where it should be but for rounding, degrees.
const ROUNDING_DEG: f64 = 1e-6;

/// A lock goes in with a shaft that turns alone this near to its timed place, teeth.
const LOCK_FINDS_TEETH: f64 = 0.5;
/// With one that would turn the belt, only this near.
const LOCK_FITS_TEETH: f64 = 0.02;
/// A mark is up within this, teeth.
const UP_TEETH: f64 = 0.5;

pub(crate) fn in_range(
    found: f64,
    least: f64,
    most: f64,
    unit: &'static str,
) -> Result<(), Refusal> {
    if found >= least && found <= most {
        Ok(())
    } else {
        Err(Refusal::OutOfRange { found, least, most, unit })
    }
}
