//! One kit in depth: the curve, a budget or a time, offers struck out, and whom to ring first.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDateTime;

use super::arrival_law::{ArrivalLaw, KnownLaws, ShopLaws};
use super::coming_anyway::short_of;
use super::line_value::Lateness;
use super::open_way::cost_questions;
use super::outcome::{CurveMoment, KitPlan};
use super::planned::{KitPlanner, Planned, SHARES};
use super::planner::Depth;
use super::settling::{WaitingOffers, lowest_price};
use super::stakes::Stakes;
use super::task_net::{TaskNet, hourly_cost};
use super::work_clock::WorkClock;
use super::{accepted_parts, list_line_issues, open_parts, plan_kit};
use crate::catalogue::{Kit, OfferOf, PartId, Shop};
use crate::interchange::LineAcceptance;
use crate::place::Place;
use crate::plan::issue::PlanIssue;
use crate::plan::lead_time::LeadQuestion;
use crate::plan::offer::{JudgedAs, UsableOffer, WhyUnusable};
use crate::plan::purchase::Chances;
use crate::plan::sourcing::Sourcing;
use crate::plan::supply::Source;
use crate::record::{OtherWayKind, QuotedLeadTime};
use crate::units::Money;

/// Offers of one line whose arrival is asked about.
const MOST_OFFERS_OF_LINE: usize = 4;

/// Questions that are listed.
const MOST_QUESTIONS: usize = 10;

/// Share of cases from which on a line is worth a call.
const LEAST_HOLD: f64 = 0.02;

/// Answers tried for an uncertain arrival: the middles of five equal shares of its cases.
const ANSWERS: [f64; 5] = [0.1, 0.3, 0.5, 0.7, 0.9];

/// What is asked of one kit.
#[derive(Debug, Clone, Default)]
pub struct StudyAsk {
    /// Most that may be spent.
    pub budget: Option<Money>,
    /// When the machine must run.
    pub by: Option<NaiveDateTime>,
    /// Positions of offers that are struck out.
    pub without: Vec<usize>,
}

/// What a call would ask.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// When would it come? Valued over the answers that the lead time makes likely.
    WhenReally,
    /// No lead time is stated. Valued as if it were on the supplier's shelf.
    LeadTime,
    /// The quote has ended. Valued as if it were renewed as it was.
    Renew,
    /// The supplier is not approved. Valued as if somebody approved him.
    Approve,
    /// No price is stated. Valued at the lowest price of another offer for the line.
    Price,
    /// No cost of a way other than buying is stated. Valued as if it were nothing: more than that no answer saves.
    WayCost,
    /// Goods could be hurried, and no surcharge is stated. Valued as if it were nothing: more than that no answer saves.
    Surcharge,
}

/// A call to a supplier and what its answer would save.
#[derive(Debug, Clone, PartialEq)]
pub struct AskFirst {
    /// The question.
    pub question: Question,
    /// Position of the line in its kit.
    pub line: usize,
    /// The part offered; `None` where a way gives what no table knows.
    pub part: Option<PartId>,
    /// Supplier as printed; empty for a way other than buying.
    pub supplier: String,
    /// The way other than buying that is asked about.
    pub way: Option<OtherWayKind>,
    /// The row of the offer, of the open order or of the way.
    pub place: Place,
    /// Production hours the answer would save on the average.
    pub saved_h: f64,
    /// Expected cost it would save; `None` where the machine has no cost of an hour down.
    pub saved: Option<Money>,
}

/// A kit in depth.
#[derive(Debug, Clone)]
pub struct KitStudy {
    /// The plan, as in the plan of the whole shop.
    pub plan: KitPlan,
    /// Spend against the moment of running again for P50, P80 and P90, each with its share of cases; empty where a line
    /// or the end of the tasks is unknown.
    pub curves: Vec<(f64, Vec<CurveMoment>)>,
    /// The earliest plan within the budget for P50, P80 and P90, `None` where none is possible; empty where none was
    /// asked for.
    pub for_budget: Vec<(f64, Option<CurveMoment>)>,
    /// The least that has to be paid, for the same shares of cases, where nothing is possible within the budget.
    pub least_paid: Vec<(f64, Option<Money>)>,
    /// The cheapest plan by the time for P50, P80 and P90, `None` where none is possible; empty where none was asked for.
    pub for_time: Vec<(f64, Option<CurveMoment>)>,
    /// The soonest that the machine can run, for the same shares of cases, where nothing is possible by the time.
    pub soonest: Vec<(f64, Option<NaiveDateTime>)>,
    /// Whom to ring first.
    pub ask_first: Vec<AskFirst>,
    /// What was wrong with rows.
    pub issues: Vec<PlanIssue>,
}

