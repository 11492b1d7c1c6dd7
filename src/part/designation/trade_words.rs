//! Words of the trade for what a mark says, or for what no standard has a mark: `inner ring`, `right-hand helix`, `ABEC 5`.
//!
//! Questions and the names of parts are read by this one table, so that the words that ask for a part also name it.

use std::sync::LazyLock;

use crate::part::{
    BoreForm, Family, PartClass, SealForm, ToleranceClass, Traits, WordMap, WordSet,
};

/// Half a bearing that can be taken apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Half {
    /// Cone, inner ring, shaft washer.
    Inner,
    /// Cup, outer ring, housing washer.
    Outer,
}

/// What words say of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Said {
    /// Only this half.
    Half(Half),
    /// A design, as the rules of exchange call it.
    Variant(&'static str),
    /// Form of the bore.
    Bore(BoreForm),
    /// A groove for a snap ring.
    Groove,
    /// The groove and the ring in it.
    SnapRing,
    /// How a pair stands.
    Arrangement(&'static str),
    /// Material of the cage, by its letters of DIN 623-1.
    Cage(&'static str),
    /// Rows of rolling elements.
    Rows(u8),
    /// With or without a dust lip.
    DustLip(bool),
    /// Two lips: whether the second keeps dust out or seals as well is not told.
    TwoLips,
}

/// Ribs of a lip seal, as the rules of exchange call them.
const RIGHT_RIBS: &str = "ribs for right-hand rotation";
const LEFT_RIBS: &str = "ribs for left-hand rotation";
const BOTH_RIBS: &str = "ribs for both rotations";
/// As the suffix NR of a number says it.
const SNAP_RING: &str = "snap ring fitted (NR)";
const INSULATED: &str = "current insulated";

/// Words in lower case, blanks for hyphens, and what they say. Common practice and the terms of ISO 5593 and ISO 6194-1.
const WORDS: [(&str, Said); 140] = [
    ("inner ring", Said::Half(Half::Inner)),
    ("inner race", Said::Half(Half::Inner)),
    ("shaft washer", Said::Half(Half::Inner)),
    ("bague intérieure", Said::Half(Half::Inner)),
    ("bague interieure", Said::Half(Half::Inner)),
    ("cone", Said::Half(Half::Inner)),
    ("innenring", Said::Half(Half::Inner)),
    ("wellenscheibe", Said::Half(Half::Inner)),
    ("cône", Said::Half(Half::Inner)),
    ("outer ring", Said::Half(Half::Outer)),
    ("outer race", Said::Half(Half::Outer)),
    ("housing washer", Said::Half(Half::Outer)),
    ("bague extérieure", Said::Half(Half::Outer)),
    ("bague exterieure", Said::Half(Half::Outer)),
    ("cup", Said::Half(Half::Outer)),
    ("außenring", Said::Half(Half::Outer)),
    ("aussenring", Said::Half(Half::Outer)),
    ("gehäusescheibe", Said::Half(Half::Outer)),
    ("tapered bore", Said::Bore(BoreForm::Taper12)),
    ("taper bore", Said::Bore(BoreForm::Taper12)),
    ("conical bore", Said::Bore(BoreForm::Taper12)),
    ("kegelige bohrung", Said::Bore(BoreForm::Taper12)),
    ("kegeliger bohrung", Said::Bore(BoreForm::Taper12)),
    ("konische bohrung", Said::Bore(BoreForm::Taper12)),
    ("konischer bohrung", Said::Bore(BoreForm::Taper12)),
    ("kegelbohrung", Said::Bore(BoreForm::Taper12)),
    ("alésage conique", Said::Bore(BoreForm::Taper12)),
    ("taper 1:12", Said::Bore(BoreForm::Taper12)),
    ("taper 1:30", Said::Bore(BoreForm::Taper30)),
    ("kegel 1:12", Said::Bore(BoreForm::Taper12)),
    ("kegel 1:30", Said::Bore(BoreForm::Taper30)),
    ("1:12", Said::Bore(BoreForm::Taper12)),
    ("1:30", Said::Bore(BoreForm::Taper30)),
    ("cylindrical bore", Said::Bore(BoreForm::Cylindrical)),
    ("parallel bore", Said::Bore(BoreForm::Cylindrical)),
    ("zylindrische bohrung", Said::Bore(BoreForm::Cylindrical)),
    ("zylindrischer bohrung", Said::Bore(BoreForm::Cylindrical)),
    ("snap ring groove", Said::Groove),
    ("circlip groove", Said::Groove),
    ("groove for snap ring", Said::Groove),
    ("ringnut", Said::Groove),
    ("sprengringnut", Said::Groove),
    ("rainure", Said::Groove),
    ("snap ring", Said::SnapRing),
    ("sprengring", Said::SnapRing),
    ("stainless steel", Said::Variant("stainless")),
    ("stainless", Said::Variant("stainless")),
    ("rostfrei", Said::Variant("stainless")),
    ("nichtrostend", Said::Variant("stainless")),
    ("edelstahl", Said::Variant("stainless")),
    ("inox", Said::Variant("stainless")),
    ("v2a", Said::Variant("stainless")),
    ("v4a", Said::Variant("stainless")),
    ("ss", Said::Variant("stainless")),
    ("back to back", Said::Arrangement("DB")),
    ("o anordnung", Said::Arrangement("DB")),
    ("o arrangement", Said::Arrangement("DB")),
    ("face to face", Said::Arrangement("DF")),
    ("x anordnung", Said::Arrangement("DF")),
    ("x arrangement", Said::Arrangement("DF")),
    ("tandem", Said::Arrangement("DT")),
    ("tandem anordnung", Said::Arrangement("DT")),
    ("tandem arrangement", Said::Arrangement("DT")),
    ("en tandem", Said::Arrangement("DT")),
    ("current insulated", Said::Variant(INSULATED)),
    ("electrically insulated", Said::Variant(INSULATED)),
    ("insulated", Said::Variant(INSULATED)),
    ("stromisoliert", Said::Variant(INSULATED)),
    ("isoliert", Said::Variant(INSULATED)),
    ("hybrid", Said::Variant("hybrid")),
    ("ceramic balls", Said::Variant("hybrid")),
    ("ceramic", Said::Variant("hybrid")),
    ("keramikkugeln", Said::Variant("hybrid")),
    ("food grade", Said::Variant("food-grade grease")),
    ("food grade grease", Said::Variant("food-grade grease")),
    ("lebensmittelfett", Said::Variant("food-grade grease")),
    ("filling slot", Said::Variant("filling slot")),
    ("with filling slot", Said::Variant("filling slot")),
    ("mit füllnut", Said::Variant("filling slot")),
    ("füllnut", Said::Variant("filling slot")),
    ("closed end", Said::Variant("closed end")),
    ("split", Said::Variant("split")),
    ("geteilt", Said::Variant("split")),
    ("geteiltes lager", Said::Variant("split")),
    ("pressure profile", Said::Variant("pressure profile")),
    ("pressure lip", Said::Variant("pressure profile")),
    ("hardened", Said::Variant("hardened")),
    ("gehärtet", Said::Variant("hardened")),
    ("gehaertet", Said::Variant("hardened")),
    ("trempé", Said::Variant("hardened")),
    ("unhardened", Said::Variant("unhardened")),
    ("not hardened", Said::Variant("unhardened")),
    ("ungehärtet", Said::Variant("unhardened")),
    ("ungehaertet", Said::Variant("unhardened")),
    ("ribs for both directions", Said::Variant(BOTH_RIBS)),
    (BOTH_RIBS, Said::Variant(BOTH_RIBS)),
    ("bidirectional ribs", Said::Variant(BOTH_RIBS)),
    ("wechseldrall", Said::Variant(BOTH_RIBS)),
    ("ribs for right hand rotation", Said::Variant(RIGHT_RIBS)),
    ("right hand helix", Said::Variant(RIGHT_RIBS)),
    ("right hand ribs", Said::Variant(RIGHT_RIBS)),
    ("clockwise ribs", Said::Variant(RIGHT_RIBS)),
    ("ribs clockwise", Said::Variant(RIGHT_RIBS)),
    ("helix right", Said::Variant(RIGHT_RIBS)),
    ("ribs right hand rotation", Said::Variant(RIGHT_RIBS)),
    ("ribs right hand", Said::Variant(RIGHT_RIBS)),
    ("ribs right", Said::Variant(RIGHT_RIBS)),
    ("drall rechts", Said::Variant(RIGHT_RIBS)),
    ("rechtsdrall", Said::Variant(RIGHT_RIBS)),
    ("ribs for left hand rotation", Said::Variant(LEFT_RIBS)),
    ("left hand helix", Said::Variant(LEFT_RIBS)),
    ("left hand ribs", Said::Variant(LEFT_RIBS)),
    ("anticlockwise ribs", Said::Variant(LEFT_RIBS)),
    ("ribs anticlockwise", Said::Variant(LEFT_RIBS)),
    ("helix left", Said::Variant(LEFT_RIBS)),
    ("ribs left hand rotation", Said::Variant(LEFT_RIBS)),
    ("ribs left hand", Said::Variant(LEFT_RIBS)),
    ("ribs left", Said::Variant(LEFT_RIBS)),
    ("drall links", Said::Variant(LEFT_RIBS)),
    ("linksdrall", Said::Variant(LEFT_RIBS)),
    ("polyamide cage", Said::Cage("TN")),
    ("plastic cage", Said::Cage("TN")),
    ("nylon cage", Said::Cage("TN")),
    ("kunststoffkäfig", Said::Cage("TN")),
    ("polyamidkäfig", Said::Cage("TN")),
    ("brass cage", Said::Cage("M")),
    ("cage brass", Said::Cage("M")),
    ("messingkäfig", Said::Cage("M")),
    ("steel cage", Said::Cage("J")),
    ("stahlblechkäfig", Said::Cage("J")),
    ("double row", Said::Rows(2)),
    ("two rows", Said::Rows(2)),
    ("zweireihig", Said::Rows(2)),
    ("single row", Said::Rows(1)),
    ("einreihig", Said::Rows(1)),
    ("dust lip", Said::DustLip(true)),
    ("staublippe", Said::DustLip(true)),
    ("without dust lip", Said::DustLip(false)),
    ("no dust lip", Said::DustLip(false)),
    ("single lip", Said::DustLip(false)),
];

/// Words for a second lip, which is the dust lip of DIN 3760 or a sealing lip of a seal between two fluids.
const SECOND_LIP: [&str; 3] = ["double lip", "twin lip", "doppellippe"];

/// Before these words a ring only tells the whole bearing, or the cup is another kind of bearing.
const BEFORE_HALF: [&str; 17] = [
    "with",
    "without",
    "no",
    "w/o",
    "incl",
    "mit",
    "ohne",
    "avec",
    "sans",
    "both",
    "drawn",
    "rotating",
    "stationary",
    "turning",
    "umlaufender",
    "drehender",
    "stillstehender",
];
/// Before these words the half was only measured or looked at, or is not there.
const BEHIND_HALF: [&str; 22] = [
    "bore",
    "id",
    "od",
    "is",
    "has",
    "measures",
    "turns",
    "spins",
    "rotates",
    "rotating",
    "stationary",
    "dreht",
    "turning",
    "umlaufend",
    "tourne",
    "tournante",
    "missing",
    "gone",
    "lost",
    "fehlt",
    "fehlend",
    "manque",
];
/// Words that say again that it is only this half.
const ONLY: [&str; 6] = ["only", "alone", "just", "nur", "seul", "seule"];
/// Words in front of the number of a class: `ABEC 5`, `class 6`.
const CLASS_WORDS: [&str; 4] = ["abec", "class", "klasse", "classe"];
/// Designs that no bearing has for being one: only parts of families that list them have them.
const OF_SOME: [&str; 7] = [
    "hardened",
    "unhardened",
    "closed end",
    "pressure profile",
    RIGHT_RIBS,
    LEFT_RIBS,
    BOTH_RIBS,
];
/// Designs of which a part has one or the other.
const OPPOSITES: [(&str, &str); 2] = [("hardened", "unhardened"), ("closed end", "open ends")];

impl Half {
    /// What the half of a family is called; `None` where rings are not parted.
    pub const fn of(self, family: Family) -> Option<&'static str> {
        match (family.facts().marks.halves, self) {
            (Some([inner, _]), Self::Inner) => Some(inner),
            (Some([_, outer]), Self::Outer) => Some(outer),
            (None, _) => None,
        }
    }
}

impl Said {
    /// True where a part of the family can be so; where none is known, any can that the words do not presuppose.
    pub fn is_of(self, family: Option<Family>) -> bool {
        let Some(family) = family else {
            return !matches!(
                self,
                Self::Variant("hardened" | "unhardened" | "closed end")
            );
        };
        let marks = &family.facts().marks;
        let is_bearing = family.class() == PartClass::Bearings;
        match self {
            Self::Half(half) => half.of(family).is_some(),
            Self::Variant(name) => {
                marks.worded_designs.contains(&name) || is_bearing && !OF_SOME.contains(&name)
            }
            Self::DustLip(_) | Self::TwoLips => marks.has_seal_forms,
            _ => is_bearing,
        }
    }

    /// Writes it into the traits of a part; false where the part cannot be so or is known to be otherwise.
    ///
    /// What is only there because a number without a mark means it gives way.
    pub fn set(self, traits: &mut Traits, family: Option<Family>) -> bool {
        fn put<T: PartialEq>(slot: &mut Option<T>, value: T, unmarked: Option<&T>) -> bool {
            let is_free = slot
                .as_ref()
                .is_none_or(|known| Some(known) == unmarked || *known == value);
            if is_free {
                *slot = Some(value);
            }
            is_free
        }
        if !self.is_of(family) {
            return false;
        }
        match self {
            Self::Half(half) => family
                .and_then(|family| half.of(family))
                .is_some_and(|half| add_half(traits, half)),
            Self::Variant(name) => add_design(traits, name),
            Self::Bore(form) => put(&mut traits.bore_form, form, Some(&BoreForm::Cylindrical)),
            Self::Groove => put(&mut traits.has_snap_ring_groove, true, Some(&false)),
            Self::SnapRing => {
                traits.has_snap_ring_groove = Some(true);
                add_design(traits, SNAP_RING)
            }
            Self::Arrangement(arrangement) => {
                put(&mut traits.arrangement, arrangement.to_owned(), None)
            }
            Self::Cage(letters) => put(&mut traits.cage, letters.to_owned(), None),
            Self::Rows(rows) => put(&mut traits.rows, rows, None),
            // No form of DIN 3760 follows from it.
            Self::TwoLips => false,
            Self::DustLip(has_lip) => match (traits.seal_form, has_lip) {
                (Some(form), true) => {
                    traits.seal_form = Some(with_dust_lip(form));
                    true
                }
                (Some(form), false) => !form.has_dust_lip(),
                // Without a form the outside is not known.
                (None, _) => false,
            },
        }
    }
}

/// The form with a dust lip: the `S` of DIN 3760.
pub const fn with_dust_lip(form: SealForm) -> SealForm {
    match form {
        SealForm::A | SealForm::As => SealForm::As,
        SealForm::B | SealForm::Bs => SealForm::Bs,
        SealForm::C | SealForm::Cs => SealForm::Cs,
    }
}

/// Adds a design to those that are known; false where the part is of the opposite one.
fn add_design(traits: &mut Traits, name: &str) -> bool {
    let has = |wanted: &str| traits.has_variant(wanted);
    let is_opposite = OPPOSITES
        .iter()
        .any(|(one, other)| name == *one && has(other) || name == *other && has(one));
    let is_other_rib = name.starts_with("ribs ")
        && traits
            .variants()
            .any(|of| of.starts_with("ribs ") && of != name);
    if is_opposite || is_other_rib {
        return false;
    }
    traits.add_variant(name);
    true
}

/// Adds that it is only half a bearing; false where it is the other half.
fn add_half(traits: &mut Traits, half: &str) -> bool {
    let other = traits
        .variants()
        .any(|piece| piece.ends_with(" only") && piece != half);
    !other && add_design(traits, half)
}

fn all() -> impl Iterator<Item = (&'static str, Said)> {
    let second = SECOND_LIP.iter().map(|lip| (*lip, Said::TwoLips));
    WORDS.iter().copied().chain(second)
}

/// The words of a phrase; hyphens part words too.
fn pieces(phrase: &str) -> impl Iterator<Item = &str> {
    phrase.split([' ', '-'])
}

fn first_piece(phrase: &str) -> &str {
    pieces(phrase).next().unwrap_or(phrase)
}

/// Phrases by their first piece, the longest first.
static BY_FIRST: LazyLock<WordMap<Vec<(&str, Said)>>> = LazyLock::new(|| {
    let beginning_as = |first: &str| {
        let mut alike: Vec<(&str, Said)> = all()
            .filter(|(phrase, _)| first_piece(phrase) == first)
            .collect();
        alike.sort_by_key(|(phrase, _)| std::cmp::Reverse(phrase.len()));
        alike
    };
    let firsts = all().map(|(phrase, _)| first_piece(phrase));
    firsts.map(|first| (first, beginning_as(first))).collect()
});

/// Words that stand in a phrase.
static IN_PHRASES: LazyLock<WordSet> = LazyLock::new(|| {
    let words = all().flat_map(|(phrase, _)| pieces(phrase));
    words.filter(|word| word.len() >= SHORTEST_PIECE).collect()
});

/// The phrases that may begin with a word in lower case, the longest first.
fn beginning_with(word: &str) -> &'static [(&'static str, Said)] {
    let first = word.split('-').next().unwrap_or(word);
    BY_FIRST.get(first).map_or(&[], Vec::as_slice)
}

