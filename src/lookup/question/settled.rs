//! What the figures are once every word is read: which are in inches, what they are of, and which are too many.

use super::{Question, inch, lock_nut, named_by_kind, o_ring, place_words, retaining_ring};
use crate::lookup::reading::{Reading, Role};
use crate::part::Family;
use crate::units::{LengthUnit, ReadLength};

/// Most figures of a question: three of a bearing, and one of each seat and of the room beside them.
const MOST_FIGURES: usize = 6;

/// Settles the figures of a question and keeps them.
pub(super) fn settle(question: &mut Question, mut readings: Vec<Reading>) {
    drop_absurd_inches(&mut readings);
    name_ring_figures(question.family, &mut readings);
    name_outside_of_ring(question, &mut readings);
    name_seal_bore(question, &mut readings);
    name_width_beside_room(&mut readings);
    named_by_kind::settle(question.family, &mut readings);
    if o_ring::take_nominal(question, &readings) {
        return;
    }
    retaining_ring::note_inch(question, &readings);
    retaining_ring::take_thickness(question, &mut readings);
    lock_nut::take_outside(question, &mut readings);
    o_ring::name_outside(question, &mut readings);
    drop_repeated(question, &mut readings);
    inch::mark_nominal(question, &mut readings);
    if readings.len() <= MOST_FIGURES {
        question.readings = readings;
    }
}

/// The largest part that figures without a unit are taken for in inches, mm (common practice, no source: a part of over a
/// metre is written with its unit).
const LARGEST_INCH_READING_MM: f64 = 1_000.0;

/// `40 x 80 x 18` without a unit is no part of two metres: the figures are then millimetres only.
fn drop_absurd_inches(readings: &mut [Reading]) {
    let is_absurd = |read: &ReadLength| read.length.to_mm() > LARGEST_INCH_READING_MM;
    if readings
        .iter()
        .filter_map(|reading| reading.as_inches.as_ref())
        .any(is_absurd)
    {
        for reading in readings {
            reading.as_inches = None;
        }
    }
}

/// Beside bare fractions a figure that would be over a metre in inches is in millimetres: `3/4 x 41.275 x 7/16`.
pub(super) fn without_absurd(
    read: Vec<ReadLength>,
    is_by_fraction: bool,
    in_mm: impl Fn() -> Option<Vec<ReadLength>>,
) -> Vec<ReadLength> {
    let is_absurd = |read: &ReadLength| {
        read.unit == LengthUnit::Inch && read.length.to_mm() > LARGEST_INCH_READING_MM
    };
    if !is_by_fraction || !read.iter().any(is_absurd) {
        return read;
    }
    let Some(in_mm) = in_mm().filter(|in_mm| in_mm.len() == read.len()) else {
        return read;
    };
    read.into_iter()
        .zip(in_mm)
        .map(|(inch, mm)| if is_absurd(&inch) { mm } else { inch })
        .collect()
}

/// What the words of a retaining ring mean: `bore` is its housing, and beside a free diameter stands its seat.
fn name_ring_figures(family: Option<Family>, readings: &mut [Reading]) {
    let Some(seat) = family.and_then(retaining_ring::seat) else {
        return;
    };
    let has_free = readings
        .iter()
        .any(|reading| reading.role == Some(Role::FreeRing));
    for reading in readings {
        let is_bore = seat == Role::Housing && reading.role == Some(Role::Inner);
        if is_bore || has_free && reading.role.is_none() {
            reading.role = Some(seat);
        }
    }
}

/// The outside of a ring for shafts is in no table: it goes beside its seat, and alone it is taken for that, by which the ring is
/// named (DIN 471), and told.
fn name_outside_of_ring(question: &mut Question, readings: &mut Vec<Reading>) {
    let is_outside = |reading: &Reading| reading.role == Some(Role::Outer);
    let Some(at) = readings.iter().position(is_outside) else {
        return;
    };
    if question.family.and_then(retaining_ring::seat) != Some(Role::Shaft) {
        tell_outside_alone(question, readings);
        return;
    }
    let said = readings[at].length.length;
    // An unnamed figure beside it is its seat, or its thickness, which is far less.
    let is_seat = |reading: &Reading| {
        let is_other = matches!(reading.role, Some(Role::Outer | Role::Width));
        let is_thick = reading.length.length.to_mm() > said.to_mm() / 2.0;
        !is_other && (reading.role.is_some() || is_thick)
    };
    if question.designation.is_some() || readings.iter().any(is_seat) {
        readings.remove(at);
        question.notes.push(format!(
            "the outside of a ring for shafts is in no table, and is not looked at: {said}"
        ));
    } else {
        readings[at].role = Some(Role::Shaft);
        question.notes.push(format!(
            "the outside of a ring for shafts is in no table: {said} is taken as the diameter of its shaft, by which it is named (DIN 471); measure the shaft"
        ));
    }
    question.not_understood.push(format!("outside {said}"));
}

