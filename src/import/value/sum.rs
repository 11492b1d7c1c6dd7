//! A sum of money that somebody types, without a column that tells what its signs mean.

use super::{DecimalSign, read_number};

/// Reads a sum with decimal point or comma; where only the signs could tell, a sign before three digits stands between
/// thousands, because no price has three decimals. `None` for what is no number.
pub fn read_sum(text: &str) -> Option<f64> {
    let otherwise = if text.contains('.') {
        DecimalSign::Comma
    } else {
        DecimalSign::Point
    };
    read_number(text, Some(otherwise)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// DIN 1333 and ISO 80000-1: comma or point before decimals.
    #[test]
    fn sums_are_read_with_either_sign() {
        for (text, sum) in [
            ("3000", Some(3000.0)),
            ("3000,50", Some(3000.5)),
            ("3.000,50", Some(3000.5)),
            ("3,000.50", Some(3000.5)),
            ("3.000", Some(3000.0)),
            ("3,000", Some(3000.0)),
            ("-5", Some(-5.0)),
            ("abc", None),
            ("", None),
        ] {
            let read = read_sum(text);
            let is_it = match (read, sum) {
                (Some(read), Some(sum)) => (read - sum).abs() < 1e-9,
                (None, None) => true,
                _ => false,
            };
            assert!(is_it, "{text}: {read:?}");
        }
    }
}
