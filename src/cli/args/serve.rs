//! The local page.

use std::net::SocketAddr;
use std::path::PathBuf;

use clap::Args;

use super::answer_form::language;
use crate::language::Language;

/// Arguments of `serve`.
#[derive(Debug, Args)]
pub struct ServeArgs {
    /// The workspace; made where it is not there
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Address and port; on another than this machine's own (127.0.0.1) a key is needed, printed with a code to scan
    #[arg(long, value_name = "ADDRESS:PORT", default_value = "127.0.0.1:8090", value_parser = address)]
    pub listen: SocketAddr,
    /// Language of what is printed, and of the pages until somebody switches, such as de [default: en; pages as the browser asks]
    #[arg(long, value_name = "CODE", value_parser = language)]
    pub language: Option<Language>,
}

/// An address with its port; what is missing is said, since the parser of addresses says only that it is wrong.
fn address(text: &str) -> Result<SocketAddr, String> {
    text.parse().map_err(|_| {
        let port = text.trim_start_matches(':');
        match port.parse::<u16>() {
            Ok(port) => format!("the address is missing; expected such as 127.0.0.1:{port}"),
            Err(_) => "expected an address and a port, such as 127.0.0.1:8090".to_owned(),
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_without_its_half_says_which() {
        assert!(address("127.0.0.1:8090").is_ok() && address("[::1]:8090").is_ok());
        for bare in ["8090", ":8090"] {
            let said = address(bare).unwrap_err();
            assert!(said.ends_with("such as 127.0.0.1:8090"), "{said}");
        }
        for wrong in ["", "localhost", "127.0.0.1", "127.0.0.1:99999", "a:b"] {
            assert!(address(wrong).unwrap_err().contains("a port"), "{wrong}");
        }
    }
}
