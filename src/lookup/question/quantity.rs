//! Speeds and pressures as people write them, brought to one form before anything else is read: `4,000 rpm` and `12.000 U/min`
//! are four and twelve thousand, and pounds a square inch are no hardness.

use std::sync::LazyLock;

use super::any_of::AnyOf;

/// What a unit measures.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Unit {
    /// Turns a minute.
    Speed,
    /// A pressure, with the bar that one of it is.
    Pressure(f64),
}

/// Units by their word in lower case.
///
/// # Source
/// ISO 80000-4: 1 MPa = 10 bar = 1 N/mm²; 1 psi = 6.894 757 kPa (0.453 592 37 kg at 9.806 65 m/s² on 25.4 mm squared).
const UNITS: [(&str, Unit); 26] = [
    ("rpm", Unit::Speed),
    ("u/min", Unit::Speed),
    ("1/min", Unit::Speed),
    ("min-1", Unit::Speed),
    ("rev/min", Unit::Speed),
    ("umdr/min", Unit::Speed),
    ("tr/min", Unit::Speed),
    ("r/min", Unit::Speed),
    ("revs/min", Unit::Speed),
    ("upm", Unit::Speed),
    ("/min", Unit::Speed),
    ("min⁻¹", Unit::Speed),
    ("min^-1", Unit::Speed),
    ("min−1", Unit::Speed),
    ("min–1", Unit::Speed),
    ("min‑1", Unit::Speed),
    ("bar", Unit::Pressure(1.0)),
    ("psi", Unit::Pressure(0.068_947_57)),
    ("lbf/in²", Unit::Pressure(0.068_947_57)),
    ("lb/in²", Unit::Pressure(0.068_947_57)),
    ("mpa", Unit::Pressure(10.0)),
    ("n/mm²", Unit::Pressure(10.0)),
    ("n/mm2", Unit::Pressure(10.0)),
    ("kpa", Unit::Pressure(0.01)),
    ("mbar", Unit::Pressure(0.001)),
    ("atm", Unit::Pressure(1.013_25)),
];

/// Units of speed as the readers behind know them; every other one is written as the first of these.
const SPEEDS: [&str; 7] = [
    "rpm", "u/min", "1/min", "min-1", "rev/min", "umdr/min", "tr/min",
];

/// Fluids of two words of which the first is also an elastomer, and the one word they are read as.
const FLUIDS: [([&str; 2], &str); 9] = [
    (["silicone", "oil"], "silikonöl"),
    (["silicone", "grease"], "silikonfett"),
    (["silicone", "fluid"], "silikonöl"),
    (["silicon", "oil"], "silikonöl"),
    (["silicon", "grease"], "silikonfett"),
    (["silikon", "öl"], "silikonöl"),
    (["silikon", "oel"], "silikonöl"),
    (["silikon", "fett"], "silikonfett"),
    (["silicone", "lubricant"], "silikonfett"),
];

/// Letters of which every unit and fluid above has some, in lower case.
const LETTERS: [&str; 10] = [
    "rpm", "upm", "min", "bar", "psi", "/in", "pa", "/mm", "atm", "sili",
];

/// A text with its speeds, pressures and fluids in the form that is read, and what was made of them; `None` where it stands as
/// it is read.
pub(super) fn tidy(text: &str) -> Option<(String, Vec<String>)> {
    // Most questions have neither: they are not taken apart into words.
    static ANY: LazyLock<AnyOf> = LazyLock::new(|| LETTERS.into_iter().collect());
    if !ANY.stands_in(text) {
        return None;
    }
    let words: Vec<&str> = text.split(' ').collect();
    let mut left: Vec<String> = Vec::with_capacity(words.len());
    let (mut notes, mut is_changed) = (Vec::new(), false);
    let mut at = 0;
    while let Some(word) = words.get(at) {
        if let Some(fluid) = fluid_at(&words, at) {
            left.push(fluid.to_owned());
            (at, is_changed) = (at + 2, true);
            continue;
        }
        let Some(quantity) = Quantity::at(&words, at) else {
            left.push((*word).to_owned());
            at += 1;
            continue;
        };
        let written = words[at..at + quantity.words].join(" ");
        let read = quantity.read();
        if read != written {
            notes.extend(quantity.note(&written, &read));
            is_changed = true;
        }
        left.push(read);
        at += quantity.words;
    }
    is_changed.then(|| (left.join(" "), notes))
}

