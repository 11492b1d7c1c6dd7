//! Retaining ring for bores (DIN 472).

use super::asked::{
    ClassBeside, FormFigures, InForm, InSets, PartKind, RING_NAMES, RingAway, SHORT_RING_NAMES,
    Short,
};
use super::bench::{
    ClosedWidth, Measured, Notes, OPEN_RING, Order, Reach, RoomLeft, Spans, Told, Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
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
        key: &[D::HousingBore],
        ordered: &[],
        outer_place: 0,
        width_place: None,
    },

    marks: Marks {
        has_radial_clearance: false,
    },

    rolling: Rolling { is_radial: false },

    exchange: Exchange {
        other_width: OtherWidth::Never,
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
            open_type: OPEN_RING,
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::OfTable,
            is_larger_split: false,
            when_worn: None,
        },
        told: Told {
            has_class: false,
            is_plain_unmarked: true,
            is_asked_closed: false,
            has_steep_series: false,
            has_sleeves: false,
            twin: Some(Family::ShaftRetainingRing),
        },
        order: Order {
            has_angle: false,
            has_closure: false,
            has_set: false,
            has_seal_form: false,
        },
    },

    asked: Asked {
        standards: &["472"],
        standard_says: &[],
        kinds: &[PartKind::Ring],
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
        in_sets: InSets::Never,
        has_angle: false,
        ring_away: RingAway::Nothing,
        has_lips: false,
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
