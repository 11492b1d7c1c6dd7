//! The shop's own parts in an answer: those of the sizes found, and those near enough to be mistaken for them.
//!
//! A catalogue may hold hundreds of parts of one size. Parts that no rule tells apart are judged once, those that agree
//! best with the question first, and of the rest only their number is told.

use std::sync::Arc;

use super::measuring::note_measuring;
use super::{open_variant, wanted};
use crate::catalogue::card_index::{Alike, Card, CardIndex, Drawer, Glance, TraitsInPlace};
use crate::interchange::{Judgement, NEAR_NM, Subject, Verdict, judge};
use crate::lookup::answers::{Answer, Answers};
use crate::lookup::found::{Found, lengths_of};
use crate::lookup::question::Question;
use crate::part::{SizeKey, Traits};
use crate::standard::{self, StandardPart};

/// Kinds of parts judged for one question.
const MOST_JUDGED: usize = 20;
/// Kinds of parts judged for any one size, where others wait.
const LEAST_JUDGED: usize = 3;
/// A size likelier than this leaves little to the others.
const CERTAIN: f64 = 0.9;
/// Sizes near a size found that are looked at for one question.
const MOST_NEAR: usize = 4;
/// Likeliest sizes found whose neighbours are looked at.
const NEIGHBOURED: usize = 2;
/// Where there are more neighbours than this, only the closer ones count.
const MOST_NEIGHBOURS: usize = 24;
/// Parts of one kind listed where they go in; those in stock come first, then those on offer.
const MOST_ALIKE: u32 = 8;
/// Parts of one kind listed where they do not go in.
const MOST_ALIKE_REFUSED: u32 = 2;
/// Parts listed for one question.
const MOST_LISTED: usize = 24;

/// What may still be judged and listed.
struct Left {
    judged: usize,
    near: usize,
    listed: usize,
}

impl Left {
    /// True where nothing more is judged or listed.
    const fn is_nothing(&self) -> bool {
        self.judged == 0 || self.listed == 0
    }
}

/// Adds the shop's parts.
pub(super) fn add(index: &CardIndex, question: &Question, all: &[Found], answers: &mut Answers) {
    let mut left = Left {
        judged: MOST_JUDGED,
        near: MOST_NEAR,
        listed: MOST_LISTED,
    };
    answers.answers.reserve(MOST_LISTED);
    let positions = Positions::of_all(index, all);
    // Every size found before what is only near one of them.
    for is_near in [false, true] {
        for (found, positions) in all.iter().zip(&positions) {
            let of_pass = if is_near {
                &positions.near
            } else {
                &positions.same
            };
            if of_pass.is_empty() {
                continue;
            }
            let mut want = None;
            for at in of_pass {
                // A drawer of which nothing would be judged stays shut.
                if is_near && left.near == 0 || left.is_nothing() {
                    answers.not_listed += index.parts_of(*at);
                    continue;
                }
                left.near -= usize::from(is_near);
                let want = want.get_or_insert_with(|| wanted_here(question, found));
                let drawer = index.drawer(*at);
                add_drawer(&drawer, (index, want, found), &mut left, answers);
            }
        }
    }
}

/// The part the question asks for at one of the sizes found, of the one variant that a standard table has of it.
fn wanted_here(question: &Question, found: &Found) -> Subject {
    let [row] = found.rows[..] else {
        return wanted(question, found.size);
    };
    let asked = question.with_marks_of(row);
    let mut want = wanted(&asked, found.size);
    open_variant(&asked, found, row, &mut want);
    want
}

/// Where the parts of a size stand, and those to be mistaken for them.
struct Positions {
    same: Vec<u32>,
    near: Vec<u32>,
}

impl Positions {
    /// Those of every size found; of the likeliest ones with what is near them.
    fn of_all(index: &CardIndex, all: &[Found]) -> Vec<Self> {
        let same = all.iter().map(|found| Self {
            same: index.of_lengths(&found.size),
            near: Vec::new(),
        });
        let mut positions: Vec<Self> = same.collect();
        for (at, found) in all.iter().enumerate().take(NEIGHBOURED) {
            let is_found_itself = |at: u32| positions.iter().any(|of| of.same.contains(&at));
            positions[at].near = near(index, &found.size, is_found_itself);
        }
        positions
    }
}

