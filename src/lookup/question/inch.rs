//! Inches: the word `in` behind a figure that can be in inches, else where a part sits or what is around it; and sizes written
//! in fractions, which are nominal ones.

use super::Question;
use super::figure::is_figure;
use crate::lookup::reading::{Reading, Role};
use crate::units::{LengthUnit, ReadLength};

/// Largest figure that is taken for inches where the word may also be a preposition: whole figures, in (common practice, no
/// source: larger parts are written with their unit as `inch` or `"`).
const MOST_WHOLE_IN: f64 = 12.0;
/// The same of decimals, and of figures that a further one follows, in: a part of over a metre is none of the tables.
const MOST_IN: f64 = 39.0;
/// Smallest bore that a millimetre retaining ring sits in (DIN 472): `circlip 8 in bore` is a place and no unit.
const SMALLEST_RING_BORE_MM: f64 = 8.0;

/// Words for inches that mean nothing else.
const INCHES: [&str; 5] = ["inch", "inches", "zoll", "\"", "''"];
const CROSSES: [&str; 5] = ["x", "×", "by", "*", "mal"];
/// Words that may follow the unit of a figure.
const BEHIND_UNIT: [&str; 39] = [
    "bore",
    "id",
    "i.d.",
    "inside",
    "inner",
    "od",
    "o.d.",
    "outside",
    "outer",
    "wide",
    "width",
    "thick",
    "thickness",
    "long",
    "length",
    "high",
    "height",
    "depth",
    "dia",
    "diameter",
    "shaft",
    "journal",
    "section",
    "cs",
    "cord",
    "w",
    "worn",
    "used",
    "measured",
    "nominal",
    "new",
    "rule",
    "tape",
    "calliper",
    "caliper",
    "callipers",
    "vernier",
    "micrometer",
    "mic",
];
/// Names of parts that an inch size may stand before.
const PARTS: [&str; 16] = [
    "bearing",
    "o-ring",
    "oring",
    "seal",
    "lip",
    "oil",
    "dowel",
    "pin",
    "circlip",
    "snap",
    "retaining",
    "deep",
    "ball",
    "taper",
    "tapered",
    "thrust",
];
/// Behind the name of a part these make it a place: `2 in bearing housing`.
const PLACES: [&str; 9] = [
    "housing", "block", "carrier", "cap", "seat", "bath", "hole", "box", "bore",
];

/// True where the word at a place is inches.
pub(super) fn is_inch(words: &[&str], at: usize) -> bool {
    let word = bare(words, at);
    INCHES.contains(&word.as_str()) || word == "in" && is_unit(words, at)
}

fn bare(words: &[&str], at: usize) -> String {
    let word = words.get(at).copied().unwrap_or_default();
    word.trim_end_matches([',', ';', '.']).to_lowercase()
}

/// True where `in` is the unit of the figures before it, by them and by what follows.
fn is_unit(words: &[&str], at: usize) -> bool {
    let Some(before) = at.checked_sub(1).map(|before| words[before]) else {
        return false;
    };
    if !is_figure(before) || before.ends_with([',', ';']) {
        return false;
    }
    let ends = at + 1 == words.len() || words[at].ends_with([',', ';', '.']);
    if ends {
        return true;
    }
    let figures = Figures::before(words, at);
    let next = bare(words, at + 1);
    if CROSSES.contains(&next.as_str()) {
        return figures.largest <= MOST_IN;
    }
    let is_hole = matches!(next.as_str(), "bore" | "housing");
    if is_hole && words.iter().any(|word| is_ring(word)) {
        return figures.has_fraction || figures.largest < SMALLEST_RING_BORE_MM;
    }
    if is_hole && !figures.has_fraction && is_bore_of_figure(words, at) {
        return false;
    }
    let is_part = PARTS.contains(&next.as_str())
        && !PLACES.contains(&bare(words, at + 2).as_str())
        && (next != "oil" || bare(words, at + 2).starts_with("seal"));
    let follows = is_figure(words[at + 1]) || BEHIND_UNIT.contains(&next.as_str()) || is_part;
    let most = if figures.has_fraction || figures.has_decimals {
        MOST_IN
    } else {
        MOST_WHOLE_IN
    };
    follows && figures.largest <= most
}

