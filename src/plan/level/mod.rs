//! How many to keep of each part, when to order again and how many at a time, each with its reason.
//!
//! Arithmetic of one part: its demand in the lead time (`lead_time_demand`, `demand_table`), the reorder point for a quantity
//! and the quantity (`reorder_quantity`, `order_quantity`), what either serves (`service`, `empty_shelf`, `replay`), few
//! machines and one last buy; of many: one price of a stock-out, a budget, kits, one stock for several numbers. `candidate`
//! puts it together for a part, `own_minimum` beside a planner's own figure, and `levels` for a shop; `offer_behind` says by
//! which offer a level is filled. What only books and comparisons need is in `reference`.

mod budget;
mod candidate;
mod demand_table;
mod economic;
mod empty_shelf;
mod ending;
mod finite_source;
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
mod offer_behind;
mod one_shot;
mod one_way;
mod order_freight;
mod order_quantity;
mod own_minimum;
mod part_use;
mod quantity_wording;
mod reason;
mod reference;
mod reorder_quantity;
mod replay;
mod service;
mod service_out_of_reach;
mod shared_freight;
mod shared_stock;
mod shelf_cap;
mod stock_out_price;
mod stock_unit;
mod turning_point;
mod waiting_basis;
mod wording;

pub use budget::{BestSet, BudgetItem, best_set};
pub use demand_table::DemandTable;
pub use economic::economic_quantity;
pub use empty_shelf::EmptyShelf;
pub use ending::{Ending, EndingService, EndingStock, InLeadTime};
pub use finite_source::{FEW_MACHINES, FewMachines};
pub use job_steps::JobSteps;
pub use jobs_short::{JobsShort, JobsWaiting, mean_size, takes_one};
pub use kit_fill::{JobLine, job_fill, raise_to_job_fill};
pub use kit_levels::KitFill;
pub use last_buy::{LastBuy, LastBuyPrices, LastBuyStill, SavedOfJob, share_saved, until_then};
pub use lead_time_demand::LeadTimeDemand;
pub use lead_time_law::LeadTimeLaw;
pub use levels::{BudgetUse, Levels, OutOfReach, target_shares};
pub use named_machine::NamedMachine;
pub use never_used::NeverUsed;
pub use offer_behind::Preferred;
pub use one_shot::{OneShot, OneShotPrices, one_shot};
pub use one_way::{OneWayMoney, OneWaySaving, one_way_savings};
pub use order_quantity::{QuantityFreight, QuantityReason};
pub use part_use::criticality_weight;
pub use reason::{
    FirstThatPay, Level, LevelBasis, LevelReason, LevelRule, OneLess, OwnFigure, PricedAt,
    ServiceGoal, StockEnds, TargetWhereStockEnds, UnsignedMinimum, WhyNoLevel,
};
pub use reference::*;
pub use reorder_quantity::{reorder_point_by_cost, unit_fill, unit_fill_of_sizes};
pub use replay::{Replay, ReplayedLevel, replay};
pub use service::{Service, on_hand_at_least};
pub use service_out_of_reach::{PriceForService, price_for_service};
pub use shared_stock::{SharedStock, SharedStocks, WhyApart};
pub use stock_out_price::{
    BudgetRange, CurvePoint, ForBudget, PricedPart, curve, factor_for_service, measure,
    reorder_points, reorder_points_for_budget,
};
pub use stock_unit::stock_unit;
pub use turning_point::TurningPoints;
pub use waiting_basis::WaitingBasis;
