//! Key dimensions must agree exactly; the few ways around a difference are named.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{Dimension, Family, OtherWidth, SizeKey};
use crate::standard;
use crate::units::Length;

/// The check on a size that rests on memory alone.
pub const FROM_MEMORY: &str =
    "the standard size is from memory, not cross-checked: measure the new part before fitting";
/// Pairs of O-ring sections that serve in each other's gland (AS568 and ISO 3601-1:1988), mm; 3.5 is a section of the trade
/// that is checked in a gland for the two beside it (common practice, no source).
const SECTION_PAIRS_MM: [(f64, f64); 7] = [
    (3.50, 3.53),
    (3.50, 3.55),
    (1.78, 1.80),
    (2.62, 2.65),
    (3.53, 3.55),
    (5.33, 5.30),
    (6.99, 7.00),
];

/// Compares the key dimensions.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let (Some(wanted), Some(at_hand)) = (want.size, have.size) else {
        findings.unknown("the size of one of the two is not known");
        return;
    };
    let is_pin = wanted.family().facts().marks.has_class();
    if is_pin && wanted.without_fit() == at_hand.without_fit() {
        hardness_of_pin(want, have, findings);
    }
    // Two pins of unknown class are not known to be of one; those in inches have the one class of their standard.
    let is_known = !is_pin || wanted.fit().is_some() || !standard::of_size(&wanted).is_empty();
    if wanted == at_hand && is_known {
        findings.agrees(format!("size: {wanted}"));
        cross_check(have, findings);
        return;
    }
    if wanted.family() != at_hand.family() {
        let values = |size: &SizeKey| {
            size.dimensions()
                .map(|(_, length)| length)
                .collect::<Vec<_>>()
        };
        let same = wanted.has_envelope_of(&at_hand) || values(&wanted) == values(&at_hand);
        if same {
            findings.agrees(format!("envelope: {wanted}"));
        } else {
            other_size(&wanted, &at_hand, findings);
        }
        return;
    }
    if wanted.without_fit() == at_hand.without_fit() {
        fit(&wanted, &at_hand, findings);
        if !findings.is_barred() {
            cross_check(have, findings);
        }
        return;
    }
    match wanted.family().facts().exchange.other_width {
        OtherWidth::Gland => o_ring(&wanted, &at_hand, findings),
        OtherWidth::InBore if same_but(&wanted, &at_hand, Dimension::Width) => {
            lip_seal_width(&wanted, &at_hand, findings);
        }
        OtherWidth::Spacer { most_mm } => radial_width((&wanted, &at_hand), most_mm, findings),
        OtherWidth::InBore | OtherWidth::Never => other_size(&wanted, &at_hand, findings),
    }
}

/// True where two sizes of one family differ in what no check, spacer or gland makes up for: [`judge`] then finds another
/// size, whatever else it finds.
pub fn is_other_size(want: &SizeKey, have: &SizeKey) -> bool {
    if want.without_fit() == have.without_fit() || want.family() != have.family() {
        return false;
    }
    match want.family().facts().exchange.other_width {
        OtherWidth::Gland => !serve_in_one_gland(want, have),
        OtherWidth::InBore => !same_but(want, have, Dimension::Width),
        OtherWidth::Spacer { .. } => {
            width_of(want.family()).is_none_or(|width| !same_but(want, have, width))
        }
        OtherWidth::Never => true,
    }
}

/// A size from memory is no unconditional yes.
fn cross_check(have: &Subject, findings: &mut Findings) {
    if have
        .confidence
        .is_some_and(|confidence| !confidence.is_cross_checked())
    {
        findings.check(FROM_MEMORY);
    }
}

fn same_but(want: &SizeKey, have: &SizeKey, except: Dimension) -> bool {
    want.dimensions()
        .zip(have.dimensions())
        .all(|((name, a), (_, b))| name == except || a == b)
}

/// The width that the seat of a part has room for: that of its key.
fn width_of(family: Family) -> Option<Dimension> {
    let shape = &family.facts().shape;
    shape.width_place.map(|place| shape.key[place])
}

/// Only where neither says how hard it is: what one says alone is judged with the variants.
fn hardness_of_pin(want: &Subject, have: &Subject, findings: &mut Findings) {
    let says = |subject: &Subject| {
        ["hardened", "unhardened"]
            .iter()
            .any(|of| subject.traits.has_variant(of))
            || subject.traits.hardness.is_some()
    };
    if !says(want) && !says(have) {
        findings
            .unknown("whether the pin is hardened (ISO 8734, DIN 6325) or not (ISO 2338, DIN 7)");
    }
}

/// Pins of one size and another class of diameter sit otherwise in their bores.
fn fit(want: &SizeKey, have: &SizeKey, findings: &mut Findings) {
    findings.agrees(format!("size: {}", want.without_fit()));
    let (Some(wanted), Some(at_hand)) = (want.fit(), have.fit()) else {
        findings.unknown("class of the pin's diameter (m6, h8, h6)");
        return;
    };
    findings.differs(
        Bar::Never,
        Difference {
            what: "fit",
            have: at_hand.to_string(),
            want: wanted.to_string(),
            effect: "another fit in the same bore: m6 is pressed in, h8 and h6 slide and need another hold".to_owned(),
            source: "ISO 286-2 classes; ISO 8734 and ISO 2338, from memory",
        },
    );
}

