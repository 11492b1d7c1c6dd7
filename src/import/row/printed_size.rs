//! Dimensions of a row as printed: which columns hold those of a family, and how they compare with a standard size.

use chrono::{Datelike, NaiveDate};

use crate::import::cell::{Cell, number_text};
use crate::import::damage::{fractions_of, turned_into_date};
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::stated::length_unit;
use crate::part::{Dimension, Family, SizeKey};
use crate::standard;
use crate::units::{Length, LengthUnit, ReadLength, read_length, read_size};

use super::context::ReadColumn;
use super::reader::RowReader;

/// Printed lengths in the order of the family's key dimensions; `None` where a dimension is not printed.
pub type Printed = [Option<ReadLength>; 4];

/// A dimension could not be read; the issue is already among the row's.
pub struct Unreadable;

/// Reads the dimensions of a family from its columns and from a size in one cell.
pub fn dimensions(row: &mut RowReader<'_, '_>, family: Family) -> Result<Printed, Unreadable> {
    let mut printed: Printed = [None; 4];
    let mut taken: Vec<Field> = Vec::with_capacity(4);
    for (slot, dimension) in printed.iter_mut().zip(family.key_dimensions()) {
        for field in fields_of(*dimension, family) {
            if taken.contains(field) {
                continue;
            }
            if let Some(length) = length(row, *field)? {
                taken.push(*field);
                *slot = Some(length);
                break;
            }
        }
    }
    let is_partial = printed.iter().flatten().count() < family.key_dimensions().len();
    if is_partial && let Some(whole) = whole_size(row, family)? {
        for (slot, whole) in printed.iter_mut().zip(whole) {
            *slot = slot.or(whole);
        }
    }
    Ok(printed)
}

/// Columns that may hold a dimension of a family, the likeliest first: the bore of a lip seal is its shaft.
fn fields_of(dimension: Dimension, family: Family) -> &'static [Field] {
    use Dimension as D;
    use Field as F;
    match dimension {
        D::Bore => &[F::Bore, F::InsideDiameter, F::ShaftDiameter],
        D::OutsideDiameter => &[F::OutsideDiameter, F::HousingBore],
        D::Width => &[F::Width, F::AssembledWidth, F::Height, F::Length],
        // A column of widths holds B of a tapered roller bearing, the width of its cone, and not T.
        D::AssembledWidth => &[F::AssembledWidth],
        D::Height => &[F::Height, F::AssembledWidth, F::Width],
        D::HousingWasherBore => &[F::HousingWasherBore],
        D::InnerRacewayDiameter => &[F::InnerRacewayDiameter, F::Bore, F::InsideDiameter],
        D::OuterRacewayDiameter => &[F::OuterRacewayDiameter, F::OutsideDiameter],
        D::CageOutsideDiameter => &[F::CageOutsideDiameter, F::OutsideDiameter],
        D::ShaftDiameter => &[F::ShaftDiameter, F::Bore, F::InsideDiameter],
        // Where no shaft stands before it, a column of bores is its own.
        D::HousingBore if family.key_dimensions().first() == Some(&D::HousingBore) => {
            &[F::HousingBore, F::Bore, F::OutsideDiameter]
        }
        D::HousingBore => &[F::HousingBore, F::OutsideDiameter],
        D::InsideDiameter => &[F::InsideDiameter, F::Bore],
        D::Section => &[F::Section, F::Width, F::Height],
        D::ThreadDiameter => &[F::ThreadDiameter],
        D::ThreadPitch => &[F::ThreadPitch],
        D::PinDiameter => &[F::PinDiameter, F::OutsideDiameter, F::Bore],
        D::Length => &[F::Length, F::Width],
    }
}

/// The unit of the row's own column, if it names one.
fn row_unit(row: &mut RowReader<'_, '_>) -> Result<Option<LengthUnit>, Unreadable> {
    let Some(text) = row.text_of(Field::LengthUnit) else {
        return Ok(None);
    };
    match row.word(Field::LengthUnit, &text, "mm, cm or inch", length_unit) {
        Some(unit) => Ok(Some(unit)),
        // Lengths of an unknown unit are no lengths.
        None => Err(Unreadable),
    }
}

