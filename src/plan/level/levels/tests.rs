mod in_words;
mod own_figures;
mod several_at_a_time;
mod stock_that_ends;

use proptest::prelude::*;

use super::*;
use crate::plan::sample::{Sample, day, price};
use crate::plan::{LeadTimeDemand, ReorderReason};
use crate::record::{LeadUnit, OfferRecord, QuotedLeadTime};

/// A service target for each part, so that one part is judged without the rest of the shop.
const SINCE: &str = "records_from = \"2024-03-04\"\n[planning]\nlevels_by = \"service_target\"\ndemand_method = \"plain\"";

/// Four usages of one piece in 730 days and an offer of 90 days.
fn two_a_year(settings: &str, change: impl FnOnce(&mut OfferRecord)) -> (Sample, PartId) {
    let mut sample = Sample::new(settings);
    sample.supplier("North", |_| {});
    let part = sample.part("A");
    for date in ["2024-05-02", "2024-11-02", "2025-05-02", "2025-11-02"] {
        sample.usage(part, date, 1.0);
    }
    let lead = QuotedLeadTime::exactly(90.0, LeadUnit::Days);
    sample.offer(part, "North", Some(lead), change);
    (sample, part)
}

/// The same with so many receipts of exactly 90 days that the lead time is as good as known.
fn in_ninety_days(sample: &mut Sample, part: PartId) {
    for _ in 0..400 {
        sample.receipt(part, "North", "2025-05-02", None, Some(90));
    }
}

#[test]
fn a_level_explains_itself_with_its_numbers() {
    // Two a year, quoted 90 days, late case twice as long: a lognormal of mean 104.18 days and squared cv 0.33982;
    // scipy.stats.nbinom with n = 1 / 0.33982 and mean 0.57082 has P(<= 2) = 0.96812 and P(<= 1) = 0.87724.
    let (sample, part) = two_a_year(SINCE, |_| {});
    let level = &sample.plan().levels.by_part[&part];
    assert!((level.reorder_point - 2.0).abs() < 1e-9 && (level.min_stock - 3.0).abs() < 1e-9);
    assert_eq!(
        level.why.to_string(),
        "P(demand in 104 days <= 2) = 0.968 >= 0.95; with 1 it would be 0.877; 4 used in 4 usages over 730 days; \
         lead time: quote only; late case 2 times as long, as lead times usually spread"
    );
}

#[test]
fn the_order_quantity_is_economic_and_fits_the_pack() {
    // Two a year, 25.00 an order, 20 % of 10.00 a year: sqrt(2 * 2 * 25 / 2) = 7.07 (Harris' formula by hand); of whole
    // numbers 7 costs 7.143 + 7 and 8 costs 6.25 + 8.
    for (pack, quantity) in [(None, 7.0), (Some(5.0), 10.0), (Some(8.0), 8.0)] {
        let (sample, part) = two_a_year(SINCE, |offer| offer.pack_quantity = pack);
        let level = &sample.plan().levels.by_part[&part];
        assert!((level.order_quantity - quantity).abs() < 1e-9, "{pack:?}");
        let economic = level.why_quantity.as_ref().unwrap().economic.unwrap();
        assert!((economic - 50.0_f64.sqrt()).abs() < 1e-9);
    }
}

#[test]
fn no_more_is_ordered_than_the_shelf_life_uses() {
    let (mut sample, part) = two_a_year(SINCE, |offer| offer.minimum_quantity = Some(5.0));
    sample.part_change(part, |part| part.shelf_life_months = Some(24.0));
    let plan = sample.plan();
    assert!((plan.levels.by_part[&part].order_quantity - 5.0).abs() < 1e-9);
    assert!(matches!(
        plan.issues[..],
        [PlanIssue::OutlastsShelfLife { .. }]
    ));
    sample.shop.offers[0].record.minimum_quantity = None;
    let plan = sample.plan();
    // Four used in the shelf life; with the two that lie there when it is ordered the last of two more is the fourth.
    let level = &plan.levels.by_part[&part];
    assert!((level.order_quantity - 2.0).abs() < 1e-9);
    assert!(level.reorder_point + level.order_quantity <= 4.0 + 1e-9);
    assert!(plan.issues.is_empty());
}

