//! Reads a question word by word: figures with what they are of, suffixes, instruments, and words that ask for more.

use super::Question;
use super::figure::{is_figure, is_joined, lengths, unit_of};
use super::need_words;
use super::vocabulary::{
    FILLERS, FREE, INSTRUMENTS, NOMINAL, ROLES, WORN, elastomer, names_family,
};
use crate::limit;
use crate::lookup::reading::{Instrument, Reading, Role};
use crate::part::{Clearance, Closure, Family, RibForm, SealForm, ToleranceClass};
use crate::units::LengthUnit;

/// State while the words go by.
struct Reader<'a> {
    question: &'a mut Question,
    /// Figures so far, as written, with the role they got.
    figures: Vec<Figure>,
    /// Role named for the next figure.
    pending: Option<Role>,
    /// True where the next figure is of a worn place.
    is_next_worn: bool,
    unit: Option<LengthUnit>,
}

struct Figure {
    text: String,
    role: Option<Role>,
    instrument: Option<Instrument>,
    is_worn: bool,
    unit: Option<LengthUnit>,
}

/// Reads the words of the text into the question.
pub(super) fn read(question: &mut Question, text: &str) {
    let text = need_words::take_phrases(question, text);
    let spaced = text
        .replace(['=', ':', ';'], " ")
        .replace("°C", " °C")
        .replace("° C", " °C");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut reader = Reader {
        question,
        figures: Vec::new(),
        pending: None,
        is_next_worn: false,
        unit: None,
    };
    let mut at = 0;
    while at < words.len() {
        at += reader.take(&words, at);
    }
    reader.finish();
}

