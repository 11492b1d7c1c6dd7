//! Rows that stand twice under one name, and rows of a day that has not come or lies before the records.

use sparewright::catalogue::Shop;
use sparewright::interchange::AcceptedBecause;
use sparewright::job::Job;

use super::{SETTINGS, planned, said};

const KITS: &str = "Kit;Machine;Line;Part no.;Quantity;Unit;Task\n";

/// Everything said of some tables in place of those of the shop.
fn told(instead: &[(&str, &str)]) -> Vec<String> {
    let (job, planned) = planned(SETTINGS, instead);
    said(&job, &planned)
}

fn has(said: &[String], begin: &str, words: &str) {
    let is_it = |text: &String| text.starts_with(begin) && text.contains(words);
    assert!(
        said.iter().any(is_it),
        "`{begin}` ... `{words}` not in {said:#?}"
    );
}

/// Substitutes that a person approved, by the position of the line.
fn approved(kits: &str, approvals: &str) -> (Vec<Vec<String>>, Vec<String>) {
    let approvals = format!("Kit;Line;Substitute;Outcome;Approved by;Date\n{approvals}");
    let tables = [("kits.csv", kits), ("approvals.csv", &*approvals)];
    let (job, planned) = planned(SETTINGS, &tables);
    let name = |shop: &Shop, part| shop.catalogue.part(part).number.clone();
    let of_line = |line: &sparewright::interchange::LineAcceptance| {
        let accepted = line.accepted.iter();
        accepted
            .filter(|of| matches!(of.because, AcceptedBecause::ApprovedBy { .. }))
            .map(|of| name(&job.shop, of.part))
            .collect()
    };
    let lines = planned.acceptances.iter().map(of_line).collect();
    (lines, said(&job, &planned))
}

#[test]
fn two_lines_of_one_name_are_told_and_both_planned() {
    let kits = format!("{KITS}Fan;F1;20;A-1;1;piece;Fit\nFan;F1;20;A-2;1;piece;Fit\n");
    let (job, planned) = planned(SETTINGS, &[("kits.csv", &kits)]);
    has(
        &said(&job, &planned),
        "kits.csv, row 3: line `20` of kit `Fan` stands here and at kits.csv, row 2",
        "both are planned",
    );
    assert_eq!(planned.plan.kits[0].accepted.lines.len(), 2);
    // `1.1` and `11` are two lines, and so are lines of two kits.
    let kits = format!(
        "{KITS}Fan;F1;1.1;A-1;1;piece;\nFan;F1;11;A-2;1;piece;\nBlower;F1;11;A-2;1;piece;\n"
    );
    let said = told(&[("kits.csv", &kits)]);
    assert!(!said.iter().any(|text| text.contains("stands")), "{said:?}");
}

#[test]
fn an_approval_for_one_of_two_lines_of_a_name_holds_where_both_ask_for_the_same() {
    let approval = "Fan;20;6205 C3;approved;Ann Otter;2026-01-05\n";
    let two = |second: &str| {
        format!(
            "{KITS}Fan;F1;20;A-1;1;piece;\nFan;F1;20;{second};1;piece;\nFan;F1;30;A-1;1;piece;\n"
        )
    };
    let offers = "Supplier;Part no.;Designation;Net price EUR;Lead time\nNordlager;A-1;6205;10,00;5 days\nNordlager;;6205 C3;9,00;2 days\n";
    let of = |kits: &str, approvals: &str| {
        let approvals = format!("Kit;Line;Substitute;Outcome;Approved by;Date\n{approvals}");
        let tables = [
            ("kits.csv", kits),
            ("approvals.csv", &*approvals),
            ("prices.csv", offers),
        ];
        let (job, planned) = planned(SETTINGS, &tables);
        let of_line = |line: &sparewright::interchange::LineAcceptance| {
            let mut accepted = line.accepted.iter();
            accepted.any(|of| matches!(of.because, AcceptedBecause::ApprovedBy { .. }))
        };
        let lines: Vec<bool> = planned.acceptances.iter().map(of_line).collect();
        (lines, said(&job, &planned))
    };
    let (same, said) = of(&two("A-1"), approval);
    assert_eq!(same, [true, true, false], "{said:?}");
    let (other, said) = of(&two("A-2"), approval);
    assert_eq!(other, [false, false, false], "{said:?}");
    has(
        &said,
        "approvals.csv, row 2: kit `Fan` has line `20` more than once, at kits.csv, row 2 and at kits.csv, row 3",
        "the approval holds for none of them",
    );
    // That something did not fit is heeded on every line of the name.
    let refused = "Fan;20;6205 C3;did not fit;Ann Otter;2026-01-05\n";
    let (_, said) = of(&two("A-2"), refused);
    assert!(
        !said.iter().any(|text| text.contains("more than once")),
        "{said:?}"
    );
}

