//! Numbers of which a few characters are worn off: `63?6`, `6308-`, `?2205`.

use sparewright::lookup::{Question, answer};
use sparewright::part::Family;
use sparewright::standard::{self, StandardPart};

use super::dice::Dice;
use super::tally::Tally;
use super::world::World;

/// Families whose numbers carry a series and a code, not the size in words.
pub const fn is_numbered(family: Family) -> bool {
    !matches!(
        family,
        Family::LipSeal
            | Family::ORing
            | Family::ShaftRetainingRing
            | Family::BoreRetainingRing
            | Family::DowelPin
    )
}

/// Draws numbers, wears one or two characters off and asks.
pub fn run(family: Family, world: &World, draws: usize, seed: u64) -> Tally {
    let rows: Vec<&StandardPart> = standard::parts()
        .iter()
        .filter(|row| row.size.family() == family && !row.designation.contains(' '))
        .collect();
    let mut dice = Dice::new(seed);
    let mut tally = Tally::default();
    if rows.is_empty() {
        return tally;
    }
    for _ in 0..draws {
        let is_outside = dice.unit() < world.outside_share;
        let number = if is_outside {
            unlisted(&mut dice, &rows)
        } else {
            rows[dice.below(rows.len())].designation.clone()
        };
        let text = worn_off(&mut dice, &number);
        let Ok(question) = Question::read(&text) else {
            tally.add(is_outside, 0.0, false, false);
            continue;
        };
        let answers = answer(&question, None).answers;
        let is_it = |at: usize| {
            answers.get(at).is_some_and(|one| {
                std::iter::once(&one.designation)
                    .chain(&one.twins)
                    .any(|name| *name == number)
            })
        };
        let stated = answers.first().map_or(0.0, |first| first.probability);
        tally.add(is_outside, stated, is_it(0), (0..3).any(is_it));
    }
    tally
}

/// A number of the same make with one digit changed, that is in no table.
fn unlisted(dice: &mut Dice, rows: &[&StandardPart]) -> String {
    loop {
        let mut number: Vec<char> = rows[dice.below(rows.len())].designation.chars().collect();
        let digits: Vec<usize> = (0..number.len())
            .filter(|at| number[*at].is_ascii_digit())
            .collect();
        if digits.is_empty() {
            continue;
        }
        number[digits[dice.below(digits.len())]] = char::from(b'0' + dice.below(10) as u8);
        let made: String = number.into_iter().collect();
        if standard::find(&made).is_none() {
            return made;
        }
    }
}

/// Half of the numbers lose one character, a quarter two, a quarter what stands behind them.
fn worn_off(dice: &mut Dice, number: &str) -> String {
    let lost = match dice.below(4) {
        0 | 1 => 1,
        2 => 2,
        _ => return format!("{number}-"),
    };
    let mut chars: Vec<char> = number.chars().collect();
    for _ in 0..lost {
        let at = dice.below(chars.len());
        chars[at] = '?';
    }
    chars.into_iter().collect()
}
