//! Machines that leave service: what is planned for them afterwards, what their kits still count for, what is bought once.

use super::small_shop::{Sheets, SmallShop};

/// The small shop whose only machine leaves service on a day, with rows of planned rebuilds.
fn until(day: &str, planned: &[&str]) -> Sheets {
    let shop = SmallShop::new().with(
        "machines.csv",
        "downtime cost EUR/h,criticality\nPress,1,200,A",
        &format!("downtime cost EUR/h,criticality,retired\nPress,1,200,A,{day}"),
    );
    if planned.is_empty() {
        return shop.report();
    }
    let rows: String = planned
        .iter()
        .map(|date| format!("Press head,Press,{date}\n"))
        .collect();
    shop.and("planned.csv", &format!("kit,machine,planned date\n{rows}"))
        .report()
}

/// Problems told of a file.
fn problems(sheets: &Sheets, file: &str) -> Vec<String> {
    let rows = sheets.rows("data_problems").iter();
    rows.filter(|row| row["file"] == file)
        .map(|row| row["problem"].as_str().unwrap().to_owned())
        .collect()
}

/// How many of a part are ordered.
fn ordered(sheets: &Sheets, number: &str) -> f64 {
    let rows = sheets.rows("order_now").iter();
    rows.filter(|row| row["number"] == number || row["buy"] == number)
        .filter_map(|row| row["quantity"].as_f64())
        .sum()
}

#[test]
fn a_rebuild_after_the_last_day_of_its_machine_is_told_and_left_out() {
    // Both days of the calendar: the rebuild lies 18 days behind the end, or 13 before it.
    let late = until("2026-12-31", &["2027-01-18"]);
    let told = problems(&late, "planned.csv");
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(
        told[0].starts_with(
            "planned for 2027-01-18, after machine `Press` leaves service on 2026-12-31"
        ),
        "{told:?}"
    );
    let none = until("2026-12-31", &[]);
    for number in ["A-1", "A-2"] {
        let (with, without) = (ordered(&late, number), ordered(&none, number));
        assert!(
            (with - without).abs() < 1e-9,
            "{number}: {with} and {without}"
        );
    }
    let in_time = until("2026-12-31", &["2026-12-18"]);
    assert_eq!(problems(&in_time, "planned.csv"), Vec::<String>::new());
}

#[test]
fn a_rebuild_told_twice_counts_once() {
    let once = until("2030-12-31", &["2027-01-18"]);
    let twice = until("2030-12-31", &["2027-01-18", "2027-01-18"]);
    assert_eq!(problems(&once, "planned.csv"), Vec::<String>::new());
    let told = problems(&twice, "planned.csv");
    assert!(
        told.len() == 1 && told[0].starts_with("planned for 2027-01-18, as in planned.csv, row 2"),
        "{told:?}"
    );
    for number in ["A-1", "A-2"] {
        let (first, both) = (ordered(&once, number), ordered(&twice, number));
        assert!((first - both).abs() < 1e-9, "{number}: {first} and {both}");
    }
    // Another day is another rebuild.
    let two = until("2030-12-31", &["2027-01-18", "2027-04-19"]);
    assert_eq!(problems(&two, "planned.csv"), Vec::<String>::new());
}

#[test]
fn a_kit_of_a_machine_that_left_service_is_told() {
    let gone = until("2025-12-31", &[]);
    let told = problems(&gone, "kit.csv");
    assert!(
        told.iter().any(|text| text
            .starts_with("machine `Press` of kit `Press head` left service on 2025-12-31")),
        "{told:?}"
    );
    // Nothing is kept or bought for it, and it is no downtime of the shop to act on.
    assert!(gone.fact("Lines to order now").abs() < 1e-9);
    let is_of_kit = |text: &String| text.contains("Press head");
    assert!(!gone.cover("actions").iter().any(is_of_kit));
    // On its last day a machine is still in service.
    let last_day = until("2026-11-26", &[]);
    let still = problems(&last_day, "kit.csv");
    assert!(
        !still.iter().any(|text| text.contains("left service")),
        "{still:?}"
    );
}

#[test]
fn what_is_bought_once_is_one_figure_on_every_sheet() {
    let sheets = until("2026-12-31", &[]);
    let rows = sheets.rows("last_buys");
    assert!(!rows.is_empty());
    for row in rows {
        let number = row["number"].as_str().unwrap();
        let buy = row["buy"].as_f64().unwrap();
        let ordered = ordered(&sheets, number);
        assert!(
            (buy - ordered).abs() < 1e-9,
            "{number}: {buy} and {ordered}"
        );
        assert!(row["wanted"].as_f64().unwrap() >= buy, "{number}");
        assert_eq!(row["until"], "2026-12-31", "{number}");
    }
}

#[test]
fn an_order_that_comes_when_nothing_uses_it_is_to_be_hurried_or_cancelled() {
    // Four drive bearings promised for June 2027, with none on the shelf. Common practice, no source.
    let sheets = |day: &str| {
        SmallShop::new()
            .with(
                "machines.csv",
                "downtime cost EUR/h,criticality\nPress,1,200,A",
                &format!("downtime cost EUR/h,criticality,retired\nPress,1,200,A,{day}"),
            )
            .with(
                "orders.csv",
                "B3,South,A-3,1,2026-10-01,2026-10-15,",
                "B3,North,A-1,4,2026-11-20,2027-06-01,",
            )
            .report()
    };
    let what_to_do = |day: &str| {
        let sheets = sheets(day);
        let row = sheets.row("chase", "number", "A-1");
        row["what_to_do"].as_str().unwrap_or_default().to_owned()
    };
    for (day, told) in [
        (
            "2025-12-31",
            "Cancel it: its last machine left service on 2025-12-31.",
        ),
        (
            "2026-12-31",
            "Hurry or cancel it: its last machine leaves service on 2026-12-31.",
        ),
        (
            "2030-12-31",
            "Hurry it: the shelf may run short before it comes.",
        ),
    ] {
        assert_eq!(what_to_do(day), told, "{day}");
    }
    // The stock levels do not count them either.
    let sheets = sheets("2026-12-31");
    let told = sheets.rows("levels").iter().any(|row| {
        let why = row["why"].as_str().unwrap_or_default();
        why.contains("on order and too late to be counted: 4, the first likely here on 2027-")
    });
    assert!(told, "{:?}", sheets.rows("levels"));
}
