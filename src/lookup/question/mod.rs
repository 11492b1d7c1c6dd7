//! Reads a question as people write it: `30 x 62 x 16 deep groove`, `6308 2RS C3`, `44.96 84.9 19 worn`, `63?6`.

mod amount;
mod angle_ring;
mod any_of;
mod asked_checks;
mod binding;
mod centimetre;
mod clash;
mod clearance;
mod cone_and_cup;
mod contrary;
mod count;
mod dash_number;
mod drawing_number;
mod duty;
mod end_signs;
mod excluded;
mod family_words;
mod features;
mod figure;
mod grade;
mod groove;
mod half;
mod half_figures;
mod hardness;
mod inch;
mod kind;
mod letters;
mod lip_class;
mod load_words;
mod lock_nut;
mod machine_number;
mod minus;
mod missing_ring;
mod named_by_kind;
mod named_duty;
mod near_number;
mod need_words;
mod o_ring;
mod old_part;
mod one_figure;
mod other_part;
mod over_groove;
mod own_marks;
mod own_number;
mod part_names;
mod partial;
mod place_number;
mod place_words;
mod plain;
mod quantity;
mod retaining_ring;
mod ring_alone;
mod ring_form;
mod ring_place;
mod rolls_on;
mod seat_class;
mod seat_shape;
mod second_number;
mod set_words;
mod settled;
mod short_words;
mod speed;
mod standard_name;
mod thou;
mod tidy;
mod two_parts;
mod vocabulary;
mod whole_part;
mod without_table;
mod without_table_number;
mod words;

pub use without_table::WithoutTable;

use super::groove::Groove;
use super::reading::Reading;
use crate::catalogue::card_index::NamedCard;
use crate::import::family_in;
use crate::interchange::Needs;
use crate::part::designation::Designation;
use crate::part::{Family, PartClass, SizeKey, Traits};
use crate::standard::StandardPart;

/// Why a question cannot be answered.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum QuestionError {
    /// Nothing was asked.
    #[error(
        "the question is empty; expected a size such as `30 x 62 x 16`, or a designation such as `6206-2RS C3`"
    )]
    Empty,
    /// No size and no designation was found in the text.
    #[error(
        "no size and no standard designation in `{found}`; expected `30 x 62 x 16 deep groove`, `6206-2RS C3`, `O-ring 31.34 x 3.53` or the like"
    )]
    Nothing {
        /// The text.
        found: String,
    },
    /// The text has the form of a number, and no part of the shop goes by it.
    #[error(
        "no part of the shop is called `{found}`, and it is no size and no standard designation{}",
        near_it(.near)
    )]
    NoPart {
        /// The text.
        found: String,
        /// Own numbers that differ from it by one slip of the pen.
        near: Vec<String>,
    },
    /// Several parts of the shop go by the text.
    #[error("several parts go by `{found}`: {numbers}; ask by one of these numbers")]
    Several {
        /// The text.
        found: String,
        /// Their own numbers.
        numbers: String,
    },
}

/// The numbers that may have been meant; nothing where there are none.
fn near_it(near: &[String]) -> String {
    match near {
        [] => String::new(),
        _ => format!("; near it are {}", near.join(", ")),
    }
}

