//! Limits against the formulas that ISO 286-1 gives for its tables: grades by the tolerance factor, fundamental deviations
//! by powers of the diameter.
//!
//! The standard rounds its values and keeps some older ones, so that a table may be a micrometre or some per cent off its
//! formula (ISO 286-1, annex A; formulas from memory, as in handbooks of machine elements).

use sparewright::limit::{fit, fit_classes};

/// Steps of nominal sizes, mm.
const STEPS: [(f64, f64); 11] = [
    (3.0, 6.0),
    (6.0, 10.0),
    (10.0, 18.0),
    (18.0, 30.0),
    (30.0, 50.0),
    (50.0, 80.0),
    (80.0, 120.0),
    (120.0, 180.0),
    (180.0, 250.0),
    (250.0, 315.0),
    (315.0, 400.0),
];

/// Geometric mean of a step.
fn mean((over, incl): (f64, f64)) -> f64 {
    (over * incl).sqrt()
}

/// Width of a grade, micrometres: the tolerance factor `i = 0.45 D^(1/3) + 0.001 D` times 7, 10, 16, 25, ...
fn grade_um(grade: u32, step: (f64, f64)) -> f64 {
    let d = mean(step);
    let factor = match grade {
        5 => 7.0,
        6 => 10.0,
        7 => 16.0,
        8 => 25.0,
        9 => 40.0,
        10 => 64.0,
        11 => 100.0,
        other => panic!("no factor of IT{other}"),
    };
    factor * (0.45 * d.cbrt() + 0.001 * d)
}

/// Letters and grade of a class.
fn taken_apart(class: &str) -> (&str, u32) {
    let at = class.find(|sign: char| sign.is_ascii_digit()).unwrap();
    (&class[..at], class[at..].parse().unwrap())
}

fn near(found: f64, formula: f64, share: f64, what: &str) {
    let most = (share * formula.abs()).max(1.01);
    assert!(
        (found - formula).abs() <= most,
        "{what}: {found} in the table, {formula:.2} by the formula"
    );
}

#[test]
fn every_class_is_as_wide_as_its_grade_by_the_tolerance_factor() {
    let mut compared = 0;
    for class in fit_classes() {
        let (_, grade) = taken_apart(class);
        for step in STEPS {
            for diameter in [step.0 + 0.01, mean(step), step.1] {
                let of = fit(class, diameter).unwrap_or_else(|| panic!("{class} at {diameter}"));
                near(
                    of.upper_um - of.lower_um,
                    grade_um(grade, step),
                    0.03,
                    &format!("{class} at {diameter}"),
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 1_000, "{compared}");
}

#[test]
fn shafts_stand_off_the_zero_line_by_their_letters() {
    // Upper deviation of d to h, lower one of k to p.
    type Formula = fn((f64, f64)) -> f64;
    let letters: [(&str, bool, Formula); 6] = [
        ("f", true, |step| -5.5 * mean(step).powf(0.41)),
        ("g", true, |step| -2.5 * mean(step).powf(0.34)),
        ("h", true, |_| 0.0),
        ("k", false, |step| 0.6 * mean(step).cbrt()),
        ("m", false, |step| grade_um(7, step) - grade_um(6, step)),
        ("n", false, |step| 5.0 * mean(step).powf(0.34)),
    ];
    let mut compared = 0;
    for class in fit_classes() {
        let (letter, _) = taken_apart(class);
        let Some((_, is_upper, formula)) = letters.iter().find(|(of, ..)| *of == letter) else {
            continue;
        };
        for step in STEPS {
            let of = fit(class, mean(step)).unwrap();
            let found = if *is_upper { of.upper_um } else { of.lower_um };
            near(
                found,
                formula(step),
                0.06,
                &format!("{class} at {:.1}", mean(step)),
            );
            compared += 1;
        }
    }
    assert!(compared > 100, "{compared}");
}

#[test]
fn holes_of_the_basic_system_begin_at_the_zero_line() {
    for class in ["H6", "H7", "H8", "H9", "H11"] {
        for step in STEPS {
            let of = fit(class, mean(step)).unwrap();
            assert!(
                of.lower_um.abs() < 1e-9 && of.upper_um > 0.0,
                "{class}: {of:?}"
            );
        }
    }
    for class in ["h5", "h6", "h7", "h8", "h9", "h11"] {
        for step in STEPS {
            let of = fit(class, mean(step)).unwrap();
            assert!(
                of.upper_um.abs() < 1e-9 && of.lower_um < 0.0,
                "{class}: {of:?}"
            );
        }
    }
    // js lies on both sides alike.
    for class in ["js5", "js6", "JS6", "JS7"] {
        for step in STEPS {
            let of = fit(class, mean(step)).unwrap();
            assert!((of.upper_um + of.lower_um).abs() <= 1.0, "{class}: {of:?}");
        }
    }
}

#[test]
fn a_hole_of_a_letter_mirrors_the_shaft_but_for_what_the_grades_differ_by() {
    // ISO 286-1: up to H the hole is the mirror of the shaft; K to N up to IT8 and P up to IT7 lie higher by
    // delta = IT(n) - IT(n-1).
    for (hole, shaft) in [("F7", "f7"), ("G6", "g6")] {
        for step in STEPS {
            let (hole, shaft) = (
                fit(hole, mean(step)).unwrap(),
                fit(shaft, mean(step)).unwrap(),
            );
            assert!(
                (hole.lower_um + shaft.upper_um).abs() < 1e-9,
                "{hole:?} {shaft:?}"
            );
        }
    }
    for (letter, grade) in [("K", 7), ("M", 7), ("N", 7), ("P", 7)] {
        for step in STEPS {
            let d = mean(step);
            let hole = fit(&format!("{letter}{grade}"), d).unwrap();
            let shaft = fit(&format!("{}6", letter.to_lowercase()), d).unwrap();
            // Upper deviation of the hole = -(lower deviation of the shaft) + delta.
            let delta = grade_um(7, step) - grade_um(6, step);
            let expected = -shaft.lower_um + delta;
            assert!(
                (hole.upper_um - expected).abs() <= 1.0 + 0.05 * delta,
                "{letter}{grade} at {d:.1}: {hole:?}, {expected:.1}"
            );
        }
    }
}

#[test]
fn what_no_table_here_has_is_unknown() {
    for (class, diameter) in [
        ("k6", 3.0),
        ("k6", 400.1),
        ("k6", 0.0),
        ("k6", -5.0),
        ("k6", f64::NAN),
    ] {
        assert_eq!(fit(class, diameter), None, "{class} {diameter}");
    }
    for class in ["", "k", "6", "K66", "zz6", "H 7", "x99"] {
        assert_eq!(fit(class, 25.0), None, "{class:?}");
    }
    // Case is the difference between a shaft and a hole.
    assert_ne!(fit("k6", 25.0), fit("K6", 25.0));
}
