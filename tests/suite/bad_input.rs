//! Values that cannot be: each has its message with its place, and the rest of the shop is still planned.
//!
//! The list is that of what spreadsheets of shops hold wrongly; common practice, no source.

mod twice_and_ahead;

use std::path::Path;

use sparewright::job::{Job, Planned};
use sparewright::plan::Completion;

const SETTINGS: &str = "\
shop = \"Test\"
as_of = \"2026-03-09T07:30\"
currency = \"EUR\"
records_from = \"2021-01-04\"
";

/// A small shop that plans without a complaint; a table of `instead` takes the place of one of its tables.
fn planned(settings: &str, instead: &[(&str, &str)]) -> (Job, Planned) {
    let folder = tempfile::tempdir().unwrap();
    let tables = [
        ("shop.toml", settings),
        (
            "parts.csv",
            "Part no.;Designation;Unit\nA-1;6205;piece\nA-2;6206;piece\nA-3;7212B DB;set of 2\n",
        ),
        ("suppliers.csv", "Supplier;Approved\nNordlager;yes\n"),
        (
            "prices.csv",
            "Supplier;Part no.;Net price EUR;Lead time\nNordlager;A-1;10,00;5 days\nNordlager;A-2;12,00;5 days\n",
        ),
        (
            "stock.csv",
            "Part no.;On hand;Unit\nA-1;2;piece\nA-2;1;piece\n",
        ),
        (
            "usages.csv",
            "date;part;quantity\n2025-03-03;A-1;1\n2025-09-03;A-1;1\n2025-10-03;A-2;1\n",
        ),
        (
            "machines.csv",
            "Machine;Downtime cost EUR/h;Installed\nF1;100;2\n",
        ),
        (
            "kits.csv",
            "Kit;Machine;Line;Part no.;Quantity;Unit;Task\nFan;F1;10;A-1;1;piece;Fit\nFan;F1;20;A-2;1;piece;Fit\n",
        ),
        (
            "tasks.csv",
            "Kit;Task;Hours;Predecessor\nFan;Strip;2;\nFan;Fit;3;Strip\n",
        ),
    ];
    for (name, text) in tables {
        let taken = instead.iter().find(|(other, _)| *other == name);
        write(folder.path(), name, taken.map_or(text, |(_, text)| text));
    }
    for (name, text) in instead {
        if tables.iter().all(|(other, _)| other != name) {
            write(folder.path(), name, text);
        }
    }
    let job = Job::read(folder.path(), None).unwrap();
    let planned = job.plan().unwrap();
    (job, planned)
}

fn write(folder: &Path, name: &str, text: &str) {
    std::fs::write(folder.join(name), text).unwrap();
}

/// Everything that was said about rows and plans, with its place.
fn said(job: &Job, planned: &Planned) -> Vec<String> {
    let rows = job
        .imported
        .issues
        .iter()
        .map(|issue| format!("{}: {}", issue.place, issue.problem));
    let plans = planned.plan.issues.iter().map(ToString::to_string);
    let unusable = planned.plan.unusable_offers.iter();
    let unusable = unusable.map(|offer| format!("{}: {}", offer.place, offer.why));
    let unresolved = job.shop.unresolved.iter();
    let unresolved = unresolved.map(|of| format!("{}: {}", of.place, of.reason));
    rows.chain(plans)
        .chain(unusable)
        .chain(unresolved)
        .collect()
}

/// True where a text names a row or cell of a file: `prices.csv, C3` or `prices.csv, row 3`.
fn names_a_row(text: &str, file: &str) -> bool {
    text.match_indices(file).any(|(at, _)| {
        let rest = text[at + file.len()..].trim_start_matches([',', ' ']);
        let word = rest.strip_prefix("row ").unwrap_or(rest);
        let digits = word.trim_start_matches(|c: char| c.is_ascii_uppercase());
        digits.starts_with(|c: char| c.is_ascii_digit())
    })
}