#[test]
fn a_way_for_one_of_two_lines_of_a_name_is_not_guessed() {
    let kits = format!("{KITS}Fan;F1;20;A-1;1;piece;\nFan;F1;20;A-2;1;piece;\n");
    let ways = "Part no.;Kit;Line;Way;Hours;Quantity;From\nA-1;Fan;20;other bin;2;1;Store 2\n";
    let said = told(&[("kits.csv", &kits), ("ways.csv", ways)]);
    has(&said, "ways.csv, row 2: ", "the way holds for none of them");
}

#[test]
fn a_way_of_one_kit_holds_for_its_lines_that_ask_for_the_part_and_for_no_other_kit() {
    let kits = format!(
        "{KITS}Fan;F1;20;A-1;1;piece;\nFan;F1;30;A-2;1;piece;\nBlower;F1;20;A-1;1;piece;\n"
    );
    let of = |kit: &str, line: &str| {
        let ways = format!(
            "Part no.;Kit;Line;Way;Hours;Quantity;From\nA-1;{kit};{line};other bin;2;1;Store 2\n"
        );
        let (job, planned) = planned(SETTINGS, &[("kits.csv", &kits), ("ways.csv", &ways)]);
        let lines = job.shop.kits.iter().flat_map(|kit| &kit.lines);
        let counts: Vec<usize> = lines.map(|line| line.other_ways.len()).collect();
        (counts, job.shop.other_ways.len(), said(&job, &planned))
    };
    let (lines, everywhere, _) = of("Fan", "");
    assert_eq!((&lines[..], everywhere), (&[1, 0, 0][..], 0));
    let (lines, everywhere, _) = of("", "");
    assert_eq!((&lines[..], everywhere), (&[0, 0, 0][..], 1));
    for (kit, line, words) in [
        ("Mill", "", "kit `Mill` has no lines in any table"),
        ("", "20", "line `20` is named without its kit"),
    ] {
        let (lines, everywhere, said) = of(kit, line);
        assert_eq!(
            (&lines[..], everywhere),
            (&[0, 0, 0][..], 0),
            "{kit} {line}"
        );
        has(&said, "ways.csv, row 2: ", words);
    }
    let ways = "Part no.;Kit;Way;Hours;Quantity;From\nA-2;Blower;other bin;2;1;Store 2\n";
    let said = told(&[("kits.csv", &kits), ("ways.csv", ways)]);
    has(
        &said,
        "ways.csv, row 2: ",
        "kit `Blower` has no line that asks for `A-2`",
    );
}

#[test]
fn a_task_that_stands_twice_is_planned_once_with_the_longer_hours() {
    let hours = |tasks: &str| {
        let tasks = format!("Kit;Task;Hours;Predecessor\n{tasks}");
        let (job, planned) = planned(SETTINGS, &[("tasks.csv", &tasks)]);
        let down = planned.plan.kits[0].accepted.running.clone().unwrap();
        (down.p50.work_h, down.p50.production_h, said(&job, &planned))
    };
    let (work, down, _) = hours("Fan;Strip;2;\nFan;Fit;3;Strip\n");
    for twice in [
        "Fan;Strip;2;\nFan;Fit;0;\nFan;Fit;3;Strip\n",
        "Fan;Strip;2;\nFan;Fit;3;Strip\nFan; fit ;0;Strip\n",
    ] {
        let (of_work, of_down, said) = hours(twice);
        assert!((of_work - work).abs() < 1e-9, "{of_work} {work}");
        assert!((of_down - down).abs() < 1e-9, "{of_down} {down}");
        has(
            &said,
            "tasks.csv, row 4: task `",
            "at tasks.csv, row 3: it is planned once, with the longer of them",
        );
    }
}

#[test]
fn an_approval_of_a_day_to_come_does_not_count_yet() {
    // 9 March 2026 is the moment of planning.
    let kits = format!("{KITS}Fan;F1;10;A-1;1;piece;\n");
    let line = |date: &str| format!("Fan;10;A-2;approved;Ann Otter;{date}\n");
    for (date, counts) in [
        ("2026-03-08", true),
        ("2026-03-09", true),
        ("2026-03-10", false),
        ("2030-01-01", false),
        ("", true),
    ] {
        let (lines, said) = approved(&kits, &line(date));
        assert_eq!(!lines[0].is_empty(), counts, "{date}: {said:?}");
        let begin = format!("approvals.csv, row 2: `A-2` is approved as of {date}");
        let is_told = said.iter().any(|text| text.starts_with(&begin));
        assert_eq!(is_told, !counts, "{date}: {said:?}");
    }
    // It overrules no refusal either, and a refusal of any day is heeded.
    let refused = |date: &str| format!("Fan;10;A-2;did not fit;Ann Otter;{date}\n");
    for (approved_on, refused_on) in [
        ("2030-01-01", "2026-01-05"),
        ("2026-01-05", "2026-02-05"),
        ("2026-01-05", "2030-01-01"),
    ] {
        let both = line(approved_on) + &refused(refused_on);
        let (lines, _) = approved(&kits, &both);
        assert!(lines[0].is_empty(), "{approved_on} {refused_on}: {lines:?}");
    }
    let (lines, _) = approved(&kits, &(refused("2026-01-05") + &line("2026-02-05")));
    assert_eq!(lines[0], ["A-2"]);
}

