//! Options of the planning commands on the small shop: each does what it says, and a wrong value is told with a right one.

use serde_json::Value;

use super::program::{AS_OF, Bench};

const SHOP: [&str; 4] = ["--shop", "shop", "--as-of", AS_OF];

fn rows(bench: &Bench, arguments: &[&str], sheet: &str) -> Vec<Value> {
    let json = bench.json(&[arguments, &SHOP].concat());
    let rows = json["sheets"][sheet]["rows"].as_array();
    rows.unwrap_or_else(|| panic!("no {sheet} in {arguments:?}"))
        .clone()
}

fn texts(rows: &[Value], key: &str) -> Vec<String> {
    rows.iter()
        .map(|row| row[key].as_str().unwrap_or("-").to_owned())
        .collect()
}

#[test]
fn a_kit_is_found_by_how_it_begins_and_in_any_spelling() {
    let bench = Bench::new();
    let whole = bench.said(&[&["kit", "Press head"], &SHOP[..]].concat());
    for name in ["press head", "PRESS HEAD", "Press", "press-head", "P"] {
        assert_eq!(
            bench.said(&[&["kit", name], &SHOP[..]].concat()),
            whole,
            "{name}"
        );
    }
    let errors = bench.refused(&[&["kit", "Pump"], &SHOP[..]].concat(), 2);
    assert!(
        errors.contains("no kit `Pump`; there are `Press head`"),
        "{errors}"
    );
}

#[test]
fn wrong_values_of_a_kit_are_told_with_a_right_one() {
    let bench = Bench::new();
    for (more, words) in [
        (&["--budget", "-1"][..], "expected 0 or more, in EUR"),
        (&["--budget", "nan"], "expected a sum such as 3000"),
        (&["--budget", "inf"], "expected a sum such as 3000"),
        (&["--budget", "much"], "expected a sum such as 3000"),
        (&["--by", "soon"], "expected 2026-03-09T07:30 or 2026-03-09"),
        (
            &["--by", "2026-02-30"],
            "expected 2026-03-09T07:30 or 2026-03-09",
        ),
        (
            &["--without", "Nobody"],
            "name a supplier, `supplier/part`, or the row",
        ),
        (
            &["--without", "North/A-9"],
            "name a supplier, `supplier/part`, or the row",
        ),
        (&["--without", "Nort"], "did you mean `North`?"),
    ] {
        let errors = bench.refused(&[&["kit", "Press head"], more, &SHOP].concat(), 2);
        assert!(errors.contains(words), "{more:?}: {errors}");
    }
}

#[test]
fn without_an_offer_the_plan_takes_the_next_one() {
    let bench = Bench::new();
    let suppliers = |more: &[&str]| {
        let lines = rows(
            &bench,
            &[&["kit", "Press head"], more].concat(),
            "kit_lines",
        );
        let bearing = lines.iter().find(|row| {
            row["asked"] == "A-1" || row["part"] == "A-1" || row.to_string().contains("A-1")
        });
        bearing.unwrap_or_else(|| panic!("{lines:?}")).to_string()
    };
    let (plain, north, south) = (
        suppliers(&[]),
        suppliers(&["--without", "North"]),
        suppliers(&["--without", "South/A-1"]),
    );
    assert!(
        plain.contains("North"),
        "the quick offer, because an hour costs 200 EUR: {plain}"
    );
    assert!(
        north.contains("South") && !north.contains("North"),
        "{north}"
    );
    assert!(south.contains("North"), "{south}");
    // By row, as the report names it.
    let by_row = suppliers(&["--without", "prices.csv, row 2"]);
    assert!(!by_row.contains("North"), "{by_row}");
    // Both struck out: nothing is left, and that is said.
    let none = bench.said(
        &[
            &[
                "kit",
                "Press head",
                "--without",
                "North",
                "--without",
                "South",
            ],
            &SHOP[..],
        ]
        .concat(),
    );
    assert!(none.contains("unknown"), "{none}");
}

