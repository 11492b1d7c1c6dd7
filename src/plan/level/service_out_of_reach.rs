//! The price of an hour for a share of usages that is to be met, and what is met where no price reaches it.

use super::stock_out_price::{FACTORS, PricedPart, factor_for_service};
use crate::parallel;

/// The price of an hour for a share of usages met from the shelf, and how far it comes.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceForService {
    /// The price, as a factor of the downtime cost.
    pub factor: f64,
    /// Where no price reaches the share: what the highest meets.
    pub most_share: Option<f64>,
    /// Positions of the parts whose stock ends and which stay below the share at any price, what lacks most first.
    pub held_back_by: Vec<usize>,
}

/// Smallest price that reaches a target share. Where none does, because stock ends on the shelf whatever is kept, it is the one from
/// which on as good as no more is met, and at most the downtime in full: what lies beyond buys nothing.
///
/// Without a cost of an hour (`is_hour_priced` false) the downtime in full is no limit.
pub fn price_for_service(
    parts: &[PricedPart],
    target_share: f64,
    is_hour_priced: bool,
) -> PriceForService {
    /// Share of usages below which nobody would see that more are met.
    const CLOSE: f64 = 0.005;
    let highest = FACTORS.1;
    let met_at_most = |part: &PricedPart| part.fill(part.reorder_point(highest));
    let met = parallel::each(parts, met_at_most);
    let weights: f64 = parts.iter().map(|part| part.weighted_yearly).sum();
    let both = || parts.iter().zip(&met);
    let all: f64 = both().map(|(part, met)| part.weighted_yearly * met).sum();
    if weights <= 0.0 || all >= target_share * weights {
        return PriceForService {
            factor: factor_for_service(parts, target_share),
            most_share: None,
            held_back_by: Vec::new(),
        };
    }
    let most = all / weights;
    let enough = factor_for_service(parts, (most - CLOSE).max(0.0));
    let lacks = both().enumerate().filter_map(|(at, (part, met))| {
        let lack = part.weighted_yearly * (target_share - met);
        (part.ending.is_some() && lack > 0.0).then_some((at, lack))
    });
    let mut lacks: Vec<(usize, f64)> = lacks.collect();
    lacks.sort_by(|a, b| b.1.total_cmp(&a.1));
    PriceForService {
        factor: if is_hour_priced {
            enough.min(1.0)
        } else {
            enough
        },
        most_share: Some(most),
        held_back_by: lacks.into_iter().map(|(at, _)| at).collect(),
    }
}

#[cfg(test)]
mod tests;