/// The length in a field's column, or an issue.
pub fn length(row: &mut RowReader<'_, '_>, field: Field) -> Result<Option<ReadLength>, Unreadable> {
    let table = row.table;
    let Some(column) = table.column(field) else {
        return Ok(None);
    };
    let cell = row.cell(field);
    if cell == Cell::Empty {
        return Ok(None);
    }
    let unit = row_unit(row)?
        .or(column.states.length)
        .unwrap_or(table.unit);
    let read = match cell {
        Cell::Text(text) => read_length(text.trim_start_matches('M'), unit),
        Cell::Number(value) => read_length(&number_text(value), unit),
        Cell::Date(moment) => return fraction(row, column, moment.date()).map(Some),
        other => read_length(&other.to_text(), unit),
    };
    match read {
        Ok(length) => Ok(Some(length)),
        Err(error) => {
            // `M25x1.5` in a thread column is both of its dimensions and read as a whole size.
            if field == Field::ThreadDiameter
                && read_size(&cell.to_text().replace('M', ""), unit).is_ok()
            {
                return Ok(None);
            }
            row.issue(Severity::Doubtful, Some(field), error.into());
            Err(Unreadable)
        }
    }
}

/// A fraction that a spreadsheet program turned into a date, where the neighbours or the header are of inches and only
/// one fraction may have been typed; else an issue that names the likely ones.
fn fraction(
    row: &mut RowReader<'_, '_>,
    column: &ReadColumn,
    date: NaiveDate,
) -> Result<ReadLength, Unreadable> {
    let likely = fractions_of(date);
    let are_inches =
        column.neighbours.are_fractions() || column.states.length == Some(LengthUnit::Inch);
    if let [only] = likely.as_slice()
        && are_inches
        && let Ok(length) = read_length(only, LengthUnit::Inch)
    {
        let read = only.clone();
        row.issue(
            Severity::Note,
            Some(column.field),
            Problem::ReadFromDate { date, read },
        );
        return Ok(length);
    }
    let likely = if likely.is_empty() {
        vec![format!("{}/{}", date.month(), date.day())]
    } else {
        likely
    };
    let problem = turned_into_date(date, &likely, "a length as text, such as `7/16\"`");
    row.issue(Severity::Doubtful, Some(column.field), problem);
    Err(Unreadable)
}

/// A size in one cell: `30x62x16`, `M25x1.5`.
fn whole_size(row: &mut RowReader<'_, '_>, family: Family) -> Result<Option<Printed>, Unreadable> {
    let table = row.table;
    let fields = [Field::Size, Field::ThreadDiameter];
    let Some((field, column)) = fields
        .iter()
        .find_map(|field| table.column(*field).map(|column| (*field, column)))
    else {
        return Ok(None);
    };
    if let Cell::Date(moment) = row.cell(field) {
        let date = moment.date();
        let (day, month, year) = (date.day(), date.month(), date.year().rem_euclid(100));
        let likely = [
            format!("{day}/{month}/{year:02}"),
            format!("{month}/{day}/{year:02}"),
        ];
        let problem = turned_into_date(date, &likely, "a size such as `30x62x16`");
        row.issue(Severity::Doubtful, Some(field), problem);
        return Err(Unreadable);
    }
    let Some(text) = row.text(field) else {
        return Ok(None);
    };
    let unit = row_unit(row)?
        .or(column.states.length)
        .unwrap_or(table.unit);
    match read_size(text.trim_start_matches('M'), unit) {
        Ok(lengths) if lengths.len() == family.key_dimensions().len() => {
            Ok(Some(in_slots(&lengths)))
        }
        Ok(lengths) => {
            let problem = crate::part::SizeError::WrongCount {
                family,
                found: lengths.len(),
            }
            .into();
            row.issue(Severity::Doubtful, Some(field), problem);
            Err(Unreadable)
        }
        Err(error) => {
            row.issue(Severity::Doubtful, Some(field), error.into());
            Err(Unreadable)
        }
    }
}

fn in_slots(lengths: &[ReadLength]) -> Printed {
    let mut printed: Printed = [None; 4];
    for (slot, length) in printed.iter_mut().zip(lengths) {
        *slot = Some(*length);
    }
    printed
}

