//! Free stock by part: what is on the shelf, fit for use, counted in one unit and not reserved.

mod expiring;

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::issue::PlanIssue;
use super::tolerance::TOLERANCE;
use crate::catalogue::{CataloguePart, PartId, ShelfLife, Shop, StockOf, last_day};
use crate::place::Place;
use crate::units::{UnitOfCount, without_rounding_residue};

pub use expiring::{drawn_by_row, lost_within};

/// One lot or bin with something free in it.
#[derive(Debug, Clone, PartialEq)]
pub struct FreeLot {
    /// The row.
    pub place: Place,
    /// Bin.
    pub bin: Option<String>,
    /// Lot.
    pub lot: Option<String>,
    /// Cure or pack date.
    pub cure_date: Option<NaiveDate>,
    /// Last day it may be fitted, where the row says it, or where the part has a shelf life and the lot a date.
    pub usable_until: Option<NaiveDate>,
    /// Free quantity, in the unit of the part's stock.
    pub free: f64,
}

/// Free stock of one part.
#[derive(Debug, Clone, PartialEq)]
pub struct PartStock {
    /// What is counted.
    pub unit: UnitOfCount,
    /// True where no table names a unit and pieces are assumed.
    pub is_unit_assumed: bool,
    /// True where a row gives no quantity that can be taken: nobody knows how many it holds, and 0 is planned with.
    pub has_unknown: bool,
    /// Lots, the one that ends first before the others, of those without an end the oldest; lots without a date last.
    pub lots: Vec<FreeLot>,
}

/// A lot past its shelf life, which is no stock.
#[derive(Debug, Clone, PartialEq)]
pub struct ExpiredLot {
    /// The part.
    pub part: PartId,
    /// The row.
    pub place: Place,
    /// Quantity, as counted.
    pub quantity: f64,
    /// Cure or pack date; `None` where the row says the last day alone.
    pub cure_date: Option<NaiveDate>,
    /// Last day it could be fitted.
    pub usable_until: NaiveDate,
}

/// Free stock of every part that has a stock row.
#[derive(Debug, Clone, Default)]
pub struct FreeStock {
    /// By part.
    pub by_part: BTreeMap<PartId, PartStock>,
    /// Lots past their shelf life.
    pub expired: Vec<ExpiredLot>,
}

/// Why a row is no lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum NoLot {
    /// It has nothing that may be fitted, or speaks of orders alone.
    Nothing,
    /// Nobody knows how many it has.
    Unknown,
}

impl FreeLot {
    /// True where it may still be fitted on a day.
    pub fn is_fit_on(&self, day: NaiveDate) -> bool {
        self.usable_until.is_none_or(|until| until >= day)
    }
}

impl PartStock {
    /// Everything free, in `unit`.
    ///
    /// Folded from 0, because the sum of no floats is -0, which prints as such.
    pub fn free(&self) -> f64 {
        self.lots
            .iter()
            .map(|lot| lot.free)
            .fold(0.0, |sum, quantity| sum + quantity)
    }
}

impl FreeStock {
    /// Adds up the stock rows; rows in units that must not be converted are left out and listed.
    pub fn new(shop: &Shop, issues: &mut Vec<PlanIssue>) -> Self {
        let mut rows: BTreeMap<PartId, Vec<&StockOf>> = BTreeMap::new();
        for row in &shop.stock {
            rows.entry(row.part).or_default().push(row);
        }
        issues.extend(counted_in_the_future(shop));
        let mut stock = Self::default();
        for (id, rows) in rows {
            let part = shop.catalogue.part(id);
            let unit = StockUnit::of(part, &rows);
            let mut lots = Vec::with_capacity(rows.len());
            let mut has_unknown = false;
            for row in rows {
                match stock.free_lot(shop, part, &unit, row, issues) {
                    Ok(lot) => lots.push(lot),
                    Err(why) => has_unknown |= why == NoLot::Unknown,
                }
            }
            lots.sort_by(|a, b| {
                // Of lots of one shelf life the oldest ends first.
                let key = |lot: &FreeLot| {
                    let (until, cured) = (lot.usable_until, lot.cure_date);
                    (until.is_none(), until, cured.is_none(), cured)
                };
                key(a).cmp(&key(b)).then_with(|| a.place.cmp(&b.place))
            });
            let part_stock = PartStock {
                unit: unit.unit,
                is_unit_assumed: unit.is_assumed,
                has_unknown,
                lots,
            };
            stock.by_part.insert(id, part_stock);
        }
        stock
    }

