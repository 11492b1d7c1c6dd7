//! What a figure of a sound or worn part of a nominal size should be.

use super::super::reading::Role;
use crate::limit::{self, BearingFeature, Deviation, SealFeature};
use crate::part::{Dimension, Family, SizeKey, ToleranceClass};
use crate::standard::{self, StandardPart};
use crate::units::Length;

/// One way a figure may come about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Expected {
    /// How often it comes about so, where there are two ways.
    pub(super) share: f64,
    /// The size the band is counted from, mm.
    pub(super) base_mm: f64,
    /// Band of a new part relative to the base.
    pub(super) band: Deviation,
    /// Share of the band that parts lie in.
    pub(super) band_share: f64,
    /// Mean wear, mm; negative where wear makes the figure smaller.
    pub(super) wear_mm: f64,
    /// Spread from softness or looseness of what is measured, mm.
    pub(super) soft_mm: f64,
}

/// Share of its band that a new part lies in: a maker accepts it only where it is inside by what his own gauge is unsure of,
/// which is a tenth of the band at either end.
///
/// # Source
/// ISO 14253-1 (acceptance less the uncertainty); a tenth by the golden rule of gauging, common practice.
const ACCEPTED_SHARE: f64 = 0.8;
/// A seat or a free ring is met anywhere in the band given for it, which no gauge decided.
const FOUND_SHARE: f64 = 1.0;

/// Mean wear, mm: a bore that turned on its shaft grows, an outside that crept and faces shrink, a shaft gets thinner and a
/// housing wider, a pin thinner (common practice, no source).
const BORE_WEAR_MM: f64 = 0.02;
const OUTSIDE_WEAR_MM: f64 = -0.03;
const FACE_WEAR_MM: f64 = -0.05;
const SHAFT_WEAR_MM: f64 = -0.02;
const HOUSING_WEAR_MM: f64 = 0.02;
const PIN_WEAR_MM: f64 = -0.01;

/// Up to two ways.
pub(super) type Ways = [Option<Expected>; 2];

const fn um(lower_um: f64, upper_um: f64) -> Deviation {
    Deviation { lower_um, upper_um }
}

fn one(base_mm: f64, band: Deviation, wear_mm: f64, soft_mm: f64) -> Ways {
    let way = Expected {
        share: 1.0,
        base_mm,
        band,
        band_share: ACCEPTED_SHARE,
        wear_mm,
        soft_mm,
    };
    [Some(way), None]
}

/// A seat, not the part itself.
fn seat(base_mm: f64, band: Deviation, wear_mm: f64) -> Ways {
    let [way, _] = one(base_mm, band, wear_mm, 0.0);
    let found = |way| Expected {
        band_share: FOUND_SHARE,
        ..way
    };
    [way.map(found), None]
}

/// The ways a figure of this role may come about for a size; none where the size has no such figure.
///
/// # Source
/// Bands as named at [`limit`], those that it has no table of at their constants here.
pub(super) fn expected(
    size: &SizeKey,
    row: Option<&StandardPart>,
    role: Role,
    class: ToleranceClass,
) -> Ways {
    let family = size.family();
    let value = role
        .dimension(family)
        .and_then(|dimension| size.get(dimension))
        .map(|length| length.to_mm());
    let Some(mm) = value.or_else(|| outer_of_ring(size, role)) else {
        return [None, None];
    };
    let note = row.map_or("", |row| row.note.as_str());
    match family {
        Family::LipSeal => of_lip_seal(mm, role),
        Family::ORing => of_o_ring(size, mm, role, note),
        Family::ShaftRetainingRing | Family::BoreRetainingRing => {
            of_retaining_ring(family, mm, role, note)
        }
        Family::LockNut => of_lock_nut(size, mm, role),
        Family::DowelPin => of_pin(size, mm, role, is_inch_pin(row)),
        Family::DeepGrooveBall
        | Family::AngularContactBall
        | Family::SelfAligningBall
        | Family::CylindricalRoller
        | Family::TaperedRoller
        | Family::SphericalRoller
        | Family::NeedleRoller
        | Family::NeedleRollerNoInnerRing
        | Family::DrawnCupNeedle
        | Family::NeedleCage
        | Family::ThrustBall
        | Family::ThrustNeedle
        | Family::CombinedNeedleThrust => of_bearing(size, row, mm, role, class),
    }
}

