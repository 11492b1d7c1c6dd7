//! Makes the body of a card index from a shop.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::card::{BreakLine, Card, OfferLine, StockLine};
use super::code::Out;
use super::entry::{Entry, envelope_sum};
use super::names::{Kind, sum};
use super::{DRAWERS, ENVELOPES, GRIDS, NAMES, SECTIONS, SIZES, SUPPLIERS, grid};
use crate::catalogue::part::{CataloguePart, PartId};
use crate::catalogue::shelf_life::{ShelfLife, last_day};
use crate::catalogue::shop::{OfferOf, Shop};
use crate::part::{Family, NameKey, PartClass, SizeKey};
use crate::record::SupplierRecord;
use crate::standard;
use crate::units::Price;

/// The body of the index of a shop.
pub(super) fn body(shop: &Shop) -> Vec<u8> {
    let sizes: Vec<SizeKey> = shop.catalogue.sizes().map(|(size, _)| *size).collect();
    let mut rows = Rows::new(shop);
    let mut filing = Filing::default();
    for (at, (size, parts)) in shop.catalogue.sizes().enumerate() {
        let is_own = !is_in_tables(size) && !is_fit_of_last(at, &sizes);
        filing.add_drawer(&mut rows, Some(size), is_own, parts);
    }
    for part in shop
        .catalogue
        .parts()
        .iter()
        .filter(|part| part.size.is_none())
    {
        filing.add_drawer(&mut rows, None, false, &[part.id]);
    }
    let mut sections: [Vec<u8>; SECTIONS] = Default::default();
    sections[SIZES] = std::mem::take(&mut filing.entries);
    sections[ENVELOPES] = envelopes(&sizes);
    sections[NAMES] = filing.names();
    sections[SUPPLIERS] = rows.suppliers();
    sections[DRAWERS] = filing.drawers;
    let places = 16 * SECTIONS as u64;
    sections[GRIDS] = grid::encode(&sizes, places + sections[SIZES].len() as u64);
    let mut body =
        Vec::with_capacity(places as usize + sections.iter().map(Vec::len).sum::<usize>());
    let mut start = places;
    for section in &sections {
        body.extend(start.to_le_bytes());
        body.extend((section.len() as u64).to_le_bytes());
        start += section.len() as u64;
    }
    for mut section in sections {
        body.append(&mut section);
    }
    body
}

/// True where a standard table has the size, whatever its fit.
fn is_in_tables(size: &SizeKey) -> bool {
    let same = |other: &SizeKey| {
        other.dimensions().eq(size.dimensions()) && other.family() == size.family()
    };
    if !standard::of_size(size).is_empty() {
        return true;
    }
    let lengths: Vec<_> = size.dimensions().map(|(_, length)| length).collect();
    let parts = standard::parts();
    // The size without a fit comes before those with one.
    SizeKey::new(size.family(), &lengths).is_ok_and(|bare| {
        let at = parts.partition_point(|part| part.size < bare);
        parts.get(at).is_some_and(|part| same(&part.size))
    })
}

/// True where the size before differs in its fit only.
fn is_fit_of_last(at: usize, sizes: &[SizeKey]) -> bool {
    let before = at.checked_sub(1).map(|before| &sizes[before]);
    before.is_some_and(|before| {
        before.family() == sizes[at].family() && before.dimensions().eq(sizes[at].dimensions())
    })
}

fn envelopes(sizes: &[SizeKey]) -> Vec<u8> {
    let sums = sizes
        .iter()
        .enumerate()
        .filter_map(|(at, size)| Some((envelope_sum(size)?, at as u32)));
    let mut sums: Vec<(u64, u32)> = sums.collect();
    sums.sort_unstable();
    let mut bytes = Vec::with_capacity(sums.len() * super::ENVELOPE as usize);
    for (sum, at) in sums {
        bytes.extend(sum.to_le_bytes());
        bytes.extend(at.to_le_bytes());
    }
    bytes
}

/// A shop's stock and offers by part.
struct Rows<'a> {
    shop: &'a Shop,
    /// Positions of stock rows, by part.
    stock: ByPart,
    /// Positions of offers, by part.
    offers: ByPart,
    /// Suppliers that print a size in their own words.
    printed_by: HashMap<SizeKey, BTreeSet<&'a str>>,
    supplier_numbers: HashMap<&'a str, u32>,
    supplier_names: Vec<&'a str>,
    /// What a table says of each of them, in the order of their names.
    suppliers: Vec<Option<&'a SupplierRecord>>,
}

/// Positions of rows by part: those of part n stand from `starts[n]` to `starts[n + 1]`.
struct ByPart {
    starts: Vec<u32>,
    positions: Vec<u32>,
}

