//! Minimum stock, reorder point and order quantity of each own part, and why this number and not one less.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::Inputs;
use super::service_curve::over_budget_in_words;
use super::words::{designation, number};
use crate::catalogue::PartId;
use crate::parallel;
use crate::plan::{
    Arrival, KitFill, Level, LevelBasis, LevelReason, LevelShelf, LevelShelves, OpenOrder,
    QuantityReason, YEAR_DAYS, what_comes, what_comes_late,
};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};
use crate::units::without_rounding_residue;

/// The sheet, one row per part with a level.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "levels",
        "Stock levels",
        "How many to keep, and why not one less?",
    );
    sheet.has_marks = true;
    sheet.columns = columns(inputs);
    let mut on_order: BTreeMap<PartId, Vec<&OpenOrder>> = BTreeMap::new();
    let orders = inputs.plan.open_orders.iter();
    for order in orders.filter(|order| !order.is_forgotten) {
        on_order.entry(order.part).or_default().push(order);
    }
    let shelves = LevelShelves::new(inputs.plan, inputs.shop.as_of.date());
    let levels: Vec<&Level> = inputs.plan.levels.by_part.values().collect();
    sheet.rows = parallel::each(&levels, |level| {
        let of_stock = level.stocked().filter_map(|part| on_order.get(&part));
        let of_stock: Vec<&OpenOrder> = of_stock.flatten().copied().collect();
        row(inputs, level, (shelves.of(level), &of_stock))
    });
    sheet.notes = vec![
        "Usages met, whole usages met, lead times without waiting and the mean wait differ; they stand side by side so that nobody takes one for the other.".to_owned(),
        "Hours are production hours of a year in which usages wait, each until it has all it takes. \"One less\" says what the last unit of the level is good for.".to_owned(),
        "Order quantities are economic quantities (square-root formula), freight counted as far as no other order of the week pays it, rounded up to pack and minimum and capped by shelf life and by the service left.".to_owned(),
        "Numbers that go in for each other have one level, under the number that is cheapest to buy; free and on order count all of them there.".to_owned(),
        "The past is run again with the mean lead time each time, from the minimum stock on at the start.".to_owned(),
    ];
    let ends = |level: &&Level| match &level.why {
        LevelBasis::Computed(reason) => reason.ending.is_some(),
        _ => false,
    };
    if levels.iter().any(ends) {
        sheet.notes.push("Shares met, waits and the past count that stock expires, the oldest being used first and what has expired ordered anew.".to_owned());
        if levels.iter().any(|level| takes_whole_orders(level)) {
            sheet.notes.push("Where each usage takes as much as an order brings, the past stays at the minimum stock it begins with; shares met and waits are those of a shelf that begins with a whole order.".to_owned());
        }
    }
    sheet.notes.extend(over_budget_in_words(inputs));
    let named = |fill: &KitFill| (inputs.shop.kits[fill.kit].name.clone(), *fill);
    let fills: Vec<(String, KitFill)> = inputs.plan.levels.kits.iter().map(named).collect();
    sheet.notes.extend(kit_notes(&fills));
    let target = inputs.shop.settings.planning.kit_target_share;
    sheet
        .notes
        .extend(target.and_then(|target| below_target(target, &fills)));
    sheet.empty_text =
        "No levels: set records_from in the settings, and give usages and lead times.".to_owned();
    sheet
}

/// True where stock ends and each usage takes one order of several units or several of them, so that what is left over never grows.
fn takes_whole_orders(level: &Level) -> bool {
    let LevelBasis::Computed(reason) = &level.why else {
        return false;
    };
    let quantity = reason.quantity;
    let demand = &reason.demand;
    let taken = demand.quantities().unwrap_or(&demand.sizes);
    let is_whole = |size: u32| quantity > 1 && i64::from(size) % quantity == 0;
    reason.ending.is_some() && !taken.is_empty() && taken.iter().all(|(size, _)| is_whole(*size))
}

