//! Lead times, calendars, stock, kits, levels and what to order: numbers and their reasons.
//!
//! Takes a [`Shop`](crate::catalogue::Shop) and what is accepted on its kit lines, gives plain structs. Nothing here
//! prints, reads files or asks the clock; [`Shop::as_of`](crate::catalogue::Shop::as_of) is the moment of planning.

mod calendar;
mod choice;
mod demand;
mod exchange;
mod issue;
mod kit;
mod lead_time;
mod lead_time_demand;
mod levels;
mod lognormal;
mod offer;
mod open_order;
mod purchase;
mod rebuild_need;
mod receipt_history;
mod reorder;
mod shop_plan;
mod sourcing;
mod stock;
mod supply;

#[cfg(test)]
mod sample;

pub use calendar::{Calendars, WorkCalendar};
pub use choice::{OfferChoice, Timing, WhyNoChoice};
pub use demand::{Demand, Rate};
pub use issue::PlanIssue;
pub use kit::{
    ApprovalGain, ArrivalLaw, AskFirst, Completion, CurveMoment, Downtime, FixedBest, GammaWait,
    KitOutcome, KitPlan, KitStudy, LinePlan, NextBest, Proof, Question, Running, Saving, SetSaving,
    Spread, StudyAsk, Wait, quantile_of_last, share_complete, study_kit,
};
pub use lead_time::{Arrival, LATE_SHARE, LeadBasis, QUOTE_LATE_FACTOR, SHELF_TO_GATE_WORKDAYS};
pub use lead_time_demand::LeadTimeDemand;
pub use levels::{
    Level, LevelBasis, LevelReason, Levels, QuantityReason, WhyNoLevel, economic_quantity,
};
pub use lognormal::{LogSample, remaining_days};
pub use offer::{Delivery, DeliveryKind, UnusableOffer, WhyUnusable};
pub use open_order::OpenOrder;
pub use purchase::{BestInTotal, Choice, Freight, MOST_NODES, Picked, Problem, best_in_total};
pub use rebuild_need::{HORIZON_DAYS, RebuildNeed};
pub use receipt_history::{ENOUGH_PROMISES, ENOUGH_RECEIPTS};
pub use reorder::{NotOrdered, Reorder, ReorderLine, ReorderReason, SupplierOrder};
pub use shop_plan::{OfferArrivals, Plan, plan};
pub use stock::{ExpiredLot, FreeLot, FreeStock, PartStock};
pub use supply::{Source, Supply};
