//! One kit: what is missing and from where, whom to ring first, the rebuild on a clock, what being sooner costs.
//!
//! What is asked (a budget, a time, offers struck out) stands in the address, so that a plan can be sent to somebody.

use std::collections::{BTreeMap, BTreeSet};

use axum::Extension;
use axum::extract::rejection::PathRejection;
use axum::extract::{Path, State};
use axum::http::header::CONTENT_SECURITY_POLICY;
use axum::response::{Html, IntoResponse, Response};
use maud::{Markup, html};

use super::frame::{self, Failure, aside, planned};
use super::kits::{cell, has_work, mark, moments};
use super::rebuild_chart::{cost_chart, rebuild_chart};
use crate::catalogue::{PartId, Shop};
use crate::caution;
use crate::import::value::read_sum;
use crate::job::StudiedKit;
use crate::plan::{KitPlan, LinePlan, Proved, Source, StudyAsk, Supply, WhyUnusable};
use crate::record::read_moment;
use crate::report::content::{kit_report, rebuild_sheets};
use crate::report::model::{Emphasis, Report, Sheet, grouped};
use crate::report::{rebuild_sheets_html, sheet_section, translated, translated_sheets, unbroken};
use crate::units::Money;
use crate::web::asked::AskedIn;
use crate::web::key::Role;
use crate::web::language::{chosen, number, say};
use crate::web::live_shop::PlannedShop;
use crate::web::serving::Serving;

/// The sheet to print brings its looks along and nothing else.
const SHEET_POLICY: &str =
    "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; frame-ancestors 'none'";

/// Share of cases below which a line that holds the kit is told without its figure.
const LEAST_TOLD_SHARE: f64 = 0.001;

/// What was asked, and what of it could not be read.
#[derive(Debug, Default)]
struct Asked {
    budget: String,
    by: String,
    without: BTreeSet<String>,
    ask: StudyAsk,
    not_read: Vec<String>,
}

impl Asked {
    fn read(shop: &Shop, pairs: Vec<(String, String)>) -> Self {
        let mut asked = Self::default();
        for (name, value) in pairs {
            let value = value.trim().to_owned();
            match name.as_str() {
                "budget" => asked.budget = value,
                "by" => asked.by = value,
                "without" if !value.is_empty() => {
                    asked.without.insert(value);
                }
                _ => {}
            }
        }
        if !asked.budget.is_empty() {
            let currency = shop.settings.currency;
            asked.ask.budget = sum_typed(&asked.budget)
                .and_then(|amount| Money::from_units(amount, currency).ok());
            if asked.ask.budget.is_none() {
                asked.not_read.push(no_budget(&asked.budget));
            }
        }
        if !asked.by.is_empty() {
            asked.ask.by = read_moment(&asked.by);
            if asked.ask.by.is_none() {
                let words = format!("`{}` is no moment: such as 2026-03-09T14:00", asked.by);
                asked.not_read.push(say(&words));
            }
        }
        let mut left: BTreeSet<&str> = asked.without.iter().map(String::as_str).collect();
        for (at, offer) in shop.offers.iter().enumerate() {
            let place = offer.record.place.to_string();
            if asked.without.contains(&place) {
                left.remove(place.as_str());
                asked.ask.without.push(at);
            }
        }
        let gone = left.into_iter();
        let words = gone.map(|place| say(&format!("the offer in {place} is no longer there")));
        asked.not_read.extend(words);
        asked
    }
}

/// Money as people type it, with comma or point: `3000,50`, `3.000`, `3,000.50`. A sign before three digits separates
/// thousands, because no price has three decimals.
pub(super) fn sum_typed(text: &str) -> Option<f64> {
    let amount = read_sum(text)?;
    (amount >= 0.0).then_some(amount)
}

/// What is said of a sum that cannot be read.
pub(super) fn no_budget(text: &str) -> String {
    say(&format!(
        "`{text}` is no budget: a sum such as 3000 or 3000,50"
    ))
}