/// The measures of the levels that hold, added up from their reasons.
fn waiting_h(plan: &crate::plan::Plan) -> f64 {
    let levels = plan.levels.by_part.values();
    levels
        .filter_map(|level| match &level.why {
            LevelBasis::Computed(why) if why.last_buy.is_none() => {
                Some(why.service.waiting * why.priced.as_ref()?.year_h)
            }
            _ => None,
        })
        .sum()
}

#[test]
fn the_levels_of_the_report_are_measured_with_the_planners_own_figures() {
    let (mut sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\""
    ));
    let by_rule = sample.plan().levels.chosen.unwrap();
    assert!((by_rule.stock_value - 3000.0).abs() < 1e-6);
    for (own, is_signed) in [(9.0, false), (1.0, true), (0.0, true)] {
        sample.part_change(part, |part| {
            part.own_min_stock = Some(own);
            part.own_min_reason = is_signed.then(|| "shelf is full".to_owned());
            part.own_min_date = is_signed.then(|| day("2026-01-12"));
        });
        let plan = sample.plan();
        let held = plan.levels.chosen.unwrap();
        // Orders of one: the stock is worth the minimum.
        assert!(
            (held.stock_value - 1000.0 * own).abs() < 1e-6,
            "{own} {held:?}"
        );
        assert!(
            (held.waiting_h - waiting_h(&plan)).abs() < 1e-9,
            "{own} {held:?}"
        );
        assert!((held.waiting_cost - 100.0 * held.waiting_h).abs() < 1e-6);
        assert_eq!(own > 3.0, held.waiting_h < by_rule.waiting_h);
        // A budget counts them too.
        sample.shop.settings.planning.levels_by = LevelsBy::StockOutPrice;
        sample.shop.settings.planning.stock_budget = Some(5000.0);
        let plan = sample.plan();
        let found = plan.levels.chosen.unwrap().stock_value;
        assert!((found - 1000.0 * own).abs() < 1e-6, "{own} {found}");
        let level = &plan.levels.by_part[&part];
        assert!((level.min_stock - own).abs() < 1e-9);
        // Where the planner's figure is what the rule gives anyway, the rule is told.
        let is_told = level.why.to_string().contains("own minimum of");
        assert!(is_told || own < 1.0, "{}", level.why);
        sample.shop.settings.planning.levels_by = LevelsBy::DowntimeCost;
    }
}

#[test]
fn a_budget_buys_nothing_that_does_not_pay() {
    // Downtime in full keeps three (see above); 20,000 would buy twenty.
    let settings = format!("{DEAR}[planning]\ndemand_method = \"plain\"\nstock_budget = 20000.0");
    let (mut sample, part) = with_machine(&settings);
    let levels = sample.plan().levels;
    assert!((levels.by_part[&part].min_stock - 3.0).abs() < 1e-9);
    let chosen = levels.chosen.unwrap();
    assert!(chosen.factor <= 1.0 + 1e-9, "{chosen:?}");
    assert!((chosen.stock_value - 3000.0).abs() < 1e-6);
    assert!(levels.budget.unwrap().is_all_that_pays);
    sample.shop.settings.planning.stock_budget = Some(2000.0);
    let levels = sample.plan().levels;
    assert!((levels.by_part[&part].min_stock - 2.0).abs() < 1e-9);
    assert!(!levels.budget.unwrap().is_all_that_pays);
}

#[test]
fn without_a_cost_of_an_hour_no_waiting_is_told_in_money() {
    for rule in ["downtime_cost", "stock_out_price", "service_target"] {
        let settings =
            format!("{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"{rule}\"");
        let (mut sample, part) = two_a_year(&settings, |_| {});
        let plan = sample.plan();
        let level = &plan.levels.by_part[&part];
        assert!(plan.levels.has_no_hour_cost);
        let LevelBasis::Computed(why) = &level.why else {
            panic!("not computed")
        };
        assert_eq!(why.in_full, None);
        assert!(
            why.one_less
                .is_none_or(|less| less.waiting_cost_more.is_none())
        );
        // The downtime cost can set nothing: the target stands in.
        let is_target = matches!(why.rule, LevelRule::ServiceTarget { .. });
        assert_eq!(is_target, rule != "stock_out_price", "{rule}");
        let said = format!("{} {:?}", level.why, level.changes_at());
        assert!(
            !said.contains("1.00 EUR") && !said.contains("an hour down"),
            "{said}"
        );
        let lines: Vec<_> = plan.reorder.lines.iter().collect();
        let worths = crate::plan::order_worths(&sample.built(), &plan, &lines);
        assert!(!worths.is_empty());
        for worth in worths.into_iter().flatten() {
            assert!(worth.waiting_h > 0.0 && worth.saves.is_none(), "{worth:?}");
        }
        // A last buy is enough in as many cases as the shop asks for: about one used until then, Poisson by hand
        // (P(<= 2) = 0.92, P(<= 3) = 0.981).
        sample.machine("M1", None, None);
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        for machine in sample.shop.machines.values_mut() {
            machine.in_use_until = Some(day("2026-09-03"));
        }
        let plan = sample.plan();
        let LevelBasis::Computed(why) = &plan.levels.by_part[&part].why else {
            panic!("not computed")
        };
        let last = why.last_buy.as_ref().unwrap();
        assert_eq!((last.wanted, last.without), (Some(3.0), None));
    }
}

