//! Many layout files checked at once: each sound, or with every problem in it, in the order given.
//!
//! Must not know: what makes a layout sound.

use crate::args::Check;
use crate::commands;
use crate::fault::{self, Fault};
use crate::input::{self, Closed};
use advice::AddsUp;
use layout::Sketch;
use serde::Serialize;
use std::io::{self, IsTerminal as _, Write as _};
use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use words::command::{checked, checked_so_far};
use words::say::adds_up::{adds_up_lines, camshaft_lines};
use words::{Lang, Reader};

/// Most causes told of a layout that does not add up.
const MOST_CAUSES: usize = 3;

/// What came of checking.
pub struct Checked {
    /// For standard output.
    pub answer: String,
    /// The files that could not be read, where the answer does not tell them.
    pub unreadable: Vec<Fault>,
    /// How it went, the worst of all files.
    pub state: State,
    /// Whether all of them add up and their camshafts turn as they must, as far as they can be read.
    pub add_up: bool,
}

/// How it stands with a file. The later, the worse.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// Nothing is wrong with it.
    Sound,
    /// It has problems.
    Unsound,
    /// It could not be read.
    Unreadable,
}

/// One file as JSON tells it.
#[derive(Serialize)]
struct File {
    file: String,
    state: State,
    title: Option<String>,
    belt_teeth: Option<u32>,
    problems: Vec<Fault>,
    /// Whether belt, counts and centres agree; null where the layout cannot be read.
    adds_up: Option<AddsUp>,
    #[serde(skip)]
    misfit: Vec<Fault>,
    /// How it stands with it, in a sentence, where a belt can run.
    #[serde(skip)]
    says: Option<String>,
}

#[derive(Serialize)]
struct Files {
    files: Vec<File>,
}

/// Checks all files that are asked for.
///
/// # Errors
/// Never in practice: that the answer is no JSON.
pub fn check(lang: Lang, asked: &Check) -> Result<Checked, Vec<Fault>> {
    let mut jobs: Vec<Result<PathBuf, Fault>> = Vec::new();
    for named in &asked.files {
        match input::files(lang, named) {
            Ok(files) => jobs.extend(files.into_iter().map(Ok)),
            Err(fault) => jobs.push(Err(fault)),
        }
    }
    let files = all(lang, &jobs);
    let state = files.iter().map(|file| file.state).max().unwrap_or(State::Sound);
    let right = |it: &AddsUp| it.adds_up && it.camshafts_out.is_empty();
    let add_up = files.iter().all(|file| file.adds_up.as_ref().is_none_or(right));
    if asked.json {
        let answer = commands::json(Path::new("-"), &Files { files })?;
        return Ok(Checked { answer, unreadable: Vec::new(), state, add_up });
    }
    let (mut answer, mut unreadable) = (String::new(), Vec::new());
    for file in files {
        match (file.state, file.says) {
            (State::Unreadable, _) => unreadable.extend(file.problems),
            (State::Sound, Some(says)) => {
                answer += &fault::lines(&[Fault::of_file(Path::new(&file.file), "", says)]);
            }
            _ => answer += &fault::lines(&file.problems),
        }
        answer += &fault::lines(&file.misfit);
    }
    Ok(Checked { answer, unreadable, state, add_up })
}

/// Checks them on as many threads as the machine runs at once; what comes of each, in their order.
fn all(lang: Lang, jobs: &[Result<PathBuf, Fault>]) -> Vec<File> {
    let threads = std::thread::available_parallelism().map_or(1, NonZero::get).min(jobs.len());
    let (next, done) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let shown = io::stderr().is_terminal();
    let work = || {
        let mut files = Vec::new();
        while let Some((i, job)) = jobs.iter().enumerate().nth(next.fetch_add(1, Ordering::Relaxed))
        {
            files.push((i, one(lang, job)));
            if shown {
                // One at a time, so that the figure only rises; over what stood there.
                let mut screen = io::stderr().lock();
                let done = done.fetch_add(1, Ordering::Relaxed) + 1;
                let says = checked_so_far(lang, done, jobs.len());
                let _ = write!(screen, "\r\u{1b}[K{says}");
            }
        }
        files
    };
    let mut files: Vec<(usize, File)> = std::thread::scope(|scope| {
        let threads: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
        let join = |thread: std::thread::ScopedJoinHandle<'_, _>| match thread.join() {
            Ok(files) => files,
            Err(panic) => std::panic::resume_unwind(panic),
        };
        threads.into_iter().flat_map(join).collect()
    });
    if shown {
        let _ = write!(io::stderr(), "\r\u{1b}[K");
    }
    files.sort_by_key(|(i, _)| *i);
    files.into_iter().map(|(_, file)| file).collect()
}

fn one(lang: Lang, job: &Result<PathBuf, Fault>) -> File {
    let closed = |file: String, state, problems| File {
        file,
        state,
        title: None,
        belt_teeth: None,
        problems,
        adds_up: None,
        misfit: Vec::new(),
        says: None,
    };
    let path = match job {
        Ok(path) => path,
        Err(fault) => return closed(fault.file.clone(), State::Unreadable, vec![fault.clone()]),
    };
    let file = path.display().to_string();
    match input::plan(lang, path) {
        Ok(plan) => {
            let (adds_up, misfit) = adding_up(lang, path, &plan.text);
            File {
                file,
                state: State::Sound,
                says: Some(checked(lang, &plan.layout, adds_up.as_ref())),
                title: Some(plan.layout.title),
                belt_teeth: Some(plan.layout.belt.teeth),
                problems: Vec::new(),
                adds_up,
                misfit,
            }
        }
        Err(Closed::Wrong { faults, text }) => {
            let (adds_up, misfit) = adding_up(lang, path, &text);
            File { adds_up, misfit, ..closed(file, State::Unsound, faults) }
        }
        Err(Closed::Unreadable(fault)) => closed(file, State::Unreadable, vec![fault]),
    }
}

/// Whether the layout adds up, and the lines that say so where it does not.
fn adding_up(lang: Lang, file: &Path, text: &str) -> (Option<AddsUp>, Vec<Fault>) {
    let reader = Reader { lang, ..Reader::default() };
    let told = Sketch::of(text).zip(advice::adds_up(text)).map(|(sketch, answer)| {
        let lines = match answer.adds_up {
            true => camshaft_lines(lang, &sketch.layout, &answer.camshafts_out),
            false => adds_up_lines(reader, &sketch.layout, &answer, MOST_CAUSES),
        };
        (answer, lines.into_iter().map(|line| Fault::of_file(file, "", line)).collect())
    });
    told.map_or((None, Vec::new()), |(answer, lines)| (Some(answer), lines))
}
