//! Reads a question word by word: figures with what they are of, suffixes, instruments, and words that ask for more.

use super::Question;
use super::need_words;
use crate::lookup::reading::{Instrument, Reading, Role};
use crate::part::{Clearance, Closure, Family, RibForm, SealForm, ToleranceClass};
use crate::units::{LengthUnit, ReadLength, read_length, read_size};

/// Words that name a dimension.
const ROLES: [(&str, Role); 34] = [
    ("bore", Role::Inner),
    ("id", Role::Inner),
    ("i.d.", Role::Inner),
    ("inside", Role::Inner),
    ("inner", Role::Inner),
    ("bohrung", Role::Inner),
    ("od", Role::Outer),
    ("o.d.", Role::Outer),
    ("outside", Role::Outer),
    ("outer", Role::Outer),
    ("w", Role::Width),
    ("b", Role::Width),
    ("width", Role::Width),
    ("wide", Role::Width),
    ("thick", Role::Width),
    ("thickness", Role::Width),
    ("height", Role::Width),
    ("high", Role::Width),
    ("long", Role::Width),
    ("length", Role::Width),
    ("t", Role::Width),
    ("cs", Role::Section),
    ("section", Role::Section),
    ("cord", Role::Section),
    ("pitch", Role::Pitch),
    ("shaft", Role::Shaft),
    ("welle", Role::Shaft),
    ("housing", Role::Housing),
    ("lip", Role::FreeLip),
    ("room", Role::Room),
    ("space", Role::Room),
    ("gap", Role::Room),
    ("journal", Role::Shaft),
    ("dia", Role::Inner),
];
/// Words that say nothing to the search.
const FILLERS: [&str; 40] = [
    "x", "×", "by", "on", "for", "with", "a", "an", "the", "and", "of", "to", "is", "at", "about",
    "approx", "ca", "need", "needs", "must", "free", "size", "bearing", "seal", "ring", "part",
    "mm", "i", "have", "it", "measures", "diameter", "nut", "rubber", "from", "old", "ball",
    "roller", "my", "type",
];
const INSTRUMENTS: [(&str, Instrument); 8] = [
    ("rule", Instrument::Rule),
    ("ruler", Instrument::Rule),
    ("tape", Instrument::Rule),
    ("calliper", Instrument::Calliper),
    ("caliper", Instrument::Calliper),
    ("vernier", Instrument::Calliper),
    ("micrometer", Instrument::Micrometer),
    ("mic", Instrument::Micrometer),
];

/// Elastomers by their ISO 1629 symbols.
const ELASTOMERS: [&str; 10] = [
    "NBR", "HNBR", "FKM", "FPM", "EPDM", "VMQ", "ACM", "CR", "PTFE", "FFKM",
];

/// True for a word of this reader, so that it is not taken for a suffix.
pub(super) fn is_known(lower: &str) -> bool {
    ROLES
        .iter()
        .any(|(word, _)| *word == lower && word.len() > 2)
        || INSTRUMENTS.iter().any(|(word, _)| *word == lower)
        || matches!(
            lower,
            "worn"
                | "used"
                | "new"
                | "measured"
                | "nominal"
                | "inch"
                | "inches"
                | "in"
                | "hrc"
                | "rpm"
                | "bar"
        )
}

