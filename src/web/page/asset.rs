//! Files that are built into the program.

use axum::extract::Path;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};

use super::frame::Failure;
use crate::report::{PAGE_SCRIPT, PAGE_STYLE};

const SCRIPT: &str = include_str!("../assets/page.js");
/// Looks of the served pages, after those of the report.
pub(super) const PAGE_CSS: &str = include_str!("../assets/page.css");
const ICON: &str = include_str!("../assets/icon.svg");

/// A built-in file.
pub(in crate::web) async fn file(Path(name): Path<String>) -> Response {
    let (kind, text) = match name.as_str() {
        "page.js" => ("text/javascript; charset=utf-8", SCRIPT.to_owned()),
        "sorting.js" => ("text/javascript; charset=utf-8", PAGE_SCRIPT.to_owned()),
        "page.css" => ("text/css; charset=utf-8", format!("{PAGE_STYLE}{PAGE_CSS}")),
        "icon.svg" => ("image/svg+xml", ICON.to_owned()),
        _ => return Failure::NoSuchPage.into_response(),
    };
    ([(CONTENT_TYPE, kind), (CACHE_CONTROL, "no-cache")], text).into_response()
}

/// The answer to every other address.
pub(in crate::web) async fn nothing_here() -> Failure {
    Failure::NoSuchPage
}
