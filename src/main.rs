//! The `sparewright` command: parse, run, exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(sparewright::cli::main(std::env::args_os()).number())
}
