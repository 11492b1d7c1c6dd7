//! Puts the answer together: standard parts first, then what the shop has and is offered, then what is refused.

mod measuring;
mod named;
mod nearest;
mod notes;
mod order;
mod other_width;
mod seen;
mod shop;
mod twins;

use std::borrow::Cow;
use std::cmp::Reverse;
use std::collections::BTreeSet;
use std::sync::Arc;

use measuring::{note_half, note_measuring, note_pin_type, unlisted_inch};

use super::answers::{Answer, Answers, NoneOfThese};
use super::ask::{Open, ask_next, where_ring_sits};
use super::by_groove;
use super::failing_groove;
use super::found::{Found, Matched, find};
use super::lost_clearance;
use super::question::{Question, WithoutTable};
use super::worked_out::work_out;
use crate::catalogue::card_index::CardIndex;
use crate::engineering::spacer_first;
use crate::interchange::{Subject, Verdict, judge};
use crate::part::{Family, FitClass, SizeKey};
use crate::standard::{self, Confidence, StandardPart};

/// Answers a question from the standard tables and, where given, a shop's own parts, stock and offers.
///
/// With an index in a file, [`CardIndex::fault`] says afterwards whether the file was sound; if not, the answer is void.
pub fn answer(question: &Question, index: Option<&CardIndex>) -> Answers {
    if let Some(named) = question.named.as_ref().filter(|_| question.is_name_only()) {
        return named::alone(question, named);
    }
    if let Some(kind) = question.without_table {
        return without_table(question, kind);
    }
    let mut answers = Answers::default();
    let all = find(question, index);
    let families: BTreeSet<Family> = all.found.iter().map(|found| found.size.family()).collect();
    let family = question.family.or((families.len() == 1)
        .then(|| families.first().copied())
        .flatten());
    let ordered = order::as_closed(question);
    for found in &all.found {
        for row in &found.rows {
            let asked = question.with_marks_of(row);
            let of_row = matches!(asked, Cow::Owned(_)).then(|| order::as_closed(&asked));
            for ordered in of_row.as_ref().unwrap_or(&ordered) {
                let answer = answer_of_row(&asked, ordered, row, (found, family.is_none()));
                answers.add(answer);
            }
        }
    }
    for found in &all.found {
        for answer in other_width::of(question, found) {
            answers.add(answer);
        }
    }
    if let Some(index) = index {
        shop::add(index, question, &all.found, &mut answers);
    }
    if answers.answers.is_empty() {
        for answer in nearest::nearest(question, index) {
            answers.add(answer);
        }
    }
    named::add(question, &all.found, &mut answers);
    answers.warnings.extend(question.notes.clone());
    answers.warnings.extend(all.warnings);
    answers.warnings.extend(unlisted_inch(question, &all.found));
    let untold = question.untold();
    if !untold.is_empty() {
        let words = untold.join(", ");
        answers.warnings.push(format!("not understood: {words}"));
    }
    answers.none_of_these = none_of_these(&all.found, all.none);
    answers.ask_next = ask_next(&Open {
        found: &all.found,
        roles: &all.roles,
        family,
        traits: &question.traits,
        is_side_open: question.traits.closure.is_none() && question.needs.closed_by.is_some(),
        is_medium_known: question.needs.fluid.is_some() && question.needs.highest_c.is_some(),
        is_lip_known: question.needs.has_dust_lip.is_some(),
        is_shaft_known: question.needs.shaft_hrc.is_some(),
    });
    if question.is_of_groove_only() {
        answers.ask_next = by_groove::missing(question).or(answers.ask_next);
    }
    notes::add(question, index, &mut answers);
    answers.finish(question, family);
    named::put_first(question, &mut answers);
    work_out(question, &mut answers);
    failing_groove::refuse(question, &mut answers);
    lost_clearance::refuse(question, &mut answers);
    answers
}