/// A question taken apart.
#[derive(Debug, Clone)]
pub struct Question {
    /// As asked.
    pub text: String,
    /// Family, where words or the designation name it.
    pub family: Option<Family>,
    /// Families that the words leave open where they name a kind of part only (`circlip`, `bearing`); empty for any.
    pub families: Vec<Family>,
    /// Designation, where the text holds one.
    pub designation: Option<Designation>,
    /// Rows that a half-read number or a nominal size may be; empty where the number is whole.
    pub partial: Vec<&'static StandardPart>,
    /// The marks of each of several numbers.
    pub(in crate::lookup) own_marks: own_marks::OwnMarks,
    /// How many numbers that fit a half-read one are in no table here.
    pub unlisted: usize,
    /// Figures, in the order written.
    pub readings: Vec<Reading>,
    /// What was asked for besides size.
    pub traits: Traits,
    /// What the place asks of the part.
    pub needs: Needs,
    /// True where the text says the part is worn or used.
    pub is_worn: bool,
    /// True where the text says the figures are nominal (drawing, new, nominal).
    pub is_nominal: bool,
    /// Classes of fit of shaft and housing, where the text names them: `k6`, `H7`.
    pub fit_classes: Vec<String>,
    /// The groove of an O-ring, as far as it was measured.
    pub groove: Groove,
    /// A radial clearance that was measured before fitting, µm.
    pub clearance_um: Option<f64>,
    /// True where the seat of a retaining ring was given in inches and is none of the tables.
    pub is_inch_seat: bool,
    /// A kind of part whose sizes are in no table here, where the text asks for one.
    pub without_table: Option<&'static WithoutTable>,
    /// The part of the shop that the text is a name of.
    pub named: Option<Box<NamedCard>>,
    /// Words that were not understood.
    pub not_understood: Vec<String>,
    /// Loads, powers and lives as written, which nothing here looks at.
    pub not_looked_at: Vec<String>,
    /// What is told of how the words were read: slips in writing, units, what speaks against each other.
    pub notes: Vec<String>,
}

/// Long dashes between letters and figures as hyphens: word processors make `40–62–12` of `40-62-12`.
fn with_hyphens(text: String) -> String {
    const DASHES: [char; 3] = ['–', '—', '‑'];
    if text.is_ascii() || !text.contains(DASHES) {
        return text;
    }
    let characters: Vec<char> = text.chars().collect();
    let is_between = |at: usize| {
        let before = at.checked_sub(1).and_then(|at| characters.get(at));
        [before, characters.get(at + 1)]
            .into_iter()
            .all(|of| of.is_some_and(|c| c.is_alphanumeric()))
    };
    let of_place = |(at, c): (usize, &char)| match DASHES.contains(c) && is_between(at) {
        true => '-',
        false => *c,
    };
    characters.iter().enumerate().map(of_place).collect()
}

impl Question {
    /// Reads a question.
    ///
    /// # Errors
    /// [`QuestionError`] where neither a size nor a standard designation can be found.
    ///
    /// # Example
    /// ```
    /// use sparewright::lookup::Question;
    /// let question = Question::read("30 x 62 x 16 deep groove")?;
    /// assert_eq!(question.readings.len(), 3);
    /// assert!(Question::read("the big one").is_err());
    /// # Ok::<(), sparewright::lookup::QuestionError>(())
    /// ```
    pub fn read(text: &str) -> Result<Self, QuestionError> {
        // Blanks say nothing by their number; what was asked is kept as it was written.
        let words: Vec<&str> = text.split_whitespace().collect();
        let (spaced, of_end) = end_signs::without(with_hyphens(words.join(" ")));
        let in_mm = centimetre::in_mm(&spaced);
        let of_cm = in_mm
            .as_ref()
            .map(|text| format!("centimetres read as millimetres: `{text}`"));
        let spaced = in_mm.unwrap_or(spaced);
        let (spaced, of_thou) =
            thou::in_inches(&spaced).map_or((spaced, None), |(read, note)| (read, Some(note)));
        let (spaced, notes) = quantity::tidy(&spaced).unwrap_or((spaced, Vec::new()));
        let mut question = match half::read(&spaced) {
            Some(question) => question,
            None => Self::read_whole(&spaced)?,
        };
        text.trim().clone_into(&mut question.text);
        question.notes.extend(of_cm);
        question.notes.extend(of_thou);
        question.notes.extend(of_end);
        question.notes.extend(notes);
        hardness::settle(&mut question);
        clash::tell(&mut question);
        clearance::note(&mut question);
        lock_nut::note_pitch(&mut question);
        asked_checks::note_life(&mut question);
        place_words::note_way(&mut question);
        ring_place::note(&mut question);
        seat_class::note(&mut question);
        Ok(question)
    }

