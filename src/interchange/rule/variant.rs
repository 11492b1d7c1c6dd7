//! Variants of one size: steep angle, high-capacity design, stabilised rings, thickness of a retaining ring.

use std::collections::BTreeSet;

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use super::known_variant;

/// Compares the variants; the snap ring has a rule of its own.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    if want.family != have.family {
        return;
    }
    let (wanted, at_hand) = (pieces(want), pieces(have));
    for variant in wanted.difference(&at_hand) {
        differ(variant, true, have, findings);
    }
    for variant in at_hand.difference(&wanted) {
        differ(variant, false, want, findings);
    }
    for variant in wanted.intersection(&at_hand) {
        findings.agrees(*variant);
    }
}

fn pieces(subject: &Subject) -> BTreeSet<&str> {
    let text = subject.traits.variant.as_deref().unwrap_or_default();
    let pieces = text.split(", ").map(str::trim);
    pieces
        .filter(|piece| !piece.is_empty() && !piece.starts_with("snap ring"))
        .collect()
}

/// One part has the variant and the other, which says `other`, has not.
fn differ(variant: &str, is_wanted: bool, other: &Subject, findings: &mut Findings) {
    let known = known_variant::find(variant);
    let is_bearing = other
        .family
        .is_some_and(|family| family.is_radial_bearing());
    if known.is_none() && !is_bearing && other.traits.variant.is_none() {
        findings.unknown(format!("{variant} is stated for one of the two only"));
        return;
    }
    let other_text = other
        .traits
        .variant
        .clone()
        .unwrap_or_else(|| "not marked".to_owned());
    let (have, want) = if is_wanted {
        (other_text, variant.to_owned())
    } else {
        (variant.to_owned(), other_text)
    };
    let (bar, effect, source) = match known {
        Some(known) => (
            if is_wanted {
                known.missing
            } else {
                known.extra
            },
            if is_wanted || known.extra != Bar::None {
                known.effect
            } else {
                "more than what is asked for; it does no harm"
            },
            known.source,
        ),
        None => (
            Bar::Never,
            "a variant of the same size is another part",
            "DIN 623-1 practice and the family's standard, published tables",
        ),
    };
    findings.differs(
        bar,
        Difference {
            what: "variant",
            have,
            want,
            effect: effect.to_owned(),
            source,
        },
    );
    if bar == Bar::Check {
        findings.check(effect);
    }
}
