//! Which address shows what, and what every answer carries.

use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::extract::{DefaultBodyLimit, Request};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderName, HeaderValue, StatusCode};
use axum::middleware::{Next, from_fn, from_fn_with_state};
use axum::response::Response;
use axum::routing::{get, post};
use tower_http::limit::RequestBodyLimitLayer;
use tower_http::timeout::{RequestBodyTimeoutLayer, TimeoutLayer};

use super::access::{self, Keys};
use super::address::Hosts;
use super::intake::{Intake, MOST_UPLOAD_BYTES};
use super::language;
use super::live_shop::LiveShop;
use super::page::{asset, download, import, kit, kits, levels, look_up, overview, table};

/// Pages load and run only what comes from here, and stand in nobody's frame.
const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; \
connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
/// Longest time for an answer; reading forty price lists takes seconds.
const ANSWER_TIME: Duration = Duration::from_secs(120);
/// Longest pause in an upload.
const UPLOAD_PAUSE: Duration = Duration::from_secs(15);

/// What every request works with.
#[derive(Debug, Clone)]
pub(super) struct Serving {
    /// The shop.
    pub(super) shop: Arc<LiveShop>,
    /// Keys; `None` on the loopback address.
    pub(super) keys: Option<Arc<Keys>>,
    /// Names we answer to.
    pub(super) hosts: Arc<Hosts>,
    /// Files that wait for a yes or no.
    pub(super) intake: Arc<Intake>,
}

/// All addresses.
pub(super) fn routes(serving: Serving) -> Router {
    let changes = Router::new()
        .route("/import", get(import::form).post(import::read))
        .route("/import/confirm", post(import::confirm))
        .route("/import/cancel", post(import::cancel))
        .route("/import/undo", post(import::undo))
        .layer(DefaultBodyLimit::disable())
        .layer(RequestBodyLimitLayer::new(MOST_UPLOAD_BYTES))
        .layer(from_fn(access::importers_only));
    Router::new()
        .route("/", get(look_up::page))
        .route("/answer", get(look_up::answer_only))
        .route("/answer.html", get(look_up::to_keep))
        .route("/kits", get(kits::page))
        .route("/kits/{position}", get(kit::page))
        .route("/kits/{position}/sheet", get(kit::rebuild_sheet))
        .route("/levels", get(levels::page))
        .route("/levels/part", get(levels::changing_part))
        .route("/overview", get(overview::page))
        .route("/table/{key}", get(table::page))
        .route("/download", get(download::page))
        .route("/download/{file}", get(download::file))
        .route("/asset/{name}", get(asset::file))
        .route("/language/{code}", get(language::keep))
        .merge(changes)
        .fallback(asset::nothing_here)
        .layer(from_fn(language::choose))
        .layer(from_fn_with_state(serving.clone(), access::guard))
        .layer(from_fn(with_headers))
        .layer(RequestBodyTimeoutLayer::new(UPLOAD_PAUSE))
        .layer(TimeoutLayer::with_status_code(
            StatusCode::SERVICE_UNAVAILABLE,
            ANSWER_TIME,
        ))
        .with_state(serving)
}

/// Headers of every answer, refusals too.
async fn with_headers(request: Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    // The sheet to print carries a stricter one of its own, with its looks inside.
    headers
        .entry(CONTENT_SECURITY_POLICY)
        .or_insert(HeaderValue::from_static(POLICY));
    for (name, value) in [
        (X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (REFERRER_POLICY, "same-origin"),
        (
            HeaderName::from_static("cross-origin-resource-policy"),
            "same-origin",
        ),
        (
            HeaderName::from_static("cross-origin-opener-policy"),
            "same-origin",
        ),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers
        .entry(CACHE_CONTROL)
        .or_insert(HeaderValue::from_static("no-store"));
    response
}
