//! What changed from one snapshot to another, by part and supplier.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use serde::Serialize;

use super::error::StoreError;
use super::same::number as key;
use super::table::Table;
use super::workspace::Workspace;
use crate::record::{OfferRecord, PartRecord, QuotedLeadTime, Records, StockRecord};
use crate::units::grouped;

/// Kind of a change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ChangeKind {
    /// A part that was not there.
    NewPart,
    /// A part that is there no more.
    PartGone,
    /// A part whose row says something else.
    PartChanged,
    /// An offer that was not there.
    NewOffer,
    /// An offer that is there no more.
    OfferGone,
    /// Dearer.
    PriceUp,
    /// Cheaper.
    PriceDown,
    /// Another price that does not compare: other currency, unit, or missing on one side.
    PriceChanged,
    /// Later.
    LeadTimeLonger,
    /// Sooner.
    LeadTimeShorter,
    /// Another lead time that does not compare, such as days and a date.
    LeadTimeChanged,
    /// Other stock.
    StockChanged,
}

/// One change.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Change {
    /// Part as printed in the later snapshot, else in the earlier.
    pub part: String,
    /// Supplier, where an offer changed.
    pub supplier: Option<String>,
    /// Kind.
    pub kind: ChangeKind,
    /// Value before, in words.
    pub before: Option<String>,
    /// Value after, in words.
    pub after: Option<String>,
}

impl Workspace {
    /// Compares two snapshots.
    ///
    /// # Errors
    /// [`StoreError::NoSuchSnapshot`] where one is not kept.
    pub fn compare(&self, before: u32, after: u32) -> Result<Vec<Change>, StoreError> {
        Ok(changes(&self.records(before)?, &self.records(after)?))
    }
}

/// Every change from one set of records to another, by part and supplier.
pub fn changes(before: &Records, after: &Records) -> Vec<Change> {
    let mut changes = parts(before, after);
    changes.extend(offers(before, after));
    changes.extend(stock(before, after));
    changes.sort();
    changes
}

/// Keys of either side with what each side has there.
fn sides<'a, K: Ord + Clone, V>(
    before: &'a BTreeMap<K, V>,
    after: &'a BTreeMap<K, V>,
) -> impl Iterator<Item = (Option<&'a V>, Option<&'a V>)> {
    let keys: BTreeSet<&K> = before.keys().chain(after.keys()).collect();
    keys.into_iter()
        .map(|key| (before.get(key), after.get(key)))
}

fn parts(before: &Records, after: &Records) -> Vec<Change> {
    // Of several rows of one number the first by place stands for them.
    fn by_number(records: &Records) -> BTreeMap<String, &PartRecord> {
        let parts = records.parts.iter().rev();
        parts.map(|part| (key(&part.own_number), part)).collect()
    }
    let change = |kind, part: &PartRecord, before, after| Change {
        part: part.own_number.clone(),
        supplier: None,
        kind,
        before,
        after,
    };
    sides(&by_number(before), &by_number(after))
        .filter_map(|sides| match sides {
            (None, Some(part)) => Some(change(ChangeKind::NewPart, part, None, None)),
            (Some(part), None) => Some(change(ChangeKind::PartGone, part, None, None)),
            (Some(old), Some(new)) => {
                let (before, after) = differing(old, new)?;
                Some(change(
                    ChangeKind::PartChanged,
                    new,
                    Some(before),
                    Some(after),
                ))
            }
            (None, None) => None,
        })
        .collect()
}

