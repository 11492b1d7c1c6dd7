//! How long orders really took, by supplier and part and by supplier.

use std::collections::BTreeMap;

use super::issue::PlanIssue;
use super::lead_time::{LATE_SHARE, QUOTE_LATE_FACTOR};
use super::lognormal::{LogSample, days_or_half, median};
use crate::catalogue::{NameKey, PartId, Shop};

/// Fewest receipts that a distribution of lead times is fitted to.
///
/// Common practice, no source.
pub const ENOUGH_RECEIPTS: usize = 5;

/// Fewest receipts with a promised day whose median lateness corrects a quote.
///
/// Common practice, no source.
pub const ENOUGH_PROMISES: usize = 3;

/// What the receipts of one supplier tell.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SupplierHistory {
    /// Fit over all its receipts, where there are enough.
    pub fit: Option<LogSample>,
    /// How it keeps its promises, where there are enough.
    pub lateness: Option<Lateness>,
    /// Fits of single parts, where there are enough receipts of them.
    pub fit_by_part: BTreeMap<PartId, LogSample>,
}

/// Ratio of actual to promised days.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lateness {
    /// Likely ratio.
    pub likely: f64,
    /// Ratio of the late case.
    pub late: f64,
    /// Mean ratio.
    pub mean: f64,
    /// Receipts with a promise behind it.
    pub receipts: usize,
}

/// What the receipts of a shop tell about its suppliers, by [`NameKey`] text of the supplier's name.
#[derive(Debug, Clone, Default)]
pub struct ReceiptHistory {
    by_supplier: BTreeMap<String, SupplierHistory>,
}

/// Durations of one supplier while they are collected.
#[derive(Default)]
struct Durations {
    days: Vec<f64>,
    ratios: Vec<f64>,
    days_by_part: BTreeMap<PartId, Vec<f64>>,
}

impl ReceiptHistory {
    /// Fits the received orders; those dated wrongly are left out and listed.
    pub fn new(shop: &Shop, issues: &mut Vec<PlanIssue>) -> Self {
        let today = shop.as_of.date();
        let mut durations: BTreeMap<String, Durations> = BTreeMap::new();
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
            let of = durations.entry(supplier_key(&record.supplier)).or_default();
            of.days.push(days);
            if let Some(promised) = record.promised {
                let promised_days = days_or_half((promised - record.ordered).num_days());
                of.ratios.push(days / promised_days);
            }
            if let Some(part) = receipt.part {
                of.days_by_part.entry(part).or_default().push(days);
            }
        }
        let by_supplier = durations
            .into_iter()
            .map(|(supplier, durations)| (supplier, durations.fit()))
            .collect();
        Self { by_supplier }
    }

    /// Receipts of a supplier, by its name as printed.
    pub fn of_supplier(&self, supplier: &str) -> Option<&SupplierHistory> {
        self.by_supplier.get(&supplier_key(supplier))
    }

    /// Fit for one part from one supplier, where there are enough receipts of it.
    pub fn of_part(&self, supplier: &str, part: PartId) -> Option<LogSample> {
        self.of_supplier(supplier)?.fit_by_part.get(&part).copied()
    }
}

impl Durations {
    fn fit(self) -> SupplierHistory {
        SupplierHistory {
            fit: enough(&self.days),
            lateness: Lateness::of(&self.ratios),
            fit_by_part: self
                .days_by_part
                .into_iter()
                .filter_map(|(part, days)| Some((part, enough(&days)?)))
                .collect(),
        }
    }
}

impl Lateness {
    /// Fits the ratios where there are enough for that, else takes their median, else nothing.
    fn of(ratios: &[f64]) -> Option<Self> {
        let receipts = ratios.len();
        if let Some(fit) = enough(ratios) {
            return Some(Self {
                likely: fit.predictive(0.5),
                late: fit.predictive(LATE_SHARE),
                mean: fit.mean(),
                receipts,
            });
        }
        if receipts < ENOUGH_PROMISES {
            return None;
        }
        let likely = median(ratios)?;
        Some(Self {
            likely,
            late: likely * QUOTE_LATE_FACTOR,
            mean: likely,
            receipts,
        })
    }
}

fn enough(durations: &[f64]) -> Option<LogSample> {
    (durations.len() >= ENOUGH_RECEIPTS)
        .then(|| LogSample::new(durations))
        .flatten()
}

/// Key of a supplier's name, as in [`Shop::suppliers`].
pub fn supplier_key(name: &str) -> String {
    NameKey::new(name).as_str().to_owned()
}
