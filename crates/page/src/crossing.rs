//! How values cross to the page and back: the one place where an error of ours becomes one of the
//! page's.
//!
//! Must not know: what the values mean.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_wasm_bindgen::Serializer;
use tsify::{Ts, Tsify};
use wasm_bindgen::{JsError, JsValue};

/// A value as the page gets it: plain objects, nothing is `null`.
///
/// # Errors
/// A whole number too large for the page's numbers.
pub fn out<T: Serialize + Tsify>(value: &T) -> Result<Ts<T>, JsError>
where
    T::JsType: wasm_bindgen::JsCast,
{
    let js = value.serialize(&Serializer::json_compatible()).map_err(told)?;
    Ok(Ts::new_unchecked(js))
}

/// A value that the page hands in.
///
/// # Errors
/// What does not fit, in words for whoever writes the page.
pub fn into<T: DeserializeOwned + Tsify>(value: Ts<T>) -> Result<T, JsError> {
    serde_wasm_bindgen::from_value(JsValue::from(value)).map_err(told)
}

/// Any error as the page's own.
pub fn told(error: impl core::fmt::Display) -> JsError {
    JsError::new(&error.to_string())
}
