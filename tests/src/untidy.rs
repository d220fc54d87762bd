//! A tidy layout text written the way people's files are: comments wherever there can be one, odd spacing,
//! numbers in other styles, tables in each of the forms that TOML has, lists over several lines. It says the
//! same.
//!
//! Must not know: how a text is changed, or read.

use fastrand::Rng;

/// `text` written so. Every comment in it is `# note`, a number of its own, `.`.
pub fn untidy(rng: &mut Rng, text: &str) -> String {
    let mut notes = 0;
    let mut out = String::new();
    for block in blocks(text) {
        out += &untidy_block(rng, &block, &mut notes);
    }
    out += &note(rng, &mut notes, "\n");
    if rng.u8(..5) == 0 { out.replace('\n', "\r\n") } else { out }
}

/// The text's tables, each with its header, the keys at the top first.
fn blocks(text: &str) -> Vec<Vec<String>> {
    let mut blocks: Vec<Vec<String>> = vec![Vec::new()];
    for line in text.lines().filter(|line| !line.trim().is_empty()) {
        if line.starts_with('[') {
            blocks.push(Vec::new());
        }
        if let Some(block) = blocks.last_mut() {
            block.push(line.to_owned());
        }
    }
    blocks
}

fn untidy_block(rng: &mut Rng, lines: &[String], notes: &mut usize) -> String {
    let (mut out, mut below) = (String::new(), String::new());
    let header = lines.first().map_or("", String::as_str);
    out += ["", "\n", "\n\n"][rng.usize(..3)];
    for line in lines {
        for _ in 0..rng.usize(..2) {
            out += &note(rng, notes, "\n");
        }
        let Some((key, value)) = line.split_once(" = ").filter(|_| !line.starts_with(['[', '#']))
        else {
            let comment = trailing(rng, notes);
            out += &format!("{}{comment}\n", line.split(" #").next().unwrap_or(line));
            continue;
        };
        let value = value.split(" #").next().unwrap_or(value).trim();
        match (value.strip_prefix("{ ").and_then(|v| v.strip_suffix(" }")), rng.u8(..4)) {
            // Keys with a point in them.
            (Some(inner), 0) => {
                for pair in inner.split(", ").filter(|_| !inner.contains('[')) {
                    out += &format!("{key}.{pair}{}\n", trailing(rng, notes));
                }
                if inner.contains('[') {
                    out += &format!("{key} = {value}{}\n", trailing(rng, notes));
                }
            }
            // A table of its own, below all keys of this one.
            (Some(inner), 1) if header.starts_with("[[wheel]]") && !inner.contains('[') => {
                below += &format!("[wheel.{key}]{}\n", trailing(rng, notes));
                for pair in inner.split(", ") {
                    below += &note(rng, notes, "\n");
                    below += &format!("{pair}{}\n", trailing(rng, notes));
                }
            }
            _ => {
                let indent = ["", "", "  ", "\t"][rng.usize(..4)];
                let equals = [" = ", "=", "  =  ", " =\t"][rng.usize(..4)];
                let value = styled(rng, key, value, notes);
                out += &format!("{indent}{key}{equals}{value}{}\n", trailing(rng, notes));
            }
        }
    }
    out + &below
}

/// A value that says the same.
fn styled(rng: &mut Rng, key: &str, value: &str, notes: &mut usize) -> String {
    let list = value.strip_prefix('[').and_then(|v| v.strip_suffix(']'));
    match (list, value.parse::<u32>(), rng.u8(..3)) {
        (Some(list), _, 0) if !list.contains('{') => {
            let mut out = "[".to_owned();
            for each in list.split(", ") {
                out += &format!("\n    {each},{}", trailing(rng, notes));
            }
            out + "\n]"
        }
        (Some(list), _, 1) if !list.contains('{') => format!("[ {} ]", list.replace(", ", " , ")),
        (_, Ok(n), 0) if key != "format" => format!("0x{n:x}"),
        (_, Ok(n), 1) if key != "format" => format!("+{n}"),
        _ => match value.strip_prefix('"').and_then(|v| v.strip_suffix('"')) {
            Some(text) if !text.contains(['\'', '\\']) && rng.bool() => format!("'{text}'"),
            _ => value.to_owned(),
        },
    }
}

fn trailing(rng: &mut Rng, notes: &mut usize) -> String {
    match rng.u8(..3) {
        0 => format!("  {}", note(rng, notes, "")),
        1 => [" ", "\t", ""][rng.usize(..3)].to_owned(),
        _ => String::new(),
    }
}

fn note(rng: &mut Rng, notes: &mut usize, end: &str) -> String {
    if rng.bool() {
        return String::new();
    }
    *notes += 1;
    format!("# note {notes}.{end}")
}

/// The notes of a text, each told once for every time that it is there.
pub fn notes(text: &str) -> Vec<u32> {
    let after = text.split("# note ").skip(1);
    let mut notes: Vec<u32> =
        after.filter_map(|rest| rest.split('.').next()?.parse().ok()).collect();
    notes.sort_unstable();
    notes
}
