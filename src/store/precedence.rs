//! Which row holds where two imports speak about the same thing.
//!
//! On import ([`apply`]):
//!
//! 1. Parts go by own number, suppliers and machines by name, kit lines and kit tasks by kit, stock by list, offers
//!    of a supplier's own list by supplier and list, single quotes by supplier and part, ways other than buying,
//!    planned rebuilds and approvals by file and sheet. A newer row or list replaces all that the older said under
//!    the same name; the older rows stay in the earlier snapshots.
//! 2. Newer is what has the later date, where both are dated (in the file's name, above the table or in its rows); else
//!    what was imported later. An older list that is imported after a newer one is kept out and told ([`KeptOut`]).
//! 3. Rows of one import under one name stand side by side, as in the folder they came from, unless all are dated:
//!    then the newest date holds. So the order in which files are read never matters.
//! 4. A list is known again by its file and sheet name without dates and endings (`stock_2026-03-02.xls` is the next
//!    edition of `stock_2026-02-01.xlsx`).
//! 5. Usages are added. The same usage told by two files or by two editions of one file counts once; told twice in
//!    one file it counts twice. A usage is taken back by a return, not by leaving it out.
//! 6. Orders go by supplier, part and day of order; where dates do not decide, what has more receipts holds, so that an
//!    open order is closed by its receipt and never opened again. Within one import a receipt closes the open row of
//!    the same quantity in another file, and exact repeats in other files count once.
//!
//! On reading ([`hold`]): of offers of one supplier for the same part in different lists only those of the newest
//! list hold, so that an older lower price never wins; of the same part in the same bin and lot in different stock
//! lists only the newest; of ways, rebuilds and approvals that files repeat exactly, one file's.
//!
//! A mended row goes by the rules of `mending`. What does not hold on reading is told by [`set_aside`].
//!
//! Every rule chooses the largest of an order that does not ask when a file came, as long as dates decide: importing in
//! any order gives the same state.

use std::collections::{BTreeMap, HashMap, HashSet};
use std::fmt;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::list_name::list_name;
use super::mending::mend;
use super::origin::{Kept, Placed};
use super::state::State;
use super::table::Stored;
use crate::import::{Problem, RowIssue, Severity};
use crate::part::NameKey;
use crate::place::Place;
use crate::record::{OfferRecord, ReceiptRecord, Records, StockRecord, UsageRecord};

/// Rows of an import that were kept out because something newer is there.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeptOut {
    /// Table.
    pub table: String,
    /// Supplier, kit, list or part that is concerned.
    pub what: String,
    /// File of the older rows.
    pub file: String,
    /// Date of the older rows.
    pub dated: Option<NaiveDate>,
    /// How many rows.
    pub rows: usize,
    /// File of what holds.
    pub newer_file: String,
    /// Date of what holds.
    pub newer_dated: Option<NaiveDate>,
}

/// How rows of one kind are told apart and compared.
pub(super) struct Rule<R> {
    /// What must be the same for one row to replace another.
    pub(super) key: fn(&Kept<R>) -> String,
    /// What a message calls it.
    pub(super) what: fn(&R) -> String,
    /// Receipts of a row; what has more holds where dates do not decide.
    pub(super) receipts: fn(&R) -> usize,
}

