//! Needle roller bearing with machined rings and inner ring (ISO 1206).

use super::asked::{Asked, ClassBeside, Element, InForm, RingAway, Way};
use super::bench::{
    Bench, Measured, Notes, Reach, Rings, RoomLeft, SEALED_NEEDLE, Spans, Told, Unsound, Words,
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
    code: "needle_roller",
    name: "needle roller bearing with inner ring",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("needle_roller")],
        key: &[D::Bore, D::OutsideDiameter, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::DeepGrooveBall,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Number,
        has_stated_types: false,
        radial_clearance: Which::Every,
        closures: Which::Every,
        unmarked: Unmarked::RADIAL,
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[],
        halves: Some(["inner ring only", "outer ring only"]),
        worded_designs: &[],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: true,
        static_load: StaticLoad::RadialAlone,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Spacer { most_mm: 10.0 },
        instead: &[Instead {
            of: Family::NeedleRollerNoInnerRing,
            effect: "with or without inner ring: the other runs on another shaft diameter and needs a hardened shaft",
            source: "ISO 1206, published tables",
        }],
        aligns_itself: false,
        along_axis: AlongAxis::Nothing,
        floats_on_its_seat: false,
        carries: Carries::Across,
        on_shaft: OnShaft::OwnRing,
        in_sets: InSets::Alone,
        closed: MadeClosed::Sometimes,
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
        measured: Measured::Rings(&Rings::ISO_492),
        reach: Reach::all(Spans::FINE),
        words: Words::OF_BEARING,
        unsound: Unsound::OF_RINGS,
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
        standards: &["617", "1206"],
        standard_says: &[],
        elements: &[Element::Needles],
        way: Some(Way::Across),
        words: &[],
        loose_words: &[],
        also_called: &[],
        short: None,
        seat_words: &[],
        ring_away: RingAway::OtherFamily(Family::NeedleRollerNoInnerRing),
        class_beside: ClassBeside::Seats,
        in_form: InForm::usual("needle roller"),
    },
};
