//! Needle roller bearing with machined ring, without inner ring (ISO 1206).

use super::asked::{Asked, ClassBeside, Element, RingAway, Way};
use super::bench::{
    Bench, Measured, Notes, Reach, Rings, RoomLeft, SEALED_NEEDLE, ShaftBand, Spans, Told, Unsound,
    Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, Listed, MadeClosed, OnShaft, OtherWidth,
    Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy, Unmarked, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "needle_roller_no_inner_ring",
    name: "needle roller bearing without inner ring",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("needle_roller_no_inner_ring")],
        key: &[D::InnerRacewayDiameter, D::OutsideDiameter, D::Width],
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
        closures: Which::Every,
        unmarked: &[Unmarked::Open],
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[],
        halves: None,
        worded_designs: &[],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: false,
        static_load: StaticLoad::RadialAlone,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Never,
        instead: &[Instead {
            of: Family::NeedleRoller,
            effect: "with or without inner ring: the other runs on another shaft diameter and needs a hardened shaft",
            source: "ISO 1206, published tables",
        }],
        aligns_itself: false,
        along_axis: AlongAxis::Nothing,
        floats_on_its_seat: false,
        carries: Carries::Across,
        on_shaft: OnShaft::Raceway,
        in_sets: InSets::Alone,
        closed: MadeClosed::Seldom,
        is_often_tapered: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[Family::NeedleRoller],
            kind: None,
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench {
        share: None,
        measured: Measured::Rings(&RINGS),
        reach: Reach::all(Spans::FINE),
        words: Words::OF_NEEDLES,
        unsound: Unsound::OF_NEEDLES_ON_SHAFT,
        notes: Notes {
            room_left: RoomLeft::Spacer,
            closed_width: SEALED_NEEDLE,
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
        standards: &[],
        standard_says: &[],
        elements: &[Element::Needles],
        way: Some(Way::Across),
        words: &[],
        loose_words: &[],
        also_called: &[],
        short: None,
        seat_words: &[],
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::NotLookedAt,
        in_form: None,
    },
};

const RINGS: Rings = Rings {
    on_shaft: ShaftBand::BelowNominal("g6"),
    soft_mm: 0.04,
    ..Rings::ISO_492
};
