//! Reads what was measured of an O-ring's groove: `groove floor 38.1 depth 2.87 width 4.6`, `groove 4.6 x 2.87`.

use super::figure::is_size;
use super::named_by_kind::has_section;
use super::{Question, inch, over_groove, short_words};
use crate::import::family_in;
use crate::limit::Duty;
use crate::units::{LengthUnit, read_size};

/// Words that begin the description of a groove.
const BEGINS: [&str; 5] = ["groove", "gland", "nut", "einstich", "gorge"];
const FLOOR: [&str; 10] = [
    "floor",
    "dia",
    "diameter",
    "ø",
    "on",
    "bottom",
    "grund",
    "fond",
    "nutgrund",
    "nutdurchmesser",
];
const DEPTH: [&str; 7] = [
    "depth",
    "deep",
    "tiefe",
    "tief",
    "profondeur",
    "t",
    "nuttiefe",
];
const WIDTH: [&str; 8] = [
    "width",
    "wide",
    "breite",
    "breit",
    "largeur",
    "b",
    "w",
    "nutbreite",
];
/// Words that stand behind their figure: `2.87 deep`.
const BEHIND: [&str; 4] = ["deep", "tief", "wide", "breit"];
/// The bore that a piston's ring seals against.
const BORE: [&str; 7] = [
    "bore",
    "cylinder",
    "housing",
    "bohrung",
    "zylinder",
    "zylinderbohrung",
    "alésage",
];
/// The rod that a ring in its gland seals against; `shaft` is one where the text speaks of a rod.
const ROD: [&str; 4] = ["rod", "stange", "kolbenstange", "tige"];
const SHAFT: [&str; 3] = ["shaft", "welle", "arbre"];
/// Words between a ring and its groove.
const LINKS: [&str; 12] = [
    "in", "im", "dans", "with", "mit", "avec", "the", "a", "der", "einer", "la", "une",
];
/// Deeper than any groove of the tables, mm: the thickest ring is 6.99 mm (SAE AS568), and a groove is less than twice as wide.
const MOST_DEPTH_MM: f64 = 14.0;
/// Names that say by themselves that they are of a groove.
const WHOLE: &str = "nut";

/// What the ring does, by the words of the bench.
const DUTIES: [(&str, Duty); 10] = [
    ("face", Duty::StaticFace),
    ("flange", Duty::StaticFace),
    ("reciprocating", Duty::Reciprocating),
    ("moving", Duty::Reciprocating),
    ("dynamic", Duty::Reciprocating),
    ("piston", Duty::Reciprocating),
    ("kolben", Duty::Reciprocating),
    ("rod", Duty::Reciprocating),
    ("static", Duty::StaticRadial),
    ("radial", Duty::StaticRadial),
];

/// Which figure of the groove a word names.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Named {
    Floor,
    Depth,
    Width,
    /// The bore over a piston's groove.
    Bore,
    /// The rod inside of a gland.
    Rod,
}

/// A piece of the description of a groove.
#[derive(Clone, Copy, PartialEq)]
enum Piece {
    Figure(f64),
    /// What a figure is of, and whether its word stands behind the figure.
    Name(Named, bool),
}

/// Where the description of a groove begins that is not called so: `o-ring 25x3 floor 25.5 depth 2.6 width 4`.
///
/// No ring has a floor or a depth; a width is the groove's where the ring's size stands before it.
fn begin_by_name(words: &[&str]) -> Option<usize> {
    const OF_GROOVE_ONLY: [&str; 4] = ["floor", "depth", "tiefe", "profondeur"];
    let bare = |word: &str| word.trim_matches([',', ';', ':', '=']).to_lowercase();
    let has_figure = |at: usize| {
        words
            .get(at + 1)
            .is_some_and(|next| single_figure(&bare(next)).is_some())
    };
    let is_own = |at: usize| OF_GROOVE_ONLY.contains(&bare(words[at]).as_str()) && has_figure(at);
    let first = (0..words.len()).find(|at| is_own(*at))?;
    let has_size = |before: usize| words[..before].iter().any(|word| is_size(word));
    let is_width = |at: &usize| {
        let lower = bare(words[*at]);
        lower.len() > 1 && named(&lower) == Some(Named::Width) && has_figure(*at) && has_size(*at)
    };
    Some((0..first).find(is_width).unwrap_or(first))
}

