//! The name somebody may have meant: one suggestion for a part, kit, supplier or table that is not there.

use crate::language::in_backticks;

/// Likeness (1 is equal) below which a suggestion would mislead.
const LEAST_LIKENESS: f64 = 0.6;
/// Letters from which on the beginning of a name is looked at by itself.
const LEAST_BEGINNING: usize = 4;
/// Names that one message lists; a shop may have hundreds.
const LISTED: usize = 30;

/// What counts of a name's beginning: a whole name that is as like is meant rather.
const BEGINNING: f64 = 0.99;

/// The known name most like `name`, or whose first words are; `None` where none is near.
pub fn meant(name: &str, known: impl IntoIterator<Item = impl AsRef<str>>) -> Option<String> {
    let plain = |text: &str| text.trim().to_lowercase();
    let name = plain(name);
    let words = name.split_whitespace().count();
    // The second figure tells 0136 from 0126 for who typed 0163.
    let likeness = |known: &str| {
        let known = plain(known);
        let begins: Vec<&str> = known.split_whitespace().take(words).collect();
        let begins = begins.join(" ");
        let whole = strsim::normalized_damerau_levenshtein(&name, &known);
        // Of one short word anything may be the beginning.
        let beginning = match begins.chars().count() {
            0..LEAST_BEGINNING => 0.0,
            _ => BEGINNING * strsim::normalized_damerau_levenshtein(&name, &begins),
        };
        (whole.max(beginning), strsim::jaro(&name, &known))
    };
    let scored = known.into_iter().map(|known| {
        let known = known.as_ref().to_owned();
        (likeness(&known), known)
    });
    scored
        .filter(|((likeness, _), _)| *likeness >= LEAST_LIKENESS)
        // Of equals the first by name, so that the order of tables does not matter.
        .max_by(|((a, a_second), a_name), ((b, b_second), b_name)| {
            let likeness = a.total_cmp(b).then(a_second.total_cmp(b_second));
            likeness.then_with(|| b_name.cmp(a_name))
        })
        .map(|(_, known)| known)
}

/// The suggestion as a next step.
pub fn hint(name: &str, known: impl IntoIterator<Item = impl AsRef<str>>) -> Option<String> {
    meant(name, known).map(|known| did_you_mean(&known))
}

/// A suggestion in words.
pub fn did_you_mean(known: &str) -> String {
    format!("did you mean `{known}`?")
}

/// Names in backticks with commas between; of many the first, and how many more there are.
pub fn listed(names: impl IntoIterator<Item = impl AsRef<str>>) -> String {
    let names = in_backticks(names);
    let shown = names[..names.len().min(LISTED)].join(", ");
    match names.len().saturating_sub(LISTED) {
        0 => shown,
        more => format!("{shown}, … (+{more})"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_name_is_offered_and_a_far_one_is_not() {
        let known = ["BRG-0106", "BRG-0166", "Pellet press", "Fan FN-6 shaft"];
        for (name, expected) in [
            ("BRG-016", Some("BRG-0106")),
            ("BRG-0160", Some("BRG-0106")),
            ("pelet pres", Some("Pellet press")),
            ("Fan FN-6 shfat", Some("Fan FN-6 shaft")),
            ("Pelet press", Some("Pellet press")),
            // Whoever types the first words alone means the name that begins so.
            ("Fann FN-6", Some("Fan FN-6 shaft")),
            ("turbine", None),
            ("fab", None),
            ("", None),
        ] {
            assert_eq!(meant(name, known).as_deref(), expected, "{name}");
        }
        assert_eq!(hint("turbine", known), None);
        assert_eq!(
            hint("BRG-0107", known).as_deref(),
            Some("did you mean `BRG-0106`?")
        );
    }

    #[test]
    fn a_slip_in_a_short_word_is_near_enough() {
        let commands = ["run", "match", "man", "kit", "levels", "prune"];
        for (typed, expected) in [
            ("rnu", Some("run")),
            ("kti", Some("kit")),
            ("mach", Some("match")),
            ("lvels", Some("levels")),
            ("pruen", Some("prune")),
            ("xyz", None),
            ("order", None),
        ] {
            assert_eq!(meant(typed, commands).as_deref(), expected, "{typed}");
        }
    }

    #[test]
    fn a_whole_name_is_meant_rather_than_the_beginning_of_another() {
        let known = ["Vossenkamper Lagerkontor", "Vosenkampen", "Zwirnhammer"];
        assert_eq!(
            meant("Vossenkamper", known).as_deref(),
            Some("Vossenkamper Lagerkontor")
        );
        assert_eq!(meant("vosenkampen", known).as_deref(), Some("Vosenkampen"));
        assert_eq!(meant("Zwirnhamer", known).as_deref(), Some("Zwirnhammer"));
    }

    #[test]
    fn a_long_list_is_cut_and_says_so() {
        assert_eq!(listed(["a", "b"]), "`a`, `b`");
        assert_eq!(listed(Vec::<String>::new()), "");
        let many: Vec<String> = (0..=LISTED).map(|at| at.to_string()).collect();
        let words = listed(&many);
        assert!(words.ends_with("`29`, … (+1)"), "{words}");
        assert!(!listed(&many[..LISTED]).contains('…'));
    }
}
