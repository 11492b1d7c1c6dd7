//! Combined needle roller and thrust or angular contact bearing (DIN 5429).

use super::facts::{Asked, Bench, Exchange, Facts, OtherWidth, Shape};
use super::marks::{Marks, NamedBy, Which};
use super::rolling::{ROLLERS, Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "combined_needle_thrust",
    name: "combined needle roller and thrust bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("combined_needle_thrust")],
        key: &[D::InnerRacewayDiameter, D::OutsideDiameter, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::NeedleRollerNoInnerRing,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Number,
        has_stated_types: false,
        radial_clearance: Which::None,
        closures: Which::None,
        unmarked: &[],
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[],
        halves: None,
        worded_designs: &[],
        has_lips: false,
    },

    rolling: Rolling {
        is_radial: false,
        life_exponent: Some(ROLLERS),
        static_load: StaticLoad::Unknown,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Never,
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["5429"],
    },
};