/// Plans one kit in depth; `None` where the shop has no kit at this position.
pub fn study_kit(
    shop: &Shop,
    acceptances: &[LineAcceptance],
    position: usize,
    ask: &StudyAsk,
) -> Option<KitStudy> {
    let kit = shop.kits.get(position)?;
    let mut issues = Vec::new();
    let mut sourcing = Sourcing::new(shop, &mut issues);
    keep_those_of(kit, &parts_of(shop, acceptances, position), &mut issues);
    for offers in sourcing.offers.values_mut() {
        offers.retain(|offer| !ask.without.contains(&offer.offer));
    }
    sourcing
        .unusable
        .retain(|offer| !ask.without.contains(&offer.offer));
    let clock = WorkClock::new(&sourcing.calendars, shop.as_of);
    list_line_issues(&sourcing, kit, &mut issues);
    let tasks = TaskNet::new(kit, &mut issues);
    let hourly = hourly_cost(shop, kit, &sourcing, &mut issues);
    let by_line: BTreeMap<usize, &LineAcceptance> = acceptances
        .iter()
        .filter(|of| of.kit == position)
        .map(|of| (of.line, of))
        .collect();
    let of_shop = ShopLaws::default();
    let laws = KnownLaws::new(&of_shop);
    let planner = KitPlanner {
        stakes: Stakes {
            sourcing: &sourcing,
            clock: &clock,
            tasks: tasks.as_ref(),
            hourly,
            laws: &laws,
        },
        kit,
    };
    let parts = |of: fn(&crate::catalogue::KitLineOf, Option<&LineAcceptance>) -> Vec<PartId>| {
        let lines = kit.lines.iter().enumerate();
        lines
            .map(|(line, record)| of(record, by_line.get(&line).copied()))
            .collect::<Vec<_>>()
    };
    let (accepted, open) = (parts(accepted_parts), parts(open_parts));
    let waiting = WaitingOffers::new(&sourcing);
    let plan = plan_kit(&planner, position, (&accepted, &open), &waiting);
    let mut study = KitStudy {
        plan,
        curves: Vec::new(),
        for_budget: Vec::new(),
        least_paid: Vec::new(),
        for_time: Vec::new(),
        soonest: Vec::new(),
        ask_first: Vec::new(),
        issues,
    };
    if let Some(base) = planner.planned(&accepted, &[], Depth::Whole) {
        // A plan of the other lines does not make the machine run.
        let has_end = study.plan.accepted.running.is_some();
        let shares = || SHARES.iter().copied();
        if has_end {
            study.curves = shares()
                .map(|share| (share, planner.curve(&base, share)))
                .collect();
        }
        let ended = |found: Option<CurveMoment>| found.filter(|_| has_end);
        if let Some(budget) = ask.budget {
            let of = |share| ended(planner.for_budget(&base, share, budget.cents));
            study.for_budget = shares().map(|share| (share, of(share))).collect();
            let none = study.for_budget.iter().filter(|(_, found)| found.is_none());
            let least = |share| planner.least_paid(&base, share).filter(|_| has_end);
            study.least_paid = none.map(|(share, _)| (*share, least(*share))).collect();
        }
        if let Some(by) = ask.by {
            let of = |share| ended(planner.for_time(&base, share, by));
            study.for_time = shares().map(|share| (share, of(share))).collect();
            let none = study.for_time.iter().filter(|(_, found)| found.is_none());
            let soonest = |share| planner.soonest(&base, share).filter(|_| has_end);
            study.soonest = none.map(|(share, _)| (*share, soonest(*share))).collect();
        }
        study.ask_first = ask_first(&planner, &accepted, &base, &study.plan);
    }
    Some(study)
}

