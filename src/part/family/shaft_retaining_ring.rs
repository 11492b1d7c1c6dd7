//! Retaining ring for shafts (DIN 471).

use super::asked::{
    ClassBeside, FormFigures, InForm, InSets, OF_RINGS, PartKind, RINGS, RingAway, Short,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

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

    bench: Bench { share: Some(0.03) },

    asked: Asked {
        standards: &["471"],
        standard_says: &[],
        kinds: &[PartKind::Ring],
        elements: &[],
        way: None,
        words: OF_RINGS,
        loose_words: &["rings"],
        also_called: &[],
        short: Some(Short {
            rank: 2,
            of_each: &[RINGS, ON_A_SHAFT],
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
