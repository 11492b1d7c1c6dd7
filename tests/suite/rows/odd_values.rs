//! Quantities, days and lead times as people scribble them: read, unknown or told with their cell, and never another value.
//!
//! Readings: common practice, no source; day numbers are those of ECMA-376 part 1, 18.17.4.1.

use sparewright::record::{LeadUnit, QuotedLeadTime};

use super::{import, problems};

#[test]
fn a_quantity_is_read_or_told() {
    for (text, on_hand, is_told) in [
        ("10 pc", Some(10.0), false),
        ("1,5", Some(1.5), false),
        ("1\u{2009}000 Stk", Some(1000.0), false),
        // One or a thousand: nothing else in the list decides.
        ("1.000 Stk", None, true),
        ("5x", None, true),
        ("1 dz", None, true),
        ("1O", None, true),
        ("?", None, false),
    ] {
        let imported = import(
            "stock.csv",
            &format!("Part no;Bin;On hand\nB-1;A1;{text}\n"),
        );
        assert_eq!(imported.records.stock[0].on_hand, on_hand, "{text}");
        let said = problems(&imported);
        assert_eq!(said.len(), usize::from(is_told), "{text}: {said:?}");
        assert!(said.iter().all(|line| line.starts_with("C2: ")), "{said:?}");
    }
}

#[test]
fn a_day_is_read_or_told() {
    for (text, expected) in [
        ("9.3.26", Some("2026-03-09")),
        ("9. März 2026", Some("2026-03-09")),
        ("46090", Some("2026-03-09")),
        ("09/03/26", Some("2026-03-09")),
        // A usage is of one day.
        ("2026-W11", None),
        ("Q2/2026", None),
    ] {
        let imported = import(
            "usages.csv",
            &format!("Date;Part no;Quantity\n{text};B-1;1\n"),
        );
        let found = imported
            .records
            .usages
            .first()
            .map(|usage| usage.date.to_string());
        assert_eq!(found.as_deref(), expected, "{text}");
        let said = problems(&imported);
        assert_eq!(
            said.len(),
            usize::from(expected.is_none()),
            "{text}: {said:?}"
        );
    }
}

#[test]
fn a_lead_time_is_read_or_unknown_and_never_none_at_all() {
    let span = |least, most, unit| Some(QuotedLeadTime::Span { least, most, unit });
    for (text, expected) in [
        ("2 Wo", span(14.0, 14.0, LeadUnit::Days)),
        ("48h", span(48.0, 48.0, LeadUnit::Hours)),
        ("ab Lager", Some(QuotedLeadTime::InStock)),
        ("in stock", Some(QuotedLeadTime::InStock)),
        ("tbd", Some(QuotedLeadTime::OnRequest)),
        ("n.a.", None),
        ("?", None),
    ] {
        let imported = import(
            "prices.csv",
            &format!("Supplier;Part no;Price EUR;Lead time\nNord;B-1;4;{text}\n"),
        );
        assert_eq!(imported.records.offers[0].lead_time, expected, "{text}");
        assert_eq!(problems(&imported), [""; 0], "{text}");
    }
}