/// What of a size, besides the dimension that a figure is of, its [`expected`] ways hang on: sizes of one family that agree
/// in both measure alike. Of sizes without a tolerance class.
pub(super) fn hangs_on(size: &SizeKey, row: Option<&StandardPart>, role: Role) -> [i64; 2] {
    let nm = |dimension| size.get(dimension).map_or(0, Length::as_nm);
    // The note of a row, which is one of its own.
    let of_row = row.map_or(0, |row| std::ptr::from_ref(row).addr() as i64);
    match size.family() {
        Family::ORing => match row {
            Some(_) => [of_row, 0],
            None => [nm(Dimension::InsideDiameter), nm(Dimension::Section)],
        },
        Family::ShaftRetainingRing | Family::BoreRetainingRing => [of_row, 0],
        Family::LockNut => [nm(Dimension::ThreadPitch), 0],
        Family::CombinedNeedleThrust if matches!(role, Role::Inner | Role::Shaft) => [of_row, 0],
        Family::TaperedRoller if role != Role::Width => [i64::from(is_inch(row)), 0],
        Family::DowelPin => [i64::from(is_inch_pin(row)), 0],
        _ if role == Role::Width => [nm(Dimension::Bore), 0],
        _ => [0, 0],
    }
}

/// The family as which another is measured: rings of ISO 492 measure alike, whatever rolls between them.
pub(super) const fn measured_as(family: Family) -> Family {
    match family {
        Family::AngularContactBall
        | Family::SelfAligningBall
        | Family::CylindricalRoller
        | Family::SphericalRoller
        | Family::NeedleRoller => Family::DeepGrooveBall,
        other @ (Family::DeepGrooveBall
        | Family::TaperedRoller
        | Family::NeedleRollerNoInnerRing
        | Family::DrawnCupNeedle
        | Family::NeedleCage
        | Family::ThrustBall
        | Family::ThrustNeedle
        | Family::CombinedNeedleThrust
        | Family::LipSeal
        | Family::ORing
        | Family::ShaftRetainingRing
        | Family::BoreRetainingRing
        | Family::LockNut
        | Family::DowelPin) => other,
    }
}

/// True for the inch sizes of tapered roller bearings, whose rings are held the other way.
fn is_inch(row: Option<&StandardPart>) -> bool {
    row.is_some_and(|row| row.standard.contains("ABMA 19"))
}

/// True for the inch pins of ASME B18.8.2, whose lengths are held closer.
fn is_inch_pin(row: Option<&StandardPart>) -> bool {
    row.is_some_and(|row| row.standard.contains("B18.8.2"))
}

/// O-rings are sometimes measured over the outside.
fn outer_of_ring(size: &SizeKey, role: Role) -> Option<f64> {
    let (inside, section) = (
        size.get(Dimension::InsideDiameter)?,
        size.get(Dimension::Section)?,
    );
    (role == Role::Outer).then(|| inside.to_mm() + 2.0 * section.to_mm())
}

fn of_bearing(
    size: &SizeKey,
    row: Option<&StandardPart>,
    mm: f64,
    role: Role,
    class: ToleranceClass,
) -> Ways {
    let family = size.family();
    let is_inch = family == Family::TaperedRoller && is_inch(row);
    let inner_ring_mm = row
        .filter(|_| family == Family::CombinedNeedleThrust)
        .and_then(|row| standard::noted(&row.note, standard::INNER_RING_BORE));
    match role {
        // A seat, not the part: it wears the other way.
        Role::Shaft => {
            let (mm, band) = match inner_ring_mm {
                Some(bore_mm) => (bore_mm, ON_SHAFT),
                None => (mm, shaft_band(family, mm)),
            };
            seat(mm, band, SHAFT_WEAR_MM)
        }
        Role::Housing => seat(mm, housing_band(family, mm), HOUSING_WEAR_MM),
        Role::Inner if inner_ring_mm.is_some() => with_inner_ring(mm, inner_ring_mm.unwrap_or(mm)),
        Role::Inner | Role::WasherBore => one(
            mm,
            inner_band(family, is_inch, class, mm),
            BORE_WEAR_MM,
            soft(family),
        ),
        Role::Outer => one(
            mm,
            outer_band(family, is_inch, class, mm),
            OUTSIDE_WEAR_MM,
            soft(family),
        ),
        Role::Width => {
            let bore_mm = size.get(Dimension::Bore).map_or(mm, |bore| bore.to_mm());
            one(mm, width_band(family, class, bore_mm), FACE_WEAR_MM, 0.0)
        }
        _ => [None, None],
    }
}