/// Numbers of the parts that are asked for or may be fitted on the kit's lines, or might yet be approved for them.
fn parts_of<'a>(
    shop: &'a Shop,
    acceptances: &[LineAcceptance],
    position: usize,
) -> BTreeSet<&'a str> {
    let asked_for = shop.kits[position]
        .lines
        .iter()
        .filter_map(|line| line.part);
    let of_kit = acceptances.iter().filter(|of| of.kit == position);
    let others = of_kit.flat_map(|of| {
        let accepted = of.accepted.iter().map(|of| of.part);
        accepted.chain(of.open.iter().map(|of| of.part))
    });
    asked_for
        .chain(others)
        .map(|part| shop.catalogue.part(part).number.as_str())
        .collect()
}

/// Leaves the issues that say something of one of `parts`, or of no part, such as a calendar that is missing.
fn keep_those_of(kit: &Kit, parts: &BTreeSet<&str>, issues: &mut Vec<PlanIssue>) {
    let lines: BTreeSet<&Place> = kit.lines.iter().map(|line| &line.record.place).collect();
    issues.retain(|issue| {
        let is_of_part = issue.part().is_none_or(|part| parts.contains(part));
        is_of_part || lines.contains(issue.place())
    });
}

/// Calls in the order of what their answers would save.
fn ask_first(
    planner: &KitPlanner<'_, '_>,
    accepted: &[Vec<PartId>],
    base: &Planned<'_>,
    plan: &KitPlan,
) -> Vec<AskFirst> {
    let mut calls = open_questions(planner, accepted, base, plan);
    calls.extend(cost_questions(planner, accepted, base, plan));
    if plan.accepted.running.is_some() {
        calls.extend(when_really(planner, base, plan));
    }
    calls.retain(|call| {
        call.saved
            .map_or(call.saved_h > 0.05, |saved| saved.cents >= 100)
    });
    calls.sort_by(|a, b| {
        let cents = |call: &AskFirst| call.saved.map_or(0, |saved| saved.cents);
        cents(b)
            .cmp(&cents(a))
            .then(b.saved_h.total_cmp(&a.saved_h))
            .then_with(|| (a.line, &a.place, a.question).cmp(&(b.line, &b.place, b.question)))
    });
    // Two rows of one supplier for one part are one call, worth what the better one is.
    let mut asked = BTreeSet::new();
    calls.retain(|call| {
        let of_way = call.way.map(|_| call.place.clone());
        let of = (
            call.question,
            call.line,
            call.part,
            call.supplier.clone(),
            of_way,
        );
        asked.insert(of)
    });
    calls.truncate(MOST_QUESTIONS);
    calls
}

/// Offers with a missing lead time, price or surcharge or an ended quote, each planned with as if that were answered.
fn open_questions(
    planner: &KitPlanner<'_, '_>,
    accepted: &[Vec<PartId>],
    base: &Planned<'_>,
    plan: &KitPlan,
) -> Vec<AskFirst> {
    let mut calls = Vec::new();
    let base_h = mean_h(planner, base);
    for line in plan.accepted.lines.iter().filter(|line| line.short > 0.0) {
        for (question, offer) in questions_of(planner, &accepted[line.line]) {
            let Some(assumed) = assume(planner, question, &offer, &accepted[line.line]) else {
                continue;
            };
            let assumed = [assumed];
            let Some(after) = planner.planned(accepted, &assumed, Depth::PlanAlone) else {
                continue;
            };
            let cents = (base.best.cents - after.best.cents).round() as i64;
            calls.push(AskFirst {
                question,
                line: line.line,
                part: Some(offer.part),
                supplier: offer.record.supplier.to_string(),
                way: None,
                place: offer.record.place.clone(),
                saved_h: if plan.accepted.running.is_some() {
                    base_h - mean_h(planner, &after)
                } else {
                    f64::INFINITY
                },
                saved: planner
                    .stakes
                    .hourly
                    .and_then(|_| planner.stakes.money(cents)),
            });
        }
    }
    calls
}

