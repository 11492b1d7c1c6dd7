//! Puts the answer together: standard parts first, then what the shop has and is offered, then what is refused.

use std::collections::BTreeSet;

use super::measured::{Match, Matched, match_size};
use super::question::Question;
use super::unknown::{AskNext, ask_next};
use crate::catalogue::{PartId, Shop};
use crate::interchange::{Envelopes, Judgement, Subject, Verdict, judge};
use crate::part::{Family, NameKey, SizeKey};
use crate::standard::{self, Confidence, StandardPart};
use crate::units::ReadLength;

/// Stock of an answered part in one bin.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct StockLine {
    /// Bin; `None` where the list names none.
    pub bin: Option<String>,
    /// On hand less reserved; `None` where the list does not say.
    pub free: Option<f64>,
    /// Unit of count; `None` where the list does not say.
    pub unit_of_count: Option<String>,
}

/// An offer of an answered part.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct OfferLine {
    /// Supplier.
    pub supplier: String,
    /// Price of one, in `currency`; `None` where none is quoted.
    pub unit_price: Option<f64>,
    /// Currency of the price.
    pub currency: Option<String>,
    /// Lead time as quoted; "unknown" where none is quoted.
    pub lead_time: String,
}

/// One part and what is to be said of it.
#[derive(Debug, Clone)]
pub struct Answer {
    /// What to ask for at the counter.
    pub designation: String,
    /// The shop's or supplier's number, where it is a part of the shop's tables.
    pub number: Option<String>,
    /// Family and size.
    pub size: Option<SizeKey>,
    /// Standard the size comes from, where there is one.
    pub standard: Option<String>,
    /// How the size was matched.
    pub matched: Matched,
    /// How far the standard row was cross-checked.
    pub confidence: Option<Confidence>,
    /// Verdict and reasons.
    pub judgement: Judgement,
    /// Stock.
    pub stock: Vec<StockLine>,
    /// Offers.
    pub offers: Vec<OfferLine>,
}

/// The whole answer.
#[derive(Debug, Clone, Default)]
pub struct Answers {
    /// Parts that go in, best first.
    pub answers: Vec<Answer>,
    /// Parts that tempt but must not be used.
    pub refused: Vec<Answer>,
    /// Why it may be none of these; `None` where the size was given exactly and is a standard one.
    pub none_of_these: Option<String>,
    /// What to ask next.
    pub ask_next: Option<AskNext>,
    /// Warnings.
    pub warnings: Vec<String>,
}

/// Answers a question from the standard tables and, where given, a shop's own parts, stock and offers.
pub fn answer(question: &Question, shop: Option<(&Shop, &Envelopes)>) -> Answers {
    let mut answers = Answers::default();
    let matches = matches(question, &mut answers);
    let families: BTreeSet<Family> = matches.iter().map(|found| found.size.family()).collect();
    let family = question.family.or((families.len() == 1)
        .then(|| families.first().copied())
        .flatten());
    for found in &matches {
        let want = wanted(question, found);
        for row in named_rows(question, found) {
            answers.add(standard_answer(
                question,
                &want,
                row,
                found,
                family.is_none(),
            ));
        }
        if let Some((shop, envelopes)) = shop {
            let parts: BTreeSet<PartId> = envelopes
                .worth_judging(&shop.catalogue, &found.size)
                .collect();
            for part in parts {
                answers.add(shop_answer(shop, &want, part, found));
            }
        }
    }
    answers.finish(question, &matches, family);
    answers
}

/// Sizes the question may mean.
fn matches(question: &Question, answers: &mut Answers) -> Vec<Match> {
    if let Some(designation) = &question.designation {
        let row = standard::resolve(designation);
        let size = row.map(|row| row.size).or(designation.size);
        if size.is_none() {
            answers.warnings.push(format!(
                "`{}` reads as a designation, but its size is in no table here",
                designation.basic
            ));
        }
        let matched = if designation.size.is_none_or(|printed| Some(printed) == size) {
            Matched::Exact
        } else {
            Matched::Rounded
        };
        return size
            .into_iter()
            .map(|size| Match {
                size,
                matched,
                off_mm: 0.0,
            })
            .collect();
    }
    let mm = sizes_of(question.family, &question.lengths);
    if question.lengths_as_inches.is_empty() {
        return mm;
    }
    let inch = sizes_of(question.family, &question.lengths_as_inches);
    match (mm.is_empty(), inch.is_empty()) {
        (true, false) => {
            answers.warnings.push(
                "read as inches: no standard size fits these figures in millimetres".to_owned(),
            );
            inch
        }
        (false, false) => {
            answers.warnings.push(
                "the figures fit standard sizes in millimetres and in inches: write the unit"
                    .to_owned(),
            );
            mm.into_iter().chain(inch).collect()
        }
        _ => mm,
    }
}

