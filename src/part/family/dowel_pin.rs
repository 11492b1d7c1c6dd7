//! Parallel or dowel pin (ISO 8734, ISO 2338, ASME B18.8.2).

use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "dowel_pin",
    name: "dowel pin",
    class: PartClass::Fasteners,

    shape: Shape {
        key: &[D::PinDiameter, D::Length],
        ordered: &[],
        outer_place: 1,
        width_place: None,
    },

    marks: Marks {
        has_radial_clearance: false,
    },

    rolling: Rolling { is_radial: false },

    exchange: Exchange {
        other_width: OtherWidth::Never,
    },

    bench: Bench { share: Some(0.02) },

    asked: Asked {
        standards: &["8734", "2338", "6325", "7", "b18.8.2"],
    },
};