/// Takes the groove out of the text of an O-ring; gives what is left.
pub(super) fn take(question: &mut Question, text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let bare = |word: &str| word.trim_matches([',', ';', ':', '=']).to_lowercase();
    let is_begin = |word: &&str| {
        let lower = bare(word);
        BEGINS.contains(&lower.as_str()) || lower.starts_with(WHOLE) && named(&lower).is_some()
    };
    let begins = [words.iter().position(is_begin), begin_by_name(&words)];
    let Some(begin) = begins.into_iter().flatten().min() else {
        return text.to_owned();
    };
    let family = family_in(text).or_else(|| short_words::family_in_short(text));
    let has_568 = text.as_bytes().windows(3).any(|window| window == b"568");
    // Beside an own number the family is that of the shop's part.
    let mut families = [family, question.family].into_iter().flatten();
    let is_ring = families.any(has_section) || has_568 && text.to_uppercase().contains("AS568");
    if !is_ring {
        return text.to_owned();
    }
    let mut pieces = Vec::new();
    let mut end = begin;
    while let Some(word) = words.get(end) {
        let lower = bare(word);
        let opposite = opposite(&lower, text).filter(|_| {
            let is_of_one = |word: &&&str| {
                !matches!(bare(word).as_str(), "dia" | "diameter" | "ø" | "of" | "is")
            };
            let next = words[end + 1..].iter().find(is_of_one);
            next.is_some_and(|next| figures(&bare(next)).is_some_and(|read| read.len() == 1))
        });
        if let Some(named) = opposite {
            // A rod moves.
            question.groove.duty = duty(&lower).or(question.groove.duty);
            pieces.push(Piece::Name(named, false));
        } else if let Some(named) = named(&lower) {
            let name = Piece::Name(named, BEHIND.contains(&lower.as_str()));
            // `floor dia 45.2` is one name.
            let is_second = matches!(pieces.last(), Some(Piece::Name(before, _))
                if *before == named || named == Named::Floor && is_opposite(*before));
            if !is_second {
                pieces.push(name);
            }
        } else if let Some(duty) = duty(&lower) {
            question.groove.duty = Some(duty);
        } else if let Some(figures) = figures_in_unit(&words, end, &lower) {
            pieces.extend(figures.into_iter().map(Piece::Figure));
            end += usize::from(inch::is_inch(&words, end + 1));
        } else if LINKS.contains(&lower.as_str()) && goes_on(&words[end..], text, is_begin) {
            // `depth 2.6 in groove floor 25.5`, `floor 40 in bore 44.8`
        } else if !BEGINS.contains(&lower.as_str())
            && !matches!(
                lower.as_str(),
                "x" | "by" | "mm" | "is" | "of" | "and" | "seal"
            )
        {
            break;
        }
        end += 1;
    }
    let is_gland = bare(words[begin]) == "gland";
    let mut over = match pieces[..] {
        // Which diameter of a gland it is nobody said.
        [Piece::Figure(mm)] if is_gland && mm > MOST_DEPTH_MM => {
            question.not_understood.push(format!("gland of {mm} mm"));
            Vec::new()
        }
        _ => keep(question, &pieces),
    };
    let before = over_groove::before(&words[..begin], text, question.groove.floor_mm);
    over.extend(before.iter().map(|of| (of.named, of.mm)));
    over_groove::settle(question, &over);
    let mut rest = before_groove(question, &words[..begin], &before);
    rest.extend(&words[end..]);
    rest.join(" ")
}

