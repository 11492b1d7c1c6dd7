//! What may be fitted on one kit line: what goes in as it is, and what a person approved for that line.

use std::collections::{BTreeSet, HashSet};
use std::sync::Arc;

use chrono::NaiveDate;

use super::judge::judge;
use super::rule::is_other_size;
use super::search::Envelopes;
use super::subject::Subject;
use super::verdict::{Difference, Judgement, Verdict};
use crate::catalogue::{KitLineOf, PartId, Shop};
use crate::parallel;
use crate::part::SizeKey;
use crate::record::{ApprovalOutcome, ApprovalRecord};
use crate::units::UnitOfCount;

/// Why a part is accepted on a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum AcceptedBecause {
    /// It is the part the line asks for.
    AskedFor,
    /// It is the same standard part under another number, and goes in as it is.
    GoesInAsItIs,
    /// A person approved it for this line.
    ApprovedBy {
        /// Who.
        by: String,
        /// When.
        date: Option<NaiveDate>,
    },
}

/// A part that may be planned, pooled and bought for a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Accepted {
    /// The part.
    pub part: PartId,
    /// Why.
    pub because: AcceptedBecause,
}

/// A part that might be fitted if a person approved it for the line; never planned before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenSubstitute {
    /// The part.
    pub part: PartId,
    /// What speaks for and against it; lines of which the same is said share it.
    pub judgement: Arc<Judgement>,
}

impl OpenSubstitute {
    /// Takes the part and what speaks for and against it.
    pub fn new(part: PartId, judgement: Judgement) -> Self {
        Self {
            part,
            judgement: Arc::new(judgement.fitted()),
        }
    }
}

/// Everything that may, might or must not be fitted on one kit line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineAcceptance {
    /// Position of the kit in [`Shop::kits`](crate::catalogue::Shop::kits).
    pub kit: usize,
    /// Position of the line in its kit.
    pub line: usize,
    /// What may be fitted, the part asked for first.
    pub accepted: Vec<Accepted>,
    /// What an approval would add.
    pub open: Vec<OpenSubstitute>,
    /// Same size, but must not be used, or tried and did not fit; of other sizes the [`MOST_NEAR`] nearest.
    pub refused: Vec<OpenSubstitute>,
    /// Parts of other sizes that might be mistaken for the one asked for and are not listed.
    pub near_left_out: usize,
}

/// Parts of another size that are listed on a line, the nearest first: nobody reads past a few, and where a shop has a
/// hundred sizes within a millimetre all of them for all lines would be most of what it holds.
pub const MOST_NEAR: usize = 3;

/// Works out for every kit line what may be fitted, what an approval would add and what must not be used.
///
/// Only parts that the shop has, buys or is offered are looked at. An approval without a substitute known to any
/// table, and an approval on a line marked "no substitutes", change nothing.
pub fn accept(shop: &Shop, envelopes: &Envelopes) -> Vec<LineAcceptance> {
    let kits = shop.kits.iter().enumerate();
    let all: Vec<(usize, usize, &KitLineOf)> = kits
        .flat_map(|(kit, of)| {
            let lines = of.lines.iter().enumerate();
            lines.map(move |(at, line)| (kit, at, line))
        })
        .collect();
    let mut lines = parallel::each(&all, |(kit, at, line)| {
        accept_line(shop, envelopes, *kit, *at, line)
    });
    hold_once(&mut lines);
    lines
}

/// Holds what is said of several lines once: kits ask for parts of few kinds, and of a hundred thousand judgements most have
/// been said before.
fn hold_once(lines: &mut [LineAcceptance]) {
    let mut known: HashSet<Arc<Judgement>> = HashSet::new();
    for line in lines {
        for of in line.open.iter_mut().chain(&mut line.refused) {
            match known.get(&of.judgement) {
                Some(same) => of.judgement = Arc::clone(same),
                None => {
                    known.insert(Arc::clone(&of.judgement));
                }
            }
        }
        line.accepted.shrink_to_fit();
        line.open.shrink_to_fit();
        line.refused.shrink_to_fit();
    }
}

