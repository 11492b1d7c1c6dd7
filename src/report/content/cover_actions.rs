//! The things to do now, the most urgent first.

use super::approvals::{OpenWord, Word};
use super::open_lines::{OpenCause, currency_without_rate, has_cause, names_no_part};
use super::shop_figures::{counted, due_count, order_total};
use super::words::{asked_for, holds_it, line_name, number, way};
use super::{
    Inputs, approvals, chase, data_problems, files, kits, made_instead, order_now, service_curve,
    unplanned,
};
use crate::catalogue::PartId;
use crate::plan::{
    KitPlan, MadeInstead, NotOrdered, OfferArrivals, Settling, WhyNoChoice, order_doubts,
};
use crate::report::model::{Action, grouped};

/// Things to do now, at most.
const MAX_ACTIONS: usize = 5;
/// Kits named in one of them, at most.
const MAX_NAMED: usize = 3;
/// What is done with a substitute.
const JUDGE: &str = "judge";

/// What to do now.
pub(super) fn actions(inputs: &Inputs<'_>) -> Vec<Action> {
    let all = [
        approval(inputs),
        order(inputs),
        begin(inputs),
        name_parts(inputs),
        ask_for_lead_times(inputs),
        give_rates(inputs),
        settle_lines(inputs),
        find_the_rest(inputs),
        find_sources(inputs),
        chase_orders(inputs),
        ask_after_orders(inputs),
        add_offers(inputs),
        weigh_more_stock(inputs),
        mend_rows(inputs),
    ];
    all.into_iter().flatten().take(MAX_ACTIONS).collect()
}

fn action(text: String, detail: impl Into<String>, sheet: &str) -> Option<Action> {
    Some(Action {
        text,
        detail: detail.into(),
        sheet: Some(sheet.to_owned()),
    })
}

fn order(inputs: &Inputs<'_>) -> Option<Action> {
    let lines = due_count(inputs);
    if lines == 0 {
        return None;
    }
    let (total, is_whole) = order_total(inputs);
    let about = if is_whole { "" } else { " at least" };
    let orders = inputs.plan.reorder.orders.iter();
    let suppliers: Vec<&str> = orders.map(|order| order.supplier.as_str()).collect();
    let text = format!(
        "Order {} from {}, {}{about}",
        counted(lines, "line"),
        counted(suppliers.len(), "supplier"),
        total
    );
    action(text, suppliers.join(", "), order_now::KEY)
}

/// What is made, repaired or fetched for rebuilds and must be begun today to be there in time, or is late already.
fn begin(inputs: &Inputs<'_>) -> Option<Action> {
    let due: Vec<&MadeInstead> = made_instead::due(inputs).collect();
    if due.is_empty() {
        return None;
    }
    let named = due.iter().take(MAX_NAMED).map(|of| {
        let part = of.part.map(|part| number(inputs.shop, part));
        let need = inputs.plan.needs.get(of.need);
        let line = || need.map(|need| line_name(&inputs.shop.kits[need.kit].lines[need.line]));
        let name = part.or_else(line).unwrap_or_default();
        format!("{name} ({})", way(of.kind))
    });
    let mut named: Vec<String> = named.collect();
    if due.len() > MAX_NAMED {
        named.push(format!("and {} more", due.len() - MAX_NAMED));
    }
    let text = format!(
        "Begin today what is made, repaired or fetched, not ordered: {}",
        counted(due.len(), "line")
    );
    action(text, named.join("; "), made_instead::KEY)
}

/// Kits that have no end, because a line names no part that the tables know: nobody can be asked for its lead time.
fn name_parts(inputs: &Inputs<'_>) -> Option<Action> {
    let (count, held) = without_end(inputs, |plan| names_no_part(inputs, plan))?;
    let text = format!("Name the parts of kit lines: {count} no end without them");
    action(text, held, kits::KEY)
}