#[test]
fn what_would_expire_is_weighed_like_holding() {
    // Three kept by downtime in full (see above), at 1,000 each. With half a year of shelf life 0.58, 1.52 and 2.64 a year end of
    // one, two and three (l p(S - 1) / P(N >= S) with 1.49 usages in 90 days and the life; see `ending`), and the third saves
    // 950 of waiting.
    let settings =
        format!("{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\"");
    let (mut sample, part) = with_machine(&settings);
    sample.part_change(part, |part| part.shelf_life_months = Some(6.0));
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    assert!(level.min_stock < 3.0 - 1e-9, "{}", level.min_stock);
    let LevelBasis::Computed(why) = &level.why else {
        panic!("not computed")
    };
    assert!(why.is_cut_for_shelf_life);
    let said = level.why.to_string();
    assert!(
        said.contains("would expire costs more than it saves"),
        "{said}"
    );
    assert_eq!(level.turning_points(), None);
    // The last that is kept pays for its holding and its waste.
    if let Some(less) = why.one_less {
        assert!(less.waiting_cost_more.unwrap().cents >= less.holding_saved.cents);
        assert!(
            less.holding_saved.cents > 20_000,
            "waste is in it: {less:?}"
        );
    }
    // A life that is long changes nothing.
    sample.part_change(part, |part| part.shelf_life_months = Some(240.0));
    assert!((sample.plan().levels.by_part[&part].min_stock - 3.0).abs() < 1e-9);
}

#[test]
fn what_a_rate_rests_on_is_told() {
    let (sample, part) = two_a_year("records_from = \"2024-03-04\"", |_| {});
    let why = sample.plan().levels.by_part[&part].why.to_string();
    assert!(
        why.contains(
            " a year expected by own usages and all parts (4 usages of 1 parts, a month counting "
        ),
        "{why}"
    );
    let (mut sample, part) = two_a_year(SINCE, |offer| offer.minimum_quantity = Some(40.0));
    sample.usage(part, "2023-05-02", 1.0);
    let level = &sample.plan().levels.by_part[&part];
    let why = level.why.to_string();
    assert!(
        why.contains("4 used in 4 usages over 730 days; 1 more before the records begin left out"),
        "{why}"
    );
    // Forty at two a year.
    let quantity = level.why_quantity.as_ref().unwrap().to_string();
    assert!(
        quantity.ends_with("sold from 40 on; an order lasts about 20 years"),
        "{quantity}"
    );
}

#[test]
fn critical_machines_set_a_higher_target() {
    let settings = format!("{SINCE}\n[planning.service_targets_by_criticality]\nA = 0.99");
    let (mut sample, part) = two_a_year(&settings, |_| {});
    sample.machine("M1", None, Some("a"));
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    assert!((level.reorder_point - 3.0).abs() < 1e-9);
    assert!(level.why.to_string().contains(">= 0.99 (criticality A)"));
}