/// True for a word in lower case for turns a minute.
pub(super) fn is_of_speed(unit: &str) -> bool {
    UNITS.contains(&(unit, Unit::Speed))
}

/// True where a text taken apart before one of its words would part a figure from its unit.
pub(super) fn is_apart(words: &[&str], at: usize) -> bool {
    let [.., figure] = words[..at] else {
        return false;
    };
    let is_figure = figure.bytes().all(|b| b.is_ascii_digit());
    let unit = words.get(at).map(|word| split_unit(word));
    is_figure && matches!(unit, Some(("", Some(_))))
}

fn fluid_at(words: &[&str], at: usize) -> Option<&'static str> {
    let is = |at: usize, word: &str| {
        let found = words
            .get(at)
            .map(|found| found.trim_end_matches([',', ';', '.']));
        found.is_some_and(|found| found.to_lowercase() == word)
    };
    let fluid = FLUIDS
        .iter()
        .find(|([one, other], _)| is(at, one) && is(at + 1, other));
    fluid.map(|(_, word)| *word)
}

/// A figure with a unit of speed or pressure.
#[derive(Debug, Clone, PartialEq)]
struct Quantity {
    figure: Figure,
    unit: Unit,
    /// The unit as written.
    printed: String,
    /// Words of the text that it takes.
    words: usize,
}

/// A figure as written.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Figure {
    /// With a point for its decimal sign, and without marks between thousands.
    plain: String,
    /// One mark, with three figures behind: between thousands, or a decimal sign.
    is_in_doubt: bool,
}

impl Quantity {
    fn at(words: &[&str], at: usize) -> Option<Self> {
        let (first, glued) = split_unit(words[at]);
        if let Some((unit, printed)) = glued {
            let figure = Figure::read(first)?;
            return Some(Self::new(figure, unit, printed, 1));
        }
        // `4 000 rpm`: groups of three behind a first one.
        for count in 1..=3 {
            let Some((group, glued)) = words.get(at + count).map(|word| split_unit(word)) else {
                break;
            };
            if count > 1 && !may_be_in_groups(words, at, count) {
                break;
            }
            let figures = words[at..at + count].concat();
            let (unit, printed, figures, taken) = match glued {
                Some((unit, printed)) if group.is_empty() => (unit, printed, figures, count + 1),
                Some((unit, printed)) if may_be_in_groups(words, at, count + 1) => {
                    (unit, printed, figures + group, count + 1)
                }
                _ => continue,
            };
            // A pressure of more than a thousand bar is not written so, but a size with a pressure behind it is.
            if taken > 2 && unit != Unit::Speed && !figures.ends_with("000") {
                return None;
            }
            return Some(Self::new(Figure::read(&figures)?, unit, printed, taken));
        }
        None
    }

    fn new(figure: Figure, unit: Unit, printed: &str, words: usize) -> Self {
        Self {
            figure,
            unit,
            printed: printed.to_owned(),
            words,
        }
    }

    /// The value in its unit: no speed is told to a thousandth of a turn, and of a pressure in doubt the higher one is safe.
    fn value(&self) -> f64 {
        self.figure.value(true)
    }

    /// As it is read below: turns a minute, or bar.
    fn read(&self) -> String {
        let value = self.value();
        match self.unit {
            Unit::Speed => {
                let is_known = SPEEDS.contains(&self.printed.to_lowercase().as_str());
                let unit = if is_known { &self.printed } else { SPEEDS[0] };
                format!("{value} {unit}")
            }
            // To a tenth of a percent: as good as any gauge.
            Unit::Pressure(bar) => {
                let bar = value * bar;
                let digits = (2 - bar.abs().max(1e-9).log10().floor() as i32).clamp(0, 6);
                let scale = 10_f64.powi(digits);
                format!("{} bar", (bar * scale).round() / scale)
            }
        }
    }