/// Takes the rows of one import into a state.
pub fn apply(state: &mut State, mut incoming: State) -> Vec<KeptOut> {
    let mut out = Vec::new();
    incoming.receipts = settle(incoming.receipts);
    replace(
        &mut state.parts,
        incoming.parts,
        &mut out,
        &Rule {
            key: |row| number(&row.record.own_number),
            what: |record| record.own_number.clone(),
            receipts: |_| 0,
        },
    );
    replace(
        &mut state.suppliers,
        incoming.suppliers,
        &mut out,
        &Rule {
            key: |row| name(&row.record.name),
            what: |record| record.name.clone(),
            receipts: |_| 0,
        },
    );
    replace(
        &mut state.machines,
        incoming.machines,
        &mut out,
        &Rule {
            key: |row| name(&row.record.machine),
            what: |record| record.machine.clone(),
            receipts: |_| 0,
        },
    );
    replace(
        &mut state.kit_lines,
        incoming.kit_lines,
        &mut out,
        &Rule {
            key: |row| name(&row.record.kit),
            what: |record| format!("kit {}", record.kit),
            receipts: |_| 0,
        },
    );
    replace(
        &mut state.tasks,
        incoming.tasks,
        &mut out,
        &Rule {
            key: |row| name(&row.record.kit),
            what: |record| format!("tasks of kit {}", record.kit),
            receipts: |_| 0,
        },
    );
    replace(
        &mut state.stock,
        incoming.stock,
        &mut out,
        &Rule {
            key: |row| list_of(row.home()),
            what: |record| format!("stock list {}", record.place.file),
            receipts: |_| 0,
        },
    );
    replace(
        &mut state.offers,
        incoming.offers,
        &mut out,
        &Rule {
            key: offer_key,
            what: |record| record.supplier.to_string(),
            receipts: |_| 0,
        },
    );
    replace(
        &mut state.receipts,
        incoming.receipts,
        &mut out,
        &Rule {
            key: |row| order_key(&row.record),
            what: |record| format!("order at {} of {}", record.supplier, record.ordered),
            receipts: |record| usize::from(record.received.is_some()),
        },
    );
    replace_sheets(&mut state.other_ways, incoming.other_ways, &mut out);
    replace_sheets(
        &mut state.planned_rebuilds,
        incoming.planned_rebuilds,
        &mut out,
    );
    replace_sheets(&mut state.approvals, incoming.approvals, &mut out);
    let (usages, mended) = parted(incoming.usages);
    add_usages(&mut state.usages, usages, &mut out);
    mend(&mut state.usages, mended, &mut out, None);
    state.sort();
    out
}

/// Rows that hold, without their origins.
pub fn hold(state: &State) -> Records {
    let offers = newest_list(&state.offers, same_offer);
    let stock = newest_list(&state.stock, same_shelf);
    Records {
        parts: records(&state.parts),
        suppliers: records(&state.suppliers),
        offers: records(offers).into(),
        other_ways: records(told_once(&state.other_ways, |way| {
            let mut way = way.clone();
            way.place = nowhere();
            format!("{way:?}")
        })),
        stock: records(stock),
        usages: records(&state.usages),
        receipts: records(&state.receipts),
        kit_lines: records(&state.kit_lines),
        tasks: records(&state.tasks),
        planned_rebuilds: records(told_once(&state.planned_rebuilds, |rebuild| {
            format!("{}|{:?}|{}", rebuild.kit, rebuild.machine, rebuild.date)
        })),
        approvals: records(told_once(&state.approvals, |approval| {
            let mut approval = approval.clone();
            approval.place = nowhere();
            format!("{approval:?}")
        })),
        machines: records(&state.machines),
    }
}

fn records<'a, R: Placed + 'a>(rows: impl IntoIterator<Item = &'a Kept<R>>) -> Vec<R> {
    rows.into_iter().map(|row| row.record.clone()).collect()
}

fn nowhere() -> Place {
    Place::row(&"".into(), &"".into(), 0)
}

/// Part numbers meet however they are spelt.
fn number(text: &str) -> String {
    let key = NameKey::new(text);
    if key.is_empty() {
        name(text)
    } else {
        key.as_str().to_owned()
    }
}

/// Names meet in any case and with any blanks.
fn name(text: &str) -> String {
    text.split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .to_lowercase()
}

fn list_of(place: &Place) -> String {
    format!("{}|{}", list_name(&place.file), list_name(&place.sheet))
}

fn offer_key(row: &Kept<OfferRecord>) -> String {
    if row.origin.is_whole_list {
        format!("list|{}|{}", supplier(row), list_of(row.home()))
    } else {
        format!("quote|{}", same_offer(row))
    }
}

/// A supplier that is known by the name of a file only goes by that name without its date.
fn supplier(row: &Kept<OfferRecord>) -> String {
    let offer = &row.record;
    let without_date = list_name(&offer.supplier);
    let is_of_file = [&row.home().file, &row.home().sheet]
        .iter()
        .any(|place| list_name(place) == without_date);
    if is_of_file {
        without_date
    } else {
        name(&offer.supplier)
    }
}

