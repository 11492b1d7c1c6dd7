//! What two parts of one size may differ in, and what decides whether one may replace the other.

use std::fmt;

/// How a bearing is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Closure {
    /// No shield or seal.
    Open,
    /// `Z`: a shield on one side.
    ShieldOneSide,
    /// `2Z`: shields on both sides.
    ShieldBothSides,
    /// `RZ`: a non-contact seal on one side.
    LowFrictionSealOneSide,
    /// `2RZ`: non-contact seals on both sides.
    LowFrictionSealBothSides,
    /// `RS`: a contact seal on one side.
    SealOneSide,
    /// `2RS`: contact seals on both sides.
    SealBothSides,
}

/// What closes a bearing, on however many sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ClosedBy {
    /// A shield: `Z`, `2Z`.
    Shield,
    /// A seal that does not touch: `RZ`, `2RZ`.
    LowFrictionSeal,
    /// A contact seal: `RS`, `2RS`.
    ContactSeal,
}

/// Radial internal clearance group (ISO 5753-1); unmarked means [`Normal`](Self::Normal).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Clearance {
    /// `C2`, smaller than normal.
    C2,
    /// `CN`, normal.
    Normal,
    /// `C3`, larger than normal.
    C3,
    /// `C4`, larger than C3.
    C4,
    /// `C5`, larger than C4.
    C5,
}

/// Tolerance class (ISO 492); later variants are finer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ToleranceClass {
    /// Normal class, `P0`.
    Normal,
    /// Class 6, `P6`.
    P6,
    /// Class 5, `P5`.
    P5,
    /// Class 4, `P4`.
    P4,
    /// Class 2, `P2`.
    P2,
}

/// Contact angle of an angular contact ball bearing, whole degrees.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ContactAngle(pub u8);

/// Ribs of a cylindrical roller bearing, which decide axial location (DIN 5412-1).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum RibForm {
    /// `N`: ribs on the inner ring; the outer ring floats.
    N,
    /// `NU`: ribs on the outer ring; the inner ring floats.
    Nu,
    /// `NJ`: locates one way.
    Nj,
    /// `NUP`: locates both ways.
    Nup,
}

/// Form of the bore.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum BoreForm {
    /// Cylindrical.
    Cylindrical,
    /// `K`: taper 1:12.
    Taper12,
    /// `K30`: taper 1:30.
    Taper30,
}

/// Form of a rotary shaft lip seal (DIN 3760).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum SealForm {
    /// `A`: rubber-covered outside, no dust lip.
    A,
    /// `AS`: rubber-covered outside, dust lip.
    As,
    /// `B`: metal outside, no dust lip.
    B,
    /// `BS`: metal outside, dust lip.
    Bs,
    /// `C`: metal outside with reinforcing cap, no dust lip.
    C,
    /// `CS`: metal outside with reinforcing cap, dust lip.
    Cs,
}

/// The [arrangement](Traits::arrangement) of a set of which nobody said how it stands.
pub const UNSAID_SET: &str = "set, arrangement not said";

/// Everything besides size that decides exchange; `None` is unknown, which is never equal to anything.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Traits {
    /// How it is closed.
    pub closure: Option<Closure>,
    /// Radial internal clearance.
    pub clearance: Option<Clearance>,
    /// Tolerance class.
    pub tolerance_class: Option<ToleranceClass>,
    /// Contact angle.
    pub contact_angle: Option<ContactAngle>,
    /// Ribs of a cylindrical roller bearing.
    pub rib_form: Option<RibForm>,
    /// Cylindrical or tapered bore.
    pub bore_form: Option<BoreForm>,
    /// Snap-ring groove in the outer ring (`N`, `NR`).
    pub has_snap_ring_groove: Option<bool>,
    /// Number of rows of rolling elements.
    pub rows: Option<u8>,
    /// Preload class as printed.
    pub preload_class: Option<String>,
    /// Arrangement of a set: `DB`, `DF`, `DT`, `universal` for universal matching, or [`UNSAID_SET`].
    pub arrangement: Option<String>,
    /// Cage material or code as printed.
    pub cage: Option<String>,
    /// Form of a lip seal.
    pub seal_form: Option<SealForm>,
    /// Elastomer by its ISO 1629 symbol (`NBR`, `FKM`, `EPDM`, ...) or another material as printed.
    pub material: Option<String>,
    /// Hardness as printed: `70 Shore A`, `60 HRC`.
    pub hardness: Option<String>,
    /// The part of a standard's series that a size alone does not tell, such as `retaining ring, heavy`; several with commas
    /// between, see [`variants`](Self::variants).
    pub variant: Option<String>,
    /// Suffixes that no standard explains; kept and shown, never matched on.
    pub unknown_suffixes: Vec<String>,
}

