//! All kits: what is missing, when each is complete, and what holds it.

use axum::Extension;
use axum::extract::State;
use axum::response::Html;
use maud::{Markup, html};

use super::frame::{self, Failure, nothing_imported, planned};
use crate::plan::{Completion, KitPlan};
use crate::report::content::kits_sheet;
use crate::report::model::{Emphasis, Sheet, grouped};
use crate::report::{translated_sheet, unbroken};
use crate::web::key::Role;
use crate::web::language::{chosen, moment, number, say};
use crate::web::live_shop::PlannedShop;
use crate::web::serving::Serving;

/// The page.
pub(in crate::web) async fn page(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
) -> Result<Html<String>, Failure> {
    let Some((snapshot, shop)) = planned(&serving).await? else {
        return Ok(nothing_imported("Kits", role, "/kits"));
    };
    let english = kits_sheet(&shop.inputs());
    let sheet = translated_sheet(english.clone(), chosen());
    let plans = &shop.planned.plan.kits;
    let body = html! {
        h1 { (say("Kits")) }
        p.meta { (say("If the machine went down now.")) " " (frame::as_of(&shop, snapshot)) }
        @if plans.is_empty() { p.none { (sheet.empty_text) } }
        @for row in worst_first(&sheet, plans) { (card((&sheet, &english), row, &plans[row], has_work(&shop, &plans[row]))) }
        @if !plans.is_empty() { p { a.button href="/table/kits" { (say("The same as a table")) } } }
    };
    Ok(frame::page("Kits", role, "/kits", &body))
}

/// Rows in the order in which somebody should look: those that would stop their machine first, longest downtime first.
fn worst_first(sheet: &Sheet, plans: &[KitPlan]) -> Vec<usize> {
    let down_h = |row: usize| {
        let running = plans[row].accepted.running.as_ref();
        // Without an end it is down for longer than any that has one.
        running.map_or(f64::INFINITY, |of| of.p50.production_h)
    };
    let mut rows: Vec<usize> = (0..plans.len()).collect();
    rows.sort_by(|a, b| {
        let worst = sheet.rows[*b].emphasis.cmp(&sheet.rows[*a].emphasis);
        worst.then(down_h(*b).total_cmp(&down_h(*a)))
    });
    rows
}

/// True where a table gives the tasks of the kit; without them its downtime is the wait for parts alone.
pub(super) fn has_work(shop: &PlannedShop, plan: &KitPlan) -> bool {
    !shop.job.shop.kits[plan.kit].tasks.is_empty()
}

/// One kit: missing lines, moments, what holds it.
fn card((sheet, english): (&Sheet, &Sheet), row: usize, plan: &KitPlan, has_work: bool) -> Markup {
    // A sentence is put together in English and then said as a whole.
    let lines = cell(english, row, "short_lines");
    let noun = if lines == "1" { "line" } else { "lines" };
    let missing = format!("{lines} {noun} missing");
    let of = |key: &str| cell(sheet, row, key);
    let (class, mark) = mark(sheet.rows[row].emphasis);
    html! {
        article class={ "card " (class) } {
            h2 { a.whole href={ "/kits/" (plan.kit) } { (of("kit")) } }
            p.verdict { span.mark { (say(mark)) } " " (say(&missing))
                @if !of("machine").is_empty() { span.quiet { ", " (unbroken(&of("machine"))) } } }
            p { (say("Held by")) ": " (unbroken(&of("held_by"))) }
            (moments(plan, has_work))
        }
    }
}

/// When the kit is complete and the machine runs, by share of cases.
pub(super) fn moments(plan: &KitPlan, has_work: bool) -> Markup {
    let outcome = &plan.accepted;
    let Completion::Known { apart, .. } = &outcome.completion else {
        return html! { p { (say("Complete: unknown, because a line has no known arrival.")) } };
    };
    let running = outcome.running.as_ref();
    let rows = [
        ("Likely (P50)", apart.p50, running.map(|of| &of.p50)),
        ("4 cases of 5 (P80)", apart.p80, running.map(|of| &of.p80)),
        ("9 cases of 10 (P90)", apart.p90, running.map(|of| &of.p90)),
    ];
    html! {
        // Words of some languages are longer than a phone is wide.
        div.scroll role="group" aria-label=(say("Kit complete and running again")) tabindex="0" { table.moments {
            thead { tr { th scope="col" { (say("By")) } th scope="col" { (say("Kit complete")) } th scope="col" { (say("Running again")) } th.n scope="col" { (say(if has_work { "Hours down" } else { "Hours of waiting for parts" })) } } }
            tbody { @for (name, complete, running) in rows { tr {
                th scope="row" { (say(name)) }
                td { (unbroken(&moment(complete))) }
                td { (unbroken(&running.map_or_else(|| say("unknown"), |of| moment(of.up)))) }
                td.n { (running.map_or_else(|| say("unknown"), |of| number(&grouped(of.production_h, 1, 1)))) }
            } } }
        } }
        @if !has_work { p.quiet { (say("No table gives the kit's tasks: the hours of the work are not counted.")) } }
    }
}

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
