use super::*;
use crate::plan::sample::Sample;

const SETTINGS: &str =
    "records_from = \"2022-03-04\"\n[planning.criticality_weights]\nA = 2.0\nC = 0.5";

fn uses(sample: &Sample) -> PartUses {
    let shop = sample.built();
    PartUses::new(&shop, Exchange::new(&shop.settings))
}

fn used_on(sample: &mut Sample, part: PartId, machine: &str) {
    sample.usage(part, "2025-05-02", 1.0);
    let usage = sample.shop.usages.last_mut().unwrap();
    usage.record.machine = Some(machine.into());
}

#[test]
fn an_hour_counts_as_for_each_machine_by_its_share_of_the_usages() {
    let mut sample = Sample::new(SETTINGS);
    sample.machine("M1", Some(100.0), Some("C"));
    sample.machine("M2", Some(40.0), Some("A"));
    sample.machine("M3", Some(60.0), None);
    let (all, one, none) = (sample.part("A"), sample.part("B"), sample.part("C"));
    for machine in ["M1", "M2", "M3"] {
        used_on(&mut sample, all, machine);
    }
    used_on(&mut sample, one, "M3");
    let uses = uses(&sample);
    // 100 at a half, 40 twice, 60 once: a third each.
    let found = uses.of(all);
    assert!((found.waiting_per_h - 190.0 / 3.0).abs() < 1e-9);
    // As it costs, whatever the criticality: 100, 40 and 60.
    assert!((found.cost_per_h - 200.0 / 3.0).abs() < 1e-9);
    let basis = WaitingBasis::ByUsages {
        machines: 3,
        usages: 3,
        dearest: "M2".to_owned(),
        on_dearest: 1,
        is_weighted: true,
    };
    assert_eq!(found.basis, basis);
    assert_eq!(
        basis.to_string(),
        "downtime of 3 machines, shared by 3 usages and one more spread over all of them, the dearest M2 with 1, times their criticality"
    );
    assert!((found.criticality_weight - 2.0).abs() < 1e-9);
    assert!((uses.of(one).waiting_per_h - 60.0).abs() < 1e-9);
    // Nothing ties the third to a machine: the middle of the costs that are known.
    assert!((uses.of(none).waiting_per_h - 60.0).abs() < 1e-9);
    let basis = WaitingBasis::MiddleOfMachines {
        machines: 3,
        in_place_of: None,
    };
    assert_eq!(uses.of(none).basis, basis);
}

/// A line at 2000 an hour and twenty carts at 5, and a part with so many usages on each.
fn line_and_carts(on_line: usize, on_cart: usize) -> (Sample, PartId) {
    let mut sample = Sample::new("records_from = \"2022-03-04\"");
    sample.machine("LINE", Some(2000.0), None);
    sample.machine("CART", Some(5.0), None);
    let part = sample.part_with("A", |part| {
        part.machines = vec!["LINE".to_owned(), "CART".to_owned()];
    });
    for _ in 0..on_line {
        used_on(&mut sample, part, "LINE");
    }
    for _ in 0..on_cart {
        used_on(&mut sample, part, "CART");
    }
    let cart = sample.shop.machines.values_mut();
    for cart in cart.filter(|machine| machine.machine == "CART") {
        cart.installed = Some(20.0);
    }
    (sample, part)
}

