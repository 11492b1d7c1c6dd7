//! What service costs: the stock of the whole shop at other prices of a stock-out.

use super::Inputs;
use crate::plan::CurvePoint;
use crate::report::model::{Chart, Column, ColumnKind, Emphasis, Row, Sheet, Value, grouped};
use crate::units::Money;

/// Key of the sheet.
pub const KEY: &str = "service_curve";

/// The sheet, one row per price, cheapest stock first, with the levels of this report among them.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let money = |key: &str, header: &str| {
        Column::new(ColumnKind::Money(currency), format!("{key}_{code}"), header)
    };
    let mut sheet = Sheet::new(
        KEY,
        "What service costs",
        "What would more stock save, and less cost?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::new(ColumnKind::Share, "counted_share", "Downtime cost counted")
            .with_help("Share of each machine's downtime cost that an hour of waiting counts."),
        money("stock_value", "Value of the stock"),
        Column::new(ColumnKind::Share, "fill_share", "Usages met from the shelf"),
        Column::new(ColumnKind::Hours, "waiting_h", "Waiting a year"),
        money("waiting_cost", "Waiting a year, in full"),
        Column::text("note", "Note").wrapped(40),
    ];
    let levels = &inputs.plan.levels;
    let mut points: Vec<(&CurvePoint, bool)> =
        levels.curve.iter().map(|point| (point, false)).collect();
    points.extend(levels.chosen.iter().map(|point| (point, true)));
    points.sort_by(|a, b| {
        a.0.stock_value
            .total_cmp(&b.0.stock_value)
            .then(a.0.factor.total_cmp(&b.0.factor))
    });
    sheet.rows = points
        .into_iter()
        .map(|(point, is_chosen)| row(inputs, point, is_chosen))
        .collect();
    sheet.notes = vec![
        "Parts with a price and a lead time only, and none that is bought once more and not reordered; planners' own figures are on the whole curve; what the targets of kits add and shelf life takes away is in the levels of this report only.".to_owned(),
        "Waiting counts as if every part that is missing stopped its machine in production hours: the most it can be. Its cost is weighted by criticality, its hours are not.".to_owned(),
        "Stock is valued half-way between the minimum stock and the reorder point with a whole order on top.".to_owned(),
        "`The year ahead` plays the same levels through from today's shelf, what is missing now and rebuilds with a day included: its hours are others than those of the long run here.".to_owned(),
    ];
    sheet.notes.extend(budget_in_words(inputs));
    sheet.notes.extend(out_of_reach_in_words(inputs));
    sheet.notes.extend(in_full_in_words(inputs));
    sheet.charts = vec![Chart::line(
        "Usages met from the shelf against the value of the stock",
        "The mark beside the line is where the levels of this report stand, with planners' own figures and the targets of kits; where the line is flat, more stock buys little.",
        format!("stock_value_{code}"),
        "fill_share",
    )];
    sheet.empty_text = "No part has a rate, a lead time and a price.".to_owned();
    sheet
}

fn row(inputs: &Inputs<'_>, point: &CurvePoint, is_chosen: bool) -> Row {
    let money = |amount: f64| Value::Money(Money::rounded(amount, inputs.shop.settings.currency));
    let is_priced = !inputs.plan.levels.has_no_hour_cost;
    let unknown = || Value::unknown("no downtime cost known");
    let note = if is_chosen {
        "the levels of this report"
    } else if is_priced && (point.factor - 1.0).abs() < 1e-9 {
        "downtime in full"
    } else {
        ""
    };
    Row::new(vec![
        if is_priced {
            Value::Number(point.factor)
        } else {
            unknown()
        },
        money(point.stock_value),
        Value::Number(point.fill_share.clamp(0.0, 1.0)),
        Value::Number(point.waiting_h),
        if is_priced {
            money(point.waiting_cost)
        } else {
            unknown()
        },
        Value::text(note),
    ])
    .with(match is_chosen {
        true if is_over_budget(inputs) => Emphasis::Attention,
        true => Emphasis::Good,
        false => Emphasis::None,
    })
}

/// What the downtime cost in full would make of the levels.
pub(super) struct InFull {
    /// Share of the downtime cost at which the levels count an hour of waiting.
    pub(super) counted_share: f64,
    /// More stock, in the shop's currency.
    pub(super) more: f64,
    /// What holding it costs a year.
    pub(super) holding: f64,
    /// Waiting that it saves a year, at most.
    pub(super) saved: f64,
}

