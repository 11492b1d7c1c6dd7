//! Figures of the place that are no lengths and no hardness: loads, lives, degrees with a sign or from one to another, a
//! contact angle, a chamfer. They are taken out before a number and a size are looked for.

use super::figure::is_figure;
use super::named_duty::Bare;
use super::{
    Question, contrary, letters, named_duty, need_words, place_words, quantity, speed,
    standard_name, tidy,
};
use crate::part::ContactAngle;
use crate::part::designation::elastomer;

/// Units of loads; a bare `N` is a mark of bearings too.
pub(super) const LOAD_UNITS: [&str; 9] = [
    "kn", "n", "kgf", "lbf", "dan", "lbs", "kp", "newton", "newtons",
];
/// Newtons from which a figure with N behind it is a load where no word says so: sizes that large have no N behind them.
const LEAST_BARE_N: f64 = 300.0;
pub(super) const LIFE_UNITS: [&str; 8] = [
    "h",
    "hr",
    "hrs",
    "hour",
    "hours",
    "std",
    "stunden",
    "betriebsstunden",
];
/// Units of which nobody writes thousandths: a mark with three figures behind it parts thousands, as in `20,000 h`.
const WHOLE_UNITS: [&[&str]; 2] = [
    &["n", "kgf", "lbf", "dan", "lbs", "kp", "newton", "newtons"],
    &LIFE_UNITS,
];
/// A bare `h` behind less than this may be a class of fit or a mark, hours.
const LEAST_LIFE_H: f64 = 100.0;
/// Units of what no part is measured in.
const OTHER_UNITS: [&str; 7] = ["kw", "hp", "ps", "nm", "hz", "kg", LIP_SPEED];
/// Unit of the speed of a shaft under a lip.
const LIP_SPEED: &str = "m/s";
pub(super) const HEAT_UNITS: [&str; 13] = [
    "c",
    "°c",
    "degc",
    "celsius",
    "f",
    "°f",
    "degf",
    "fahrenheit",
    "°",
    "deg",
    "degrees",
    "grad",
    "degrés",
];
/// Nothing of a machine is colder or hotter, degrees.
const DEGREES: std::ops::RangeInclusive<f64> = -273.0..=1_999.0;
const TO: [&str; 12] = [
    "to", "bis", "..", "...", "…", "à", "until", "-", "–", "and", "und", "/",
];
/// Words before a bare `C` that make it a heat.
const BEFORE_HEAT: [&str; 10] = [
    "temp",
    "temp.",
    "to",
    "max",
    "max.",
    "at",
    "bis",
    "temperature",
    "temperatur",
    "température",
];
/// Names of the speed of a shaft under a lip.
const SPEEDS_OF_LIP: [&str; 3] = [
    "geschwindigkeit",
    "umfangsgeschwindigkeit",
    "gleitgeschwindigkeit",
];
const KINDS_OF_LOAD: [&str; 7] = ["axial", "axiale", "thrust", "radial", "radiale", "fa", "fr"];
pub(super) const LOADS: [&str; 8] = [
    "load",
    "loads",
    "force",
    "last",
    "kraft",
    "belastung",
    "charge",
    "loading",
];
pub(super) const LIVES: [&str; 7] = [
    "life",
    "lebensdauer",
    "l10",
    "l10h",
    "lh10",
    "durée",
    "runs",
];
const ANGLES: [&str; 4] = ["angle", "druckwinkel", "berührungswinkel", "kontaktwinkel"];
const CHAMFERS: [&str; 5] = ["chamfer", "chamfers", "fase", "kantenabstand", "chanfrein"];
/// Words before a load that nobody calls one: `25x52x15 at 6000 N`.
const BEFORE_LOAD: [&str; 8] = ["at", "under", "max", "max.", "bei", "unter", "sous", "à"];
/// Words between two numbers, of which the second may have an `N` for its groove.
const BETWEEN_NUMBERS: [&str; 12] = [
    "or", "and", "oder", "und", "ou", "et", "of", "statt", "von", "x", "with", "/",
];
/// Words between a name and its figure.
const BETWEEN: [&str; 5] = ["of", "is", "=", "r", "von"];

