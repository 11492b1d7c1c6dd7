//! The purchase request: what one supplier is asked for, in words that it can quote on without asking back.
//!
//! It says nothing of other suppliers and nothing of prices that were quoted, so that it can be sent as it is.

use std::collections::BTreeSet;

use super::Inputs;
use super::order_now::{Which, of_supplier};
use super::shop_figures::counted;
use super::words::{designation, number, size};
use crate::catalogue::{CataloguePart, PartId, Shop};
use crate::interchange::{AcceptedBecause, Difference, Judgement, LineAcceptance, MATCHED_SET};
use crate::language::Language;
use crate::plan::ReorderLine;
use crate::report::model::{Action, Column, ColumnKind, Cover, MadeBy, Report, Row, Sheet, Value};
use crate::standard;

/// Alternatives named per line, accepted and refused; more would bury the first ones.
const NAMED: usize = 6;
/// What the name of every request begins with.
const STEM: &str = "request_";

/// What one supplier is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct PurchaseRequest {
    /// Supplier as printed in its first line.
    pub supplier: String,
    /// Name of its file without ending; letters, digits, hyphens and underscores.
    pub file_stem: String,
    /// The request.
    pub report: Report,
}

/// One request for each supplier with lines due today, in the order of their names.
pub fn purchase_requests(inputs: &Inputs<'_>) -> Vec<PurchaseRequest> {
    let lines = of_supplier(inputs, Which::Now);
    let mut requests: Vec<PurchaseRequest> = Vec::new();
    for of_one in lines.chunk_by(|a, b| a.buy.supplier == b.buy.supplier) {
        let supplier = of_one[0].buy.supplier.clone();
        let taken: BTreeSet<&str> = requests.iter().map(|of| of.file_stem.as_str()).collect();
        let file_stem = free_stem(&supplier, &taken);
        requests.push(PurchaseRequest {
            report: request(inputs, (&supplier, &file_stem), of_one),
            supplier,
            file_stem,
        });
    }
    requests
}

/// `request_` and the name in plain letters, numbered where two names come out the same.
fn free_stem(supplier: &str, taken: &BTreeSet<&str>) -> String {
    let plain: String = supplier
        .chars()
        .map(|c| match c.is_alphanumeric() {
            true => c.to_ascii_lowercase(),
            false => '-',
        })
        .collect();
    let words: Vec<&str> = plain.split('-').filter(|word| !word.is_empty()).collect();
    let stem = format!("{STEM}{}", words.join("-"));
    let numbered = (2..).map(|number| format!("{stem}-{number}"));
    std::iter::once(stem.clone())
        .chain(numbered)
        .find(|stem| !taken.contains(stem.as_str()))
        .unwrap_or(stem)
}

/// What both sides call a request: the day it holds for and the supplier.
fn request_number(inputs: &Inputs<'_>, file_stem: &str) -> String {
    let supplier = file_stem.strip_prefix(STEM).unwrap_or(file_stem);
    format!("{} {supplier}", inputs.shop.as_of.format("%Y-%m-%d"))
}

