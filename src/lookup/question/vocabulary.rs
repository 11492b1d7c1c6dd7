//! The words of the bench: what names a dimension, an instrument, a state, a family, in English, German and French.

use std::sync::LazyLock;

use super::family_words;
use crate::lookup::reading::{Instrument, Role};
use crate::part::{WordMap, WordSet};

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
