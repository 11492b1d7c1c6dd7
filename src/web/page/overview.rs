//! The shop at a glance: what to do now, and the way to every table.

use axum::Extension;
use axum::extract::State;
use axum::response::Html;
use maud::html;

use super::frame::{self, Failure, nothing_imported, reported};
use crate::report::cover_section;
use crate::web::key::Role;
use crate::web::language::say;
use crate::web::serving::Serving;

/// The page.
pub(in crate::web) async fn page(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
) -> Result<Html<String>, Failure> {
    let Some((number, report)) = reported(&serving).await? else {
        return Ok(nothing_imported("Shop", role, "/overview"));
    };
    let body = html! {
        h1 { (report.shop) }
        p.meta { (say("As of")) " " (report.as_of_words()) ", " (say("snapshot")) " " (number) "." }
        (cover_section(&report, |key| format!("/table/{key}")))
        section aria-labelledby="tables" {
            h2 id="tables" { (say("Tables")) }
            ul.tiles { @for sheet in &report.sheets {
                li { a href={ "/table/" (sheet.key) } { strong { (sheet.title) } span { (sheet.question) } span.count { (say(&format!("{} rows", sheet.rows.len()))) } } }
            } }
        }
    };
    Ok(frame::page("Shop", role, "/overview", &body))
}