/// The page.
pub(in crate::web) async fn page(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
    position: Result<Path<usize>, PathRejection>,
    AskedIn(pairs): AskedIn<Vec<(String, String)>>,
) -> Result<Html<String>, Failure> {
    let Path(position) = position.map_err(|_| Failure::NoSuchPage)?;
    let (number, shop) = planned(&serving).await?.ok_or(Failure::NoSuchPage)?;
    let body = aside(move || {
        let asked = Asked::read(&shop.job.shop, pairs);
        let kit = shop.kit(position, &asked.ask)?;
        Some((
            shop.job.shop.kits[position].name.clone(),
            whole(&shop, number, &kit, &asked),
        ))
    });
    let (name, body) = body.await?.ok_or(Failure::NoSuchPage)?;
    Ok(frame::page(&name, role, "/kits", &body))
}

/// The kit's sheet to print, with boxes for what teardown shows.
pub(in crate::web) async fn rebuild_sheet(
    State(serving): State<Serving>,
    position: Result<Path<usize>, PathRejection>,
) -> Result<Response, Failure> {
    let Path(position) = position.map_err(|_| Failure::NoSuchPage)?;
    let (_, shop) = planned(&serving).await?.ok_or(Failure::NoSuchPage)?;
    let language = chosen();
    let sheet = aside(move || {
        let sheets = rebuild_sheets(&shop.inputs());
        let sheet = sheets.into_iter().find(|sheet| sheet.kit == position)?;
        Some(translated_sheets(vec![sheet], language))
    });
    let sheets = sheet.await?.ok_or(Failure::NoSuchPage)?;
    let page = Html(rebuild_sheets_html(&sheets, language));
    Ok(([(CONTENT_SECURITY_POLICY, SHEET_POLICY)], page).into_response())
}

fn whole(shop: &PlannedShop, snapshot: u32, kit: &StudiedKit, asked: &Asked) -> Markup {
    let study = &kit.study;
    let report = kit_report(&shop.inputs_of_kit(kit), study, &asked.ask);
    let report = translated(report, chosen());
    let position = study.plan.kit;
    let record = &shop.job.shop.kits[position];
    html! {
        h1 { (record.name) }
        p.meta { @if let Some(machine) = &record.machine { (machine) ". " }
            (frame::as_of(shop, snapshot)) }
        section.cautions aria-labelledby="first" {
            h2 id="first" { (say("Before anything is touched")) }
            ul.plain { @for caution in caution::ISOLATION { li { (say(caution)) } } }
        }
        p.row.screen-only {
            a.button href={ "/kits/" (position) "/sheet" } { (say("Rebuild sheet to print")) }
            a.button href="/kits" { (say("All kits")) }
        }
        @for words in &asked.not_read { p.stop-line { (words) } }
        @if !asked.ask.without.is_empty() {
            p.note-line { (say(&struck_out(asked.ask.without.len()))) " "
                a href={ "/kits/" (position) } { (say("Plan with all offers")) } }
        }
        section aria-labelledby="when" {
            h2 id="when" { (say("When it runs again")) }
            (standing(&report, &study.plan, has_work(shop, &study.plan)))
        }
        (ring_first(&report))
        (missing(shop, &report, &study.plan))
        (rebuild_chart(&shop.job.shop, &study.plan))
        (cost_chart(&shop.job.shop, study))
        (ask_again(shop, &study.plan, asked))
        @for sheet in tables(&report) { (sheet_section(sheet)) }
        section.cautions aria-label=(say("Cautions")) { ul.plain { @for caution in &report.cover.cautions { li { (caution) } } } }
    }
}

fn struck_out(offers: usize) -> String {
    match offers {
        1 => "Planned without 1 offer that is struck out.".to_owned(),
        _ => format!("Planned without {offers} offers that are struck out."),
    }
}

