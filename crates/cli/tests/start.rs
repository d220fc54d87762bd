//! `two-turns start`: three counts in, a layout out that the other commands read, and nothing told that rests
//! on what is made up.

// Tests, helpers and all: a panic is how they fail.
#![allow(clippy::unwrap_used, clippy::panic)]

mod run;

use run::{Done, run, run_with};

fn start(counts: [&str; 3], more: &[&str]) -> Done {
    let [crank, camshaft, belt] = counts;
    let args = ["start", "vee_one_camshaft_a_bank", "--crank", crank];
    run(&[&args[..], &["--camshaft", camshaft, "--belt", belt], more].concat())
}

#[test]
fn three_counts_in_and_only_what_follows_from_them_out() {
    let text = start(["24", "48", "167"], &[]).out;
    let told = |command: &str| {
        let done = run_with(&[command, "-"], &text, &[("LC_ALL", "C")]);
        assert_eq!((done.code, done.err.as_str()), (Some(0), ""), "{command}");
        done.out.replace('\u{a0}', " ")
    };
    let report = told("report");
    for exact in ["15°", "7.5°", "2 turns", "167 turns", "334 turns", "Provisional: only"] {
        assert!(report.contains(exact), "{exact}: {report}");
    }
    for made_up in [" mm", "Tensioner"] {
        assert!(!report.contains(made_up), "{made_up}: {report}");
    }
    assert!(told("fitting").contains("is not told") && !told("fitting").contains(" mm"));
}

#[test]
fn counts_that_cannot_be_and_counts_that_are_odd() {
    let short = start(["24", "48", "60"], &[]);
    assert_eq!((short.code, short.out.as_str()), (Some(2), ""));
    assert!(short.err.starts_with("-: --belt: A belt of 60"), "{}", short.err);
    let odd = start(["24", "40", "167"], &[]);
    assert_eq!(odd.code, Some(0));
    assert!(odd.err.contains("48") && odd.out.contains("teeth = 40"), "{}", odd.err);
    let file = std::env::temp_dir().join(format!("two-turns-start-{}.toml", std::process::id()));
    let named = file.to_str().unwrap();
    let kept = start(["24", "48", "167"], &["--lang", "de", "-o", named]);
    assert_eq!((kept.code, kept.out.as_str(), kept.err.as_str()), (Some(0), "", ""));
    assert!(std::fs::read_to_string(&file).unwrap().contains("Vorläufig"));
    // What is there is not written over, unless it is asked for.
    for (lang, says) in [("en", "There is a file of this name already"), ("de", "gibt es schon")] {
        let again = start(["24", "48", "173"], &["--lang", lang, "-o", named]);
        assert_eq!((again.code, again.out.as_str()), (Some(2), ""));
        assert!(again.err.starts_with(named) && again.err.contains(says), "{}", again.err);
        assert!(again.err.contains("--force"), "{}", again.err);
    }
    assert!(std::fs::read_to_string(&file).unwrap().contains("Vorläufig"));
    assert_eq!(start(["24", "48", "173"], &["-o", named, "--force"]).code, Some(0));
    assert!(std::fs::read_to_string(&file).unwrap().contains("teeth = 173"));
    std::fs::remove_file(file).unwrap();
}

#[test]
fn what_an_option_takes_is_said_in_the_readers_language() {
    let told = |args: &[&str]| {
        let done = run(args);
        assert_eq!((done.code, done.out.as_str()), (Some(2), ""), "{args:?}");
        assert_eq!(done.err.lines().count(), 1, "{}", done.err);
        done.err
    };
    let start = ["start", "vee_one_camshaft_a_bank", "--camshaft", "48", "--belt", "167"];
    let en = told(&[&start[..], &["--crank", "forty"]].concat());
    assert_eq!(en, "--crank: “forty” is no whole number. Give a bare whole number, such as 24.\n");
    let de = told(&[&start[..], &["--crank", "vierzig", "--lang", "de"]].concat());
    assert!(de.starts_with("--crank: „vierzig“ ist keine ganze Zahl."), "{de}");
    let de = told(&["--lang=de", "start", "vee_one", "--crank", "24", "--camshaft", "48"]);
    assert!(de.contains("Ist „vee_one_camshaft_a_bank“ gemeint?"), "{de}");
    for (args, says) in [
        (["--rpm", "800rpm"], "without a unit"),
        (["--friction-back", "0,5"], "one number with a decimal point, such as 0.5, or a range"),
        (["--moment", "cam_left"], "cam_left=40in-lb"),
    ] {
        let told = told(&[&["tension", "-"][..], &args].concat());
        assert!(told.starts_with(args[0]) && told.contains(says), "{told}");
    }
}
