//! Reads lengths and sizes as people write them: `25,4`, `7/16"`, `1 3/8 in`, `Ø25`, `30x62x16`.

use super::length::{Length, LengthError, LengthUnit};

/// A length as it was written: value, unit and how finely it was printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct ReadLength {
    /// The value.
    pub length: Length,
    /// The unit it was read in.
    pub unit: LengthUnit,
    /// True where the text itself named the unit (`"`, `in`, `mm`) or was an inch fraction.
    pub is_unit_stated: bool,
    /// Half of the last printed digit in nanometres; 0 for a fraction, which is exact.
    ///
    /// `22.23` in mm has 5,000 nm: the exact size lies within 22.225 to 22.235 mm.
    pub half_digit_nm: i64,
}

impl ReadLength {
    /// Says whether `exact` may have been printed as this length.
    pub fn may_be(&self, exact: Length) -> bool {
        (self.length.as_nm() - exact.as_nm()).abs() <= self.half_digit_nm
    }
}

/// Reads one length; `default_unit` holds where the text names none.
///
/// A bare fraction (`7/16`, `1 3/8`, `1-3/8`) is always in inches: no metric size is written so.
/// A decimal comma is a decimal point. Thousands separators are refused, because `1.250` is either
/// 1.25 or 1250 and only the column can tell.
///
/// # Errors
/// [`LengthError::NotALength`] where no single length can be read, [`LengthError::OutOfRange`] for 0 and the like.
///
/// # Example
/// ```
/// use sparewright::units::{read_length, LengthUnit};
/// assert_eq!(read_length("1 3/8\"", LengthUnit::Mm)?.length.to_string(), "34.925 mm");
/// assert_eq!(read_length("Ø 25,4", LengthUnit::Mm)?.length.to_string(), "25.4 mm");
/// assert_eq!(read_length(".875", LengthUnit::Inch)?.length.to_string(), "22.225 mm");
/// # Ok::<(), sparewright::units::LengthError>(())
/// ```
pub fn read_length(text: &str, default_unit: LengthUnit) -> Result<ReadLength, LengthError> {
    // Most texts are a number and nothing else.
    let is_number = |b: u8| b.is_ascii_digit() || matches!(b, b'.' | b',');
    if !text.is_empty() && text.bytes().all(is_number) {
        return read_number(text, default_unit, false, text);
    }
    let cleaned = text.replace(['\u{a0}', '\u{202f}', '\u{2009}'], " ");
    let body = cleaned
        .trim()
        .trim_start_matches(['Ø', 'ø', '⌀', '∅', '⌽'])
        .trim();
    let (body, stated) = split_unit(body);
    if body.is_empty() {
        return Err(not_a_length(text));
    }
    if let Some(fraction) = read_fraction(body) {
        if matches!(stated, Some(LengthUnit::Mm | LengthUnit::Cm)) {
            return Err(not_a_length(text));
        }
        let (whole, numerator, denominator) = fraction.ok_or_else(|| not_a_length(text))?;
        let length = Length::from_inch_fraction(whole, numerator, denominator)?;
        return Ok(ReadLength {
            length,
            unit: LengthUnit::Inch,
            is_unit_stated: true,
            half_digit_nm: 0,
        });
    }
    let unit = stated.unwrap_or(default_unit);
    read_number(body, unit, stated.is_some(), text)
}

fn not_a_length(text: &str) -> LengthError {
    LengthError::NotALength {
        found: text.trim().to_owned(),
    }
}

/// Reads digits with at most one decimal sign, which are all of a text but its unit.
fn read_number(
    body: &str,
    unit: LengthUnit,
    is_unit_stated: bool,
    text: &str,
) -> Result<ReadLength, LengthError> {
    let is_sign = |b: u8| matches!(b, b'.' | b',');
    let signs = body.bytes().filter(|b| is_sign(*b)).count();
    let is_plain = body.bytes().all(|b| b.is_ascii_digit() || is_sign(b));
    if !is_plain || signs > 1 || body.len() == signs {
        return Err(not_a_length(text));
    }
    let value = if body.contains(',') {
        body.replace(',', ".").parse()
    } else {
        body.parse()
    };
    let value: f64 = value.map_err(|_| not_a_length(text))?;
    let decimals = body.bytes().rev().position(is_sign).unwrap_or_default();
    let length = Length::from_unit(value, unit)?;
    let half_digit = Length::from_unit(0.5 * 10f64.powi(-(decimals.min(9) as i32)), unit);
    Ok(ReadLength {
        length,
        unit,
        is_unit_stated,
        half_digit_nm: half_digit.map_or(0, Length::as_nm),
    })
}