    /// Reads a question for a whole part.
    fn read_whole(text: &str) -> Result<Self, QuestionError> {
        let text = text.trim();
        if text.is_empty() {
            return Err(QuestionError::Empty);
        }
        if let Some(question) = asked_checks::of_preload(text) {
            return Ok(question);
        }
        if let Some(kind) = without_table::piece_asked_for(text) {
            return Ok(Self::without_table(text, kind));
        }
        let (text, drawing) = drawing_number::split(text);
        let (text, machine) = machine_number::split(&text);
        let (text, old) = old_part::split(&text);
        let (text, excluded) = excluded::split(&text);
        let (text, other) = two_parts::split(&text);
        let (text, place) = place_number::split(&text);
        let text = seat_shape::straightened(&text).unwrap_or(text);
        let (text, ring) = angle_ring::split(&text);
        let text = text.as_str();
        let (spared, duty) = duty::split(text);
        let mut question = match Self::of_first_of_two(&spared) {
            Some(question) => question,
            None => {
                let (left, features) = features::split(&spared);
                let (left, below_zero) = minus::take(&left);
                let mut question = Self::read_size(&left).map_err(|_| QuestionError::Nothing {
                    found: text.to_owned(),
                })?;
                features.apply(&mut question);
                question.not_understood.extend(below_zero);
                question
            }
        };
        duty.apply(&mut question);
        excluded.apply(&mut question);
        set_words::settle(&mut question);
        question.notes.extend(ring);
        question.notes.extend(place);
        if let Some(other) = other {
            other.apply(&mut question);
        }
        question.notes.extend(old);
        question.notes.extend(drawing);
        question.notes.extend(machine);
        Ok(question)
    }

    /// Reads number and size, and what words ask for besides.
    fn read_size(text: &str) -> Result<Self, QuestionError> {
        let uncounted = count::taken_off(text);
        let text = uncounted.as_deref().unwrap_or(text);
        let mut question = Self::of(text);
        question.without_table = without_table::asked_for(text);
        if question.without_table.is_some() {
            let lower = text.trim().to_lowercase();
            let number = without_table_number::read(&lower);
            let behind = number.as_ref().and_then(|number| {
                let words: Vec<&str> = text.split_whitespace().collect();
                let start = words.len().checked_sub(number.words_of_size()?)?;
                Some((words[start..].join(" "), number.notes()))
            });
            if let Some((size, notes)) = behind {
                let mut question = Self::read_size(&size)?;
                question.notes.splice(..0, notes);
                return Ok(question);
            }
            question.notes = number.map_or_else(Vec::new, |number| number.notes());
            return Ok(question);
        }
        let text = &tidy::fractions(text);
        let tidied = tidy::zeros(text);
        if tidied != *text {
            question
                .notes
                .push(format!("letter o read as zero: `{tidied}`"));
        }
        let tidied = question.take_beside(&tidied);
        if question.take_partial(&tidied) || question.take_designation(&tidied) {
            return Ok(question);
        }
        let turned = tidy::marks_behind(&tidied);
        if let Some(turned) = &turned {
            let note = format!("marks in front of the number read as behind it: `{turned}`");
            question.notes.push(note);
            if question.take_designation(turned) {
                return Ok(question);
            }
        }
        let tidied = turned.unwrap_or(tidied);
        question.family = other_part::family_named(&tidied);
        if question.take_dash_number(&tidied) {
            return Ok(question);
        }
        let rest = question.take_leading_designation(&tidied);
        let rest = question.take_named_inside(rest);
        let rest = grade::take(&mut question, &rest);
        let rest = standard_name::take(&mut question, &rest);
        let rest = question.take_inner_number(rest);
        if question.family.is_none() && question.designation.is_none() {
            question.families = kind::families_in(&rest);
        }
        let is_unread = question.designation.is_none() && question.partial.is_empty();
        let dashed = is_unread.then(|| tidy::dashed_beside(&rest)).flatten();
        let rest = dashed.unwrap_or(rest);
        words::read(&mut question, &rest);
        other_part::note(&mut question, &rest);
        let is_open = question.readings.is_empty() && question.designation.is_none();
        if is_open && question.partial.is_empty() {
            if question.is_of_groove_only() {
                return Ok(question);
            }
            if let Some(size) = tidy::dashed_size(&tidied) {
                question.not_understood.clear();
                words::read(&mut question, &size);
                return Ok(question);
            }
            let closed_up = tidy::closed_up(&tidied);
            return match closed_up.filter(|closed| question.take_designation(closed)) {
                Some(closed) => {
                    question
                        .notes
                        .push(format!("blanks inside a number left out: `{closed}`"));
                    Ok(question)
                }
                None => Err(QuestionError::Nothing {
                    found: text.to_owned(),
                }),
            };
        }
        question.prefer_code_with_blanks(&tidied);
        Ok(question)
    }