#[test]
fn one_usage_on_a_dear_machine_does_not_price_forty() {
    // One usage more is spread over the 21 installed: (n + q) / (N + 1) of it, q 1/21 for the line and 20/21 for the carts.
    // 1 and 39 of 40: (1 + 1/21) 2000 / 41 + (39 + 20/21) 5 / 41 = 51.10 + 4.87 = 55.98, beside 54.875 by the usages alone.
    // None and 40: 2000 / 21 / 41 + (40 + 20/21) 5 / 41 = 2.32 + 4.99 = 7.32. None and 1: 47.62 + 4.88 = 52.50.
    for (on_line, on_cart, per_h) in [(1, 39, 55.976), (0, 40, 7.32), (0, 1, 52.50)] {
        let (sample, part) = line_and_carts(on_line, on_cart);
        let found = uses(&sample).of(part).clone();
        assert!((found.waiting_per_h - per_h).abs() < 0.005, "{found:?}");
        assert!(matches!(
            found.basis,
            WaitingBasis::ByUsages { ref dearest, on_dearest, .. }
                if dearest == "LINE" && on_dearest as usize == on_line
        ));
    }
    // No usage says who uses it: the dearest. A line that is gone waits for nothing.
    let (mut sample, part) = line_and_carts(0, 0);
    assert!((uses(&sample).of(part).waiting_per_h - 2000.0).abs() < 1e-9);
    let line = sample.shop.machines.values_mut();
    for line in line.filter(|machine| machine.machine == "LINE") {
        line.in_use_until = Some(crate::plan::sample::day("2025-12-31"));
    }
    let found = uses(&sample).of(part).clone();
    assert!((found.waiting_per_h - 5.0).abs() < 1e-9, "{found:?}");
}

#[test]
fn the_machine_of_the_parts_table_counts_like_one_of_a_usage() {
    let mut sample = Sample::new(SETTINGS);
    sample.machine("M1", Some(100.0), Some("A"));
    sample.machine("M2", Some(40.0), None);
    let named = |sample: &mut Sample, number: &str, machines: &[&str]| {
        sample.part_with(number, |part| {
            part.machines = machines.iter().map(|name| (*name).to_owned()).collect();
        })
    };
    let one = named(&mut sample, "A", &["m 1"]);
    let both = named(&mut sample, "B", &["M2", "M1"]);
    let used_elsewhere = named(&mut sample, "C", &["M2"]);
    let with_kit = named(&mut sample, "D", &["M1"]);
    used_on(&mut sample, used_elsewhere, "M1");
    for machine in sample.shop.machines.values_mut() {
        machine.installed = Some(2.0);
    }
    sample.kit("K");
    sample.line(Some(with_kit), 3.0, &[], |_| {});
    let uses = uses(&sample);
    let basis = WaitingBasis::Machine {
        name: "M1".to_owned(),
        weight: 2.0,
    };
    for (part, machines) in [(one, 2), (both, 4), (with_kit, 2)] {
        assert_eq!(uses.of(part).basis, basis, "{part:?}");
        assert!((uses.of(part).waiting_per_h - 200.0).abs() < 1e-9);
        assert!((uses.of(part).cost_per_h - 100.0).abs() < 1e-9);
        assert_eq!(uses.of(part).machines, machines, "{part:?}");
    }
    // One usage on M1 and one spread over both: 3/4 of 200 and 1/4 of 40.
    let found = uses.of(used_elsewhere);
    assert!((found.waiting_per_h - 160.0).abs() < 1e-9, "{found:?}");
    assert_eq!(found.machines, 4);
    // The parts table says where it sits, not how many: that only a kit does.
    assert_eq!(uses.of(one).places, None);
    assert_eq!(uses.of(with_kit).places, Some(6));
}

