//! Reads a question word by word: figures with what they are of, suffixes, instruments, and words that ask for more.

use std::borrow::Cow;

use super::Question;
use super::amount;
use super::binding::{self, is_role};
use super::centimetre;
use super::contrary;
use super::family_words::{self, names_part};
use super::figure::{goes_on, is_figure, is_joined, lengths, pin_size, unit_of};
use super::hardness;
use super::inch;
use super::named_by_kind::{self, has_section, has_thread};
use super::need_words;
use super::over_groove;
use super::place_words::{has_lips, may_be_lip_seal};
use super::retaining_ring;
use super::seat_class;
use super::second_number;
use super::settled::{settle, without_absurd};
use super::thou;
use super::vocabulary::{FREE, NOMINAL, THREADS, WORN, instrument_of, role_of, says_nothing};
use crate::limit;
use crate::lookup::reading::{Instrument, Reading, Role};
use crate::part::designation::{elastomer, seal_elastomer};
use crate::part::{Clearance, Closure, Family, PartClass, RibForm, SealForm, ToleranceClass};
use crate::standard;
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
    /// True where the next figure was measured.
    is_next_measured: bool,
    /// Instrument named before the figures it read.
    instrument: Option<Instrument>,
    /// How many figures stand before the last comma.
    before_comma: usize,
    unit: Option<LengthUnit>,
}

struct Figure {
    text: String,
    role: Option<Role>,
    instrument: Option<Instrument>,
    is_worn: bool,
    is_measured: bool,
    unit: Option<LengthUnit>,
}

/// Reads the words of the text into the question.
pub(super) fn read(question: &mut Question, text: &str) {
    let text = second_number::take(question, text);
    let text = need_words::take_phrases(question, &text);
    let spaced = with_blanks(&text);
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut reader = Reader {
        question,
        figures: Vec::new(),
        pending: None,
        is_next_worn: false,
        is_next_measured: false,
        instrument: None,
        before_comma: 0,
        unit: None,
    };
    let mut at = 0;
    while at < words.len() {
        let end = at + reader.take(&words, at);
        if words[at..end].iter().any(|word| word.ends_with(',')) {
            reader.before_comma = reader.figures.len();
        }
        at = end;
    }
    reader.finish();
    over_groove::drop_bore(question);
    need_words::settle_lip(question);
    need_words::drop_names_of_needs(question);
    family_words::drop_names_of_part(question);
}

/// The text with blanks for signs between words and in front of degrees; as it is where it has none of those.
fn with_blanks(text: &str) -> Cow<'_, str> {
    const GAUGE: &str = "ore gauge";
    let may_part = |b: u8| !b.is_ascii() || matches!(b, b';' | b'=' | b':');
    if !text.bytes().any(may_part) && !text.contains(GAUGE) {
        return Cow::Borrowed(text);
    }
    let spaced = text
        .replace(';', ", ")
        .replace(['=', ':', 'Ø', 'ø', '⌀'], " ")
        .replace("°C", " °C")
        .replace("° C", " °C")
        .replace("°F", " °F")
        .replace("° F", " °F")
        .replace(GAUGE, "ore-gauge");
    Cow::Owned(spaced)
}