#[test]
fn a_place_is_a_cell_or_a_row() {
    for (text, is_one) in [
        ("prices.csv, C3: wrong", true),
        ("prices.csv, row 3: wrong", true),
        ("line and prices.csv, B2", true),
        ("prices.csv: wrong", false),
        ("stock.csv, C3: wrong", false),
    ] {
        assert_eq!(names_a_row(text, "prices.csv"), is_one, "{text}");
    }
}

/// One message names the file and says all of `words`; the levels of A-1 and the kit are planned all the same.
fn says_and_plans(instead: &[(&str, &str)], words: &[&str]) {
    let (job, planned) = planned(SETTINGS, instead);
    let said = said(&job, &planned);
    let file = instead[0].0;
    let is_it =
        |text: &&String| names_a_row(text, file) && words.iter().all(|word| text.contains(word));
    assert!(
        said.iter().any(|text| is_it(&text)),
        "{words:?} of {file} not in {said:#?}"
    );
    let plan = &planned.plan;
    let is_planned = plan
        .levels
        .by_part
        .keys()
        .any(|part| job.shop.catalogue.part(*part).number == "A-1");
    assert!(is_planned, "{file}: A-1 has no level any more: {said:#?}");
    assert_eq!(plan.kits.len(), 1, "{file}");
}

#[test]
fn the_shop_plans_without_a_complaint_as_it_stands() {
    let (job, planned) = planned(SETTINGS, &[]);
    assert_eq!(said(&job, &planned), Vec::<String>::new());
    let completion = &planned.plan.kits[0].accepted.completion;
    assert!(matches!(completion, Completion::Known { .. }));
    assert_eq!(planned.plan.levels.by_part.len(), 2);
}

#[test]
fn prices_below_zero_and_of_zero() {
    for price in ["-12,00", "0,00"] {
        let table = format!(
            "Supplier;Part no.;Net price EUR;Lead time\nNordlager;A-1;10,00;5 days\nNordlager;A-2;{price};5 days\n"
        );
        says_and_plans(&[("prices.csv", &table)], &["expected a price above 0"]);
    }
}

#[test]
fn lead_times_of_nothing_and_of_eleven_years() {
    let table = |lead: &str| {
        format!(
            "Supplier;Part no.;Net price EUR;Lead time\nNordlager;A-1;10,00;5 days\nNordlager;A-2;12,00;{lead}\n"
        )
    };
    says_and_plans(&[("prices.csv", &table("0 days"))], &["lead time is 0"]);
    says_and_plans(
        &[("prices.csv", &table("4000 days"))],
        &["`4000 days` is out of range; expected a lead time of 0 to 10 years"],
    );
}

#[test]
fn a_usage_in_the_future_and_a_receipt_before_its_order() {
    says_and_plans(
        &[(
            "usages.csv",
            "date;part;quantity\n2025-03-03;A-1;1\n2025-09-03;A-1;1\n2027-01-04;A-2;1\n",
        )],
        &["2027-01-04", "after the moment of planning"],
    );
    says_and_plans(
        &[(
            "receipts.csv",
            "Supplier;Part no.;Quantity;Order date;Promised date;Date received\nNordlager;A-1;1;2025-05-05;2025-05-12;2025-04-30\n",
        )],
        &[
            "received on 2025-04-30, ordered on 2025-05-05",
            "on or after the order",
        ],
    );
}

#[test]
fn a_kit_line_of_nothing_and_tasks_that_wait_for_each_other() {
    says_and_plans(
        &[(
            "kits.csv",
            "Kit;Machine;Line;Part no.;Quantity;Unit;Task\nFan;F1;10;A-1;1;piece;Fit\nFan;F1;20;A-2;0;piece;Fit\n",
        )],
        &["`0` is out of range; expected more than 0"],
    );
    says_and_plans(
        &[(
            "tasks.csv",
            "Kit;Task;Hours;Predecessor\nFan;Strip;2;Fit\nFan;Fit;3;Strip\n",
        )],
        &["waits for itself"],
    );
}