/// How often a combined bearing is measured with its inner ring in it (common practice, no source).
const WITH_ITS_RING: f64 = 0.7;

/// The bore of an inner ring, or the raceway under the needles where the ring is off.
fn with_inner_ring(raceway_mm: f64, bore_mm: f64) -> Ways {
    let family = Family::CombinedNeedleThrust;
    let class = ToleranceClass::Normal;
    let way = |share, family, base_mm| Expected {
        share,
        base_mm,
        band: inner_band(family, false, class, base_mm),
        band_share: ACCEPTED_SHARE,
        wear_mm: BORE_WEAR_MM,
        soft_mm: soft(family),
    };
    [
        Some(way(WITH_ITS_RING, Family::NeedleRoller, bore_mm)),
        Some(way(1.0 - WITH_ITS_RING, family, raceway_mm)),
    ]
}

/// Seats of bearings were turned to some class near k6 or J7 (common practice, no source).
const ON_SHAFT: Deviation = um(-10.0, 20.0);
const IN_HOUSING: Deviation = um(-20.0, 25.0);

/// Housing around a thrust cage, which touches it nowhere (common practice, no source).
const AROUND_THRUST_NEEDLES: Deviation = um(0.0, 300.0);

/// What a bearing sits on: needles without a ring of their own run on it with play, cages of thrust needles lie loose on it.
///
/// # Source
/// Shafts for drawn cups h5 and h6, for cages and needles without inner ring g6 to h5: common practice, from memory.
fn shaft_band(family: Family, mm: f64) -> Deviation {
    let lower_um = |class| limit::fit(class, mm).map_or(-20.0, |of| of.lower_um);
    match family {
        Family::DrawnCupNeedle => um(lower_um("h6"), 0.0),
        Family::NeedleCage | Family::NeedleRollerNoInnerRing => um(lower_um("g6"), 0.0),
        Family::ThrustNeedle => um(lower_um("h8"), 0.0),
        _ => ON_SHAFT,
    }
}

/// What a bearing sits in: a drawn cup is pressed in, a cage runs in it, the housing washer of a thrust bearing has play.
///
/// # Source
/// Drawn cups N6 and N7 in steel, R6 and R7 in light metal, which is some 6 µm below P7; cages G6; thrust bearings H7 to E8, for
/// which 12 µm times the diameter to 0.41 stands in (ISO 286-1 has 11): common practice, from memory.
fn housing_band(family: Family, mm: f64) -> Deviation {
    let of = |class: &str| limit::fit(class, mm).unwrap_or(IN_HOUSING);
    match family {
        Family::DrawnCupNeedle => um(of("P7").lower_um - 6.0, of("N7").upper_um),
        Family::NeedleCage => of("G6"),
        Family::ThrustBall => um(0.0, 12.0 * mm.powf(0.41) + of("H8").upper_um),
        Family::ThrustNeedle => AROUND_THRUST_NEEDLES,
        _ => IN_HOUSING,
    }
}

/// The band of a seat as any usual class of fit may have it: g6 to p6 on a shaft, P7 to G7 in a housing.
pub(super) fn usual_seat(family: Family, role: Role, way: &Expected) -> Deviation {
    let band = way.band;
    let classes = match role {
        Role::Shaft => ["g6", "p6"],
        Role::Housing => ["P7", "G7"],
        _ => return band,
    };
    if !family.is_radial_bearing() {
        return band;
    }
    let [loose, tight] = classes.map(|class| limit::fit(class, way.base_mm).unwrap_or(band));
    um(
        band.lower_um.min(loose.lower_um).min(tight.lower_um),
        band.upper_um.max(loose.upper_um).max(tight.upper_um),
    )
}

/// Needles hang loose and drawn cups are not round before they are pressed in (common practice, no source).
const fn soft(family: Family) -> f64 {
    match family {
        Family::NeedleCage => 0.06,
        Family::DrawnCupNeedle | Family::NeedleRollerNoInnerRing | Family::CombinedNeedleThrust => {
            0.04
        }
        Family::ThrustNeedle => 0.03,
        _ => 0.0,
    }
}

