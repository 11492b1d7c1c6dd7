//! Tapered roller bearing, cone and cup together (ISO 355).

use super::bench::{
    Band, ClosedWidth, InchRings, Measured, Notes, OPEN_BEARING, Order, Reach, Rings, RoomLeft,
    Spans, Told, Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "tapered_roller",
    name: "tapered roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::OutsideDiameter, D::AssembledWidth],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
    },

    marks: Marks {
        has_radial_clearance: false,
    },

    rolling: Rolling { is_radial: true },

    exchange: Exchange {
        other_width: OtherWidth::Spacer,
    },

    bench: Bench {
        share: Some(0.05),
        measured: Measured::Rings(&RINGS),
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
            has_steep_series: true,
            has_sleeves: false,
            twin: None,
        },
        order: Order {
            has_angle: false,
            has_closure: false,
            has_set: true,
            has_seal_form: false,
        },
    },

    asked: Asked {
        standards: &["720", "355"],
    },
};

const RINGS: Rings = Rings {
    // ISO 492, assembled width of tapered roller bearings, from memory.
    width: Band::UpToBore(80.0, (0.0, 200.0), (-200.0, 200.0)),
    // ISO 578, from memory: the rings of inch sizes are held the other way.
    inch: Some(InchRings {
        standard: "ABMA 19",
        bore: (0.0, 13.0),
        outside: (0.0, 25.0),
    }),
    ..Rings::ISO_492
};