/// What the figures of a place say.
#[derive(Debug, Default, PartialEq)]
pub(super) struct Duty {
    lowest_c: Option<f64>,
    highest_c: Option<f64>,
    speed_rpm: Option<f64>,
    /// Speed of the shaft under a lip, m/s.
    lip_m_s: Option<f64>,
    /// True where a temperature stood without its unit.
    is_unit_presumed: bool,
    angle_degrees: Option<u8>,
    /// Loads and lives as written.
    not_looked_at: Vec<String>,
    /// What no rule looks at.
    not_understood: Vec<String>,
}

/// A figure with its unit, and the word behind both.
struct Quantity {
    value: f64,
    is_signed: bool,
    /// Lower case; empty where there is none.
    unit: String,
    end: usize,
}

struct Words<'a> {
    written: Vec<&'a str>,
    lower: Vec<String>,
    /// True where the part stands before the text: no figure of it is the part's number.
    is_beside: bool,
}

/// Takes the figures of the place out of a text; gives what is left and them.
pub(super) fn split(text: &str) -> (String, Duty) {
    split_for(text, false)
}

/// The same of a text that stands beside a part that is known already.
pub(super) fn split_beside(text: &str) -> (String, Duty) {
    split_for(text, true)
}

fn split_for(text: &str, is_beside: bool) -> (String, Duty) {
    let written: Vec<&str> = text.split_whitespace().collect();
    let lower = written
        .iter()
        .map(|word| {
            word.trim_matches([',', ';', '(', ')', ':'])
                .replace(['−', '–'], "-")
                .to_lowercase()
        })
        .collect();
    let words = Words {
        written,
        lower,
        is_beside,
    };
    let mut duty = Duty::default();
    if !words.lower.iter().any(|word| may_tell(word)) {
        return (text.to_owned(), duty);
    }
    let mut left: Vec<&str> = Vec::with_capacity(words.written.len());
    let mut at = 0;
    while at < words.written.len() {
        // `ISO 3601 N` is a standard and a grade, and no load.
        let name_end = standard_name::end_of_name(&words.written, at);
        if let Some(end) = name_end.filter(|end| !words.word(*end).starts_with('°')) {
            left.extend(&words.written[at..end]);
            at = end;
            continue;
        }
        drop_turning(&words, at, &mut left);
        let end = (duty.take_heat(&words, at, &left))
            .or_else(|| {
                let (rpm, end) = speed::read(&words.lower, at)?;
                duty.speed_rpm = Some(rpm);
                Some(end)
            })
            .or_else(|| duty.take_load(&words, at, &mut left))
            .or_else(|| duty.take_named(&words, at, &mut left))
            .or_else(|| duty.take_bare(&words, at, &mut left));
        match end {
            Some(end) => at = end,
            None => {
                left.push(words.written[at]);
                at += 1;
            }
        }
    }
    (left.join(" "), duty)
}

/// `shaft speed 6000 rpm` tells how fast it turns; the figure before may be of the shaft: `35 shaft speed 3000`.
fn drop_turning(words: &Words<'_>, at: usize, left: &mut Vec<&str>) {
    const TURNING: [&str; 3] = ["shaft", "welle", "arbre"];
    const WHOLE: usize = 3;
    let is_shaft = |word: &&str| TURNING.contains(&word.to_lowercase().as_str());
    if !words.is(at, &speed::NAMES) || !left.last().is_some_and(is_shaft) {
        return;
    }
    let before = &left[..left.len() - 1];
    let figures = before.iter().filter(|word| is_figure(word)).count();
    let is_of_shaft = before.last().is_some_and(|word| {
        let is_joined = word.contains(['x', 'X', '×']) || word.matches('-').count() > 1;
        is_figure(word) && !is_joined && !tidy::is_whole_number(word)
    });
    if !is_of_shaft || figures >= WHOLE {
        left.pop();
    }
}

/// True for a word that may be, or end with, a unit or a name of what is read here.
fn may_tell(word: &str) -> bool {
    let unit = word.trim_start_matches(|c: char| c.is_ascii_digit() || "+-.,…/".contains(c));
    let is_unit = |units: &[&str]| units.contains(&unit);
    is_unit(&LOAD_UNITS)
        || is_unit(&LIFE_UNITS)
        || is_unit(&OTHER_UNITS)
        || is_unit(&HEAT_UNITS)
        || speed::NAMES.contains(&word)
        || named_duty::HEATS.contains(&word)
        || LIVES.contains(&word)
        || LOADS.contains(&word)
        || named_duty::PRESSURES.contains(&word)
        || ANGLES.contains(&word)
        || CHAMFERS.contains(&word)
}

