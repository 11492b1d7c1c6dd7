//! Whether a row that goes by the number of a part can speak of that part: what the row itself says of it decides.

use crate::part::designation::{Designation, trade_words};
use crate::part::{
    Clearance, Closure, Family, NameKey, PartClass, SizeKey, ToleranceClass, Traits,
};
use crate::record::{KitLine, OfferRecord, PartFacts};
use crate::standard;

/// What a row or a part says of itself besides its numbers.
#[derive(Debug, Clone, Copy)]
pub(super) struct Said<'a> {
    pub(super) designation: Option<&'a str>,
    pub(super) description: Option<&'a str>,
    pub(super) family: Option<Family>,
    pub(super) size: Option<SizeKey>,
    pub(super) traits: &'a Traits,
}

impl<'a> From<&'a OfferRecord> for Said<'a> {
    fn from(record: &'a OfferRecord) -> Self {
        Self {
            designation: record.designation.as_deref(),
            description: record.description.as_deref(),
            family: record.family,
            size: record.size,
            traits: &record.traits,
        }
    }
}

impl<'a> From<&'a KitLine> for Said<'a> {
    /// A kit list describes the place as often as the part; its words count where they name a family or a size.
    fn from(line: &'a KitLine) -> Self {
        Self {
            designation: None,
            description: None,
            family: line.family,
            size: line.size,
            traits: &line.traits,
        }
    }
}

impl<'a> From<&'a PartFacts> for Said<'a> {
    fn from(facts: &'a PartFacts) -> Self {
        Self {
            designation: facts.designation.as_deref(),
            description: facts.description.as_deref(),
            family: facts.family,
            size: facts.size,
            traits: &facts.traits,
        }
    }
}

impl<'a> Said<'a> {
    /// The words a reader knows it by.
    pub(super) fn words(&self) -> Option<&'a str> {
        self.designation.or(self.description)
    }

    fn is_silent(&self) -> bool {
        self.words().is_none() && !self.is_of_known_kind()
    }

    fn is_of_known_kind(&self) -> bool {
        self.size.is_some() || self.family.is_some()
    }

    fn shares_words(&self, other: &Self) -> bool {
        let keys =
            |said: &Self| [said.designation, said.description].map(|of| of.map(NameKey::new));
        let theirs = keys(other);
        let mine = keys(self);
        mine.iter()
            .flatten()
            .any(|key| !key.is_empty() && theirs.iter().flatten().any(|of| of == key))
    }

    /// Basic designation, where it is one of a standard.
    fn basic(&self) -> Option<String> {
        Some(Designation::parse(self.designation?)?.basic)
    }
}

/// How well a row fits the part whose number it bears.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fit {
    /// Both say the same size, or the same words.
    Same,
    /// Nothing is said against it, and nothing for it.
    Silent,
    /// Both have only words, and not the same ones.
    Words,
    /// It is another part, or one that nothing makes this one: a size on one side, mere words on the other.
    Against,
}

/// How well a row fits a part.
pub(super) fn fit(row: &Said<'_>, part: &Said<'_>) -> Fit {
    if difference(row, part).is_some() {
        return Fit::Against;
    }
    if row.size.is_some() && part.size.is_some() || row.shares_words(part) {
        return Fit::Same;
    }
    if row.is_silent() || part.is_silent() {
        return Fit::Silent;
    }
    match (row.is_of_known_kind(), part.is_of_known_kind()) {
        (true, true) => Fit::Silent,
        (false, false) => Fit::Words,
        _ => Fit::Against,
    }
}

/// The first thing in which a row contradicts a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Difference {
    /// What differs, in words.
    pub(super) what: &'static str,
    /// True where the row only leaves out a suffix that the part has: `6205` for `6205 C3`.
    pub(super) is_left_out: bool,
}

