//! Needle roller bearing with machined rings and inner ring (ISO 1206).

use super::facts::{Asked, Bench, Exchange, Facts, OtherWidth, Shape};
use super::marks::{Marks, NamedBy, Unmarked, Which};
use super::rolling::{ROLLERS, Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "needle_roller",
    name: "needle roller bearing with inner ring",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("needle_roller")],
        key: &[D::Bore, D::OutsideDiameter, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::DeepGrooveBall,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Number,
        has_stated_types: false,
        radial_clearance: Which::Every,
        closures: Which::Every,
        unmarked: Unmarked::RADIAL,
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[],
        halves: Some(["inner ring only", "outer ring only"]),
        worded_designs: &[],
        has_lips: false,
    },

    rolling: Rolling {
        is_radial: true,
        life_exponent: Some(ROLLERS),
        static_load: StaticLoad::RadialAlone,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Spacer,
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["617", "1206"],
    },
};