/// Reads a size of one to four lengths joined by `x`, `×`, `*` or `/`: `30x62x16`, `3/4 x 1 5/8 x 7/16`.
///
/// A stroke separates only where no other sign does and the pieces are no inch fractions: `30/62/16` is a
/// size, `7/16` a fraction. A unit written once at the end (`30x62x16 mm`) holds for all, and a small whole number
/// beside a fraction is in inches as that is: `1 3/8 x 2 x 3/8`.
///
/// # Errors
/// The first piece that is no length, as [`LengthError`].
pub fn read_size(text: &str, default_unit: LengthUnit) -> Result<Vec<ReadLength>, LengthError> {
    let (body, stated) = split_unit(text.trim());
    let unit = stated.unwrap_or(default_unit);
    let is_cross = |c: char| matches!(c, 'x' | 'X' | '×' | '*' | 'х' | 'Х');
    let mut pieces: Vec<&str> = body.split(is_cross).map(str::trim).collect();
    if pieces.len() == 1 && body.matches('/').count() == 2 && !body.contains(' ') {
        pieces = body.split('/').collect();
    }
    if pieces.len() > 4 {
        return Err(LengthError::NotALength {
            found: text.trim().to_owned(),
        });
    }
    let mut lengths = Vec::with_capacity(pieces.len());
    for piece in pieces {
        let mut read = read_length(piece, unit)?;
        // A fraction without a unit of its own is in inches, which millimetres behind the last piece contradict.
        let is_contradicted = matches!(stated, Some(LengthUnit::Mm | LengthUnit::Cm))
            && split_unit(piece).1.is_none()
            && read_fraction(piece).is_some();
        if is_contradicted {
            return Err(LengthError::NotALength {
                found: text.trim().to_owned(),
            });
        }
        read.is_unit_stated |= stated.is_some();
        lengths.push(read);
    }
    if lengths.iter().any(is_fraction) {
        for read in &mut lengths {
            in_inches(read);
        }
    }
    Ok(lengths)
}

/// True for a length written as a fraction of an inch.
fn is_fraction(read: &ReadLength) -> bool {
    read.half_digit_nm == 0 && read.is_unit_stated && read.unit == LengthUnit::Inch
}

/// Largest whole number taken for inches beside a fraction.
const MOST_WHOLE_INCHES: i64 = 20;
/// Half of the last digit of a whole number of millimetres, nm.
const HALF_MM_NM: i64 = 500_000;

/// Takes a whole number of millimetres that no unit was written to for inches.
fn in_inches(read: &mut ReadLength) {
    let is_bare = !read.is_unit_stated && read.unit == LengthUnit::Mm;
    let is_whole = read.half_digit_nm == HALF_MM_NM && read.length.as_nm() % 1_000_000 == 0;
    let number = read.length.as_nm() / 1_000_000;
    if !is_bare || !is_whole || number > MOST_WHOLE_INCHES {
        return;
    }
    if let Ok(length) = Length::from_unit(number as f64, LengthUnit::Inch) {
        let half_digit = Length::from_unit(0.5, LengthUnit::Inch);
        *read = ReadLength {
            length,
            unit: LengthUnit::Inch,
            is_unit_stated: false,
            half_digit_nm: half_digit.map_or(0, Length::as_nm),
        };
    }
}

/// Splits a trailing unit off: `25.4 mm`, `1 3/8"`, `.875 in`, `2 Zoll`.
fn split_unit(text: &str) -> (&str, Option<LengthUnit>) {
    const UNITS: [(&str, LengthUnit); 12] = [
        ("millimeter", LengthUnit::Mm),
        ("inches", LengthUnit::Inch),
        ("inch", LengthUnit::Inch),
        ("zoll", LengthUnit::Inch),
        ("in.", LengthUnit::Inch),
        ("''", LengthUnit::Inch),
        ("mm", LengthUnit::Mm),
        ("cm", LengthUnit::Cm),
        ("in", LengthUnit::Inch),
        ("\"", LengthUnit::Inch),
        ("″", LengthUnit::Inch),
        ("”", LengthUnit::Inch),
    ];
    if text.ends_with(|c: char| c.is_ascii_digit()) {
        return (text, None);
    }
    for (ending, unit) in UNITS {
        let Some(cut) = text.len().checked_sub(ending.len()) else {
            continue;
        };
        if text.is_char_boundary(cut) && text[cut..].eq_ignore_ascii_case(ending) {
            return (text[..cut].trim_end(), Some(unit));
        }
    }
    (text, None)
}

