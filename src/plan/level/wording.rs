//! The reasons of a level in words, and where it changes.

use std::fmt;

use super::demand_table::DemandTable;
use super::finite_source::FewMachines;
use super::last_buy::LastBuy;
use super::offer_behind::Preferred;
use super::reason::{
    Level, LevelBasis, LevelReason, LevelRule, OneLess, OwnFigure, PricedAt, ServiceGoal,
    UnsignedMinimum, WhyNoLevel,
};
use super::service::share_without_waiting;
use super::turning_point::{TurningPoints, factors, prices};
use super::waiting_basis::WaitingBasis;
use crate::plan::demand::RateBasis;
use crate::plan::share_of_cases::share_of_cases;
use crate::plan::year_length::YEAR_DAYS;
use crate::units::{Money, grouped, without_rounding_residue};

impl Level {
    /// Usage, lead time and downtime cost at which the computed level changes; `None` where nothing is computed or a kit
    /// raised it.
    pub fn turning_points(&self) -> Option<TurningPoints> {
        let LevelBasis::Computed(reason) = &self.why else {
            return None;
        };
        let is_by_rule = reason.raised_for_kit.is_none()
            && !reason.is_cut_for_shelf_life
            && reason.more_than_at_price().is_none();
        let is_target = matches!(reason.rule, LevelRule::ServiceTarget { .. });
        let ends = reason.ending.is_some() && !is_target;
        if !is_by_rule || ends || reason.last_buy.is_some() {
            return None;
        }
        let quantity = self.order_quantity.ceil().max(1.0) as i64;
        let level = reason.computed_reorder_point as i64;
        let waiting = reason
            .priced
            .as_ref()
            .map(|priced| priced.factor * priced.waiting_per_h.to_units() * priced.year_h);
        let is_by_price = !matches!(reason.rule, LevelRule::ServiceTarget { .. });
        if is_by_price && let Some(ratio) = reason.holding().zip(waiting) {
            let ratio = ratio.1 / ratio.0;
            if let Some(of_jobs) = reason.turning_points_of_jobs(level, quantity, ratio) {
                return Some(of_jobs);
            }
        }
        // A service target looks at the reorder point itself, a price at the mean over the positions it leads to.
        let (first, positions, limit, least) = match reason.rule {
            LevelRule::ServiceTarget { share, .. } => (level, 1, Some(1.0 - share), 0),
            _ => {
                let limit = reason
                    .holding()
                    .zip(waiting)
                    .map(|(holding, waiting)| holding / (holding + waiting));
                (level + 1, quantity, limit, -1)
            }
        };
        let is_of_several = is_target && reason.takes_several();
        let over_from = |first: i64| {
            move |factor: f64| {
                if is_of_several {
                    let table = reason.table(factor, quantity)?;
                    return Some(1.0 - reason.share_without_waiting(&table, first));
                }
                reason.share_over(factor, quantity, first, first + positions - 1)
            }
        };
        let (more_from, less_from) = limit.map_or((None, None), |limit| {
            let one_less = |factor: f64| (level > least).then(|| over_from(first - 1)(factor))?;
            factors(over_from(first), one_less, limit)
        });
        let mut found = TurningPoints {
            more_from,
            less_from,
            ..TurningPoints::default()
        };
        if is_by_price
            && reason.is_hour_priced()
            && let (Some(over), Some(one_less), Some(priced), Some(holding)) = (
                over_from(first)(1.0),
                over_from(first - 1)(1.0),
                &reason.priced,
                reason.holding(),
            )
        {
            // Of a rule that counts no share of an hour, no price of it changes anything.
            let per_hour = |price: f64| {
                Some(price / priced.factor / priced.year_h).filter(|price| price.is_finite())
            };
            let (more, less) = prices(holding, over, one_less);
            found.more_from_price = more.and_then(per_hour);
            found.less_from_price = less.and_then(per_hour).filter(|_| level >= 0);
        }
        Some(found)
    }