/// The longest phrase that stands at a place among words in lower case: how many words it takes, and what it says.
pub fn at<W: AsRef<str>>(words: &[W], at: usize) -> Option<(usize, Said)> {
    let rest = words.get(at..)?;
    let (count, said) = beginning_with(rest.first()?.as_ref())
        .iter()
        .find_map(|(phrase, said)| Some((takes(phrase, rest)?, *said)))?;
    match said {
        Said::Half(_) => half_at(words, at, count).map(|count| (count, said)),
        Said::Variant("split") if is_housing(words.get(at + count)) => None,
        _ => Some((count, said)),
    }
}

/// True for a word for the housing, which is what is split before it: `6205 split housing`.
fn is_housing<W: AsRef<str>>(word: Option<&W>) -> bool {
    const HOUSINGS: [&str; 5] = ["housing", "housings", "gehäuse", "gehaeuse", "stehlager"];
    word.is_some_and(|word| HOUSINGS.contains(&word.as_ref()))
}

/// How many words the name of a half takes with those that say it again; `None` where it only tells of the whole bearing.
fn half_at<W: AsRef<str>>(words: &[W], at: usize, count: usize) -> Option<usize> {
    let has = |list: &[&str], at: Option<usize>| {
        at.and_then(|at| words.get(at))
            .is_some_and(|word| list.contains(&word.as_ref()))
    };
    let mut end = at + count;
    if has(&BEFORE_HALF, at.checked_sub(1)) {
        return None;
    }
    while has(&ONLY, Some(end)) {
        end += 1;
    }
    (!has(&BEHIND_HALF, Some(end))).then_some(end - at)
}

