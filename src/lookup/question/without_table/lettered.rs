//! Letters that tell a part without a table whatever stands behind its digits, `RNU 208 E`, and numbers with the name of their
//! part beside them, `H 308 sleeve`, `AN 08 nut`.

use std::sync::LazyLock;

use super::super::any_of::AnyOf;
use super::{INCH_NUT, OUTER_HALF};

/// Words that name what a number already says.
const NAMES: [&str; 13] = [
    "adapter",
    "withdrawal",
    "sleeve",
    "sleeves",
    "hülse",
    "spannhülse",
    "abziehhülse",
    "manchon",
    "lock",
    "nut",
    "locknut",
    "mutter",
    "wellenmutter",
];

/// A text in lower case without the names of a sleeve or nut; `None` where it has none.
pub(super) fn without_names(lower: &str) -> Option<String> {
    // Most texts have none: they are not taken apart.
    static ANY: LazyLock<AnyOf> = LazyLock::new(|| NAMES.into_iter().collect());
    if !ANY.stands_in(lower) {
        return None;
    }
    let is_name = |word: &&str| NAMES.contains(&word.trim_matches([',', ';', '(', ')']));
    let words = lower.split_whitespace();
    let count = words.clone().filter(is_name).count();
    let left: Vec<&str> = words.filter(|word| !is_name(word)).collect();
    (count > 0).then(|| left.join(" "))
}

/// The kind of part whose letters and digits stand in front, in lower case.
pub(super) fn kind(lower: &str) -> Option<&'static str> {
    let names = without_names(lower);
    let text = names.as_deref().unwrap_or(lower).trim();
    // `pump RNU 208`: what stands first is asked for, and nothing before has a number.
    let number = match text.split_once(" rnu") {
        Some((before, _)) if !before.contains(|c: char| c.is_ascii_digit()) => {
            &text[before.len() + 1..]
        }
        _ => text,
    };
    let end = number.find(|c: char| !c.is_ascii_alphabetic())?;
    let (letters, behind) = number.split_at(end);
    let behind = behind.trim_start_matches([' ', '-']);
    let rest = behind.trim_start_matches(|c: char| c.is_ascii_digit());
    match (letters, behind.len() - rest.len()) {
        ("an", 2) if rest.is_empty() => Some(INCH_NUT),
        ("rnu", 3..=4) if !rest.starts_with(['.', ',', 'x']) => Some(OUTER_HALF),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::asked_for;

    /// ISO 2982-1: H is an adapter sleeve. DIN 5412-1: NU is a cylindrical roller bearing. AN and RNU from memory.
    #[test]
    fn letters_and_digits_tell_the_part() {
        for (text, name) in [
            ("H 308 sleeve", Some("adapter or withdrawal sleeve")),
            ("adapter sleeve H 308", Some("adapter or withdrawal sleeve")),
            ("sleeve H308", Some("adapter or withdrawal sleeve")),
            ("AN 08", Some(super::INCH_NUT)),
            ("an 08 nut", Some(super::INCH_NUT)),
            ("lock nut AN22", Some(super::INCH_NUT)),
            ("RNU 208", Some(super::OUTER_HALF)),
            ("RNU208 E C3", Some(super::OUTER_HALF)),
            ("pump RNU 208", Some(super::OUTER_HALF)),
            ("RNA 4905", None),
            ("NU 208", None),
            ("an 8 mm pin", None),
            ("an 08 shaft", None),
            ("an 25 x 52 bearing", None),
            ("lock nut KM8", None),
            ("sleeve 40", None),
        ] {
            assert_eq!(asked_for(text).map(|kind| kind.name), name, "{text}");
        }
    }
}