impl ByPart {
    fn new(count: usize, parts: impl Iterator<Item = PartId>) -> Self {
        let mut pairs: Vec<(u32, u32)> = parts
            .enumerate()
            .map(|(at, part)| (part.0, at as u32))
            .collect();
        pairs.sort_unstable();
        let mut at = 0;
        let starts = (0..=count as u32).map(|part| {
            at += pairs[at..].partition_point(|pair| pair.0 < part);
            at as u32
        });
        Self {
            starts: starts.collect(),
            positions: pairs.iter().map(|pair| pair.1).collect(),
        }
    }

    fn of(&self, part: PartId) -> &[u32] {
        let at = part.0 as usize;
        &self.positions[self.starts[at] as usize..self.starts[at + 1] as usize]
    }
}

impl<'a> Rows<'a> {
    fn new(shop: &'a Shop) -> Self {
        let count = shop.catalogue.parts().len();
        let mut rows = Self {
            shop,
            stock: ByPart::new(count, shop.stock.iter().map(|stock| stock.part)),
            offers: ByPart::new(count, shop.offers.iter().map(|offer| offer.part)),
            printed_by: HashMap::new(),
            supplier_numbers: HashMap::new(),
            supplier_names: Vec::new(),
            suppliers: Vec::new(),
        };
        for offer in &shop.offers {
            let supplier = &*offer.record.supplier;
            let next = rows.supplier_names.len() as u32;
            if *rows.supplier_numbers.entry(supplier).or_insert(next) == next {
                rows.supplier_names.push(supplier);
                let key = NameKey::new(supplier);
                rows.suppliers.push(shop.suppliers.get(key.as_str()));
            }
            if let Some(size) = offer.record.size.filter(|size| prints(offer, size)) {
                rows.printed_by.entry(size).or_default().insert(supplier);
            }
        }
        rows
    }

    fn card(&self, part: &CataloguePart) -> Card {
        let rows = self.stock.of(part.id).iter();
        let records = rows.map(|at| &self.shop.stock[*at as usize].record);
        let life = ShelfLife::of(part, &self.shop.settings.planning);
        let today = self.shop.as_of.date();
        // What is blocked is nothing to take from.
        let stock = records
            .filter(|record| !record.is_blocked)
            .map(|record| StockLine {
                bin: record.bin.clone(),
                free: record
                    .on_hand
                    .map(|on_hand| on_hand - record.reserved.unwrap_or(0.0)),
                unit_of_count: record.unit_of_count.map(|unit| unit.to_string()),
                usable_until: last_day(
                    record.usable_until,
                    life.as_ref(),
                    record.cure_date.filter(|cured| *cured <= today),
                ),
            });
        let class = part.family.map_or(PartClass::Other, Family::class);
        let mut offers: Vec<OfferLine> = (self.offers.of(part.id).iter())
            .map(|at| self.offer(*at as usize, class))
            .collect();
        // What a person has to clear first comes last.
        offers.sort_by_key(OfferLine::is_in_question);
        Card {
            number: part.number.clone(),
            designation: part.designation.clone(),
            description: part.description.clone(),
            aliases: part.aliases.clone(),
            stock: stock.collect(),
            offers,
        }
    }

    fn offer(&self, at: usize, class: PartClass) -> OfferLine {
        let record = &self.shop.offers[at].record;
        let number = self.supplier_numbers.get(&*record.supplier);
        let supplier = number.and_then(|at| self.suppliers[*at as usize]);
        // To the hundredth of a cent, as prices are kept.
        let unit_price = |price: Price| (price.unit_price() * 1e4).round() / 1e4;
        OfferLine {
            supplier: record.supplier.to_string(),
            supplier_number: record.supplier_number.clone(),
            unit_price: record.price.map(unit_price),
            currency: record.price.map(|price| price.currency.to_string()),
            breaks: record
                .breaks
                .iter()
                .map(|of| BreakLine {
                    from_quantity: of.from_quantity,
                    unit_price: unit_price(of.price),
                })
                .collect(),
            minimum_quantity: record.minimum_quantity,
            pack_quantity: record.pack_quantity,
            lead_time: record
                .lead_time
                .map_or_else(|| "unknown".to_owned(), |lead_time| lead_time.to_string()),
            quote_date: record.quote_date,
            valid_until: record.valid_until,
            condition: record.condition,
            is_approved: supplier.and_then(|supplier| supplier.is_approved_for(class)),
        }
    }

    /// Count, places and texts of the suppliers' names.
    fn suppliers(&self) -> Vec<u8> {
        let names = &self.supplier_names;
        let mut bytes = Vec::new();
        bytes.extend((names.len() as u32).to_le_bytes());
        let mut place = 0u32;
        bytes.extend(place.to_le_bytes());
        for name in names {
            place += name.len() as u32;
            bytes.extend(place.to_le_bytes());
        }
        names.iter().for_each(|name| bytes.extend(name.bytes()));
        bytes
    }
}

