//! Prints the schema of the layout file, for `cargo xtask schema`.
//!
//! Must not know where it is kept.

fn main() {
    print!("{}", layout::schema());
}