/// The words in front of a groove without what lies opposite it and what the ring does there, which is kept.
fn before_groove<'a>(
    question: &mut Question,
    words: &[&'a str],
    before: &[over_groove::Over],
) -> Vec<&'a str> {
    let bare = |word: &str| word.trim_matches([',', ';', ':', '=']).to_lowercase();
    let mut rest = Vec::with_capacity(words.len());
    for (at, word) in words.iter().enumerate() {
        if let Some(over) = before.iter().find(|of| of.range.contains(&at)) {
            let moves = (over.named == Named::Rod).then_some(Duty::Reciprocating);
            question.groove.duty = question.groove.duty.or(moves);
            continue;
        }
        // `face seal groove`, `reciprocating, groove`: what the ring does may stand before its groove too.
        match duty(&bare(word)) {
            Some(duty) => question.groove.duty = question.groove.duty.or(Some(duty)),
            None => rest.push(*word),
        }
    }
    // `in the rod groove`: what the groove was named with went.
    while rest
        .last()
        .is_some_and(|word| LINKS.contains(&bare(word).as_str()))
    {
        rest.pop();
    }
    rest
}

/// True where a link leads to the groove again, or to what lies opposite it with its figure.
fn goes_on(words: &[&str], text: &str, is_begin: impl Fn(&&str) -> bool) -> bool {
    let bare = |word: &str| word.trim_matches([',', ';', ':', '=']).to_lowercase();
    let is_link = |word: &&&str| LINKS.contains(&bare(word).as_str());
    let behind = &words[words.iter().take_while(is_link).count()..];
    let is_opposite = |name: &&str| {
        let has_figure = |word: &&str| single_figure(&bare(word)).is_some();
        opposite(&bare(name), text).is_some() && behind.get(1).is_some_and(has_figure)
    };
    behind
        .first()
        .is_some_and(|word| is_begin(word) || is_opposite(word))
}

fn duty(lower: &str) -> Option<Duty> {
    let known = DUTIES.iter().find(|(known, _)| *known == lower);
    known.map(|(_, duty)| *duty)
}

/// Gives every figure of a groove to its name: that behind it, or that before it where none follows; gives what lies
/// opposite the groove.
fn keep(question: &mut Question, pieces: &[Piece]) -> Vec<(Named, f64)> {
    let mut opposite = Vec::new();
    let is_figure = |at: Option<usize>| match at.and_then(|at| pieces.get(at)) {
        Some(Piece::Figure(mm)) => Some(*mm),
        _ => None,
    };
    // `45.2 dia 4 width 2.4 depth`: every figure has its name behind it.
    let names = pieces
        .iter()
        .filter(|piece| matches!(piece, Piece::Name(..)));
    let are_behind = names.count() * 2 == pieces.len()
        && (0..pieces.len())
            .step_by(2)
            .all(|at| is_figure(Some(at)).is_some() && is_figure(Some(at + 1)).is_none());
    let mut is_taken = vec![false; pieces.len()];
    for (at, piece) in pieces.iter().enumerate() {
        let Piece::Name(named, is_behind) = piece else {
            continue;
        };
        let before = at.checked_sub(1).filter(|before| !is_taken[*before]);
        let before = before.filter(|before| is_figure(Some(*before)).is_some());
        let after = Some(at + 1).filter(|after| is_figure(Some(*after)).is_some());
        let of_it = if *is_behind || are_behind {
            before.or(after)
        } else {
            after.or(before)
        };
        if let Some((of_it, mm)) = of_it.and_then(|of_it| Some((of_it, is_figure(Some(of_it))?))) {
            is_taken[of_it] = true;
            if is_opposite(*named) {
                opposite.push((*named, mm));
            } else {
                set(question, *named, mm);
            }
        }
    }
    // Unnamed: a groove is written width by depth, and the floor is the large one.
    let mut open: Vec<f64> = (0..pieces.len())
        .filter(|at| !is_taken[*at])
        .filter_map(|at| is_figure(Some(at)))
        .collect();
    open.sort_by(f64::total_cmp);
    // No groove is so deep or wide: `piston groove 44.6` is its floor.
    if is_free(question, Named::Floor)
        && let Some(floor_mm) = open.pop_if(|mm| *mm > MOST_DEPTH_MM)
    {
        set(question, Named::Floor, floor_mm);
    }
    let order = [Named::Depth, Named::Width, Named::Floor];
    let free = order.into_iter().filter(|named| is_free(question, *named));
    let pairs: Vec<(Named, f64)> = free.zip(open).collect();
    for (named, mm) in pairs {
        set(question, named, mm);
    }
    opposite
}