/// True where the offer's own text holds every length of the size: a number looked up here would prove nothing.
fn prints(offer: &OfferOf, size: &SizeKey) -> bool {
    let record = &offer.record;
    let text = [record.designation.as_deref(), record.description.as_deref()]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join(" ")
        .replace(',', ".");
    let numbers: Vec<&str> = text
        .split(|c: char| !c.is_ascii_digit() && c != '.')
        .filter(|piece| !piece.is_empty())
        .collect();
    size.dimensions().all(|(_, length)| {
        let wanted = format!("{length:#}");
        numbers.iter().any(|number| *number == wanted)
    })
}

/// Entries, names and drawers while parts are filed.
#[derive(Default)]
struct Filing {
    entries: Vec<u8>,
    count: u32,
    /// Sum, kind, part, size and card.
    names: Vec<(u64, Kind, u32, u32, u32)>,
    drawers: Vec<u8>,
}

impl Filing {
    fn add_drawer(
        &mut self,
        rows: &mut Rows<'_>,
        size: Option<&SizeKey>,
        is_own: bool,
        parts: &[PartId],
    ) {
        // Parts that agree in all that the rules look at, by the bytes of what they agree in.
        let mut alike: BTreeMap<Vec<u8>, Vec<(PartId, Card)>> = BTreeMap::new();
        for id in parts {
            let part = rows.shop.catalogue.part(*id);
            alike
                .entry(kind_of(part))
                .or_default()
                .push((*id, rows.card(part)));
        }
        let printed_by: Vec<String> = size
            .and_then(|size| rows.printed_by.get(size))
            .into_iter()
            .flatten()
            .map(|name| (*name).to_owned())
            .collect();
        let mut head = Out::default();
        head.texts(&printed_by);
        head.count(alike.len());
        let (mut places, mut cards, mut at) = (0u32.to_le_bytes().to_vec(), Out::default(), 0u32);
        for (kind, mut of_kind) in alike {
            of_kind.sort_by_cached_key(|(id, card)| {
                (!card.is_in_stock(), card.offers.is_empty(), *id)
            });
            let is_in_stock = of_kind.iter().any(|(_, card)| card.is_in_stock());
            let is_on_offer = of_kind.iter().any(|(_, card)| !card.offers.is_empty());
            head.0.extend(kind);
            head.byte(u8::from(is_in_stock) | u8::from(is_on_offer) << 1);
            head.0.extend(at.to_le_bytes());
            head.0.extend((of_kind.len() as u32).to_le_bytes());
            for (id, card) in &of_kind {
                card.write(
                    |name| rows.supplier_numbers.get(name).copied().unwrap_or(0),
                    &mut cards,
                );
                places.extend((cards.0.len() as u32).to_le_bytes());
                self.add_names(*id, card, at);
                at += 1;
            }
        }
        let mut entry = Entry::new(size, is_own);
        entry.set_drawer(at, self.drawers.len() as u64, head.0.len() as u32);
        self.entries.extend(entry.0);
        self.count += 1;
        for mut bytes in [head.0, places, cards.0] {
            self.drawers.append(&mut bytes);
        }
    }

    fn add_names(&mut self, id: PartId, card: &Card, at: u32) {
        let of = |kind: Kind, name: &String| Some((sum(name)?, kind, id.0, self.count, at));
        let offers = card.offers.iter();
        let supplier_numbers = offers.filter_map(|offer| offer.supplier_number.as_ref());
        let names = [of(Kind::Number, &card.number)]
            .into_iter()
            .chain(
                card.designation
                    .iter()
                    .map(|name| of(Kind::Designation, name)),
            )
            .chain(card.aliases.iter().map(|name| of(Kind::Alias, name)))
            .chain(supplier_numbers.map(|name| of(Kind::SupplierNumber, name)));
        let names: Vec<_> = names.flatten().collect();
        self.names.extend(names);
    }

    /// Names by sum; of one sum those of the kind that goes first, then of the first part.
    fn names(&mut self) -> Vec<u8> {
        self.names.sort_unstable();
        let mut bytes = Vec::with_capacity(self.names.len() * super::names::NAME as usize);
        for (sum, kind, _, size, card) in std::mem::take(&mut self.names) {
            bytes.extend(sum.to_le_bytes());
            bytes.extend(size.to_le_bytes());
            bytes.extend(card.to_le_bytes());
            bytes.push(kind as u8);
        }
        bytes
    }
}

/// The bytes of what the rules of exchange look at, besides size.
fn kind_of(part: &CataloguePart) -> Vec<u8> {
    let mut out = Out::default();
    out.family(part.family.or(part.size.map(|size| size.family())));
    out.traits(&part.traits);
    out.ratings(part.ratings.as_ref());
    out.maybe_number(part.speed_limit_rpm);
    let is_odd = !part.traits.unknown_suffixes.is_empty();
    out.maybe_text(is_odd.then(|| part.label()).as_deref());
    let rows = part.size.as_ref().map_or(&[][..], standard::of_size);
    let row = part
        .standard_row()
        .and_then(|row| rows.iter().position(|one| std::ptr::eq(one, row)));
    out.byte(row.map_or(0, |row| row as u8 + 1));
    out.0
}
