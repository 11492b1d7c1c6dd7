//! Retaining ring for bores (DIN 472).

use super::asked::{
    ClassBeside, FormFigures, InForm, InSets, OF_RINGS, PartKind, RINGS, RingAway, Short,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

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

    bench: Bench { share: Some(0.03) },

    asked: Asked {
        standards: &["472"],
        standard_says: &[],
        kinds: &[PartKind::Ring],
        elements: &[],
        way: None,
        words: OF_RINGS,
        loose_words: &["rings"],
        also_called: &[],
        short: Some(Short {
            rank: 1,
            of_each: &[RINGS, IN_A_BORE],
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
