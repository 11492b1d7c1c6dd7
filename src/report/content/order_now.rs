//! What to order now and what can wait: from whom, how many, by when and why.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use super::Inputs;
use super::words::{designation, how, number, on_order_unsaid, reasons, way};
use crate::catalogue::PartId;
use crate::plan::{
    OfferChoice, OpenOrder, OrderWorth, OrderedFor, ReorderLine, ReorderReason, ShelfLeft, Timing,
    open_too_late, order_worths, served_by_the_shelf,
};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, RowFormula, Sheet, Value};
use crate::units::{Currency, Price, without_rounding_residue};

/// Key of the sheet of what is due today.
pub const KEY: &str = "order_now";

/// Open orders told of one need, at most.
const MOST_OPEN: usize = 3;

/// Which lines of the order list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    /// Due today.
    Now,
    /// With a later last day to order.
    Later,
    /// Never used, and no critical machine's downtime pays them.
    NoNeedYet,
}

/// The sheet of what must be ordered today, one row per order line.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let question = "What has to be ordered today, from whom, and why?";
    let mut sheet = lines(inputs, Sheet::new(KEY, "Order now", question), Which::Now);
    sheet.empty_text = "Nothing has to be ordered today.".to_owned();
    sheet
}

/// The sheet of what may be ordered later, with the last day for it.
pub fn later_sheet(inputs: &Inputs<'_>) -> Sheet {
    let question = "What has to be ordered later, and by when at the latest?";
    let sheet = Sheet::new("can_wait", "Can wait", question);
    let mut sheet = lines(inputs, sheet, Which::Later);
    sheet.empty_text = "Nothing waits for a later order.".to_owned();
    sheet.notes.push(
        "Arrivals hold if ordered today; the last day to order counts back from the late arrival."
            .to_owned(),
    );
    sheet
}

/// The sheet of what only the rate of its group or a minimum without a reason asks for.
pub fn no_need_sheet(inputs: &Inputs<'_>) -> Sheet {
    let question = "What was never used and need not be ordered, but might be kept?";
    let sheet = Sheet::new("no_need_yet", "No need yet", question);
    let mut sheet = lines(inputs, sheet, Which::NoNeedYet);
    sheet.empty_text =
        "No part is asked for by the rate of its group alone, or by a minimum without a reason."
            .to_owned();
    sheet
}

/// Order lines with what each saves: those due today in the order of that, later ones by their last day.
pub fn by_saving<'a>(
    inputs: &Inputs<'a>,
    which: Which,
) -> Vec<(&'a ReorderLine, Option<OrderWorth>)> {
    let lines = of_supplier(inputs, which);
    let worths = order_worths(inputs.shop, inputs.plan, &lines);
    let mut found: Vec<(&ReorderLine, Option<OrderWorth>)> =
        lines.into_iter().zip(worths).collect();
    if which == Which::Now {
        found.sort_by(|a, b| most_saved_first(a.1, b.1));
    }
    found
}

/// What saves more comes first, in money, then in hours; of which nobody knows it, last.
pub(super) fn most_saved_first(one: Option<OrderWorth>, other: Option<OrderWorth>) -> Ordering {
    let saved = |worth: Option<OrderWorth>| {
        worth.map_or((-1, 0.0), |worth| {
            (worth.saves.map_or(0, |saves| saves.cents), worth.waiting_h)
        })
    };
    let (one, other) = (saved(one), saved(other));
    (other.0.cmp(&one.0)).then(other.1.total_cmp(&one.1))
}

/// Order lines: those due today by supplier, later ones by their last day.
pub fn of_supplier<'a>(inputs: &Inputs<'a>, which: Which) -> Vec<&'a ReorderLine> {
    let today = inputs.shop.as_of.date();
    let is_wanted = |line: &ReorderLine| match which {
        Which::Now => line.is_due(today),
        Which::Later => !line.is_due(today) && !line.is_held_back(),
        Which::NoNeedYet => line.is_held_back(),
    };
    let lines = inputs.plan.reorder.lines.iter();
    let mut found: Vec<&ReorderLine> = lines.filter(|line| is_wanted(line)).collect();
    found.sort_by(|a, b| {
        let day = |line: &ReorderLine| (which == Which::Later).then_some(line.order_by);
        (day(a).cmp(&day(b))).then(a.buy.supplier.cmp(&b.buy.supplier))
    });
    found
}