/// Supplier, part, condition and unit of count of an offer.
fn same_offer(row: &Kept<OfferRecord>) -> String {
    let offer = &row.record;
    let part = match (
        &offer.own_number,
        &offer.supplier_number,
        &offer.designation,
    ) {
        (Some(own), _, _) => format!("own {}", number(own)),
        (None, Some(theirs), _) => format!("theirs {}", number(theirs)),
        (None, None, Some(designation)) => format!(
            "{} {:?} {:?}",
            number(designation),
            offer.size,
            offer.traits
        ),
        (None, None, None) => name(offer.description.as_deref().unwrap_or_default()),
    };
    format!(
        "{}|{part}|{:?}|{:?}",
        supplier(row),
        offer.condition,
        offer.unit_of_count
    )
}

fn same_shelf(row: &Kept<StockRecord>) -> String {
    let stock = &row.record;
    let word = |text: &Option<String>| text.as_deref().map(name);
    let (bin, lot) = (word(&stock.bin), word(&stock.lot));
    format!(
        "{}|{bin:?}|{lot:?}|{:?}|{:?}",
        number(&stock.part),
        stock.cure_date,
        stock.unit_of_count
    )
}

fn order_key(receipt: &ReceiptRecord) -> String {
    format!(
        "{}|{}|{}",
        name(&receipt.supplier),
        number(&receipt.part),
        receipt.ordered
    )
}

fn usage_key(usage: &UsageRecord) -> String {
    let machine = usage.machine.as_deref().map(name);
    format!(
        "{}|{}|{}|{machine:?}|{:?}",
        usage.date,
        number(&usage.part),
        usage.quantity,
        usage.reason
    )
}

type Groups<R> = BTreeMap<String, Vec<Kept<R>>>;

fn grouped<R>(rows: Vec<Kept<R>>, key: fn(&Kept<R>) -> String) -> Groups<R> {
    let mut groups = Groups::new();
    for row in rows {
        groups.entry(key(&row)).or_default().push(row);
    }
    groups
}

/// The newest date, where every row has one.
fn date_of<R>(rows: &[Kept<R>]) -> Option<NaiveDate> {
    let dates: Option<Vec<NaiveDate>> = rows.iter().map(|row| row.origin.dated).collect();
    dates?.into_iter().max()
}

/// Rows as they were read, and mended ones.
fn parted<R>(rows: Vec<Kept<R>>) -> (Vec<Kept<R>>, Vec<Kept<R>>) {
    rows.into_iter().partition(|row| row.origin.mends.is_none())
}

/// Rules 1 to 3 for rows as they were read; mended ones go to the places of those they mend.
fn replace<R: Placed>(
    kept: &mut Vec<Kept<R>>,
    incoming: Vec<Kept<R>>,
    out: &mut Vec<KeptOut>,
    rule: &Rule<R>,
) {
    let (incoming, mended) = parted(incoming);
    replace_groups(kept, incoming, out, rule);
    mend(kept, mended, out, Some(rule));
}

fn replace_groups<R: Placed>(
    kept: &mut Vec<Kept<R>>,
    incoming: Vec<Kept<R>>,
    out: &mut Vec<KeptOut>,
    rule: &Rule<R>,
) {
    if incoming.is_empty() {
        return;
    }
    let mut arriving = grouped(incoming, rule.key);
    let mut present = Groups::new();
    for row in std::mem::take(kept) {
        let key = (rule.key)(&row);
        if arriving.contains_key(&key) {
            present.entry(key).or_default().push(row);
        } else {
            kept.push(row);
        }
    }
    for (key, new) in &mut arriving {
        let new = std::mem::take(new);
        let date = date_of(&new);
        let is_newest = |row: &Kept<R>| date.is_none() || row.origin.dated == date;
        let (new, superseded): (Vec<_>, Vec<_>) = new.into_iter().partition(is_newest);
        tell(out, &superseded, &new, rule);
        let old = present.remove(key).unwrap_or_default();
        if is_newer(&new, &old, rule) {
            kept.extend(with_known_origin(new, old));
        } else {
            if date != date_of(&old) {
                tell(out, &new, &old, rule);
            }
            kept.extend(old);
        }
    }
}

