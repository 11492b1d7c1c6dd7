//! Reads the basic designation of rolling bearings: letters, series and bore code.

use super::bore_code;
use super::parsed::Designation;
use super::series::{self, Series};
use super::size_text::{joined, size_of, split_size};
use super::text::{split_digits, strip_word, trim_signs};
use super::{suffix, unmarked};
use crate::part::{ContactAngle, Family};
use crate::units::Length;

/// Standards and words that may stand in front of a bearing's designation.
const OPENINGS: [&str; 26] = [
    "DIN 625-1",
    "DIN 625-3",
    "DIN 625",
    "DIN 628-1",
    "DIN 628-3",
    "DIN 628-4",
    "DIN 628",
    "DIN 630",
    "DIN 635-2",
    "DIN 635-1",
    "DIN 635",
    "DIN 711",
    "DIN 715",
    "DIN 720",
    "DIN 722",
    "DIN 617",
    "DIN 618",
    "DIN 5405-1",
    "DIN 5405-2",
    "DIN 5412-1",
    "DIN 5412-4",
    "DIN 5429-1",
    "DIN 5429-2",
    "ISO 15",
    "ISO 355",
    "BEARING",
];

/// Letters in front of a number, as they are told apart below.
const LETTERS: [&str; 19] = [
    "N", "NU", "NJ", "NUP", "NN", "NNU", "QJ", "NA", "RNA", "HK", "BK", "K", "AXK", "NKX", "NKIA",
    "NKIB", "R", "RLS", "RMS",
];

/// What texts begin with that are read here, where it is a letter.
pub(super) fn openings() -> Vec<&'static str> {
    [&OPENINGS[..], &LETTERS].concat()
}

/// Reads a bearing designation from cleaned text.
pub(super) fn read(text: &str) -> Option<Designation> {
    let text = strip_word(text, &OPENINGS).unwrap_or(text);
    let end = text
        .find(|c: char| !c.is_ascii_alphabetic())
        .unwrap_or(text.len());
    let (letters, rest) = text.split_at(end);
    let rest = if letters.is_empty() {
        rest
    } else {
        rest.strip_prefix([' ', '-']).unwrap_or(rest)
    };
    let (mut designation, rest) = match letters {
        "" => numeric(rest)?,
        "N" | "NU" | "NJ" | "NUP" | "NN" | "NNU" => cylindrical(letters, rest)?,
        "QJ" => four_point(rest)?,
        "NA" | "RNA" => needle(letters, rest)?,
        "HK" | "BK" => drawn_cup(letters, rest)?,
        "K" => needle_cage(rest)?,
        "AXK" => thrust_cage(rest)?,
        "NKX" | "NKIA" | "NKIB" => combined(letters, rest)?,
        "R" | "RLS" | "RMS" => inch(letters, rest)?,
        _ => return None,
    };
    suffix::read(&mut designation, rest)?;
    unmarked::fill(&mut designation);
    Some(designation)
}

type Basic<'a> = (Designation, &'a str);

fn numeric(text: &str) -> Option<Basic<'_>> {
    let (digits, rest) = split_digits(text);
    // The stroke is read first: 62/22 has a bore of 22 mm, 6222 one of 110 mm.
    if let (Some(series), Some((bore, number, after))) =
        (series::numeric(digits), bore_code::after_stroke(rest))
    {
        let basic = format!("{digits}/{number}");
        return Some((of_series(series, basic, Some(bore)), after));
    }
    let code_digits = match digits.len() {
        3 => 1,
        4 | 5 => 2,
        _ => return None,
    };
    let (head, code) = digits.split_at_checked(digits.len() - code_digits)?;
    let series = match digits {
        // Self-aligning ball bearings below 10 mm; other numbers of the two series are not standard.
        "108" | "135" | "126" | "127" | "129" => series::numeric("12"),
        _ if code_digits == 1 && head.starts_with(['1', '2', '3', '4']) => None,
        _ => series::numeric(head),
    }?;
    let bore = if code_digits == 1 {
        bore_code::one_digit(code)?
    } else {
        let last = code.parse::<u8>().ok()?;
        if last > series.last_code {
            return None;
        }
        bore_code::two_digits(code)?
    };
    let own_bore = series.has_own_bore.then_some(bore);
    Some((of_series(series, digits.to_owned(), own_bore), rest))
}

fn of_series(series: Series, basic: String, bore: Option<Length>) -> Designation {
    let mut designation = Designation::of(basic, series.family);
    designation.bore = bore;
    designation.traits.rows = series.rows;
    designation.traits.variant = series.variant.map(str::to_owned);
    designation
}

/// Series digits and a two-digit bore code, or a bore after a stroke; gives series, basic number, bore and rest.
fn series_and_bore(text: &str) -> Option<(&str, String, Length, &str)> {
    let (digits, rest) = split_digits(text);
    if let Some((bore, number, after)) = bore_code::after_stroke(rest)
        && digits.len() <= 2
    {
        return Some((digits, format!("{digits}/{number}"), bore, after));
    }
    let (series, code) = digits.split_at_checked(digits.len().checked_sub(2)?)?;
    let bore = bore_code::two_digits(code)?;
    Some((series, digits.to_owned(), bore, rest))
}

fn cylindrical<'a>(letters: &str, text: &'a str) -> Option<Basic<'a>> {
    let (digits, number, bore, rest) = series_and_bore(text)?;
    let (rib_form, rows) = series::cylindrical(letters, digits)?;
    let mut designation = Designation::of(
        format!("{letters}{number}"),
        Some(Family::CylindricalRoller),
    );
    designation.bore = Some(bore);
    designation.traits.rib_form = rib_form;
    designation.traits.rows = Some(rows);
    Some((designation, rest))
}

