//! Connections: each gets so long to say what it wants, and there are only so many at once.

use std::io;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use hyper_util::rt::{TokioExecutor, TokioIo, TokioTimer};
use hyper_util::server::conn::auto::Builder;
use hyper_util::service::TowerToHyperService;
use tokio::net::TcpListener;
use tokio::sync::{Semaphore, watch};

/// Connections at once; more wait in the listening queue.
const MOST_CONNECTIONS: usize = 512;
/// Time a client gets for the head of a request.
const HEAD_TIME: Duration = Duration::from_secs(10);
/// Longest head of a request, in bytes; also the least buffer the protocol library takes.
const HEAD_BYTES: usize = 16 * 1024;

/// Takes connections until `stop` says so, then lets those that are answered finish.
///
/// # Errors
/// The operating system's error where the listener breaks.
pub(super) async fn take_connections(
    listener: TcpListener,
    router: Router,
    mut stop: watch::Receiver<bool>,
) -> io::Result<()> {
    let room = Arc::new(Semaphore::new(MOST_CONNECTIONS));
    loop {
        let Ok(seat) = Arc::clone(&room).acquire_owned().await else {
            return Ok(());
        };
        let stream = tokio::select! {
            taken = listener.accept() => match taken {
                Ok((stream, _)) => stream,
                // One client that gave up, or no file handle left: the next one may do better.
                Err(_) => {
                    tokio::time::sleep(Duration::from_millis(20)).await;
                    continue;
                }
            },
            _ = stop.changed() => return Ok(()),
        };
        // An answer goes out at once: its last packet would otherwise wait for the phone to confirm the one before it.
        let _ = stream.set_nodelay(true);
        let (router, mut stop) = (router.clone(), stop.clone());
        tokio::spawn(async move {
            let mut builder = Builder::new(TokioExecutor::new());
            builder
                .http1()
                .timer(TokioTimer::new())
                .header_read_timeout(HEAD_TIME)
                .max_buf_size(HEAD_BYTES);
            let service = TowerToHyperService::new(router);
            let connection = builder.serve_connection(TokioIo::new(stream), service);
            tokio::pin!(connection);
            // A broken connection is the client's matter.
            tokio::select! {
                _ = connection.as_mut() => {}
                _ = stop.changed() => {
                    connection.as_mut().graceful_shutdown();
                    let _ = connection.await;
                }
            }
            drop(seat);
        });
    }
}
