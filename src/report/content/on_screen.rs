//! Which columns are for the screen: what a printed sheet of A4 has no room for at a size that can be read.
//!
//! On paper stays what somebody acts on: what, how many, from whom, when, and why. How sure a date is, what a figure rests on
//! and what other choices would cost is looked up at the screen, where it stands to the right of the rest.

use crate::report::model::{ColumnKind, Sheet};

/// Sheets by key, with the keys of their columns; a key without its currency (`saves` for `saves_eur`) where it has one.
const ON_SCREEN: [(&[&str], &[&str]); 14] = [
    (
        &["order_now", "can_wait", "no_need_yet", "by_saving"],
        &["needed_by", "here_fairly", "here_late", "saves_h", "saves"],
    ),
    // Nothing of it is ordered: no day counts.
    (&["no_need_yet"], &["order_by", "here_likely"]),
    (
        &["made_instead"],
        &["needed_by", "here_fairly", "here_late", "rests_on"],
    ),
    (
        &["approvals_that_would_pay"],
        &["running", "running_fairly", "running_late"],
    ),
    (
        &["kits"],
        &[
            "machine",
            "complete_fairly",
            "complete_late",
            "held_by_h",
            "held_by_together",
            "held_by_together_h",
            "work_h",
            "running_fairly",
            "running_late",
            "down_p80_h",
            "down_late_h",
            "down_late_together_h",
            "with_approvals_h",
            "planned",
        ],
    ),
    (
        &["kit_lines"],
        &[
            "size_checked",
            "here_fairly",
            "here_late",
            "rests_on",
            "holds_down_h",
            "last_share",
            "last_together_share",
            "shelf_saves_h",
            "shelf_saves",
            "shelf_saves_together_h",
            "next_best",
            "next_best_dearer",
            "accepted",
            "no_substitutes",
            "task",
            "note",
        ],
    ),
    (&["kit_plans"], &["if_otherwise"]),
    (&["hurried"], &["part", "running", "saved_hours", "offer"]),
    (
        &["equivalents"],
        &["size", "size_checked", "agrees", "sources"],
    ),
    (
        &["levels"],
        &[
            "whole_job_share",
            "cycle_share",
            "one_less_fill_share",
            "one_less_waits_h",
            "one_less_counts",
            "one_less_saves",
            "in_full",
            "why",
            "changes_at",
            "past",
            "past_one_less",
        ],
    ),
    (
        &["year_ahead"],
        &[
            "today_error_h",
            "today_p10_h",
            "planned_error_h",
            "planned_p10_h",
            "change_error_h",
        ],
    ),
    (&["one_stock"], &["served"]),
    (
        &["chase"],
        &["here_fairly", "here_late", "rests_on", "where_read"],
    ),
    // The reason names the day.
    (&["surplus"], &["since"]),
];

/// The sheet with its columns for the screen marked as such.
pub(super) fn marked(mut sheet: Sheet) -> Sheet {
    let of_sheet = ON_SCREEN
        .iter()
        .filter(|(sheets, _)| sheets.contains(&sheet.key.as_str()))
        .flat_map(|(_, columns)| *columns);
    for key in of_sheet {
        let column = sheet.columns.iter_mut().find(|column| {
            let ending = match column.kind {
                ColumnKind::Money(_) | ColumnKind::UnitPrice(_) => column.kind.key_ending(),
                _ => None,
            };
            let stem = ending.and_then(|ending| column.key.strip_suffix(&ending));
            column.key == *key || stem == Some(key)
        });
        if let Some(column) = column {
            column.is_printed = false;
        }
    }
    sheet
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::model::Column;
    use crate::units::Currency;

    #[test]
    fn columns_of_a_sheet_are_found_with_and_without_their_currency() {
        let money = ColumnKind::Money(Currency::new("USD").unwrap());
        let columns = || {
            vec![
                Column::text("supplier", "Supplier"),
                Column::new(ColumnKind::Hours, "saves_h", "Saves waiting"),
                Column::new(money, "saves_usd", "Saves"),
                Column::text("why", "Why"),
            ]
        };
        let printed = |key: &str| {
            let mut sheet = Sheet::new(key, "A", "?");
            sheet.columns = columns();
            let columns = marked(sheet).columns.into_iter();
            let printed = columns.filter(|column| column.is_printed);
            printed.map(|column| column.key).collect::<Vec<_>>()
        };
        assert_eq!(printed("order_now"), ["supplier", "why"]);
        assert_eq!(printed("levels"), ["supplier", "saves_h", "saves_usd"]);
        assert_eq!(printed("files").len(), 4);
    }
}
