//! `cargo xtask page`: the Rust core and the TypeScript page, packed into one HTML file that works
//! from the disk and asks the network for nothing.
//!
//! Must not know what the page shows.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;

use anyhow::{Context, Result, bail};
use wasm_bindgen_cli_support::Bindgen;

use crate::bundle;
use crate::need;
use crate::project::{Project, output, run};

/// The target that the page's core is compiled for.
pub const WASM: &str = "wasm32-unknown-unknown";

/// The page, built.
pub struct Page {
    /// Where it lies.
    pub path: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
}

impl Page {
    /// The page that the last build left.
    ///
    /// # Errors
    /// When there is none.
    pub fn built(project: &Project) -> Result<Self> {
        let path = project.root.join("dist/two-turns.html");
        let about = fs::metadata(&path)
            .with_context(|| format!("{} is not there: run `cargo xtask page`", path.display()))?;
        Ok(Self { path, bytes: about.len() })
    }

    /// Its size in thousands of bytes.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "a page is far smaller than 2^52 bytes")]
    pub fn kilobytes(&self) -> f64 {
        self.bytes as f64 / 1000.0
    }
}

/// Builds `dist/two-turns.html` and prints where it lies, its size and the time it took.
///
/// # Errors
/// When a tool is missing and cannot be fetched, or any part does not build.
pub fn build(project: &Project) -> Result<Page> {
    let begun = Instant::now();
    need::packages(project, "www")?;
    need::target(project, WASM)?;
    let core = build_core(project)?;
    let html = pack(project, &core)?;
    write(&project.root.join("dist/two-turns.html"), &html)?;
    let page = Page::built(project)?;
    let seconds = begun.elapsed().as_secs_f64();
    println!("{} ({:.1} kB, {seconds:.1} s)", page.path.display(), page.kilobytes());
    Ok(page)
}

/// Compiles the crate `page` and returns the wasm; its JavaScript side and its types are left in
/// `www/generated`, where the page imports them and the tests find them.
fn build_core(project: &Project) -> Result<Vec<u8>> {
    let mut compile =
        project.cargo(["build", "--quiet", "-p", "page", "--profile", "page", "--target", WASM]);
    // Replaces whatever flags the machine sets: the page must not depend on them.
    run(compile.env("CARGO_ENCODED_RUSTFLAGS", flags_without_places(project)?))?;
    let compiled = project.target.join(WASM).join("page/page.wasm");
    let generated = project.root.join("www/generated");
    // Made aside and compared, so that an unchanged file keeps its date.
    let fresh = project.target.join("bindings");
    Bindgen::new()
        .input_path(&compiled)
        .web(true)?
        .typescript(true)
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(&fresh)
        .context("wasm-bindgen could not make the page's side of crates/page")?;
    for name in ["page.js", "page.d.ts", "page_bg.wasm", "page_bg.wasm.d.ts"] {
        write(&generated.join(name), &read(&fresh.join(name))?)?;
    }
    read(&generated.join("page_bg.wasm"))
}

/// Compiler flags that keep this machine's folders out of the messages of the core, so that the
/// same source gives the same bytes everywhere.
fn flags_without_places(project: &Project) -> Result<String> {
    let sysroot =
        output(Command::new("rustc").current_dir(&project.root).args(["--print", "sysroot"]))?;
    let mut places =
        vec![(PathBuf::from(sysroot.trim()), "/rust"), (project.root.clone(), "/two-turns")];
    let home = std::env::var_os("CARGO_HOME")
        .map(PathBuf::from)
        .or_else(|| std::env::home_dir().map(|home| home.join(".cargo")));
    if let Some(sources) = home.map(|home| home.join("registry/src"))
        && let Ok(registries) = fs::read_dir(&sources)
    {
        places.extend(registries.flatten().map(|registry| (registry.path(), "/crates")));
    }
    let flags: Vec<String> = places
        .iter()
        .map(|(place, name)| format!("--remap-path-prefix={}={name}", place.display()))
        .collect();
    Ok(flags.join("\u{1f}"))
}

/// Bundles script and style, and fills the template.
fn pack(project: &Project, core: &[u8]) -> Result<Vec<u8>> {
    let common =
        ["--bundle", "--minify", "--charset=utf8", "--legal-comments=none", "--log-level=warning"];
    let esbuild = |entry: &str, more: &[&str]| {
        let mut command = need::tool(project, "www", "esbuild");
        output(command.arg(entry).args(common).args(more))
    };
    let module = ["--format=esm", "--target=es2022"];
    let script = esbuild("src/main.ts", &module)?;
    let opening = esbuild("src/opening.ts", &module)?;
    let style = esbuild("src/style.css", &["--target=chrome111,firefox113,safari16.4"])?;
    let template = project.root.join("www/index.html");
    let template = String::from_utf8(read(&template)?).context("www/index.html is not UTF-8")?;
    let parts = bundle::Parts { opening: &opening, script: &script, style: &style, core };
    Ok(bundle::page(&template, &parts)?.into_bytes())
}

fn read(path: &Path) -> Result<Vec<u8>> {
    fs::read(path).with_context(|| format!("could not read {}", path.display()))
}

/// Writes a file unless it has these very bytes already.
fn write(path: &Path, bytes: &[u8]) -> Result<()> {
    if fs::read(path).is_ok_and(|there| there == bytes) {
        return Ok(());
    }
    let Some(folder) = path.parent() else { bail!("{} is not a file's place", path.display()) };
    fs::create_dir_all(folder).with_context(|| format!("could not make {}", folder.display()))?;
    fs::write(path, bytes).with_context(|| format!("could not write {}", path.display()))
}
