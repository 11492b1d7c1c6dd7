//! What the charts of a kit draw: arrivals and tasks on one clock, and spend against the moment of running again.

use chrono::NaiveDateTime;
use maud::{Markup, html};

use crate::catalogue::Shop;
use crate::plan::{CurveMoment, KitPlan, KitStudy, Stretch, task_courses};
use crate::report::drawing::{
    Axis, Band, BandRow, Caption, Mark, Series, bands, curve, hours_from_now,
};
use crate::report::model::grouped;
use crate::web::language::{chosen, moment, number, say};

/// Rows drawn at most; all lines are in the table.
const MOST_ROWS: usize = 24;

fn hours(shop: &Shop, moment: NaiveDateTime) -> f64 {
    (moment - shop.as_of).num_seconds().max(0) as f64 / 3600.0
}

/// Rows of the picture, the same in words, and the end of the clock.
#[derive(Default)]
struct Drawn {
    rows: Vec<BandRow>,
    /// What, likely, late.
    table: Vec<(String, String, String)>,
    longest_h: f64,
}

/// Arrivals of what is missing and the tasks behind them; the table below it says the same.
pub(super) fn rebuild_chart(shop: &Shop, plan: &KitPlan) -> Markup {
    let mut drawn = Drawn::default();
    drawn.add_arrivals(shop, plan);
    drawn.add_tasks(shop, plan);
    let left_out = drawn.rows.len().saturating_sub(MOST_ROWS);
    drawn.rows.truncate(MOST_ROWS);
    let caption = Caption {
        id: "rebuild",
        title: &say("Arrivals and tasks"),
        description: &say(
            "Each missing line from now until it is likely here, then until the late moment that one case in ten exceeds; each task with parts at their likely and at their late moments. The table says the same.",
        ),
    };
    let legend = [
        ("▭", "waiting, likely"),
        ("┅", "dashed: until the late moment"),
        ("■", "work, likely"),
        ("┅", "dashed: work if parts are late"),
    ];
    let legend = legend.map(|(sign, name)| (sign, say(name)));
    let clock = hours_from_now(drawn.longest_h, say);
    html! {
        @if !drawn.rows.is_empty() {
            section aria-labelledby="clock" {
                h2 id="clock" { (say("The rebuild on a clock")) }
                (bands(&caption, &clock, &drawn.rows, &legend))
                @if left_out > 0 { p.quiet { (say(&format!("{left_out} more rows are in the table."))) } }
                details { summary { (say("As a table")) }
                    div.scroll role="group" aria-label=(say("Arrivals and tasks as a table")) tabindex="0" { table {
                        thead { tr { th scope="col" { (say("What")) } th scope="col" { (say("Likely here or done")) } th scope="col" { (say("Late (1 in 10)")) } } }
                        tbody { @for (name, likely, late) in &drawn.table { tr { th scope="row" { (name) } td { (likely) } td { (late) } } } }
                    } }
                }
            }
        }
    }
}

impl Drawn {
    fn add_arrivals(&mut self, shop: &Shop, plan: &KitPlan) {
        let kit = &shop.kits[plan.kit];
        for line in plan.accepted.lines.iter().filter(|line| line.short > 0.0) {
            let name = format!("{} {}", say("Line"), kit.lines[line.line].record.line);
            let asked = line.part.map(|part| shop.catalogue.part(part).label());
            let name = asked.map_or_else(|| name.clone(), |asked| format!("{name}: {asked}"));
            let Some(arrival) = &line.arrival else {
                self.table
                    .push((name.clone(), say("unknown"), say("unknown")));
                self.rows.push(BandRow {
                    name,
                    words: say("unknown"),
                    bands: Vec::new(),
                });
                continue;
            };
            let (likely, late) = (hours(shop, arrival.likely), hours(shop, arrival.late));
            self.longest_h = self.longest_h.max(late);
            let row = (name.clone(), moment(arrival.likely), moment(arrival.late));
            self.table.push(row);
            self.rows.push(BandRow {
                name,
                words: chosen().short_moment(arrival.likely),
                bands: vec![(Band::Wait, 0.0, likely), (Band::Spread, likely, late)],
            });
        }
    }

