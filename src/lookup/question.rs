//! Reads a question as people write it: `30 x 62 x 16 deep groove`, `6308 2RS C3`, `44.96 84.9 19 worn`.

use crate::import::family_in;
use crate::part::designation::Designation;
use crate::part::{Family, Traits};
use crate::units::{LengthUnit, ReadLength, read_length, read_size};

/// Words that say something about the measuring, not about the part.
const ASIDES: [&str; 8] = [
    "worn", "used", "measured", "about", "approx", "ca", "calliper", "caliper",
];

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
}

/// A question taken apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// As asked.
    pub text: String,
    /// Family, where words or the designation name it.
    pub family: Option<Family>,
    /// Designation, where the text is one.
    pub designation: Option<Designation>,
    /// Lengths in the order written, where the text is a size; millimetres where no unit was written.
    pub lengths: Vec<ReadLength>,
    /// The same lengths read as inches, where no unit was written.
    pub lengths_as_inches: Vec<ReadLength>,
    /// What was asked for besides size.
    pub traits: Traits,
    /// True where the text says the part is worn or used.
    pub is_worn: bool,
    /// Words left over: those that name the family, and those that were not understood.
    pub words: Vec<String>,
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
    /// assert_eq!(question.lengths.len(), 3);
    /// assert!(Question::read("the big one").is_err());
    /// # Ok::<(), sparewright::lookup::QuestionError>(())
    /// ```
    pub fn read(text: &str) -> Result<Self, QuestionError> {
        let text = text.trim();
        if text.is_empty() {
            return Err(QuestionError::Empty);
        }
        let mut question = Self {
            text: text.to_owned(),
            family: None,
            designation: None,
            lengths: Vec::new(),
            lengths_as_inches: Vec::new(),
            traits: Traits::default(),
            is_worn: false,
            words: Vec::new(),
        };
        if question.take_designation(text) {
            return Ok(question);
        }
        question.family = family_in(text);
        let rest = question.take_words(text);
        if question.take_lengths(&rest) || question.take_designation(&rest) {
            return Ok(question);
        }
        Err(QuestionError::Nothing {
            found: text.to_owned(),
        })
    }

    /// Keeps the whole text as a designation, if it is one whose size is known.
    fn take_designation(&mut self, text: &str) -> bool {
        let Some(designation) = Designation::parse(text) else {
            return false;
        };
        let is_known =
            designation.size.is_some() || crate::standard::resolve(&designation).is_some();
        if !is_known && designation.bore.is_none() {
            return false;
        }
        self.family = designation.family.or(self.family);
        self.traits = designation.traits.clone();
        self.designation = Some(designation);
        true
    }

    /// Takes suffixes, asides and the words of the family out of the text; what is left should be lengths.
    fn take_words(&mut self, text: &str) -> String {
        let mut rest = Vec::new();
        for word in text.split_whitespace() {
            let lower = word.to_lowercase();
            if ASIDES.contains(&lower.trim_end_matches('.')) {
                self.is_worn |= matches!(lower.as_str(), "worn" | "used");
            } else if self.take_suffix(word) {
            } else if word.contains(|c: char| c.is_ascii_digit())
                || matches!(lower.as_str(), "x" | "×" | "mm" | "in" | "inch")
            {
                rest.push(word);
            } else {
                self.words.push(word.to_owned());
            }
        }
        rest.join(" ")
    }

    /// A closure, clearance, class, rib form or elastomer written behind a size.
    fn take_suffix(&mut self, word: &str) -> bool {
        use crate::part::{Clearance, Closure, RibForm, SealForm, ToleranceClass};
        let traits = &mut self.traits;
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
        } else if let Some(material) = elastomer(word) {
            traits.material = Some(material.to_owned());
        } else if self.family == Some(Family::LipSeal) && SealForm::from_code(word).is_some() {
            traits.seal_form = SealForm::from_code(word);
        } else if let Some(rib) = RibForm::from_code(word) {
            traits.rib_form = Some(rib);
            self.family = self.family.or(Some(Family::CylindricalRoller));
        } else {
            return false;
        }
        true
    }

    fn take_lengths(&mut self, rest: &str) -> bool {
        let Some(lengths) = lengths(rest, LengthUnit::Mm) else {
            return false;
        };
        if lengths.iter().all(|read| !read.is_unit_stated) {
            self.lengths_as_inches = lengths_in_inches(rest);
        }
        self.lengths = lengths;
        true
    }
}

fn lengths_in_inches(rest: &str) -> Vec<ReadLength> {
    lengths(rest, LengthUnit::Inch).unwrap_or_default()
}

/// One size joined by `x`, or lengths set apart by blanks.
fn lengths(text: &str, unit: LengthUnit) -> Option<Vec<ReadLength>> {
    if text.is_empty() {
        return None;
    }
    if let Ok(lengths) = read_size(text, unit)
        && lengths.len() > 1
    {
        return Some(lengths);
    }
    let lengths: Vec<ReadLength> = text
        .split_whitespace()
        .map(|word| read_length(word, unit))
        .collect::<Result<_, _>>()
        .ok()?;
    (lengths.len() <= 4).then_some(lengths)
}

/// Elastomers by their ISO 1629 symbols.
fn elastomer(word: &str) -> Option<&'static str> {
    const SYMBOLS: [&str; 8] = ["NBR", "HNBR", "FKM", "EPDM", "VMQ", "ACM", "CR", "PTFE"];
    SYMBOLS
        .into_iter()
        .find(|symbol| symbol.eq_ignore_ascii_case(word))
}