#[test]
fn a_budget_and_a_time_give_plans_that_keep_them() {
    let bench = Bench::new();
    for budget in ["0", "20", "40", "1000", "1000000"] {
        let asked = rows(
            &bench,
            &["kit", "Press head", "--budget", budget],
            "asked_for",
        );
        let limit: f64 = budget.parse().unwrap();
        for row in &asked {
            let spend = row
                .as_object()
                .unwrap()
                .iter()
                .find(|(key, _)| key.contains("spend") || key.contains("purchases"));
            if let Some(spend) = spend.and_then(|(_, value)| value.as_f64()) {
                assert!(spend <= limit + 0.005, "{budget}: {row}");
            }
        }
        assert!(!asked.is_empty(), "{budget}");
    }
    // Nothing for nothing, but the least that does is named: with that there is a plan, and with a cent less there is none.
    let told = |budget: &str| {
        let asked = ["kit", "Press head", "--budget", budget];
        let row = rows(&bench, &asked, "asked_for").swap_remove(0);
        row["bought"].as_str().unwrap().to_owned()
    };
    let none = told("0");
    let least = none.split_once("the least is ").map(|(_, least)| least);
    let least = least.unwrap_or_else(|| panic!("{none}")).replace(',', "");
    let least: f64 = least.split(' ').next().unwrap().parse().unwrap();
    // Two bearings at 4.20, a seal at 2.10 and 12.00 of freight, by the price list.
    assert!((least - 22.50).abs() < 1e-9, "{none}");
    assert!(!told(&format!("{least:.2}")).contains("no plan"));
    assert_eq!(told(&format!("{:.2}", least - 0.01)), none);
    // Said once a row, and not of every column that has nothing to say.
    let asked = ["kit", "Press head", "--budget", "0"];
    for row in rows(&bench, &asked, "asked_for") {
        let keys = row.as_object().unwrap().keys();
        let unknown: Vec<&String> = keys.filter(|key| key.ends_with("_unknown")).collect();
        assert_eq!(unknown.len(), 1, "{row}");
    }
    let none = rows(
        &bench,
        &["kit", "Press head", "--by", "2026-11-26T09:00"],
        "asked_for",
    );
    assert!(
        none[0].to_string().contains("no ") || none[0].to_string().contains("null"),
        "{none:?}"
    );
}

#[test]
fn the_curve_costs_more_the_sooner_it_is() {
    let bench = Bench::new();
    let curve = rows(&bench, &["kit", "Press head"], "curve");
    assert!(!curve.is_empty());
    let figures =
        |key: &str| -> Vec<f64> { curve.iter().filter_map(|row| row[key].as_f64()).collect() };
    let keys: Vec<&String> = curve[0].as_object().unwrap().keys().collect();
    let spend = keys
        .iter()
        .find(|key| key.contains("spend") || key.contains("buy") || key.contains("purchases"));
    let spend = figures(spend.unwrap_or_else(|| panic!("{keys:?}")));
    assert_eq!(spend.len(), curve.len());
    assert!(
        spend.windows(2).all(|pair| pair[0] >= pair[1])
            || spend.windows(2).all(|pair| pair[0] <= pair[1]),
        "{spend:?}"
    );
}

#[test]
fn levels_for_one_part_are_those_of_all() {
    let bench = Bench::new();
    let all = rows(&bench, &["levels"], "levels");
    for name in ["A-1", "a1", "A 1"] {
        let one = rows(&bench, &["levels", "--part", name], "levels");
        assert_eq!(texts(&one, "number"), ["A-1"], "{name}");
        let same = all.iter().find(|row| row["number"] == "A-1").unwrap();
        assert_eq!(one[0]["min_stock"], same["min_stock"], "{name}");
    }
    let two = rows(
        &bench,
        &["levels", "--part", "A-2", "--part", "A-1"],
        "levels",
    );
    let mut numbers = texts(&two, "number");
    numbers.sort();
    assert_eq!(numbers, ["A-1", "A-2"]);
    let errors = bench.refused(&[&["levels", "--part", "A-9"], &SHOP[..]].concat(), 2);
    assert!(errors.contains("no own part `A-9`"), "{errors}");
}