fn request(
    inputs: &Inputs<'_>,
    (supplier, file_stem): (&str, &str),
    lines: &[&ReorderLine],
) -> Report {
    let shop = inputs.shop;
    let asked = &shop.settings.requests;
    let mut question = format!("{} asks {supplier} for these parts.", shop.settings.shop);
    if let Some(days) = asked.reply_within_days {
        let by = shop.as_of.date() + chrono::Days::new(u64::from(days));
        question.push_str(&format!(" Please reply by {by}."));
    }
    let mut sheet = Sheet::new("request", "Request", question);
    sheet.columns = vec![
        Column::new(ColumnKind::Integer, "line", "Line"),
        Column::text("our_number", "Our number"),
        Column::text("your_number", "Your number").wrapped(18),
        Column::text("designation", "Designation").wrapped(24),
        Column::text("size", "Type and size").wrapped(30),
        Column::text("standard", "Standard").wrapped(18),
        Column::new(ColumnKind::Quantity, "quantity", "Quantity"),
        Column::text("unit_of_count", "Unit"),
        Column::new(ColumnKind::Date, "needed_by", "Needed by"),
        Column::text("conditions", "Conditions").wrapped(40),
        Column::text("accepted", "Also accepted").wrapped(30),
        Column::text("not_accepted", "Not accepted").wrapped(40),
    ];
    let rows = lines.iter().enumerate();
    sheet.rows = rows.map(|(at, line)| row(inputs, at, line)).collect();
    let known = |what: &str, text: &Option<String>| {
        let text = text
            .as_deref()
            .map(str::trim)
            .filter(|text| !text.is_empty());
        text.map(|text| format!("{what}: {text}"))
    };
    sheet.notes.extend(known("Contact", &asked.contact));
    sheet.notes.extend(known("Deliver to", &asked.address));
    sheet.notes.extend([
        "Nothing else in place of a line without our written consent; an equal size is not an equal part.".to_owned(),
        "Please state price, currency, pack, delivery day and how long the offer holds; say so where a line cannot be met as written.".to_owned(),
        "Where `Needed by` is blank, your ordinary delivery will do.".to_owned(),
        "Parts that come as a pair or set stay together in one package and are marked as such.".to_owned(),
    ]);
    Report {
        title: format!("Purchase request {}", request_number(inputs, file_stem)),
        shop: shop.settings.shop.clone(),
        as_of: shop.as_of,
        made_by: MadeBy::this_program(),
        language: Language::ENGLISH,
        cover: Cover {
            actions: vec![Action {
                text: format!("{supplier}: please quote {}", counted(lines.len(), "line")),
                detail: "with price, currency, pack, delivery day and how long the offer holds"
                    .to_owned(),
                sheet: Some("request".to_owned()),
            }],
            ..Cover::default()
        },
        sheets: vec![sheet],
    }
}

fn row(inputs: &Inputs<'_>, at: usize, line: &ReorderLine) -> Row {
    let shop = inputs.shop;
    let buy = &line.buy;
    let part = shop.catalogue.part(buy.part);
    let offer = shop.offers.get(buy.offer);
    let theirs = offer.and_then(|offer| offer.record.supplier_number.clone());
    let (accepted, refused) = alternatives(inputs, line);
    Row::new(vec![
        Value::Integer(at as i64 + 1),
        Value::text(number(shop, buy.part)),
        theirs.map_or(Value::Empty, Value::text),
        designation(shop, buy.part),
        size(shop, buy.part),
        standards(part).map_or(Value::Empty, Value::text),
        Value::Number(buy.ordered),
        Value::text(buy.offer_unit.to_string()),
        line.needed_by.map_or(Value::Empty, Value::Date),
        Value::text(conditions(part)),
        Value::text(accepted),
        Value::text(refused),
    ])
}

/// The standards of the rows with the part's size and variant.
fn standards(part: &CataloguePart) -> Option<String> {
    let rows = standard::of_size(part.size.as_ref()?);
    let own = rows
        .iter()
        .filter(|row| part.traits.variant.is_none() || row.traits.variant == part.traits.variant);
    let names: BTreeSet<&str> = own.map(|row| row.standard.as_str()).collect();
    (!names.is_empty()).then(|| names.into_iter().collect::<Vec<_>>().join(", "))
}

/// Everything a supplier must hold to, spelled out; what the part's tables do not say is not asked for.
fn conditions(part: &CataloguePart) -> String {
    let traits = &part.traits;
    let mut words: Vec<String> = Vec::new();
    let mut say = |what: &str, value: Option<String>| {
        words.extend(value.map(|value| format!("{what} {value}")));
    };
    say("closure:", traits.closure.map(|of| of.words().to_owned()));
    say(
        "internal clearance",
        traits.clearance.map(|of| of.to_string()),
    );
    say(
        "tolerance class",
        traits.tolerance_class.map(|of| of.to_string()),
    );
    say(
        "contact angle",
        traits.contact_angle.map(|of| of.to_string()),
    );
    say("ribs", traits.rib_form.map(|of| of.to_string()));
    say("bore", traits.bore_form.map(|of| of.to_string()));
    say("cage", traits.cage.clone());
    say("preload", traits.preload_class.clone());
    say("arrangement", traits.arrangement.clone());
    say("form", traits.seal_form.map(|of| of.to_string()));
    say("material", traits.material.clone());
    say("hardness", traits.hardness.clone());
    if traits.has_snap_ring_groove == Some(true) {
        words.push("with snap-ring groove".to_owned());
    }
    let is_fine = traits
        .tolerance_class
        .is_some_and(|class| class > crate::part::ToleranceClass::P6);
    let is_matched = traits.arrangement.is_some();
    if is_fine || is_matched {
        words.push(
            "with the maker's certificate of class and matching, in the sealed package".to_owned(),
        );
    }
    if part.shelf_life_months.is_some() {
        words.push("date of manufacture or cure on the package".to_owned());
    }
    words.join("; ")
}

