use super::*;
use crate::plan::sample::{Sample, day, euros, price, workdays};

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

#[test]
fn what_planned_rebuilds_take_of_a_lot_before_it_ends_is_not_left_over() {
    let ending = |planned: Option<&str>| {
        let mut sample = Sample::new(SETTINGS);
        sample.supplier("S", |_| {});
        sample.machine("M1", None, None);
        let seal = sample.part_with("B", |part| part.shelf_life_months = Some(60.0));
        for year in 2021..2026 {
            sample.usage(seal, &format!("{year}-06-01"), 1.0);
        }
        sample.stock(seal, 8.0, |lot| lot.cure_date = Some(day("2021-09-01")));
        sample.kit("K");
        sample.line(Some(seal), 5.0, &[], |_| {});
        if let Some(planned) = planned {
            sample.planned(planned);
        }
        let lines = found(&sample);
        let is_ending = |line: &&Surplus| matches!(line.basis, SurplusBasis::Expiring { .. });
        let line = lines.iter().find(is_ending).unwrap();
        (line.pieces, line.basis.to_string())
    };
    // Eight end on 2026-09-01, half a year ahead, and about half a piece is used until then; a rebuild in June takes five
    // of them, one in October none.
    for (planned, left, said) in [
        (None, 7.5, "; about 0.5 are used"),
        (
            Some("2026-06-01"),
            2.5,
            "; planned rebuilds take 5 and about 0.5 more are used",
        ),
        (Some("2026-10-01"), 7.5, "; about 0.5 are used"),
    ] {
        let (pieces, basis) = ending(planned);
        assert!((pieces - left).abs() < 0.1, "{planned:?}: {pieces}");
        assert!(basis.contains(said), "{basis}");
    }
}

/// A part never used in five recorded years, with so many on the shelf, beside one that is used.
fn idle(settings: &str, on_hand: f64) -> (Sample, crate::catalogue::PartId) {
    let mut sample = Sample::new(&format!(
        "records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"{settings}"
    ));
    sample.supplier("S", |_| {});
    let (used, idle) = (sample.part("A"), sample.part("B"));
    sample.usage(used, "2025-06-01", 1.0);
    sample.stock(used, 1.0, |_| {});
    sample.stock(idle, on_hand, |stock| stock.bin = Some("R2-4".to_owned()));
    (sample, idle)
}

#[test]
fn a_part_never_used_on_a_kit_that_counts_is_an_insurance_up_to_one_rebuild() {
    let weights = "\n[planning.criticality_weights]\nA = 2.0\nC = 0.5";
    for (criticality, needed, on_hand, expected) in [
        (Some("A"), 2.0, 2.0, None),
        (Some("A"), 2.0, 5.0, Some(3.0)),
        (Some("B"), 2.0, 2.0, None),
        (None, 2.0, 1.0, None),
        // A machine that counts less than others insures nothing.
        (Some("C"), 2.0, 2.0, Some(2.0)),
    ] {
        let (mut sample, part) = idle(weights, on_hand);
        sample.machine("M1", Some(100.0), criticality);
        sample.kit("K");
        sample.line(Some(part), needed, &[], |_| {});
        let lines = found(&sample);
        let dead = lines.iter().find(|line| line.part == part);
        assert_eq!(
            dead.map(|line| line.pieces),
            expected,
            "{criticality:?} {on_hand}"
        );
        if criticality == Some("A") && on_hand > 2.0 {
            let why = dead.unwrap().basis.to_string();
            assert!(
                why.ends_with("; 2 are kept, as many as one rebuild takes"),
                "{why}"
            );
        }
    }
}

#[test]
fn the_kit_of_a_machine_that_left_insures_nothing_and_two_kits_insure_the_larger_need() {
    let (mut sample, part) = idle("", 9.0);
    sample.machine("M1", Some(100.0), None);
    for needed in [2.0, 4.0] {
        sample.kit("K");
        sample.line(Some(part), needed, &[], |_| {});
        // Two lines of one kit are one rebuild.
        sample.line(Some(part), 1.0, &[], |_| {});
    }
    let pieces = |sample: &Sample| {
        let lines = found(sample);
        lines
            .iter()
            .find(|line| line.part == part)
            .map(|line| line.pieces)
    };
    assert_eq!(pieces(&sample), Some(4.0));
    sample
        .shop
        .machines
        .values_mut()
        .next()
        .unwrap()
        .in_use_until = Some(day("2025-12-31"));
    assert_eq!(pieces(&sample), Some(9.0));
}

