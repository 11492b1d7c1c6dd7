//! Retaining ring for bores (DIN 472).

use super::asked::{
    Asked, ClassBeside, FormFigures, InForm, RING_NAMES, RingAway, SHORT_RING_NAMES, Short,
};
use super::bench::{
    Bench, ClosedWidth, Measured, Notes, Reach, RoomLeft, Spans, Told, Unsound, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, Listed, MadeClosed, OnShaft, OtherWidth,
    Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

/// Words for a retaining ring in a bore.
const IN_A_BORE: &[&str] = &[
    "internal",
    "bore",
    "housing",
    "int",
    "innen",
    "bohrung",
    "bohrungen",
    "intérieur",
    "interieur",
    "alésage",
];

pub(super) const FACTS: Facts = Facts {
    code: "bore_retaining_ring",
    name: "retaining ring for bores",
    class: PartClass::Fasteners,

    shape: Shape {
        tables: &[table!("bore_retaining_ring")],
        key: &[D::HousingBore],
        ordered: &[],
        outer_place: 0,
        width_place: None,
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::BoreRetainingRing,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Number,
        has_stated_types: true,
        worded_designs: &[],
        has_seal_forms: false,
        ..Marks::NO_BEARING
    },

    rolling: Rolling {
        is_radial: false,
        static_load: StaticLoad::Unknown,
    },

    teardown: Teardown {
        is_fitted_again: false,
        noted: Teardown::NOTED_OF_ANY,
    },

    exchange: Exchange {
        other_width: OtherWidth::Never,
        instead: &[Instead {
            of: Family::ShaftRetainingRing,
            effect: "rings for shafts and rings for bores of one nominal size are different rings",
            source: "DIN 471 and DIN 472, published tables",
        }],
        aligns_itself: false,
        along_axis: AlongAxis::Untold,
        floats_on_its_seat: false,
        carries: Carries::Nothing,
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
            is_size_told: false,
            has_two_numbers: false,
        },
    },

    bench: Bench {
        share: Some(0.03),
        measured: Measured::SpringRing {
            groove: "H11",
            is_in_bore: true,
        },
        reach: Reach::all(Spans::FREE_RING),
        words: Words::OF_SEATED_RING,
        unsound: Unsound::OF_RINGS,
        notes: Notes {
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::OfTable,
            is_larger_split: false,
            when_worn: None,
        },
        told: Told {
            has_steep_series: false,
            has_sleeves: false,
            twin: Some(Family::ShaftRetainingRing),
        },
    },

    asked: Asked {
        standards: &["472"],
        standard_says: &[],
        elements: &[],
        way: None,
        words: RING_NAMES,
        loose_words: &["rings"],
        also_called: &[],
        short: Some(Short {
            rank: 1,
            of_each: &[SHORT_RING_NAMES, IN_A_BORE],
            may_be_load: false,
        }),
        seat_words: &[
            IN_A_BORE,
            &[
                "gehäuse",
                "gehaeuse",
                "gehäusebohrung",
                "logement",
                "interior",
                "agujero",
            ],
        ],
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::NotLookedAt,
        in_form: Some(InForm {
            name: "internal circlip",
            figures: FormFigures {
                labels: ["Housing bore", "Free outside", "Thickness"],
                words: ["bore", "free outside", "thickness"],
            },
        }),
    },
};
