//! Every report and table as a file.

use axum::Extension;
use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{Html, IntoResponse, Response};
use maud::html;

use super::frame::{self, Failure, aside, nothing_imported, planned, report_of, reported};
use crate::report::content::rebuild_sheets;
use crate::report::{
    REPORT_NAME, Report, csv_of, html_of, json_of, rebuild_sheets_html, translated_sheets,
    workbook_of,
};
use crate::web::key::Role;
use crate::web::language::{chosen, say};
use crate::web::live_shop::PlannedShop;
use crate::web::serving::Serving;

/// Name of the rebuild sheets, without ending.
const REBUILD_SHEETS: &str = "rebuild_sheets";

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
            li { a href={ "/download/" (REBUILD_SHEETS) ".html" } download { strong { (REBUILD_SHEETS) ".html" } span { (say("A sheet to print and fill in for each kit")) } } }
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
    let (_, shop) = planned(&serving).await?.ok_or(Failure::NoSuchPage)?;
    let kind = kind(&name).ok_or(Failure::NoSuchPage)?;
    // Asked for before the work moves to another thread, which does not know the request.
    let language = chosen();
    let report = report_of(&shop).await?;
    let (asked, key) = (name.clone(), format!("{}/{name}", language.code()));
    let bytes = aside(move || shop.file(&key, || made(&shop, &report, &asked)))
        .await?
        .ok_or(Failure::NoSuchPage)?;
    // Names are keys of our own sheets: letters, digits and underscores.
    let disposition = format!("attachment; filename=\"{name}\"");
    Ok((
        [
            (CONTENT_TYPE, kind.to_owned()),
            (CONTENT_DISPOSITION, disposition),
        ],
        bytes.to_vec(),
    )
        .into_response())
}

/// Media type of a file by its ending.
fn kind(name: &str) -> Option<&'static str> {
    let (_, ending) = name.rsplit_once('.')?;
    match ending {
        "csv" => Some("text/csv; charset=utf-8"),
        "html" => Some("text/html; charset=utf-8"),
        "json" => Some("application/json"),
        "xlsx" => Some("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
        _ => None,
    }
}

/// Bytes of a file; `None` where there is no such file.
fn made(shop: &PlannedShop, report: &Report, name: &str) -> Option<Vec<u8>> {
    match name.rsplit_once('.')? {
        (key, "csv") => Some(csv_of(report.sheet(key)?)),
        (REPORT_NAME, "html") => Some(html_of(report).into_bytes()),
        (REPORT_NAME, "json") => Some(json_of(report)),
        (REPORT_NAME, "xlsx") => workbook_of(report).ok(),
        (REBUILD_SHEETS, "html") => {
            let sheets = translated_sheets(rebuild_sheets(&shop.inputs()), report.language);
            Some(rebuild_sheets_html(&sheets, report.language).into_bytes())
        }
        _ => None,
    }
}
