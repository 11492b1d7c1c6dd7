//! The English article before a noun that a message takes in.

use std::fmt::Display;

/// The noun behind `a` or `an`, by its first letter; nouns with `u` that we have (`usage`, `unit`) sound like `you`.
///
/// # Example
/// ```
/// use sparewright::language::with_article;
/// assert_eq!(with_article("approval"), "an approval");
/// assert_eq!(with_article("O-ring"), "an O-ring");
/// assert_eq!(with_article("usage"), "a usage");
/// ```
pub fn with_article(noun: impl Display) -> String {
    let noun = noun.to_string();
    let is_open = noun.starts_with(['a', 'e', 'i', 'o', 'A', 'E', 'I', 'O']);
    format!("{} {noun}", if is_open { "an" } else { "a" })
}