impl Words<'_> {
    fn word(&self, at: usize) -> &str {
        self.lower.get(at).map_or("", String::as_str)
    }

    fn is(&self, at: usize, list: &[&str]) -> bool {
        list.contains(&self.word(at))
    }

    /// True where a size or a number stands beside a place: it is the part, and the figure there is not.
    fn has_part_beside(&self, place: std::ops::Range<usize>) -> bool {
        const LEAST_DIGITS: usize = 2;
        const LEAST_NUMBER: usize = 4;
        let digits = |word: &str| word.bytes().filter(u8::is_ascii_digit).count();
        let before = &self.lower[..place.start];
        let behind = self.lower.get(place.end..).unwrap_or_default();
        // Behind it stands another load as often: `6205 N load 50 kN`.
        let is_part = |word: &String| {
            matches!(word.as_str(), "x" | "×")
                || word.contains(['x', '×']) && is_figure(word)
                || digits(word) >= LEAST_NUMBER && is_number(word)
        };
        before.iter().any(|word| digits(word) >= LEAST_DIGITS) || behind.iter().any(is_part)
    }

    /// True for newtons: `6308 N` and `NU 208 N` have a groove for a snap ring, `6308 4,000 N`, `25x52x15 at 6000 N` and
    /// `load 6000 N` have a load.
    fn is_newtons(
        &self,
        (at, read): (usize, &Quantity),
        before: &str,
        (is_loaded, is_first): (bool, bool),
    ) -> bool {
        if LOADS.contains(&before) {
            return true;
        }
        let is_first = is_first && !self.is_beside;
        if !is_loaded && read.value < LEAST_BARE_N {
            return !is_first && self.is_right_behind_part(at);
        }
        if !is_loaded && is_first {
            return false;
        }
        let word = self.word(at);
        let of_number = || !before.is_empty() && is_number(&format!("{before}{word}"));
        if !is_loaded && of_number() {
            return false;
        }
        // A number of a bearing with its mark, unless words or what stands beside it say otherwise.
        let is_round = word.trim_end_matches('n').ends_with("00");
        let is_before_load = self.is(read.end, &LOADS);
        let is_last = || {
            let mut behind = self.lower[(read.end + 1).min(self.lower.len())..].iter();
            is_before_load && !behind.any(|word| is_figure(word))
        };
        let is_beside = || {
            let is_load = is_before_load || is_round;
            is_load && self.has_part_beside(at..read.end)
        };
        // `bearing 6000 N load`, but `6205 N load 50 kN`.
        let is_named = is_loaded && (is_beside() || is_round && is_last());
        let is_told = is_round || BEFORE_LOAD.contains(&before);
        let is_other = is_told && !BETWEEN_NUMBERS.contains(&before) && self.has_part_before(at);
        !is_number(word) || is_named || is_other
    }

    /// True where nothing but one whole size or number with its marks stands before a place: `6206 2RS 100 N`. In
    /// `25 52 15 N` and `6206 30 62 16 N` the figure is the width of a bearing with a groove.
    fn is_right_behind_part(&self, at: usize) -> bool {
        const FIGURES_OF_SIZE: usize = 3;
        const LEAST_DIGITS: usize = 4;
        let words: Vec<&str> = self.written[..at]
            .iter()
            .map(|word| word.trim_end_matches([',', ';']))
            .collect();
        if words.is_empty() {
            return self.is_beside;
        }
        let figures = |of: &[&str]| of.iter().filter(|word| is_figure(word)).count();
        let last = words.len() - 1;
        let is_joined = figures(&words[last..]) == 1
            && words[last].split(['x', 'X', '×']).count() == FIGURES_OF_SIZE;
        let crosses = words
            .iter()
            .filter(|word| matches!(**word, "x" | "X" | "×"));
        let is_crossed = crosses.count() == FIGURES_OF_SIZE - 1
            && figures(&words) == FIGURES_OF_SIZE
            && figures(&words[last..]) == 1;
        let is_number = |start: usize| {
            let of_letters = letters::number_at(&words[..], start);
            let marks = words.len().min(start + of_letters.unwrap_or(1));
            let is_long = of_letters.is_some()
                || words[start].bytes().filter(u8::is_ascii_digit).count() >= LEAST_DIGITS;
            is_long
                && figures(&words[..start]) + figures(&words[marks..]) == 0
                && tidy::is_whole_number(&words[start..].join(" "))
        };
        is_joined && figures(&words[..last]) == 0 || is_crossed || (0..words.len()).any(is_number)
    }

    /// True where a whole size or a number stands before a place: what is there is none.
    fn has_part_before(&self, at: usize) -> bool {
        const FIGURES_OF_SIZE: usize = 3;
        if self.is_beside {
            return true;
        }
        let before = &self.lower[..at];
        let is_size = |word: &String| word.contains(['x', '×']) && is_figure(word);
        let is_cross = |word: &String| matches!(word.as_str(), "x" | "×");
        let figures = before.iter().filter(|word| is_figure(word)).count();
        let has_number = (0..at).any(|at| {
            let word = &self.written[at];
            let word = word.trim_matches([',', ';', '(', ')']);
            let of_four = word.len() >= 4 && is_number(word);
            of_four && !self.lower[at].contains(['.', '×'])
                || letters::number_at(&self.written[..], at).is_some()
        });
        before.iter().any(is_size)
            || before.iter().filter(|word| is_cross(word)).count() > 1
            || figures >= FIGURES_OF_SIZE
            || has_number
    }

    /// The figure at a place with the unit written on it or behind it.
    fn quantity(&self, at: usize) -> Option<Quantity> {
        let (sign, first) = match self.word(at) {
            "minus" => (-1.0, at + 1),
            "plus" => (1.0, at + 1),
            _ => (1.0, at),
        };
        if let Some(whole) = self.in_groups(first) {
            return Some(whole);
        }
        let (quantity, end) = signed(self.word(first)).map(|read| (read, first + 1))?;
        let (value, has_sign, glued) = quantity;
        let is_signed = has_sign || first > at;
        let is_alone = glued.is_empty();
        let next = self.word(end);
        let is_unit = [&LOAD_UNITS[..], &LIFE_UNITS, &OTHER_UNITS, &HEAT_UNITS]
            .iter()
            .any(|units| units.contains(&next));
        let (unit, end) = match (is_alone, is_unit) {
            // `100 ° C`
            (true, true) if next == "°" && matches!(self.word(end + 1), "c" | "f") => {
                (format!("°{}", self.word(end + 1)), end + 2)
            }
            (true, true) => (next.to_owned(), end + 1),
            _ => (glued.to_owned(), end),
        };
        let value = match quantity::figure_of(self.word(first)) {
            Some(figure) if is_whole(&unit) && !has_sign => figure.value(true),
            _ => value,
        };
        Some(Quantity {
            value: sign * value,
            is_signed,
            unit,
            end,
        })
    }

    /// `20 000 h`, `4 000 N`: two groups of one figure.
    fn in_groups(&self, at: usize) -> Option<Quantity> {
        let unit = self.word(at + 2);
        let is_round = self.word(at + 1).ends_with("00");
        let is_it = is_whole(unit) && is_round && quantity::may_be_in_groups(&self.written, at, 2);
        let value = [self.word(at), self.word(at + 1)].concat().parse().ok();
        Some(Quantity {
            value: value.filter(|_| is_it)?,
            is_signed: false,
            unit: unit.to_owned(),
            end: at + 3,
        })
    }
}

