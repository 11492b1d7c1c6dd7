//! Header words of several languages, from `data/import/headers.csv`.

use std::collections::HashMap;
use std::sync::OnceLock;

use super::field::Field;
use super::fold::fold;
use super::shipped::lines;

/// The table as shipped.
const HEADERS_CSV: &str = include_str!("../../data/import/headers.csv");
/// Least likeness of a misspelt header to a known word.
const LEAST_LIKENESS: f64 = 0.86;
/// Least lead over the next field, so that a misspelling between two fields stays unread.
const LEAST_LEAD: f64 = 0.03;
/// Least likeness of a word of the same letters, two of them swapped.
const LEAST_LIKENESS_OF_SWAPPED: f64 = 0.8;
/// What is less like can neither be meant nor stand in the way of what is.
const LEAST_THAT_MATTERS: f64 = LEAST_LIKENESS_OF_SWAPPED - LEAST_LEAD - 1e-9;
/// Shorter words are never matched by likeness: one wrong letter in four is another word.
const LEAST_LETTERS: usize = 5;

/// Header words, looked up by their folded form.
#[derive(Debug)]
pub struct Synonyms {
    /// Symbols with their case: `d`, `D`.
    symbols: HashMap<&'static str, Field>,
    /// Folded words.
    words: HashMap<String, Field>,
    /// The same words in order, for likeness.
    ordered: Vec<Word>,
    /// Folded beginnings of headers of order numbers.
    order_numbers: Vec<String>,
}

/// A word that a misspelt one is compared with.
#[derive(Debug)]
struct Word {
    folded: String,
    letters: Letters,
    field: Field,
}

/// How often each letter is in a word, the rest counted together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Letters {
    counts: [u8; 32],
    length: usize,
}

impl Letters {
    fn of(word: &str) -> Self {
        let mut counts = [0_u8; 32];
        let mut length = 0;
        for letter in word.chars() {
            let at = match letter {
                'a'..='z' => letter as usize - 'a' as usize,
                ' ' => 26,
                '0'..='9' => 27,
                _ => 28,
            };
            counts[at] = counts[at].saturating_add(1);
            length += 1;
        }
        Self { counts, length }
    }

    /// The most that two words can be alike: one edit changes, adds or drops no more than one letter, and a swap none.
    fn most_likeness(&self, other: &Self) -> f64 {
        let (mut more, mut less) = (0_usize, 0_usize);
        for (a, b) in self.counts.iter().zip(&other.counts) {
            more += usize::from(a.saturating_sub(*b));
            less += usize::from(b.saturating_sub(*a));
        }
        1.0 - more.max(less) as f64 / self.length.max(other.length).max(1) as f64
    }
}

/// What the table calls order numbers, which are no field.
const ORDER_NUMBER: &str = "order_number";

impl Synonyms {
    /// The shipped table.
    pub fn shipped() -> &'static Self {
        static SHIPPED: OnceLock<Synonyms> = OnceLock::new();
        SHIPPED.get_or_init(|| Self::from_csv(HEADERS_CSV))
    }

    fn from_csv(text: &'static str) -> Self {
        let mut table = Self {
            symbols: HashMap::new(),
            words: HashMap::new(),
            ordered: Vec::new(),
            order_numbers: Vec::new(),
        };
        for (field, language, words) in lines(text) {
            if field == ORDER_NUMBER {
                table.order_numbers.extend(words.split('|').map(fold));
            }
            let Some(field) = Field::from_code(field) else {
                continue;
            };
            for word in words.split('|') {
                if language == "symbol" {
                    table.symbols.entry(word).or_insert(field);
                } else {
                    let folded = fold(word);
                    table.ordered.push(Word {
                        letters: Letters::of(&folded),
                        folded: folded.clone(),
                        field,
                    });
                    // The first line holds: English comes first in each field, own numbers before others.
                    table.words.entry(folded).or_insert(field);
                }
            }
        }
        table
    }

    /// True for headers of order numbers, which some lists use for the number to order a part by.
    pub fn is_order_number(&self, printed: &str) -> bool {
        let folded = fold(printed);
        self.order_numbers
            .iter()
            .any(|word| folded.starts_with(word))
    }

    /// The field of a symbol written exactly so.
    pub fn symbol(&self, printed: &str) -> Option<Field> {
        self.symbols.get(printed).copied()
    }

    /// The field of a folded word.
    pub fn word(&self, folded: &str) -> Option<Field> {
        self.words.get(folded).copied()
    }

    /// The field whose word is spelt most like `folded`, with that word; `None` where two fields compete.
    pub fn close(&self, folded: &str) -> Option<(Field, &str)> {
        let letters = Letters::of(folded);
        if letters.length < LEAST_LETTERS {
            return None;
        }
        let mut best: Option<(f64, Field, &str)> = None;
        let mut other = 0.0_f64;
        for Word {
            folded: word,
            letters: of_word,
            field,
        } in &self.ordered
        {
            if word.len().abs_diff(folded.len()) > 3
                || word.len() < LEAST_LETTERS
                || letters.most_likeness(of_word) < LEAST_THAT_MATTERS
            {
                continue;
            }
            let likeness = strsim::normalized_damerau_levenshtein(word, folded);
            match best {
                Some((most, of, _)) if likeness > most => {
                    if of != *field {
                        other = most;
                    }
                    best = Some((likeness, *field, word));
                }
                Some((_, of, _)) if of != *field => other = other.max(likeness),
                Some(_) => {}
                None => best = Some((likeness, *field, word)),
            }
        }
        best.filter(|(likeness, _, word)| {
            // `widht`: two letters in each other's place, which weigh too much in a short word.
            let is_near = *likeness >= LEAST_LIKENESS
                || *likeness >= LEAST_LIKENESS_OF_SWAPPED && same_letters(word, folded);
            is_near && likeness - other >= LEAST_LEAD
        })
        .map(|(_, field, word)| (field, word))
    }
}

