//! The words of the bench: what names a dimension, an instrument, a state, a family, in English, German and French.

use std::sync::LazyLock;

use super::family_words;
use crate::lookup::reading::{Instrument, Role};
use crate::part::{Family, WordMap, WordSet};

/// Words that name a dimension.
pub(super) const ROLES: &[(&str, Role)] = &[
    ("bore", Role::Inner),
    ("id", Role::Inner),
    ("i.d.", Role::Inner),
    ("inside", Role::Inner),
    ("inner", Role::Inner),
    ("bohrung", Role::Inner),
    ("od", Role::Outer),
    ("o.d.", Role::Outer),
    ("outside", Role::Outer),
    ("outer", Role::Outer),
    ("w", Role::Width),
    ("b", Role::Width),
    ("width", Role::Width),
    ("wide", Role::Width),
    ("thick", Role::Width),
    ("thickness", Role::Width),
    ("depth", Role::Width),
    ("height", Role::Width),
    ("high", Role::Width),
    ("long", Role::Width),
    ("length", Role::Width),
    ("t", Role::Width),
    ("cs", Role::Section),
    ("section", Role::Section),
    ("cord", Role::Section),
    ("pitch", Role::Pitch),
    ("shaft", Role::Shaft),
    ("welle", Role::Shaft),
    ("housing", Role::Housing),
    ("lip", Role::FreeLip),
    ("room", Role::Room),
    ("space", Role::Room),
    ("gap", Role::Room),
    ("journal", Role::Shaft),
    ("dia", Role::Inner),
    ("innen", Role::Inner),
    ("innendurchmesser", Role::Inner),
    ("alésage", Role::Inner),
    ("alesage", Role::Inner),
    ("intérieur", Role::Inner),
    ("interieur", Role::Inner),
    ("außen", Role::Outer),
    ("aussen", Role::Outer),
    ("außendurchmesser", Role::Outer),
    ("aussendurchmesser", Role::Outer),
    ("extérieur", Role::Outer),
    ("exterieur", Role::Outer),
    ("breite", Role::Width),
    ("breit", Role::Width),
    ("höhe", Role::Width),
    ("hoehe", Role::Width),
    ("dick", Role::Width),
    ("dicke", Role::Width),
    ("lang", Role::Width),
    ("länge", Role::Width),
    ("laenge", Role::Width),
    ("largeur", Role::Width),
    ("épaisseur", Role::Width),
    ("epaisseur", Role::Width),
    ("hauteur", Role::Width),
    ("longueur", Role::Width),
    ("schnur", Role::Section),
    ("schnurstärke", Role::Section),
    ("schnurstaerke", Role::Section),
    ("tore", Role::Section),
    ("arbre", Role::Shaft),
    ("gehäuse", Role::Housing),
    ("gehaeuse", Role::Housing),
    ("logement", Role::Housing),
    ("platz", Role::Room),
    ("gehäusebohrung", Role::Housing),
    ("gehaeusebohrung", Role::Housing),
    ("wellendurchmesser", Role::Shaft),
];
/// Words for the thread of a nut.
pub(super) const THREADS: [&str; 5] = ["thread", "thd", "gewinde", "filetage", "rosca"];
/// Words that say nothing to the search.
pub(super) const FILLERS: &[&str] = &[
    "x",
    "×",
    "by",
    "on",
    "for",
    "with",
    "a",
    "an",
    "the",
    "and",
    "of",
    "to",
    "is",
    "at",
    "about",
    "approx",
    "ca",
    "need",
    "needs",
    "must",
    "free",
    "size",
    "bearing",
    "seal",
    "ring",
    "part",
    "mm",
    "i",
    "have",
    "it",
    "measures",
    "diameter",
    "rubber",
    "from",
    "old",
    "ball",
    "roller",
    "my",
    "type",
    "und",
    "mit",
    "con",
    "auf",
    "für",
    "der",
    "die",
    "das",
    "ein",
    "eine",
    "mal",
    "lager",
    "et",
    "avec",
    "pour",
    "le",
    "la",
    "de",
    "du",
    "un",
    "une",
    "joint",
    "roulement",
    "environ",
    "ca.",
    "approx.",
    "around",
    "thread",
    "gewinde",
    "à",
    "lèvre",
    "lèvres",
    "ish",
    "roughly",
    "reads",
    "says",
    "marked",
    "sorry",
    "please",
    "one",
    "that",
    "this",
    "no.",
    "or",
    "oder",
    "ou",
    "both",
    "side",
    "sides",
    "each",
    "end",
    "ends",
    "bearings",
    "spare",
    "replacement",
    "class",
    "klasse",
    "classe",
    "clearance",
    "lagerluft",
    "luft",
    "seals",
    "dichtung",
    "dichtungen",
    "durchmesser",
    "in",
    "im",
];
pub(super) const INSTRUMENTS: &[(&str, Instrument)] = &[
    ("rule", Instrument::Rule),
    ("ruler", Instrument::Rule),
    ("tape", Instrument::Rule),
    ("calliper", Instrument::Calliper),
    ("caliper", Instrument::Calliper),
    ("vernier", Instrument::Calliper),
    ("micrometer", Instrument::Micrometer),
    ("mic", Instrument::Micrometer),
    ("lineal", Instrument::Rule),
    ("réglet", Instrument::Rule),
    ("messschieber", Instrument::Calliper),
    ("schieblehre", Instrument::Calliper),
    ("callipers", Instrument::Calliper),
    ("calipers", Instrument::Calliper),
    ("coulisse", Instrument::Calliper),
    ("mikrometer", Instrument::Micrometer),
    ("messschraube", Instrument::Micrometer),
    ("palmer", Instrument::Micrometer),
    ("micrometre", Instrument::Micrometer),
    ("innenmikrometer", Instrument::Micrometer),
    ("bügelmessschraube", Instrument::Micrometer),
    ("buegelmessschraube", Instrument::Micrometer),
    ("innenmessschraube", Instrument::Micrometer),
    ("innenmessgerät", Instrument::Comparator),
    ("comparator", Instrument::Comparator),
    ("comparateur", Instrument::Comparator),
    ("feintaster", Instrument::Comparator),
    ("bore-gauge", Instrument::Comparator),
    ("bore-gage", Instrument::Comparator),
];

