//! Quantities, days and names of stock, usages, receipts, kits, tasks and machines: what is taken, doubted and rejected.

use sparewright::import::Severity;

use super::{import, problems};

/// Rows taken, rows rejected, and the problems said.
fn outcome(name: &str, text: &str) -> (usize, usize, Vec<String>) {
    let imported = import(name, text);
    let rows = imported.tables[0].rows;
    (
        rows.read - rows.rejected,
        rows.rejected,
        problems(&imported),
    )
}

#[test]
fn a_usage_needs_part_day_and_quantity_and_a_return_is_negative() {
    let header = "Date;Part no;Quantity;Machine;Reason";
    for (row, is_taken, problem) in [
        ("2026-03-02;B-1;1;M1;failure", true, None),
        ("2026-03-02;B-1;-1;M1;failure", true, None),
        ("2026-03-02;B-1;1,5;M1;failure", true, None),
        ("2026-03-02;B-1;4 pcs;M1;failure", true, None),
        ("2026-03-02;B-1;(2);M1;failure", true, None),
        ("2026-03-02;B-1;1;;", true, None),
        (
            "2026-03-02;B-1;1;M1;magic",
            true,
            Some("E2: `magic` is not known; expected failure, planned or rebuild"),
        ),
        (
            ";B-1;1;M1;failure",
            false,
            Some("A2: date is missing; a usage needs one"),
        ),
        (
            "2026-02-30;B-1;1;M1;failure",
            false,
            Some(
                "A2: `2026-02-30` is not a date; expected one such as `2026-03-09` or `9 March 2026`",
            ),
        ),
        (
            "2026-03-02;;1;M1;failure",
            false,
            Some("B2: part number is missing; a usage needs one"),
        ),
        (
            "2026-03-02;B-1;;M1;failure",
            false,
            Some("C2: quantity is missing; a usage needs one"),
        ),
        (
            "2026-03-02;B-1;?;M1;failure",
            false,
            Some("C2: quantity is missing; a usage needs one, and `?` is read as no value"),
        ),
        (
            "2026-03-02;B-1;some;M1;failure",
            false,
            Some("C2: `some` is not a number"),
        ),
    ] {
        let (taken, rejected, said) = outcome("usages.csv", &format!("{header}\n{row}\n"));
        assert_eq!(
            (taken, rejected),
            if is_taken { (1, 0) } else { (0, 1) },
            "{row}: {said:?}"
        );
        assert_eq!(said, Vec::from_iter(problem.map(str::to_owned)), "{row}");
    }
}

#[test]
fn stock_below_zero_is_no_stock_and_an_unknown_figure_is_not_zero() {
    let header = "Part no;Bin;On hand;Reserved;On order;Due date;Unit";
    for (row, on_hand, reserved, problem) in [
        ("B-1;A1;5;1;10;2026-04-01;pcs", Some(5.0), Some(1.0), None),
        ("B-1;A1;0;0;0;;", Some(0.0), Some(0.0), None),
        ("B-1;A1;2,5;;;;m", Some(2.5), None, None),
        ("B-1;A1;;;;;", None, None, None),
        ("B-1;A1;-;-;-;-;-", None, None, None),
        ("B-1;A1;n/a;;;;", None, None, None),
        (
            "B-1;A1;-3;;;;",
            None,
            None,
            Some("C2: `-3` is out of range; expected 0 or more"),
        ),
        (
            "B-1;A1;3-;;;;",
            None,
            None,
            Some("C2: `-3` is out of range; expected 0 or more"),
        ),
        (
            "B-1;A1;(3;;;;",
            None,
            None,
            Some("C2: `(3` is not a number"),
        ),
        (
            "B-1;A1;5;-1;;;",
            Some(5.0),
            None,
            Some("D2: `-1` is out of range; expected 0 or more"),
        ),
        (
            "B-1;A1;many;;;;",
            None,
            None,
            Some("C2: `many` is not a number"),
        ),
        (
            "B-1;A1;5;;;soon;",
            Some(5.0),
            None,
            Some("F2: `soon` is not a date; expected one such as `2026-03-09` or `9 March 2026`"),
        ),
        // How many a box holds may stand in the offers of the part.
        ("B-1;A1;5;;;;box", Some(5.0), None, None),
        ("B-1;A1;5 boxes;;;;", Some(5.0), None, None),
        (
            "B-1;A1;5;;;;1 set",
            None,
            None,
            Some(
                "G2: `1 set` is not a unit of count; expected piece, pair, set of 2, pack of 10 or metre",
            ),
        ),
        (
            "B-1;A1;#N/A;;;;",
            None,
            None,
            Some("C2: the cell shows the error #N/A; expected a value"),
        ),
    ] {
        let imported = import("stock.csv", &format!("{header}\n{row}\n"));
        let stock = &imported.records.stock[0];
        assert_eq!(
            (stock.on_hand, stock.reserved),
            (on_hand, reserved),
            "{row}"
        );
        assert_eq!(
            problems(&imported),
            Vec::from_iter(problem.map(str::to_owned)),
            "{row}"
        );
    }
}

