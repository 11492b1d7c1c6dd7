//! Words that are looked up: what a word names is found by one look, however many words are known.

use crate::quick_map::QuickMap;

/// What words name. Of two entries for one word the first counts.
#[derive(Debug, Clone)]
pub struct WordMap<T> {
    named: QuickMap<String, T>,
    /// True for the bytes that some word begins with: most words of a text are done with at a glance.
    firsts: [bool; 256],
}

impl<W: Into<String>, T> FromIterator<(W, T)> for WordMap<T> {
    fn from_iter<I: IntoIterator<Item = (W, T)>>(words: I) -> Self {
        let mut map = Self {
            named: QuickMap::default(),
            firsts: [false; 256],
        };
        for (word, named) in words {
            let word = word.into();
            if let Some(first) = word.bytes().next() {
                map.firsts[usize::from(first)] = true;
                map.named.entry(word).or_insert(named);
            }
        }
        map
    }
}

impl<T> WordMap<T> {
    /// What a word names.
    pub fn get(&self, word: &str) -> Option<&T> {
        let first = *word.as_bytes().first()?;
        self.firsts[usize::from(first)]
            .then(|| self.named.get(word))
            .flatten()
    }

    /// True for a word that names something.
    pub fn has(&self, word: &str) -> bool {
        self.get(word).is_some()
    }
}

impl WordMap<u32> {
    /// Words of several lists, and in which of them each stands, a bit a list.
    pub fn of_lists(words: impl IntoIterator<Item = (u32, &'static str)>) -> Self {
        let mut lists: QuickMap<&str, u32> = QuickMap::default();
        for (list, word) in words {
            *lists.entry(word).or_default() |= list;
        }
        lists.into_iter().collect()
    }
}

/// Words of which nothing is said but that they are known.
pub type WordSet = WordMap<()>;

impl FromIterator<&'static str> for WordSet {
    fn from_iter<I: IntoIterator<Item = &'static str>>(words: I) -> Self {
        words.into_iter().map(|word| (word, ())).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_found_as_a_search_through_the_list_finds_them() {
        let list = [("rule", 1), ("ruler", 2), ("öl", 3), ("rule", 4), ("x", 5)];
        let map: WordMap<u8> = list.into_iter().collect();
        for word in [
            "rule", "ruler", "öl", "x", "", "rul", "rulers", "ö", "o", "ol",
        ] {
            let searched = list.iter().find(|(known, _)| *known == word);
            assert_eq!(map.get(word), searched.map(|(_, of)| of), "{word}");
        }
    }

    #[test]
    fn a_word_of_two_lists_is_in_both() {
        let map = WordMap::of_lists([(1, "side"), (2, "both"), (2, "side")]);
        assert_eq!(map.get("side"), Some(&3));
        assert_eq!(map.get("both"), Some(&2));
        assert_eq!(map.get("two"), None);
    }

    #[test]
    fn a_set_knows_its_words() {
        let set: WordSet = ["side", "both"].into_iter().collect();
        assert!(set.has("side") && set.has("both"));
        assert!(!set.has("sides") && !set.has(""));
    }
}
