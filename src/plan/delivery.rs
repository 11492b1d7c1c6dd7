//! The ways in which goods come from a supplier.

use std::fmt;

use super::calendar::Calendars;
use super::lead_time::{Arrival, Placing};
use crate::record::{QuotedLeadTime, SupplierRecord};
use crate::units::Money;

/// How goods come from a supplier.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DeliveryKind {
    /// As quoted.
    Normal,
    /// Hurried for a surcharge.
    Hurried,
    /// Fetched from the counter by the shop's own people.
    Collected,
    /// Brought by courier from the counter.
    Courier,
    /// Brought by the supplier on the day of the order.
    SameDay,
}

impl DeliveryKind {
    /// True where the supplier's freight is paid: goods that are fetched bear none, those of a courier and of the same day
    /// only the charge of that.
    pub const fn bears_freight(self) -> bool {
        match self {
            Self::Normal | Self::Hurried => true,
            Self::Collected | Self::Courier | Self::SameDay => false,
        }
    }

    /// True where one run is paid, however many lines of the supplier come with it.
    pub const fn is_one_run(self) -> bool {
        matches!(self, Self::Courier | Self::SameDay)
    }

    /// What a supplier's run by this way costs, as stated; `None` where it is no run or nobody says.
    pub fn run_cost(self, record: &SupplierRecord) -> Option<Money> {
        match self {
            Self::Courier => record.courier_cost,
            Self::SameDay => record.same_day?.cost,
            Self::Normal | Self::Hurried | Self::Collected => None,
        }
    }
}

/// One way the goods of an offer can come.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Delivery {
    /// How.
    pub kind: DeliveryKind,
    /// When, if ordered at the moment of planning; `None` is unknown.
    pub arrival: Option<Arrival>,
    /// Surcharge in the shop's currency: for one order line that is hurried, for one run of a courier or of the same day.
    pub surcharge: Money,
    /// Lead time it was made from.
    pub quoted: Option<QuotedLeadTime>,
}

impl DeliveryKind {
    /// How an order for this way gets to a supplier; `None` for a way that the supplier does not have.
    pub fn placing(self, calendars: &Calendars, record: &SupplierRecord) -> Option<Placing> {
        match self {
            Self::Normal | Self::Hurried => Some(Placing::at_desk(calendars, Some(record))),
            Self::Collected => {
                let there_h = record.collection_h? / 2.0;
                Some(Placing::at_counter(calendars, record, there_h))
            }
            Self::Courier => Some(Placing::at_counter(calendars, record, 0.0)),
            Self::SameDay => Some(Placing::same_day(calendars, record, record.same_day?)),
        }
    }
}

impl fmt::Display for DeliveryKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Normal => "as quoted",
            Self::Hurried => "hurried",
            Self::Collected => "fetched from the counter",
            Self::Courier => "by courier",
            Self::SameDay => "brought on the same day",
        })
    }
}
