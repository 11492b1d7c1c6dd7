//! Which address shows what, and what every answer carries.

use std::time::{Duration, Instant};

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

use super::access;
use super::intake::MOST_UPLOAD_BYTES;
use super::language;
use super::page::{asset, download, import, kit, kits, levels, look_up, overview, table};
use super::serving::Serving;

/// Pages load and run only what comes from here, and stand in nobody's frame.
const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; \
connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
/// What an answer took in this program.
const SERVER_TIMING: HeaderName = HeaderName::from_static("server-timing");
/// Longest time for an answer; reading forty price lists takes seconds.
const ANSWER_TIME: Duration = Duration::from_secs(120);
/// Longest pause in an upload.
const UPLOAD_PAUSE: Duration = Duration::from_secs(15);

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
        .layer(from_fn_with_state(serving.clone(), language::choose))
        .layer(from_fn_with_state(serving.clone(), access::guard))
        .layer(from_fn(with_headers))
        .layer(RequestBodyTimeoutLayer::new(UPLOAD_PAUSE))
        .layer(TimeoutLayer::with_status_code(
            StatusCode::SERVICE_UNAVAILABLE,
            ANSWER_TIME,
        ))
        .with_state(serving)
}

/// Headers of every answer, refusals too. Its time runs from the head of the request being read to the answer being made
/// (W3C Server Timing); browsers show it beside what the network took.
async fn with_headers(request: Request, next: Next) -> Response {
    let start = Instant::now();
    let mut response = next.run(request).await;
    let took_ms = 1e3 * start.elapsed().as_secs_f64();
    let headers = response.headers_mut();
    if let Ok(took) = HeaderValue::try_from(format!("answer;dur={took_ms:.3}")) {
        headers.insert(SERVER_TIMING, took);
    }
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
