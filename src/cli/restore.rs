//! `sparewright restore`: an earlier snapshot made the current one again, as a snapshot of its own.

use super::args::RestoreArgs;
use super::exit::ExitCode;
use super::import;
use super::output;
use super::progress::under_a_bar;
use crate::job::now;
use crate::store::Workspace;

/// Runs the command.
pub fn run(args: &RestoreArgs) -> ExitCode {
    let restored = under_a_bar("Restoring", || {
        Workspace::open(&args.workspace)?.restore(args.number, now())
    });
    match restored {
        Ok(manifest) => output::result(&format!(
            "Snapshot {} holds what snapshot {} held\n",
            manifest.number, args.number
        )),
        Err(error) => import::fail(&error),
    }
}