/// Kits that have no end, because a line has no known lead time.
fn ask_for_lead_times(inputs: &Inputs<'_>) -> Option<Action> {
    let (count, held) = of_cause(inputs, |cause| cause == OpenCause::NoLeadTime)?;
    let text = format!("Ask for lead times: {count} no end without them");
    action(text, held, kits::KEY)
}

/// Kits that have no end and needs that are not ordered, because a rate of exchange is missing.
fn give_rates(inputs: &Inputs<'_>) -> Option<Action> {
    let is_it = |cause| matches!(cause, OpenCause::NoRate { .. });
    let detail = "a rate in shop.toml under `exchange_rates`";
    if let Some((count, held)) = of_cause(inputs, is_it) {
        let text = format!("Give rates of exchange: {count} no end without them");
        return action(text, format!("{detail}; {held}"), kits::KEY);
    }
    let needs = inputs.plan.reorder.not_ordered.iter();
    let count = needs.filter(|not| waits_for_rate(inputs, not.part)).count();
    if count == 0 {
        return None;
    }
    let text = format!(
        "Give rates of exchange: {} cannot be ordered without",
        counted(count, "need")
    );
    action(text, detail, unplanned::KEY)
}

/// True for a part of which an offer with a lead time waits for a rate of exchange alone, and no usable one says when it comes.
fn waits_for_rate(inputs: &Inputs<'_>, part: Option<PartId>) -> bool {
    part.is_some_and(|part| {
        let mut unusable = inputs.plan.unusable_offers.iter();
        let is_dated = |of: &OfferArrivals| {
            of.part == part && of.deliveries.iter().any(|way| way.arrival.is_some())
        };
        !inputs.plan.offers.iter().any(is_dated)
            && unusable.any(|of| currency_without_rate(inputs, of, &[part]).is_some())
    })
}

/// Kits that have no end, because the tables do not agree on what a line needs.
fn settle_lines(inputs: &Inputs<'_>) -> Option<Action> {
    let is_it = |cause| matches!(cause, OpenCause::Quantity | OpenCause::Unit);
    let (count, held) = of_cause(inputs, is_it)?;
    let text = format!("Settle quantities and units: {count} no end without them");
    action(text, held, data_problems::KEY)
}

/// Kits that have no end and needs that are not ordered in full, because sources give only some of what is wanted.
fn find_the_rest(inputs: &Inputs<'_>) -> Option<Action> {
    let is_it = |cause| matches!(cause, OpenCause::NotEnough { .. });
    if let Some((count, held)) = of_cause(inputs, is_it) {
        let text = format!("Find the rest of what is offered in part: {count} no end without it");
        return action(text, held, kits::KEY);
    }
    let needs = inputs.plan.reorder.not_ordered.iter();
    let short: Vec<&NotOrdered> = needs
        .filter(|of| of.why == WhyNoChoice::NotEnough)
        .collect();
    if short.is_empty() {
        return None;
    }
    let text = format!(
        "Find the rest of what is offered in part: {} cannot be ordered in full",
        counted(short.len(), "need")
    );
    action(text, parts_named(inputs, &short), unplanned::KEY)
}

/// How many kits have no end for a cause, and the first of them with what holds them.
fn of_cause(inputs: &Inputs<'_>, is_it: impl Fn(OpenCause) -> bool) -> Option<(String, String)> {
    without_end(inputs, |plan| has_cause(inputs, plan, &is_it))
}

/// How many kits without an end are such ones, and the first of them with what holds them.
fn without_end(inputs: &Inputs<'_>, is_it: impl Fn(&KitPlan) -> bool) -> Option<(String, String)> {
    let kits = inputs.plan.kits.iter();
    let open: Vec<&KitPlan> = kits.filter(|plan| is_it(plan)).collect();
    if open.is_empty() {
        return None;
    }
    let held = open.iter().take(MAX_NAMED).map(|plan| {
        let name = &inputs.shop.kits[plan.kit].name;
        format!("{name}: {}", holds_it(inputs, plan.kit, &plan.accepted))
    });
    let mut held: Vec<String> = held.collect();
    if open.len() > MAX_NAMED {
        held.push(format!("and {} more", open.len() - MAX_NAMED));
    }
    let count = match open.len() {
        1 => "1 kit has".to_owned(),
        several => format!("{several} kits have"),
    };
    Some((count, held.join("; ")))
}

