//! Import by dropping files: how they are read, what would change, yes or no, and undo.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::Extension;
use axum::extract::{Form, Multipart, State};
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Redirect, Response};
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, Failure, and_more, aside};
use crate::import::{ColumnDryRun, TableDryRun};
use crate::job::now;
use crate::report::model::grouped;
use crate::store::{Change, StoreError};
use crate::web::intake::{IntakeError, Uploaded, Waiting};
use crate::web::key::Role;
use crate::web::language::{chosen, say};
use crate::web::serving::Serving;

/// Changes, problems and snapshots listed; more are counted.
const LISTED: usize = 50;

/// The key of files that wait.
#[derive(Debug, Deserialize)]
pub(in crate::web) struct Answered {
    key: String,
}

/// The snapshot that an undo would leave.
#[derive(Debug, Deserialize)]
pub(in crate::web) struct Undo {
    snapshot: u32,
}

impl From<IntakeError> for Failure {
    fn from(error: IntakeError) -> Self {
        let status = match &error {
            IntakeError::Map(_) | IntakeError::Import(_) => StatusCode::UNPROCESSABLE_ENTITY,
            IntakeError::Gone => StatusCode::GONE,
            IntakeError::Keep(_) | IntakeError::Store(_) | IntakeError::Random => {
                StatusCode::INTERNAL_SERVER_ERROR
            }
        };
        Self::Sent(status, error.to_string())
    }
}

impl From<StoreError> for Failure {
    fn from(error: StoreError) -> Self {
        Self::from(IntakeError::from(error))
    }
}

/// The form, and what was imported so far.
pub(in crate::web) async fn form(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
) -> Result<Html<String>, Failure> {
    let shop = Arc::clone(&serving.shop);
    let snapshots = aside(move || shop.workspace().snapshots()).await??;
    let last = snapshots.last().map(|manifest| manifest.number);
    let undoes = snapshots
        .len()
        .checked_sub(2)
        .and_then(|at| snapshots.get(at));
    let body = html! {
        h1 { (say("Import")) }
        (drop_form())
        @if !snapshots.is_empty() {
            section aria-labelledby="so-far" {
                h2 id="so-far" { (say("So far")) }
                @if let (Some(earlier), Some(last)) = (undoes, last) {
                    form method="post" action="/import/undo" {
                        input type="hidden" name="snapshot" value=(last);
                        button type="submit" { (say(&format!("Undo snapshot {last}: back to what {} held", earlier.number))) }
                    }
                }
                div.scroll role="group" aria-labelledby="so-far" tabindex="0" { table { thead { tr { th scope="col" { (say("Snapshot")) } th scope="col" { (say("Made")) } th scope="col" { (say("Files")) } } }
                    tbody { @for manifest in snapshots.iter().rev().take(LISTED) { tr {
                        th scope="row" { (manifest.number) }
                        td { (chosen().moment(manifest.made_at)) }
                        td { (manifest.files.iter().map(|file| file.file.as_str()).collect::<Vec<_>>().join(", ")) }
                    } } } } }
            }
        }
    };
    Ok(frame::page("Import", role, "/import", &body))
}

fn drop_form() -> Markup {
    html! {
        form #drop method="post" action="/import" enctype="multipart/form-data" {
            label.drop { span { (say("Spreadsheets: xlsx, xls, xlsb, ods, csv. Drop them here or choose them.")) }
                input type="file" name="files" multiple required accept=".xlsx,.xlsm,.xlsb,.xls,.ods,.csv,.tsv,.txt,.toml";
            }
            label.wide-in { span { (say("Meaning of a column, where the first reading took it wrongly (one per line, such as $C=price)")) }
                textarea name="maps" rows="2" {}
            }
            p.row { button type="submit" { (say("Read, and show what would change")) } }
        }
    }
}

