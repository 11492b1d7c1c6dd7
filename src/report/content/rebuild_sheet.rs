//! The rebuild sheet: what one kit needs at the bench, on one page with boxes to write in.

use chrono::NaiveDateTime;

use super::Inputs;
use super::open_lines::{OpenCause, cause};
use super::words::{asked_for, number, size};
use crate::catalogue::{KitLineOf, PartId, Shop};
use crate::caution;
use crate::interchange::{AcceptedBecause, LineAcceptance, Subject, judge};
use crate::language::Language;
use crate::part::{Family, Teardown};
use crate::plan::{KitPlan, LinePlan, Source};
use crate::record::ApprovalOutcome;
use crate::report::model::Value;

/// Words of parts without a standard size that are never fitted a second time (common practice, no source): tab washers lose
/// their tab.
const NEVER_AGAIN_WORDS: [&str; 8] = [
    "gasket",
    "tab washer",
    "lock washer",
    "lockwasher",
    "split pin",
    "cotter pin",
    "felt",
    "self-locking nut",
];

/// Parts named that must not be fitted; more would bury the first ones.
const REFUSED_NAMED: usize = 4;

/// One kit on one page.
#[derive(Debug, Clone, PartialEq)]
pub struct RebuildSheet {
    /// Position of the kit in the shop.
    pub kit: usize,
    /// Kit.
    pub name: String,
    /// Machine and assembly.
    pub machine: Option<String>,
    /// Moment the sheet holds for.
    pub as_of: NaiveDateTime,
    /// Shop.
    pub shop: String,
    /// What to do before anything is touched.
    pub isolation: &'static [&'static str],
    /// Lines, in the order of the kit.
    pub lines: Vec<RebuildLine>,
    /// Tasks in the order of the table, with their hours.
    pub tasks: Vec<(String, f64)>,
    /// Cautions.
    pub cautions: &'static [&'static str],
    /// Language of its words and dates.
    pub language: Language,
}

/// One line of it.
#[derive(Debug, Clone, PartialEq)]
pub struct RebuildLine {
    /// Line number or name.
    pub line: String,
    /// Part asked for.
    pub part: String,
    /// Type and size; empty where no table has it.
    pub size: String,
    /// How many.
    pub needed: String,
    /// Bins that hold it.
    pub bins: String,
    /// When it is here: `on the shelf`, the likely and the late moment, or `unknown`.
    pub here: String,
    /// Other numbers that may be fitted, with who approved them.
    pub accepted: String,
    /// Other numbers of the size that fit only after a person has approved them for the line.
    pub open: String,
    /// Other numbers of the size that must not be fitted, with all that differs, what bars them most first.
    pub refused: String,
    /// What to check before fitting.
    pub checks: Vec<String>,
    /// Torque, consumables and notes of the kit table.
    pub note: String,
    /// True where the old part must not be fitted again.
    pub is_never_again: bool,
    /// What teardown shows and the sheet has boxes for.
    pub boxes: &'static [&'static str],
}

/// One sheet for each kit, in the order of the shop.
pub fn rebuild_sheets(inputs: &Inputs<'_>) -> Vec<RebuildSheet> {
    inputs
        .plan
        .kits
        .iter()
        .map(|plan| of_kit(inputs, plan))
        .collect()
}

fn of_kit(inputs: &Inputs<'_>, plan: &KitPlan) -> RebuildSheet {
    let shop = inputs.shop;
    let kit = &shop.kits[plan.kit];
    let assembly = kit
        .lines
        .iter()
        .find_map(|line| line.record.assembly.clone());
    let place: Vec<String> = kit.machine.iter().cloned().chain(assembly).collect();
    let lines = kit.lines.iter().enumerate().map(|(at, line)| {
        let planned = plan.accepted.lines.iter().find(|of| of.line == at);
        of_line(inputs, (plan, at), line, planned)
    });
    RebuildSheet {
        kit: plan.kit,
        name: kit.name.clone(),
        machine: (!place.is_empty()).then(|| place.join(", ")),
        as_of: shop.as_of,
        shop: shop.settings.shop.clone(),
        isolation: caution::ISOLATION,
        lines: lines.collect(),
        tasks: kit
            .tasks
            .iter()
            .map(|task| (task.task.clone(), task.hours))
            .collect(),
        cautions: caution::FITTING,
        language: Language::ENGLISH,
    }
}

fn of_line(
    inputs: &Inputs<'_>,
    (plan, at): (&KitPlan, usize),
    line: &KitLineOf,
    planned: Option<&LinePlan>,
) -> RebuildLine {
    let shop = inputs.shop;
    let acceptance = inputs
        .acceptances
        .iter()
        .find(|of| of.kit == plan.kit && of.line == at);
    let size = line.part.map_or(Value::Empty, |part| size(shop, part));
    let text = asked_for(shop, line);
    RebuildLine {
        line: line.record.line.clone(),
        size: match size {
            Value::Text(text) => text.to_string(),
            _ => String::new(),
        },
        needed: planned.map_or_else(
            || {
                let needed = line.record.quantity;
                needed.map_or_else(|| "unknown".to_owned(), |needed| needed.to_string())
            },
            |planned| planned.unit.counted(planned.needed),
        ),
        bins: bins(shop, planned),
        here: here(planned, || cause(inputs, plan.kit, &plan.accepted, at)),
        accepted: acceptance.map_or_else(String::new, |of| accepted(shop, line.part, of)),
        open: acceptance.map_or_else(String::new, |of| open(shop, line, of)),
        refused: acceptance.map_or_else(String::new, |of| refused(shop, of)),
        checks: checks(shop, line, planned),
        note: line.record.note.clone().unwrap_or_default(),
        is_never_again: is_never_again(family(shop, line), line, &text),
        boxes: boxes(family(shop, line)),
        part: text,
    }
}