    /// Takes out what is no number and no size: a groove, a clearance, counts, words in front of a number; gives what is left.
    fn take_beside(&mut self, text: &str) -> String {
        let tidied = groove::take(self, text);
        let tidied = clearance::take(self, &tidied);
        let tidied = tidy::without_count(&tidied);
        let tidied = cone_and_cup::together(&tidied);
        let tidied = tidy::numbers_apart(&tidied);
        let tidied = tidy::marks_together(&tidied);
        let tidied = standard_name::without_kind(&tidied).unwrap_or(tidied);
        ring_form::take(self, &tidied).unwrap_or(tidied)
    }

    /// A question for a part whose sizes are in no table here.
    fn without_table(text: &str, kind: &'static WithoutTable) -> Self {
        Self {
            without_table: Some(kind),
            ..Self::of(text)
        }
    }

    /// `1206K + H206`: the first is answered, the other is a part of its own.
    fn of_first_of_two(text: &str) -> Option<Self> {
        let (first, other) = text.split_once('+')?;
        // `6206 shaft +1 thou` is larger by that.
        let is_more = other.starts_with(|c: char| c.is_ascii_digit()) && first.ends_with(' ');
        let (first, other) = (first.trim(), other.trim());
        if is_more && !crate::standard::is_designation(other) {
            return None;
        }
        if other.is_empty() || !crate::standard::is_designation(first) {
            return None;
        }
        let mut question = Self::read_whole(first).ok()?;
        text.clone_into(&mut question.text);
        question.notes.push(format!(
            "`{first}` is answered; `{other}` is another part: ask for it by itself"
        ));
        Some(question)
    }

    /// True where the groove of an O-ring was measured, and nothing of the ring.
    pub const fn is_of_groove_only(&self) -> bool {
        self.groove.is_measured() && self.readings.is_empty() && self.designation.is_none()
    }

    /// True where the size is a nominal one in fractions of an inch.
    pub fn is_nominal_inch(&self) -> bool {
        let mut readings = self.readings.iter();
        !self.readings.is_empty() && readings.all(|reading| reading.is_nominal_inch)
    }

    /// True where a lock nut is asked for by its thread diameter alone.
    pub fn is_pitch_open(&self) -> bool {
        self.family.is_some_and(named_by_kind::has_thread)
            && self.designation.is_none()
            && self.partial.is_empty()
            && self.readings.len() == 1
    }

    /// True where the text is nothing but a name of a part of the shop, of which neither size nor designation is known.
    pub fn is_name_only(&self) -> bool {
        self.named.is_some() && self.readings.is_empty() && self.designation.is_none()
    }

    fn of(text: &str) -> Self {
        Self {
            text: text.to_owned(),
            family: None,
            families: Vec::new(),
            designation: None,
            partial: Vec::new(),
            own_marks: own_marks::OwnMarks::default(),
            unlisted: 0,
            readings: Vec::new(),
            traits: Traits::default(),
            needs: Needs::default(),
            is_worn: false,
            is_nominal: false,
            fit_classes: Vec::new(),
            groove: Groove::default(),
            clearance_um: None,
            is_inch_seat: false,
            without_table: None,
            named: None,
            not_understood: Vec::new(),
            not_looked_at: Vec::new(),
            notes: Vec::new(),
        }
    }

    /// The size that the designation names, by its table row or by itself.
    pub fn designated_size(&self) -> Option<SizeKey> {
        let designation = self.designation.as_ref()?;
        crate::standard::resolve(designation)
            .map(|row| row.size)
            .or(designation.size)
    }

    /// A number of which a digit is not readable, or whose end is, and the words behind it.
    fn take_partial(&mut self, text: &str) -> bool {
        if let Some((found, size, rest)) = half_figures::read(self, text) {
            self.take_rows(found, &size, &rest);
            return true;
        }
        let (number, rest) = partial::split(text);
        let Some(found) = partial::read(&number) else {
            return false;
        };
        self.take_rows(found, &number, rest);
        true
    }