#[test]
fn a_receipt_is_never_before_its_order() {
    let header = "Supplier;Part no;Ordered;Promised;Received;Quantity";
    for (row, is_taken, problem) in [
        ("Nord;B-1;2026-02-02;2026-02-20;2026-02-19;10", true, None),
        ("Nord;B-1;2026-02-02;;;10", true, None),
        ("Nord;B-1;2026-02-02;2026-02-20;2026-02-02;10", true, None),
        ("Nord;B-1;2026-02-02;2026-02-01;2026-02-19;10", true, None),
        (
            "Nord;B-1;2026-02-02;;2026-02-01;10",
            false,
            Some(
                "E2: received on 2026-02-01, ordered on 2026-02-02 is out of range; expected a receipt on or after the order",
            ),
        ),
        (
            "Nord;B-1;;2026-02-20;2026-02-19;10",
            false,
            Some("C2: order date is missing; a receipt needs one"),
        ),
        (
            ";B-1;2026-02-02;;;10",
            false,
            Some("A2: supplier is missing; a receipt needs one"),
        ),
        (
            "Nord;;2026-02-02;;;10",
            false,
            Some("B2: part number is missing; a receipt needs one"),
        ),
        (
            "Nord;B-1;2026-02-02;;;0",
            true,
            Some("F2: `0` is out of range; expected more than 0"),
        ),
        (
            "Nord;B-1;2026-02-02;;;-2",
            true,
            Some("F2: `-2` is out of range; expected more than 0"),
        ),
    ] {
        let (taken, rejected, said) = outcome("receipts.csv", &format!("{header}\n{row}\n"));
        assert_eq!(
            (taken, rejected),
            if is_taken { (1, 0) } else { (0, 1) },
            "{row}: {said:?}"
        );
        match problem {
            None => assert_eq!(said, [""; 0], "{row}"),
            // What a field is called is the matter of `import/field.rs`.
            Some(problem) => {
                assert_eq!(said.len(), 1, "{row}: {said:?}");
                let (cell, words) = problem.split_once(": ").unwrap();
                assert!(said[0].starts_with(cell), "{row}: {said:?}");
                let end = words.rsplit("; ").next().unwrap();
                assert!(said[0].ends_with(end), "{row}: {said:?}");
            }
        }
    }
}

