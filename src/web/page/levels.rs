//! Levels: a slider of money in stock, what it gives in service, and which levels change.
//!
//! Without scripting the slider is sent by its button; with scripting the changing part is fetched while it moves.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::Extension;
use axum::extract::State;
use axum::response::{Html, IntoResponse, Response};
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, Failure, and_more, aside, nothing_imported, planned};
use super::kit::{no_budget, sum_typed};
use crate::catalogue::PartId;
use crate::plan::{CurvePoint, Level, LevelBasis, Levels};
use crate::report::drawing::{Axis, Caption, Mark, Series, curve, nice_step};
use crate::report::model::grouped;
use crate::web::asked::AskedIn;
use crate::web::key::Role;
use crate::web::language::{number, say};
use crate::web::live_shop::PlannedShop;
use crate::web::serving::Serving;

/// Levels that change are shown up to so many, and those that stay; the download of the levels has all.
const CARDS: usize = 40;
const LISTED: usize = 150;
/// Steps of the slider for each step of the axis.
const FINER: f64 = 20.0;

/// What the slider sends.
#[derive(Debug, Default, Clone, Deserialize)]
#[serde(default)]
pub(in crate::web) struct Asked {
    budget: String,
}

impl Asked {
    /// The sum; `None` where none was asked for or it cannot be read.
    fn sum(&self) -> Option<f64> {
        sum_typed(self.budget.trim())
    }

    /// What is said of a sum that cannot be read.
    fn not_read(&self) -> Option<String> {
        let text = self.budget.trim();
        (!text.is_empty() && self.sum().is_none()).then(|| no_budget(text))
    }
}

/// Range of the slider in whole units of the currency.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Range {
    most: u64,
    step: u64,
    at: u64,
}

impl Range {
    /// From nothing to well above the money in stock now, at what was asked or at the money now.
    fn new(chosen: &CurvePoint, curve: &[CurvePoint], asked: Option<f64>) -> Self {
        let dearest = curve
            .iter()
            .map(|point| point.stock_value)
            .fold(0.0, f64::max);
        let full = curve.iter().find(|point| (point.factor - 1.0).abs() < 1e-9);
        let full = full.map_or(dearest, |point| point.stock_value);
        let most = (1.2 * full)
            .max(2.0 * chosen.stock_value)
            .min(dearest.max(chosen.stock_value));
        let step = (nice_step(most) / FINER).max(1.0).round();
        let most = (most / step).ceil().max(1.0) * step;
        let wanted = asked
            .filter(|budget| budget.is_finite())
            .unwrap_or(chosen.stock_value);
        let at = (wanted.clamp(0.0, most) / step).ceil() * step;
        Self {
            most: most as u64,
            step: step as u64,
            at: at as u64,
        }
    }
}

/// The page.
pub(in crate::web) async fn page(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
    AskedIn(asked): AskedIn<Asked>,
) -> Result<Html<String>, Failure> {
    let Some((snapshot, shop)) = planned(&serving).await? else {
        return Ok(nothing_imported("Levels", role, "/levels"));
    };
    let now = &shop.planned.plan.levels;
    let Some(chosen) = now.chosen.filter(|_| !now.curve.is_empty()) else {
        let body = html! { h1 { (say("Levels")) } p.none { (say("No level can be set: that takes usages with the day they are recorded from, and offers with price and lead time.")) }
        p { a.button href="/table/levels" { (say("What there is, as a table")) } } };
        return Ok(frame::page("Levels", role, "/levels", &body));
    };
    let range = Range::new(&chosen, &now.curve, asked.sum());
    let code = shop.job.shop.settings.currency.code();
    let as_of = frame::as_of(&shop, snapshot);
    let part = changing(Arc::clone(&shop), range).await?;
    let body = html! {
        h1 { (say("Levels")) }
        p.meta { (say("How many of each part to keep for a sum of money in stock.")) " " (as_of) }
        @if let Some(words) = asked.not_read() { p.stop-line { (words) } }
        form #budget-form method="get" action="/levels" {
            label for="budget" { span { (say("Money in stock")) " (" (code) "): " } }
            output #budget-now for="budget" { (number(&grouped(range.at as f64, 0, 0))) }
            input #budget type="range" name="budget" min="0" max=(range.most) step=(range.step) value=(range.at);
            p.row { button type="submit" { (say("Show these levels")) } a.button href="/levels" { (say("As it is now")) } }
        }
        div #levels-part role="region" aria-label=(say("Levels for this money")) aria-live="polite" { (part) }
        p.row.screen-only { a.button href="/table/levels" { (say("Today's levels as a table")) } a.button href="/table/service_curve" { (say("The curve as a table")) } }
    };
    Ok(frame::page("Levels", role, "/levels", &body))
}