fn family(shop: &Shop, line: &KitLineOf) -> Option<Family> {
    let of_part = line.part.and_then(|part| shop.catalogue.part(part).family);
    line.record.family.or(of_part)
}

fn is_never_again(family: Option<Family>, line: &KitLineOf, text: &str) -> bool {
    let words = format!(
        "{} {}",
        text.to_lowercase(),
        line.record
            .description
            .as_deref()
            .unwrap_or_default()
            .to_lowercase()
    );
    family.is_some_and(|family| !family.facts().teardown.is_fitted_again)
        || NEVER_AGAIN_WORDS.iter().any(|word| words.contains(word))
}

/// Bins of the stock that the plan takes.
fn bins(shop: &Shop, planned: Option<&LinePlan>) -> String {
    let parts: Vec<PartId> = planned
        .into_iter()
        .flat_map(|planned| &planned.supplies)
        .filter_map(|supply| match &supply.source {
            Source::Stock { part, .. } => Some(*part),
            _ => None,
        })
        .collect();
    let mut bins: Vec<String> = shop
        .stock
        .iter()
        .filter(|stock| parts.contains(&stock.part))
        .filter(|stock| !stock.record.is_blocked)
        .filter(|stock| stock.record.on_hand.is_some_and(|on_hand| on_hand > 0.0))
        .filter_map(|stock| stock.record.bin.clone())
        .collect();
    bins.sort();
    bins.dedup();
    bins.join(", ")
}

fn here(planned: Option<&LinePlan>, cause: impl Fn() -> OpenCause) -> String {
    let unknown = || {
        let why = cause().words();
        let why = why.unwrap_or_else(|| "no source with a lead time".to_owned());
        format!("unknown: {why}")
    };
    match planned {
        None => unknown(),
        Some(planned) if planned.short <= 0.0 => "on the shelf".to_owned(),
        Some(planned) => match &planned.arrival {
            None => unknown(),
            Some(arrival) => format!(
                "likely {}, late {}",
                arrival.likely.format("%Y-%m-%d %H:%M"),
                arrival.late.format("%Y-%m-%d %H:%M")
            ),
        },
    }
}

fn accepted(shop: &Shop, asked_for: Option<PartId>, of: &LineAcceptance) -> String {
    let others = of.accepted.iter().filter(|of| Some(of.part) != asked_for);
    let words = others.map(|of| match &of.because {
        AcceptedBecause::ApprovedBy { by, .. } => {
            format!("{} (approved by {by})", number(shop, of.part))
        }
        AcceptedBecause::AskedFor | AcceptedBecause::GoesInAsItIs => number(shop, of.part),
    });
    words.collect::<Vec<_>>().join(", ")
}

/// Parts of the line's size that the rules refuse, or that were tried and did not fit.
fn refused(shop: &Shop, of: &LineAcceptance) -> String {
    let words: Vec<String> = of
        .refused
        .iter()
        .map(|of| {
            let differs = of.judgement.differs.iter();
            let differs: Vec<String> = differs
                .map(|of| format!("{}: {}", of.what, of.have))
                .collect();
            match differs.is_empty() {
                true => number(shop, of.part),
                false => format!("{} ({})", number(shop, of.part), differs.join("; ")),
            }
        })
        .collect();
    first_of(&words)
}

/// Parts that only an approval for this line would let in; none where the line wants no substitutes.
fn open(shop: &Shop, line: &KitLineOf, of: &LineAcceptance) -> String {
    if line.record.no_substitutes {
        return String::new();
    }
    let words: Vec<String> = of.open.iter().map(|of| number(shop, of.part)).collect();
    first_of(&words)
}

/// The first of the parts, and how many more there are.
fn first_of(words: &[String]) -> String {
    let more = words.len().saturating_sub(REFUSED_NAMED);
    let mut text = words[..words.len() - more].join(", ");
    if more > 0 {
        text.push_str(&format!(", and {more} more"));
    }
    text
}

/// What the rules ask of the part that the plan takes in place of the one asked for, and what persons found: checks of
/// their approvals, and what went wrong with what did not fit.
fn checks(shop: &Shop, line: &KitLineOf, planned: Option<&LinePlan>) -> Vec<String> {
    let subject = |part| Subject::of_part(shop.catalogue.part(part));
    let taken = planned.and_then(|planned| planned.part);
    let by_rule = line
        .part
        .zip(taken)
        .filter(|(asked_for, taken)| asked_for != taken)
        .map(|(asked_for, taken)| judge(&subject(asked_for), &subject(taken)).before_fitting())
        .filter(|words| !words.is_empty());
    let by_persons = line.approvals.iter().filter_map(|(_, of)| {
        let found = of.checks.as_deref()?;
        Some(match of.outcome {
            ApprovalOutcome::Approved => format!("{}: {found}", of.substitute),
            ApprovalOutcome::DidNotFit => format!("{} did not fit: {found}", of.substitute),
            ApprovalOutcome::Rejected => format!("{} was rejected: {found}", of.substitute),
        })
    });
    by_rule.into_iter().chain(by_persons).collect()
}

/// What to write down at teardown, by what the line is.
fn boxes(family: Option<Family>) -> &'static [&'static str] {
    family.map_or(Teardown::NOTED_OF_ANY, |family| {
        family.facts().teardown.noted
    })
}
