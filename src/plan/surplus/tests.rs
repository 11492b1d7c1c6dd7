use super::*;
use crate::plan::sample::{Sample, day, workdays};

/// Five years of records at the moment of planning, 2026-03-04.
const SETTINGS: &str = "records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"";

fn found(sample: &Sample) -> Vec<Surplus> {
    surplus(&sample.built(), &sample.plan())
}

#[test]
fn stock_beyond_the_level_and_three_years_of_usage_is_surplus() {
    let mut sample = Sample::new(SETTINGS);
    sample.supplier("S", |_| {});
    let part = sample.part("A");
    sample.offer(part, "S", workdays(5.0), |_| {});
    // 10 in five years: 2 a year, 6 in three; Poisson 6: P(<= 9) = 0.9161, P(<= 8) = 0.8472 (printed tables of cumulative
    // Poisson probabilities, from memory).
    for year in 2021..2026 {
        sample.usage(part, &format!("{year}-06-01"), 1.0);
        sample.usage(part, &format!("{year}-11-01"), 1.0);
    }
    sample.stock(part, 30.0, |_| {});
    let lines = found(&sample);
    let SurplusBasis::MoreThanUsed { free, level, used } = lines[0].basis else {
        panic!("{lines:?}");
    };
    assert!(
        (free - 30.0).abs() < 1e-9 && (used - 9.0).abs() < 1e-9,
        "{lines:?}"
    );
    assert!((lines[0].pieces - (30.0 - level - 9.0)).abs() < 1e-9);
    assert_eq!(lines.len(), 1);
    // What planned rebuilds take is not surplus.
    sample.machine("M1", None, None);
    sample.kit("K");
    sample.line(Some(part), 30.0, &[], |_| {});
    sample.planned("2026-06-01");
    assert_eq!(found(&sample), Vec::new());
}

#[test]
fn a_part_unused_for_three_recorded_years_is_dead_and_without_records_nothing_is_said() {
    let mut sample = Sample::new(SETTINGS);
    let (used, idle) = (sample.part("A"), sample.part("B"));
    sample.usage(used, "2025-06-01", 1.0);
    sample.usage(idle, "2022-06-01", 1.0);
    sample.stock(used, 1.0, |_| {});
    sample.stock(idle, 4.0, |_| {});
    let lines = found(&sample);
    assert_eq!(lines.len(), 1, "{lines:?}");
    assert_eq!(lines[0].part, idle);
    assert!((lines[0].pieces - 4.0).abs() < 1e-9);
    assert!(
        lines[0]
            .basis
            .to_string()
            .starts_with("last used on 2022-06-01")
    );
    sample.shop.settings.records_from = None;
    assert_eq!(found(&sample), Vec::new());
    sample.shop.settings.records_from = Some(day("2025-01-01"));
    assert!(found(&sample).iter().all(|line| line.part != idle));
}

#[test]
fn stock_of_machines_that_left_and_lots_that_end_are_told_with_their_day() {
    let mut sample = Sample::new(SETTINGS);
    sample.machine("M1", None, None);
    let machine = sample.shop.machines.values_mut().next().unwrap();
    machine.in_use_until = Some(day("2025-12-31"));
    let of_gone = sample.part("A");
    sample.kit("K");
    sample.line(Some(of_gone), 1.0, &[], |_| {});
    sample.stock(of_gone, 2.0, |_| {});
    let seal = sample.part_with("B", |part| part.shelf_life_months = Some(60.0));
    // One used a year; eight end on 2026-09-01, half a year ahead: about half a piece is used until then.
    for year in 2021..2026 {
        sample.usage(seal, &format!("{year}-06-01"), 1.0);
    }
    sample.stock(seal, 8.0, |lot| lot.cure_date = Some(day("2021-09-01")));
    sample.stock(seal, 3.0, |lot| lot.cure_date = Some(day("2020-09-01")));
    let lines = found(&sample);
    let of = |part, wanted: fn(&SurplusBasis) -> bool| {
        let line = lines
            .iter()
            .find(|line| line.part == part && wanted(&line.basis));
        line.unwrap_or_else(|| panic!("{lines:?}")).pieces
    };
    assert!((of(of_gone, |b| matches!(b, SurplusBasis::NoMachine { .. })) - 2.0).abs() < 1e-9);
    assert!((of(seal, |b| matches!(b, SurplusBasis::Expired { .. })) - 3.0).abs() < 1e-9);
    let ending = of(seal, |b| matches!(b, SurplusBasis::Expiring { .. }));
    assert!((ending - 7.5).abs() < 0.05, "{ending}");
}