/// Words for a worn part.
pub(super) const WORN: &[&str] = &[
    "worn",
    "used",
    "verschlissen",
    "abgenutzt",
    "eingelaufen",
    "gebraucht",
    "usé",
    "usée",
];
/// Words for a figure that was not measured.
pub(super) const NOMINAL: &[&str] = &[
    "new",
    "nominal",
    "drawing",
    "catalogue",
    "neu",
    "neuf",
    "zeichnung",
];
/// Words for an unmounted ring or lip.
pub(super) const FREE: &[&str] = &["free", "unmounted", "relaxed", "entspannt", "libre"];

static BY_ROLE: LazyLock<WordMap<Role>> = LazyLock::new(|| ROLES.iter().copied().collect());
static BY_INSTRUMENT: LazyLock<WordMap<Instrument>> =
    LazyLock::new(|| INSTRUMENTS.iter().copied().collect());
static FILLING: LazyLock<WordSet> = LazyLock::new(|| FILLERS.iter().copied().collect());

/// The dimension that a word in lower case names.
pub(super) fn role_of(lower: &str) -> Option<Role> {
    BY_ROLE.get(lower).copied()
}

/// The instrument that a word in lower case names.
pub(super) fn instrument_of(lower: &str) -> Option<Instrument> {
    BY_INSTRUMENT.get(lower).copied()
}

/// True for a word in lower case that says nothing to the search.
pub(super) fn says_nothing(lower: &str) -> bool {
    FILLING.has(lower)
}

/// True for a word of this reader, so that it is not taken for a suffix.
pub(super) fn is_known(lower: &str) -> bool {
    ROLES
        .iter()
        .any(|(word, _)| *word == lower && word.len() > 2)
        || INSTRUMENTS.iter().any(|(word, _)| *word == lower)
        || [WORN, NOMINAL, FREE]
            .iter()
            .any(|words| words.contains(&lower))
        || matches!(
            lower,
            "measured"
                | "inch"
                | "inches"
                | "in"
                | "hrc"
                | "rpm"
                | "bar"
                | "open"
                | "sealed"
                | "shielded"
        )
}

/// True for a word of two letters or more that says nothing to the search or names a family, so that it is not taken for a suffix.
pub(super) fn is_filler(suffix: &str) -> bool {
    suffix.len() >= 2
        && (FILLERS.iter().any(|word| word.eq_ignore_ascii_case(suffix))
            || family_words::is_one(&suffix.to_lowercase()))
}

