//! Radial needle roller and cage assembly (ISO 3030).

use super::bench::{
    Band, CLOSED_KIND, HousingBand, Measured, Notes, OPEN_BEARING, Order, Reach, Rings, RoomLeft,
    ShaftBand, Spans, Told, UNDER_NEEDLES, Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "needle_cage",
    name: "needle roller and cage assembly",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::InnerRacewayDiameter, D::OuterRacewayDiameter, D::Width],
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

    bench: Bench {
        share: None,
        measured: Measured::Rings(&RINGS),
        reach: Reach::all(Spans::COARSE),
        words: Words::OF_NEEDLES,
        unsound: Unsound::OF_NEEDLES_ON_SHAFT,
        notes: Notes {
            open_type: OPEN_BEARING,
            room_left: RoomLeft::Seated(
                "guide the cage by smooth faces or washers that leave it some tenths of play; it takes no spacer",
            ),
            closed_width: CLOSED_KIND,
            is_larger_split: false,
            when_worn: None,
        },
        told: Told {
            has_class: false,
            is_plain_unmarked: false,
            is_asked_closed: false,
            has_steep_series: false,
            has_sleeves: false,
            twin: None,
        },
        order: Order {
            has_angle: false,
            has_closure: false,
            has_set: false,
            has_seal_form: false,
        },
    },

    asked: Asked {
        standards: &["5405", "3030"],
    },
};

const RINGS: Rings = Rings {
    bore: UNDER_NEEDLES,
    // A cage over its needles (common practice, no source).
    outside: Band::Um(-60.0, 20.0),
    // ISO 3030, from memory.
    width: Band::Um(-500.0, 0.0),
    on_shaft: ShaftBand::BelowNominal("g6"),
    // It runs in it: common practice, from memory.
    in_housing: HousingBand::Class("G6"),
    soft_mm: 0.06,
    inch: None,
    may_have_inner_ring: false,
};
