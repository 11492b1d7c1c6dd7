//! O-ring (ISO 3601-1, SAE AS568).

use super::facts::{Asked, Bench, Exchange, Facts, OtherWidth, Shape};
use super::marks::{Marks, NamedBy};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "o_ring",
    name: "O-ring",
    class: PartClass::Seals,

    shape: Shape {
        tables: &[table!("o_ring_as568"), table!("o_ring_metric")],
        key: &[D::InsideDiameter, D::Section],
        ordered: &[],
        outer_place: 1,
        width_place: None,
        is_outer_section: true,
        size_prefix: "",
        grid_with: Family::ORing,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Size,
        has_stated_types: false,
        worded_designs: &[],
        has_lips: false,
        ..Marks::NO_BEARING
    },

    rolling: Rolling {
        is_radial: false,
        life_exponent: None,
        static_load: StaticLoad::Unknown,
    },

    teardown: Teardown {
        is_fitted_again: false,
        noted: &[
            "section, mm",
            "groove depth, mm",
            "groove width, mm",
            "hardness",
        ],
    },

    exchange: Exchange {
        other_width: OtherWidth::Gland,
    },

    bench: Bench { share: Some(0.12) },

    asked: Asked {
        standards: &["3601", "3771", "b2401"],
    },
};
