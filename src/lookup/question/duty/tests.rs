use super::*;

fn heat(text: &str) -> (String, Option<f64>, Option<f64>) {
    let (left, duty) = split(text);
    (left, duty.lowest_c, duty.highest_c)
}

#[test]
fn degrees_with_a_sign_or_a_range_are_no_size() {
    for (text, left, lowest, highest) in [
        ("6205 -30 to 80 C", "6205", Some(-30.0), Some(80.0)),
        (
            "o-ring 50x3 -40 to 100 °C NBR",
            "o-ring 50x3 NBR",
            Some(-40.0),
            Some(100.0),
        ),
        ("50x3 -40 bis +100°C", "50x3", Some(-40.0), Some(100.0)),
        ("50x3 -40..100 °C", "50x3", Some(-40.0), Some(100.0)),
        ("50x3 -40…+100°C", "50x3", Some(-40.0), Some(100.0)),
        ("50x3 -40/+100 °C", "50x3", Some(-40.0), Some(100.0)),
        ("6205 20 to 80 °C", "6205", Some(20.0), Some(80.0)),
        ("6205 20 to 80 C", "6205", Some(20.0), Some(80.0)),
        ("6205 20 - 80 °C", "6205", Some(20.0), Some(80.0)),
        ("6205 minus 40 °C", "6205", Some(-40.0), None),
        ("6205 −40 °C", "6205", Some(-40.0), None),
        (
            "lip seal 40x62x7 NBR -50 C",
            "lip seal 40x62x7 NBR",
            Some(-50.0),
            None,
        ),
        ("oring 50x3 NBR -50 °C", "oring 50x3 NBR", Some(-50.0), None),
        ("oring 50x3 NBR 100 C", "oring 50x3 NBR", None, Some(100.0)),
        (
            "oring 50x3 NBR 100 ° C",
            "oring 50x3 NBR",
            None,
            Some(100.0),
        ),
        // Degrees Fahrenheit: -40 is -40, 212 is the boiling point of water.
        ("6205 -40 to 212 °F", "6205", Some(-40.0), Some(100.0)),
        // A mark of a bearing, a hardness, sizes.
        ("7014 C", "7014 C", None, None),
        ("6206 2Z C 3", "6206 2Z C 3", None, None),
        ("o-ring 50x3 NBR 70", "o-ring 50x3 NBR 70", None, None),
        ("30 to 62 x 16", "30 to 62 x 16", None, None),
        ("AS568 -318", "AS568 -318", None, None),
    ] {
        assert_eq!(heat(text), (left.to_owned(), lowest, highest), "{text}");
    }
}

