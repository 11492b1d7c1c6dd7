//! The `sparewright` command.

fn main() {}