fn sizes_of(family: Option<Family>, lengths: &[ReadLength]) -> Vec<Match> {
    let mut all: Vec<Match> = match family {
        Some(family) => match_size(family, lengths),
        None => Family::ALL
            .iter()
            .flat_map(|family| match_size(*family, lengths))
            .collect(),
    };
    // A family without a row of this very size joins nothing: drop sizes that no standard lists.
    all.retain(|found| !standard::of_size(&found.size).is_empty());
    all.sort_by(|a, b| {
        a.matched
            .cmp(&b.matched)
            .then(a.off_mm.total_cmp(&b.off_mm))
            .then(a.size.cmp(&b.size))
    });
    if all
        .first()
        .is_some_and(|best| best.matched != Matched::WithinMeasuring)
    {
        all.retain(|found| found.matched != Matched::WithinMeasuring);
    }
    all
}

/// The part the question asks for, at one of its sizes.
fn wanted(question: &Question, found: &Match) -> Subject {
    let confidence = standard::of_size(&found.size)
        .iter()
        .map(|row| row.confidence)
        .min();
    Subject {
        label: question.text.clone(),
        size: Some(found.size),
        family: Some(found.size.family()),
        traits: question.traits.clone(),
        chamfer_mm: None,
        ratings: None,
        speed_limit_rpm: None,
        confidence,
    }
}

/// Rows of the matched size; with a designation only the row it names.
fn named_rows(question: &Question, found: &Match) -> Vec<&'static StandardPart> {
    let named = question.designation.as_ref().and_then(standard::resolve);
    match named {
        Some(row) => vec![row],
        None => standard::of_size(&found.size).iter().collect(),
    }
}

/// A standard part, ordered with what the question asks for.
fn standard_answer(
    question: &Question,
    want: &Subject,
    row: &StandardPart,
    found: &Match,
    is_type_open: bool,
) -> Answer {
    let mut have = Subject::of_standard(row);
    let (asked, of_row) = (&question.traits, &mut have.traits);
    of_row.closure = of_row.closure.or(asked.closure);
    of_row.clearance = of_row.clearance.or(asked.clearance);
    of_row.tolerance_class = of_row.tolerance_class.or(asked.tolerance_class);
    of_row.rib_form = of_row.rib_form.or(asked.rib_form);
    of_row.contact_angle = of_row.contact_angle.or(asked.contact_angle);
    of_row.material = of_row.material.take().or_else(|| asked.material.clone());
    of_row.hardness = of_row.hardness.take().or_else(|| asked.hardness.clone());
    of_row.seal_form = of_row.seal_form.or(asked.seal_form);
    of_row.bore_form = of_row.bore_form.or(asked.bore_form);
    of_row.cage = of_row.cage.take().or_else(|| asked.cage.clone());
    of_row.arrangement = of_row
        .arrangement
        .take()
        .or_else(|| asked.arrangement.clone());
    of_row.has_snap_ring_groove = of_row.has_snap_ring_groove.or(asked.has_snap_ring_groove);
    let mut judgement = judge(want, &have);
    if is_type_open && judgement.verdict <= Verdict::AfterChecks {
        judgement.verdict = Verdict::AfterChecks;
        judgement.unknown.push(
            "the type was not asked for: compare the rolling elements and ribs of the old part"
                .to_owned(),
        );
    }
    note_measuring(found, &mut judgement);
    let designation = order_as(question, row);
    Answer {
        designation,
        number: None,
        size: Some(row.size),
        standard: Some(row.standard.clone()),
        matched: found.matched,
        confidence: Some(row.confidence),
        judgement,
        stock: Vec::new(),
        offers: Vec::new(),
    }
}

/// What to ask for: the designation as asked where it names the row, else the row's own with the elastomer asked for.
fn order_as(question: &Question, row: &StandardPart) -> String {
    let own = NameKey::new(&row.designation);
    let asked = question
        .designation
        .as_ref()
        .map(|designation| &designation.printed);
    let named = asked.filter(|printed| NameKey::new(printed).as_str().starts_with(own.as_str()));
    match (named, &question.traits.material) {
        (Some(printed), _) => printed.clone(),
        (None, Some(material)) => format!("{} {material}", row.designation),
        (None, None) => row.designation.clone(),
    }
}