/// The part below the slider alone.
pub(in crate::web) async fn changing_part(
    State(serving): State<Serving>,
    AskedIn(asked): AskedIn<Asked>,
) -> Result<Response, Failure> {
    let (_, shop) = planned(&serving).await?.ok_or(Failure::NoSuchPage)?;
    let now = &shop.planned.plan.levels;
    let chosen = now.chosen.ok_or(Failure::NoSuchPage)?;
    let range = Range::new(&chosen, &now.curve, asked.sum());
    Ok(Html(changing(shop, range).await?.into_string()).into_response())
}

async fn changing(shop: Arc<PlannedShop>, range: Range) -> Result<Markup, Failure> {
    aside(move || {
        let new = shop.levels_for(range.at);
        shown(&shop, &new, range)
    })
    .await
}

fn shown(shop: &PlannedShop, new: &Levels, range: Range) -> Markup {
    let old = &shop.planned.plan.levels;
    let (Some(before), Some(after)) = (old.chosen, new.chosen) else {
        return html! { p.none { (say("No level can be set for this money.")) } };
    };
    let code = shop.job.shop.settings.currency.code();
    let whole = |amount: f64| number(&grouped(amount, 0, 0));
    let hours = |hours_a_year: f64| number(&grouped(hours_a_year, 1, 1));
    html! {
        (availability(code, &old.curve, before, after, range))
        div.scroll role="group" aria-label=(say("Now and with this money")) tabindex="0" { table.moments {
            thead { tr { th scope="col" { (say("Figure")) } th.n scope="col" { (say("Now")) } th.n scope="col" { (say("With this money")) } } }
            tbody {
                tr { th scope="row" { (say("Stock value")) ", " (code) } td.n { (whole(before.stock_value)) } td.n { (whole(after.stock_value)) } }
                tr { th scope="row" { (say("Usages met from the shelf")) } td.n { (share(before.fill_share)) } td.n { (share(after.fill_share)) } }
                tr { th scope="row" { (say("Waiting a year, production hours")) } td.n { (hours(before.waiting_h)) } td.n { (hours(after.waiting_h)) } }
                @if !new.has_no_hour_cost { tr { th scope="row" { (say("Waiting a year at most")) ", " (code) } td.n { (whole(before.waiting_cost)) } td.n { (whole(after.waiting_cost)) } } }
            }
        } }
        (kits(shop, old, new))
        (list(shop, &old.by_part, &new.by_part))
    }
}

fn share(share: f64) -> String {
    number(&format!("{:.1} %", 100.0 * share.clamp(0.0, 1.0)))
}

fn availability(
    code: &str,
    points: &[CurvePoint],
    now: CurvePoint,
    with: CurvePoint,
    range: Range,
) -> Markup {
    let most = range.most as f64;
    let point = |of: &CurvePoint| (of.stock_value, 100.0 * of.fill_share.clamp(0.0, 1.0));
    let mut along: Vec<(f64, f64)> = points
        .iter()
        .filter(|of| of.stock_value <= most)
        .map(point)
        .collect();
    along.sort_by(|a, b| a.0.total_cmp(&b.0));
    let series = |name: &str, mark, points| Series {
        name: say(name),
        mark,
        points,
        is_stepped: false,
    };
    let met = |of: &CurvePoint| format!("{:.1} %", 100.0 * of.fill_share.clamp(0.0, 1.0));
    let description = say(&format!(
        "{} {code} in stock meet {} of usages from the shelf; now it is {} {code} and {}. Along the curve each further sum buys less; pieces kept for kits are in both of these and not in the curve.",
        grouped(with.stock_value, 0, 0),
        met(&with),
        grouped(now.stock_value, 0, 0),
        met(&now)
    ));
    let caption = Caption {
        id: "availability",
        title: &say("Usages met from the shelf, by money in stock"),
        description: &description,
    };
    let money = Axis::from_zero(code, most, |value| number(&grouped(value, 0, 0)));
    // Half of the picture above an empty one says nothing: the axis begins at a round share below the least.
    let (with, now) = (point(&with), point(&now));
    let least = along.iter().chain([&with, &now]).map(|point| point.1);
    let least = least.fold(100.0, f64::min);
    let from = (least / 20.0).floor().clamp(0.0, 4.0) * 20.0;
    let step = if from >= 80.0 { 5.0 } else { 20.0 };
    let steps = ((100.0 - from) / step).round() as usize;
    let percent = Axis {
        name: say("usages met from the shelf"),
        from,
        until: 100.0,
        steps: (0..=steps)
            .map(|at| from + at as f64 * step)
            .map(|value| (value, format!("{value:.0} %")))
            .collect(),
    };
    let all = [
        series("what each sum gives", Mark::Disc, along),
        series("now", Mark::Square, vec![now]),
        series("with this money", Mark::Triangle, vec![with]),
    ];
    curve(&caption, &money, &percent, &all)
}

