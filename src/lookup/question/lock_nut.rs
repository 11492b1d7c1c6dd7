//! Figures of a lock nut beside its thread: its outside diameter and width, which its table keeps as a remark, and its pitch.

use super::Question;
use super::named_by_kind::has_thread;
use crate::lookup::reading::{Reading, Role};
use crate::part::{Dimension, Family};
use crate::standard::{self, StandardPart};

/// Outside diameters are turned or forged and held loosely, mm (common practice, no source).
const OUTSIDE_WITHIN_MM: f64 = 0.6;
/// Widths as well, mm.
const WIDTH_WITHIN_MM: f64 = 0.4;
/// A thread measures this far below its nominal diameter at the nut's core, and this far above, mm: 1.0825 pitches of 2 mm
/// (ISO 724) and what a calliper is unsure of.
const BELOW_THREAD_MM: f64 = 2.6;
const ABOVE_THREAD_MM: f64 = 0.3;
/// No nut of the tables has a coarser pitch, and none is as thin, mm.
const COARSEST_MM: f64 = 3.0;
/// Two pitches closer than this are one, mm.
const SAME_PITCH_MM: f64 = 0.1;

/// No nut of the tables is wider, mm (DIN 981, from memory): what is larger and no outside is a thread.
const WIDEST_MM: f64 = 20.0;

/// Takes outside diameter and width for what they are: they tell which nut it is, or speak against the one named.
pub(super) fn take_outside(question: &mut Question, readings: &mut Vec<Reading>) {
    if !question.family.is_some_and(has_thread) {
        return;
    }
    let named = question.designation.as_ref().and_then(standard::resolve);
    if named.is_some_and(|row| is_other_thread(row, readings)) {
        return;
    }
    let mut figures = Outside::default();
    match named {
        Some(row) => figures.take_beside(row, readings),
        None if question.designation.is_none() => figures.take_unnamed(readings),
        None => {}
    }
    if figures == Outside::default() {
        return;
    }
    let rows: Vec<&StandardPart> = standard::of_family(Family::LockNut)
        .iter()
        .filter(|row| figures.are_of(row))
        .collect();
    let says = figures.says();
    match (named, &rows[..]) {
        (Some(row), rows) if rows.iter().any(|fits| std::ptr::eq(*fits, row)) => {
            let note = format!("{says}: as {} has it, from memory", row.designation);
            question.notes.push(note);
        }
        (None, [_, ..]) if question.partial.is_empty() => {
            let names: Vec<&str> = rows.iter().map(|row| row.designation.as_str()).collect();
            let note = format!("{says}: as {} has it, from memory", names.join(", "));
            question.notes.push(note);
            question.partial = rows;
        }
        (_, rows) => {
            for row in rows {
                let note = format!("{says}: as {} has it, from memory", row.designation);
                question.notes.push(note);
            }
            let wrong = named.filter(|_| figures.pitch_mm.is_some());
            question.notes.extend(wrong.map(pitch_of));
            question.not_understood.push(says);
        }
    }
}

/// `M45x1.5` behind `KM8`: a whole thread of another nut contradicts the number, and is no outside diameter of it.
fn is_other_thread(row: &StandardPart, readings: &[Reading]) -> bool {
    let [one, other] = readings else { return false };
    let (a, b) = (one.length.length.to_mm(), other.length.length.to_mm());
    let thread_mm = row
        .size
        .get(Dimension::ThreadDiameter)
        .map_or(0.0, |of| of.to_mm());
    one.role.is_none()
        && other.role.is_none()
        && a.min(b) <= COARSEST_MM
        && a.max(b) > COARSEST_MM
        && !(thread_mm - BELOW_THREAD_MM..=thread_mm + ABOVE_THREAD_MM).contains(&a.max(b))
}