/// What a word names of the part that a groove's ring seals against.
pub(super) fn opposite(lower: &str, text: &str) -> Option<Named> {
    let speaks_of_rod = || {
        let mut words = text.split_whitespace().map(str::to_lowercase);
        words.any(|word| ROD.contains(&word.as_str()))
    };
    if BORE.contains(&lower) {
        Some(Named::Bore)
    } else if ROD.contains(&lower) || SHAFT.contains(&lower) && speaks_of_rod() {
        Some(Named::Rod)
    } else {
        None
    }
}

const fn is_opposite(named: Named) -> bool {
    matches!(named, Named::Bore | Named::Rod)
}

fn named(lower: &str) -> Option<Named> {
    let is = |words: &[&str]| words.contains(&lower);
    if is(&FLOOR) {
        Some(Named::Floor)
    } else if is(&DEPTH) {
        Some(Named::Depth)
    } else if is(&WIDTH) {
        Some(Named::Width)
    } else {
        None
    }
}

/// One length, mm.
pub(super) fn single_figure(word: &str) -> Option<f64> {
    match figures(word)?[..] {
        [mm] => Some(mm),
        _ => None,
    }
}

/// Figures at a place, mm, read in the inches that may stand behind them: `floor 1.5 in, bore 1.75 in`.
fn figures_in_unit(words: &[&str], at: usize, lower: &str) -> Option<Vec<f64>> {
    match inch::is_inch(words, at + 1) {
        true => figures(&format!("{lower}\"")),
        false => figures(lower),
    }
}

fn figures(word: &str) -> Option<Vec<f64>> {
    if !word.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        return None;
    }
    let lengths = read_size(word, LengthUnit::Mm).ok()?;
    Some(lengths.iter().map(|read| read.length.to_mm()).collect())
}

const fn is_free(question: &Question, named: Named) -> bool {
    let groove = &question.groove;
    match named {
        Named::Floor => groove.floor_mm.is_none(),
        Named::Depth => groove.depth_mm.is_none(),
        Named::Width => groove.width_mm.is_none(),
        Named::Bore | Named::Rod => false,
    }
}

