//! How a language writes numbers and dates, as the head of its file says.

/// What the head of a message file says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Form {
    /// Code (ISO 639-1).
    pub(super) code: &'static str,
    /// Name in the language itself.
    pub(super) name: &'static str,
    /// Sign before decimals.
    pub(super) decimal: char,
    /// Sign between groups of three digits.
    pub(super) group: char,
    /// Calendar day in the notation of strftime.
    pub(super) date: &'static str,
    /// The same without the year, for where room is short.
    pub(super) short_date: &'static str,
    /// Short names of the days of the week, Monday first, blanks between.
    pub(super) weekdays: &'static str,
    /// Calendar day in the notation of workbooks.
    pub(super) workbook_date: &'static str,
}

impl Form {
    /// A number as English writes it, in this form.
    pub(super) fn number(&self, english: &str) -> String {
        let sign = |c| match c {
            '.' => self.decimal,
            ',' => self.group,
            _ => c,
        };
        english.chars().map(sign).collect()
    }

    /// Short name of the day of the week.
    pub(super) fn weekday(&self, day: chrono::NaiveDate) -> &'static str {
        use chrono::Datelike;
        let at = day.weekday().num_days_from_monday() as usize;
        self.weekdays.split(' ').nth(at).unwrap_or_default()
    }

    /// A text without letters: a day or a share in per cent in this form, else as it is.
    pub(super) fn without_letters(&self, text: &str) -> String {
        let is_figure = |of: &str| {
            of.bytes()
                .all(|b| b.is_ascii_digit() || b == b'.' || b == b',')
        };
        match text.strip_suffix(" %").filter(|share| is_figure(share)) {
            Some(share) => format!("{} %", self.number(share)),
            None => self.date(text),
        }
    }

    /// A day or moment in ISO form, in this form; as it is where it is none.
    pub(super) fn date(&self, iso: &str) -> String {
        let (day, rest) = iso.split_at_checked(10).unwrap_or((iso, ""));
        match day.parse::<chrono::NaiveDate>() {
            Ok(day) => format!("{}{rest}", day.format(self.date)),
            Err(_) => iso.to_owned(),
        }
    }
}
