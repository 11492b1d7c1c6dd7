//! Retaining ring for shafts (DIN 471).

use super::asked::{
    ClassBeside, FormFigures, InForm, InSets, PartKind, RING_NAMES, RingAway, SHORT_RING_NAMES,
    Short,
};
use super::bench::{
    ClosedWidth, Measured, Notes, OPEN_RING, Order, Reach, RoomLeft, Spans, Told, Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, Family, PartClass};

/// Words for a retaining ring on a shaft.
const ON_A_SHAFT: &[&str] = &[
    "external",
    "shaft",
    "ext",
    "außen",
    "aussen",
    "welle",
    "wellen",
    "extérieur",
    "exterieur",
    "arbre",
];

pub(super) const FACTS: Facts = Facts {
    code: "shaft_retaining_ring",
    name: "retaining ring for shafts",
    class: PartClass::Fasteners,

    shape: Shape {
        key: &[D::ShaftDiameter],
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
            groove: "h11",
            is_in_bore: false,
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
            twin: Some(Family::BoreRetainingRing),
        },
        order: Order {
            has_angle: false,
            has_closure: false,
            has_set: false,
            has_seal_form: false,
        },
    },

    asked: Asked {
        standards: &["471"],
        standard_says: &[],
        kinds: &[PartKind::Ring],
        elements: &[],
        way: None,
        words: RING_NAMES,
        loose_words: &["rings"],
        also_called: &[],
        short: Some(Short {
            rank: 2,
            of_each: &[SHORT_RING_NAMES, ON_A_SHAFT],
            may_be_load: false,
        }),
        seat_words: &[
            ON_A_SHAFT,
            &["journal", "wellendurchmesser", "exterior", "eje"],
        ],
        in_sets: InSets::Never,
        has_angle: false,
        ring_away: RingAway::Nothing,
        has_lips: false,
        class_beside: ClassBeside::NotLookedAt,
        in_form: Some(InForm {
            name: "external circlip",
            figures: FormFigures {
                labels: ["Free inside", "Shaft", "Thickness"],
                words: ["free inside", "shaft", "thickness"],
            },
        }),
    },
};
