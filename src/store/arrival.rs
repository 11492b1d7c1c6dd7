//! The rows of one import with their origins, before they meet what is stored.

use std::borrow::Borrow;
use std::collections::HashMap;

use chrono::NaiveDate;

use super::list_name::first_day_in;
use super::mending::Mending;
use super::origin::{Kept, Origin, Placed};
use super::state::State;
use crate::import::{Imported, TableRead};
use crate::place::Place;
use crate::record::TableKind;

/// Tables of an import by where they are.
struct Lists<'a> {
    import: u32,
    tables: &'a [TableRead],
    by_sheet: HashMap<(TableKind, &'a str, &'a str), Vec<usize>>,
    /// Date of each table: the newest in its rows, else what its title or file name says.
    dates: Vec<Option<NaiveDate>>,
    /// Those of price and stock lists that have no date but the year or month in the name of their sheet or file.
    by_name: Vec<Option<NaiveDate>>,
    /// Which rows the rows mend.
    mending: &'a Mending,
}

/// Gives every row of an import its origin.
pub(super) fn arrive(imported: &Imported, import: u32, mending: &Mending) -> State {
    let records = &imported.records;
    // A day after the stated moment of planning is a slip: it makes nothing newer.
    let as_of = imported.settings.as_of.map(|moment| moment.date());
    let passed =
        |date: Option<NaiveDate>| date.filter(|date| as_of.is_none_or(|as_of| *date <= as_of));
    let mut lists = Lists::new(&imported.tables, import, mending);
    lists.date_by_names(passed);
    let quoted = records.offers.quote_dates();
    lists.date_by_rows(
        TableKind::Offers,
        quoted.map(|(place, date)| (place, passed(date))),
    );
    lists.date_by_rows(
        TableKind::Stock,
        records
            .stock
            .iter()
            .map(|stock| (&stock.place, passed(stock.counted_on))),
    );
    let mut offers = lists.keep(TableKind::Offers, records.offers.records());
    for offer in offers
        .iter_mut()
        .filter(|offer| !offer.origin.is_whole_list)
    {
        let quoted = passed(offer.record.quote_date);
        offer.origin.dated = quoted.or_else(|| lists.date_of_name(TableKind::Offers, offer.home()));
    }
    let issue = |issue: &crate::import::RowIssue| {
        // Stored in words, so that a problem reads the same before and after.
        let problem = crate::import::Problem::Recorded {
            words: issue.problem.to_string(),
        };
        let record = crate::import::RowIssue {
            problem,
            ..issue.clone()
        };
        Kept {
            record,
            origin: Origin {
                import,
                dated: None,
                is_whole_list: false,
                mends: None,
            },
        }
    };
    State {
        parts: lists.keep(TableKind::Parts, records.parts.iter().cloned()),
        suppliers: lists.keep(TableKind::Suppliers, records.suppliers.iter().cloned()),
        offers,
        other_ways: lists.keep(TableKind::OtherWays, records.other_ways.iter().cloned()),
        stock: lists.keep(TableKind::Stock, records.stock.iter().cloned()),
        usages: lists.keep(TableKind::Usages, records.usages.iter().cloned()),
        receipts: lists.keep(TableKind::Receipts, records.receipts.iter().cloned()),
        kit_lines: lists.keep(TableKind::KitLines, records.kit_lines.iter().cloned()),
        tasks: lists.keep(TableKind::Tasks, records.tasks.iter().cloned()),
        planned_rebuilds: lists.keep(
            TableKind::PlannedRebuilds,
            records.planned_rebuilds.iter().cloned(),
        ),
        approvals: lists.keep(TableKind::Approvals, records.approvals.iter().cloned()),
        machines: lists.keep(TableKind::Machines, records.machines.iter().cloned()),
        issues: imported.issues.iter().map(issue).collect(),
    }
}

impl<'a> Lists<'a> {
    fn new(tables: &'a [TableRead], import: u32, mending: &'a Mending) -> Self {
        let mut by_sheet: HashMap<_, Vec<usize>> = HashMap::new();
        for (at, table) in tables.iter().enumerate() {
            by_sheet
                .entry((table.kind, &*table.file, &*table.sheet))
                .or_default()
                .push(at);
        }
        let dates = tables.iter().map(|table| table.dated).collect();
        Self {
            import,
            tables,
            by_sheet,
            by_name: vec![None; tables.len()],
            dates,
            mending,
        }
    }

    fn find(&self, kind: TableKind, place: &Place) -> Option<usize> {
        let tables = self.by_sheet.get(&(kind, &*place.file, &*place.sheet))?;
        let holds = |at: &usize| {
            let (first, end) = self.tables[*at].data_rows;
            (first..end).contains(&place.row)
        };
        tables.iter().copied().find(holds)
    }

    /// Dates price and stock lists that say no day by the year or month of their names: those of 2025 are older than those
    /// of 2026.
    fn date_by_names(&mut self, passed: impl Fn(Option<NaiveDate>) -> Option<NaiveDate>) {
        for (at, table) in self.tables.iter().enumerate() {
            let is_list = matches!(table.kind, TableKind::Offers | TableKind::Stock);
            if is_list && self.dates[at].is_none() {
                let day = first_day_in(&table.sheet).or_else(|| first_day_in(&table.file));
                self.by_name[at] = passed(day);
                self.dates[at] = self.by_name[at];
            }
        }
    }

    /// The date that the name of a list gives its rows, where none of them has a day of its own.
    fn date_of_name(&self, kind: TableKind, place: &Place) -> Option<NaiveDate> {
        let at = self.find(kind, place)?;
        self.by_name[at].filter(|day| self.dates[at] == Some(*day))
    }

    fn date_by_rows(
        &mut self,
        kind: TableKind,
        rows: impl Iterator<Item = (impl Borrow<Place>, Option<NaiveDate>)>,
    ) {
        let mut newest: HashMap<usize, NaiveDate> = HashMap::new();
        for (place, date) in rows {
            if let (Some(at), Some(date)) = (self.find(kind, place.borrow()), date) {
                let entry = newest.entry(at).or_insert(date);
                *entry = date.max(*entry);
            }
        }
        for (at, date) in newest {
            self.dates[at] = Some(date);
        }
    }

    fn keep<R: Placed>(&self, kind: TableKind, records: impl Iterator<Item = R>) -> Vec<Kept<R>> {
        let origin = |place: &Place| {
            let at = self.find(kind, place);
            Origin {
                import: self.import,
                dated: at.and_then(|at| self.dates[at]),
                is_whole_list: at.is_some_and(|at| self.tables[at].supplier.is_some()),
                mends: self.mending.mends.get(place).cloned().map(Box::new),
            }
        };
        records
            .map(|record| Kept {
                origin: origin(record.place()),
                record,
            })
            .collect()
    }
}
