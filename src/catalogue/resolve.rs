//! Resolves every record to a part of the catalogue, and lists what cannot be resolved.

use std::collections::BTreeSet;

use chrono::NaiveDateTime;

use super::counted::Counts;
use super::index::Catalogue;
use super::kits::Kits;
use super::merge::Merge;
use super::odd_offers;
use super::own_numbering::OwnNumbering;
use super::part::PartId;
use super::presumption::presume;
use super::price_ladder;
use super::shop::{OfferOf, ReceiptOf, Shop, StockOf, Unresolved, UsageOf};
use super::spelling;
use super::told_twice::by_name;
use crate::place::Place;
use crate::record::{
    ApprovalRecord, OfferList, OtherWay, ReceiptRecord, Records, ShopSettings, StockRecord,
    UsageRecord,
};

impl Shop {
    /// Merges records into a catalogue and resolves each row to its part.
    ///
    /// Rows that name a part, kit or line that no table knows are listed in [`Shop::unresolved`].
    pub fn new(mut records: Records, settings: ShopSettings, as_of: NaiveDateTime) -> Self {
        let mut resolving = Resolving::default();
        for part in std::mem::take(&mut records.parts) {
            resolving.merge.add_part(part);
        }
        resolving.merge.index_other_names();
        for stock in &records.stock {
            resolving.merge.add_stocked(stock);
        }
        // Offers, kit lines and stock may make parts, in this order; the other rows only find them.
        let mut offers = resolving.offers(records.offers);
        let mut kits = Kits::default();
        for line in records.kit_lines {
            let part = resolving.merge.part_of_line(&line);
            if let Some(name) = line.part.as_ref().filter(|_| part.is_none()) {
                resolving.no_such_part(&line.place, name);
            }
            resolving.unresolved.extend(kits.add_line(line, part).err());
        }
        let mut stock = resolving.stock(records.stock);
        let counts = Counts::new(&stock, &offers, (&records.usages, &records.receipts));
        resolving.open_packs(&mut stock, &counts);
        let usages = resolving.usages(records.usages, &counts);
        let mut receipts = resolving.receipts(records.receipts, &counts);
        for task in records.tasks {
            resolving.unresolved.extend(kits.add_task(task).err());
        }
        for planned in records.planned_rebuilds {
            resolving.unresolved.extend(kits.add_planned(planned).err());
        }
        resolving.approvals(records.approvals, &mut kits);
        let other_ways = resolving.other_ways(records.other_ways, &mut kits);
        for kit in &mut kits.list {
            kit.planned.sort_by_key(|planned| planned.date);
        }
        let Resolving {
            mut merge,
            mut unresolved,
            notes,
        } = resolving;
        unresolved.append(&mut merge.conflicts);
        let suppliers = by_name(records.suppliers, &mut unresolved);
        let machines = by_name(records.machines, &mut unresolved);
        spelling::settle(&suppliers, &mut offers, &mut receipts);
        unresolved.sort_by(|a, b| a.place.cmp(&b.place));
        let mut shop = Self {
            settings,
            as_of,
            catalogue: Catalogue::new(merge.into_parts()),
            suppliers,
            offers,
            stock,
            usages,
            receipts,
            kits: kits.list,
            machines,
            other_ways,
            unresolved,
            notes,
            presumed: Vec::new(),
            not_approved: BTreeSet::new(),
        };
        presume(&mut shop);
        shop
    }
}

/// Parts so far, and rows that found none.
#[derive(Default)]
struct Resolving {
    merge: Merge,
    unresolved: Vec<Unresolved>,
    notes: Vec<Unresolved>,
}

impl Resolving {
    fn find(&self, name: &str) -> Option<PartId> {
        (self.merge.find(name)).map(|position| PartId(position as u32))
    }

    fn no_such_part(&mut self, place: &Place, part: &str) {
        self.unresolved.push(Unresolved {
            place: place.clone(),
            reason: self.merge.why_not_found(part),
        });
    }

    fn offers(&mut self, records: OfferList) -> Vec<OfferOf> {
        let numbering = OwnNumbering::of(&records, &self.merge);
        for (is_settled, told) in numbering.told() {
            match is_settled {
                true => self.notes.push(told),
                false => self.unresolved.push(told),
            }
        }
        let mut offers = Vec::with_capacity(records.len());
        for mut record in records {
            numbering.settle(&mut record, &self.merge);
            match self.merge.part_of_offer(&record) {
                Ok(part) => {
                    let told = odd_offers::whole_quantities(&mut record, self.merge.part(part));
                    self.unresolved.extend(told);
                    offers.push(OfferOf { part, record });
                }
                Err(problem) => self.unresolved.push(problem),
            }
        }
        let mut offers = price_ladder::join(offers);
        let told = offers.iter_mut().filter_map(odd_offers::falling_breaks);
        self.unresolved.extend(told);
        offers
    }