const fn set(question: &mut Question, named: Named, mm: f64) {
    let groove = &mut question.groove;
    match named {
        Named::Floor => groove.floor_mm = Some(mm),
        Named::Depth => groove.depth_mm = Some(mm),
        Named::Width => groove.width_mm = Some(mm),
        Named::Bore | Named::Rod => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_ring_does_may_stand_before_its_groove() {
        for (text, duty) in [
            (
                "o-ring 45x3 face seal groove 4 x 2.4",
                Some(Duty::StaticFace),
            ),
            (
                "o-ring 45x3 reciprocating, groove 4 x 2.4",
                Some(Duty::Reciprocating),
            ),
            (
                "o-ring 45x3 static groove face 4 x 2.4",
                Some(Duty::StaticFace),
            ),
            ("o-ring 45x3 groove 4 x 2.4", None),
            // Without a groove there is nothing for a ring to do.
            ("o-ring 45x3", None),
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.groove.duty, duty, "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
    }

    /// Definition of the inch: 1.5 in is 38.1 mm; half of 1.75 in less 1.5 in is 3.175 mm.
    #[test]
    fn inches_behind_figures_of_a_groove_are_theirs() {
        for text in [
            "o-ring groove floor 1.5 in, bore 1.75 in",
            "o-ring groove floor 1.5 inch bore 1.75 inch",
        ] {
            let question = Question::read(text).unwrap();
            let groove = question.groove;
            let is = |found: Option<f64>, mm: f64| found.is_some_and(|of| (of - mm).abs() < 1e-3);
            assert!(is(groove.floor_mm, 38.1), "{text}: {groove:?}");
            assert!(is(groove.depth_mm, 3.175), "{text}: {groove:?}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
        let link = Question::read("o-ring groove floor 40 in bore 44.8").unwrap();
        assert_eq!(link.groove.floor_mm, Some(40.0));
    }

    /// Arithmetic: a ring of 3 mm touches nothing in a gland 12 mm deep, nor is it squeezed by minus 300 %.
    #[test]
    fn a_depth_that_holds_no_such_ring_is_a_wrong_figure() {
        for (text, depth, is_told) in [
            ("O-ring 40x3 in gland 12", None, true),
            ("O-ring 40x3 groove depth 9", None, true),
            ("O-ring 40x3 groove depth 3.2", Some(3.2), false),
            ("O-ring 40x3 groove depth 2.4", Some(2.4), false),
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.groove.depth_mm, depth, "{text}");
            let told = question.notes.join("; ");
            assert_eq!(
                told.contains("one of the two figures is wrong"),
                is_told,
                "{text}: {told}"
            );
        }
    }

    /// Arithmetic: a groove 2.5 mm deep in a piston of a 40 mm bore has its floor at 35 mm; in a rod's gland the ring lies on
    /// the rod.
    #[test]
    fn the_bore_over_a_groove_tells_its_floor() {
        for (text, floor, duty) in [
            (
                "o-ring groove bore 40 depth 2.5 width 4.2 piston",
                Some(35.0),
                Some(Duty::Reciprocating),
            ),
            (
                "o-ring groove depth 2.5 width 4.2 bore 40",
                Some(35.0),
                None,
            ),
            (
                "O-Ring Nut Bohrung 40 Tiefe 2,5 Breite 4,2",
                Some(35.0),
                None,
            ),
            (
                "o-ring groove bore dia 40 depth 2.87 width 4.2",
                Some(34.26),
                None,
            ),
            (
                "o-ring groove rod 40 depth 2.5 width 4.2",
                Some(40.0),
                Some(Duty::Reciprocating),
            ),
            (
                "rod o-ring groove shaft 40 depth 2.5 width 4.2",
                Some(40.0),
                Some(Duty::Reciprocating),
            ),
            // What was measured stands.
            (
                "o-ring groove floor 35.1 bore 40 depth 2.5 width 4.2",
                Some(35.1),
                None,
            ),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let groove = question.groove;
            assert_eq!(
                (groove.floor_mm, groove.width_mm, groove.duty),
                (floor, Some(4.2), duty),
                "{text}"
            );
            assert!(question.is_of_groove_only(), "{text}: {question:?}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
        let open = Question::read("o-ring groove bore 40 width 4.2").unwrap();
        assert_eq!(open.groove.floor_mm, None);
        assert_eq!(open.not_understood, ["bore of 40 mm"]);
    }

    #[test]
    fn the_words_that_join_a_ring_to_its_groove_are_no_unit() {
        for text in [
            "o-ring 25x3 in rod groove",
            "o-ring 25x3 in the rod groove",
            "o-ring 25x3 in rod groove reciprocating depth 2.6 width 4 floor 25.5",
            "o-ring 25x3 in a static groove",
            "O-Ring 25x3 in der Nut Tiefe 2,6 Breite 4",
        ] {
            let question = Question::read(text).unwrap();
            let plain = Question::read("o-ring 25x3").unwrap();
            let ring = question.designated_size();
            assert!(ring.is_some() && ring == plain.designated_size(), "{text}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
    }

    /// The word for the groove may be missing: no ring has a floor, or a depth.
    #[test]
    fn floor_and_depth_are_of_a_groove_that_nobody_names() {
        for text in [
            "O-ring 25x3 floor 25.5 depth 2.6 width 4 reciprocating",
            "O-ring 25x3 depth 2.6 width 4 floor 25.5 reciprocating",
            "O-ring 25x3 width 4 depth 2.6 floor 25.5 reciprocating",
            "O-Ring 25x3 Tiefe 2,6 Breite 4 Nutgrund 25,5 Kolben",
            "O-ring 25x3 width 4 depth 2.6 in groove floor 25.5 reciprocating",
        ] {
            let question = Question::read(text).unwrap();
            let groove = question.groove;
            assert_eq!(
                (
                    groove.floor_mm,
                    groove.depth_mm,
                    groove.width_mm,
                    groove.duty
                ),
                (Some(25.5), Some(2.6), Some(4.0), Some(Duty::Reciprocating)),
                "{text}"
            );
            assert!(question.designation.is_some(), "{text}: {question:?}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
        let own = Question::read("o-ring id 37.69 section 3.53").unwrap();
        assert_eq!(own.groove, crate::lookup::groove::Groove::default());
    }

    /// Nothing is known of the ring: every figure is of its groove.
    #[test]
    fn a_groove_alone_is_read_in_whatever_order() {
        for text in [
            "o-ring groove 45.2 width 4 depth 2.4",
            "o-ring groove 4 x 2.4 floor 45.2",
            "O-Ring Nut 45,2 Breite 4 Tiefe 2,4",
            "O-Ring Nutgrund 45,2 Nutbreite 4 Nuttiefe 2,4",
            "o-ring gland floor 45.2 mm, 4 mm wide, 2.4 mm deep",
        ] {
            let question = Question::read(text).unwrap();
            let groove = question.groove;
            assert_eq!(
                (groove.floor_mm, groove.depth_mm, groove.width_mm),
                (Some(45.2), Some(2.4), Some(4.0)),
                "{text}"
            );
            assert!(question.is_of_groove_only(), "{text}: {question:?}");
        }
    }

    #[test]
    fn a_groove_is_no_size_of_the_ring() {
        for (text, floor, depth, width) in [
            (
                "o-ring 37.69 x 3.53 groove floor 38.1 depth 2.87 width 4.6",
                Some(38.1),
                Some(2.87),
                Some(4.6),
            ),
            (
                "o-ring 37.69 x 3.53 in groove 4.6 x 2.87",
                None,
                Some(2.87),
                Some(4.6),
            ),
            (
                "o-ring 37.69x3.53 groove 2,87 deep 4,6 wide static",
                None,
                Some(2.87),
                Some(4.6),
            ),
            (
                "O-Ring 40x3 Nut Tiefe 2.3 Breite 4",
                None,
                Some(2.3),
                Some(4.0),
            ),
            (
                "o-ring 45x3 groove 45.2 width 4 depth 2.4",
                Some(45.2),
                Some(2.4),
                Some(4.0),
            ),
            (
                "o-ring 45x3 groove 4 x 2.4 floor 45.2",
                Some(45.2),
                Some(2.4),
                Some(4.0),
            ),
            (
                "o-ring 45x3 groove 45.2 floor width 4 depth 2.4",
                Some(45.2),
                Some(2.4),
                Some(4.0),
            ),
            (
                "o-ring 45x3 groove 45.2 dia 4 width 2.4 depth",
                Some(45.2),
                Some(2.4),
                Some(4.0),
            ),
            (
                "o-ring 45x3 groove floor dia 45.2 groove 4 wide 2.4 deep",
                Some(45.2),
                Some(2.4),
                Some(4.0),
            ),
            (
                "O-Ring 45x3 Nutgrund 45,2 Nutbreite 4 Nuttiefe 2,4",
                Some(45.2),
                Some(2.4),
                Some(4.0),
            ),
        ] {
            let question = Question::read(text).unwrap();
            let groove = question.groove;
            assert_eq!(
                (groove.floor_mm, groove.depth_mm, groove.width_mm),
                (floor, depth, width),
                "{text}"
            );
            let has_size = question.readings.len() == 2 || question.designation.is_some();
            assert!(has_size, "{text}: {question:?}");
        }
    }
}
