//! Limits of fits against two packages: the shipped table comes from a third one, `isofits`.

use std::collections::{BTreeMap, BTreeSet};

use sparewright::limit::{self, Deviation};

use crate::{outside, table};

/// Cells of `rf-tolerances` that the standard contradicts: class, diameter in mm, lower and upper deviation as they are
/// right, in micrometres, and why.
const WRONG: [(&str, &str, f64, f64, &str); 8] = [
    ("G6", "6", 4.0, 12.0, MIRROR),
    ("G7", "6", 4.0, 16.0, MIRROR),
    ("K6", "40", -13.0, 3.0, ONE_STEP),
    ("K7", "40", -18.0, 7.0, ONE_STEP),
    ("N6", "30", -24.0, -11.0, ONE_STEP),
    ("N7", "30", -28.0, -7.0, ONE_STEP),
    ("M6", "280", -41.0, -9.0, SPECIAL),
    ("M6", "315", -41.0, -9.0, SPECIAL),
];
/// ISO 286-1: EI of G is -es of g, and es of g over 3 to 6 mm is -4 in both packages.
const MIRROR: &str = "G is the mirror of g";
/// ISO 286-1: 18 to 30 and 30 to 50 mm are one step each for these letters; the package forgets delta in one half of it.
const ONE_STEP: &str = "the other half of the step has delta";
/// ISO 286-1, note to the table of holes: ES of M6 over 250 to 315 mm is -9 and not -11; from memory. `isofits` has it.
const SPECIAL: &str = "the standard's own exception";

fn number(row: &table::Row, column: &str) -> f64 {
    row[column].parse().unwrap()
}

fn of_row(row: &table::Row) -> Deviation {
    Deviation {
        lower_um: number(row, "lower_um"),
        upper_um: number(row, "upper_um"),
    }
}

/// The shipped limits of the class and diameter of a row.
fn shipped(row: &table::Row) -> Deviation {
    let (class, diameter_mm) = (&row["tolerance_class"], number(row, "diameter_mm"));
    limit::fit(class, diameter_mm).unwrap_or_else(|| panic!("{class} at {diameter_mm}"))
}

/// Half a micrometre may go either way: JS7 of an odd grade.
fn agree(a: Deviation, b: Deviation) -> bool {
    (a.lower_um - b.lower_um).abs() < 0.6 && (a.upper_um - b.upper_um).abs() < 0.6
}

fn classes(rows: &[table::Row]) -> BTreeSet<&str> {
    let classes = rows.iter().map(|row| row["tolerance_class"].as_str());
    classes.collect()
}

#[test]
pub fn limits_of_fits_agree_with_pressfit() {
    // ISO 286-2 by the open package pressfit.
    let rows = table::read("iso286_pressfit");
    assert!(rows.len() >= 400, "{}", rows.len());
    outside::compared(rows.len());
    for row in &rows {
        let of = shipped(row);
        assert!(agree(of, of_row(row)), "{row:?}: {of:?}");
    }
}

#[test]
pub fn limits_of_fits_agree_with_rf_tolerances() {
    // ISO 286-2 by the open package rf-tolerances, at the end of every step and half step from 3 to 400 mm.
    let rows = table::read("iso286_rf_tolerances");
    assert_eq!(rows.len(), 35 * 22);
    let mut met = 0;
    for row in &rows {
        outside::compared(1);
        let (of, theirs) = (shipped(row), of_row(row));
        let is_it = |(class, diameter, ..): &&(&str, &str, f64, f64, &str)| {
            *class == row["tolerance_class"] && *diameter == row["diameter_mm"]
        };
        let Some((class, diameter, lower_um, upper_um, why)) = WRONG.iter().find(is_it) else {
            assert!(agree(of, theirs), "{row:?}: {of:?}");
            continue;
        };
        met += 1;
        let right = Deviation {
            lower_um: *lower_um,
            upper_um: *upper_um,
        };
        assert!(agree(of, right), "{class} {diameter}: {of:?}");
        assert!(!agree(theirs, right), "{class} {diameter}: not wrong");
        outside::differs(&format!(
            "{class} at {diameter} mm is {lower_um} to {upper_um} µm here: {why}"
        ));
    }
    assert_eq!(met, WRONG.len());
}

/// What the package gets wrong is shown by the package itself, but for the one exception of the standard.
#[test]
fn what_the_package_gets_wrong_follows_from_its_other_cells() {
    let rows = table::read("iso286_rf_tolerances");
    let by_cell: BTreeMap<(&str, &str), Deviation> = rows
        .iter()
        .map(|row| {
            let cell = (row["tolerance_class"].as_str(), row["diameter_mm"].as_str());
            (cell, of_row(row))
        })
        .collect();
    for (class, diameter, lower_um, upper_um, why) in WRONG {
        let right = Deviation { lower_um, upper_um };
        let other = match (why, diameter) {
            // The upper deviation of g6, turned over, and the grade upon it.
            (MIRROR, _) => {
                let lower_um = -by_cell[&("g6", diameter)].upper_um;
                let grade_um = by_cell[&(class, diameter)].band_mm() * 1000.0;
                Deviation {
                    lower_um,
                    upper_um: lower_um + grade_um,
                }
            }
            (ONE_STEP, "40") => by_cell[&(class, "50")],
            (ONE_STEP, _) => by_cell[&(class, "24")],
            // Without the exception ES were -ei of m6 and delta, IT6 - IT5: -20 + 9 = -11.
            _ => {
                let delta = limit::fit("h5", 280.0).unwrap().lower_um
                    - limit::fit("h6", 280.0).unwrap().lower_um;
                let upper_um = delta - by_cell[&("m6", diameter)].lower_um;
                assert!(agree(
                    by_cell[&(class, diameter)],
                    Deviation {
                        lower_um: upper_um - 32.0,
                        upper_um
                    }
                ));
                continue;
            }
        };
        assert!(agree(other, right), "{class} {diameter}: {other:?}");
    }
}

/// No class that is shipped rests on the package that it comes from alone.
#[test]
fn every_class_is_in_a_second_package() {
    let (first, second) = (
        table::read("iso286_pressfit"),
        table::read("iso286_rf_tolerances"),
    );
    let compared: BTreeSet<&str> = classes(&first).union(&classes(&second)).copied().collect();
    let alone: Vec<&str> = limit::fit_classes()
        .into_iter()
        .filter(|class| !compared.contains(class))
        .collect();
    assert!(alone.is_empty(), "{alone:?}");
    // The seats of bearings that the first one does not know.
    for class in ["F7", "G7", "J7", "JS7", "K7", "M7", "N7", "P7", "j6", "r6"] {
        assert!(!classes(&first).contains(class) && classes(&second).contains(class));
    }
}
