//! What the plan computes, and which files of `src/plan` do it.

/// One planning method.
pub struct Method {
    /// Its name in the list.
    pub name: &'static str,
    /// Files or folders below `src/plan`.
    pub files: &'static [&'static str],
    /// Why no check outside the project stands here; `None` where checks do.
    pub unchecked: Option<&'static str>,
}

const fn method(name: &'static str, files: &'static [&'static str]) -> Method {
    Method {
        name,
        files,
        unchecked: None,
    }
}

const fn unchecked(
    name: &'static str,
    files: &'static [&'static str],
    why: &'static str,
) -> Method {
    Method {
        name,
        files,
        unchecked: Some(why),
    }
}

pub const CALENDARS: &str = "Working days and production hours";
pub const LEAD_TIMES: &str = "Lead times from receipts and quotes";
pub const RATES: &str = "Usage rates drawn to their group";
pub const SMOOTHED: &str = "Smoothed forecasts and demand classes";
pub const LIVES: &str = "Lives in running hours";
pub const POOLING: &str = "One stock for several numbers";
pub const DEMAND: &str = "Demand in the lead time";
pub const REORDER: &str = "Reorder points and quantities of least cost";
pub const SERVICE: &str = "Service of a level";
pub const QUANTITIES: &str = "Economic quantities";
pub const PERIODIC: &str = "Periodic levels (a method of the books, which the plan does not call)";
pub const ONE_SHOT: &str = "One buy that must last";
pub const FAST_MOVERS: &str =
    "Normal approximations for fast movers (methods of the books, which the plan does not call)";
pub const BUDGET: &str = "Stock for a budget";
pub const KIT_FILL: &str = "Kits that find every line on the shelf";
pub const SPARES: &str = "Insurance spares, hurried buys, few machines";
pub const STORES: &str = "Two stores (a method of the books, which the plan does not call)";
pub const LAST_LINE: &str = "When the last of several lines is in";
pub const TASKS: &str = "Longest chain of tasks";
pub const PURCHASE: &str = "Cheapest purchase of a kit";

const LEAD_FILES: &[&str] = &[
    "lead_time/basis.rs",
    "lead_time/course.rs",
    "lead_time/distribution.rs",
    "lead_time/gamma.rs",
    "lead_time/log_sample.rs",
    "lead_time/receipt_history.rs",
    "lead_time/spread.rs",
    "open_order.rs",
    "open_order",
];

