//! Cylindrical roller bearing (ISO 15, DIN 5412-1).

use super::bench::{
    ClosedWidth, Measured, Notes, OPEN_BEARING, Order, Reach, Rings, RoomLeft, Spans, Told,
    Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "cylindrical_roller",
    name: "cylindrical roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::OutsideDiameter, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
    },

    marks: Marks {
        has_radial_clearance: true,
    },

    rolling: Rolling { is_radial: true },

    exchange: Exchange {
        other_width: OtherWidth::Spacer,
    },

    bench: Bench {
        share: Some(0.03),
        measured: Measured::Rings(&Rings::ISO_492),
        reach: Reach::all(Spans::FINE),
        words: Words::OF_BEARING,
        unsound: Unsound::OF_RINGS,
        notes: Notes {
            open_type: OPEN_BEARING,
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::OfTable,
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
            has_closure: false,
            has_set: false,
            has_seal_form: false,
        },
    },

    asked: Asked {
        standards: &["5412"],
    },
};
