//! Parts of a machine whose sizes are in no table here: they are named as such, and never answered with another part that
//! happens to have the same figures.

mod by_standard;
mod lettered;
mod piece;
mod plain_spherical;

pub(super) use piece::{asked_for as piece_asked_for, loose_ring};

use std::sync::LazyLock;

use super::figure::is_size;
use super::short_words::family_in_short;
use super::without_table_number;
use crate::import::family_in;
use crate::part::WordMap;

/// A kind of part without a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WithoutTable {
    /// What it is.
    pub name: &'static str,
    /// What decides its size, and where to look for it.
    pub why: &'static str,
    /// Words for it, lower case.
    words: &'static [&'static str],
    /// True where the words as often say where another part sits: `6206 coupling side`, `40x80x18 for chain drive`.
    names_a_place: bool,
}

impl WithoutTable {
    /// True for a ring of which it must be asked where it sits.
    pub fn is_snap_ring(&self) -> bool {
        self.name == SNAP_RING
    }

    /// True for a spacer, whose length may set a preload.
    pub fn is_spacer(&self) -> bool {
        self.name == SPACER
    }
}

pub(super) const TAB_WASHER: &str = "tab washer";
const SPACER: &str = "spacer";
const SLEEVE: &str = "adapter or withdrawal sleeve";
const INCH_NUT: &str = "lock nut with a thread by the inch (AN)";
const OUTER_HALF: &str = "cylindrical roller bearing without inner ring (RNU)";
const DRAWING: &str = "it is made for its place: measure it and its seats, or take the machine's drawing or parts list";
const OWN_STANDARD: &str = "its standard is not among the tables here: take the size from the machine's parts list or from the standard";

/// Letters of a design behind the number of an angle ring: `EC`, `ECJ`, `ECML`.
const MOST_DESIGN_LETTERS: usize = 4;
const NEEDLES: &str = "machined needle bearing";
pub(super) const LARGE_NUT: &str = "large lock nut";

const THRUST_ROLLERS: &str = "thrust roller bearing";

const THREADED: &str = "nut, bolt or rod end";

const WASHER: &str = "washer";
const SLOTTED_NUT: &str = "slotted round nut (DIN 1804, DIN 1816 or DIN 70852)";

const SNAP_RING: &str = "snap ring of wire or for a bearing's groove";
pub(super) const LIGHT_NUT: &str = "lock nut of the light series (KML)";
pub(super) const HM_NUT: &str = "lock nut with a trapezoidal thread (HM)";
pub(super) const INSERT: &str = "insert bearing";
const INSERT_WHY: &str = "its outside is spherical and sits in a housing made for it (ISO 9628), and its sizes are not among the tables here: measure bore, outside and the widths of both rings, look how it is held on the shaft (set screws, eccentric collar or sleeve), and put in no deep groove ball bearing instead";
pub(super) const INCH_ANGULAR: &str =
    "double row angular contact ball bearing by an inch-world number";

const ANGLE_RING: &str = "angle ring of a cylindrical roller bearing";