/// Reads what was sent and shows it.
pub(in crate::web) async fn read(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
    multipart: Multipart,
) -> Result<Response, Failure> {
    let (files, maps) = received(multipart).await?;
    if files.is_empty() {
        return Err(Failure::Sent(
            StatusCode::UNPROCESSABLE_ENTITY,
            "no file was chosen".to_owned(),
        ));
    }
    let read = aside(move || {
        let workspace = serving.shop.workspace();
        serving.intake.read(workspace, &files, &maps, now())
    });
    let (status, body) = match read.await? {
        Ok((key, waiting)) => (StatusCode::OK, proposal(&key, &waiting)),
        // What can be mended by sending another file keeps the form at hand.
        Err(IntakeError::Import(error)) => not_read(&error.of_what_was_sent()),
        Err(IntakeError::Map(error)) => not_read(&error.to_string()),
        Err(error) => return Err(error.into()),
    };
    Ok((status, frame::page("Import", role, "/import", &body)).into_response())
}

/// What is wrong with what was sent, and the form once more.
fn not_read(words: &str) -> (StatusCode, Markup) {
    let body = html! {
        h1 { (say("Import")) }
        p.stop-line role="alert" { (say("Not read")) ": " (say(words)) }
        (drop_form())
    };
    (StatusCode::UNPROCESSABLE_ENTITY, body)
}

async fn received(mut multipart: Multipart) -> Result<(Uploaded, Vec<String>), Failure> {
    let unreadable = |error: axum::extract::multipart::MultipartError| {
        Failure::Sent(error.status(), error.body_text())
    };
    let (mut files, mut maps) = (Vec::new(), Vec::new());
    while let Some(field) = multipart.next_field().await.map_err(unreadable)? {
        match (field.name(), field.file_name().map(str::to_owned)) {
            (Some("files"), Some(name)) => {
                let bytes = field.bytes().await.map_err(unreadable)?;
                // A form without a chosen file sends one without name and content.
                if !(name.is_empty() && bytes.is_empty()) {
                    files.push((name, bytes.to_vec()));
                }
            }
            (Some("maps"), None) => {
                let text = field.text().await.map_err(unreadable)?;
                let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
                maps.extend(lines.map(str::to_owned));
            }
            _ => {}
        }
    }
    Ok((files, maps))
}

/// How the files were read and what they would change, with yes and no.
fn proposal(key: &str, waiting: &Waiting) -> Markup {
    let imported = &waiting.imported;
    html! {
        h1 { (say("Is this right?")) }
        p { (say(&format!("{} rows read, {} rejected.", grouped(imported.rows_read as f64, 0, 0), grouped(imported.rows_rejected as f64, 0, 0)))) }
        @if !waiting.outcome.is_new { p.none { (say("Nothing in these files is new.")) } }
        div.row {
            form method="post" action="/import/confirm" { input type="hidden" name="key" value=(key); button.strong type="submit" { (say("Yes, import")) } }
            form method="post" action="/import/cancel" { input type="hidden" name="key" value=(key); button type="submit" { (say("No, forget them")) } }
        }
        @for problem in &imported.problems { p.stop-line { (say(problem.label())) ": " (problem.file) ": " (say(&problem.reason.to_string())) } }
        (what_changes(&waiting.changes))
        (problems(waiting))
        @for table in imported.dry_run() { (reading(&table)) }
    }
}

fn what_changes(changes: &[Change]) -> Markup {
    let mut kinds: BTreeMap<_, usize> = BTreeMap::new();
    for change in changes {
        *kinds.entry(change.kind).or_default() += 1;
    }
    html! {
        section aria-labelledby="changes" {
            h2 id="changes" { (say("What would change")) }
            @if changes.is_empty() { p.none { (say("No part, price or lead time changes.")) } } @else {
                ul.plain { @for (kind, count) in &kinds { li { (say(kind.words())) ": " (count) } } }
                div.scroll role="group" aria-labelledby="changes" tabindex="0" { table {
                    thead { tr { @for header in ["Part", "Supplier", "What", "Before", "After"] { th scope="col" { (say(header)) } } } }
                    tbody { @for change in changes.iter().take(LISTED) { tr {
                        th scope="row" { (change.part) }
                        td { (change.supplier.as_deref().unwrap_or_default()) }
                        td { (say(change.kind.words())) }
                        td { (say(change.before.as_deref().unwrap_or_default())) }
                        td { (say(change.after.as_deref().unwrap_or_default())) }
                    } } }
                } }
                @if changes.len() > LISTED { p.quiet { (and_more(changes.len() - LISTED)) } }
            }
        }
    }
}

