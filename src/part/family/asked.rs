//! What people call a family and what their words mean beside its name.
//!
//! Words in lower case. What several families share is a list here; words of other languages in tables of the import are in
//! `data/import/family_words.csv`.

use super::{Dimension, Family, PartClass};

/// How a family is asked for.
#[derive(Debug)]
pub(crate) struct Asked {
    /// Standards of this family alone, by their number as people write it. Titles as published by DIN, ISO and ASME; from
    /// memory.
    pub(crate) standards: &'static [&'static str],
    /// What such a standard says of a part besides.
    pub(crate) standard_says: &'static [StandardSays],
    /// Rolling elements that are in its name; none of what is no bearing.
    pub(crate) elements: &'static [Element],
    /// The way of its load or lip as its name has it: `radial`, `axial`.
    pub(crate) way: Option<Way>,
    /// Words of its own name, besides those that follow from its elements and its way. Terms of ISO 5593, ISO 6194-1,
    /// ISO 3601-1, DIN 471, DIN 981 and ISO 2338.
    pub(crate) words: &'static [&'static str],
    /// Words of its name that are no sign of a part where it is not known which: `rings`.
    pub(crate) loose_words: &'static [&'static str],
    /// Families by whose names it is called too (common practice, no source).
    pub(crate) also_called: &'static [Family],
    /// Short words of the bench that name it.
    pub(crate) short: Option<Short>,
    /// Words for what it sits on or in, where they tell it from another family of its kind.
    pub(crate) seat_words: &'static [&'static [&'static str]],
    /// What is left of it without one of its rings.
    pub(crate) ring_away: RingAway,
    /// What a class of ISO 286 beside it is of.
    pub(crate) class_beside: ClassBeside,
    /// How the form of the page offers it, where it does.
    #[cfg_attr(not(feature = "tables"), allow(dead_code))]
    pub(crate) in_form: Option<InForm>,
}

/// What a standard says of its parts besides which they are.
#[derive(Debug)]
pub(crate) struct StandardSays {
    /// Number of the standard as people write it.
    pub(crate) number: &'static str,
    /// Design, as the rules of exchange call it.
    pub(crate) design: &'static str,
    /// Class of the diameter, where the standard has one and none is written.
    pub(crate) class: Option<&'static str>,
}

/// A kind of part that a word names where a text names no more, `bearing`, `ball bearing`, and of which several families are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum PartKind {
    /// Retaining rings, on a shaft or in a bore.
    Ring,
    /// Ball bearings of one kind of balls alone.
    Balls,
    /// Roller bearings of rollers that are no needles.
    Rollers,
    /// Needle bearings that carry load across the shaft.
    Needles,
    /// Rolling bearings of every type.
    Bearing,
    /// Seals, which are read from their figures: two of an O-ring, three of a lip seal.
    Seal,
}

/// Rolling elements.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Element {
    /// Balls.
    Balls,
    /// Rollers that are no needles.
    Rollers,
    /// Needle rollers.
    Needles,
}

/// The way that a part works.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Way {
    /// Across the shaft: radial.
    Across,
    /// Along the shaft: axial, thrust.
    Along,
}

/// Short words that name a family where the words of the import name none.
#[derive(Debug)]
pub(crate) struct Short {
    /// Where a text holds the words of two families the lower of these counts: a `tapered pin` is a pin. No two have the same.
    pub(crate) rank: u8,
    /// Lists of which a word each must stand in the text. An entry with a blank is a phrase, which may go on (`shaft seals`).
    pub(crate) of_each: &'static [&'static [&'static str]],
    /// True where the words may be of a load as well: `thrust`.
    pub(crate) may_be_load: bool,
}

/// What is left of a bearing that is asked for without one of its rings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum RingAway {
    /// Without its inner ring a bearing of this family, whose number has an R in front (ISO 1206).
    OtherFamily(Family),
    /// Its other half, which is ordered alone: cone or cup (ISO 5593).
    OtherHalf,
    /// One ring with the rollers, which are in no table (DIN 5412-1: raceway diameters F and E).
    OnRollers,
    /// Nothing of use.
    Nothing,
}

/// What a class of ISO 286 beside a part is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum ClassBeside {
    /// The part itself.
    Own,
    /// The shaft under its lip.
    LipShaft,
    /// Shaft and housing that it sits on and in.
    Seats,
    /// A seat that is not looked at.
    NotLookedAt,
}

/// How the form of the page offers a family.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct InForm {
    /// Its name as the question takes it.
    pub(crate) name: &'static str,
    /// What its figures are called.
    pub(crate) figures: FormFigures,
}

