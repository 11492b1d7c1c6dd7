//! Parts, lines and reasons in words, the same on every sheet.

use std::collections::BTreeSet;

use super::Inputs;
use super::open_lines::{line_in_kit, open_line};
use crate::catalogue::{Kit, KitLineOf, PartId, Shop};
use crate::interchange::{Subject, Verdict, judge};
use crate::plan::{
    Completion, DeliveryKind, KitOutcome, LinePlan, OrderedFor, Plan, ReorderLine, ReorderReason,
    Source, Supply, share_of_cases,
};
use crate::record::ApprovalOutcome;
use crate::report::model::Value;
use crate::units::{Money, without_rounding_residue};

/// Own number, else the supplier's number or designation.
pub fn number(shop: &Shop, part: PartId) -> String {
    shop.catalogue.part(part).number.clone()
}

/// Designation, else the description.
pub fn designation(shop: &Shop, part: PartId) -> Value {
    let part = shop.catalogue.part(part);
    match part.designation.as_ref().or(part.description.as_ref()) {
        Some(text) => Value::text(text.clone()),
        None => Value::unknown("no designation in any table"),
    }
}

/// Family and size: `deep groove ball bearing 25 x 62 x 17 mm`.
pub fn size(shop: &Shop, part: PartId) -> Value {
    let part = shop.catalogue.part(part);
    match (part.size, part.family) {
        (Some(size), _) => Value::text(format!("{} {size}", size.family())),
        (None, Some(family)) => Value::text(format!("{family}, size unknown")),
        (None, None) => Value::Empty,
    }
}

/// Kit and line: `Fan FN-6 shaft, line 20`.
pub fn line_name(line: &KitLineOf) -> String {
    format!("{}, line {}", line.record.kit, line.record.line)
}

/// What a kit line asks for, in the words of its table and of its part.
pub fn asked_for(shop: &Shop, line: &KitLineOf) -> String {
    match (line.part, &line.record.part, &line.record.description) {
        (Some(part), _, _) => shop.catalogue.part(part).label(),
        (None, Some(name), _) => name.clone(),
        (None, None, Some(description)) => description.clone(),
        (None, None, None) => "not described".to_owned(),
    }
}

/// Money, or unknown for the reason given.
pub fn money(money: Option<Money>, why_not: &'static str) -> Value {
    money.map_or_else(|| Value::unknown(why_not), Value::Money)
}

/// True where a kit has tasks with hours; without them its downtime is the wait for parts alone.
pub fn has_work(kit: &Kit) -> bool {
    !kit.tasks.is_empty()
}

/// Where one supply comes from, with its basis.
pub fn supply(shop: &Shop, supply: &Supply) -> String {
    let of = |part: &PartId| number(shop, *part);
    match &supply.source {
        Source::Stock { part, .. } => {
            format!(
                "{} x {} on the shelf",
                without_rounding_residue(supply.quantity),
                of(part)
            )
        }
        Source::OpenOrder { part, .. } => {
            format!(
                "{} x {} on order",
                without_rounding_residue(supply.quantity),
                of(part)
            )
        }
        Source::Offer {
            part,
            supplier,
            delivery,
            gives,
            ..
        } => {
            let (needed, part, how) = (
                without_rounding_residue(supply.quantity),
                of(part),
                how(*delivery),
            );
            // What is ordered is more than is needed where pack, minimum or price break say so.
            if *gives > supply.quantity + 1e-9 {
                let gives = without_rounding_residue(*gives);
                format!("{gives} x {part} ({needed} needed) from {supplier}{how}")
            } else {
                format!("{needed} x {part} from {supplier}{how}")
            }
        }
        Source::OtherWay { kind, .. } => {
            let stands = supply.donor_downtime.map_or_else(String::new, |downtime| {
                format!(", which then stands for {downtime}")
            });
            format!(
                "{} {}{stands}",
                without_rounding_residue(supply.quantity),
                way(*kind)
            )
        }
    }
}

/// How goods come, where that is not the ordinary way.
pub fn how(delivery: DeliveryKind) -> &'static str {
    match delivery {
        DeliveryKind::Normal => "",
        DeliveryKind::Hurried => ", hurried",
        DeliveryKind::Collected => ", collected from the counter",
        DeliveryKind::Courier => ", by courier",
        DeliveryKind::SameDay => ", brought on the same day",
    }
}

/// A way other than buying, as a participle.
pub fn way(kind: crate::record::OtherWayKind) -> &'static str {
    use crate::record::OtherWayKind as K;
    match kind {
        K::MakeInHouse => "made in house",
        K::ReworkInHouse => "reworked in house",
        K::RepairOutside => "repaired outside",
        K::OtherBin => "taken from another bin",
        K::OtherMachine => "taken from another machine",
    }
}