/// Inch tapered roller bearings, bore and outside (ISO 578, from memory).
const INCH_BORE: Deviation = um(0.0, 13.0);
const INCH_OUTSIDE: Deviation = um(0.0, 25.0);
/// Bores under needles (common practice, no source).
const UNDER_NEEDLES: Deviation = um(-20.0, 40.0);
/// Cages and washers of thrust needles run clear of shaft and housing (ISO 3031 and ISO 104, from memory).
const THRUST_CAGE_BORE: Deviation = um(0.0, 150.0);
const THRUST_CAGE_OUTSIDE: Deviation = um(-300.0, 0.0);
/// A drawn cup before it is pressed in, and a cage over its needles (common practice, no source).
const DRAWN_CUP_OUTSIDE: Deviation = um(0.0, 40.0);
const NEEDLE_CAGE_OUTSIDE: Deviation = um(-60.0, 20.0);
/// Rings of sizes beyond the tables of [`limit`]: bore, outside and width (common practice, no source).
const ANY_BORE: Deviation = um(-50.0, 0.0);
const ANY_OUTSIDE: Deviation = um(-60.0, 0.0);
const ANY_WIDTH: Deviation = um(-400.0, 0.0);

fn inner_band(family: Family, is_inch: bool, class: ToleranceClass, mm: f64) -> Deviation {
    match family {
        Family::TaperedRoller if is_inch => INCH_BORE,
        Family::DrawnCupNeedle | Family::NeedleCage | Family::CombinedNeedleThrust => UNDER_NEEDLES,
        Family::ThrustNeedle => THRUST_CAGE_BORE,
        _ => limit::bearing(BearingFeature::Bore, class, mm).unwrap_or(ANY_BORE),
    }
}

fn outer_band(family: Family, is_inch: bool, class: ToleranceClass, mm: f64) -> Deviation {
    match family {
        Family::TaperedRoller if is_inch => INCH_OUTSIDE,
        Family::DrawnCupNeedle => DRAWN_CUP_OUTSIDE,
        Family::NeedleCage => NEEDLE_CAGE_OUTSIDE,
        Family::ThrustNeedle => THRUST_CAGE_OUTSIDE,
        _ => limit::bearing(BearingFeature::OutsideDiameter, class, mm).unwrap_or(ANY_OUTSIDE),
    }
}

fn width_band(family: Family, class: ToleranceClass, bore_mm: f64) -> Deviation {
    match family {
        // ISO 492, assembled width of tapered roller bearings, from memory.
        Family::TaperedRoller if bore_mm <= 80.0 => um(0.0, 200.0),
        Family::TaperedRoller => um(-200.0, 200.0),
        // ISO 199, ISO 3245 and ISO 3030, from memory.
        Family::ThrustBall => um(-250.0, 20.0),
        Family::DrawnCupNeedle => um(-300.0, 0.0),
        Family::NeedleCage => um(-500.0, 0.0),
        Family::ThrustNeedle => um(-10.0, 10.0),
        _ => limit::bearing(BearingFeature::Width, class, bore_mm).unwrap_or(ANY_WIDTH),
    }
}

/// A hardened, worn lip opens, and gives under the calliper, mm (common practice, no source).
const LIP_WEAR_MM: f64 = 0.3;
const LIP_SOFT_MM: f64 = 0.1;
/// The shaft under a lip wears to a groove, mm (common practice, no source).
const LIP_SHAFT_WEAR_MM: f64 = -0.03;
/// A case that was pressed in has given way towards its bore, and gives under the calliper, mm (common practice, no source).
const CASE_WEAR_MM: f64 = -0.05;
const CASE_SOFT_MM: f64 = 0.03;
/// Nobody says whether the shaft or the free lip, the case or the bore was measured: how often it is the shaft, and how often
/// the case (common practice, no source).
const SEAL_ON_SHAFT: f64 = 0.5;
const SEAL_BY_CASE: f64 = 0.6;
/// Shafts, lips, bores, cases and widths of seals beyond the tables of [`limit`] (common practice, no source).
const ANY_SEAL_SHAFT: Deviation = um(-160.0, 0.0);
const ANY_LIP: Deviation = um(-2000.0, -500.0);
const ANY_SEAL_BORE: Deviation = um(0.0, 50.0);
const ANY_CASE: Deviation = um(100.0, 350.0);
const ANY_SEAL_WIDTH: Deviation = um(-300.0, 300.0);

