//! Variants that the trade knows by name, and how far each bars an exchange.

use super::finding::Bar;

/// How a variant text begins, how far it bars where only one part has it, and what it means.
pub struct KnownVariant {
    /// How its text begins, lower case.
    pub begins: &'static str,
    /// Where the wanted part has it and the one at hand has not.
    pub missing: Bar,
    /// Where the one at hand has it and the wanted part has not.
    pub extra: Bar,
    /// What it means at the machine.
    pub effect: &'static str,
    /// Who says so.
    pub source: &'static str,
}

/// How the text of the design with larger rollers begins.
pub const INNER_DESIGN: &str = "increased capacity design";

const PRACTICE: &str = "common practice, no source";

const fn known(
    begins: &'static str,
    missing: Bar,
    extra: Bar,
    effect: &'static str,
    source: &'static str,
) -> KnownVariant {
    KnownVariant {
        begins,
        missing,
        extra,
        effect,
        source,
    }
}

/// Every known variant; one that is not listed is another part.
pub const KNOWN: [KnownVariant; 23] = [
    known(
        INNER_DESIGN,
        Bar::Check,
        Bar::None,
        "another inner design: exchange the whole bearing, rings of the two do not mix",
        "raceway diameters of an open table (NJ 204 26.5 mm)",
    ),
    known(
        "dimensionally stabilised",
        Bar::Check,
        Bar::None,
        "rings that are not stabilised grow when they run hot",
        "common practice, from memory",
    ),
    known(
        "filling slot",
        Bar::Check,
        Bar::Check,
        "a filling slot takes more balls, more radial load and little axial load",
        "textbook practice, from memory",
    ),
    known(
        "stainless",
        Bar::Never,
        Bar::Check,
        "stainless rings stand water and washing, at a lower load rating; plain steel rusts there",
        PRACTICE,
    ),
    known(
        "current insulated",
        Bar::Never,
        Bar::None,
        "without insulation the currents of an inverter pit the raceways",
        PRACTICE,
    ),
    known(
        "hybrid",
        Bar::Never,
        Bar::Check,
        "ceramic balls insulate and run faster; steel ones do neither, and the ratings differ",
        PRACTICE,
    ),
    known(
        "food-grade grease",
        Bar::Never,
        Bar::Check,
        "near food only registered grease; the other grease may not stand the speed and heat",
        PRACTICE,
    ),
    known(
        "high-temperature grease",
        Bar::Never,
        Bar::Check,
        "plain grease bleeds out where it is hot; special grease may be wrong where it is cold or fast",
        PRACTICE,
    ),
    known(
        "cone only",
        Bar::Check,
        Bar::Never,
        HALF,
        "ISO 355 pairs; published tables",
    ),
    known(
        "cup only",
        Bar::Check,
        Bar::Never,
        HALF,
        "ISO 355 pairs; published tables",
    ),
    known(
        "inner ring only",
        Bar::Check,
        Bar::Never,
        HALF,
        "DIN 5412-1 and ISO 1206, from memory",
    ),
    known(
        "outer ring only",
        Bar::Check,
        Bar::Never,
        HALF,
        "DIN 5412-1 and ISO 1206, from memory",
    ),
    known(
        "shaft washer only",
        Bar::Check,
        Bar::Never,
        HALF,
        "ISO 104, published tables",
    ),
    known(
        "housing washer only",
        Bar::Check,
        Bar::Never,
        HALF,
        "ISO 104, published tables",
    ),
    known(
        "pressure profile",
        Bar::Never,
        Bar::Check,
        "a plain lip lifts or wears under pressure; a pressure lip runs warmer without it",
        "DIN 3760 covers seals without pressure, from memory; common practice",
    ),
    known(
        "ribs for right-hand rotation",
        Bar::Never,
        Bar::Check,
        RIBS,
        PRACTICE,
    ),
    known(
        "ribs for left-hand rotation",
        Bar::Never,
        Bar::Check,
        RIBS,
        PRACTICE,
    ),
    known(
        "ribs for both rotations",
        Bar::Check,
        Bar::None,
        RIBS,
        PRACTICE,
    ),
    known(
        "type a",
        Bar::Check,
        Bar::None,
        PIN_TYPE,
        "ISO 8734, from memory",
    ),
    known(
        "type b",
        Bar::Check,
        Bar::Check,
        PIN_TYPE,
        "ISO 8734, from memory",
    ),
    known(
        "backup ring",
        Bar::Never,
        Bar::Check,
        "without backup ring the O-ring is pressed into the gap; with one it needs the wider groove",
        "published gland table (groove widths with and without backup ring)",
    ),
    known(
        "split",
        Bar::Never,
        Bar::Check,
        "a split part goes on without taking the machine apart; it leaks or carries otherwise",
        PRACTICE,
    ),
    known(
        "vibration design",
        Bar::Never,
        Bar::Check,
        "cage and clearance are made for shaking; the plain bearing breaks its cage there",
        PRACTICE,
    ),
];

/// A variant that may be there instead of another.
pub struct StandIn {
    /// How the text of the wanted one begins, lower case.
    pub wanted: &'static str,
    /// How the text of the one at hand begins, lower case.
    pub at_hand: &'static str,
    /// How far it bars.
    pub bar: Bar,
    /// What it means at the machine.
    pub effect: &'static str,
}

/// Variants that do part of each other's work: common practice, no source.
pub const STAND_INS: [StandIn; 4] = [
    StandIn {
        wanted: "current insulated",
        at_hand: "hybrid",
        bar: Bar::Check,
        effect: "ceramic balls insulate as well, at another load rating, speed limit and price",
    },
    StandIn {
        wanted: "hybrid",
        at_hand: "current insulated",
        bar: Bar::Never,
        effect: "insulates as well, but its steel balls do not run as fast as ceramic ones",
    },
    StandIn {
        wanted: "ribs for right-hand rotation",
        at_hand: "ribs for both rotations",
        bar: Bar::Check,
        effect: BOTH_RIBS,
    },
    StandIn {
        wanted: "ribs for left-hand rotation",
        at_hand: "ribs for both rotations",
        bar: Bar::Check,
        effect: BOTH_RIBS,
    },
];

const BOTH_RIBS: &str = "ribs for both rotations pump in either, and less than those for one";

/// True for variants that lip seals alone are made in.
pub fn is_of_lip_seals(variant: &str) -> bool {
    begins(variant, "ribs for") || begins(variant, "pressure profile")
}

/// What half a bearing means at the machine.
pub const HALF: &str =
    "half a bearing: rings and washers are exchanged as the whole they belong to";
const PIN_TYPE: &str =
    "type A is hardened through, type B in its case only: which of the two matters under load";
const RIBS: &str =
    "pumping ribs return the fluid in one direction of rotation and pump it out in the other";

/// True where a text, upper or lower case, begins with another in lower case.
pub fn begins(variant: &str, with: &str) -> bool {
    if !variant.is_ascii() {
        return variant.to_lowercase().starts_with(with);
    }
    let head = variant.get(..with.len());
    head.is_some_and(|head| head.eq_ignore_ascii_case(with))
}

/// The known variant of a text, upper or lower case.
pub fn find(variant: &str) -> Option<&'static KnownVariant> {
    KNOWN.iter().find(|known| begins(variant, known.begins))
}

/// True for a variant that a part is made to beside those of its standard's table: ordered with, not another row.
pub fn is_made_to_order(variant: &str) -> bool {
    find(variant).is_some()
}

/// True for a variant that is half a bearing.
pub fn is_half(variant: &str) -> bool {
    find(variant).is_some_and(|known| known.effect == HALF)
}