    /// The turning points in words.
    pub fn changes_at(&self) -> Option<String> {
        let points = self.turning_points()?;
        let LevelBasis::Computed(reason) = &self.why else {
            return None;
        };
        let yearly = reason.demand.per_day()? * YEAR_DAYS;
        let days = reason.lead.mean_days;
        let side = |factor: Option<f64>, price: Option<f64>, word: &str, each: &str| {
            let mut parts = Vec::new();
            if let Some(factor) = factor {
                parts.push(format!("{} used a year", three(yearly * factor)));
                parts.push(format!("{} days of lead time", three(days * factor)));
            }
            if let (Some(price), Some(priced)) = (price, &reason.priced) {
                let currency = priced.waiting_per_h.currency.code();
                parts.push(format!("{} {currency} an hour down", three(price)));
            }
            (!parts.is_empty()).then(|| format!("{word} {each} {}", parts.join(" or ")))
        };
        let more = side(points.more_from, points.more_from_price, "more", "from");
        let less = side(points.less_from, points.less_from_price, "less", "below");
        let sides: Vec<String> = [more, less].into_iter().flatten().collect();
        (!sides.is_empty()).then(|| sides.join("; "))
    }
}

/// Hours waited below this are nothing that a planner could act on.
const LEAST_TOLD_H: f64 = 0.001;

/// Units a year that expire below which nothing is told of them.
const LEAST_EXPIRED: f64 = 0.005;

/// What is rounded away of an amount.
const LEAST_MONEY: f64 = 0.005;

/// Share met below which a difference is not told.
const LEAST_TOLD_SHARE: f64 = 0.005;

/// Hours waited.
fn waited(hours: f64) -> String {
    if hours > 0.0 && hours < LEAST_TOLD_H {
        format!("under {LEAST_TOLD_H}")
    } else {
        three(hours)
    }
}

/// Three figures, as many as a planner can use.
fn three(value: f64) -> String {
    if value <= 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let digits = (2 - value.log10().floor() as i32).max(0) as usize;
    if value >= 1000.0 {
        let scale = 10.0_f64.powi(value.log10().floor() as i32 - 2);
        return grouped((value / scale).round() * scale, 0, 0);
    }
    format!("{value:.digits$}")
}

impl LevelReason {
    /// Units that the level keeps more than the price that a budget amounts to, fewer below 0; `None` where it keeps as many.
    fn more_than_at_price(&self) -> Option<f64> {
        let more = self.computed_reorder_point - self.at_price?;
        let is_by_rule = self.raised_for_kit.is_none() && !self.is_cut_for_shelf_life;
        (more.abs() > 0.5 && is_by_rule).then_some(more)
    }

    pub(super) fn holding(&self) -> Option<f64> {
        Some(self.priced.as_ref()?.holding.to_units()).filter(|holding| *holding > 0.0)
    }

    /// False where nothing says what an hour down costs.
    pub(super) fn is_hour_priced(&self) -> bool {
        let basis = self.priced.as_ref().map(|priced| &priced.basis);
        basis != Some(&WaitingBasis::NothingKnown)
    }

    /// Units that usages take, with their shares; empty where they are not whole.
    fn sizes(&self) -> &[(u32, f64)] {
        self.demand.quantities().unwrap_or(&self.demand.sizes)
    }

    fn takes_several(&self) -> bool {
        self.sizes().iter().any(|(size, _)| *size > 1)
    }

    fn share_without_waiting(&self, table: &DemandTable, reorder_point: i64) -> f64 {
        share_without_waiting(table, reorder_point, self.quantity, self.sizes())
    }

    /// Demand in the lead time with usage or lead time `factor` times as much.
    fn table(&self, factor: f64, quantity: i64) -> Option<DemandTable> {
        if let Some(few) = self.few_machines {
            let mean = few.mean * factor;
            return Some(FewMachines { mean, ..few }.spares_table());
        }
        let law = self.lead.demand(&self.demand, factor, quantity == 1)?;
        Some(DemandTable::new(&law))
    }

    /// Mean share of the time in which the demand exceeds `first`, ..., `last`, usage or lead time `factor` times as much.
    fn share_over(&self, factor: f64, quantity: i64, first: i64, last: i64) -> Option<f64> {
        if self.few_machines.is_some() {
            let table = self.table(factor, quantity)?;
            let over: f64 = (first..=last).map(|units| 1.0 - table.at_most(units)).sum();
            return Some(over / (last - first + 1) as f64);
        }
        let law = self.lead.demand(&self.demand, factor, quantity == 1)?;
        Some(law.mean_share_over(first, last))
    }

