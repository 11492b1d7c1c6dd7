//! What a bearing rolls on where the name of the bearing stands first: `roulement à rouleaux`, `rodamiento de bolas`,
//! `cuscinetto a sfere`, `bearing, ball`.

use super::figure::is_figure;
use crate::part::Element;

/// Words for rolling elements in French, Spanish, Italian, Portuguese and Polish (ISO 5593 in French; the others common practice, no
/// source); the English ones stand behind only in lists.
const ELEMENTS: [(&str, Element); 21] = [
    ("billes", Element::Balls),
    ("bolas", Element::Balls),
    ("sfere", Element::Balls),
    ("esferas", Element::Balls),
    ("kulkowe", Element::Balls),
    ("rouleaux", Element::Rollers),
    ("rodillos", Element::Rollers),
    ("rulli", Element::Rollers),
    ("rolos", Element::Rollers),
    ("wałeczkowe", Element::Rollers),
    ("aiguilles", Element::Needles),
    ("agujas", Element::Needles),
    ("rullini", Element::Needles),
    ("agulhas", Element::Needles),
    ("igiełkowe", Element::Needles),
    ("ball", Element::Balls),
    ("balls", Element::Balls),
    ("roller", Element::Rollers),
    ("rollers", Element::Rollers),
    ("needle", Element::Needles),
    ("needles", Element::Needles),
];
/// Words between the bearing and what it rolls on.
const BETWEEN: [&str; 5] = ["à", "a", "de", "di", "con"];

/// The rolling elements named behind the bearing at a place among words in lower case.
pub(super) fn behind(words: &[String], at: usize) -> Option<Element> {
    let word = |at: usize| words.get(at).map_or("", String::as_str);
    let place = at + 1 + usize::from(BETWEEN.contains(&word(at + 1)));
    let (name, element) = ELEMENTS.iter().find(|(name, _)| *name == word(place))?;
    // `bearing ball valve`, `bearing roller conveyor` are places.
    let is_english = matches!(*name, "ball" | "balls" | "roller" | "rollers" | "needle");
    let next = word(place + 1);
    (!is_english || next.is_empty() || is_figure(next)).then_some(*element)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn elements_are_read_behind_their_bearing() {
        for (text, expected) in [
            ("roulement à rouleaux 40x80x18", Some(Element::Rollers)),
            ("roulements a billes", Some(Element::Balls)),
            ("rodamiento de agujas", Some(Element::Needles)),
            ("cuscinetto a sfere 30", Some(Element::Balls)),
            ("łożysko kulkowe", Some(Element::Balls)),
            ("bearing ball 30 62 16", Some(Element::Balls)),
            ("bearing ball valve", None),
            ("roulement 40x80x18", None),
            ("roulement pour rouleaux", None),
        ] {
            let words: Vec<String> = text.split(' ').map(str::to_owned).collect();
            assert_eq!(behind(&words, 0), expected, "{text}");
        }
    }
}
