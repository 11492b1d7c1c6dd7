//! Thrust ball bearing (ISO 104, DIN 711).

use super::facts::{Asked, Bench, Exchange, Facts, OtherWidth, Shape};
use super::marks::{Marks, NamedBy, Unmarked, Which};
use super::rolling::{BALLS, Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "thrust_ball",
    name: "thrust ball bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("thrust_ball")],
        key: &[D::Bore, D::HousingWasherBore, D::OutsideDiameter, D::Height],
        ordered: &[(0, 2), (1, 2)],
        outer_place: 2,
        width_place: Some(3),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::ThrustBall,
        grid_places: [0, 2, 3],
    },

    marks: Marks {
        named_by: NamedBy::Number,
        has_stated_types: false,
        radial_clearance: Which::None,
        closures: Which::None,
        unmarked: &[Unmarked::NormalClass],
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[],
        halves: Some(["shaft washer only", "housing washer only"]),
        worded_designs: &[],
        has_lips: false,
    },

    rolling: Rolling {
        is_radial: false,
        life_exponent: Some(BALLS),
        static_load: StaticLoad::AxialAlone,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Never,
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["711", "715", "104"],
    },
};
