//! Suppliers: times of day, counter hours, classes they are approved for, freight and hours on the way.

use sparewright::part::PartClass::{self, Bearings, Fasteners, Other, Seals};
use sparewright::record::SupplierRecord;

use super::{import, problems};

fn supplier(header: &str, cell: &str) -> (SupplierRecord, Vec<String>) {
    let imported = import(
        "suppliers.csv",
        &format!("Supplier;Approved;{header}\nNordlager;yes;{cell}\n"),
    );
    let said = problems(&imported);
    assert_eq!(
        imported.records.suppliers.len(),
        1,
        "{header} {cell}: {said:?}"
    );
    (imported.records.suppliers[0].clone(), said)
}

#[test]
fn an_order_cut_off_is_a_time_of_day_in_any_form() {
    for (text, expected) in [
        ("14:30", Some("14:30:00")),
        ("14:30:00", Some("14:30:00")),
        ("14.30", Some("14:30:00")),
        ("14h30", Some("14:30:00")),
        ("14h", Some("14:00:00")),
        ("14 Uhr", Some("14:00:00")),
        ("14.30 Uhr", Some("14:30:00")),
        ("2 pm", Some("14:00:00")),
        ("2:30 PM", Some("14:30:00")),
        ("2:30 p.m.", Some("14:30:00")),
        ("9 am", Some("09:00:00")),
        ("9:15 a.m.", Some("09:15:00")),
        ("12 pm", Some("12:00:00")),
        ("12 am", Some("00:00:00")),
        ("07:00", Some("07:00:00")),
        ("0:00", Some("00:00:00")),
        ("23:59", Some("23:59:00")),
        ("24:00", None),
        ("14:60", None),
        ("25", None),
        ("13 pm", None),
        ("0 pm", None),
        ("13 am", None),
        ("noon", None),
        ("14:30 sharp", None),
        ("-2:00", None),
        ("14:xx", None),
    ] {
        let (found, said) = supplier("Order cut-off", text);
        let cutoff = found.order_cutoff.map(|time| time.to_string());
        assert_eq!(cutoff.as_deref(), expected, "{text}");
        if expected.is_none() {
            assert_eq!(
                said,
                [format!(
                    "C2: `{text}` is not known; expected a time of day such as `14:30`"
                )]
            );
        } else {
            assert_eq!(said, [""; 0], "{text}");
        }
    }
}

#[test]
fn counter_hours_open_before_they_close() {
    for (text, expected) in [
        ("07:00-16:00", Some(("07:00:00", "16:00:00"))),
        ("7-16", Some(("07:00:00", "16:00:00"))),
        ("07:00 – 16:30", Some(("07:00:00", "16:30:00"))),
        ("7 am to 4 pm", Some(("07:00:00", "16:00:00"))),
        ("7 bis 16 Uhr", Some(("07:00:00", "16:00:00"))),
        ("7h30-17h", Some(("07:30:00", "17:00:00"))),
        ("16:00-07:00", None),
        ("07:00-07:00", None),
        ("07:00", None),
        ("always", None),
        ("07:00-24:30", None),
    ] {
        let (found, said) = supplier("Counter hours", text);
        let hours = found
            .counter_hours
            .map(|(from, until)| (from.to_string(), until.to_string()));
        let hours = hours
            .as_ref()
            .map(|(from, until)| (from.as_str(), until.as_str()));
        assert_eq!(hours, expected, "{text}");
        if expected.is_none() {
            assert_eq!(
                said,
                [format!(
                    "C2: `{text}` is not known; expected opening hours such as `07:00-16:00`"
                )]
            );
        }
    }
}

#[test]
fn a_class_that_cannot_be_read_is_never_an_approval_for_all() {
    const ALL: [PartClass; 4] = [Bearings, Seals, Fasteners, Other];
    for (text, classes, is_approved) in [
        ("", &[][..], Some(true)),
        ("bearings", &[Bearings], Some(true)),
        ("bearings, seals", &[Bearings, Seals], Some(true)),
        ("Seals; bearings", &[Seals, Bearings], Some(true)),
        ("Lager/Dichtungen", &[Bearings, Seals], Some(true)),
        ("bearings + seals & fasteners", &ALL[..3], Some(true)),
        ("bearings, bearings", &[Bearings], Some(true)),
        ("all", &ALL, Some(true)),
        ("alle", &ALL, Some(true)),
        ("roulements", &[Bearings], Some(true)),
        ("rodamientos, retenes", &[Bearings, Seals], Some(true)),
        ("guarnizioni", &[Seals], Some(true)),
        ("łożyska", &[Bearings], Some(true)),
        ("Normteile", &[Fasteners], Some(true)),
        ("sonstiges", &[Other], Some(true)),
        ("bearings, gaskets", &[Bearings], Some(true)),
        ("gaskets", &[], None),
        ("belts and chains", &[], None),
    ] {
        let imported = import(
            "suppliers.csv",
            &format!("Supplier;Approved;Approved for\nNordlager;yes;\"{text}\"\n"),
        );
        let found = &imported.records.suppliers[0];
        assert_eq!(found.approved_classes, classes, "{text}");
        assert_eq!(found.is_approved, is_approved, "{text}");
        for class in ALL {
            let expected = match (is_approved, classes.is_empty()) {
                (None, _) => None,
                (Some(_), true) => Some(true),
                (Some(_), false) => Some(classes.contains(&class)),
            };
            assert_eq!(
                found.is_approved_for(class),
                expected,
                "{text} for {class:?}"
            );
        }
    }
}