/// Kits whose chance to find every line changes.
fn kits(shop: &PlannedShop, old: &Levels, new: &Levels) -> Markup {
    let both: Vec<_> = old
        .kits
        .iter()
        .filter_map(|was| {
            let is = new.kits.iter().find(|is| is.kit == was.kit)?;
            (was.without_level == 0).then_some((was, is))
        })
        .collect();
    html! {
        @if !both.is_empty() {
            h2 { (say("Rebuilds without notice that find every line, by the levels, in the long run")) }
            div.scroll role="group" aria-label=(say("Kits now and with this money")) tabindex="0" { table.moments {
                thead { tr { th scope="col" { (say("Kit")) } th.n scope="col" { (say("Now")) } th.n scope="col" { (say("With this money")) } } }
                tbody { @for (was, is) in both { tr {
                    th scope="row" { (shop.job.shop.kits[was.kit].name) } td.n { (share(was.job_share)) } td.n { (share(is.job_share)) }
                } } }
            } }
        }
    }
}

/// Levels that change with their reasons, then those that stay.
fn list(
    shop: &PlannedShop,
    old: &BTreeMap<PartId, Level>,
    new: &BTreeMap<PartId, Level>,
) -> Markup {
    let is_changed = |part: &PartId| old.get(part).map(steps) != new.get(part).map(steps);
    let (changed, same): (Vec<_>, Vec<_>) = new.iter().partition(|(part, _)| is_changed(part));
    let name = |part: &PartId| shop.job.shop.catalogue.part(*part).label();
    html! {
        h2 { (say("Levels that change")) " (" (changed.len()) ")" }
        @if changed.is_empty() { p.none { (say("None: these are today's levels.")) } }
        @for (part, level) in changed.iter().take(CARDS) { (card(&name(part), old.get(*part), level)) }
        @if changed.len() > CARDS { p.quiet { (and_more(changed.len() - CARDS)) } }
        @if !same.is_empty() {
            details { summary { (say("Levels that stay")) " (" (same.len()) ")" }
                div.scroll.long role="group" aria-label=(say("Levels that stay")) tabindex="0" { table {
                    thead { tr { th scope="col" { (say("Our number")) } th.n scope="col" { (say("Keep")) } th.n scope="col" { (say("Order again at")) } } }
                    tbody { @for (part, level) in same.iter().take(LISTED) { tr {
                        th scope="row" { (name(part)) } td.n { (kept(Some(level))) } td.n { (order_at(level)) }
                    } } }
                } }
                @if same.len() > LISTED { p.quiet { (and_more(same.len() - LISTED)) } }
            }
        }
    }
}

/// One level, old against new, with why this many and why not one less.
fn card(name: &str, old: Option<&Level>, level: &Level) -> Markup {
    // The reason of a level that is computed weighs its last piece.
    let is_weighed = matches!(level.why, LevelBasis::Computed(_)) && level.reorder_point >= 0.0;
    let question = if is_weighed {
        "Why not one less"
    } else {
        "Why this many"
    };
    html! {
        article.card {
            h3 { (name) }
            p.verdict { (say("Keep")) " " (kept(Some(level))) " " (say(&level.unit.noun(level.min_stock))) " " (say("instead of")) " " (kept(old)) "; "
                (say("order again at")) " " (order_at(level)) }
            details { summary { (say(question)) } p { (say(&level.why.to_string())) } }
        }
    }
}

fn kept(level: Option<&Level>) -> String {
    level.map_or_else(
        || say("none"),
        |level| number(&grouped(level.min_stock, 0, 2)),
    )
}

fn order_at(level: &Level) -> String {
    if level.reorder_point >= 0.0 {
        number(&grouped(level.reorder_point, 0, 2))
    } else {
        say("no stock: when asked for")
    }
}

/// A level in whole pieces or hundredths, to be compared.
fn steps(level: &Level) -> (i64, i64) {
    let of = |quantity: f64| (quantity * 100.0).round() as i64;
    (of(level.min_stock), of(level.reorder_point))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_slider_reaches_beyond_what_is_in_stock_and_stands_at_what_was_asked() {
        let point = |factor, stock_value| CurvePoint {
            factor,
            stock_value,
            fill_share: 0.5,
            waiting_h: 1.0,
            waiting_cost: 1.0,
        };
        let curve = [
            point(1e-6, 900.0),
            point(1.0, 20_000.0),
            point(10.0, 50_000.0),
        ];
        let now = point(0.02, 8_123.0);
        let range = Range::new(&now, &curve, None);
        assert_eq!((range.most, range.step, range.at), (24_000, 250, 8_250));
        assert_eq!(Range::new(&now, &curve, Some(1e9)).at, 24_000);
        assert_eq!(Range::new(&now, &curve, Some(-4.0)).at, 0);
        assert_eq!(Range::new(&now, &curve, Some(f64::NAN)).at, 8_250);
    }
}