fn lines(inputs: &Inputs<'_>, mut sheet: Sheet, which: Which) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let (unit_price, surcharge) = (format!("unit_price_{code}"), format!("surcharge_{code}"));
    let lines = by_saving(inputs, which);
    let mut hurried = Column::new(ColumnKind::Money(currency), surcharge.clone(), "Surcharge").with_help(
        "For hurrying this line, whatever its quantity. What a courier costs is paid once for all lines that come with him and stands with the freight of the order.",
    );
    // Paper has no room for a column of nothing.
    hurried.is_printed = lines.iter().any(|(line, _)| line.buy.surcharge.cents != 0);
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("supplier", "Supplier").wrapped(18),
        Column::text("buy", "Our number"),
        Column::text("designation", "Designation").wrapped(22),
        Column::new(ColumnKind::Quantity, "quantity", "Quantity")
            .with_help("May be changed; the cost follows, the freight of the order does not."),
        Column::text("unit_of_count", "Unit"),
        Column::new(
            ColumnKind::UnitPrice(currency),
            unit_price.clone(),
            "Unit price",
        )
        .with_help("The offer's, net, at this quantity."),
        hurried,
        Column::new(ColumnKind::Money(currency), format!("cost_{code}"), "Cost")
            .with_formula(RowFormula::product_plus("quantity", unit_price, surcharge))
            .totalled(),
        Column::new(ColumnKind::Date, "order_by", "Order by"),
        Column::new(ColumnKind::Date, "needed_by", "Needed by"),
        Column::new(ColumnKind::Moment, "here_likely", "Here, likely"),
        Column::new(ColumnKind::Moment, "here_fairly", "Here, four of five"),
        Column::new(ColumnKind::Moment, "here_late", "Here, late (1 in 10)"),
    ];
    sheet.columns.extend(saving_columns(currency));
    sheet.columns.push(Column::text("why", "Why").wrapped(44));
    let around = Around::of_report(inputs);
    let of_each = |(line, worth): (&ReorderLine, _)| row(inputs, line, worth, &around);
    sheet.rows = lines.into_iter().map(of_each).collect();
    if which == Which::Now {
        sheet.notes.push(
            "What saves most stands first; what one supplier is sent, and what that costs with freight, stands on the sheet `Orders by supplier`.".to_owned(),
        );
    }
    sheet.notes.extend([
        "Quantities are rounded up to the supplier's pack and minimum.".to_owned(),
        "Only parts that go in as they are, or that a person approved for the kit line, are bought.".to_owned(),
        "What each line rests on stands on the sheet `Basis of orders`.".to_owned(),
        SAVING_NOTE.to_owned(),
    ]);
    if which != Which::NoNeedYet && !inputs.plan.reorder.made.is_empty() {
        sheet.notes.push(
            "What is made, repaired or fetched for a rebuild instead stands on the sheet `Made instead of ordered`.".to_owned(),
        );
    }
    sheet
}

/// What the figures of a saving mean.
pub const SAVING_NOTE: &str = "What a line saves: at a reorder point the production hours of waiting a year with the stock left as it is, less those with the level, a usage of several pieces counted once, or those until an order comes that is too late to be counted, at the full cost of an hour down; for a rebuild, once, the hours it would stand if the part were ordered only when missed, from whoever is best then, less those it stands although it is ordered now, no longer than until an open order or one for the level brings it or it is made or fetched in another way, with what that costs more; for a last buy the jobs that would go without, each with the hours until what it takes comes by the cheapest way, and the price of that.";

/// What a line saves, in hours and money.
pub fn saving_columns(currency: Currency) -> [Column; 2] {
    let code = currency.code().to_ascii_lowercase();
    [
        Column::new(
            ColumnKind::Hours,
            "saves_h",
            "Saves waiting, a year or once",
        ),
        Column::new(
            ColumnKind::Money(currency),
            format!("saves_{code}"),
            "Saves, a year or once",
        ),
    ]
}

/// The cells of these columns.
pub fn saving(worth: Option<OrderWorth>) -> [Value; 2] {
    let unknown = || Value::unknown("no price, rate or cost of the machine");
    [
        worth.map_or_else(unknown, |worth| Value::Number(worth.waiting_h)),
        worth
            .and_then(|worth| worth.saves)
            .map_or_else(unknown, Value::Money),
    ]
}

/// The offer's price at the quantity of the order, in the shop's currency, to a hundredth of a cent where that gives the cost.
///
/// Where rounding in another currency makes the goods cost otherwise, what a unit of them costs.
fn unit_price(buy: &OfferChoice) -> Option<Price> {
    let cost = buy.cost?;
    let goods_cents = cost.cents - buy.surcharge.cents;
    let gives_cost = |price: &Price| {
        let cents = 100.0 * (buy.ordered * price.unit_price());
        cents.round() as i64 == goods_cents
    };
    let stated = buy.price.filter(gives_cost);
    // A list price less discount has digits that nobody writes on an order.
    let in_few_digits = stated.and_then(|price| {
        let each = (price.unit_price() * 1e4).round() / 1e4;
        Price::from_units(each, 1, cost.currency).ok()
    });
    in_few_digits.filter(gives_cost).or(stated).or_else(|| {
        let each = goods_cents as f64 / 100.0 / buy.ordered;
        Price::from_units(each, 1, cost.currency).ok()
    })
}

