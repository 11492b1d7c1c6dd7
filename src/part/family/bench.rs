//! How a family is met at the bench: how it measures new and worn, what tells its parts apart and what is said of them.

use super::{Family, PartKind};

/// How a family measures, and what is said of its parts.
#[derive(Debug)]
pub(crate) struct Bench {
    /// How often it is asked for at a bench (common practice, no source); families without share the rest of one evenly.
    pub(crate) share: Option<f64>,
    /// How its figures come about.
    pub(crate) measured: Measured,
    /// How far from its dimensions a figure may lie and still be of them.
    pub(crate) reach: Reach,
    /// What its figures are called.
    pub(crate) words: Words,
    /// What a figure means that no sound part can have.
    pub(crate) unsound: Unsound,
    /// What is said of a part that is proposed.
    pub(crate) notes: Notes,
    /// What tells its parts apart.
    pub(crate) told: Told,
}

/// How figures of a part come about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Measured {
    /// Rings, cups or cages of a rolling bearing, on a shaft and in a housing.
    Rings(&'static Rings),
    /// A lip and a case, as they lie free or on the shaft and in the bore that they are made for (ISO 6194-1).
    LipAndCase,
    /// A ring of rubber and its section, in a gland (ISO 3601-1).
    RubberRing,
    /// A spring ring: the shaft or bore beside its groove, the groove, or the free ring.
    SpringRing {
        /// Class of the groove's diameter.
        groove: &'static str,
        /// True where its size is that of the bore it sits in; false where it is that of the shaft.
        is_in_bore: bool,
    },
    /// A thread or the core of its nut, and the pitch (ISO 965-1).
    Thread,
    /// A pin and its length.
    Pin,
}

impl Measured {
    /// True where a sound shaft or housing is of the part's own size.
    pub(crate) const fn has_seats(self) -> bool {
        matches!(self, Self::Rings(_)) || self.is_of_seat()
    }

    /// True for what is measured where it sits, for it lies on the bench in another size.
    pub(crate) const fn is_of_seat(self) -> bool {
        matches!(self, Self::LipAndCase | Self::SpringRing { .. })
    }

    /// True for a spring ring that lies in a groove of shaft or bore.
    pub(crate) const fn lies_in_groove(self) -> bool {
        matches!(self, Self::SpringRing { .. })
    }

    /// True where the one diameter is that of the bore it sits in.
    pub(crate) const fn is_in_bore(self) -> bool {
        matches!(
            self,
            Self::SpringRing {
                is_in_bore: true,
                ..
            }
        )
    }

    /// True where some of a family have a ring of their own on the shaft, which their row notes.
    pub(crate) const fn may_have_inner_ring(self) -> bool {
        matches!(self, Self::Rings(rings) if rings.may_have_inner_ring)
    }
}

/// A band as two deviations from nominal, µm.
pub(crate) type Um = (f64, f64);

/// The bands in which the rings of a new bearing lie, and those of its seats.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rings {
    /// Of what goes on the shaft.
    pub(crate) bore: Band,
    /// Of what goes into the housing.
    pub(crate) outside: Band,
    /// Of the width or height.
    pub(crate) width: Band,
    /// Of what it sits on.
    pub(crate) on_shaft: ShaftBand,
    /// Of what it sits in.
    pub(crate) in_housing: HousingBand,
    /// How much a diameter gives when it is measured, mm: needles hang loose, drawn cups are not round before they are pressed
    /// in (common practice, no source).
    pub(crate) soft_mm: f64,
    /// How sizes of an inch standard are held, where that is the other way.
    pub(crate) inch: Option<InchRings>,
    /// True where rows may note an inner ring under the needles, with a bore of its own.
    pub(crate) may_have_inner_ring: bool,
}

impl Rings {
    /// Solid rings, whatever rolls between them; their seats were turned to some class near k6 or J7 (common practice, no
    /// source).
    pub(crate) const ISO_492: Self = Self {
        bore: Band::Iso492,
        outside: Band::Iso492,
        width: Band::Iso492,
        on_shaft: ShaftBand::Um(-10.0, 20.0),
        in_housing: HousingBand::Um(-20.0, 25.0),
        soft_mm: 0.0,
        inch: None,
        may_have_inner_ring: false,
    };
}

