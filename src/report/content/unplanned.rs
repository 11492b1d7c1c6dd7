//! What could not be planned, and what to give first: lead times, offers, days of records.

use std::collections::{BTreeMap, BTreeSet};

use super::Inputs;
use super::words::{designation, line_name, number, way};
use crate::catalogue::PartId;
use crate::place::Place;
use crate::plan::{RebuildNeed, WhyNoChoice, WhyNoLevel, WhyUnusable};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};
use crate::units::without_rounding_residue;

/// Key of this sheet.
pub const KEY: &str = "not_planned";

/// The sheet: needs without a source, and parts whose level is not known.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let shop = inputs.shop;
    let mut sheet = Sheet::new(
        KEY,
        "Not planned, and why",
        "What is missing before these can be planned?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("about", "About"),
        Column::text("number", "Part"),
        Column::text("designation", "Designation").wrapped(28),
        Column::new(ColumnKind::Quantity, "wanted", "Wanted"),
        Column::text("why", "Why").wrapped(60),
        Column::text("where", "Where").wrapped(44),
    ];
    let behind = Behind::new(inputs);
    for not in &inputs.plan.reorder.not_ordered {
        let need = not.need.and_then(|need| inputs.plan.needs.get(need));
        let place = need.map(|need| line_name(&shop.kits[need.kit].lines[need.line]));
        let row = vec![
            Value::text(match (need, not.why) {
                (Some(_), _) => "needed for a planned rebuild",
                (None, WhyNoChoice::AfterService | WhyNoChoice::SavesTooLittle) => "last buy",
                (None, _) => "at its reorder point",
            }),
            not.part
                .map_or(Value::Empty, |part| Value::text(number(shop, part))),
            not.part
                .map_or(Value::Empty, |part| designation(shop, part)),
            Value::Number(not.wanted),
            Value::text(format!(
                "{}{}{}",
                not.why,
                behind.of_need(not.part, need, not.why),
                other_ways(inputs, need)
            )),
            place.map_or(Value::Empty, Value::text),
        ];
        sheet.rows.push(Row::new(row).with(match not.why {
            WhyNoChoice::SavesTooLittle => Emphasis::Attention,
            _ => Emphasis::Stop,
        }));
    }
    list_without_level(inputs, &behind, &mut sheet);
    sheet.empty_text = "Everything could be planned.".to_owned();
    sheet
}

/// Parts without a stock level: those that a kit asks for although nobody used them too, the others of these as a number.
fn list_without_level(inputs: &Inputs<'_>, behind: &Behind, sheet: &mut Sheet) {
    let shop = inputs.shop;
    let without = &inputs.plan.levels.without;
    let asking = asking_kits(inputs);
    for (part, why) in without {
        let owed = behind.owed.get(part).copied();
        let kits = asking.get(part);
        if *why == WhyNoLevel::NeverUsed && owed.is_none() && kits.is_none() {
            continue;
        }
        let reserved = owed.map_or_else(String::new, |owed| {
            format!(
                "; {} more are reserved than are there",
                without_rounding_residue(owed)
            )
        });
        let asked = (kits.filter(|_| *why == WhyNoLevel::NeverUsed))
            .map_or_else(String::new, |kits| asked_for_by(kits));
        sheet.rows.push(Row::new(vec![
            Value::text("no stock level"),
            Value::text(number(shop, *part)),
            designation(shop, *part),
            owed.map_or(Value::Empty, Value::Number),
            Value::text(format!(
                "{why}{asked}{}{}{}{reserved}",
                behind.also_missing(*part, *why),
                behind.expired(*part),
                behind.without_rate(*part)
            )),
            shop.catalogue
                .part(*part)
                .places
                .first()
                .map_or(Value::Empty, |place| Value::text(place.to_string())),
        ]));
    }
    let never = without
        .iter()
        .filter(|(part, why)| {
            let is_listed = behind.owed.contains_key(part) || asking.contains_key(part);
            *why == WhyNoLevel::NeverUsed && !is_listed
        })
        .count();
    if never > 0 {
        sheet.notes.push(format!("{never} own parts were never used in the records and have no level: no usage is no reason to stock them, nor one not to."));
    }
}

/// What stands behind a part that is not planned: its offers, and what is promised of it.
struct Behind {
    /// Offers that have ended, in words.
    expired: BTreeMap<PartId, Vec<String>>,
    /// Offers in a currency without a rate of exchange, in words.
    without_rate: BTreeMap<PartId, Vec<String>>,
    /// Parts with an offer that may be bought from, and true where one says when it comes.
    usable: BTreeMap<PartId, bool>,
    /// Parts of which more is reserved than is there, and how many.
    owed: BTreeMap<PartId, f64>,
}

impl Behind {
    fn new(inputs: &Inputs<'_>) -> Self {
        let mut expired: BTreeMap<PartId, Vec<String>> = BTreeMap::new();
        let mut without_rate: BTreeMap<PartId, Vec<String>> = BTreeMap::new();
        for of in &inputs.plan.unusable_offers {
            let supplier = &inputs.shop.offers[of.offer].record.supplier;
            let (words, told) = match of.why {
                WhyUnusable::Expired { on } => (
                    format!("; the offer of {supplier} expired on {on}"),
                    &mut expired,
                ),
                WhyUnusable::NoExchangeRate { currency } => (
                    format!(
                        "; the offer of {supplier} is in {}, which has no rate of exchange in the settings",
                        currency.code()
                    ),
                    &mut without_rate,
                ),
                _ => continue,
            };
            let of_part = told.entry(of.part).or_default();
            if !of_part.contains(&words) {
                of_part.push(words);
            }
        }
        Self {
            expired,
            without_rate,
            usable: with_lead_time(inputs),
            owed: owed(inputs),
        }
    }

