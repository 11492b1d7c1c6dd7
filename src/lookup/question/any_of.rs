//! Pieces of text that are looked for all at one go: most questions hold none of many, and that is found out first.

/// Pieces in lower case by the byte that each begins with.
#[derive(Debug)]
pub(super) struct AnyOf([Vec<&'static str>; 256]);

impl FromIterator<&'static str> for AnyOf {
    fn from_iter<I: IntoIterator<Item = &'static str>>(pieces: I) -> Self {
        let mut by_first = [const { Vec::new() }; 256];
        for piece in pieces {
            if let Some(first) = piece.bytes().next() {
                by_first[usize::from(first)].push(piece);
            }
        }
        Self(by_first)
    }
}

impl AnyOf {
    /// False where none of the pieces stands in a text once it is in lower case. Letters outside ASCII leave that open: their
    /// small ones are other bytes.
    pub(super) fn may_stand_in(&self, text: &str) -> bool {
        !text.is_ascii() || self.stands_in(text)
    }

    /// True where one of the pieces stands in a text, whatever its case and whatever it is a part of.
    pub(super) fn stands_in(&self, text: &str) -> bool {
        let text = text.as_bytes();
        text.iter().enumerate().any(|(at, first)| {
            let alike = &self.0[usize::from(first.to_ascii_lowercase())];
            alike.iter().any(|piece| {
                let there = text.get(at..at + piece.len());
                there.is_some_and(|there| there.eq_ignore_ascii_case(piece.as_bytes()))
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_stand_where_a_search_for_each_finds_one() {
        let pieces = ["rpm", "min", "/in", "²", "umlauf", "um"];
        let any: AnyOf = pieces.into_iter().collect();
        for text in [
            "3000 RPM",
            "r pm",
            "aluminium",
            "lbf/IN²",
            "mm²",
            "mm2",
            "Umlaufend",
            "u",
            "",
            "rp",
            "²",
        ] {
            let lower = text.to_ascii_lowercase();
            let searched = pieces.iter().any(|piece| lower.contains(piece));
            assert_eq!(any.stands_in(text), searched, "{text}");
            let lower = text.to_lowercase();
            let searched = pieces.iter().any(|piece| lower.contains(piece));
            assert!(any.may_stand_in(text) || !searched, "{text}");
        }
    }
}
