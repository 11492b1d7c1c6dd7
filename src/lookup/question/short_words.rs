//! The short words of the bench that name a family where the words of the import name none: `circlip bore 40`, `lip 40x62x8`.

use std::sync::LazyLock;

use crate::part::{Family, WordMap};

/// The words of all families in one table: a bit for each list of a family, of which one word must stand in a text.
struct ShortWords {
    /// Words, and the lists that they are in.
    words: WordMap<u32>,
    /// Phrases, and the lists that they are in.
    phrases: Vec<(&'static str, u32)>,
    /// The last words of the phrases.
    ends: Vec<&'static str>,
    /// Families with their lists, the one that counts first in front.
    families: Vec<(Family, u32)>,
}

static SHORT: LazyLock<ShortWords> = LazyLock::new(|| ShortWords::of(&lists()));

/// A family, and what names it in short.
type Named = (Family, &'static [&'static [&'static str]]);

/// Every family that has short words, the one that counts first in front.
fn lists() -> Vec<Named> {
    let of_family = |family: Family| {
        let short = family.facts().asked.short.as_ref()?;
        Some((short.rank, (family, short.of_each)))
    };
    let mut ranked: Vec<(u8, Named)> = Family::ALL.into_iter().filter_map(of_family).collect();
    ranked.sort_by_key(|(rank, _)| *rank);
    ranked.into_iter().map(|(_, named)| named).collect()
}

impl ShortWords {
    fn of(named: &[Named]) -> Self {
        let (mut words, mut phrases, mut families) = (Vec::new(), Vec::new(), Vec::new());
        let mut bit = 1_u32;
        for (family, of_each) in named {
            let mut needs = 0;
            for list in *of_each {
                let (of_two, of_one): (Vec<&str>, Vec<&str>) =
                    list.iter().copied().partition(|word| word.contains(' '));
                words.extend(of_one.into_iter().map(|word| (bit, word)));
                phrases.extend(of_two.into_iter().map(|phrase| (phrase, bit)));
                needs |= bit;
                bit <<= 1;
            }
            families.push((*family, needs));
        }
        let last = |(phrase, _): &(&'static str, u32)| phrase.rsplit(' ').next();
        let mut ends: Vec<&str> = phrases.iter().filter_map(last).collect();
        ends.sort_unstable();
        ends.dedup();
        Self {
            words: WordMap::of_lists(words),
            phrases,
            ends,
            families,
        }
    }
}

/// The family that short words of a text name.
pub(super) fn family_in_short(text: &str) -> Option<Family> {
    let short = &*SHORT;
    let lower = text.to_lowercase();
    let (mut said, mut may_end_phrase) = (0, false);
    for word in lower.split(|c: char| !c.is_alphanumeric() && c != '-') {
        said |= short.words.get(word).copied().unwrap_or_default();
        may_end_phrase |= short.ends.iter().any(|end| word.starts_with(end));
    }
    // All of them end with the beginning of such a word.
    if may_end_phrase {
        let stands = |phrase: &str| lower.contains(phrase);
        let phrases = short.phrases.iter();
        for (_, list) in phrases.filter(|(phrase, _)| stands(phrase)) {
            said |= list;
        }
    }
    if said == 0 {
        return None;
    }
    let mut families = short.families.iter();
    let is_named = |(_, needs): &&(Family, u32)| said & needs == *needs;
    families.find(is_named).map(|(family, _)| *family)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// DIN 471, DIN 472, ISO 8734, ISO 3601-1, DIN 3760 and ISO 5593 for what is named; short words are common practice, no source.
    #[test]
    fn short_words_name_a_family() {
        for (text, family) in [
            ("circlip bore 40", Some(Family::BoreRetainingRing)),
            ("retaining rings shaft 25", Some(Family::ShaftRetainingRing)),
            ("Sicherungsring Welle 25", Some(Family::ShaftRetainingRing)),
            ("snap ring 40", None),
            ("pin 6x24", Some(Family::DowelPin)),
            ("o ring 40x3", Some(Family::ORing)),
            ("joint torique 40x3", Some(Family::ORing)),
            ("shaft seals 40x62x8", Some(Family::LipSeal)),
            ("lip 40x62x8", Some(Family::LipSeal)),
            ("taper 30x62x16", Some(Family::TaperedRoller)),
            ("angular 7206", Some(Family::AngularContactBall)),
            ("barrel-shaped", Some(Family::SphericalRoller)),
            ("cylindrical 40x80x18", Some(Family::CylindricalRoller)),
            ("axial needle 20x35x2", Some(Family::ThrustNeedle)),
            ("thrust 20x35x10", Some(Family::ThrustBall)),
            ("axial 20x35x10", None),
            ("bearing 20x47x14", None),
            ("o-ring bore 40", Some(Family::ORing)),
            // What is told by the rarer word counts.
            ("tapered pin 6x24", Some(Family::DowelPin)),
            ("tapered thrust", Some(Family::TaperedRoller)),
            ("", None),
        ] {
            assert_eq!(family_in_short(text), family, "{text}");
        }
    }

    #[test]
    fn every_list_has_a_bit_and_every_family_a_rank_of_its_own() {
        let lists = lists();
        let count: usize = lists.iter().map(|(_, of_each)| of_each.len()).sum();
        assert!(count <= u32::BITS as usize, "{count}");
        let ranks = Family::ALL.into_iter();
        let ranks = ranks.filter_map(|family| Some(family.facts().asked.short.as_ref()?.rank));
        let mut ranks: Vec<u8> = ranks.collect();
        ranks.sort_unstable();
        let all = ranks.len();
        ranks.dedup();
        assert_eq!(ranks.len(), all);
        for (family, of_each) in lists {
            assert!(!of_each.is_empty(), "{family}");
            // One word of each of its lists names it, whatever else has them in a list.
            let text: Vec<&str> = of_each
                .iter()
                .filter_map(|list| list.first())
                .copied()
                .collect();
            assert_eq!(family_in_short(&text.join(" ")), Some(family));
        }
    }
}