/// Needs that are open and that no offer with a lead time covers.
fn find_sources(inputs: &Inputs<'_>) -> Option<Action> {
    let not_ordered = &inputs.plan.reorder.not_ordered;
    // Without any offer the advice is to give offers.
    if not_ordered.is_empty() || inputs.shop.offers.is_empty() {
        return None;
    }
    // What waits for a rate of exchange is offered; whoever gives the rate has it.
    // A last buy that no longer pays needs none, and one that has a lead time and comes after service is planned for nothing.
    let is_wanted = |not: &NotOrdered| {
        // And more of what has one, but is offered in part, is looked for by an action of its own.
        let has_lead_time = [
            WhyNoChoice::NotEnough,
            WhyNoChoice::SavesTooLittle,
            WhyNoChoice::AfterService,
        ];
        !has_lead_time.contains(&not.why)
    };
    let is_open = |not: &&NotOrdered| is_wanted(not) && !waits_for_rate(inputs, not.part);
    let not_ordered: Vec<&NotOrdered> = not_ordered.iter().filter(is_open).collect();
    if not_ordered.is_empty() {
        return None;
    }
    let text = format!(
        "Find an offer with a lead time: {} cannot be ordered without",
        counted(not_ordered.len(), "need")
    );
    action(text, parts_named(inputs, &not_ordered), unplanned::KEY)
}

/// The first parts of some needs.
fn parts_named(inputs: &Inputs<'_>, needs: &[&NotOrdered]) -> String {
    let mut parts: Vec<String> = Vec::new();
    for part in needs.iter().filter_map(|not| not.part) {
        let name = number(inputs.shop, part);
        if !parts.contains(&name) {
            parts.push(name);
        }
    }
    let more = parts.len().saturating_sub(MAX_NAMED);
    parts.truncate(MAX_NAMED);
    if more > 0 {
        parts.push(format!("and {more} more"));
    }
    parts.join(", ")
}

/// The approvals that would pay: the best with what it gains, and the next ones.
pub(super) fn approval(inputs: &Inputs<'_>) -> Option<Action> {
    let ranked = approvals::ranked(inputs);
    let (first, next) = ranked.split_first()?;
    let kit = &inputs.shop.kits[first.plan.kit];
    let (verb, name) = to_approve(inputs, first);
    let head = format!("{}{} {name}", verb[..1].to_ascii_uppercase(), &verb[1..]);
    let whose = match first.word {
        Word::Substitute(_) => "its machine".to_owned(),
        Word::Way(_) | Word::Settling(_) => format!("the machine of {}", kit.name),
    };
    let (hours, saved) = (first.gained.saved_h, first.gained.saved);
    let text = match (hours, saved) {
        (None, _) if matches!(first.word, Word::Substitute(_)) => {
            format!("{head}: its kit has no end without it")
        }
        (None, _) => format!("{head}: {} has no end without it", kit.name),
        (Some(hours), None) => format!(
            "{head}: if {whose} went down now, it would save {hours:.1} production hours on average"
        ),
        (Some(hours), Some(saved)) => format!(
            "{head}: if {whose} went down now, it would save {saved} and {hours:.1} production hours on average"
        ),
    };
    let mut details = vec![match first.word {
        Word::Substitute(gain) => {
            let line = &kit.lines[gain.line];
            format!(
                "{}, in place of {}",
                line_name(line),
                asked_for(inputs.shop, line)
            )
        }
        Word::Way(gain) => line_name(&kit.lines[gain.line]),
        Word::Settling(gain) => counted(gain.lines.len(), "line"),
    }];
    details.push("not planned before a person approves it".to_owned());
    details.extend(next.iter().take(MAX_NAMED - 1).map(|of| {
        let name = match to_approve(inputs, of) {
            (JUDGE, name) => name,
            (verb, name) => format!("{verb} {name}"),
        };
        match (of.gained.saved_h, of.gained.saved) {
            (None, _) => format!("then {name}: no end without it"),
            (Some(hours), None) => format!("then {name}: {hours:.1} production hours"),
            (Some(hours), Some(saved)) => {
                format!("then {name}: {saved} and {hours:.1} production hours")
            }
        }
    }));
    if ranked.len() > MAX_NAMED {
        details.push(format!("and {} more", ranked.len() - MAX_NAMED));
    }
    action(text, details.join("; "), approvals::KEY)
}