fn is_whole(unit: &str) -> bool {
    WHOLE_UNITS.iter().any(|units| units.contains(&unit))
}

/// Value, whether a sign was written, and what follows the figure in the word: `-40°c`, `5kn`.
fn signed(word: &str) -> Option<(f64, bool, &str)> {
    let body = word.trim_start_matches(['+', '-']);
    let has_sign = body.len() < word.len();
    let end = body
        .find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ','))
        .unwrap_or(body.len());
    let (figure, rest) = body.split_at(end);
    let figure = figure.trim_end_matches(['.', ',']);
    let decimal = figure.replace(',', ".").parse().ok();
    let value: f64 = decimal.or_else(|| quantity::figure_of(figure).map(|of| of.value(true)))?;
    let is_negative = word.starts_with('-');
    Some((if is_negative { -value } else { value }, has_sign, rest))
}

/// Two figures in one word: `-40..100°c`, `-40/+100`, `-40…100`.
fn joined(word: &str) -> Option<(&str, &str)> {
    ["...", "..", "…", "÷", "/+", "/"]
        .iter()
        .find_map(|between| word.split_once(between))
        .filter(|(first, _)| first.starts_with(['-', '+']) && signed(first).is_some())
}

fn celsius(value: f64, unit: &str) -> f64 {
    if unit.contains('f') {
        need_words::from_fahrenheit(value)
    } else {
        value
    }
}

