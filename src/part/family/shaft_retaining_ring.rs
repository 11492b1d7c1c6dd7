//! Retaining ring for shafts (DIN 471).

use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

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
    },
};