    fn write_rule(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let days = self.lead.mean_days;
        let point = self.computed_reorder_point;
        match &self.rule {
            LevelRule::ServiceTarget { share, from } => {
                let table = DemandTable::new(&self.lead_time_demand);
                let at = |point: f64| self.share_without_waiting(&table, point as i64);
                if self.takes_several() {
                    write!(
                        f,
                        "P(nobody waits for {days:.0} days from the usage on that sets an order off at {point}) = {:.3} >= {share}",
                        at(point)
                    )?;
                } else {
                    write!(
                        f,
                        "P(demand in {days:.0} days <= {point}) = {:.3} >= {share}",
                        at(point)
                    )?;
                }
                if let Some(from) = from {
                    write!(f, " (criticality {from})")?;
                }
                if point >= 1.0 {
                    let less = at(point - 1.0);
                    write!(f, "; with {} it would be {less:.3}", point - 1.0)?;
                }
                self.write_target_where_stock_ends(f, *share)
            }
            LevelRule::DowntimeCost => self.write_money(f, "in full"),
            LevelRule::StockOutPrice { factor, goal } => {
                if self.is_hour_priced() {
                    self.write_money(f, &format!("at {} of it", percent(*factor)))?;
                } else {
                    self.write_hours(f)?;
                }
                match goal {
                    ServiceGoal::Share(share) => {
                        write!(
                            f,
                            "; the shop's price for {} of usages met",
                            percent(*share)
                        )
                    }
                    ServiceGoal::OutOfReach { share, most } => {
                        write!(
                            f,
                            "; no price meets the {} of usages asked for, {} at most",
                            percent(*share),
                            percent(*most)
                        )
                    }
                    ServiceGoal::Budget(budget) => {
                        write!(f, "; the shop's price for a stock of {budget}")?;
                        match self.more_than_at_price() {
                            Some(more) if more > 0.0 => {
                                write!(f, ", and {more} more for what that price leaves of it")
                            }
                            Some(more) => {
                                let fewer = -more;
                                write!(
                                    f,
                                    ", and {fewer} fewer than at that price, for the money saves more elsewhere"
                                )
                            }
                            None => Ok(()),
                        }
                    }
                }
            }
        }
    }

    /// What is met beside the target where stock ends on the shelf: the target looks at the demand of lead times alone.
    fn write_target_where_stock_ends(&self, f: &mut fmt::Formatter<'_>, share: f64) -> fmt::Result {
        let of_target = self.ending.and_then(|ending| ending.of_target);
        let Some(of) = of_target.filter(|of| of.met_share < share) else {
            return Ok(());
        };
        write!(
            f,
            "; as stock ends on the shelf {} of units are met, ",
            percent(of.met_share)
        )?;
        match of.met_from {
            Some(min_stock) => write!(f, "{} from a minimum of {min_stock} on", percent(share)),
            None => write!(f, "and no minimum meets {}", percent(share)),
        }
    }

    /// What the demand rests on where it is no number of single pieces at a rate.
    fn write_law(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(lives) = &self.demand.by_lives {
            let fit = &lives.fit;
            write!(
                f,
                "; by the ages of {} fitted, {} used a year expected: life of shape {} and scale {} h from {} failures and {} that still run or were changed before",
                lives.positions.len(),
                three(lives.pieces_per_day * YEAR_DAYS),
                three(fit.life.shape),
                three(fit.life.scale_h),
                fit.failures,
                fit.running
            )?;
            if let Some(estimate) = &self.demand.estimate {
                let yearly = estimate.over(YEAR_DAYS).mean_pieces;
                write!(f, " (by usages alone {} a year)", three(yearly))?;
            }
            return Ok(());
        }
        let in_parts = self.demand.recorded().filter(|(per_unit, _)| *per_unit > 1);
        let whole = self.demand.own_quantities().map(|taken| (1, taken));
        let Some((per_unit, taken)) = whole.or(in_parts) else {
            return self.write_borrowed(f);
        };
        if per_unit <= 1 && taken.iter().all(|(size, _)| *size == 1) {
            return Ok(());
        }
        let kinds: Vec<String> = taken
            .iter()
            .map(|(size, share)| {
                let quantity = without_rounding_residue(f64::from(*size) / f64::from(per_unit));
                format!("{quantity} in {}", percent(*share))
            })
            .collect();
        write!(f, "; taken at a time: {}", kinds.join(", "))
    }