/// What somebody has to do with what.
fn to_approve(inputs: &Inputs<'_>, of: &OpenWord<'_>) -> (&'static str, String) {
    match of.word {
        Word::Substitute(gain) => (JUDGE, number(inputs.shop, gain.part)),
        Word::Way(gain) => {
            let line = &inputs.shop.kits[of.plan.kit].lines[gain.line];
            let name = format!("`{}` for {}", way(gain.kind), line_name(line));
            ("approve", name)
        }
        Word::Settling(gain) => match &gain.settling {
            Settling::Supplier(name) => ("approve", format!("supplier {name}")),
            Settling::Rate(currency) => ("give", format!("a rate for {currency}")),
        },
    }
}

fn chase_orders(inputs: &Inputs<'_>) -> Option<Action> {
    let orders = inputs.plan.open_orders.iter();
    let overdue = orders
        .filter(|order| order.is_overdue || order.is_forgotten)
        .count();
    if overdue == 0 {
        return None;
    }
    let text = format!("Chase {}", counted(overdue, "overdue order"));
    action(text, "their promised day has passed", chase::KEY)
}

/// Open orders that are not late yet, but do not come when they are counted on.
fn ask_after_orders(inputs: &Inputs<'_>) -> Option<Action> {
    let doubts = order_doubts(inputs.plan, inputs.shop.as_of.date());
    let orders = inputs.plan.open_orders.iter();
    let doubtful = orders
        .filter(|order| !order.is_overdue && doubts.contains_key(&order.place))
        .count();
    if doubtful == 0 {
        return None;
    }
    let text = format!("Ask after {}", counted(doubtful, "open order"));
    let detail =
        "too late for a rebuild, the shelf or the last day of a machine, or not surely in time";
    action(text, detail, chase::KEY)
}

fn add_offers(inputs: &Inputs<'_>) -> Option<Action> {
    if !inputs.shop.offers.is_empty() {
        return None;
    }
    let text = "Add price lists or quotes: without them nothing can be ordered or dated".to_owned();
    let detail = "a table with part, supplier, price and lead time, in the words of your suppliers";
    action(text, detail, files::KEY)
}

/// What the price of a stock-out leaves lying, where downtime has a price.
fn weigh_more_stock(inputs: &Inputs<'_>) -> Option<Action> {
    let of = service_curve::in_full(inputs)?;
    let code = inputs.shop.settings.currency.code();
    let text = format!(
        "Weigh {} {code} more stock: it would save up to {} {code} of waiting a year",
        grouped(of.more, 0, 0),
        grouped(of.saved, 0, 0)
    );
    let detail = format!(
        "if most missing parts stop a machine; the levels count an hour of waiting at {:.2} % of the downtime cost (`service_target_share`, `stock_budget` and `levels_by` in shop.toml)",
        100.0 * of.counted_share
    );
    action(text, detail, service_curve::KEY)
}

fn mend_rows(inputs: &Inputs<'_>) -> Option<Action> {
    let rejected = inputs.imported.rows_rejected;
    if rejected == 0 {
        return None;
    }
    let text = format!("Mend {}", counted(rejected, "rejected row"));
    let detail = "each with its cell and reason; other doubtful values stand under data problems";
    action(text, detail, data_problems::KEY)
}
