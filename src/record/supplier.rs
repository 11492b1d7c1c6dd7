//! A row of a suppliers table.

use chrono::NaiveTime;

use crate::part::PartClass;
use crate::place::Place;
use crate::units::Money;

/// A supplier and how things get from there to here.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplierRecord {
    /// Name as used in the other tables.
    pub name: String,
    /// Approved in general; `None` where the table does not say, which is not "yes".
    pub is_approved: Option<bool>,
    /// Classes the supplier is approved for, where the table names them; empty means `is_approved` holds for all.
    pub approved_classes: Vec<PartClass>,
    /// Orders after this hour count as the next working day.
    pub order_cutoff: Option<NaiveTime>,
    /// Counter hours, opening and closing.
    pub counter_hours: Option<(NaiveTime, NaiveTime)>,
    /// Name of a calendar in the settings; the shop's own where missing.
    pub calendar: Option<String>,
    /// Freight per order.
    pub freight: Option<Money>,
    /// Order value from which freight is free.
    pub freight_free_from: Option<Money>,
    /// Hours to collect from the counter, there and back.
    pub collection_h: Option<f64>,
    /// Cost of a courier.
    pub courier_cost: Option<Money>,
    /// Hours of a courier.
    pub courier_h: Option<f64>,
    /// Delivery on the day of the order, of what is in stock.
    pub same_day: Option<SameDay>,
    /// Kind of supplier in the shop's own words ("wholesaler", "importer"): suppliers of one kind tell of each other.
    pub group: Option<String>,
    /// The row.
    pub place: Place,
}

/// Delivery on the day of the order, of what is in stock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SameDay {
    /// Latest hour of the order; one later counts for the next working day.
    pub order_by: NaiveTime,
    /// Hour at which the goods are there.
    pub there_by: NaiveTime,
    /// Surcharge per order; `None` where the table does not say, and the delivery is then not planned with.
    pub cost: Option<Money>,
}

impl SupplierRecord {
    /// A supplier of whom nothing but the name is known.
    pub fn named(name: &str, place: Place) -> Self {
        Self {
            name: name.to_owned(),
            is_approved: None,
            approved_classes: Vec::new(),
            order_cutoff: None,
            counter_hours: None,
            calendar: None,
            freight: None,
            freight_free_from: None,
            collection_h: None,
            courier_cost: None,
            courier_h: None,
            same_day: None,
            group: None,
            place,
        }
    }

    /// Whether this supplier is approved for a class of part; `None` where the table does not say.
    pub fn is_approved_for(&self, class: PartClass) -> Option<bool> {
        match self.is_approved {
            Some(true) if !self.approved_classes.is_empty() => {
                Some(self.approved_classes.contains(&class))
            }
            other => other,
        }
    }
}