    fn add_tasks(&mut self, shop: &Shop, plan: &KitPlan) {
        let kit = &shop.kits[plan.kit];
        for course in task_courses(shop, kit, &plan.accepted) {
            let name = format!("{}: {}", say("Task"), kit.tasks[course.task].task);
            let mut stretches = Vec::new();
            if let Some(late) = course.late {
                let (from, until) = (hours(shop, late.start), hours(shop, late.end));
                self.longest_h = self.longest_h.max(until);
                stretches.push((Band::LateWork, from, until));
            }
            if let Some(likely) = course.likely {
                let (from, until) = (hours(shop, likely.start), hours(shop, likely.end));
                stretches.push((Band::Work, from, until));
            }
            let end = |stretch: Option<Stretch>| {
                stretch.map_or_else(|| say("unknown"), |of| moment(of.end))
            };
            let done = course
                .likely
                .map_or_else(|| say("unknown"), |of| chosen().short_moment(of.end));
            self.table
                .push((name.clone(), end(course.likely), end(course.late)));
            self.rows.push(BandRow {
                name,
                words: format!("{} {done}", say("done")),
                bands: stretches,
            });
        }
    }
}

/// Least spend for each moment of running again; the table `curve` below says the same. One plan alone is told in words:
/// a single mark between two axes says less.
pub(super) fn cost_chart(shop: &Shop, study: &KitStudy) -> Markup {
    let series = cost_series(shop, study);
    let all = || series.iter().flat_map(|one| &one.points);
    let Some(first) = all().next() else {
        return html! {};
    };
    let words = sooner(shop, study);
    let is_one = all().all(|point| point == first);
    html! {
        section aria-labelledby="cost" {
            h2 id="cost" { (say("What being sooner costs")) }
            @if is_one { p.none { (say("There is one plan only: no money makes it sooner, and nothing later is cheaper.")) " " (words) } }
            @else { (cost_curve(shop, &series, &words)) }
        }
    }
}

fn cost_series(shop: &Shop, study: &KitStudy) -> Vec<Series> {
    let marks = [Mark::Disc, Mark::Square, Mark::Triangle];
    let curves = study.curves.iter().zip(marks);
    let series = curves.map(|((share, points), mark)| {
        let priced = points
            .iter()
            .filter_map(|point| Some((hours(shop, point.up), point.spend?.cents as f64 / 100.0)));
        Series {
            name: say(&format!(
                "lead times kept in {:.0} % of cases",
                100.0 * share
            )),
            mark,
            points: priced.collect(),
            is_stepped: true,
        }
    });
    series.filter(|one| !one.points.is_empty()).collect()
}

fn cost_curve(shop: &Shop, series: &[Series], description: &str) -> Markup {
    let all = || series.iter().flat_map(|one| &one.points);
    let longest = all().map(|point| point.0).fold(0.0, f64::max);
    let dearest = all().map(|point| point.1).fold(0.0, f64::max);
    let code = shop.settings.currency.code();
    let spend = Axis::from_zero(
        &format!("{}, {code}", say("purchases and freight")),
        dearest.max(1.0),
        |value| number(&grouped(value, 0, 0)),
    );
    let caption = Caption {
        id: "sooner",
        title: &say("Cost against time"),
        description,
    };
    curve(&caption, &hours_from_now(longest, say), &spend, series)
}

/// The ends of the likely curve in words.
fn sooner(shop: &Shop, study: &KitStudy) -> String {
    let below = say("The table below gives the same figures.");
    let likely = study.curves.first().map_or(&[][..], |(_, points)| points);
    let priced: Vec<_> = likely
        .iter()
        .filter(|point| point.spend.is_some())
        .collect();
    let (Some(first), Some(last)) = (priced.first(), priced.last()) else {
        let words = say("Least spend to be running by each moment.");
        return format!("{words} {below}");
    };
    let at = |point: &CurveMoment| {
        let spend = point.spend.map_or_else(String::new, |money| {
            let amount = number(&grouped(money.cents as f64 / 100.0, 2, 2));
            format!("{amount} {}", money.currency.code())
        });
        format!(
            "{} ({}), {spend}",
            moment(point.up),
            span(hours(shop, point.up))
        )
    };
    if priced.len() == 1 {
        return format!("{}: {}. {below}", say("With likely lead times"), at(first));
    }
    format!(
        "{}: {} {}; {} {}. {below}",
        say("With likely lead times"),
        say("soonest"),
        at(first),
        say("cheapest"),
        at(last)
    )
}

/// Hours from now, or days from two on.
fn span(hours: f64) -> String {
    if hours < 48.0 {
        say(&format!("{hours:.0} h from now"))
    } else {
        say(&format!("{:.0} days from now", hours / 24.0))
    }
}
