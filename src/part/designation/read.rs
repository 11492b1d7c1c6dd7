//! Reads a printed designation by the readers of every family.

use super::parsed::Designation;
use super::{
    bearing, cone_cup, in_words, iso_355, lip_seal, lock_nut, o_ring, pin, retaining_ring, text,
};

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
        let mut read = by_readers(&cleaned).or_else(|| in_words::in_front(&cleaned, by_readers))?;
        if !read.traits.unknown_suffixes.is_empty() {
            in_words::understand(&mut read);
        }
        Some(Self {
            printed: printed.to_owned(),
            ..read
        })
    }
}

/// By the reader of the first family that knows the text.
fn by_readers(cleaned: &str) -> Option<Designation> {
    o_ring::read(cleaned)
        .or_else(|| retaining_ring::read(cleaned))
        .or_else(|| lock_nut::read(cleaned))
        .or_else(|| pin::read(cleaned))
        .or_else(|| lip_seal::read(cleaned))
        .or_else(|| cone_cup::read(cleaned))
        .or_else(|| iso_355::read(cleaned))
        .or_else(|| bearing::read(cleaned))
}