#[test]
fn a_kit_line_below_nothing() {
    says_and_plans(
        &[(
            "kits.csv",
            "Kit;Machine;Line;Part no.;Quantity;Unit;Task\nFan;F1;10;A-1;1;piece;Fit\nFan;F1;20;A-2;-2;piece;Fit\n",
        )],
        &["`-2` is out of range; expected more than 0"],
    );
}

#[test]
fn a_kit_row_without_part_and_name_leaves_its_kit_open() {
    let kits = "Kit;Machine;Line;Part no.;Quantity;Unit;Task\nFan;F1;10;A-1;1;piece;Fit\nFan;F1;;;2;piece;Fit\n";
    let (job, planned) = planned(SETTINGS, &[("kits.csv", kits)]);
    let said = said(&job, &planned);
    let told = "kits.csv, D3: part number is missing; a kit line needs one";
    assert!(said.iter().any(|said| said == told), "{said:?}");
    // The other line lies on the shelf.
    let completion = &planned.plan.kits[0].accepted.completion;
    assert!(
        matches!(completion, Completion::Unknown { lines } if *lines == [1]),
        "{completion:?}"
    );
}

#[test]
fn a_currency_without_rate_stock_below_zero_and_a_set_offered_in_pieces() {
    says_and_plans(
        &[(
            "prices.csv",
            "Supplier;Part no.;Net price;Currency;Lead time\nNordlager;A-1;10,00;EUR;5 days\nNordlager;A-2;12,00;GBP;5 days\n",
        )],
        &["no exchange rate for GBP"],
    );
    says_and_plans(
        &[(
            "stock.csv",
            "Part no.;On hand;Unit\nA-1;2;piece\nA-2;-1;piece\n",
        )],
        &["`-1` is out of range; expected 0 or more"],
    );
    says_and_plans(
        &[
            (
                "prices.csv",
                "Supplier;Part no.;Net price EUR;Unit;Lead time\nNordlager;A-1;10,00;piece;5 days\nNordlager;A-3;60,00;piece;5 days\n",
            ),
            (
                "kits.csv",
                "Kit;Machine;Line;Part no.;Quantity;Unit;Task\nFan;F1;10;A-1;1;piece;Fit\nFan;F1;20;A-3;1;set of 2;Fit\n",
            ),
        ],
        &["piece", "set"],
    );
}

#[test]
fn two_settings_that_contradict_each_other_name_both_keys_and_the_rest_holds() {
    let text =
        format!("{SETTINGS}[planning]\nlevels_by = \"service_target\"\nstock_budget = 5000\n");
    let (job, planned) = planned(&text, &[]);
    let problems: Vec<String> = job
        .imported
        .problems
        .iter()
        .map(|problem| format!("{}: {}", problem.file, problem.reason))
        .collect();
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert!(
        problems[0].starts_with("shop.toml: settings: `stock_budget` contradicts `levels_by`")
            && problems[0].ends_with("`stock_budget` is left out"),
        "{problems:?}"
    );
    assert_eq!(planned.plan.levels.by_part.len(), 2);
}

#[test]
fn a_budget_holds_where_a_service_target_stands_beside_it() {
    let text = format!("{SETTINGS}[planning]\nservice_target_share = 0.9\nstock_budget = 5000\n");
    let (job, planned) = planned(&text, &[]);
    let problems = &job.imported.problems;
    let said: Vec<String> = problems.iter().map(|of| of.reason.to_string()).collect();
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(
        said[0].ends_with("`service_target_share` is left out"),
        "{said:?}"
    );
    let budget = planned
        .plan
        .levels
        .budget
        .expect("the budget sets the levels");
    assert!((budget.budget - 5000.0).abs() < 1e-9);
}

