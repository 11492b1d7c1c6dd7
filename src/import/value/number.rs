//! Numbers with decimal commas and thousands separators; what `1.250` means is for its column to prove.

/// Sign before the decimals in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DecimalSign {
    /// `1.5`
    Point,
    /// `1,5`
    Comma,
}

/// What the texts of a column prove about their decimal sign.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct NumberEvidence {
    points: u32,
    commas: u32,
}

/// Why a text is not a number.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NumberError {
    /// No number.
    #[error("`{found}` is not a number")]
    NotANumber {
        /// As found.
        found: String,
    },
    /// Two readings, and nothing in the column decides.
    #[error(
        "`{found}` is either {one} or {other}, and no other cell of the column decides; expected an unmistakable number"
    )]
    Ambiguous {
        /// As found.
        found: String,
        /// As decimal.
        one: String,
        /// As thousands.
        other: String,
    },
}

impl NumberEvidence {
    /// Takes one cell's text into account.
    pub fn add(&mut self, text: &str) {
        match sign_proved_by(text.trim()) {
            Some(DecimalSign::Point) => self.points += 1,
            Some(DecimalSign::Comma) => self.commas += 1,
            None => {}
        }
    }

    /// Joins the evidence of two columns.
    pub fn join(&mut self, other: Self) {
        self.points += other.points;
        self.commas += other.commas;
    }

    /// The decimal sign, where every cell that proves anything agrees.
    pub fn sign(self) -> Option<DecimalSign> {
        match (self.points, self.commas) {
            (1.., 0) => Some(DecimalSign::Point),
            (0, 1..) => Some(DecimalSign::Comma),
            _ => None,
        }
    }
}

/// The decimal sign that a text by itself proves.
fn sign_proved_by(text: &str) -> Option<DecimalSign> {
    // Most cells: `12` proves nothing, `12.50` is a decimal.
    match plain_decimals(text) {
        Some(0) => return None,
        Some(decimals) if decimals != 3 => return Some(DecimalSign::Point),
        _ => {}
    }
    let number = text.trim_matches(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')));
    // Fast refusal of everything that is no number at all; `12.03.2026` is a date.
    if number
        .chars()
        .any(|c| !(c.is_ascii_digit() || matches!(c, '.' | ',') || is_group_sign(c)))
    {
        return None;
    }
    let (point, comma) = (number.rfind('.'), number.rfind(','));
    match (point, comma) {
        (None, None) => None,
        (Some(point), Some(comma)) if point > comma => Some(DecimalSign::Point),
        (Some(_), Some(_)) => Some(DecimalSign::Comma),
        (Some(at), None) => alone(number, at, '.', DecimalSign::Point, DecimalSign::Comma),
        (None, Some(at)) => alone(number, at, ',', DecimalSign::Comma, DecimalSign::Point),
    }
}

fn alone(
    number: &str,
    at: usize,
    sign: char,
    as_decimal: DecimalSign,
    as_thousands: DecimalSign,
) -> Option<DecimalSign> {
    let (before, after) = (&number[..at], &number[at + 1..]);
    if before.contains(sign) {
        // Written twice, it can only separate thousands; other groups are dates and the like.
        let is_grouped = number.split(sign).skip(1).all(|group| group.len() == 3);
        return is_grouped.then_some(as_thousands);
    }
    // `0,125` and `1250,000` have no thousands before their sign.
    let is_whole_group =
        after.len() == 3 && (1..=3).contains(&before.len()) && !before.starts_with('0');
    (!is_whole_group).then_some(as_decimal)
}

/// Decimals of a plain number such as `12` or `12.50`, digits with at most one point between them; `None` for any other
/// text, and for more digits than a float holds exactly.
fn plain_decimals(text: &str) -> Option<usize> {
    let bytes = text.as_bytes();
    let mut point = None;
    for (at, byte) in bytes.iter().enumerate() {
        match byte {
            b'0'..=b'9' => {}
            b'.' if point.is_none() && at > 0 => point = Some(at),
            _ => return None,
        }
    }
    let decimals = point.map_or(0, |point| bytes.len() - 1 - point);
    let is_plain = (1..=15).contains(&bytes.len()) && (point.is_none() || decimals > 0);
    is_plain.then_some(decimals)
}

/// The value of a plain number such as `12` or `12.50`, which means the same in every column; `None` for other texts.
pub fn plain_number(text: &str) -> Option<f64> {
    let decimals = plain_decimals(text).filter(|decimals| *decimals != 3)?;
    let digits = text
        .bytes()
        .filter(|byte| *byte != b'.')
        .fold(0_u64, |value, byte| value * 10 + u64::from(byte - b'0'));
    // Both are whole numbers that a float holds exactly, so that their ratio is the nearest float.
    let scale = POWERS_OF_TEN.get(decimals)?;
    Some(digits as f64 / scale)
}

/// Powers of ten up to the decimals of a plain number.
const POWERS_OF_TEN: [f64; 15] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14,
];

