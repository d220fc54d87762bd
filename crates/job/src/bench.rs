//! The job on the bench: a layout's text and plan, the state of its belt and shafts, and what has been
//! done.
//!
//! Must not know: what any of it means to a mechanic.

use crate::action::{Action, Outcome, Refusal, Step, TensionerState};
use crate::history::History;
use crate::work::Work;
use drive::{Cord, Drive, Stance, Turned};
use layout::{Plan, TravelUnit};
use std::rc::Rc;

/// Which document the layout on the bench is. Every layout that is opened is a sheet of its own; what is
/// written on stays on its sheet, and undo past an opening is on the sheet before again. So whoever keeps
/// or saves a text knows of what it is a later state, and never writes one document over another.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sheet(
    /// Counted from 0 over a job's life, in the order of opening.
    pub u32,
);

/// What undo goes back to: everything that actions change.
#[derive(Clone, Debug)]
struct Snapshot {
    sheet: Sheet,
    plan: Rc<Plan>,
    draft: Option<Rc<str>>,
    cord: Cord,
    travel: f64,
    work: Work,
}

/// The one truth.
#[derive(Clone, Debug)]
pub struct Job {
    sheet: Sheet,
    last_sheet: Sheet,
    pub(crate) plan: Rc<Plan>,
    draft: Option<Rc<str>>,
    pub(crate) cord: Cord,
    pub(crate) stance: Stance,
    pub(crate) work: Work,
    pub(crate) feels_contact: bool,
    history: History<Snapshot, Step>,
}

impl Job {
    /// A drive with its belt hung in time and tight, the crank on its mark.
    pub fn new(plan: Rc<Plan>) -> Self {
        let cord = Cord::in_time(&plan.drive);
        let stance = plan.drive.taut_stance().clone();
        let work = found(&plan);
        let history = History::default();
        let first = Sheet::default();
        Self {
            sheet: first,
            last_sheet: first,
            plan,
            draft: None,
            cord,
            stance,
            work,
            feels_contact: false,
            history,
        }
    }

    /// The same, with every turn stopped where a valve meets its piston, as a hand would feel it. Without
    /// this shafts go where they are put.
    pub fn feeling_contact(mut self) -> Self {
        self.feels_contact = true;
        self
    }

    /// The same as it stands, with nothing in it that tells how it came about.
    pub fn without_history(mut self) -> Self {
        self.history = History::default();
        self
    }

    /// Puts another layout on the bench, a sheet of its own, its belt hung in time and tight.
    pub fn open(&mut self, plan: Rc<Plan>) {
        let before = self.snapshot();
        self.next_sheet();
        self.put(plan);
        self.history.keep(before, Step::Opened);
    }

    /// Puts a text that makes no sound drive yet on a sheet of its own, beside the layout on the bench.
    pub fn open_draft(&mut self, text: &str) {
        let before = self.snapshot();
        self.next_sheet();
        self.draft = Some(Rc::from(text));
        self.history.keep(before, Step::Opened);
    }

    fn next_sheet(&mut self) {
        self.last_sheet = Sheet(self.last_sheet.0 + 1);
        self.sheet = self.last_sheet;
    }

    /// Puts the layout as it was written on in place of how it was, its belt hung in time and tight. With
    /// `goes_on`, it carries on the step before it, as one spell of typing.
    pub fn rewrite(&mut self, plan: Rc<Plan>, goes_on: bool) {
        let before = self.snapshot();
        self.put(plan);
        self.wrote(before, goes_on);
    }

    fn put(&mut self, plan: Rc<Plan>) {
        self.cord = Cord::in_time(&plan.drive);
        self.stance = plan.drive.taut_stance().clone();
        self.work = found(&plan);
        (self.plan, self.draft) = (plan, None);
    }

    /// Which document the layout on the bench is.
    pub fn sheet(&self) -> Sheet {
        self.sheet
    }

    /// Keeps a text that makes no sound drive yet beside the layout on the bench, which stays as it is;
    /// the layout's own text again ends that. With `goes_on`, as [`Job::rewrite`].
    pub fn write(&mut self, text: &str, goes_on: bool) {
        if text == self.text() {
            return;
        }
        let before = self.snapshot();
        self.draft = (text != self.plan.text).then(|| Rc::from(text));
        self.wrote(before, goes_on);
    }

