//! Which row holds where two imports speak about the same thing.
//!
//! On import ([`apply`]):
//!
//! 1. Parts go by own number, suppliers and machines by name, kit lines and kit tasks by kit, stock by list, offers
//!    of a supplier's own list by supplier and list, single quotes by supplier and part, ways other than buying,
//!    planned rebuilds and approvals by file and sheet. A newer row or list replaces all that the older said under
//!    the same name; the older rows stay in the earlier snapshots.
//! 2. Newer is what has the later date, where both are dated (in the file's name, above the table or in its rows; price and
//!    stock lists without a day by the first of the year or month in the name of their sheet or file; a day in a row after the moment of planning that the settings state is no date;
//!    neither is a year in the name of a stock list that is long past, or whose parts are others, as of a hall; a price list
//!    whose title or name lies ahead is not taken where another one offers the same); else
//!    what was imported later. An older list that is imported after a newer one is kept out and told ([`KeptOut`]).
//! 3. Rows of one import under one name stand side by side, as in the folder they came from, unless all are dated:
//!    then the newest date holds. So the order in which files are read never matters.
//! 4. A list is known again by its file and sheet name without dates and endings (`stock_2026-03-02.xls` is the next
//!    edition of `stock_2026-02-01.xlsx`).
//! 5. Usages are added. The same usage told by two files or by two editions of one file counts once; told twice in
//!    one file it counts twice. A usage is taken back by a return, not by leaving it out.
//! 6. Orders go by supplier, part and day of order; where dates do not decide, what has more receipts holds, so that an
//!    open order is closed by its receipt and never opened again. Within one import a receipt, a cancellation or a
//!    part delivery with its rest closes the open row of the same quantity, in whatever unit, in another file, and exact
//!    repeats in other files count once.
//!
//! On reading ([`hold`]): of offers of one supplier for the same part in different lists only those of the newest
//! list hold, so that an older lower price never wins; of the same part in the same bin and lot in different stock
//! lists only the newest; of stock lists that say exactly the same only one, and of a shelf that nearly equal ones count
//! otherwise the smaller number; of ways, rebuilds and approvals that files repeat exactly, one file's.
//!
//! A mended row goes by the rules of `mending`. What does not hold on reading is told by [`set_aside`].
//!
//! Every rule chooses the largest of an order that does not ask when a file came, as long as dates decide: importing in
//! any order gives the same state.

use std::collections::{BTreeMap, HashMap};

use super::kept_out::KeptOut;
use super::mending::mend;
use super::newest_list::{holding, holding_stock};
use super::order_packs::OrderPacks;
use super::origin::{Kept, Placed};
use super::rule::{Rule, date_of, is_newer, tell};
use super::same::{list_of, name, number, offer_key, order_key, same_offer};
use super::state::State;
use super::told_once::{nowhere, told_once, told_once_at};
use super::usages::add_usages;
use crate::place::Place;
use crate::record::{
    KitLine, MachineRecord, OfferRecord, PartRecord, ReceiptRecord, Records, StockRecord,
    SupplierRecord, Task,
};

