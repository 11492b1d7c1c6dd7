//! The middle of some values.

use std::cmp::Ordering;

/// The two middle values, the same twice of an odd number of them; `None` of nothing.
pub fn middles<T: Copy>(mut values: Vec<T>, by: impl Fn(&T, &T) -> Ordering) -> Option<(T, T)> {
    values.sort_unstable_by(by);
    let upper = *values.get(values.len() / 2)?;
    Some((values[(values.len() - 1) / 2], upper))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_odd_number_has_one_middle_and_an_even_one_two() {
        for (values, expected) in [
            (&[][..], None),
            (&[3], Some((3, 3))),
            (&[9, 1], Some((1, 9))),
            (&[9, 1, 2], Some((2, 2))),
            (&[4, 9, 1, 2], Some((2, 4))),
        ] {
            assert_eq!(middles(values.to_vec(), i64::cmp), expected);
        }
    }
}