impl Reader<'_> {
    /// Takes the word at a place, and those that belong to it; gives how many were taken.
    fn take(&mut self, words: &[&str], at: usize) -> usize {
        let word = words[at].trim_end_matches([',', ';']);
        if word.is_empty() {
            return 1;
        }
        let next = words.get(at + 1).copied().unwrap_or_default();
        let lower = word.to_lowercase();
        if is_figure(word) {
            return self.take_figure(words, at);
        }
        if let Some((diameter, fit, length)) = pin_size(word) {
            self.add_figure(diameter);
            self.add_figure(length);
            self.question.fit_classes.push(fit.to_owned());
            self.question.family = self.question.family.or(Some(Family::DowelPin));
            return 1;
        }
        // `6206 x 2` is two pieces.
        let is_count = next.len() == 1 && next.bytes().all(|b| b.is_ascii_digit());
        if lower == "x"
            && is_count
            && self.question.designation.is_some()
            && self.figures.is_empty()
        {
            return 2;
        }
        if self.take_fit(words, at) || self.take_suffix(word) || self.take_glued(word) {
        } else if let Some(role) =
            (self.ring_role(&lower)).or_else(|| named_by_kind::role(self.question, &lower))
        {
            self.take_role(role, words, at);
        } else if self.is_name_of_ring(&lower) {
            // `Sicherungsring außen`, `circlip extérieur` name the kind.
        } else if matches!(lower.as_str(), "lip" | "shaft") && is_seal(next) {
            // `lip seal`, `shaft seal` name the part.
        } else if THREADS.contains(&lower.as_str()) && self.question.family.is_some_and(has_thread)
        {
            self.take_role(Role::Inner, words, at);
        } else if role_of(&lower) == Some(Role::Inner)
            && binding::is_in_bore(words, at)
            && self.may_sit_in_bore()
        {
            self.take_role(Role::Housing, words, at);
        } else if let Some(role) = role_of(&lower) {
            let is_capital_d = word == "D";
            self.take_role(if is_capital_d { Role::Outer } else { role }, words, at);
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
        } else if let Some(instrument) = instrument_of(&lower) {
            self.take_instrument(instrument, words, at);
        } else if WORN.contains(&lower.as_str()) {
            self.take_worn(words, at);
        } else if NOMINAL.contains(&lower.as_str()) {
            self.question.is_nominal = true;
        } else if matches!(lower.as_str(), "measured" | "gemessen" | "mesuré") {
            self.take_measured(words, at);
        } else if inch::is_inch(words, at) {
            self.take_unit(LengthUnit::Inch);
        } else if matches!(lower.as_str(), "mm" | "millimetre" | "millimetres") {
            self.take_unit(LengthUnit::Mm);
        } else if centimetre::is_of_no_part(&lower) && self.drop_figure_before(words, at)
            || is_of_seal(&lower, next)
            || need_words::take_word(self.question, word)
            || says_nothing(&lower)
        {
        } else if !names_part(self.question, &lower) {
            self.question.not_understood.push(word.to_owned());
        }
        1
    }

    /// Takes a figure, and what belongs to it; gives how many words were taken.
    fn take_figure(&mut self, words: &[&str], at: usize) -> usize {
        let word = words[at].trim_end_matches([',', ';']);
        let next = words.get(at + 1).copied().unwrap_or_default();
        if need_words::take_quantity(self.question, word, next) {
            return 2;
        }
        // `1200 x 1600 x 200` is a size, whatever bearing has the number 1200.
        let is_size = matches!(next, "x" | "X" | "×")
            && (words.get(at + 2)).is_some_and(|other| is_figure(other) && other.len() >= 2);
        if is_number(word) && !is_size && !amount::is_one(words, at) {
            second_number::add(self.question, word);
            return 1;
        }
        // `and 1 x 6309`
        let is_count = word.len() <= 2 && matches!(next, "x" | "×");
        if is_count && words.get(at + 2).is_some_and(|number| is_number(number)) {
            return 2;
        }
        if self.take_hardness(words, at) {
            return 1;
        }
        let is_fraction = next.contains('/') && is_figure(next) && !next.contains(['x', 'X']);
        let is_whole = word.bytes().all(|b| b.is_ascii_digit());
        if is_whole && is_fraction {
            self.add_figure(&format!("{word} {}", next.trim_end_matches([',', ';'])));
            return 2;
        }
        // `3/4x1 5/8x7/16`: the whole inches and their fraction are one length.
        let mut text = word.to_owned();
        let mut end = at + 1;
        while let Some(next) = words.get(end).filter(|next| goes_on(&text, next)) {
            text = format!("{text} {}", next.trim_end_matches([',', ';']));
            end += 1;
        }
        self.add_figure(&text);
        end - at
    }

    /// `70 NBR`, `NBR 70` behind a size: the hardness of an elastomer, Shore A.
    fn take_hardness(&mut self, words: &[&str], at: usize) -> bool {
        let word = words[at].trim_end_matches([',', ';']);
        let beside = |at: Option<usize>| {
            let word = at.and_then(|at| words.get(at)).copied();
            word.is_some_and(|word| seal_elastomer(word.trim_end_matches([',', ';'])).is_some())
        };
        let is_shore = word.len() == 2
            && word
                .parse::<u8>()
                .is_ok_and(|shore| (30..=95).contains(&shore) && shore % 5 == 0);
        let has_size = self.question.designation.is_some()
            || self.figures.len() >= 2
            || self.figures.iter().any(|figure| is_joined(&figure.text));
        // `25x3 NBR 90`: the elastomer was read with the size.
        let designation = self.question.designation.as_ref();
        let is_behind_number =
            at == 0 && designation.is_some_and(|read| read.traits.material.is_some());
        let is_joined_on = words
            .get(at + 1)
            .is_some_and(|next| matches!(*next, "x" | "X" | "×"));
        let is_it = is_shore
            && has_size
            && !is_joined_on
            && (beside(Some(at + 1)) || beside(at.checked_sub(1)) || is_behind_number);
        if is_it {
            hardness::set(self.question, word);
        }
        is_it
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

    /// `30 µm`: a figure that is no length of a part is told with its unit; false where no figure stands before that.
    fn drop_figure_before(&mut self, words: &[&str], unit: usize) -> bool {
        let Some(before) = unit.checked_sub(1).map(|at| words[at]) else {
            return false;
        };
        let is_it = |last: &mut Figure| last.text == before;
        let Some(figure) = self.figures.pop_if(is_it) else {
            return false;
        };
        let unit = words[unit].trim_end_matches([',', ';']);
        let said = format!("{} {unit}", figure.text);
        self.question.notes.extend(thou::of_feet(&said, unit));
        self.question.not_understood.push(said);
        true
    }

    /// `free` of a retaining ring: its diameter before it is mounted; `groove`: that of its groove.
    fn ring_role(&self, lower: &str) -> Option<Role> {
        let role = if FREE.contains(&lower) {
            Role::FreeRing
        } else if retaining_ring::is_groove(lower) {
            Role::RingGroove
        } else {
            return None;
        };
        retaining_ring::is_asked_for(self.question).then_some(role)
    }

    /// False for pins and nuts: the bore that a pin sits in has its own diameter, and nothing else of it is measured there. Of
    /// an O-ring a bore alone may be its inside.
    fn may_sit_in_bore(&self) -> bool {
        let has_size = self.question.designation.is_some()
            || self.figures.len() >= 2
            || self.figures.iter().any(|figure| is_joined(&figure.text));
        let may = |family: &Family| match has_section(*family) {
            true => has_size,
            false => Role::Housing.place(*family).is_some(),
        };
        match &self.question.family {
            Some(family) => may(family),
            None => {
                let families = &self.question.families;
                families.is_empty() || families.iter().any(may)
            }
        }
    }

    /// `außen`, `intérieur` of a retaining ring: which kind of ring it is.
    fn is_name_of_ring(&self, lower: &str) -> bool {
        const NAMES: [&str; 7] = [
            "außen",
            "aussen",
            "extérieur",
            "exterieur",
            "innen",
            "intérieur",
            "interieur",
        ];
        let question = &self.question;
        question.designation.is_none()
            && question.family.is_some_and(retaining_ring::is_ring)
            && self.pending != Some(Role::FreeRing)
            && NAMES.contains(&lower)
    }

    /// The class of a seat or pin: `shaft 25 k6`, `40 h6 80 H7 18`, `pin 6 x 20 m6`, `on k6 shaft`.
    fn take_fit(&mut self, words: &[&str], at: usize) -> bool {
        let word = words[at].trim_end_matches([',', ';']);
        if limit::fit(word, 25.0).is_none() {
            return false;
        }
        let seat = seat_class::seat_of(word);
        let is_beside = seat_class::is_beside_seat(words, at);
        // `P6` is a class of bearings (ISO 492) and one of seats (ISO 286): the seat's only where that stands before it.
        let is_behind = (self.figures.last()).is_some_and(|last| last.role == Some(seat));
        if ToleranceClass::from_code(word).is_some() && !is_behind && !is_beside {
            return false;
        }
        if self.figures.is_empty() && !is_beside {
            return false;
        }
        // Where no figure says otherwise, the seat has the diameter of the bearing on it.
        let has_own = self.figures.iter().any(|figure| figure.role == Some(seat));
        if is_beside && !has_own && !seat_class::has_figure(self.question, words, at) {
            // The word for the seat is the class's, and of no figure behind.
            self.pending = None;
            if let Some(nominal) = seat_class::nominal(self.question, seat) {
                self.pending = Some(seat);
                self.add_figure(&nominal);
            } else if self.figures.is_empty() && !self.question.family.is_some_and(has_lips) {
                return false;
            }
        }
        let is_bearing = self.question.family.is_none_or(Family::is_radial_bearing);
        // `40 80 18 k6`: three figures have their names by their order, and a seat is none of them.
        let are_unnamed = self.figures.iter().all(|figure| figure.role.is_none());
        let is_size = self.figures.len() == 3 && are_unnamed;
        if let Some(last) = self
            .figures
            .last_mut()
            .filter(|last| is_bearing && !is_size && !is_joined(&last.text))
        {
            if seat_class::is_of_ring(self.question, (last.role, &last.text), seat) {
                last.role = Some(seat);
                self.question.notes.push(seat_class::of_ring(word, seat));
            } else if !is_beside && seat_class::is_of_other_ring(last.role, seat) {
                self.question.not_understood.push(word.to_owned());
                return true;
            }
            last.role = last.role.or(Some(seat));
        }
        self.question.fit_classes.push(word.to_owned());
        true
    }

    /// A role before its figure, or behind it where the figure has none yet and no figure follows at once.
    fn take_role(&mut self, role: Role, words: &[&str], at: usize) {
        // `lip free id` is one name: the first word of it counts.
        let is_one_name = match self.pending {
            Some(Role::FreeLip) => role == Role::Inner,
            Some(Role::FreeRing | Role::RingGroove) => matches!(role, Role::Inner | Role::Outer),
            _ => false,
        };
        if is_one_name || binding::is_second_name(words, at) {
            return;
        }
        // `45.003 84.94 18.95 shaft seat worn`: three figures have their names by their order, and a seat is none of them.
        let is_seat = matches!(role, Role::Shaft | Role::Housing);
        let is_last = !(at + 1..words.len()).any(|behind| binding::is_length(words, behind));
        let are_unnamed = self.figures.iter().all(|figure| figure.role.is_none());
        // `40 80 18 shaft k6` names the seat of the class.
        let is_of_class = is_seat && seat_class::is_named_alone(self.question, words, at, role);
        if is_seat && (is_last || is_of_class) && are_unnamed && self.figures.len() >= 3 {
            // `40 80 18 shaft 3000 rpm` tells how fast it turns.
            if !is_of_class && !words.get(at + 1).is_some_and(|next| is_figure(next)) {
                self.question.not_understood.push(words[at].to_owned());
            }
            return;
        }
        // `25 52 15 bore worn` is no bore of 15 mm.
        if is_last
            && are_unnamed
            && self.figures.len() == 3
            && binding::is_none_of_last(role, words, at)
        {
            let next = words
                .get(at + 1)
                .map(|word| word.trim_end_matches([',', ';']));
            if !next.is_some_and(|next| WORN.contains(&next.to_lowercase().as_str())) {
                self.question.not_understood.push(words[at].to_owned());
            }
            return;
        }
        let has_next = !is_last;
        let follows_at_once = binding::follows_at_once(words, at);
        let is_behind = at > 0 && (is_figure(words[at - 1]) || is_unit(words, at - 1));
        // `free id 23.2`, `pitch 1.5`, `cs 3.5`: these stand before their figure where one is near.
        let is_near = words[at + 1..].iter().take(2).any(|word| is_figure(word));
        let stands_before = match role {
            Role::FreeRing => is_near,
            Role::Pitch | Role::Section | Role::RingGroove => follows_at_once,
            _ => false,
        };
        let last_is_open = self
            .figures
            .last()
            .is_some_and(|figure| figure.role.is_none() && !is_joined(&figure.text));
        let named_before = self.figures.iter().any(|figure| figure.role.is_some());
        let by_order = role != Role::Room
            && !stands_before
            && !(follows_at_once && self.figures.len() > 1 && !named_before);
        // Where the word could be of either figure, the sizes decide if they can.
        let by_size = (is_behind && last_is_open && follows_at_once)
            .then(|| {
                let is_seat = matches!(role, Role::Shaft | Role::Housing | Role::Inner);
                // A retaining ring is thinner than its seat is wide.
                if is_seat && retaining_ring::is_asked_for(self.question) {
                    binding::is_larger_before(words, at)
                } else {
                    binding::is_of_figure_before(role, words, at)
                }
            })
            .flatten();
        if is_behind && last_is_open && by_size.unwrap_or(by_order) {
            if let Some(last) = self.figures.last_mut() {
                last.role = Some(role);
            }
        } else if has_next {
            self.pending = Some(role);
        }
    }

    /// An instrument read the figures behind it where it stands first or behind a comma, else those before it.
    fn take_instrument(&mut self, instrument: Instrument, words: &[&str], at: usize) {
        let has_next = words[at + 1..].iter().any(|word| is_figure(word));
        let ends = !has_next || words[at].ends_with([',', ';']);
        let starts = self.figures.is_empty() || self.before_comma == self.figures.len();
        if !ends && (starts || self.instrument.is_some()) {
            self.instrument = Some(instrument);
        } else if self.instrument.is_some() {
            // `micrometer bore 45.02, od 84.9 calliper`: of what stands behind the last comma.
            let last = self.figures.len().saturating_sub(1);
            let start = if self.before_comma == 0 {
                last
            } else {
                self.before_comma
            };
            for figure in self.figures.iter_mut().skip(start.min(last)) {
                figure.instrument = Some(instrument);
            }
        } else {
            let open = self
                .figures
                .iter_mut()
                .filter(|figure| figure.instrument.is_none());
            open.for_each(|figure| figure.instrument = Some(instrument));
        }
    }

    /// `measured` is of the figures before it, but not of a nominal seat that the figure behind it measures:
    /// `shaft 25 k6 measured 25.01`.
    fn take_measured(&mut self, words: &[&str], at: usize) {
        let nominal = self.figures.last().filter(|last| {
            last.instrument.is_none()
                && last.role.is_some_and(seat_class::is_seat)
                && seat_class::is_measured_behind(&last.text, words, at)
        });
        if let Some(seat) = nominal.and_then(|nominal| nominal.role) {
            self.figures.pop();
            self.pending = Some(seat);
            self.is_next_measured = true;
            return;
        }
        self.figures.iter_mut().for_each(|figure| {
            if !figure.is_measured {
                figure.instrument = figure.instrument.or(Some(Instrument::Calliper));
            }
        });
    }

    /// `worn` before a named dimension is of that one (`worn od 84.9`), behind a named figure of this (`od 84.9 worn`), else
    /// of all figures.
    fn take_worn(&mut self, words: &[&str], at: usize) {
        self.question.is_worn = true;
        let next = words.get(at + 1).copied().unwrap_or_default();
        let is_behind = at > 0
            && (is_figure(words[at - 1]) || is_role(words[at - 1]) || is_unit(words, at - 1));
        let is_some_worn = self.figures.iter().any(|figure| figure.is_worn);
        let is_of_last = words[at].ends_with([',', ';']) || !next.is_empty() || is_some_worn;
        let last = self.figures.last_mut();
        if let Some(last) = last.filter(|last| is_behind && is_of_last && last.role.is_some()) {
            last.is_worn = true;
            return;
        }
        let is_one_of_many = self.pending.is_some() || !self.figures.is_empty();
        self.is_next_worn = is_role(next) || is_one_of_many && is_figure(next);
    }

    fn add_figure(&mut self, text: &str) {
        self.figures.push(Figure {
            text: text.to_owned(),
            role: self.pending.take(),
            instrument: self.instrument,
            is_worn: std::mem::take(&mut self.is_next_worn),
            is_measured: std::mem::take(&mut self.is_next_measured),
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
        let is_thread = self.question.family.is_none_or(has_thread);
        if letters == "m" && is_thread && is_figure(figure) {
            self.question.family = self.question.family.or(Some(Family::LockNut));
            self.add_figure(figure);
            return true;
        }
        if !letters.is_empty() && is_figure(figure) {
            let role = match (letters, word.chars().next()) {
                ("d", Some('D')) => Some(Role::Outer),
                ("d", _) => Some(Role::Inner),
                _ => role_of(letters),
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
        // `seal 40x62x7 B`: three figures of a seal are those of a lip seal.
        let has_three = self.figures.len() >= 3
            || (self.figures.iter()).any(|figure| figure.text.split(['x', 'X', '×']).count() == 3);
        let is_lip_seal =
            may_be_lip_seal(self.question) && (has_three || self.question.family.is_some());
        let is_of_seal = (self.question.family).is_some_and(|of| of.class() == PartClass::Seals);
        let question = &mut *self.question;
        let closure = match word.to_ascii_lowercase().as_str() {
            "sealed" => Some(Closure::SealBothSides),
            "shielded" | "zz" => Some(Closure::ShieldBothSides),
            _ => Closure::from_code(word),
        };
        if let Some(closure) = closure {
            contrary::set(question, closure, word);
            return true;
        }
        let traits = &mut question.traits;
        if let Some(clearance) = Clearance::from_code(word) {
            let other = contrary::settle(&mut traits.clearance, clearance, Clearance::Normal);
            if let Some(other) = other {
                contrary::tell_mark(question, other.code(), word);
            }
        } else if let Some(class) = ToleranceClass::from_code(word) {
            let slot = &mut traits.tolerance_class;
            if let Some(other) = contrary::settle(slot, class, ToleranceClass::Normal) {
                contrary::tell_mark(question, other.code(), word);
            }
        } else if let Some(symbol) =
            elastomer(word).or_else(|| seal_elastomer(word).filter(|_| is_of_seal))
        {
            contrary::set_elastomer(question, symbol, word);
        } else if is_lip_seal
            && word.chars().all(|c| c.is_ascii_uppercase())
            && SealForm::from_code(word).is_some()
        {
            traits.seal_form = SealForm::from_code(word);
            question.family = Some(Family::LipSeal);
        } else if word.chars().all(|c| c.is_ascii_uppercase())
            && may_have_ribs(question.family)
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
            let is_by_fraction = unit.is_none() && figure.unit.is_none();
            let main = lengths(stated.unwrap_or(LengthUnit::Mm))
                .map(|read| without_absurd(read, is_by_fraction, || lengths(LengthUnit::Mm)));
            let Some(main) = main else {
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
                    is_measured: figure.is_measured || figure.instrument.is_some(),
                    is_nominal_inch: false,
                });
            }
        }
        settle(question, readings);
    }
}

/// A unit of length as a word of its own.
fn is_unit(words: &[&str], at: usize) -> bool {
    words[at].eq_ignore_ascii_case("mm") || inch::is_inch(words, at)
}

/// True for the word seal, or the lip of a shaft lip seal.
fn is_seal(next: &str) -> bool {
    let next = next.to_lowercase();
    next.starts_with("seal") || next == "lip"
}

/// The oil of an oil seal is no fluid that it sees.
fn is_of_seal(lower: &str, next: &str) -> bool {
    lower == "oil" && next.to_lowercase().starts_with("seal")
}

/// True for a part that letters of ribs may be said of: a seal or a pin has none.
fn may_have_ribs(family: Option<Family>) -> bool {
    family.is_none_or(|family| family.class() == PartClass::Bearings)
}

/// True for a bare number of a bearing, which is no length: `6206`.
fn is_number(word: &str) -> bool {
    word.len() >= 4 && word.bytes().all(|b| b.is_ascii_digit()) && standard::is_designation(word)
}