/// Rule 1 for tables that are replaced sheet by sheet.
fn replace_sheets<R: Placed>(
    kept: &mut Vec<Kept<R>>,
    incoming: Vec<Kept<R>>,
    out: &mut Vec<KeptOut>,
) {
    let rule = Rule {
        key: |row: &Kept<R>| format!("{}|{}", row.home().file, row.home().sheet),
        what: |record: &R| record.place().file.to_string(),
        receipts: |_| 0,
    };
    replace(kept, incoming, out, &rule);
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

/// A row that says the same at the same place as before keeps the import it first came with.
fn with_known_origin<R: Placed>(new: Vec<Kept<R>>, old: Vec<Kept<R>>) -> Vec<Kept<R>> {
    if old.is_empty() {
        return new;
    }
    let known: HashMap<Place, &Kept<R>> = old
        .iter()
        .map(|row| (row.record.place().clone(), row))
        .collect();
    let rows = new
        .into_iter()
        .map(|row| match known.get(row.record.place()) {
            Some(old) if old.record == row.record && old.origin.dated == row.origin.dated => {
                (*old).clone()
            }
            _ => row,
        });
    rows.collect()
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
            }),
        }
    }
}

/// Rule 6 within one import.
fn settle(rows: Vec<Kept<ReceiptRecord>>) -> Vec<Kept<ReceiptRecord>> {
    let content = |record: &ReceiptRecord| {
        let mut record = record.clone();
        record.place = nowhere();
        format!("{record:?}")
    };
    let mut rows: Vec<_> = told_once(&rows, content).into_iter().cloned().collect();
    let mut closing: HashMap<String, Vec<(Place, Option<f64>)>> = HashMap::new();
    for row in rows.iter().filter(|row| row.record.received.is_some()) {
        let entry = closing.entry(order_key(&row.record)).or_default();
        entry.push((row.record.place.clone(), row.record.quantity));
    }
    rows.retain(|row| {
        let receipt = &row.record;
        let mut closed = closing.get(&order_key(receipt)).into_iter().flatten();
        receipt.received.is_some()
            || !closed.any(|(place, quantity)| {
                place.file != receipt.place.file && *quantity == receipt.quantity
            })
    });
    rows
}

/// Rule 5.
fn add_usages(
    kept: &mut Vec<Kept<UsageRecord>>,
    incoming: Vec<Kept<UsageRecord>>,
    out: &mut Vec<KeptOut>,
) {
    if incoming.is_empty() {
        return;
    }
    let old = std::mem::take(kept);
    let known: HashMap<Place, u32> = old
        .iter()
        .map(|row| (row.record.place.clone(), row.origin.import))
        .collect();
    let all: Vec<_> = old.iter().chain(&incoming).cloned().collect();
    let mut chosen: Vec<_> = told_once(&all, usage_key).into_iter().cloned().collect();
    // A row that came again as it was keeps the import it first came with.
    let before: HashMap<(Place, u32), &Kept<UsageRecord>> = old
        .iter()
        .map(|row| ((row.record.place.clone(), row.origin.import), row))
        .collect();
    for row in &mut chosen {
        let first = known
            .get(&row.record.place)
            .and_then(|import| before.get(&(row.record.place.clone(), *import)));
        if let Some(first) = first.filter(|first| first.record == row.record) {
            row.origin = first.origin.clone();
        }
    }
    tell_told_elsewhere(&incoming, &chosen, out);
    *kept = chosen;
}

