//! A usage of four stops its machine once, until the fourth is there.

use super::super::super::job_steps::JobSteps;
use super::super::super::jobs_short::{JobsShort, JobsWaiting};
use super::*;
use crate::plan::DemandTable;
use crate::plan::level::LevelReason;

/// Two usages a year, of four each, of a part of 1,000.00 that comes one by one in 90 days, an hour down at `per_h`.
fn by_fours(per_h: f64) -> (Sample, PartId) {
    let (mut sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\"\norder_cost = 1.0"
    ));
    for usage in &mut sample.shop.usages {
        usage.record.quantity = 4.0;
    }
    for machine in sample.shop.machines.values_mut() {
        machine.downtime_cost_per_hour = Some(crate::plan::sample::euros(per_h));
    }
    (sample, part)
}

fn why(level: &Level) -> &LevelReason {
    match &level.why {
        LevelBasis::Computed(why) => why,
        other => panic!("not computed: {other:?}"),
    }
}

/// Usages in the mean lead time, and the probability of so many or more, Poisson.
fn in_lead_time(why: &LevelReason) -> (f64, impl Fn(i32) -> f64) {
    let mean = why.lead.mean_days * 4.0 / 730.0;
    let at_least = move |least: i32| {
        let (mut term, mut below) = ((-mean).exp(), 0.0);
        for n in 0..least {
            below += term;
            term *= mean / f64::from(n + 1);
        }
        1.0 - below
    };
    (mean, at_least)
}

#[test]
fn with_none_kept_usages_wait_their_rate_times_the_lead_time() {
    let (sample, part) = by_fours(1.0);
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    let why = why(level);
    let (mean, at_least) = in_lead_time(why);
    assert!((level.order_quantity - 1.0).abs() < 1e-9);
    assert!(level.min_stock.abs() < 1e-9, "{level:?}");
    assert!((why.service.jobs_waiting - mean).abs() < 1e-9);
    assert!((why.service.waiting - 4.0 * mean).abs() < 1e-9);
    let waiting = JobsWaiting::of(why);
    assert!((waiting.at(0.0) - mean).abs() < 1e-9);
    assert!((waiting.at(3.0) - mean).abs() < 1e-9);
    assert!((waiting.at(4.0) - (mean - at_least(1))).abs() < 1e-9);
    // One at a time it waits as many hours: a job is a job.
    let mut singly = by_fours(1.0).0;
    for usage in &mut singly.shop.usages {
        usage.record.quantity = 1.0;
    }
    let plan = singly.plan();
    let LevelBasis::Computed(single) = &plan.levels.by_part[&part].why else {
        panic!("not computed");
    };
    assert!((JobsWaiting::of(single).at(0.0) - mean).abs() < 1e-9);
    // Four together would save P(N >= 1) and lie there while no usage is under way: 4 P(N = 0), at 200.00 a year each.
    let first = why.first_that_pay.as_ref().unwrap();
    assert!((first.units - 4.0).abs() < 1e-9);
    assert!((first.saves_h - 365.0 * at_least(1)).abs() < 1e-6);
    let holding = 800.0 * (1.0 - at_least(1));
    assert!(
        (first.holding.to_units() - holding).abs() < 0.006,
        "{first:?}"
    );
    let said = level.why.to_string();
    assert!(
        said.starts_with("none kept: of ") && said.contains(" h waited a year 4 kept would save "),
        "{said}"
    );
    // They pay from where the hours saved count as much.
    let from = level.turning_points().unwrap().more_from_price.unwrap();
    assert!(
        (from / (holding / first.saves_h) - 1.0).abs() < 1e-4,
        "{from}"
    );
}

