//! Money in whole cents and prices per 1, 100 or 1,000.

use std::fmt;

use super::grouped::{grouped, in_groups};

/// Three letters of ISO 4217, such as `EUR`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Currency([u8; 3]);

/// Why money could not be read or added.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum MoneyError {
    /// Not three letters.
    #[error("`{found}` is not a currency; expected three letters such as `EUR`")]
    NotACurrency {
        /// The text as found.
        found: String,
    },
    /// Negative, not finite or beyond 10^13 cents.
    #[error("{found} is not an amount of money; expected 0 or more and at most 10^11")]
    OutOfRange {
        /// The value as found.
        found: String,
    },
}

/// An amount in whole cents of one currency.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Money {
    /// Whole cents (hundredths of the unit).
    pub cents: i64,
    /// Its currency.
    pub currency: Currency,
}

/// A price as quoted: an amount for `per` units of count, so that 8.50 per 1,000 stays exact.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Price {
    /// Amount for `per` units, in hundredths of a cent.
    pub amount_cents_e2: i64,
    /// Number of units the amount is for: 1, 100 or 1,000 in most lists.
    pub per: u32,
    /// Its currency.
    pub currency: Currency,
}

/// What one unit costs, unrounded: 0.40 per 100 is 0.004 each, which whole cents make nothing of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnitPrice {
    /// Amount, in units of the currency and not cents.
    pub amount: f64,
    /// Its currency.
    pub currency: Currency,
}

impl Currency {
    /// The euro.
    pub const EUR: Self = Self(*b"EUR");

    /// Reads three letters, upper or lower case.
    ///
    /// # Errors
    /// [`MoneyError::NotACurrency`] for anything else.
    pub fn new(code: &str) -> Result<Self, MoneyError> {
        let upper = code.trim().to_ascii_uppercase();
        match <[u8; 3]>::try_from(upper.as_bytes()) {
            Ok(letters) if letters.iter().all(u8::is_ascii_uppercase) => Ok(Self(letters)),
            _ => Err(MoneyError::NotACurrency {
                found: code.trim().to_owned(),
            }),
        }
    }

    /// The three letters.
    pub fn code(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or("???")
    }
}

impl Money {
    /// Takes an amount in units (not cents), rounded to the nearest cent.
    ///
    /// # Errors
    /// [`MoneyError::OutOfRange`] unless finite, 0 or more and at most 10^11.
    pub fn from_units(amount: f64, currency: Currency) -> Result<Self, MoneyError> {
        if amount.is_finite() && (0.0..=1e11).contains(&amount) {
            Ok(Self {
                cents: cents_of(amount),
                currency,
            })
        } else {
            Err(MoneyError::OutOfRange {
                found: format!("{amount} {currency}"),
            })
        }
    }

    /// A computed amount in units (not cents), which may be below 0, rounded to the nearest cent.
    #[must_use]
    pub fn rounded(amount: f64, currency: Currency) -> Self {
        Self {
            cents: cents_of(amount),
            currency,
        }
    }

    /// Units as a float, for output and rates.
    pub fn to_units(self) -> f64 {
        self.cents as f64 / 100.0
    }
}

/// A computed amount in units (not cents) as whole cents, half a cent away from 0.
pub fn cents_of(amount: f64) -> i64 {
    (amount * 100.0).round() as i64
}

impl Price {
    /// Takes an amount in units (not cents) for `per` pieces.
    ///
    /// # Errors
    /// [`MoneyError::OutOfRange`] for a negative or absurd amount or `per` of 0.
    pub fn from_units(amount: f64, per: u32, currency: Currency) -> Result<Self, MoneyError> {
        if amount.is_finite() && (0.0..=1e11).contains(&amount) && per > 0 {
            Ok(Self {
                amount_cents_e2: (amount * 10_000.0).round() as i64,
                per,
                currency,
            })
        } else {
            Err(MoneyError::OutOfRange {
                found: format!("{amount} {currency} per {per}"),
            })
        }
    }