/// Says which incoming usages do not count because another file tells them too.
fn tell_told_elsewhere(
    incoming: &[Kept<UsageRecord>],
    chosen: &[Kept<UsageRecord>],
    out: &mut Vec<KeptOut>,
) {
    let taken: HashSet<&Place> = chosen.iter().map(|row| &row.record.place).collect();
    let mut left = incoming
        .iter()
        .filter(|row| !taken.contains(&row.record.place))
        .peekable();
    if left.peek().is_none() {
        return;
    }
    let by_content: HashMap<String, &Kept<UsageRecord>> = chosen
        .iter()
        .map(|row| (usage_key(&row.record), row))
        .collect();
    let mut by_files: BTreeMap<(String, String), KeptOut> = BTreeMap::new();
    for row in left {
        let Some(holds) = by_content.get(&usage_key(&row.record)) else {
            continue;
        };
        let (file, other) = (&row.record.place.file, &holds.record.place.file);
        if file == other {
            continue;
        }
        let told = by_files
            .entry((file.to_string(), other.to_string()))
            .or_insert_with(|| KeptOut {
                table: UsageRecord::TABLE.to_owned(),
                what: "the same usages".to_owned(),
                file: file.to_string(),
                dated: row.origin.dated,
                rows: 0,
                newer_file: other.to_string(),
                newer_dated: holds.origin.dated,
            });
        told.rows += 1;
    }
    out.extend(by_files.into_values());
}

/// Of rows that say the same, those of the one source (file and import) that says it most often; of equals the first
/// file's, in its newest edition. The order of rows stays.
fn told_once<R: Placed>(rows: &[Kept<R>], content: impl Fn(&R) -> String) -> Vec<&Kept<R>> {
    let mut sources: HashMap<String, BTreeMap<(&str, u32), Vec<usize>>> = HashMap::new();
    for (at, row) in rows.iter().enumerate() {
        let by_source = sources.entry(content(&row.record)).or_default();
        let source = (&*row.home().file, row.home_import());
        by_source.entry(source).or_default().push(at);
    }
    let most = |by_source: BTreeMap<(&str, u32), Vec<usize>>| {
        let best = by_source.into_iter().max_by(
            |((file, import), rows), ((other_file, other_import), others)| {
                let by_count = rows.len().cmp(&others.len());
                by_count
                    .then(other_file.cmp(file))
                    .then(import.cmp(other_import))
            },
        );
        best.map(|(_, rows)| rows).unwrap_or_default()
    };
    let mut chosen: Vec<usize> = sources.into_values().flat_map(most).collect();
    chosen.sort_unstable();
    chosen.into_iter().map(|at| &rows[at]).collect()
}

/// Of rows about the same thing in different lists, those of the newest list.
fn newest_list<R: Placed>(rows: &[Kept<R>], same: fn(&Kept<R>) -> String) -> Vec<&Kept<R>> {
    let by_list = by_list(rows, same);
    by_list
        .into_iter()
        .filter(|row| row.holds)
        .map(|row| row.row)
        .collect()
}

/// A row with what it is about, and whether its list is the newest of those that speak of it.
struct Listed<'a, R> {
    row: &'a Kept<R>,
    key: String,
    holds: bool,
}

fn by_list<R: Placed>(rows: &[Kept<R>], same: fn(&Kept<R>) -> String) -> Vec<Listed<'_, R>> {
    let mut groups: HashMap<String, (bool, Option<NaiveDate>, u32)> = HashMap::new();
    let keys: Vec<String> = rows.iter().map(same).collect();
    for (row, key) in rows.iter().zip(&keys) {
        let newest = groups.entry(key.clone()).or_insert((true, None, 0));
        newest.0 &= row.origin.dated.is_some();
        newest.1 = newest.1.max(row.origin.dated);
        newest.2 = newest.2.max(row.home_import());
    }
    let holds = |row: &Kept<R>, key: &String| match groups.get(key) {
        Some((true, date, _)) => row.origin.dated == *date,
        Some((false, _, import)) => row.home_import() == *import,
        None => true,
    };
    rows.iter()
        .zip(keys)
        .map(|(row, key)| Listed {
            row,
            holds: holds(row, &key),
            key,
        })
        .collect()
}