    /// Only what writing put there is carried on, never a turn of the crank; and what comes to nothing
    /// is no step.
    fn wrote(&mut self, before: Snapshot, goes_on: bool) {
        let goes_on = goes_on
            && self.history.to_undo() == Some(&Step::Opened)
            && self.history.last().is_some_and(|last| last.sheet == self.sheet);
        if !(goes_on && self.history.replace_step(Step::Opened)) {
            self.history.keep(before, Step::Opened);
        }
        let now = self.snapshot();
        let came_to_nothing =
            |before: &Snapshot| Rc::ptr_eq(&before.plan, &now.plan) && before.draft == now.draft;
        if self.history.last().is_some_and(came_to_nothing) {
            self.history.forget_last();
        }
    }

    /// The layout's text as it is being written: that of the plan, or one that is not sound yet.
    pub fn text(&self) -> &str {
        self.draft.as_deref().unwrap_or(&self.plan.text)
    }

    /// A text that is being written and makes no sound drive yet.
    pub fn draft(&self) -> Option<&Rc<str>> {
        self.draft.as_ref()
    }

    /// The layout and its drive.
    pub fn plan(&self) -> &Rc<Plan> {
        &self.plan
    }

    /// The drive.
    pub fn drive(&self) -> &Drive {
        &self.plan.drive
    }

    /// Where the shafts stand and how the belt is hung.
    pub fn cord(&self) -> &Cord {
        &self.cord
    }

    /// The geometry with the tensioner where it stands.
    pub fn stance(&self) -> &Stance {
        &self.stance
    }

    /// How far the work on the belt has come.
    pub fn work(&self) -> &Work {
        &self.work
    }

    /// How far the crank has been turned from its mark.
    pub fn crank(&self) -> Turned {
        self.cord.turned()[0].tidy()
    }

    /// The tensioner's travel in the layout's unit.
    pub fn travel(&self) -> f64 {
        self.plan.travel_unit().outside(self.stance.travel)
    }

    /// Does `action`. With `goes_on`, it carries on the step before it, as one drag of a hand: undo
    /// then takes back both at once.
    ///
    /// # Errors
    /// Why it cannot be done; nothing has changed then.
    pub fn act(&mut self, action: &Action, goes_on: bool) -> Result<Outcome, Refusal> {
        let before = self.snapshot();
        let outcome = self.do_it(action)?;
        if !(goes_on && self.history.replace_step(Step::Done(action.clone()))) {
            self.history.keep(before, Step::Done(action.clone()));
        }
        Ok(outcome)
    }

    /// Keeps how things stand as the step before a run of the crank to `crank_deg`, which
    /// [`Job::run_crank_to`] then carries out frame by frame. Gives what it will come to, and where the
    /// crank will end: where something held stops it, sooner than asked.
    ///
    /// # Errors
    /// Why the crank cannot be turned so; nothing has changed then.
    pub fn begin_run(&mut self, crank_deg: f64) -> Result<(Outcome, Turned), Refusal> {
        let before = self.snapshot();
        let action = Action::TurnTo { crank_deg };
        let outcome = self.do_it(&action)?;
        let end = self.crank();
        self.restore(before.clone());
        self.history.keep(before, Step::Done(action));
        Ok((outcome, end))
    }

    /// Turns the crank to `to` without a step of its own in the history: the frames of a run that
    /// [`Job::begin_run`] began. It ends where that said, so that no contact is looked for again.
    pub fn run_crank_to(&mut self, to: Turned) {
        self.cord.turn(&self.plan.drive, &self.stance, 0, to);
        self.work.turned(self.cord.turned()[0]);
    }

    /// Takes the last step back, and says which; `None` if there is none.
    pub fn undo(&mut self) -> Option<Step> {
        let now = self.snapshot();
        let (before, step) = self.history.undo(now)?;
        self.restore(before);
        Some(step)
    }

    /// Takes the last undone step again, and says which; `None` if there is none.
    pub fn redo(&mut self) -> Option<Step> {
        let now = self.snapshot();
        let (after, step) = self.history.redo(now)?;
        self.restore(after);
        Some(step)
    }

