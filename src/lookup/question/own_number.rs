//! Numbers and names of a shop's own parts in a question, alone and with figures and words behind them.

use super::{
    Question, QuestionError, clearance, count, drawing_number, duty, excluded, features, groove,
    minus, near_number, place_number, second_number, words,
};
use crate::catalogue::card_index::{CardIndex, NamedCard};
use crate::language::in_backticks;
use crate::lookup::reading::Reading;
use crate::part::designation::Designation;
use crate::part::{NameKey, SizeKey};
use crate::units::Length;

/// Most words of an own number that other words follow: `SP 0002`.
const MOST_WORDS: usize = 3;
/// Fewest signs of one, and fewest digits of one without letters: fewer are figures.
const LEAST_SIGNS: usize = 3;
const LEAST_DIGITS: usize = 5;
/// A figure this near a dimension may be of it, mm.
const SAME_DIMENSION_MM: f64 = 0.35;

impl Question {
    /// Reads a question in a shop: what is no size and no standard designation may be one of its own numbers or names.
    ///
    /// An own number with words or figures behind it is read with them; where a text is a standard number and that of another
    /// part of the shop, both are shown.
    ///
    /// # Errors
    /// As [`read`](Self::read).
    pub fn read_in(text: &str, index: Option<&CardIndex>) -> Result<Self, QuestionError> {
        let Some(index) = index else {
            return Self::read(text);
        };
        if let Some(question) = Self::beside_own_number(text, index).or_else(|| of_two(text, index))
        {
            return Ok(question);
        }
        if let Some(question) = Self::behind_lead(text, index) {
            return question;
        }
        let read = Self::read(text);
        let is_understood = read.as_ref().is_ok_and(|question| {
            !question.readings.is_empty()
                || !question.partial.is_empty()
                || question.designated_size().is_some()
                || question.is_of_groove_only()
        });
        // `OLD 77` is no length of 77 mm where a part goes by that name; a figure alone is a length, unless it is a long one.
        let may_be_name = |question: &Self| {
            let is_named = text.contains(|c: char| c.is_alphabetic()) || is_long_figure(text);
            question.readings.len() == 1 && is_named
        };
        if is_understood && let Some(named) = by_alias(text, index) {
            return Ok(Self::of_card(text, named));
        }
        if is_understood && !read.as_ref().is_ok_and(may_be_name) {
            return read.map(|question| question.with_namesake(index));
        }
        let several = index.several_called(text);
        if !several.is_empty() {
            return Err(QuestionError::Several {
                found: text.trim().to_owned(),
                numbers: listed(&several),
            });
        }
        match index.find(text) {
            Some(named) => Ok(Self::of_card(text, named)),
            None => read.map_err(|error| no_part(text, index).unwrap_or(error)),
        }
    }

    /// A standard number that is the own number of another part as well: that part is shown beside it.
    fn with_namesake(mut self, index: &CardIndex) -> Self {
        if let Some(named) = self.namesake_of_size(index) {
            self.notes.push(format!(
                "`{}` is the number of a part of the shop, and it reads as a size: both are shown",
                self.text
            ));
            self.named = Some(Box::new(named));
            return self;
        }
        let designated = self.designated_size();
        if designated.is_none() || !self.readings.is_empty() {
            return self;
        }
        let Some((number, named)) = self.number_in_text(index) else {
            return self;
        };
        // Of a part without a size nobody knows that a number of digits means another one.
        if named.size.is_none() && !number.contains(|c: char| c.is_alphabetic()) {
            return self;
        }
        if named.size != designated {
            self.notes.push(format!(
                "`{number}` is the number of a part of the shop and a standard number of another size: both are shown"
            ));
            self.named = Some(Box::new(named));
        }
        self
    }

