//! Words as lists hold them: in lower case, without the punctuation that is written on them.

use std::borrow::Cow;

/// A word in lower case, without punctuation and brackets around it; nothing is copied where it is so already.
pub(super) fn plain(word: &str) -> Cow<'_, str> {
    let is_sign = |b: u8| matches!(b, b',' | b';' | b'.' | b'(' | b')');
    let bytes = word.as_bytes();
    let start = bytes.iter().take_while(|b| is_sign(**b)).count();
    let ends = bytes[start..].iter().rev().take_while(|b| is_sign(**b));
    let bare = &word[start..word.len() - ends.count()];
    // Letters outside ASCII may have another small letter.
    if bare
        .bytes()
        .all(|b| b.is_ascii() && !b.is_ascii_uppercase())
    {
        Cow::Borrowed(bare)
    } else {
        Cow::Owned(bare.to_lowercase())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plain_word_is_as_trimming_and_lowering_makes_it() {
        for word in [
            "seal",
            "Seal,",
            "(OIL)",
            "AUSSEN.",
            "AU\u{df}EN",
            "\u{c4}u\u{df}ere;",
            "",
            ",",
            ".,;()",
            "2.5",
            "(.5),",
            "\u{b0}C",
        ] {
            let searched = word.trim_matches([',', ';', '.', '(', ')']).to_lowercase();
            assert_eq!(plain(word), searched, "{word}");
        }
        assert!(matches!(plain("seal,"), Cow::Borrowed("seal")));
    }
}
