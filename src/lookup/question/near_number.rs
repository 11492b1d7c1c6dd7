//! Own numbers that a slip of the pen makes of another: two signs turned round, one too many, one missing, one digit wrong.
//!
//! Names are kept by their sums, so that what is near cannot be looked for: each slip is undone, and its number looked up.

use crate::catalogue::card_index::CardIndex;
use crate::part::NameKey;

/// Most numbers told.
const MOST_TOLD: usize = 3;
/// Longest number whose slips are undone: each sign costs some twenty looks.
const LONGEST: usize = 24;

/// Numbers of parts that one slip makes this text of, the commonest slips first.
pub(super) fn near(text: &str, index: &CardIndex) -> Vec<String> {
    let key = NameKey::new(text);
    let signs: Vec<char> = key.as_str().chars().collect();
    let mut found: Vec<String> = Vec::new();
    if signs.len() > LONGEST {
        return found;
    }
    for undone in slips(&signs) {
        if found.len() >= MOST_TOLD {
            break;
        }
        let named = index.find(&undone).map(|named| named.card.number);
        let is_number = |number: &String| NameKey::new(number) == NameKey::new(&undone);
        if let Some(number) = named.filter(is_number)
            && !found.contains(&number)
        {
            found.push(number);
        }
    }
    found
}

/// The texts with one slip undone.
fn slips(signs: &[char]) -> Vec<String> {
    let text = |signs: Vec<char>| signs.into_iter().collect::<String>();
    let places = 0..signs.len();
    let turned = places.clone().skip(1).map(|at| {
        let mut signs = signs.to_vec();
        signs.swap(at - 1, at);
        text(signs)
    });
    let letter_for_digit = places.clone().filter_map(|at| {
        let digit = match signs[at].to_ascii_uppercase() {
            'O' => '0',
            'I' | 'L' => '1',
            _ => return None,
        };
        let mut signs = signs.to_vec();
        signs[at] = digit;
        Some(text(signs))
    });
    let too_many = places.clone().map(|at| {
        let mut signs = signs.to_vec();
        signs.remove(at);
        text(signs)
    });
    let missing = (0..=signs.len()).flat_map(|at| {
        ('0'..='9').map(move |digit| {
            let mut signs = signs.to_vec();
            signs.insert(at, digit);
            text(signs)
        })
    });
    let wrong = places
        .rev()
        .filter(|at| signs[*at].is_ascii_digit())
        .flat_map(|at| {
            ('0'..='9').map(move |digit| {
                let mut signs = signs.to_vec();
                signs[at] = digit;
                text(signs)
            })
        });
    let all = turned.chain(letter_for_digit).chain(too_many);
    all.chain(missing).chain(wrong).collect()
}