    /// Keeps the rows that a half-read number may be, and reads the words behind it.
    fn take_rows(&mut self, found: partial::Partial, number: &str, rest: &str) {
        if let [only] = found.rows[..] {
            // The end alone is missing: the part is known, what follows it is not.
            if let Some(mut designation) = Designation::parse(&only.designation) {
                designation.traits = only.traits.clone();
                self.designation = Some(designation);
            }
        }
        self.family = {
            let mut families: Vec<Family> =
                found.rows.iter().map(|row| row.size.family()).collect();
            families.dedup();
            (families.len() == 1).then(|| families[0])
        };
        self.partial = found.rows;
        self.take_common_ribs();
        if let Some(half) = found.half {
            half::add(self, half);
        }
        self.unlisted = found.unlisted;
        self.notes.push(found.read_as);
        // Behind a sign at the end nothing is known of closure and clearance, whatever follows.
        let marks = number
            .contains(partial::GAPS)
            .then(|| partial::marks(&self.partial, rest))
            .flatten();
        let rest = match marks {
            Some((traits, rest)) => {
                let ribs = traits.rib_form.or(self.traits.rib_form);
                self.traits = traits;
                self.traits.rib_form = ribs;
                rest
            }
            None => rest.to_owned(),
        };
        words::read(self, &rest);
    }

    /// The ribs that every row of a half-read number has are read: `NU2?6` is an NU, whatever the digit, and `NJ?206` an NJ.
    fn take_common_ribs(&mut self) {
        let ribs = |row: &&'static StandardPart| row.traits.rib_form;
        let first = self.partial.first().and_then(ribs);
        if self.partial.iter().all(|row| ribs(row) == first) {
            self.traits.rib_form = first;
        }
    }

    /// Keeps the whole text as a designation, if it is one whose size is known.
    fn take_designation(&mut self, text: &str) -> bool {
        let Some(designation) = Designation::parse(text) else {
            return false;
        };
        let is_known =
            designation.size.is_some() || crate::standard::resolve(&designation).is_some();
        // What reads as an unknown suffix may be a word or a figure of the question.
        let has_words = designation.traits.unknown_suffixes.iter().any(|suffix| {
            need_words::is_word(suffix)
                || vocabulary::is_filler(suffix)
                || figure::is_figure(suffix)
                || figure::is_thread(suffix)
                || need_words::is_quantity(suffix)
                || is_small_word(text, suffix)
                || second_number::is_one(suffix)
        }) || designation.is_in_words;
        // `13/16` is a length, not the bore 16 of a series 13.
        if !is_known
            && text
                .split_whitespace()
                .next()
                .is_some_and(figure::is_inch_fraction)
        {
            return false;
        }
        // `108 mm retaining ring` is no ball bearing 108.
        let named = family_in(text);
        let is_other = designation.size.is_none() && named.is_some() && named != designation.family;
        let is_thick = designation.size.as_ref().is_some_and(o_ring::is_too_thick);
        // Of a double direction bearing the number tells no bore, and five digits are still no length.
        let is_whole_number = designation.basic.len() >= 5
            && designation.basic.bytes().all(|b| b.is_ascii_digit())
            && designation.traits.unknown_suffixes.is_empty();
        let tells = is_known || designation.bore.is_some() || is_whole_number;
        // `ISO 2338 8x40` leaves the class of the pin open, and no row is without.
        let is_class_open = designation.family.is_some_and(seat_class::is_own)
            && crate::standard::resolve(&designation).is_none()
            && designation.size.is_some_and(|size| size.fit().is_none());
        if !tells || has_words || is_other || is_thick || is_class_open {
            return false;
        }
        // `oil seal 35x52x7` is figures like `35 x 52 x 7`, unless a table has just this size.
        if is_bare_size(&designation) && crate::standard::resolve(&designation).is_none() {
            return false;
        }
        self.family = designation.family.or(self.family);
        self.traits = designation.traits.clone();
        self.designation = Some(designation);
        true
    }