fn of_lip_seal(mm: f64, role: Role) -> Ways {
    let shaft = |share| Expected {
        share,
        base_mm: mm,
        band: limit::fit("h11", mm).unwrap_or(ANY_SEAL_SHAFT),
        band_share: FOUND_SHARE,
        wear_mm: LIP_SHAFT_WEAR_MM,
        soft_mm: 0.0,
    };
    let lip = |share| Expected {
        share,
        base_mm: mm,
        band: limit::lip_seal(SealFeature::FreeLip, mm).unwrap_or(ANY_LIP),
        band_share: ACCEPTED_SHARE,
        wear_mm: LIP_WEAR_MM,
        soft_mm: LIP_SOFT_MM,
    };
    let bore = |share| Expected {
        share,
        base_mm: mm,
        band: limit::fit("H8", mm).unwrap_or(ANY_SEAL_BORE),
        band_share: FOUND_SHARE,
        wear_mm: HOUSING_WEAR_MM,
        soft_mm: 0.0,
    };
    let case = |share| {
        let metal = limit::lip_seal(SealFeature::MetalCase, mm);
        let rubber = limit::lip_seal(SealFeature::RubberCase, mm);
        let lower_um = metal.unwrap_or(ANY_CASE).lower_um;
        let upper_um = rubber.unwrap_or(ANY_CASE).upper_um;
        Expected {
            share,
            base_mm: mm,
            band: um(lower_um, upper_um),
            band_share: ACCEPTED_SHARE,
            wear_mm: CASE_WEAR_MM,
            soft_mm: CASE_SOFT_MM,
        }
    };
    match role {
        Role::Shaft => [Some(shaft(1.0)), None],
        Role::FreeLip => [Some(lip(1.0)), None],
        Role::Inner => [Some(shaft(SEAL_ON_SHAFT)), Some(lip(1.0 - SEAL_ON_SHAFT))],
        Role::Housing => [Some(bore(1.0)), None],
        Role::Outer => [Some(case(SEAL_BY_CASE)), Some(bore(1.0 - SEAL_BY_CASE))],
        Role::Width => one(
            mm,
            limit::lip_seal(SealFeature::Width, mm).unwrap_or(ANY_SEAL_WIDTH),
            0.0,
            CASE_SOFT_MM,
        ),
        _ => [None, None],
    }
}

/// By how much of its size a used O-ring is longer, and its section flatter (common practice, no source).
const RING_STRETCH: f64 = 0.01;
const SECTION_SET: f64 = 0.05;
/// An O-ring gives under the calliper: its section, its diameter, and its diameter by so much of it, mm (common practice, no
/// source).
const SECTION_SOFT_MM: f64 = 0.03;
const RING_SOFT_MM: f64 = 0.05;
const RING_SOFT: f64 = 0.002;

fn of_o_ring(size: &SizeKey, mm: f64, role: Role, note: &str) -> Ways {
    let get = |dimension| size.get(dimension).map_or(mm, |length| length.to_mm());
    let (inside_mm, section_mm) = (get(Dimension::InsideDiameter), get(Dimension::Section));
    let tolerance = limit::o_ring(inside_mm, section_mm, note);
    let both = |mm: f64| um(-1000.0 * mm, 1000.0 * mm);
    match role {
        Role::Section => one(
            mm,
            both(tolerance.section_mm),
            -SECTION_SET * mm,
            SECTION_SOFT_MM,
        ),
        Role::Outer => one(
            mm,
            both(tolerance.inside_mm + 2.0 * tolerance.section_mm),
            RING_STRETCH * mm,
            RING_SOFT_MM + RING_SOFT * mm,
        ),
        _ => one(
            mm,
            both(tolerance.inside_mm),
            RING_STRETCH * mm,
            RING_SOFT_MM + RING_SOFT * mm,
        ),
    }
}

/// The shaft or bore beside the groove of a retaining ring as it was turned, and the free ring, µm (common practice, no source).
const BESIDE_GROOVE: Deviation = um(-100.0, 50.0);
const FREE_RING: Deviation = um(-400.0, 400.0);
/// How well a calliper finds a groove or the shaft beside it, and the ends of a free ring, mm (common practice, no source).
const GROOVE_SOFT_MM: f64 = 0.02;
const FREE_RING_SOFT_MM: f64 = 0.1;
/// How often the shaft or bore was measured where nobody says that it was not the free ring (common practice, no source).
const RING_ON_SEAT: f64 = 0.7;
/// Grooves beyond the tables of [`limit`] (common practice, no source).
const ANY_GROOVE: Deviation = um(-60.0, 60.0);

