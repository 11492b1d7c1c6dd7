//! The local page.

use std::net::SocketAddr;
use std::path::PathBuf;

use clap::Args;

/// Arguments of `serve`.
#[derive(Debug, Args)]
pub struct ServeArgs {
    /// The workspace; made where it is not there
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Address and port; on another than this machine's own (127.0.0.1) a key is needed, printed with a code to scan
    #[arg(long, value_name = "ADDRESS:PORT", default_value = "127.0.0.1:8090")]
    pub listen: SocketAddr,
}
