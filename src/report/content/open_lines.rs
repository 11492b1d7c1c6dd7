//! Why a kit line has no known arrival: what is true of it, in words.

use super::Inputs;
use super::words::asked_for;
use crate::catalogue::PartId;
use crate::plan::{Completion, KitOutcome, KitPlan, PlanIssue, Source, UnusableOffer, WhyUnusable};
use crate::record::QuotedLeadTime;
use crate::units::{Currency, without_rounding_residue};

/// What is missing before a line can be dated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OpenCause {
    /// Nobody can say how many the line needs.
    Quantity,
    /// Sources give some of it.
    NotEnough {
        /// How many have a source.
        there: f64,
        /// How many are needed.
        needed: f64,
        /// True where an offer or an open order without a known arrival might give the rest.
        has_undated: bool,
    },
    /// Stock or offers count in a unit that the line's must not be counted in.
    Unit,
    /// No source with a lead time at all.
    NoLeadTime,
    /// Offers with a lead time are in a currency without a rate of exchange only.
    NoRate {
        /// The first of these currencies.
        currency: Currency,
    },
    /// No source, because the line names no part that the tables know.
    NoPart,
}

impl OpenCause {
    /// The cause behind the name of the line; `None` for the ordinary one.
    pub fn words(self) -> Option<String> {
        match self {
            Self::Quantity => Some("quantity unknown".to_owned()),
            Self::NotEnough {
                there,
                needed,
                has_undated,
            } => Some(format!(
                "only {} of {} {}",
                without_rounding_residue(there),
                without_rounding_residue(needed),
                match has_undated {
                    true => "have a source with a lead time",
                    false => "are on the shelf, on order or offered",
                }
            )),
            Self::Unit => Some("stocked or offered in another unit of count".to_owned()),
            Self::NoRate { currency } => Some(format!(
                "offered in {} without a rate of exchange",
                currency.code()
            )),
            Self::NoLeadTime | Self::NoPart => None,
        }
    }

    /// The cause as the reason of an unknown value.
    pub const fn reason(self) -> &'static str {
        match self {
            Self::Quantity => "its quantity or unit of count cannot be read",
            Self::NotEnough {
                has_undated: true, ..
            } => "not all of it has a source with a known lead time",
            Self::NotEnough { .. } => {
                "fewer are on the shelf, on order and offered than the line needs"
            }
            Self::Unit => "stocked or offered in another unit of count",
            Self::NoRate { .. } => "offered in a currency without a rate of exchange",
            Self::NoLeadTime | Self::NoPart => "no source with a known lead time",
        }
    }
}

/// Why a line of a kit has no known arrival.
pub fn cause(inputs: &Inputs<'_>, kit: usize, outcome: &KitOutcome, line: usize) -> OpenCause {
    let record = &inputs.shop.kits[kit].lines[line].record;
    if record.quantity.is_none() {
        return OpenCause::Quantity;
    }
    let planned = outcome.lines.iter().find(|of| of.line == line);
    let is_new = |source: &Source| !matches!(source, Source::Stock { .. });
    if let Some(planned) = planned.filter(|of| of.supplies.iter().any(|of| is_new(&of.source))) {
        return OpenCause::NotEnough {
            there: planned.needed - planned.uncovered,
            needed: planned.needed,
            has_undated: has_undated(inputs, (kit, line)),
        };
    }
    let is_of_units = inputs.plan.issues.iter().any(|issue| match issue {
        PlanIssue::UnitConflict { other, .. } => *other == record.place,
        PlanIssue::UnitUnknownForSet { place, .. } => *place == record.place,
        _ => false,
    });
    let asked_for = inputs.shop.kits[kit].lines[line].part;
    if !is_of_units && let Some(currency) = without_rate(inputs, (kit, line), asked_for) {
        return OpenCause::NoRate { currency };
    }
    match (is_of_units, asked_for.is_some()) {
        (true, _) => OpenCause::Unit,
        (false, true) => OpenCause::NoLeadTime,
        (false, false) => OpenCause::NoPart,
    }
}