/// Names of the three figures of the form, in the order bore, outside, width.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct FormFigures {
    /// As the form shows them.
    pub(crate) labels: [&'static str; 3],
    /// As a question says them.
    pub(crate) words: [&'static str; 3],
}

impl FormFigures {
    /// Of every family that has no names of its own, and where none was chosen.
    pub(crate) const USUAL: Self = Self {
        labels: ["Bore", "Outside", "Width"],
        words: ["bore", "od", "width"],
    };
}

impl InForm {
    /// Offers a family whose figures have the usual names.
    pub(super) const fn usual(name: &'static str) -> Option<Self> {
        let figures = FormFigures::USUAL;
        Some(Self { name, figures })
    }
}

impl Family {
    /// True for a family of a kind.
    pub(crate) fn is_of(self, kind: PartKind) -> bool {
        let elements = self.facts().asked.elements;
        match kind {
            PartKind::Ring => self.facts().bench.measured.lies_in_groove(),
            PartKind::Balls => matches!(elements, [Element::Balls]),
            PartKind::Rollers => matches!(elements, [Element::Rollers]),
            PartKind::Needles => matches!(elements, [Element::Needles]) && !self.is_along_shaft(),
            PartKind::Bearing => self.class() == PartClass::Bearings,
            PartKind::Seal => self.class() == PartClass::Seals,
        }
    }

    /// True where the name of a family has these rolling elements.
    pub(crate) fn rolls_on(self, element: Element) -> bool {
        self.facts().asked.elements.contains(&element)
    }

    /// True for the bearings that carry load along the shaft, as their name says.
    pub(crate) fn is_along_shaft(self) -> bool {
        self.facts().asked.way == Some(Way::Along)
    }

    /// True where a dimension is of the family's key.
    pub(crate) fn has_dimension(self, dimension: Dimension) -> bool {
        self.key_dimensions().contains(&dimension)
    }
}

/// Words for a retaining ring of either kind.
pub(super) const RING_NAMES: &[&str] = &[
    "groove",
    "circlip",
    "circlips",
    "retaining",
    "sicherungsring",
    "snap",
    "anneau",
    "segment",
    "d'arrêt",
    "élastique",
    "anillo",
    "seguridad",
    "retención",
    "elástico",
    "internal",
    "external",
    "int",
    "ext",
];

/// Short words and phrases for a retaining ring of either kind.
pub(super) const SHORT_RING_NAMES: &[&str] = &[
    "circlip",
    "circlips",
    "snap-ring",
    "sicherungsring",
    "retaining ring",
    "snap ring",
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_in_lower_case_and_each_stands_once() {
        for family in Family::ALL {
            let asked = &family.facts().asked;
            let short = asked.short.iter().flat_map(|short| short.of_each);
            let own = [asked.words, asked.loose_words, asked.standards];
            let lists = own.into_iter().chain(short.copied());
            for list in lists.chain(asked.seat_words.iter().copied()) {
                for (at, word) in list.iter().enumerate() {
                    assert_eq!(*word, word.to_lowercase(), "{family}");
                    assert!(!list[..at].contains(word), "{family}: {word}");
                }
            }
        }
    }

    /// The names are those of the standards: ISO 5593 for what rolls, DIN 471 and DIN 472.
    #[test]
    fn a_family_is_of_the_kind_that_its_name_has() {
        for family in Family::ALL {
            let has = |word: &str| family.name().contains(word);
            assert_eq!(family.is_of(PartKind::Balls), has("ball"), "{family}");
            let is_roller = has("roller") && !has("needle");
            assert_eq!(family.is_of(PartKind::Rollers), is_roller, "{family}");
            let is_needle = has("needle") && !has("thrust");
            assert_eq!(family.is_of(PartKind::Needles), is_needle, "{family}");
            let is_ring = has("retaining ring");
            assert_eq!(family.is_of(PartKind::Ring), is_ring, "{family}");
        }
    }

    /// ISO 5593 and ISO 6194-1: a bearing rolls on something, a seal does not; what is left of a bearing without a ring is one.
    #[test]
    fn elements_are_those_of_the_class() {
        for family in Family::ALL {
            let asked = &family.facts().asked;
            let is_bearing = family.class() == PartClass::Bearings;
            assert_eq!(!asked.elements.is_empty(), is_bearing, "{family}");
            assert!(
                is_bearing || asked.ring_away == RingAway::Nothing,
                "{family}"
            );
            if let RingAway::OtherFamily(without) = asked.ring_away {
                assert!(without.has_dimension(Dimension::InnerRacewayDiameter));
                assert!(family.has_dimension(Dimension::Bore), "{family}");
            }
        }
    }

    /// A word for the seat tells a ring on a shaft (DIN 471) from one in a bore (DIN 472).
    #[test]
    fn a_word_for_a_seat_is_of_one_family_of_its_kind() {
        for family in Family::ALL {
            for word in family.facts().asked.seat_words.concat() {
                let has_it = |of: &Family| {
                    let mut lists = of.facts().asked.seat_words.iter();
                    *of != family && lists.any(|list| list.contains(&word))
                };
                assert_eq!(Family::ALL.into_iter().find(has_it), None, "{word}");
            }
        }
    }

    #[test]
    fn the_form_offers_each_name_once() {
        let form = |family: Family| family.facts().asked.in_form.map(|form| form.name);
        let mut names: Vec<&str> = Family::ALL.into_iter().filter_map(form).collect();
        let all = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), all);
    }
}