/// Offers of a line about which something is open, with their positions' records.
fn questions_of(planner: &KitPlanner<'_, '_>, parts: &[PartId]) -> Vec<(Question, OfferOf)> {
    let sourcing = planner.stakes.sourcing;
    let of = |position: usize| sourcing.shop.offers[position].clone();
    let mut questions = Vec::new();
    for part in parts {
        for offer in sourcing.offers_of(*part) {
            if offer.deliveries.iter().all(|way| way.arrival.is_none()) {
                questions.push((Question::LeadTime, of(offer.offer)));
            } else if offer.price_at(1.0).is_none() {
                questions.push((Question::Price, of(offer.offer)));
            }
            let mut hurried = of(offer.offer);
            let expedite = hurried.record.expedite.iter_mut();
            let unpriced: Vec<_> = expedite.filter(|of| of.surcharge.is_none()).collect();
            if !unpriced.is_empty() {
                for of in unpriced {
                    of.surcharge = Some(Money {
                        cents: 0,
                        currency: sourcing.shop.settings.currency,
                    });
                }
                questions.push((Question::Surcharge, hurried));
            }
        }
        for offer in sourcing.unusable.iter().filter(|offer| offer.part == *part) {
            match offer.why {
                WhyUnusable::Expired { .. } => {
                    questions.push((Question::Renew, of(offer.offer)));
                }
                WhyUnusable::NotApproved { .. } | WhyUnusable::ApprovalUnknown { .. } => {
                    questions.push((Question::Approve, of(offer.offer)));
                }
                _ => {}
            }
        }
    }
    questions
}

/// The offer as it would be with the question answered; `None` where it still could not be bought from.
fn assume<'o>(
    planner: &'o KitPlanner<'_, '_>,
    question: Question,
    offer: &'o OfferOf,
    parts: &[PartId],
) -> Option<UsableOffer<'o>> {
    let sourcing = planner.stakes.sourcing;
    let lead_times = sourcing.lead_times();
    let position = sourcing.shop.offers.len();
    let judged_as = match question {
        Question::Renew => JudgedAs::Renewed,
        Question::Approve => JudgedAs::OfApprovedSupplier,
        Question::WhenReally
        | Question::LeadTime
        | Question::Price
        | Question::WayCost
        | Question::Surcharge => JudgedAs::ItIs,
    };
    let mut usable = UsableOffer::judge_as(
        sourcing.shop,
        &sourcing.calendars,
        &lead_times,
        position,
        offer,
        judged_as,
    )
    .ok()?;
    if question == Question::Price {
        usable.assumed_price = lowest_price(sourcing, parts, usable.unit);
        usable.assumed_price?;
    }
    if !matches!(question, Question::Approve | Question::Surcharge)
        && let Some(way) = usable.deliveries.first_mut()
        && way.arrival.is_none()
    {
        way.arrival = lead_times.estimate(&LeadQuestion {
            supplier: &offer.record.supplier,
            record: Some(usable.supplier),
            part: offer.part,
            quoted: Some(QuotedLeadTime::InStock),
            is_hurried: true,
            ordered_at: sourcing.shop.as_of,
        });
    }
    Some(usable)
}

/// What it is worth to know when an offer would come before choosing: the mean saving over its answers.
fn when_really(planner: &KitPlanner<'_, '_>, base: &Planned<'_>, plan: &KitPlan) -> Vec<AskFirst> {
    let mut calls = Vec::new();
    let chances = &base.figures.chances;
    for (group, covers) in base.figures.covers.groups.iter().enumerate() {
        let mut offers = Vec::new();
        for (at, cover) in covers.iter().enumerate() {
            let Some(supply) = cover.single_order() else {
                continue;
            };
            let Some((part, supplier, place)) = asked_of(planner, &supply.source) else {
                continue;
            };
            let position = base.lines[cover.lines[0].at];
            let holds = plan.accepted.lines.iter().find(|of| of.line == position);
            if holds.and_then(|of| of.holds_share).unwrap_or(0.0) < LEAST_HOLD
                || planner.stakes.money(cover.cents).is_none()
            {
                continue;
            }
            let mut choices = base.best.choices.clone();
            choices[group] = at;
            offers.push((
                chances.expected(&choices),
                at,
                position,
                part,
                supplier,
                place,
            ));
        }
        offers.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        offers.truncate(MOST_OFFERS_OF_LINE);
        for (_, at, line, part, supplier, place) in offers {
            let (cents, saved_h) = worth_of_knowing(planner, base, chances, group, at);
            calls.push(AskFirst {
                question: Question::WhenReally,
                line,
                part: Some(part),
                supplier,
                way: None,
                place,
                saved_h,
                saved: planner
                    .stakes
                    .hourly
                    .and_then(|_| planner.stakes.money(cents.round() as i64)),
            });
        }
    }
    calls
}

