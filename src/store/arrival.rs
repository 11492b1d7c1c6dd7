//! The rows of one import with their origins, before they meet what is stored.

use std::borrow::Borrow;
use std::collections::{BTreeMap, BTreeSet, HashMap};

use chrono::{Datelike, NaiveDate};

use super::coming_lists::{coming_day, leave_out_coming};
use super::list_name::first_day_in;
use super::mending::Mending;
use super::newest_list::holding;
use super::origin::{Kept, Origin, Placed};
use super::repeated_list::perhaps_copies;
use super::same::{list_of, number, same_shelf};
use super::state::State;
use crate::import::{Imported, TableRead};
use crate::place::Place;
use crate::record::{StockRecord, TableKind};

/// Years before the day of planning up to which the year in the name of a stock list may be that of its count: `Lager 2010`
/// is the name of a hall. Common practice, no source.
const OLDEST_COUNT_YEARS: i32 = 2;

/// Tables of an import by where they are.
struct Lists<'a> {
    import: u32,
    tables: &'a [TableRead],
    by_sheet: HashMap<(TableKind, &'a str, &'a str), Vec<usize>>,
    /// Date of each table: the newest in its rows, else what its title or file name says.
    dates: Vec<Option<NaiveDate>>,
    /// Those of price and stock lists that have no date but the year or month in the name of their sheet or file.
    by_name: Vec<Option<NaiveDate>>,
    /// First day of price lists that say no day that has passed, where their titles or names say one after that of planning.
    coming: Vec<Option<NaiveDate>>,
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
    lists.undate_coming(passed);
    lists.date_by_names(passed);
    lists.undate_halls(&records.stock, as_of);
    lists.find_coming(as_of);
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
    let stock = lists.keep(TableKind::Stock, records.stock.iter().cloned());
    let mut told = leave_out_coming(&mut offers, |home| lists.day_to_come(home));
    told.extend(perhaps_copies(&stock, &holding(&stock, same_shelf)));
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
        stock,
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
        issues: imported.issues.iter().chain(&told).map(issue).collect(),
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
            coming: vec![None; tables.len()],
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

    /// Takes days to come from price lists that say them over their rows or in their names: what they offer does not hold yet.
    ///
    /// A stock list of such a day keeps it, since two lists of one shelf would count twice; the plan tells it.
    fn undate_coming(&mut self, passed: impl Fn(Option<NaiveDate>) -> Option<NaiveDate>) {
        let tables = self.tables.iter().enumerate();
        for (at, table) in tables.filter(|(_, table)| table.kind == TableKind::Offers) {
            self.dates[at] = passed(table.dated);
            if self.dates[at].is_none() {
                self.coming[at] = table.dated;
            }
        }
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

    /// Takes the date of its name from stock lists whose year is no count's: it is too old for one, or most parts of the
    /// list are not in the newest list of its name, so that both are halls beside each other.
    fn undate_halls(&mut self, stock: &[StockRecord], as_of: Option<NaiveDate>) {
        let mut parts: BTreeMap<usize, BTreeSet<String>> = BTreeMap::new();
        for row in stock {
            let at = self.find(TableKind::Stock, &row.place);
            if let Some(at) = at.filter(|at| self.by_name[*at].is_some()) {
                parts.entry(at).or_default().insert(number(&row.part));
            }
        }
        let mut editions: BTreeMap<String, Vec<(NaiveDate, usize)>> = BTreeMap::new();
        for at in parts.keys().copied() {
            let table = &self.tables[at];
            let list = list_of(&Place::row(&table.file, &table.sheet, 0));
            editions
                .entry(list)
                .or_default()
                .extend(self.by_name[at].map(|day| (day, at)));
        }
        for list in editions.into_values() {
            let Some((day, newest)) = list.iter().copied().max() else {
                continue;
            };
            let is_old = as_of.is_some_and(|as_of| as_of.year() - day.year() > OLDEST_COUNT_YEARS);
            for (older, at) in list {
                let common = parts[&at].intersection(&parts[&newest]).count();
                let is_other = older < day && 2 * common <= parts[&at].len();
                if is_old || is_other {
                    self.by_name[at] = None;
                    self.dates[at] = None;
                }
            }
        }
    }

    /// Finds the price lists without a day whose names lie ahead, besides those whose titles do.
    fn find_coming(&mut self, as_of: Option<NaiveDate>) {
        let Some(as_of) = as_of else { return };
        for (at, table) in self.tables.iter().enumerate() {
            let is_open = self.dates[at].is_none() && self.coming[at].is_none();
            if table.kind == TableKind::Offers && is_open {
                self.coming[at] =
                    coming_day(&table.sheet, as_of).or_else(|| match first_day_in(&table.sheet) {
                        None => coming_day(&table.file, as_of),
                        Some(_) => None,
                    });
            }
        }
    }

    /// The day that the title or name of a price list says, where it lies ahead and no row of the list has a day that passed.
    fn day_to_come(&self, home: &Place) -> Option<NaiveDate> {
        let at = self.find(TableKind::Offers, home)?;
        self.coming[at].filter(|_| self.dates[at].is_none())
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