/// Where the parts stand that may be mistaken for those of a size, the nearest few first.
fn near(index: &CardIndex, size: &SizeKey, is_found_itself: impl Fn(u32) -> bool) -> Vec<u32> {
    let nearest = index.nearest(size, NEAR_NM, MOST_NEIGHBOURS).into_iter();
    let mut near: Vec<(i64, u32)> = nearest
        .filter(|(at, _)| !is_found_itself(*at))
        .map(|(at, other)| (distance_nm(&other, size), at))
        .collect();
    let envelope = index.of_envelope(size).into_iter();
    let other_family =
        envelope.filter(|(at, other)| other.family() != size.family() && !is_found_itself(*at));
    near.extend(other_family.map(|(at, _)| (0, at)));
    let of_twin = twin_of(size).map_or_else(Vec::new, |twin| index.of_lengths(&twin));
    let of_twin = of_twin.into_iter().filter(|at| !is_found_itself(*at));
    near.extend(of_twin.map(|at| (0, at)));
    // Of those further off only their number is told, in whatever order they stand.
    let opened = near.len().min(MOST_NEAR);
    if opened < near.len() {
        near.select_nth_unstable(opened);
    }
    near[..opened].sort_unstable();
    near.into_iter().map(|(_, at)| at).collect()
}

/// The ring for bores beside that for shafts of the same diameter, and the reverse: they lie in one drawer.
fn twin_of(size: &SizeKey) -> Option<SizeKey> {
    let twin = size.family().facts().bench.told.twin?;
    SizeKey::new(twin, &lengths_of(size)).ok()
}

/// How far two sizes of one family are apart; a difference in diameter counts more than one in width, which a spacer mends.
fn distance_nm(a: &SizeKey, b: &SizeKey) -> i64 {
    let last = a.family().key_dimensions().len() - 1;
    let away_nm = |at: usize| match (a.length_at(at), b.length_at(at)) {
        (Some(a), Some(b)) => (a.as_nm() - b.as_nm()).abs(),
        _ => 0,
    };
    10 * (0..last).map(away_nm).sum::<i64>() + away_nm(last)
}

fn add_drawer(
    drawer: &Drawer<'_>,
    (index, want, found): (&CardIndex, &Subject, &Found),
    left: &mut Left,
    answers: &mut Answers,
) {
    // Of a crowded drawer a few kinds are judged: only those are read.
    let glances = index.glances(drawer);
    let mut kinds: Vec<&Glance<'_>> = glances.iter().collect();
    kinds.sort_by_cached_key(|kind| {
        (
            disagreements(&want.traits, &kind.traits),
            !kind.is_in_stock,
            !kind.is_on_offer,
        )
    });
    // What comes later shall not go without, but of a size that is as good as certain most of what there is counts.
    let of_left = if found.probability > CERTAIN {
        left.judged * 4 / 5
    } else {
        left.judged / 2
    };
    let share = of_left.max(LEAST_JUDGED).min(left.judged);
    for (at, kind) in kinds.into_iter().enumerate() {
        if at >= share || left.listed == 0 {
            answers.not_listed += kind.count;
            continue;
        }
        left.judged -= 1;
        let alike = &kind.alike();
        let have = Subject::of_alike(drawer.size, alike);
        let mut judgement = judge(want, &have);
        match drawer
            .size
            .filter(|size| found.spare_mm.is_some() && *size != found.size)
        {
            Some(size) => {
                let beside = Found {
                    spare_mm: found.spare_of(&size),
                    ..found.clone()
                };
                note_measuring(&beside, &mut judgement);
            }
            None => note_measuring(found, &mut judgement),
        }
        let most = if judgement.verdict <= Verdict::WithRework {
            MOST_ALIKE
        } else {
            MOST_ALIKE_REFUSED
        };
        let listed = alike.count.min(most).min(left.listed as u32);
        answers.not_listed += alike.count - listed;
        left.listed -= listed as usize;
        let judgement = Arc::new(judgement);
        let standard = drawer.size.and_then(|size| standard_of(&size, alike));
        for place in alike.first..alike.first + listed {
            if let Some(card) = index.card(drawer, place) {
                answers.add(answer_of(
                    card,
                    standard,
                    &have,
                    Arc::clone(&judgement),
                    found,
                ));
            }
        }
    }
}