/// Band of a new part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Band {
    /// As ISO 492 holds it, by class of tolerance and size.
    Iso492,
    /// The same at every size, µm.
    Um(f64, f64),
    /// One band up to a bore, mm, and another above it.
    UpToBore(f64, Um, Um),
}

/// Bores under needles (common practice, no source).
pub(super) const UNDER_NEEDLES: Band = Band::Um(-20.0, 40.0);

/// Band of what a part sits on.
///
/// # Source
/// Shafts for drawn cups h5 and h6, for cages and needles without inner ring g6 to h5: common practice, from memory.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum ShaftBand {
    /// The same at every size, µm.
    Um(f64, f64),
    /// From the lower limit of a class of ISO 286 to nominal: what runs on it has play.
    BelowNominal(&'static str),
}

/// Band of what a part sits in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum HousingBand {
    /// The same at every size, µm.
    Um(f64, f64),
    /// A class of ISO 286.
    Class(&'static str),
    /// So many µm below the lower limit of a class of ISO 286 to the upper limit of another: what is pressed in.
    Pressed {
        below_um: f64,
        lower: &'static str,
        upper: &'static str,
    },
    /// Around a housing washer, which has play.
    AroundWasher,
}

/// Rings of an inch standard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct InchRings {
    /// What the standard of such a row holds.
    pub(crate) standard: &'static str,
    /// Of what goes on the shaft, µm.
    pub(crate) bore: Um,
    /// Of what goes into the housing, µm.
    pub(crate) outside: Um,
}

/// So many nanometres and one part in so many of the dimension.
pub(crate) type Span = (i64, i64);

/// So many micrometres and one part in so many.
pub(super) const fn span(um: i64, part: i64) -> Span {
    (1_000 * um, part)
}

/// How far from one dimension a figure may lie: beyond, its weight is below a millionth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Spans {
    /// For sizes of the standard tables.
    pub(crate) tables: Span,
    /// The same where a steel rule was used, which is read to tenths of a millimetre at best.
    pub(crate) by_rule: Span,
    /// For sizes that only the shop's own list has: there may be so many of them that one or another lies near any figures,
    /// so that none is guessed from figures further off than a calliper and usual wear explain (common practice, no source).
    pub(crate) own: Span,
}

impl Spans {
    /// New parts lie within hundredths of a millimetre.
    pub(super) const FINE: Self = Self {
        tables: span(800, 100),
        by_rule: span(1_200, 100),
        own: span(350, 400),
    };
    /// New parts are spread over tenths of a millimetre.
    pub(super) const COARSE: Self = Self {
        tables: span(1_200, 100),
        by_rule: span(1_200, 100),
        own: span(800, 400),
    };
    /// Free lips lie millimetres below their shaft, the core of a nut a pitch below its thread.
    pub(super) const FAR_BELOW: Self = Self {
        tables: span(4_000, 50),
        by_rule: span(4_000, 50),
        own: span(4_000, 50),
    };
    /// Free spring rings lie far from the size of their seat.
    pub(super) const FREE_RING: Self = Self {
        tables: span(1_500, 10),
        by_rule: span(1_500, 10),
        own: span(350, 400),
    };
}

/// How far from each of its dimensions a figure may lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Reach {
    /// A figure of its bore or inside.
    pub(crate) inner: Spans,
    /// One of the shaft that it sits on.
    pub(crate) shaft: Spans,
    /// One of a free lip.
    pub(crate) free_lip: Spans,
    /// One of its width, height or length.
    pub(crate) width: Spans,
    /// Any other.
    pub(crate) other: Spans,
}

impl Reach {
    /// As far for every figure.
    pub(super) const fn all(spans: Spans) -> Self {
        Self {
            inner: spans,
            shaft: spans,
            free_lip: spans,
            width: spans,
            other: spans,
        }
    }
}

/// What a person measures on a part.
#[derive(Debug)]
pub(crate) struct Words {
    /// Its bore, inside or only diameter.
    pub(crate) inner: &'static str,
    /// Its width, height or length.
    pub(crate) width: &'static str,
    /// True for what is no ring, and of which nobody says bore or width.
    pub(crate) is_no_ring: bool,
}

