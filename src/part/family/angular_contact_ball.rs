//! Angular contact ball bearing (ISO 15, DIN 628).

use super::asked::{Asked, ClassBeside, Element, InForm, RingAway, Short, Way};
use super::bench::{
    Bench, ClosedWidth, Measured, Notes, Reach, Rings, RoomLeft, Spans, Told, Unsound, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, KindWord, Listed, MadeClosed, OnShaft,
    OtherWidth, Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy, Unmarked, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "angular_contact_ball",
    name: "angular contact ball bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("angular_contact_ball")],
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
        // A single row gets its clearance when mounted.
        radial_clearance: Which::TwoRows,
        closures: Which::TwoRows,
        unmarked: Unmarked::RADIAL,
        tapers: &[],
        may_have_snap_ring: false,
        // DIN 628-1.
        angles: &[("C", 15), ("AC", 25), ("A", 30), ("B", 40)],
        arrangements: &[
            ("DB", "DB"),
            ("DF", "DF"),
            ("DT", "DT"),
            ("U", "universal"),
            ("UA", "universal"),
            ("UO", "universal"),
            ("UL", "universal"),
        ],
        number_letters: &[],
        designs: &[],
        halves: None,
        worded_designs: &[],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: true,
        static_load: StaticLoad::FactorsOfAngle,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Spacer { most_mm: 10.0 },
        instead: &[Instead {
            of: Family::DeepGrooveBall,
            effect: "cannot be preloaded as half of a pair",
            source: "published type descriptions",
        }],
        aligns_itself: false,
        along_axis: AlongAxis::ByArrangement,
        floats_on_its_seat: false,
        carries: Carries::Across,
        on_shaft: OnShaft::OwnRing,
        in_sets: InSets::Sets,
        closed: MadeClosed::Often,
        is_often_tapered: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: Some(KindWord::Ball),
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
        standards: &["628"],
        standard_says: &[],
        elements: &[Element::Balls],
        way: Some(Way::Across),
        words: &["angular", "contact"],
        loose_words: &[],
        also_called: &[],
        short: Some(Short {
            rank: 7,
            of_each: &[&["angular", "schrägkugellager"]],
            may_be_load: false,
        }),
        seat_words: &[],
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::Seats,
        in_form: InForm::usual("angular contact"),
    },
};