    /// This price less a discount given as a share of 0 to 1.
    #[must_use]
    pub fn less(self, discount_share: f64) -> Self {
        let amount = self.amount_cents_e2 as f64 * (1.0 - discount_share.clamp(0.0, 1.0));
        Self {
            amount_cents_e2: amount.round() as i64,
            ..self
        }
    }

    /// Price of one unit, as a float of currency units.
    pub fn unit_price(self) -> f64 {
        self.amount_cents_e2 as f64 / 10_000.0 / f64::from(self.per)
    }

    /// Cost of `quantity` units, rounded once to whole cents.
    pub fn cost_of(self, quantity: f64) -> Money {
        // One division at the end: half a cent of a whole quantity is half a cent then, and not a hair less.
        let cents = self.amount_cents_e2 as f64 * quantity / (100.0 * f64::from(self.per));
        Money {
            cents: cents.round() as i64,
            currency: self.currency,
        }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

/// As everywhere in words and tables: `13,729.15 EUR`.
impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.cents < 0 { "-" } else { "" };
        let cents = self.cents.unsigned_abs();
        write!(
            f,
            "{sign}{}.{:02} {}",
            in_groups(&(cents / 100).to_string()),
            cents % 100,
            self.currency
        )
    }
}

/// As money, with the figures behind the cents that a price for many has: `0.004 EUR`.
impl fmt::Display for UnitPrice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", grouped(self.amount, 2, 4), self.currency)
    }
}

impl serde::Serialize for Currency {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.code())
    }
}

impl<'de> serde::Deserialize<'de> for Currency {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let code = String::deserialize(deserializer)?;
        Self::new(&code).map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_price_per_thousand_stays_exact() {
        let price = Price::from_units(8.5, 1000, Currency::EUR).unwrap();
        assert_eq!(price.cost_of(250.0).to_string(), "2.13 EUR");
        assert_eq!(price.cost_of(1000.0).cents, 850);
    }

    #[test]
    fn a_discount_is_taken_off_the_list_price() {
        let price = Price::from_units(20.0, 1, Currency::EUR)
            .unwrap()
            .less(0.35);
        assert_eq!(price.cost_of(1.0).cents, 1300);
    }

    #[test]
    fn thousands_stand_apart() {
        // As a spreadsheet's format `#,##0.00` writes them.
        for (cents, words) in [
            (99_999, "999.99 EUR"),
            (100_000, "1,000.00 EUR"),
            (240_000, "2,400.00 EUR"),
            (123_456_789, "1,234,567.89 EUR"),
            (-240_000, "-2,400.00 EUR"),
        ] {
            let currency = Currency::EUR;
            assert_eq!(Money { cents, currency }.to_string(), words);
        }
    }

    #[test]
    fn a_unit_price_keeps_what_is_below_a_cent() {
        // Arithmetic: 0.40 per 100 is 0.004 each.
        for (amount, words) in [
            (0.004, "0.004 EUR"),
            (0.014, "0.014 EUR"),
            (10.0, "10.00 EUR"),
            (1_234.5, "1,234.50 EUR"),
        ] {
            let currency = Currency::EUR;
            assert_eq!(UnitPrice { amount, currency }.to_string(), words);
        }
    }

    #[test]
    fn computed_amounts_are_rounded_to_the_nearest_cent_on_both_sides_of_nothing() {
        // Commercial rounding, half away from 0 (DIN 1333); 0.125 and 2.375 are exact in binary.
        for (amount, words) in [
            (0.125, "0.13 EUR"),
            (-0.125, "-0.13 EUR"),
            (2.375, "2.38 EUR"),
            (0.0049, "0.00 EUR"),
            (1_234.5, "1,234.50 EUR"),
        ] {
            assert_eq!(Money::rounded(amount, Currency::EUR).to_string(), words);
        }
    }

    #[test]
    fn refuses_what_is_no_money() {
        assert!(Money::from_units(-1.0, Currency::EUR).is_err());
        assert!(Price::from_units(1.0, 0, Currency::EUR).is_err());
        assert!(Currency::new("EU").is_err());
        assert!(Currency::new("E1R").is_err());
    }
}