/// Words for a retaining ring in a bore.
pub(super) const IN_A_BORE: [&str; 10] = [
    "internal",
    "bore",
    "housing",
    "int",
    "innen",
    "bohrung",
    "bohrungen",
    "intérieur",
    "interieur",
    "alésage",
];
/// Words for a retaining ring on a shaft.
pub(super) const ON_A_SHAFT: [&str; 10] = [
    "external",
    "shaft",
    "ext",
    "außen",
    "aussen",
    "welle",
    "wellen",
    "extérieur",
    "exterieur",
    "arbre",
];

/// What short words say of a family, a bit each.
const RING: u32 = 1 << 0;
const IN_BORE: u32 = 1 << 1;
const ON_SHAFT: u32 = 1 << 2;
const PIN: u32 = 1 << 3;
const O_RING: u32 = 1 << 4;
const LIP: u32 = 1 << 5;
const TAPERED: u32 = 1 << 6;
const ANGULAR: u32 = 1 << 7;
const SPHERICAL: u32 = 1 << 8;
const CYLINDRICAL: u32 = 1 << 9;
const ALONG: u32 = 1 << 10;
const NEEDLES: u32 = 1 << 11;
const THRUST: u32 = 1 << 12;

const SHORT_WORDS: [(u32, &[&str]); 13] = [
    (
        RING,
        &["circlip", "circlips", "snap-ring", "sicherungsring"],
    ),
    (IN_BORE, &IN_A_BORE),
    (ON_SHAFT, &ON_A_SHAFT),
    (
        PIN,
        &[
            "dowel",
            "dowels",
            "zylinderstift",
            "passstift",
            "goupille",
            "pin",
            "pins",
        ],
    ),
    (O_RING, &["oring", "o-ring", "o-rings", "orings"]),
    (
        LIP,
        &[
            "lip",
            "wellendichtring",
            "radialwellendichtring",
            "wdr",
            "lèvre",
            "lèvres",
        ],
    ),
    (
        TAPERED,
        &[
            "tapered",
            "taper",
            "kegelrollenlager",
            "conique",
            "coniques",
        ],
    ),
    (ANGULAR, &["angular", "schrägkugellager"]),
    (
        SPHERICAL,
        &["spherical", "pendelrollenlager", "barrel-shaped", "barrel"],
    ),
    (CYLINDRICAL, &["cylindrical", "zylinderrollenlager"]),
    (ALONG, &["thrust", "axial", "butée"]),
    (NEEDLES, &["needle", "needles", "aiguilles"]),
    (
        THRUST,
        &["thrust", "axiallager", "axialkugellager", "butée"],
    ),
];

static SHORT: LazyLock<WordMap<u32>> = LazyLock::new(|| {
    let of_list = |(says, words): &(u32, &'static [&'static str])| {
        let says = *says;
        words.iter().map(move |word| (says, *word))
    };
    WordMap::of_lists(SHORT_WORDS.iter().flat_map(of_list))
});

/// Families by the short words of the bench that the import does not take for one.
pub(super) fn short_family(text: &str) -> Option<Family> {
    let lower = text.to_lowercase();
    let (mut said, mut may_end_phrase) = (0, false);
    for word in lower.split(|c: char| !c.is_alphanumeric() && c != '-') {
        said |= SHORT.get(word).copied().unwrap_or_default();
        may_end_phrase |= ["ring", "seal", "torique"]
            .iter()
            .any(|end| word.starts_with(end));
    }
    let has = |says: u32| said & says != 0;
    // All of them end with the beginning of such a word.
    let stands = |phrase: &str| may_end_phrase && lower.contains(phrase);
    let is_ring = has(RING) || stands("retaining ring") || stands("snap ring");
    if is_ring && has(IN_BORE) {
        Some(Family::BoreRetainingRing)
    } else if is_ring && has(ON_SHAFT) {
        Some(Family::ShaftRetainingRing)
    } else if has(PIN) {
        Some(Family::DowelPin)
    } else if has(O_RING) || stands("o ring") || stands("joint torique") {
        Some(Family::ORing)
    } else if has(LIP) || stands("rotary seal") || stands("shaft seal") {
        Some(Family::LipSeal)
    } else if has(TAPERED) {
        Some(Family::TaperedRoller)
    } else if has(ANGULAR) {
        Some(Family::AngularContactBall)
    } else if has(SPHERICAL) {
        Some(Family::SphericalRoller)
    } else if has(CYLINDRICAL) {
        Some(Family::CylindricalRoller)
    } else if has(ALONG) && has(NEEDLES) {
        Some(Family::ThrustNeedle)
    } else if has(THRUST) {
        Some(Family::ThrustBall)
    } else {
        None
    }
}