fn accept_line(
    shop: &Shop,
    envelopes: &Envelopes,
    kit: usize,
    line_at: usize,
    line: &KitLineOf,
) -> LineAcceptance {
    let mut of_line = LineAcceptance {
        kit,
        line: line_at,
        accepted: Vec::new(),
        open: Vec::new(),
        refused: Vec::new(),
        near_left_out: 0,
    };
    let Some(asked_for) = line.part else {
        accept_approved(line, shop.as_of.date(), &mut of_line, None);
        return of_line;
    };
    of_line.accepted.push(Accepted {
        part: asked_for,
        because: AcceptedBecause::AskedFor,
    });
    let want = Subject::of_part(shop.catalogue.part(asked_for));
    accept_approved(line, shop.as_of.date(), &mut of_line, Some((shop, &want)));
    let is_told = |part: &PartId| {
        let mut accepted = of_line.accepted.iter();
        accepted.any(|accepted| accepted.part == *part)
            || of_line.refused.iter().any(|refused| refused.part == *part)
    };
    let (worth, near_left_out) = candidates(shop, envelopes, asked_for, is_told);
    of_line.near_left_out = near_left_out;
    for part in worth {
        let mut judgement = judge(&want, &Subject::of_part(shop.catalogue.part(part)));
        keep_sets_whole(shop, line, part, &mut judgement);
        match judgement.verdict {
            Verdict::AsItIs if !line.record.no_substitutes => {
                of_line.accepted.push(Accepted {
                    part,
                    because: AcceptedBecause::GoesInAsItIs,
                });
            }
            Verdict::AfterChecks | Verdict::WithRework if !line.record.no_substitutes => {
                of_line.open.push(OpenSubstitute::new(part, judgement));
            }
            Verdict::MustNot | Verdict::Near => {
                of_line.refused.push(OpenSubstitute::new(part, judgement));
            }
            _ => {}
        }
    }
    of_line.open.sort_by_key(|open| {
        (
            open.judgement.verdict,
            open.judgement.unknown.len(),
            open.part,
        )
    });
    of_line
}

/// Parts that might be taken for the one asked for, those told already excepted, and how many more of another size there
/// are.
fn candidates(
    shop: &Shop,
    envelopes: &Envelopes,
    asked_for: PartId,
    is_told: impl Fn(&PartId) -> bool,
) -> (BTreeSet<PartId>, usize) {
    let Some(size) = &shop.catalogue.part(asked_for).size else {
        return (BTreeSet::new(), 0);
    };
    let mut worth = BTreeSet::new();
    let mut near: Vec<(f64, PartId)> = Vec::new();
    let all = envelopes.worth_judging(&shop.catalogue, size);
    for part in all.filter(|part| !is_told(part)) {
        match shop.catalogue.part(part).size {
            Some(have) if is_other_size(size, &have) => near.push((apart_mm(size, &have), part)),
            _ => {
                worth.insert(part);
            }
        }
    }
    near.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let left_out = near.len().saturating_sub(MOST_NEAR);
    worth.extend(near.into_iter().take(MOST_NEAR).map(|(_, part)| part));
    (worth, left_out)
}

/// How far two sizes of one family are apart, over all dimensions.
fn apart_mm(want: &SizeKey, have: &SizeKey) -> f64 {
    let pairs = want.dimensions().zip(have.dimensions());
    pairs
        .map(|((_, a), (_, b))| a.difference_mm(b).abs())
        .fold(0.0, |sum, mm| sum + mm)
}

/// Adds what people approved for the line, and refuses what they tried and found not to fit.
fn accept_approved(
    line: &KitLineOf,
    today: NaiveDate,
    of_line: &mut LineAcceptance,
    judged_by: Option<(&Shop, &Subject)>,
) {
    for (substitute, approval) in &line.approvals {
        let Some(part) = *substitute else { continue };
        if is_to_come(approval, today) || is_overruled(line, today, part, approval) {
            continue;
        }
        match approval.outcome {
            ApprovalOutcome::Approved => {
                let is_named = !approval.by.trim().is_empty();
                let is_new = of_line
                    .accepted
                    .iter()
                    .all(|accepted| accepted.part != part);
                if is_named && is_new && !line.record.no_substitutes {
                    let because = AcceptedBecause::ApprovedBy {
                        by: approval.by.clone(),
                        date: approval.date,
                    };
                    of_line.accepted.push(Accepted { part, because });
                }
            }
            ApprovalOutcome::DidNotFit | ApprovalOutcome::Rejected => {
                of_line.accepted.retain(|accepted| accepted.part != part);
                let mut judgement = match judged_by {
                    Some((shop, want)) => judge(want, &Subject::of_part(shop.catalogue.part(part))),
                    None => Judgement::empty(Verdict::MustNot),
                };
                judgement.verdict = Verdict::MustNot;
                judgement.differs.push(refusal(approval));
                of_line.refused.push(OpenSubstitute::new(part, judgement));
            }
        }
    }
}

