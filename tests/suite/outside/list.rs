//! Every check against something outside the project: what, against what, and the test that does it.

use super::methods as of;
use crate::{
    bench, demand, demand_ahead, designation, engineering, interchange, kits, lead_time, limits,
    standard,
};
use crate::{levels, plan};

/// Group of the checks of sizes.
pub const SIZES: &str = "Sizes";
/// Group of the checks of names, rules and formulas.
pub const RULES: &str = "Rules";

/// One check.
pub struct Check {
    /// [`SIZES`], [`RULES`] or a planning method.
    pub of: &'static str,
    /// What is checked.
    pub what: &'static str,
    /// The published source.
    pub against: &'static str,
    /// The test that does it, and counts what it compares.
    pub run: fn(),
}

const fn check(of: &'static str, what: &'static str, against: &'static str, run: fn()) -> Check {
    Check {
        of,
        what,
        against,
        run,
    }
}

/// All of them.
pub static CHECKS: [Check; 50] = [
    check(
        SIZES,
        "d, D, B of radial bearings",
        "bd_warehouse 0.4.0 (open CAD library), ISO 15",
        standard::bearing_sizes_agree_with_bd_warehouse,
    ),
    check(
        SIZES,
        "d, D, B of deep groove bearings",
        "openscad-mcad 2019.05 (open CAD library), ISO 15, JIS B 1521",
        standard::bearing_sizes_agree_with_openscad_mcad,
    ),
    check(
        SIZES,
        "O-rings by dash number",
        "bd_warehouse 0.4.0, SAE AS568",
        standard::o_ring_sizes_agree_with_bd_warehouse,
    ),
    check(
        SIZES,
        "Retaining rings: thickness and groove",
        "bd_warehouse 0.4.0, DIN 471 and DIN 472",
        standard::retaining_rings_agree_with_bd_warehouse,
    ),
    check(
        SIZES,
        "One envelope for every type of a dimension series",
        "ISO 15, general plan; counts as compared where the other type has rows of open tables",
        standard::one_dimension_series_has_one_envelope_for_every_type,
    ),
    check(
        SIZES,
        "Outside diameters of diameter series 9",
        "ISO 15 and ISO 1206; counts as compared where the ball bearing has rows of open tables",
        standard::outside_diameters_of_series_49_are_those_of_619,
    ),
    check(
        SIZES,
        "Questions at the bench and what must come out",
        "source of each row in `tests/tables/bench_cases.csv`",
        bench::every_case_of_the_bench_comes_out,
    ),
    check(
        RULES,
        "Designations taken apart",
        "source of each row in `tests/tables/designations.csv`: DIN 623-1 and the standards of the families",
        designation::the_table_of_designations_is_read_as_the_standards_say,
    ),
    check(
        RULES,
        "May one part stand in for another?",
        "source of each row in `tests/tables/exchange_cases.csv`",
        interchange::every_case_gets_its_verdict_and_its_reason,
    ),
    check(
        RULES,
        "Limits of fits",
        "pressfit 0.1.0 (open package), ISO 286-1",
        bench::fits::limits_of_fits_agree_with_pressfit,
    ),
    check(
        RULES,
        "Limits of fits, with every class of a bearing's seat",
        "rf-tolerances 1.0.0 (open package), DIN ISO 286",
        bench::fits::limits_of_fits_agree_with_rf_tolerances,
    ),
    check(
        RULES,
        "Width of every tolerance class of every step",
        "ISO 286-1, table 1, from memory",
        limits::every_tolerance_class_is_as_wide_as_its_grade,
    ),
    check(
        RULES,
        "Life, static load, clearance, ring tolerances, seats, O-ring grooves",
        "source of each row in `tests/tables/engineering_cases.csv`: ISO 281, ISO 76, ISO 5753-1, ISO 492, ISO 286-2",
        engineering::formulas_give_what_books_and_public_pages_give,
    ),
    check(
        of::CALENDARS,
        "Working days",
        "numpy `busday_offset`",
        plan::working_days_are_counted_as_numpy_counts_them,
    ),
    check(
        of::CALENDARS,
        "Arrivals, start of repair, production hours lost",
        "numpy, and a walk over every minute",
        plan::downtime_is_that_of_the_minute_walk,
    ),
    check(
        of::LEAD_TIMES,
        "Lognormal and gamma fits, open orders as censored; mean, spread and quantiles of the days",
        "scipy.stats, `CensoredData`; numpy",
        lead_time::fits_are_those_of_scipy_with_open_orders_too,
    ),
    check(
        of::LEAD_TIMES,
        "The next order after a few receipts",
        "scipy.stats (Student's t on logarithms)",
        lead_time::the_next_of_a_few_receipts_is_that_of_scipy,
    ),
    check(
        of::LEAD_TIMES,
        "What an open order still waits",
        "scipy.stats and quadrature",
        lead_time::an_open_order_waits_as_long_as_scipy_says,
    ),
    check(
        of::LEAD_TIMES,
        "The day a quote reaches",
        "numpy, and a walk over every minute",
        lead_time::a_quote_reaches_the_day_that_numpy_and_the_minute_walk_reach,
    ),
    check(
        of::RATES,
        "Gamma-Poisson posteriors and predictions",
        "scipy.stats",
        demand::posteriors_and_predictions_are_those_of_scipy,
    ),
    check(
        of::RATES,
        "Prior of a group",
        "scipy.optimize and statsmodels (negative binomial)",
        demand::the_prior_of_a_group_is_that_of_scipy_and_statsmodels,
    ),
    check(
        of::RATES,
        "A part without a group, Garwood's bound",
        "Jeffreys' prior by scipy.stats",
        demand::a_single_part_without_a_group_is_that_of_jeffreys,
    ),
    check(
        of::SMOOTHED,
        "Croston, SBA, SBJ, TSB, simple smoothing; classes of Syntetos, Boylan & Croston",
        "statsforecast (SBJ: the recursion of the table's own source)",
        demand::smoothed_forecasts_are_those_of_statsforecast,
    ),
    check(
        of::LIVES,
        "Weibull fits with censoring",
        "scipy, lifelines and reliability",
        demand::weibull_fits_are_those_of_three_libraries,
    ),
    check(
        of::LIVES,
        "Weibull fits as printed",
        "NIST/SEMATECH e-Handbook 8.4.1.3; Lieblein & Zelen, J. Res. NBS 57:273-316 (1956), as in Lawless",
        demand::weibull_fits_are_those_printed_by_nist_and_by_lieblein_and_zelen,
    ),
    check(
        of::LIVES,
        "Renewals",
        "closed form of the Erlang-2 (Cox, Renewal Theory, 1962), scipy and its simulation",
        demand::renewals_are_those_of_the_reference_and_of_its_simulation,
    ),
    check(
        of::LIVES,
        "Failures of aged parts",
        "scipy.stats",
        demand::aged_parts_fail_as_their_conditional_life_says,
    ),
    check(
        of::LIVES,
        "Age replacement",
        "scipy.optimize",
        demand::age_replacement_is_that_of_scipy,
    ),
    check(
        of::LIVES,
        "What fitted parts ask for",
        "scipy.stats; renewals by scipy and its simulation",
        demand_ahead::fitted_parts_ask_for_what_their_renewals_and_ages_say,
    ),
    check(
        of::POOLING,
        "One stock for several numbers",
        "scipy.stats",
        demand_ahead::one_stock_for_several_numbers_is_that_of_scipy,
    ),
    check(
        of::POOLING,
        "Pooled base stock",
        "scipy.stats",
        demand::pooled_stock_is_that_of_scipy,
    ),
    check(
        of::POOLING,
        "Where pooling raises the stock",
        "Yang & Schrage, Eur. J. Oper. Res. 192:837-851 (2009), in closed form",
        demand::pooling_can_raise_the_stock,
    ),
    check(
        of::DEMAND,
        "Rates over a lead time",
        "scipy.stats, numpy FFT",
        demand::demand_in_a_lead_time_is_that_of_scipy,
    ),
    check(
        of::DEMAND,
        "Poisson, compound, negative binomial, mixed over the lead time",
        "scipy.stats, numpy FFT beside Panjer's recursion",
        levels::one_part::demand_in_the_lead_time_is_that_of_scipy,
    ),
    check(
        of::REORDER,
        "(r, Q) of least cost",
        "Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed., Wiley 2019, example 5.8; Federgruen & Zheng, Oper. Res. 40:808-813 (1992); brute force",
        levels::one_part::cost_optimal_reorder_points_are_those_of_the_textbook_and_of_brute_force,
    ),
    check(
        of::REORDER,
        "Base stock of least cost",
        "stockpyl",
        levels::one_part::base_stock_by_cost,
    ),
    check(
        of::SERVICE,
        "Fill, waiting, on hand, cycle service; smallest points for a target",
        "scipy.stats; a simpy simulation",
        levels::one_part::measures_of_service_are_those_of_scipy_and_of_a_simulation,
    ),
    check(
        of::SERVICE,
        "Expected waiting (Palm)",
        "Sherbrooke, Optimal Inventory Modeling of Systems, ch. 2, and Hadley & Whitin (recomputed, from memory); Feeney & Sherbrooke, Manage. Sci. 12:391-411 (1966)",
        levels::many_parts::expected_waiting_is_that_of_palm_and_of_the_textbooks,
    ),
    check(
        of::QUANTITIES,
        "Plain, with breaks, with waiting, dated, shared orders",
        "Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed., Wiley 2019, examples 3.1, 3.5, 3.6, 3.8, 3.9, problem 3.12; stockpyl",
        levels::one_part::economic_quantities_of_the_textbook,
    ),
    check(
        of::PERIODIC,
        "(s, S) and the power approximation",
        "Zheng & Federgruen, Oper. Res. 39:654-665 (1991), table 1; Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed., Wiley 2019, examples 4.7, 4.8, problems 4.31, 4.32",
        levels::one_part::periodic_levels_are_those_of_zheng_and_federgruen,
    ),
    check(
        of::ONE_SHOT,
        "Normal, Poisson, explicit costs, geometric",
        "Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed., Wiley 2019, examples 4.1 and 4.3; stockpyl",
        levels::one_part::one_buy_that_must_last,
    ),
    check(
        of::FAST_MOVERS,
        "Four approximations",
        "Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed., Wiley 2019, examples 5.2, 5.4, 5.5; Nahmias, Production and Operations Analysis, ch. 5 (statement from memory, recomputed)",
        levels::one_part::approximations_for_fast_movers_are_those_of_the_textbooks,
    ),
    check(
        of::BUDGET,
        "Best sets, curve, availability",
        "exhaustive search",
        levels::many_parts::a_budget_buys_the_best_set_of_exhaustive_search,
    ),
    check(
        of::KIT_FILL,
        "Lines and kits found on the shelf",
        "table of expected waiting by scipy.stats (Feeney & Sherbrooke, Manage. Sci. 12:391-411, 1966, from memory)",
        levels::many_parts::a_kit_finds_its_lines_as_often_as_the_published_tables_say,
    ),
    check(
        of::SPARES,
        "Insurance spares, break-even, hurried buys",
        "scipy.stats, stockpyl",
        levels::many_parts::insurance_spares_and_their_break_even,
    ),
    check(
        of::SPARES,
        "Few machines",
        "scipy.stats",
        levels::many_parts::few_machines_wait_less_than_many_would,
    ),
    check(
        of::STORES,
        "By mean, and by mean and variance",
        "Sherbrooke, Oper. Res. 16:122-141 (1968); Graves, Manage. Sci. 31:1247-1256 (1985); sampling",
        levels::many_parts::two_stores_by_mean_and_by_mean_and_variance,
    ),
    check(
        of::LAST_LINE,
        "Quantiles and means of nine kits",
        "scipy.stats; 400,000 draws",
        kits::the_last_of_several_lines_is_that_of_scipy,
    ),
    check(
        of::TASKS,
        "With and without parts that hold tasks back",
        "networkx",
        kits::the_longest_chain_of_tasks_is_that_of_networkx,
    ),
    check(
        of::PURCHASE,
        "Seven machines that are down; curve of cost against days",
        "exhaustive search, scipy.optimize.milp (HiGHS)",
        kits::the_cheapest_purchase_is_that_of_exhaustive_search,
    ),
];
