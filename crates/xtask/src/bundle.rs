//! One HTML file out of a template, a script, a style sheet and the compiled core, under a policy
//! that lets the page run its own script and reach for nothing.
//!
//! Pure text work: must not know files or tools.

use anyhow::{Result, bail};
use base64::Engine;
use base64::engine::general_purpose::STANDARD as BASE64;
use sha2::{Digest, Sha256};

use crate::packing::packed;

/// What a page is made of.
pub struct Parts<'a> {
    /// The script that unpacks the other one; it stands in the page as it is.
    pub opening: &'a str,
    /// The page's script, which travels packed.
    pub script: &'a str,
    /// The style sheet.
    pub style: &'a str,
    /// The compiled core, which travels packed.
    pub core: &'a [u8],
}

/// Fills `{{policy}}`, `{{style}}`, `{{core}}`, `{{script}}` and `{{opening}}` in the template.
///
/// # Errors
/// When the template lacks a place or names an unknown one, or when opening or style hold something
/// that would end their element early.
pub fn page(template: &str, parts: &Parts) -> Result<String> {
    let opening = inline_script(parts.opening)?;
    if parts.style.to_ascii_lowercase().contains("</style") {
        bail!(
            "www/src/style.css holds `</style`, which would end the style early: write it otherwise"
        );
    }
    let policy = policy([&opening, parts.script]);
    let (core, script) = (packed(parts.core)?, packed(parts.script.as_bytes())?);
    fill(
        template,
        &[
            ("policy", &policy),
            ("style", parts.style.trim()),
            ("core", &core),
            ("script", &script),
            ("opening", &opening),
        ],
    )
}

/// Only the two scripts whose fingerprints these are may run, and nothing is ever requested.
fn policy(scripts: [&str; 2]) -> String {
    let [opening, script] = scripts.map(|script| BASE64.encode(Sha256::digest(script)));
    format!(
        "default-src 'none'; script-src 'sha256-{opening}' 'sha256-{script}' 'wasm-unsafe-eval'; \
         style-src 'unsafe-inline'; img-src data: blob:"
    )
}

/// A script as it may stand between `<script>` and `</script>`.
///
/// `<!--` would switch the HTML reader into another mode. The bundler never leaves it as an
/// operator, only in strings and patterns, where `<` may be written `\x3C`.
fn inline_script(script: &str) -> Result<String> {
    if script.to_ascii_lowercase().contains("</script") {
        bail!(
            "the page's script holds `</script`, which would end it early: write it otherwise in www/src"
        );
    }
    Ok(script.trim().replace('\r', "").replace("<!--", "\\x3C!--"))
}

/// Replaces each `{{name}}` once, from left to right; what was put in is not looked at again.
fn fill(template: &str, parts: &[(&str, &str)]) -> Result<String> {
    let mut page = String::new();
    let mut rest = template;
    let mut used = Vec::new();
    while let Some((before, (name, after))) =
        rest.split_once("{{").and_then(|(before, tail)| Some((before, tail.split_once("}}")?)))
    {
        let Some((name, part)) = parts.iter().find(|(known, _)| *known == name) else {
            bail!("www/index.html asks for `{{{{{name}}}}}`, which nothing fills");
        };
        page.push_str(before);
        page.push_str(part);
        used.push(*name);
        rest = after;
    }
    page.push_str(rest);
    for (name, _) in parts {
        if used.iter().filter(|there| *there == name).count() != 1 {
            bail!("www/index.html must hold `{{{{{name}}}}}` exactly once");
        }
    }
    Ok(page)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEMPLATE: &str = "<p>{{policy}}|{{style}}|{{core}}|{{script}}|{{opening}}|";

    fn made(template: &str, opening: &str, style: &str) -> Result<String> {
        page(template, &Parts { opening, script: "run()", style, core: b"core" })
    }

    #[test]
    fn what_is_put_in_is_not_read_as_template() {
        let page = made(TEMPLATE, "f('{{core}}', '$&')", "p{}").unwrap();
        assert!(page.ends_with("|f('{{core}}', '$&')|"), "{page}");
    }

    #[test]
    fn the_fingerprints_are_those_of_what_runs() {
        let page = made(TEMPLATE, "let a='<!-- b'\r\n", "").unwrap();
        let opening = page.rsplit('|').nth(1).unwrap();
        assert_eq!(opening, "let a='\\x3C!-- b'");
        for script in [opening, "run()"] {
            assert!(page.contains(&BASE64.encode(Sha256::digest(script))));
        }
    }

    #[test]
    fn a_script_or_style_that_would_end_early_is_refused() {
        assert!(made(TEMPLATE, "'</SCRIPT>'", "").is_err());
        assert!(made(TEMPLATE, "", "a{content:'</style>'}").is_err());
    }

    #[test]
    fn a_template_with_a_missing_or_unknown_place_is_refused() {
        assert!(made("{{policy}}{{style}}{{core}}{{script}}", "", "").is_err());
        assert!(made(&format!("{TEMPLATE}{{{{title}}}}"), "", "").is_err());
        assert!(made(&format!("{TEMPLATE}{{{{style}}}}"), "", "").is_err());
    }
}