impl Words {
    pub(super) const OF_BEARING: Self = Self {
        inner: "bore",
        width: "width",
        is_no_ring: false,
    };
    pub(super) const OF_NEEDLES: Self = Self {
        inner: "inside diameter under the needles",
        ..Self::OF_BEARING
    };
    pub(super) const OF_SEATED_RING: Self = Self {
        inner: "bore or inside diameter",
        ..Self::OF_BEARING
    };
}

/// What a figure outside the band of a sound part, or of its seat, means: by what it is of, and whether it lies below or above.
#[derive(Debug)]
pub(crate) struct Unsound {
    pub(crate) inner_above: &'static str,
    pub(crate) outer_below: &'static str,
    pub(crate) outer_above: &'static str,
    pub(crate) width_below: &'static str,
    pub(crate) section_below: &'static str,
    pub(crate) shaft_below: &'static str,
    pub(crate) shaft_above: &'static str,
    pub(crate) housing_below: &'static str,
    pub(crate) housing_above: &'static str,
    /// Of any other figure, or to the other side.
    pub(crate) other: &'static str,
}

const SEAT_WORN: &str = "the seat is worn; repair it or sleeve it";
const MEASURE_AGAIN: &str = "measure again on a clean place, or it is another part";
const NEEDLES_WORN: &str = "the needles or their raceway are worn, or a drawn cup lies free and is not round: measure the shaft";
/// The housing washer of a thrust bearing.
pub(super) const WASHER_TIGHT: &str = "the housing washer needs play in its housing";

impl Unsound {
    /// What turns on its shaft, creeps in its housing and wears its faces.
    pub(super) const OF_RINGS: Self = Self {
        inner_above: "the ring has turned on its shaft; measure the shaft before a new one goes in",
        outer_below: "the ring has crept in its housing (creep wear); measure the housing bore before a new one goes in",
        outer_above: MEASURE_AGAIN,
        width_below: "the faces are worn, or it is another part",
        section_below: MEASURE_AGAIN,
        shaft_below: SEAT_WORN,
        shaft_above: MEASURE_AGAIN,
        housing_below: MEASURE_AGAIN,
        housing_above: SEAT_WORN,
        other: MEASURE_AGAIN,
    };
    /// Needles under a ring of which some have an inner one.
    pub(super) const OF_NEEDLES: Self = Self {
        inner_above: NEEDLES_WORN,
        ..Self::OF_RINGS
    };
    /// Needles that run on the shaft.
    pub(super) const OF_NEEDLES_ON_SHAFT: Self = Self {
        shaft_below: "the raceway on the shaft is worn; grind it and sleeve it, or take a bearing with an inner ring",
        shaft_above: "the needles lose their play on this shaft, which is h5 or h6 for drawn cups",
        ..Self::OF_NEEDLES
    };
}

/// What is said of a part that is proposed.
#[derive(Debug)]
pub(crate) struct Notes {
    /// What is done about room left over beside it.
    pub(crate) room_left: RoomLeft,
    /// What the tables tell of the width of a closed one.
    pub(crate) closed_width: ClosedWidth,
    /// True where a split one is commonly wider and larger outside than the solid one, which alone is in the tables (common
    /// practice, no source).
    pub(crate) is_larger_split: bool,
    /// What is said of the figures of a worn one.
    pub(crate) when_worn: Option<&'static str>,
}

impl Family {
    /// What is not known of a part of it where nobody asked for its type.
    pub(crate) fn open_type(self) -> &'static str {
        if self.is_of(PartKind::Ring) {
            "whether it sits on a shaft or in a bore"
        } else if self.is_of(PartKind::Bearing) {
            "the type was not asked for: compare the rolling elements and ribs of the old part"
        } else {
            "the type was not asked for: compare it with the old part"
        }
    }
}

/// What is done about room left over beside a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum RoomLeft {
    /// A spacer backs the ring.
    Spacer,
    /// What is pressed in or runs loose is seated so, without one.
    Seated(&'static str),
}