#[test]
fn a_higher_target_and_more_money_never_keep_less() {
    let bench = Bench::new();
    let kept = |more: &[&str]| -> f64 {
        let rows = rows(&bench, &[&["levels"], more].concat(), "levels");
        rows.iter()
            .filter_map(|row| row["min_stock"].as_f64())
            .sum()
    };
    let targets = ["0.5", "0.8", "0.95", "0.99"].map(|share| kept(&["--target", share]));
    assert!(
        targets.windows(2).all(|pair| pair[0] <= pair[1]),
        "{targets:?}"
    );
    let budgets = ["0", "20", "100", "5000"].map(|sum| kept(&["--budget", sum]));
    assert!(
        budgets.windows(2).all(|pair| pair[0] <= pair[1]),
        "{budgets:?}"
    );
    for rule in ["stock-out-price", "downtime-cost", "service-target"] {
        assert!(kept(&["--by", rule]) >= 0.0);
    }
}

#[test]
fn options_that_exclude_each_other_or_are_out_of_range_are_refused() {
    let bench = Bench::new();
    for more in [
        &["levels", "--target", "0.9", "--budget", "100"][..],
        &["levels", "--budget", "100", "--by", "downtime-cost"],
        &["levels", "--by", "luck"],
        &["levels", "--target", "1"],
        &["levels", "--target", "0"],
        &["levels", "--target", "-0.5"],
        &["levels", "--target", "95"],
        &["levels", "--target", "nan"],
        &["levels", "--budget", "nan"],
        &["what-if", "--slower", "North"],
        &["what-if", "--slower", "North=0"],
        &["what-if", "--slower", "North=-2"],
        &["what-if", "--slower", "North=fast"],
        &["what-if", "--slower", "Nobody=2"],
        &["what-if", "--gone", "Nobody"],
        &["what-if", "--budget-cut", "101"],
        &["what-if", "--budget-cut", "nan"],
        &["what-if", "--one-more", "Mill"],
        &["what-if", "--retired", "Mill"],
        &["what-if"],
    ] {
        let errors = bench.refused(&[more, &SHOP].concat(), 2);
        assert!(
            errors.lines().count() >= 1 && errors.len() > 20,
            "{more:?}: {errors}"
        );
    }
    for command in ["levels", "reorder"] {
        let both = [command, "--shop", "shop", "--workspace", "kept"];
        assert!(
            bench.refused(&both, 2).contains("cannot be used with"),
            "{command}"
        );
        assert!(
            (bench.refused(&[command], 2)).contains("`--shop` or `--workspace`"),
            "{command}"
        );
        let moment = [command, "--shop", "shop", "--as-of", "tomorrow"];
        assert!(
            bench
                .refused(&moment, 2)
                .contains("expected 2026-03-09T07:30"),
            "{command}"
        );
        assert!(
            bench
                .refused(&[command, "--shop", "nowhere"], 3)
                .contains("nowhere"),
            "{command}"
        );
    }
}

#[test]
fn a_supplier_that_is_gone_sells_nothing_and_a_machine_more_uses_more() {
    let bench = Bench::new();
    let figures = |more: &[&str]| rows(&bench, &[&["what-if"], more].concat(), "before_after");
    let figure = |rows: &[Value], name: &str| {
        let row = rows
            .iter()
            .find(|row| row["figure"].as_str().unwrap().starts_with(name));
        let row = row.unwrap_or_else(|| panic!("{name} in {rows:?}"));
        (row["before"].as_f64(), row["after"].as_f64())
    };
    let slower = figures(&["--slower", "North=3", "--slower", "South=3"]);
    let (before, after) = figure(&slower, "Production hours down");
    assert!(after.unwrap() >= before.unwrap(), "{slower:?}");
    let same = figures(&["--slower", "North=1"]);
    for row in &same {
        assert_eq!(
            row["before"], row["after"],
            "a factor of one changes nothing: {row}"
        );
    }
    // North alone sells A-2, and nobody may be bought from for A-3: what waits for them is no gain and not known.
    let gone = figures(&["--gone", "North"]);
    let without = figure(&gone, "Used parts without a computed level");
    assert_eq!(without, (Some(1.0), Some(2.0)), "{gone:?}");
    for name in ["Money tied up by the levels", "Cost of waiting a year"] {
        let (before, after) = figure(&gone, name);
        assert!(before.is_some() && after.is_none(), "{name}: {gone:?}");
    }
    let machines = rows(
        &bench,
        &["what-if", "--one-more", "Press"],
        "what_if_machines",
    );
    let press = machines
        .iter()
        .find(|row| row["machine"] == "Press")
        .unwrap();
    assert_eq!(press["installed"], 2);
}

