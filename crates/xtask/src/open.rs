//! `cargo xtask open`: shows the built page in the default browser, or says where it lies.
//!
//! Must not know how the page is built.

use std::path::Path;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

use anyhow::Result;

use crate::page;
use crate::project::Project;

/// Builds the page and opens it. A machine without a desktop is not an error: the path was printed.
///
/// # Errors
/// When the page does not build.
pub fn build_and_open(project: &Project) -> Result<()> {
    let page = page::build(project)?;
    if !opened(&page.path) {
        println!("No desktop answered: open {} in a browser.", page.path.display());
    }
    Ok(())
}

fn opened(path: &Path) -> bool {
    let desktop = ["DISPLAY", "WAYLAND_DISPLAY"]
        .iter()
        .any(|name| std::env::var_os(name).is_some_and(|screen| !screen.is_empty()));
    let mut opener = match std::env::consts::OS {
        "macos" => Command::new("open"),
        // `start` is a word of the command interpreter; its first quoted word is a window's title.
        "windows" => {
            let mut start = Command::new("cmd");
            start.args(["/C", "start", ""]);
            start
        }
        _ if !desktop => return false,
        _ => Command::new("xdg-open"),
    };
    opener.arg(path).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    opener.spawn().is_ok_and(|mut child| {
        // Some openers stay until the browser is closed: one that has not complained by now is fine.
        for _ in 0..30 {
            match child.try_wait() {
                Ok(Some(status)) => return status.success(),
                Ok(None) => sleep(Duration::from_millis(100)),
                Err(_) => return false,
            }
        }
        true
    })
}
