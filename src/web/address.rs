//! Where the server listens, the names it answers to, and the invitation for a phone.

use std::net::{IpAddr, SocketAddr};

use axum::http::HeaderMap;
use axum::http::header::HOST;
use qrcode::QrCode;
use qrcode::render::unicode;

use super::key::Key;

/// Where to listen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Listen(pub SocketAddr);

impl Listen {
    /// True where only this machine can reach it.
    pub fn is_loopback(self) -> bool {
        self.0.ip().is_loopback()
    }
}

/// Names by which the server may be called.
#[derive(Debug, Clone)]
pub(super) struct Hosts(Vec<String>);

impl Hosts {
    /// The names of an address that is listened to.
    pub(super) fn of(address: SocketAddr) -> Self {
        let mut names = vec![address.to_string()];
        if address.ip().is_loopback() {
            names.push(format!("localhost:{}", address.port()));
        }
        Self(names)
    }

    /// True where the request calls the server by one of them, exactly once.
    pub(super) fn are_named_by(&self, headers: &HeaderMap) -> bool {
        let mut hosts = headers.get_all(HOST).iter();
        let (first, second) = (hosts.next(), hosts.next());
        let named = first.and_then(|host| host.to_str().ok());
        second.is_none()
            && named.is_some_and(|host| self.0.iter().any(|own| own.eq_ignore_ascii_case(host)))
    }
}

/// The address to open, with a key where one is needed.
pub(super) fn url(address: SocketAddr, key: Option<&Key>) -> String {
    match key {
        Some(key) => format!("http://{address}/?key={}", key.as_str()),
        None => format!("http://{address}/"),
    }
}

/// An address with its code to scan, for a terminal.
pub fn invitation(address: SocketAddr, key: &Key) -> String {
    let url = url(address, Some(key));
    let code = QrCode::new(url.as_bytes()).map_or_else(
        |_| String::new(),
        |code| {
            code.render::<unicode::Dense1x2>()
                .dark_color(unicode::Dense1x2::Light)
                .light_color(unicode::Dense1x2::Dark)
                .build()
        },
    );
    format!("{url}\n{code}\n")
}

/// True for an address that names no single interface, so that no caller can be told apart from a stranger.
pub(super) fn is_unspecified(address: IpAddr) -> bool {
    address.is_unspecified()
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::http::HeaderValue;

    #[test]
    fn only_own_names_are_answered_to() {
        let hosts = Hosts::of("127.0.0.1:8090".parse().unwrap());
        let named = |names: &[&'static str]| {
            let mut headers = HeaderMap::new();
            for name in names {
                headers.append(HOST, HeaderValue::from_static(name));
            }
            hosts.are_named_by(&headers)
        };
        assert!(named(&["127.0.0.1:8090"]));
        assert!(named(&["localhost:8090"]));
        assert!(!named(&["127.0.0.1"]));
        assert!(!named(&["rebound.example:8090"]));
        assert!(!named(&["localhost:8090", "localhost:8090"]));
        assert!(!named(&[]));
    }
}
