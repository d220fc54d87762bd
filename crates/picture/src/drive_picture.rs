//! The drive seen at the belt end: wheels, belt, marks and stripes, as they stand.
//!
//! Must not know: how it is painted, how large, or what stands beside it.

use crate::belt_shape::{body, stripe, teeth};
use crate::count_shape::{tag_at, ticks};
use crate::list::{Class, List, Part};
use crate::mark_shape::{bar, drift, notch, wedge, wedge_size};
use crate::wheel_shape::WheelShape;
use drive::{Angle, Carrier, DVec2, Drive, Pose};
use job::Job;
use std::f64::consts::{PI, TAU};

/// A drive's unmoving shapes, made once.
#[derive(Clone, Debug)]
pub struct DrivePicture {
    shapes: Vec<WheelShape>,
    /// Belt tooth that each marked sprocket's stripe is painted on: (sprocket, tooth number, bars).
    stripes: Vec<(usize, usize, u32)>,
    /// Where the belt tooth in each sprocket's reference groove is before anything turns.
    references: Vec<Angle>,
}

impl DrivePicture {
    /// The shapes of a drive.
    pub fn new(drive: &Drive) -> Self {
        let references: Vec<Angle> =
            drive.sprockets().iter().map(|s| Angle::from_rad(s.at_rad)).collect();
        let shapes = (0..drive.wheels().len())
            .map(|i| {
                let groove = drive.sprocket_of(i).map_or(Angle::default(), |s| references[s]);
                WheelShape::new(&drive.wheels()[i], drive.belt(), groove)
            })
            .collect();
        let (mut tooth, mut bars, mut stripes) = (0_i64, 0, Vec::new());
        for (k, sprocket) in drive.sprockets().iter().enumerate() {
            if drive.wheels()[sprocket.wheel].mark.is_some() {
                bars += 1;
                stripes.push((k, tooth as usize, bars));
            }
            tooth += drive.teeth_in_time()[k];
        }
        Self { shapes, stripes, references }
    }

    /// Draws the job as `pose` has it on top of what `list` holds, the wheel `picked` ringed.
    pub fn draw(&self, list: &mut List, job: &Job, pose: &Pose, picked: Option<usize>) {
        self.draw_from(list, job, pose, picked, 0.0);
    }

    /// The same looked at `aside_deg` off square: what is marked on wheels is drawn where it seems to stand
    /// against the cover, and nothing else moves.
    pub fn draw_from(
        &self,
        list: &mut List,
        job: &Job,
        pose: &Pose,
        picked: Option<usize>,
        aside_deg: f64,
    ) {
        self.draw_as(list, job, pose, picked, Eye { aside_deg, judges: true });
    }

    /// The same as somebody sees it who is to find out what is wrong: no mark is shown to be out.
    pub fn draw_unjudged(
        &self,
        list: &mut List,
        job: &Job,
        pose: &Pose,
        picked: Option<usize>,
        aside_deg: f64,
    ) {
        self.draw_as(list, job, pose, picked, Eye { aside_deg, judges: false });
    }

    fn draw_as(&self, list: &mut List, job: &Job, pose: &Pose, picked: Option<usize>, eye: Eye) {
        let drive = job.drive();
        let sense = drive.crank_turns().sign();
        self.track(list, job);
        for pass in [Class::Metal, Class::Window, Class::Ring, Class::Hub, Class::Bolt] {
            for (i, shape) in self.shapes.iter().enumerate() {
                let at = job.stance().discs[i].centre;
                shape.draw(list, pass, i, at, pose.rotation(drive, i));
            }
        }
        self.running_arrow(list, job);
        teeth(list, drive.belt(), pose, sense);
        body(list, drive.belt(), pose, sense);
        for (sprocket, tooth, bars) in &self.stripes {
            if let Some(tooth) = pose.teeth.get(*tooth) {
                stripe(list, drive.belt(), tooth, sense, *sprocket, *bars);
            }
        }
        self.references(list, job, pose);
        self.marks(list, job, pose, eye);
        self.holds(list, job);
        if let Some(i) = picked
            && let Some(disc) = job.stance().discs.get(i)
        {
            list.begin(Class::Picked, Part::Wheel(i));
            list.circle(disc.centre, disc.radius + drive.belt().thickness_mm + 3.0);
        }
    }

    /// Draws what to paint on a new belt on top of that: ticks from stripe to stripe.
    pub fn draw_counts(&self, list: &mut List, job: &Job, pose: &Pose) {
        let drive = job.drive();
        let sense = drive.crank_turns().sign();
        for (from, to) in self.between_stripes(drive) {
            ticks(list, drive.belt(), pose, sense, from, to);
        }
    }