static KINDS: [WithoutTable; 38] = [
    WithoutTable {
        name: plain_spherical::NAME,
        why: "spherical plain bearings (ISO 12240-1) slide and do not roll, and are not among the tables here: measure bore, outside and the widths of both rings, look whether it is greased or runs dry, and put in no rolling bearing instead",
        words: &[
            "spherical plain bearing",
            "spherical plain bearings",
            "spherical plain",
            "gelenklager",
            "radialgelenklager",
            "rotule lisse",
            "rótula lisa",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: ANGLE_RING,
        why: "it is half a thing: it stands beside the inner ring of the NJ or NU bearing whose number it carries and holds the shaft (ISO 246), and its sizes are not among the tables here: order it by HJ and that number, with the E of the bearing where it has one, and ask for the bearing by itself, as NJ or NU",
        words: &["angle ring", "angle rings", "winkelring", "winkelringe"],
        names_a_place: false,
    },
    WithoutTable {
        name: SNAP_RING,
        why: "snap rings without eyes (DIN 7993 of round wire, DIN 5417 for the groove in a bearing's outer ring) are not among the tables here: see where it sits, measure its section and the groove, and for a flat ring with two eyes ask as `circlip 62 bore` or `circlip 62 shaft`",
        words: &[
            "sprengring",
            "sprengringe",
            "rundsprengring",
            "drahtsprengring",
            "wire ring",
            "round wire ring",
            "wire snap ring",
            "din 7993",
            "din 5417",
            "din 9045",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: LIGHT_NUT,
        why: "they are not among the tables here and are smaller outside than a KM of the same thread (ISO 2982-2): measure thread, pitch, outside diameter and width, and take no KM for one unmeasured",
        words: &[],
        names_a_place: false,
    },
    WithoutTable {
        name: HM_NUT,
        why: "they are not among the tables here (ISO 2982-2): measure the thread on the shaft over its crests and its pitch, the outside diameter and the width of the nut, and look how it is locked (a clip in a slot of the shaft)",
        words: &[],
        names_a_place: false,
    },
    WithoutTable {
        name: INSERT,
        why: INSERT_WHY,
        words: &["insert bearing", "insert bearings", "spannlager"],
        names_a_place: false,
    },
    WithoutTable {
        name: INSERT,
        why: INSERT_WHY,
        words: &[
            "gehäuselager",
            "stehlager",
            "flanschlager",
            "pillow block",
            "plummer block",
            "flange bearing",
            "palier à semelle",
        ],
        names_a_place: true,
    },
    WithoutTable {
        name: INCH_ANGULAR,
        why: "52 and 53 with a bore code are read so in the inch world, with the boundary dimensions of 32 and 33 (from memory), and are in no table here: count the rows of balls, measure bore, outside and width, and ask by these figures; where a digit may be missing, 52206 is a thrust ball bearing",
        words: &[],
        names_a_place: false,
    },
    WithoutTable {
        name: THREADED,
        why: "plain threaded parts are not among the tables here and go by thread, pitch and length: a lock nut of a bearing has a fine thread, ask for it as `lock nut M12 x 1`",
        words: &[
            "bolt",
            "bolts",
            "screw",
            "screws",
            "stud",
            "rod end",
            "rod ends",
            "hex nut",
            "hexagon nut",
            "schraube",
            "sechskantmutter",
            "gelenkkopf",
            "boulon",
            "castle nut",
            "castellated nut",
            "kronenmutter",
        ],
        names_a_place: true,
    },
    WithoutTable {
        name: THRUST_ROLLERS,
        why: "roller thrust bearings (ISO 104) are not among the tables here: measure both washers and the height, and put in none with balls or needles instead",
        words: &[
            "thrust roller",
            "thrust rollers",
            "roller thrust",
            "cylindrical roller thrust",
            "thrust cylindrical roller",
            "cylindrical thrust roller",
            "tapered roller thrust",
            "spherical roller thrust",
            "axialzylinderrollenlager",
            "axial-zylinderrollenlager",
            "axialpendelrollenlager",
            "axial-pendelrollenlager",
            "axialrollenlager",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: "retaining washer for a shaft (E-clip)",
        why: "retaining washers (DIN 6799) are not among the tables here: they go by the diameter of the groove's floor",
        words: &[
            "e-clip",
            "e-clips",
            "e clip",
            "e-ring",
            "e-rings",
            "din 6799",
            "din6799",
            "retaining washer",
            "sicherungsscheibe",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: "V-ring",
        why: "V-rings are not among the tables here: they go by the shaft diameter and their form",
        words: &["v-ring", "v-rings", "v ring", "v-ringe"],
        names_a_place: false,
    },
    WithoutTable {
        name: NEEDLES,
        why: "its numbers carry no size that the tables here hold: measure bore, outside and width",
        words: &["nk bearing", "nki bearing"],
        names_a_place: false,
    },
    WithoutTable {
        name: LARGE_NUT,
        why: "lock nuts beyond KM20 are not among the tables here: they go by their thread",
        words: &[],
        names_a_place: false,
    },
    WithoutTable {
        name: SPACER,
        why: DRAWING,
        words: &[
            "spacer",
            "spacers",
            "distance ring",
            "distanzring",
            "distanzhülse",
            "zwischenring",
            "entretoise",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: TAB_WASHER,
        why: "it goes with its lock nut and has its thread (ISO 2982-2): ask for the nut, such as `KM8` or `lock nut M40 x 1.5`, and never refit a used one",
        words: &[
            "tab washer",
            "tab washers",
            "locking washer",
            "lock washer",
            "sicherungsblech",
            "sicherungsbleche",
            "rondelle frein",
            "arandela de seguridad",
            "rosetta di sicurezza",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: "shim",
        why: DRAWING,
        words: &["shim", "shims", "shim ring", "passscheibe", "cale"],
        names_a_place: true,
    },
    WithoutTable {
        name: "taper pin",
        why: "taper pins (ISO 2339, 1:50) are not among the tables here: they go by the diameter of the small end and the length",
        words: &[
            "taper pin",
            "taper pins",
            "tapered pin",
            "kegelstift",
            "goupille conique",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: "spring pin",
        why: OWN_STANDARD,
        words: &[
            "spring pin",
            "roll pin",
            "tension pin",
            "coiled pin",
            "spannstift",
            "spiralspannstift",
            "spannhülse",
            "goupille élastique",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: "grooved pin",
        why: OWN_STANDARD,
        words: &[
            "grooved pin",
            "grooved pins",
            "kerbstift",
            "knebelkerbstift",
            "goupille cannelée",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: "clevis pin",
        why: OWN_STANDARD,
        words: &["clevis pin", "clevis pins", "axe de chape"],
        names_a_place: false,
    },
    WithoutTable {
        name: WASHER,
        why: OWN_STANDARD,
        words: &[
            "scheibe",
            "flat washer",
            "spring washer",
            "plain washer",
            "federring",
            "federscheibe",
            "zahnscheibe",
            "unterlegscheibe",
            "rondelle plate",
            "rondelle élastique",
        ],
        names_a_place: true,
    },
    WithoutTable {
        name: SLOTTED_NUT,
        why: "it is not among the tables here: outside, width and slots are not those of a KM with the same thread (DIN 981), and neither spanner nor tab washer of the one goes on the other (from memory): measure thread, pitch, outside diameter and width, and take no KM for one unmeasured",
        words: &[],
        names_a_place: false,
    },
    WithoutTable {
        name: "backup ring of an O-ring",
        why: "backup rings are not among the tables here: they go by the O-ring and the groove that they lie in, ask for the O-ring alone and take the backup ring from the machine's parts list",
        words: &[
            "backup ring",
            "backup rings",
            "back-up ring",
            "back-up rings",
            "stützring",
            "stützringe",
            "stuetzring",
            "bague anti-extrusion",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: "X-ring",
        why: "rings with four lobes are not among the tables here: inside diameter and section are written as those of an O-ring, and groove and squeeze are others: measure both, and put in no O-ring unlooked at",
        words: &[
            "x-ring",
            "x-rings",
            "x ring",
            "x rings",
            "x-ringe",
            "four lobed ring",
            "four-lobed ring",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: "wiper, guide or ring of a cylinder",
        why: "wipers, guides, grooved and piston rings are not among the tables here: take the size from the machine's parts list, or measure rod or bore and the groove's diameter and width",
        words: &[
            "wiper ring",
            "wiper seal",
            "rod wiper",
            "scraper ring",
            "abstreifer",
            "abstreifring",
            "nutring",
            "nutringe",
            "u-cup",
            "guide ring",
            "führungsring",
            "wear ring",
            "piston ring",
            "piston rings",
            "kolbenring",
            "kolbenringe",
            "joint racleur",
        ],
        names_a_place: true,
    },
    WithoutTable {
        name: "thrust washer",
        why: "thrust washers (ISO 3031) are not among the tables here: they go with the bore and outside of their needle cage, measure the thickness too",
        words: &[
            "thrust washer",
            "thrust washers",
            "axialscheibe",
            "anlaufscheibe",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: "split pin",
        why: OWN_STANDARD,
        words: &["split pin", "cotter pin", "splint", "goupille fendue"],
        names_a_place: false,
    },
    WithoutTable {
        name: "belt",
        why: OWN_STANDARD,
        words: &[
            "belt",
            "belts",
            "v-belt",
            "keilriemen",
            "zahnriemen",
            "courroie",
        ],
        names_a_place: true,
    },
    WithoutTable {
        name: "chain",
        why: OWN_STANDARD,
        words: &["chain", "roller chain", "rollenkette", "chaîne"],
        names_a_place: true,
    },
    WithoutTable {
        name: "plain bush",
        why: OWN_STANDARD,
        words: &[
            "bush",
            "bushing",
            "plain bearing",
            "gleitlager",
            "gleitbuchse",
            "bague lisse",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: SLEEVE,
        why: "sleeves (ISO 2982-1) are not among the tables here: they go with the number and bore of their bearing",
        words: &[
            "adapter sleeve",
            "withdrawal sleeve",
            "spannhülse für lager",
            "abziehhülse",
            "manchon de serrage",
        ],
        names_a_place: false,
    },
    WithoutTable {
        name: INCH_NUT,
        why: "its thread goes by the inch, and its sizes are not among the tables here: measure the thread outside, count its turns to the inch, and put on no KM, whose thread is metric (ISO 2982-2)",
        words: &[],
        names_a_place: false,
    },
    WithoutTable {
        name: OUTER_HALF,
        why: "its rollers run on the shaft, and the diameter below them is not among the tables here: outside and width are those of the NU with its number (DIN 5412-1), measure the shaft where the rollers run, and ask for the NU by itself where the inner ring is wanted too",
        words: &[],
        names_a_place: false,
    },
    WithoutTable {
        name: "flat gasket",
        why: DRAWING,
        words: &["gasket", "flachdichtung", "joint plat"],
        names_a_place: true,
    },
    WithoutTable {
        name: "spring",
        why: DRAWING,
        words: &[
            "compression spring",
            "disc spring",
            "wave spring",
            "druckfeder",
            "tellerfeder",
            "ressort",
        ],
        names_a_place: true,
    },
    WithoutTable {
        name: "feather key",
        why: OWN_STANDARD,
        words: &[
            "feather key",
            "parallel key",
            "key",
            "passfeder",
            "clavette",
        ],
        names_a_place: true,
    },
    WithoutTable {
        name: "coupling insert",
        why: DRAWING,
        words: &["coupling", "spider", "kupplungsstern", "accouplement"],
        names_a_place: true,
    },
];

/// Words before a part that only goes with the one asked for.
const WITH: [&str; 8] = ["with", "and", "mit", "und", "avec", "et", "+", "&"];

/// The kind of part that a text asks for; `None` where it asks for another part, whatever else it names.
///
/// What stands first is asked for. Further on, a kind counts only where its words name no place and nothing else in the
/// text names a part: no family and no number of a table.
pub(super) fn asked_for(text: &str) -> Option<&'static WithoutTable> {
    let lower = text.trim().to_lowercase();
    if let Some(number) = without_table_number::read(&lower) {
        return KINDS.iter().find(|kind| kind.name == number.kind());
    }
    if plain_spherical::is_numbered(&lower) {
        return KINDS.iter().find(|kind| kind.name == plain_spherical::NAME);
    }
    if is_angle_ring(&lower) {
        return KINDS.iter().find(|kind| kind.name == ANGLE_RING);
    }
    if let Some(name) = lettered::kind(&lower) {
        return KINDS.iter().find(|kind| kind.name == name);
    }
    let bare = lettered::without_names(&lower);
    let bare = bare.as_deref().unwrap_or(&lower);
    if let Some(kind) = numbered(bare).or_else(|| by_standard::named(&lower)) {
        return Some(kind);
    }
    let found = named(&lower);
    // `Federring M8` is a washer for the thread.
    let is_first = matches!(found, Some((0, ..)));
    if !is_first && is_plain_thread(&lower) {
        return KINDS.iter().find(|kind| kind.name == THREADED);
    }
    let (at, word, kind) = found?;
    // Needles have a table.
    if kind.name == THRUST_ROLLERS && (lower.contains("needle") || lower.contains("nadel")) {
        return None;
    }
    if at == 0 {
        return Some(kind);
    }
    // `20x2.5 with backup ring` asks for what the ring goes with.
    let before = lower[..at].split_whitespace().next_back();
    if before.is_some_and(|before| WITH.contains(&before)) {
        return None;
    }
    let rest = format!("{} {}", &lower[..at], &lower[at + word.len()..]);
    let is_number = |word: &str| !is_size(word) && crate::standard::is_designation(word);
    let has_part = family_in(&rest).is_some()
        || family_in_short(&rest).is_some()
        || rest.split_whitespace().any(is_number);
    (!kind.names_a_place && !has_part).then_some(kind)
}

/// Coarsest pitch of a lock nut's thread, mm: what is larger behind a thread is a length.
const COARSEST_MM: f64 = 3.0;

/// True for a thread alone that no lock nut is named for: `nut M12`, `M12x40`, `M12x1.5 bolt`.
fn is_plain_thread(lower: &str) -> bool {
    // `M86649` is a cone: no thread of these has a thousand millimetres.
    let is_thread = |word: &&str| {
        let size = word.strip_prefix('m').unwrap_or_default();
        let diameter = size.split('x').next().unwrap_or_default();
        (1..=3).contains(&diameter.len())
            && diameter.starts_with(|c: char| c.is_ascii_digit())
            && size
                .bytes()
                .all(|b| b.is_ascii_digit() || matches!(b, b'x' | b'.' | b','))
    };
    let words = lower.split_whitespace();
    if !words.clone().any(|word| is_thread(&word)) {
        return false;
    }
    let joined = lower.replace(" x ", "x").replace('×', "x");
    let mut with_digits = joined
        .split_whitespace()
        .map(|word| word.trim_matches([',', ';', '(', ')']))
        .filter(|word| word.contains(|c: char| c.is_ascii_digit()));
    if !with_digits.clone().all(|word| is_thread(&word)) {
        return false;
    }
    let is_bolt = KINDS
        .iter()
        .find(|kind| kind.name == THREADED)
        .is_some_and(|kind| kind.words.iter().any(|name| joined.contains(name)));
    let has_pitch = with_digits.any(|word| {
        let pitch = word
            .split_once('x')
            .map(|(_, pitch)| pitch.replace(',', "."));
        let pitch_mm: Option<f64> = pitch.and_then(|pitch| pitch.parse().ok());
        pitch_mm.is_some_and(|pitch_mm| pitch_mm <= COARSEST_MM)
    });
    (is_bolt || !has_pitch) && family_in(lower).is_none() && family_in_short(lower).is_none()
}

/// Letters of numbers of ISO 2982, DIN 5415 and 5416 for sleeves, and of other numbers that stand alone, and the kind they are
/// of.
const NUMBERED: [(&str, &str); 10] = [
    ("mb", TAB_WASHER),
    ("h", SLEEVE),
    ("ah", SLEEVE),
    ("ahx", SLEEVE),
    ("ahy", SLEEVE),
    ("he", SLEEVE),
    ("nk", NEEDLES),
    ("nki", NEEDLES),
    ("nks", NEEDLES),
    ("km", LARGE_NUT),
];

/// Last code of ISO 2982 nuts in the tables.
const LAST_NUT: u8 = 20;

/// The kind of a number alone: `H 206`, `NK20/16`.
fn numbered(lower: &str) -> Option<&'static WithoutTable> {
    let digits = lower.trim_start_matches(|c: char| c.is_ascii_alphabetic());
    let letters = &lower[..lower.len() - digits.len()];
    let digits = digits.trim_start_matches([' ', '-']);
    let (_, name) = NUMBERED.iter().find(|(known, _)| *known == letters)?;
    if *name == NEEDLES {
        let sizes = digits.split_once(['/', ' ']).filter(|(shaft, width)| {
            [shaft, width]
                .iter()
                .all(|piece| !piece.is_empty() && piece.bytes().all(|b| b.is_ascii_digit()))
        });
        return KINDS
            .iter()
            .find(|kind| sizes.is_some() && kind.name == NEEDLES);
    }
    if *name == LARGE_NUT {
        let is_beyond = digits.parse::<u8>().is_ok_and(|code| code > LAST_NUT);
        return KINDS
            .iter()
            .find(|kind| is_beyond && kind.name == LARGE_NUT);
    }
    let count = if *name == SLEEVE { 3..=5 } else { 1..=2 };
    let is_number = count.contains(&digits.len()) && digits.bytes().all(|b| b.is_ascii_digit());
    KINDS.iter().find(|kind| is_number && kind.name == *name)
}

/// True for the number of an angle ring in front: `HJ 208`, `HJ2210E`, `HJ208 for NU208` (ISO 246).
fn is_angle_ring(lower: &str) -> bool {
    let Some(behind) = lower.strip_prefix("hj") else {
        return false;
    };
    let behind = behind.trim_start_matches([' ', '-']);
    let rest = behind.trim_start_matches(|c: char| c.is_ascii_digit());
    let count = behind.len() - rest.len();
    // `HJ 208 ECJ`, `HJ208EC`: the designs of roller bearings.
    let marks = rest
        .trim_start_matches(['-', ' '])
        .chars()
        .take_while(|c| c.is_alphanumeric());
    let is_design = marks.clone().count() <= MOST_DESIGN_LETTERS
        && marks.clone().all(|c| c.is_ascii_lowercase());
    (3..=4).contains(&count) && (is_design || !rest.starts_with(char::is_alphanumeric))
}

/// Where whole words stand in a text, both in lower case.
fn place(lower: &str, word: &str) -> Option<usize> {
    let is_letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    // Questions are short and words many: quicker than a search that is made ready for each.
    let windows = lower.as_bytes().windows(word.len()).enumerate();
    let mut places = windows
        .filter(|(_, window)| *window == word.as_bytes())
        .map(|(at, _)| at);
    places.find(|at| {
        !is_letter(lower[..*at].chars().next_back())
            && !is_letter(lower[at + word.len()..].chars().next())
    })
}

/// The place of a name among all of them, the name, and the kind.
type Name = (usize, &'static str, &'static WithoutTable);

/// Names by the letters and digits that each begins with, in their order.
static NAMES: LazyLock<WordMap<Vec<Name>>> = LazyLock::new(|| {
    let all = || {
        let names = KINDS
            .iter()
            .flat_map(|kind| kind.words.iter().map(move |word| (*word, kind)));
        names.enumerate().map(|(at, (word, kind))| (at, word, kind))
    };
    let beginning_as = |first: &str| all().filter(|(_, word, _)| begin(word) == first).collect();
    let firsts = all().map(|(_, word, _)| begin(word));
    firsts.map(|first| (first, beginning_as(first))).collect()
});

/// The letters and digits that a text begins with.
fn begin(text: &str) -> &str {
    let end = text.find(|c: char| !c.is_alphanumeric());
    &text[..end.unwrap_or(text.len())]
}

/// Where a kind is named in whole words, by which, and which it is; the longest name counts, of two as long the later kind.
fn named(lower: &str) -> Option<(usize, &'static str, &'static WithoutTable)> {
    let mut longest: Option<(usize, Name)> = None;
    let mut at = 0;
    for word in lower.split(|c: char| !c.is_alphanumeric()) {
        for name in NAMES.get(word).into_iter().flatten() {
            let behind = lower[at..].strip_prefix(name.1);
            let ends = behind.is_some_and(|behind| !behind.starts_with(char::is_alphanumeric));
            let rank = |(place, word, _): &Name| (word.len(), *place);
            let is_longer = longest.is_none_or(|(_, known)| rank(&known) < rank(name));
            if ends && is_longer {
                longest = Some((at, *name));
            }
        }
        // Behind a word stands a sign, of as many bytes as it has.
        let sign = lower[at + word.len()..].chars().next();
        at += word.len() + sign.map_or(0, char::len_utf8);
    }
    longest.map(|(at, (_, name, kind))| (at, name, kind))
}

#[cfg(test)]
mod tests;
