//! The reasons of an order quantity in words.

use std::fmt;

use super::order_quantity::{QuantityFreight, QuantityReason};

/// Years of use in one order from which on that is said. Common practice, no source.
const LONG_YEARS: f64 = 5.0;

impl QuantityReason {
    /// What freight does to it, beside a level; `None` where none is counted.
    pub fn freight_in_words(&self) -> Option<String> {
        Some(match self.freight? {
            QuantityFreight::Counted(each) => format!(
                "the order quantity counts {each} of freight an order, as far as no other order of the week pays it"
            ),
            QuantityFreight::FreeFrom(value) => {
                format!("the order quantity is free of freight, as it is from {value} on")
            }
        })
    }
}

impl fmt::Display for QuantityReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.economic {
            Some(economic) => write!(f, "economic quantity {economic:.1}")?,
            None => f.write_str("no economic quantity without a price and a holding cost")?,
        }
        if let Some(price) = self.unit_price {
            write!(f, " at {price} each")?;
        }
        match self.freight {
            Some(QuantityFreight::Counted(each)) => {
                write!(
                    f,
                    "; {each} of freight an order counted in it, as far as no other order of the week pays it"
                )?;
            }
            Some(QuantityFreight::FreeFrom(value)) => {
                write!(f, "; free of freight, as it is from {value} on")?;
            }
            None => {}
        }
        if let Some(used) = self.shelf_life_usage {
            write!(f, "; about {used:.1} are used in the shelf life")?;
            if let Some(life) = &self.shelf_life
                && life.basis != crate::catalogue::ShelfLifeBasis::PartsTable
            {
                write!(f, " ({life})")?;
            }
        }
        if let Some(used) = self.usage_until_retirement {
            write!(
                f,
                "; about {used:.1} are used until its machines leave service"
            )?;
        }
        write!(f, "; sold from {} on", self.minimum)?;
        // What a planner would not buy knowingly is said where it is bought.
        match self.lasts_years.filter(|years| *years > LONG_YEARS) {
            Some(years) => write!(f, "; an order lasts about {years:.0} years"),
            None => Ok(()),
        }
    }
}
