//! Retaining ring for bores (DIN 472).

use super::facts::{Asked, Bench, Exchange, Facts, OtherWidth, Shape};
use super::marks::{Marks, NamedBy};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "bore_retaining_ring",
    name: "retaining ring for bores",
    class: PartClass::Fasteners,

    shape: Shape {
        tables: &[table!("bore_retaining_ring")],
        key: &[D::HousingBore],
        ordered: &[],
        outer_place: 0,
        width_place: None,
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::BoreRetainingRing,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Number,
        has_stated_types: true,
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
        noted: Teardown::NOTED_OF_ANY,
    },

    exchange: Exchange {
        other_width: OtherWidth::Never,
    },

    bench: Bench { share: Some(0.03) },

    asked: Asked {
        standards: &["472"],
    },
};