#[test]
fn parts_that_cannot_be_planned_say_why() {
    let without = |sample: &Sample| sample.plan().levels.without;
    let (sample, part) = two_a_year("", |_| {});
    assert_eq!(without(&sample), [(part, WhyNoLevel::RateUnknown)]);
    let (mut sample, part) = two_a_year(SINCE, |offer| offer.lead_time = None);
    assert_eq!(without(&sample), [(part, WhyNoLevel::NoLeadTime)]);
    sample.shop.offers.clear();
    assert_eq!(without(&sample), [(part, WhyNoLevel::NoUsableOffer)]);
    sample.shop.usages.clear();
    // No usage of any part: the list of usages is missing, and no day of records would help.
    assert_eq!(without(&sample), [(part, WhyNoLevel::NoUsages)]);
    let (mut sample, part) = two_a_year("", |_| {});
    sample.shop.usages.clear();
    assert_eq!(without(&sample), [(part, WhyNoLevel::NoUsages)]);
    // Every usage is of another part, whose only machine is gone: records_from would help nobody.
    let (mut sample, part) = two_a_year(SINCE, |_| {});
    let gone = sample.part("B");
    sample.machine("Gone", None, None);
    for machine in sample.shop.machines.values_mut() {
        machine.in_use_until = Some(day("2025-12-31"));
    }
    for usage in &mut sample.shop.usages {
        usage.part = gone;
        usage.record.machine = Some("Gone".into());
    }
    assert!(without(&sample).contains(&(part, WhyNoLevel::NoneCounts)));
    assert!(
        WhyNoLevel::NoneCounts
            .to_string()
            .contains("a machine out of service")
    );
    let (sample, part) = two_a_year("records_from = \"2030-01-01\"", |_| {});
    assert_eq!(without(&sample), [(part, WhyNoLevel::NoExposure)]);
}

#[test]
fn a_planners_own_minimum_is_obeyed_where_it_is_higher_or_nothing_is_known() {
    let (mut sample, part) = two_a_year(SINCE, |_| {});
    for (own, min_stock) in [(2.0, 3.0), (6.0, 6.0)] {
        sample.part_change(part, |part| part.own_min_stock = Some(own));
        let level = &sample.plan().levels.by_part[&part];
        assert!((level.min_stock - min_stock).abs() < 1e-9);
    }
    sample.shop.usages.clear();
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    assert!((level.min_stock - 6.0).abs() < 1e-9);
    assert!(matches!(level.why, LevelBasis::OwnMinimum { .. }));
    assert!(plan.levels.without.is_empty());
}

#[test]
fn quantities_that_vary_need_more_stock_than_single_pieces() {
    let level = |sizes: [f64; 4]| {
        let (mut sample, part) = two_a_year(SINCE, |_| {});
        for (usage, size) in sample.shop.usages.iter_mut().zip(sizes) {
            usage.record.quantity = size;
        }
        sample.plan().levels.by_part[&part].reorder_point
    };
    assert!(level([1.0, 1.0, 1.0, 5.0]) > level([2.0, 2.0, 2.0, 2.0]) - 1e-9);
    assert!(level([2.0, 2.0, 2.0, 2.0]) > level([1.0, 1.0, 1.0, 1.0]));
}

/// A machine of 100 an hour that uses the part, one hour a day of production: 365 h a year.
const DEAR: &str = "records_from = \"2024-03-04\"\n[calendars.day]\nshifts = [{ days = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\", \"sat\", \"sun\"], from = \"10:00\", until = \"11:00\" }]\n";

fn with_machine(settings: &str) -> (Sample, PartId) {
    let (mut sample, part) = two_a_year(settings, |offer| offer.price = price(1000.0));
    sample.machine("M1", Some(100.0), Some("A"));
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    in_ninety_days(&mut sample, part);
    (sample, part)
}

