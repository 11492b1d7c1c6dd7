//! When enough of a line is here, where more comes for it than it needs.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::arrival_law::ArrivalLaw;
use super::line_value::Lateness;
use crate::plan::tolerance::TOLERANCE;

/// An order or a way that gives something of a line.
#[derive(Debug, Clone)]
pub struct Giver {
    /// How much of the line it gives.
    pub quantity: f64,
    /// Whose lateness it has; `None` where nobody knows, so that it may be that of any other.
    pub whose: Option<String>,
    /// When it comes.
    pub law: Arc<ArrivalLaw>,
}

/// The law of having so much; `None` where all of them together do not give it.
///
/// Orders of one supplier are late together, each at the same share of its own cases; those of others know nothing of them.
/// Where nobody knows whose one of them is, all count as late together.
pub fn enough_of(givers: &[Giver], needed: f64, how: Lateness) -> Option<ArrivalLaw> {
    let all = givers.iter().fold(0.0, |sum, of| sum + of.quantity);
    if all < needed - TOLERANCE {
        return None;
    }
    let is_one = how == Lateness::Together || givers.iter().any(|of| of.whose.is_none());
    let mut by_supplier: BTreeMap<Option<&str>, Vec<&Giver>> = BTreeMap::new();
    for of in givers {
        let whose = of.whose.as_deref().filter(|_| !is_one);
        by_supplier.entry(whose).or_default().push(of);
    }
    let mut moments: Vec<i64> = givers.iter().flat_map(|of| of.law.moments()).collect();
    moments.sort_unstable();
    moments.dedup();
    let shares = moments.into_iter().map(|moment| {
        let mut here = vec![(0.0, 1.0)];
        for givers in by_supplier.values() {
            here = with(&here, &here_of(givers, moment), needed);
        }
        let enough = here.iter().filter(|(of, _)| *of >= needed - TOLERANCE);
        let share = enough.fold(0.0, |sum, (_, share)| sum + share);
        // Sums are rounded; nothing is surer than sure.
        (moment, share.min(1.0))
    });
    Some(ArrivalLaw::new(shares.filter(|(_, share)| *share > 0.0)))
}

/// What one supplier has brought by a moment, each quantity with its share of cases: what is less likely to be here never
/// comes before what is likelier.
fn here_of(givers: &[&Giver], moment: i64) -> Vec<(f64, f64)> {
    let of = givers.iter();
    let mut of: Vec<(f64, f64)> = of
        .map(|of| (of.law.share_by(moment), of.quantity))
        .collect();
    of.sort_by(|a, b| b.0.total_cmp(&a.0));
    let (mut here, mut quantity, mut before) = (Vec::new(), 0.0, 1.0);
    for (share, gives) in of {
        here.push((quantity, before - share));
        quantity += gives;
        before = share;
    }
    here.push((quantity, before));
    here
}

/// Sums of what two have brought that know nothing of each other; whatever is enough is one.
fn with(a: &[(f64, f64)], b: &[(f64, f64)], needed: f64) -> Vec<(f64, f64)> {
    let mut sums: Vec<(f64, f64)> = Vec::new();
    for (quantity, share) in a {
        for (more, with) in b {
            let (sum, share) = ((quantity + more).min(needed), share * with);
            if share <= 0.0 {
                continue;
            }
            let known = sums
                .iter_mut()
                .find(|(of, _)| (*of - sum).abs() <= TOLERANCE);
            match known {
                Some((_, all)) => *all += share,
                None => sums.push((sum, share)),
            }
        }
    }
    sums
}

#[cfg(test)]
mod tests;
