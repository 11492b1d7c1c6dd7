//! What the dates of a column, of a table and of a folder prove about their order of day, month and year.

use chrono::{Datelike, NaiveDate};

use crate::record::DateOrder;

use super::date::{date, three_numbers};
use super::year_place::{Orders, YearEvidence, YearPlace};

/// What the texts of a column prove about their order of day, month and year.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct DateEvidence {
    day_first: u32,
    month_first: u32,
    /// Texts that could be either.
    pub either: u32,
    /// Where years of two figures stand; its texts are counted above as if the year stood at the end.
    years: YearEvidence,
}

impl DateEvidence {
    /// Takes one cell's text into account.
    pub fn add(&mut self, text: &str) {
        let Some((a, b, c, sign)) = three_numbers(text) else {
            return;
        };
        if sign == '.' || c == 0 && b == 0 {
            return;
        }
        let (front, end) = (
            date(a, b, c),
            date(c, b, a).or_else(|| date(c, a, b)).filter(|_| a <= 31),
        );
        let years = (front.map(|day| day.year()), end.map(|day| day.year()));
        let is_whole = a > 99 || c > 99;
        match years.0.or(years.1) {
            Some(year) if is_whole => self.years.add_known(year),
            _ => self.years.add(years.0, years.1, sign),
        }
        if a > 31 {
            return;
        }
        let mut orders = Orders::default();
        orders.add(a, b);
        self.day_first += orders.day_first;
        self.month_first += orders.month_first;
        self.either += orders.either;
        if front.is_some() && !is_whole {
            self.years.orders.add(a, b);
        }
    }

    /// Takes a day into account that a spreadsheet holds as one.
    pub fn add_day(&mut self, day: NaiveDate) {
        self.years.add_known(day.year());
    }

    /// Adds what the dates of another column prove.
    pub fn join(&mut self, other: Self) {
        self.day_first += other.day_first;
        self.month_first += other.month_first;
        self.either += other.either;
        self.years.join(other.years);
    }

    /// With the place of the year settled by the column itself.
    #[must_use]
    pub fn settled(self) -> Self {
        self.settled_as(self.years.place())
    }

    /// With the place of the year settled by the other columns of the table where its own dates leave it open.
    ///
    /// `is_near` is true for dates that lie near those of the other columns: no days of cure, no ages of machines.
    #[must_use]
    pub fn settled_beside(self, table: &Self, is_near: bool) -> Self {
        self.settled_as(self.years.place_beside(&table.years, is_near))
    }

    fn settled_as(mut self, place: YearPlace) -> Self {
        if place == YearPlace::First {
            let orders = self.years.orders;
            self.day_first -= orders.day_first;
            self.month_first -= orders.month_first;
            self.either -= orders.either;
        }
        self.years = self.years.settled(place);
        self
    }

    /// The order that all dates prove which prove one; `None` where none does, or both.
    pub fn proved(self) -> Option<DateOrder> {
        let of = self.settled();
        match (of.day_first, of.month_first) {
            // Dates with whole years at the end would have no order.
            (0, 0) => (of.years.is_first() && of.either == 0).then_some(DateOrder::Ymd),
            (_, 0) => Some(DateOrder::Dmy),
            (0, _) => Some(DateOrder::Mdy),
            _ => None,
        }
    }

    /// The order to read doubtful dates by; `None` where the column holds both orders.
    pub fn order(self, settings: DateOrder) -> Option<DateOrder> {
        let of = self.settled();
        match self.years.place() {
            YearPlace::First => return Some(DateOrder::Ymd),
            YearPlace::Both => return None,
            YearPlace::Doubt if settings == DateOrder::Ymd && of.years.has_doubtful() => {
                return Some(DateOrder::Ymd);
            }
            YearPlace::Last | YearPlace::Doubt => {}
        }
        match (of.day_first, of.month_first) {
            (0, 0) => Some(settings),
            (_, 0) => Some(DateOrder::Dmy),
            (0, _) => Some(DateOrder::Mdy),
            _ => None,
        }
    }

    /// True where nothing in the column but the settings decided.
    pub fn is_by_settings(self) -> bool {
        let of = self.settled();
        of.either > 0 && of.day_first == 0 && of.month_first == 0
    }

    /// True where dates could begin with the year or end with it.
    pub fn is_year_open(self) -> bool {
        self.years.is_open()
    }

    /// True where some dates could be read in another order.
    pub fn is_doubtful(self) -> bool {
        self.either > 0 || self.years.has_doubtful()
    }

    /// True where years of two figures stand in front.
    pub fn is_year_first(self) -> bool {
        self.years.place() == YearPlace::First
    }
}

/// True for a date of hyphens with a year of two figures that may stand at either end, where nothing but itself can tell:
/// `26-03-09` is a day of 2009 or of 2026.
pub fn leaves_year_open(text: &str, order: Option<DateOrder>) -> bool {
    let mut alone = DateEvidence::default();
    alone.add(text);
    order != Some(DateOrder::Ymd) && alone.is_year_open()
}
