//! How rows of one kind are told apart, and which of two groups of them is the newer.

use chrono::NaiveDate;

use super::kept_out::KeptOut;
use super::origin::{Kept, Placed};

/// How rows of one kind are told apart and compared.
pub(super) struct Rule<R> {
    /// What must be the same for one row to replace another.
    pub(super) key: fn(&Kept<R>) -> String,
    /// What a message calls it.
    pub(super) what: fn(&R) -> String,
    /// Receipts of a row; what has more holds where dates do not decide.
    pub(super) receipts: fn(&R) -> usize,
}

/// Rules 2 and 6.
pub(super) fn is_newer<R>(new: &[Kept<R>], old: &[Kept<R>], rule: &Rule<R>) -> bool {
    let count = |rows: &[Kept<R>]| {
        rows.iter()
            .map(|row| (rule.receipts)(&row.record))
            .sum::<usize>()
    };
    match (date_of(new), date_of(old)) {
        _ if old.is_empty() => true,
        (Some(new), Some(old)) if new != old => new > old,
        _ => count(new) >= count(old),
    }
}

/// The newest date, where every row has one.
pub(super) fn date_of<R>(rows: &[Kept<R>]) -> Option<NaiveDate> {
    let dates: Option<Vec<NaiveDate>> = rows.iter().map(|row| row.origin.dated).collect();
    dates?.into_iter().max()
}

/// Notes rows that were kept out, one note per subject and file.
pub(super) fn tell<R: Placed>(
    out: &mut Vec<KeptOut>,
    older: &[Kept<R>],
    newer: &[Kept<R>],
    rule: &Rule<R>,
) {
    let Some(holds) = newer.first() else { return };
    for row in older {
        let (what, file) = (
            (rule.what)(&row.record),
            row.record.place().file.to_string(),
        );
        let same = out.iter_mut().rev().take(8).find(|told| {
            told.table == R::TABLE
                && told.what == what
                && told.file == file
                && told.dated == row.origin.dated
        });
        match same {
            Some(told) => told.rows += 1,
            None => out.push(KeptOut {
                table: R::TABLE.to_owned(),
                what,
                file,
                dated: row.origin.dated,
                rows: 1,
                newer_file: holds.record.place().file.to_string(),
                newer_dated: date_of(newer),
                is_repeat: false,
            }),
        }
    }
}
