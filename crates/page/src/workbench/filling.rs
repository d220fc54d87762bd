//! Calls that show a layout's text as a form, and fill it in.
//!
//! Must not know: which keys there are, or any number.

use super::Workbench;
use crate::crossing::out;
use crate::draft::problem_lines;
use crate::panel::{Filled, Form, FormChoice, FormRow};
use layout::{Edit, LAYOUT, Plan, Row, another, apply, entries_at, key_at, text_in, value_at};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsError, wasm_bindgen};
use words::typed;

/// The whole form.
#[derive(Clone, Debug, Serialize, Tsify)]
pub struct FormPart {
    /// Its rows; empty where the text is no TOML.
    pub rows: Vec<FormRow>,
}

#[wasm_bindgen]
impl Workbench {
    /// The layout's text, as it is being written, as a form.
    ///
    /// # Errors
    /// Never in practice.
    pub fn form(&self) -> Result<Ts<FormPart>, JsError> {
        let text = self.job.text();
        let problems = Plan::open(text).err().unwrap_or_default();
        let rows = layout::form(text).unwrap_or_default();
        let form = Form {
            reader: self.reader,
            problems: &problem_lines(self.reader.lang, text, &problems),
            wheels: self.wheels_of(&rows),
        };
        out(&FormPart { rows: form.rows(&rows, "") })
    }

    /// How what is typed into a field would be understood; nothing is changed.
    ///
    /// # Errors
    /// Never in practice.
    pub fn understand(&self, path: &str, texts: Vec<String>) -> Result<Ts<Filled>, JsError> {
        let filled = match self.edit_of(path, &texts) {
            Ok((_, said)) => Filled { done: true, text: said },
            Err(text) => Filled { done: false, text },
        };
        out(&filled)
    }

    /// Fills a field in; with nothing typed, empties it.
    ///
    /// # Errors
    /// Never in practice.
    pub fn fill(&mut self, path: &str, texts: Vec<String>) -> Result<Ts<Filled>, JsError> {
        let filled = match self.edit_of(path, &texts) {
            Ok((edit, said)) => {
                // What is not there is emptied already.
                let emptied = matches!(edit, Edit::Remove { .. });
                Filled { done: self.change(&[edit]) || emptied, text: said }
            }
            Err(text) => Filled { done: false, text },
        };
        out(&filled)
    }

    /// Adds one more entry to a list, before entry `at`. Whether it was added.
    #[wasm_bindgen(js_name = addEntry)]
    pub fn add_entry(&mut self, list: &str, at: usize) -> bool {
        another(self.job.text(), list, at).is_some_and(|edit| self.change(&[edit]))
    }

    /// Takes a table or an entry of a list away. Whether it was there.
    #[wasm_bindgen(js_name = removeAt)]
    pub fn remove_at(&mut self, path: &str) -> bool {
        self.change(&[Edit::Remove { path: path.to_owned() }])
    }

    /// Puts an entry of a list elsewhere in it. Whether that can be.
    #[wasm_bindgen(js_name = moveEntry)]
    pub fn move_entry(&mut self, list: &str, from: usize, to: usize) -> bool {
        self.change(&[Edit::Move { list: list.to_owned(), from, to }])
    }
}

impl Workbench {
    /// Makes changes to the layout's text as it is being written, as one step. Whether they can be made.
    fn change(&mut self, edits: &[Edit]) -> bool {
        let Ok(text) = apply(self.job.text(), edits) else { return false };
        self.write(&text, false);
        self.dress();
        true
    }

    fn edit_of(&self, path: &str, texts: &[String]) -> Result<(Edit, String), String> {
        let path = path.to_owned();
        let Some(key) = key_at(LAYOUT, &path) else { return Err(path) };
        let rows = layout::form(self.job.text()).unwrap_or_default();
        let present = value_at(&rows, &path);
        Ok(match typed::understood(self.reader, key, present, texts)? {
            Some(understood) => (Edit::Set { path, value: understood.value }, understood.said),
            None => (Edit::Remove { path }, String::new()),
        })
    }

    fn wheels_of(&self, rows: &[Row]) -> Vec<FormChoice> {
        let wheel = |rows: &Vec<Row>| {
            let word = text_in(rows, "id")?;
            let name = words::written(self.reader.lang, text_in(rows, "name").unwrap_or(word));
            Some(FormChoice { word: word.to_owned(), name: name.to_owned() })
        };
        entries_at(rows, "wheel").iter().filter_map(wheel).collect()
    }
}