/// A size among the words of a description, where exactly one word is a size of the family.
pub fn size_in(text: &str, family: Family, unit: LengthUnit) -> Option<Printed> {
    match family.key_dimensions().len() {
        0 | 1 => diameter_in(text, family, unit),
        wanted => {
            lengths_in(text, wanted, unit).or_else(|| without_washer_bore(text, family, unit))
        }
    }
}

/// A size of a thrust bearing as lists print it, bore, outside diameter and height: the bore of the housing washer is that of
/// the only bearing of the tables with these (ISO 104).
fn without_washer_bore(text: &str, family: Family, unit: LengthUnit) -> Option<Printed> {
    let key = family.key_dimensions();
    let at = key
        .iter()
        .position(|of| *of == Dimension::HousingWasherBore)?;
    let mut told = lengths_in(text, key.len() - 1, unit)?;
    told[at..].rotate_right(1);
    let is_of = |size: &SizeKey| {
        (0..key.len()).filter(|place| *place != at).all(|place| {
            let exact = size.length_at(place);
            told[place]
                .zip(exact)
                .is_some_and(|(told, exact)| told.length == exact)
        })
    };
    let mut sizes = (standard::of_family(family).iter())
        .map(|part| part.size)
        .filter(is_of);
    let only = sizes.next()?;
    let length = only
        .length_at(at)
        .filter(|_| sizes.all(|other| other == only))?;
    told[at] = told[0].map(|read| ReadLength { length, ..read });
    Some(told)
}

/// So many lengths in one word of a description, where exactly one word holds as many.
pub fn lengths_in(text: &str, wanted: usize, unit: LengthUnit) -> Option<Printed> {
    match &sizes_in(text, wanted, unit)[..] {
        [(_, only)] => Some(*only),
        _ => None,
    }
}

/// Every word of a text that is a size of so many lengths, with the size.
pub fn sizes_in(text: &str, wanted: usize, unit: LengthUnit) -> Vec<(String, Printed)> {
    let joined = with_mixed_joined(text)
        .replace(" x ", "x")
        .replace(" X ", "x")
        .replace(" × ", "x");
    joined
        .split([' ', ';', '(', ')'])
        .map(|word| word.trim_matches([',', '.']).trim_start_matches('M'))
        .filter(|word| {
            word.starts_with(|c: char| c.is_ascii_digit()) && word.contains(['x', 'X', '×', '*'])
        })
        .filter_map(|word| Some((word.to_owned(), size_of_word(word, wanted, unit)?)))
        .collect()
}

/// The size that a word is, if it has so many lengths.
pub fn size_of_word(word: &str, wanted: usize, unit: LengthUnit) -> Option<Printed> {
    let lengths = read_size(word, unit).ok()?;
    (lengths.len() == wanted).then(|| in_slots(&lengths))
}

/// A text in which a whole number and the inch fraction behind it are one word: `3/8 x 1 1/2` has `1-1/2`.
fn with_mixed_joined(text: &str) -> String {
    let mut joined = String::with_capacity(text.len());
    let mut before = "";
    for word in text.split_whitespace() {
        // `x1` of `3/8 x1 1/2`.
        let figure = before
            .rsplit(['x', 'X', '×', '*', 'Ø', '('])
            .next()
            .unwrap_or_default();
        let is_whole = (1..=MOST_DIGITS_OF_INCHES).contains(&figure.len())
            && figure.bytes().all(|byte| byte.is_ascii_digit());
        let is_first = joined.is_empty();
        joined.push_str(match (is_first, is_whole && begins_with_fraction(word)) {
            (true, _) => "",
            (false, true) => "-",
            (false, false) => " ",
        });
        joined.push_str(word);
        before = word;
    }
    joined
}

/// Most digits of whole inches in front of a fraction.
const MOST_DIGITS_OF_INCHES: usize = 2;

/// True for a word that begins with a proper fraction of an inch: `1/2`, `5/8"`, `1/4x3/8`.
fn begins_with_fraction(word: &str) -> bool {
    let Some((above, rest)) = word.split_once('/') else {
        return false;
    };
    let end = rest
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(rest.len());
    let figures = above
        .parse::<u32>()
        .ok()
        .zip(rest[..end].parse::<u32>().ok());
    figures.is_some_and(|(above, below)| {
        above > 0 && above < below && below <= 64 && below.is_power_of_two()
    })
}

