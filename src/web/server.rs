//! Starting and stopping.

use std::io;
use std::net::SocketAddr;
use std::path::Path;
use std::sync::Arc;

use tokio::net::TcpListener;
use tokio::sync::watch;

use super::address::{Hosts, Listen, is_unspecified};
use super::key::Keys;
use super::live_shop::LiveShop;
use super::route::routes;
use super::serving::Serving;
use super::wire::take_connections;
use crate::language::Language;
use crate::store::StoreError;

/// Why nothing is served.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ServeError {
    /// The workspace cannot be used.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The port is taken or the address is not one of this machine's.
    #[error("`{address}` cannot be listened to")]
    Listen {
        /// The address.
        address: SocketAddr,
        /// Why.
        source: io::Error,
    },
    /// `0.0.0.0` names no address that a caller could be held to.
    #[error(
        "`{address}` stands for every address: give the one by which phones reach this machine"
    )]
    Unspecified {
        /// The address.
        address: SocketAddr,
    },
    /// No threads, or no random numbers.
    #[error("the operating system gives no {what}")]
    System {
        /// What is missing.
        what: &'static str,
        /// Why.
        source: io::Error,
    },
}

/// What was started.
#[derive(Debug)]
pub struct Served {
    /// Address that is listened to, with the port it really got.
    pub address: SocketAddr,
    /// Keys, where others than this machine can reach it.
    pub keys: Option<Keys>,
}

/// Serves a workspace until the process is told to stop.
///
/// Pages speak `language` until somebody switches, without one that of each browser. `started` is called once, when
/// connections are taken.
///
/// # Errors
/// [`ServeError`] where it cannot start.
pub fn serve(
    workspace: &Path,
    listen: Listen,
    language: Option<Language>,
    started: impl FnOnce(&Served),
) -> Result<(), ServeError> {
    let address = listen.0;
    if is_unspecified(address.ip()) {
        return Err(ServeError::Unspecified { address });
    }
    let shop = Arc::new(LiveShop::open(workspace)?);
    let keys = match listen.is_loopback() {
        true => None,
        false => Some(Keys::random().map_err(|error| ServeError::System {
            what: "random numbers",
            source: io::Error::other(error),
        })?),
    };
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()
        .map_err(|source| ServeError::System {
            what: "threads",
            source,
        })?;
    runtime.block_on(async {
        let failed = |source| ServeError::Listen { address, source };
        let listener = TcpListener::bind(address).await.map_err(failed)?;
        let address = listener.local_addr().map_err(failed)?;
        let (stop, stopped) = watch::channel(false);
        let router = routes(Serving {
            shop,
            keys: keys.clone().map(Arc::new),
            hosts: Arc::new(Hosts::of(address)),
            intake: Arc::default(),
            language,
        });
        started(&Served { address, keys });
        tokio::spawn(async move {
            wait_for_the_end().await;
            let _ = stop.send(true);
        });
        take_connections(listener, router, stopped)
            .await
            .map_err(failed)
    })
}

/// Returns when the process is told to stop.
async fn wait_for_the_end() {
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        if let Ok(mut told) = signal(SignalKind::terminate()) {
            tokio::select! {
                _ = told.recv() => {}
                _ = tokio::signal::ctrl_c() => {}
            }
            return;
        }
    }
    let _ = tokio::signal::ctrl_c().await;
}