impl Duty {
    /// `-40 to 100 °C`, `-40..100 °C`, `-50 C`, `minus 40 °C`, `120 °C`, and `100 C` behind an elastomer.
    fn take_heat(&mut self, words: &Words<'_>, at: usize, left: &[&str]) -> Option<usize> {
        if let Some((first, second)) = joined(words.word(at)) {
            let (low, ..) = signed(first)?;
            let (high, _, glued) = signed(second)?;
            let next = words.word(at + 1);
            let (unit, end) = if glued.is_empty() {
                (next, at + 2)
            } else {
                (glued, at + 1)
            };
            return self.set_range(low, high, unit).then_some(end);
        }
        let first = words.quantity(at)?;
        let is_heat = |unit: &str| HEAT_UNITS.contains(&unit);
        if (first.unit.is_empty() || is_heat(&first.unit))
            && words.is(first.end, &TO)
            && let Some(second) = words.quantity(first.end + 1)
            && is_heat(&second.unit)
            && (first.is_signed
                || !left.is_empty()
                    && (!first.unit.is_empty()
                        || second.unit != "c"
                        || matches!(words.word(first.end), "to" | "bis" | "until")))
        {
            let is_set = self.set_range(first.value, second.value, &second.unit);
            return is_set.then_some(second.end);
        }
        let before = left
            .last()
            .map_or(String::new(), |word| word.to_lowercase());
        let before = before.trim_end_matches([',', ';']);
        let is_plain = matches!(
            first.unit.as_str(),
            "°c" | "degc" | "celsius" | "°f" | "degf" | "fahrenheit"
        );
        // A bare `C` behind a figure is a clearance or an angle as well: only a sign, an elastomer or a word before tells.
        let is_told = first.is_signed
            || is_plain
            || first.unit == "c" && (elastomer(before).is_some() || BEFORE_HEAT.contains(&before));
        let is_first = left.is_empty() && !first.is_signed && !is_plain;
        if !is_heat(&first.unit) || !is_told || is_first || !DEGREES.contains(&first.value) {
            return None;
        }
        let value_c = celsius(first.value, &first.unit);
        if value_c < 0.0 {
            self.lowest_c = Some(value_c);
        } else {
            self.highest_c = Some(value_c);
        }
        Some(first.end)
    }

    fn set_range(&mut self, one: f64, other: f64, unit: &str) -> bool {
        let is_range =
            HEAT_UNITS.contains(&unit) && [one, other].iter().all(|of| DEGREES.contains(of));
        if is_range {
            let (low, high) = (one.min(other), one.max(other));
            self.lowest_c = Some(celsius(low, unit));
            self.highest_c = Some(celsius(high, unit));
        }
        is_range
    }