/// True where every line of the kit is on the shelf; never where nobody can say how many a line needs.
pub fn is_complete_from_shelf(outcome: &KitOutcome) -> bool {
    let is_known = matches!(outcome.completion, Completion::Known { .. });
    is_known && !outcome.lines.is_empty() && outcome.lines.iter().all(|line| line.short <= 0.0)
}

/// The line that most often is the last, with its share of cases, or the lines without a known arrival and why.
pub fn holds_it(inputs: &Inputs<'_>, kit: usize, outcome: &KitOutcome) -> String {
    let name = |line: usize| line_in_kit(inputs, kit, line);
    match &outcome.completion {
        Completion::Known {
            last_line: Some(last),
            ..
        } => match holder(outcome, |line| line.holds_share) {
            None => name(*last),
            Some((_, share)) if share < 0.005 => {
                "nothing: parts come before the work needs them".to_owned()
            }
            Some((line, share)) => {
                format!("{} ({:.0} % of cases)", name(line.line), 100.0 * share)
            }
        },
        Completion::Known {
            last_line: None, ..
        } => "nothing: all on the shelf".to_owned(),
        Completion::Unknown { lines } => {
            let lines = lines.iter();
            let names = lines.map(|line| open_line(inputs, kit, outcome, *line));
            names.collect::<Vec<_>>().join("; ")
        }
    }
}

/// The line that is the last in the greatest share of cases, with that share; the first of equals.
pub fn holder(
    outcome: &KitOutcome,
    share_of: impl Fn(&LinePlan) -> Option<f64>,
) -> Option<(&LinePlan, f64)> {
    let lines = outcome.lines.iter();
    lines
        .filter_map(|line| Some((line, share_of(line)?)))
        .max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.line.cmp(&a.0.line)))
}

/// Why something is ordered, in a sentence with its figures.
fn reason(inputs: &Inputs<'_>, reason: &ReorderReason) -> String {
    let mut words = needed_for(inputs, reason);
    for besides in reason.not_counted() {
        words.push_str(&format!(" {}", sentence(&besides)));
    }
    words
}

/// The same without what is there besides and not counted.
fn needed_for(inputs: &Inputs<'_>, reason: &ReorderReason) -> String {
    match reason {
        ReorderReason::AtReorderPoint {
            free,
            on_order,
            left_over,
            for_rebuilds,
            reorder_point,
            ..
        } => {
            let (free, on_order) = (
                without_rounding_residue(*free),
                without_rounding_residue(*on_order),
            );
            let left = if *left_over > 0.0 {
                let left_over = without_rounding_residue(*left_over);
                format!(", {left_over} left over of orders for rebuilds")
            } else {
                String::new()
            };
            let taken = if *for_rebuilds > 0.0 {
                let for_rebuilds = without_rounding_residue(*for_rebuilds);
                format!(", {for_rebuilds} for planned rebuilds")
            } else {
                String::new()
            };
            format!("{free} free, {on_order} on order{left}{taken}; reorder point {reorder_point}.")
        }
        ReorderReason::Rebuild {
            need,
            date,
            needed,
            short,
            ..
        } => {
            let need = inputs.plan.needs.get(*need);
            let line = need.map(|need| line_name(&inputs.shop.kits[need.kit].lines[need.line]));
            let line = line.unwrap_or_else(|| "kit unknown".to_owned());
            let (needed, short) = (
                without_rounding_residue(*needed),
                without_rounding_residue(*short),
            );
            format!("Rebuild on {date} needs {needed}, {short} missing: {line}.")
        }
        ReorderReason::LastBuy {
            until,
            expected,
            wanted,
            enough_share,
            ..
        } => {
            format!(
                "Last buy: its machines leave service by {until}, about {expected:.1} are used until then, and {} in all are enough in {} of cases.",
                without_rounding_residue(*wanted),
                share_of_cases(*enough_share)
            )
        }
    }
}

/// What the person who approved a part for a line asks to be checked before it is fitted.
pub fn checks_of(line: &KitLineOf, part: PartId) -> Option<&str> {
    let mut approvals = line.approvals.iter();
    approvals.find_map(|(of, approval)| {
        let is_it = *of == Some(part) && approval.outcome == ApprovalOutcome::Approved;
        approval.checks.as_deref().filter(|_| is_it)
    })
}