fn shop_answer(shop: &Shop, want: &Subject, id: PartId, found: &Match) -> Answer {
    let part = shop.catalogue.part(id);
    let have = Subject::of_part(part);
    let mut judgement = judge(want, &have);
    note_measuring(found, &mut judgement);
    let row = part
        .size
        .as_ref()
        .and_then(|size| standard::of_size(size).first());
    Answer {
        designation: part.designation.clone().unwrap_or_else(|| part.label()),
        number: Some(part.number.clone()),
        size: part.size,
        standard: row.map(|row| row.standard.clone()),
        matched: found.matched,
        confidence: have.confidence,
        judgement,
        stock: stock_of(shop, id),
        offers: offers_of(shop, id),
    }
}

fn stock_of(shop: &Shop, id: PartId) -> Vec<StockLine> {
    let rows = shop.stock.iter().filter(|stock| stock.part == id);
    rows.map(|stock| StockLine {
        bin: stock.record.bin.clone(),
        free: stock
            .record
            .on_hand
            .map(|on_hand| on_hand - stock.record.reserved.unwrap_or(0.0)),
        unit_of_count: stock.record.unit_of_count.map(|unit| unit.to_string()),
    })
    .collect()
}

fn offers_of(shop: &Shop, id: PartId) -> Vec<OfferLine> {
    let rows = shop.offers.iter().filter(|offer| offer.part == id);
    rows.map(|offer| OfferLine {
        supplier: offer.record.supplier.clone(),
        unit_price: offer.record.price.map(|price| price.unit_price()),
        currency: offer.record.price.map(|price| price.currency.to_string()),
        lead_time: offer
            .record
            .lead_time
            .map_or_else(|| "unknown".to_owned(), |lead_time| lead_time.to_string()),
    })
    .collect()
}

/// A size found by measuring a worn part is checked on the new one.
fn note_measuring(found: &Match, judgement: &mut Judgement) {
    if found.matched == Matched::WithinMeasuring {
        judgement.checks.push(format!(
            "measured up to {:.3} mm off {}: measure again on an unworn place",
            found.off_mm, found.size
        ));
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
}

impl Answers {
    fn add(&mut self, answer: Answer) {
        let is_known = |list: &[Answer]| {
            list.iter().any(|known| {
                known.number == answer.number && known.designation == answer.designation
            })
        };
        if is_known(&self.answers) || is_known(&self.refused) {
            return;
        }
        if answer.judgement.verdict <= Verdict::WithRework {
            self.answers.push(answer);
        } else {
            self.refused.push(answer);
        }
    }

    fn finish(&mut self, question: &Question, matches: &[Match], family: Option<Family>) {
        let rank = |answer: &Answer| {
            let is_here = answer
                .stock
                .iter()
                .any(|stock| stock.free.is_some_and(|free| free > 0.0));
            (
                answer.judgement.verdict,
                !is_here,
                answer.offers.is_empty(),
                answer.matched,
                answer.confidence,
            )
        };
        self.answers.sort_by(|a, b| {
            rank(a)
                .cmp(&rank(b))
                .then_with(|| a.designation.cmp(&b.designation))
        });
        // The tempting ones first: few differences, on the shelf or on offer.
        let tempts = |answer: &Answer| {
            let is_other_type = answer.size.map(|size| size.family()) != family;
            (
                is_other_type,
                answer.judgement.differs.len(),
                answer.stock.is_empty(),
                answer.offers.is_empty(),
            )
        };
        self.refused.sort_by(|a, b| {
            tempts(a)
                .cmp(&tempts(b))
                .then_with(|| a.designation.cmp(&b.designation))
        });
        self.none_of_these = match matches.first() {
            None => Some("no standard size here fits: a special, a part outside the tables, or a slip in the figures".to_owned()),
            Some(best) if best.matched == Matched::WithinMeasuring => {
                Some("measured values are not a standard size as they stand: it may be a special or worn beyond telling".to_owned())
            }
            Some(_) => None,
        };
        if question.is_worn && family == Some(Family::LipSeal) {
            self.warnings.push("read a lip seal's size from shaft and housing: a worn lip and a pressed case measure wrong".to_owned());
        }
        let is_from_memory = |answer: &Answer| {
            answer
                .confidence
                .is_some_and(|confidence| !confidence.is_cross_checked())
        };
        if self.answers.iter().chain(&self.refused).any(is_from_memory) {
            self.warnings.push("rows marked D are from memory, not cross-checked: measure the new part before fitting".to_owned());
        }
        if !matches.is_empty() {
            self.ask_next = ask_next(family, &question.traits);
        }
    }
}
