//! A thin main: everything that can be tested is in the library.
fn main() {}
