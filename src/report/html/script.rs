//! Sorting of tables by their headers: the only script of the page, which works without it as well.
//!
//! A click on a header sorts up, the next down, the third brings back the order of the report; what is unknown or blank
//! stays last. Numbers and days are read as the language of the table writes them. The page allows this very text and no other to run, by its sum.

/// The script.
pub const SCRIPT: &str = include_str!("sorting.js");

/// The sum of [`SCRIPT`] as a content security policy names it.
pub const SCRIPT_SOURCE: &str = "'sha256-5ouj2yquegXc5pvI4EJOPdiWSIk4yJvQ/e0oFJj3bB4='";

#[cfg(test)]
mod tests {
    use super::*;

    /// The bytes of a text in base 64 (RFC 4648, section 4), in hexadecimal digits.
    fn hexadecimal(base_64: &str) -> String {
        let value = |letter: u8| match letter {
            b'A'..=b'Z' => letter - b'A',
            b'a'..=b'z' => letter - b'a' + 26,
            b'0'..=b'9' => letter - b'0' + 52,
            b'+' => 62,
            _ => 63,
        };
        let letters = base_64.trim_end_matches('=').bytes();
        let bits: String = letters
            .map(|letter| format!("{:06b}", value(letter)))
            .collect();
        let whole = bits.len() / 8 * 8;
        let nibbles = (0..whole).step_by(4).map(|at| &bits[at..at + 4]);
        nibbles
            .map(|nibble| format!("{:x}", u8::from_str_radix(nibble, 2).unwrap()))
            .collect()
    }

    #[test]
    fn base_64_is_read_as_its_standard_shows() {
        // RFC 4648, section 10: "foobar" is Zm9vYmFy, "fooba" Zm9vYmE=.
        assert_eq!(hexadecimal("Zm9vYmFy"), "666f6f626172");
        assert_eq!(hexadecimal("Zm9vYmE="), "666f6f6261");
    }

    #[test]
    fn the_policy_names_the_script_as_it_is() {
        let sum = SCRIPT_SOURCE
            .trim_matches('\'')
            .trim_start_matches("sha256-");
        assert_eq!(hexadecimal(sum), crate::digest::sha256(SCRIPT.as_bytes()));
    }
}