    /// Takes back every step since the layout was put on the bench; gives how many. Redo takes them again.
    pub fn rewind(&mut self) -> usize {
        let mut steps = 0;
        while matches!(self.history.to_undo(), Some(Step::Done(_))) && self.undo().is_some() {
            steps += 1;
        }
        steps
    }

    /// The steps that undo and redo would take.
    pub fn next_steps(&self) -> (Option<&Step>, Option<&Step>) {
        (self.history.to_undo(), self.history.to_redo())
    }

    fn snapshot(&self) -> Snapshot {
        Snapshot {
            sheet: self.sheet,
            plan: Rc::clone(&self.plan),
            draft: self.draft.clone(),
            cord: self.cord.clone(),
            travel: self.stance.travel,
            work: self.work,
        }
    }

    fn restore(&mut self, snapshot: Snapshot) {
        let same_drive = Rc::ptr_eq(&self.plan, &snapshot.plan);
        (self.sheet, self.plan, self.draft) = (snapshot.sheet, snapshot.plan, snapshot.draft);
        (self.cord, self.work) = (snapshot.cord, snapshot.work);
        if !same_drive || snapshot.travel != self.stance.travel {
            self.stance = self.plan.drive.stance_at(snapshot.travel);
        }
    }

    /// The unit of [`Job::travel`].
    pub fn travel_unit(&self) -> TravelUnit {
        self.plan.travel_unit()
    }
}