/// Reads a number; `column` is the decimal sign that the column proves.
///
/// Blanks and apostrophes separate thousands. A text that proves its own sign is read by it; `1.250` and
/// `1,250` need the column.
///
/// # Errors
/// [`NumberError::Ambiguous`] for `1.250` in a column that proves nothing.
///
/// # Example
/// ```
/// use sparewright::import::value::{read_number, DecimalSign};
/// assert_eq!(read_number("1.234,5", None), Ok(1234.5));
/// assert_eq!(read_number("1.250", Some(DecimalSign::Comma)), Ok(1250.0));
/// assert!(read_number("1.250", None).is_err());
/// ```
pub fn read_number(text: &str, column: Option<DecimalSign>) -> Result<f64, NumberError> {
    // Most cells; three decimals may be thousands.
    if let Some(value) = plain_number(text) {
        return Ok(value);
    }
    let text = text.trim();
    let not_a_number = || NumberError::NotANumber {
        found: text.to_owned(),
    };
    let in_brackets = text
        .strip_prefix('(')
        .and_then(|inner| inner.strip_suffix(')'));
    let body = in_brackets.unwrap_or(text).trim();
    let (body, is_behind) = match body.strip_suffix('-') {
        Some(body) => (body, true),
        None => (body, false),
    };
    let (body, is_before) = match body.strip_prefix(['-', '−', '–']) {
        Some(body) => (body.trim_start(), true),
        None => (body.strip_prefix('+').unwrap_or(body), false),
    };
    if body.is_empty() || is_behind && is_before {
        return Err(not_a_number());
    }
    if !body.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | ',')) {
        return Err(not_a_number());
    }
    let is_negative = is_before || is_behind || in_brackets.is_some();
    let sign = if is_negative { -1.0 } else { 1.0 };
    if body.bytes().all(|b| b.is_ascii_digit()) {
        return body
            .parse::<f64>()
            .map(|value| sign * value)
            .map_err(|_| not_a_number());
    }
    let grouped = without_groups(body).ok_or_else(not_a_number)?;
    let proved = sign_proved_by(&grouped);
    let has_sign = grouped.contains(['.', ',']);
    let Some(decimal) = proved
        .or(column)
        .or((!has_sign).then_some(DecimalSign::Point))
    else {
        return Err(ambiguous(text, &grouped, sign));
    };
    parse(&grouped, decimal)
        .map(|value| sign * value)
        .ok_or_else(not_a_number)
}

/// True for what separates thousands besides points and commas: blanks of any width that do not break a line, apostrophes.
pub(super) const fn is_group_sign(c: char) -> bool {
    matches!(
        c,
        ' ' | '\u{a0}'
            | '\u{202f}'
            | '\u{2007}'
            | '\u{2008}'
            | '\u{2009}'
            | '\u{200a}'
            | '\''
            | '’'
    )
}

/// Takes blanks and apostrophes out where they separate groups of three digits.
fn without_groups(body: &str) -> Option<String> {
    if !body.contains(is_group_sign) {
        return Some(body.to_owned());
    }
    let whole_end = body.find(['.', ',']).unwrap_or(body.len());
    let (whole, rest) = body.split_at(whole_end);
    if rest.contains(is_group_sign) {
        return None;
    }
    let mut groups = whole.split(is_group_sign);
    let first = groups
        .next()
        .filter(|group| (1..=3).contains(&group.len()))?;
    let mut joined = first.to_owned();
    for group in groups {
        if group.len() != 3 {
            return None;
        }
        joined.push_str(group);
    }
    joined.push_str(rest);
    Some(joined)
}

