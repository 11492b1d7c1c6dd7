//! One typed value of a report cell, and how it reads in words.

use std::borrow::Cow;
use std::sync::Arc;

use chrono::{NaiveDate, NaiveDateTime};

use super::column::ColumnKind;
use crate::language::Language;
use crate::units::{Money, Price, grouped};

/// The word shown for a value that could not be known.
pub const UNKNOWN: &str = "unknown";

/// A cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Does not apply here; shown blank.
    Empty,
    /// Applies, but could not be known, with the reason; shown as the word `unknown`.
    Unknown(Cow<'static, str>),
    /// Words; cells that say the same may share them.
    Text(Arc<str>),
    /// A whole number.
    Integer(i64),
    /// A number in the unit of its column (pieces, hours, days, mm) or a share of 0 to 1.
    Number(f64),
    /// Whole cents.
    Money(Money),
    /// A price for one unit of count, which may be a fraction of a cent.
    Price(Price),
    /// A calendar day.
    Date(NaiveDate),
    /// A moment, local time.
    Moment(NaiveDateTime),
    /// Yes or no.
    Flag(bool),
}

/// A share below which one decimal of per cent says too little.
pub const SMALL_SHARE: f64 = 0.01;

impl Value {
    /// Takes words.
    pub fn text(words: impl Into<String>) -> Self {
        // A copy with room for them and no more: a long sheet holds millions, and words that were put together have up to
        // twice the room.
        Self::Text(Arc::from(words.into()))
    }

    /// Takes words that other cells have too.
    pub fn shared(words: &Arc<str>) -> Self {
        Self::Text(Arc::clone(words))
    }

    /// Takes the reason why a value could not be known.
    pub fn unknown(reason: impl Into<Cow<'static, str>>) -> Self {
        Self::Unknown(reason.into())
    }

    /// Takes a number, or the reason why there is none.
    pub fn number_or(number: Option<f64>, reason: impl Into<Cow<'static, str>>) -> Self {
        number.map_or_else(|| Self::unknown(reason), Self::Number)
    }

    /// The value as a float, where it is a number of any kind; money in units of the currency.
    pub fn as_number(&self) -> Option<f64> {
        match self {
            Self::Integer(whole) => Some(*whole as f64),
            Self::Number(number) => Some(*number),
            Self::Money(money) => Some(money.to_units()),
            Self::Price(price) => Some(price.unit_price()),
            Self::Empty
            | Self::Unknown(_)
            | Self::Text(_)
            | Self::Date(_)
            | Self::Moment(_)
            | Self::Flag(_) => None,
        }
    }

    /// The value as people read it in a column of `kind`, without the unit, which stands in the header.
    pub fn in_words(&self, kind: ColumnKind) -> Cow<'_, str> {
        Cow::Owned(match self {
            Self::Empty => return Cow::Borrowed(""),
            Self::Unknown(_) => return Cow::Borrowed(UNKNOWN),
            Self::Text(words) => return Cow::Borrowed(words),
            Self::Integer(whole) => grouped(*whole as f64, 0, 0),
            Self::Number(number) => match kind {
                ColumnKind::Share => format!("{} %", percent(*number)),
                ColumnKind::Hours => grouped(*number, 1, 1),
                ColumnKind::Days | ColumnKind::Workdays => grouped(*number, 0, 1),
                ColumnKind::LengthMm => grouped(*number, 0, 4),
                _ => grouped(*number, 0, 3),
            },
            Self::Money(money) => grouped(money.to_units(), 2, 2),
            Self::Price(price) => grouped(price.unit_price(), 2, 4),
            Self::Date(date) => date.format("%Y-%m-%d").to_string(),
            Self::Moment(moment) => moment.format("%Y-%m-%d %H:%M").to_string(),
            Self::Flag(true) => return Cow::Borrowed("yes"),
            Self::Flag(false) => return Cow::Borrowed("no"),
        })
    }

    /// As [`in_words`](Self::in_words), in a language; words stay as they are.
    pub fn in_language(&self, kind: ColumnKind, language: Language) -> Cow<'_, str> {
        if language == Language::ENGLISH {
            return self.in_words(kind);
        }
        match self {
            Self::Empty | Self::Text(_) => self.in_words(kind),
            Self::Date(date) => Cow::Owned(language.date(*date)),
            Self::Moment(moment) => Cow::Owned(language.moment(*moment)),
            Self::Unknown(_) | Self::Flag(_) => Cow::Owned(language.text(&self.in_words(kind))),
            Self::Integer(_) | Self::Number(_) | Self::Money(_) | Self::Price(_) => {
                Cow::Owned(language.number(&self.in_words(kind)))
            }
        }
    }

    /// The value with its unit, for places without a header: `1,234.50 EUR`, `412.5 h`.
    pub fn with_unit(&self, kind: ColumnKind, language: Language) -> String {
        let words = self.in_language(kind, language);
        match (self.as_number(), kind.unit()) {
            (Some(_), Some(unit)) => format!("{words} {}", language.text(unit)),
            _ => words.into_owned(),
        }
    }
}

