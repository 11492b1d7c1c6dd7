//! What a figure of a sound or worn part of a nominal size should be.

use std::sync::LazyLock;

use super::super::reading::Role;
use crate::limit::{self, BearingFeature, Deviation, SealFeature};
use crate::part::{
    Band, Dimension, Family, HousingBand, Measured, Rings, ShaftBand, SizeKey, ToleranceClass,
};
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
/// Bands as named at [`limit`], those that it has no table of at their constants here and in the facts of the family.
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
    match family.facts().bench.measured {
        Measured::Rings(rings) => of_bearing((size, row), rings, mm, role, class),
        Measured::LipAndCase => of_lip_seal(mm, role),
        Measured::RubberRing => of_o_ring(size, mm, role, note),
        Measured::SpringRing { groove, .. } => of_retaining_ring(groove, mm, role, note),
        Measured::Thread => of_lock_nut(size, mm, role),
        Measured::Pin => of_pin(size, mm, role, is_inch_pin(row)),
    }
}

/// What of a size, besides the dimension that a figure is of, its [`expected`] ways hang on: sizes of one family that agree
/// in both measure alike. Of sizes without a tolerance class.
pub(super) fn hangs_on(size: &SizeKey, row: Option<&StandardPart>, role: Role) -> [i64; 2] {
    let nm = |dimension| size.get(dimension).map_or(0, Length::as_nm);
    // The note of a row, which is one of its own.
    let of_row = row.map_or(0, |row| std::ptr::from_ref(row).addr() as i64);
    match size.family().facts().bench.measured {
        Measured::RubberRing => match row {
            Some(_) => [of_row, 0],
            None => [nm(Dimension::InsideDiameter), nm(Dimension::Section)],
        },
        Measured::SpringRing { .. } => [of_row, 0],
        Measured::Thread => [nm(Dimension::ThreadPitch), 0],
        Measured::Pin => [i64::from(is_inch_pin(row)), 0],
        Measured::Rings(rings)
            if rings.may_have_inner_ring && matches!(role, Role::Inner | Role::Shaft) =>
        {
            [of_row, 0]
        }
        Measured::Rings(_) if role == Role::Width => [nm(Dimension::Bore), 0],
        Measured::Rings(rings) => [i64::from(is_inch(rings, row)), 0],
        Measured::LipAndCase => [0, 0],
    }
}

/// The first family that measures as another does: rings of ISO 492 measure alike, whatever rolls between them.
pub(super) fn measured_as(family: Family) -> Family {
    static FIRST: LazyLock<[Family; Family::ALL.len()]> = LazyLock::new(|| {
        Family::ALL.map(|family| {
            let is_alike = |other: &Family| {
                let (one, other) = (family.facts(), other.facts());
                one.bench.measured == other.bench.measured
                    && one.bench.reach == other.bench.reach
                    && one.shape.key == other.shape.key
            };
            Family::ALL.into_iter().find(is_alike).unwrap_or(family)
        })
    });
    FIRST[family as usize]
}

