//! One kit in depth, as a report of its own: approvals first, then the plan, the curve and whom to ring.

use super::kit_plans::running_and_cost;
use super::words::{asked_for, money, number, sentence, supply, way};
use super::{Inputs, approvals, few_sheets, hurried, hurry_together, kit_lines, kit_plans, kits};
use crate::caution;
use crate::plan::{CurveMoment, KitStudy, StudyAsk};
use crate::report::model::{Column, ColumnKind, Report, Row, Sheet, Value};

/// Makes the report of one kit; `inputs.plan` holds that kit's plan alone.
pub fn kit_report(inputs: &Inputs<'_>, study: &KitStudy, ask: &StudyAsk) -> Report {
    let mut sheets = vec![
        approvals::sheet(inputs),
        kits::sheet(inputs),
        kit_lines::sheet(inputs),
        kit_plans::sheet(inputs),
    ];
    if ask.budget.is_some() || ask.by.is_some() {
        sheets.push(asked(inputs, study, ask));
    }
    sheets.extend([
        curve(inputs, study),
        ask_first(inputs, study),
        hurried::sheet(inputs),
        hurry_together::sheet(inputs),
        issues(study),
    ]);
    few_sheets(
        inputs,
        format!("Kit {}", inputs.shop.kits[study.plan.kit].name),
        &[caution::REPORT, caution::FITTING],
        sheets,
    )
}

/// Why there is no plan with an end.
const NO_END: &str = "no plan has an end: the arrival of a line or the end of the tasks is unknown";

fn point_columns(sheet: &mut Sheet, inputs: &Inputs<'_>, first: Column) {
    let currency = inputs.shop.settings.currency;
    sheet.columns = vec![first];
    sheet.columns.extend(running_and_cost(currency));
    sheet.columns.extend([
        Column::new(ColumnKind::Share, "kept_share", "Kept in")
            .with_help("Share of cases in which the machine runs by the moment asked for, else by that of the row, with this plan and lead times as likely as they are."),
        Column::new(ColumnKind::Moment, "running_likely", "Running again, likely"),
        Column::new(
            ColumnKind::Moment,
            "running_fairly",
            "Running again, four of five",
        ),
        Column::new(
            ColumnKind::Moment,
            "running_late",
            "Running again, late (1 in 10)",
        ),
        Column::text("proved", "Proved least"),
        Column::text("bought", "Bought or made").wrapped(70),
    ]);
}

fn point_row(inputs: &Inputs<'_>, kit: usize, first: Value, point: &CurveMoment) -> Row {
    let lines = &inputs.shop.kits[kit].lines;
    let bought: Vec<String> = point
        .lines
        .iter()
        .filter_map(|(line, supplies)| {
            let from: Vec<String> = supplies
                .iter()
                .filter(|of| of.cost.is_none_or(|cost| cost.cents > 0))
                .map(|of| supply(inputs.shop, of))
                .collect();
            let name = &lines[*line].record.line;
            (!from.is_empty()).then(|| format!("line {name}: {}", from.join(" and ")))
        })
        .collect();
    Row::new(vec![
        first,
        Value::Moment(point.up),
        Value::Number(point.production_h),
        money(point.spend, "a price or a source is missing"),
        money(point.total, "no downtime cost for the machine"),
        Value::Number(point.kept_share),
        Value::Moment(point.running.p50.up),
        Value::Moment(point.running.p80.up),
        Value::Moment(point.running.p90.up),
        Value::text(point.proved.to_string()),
        Value::text(bought.join("; ")),
    ])
}

/// Spend against the moment of running again, by the hour for two days, then by the day.
fn curve(inputs: &Inputs<'_>, study: &KitStudy) -> Sheet {
    let mut sheet = Sheet::new(
        "curve",
        "Cost against time",
        "What does being running sooner cost?",
    );
    let first = Column::new(ColumnKind::Share, "lead_time_share", "Lead times kept in")
        .with_help("Every lead time as long as it is in this share of cases.");
    point_columns(&mut sheet, inputs, first);
    for (share, points) in &study.curves {
        for point in points {
            sheet.rows.push(point_row(
                inputs,
                study.plan.kit,
                Value::Number(*share),
                point,
            ));
        }
    }
    sheet.notes = vec![
        "By the hour for the first two days, then by the day, and at the moment of the plan; a moment that costs no less than an earlier one is left out.".to_owned(),
    ];
    sheet.empty_text = if study.plan.accepted.running.is_some() {
        "Nothing in the kit can be dated.".to_owned()
    } else {
        sentence(NO_END)
    };
    sheet
}