    fn note(&self, written: &str, read: &str) -> Option<String> {
        let is_bar = self.unit == Unit::Pressure(1.0);
        match self.unit {
            Unit::Pressure(_) if is_bar && !self.figure.is_in_doubt => None,
            Unit::Pressure(_) => Some(format!("`{written}` read as {read}")),
            // Another way to write the unit is no slip.
            Unit::Speed if written.starts_with(&self.value().to_string()) => None,
            Unit::Speed => Some(format!("`{written}` read as {} rev/min", self.value())),
        }
    }
}

impl Figure {
    /// The value; a mark with three figures behind parts thousands where that is said of its unit, else it is a decimal sign.
    pub(super) fn value(&self, parts_thousands: bool) -> f64 {
        let plain: f64 = self.plain.parse().unwrap_or(f64::NAN);
        if self.is_in_doubt && parts_thousands {
            plain * 1_000.0
        } else {
            plain
        }
    }

    /// Digits with marks among them; `None` where they are no figure.
    pub(super) fn read(text: &str) -> Option<Self> {
        let pieces: Vec<&str> = text.split(['.', ',', '\'', '’']).collect();
        let is_digits =
            |piece: &&str| !piece.is_empty() && piece.bytes().all(|b| b.is_ascii_digit());
        if !pieces.iter().all(is_digits) {
            return None;
        }
        let are_groups = pieces.len() > 1
            && pieces[0].len() <= 3
            && !pieces[0].starts_with('0')
            && pieces[1..].iter().all(|group| group.len() == 3);
        Some(match pieces[..] {
            [whole] => Self {
                plain: whole.to_owned(),
                is_in_doubt: false,
            },
            [whole, rest] if are_groups => Self {
                plain: format!("{whole}.{rest}"),
                is_in_doubt: true,
            },
            [whole, rest] => Self {
                plain: format!("{whole}.{rest}"),
                is_in_doubt: false,
            },
            _ if are_groups => Self {
                plain: pieces.concat(),
                is_in_doubt: false,
            },
            _ => return None,
        })
    }
}

/// The figure that a word begins with: `4,000n`, `1,200,000`.
pub(super) fn figure_of(word: &str) -> Option<Figure> {
    let end = word.find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ','));
    let figure = &word[..end.unwrap_or(word.len())];
    Figure::read(figure.trim_end_matches(['.', ',']))
}

/// Figures and a unit behind them without a blank; all of a word that is neither.
fn split_unit(word: &str) -> (&str, Option<(Unit, &str)>) {
    let word = word
        .trim_end_matches([';', ')'])
        .trim_end_matches([',', '.']);
    let is_figure = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '\'' | '’');
    let of = |printed: &str| {
        let lower = printed.to_lowercase();
        let known = UNITS.iter().find(|(unit, _)| *unit == lower);
        known.map(|(_, unit)| *unit)
    };
    if let Some(unit) = of(word) {
        return ("", Some((unit, word)));
    }
    let figures = word.len() - word.trim_start_matches(is_figure).len();
    let (figure, printed) = word.split_at(figures);
    match of(printed).filter(|_| figures > 0) {
        Some(unit) => (figure, Some((unit, printed))),
        None => (word, None),
    }
}

