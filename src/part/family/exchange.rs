//! What may take the place of a part of a family, and what lists say of one beside its size.

use super::Family;

/// What may take the place of a part of a family.
#[derive(Debug)]
pub(crate) struct Exchange {
    /// What a part of another width, or a ring of another section, may do.
    pub(crate) other_width: OtherWidth,
    /// Families that are taken for it, and what is wrong with them in its place.
    pub(crate) instead: &'static [Instead],
    /// True where it lets the shaft tilt by about 1.5 to 3 degrees. Handbook practice, from memory.
    pub(crate) aligns_itself: bool,
    /// How it holds the shaft along its axis.
    pub(crate) along_axis: AlongAxis,
    /// True for types that are mounted as the floating bearing by leaving one ring loose on its seat. Common practice, no
    /// source.
    pub(crate) floats_on_its_seat: bool,
    /// The load that it carries.
    pub(crate) carries: Carries,
    /// What of it meets the shaft.
    pub(crate) on_shaft: OnShaft,
    /// How bearings of it stand together.
    pub(crate) in_sets: InSets,
    /// How often it is made with shields or seals; a counter asks for them where that is often. Common practice, no source.
    pub(crate) closed: MadeClosed,
    /// True where its bore is often tapered (DIN 623-1), so that it is asked for where no mark tells. Common practice, no source.
    pub(crate) is_often_tapered: bool,
    /// True where it is made of an elastomer, which its fluid and heat must suit.
    pub(crate) is_of_elastomer: bool,
    /// What pressure does to it.
    pub(crate) pressure: Pressure,
    /// What lists say of it.
    pub(crate) listed: Listed,
}

/// What is wrong with a part of another family in the place of one.
#[derive(Debug)]
pub(crate) struct Instead {
    /// The other family.
    pub(crate) of: Family,
    /// What is wrong with it.
    pub(crate) effect: &'static str,
    /// Who says so.
    pub(crate) source: &'static str,
}

/// What a part may do that has the diameters of another and not its width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum OtherWidth {
    /// Nothing: it is another size.
    Never,
    /// Stand in with a spacer.
    Spacer {
        /// How much narrower it may be, mm; above it rings lose their support. Common practice, no source.
        most_mm: f64,
    },
    /// Stand in where the bore is deep enough.
    InBore,
    /// Stand in where the gland holds either ring.
    Gland,
}

/// What a type does along the axis of its shaft. DIN 5412-1 and ISO 246, from memory; types of IS 6457:1972; published type
/// descriptions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum AlongAxis {
    /// It holds it both ways.
    BothWays,
    /// It holds it one way.
    OneWay,
    /// It holds it one way, and both ways in two rows, as a pair against each other, or with four points of contact.
    ByArrangement,
    /// Its ribs tell: N and NU hold nothing, NJ one way, NUP both ways.
    ByRibs,
    /// It holds nothing: the shaft slides in it.
    Nothing,
    /// No rule tells.
    Untold,
}

/// The load that a type carries. Published type descriptions, from memory; ISO 104 for thrust bearings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Carries {
    /// Load across the shaft; what it carries along it is rated with that.
    Across,
    /// Load across the shaft, and only part of its rating along it.
    MostlyAcross,
    /// Load along the shaft only.
    Along,
    /// None: it is no bearing.
    Nothing,
}

/// What of a part meets the shaft.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum OnShaft {
    /// A ring or washer of its own.
    OwnRing,
    /// Its rolling elements, so that the shaft is the raceway.
    Raceway,
    /// Its rolling elements, but for the designs with this variant, which have a ring of their own.
    RacewayUnless(&'static str),
    /// A lip that rubs on a turning shaft.
    Lip,
    /// Nothing that the shaft turns against.
    Nothing,
}

/// How bearings of a family stand together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum InSets {
    /// In sets as often as alone: a set is several bearings.
    Sets,
    /// In pairs; a set may also be the two halves of one. Common practice, no source.
    Pairs,
    /// Alone.
    Alone,
}

/// How often a family is made with shields or seals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum MadeClosed {
    /// Never, or it is no bearing.
    Never,
    /// It is open unless somebody says otherwise.
    Seldom,
    /// Some sizes.
    Sometimes,
    /// As often as open: a size alone does not tell which.
    Often,
}

