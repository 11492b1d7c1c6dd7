//! Retaining ring for shafts (DIN 471).

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
        tables: &[table!("shaft_retaining_ring")],
        key: &[D::ShaftDiameter],
        ordered: &[],
        outer_place: 0,
        width_place: None,
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::ShaftRetainingRing,
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
            of: Family::BoreRetainingRing,
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
            groove: "h11",
            is_in_bore: false,
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
            twin: Some(Family::BoreRetainingRing),
        },
    },

    asked: Asked {
        standards: &["471"],
        standard_says: &[],
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
        ring_away: RingAway::Nothing,
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
