//! The minimum that a planner asks for beside the one that is worked out: which of the two holds, and what that costs.

use super::candidate::Candidate;
use super::part_use::money;
use super::reason::OwnFigure;
use super::stock_out_price::PricedPart;
use super::waiting_basis::WaitingBasis;
use crate::catalogue::Shop;

impl Candidate<'_> {
    /// True where a planner's signed figure says how many are kept, whatever a rule or a kit asks for.
    pub fn is_fixed(&self) -> bool {
        self.part.own_min_stock.is_some() && self.is_own_signed()
    }

    /// Looks whether the part was never used and nobody says why its own minimum is kept.
    pub fn look_at_own_minimum(&mut self, shop: &Shop, year_h: f64) {
        let is_bare = self.part.own_min_stock.is_some() && self.part.own_min_reason.is_none();
        let never_used = is_bare.then(|| {
            let priced = self.priced_part(shop, year_h);
            self.never_used(shop, priced.as_ref())
        });
        self.own_pays_for_first = never_used.flatten().map(|of| of.is_insured());
    }

    /// True where no more of a minimum is kept than the first ones, which an insurance pays for: what is ordered.
    const fn is_first_alone(&self) -> bool {
        matches!(self.own_pays_for_first, Some(true)) && self.raised_for_kit.is_none()
    }

    /// Reorder point of the planner's figure, as far as it is kept.
    pub(super) fn own_point(&self) -> Option<i64> {
        let own = self.part.own_min_stock?.ceil() as i64 - 1;
        Some(if self.is_first_alone() {
            own.min(self.first_that_pay() - 1)
        } else {
            own
        })
    }

    /// A reorder point of a rule, or the planner's where that one holds.
    pub fn with_own(&self, by_rule: i64) -> i64 {
        match self.own_point() {
            None => by_rule,
            Some(own) if self.is_fixed() => own,
            Some(own) => own.max(by_rule),
        }
    }

    /// The reorder point that holds: the planner's figure where it does, none for a part that is not reordered.
    pub fn held(&self) -> i64 {
        match self.own_that_holds() {
            // Bought once, not reordered: the last buy is offered beside it.
            _ if self.last_day.is_some() => -1,
            Some(_) => self.with_own(self.reorder_point),
            None => self.reorder_point,
        }
    }

    /// The planner's figure where it holds: a signed one always, another where it is above the computed level.
    fn own_that_holds(&self) -> Option<f64> {
        let min_stock = self.part.own_min_stock?;
        let computed = self.reorder_point as f64 + 1.0;
        let holds = if self.is_own_signed() {
            (min_stock - computed).abs() > 1e-9
        } else {
            min_stock > computed
        };
        holds.then_some(min_stock)
    }

    /// True where the planner's signed figure is the computed one.
    pub(super) fn is_own_the_same(&self) -> bool {
        let computed = self.reorder_point as f64 + 1.0;
        let own = self.part.own_min_stock.filter(|_| self.is_own_signed());
        own.is_some_and(|own| (own - computed).abs() <= 1e-9)
    }

    /// True for a planner's figure with reason and date.
    fn is_own_signed(&self) -> bool {
        OwnFigure::is_signed(self.part.own_min_reason.as_ref(), self.part.own_min_date)
    }

    /// The same with its reason and what it costs; without a cost of an hour nobody can say that.
    pub(super) fn own_figure(&self, shop: &Shop, priced: Option<&PricedPart>) -> Option<OwnFigure> {
        let min_stock = self.own_that_holds()?;
        let own = self.held();
        let is_for_kit = self.raised_for_kit.is_some();
        let ordered = (self.own_pays_for_first.filter(|_| !is_for_kit))
            .map(|pays| if pays { own as f64 + 1.0 } else { 0.0 })
            .filter(|ordered| *ordered < min_stock.ceil());
        let priced = priced.filter(|_| self.part_use.basis != WaitingBasis::NothingKnown);
        Some(OwnFigure {
            min_stock,
            reason: self.part.own_min_reason.clone(),
            date: self.part.own_min_date,
            ordered,
            costs_more: priced.map(|priced| {
                let more = self.cost(priced, own) - self.cost(priced, self.reorder_point);
                money(shop, more)
            }),
            costs_more_in_full: priced.filter(|_| self.factor() < 1.0).map(|priced| {
                let cost = |point: i64| self.cost_at(priced, point, 1.0);
                money(shop, cost(own) - cost(self.reorder_point))
            }),
        })
    }
}
