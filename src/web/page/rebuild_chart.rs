//! What the charts of a kit draw: arrivals and tasks on one clock, and spend against the moment of running again.

use chrono::NaiveDateTime;
use maud::{Markup, html};

use super::kits::MOMENT;
use crate::catalogue::Shop;
use crate::plan::{KitPlan, KitStudy, task_courses};
use crate::report::model::grouped;
use crate::web::drawing::{
    Axis, Band, BandRow, Caption, Mark, Series, bands, curve, hours_from_now,
};

/// Rows drawn at most; all lines are in the table.
const MOST_ROWS: usize = 24;

fn hours(shop: &Shop, moment: NaiveDateTime) -> f64 {
    (moment - shop.as_of).num_seconds().max(0) as f64 / 3600.0
}

/// Arrivals of what is missing and the tasks behind them; the table below it says the same.
pub(super) fn rebuild_chart(shop: &Shop, plan: &KitPlan) -> Markup {
    let kit = &shop.kits[plan.kit];
    let mut rows = Vec::new();
    let mut table: Vec<(String, String, String)> = Vec::new();
    let mut longest = 0.0_f64;
    for line in plan.accepted.lines.iter().filter(|line| line.short > 0.0) {
        let name = format!("Line {}", kit.lines[line.line].record.line);
        let asked = line.part.map(|part| shop.catalogue.part(part).label());
        let name = asked.map_or_else(|| name.clone(), |asked| format!("{name}: {asked}"));
        let Some(arrival) = &line.arrival else {
            table.push((name.clone(), "unknown".to_owned(), "unknown".to_owned()));
            rows.push(BandRow {
                name,
                words: "unknown".to_owned(),
                bands: Vec::new(),
            });
            continue;
        };
        let (likely, late) = (hours(shop, arrival.likely), hours(shop, arrival.late));
        longest = longest.max(late);
        table.push((
            name.clone(),
            arrival.likely.format(MOMENT).to_string(),
            arrival.late.format(MOMENT).to_string(),
        ));
        rows.push(BandRow {
            name,
            words: arrival.likely.format("%a %d %b %H:%M").to_string(),
            bands: vec![(Band::Wait, 0.0, likely), (Band::Spread, likely, late)],
        });
    }
    for course in task_courses(shop, kit, &plan.accepted) {
        let name = format!("Task: {}", kit.tasks[course.task].task);
        let mut stretches = Vec::new();
        if let Some(late) = course.late {
            longest = longest.max(hours(shop, late.end));
            stretches.push((
                Band::LateWork,
                hours(shop, late.start),
                hours(shop, late.end),
            ));
        }
        if let Some(likely) = course.likely {
            stretches.push((
                Band::Work,
                hours(shop, likely.start),
                hours(shop, likely.end),
            ));
        }
        let end = |stretch: Option<crate::plan::Stretch>, pattern: &str| {
            stretch.map_or_else(
                || "unknown".to_owned(),
                |of| of.end.format(pattern).to_string(),
            )
        };
        table.push((
            name.clone(),
            end(course.likely, MOMENT),
            end(course.late, MOMENT),
        ));
        rows.push(BandRow {
            name,
            words: format!("done {}", end(course.likely, "%a %d %b %H:%M")),
            bands: stretches,
        });
    }
    let left_out = rows.len().saturating_sub(MOST_ROWS);
    rows.truncate(MOST_ROWS);
    let caption = Caption {
        id: "rebuild",
        title: "Arrivals and tasks",
        description: "Each missing line from now until it is likely here, then until the late moment that one case in ten exceeds; each task with parts at their likely and at their late moments. The table says the same.",
    };
    let legend = [
        ("▭", "waiting, likely"),
        ("┅", "dashed: until the late moment"),
        ("■", "work, likely"),
        ("┅", "dashed: work if parts are late"),
    ];
    html! {
        @if !rows.is_empty() {
            section aria-labelledby="clock" {
                h2 id="clock" { "The rebuild on a clock" }
                (bands(&caption, &hours_from_now(longest), &rows, &legend))
                @if left_out > 0 { p.quiet { (left_out) " more rows are in the table." } }
                details { summary { "As a table" }
                    div.scroll role="region" aria-label="Arrivals and tasks as a table" tabindex="0" { table {
                        thead { tr { th scope="col" { "What" } th scope="col" { "Likely here or done" } th scope="col" { "Late (1 in 10)" } } }
                        tbody { @for (name, likely, late) in &table { tr { th scope="row" { (name) } td { (likely) } td { (late) } } } }
                    } }
                }
            }
        }
    }
}

/// Least spend for each moment of running again; the table `curve` below says the same.
pub(super) fn cost_chart(shop: &Shop, study: &KitStudy) -> Markup {
    let marks = [Mark::Disc, Mark::Square, Mark::Triangle];
    let mut series: Vec<Series> = Vec::new();
    for ((share, points), mark) in study.curves.iter().zip(marks) {
        let points: Vec<(f64, f64)> = points
            .iter()
            .filter_map(|point| Some((hours(shop, point.up), point.spend?.cents as f64 / 100.0)))
            .collect();
        if !points.is_empty() {
            series.push(Series {
                name: format!("lead times kept in {:.0} % of cases", 100.0 * share),
                mark,
                points,
                is_stepped: true,
            });
        }
    }
    let all = || series.iter().flat_map(|one| &one.points);
    if all().next().is_none() {
        return html! {};
    }
    let longest = all().map(|point| point.0).fold(0.0, f64::max);
    let dearest = all().map(|point| point.1).fold(0.0, f64::max);
    let code = shop.settings.currency.code();
    let spend = Axis::from_zero(
        &format!("purchases and freight, {code}"),
        dearest.max(1.0),
        |value| grouped(value, 0, 0),
    );
    let description = sooner(shop, study);
    let caption = Caption {
        id: "sooner",
        title: "Cost against time",
        description: &description,
    };
    html! {
        section aria-labelledby="cost" {
            h2 id="cost" { "What being sooner costs" }
            (curve(&caption, &hours_from_now(longest), &spend, &series))
        }
    }
}

/// The ends of the likely curve in words.
fn sooner(shop: &Shop, study: &KitStudy) -> String {
    let likely = study.curves.first().map_or(&[][..], |(_, points)| points);
    let priced: Vec<_> = likely
        .iter()
        .filter(|point| point.spend.is_some())
        .collect();
    let (Some(first), Some(last)) = (priced.first(), priced.last()) else {
        return "Least spend to be running by each moment. The table below gives the same figures."
            .to_owned();
    };
    let say = |point: &crate::plan::CurveMoment| {
        let spend = point
            .spend
            .map_or_else(String::new, |money| money.to_string());
        format!(
            "{} for {spend} ({} from now)",
            point.up.format(MOMENT),
            span(hours(shop, point.up))
        )
    };
    if priced.len() == 1 {
        return format!(
            "With likely lead times nothing is sooner than {}, and nothing later costs less. The table below gives the same figures.",
            say(first)
        );
    }
    format!(
        "With likely lead times the soonest is {}, the cheapest {}. The table below gives the same figures.",
        say(first),
        say(last)
    )
}

/// Hours, or days from two on.
fn span(hours: f64) -> String {
    if hours < 48.0 {
        format!("{hours:.0} h")
    } else {
        format!("{:.0} days", hours / 24.0)
    }
}