impl Reader<'_> {
    /// Takes the word at a place, and those that belong to it; gives how many were taken.
    fn take(&mut self, words: &[&str], at: usize) -> usize {
        let word = words[at].trim_end_matches([',', ';']);
        let next = words.get(at + 1).copied().unwrap_or_default();
        let lower = word.to_lowercase();
        if is_figure(word) {
            if need_words::take_quantity(self.question, word, next) {
                return 2;
            }
            let is_fraction = next.contains('/') && is_figure(next) && !next.contains(['x', 'X']);
            let is_whole = word.bytes().all(|b| b.is_ascii_digit());
            if is_whole && is_fraction {
                self.add_figure(&format!("{word} {next}"));
                return 2;
            }
            self.add_figure(word);
            return 1;
        }
        if self.take_fit(word) || self.take_suffix(word) || self.take_glued(word) {
        } else if self.is_free_ring(&lower) {
            self.take_role(Role::FreeRing, words, at);
        } else if let Some((_, role)) = ROLES.iter().find(|(known, _)| *known == lower) {
            let is_capital_d = word == "D";
            self.take_role(if is_capital_d { Role::Outer } else { *role }, words, at);
        } else if word == "d" || word == "D" {
            self.take_role(
                if word == "D" {
                    Role::Outer
                } else {
                    Role::Inner
                },
                words,
                at,
            );
        } else if let Some((_, instrument)) = INSTRUMENTS.iter().find(|(known, _)| *known == lower)
        {
            let open = self
                .figures
                .iter_mut()
                .filter(|figure| figure.instrument.is_none());
            open.for_each(|figure| figure.instrument = Some(*instrument));
        } else if WORN.contains(&lower.as_str()) {
            self.take_worn(next);
        } else if NOMINAL.contains(&lower.as_str()) {
            self.question.is_nominal = true;
        } else if matches!(lower.as_str(), "measured" | "gemessen" | "mesuré") {
            self.figures.iter_mut().for_each(|figure| {
                figure.instrument = figure.instrument.or(Some(Instrument::Calliper));
            });
        } else if matches!(
            lower.as_str(),
            "inch" | "inches" | "in" | "\"" | "zoll" | "''"
        ) {
            self.take_unit(LengthUnit::Inch);
        } else if matches!(lower.as_str(), "mm" | "millimetre" | "millimetres") {
            self.take_unit(LengthUnit::Mm);
        } else if need_words::take_word(self.question, word) || FILLERS.contains(&lower.as_str()) {
        } else if !names_family(self.question, &lower) {
            self.question.not_understood.push(word.to_owned());
        }
        1
    }

    /// A unit is of the figures before it that have none.
    fn take_unit(&mut self, unit: LengthUnit) {
        self.unit = Some(unit);
        let open = self
            .figures
            .iter_mut()
            .filter(|figure| figure.unit.is_none());
        open.for_each(|figure| figure.unit = Some(unit));
    }

    /// `free` of a retaining ring: its diameter before it is mounted.
    fn is_free_ring(&self, lower: &str) -> bool {
        let is_ring = matches!(
            self.question.family,
            Some(Family::ShaftRetainingRing | Family::BoreRetainingRing)
        );
        is_ring && FREE.contains(&lower)
    }

    /// The class of a seat, `shaft 25 k6`: only behind a shaft or housing.
    fn take_fit(&mut self, word: &str) -> bool {
        let is_seat = |figure: &Figure| matches!(figure.role, Some(Role::Shaft | Role::Housing));
        let is_fit = self.figures.iter().any(is_seat) && limit::fit(word, 25.0).is_some();
        if is_fit {
            self.question.fit_classes.push(word.to_owned());
        }
        is_fit
    }

    /// A role before its figure, or behind it where the figure has none yet and no figure follows at once.
    fn take_role(&mut self, role: Role, words: &[&str], at: usize) {
        // `lip free id` is one name: the first word of it counts.
        let is_one_name = match self.pending {
            Some(Role::FreeLip) => role == Role::Inner,
            Some(Role::FreeRing) => matches!(role, Role::Inner | Role::Outer),
            _ => false,
        };
        if is_one_name {
            return;
        }
        let has_next = words[at + 1..].iter().any(|word| is_figure(word));
        let follows_at_once = words.get(at + 1).is_some_and(|word| is_figure(word));
        let is_behind =
            at > 0 && (is_figure(words[at - 1]) || words[at - 1].eq_ignore_ascii_case("mm"));
        let last_is_open = self
            .figures
            .last()
            .is_some_and(|figure| figure.role.is_none() && !is_joined(&figure.text));
        let named_before = self.figures.iter().any(|figure| figure.role.is_some());
        if is_behind
            && last_is_open
            && role != Role::Room
            && !(follows_at_once && self.figures.len() > 1 && !named_before)
        {
            if let Some(last) = self.figures.last_mut() {
                last.role = Some(role);
            }
        } else if has_next {
            self.pending = Some(role);
        }
    }

    /// `worn` before a named dimension is of that one (`worn od 84.9`), else of all figures.
    fn take_worn(&mut self, next: &str) {
        self.question.is_worn = true;
        self.is_next_worn = ROLES.iter().any(|(known, _)| *known == next.to_lowercase());
    }

    fn add_figure(&mut self, text: &str) {
        self.figures.push(Figure {
            text: text.to_owned(),
            role: self.pending.take(),
            instrument: None,
            is_worn: std::mem::take(&mut self.is_next_worn),
            unit: None,
        });
    }

    /// `w16`, `od62`, `120C`, `M40x1.5`.
    fn take_glued(&mut self, word: &str) -> bool {
        let lower = word.to_lowercase();
        let start = lower
            .find(|c: char| c.is_ascii_digit() || c == '.')
            .unwrap_or(lower.len());
        let (letters, figure) = lower.split_at(start);
        if letters == "m" && is_figure(figure) {
            self.question.family = self.question.family.or(Some(Family::LockNut));
            self.add_figure(figure);
            return true;
        }
        if !letters.is_empty() && is_figure(figure) {
            let role = match (letters, word.chars().next()) {
                ("d", Some('D')) => Some(Role::Outer),
                ("d", _) => Some(Role::Inner),
                _ => ROLES
                    .iter()
                    .find(|(known, _)| *known == letters)
                    .map(|(_, role)| *role),
            };
            if let Some(role) = role {
                self.pending = Some(role);
                self.add_figure(figure);
                return true;
            }
        }
        let end = lower
            .find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ',' | '-'))
            .unwrap_or(lower.len());
        let (figure, unit) = lower.split_at(end);
        !figure.is_empty()
            && !unit.is_empty()
            && need_words::take_quantity(self.question, figure, unit)
    }

    /// A closure, clearance, class, rib form or elastomer written behind a size.
    fn take_suffix(&mut self, word: &str) -> bool {
        let question = &mut *self.question;
        let traits = &mut question.traits;
        if let Some(closure) = Closure::from_code(word) {
            traits.closure = Some(closure);
        } else if word.eq_ignore_ascii_case("sealed") {
            traits.closure = Some(Closure::SealBothSides);
        } else if word.eq_ignore_ascii_case("shielded") || word.eq_ignore_ascii_case("zz") {
            traits.closure = Some(Closure::ShieldBothSides);
        } else if let Some(clearance) = Clearance::from_code(word) {
            traits.clearance = Some(clearance);
        } else if let Some(class) = ToleranceClass::from_code(word) {
            traits.tolerance_class = Some(class);
        } else if let Some(symbol) = elastomer(word) {
            traits.material = Some(symbol.to_owned());
        } else if question.family == Some(Family::LipSeal)
            && word.chars().all(|c| c.is_ascii_uppercase())
            && SealForm::from_code(word).is_some()
        {
            traits.seal_form = SealForm::from_code(word);
        } else if word.chars().all(|c| c.is_ascii_uppercase())
            && let Some(rib) = RibForm::from_code(word)
        {
            traits.rib_form = Some(rib);
            question.family = question.family.or(Some(Family::CylindricalRoller));
        } else {
            return false;
        }
        true
    }

    /// Turns the figures into readings, in millimetres and, where no unit was written, in inches too.
    fn finish(self) {
        let Self {
            question,
            figures,
            unit,
            ..
        } = self;
        let of = |figure: &Figure| figure.unit.or_else(|| unit_of(&figure.text));
        let units: Vec<LengthUnit> = figures.iter().filter_map(of).collect();
        // One unit is meant for all; two leave open what a figure without one is in.
        let is_one = units.windows(2).all(|pair| pair[0] == pair[1]);
        let of_all = unit
            .filter(|_| is_one)
            .or(units.first().copied().filter(|_| is_one));
        let is_worn_all = question.is_worn && figures.iter().all(|figure| !figure.is_worn);
        let mut readings = Vec::new();
        for figure in figures {
            let stated = unit_of(&figure.text).or(figure.unit).or(of_all);
            let lengths = |unit| lengths(&figure.text, unit);
            let Some(main) = lengths(stated.unwrap_or(LengthUnit::Mm)) else {
                question.not_understood.push(figure.text.clone());
                continue;
            };
            let inches = if stated.is_none() && main.iter().all(|read| !read.is_unit_stated) {
                lengths(LengthUnit::Inch)
            } else {
                None
            };
            let mut role = figure.role;
            for (at, length) in main.into_iter().enumerate() {
                readings.push(Reading {
                    role: role.take(),
                    length,
                    as_inches: inches.as_ref().and_then(|inches| inches.get(at).copied()),
                    instrument: figure.instrument,
                    is_worn: figure.is_worn || is_worn_all,
                    is_measured: figure.instrument.is_some(),
                });
            }
        }
        if readings.len() <= 4 {
            question.readings = readings;
        }
    }
}