/// `lip seal 10 in bore 22 wide 7`: the figure behind the bore is its own, where no other name or unit follows that.
fn is_bore_of_figure(words: &[&str], at: usize) -> bool {
    let has_figure = |at: usize| words.get(at).is_some_and(|word| is_figure(word));
    if words[at + 1].ends_with([',', ';']) || !has_figure(at + 2) {
        return false;
    }
    let behind = bare(words, at + 3);
    let is_inch = behind == "in" || INCHES.contains(&behind.as_str());
    let is_name = BEHIND_UNIT.contains(&behind.as_str()) && !has_figure(at + 4);
    let ends = words[at + 2].ends_with([',', ';']);
    ends || !is_inch && !is_name
}

/// True for a word that names a retaining ring.
fn is_ring(word: &str) -> bool {
    let lower = word.to_lowercase();
    ["circlip", "retaining", "snap", "sicherungsring"]
        .iter()
        .any(|name| lower.starts_with(name))
}

/// The figures right before a word.
#[derive(Debug, Default)]
struct Figures {
    largest: f64,
    has_fraction: bool,
    has_decimals: bool,
}

impl Figures {
    fn before(words: &[&str], at: usize) -> Self {
        let mut figures = Self::default();
        let run = words[..at]
            .iter()
            .rev()
            .take_while(|word| is_figure(word) || CROSSES.contains(&word.to_lowercase().as_str()));
        for piece in run.flat_map(|word| word.split(['x', 'X', '×', '*'])) {
            let piece = piece.trim_matches(|c: char| !c.is_ascii_digit() && c != '.');
            figures.has_fraction |= piece.contains('/');
            let value: Option<f64> = piece.replace(',', ".").parse().ok();
            if let Some(value) = value.filter(|value| *value > figures.largest) {
                figures.largest = value;
                figures.has_decimals = piece.contains(['.', ',']);
            }
        }
        figures
    }
}

/// Half of the last digit of a whole number of inches, nm.
const HALF_INCH_NM: i64 = 12_700_000;
/// A 64th of an inch, nm (definition).
const SIXTY_FOURTH_NM: i64 = 396_875;

/// Marks a size made of nothing but fractions and whole numbers of inches as the nominal one: parts lists name inch parts so,
/// and what was read off a rule is said to be (`rule`, `measured`, `worn`; common practice, no source).
pub(super) fn mark_nominal(question: &Question, readings: &mut [Reading]) {
    let is_fraction = |read: &ReadLength| read.half_digit_nm == 0;
    // `1.250` and `1.25` beside fractions are 1 1/4.
    let is_like_one = |read: &ReadLength| {
        read.half_digit_nm < HALF_INCH_NM && read.length.as_nm() % SIXTY_FOURTH_NM == 0
    };
    let is_nominal = |reading: &Reading| {
        let read = &reading.length;
        let is_of_part = !(reading.role).is_some_and(|role| role.is_free() || role == Role::Room);
        let is_measured = reading.is_worn || reading.is_measured || reading.instrument.is_some();
        read.unit == LengthUnit::Inch
            && (is_like_one(read) || read.half_digit_nm == HALF_INCH_NM)
            && is_of_part
            && !is_measured
    };
    // A figure alone, or beside a number, is more often read off the part.
    let is_size = readings.len() > 1
        && !says_measured(&question.text)
        && question.designation.is_none()
        && question.partial.is_empty()
        && !question.is_worn;
    if is_size
        && readings.iter().all(is_nominal)
        && readings.iter().any(|reading| is_fraction(&reading.length))
    {
        for reading in readings {
            reading.is_nominal_inch = true;
        }
    }
}