fn none_of_these(found: &[Found], probability: f64) -> NoneOfThese {
    let why = match found.first() {
        None => {
            "no standard size here fits: a special, a part outside the tables, or a slip in the figures"
        }
        Some(_) if probability > 0.5 => {
            "no standard size here fits well: likely a special, a part outside the tables, or a slip in the figures"
        }
        Some(best) if best.matched == Matched::WithinMeasuring && !best.is_within_band() => {
            "measured values are not a standard size as they stand: it may be a special or worn beyond telling"
        }
        Some(_) => {
            "a special or a part outside the tables may have a standard size, and figures may be slips"
        }
    };
    // Four decimals tell all there is to tell.
    let rounded = (probability * 1e4).round() / 1e4;
    NoneOfThese {
        probability: rounded.max(0.001),
        why: why.to_owned(),
    }
}

/// Of a part whose sizes are in no table nothing is proposed; of a spacer it is said how to come by its length.
fn without_table(question: &Question, kind: &WithoutTable) -> Answers {
    let mut answers = Answers {
        none_of_these: NoneOfThese {
            probability: 1.0,
            why: format!("{}: {}", kind.name, kind.why),
        },
        warnings: question.notes.clone(),
        ask_next: kind.is_snap_ring().then(where_ring_sits),
        ..Answers::default()
    };
    if kind.is_spacer() {
        answers.warnings.push("a spacer of a preloaded pair sets the preload: no amount to grind follows from nominal or calliper widths".to_owned());
        answers
            .warnings
            .extend(spacer_first().iter().map(|step| (*step).to_owned()));
    }
    answers
}

/// The part the question asks for, at one of its sizes.
fn wanted(question: &Question, size: SizeKey) -> Subject {
    let confidence = standard::of_size(&size)
        .iter()
        .map(|row| row.confidence)
        .min();
    // A pin of another class than the one asked for is another part.
    let fit = question
        .fit_classes
        .iter()
        .find_map(|fit| FitClass::read(fit));
    let size = match fit {
        Some(fit) if size.family().facts().marks.has_class() => size.with_fit(fit),
        _ => size,
    };
    // Where figures contradict a number, the type that the number says stays asked for among parts of its kind.
    let by_number = question
        .family
        .filter(|family| question.designation.is_some() && family.class() == size.family().class());
    let mut want = Subject {
        label: question.text.clone(),
        family: by_number.or(Some(size.family())),
        traits: question.traits.clone(),
        needs: question.needs.clone(),
        confidence,
        ..Subject::unknown(Some(size))
    };
    // Of the shop's own part more is known than its number says.
    let named = question.named.as_ref();
    if let Some(named) = named.filter(|named| named.size == Some(size)) {
        let own = named::subject(named);
        want.chamfer_mm = own.chamfer_mm;
        want.ratings = own.ratings;
        want.speed_limit_rpm = own.speed_limit_rpm;
    }
    want
}

/// A size does not tell the variant: the row's own is taken; true where rows of other variants share the size.
fn open_variant(
    question: &Question,
    found: &Found,
    row: &StandardPart,
    want: &mut Subject,
) -> bool {
    // The number of a plain type means just that.
    let is_plain = row.size.family().facts().marks.has_stated_types;
    if want.traits.variant.is_some() || question.designation.is_some() && !is_plain {
        return false;
    }
    want.traits.variant = row.traits.variant.clone();
    if question.designation.is_some() {
        return false;
    }
    found
        .rows
        .iter()
        .any(|other| other.traits.variant != row.traits.variant)
}

/// A row of a size in one of the ways in which it can be ordered.
fn answer_of_row(
    asked: &Question,
    ordered: &Question,
    row: &StandardPart,
    (found, is_type_open): (&Found, bool),
) -> Answer {
    let mut want = wanted(asked, row.size);
    let is_variant_open = open_variant(asked, found, row, &mut want);
    let mut answer = standard_answer(ordered, &want, row, found, is_type_open);
    if is_variant_open {
        let judgement = Arc::make_mut(&mut answer.judgement);
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
        judgement
            .unknown
            .push("which variant of this size it is".to_owned());
    }
    answer
}