/// True for the sizes of an inch standard whose rings are held the other way.
fn is_inch(rings: &Rings, row: Option<&StandardPart>) -> bool {
    let standard = rings.inch.map(|inch| inch.standard);
    standard.is_some_and(|of_inch| row.is_some_and(|row| row.standard.contains(of_inch)))
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
    (size, row): (&SizeKey, Option<&StandardPart>),
    rings: &Rings,
    mm: f64,
    role: Role,
    class: ToleranceClass,
) -> Ways {
    let inch = rings.inch.filter(|_| is_inch(rings, row));
    let inner_ring_mm = row
        .filter(|_| rings.may_have_inner_ring)
        .and_then(|row| standard::noted(&row.note, standard::INNER_RING_BORE));
    match role {
        // A seat, not the part: it wears the other way.
        Role::Shaft => {
            let (mm, on_shaft) = match inner_ring_mm {
                Some(bore_mm) => (bore_mm, Rings::ISO_492.on_shaft),
                None => (mm, rings.on_shaft),
            };
            seat(mm, shaft_band(on_shaft, mm), SHAFT_WEAR_MM)
        }
        Role::Housing => seat(mm, housing_band(rings.in_housing, mm), HOUSING_WEAR_MM),
        Role::Inner if inner_ring_mm.is_some() => {
            with_inner_ring(rings, mm, inner_ring_mm.unwrap_or(mm))
        }
        Role::Inner | Role::WasherBore => {
            let band = match inch {
                Some(inch) => um(inch.bore.0, inch.bore.1),
                None => bore_band(rings, class, mm),
            };
            one(mm, band, BORE_WEAR_MM, rings.soft_mm)
        }
        Role::Outer => {
            let feature = BearingFeature::OutsideDiameter;
            let band = match inch {
                Some(inch) => um(inch.outside.0, inch.outside.1),
                None => ring_band(rings.outside, (feature, ANY_OUTSIDE), class, mm),
            };
            one(mm, band, OUTSIDE_WEAR_MM, rings.soft_mm)
        }
        Role::Width => {
            let bore_mm = size.get(Dimension::Bore).map_or(mm, |bore| bore.to_mm());
            let feature = BearingFeature::Width;
            let band = ring_band(rings.width, (feature, ANY_WIDTH), class, bore_mm);
            one(mm, band, FACE_WEAR_MM, 0.0)
        }
        _ => [None, None],
    }
}

/// How often a combined bearing is measured with its inner ring in it (common practice, no source).
const WITH_ITS_RING: f64 = 0.7;

/// The bore of an inner ring, or the raceway under the needles where the ring is off.
fn with_inner_ring(rings: &Rings, raceway_mm: f64, bore_mm: f64) -> Ways {
    let class = ToleranceClass::Normal;
    let way = |share, rings: &Rings, base_mm| Expected {
        share,
        base_mm,
        band: bore_band(rings, class, base_mm),
        band_share: ACCEPTED_SHARE,
        wear_mm: BORE_WEAR_MM,
        soft_mm: rings.soft_mm,
    };
    [
        Some(way(WITH_ITS_RING, &Rings::ISO_492, bore_mm)),
        Some(way(1.0 - WITH_ITS_RING, rings, raceway_mm)),
    ]
}

/// Housings beyond the tables of [`limit`], and the lower limit of shafts there (common practice, no source).
const ANY_HOUSING: Deviation = um(-20.0, 25.0);
const ANY_SHAFT_LOWER_UM: f64 = -20.0;

/// What a bearing sits on: needles without a ring of their own run on it with play, cages of thrust needles lie loose on it.
fn shaft_band(on_shaft: ShaftBand, mm: f64) -> Deviation {
    match on_shaft {
        ShaftBand::Um(lower_um, upper_um) => um(lower_um, upper_um),
        ShaftBand::BelowNominal(class) => {
            let lower_um = limit::fit(class, mm).map_or(ANY_SHAFT_LOWER_UM, |of| of.lower_um);
            um(lower_um, 0.0)
        }
    }
}

