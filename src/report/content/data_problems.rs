//! Rows that were taken, but not as they stand: doubtful values, contradictions, parts no table knows.

use std::collections::BTreeMap;

use super::Inputs;
use super::rejected_tasks::{planned_without, told_of_rejected};
use super::words::number;
use crate::import::Severity;
use crate::place::Place;
use crate::plan::PlanIssue;
use crate::report::model::{Column, Row, Sheet, Value};

/// Key of this sheet.
pub const KEY: &str = "data_problems";

/// The sheet, one row per problem; rejected rows have a sheet of their own.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        KEY,
        "Data problems",
        "What was read with a doubt, and what contradicts itself?",
    );
    sheet.columns = vec![
        Column::text("kind", "Kind"),
        Column::text("file", "File").wrapped(30),
        Column::text("sheet", "Sheet"),
        Column::text("cell", "Cell"),
        Column::text("problem", "Problem").wrapped(90),
    ];
    for issue in &inputs.imported.issues {
        let kind = match issue.severity {
            Severity::Rejected => continue,
            Severity::Doubtful => "value not taken",
            Severity::Note => "note",
        };
        sheet
            .rows
            .push(row(kind, Some(&issue.place), issue.problem.to_string()));
    }
    let notes = inputs.shop.notes.iter();
    sheet
        .rows
        .extend(notes.map(|note| row("note", Some(&note.place), note.reason.clone())));
    for unresolved in &inputs.shop.unresolved {
        sheet.rows.push(row(
            "not resolved",
            Some(&unresolved.place),
            unresolved.reason.clone(),
        ));
    }
    sheet.rows.extend(assumed_units(inputs));
    let is_told_once = |issue: &&PlanIssue| matches!(issue, PlanIssue::UnitAssumed { .. });
    for issue in inputs
        .plan
        .issues
        .iter()
        .filter(|issue| !is_told_once(issue))
    {
        // The place has columns of its own here.
        let text = issue.to_string();
        let prefix = format!("{}: ", issue.place());
        let problem = text.strip_prefix(&prefix).unwrap_or(&text).to_owned();
        let problem = told_of_rejected(inputs, issue, problem);
        sheet.rows.push(row(
            "not planned as it stands",
            Some(issue.place()),
            problem,
        ));
    }
    for (task, problem) in planned_without(inputs) {
        sheet
            .rows
            .push(row("not planned as it stands", Some(&task.place), problem));
    }
    for expired in inputs
        .plan
        .stock
        .expired
        .iter()
        .filter(|expired| expired.quantity > 0.0)
    {
        let cured = (expired.cure_date).map_or_else(String::new, |day| format!(" cured on {day}"));
        let text = format!(
            "{} of `{}`{cured} were usable until {}: not counted as stock",
            expired.quantity,
            number(inputs.shop, expired.part),
            expired.usable_until,
        );
        sheet
            .rows
            .push(row("expired stock", Some(&expired.place), text));
    }
    sheet.empty_text = "No problems found.".to_owned();
    sheet
}

/// One row for each table in which no unit of count is named: said once, since it holds for all its rows alike.
fn assumed_units(inputs: &Inputs<'_>) -> Vec<Row> {
    let mut tables: BTreeMap<(&str, &str), (&Place, &str, usize)> = BTreeMap::new();
    for issue in &inputs.plan.issues {
        if let PlanIssue::UnitAssumed { place, part } = issue {
            let table = tables
                .entry((&place.file, &place.sheet))
                .or_insert((place, part, 0));
            table.2 += 1;
        }
    }
    tables
        .into_values()
        .map(|(place, part, count)| {
            let others = if count == 1 {
                String::new()
            } else {
                format!("; the same of {} more", count - 1)
            };
            let text = format!(
                "no unit of count for `{part}` here or in the parts table; pieces are assumed{others}"
            );
            row("not planned as it stands", Some(place), text)
        })
        .collect()
}

fn row(kind: &str, place: Option<&Place>, problem: String) -> Row {
    let text = |text: Option<String>| {
        text.filter(|text| !text.is_empty())
            .map_or(Value::Empty, Value::text)
    };
    Row::new(vec![
        Value::text(kind),
        text(place.map(|place| place.file.to_string())),
        text(place.map(|place| place.sheet.to_string())),
        text(place.map(Place::cell)),
        Value::text(problem),
    ])
}