    /// The part of the shop whose number is the standard number of the text, alone or among words: `2 x 6306`, `6306 worn`.
    fn number_in_text(&self, index: &CardIndex) -> Option<(String, NamedCard)> {
        let words: Vec<&str> = self.text.split_whitespace().collect();
        let designated = self.designated_size();
        // `6306 C3` is marked as the standard part is, and no number of the shop.
        let is_designated = |run: &str| {
            Designation::parse(run).is_some_and(|read| {
                let row = crate::standard::resolve(&read);
                let marks = self.designation.as_ref().map(|of| &of.traits);
                row.map(|row| row.size).or(read.size) == designated && marks == Some(&read.traits)
            })
        };
        let own = |run: String| {
            let named = index.find(&run)?;
            let is_number = NameKey::new(&named.card.number) == NameKey::new(&run);
            is_number.then_some((run, named))
        };
        let run = |start: usize, end: usize| {
            let run = words[start..end].join(" ");
            let run = run.trim_end_matches([',', ';', '?', '!', '.']);
            is_designated(run).then(|| own(run.to_owned())).flatten()
        };
        let ends = |start: usize| (start + 1..=words.len().min(start + MOST_WORDS)).rev();
        own(self.text.trim().to_owned()).or_else(|| {
            (0..words.len()).find_map(|start| ends(start).find_map(|end| run(start, end)))
        })
    }

    /// The part whose own number is written as a text that reads as another size: `35-52-7`.
    fn namesake_of_size(&self, index: &CardIndex) -> Option<NamedCard> {
        // A figure alone is a length.
        let is_size = self.readings.len() > 1 || self.text.contains('-');
        if !is_size || self.designation.is_some() {
            return None;
        }
        let named = index.find(&self.text)?;
        self.reads_otherwise_than(&named).then_some(named)
    }

    /// True where the text is the number of a part of the shop as it is written, and reads as another size than that part has.
    pub(in crate::lookup) fn reads_otherwise_than(&self, named: &NamedCard) -> bool {
        let is_number = named.card.number.trim() == self.text.trim();
        let is_read = self.designation.is_none() && !self.readings.is_empty();
        let is_of = |size: SizeKey| {
            let lengths: Vec<Length> = size.dimensions().map(|(_, length)| length).collect();
            let mut pairs = self.readings.iter().zip(lengths.iter().copied());
            let is_same = |(reading, of): (&Reading, Length)| {
                reading.length.length.difference_mm(of).abs() <= SAME_DIMENSION_MM
            };
            lengths.len() == self.readings.len() && pairs.all(is_same)
        };
        is_number && is_read && !named.size.is_some_and(is_of)
    }

