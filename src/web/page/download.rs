//! Every report and table as a file.

use axum::Extension;
use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{Html, IntoResponse, Response};
use maud::html;

use super::frame::{self, Failure, aside, nothing_imported, reported};
use crate::report::{REPORT_NAME, csv_of, html_of, json_of, workbook_of};
use crate::web::access::Role;
use crate::web::language::say;
use crate::web::route::Serving;

/// The list of files.
pub(in crate::web) async fn page(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
) -> Result<Html<String>, Failure> {
    let Some((number, report)) = reported(&serving).await? else {
        return Ok(nothing_imported("Downloads", role, "/download"));
    };
    let whole = [
        ("xlsx", "Workbook, one sheet per table"),
        ("html", "Page to send or print"),
        ("json", "JSON for other programs"),
    ];
    let body = html! {
        h1 { (say("Downloads")) }
        p.meta { (say("Snapshot")) " " (number) ", " (say("as of")) " " (report.as_of_words()) "." }
        ul.tiles {
            @for (ending, what) in whole {
                li { a href={ "/download/" (REPORT_NAME) "." (ending) } download { strong { (REPORT_NAME) "." (ending) } span { (say(what)) } } }
            }
            @for sheet in &report.sheets {
                li { a href={ "/download/" (sheet.key) ".csv" } download { strong { (sheet.key) ".csv" } span { (sheet.title) } } }
            }
        }
    };
    Ok(frame::page("Downloads", role, "/download", &body))
}

/// One file.
pub(in crate::web) async fn file(
    State(serving): State<Serving>,
    Path(name): Path<String>,
) -> Result<Response, Failure> {
    let (_, report) = reported(&serving).await?.ok_or(Failure::NoSuchPage)?;
    let asked = name.clone();
    let (kind, bytes) = aside(move || made(&report, &asked))
        .await?
        .ok_or(Failure::NoSuchPage)?;
    // Names are keys of our own sheets: letters, digits and underscores.
    let disposition = format!("attachment; filename=\"{name}\"");
    Ok((
        [
            (CONTENT_TYPE, kind.to_owned()),
            (CONTENT_DISPOSITION, disposition),
        ],
        bytes,
    )
        .into_response())
}

/// Media type and bytes of a file; `None` where there is no such file.
fn made(report: &crate::report::Report, name: &str) -> Option<(&'static str, Vec<u8>)> {
    let (stem, ending) = name.rsplit_once('.')?;
    match ending {
        "csv" => Some(("text/csv; charset=utf-8", csv_of(report.sheet(stem)?))),
        _ if stem != REPORT_NAME => None,
        "html" => Some(("text/html; charset=utf-8", html_of(report).into_bytes())),
        "json" => Some(("application/json", json_of(report))),
        "xlsx" => Some((
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
            workbook_of(report).ok()?,
        )),
        _ => None,
    }
}