/// Currency without a rate of the first offer with a lead time for what may be fitted on a line; `None` where there is none.
fn without_rate(
    inputs: &Inputs<'_>,
    (kit, line): (usize, usize),
    asked_for: Option<PartId>,
) -> Option<Currency> {
    let parts = fitted(inputs, (kit, line), asked_for);
    let mut offers = inputs.plan.unusable_offers.iter();
    offers.find_map(|offer| currency_without_rate(inputs, offer, &parts))
}

/// The part asked for and those that may be fitted on a line.
fn fitted(
    inputs: &Inputs<'_>,
    (kit, line): (usize, usize),
    asked_for: Option<PartId>,
) -> Vec<PartId> {
    let acceptances = inputs.acceptances.iter();
    let of_line = acceptances.filter(|of| of.kit == kit && of.line == line);
    let accepted = of_line.flat_map(|of| of.accepted.iter().map(|of| of.part));
    asked_for.into_iter().chain(accepted).collect()
}

/// True where an offer or an open order of what may be fitted on a line has no known arrival.
fn has_undated(inputs: &Inputs<'_>, (kit, line): (usize, usize)) -> bool {
    let asked_for = inputs.shop.kits[kit].lines[line].part;
    let parts = fitted(inputs, (kit, line), asked_for);
    let mut offers = inputs.plan.offers.iter();
    let mut orders = inputs.plan.open_orders.iter();
    offers
        .any(|of| parts.contains(&of.part) && of.deliveries.iter().all(|way| way.arrival.is_none()))
        || orders.any(|of| parts.contains(&of.part) && of.arrival.is_none() && !of.is_forgotten)
}

/// The currency for which an offer of one of some parts waits, although it says when it comes.
pub fn currency_without_rate(
    inputs: &Inputs<'_>,
    offer: &UnusableOffer,
    parts: &[PartId],
) -> Option<Currency> {
    let WhyUnusable::NoExchangeRate { currency } = offer.why else {
        return None;
    };
    let lead_time = inputs.shop.offers.get(offer.offer)?.record.lead_time?;
    let is_told = lead_time != QuotedLeadTime::OnRequest;
    (is_told && parts.contains(&offer.part)).then_some(currency)
}

/// A line within its kit: `line 10: BRG-0324 (22213)`.
pub fn line_in_kit(inputs: &Inputs<'_>, kit: usize, line: usize) -> String {
    let of = &inputs.shop.kits[kit].lines[line];
    format!("line {}: {}", of.record.line, asked_for(inputs.shop, of))
}

/// A line without a known arrival, with its cause: `line 30: A3, quantity unknown`.
pub fn open_line(inputs: &Inputs<'_>, kit: usize, outcome: &KitOutcome, line: usize) -> String {
    let name = line_in_kit(inputs, kit, line);
    match cause(inputs, kit, outcome, line).words() {
        Some(words) => format!("{name}, {words}"),
        None => name,
    }
}

/// True where a kit has no end and a line of it is open for such a cause.
pub fn has_cause(inputs: &Inputs<'_>, plan: &KitPlan, is_it: impl Fn(OpenCause) -> bool) -> bool {
    match &plan.accepted.completion {
        Completion::Known { .. } => false,
        Completion::Unknown { lines } => lines
            .iter()
            .any(|line| is_it(cause(inputs, plan.kit, &plan.accepted, *line))),
    }
}

/// True where a kit has no end and a line of it names no known part and has nothing that would come for it.
pub fn names_no_part(inputs: &Inputs<'_>, plan: &KitPlan) -> bool {
    let is_unnamed = |line: usize| {
        let cause = || cause(inputs, plan.kit, &plan.accepted, line);
        inputs.shop.kits[plan.kit].lines[line].part.is_none()
            && matches!(cause(), OpenCause::NoPart | OpenCause::Quantity)
    };
    match &plan.accepted.completion {
        Completion::Known { .. } => false,
        Completion::Unknown { lines } => lines.iter().any(|line| is_unnamed(*line)),
    }
}