    /// `2 BRG-1`, `pos 5 BRG-1`, `order BRG-1 6 kN`: an own number behind how many are wanted, or where they are listed.
    fn behind_lead(text: &str, index: &CardIndex) -> Option<Result<Self, QuestionError>> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let (start, said) = lead(&words);
        if start == 0 || start == words.len() || index.find(text).is_some() {
            return None;
        }
        let rest = words[start..].join(" ");
        let is_one = || index.find(&rest).is_some() || !index.several_called(&rest).is_empty();
        let is_own =
            may_be_own(&rest) && is_one() || Self::beside_own_number(&rest, index).is_some();
        if !is_own {
            return None;
        }
        let read = Self::read_in(&rest, Some(index));
        Some(read.map(|mut question| {
            text.trim().clone_into(&mut question.text);
            if !said.is_empty() {
                question.notes.push(drawing_number::note(&said));
            }
            question
        }))
    }

    /// `BRG-0314 measured 80 140 26`: the longest run of words in front that is an own number, and what is said beside it.
    fn beside_own_number(text: &str, index: &CardIndex) -> Option<Self> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let most = words.len().saturating_sub(1).min(MOST_WORDS);
        let (end, head, named) = (1..=most).rev().find_map(|end| {
            let head = words[..end].join(" ");
            let head = head.trim_end_matches([',', ';', ':']).to_owned();
            let named = match may_be_own(&head) {
                true => index.find(&head),
                false => by_alias(&head, index),
            }?;
            Some((end, head, named))
        })?;
        let size = named.size;
        let mut question = Self::of_card(&head, named);
        let several = index.several_called(&head);
        if !several.is_empty() {
            question.notes.push(format!(
                "several parts go by `{head}`: {}; ask by one of these numbers",
                listed(&several)
            ));
            question.not_understood.push(head.clone());
        }
        let rest = question.take_other_parts(&words[end..], (&head, size), index);
        question.read_beside(&rest, size);
        text.trim().clone_into(&mut question.text);
        Some(question)
    }

    /// Takes what names another part beside an own number, and how many are wanted: `B-100 and S-200`, `B-100 6206`, `B-100 x2`.
    fn take_other_parts(
        &mut self,
        words: &[&str],
        (head, size): (&str, Option<SizeKey>),
        index: &CardIndex,
    ) -> String {
        const LINKS: [&str; 7] = ["and", "or", "und", "oder", "et", "ou", "&"];
        let bare = |word: &str| word.trim_end_matches([',', ';', '.']).to_owned();
        if let [link, other] = words
            && LINKS.contains(&link.to_lowercase().as_str())
        {
            let other = bare(other);
            if may_be_own(&other) && index.find(&other).is_some() {
                self.notes.push(format!(
                    "`{head}` is answered; `{other}` is another part: ask for it by itself"
                ));
                return String::new();
            }
        }
        let mut left: Vec<&str> = Vec::with_capacity(words.len());
        let mut at = usize::from(count::is_alone(words)) * words.len();
        while let Some(word) = words.get(at) {
            // `6000 N` is a load.
            let is_unit =
                |word: &&str| duty::LOAD_UNITS.contains(&bare(word).to_lowercase().as_str());
            let is_load = words.get(at + 1).is_some_and(is_unit);
            let end = second_number::end_of_number(words, at).filter(|_| !is_load);
            let Some(end) = end else {
                left.push(*word);
                at += 1;
                continue;
            };
            let number = bare(&words[at..end].join(" "));
            at = end;
            if let Some(place) = left.pop_if(|word| place_number::is_place(word)) {
                self.notes.push(format!(
                    "`{place} {number}` is taken as the place of the part, and is not looked at"
                ));
            } else if !self.is_called(&number, size) {
                self.notes.push(format!(
                    "`{head}` is answered, and `{number}` beside it is another number: look which of the two is on the part"
                ));
                self.not_understood.push(number);
            }
        }
        left.join(" ")
    }

    /// True for a number of the part's own size whose marks do not say otherwise.
    fn is_called(&self, number: &str, size: Option<SizeKey>) -> bool {
        let Some(read) = Designation::parse(number) else {
            return false;
        };
        let row = crate::standard::resolve(&read);
        let is_bare = read.basic == number.to_uppercase().replace(' ', "");
        row.is_some_and(|row| Some(row.size) == size) && (is_bare || read.traits == self.traits)
    }

    /// Reads what stands beside an own number; figures of a part that goes by its size alone are compared with that.
    fn read_beside(&mut self, rest: &str, size: Option<SizeKey>) {
        let of_size = std::mem::take(&mut self.readings);
        let (left, excluded) = excluded::split(rest);
        let left = groove::take(self, &left);
        let left = clearance::take(self, &left);
        let (left, duty) = duty::split_beside(&left);
        let (left, features) = features::split_beside(&left, self.family);
        let (left, below_zero) = minus::take(&left);
        words::read(self, &left);
        self.not_understood.extend(below_zero);
        features.apply(self);
        duty.apply(self);
        excluded.apply(self);
        clearance::note(self);
        if of_size.is_empty() {
            return;
        }
        let beside = std::mem::replace(&mut self.readings, of_size);
        let Some(size) = size else { return };
        let is_of = |reading: &Reading| {
            let place = reading.role.and_then(|role| role.place(size.family()));
            size.dimensions().enumerate().any(|(at, (_, of))| {
                let off_mm = reading.length.length.difference_mm(of).abs();
                place.is_none_or(|place| place == at) && off_mm <= SAME_DIMENSION_MM
            })
        };
        for reading in beside.iter().filter(|reading| !is_of(reading)) {
            self.not_understood.push(format!(
                "{} is no dimension of {size}",
                reading.length.length
            ));
        }
    }

    /// The question a card answers: by its designation, else by its size, else for nothing but itself.
    fn of_card(text: &str, named: NamedCard) -> Self {
        let NamedCard { size, card, .. } = &named;
        let size = *size;
        let by_size = |size: SizeKey| {
            let figures: Vec<String> = size
                .dimensions()
                .map(|(_, length)| format!("{length:#}"))
                .collect();
            format!(
                "{} mm {} nominal",
                figures.join(" x "),
                size.family().name()
            )
        };
        let is_of_size = |question: &Self| size.is_none() || question.designated_size() == size;
        let by_designation = card.designation.as_ref().and_then(|name| {
            let question = Self::read(name).ok().filter(is_of_size)?;
            Some((question, name.clone()))
        });
        let read = by_designation.or_else(|| {
            let words = by_size(size?);
            Some((Self::read(&words).ok()?, words))
        });
        let mut question = match read {
            Some((mut question, name)) => {
                let is_number = text.trim() == card.number;
                question.notes.push(if is_number {
                    format!("`{text}` is a part of the shop: read as `{name}`")
                } else {
                    let number = &card.number;
                    format!("`{text}` is a name of the shop's part `{number}`: read as `{name}`")
                });
                question
            }
            None => Self::of(text),
        };
        text.trim().clone_into(&mut question.text);
        question.take_traits_of(&named);
        question.named = Some(Box::new(named));
        question
    }
}

