//! Text as long as a cell can hold.

use std::borrow::Cow;

/// Most UTF-16 units in a cell (limit of the format).
const MAX_CELL_UNITS: usize = 32_767;
/// What ends a text that was cut.
const CUT_MARK: &str = " […cut: longer than a cell can hold]";

/// The text, cut with a visible mark where a cell cannot hold it.
pub(super) fn fitting(text: &str) -> Cow<'_, str> {
    if text.len() <= MAX_CELL_UNITS || text.encode_utf16().count() <= MAX_CELL_UNITS {
        return Cow::Borrowed(text);
    }
    let room = MAX_CELL_UNITS - CUT_MARK.encode_utf16().count();
    let mut used = 0;
    let kept: String = text
        .chars()
        .take_while(|c| {
            used += c.len_utf16();
            used <= room
        })
        .collect();
    Cow::Owned(kept + CUT_MARK)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_longer_than_a_cell_is_cut_with_a_mark() {
        let fits = "ü".repeat(MAX_CELL_UNITS);
        assert_eq!(fitting(&fits), fits);
        let cut = fitting(&format!("{fits}ü")).into_owned();
        assert!(cut.ends_with(CUT_MARK));
        assert_eq!(cut.encode_utf16().count(), MAX_CELL_UNITS);
        // A sign outside the basic plane counts twice.
        let wide = "𝄞".repeat(20_000);
        assert!(fitting(&wide).encode_utf16().count() <= MAX_CELL_UNITS);
    }
}