/// The levels of the downtime cost in full against those of the report; `None` where more stock would not pay.
pub(super) fn in_full(inputs: &Inputs<'_>) -> Option<InFull> {
    let levels = &inputs.plan.levels;
    let chosen = levels.chosen.filter(|_| !levels.has_no_hour_cost)?;
    let full = (levels.curve.iter()).find(|point| (point.factor - 1.0).abs() < 1e-9)?;
    let more = full.stock_value - chosen.stock_value;
    let saved = chosen.waiting_cost - full.waiting_cost;
    let holding = more * inputs.shop.settings.planning.holding_cost_share;
    (more > 0.0 && saved > holding).then_some(InFull {
        counted_share: chosen.factor,
        more,
        holding,
        saved,
    })
}

/// True where the levels tie up more than the budget.
fn is_over_budget(inputs: &Inputs<'_>) -> bool {
    let levels = &inputs.plan.levels;
    let both = levels.budget.zip(levels.chosen);
    both.is_some_and(|(of, chosen)| chosen.stock_value > of.budget + 0.005)
}

/// That the levels tie up more than the budget, where they do.
pub(super) fn over_budget_in_words(inputs: &Inputs<'_>) -> Option<String> {
    budget_in_words(inputs).filter(|_| is_over_budget(inputs))
}

/// What became of a budget that the stock does not come up to, or goes beyond.
fn budget_in_words(inputs: &Inputs<'_>) -> Option<String> {
    let levels = &inputs.plan.levels;
    let (of, chosen) = (levels.budget?, levels.chosen?);
    let code = inputs.shop.settings.currency.code();
    let left = of.budget - chosen.stock_value;
    let words = |amount: f64| grouped(amount, 2, 2);
    if let Some(missing) = of.missing() {
        return Some(format!(
            "The budget of {} {code} cannot be kept: half of each order and planners' own figures alone tie up {} {code}, {} {code} more than it; nothing else is kept but for the targets of kits.",
            words(of.budget),
            words(of.least),
            words(missing)
        ));
    }
    if left < -0.005 {
        return Some(format!(
            "The budget of {} {code} is not enough: half of each order, planners' own figures and the targets of kits tie up {} {code}, {} {code} more than it.",
            words(of.budget),
            words(chosen.stock_value),
            words(-left)
        ));
    }
    (of.is_all_that_pays && left > 0.005).then(|| {
        format!(
            "Of the budget of {} {code} {} {code} are left: one more of any part would cost more to hold than the waiting it saves, downtime counted in full.",
            words(of.budget),
            words(left)
        )
    })
}

/// Parts named in one note, at most.
const MAX_NAMED: usize = 3;

/// That no price of an hour reaches the share of usages that is asked for, how much is met instead, and because of which parts;
/// `None` where it is met.
pub(super) fn out_of_reach_in_words(inputs: &Inputs<'_>) -> Option<String> {
    let levels = &inputs.plan.levels;
    let (of, chosen) = (levels.out_of_reach.as_ref()?, levels.chosen?);
    if chosen.fill_share >= of.share {
        return None;
    }
    let (asked, met) = (100.0 * of.share, 100.0 * chosen.fill_share);
    let named = of.because_of.iter().take(MAX_NAMED).cloned();
    let named = named.collect::<Vec<String>>().join(", ");
    let more = of.because_of.len().saturating_sub(MAX_NAMED);
    Some(match (of.because_of.is_empty(), more) {
        (true, _) => format!(
            "{met:.1} % of usages are met from the shelf, not the {asked:.1} % that are asked for: no price of an hour reaches them."
        ),
        (false, 0) => format!(
            "{met:.1} % of usages are met from the shelf, not the {asked:.1} % that are asked for: no price of an hour reaches them, because stock of {named} reaches the end of its shelf life unused."
        ),
        (false, more) => format!(
            "{met:.1} % of usages are met from the shelf, not the {asked:.1} % that are asked for: no price of an hour reaches them, because stock of {named} and of {more} more reaches the end of its shelf life unused."
        ),
    })
}

fn in_full_in_words(inputs: &Inputs<'_>) -> Option<String> {
    let of = in_full(inputs)?;
    let code = inputs.shop.settings.currency.code();
    Some(format!(
        "The levels count an hour of waiting at {:.2} % of the downtime cost. In full, {} {code} more in stock (about {} {code} a year to hold) would save up to {} {code} of waiting a year: raise the target or the budget if most missing parts do stop a machine.",
        100.0 * of.counted_share,
        grouped(of.more, 0, 0),
        grouped(of.holding, 0, 0),
        grouped(of.saved, 0, 0)
    ))
}
