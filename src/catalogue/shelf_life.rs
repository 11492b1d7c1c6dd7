//! How long a part may lie before it is no longer stock.

use std::fmt;

use chrono::{Days, Months, NaiveDate};

use super::part::CataloguePart;
use crate::part::{Closure, PartClass};
use crate::record::PlanningSettings;

/// Elastomers with their group and the years they may be stored before the first inspection.
///
/// # Source
/// ISO 2230:2002, Rubber products: guidelines for storage. Years of the groups (5, 7 and 10, to be extended by 2, 3 and 5
/// after inspection) as reproduced on two open pages; members of the groups NR, IR, AU, NBR, HNBR, CR, EPDM, FKM, VMQ,
/// FVMQ and FFKM by one of these pages, the others from memory.
const ELASTOMERS: [(&str, char, f64); 26] = [
    ("NR", 'A', 5.0),
    ("IR", 'A', 5.0),
    ("SBR", 'A', 5.0),
    ("BR", 'A', 5.0),
    ("AU", 'A', 5.0),
    ("EU", 'A', 5.0),
    ("PU", 'A', 5.0),
    ("NBR", 'B', 7.0),
    ("XNBR", 'B', 7.0),
    ("HNBR", 'B', 7.0),
    ("CO", 'B', 7.0),
    ("ECO", 'B', 7.0),
    ("ACM", 'B', 7.0),
    ("CR", 'B', 7.0),
    ("IIR", 'B', 7.0),
    ("BIIR", 'B', 7.0),
    ("CIIR", 'B', 7.0),
    ("CSM", 'C', 10.0),
    ("EPM", 'C', 10.0),
    ("EPDM", 'C', 10.0),
    ("FKM", 'C', 10.0),
    ("FPM", 'C', 10.0),
    ("FFKM", 'C', 10.0),
    ("VMQ", 'C', 10.0),
    ("MVQ", 'C', 10.0),
    ("FVMQ", 'C', 10.0),
];

/// Months a part may be stored, and what that rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct ShelfLife {
    /// Months from the cure or pack date on.
    pub months: f64,
    /// What it rests on.
    pub basis: ShelfLifeBasis,
}

/// What a shelf life rests on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ShelfLifeBasis {
    /// The parts table.
    PartsTable,
    /// Storage group of the elastomer by ISO 2230.
    Elastomer {
        /// ISO 1629 symbol.
        symbol: &'static str,
        /// Group.
        group: char,
    },
    /// The settings, for greased bearings.
    GreasedBearing,
}

impl ShelfLife {
    /// Shelf life of a part; `None` where it has none or nobody says.
    pub fn of(part: &CataloguePart, settings: &PlanningSettings) -> Option<Self> {
        if let Some(months) = part.shelf_life_months {
            return Some(Self {
                months,
                basis: ShelfLifeBasis::PartsTable,
            });
        }
        match part.family.map(crate::part::Family::class) {
            Some(PartClass::Seals) => {
                let material = part.traits.material.as_deref()?;
                Self::of_elastomer(material)
            }
            Some(PartClass::Bearings) if is_greased(part) => Some(Self {
                months: settings.greased_bearing_shelf_months?,
                basis: ShelfLifeBasis::GreasedBearing,
            }),
            _ => None,
        }
    }

    fn of_elastomer(material: &str) -> Option<Self> {
        let first = material
            .split(|c: char| !c.is_ascii_alphanumeric())
            .find(|word| !word.is_empty())?;
        let found = ELASTOMERS
            .iter()
            .find(|(symbol, ..)| symbol.eq_ignore_ascii_case(first))?;
        Some(Self {
            months: 12.0 * found.2,
            basis: ShelfLifeBasis::Elastomer {
                symbol: found.0,
                group: found.1,
            },
        })
    }
}

/// Last day a lot may be fitted after so many months of shelf life.
///
/// Whole months by the calendar, the rest of a month as 30 days a month.
pub fn usable_until(months: f64, cured: NaiveDate) -> Option<NaiveDate> {
    let months = months.max(0.0);
    let days = (months.fract() * 30.0).round() as u64;
    cured
        .checked_add_months(Months::new(months.floor().min(2400.0) as u32))?
        .checked_add_days(Days::new(days))
}

/// Last day a lot may be fitted: as somebody wrote it on the lot, which comes before what is reckoned from its cure date.
pub fn last_day(
    written: Option<NaiveDate>,
    life: Option<&ShelfLife>,
    cured: Option<NaiveDate>,
) -> Option<NaiveDate> {
    let months = life.map(|life| life.months);
    written.or_else(|| usable_until(months?, cured?))
}

/// Bearings with shields or seals on both sides are greased by their maker.
fn is_greased(part: &CataloguePart) -> bool {
    matches!(
        part.traits.closure,
        Some(Closure::ShieldBothSides | Closure::LowFrictionSealBothSides | Closure::SealBothSides)
    )
}

impl fmt::Display for ShelfLife {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "shelf life {} months", self.months)?;
        match &self.basis {
            ShelfLifeBasis::PartsTable => Ok(()),
            ShelfLifeBasis::Elastomer { symbol, group } => {
                write!(f, " ({symbol}, ISO 2230 group {group})")
            }
            ShelfLifeBasis::GreasedBearing => f.write_str(" (greased bearing, from the settings)"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn groups_of_iso_2230() {
        // Years by group and members as on the open pages named above.
        for (material, months) in [
            ("NR", 60.0),
            ("AU", 60.0),
            ("NBR", 84.0),
            ("NBR 70", 84.0),
            ("hnbr", 84.0),
            ("CR", 84.0),
            ("EPDM", 120.0),
            ("FKM", 120.0),
            ("VMQ", 120.0),
        ] {
            let found = ShelfLife::of_elastomer(material).unwrap();
            assert!((found.months - months).abs() < 1e-9, "{material}");
        }
        assert_eq!(ShelfLife::of_elastomer("PTFE"), None);
        assert_eq!(ShelfLife::of_elastomer("leather"), None);
    }
}