/// True for a word that says again that it is only half a bearing.
pub fn says_only(word: &str) -> bool {
    ONLY.contains(&word)
}

/// How many words a phrase takes of those that begin a list; `None` where it is not there. Hyphens part words too.
fn takes<W: AsRef<str>>(phrase: &str, words: &[W]) -> Option<usize> {
    let mut pieces = pieces(phrase).peekable();
    for (at, word) in words.iter().enumerate() {
        for part in word.as_ref().split('-') {
            if pieces.next()? != part {
                return None;
            }
        }
        if pieces.peek().is_none() {
            return Some(at + 1);
        }
    }
    None
}

/// True for a word in lower case that a phrase may begin with which says something of a kind.
pub fn may_begin(word: &str, is_wanted: impl Fn(Said) -> bool) -> bool {
    let mut phrases = beginning_with(word).iter();
    phrases.any(|(_, said)| is_wanted(*said))
}

/// Shortest piece of a phrase that is a word of its own and no mark.
const SHORTEST_PIECE: usize = 3;

/// True for a word in lower case that stands in one of the phrases.
pub fn is_in_phrase(word: &str) -> bool {
    IN_PHRASES.has(word)
}

/// True for a design of bearings or seals that is told by words only, so that parts with it and without bear one number.
pub fn is_design(variant: &str) -> bool {
    let is_it = |said: Said| matches!(said, Said::Variant(name) if name == variant);
    // Pins are hardened or not by their standard.
    let is_of_standard = matches!(variant, "hardened" | "unhardened");
    let is_half = variant.ends_with(" only");
    is_half || !is_of_standard && WORDS.iter().any(|(_, said)| is_it(*said))
}