#[test]
fn usages_before_the_records_are_counted_in_one_message() {
    let usages = "date;part;quantity\n2020-03-03;A-1;1\n2019-09-03;A-1;1\n2018-10-03;A-2;1\n2025-10-03;A-1;1\n2025-11-03;A-2;1\n";
    let said = told(&[("usages.csv", usages)]);
    has(
        &said,
        "usages.csv, row 4: dated 2018-10-03, before the records begin on 2021-01-04",
        "so for 3 such usages in all",
    );
    let messages = said.iter().filter(|text| text.contains("records begin"));
    assert_eq!(messages.count(), 1, "{said:?}");
}

#[test]
fn a_machine_of_usages_or_parts_that_no_table_has_is_told_once() {
    let usages = "date;part;quantity;machine\n2025-03-03;A-1;1;F1\n2025-09-03;A-1;1;MX\n2025-10-03;A-2;1;mx\n";
    let parts = "Part no.;Designation;Unit;Machine\nA-1;6205;piece;F1\nA-2;6206;piece;M-Y\n";
    let said = told(&[("usages.csv", usages), ("parts.csv", parts)]);
    has(
        &said,
        "usages.csv, row 3: machine `MX` is in no machines table",
        "the other machines or the settings stand in",
    );
    has(&said, "parts.csv, row 3: machine `M-Y` is in no", "");
    let messages = said
        .iter()
        .filter(|text| text.contains("no machines table"));
    assert_eq!(messages.count(), 2, "{said:?}");
}

#[test]
fn stock_counted_on_a_day_to_come_is_told_once_a_sheet_and_has_no_age() {
    let stock =
        "Part no.;On hand;Unit;Counted on\nA-1;2;piece;2026-03-10\nA-2;1;piece;2026-04-10\n";
    let (job, planned) = planned(SETTINGS, &[("stock.csv", stock)]);
    assert_eq!(
        said(&job, &planned),
        [
            "stock.csv, row 2: counted on 2026-03-10, after the moment of planning; it counts as it stands, its age unknown, and so for 2 such rows in all"
        ]
    );
    // It is stock all the same.
    assert!(
        planned.plan.kits[0]
            .accepted
            .lines
            .iter()
            .all(|line| line.short <= 0.0)
    );
    let report = job.report(&planned);
    let ages = &report.cover.data_ages;
    let of_stock = ages.iter().find(|age| age.file == "stock.csv").unwrap();
    assert_eq!(of_stock.age_days, None);
    assert_eq!(of_stock.in_words(), "unknown");
}

#[test]
fn with_a_moment_of_planning_on_the_line_alone_a_list_of_a_day_to_come_is_not_the_newest() {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in [
        ("parts.csv", "Part no.;Designation;Unit\nA-1;6205;piece\n"),
        ("suppliers.csv", "Supplier;Approved\nNordlager;yes\n"),
        (
            "prices.csv",
            "Supplier;Part no.;Net price EUR;Lead time;Quote date\nNordlager;A-1;10,00;5 days;2026-02-02\n",
        ),
        (
            "prices_next.csv",
            "Supplier;Part no.;Net price EUR;Lead time;Quote date\nNordlager;A-1;12,00;5 days;2026-05-04\n",
        ),
    ] {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    let held = |as_of: &str| {
        let as_of = sparewright::record::read_moment(as_of);
        let job = Job::read(folder.path(), as_of).unwrap();
        let planned = job.plan().unwrap();
        let files = job.shop.offers.iter();
        let mut files: Vec<String> = files.map(|of| of.record.place.file.to_string()).collect();
        files.sort();
        (files, said(&job, &planned))
    };
    let (files, told) = held("2026-03-09 07:30");
    assert_eq!(files, ["prices.csv", "prices_next.csv"], "{told:?}");
    has(
        &told,
        "prices_next.csv, row 2: quoted on 2026-05-04, after the moment of planning",
        "it may not be valid yet",
    );
    // Once its day has come it is the newest.
    let (files, told) = held("2026-05-05 07:30");
    assert_eq!(files, ["prices_next.csv"], "{told:?}");
    assert!(
        !told
            .iter()
            .any(|text| text.contains("after the moment of planning")),
        "{told:?}"
    );
}
