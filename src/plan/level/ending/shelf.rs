//! Orders of a part whose stock ends, of both kinds, piece by piece.

use super::{Ending, EndingService, InLeadTime};
use crate::plan::level::demand_table::DemandTable;
use crate::plan::level::reorder_quantity::{unit_fill, unit_fill_of_sizes};
use crate::plan::level::service::on_hand_at_least;

/// Share in a tail from which on it has figures enough for a ratio of two.
const LEAST_TAIL: f64 = 1e-9;

/// Share below which nothing is divided by it.
const NOTHING: f64 = 1e-12;

/// Measures of the orders of one kind.
pub(super) struct Kind {
    /// Share of its pieces that is used.
    used: f64,
    units_without: f64,
    pub(super) usages_without: f64,
    waiting: f64,
    jobs_waiting: f64,
    on_hand: f64,
}

/// Share of the pieces of all orders that is used, and never quite none.
fn used_share(kinds: &[(f64, Kind)]) -> f64 {
    let used = kinds.iter().map(|(share, of)| share * of.used);
    used.sum::<f64>().max(NOTHING)
}

/// Mean of a measure over the kinds of orders, weighed by the pieces of them that are used.
pub(super) fn mean_by_use(kinds: &[(f64, Kind)], of: fn(&Kind) -> f64) -> f64 {
    let each = kinds
        .iter()
        .map(|(share, kind)| share * kind.used * of(kind));
    each.sum::<f64>() / used_share(kinds)
}

/// Stock that ends with its demands counted out, which nobody keeps for each of many parts.
pub(super) struct Shelf<'e> {
    of: &'e Ending,
    /// Demand of lead time and life together.
    long: DemandTable,
    /// Demand of the lead time and half the life, where usages take several.
    middle: Option<DemandTable>,
    /// No demand.
    none: DemandTable,
}

impl<'e> Shelf<'e> {
    pub(super) fn of(ending: &'e Ending) -> Self {
        Self {
            of: ending,
            long: DemandTable::new(&ending.long),
            middle: ending.middle.as_ref().map(DemandTable::new),
            none: DemandTable::of_shares(0.0, vec![1.0]),
        }
    }

    pub(super) fn reckoned(&self, reorder_point: i64, lead: InLeadTime<'_>) -> EndingService {
        let kinds = self.kinds(reorder_point, lead, &self.of.stock.sizes);
        let mean = |of: fn(&Kind) -> f64| mean_by_use(&kinds, of);
        EndingService {
            units_without: mean(|of| of.units_without).clamp(0.0, 1.0),
            usages_without: mean(|of| of.usages_without).clamp(0.0, 1.0),
            waiting: mean(|of| of.waiting).max(0.0),
            jobs_waiting: mean(|of| of.jobs_waiting).max(0.0),
            on_hand: mean(|of| of.on_hand),
            expired: self.of.stock.yearly * (1.0 / used_share(&kinds) - 1.0).max(0.0),
            renewed_share: self.share_renewed(reorder_point),
        }
    }

    /// The kinds of orders of a reorder point, each with its share of them; usages are of `sizes`.
    pub(super) fn kinds(
        &self,
        reorder_point: i64,
        lead: InLeadTime<'_>,
        sizes: &[(u32, f64)],
    ) -> Vec<(f64, Kind)> {
        let share = self.share_renewed(reorder_point);
        let renewed = (share > 0.0).then(|| (share, self.renewed(reorder_point, lead, sizes)));
        let afresh = (share < 1.0).then(|| (1.0 - share, self.afresh(reorder_point, lead, sizes)));
        renewed.into_iter().chain(afresh).collect()
    }

    /// Share of orders that find pieces of the one before them.
    fn share_renewed(&self, reorder_point: i64) -> f64 {
        let quantity = self.of.stock.quantity;
        if reorder_point < self.of.step {
            0.0
        } else if reorder_point >= quantity {
            1.0
        } else {
            // All of an order ends, be there pieces of the one before it or not.
            let ends = self.long.at_most(quantity - 1);
            let ends_afresh = self.long.at_most(quantity - reorder_point - 1);
            1.0 - ends / (ends + 1.0 - ends_afresh)
        }
    }

    /// Share of units that a usage of `sizes` does not find at the positions of a reorder point.
    fn short(&self, table: &DemandTable, reorder_point: i64) -> f64 {
        let stock = &self.of.stock;
        1.0 - unit_fill_of_sizes(table, reorder_point, stock.quantity, &stock.sizes)
    }

    /// Orders that find pieces of the one before them.
    fn renewed(&self, point: i64, lead: InLeadTime<'_>, sizes: &[(u32, f64)]) -> Kind {
        let quantity = self.of.stock.quantity;
        // What is more than there ever is goes without whatever ends.
        let too_large = self.short(&self.none, point);
        // Of a tail that has no figures left nothing can be divided: what its last sure point says is no less than what is used.
        let mut sure = point;
        while sure > self.of.step && self.short(&self.long, sure - self.of.step) < LEAST_TAIL {
            sure -= 1;
        }
        let taken = self.short(&self.long, sure).max(NOTHING);
        let of_all = (1.0 - too_large).max(NOTHING);
        let used_in_time = ((taken - too_large) / of_all).max(NOTHING);
        let used = (taken / self.short(&self.long, sure - self.of.step).max(NOTHING)).min(1.0);
        let whole = |table: &DemandTable| -> f64 {
            let each = sizes.iter().map(|(size, share)| {
                share * (1.0 - on_hand_at_least(table, point, quantity, i64::from(*size)))
            });
            each.sum()
        };
        let units = (self.short(lead.table, point) - too_large) / of_all;
        let never = whole(&self.none);
        let usages_without = if sizes.is_empty() {
            units / used_in_time
        } else {
            never + (whole(lead.table) - never).max(0.0) / used_in_time
        };
        let lasting = self.units_waiting(point, lead.table);
        let jobs = lead.jobs.map_or(lasting, |jobs| jobs.waiting(point));
        let waiting = lasting / used_in_time;
        // What is there and on order, less what is on order for usages and for what ends, plus what is waited for.
        let position = point as f64 + f64::midpoint(quantity as f64, 1.0);
        Kind {
            used,
            units_without: too_large + of_all * units / used_in_time,
            usages_without,
            waiting,
            jobs_waiting: jobs / used_in_time,
            on_hand: (position - lead.table.mean() / used + waiting).max(0.0),
        }
    }