/// Held by what, moments, and what it costs.
fn standing(report: &Report, plan: &KitPlan, has_work: bool) -> Markup {
    let kits = report.sheet("kits");
    let of = |key: &str| kits.map_or_else(String::new, |sheet| cell(sheet, 0, key));
    let money = |key: &str| {
        let code = kits.and_then(|sheet| {
            let key = sheet.columns.iter().map(|column| &column.key);
            key.filter_map(|name| name.strip_prefix("purchases_"))
                .next()
        });
        code.map_or_else(String::new, |code| of(&format!("{key}_{code}")))
    };
    html! {
        p { (say("Held by")) ": " strong { (unbroken(&of("held_by"))) } ". " (say("Lines short")) ": " (of("short_lines")) "." }
        (moments(plan, has_work))
        dl.facts {
            div { dt { (say("Purchases and freight")) } dd.figure { (money("purchases")) } }
            div { dt { (say(if has_work { "Downtime, mean" } else { "Waiting for parts, mean" })) } dd.figure { (money("down_cost")) } }
            @if let Some(proof) = &plan.accepted.proof {
                div { dt { (say("Together, expected")) } dd { span.figure { (sum(proof.expected)) }
                    @if let Some(bound) = proof.bound {
                        span.note { " " (say("No plan is below")) " " (sum(bound)) @if proof.proved == Proved::Best { ": " (say("proved best")) } } } } }
            }
        }
    }
}

/// Money with marks between thousands, as the tables print it.
fn sum(money: Money) -> String {
    let amount = number(&grouped(money.cents as f64 / 100.0, 2, 2));
    format!("{amount} {}", money.currency.code())
}

/// Calls in the order of what their answers would save.
fn ring_first(report: &Report) -> Markup {
    let Some(sheet) = report
        .sheet("ring_first")
        .filter(|sheet| !sheet.rows.is_empty())
    else {
        return html! {};
    };
    let saved = sheet
        .columns
        .iter()
        .find(|column| column.key.starts_with("saves_") && column.key != "saves_h");
    html! {
        section {
            h2 { (say("Ring these first")) }
            ol.actions { @for row in 0..sheet.rows.len().min(3) {
                li { strong { (cell(sheet, row, "supplier")) ": " (cell(sheet, row, "part")) }
                    (cell(sheet, row, "question")) " " (say("For")) " " (cell(sheet, row, "for_line")) ". "
                    (say("Saved")) ": " (cell(sheet, row, "saves_h"))
                    @if let Some(saved) = saved { ", " (say("in all")) " " (cell(sheet, row, &saved.key)) } "." }
            } }
        }
    }
}

/// The lines that are not on the shelf, one card each; the rest in one sentence.
fn missing(shop: &PlannedShop, report: &Report, plan: &KitPlan) -> Markup {
    let Some(sheet) = report.sheet("kit_lines") else {
        return html! {};
    };
    let short: Vec<(usize, &LinePlan)> = plan
        .accepted
        .lines
        .iter()
        .enumerate()
        .filter(|(_, line)| line.short > 0.0)
        .collect();
    let there = plan.accepted.lines.len() - short.len();
    // Behind the lines that are planned come those of unknown quantity.
    let unread = plan.accepted.lines.len()..sheet.rows.len();
    html! {
        section aria-labelledby="missing" {
            h2 id="missing" { (say("What is missing")) }
            @if short.is_empty() && unread.is_empty() { p.none { (say("Nothing: all lines are on the shelf.")) } }
            @else if there == 1 { p.quiet { (say("1 line is on the shelf and not shown here.")) } }
            @else if there > 0 { p.quiet { (say(&format!("{there} lines are on the shelf and not shown here."))) } }
            @for (row, line) in short { (line_card(shop, sheet, row, line)) }
            @for row in unread { p.verdict { (say("Line")) " " (cell(sheet, row, "line")) ": " (cell(sheet, row, "asks_for")) ", " (say("quantity unknown")) } }
        }
    }
}

fn line_card(shop: &PlannedShop, sheet: &Sheet, row: usize, line: &LinePlan) -> Markup {
    let of = |key: &str| cell(sheet, row, key);
    let (class, mark) = mark(match sheet.rows[row].emphasis {
        Emphasis::None => Emphasis::Good,
        other => other,
    });
    let money = |key: &str| {
        let code = shop.job.shop.settings.currency.code().to_ascii_lowercase();
        of(&format!("{key}_{code}"))
    };
    let facts = [
        ("From", of("from")),
        ("Here, likely", of("here_likely")),
        ("Here, late (1 in 10)", of("here_late")),
        ("Dates rest on", of("rests_on")),
        ("Is the last in", seldom(sheet, row, "last_share")),
        (
            "Hurrying it saves at most",
            joined(&of("shelf_saves_h"), &money("shelf_saves")),
        ),
        (
            "Next best",
            joined(&of("next_best"), &dearer(&money("next_best_dearer"))),
        ),
        ("May be fitted", of("accepted")),
        ("Needed for", of("task")),
    ];
    html! {
        article class={ "card " (class) } {
            h3 { (say("Line")) " " (of("line")) ": " (of("asks_for")) }
            p.verdict { span.mark { (say(mark)) } " " (say("Short")) ": " (quantity(line.short)) " " (say(&line.unit.noun(line.short))) " " (say("of")) " " (quantity(line.needed))
                @if line.from_stock > 0.0 { ", " (say("on the shelf")) ": " (quantity(line.from_stock)) } }
            dl.pairs { @for (name, words) in facts { @if !words.is_empty() { dt { (say(name)) } dd { (unbroken(&words)) } } } }
        }
    }
}