/// The conditions under which a part was approved for the line that a need is for.
fn checks_of_need(inputs: &Inputs<'_>, reason: &ReorderReason, part: PartId) -> Option<String> {
    let ReorderReason::Rebuild { need, .. } = reason else {
        return None;
    };
    let need = inputs.plan.needs.get(*need)?;
    let line = &inputs.shop.kits[need.kit].lines[need.line];
    Some(format!("Check before fitting: {}.", checks_of(line, part)?))
}

/// True where nobody knows how many of a part are there, as a row of its stock was not taken.
pub fn is_stock_unknown(plan: &Plan, part: PartId) -> bool {
    let stock = plan.stock.by_part.get(&part);
    stock.is_some_and(|stock| stock.has_unknown)
}

/// True for any of the parts whose stock and open orders count for a need.
fn counts_any(inputs: &Inputs<'_>, need: &OrderedFor, is_it: impl Fn(&PartId) -> bool) -> bool {
    let plan = inputs.plan;
    match need.reason {
        ReorderReason::Rebuild { need: at, .. } => {
            let need = plan.needs.get(at);
            need.is_some_and(|need| need.accepted.iter().any(is_it))
        }
        ReorderReason::AtReorderPoint { .. } | ReorderReason::LastBuy { .. } => {
            let level = plan.levels.by_part.get(&need.part);
            level.map_or_else(
                || is_it(&need.part),
                |level| level.stocked().any(|part| is_it(&part)),
            )
        }
    }
}

/// True where stock counts as 0 for a need because nobody knows how many there are.
fn rests_on_unknown_stock(inputs: &Inputs<'_>, need: &OrderedFor) -> bool {
    counts_any(inputs, need, |part| is_stock_unknown(inputs.plan, *part))
}

/// Parts of which an order is placed and not here yet, and counts as nothing because nobody knows how many it is for.
pub fn on_order_unsaid(shop: &Shop) -> BTreeSet<PartId> {
    let open = shop.receipts.iter().filter(|of| {
        of.record.received.is_none()
            && of.record.quantity.is_none()
            && of.record.ordered <= shop.as_of.date()
    });
    open.filter_map(|of| of.part).collect()
}

/// Why an order line is there: every need that it serves, and what speaks for a part that was never used.
///
/// `unsaid` are the parts of [`on_order_unsaid`].
pub fn reasons(inputs: &Inputs<'_>, line: &ReorderLine, unsaid: &BTreeSet<PartId>) -> String {
    let mut words = Vec::new();
    for need in &line.needs {
        words.push(reason(inputs, &need.reason));
        match (&need.never_used, need.only_by_minimum) {
            (Some(never_used), _) => words.push(sentence(&never_used.to_string())),
            (None, Some(minimum)) => words.push(sentence(&minimum.to_string())),
            (None, None) => {}
        }
        if need.part != line.buy.part {
            words.push(format!("In place of {}.", number(inputs.shop, need.part)));
        }
        words.extend(checks_of_need(inputs, &need.reason, line.buy.part));
    }
    if line
        .needs
        .iter()
        .any(|need| rests_on_unknown_stock(inputs, need))
    {
        words.push("The stock list does not say how many there are: 0 was assumed.".to_owned());
    }
    if line
        .needs
        .iter()
        .any(|need| counts_any(inputs, need, |part| unsaid.contains(part)))
    {
        words.push(
            "An open order does not say how many it is for: none of it was counted.".to_owned(),
        );
    }
    if line.is_supplier_unapproved {
        words.push("No table approves this supplier.".to_owned());
    }
    words.join(" ")
}

/// How far the standard size behind a part was cross-checked; blank where no standard row is behind it.
pub fn cross_checked(shop: &Shop, part: PartId) -> Value {
    match Subject::of_part(shop.catalogue.part(part)).confidence {
        None => Value::Empty,
        Some(letter) if letter.is_cross_checked() => Value::text(letter.to_string()),
        Some(letter) => Value::text(format!("{letter}, from memory")),
    }
}

/// What the rules say against a substitute that a person approved; `None` where they have nothing against it.
pub fn against_the_rules(shop: &Shop, asked_for: PartId, substitute: PartId) -> Option<String> {
    let subject = |part| Subject::of_part(shop.catalogue.part(part));
    let judgement = judge(&subject(asked_for), &subject(substitute));
    (judgement.verdict >= Verdict::MustNot).then(|| judgement.against())
}

/// A reason as a sentence of its own: a capital first, a full stop last.
pub fn sentence(text: &str) -> String {
    let mut chars = text.chars();
    let first: String = chars
        .next()
        .map(|c| c.to_uppercase().collect())
        .unwrap_or_default();
    format!("{first}{}.", chars.as_str())
}
