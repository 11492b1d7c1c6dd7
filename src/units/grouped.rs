//! How numbers are written in words and tables: groups of three digits, decimals as many as tell.

/// A number with groups of three digits and at least `least`, at most `most` decimals.
///
/// # Example
/// ```
/// use sparewright::units::grouped;
/// assert_eq!(grouped(1_234_567.5, 2, 2), "1,234,567.50");
/// assert_eq!(grouped(34.925, 0, 4), "34.925");
/// ```
pub fn grouped(number: f64, least: usize, most: usize) -> String {
    // Halves go up, as in the spreadsheet; the formatter alone would send 14.25 to 14.2.
    let scale = 10f64.powi(most as i32);
    let fixed = format!("{:.most$}", (number.abs() * scale).round() / scale);
    let (whole, decimals) = fixed.split_once('.').unwrap_or((&fixed, ""));
    let kept = decimals.trim_end_matches('0').len().max(least);
    let is_zero = fixed.bytes().all(|b| matches!(b, b'0' | b'.'));
    let mut text = String::with_capacity(fixed.len() + 6);
    if number < 0.0 && !is_zero {
        text.push('-');
    }
    text.push_str(&in_groups(whole));
    if kept > 0 {
        text.push('.');
        text.push_str(&decimals[..kept]);
    }
    text
}

/// Digits in groups of three: `1,234,567`.
pub(super) fn in_groups(digits: &str) -> String {
    let mut text = String::with_capacity(digits.len() + digits.len() / 3);
    for (place, digit) in digits.char_indices() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}