    /// Orders that find an empty shelf: who comes before they do waits.
    fn afresh(&self, point: i64, lead: InLeadTime<'_>, sizes: &[(u32, f64)]) -> Kind {
        match &self.middle {
            None => self.afresh_of_single(point, lead, sizes),
            Some(middle) => self.afresh_of_several(point, (lead.table, middle), sizes),
        }
    }

    fn afresh_of_single(&self, point: i64, lead: InLeadTime<'_>, sizes: &[(u32, f64)]) -> Kind {
        let (quantity, point) = (self.of.stock.quantity, point.min(0));
        let short = |table: &DemandTable| 1.0 - unit_fill(table, point, quantity);
        let used = short(&self.long).max(NOTHING);
        let waiting = self.units_waiting(point, lead.table);
        let asked = self.units_waiting(point, &self.long) - waiting;
        let lies = self
            .of
            .stock
            .yearly
            .mul_add(self.of.stock.life_years, -asked);
        let units_without = short(lead.table) / used;
        // A rebuild may take several of what usages take one by one: what an order leaves is enough for it or not.
        let of_several = |size: i64| {
            let never = 1.0 - on_hand_at_least(&self.none, point, quantity, size);
            let lead = 1.0 - on_hand_at_least(lead.table, point, quantity, size);
            never + (lead - never).max(0.0) / used
        };
        let usages_without = match sizes {
            [(size, _)] if *size > 1 => of_several(i64::from(*size)).max(units_without),
            _ => units_without,
        };
        Kind {
            used,
            units_without,
            usages_without,
            waiting: waiting / used,
            jobs_waiting: waiting / used,
            on_hand: lies.max(0.0) / used,
        }
    }

    /// The same where usages take several, counted by pieces: those of the lead time go without, and of each usage what is
    /// more than the shelf holds at half of the life.
    fn afresh_of_several(
        &self,
        point: i64,
        (table, middle): (&DemandTable, &DemandTable),
        sizes: &[(u32, f64)],
    ) -> Kind {
        let quantity = self.of.stock.quantity;
        // As many orders as it takes to come above the reorder point.
        let full = quantity * (point.max(0) / quantity + 1);
        let pieces = full as f64;
        // Pieces taken of an order, before which usages of `already` were waiting.
        let of_order = |table: &DemandTable, already: i64| {
            let before = already.min(full);
            let over: f64 = (0..full - before).map(|y| 1.0 - table.at_most(y)).sum();
            (before as f64 + over) / pieces
        };
        let is_waited_for = point < 0;
        let taken = |table: &DemandTable| {
            if !is_waited_for {
                return of_order(table, 0);
            }
            let each = self.of.stock.sizes.iter();
            each.map(|(size, share)| share * of_order(table, i64::from(*size)))
                .sum()
        };
        let (first, late, half, used) = (
            if is_waited_for {
                taken(&self.none)
            } else {
                0.0
            },
            taken(table),
            taken(middle),
            taken(&self.long).max(NOTHING),
        );
        let (short, too_few) = self.too_large(point, full, middle, sizes);
        // Who comes first, or finds too few, waits for all of the lead time, others for half of it.
        let mean_wait = f64::midpoint(first, late) / used;
        let waiting = table.mean() * (mean_wait + short);
        let jobs_waiting = table.mean() / self.of.mean_size * (mean_wait + too_few);
        // Simpson's rule over the life.
        let lies = 1.0 - (4.0_f64.mul_add(half, late) + used) / 6.0;
        let lies = self.of.stock.yearly * self.of.stock.life_years * lies.max(0.0);
        let late = (late / used).min(1.0);
        Kind {
            used,
            units_without: (1.0 - short).mul_add(late, short),
            usages_without: (1.0 - too_few).mul_add(late, too_few),
            waiting,
            jobs_waiting,
            on_hand: lies / used,
        }
    }

    /// Shares of units and of usages that lack something because less is left of an order than they take.
    fn too_large(
        &self,
        point: i64,
        full: i64,
        middle: &DemandTable,
        sizes: &[(u32, f64)],
    ) -> (f64, f64) {
        if point < 0 {
            return (0.0, 0.0);
        }
        let (mut reached, mut units, mut usages) = (0.0, 0.0, 0.0);
        for used in 0..full - point {
            let share = middle.share(used);
            let left = full - used;
            reached += share;
            for (size, of) in &self.of.stock.sizes {
                let short = (i64::from(*size) - left).max(0);
                units += share * of * short as f64;
            }
            let larger = sizes.iter().filter(|(size, _)| i64::from(*size) > left);
            usages += share * larger.map(|(_, of)| of).sum::<f64>();
        }
        if reached <= NOTHING {
            return (0.0, 0.0);
        }
        (units / reached / self.of.mean_size, usages / reached)
    }

    fn units_waiting(&self, reorder_point: i64, table: &DemandTable) -> f64 {
        let quantity = self.of.stock.quantity;
        let (first, last) = (reorder_point + 1, reorder_point + quantity);
        table.shortfall_sum(first, last) / quantity as f64
    }
}