fn row(
    inputs: &Inputs<'_>,
    line: &ReorderLine,
    worth: Option<OrderWorth>,
    around: &Around<'_>,
) -> Row {
    let shop = inputs.shop;
    let buy = &line.buy;
    let unit_price = unit_price(buy);
    let unknown = || Value::unknown("no price in the offer");
    let mut cells = vec![
        Value::text(format!("{}{}", buy.supplier, how(buy.delivery))),
        Value::text(number(shop, buy.part)),
        designation(shop, buy.part),
        Value::Number(buy.ordered),
        Value::text(buy.offer_unit.to_string()),
        unit_price.map_or_else(unknown, Value::Price),
        Value::Money(buy.surcharge),
        buy.cost.map_or_else(unknown, Value::Money),
        if line.is_held_back() {
            Value::Empty
        } else {
            Value::Date(line.order_by)
        },
        line.needed_by.map_or(Value::Empty, Value::Date),
        Value::Moment(buy.arrival.likely),
        Value::Moment(buy.arrival.fairly),
        Value::Moment(buy.arrival.late),
    ];
    cells.extend(saving(worth));
    cells.push(Value::text(why(inputs, line, around)));
    Row::new(cells).with(mark(line))
}

/// The mark of a line, the same on every sheet that lists it.
pub(super) fn mark(line: &ReorderLine) -> Emphasis {
    match line.buy.timing {
        Timing::InTime if !line.buy.is_old_quote && !line.is_last_buy() => Emphasis::None,
        Timing::TooLate if !line.buy.is_quicker_dearer => Emphasis::Stop,
        Timing::TooLate | Timing::InTime | Timing::LikelyInTime => Emphasis::Attention,
    }
}

/// True where a quicker offer was not weighed against the waiting that it saves, as no hour has a cost.
fn is_cheapest_of_unpriced_hours(inputs: &Inputs<'_>, line: &ReorderLine) -> bool {
    let (buy, levels) = (&line.buy, &inputs.plan.levels);
    let is_undated = line.needed_by.is_none() && buy.waiting.is_none();
    is_undated && buy.is_quicker_dearer && levels.has_no_hour_cost
}

/// True where more is bought than its shelf life uses.
fn outlasts_shelf_life(inputs: &Inputs<'_>, line: &ReorderLine) -> bool {
    let level = inputs.plan.levels.by_part.get(&line.buy.part);
    let used = level.and_then(|level| level.why_quantity.as_ref()?.shelf_life_usage);
    used.is_some_and(|used| line.buy.gives > used.max(1.0) + 1e-9)
}

/// Why a rebuild has a line of its own although an order for the shelf would bring the part in time; `None` where none does.
fn left_of_the_shelf(
    reason: &ReorderReason,
    served: &BTreeMap<usize, ShelfLeft>,
) -> Option<String> {
    let ReorderReason::Rebuild { need, .. } = reason else {
        return None;
    };
    let left = served.get(need)?;
    let (with_line, without) = (
        without_rounding_residue(left.with_line),
        without_rounding_residue(left.without),
    );
    Some(format!(
        "Today's order for the shelf is likely to bring it in time as well: this line fills the shelf to {with_line}, without it {without} are left."
    ))
}

/// What is made or fetched of the same need, and how else it could be had.
fn other_ways(inputs: &Inputs<'_>, need: &OrderedFor) -> Vec<String> {
    let ReorderReason::Rebuild { need: at, .. } = need.reason else {
        return Vec::new();
    };
    let made = inputs.plan.reorder.made_for(at).iter();
    let mut words: Vec<String> = made
        .map(|of| {
            format!(
                "Besides: {} {}.",
                without_rounding_residue(of.quantity),
                way(of.kind)
            )
        })
        .collect();
    words.extend(need.way_left.as_ref().map(|left| {
        let ready = left.arrival.likely.date();
        let but = match left.dearer_by {
            Some(more) if more.cents > 0 => format!("for {more} more"),
            Some(_) => "but less surely in time".to_owned(),
            None => "at a cost that is not known".to_owned(),
        };
        format!(
            "It can also be {}, likely ready {ready}, {but}.",
            way(left.kind)
        )
    }));
    words
}

/// What else bears on the needs of order lines.
pub(super) struct Around<'a> {
    /// Needs that an order for the shelf serves as well.
    served: BTreeMap<usize, ShelfLeft>,
    /// Open orders that come too late, by need.
    too_late: BTreeMap<usize, Vec<(&'a OpenOrder, f64)>>,
    /// Kits and their lines that stand on the sheet of lines to hurry together.
    in_sets: BTreeSet<(usize, usize)>,
    /// Parts with an open order of which nobody knows how many it is for.
    unsaid: BTreeSet<PartId>,
}

