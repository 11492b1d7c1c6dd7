//! The one look or measurement that separates the remaining candidates best.

use std::collections::BTreeMap;

use super::found::Found;
use super::reading::Role;
use super::steep::is_steep;
use crate::interchange::runs_on_shaft;
use crate::part::{Family, MadeClosed, PartClass, Traits};
use crate::standard::StandardPart;

/// What to ask next, and why.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct AskNext {
    /// The question, for a person with the part in hand.
    pub question: String,
    /// What it decides.
    pub why: String,
    /// How much the answer is expected to tell, bits.
    pub bits: f64,
}

/// Answers that tell less than this are not worth a walk to the machine, bits.
const LEAST_BITS: f64 = 0.02;
/// From here on a question about the candidates themselves goes before one about their marks, bits.
const SEPARATES_BITS: f64 = 0.25;
/// A dimension that was measured already tells only part of what it could when measured again (common practice).
const AGAIN: f64 = 0.5;
/// Two values closer than this are one at the calliper, mm.
const TELLABLE_MM: f64 = 0.1;

/// A question whose answer would tell so many bits; it is put into words only where it is asked.
#[derive(Clone, Copy)]
struct Ask {
    bits: f64,
    words: Words,
}

/// The words of a question.
#[derive(Clone, Copy)]
enum Words {
    /// Question and what it decides.
    Said(&'static str, &'static str),
    /// To measure something, again where it is read already.
    Measure { what: &'static str, is_read: bool },
}

impl Ask {
    const fn said(question: &'static str, why: &'static str, bits: f64) -> Self {
        Self {
            bits,
            words: Words::Said(question, why),
        }
    }

    fn in_words(self) -> AskNext {
        let (question, why) = match self.words {
            Words::Said(question, why) => (question.to_owned(), why.to_owned()),
            Words::Measure { what, is_read } => {
                let again = if is_read {
                    " again, with a micrometer on an unworn place"
                } else {
                    ""
                };
                (
                    format!("Measure the {what}{again}."),
                    format!("the sizes that are left differ in {what}"),
                )
            }
        };
        AskNext {
            question,
            why,
            bits: (self.bits * 1000.0).round() / 1000.0,
        }
    }
}

const ANGLE: &str = "Which contact angle is marked: C 15°, AC 25°, A 30° or B 40°?";

/// What is open: sizes, the dimensions read so far, and the traits asked for.
pub(super) struct Open<'a> {
    pub(super) found: &'a [Found],
    pub(super) roles: &'a [Role],
    pub(super) family: Option<Family>,
    pub(super) traits: &'a Traits,
    /// True where it is known what closes the bearing, and not on how many sides.
    pub(super) is_side_open: bool,
    /// True where the question gives fluid and heat.
    pub(super) is_medium_known: bool,
    /// True where the question tells of the dust lip.
    pub(super) is_lip_known: bool,
    /// True where the question gives the hardness of the shaft.
    pub(super) is_shaft_known: bool,
}

/// One row or size with its share.
struct Item<'a> {
    share: f64,
    found: &'a Found,
    row: Option<&'static StandardPart>,
}

/// Where a snap ring sits: on a shaft, in a bore or in a bearing's groove, each as likely as the others.
pub(super) fn where_ring_sits() -> AskNext {
    AskNext {
        question:
            "Does the ring sit on a shaft, in a bore or in the groove of a bearing's outer ring?"
                .to_owned(),
        why: "rings for shafts, bores and bearings do not stand in for each other".to_owned(),
        bits: (entropy([1.0 / 3.0; 3].into_iter()) * 1000.0).round() / 1000.0,
    }
}

/// The question whose answer is expected to tell most; `None` where nothing is left to tell.
///
/// Expected fall of entropy over the candidates' own types, dimensions and traits; for closure, clearance and class, which
/// the tables do not fix, over how often each is met (common practice, no source).
pub(super) fn ask_next(open: &Open<'_>) -> Option<AskNext> {
    let items = items(open.found, open.traits);
    let mut asks = vec![type_question(&items)];
    asks.extend(dimension_questions(open, &items));
    asks.extend(trait_questions(&items));
    // Which part it is goes before how it is closed or marked.
    let separates = best(asks.iter().filter(|ask| ask.bits >= SEPARATES_BITS));
    let ask = match separates {
        Some(ask) => ask,
        None => {
            asks.extend(unlisted(open, &items));
            best(asks.iter().filter(|ask| ask.bits >= LEAST_BITS))?
        }
    };
    Some(ask.in_words())
}