/// What is to be said of the width of a closed part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum ClosedWidth {
    /// Nothing: it is that of the tables, or nobody closes such a part.
    OfTable,
    /// It is larger than the open one's, which the tables have.
    Larger(&'static str),
    /// No closed one is known, so that a width that was measured is the open one's all the same.
    NoneKnown(&'static str),
}

/// Said of a needle roller bearing with machined rings and seals.
pub(super) const SEALED_NEEDLE: ClosedWidth = ClosedWidth::Larger(
    "sealed needle roller bearings are commonly 1 mm wider than the open ones, whose width is in the tables (common practice, from memory): measure the width of the old bearing",
);
/// Said of kinds whose closed sorts no table here has.
pub(super) const CLOSED_KIND: ClosedWidth = ClosedWidth::NoneKnown(
    "no closed bearing of this kind is in the tables: compare width and closure with the old one",
);

/// What tells parts of a family apart.
#[derive(Debug)]
pub(crate) struct Told {
    /// True where another series of the same size has a steeper contact angle (ISO 355).
    pub(crate) has_steep_series: bool,
    /// True where it may sit on an adapter sleeve, on a smaller shaft (ISO 2982-1).
    pub(crate) has_sleeves: bool,
    /// The family that lies in one drawer with it, by the same diameter.
    pub(crate) twin: Option<Family>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_facts_say_has_its_german_line() {
        let lines = include_str!("../../../data/language/de.tsv").lines();
        let said: Vec<&str> = lines.filter_map(|line| line.split('\t').next()).collect();
        for family in Family::ALL {
            let bench = &family.facts().bench;
            let (words, notes, unsound) = (&bench.words, &bench.notes, &bench.unsound);
            let seated = match notes.room_left {
                RoomLeft::Seated(seated) => Some(seated),
                RoomLeft::Spacer => None,
            };
            let closed = match notes.closed_width {
                ClosedWidth::Larger(said) | ClosedWidth::NoneKnown(said) => Some(said),
                ClosedWidth::OfTable => None,
            };
            let always = [words.inner, words.width, family.open_type()].into_iter();
            let sometimes = [notes.when_worn, seated, closed].into_iter().flatten();
            for text in always.chain(sometimes) {
                assert!(said.contains(&text), "{family}: {text}");
            }
            // A meaning stands behind the figure, the band and the side on which it lies.
            for (side, text) in [
                ("above", unsound.inner_above),
                ("below", unsound.outer_below),
                ("above", unsound.outer_above),
                ("below", unsound.width_below),
                ("below", unsound.section_below),
                ("below", unsound.shaft_below),
                ("above", unsound.shaft_above),
                ("below", unsound.housing_below),
                ("above", unsound.housing_above),
                ("below", unsound.other),
                ("above", unsound.other),
            ] {
                let [side, end] = [format!(" lies {side} "), format!(" can have: {text}")];
                let is_it = |line: &&str| line.contains(&side) && line.ends_with(&end);
                assert!(said.iter().any(is_it), "{family}:{side}{text}");
            }
        }
    }

    /// DIN 471 and DIN 472: rings for shafts and for bores have one dimension each, and lie by it.
    #[test]
    fn who_shares_a_drawer_is_the_twin_of_its_twin() {
        let with_twin = |family: &Family| family.facts().bench.told.twin.is_some();
        assert!(Family::ALL.iter().any(with_twin));
        for family in Family::ALL {
            let Some(twin) = family.facts().bench.told.twin else {
                continue;
            };
            assert_eq!(twin.facts().bench.told.twin, Some(family), "{family}");
            assert_ne!(twin, family);
            assert_eq!(twin.key_dimensions().len(), family.key_dimensions().len());
        }
    }

    /// Definition: a rule reads no finer than a calliper, and a shop's own size is never guessed from further off.
    #[test]
    fn a_rule_reaches_as_far_and_own_sizes_are_found_no_further_off() {
        // Of a dimension of 40 mm, nanometres.
        let reach = |(nm, part): Span| nm + 40_000_000 / part;
        for family in Family::ALL {
            let of = family.facts().bench.reach;
            for spans in [of.inner, of.shaft, of.free_lip, of.width, of.other] {
                assert!(reach(spans.by_rule) >= reach(spans.tables), "{family}");
                assert!(reach(spans.own) <= reach(spans.tables), "{family}");
            }
        }
    }
}