impl<'a> Around<'a> {
    /// For a report that has the sheet of lines to hurry together.
    fn of_report(inputs: &Inputs<'a>) -> Self {
        let sets = inputs.plan.kits.iter().flat_map(|plan| {
            let lines = plan.accepted.sets.iter().flat_map(|set| &set.lines);
            lines.map(|line| (plan.kit, *line))
        });
        Self {
            in_sets: sets.collect(),
            ..Self::without_sets(inputs)
        }
    }

    /// For a report without that sheet.
    pub(super) fn without_sets(inputs: &Inputs<'a>) -> Self {
        Self {
            served: served_by_the_shelf(inputs.plan, inputs.shop.as_of.date()),
            too_late: open_too_late(inputs.plan),
            in_sets: BTreeSet::new(),
            unsaid: on_order_unsaid(inputs.shop),
        }
    }

    /// True where one of a line's needs stands on the sheet of lines to hurry together.
    fn is_in_a_set(&self, inputs: &Inputs<'_>, line: &ReorderLine) -> bool {
        line.needs.iter().any(|need| {
            let ReorderReason::Rebuild { need, .. } = need.reason else {
                return false;
            };
            let need = inputs.plan.needs.get(need);
            need.is_some_and(|need| self.in_sets.contains(&(need.kit, need.line)))
        })
    }

    /// What is on order for a need, but comes too late for it.
    fn open_orders(&self, inputs: &Inputs<'_>, reason: &ReorderReason) -> Vec<String> {
        let ReorderReason::Rebuild { need: at, .. } = reason else {
            return Vec::new();
        };
        let orders = self.too_late.get(at).into_iter().flatten();
        let needed_by = inputs.plan.needs.get(*at).map(|need| need.needed_by);
        let told = orders.map(|(order, left)| {
            let left = without_rounding_residue(*left);
            let late_due = order
                .due
                .filter(|due| needed_by.is_none_or(|day| *due > day));
            let when = match (late_due, order.due, order.arrival) {
                (Some(due), ..) => format!("due {due}"),
                (None, Some(due), Some(arrival)) => {
                    format!("due {due} but likely here {}", arrival.likely.date())
                }
                (None, None, Some(arrival)) => format!("likely here {}", arrival.likely.date()),
                (None, _, None) => {
                    return format!("{left} on order, but nobody knows for when: ask that first.");
                }
            };
            let is_likely = order
                .arrival
                .is_some_and(|arrival| needed_by.is_some_and(|day| arrival.likely.date() <= day));
            if is_likely {
                return format!("{left} on order, {when}, not surely in time: hurry that first.");
            }
            format!("{left} on order, {when}, too late for it: hurry that first.")
        });
        told.take(MOST_OPEN).collect()
    }
}

/// The reasons, and what to beware of.
pub(super) fn why(inputs: &Inputs<'_>, line: &ReorderLine, around: &Around<'_>) -> String {
    let mut why = reasons(inputs, line, &around.unsaid);
    let needs = line.needs.iter();
    for left in needs.filter_map(|need| left_of_the_shelf(&need.reason, &around.served)) {
        why.push_str(&format!(" {left}"));
    }
    for need in &line.needs {
        for open in around.open_orders(inputs, &need.reason) {
            why.push_str(&format!(" {open}"));
        }
    }
    for other in line.needs.iter().flat_map(|need| other_ways(inputs, need)) {
        why.push_str(&format!(" {other}"));
    }
    if line.buy.is_old_quote {
        why.push_str(" The quote is old: ask again.");
    }
    if is_cheapest_of_unpriced_hours(inputs, line) {
        why.push_str(
            " No table says what an hour down costs: the cheapest offer was taken, though a dearer one comes sooner.",
        );
    }
    if outlasts_shelf_life(inputs, line) {
        why.push_str(" More than is used in its shelf life: the rest would expire.");
    }
    match line.buy.timing {
        Timing::InTime => {}
        Timing::LikelyInTime => why.push_str(" May come late."),
        Timing::TooLate if around.is_in_a_set(inputs, line) => {
            why.push_str(
                " Comes too late for the day it is needed: see `Lines to hurry together`.",
            );
        }
        Timing::TooLate if line.buy.is_quicker_dearer => why.push_str(
            " Comes too late for the day it is needed: a quicker offer costs more than the waiting it saves.",
        ),
        Timing::TooLate => why.push_str(
            " Comes too late for the day it is needed, and no quicker offer may be used for all of it: ask the supplier to hurry it.",
        ),
    }
    why
}