    /// Where each gap's count belongs, in belt order: the middle of the gap on the belt's pitch line, mm,
    /// and the way out from there, a unit vector; empty with the belt off.
    pub fn count_tags(&self, job: &Job, pose: &Pose) -> Vec<(DVec2, DVec2)> {
        let drive = job.drive();
        let sense = drive.crank_turns().sign();
        let gaps = self.between_stripes(drive);
        gaps.into_iter().filter_map(|gap| tag_at(pose, sense, gap)).collect()
    }

    /// The belt teeth of neighbouring stripes; the last gap ends beyond the last tooth, at the first.
    fn between_stripes(&self, drive: &Drive) -> Vec<(usize, usize)> {
        let belt = drive.belt().teeth as usize;
        let starts = self.stripes.iter().map(|(_, tooth, _)| *tooth);
        let ends = starts.clone().skip(1).chain(self.stripes.first().map(|(_, t, _)| t + belt));
        starts.zip(ends).collect()
    }

    /// A bar across each held wheel, as a locking tool would lie.
    fn holds(&self, list: &mut List, job: &Job) {
        let drive = job.drive();
        for (k, _) in job.cord().holds().iter().enumerate().filter(|(_, hold)| hold.is_some()) {
            let wheel = drive.sprockets()[k].wheel;
            let disc = &job.stance().discs[wheel];
            // Square to the cover's mark, so that it hides no mark.
            let at = drive.wheels()[wheel].mark.map_or(Angle::default(), |mark| mark.cover);
            let along = at.turned(PI / 2.0).unit();
            let (long, half) = (self.shapes[wheel].face * 0.78, 4.0);
            let side = drive::rot90(along) * half;
            list.begin(Class::Held, Part::Wheel(wheel));
            list.polygon([
                disc.centre + along * long + side,
                disc.centre - along * long + side,
                disc.centre - along * long - side,
                disc.centre + along * long - side,
            ]);
            for end in [1.0, -1.0] {
                list.begin(Class::Held, Part::Wheel(wheel));
                list.circle(disc.centre + along * (end * long), half * 1.5);
            }
        }
    }

    /// Where the tensioner's centre goes from right back to fully out.
    fn track(&self, list: &mut List, job: &Job) {
        let tensioner = job.drive().tensioner();
        let home = job.drive().wheels()[tensioner.wheel].centre;
        let ends = [tensioner.right_back, tensioner.fully_out];
        let [back, out] = ends.map(|travel| tensioner.centre(home, travel));
        list.begin(Class::Track, Part::Wheel(tensioner.wheel));
        list.move_to(back);
        match tensioner.carrier {
            Carrier::Slide { .. } => list.line_to(out),
            Carrier::Pivot { pivot, tightening } => {
                let sweep = tightening.sign() * (ends[1] - ends[0]);
                let from = Angle::of(back - pivot).rad();
                list.arc(pivot, (back - pivot).length(), from, sweep);
                list.begin(Class::Track, Part::Wheel(tensioner.wheel));
                list.move_to(pivot);
                list.line_to(job.stance().discs[tensioner.wheel].centre);
            }
        }
    }

    /// On the crank's face, which way it runs.
    fn running_arrow(&self, list: &mut List, job: &Job) {
        let centre = job.stance().discs[0].centre;
        let radius = self.shapes[0].face * 0.62;
        let sense = job.drive().crank_turns().sign();
        let (from, sweep) = (Angle::from_rad(-PI / 2.0 - sense * 0.7), sense * 1.4);
        list.begin(Class::Arrow, Part::Wheel(0));
        list.move_to(centre + from.unit() * radius);
        list.arc(centre, radius, from.rad(), sweep);
        let tip = from.turned(sweep);
        let back = tip.turned(-sense * 4.5 / radius);
        list.move_to(centre + back.unit() * (radius + 2.6));
        list.line_to(centre + tip.unit() * radius);
        list.line_to(centre + back.unit() * (radius - 2.6));
    }

    fn references(&self, list: &mut List, job: &Job, pose: &Pose) {
        let drive = job.drive();
        for (k, _, _) in &self.stripes {
            let wheel = drive.sprockets()[*k].wheel;
            let at = self.references[*k].turned(pose.rotation(drive, wheel).rad());
            let radius = self.shapes[wheel].face - 2.6;
            list.begin(Class::Reference, Part::Wheel(wheel));
            list.circle(job.stance().discs[wheel].centre + at.unit() * radius, 1.7);
        }
    }