/// Whole inches, numerator and denominator.
type Fraction = (u32, u32, u32);

/// `None`: not written as a fraction. `Some(None)`: a stroke, but no readable fraction.
fn read_fraction(text: &str) -> Option<Option<Fraction>> {
    let (left, denominator) = text.split_once('/')?;
    let (whole, numerator) = match left.trim().rsplit_once([' ', '-']) {
        Some((whole, numerator)) => (whole.trim().trim_end_matches(['"', '-']), numerator),
        None => ("0", left),
    };
    let read = |digits: &str| {
        digits
            .trim()
            .parse::<u32>()
            .ok()
            .filter(|n| *n <= 1_000_000)
    };
    let parts = (read(whole), read(numerator), read(denominator));
    Some(match parts {
        (Some(w), Some(n), Some(d))
            if d > 0 && d <= 128 && n > 0 && n < d && d.is_power_of_two() =>
        {
            Some((w, n, d))
        }
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(text: &str) -> String {
        format!("{:#}", read_length(text, LengthUnit::Mm).unwrap().length)
    }

    #[test]
    fn reads_what_people_write() {
        // Inch fractions: arithmetic, 25.4 mm to the inch.
        for (text, expected) in [
            ("25,4", "25.4"),
            ("Ø25", "25"),
            ("7/16", "11.1125"),
            ("1 3/8\"", "34.925"),
            ("1-3/8 in", "34.925"),
            (".875in", "22.225"),
            ("2.5 cm", "25"),
            ("\u{a0}40 mm ", "40"),
        ] {
            assert_eq!(mm(text), expected, "{text}");
        }
    }

    #[test]
    fn refuses_what_could_mean_two_things() {
        for text in [
            "",
            "1.250.000",
            "1,250.5",
            "7/0",
            "7/15",
            "7/16 mm",
            "a",
            "-5",
            "30-35",
            ".",
        ] {
            assert!(read_length(text, LengthUnit::Mm).is_err(), "{text}");
        }
    }

    #[test]
    fn knows_how_finely_a_number_was_printed() {
        let read = read_length("22.23", LengthUnit::Mm).unwrap();
        assert!(read.may_be(Length::from_inch_fraction(0, 7, 8).unwrap()));
        let read = read_length(".875", LengthUnit::Inch).unwrap();
        assert!(read.may_be(Length::from_mm(22.225).unwrap()));
        assert!(!read.may_be(Length::from_mm(22.25).unwrap()));
    }

    #[test]
    fn reads_sizes_of_several_lengths() {
        let show = |text: &str| -> Vec<String> {
            read_size(text, LengthUnit::Mm)
                .unwrap()
                .iter()
                .map(|r| format!("{:#}", r.length))
                .collect()
        };
        assert_eq!(show("30x62x16"), ["30", "62", "16"]);
        assert_eq!(show("30/62/16"), ["30", "62", "16"]);
        assert_eq!(show("25 × 52 × 16,25"), ["25", "52", "16.25"]);
        assert_eq!(show("3/4 x 1 5/8 x 7/16"), ["19.05", "41.275", "11.1125"]);
        // Arithmetic: 2 in is 50.8 mm. Millimetres stay where a decimal or a number too large for inches says so.
        assert_eq!(show("1 3/8 x 2 x 3/8"), ["34.925", "50.8", "9.525"]);
        assert_eq!(show("3/8 x 1"), ["9.525", "25.4"]);
        assert_eq!(show("35 x 1/4"), ["35", "6.35"]);
        assert_eq!(show("12.5 x 1/4"), ["12.5", "6.35"]);
        assert_eq!(show("2 mm x 1/4"), ["2", "6.35"]);
        assert_eq!(show("1x2x.5 in"), ["25.4", "50.8", "12.7"]);
        assert!(read_size("30xx16", LengthUnit::Mm).is_err());
    }
}
