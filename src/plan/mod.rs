//! Lead times, calendars, stock, kits, levels and what to order: numbers and their reasons.
//!
//! Takes a [`Shop`](crate::catalogue::Shop) and what is accepted on its kit lines, gives plain structs. Nothing here
//! prints, reads files or asks the clock; [`Shop::as_of`](crate::catalogue::Shop::as_of) is the moment of planning.

mod as_if;
mod calendar;
mod choice;
mod delivery;
mod demand;
mod earlier_first;
mod exchange;
mod freight;
mod issue;
mod kit;
mod kit_insurance;
mod late_for_last;
mod late_for_level;
mod late_hours;
mod late_order;
mod lead_time;
mod level;
mod level_shelf;
mod made_instead;
mod middles;
mod offer;
mod one_stop;
mod open_or_new;
mod open_order;
mod order_doubt;
mod order_line;
mod order_list;
mod order_waiting;
mod order_worth;
mod other_way;
mod part_price;
mod purchase;
mod rebuild_need;
mod reorder;
mod riding_along;
mod same_part;
mod share_of_cases;
mod shop_plan;
mod sourcing;
mod stock;
mod stock_position;
mod supplier_order;
mod supply;
mod surplus;
mod surplus_basis;
mod three_points;
mod tolerance;
mod what_if;
mod when_missed;
mod without_line;
mod year;
mod year_length;

#[cfg(test)]
mod sample;
#[cfg(test)]
#[path = "../../tests/bench/src/accuracy/split_mix.rs"]
mod split_mix;

pub use crate::catalogue::{ShelfLife, ShelfLifeBasis};
pub use as_if::AsIf;
pub use calendar::{CalendarId, Calendars, WorkCalendar};
pub use choice::{OfferChoice, Timing, WhyNoChoice};
pub use delivery::{Delivery, DeliveryKind};
pub use demand::{
    AgeReplacement, ClassFigures, Counted, Demand, DemandClass, DemandPool, DemandRate, Discount,
    ENOUGH_FAILURES, EventRate, FittedPosition, GroupOf, GroupPrior, GroupSizes, Grouped, Groups,
    History, LeadTimeDemandMoments, LifeForecast, LogSizes, MONTH_DAYS, PartLife, PoolSaving,
    PoolingGain, Rate, RateBasis, SizeMoments, SizesInParts, Smoothed, USUAL_DISCOUNT, Weibull,
    WeibullFit, WhyNotByAge, best_discount, expected_renewals, failures_among, failures_by_hours,
    failures_of_aged, price_bands, renewals_at_most, why_not_by_age,
};
pub use freight::{AssumedFreight, Freight, FreightBasis};
pub use issue::{FORGOTTEN_FACTOR, PlanIssue};
pub use kit::{
    ApprovalGain, ArrivalLaw, AskFirst, Completion, CurveMoment, Downtime, FixedBest, FreightCase,
    FreightDoubt, Gained, GammaWait, Giver, HurriedWay, KitOutcome, KitPlan, KitStudy, Lateness,
    LinePlan, NextBest, Proof, Question, Running, Saving, SetSaving, Settling, SettlingGain,
    Spread, Stretch, StudyAsk, TaskCourse, Wait, WayGain, WithApprovals, enough_of, has_whole_work,
    quantile_of_last, share_complete, study_kit, task_courses,
};
pub use late_for_level::LateForLevel;
pub use late_hours::WaitsFrom;
pub use late_order::{ShelfLeft, open_too_late, served_by_the_shelf};
pub use lead_time::{
    Arrival, ArrivalDistribution, Course, ENOUGH_ALONE, ENOUGH_RECEIPTS, FAIRLY_SHARE,
    FEWEST_RECEIPTS, HourClock, LATE_SHARE, LONGEST_DAYS, LeadBasis, LeadQuestion, LeadTime,
    LeadTimes, LogSample, OpenQuestion, QUOTE_LATE_FACTOR, ReceiptHistory, Receipts,
    SHELF_TO_GATE_WORKDAYS, WORK_LATE_FACTOR, gamma_fit, is_gamma_better, minus_log_likelihood,
};
pub use level::*;
pub use level_shelf::{LevelShelf, LevelShelves};
pub use made_instead::{MadeInstead, WayLeft};
pub use offer::{UnusableOffer, WhyUnusable};
pub use open_order::{OpenOrder, what_comes, what_comes_late};
pub use order_doubt::{OrderDoubt, order_doubts};
pub use order_line::{OrderedFor, ReorderLine, ReorderReason};
pub use order_worth::{OrderWorth, order_worths};
pub use part_price::PartPrices;
pub use purchase::{BestInTotal, Choice, MOST_NODES, Picked, Problem, Proved, best_in_total};
pub use rebuild_need::{HORIZON_DAYS, RebuildNeed, service_ends};
pub use reorder::{NotOrdered, Reorder};
pub use share_of_cases::share_of_cases;
pub use shop_plan::{OfferArrivals, Plan, levels_for_budget, plan, plan_as_if};
pub use stock::{ExpiredLot, FreeLot, FreeStock, PartStock};
pub use supplier_order::SupplierOrder;
pub use supply::{Source, Supply};
pub use surplus::{Surplus, surplus};
pub use surplus_basis::{KEPT_SHARE, KEPT_YEARS, SurplusBasis, UNUSED_YEARS};
pub use what_if::{WhatIf, WhatIfError, newly_without_source};
pub use when_missed::WhenMissed;
pub use year::*;
pub use year_length::YEAR_DAYS;
