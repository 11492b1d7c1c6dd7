//! Numbers and names as keys: spelling variants of one number meet, different parts never do.

use std::fmt;

/// A number or name with case, blanks, hyphens and dots taken out, except between two digits.
///
/// `6305-2RS`, `6305 2RS` and `6305/2RS` are one key; `62/22` (22 mm bore) and `6222` (110 mm) are two, because
/// a stroke between two digits belongs to the bore code of DIN 623-1 and is kept. A hyphen or blank between two
/// digits is kept too, so that `1-12` and `11-2` stay two.
///
/// # Example
/// ```
/// use sparewright::part::NameKey;
/// assert_eq!(NameKey::new("6305-2RS"), NameKey::new("6305/2rs"));
/// assert_ne!(NameKey::new("62/22"), NameKey::new("6222"));
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct NameKey(String);

impl NameKey {
    /// Makes the key of a printed number or name.
    pub fn new(printed: &str) -> Self {
        let mut rest = printed.trim();
        let mut key = String::with_capacity(rest.len());
        while let Some(c) = rest.chars().next() {
            if c.is_ascii_alphanumeric() {
                key.push(c.to_ascii_uppercase());
                rest = &rest[1..];
                continue;
            }
            if c.is_alphanumeric() {
                // Some letters become a letter and signs upon it; the signs are no part of the key.
                key.extend(c.to_uppercase().filter(|c| c.is_alphanumeric()));
                rest = &rest[c.len_utf8()..];
                continue;
            }
            let end = rest.find(char::is_alphanumeric).unwrap_or(rest.len());
            let (run, after) = rest.split_at(end);
            let separates_digits = key.ends_with(|c: char| c.is_ascii_digit())
                && after.starts_with(|c: char| c.is_ascii_digit())
                && !starts_closure(after);
            if separates_digits {
                key.push(separator(run));
            }
            rest = after;
        }
        Self(key)
    }

    /// The key's text.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The key's text, given away.
    pub fn into_text(self) -> String {
        self.0
    }

    /// True where nothing was left to compare.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// The one sign that a run of signs between two digits stands for.
fn separator(run: &str) -> char {
    if run.contains('/') {
        '/'
    } else if run.contains(['.', ',']) {
        '.'
    } else {
        '-'
    }
}

/// `2RS`, `2Z` or `2RZ` after a stroke is a closure, not a bore code.
fn starts_closure(rest: &str) -> bool {
    let is_before = |closure: &str| {
        let start = rest.get(..closure.len());
        start.is_some_and(|start| start.eq_ignore_ascii_case(closure))
    };
    ["2RS", "2Z", "2RZ"].into_iter().any(is_before)
}

impl fmt::Display for NameKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spelling_variants_of_one_number_meet() {
        for variant in [
            "6305-2RS",
            "6305 2RS",
            "6305/2RS",
            " 6305\u{a0}2rs ",
            "6305.2RS",
        ] {
            assert_eq!(NameKey::new(variant).as_str(), "63052RS", "{variant}");
        }
    }

    #[test]
    fn a_bore_code_after_a_stroke_and_a_decimal_are_kept() {
        // DIN 623-1: 62/22 has a bore of 22 mm, 6222 one of 110 mm.
        assert_ne!(NameKey::new("62/22"), NameKey::new("6222"));
        assert_ne!(
            NameKey::new("O-ring 31.34x3.53"),
            NameKey::new("O-ring 3134x353")
        );
        assert_eq!(NameKey::new("31,34x3,53"), NameKey::new("31.34 x 3.53"));
        assert_ne!(NameKey::new("BRG-1-12"), NameKey::new("BRG-11-2"));
    }
}
