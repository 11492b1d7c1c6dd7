//! From histories to rates, by the method of the settings.

use std::collections::BTreeMap;

use super::super::exchange::Exchange;
use super::croston::Smoothed;
use super::discount::{Discount, MONTH_DAYS, USUAL_DISCOUNT, best_discount};
use super::gamma_poisson::{Counted, EventRate, GroupPrior};
use super::group::{Grouped, Groups};
use super::history::History;
use super::likely_sizes::{counted_sizes, group_sizes, likely_sizes, whole_sizes};
use super::moments::{DemandRate, RateBasis};
use super::size::{GroupSizes, LogSizes, SizeMoments};
use crate::catalogue::{PartId, Shop};
use crate::parallel;
use crate::part::PartClass;
use crate::record::DemandMethod;

/// Days foretold from each origin when the discount is chosen.
const FORETOLD_DAYS: f64 = 91.0;

/// Origins, each a further [`FORETOLD_DAYS`] back.
const ORIGINS: usize = 4;

/// Most parts that the discount is chosen from; of more, every so many-th is taken.
const MOST_PARTS: usize = 5000;

/// Smoothing constant of the options by month (statsforecast's and the literature's usual 0.1).
const SMOOTHING: f64 = 0.1;

/// Days of exposure that stand for a rate taken as certain; a power of two, so that the rate comes back unrounded.
const CERTAIN_DAYS: f64 = (1_u64 << 50) as f64;

impl EventRate {
    /// A rate without a distribution of its own.
    pub fn certain(per_day: f64) -> Self {
        Self {
            shape: per_day * CERTAIN_DAYS,
            exposure_days: CERTAIN_DAYS,
        }
    }
}

/// What is expected of a part.
#[derive(Debug, Clone, PartialEq)]
pub struct Expected {
    /// How often, in what quantities, and what that rests on.
    pub rate: DemandRate,
    /// Quantities that its own usages make likely, and its group's where its parts are alike; empty where only mean and spread
    /// are known.
    pub likely_sizes: Vec<(u32, f64)>,
}

/// Rates of all parts with exposure; none at all where no part was ever used.
pub fn estimates(
    shop: &Shop,
    exchange: &Exchange<'_>,
    histories: &BTreeMap<PartId, History>,
) -> BTreeMap<PartId, Expected> {
    let exposed: Vec<(PartId, &History)> = histories
        .iter()
        .filter(|(_, history)| history.exposure.is_ok())
        .map(|(part, history)| (*part, history))
        .collect();
    if exposed.iter().all(|(_, history)| history.used.is_empty()) {
        return BTreeMap::new();
    }
    let method = shop.settings.planning.demand_method;
    match method {
        DemandMethod::Shrinkage => {
            let discount = shop
                .settings
                .planning
                .discount_per_month
                .unwrap_or_else(|| discount_of(&exposed));
            shrunk(&exposed, &grouped(shop, exchange, &exposed), discount)
        }
        DemandMethod::Plain | DemandMethod::Sba | DemandMethod::Tsb => exposed
            .iter()
            .map(|(part, history)| {
                let expected = Expected {
                    rate: unshrunk(history, method),
                    likely_sizes: Vec::new(),
                };
                (*part, expected)
            })
            .collect(),
    }
}

/// The discount that foretells the last year best; the usual one where too little was used.
fn discount_of(exposed: &[(PartId, &History)]) -> f64 {
    let stride = exposed.len().div_ceil(MOST_PARTS).max(1);
    let taken: Vec<&History> = exposed.iter().step_by(stride).map(|(_, h)| *h).collect();
    let age = |origin: usize| (origin + 1) as f64 * FORETOLD_DAYS;
    best_discount(
        ORIGINS,
        taken.len(),
        |discount, origin, part| taken[part].counted(Discount::per_month(discount), age(origin)),
        |origin, part| taken[part].counted_between(age(origin), age(origin) - FORETOLD_DAYS),
    )
    .unwrap_or(USUAL_DISCOUNT)
}

/// What parts are grouped by: class, and the lowest price a piece of any offer.
fn grouped(shop: &Shop, exchange: &Exchange<'_>, exposed: &[(PartId, &History)]) -> Vec<Grouped> {
    let mut prices: BTreeMap<PartId, f64> = BTreeMap::new();
    for offer in &shop.offers {
        let price = offer.record.price.as_ref();
        let Some(price) = price.and_then(|p| Some(p.unit_price() * exchange.rate(p.currency)?))
        else {
            continue;
        };
        let lowest = prices.entry(offer.part).or_insert(price);
        *lowest = lowest.min(price);
    }
    exposed
        .iter()
        .map(|(part, history)| Grouped {
            class: shop
                .catalogue
                .part(*part)
                .family
                .map_or(PartClass::Other, crate::part::Family::class),
            unit_price: prices.get(part).copied(),
            events: history.used.len(),
        })
        .collect()
}