/// The rows of prices in place of the small shop's, and what one and twelve of A-1 then cost, with all that was said.
fn prices_of_a_1(header: &str, rows: &str) -> (Vec<Option<f64>>, Vec<String>) {
    let prices = format!("Supplier;Part no.;Net price EUR;Lead time;{header}\n{rows}");
    let (job, planned) = planned(SETTINGS, &[("prices.csv", &prices)]);
    let of_a_1 = |offer: &&sparewright::catalogue::OfferOf| {
        job.shop.catalogue.part(offer.part).number == "A-1"
    };
    let offers: Vec<_> = job.shop.offers.iter().filter(of_a_1).collect();
    // The cheapest plain reading of the rows: the price of the largest quantity from which one holds.
    let unit_price = |quantity: f64| {
        let prices = offers.iter().filter_map(|offer| {
            let record = &offer.record;
            let breaks = record.breaks.iter();
            let holds = breaks.filter(|of| of.from_quantity <= quantity);
            let best = holds.map(|of| of.price).next_back().or(record.price)?;
            let is_sold = record
                .minimum_quantity
                .is_none_or(|least| quantity >= least);
            is_sold.then(|| best.unit_price())
        });
        prices.reduce(f64::min)
    };
    let found = vec![unit_price(1.0), unit_price(12.0), unit_price(25.0)];
    (found, said(&job, &planned))
}

#[test]
fn a_price_that_holds_from_a_quantity_on_is_no_price_of_one() {
    // Rows as suppliers give them (common practice, no source): 10 a piece, 4 from 20.
    let rows = |one: &str, more: &str| {
        format!("Nordlager;A-1;10;5 days;{one}\nNordlager;A-1;4;5 days;{more}\n")
    };
    for (header, one, more) in [
        ("From qty", "1", "20"),
        ("ab Menge", "1", "20"),
        ("Staffel ab", "", "20 Stk"),
        ("Preis ab Menge", "1", "ab 20"),
        ("Price break qty", "1-19", "20+"),
        ("quantité à partir de", "1", "20"),
    ] {
        let (prices, said) = prices_of_a_1(header, &rows(one, more));
        assert_eq!(
            prices,
            [Some(10.0), Some(10.0), Some(4.0)],
            "{header}: {said:?}"
        );
    }
    // Only a price from 20 on: fewer are not sold at any price that is known.
    let (prices, _) = prices_of_a_1("From qty", "Nordlager;A-1;4;5 days;20\n");
    assert_eq!(prices, [None, None, Some(4.0)]);
    // Another lead time is another offer, told twice the dearer holds.
    let twice = format!("{}Nordlager;A-1;5;5 days;20\n", rows("1", "20"));
    let (prices, _) = prices_of_a_1("From qty", &twice);
    assert_eq!(prices, [Some(10.0), Some(10.0), Some(5.0)]);
}

#[test]
fn rows_whose_price_rises_with_the_quantity_and_packs_of_half_a_piece_are_told() {
    let rises = "Nordlager;A-1;4;5 days;1\nNordlager;A-1;5;5 days;20\n";
    let (prices, of_breaks) = prices_of_a_1("From qty", rises);
    assert_eq!(prices, [Some(4.0), Some(4.0), Some(4.0)]);
    let told = "prices.csv, row 2: price breaks are out of order: from 1 4, from 20 5; expected prices that fall as quantities rise";
    assert!(of_breaks.iter().any(|said| said == told), "{of_breaks:?}");

    let odd = |unit: &str| {
        let prices = format!(
            "Supplier;Part no.;Net price EUR;Lead time;Pack quantity;Minimum quantity;Unit\nNordlager;A-1;10;5 days;1,5;2,5;{unit}\n"
        );
        let (job, planned) = planned(SETTINGS, &[("prices.csv", &prices)]);
        let record = job.shop.offers[0].record.clone();
        let said = said(&job, &planned);
        (record.pack_quantity, record.minimum_quantity, said)
    };
    let (pack, least, said) = odd("");
    assert_eq!((pack, least), (None, Some(3.0)));
    assert_eq!(
        said[said.len() - 2..],
        [
            "prices.csv, row 2: a pack of 1.5 is no whole number, and nothing says metres: it is planned with as if sold singly",
            "prices.csv, row 2: a least order of 2.5 is no whole number, and nothing says metres: 3 is planned with",
        ],
        "{said:?}"
    );
    // Cord is sold in such lengths.
    let (pack, least, said) = odd("m");
    assert_eq!((pack, least), (Some(1.5), Some(2.5)));
    assert!(
        !said.iter().any(|said| said.contains("whole number")),
        "{said:?}"
    );
}

