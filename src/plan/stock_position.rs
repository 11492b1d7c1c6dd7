//! What a level has to go by: its shelf and orders, less what planned rebuilds take, with what their lines leave over.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::level::Level;
use super::level_shelf::expiring_of;
use super::open_order::OpenOrder;
use super::order_line::ReorderLine;
use super::rebuild_need::RebuildNeed;
use super::sourcing::Sourcing;
use super::stock::PartStock;
use crate::catalogue::PartId;

/// What there is already when levels are looked at: shelf and orders, what rebuilds take, and the lines bought for them.
pub struct There<'t, 'a> {
    /// Offers, shelf, orders and calendars.
    pub sourcing: &'t Sourcing<'a>,
    /// Rebuilds that take from shelf or orders of each part.
    pub drawn: &'t BTreeMap<PartId, Vec<&'t RebuildNeed>>,
    /// Lines for rebuilds.
    pub lines: &'t [ReorderLine],
    /// Positions of these lines by the part bought.
    pub lines_of: &'t BTreeMap<PartId, Vec<usize>>,
}

/// What there is of a level's stock, under all its numbers, and what planned rebuilds take of it and leave over.
pub struct Position<'a> {
    /// What is still good when a new order could be there.
    pub free: f64,
    /// What is not.
    pub expiring: f64,
    /// Quantity of open orders that are believed.
    pub on_order: f64,
    /// The orders behind that.
    pub orders: Vec<&'a OpenOrder>,
    /// Quantity of orders that nobody closed, and the first of their days.
    pub forgotten: Option<(f64, NaiveDate)>,
    /// What rebuilds take of it.
    pub for_rebuilds: f64,
    /// What the lines for rebuilds buy beyond their needs.
    pub left_over: f64,
}

impl<'a> Position<'a> {
    /// Rebuilds count that are planned within so many days, and what their lines leave over where these are due or are
    /// needed within so many.
    pub fn of(
        there: &There<'a, '_>,
        level: &Level,
        (drawn_within_days, left_within_days): (f64, f64),
    ) -> Self {
        let sourcing = there.sourcing;
        let stocks: Vec<&PartStock> = level
            .stocked()
            .filter_map(|part| sourcing.stock.by_part.get(&part))
            .collect();
        let orders = level
            .stocked()
            .filter_map(|part| sourcing.orders.get(&part))
            .flatten();
        let (forgotten, orders): (Vec<_>, Vec<_>) = orders.partition(|order| order.is_forgotten);
        let today = sourcing.shop.as_of.date();
        let needs = level.stocked().flat_map(|part| {
            let of_part = there.drawn.get(&part).into_iter().flatten();
            of_part.copied().map(move |need| (part, need))
        });
        let in_days = |day: NaiveDate| (day - today).num_days() as f64;
        let lines = level.stocked().filter_map(|part| there.lines_of.get(&part));
        let lines = lines.flatten().map(|at| &there.lines[*at]);
        let comes = |line: &&ReorderLine| {
            let needed_by = line.needed_by.map(in_days);
            line.is_due(today) || needed_by.is_some_and(|days| days <= left_within_days)
        };
        let sum = |sum, quantity| sum + quantity;
        let is_drawn = |need: &RebuildNeed| in_days(need.date) <= drawn_within_days;
        let needs: Vec<_> = needs.filter(|(_, need)| is_drawn(need)).collect();
        let expiring = expiring_of(level, &stocks, needs.iter().copied(), today);
        let free = stocks.iter().map(|of| of.free()).fold(0.0, sum);
        Self {
            free: free - expiring,
            expiring,
            on_order: orders.iter().map(|order| order.quantity).fold(0.0, sum),
            orders,
            forgotten: forgotten
                .iter()
                .filter_map(|order| Some((order.quantity, order.ordered?)))
                .reduce(|(sum, first), (quantity, day)| (sum + quantity, first.min(day))),
            for_rebuilds: needs
                .iter()
                .map(|(part, need)| need.drawn_from(*part, level.unit))
                .fold(0.0, sum),
            left_over: lines
                .filter(comes)
                .map(|line| line.left_over() * line.unit.in_units_of(level.unit).unwrap_or(0.0))
                .fold(0.0, sum),
        }
    }

    /// Free and on order, and what is left over, less what rebuilds take.
    pub fn left(&self) -> f64 {
        self.free + self.on_order + self.left_over - self.for_rebuilds
    }
}
