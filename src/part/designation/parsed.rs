//! A designation taken apart.

use super::{bearing, cone_cup, iso_355, lip_seal, lock_nut, o_ring, pin, retaining_ring, text};
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
}

/// Longest text that is looked at; no designation is longer.
const LONGEST: usize = 80;

impl Designation {
    /// Takes a designation apart; `None` where the text is not one.
    ///
    /// # Source
    /// DIN 623-1 for bearings; DIN 3760, ISO 3601-1, SAE AS568, DIN 471, DIN 472, DIN 981, ISO 8734, ISO 2338 and
    /// ASME B18.8.2 for the others.
    ///
    /// # Example
    /// ```
    /// use sparewright::part::designation::Designation;
    /// use sparewright::part::{Clearance, Closure};
    /// let read = Designation::parse("6305-2RS C3").ok_or("not a designation")?;
    /// assert_eq!(read.basic, "6305");
    /// assert_eq!(read.bore.map(|bore| bore.to_string()).as_deref(), Some("25 mm"));
    /// assert_eq!(read.traits.closure, Some(Closure::SealBothSides));
    /// assert_eq!(read.traits.clearance, Some(Clearance::C3));
    /// assert!(Designation::parse("BRG-0412").is_none());
    /// # Ok::<(), &str>(())
    /// ```
    pub fn parse(printed: &str) -> Option<Self> {
        if printed.chars().count() > LONGEST {
            return None;
        }
        let cleaned = text::clean(printed);
        let read = o_ring::read(&cleaned)
            .or_else(|| retaining_ring::read(&cleaned))
            .or_else(|| lock_nut::read(&cleaned))
            .or_else(|| pin::read(&cleaned))
            .or_else(|| lip_seal::read(&cleaned))
            .or_else(|| cone_cup::read(&cleaned))
            .or_else(|| iso_355::read(&cleaned))
            .or_else(|| bearing::read(&cleaned))?;
        Some(Self {
            printed: printed.to_owned(),
            ..read
        })
    }

    /// A designation of which only basic and family are known yet.
    pub(super) fn of(basic: String, family: Option<Family>) -> Self {
        Self {
            printed: String::new(),
            basic,
            family,
            bore: None,
            size: None,
            traits: Traits::default(),
        }
    }

    /// Adds to what the size alone does not tell.
    pub(super) fn add_variant(&mut self, text: &str) {
        match &mut self.traits.variant {
            Some(variant) => {
                variant.push_str(", ");
                variant.push_str(text);
            }
            None => self.traits.variant = Some(text.to_owned()),
        }
    }

    /// Keeps a suffix that no standard explains.
    pub(super) fn add_unknown(&mut self, token: &str) {
        self.traits.unknown_suffixes.push(token.to_owned());
    }
}
