//! Usages and receipts: what was used, and how long orders really took. There are millions of them: names are shared.

use std::sync::Arc;

use chrono::NaiveDate;

use crate::place::Place;

/// Why a part was used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum UsageReason {
    /// It failed.
    Failure,
    /// Planned change.
    Planned,
    /// Went into a rebuild kit.
    Rebuild,
}

/// One usage; a return is negative.
#[derive(Debug, Clone, PartialEq)]
pub struct UsageRecord {
    /// Day of usage.
    pub date: NaiveDate,
    /// Own number, alias or designation as printed.
    pub part: Arc<str>,
    /// Quantity; returns are negative.
    pub quantity: f64,
    /// Machine.
    pub machine: Option<Arc<str>>,
    /// Reason.
    pub reason: Option<UsageReason>,
    /// The row.
    pub place: Place,
}

/// One order line and when it came; `received` is `None` while it is open.
#[derive(Debug, Clone, PartialEq)]
pub struct ReceiptRecord {
    /// Supplier.
    pub supplier: Arc<str>,
    /// Own number, alias or designation as printed.
    pub part: Arc<str>,
    /// Day of order.
    pub ordered: NaiveDate,
    /// Day promised.
    pub promised: Option<NaiveDate>,
    /// Day received.
    pub received: Option<NaiveDate>,
    /// Quantity.
    pub quantity: Option<f64>,
    /// The row.
    pub place: Place,
}
