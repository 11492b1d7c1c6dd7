//! `sparewright serve`: the page over a workspace.

use super::args::ServeArgs;
use super::exit::ExitCode;
use super::output;
use super::refusal::{self, Refusal};
use crate::web::{Listen, ServeError, Served, invitation, serve};

/// Runs the command until it is told to stop.
pub fn run(args: &ServeArgs) -> ExitCode {
    match serve(&args.workspace, Listen(args.listen), args.language, said) {
        Ok(()) => ExitCode::Done,
        Err(error) => {
            let hint = match &error {
                ServeError::Listen { .. } => {
                    Some("give a free port with --listen, such as 127.0.0.1:8091")
                }
                ServeError::Unspecified { .. } => Some("such as --listen 192.168.1.20:8090"),
                _ => None,
            };
            Refusal::of(&error).hinting(hint).tell();
            ExitCode::Input
        }
    }
}

/// Says where to go.
fn said(served: &Served) {
    let text = match &served.keys {
        None => refusal::said(&format!(
            "Open http://{}/ in a browser on this machine; Ctrl-C stops",
            served.address
        )),
        Some(keys) => format!(
            "{}\n\n{}:\n{}\n{}:\n{}\n{}",
            refusal::said(
                "Everyone who has one of these addresses gets in. The connection is not encrypted: use it in the shop's own network only."
            ),
            refusal::said("Look things up"),
            invitation(served.address, &keys.look),
            refusal::said("Import too (give it to few)"),
            invitation(served.address, &keys.import),
            refusal::said("Ctrl-C stops; the keys end with it"),
        ),
    } + "\n";
    // A closed stdout does not stop the server.
    let _ = output::result(&text);
}