/// Most decimals of a share in per cent.
const PERCENT_DECIMALS: usize = 5;

/// A share in per cent: one decimal, and below one per cent three digits that tell.
fn percent(share: f64) -> String {
    let percent = share * 100.0;
    let is_small = percent != 0.0 && percent.abs() < SMALL_SHARE * 100.0;
    let decimals = match is_small {
        true => (2 - percent.abs().log10().floor() as i64).clamp(1, PERCENT_DECIMALS as i64),
        false => 1,
    };
    grouped(percent, 1, decimals as usize)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Currency;

    #[test]
    fn numbers_are_grouped_and_rounded_once() {
        // Plain arithmetic, by hand.
        for (number, least, most, words) in [
            (0.0, 0, 0, "0"),
            (999.0, 0, 0, "999"),
            (1000.0, 0, 0, "1,000"),
            (-1_234_567.891, 2, 2, "-1,234,567.89"),
            (-0.001, 1, 1, "0.0"),
            (12.5, 0, 3, "12.5"),
            (14.25, 1, 1, "14.3"),
            (12.0, 0, 3, "12"),
            (11.1125, 0, 4, "11.1125"),
        ] {
            assert_eq!(grouped(number, least, most), words, "{number}");
        }
    }

    #[test]
    fn a_share_below_one_per_cent_keeps_three_digits_that_tell() {
        // Plain arithmetic, by hand.
        for (share, words) in [
            (0.953, "95.3 %"),
            (1.0, "100.0 %"),
            (0.01, "1.0 %"),
            (0.0099, "0.99 %"),
            (0.001_82, "0.182 %"),
            (0.000_018_2, "0.00182 %"),
            (-0.005, "-0.5 %"),
            (1e-12, "0.0 %"),
            (0.0, "0.0 %"),
        ] {
            let value = Value::Number(share);
            assert_eq!(value.in_words(ColumnKind::Share), words, "{share}");
        }
    }

    #[test]
    fn words_are_the_same_whether_cells_share_them_or_not() {
        let words: Arc<str> = "put together".into();
        let (one, other) = (Value::shared(&words), Value::shared(&words));
        assert_eq!(one, Value::text("put together"));
        let (Value::Text(one), Value::Text(other)) = (one, other) else {
            panic!("no text")
        };
        assert!(Arc::ptr_eq(&one, &other));
        // A long sheet has millions of cells: none is larger than a text of its own.
        assert_eq!(size_of::<Value>(), size_of::<String>());
    }

    #[test]
    fn unknown_is_a_word_and_never_zero_or_blank() {
        let unknown = Value::unknown("no lead time given");
        for kind in [ColumnKind::Days, ColumnKind::Text, ColumnKind::Share] {
            assert_eq!(unknown.in_words(kind), "unknown");
            assert_eq!(unknown.with_unit(kind, Language::ENGLISH), "unknown");
        }
        assert_eq!(unknown.as_number(), None);
        assert_eq!(Value::number_or(None, "no count").as_number(), None);
    }

    #[test]
    fn each_kind_reads_with_its_unit() {
        let money = Money {
            cents: 123_450,
            currency: Currency::EUR,
        };
        let price = Price::from_units(8.5, 1000, Currency::EUR).unwrap();
        for (value, kind, words) in [
            (
                Value::Money(money),
                ColumnKind::Money(Currency::EUR),
                "1,234.50 EUR",
            ),
            (
                Value::Price(price),
                ColumnKind::UnitPrice(Currency::EUR),
                "0.0085 EUR",
            ),
            (Value::Number(0.953), ColumnKind::Share, "95.3 %"),
            (Value::Number(412.52), ColumnKind::Hours, "412.5 h"),
            (Value::Number(14.0), ColumnKind::Workdays, "14 workdays"),
            (Value::Number(34.925), ColumnKind::LengthMm, "34.925 mm"),
            (Value::Flag(true), ColumnKind::Flag, "yes"),
        ] {
            assert_eq!(value.with_unit(kind, Language::ENGLISH), words);
        }
    }
}