#[test]
fn a_kit_line_takes_more_than_nothing_and_closes_to_substitutes_where_in_doubt() {
    let header = "Kit;Line;Part no;Quantity;Unit;No substitutes";
    for (row, is_taken, no_substitutes, quantity) in [
        ("Pump;10;B-1;2;pcs;", true, false, Some(2.0)),
        ("Pump;10;B-1;2;pcs;no", true, false, Some(2.0)),
        ("Pump;10;B-1;2;pcs;yes", true, true, Some(2.0)),
        ("Pump;10;B-1;2;pcs;x", true, true, Some(2.0)),
        ("Pump;10;B-1;2;pcs;maybe", true, true, Some(2.0)),
        ("Pump;10;B-1;0,5;m;", true, false, Some(0.5)),
        ("Pump;10;B-1;2;;", true, false, Some(2.0)),
        // The rebuild does without it.
        ("Pump;10;B-1;0;pcs;", false, false, None),
        // A line whose number cannot be read is a line all the same: the kit is not complete without it.
        ("Pump;10;B-1;-1;pcs;", true, false, None),
        ("Pump;10;B-1;;pcs;", true, false, None),
        ("Pump;10;B-1;two;pcs;", true, false, None),
        ("Pump;10;B-1;#N/A;pcs;", true, false, None),
        // Two of a unit that nobody reads are not two pieces.
        ("Pump;10;B-1;2;set;", true, false, None),
        ("Pump;10;B-1;2;Satz;", true, false, None),
        ("Pump;10;B-1;2;box;", true, false, None),
        ("Pump;10;B-1;2;kg;", true, false, None),
        ("Pump;10;B-1;2;set of 2;", true, false, Some(2.0)),
        (";10;B-1;2;pcs;", false, false, None),
        ("Pump;;B-1;2;pcs;", true, false, Some(2.0)),
        ("Pump;20;;2;pcs;", true, false, Some(2.0)),
        // Something belongs there, whatever it may be: the kit is not complete without it.
        ("Pump;;;2;pcs;", true, false, Some(2.0)),
        ("Pump;;-;2;pcs;", true, false, Some(2.0)),
        ("Pump;;;;;yes", true, true, None),
        ("Pump;-;-;;;-", false, false, None),
    ] {
        let imported = import("kits.csv", &format!("{header}\n{row}\n"));
        let lines = &imported.records.kit_lines;
        assert_eq!(
            lines.len(),
            usize::from(is_taken),
            "{row}: {:?}",
            problems(&imported)
        );
        assert_eq!(imported.rows_rejected, usize::from(!is_taken), "{row}");
        if let Some(line) = lines.first() {
            assert_eq!(line.no_substitutes, no_substitutes, "{row}");
            assert_eq!(line.quantity, quantity, "{row}");
            let is_told = imported
                .issues
                .iter()
                .any(|issue| issue.severity == Severity::Doubtful);
            assert!(quantity.is_some() || is_told, "{row}");
        }
    }
    // A line without a name is known by its row.
    let imported = import("kits.csv", &format!("{header}\nPump;;B-1;2;pcs;\n"));
    assert_eq!(imported.records.kit_lines[0].line, "row 2");
    // One without a part too, and its cell is told.
    for (row, told) in [
        (
            "Pump;;;2;pcs;",
            "C2: part number is missing; a kit line needs one",
        ),
        (
            "Pump;;?;2;pcs;",
            "C2: part number is missing; a kit line needs one, and `?` is read as no value",
        ),
    ] {
        let imported = import("kits.csv", &format!("{header}\n{row}\n"));
        assert_eq!(imported.records.kit_lines[0].line, "row 2", "{row}");
        assert_eq!(problems(&imported), [told], "{row}");
    }
}

#[test]
fn a_task_takes_hours_and_names_what_comes_before() {
    let header = "Kit;Task;Hours;After";
    for (row, hours, after) in [
        ("Pump;Fit;1,5;", Some(1.5), &[][..]),
        ("Pump;Fit;0;", Some(0.0), &[]),
        ("Pump;Fit;2;Strip", Some(2.0), &["Strip"]),
        ("Pump;Fit;2;Strip, Clean", Some(2.0), &["Strip", "Clean"]),
        (
            "Pump;Fit;2;Strip|Clean | Check",
            Some(2.0),
            &["Strip", "Clean", "Check"],
        ),
        (
            "Pump;Fit;2;\"Strip; Clean\"",
            Some(2.0),
            &["Strip", "Clean"],
        ),
        ("Pump;Fit;10000;", Some(10_000.0), &[]),
        ("Pump;Fit;10001;", None, &[]),
        ("Pump;Fit;-1;", None, &[]),
        ("Pump;Fit;;", None, &[]),
        ("Pump;Fit;all day;", None, &[]),
        ("Pump;;2;", None, &[]),
        (";Fit;2;", None, &[]),
    ] {
        let imported = import("tasks.csv", &format!("{header}\n{row}\nPump;Close;1;Fit\n"));
        let task = imported
            .records
            .tasks
            .iter()
            .find(|task| task.place.row == 1);
        assert_eq!(
            task.map(|task| task.hours),
            hours,
            "{row}: {:?}",
            problems(&imported)
        );
        if let Some(task) = task {
            assert_eq!(task.predecessors, after, "{row}");
        }
        assert_eq!(
            imported.rows_rejected,
            usize::from(hours.is_none()),
            "{row}"
        );
    }
}

