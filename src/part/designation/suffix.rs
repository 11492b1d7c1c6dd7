//! Reads what follows a bearing's basic designation (DIN 623-1); keeps what no standard explains.

use super::elastomer::elastomer;
use super::in_words;
use super::parsed::Designation;
use super::text::tokens;
use crate::part::{BoreForm, Clearance, Closure, ContactAngle, ToleranceClass};

/// What one suffix says.
#[derive(Debug, Clone, Copy)]
enum Meaning {
    Closure(Closure),
    Clearance(Clearance),
    Class(ToleranceClass),
    ClassAndClearance(ToleranceClass, Clearance),
    Bore(BoreForm),
    Groove,
    GrooveAndRing,
    Angle(u8),
    Arrangement(&'static str),
    Cage,
    Variant(&'static str),
    Stabilised,
    /// Part of the number, and the design that it tells.
    Basic(&'static str, Option<&'static str>),
}

/// More suffixes than this written in one piece are taken for a code of another kind.
const MOST_IN_ONE_PIECE: usize = 3;

/// Reads the suffixes into the designation; `None` where a bare number of three digits or more shows that it is not one.
pub(super) fn read(designation: &mut Designation, rest: &str) -> Option<()> {
    let tokens: Vec<&str> = tokens(rest).collect();
    let closed_up = closed_up(&tokens, designation);
    let tokens: Vec<&str> = match &closed_up {
        Some(closed_up) => closed_up.iter().map(String::as_str).collect(),
        None => tokens,
    };
    in_words::each(designation, &tokens, read_one)?;
    take_elastomer(designation);
    leave_open(designation);
    Some(())
}

/// The pieces with the blanks inside marks left out: `P 6`, `2 RS`; `None` where there are none. `K` is a mark
/// by itself: `22206 K 30` may go on with the sizes.
fn closed_up(tokens: &[&str], designation: &Designation) -> Option<Vec<String>> {
    let mut at = (0..tokens.len()).find(|at| is_parted(tokens, *at, designation))?;
    let mut all: Vec<String> = tokens[..at].iter().map(|of| (*of).to_owned()).collect();
    while let Some(token) = tokens.get(at) {
        let is_parted = is_parted(tokens, at, designation);
        all.push(match tokens.get(at + 1).filter(|_| is_parted) {
            Some(rest) => format!("{token}{rest}"),
            None => (*token).to_owned(),
        });
        at += 1 + usize::from(is_parted);
    }
    Some(all)
}

/// True where a mark of DIN 623-1 begins at a place and ends in the next piece.
fn is_parted(tokens: &[&str], at: usize, designation: &Designation) -> bool {
    let (Some(&first), Some(&rest)) = (tokens.get(at), tokens.get(at + 1)) else {
        return false;
    };
    if first.len() > 1 {
        return false;
    }
    let is_digits = |token: &str| !token.is_empty() && token.bytes().all(|b| b.is_ascii_digit());
    let mark = format!("{first}{rest}");
    match first {
        // `7210 C` has a contact angle of 15 degrees.
        "C" => {
            let angles = designation.family.map(|of| of.facts().marks.angles);
            let is_angle = angles.is_some_and(|angles| among(angles, first).is_some());
            is_digits(rest) && !is_angle && Clearance::from_code(&mark).is_some()
        }
        "P" => is_digits(rest) && class_or_clearance(&mark).is_some(),
        "2" => !is_digits(rest) && closure(&mark, designation).is_some(),
        "Z" | "N" | "D" => {
            matches!(mark.as_str(), "ZZ" | "NR" | "DB" | "DF" | "DT")
                && meaning(&mark, designation).is_some()
        }
        _ => false,
    }
}

/// Where a mark was refused since one before it says otherwise, neither is known: `C2 C3` leaves the clearance open.
fn leave_open(designation: &mut Designation) {
    /// Takes out a value that is not the other one.
    fn take_other<T: PartialEq + ToString>(
        slot: &mut Option<T>,
        other: Option<T>,
    ) -> Option<String> {
        let is_other = slot.is_some() && other.is_some() && *slot != other;
        slot.take_if(|_| is_other).map(|known| known.to_string())
    }
    for mark in designation.traits.unknown_suffixes.clone() {
        let Some(meaning) = meaning(&mark, designation) else {
            continue;
        };
        let said = Said::of(meaning);
        let traits = &mut designation.traits;
        let first = [
            take_other(&mut traits.closure, said.closure),
            take_other(&mut traits.clearance, said.clearance),
            take_other(&mut traits.tolerance_class, said.class),
        ];
        let at = traits.unknown_suffixes.iter().position(|of| *of == mark);
        let at = at.unwrap_or_default();
        traits
            .unknown_suffixes
            .splice(at..at, first.into_iter().flatten());
    }
}

/// What a mark says of closure, clearance and class, of each of which a bearing has one.
#[derive(Default)]
struct Said {
    closure: Option<Closure>,
    clearance: Option<Clearance>,
    class: Option<ToleranceClass>,
}

impl Said {
    fn of(meaning: Meaning) -> Self {
        let mut said = Self::default();
        match meaning {
            Meaning::Closure(closure) => said.closure = Some(closure),
            Meaning::Clearance(clearance) => said.clearance = Some(clearance),
            Meaning::Class(class) => said.class = Some(class),
            Meaning::ClassAndClearance(class, clearance) => {
                said.class = Some(class);
                said.clearance = Some(clearance);
            }
            _ => {}
        }
        said
    }

    fn of_mark(mark: &str) -> Self {
        let closure = closure_of(mark).map(Meaning::Closure);
        let meaning = closure.or_else(|| class_or_clearance(mark));
        meaning.map(Self::of).unwrap_or_default()
    }
}

/// True for two marks that say different things of one matter: `C2` and `C3`, `2RS` and `2Z` (DIN 623-1), `NBR` and `FKM`
/// (ISO 1629).
pub fn contradict(first: &str, other: &str) -> bool {
    fn differ<T: PartialEq>(first: Option<T>, other: Option<T>) -> bool {
        first.is_some() && other.is_some() && first != other
    }
    if differ(elastomer(first), elastomer(other)) {
        return true;
    }
    let (first, other) = (Said::of_mark(first), Said::of_mark(other));
    differ(first.closure, other.closure)
        || differ(first.clearance, other.clearance)
        || differ(first.class, other.class)
}

/// True for marks of one face each, closed by different things: `RS` and `Z` (DIN 623-1).
pub fn close_a_face_each(first: &str, other: &str) -> bool {
    let one_face = |mark: &str| closure_of(mark).filter(|_| !mark.starts_with('2') && mark != "ZZ");
    let by = |mark: &str| one_face(mark).and_then(Closure::closed_by);
    let (first, other) = (by(first), by(other));
    first.is_some() && other.is_some() && first != other
}

/// Reads one piece that is no word of the trade.
fn read_one(designation: &mut Designation, token: &str) -> Option<()> {
    let is_number = token.bytes().all(|b| b.is_ascii_digit());
    if is_number && token.len() >= 3 {
        return None;
    }
    let Some(pieces) = decompose(token, designation, MOST_IN_ONE_PIECE) else {
        designation.add_unknown(token);
        return Some(());
    };
    for (piece, meaning) in pieces {
        if !apply(designation, piece, meaning) {
            designation.add_unknown(piece);
        }
    }
    Some(())
}

/// Shortest symbol taken for an elastomer: one of two letters may be anything.
const SHORTEST_SYMBOL: usize = 3;

/// `2RS FKM`: the elastomer behind a rubbing seal is the seal's (ISO 1629).
fn take_elastomer(designation: &mut Designation) {
    let traits = &mut designation.traits;
    // Rubbing seals only: of the others no rule looks at the rubber.
    let is_sealed = matches!(
        traits.closure,
        Some(Closure::SealOneSide | Closure::SealBothSides)
    );
    let symbol = |token: &String| elastomer(token).filter(|of| of.len() >= SHORTEST_SYMBOL);
    let mut named = traits.unknown_suffixes.iter().filter_map(symbol);
    if let (true, Some(only), None) = (is_sealed, named.next(), named.next()) {
        traits
            .unknown_suffixes
            .retain(|token| symbol(token).is_none());
        traits.material = Some(only.to_owned());
    }
}

/// Takes a token apart into known suffixes, longest first; `None` where letters would be left over.
fn decompose<'a>(
    token: &'a str,
    designation: &Designation,
    pieces_left: usize,
) -> Option<Vec<(&'a str, Meaning)>> {
    if token.is_empty() {
        return Some(Vec::new());
    }
    if pieces_left == 0 {
        return None;
    }
    for length in (1..=token.len().min(4)).rev() {
        let Some((piece, rest)) = token.split_at_checked(length) else {
            continue;
        };
        let Some(meaning) = meaning(piece, designation) else {
            continue;
        };
        if let Some(mut pieces) = decompose(rest, designation, pieces_left - 1)
            && pieces
                .first()
                .is_none_or(|(_, next)| may_follow(meaning, *next))
        {
            pieces.insert(0, (piece, meaning));
            return Some(pieces);
        }
    }
    None
}

/// True where DIN 623-1 writes the second directly behind the first; other runs of letters (`VV`, `2RSL`, `NMA`) are
/// somebody's own code and must not be read as two of the standard's.
fn may_follow(first: Meaning, next: Meaning) -> bool {
    use Meaning as M;
    let is_class = matches!(
        next,
        M::Class(_) | M::Clearance(_) | M::ClassAndClearance(..)
    );
    match first {
        M::Angle(_) | M::Variant(_) | M::Basic(..) => {
            is_class || matches!(next, M::Cage | M::Bore(_) | M::Arrangement(_))
        }
        M::Closure(_) => is_class || matches!(next, M::Groove | M::GrooveAndRing),
        M::Bore(_) => is_class || matches!(next, M::Closure(_)),
        M::Cage | M::Groove | M::GrooveAndRing | M::Arrangement(_) => is_class,
        M::Class(_) => matches!(next, M::Clearance(_) | M::Arrangement(_)),
        M::Clearance(_) | M::ClassAndClearance(..) | M::Stabilised => false,
    }
}

fn meaning(piece: &str, designation: &Designation) -> Option<Meaning> {
    closure(piece, designation)
        .or_else(|| class_or_clearance(piece))
        .or_else(|| of_family(piece, designation))
        .or_else(|| cage(piece))
}

fn closure(piece: &str, designation: &Designation) -> Option<Meaning> {
    let closures = designation.family.map(|of| of.facts().marks.closures);
    let may_close = closures.is_some_and(|which| which.holds(designation.traits.rows));
    let closure = closure_of(piece)?;
    may_close.then_some(Meaning::Closure(closure))
}

/// What a mark closes, if it does.
fn closure_of(piece: &str) -> Option<Closure> {
    match piece {
        // The JIS B 1521 spelling of 2Z.
        "ZZ" => Some(Closure::ShieldBothSides),
        _ => Closure::from_code(piece).filter(|closure| *closure != Closure::Open),
    }
}

fn class_or_clearance(piece: &str) -> Option<Meaning> {
    if let Some(clearance) = Clearance::from_code(piece) {
        return Some(Meaning::Clearance(clearance));
    }
    if piece == "PN" {
        return Some(Meaning::Class(ToleranceClass::Normal));
    }
    if let Some(class) = ToleranceClass::from_code(piece) {
        return Some(Meaning::Class(class));
    }
    // P52 is P5 with C2, P63 is P6 with C3 (DIN 623-1: the C is left out).
    let combined = piece.strip_prefix('P').filter(|digits| digits.len() == 2)?;
    let (class, clearance) = combined.split_at_checked(1)?;
    let class = ToleranceClass::from_code(&format!("P{class}"))
        .filter(|class| *class != ToleranceClass::Normal)?;
    let clearance = Clearance::from_code(&format!("C{clearance}"))?;
    Some(Meaning::ClassAndClearance(class, clearance))
}

/// What a mark says that only some families carry.
fn of_family(piece: &str, designation: &Designation) -> Option<Meaning> {
    let marks = &designation.family?.facts().marks;
    // The angle of a four-point bearing is that of its series.
    let has_angle_letter =
        designation.traits.rows == Some(1) && !designation.basic.starts_with("QJ");
    let groove = match piece {
        "N" => Some(Meaning::Groove),
        "NR" => Some(Meaning::GrooveAndRing),
        _ => None,
    };
    let letters = &mut marks.number_letters.iter();
    let letter = letters.find(|(letter, _)| *letter == piece);
    let is_stabilised = matches!(piece, "S0" | "S1" | "S2" | "S3" | "S4");
    (among(marks.tapers, piece).map(Meaning::Bore))
        .or(groove.filter(|_| marks.may_have_snap_ring))
        .or_else(|| {
            let angle = among(marks.angles, piece).filter(|_| has_angle_letter);
            angle.map(Meaning::Angle)
        })
        .or_else(|| among(marks.arrangements, piece).map(Meaning::Arrangement))
        .or_else(|| letter.map(|(letter, design)| Meaning::Basic(letter, *design)))
        .or_else(|| among(marks.designs, piece).map(Meaning::Variant))
        .or_else(|| is_stabilised.then_some(Meaning::Stabilised))
}

/// What a mark says in a list.
fn among<T: Copy>(list: &[(&str, T)], mark: &str) -> Option<T> {
    let found = list.iter().find(|(of, _)| *of == mark);
    found.map(|(_, says)| *says)
}

/// Cage letters of DIN 623-1: material, with the letters for its guidance.
fn cage(piece: &str) -> Option<Meaning> {
    const CAGES: [&str; 20] = [
        "M", "MA", "MB", "MP", "MS", "J", "JA", "JB", "Y", "F", "FA", "FB", "L", "LA", "LB", "T",
        "TA", "TB", "TN", "V",
    ];
    CAGES.contains(&piece).then_some(Meaning::Cage)
}

/// Writes one suffix into the traits; false where it was said before in another way.
fn apply(designation: &mut Designation, piece: &str, meaning: Meaning) -> bool {
    /// Sets a value unless another one is there.
    fn set<T: PartialEq>(slot: &mut Option<T>, value: T) -> bool {
        match slot {
            Some(known) => *known == value,
            None => {
                *slot = Some(value);
                true
            }
        }
    }
    let traits = &mut designation.traits;
    match meaning {
        Meaning::Closure(closure) => set(&mut traits.closure, closure),
        Meaning::Clearance(clearance) => set(&mut traits.clearance, clearance),
        Meaning::Class(class) => set(&mut traits.tolerance_class, class),
        Meaning::ClassAndClearance(class, clearance) => {
            set(&mut traits.tolerance_class, class) && set(&mut traits.clearance, clearance)
        }
        Meaning::Bore(form) => set(&mut traits.bore_form, form),
        Meaning::Groove => set(&mut traits.has_snap_ring_groove, true),
        Meaning::GrooveAndRing => {
            traits.has_snap_ring_groove = Some(true);
            designation.traits.add_variant("snap ring fitted (NR)");
            true
        }
        Meaning::Angle(degrees) => set(&mut traits.contact_angle, ContactAngle(degrees)),
        Meaning::Arrangement(arrangement) => {
            if piece.len() == 2 && piece.starts_with('U') {
                traits.preload_class = Some(piece.to_owned());
            }
            set(&mut traits.arrangement, arrangement.to_owned())
        }
        Meaning::Cage => set(&mut traits.cage, piece.to_owned()),
        Meaning::Variant(text) => {
            designation.traits.add_variant(text);
            true
        }
        Meaning::Stabilised => {
            designation
                .traits
                .add_variant(&format!("dimensionally stabilised ({piece})"));
            true
        }
        Meaning::Basic(letter, design) => {
            designation.basic.push_str(letter);
            if let Some(design) = design {
                designation.traits.add_variant(design);
            }
            true
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// DIN 623-1: a bearing has one clearance, one class and one closure.
    #[test]
    fn marks_that_contradict_each_other_leave_open_what_they_speak_of() {
        for (text, unknown) in [
            ("6205 C2 C3", &["C2", "C3"][..]),
            ("6205-2RS/C2/C3", &["C2", "C3"]),
            ("6205 P6 C3 P5", &["P6", "P5"]),
            ("6205 2RS/ZZ", &["2RS", "ZZ"]),
            ("6205-RS-Z", &["RS", "Z"]),
            ("6205 C2 P63", &["C2", "P63"]),
            ("6205 C2 C3 C4", &["C2", "C3", "C4"]),
            ("6205 C3 C3", &[]),
            ("6205 P6 P63", &[]),
        ] {
            let read = Designation::parse(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(read.traits.unknown_suffixes, unknown, "{text}");
            let speaks =
                |of: fn(&Said) -> bool| unknown.iter().any(|mark| of(&Said::of_mark(mark)));
            if speaks(|said| said.closure.is_some()) {
                assert_eq!(read.traits.closure, None, "{text}");
            }
            if speaks(|said| said.clearance.is_some()) {
                assert_eq!(read.traits.clearance, None, "{text}");
            }
        }
        let kept = Designation::parse("6205-2RS/C2/C3").map(|read| read.traits.closure);
        assert_eq!(kept, Some(Some(Closure::SealBothSides)));
        let kept = Designation::parse("6205 P6 C3 P5").map(|read| read.traits);
        let kept = kept.map(|traits| (traits.clearance, traits.tolerance_class));
        assert_eq!(kept, Some((Some(Clearance::C3), None)));
    }

    #[test]
    fn one_seal_and_one_shield_have_a_face_each() {
        for (first, other, is_contrary, is_a_face_each) in [
            ("RS", "Z", true, true),
            ("2RS", "ZZ", true, false),
            ("RS", "2Z", true, false),
            ("C2", "C3", true, false),
            ("P6", "P53", true, false),
            ("P6", "C3", false, false),
            ("XY", "C3", false, false),
            ("NBR", "FKM", true, false),
            ("FPM", "FKM", false, false),
            ("NBR", "C3", false, false),
        ] {
            assert_eq!(contradict(first, other), is_contrary, "{first} {other}");
            let each = close_a_face_each(first, other);
            assert_eq!(each, is_a_face_each, "{first} {other}");
        }
    }

    /// DIN 623-1: marks are written in one piece; a blank inside one is a habit of typing.
    #[test]
    fn a_blank_inside_a_mark_is_left_out() {
        for (text, as_text) in [
            ("6308 P 6", "6308 P6"),
            ("6308 P 6 C 3", "6308 P6 C3"),
            ("6308 C 3", "6308 C3"),
            ("6308 P 63", "6308 P63"),
            ("6308 2 RS", "6308 2RS"),
            ("6308 2 RS C 3", "6308 2RS C3"),
            ("6308 Z Z", "6308 ZZ"),
            ("6308 N R", "6308 NR"),
            ("7210 B D B", "7210 B DB"),
        ] {
            let of = |text: &str| Designation::parse(text).map(|read| read.traits);
            assert_eq!(of(text), of(as_text), "{text}");
            let unknown = of(text).map(|traits| traits.unknown_suffixes);
            assert_eq!(unknown, Some(Vec::new()), "{text}");
        }
        // What is no mark of the standard stays in pieces.
        for (text, unknown) in [
            ("6308 P 7", &["P", "7"][..]),
            ("7210 C 3", &["3"]),
            ("22212 K 30", &["30"]),
        ] {
            let read = Designation::parse(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(read.traits.unknown_suffixes, unknown, "{text}");
        }
    }
}
