//! How long orders really took, by supplier and part and by supplier.

use std::collections::BTreeMap;

use super::issue::PlanIssue;
use super::lognormal::{LogSample, days_or_half};
use crate::catalogue::{NameKey, PartId, Shop};

/// Fewest receipts that a distribution of lead times is fitted to.
///
/// Common practice, no source.
pub const ENOUGH_RECEIPTS: usize = 5;

/// Fewest receipts with a promised day whose median lateness corrects a quote.
///
/// Common practice, no source.
pub const ENOUGH_PROMISES: usize = 3;

/// Durations of the receipts of one supplier, in days.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SupplierHistory {
    /// Order to receipt, for every received order.
    pub days: Vec<f64>,
    /// Actual days over promised days, for orders with a promise.
    pub lateness_ratios: Vec<f64>,
    /// Order to receipt, by part.
    pub days_by_part: BTreeMap<PartId, Vec<f64>>,
}

/// What the receipts of a shop tell about its suppliers, by [`NameKey`] text of the supplier's name.
#[derive(Debug, Clone, Default)]
pub struct ReceiptHistory {
    by_supplier: BTreeMap<String, SupplierHistory>,
}

impl ReceiptHistory {
    /// Sorts the received orders; those dated wrongly are left out and listed.
    pub fn new(shop: &Shop, issues: &mut Vec<PlanIssue>) -> Self {
        let today = shop.as_of.date();
        let mut by_supplier: BTreeMap<String, SupplierHistory> = BTreeMap::new();
        for receipt in &shop.receipts {
            let record = &receipt.record;
            let Some(received) = record.received else {
                continue;
            };
            if received > today {
                issues.push(PlanIssue::InTheFuture {
                    place: record.place.clone(),
                    date: received,
                });
                continue;
            }
            if received < record.ordered {
                issues.push(PlanIssue::ReceivedBeforeOrdered {
                    place: record.place.clone(),
                    ordered: record.ordered,
                    received,
                });
                continue;
            }
            let days = days_or_half((received - record.ordered).num_days());
            let history = by_supplier
                .entry(supplier_key(&record.supplier))
                .or_default();
            history.days.push(days);
            if let Some(promised) = record.promised {
                let promised_days = days_or_half((promised - record.ordered).num_days());
                history.lateness_ratios.push(days / promised_days);
            }
            if let Some(part) = receipt.part {
                history.days_by_part.entry(part).or_default().push(days);
            }
        }
        Self { by_supplier }
    }

    /// Receipts of a supplier, by its name as printed.
    pub fn of_supplier(&self, supplier: &str) -> Option<&SupplierHistory> {
        self.by_supplier.get(&supplier_key(supplier))
    }

    /// Fit for one part from one supplier, where there are enough receipts of it.
    pub fn of_part(&self, supplier: &str, part: PartId) -> Option<LogSample> {
        let days = self.of_supplier(supplier)?.days_by_part.get(&part)?;
        enough(days)
    }
}

impl SupplierHistory {
    /// Fit over all receipts of the supplier, where there are enough.
    pub fn fit(&self) -> Option<LogSample> {
        enough(&self.days)
    }
}

fn enough(days: &[f64]) -> Option<LogSample> {
    (days.len() >= ENOUGH_RECEIPTS)
        .then(|| LogSample::new(days))
        .flatten()
}

/// Key of a supplier's name, as in [`Shop::suppliers`].
pub fn supplier_key(name: &str) -> String {
    NameKey::new(name).as_str().to_owned()
}