    /// Takes the longest run of words that is a designation off the front; gives the rest.
    fn take_leading_designation(&mut self, text: &str) -> String {
        let words: Vec<&str> = text.split_whitespace().collect();
        // With words of the trade in front it is no number for whom it is asked here.
        if !words
            .first()
            .is_some_and(|word| Designation::may_begin(word))
        {
            return text.to_owned();
        }
        let marks = &own_marks(&words);
        for end in (1..words.len()).rev() {
            // `NBR 50 bar` has no hardness of 50.
            if quantity::is_apart(&words, end)
                || amount::begins_size(&words, end - 1)
                || figure::is_within_size(&words, end)
            {
                continue;
            }
            let head = words[..end].join(" ");
            let Some(designation) = Designation::parse(&head) else {
                continue;
            };
            let is_marked = designation.traits.unknown_suffixes == *marks;
            let is_clean = is_marked && !designation.is_in_words;
            // `KM8 worn`, `KM 9 thread 45`: letters first, and one digit is enough.
            let is_number = |word: &str| word.bytes().all(|b| b.is_ascii_digit());
            let is_letters_first = head.starts_with(|c: char| c.is_ascii_alphabetic())
                && (end == 1 || end == 2 && is_number(words[1]));
            // `lock nut KM5 worn`: the words name the part.
            let is_nut = designation.family.is_some_and(named_by_kind::has_thread)
                && designation.size.is_none();
            let is_named = is_letters_first
                || is_nut
                || head.chars().filter(char::is_ascii_digit).count() >= 2;
            // `108 mm retaining ring` is no ball bearing 108.
            let is_family = self.family.is_none()
                || designation.family == self.family
                || other_part::is_legible(&words, end, &designation);
            // `0.103 inch` is no size in millimetres.
            let is_inch = designation.size.is_some() && figure::has_inch(text);
            let is_other_kind = || {
                let has_size = is_bare_size(&designation) && designation.traits.material.is_none();
                has_size
                    && other_part::is_of_other_kind(&words, end, designation.family)
                    && !other_part::names_seal_of_bearing(&self.text)
            };
            let is_whole = is_clean && is_named && is_family && !is_inch && !is_other_kind();
            if is_whole && crate::standard::resolve(&designation).is_some() {
                let is_taken = self.take_designation(&head);
                if is_taken || marks.is_empty() {
                    return second_number::take_by_standard(self, &words[end..].join(" "));
                }
            }
        }
        text.to_owned()
    }

    /// `-318`, `318 o-ring`, `o-ring dash 214 FKM steam`: an AS568 dash number, and what is said beside it.
    fn take_dash_number(&mut self, text: &str) -> bool {
        let words: Vec<&str> = text.split_whitespace().collect();
        let Some(at) = dash_number::place(&words) else {
            return false;
        };
        let word = words[at].trim_end_matches([',', ';']);
        let digits = word.trim_start_matches('-');
        // `-12 o-ring`: with its dash, noughts in front may be left out.
        let is_marked = word != digits;
        let is_whole = digits.len() == 3 || is_marked && (1..=2).contains(&digits.len());
        let is_dash = is_whole && digits.bytes().all(|b| b.is_ascii_digit());
        let may_be_ring = || {
            self.family.is_none()
                && kind::families_in(text)
                    .into_iter()
                    .any(named_by_kind::has_section)
                || text.trim() == word
        };
        let is_ring = self.family.is_some_and(named_by_kind::has_section)
            || is_marked && digits.len() == 3 && may_be_ring();
        let number = format!("AS568-{digits:0>3}");
        let is_taken = is_dash && is_ring && self.take_designation(&number);
        if is_taken {
            self.notes
                .push(format!("`{word}` read as dash number: `{number}`"));
            let rest = dash_number::without(&words, at);
            words::read(self, &rest);
        }
        is_taken
    }