#[test]
fn a_level_rises_by_fours_and_says_at_which_prices() {
    // The k-th four save P(N >= k) and lie there while fewer usages are under way: 4 P(N < k) at 200.00 a year. With 0.49
    // usages in 90 days that pays from 3.4, 22.7 and 156 an hour of 365 a year on (by hand): eight at 100.
    let stock = |per_h: f64| {
        let (sample, part) = by_fours(per_h);
        sample.plan().levels.by_part[&part].min_stock
    };
    let (sample, part) = by_fours(100.0);
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    assert!((level.min_stock - 8.0).abs() < 1e-9, "{}", level.min_stock);
    let why = why(level);
    let (_, at_least) = in_lead_time(why);
    let pays_from = |k: i32| 800.0 * (1.0 - at_least(k)) / at_least(k) / 365.0;
    let points = level.turning_points().unwrap();
    let (more, less) = (
        points.more_from_price.unwrap(),
        points.less_from_price.unwrap(),
    );
    assert!((more / pays_from(3) - 1.0).abs() < 1e-4, "{more}");
    assert!((less / pays_from(2) - 1.0).abs() < 1e-4, "{less}");
    for (per_h, kept) in [
        (more * 1.01, 12.0),
        (more * 0.99, 8.0),
        (less * 1.01, 8.0),
        (less * 0.99, 4.0),
        (pays_from(1) * 0.99, 0.0),
    ] {
        assert!((stock(per_h) - kept).abs() < 1e-9, "{per_h}");
    }
    assert!(points.more_from.unwrap() > 1.0 && points.less_from.unwrap() < 1.0);
    // The eighth is what serves the second usage.
    let one_less = why.one_less.unwrap();
    assert!((one_less.waiting_h_more - 365.0 * at_least(2)).abs() < 0.01);
    assert_eq!(why.first_that_pay, None);
}

#[test]
fn of_what_expires_the_last_four_are_weighed_together() {
    // Half a year uses four, and as fours are ordered anew it is one for one with a mean of 0.493 usages in 90 days and 1.493
    // in those and the life (Poisson, by hand, see `ending`). Of four 4 * 2 * p(0) / P(N >= 1) = 2.32 end a year and 0.1339
    // usages wait, of eight 6.10 and 0.0357: 3,780 more ends at 1,000.00 each for 3,585 of waiting. The eighth alone saves all of
    // that and wastes one. With none kept 18,000 is waited.
    let (mut sample, part) = by_fours(100.0);
    sample.part_change(part, |part| part.shelf_life_months = Some(6.0));
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    assert!((level.min_stock - 4.0).abs() < 1e-9, "{}", level.min_stock);
    assert!(why(level).is_cut_for_shelf_life);
}

#[test]
fn a_budget_buys_four_or_none() {
    // 0.13 usages of four and 0.05 of one in the lead time, 100.00 each, an hour at 10.00 and 1,000 h a year. By hand: four
    // save 0.1219 usages, the single one P(N >= 1) = 0.0488; the second four 0.0078 at 3.97 held, and the second single one
    // 0.0012, pay at more than the 500 units held that a year of waiting counts.
    let part = |law: LeadTimeDemand, is_single: bool| {
        let table = DemandTable::new(&law);
        let jobs = (!is_single).then(|| {
            let short = JobsShort::new(&law, &table, 4.0);
            Arc::new(JobSteps::new(short, &table, 1))
        });
        PricedPart {
            table: Arc::new(table),
            jobs,
            sizes: Vec::new(),
            quantity: 1,
            price: 100.0,
            holding: 20.0,
            waiting_per_h: 10.0,
            year_h: 1_000.0,
            weighted_yearly: 1.0,
            fill_if_none: None,
            ending: None,
        }
    };
    let parts = [
        part(LeadTimeDemand::compound(0.13, &[(4, 1.0)]), false),
        part(LeadTimeDemand::Poisson { mean: 0.05 }, true),
    ];
    let ranges = [0, 1].map(|at: usize| BudgetRange::of(&parts[at], true));
    assert_eq!(ranges.map(|range| range.most), [3, 0]);
    for (budget, points, is_all) in [
        (99.0, [-1, -1], false),
        (300.0, [-1, 0], false),
        (400.0, [3, -1], false),
        (499.0, [3, -1], false),
        (500.0, [3, 0], true),
    ] {
        let set = reorder_points_for_budget(&parts, &ranges, budget);
        assert_eq!(set.reorder_points, points, "{budget}");
        assert_eq!(set.is_all_that_pays, is_all, "{budget}");
        // The price it amounts to buys no more than the sum does.
        let by_price = reorder_points(&parts, set.factor);
        let worth = |points: &[i64]| measure(&parts, points, 1.0).stock_value;
        assert!(worth(&by_price) <= budget + 1e-6, "{budget} {by_price:?}");
    }
    // Waiting is told in usages: with three of four all wait.
    assert!((measure(&parts, &[2, -1], 1.0).waiting_h - 180.0).abs() < 1e-9);
}