/// A standard part, ordered with what the question asks for.
fn standard_answer(
    question: &Question,
    want: &Subject,
    row: &StandardPart,
    found: &Found,
    is_type_open: bool,
) -> Answer {
    let mut have = Subject::of_standard(row);
    order::ordered_with(&question.traits, &mut have.traits);
    let mut judgement = judge(want, &have);
    if is_type_open && judgement.verdict <= Verdict::AfterChecks {
        judgement.verdict = Verdict::AfterChecks;
        judgement
            .unknown
            .push(row.size.family().open_type().to_owned());
    }
    note_measuring(found, &mut judgement);
    note_half(&have, &mut judgement);
    note_pin_type(want, &row.standard, &mut judgement);
    Answer {
        designation: order::order_as(question, row),
        twins: Vec::new(),
        number: None,
        size: Some(row.size),
        standard: Some(row.standard.clone()),
        matched: found.matched,
        probability: found.probability,
        confidence: Some(row.confidence),
        judgement: Arc::new(judgement),
        stock: Vec::new(),
        offers: Vec::new(),
    }
}

impl Answers {
    /// Adds a part once; what goes in for one of the sizes is an answer, whatever it is to the others.
    fn add(&mut self, answer: Answer) {
        let is_same = |known: &Answer| {
            known.number == answer.number && known.designation == answer.designation
        };
        let goes_in = answer.judgement.verdict <= Verdict::WithRework;
        if self.answers.iter().any(is_same) || (!goes_in && self.refused.iter().any(is_same)) {
            return;
        }
        if goes_in {
            self.refused.retain(|known| !is_same(known));
            self.answers.push(answer);
        } else {
            self.refused.push(answer);
        }
    }

    fn finish(&mut self, question: &Question, family: Option<Family>) {
        let rank = |answer: &Answer| {
            (
                Reverse(InOrder(answer.probability)),
                answer.judgement.verdict,
                answer.judgement.differs.len(),
                !answer.is_in_stock(),
                answer.offers.is_empty(),
                answer.matched,
                answer.confidence,
            )
        };
        self.answers = twins::join(ranked(std::mem::take(&mut self.answers), rank));
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
        self.refused = ranked(std::mem::take(&mut self.refused), tempts);
        let when_worn = family.and_then(|family| family.facts().bench.notes.when_worn);
        if let Some(said) = when_worn.filter(|_| question.is_worn) {
            self.warnings.push(said.to_owned());
        }
        let is_from_memory = |answer: &Answer| {
            let is_unchecked = |confidence: Confidence| !confidence.is_cross_checked();
            answer.confidence.is_some_and(is_unchecked) && !answer.is_printed_alike()
        };
        if self.answers.iter().chain(&self.refused).any(is_from_memory) {
            self.warnings.push("rows marked D are from memory, not cross-checked: measure the new part before fitting".to_owned());
        }
    }
}

impl Answer {
    /// True where suppliers bear out a size from memory by printing it alike.
    pub fn is_printed_alike(&self) -> bool {
        seen::is_raised(self)
    }
}

/// Answers by rank, then designation. Ranks are worked out once, and the answers, which are large, moved once.
fn ranked<K: Ord>(answers: Vec<Answer>, rank: impl Fn(&Answer) -> K) -> Vec<Answer> {
    let ranks: Vec<K> = answers.iter().map(rank).collect();
    let mut order: Vec<usize> = (0..answers.len()).collect();
    order.sort_by(|a, b| {
        let by_name = || answers[*a].designation.cmp(&answers[*b].designation);
        ranks[*a].cmp(&ranks[*b]).then_with(by_name)
    });
    let mut answers: Vec<Option<Answer>> = answers.into_iter().map(Some).collect();
    let in_order = order.into_iter().filter_map(|at| answers[at].take());
    in_order.collect()
}

/// A probability as numbers are ordered.
struct InOrder(f64);

impl Ord for InOrder {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}

impl PartialOrd for InOrder {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for InOrder {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for InOrder {}
