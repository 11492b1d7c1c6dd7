//! Cylindrical roller bearing (ISO 15, DIN 5412-1).

use super::asked::{Asked, ClassBeside, Element, InForm, RingAway, Short, Way};
use super::bench::{
    Bench, ClosedWidth, Measured, Notes, Reach, Rings, RoomLeft, Spans, Told, Unsound, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, KindWord, Listed, MadeClosed, OnShaft,
    OtherWidth, Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{INCREASED_CAPACITY, Marks, NamedBy, TAPER_12, Unmarked, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "cylindrical_roller",
    name: "cylindrical roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("cylindrical_roller")],
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
        closures: Which::None,
        unmarked: Unmarked::RADIAL,
        tapers: &[TAPER_12],
        may_have_snap_ring: true,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[INCREASED_CAPACITY],
        halves: Some(["inner ring only", "outer ring only"]),
        worded_designs: &[],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: true,
        // Rollers of 0 degrees.
        static_load: StaticLoad::RadialAlone,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Spacer { most_mm: 10.0 },
        instead: &[
            Instead {
                of: Family::DeepGrooveBall,
                effect: "balls carry far less than cylindrical rollers of one size",
                source: "published type descriptions",
            },
            Instead {
                of: Family::AngularContactBall,
                effect: "balls carry far less than cylindrical rollers of one size",
                source: "published type descriptions",
            },
        ],
        aligns_itself: false,
        along_axis: AlongAxis::ByRibs,
        floats_on_its_seat: false,
        carries: Carries::Across,
        on_shaft: OnShaft::OwnRing,
        in_sets: InSets::Alone,
        closed: MadeClosed::Sometimes,
        is_often_tapered: true,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: Some(KindWord::Roller),
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench {
        share: Some(0.03),
        measured: Measured::Rings(&Rings::ISO_492),
        reach: Reach::all(Spans::FINE),
        words: Words::OF_BEARING,
        unsound: Unsound::OF_RINGS,
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
        standards: &["5412"],
        standard_says: &[],
        elements: &[Element::Rollers],
        way: Some(Way::Across),
        words: &["cylindrical", "cylindriques"],
        loose_words: &[],
        also_called: &[],
        short: Some(Short {
            rank: 9,
            of_each: &[&["cylindrical", "zylinderrollenlager"]],
            may_be_load: false,
        }),
        seat_words: &[],
        ring_away: RingAway::OnRollers,
        class_beside: ClassBeside::Seats,
        in_form: InForm::usual("cylindrical roller"),
    },
};