/// The first thing that both state and state differently.
pub(super) fn difference(row: &Said<'_>, part: &Said<'_>) -> Option<Difference> {
    let said = |what: &'static str| {
        Some(Difference {
            what,
            is_left_out: false,
        })
    };
    match (row.size, part.size) {
        (Some(a), Some(b)) if a != b => return said("size"),
        (Some(_), Some(_)) => {}
        _ => {
            if differ(&row.family, &part.family) {
                return said("family");
            }
            if differ(&row.basic(), &part.basic()) {
                return said("designation");
            }
        }
    }
    let is_seal = part
        .family
        .or(row.family)
        .is_some_and(|family| family.class() == PartClass::Seals);
    if is_seal && differ(&row.traits.material, &part.traits.material) {
        return said("material");
    }
    if is_other_variant(row.traits, part.traits) || adds_design(row.traits, part.traits) {
        return said("variant");
    }
    trait_difference(row.traits, part.traits)
}

/// The first of those traits that tell parts of one size apart in which two rows contradict each other.
pub(super) fn trait_difference(row: &Traits, part: &Traits) -> Option<Difference> {
    let all = [
        (
            "closure",
            differ(&row.closure, &part.closure),
            row.closure == Some(Closure::Open),
        ),
        (
            "clearance",
            differ(&row.clearance, &part.clearance),
            row.clearance == Some(Clearance::Normal),
        ),
        (
            "tolerance class",
            differ(&row.tolerance_class, &part.tolerance_class),
            row.tolerance_class == Some(ToleranceClass::Normal),
        ),
        (
            "contact angle",
            differ(&row.contact_angle, &part.contact_angle),
            false,
        ),
        ("ribs", differ(&row.rib_form, &part.rib_form), false),
        ("bore", differ(&row.bore_form, &part.bore_form), false),
        (
            "snap-ring groove",
            differ(&row.has_snap_ring_groove, &part.has_snap_ring_groove),
            false,
        ),
        (
            "form of the seal",
            differ(&row.seal_form, &part.seal_form),
            false,
        ),
        (
            "arrangement",
            differ(&row.arrangement, &part.arrangement),
            false,
        ),
        ("hardness", differ(&row.hardness, &part.hardness), false),
    ];
    let differing = all.iter().filter(|(_, differs, _)| *differs);
    // What is said outright weighs more than what is left out.
    let (what, _, is_left_out) = differing.min_by_key(|(.., is_left_out)| *is_left_out)?;
    Some(Difference {
        what,
        is_left_out: *is_left_out,
    })
}

/// True where each has a variant that the other has not.
fn is_other_variant(a: &Traits, b: &Traits) -> bool {
    let lacks =
        |one: &Traits, other: &Traits| other.variants().any(|variant| !one.has_variant(variant));
    lacks(a, b) && lacks(b, a)
}

/// True where one has a design told by words (stainless, insulated, half a bearing) that the other has not.
fn adds_design(one: &Traits, other: &Traits) -> bool {
    let mut added = one.variants().filter(|of| !other.has_variant(of));
    added.any(trade_words::is_design)
}

/// True where two rows tell the same designs by words: the number of a standard leaves them out.
pub(super) fn is_one_design(a: &Traits, b: &Traits) -> bool {
    !adds_design(a, b) && !adds_design(b, a)
}

fn differ<T: PartialEq>(a: &Option<T>, b: &Option<T>) -> bool {
    matches!((a, b), (Some(a), Some(b)) if a != b)
}

/// Size that a standard gives for what may be a designation.
pub(super) fn standard_size(name: &str) -> Option<SizeKey> {
    let designation = Designation::parse(name)?;
    (designation.size).or_else(|| standard::resolve(&designation).map(|row| row.size))
}

/// True where two rows of one designation may speak of one part: no trait that both state differs, and an elastomer is
/// stated by both or by neither, because seals of one designation come in several.
pub(super) fn may_be_one(family: Option<Family>, a: &Traits, b: &Traits) -> bool {
    let is_seal = family.is_some_and(|family| family.class() == PartClass::Seals);
    (!is_seal || a.material == b.material) && trait_difference(a, b).is_none()
}