/// The pitch of a thread that is near one of the tables, and is not its own: the table's is told.
pub(super) fn note_pitch(question: &mut Question) {
    if !question.family.is_some_and(has_thread) || !question.partial.is_empty() {
        return;
    }
    let designated = question.designated_size();
    let of_size = designated.and_then(|size| {
        let diameter = size.get(Dimension::ThreadDiameter)?.to_mm();
        Some((diameter, size.get(Dimension::ThreadPitch)?.to_mm()))
    });
    let mm: Vec<f64> = question
        .readings
        .iter()
        .map(|reading| reading.length.length.to_mm())
        .collect();
    let of_figures = match mm[..] {
        [one, other] => Some((one.max(other), one.min(other))),
        // No pitch was given: an ordinary thread of the diameter is coarser.
        [diameter] if question.is_pitch_open() => Some((diameter, 0.0)),
        _ => None,
    };
    let Some((diameter_mm, pitch_mm)) = of_size.or(of_figures) else {
        return;
    };
    let of = |row: &StandardPart, dimension| row.size.get(dimension).map(|of| of.to_mm());
    let is_near = |row: &&StandardPart| {
        let off_mm = of(row, Dimension::ThreadDiameter).map(|of| (of - diameter_mm).abs());
        off_mm.is_some_and(|off| off <= ABOVE_THREAD_MM)
    };
    let Some(row) = standard::of_family(Family::LockNut).iter().find(is_near) else {
        return;
    };
    let own_mm = of(row, Dimension::ThreadPitch);
    if own_mm.is_some_and(|own| (own - pitch_mm).abs() > SAME_PITCH_MM) {
        question.notes.push(pitch_of(row));
    }
}

/// The thread of a row, and how the pitches go.
fn pitch_of(row: &StandardPart) -> String {
    let mm = |dimension| row.size.get(dimension).map_or(0.0, |of| of.to_mm());
    format!(
        "{} has the thread M{}x{}: the pitch is 1.5 mm from M25 to M50 and 2 mm from M55 (ISO 2982-2); measure the pitch",
        row.designation,
        mm(Dimension::ThreadDiameter),
        mm(Dimension::ThreadPitch)
    )
}

/// What was read of a nut besides its thread, mm.
#[derive(Debug, Default, PartialEq)]
struct Outside {
    outside_mm: Option<f64>,
    width_mm: Option<f64>,
    /// A pitch that is not the one of the nut named.
    pitch_mm: Option<f64>,
}

impl Outside {
    /// Of a nut whose number is known every figure that is not its thread.
    fn take_beside(&mut self, row: &StandardPart, readings: &mut Vec<Reading>) {
        let of = |dimension| row.size.get(dimension).map_or(0.0, |of| of.to_mm());
        let (thread_mm, own_mm) = (of(Dimension::ThreadDiameter), of(Dimension::ThreadPitch));
        readings.retain(|reading| {
            let mm = reading.length.length.to_mm();
            let is_thread =
                (thread_mm - BELOW_THREAD_MM..=thread_mm + ABOVE_THREAD_MM).contains(&mm);
            match reading.role {
                Some(Role::Outer) => self.outside_mm = Some(mm),
                Some(Role::Width) => self.width_mm = Some(mm),
                Some(Role::Pitch) if (mm - own_mm).abs() > SAME_PITCH_MM => {
                    self.pitch_mm = Some(mm)
                }
                None if is_thread => return true,
                None if mm <= COARSEST_MM && (mm - own_mm).abs() > SAME_PITCH_MM => {
                    self.pitch_mm = Some(mm);
                }
                None if mm <= COARSEST_MM => return true,
                None if mm < thread_mm && mm <= WIDEST_MM => self.width_mm = Some(mm),
                None if mm < thread_mm => return true,
                None => self.outside_mm = Some(mm),
                Some(_) => return true,
            }
            false
        });
    }

    /// Of three figures the largest is the outside and the smallest the width, unless it is a pitch.
    fn take_unnamed(&mut self, readings: &mut Vec<Reading>) {
        readings.retain(|reading| {
            let mm = reading.length.length.to_mm();
            match reading.role {
                Some(Role::Outer) => self.outside_mm = Some(mm),
                Some(Role::Width) => self.width_mm = Some(mm),
                _ => return true,
            }
            false
        });
        let mm = |reading: &Reading| reading.length.length.to_mm();
        let is_open = |reading: &Reading| reading.role.is_none();
        let is_pitch =
            |reading: &Reading| reading.role == Some(Role::Pitch) || mm(reading) <= COARSEST_MM;
        let has_pitch = readings.iter().any(is_pitch);
        let others = |readings: &[Reading]| readings.iter().filter(|of| !is_pitch(of)).count();
        if self.width_mm.is_none() && !has_pitch && readings.len() == 3 {
            self.width_mm = take_at(readings, |a, b| mm(a) < mm(b), is_open);
        }
        if self.outside_mm.is_none() && others(readings) == 2 {
            self.outside_mm = take_at(readings, |a, b| mm(a) > mm(b), is_open);
        }
    }