    fn free_lot(
        &mut self,
        shop: &Shop,
        part: &CataloguePart,
        unit: &StockUnit,
        row: &StockOf,
        issues: &mut Vec<PlanIssue>,
    ) -> Result<FreeLot, NoLot> {
        let record = &row.record;
        let place = || record.place.clone();
        let name = || part.number.clone();
        if record.is_blocked {
            return Err(NoLot::Nothing);
        }
        let factor = unit.factor(part, row, issues).ok_or(NoLot::Unknown)?;
        let Some(on_hand) = record.on_hand else {
            // A row of what is on order says nothing of the shelf.
            if record.on_order.is_some() {
                return Err(NoLot::Nothing);
            }
            issues.push(PlanIssue::NoQuantity {
                place: place(),
                part: name(),
            });
            return Err(NoLot::Unknown);
        };
        if on_hand < 0.0 {
            issues.push(PlanIssue::NegativeStock {
                place: place(),
                part: name(),
                found: on_hand,
            });
            return Err(NoLot::Unknown);
        }
        let life = ShelfLife::of(part, &shop.settings.planning);
        let cure_date = cured_before(shop.as_of.date(), part, row, issues);
        let usable_until = last_day(record.usable_until, life.as_ref(), cure_date);
        if let Some(until) = usable_until.filter(|until| *until < shop.as_of.date()) {
            self.expired.push(ExpiredLot {
                part: part.id,
                place: place(),
                quantity: on_hand,
                cure_date,
                usable_until: until,
            });
            return Err(NoLot::Nothing);
        }
        let has_date = record.cure_date.is_some() || usable_until.is_some();
        if part.shelf_life_months.is_some() && !has_date && on_hand > 0.0 {
            issues.push(PlanIssue::AgeUnknown {
                place: place(),
                part: name(),
            });
        }
        let reserved = record.reserved.unwrap_or(0.0).max(0.0);
        if reserved > on_hand {
            issues.push(PlanIssue::ReservedTooMuch {
                place: place(),
                part: name(),
                reserved,
                on_hand,
            });
        }
        let free = (on_hand - reserved).max(0.0) * factor;
        Ok(FreeLot {
            place: place(),
            bin: record.bin.clone(),
            lot: record.lot.clone(),
            cure_date,
            usable_until,
            free: whole_of(free, unit, row, part, issues),
        })
    }
}

/// What is free of pieces and sets: whole ones, told where a part of one is left; of lengths and of what no table counts in a
/// unit, all of it.
fn whole_of(
    free: f64,
    unit: &StockUnit,
    row: &StockOf,
    part: &CataloguePart,
    issues: &mut Vec<PlanIssue>,
) -> f64 {
    let is_counted = matches!(
        unit.unit,
        UnitOfCount::Piece | UnitOfCount::MatchedSet { .. }
    );
    let whole = (free + TOLERANCE).floor();
    if unit.is_assumed || !is_counted || free - whole <= TOLERANCE {
        return free;
    }
    issues.push(PlanIssue::PartOfAPiece {
        place: row.record.place.clone(),
        part: part.number.clone(),
        found: without_rounding_residue(free),
        unit: unit.unit,
        whole,
    });
    whole
}

/// The unit a part's stock is added up in, and the row that says so.
#[derive(Debug)]
pub struct StockUnit {
    /// The unit.
    pub unit: UnitOfCount,
    said_by: Option<Place>,
    is_assumed: bool,
}

impl StockUnit {
    /// The part's own unit, else that of the first row that names one, else pieces, assumed.
    pub fn of(part: &CataloguePart, rows: &[&StockOf]) -> Self {
        if let Some(unit) = part.unit_of_count {
            return Self {
                unit,
                said_by: part.places.first().cloned(),
                is_assumed: false,
            };
        }
        let first = rows
            .iter()
            .find_map(|row| Some((row.record.unit_of_count?, row.record.place.clone())));
        first.map_or(
            Self {
                unit: UnitOfCount::Piece,
                said_by: None,
                is_assumed: true,
            },
            |(unit, place)| Self {
                unit,
                said_by: Some(place),
                is_assumed: false,
            },
        )
    }

    /// Units of the stock in one unit of the row; `None`, with an issue, where they must not be converted.
    fn factor(
        &self,
        part: &CataloguePart,
        row: &StockOf,
        issues: &mut Vec<PlanIssue>,
    ) -> Option<f64> {
        let place = || row.record.place.clone();
        let Some(have) = row.record.unit_of_count else {
            if self.is_assumed {
                issues.push(PlanIssue::UnitAssumed {
                    place: place(),
                    part: part.number.clone(),
                });
            }
            return Some(1.0);
        };
        have.in_units_of(self.unit).map_or_else(
            |_| {
                issues.push(PlanIssue::UnitConflict {
                    place: place(),
                    other: self.said_by.clone().unwrap_or_else(place),
                    part: part.number.clone(),
                    have,
                    want: self.unit,
                });
                None
            },
            Some,
        )
    }
}

/// The day a lot was cured or packed; none, told, for a day to come, by which nobody knows its age.
fn cured_before(
    today: NaiveDate,
    part: &CataloguePart,
    row: &StockOf,
    issues: &mut Vec<PlanIssue>,
) -> Option<NaiveDate> {
    let date = row.record.cure_date?;
    if date <= today {
        return Some(date);
    }
    issues.push(PlanIssue::CuredInTheFuture {
        place: row.record.place.clone(),
        part: part.number.clone(),
        date,
    });
    None
}

/// Rows counted on a day to come: the first of each sheet, with how many there are.
fn counted_in_the_future(shop: &Shop) -> Vec<PlanIssue> {
    let today = shop.as_of.date();
    let mut sheets: BTreeMap<(&str, &str), (&Place, NaiveDate, usize)> = BTreeMap::new();
    for row in &shop.stock {
        let place = &row.record.place;
        if let Some(date) = row.record.counted_on.filter(|date| *date > today) {
            let sheet = (&*place.file, &*place.sheet);
            sheets.entry(sheet).or_insert((place, date, 0)).2 += 1;
        }
    }
    let told = sheets.into_values();
    told.map(|(place, date, count)| PlanIssue::CountedInTheFuture {
        place: place.clone(),
        date,
        count,
    })
    .collect()
}

#[cfg(test)]
mod tests;