/// Columns in which two rows of one part differ, with the values of each; `None` where they differ in place only.
fn differing(old: &PartRecord, new: &PartRecord) -> Option<(String, String)> {
    const OF_THE_PLACE: [&str; 3] = ["file", "sheet", "row"];
    if old == new {
        return None;
    }
    let table = |part: &PartRecord| Table::of(std::slice::from_ref(part));
    let (old, new) = (table(old), table(new));
    let words = |value: Option<String>| value.unwrap_or_else(|| "nothing".to_owned());
    let (mut before, mut after) = (Vec::new(), Vec::new());
    for ((name, old), (_, new)) in old.columns.iter().zip(&new.columns) {
        if !OF_THE_PLACE.contains(&name.as_str()) && old != new {
            before.push(format!("{name} {}", words(old.words(0))));
            after.push(format!("{name} {}", words(new.words(0))));
        }
    }
    (!before.is_empty()).then(|| (before.join(", "), after.join(", ")))
}

type OfferKey = (String, String, String);

/// What an offer is of: supplier, part, and what else tells offers of one supplier apart.
fn offer_key(offer: &OfferRecord) -> OfferKey {
    let which = format!("{:?}|{:?}", offer.condition, offer.minimum_quantity);
    (
        offer.supplier.trim().to_lowercase(),
        key(part_of(offer)),
        which,
    )
}

fn part_of(offer: &OfferRecord) -> &str {
    let numbers = [
        offer.own_number.as_deref(),
        offer.supplier_number.as_deref(),
        offer.designation.as_deref(),
        offer.description.as_deref(),
    ];
    numbers.into_iter().flatten().next().unwrap_or_default()
}

fn offers(before: &Records, after: &Records) -> Vec<Change> {
    // Of several rows with one key the first by place stands for them; the order of rows is that of places.
    fn by_key(records: &Records) -> BTreeMap<OfferKey, &OfferRecord> {
        records
            .offers
            .iter()
            .rev()
            .map(|offer| (offer_key(offer), offer))
            .collect()
    }
    let mut changes = Vec::new();
    for sides in sides(&by_key(before), &by_key(after)) {
        match sides {
            (None, Some(new)) => changes.push(offer_change(
                new,
                ChangeKind::NewOffer,
                None,
                price_words(new),
            )),
            (Some(old), None) => changes.push(offer_change(
                old,
                ChangeKind::OfferGone,
                price_words(old),
                None,
            )),
            (Some(old), Some(new)) => {
                if let Some(kind) = price_change(old, new) {
                    changes.push(offer_change(new, kind, price_words(old), price_words(new)));
                }
                if let Some(kind) = lead_time_change(old.lead_time, new.lead_time) {
                    let words = |offer: &OfferRecord| {
                        offer.lead_time.map(|lead_time| lead_time.to_string())
                    };
                    changes.push(offer_change(new, kind, words(old), words(new)));
                }
            }
            (None, None) => {}
        }
    }
    changes
}

fn offer_change(
    offer: &OfferRecord,
    kind: ChangeKind,
    before: Option<String>,
    after: Option<String>,
) -> Change {
    Change {
        part: part_of(offer).to_owned(),
        supplier: Some(offer.supplier.to_string()),
        kind,
        before,
        after,
    }
}

/// Whole amounts that are equal to one another: price times the other's number of units.
fn price_change(old: &OfferRecord, new: &OfferRecord) -> Option<ChangeKind> {
    if old.price == new.price && old.unit_of_count == new.unit_of_count {
        return None;
    }
    let (Some(a), Some(b)) = (old.price, new.price) else {
        return Some(ChangeKind::PriceChanged);
    };
    if a.currency != b.currency || old.unit_of_count != new.unit_of_count {
        return Some(ChangeKind::PriceChanged);
    }
    let a_times = i128::from(a.amount_cents_e2) * i128::from(b.per);
    let b_times = i128::from(b.amount_cents_e2) * i128::from(a.per);
    match b_times.cmp(&a_times) {
        std::cmp::Ordering::Greater => Some(ChangeKind::PriceUp),
        std::cmp::Ordering::Less => Some(ChangeKind::PriceDown),
        std::cmp::Ordering::Equal => None,
    }
}