/// Does the same with every trait that may be unknown.
macro_rules! each_trait {
    ($each:ident) => {
        $each!(
            closure,
            clearance,
            tolerance_class,
            contact_angle,
            rib_form,
            bore_form,
            has_snap_ring_groove,
            rows,
            preload_class,
            arrangement,
            cage,
            seal_form,
            material,
            hardness,
            variant
        )
    };
}

impl Traits {
    /// True where the bore is said to be tapered.
    pub fn has_tapered_bore(&self) -> bool {
        self.bore_form
            .is_some_and(|form| form != BoreForm::Cylindrical)
    }

    /// Takes over from `other` what is not known here; suffixes that no standard explains stay where they are.
    pub fn take_gaps(&mut self, other: &Self) {
        macro_rules! take_each {
            ($($field:ident),+) => { $( if self.$field.is_none() { self.$field.clone_from(&other.$field); } )+ };
        }
        each_trait!(take_each);
    }

    /// Forgets what `other` does not say alike: what is left is true of both parts.
    pub fn keep_common(&mut self, other: &Self) {
        macro_rules! keep_each {
            ($($field:ident),+) => { $( if self.$field != other.$field { self.$field = None; } )+ };
        }
        each_trait!(keep_each);
        let of_both = |suffix: &String| other.unknown_suffixes.contains(suffix);
        self.unknown_suffixes.retain(of_both);
    }

    /// Forgets what `other` says just so: what is left is this one's own.
    pub fn forget_same(&mut self, other: &Self) {
        macro_rules! forget_each {
            ($($field:ident),+) => { $( if self.$field == other.$field { self.$field = None; } )+ };
        }
        each_trait!(forget_each);
        let is_own = |suffix: &String| !other.unknown_suffixes.contains(suffix);
        self.unknown_suffixes.retain(is_own);
    }

    /// Forgets what `other` says otherwise: of two that contradict each other neither is known.
    pub fn forget_contrary(&mut self, other: &Self) {
        macro_rules! forget_each {
            ($($field:ident),+) => { $(
                if other.$field.is_some() && self.$field != other.$field { self.$field = None; }
            )+ };
        }
        each_trait!(forget_each);
    }

    /// What sets the part apart, one after another: `increased capacity design (E)`, `inner ring only`.
    pub fn variants(&self) -> impl Iterator<Item = &str> {
        let text = self.variant.as_deref().unwrap_or_default();
        // Mostly there is one, which nothing has to be looked for in.
        let (first, others) = match text.contains(',') {
            true => ("", Some(text.split(", "))),
            false => (text, None),
        };
        let pieces = std::iter::once(first).chain(others.into_iter().flatten());
        pieces.map(str::trim).filter(|piece| !piece.is_empty())
    }

    /// True where this is among what sets the part apart.
    pub fn has_variant(&self, wanted: &str) -> bool {
        self.variants().any(|piece| piece == wanted)
    }

    /// Forgets what an unmarked bearing is by the standards: open, of clearance CN and Normal class, with a cylindrical bore and no groove.
    pub fn forget_unmarked(&mut self) {
        fn forget<T: PartialEq>(slot: &mut Option<T>, unmarked: T) {
            if slot.as_ref() == Some(&unmarked) {
                *slot = None;
            }
        }
        forget(&mut self.closure, Closure::Open);
        forget(&mut self.clearance, Clearance::Normal);
        forget(&mut self.tolerance_class, ToleranceClass::Normal);
        forget(&mut self.bore_form, BoreForm::Cylindrical);
        forget(&mut self.has_snap_ring_groove, false);
    }

    /// Adds what sets the part apart besides, once in whatever case.
    ///
    /// # Example
    /// ```
    /// use sparewright::part::Traits;
    /// let mut traits = Traits::default();
    /// for piece in ["increased capacity design (E)", "inner ring only", "Inner ring only"] {
    ///     traits.add_variant(piece);
    /// }
    /// assert_eq!(traits.variants().count(), 2);
    /// ```
    pub fn add_variant(&mut self, piece: &str) {
        if self
            .variants()
            .any(|known| known.eq_ignore_ascii_case(piece))
        {
            return;
        }
        match &mut self.variant {
            Some(text) => *text = format!("{text}, {piece}"),
            None => self.variant = Some(piece.to_owned()),
        }
    }
}