/// A share in words; one below a thousandth needs no figure.
fn seldom(sheet: &Sheet, row: usize, key: &str) -> String {
    let found = sheet.column_at(key).zip(sheet.rows.get(row));
    let share = found.and_then(|(at, row)| row.cells[at].as_number());
    match share {
        Some(share) if share > 0.0 && share < LEAST_TOLD_SHARE => say("under 0.1 %"),
        _ => cell(sheet, row, key),
    }
}

fn joined(first: &str, second: &str) -> String {
    match (first.is_empty(), second.is_empty()) {
        (false, false) => format!("{first}, {second}"),
        _ => format!("{first}{second}"),
    }
}

fn dearer(money: &str) -> String {
    if money.is_empty() {
        String::new()
    } else {
        format!("{} {money}", say("dearer in all by"))
    }
}

fn quantity(pieces: f64) -> String {
    number(&grouped(pieces, 0, 3))
}

/// Budget, time and offers to strike out; sent as an address.
fn ask_again(shop: &PlannedShop, plan: &KitPlan, asked: &Asked) -> Markup {
    let offers = offers_of(shop, plan);
    html! {
        section.screen-only aria-labelledby="again" {
            h2 id="again" { (say("Plan it otherwise")) }
            form method="get" action={ "/kits/" (plan.kit) } {
                div.figures.asking {
                    label { span { (say("Spend at most")) " (" (shop.job.shop.settings.currency.code()) ")" }
                        input type="text" inputmode="decimal" name="budget" value=(asked.budget) autocomplete="off"; }
                    label { span { (say("Running by")) } input type="datetime-local" name="by" value=(asked.by); }
                }
                @if !offers.is_empty() {
                    details open[!asked.without.is_empty()] {
                        summary { (say("Strike out offers (sold out, too dear, not wanted)")) }
                        @for (place, words) in &offers {
                            label.tick { input type="checkbox" name="without" value=(place) checked[asked.without.contains(place)]; span { (words) } }
                        }
                    }
                }
                p.row { button type="submit" { (say("Plan again")) } }
            }
        }
    }
}

/// Offers of parts that may be fitted on lines that are short: place, and what is offered by whom; with why nothing is
/// bought from one.
fn offers_of(shop: &PlannedShop, plan: &KitPlan) -> Vec<(String, String)> {
    let lines: BTreeSet<usize> = plan
        .accepted
        .lines
        .iter()
        .filter(|line| line.short > 0.0)
        .map(|line| line.line)
        .collect();
    let mut parts: BTreeSet<PartId> = plan
        .accepted
        .lines
        .iter()
        .filter_map(|line| line.part.filter(|_| line.short > 0.0))
        .collect();
    let of_kit = shop
        .planned
        .acceptances
        .iter()
        .filter(|of| of.kit == plan.kit && lines.contains(&of.line));
    parts.extend(of_kit.flat_map(|of| of.accepted.iter().map(|accepted| accepted.part)));
    let taken: BTreeSet<usize> = plan
        .accepted
        .lines
        .iter()
        .flat_map(|line| line.supplies.iter().chain(&line.also))
        .filter_map(offer_of)
        .collect();
    let unusable = &shop.planned.plan.unusable_offers;
    let unusable: BTreeMap<usize, &WhyUnusable> =
        unusable.iter().map(|of| (of.offer, &of.why)).collect();
    let of_parts = shop
        .job
        .shop
        .offers
        .iter()
        .enumerate()
        .filter(|(_, offer)| parts.contains(&offer.part));
    of_parts
        .map(|(at, offer)| {
            let record = &offer.record;
            let part = shop.job.shop.catalogue.part(offer.part).label();
            let price = record.price.map_or_else(
                || say("no price"),
                |price| {
                    let each = number(&grouped(price.unit_price(), 2, 2));
                    format!("{} {each} {}", say("each"), price.currency)
                },
            );
            let taken = match unusable.get(&at) {
                Some(why) => format!(", {}: {}", say("not used"), say(&why.to_string())),
                None if taken.contains(&at) => format!(", {}", say("in the plan")),
                None => String::new(),
            };
            let place = record.place.to_string();
            let read_at = say(&place);
            let words = format!("{}: {part}, {price}{taken} ({read_at})", record.supplier);
            (place, words)
        })
        .collect()
}

