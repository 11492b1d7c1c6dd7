//! Thrust needle roller and cage assembly or washer (ISO 3031).

use super::asked::{Asked, ClassBeside, Element, RingAway, Short, Way};
use super::bench::{
    Band, Bench, ClosedWidth, HousingBand, Measured, Notes, Reach, Rings, RoomLeft, ShaftBand,
    Spans, Told, Unsound, WASHER_TIGHT, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Listed, MadeClosed, OnShaft, OtherWidth, Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "thrust_needle",
    name: "thrust needle roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("thrust_needle")],
        key: &[D::Bore, D::CageOutsideDiameter, D::Height],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::NeedleRollerNoInnerRing,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Number,
        has_stated_types: false,
        radial_clearance: Which::None,
        closures: Which::None,
        unmarked: &[],
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[],
        halves: Some(["shaft washer only", "housing washer only"]),
        worded_designs: &[],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: false,
        static_load: StaticLoad::Unknown,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Never,
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::Untold,
        floats_on_its_seat: false,
        carries: Carries::Along,
        on_shaft: OnShaft::Nothing,
        in_sets: InSets::Alone,
        closed: MadeClosed::Never,
        is_often_tapered: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: None,
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench {
        share: None,
        measured: Measured::Rings(&RINGS),
        reach: Reach::all(Spans::COARSE),
        words: Words::OF_BEARING,
        unsound: Unsound {
            housing_below: WASHER_TIGHT,
            ..Unsound::OF_RINGS
        },
        notes: Notes {
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::OfTable,
            is_larger_split: true,
            when_worn: None,
        },
        told: Told {
            has_steep_series: false,
            has_sleeves: false,
            twin: None,
        },
    },

    asked: Asked {
        standards: &["3031"],
        standard_says: &[],
        elements: &[Element::Needles],
        way: Some(Way::Along),
        words: &["cage", "assembly"],
        loose_words: &[],
        also_called: &[Family::ThrustBall],
        short: Some(Short {
            rank: 10,
            of_each: &[
                &["thrust", "axial", "butée"],
                &["needle", "needles", "aiguilles"],
            ],
            may_be_load: true,
        }),
        seat_words: &[],
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::NotLookedAt,
        in_form: None,
    },
};

const RINGS: Rings = Rings {
    // Cages and washers run clear of shaft and housing (ISO 3031 and ISO 104, from memory).
    bore: Band::Um(0.0, 150.0),
    outside: Band::Um(-300.0, 0.0),
    // From memory.
    width: Band::Um(-10.0, 10.0),
    // The cage lies loose on it.
    on_shaft: ShaftBand::BelowNominal("h8"),
    // The cage touches it nowhere (common practice, no source).
    in_housing: HousingBand::Um(0.0, 300.0),
    soft_mm: 0.03,
    inch: None,
    may_have_inner_ring: false,
};
