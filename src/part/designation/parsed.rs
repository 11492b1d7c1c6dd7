//! A designation taken apart.

use crate::part::{Family, SizeKey, Traits};
use crate::units::Length;

/// A designation taken apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Designation {
    /// As printed.
    pub printed: String,
    /// Basic designation, normalised: `6305`, `NU205`, `62/22`, `AS568-318`.
    pub basic: String,
    /// Family, where the basic designation tells it.
    pub family: Option<Family>,
    /// Bore by the bore code of DIN 623-1; of drawn cups and cages the shaft diameter Fw that stands in its place.
    ///
    /// `None` where the code is not the part's own bore (`RNA4905`, `52205`).
    pub bore: Option<Length>,
    /// Whole size, where the designation itself carries it (`K20x24x10`, `40x62x8`, `31.34x3.53`).
    pub size: Option<SizeKey>,
    /// What prefixes and suffixes say; unknown suffixes are kept in it.
    ///
    /// Where the standard says what an unmarked bearing is (open, clearance CN by ISO 5753-1, Normal class by ISO 492),
    /// that is filled in, unless an unknown suffix might say otherwise.
    pub traits: Traits,
    /// True where words of the trade say something of it that a standard would say by a mark or not at all.
    pub is_in_words: bool,
}

impl Designation {
    /// A designation of which only basic and family are known yet.
    pub(super) fn of(basic: String, family: Option<Family>) -> Self {
        Self {
            printed: String::new(),
            basic,
            family,
            bore: None,
            size: None,
            traits: Traits::default(),
            is_in_words: false,
        }
    }

    /// Keeps a suffix that no standard explains.
    pub(super) fn add_unknown(&mut self, token: &str) {
        self.traits.unknown_suffixes.push(token.to_owned());
    }
}