/// True where words say that figures were measured, which figures behind them do not carry.
fn says_measured(text: &str) -> bool {
    const MEASURED: [&str; 5] = ["measured", "measures", "gemessen", "mesuré", "mesure"];
    let lower = text.to_lowercase();
    let mut words = lower.split(|c: char| !c.is_alphanumeric());
    words.any(|word| MEASURED.contains(&word))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_in_fractions_alone_is_nominal() {
        for (text, is_nominal) in [
            ("3/4 x 1 5/8 x 7/16", true),
            ("oil seal 1 x 1 1/2 x 1/4", true),
            ("oil seal 1 x 1 1/2 x 1/4 inch", true),
            ("drawn cup 1/2 x 11/16 x 1/2", true),
            ("bore 1 3/8 od 2 1/2", true),
            ("3/4 shaft seal 1.250 od 1/4 wide", true),
            ("3/4 x 1.625 x 7/16", true),
            ("1.25 shaft seal 1 3/4 od 1/4 wide", true),
            ("seal 1.25 x 1 3/4 x 1/4", true),
            ("1.5 x 1 3/4 x 1/4 seal", true),
            ("3/4 x 1.63 x 7/16", false),
            ("3/4 x 1.627 x 7/16", false),
            ("3/8x1 1/2 dowel", true),
            ("drawn cup 1/2 x 11/16 x 1/2 rule", false),
            ("drawn cup 1/2 x 11/16 x 1/2 worn", false),
            ("drawn cup measured 1/2 x 11/16 x 1/2", false),
            ("3/8 dowel", false),
            ("3/4 x 41.275 x 7/16", false),
            ("1.000 x 1.500 x 0.250 inch", false),
            ("1 x 2 x 3 inch", false),
            ("40 x 80 x 18", false),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.is_nominal_inch(), is_nominal, "{text}");
        }
    }

    fn is_it(text: &str) -> bool {
        let words: Vec<&str> = text.split_whitespace().collect();
        let at = words.iter().position(|word| word.starts_with("in"));
        is_inch(&words, at.unwrap_or_else(|| panic!("{text}")))
    }

    #[test]
    fn in_is_a_unit_where_figures_and_words_leave_it_one() {
        for text in [
            "bore 2 in",
            "40x80x18 in",
            "2.5 in od .75 in wide",
            "1 3/8 in x 62 mm",
            "1 in x 2 in",
            "20 in x 30 in",
            "12 in bore",
            "1.5 in, deep groove",
            "1/2 in dowel 2",
            "1.5 in bore 2.5 od",
            "1.5 in bore 2.5 in od",
            "1 1/2 in bore 2 1/2 od",
            "1 in o-ring",
            "2 in oil seal",
            "circlip 1 in bore",
            "circlip 1/2 in housing",
            "40 inch bore",
            "2 in 4 in",
        ] {
            assert!(is_it(text), "{text}");
        }
    }

    #[test]
    fn in_is_a_place_elsewhere() {
        for text in [
            "40 x 62 x 7 seal in water",
            "o-ring 20 x 2 in oil",
            "30 x 62 x 16 in stock",
            "8 x 30 dowel in blind hole",
            "40x80x18 in gearbox",
            "circlip 40 in bore",
            "circlip 10 in bore",
            "Sicherungsring 40 in Bohrung",
            "6 in der Bohrung",
            "30 x 62 x 6 in bore",
            "30 62 16, in bore",
            "2 in bearing housing",
            "o-ring 10 x 2 in oil bath",
            "in 2 x 3",
            "44.96 in bore",
            "lip seal 10 in bore 22 wide 7",
            "6 x 19 x 6 in bore 19.01",
            "o-ring 10 in bore 14",
        ] {
            assert!(!is_it(text), "{text}");
        }
    }
}
