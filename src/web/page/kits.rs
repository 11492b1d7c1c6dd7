//! All kits: what is missing, when each is complete, and what holds it.

use axum::Extension;
use axum::extract::State;
use axum::response::Html;
use maud::{Markup, html};

use super::frame::{self, Failure, nothing_imported, planned};
use crate::plan::{Completion, KitPlan};
use crate::report::content::kits_sheet;
use crate::report::model::{Emphasis, Sheet};
use crate::web::access::Role;
use crate::web::route::Serving;

/// The page.
pub(in crate::web) async fn page(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
) -> Result<Html<String>, Failure> {
    let Some((number, shop)) = planned(&serving).await? else {
        return Ok(nothing_imported("Kits", role, "/kits"));
    };
    let sheet = kits_sheet(&shop.inputs());
    let plans = &shop.planned.plan.kits;
    let body = html! {
        h1 { "Kits" }
        p.meta { "If the machine went down now. As of " (shop.as_of_words()) ", snapshot " (number) "." }
        @if plans.is_empty() { p.none { (sheet.empty_text) } }
        @for (row, plan) in plans.iter().enumerate() { (card(&sheet, row, plan)) }
        @if !plans.is_empty() { p { a.button href="/table/kits" { "The same as a table" } } }
    };
    Ok(frame::page("Kits", role, "/kits", &body))
}

/// One kit: missing lines, moments, what holds it.
fn card(sheet: &Sheet, row: usize, plan: &KitPlan) -> Markup {
    let of = |key: &str| cell(sheet, row, key);
    let (class, mark) = mark(sheet.rows[row].emphasis);
    html! {
        article class={ "card " (class) } {
            h2 { a.whole href={ "/kits/" (plan.kit) } { (of("kit")) } }
            p.verdict { span.mark { (mark) } " " (of("short_lines")) " lines missing"
                @if !of("machine").is_empty() { span.quiet { ", " (of("machine")) } } }
            p { "Held by " (of("held_by")) }
            (moments(plan))
        }
    }
}

/// When the kit is complete and the machine runs, by share of cases.
pub(super) fn moments(plan: &KitPlan) -> Markup {
    let outcome = &plan.accepted;
    let Completion::Known { apart, .. } = &outcome.completion else {
        return html! { p { "Complete: unknown, because a line has no known lead time." } };
    };
    let running = outcome.running.as_ref();
    let rows = [
        ("Likely (P50)", apart.p50, running.map(|of| &of.p50)),
        ("4 cases of 5 (P80)", apart.p80, running.map(|of| &of.p80)),
        ("9 cases of 10 (P90)", apart.p90, running.map(|of| &of.p90)),
    ];
    html! {
        table.moments {
            thead { tr { th scope="col" { "By" } th scope="col" { "Kit complete" } th scope="col" { "Running again" } th.n scope="col" { "Hours down" } } }
            tbody { @for (name, complete, running) in rows { tr {
                th scope="row" { (name) }
                td { (complete.format(MOMENT)) }
                td { @match running { Some(of) => (of.up.format(MOMENT)), None => "unknown" } }
                td.n { @match running { Some(of) => (format!("{:.1}", of.production_h)), None => "unknown" } }
            } } }
        }
    }
}

/// A moment as the pages print it.
pub(super) const MOMENT: &str = "%a %Y-%m-%d %H:%M";

/// A cell in words with its unit; empty where the sheet has no such column.
pub(super) fn cell(sheet: &Sheet, row: usize, key: &str) -> String {
    let found = sheet.column_at(key).zip(sheet.rows.get(row));
    found.map_or_else(String::new, |(at, row)| {
        row.cells[at].with_unit(sheet.columns[at].kind, sheet.language)
    })
}

/// Class and mark of a row: a shape and a word, as in the report.
pub(super) const fn mark(emphasis: Emphasis) -> (&'static str, &'static str) {
    match emphasis {
        Emphasis::None | Emphasis::Good => ("good", "● good"),
        Emphasis::Attention => ("check", "▲ check"),
        Emphasis::Stop => ("stop", "■ STOP"),
    }
}
