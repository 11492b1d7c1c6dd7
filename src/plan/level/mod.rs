//! How many to keep of each part, when to order again and how many at a time, each with its reason.
//!
//! The first files are the arithmetic of one part (demand in the lead time, base stock, reorder point and quantity,
//! insurance spares, few machines, one last buy) and of many (one price of a stock-out, a budget, a kit); `levels` puts
//! them to work for a shop. Nothing here chooses offers.

mod base_stock;
mod budget;
mod budget_curve;
mod candidate;
mod demand_table;
mod economic;
mod empty_shelf;
mod fast_reorder;
mod finite_source;
mod insurance;
mod job_steps;
mod job_turning;
mod jobs_short;
mod kit_fill;
mod kit_levels;
mod last_buy;
mod lead_time_demand;
mod lead_time_law;
mod levels;
mod named_machine;
mod never_used;
mod normal_reorder;
mod offer_behind;
mod one_shot;
mod one_way;
mod order_quantity;
mod order_up_to;
mod part_use;
mod reason;
mod reorder_quantity;
mod replay;
mod service;
mod shared_freight;
mod shared_stock;
mod shelf_cap;
mod shelf_waste;
mod stock_out_price;
mod stock_unit;
mod turning_point;
mod two_echelon;
mod waiting_basis;
mod wording;

pub use base_stock::{StockCost, cost_base_stock, poisson_base_stock};
pub use budget::{BestSet, BudgetItem, best_set};
pub use budget_curve::{CurveStep, Gains, ListedGains, PoissonGains, budget_curve};
pub use demand_table::DemandTable;
pub use economic::{
    EconomicQuantity, SharedLine, dated_orders, economic_quantity, economic_quantity_with_waiting,
    shared_orders, with_all_units_breaks, with_incremental_breaks,
};
pub use empty_shelf::EmptyShelf;
pub use fast_reorder::Search as FastReorder;
pub use finite_source::{FEW_MACHINES, FewMachines};
pub use insurance::{
    SpareCost, SparePrices, YEAR_H, best_owned, break_even_down_cost, cost_with_hurried_buys,
    erlang_loss,
};
pub use job_steps::JobSteps;
pub use jobs_short::{JobsShort, JobsWaiting, mean_size, takes_one};
pub use kit_fill::{JobLine, job_fill, raise_to_job_fill};
pub use kit_levels::KitFill;
pub use last_buy::{LastBuy, LastBuyPrices, LastBuyStill, SavedOfJob, share_saved, until_then};
pub use lead_time_demand::LeadTimeDemand;
pub use lead_time_law::LeadTimeLaw;
pub use levels::{BudgetUse, Levels, target_shares};
pub use named_machine::NamedMachine;
pub use never_used::NeverUsed;
pub use normal_reorder::NormalPart;
pub use offer_behind::Preferred;
pub use one_shot::{OneShot, OneShotPrices, one_shot, one_shot_normal};
pub use one_way::{OneWayMoney, OneWaySaving, one_way_savings};
pub use order_quantity::QuantityReason;
pub use order_up_to::{OrderUpTo, order_up_to, power_approximation};
pub use part_use::criticality_weight;
pub use reason::{
    FirstThatPay, Level, LevelBasis, LevelReason, LevelRule, OneLess, OwnFigure, PricedAt,
    ServiceGoal, UnsignedMinimum, WhyNoLevel,
};
pub use reorder_quantity::{
    PolicyPrices, ReorderPolicy, optimal_policy, policy_cost, reorder_point_by_cost,
    reorder_point_by_fill, restricted_policy, unit_fill, unit_fill_of_sizes,
};
pub use replay::{Replay, replay};
pub use service::{Service, on_hand_at_least};
pub use shared_stock::{SharedStock, SharedStocks, WhyApart};
pub use stock_out_price::{
    BudgetRange, CurvePoint, ForBudget, PricedPart, curve, factor_for_service, measure,
    reorder_points, reorder_points_for_budget,
};
pub use stock_unit::stock_unit;
pub use turning_point::TurningPoints;
pub use two_echelon::{Echelons, TwoEchelon};
pub use waiting_basis::WaitingBasis;