fn columns(inputs: &Inputs<'_>) -> Vec<Column> {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let money = |key: &str, header: &str| {
        Column::new(ColumnKind::Money(currency), format!("{key}_{code}"), header)
    };
    vec![
        Column::text("number", "Our number"),
        Column::text("designation", "Designation").wrapped(26),
        Column::new(ColumnKind::Quantity, "free", "Free").with_help(
            "Without what reaches the end of its shelf life before an order could be here.",
        ),
        Column::new(ColumnKind::Quantity, "on_order", "On order"),
        Column::new(ColumnKind::Quantity, "reorder_point", "Reorder point")
            .with_help("Order when free and on order fall to this; empty where none is kept."),
        Column::new(ColumnKind::Quantity, "min_stock", "Min. stock"),
        Column::new(ColumnKind::Quantity, "order_quantity", "Order quantity"),
        Column::text("unit_of_count", "Unit"),
        Column::new(ColumnKind::Quantity, "usage_per_year", "Usage a year"),
        Column::new(ColumnKind::Days, "lead_days", "Mean lead time"),
        Column::new(
            ColumnKind::Share,
            "unit_fill_share",
            "Units met from the shelf",
        ),
        Column::new(ColumnKind::Share, "whole_job_share", "Whole usages met"),
        Column::new(
            ColumnKind::Share,
            "cycle_share",
            "Lead times without waiting",
        ),
        Column::new(ColumnKind::Days, "mean_wait_days", "Mean wait"),
        Column::new(
            ColumnKind::Share,
            "one_less_fill_share",
            "One less: units met",
        ),
        Column::new(
            ColumnKind::Hours,
            "one_less_waits_h",
            "One less: more waiting a year",
        ),
        money("one_less_counts", "One less: which counts"),
        money("one_less_saves", "One less: saves of holding"),
        Column::new(
            ColumnKind::Quantity,
            "in_full",
            "Downtime in full: min. stock",
        )
        .with_help("What would be kept if an hour of waiting counted the downtime cost in full."),
        Column::text("why", "Why").wrapped(70),
        Column::text("changes_at", "Another number from").wrapped(40),
        Column::text("past", "The past with it").wrapped(40),
        Column::text("past_one_less", "The past with one less").wrapped(40),
    ]
}

fn row(inputs: &Inputs<'_>, level: &Level, (shelf, orders): (LevelShelf, &[&OpenOrder])) -> Row {
    let on_order = orders.iter().map(|order| order.quantity).sum::<f64>() + 0.0;
    let free = shelf.counted;
    let is_kept = level.reorder_point >= 0.0 && !level.orders_nothing();
    let is_held_back = level
        .is_never_asked_for()
        .is_some_and(|never_used| !never_used.is_insured());
    // Orders that come too late for it are no cover.
    let reorder = &inputs.plan.reorder;
    let is_bridged = reorder.bridges.contains_key(&level.part);
    let last_day = match &level.why {
        LevelBasis::Computed(reason) => reason.last_buy.as_ref().map(|last| last.until),
        _ => None,
    };
    let is_after = |(until, arrival): (NaiveDate, Arrival)| arrival.likely.date() > until;
    let (late, counted): (Vec<&OpenOrder>, Vec<&OpenOrder>) = orders.iter().partition(|order| {
        let is_after = || last_day.zip(order.arrival).is_some_and(is_after);
        is_bridged && reorder.hurry.contains(&order.place) || is_after()
    });
    let is_short = is_bridged || free + on_order <= level.ordered_at() + 1e-9;
    let is_due = is_kept && !is_held_back && is_short;
    let mut values = vec![
        Value::text(number(inputs.shop, level.part)),
        designation(inputs.shop, level.part),
        if shelf.has_unknown && free <= 0.0 {
            Value::unknown("the stock list does not say how many there are, 0 was assumed")
        } else {
            Value::Number(free)
        },
        Value::Number(on_order),
        if is_kept {
            Value::Number(level.reorder_point)
        } else {
            Value::Empty
        },
        Value::Number(level.kept_min_stock()),
        Value::Number(level.order_quantity),
        Value::text(level.unit.to_string()),
    ];
    values.extend(match &level.why {
        LevelBasis::Computed(reason) => {
            let expiring = (shelf.expiring > 0.0).then(|| {
                let expiring = without_rounding_residue(shelf.expiring);
                format!("besides {expiring} that reach the end of their shelf life before an order could be here, not counted")
            });
            let on_order = what_comes(&counted).into_iter().chain(what_comes_late(&late));
            let quantity = level.why_quantity.as_ref();
            let freight = quantity.and_then(QuantityReason::freight_in_words);
            let beside = expiring.into_iter().chain(freight).chain(on_order);
            let beside: Vec<String> = beside.collect();
            figures(level, reason, &beside)
        }
        LevelBasis::OwnMinimum { .. } => {
            not_computed(level, "only a planner's own minimum, nothing computed")
        }
        LevelBasis::KeptUnder { .. } => not_computed(level, "kept under another number"),
        LevelBasis::Retired { .. } => not_computed(level, "its machines have left service"),
    });
    Row::new(values).with(if is_due {
        Emphasis::Attention
    } else {
        Emphasis::None
    })
}

