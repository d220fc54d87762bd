//! How long reading a layout takes: the one that ships, and texts made to take long.
//!
//! Must not know: what is wrong with them.

use core::hint::black_box;
use layout::{MOST_BYTES, Plan};
use proofs::stopwatch::report;

const SIX: &str = include_str!("../../layouts/six-in-a-vee-one-camshaft-a-bank.toml");
/// Whatever the bytes.
const AIM_NS: f64 = 100e6;

fn main() {
    report("the shipped layout read, its drive put together", None, || {
        black_box(Plan::open(black_box(SIX))).ok();
    });
    for (what, before, piece) in [
        ("nothing but equals signs", "", "=\n"),
        ("nested lists", "a=", "["),
        ("nested tables", "", "a={a="),
        ("wheels without anything", "", "[[wheel]]\n"),
        ("bad escapes", "a=\"", "\\q"),
        ("empty entries", "wheel=[", "{},"),
        ("headers", "", "[a]\n"),
        ("quotes", "a=[", "'',"),
    ] {
        let text = before.to_owned() + &piece.repeat((MOST_BYTES - before.len()) / piece.len());
        report(&format!("{} kB of {what}", text.len() / 1000), Some(AIM_NS), || {
            black_box(Plan::open(black_box(&text))).ok();
        });
    }
}
