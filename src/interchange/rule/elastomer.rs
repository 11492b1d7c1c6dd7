//! Elastomer and hardness of seals, and of the seals in a bearing: the same size in another compound is another part.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::Closure;
use crate::part::designation::elastomer;

const DATA_SHEET: &str = "fluid, highest and lowest temperature against the compound's data sheet";
/// Seals of a bearing that say nothing of their rubber.
pub const UNMARKED_SEALS: &str = "contact seals, nitrile unless marked";
const SOURCE: &str =
    "ISO 1629 symbols; published media lists; common practice, no source, for the direction";

/// The elastomer by its symbol of ISO 1629, or the material as it is printed.
pub fn symbol(subject: &Subject) -> Option<String> {
    let text = subject.traits.material.as_deref()?.trim();
    // Older symbols and plain names too.
    Some(elastomer(text).map_or_else(|| text.to_ascii_uppercase(), str::to_owned))
}

/// The elastomer of a bearing's contact seals: nitrile where none is marked (published closure description), `None`
/// where it has none.
pub fn of_contact_seals(subject: &Subject) -> Option<(String, bool)> {
    let has_seals = matches!(
        subject.traits.closure,
        Some(Closure::SealOneSide | Closure::SealBothSides)
    );
    // Another material is that of the rings.
    let marked = || symbol(subject).and_then(|symbol| elastomer(&symbol));
    has_seals.then(|| match marked() {
        Some(symbol) => (symbol.to_owned(), true),
        None => ("NBR".to_owned(), false),
    })
}

/// Compares the contact seals of two bearings, where one of them is marked.
fn contact_seals(want: &Subject, have: &Subject, findings: &mut Findings) {
    if want.traits.material.is_none() && have.traits.material.is_none() {
        return;
    }
    let (Some(wanted), Some(at_hand)) = (of_contact_seals(want), of_contact_seals(have)) else {
        return;
    };
    if !(wanted.1 || at_hand.1) {
        return;
    }
    if wanted.0 == at_hand.0 {
        findings.agrees(format!("elastomer: {}", wanted.0));
        return;
    }
    let (bar, effect) = effect(&wanted.0, &at_hand.0);
    let effect = effect.to_owned();
    let words = |(symbol, is_marked): (String, bool)| {
        if is_marked {
            symbol
        } else {
            UNMARKED_SEALS.to_owned()
        }
    };
    findings.differs(
        bar,
        Difference {
            what: "elastomer",
            have: words(at_hand),
            want: words(wanted),
            effect,
            source: SOURCE,
        },
    );
    if bar == Bar::Check {
        findings.check(DATA_SHEET);
    }
}

/// An elastomer that is not wanted bars its parts; of one that nobody knows it is to be asked.
fn excluded(want: &Subject, have: &Subject, findings: &mut Findings) {
    let unwanted = &want.needs.no_elastomers;
    let is_seal = have
        .family
        .is_some_and(|family| family.facts().exchange.is_of_elastomer);
    let of_bearing = of_contact_seals(have);
    if unwanted.is_empty() || !is_seal && of_bearing.is_none() {
        return;
    }
    let known = match of_bearing {
        Some((symbol, _)) if !is_seal => Some(symbol),
        _ => symbol(have),
    };
    match known {
        Some(symbol) if unwanted.contains(&symbol.as_str()) => findings.differs(
            Bar::Never,
            Difference {
                what: "elastomer",
                have: symbol.clone(),
                want: format!("another elastomer than {symbol}"),
                effect: "the question excludes this elastomer".to_owned(),
                source: "the question",
            },
        ),
        Some(_) => {}
        None => findings.check(format!(
            "the elastomer of the new part: it must not be {}",
            unwanted.join(" or ")
        )),
    }
}

/// Compares the elastomers of seals.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    excluded(want, have, findings);
    if want.family == have.family {
        contact_seals(want, have, findings);
    }
    let is_of_one = (want.family).is_some_and(|family| family.facts().exchange.is_of_elastomer);
    if want.family != have.family || !is_of_one {
        return;
    }
    match (symbol(want), symbol(have)) {
        (Some(a), Some(b)) if a == b => findings.agrees(format!("elastomer: {a}")),
        (Some(a), Some(b)) => {
            let (bar, effect) = effect(&a, &b);
            let effect = effect.to_owned();
            findings.differs(
                bar,
                Difference {
                    what: "elastomer",
                    have: b,
                    want: a,
                    effect,
                    source: SOURCE,
                },
            );
            if bar == Bar::Check {
                findings.check(DATA_SHEET);
            }
        }
        _ => findings.unknown("elastomer"),
    }
    match (&want.traits.hardness, &have.traits.hardness) {
        (Some(a), Some(b)) if a == b => findings.agrees(format!("hardness: {a}")),
        (Some(a), Some(b)) => {
            findings.differs(
                Bar::Check,
                Difference {
                    what: "hardness",
                    have: b.clone(),
                    want: a.clone(),
                    effect: "softer extrudes under pressure, harder seals less at low pressure"
                        .to_owned(),
                    source: "common practice, no source",
                },
            );
            findings.check("pressure and gap the ring must stand");
        }
        (None, None) => {}
        _ => findings.unknown("hardness"),
    }
}

fn effect(want: &str, have: &str) -> (Bar, &'static str) {
    match (want, have) {
        ("EPDM", _) | (_, "EPDM") => (
            Bar::Never,
            "EPDM swells in mineral oil, and oil-proof rubbers fail in brake fluid and steam",
        ),
        ("FKM", _) => (
            Bar::Never,
            "stands less heat and fewer fluids than the fluoroelastomer asked for",
        ),
        ("NBR" | "HNBR", "FKM") => (
            Bar::Check,
            "stands more heat, but stiffens in the cold (about -20 °C) and costs more",
        ),
        ("NBR", "HNBR") => (Bar::Check, "stands more heat and wear than nitrile"),
        _ => (
            Bar::Never,
            "another compound stands other fluids and temperatures",
        ),
    }
}