/// The groove's shaft or bore, the groove itself, or the free ring where the table knows its free diameter.
fn of_retaining_ring(family: Family, mm: f64, role: Role, note: &str) -> Ways {
    let seat = |share| Expected {
        share,
        base_mm: mm,
        band: BESIDE_GROOVE,
        band_share: FOUND_SHARE,
        wear_mm: 0.0,
        soft_mm: GROOVE_SOFT_MM,
    };
    let free_mm = standard::noted(note, standard::FREE_DIAMETER);
    let free = |share| {
        free_mm.map(|base_mm| Expected {
            share,
            base_mm,
            band: FREE_RING,
            band_share: FOUND_SHARE,
            wear_mm: 0.0,
            soft_mm: FREE_RING_SOFT_MM,
        })
    };
    match role {
        Role::Shaft | Role::Housing => [Some(seat(1.0)), None],
        Role::FreeRing | Role::Outer => [free(1.0), None],
        Role::RingGroove => {
            let groove_mm = standard::noted(note, standard::GROOVE_DIAMETER);
            [groove_mm.map(|mm| ring_groove(family, mm)), None]
        }
        _ if free_mm.is_some() => [Some(seat(RING_ON_SEAT)), free(1.0 - RING_ON_SEAT)],
        _ => [Some(seat(1.0)), None],
    }
}

/// From this groove diameter on a groove has the twelfth grade of tolerance, below the eleventh, mm (DIN 471 and DIN 472, from
/// memory); the twelfth is 1.6 times the eleventh (ISO 286-1).
const GRADE_12_FROM_MM: f64 = 22.0;
const GRADE_12: f64 = 1.6;

/// The groove of a retaining ring: h11 and h12 on a shaft, H11 and H12 in a bore.
fn ring_groove(family: Family, mm: f64) -> Expected {
    let class = if family == Family::ShaftRetainingRing {
        "h11"
    } else {
        "H11"
    };
    let grade = if mm > GRADE_12_FROM_MM { GRADE_12 } else { 1.0 };
    let band = limit::fit(class, mm).map_or(ANY_GROOVE, |of| {
        um(grade * of.lower_um, grade * of.upper_um)
    });
    Expected {
        share: 1.0,
        base_mm: mm,
        band,
        band_share: FOUND_SHARE,
        wear_mm: 0.0,
        soft_mm: GROOVE_SOFT_MM,
    }
}

/// The thread that a lock nut sits on, and the core of the nut, µm: tolerance 6 of the major diameter at a pitch of 2 mm and of
/// the minor diameter at 1.5 mm (ISO 965-1, from memory).
const NUT_THREAD: Deviation = um(-280.0, 0.0);
const NUT_CORE: Deviation = um(0.0, 300.0);
/// How often the thread was measured and not the core, and how well either is found, mm (common practice, no source).
const NUT_BY_THREAD: f64 = 0.5;
const NUT_SOFT_MM: f64 = 0.03;
/// A pitch as a gauge shows it, and how well it is read, mm (common practice, no source).
const PITCH: Deviation = um(-20.0, 20.0);
const PITCH_SOFT_MM: f64 = 0.05;
/// The pitch of a nut of which none is known, mm: that of most small ones (ISO 2982-2, from memory).
const USUAL_PITCH_MM: f64 = 1.5;

/// The thread's nominal diameter, or the core of the nut, 1.0825 pitches less (ISO 724).
fn of_lock_nut(size: &SizeKey, mm: f64, role: Role) -> Ways {
    if role == Role::Pitch {
        return one(mm, PITCH, 0.0, PITCH_SOFT_MM);
    }
    let pitch_mm = size
        .get(Dimension::ThreadPitch)
        .map_or(USUAL_PITCH_MM, |pitch| pitch.to_mm());
    let nominal = Expected {
        share: NUT_BY_THREAD,
        base_mm: mm,
        band: NUT_THREAD,
        band_share: ACCEPTED_SHARE,
        wear_mm: 0.0,
        soft_mm: NUT_SOFT_MM,
    };
    let core = Expected {
        share: 1.0 - NUT_BY_THREAD,
        base_mm: mm - 1.0825 * pitch_mm,
        band: NUT_CORE,
        band_share: ACCEPTED_SHARE,
        wear_mm: 0.0,
        soft_mm: NUT_SOFT_MM,
    };
    [Some(nominal), Some(core)]
}