    /// Quantities of the group that count beside a part's own few, for nobody would see them behind its level otherwise.
    fn write_borrowed(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let demand = &self.demand;
        let (Some(sizes), Some(usages)) = (demand.quantities(), demand.usages()) else {
            return Ok(());
        };
        let terms = sizes.iter();
        let mean: f64 = terms.map(|(size, share)| f64::from(*size) * share).sum();
        let most = sizes.iter().map(|(size, _)| *size).max().unwrap_or(1);
        let yearly = three(usages.mean_per_day() * YEAR_DAYS);
        let each = three(mean);
        if demand.events == 0 {
            write!(
                f,
                "; {yearly} usages a year of {each} at a time, {most} at most, as its group takes them"
            )
        } else {
            write!(
                f,
                "; {yearly} usages a year of {each} at a time, {most} at most, for what its group takes counts beside its own few usages"
            )
        }
    }

    /// What none kept is held against: of usages that take several units the first ones that are worth anything, else one.
    ///
    /// Where all that is waited counts less than holding one, so does what the first one saves; else that is what is told.
    fn write_none_kept(&self, f: &mut fmt::Formatter<'_>, priced: &PricedAt) -> fmt::Result {
        let waits = self.service.jobs_waiting * priced.year_h;
        let counts = |hours: f64| hours * priced.waiting_per_h.to_units() * priced.factor;
        let Some(first) = &self.first_that_pay else {
            return Ok(());
        };
        let units = first.units;
        let is_one = units < 1.5;
        let expires = first.expired >= LEAST_EXPIRED;
        if is_one && !expires && counts(waits) < priced.holding.to_units() {
            return write!(
                f,
                "none kept: {waits:.1} h waited a year count less than holding one for {} a year",
                priced.holding
            );
        }
        write!(f, "none kept: of {waits:.1} h waited a year ")?;
        if is_one {
            f.write_str("the first one would save ")?;
        } else {
            write!(f, "{units} kept would save ")?;
        }
        write!(f, "{}, ", waited(first.saves_h))?;
        let holding = &first.holding;
        // What a budget or a planner leaves out may be worth more than it costs.
        let is_less = counts(first.saves_h) < holding.to_units() + LEAST_MONEY;
        let than = if is_less {
            "which count less than"
        } else {
            "against"
        };
        match (expires, is_one) {
            (true, _) => write!(f, "{than} {holding} of holding and expired stock"),
            (false, true) => write!(f, "{than} {holding} of holding"),
            (false, false) if is_less => write!(f, "{than} holding them for {holding} a year"),
            (false, false) => write!(f, "{than} {holding} a year for holding them"),
        }
    }

    fn write_money(&self, f: &mut fmt::Formatter<'_>, counted: &str) -> fmt::Result {
        let Some(priced) = &self.priced else {
            return f.write_str("no price");
        };
        let hour = priced.hour_in_words(counted);
        let Some(one_less) = &self.one_less else {
            self.write_none_kept(f, priced)?;
            return write!(f, "; {hour}");
        };
        let waits = waited(one_less.waiting_h_more);
        match one_less.waiting_cost_more {
            Some(counts) => write!(
                f,
                "one less would wait {waits} h more a year, which count {counts}, and save "
            )?,
            None => write!(f, "one less would wait {waits} h more a year and save ")?,
        }
        one_less.write_saved(f)?;
        write!(f, "; {hour}")
    }

    /// The trade in hours alone, where nothing says what an hour costs.
    fn write_hours(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        const ALIKE: &str = "no downtime cost known, so that every hour counts alike";
        let Some(priced) = &self.priced else {
            return f.write_str("no price");
        };
        match &self.one_less {
            None => {
                let waits = self.service.jobs_waiting * priced.year_h;
                match self.first_that_pay.as_ref().filter(|of| of.units > 1.5) {
                    None => write!(
                        f,
                        "none kept: {waits:.1} h waited a year against {} a year for holding one",
                        priced.holding
                    )?,
                    Some(first) => write!(
                        f,
                        "none kept: of {waits:.1} h waited a year {} kept would save {}, against {} a year for holding them",
                        first.units,
                        waited(first.saves_h),
                        first.holding
                    )?,
                }
            }
            Some(one_less) => {
                let waits = waited(one_less.waiting_h_more);
                write!(f, "one less would wait {waits} h more a year and save ")?;
                one_less.write_saved(f)?;
            }
        }
        write!(f, "; {ALIKE}")
    }