fn problems(waiting: &Waiting) -> Markup {
    let issues = &waiting.imported.issues;
    html! {
        @if !issues.is_empty() {
            section aria-labelledby="problems" {
                h2 id="problems" { (say("Problems")) " (" (issues.len()) ")" }
                ul.plain { @for issue in issues.iter().take(LISTED) { li { (say(&issue.place.to_string())) ": " (say(&issue.problem.to_string())) } } }
                @if issues.len() > LISTED { p.quiet { (and_more(issues.len() - LISTED)) } }
            }
        }
    }
}

/// How one table was read, column by column.
fn reading(table: &TableDryRun) -> Markup {
    let place = match table.sheet.is_empty() {
        true => table.file.clone(),
        false => format!("{}, {} {}", table.file, say("sheet"), table.sheet),
    };
    html! {
        section {
            h2 { (place) ": " (say(table.kind.name())) }
            @if table.is_hidden { p.note-line { (say("This sheet is hidden in its workbook.")) } }
            p.quiet { (say(&format!("Header in row {}", table.header_row))) ". " (say(&table.why.join("; "))) }
            div.scroll role="group" aria-label=(place) tabindex="0" { table {
                thead { tr { @for header in ["Column", "Header", "Taken for", "Because", "Values"] { th scope="col" { (say(header)) } } } }
                tbody { @for column in &table.columns { (column_row(column)) } }
            } }
        }
    }
}

fn column_row(column: &ColumnDryRun) -> Markup {
    html! {
        tr class=[column.field.is_none().then_some("check")] {
            th scope="row" { (column.letters) }
            td { (column.header) }
            td { @match column.field { Some(field) => (say(&field.to_string())), None => span.unknown { (say("not read")) } } }
            td { (say(&column.evidence)) }
            td { (column.samples.join(" | ")) }
        }
    }
}

/// Yes.
pub(in crate::web) async fn confirm(
    State(serving): State<Serving>,
    Form(answered): Form<Answered>,
) -> Result<Response, Failure> {
    let confirmed = aside(move || {
        let workspace = serving.shop.workspace();
        serving.intake.confirm(workspace, &answered.key, now())
    });
    confirmed.await??;
    Ok(Redirect::to("/overview").into_response())
}

/// No.
pub(in crate::web) async fn cancel(
    State(serving): State<Serving>,
    Form(answered): Form<Answered>,
) -> Redirect {
    serving.intake.cancel(&answered.key);
    Redirect::to("/import")
}

/// Back to what the snapshot before held; refused where somebody imported meanwhile.
pub(in crate::web) async fn undo(
    State(serving): State<Serving>,
    Form(undo): Form<Undo>,
) -> Result<Redirect, Failure> {
    let shop = Arc::clone(&serving.shop);
    let is_done = aside(move || -> Result<bool, StoreError> {
        let workspace = shop.workspace();
        let snapshots = workspace.snapshots()?;
        let is_last = snapshots
            .last()
            .is_some_and(|last| last.number == undo.snapshot);
        let Some(earlier) = snapshots.iter().rev().nth(1).filter(|_| is_last) else {
            return Ok(false);
        };
        workspace.restore(earlier.number, now())?;
        Ok(true)
    })
    .await??;
    match is_done {
        true => Ok(Redirect::to("/import")),
        false => Err(Failure::Sent(
            StatusCode::CONFLICT,
            "somebody imported meanwhile, or there is nothing to go back to: look at the list again".to_owned(),
        )),
    }
}
