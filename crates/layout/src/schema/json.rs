//! Just enough of JSON to write a schema down: values, and their text with two spaces to a level.
//!
//! Must not know what a schema is.

/// A value. An object keeps the order in which it was made.
pub(super) enum Json {
    Text(&'static str),
    Number(f64),
    Flag(bool),
    List(Vec<Json>),
    Object(Vec<(&'static str, Json)>),
}

pub(super) fn text(text: &'static str) -> Json {
    Json::Text(text)
}

pub(super) fn words(words: impl IntoIterator<Item = &'static str>) -> Json {
    Json::List(words.into_iter().map(Json::Text).collect())
}

pub(super) fn object(entries: Vec<(&'static str, Json)>) -> Json {
    Json::Object(entries)
}

impl Json {
    /// Its text, ending with a line end.
    pub(super) fn pretty(&self) -> String {
        let mut out = String::new();
        self.write(&mut out, 0);
        out.push('\n');
        out
    }

    fn write(&self, out: &mut String, level: usize) {
        match self {
            Self::Text(text) => quoted(out, text),
            Self::Number(number) => out.push_str(&number.to_string()),
            Self::Flag(flag) => out.push_str(if *flag { "true" } else { "false" }),
            // Words and numbers stay in one line.
            Self::List(list) if !list.iter().any(Self::has_lines) => {
                out.push('[');
                for (i, value) in list.iter().enumerate() {
                    out.push_str(if i == 0 { "" } else { ", " });
                    value.write(out, level);
                }
                out.push(']');
            }
            Self::List(list) => {
                out.push('[');
                for (i, value) in list.iter().enumerate() {
                    line(out, i, level + 1);
                    value.write(out, level + 1);
                }
                line(out, 0, level);
                out.push(']');
            }
            Self::Object(entries) => {
                out.push('{');
                for (i, (key, value)) in entries.iter().enumerate() {
                    line(out, i, level + 1);
                    quoted(out, key);
                    out.push_str(": ");
                    value.write(out, level + 1);
                }
                line(out, 0, level);
                out.push('}');
            }
        }
    }

    fn has_lines(&self) -> bool {
        matches!(self, Self::Object(_) | Self::List(_))
    }
}

/// Begins entry `i`, or the closing bracket, on a line of its own.
fn line(out: &mut String, i: usize, level: usize) {
    out.push_str(if i == 0 { "\n" } else { ",\n" });
    out.push_str(&"  ".repeat(level));
}

fn quoted(out: &mut String, text: &str) {
    out.push('"');
    for c in text.chars() {
        match c {
            '"' | '\\' => out.extend(['\\', c]),
            c if c.is_control() => out.push_str(&format!("\\u{:04x}", u32::from(c))),
            c => out.push(c),
        }
    }
    out.push('"');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_json() {
        let value = object(vec![
            ("quote \" \\ \n", words(["a", "b"])),
            ("empty", words([])),
            (
                "number",
                Json::List(vec![Json::Number(-0.5), object(vec![("flag", Json::Flag(true))])]),
            ),
        ]);
        let expected = serde_json::json!({
            "quote \" \\ \n": ["a", "b"],
            "empty": [],
            "number": [-0.5, { "flag": true }],
        });
        let written: serde_json::Value = serde_json::from_str(&value.pretty()).unwrap();
        assert_eq!(written, expected);
    }
}
