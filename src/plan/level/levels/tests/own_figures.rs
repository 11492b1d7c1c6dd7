//! Planners' own figures in the shares of kits and in a budget.

use super::*;

#[test]
fn a_signed_figure_counts_in_the_share_of_rebuilds_and_raises_nothing_in_vain() {
    let settings = format!("{SINCE}\nservice_target_share = 0.5\nkit_target_share = 0.9");
    let found = |own: Option<f64>| {
        let (mut sample, part) = with_machine(&settings);
        let other = sample.part_with("B", |part| {
            part.own_min_stock = own;
            part.own_min_reason = own.map(|_| "agreed".to_owned());
            part.own_min_date = own.map(|_| day("2026-01-10"));
        });
        for date in ["2024-05-02", "2024-11-02", "2025-05-02", "2025-11-02"] {
            sample.usage(other, date, 1.0);
        }
        let lead = QuotedLeadTime::exactly(90.0, LeadUnit::Days);
        sample.offer(other, "North", Some(lead), |_| {});
        sample.line(Some(other), 1.0, &[], |_| {});
        let levels = sample.plan().levels;
        let why = levels.by_part[&part].why.to_string();
        (
            levels.kits[0].job_share,
            why.contains("raised for the share"),
        )
    };
    let (free, is_raised) = found(None);
    assert!(free >= 0.9 && is_raised, "{free}");
    // None of the other is kept: the first to ask for it waits, and nothing of the first part helps.
    let (held, is_raised) = found(Some(0.0));
    assert!(held < 0.9 && !is_raised, "{held}");
}

#[test]
fn a_figure_without_a_rate_is_in_the_budget() {
    // Arithmetic: two of a part of 300 that nobody ever used are 600.
    let settings = "records_from = \"2024-03-04\"\n[planning]\nlevels_by = \"stock_out_price\"\nstock_budget = 1.0\ndemand_method = \"plain\"";
    let levels = |own: Option<f64>, reason: Option<&str>| {
        let (mut sample, _) = two_a_year(settings, |_| {});
        let other = sample.part_with("B", |part| {
            part.own_min_stock = own;
            part.own_min_reason = reason.map(str::to_owned);
            part.own_min_date = reason.map(|_| day("2026-01-10"));
        });
        let lead = QuotedLeadTime::exactly(40.0, LeadUnit::Days);
        sample.offer(other, "North", Some(lead), |offer| {
            offer.price = price(300.0);
        });
        sample.plan().levels
    };
    let without = levels(None, None);
    for (reason, value) in [(Some("agreed"), 600.0), (None, 0.0)] {
        let with = levels(Some(2.0), reason);
        assert!((with.own_without_rate - value).abs() < 1e-9, "{reason:?}");
        let more = [
            with.budget.unwrap().least - without.budget.unwrap().least,
            with.curve[0].stock_value - without.curve[0].stock_value,
            with.chosen.unwrap().stock_value - without.chosen.unwrap().stock_value,
        ];
        for more in more {
            assert!((more - value).abs() < 1e-6, "{reason:?}: {more}");
        }
    }
}

#[test]
fn a_signed_figure_says_what_it_costs_with_downtime_in_full_too() {
    // At the shop's price of an hour the part that sets it costs next to nothing more with one less; in full it does: by
    // definition the hours waited more, at what the rule does not count of 100.00 each.
    let settings =
        format!("{DEAR}[planning]\ndemand_method = \"plain\"\nservice_target_share = 0.95");
    let (mut sample, part) = with_machine(&settings);
    let why = |sample: &Sample| {
        let plan = sample.plan();
        let LevelBasis::Computed(why) = &plan.levels.by_part[&part].why else {
            panic!("not computed");
        };
        why.clone()
    };
    let by_rule = why(&sample);
    let computed = by_rule.computed_reorder_point + 1.0;
    assert!(computed > 1.5, "{computed}");
    let sign = |sample: &mut Sample, own: f64| {
        sample.part_change(part, |part| {
            part.own_min_stock = Some(own);
            part.own_min_reason = Some("shelf is full".to_owned());
            part.own_min_date = Some(day("2026-01-12"));
        });
    };
    sign(&mut sample, 1.0);
    let held = why(&sample);
    let own = held.own.as_ref().unwrap();
    let factor = held.priced.as_ref().unwrap().factor;
    assert!(factor < 1.0);
    let hours = (held.service.jobs_waiting - by_rule.service.jobs_waiting) * 365.0;
    let more = own.costs_more.unwrap().to_units();
    let in_full = own.costs_more_in_full.unwrap().to_units();
    assert!((in_full - more - (1.0 - factor) * hours * 100.0).abs() < 0.02);
    let said = held.to_string();
    assert!(
        said.contains("; with downtime counted in full it costs ")
            && said.ends_with(" more a year"),
        "{said}"
    );
    // One that is just what is computed is mentioned.
    sign(&mut sample, computed);
    let same = why(&sample);
    assert_eq!(same.own, None);
    assert!(
        same.to_string()
            .ends_with("; the planner's own minimum is the same")
    );
}