/// Every method, in the order of the way of a plan.
pub const METHODS: &[Method] = &[
    method(CALENDARS, &["calendar", "kit/work_clock.rs"]),
    method(LEAD_TIMES, LEAD_FILES),
    unchecked(
        "Lead times that lean on those of others",
        &[
            "lead_time/leaning.rs",
            "lead_time/peers.rs",
            "lead_time/shrinkage.rs",
        ],
        "Normal shrinkage of log medians and spreads, derived at the head of `shrinkage.rs`; its stated dates are kept as often as \
         stated on simulated shops of known truth (`tests/suite/lead_time.rs`), which is our own simulation.",
    ),
    method(
        RATES,
        &[
            "demand/estimate.rs",
            "demand/exposure.rs",
            "demand/gamma_poisson.rs",
            "demand/group.rs",
            "demand/history.rs",
            "demand/of_part.rs",
            "demand/of_part",
        ],
    ),
    unchecked(
        "Sizes of usages drawn to their group, fading of older usages",
        &["demand/size.rs", "demand/discount.rs"],
        "Judged as a whole on two open sets of series against twelve listed methods (`tests/bench -- backtest`; figures in \
         DEVELOPERS.md), outside the ordinary run; the same paragraph says what flatters us.",
    ),
    method(
        SMOOTHED,
        &[
            "demand/croston.rs",
            "demand/class.rs",
            "level/reference/smoothing.rs",
        ],
    ),
    method(
        LIVES,
        &[
            "demand/weibull.rs",
            "demand/renewal.rs",
            "demand/life.rs",
            "demand/life_forecast.rs",
            "demand/life_forecast",
            "demand/planned.rs",
        ],
    ),
    method(
        POOLING,
        &[
            "demand/pool.rs",
            "demand/pooling_gain.rs",
            "level/one_way.rs",
            "level/shared_stock.rs",
            "level/shared_stock",
        ],
    ),
    method(
        DEMAND,
        &[
            "demand/moments.rs",
            "level/demand_table.rs",
            "level/lead_time_demand.rs",
            "level/lead_time_law.rs",
        ],
    ),
    method(
        REORDER,
        &[
            "level/candidate.rs",
            "level/own_minimum.rs",
            "level/reorder_quantity.rs",
            "level/reference/base_stock.rs",
            "level/reference/fast_reorder.rs",
            "level/reference/policy.rs",
        ],
    ),
    method(
        SERVICE,
        &[
            "level/service.rs",
            "level/empty_shelf.rs",
            "level/ending.rs",
        ],
    ),
    method(
        QUANTITIES,
        &[
            "level/economic.rs",
            "level/order_freight.rs",
            "level/order_quantity.rs",
            "level/reference/economic.rs",
        ],
    ),
    method(PERIODIC, &["level/reference/order_up_to.rs"]),
    method(
        ONE_SHOT,
        &[
            "level/one_shot.rs",
            "level/reference/one_shot_normal.rs",
            "level/last_buy.rs",
            "level/jobs_short.rs",
        ],
    ),
    method(FAST_MOVERS, &["level/reference/normal_reorder.rs"]),
    method(
        BUDGET,
        &["level/budget.rs", "level/reference/budget_curve.rs"],
    ),
    method(
        SPARES,
        &["level/reference/insurance.rs", "level/finite_source.rs"],
    ),
    method(STORES, &["level/reference/two_echelon.rs"]),
    method(KIT_FILL, &["level/kit_fill.rs", "level/kit_levels.rs"]),
    unchecked(
        "One price of a stock-out for the whole shop",
        &[
            "stock_out_price.rs",
            "level/stock_out_price.rs",
            "level/turning_point.rs",
            "level/levels.rs",
            "level/levels/tests",
        ],
        "Each level is the least-cost level checked above at a price found by bisection; the price itself is judged on the two open \
         sets (`tests/bench -- backtest`).",
    ),
    unchecked(
        "What a level would have done over the recorded past, shelf life, reasons",
        &[
            "level/replay.rs",
            "level/shelf_cap.rs",
            "level/named_machine.rs",
            "level/offer_behind.rs",
            "level/shared_freight.rs",
            "level/part_use.rs",
            "level/reason.rs",
            "level/wording.rs",
        ],
        "Counting and wording; worked by hand in the unit tests.",
    ),
    method(
        LAST_LINE,
        &["kit/last_line.rs", "kit/arrival_law.rs", "kit/arrival_law"],
    ),
    method(TASKS, &["kit/task_net.rs", "kit/task_net"]),
    method(
        PURCHASE,
        &[
            "purchase/cheapest.rs",
            "purchase/cover.rs",
            "purchase/deadline.rs",
            "purchase/dual_bound.rs",
            "purchase/line_need.rs",
            "purchase/problem.rs",
            "kit/study.rs",
            "kit/outcome.rs",
            "kit/planner.rs",
        ],
    ),
    unchecked(
        "Purchase by expected cost, what each line and each approval is worth",
        &[
            "purchase/expected.rs",
            "purchase/twice.rs",
            "kit/chosen.rs",
            "kit/fixed_plans.rs",
            "kit/freight_doubt.rs",
            "kit/hurried.rs",
            "kit/line_value.rs",
            "kit/planned.rs",
            "kit/settling.rs",
            "kit/stakes.rs",
            "kit/tests",
            "kit/task_course.rs",
        ],
        "Compared with plain enumeration written for the tests (`src/plan/purchase/tests.rs`), by ourselves.",
    ),
    unchecked(
        "Choice of offers, stock that is free, open orders, what to order",
        &[
            "choice.rs",
            "exchange.rs",
            "freight.rs",
            "issue.rs",
            "lead_time/placing.rs",
            "level/never_used.rs",
            "level/stock_unit.rs",
            "offer.rs",
            "late_order.rs",
            "order_line.rs",
            "order_list.rs",
            "order_worth.rs",
            "part_price.rs",
            "rebuild_need.rs",
            "reorder.rs",
            "reorder/tests",
            "riding_along.rs",
            "same_part.rs",
            "three_points.rs",
            "tolerance.rs",
            "year_length.rs",
            "middles.rs",
            "sample.rs",
            "shop_plan.rs",
            "sourcing.rs",
            "stock.rs",
            "stock_position.rs",
            "stock/expiring.rs",
            "supplier_order.rs",
            "supply.rs",
            "surplus.rs",
        ],
        "Arithmetic and rules of the trade on the methods above; worked by hand in the unit tests and on the demo shop.",
    ),
    unchecked(
        "A year of the shop, event by event, and what-ifs",
        &["as_if.rs", "what_if.rs", "year"],
        "Our own simulation: it confirms the figures of the methods above (waiting, usages met, stock) within its error on shops \
         of one part to many (`src/plan/year/tests.rs`, `tests/suite/simulation.rs`), and those are checked outside.",
    ),
];