/// Whom to ask when something really comes, an offer or an open order: part, supplier and row.
fn asked_of(planner: &KitPlanner<'_, '_>, source: &Source) -> Option<(PartId, String, Place)> {
    match source {
        Source::Offer {
            part,
            supplier,
            place,
            ..
        } => Some((*part, supplier.clone(), place.clone())),
        Source::OpenOrder { part, place } => {
            let order = planner.stakes.sourcing.open_order(*part, place)?;
            Some((*part, order.supplier.clone()?, place.clone()))
        }
        Source::Stock { .. } | Source::OtherWay { .. } => None,
    }
}

/// Mean saving in cents and hours, if the moment of one choice were known before choosing.
fn worth_of_knowing(
    planner: &KitPlanner<'_, '_>,
    base: &Planned<'_>,
    chances: &Chances,
    group: usize,
    at: usize,
) -> (f64, f64) {
    let mut known = chances.clone();
    let law = chances.lines[group][at].shares.clone();
    let (mut cents, mut hours) = (0.0, 0.0);
    for answer in ANSWERS {
        known.lines[group].clone_from(&chances.lines[group]);
        if base.figures.covers.open[group].is_empty() {
            let step = law.partition_point(|share| *share < answer);
            known.lines[group][at].shares = (0..law.len())
                .map(|moment| f64::from(u8::from(moment >= step)))
                .collect();
            // Two orders of which it is one are known to the same extent.
            let (alone, pairs) = (base.figures.covers.groups[group].len(), &base.figures.pairs);
            for (pair, (first, second)) in pairs[group].iter().enumerate() {
                if *first == at || *second == at {
                    let line = &mut known.lines[group];
                    let shares = line[*first].shares.iter().zip(&line[*second].shares);
                    line[alone + pair].shares =
                        shares.map(|(a, b)| 1.0 - (1.0 - a) * (1.0 - b)).collect();
                }
            }
        } else {
            answer_besides(planner, base, (group, at), answer, &mut known);
        }
        let before = known.expected(&base.best.choices);
        let hours_of =
            |choices: &[usize]| planner.mean_h(&base.figures.grid, &known.product(choices));
        let Some(best) = known.best(std::slice::from_ref(&base.best.choices), 0) else {
            continue;
        };
        cents += before - best.cents;
        hours += hours_of(&base.best.choices) - hours_of(&best.choices);
    }
    let count = ANSWERS.len() as f64;
    (cents / count, hours / count)
}

/// Takes into every choice of a line with open orders that one of its orders comes at the end of a share of its cases.
fn answer_besides(
    planner: &KitPlanner<'_, '_>,
    base: &Planned<'_>,
    (group, at): (usize, usize),
    answer: f64,
    known: &mut Chances,
) {
    let (covers, stakes) = (&base.figures.covers, &planner.stakes);
    let (asked, open) = (covers.groups[group][at].single_order(), &covers.open[group]);
    for choice in 0..known.lines[group].len() {
        let mut choices = base.best.choices.clone();
        choices[group] = choice;
        let of = &base.chosen_by(&choices)[group];
        let line = &of.cover.lines[0];
        let also = of.also.iter().flat_map(|also| &also.lines[0].supplies);
        let law = stakes.law_with_open(
            line.supplies.iter().chain(also),
            (open, short_of(&line.supplies)),
            Lateness::Apart,
            asked.map(|asked| (asked, answer)),
        );
        let up = |law: ArrivalLaw| law.mapped(|moment| stakes.up(moment, base.tails[line.at]));
        if let Some(law) = law.filter(|_| of.cover.is_covered()).and_then(up) {
            known.lines[group][choice].shares = law.on(&base.figures.grid);
        }
    }
}

pub(super) fn mean_h(planner: &KitPlanner<'_, '_>, planned: &Planned<'_>) -> f64 {
    let figures = &planned.figures;
    planner.mean_h(
        &figures.grid,
        &figures.chances.product(&planned.best.choices),
    )
}

impl std::fmt::Display for Question {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::WhenReally => "when would it really come? (mean over the likely answers)",
            Self::LeadTime => "what is the lead time? (if it is on the supplier's shelf)",
            Self::Renew => "is the ended quote still good? (if renewed as it was)",
            Self::Approve => "may it be bought from this supplier? (if somebody approves him)",
            Self::Price => "what is the price? (at the lowest price of another offer)",
            Self::WayCost => "what does it cost? (if nothing, the most that the answer can save)",
            Self::Surcharge => {
                "what does hurrying it cost? (if nothing, the most that the answer can save)"
            }
        })
    }
}
