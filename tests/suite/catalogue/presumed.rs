//! What is presumed of a shop that says nothing of itself: only what its own tables bear out, and each of it told.

use chrono::TimeDelta;
use sparewright::catalogue::{Presumption, Shop};
use sparewright::record::{
    KitLine, MachineRecord, OfferRecord, Records, ShopSettings, SupplierRecord, UsageRecord,
};
use sparewright::units::{Currency, Price};

use crate::sample::{kit_line, monday, offer, part, place};

fn with(records: Records, toml: &str) -> Shop {
    Shop::new(records, ShopSettings::from_toml(toml).unwrap(), monday())
}

fn usages(days_ago: &[i64]) -> Records {
    let usage = |days: &i64| UsageRecord {
        date: monday().date() - TimeDelta::days(*days),
        part: "A".into(),
        quantity: 1.0,
        counted_in: None,
        machine: None,
        reason: None,
        place: place(*days as u32),
    };
    Records {
        parts: vec![part("A", "6205")],
        usages: days_ago.iter().map(usage).collect(),
        ..Records::default()
    }
}

#[test]
fn records_begin_with_the_first_of_five_usages_half_a_year_back() {
    for (days_ago, toml, expected_days) in [
        (&[400, 300, 200, 100, 50][..], "", Some(400)),
        (&[50, 100, 200, 300, 400], "", Some(400)),
        (&[180, 150, 120, 90, 60], "", Some(180)),
        (&[179, 150, 120, 90, 60], "", None),
        (&[400, 300, 200, 100], "", None),
        (&[400, 300, 200, 100, -10], "", None),
        (&[400, 300, 200, 100, 50, -10], "", Some(400)),
        (&[400, 400, 400, 400, 400], "", Some(400)),
        (&[], "", None),
        // What the settings say holds.
        (
            &[400, 300, 200, 100, 50],
            "records_from = \"2026-01-05\"\n",
            None,
        ),
    ] {
        let shop = with(usages(days_ago), toml);
        let expected = expected_days.map(|days| monday().date() - TimeDelta::days(days));
        let found = shop.presumed.iter().find_map(|presumed| match presumed {
            Presumption::RecordsFrom { on, usages } => Some((*on, *usages)),
            _ => None,
        });
        let past = days_ago.iter().filter(|days| **days >= 0).count();
        assert_eq!(found, expected.map(|on| (on, past)), "{days_ago:?}");
        if !toml.is_empty() {
            assert_eq!(
                shop.settings.records_from.unwrap().to_string(),
                "2026-01-05"
            );
        } else {
            assert_eq!(shop.settings.records_from, expected, "{days_ago:?}");
        }
    }
}

fn priced(code: &str) -> OfferRecord {
    let mut offer = offer("East", "6205", 8.0, None);
    offer.price = Price::from_units(8.0, 1, Currency::new(code).unwrap()).ok();
    offer
}

#[test]
fn the_currency_is_that_of_all_tables_or_the_euro() {
    for (codes, toml, expected, is_told) in [
        (&["USD"][..], "", "USD", true),
        (&["USD", "USD"], "", "USD", true),
        (&["EUR"], "", "EUR", false),
        (&["USD", "CHF"], "", "EUR", false),
        (&["USD", "EUR"], "", "EUR", false),
        (&[], "", "EUR", false),
        (&["USD"], "currency = \"EUR\"\n", "EUR", false),
        (&["USD"], "currency = \"CHF\"\n", "CHF", false),
        (&["USD"], "[exchange_rates]\nUSD = 0.92\n", "EUR", false),
    ] {
        let records = Records {
            offers: codes.iter().map(|code| priced(code)).collect(),
            ..Records::default()
        };
        let shop = with(records, toml);
        assert_eq!(shop.settings.currency.code(), expected, "{codes:?} {toml}");
        let found = shop
            .presumed
            .iter()
            .any(|presumed| matches!(presumed, Presumption::Currency { .. }));
        assert_eq!(found, is_told, "{codes:?} {toml}");
    }
}

#[test]
fn a_kit_is_for_the_machine_whose_name_begins_its_own() {
    let machine = |name: &str| MachineRecord {
        machine: name.to_owned(),
        description: None,
        downtime_cost_per_hour: None,
        installed: Some(1.0),
        in_use_from: None,
        in_use_until: None,
        running_hours: None,
        criticality: None,
        place: place(1),
    };
    for (kit, stated, expected) in [
        ("Press 2 rebuild", None, Some("Press 2")),
        ("press 2 rebuild", None, Some("Press 2")),
        ("Press 2", None, Some("Press 2")),
        ("Press 2, head", None, Some("Press 2")),
        ("Press 2-head", None, Some("Press 2")),
        ("Press 2 left rebuild", None, Some("Press 2 left")),
        ("Press 20 rebuild", None, None),
        ("Press 2a", None, None),
        ("Rebuild Press 2", None, None),
        ("Pump", None, None),
        ("Press 2 rebuild", Some("Fan"), Some("Fan")),
    ] {
        let line = KitLine {
            machine: stated.map(str::to_owned),
            ..kit_line(kit, "1", Some("6205"), 1.0)
        };
        let records = Records {
            kit_lines: vec![line],
            machines: ["Press 2", "Press 2 left", "Fan"].map(machine).into(),
            ..Records::default()
        };
        let shop = with(records, "");
        assert_eq!(shop.kits[0].machine.as_deref(), expected, "{kit}");
        let is_told = shop
            .presumed
            .contains(&Presumption::MachinesOfKits { kits: 1 });
        assert_eq!(is_told, expected.is_some() && stated.is_none(), "{kit}");
    }
}

#[test]
fn suppliers_are_bought_from_without_a_word_only_where_no_table_says_one() {
    let supplier = |name: &str, is_approved| {
        let mut supplier = SupplierRecord::named(name, place(1));
        supplier.is_approved = is_approved;
        supplier
    };
    for (approvals, toml, usable, told) in [
        // Nobody says anything: all with offers.
        (&[None, None][..], "", 2, Some(2)),
        (&[], "", 2, Some(2)),
        // One word on one supplier, and the others are not approved.
        (&[Some(true), None], "", 1, None),
        (&[Some(false), None], "", 0, None),
        (&[Some(true), Some(true)], "", 2, None),
        (&[None, None], "suppliers_need_approval = true\n", 0, None),
        (&[None, None], "suppliers_need_approval = false\n", 2, None),
        (
            &[Some(false), None],
            "suppliers_need_approval = false\n",
            1,
            None,
        ),
    ] {
        let suppliers = ["East", "West"]
            .iter()
            .zip(approvals)
            .map(|(name, is_approved)| supplier(name, *is_approved));
        let records = Records {
            suppliers: suppliers.collect(),
            offers: vec![
                offer("East", "6205", 8.0, None),
                offer("WEST", "6205", 9.0, None),
            ]
            .into(),
            ..Records::default()
        };
        let shop = with(records, toml);
        let approved = shop
            .suppliers
            .values()
            .filter(|supplier| supplier.is_approved == Some(true))
            .count();
        assert_eq!(approved, usable, "{approvals:?} {toml}");
        let found = shop.presumed.iter().find_map(|presumed| match presumed {
            Presumption::SuppliersUsable { suppliers } => Some(*suppliers),
            _ => None,
        });
        assert_eq!(found, told, "{approvals:?} {toml}");
    }
}
