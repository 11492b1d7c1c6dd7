//! One table of the report as a page.

use axum::Extension;
use axum::extract::{Path, State};
use axum::response::{Html, IntoResponse, Response};
use maud::html;

use super::frame::{self, Failure, nothing_imported, reported};
use crate::report::sheet_section;
use crate::web::key::Role;
use crate::web::language::say;
use crate::web::serving::Serving;

/// The page.
async fn page_of(serving: &Serving, role: Role, key: &str) -> Result<Html<String>, Failure> {
    let Some((number, report)) = reported(serving).await? else {
        return Ok(nothing_imported("Table", role, ""));
    };
    let sheet = report.sheet(key).ok_or(Failure::NoSuchPage)?;
    let body = html! {
        h1.small { (report.shop) }
        p.meta { (say("As of")) " " (report.as_of_words()) ", " (say("snapshot")) " " (number) ". "
            a href={ "/download/" (sheet.key) ".csv" } { (say("As CSV")) } }
        (sheet_section(sheet))
    };
    Ok(frame::page(&sheet.title, role, "/overview", &body))
}

/// Answers the request for a table.
pub(in crate::web) async fn page(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
    Path(key): Path<String>,
) -> Response {
    page_of(&serving, role, &key).await.into_response()
}