/// `B-100/S-200`: two own numbers, of which the first is answered.
fn of_two(text: &str, index: &CardIndex) -> Option<Question> {
    let (first, other) = text.trim().split_once('/')?;
    let is_own = |number: &str| may_be_own(number) && index.find(number).is_some();
    let are_two = is_own(first) && is_own(other) && index.find(text).is_none();
    let mut question = are_two
        .then(|| Question::beside_own_number(&format!("{first} and {other}"), index))
        .flatten()?;
    text.trim().clone_into(&mut question.text);
    Some(question)
}

/// How many words stand before a number that say nothing of the part, and those of them that name a drawing or a place of a list.
fn lead(words: &[&str]) -> (usize, Vec<String>) {
    const PARTS: [&str; 15] = [
        "part", "parts", "bearing", "bearings", "seal", "seals", "number", "no.", "nr.", "our",
        "teil", "teile", "lager", "dichtung", "old",
    ];
    let (mut at, mut said) = (0, Vec::new());
    while let Some(word) = words.get(at) {
        let lower = word.trim_end_matches([',', ';', ':']).to_lowercase();
        if let Some(end) = drawing_number::end_of(words, at) {
            let listed = words[at..end].join(" ");
            said.push(listed.trim_end_matches([',', ';', ':']).to_owned());
            at = end;
        } else if count::is_order(word) || PARTS.contains(&lower.as_str()) {
            at += 1;
        } else {
            match count::words_of_count(&words[at..]) {
                0 => break,
                of_count => at += of_count,
            }
        }
    }
    (at, said)
}

/// The part of which the shop's tables say that a number with a mark of no standard is another number: `6308 QQX C3`.
fn by_alias(text: &str, index: &CardIndex) -> Option<NamedCard> {
    let is_long = text.trim().len() >= LEAST_SIGNS && text.contains(|c: char| c.is_ascii_digit());
    let read = is_long.then(|| Designation::parse(text)).flatten()?;
    if read.traits.unknown_suffixes.is_empty() || !index.several_called(text).is_empty() {
        return None;
    }
    let key = NameKey::new(text);
    let named = index.find(text)?;
    let mut aliases = named.card.aliases.iter();
    aliases
        .any(|alias| NameKey::new(alias) == key)
        .then_some(named)
}

/// Says of a text that has the form of a number that no part of the shop goes by it, and which do by one near it.
fn no_part(text: &str, index: &CardIndex) -> Option<QuestionError> {
    let found = text.trim();
    let has = |is: fn(char) -> bool| found.contains(is);
    let is_number = !found.contains(char::is_whitespace)
        && has(|c| c.is_alphabetic())
        && has(|c| c.is_ascii_digit());
    is_number.then(|| QuestionError::NoPart {
        found: found.to_owned(),
        near: near_number::near(found, index),
    })
}