/// The plans for the budget and the time that were asked for.
fn asked(inputs: &Inputs<'_>, study: &KitStudy, ask: &StudyAsk) -> Sheet {
    let mut sheet = Sheet::new(
        "asked_for",
        "Within the budget or the time",
        "What is possible within the budget, and by the time?",
    );
    point_columns(&mut sheet, inputs, Column::text("asked", "Asked for"));
    let kit = study.plan.kit;
    let why_not = if study.plan.accepted.running.is_some() {
        "no plan does that"
    } else {
        NO_END
    };
    let row = |asked: &str, (share, point): &(f64, Option<CurveMoment>), but: Option<String>| {
        let asked = Value::text(format!(
            "{asked}, lead times kept in {:.0} % of cases",
            100.0 * share
        ));
        if let Some(point) = point {
            return point_row(inputs, kit, asked, point);
        }
        let mut cells = vec![asked];
        let why_not = but.map_or_else(|| why_not.to_owned(), |but| format!("{why_not}: {but}"));
        // One column says that it is not known, and one why: not each of them in a note of its own.
        cells.push(Value::unknown(why_not.clone()));
        cells.extend((0..8).map(|_| Value::Empty));
        cells.push(Value::text(why_not));
        Row::new(cells)
    };
    if let Some(budget) = ask.budget {
        let asked = format!("soonest for {budget}");
        for of in &study.for_budget {
            let least =
                of_share(&study.least_paid, of.0).filter(|least| least.cents > budget.cents);
            let but = least.map(|least| format!("the least is {least}"));
            sheet.rows.push(row(&asked, of, but));
        }
    }
    if let Some(by) = ask.by {
        let asked = format!("cheapest by {}", by.format("%Y-%m-%d %H:%M"));
        for of in &study.for_time {
            let soonest = of_share(&study.soonest, of.0).filter(|soonest| *soonest > by);
            let but = soonest.map(|at| format!("the soonest is {}", at.format("%Y-%m-%d %H:%M")));
            sheet.rows.push(row(&asked, of, but));
        }
    }
    sheet.notes = vec![
        "`Lead times kept in` a share of cases: every lead time as long as it is in that share; proved for these lead times, not that the moment is kept.".to_owned(),
        "`Kept in` says how often the moment asked for is kept with the plan of the row, and the three moments beside it when the machine runs by that plan.".to_owned(),
    ];
    sheet
}

/// What is known of one share of cases.
fn of_share<T: Copy>(of: &[(f64, Option<T>)], share: f64) -> Option<T> {
    let mut of = of.iter();
    of.find(|(of, _)| (of - share).abs() < 1e-9)?.1
}

/// Whom to ring first.
fn ask_first(inputs: &Inputs<'_>, study: &KitStudy) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let mut sheet = Sheet::new(
        "ring_first",
        "Ring these first",
        "Which answer would save most?",
    );
    sheet.columns = vec![
        Column::text("supplier", "Supplier"),
        Column::text("part", "Part"),
        Column::text("for_line", "For").wrapped(34),
        Column::text("question", "Ask").wrapped(40),
        Column::new(ColumnKind::Hours, "saves_h", "Production hours saved"),
        Column::new(
            ColumnKind::Money(currency),
            format!("saves_{code}"),
            "Saved in all",
        ),
        Column::text("offer", "Offer").wrapped(30),
    ];
    let lines = &inputs.shop.kits[study.plan.kit].lines;
    for call in &study.ask_first {
        let line = &lines[call.line];
        let hours = if call.saved_h.is_finite() {
            Value::Number(call.saved_h)
        } else {
            Value::unknown("the kit has no end without the answer")
        };
        sheet.rows.push(Row::new(vec![
            Value::text(
                call.way
                    .map_or_else(|| call.supplier.clone(), |kind| way(kind).to_owned()),
            ),
            call.part
                .map_or(Value::Empty, |part| Value::text(number(inputs.shop, part))),
            Value::text(format!(
                "line {}: {}",
                line.record.line,
                asked_for(inputs.shop, line)
            )),
            Value::text(call.question.to_string()),
            hours,
            money(
                call.saved,
                "no downtime cost, or the kit has no end without the answer",
            ),
            Value::text(call.place.to_string()),
        ]));
    }
    sheet.notes = vec![
        "An answer saves what the best plan with it costs less; one that changes nothing is left out.".to_owned(),
    ];
    sheet.empty_text = "No answer would change the plan.".to_owned();
    sheet
}

fn issues(study: &KitStudy) -> Sheet {
    let mut sheet = Sheet::new(
        "issues",
        "Rows not used as they stand",
        "What is wrong in the tables?",
    );
    sheet.columns = vec![Column::text("issue", "Issue").wrapped(100)];
    sheet.rows = study
        .issues
        .iter()
        .map(|issue| Row::new(vec![Value::text(issue.to_string())]))
        .collect();
    sheet.empty_text = "Nothing.".to_owned();
    sheet
}