/// What a bearing sits in: a drawn cup is pressed in, a cage runs in it, the housing washer of a thrust bearing has play.
///
/// # Source
/// Thrust bearings H7 to E8, for which 12 µm times the diameter to 0.41 stands in (ISO 286-1 has 11): common practice, from
/// memory.
fn housing_band(in_housing: HousingBand, mm: f64) -> Deviation {
    let of = |class: &str| limit::fit(class, mm).unwrap_or(ANY_HOUSING);
    match in_housing {
        HousingBand::Um(lower_um, upper_um) => um(lower_um, upper_um),
        HousingBand::Class(class) => of(class),
        HousingBand::Pressed {
            below_um,
            lower,
            upper,
        } => um(of(lower).lower_um - below_um, of(upper).upper_um),
        HousingBand::AroundWasher => um(0.0, 12.0 * mm.powf(0.41) + of("H8").upper_um),
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

/// Rings of sizes beyond the tables of [`limit`]: bore, outside and width (common practice, no source).
const ANY_BORE: Deviation = um(-50.0, 0.0);
const ANY_OUTSIDE: Deviation = um(-60.0, 0.0);
const ANY_WIDTH: Deviation = um(-400.0, 0.0);

fn bore_band(rings: &Rings, class: ToleranceClass, mm: f64) -> Deviation {
    ring_band(rings.bore, (BearingFeature::Bore, ANY_BORE), class, mm)
}

/// The band of a ring, where a size of its standard that is beyond the tables has any.
fn ring_band(
    band: Band,
    (feature, any): (BearingFeature, Deviation),
    class: ToleranceClass,
    mm: f64,
) -> Deviation {
    match band {
        Band::Iso492 => limit::bearing(feature, class, mm).unwrap_or(any),
        Band::Um(lower_um, upper_um) => um(lower_um, upper_um),
        Band::UpToBore(bore_mm, small, large) => {
            let (lower_um, upper_um) = if mm <= bore_mm { small } else { large };
            um(lower_um, upper_um)
        }
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
fn of_retaining_ring(groove: &str, mm: f64, role: Role, note: &str) -> Ways {
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
            [groove_mm.map(|mm| ring_groove(groove, mm)), None]
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
fn ring_groove(class: &str, mm: f64) -> Expected {
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
    fn rows_note_what_the_facts_of_their_family_say_that_they_may() {
        // DIN 5429-2; a row of another family with such a note would be measured without it, and one of an inch standard as
        // rings of ISO 492.
        for family in Family::ALL {
            let mut rows = standard::of_family(family).iter();
            let has_note = rows.any(|row| row.note.contains(standard::INNER_RING_BORE));
            let measured = family.facts().bench.measured;
            assert_eq!(has_note, measured.may_have_inner_ring(), "{family}");
            let mut rows = standard::of_family(family).iter();
            let has_inch = rows.any(|row| row.standard.contains("ABMA 19"));
            let is_known = matches!(measured, Measured::Rings(rings) if rings.inch.is_some());
            assert_eq!(has_inch, is_known, "{family}");
        }
    }

    #[test]
    fn every_class_that_a_family_names_is_in_the_table_of_fits() {
        // ISO 286-2; for a class that is not, the band of sizes beyond the tables would be taken.
        for family in Family::ALL {
            let classes = match family.facts().bench.measured {
                Measured::SpringRing { groove, .. } => vec![groove],
                Measured::Rings(rings) => {
                    let mut classes = match rings.in_housing {
                        HousingBand::Class(class) => vec![class],
                        HousingBand::Pressed { lower, upper, .. } => vec![lower, upper],
                        HousingBand::Um(..) | HousingBand::AroundWasher => Vec::new(),
                    };
                    if let ShaftBand::BelowNominal(class) = rings.on_shaft {
                        classes.push(class);
                    }
                    classes
                }
                _ => Vec::new(),
            };
            for class in classes {
                assert!(limit::fit(class, 20.0).is_some(), "{family}: {class}");
            }
        }
    }

    #[test]
    fn an_inch_cone_and_cup_are_held_the_other_way() {
        // ISO 578, from memory: bore 0/+13, outside 0/+25 µm; ISO 492 has both below nominal.
        let mut rows = standard::of_family(Family::TaperedRoller).iter();
        let row = rows.find(|row| row.standard.contains("ABMA 19")).unwrap();
        for (role, upper) in [(Role::Inner, 13.0), (Role::Outer, 25.0)] {
            let way = expected(&row.size, Some(row), role, ToleranceClass::Normal)[0].unwrap();
            assert!(way.band.lower_um.abs() < 1e-9, "{way:?}");
            assert!((way.band.upper_um - upper).abs() < 1e-9, "{way:?}");
            let metric = ways("30206", role)[0];
            assert!(metric.band.upper_um < 1e-9, "{metric:?}");
        }
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