#[test]
fn a_dead_part_says_its_value_bin_since_when_and_why() {
    let (mut sample, part) = idle("", 4.0);
    let line = |sample: &Sample| {
        found(sample)
            .into_iter()
            .find(|line| line.part == part)
            .unwrap()
    };
    let without = line(&sample);
    assert_eq!(
        (without.value, &without.bins[..]),
        (None, &["R2-4".to_owned()][..])
    );
    assert_eq!(without.since, Some(day("2021-03-04")));
    assert_eq!(
        without.basis.to_string(),
        "no usage since records begin on 2021-03-04, on no kit that counts"
    );
    // Two offers, one by the hundred: the lower price of a piece counts.
    sample.offer(part, "S", workdays(5.0), |offer| offer.price = price(12.0));
    sample.offer(part, "S", workdays(5.0), |offer| {
        offer.price =
            Some(crate::units::Price::from_units(250.0, 100, crate::units::Currency::EUR).unwrap());
    });
    sample.stock(part, 1.0, |stock| stock.bin = Some("A1".to_owned()));
    let with = line(&sample);
    assert_eq!((with.value, with.bins.len()), (Some(euros(12.5)), 2));
    sample.usage(part, "2022-01-10", 1.0);
    let used = line(&sample);
    assert_eq!(used.since, Some(day("2022-01-10")));
    assert!(
        used.basis
            .to_string()
            .starts_with("last used on 2022-01-10")
    );
}

#[test]
fn surplus_begins_with_the_first_piece_beyond_what_is_used_in_three_years() {
    // The plain rule piece by piece: free less the level less the usage that nine cases of ten do not exceed.
    for usages in 1..=6 {
        for size in [1.0, 2.0] {
            let mut sample = Sample::new(SETTINGS);
            sample.supplier("S", |_| {});
            let part = sample.part("A");
            sample.offer(part, "S", workdays(5.0), |_| {});
            for at in 0..usages {
                sample.usage(part, &format!("{}-0{}-01", 2024 + at % 2, 1 + at), size);
            }
            sample.stock(part, 1.0, |_| {});
            let plan = sample.plan();
            let level = plan.levels.by_part[&part].min_stock.max(0.0);
            let law = plan.demands[&part].distribution(3.0 * 365.0).unwrap();
            let used = law.reorder_point(KEPT_SHARE).unwrap() as f64;
            for free in 1..=30 {
                sample.shop.stock[0].record.on_hand = Some(f64::from(free));
                let expected = (f64::from(free) - level - used).max(0.0);
                let lines = found(&sample);
                let pieces = lines.first().map_or(0.0, |line| line.pieces);
                assert!(
                    (pieces - expected).abs() < 1e-9,
                    "{usages} of {size}, {free} free: {pieces} {expected}"
                );
            }
        }
    }
}

#[test]
fn what_costs_less_than_a_cent_has_a_value() {
    // Arithmetic: 1.40 per 100 are 1.4 cents each.
    let mut sample = Sample::new(SETTINGS);
    sample.supplier("S", |_| {});
    let (clip, other) = (sample.part("CLIP"), sample.part("OTHER"));
    sample.offer(clip, "S", workdays(5.0), |offer| {
        offer.price = crate::units::Price::from_units(1.4, 100, crate::units::Currency::EUR).ok();
    });
    sample.usage(clip, "2022-06-01", 1.0);
    sample.usage(other, "2025-06-01", 1.0);
    sample.stock(clip, 5000.0, |_| {});
    let lines = found(&sample);
    let of_clip = lines.iter().find(|line| line.part == clip).unwrap();
    assert!(of_clip.pieces > 1000.0, "{of_clip:?}");
    let cents = of_clip.value.unwrap().cents as f64;
    assert!((cents - 1.4 * of_clip.pieces).abs() < 0.51, "{of_clip:?}");
}
