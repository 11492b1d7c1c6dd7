//! Rotary shaft lip seal (ISO 6194-1, DIN 3760).

use super::facts::{Asked, Bench, Exchange, Facts, OtherWidth, Shape};
use super::marks::{Marks, NamedBy};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "lip_seal",
    name: "rotary shaft lip seal",
    class: PartClass::Seals,

    shape: Shape {
        tables: &[table!("lip_seal")],
        key: &[D::ShaftDiameter, D::HousingBore, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::LipSeal,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Size,
        has_stated_types: false,
        worded_designs: &[
            "split",
            "pressure profile",
            "ribs for right-hand rotation",
            "ribs for left-hand rotation",
            "ribs for both rotations",
        ],
        has_lips: true,
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
            "full marking",
            "lip towards",
            "shaft under the lip, mm",
            "housing, mm",
            "depth, mm",
        ],
    },

    exchange: Exchange {
        other_width: OtherWidth::InBore,
    },

    bench: Bench { share: Some(0.12) },

    asked: Asked {
        standards: &["3760", "3761", "6194", "b2402"],
    },
};