/// Takes the rows of one import into a state.
pub fn apply(state: &mut State, mut incoming: State) -> Vec<KeptOut> {
    let mut out = Vec::new();
    let offers = || state.offers.iter().chain(&incoming.offers);
    let packs = OrderPacks::of(&incoming.receipts, offers);
    incoming.receipts = settle(incoming.receipts, &packs);
    replace(&mut state.parts, incoming.parts, &mut out, &PARTS);
    replace(
        &mut state.suppliers,
        incoming.suppliers,
        &mut out,
        &SUPPLIERS,
    );
    replace(&mut state.machines, incoming.machines, &mut out, &MACHINES);
    replace(
        &mut state.kit_lines,
        incoming.kit_lines,
        &mut out,
        &KIT_LINES,
    );
    replace(&mut state.tasks, incoming.tasks, &mut out, &TASKS);
    replace(&mut state.stock, incoming.stock, &mut out, &STOCK);
    replace(&mut state.offers, incoming.offers, &mut out, &OFFERS);
    replace(&mut state.receipts, incoming.receipts, &mut out, &RECEIPTS);
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

const PARTS: Rule<PartRecord> = Rule {
    key: |row| number(&row.record.own_number),
    what: |record| record.own_number.clone(),
    receipts: |_| 0,
};
const SUPPLIERS: Rule<SupplierRecord> = Rule {
    key: |row| name(&row.record.name),
    what: |record| record.name.clone(),
    receipts: |_| 0,
};
const MACHINES: Rule<MachineRecord> = Rule {
    key: |row| name(&row.record.machine),
    what: |record| record.machine.clone(),
    receipts: |_| 0,
};
const KIT_LINES: Rule<KitLine> = Rule {
    key: |row| name(&row.record.kit),
    what: |record| format!("kit {}", record.kit),
    receipts: |_| 0,
};
const TASKS: Rule<Task> = Rule {
    key: |row| name(&row.record.kit),
    what: |record| format!("tasks of kit {}", record.kit),
    receipts: |_| 0,
};
const STOCK: Rule<StockRecord> = Rule {
    key: |row| list_of(row.home()),
    what: |record| format!("stock list {}", record.place.file),
    receipts: |_| 0,
};
const OFFERS: Rule<OfferRecord> = Rule {
    key: offer_key,
    what: |record| record.supplier.to_string(),
    receipts: |_| 0,
};
const RECEIPTS: Rule<ReceiptRecord> = Rule {
    key: |row| order_key(&row.record),
    what: |record| format!("order at {} of {}", record.supplier, record.ordered),
    // What has come in part says less than what has come whole.
    receipts: |record| match (record.received, record.still_open) {
        (Some(_), Some(_)) => 1,
        (Some(_), None) => 2,
        (None, _) => 2 * usize::from(record.is_closed),
    },
};

/// Rows that hold, without their origins.
pub fn hold(state: State) -> Records {
    let is_newest = (
        holding(&state.offers, same_offer),
        holding_stock(&state.stock),
    );
    let other_ways = told_once_at(&state.other_ways, |way| {
        let mut way = way.clone();
        way.place = nowhere();
        format!("{way:?}")
    });
    let planned_rebuilds = told_once_at(&state.planned_rebuilds, |rebuild| {
        format!("{}|{:?}|{}", rebuild.kit, rebuild.machine, rebuild.date)
    });
    let approvals = told_once_at(&state.approvals, |approval| {
        let mut approval = approval.clone();
        approval.place = nowhere();
        format!("{approval:?}")
    });
    Records {
        parts: records(state.parts),
        suppliers: records(state.suppliers),
        offers: those(state.offers, &is_newest.0).into(),
        other_ways: at(state.other_ways, &other_ways),
        stock: those(state.stock, &is_newest.1),
        usages: records(state.usages),
        receipts: records(state.receipts),
        kit_lines: records(state.kit_lines),
        tasks: records(state.tasks),
        planned_rebuilds: at(state.planned_rebuilds, &planned_rebuilds),
        approvals: at(state.approvals, &approvals),
        machines: records(state.machines),
    }
}

fn records<R>(rows: Vec<Kept<R>>) -> Vec<R> {
    rows.into_iter().map(|row| row.record).collect()
}

/// The records of the rows that are marked.
fn those<R>(rows: Vec<Kept<R>>, marked: &[bool]) -> Vec<R> {
    let rows = rows.into_iter().zip(marked);
    rows.filter(|(_, marked)| **marked)
        .map(|(row, _)| row.record)
        .collect()
}

/// The records of the rows at these positions, which rise.
fn at<R>(rows: Vec<Kept<R>>, positions: &[usize]) -> Vec<R> {
    let mut positions = positions.iter().peekable();
    let rows = rows.into_iter().enumerate();
    rows.filter(|(at, _)| positions.next_if(|next| *next == at).is_some())
        .map(|(_, row)| row.record)
        .collect()
}

type Groups<R> = BTreeMap<String, Vec<Kept<R>>>;

fn grouped<R>(rows: Vec<Kept<R>>, key: fn(&Kept<R>) -> String) -> Groups<R> {
    let mut groups = Groups::new();
    for row in rows {
        groups.entry(key(&row)).or_default().push(row);
    }
    groups
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

/// Rule 6 within one import.
fn settle(rows: Vec<Kept<ReceiptRecord>>, packs: &OrderPacks) -> Vec<Kept<ReceiptRecord>> {
    let content = |record: &ReceiptRecord| {
        let mut record = record.clone();
        record.place = nowhere();
        // One list names the unit that another leaves out.
        record.counted_in = None;
        format!("{record:?}")
    };
    let mut rows: Vec<_> = told_once(&rows, content).into_iter().cloned().collect();
    let mut closing: HashMap<String, Vec<ReceiptRecord>> = HashMap::new();
    let is_over = |record: &ReceiptRecord| record.received.is_some() || record.is_closed;
    for row in rows.iter().filter(|row| is_over(&row.record)) {
        let entry = closing.entry(order_key(&row.record)).or_default();
        let mut of = row.record.clone();
        if let Some((came, open)) = of.quantity.zip(of.still_open) {
            // Another list has the order as it was placed, or what is left of it.
            for quantity in [came + open, open] {
                of.quantity = Some(quantity);
                entry.push(of.clone());
            }
        } else {
            entry.push(of);
        }
    }
    rows.retain(|row| {
        let order = &row.record;
        let mut closed = closing.get(&order_key(order)).into_iter().flatten();
        is_over(order)
            || !closed.any(|receipt| {
                receipt.place.file != order.place.file && packs.is_same_quantity(receipt, order)
            })
    });
    rows
}