fn figures(level: &Level, reason: &LevelReason, beside: &[String]) -> Vec<Value> {
    let service = &reason.service;
    let per_day = reason.demand.per_day().unwrap_or(0.0);
    let one_less = reason.one_less.as_ref();
    let less = reason.service_one_less.map(|less| less.unit_fill_share);
    let is_known = reason.ending.is_none_or(|ending| ending.is_known);
    let share = |share: f64| match is_known {
        true => Value::Number(share.clamp(0.0, 1.0)),
        false => Value::unknown("stock expires, and no figure comes near enough"),
    };
    let wait = service.mean_wait_days(per_day).filter(|_| is_known);
    let no_wait = match is_known {
        true => "no usage",
        false => "stock expires, and no figure comes near enough",
    };
    vec![
        Value::Number(per_day * YEAR_DAYS),
        Value::Number(reason.lead.mean_days),
        share(service.unit_fill_share),
        share(service.whole_job_share),
        share(service.cycle_share),
        Value::number_or(wait, no_wait),
        less.map_or(Value::Empty, share),
        one_less.map_or(Value::Empty, |one| Value::Number(one.waiting_h_more)),
        one_less.map_or(Value::Empty, |one| {
            let unknown = || Value::unknown("no downtime cost known");
            one.waiting_cost_more.map_or_else(unknown, Value::Money)
        }),
        one_less.map_or(Value::Empty, |one| Value::Money(one.holding_saved)),
        reason.in_full.map_or(Value::Empty, Value::Number),
        Value::text(match beside {
            [] => level.why.to_string(),
            _ => format!("{}; {}", level.why, beside.join("; ")),
        }),
        level.changes_at().map_or(Value::Empty, Value::text),
        Value::text(reason.replay.to_string()),
        reason
            .replay_one_less
            .map_or(Value::Empty, |past| Value::text(past.to_string())),
    ]
}

/// Figures of a level that was not computed: unknown, not 0.
fn not_computed(level: &Level, why: &'static str) -> Vec<Value> {
    let mut values = vec![
        Value::unknown(why),
        Value::unknown(why),
        Value::unknown(why),
    ];
    values.extend(std::iter::repeat_n(Value::Empty, 8));
    values.push(Value::text(level.why.to_string()));
    values.extend(std::iter::repeat_n(Value::Empty, 3));
    values
}

/// What a rebuild without notice finds on the shelf: one note of the kits with lines without a level, one of the others.
fn kit_notes(fills: &[(String, KitFill)]) -> Vec<String> {
    let (without, with): (Vec<_>, Vec<_>) =
        fills.iter().partition(|(_, fill)| fill.without_level > 0);
    let mut notes = Vec::new();
    if !with.is_empty() {
        let each = with.iter().map(|(name, fill)| {
            let (job, line) = (100.0 * fill.job_share, 100.0 * fill.line_share);
            format!("{name} {job:.0} % ({line:.0} %)")
        });
        notes.push(format!(
            "Share of rebuilds without notice that find every line on the shelf, in brackets how often one line is there on average: {}.",
            each.collect::<Vec<_>>().join(", ")
        ));
    }
    if !without.is_empty() {
        let each = without
            .iter()
            .map(|(name, fill)| format!("{name} ({})", fill.without_level));
        notes.push(format!(
            "A rebuild without notice cannot count on finding every line of these kits, how many have no level in brackets: {}.",
            each.collect::<Vec<_>>().join(", ")
        ));
    }
    notes
}

/// Which kits stay below the share that the settings aim at, and why nothing is raised for it.
fn below_target(target: f64, fills: &[(String, KitFill)]) -> Option<String> {
    let below = fills
        .iter()
        .filter(|(_, fill)| fill.without_level == 0 && fill.job_share < target - 1e-9);
    let names: Vec<&str> = below.map(|(name, _)| name.as_str()).collect();
    (!names.is_empty()).then(|| {
        format!(
            "The share of {:.0} % that is aimed at is not reached by these kits, as planners' own figures with reason and date hold, shelf lives end and what leaves service is not reordered: {}.",
            100.0 * target,
            names.join(", ")
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kits_of_one_kind_share_one_note() {
        let fill = |kit: usize, without_level: usize, job_share: f64| KitFill {
            kit,
            without_level,
            job_share,
            line_share: 0.9,
        };
        let fills = [
            ("Fan".to_owned(), fill(0, 0, 0.36)),
            ("Press".to_owned(), fill(1, 2, 0.0)),
            ("Mill, large".to_owned(), fill(2, 1, 0.0)),
        ];
        let mut notes = kit_notes(&fills);
        assert_eq!(notes.len(), 2, "{notes:?}");
        assert!(notes[0].ends_with(": Fan 36 % (90 %)."), "{notes:?}");
        assert!(
            notes[1].ends_with(": Press (2), Mill, large (1)."),
            "{notes:?}"
        );
        assert_eq!(kit_notes(&[]), [""; 0]);
        // Kits without a level have a note of their own.
        assert_eq!(below_target(0.36, &fills), None);
        let below = below_target(0.9, &fills).unwrap();
        assert!(
            below.starts_with("The share of 90 % ") && below.ends_with(": Fan."),
            "{below}"
        );
        notes.push(below);
        let german = crate::language::Language::of_code("de").unwrap();
        let mut words = crate::language::Translator::new(german);
        for note in &notes {
            words.say(note);
        }
        assert!(words.missing().is_empty(), "{:?}", words.missing());
    }
}