/// The one that tells most; the first of equals.
fn best<'a>(asks: impl Iterator<Item = &'a Ask>) -> Option<Ask> {
    let of_two = |best: Option<&'a Ask>, ask: &'a Ask| match best {
        Some(best) if best.bits >= ask.bits => Some(best),
        _ => Some(ask),
    };
    asks.fold(None, of_two).copied()
}

/// Rows that what is asked for rules out are no longer open.
fn items<'a>(found: &'a [Found], asked: &Traits) -> Vec<Item<'a>> {
    let sum: f64 = found.iter().map(|found| found.probability).sum();
    let is_out = |row: &StandardPart| {
        let opposite = |one, other| asked.has_variant(one) && row.traits.has_variant(other);
        opposite("hardened", "unhardened") || opposite("unhardened", "hardened")
    };
    let mut items = Vec::new();
    for found in found {
        let share = found.probability / sum.max(f64::MIN_POSITIVE);
        if found.rows.is_empty() {
            items.push(Item {
                share,
                found,
                row: None,
            });
        }
        let rows: Vec<_> = found.rows.iter().filter(|row| !is_out(row)).collect();
        let each = share / rows.len().max(1) as f64;
        items.extend(rows.into_iter().map(|row| Item {
            share: each,
            found,
            row: Some(row),
        }));
    }
    items
}

/// Entropy of the groups that an answer makes, bits: what a sure answer tells.
fn bits<K: Ord>(items: &[Item<'_>], answer: impl Fn(&Item<'_>) -> K) -> f64 {
    let mut groups: Vec<(K, f64)> = Vec::with_capacity(items.len());
    for item in items {
        let key = answer(item);
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, share)) => *share += item.share,
            None => groups.push((key, item.share)),
        }
    }
    groups.sort_by(|(a, _), (b, _)| a.cmp(b));
    entropy(groups.into_iter().map(|(_, share)| share))
}

fn entropy(shares: impl Iterator<Item = f64>) -> f64 {
    let bits: f64 = shares
        .filter(|share| *share > 0.0)
        .map(|share| -share * share.log2())
        .sum();
    // One group alone gives minus zero.
    bits.max(0.0)
}

fn type_question(items: &[Item<'_>]) -> Ask {
    let is_ring = |item: &Item<'_>| {
        let family = item.found.size.family();
        family.facts().bench.measured.lies_in_groove()
    };
    let bits = bits(items, |item| item.found.size.family());
    if items.iter().all(is_ring) {
        return Ask::said(
            "Does the ring sit on a shaft or in a bore?",
            "rings for shafts and for bores do not stand in for each other",
            bits,
        );
    }
    Ask::said(
        "What type is it: balls, cylindrical, tapered or barrel-shaped rollers, needles, a seal?",
        "types of one size carry different loads and must not stand in for each other",
        bits,
    )
}

fn dimension_questions(open: &Open<'_>, items: &[Item<'_>]) -> impl Iterator<Item = Ask> {
    use Role as R;
    let mut families: Vec<Family> = items.iter().map(|item| item.found.size.family()).collect();
    families.dedup();
    let words = move |role: R| match families[..] {
        [family] => seat(family, role).words_of(family),
        _ => role.words(),
    };
    [
        R::Inner,
        R::Outer,
        R::Width,
        R::Section,
        R::WasherBore,
        R::Pitch,
    ]
    .into_iter()
    .map(move |role| {
        let value = |item: &Item<'_>| {
            let size = &item.found.size;
            role.dimension(size.family())
                .filter(|dimension| Role::of(size.family(), *dimension) == role)
                .and_then(|dimension| size.get(dimension))
                .map(|length| (length.to_mm() / TELLABLE_MM).round() as i64)
        };
        let is_read = open.roles.iter().any(|read| covers(*read, role));
        let factor = if is_read { AGAIN } else { 1.0 };
        Ask {
            words: Words::Measure {
                what: words(role),
                is_read,
            },
            bits: factor * bits(items, value),
        }
    })
}

/// Seals and retaining rings are measured where they sit: as they lie on the bench they are of another size.
const fn seat(family: Family, role: Role) -> Role {
    let measured = family.facts().bench.measured;
    match role {
        _ if !measured.is_of_seat() => role,
        Role::Inner if measured.is_in_bore() => Role::Housing,
        Role::Inner => Role::Shaft,
        Role::Outer => Role::Housing,
        _ => role,
    }
}