/// The standard of parts of one kind: that of the row whose variant they are, where standards share a size.
///
/// Source: ISO 2338 (unhardened) and ISO 8734 (hardened) have pins of the same sizes; a pin of neither mark may be of either.
fn standard_of(size: &SizeKey, alike: &Alike) -> Option<&'static str> {
    let rows = standard::of_size(size);
    let first = rows.first()?;
    if rows.iter().all(|row| row.standard == first.standard) {
        return Some(&first.standard);
    }
    let is_variant_of = |row: &&StandardPart| {
        let mut variants = row.traits.variants();
        variants.all(|variant| alike.traits.has_variant(variant))
    };
    let rows = rows.iter().filter(is_variant_of);
    rows.max_by_key(|row| row.traits.variants().count())
        .map(|row| row.standard.as_str())
}

fn answer_of(
    card: Card,
    standard: Option<&str>,
    have: &Subject,
    judgement: Arc<Judgement>,
    found: &Found,
) -> Answer {
    Answer {
        designation: card.name().to_owned(),
        twins: Vec::new(),
        number: Some(card.number),
        size: have.size,
        standard: standard.map(str::to_owned),
        matched: found.matched,
        probability: found.probability,
        confidence: have.confidence,
        judgement,
        stock: card.stock,
        offers: card.offers,
    }
}

/// What a difference counts that a check may clear, that of a trait the other way round of which nothing goes in, and an
/// unknown.
const CLEARED: u32 = 2;
const BARRED: u32 = 16;
const UNKNOWN: u32 = 1;

/// How far traits are from those asked for. Only an order of looking, so that what may go in is judged before what hardly
/// will; the rules judge.
fn disagreements(want: &Traits, have: &TraitsInPlace<'_>) -> u32 {
    fn weighed<T>(want: &Option<T>, have: &Option<T>, differs: impl Fn(&T, &T) -> u32) -> u32 {
        match (want, have) {
            (None, _) => 0,
            (Some(_), None) => UNKNOWN,
            (Some(want), Some(have)) => differs(want, have),
        }
    }
    fn of<T: PartialEq>(want: &Option<T>, have: &Option<T>) -> u32 {
        weighed(want, have, |want, have| BARRED * u32::from(want != have))
    }
    let ordered = |ordering: std::cmp::Ordering| match ordering {
        std::cmp::Ordering::Equal => 0,
        std::cmp::Ordering::Less => BARRED,
        std::cmp::Ordering::Greater => CLEARED,
    };
    let plain = &have.plain;
    weighed(&want.closure, &plain.closure, |want, have| CLEARED * u32::from(want != have))
        // More clearance may do with a warning, less never; finer may replace coarser.
        + weighed(&want.clearance, &plain.clearance, |want, have| ordered(have.cmp(want)))
        + weighed(&want.tolerance_class, &plain.tolerance_class, |want, have| ordered(have.cmp(want)))
        + of(&want.contact_angle, &plain.contact_angle)
        + of(&want.rib_form, &plain.rib_form)
        + of(&want.bore_form, &plain.bore_form)
        + of(&want.has_snap_ring_groove, &plain.has_snap_ring_groove)
        + of(&want.seal_form, &plain.seal_form)
        + of(&want.material.as_deref(), &have.material)
        + of(&want.arrangement.as_deref(), &have.arrangement)
        + of(&want.variant.as_deref(), &have.variant)
        + CLEARED * have.unknown_suffixes as u32
}