/// A drive as it is found, the belt tight.
fn found(plan: &Plan) -> Work {
    let locked = plan.is_locked_by_hand();
    Work::found(if locked { TensionerState::Locked } else { TensionerState::PinOut })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::action::{Did, TensionerStop};

    const SIX: &str = include_str!("../../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");

    fn job() -> Job {
        Job::new(Rc::new(Plan::open(SIX).unwrap()))
    }

    fn state(job: &Job) -> (Cord, f64, String) {
        let Snapshot { plan, cord, travel, .. } = job.snapshot();
        (cord, travel, plan.layout.title.clone())
    }

    fn act(job: &mut Job, json: &str) -> Result<Did, Refusal> {
        let outcome = job.act(&serde_json::from_str(json).unwrap(), false)?;
        Ok(outcome.did)
    }

    #[test]
    fn undo_restores_everything_and_redo_does_it_again() {
        let mut job = job();
        let start = state(&job);
        for json in [
            r#"{"turn":{"shaft":"cam_left","deg":33.25}}"#,
            r#"{"tensioner":"back"}"#,
            r#"{"turn_to":{"crank_deg":-400.5}}"#,
            r#"{"set_teeth":{"cam_left":-1,"crank":2}}"#,
            r#"{"tensioner_to":{"travel":-3.5}}"#,
            r#"{"tensioner":"pull_pin"}"#,
        ] {
            act(&mut job, json).unwrap();
        }
        let other = SIX.replace("Six in a vee", "Another six");
        job.open(Rc::new(Plan::open(&other).unwrap()));
        act(&mut job, r#"{"turn_to":{"crank_deg":75.0}}"#).unwrap();
        let end = state(&job);
        while job.undo().is_some() {}
        assert_eq!(state(&job), start);
        while job.redo().is_some() {}
        assert_eq!(state(&job), end);
    }

    #[test]
    fn a_spell_of_typing_never_swallows_a_turn() {
        let mut job = job();
        act(&mut job, r#"{"turn_to":{"crank_deg":90.0}}"#).unwrap();
        for title in ["Another", "Another six"] {
            let other = SIX.replace("Six", title);
            job.rewrite(Rc::new(Plan::open(&other).unwrap()), true);
        }
        job.undo().unwrap();
        assert_eq!(job.crank().deg, 90.0, "both texts at once, and the turn is still there");
        job.undo().unwrap();
        assert_eq!(job.crank().deg, 0.0);
    }

    #[test]
    fn a_layout_opened_is_a_sheet_of_its_own_and_undo_is_on_the_one_before() {
        let mut job = job();
        let plan = |title: &str| Rc::new(Plan::open(&SIX.replace("Six", title)).unwrap());
        let mine = job.sheet();
        job.rewrite(plan("Mine"), false);
        job.write("format =", true);
        assert_eq!(job.sheet(), mine, "what is written on stays on its sheet");
        job.open(plan("Another"));
        let another = job.sheet();
        assert_ne!(another, mine);
        // The first letter after an opening is a step of its own, or undo would leave the sheet.
        job.rewrite(plan("Another one"), true);
        job.undo().unwrap();
        assert_eq!(
            (job.sheet(), &*job.plan().layout.title),
            (another, "Another in a vee, one camshaft a bank")
        );
        job.undo().unwrap();
        assert_eq!((job.sheet(), job.text()), (mine, "format ="));
        job.open(plan("A third"));
        assert!(![mine, another].contains(&job.sheet()), "no sheet is given twice");
        job.undo().unwrap();
        assert_eq!(job.sheet(), mine);
        job.redo().unwrap();
        assert_ne!(job.sheet(), mine);
    }

    #[test]
    fn a_draft_opened_is_a_sheet_of_its_own_and_one_step() {
        let mut job = job();
        let mine = job.sheet();
        job.write("format =", false);
        job.open_draft("title = 'Sent'");
        assert_ne!(job.sheet(), mine);
        assert_eq!(job.text(), "title = 'Sent'");
        // What is written on is a step of its own, or undo would leave the sheet.
        job.write("title = 'Sent on'", true);
        job.undo().unwrap();
        assert_eq!(job.text(), "title = 'Sent'");
        job.undo().unwrap();
        assert_eq!((job.sheet(), job.text()), (mine, "format ="));
    }

    #[test]
    fn what_is_being_written_is_undone_and_redone() {
        let mut job = job();
        act(&mut job, r#"{"turn_to":{"crank_deg":90.0}}"#).unwrap();
        let plan = Rc::clone(job.plan());
        job.write("format", false);
        job.write("format = ", true);
        assert_eq!((job.text(), job.crank().deg), ("format = ", 90.0));
        act(&mut job, r#"{"turn_to":{"crank_deg":100.0}}"#).unwrap();
        assert_eq!(job.text(), "format = ", "what was written outlives a turn");
        job.undo().unwrap();
        job.undo().unwrap();
        assert_eq!((job.text(), job.crank().deg), (SIX, 90.0));
        assert!(Rc::ptr_eq(&plan, job.plan()));
        job.redo().unwrap();
        assert_eq!(job.text(), "format = ");
        job.undo().unwrap();
        job.write("x", false);
        job.write(SIX, true);
        assert_eq!((job.draft(), job.crank().deg), (None, 90.0));
        assert!(matches!(job.next_steps().0, Some(Step::Done(_))), "it came to nothing");
    }

    #[test]
    fn a_drag_is_one_step() {
        let mut job = job();
        for deg in 1..50 {
            job.act(&Action::TurnTo { crank_deg: f64::from(deg) }, deg > 1).unwrap();
        }
        job.undo().unwrap();
        assert_eq!(job.crank(), Turned::default());
        assert!(job.undo().is_none());
    }

    #[test]
    fn what_is_refused_changes_nothing() {
        let mut job = job();
        let start = state(&job);
        for json in [
            r#"{"turn":{"shaft":"cam_lef","deg":1.0}}"#,
            r#"{"turn":{"shaft":"idler","deg":1.0}}"#,
            r#"{"turn":{"shaft":"crank","deg":1e300}}"#,
            r#"{"turn_to":{"crank_deg":5e8}}"#,
            r#"{"set_teeth":{"cam_left":-1,"water_pump":1}}"#,
            r#"{"set_teeth":{"cam_left":25}}"#,
        ] {
            assert!(act(&mut job, json).is_err(), "{json}");
            assert_eq!(state(&job), start);
            assert!(job.undo().is_none());
        }
    }

    #[test]
    fn the_tensioner_goes_no_further_than_the_tight_belt_lets_it() {
        let mut job = job();
        let Did::TensionerMoved { travel, stopped, .. } =
            act(&mut job, r#"{"tensioner_to":{"travel":12.0}}"#).unwrap()
        else {
            panic!()
        };
        assert!(
            stopped == Some(TensionerStop::End)
                && (travel - job.drive().taut().travel).abs() < 1e-12
        );
    }
}
