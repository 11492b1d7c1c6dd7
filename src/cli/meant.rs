//! The name somebody may have meant: one suggestion for a part, kit, supplier or table that is not there.

/// Likeness (1 is equal) below which a suggestion would mislead.
const LEAST_LIKENESS: f64 = 0.6;

/// The known name most like `name`; `None` where none is near.
pub fn meant(name: &str, known: impl IntoIterator<Item = impl AsRef<str>>) -> Option<String> {
    let plain = |text: &str| text.trim().to_lowercase();
    let name = plain(name);
    // The second figure tells 0136 from 0126 for who typed 0163.
    let likeness = |known: &str| {
        let known = plain(known);
        (
            strsim::normalized_damerau_levenshtein(&name, &known),
            strsim::jaro(&name, &known),
        )
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

/// The suggestion as a hint line; empty where there is none.
pub fn hint(name: &str, known: impl IntoIterator<Item = impl AsRef<str>>) -> String {
    meant(name, known).map_or_else(String::new, |known| {
        format!("\n  hint: did you mean `{known}`?")
    })
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
            ("turbine", None),
            ("", None),
        ] {
            assert_eq!(meant(name, known).as_deref(), expected, "{name}");
        }
        assert_eq!(hint("turbine", known), "");
        assert_eq!(
            hint("BRG-0107", known),
            "\n  hint: did you mean `BRG-0106`?"
        );
    }
}
