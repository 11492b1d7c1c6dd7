//! Thrust ball bearing (ISO 104, DIN 711).

use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "thrust_ball",
    name: "thrust ball bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::HousingWasherBore, D::OutsideDiameter, D::Height],
        ordered: &[(0, 2), (1, 2)],
        outer_place: 2,
        width_place: Some(3),
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
        standards: &["711", "715", "104"],
    },
};