impl Question {
    /// What the shop's columns say of its part holds, and what its designation means by leaving a mark out does not: of
    /// `6308` with `?` for its clearance none is known.
    fn take_traits_of(&mut self, named: &NamedCard) {
        let Some(traits) = named.traits() else {
            return;
        };
        let of_words = std::mem::replace(&mut self.traits, traits.clone());
        // The row of a designation read its marks with the columns, and left out those that contradict each other.
        if named.card.designation.is_none() {
            self.traits.take_gaps(&of_words);
        }
    }
}

/// Fewest digits of a figure that is taken for a number where a part goes by it: no part of the tables is a metre large.
const LONG_FIGURE: usize = 4;
/// Most numbers that are named.
const MOST_NAMED: usize = 6;

fn is_long_figure(text: &str) -> bool {
    let text = text.trim();
    text.len() >= LONG_FIGURE && text.bytes().all(|byte| byte.is_ascii_digit())
}

/// Numbers in words, the first of many.
fn listed(numbers: &[String]) -> String {
    let mut named = in_backticks(numbers.iter().take(MOST_NAMED));
    if numbers.len() > MOST_NAMED {
        named.push("...".to_owned());
    }
    named.join(", ")
}

/// True for a text that may be an own number with more behind it: no figure, and no number or size of a standard.
fn may_be_own(head: &str) -> bool {
    let digits = head.bytes().filter(u8::is_ascii_digit).count();
    let has_letters = head.contains(|c: char| c.is_alphabetic());
    let is_long =
        head.len() >= LEAST_SIGNS && digits > 0 && (has_letters || digits >= LEAST_DIGITS);
    let is_standard = || {
        Designation::parse(head)
            .is_some_and(|read| read.size.is_some() || crate::standard::resolve(&read).is_some())
    };
    is_long && !begins_with_size(head) && !is_standard()
}

/// True for a text whose first word is a size and no more, which is asked for as such whatever part goes by it: `25x52x15`.
fn begins_with_size(head: &str) -> bool {
    let first = head.split_whitespace().next().unwrap_or_default();
    let pieces: Vec<&str> = first.split(['x', 'X', '×', '*']).collect();
    let is_length = |piece: &&str| {
        let is_figure = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
        piece.contains(|c: char| c.is_ascii_digit()) && piece.chars().all(is_figure)
    };
    pieces.len() > 1 && pieces.iter().all(is_length)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_orders_and_places_of_a_list_stand_before_a_number() {
        for (text, count, listed) in [
            ("2 BRG-1", 1, ""),
            ("2x BRG-1", 1, ""),
            ("2 x BRG-1", 2, ""),
            ("2 pcs BRG-1", 2, ""),
            ("order 2 BRG-1", 2, ""),
            ("pos 5 BRG-1", 2, "pos 5"),
            ("drawing 6203 pos 5: BRG-1", 4, "drawing 6203, pos 5"),
            ("2 each BRG-1", 2, ""),
            ("4 pcs of B-100", 3, ""),
            ("need 2 of BRG-1", 3, ""),
            ("bearing B-100", 1, ""),
            ("part no. B-100", 2, ""),
            ("old B-100", 1, ""),
            ("no B-100", 0, ""),
            ("BRG-1 2 pcs", 0, ""),
            ("200 BRG-1", 0, ""),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            let (taken, said) = lead(&words);
            assert_eq!((taken, said.join(", ").as_str()), (count, listed), "{text}");
        }
    }

    #[test]
    fn figures_words_and_standard_numbers_are_no_own_numbers() {
        for (head, may_be) in [
            ("BRG-0314", true),
            ("SP 0002", true),
            ("100234", true),
            ("GW-002", true),
            ("6206", false),
            ("NU205", false),
            ("KM8", false),
            ("40x62x8", false),
            ("25x52x15", false),
            ("25x3 NBR", false),
            ("1234", false),
            ("bearing", false),
            ("R8", false),
        ] {
            assert_eq!(may_be_own(head), may_be, "{head}");
        }
    }
}