    fn marks(&self, list: &mut List, job: &Job, pose: &Pose, eye: Eye) {
        let aside_deg = eye.aside_deg;
        let drive = job.drive();
        let belt = drive.belt();
        let marked =
            || {
                drive.sprockets().iter().enumerate().filter_map(|(k, s)| {
                    drive.wheels()[s.wheel].mark.map(|mark| (k, s.wheel, mark))
                })
            };
        self.other_marks(list, job, pose, aside_deg);
        for (_, i, _) in marked() {
            if let Some(rim) = drive.wheels()[i].mark_rim_mm(belt) {
                list.begin(Class::MarkRim, Part::Wheel(i));
                list.circle(job.stance().discs[i].centre, rim);
            }
        }
        for (_, i, mark) in marked() {
            let disc = &job.stance().discs[i];
            let clear_of_belt = disc.radius + belt.back_mm() + 3.5;
            let inner = drive.wheels()[i]
                .mark_rim_mm(belt)
                .map_or(clear_of_belt, |rim| clear_of_belt.max(rim + 1.5));
            notch(list, i, disc.centre, mark.cover, inner);
        }
        for pass in [Class::Ghost, Class::Drift, Class::MarkIn, Class::MarkOut] {
            for (k, i, mark) in marked() {
                let disc = &job.stance().discs[i];
                let out = advice::out_teeth(job, k).filter(|_| eye.judges);
                let at =
                    mark.cover.turned(pose.rotation(drive, i).rad() + seems_rad(job, i, aside_deg));
                let radians = disc.sense * TAU / f64::from(drive.sprockets()[k].teeth);
                let sweep = out.map(|teeth| teeth * radians);
                let tip = drive.wheels()[i].mark_rim_mm(belt).unwrap_or(self.shapes[i].face) - 1.0;
                match (pass, sweep) {
                    (Class::Ghost, Some(sweep)) => {
                        wedge(list, pass, i, disc.centre, at.turned(-sweep), tip);
                    }
                    (Class::Drift, Some(sweep)) => {
                        let radius = disc.radius + belt.back_mm() + 17.0;
                        drift(list, i, disc.centre, at.turned(-sweep), sweep, radius);
                    }
                    (Class::MarkIn, None) | (Class::MarkOut, Some(_)) => {
                        wedge(list, pass, i, disc.centre, at, tip);
                    }
                    _ => {}
                }
            }
        }
    }

    /// Marks that are not the timing mark: bars, so that nobody takes them for it or for where it should be.
    fn other_marks(&self, list: &mut List, job: &Job, pose: &Pose, aside_deg: f64) {
        for (i, at) in other_marks(job, pose, aside_deg) {
            bar(list, Class::OtherMark, i, job.stance().discs[i].centre, at, self.other_tip(i));
        }
    }

    /// Where the letters beside each of them have their middle, mm, `off` mm from the mark towards the
    /// wheel's middle; in the order of wheels and of each wheel's other marks.
    pub fn letters(&self, job: &Job, pose: &Pose, aside_deg: f64, off: f64) -> Vec<DVec2> {
        let place = |(i, at): (usize, Angle)| {
            let tip = self.other_tip(i);
            job.stance().discs[i].centre + at.unit() * (tip - wedge_size(tip) - off)
        };
        other_marks(job, pose, aside_deg).map(place).collect()
    }

    fn other_tip(&self, wheel: usize) -> f64 {
        self.shapes[wheel].face - 1.0
    }

    /// The wheel at `point`, if there is one.
    pub fn part_at(&self, job: &Job, point: DVec2) -> Option<usize> {
        let belt = job.drive().belt().thickness_mm;
        job.stance().discs.iter().position(|d| (point - d.centre).length() <= d.radius + belt)
    }
}

/// The wheel and direction of each mark that is not the timing mark, in the order of wheels and of each
/// wheel's other marks, as seen `aside_deg` off square.
fn other_marks(job: &Job, pose: &Pose, aside_deg: f64) -> impl Iterator<Item = (usize, Angle)> {
    job.plan().layout.wheels.iter().enumerate().flat_map(move |(i, wheel)| {
        let cover = job.drive().wheels()[i].mark.map(|mark| {
            let seems = seems_rad(job, i, aside_deg);
            mark.cover.turned(pose.rotation(job.drive(), i).rad() + seems)
        });
        // Clockwise from the timing mark, as on a clock face.
        let from_mark = wheel.other_marks.iter().map(|other| -other.wheel_clock_deg);
        from_mark.filter_map(move |deg| Some((i, cover?.turned(Angle::from_deg(deg).rad()))))
    })
}

/// Whoever looks at the drive.
#[derive(Clone, Copy)]
struct Eye {
    /// How far off square.
    aside_deg: f64,
    /// Whether it is shown which marks are out.
    judges: bool,
}

/// How far a mark on wheel `i` seems turned on, rad, anticlockwise positive.
fn seems_rad(job: &Job, i: usize, aside_deg: f64) -> f64 {
    let seems = advice::mark_seems(job, i, aside_deg);
    job.stance().discs[i].sense * Angle::from_deg(seems.deg).rad()
}
