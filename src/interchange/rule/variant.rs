//! Variants of one size: steep angle, high-capacity design, stabilised rings, thickness of a retaining ring.

use std::collections::BTreeSet;

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::asked::not_looked_at;
use super::finding::{Bar, Findings};
use super::known_variant::{self, INNER_DESIGN, KnownVariant, STAND_INS, is_half, is_of_lip_seals};

/// What is said of inner designs that differ in a ring.
const RINGS: &str = "rings of the two designs have other raceways and do not go together";

/// Compares the variants; the snap ring has a rule of its own.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let has_none = want.traits.variant.is_none() && have.traits.variant.is_none();
    if has_none || want.family != have.family {
        return;
    }
    let (mut wanted, mut at_hand) = (pieces(want), pieces(have));
    if !(want.family).is_some_and(|family| family.facts().exchange.has_lip()) {
        for piece in wanted.iter().filter(|piece| is_of_lip_seals(piece)) {
            not_looked_at(piece, findings);
        }
        wanted.retain(|piece| !is_of_lip_seals(piece));
        at_hand.retain(|piece| !is_of_lip_seals(piece));
    }
    for variant in wanted.intersection(&at_hand) {
        findings.agrees(*variant);
    }
    if wanted != at_hand {
        differences((want, have), (&wanted, &at_hand), findings);
    }
}

/// Judges what only one of the two has.
fn differences(
    (want, have): (&Subject, &Subject),
    (wanted, at_hand): (&BTreeSet<&str>, &BTreeSet<&str>),
    findings: &mut Findings,
) {
    let is_unlike = wanted.is_disjoint(at_hand);
    let mut missing: Vec<&str> = wanted.difference(at_hand).copied().collect();
    let mut extra: Vec<&str> = at_hand.difference(wanted).copied().collect();
    stand_in(&mut missing, &mut extra, findings);
    stabilised(&mut missing, &mut extra, findings);
    // Where nothing is alike the whole text says more than its pieces.
    let words = |subject: &Subject, left: &[&str]| match subject.traits.variant.as_deref() {
        Some(text) if is_unlike => text.to_owned(),
        _ if left.is_empty() => "not marked".to_owned(),
        _ => left.join(", "),
    };
    let is_ring = at_hand.iter().any(|piece| is_half(piece));
    let of_want = Differing {
        is_wanted: true,
        is_ring,
        other: have,
        other_words: words(have, &extra),
    };
    let of_have = Differing {
        is_wanted: false,
        is_ring,
        other: want,
        other_words: words(want, &missing),
    };
    for variant in &missing {
        of_want.judge(variant, findings);
    }
    for variant in &extra {
        of_have.judge(variant, findings);
    }
}

fn pieces(subject: &Subject) -> BTreeSet<&str> {
    let pieces = subject.traits.variants();
    pieces
        .filter(|piece| !piece.starts_with("snap ring"))
        .collect()
}

fn difference(have: &str, want: &str, effect: &str, source: &'static str) -> Difference {
    Difference {
        what: "variant",
        have: have.to_owned(),
        want: want.to_owned(),
        effect: effect.to_owned(),
        source,
    }
}

/// Judges the variants that do each other's work in part, and takes them out of what differs.
fn stand_in(missing: &mut Vec<&str>, extra: &mut Vec<&str>, findings: &mut Findings) {
    for known in &STAND_INS {
        let at = |list: &[&str], with: &str| {
            let mut pieces = list.iter();
            pieces.position(|piece| known_variant::begins(piece, with))
        };
        let found = at(missing, known.wanted).zip(at(extra, known.at_hand));
        let Some((wanted, at_hand)) = found else {
            continue;
        };
        let (wanted, at_hand) = (missing.remove(wanted), extra.remove(at_hand));
        let source = "common practice, no source";
        findings.differs(known.bar, difference(at_hand, wanted, known.effect, source));
        if known.bar == Bar::Check {
            findings.check(known.effect);
        }
    }
}

/// The temperature up to which rings of a grade keep their size, °C.
///
/// # Source
/// DIN 623-1, from memory: S0 150, S1 200, S2 250, S3 300, S4 350 °C.
pub fn stabilised_to_c(piece: &str) -> Option<f64> {
    let grade = piece.rsplit(['(', ' ']).next()?.trim_end_matches(')');
    match grade.to_ascii_uppercase().as_str() {
        "S0" => Some(150.0),
        "S1" => Some(200.0),
        "S2" => Some(250.0),
        "S3" => Some(300.0),
        "S4" => Some(350.0),
        _ => None,
    }
}

/// Judges grades of stabilised rings by their order, and takes them out of what differs.
fn stabilised(missing: &mut Vec<&str>, extra: &mut Vec<&str>, findings: &mut Findings) {
    let at = |list: &[&str]| {
        let mut pieces = list.iter();
        pieces.position(|piece| piece.to_lowercase().starts_with("dimensionally stabilised"))
    };
    let Some((wanted, at_hand)) = at(missing).zip(at(extra)) else {
        return;
    };
    let (wanted, at_hand) = (missing.remove(wanted), extra.remove(at_hand));
    let (want_c, have_c) = (stabilised_to_c(wanted), stabilised_to_c(at_hand));
    let does_more = want_c.zip(have_c).is_some_and(|(want, have)| have >= want);
    let (bar, effect) = if does_more {
        (Bar::None, "more than what is asked for; it does no harm")
    } else {
        (
            Bar::Check,
            "rings that are not stabilised grow when they run hot",
        )
    };
    findings.differs(
        bar,
        difference(at_hand, wanted, effect, "DIN 623-1, from memory"),
    );
    if bar == Bar::Check {
        findings.check("highest temperature against the grade of the stabilised rings");
    }
}

/// One part has a variant and the other, of which the words say what it has instead, has not.
struct Differing<'a> {
    is_wanted: bool,
    /// True where the part at hand is a ring alone.
    is_ring: bool,
    other: &'a Subject,
    other_words: String,
}

impl Differing<'_> {
    fn judge(&self, variant: &str, findings: &mut Findings) {
        let known = known_variant::find(variant);
        let other = self.other;
        let is_bearing = other
            .family
            .is_some_and(|family| family.is_radial_bearing());
        if known.is_none() && !is_bearing && other.traits.variant.is_none() {
            findings.unknown(format!("{variant} is stated for one of the two only"));
            return;
        }
        let (bar, effect, source) = self.bar(known);
        let (have, want) = if self.is_wanted {
            (self.other_words.as_str(), variant)
        } else {
            (variant, self.other_words.as_str())
        };
        findings.differs(bar, difference(have, want, effect, source));
        if bar == Bar::Check {
            findings.check(effect);
        }
    }

    fn bar(&self, known: Option<&KnownVariant>) -> (Bar, &'static str, &'static str) {
        let Some(known) = known else {
            return (
                Bar::Never,
                "a variant of the same size is another part",
                "DIN 623-1 practice and the family's standard, published tables",
            );
        };
        // A ring goes in by itself, and its raceway must be that of the other ring.
        if self.is_ring && known.begins == INNER_DESIGN {
            return (Bar::Never, RINGS, known.source);
        }
        let bar = if self.is_wanted {
            known.missing
        } else {
            known.extra
        };
        let effect = if self.is_wanted || known.extra != Bar::None {
            known.effect
        } else {
            "more than what is asked for; it does no harm"
        };
        (bar, effect, known.source)
    }
}
