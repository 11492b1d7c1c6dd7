//! The `sparewright` command: parse, run, exit code.

use std::process::ExitCode;

use mimalloc::MiMalloc;

/// An answer at the bench is hundreds of short texts and lists: with the allocator of the system it takes a third longer.
#[global_allocator]
static ALLOCATOR: MiMalloc = MiMalloc;

fn main() -> ExitCode {
    ExitCode::from(sparewright::cli::main(std::env::args_os()).number())
}
