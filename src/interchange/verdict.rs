//! The verdict on one part standing in for another, with everything that speaks for and against it.

use std::fmt;

/// Whether a part may stand in for another, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Verdict {
    /// Goes in as it is.
    AsItIs,
    /// Goes in after the named checks, by a person who approves it for the line.
    AfterChecks,
    /// Goes in with named rework, such as a spacer.
    WithRework,
    /// Same size but must not be used.
    MustNot,
    /// Near, but not it.
    Near,
}

/// One thing the two parts differ in.
#[derive(Debug, Clone, PartialEq, Eq, Hash, serde::Serialize)]
pub struct Difference {
    /// What differs: `closure`, `width`, ...
    pub what: &'static str,
    /// What the substitute has.
    pub have: String,
    /// What is wanted.
    pub want: String,
    /// What it means at the machine, for a technician.
    pub effect: String,
    /// Standard, published rule, or `common practice, no source`.
    pub source: &'static str,
}

/// Verdict with its reasons.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Judgement {
    /// The verdict.
    pub verdict: Verdict,
    /// What agrees.
    pub agrees: Vec<String>,
    /// What differs.
    pub differs: Vec<Difference>,
    /// What is not known of one or both; never treated as equal.
    pub unknown: Vec<String>,
    /// What to check before fitting.
    pub checks: Vec<String>,
    /// Rework needed.
    pub rework: Vec<String>,
}

impl Judgement {
    /// A verdict without reasons yet.
    pub const fn empty(verdict: Verdict) -> Self {
        Self {
            verdict,
            agrees: Vec::new(),
            differs: Vec::new(),
            unknown: Vec::new(),
            checks: Vec::new(),
            rework: Vec::new(),
        }
    }

    /// The same with room for what it holds and no more: of a large shop a hundred thousand judgements are kept.
    #[must_use]
    pub(super) fn fitted(mut self) -> Self {
        self.differs.shrink_to_fit();
        for texts in [
            &mut self.agrees,
            &mut self.unknown,
            &mut self.checks,
            &mut self.rework,
        ] {
            texts.shrink_to_fit();
        }
        self
    }

    /// The reasons against, in one line: what differs and what is unknown.
    pub fn against(&self) -> String {
        let differs = self.differs.iter().map(|d| {
            format!(
                "{}: {} instead of {} ({})",
                d.what, d.have, d.want, d.effect
            )
        });
        let unknown = (!self.unknown.is_empty())
            .then(|| format!("not known of both: {}", self.unknown.join(", ")));
        differs.chain(unknown).collect::<Vec<_>>().join("; ")
    }

    /// What to do before fitting, in one line.
    pub fn before_fitting(&self) -> String {
        self.rework
            .iter()
            .chain(&self.checks)
            .cloned()
            .collect::<Vec<_>>()
            .join("; ")
    }
}

impl Verdict {
    /// Stable name for machine output.
    pub const fn code(self) -> &'static str {
        match self {
            Self::AsItIs => "as_it_is",
            Self::AfterChecks => "after_checks",
            Self::WithRework => "with_rework",
            Self::MustNot => "must_not",
            Self::Near => "near",
        }
    }
}

impl fmt::Display for Verdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::AsItIs => "goes in as it is",
            Self::AfterChecks => "goes in after checks",
            Self::WithRework => "goes in with rework",
            Self::MustNot => "same size, must not be used",
            Self::Near => "near, but not it",
        })
    }
}

impl serde::Serialize for Verdict {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.code())
    }
}