/// True for an approval of a day after `today`, which does not count yet; that something did not fit counts on any day.
pub fn is_to_come(approval: &ApprovalRecord, today: NaiveDate) -> bool {
    let is_approval = approval.outcome == ApprovalOutcome::Approved;
    is_approval && approval.date.is_some_and(|date| date > today)
}

/// True where another record of the same part on the line says the contrary and counts more: the one of the later date,
/// and where two dates do not tell, the one that it did not fit.
fn is_overruled(
    line: &KitLineOf,
    today: NaiveDate,
    part: PartId,
    approval: &ApprovalRecord,
) -> bool {
    let known = line.approvals.iter();
    let mut known = known.filter(|(_, other)| !is_to_come(other, today));
    known.any(|(substitute, other)| {
        let is_refusal = other.outcome != ApprovalOutcome::Approved;
        let is_contrary = *substitute == Some(part)
            && is_refusal == (approval.outcome == ApprovalOutcome::Approved);
        let counts_more = match (approval.date, other.date) {
            (Some(of_this), Some(of_other)) if of_this != of_other => of_other > of_this,
            _ => is_refusal,
        };
        is_contrary && counts_more && (is_refusal || !other.by.trim().is_empty())
    })
}

/// What a person found who tried it or rejected it.
fn refusal(approval: &ApprovalRecord) -> Difference {
    let when = approval
        .date
        .map_or_else(String::new, |date| format!(" on {date}"));
    let checks = approval.checks.as_deref().unwrap_or("no details recorded");
    if approval.outcome == ApprovalOutcome::Rejected {
        return Difference {
            what: "judged for this line",
            have: "rejected".to_owned(),
            want: "an approved part".to_owned(),
            effect: format!("rejected by {}{when}: {checks}", approval.by),
            source: "the shop's own record",
        };
    }
    Difference {
        what: "tried on this line",
        have: "did not fit".to_owned(),
        want: "a part that fits".to_owned(),
        effect: format!("tried by {}{when}: {checks}", approval.by),
        source: "the shop's own record",
    }
}

/// What is told of singles for a line that needs a matched set.
pub const MATCHED_SET: &str = "matched set";

/// A line that needs a matched set is filled by that set only.
fn keep_sets_whole(shop: &Shop, line: &KitLineOf, part: PartId, judgement: &mut Judgement) {
    let Some(UnitOfCount::MatchedSet { pieces }) = line.record.unit_of_count else {
        return;
    };
    let unit = shop.catalogue.part(part).unit_of_count;
    if unit == line.record.unit_of_count {
        return;
    }
    judgement.verdict = Verdict::MustNot;
    judgement.differs.push(Difference {
        what: MATCHED_SET,
        have: unit.map_or_else(|| "unit of count not stated".to_owned(), |unit| unit.to_string()),
        want: format!("matched set of {pieces}"),
        effect: "bearings run side by side only as the set they were matched in, never made up of singles".to_owned(),
        source: "published type descriptions (universal and matched against basic design)",
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_said_of_several_lines_is_held_once_and_said_as_before() {
        let of = |part: u32, verdict: Verdict, known: &str| {
            let mut judgement = Judgement::empty(verdict);
            judgement.agrees.push(known.to_owned());
            OpenSubstitute::new(PartId(part), judgement)
        };
        let line = |line: usize| LineAcceptance {
            kit: 0,
            line,
            accepted: Vec::new(),
            open: vec![of(1, Verdict::AfterChecks, "size")],
            refused: vec![
                of(2, Verdict::MustNot, "size"),
                of(3, Verdict::MustNot, "type"),
            ],
            near_left_out: 0,
        };
        let mut lines = vec![line(0), line(1)];
        hold_once(&mut lines);
        assert_eq!(lines, [line(0), line(1)]);
        let [first, second] = &lines[..] else {
            panic!("two lines")
        };
        let is_one =
            |a: &OpenSubstitute, b: &OpenSubstitute| Arc::ptr_eq(&a.judgement, &b.judgement);
        assert!(is_one(&first.open[0], &second.open[0]));
        assert!(is_one(&first.refused[0], &second.refused[0]));
        assert!(is_one(&first.refused[1], &second.refused[1]));
        // Another verdict or another reason is another judgement.
        assert!(!is_one(&first.open[0], &first.refused[0]));
        assert!(!is_one(&first.refused[0], &first.refused[1]));
    }
}