/// True where two words are of the same letters in another order.
fn same_letters(a: &str, b: &str) -> bool {
    let sorted = |text: &str| {
        let mut letters: Vec<char> = text.chars().collect();
        letters.sort_unstable();
        letters
    };
    sorted(a) == sorted(b)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_names_a_field_and_every_field_has_a_word() {
        let mut seen = std::collections::BTreeSet::new();
        for (field, _, words) in lines(HEADERS_CSV).filter(|line| line.0 != ORDER_NUMBER) {
            let found = Field::from_code(field);
            assert!(found.is_some(), "{field}");
            assert!(
                words.split('|').all(|word| !fold(word).is_empty()),
                "{words}"
            );
            seen.extend(found);
        }
        assert_eq!(seen.len(), Field::COUNT);
    }

    #[test]
    fn every_field_has_an_english_a_german_and_a_portuguese_word() {
        for field in Field::ALL {
            for language in ["en", "de", "pt"] {
                let has = lines(HEADERS_CSV).any(|(f, l, _)| f == field.code() && l == language);
                assert!(has, "{field} has no word in {language}");
            }
        }
    }

    #[test]
    fn headers_of_order_numbers_are_known_by_how_they_begin() {
        let table = Synonyms::shipped();
        for (printed, expected) in [
            ("Order no.", true),
            ("Bestellnr.", true),
            ("Bestell-Nr.", true),
            ("N° commande", false),
            ("Commande n°", true),
            ("Pedido nº", true),
            ("Ordine n.", true),
            ("Zamówienie nr", true),
            ("Part no.", false),
            ("Purchase order", false),
            ("", false),
        ] {
            assert_eq!(table.is_order_number(printed), expected, "{printed}");
        }
    }

    #[test]
    fn letters_bound_the_likeness_from_above() {
        // Bag distance, Bartolini, Ciaccia and Patella, SPIRE 2002: never above the edit distance.
        for (a, b) in [
            ("width", "widht"),
            ("lead time", "lieferzeit"),
            ("bohrung", "bohrungen"),
            ("preis", "preise netto"),
            ("okres ważności", "okres waznosci"),
            ("größe", "grösse"),
            ("aaaaaaa", "b"),
            ("d1", "d2"),
        ] {
            let most = Letters::of(a).most_likeness(&Letters::of(b));
            let real = strsim::normalized_damerau_levenshtein(a, b);
            assert!(most >= real - 1e-12, "{a}, {b}: {most} < {real}");
        }
        let same = Letters::of("width");
        assert!((same.most_likeness(&Letters::of("htdiw")) - 1.0).abs() < 1e-12);
        assert!(same.most_likeness(&Letters::of("price")) < LEAST_THAT_MATTERS);
    }

    #[test]
    fn leaving_words_out_by_their_letters_changes_no_answer() {
        let table = Synonyms::shipped();
        let by_all = |folded: &str| {
            let likenesses: Vec<(f64, &Word)> = (table.ordered.iter())
                .filter(|word| {
                    word.folded.len().abs_diff(folded.len()) <= 3
                        && word.folded.len() >= LEAST_LETTERS
                })
                .map(|word| {
                    (
                        strsim::normalized_damerau_levenshtein(&word.folded, folded),
                        word,
                    )
                })
                .collect();
            let most = likenesses
                .iter()
                .map(|(likeness, _)| *likeness)
                .fold(0.0, f64::max);
            let (_, best) = likenesses.iter().find(|(likeness, _)| *likeness >= most)?;
            let other = (likenesses.iter())
                .filter(|(_, word)| word.field != best.field)
                .map(|(likeness, _)| *likeness)
                .fold(0.0, f64::max);
            let is_near = most >= LEAST_LIKENESS
                || most >= LEAST_LIKENESS_OF_SWAPPED && same_letters(&best.folded, folded);
            (is_near && most - other >= LEAST_LEAD).then_some((best.field, best.folded.as_str()))
        };
        for word in &table.ordered {
            let letters: Vec<char> = word.folded.chars().collect();
            if letters.len() < LEAST_LETTERS {
                continue;
            }
            let middle = letters.len() / 2;
            let mut swapped = letters.clone();
            swapped.swap(middle - 1, middle);
            let mut dropped = letters.clone();
            dropped.remove(middle);
            let mut doubled = letters.clone();
            doubled.insert(middle, letters[middle]);
            let mut changed = letters.clone();
            changed[middle] = 'x';
            for misspelt in [swapped, dropped, doubled, changed] {
                let misspelt: String = misspelt.into_iter().collect();
                assert_eq!(table.close(&misspelt), by_all(&misspelt), "{misspelt}");
            }
        }
    }

    #[test]
    fn a_misspelling_is_read_as_one_field_or_not_at_all() {
        let table = Synonyms::shipped();
        assert_eq!(
            table.close("lead tiem"),
            Some((Field::LeadTime, "lead time"))
        );
        assert_eq!(
            table.close("lieferzeitt"),
            Some((Field::LeadTime, "lieferzeit"))
        );
        assert_eq!(table.close("widht"), Some((Field::Width, "width")));
        assert_eq!(table.close("colour"), None);
        assert_eq!(table.close("bor"), None);
    }
}