    /// Usages that the rate leaves out, and what it rests on.
    fn write_rate(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let demand = &self.demand;
        if demand.for_planned_rebuilds > 0 {
            write!(
                f,
                "; {} more in rebuilds with planned dates left out",
                demand.for_planned_rebuilds
            )?;
        }
        if demand.before_records > 0 {
            write!(
                f,
                "; {} more before the records begin left out",
                demand.before_records
            )?;
        }
        match &demand.estimate {
            // The usages and days before say it all.
            Some(estimate) if estimate.basis != RateBasis::Plain && demand.by_lives.is_none() => {
                let yearly = estimate.over(YEAR_DAYS).mean_pieces;
                write!(
                    f,
                    "; {} a year expected by {}",
                    three(yearly),
                    estimate.basis
                )
            }
            _ => Ok(()),
        }
    }

    /// Why the coming year meets fewer than the level does in the long run.
    fn write_empty_shelf(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let of_year = self.service.unit_fill_share;
        match self.long_run_fill_share {
            Some(long_run) if long_run - of_year >= LEAST_TOLD_SHARE => write!(
                f,
                "; nothing is there or on order, so that whoever needs it first waits: {} met in the coming year, {} in the long run, for which hours and cost are counted",
                percent(of_year),
                percent(long_run)
            ),
            _ => Ok(()),
        }
    }

    fn write_shelf_life(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(expired) = self.expired_a_year.filter(|expired| *expired >= 0.05) {
            write!(
                f,
                "; about {expired:.1} a year would reach the end of their shelf life"
            )?;
        }
        if self.is_cut_for_shelf_life {
            f.write_str("; no more, because what would expire costs more than it saves")?;
        }
        Ok(())
    }
}

impl OneLess {
    fn write_saved(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} of holding", self.holding_saved)?;
        if self.expired_fewer >= LEAST_EXPIRED {
            write!(f, " and expired stock")?;
        }
        Ok(())
    }
}

impl PricedAt {
    /// What an hour of waiting counts and rests on; where criticality weighs it, by how much it is in the amount.
    fn hour_in_words(&self, counted: &str) -> String {
        let (hour, basis) = (&self.waiting_per_h, &self.basis);
        match basis {
            WaitingBasis::Machine { name, weight } if (weight - 1.0).abs() >= 1e-9 => format!(
                "an hour at {hour} (downtime of {name}, {} times {weight} for its criticality), counted {counted}",
                self.cost_per_h
            ),
            WaitingBasis::ByUsages {
                is_weighted: true, ..
            } => format!(
                "an hour at {hour} ({basis}, {} without it), counted {counted}",
                self.cost_per_h
            ),
            _ => format!("an hour at {hour} ({basis}), counted {counted}"),
        }
    }
}

fn percent(share: f64) -> String {
    format!("{} %", three(100.0 * share))
}

impl fmt::Display for LevelReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Nothing is weighed for a part that is bought once more and no longer.
        if let Some(last_buy) = &self.last_buy {
            write!(f, "{last_buy}; ")?;
        } else {
            self.write_rule(f)?;
            self.write_empty_shelf(f)?;
            self.write_shelf_life(f)?;
            f.write_str("; ")?;
        }
        if let Some(kit) = &self.raised_for_kit {
            write!(
                f,
                "raised for the share of rebuilds of {kit} that find every line; "
            )?;
        }
        if !self.kept_for.is_empty() {
            let others = self.kept_for.join(", ");
            write!(f, "one stock with {others}: each goes in for the others; ")?;
        }
        if let Some(few) = self.few_machines {
            write!(f, "places counted one by one: {}; ", few.places)?;
        }
        write!(
            f,
            "{} used in {} usages over {:.0} days",
            self.demand.net_quantity, self.demand.events, self.demand.exposure_days
        )?;
        self.write_rate(f)?;
        write!(f, "; lead time: {}", self.lead.basis)?;
        self.write_law(f)?;
        if let Some(preferred) = &self.preferred {
            write!(f, "; {preferred}")?;
        }
        match &self.own {
            Some(own) if self.last_buy.is_none() => write!(f, "; {own}"),
            None if self.is_own_the_same && self.last_buy.is_none() => {
                f.write_str("; the planner's own minimum is the same")
            }
            _ => Ok(()),
        }
    }
}

