//! O-ring (ISO 3601-1, SAE AS568).

use super::asked::{ClassBeside, FormFigures, InForm, InSets, PartKind, RingAway, Short};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "o_ring",
    name: "O-ring",
    class: PartClass::Seals,

    shape: Shape {
        key: &[D::InsideDiameter, D::Section],
        ordered: &[],
        outer_place: 1,
        width_place: None,
    },

    marks: Marks {
        has_radial_clearance: false,
    },

    rolling: Rolling { is_radial: false },

    exchange: Exchange {
        other_width: OtherWidth::Gland,
    },

    bench: Bench { share: Some(0.12) },

    asked: Asked {
        standards: &["3601", "3771", "b2401"],
        standard_says: &[],
        kinds: &[PartKind::Seal],
        elements: &[],
        way: None,
        words: &[
            "groove", "o-ring", "oring", "o-rings", "orings", "torique", "o",
        ],
        loose_words: &["rings"],
        also_called: &[],
        short: Some(Short {
            rank: 4,
            of_each: &[&[
                "oring",
                "o-ring",
                "o-rings",
                "orings",
                "o ring",
                "joint torique",
            ]],
            may_be_load: false,
        }),
        seat_words: &[],
        in_sets: InSets::Never,
        has_angle: false,
        ring_away: RingAway::Nothing,
        has_lips: false,
        class_beside: ClassBeside::NotLookedAt,
        in_form: Some(InForm {
            name: "o-ring",
            figures: FormFigures {
                labels: ["Inside", "Outside", "Section"],
                words: ["inside", "od", "section"],
            },
        }),
    },
};
