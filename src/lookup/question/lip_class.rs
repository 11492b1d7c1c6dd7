//! Classes beside the seats of a lip seal, held against those that its standard asks for.

use super::Question;
use super::seat_class::seat_of;
use crate::limit;
use crate::lookup::reading::{Reading, Role};
use crate::part::Dimension;

/// Of the classes of a lip seal's seats those that its standard asks for are understood.
///
/// # Source
/// DIN 3760, ISO 6194-1: shaft h11, housing bore H8; a class whose limits (ISO 286-2) lie within theirs is as good.
pub(super) fn note(question: &mut Question) {
    for class in std::mem::take(&mut question.fit_classes) {
        let (wanted, role, dimension) = match seat_of(&class) {
            Role::Shaft => ("h11", Role::Shaft, Dimension::ShaftDiameter),
            _ => ("H8", Role::Housing, Dimension::HousingBore),
        };
        let of_seat = |reading: &&Reading| reading.role == Some(role);
        let read = question.readings.iter().find(of_seat);
        let read = read.map(|reading| reading.length.length);
        let size = || question.designated_size()?.get(dimension);
        let limits = read.or_else(size).and_then(|length| {
            let mm = length.to_mm();
            limit::fit(&class, mm).zip(limit::fit(wanted, mm))
        });
        let is_within = limits
            .map(|(of, wanted)| of.lower_um >= wanted.lower_um && of.upper_um <= wanted.upper_um);
        if is_within == Some(true) {
            question.fit_classes.push(class);
            continue;
        }
        if is_within == Some(false) {
            question.notes.push(if role == Role::Shaft {
                format!("`{class}` is not within h11, which the shaft under the lip of a seal has (DIN 3760): it may be the class of the seat beside it")
            } else {
                format!("`{class}` is not within H8, which the housing bore of a lip seal has (DIN 3760, ISO 6194-1): it may be the class of the seat beside it")
            });
        }
        question.not_understood.push(class);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 286-2 at 40 mm: h11 -160/0, h9 -62/0, k6 +2/+18 µm; at 62 mm: H8 0/+46, H7 0/+30, N7 -39/-9 µm. DIN 3760: h11, H8.
    #[test]
    fn a_class_is_held_against_what_the_lip_asks() {
        for (text, understood, left) in [
            ("oil seal 40x62x8 shaft 40 k6", &[][..], &["k6"][..]),
            ("oil seal 40x62x8 shaft 40 h11", &["h11"], &[]),
            ("oil seal 40x62x8 shaft 40 h9", &["h9"], &[]),
            ("oil seal 40x62x8 shaft h11 housing H8", &["h11", "H8"], &[]),
            ("oil seal 40x62x8 housing N7", &[], &["N7"]),
            ("oil seal 40x62x8 housing H7", &["H7"], &[]),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.fit_classes, understood, "{text}");
            assert_eq!(question.not_understood, left, "{text}");
            let told = question.notes.join("; ");
            assert_eq!(
                told.contains("is not within"),
                !left.is_empty(),
                "{text}: {told}"
            );
        }
    }
}