    fn stock(&mut self, records: Vec<StockRecord>) -> Vec<StockOf> {
        let mut stock = Vec::with_capacity(records.len());
        for record in records {
            match self.merge.part_of_stock(&record) {
                Some(part) => stock.push(StockOf { part, record }),
                None => self.no_such_part(&record.place, &record.part),
            }
        }
        stock
    }

    /// Opens packs of stock whose size the offers of their part say.
    fn open_packs(&mut self, stock: &mut [StockOf], counts: &Counts) {
        for row in stock.iter_mut().filter(|row| row.record.is_in_packs) {
            let part = (row.part, self.merge.part(row.part));
            let told = counts.open_packs(part, &mut row.record);
            self.unresolved.push(told);
        }
    }

    /// Usages in the units of their parts, oldest first; one that nobody can count is told and left out.
    fn usages(&mut self, records: Vec<UsageRecord>, counts: &Counts) -> Vec<UsageOf> {
        let mut usages = Vec::with_capacity(records.len());
        for mut record in records {
            let Some(part) = self.find(&record.part) else {
                self.no_such_part(&record.place, &record.part);
                continue;
            };
            let quantity = (&mut record.quantity, &mut record.counted_in);
            let told = counts.convert((part, self.merge.part(part)), quantity, &record.place);
            match told {
                Ok(()) => usages.push(UsageOf { part, record }),
                Err(problem) => self.unresolved.push(problem),
            }
        }
        // Stable, and beside the list only the days: a million usages are not copied.
        usages.sort_by_cached_key(|usage| usage.record.date);
        usages
    }

    /// Receipts in the units of their parts, oldest order first; a quantity that nobody can count is told and unknown.
    fn receipts(&mut self, records: Vec<ReceiptRecord>, counts: &Counts) -> Vec<ReceiptOf> {
        let mut receipts = Vec::with_capacity(records.len());
        for mut record in records.into_iter().flat_map(deliveries) {
            let known = self.merge.find_at(&record.supplier, &record.part);
            let part = known.map(|position| PartId(position as u32));
            if part.is_none() && record.received.is_none() {
                // What is on its way would be ordered again.
                self.no_such_part(&record.place, &record.part);
            }
            if let Some((id, quantity)) = part.zip(record.quantity.as_mut()) {
                let quantity = (quantity, &mut record.counted_in);
                let of = (id, self.merge.part(id));
                if let Err(problem) = counts.convert(of, quantity, &record.place) {
                    self.unresolved.push(problem);
                    record.quantity = None;
                }
            }
            receipts.push(ReceiptOf { part, record });
        }
        receipts.sort_by_cached_key(|receipt| receipt.record.ordered);
        receipts
    }

    fn approvals(&mut self, records: Vec<ApprovalRecord>, kits: &mut Kits) {
        for approval in records {
            let substitute = self.find(&approval.substitute);
            if substitute.is_none() {
                self.no_such_part(&approval.place, &approval.substitute);
            }
            (self.unresolved).extend(kits.add_approval(substitute, approval).err());
        }
    }

    /// Ways that hold for a part wherever it is used; those of one line go to it.
    fn other_ways(&mut self, records: Vec<OtherWay>, kits: &mut Kits) -> Vec<(PartId, OtherWay)> {
        let mut other_ways = Vec::new();
        for way in records {
            let part = self.find(&way.part);
            match (kits.add_other_way(&way, part), part) {
                (Ok(true), _) => {}
                (Ok(false), Some(part)) => other_ways.push((part, way)),
                (Ok(false), None) => self.no_such_part(&way.place, &way.part),
                (Err(problem), _) => self.unresolved.push(problem),
            }
        }
        other_ways
    }
}

/// What was ordered in one row: a part delivery with its rest, which is an order that is still open; nothing of an order
/// that was cancelled or closed, and of which no day of receipt is known.
fn deliveries(mut record: ReceiptRecord) -> impl Iterator<Item = ReceiptRecord> {
    let rest = record.still_open.take().map(|open| ReceiptRecord {
        received: None,
        quantity: Some(open),
        ..record.clone()
    });
    let is_over = record.is_closed && record.received.is_none();
    let came = (!is_over).then_some(record);
    [came, rest].into_iter().flatten()
}
