//! What the designations of a family may carry.

use crate::part::BoreForm;

/// A mark as it is written, and what it says.
type Says<T> = (&'static str, T);

/// What the designations of a family may carry: marks of DIN 623-1 behind the number, and designs told by words.
#[derive(Debug)]
pub(crate) struct Marks {
    /// By what its designations name a part.
    pub(crate) named_by: NamedBy,
    /// True where a designation may state another thickness or type than the table has, which is another part, so that one without
    /// either is of the plain type: DIN 471 and DIN 472 give that one thickness.
    pub(crate) has_stated_types: bool,
    /// Which come with a radial clearance of their own (ISO 5753-1); others get theirs in mounting.
    pub(crate) radial_clearance: Which,
    /// Which come with shields or seals (DIN 623-1 and common practice, no source).
    pub(crate) closures: Which,
    /// What one is that is not marked otherwise.
    pub(crate) unmarked: &'static [Unmarked],
    /// Marks of tapered bores.
    pub(crate) tapers: &'static [Says<BoreForm>],
    /// True for those that are made with a groove for a snap ring (N) and with the ring in it (NR).
    pub(crate) may_have_snap_ring: bool,
    /// Letters of contact angles, degrees, behind the number of a single row.
    pub(crate) angles: &'static [Says<u8>],
    /// Marks of pairs, and of bearings made to be paired.
    pub(crate) arrangements: &'static [Says<&'static str>],
    /// Letters behind the number that belong to it, with the design that they tell.
    pub(crate) number_letters: &'static [Says<Option<&'static str>>],
    /// Letters of other designs.
    pub(crate) designs: &'static [Says<&'static str>],
    /// What its inner and outer half are called, where they are parted.
    pub(crate) halves: Option<[&'static str; 2]>,
    /// Designs told by words that it may have besides those of all bearings.
    pub(crate) worded_designs: &'static [&'static str],
    /// True where it is made in the forms of DIN 3760: an outside of rubber or metal, one lip or a dust lip besides.
    pub(crate) has_seal_forms: bool,
}

/// By what designations name a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum NamedBy {
    /// A number that the tables list.
    Number,
    /// Its size, which may be printed rounded.
    Size,
    /// Its size and tolerance class; numbers of withdrawn standards stand for those of the present ones.
    SizeAndClass,
}

/// Which bearings of a family have something.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Which {
    /// Every one.
    Every,
    /// Those of two rows.
    TwoRows,
    /// None.
    None,
}

/// What the standards say of a bearing that is not marked otherwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Unmarked {
    /// Without shields and seals (DIN 623-1).
    Open,
    /// Of Normal class (ISO 492, ISO 199).
    NormalClass,
    /// With a cylindrical bore (DIN 623-1).
    CylindricalBore,
    /// Without a groove for a snap ring (DIN 623-1).
    NoGroove,
}

impl Which {
    /// True where one of so many rows has it; of unknown rows only where every one has.
    pub(crate) fn holds(self, rows: Option<u8>) -> bool {
        match self {
            Self::Every => true,
            Self::TwoRows => rows == Some(2),
            Self::None => false,
        }
    }
}

impl Unmarked {
    /// Of a radial bearing.
    pub(super) const RADIAL: &'static [Self] = &[
        Self::Open,
        Self::NormalClass,
        Self::CylindricalBore,
        Self::NoGroove,
    ];
}

impl Marks {
    /// Of parts that are no rolling bearings and carry no mark of DIN 623-1. To be said are `named_by`, `has_stated_types`,
    /// `worded_designs` and `has_seal_forms`.
    pub(super) const NO_BEARING: Self = Self {
        named_by: NamedBy::Number,
        has_stated_types: false,
        radial_clearance: Which::None,
        closures: Which::None,
        unmarked: &[],
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[],
        halves: None,
        worded_designs: &[],
        has_seal_forms: false,
    };

    /// True where a designation may have a mark of pairs, or of bearings made to be paired.
    pub(crate) const fn may_be_paired(&self) -> bool {
        !self.arrangements.is_empty()
    }

    /// True where it is made with several contact angles, each another part (DIN 628).
    pub(crate) const fn has_angles(&self) -> bool {
        !self.angles.is_empty()
    }

    /// True where the mark of its shields or seals is written behind every number (DIN 623-1).
    pub(crate) const fn has_closures(&self) -> bool {
        matches!(self.closures, Which::Every)
    }

    /// True where a class of ISO 286 is the part's own, and not that of its seat: `m6` of a pin.
    pub(crate) const fn has_class(&self) -> bool {
        matches!(self.named_by, NamedBy::SizeAndClass)
    }
}

/// The mark of a bore tapered 1:12 (DIN 623-1).
pub(super) const TAPER_12: Says<BoreForm> = ("K", BoreForm::Taper12);

/// Pairs: back to back, face to face, in tandem (DIN 623-1).
pub(super) const PAIRS: &[Says<&str>] = &[("DB", "DB"), ("DF", "DF"), ("DT", "DT")];

/// The mark of an inside reinforced for more load (DIN 623-1).
pub(super) const INCREASED_CAPACITY: Says<&str> = ("E", "increased capacity design (E)");
