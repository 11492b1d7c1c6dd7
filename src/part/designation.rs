//! Reads standard designations (DIN 623-1 and the ISO standards of each family).

use super::family::Family;
use super::size::SizeKey;
use super::traits::Traits;
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
    /// Bore by the bore code of DIN 623-1.
    pub bore: Option<Length>,
    /// Whole size, where the designation itself carries it (`K20x24x10`, `40x62x8`, `31.34x3.53`).
    pub size: Option<SizeKey>,
    /// What prefixes and suffixes say; unknown suffixes are kept in it.
    pub traits: Traits,
}

impl Designation {
    /// Takes a designation apart; `None` where the text is not one.
    pub fn parse(_printed: &str) -> Option<Self> {
        None
    }
}
