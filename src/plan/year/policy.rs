//! When a part is ordered and how many: by the planned level, or as today.

use crate::plan::level::{Level, LevelBasis};

/// What an ordering policy rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PolicyBasis {
    /// The level of the plan.
    Level,
    /// The planner's own minimum in the parts table.
    OwnMinimum,
    /// No minimum in any table: what is used is replaced, up to what is there and on order today.
    KeptAsItIs,
}

/// When is ordered and how many.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OrderPolicy {
    /// Order when free and on order, less what is waited for, fall to this.
    pub reorder_point: f64,
    /// Quantity of an order; 0 buys what is waited for only.
    pub quantity: f64,
    /// Bought at the start, whatever is on order: a last buy, or a bridge until late orders come.
    pub first_buy: f64,
    /// True where the shelf is bridged, each time that it runs low, as long as a new order is here before an open one.
    pub bridges: bool,
    /// What it rests on.
    pub basis: PolicyBasis,
}

impl OrderPolicy {
    /// The level of the plan, with its last buy, or with what is ordered now to bridge the time until open orders come.
    pub fn of_level(level: &Level, bridge: f64) -> Self {
        let (first_buy, bridges) = match &level.why {
            LevelBasis::Computed(reason) => match &reason.last_buy {
                Some(last) => (last.buy.unwrap_or(bridge), false),
                None => (bridge, bridge > 0.0),
            },
            _ => (0.0, false),
        };
        Self {
            reorder_point: level.reorder_point,
            quantity: level.order_quantity,
            first_buy,
            bridges,
            basis: PolicyBasis::Level,
        }
    }

    /// As the shop does today, ordering the same quantities as the plan.
    pub fn of_today(level: &Level, own_min_stock: Option<f64>, position: f64) -> Self {
        let quantity = level.order_quantity.max(1.0);
        let (reorder_point, basis) = own_min_stock.map_or_else(
            || ((position - quantity).max(-1.0), PolicyBasis::KeptAsItIs),
            |own| (own.ceil() - 1.0, PolicyBasis::OwnMinimum),
        );
        Self {
            reorder_point,
            quantity,
            first_buy: 0.0,
            bridges: false,
            basis,
        }
    }

    /// True where an order is due at this stock position.
    ///
    /// Somebody who waits for more than everything on order is always ordered for.
    pub fn is_due(&self, position: f64) -> bool {
        position <= self.reorder_point + 1e-9 || position < -1e-9
    }

    /// Quantity of an order that bridges the time until open orders come, so many of which do not count yet; `None` where none
    /// is due.
    pub fn bridge(&self, position: f64, not_counted: f64) -> Option<f64> {
        let in_time = position - not_counted;
        let is_due = self.bridges && not_counted > 1e-9 && in_time <= self.reorder_point + 1e-9;
        is_due.then_some(self.reorder_point + 1.0 - in_time)
    }

    /// Quantity of one order at this stock position.
    pub fn order(&self, position: f64) -> f64 {
        if self.quantity > 0.0 {
            self.quantity
        } else {
            (-position).max(1.0)
        }
    }

    /// Quantity of the orders that are due at this stock position, all of them together.
    pub fn rest(&self, position: f64) -> f64 {
        let one = self.order(position);
        // Tenths of a metre add up to a little less or more than they are.
        let beyond_point = ((self.reorder_point - position) / one + 1e-9).floor() + 1.0;
        let for_waiting = (-position / one - 1e-9).ceil();
        one * beyond_point.max(for_waiting).max(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rest_is_what_orders_one_by_one_come_to() {
        for (reorder_point, quantity) in [
            (0.0, 1.0),
            (3.0, 1.0),
            (2.5, 1.0),
            (40.0, 7.0),
            (-1.0, 1.0),
            (-1.0, 4.0),
            (-1.0, 0.0),
            (5.0, 0.5),
            (2.0, 0.1),
        ] {
            let policy = OrderPolicy {
                reorder_point,
                quantity,
                first_buy: 0.0,
                bridges: false,
                basis: PolicyBasis::Level,
            };
            for position in [-20.0, -3.5, -1.0, 0.0, 0.5, 1.7, 2.0, 5.0, 39.0] {
                if !policy.is_due(position) {
                    continue;
                }
                let mut reached: f64 = position;
                while policy.is_due(reached) {
                    reached += policy.order(reached);
                }
                let at_once = position + policy.rest(position);
                assert!(
                    (at_once - reached).abs() < 1e-9,
                    "{reorder_point} {quantity} {position}: {at_once} {reached}"
                );
            }
        }
    }
}