#[test]
fn a_column_of_prices_from_an_unknown_quantity_on_refuses_its_rows() {
    for (header, cell, message) in [
        (
            "Staffelpreis",
            "4",
            "nothing says from which quantity on `4` holds",
        ),
        (
            "Price from",
            "20",
            "nothing says from which quantity on `20` holds",
        ),
        (
            "From qty",
            "many",
            "`many` is no quantity from which the price holds",
        ),
        (
            "From qty",
            "-3",
            "`-3` is no quantity from which the price holds",
        ),
    ] {
        let row = format!("Nordlager;A-1;10;5 days;{cell}\n");
        let (prices, said) = prices_of_a_1(header, &row);
        assert_eq!(prices, [None, None, None], "{header}");
        let is_told = said
            .iter()
            .any(|said| said.starts_with("prices.csv, E2: ") && said.contains(message));
        assert!(is_told, "{header} {cell}: {said:?}");
    }
    // An empty cell says nothing of a quantity.
    let (prices, _) = prices_of_a_1("Staffelpreis", "Nordlager;A-1;10;5 days;\n");
    assert_eq!(prices[0], Some(10.0));
}

#[test]
fn a_usage_far_above_all_others_is_told_and_left_out() {
    let usages = |slip: &str| {
        format!("date;part;quantity\n2025-03-03;A-1;1\n2025-09-03;A-1;2\n2025-10-03;A-2;1\n{slip}")
    };
    let level = |slip: &str| {
        let (job, planned) = planned(SETTINGS, &[("usages.csv", &usages(slip))]);
        let levels = planned.plan.levels.by_part.values();
        let levels: Vec<(f64, f64)> = levels.map(|of| (of.min_stock, of.order_quantity)).collect();
        (levels, said(&job, &planned))
    };
    let (without, _) = level("");
    let (with, told) = level("2025-11-03;A-1;1000000\n");
    assert_eq!(with, without);
    let message = "usages.csv, row 5: 1000000 of `A-1` used at once, over 100 times the most that any other usage took (2); it is left out";
    assert!(
        told.iter().any(|said| said.starts_with(message)),
        "{told:?}"
    );
    // A hundred times is a lot, and may be.
    let (_, told) = level("2025-11-03;A-1;200\n");
    assert!(
        !told.iter().any(|said| said.contains("over 100 times")),
        "{told:?}"
    );
    // Two of them are no slip, and are worked out in no time either.
    let (with, told) = level("2025-11-03;A-1;1000000\n2025-11-04;A-1;1000000\n");
    assert!(
        !told.iter().any(|said| said.contains("over 100 times")),
        "{told:?}"
    );
    assert_eq!(with.len(), without.len());
}

#[test]
fn a_name_that_reads_as_nothing_and_a_quote_of_tomorrow_are_told() {
    let kits = "Kit;Machine;Line;Part no.;Quantity;Unit;Task\nKA;F1;10;A-1;1;piece;\n;F1;20;A-2;1;piece;\n";
    let prices = "Supplier;Part no.;Net price EUR;Lead time;Quote date\nNordlager;A-1;10;5 days;2027-03-01\n";
    let (job, planned) = planned(SETTINGS, &[("kits.csv", kits), ("prices.csv", prices)]);
    let said = said(&job, &planned);
    let has = |words: &str| said.iter().any(|said| said.contains(words));
    assert!(
        has("kit is missing; a kit line needs one, and `KA` is read as no value"),
        "{said:?}"
    );
    assert!(
        has(
            "prices.csv, row 2: quoted on 2027-03-01, after the moment of planning; its age is unknown"
        ),
        "{said:?}"
    );
}
