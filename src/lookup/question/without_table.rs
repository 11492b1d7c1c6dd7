//! Parts of a machine whose sizes are in no table here: they are named as such, and never answered with another part that
//! happens to have the same figures.

/// A kind of part without a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WithoutTable {
    /// What it is.
    pub name: &'static str,
    /// What decides its size, and where to look for it.
    pub why: &'static str,
    /// Words for it, lower case.
    words: &'static [&'static str],
}

impl WithoutTable {
    /// True for a spacer, whose length may set a preload.
    pub fn is_spacer(&self) -> bool {
        self.name == SPACER
    }
}

const SPACER: &str = "spacer";
const DRAWING: &str = "it is made for its place: measure it and its seats, or take the machine's drawing or parts list";
const OWN_STANDARD: &str = "its standard is not among the tables here: take the size from the machine's parts list or from the standard";

const KINDS: [WithoutTable; 14] = [
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
    },
    WithoutTable {
        name: "shim",
        why: DRAWING,
        words: &["shim", "shims", "shim ring", "passscheibe", "cale"],
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
    },
    WithoutTable {
        name: "split pin",
        why: OWN_STANDARD,
        words: &["split pin", "cotter pin", "splint", "goupille fendue"],
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
    },
    WithoutTable {
        name: "chain",
        why: OWN_STANDARD,
        words: &["chain", "roller chain", "rollenkette", "chaîne"],
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
    },
    WithoutTable {
        name: "adapter or withdrawal sleeve",
        why: "sleeves (ISO 2982-1) are not among the tables here: they go with the number and bore of their bearing",
        words: &[
            "adapter sleeve",
            "withdrawal sleeve",
            "spannhülse für lager",
            "abziehhülse",
            "manchon de serrage",
        ],
    },
    WithoutTable {
        name: "flat gasket",
        why: DRAWING,
        words: &["gasket", "flachdichtung", "joint plat"],
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
    },
    WithoutTable {
        name: "feather key",
        why: OWN_STANDARD,
        words: &["feather key", "parallel key", "passfeder", "clavette"],
    },
    WithoutTable {
        name: "coupling insert",
        why: DRAWING,
        words: &["coupling", "spider", "kupplungsstern", "accouplement"],
    },
];

/// The kind that a text names in whole words; the longest name counts.
pub(super) fn named(text: &str) -> Option<&'static WithoutTable> {
    let lower = text.to_lowercase();
    let is_whole = |word: &str| {
        lower.match_indices(word).any(|(at, _)| {
            let is_letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
            !is_letter(lower[..at].chars().next_back())
                && !is_letter(lower[at + word.len()..].chars().next())
        })
    };
    KINDS
        .iter()
        .filter_map(|kind| {
            let longest = kind
                .words
                .iter()
                .filter(|word| is_whole(word))
                .map(|word| word.len())
                .max()?;
            Some((longest, kind))
        })
        .max_by_key(|(longest, _)| *longest)
        .map(|(_, kind)| kind)
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
            ("30 x 62 x 16 deep groove", None),
            ("tapered roller bearing 30206", None),
            ("dowel pin 8x40", None),
            ("beltless 40 x 80 x 18", None),
        ] {
            assert_eq!(named(text).map(|kind| kind.name), name, "{text}");
        }
    }
}
