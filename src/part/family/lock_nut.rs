//! Lock nut (ISO 2982, DIN 981).

use super::facts::{Asked, Bench, Exchange, Facts, OtherWidth, Shape};
use super::marks::{Marks, NamedBy};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "lock_nut",
    name: "lock nut",
    class: PartClass::Fasteners,

    shape: Shape {
        tables: &[table!("lock_nut")],
        key: &[D::ThreadDiameter, D::ThreadPitch],
        ordered: &[(1, 0)],
        outer_place: 0,
        width_place: None,
        is_outer_section: false,
        size_prefix: "M",
        grid_with: Family::LockNut,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Size,
        has_stated_types: false,
        worded_designs: &["stainless"],
        has_lips: false,
        ..Marks::NO_BEARING
    },

    rolling: Rolling {
        is_radial: false,
        life_exponent: None,
        static_load: StaticLoad::Unknown,
    },

    teardown: Teardown {
        is_fitted_again: true,
        noted: &["marking", "side up", "tightened to, Nm", "locked by"],
    },

    exchange: Exchange {
        other_width: OtherWidth::Never,
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["981", "2982"],
    },
};