#[test]
fn a_machine_is_known_by_its_name_and_its_figures_are_above_nothing() {
    let header =
        "Machine;Downtime cost per hour EUR;Installed;In use until;Running hours;Criticality";
    for (row, cost, installed, problem) in [
        (
            "P-1;120;2;2027-12-31;8000;A",
            Some("120.00 EUR"),
            Some(2.0),
            None,
        ),
        ("P-1;120,50 CHF;2;;;", Some("120.50 CHF"), Some(2.0), None),
        ("P-1;0;1;;;", Some("0.00 EUR"), Some(1.0), None),
        ("P-1;;;;;", None, None, None),
        ("P-1;-5;1;;;", None, Some(1.0), Some("B2")),
        ("P-1;120;0;;;", Some("120.00 EUR"), None, Some("C2")),
        ("P-1;120;-1;;;", Some("120.00 EUR"), None, Some("C2")),
        (
            "P-1;120;1;never;;",
            Some("120.00 EUR"),
            Some(1.0),
            Some("D2"),
        ),
        ("P-1;120;1;;-3;", Some("120.00 EUR"), Some(1.0), Some("E2")),
        ("P-1;a lot;1;;;", None, Some(1.0), Some("B2")),
    ] {
        let imported = import("machines.csv", &format!("{header}\n{row}\nP-2;80;1;;;B\n"));
        let machine = &imported.records.machines[0];
        let found = machine.downtime_cost_per_hour.map(|cost| cost.to_string());
        assert_eq!(found.as_deref(), cost, "{row}");
        assert_eq!(machine.installed, installed, "{row}");
        let said = problems(&imported);
        assert_eq!(
            said.len(),
            usize::from(problem.is_some()),
            "{row}: {said:?}"
        );
        if let Some(cell) = problem {
            assert!(said[0].starts_with(cell), "{row}: {said:?}");
        }
    }
}

#[test]
fn approvals_need_kit_line_substitute_outcome_and_a_name() {
    let header = "Kit;Line;Substitute;Outcome;Approved by;Date";
    for (row, is_taken) in [
        ("Pump;10;B-2;approved;Edda;2026-01-05", true),
        ("Pump;10;B-2;approved;Edda;", true),
        ("Pump;10;B-2;did not fit;Edda;2026-01-05", true),
        ("Pump;10;B-2;approved;;2026-01-05", false),
        ("Pump;10;B-2;approved;-;2026-01-05", false),
        ("Pump;10;B-2;;Edda;2026-01-05", false),
        ("Pump;10;B-2;trial;Edda;2026-01-05", false),
        ("Pump;10;B-2;approved if it fits;Edda;2026-01-05", false),
        ("Pump;10;;approved;Edda;2026-01-05", false),
        ("Pump;;B-2;approved;Edda;2026-01-05", false),
        (";10;B-2;approved;Edda;2026-01-05", false),
    ] {
        let imported = import(
            "approvals.csv",
            &format!("{header}\n{row}\nPump;20;B-3;approved;Edda;2026-01-05\n"),
        );
        let is_there = imported
            .records
            .approvals
            .iter()
            .any(|approval| approval.place.row == 1);
        assert_eq!(is_there, is_taken, "{row}: {:?}", problems(&imported));
        assert_eq!(imported.rows_rejected, usize::from(!is_taken), "{row}");
    }
}

#[test]
fn a_week_or_quarter_of_delivery_is_its_last_day_and_one_of_a_rebuild_its_first() {
    // Days by `date.fromisocalendar` of Python's standard library: week 12 of 2026 is 16 to 20 March.
    let header = "Supplier;Part no;Ordered;Promised;Received;Quantity";
    for (promised, day) in [
        ("KW 12/2026", Some("2026-03-20")),
        ("2026-W12", Some("2026-03-20")),
        ("12. KW 2026", Some("2026-03-20")),
        ("Q2 2026", Some("2026-06-30")),
        ("20.03.26", Some("2026-03-20")),
        // The next after the order; the first of 2027 is too far ahead to be sure.
        ("KW 12", Some("2026-03-20")),
        ("KW 1", None),
        ("spring", None),
    ] {
        let row = format!("North;B-1;2026-01-05;{promised};;2");
        let imported = import("receipts.csv", &format!("{header}\n{row}\n"));
        let receipt = &imported.records.receipts[0];
        let found = receipt.promised.map(|day| day.to_string());
        assert_eq!(found.as_deref(), day, "{promised}");
        assert_eq!(
            problems(&imported).len(),
            usize::from(day.is_none()),
            "{promised}"
        );
    }
    for (planned, day) in [
        ("KW 12/2026", "2026-03-16"),
        ("Q2 2026", "2026-04-01"),
        ("16.03.2026", "2026-03-16"),
    ] {
        let text = format!("Kit;Machine;Date\nPump;M1;{planned}\n");
        let imported = import("planned.csv", &text);
        let found = imported.records.planned_rebuilds[0].date.to_string();
        assert_eq!(found, day, "{planned}");
    }
}