#[test]
fn a_machine_of_which_nothing_is_said_is_named_where_others_stand_in_for_it() {
    let mut sample = Sample::new(SETTINGS);
    sample.machine("M1", Some(100.0), None);
    sample.machine("M2", Some(40.0), None);
    sample.machine("Free", None, Some("A"));
    let (unlisted, costless) = (sample.part("A"), sample.part("B"));
    let of_table = sample.part_with("C", |part| part.machines = vec!["MY".to_owned()]);
    for _ in 0..3 {
        used_on(&mut sample, unlisted, "MX");
    }
    used_on(&mut sample, unlisted, "mx");
    used_on(&mut sample, costless, "Free");
    let found = uses(&sample);
    for (part, name, per_h) in [
        (unlisted, "MX", 70.0),
        // Its criticality is known: twice the middle.
        (costless, "Free", 140.0),
        (of_table, "MY", 70.0),
    ] {
        let of = found.of(part);
        let basis = WaitingBasis::MiddleOfMachines {
            machines: 2,
            in_place_of: Some(name.to_owned()),
        };
        assert_eq!(of.basis, basis);
        assert!((of.waiting_per_h - per_h).abs() < 1e-9, "{name}");
        assert!((of.cost_per_h - 70.0).abs() < 1e-9, "{name}");
        assert!(of.basis.to_string().ends_with(&format!(" of {name}")));
    }
    let named: Vec<(&str, usize, bool, bool)> = found
        .named()
        .iter()
        .map(|of| (&*of.name, of.usages, of.is_listed, of.has_cost))
        .collect();
    let expected = [
        ("Free", 1, true, false),
        ("MX", 4, false, false),
        ("MY", 0, false, false),
    ];
    assert_eq!(named, expected);
    // A figure in the settings holds for every machine.
    let priced = format!("[planning]\ndowntime_cost_per_hour = 55.0\n{SETTINGS}").replacen(
        "records_from = \"2022-03-04\"\n",
        "",
        1,
    );
    sample.shop.settings = crate::record::ShopSettings::from_toml(&priced).unwrap();
    let found = uses(&sample);
    assert_eq!(found.of(unlisted).basis, WaitingBasis::Setting);
    assert!(found.is_priced_by_setting());
}

#[test]
fn spellings_of_one_machine_are_one_machine_and_an_unknown_one_has_no_places() {
    let mut sample = Sample::new(SETTINGS);
    sample.machine("Press PP-3", Some(50.0), None);
    let (known, unknown) = (sample.part("A"), sample.part("B"));
    for spelling in ["Press PP-3", "press pp-3", "PRESS PP3", " Press  PP-3 "] {
        used_on(&mut sample, known, spelling);
    }
    used_on(&mut sample, unknown, "Press PP-3");
    used_on(&mut sample, unknown, "Some other");
    let uses = uses(&sample);
    assert_eq!(uses.of(known).machines, 1);
    assert_eq!(uses.of(unknown).machines, 1);
    assert_eq!(uses.of(unknown).places, None);
    assert_eq!(uses.of(unknown).in_use_until, None);
}

#[test]
fn places_are_those_of_the_kits_once_for_each_machine() {
    let mut sample = Sample::new(SETTINGS);
    sample.machine("M1", Some(50.0), None);
    for machine in sample.shop.machines.values_mut() {
        machine.installed = Some(3.0);
    }
    let part = sample.part("A");
    sample.kit("K");
    sample.line(Some(part), 2.0, &[], |_| {});
    sample.line(Some(part), 1.0, &[], |_| {});
    // Another kit of the same machine fits the same places.
    sample.kit("K again");
    sample.line(Some(part), 2.0, &[], |_| {});
    let uses = uses(&sample);
    // The two lines of the first kit add up; three machines of three pieces.
    assert_eq!(uses.of(part).places, Some(9));
    assert_eq!(uses.of(part).machines, 3);
}

#[test]
fn together_parts_count_as_one_that_all_their_machines_use() {
    let mut sample = Sample::new(SETTINGS);
    sample.machine("M1", Some(100.0), None);
    sample.machine("M2", Some(40.0), Some("A"));
    let (a, b) = (sample.part("A"), sample.part("B"));
    used_on(&mut sample, a, "M1");
    used_on(&mut sample, b, "M2");
    let found = uses(&sample).of_all(&[a, b]);
    // 100, and 40 twice, with one usage each.
    assert!((found.waiting_per_h - 90.0).abs() < 1e-9);
    assert!((found.criticality_weight - 2.0).abs() < 1e-9);
    assert_eq!(found.machines, 2);
}

#[test]
fn the_middle_of_an_even_number_is_between_the_two_in_the_middle() {
    for (values, middle) in [
        (&[][..], None),
        (&[3.0], Some(3.0)),
        (&[9.0, 1.0], Some(5.0)),
        (&[9.0, 1.0, 2.0], Some(2.0)),
        (&[4.0, 9.0, 1.0, 2.0], Some(3.0)),
    ] {
        assert_eq!(median(values), middle);
    }
}
