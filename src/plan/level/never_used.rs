//! Parts that were never used: only the rate of their group asks for them, or a minimum that nobody gives a reason for.
//!
//! A group's rate spreads what its other members used over every member. For a part that nobody took in all the days of
//! records that is a guess about an accident, so that it is bought ahead only as an insurance somebody would take out:
//! for a machine of the highest criticality whose downtime pays the first one. (Common practice, no source.)

use std::fmt;

use crate::units::Money;

/// What speaks for keeping a part that was never used.
#[derive(Debug, Clone, PartialEq)]
pub struct NeverUsed {
    /// Days of records without a usage.
    pub exposure_days: f64,
    /// A minimum that asks for it and has no reason; `None` where only the rate of its group does.
    pub minimum: Option<f64>,
    /// Cost of an hour down from which on the first ones pay; `None` without a price.
    pub pays_from: Option<Money>,
    /// How many the first ones are: 1, more where usages take several at a time, so that fewer save next to nothing.
    pub first: f64,
    /// The dearest machine that uses the part, with its downtime cost an hour, where one of the highest criticality does.
    pub critical: Option<(String, Money)>,
}

impl NeverUsed {
    fn is_one(&self) -> bool {
        self.first < 1.5
    }

    fn first_ones(&self) -> String {
        if self.is_one() {
            "the first one".to_owned()
        } else {
            format!("the first {}", self.first)
        }
    }

    /// True where a critical machine's downtime pays the first one.
    pub fn is_insured(&self) -> bool {
        matches!(
            (&self.critical, self.pays_from),
            (Some((_, cost)), Some(from)) if cost.cents >= from.cents
        )
    }
}

impl fmt::Display for NeverUsed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "never used in {:.0} days of records", self.exposure_days)?;
        match self.minimum {
            None => f.write_str(", only its group's rate asks for it")?,
            Some(minimum) => write!(
                f,
                ", only a minimum of {minimum} without a reason asks for it"
            )?,
        }
        match (&self.critical, self.pays_from) {
            // Nothing was weighed: the minimum is all there is.
            (None, None) if self.minimum.is_some() => Ok(()),
            (_, None) => f.write_str(": without a price nobody can say whether the first one pays"),
            (None, Some(from)) => write!(
                f,
                ": no machine of the highest criticality is known to use it; {} would pay from {from} an hour down on",
                self.first_ones()
            ),
            (Some((name, cost)), Some(from)) if self.is_insured() => write!(
                f,
                ": an insurance for {name}, {} from {from} an hour down on and an hour costs {cost}",
                if self.is_one() {
                    "the first one pays".to_owned()
                } else {
                    format!("{} pay", self.first_ones())
                }
            ),
            (Some((name, cost)), Some(from)) => write!(
                f,
                ": an hour of {name} costs {cost}, {} would pay from {from} on",
                self.first_ones()
            ),
        }
    }
}