#[test]
fn loads_and_lives_leave_the_way_they_come() {
    for (text, left, said) in [
        ("6205 load 5 kN 1450 rpm", "6205 1450 rpm", &["5 kN"][..]),
        ("6205 axial load 1 kN", "6205 axial load", &["1 kN"]),
        ("6205 axial load of 1500 N", "6205 axial load", &["1500 N"]),
        ("NU205 thrust 2 kN", "NU205 axial load", &["2 kN"]),
        ("6205 5kN radial", "6205 radial load", &["5kN"]),
        ("6205 5 kN radial load", "6205 radial load", &["5 kN"]),
        (
            "6205 Fa = 2 kN, Fr = 3 kN",
            "6205 axial load radial load",
            &["2 kN", "3 kN"],
        ),
        ("6205 20000 h", "6205", &["20000 h"]),
        ("6205 20,000 h", "6205", &["20,000 h"]),
        ("6205 20.000h", "6205", &["20.000h"]),
        ("6205 20 000 h", "6205", &["20 000 h"]),
        ("6205 load 4,000 N", "6205", &["4,000 N"]),
        ("6205 axial load 4 000 N", "6205 axial load", &["4 000 N"]),
        ("6205 load 1,200,000 N", "6205", &["1,200,000 N"]),
        ("6205 life 20000 hours", "6205", &["20000 hours"]),
        ("6205 motor 5.5 kW", "6205 motor", &["5.5 kW"]),
        // A life may stand first, and its name behind it.
        ("50000 hours 6205", "6205", &["50000 hours"]),
        ("20000 h 6205", "6205", &["20000 h"]),
        ("20 000 h 6205", "6205", &["20 000 h"]),
        ("20000 h life 25x52x15", "25x52x15", &["20000 h"]),
        // 6000 is a bearing too (DIN 625-1).
        ("6000 h 6205", "6205", &["6000 h"]),
        ("6000 h", "6000 h", &[]),
        ("25x52x15 load 6000 N", "25x52x15", &["6000 N"]),
        // Names of standards are no quantities.
        (
            "O-ring 20x2.65 ISO 3601 N",
            "O-ring 20x2.65 ISO 3601 N",
            &[],
        ),
        ("DIN 3760 40x62x7", "DIN 3760 40x62x7", &[]),
        // A groove for a snap ring, and a class of fit.
        // ISO 15: 6000, 6300 and 625 are ball bearings.
        (
            "bearing 25 x 52 x 15 load 6000 N",
            "bearing 25 x 52 x 15",
            &["6000 N"],
        ),
        ("25x52x15 Belastung 6000 N", "25x52x15", &["6000 N"]),
        ("25x52x15 load 6000N", "25x52x15", &["6000N"]),
        ("25x52x15 axial 6300 N", "25x52x15 axial load", &["6300 N"]),
        ("6205 load 625 N", "6205", &["625 N"]),
        (
            "load 6000 N bearing 25x52x15",
            "bearing 25x52x15",
            &["6000 N"],
        ),
        ("6205 N load 50 kN", "6205 N", &["50 kN"]),
        // A force with its unit beside a whole size or another number.
        ("25x52x15 at 6000 N", "25x52x15 at", &["6000 N"]),
        ("25x52x15 6000 N", "25x52x15", &["6000 N"]),
        ("25 52 15 at 6205 N", "25 52 15 at", &["6205 N"]),
        ("25 x 52 x 15, 6000N", "25 x 52 x 15,", &["6000N"]),
        ("6206 6000 N", "6206", &["6000 N"]),
        ("6206 6000 lbs", "6206", &["6000 lbs"]),
        ("6206 6000 Newton", "6206", &["6000 Newton"]),
        (
            "6206-2RS 6300 N radial",
            "6206-2RS radial load",
            &["6300 N"],
        ),
        ("NU 208 6200 N", "NU 208", &["6200 N"]),
        // A small one right behind the part.
        ("6206 60 N", "6206", &["60 N"]),
        ("6206 2RS 100 N", "6206 2RS", &["100 N"]),
        ("NU 208 60 N", "NU 208", &["60 N"]),
        ("25x52x15 60 N", "25x52x15", &["60 N"]),
        ("25 x 52 x 15 60 N", "25 x 52 x 15", &["60 N"]),
        ("25 52 15 N", "25 52 15 N", &[]),
        ("25 x 52 x 15 N", "25 x 52 x 15 N", &[]),
        ("6206 30 62 16 N", "6206 30 62 16 N", &[]),
        ("62 06 N", "62 06 N", &[]),
        ("fan 60 N", "fan 60 N", &[]),
        ("bearing 6000 N load", "bearing", &["6000 N"]),
        // A groove for a snap ring (DIN 625-1) on the second of two numbers.
        ("6206 or 6000 N", "6206 or 6000 N", &[]),
        ("6206 6205 N", "6206 6205 N", &[]),
        ("2 x 6000 N", "2 x 6000 N", &[]),
        ("fan 6000 N", "fan 6000 N", &[]),
        ("bore 10 6000 N", "bore 10 6000 N", &[]),
        ("6000 N load 5 kN", "6000 N", &["5 kN"]),
        ("load 6308 N", "", &["6308 N"]),
        ("radial 6308 N 40x90x23", "radial 6308 N 40x90x23", &[]),
        ("6205 N", "6205 N", &[]),
        ("6205 N load", "6205 N load", &[]),
        ("pin 8 h 30", "pin 8 h 30", &[]),
    ] {
        let (rest, duty) = split(text);
        assert_eq!(
            (rest.as_str(), &duty.not_looked_at[..]),
            (
                left,
                &said.iter().map(|of| (*of).to_owned()).collect::<Vec<_>>()[..]
            ),
            "{text}"
        );
    }
}

#[test]
fn a_speed_under_a_lip_is_no_load() {
    for (text, m_s) in [
        ("lip seal 40x62x7 NBR 20 m/s", 20.0),
        ("lip seal 40x62x7 NBR speed 7,5 m/s", 7.5),
        ("40x62x7 NBR Umfangsgeschwindigkeit 20 m/s", 20.0),
    ] {
        let (left, duty) = split(text);
        assert_eq!(duty.lip_m_s, Some(m_s), "{text}");
        assert!(
            duty.not_looked_at.is_empty() && left.ends_with("NBR"),
            "{text}: {left}"
        );
    }
}

