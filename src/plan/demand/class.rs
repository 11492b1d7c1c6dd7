//! Class of a demand: a label, nothing is decided by it.

use std::fmt;

/// Mean interval from which demand is called intermittent, periods.
const INTERMITTENT_FROM: f64 = 1.32;

/// Squared coefficient of variation of sizes from which demand is called erratic.
const ERRATIC_FROM: f64 = 0.49;

/// Class by interval and spread of sizes.
///
/// # Source
/// Syntetos, Boylan & Croston, J. Oper. Res. Soc. 56:495-503 (2005): 1.32 periods and 0.49.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DemandClass {
    /// Often, in alike quantities.
    Smooth,
    /// Often, in quantities that vary.
    Erratic,
    /// Seldom, in alike quantities.
    Intermittent,
    /// Seldom, in quantities that vary.
    Lumpy,
}

/// Figures that a class comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClassFigures {
    /// Periods over periods with demand.
    pub interval_periods: f64,
    /// Squared coefficient of variation of the quantities of periods with demand, dividing by their number.
    pub squared_cv: f64,
}

impl ClassFigures {
    /// Figures of a series by period; `None` without demand.
    pub fn of(series: &[f64]) -> Option<Self> {
        let used = || series.iter().filter(|quantity| **quantity > 0.0);
        let count = used().count() as f64;
        if count < 1.0 {
            return None;
        }
        let mean = used().sum::<f64>() / count;
        let variance = used().map(|q| (q - mean).powi(2)).sum::<f64>() / count;
        Some(Self {
            interval_periods: series.len() as f64 / count,
            squared_cv: variance / (mean * mean),
        })
    }

    /// The class.
    pub fn class(&self) -> DemandClass {
        let is_erratic = self.squared_cv >= ERRATIC_FROM;
        match (self.interval_periods >= INTERMITTENT_FROM, is_erratic) {
            (false, false) => DemandClass::Smooth,
            (false, true) => DemandClass::Erratic,
            (true, false) => DemandClass::Intermittent,
            (true, true) => DemandClass::Lumpy,
        }
    }
}

impl fmt::Display for DemandClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Smooth => "smooth",
            Self::Erratic => "erratic",
            Self::Intermittent => "intermittent",
            Self::Lumpy => "lumpy",
        })
    }
}
