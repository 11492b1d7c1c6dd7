//! How a kit's plan would change if the freight that is assumed were nothing, or double.

use super::chosen::{Chosen, same_source};
use super::planned::{KitPlanner, Planned};
use crate::plan::freight::AssumedFreight;
use crate::plan::freight::Freight;
use crate::plan::purchase::MOST_PARTS;
use crate::plan::supply::Supply;
use crate::units::Money;

/// The plan with another freight in place of the assumed one.
#[derive(Debug, Clone, PartialEq)]
pub struct FreightCase {
    /// Goods, surcharges, work and freight of the best plan; `None` where a price is missing.
    pub spend: Option<Money>,
    /// Its expected cost with downtime; `None` where a price or the cost of an hour is missing.
    pub expected: Option<Money>,
    /// Positions in the kit of lines that would be covered otherwise.
    pub otherwise: Vec<usize>,
}

/// What hangs on the freight of suppliers of whom no table says it.
#[derive(Debug, Clone, PartialEq)]
pub struct FreightDoubt {
    /// The suppliers whose offers were weighed, by name.
    pub suppliers: Vec<String>,
    /// What was assumed.
    pub assumed: AssumedFreight,
    /// If it were nothing.
    pub at_nothing: FreightCase,
    /// If it were double.
    pub at_double: FreightCase,
}

impl KitPlanner<'_, '_> {
    /// Plans again with no freight and with double; `None` where every freight is known.
    pub fn freight_doubt(&self, planned: &Planned<'_>) -> Option<FreightDoubt> {
        let covers = &planned.figures.covers;
        let mut suppliers: Vec<String> = covers.freight_assumed.iter().flatten().cloned().collect();
        if suppliers.is_empty() {
            return None;
        }
        suppliers.sort();
        Some(FreightDoubt {
            suppliers,
            assumed: self.stakes.sourcing.freights.assumed(),
            at_nothing: self.with_freight(planned, 0)?,
            at_double: self.with_freight(planned, 2)?,
        })
    }

    /// The best plan with so many times the assumed freight.
    fn with_freight(&self, planned: &Planned<'_>, times: i64) -> Option<FreightCase> {
        let mut chances = planned.figures.chances.clone();
        let assumed = &planned.figures.covers.freight_assumed;
        for (freight, _) in chances
            .freight
            .iter_mut()
            .zip(assumed)
            .filter(|(_, assumed)| assumed.is_some())
        {
            *freight = Freight {
                cents: freight.cents.saturating_mul(times),
                ..*freight
            };
        }
        let starts = std::slice::from_ref(&planned.best.choices);
        let best = chances.best(starts, MOST_PARTS)?;
        let (was, is) = (planned.chosen(), planned.chosen_by(&best.choices));
        let mut otherwise: Vec<usize> = was
            .iter()
            .zip(&is)
            .filter(|(was, is)| !is_same(was, is))
            .flat_map(|(was, _)| was.cover.lines.iter().map(|line| planned.lines[line.at]))
            .collect();
        otherwise.sort_unstable();
        let money = |cents| self.stakes.money(cents);
        Some(FreightCase {
            spend: money(chances.spend(&best.choices)).map(|spend| Money {
                cents: spend.cents - planned.figures.donor_cents(&best.choices),
                currency: spend.currency,
            }),
            expected: self.stakes.hourly.and_then(|_| {
                money(self.expected_cents(&planned.figures, &chances, &best.choices))
            }),
            otherwise,
        })
    }
}

/// True where two choices cover every line from the same sources.
fn is_same(a: &Chosen<'_>, b: &Chosen<'_>) -> bool {
    fn supplies<'c>(of: &Chosen<'c>) -> Vec<&'c Supply> {
        let covers = std::iter::once(of.cover).chain(of.also);
        let lines = covers.flat_map(|cover| &cover.lines);
        lines.flat_map(|line| &line.supplies).collect()
    }
    let (a, b) = (supplies(a), supplies(b));
    a.len() == b.len() && a.iter().zip(&b).all(|(a, b)| same_source(a, b))
}
