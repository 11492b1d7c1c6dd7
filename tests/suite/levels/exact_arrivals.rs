//! Levels by mean and spread of the lead time against the whole distribution of each arrival, on the demo shop.
//!
//! The number of usages in a lead time that varies has its exact two moments; its form is taken as negative binomial. Here
//! every moment at which an order may come counts with its probability, and the demand until then is that of so many days.

use chrono::NaiveDateTime;
use sparewright::plan::{
    Arrival, Calendars, DemandTable, LeadTimeDemand, Level, LevelBasis, LevelReason,
};

use crate::demo::demo;

/// The offer's arrival that a level rests on.
fn arrival_of(level: &Level, reason: &LevelReason) -> Option<Arrival> {
    let offers = demo().1.plan.offers.iter();
    offers
        .filter(|offer| level.stocked().any(|part| part == offer.part))
        .filter_map(|offer| offer.deliveries.first()?.arrival)
        .find(|arrival| {
            (arrival.mean_days - reason.lead.mean_days).abs() < 1e-9
                && arrival.basis == reason.lead.basis
        })
}

/// Demand until an order placed now comes, every moment with its probability; the days count from the mean of the level on,
/// so that both sides have one mean, which is given too.
fn exact(
    reason: &LevelReason,
    arrival: &Arrival,
    now: NaiveDateTime,
) -> Option<(DemandTable, f64)> {
    let calendars = Calendars::new(&demo().0.shop.settings);
    let distribution = arrival.distribution(&calendars);
    let mut reached = 0.0;
    let mut cases = Vec::new();
    for (moment, share) in distribution.moments() {
        cases.push((
            (*moment - now).num_minutes() as f64 / 1440.0,
            share - reached,
        ));
        reached = *share;
    }
    let mean: f64 = cases
        .iter()
        .map(|(days, share)| days * share / reached)
        .sum();
    let mut mixed: Vec<f64> = Vec::new();
    let mut mean_demand = 0.0;
    for (days, share) in cases {
        let law = reason
            .demand
            .distribution(days * reason.lead.mean_days / mean)?;
        mean_demand += share / reached * law.moments().0;
        let table = DemandTable::new(&law);
        let units = usize::try_from(table.end()).ok()?;
        mixed.resize(mixed.len().max(units), 0.0);
        for (at, sum) in mixed.iter_mut().enumerate().take(units) {
            *sum += share / reached * table.share(at as i64);
        }
    }
    let table = DemandTable::new(&LeadTimeDemand::Counted { shares: mixed });
    Some((table, mean_demand))
}

#[test]
fn the_whole_distribution_of_an_arrival_moves_few_reorder_points() {
    let now = demo().0.shop.as_of;
    let (mut compared, mut moved, mut most) = (0, 0, 0);
    let (mut waiting, mut waiting_exact) = (0.0, 0.0);
    for level in demo().1.plan.levels.by_part.values() {
        let LevelBasis::Computed(reason) = &level.why else {
            continue;
        };
        // Orders of one piece need the mean alone (Palm), and pieces of known ages have a rule of their own.
        if level.order_quantity <= 1.0 || reason.demand.by_lives.is_some() {
            continue;
        }
        let Some(arrival) = arrival_of(level, reason) else {
            continue;
        };
        let Some((exact, mean)) = exact(reason, &arrival, now) else {
            continue;
        };
        let used = DemandTable::new(&reason.lead_time_demand);
        // The tables of parts of a unit are in the whole units that hold them, whose mean hangs on the form too.
        let (exact_mean, used_mean) = match reason.demand.in_parts {
            Some(_) => (mean, reason.lead_time_demand.moments().0),
            None => (exact.mean(), used.mean()),
        };
        assert!(
            (exact_mean / used_mean - 1.0).abs() < 1e-6,
            "{exact_mean} {used_mean}"
        );
        compared += 1;
        for share in [0.9, 0.97, 0.99] {
            let apart = (exact.quantile(share) - used.quantile(share)).abs();
            moved += usize::from(apart > 0);
            most = most.max(apart);
        }
        let point = level.reorder_point as i64;
        waiting += used.shortfall(point);
        waiting_exact += exact.shortfall(point);
    }
    assert!(compared > 100, "{compared}");
    assert!(
        moved * 10 < 3 * compared,
        "{moved} of {}, by {most} at most",
        3 * compared
    );
    assert!(
        (waiting_exact / waiting - 1.0).abs() < 0.1,
        "{waiting} {waiting_exact}"
    );
}
