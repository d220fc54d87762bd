//! `cargo xtask schema`: the schema of the layout file, for editors that check a file while it is typed.
//!
//! Must not know what a layout holds: `crates/layout` prints its schema, and a test there finds a file
//! that is not current.

use anyhow::{Context, Result};

use crate::project::{Project, output};

const FILE: &str = "layouts/layout.schema.json";

/// Writes the schema.
///
/// # Errors
/// When `crates/layout` does not build, or the file cannot be written.
pub fn write(project: &Project) -> Result<()> {
    let mut print = project.cargo(["run", "-q", "-p", "layout", "--example", "schema"]);
    std::fs::write(project.root.join(FILE), output(&mut print)?)
        .with_context(|| format!("{FILE} could not be written"))?;
    println!("{FILE}");
    Ok(())
}
