//! Tasks of kits whose rows were rejected: who reads that a kit lacks one, or how long it stands, is led to the row.

use super::Inputs;
use crate::catalogue::NameKey;
use crate::import::{Field, RowIssue, Severity};
use crate::plan::PlanIssue;

/// Rejected rows with hours that none could read, of a kit.
pub fn rejected_tasks<'a>(
    inputs: &Inputs<'a>,
    kit: &str,
) -> impl Iterator<Item = &'a RowIssue> + use<'a> {
    let name = NameKey::new(kit);
    let issues = inputs.imported.issues.iter();
    issues.filter(move |issue| {
        issue.severity == Severity::Rejected
            && issue.field == Some(Field::Hours)
            && has(issue, &name)
    })
}

/// True where a cell of a rejected row is a name.
fn has(issue: &RowIssue, name: &NameKey) -> bool {
    let mut cells = issue.original_cells.iter();
    cells.any(|cell| NameKey::new(cell) == *name)
}

/// The words for a task that the kit has no row of, where its row was rejected: those of the problem, in place of `has no task`.
pub fn told_of_rejected(inputs: &Inputs<'_>, issue: &PlanIssue, problem: String) -> String {
    let (PlanIssue::NoSuchPredecessor { kit, task, .. } | PlanIssue::NoSuchTask { kit, task, .. }) =
        issue
    else {
        return problem;
    };
    let name = NameKey::new(task);
    let Some(row) = rejected_tasks(inputs, kit).find(|row| has(row, &name)) else {
        return problem;
    };
    let before = format!("kit `{kit}` has no task `{task}`");
    let after = format!(
        "the row of task `{task}` of kit `{kit}` was rejected ({})",
        row.place
    );
    problem.replacen(&before, &after, 1)
}

/// Rejected rows of tasks of kits that are planned without their hours, with what that means.
pub fn planned_without<'a>(inputs: &Inputs<'a>) -> Vec<(&'a RowIssue, String)> {
    let shop = inputs.shop;
    let dated = inputs.plan.kits.iter();
    let dated = dated.filter(|plan| plan.accepted.running.is_some());
    let of_kit = dated.flat_map(|plan| {
        let kit = &shop.kits[plan.kit].name;
        let text = format!(
            "a task of kit `{kit}` was rejected for its hours; the downtime is reckoned without it"
        );
        rejected_tasks(inputs, kit).map(move |row| (row, text.clone()))
    });
    of_kit.collect()
}
