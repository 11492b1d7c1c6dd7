use super::*;
use crate::lookup::{Question, answer};

#[test]
fn a_count_before_or_behind_a_part_is_left_out() {
    for (text, left) in [
        ("2 lip seals 40x62x7", Some("lip seals 40x62x7")),
        ("2 lip seals 40 62 7", Some("lip seals 40 62 7")),
        ("4 O-rings 25x3", Some("O-rings 25x3")),
        ("2 bearings 6206", Some("bearings 6206")),
        (
            "2 Wellendichtringe 40x62x7",
            Some("Wellendichtringe 40x62x7"),
        ),
        ("2 x lip seal 40x62x7", Some("lip seal 40x62x7")),
        ("2x lip seal 40 x 62 x 7", Some("lip seal 40 x 62 x 7")),
        ("2 x 25x52x15", Some("25x52x15")),
        ("lip seal 40x62x7 x2", Some("lip seal 40x62x7")),
        ("1 lip seal 40x62x7", Some("lip seal 40x62x7")),
        ("1 seal 40x62x7", Some("seal 40x62x7")),
        ("1 bearing 25x52x15", Some("bearing 25x52x15")),
        ("1 bearing 25 52 15", Some("bearing 25 52 15")),
        ("1 O-ring 25x3", Some("O-ring 25x3")),
        ("1 dowel pin 8x30", Some("dowel pin 8x30")),
        ("3 bearing 6206", Some("bearing 6206")),
        ("1 bearing NU 208 C3", Some("bearing NU 208 C3")),
        ("2 pcs 25x52x15", Some("25x52x15")),
        // A size of which the first figure is one, in millimetres and in inches.
        ("1 bearing 3 1", None),
        ("1 bearing 2 x 1/2", None),
        ("1 O-ring 1/8", None),
        ("25 bearing 52 15", None),
        // Lengths, two lips of one seal, and figures that are a size only together.
        ("2 lip seal 40x62x7", None),
        ("8 dowel pins 30", None),
        ("25 bearings 52 15", None),
        ("2 x 40x3 o-ring", None),
        ("12 x od 28 x 8", None),
        ("12 x 28 x 8 bearings", None),
        ("25 x 52 x 15", None),
        ("o-ring 40 x3", None),
        ("lip seals 40x62x7", None),
        ("8 mm pins 8x30", None),
    ] {
        assert_eq!(taken_off(text).as_deref(), left, "{text}");
    }
}

#[test]
fn a_count_behind_an_order_or_before_a_whole_part_is_left_out() {
    for (text, left) in [
        ("need 2 O-ring 25x3", Some("O-ring 25x3")),
        ("need 2 dowel pin 6x30", Some("dowel pin 6x30")),
        ("please order 2 pcs of O-ring 25x3", Some("O-ring 25x3")),
        ("2 each O-ring 25x3", Some("O-ring 25x3")),
        ("2 st. O-ring 25x3", Some("O-ring 25x3")),
        ("2 sets of O-ring 25x3", Some("O-ring 25x3")),
        ("2 sets of 7206 B DB", Some("sets of 7206 B DB")),
        ("1 set 7206 B DB", Some("set 7206 B DB")),
        ("1 nut M12", Some("nut M12")),
        ("2 lock nuts M25x1.5", Some("lock nuts M25x1.5")),
        ("1 dowel 6x30", Some("dowel 6x30")),
        ("1 circlip 25", Some("circlip 25")),
        ("2 circlips 25", Some("circlips 25")),
        ("1 circlip DIN 471-25", Some("circlip DIN 471-25")),
        ("4 St DIN 471-25", Some("DIN 471-25")),
        ("DIN 471-25 x 4", Some("DIN 471-25")),
        ("DIN 471-25 x4", Some("DIN 471-25")),
        ("25x52x15 x 2", Some("25x52x15")),
        ("KM5 x 2", Some("KM5")),
        ("1 KM5", Some("KM5")),
        ("5 HK2016", Some("HK2016")),
        ("2 x RLS 8", Some("RLS 8")),
        ("2 LM11949/LM11910", Some("LM11949/LM11910")),
        ("1 taper roller 32010 X", Some("taper roller 32010 X")),
        (
            "2 tapered roller bearings 32010 X",
            Some("tapered roller bearings 32010 X"),
        ),
        (
            "1 Zylinderrollenlager NU 210",
            Some("Zylinderrollenlager NU 210"),
        ),
        ("1 deep groove 25 52 15", Some("deep groove 25 52 15")),
        ("2 40x62x7 NBR", Some("40x62x7 NBR")),
        ("1 25x52x15", Some("25x52x15")),
        ("1 no. 6206", Some("6206")),
        ("4 of 6205", Some("6205")),
        ("2 6206", Some("6206")),
        // A thickness, a bore that may have been measured, a length in inches, two seals of a bearing.
        ("2 circlips 52", None),
        ("40 6206", None),
        ("2 1/2x3x1/4", None),
        ("2 RS 6206", None),
        ("DIN 471-25 x 2", None),
        ("lock nut M30 x 2", None),
        ("O-ring 25 x 3", None),
        ("K 18 x 24 x 12", None),
        ("35 shaft 52 housing 7 wide 0.5 mm", None),
        ("need 25 52 15", None),
    ] {
        assert_eq!(taken_off(text).as_deref(), left, "{text}");
    }
}

/// ISO 15: 6205 is 25 x 52 x 15 mm; DIN 3760: 40 x 62 x 7.
#[test]
fn parts_that_are_counted_are_found() {
    for (text, name) in [
        ("2 lip seals 40x62x7", "40x62x7"),
        ("2 seals 40x62x7", "40x62x7"),
        ("2 x lip seal 40x62x7", "40x62x7"),
        ("2 bearings 25x52x15 deep groove", "6205"),
        ("2 O-rings 25x3", "25x3"),
        ("2 bearings 6206", "6206"),
        ("1 lip seal 40x62x7", "40x62x7"),
        ("1 bearing 25x52x15 deep groove", "6205"),
        ("1 O-ring 25x3", "25x3"),
        ("3 bearing 6206", "6206"),
        ("1 pc 6206", "6206"),
        ("need 2 O-ring 25x3", "25x3"),
        ("1 KM5", "KM5"),
        ("4 St DIN 471-25", "DIN 471-25x1.2"),
        ("1 deep groove 25 52 15", "6205"),
    ] {
        let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        let answers = answer(&question, None).answers;
        let first = answers.first().map(|one| one.designation.as_str());
        assert_eq!(first, Some(name), "{text}");
        let left = &question.not_understood;
        assert!(left.is_empty(), "{text}: {left:?}");
    }
}