fn price_words(offer: &OfferRecord) -> Option<String> {
    let price = offer.price?;
    let per = if price.per == 1 {
        String::new()
    } else {
        format!(" per {}", price.per)
    };
    // Whole cents where it is some, as money is written; a price by the hundred may be finer.
    let decimals = if price.amount_cents_e2 % 100 == 0 {
        2
    } else {
        4
    };
    let amount = price.amount_cents_e2 as f64 / 10_000.0;
    let words = grouped(amount, decimals, decimals);
    Some(format!("{words} {}{per}", price.currency))
}

fn lead_time_change(
    old: Option<QuotedLeadTime>,
    new: Option<QuotedLeadTime>,
) -> Option<ChangeKind> {
    use QuotedLeadTime as Q;
    if old == new {
        return None;
    }
    let order = match (old, new) {
        (Some(Q::InStock), Some(Q::Span { .. })) => Some(std::cmp::Ordering::Greater),
        (Some(Q::Span { .. }), Some(Q::InStock)) => Some(std::cmp::Ordering::Less),
        (Some(Q::By(a)), Some(Q::By(b))) => Some(b.cmp(&a)),
        (
            Some(Q::Span {
                most: a,
                unit,
                least,
            }),
            Some(Q::Span {
                most: b,
                unit: other,
                least: new_least,
            }),
        ) if unit == other => Some(b.total_cmp(&a).then(new_least.total_cmp(&least))),
        _ => None,
    };
    match order {
        Some(std::cmp::Ordering::Greater) => Some(ChangeKind::LeadTimeLonger),
        Some(std::cmp::Ordering::Less) => Some(ChangeKind::LeadTimeShorter),
        Some(std::cmp::Ordering::Equal) => None,
        None => Some(ChangeKind::LeadTimeChanged),
    }
}

/// Stock of one part in all bins, by unit of count.
#[derive(Debug, Default, PartialEq)]
struct OnHand {
    part: String,
    by_unit: BTreeMap<String, Option<f64>>,
}

fn stock(before: &Records, after: &Records) -> Vec<Change> {
    let (before, after) = (on_hand(&before.stock), on_hand(&after.stock));
    let nothing = OnHand::default();
    let changed = sides(&before, &after)
        .filter(|(old, new)| old.map(|old| &old.by_unit) != new.map(|new| &new.by_unit));
    changed
        .map(|(old, new)| Change {
            part: new.or(old).unwrap_or(&nothing).part.clone(),
            supplier: None,
            kind: ChangeKind::StockChanged,
            before: old.map(ToString::to_string),
            after: new.map(ToString::to_string),
        })
        .collect()
}

fn on_hand(stock: &[StockRecord]) -> BTreeMap<String, OnHand> {
    let mut all: BTreeMap<String, OnHand> = BTreeMap::new();
    for row in stock {
        let entry = all.entry(key(&row.part)).or_default();
        entry.part.clone_from(&row.part);
        let unit = row
            .unit_of_count
            .map_or_else(|| "of unknown unit".to_owned(), |unit| unit.to_string());
        let sum = entry.by_unit.entry(unit).or_insert(Some(0.0));
        // One bin that does not say leaves the sum unknown.
        *sum = sum.zip(row.on_hand).map(|(sum, on_hand)| sum + on_hand);
    }
    all
}

impl fmt::Display for OnHand {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words = self.by_unit.iter().map(|(unit, sum)| match sum {
            Some(sum) => format!("{sum} {unit}"),
            None => format!("unknown {unit}"),
        });
        f.write_str(&words.collect::<Vec<_>>().join(", "))
    }
}

impl ChangeKind {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::NewPart => "new part",
            Self::PartGone => "part gone",
            Self::PartChanged => "part changed",
            Self::NewOffer => "new offer",
            Self::OfferGone => "offer gone",
            Self::PriceUp => "price up",
            Self::PriceDown => "price down",
            Self::PriceChanged => "price changed",
            Self::LeadTimeLonger => "lead time longer",
            Self::LeadTimeShorter => "lead time shorter",
            Self::LeadTimeChanged => "lead time changed",
            Self::StockChanged => "stock changed",
        }
    }
}
