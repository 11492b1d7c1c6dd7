//! What rules find, and how findings add up to a verdict.

use super::super::needs::Need;
use super::super::verdict::{Difference, Judgement, Verdict};
use super::size::FROM_MEMORY;

/// How far a difference bars the exchange.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bar {
    /// Not at all: the part at hand is the better one.
    None,
    /// Until the named check is done.
    Check,
    /// Until the named rework is done.
    Rework,
    /// The size is another one: near, but not it.
    OtherSize,
    /// Always.
    Never,
}

/// Findings while the rules run.
#[derive(Debug, Default)]
pub struct Findings {
    agrees: Vec<String>,
    differs: Vec<(Bar, Difference)>,
    unknown: Vec<String>,
    checks: Vec<String>,
    rework: Vec<String>,
    /// Needs of the place that a rule looked at, a bit each.
    looked_at: u32,
    worst: Option<Bar>,
    is_other_size: bool,
}

impl Findings {
    /// Notes what agrees.
    pub fn agrees(&mut self, what: impl Into<String>) {
        self.agrees.push(what.into());
    }

    /// Notes a difference and how far it bars.
    pub fn differs(&mut self, bar: Bar, difference: Difference) {
        self.raise(bar);
        // What one part has instead of the other's may be found from both sides.
        match self.differs.iter_mut().find(|(_, of)| *of == difference) {
            Some((known, _)) => *known = bar.max(*known),
            None => self.differs.push((bar, difference)),
        }
    }

    /// Notes what is not known; it bars until it is known.
    pub fn unknown(&mut self, what: impl Into<String>) {
        self.raise(Bar::Check);
        self.unknown.push(what.into());
    }

    /// Notes a check that must be done before fitting.
    pub fn check(&mut self, what: impl Into<String>) {
        self.raise(Bar::Check);
        let what = what.into();
        if !self.checks.contains(&what) {
            self.checks.push(what);
        }
    }

    /// Notes rework that makes the part fit.
    pub fn rework(&mut self, what: impl Into<String>) {
        self.raise(Bar::Rework);
        self.rework.push(what.into());
    }

    /// Notes that a rule held the part against a need of the place, whatever came of it.
    pub fn looks_at(&mut self, need: Need) {
        self.looked_at |= 1 << need as u32;
    }

    /// True where a rule looked at a need of the place.
    pub fn has_looked_at(&self, need: Need) -> bool {
        self.looked_at >> need as u32 & 1 == 1
    }

    /// True where anything bars the part from going in as it is.
    pub fn bars(&self) -> bool {
        self.worst > Some(Bar::None)
    }

    /// True where a difference bars the exchange for good.
    pub fn is_barred(&self) -> bool {
        self.worst >= Some(Bar::OtherSize)
    }

    /// Adds up the verdict.
    ///
    /// What bars most stands first among the differences; a reader who stops there has the reason for the verdict.
    pub fn into_judgement(mut self) -> Judgement {
        if self.differs.len() > 1 {
            self.differs.sort_by_key(|(bar, _)| std::cmp::Reverse(*bar));
        }
        let verdict = match self.worst {
            None | Some(Bar::None) => Verdict::AsItIs,
            Some(Bar::Check) => Verdict::AfterChecks,
            Some(Bar::Rework) => Verdict::WithRework,
            // "Same size" must be true of what bears that verdict.
            Some(Bar::OtherSize | Bar::Never) if self.is_other_size => Verdict::Near,
            Some(Bar::OtherSize | Bar::Never) => Verdict::MustNot,
        };
        self.say_what_to_check();
        Judgement {
            verdict,
            agrees: self.agrees,
            differs: self.differs.into_iter().map(|(_, of)| of).collect(),
            unknown: self.unknown,
            checks: self.checks,
            rework: self.rework,
        }
    }

    /// A verdict after checks names one: where no rule did, what the first difference that bars until then means is to be
    /// looked at. That a size is from memory says nothing of a difference.
    fn say_what_to_check(&mut self) {
        let is_said = self.checks.iter().any(|check| check != FROM_MEMORY);
        if is_said || !self.unknown.is_empty() {
            return;
        }
        let mut barring = self.differs.iter().filter(|(bar, _)| *bar == Bar::Check);
        if let Some((_, difference)) = barring.next() {
            let effect = difference.effect.clone();
            self.checks.push(effect);
        }
    }

    fn raise(&mut self, bar: Bar) {
        self.worst = self.worst.max(Some(bar));
        self.is_other_size |= bar == Bar::OtherSize;
    }
}