/// A pin of no stated class, which is h8, m6 or between them, µm (common practice, no source).
const ANY_PIN: Deviation = um(-10.0, 15.0);

fn of_pin(size: &SizeKey, mm: f64, role: Role, is_inch: bool) -> Ways {
    if role == Role::Width && is_inch {
        // ASME B18.8.2: 0.010 in either way, from memory.
        return one(mm, um(-254.0, 254.0), 0.0, 0.0);
    }
    if role == Role::Width {
        // ISO 8734 and ISO 2338 lengths, from memory.
        let both = match mm {
            mm if mm <= 10.0 => 250.0,
            mm if mm <= 50.0 => 500.0,
            _ => 750.0,
        };
        return one(mm, um(-both, both), 0.0, 0.0);
    }
    let of_class = size.fit();
    let of_class = of_class.and_then(|class| limit::fit(&class.to_string(), mm));
    let band = match of_class {
        Some(band) => band,
        None if is_inch => um(
            INCH_PIN_OVER_UM - INCH_PIN_BAND_UM,
            INCH_PIN_OVER_UM + INCH_PIN_BAND_UM,
        ),
        None => ANY_PIN,
    };
    one(mm, band, PIN_WEAR_MM, 0.0)
}

/// By how much the basic diameter of an inch pin of the standard series lies over its nominal one, and its band to either
/// side, µm.
///
/// # Source
/// ASME B18.8.2: +0.0002 in, and 0.0001 in either way; from memory.
const INCH_PIN_OVER_UM: f64 = 5.08;
const INCH_PIN_BAND_UM: f64 = 2.54;

