//! Needle roller bearing with machined ring, without inner ring (ISO 1206).

use super::bench::{
    Measured, Notes, OPEN_BEARING, Order, Reach, Rings, RoomLeft, SEALED_NEEDLE, ShaftBand, Spans,
    Told, Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "needle_roller_no_inner_ring",
    name: "needle roller bearing without inner ring",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::InnerRacewayDiameter, D::OutsideDiameter, D::Width],
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
        reach: Reach::all(Spans::FINE),
        words: Words::OF_NEEDLES,
        unsound: Unsound::OF_NEEDLES_ON_SHAFT,
        notes: Notes {
            open_type: OPEN_BEARING,
            room_left: RoomLeft::Spacer,
            closed_width: SEALED_NEEDLE,
            is_larger_split: true,
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
            has_closure: true,
            has_set: false,
            has_seal_form: false,
        },
    },

    asked: Asked { standards: &[] },
};

const RINGS: Rings = Rings {
    on_shaft: ShaftBand::BelowNominal("g6"),
    soft_mm: 0.04,
    ..Rings::ISO_492
};