    /// What stands behind a need, or a level, that no offer covers.
    fn of_need(
        &self,
        part: Option<PartId>,
        need: Option<&RebuildNeed>,
        why: WhyNoChoice,
    ) -> String {
        let is_usable_missing = match why {
            WhyNoChoice::NoUsableOffer => true,
            WhyNoChoice::NoLeadTime => false,
            WhyNoChoice::NoPart
            | WhyNoChoice::NotEnough
            | WhyNoChoice::AfterService
            | WhyNoChoice::SavesTooLittle => return String::new(),
        };
        let accepted = need.into_iter().flat_map(|need| &need.accepted).copied();
        let parts: BTreeSet<PartId> = part.into_iter().chain(accepted).collect();
        let mut words = part
            .filter(|_| is_usable_missing)
            .map_or_else(String::new, |part| self.expired(part));
        words.extend(parts.into_iter().map(|part| self.without_rate(part)));
        words
    }

    /// Offers that wait for a rate of exchange, where no other says when the part would come.
    fn without_rate(&self, part: PartId) -> String {
        let is_open = self.usable.get(&part) != Some(&true);
        let words = self.without_rate.get(&part).filter(|_| is_open);
        words.map_or_else(String::new, |words| words.concat())
    }

    fn expired(&self, part: PartId) -> String {
        let is_open = !self.usable.contains_key(&part);
        let words = self.expired.get(&part).filter(|_| is_open);
        words.map_or_else(String::new, |words| words.concat())
    }

    /// What is missing besides the rate, so that nobody sets one thing and finds the next missing.
    fn also_missing(&self, part: PartId, why: WhyNoLevel) -> &'static str {
        match why {
            WhyNoLevel::NoUsableOffer | WhyNoLevel::NoLeadTime => "",
            WhyNoLevel::RateUnknown
            | WhyNoLevel::NoExposure
            | WhyNoLevel::NoUsages
            | WhyNoLevel::NoneCounts
            | WhyNoLevel::NeverUsed => match self.usable.get(&part) {
                None => "; no usable offer",
                Some(false) => "; no lead time: no usable offer says when the part would come",
                Some(true) => "",
            },
        }
    }
}

/// Parts with an offer that may be bought from, and true where one says when it comes.
pub fn with_lead_time(inputs: &Inputs<'_>) -> BTreeMap<PartId, bool> {
    let mut usable = BTreeMap::new();
    for offer in &inputs.plan.offers {
        let is_dated = offer.deliveries.iter().any(|way| way.arrival.is_some());
        *usable.entry(offer.part).or_insert(false) |= is_dated;
    }
    usable
}

/// Names of the kits whose lines ask for each part.
fn asking_kits<'a>(inputs: &Inputs<'a>) -> BTreeMap<PartId, Vec<&'a str>> {
    let mut asking: BTreeMap<PartId, Vec<&str>> = BTreeMap::new();
    for kit in &inputs.shop.kits {
        for part in kit.lines.iter().filter_map(|line| line.part) {
            let kits = asking.entry(part).or_default();
            if kits.last() != Some(&kit.name.as_str()) {
                kits.push(&kit.name);
            }
        }
    }
    asking
}

/// The kits that ask for a part, in words: the first, and how many more.
fn asked_for_by(kits: &[&str]) -> String {
    match kits {
        [] => String::new(),
        [kit] => format!("; kit {kit} asks for it"),
        [kit, others @ ..] => format!("; kit {kit} and {} more ask for it", others.len()),
    }
}

/// Quantities reserved beyond what is there, by part, in the unit of its stock.
fn owed(inputs: &Inputs<'_>) -> BTreeMap<PartId, f64> {
    let stock = &inputs.plan.stock;
    let expired: BTreeSet<&Place> = stock.expired.iter().map(|lot| &lot.place).collect();
    let mut owed: BTreeMap<PartId, f64> = BTreeMap::new();
    for row in &inputs.shop.stock {
        let record = &row.record;
        let Some(of_part) = stock.by_part.get(&row.part) else {
            continue;
        };
        let unit = record.unit_of_count.unwrap_or(of_part.unit);
        let Ok(factor) = unit.in_units_of(of_part.unit) else {
            continue;
        };
        let there = match record.on_hand.filter(|there| *there > 0.0) {
            Some(there) if !record.is_blocked && !expired.contains(&record.place) => there,
            _ => 0.0,
        };
        let reserved = record.reserved.unwrap_or(0.0).max(0.0);
        *owed.entry(row.part).or_default() += (reserved - there) * factor;
    }
    owed.retain(|_, more| *more > 1e-9);
    owed
}

/// Ways other than buying that hold for the line of a need.
fn other_ways(inputs: &Inputs<'_>, need: Option<&RebuildNeed>) -> String {
    let Some(need) = need else {
        return String::new();
    };
    let line = &inputs.shop.kits[need.kit].lines[need.line];
    let ways = line.other_ways.iter().chain(
        inputs
            .shop
            .other_ways
            .iter()
            .filter(|(part, _)| Some(*part) == need.part)
            .map(|(_, way)| way),
    );
    let ways: Vec<String> = ways
        .map(|other| {
            let hours = other.hours.map_or_else(
                || "hours not stated".to_owned(),
                |hours| format!("{hours} h"),
            );
            format!("{} ({hours})", way(other.kind))
        })
        .collect();
    if ways.is_empty() {
        String::new()
    } else {
        format!("; it can be {}", ways.join(" or "))
    }
}