impl fmt::Display for Preferred {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            supplier,
            numbers,
            cheapest,
            saves,
        } = self;
        if let Some((bought, kept)) = numbers {
            return write!(
                f,
                "bought as {bought} from {supplier}, which costs {saves} less a year than {kept} from {cheapest} with its quantity, lead time and freight"
            );
        }
        write!(
            f,
            "bought from {supplier}, which costs {saves} less a year than the lower unit price of {cheapest} with its quantity, lead time and freight"
        )
    }
}

impl fmt::Display for OwnFigure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.ordered {
            Some(ordered) if ordered > 0.0 => {
                return write!(
                    f,
                    "of the planner's own minimum of {} only {ordered} kept, because no reason is given and nobody ever used it",
                    self.min_stock
                );
            }
            Some(_) => {
                return write!(
                    f,
                    "the planner's own minimum of {} orders nothing, because no reason is given and nobody ever used it",
                    self.min_stock
                );
            }
            None => {}
        }
        write!(f, "the planner's own minimum of {} holds", self.min_stock)?;
        match (&self.reason, self.date) {
            (Some(reason), Some(date)) => write!(f, " ({reason}, {date})")?,
            (Some(reason), None) => write!(f, " ({reason}, no date)")?,
            (None, Some(date)) => write!(f, " ({date}, no reason given)")?,
            (None, None) => write!(f, ", being higher (no reason or date given)")?,
        }
        let words = |more: Money| {
            let (cents, word) = if more.cents >= 0 {
                (more.cents, "more")
            } else {
                (-more.cents, "less")
            };
            format!("costs {} {word} a year", Money { cents, ..more })
        };
        if let Some(more) = self.costs_more {
            write!(f, " and {}", words(more))?;
        }
        match self.costs_more_in_full {
            Some(more) => write!(f, "; with downtime counted in full it {}", words(more)),
            None => Ok(()),
        }
    }
}

impl fmt::Display for UnsignedMinimum {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "only a minimum of {} without {} asks for it",
            self.min_stock,
            if self.has_reason {
                "a date"
            } else {
                "reason or date"
            }
        )?;
        match self.computed {
            Some(computed) => write!(f, ", the computed one is {computed}"),
            None => f.write_str(", none is computed"),
        }
    }
}

impl fmt::Display for LastBuy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "its machines leave service on {}: not reordered, about {:.1} used until then",
            self.until, self.expected
        )?;
        if let Some(why) = self.not_bought.filter(|_| self.buys_nothing()) {
            return write!(f, "; {why}: nothing bought");
        }
        if let (Some(wanted), Some(buy), Some(share)) = (self.wanted, self.buy, self.enough_share) {
            write!(
                f,
                "; last buy of {buy}, so that {wanted} are enough in {} of cases",
                share_of_cases(share)
            )?;
        }
        Ok(())
    }
}

impl fmt::Display for LevelBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Computed(reason) => reason.fmt(f),
            Self::OwnMinimum {
                min_stock,
                has_reason: false,
                not_computed: not_computed @ WhyNoLevel::NeverUsed,
                ..
            } => write!(
                f,
                "the planner's own minimum of {min_stock} orders nothing, because no reason is given and nobody ever used it; {not_computed}"
            ),
            Self::OwnMinimum {
                min_stock,
                not_computed,
                ..
            } => write!(
                f,
                "the planner's own minimum of {min_stock}; {not_computed}"
            ),
            Self::KeptUnder { number, .. } => write!(
                f,
                "one stock with {number}, kept and ordered there: each goes in for the other"
            ),
            Self::Retired { since } => write!(
                f,
                "not reordered: every machine that uses it left service by {since}"
            ),
        }
    }
}

impl fmt::Display for WhyNoLevel {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::RateUnknown => {
                "rate unknown: set records_from, the day since when usages were recorded"
            }
            Self::NoExposure => {
                "rate unknown: the records begin at the moment of planning or later; look at records_from"
            }
            Self::NoUsages => "rate unknown: give a table of usages (date, part, quantity)",
            Self::NoneCounts => {
                "rate unknown: no recorded usage counts, for each is of a machine out of service, before records_from, after today or of a planned rebuild"
            }
            Self::NeverUsed => "no usage in the records: no level computed",
            Self::NoUsableOffer => "no usable offer",
            Self::NoLeadTime => "no lead time: no usable offer says when the part would come",
        })
    }
}