const fn offer_of(supply: &Supply) -> Option<usize> {
    match &supply.source {
        Source::Offer { offer, .. } => Some(*offer),
        _ => None,
    }
}

/// The tables of the study below the cards; those with nothing to say are left out.
fn tables(report: &Report) -> impl Iterator<Item = &Sheet> {
    let shown = [
        "asked_for",
        "approvals_that_would_pay",
        "curve",
        "ring_first",
        "hurried",
        "hurry_together",
        "kit_plans",
        "kit_lines",
        "issues",
    ];
    shown
        .into_iter()
        .filter_map(|key| report.sheet(key))
        .filter(|sheet| !sheet.rows.is_empty() || sheet.key == "hurry_together")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_are_read_as_they_are_typed_on_either_keyboard() {
        for (typed, amount) in [
            ("3000", Some(3_000.0)),
            ("3000.5", Some(3_000.5)),
            ("3000,5", Some(3_000.5)),
            ("3000,50", Some(3_000.5)),
            ("3.000", Some(3_000.0)),
            ("3,000", Some(3_000.0)),
            ("3.000,50", Some(3_000.5)),
            ("3,000.50", Some(3_000.5)),
            ("3 000,50", Some(3_000.5)),
            ("3'000.50", Some(3_000.5)),
            ("12.345.678", Some(12_345_678.0)),
            ("0", Some(0.0)),
            ("0,99", Some(0.99)),
            ("", None),
            ("much", None),
            ("3000 EUR", None),
            ("-5", None),
            ("1e9", None),
            ("inf", None),
            ("NaN", None),
            ("3.00.0", None),
        ] {
            assert_eq!(sum_typed(typed), amount, "{typed}");
        }
    }

    #[test]
    fn facts_that_are_missing_leave_no_stray_comma() {
        assert_eq!(joined("4 h", "12 EUR"), "4 h, 12 EUR");
        assert_eq!(joined("", "12 EUR"), "12 EUR");
        assert_eq!(joined("4 h", ""), "4 h");
        assert_eq!(joined("", ""), "");
        assert_eq!(dearer(""), "");
        assert_eq!(dearer("3.00 EUR"), "dearer in all by 3.00 EUR");
    }

    #[test]
    fn a_share_that_is_next_to_nothing_is_told_without_its_figure() {
        use crate::report::model::{Column, ColumnKind, Row, Value};
        let mut sheet = Sheet::new("kit_lines", "Kit lines", "?");
        sheet.columns = vec![Column::new(
            ColumnKind::Share,
            "last_share",
            "Is the last in",
        )];
        for (value, words) in [
            (Value::Number(0.000_002_7), "under 0.1 %"),
            (Value::Number(0.001), "0.1 %"),
            (Value::Number(0.65), "65.0 %"),
            (Value::Number(0.0), "0.0 %"),
            (Value::Empty, ""),
        ] {
            sheet.rows = vec![Row::new(vec![value])];
            assert_eq!(seldom(&sheet, 0, "last_share"), words);
        }
        assert_eq!(seldom(&sheet, 7, "last_share"), "");
        assert_eq!(seldom(&sheet, 0, "no_such"), "");
    }

    #[test]
    fn quantities_show_no_empty_decimals() {
        assert_eq!(quantity(3.0), "3");
        assert_eq!(quantity(0.25), "0.25");
        assert_eq!(quantity(1_234.5), "1,234.5");
    }
}
