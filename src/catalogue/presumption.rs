//! What is presumed of a shop where neither its settings nor its tables say it; every presumption is told on the cover.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use super::shop::{Presumption, Shop};
use crate::part::NameKey;
use crate::record::SupplierRecord;
use crate::units::{Currency, Money, Price};

/// Least days from the first usage to the moment of planning; fewer would make a rate of chance.
const LEAST_DAYS: i64 = 180;
/// Least usages: with n of them the first comes about one n-th of the time late, so that a rate is that much too high.
const LEAST_USAGES: usize = 5;

/// Fills in what settings and tables leave open, and lists it in [`Shop::presumed`].
pub fn presume(shop: &mut Shop) {
    presume_records_from(shop);
    presume_currency(shop);
    presume_suppliers(shop);
    presume_machines(shop);
}

fn presume_records_from(shop: &mut Shop) {
    let today = shop.as_of.date();
    let dates = shop.usages.iter().map(|usage| usage.record.date);
    let past: Vec<NaiveDate> = dates.filter(|date| *date <= today).collect();
    let Some(on) = past.iter().min().copied() else {
        return;
    };
    if shop.settings.records_from.is_some()
        || past.len() < LEAST_USAGES
        || (today - on).num_days() < LEAST_DAYS
    {
        return;
    }
    shop.settings.records_from = Some(on);
    shop.presumed.push(Presumption::RecordsFrom {
        on,
        usages: past.len(),
    });
}

fn presume_currency(shop: &mut Shop) {
    if shop.settings.named.contains("currency") || shop.settings.named.contains("exchange_rates") {
        return;
    }
    let found = currencies(shop);
    let [only] = found.iter().collect::<Vec<_>>()[..] else {
        return;
    };
    if *only != shop.settings.currency {
        shop.settings.currency = *only;
        shop.presumed
            .push(Presumption::Currency { currency: *only });
    }
}

/// Every currency in which a table states an amount.
fn currencies(shop: &Shop) -> BTreeSet<Currency> {
    let of_price = |price: &Price| price.currency;
    let of_money = |money: &Money| money.currency;
    let offers = shop.offers.iter().flat_map(|offer| {
        let breaks = offer.record.breaks.iter();
        (offer.record.price.iter())
            .chain(breaks.map(|price_break| &price_break.price))
            .map(of_price)
    });
    let machines = shop
        .machines
        .values()
        .filter_map(|machine| machine.downtime_cost_per_hour.as_ref().map(of_money));
    let suppliers = shop.suppliers.values().flat_map(|supplier| {
        [
            &supplier.freight,
            &supplier.freight_free_from,
            &supplier.courier_cost,
        ]
        .into_iter()
        .filter_map(move |money| money.as_ref().map(of_money))
    });
    offers.chain(machines).chain(suppliers).collect()
}

fn presume_machines(shop: &mut Shop) {
    let mut kits = 0;
    for kit in shop.kits.iter_mut().filter(|kit| kit.machine.is_none()) {
        let name = kit.name.to_lowercase();
        let begins = |machine: &str| {
            let machine = machine.to_lowercase();
            name.strip_prefix(machine.trim())
                .is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', ',', '-', '/']))
        };
        // The longest name is the nearest: `Press 2 left` before `Press 2`.
        let machine = shop
            .machines
            .values()
            .map(|machine| machine.machine.as_str())
            .filter(|machine| begins(machine))
            .max_by_key(|machine| machine.len());
        if let Some(machine) = machine {
            kit.machine = Some(machine.to_owned());
            kits += 1;
        }
    }
    if kits > 0 {
        shop.presumed.push(Presumption::MachinesOfKits { kits });
    }
}

fn presume_suppliers(shop: &mut Shop) {
    let says_something = shop
        .suppliers
        .values()
        .any(|supplier| supplier.is_approved.is_some());
    let is_needed = shop
        .settings
        .suppliers_need_approval
        .unwrap_or(says_something);
    if is_needed {
        return;
    }
    let mut usable = 0;
    for offer in &shop.offers {
        let name = offer.record.supplier.trim();
        let key = NameKey::new(name).into_text();
        let entry = shop
            .suppliers
            .entry(key.clone())
            .or_insert_with(|| SupplierRecord::named(name, offer.record.place.clone()));
        if entry.is_approved.is_none() {
            entry.is_approved = Some(true);
            shop.not_approved.insert(key);
            usable += 1;
        }
    }
    if usable > 0 && shop.settings.suppliers_need_approval.is_none() {
        shop.presumed
            .push(Presumption::SuppliersUsable { suppliers: usable });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Records, ShopSettings};

    fn shop(toml: &str) -> Shop {
        let settings = ShopSettings::from_toml(toml).unwrap();
        let as_of = NaiveDate::from_ymd_opt(2026, 11, 26)
            .and_then(|day| day.and_hms_opt(8, 0, 0))
            .unwrap();
        Shop::new(Records::default(), settings, as_of)
    }

    #[test]
    fn nothing_is_presumed_of_an_empty_shop() {
        let shop = shop("");
        assert_eq!(shop.presumed, []);
        assert_eq!(shop.settings.records_from, None);
    }

    #[test]
    fn what_the_settings_name_is_known_by_its_key() {
        let named = shop("currency = \"EUR\"\n").settings.named;
        assert!(named.contains("currency"));
        assert!(!named.contains("date_order"));
    }
}