#[test]
fn the_moment_of_planning_is_a_day_or_a_minute() {
    let bench = Bench::new();
    for (moment, shown) in [
        ("2026-11-26T08:00", "2026-11-26 08:00"),
        ("2026-11-26 08:00", "2026-11-26 08:00"),
        ("2026-11-26", "2026-11-26"),
        ("2028-02-29", "2028-02-29"),
    ] {
        let said = bench.said(&["reorder", "--shop", "shop", "--as-of", moment]);
        let head = said.lines().next().unwrap();
        assert!(head.contains(shown), "{moment}: {head}");
    }
    for none in [
        "2027-02-29",
        "2026-13-01",
        "2026-11-26T25:00",
        "26.11.2026T8",
        "",
    ] {
        let errors = bench.refused(&["reorder", "--shop", "shop", "--as-of", none], 2);
        assert!(errors.contains("is not a moment"), "{none}: {errors}");
    }
}

#[test]
fn quiet_says_errors_only_and_check_tells_by_the_exit_code() {
    let bench = Bench::new();
    let run = ["run", "shop", "--as-of", AS_OF, "--out", "out"];
    let quiet = bench.run(&[&run[..], &["--quiet"]].concat());
    assert_eq!(
        (quiet.code, quiet.out.as_str(), quiet.errors.as_str()),
        (0, "", "")
    );
    let short = bench.run(&[&run[..], &["-q", "--check"]].concat());
    assert_eq!(
        (short.code, short.out.as_str()),
        (1, ""),
        "something is to be ordered"
    );
    let nothing = Bench::new();
    std::fs::remove_dir_all(nothing.path().join("shop")).unwrap();
    nothing.write("shop/parts.csv", "part no,designation\nA-1,6205\n");
    let done = nothing.run(&[&run[..], &["--check"]].concat());
    assert_eq!(
        done.code, 0,
        "nothing is rejected and nothing to be ordered: {}",
        done.errors
    );
}

#[test]
fn the_language_is_that_of_the_settings_unless_the_line_says_another() {
    let bench = Bench::new();
    bench.write("shop/shop.toml", "language = \"de\"\n");
    let language = |more: &[&str]| {
        let json = bench.json(&[&["reorder"], more, &SHOP].concat());
        json["report"]["language"].clone()
    };
    assert_eq!(language(&[]), "de");
    assert_eq!(language(&["--language", "en"]), "en");
    let words = bench.said(&[&["reorder"], &SHOP[..]].concat());
    assert!(words.contains("26.11.2026 08:00"), "{words:.300}");
}

#[test]
fn nobody_plans_as_of_the_clock_because_settings_cannot_be_read() {
    let bench = Bench::new();
    bench.write(
        "shop/shop.toml",
        "as_of = \"9 March\"\nshop = \"Hall 3\"\n[planning]\norder_cost = -1.0\n",
    );
    for command in [
        &["reorder"][..],
        &["levels"],
        &["kit", "Press head"],
        &["what-if", "--gone", "South"],
    ] {
        let errors = bench.refused(&[command, &SHOP[..2]].concat(), 3);
        assert!(
            errors.contains("the moment of planning stands in settings that cannot be read")
                && errors.contains("--as-of"),
            "{command:?}: {errors}"
        );
        // With a moment it is planned, and what was left out of the settings is told.
        let done = bench.run(&[command, &SHOP[..]].concat());
        assert_eq!(done.code, 0, "{command:?}: {}", done.errors);
        for key in ["`as_of` is left out", "`planning.order_cost` is left out"] {
            assert!(done.errors.contains(key), "{command:?}: {}", done.errors);
        }
    }
}
