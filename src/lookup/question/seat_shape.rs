//! A shaft that is called cylindrical, plain or parallel is a straight one, and none of these words names a bearing then.

/// What the seat of a bearing is called in one word behind its shape.
const SEATS: [&str; 6] = ["shaft", "seat", "journal", "axle", "welle", "wellensitz"];
/// Shapes of a shaft that does not taper.
const SHAPES: [&str; 10] = [
    "cylindrical",
    "straight",
    "plain",
    "parallel",
    "zylindrische",
    "zylindrischer",
    "zylindrischen",
    "glatte",
    "glatter",
    "gerader",
];
/// As it is read below.
const STRAIGHT: &str = "straight shaft";

/// The text with `straight shaft` for all of these; `None` where it names none, or only so.
pub(super) fn straightened(text: &str) -> Option<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let lower = |at: usize| {
        let word = words.get(at).copied().unwrap_or_default();
        word.trim_end_matches([',', ';', '.']).to_lowercase()
    };
    let is_seat = |at: usize| SEATS.contains(&lower(at).as_str());
    let is_named = |at: usize| {
        SHAPES.contains(&lower(at).as_str()) && is_seat(at + 1)
            || lower(at) == "arbre" && lower(at + 1) == "cylindrique"
    };
    let at = (0..words.len()).find(|at| is_named(*at))?;
    let mut left: Vec<&str> = words[..at].to_vec();
    left.push(STRAIGHT);
    left.extend(&words[at + 2..]);
    let read = left.join(" ");
    (read != text).then_some(read)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;
    use crate::part::Family;

    #[test]
    fn a_shaft_that_does_not_taper_is_straight() {
        for (text, read) in [
            (
                "22210K on cylindrical shaft",
                Some("22210K on straight shaft"),
            ),
            (
                "22210 K, plain shaft 45",
                Some("22210 K, straight shaft 45"),
            ),
            ("22210 K zylindrische Welle", Some("22210 K straight shaft")),
            ("22210 K arbre cylindrique", Some("22210 K straight shaft")),
            ("22210 K straight shaft", None),
            ("cylindrical roller bearing shaft 40", None),
            ("parallel pin 6x30", None),
            ("40 mm shaft", None),
        ] {
            assert_eq!(straightened(text).as_deref(), read, "{text}");
        }
    }

    /// ISO 2982-1: a bearing with a tapered bore sits on a straight shaft by an adapter sleeve.
    #[test]
    fn a_tapered_bore_on_it_wants_a_sleeve() {
        for text in [
            "22210K on cylindrical shaft",
            "22210 K on cylindrical seat",
            "22210K zylindrische Welle",
        ] {
            let question = Question::read(text).unwrap();
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
            let told = question.notes.join("; ");
            assert!(told.contains("adapter sleeve"), "{text}: {told}");
            assert!(!told.contains("another part"), "{text}: {told}");
        }
        // The shape of the shaft names no type of bearing.
        for text in [
            "bearing 50x90x23 on cylindrical shaft",
            "bearing 50x90x23 on tapered shaft",
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.family, None, "{text}");
            let left = &question.not_understood;
            assert_eq!(
                left.is_empty(),
                text.contains("cylindrical"),
                "{text}: {left:?}"
            );
        }
        let typed = Question::read("cylindrical roller 50x90x20 on cylindrical shaft").unwrap();
        assert_eq!(typed.family, Some(Family::CylindricalRoller));
    }
}
