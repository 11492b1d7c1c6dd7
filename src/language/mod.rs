//! Languages of reports and of the page: English is written in the sources, every other language is one file of
//! messages below `data/language`.
//!
//! Belongs here: the message files, how names stand in a message, how a text finds its message, and how a language writes numbers and dates. Does not
//! belong here: which texts are the program's and which are the shop's; `report::translate` knows that.

mod article;
mod backticks;
mod form;
mod messages;
mod template;
mod translator;

use std::sync::OnceLock;

use chrono::{NaiveDate, NaiveDateTime};
use serde::Deserialize;

pub use article::with_article;
pub use backticks::in_backticks;
use messages::Messages;
pub use translator::Translator;

/// Message files; a further language is one file and its line here.
const FILES: [&str; 1] = [include_str!("../../data/language/de.tsv")];

/// A language that reports can be written in.
///
/// # Example
/// ```
/// use sparewright::language::Language;
/// let german = Language::of_code("de").unwrap();
/// assert_eq!(german.text("Order now"), "Jetzt bestellen");
/// assert_eq!(german.number("10,169.42"), "10.169,42");
/// assert_eq!(Language::ENGLISH.text("Order now"), "Order now");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Language(usize);

impl Language {
    /// The language of the sources.
    pub const ENGLISH: Self = Self(0);

    /// Every language, English first.
    pub fn all() -> impl Iterator<Item = Self> {
        (0..=FILES.len()).map(Self)
    }

    /// The language of a code such as `de` or `de-AT`; `None` where there is no message file for it.
    pub fn of_code(code: &str) -> Option<Self> {
        let base = code.split(['-', '_']).next().unwrap_or_default().trim();
        Self::all().find(|of| of.code().eq_ignore_ascii_case(base))
    }

    /// The first language of an `Accept-Language` header that is there (RFC 9110, section 12.5.4); English where none is.
    pub fn accepted(header: &str) -> Self {
        let mut asked: Vec<(f64, &str)> = header
            .split(',')
            .filter_map(|item| {
                let (code, weight) = item.split_once(';').unwrap_or((item, ""));
                let weight = weight.trim().strip_prefix("q=").map_or(Ok(1.0), str::parse);
                weight.ok().map(|weight: f64| (weight, code.trim()))
            })
            .filter(|(weight, _)| *weight > 0.0)
            .collect();
        // Stable, so that the first of equals stays first.
        asked.sort_by(|a, b| b.0.total_cmp(&a.0));
        asked
            .iter()
            .find_map(|(_, code)| Self::of_code(code))
            .unwrap_or_default()
    }

    /// Its code (ISO 639-1).
    pub fn code(self) -> &'static str {
        self.messages().map_or("en", |of| of.form.code)
    }

    /// Its own name.
    pub fn name(self) -> &'static str {
        self.messages().map_or("English", |of| of.form.name)
    }

    /// A text of the program in this language; the English text where no message has it.
    pub fn text(self, english: &str) -> String {
        Translator::new(self).say(english)
    }

    /// A number as the program writes it (`1,234.5`), in the form of this language.
    pub fn number(self, english: &str) -> String {
        self.messages()
            .map_or_else(|| english.to_owned(), |of| of.form.number(english))
    }

    /// The sign before decimals.
    pub fn decimal_sign(self) -> char {
        self.messages().map_or('.', |of| of.form.decimal)
    }

    /// The sign between groups of three digits.
    pub fn group_sign(self) -> char {
        self.messages().map_or(',', |of| of.form.group)
    }

    /// How a calendar day is written, in the notation of strftime.
    pub fn day_form(self) -> &'static str {
        self.messages().map_or("%Y-%m-%d", |of| of.form.date)
    }

    /// A calendar day.
    pub fn date(self, date: NaiveDate) -> String {
        date.format(self.day_form()).to_string()
    }

    /// A moment, local time.
    pub fn moment(self, moment: NaiveDateTime) -> String {
        format!("{} {}", self.date(moment.date()), moment.format("%H:%M"))
    }

    /// A moment with the day of the week before it: `Mon 2026-03-09 07:30`.
    pub fn moment_on_weekday(self, moment: NaiveDateTime) -> String {
        format!("{} {}", self.weekday(moment.date()), self.moment(moment))
    }

    /// The same without the year, for where room is short: `Mon 09 Mar 07:30`.
    pub fn short_moment(self, moment: NaiveDateTime) -> String {
        let date = self.messages().map_or("%d %b", |of| of.form.short_date);
        let weekday = self.weekday(moment.date());
        format!(
            "{weekday} {} {}",
            moment.format(date),
            moment.format("%H:%M")
        )
    }

    fn weekday(self, day: NaiveDate) -> String {
        self.messages().map_or_else(
            || day.format("%a").to_string(),
            |of| of.form.weekday(day).to_owned(),
        )
    }

    /// The form of dates in a workbook.
    pub fn workbook_date(self) -> &'static str {
        self.messages()
            .map_or("yyyy-mm-dd", |of| of.form.workbook_date)
    }

    fn messages(self) -> Option<&'static Messages> {
        static READ: [OnceLock<Messages>; FILES.len()] = [const { OnceLock::new() }; FILES.len()];
        let at = self.0.checked_sub(1)?;
        Some(READ[at].get_or_init(|| Messages::read(FILES[at])))
    }
}

impl<'de> Deserialize<'de> for Language {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let code = String::deserialize(deserializer)?;
        Self::of_code(&code).ok_or_else(|| {
            let known: Vec<&str> = Self::all().map(Self::code).collect();
            serde::de::Error::custom(format!(
                "`{code}` is no language of reports; expected one of {}",
                known.join(", ")
            ))
        })
    }
}

#[cfg(test)]
mod tests;