    /// A bearing number of four digits or more, or of a series with letters, behind other words: `30x72x19 6306 worn`,
    /// `fan NU 208`.
    fn take_inner_number(&mut self, text: String) -> String {
        if self.designation.is_some() {
            return text;
        }
        let words: Vec<&str> = text.split_whitespace().collect();
        let digits = |word: &str| word.chars().filter(char::is_ascii_digit).count();
        let is_of_size = self.family.is_some_and(|family| {
            family.class() != PartClass::Bearings && words.iter().any(|word| figure::is_size(word))
        });
        for at in 1..words.len() {
            // `oil seal 40x62x8 behind NU208`: the size is asked for, and the number is its place.
            let with_letters = letters::number_at(&words, at).filter(|_| !is_of_size);
            let is_number = digits(words[at]) >= 4
                && !words[at].contains(['.', ',', 'x'])
                && !figure::is_inch_fraction(words[at])
                && !amount::is_one(&words, at);
            // The longest run of words from there that is a number with its suffixes.
            let least = with_letters.unwrap_or(1);
            let taken = (at + least..=words.len())
                .rev()
                .filter(|_| is_number || with_letters.is_some())
                .find(|end| self.take_designation(&words[at..*end].join(" ")));
            if let Some(end) = taken {
                let rest = words[..at].iter().chain(&words[end..]).copied();
                return rest.collect::<Vec<_>>().join(" ");
            }
        }
        text
    }

    /// `62 06 2RS` is a number with blanks inside, not two lengths: a piece with a leading zero is no length.
    fn prefer_code_with_blanks(&mut self, text: &str) {
        // Two numbers that were told apart are no number with a blank.
        if self.designation.is_some() || !self.partial.is_empty() || self.readings.len() > 3 {
            return;
        }
        let has_code_piece = text.split_whitespace().any(|word| {
            word.len() >= 2 && word.starts_with('0') && word.bytes().all(|b| b.is_ascii_digit())
        });
        let is_pair = self.readings.len() == 2
            && self.family.is_none()
            && self.readings.iter().all(|reading| reading.role.is_none())
            && !text.contains(['.', ',', '/']);
        let is_letters_apart = self.readings.len() == 1
            && text
                .split_whitespace()
                .take(2)
                .all(|word| word.len() == 1 && word.chars().all(char::is_alphabetic));
        if !has_code_piece && !is_pair && !is_letters_apart {
            return;
        }
        let Some(closed) = tidy::closed_up(text) else {
            return;
        };
        let (readings, not_understood) = (self.readings.clone(), self.not_understood.clone());
        if self.take_designation(&closed) && self.designated_size().is_some() {
            self.readings.clear();
            self.not_understood.clear();
            self.notes
                .push(format!("blanks inside a number left out: `{closed}`"));
        } else {
            self.designation = None;
            self.readings = readings;
            self.not_understood = not_understood;
        }
    }
}

/// Marks of no standard that the number in front has on it, `2RS1` of `6206-2RS1 C3 for a motor`; none where it has no others.
fn own_marks(words: &[&str]) -> Vec<String> {
    let first = words.first().and_then(|word| Designation::parse(word));
    let number = first.filter(|read| {
        let mut marks = read.traits.unknown_suffixes.iter();
        let has_letter = |mark: &String| mark.chars().any(char::is_alphabetic);
        read.size.is_none() && marks.all(has_letter) && crate::standard::resolve(read).is_some()
    });
    number.map_or_else(Vec::new, |read| read.traits.unknown_suffixes)
}

/// Fewest small letters that are a word and no suffix.
const LEAST_SMALL_LETTERS: usize = 4;

/// True for a suffix that the text writes in small letters as a word: nobody marks a part so, and no order names it.
fn is_small_word(text: &str, suffix: &str) -> bool {
    let is_letters = suffix.chars().all(char::is_alphabetic);
    suffix.chars().count() >= LEAST_SMALL_LETTERS
        && is_letters
        && text
            .split(|c: char| !c.is_alphanumeric())
            .any(|word| word.chars().all(char::is_lowercase) && word.to_ascii_uppercase() == suffix)
}

/// True where nothing but the size makes the designation.
fn is_bare_size(designation: &Designation) -> bool {
    let is_pin = designation.family.is_some_and(seat_class::is_own);
    designation.size.is_some()
        && (figure::is_size(&designation.basic)
            || is_pin && figure::pin_size(&designation.basic).is_some())
}

#[cfg(test)]
mod tests;
