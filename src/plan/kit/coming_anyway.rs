//! Open orders that come for a line whatever is chosen for it, and the law of what comes first.
//!
//! Their money is spent; nobody cancels them here. A piece that is bought besides them is waited for only while they are not
//! here, and saves something only where it may come before them.

use std::sync::Arc;

use super::arrival_law::ArrivalLaw;
use super::chosen::same_source;
use super::enough::{Giver, enough_of};
use super::line_value::Lateness;
use super::stakes::Stakes;
use crate::plan::lead_time::supplier_key;
use crate::plan::purchase::{Cover, Covers};
use crate::plan::supply::{Source, Supply};

/// An arrival that is known, for what an answer is worth: the order, and the share of its cases at whose end it comes.
pub type Answer<'s> = (&'s Supply, f64);

impl Stakes<'_, '_> {
    /// Law of the arrival of what is not on the shelf of a line: by what is chosen for it, once or twice, and by the orders
    /// that come anyway; `None` where that is not enough.
    pub fn law_with_open<'c>(
        &self,
        chosen: impl IntoIterator<Item = &'c Supply>,
        (open, needed): (&'c [Supply], f64),
        how: Lateness,
        answer: Option<Answer<'_>>,
    ) -> Option<ArrivalLaw> {
        let is_open = |of: &Supply| open.iter().any(|other| same_source(other, of));
        let bought = chosen
            .into_iter()
            .filter(|of| !is_on_shelf(of) && !is_open(of));
        let givers: Vec<Giver> = open
            .iter()
            .chain(bought)
            .map(|of| Giver {
                quantity: of.quantity,
                whose: self.whose(of),
                law: match answer {
                    Some((asked, share)) if same_source(asked, of) => {
                        let moment = self.law(&of.arrival).quantile(share);
                        Arc::new(ArrivalLaw::certain(moment))
                    }
                    _ => self.law(&of.arrival),
                },
            })
            .collect();
        enough_of(&givers, needed, how)
    }

    /// The law of a cover of one line with the orders that come besides it; `None` where there are none, or it is not covered.
    pub fn law_beside(&self, cover: &Cover, open: &[Supply], how: Lateness) -> Option<ArrivalLaw> {
        let [line] = &cover.lines[..] else {
            return None;
        };
        let needed = short_of(&line.supplies);
        let has_more = cover.is_covered() && besides(cover, open).next().is_some();
        has_more
            .then(|| self.law_with_open(&line.supplies, (open, needed), how, None))
            .flatten()
    }

    /// Leaves out what is bought besides open orders that are enough and likely come sooner: where an hour down has no cost,
    /// nobody can say that a second order pays.
    pub fn keep_first_orders(&self, covers: &mut Covers) {
        for (group, open) in covers.groups.iter_mut().zip(&covers.open) {
            let is_bought =
                |of: &Supply| !matches!(of.source, Source::Stock { .. } | Source::OpenOrder { .. });
            let is_open = |cover: &Cover| {
                let mut supplies = cover.lines.iter().flat_map(|line| &line.supplies);
                cover.is_covered() && !supplies.any(is_bought)
            };
            let alone_s = |cover: &Cover| {
                let arrivals = cover.arrivals().into_iter();
                let laws: Vec<_> = arrivals.map(|(of, _)| self.law(&of)).collect();
                let laws: Vec<&ArrivalLaw> = laws.iter().map(Arc::as_ref).collect();
                ArrivalLaw::last_of(&laws).mean_s()
            };
            let first = group.iter().find(|cover| is_open(cover));
            let Some(first) = first.filter(|_| !open.is_empty()) else {
                continue;
            };
            let beside = self.law_beside(first, open, Lateness::Apart);
            let open_s = beside.map_or_else(|| alone_s(first), |law| law.mean_s());
            group.retain(|cover| is_open(cover) || alone_s(cover) < open_s);
        }
    }

    /// Whose lateness a supply has; `None` for an order of which nobody knows whose it is.
    pub fn whose(&self, supply: &Supply) -> Option<String> {
        match &supply.source {
            Source::Stock { .. } => Some(String::new()),
            Source::OpenOrder { part, place } => {
                let order = self.sourcing.open_order(*part, place)?;
                Some(supplier_key(order.supplier.as_ref()?))
            }
            Source::Offer { supplier, .. } => Some(supplier_key(supplier)),
            // A name of a supplier holds no line break.
            Source::OtherWay { place, .. } => Some(format!("\n{place}")),
        }
    }
}

/// Open orders for the line of a cover that are not part of it.
pub fn besides<'o>(cover: &Cover, open: &'o [Supply]) -> impl Iterator<Item = &'o Supply> {
    let is_part = |of: &Supply| {
        let mut supplies = cover.lines.iter().flat_map(|line| &line.supplies);
        supplies.any(|part| same_source(part, of))
    };
    open.iter().filter(move |of| !is_part(of))
}

/// How much of what covers a line is not on the shelf.
pub fn short_of(supplies: &[Supply]) -> f64 {
    let coming = supplies.iter().filter(|of| !is_on_shelf(of));
    coming.fold(0.0, |sum, of| sum + of.quantity)
}

const fn is_on_shelf(supply: &Supply) -> bool {
    matches!(supply.source, Source::Stock { .. })
}