/// The basic diameter of an inch pin, as which it may be printed instead of its nominal one: 0.2502 in of the 1/4 in pin.
pub(super) fn basic_diameter(
    row: Option<&StandardPart>,
    role: Role,
    nominal: Length,
) -> Option<Length> {
    let is_it = role == Role::Inner && is_inch_pin(row);
    let basic_mm = nominal.to_mm() + INCH_PIN_OVER_UM / 1_000.0;
    Length::from_mm(basic_mm).ok().filter(|_| is_it)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standard;

    fn ways(name: &str, role: Role) -> Vec<Expected> {
        let row = standard::find(name).unwrap();
        expected(&row.size, Some(row), role, ToleranceClass::Normal)
            .into_iter()
            .flatten()
            .collect()
    }

    #[test]
    fn only_combined_bearings_note_the_bore_of_an_inner_ring() {
        // DIN 5429-2; a row of another family with such a note would be measured without it.
        let has_note = |row: &&StandardPart| row.note.contains(standard::INNER_RING_BORE);
        let mut noted = standard::parts().iter().filter(has_note).peekable();
        assert!(noted.peek().is_some());
        assert!(noted.all(|row| row.size.family() == Family::CombinedNeedleThrust));
    }

    #[test]
    fn a_bearing_is_never_over_nominal_when_new() {
        // ISO 492 Normal class: 6208 has bore 0/-12, outside 0/-13, width 0/-120 µm.
        for (role, base, lower) in [
            (Role::Inner, 40.0, -12.0),
            (Role::Outer, 80.0, -13.0),
            (Role::Width, 18.0, -120.0),
        ] {
            let way = ways("6208", role)[0];
            assert!(
                (way.base_mm - base).abs() < 1e-9 && (way.band.lower_um - lower).abs() < 1e-9,
                "{way:?}"
            );
            assert!(way.band.upper_um.abs() < 1e-9);
        }
        assert!(ways("6208", Role::Section).is_empty());
    }

    #[test]
    fn families_that_measure_alike_are_expected_alike() {
        use crate::part::SizeKey;
        let mm = |values: [f64; 3]| values.map(|mm| Length::from_mm(mm).unwrap());
        for family in Family::ALL {
            let like = measured_as(family);
            assert_eq!(measured_as(like), like, "{family}");
            let roles = |of: Family| -> Vec<Role> {
                of.key_dimensions()
                    .iter()
                    .map(|dimension| Role::of(of, *dimension))
                    .collect()
            };
            assert_eq!(roles(family), roles(like), "{family}");
            if like == family {
                continue;
            }
            for lengths in [[10.0, 30.0, 9.0], [90.0, 160.0, 30.0], [320.0, 480.0, 74.0]] {
                let [of, likewise] =
                    [family, like].map(|family| SizeKey::new(family, &mm(lengths)).unwrap());
                for role in [
                    Role::Inner,
                    Role::Outer,
                    Role::Width,
                    Role::Shaft,
                    Role::Housing,
                ] {
                    for class in [ToleranceClass::Normal, ToleranceClass::P5] {
                        assert_eq!(
                            expected(&of, None, role, class),
                            expected(&likewise, None, role, class),
                            "{family} {role:?} {lengths:?}"
                        );
                    }
                    assert_eq!(hangs_on(&of, None, role), hangs_on(&likewise, None, role));
                }
            }
        }
    }

    #[test]
    fn a_lip_seal_measures_larger_outside_and_smaller_inside() {
        let inside = ways("40x62x8", Role::Inner);
        assert_eq!(inside.len(), 2);
        assert!(inside[1].band.upper_um < 0.0);
        // Public tolerance pages: case over a 62 mm bore +0.13 mm at least.
        assert!(ways("40x62x8", Role::Outer)[0].band.lower_um >= 130.0);
    }

    #[test]
    fn needles_and_thrust_washers_have_seats_of_their_own() {
        // ISO 286-2: h6 at 20 mm -13/0, N7 at 26 mm -28/-7, R7 at 26 mm -41/-20, E8 at 52 mm +60/+106, G6 at 24 mm +7/+20 µm.
        for (name, role, lower, upper) in [
            ("HK2020", Role::Shaft, -13.0, 0.0),
            ("HK2020", Role::Housing, -41.0, -7.0),
            ("51206", Role::Housing, 0.0, 106.0),
            ("K20x24x13", Role::Housing, 7.0, 20.0),
            ("6205", Role::Shaft, -10.0, 20.0),
        ] {
            let way = ways(name, role)[0];
            assert!(
                (way.band.lower_um - lower).abs() < 1.0 && (way.band.upper_um - upper).abs() < 2.0,
                "{name} {role:?}: {way:?}"
            );
        }
    }

    #[test]
    fn a_ring_under_the_needles_has_a_bore_of_its_own() {
        // DIN 5429-2, from memory: NKIA5904 has a raceway of 25 mm on a ring with a bore of 20 mm; NKX25 has no ring.
        let bases = |name, role| -> Vec<i64> {
            let ways = ways(name, role);
            ways.iter().map(|way| way.base_mm.round() as i64).collect()
        };
        assert_eq!(bases("NKIA5904", Role::Inner), [20, 25]);
        assert_eq!(bases("NKIA5904", Role::Shaft), [20]);
        assert_eq!(bases("NKX25", Role::Inner), [25]);
        assert_eq!(bases("NKX25", Role::Shaft), [25]);
    }

    #[test]
    fn a_free_retaining_ring_is_known_by_its_table_row() {
        // DIN 472-40: free diameter d3 43.5 mm, two open tables.
        let free = ways("DIN 472-40", Role::Inner);
        assert!((free[1].base_mm - 43.5).abs() < 1e-9, "{free:?}");
        // DIN 472-62: groove diameter d2 65 mm, two open tables; DIN 471-25: 23.9 mm. IT12 is 300 and 210 µm (ISO 286-1).
        let groove = ways("DIN 472-62", Role::RingGroove)[0];
        assert!((groove.base_mm - 65.0).abs() < 1e-9, "{groove:?}");
        assert!((groove.band.upper_um - 300.0).abs() < 10.0 && groove.band.lower_um.abs() < 1e-9);
        let groove = ways("DIN 471-25", Role::RingGroove)[0];
        assert!((groove.base_mm - 23.9).abs() < 1e-9, "{groove:?}");
        assert!((groove.band.lower_um + 210.0).abs() < 10.0 && groove.band.upper_um.abs() < 1e-9);
        assert!(ways("6208", Role::RingGroove).is_empty());
        // ISO 724: core of M40x1.5 is 38.376 mm.
        assert!((ways("KM8", Role::Inner)[1].base_mm - 38.376).abs() < 0.001);
    }
}