/// The outside of a ring for bores is larger than the bore by which it is named (DIN 472): alone it is taken for that, and told.
fn tell_outside_alone(question: &mut Question, readings: &[Reading]) {
    let [outside] = readings else {
        return;
    };
    if question.designation.is_some() || !retaining_ring::is_asked_for(question) {
        return;
    }
    let said = outside.length.length;
    question.notes.push(format!(
        "the outside of a ring for bores is larger than its bore: {said} is taken as the diameter of its bore, by which it is named (DIN 472); measure the bore"
    ));
    question.not_understood.push(format!("outside {said}"));
}

/// Beside the shaft of a lip seal a bore is that of its housing: `oil seal shaft 35 bore 52`.
fn name_seal_bore(question: &Question, readings: &mut [Reading]) {
    let has = |role: Role| readings.iter().any(|reading| reading.role == Some(role));
    let is_named = has(Role::Outer) || has(Role::Housing);
    if !place_words::may_be_lip_seal(question) || !has(Role::Shaft) || is_named {
        return;
    }
    for reading in readings {
        if reading.role == Some(Role::Inner) {
            reading.role = Some(Role::Housing);
        }
    }
}

/// Beside the room for it the last of three figures that stand as bore, outside and width is the width: `25x52x15 room for 16`.
fn name_width_beside_room(readings: &mut [Reading]) {
    let has = |role: Role| readings.iter().any(|reading| reading.role == Some(role));
    if !has(Role::Room) || has(Role::Width) {
        return;
    }
    let unnamed: Vec<usize> = (0..readings.len())
        .filter(|at| readings[*at].role.is_none())
        .collect();
    let of = |at: usize| readings[at].length.length;
    if let [bore, outside, width] = unnamed[..]
        && of(width) < of(bore)
        && of(bore) < of(outside)
    {
        readings[width].role = Some(Role::Width);
    }
}

/// More figures than dimensions: one that a named or worn one repeats goes (`30 62 16 worn outside 61.93`), and what is
/// then still too many is not understood.
fn drop_repeated(question: &mut Question, readings: &mut Vec<Reading>) {
    const REPEATS_WITHIN: f64 = 0.02;
    let dimensions = question
        .family
        .map_or(3, |family| family.key_dimensions().len());
    let mut at = 0;
    while readings.len() > dimensions && at < readings.len() {
        let mm = readings[at].length.length.to_mm();
        let is_repeated = readings[at].role.is_none()
            && readings[at + 1..].iter().any(|other| {
                let says_more = other.role.is_some() || other.is_worn && !readings[at].is_worn;
                says_more && (other.length.length.to_mm() - mm).abs() < REPEATS_WITHIN * mm
            });
        if is_repeated {
            readings.remove(at);
        } else {
            at += 1;
        }
    }
    // Without a type, four figures may be those of a thrust bearing.
    let most = if question.family.is_none() {
        4
    } else {
        dimensions.max(2)
    };
    let mut own = 0;
    for reading in std::mem::take(readings) {
        let is_beside = is_beside_own(&reading, readings);
        if own < most || is_beside && readings.len() < MOST_FIGURES {
            own += usize::from(!is_beside);
            readings.push(reading);
        } else {
            question
                .not_understood
                .push(format!("one figure too many: {}", reading.length.length));
        }
    }
}