#[test]
fn a_level_by_downtime_cost_says_what_the_last_one_is_good_for() {
    // Single orders (economic quantity sqrt(2 * 2 * 25 / 200) = 0.7), mean 0.4931 in 90 days: each unit less than
    // P(demand <= S) >= p / (p + h) with p = 365 * 100 and h = 200, 0.99455: S = 3 (P(<= 2) = 0.98613, P(<= 3) = 0.99830;
    // scipy, oracle_service.json). The third saves P(demand >= 3), 1 less the first three Poisson terms, of a year's 365 h.
    let (sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\""
    ));
    let level = &sample.plan().levels.by_part[&part];
    assert!((level.min_stock - 3.0).abs() < 1e-9, "{}", level.min_stock);
    let LevelBasis::Computed(why) = &level.why else {
        panic!("not computed")
    };
    let one_less = why.one_less.unwrap();
    // Ninety days of receipts are some days less or more by the working days they fall on.
    let mean = why.lead.mean_days * 4.0 / 730.0;
    assert!(
        (why.lead.mean_days - 90.0).abs() < 4.0,
        "{}",
        why.lead.mean_days
    );
    let third = 1.0 - (-mean).exp() * (1.0 + mean + mean * mean / 2.0);
    assert!(
        (one_less.waiting_h_more - third * 365.0).abs() < 0.02,
        "{one_less:?}"
    );
    assert_eq!(
        one_less.waiting_cost_more.unwrap().cents,
        (one_less.waiting_h_more * 1e4).round() as i64
    );
    assert!(one_less.waiting_cost_more.unwrap().cents > one_less.holding_saved.cents);
    assert!(level.why.to_string().starts_with("one less would wait "));
    // At each turning point the level changes, just before it it does not.
    let points = level.turning_points().unwrap();
    let stock = |cost: f64| {
        let (mut sample, part) = with_machine(&format!(
            "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\""
        ));
        sample
            .shop
            .machines
            .values_mut()
            .next()
            .unwrap()
            .downtime_cost_per_hour = Some(crate::plan::sample::euros(cost));
        sample.plan().levels.by_part[&part].min_stock
    };
    let (more, less) = (
        points.more_from_price.unwrap(),
        points.less_from_price.unwrap(),
    );
    assert!(less < 100.0 && 100.0 < more);
    assert!(stock(more * 1.01) > 3.5 && (stock(more * 0.99) - 3.0).abs() < 1e-9);
    assert!(stock(less * 0.99) < 2.5 && (stock(less * 1.01) - 3.0).abs() < 1e-9);
    assert!(points.more_from.unwrap() > 1.0 && points.less_from.unwrap() < 1.0);
}

#[test]
fn the_price_of_a_stock_out_is_set_for_the_service_of_the_whole_shop() {
    // Two parts of equal use and 90 days, 10 and 1,000 a piece, orders of one: by a target of 95 % each part needs S = 3
    // (fill P(demand <= 2) = 0.986; S = 2 gives 0.912). Together (0.986 + 0.912) / 2 = 0.949 is short of 95 %, and
    // (0.9983 + 0.912) / 2 = 0.955 is enough: the cheap part gets one more, the dear one less.
    let (mut sample, dear) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\norder_cost = 0.01"
    ));
    let cheap = sample.part("B");
    for date in ["2024-05-02", "2024-11-02", "2025-05-02", "2025-11-02"] {
        sample.usage(cheap, date, 1.0);
    }
    let lead = QuotedLeadTime::exactly(90.0, LeadUnit::Days);
    sample.offer(cheap, "North", Some(lead), |_| {});
    in_ninety_days(&mut sample, cheap);
    let plan = sample.plan();
    let levels = &plan.levels;
    assert!((levels.by_part[&dear].min_stock - 2.0).abs() < 1e-9);
    assert!(levels.by_part[&cheap].min_stock >= 4.0 - 1e-9);
    let chosen = levels.chosen.unwrap();
    assert!(chosen.fill_share >= 0.95 && chosen.factor < 1.0);
    assert!(levels.curve.windows(2).all(|pair| {
        pair[0].stock_value <= pair[1].stock_value && pair[0].waiting_h >= pair[1].waiting_h - 1e-9
    }));
    // A budget for less takes from the dear part; none at all keeps nothing.
    sample.shop.settings.planning.stock_budget = Some(1050.0);
    let plan = sample.plan();
    assert!((plan.levels.by_part[&dear].min_stock - 1.0).abs() < 1e-9);
    assert!(plan.levels.chosen.unwrap().stock_value <= 1050.0);
    sample.shop.settings.planning.stock_budget = Some(0.0);
    let plan = sample.plan();
    assert!(plan.levels.by_part[&dear].reorder_point < -0.5);
    assert!(plan.reorder.lines.is_empty());
}

#[test]
fn a_signed_figure_holds_even_where_it_is_lower() {
    let (mut sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\""
    ));
    sample.part_change(part, |part| part.own_min_stock = Some(1.0));
    let min = |sample: &Sample| sample.plan().levels.by_part[&part].min_stock;
    assert!(
        (min(&sample) - 3.0).abs() < 1e-9,
        "an unsigned lower one does not"
    );
    sample.part_change(part, |part| {
        part.own_min_reason = Some("shelf is full".to_owned());
        part.own_min_date = Some(day("2026-01-12"));
    });
    assert!((min(&sample) - 1.0).abs() < 1e-9);
    let why = sample.plan().levels.by_part[&part].why.to_string();
    assert!(
        why.contains("own minimum of 1 holds (shelf is full, 2026-01-12) and costs"),
        "{why}"
    );
    assert!(why.ends_with("more a year"), "{why}");
}

