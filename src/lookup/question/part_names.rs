//! Words by which parts are counted: their names, and what stands in front of these.

/// Names of parts, more than one of them; in the singular `2 lip seal` may be one seal of two lips.
pub(super) const PARTS: [&str; 29] = [
    "bearings",
    "seals",
    "o-rings",
    "orings",
    "rings",
    "circlips",
    "pins",
    "dowels",
    "nuts",
    "cages",
    "lager",
    "kugellager",
    "wälzlager",
    "nadellager",
    "dichtungen",
    "wellendichtringe",
    "radialwellendichtringe",
    "simmerringe",
    "o-ringe",
    "sicherungsringe",
    "stifte",
    "zylinderstifte",
    "passstifte",
    "wellenmuttern",
    "roulements",
    "joints",
    "goupilles",
    "rodamientos",
    "cuscinetti",
];
/// Names of one part, and how many figures its size has: one more figure in front is a count.
const ONES: [(&str, usize); 22] = [
    ("bearing", 3),
    ("seal", 3),
    ("lager", 3),
    ("kugellager", 3),
    ("wälzlager", 3),
    ("nadellager", 3),
    ("dichtung", 3),
    ("wellendichtring", 3),
    ("radialwellendichtring", 3),
    ("simmerring", 3),
    ("roulement", 3),
    ("joint", 3),
    ("rodamiento", 3),
    ("cuscinetto", 3),
    ("o-ring", 2),
    ("oring", 2),
    ("pin", 2),
    ("dowel", 2),
    ("stift", 2),
    ("zylinderstift", 2),
    ("passstift", 2),
    ("goupille", 2),
];
/// Words in front of such names that say which.
pub(super) const KINDS: [&str; 27] = [
    "lip",
    "oil",
    "shaft",
    "rotary",
    "radial",
    "rubber",
    "ball",
    "roller",
    "needle",
    "deep",
    "groove",
    "tapered",
    "taper",
    "thrust",
    "angular",
    "contact",
    "spherical",
    "cylindrical",
    "dowel",
    "retaining",
    "snap",
    "lock",
    "external",
    "internal",
    "sealed",
    "new",
    "spare",
];
/// Those of them that name the part where nothing follows but its size or number.
pub(super) const NAMES: [&str; 11] = [
    "dowel",
    "ball",
    "roller",
    "needle",
    "groove",
    "tapered",
    "taper",
    "thrust",
    "contact",
    "spherical",
    "cylindrical",
];

/// A word as it stands here: without the marks around it, in lower case.
pub(super) fn bare(word: &str) -> String {
    word.trim_matches([',', ';', '.', ':']).to_lowercase()
}

/// How many figures the size of a part has that a word in lower case names, one of it.
pub(super) fn figures_of(name: &str) -> Option<usize> {
    let known = ONES.iter().find(|(one, _)| *one == name);
    known.map(|(_, figures)| *figures)
}

/// True for a word in lower case that names a part or says which.
pub(super) fn names_part(name: &str) -> bool {
    PARTS.contains(&name) || KINDS.contains(&name) || figures_of(name).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_found_as_they_stand_in_a_text() {
        for (word, figures, names) in [
            ("Seal,", Some(3), true),
            ("O-Ring:", Some(2), true),
            ("bearings", None, true),
            ("WÄLZLAGER", Some(3), true),
            ("lip", None, true),
            ("6206", None, false),
        ] {
            let name = bare(word);
            assert_eq!(
                (figures_of(&name), names_part(&name)),
                (figures, names),
                "{word}"
            );
        }
        assert!(NAMES.iter().all(|name| KINDS.contains(name)));
    }
}
