//! Usages, orders and stock, counted in the unit of their part whatever their own rows count in.

use std::collections::{BTreeMap, BTreeSet};

use super::part::{CataloguePart, PartId};
use super::shop::{OfferOf, StockOf, Unresolved};
use crate::place::Place;
use crate::record::{CountedIn, ReceiptRecord, StockRecord, UsageRecord};
use crate::units::UnitOfCount;

/// What parts are counted and packed in.
pub(super) struct Counts {
    /// Unit of the first stock row that names one.
    stock: BTreeMap<PartId, UnitOfCount>,
    /// Pieces in the packs that offers name.
    packs: BTreeMap<PartId, BTreeSet<u32>>,
}

impl Counts {
    /// Looks up what the rows ask for: most lists leave units out, and most of the others name them whole.
    pub(super) fn new(
        stock: &[StockOf],
        offers: &[OfferOf],
        (usages, receipts): (&[UsageRecord], &[ReceiptRecord]),
    ) -> Self {
        let of_usages = usages.iter().filter_map(|usage| usage.counted_in);
        let of_receipts = receipts.iter().filter_map(|receipt| receipt.counted_in);
        let is_in_packs = |row: &StockOf| row.record.is_in_packs;
        let of_stock = stock.iter().any(is_in_packs).then_some(CountedIn::Pack);
        let asked = of_stock.into_iter().chain(of_usages).chain(of_receipts);
        let mut asked = asked.peekable();
        let stock = if asked.peek().is_some() { stock } else { &[] };
        let has_packs = asked.any(|unit| unit == CountedIn::Pack);
        let offers = if has_packs { offers } else { &[] };
        let mut units = BTreeMap::new();
        for row in stock {
            if let Some(unit) = row.record.unit_of_count {
                units.entry(row.part).or_insert(unit);
            }
        }
        let mut packs: BTreeMap<PartId, BTreeSet<u32>> = BTreeMap::new();
        for offer in offers {
            if let Some(pieces) = offer.record.pieces_in_pack() {
                packs.entry(offer.part).or_default().insert(pieces);
            }
        }
        Self {
            stock: units,
            packs,
        }
    }

    /// Puts a quantity into the unit of its part; what is told where nobody knows how.
    pub(super) fn convert(
        &self,
        (id, part): (PartId, &CataloguePart),
        (quantity, counted_in): (&mut f64, &mut Option<CountedIn>),
        place: &Place,
    ) -> Result<(), Unresolved> {
        let Some(have) = *counted_in else {
            return Ok(());
        };
        let own = part.unit_of_count.or_else(|| self.stock.get(&id).copied());
        let want = own.unwrap_or(UnitOfCount::Piece);
        let factor = self.unit_of(id, part, have, want).and_then(|unit| {
            let factor = unit.in_units_of(want);
            factor.map_err(|error| error.to_string())
        });
        match factor {
            Ok(factor) => {
                *quantity *= factor;
                *counted_in = Some(CountedIn::Unit(want));
                Ok(())
            }
            Err(why) => {
                let number = &part.number;
                let why = match (own, have) {
                    (None, CountedIn::Unit(unit)) => {
                        format!("it is in {unit}, and no table says what `{number}` is counted in")
                    }
                    _ => why,
                };
                Err(Unresolved {
                    place: place.clone(),
                    reason: format!("the quantity {quantity} is not counted: {why}"),
                })
            }
        }
    }

    /// Opens the packs of a row of stock that does not say how many they hold; says how many were taken, or that nobody
    /// knows.
    pub(super) fn open_packs(
        &self,
        (id, part): (PartId, &CataloguePart),
        record: &mut StockRecord,
    ) -> Unresolved {
        let own = part.unit_of_count.or_else(|| self.stock.get(&id).copied());
        let want = own.unwrap_or(UnitOfCount::Piece);
        let opened = self
            .unit_of(id, part, CountedIn::Pack, want)
            .and_then(|unit| {
                let factor = unit.in_units_of(want).map_err(|error| error.to_string());
                factor.map(|factor| (unit, factor))
            });
        let quantities = [
            &mut record.on_hand,
            &mut record.reserved,
            &mut record.on_order,
        ];
        record.is_in_packs = false;
        let number = &part.number;
        let reason = match opened {
            Ok((unit, factor)) => {
                for quantity in quantities.into_iter().flatten() {
                    *quantity *= factor;
                }
                record.unit_of_count = Some(want);
                format!(
                    "packs of a size that the row does not say are taken as `{unit}`, the only one that is known of `{number}`"
                )
            }
            Err(why) => {
                for quantity in quantities {
                    *quantity = None;
                }
                format!(
                    "the stock in packs is not counted: {why}; write the pieces, or the size as in `pack of 10`"
                )
            }
        };
        Unresolved {
            place: record.place.clone(),
            reason,
        }
    }

    /// The unit that a row counts in; for a pack that of the part's offers, where all of them agree.
    fn unit_of(
        &self,
        id: PartId,
        part: &CataloguePart,
        have: CountedIn,
        want: UnitOfCount,
    ) -> Result<UnitOfCount, String> {
        let number = &part.number;
        match (have, want) {
            (CountedIn::Unit(unit), _) => Ok(unit),
            (CountedIn::Pack, UnitOfCount::Pack { .. }) => Ok(want),
            (CountedIn::Pack, _) => {
                let packs = self.packs.get(&id).into_iter().flatten();
                let packs: Vec<u32> = packs.copied().collect();
                match packs.as_slice() {
                    [pieces] => Ok(UnitOfCount::Pack { pieces: *pieces }),
                    [] => Err(format!(
                        "no offer of `{number}` says how many are in a pack"
                    )),
                    [first, second, ..] => Err(format!(
                        "offers of `{number}` have packs of {first} and of {second}"
                    )),
                }
            }
        }
    }
}