/// True where a figure read so far speaks of the same dimension.
const fn covers(read: Role, role: Role) -> bool {
    matches!(
        (read, role),
        (
            Role::Inner | Role::Shaft | Role::FreeLip | Role::FreeRing | Role::RingGroove,
            Role::Inner
        ) | (Role::Outer | Role::Housing, Role::Outer)
            | (Role::Width, Role::Width)
            | (Role::Section, Role::Section)
            | (Role::WasherBore, Role::WasherBore)
            | (Role::Pitch, Role::Pitch)
    )
}

/// Traits that tell the rows of one size apart.
fn trait_questions(items: &[Item<'_>]) -> Vec<Ask> {
    // Rows of one size and family only: across families the type tells, across sizes a dimension.
    let mut by_size: BTreeMap<_, Vec<&Item<'_>>> = BTreeMap::new();
    for item in items {
        by_size.entry(item.found.size).or_default().push(item);
    }
    // One row alone has nothing to be told apart from.
    by_size.retain(|_, of_size| of_size.len() > 1);
    if by_size.is_empty() {
        return Vec::new();
    }
    let told = |answer: &dyn Fn(&StandardPart) -> String| -> f64 {
        let of_one_size = |of_size: &Vec<&Item<'_>>| {
            let sum: f64 = of_size.iter().map(|item| item.share).sum();
            let mut groups: BTreeMap<String, f64> = BTreeMap::new();
            for item in of_size {
                let key = item.row.map_or_else(String::new, answer);
                *groups.entry(key).or_default() += item.share / sum;
            }
            sum * entropy(groups.into_values())
        };
        by_size.values().map(of_one_size).sum()
    };
    let is_other_variant = |a: &StandardPart, b: &StandardPart| {
        a.traits.variant != b.traits.variant || a.size.fit() != b.size.fit()
    };
    // Words for an answer are made only where answers differ.
    let is_told = |differ: &dyn Fn(&StandardPart, &StandardPart) -> bool| {
        by_size.values().any(|of_size| {
            let mut rows = of_size.iter().map(|item| item.row);
            let first = rows.next().flatten();
            rows.any(|row| match (first, row) {
                (Some(first), Some(row)) => differ(first, row),
                (first, row) => first.is_some() != row.is_some(),
            })
        })
    };
    let ask = |question: &'static str,
               why: &'static str,
               differ: &dyn Fn(&StandardPart, &StandardPart) -> bool,
               answer: &dyn Fn(&StandardPart) -> String| {
        let bits = if is_told(differ) { told(answer) } else { 0.0 };
        Ask::said(question, why, bits)
    };
    vec![
        ask(
            "Which rings have ribs: does the inner ring come off to no side (NUP), one side (NJ) or both (NU)?",
            "the ribs decide whether the shaft is held along its axis",
            &|a, b| a.traits.rib_form != b.traits.rib_form,
            &|row| format!("{:?}", row.traits.rib_form),
        ),
        ask(
            ANGLE,
            "another angle is another part",
            &|a, b| a.traits.contact_angle != b.traits.contact_angle,
            &|row| format!("{:?}", row.traits.contact_angle),
        ),
        ask(
            "How many rows of rolling elements has it?",
            "single and double row bearings are different parts",
            &|a, b| a.traits.rows != b.traits.rows,
            &|row| format!("{:?}", row.traits.rows),
        ),
        ask(
            "Is the pin hardened (a file slides off), and is its diameter to class m6 (above nominal) or h8 (below)?",
            "soft and hardened pins, and their fits, do not stand in for each other",
            &is_other_variant,
            &|row| match row.size.family().facts().marks.has_class() {
                true => format!("{:?} {:?}", row.traits.variant, row.size.fit()),
                false => String::new(),
            },
        ),
        // ISO 355: angle series 7 is 27 to 30 degrees, series 2 up to 14; from memory.
        ask(
            "Do the rollers stand at a steep angle to the shaft (about 29°, number 313..), or at a slight one (about 12°)?",
            "another angle is another part",
            &|a, b| is_steep(a) != is_steep(b),
            &|row| is_steep(row).to_string(),
        ),
        ask(
            "Is there a letter behind the number (B, X, E, a thickness), or is the ring a heavy one?",
            "a variant of the same size is another part",
            &is_other_variant,
            // A steep series has its own number, and no letter.
            &|row| match is_steep(row) {
                true => format!("None {:?}", row.size.fit()),
                false => format!("{:?} {:?}", row.traits.variant, row.size.fit()),
            },
        ),
    ]
}

