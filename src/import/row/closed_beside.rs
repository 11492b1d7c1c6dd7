//! What words beside the designation of a bearing say of its shields and seals: `sealed both sides`, `mit Deckscheiben`.

use std::ops::Range;

use crate::part::designation::closure_lists::{Number, ONE, SIDES, TWO, has, noun};
use crate::part::designation::closure_words::{named_at, other_seal};
use crate::part::{ClosedBy, Closure};

/// What is sealed in these is no bearing: common practice, no source.
const PACKING: [&str; 9] = [
    "box",
    "bag",
    "pack",
    "package",
    "packing",
    "packaging",
    "carton",
    "foil",
    "verpackung",
];

/// How words say that a bearing is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Closed {
    by: ClosedBy,
    /// Both sides or one; `None` where nobody said.
    is_both: Option<bool>,
    /// False where they only say that it is closed: `sealed`.
    is_counted: bool,
    /// True where the words say that the seal touches, or does not.
    is_touch_told: bool,
}

/// What that is beside what is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Beside {
    Same,
    New(Closure),
    /// Another closure than the one that is known.
    Against(Closure, Closure),
    /// It cannot be told which closure it is.
    Open,
}

/// What is said at a place among words in lower case, with which words; `None` in it for a seal that is of no mark.
pub(super) fn closed_at(lower: &[String], at: usize) -> Option<(Range<usize>, Option<Closed>)> {
    let word = |at: usize| lower.get(at).map_or("", String::as_str);
    if let Some(range) = other_seal(lower, at) {
        // `mechanical seal side` is a place.
        return (!has(SIDES, word(range.end))).then_some((range, None));
    }
    let (_, number) = noun(word(at), false)?;
    let is_place = number == Number::One && has(SIDES, word(at + 1));
    let is_packed = PACKING.contains(&word(at + 1)) || at > 0 && word(at - 1) == "vacuum";
    if is_place || is_packed {
        return None;
    }
    let said = named_at(lower, &vec![false; lower.len()], at, false)?;
    let counts = |word: &String| {
        has(ONE, word) || has(TWO, word) || word.ends_with("seitig") || word.ends_with("seits")
    };
    let closed = Closed {
        by: said.by,
        is_both: said.is_both,
        is_counted: lower[said.range.clone()].iter().any(counts),
        is_touch_told: said.is_touch_told,
    };
    Some((said.range, Some(closed)))
}

impl Closed {
    /// Compares with the closure that is known, if one is.
    pub(super) fn beside(self, known: Option<Closure>) -> Beside {
        let wanted = self.is_both.map(|is_both| self.by.on(is_both));
        let Some(known) = known.filter(|known| *known != Closure::Open) else {
            return wanted.map_or(Beside::Open, Beside::New);
        };
        let is_seal = known.closed_by() != Some(ClosedBy::Shield);
        let is_alike = known.closed_by() == Some(self.by)
            || is_seal && self.by == ClosedBy::ContactSeal && !self.is_touch_told;
        let is_both = known.code().starts_with('2');
        let are_sides = !self.is_counted || self.is_both.is_none_or(|both| both == is_both);
        match wanted {
            _ if is_alike && are_sides => Beside::Same,
            Some(wanted) => Beside::Against(known, wanted),
            None => Beside::Open,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(text: &str) -> Option<Option<Closed>> {
        let lower: Vec<String> = text.split(' ').map(str::to_lowercase).collect();
        let found = (0..lower.len()).find_map(|at| closed_at(&lower, at));
        found.map(|(_, closed)| closed)
    }

    /// DIN 623-1: 2RS and 2Z close both sides, RS and Z one. Terms of ISO 5593 and common practice, no source.
    #[test]
    fn words_for_closures_are_compared_with_the_mark() {
        use Beside as B;
        use Closure as C;
        for (text, known, beside) in [
            ("sealed both sides", None, B::New(C::SealBothSides)),
            ("rubber sealed", None, B::New(C::SealBothSides)),
            ("2 seals", Some(C::Open), B::New(C::SealBothSides)),
            ("two shields", None, B::New(C::ShieldBothSides)),
            ("beidseitig abgedichtet", None, B::New(C::SealBothSides)),
            ("mit Deckscheiben", None, B::New(C::ShieldBothSides)),
            ("one side sealed", None, B::New(C::SealOneSide)),
            ("sealed", Some(C::SealBothSides), B::Same),
            ("sealed", Some(C::SealOneSide), B::Same),
            ("sealed", Some(C::LowFrictionSealBothSides), B::Same),
            ("with seal", Some(C::SealBothSides), B::Same),
            ("with seal", None, B::Open),
            (
                "shielded",
                Some(C::SealBothSides),
                B::Against(C::SealBothSides, C::ShieldBothSides),
            ),
            (
                "one side sealed",
                Some(C::SealBothSides),
                B::Against(C::SealBothSides, C::SealOneSide),
            ),
        ] {
            let closed = said(text).flatten().unwrap_or_else(|| panic!("{text}"));
            assert_eq!(closed.beside(known), beside, "{text} beside {known:?}");
        }
        assert_eq!(said("felt seal"), Some(None));
        for text in [
            "seal side",
            "sealed box",
            "vacuum sealed",
            "shaft seal",
            "bearing",
        ] {
            assert_eq!(said(text), None, "{text}");
        }
    }
}