/// A row that does not hold because a newer list speaks of the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct SetAside {
    /// Table.
    pub(super) table: &'static str,
    /// Supplier or part that is concerned.
    pub(super) what: String,
    /// The row.
    pub(super) place: Place,
    /// Its import.
    pub(super) import: u32,
    /// Date of its list.
    pub(super) dated: Option<NaiveDate>,
    /// A row that holds instead.
    pub(super) newer: Place,
    /// Its import.
    pub(super) newer_import: u32,
    /// Date of its list.
    pub(super) newer_dated: Option<NaiveDate>,
}

impl SetAside {
    /// The row as a note for the reader.
    pub(super) fn as_issue(&self) -> RowIssue {
        RowIssue {
            place: self.place.clone(),
            severity: Severity::Note,
            field: None,
            problem: Problem::Recorded {
                words: format!(
                    "not used: {}{} says something newer of the same",
                    self.newer,
                    self.newer_dated
                        .map_or_else(String::new, |date| format!(", of {date},"))
                ),
            },
            original_cells: Vec::new(),
        }
    }
}

/// Every row that [`hold`] leaves out because a newer list speaks of the same, in order of places.
pub(super) fn set_aside(state: &State) -> Vec<SetAside> {
    let mut found = of_older_lists(&state.offers, same_offer, |offer| {
        offer.supplier.to_string()
    });
    found.extend(of_older_lists(&state.stock, same_shelf, |stock| {
        stock.part.clone()
    }));
    found
}

fn of_older_lists<R: Placed>(
    rows: &[Kept<R>],
    same: fn(&Kept<R>) -> String,
    what: fn(&R) -> String,
) -> Vec<SetAside> {
    let listed = by_list(rows, same);
    if listed.iter().all(|row| row.holds) {
        return Vec::new();
    }
    let mut holding: HashMap<&str, &Kept<R>> = HashMap::new();
    for row in listed.iter().filter(|row| row.holds) {
        holding.entry(&row.key).or_insert(row.row);
    }
    let older = listed.iter().filter(|row| !row.holds);
    older
        .filter_map(|older| {
            let newer = holding.get(&*older.key)?;
            Some(SetAside {
                table: R::TABLE,
                what: what(&older.row.record),
                place: older.row.record.place().clone(),
                import: older.row.origin.import,
                dated: older.row.origin.dated,
                newer: newer.record.place().clone(),
                newer_import: newer.origin.import,
                newer_dated: newer.origin.dated,
            })
        })
        .collect()
}

/// Rows that were set aside, one note per supplier or table and pair of files.
pub(super) fn set_aside_by_list<'a>(rows: impl IntoIterator<Item = &'a SetAside>) -> Vec<KeptOut> {
    type Lists<'a> = (&'static str, &'a str, &'a str, &'a str);
    let mut by_list: BTreeMap<Lists<'_>, KeptOut> = BTreeMap::new();
    for row in rows {
        let what = if row.table == StockRecord::TABLE {
            "stock"
        } else {
            &row.what
        };
        let lists = (row.table, what, &*row.place.file, &*row.newer.file);
        let told = by_list.entry(lists).or_insert_with(|| KeptOut {
            table: row.table.to_owned(),
            what: what.to_owned(),
            file: row.place.file.to_string(),
            dated: row.dated,
            rows: 0,
            newer_file: row.newer.file.to_string(),
            newer_dated: row.newer_dated,
        });
        told.rows += 1;
    }
    by_list.into_values().collect()
}

impl fmt::Display for KeptOut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let dated = |date: Option<NaiveDate>| {
            date.map_or_else(|| "undated".to_owned(), |date| format!("of {date}"))
        };
        if self.table == UsageRecord::TABLE {
            return write!(
                f,
                "{}: {} row{} of `{}` stand in `{}` too and count once",
                self.what,
                self.rows,
                if self.rows == 1 { "" } else { "s" },
                self.file,
                self.newer_file
            );
        }
        write!(
            f,
            "{}: {} row{} of `{}` ({}) kept out; `{}` ({}) is newer",
            self.what,
            self.rows,
            if self.rows == 1 { "" } else { "s" },
            self.file,
            dated(self.dated),
            self.newer_file,
            dated(self.newer_dated)
        )
    }
}