#[test]
fn an_approval_is_yes_or_no_or_unknown() {
    for (text, expected, is_said) in [
        ("yes", Some(true), false),
        ("ja", Some(true), false),
        ("x", Some(true), false),
        ("freigegeben", Some(true), false),
        ("no", Some(false), false),
        ("gesperrt", Some(false), false),
        ("not approved", Some(false), false),
        ("", None, false),
        ("?", None, false),
        ("pending", None, true),
        ("yes, until June", None, true),
    ] {
        let imported = import(
            "suppliers.csv",
            &format!("Supplier;Approved;Freight EUR\nNordlager;\"{text}\";9,50\n"),
        );
        assert_eq!(
            imported.records.suppliers[0].is_approved, expected,
            "{text}"
        );
        assert_eq!(!imported.issues.is_empty(), is_said, "{text}");
    }
}

#[test]
fn freight_courier_and_hours_on_the_way_are_read_or_said() {
    for (header, cell, is_read, problem) in [
        ("Freight EUR", "9,50", true, None),
        ("Freight EUR", "0", true, None),
        ("Freight", "9,50 CHF", true, None),
        (
            "Freight EUR",
            "-9,50",
            false,
            Some("C2: `-9.5` is out of range; expected 0 or more"),
        ),
        (
            "Freight EUR",
            "free",
            false,
            Some("C2: `free` is not a price"),
        ),
        ("Freight EUR", "", false, None),
        ("Courier EUR", "48", true, None),
        ("Freight free from EUR", "150", true, None),
        ("Collection hours", "1,5", true, None),
        ("Collection hours", "1,5 h", true, None),
        (
            "Collection hours",
            "-1",
            false,
            Some("C2: `-1` is out of range; expected 0 or more"),
        ),
        ("Courier hours", "3", true, None),
        (
            "Courier hours",
            "soon",
            false,
            Some("C2: `soon` is not a number"),
        ),
    ] {
        let (found, said) = supplier(header, cell);
        let values = [
            found.freight.is_some(),
            found.courier_cost.is_some(),
            found.freight_free_from.is_some(),
            found.collection_h.is_some(),
            found.courier_h.is_some(),
        ];
        assert_eq!(
            values.contains(&true),
            is_read,
            "{header}: {cell}: {found:?}"
        );
        match problem {
            None => assert_eq!(said, [""; 0], "{header}: {cell}"),
            Some(problem) => assert!(
                said.len() == 1 && said[0].starts_with(problem),
                "{header}: {said:?}"
            ),
        }
    }
}

#[test]
fn half_of_what_means_something_together_is_told() {
    for (header, cells, told) in [
        ("Courier EUR;Courier hours", "48;3", None),
        ("Courier EUR;Courier hours", ";", None),
        (
            "Courier EUR;Courier hours",
            "48;",
            Some("D2: courier hours is missing; a courier needs one"),
        ),
        (
            "Courier EUR;Courier hours",
            ";3",
            Some("C2: courier cost is missing; a courier needs one"),
        ),
        ("Counter opens;Counter closes", "07:00;16:00", None),
        (
            "Counter opens;Counter closes",
            "07:00;",
            Some("D2: counter closes is missing; a counter with opening hours needs one"),
        ),
        (
            "Counter opens;Counter closes",
            "?;16:00",
            Some(
                "C2: counter opens is missing; a counter with opening hours needs one, and `?` is read as no value",
            ),
        ),
        // What is there and cannot be read is told once.
        (
            "Courier EUR;Courier hours",
            "48;soon",
            Some("D2: `soon` is not a number"),
        ),
    ] {
        let (_, said) = supplier(header, cells);
        match told {
            None => assert_eq!(said, [""; 0], "{header}: {cells}"),
            Some(words) => {
                assert_eq!(said.len(), 1, "{header}: {cells}: {said:?}");
                assert!(said[0].starts_with(words), "{header}: {cells}: {said:?}");
            }
        }
    }
    let header = "Art no;Designation;Price EUR;Rush lead time;Rush surcharge EUR";
    for (cells, told) in [
        ("1 day;90", None),
        // Unknown, and told where it is planned with.
        ("1 day;", None),
        (
            ";90",
            Some("D2: expedite lead time is missing; a faster delivery needs one"),
        ),
    ] {
        let imported = import(
            "nordlager.csv",
            &format!("{header}\nN1;6305;4,00;{cells}\n"),
        );
        let said = problems(&imported);
        assert_eq!(said, Vec::from_iter(told), "{cells}");
    }
}

#[test]
fn a_way_that_a_column_refuses_is_none() {
    let header = "Part no;Way;Hours;Cost EUR;From;Approved;Approved by";
    for (cell, is_taken) in [("yes", true), ("", true), ("no", false), ("nein", false)] {
        let row = format!("A1;repair outside;96;260;chroming;{cell};Edda");
        let imported = import("ways.csv", &format!("{header}\n{row}\n"));
        assert_eq!(
            imported.records.other_ways.len(),
            usize::from(is_taken),
            "{cell}"
        );
        let told =
            format!("F2: `{cell}` says that this way is not approved, and it is not planned with");
        assert_eq!(problems(&imported).contains(&told), !is_taken, "{cell}");
    }
}