/// What pressure does to a part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Pressure {
    /// Nothing that a rule knows.
    Untold,
    /// It presses a lip on the shaft, above about so many bar.
    OnLip {
        /// Bar.
        most_bar: f64,
    },
    /// It presses a ring into its gap, the softer the sooner.
    IntoGap,
}

/// What lists say of a part, besides its designation.
#[derive(Debug)]
pub(crate) struct Listed {
    /// Families whose words are said of this more special one as well.
    pub(crate) genera: &'static [Family],
    /// The word for rolling elements in the names of radial bearings that lists give by their size alone.
    pub(crate) kind: Option<KindWord>,
    /// The word that makes a designation of a bare size: `25x3 NBR 70` is one of an O-ring with `O-RING` before it.
    pub(crate) word_before_size: Option<&'static str>,
    /// True where a size in words beside the designation is told in whole figures as the part has it; O-rings are also called by
    /// their nominal inches.
    pub(crate) is_size_told: bool,
    /// True where its two halves have numbers of their own, and it has both with a stroke (ABMA 19.2).
    pub(crate) has_two_numbers: bool,
}

/// Words for rolling elements in the names of bearings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum KindWord {
    /// Ball bearing.
    Ball,
    /// Roller bearing.
    Roller,
}

impl Exchange {
    /// True where the shaft may slide along its axis in some form of it.
    pub(crate) const fn lets_the_shaft_slide(&self) -> bool {
        matches!(self.along_axis, AlongAxis::ByRibs | AlongAxis::Nothing)
    }

    /// True where a lip of it rubs on the shaft.
    pub(crate) const fn has_lip(&self) -> bool {
        matches!(self.on_shaft, OnShaft::Lip)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Dimension, PartClass};
    use super::*;

    /// The names are those of the standards: ISO 104 and ISO 3031 thrust, ISO 15 with what rolls, ISO 355 and DIN 635-2.
    #[test]
    fn the_name_in_its_standard_says_what_rolls_and_which_load_it_takes() {
        for family in Family::ALL {
            let (name, exchange) = (family.name(), &family.facts().exchange);
            let word = match exchange.listed.kind {
                Some(KindWord::Ball) => " ball bearing",
                Some(KindWord::Roller) => " roller bearing",
                None => "",
            };
            assert!(name.ends_with(word), "{name}");
            let is_thrust = name.starts_with("thrust");
            assert_eq!(exchange.carries == Carries::Along, is_thrust, "{name}");
            let is_bearing = family.class() == PartClass::Bearings;
            assert_eq!(exchange.carries != Carries::Nothing, is_bearing, "{name}");
            let aligns = name.starts_with("self-aligning") || name.starts_with("spherical");
            assert_eq!(exchange.aligns_itself, aligns, "{name}");
        }
    }

    /// ISO 1206, ISO 3030, ISO 3245 and DIN 5429 size by Fw, the diameter under the needles, what is its own shaft's raceway.
    #[test]
    fn what_runs_on_the_shaft_is_sized_by_the_raceway_on_it() {
        for family in Family::ALL {
            let is_by_raceway = family.key_dimensions()[0] == Dimension::InnerRacewayDiameter;
            let runs_on_it = match family.facts().exchange.on_shaft {
                OnShaft::Raceway | OnShaft::RacewayUnless(_) => true,
                OnShaft::OwnRing | OnShaft::Lip | OnShaft::Nothing => false,
            };
            assert_eq!(runs_on_it, is_by_raceway, "{family}");
        }
    }

    /// A reason for one of the two is one for the other, and none is for the family itself.
    #[test]
    fn families_that_are_taken_for_each_other_name_each_other() {
        for family in Family::ALL {
            for instead in family.facts().exchange.instead {
                assert_ne!(instead.of, family);
                let other = &instead.of.facts().exchange;
                let names_it = other.instead.iter().any(|back| back.of == family);
                // Rollers go for balls by their ribs, whatever the balls are.
                let has_ribs = family.facts().exchange.along_axis == AlongAxis::ByRibs;
                assert!(names_it || has_ribs, "{family} and {}", instead.of);
            }
        }
    }

    /// A spacer makes up a width, which is then one of the key dimensions.
    #[test]
    fn only_a_family_with_a_width_takes_a_spacer() {
        for family in Family::ALL {
            let (shape, exchange) = (&family.facts().shape, &family.facts().exchange);
            let takes_one = matches!(exchange.other_width, OtherWidth::Spacer { .. });
            assert!(!takes_one || shape.width_place.is_some(), "{family}");
        }
    }
}
