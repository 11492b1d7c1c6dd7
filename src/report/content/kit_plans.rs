//! How good each kit's plan is: expected cost against its bound, and the best plan for fixed lead times.

use super::Inputs;
use super::words::money;
use crate::plan::{FixedBest, FreightCase, KitPlan};
use crate::report::model::{Column, ColumnKind, Row, Sheet, Value};
use crate::units::{Currency, Money};

/// Why nobody can say below what no plan is.
const NOT_EVERY_WAY: &str = "not every way was looked at";

/// The sheet: for each kit the plan, then the best plans if all lead times were likely or late ones.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let mut sheet = Sheet::new(
        "kit_plans",
        "Cheapest way to be running",
        "What does the rebuild cost in all, and could it be cheaper?",
    );
    sheet.columns = vec![
        Column::text("kit", "Kit").wrapped(30),
        Column::text("lead_times", "Lead times").wrapped(34),
    ];
    sheet.columns.extend(running_and_cost(currency));
    sheet.columns.extend([
        Column::new(
            ColumnKind::Money(currency),
            format!("at_least_{code}"),
            "No plan is below",
        ),
        Column::text("proved", "Proved best"),
        Column::text("assumed", "Assumed")
            .wrapped(40)
            .with_help("Freight that no table says is in every cost of the row with this figure."),
        Column::text("if_otherwise", "If it were nothing, or double").wrapped(50),
    ]);
    for plan in &inputs.plan.kits {
        sheet.rows.extend(expected(inputs, plan));
        let fixed = plan.accepted.fixed.iter();
        sheet
            .rows
            .extend(fixed.map(|fixed| of_fixed(inputs, plan, fixed)));
    }
    sheet.notes = vec![
        "The plan is chosen by its expected cost over all lead times; the rows below it show the best plan if every lead time were the one of that share of cases.".to_owned(),
        "\"No plan is below\" is a bound: where it equals the cost, the plan is proved best. Plans buy what the kit needs and what packs, minimums and cheaper breaks add, a line of pieces from one offer or divided between two.".to_owned(),
        "Unless a line is split further: in a kit of many lines nobody looked at lines that are divided only to reach free freight, and in no kit at the division of one of several lines that share a source.".to_owned(),
    ];
    sheet.empty_text = "No kit whose lines all have a price and a lead time.".to_owned();
    sheet
}

/// When the machine runs again by a plan, and what that costs.
pub fn running_and_cost(currency: Currency) -> [Column; 4] {
    let code = currency.code().to_ascii_lowercase();
    [
        Column::new(ColumnKind::Moment, "running", "Running again"),
        Column::new(ColumnKind::Hours, "down_h", "Production hours down"),
        Column::new(
            ColumnKind::Money(currency),
            format!("spend_{code}"),
            "Purchases and freight",
        ),
        Column::new(
            ColumnKind::Money(currency),
            format!("total_{code}"),
            "With downtime",
        ),
    ]
}

fn expected(inputs: &Inputs<'_>, plan: &KitPlan) -> Option<Row> {
    let outcome = &plan.accepted;
    let running = outcome.running.as_ref()?;
    let goods = outcome.purchase_cost?;
    let proof = outcome.proof;
    let why_not = "no downtime cost for the machine";
    Some(Row::new(vec![
        Value::text(inputs.shop.kits[plan.kit].name.clone()),
        Value::text("all, as likely as they are: the plan"),
        Value::Moment(running.p50.up),
        Value::Number(running.mean_h),
        Value::Money(Money {
            cents: goods.cents + outcome.freight.cents,
            currency: goods.currency,
        }),
        money(proof.map(|proof| proof.expected), why_not),
        money(
            proof.and_then(|proof| proof.bound),
            if proof.is_some() {
                NOT_EVERY_WAY
            } else {
                why_not
            },
        ),
        proof.map_or(Value::Empty, |proof| Value::text(proof.proved.to_string())),
        assumed(plan, &outcome.freight_assumed_of),
        doubt(inputs, plan),
    ]))
}

fn of_fixed(inputs: &Inputs<'_>, plan: &KitPlan, fixed: &FixedBest) -> Row {
    let why_not = "no downtime cost for the machine";
    Row::new(vec![
        Value::text(inputs.shop.kits[plan.kit].name.clone()),
        Value::text(format!(
            "each kept in {:.0} % of cases",
            100.0 * fixed.share
        )),
        Value::Moment(fixed.up),
        Value::Number(fixed.production_h),
        money(fixed.spend, "a price is missing"),
        money(fixed.total, why_not),
        money(
            fixed.bound,
            if fixed.total.is_some() {
                NOT_EVERY_WAY
            } else {
                why_not
            },
        ),
        Value::text(fixed.proved.to_string()),
        assumed(plan, &fixed.freight_assumed_of),
        Value::Empty,
    ])
}

/// Freight that no table says, with the figure it was reckoned with.
fn assumed(plan: &KitPlan, suppliers: &[String]) -> Value {
    let doubt = plan.accepted.freight_doubt.as_ref();
    let Some(doubt) = doubt.filter(|_| !suppliers.is_empty()) else {
        return Value::Empty;
    };
    Value::text(format!(
        "freight of {}: {}",
        suppliers.join(", "),
        doubt.assumed
    ))
}

/// How the plan would change with another freight of the suppliers of whom no table says it.
fn doubt(inputs: &Inputs<'_>, plan: &KitPlan) -> Value {
    let outcome = &plan.accepted;
    let Some(doubt) = &outcome.freight_doubt else {
        return Value::Empty;
    };
    let before = outcome.proof.map(|proof| proof.expected);
    let case = |name: &str, case: &FreightCase| {
        let lines = case.otherwise.iter();
        let lines: Vec<&str> = lines
            .map(|line| inputs.shop.kits[plan.kit].lines[*line].record.line.as_str())
            .collect();
        let cost = before
            .zip(case.expected)
            .map(|(before, after)| after.cents - before.cents);
        let cost = match cost {
            None => String::new(),
            Some(0) => ", at the same cost".to_owned(),
            Some(cents) => {
                let more = if cents > 0 { "more" } else { "less" };
                let currency = inputs.shop.settings.currency;
                let cents = cents.abs();
                format!(", {} {more}", Money { cents, currency })
            }
        };
        if lines.is_empty() {
            format!("{name} the same plan{cost}")
        } else {
            format!("{name} otherwise for line {}{cost}", lines.join(", "))
        }
    };
    Value::text(format!(
        "{}; {}",
        case("at no freight", &doubt.at_nothing),
        case("at double", &doubt.at_double)
    ))
}
