//! Textbook methods, checked against the books and used for comparison; the plan does not call them.
//!
//! `tests/suite/levels` holds them to printed values, exhaustive search and simulation, and `tests/bench` measures them beside
//! numpy.

mod base_stock;
mod budget_curve;
mod economic;
mod fast_reorder;
mod insurance;
mod normal_reorder;
mod one_shot_normal;
mod order_up_to;
mod policy;
mod smoothing;
mod two_echelon;

pub use base_stock::{StockCost, cost_base_stock, poisson_base_stock};
pub use budget_curve::{CurveStep, Gains, ListedGains, PoissonGains, budget_curve};
pub use economic::{
    EconomicQuantity, SharedLine, dated_orders, economic_quantity_with_waiting, shared_orders,
    with_all_units_breaks, with_incremental_breaks,
};
pub use fast_reorder::Search as FastReorder;
pub use insurance::{
    SpareCost, SparePrices, best_owned, break_even_down_cost, cost_with_hurried_buys, erlang_loss,
};
pub use normal_reorder::NormalPart;
pub use one_shot_normal::one_shot_normal;
pub use order_up_to::{OrderUpTo, order_up_to, power_approximation};
pub use policy::{
    PolicyPrices, ReorderPolicy, optimal_policy, policy_cost, reorder_point_by_fill,
    restricted_policy,
};
pub use smoothing::{shale_boylan_johnston, simple_smoothing};
pub use two_echelon::{Echelons, TwoEchelon};