/// Parts that every kit line with the wanted part takes too, and parts of its size that one of them refuses.
fn alternatives(inputs: &Inputs<'_>, line: &ReorderLine) -> (String, String) {
    let shop = inputs.shop;
    let of_part: Vec<&LineAcceptance> = inputs
        .acceptances
        .iter()
        .filter(|of| shop.kits[of.kit].lines[of.line].part == Some(line.part()))
        .collect();
    let is_everywhere = |part: PartId| {
        of_part.iter().all(|of| {
            let line = &shop.kits[of.kit].lines[of.line].record;
            let found = of.accepted.iter().find(|accepted| accepted.part == part);
            found.is_some_and(|found| {
                !line.no_substitutes || found.because == AcceptedBecause::AskedFor
            })
        })
    };
    let candidates: BTreeSet<PartId> = of_part
        .iter()
        .flat_map(|of| &of.accepted)
        .map(|accepted| accepted.part)
        .filter(|part| *part != line.buy.part && is_everywhere(*part))
        .collect();
    let accepted = candidates.iter().map(|part| told(shop, *part, None));
    let mut named: BTreeSet<PartId> = BTreeSet::new();
    let refused = of_part
        .iter()
        .flat_map(|of| &of.refused)
        .filter(|of| named.insert(of.part))
        .map(|of| told(shop, of.part, Some(&of.judgement)));
    let accepted = some(accepted.collect());
    let refused = some(refused.collect());
    let none = "none without our consent".to_owned();
    (if accepted.is_empty() { none } else { accepted }, refused)
}

fn some(all: Vec<String>) -> String {
    let more = all.len().saturating_sub(NAMED);
    let mut text = all[..all.len().min(NAMED)].join("; ");
    if more > 0 {
        text.push_str(&format!("; and {more} more"));
    }
    text
}

/// A part as a supplier knows it: its designation, and why not.
fn told(shop: &Shop, part: PartId, against: Option<&Judgement>) -> String {
    let part = shop.catalogue.part(part);
    let name = part.designation.clone().unwrap_or_else(|| part.label());
    match against {
        Some(judgement) if !judgement.differs.is_empty() => {
            let differs = judgement.differs.iter().map(difference);
            format!("{name} ({})", differs.collect::<Vec<_>>().join(", "))
        }
        _ => name,
    }
}

/// One difference as a supplier understands it.
fn difference(of: &Difference) -> String {
    match (of.what, of.have.as_str()) {
        (MATCHED_SET, "piece") => "single piece instead of a matched set".to_owned(),
        (MATCHED_SET, have) => format!("{have} instead of a matched set"),
        (what, have) => format!("{what} {have}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common practice, no source: who sells singles knows no `matched set piece`.
    #[test]
    fn a_single_is_no_matched_set_in_words() {
        let of = |what: &'static str, have: &str| {
            difference(&Difference {
                what,
                have: have.to_owned(),
                want: "matched set of 2".to_owned(),
                effect: String::new(),
                source: "arithmetic",
            })
        };
        assert_eq!(
            of(MATCHED_SET, "piece"),
            "single piece instead of a matched set"
        );
        assert_eq!(of(MATCHED_SET, "pair"), "pair instead of a matched set");
        assert_eq!(of("clearance", "CN"), "clearance CN");
    }

    #[test]
    fn a_file_name_is_plain_and_taken_once() {
        let none = BTreeSet::new();
        assert_eq!(
            free_stem("Tarnwick Fallow Supply", &none),
            "request_tarnwick-fallow-supply"
        );
        assert_eq!(free_stem("../A & B", &none), "request_a-b");
        let taken = BTreeSet::from(["request_a-b"]);
        assert_eq!(free_stem("A/B", &taken), "request_a-b-2");
    }

    #[test]
    fn a_fine_class_asks_for_its_certificate() {
        let place = crate::place::Place::row(&"parts.csv".into(), &"".into(), 1);
        let mut part = CataloguePart::bare("B-1".to_owned(), place);
        part.traits.tolerance_class = Some(crate::part::ToleranceClass::P4);
        part.traits.arrangement = Some("DB".to_owned());
        let words = conditions(&part);
        assert!(
            words.contains("tolerance class P4") && words.contains("certificate"),
            "{words}"
        );
        part.traits = crate::part::Traits::default();
        assert_eq!(conditions(&part), "");
    }
}