    /// `load 5 kN`, `axial load 1 kN`, `2 kN radial`, `20000 h`, `5.5 kW`: the words for a load stay where they tell its way.
    fn take_load<'a>(
        &mut self,
        words: &Words<'a>,
        at: usize,
        left: &mut Vec<&'a str>,
    ) -> Option<usize> {
        let read = words.quantity(at).filter(|read| !read.is_signed)?;
        let unit = read.unit.as_str();
        let lower = |word: Option<&&str>| {
            word.map_or_else(String::new, |word| {
                word.trim_matches([',', ';', ':']).to_lowercase()
            })
        };
        while left.len() > 1 && matches!(*left.last()?, "=" | "of" | "von" | "de") {
            left.pop();
        }
        let before = lower(left.last());
        let is_loaded = LOADS.contains(&before.as_str())
            || KINDS_OF_LOAD.contains(&before.as_str())
            || words.is(read.end, &LOADS)
            || words.is(read.end, &KINDS_OF_LOAD);
        let is_first_life = || {
            let mut others = words.lower[read.end.min(words.lower.len())..].iter();
            unit != "h" || !is_number(words.word(at)) || others.any(|word| is_number(word))
        };
        let is_life = LIFE_UNITS.contains(&unit)
            && (LIVES.contains(&before.as_str())
                || read.value >= LEAST_LIFE_H && (!left.is_empty() || is_first_life()));
        let is_newtons = || words.is_newtons((at, &read), &before, (is_loaded, left.is_empty()));
        let is_load = LOAD_UNITS.contains(&unit) && (unit != "n" || is_newtons());
        if !is_load && !is_life && !OTHER_UNITS.contains(&unit) {
            return None;
        }
        if unit == LIP_SPEED {
            if speed::NAMES.contains(&before.as_str()) || SPEEDS_OF_LIP.contains(&before.as_str()) {
                left.pop();
            }
            self.lip_m_s = Some(read.value);
            return Some(read.end);
        }
        let said: Vec<&str> = words.written[at..read.end].to_vec();
        let said = said.join(" ");
        self.not_looked_at
            .push(said.trim_matches([',', ';', '(', ')']).to_owned());
        let mut end = read.end;
        if is_life && LIVES.contains(&before.as_str()) {
            left.pop();
        } else if is_life {
            // `20000 h life`
            end += usize::from(words.is(end, &LIVES));
        } else if is_load {
            end = keep_way(words, &before, end, left);
        }
        Some(end)
    }

    /// `temperature 120`, `life 20000`, `axial load 500`: what stands behind its name without a unit.
    fn take_bare<'a>(
        &mut self,
        words: &Words<'a>,
        at: usize,
        left: &mut Vec<&'a str>,
    ) -> Option<usize> {
        let (bare, end) = named_duty::read(&words.lower, at)?;
        if let Bare::Heat(lowest_c, highest_c) = bare {
            self.lowest_c = lowest_c.or(self.lowest_c);
            self.highest_c = highest_c.or(self.highest_c);
            self.is_unit_presumed = true;
            return Some(end);
        }
        let said = words.written[at..end].join(" ");
        let said = said.trim_matches([',', ';', '(', ')']).to_owned();
        if bare == Bare::Pressure {
            self.not_understood.push(said);
            return Some(end);
        }
        self.not_looked_at.push(said);
        // `axial load` tells a way.
        let is_kind = left
            .last()
            .is_some_and(|word| KINDS_OF_LOAD.contains(&word.to_lowercase().as_str()));
        if bare == Bare::Load && is_kind {
            left.push(words.written[at]);
        }
        Some(end)
    }

    /// `contact angle 40`, `40° contact angle`, `chamfer 1 mm`.
    fn take_named<'a>(
        &mut self,
        words: &Words<'a>,
        at: usize,
        left: &mut Vec<&'a str>,
    ) -> Option<usize> {
        let is_contact = words.word(at) == "contact" && words.word(at + 1) == "angle";
        let is_angle = is_contact || words.is(at, &ANGLES);
        if !is_angle && !words.is(at, &CHAMFERS) {
            return None;
        }
        let name_end = at + 1 + usize::from(is_contact);
        let mut end = name_end;
        while words.is(end, &BETWEEN) {
            end += 1;
        }
        let behind = measure(words.word(end), words.word(end + 1));
        let (value, end) = match behind {
            Some((value, count)) => (value, end + count),
            None => (take_before(left)?, name_end),
        };
        if !is_angle {
            self.not_understood
                .push(format!("{} {value}", words.word(at)));
        } else if value.fract() == 0.0 && (1.0..=90.0).contains(&value) {
            self.angle_degrees = Some(value as u8);
        } else {
            return None;
        }
        Some(end)
    }

    /// Writes what was said into the question.
    pub(super) fn apply(self, question: &mut Question) {
        let needs = &mut question.needs;
        needs.lowest_c = self.lowest_c.or(needs.lowest_c);
        needs.highest_c = self.highest_c.or(needs.highest_c);
        needs.speed_rpm = self.speed_rpm.or(needs.speed_rpm);
        needs.lip_m_s = self.lip_m_s.or(needs.lip_m_s);
        if self.highest_c.is_some() {
            question.notes.retain(|note| note != place_words::HOT);
        }
        need_words::drop_names_of_needs(question);
        if question.needs.highest_c.is_some() || question.needs.lowest_c.is_some() {
            let is_name = |word: &String| named_duty::HEATS.contains(&word.to_lowercase().as_str());
            question.not_understood.retain(|word| !is_name(word));
        }
        question.not_understood.extend(self.not_understood);
        if let Some(degrees) = self.angle_degrees {
            let known = question.traits.contact_angle;
            let is_of = match question.family {
                Some(family) => family.facts().marks.has_angles(),
                None => question.families.is_empty(),
            };
            match known.filter(|known| known.0 != degrees) {
                Some(known) if is_of => contrary::tell_angle(question, known, &degrees.to_string()),
                None if is_of => question.traits.contact_angle = Some(ContactAngle(degrees)),
                _ => (question.not_understood).push(format!("contact angle {degrees}")),
            }
        }
        if !self.not_looked_at.is_empty() {
            question.notes.push(format!(
                "a load, power or life is no size and is not looked at here: {}",
                self.not_looked_at.join(", ")
            ));
            question.not_looked_at.extend(self.not_looked_at);
        }
        if self.is_unit_presumed {
            let note = "a temperature without a unit is read as °C".to_owned();
            question.notes.push(note);
        }
    }
}