/// The diameter among the words of a ring, `External circlip 40`, where it is the only figure but that of its standard
/// and is one of the tables: any figure may be a count.
fn diameter_in(text: &str, family: Family, unit: LengthUnit) -> Option<Printed> {
    let words = text.split([' ', ';', '(', ')', '-', '/']);
    let words = words.map(|word| word.trim_matches([',', '.', 'Ø', 'ø']));
    let is_figure = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit());
    let mut figures = words.filter(|word| is_figure(word) && !matches!(*word, "471" | "472"));
    let only = figures.next().filter(|_| figures.next().is_none())?;
    // `40x1.75`: the thickness follows.
    let diameter = only.split(['x', 'X', '×']).next().unwrap_or_default();
    let read = read_length(diameter, unit).ok()?;
    let size = SizeKey::new(family, &[read.length]).ok()?;
    (!standard::of_size(&size).is_empty()).then(|| in_slots(&[read]))
}

/// True where a printed dimension cannot be that of the standard size.
pub fn contradicts(printed: &Printed, standard: &SizeKey) -> bool {
    printed
        .iter()
        .zip(standard.dimensions())
        .any(|(printed, (_, exact))| {
            printed.is_some_and(|printed| !may_be(printed, exact) && printed.length != exact)
        })
}

/// 1/64 in, nm: the step of the inch sizes of ABMA 20.
const STEP_64TH_NM: i64 = 396_875;
/// Half of the last of four decimals of an inch, nm.
const HALF_DIGIT_INCH_NM: i64 = 1_270;

/// True where `exact` may have been printed so, perhaps by way of an inch rounded to four decimals: 9/32 in is
/// 7.14375 mm, but .2812 in is 7.142 mm.
fn may_be(printed: ReadLength, exact: Length) -> bool {
    let is_fraction = exact.as_nm() % STEP_64TH_NM == 0 && exact.as_nm() % 10_000 != 0;
    let off = (printed.length.as_nm() - exact.as_nm()).abs();
    printed.may_be(exact)
        || is_fraction && off <= printed.half_digit_nm.min(500) + HALF_DIGIT_INCH_NM
}

/// True where a printed dimension differs from the exact one.
pub fn is_rounded(printed: &Printed, standard: &SizeKey) -> bool {
    printed
        .iter()
        .zip(standard.dimensions())
        .any(|(printed, (_, exact))| printed.is_some_and(|printed| printed.length != exact))
}

/// The printed dimensions, in mm.
pub fn show(printed: &Printed) -> String {
    let lengths: Vec<String> = printed
        .iter()
        .flatten()
        .map(|read| format!("{:#}", read.length))
        .collect();
    format!("{} mm", lengths.join(" x "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_inches_and_the_fraction_behind_them_are_one_length() {
        // Arithmetic, 25.4 mm to the inch: 1 1/2 in is 38.1 mm, 1 1/4 in 31.75 mm, 1 3/8 in 34.925 mm.
        for (text, family, sizes) in [
            (
                "Dowel pin 3/8 x 1 1/2",
                Family::DowelPin,
                &["9.525", "38.1"][..],
            ),
            ("Dowel 1/4 x 1 1/4", Family::DowelPin, &["6.35", "31.75"]),
            (
                "Dowel pin 3/8\" x 1 1/2\"",
                Family::DowelPin,
                &["9.525", "38.1"],
            ),
            ("Dowel pin 3/8x1-1/2", Family::DowelPin, &["9.525", "38.1"]),
            ("Dowel pin 1/4 x 3/4", Family::DowelPin, &["6.35", "19.05"]),
            ("Dowel pin 1/4 x 1", Family::DowelPin, &["6.35", "25.4"]),
            ("O-ring 1 1/4 x 1/8", Family::ORing, &["31.75", "3.175"]),
            (
                "Oil seal 1 3/8 x 2 x 3/8",
                Family::LipSeal,
                &["34.925", "50.8", "9.525"],
            ),
            ("Dowel pin 8 x 40", Family::DowelPin, &["8", "40"]),
        ] {
            let read = size_in(text, family, LengthUnit::Mm).unwrap();
            let read: Vec<String> = (read.iter().flatten())
                .map(|read| format!("{:#}", read.length))
                .collect();
            assert_eq!(read, sizes, "{text}");
        }
    }
}