fn four_point(text: &str) -> Option<Basic<'_>> {
    let (series, number, bore, rest) = series_and_bore(text)?;
    if !matches!(series, "2" | "3" | "10") {
        return None;
    }
    let mut designation = Designation::of(format!("QJ{number}"), Some(Family::AngularContactBall));
    designation.bore = Some(bore);
    designation.traits.rows = Some(1);
    // DIN 628-4: 35 degrees.
    designation.traits.contact_angle = Some(ContactAngle(35));
    designation.traits.add_variant("four-point contact (QJ)");
    Some((designation, rest))
}

fn needle<'a>(letters: &str, text: &'a str) -> Option<Basic<'a>> {
    let (series, number, bore, rest) = series_and_bore(text)?;
    if !matches!(series, "48" | "49" | "69") {
        return None;
    }
    let has_inner_ring = letters == "NA";
    let family = if has_inner_ring {
        Family::NeedleRoller
    } else {
        Family::NeedleRollerNoInnerRing
    };
    let mut designation = Designation::of(format!("{letters}{number}"), Some(family));
    // Without inner ring the code is the bore of the ring left out, not the raceway on the shaft.
    designation.bore = has_inner_ring.then_some(bore);
    Some((designation, rest))
}

fn drawn_cup<'a>(letters: &str, text: &'a str) -> Option<Basic<'a>> {
    let (digits, rest) = split_digits(text);
    let (shaft, width) = digits.split_at_checked(2).filter(|_| digits.len() == 4)?;
    let shaft = shaft
        .parse::<f64>()
        .ok()
        .and_then(|mm| Length::from_mm(mm).ok())?;
    width.parse::<u8>().ok().filter(|width| *width > 0)?;
    let mut designation =
        Designation::of(format!("{letters}{digits}"), Some(Family::DrawnCupNeedle));
    designation.bore = Some(shaft);
    designation.traits.add_variant(if letters == "HK" {
        "open ends"
    } else {
        "closed end"
    });
    Some((designation, rest))
}

fn needle_cage(text: &str) -> Option<Basic<'_>> {
    let (lengths, rest) = split_size(text, 3)?;
    let size = size_of(Family::NeedleCage, &lengths)?;
    let mut designation =
        Designation::of(format!("K{}", joined(&lengths)), Some(Family::NeedleCage));
    designation.bore = lengths.first().copied();
    designation.size = Some(size);
    Some((designation, rest))
}

fn thrust_cage(text: &str) -> Option<Basic<'_>> {
    let (digits, rest) = split_digits(text);
    let bore_digits = match digits.len() {
        4 | 5 => 2,
        6 => 3,
        _ => return None,
    };
    let (bore, outside) = digits.split_at_checked(bore_digits)?;
    let mm = |text: &str| {
        text.parse::<f64>()
            .ok()
            .and_then(|mm| Length::from_mm(mm).ok())
    };
    let (bore, outside) = (mm(bore)?, mm(outside)?);
    if outside <= bore {
        return None;
    }
    let mut designation = Designation::of(format!("AXK{digits}"), Some(Family::ThrustNeedle));
    designation.bore = Some(bore);
    Some((designation, rest))
}

fn combined<'a>(letters: &str, text: &'a str) -> Option<Basic<'a>> {
    let (number, bore, rest) = if letters == "NKX" {
        let (digits, rest) = split_digits(text);
        let shaft = digits.parse::<f64>().ok().filter(|_| digits.len() == 2)?;
        (digits.to_owned(), Length::from_mm(shaft).ok()?, rest)
    } else {
        let (series, number, bore, rest) = series_and_bore(text)?;
        if series != "59" {
            return None;
        }
        (number, bore, rest)
    };
    let mut designation = Designation::of(
        format!("{letters}{number}"),
        Some(Family::CombinedNeedleThrust),
    );
    designation.bore = Some(bore);
    designation.traits.add_variant(if letters == "NKX" {
        "needle roller and thrust ball"
    } else {
        "needle roller and angular contact ball"
    });
    Some((designation, rest))
}

/// Inch series: `R` counts the bore in sixteenths of an inch, `RLS` and `RMS` in eighths.
fn inch<'a>(letters: &str, text: &'a str) -> Option<Basic<'a>> {
    const R: [u32; 13] = [2, 3, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24];
    // A closure may follow without a blank: R82RS is R8 with 2RS.
    let (digits, rest) = split_digits(text);
    let (digits, rest) = match digits.strip_suffix('2') {
        Some(shorter)
            if !shorter.is_empty()
                && (rest.starts_with('Z') || rest.starts_with("RS") || rest.starts_with("RZ")) =>
        {
            (shorter, &text[shorter.len()..])
        }
        _ => (digits, rest),
    };
    let count: u32 = digits.parse().ok()?;
    let denominator = match letters {
        "R" if R.contains(&count) => 16,
        "RLS" | "RMS" if (4..=32).contains(&count) => 8,
        _ => return None,
    };
    let mut designation =
        Designation::of(format!("{letters}{count}"), Some(Family::DeepGrooveBall));
    designation.bore = Length::from_inch_fraction(0, count, denominator).ok();
    designation.traits.rows = Some(1);
    Some((designation, trim_signs(rest)))
}