/// Builds `code`, `from_code` and `Display` from one table, so that the three cannot drift apart.
macro_rules! coded {
    ($type:ident { $($variant:ident => $code:literal),+ $(,)? }) => {
        impl $type {
            /// Every value, in order.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];
            /// Code as in designations and machine output.
            pub const fn code(self) -> &'static str {
                match self { $(Self::$variant => $code),+ }
            }
            /// Finds a value by its code, upper or lower case.
            pub fn from_code(code: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|value| value.code().eq_ignore_ascii_case(code.trim()))
            }
        }
        impl fmt::Display for $type {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { f.write_str(self.code()) }
        }
        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.code())
            }
        }
    };
}

coded!(Closure {
    Open => "open", ShieldOneSide => "Z", ShieldBothSides => "2Z", LowFrictionSealOneSide => "RZ",
    LowFrictionSealBothSides => "2RZ", SealOneSide => "RS", SealBothSides => "2RS",
});
coded!(Clearance { C2 => "C2", Normal => "CN", C3 => "C3", C4 => "C4", C5 => "C5" });
coded!(ToleranceClass { Normal => "P0", P6 => "P6", P5 => "P5", P4 => "P4", P2 => "P2" });
coded!(RibForm { N => "N", Nu => "NU", Nj => "NJ", Nup => "NUP" });
coded!(BoreForm { Cylindrical => "cylindrical", Taper12 => "K", Taper30 => "K30" });
coded!(SealForm { A => "A", As => "AS", B => "B", Bs => "BS", C => "C", Cs => "CS" });

impl Closure {
    /// In words: `open`, `shields on both sides (2Z)`.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::ShieldOneSide => "a shield on one side (Z)",
            Self::ShieldBothSides => "shields on both sides (2Z)",
            Self::LowFrictionSealOneSide => "a non-contact seal on one side (RZ)",
            Self::LowFrictionSealBothSides => "non-contact seals on both sides (2RZ)",
            Self::SealOneSide => "a contact seal on one side (RS)",
            Self::SealBothSides => "contact seals on both sides (2RS)",
        }
    }

    /// What closes the bearing; `None` where it is open.
    pub const fn closed_by(self) -> Option<ClosedBy> {
        Some(match self {
            Self::Open => return None,
            Self::ShieldOneSide | Self::ShieldBothSides => ClosedBy::Shield,
            Self::LowFrictionSealOneSide | Self::LowFrictionSealBothSides => {
                ClosedBy::LowFrictionSeal
            }
            Self::SealOneSide | Self::SealBothSides => ClosedBy::ContactSeal,
        })
    }
}

impl ClosedBy {
    /// In words, whatever the number of sides.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Shield => "a shield (Z or 2Z)",
            Self::LowFrictionSeal => "a non-contact seal (RZ or 2RZ)",
            Self::ContactSeal => "a contact seal (RS or 2RS)",
        }
    }

    /// The closure with it on one side, or on both.
    pub const fn on(self, is_both: bool) -> Closure {
        match (self, is_both) {
            (Self::Shield, false) => Closure::ShieldOneSide,
            (Self::Shield, true) => Closure::ShieldBothSides,
            (Self::LowFrictionSeal, false) => Closure::LowFrictionSealOneSide,
            (Self::LowFrictionSeal, true) => Closure::LowFrictionSealBothSides,
            (Self::ContactSeal, false) => Closure::SealOneSide,
            (Self::ContactSeal, true) => Closure::SealBothSides,
        }
    }
}

impl SealForm {
    /// True for the forms with a dust lip (`S`).
    pub const fn has_dust_lip(self) -> bool {
        matches!(self, Self::As | Self::Bs | Self::Cs)
    }
}

impl fmt::Display for ContactAngle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}°", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finer_classes_and_larger_clearances_compare_as_larger() {
        assert!(ToleranceClass::P5 > ToleranceClass::Normal);
        assert!(Clearance::C3 > Clearance::Normal);
    }

    #[test]
    fn what_closes_a_bearing_is_the_same_on_one_side_and_on_both() {
        // DIN 623-1: a 2 in front of the mark says both sides.
        for one in Closure::ALL {
            let Some(by) = one.closed_by() else {
                assert_eq!(*one, Closure::Open);
                continue;
            };
            let is_both = one.code().starts_with('2');
            assert_eq!(by.on(is_both), *one);
            assert_eq!(by.on(!is_both).closed_by(), Some(by));
            assert!(by.words().contains(one.code()), "{one}");
        }
    }

    #[test]
    fn codes_are_found_in_any_case() {
        assert_eq!(Closure::from_code("2rs"), Some(Closure::SealBothSides));
        assert_eq!(RibForm::from_code(" nup "), Some(RibForm::Nup));
        assert_eq!(Clearance::from_code("C9"), None);
    }
}