/// True for a seat beside the ring's own diameter, room beside the width, and the other way round: `bore 40 shaft 39.95` are
/// two figures of one dimension.
fn is_beside_own(reading: &Reading, others: &[Reading]) -> bool {
    const PAIRS: [[Role; 2]; 3] = [
        [Role::Inner, Role::Shaft],
        [Role::Outer, Role::Housing],
        [Role::Width, Role::Room],
    ];
    let has = |role: Role| others.iter().any(|other| other.role == Some(role));
    let Some(role) = reading.role.filter(|role| !has(*role)) else {
        return false;
    };
    PAIRS.iter().any(|[own, place]| {
        let other = if role == *own { *place } else { *own };
        (role == *own || role == *place) && has(other)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 15: 6205 is 25 x 52 x 15 mm, 6206 30 x 62 x 16 mm.
    #[test]
    fn the_room_beside_a_size_is_that_for_its_width() {
        for (text, name) in [
            ("25x52x15 room for 16", "6205"),
            ("deep groove 25 52 15 room 16", "6205"),
            ("30 x 62 x 16 deep groove room for 17", "6206"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let roles: Vec<Option<Role>> = question.readings.iter().map(|of| of.role).collect();
            let expected = [None, None, Some(Role::Width), Some(Role::Room)];
            assert_eq!(roles, expected, "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
            let answers = crate::lookup::answer(&question, None).answers;
            let first = answers.first().map(|one| &*one.designation);
            assert_eq!(first, Some(name), "{text}");
        }
    }

    /// DIN 471: a ring is named by the diameter of its shaft, and its outside is in no table here.
    #[test]
    fn the_outside_of_a_ring_for_shafts_is_told() {
        for (text, role, says) in [
            (
                "external circlip od 25",
                Role::Shaft,
                "is taken as the diameter of its shaft",
            ),
            (
                "external circlip od 25 1.2",
                Role::Shaft,
                "is taken as the diameter of its shaft",
            ),
            (
                "external circlip shaft 25 od 34",
                Role::Shaft,
                "is not looked at: 34 mm",
            ),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let roles: Vec<Option<Role>> = question.readings.iter().map(|of| of.role).collect();
            assert_eq!(roles, [Some(role)], "{text}");
            let told = question.notes.join("; ");
            assert!(told.contains(says), "{text}: {told}");
            let answers = crate::lookup::answer(&question, None).answers;
            let first = answers.first().map(|one| &*one.designation);
            assert_eq!(first, Some("DIN 471-25x1.2"), "{text}");
            let verdict = answers.first().map(|one| one.judgement.verdict);
            assert_eq!(
                verdict,
                Some(crate::interchange::Verdict::AfterChecks),
                "{text}"
            );
        }
        // DIN 472: the outside of a ring for bores is that of the free ring, and its bore is less.
        for text in ["internal circlip od 25", "circlip od 25", "circlip 25 od"] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let told = question.notes.join("; ");
            let says = "25 mm is taken as the diameter of its bore";
            assert!(told.contains(says), "{text}: {told}");
            assert_eq!(question.not_understood, ["outside 25 mm"], "{text}");
            let answers = crate::lookup::answer(&question, None).answers;
            let first = answers.first().map(|one| &*one.designation);
            assert_eq!(first, Some("DIN 472-25x1.2"), "{text}");
        }
    }

    #[test]
    fn the_bore_beside_a_shaft_is_the_housing_of_a_lip_seal() {
        let of = |text: &str| -> Vec<Option<Role>> {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            question.readings.iter().map(|of| of.role).collect()
        };
        let seats = [Some(Role::Shaft), Some(Role::Housing), Some(Role::Width)];
        for text in [
            "oil seal shaft 35 bore 52 width 7",
            "seal shaft 35 bore 52 width 7",
            "Wellendichtring Welle 35 Bohrung 52 Breite 7",
            "oil seal shaft 35 housing 52 width 7",
        ] {
            assert_eq!(of(text), seats, "{text}");
        }
        // Without a shaft the bore is the seal's own, and beside an outside it is too.
        let own = [Some(Role::Inner), Some(Role::Outer), Some(Role::Width)];
        assert_eq!(of("oil seal bore 35 od 52 width 7"), own);
        let bearing = of("bearing shaft 35 bore 35 width 17");
        assert_eq!(bearing[1], Some(Role::Inner));
    }

    /// ISO 15: 6205 is 25 x 52 x 15, 4205 25 x 52 x 18, 6208 40 x 80 x 18 and 4208 40 x 80 x 23 mm.
    #[test]
    fn a_seat_beside_its_ring_takes_no_figures_place() {
        use Role::{Housing, Inner, Outer, Room, Shaft, Width};
        for (text, roles, number) in [
            (
                "bore 40 shaft 39.95 od 80 w 18 deep groove",
                &[Inner, Shaft, Outer, Width][..],
                "6208",
            ),
            (
                "bore 25 od 52 housing 52.05 w 15 deep groove",
                &[Inner, Outer, Housing, Width],
                "6205",
            ),
            (
                "bore 25 shaft 25.01 od 52 housing 52.02 w 15 deep groove",
                &[Inner, Shaft, Outer, Housing, Width],
                "6205",
            ),
            (
                "shaft 25.01 bore 25 housing 52.02 od 52 w 15 deep groove",
                &[Shaft, Inner, Housing, Outer, Width],
                "6205",
            ),
            (
                "bore 25 od 52 w 15 room for 16 deep groove",
                &[Inner, Outer, Width, Room],
                "6205",
            ),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let read: Vec<Role> = question.readings.iter().filter_map(|of| of.role).collect();
            assert_eq!(read, roles, "{text}");
            assert_eq!(question.not_understood, [""; 0], "{text}");
            let answers = crate::lookup::answer(&question, None).answers;
            assert_eq!(answers[0].designation, number, "{text}");
            assert!(answers[0].probability > 0.9, "{text}: {answers:?}");
        }
        // Without a type a seat of each ring leaves room for the width too.
        let open = Question::read("bore 25 shaft 25.01 od 52 housing 52.02 w 15").unwrap();
        assert_eq!((open.readings.len(), open.not_understood.len()), (5, 0));
        // Four figures of three dimensions are one too many.
        let many = Question::read("bore 25 od 52 w 15 w 18 deep groove").unwrap();
        assert_eq!(many.not_understood, ["one figure too many: 18 mm"]);
    }
}