#[test]
fn a_last_buy_of_what_is_fetched_within_hours_is_none() {
    let (mut sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\""
    ));
    for machine in sample.shop.machines.values_mut() {
        machine.in_use_until = Some(day("2026-09-03"));
    }
    let hour = |hour| chrono::NaiveTime::from_hms_opt(hour, 0, 0).unwrap();
    for supplier in sample.shop.suppliers.values_mut() {
        supplier.collection_h = Some(1.5);
        supplier.counter_hours = Some((hour(8), hour(17)));
    }
    let last = |sample: &Sample| match &sample.plan().levels.by_part[&part].why {
        LevelBasis::Computed(why) => *why.last_buy.clone().unwrap(),
        other => panic!("{other:?}"),
    };
    // An order takes 90 days: two, as in the test below.
    assert_eq!(last(&sample).wanted, Some(2.0));
    // In stock at a counter, 1.5 h away: at most a few hours at 100 count less than one at 1,000 that is used in
    // 1 - e^-1 = 0.63 of cases.
    for offer in &mut sample.shop.offers {
        offer.record.lead_time = Some(crate::record::QuotedLeadTime::InStock);
    }
    let fetched = last(&sample);
    assert!(fetched.without.unwrap().waiting_h < 4.0, "{fetched:?}");
    assert_eq!((fetched.wanted, fetched.buy), (Some(0.0), Some(0.0)));
}

#[test]
fn a_part_whose_machines_retire_is_bought_once() {
    let (mut sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\""
    ));
    let until = |sample: &mut Sample, date: &str| {
        sample
            .shop
            .machines
            .values_mut()
            .next()
            .unwrap()
            .in_use_until = Some(day(date));
    };
    // Half a year: about one used. Going without costs 1,000 and 90 h of waiting at 100: ratio 0.9, so that two are
    // enough (P(<= 1) = 0.735, P(<= 2) = 0.919 of mean 1.0, Poisson by hand).
    until(&mut sample, "2026-09-03");
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    assert!(level.reorder_point < 0.0 && plan.reorder.lines.iter().all(|line| line.is_last_buy()));
    let LevelBasis::Computed(why) = &level.why else {
        panic!("not computed")
    };
    let last = why.last_buy.as_ref().unwrap();
    assert!((last.expected - 1.0).abs() < 0.01, "{last:?}");
    assert_eq!((last.wanted, last.buy), (Some(2.0), Some(2.0)));
    let said = level.why.to_string();
    assert!(said.contains("last buy of 2"), "{said}");
    // Nothing else is weighed: that an hour counts less than holding one would not be why.
    assert!(
        said.starts_with("its machines leave service on 2026-09-03") && !said.contains("none kept"),
        "{said}"
    );
    sample.stock(part, 1.0, |_| {});
    let plan = sample.plan();
    let LevelBasis::Computed(why) = &plan.levels.by_part[&part].why else {
        panic!("not computed")
    };
    assert_eq!(why.last_buy.as_ref().unwrap().buy, Some(1.0));
    until(&mut sample, "2026-03-01");
    let plan = sample.plan();
    assert!(matches!(
        plan.levels.by_part[&part].why,
        LevelBasis::Retired { .. }
    ));
}

#[test]
fn few_machines_are_counted_one_by_one() {
    let (mut sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\""
    ));
    sample.shop.machines.values_mut().next().unwrap().installed = Some(1.0);
    let plan = sample.plan();
    let LevelBasis::Computed(why) = &plan.levels.by_part[&part].why else {
        panic!("not computed")
    };
    assert_eq!(why.few_machines.unwrap().places, 1);
    assert!(why.to_string().contains("places counted one by one: 1"));
    assert!((plan.levels.by_part[&part].min_stock - 3.0).abs() < 1.1);
}