/// What the tables do not fix: closure, clearance, class, seal form, elastomer; by how often each is met.
fn unlisted(open: &Open<'_>, items: &[Item<'_>]) -> Vec<Ask> {
    let share_of = |is: &dyn Fn(Family) -> bool| -> f64 {
        let in_family = |item: &&Item<'_>| is(open.family.unwrap_or(item.found.size.family()));
        items.iter().filter(in_family).map(|item| item.share).sum()
    };
    let bearing =
        share_of(&|family| family.class() == PartClass::Bearings && family.is_radial_bearing());
    // Tapered and angular contact bearings get theirs when they are mounted against each other.
    let with_clearance = share_of(&Family::has_radial_clearance);
    let closable = share_of(&|family| family.facts().exchange.closed == MadeClosed::Often);
    let lip = share_of(&|family| family.facts().marks.has_seal_forms);
    let seal = share_of(&|family| family.class() == PartClass::Seals);
    let runs_on_shaft = |item: &&Item<'_>| {
        let family = open.family.unwrap_or(item.found.size.family());
        runs_on_shaft(family, item.row.map(|row| &row.traits))
    };
    let on_shaft: f64 = (items.iter().filter(runs_on_shaft))
        .map(|item| item.share)
        .sum();
    let traits = open.traits;
    let is_angle_open = |item: &&Item<'_>| {
        let row = item
            .row
            .filter(|row| row.size.family().facts().marks.has_angles());
        row.is_some_and(|row| row.traits.contact_angle.is_none())
    };
    let with_angle: f64 = items
        .iter()
        .filter(is_angle_open)
        .map(|item| item.share)
        .sum();
    // Shares are common practice, no source.
    let asks = [
        (
            traits.contact_angle.is_none(),
            with_angle,
            entropy([0.15, 0.2, 0.15, 0.5].into_iter()),
            ANGLE,
            "another angle is another part",
        ),
        (
            open.is_side_open,
            closable,
            entropy([0.25, 0.75].into_iter()),
            "Is it closed on one side or on both?",
            "a side that stays open lets grease out and dirt in",
        ),
        (
            traits.closure.is_none() && !open.is_side_open,
            closable,
            entropy([0.25, 0.35, 0.4].into_iter()),
            "Is it open, shielded (metal, Z) or sealed (rubber, RS), on one side or both?",
            "closure decides grease, dirt and speed",
        ),
        (
            traits.clearance.is_none(),
            with_clearance,
            entropy([0.6, 0.33, 0.05, 0.02].into_iter()),
            "Is a clearance marked on the ring (C2, C3, C4; no mark means normal)?",
            "less clearance than before may seize",
        ),
        (
            traits.tolerance_class.is_none(),
            bearing,
            entropy([0.93, 0.04, 0.02, 0.01].into_iter()),
            "Is a tolerance class marked (P6, P5, P4; no mark means normal)?",
            "a coarser class must not replace a finer one",
        ),
        (
            traits.seal_form.is_none() && open.is_lip_known,
            lip,
            entropy([0.6, 0.4].into_iter()),
            "Is the outside rubber (A) or metal (B)?",
            "a metal outside needs a sound bore, and one of rubber grips less in a hot housing",
        ),
        (
            traits.seal_form.is_none() && !open.is_lip_known,
            lip,
            entropy([0.5, 0.3, 0.12, 0.08].into_iter()),
            "Is the outside rubber (A) or metal (B), and is there a second, outer dust lip (S)?",
            "a seal without dust lip must not replace one with it",
        ),
        (
            traits.material.is_none() && !open.is_medium_known,
            seal,
            entropy([0.7, 0.22, 0.05, 0.03].into_iter()),
            "Which fluid and which temperature does it see?",
            "they decide the elastomer: NBR, FKM, EPDM, ...",
        ),
        (
            !open.is_shaft_known,
            on_shaft,
            entropy([0.85, 0.15].into_iter()),
            "Is the raceway on the shaft sound, ground and about 58 HRC hard?",
            "the needles run on the shaft itself",
        ),
    ];
    asks.into_iter()
        .filter(|(is_open, ..)| *is_open)
        .map(|(_, share, told, question, why)| Ask::said(question, why, share * told))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn entropy_of_known_shares() {
        // Definition: two even answers tell one bit, four tell two, a sure one none.
        assert!((entropy([0.5, 0.5].into_iter()) - 1.0).abs() < 1e-12);
        assert!((entropy([0.25; 4].into_iter()) - 2.0).abs() < 1e-12);
        assert!(entropy([1.0].into_iter()).abs() < 1e-12);
    }
}