/// Group with what was learnt from it.
struct Learnt {
    prior: GroupPrior,
    sizes: GroupSizes,
    /// Quantities with their shares.
    taken: Vec<(u32, f64)>,
    /// False where its parts have nothing in common but that no standard knows them: dozens of filter bags taken at a time say
    /// nothing of couplings, and a part's own few usages alone say what one takes.
    is_of_alike: bool,
    basis: RateBasis,
}

fn shrunk(
    exposed: &[(PartId, &History)],
    grouped: &[Grouped],
    discount_per_month: f64,
) -> BTreeMap<PartId, Expected> {
    let discount = Discount::per_month(discount_per_month);
    let counted_by = |discount: Discount| -> Vec<Counted> {
        let histories = exposed.iter().map(|(_, history)| history);
        histories.map(|of| of.counted(discount, 0.0)).collect()
    };
    let (in_full, counted) = (counted_by(Discount::NONE), counted_by(discount));
    let logs: Vec<LogSizes> = exposed
        .iter()
        .map(|(_, history)| history.log_sizes())
        .collect();
    let groups = Groups::new(grouped);
    let learnt: Vec<Option<Learnt>> = groups
        .groups
        .iter()
        .map(|(group, members)| {
            let of_group =
                |of: &[Counted]| -> Vec<Counted> { members.iter().map(|at| of[*at]).collect() };
            let spread = GroupPrior::fit(&of_group(&in_full))?;
            Some(Learnt {
                prior: spread.at_rate_of(&of_group(&counted))?,
                sizes: GroupSizes::fit(members.iter().map(|at| &logs[*at]))?,
                taken: taken_in(exposed, members),
                is_of_alike: group.class != Some(PartClass::Other),
                basis: RateBasis::Shrunk {
                    group: *group,
                    parts: members.len(),
                    group_events: members.iter().map(|at| grouped[*at].events).sum(),
                    discount_per_month,
                },
            })
        })
        .collect();
    exposed
        .iter()
        .enumerate()
        .filter_map(|(at, (part, history))| {
            let group = learnt[groups.of_part[at]].as_ref()?;
            let rate = DemandRate {
                events: group.prior.posterior(counted[at]),
                size: group.sizes.shrink(&logs[at]),
                basis: group.basis.clone(),
            };
            let own = whole_sizes(history);
            let likely_sizes = likely_sizes(
                &own,
                history.used.len(),
                if group.is_of_alike {
                    &group.taken
                } else {
                    &own
                },
                group.sizes.mean_weight,
            );
            Some((*part, Expected { rate, likely_sizes }))
        })
        .collect()
}

/// Quantities that the used parts of a group take.
fn taken_in(exposed: &[(PartId, &History)], members: &[usize]) -> Vec<(u32, f64)> {
    let used = members.iter().map(|at| exposed[*at].1);
    let used: Vec<&History> = used.filter(|history| !history.used.is_empty()).collect();
    group_sizes(&parallel::each(&used, |history| counted_sizes(history)))
}

/// A part's own history alone.
fn unshrunk(history: &History, method: DemandMethod) -> DemandRate {
    let count = history.used.len().max(1) as f64;
    let mean = history.quantity() / count;
    let square = history
        .used
        .iter()
        .map(|used| used.quantity.powi(2))
        .sum::<f64>()
        / count;
    let size = SizeMoments {
        mean_pieces: if mean > 0.0 { mean } else { 1.0 },
        squared_cv: if mean > 0.0 {
            (square / (mean * mean) - 1.0).max(0.0)
        } else {
            0.0
        },
    };
    let smoothed = Smoothed::new(&history.by_month(), SMOOTHING, SMOOTHING);
    let monthly = |pieces: f64| pieces / size.mean_pieces / MONTH_DAYS;
    let (per_day, basis) = match method {
        DemandMethod::Sba => (
            smoothed.map_or(0.0, |levels| monthly(levels.sba(SMOOTHING))),
            RateBasis::Sba,
        ),
        DemandMethod::Tsb => (
            smoothed.map_or(0.0, |levels| monthly(levels.tsb())),
            RateBasis::Tsb,
        ),
        DemandMethod::Plain | DemandMethod::Shrinkage => {
            let counted = history.counted(Discount::NONE, 0.0);
            (counted.events / counted.exposure_days, RateBasis::Plain)
        }
    };
    DemandRate {
        events: EventRate::certain(per_day),
        size,
        basis,
    }
}