#[test]
fn a_kit_target_raises_its_lines() {
    let settings = format!("{SINCE}\nservice_target_share = 0.5\nkit_target_share = 0.9");
    let (mut sample, part) = with_machine(&settings);
    let other = sample.part("B");
    for date in ["2024-05-02", "2025-05-02"] {
        sample.usage(other, date, 1.0);
    }
    let lead = QuotedLeadTime::exactly(90.0, LeadUnit::Days);
    sample.offer(other, "North", Some(lead), |_| {});
    sample.line(Some(other), 1.0, &[], |_| {});
    let plan = sample.plan();
    let fill = plan.levels.kits[0];
    assert!(
        fill.job_share >= 0.9 && fill.line_share > fill.job_share,
        "{fill:?}"
    );
    let raised = plan.levels.by_part[&part].why.to_string();
    assert!(
        raised.contains("raised for the share of rebuilds of K"),
        "{raised}"
    );
}

#[test]
fn an_empty_shelf_with_nothing_kept_is_judged_by_the_coming_year() {
    // One used a year, five at a time (Harris: (2 * 25 / 2)^(1/2)), an hour of a cent: none is kept. In the long run four of five
    // find one but for the lead time; from an empty shelf the first one waits, e^-1 / 1 = 0.37 of the year's at most.
    let found = |on_hand: f64| {
        let mut sample = Sample::new(
            "records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\"\n\
             order_cost = 25.0\nholding_cost_share = 0.2",
        );
        sample.machine("M1", Some(0.01), None);
        let part = sample.part("A");
        sample.supplier("North", |_| {});
        let lead = QuotedLeadTime::exactly(20.0, LeadUnit::Days);
        sample.offer(part, "North", Some(lead), |offer| offer.price = price(10.0));
        for year in 2021..2026 {
            sample.usage(part, &format!("{year}-06-01"), 1.0);
        }
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        if on_hand > 0.0 {
            sample.stock(part, on_hand, |_| {});
        }
        let levels = sample.plan().levels;
        let level = levels.by_part[&part].clone();
        assert!((level.reorder_point + 1.0).abs() < 1e-9, "{:?}", level.why);
        assert!((level.order_quantity - 5.0).abs() < 1e-9);
        let LevelBasis::Computed(why) = level.why else {
            panic!("not computed")
        };
        (
            why,
            levels.chosen.unwrap().fill_share,
            levels.kits[0].job_share,
        )
    };
    let (empty, shop, kit) = found(0.0);
    let of_year = empty.service.unit_fill_share;
    assert!(of_year > 0.2 && of_year < (-1.0_f64).exp(), "{of_year}");
    assert!((shop - of_year).abs() < 1e-9 && (kit - of_year).abs() < 1e-9);
    assert!(empty.long_run_fill_share.unwrap() > 0.7);
    let said = empty.to_string();
    assert!(said.contains("whoever needs it first waits: "), "{said}");
    // One on the shelf is what the cycle has in the mean.
    let (stocked, shop, _) = found(1.0);
    assert_eq!(stocked.long_run_fill_share, None);
    assert!((stocked.service.unit_fill_share - empty.long_run_fill_share.unwrap()).abs() < 1e-9);
    assert!((shop - stocked.service.unit_fill_share).abs() < 1e-9);
    assert!(!stocked.to_string().contains("whoever needs it first"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, ..ProptestConfig::default() })]

    #[test]
    fn a_longer_lead_time_or_higher_target_never_lowers_a_reorder_point(
        per_day in 0.0001_f64..0.5,
        spread in 1.0_f64..6.0,
        days in 1.0_f64..200.0,
        more_days in 0.0_f64..100.0,
        target in 0.5_f64..0.99,
        higher in 0.0_f64..0.009,
    ) {
        let point = |days: f64, target: f64| {
            LeadTimeDemand::new(per_day * days, per_day * days * spread)
                .reorder_point(target)
                .unwrap()
        };
        prop_assert!(point(days + more_days, target) >= point(days, target));
        prop_assert!(point(days, target + higher) >= point(days, target));
    }
}

#[test]
fn a_budget_below_what_planners_ask_for_says_what_is_missing() {
    // Nine of 1,000.00 each, ordered one at a time: 9,000.00 whatever the budget.
    for (budget, missing) in [
        (5000.0, Some(4000.0)),
        (8999.99, Some(0.01)),
        (9000.0, None),
    ] {
        let settings =
            format!("{DEAR}[planning]\ndemand_method = \"plain\"\nstock_budget = {budget:?}");
        let (mut sample, part) = with_machine(&settings);
        sample.part_change(part, |part| part.own_min_stock = Some(9.0));
        let levels = sample.plan().levels;
        let of = levels.budget.unwrap();
        assert!((of.least - 9000.0).abs() < 1e-6, "{of:?}");
        assert_eq!(of.missing().is_some(), missing.is_some(), "{of:?}");
        let off = of.missing().unwrap_or(0.0) - missing.unwrap_or(0.0);
        assert!(off.abs() < 1e-6, "{of:?}");
    }
}