/// A narrower bearing may be made up with a spacer of so many millimetres at most; a wider one has no room.
fn radial_width((want, have): (&SizeKey, &SizeKey), most_mm: f64, findings: &mut Findings) {
    let Some(width) = width_of(want.family()) else {
        other_size(want, have, findings);
        return;
    };
    let (Some(wanted), Some(at_hand)) = (want.get(width), have.get(width)) else {
        return;
    };
    if !same_but(want, have, width) {
        other_size(want, have, findings);
        return;
    }
    let missing_mm = wanted.difference_mm(at_hand);
    let is_wider = missing_mm < 0.0;
    let effect = if is_wider {
        format!(
            "{} mm wider: no room unless shaft, housing and retaining ring groove allow it",
            round(-missing_mm)
        )
    } else {
        format!(
            "{} mm narrower: needs a spacer, and both rings their full support",
            round(missing_mm)
        )
    };
    let fits_with_spacer = !is_wider && missing_mm <= most_mm;
    findings.differs(
        if fits_with_spacer {
            Bar::Rework
        } else {
            Bar::OtherSize
        },
        Difference {
            what: "width",
            have: at_hand.to_string(),
            want: wanted.to_string(),
            effect,
            source: "common practice, no source",
        },
    );
    if fits_with_spacer {
        findings.rework(format!(
            "spacer of {} mm, faces parallel within about 5 µm; never on a preloaded pair without its documentation",
            round(missing_mm)
        ));
        findings.check("load rating of the narrower bearing against the machine's documentation");
    }
}

fn lip_seal_width(want: &SizeKey, have: &SizeKey, findings: &mut Findings) {
    let (Some(wanted), Some(at_hand)) = (want.get(Dimension::Width), have.get(Dimension::Width))
    else {
        return;
    };
    let effect = if at_hand < wanted {
        "narrower: seat it square and check that the lip does not run in the old track"
    } else {
        "wider: only if the housing bore is deep enough"
    };
    findings.differs(
        Bar::Check,
        Difference {
            what: "width",
            have: at_hand.to_string(),
            want: wanted.to_string(),
            effect: effect.to_owned(),
            source: "DIN 3760 lists several widths for one shaft and bore; common practice, no source",
        },
    );
}

/// Sections of AS568 and ISO 3601-1:1988 serve in each other's gland when the inside diameter agrees within tolerance.
fn serve_in_one_gland(want: &SizeKey, have: &SizeKey) -> bool {
    let get = |size: &SizeKey, name| size.get(name).map_or(0.0, Length::to_mm);
    let (inside, other_inside) = (
        get(want, Dimension::InsideDiameter),
        get(have, Dimension::InsideDiameter),
    );
    let (section, other_section) = (get(want, Dimension::Section), get(have, Dimension::Section));
    let near = |a: f64, b: f64| (a - b).abs() < 0.006;
    let is_pair = near(section, other_section)
        || SECTION_PAIRS_MM.iter().any(|&(a, b)| {
            (near(section, a) && near(other_section, b))
                || (near(section, b) && near(other_section, a))
        });
    // ISO 3601-1 class B tolerance on the inside diameter: 0.009 d^0.95 + 0.11 mm.
    let tolerance_mm = 0.009 * inside.powf(0.95) + 0.11;
    is_pair && (inside - other_inside).abs() <= tolerance_mm
}

fn o_ring(want: &SizeKey, have: &SizeKey, findings: &mut Findings) {
    if !serve_in_one_gland(want, have) {
        other_size(want, have, findings);
        return;
    }
    findings.differs(
        Bar::Check,
        Difference {
            what: "size",
            have: have.to_string(),
            want: want.to_string(),
            effect: "sections this close serve in each other's gland: check squeeze and stretch in the groove".to_owned(),
            source: "ISO 3601-1:1988 and AS568 tolerances, published tables",
        },
    );
}

/// A different size, with the inch and metric trap named.
fn other_size(want: &SizeKey, have: &SizeKey, findings: &mut Findings) {
    let worst_mm = want
        .dimensions()
        .zip(have.dimensions())
        .map(|((_, a), (_, b))| a.difference_mm(b).abs())
        .fold(0.0, f64::max);
    let effect = if worst_mm < 1.0 {
        "close enough to mistake, not to fit: an inch and metric trap, or another series".to_owned()
    } else {
        format!("another size: differs by up to {} mm", round(worst_mm))
    };
    findings.differs(
        Bar::OtherSize,
        Difference {
            what: "size",
            have: have.to_string(),
            want: want.to_string(),
            effect,
            source: "arithmetic",
        },
    );
}

fn round(mm: f64) -> String {
    Length::from_mm((mm * 1000.0).round() / 1000.0)
        .map_or_else(|_| "0".to_owned(), |length| format!("{length:#}"))
}