    /// True where a row's remark says the same.
    fn are_of(&self, row: &StandardPart) -> bool {
        let agrees = |read: Option<f64>, name: &str, within_mm: f64| {
            read.is_none_or(|mm| {
                standard::noted(&row.note, name).is_some_and(|of| (of - mm).abs() <= within_mm)
            })
        };
        self.pitch_mm.is_none()
            && agrees(self.outside_mm, "outside diameter", OUTSIDE_WITHIN_MM)
            && agrees(self.width_mm, "width", WIDTH_WITHIN_MM)
    }

    fn says(&self) -> String {
        let figures = [
            ("outside diameter", self.outside_mm),
            ("width", self.width_mm),
            ("pitch", self.pitch_mm),
        ];
        let said: Vec<String> = figures
            .iter()
            .filter_map(|(name, mm)| Some(format!("{name} {} mm", (*mm)?)))
            .collect();
        said.join(", ")
    }
}

/// Takes the first of the readings in an order out of them, where it is open what it is of; gives its length, mm.
fn take_at(
    readings: &mut Vec<Reading>,
    is_before: impl Fn(&Reading, &Reading) -> bool,
    is_open: impl Fn(&Reading) -> bool,
) -> Option<f64> {
    let first = (0..readings.len()).reduce(|first, at| {
        if is_before(&readings[at], &readings[first]) {
            at
        } else {
            first
        }
    })?;
    is_open(&readings[first]).then(|| readings.remove(first).length.length.to_mm())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    /// DIN 981: KM8 is M40x1.5, 58 mm outside and 9 mm wide; KM9 is 65 mm outside; from memory.
    #[test]
    fn outside_and_width_tell_the_nut() {
        for text in [
            "lock nut 40 58 9",
            "lock nut od 58",
            "lock nut thread 38.4 od 58 w 9",
            "lock nut 40 58",
        ] {
            let question = read(text);
            let names: Vec<&str> = question
                .partial
                .iter()
                .map(|row| row.designation.as_str())
                .collect();
            assert_eq!(names, ["KM8"], "{text}");
            assert!(question.not_understood.is_empty(), "{text}");
        }
        let none = read("lock nut 40 59.5 9");
        assert!(none.partial.is_empty());
        assert_eq!(
            none.not_understood,
            ["outside diameter 59.5 mm, width 9 mm"]
        );
    }

    #[test]
    fn figures_beside_a_number_agree_or_speak_against_it() {
        for text in ["KM8 58 9", "KM8 od 58", "KM8 40 x 1.5", "KM8 width 9"] {
            assert!(read(text).not_understood.is_empty(), "{text}");
        }
        let other = read("KM8 od 65");
        assert_eq!(other.not_understood, ["outside diameter 65 mm"]);
        assert!(other.readings.is_empty());
        assert!(
            other.notes.iter().any(|note| note.contains("KM9")),
            "{:?}",
            other.notes
        );
    }

    /// ISO 2982-2: KM6 is M30x1.5 and KM5 M25x1.5; a figure of the thread is none of the outside or width.
    #[test]
    fn a_thread_of_another_nut_stays_a_figure() {
        for text in ["KM6 thread 25", "KM6 25", "KM6 Gewinde 25", "KM6 bore 25"] {
            let question = read(text);
            assert_eq!(question.readings.len(), 1, "{text}");
            assert!(question.not_understood.is_empty(), "{text}");
            let told = crate::lookup::answer(&question, None).warnings.join("; ");
            assert!(told.contains("contradict"), "{text}: {told}");
        }
        // A thread measured over the core of the nut is its own (ISO 724).
        let own = read("KM6 thread 28.4");
        let told = crate::lookup::answer(&own, None).warnings.join("; ");
        assert!(!told.contains("contradict"), "{told}");
        for text in ["Nutmutter KM5", "lock nut KM5 worn"] {
            let designation = read(text).designation;
            assert_eq!(designation.map(|read| read.basic), Some("KM5".to_owned()));
        }
    }

    /// ISO 2982-2: KM10 is M50x1.5, KM11 is M55x2.
    #[test]
    fn the_pitch_of_the_table_is_told() {
        for (text, says) in [
            ("lock nut M50x2", "KM10 has the thread M50x1.5"),
            ("lock nut M55x1.5", "KM11 has the thread M55x2"),
            ("KM11 M55x1.5", "KM11 has the thread M55x2"),
            // Which pitch it has was not read.
            ("lock nut 40", "KM8 has the thread M40x1.5"),
        ] {
            let notes = read(text).notes.join("; ");
            assert!(notes.contains(says), "{text}: {notes}");
        }
        for text in ["lock nut M50x1.5", "KM8"] {
            assert!(read(text).notes.is_empty(), "{text}");
        }
    }
}