#[test]
fn the_levels_of_the_report_lie_on_the_curve_of_planners_own_figures() {
    for (own, is_signed) in [(9.0, false), (1.0, true)] {
        let settings = format!("{DEAR}[planning]\ndemand_method = \"plain\"\nstock_budget = 500.0");
        let (mut sample, part) = with_machine(&settings);
        sample.part_change(part, |part| {
            part.own_min_stock = Some(own);
            part.own_min_reason = is_signed.then(|| "shelf is full".to_owned());
            part.own_min_date = is_signed.then(|| day("2026-01-12"));
        });
        let levels = sample.plan().levels;
        let (first, chosen) = (levels.curve[0], levels.chosen.unwrap());
        assert!((first.stock_value - 1000.0 * own).abs() < 1e-6, "{first:?}");
        assert!((chosen.stock_value - first.stock_value).abs() < 1e-6);
        assert!((chosen.fill_share - first.fill_share).abs() < 1e-12);
        // A signed figure is the whole curve, and the downtime in full is on it.
        assert!(levels.curve.len() == 1 || !is_signed);
        let in_full = |point: &CurvePoint| (point.factor - 1.0).abs() < 1e-9;
        assert!(levels.curve.iter().any(in_full), "{:?}", levels.curve);
    }
}

#[test]
fn a_rule_that_counts_no_waiting_names_no_price_of_an_hour() {
    // Nothing to spend: no share of an hour is counted, and no price of it, however high, would change that.
    let settings = format!("{DEAR}[planning]\ndemand_method = \"plain\"\nstock_budget = 0.0");
    let (sample, part) = with_machine(&settings);
    let levels = sample.plan().levels;
    assert!(levels.chosen.unwrap().factor.abs() < 1e-12);
    let level = &levels.by_part[&part];
    assert!(level.reorder_point < -0.5);
    let points = level.turning_points().unwrap();
    assert_eq!(
        (points.more_from_price, points.less_from_price),
        (None, None)
    );
    let said = level.changes_at().unwrap_or_default();
    assert!(
        !said.contains("inf") && !said.contains("an hour down"),
        "{said}"
    );
}

#[test]
fn a_bare_minimum_of_a_part_never_used_is_kept_as_far_as_it_is_ordered() {
    // An insured part of 1,000.00, ordered one at a time: of thirty that a row asks for without a reason no more is kept than
    // the rule keeps and the first one, and the order list has the same reorder point. Common practice, no source.
    let level_of = |own: Option<f64>, reason: Option<&str>, criticality: &str| {
        let (sample, never) = Sample::with_never_used(own, reason, criticality);
        let plan = sample.plan();
        let line = plan.reorder.lines.iter().find(|line| line.part() == never);
        let need = line.expect("none is there").needs[0].clone();
        let ReorderReason::AtReorderPoint { reorder_point, .. } = need.reason else {
            panic!("{need:?}");
        };
        let level = plan.levels.by_part[&never].clone();
        assert!((reorder_point - level.reorder_point).abs() < 1e-9);
        (level, need.is_held_back())
    };
    let (by_rule, _) = level_of(None, None, "A");
    let (bare, waits) = level_of(Some(30.0), None, "A");
    assert!(!waits && (bare.min_stock - by_rule.min_stock.max(1.0)).abs() < 1e-9);
    let said = bare.why.to_string();
    let kept = format!(
        "of the planner's own minimum of 30 only {} kept, because no reason is given",
        bare.min_stock
    );
    assert!(said.contains(&kept) && !said.contains("holds"), "{said}");
    let (signed, waits) = level_of(Some(30.0), Some("the builder is gone"), "A");
    assert!(!waits && (signed.min_stock - 30.0).abs() < 1e-9);
    // No machine of the highest criticality uses it: the order waits for a reason.
    let (waiting, waits) = level_of(Some(30.0), None, "B");
    let said = waiting.why.to_string();
    assert!(
        waits && said.contains("minimum of 30 orders nothing"),
        "{said}"
    );
    assert!(!said.contains("holds"), "{said}");
}
