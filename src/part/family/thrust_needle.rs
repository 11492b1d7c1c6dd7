//! Thrust needle roller and cage assembly or washer (ISO 3031).

use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "thrust_needle",
    name: "thrust needle roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::CageOutsideDiameter, D::Height],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
    },

    marks: Marks {
        has_radial_clearance: false,
    },

    rolling: Rolling { is_radial: false },

    exchange: Exchange {
        other_width: OtherWidth::Never,
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["3031"],
    },
};
