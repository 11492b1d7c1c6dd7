//! Why stock is not needed, with the years and the share by which that is judged.

use std::fmt;

use chrono::NaiveDate;

use crate::units::without_rounding_residue;

/// Years of usage that stock beyond the level may last.
///
/// Common practice, no source.
pub const KEPT_YEARS: f64 = 3.0;

/// Years without a usage after which stock is called dead.
///
/// Common practice, no source.
pub const UNUSED_YEARS: f64 = 3.0;

/// Share of cases in which the usage of the years kept is no more than what is left.
pub const KEPT_SHARE: f64 = 0.9;

/// Why stock is not needed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SurplusBasis {
    /// More than the level and the usage of the years kept.
    MoreThanUsed {
        /// Free now.
        free: f64,
        /// What the level comes up to.
        level: f64,
        /// Usage of the years kept, not exceeded in [`KEPT_SHARE`] of cases.
        used: f64,
    },
    /// No usage for years, although they were recorded.
    NotUsed {
        /// Last usage; `None` where there is none in the records.
        last: Option<NaiveDate>,
        /// Day since when usages are recorded.
        records_from: NaiveDate,
        /// The level that is kept nevertheless; 0 where there is none.
        level: f64,
        /// What one rebuild takes of it, kept as an insurance; 0 where no kit of a machine in service that counts asks for it.
        insured: f64,
    },
    /// Every machine that uses it has left service.
    NoMachine {
        /// Last day in service, where it is known.
        since: Option<NaiveDate>,
    },
    /// A lot that ends before it is likely to be used.
    Expiring {
        /// Last day it may be fitted.
        until: NaiveDate,
        /// Pieces of the lot.
        lot: f64,
        /// What planned rebuilds take of this lot and older ones until then.
        for_rebuilds: f64,
        /// Usage expected until then besides, of this lot and older ones.
        used: f64,
    },
    /// A lot past its shelf life.
    Expired {
        /// Last day it could be fitted.
        until: NaiveDate,
    },
}

impl fmt::Display for SurplusBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::MoreThanUsed { free, level, used } => write!(
                f,
                "{} free after planned rebuilds: {} for the level, {} for {KEPT_YEARS} years of usage",
                without_rounding_residue(*free),
                without_rounding_residue(*level),
                without_rounding_residue(*used)
            ),
            Self::NotUsed {
                last,
                records_from,
                level,
                insured,
            } => {
                match last {
                    Some(last) => write!(f, "last used on {last}")?,
                    None => write!(f, "no usage since records begin on {records_from}")?,
                }
                if *insured <= 0.0 {
                    f.write_str(", on no kit that counts")?;
                }
                if *level > *insured {
                    let are = if (level - 1.0).abs() < 1e-9 {
                        "is"
                    } else {
                        "are"
                    };
                    write!(f, "; {level} {are} kept by its level")?;
                } else if *insured > 0.0 {
                    let are = if (insured - 1.0).abs() < 1e-9 {
                        "is"
                    } else {
                        "are"
                    };
                    write!(f, "; {insured} {are} kept, as many as one rebuild takes")?;
                }
                Ok(())
            }
            Self::NoMachine { since: Some(since) } => {
                write!(f, "every machine that uses it left service by {since}")
            }
            Self::NoMachine { since: None } => {
                f.write_str("every machine that uses it has left service")
            }
            Self::Expiring {
                until,
                lot,
                for_rebuilds,
                used,
            } if *for_rebuilds > 0.0 => write!(
                f,
                "a lot of {lot} ends on {until}; planned rebuilds take {for_rebuilds} and about {used:.1} more are used until then, oldest first"
            ),
            Self::Expiring {
                until, lot, used, ..
            } => write!(
                f,
                "a lot of {lot} ends on {until}; about {used:.1} are used until then, oldest first"
            ),
            Self::Expired { until } => write!(f, "past its shelf life since {until}"),
        }
    }
}
