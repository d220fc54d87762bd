//! What `two-turns draw` writes, and where.

#![allow(clippy::unwrap_used, reason = "tests")]

mod run;

use run::{SIX, edited, run, run_with};
use std::path::PathBuf;

/// A file of this name that is this test's own.
fn file(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name)
}

#[test]
fn the_same_drawing_in_a_file_and_printed() {
    let out = file("six.svg");
    std::fs::write(&out, "what stood there").unwrap();
    let done = run(&["draw", SIX, "-o", out.to_str().unwrap()]);
    assert_eq!((done.code, done.out.as_str(), done.err.as_str()), (Some(0), "", ""));
    let drawing = std::fs::read_to_string(&out).unwrap();
    assert_eq!(drawing, run(&["draw", SIX, "--out", "-"]).out);
    assert!(drawing.starts_with("<?xml") && drawing.ends_with("</svg>\n"));
    assert_eq!(drawing.matches("data-part=\"belt-tooth ").count(), 173);
    assert!(drawing.contains("<desc id=\"about\">Crank at 0°. The belt is tight.</desc>"));
    assert!(drawing.contains(">Left camshaft<") && !drawing.contains("class=\"mark-out\""));
}

#[test]
fn it_stands_as_pose_would_have_it() {
    let at = ["--crank-deg", "-90", "--teeth", "cam_left=-1", "--travel", "-38", "-o", "-"];
    let done = run(&[&["draw", SIX, "--lang", "de"], &at[..]].concat());
    assert_eq!((done.code, done.err.as_str()), (Some(0), ""));
    assert!(done.out.contains("class=\"mark-out\"") && done.out.contains("xml:lang=\"de\""));
    for says in ["Kurbelwelle bei −90°. ", "Left camshaft ist 1\u{a0}Zahn", "\u{a0}mm"] {
        assert!(done.out.contains(says), "{says}");
    }
    let done = run(&["draw", SIX, "--travel", "12", "-o", "-"]);
    assert_eq!((done.code, done.out.as_str()), (Some(2), ""));
    assert!(done.err.contains("--travel: The tensioner cannot stand"), "{}", done.err);
}

#[test]
fn names_may_hold_anything() {
    let text = edited("title = \"", "title = \"<svg> & \\\"co\\\" \\u001b[2J ");
    let text = text.replacen("name = \"Left camshaft", "name = \"<Left> & \\\"camshaft\\\"", 1);
    let done = run_with(&["draw", "-", "-o", "-"], text, &[]);
    assert_eq!((done.code, done.err.as_str()), (Some(0), ""));
    assert!(done.out.contains("&lt;Left&gt; &amp; &quot;camshaft&quot;"));
    assert!(!done.out.contains('\u{1b}'));
}

#[test]
fn what_cannot_be_written_is_told() {
    let nowhere = file("no-such-directory").join("six.svg");
    let done = run(&["draw", SIX, "-o", nowhere.to_str().unwrap()]);
    assert_eq!((done.code, done.out.as_str()), (Some(2), ""));
    assert!(done.err.contains("six.svg: Writing the answer failed: "), "{}", done.err);
    assert_eq!(done.err.lines().count(), 1);
    // Not onto the layout itself.
    let layout = file("kept.toml");
    std::fs::copy(SIX, &layout).unwrap();
    let done = run(&["draw", layout.to_str().unwrap(), "-o", layout.to_str().unwrap()]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.contains("--out: The drawing would overwrite the layout"), "{}", done.err);
    assert_eq!(std::fs::read(&layout).unwrap(), std::fs::read(SIX).unwrap());
    // What is wrong with a layout leaves what is there alone.
    let out = file("left-alone.svg");
    std::fs::write(&out, "as it was").unwrap();
    let text = edited("teeth = 173", "teeth = 193");
    let done = run_with(&["draw", "-", "-o", out.to_str().unwrap()], text, &[]);
    assert_eq!(done.code, Some(2));
    assert_eq!(std::fs::read_to_string(&out).unwrap(), "as it was");
}
