//! (being built)
fn main() {}