fn parse(text: &str, decimal: DecimalSign) -> Option<f64> {
    let (point, thousands) = match decimal {
        DecimalSign::Point => ('.', ','),
        DecimalSign::Comma => (',', '.'),
    };
    let (whole, decimals) = text.split_once(point).unwrap_or((text, ""));
    if decimals.contains([point, thousands]) {
        return None;
    }
    if whole.contains(thousands) {
        let mut groups = whole.split(thousands);
        let first = groups.next().unwrap_or_default();
        if !(1..=3).contains(&first.len()) || groups.any(|group| group.len() != 3) {
            return None;
        }
    }
    let mut plain = whole.replace(thousands, "");
    if plain.is_empty() && decimals.is_empty() {
        return None;
    }
    plain.push('.');
    plain.push_str(decimals);
    let is_plain = plain.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let value: f64 = is_plain.then(|| plain.parse().ok()).flatten()?;
    value.is_finite().then_some(value)
}

fn ambiguous(text: &str, grouped: &str, sign: f64) -> NumberError {
    let show = |decimal| {
        parse(grouped, decimal)
            .map(|value| format!("{}", sign * value))
            .unwrap_or_default()
    };
    let (mut one, mut other) = (show(DecimalSign::Point), show(DecimalSign::Comma));
    if grouped.contains(',') {
        std::mem::swap(&mut one, &mut other);
    }
    NumberError::Ambiguous {
        found: text.to_owned(),
        one,
        other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_numbers_that_mean_one_thing() {
        for (text, value) in [
            ("12", 12.0),
            ("-3", -3.0),
            ("3-", -3.0),
            ("(3)", -3.0),
            ("12,5", 12.5),
            ("12.50", 12.5),
            ("1.234,56", 1234.56),
            ("1,234.56", 1234.56),
            ("1.250.000", 1_250_000.0),
            ("1 250,5", 1250.5),
            ("1\u{a0}250", 1250.0),
            ("1'250.00", 1250.0),
            ("0,125", 0.125),
            ("1250,000", 1250.0),
            (",5", 0.5),
        ] {
            assert_eq!(read_number(text, None), Ok(value), "{text}");
        }
    }

    #[test]
    fn a_single_group_of_three_needs_its_column() {
        for text in ["1.250", "1,250", "12.500", "-1.250"] {
            assert!(
                matches!(read_number(text, None), Err(NumberError::Ambiguous { .. })),
                "{text}"
            );
        }
        assert_eq!(read_number("1.250", Some(DecimalSign::Comma)), Ok(1250.0));
        assert_eq!(read_number("1.250", Some(DecimalSign::Point)), Ok(1.25));
        assert_eq!(read_number("1,250", Some(DecimalSign::Point)), Ok(1250.0));
        assert_eq!(
            read_number("1.250", None).unwrap_err().to_string(),
            "`1.250` is either 1.25 or 1250, and no other cell of the column decides; expected an unmistakable number"
        );
    }

    #[test]
    fn refuses_what_is_no_number() {
        for text in [
            "",
            "-",
            "a",
            "1a",
            "12.03.2026",
            "1 25",
            "1,25,0",
            "1.2.3",
            "--1",
            "-1-",
            "1e5",
            "NaN",
            ".",
        ] {
            assert!(read_number(text, None).is_err(), "{text}");
        }
    }

    #[test]
    fn a_column_of_two_minds_proves_nothing() {
        let evidence = |texts: &[&str]| {
            let mut evidence = NumberEvidence::default();
            texts.iter().for_each(|text| evidence.add(text));
            evidence.sign()
        };
        assert_eq!(evidence(&["1.250", "3,5 €"]), Some(DecimalSign::Comma));
        assert_eq!(evidence(&["1.250", "$ 3.5"]), Some(DecimalSign::Point));
        assert_eq!(evidence(&["1.250.000"]), Some(DecimalSign::Comma));
        assert_eq!(evidence(&["1.250", "2.500"]), None);
        assert_eq!(evidence(&["1,5", "1.5"]), None);
        assert_eq!(evidence(&["12.03.2026"]), None);
    }
}