/// True for a word in lower case that the number of a class may follow.
pub fn is_class_word(word: &str) -> bool {
    CLASS_WORDS.contains(&word) || word.starts_with("abec")
}

/// `ABEC 5`, `abec-7`, `class 6` at a place among words in lower case: how many words it takes, and the class of ISO 492.
///
/// # Source
/// ABMA 20: ABEC 1, 3, 5, 7 and 9 are Normal, 6, 5, 4 and 2 of ISO 492; from memory.
pub fn class_at<W: AsRef<str>>(words: &[W], at: usize) -> Option<(usize, ToleranceClass)> {
    let word = words.get(at)?.as_ref();
    if !is_class_word(word) {
        return None;
    }
    let is_abec = word.starts_with("abec");
    let glued = word.trim_start_matches("abec").trim_start_matches('-');
    let (count, number) = if is_abec && !glued.is_empty() {
        (1, glued)
    } else {
        (2, words.get(at + 1)?.as_ref())
    };
    let class = match (is_abec, number) {
        (true, "1") => ToleranceClass::Normal,
        (true, "3") | (false, "6" | "p6") => ToleranceClass::P6,
        (_, "5") | (false, "p5") => ToleranceClass::P5,
        (true, "7") | (false, "4" | "p4") => ToleranceClass::P4,
        (true, "9") | (false, "2" | "p2") => ToleranceClass::P2,
        _ => return None,
    };
    Some((count, class))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(text: &str) -> Vec<String> {
        text.split(' ').map(str::to_lowercase).collect()
    }

    #[test]
    fn designs_of_families_are_those_of_words() {
        let listed = |family: Family| family.facts().marks.worded_designs.iter();
        for (family, design) in Family::ALL
            .into_iter()
            .flat_map(|family| listed(family).map(move |design| (family, *design)))
        {
            let is_told = WORDS.iter().any(|(_, said)| *said == Said::Variant(design));
            assert!(is_told, "{family}: {design}");
        }
        for design in OF_SOME {
            let has_it = |family: Family| family.facts().marks.worded_designs.contains(&design);
            assert!(Family::ALL.into_iter().any(has_it), "{design}");
        }
    }

    #[test]
    fn the_longest_phrase_counts_and_hyphens_part_words() {
        for (text, count, said) in [
            ("right-hand helix", 2, Said::Variant(RIGHT_RIBS)),
            ("right hand helix", 3, Said::Variant(RIGHT_RIBS)),
            ("ribs right-hand", 2, Said::Variant(RIGHT_RIBS)),
            ("ribs left hand rotation", 4, Said::Variant(LEFT_RIBS)),
            ("Drall links", 2, Said::Variant(LEFT_RIBS)),
            ("snap ring groove", 3, Said::Groove),
            ("snap-ring", 1, Said::SnapRing),
            ("back-to-back", 1, Said::Arrangement("DB")),
            ("food-grade grease", 2, Said::Variant("food-grade grease")),
            ("Außenring nur", 2, Said::Half(Half::Outer)),
            ("without dust lip", 3, Said::DustLip(false)),
            ("double lip", 2, Said::TwoLips),
            ("geteiltes Lager", 2, Said::Variant("split")),
            ("1:12", 1, Said::Bore(BoreForm::Taper12)),
        ] {
            assert_eq!(at(&words(text), 0), Some((count, said)), "{text}");
            assert!(may_begin(&words(text)[0], |of| of == said), "{text}");
        }
        for text in [
            "right",
            "right-handed helix",
            "snapring",
            "-",
            "",
            "cones",
            "split housing",
        ] {
            assert_eq!(at(&words(text), 0), None, "{text}");
        }
    }

    #[test]
    fn a_ring_that_was_only_looked_at_is_no_half() {
        for text in ["with inner ring", "drawn cup", "rotating outer ring"] {
            assert_eq!(at(&words(text), 1), None, "{text}");
        }
        for text in [
            "inner ring bore",
            "outer ring turns",
            "inner ring missing",
            "innenring fehlt",
        ] {
            assert_eq!(at(&words(text), 0), None, "{text}");
        }
    }

    #[test]
    fn words_are_said_of_the_families_that_can_be_so() {
        let set = |said: Said, family: Family| said.set(&mut Traits::default(), Some(family));
        for (said, is, is_not) in [
            (
                Said::Variant(LEFT_RIBS),
                Family::LipSeal,
                Family::DeepGrooveBall,
            ),
            (
                Said::Variant("hybrid"),
                Family::DeepGrooveBall,
                Family::LipSeal,
            ),
            (
                Said::Variant("hardened"),
                Family::DowelPin,
                Family::TaperedRoller,
            ),
            (Said::Rows(2), Family::DeepGrooveBall, Family::LipSeal),
            (
                Said::Half(Half::Inner),
                Family::TaperedRoller,
                Family::DeepGrooveBall,
            ),
        ] {
            assert!(set(said, is), "{said:?}");
            assert!(!set(said, is_not), "{said:?}");
        }
    }

    #[test]
    fn what_contradicts_a_mark_is_not_taken() {
        let mut traits = Traits {
            variant: Some("unhardened".to_owned()),
            cage: Some("J".to_owned()),
            ..Traits::default()
        };
        assert!(!Said::Variant("hardened").set(&mut traits, Some(Family::DowelPin)));
        assert!(!Said::Cage("M").set(&mut traits, Some(Family::DeepGrooveBall)));
        assert!(!Said::DustLip(true).set(&mut traits, Some(Family::LipSeal)));
        assert_eq!(traits.variant.as_deref(), Some("unhardened"));
        let mut half = Traits::default();
        let family = Some(Family::TaperedRoller);
        assert!(Said::Half(Half::Inner).set(&mut half, family));
        assert!(!Said::Half(Half::Outer).set(&mut half, family));
        assert_eq!(half.variant.as_deref(), Some("cone only"));
    }

    #[test]
    fn classes_go_by_the_numbers_of_both_standards() {
        // ABMA 20 and ISO 492; from memory.
        use ToleranceClass as T;
        for (text, class) in [
            ("abec 1", Some((2, T::Normal))),
            ("abec-3", Some((1, T::P6))),
            ("abec5", Some((1, T::P5))),
            ("class 5", Some((2, T::P5))),
            ("class p4", Some((2, T::P4))),
            ("class 3", None),
            ("abec", None),
            ("class", None),
        ] {
            assert_eq!(class_at(&words(text), 0), class, "{text}");
        }
    }
}
