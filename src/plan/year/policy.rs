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
    /// What it rests on.
    pub basis: PolicyBasis,
}

impl OrderPolicy {
    /// The level of the plan, with its last buy, or with what is ordered now to bridge the time until open orders come.
    pub fn of_level(level: &Level, bridge: f64) -> Self {
        let first_buy = match &level.why {
            LevelBasis::Computed(reason) => {
                let last = reason.last_buy.as_ref();
                last.and_then(|last| last.buy).unwrap_or(bridge)
            }
            _ => 0.0,
        };
        Self {
            reorder_point: level.reorder_point,
            quantity: level.order_quantity,
            first_buy,
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
            basis,
        }
    }

    /// True where an order is due at this stock position.
    ///
    /// Somebody who waits for more than everything on order is always ordered for.
    pub fn is_due(&self, position: f64) -> bool {
        position <= self.reorder_point + 1e-9 || position < -1e-9
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
        let beyond_point = ((self.reorder_point - position) / one + 1.0).floor();
        let for_waiting = (-position / one).ceil();
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
        ] {
            let policy = OrderPolicy {
                reorder_point,
                quantity,
                first_buy: 0.0,
                basis: PolicyBasis::Level,
            };
            for position in [-20.0, -3.5, -1.0, 0.0, 0.5, 2.0, 5.0, 39.0] {
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