/// Leaves the words that tell the way of a load in the text, as `axial load`; gives the word behind the load.
fn keep_way<'a>(words: &Words<'a>, before: &str, end: usize, left: &mut Vec<&'a str>) -> usize {
    const ALONG: &str = "axial load";
    const ACROSS: &str = "radial load";
    let way = |word: &str| match word {
        "axial" | "axiale" | "thrust" | "fa" => Some(ALONG),
        "radial" | "radiale" | "fr" => Some(ACROSS),
        _ => None,
    };
    if let Some(way) = way(before) {
        left.pop();
        left.push(way);
        return end;
    }
    if LOADS.contains(&before) {
        // `load 5 kN` tells no way, `axial load 5 kN` does.
        let is_kind = left.len() > 1
            && left.get(left.len() - 2).is_some_and(|word| {
                let word = word.to_lowercase();
                KINDS_OF_LOAD.contains(&word.as_str()) || word == "combined"
            });
        if !is_kind {
            left.pop();
        }
        return end;
    }
    if let Some(way) = way(words.word(end)) {
        left.push(way);
        return end + 1 + usize::from(words.is(end + 1, &LOADS));
    }
    end + usize::from(words.is(end, &LOADS))
}

/// True for a bare number of a bearing.
fn is_number(word: &str) -> bool {
    word.len() >= 3 && crate::standard::is_designation(word)
}

/// A figure with or without its unit, and how many words both take: `40`, `40°`, `r1`, `1 mm`.
fn measure(word: &str, next: &str) -> Option<(f64, usize)> {
    const UNITS: [&str; 6] = ["°", "deg", "degrees", "grad", "mm", "degrés"];
    let figure = word.trim_start_matches('r').trim_end_matches("mm");
    let figure = figure.trim_end_matches('°');
    let is_one = is_figure(figure) && !figure.contains(['x', '/', '-']);
    let value: f64 = is_one
        .then(|| figure.replace(',', ".").parse().ok())
        .flatten()?;
    Some((value, 1 + usize::from(UNITS.contains(&next))))
}

/// The figure that the words end with, taken off: `40 deg` in front of `contact angle`.
fn take_before(left: &mut Vec<&str>) -> Option<f64> {
    let at = |back: usize| {
        let place = left.len().checked_sub(back)?;
        left.get(place).map(|word| word.to_lowercase())
    };
    let (last, before) = (at(1)?, at(2).unwrap_or_default());
    let with_unit = measure(&before, &last).filter(|(_, count)| *count == 2);
    let (value, count) = with_unit.or_else(|| measure(&last, ""))?;
    // The first word is the number of the part.
    if left.len() <= count {
        return None;
    }
    left.truncate(left.len() - count);
    Some(value)
}

#[cfg(test)]
mod tests;