#[test]
fn a_mark_parts_thousands_where_the_unit_is_never_told_to_thousandths() {
    // Arithmetic; 2,125 kN and 5,5 kW have decimals.
    for (text, value) in [
        ("4,000 N", 4_000.0),
        ("4.000 N", 4_000.0),
        ("4,5 N", 4.5),
        ("20,000 h", 20_000.0),
        ("20.000h", 20_000.0),
        ("20 000 h", 20_000.0),
        ("1,200,000 N", 1_200_000.0),
        ("2,125 kN", 2.125),
        ("5,5 kW", 5.5),
        ("100 °C", 100.0),
    ] {
        let written: Vec<&str> = text.split_whitespace().collect();
        let lower = written.iter().map(|word| word.to_lowercase()).collect();
        let read = Words {
            written,
            lower,
            is_beside: false,
        }
        .quantity(0);
        let found = read.map_or(f64::NAN, |read| read.value);
        assert!((found - value).abs() < 1e-9, "{text}: {found}");
    }
}

#[test]
fn an_angle_and_a_chamfer_are_no_size() {
    for (text, left, angle) in [
        ("7206 contact angle 40", "7206", Some(40)),
        ("7206 contact angle of 40°", "7206", Some(40)),
        ("7206 contact angle 25 degrees", "7206", Some(25)),
        ("7206 40° contact angle", "7206", Some(40)),
        ("7206 Druckwinkel 15 Grad", "7206", Some(15)),
        ("7206 contact angle", "7206 contact angle", None),
    ] {
        let (rest, duty) = split(text);
        assert_eq!((rest.as_str(), duty.angle_degrees), (left, angle), "{text}");
    }
    for (text, left, said) in [
        ("6206 chamfer 1", "6206", "chamfer 1"),
        ("6206 1 mm chamfer", "6206", "chamfer 1"),
        ("6206 Fase r1", "6206", "fase 1"),
    ] {
        let (rest, duty) = split(text);
        assert_eq!(rest, left, "{text}");
        assert_eq!(duty.not_understood, [said], "{text}");
    }
}

#[test]
fn what_was_said_goes_into_the_question() {
    let read = |text: &str| Question::read(text).unwrap();
    let question = read("6205 -30 to 80 C axial load 1 kN");
    assert!(question.readings.is_empty() && question.not_understood.is_empty());
    assert_eq!(question.needs.lowest_c, Some(-30.0));
    assert_eq!(question.needs.highest_c, Some(80.0));
    assert!(question.needs.axial.is_some());
    assert!(
        question
            .notes
            .iter()
            .any(|note| note.ends_with("not looked at here: 1 kN"))
    );
    let question = read("7206 contact angle 40");
    assert_eq!(question.traits.contact_angle, Some(ContactAngle(40)));
    assert!(question.readings.is_empty());
    // DIN 628-1: B is 40 degrees.
    assert_eq!(
        read("7206 B contact angle 15").not_understood,
        ["contact angle 15"]
    );
    assert_eq!(
        read("6206 contact angle 15").not_understood,
        ["contact angle 15"]
    );
    let question = read("oring 50x3 NBR -50 °C");
    assert_eq!(question.traits.hardness, None);
    assert_eq!(question.traits.material.as_deref(), Some("NBR"));
    assert_eq!(question.needs.lowest_c, Some(-50.0));
    let question = read("lip seal 40x62x7 NBR -50 C");
    assert_eq!(
        (question.traits.hardness, question.traits.seal_form),
        (None, None)
    );
}

#[test]
fn beside_a_known_part_no_figure_is_its_number() {
    for (text, left, said) in [
        ("6000 N", "", &["6000 N"][..]),
        ("60 N", "", &["60 N"]),
        ("load 6000 N", "", &["6000 N"]),
        ("6 kN", "", &["6 kN"]),
        ("6205 N", "6205 N", &[]),
        ("30 62 16 N", "30 62 16 N", &[]),
    ] {
        let (rest, duty) = split_beside(text);
        assert_eq!(
            (rest.as_str(), &duty.not_looked_at[..]),
            (
                left,
                &said.iter().map(|of| (*of).to_owned()).collect::<Vec<_>>()[..]
            ),
            "{text}"
        );
    }
}

#[test]
fn a_shaft_before_its_speed_is_no_seat() {
    for (text, left) in [
        (
            "lip seal 40-62-7 shaft speed 6000 rpm",
            "lip seal 40-62-7 speed 6000 rpm",
        ),
        ("40 80 18 shaft speed 3000", "40 80 18"),
        ("6206 shaft speed 3000", "6206"),
        ("35 shaft speed 3000", "35 shaft"),
    ] {
        assert_eq!(split(text).0, left, "{text}");
    }
}
