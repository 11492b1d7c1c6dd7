//! Parts of a machine whose sizes are in no table here: they are named as such, and never answered with another part that
//! happens to have the same figures.

mod piece;

pub(super) use piece::{asked_for as piece_asked_for, loose_ring};

use super::figure::is_size;
use super::vocabulary::short_family;
use crate::import::family_in;
use crate::part::designation::Designation;

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
    /// True for a spacer, whose length may set a preload.
    pub fn is_spacer(&self) -> bool {
        self.name == SPACER
    }
}

const SPACER: &str = "spacer";
const SLEEVE: &str = "adapter or withdrawal sleeve";
const DRAWING: &str = "it is made for its place: measure it and its seats, or take the machine's drawing or parts list";
const OWN_STANDARD: &str = "its standard is not among the tables here: take the size from the machine's parts list or from the standard";

const NEEDLES: &str = "machined needle bearing";
const LARGE_NUT: &str = "large lock nut";

const THRUST_ROLLERS: &str = "thrust roller bearing";

const THREADED: &str = "nut, bolt or rod end";

const KINDS: [WithoutTable; 20] = [
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
        name: "tab washer",
        why: "it goes with its lock nut and has its thread (ISO 2982-2): ask for the nut, such as `KM8` or `lock nut M40 x 1.5`, and never refit a used one",
        words: &[
            "tab washer",
            "tab washers",
            "locking washer",
            "lock washer",
            "sicherungsblech",
            "rondelle frein",
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
            "spannstift",
            "spannhülse",
            "goupille élastique",
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

/// The kind of part that a text asks for; `None` where it asks for another part, whatever else it names.
///
/// What stands first is asked for. Further on, a kind counts only where its words name no place and nothing else in the
/// text names a part: no family and no number of a table.
pub(super) fn asked_for(text: &str) -> Option<&'static WithoutTable> {
    let lower = text.trim().to_lowercase();
    if let Some(kind) = numbered(&lower) {
        return Some(kind);
    }
    if is_plain_thread(&lower) {
        return KINDS.iter().find(|kind| kind.name == THREADED);
    }
    let (at, word, kind) = named(&lower)?;
    // Needles have a table.
    if kind.name == THRUST_ROLLERS && (lower.contains("needle") || lower.contains("nadel")) {
        return None;
    }
    if at == 0 {
        return Some(kind);
    }
    let rest = format!("{} {}", &lower[..at], &lower[at + word.len()..]);
    let is_number = |word: &str| {
        let read = Designation::parse(word).filter(|_| !is_size(word));
        read.is_some_and(|read| crate::standard::resolve(&read).is_some())
    };
    let has_part = family_in(&rest).is_some()
        || short_family(&rest).is_some()
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
    (is_bolt || !has_pitch) && family_in(lower).is_none() && short_family(lower).is_none()
}

/// Letters of numbers of ISO 2982 and DIN 5406, 5415 and 5416 for washers and sleeves, and the kind they are of.
const NUMBERED: [(&str, &str); 10] = [
    ("mb", "tab washer"),
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

/// The kind of a number alone: `MB8`, `H 206`.
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

/// Where a kind is named in whole words, by which, and which it is; the longest name counts.
fn named(lower: &str) -> Option<(usize, &'static str, &'static WithoutTable)> {
    let place = |word: &str| {
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
    };
    KINDS
        .iter()
        .flat_map(|kind| kind.words.iter().map(move |word| (*word, kind)))
        .filter_map(|(word, kind)| Some((place(word)?, word, kind)))
        .max_by_key(|(_, word, _)| word.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_without_a_table_are_told_by_whole_words() {
        for (text, name) in [
            ("spacer 40 x 52 x 12", Some("spacer")),
            ("Distanzring 40x52x12", Some("spacer")),
            ("tab washer 30", Some("tab washer")),
            ("taper pin 1:50 8 x 60", Some("taper pin")),
            ("V-belt 1250", Some("belt")),
            (
                "adapter sleeve for 22210 K",
                Some("adapter or withdrawal sleeve"),
            ),
            ("MB8", Some("tab washer")),
            ("H 206", Some("adapter or withdrawal sleeve")),
            ("AHX2318", Some("adapter or withdrawal sleeve")),
            ("key 8x7x40", Some("feather key")),
            ("DIN 6799 8", Some("retaining washer for a shaft (E-clip)")),
            ("e-clip 8", Some("retaining washer for a shaft (E-clip)")),
            ("V-ring 40", Some("V-ring")),
            ("NK20/16", Some("machined needle bearing")),
            ("NKI 20/16", Some("machined needle bearing")),
            ("KM 40", Some("large lock nut")),
            ("KM20", None),
            ("KM8", None),
            ("nut M12", Some(THREADED)),
            ("M12", Some(THREADED)),
            ("bolt M12", Some(THREADED)),
            ("rod end M12", Some(THREADED)),
            ("M12x40", Some(THREADED)),
            ("M12 x 40", Some(THREADED)),
            ("M12x1.5 bolt", Some(THREADED)),
            // A fine thread, a lock nut, a number, a fit.
            ("M40x1.5", None),
            ("nut M40 x 1.5", None),
            ("lock nut M30", None),
            ("shaft nut M30", None),
            ("KM6 M30", None),
            ("M30 DIN 981", None),
            ("6205 behind bolt M12", None),
            ("pin 6 m6", None),
            ("M86649", None),
            ("NU205 M", None),
            ("thrust roller 30 47 11", Some(THRUST_ROLLERS)),
            (
                "30 47 11 cylindrical roller thrust bearing",
                Some(THRUST_ROLLERS),
            ),
            ("thrust needle roller bearing 25 42", None),
            ("thrust ball 30 47 11", None),
            ("HK2020", None),
            ("H7", None),
            ("30 x 62 x 16 deep groove", None),
            ("tapered roller bearing 30206", None),
            ("dowel pin 8x40", None),
            ("beltless 40 x 80 x 18", None),
            // What stands first is asked for, and a place is no part.
            ("40 x 52 x 12 spacer", Some("spacer")),
            ("6206 coupling side", None),
            ("40x80x18 for chain drive", None),
            ("30 x 62 x 16 deep groove beside the spacer", None),
            ("NU205 with spacer", None),
            ("oil seal 35x52x8 chain drive", None),
        ] {
            assert_eq!(asked_for(text).map(|kind| kind.name), name, "{text}");
        }
    }
}
