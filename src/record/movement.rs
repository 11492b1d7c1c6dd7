//! Kinds of movements of a store, as lists tell them in words and the settings by code.

use std::collections::BTreeMap;

use super::settings_error::SettingsError;

/// What a row of a list of movements is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Movement {
    /// Taken from the shelf and used.
    Issue,
    /// Brought back to the shelf unused.
    Return,
    /// Came from outside, or went back there.
    Receipt,
    /// From one place of the shop to another.
    Transfer,
    /// Counted, or put right after counting.
    Count,
    /// Thrown away, and used on no machine.
    Scrap,
}

impl Movement {
    /// True for what changes how many were used.
    pub const fn is_of_usage(self) -> bool {
        matches!(self, Self::Issue | Self::Return)
    }
}

/// What the codes of a shop's movements mean, by code as its lists print it.
#[derive(Debug, Clone, Default, PartialEq, Eq, serde::Deserialize)]
#[serde(transparent)]
pub struct MovementCodes(BTreeMap<String, Movement>);

impl MovementCodes {
    /// What the settings say of a code, whatever its case; `None` where they do not name it.
    pub fn meaning(&self, code: &str) -> Option<Movement> {
        let code = folded(code);
        let mut named = self.0.iter();
        let found = named.find(|(name, _)| folded(name) == code)?;
        Some(*found.1)
    }

    /// Two codes that lists may print alike must not stand for two kinds of movements.
    pub(super) fn check(&self) -> Result<(), SettingsError> {
        let mut known: BTreeMap<String, (&String, Movement)> = BTreeMap::new();
        for (code, movement) in &self.0 {
            let (other, before) = *known.entry(folded(code)).or_insert((code, *movement));
            if before != *movement {
                return Err(SettingsError::OneCode {
                    code: code.clone(),
                    other: other.clone(),
                });
            }
        }
        Ok(())
    }
}

/// A code as it is compared: whatever its case and the blanks around it.
fn folded(code: &str) -> String {
    code.trim().to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{SettingsInPart, ShopSettings};

    #[test]
    fn codes_of_the_settings_are_found_whatever_their_case() {
        let text = "[movement_codes]\n17 = \"issue\"\nwe = \"receipt\"\n\"X 9\" = \"scrap\"\n\" rü \" = \"return\"";
        let codes = ShopSettings::from_toml(text).unwrap().movement_codes;
        assert_eq!(codes.meaning(" 17 "), Some(Movement::Issue));
        assert_eq!(codes.meaning("WE"), Some(Movement::Receipt));
        assert_eq!(codes.meaning("x 9"), Some(Movement::Scrap));
        assert_eq!(codes.meaning("RÜ"), Some(Movement::Return));
        assert_eq!(codes.meaning("170"), None);
        assert_eq!(MovementCodes::default().meaning("17"), None);
    }

    #[test]
    fn two_codes_that_are_one_must_mean_one() {
        let of = |text: &str| ShopSettings::from_toml(&format!("[movement_codes]\n{text}"));
        for text in [
            "WE = \"issue\"\nwe = \"receipt\"",
            "we = \"receipt\"\n\" WE\" = \"scrap\"",
        ] {
            let error = of(text).unwrap_err().to_string();
            assert!(error.starts_with("settings: movement codes `"), "{error}");
            assert!(error.ends_with("are one code with two meanings"), "{error}");
        }
        let codes = of("WE = \"receipt\"\nwe = \"receipt\"")
            .unwrap()
            .movement_codes;
        assert_eq!(codes.meaning("We"), Some(Movement::Receipt));
        // Of a file only one of the two is left out, and told.
        let text = "[movement_codes]\n17 = \"scrap\"\nWE = \"issue\"\nwe = \"receipt\"";
        let part = SettingsInPart::of(text).unwrap();
        let left_out: Vec<&str> = part.left_out.iter().map(|(key, _)| key.as_str()).collect();
        assert_eq!(left_out, ["movement_codes.we"]);
        let codes = part.settings.movement_codes;
        assert_eq!(codes.meaning("17"), Some(Movement::Scrap));
        assert_eq!(codes.meaning("we"), Some(Movement::Issue));
    }

    #[test]
    fn a_meaning_that_is_none_is_told_with_those_that_are() {
        let text = "[movement_codes]\n17 = \"sold\"";
        let error = ShopSettings::from_toml(text).unwrap_err().to_string();
        assert!(error.contains("unknown variant `sold`"), "{error}");
        assert!(
            error.contains("`receipt`") && error.contains("`scrap`"),
            "{error}"
        );
    }
}