/// Families by the short words of the bench that the import does not take for one.
pub(super) fn short_family(text: &str) -> Option<Family> {
    let lower = text.to_lowercase();
    let has = |word: &str| {
        lower
            .split(|c: char| !c.is_alphanumeric() && c != '-')
            .any(|w| w == word)
    };
    let is_ring = ["circlip", "snap-ring"].iter().any(|word| has(word))
        || lower.contains("retaining ring")
        || lower.contains("snap ring");
    if is_ring && (has("internal") || has("bore") || has("housing")) {
        Some(Family::BoreRetainingRing)
    } else if is_ring && (has("external") || has("shaft")) {
        Some(Family::ShaftRetainingRing)
    } else if has("dowel") || has("dowels") {
        Some(Family::DowelPin)
    } else if has("oring") || has("o-ring") {
        Some(Family::ORing)
    } else if has("lip") {
        Some(Family::LipSeal)
    } else if has("tapered") || has("taper") {
        Some(Family::TaperedRoller)
    } else if has("angular") {
        Some(Family::AngularContactBall)
    } else if has("spherical") {
        Some(Family::SphericalRoller)
    } else if has("cylindrical") {
        Some(Family::CylindricalRoller)
    } else if has("thrust") {
        Some(Family::ThrustBall)
    } else {
        None
    }
}

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
        if self.take_suffix(word) || self.take_glued(word) {
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
        } else if matches!(lower.as_str(), "worn" | "used") {
            self.take_worn(next);
        } else if matches!(lower.as_str(), "new" | "nominal" | "drawing" | "catalogue") {
            self.question.is_nominal = true;
        } else if lower == "measured" {
            self.figures.iter_mut().for_each(|figure| {
                figure.instrument = figure.instrument.or(Some(Instrument::Calliper));
            });
        } else if matches!(
            lower.as_str(),
            "inch" | "inches" | "in" | "\"" | "zoll" | "''"
        ) {
            self.unit = Some(LengthUnit::Inch);
        } else if matches!(lower.as_str(), "mm" | "millimetre" | "millimetres") {
            self.unit = Some(LengthUnit::Mm);
        } else if need_words::take_word(self.question, word) || FILLERS.contains(&lower.as_str()) {
        } else if !names_family(self.question, &lower) {
            self.question.not_understood.push(word.to_owned());
        }
        1
    }

    /// A role before its figure, or behind it where the figure has none yet and no figure follows at once.
    fn take_role(&mut self, role: Role, words: &[&str], at: usize) {
        // `lip free id` is one name: the first word of it counts.
        if self.pending == Some(Role::FreeLip) && role == Role::Inner {
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
        let written: Vec<String> = figures.iter().map(|figure| figure.text.clone()).collect();
        let stated = unit.or_else(|| written.iter().find_map(|text| unit_of(text)));
        let is_worn_all = question.is_worn && figures.iter().all(|figure| !figure.is_worn);
        let mut readings = Vec::new();
        for figure in figures {
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

/// True for a piece of text that holds figures only: `40`, `40x80x18`, `5/8"`, `.63`, `1-5/8`.
fn is_figure(word: &str) -> bool {
    let word = word.trim_end_matches([',', ';']);
    let body = word
        .trim_end_matches("mm")
        .trim_end_matches("in")
        .trim_end_matches(['"', '″', '”', '\'']);
    body.contains(|c: char| c.is_ascii_digit())
        && body
            .chars()
            .all(|c| c.is_ascii_digit() || ".,/xX×*Ø-⌀\"".contains(c))
}

/// True for a joined size, which is no suffix of a number.
pub(super) fn is_size(word: &str) -> bool {
    is_figure(word) && is_joined(word)
}

/// True where the text names inches.
pub(super) fn has_inch(text: &str) -> bool {
    text.split_whitespace().any(|word| {
        matches!(
            word.to_lowercase().as_str(),
            "inch" | "inches" | "in" | "zoll"
        )
    }) || text.contains(['"', '″', '”'])
}

fn is_joined(text: &str) -> bool {
    text.contains(['x', 'X', '×', '*'])
}

fn unit_of(text: &str) -> Option<LengthUnit> {
    if text.ends_with("mm") {
        Some(LengthUnit::Mm)
    } else if text.ends_with("in") || text.contains(['"', '″', '”']) || is_fraction(text) {
        Some(LengthUnit::Inch)
    } else {
        None
    }
}

/// A bare inch fraction makes the whole question inches: `3/4 x 1 5/8 x 7/16`, `1 2.5 5/8`.
fn is_fraction(text: &str) -> bool {
    read_length(text, LengthUnit::Mm).is_ok_and(|read| read.unit == LengthUnit::Inch)
}

fn lengths(text: &str, unit: LengthUnit) -> Option<Vec<ReadLength>> {
    let text = text.trim_matches(['x', 'X', '×', '*', '-', ',']);
    read_size(text, unit)
        .ok()
        .filter(|lengths| !lengths.is_empty())
}

/// True where the word belongs to the name of the family that was found, or to the name of a kind of part.
fn names_family(question: &Question, lower: &str) -> bool {
    const KINDS: [&str; 40] = [
        "deep",
        "groove",
        "angular",
        "contact",
        "self-aligning",
        "tapered",
        "taper",
        "cylindrical",
        "spherical",
        "needle",
        "drawn",
        "cup",
        "cage",
        "thrust",
        "oil",
        "rotary",
        "radial",
        "o-ring",
        "oring",
        "o-rings",
        "circlip",
        "retaining",
        "internal",
        "external",
        "lock",
        "locknut",
        "dowel",
        "pin",
        "parallel",
        "rollers",
        "balls",
        "bearings",
        "seals",
        "rings",
        "pins",
        "assembly",
        "combined",
        "aligning",
        "dgbb",
        "snap",
    ];
    KINDS.contains(&lower) || question.family.is_some() && crate::import::family_in(lower).is_some()
}

fn elastomer(word: &str) -> Option<&'static str> {
    let symbol = ELASTOMERS
        .into_iter()
        .find(|symbol| symbol.eq_ignore_ascii_case(word))?;
    Some(if symbol == "FPM" { "FKM" } else { symbol })
}
