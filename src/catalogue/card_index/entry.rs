//! The entry of a size: family, dimensions and where its drawer is.

use crate::digest::short_sum;
use crate::part::{Family, FitClass, SizeKey};
use crate::units::Length;

/// Bytes of an entry: family, fit, flags, four lengths of five bytes, parts, drawer, length of the drawer's head.
pub(super) const ENTRY: u64 = 40;
/// Bytes of a length: five hold every length there can be.
const LENGTH: usize = 5;
/// Flag of a size that no standard table has.
const OWN: u8 = 1;
/// Family of a part of unknown size.
const UNKNOWN: u8 = Family::ALL.len() as u8;

/// One entry as it stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Entry(pub(super) [u8; ENTRY as usize]);

impl Entry {
    pub(super) fn new(size: Option<&SizeKey>, is_own: bool) -> Self {
        let mut bytes = [0; ENTRY as usize];
        let rank = |size: &SizeKey| {
            Family::ALL
                .iter()
                .position(|family| *family == size.family())
        };
        bytes[0] = size.and_then(rank).map_or(UNKNOWN, |rank| rank as u8);
        bytes[3] = if is_own { OWN } else { 0 };
        if let Some(size) = size {
            if let Some(fit) = size.fit() {
                let fit = fit.to_string();
                bytes[1] = fit.as_bytes()[0];
                bytes[2] = fit[1..].parse().unwrap_or(0);
            }
            for (at, (_, length)) in size.dimensions().enumerate() {
                let from = 4 + LENGTH * at;
                bytes[from..from + LENGTH].copy_from_slice(&length.as_nm().to_le_bytes()[..LENGTH]);
            }
        }
        Self(bytes)
    }

    pub(super) fn set_drawer(&mut self, parts: u32, start: u64, head: u32) {
        self.0[24..28].copy_from_slice(&parts.to_le_bytes());
        self.0[28..36].copy_from_slice(&start.to_le_bytes());
        self.0[36..40].copy_from_slice(&head.to_le_bytes());
    }

    pub(super) const fn family_rank(&self) -> u8 {
        self.0[0]
    }

    pub(super) const fn is_own(&self) -> bool {
        self.0[3] & OWN != 0
    }

    pub(super) fn parts(&self) -> u32 {
        u32::from_le_bytes(super::pages::array(&self.0[24..]))
    }

    /// Start of the drawer and length of its head.
    pub(super) fn drawer(&self) -> (u64, u32) {
        (
            u64::from_le_bytes(super::pages::array(&self.0[28..])),
            u32::from_le_bytes(super::pages::array(&self.0[36..])),
        )
    }

    /// The lengths as they stand, 0 where the family has no further one.
    pub(super) fn lengths(&self) -> [u64; 4] {
        let at = |at: usize| {
            let eight: [u8; 8] = super::pages::array(&self.0[4 + LENGTH * at..]);
            u64::from_le_bytes(eight) & ((1 << (8 * LENGTH)) - 1)
        };
        [at(0), at(1), at(2), at(3)]
    }

    pub(super) fn size(&self) -> Option<SizeKey> {
        let family = *Family::ALL.get(usize::from(self.0[0]))?;
        let mut lengths = [None; 4];
        let there = lengths.iter_mut().zip(self.lengths());
        for (length, nm) in there.take(family.key_dimensions().len()) {
            *length = Some(Length::from_nm(nm as i64).ok()?);
        }
        let size = SizeKey::known(family, lengths);
        if self.0[1] == 0 {
            return Some(size);
        }
        let fit = FitClass::read(&format!("{}{}", char::from(self.0[1]), self.0[2]))?;
        Some(size.with_fit(fit))
    }
}

/// The lengths of a size as an entry holds them.
pub(super) fn lengths_of(size: &SizeKey) -> [u64; 4] {
    let nm = |at| size.length_at(at).map_or(0, |length| length.as_nm() as u64);
    [nm(0), nm(1), nm(2), nm(3)]
}

/// A number by which sizes of one envelope are found; rarely, others have it too.
pub(super) fn envelope_sum(size: &SizeKey) -> Option<u64> {
    let (inner, outer, width) = size.envelope()?;
    let bytes: Vec<u8> = [inner, outer, width]
        .iter()
        .flat_map(|length| length.as_nm().to_le_bytes())
        .collect();
    Some(short_sum(&bytes))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standard;

    #[test]
    fn every_size_is_read_as_it_was_written() {
        for part in standard::parts() {
            let mut entry = Entry::new(Some(&part.size), true);
            entry.set_drawer(7, 1 << 40, 9);
            assert_eq!(entry.size(), Some(part.size));
            assert_eq!(entry.lengths(), lengths_of(&part.size));
            assert!(entry.is_own());
            assert_eq!((entry.parts(), entry.drawer()), (7, (1 << 40, 9)));
        }
        assert_eq!(Entry::new(None, false).size(), None);
    }
}