#[test]
fn of_machines_counted_one_by_one_a_piece_is_a_job_whatever_the_group_takes() {
    // Six single pieces in two years on one machine, beside a part that is taken by several, so that the group's mean is more
    // than one piece. By hand: what the last one saves is what waits with one less, in the level as in the order for it.
    let (mut sample, part) = with_machine(&format!(
        "{DEAR}[planning]\nlevels_by = \"downtime_cost\"\norder_cost = 0.01"
    ));
    for date in ["2024-08-02", "2025-08-02"] {
        sample.usage(part, date, 1.0);
    }
    for machine in sample.shop.machines.values_mut() {
        machine.installed = Some(1.0);
    }
    let other = sample.part("B");
    for (date, quantity) in [
        ("2024-06-03", 2.0),
        ("2024-12-02", 4.0),
        ("2025-06-02", 8.0),
    ] {
        sample.usage(other, date, quantity);
    }
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    let why = why(level);
    let few = why.few_machines.expect("counted one by one");
    assert!(why.demand.estimate.as_ref().unwrap().size.mean_pieces > 1.01);
    let waits = |owned: f64| few.waiting(owned as u32);
    let saved = waits(level.min_stock - 1.0) - waits(level.min_stock);
    let year_h = why.priced.as_ref().unwrap().year_h;
    let one_less = why.one_less.expect("one is kept");
    assert!((one_less.waiting_h_more / (saved * year_h) - 1.0).abs() < 1e-6);
    let waiting = JobsWaiting::of(why);
    let of_order = waiting.at(level.min_stock - 1.0) - waiting.at(level.min_stock);
    assert!((of_order / saved - 1.0).abs() < 1e-6);
}

#[test]
fn where_expiry_keeps_the_first_one_away_that_is_what_is_told() {
    // Of one of 1,000.00 that lasts a month and is used twice a year 2.1 a year end (2 exp(-m) / (1 - exp(-m)), m = 0.66 usages in
    // 90 days and a month; see `ending`), for the 101 h at 10.00 that it saves. All waiting counts 1,800, more than the 200.00 of
    // holding one (by hand).
    let (mut sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\"\norder_cost = 1.0"
    ));
    for machine in sample.shop.machines.values_mut() {
        machine.downtime_cost_per_hour = Some(crate::plan::sample::euros(10.0));
    }
    sample.part_change(part, |part| part.shelf_life_months = Some(1.0));
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    assert!(level.min_stock.abs() < 1e-9, "{}", level.min_stock);
    let why = why(level);
    let (mean, at_least) = in_lead_time(why);
    let first = why.first_that_pay.as_ref().unwrap();
    assert!((first.units - 1.0).abs() < 1e-9);
    let both = mean + 2.0 / 12.0;
    let used = 1.0 - (-both).exp();
    let waits = (mean - at_least(1)) / used;
    assert!((first.saves_h - 365.0 * (mean - waits)).abs() < 1e-6);
    assert!((first.expired - 2.0 * (1.0 / used - 1.0)).abs() < 1e-6);
    assert!(first.expired > 2.0 && first.holding.to_units() > 1000.0 * first.expired);
    let said = level.why.to_string();
    assert!(
        said.starts_with("none kept: of ")
            && said.contains(" h waited a year the first one would save ")
            && said.contains(", which count less than ")
            && said.contains(" of holding and expired stock; "),
        "{said}"
    );
    // Without an end of its life it is worth more than it costs at 10.00 an hour, and less at 0.10.
    let mut lasting = sample;
    lasting.part_change(part, |part| part.shelf_life_months = None);
    let plan = lasting.plan();
    assert!(plan.levels.by_part[&part].min_stock > 0.5);
    for machine in lasting.shop.machines.values_mut() {
        machine.downtime_cost_per_hour = Some(crate::plan::sample::euros(0.1));
    }
    let said = lasting.plan().levels.by_part[&part].why.to_string();
    assert!(
        said.contains(" h waited a year count less than holding one for 200.00 EUR a year"),
        "{said}"
    );
}
