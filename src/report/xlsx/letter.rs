//! How wide words are in the face of the workbook, so that widths of columns and heights of rows can be reckoned.

/// Advance widths of the signs from the blank to the tilde, in thousandths of the letters' size: the metrics of Helvetica, which
/// Arial and Liberation Sans keep.
///
/// Source: Adobe, Font Metrics for PDF Core 14 Fonts, `Helvetica.afm`; measured of Liberation Sans, and held to its file by the test.
#[rustfmt::skip]
const REGULAR: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
    333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
    556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];
/// The same of the bold face.
///
/// Source: the same fonts, `Helvetica-Bold.afm`.
#[rustfmt::skip]
const BOLD: [u16; 95] = [
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
    975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
    333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
    611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
];
/// Other letters, and signs such as arrows and shapes: as wide as the widest of their kind that is common.
const OTHER_SMALL: u16 = 611;
const OTHER_LARGE: u16 = 778;
const OTHER_SIGN: u16 = 1000;

/// Face of words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Weight {
    /// Upright and thin.
    Regular,
    /// Bold.
    Bold,
}

/// Width of words at a size of 1.
///
/// # Units
/// Both in points: words of 9 points take nine times the result.
pub(super) fn width(words: &str, weight: Weight) -> f64 {
    let thousandths: u32 = words
        .chars()
        .map(|sign| u32::from(advance(sign, weight)))
        .sum();
    f64::from(thousandths) / 1000.0
}

fn advance(sign: char, weight: Weight) -> u16 {
    let table = match weight {
        Weight::Regular => &REGULAR,
        Weight::Bold => &BOLD,
    };
    let place = (sign as usize).checked_sub(0x20);
    if let Some(width) = place.and_then(|place| table.get(place)) {
        return *width;
    }
    match sign {
        '\u{a0}' => table[0],
        of if of.is_lowercase() => OTHER_SMALL,
        // Letters without case are those of scripts whose signs are squares.
        of if of.is_uppercase() => OTHER_LARGE,
        _ => OTHER_SIGN,
    }
}

#[cfg(test)]
mod tests;