/// True where so many words from a place on may be the groups of one figure: `30 000`, `1 500` behind something that is no
/// figure of a size, since `25 47 7 500 rpm` is a size with a speed behind it.
pub(super) fn may_be_in_groups(words: &[&str], at: usize, count: usize) -> bool {
    let digits = |word: &str| {
        let digits = word.trim_start_matches(|c: char| c.is_ascii_digit());
        word.len() - digits.len()
    };
    let is_plain = |word: &str| !word.is_empty() && digits(word) == word.len();
    let groups = &words[at..at + count];
    let (Some(first), rest) = (groups.first(), &groups[1..]) else {
        return false;
    };
    let is_group =
        |word: &&str| digits(word) == 3 && (is_plain(word) || split_unit(word).1.is_some());
    let is_in_size = at > 0 && words[at - 1].len() <= 3 && is_plain(words[at - 1]);
    let ends_round = rest.last().is_some_and(|word| word.starts_with("000"));
    is_plain(first)
        && first.len() <= 3
        && !first.starts_with('0')
        && !rest.is_empty()
        && rest.iter().all(is_group)
        && (ends_round || !is_in_size)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn speeds_and_pressures_come_to_one_form() {
        // Arithmetic: 70 psi x 0.0689476 = 4.826 bar; 30 MPa = 300 bar; 0.5 MPa = 5 bar; 150 kPa = 1.5 bar.
        for (text, read) in [
            (
                "oil seal 80x100x10 NBR 4,000 rpm",
                "oil seal 80x100x10 NBR 4000 rpm",
            ),
            ("12.000 U/min", "12000 U/min"),
            ("12.000U/min", "12000 U/min"),
            ("80x100x10 4 000 rpm", "80x100x10 4000 rpm"),
            ("6206 2RS 30 000 rpm", "6206 2RS 30000 rpm"),
            ("25x40x7 NBR 1 500 1/min", "25x40x7 NBR 1500 1/min"),
            ("25 47 7 30 000 rpm", "25 47 7 30000 rpm"),
            ("6205 3000 r/min", "6205 3000 rpm"),
            ("6205 3.000 UpM", "6205 3000 rpm"),
            ("6205 3000UpM", "6205 3000 rpm"),
            ("6205 3000/min", "6205 3000 rpm"),
            ("6205 3000 min⁻¹", "6205 3000 rpm"),
            ("6205 3 000 min−1", "6205 3000 rpm"),
            ("1,200,000 rpm", "1200000 rpm"),
            ("NBR 1.000 bar", "NBR 1000 bar"),
            ("NBR 2 000 bar", "NBR 2000 bar"),
            ("NBR 70 psi", "NBR 4.83 bar"),
            ("NBR 70psi", "NBR 4.83 bar"),
            ("NBR 30 MPa", "NBR 300 bar"),
            ("NBR 0,5 MPa", "NBR 5 bar"),
            ("NBR 150 kPa", "NBR 1.5 bar"),
            ("NBR 3 N/mm²", "NBR 30 bar"),
            ("silicone oil", "silikonöl"),
            ("o-ring 20x2.5 Silikon Öl", "o-ring 20x2.5 silikonöl"),
        ] {
            assert_eq!(
                tidy(text).map(|(read, _)| read).as_deref(),
                Some(read),
                "{text}"
            );
        }
    }

    #[test]
    fn every_unit_and_fluid_has_letters_that_are_looked_for() {
        let units = UNITS.iter().map(|(unit, _)| *unit);
        let fluids = FLUIDS.iter().map(|([first, _], _)| *first);
        for word in units.chain(fluids) {
            assert!(LETTERS.iter().any(|of| word.contains(of)), "{word}");
        }
    }

    #[test]
    fn what_stands_already_as_it_is_read_stays() {
        for text in [
            "6205 3000 rpm",
            "6205 3000 min-1",
            "25 47 7 500 rpm",
            "25x47x7 0.5 bar",
            "nbr oil seal 25 x 40 250 bar",
            "40 250 bar",
            "o-ring 20x2.5 200 bar",
            "1.181 2.441 .63",
            "40 80 18",
            "rpm 12,000",
            "silicone 70",
            "oil seal 40x62x8 oil",
            "",
        ] {
            assert_eq!(tidy(text), None, "{text}");
        }
    }

    #[test]
    fn what_was_made_of_a_figure_is_told() {
        let notes = |text: &str| tidy(text).map(|(_, notes)| notes).unwrap_or_default();
        assert_eq!(notes("NBR 70 psi"), ["`70 psi` read as 4.83 bar"]);
        assert_eq!(notes("NBR 1.000 bar"), ["`1.000 bar` read as 1000 bar"]);
        assert!(notes("6205 3000 min⁻¹").is_empty() && notes("3000 UpM").is_empty());
        assert_eq!(notes("4.000 UpM"), ["`4.000 UpM` read as 4000 rev/min"]);
        assert_eq!(notes("4,000 rpm"), ["`4,000 rpm` read as 4000 rev/min"]);
    }
}
