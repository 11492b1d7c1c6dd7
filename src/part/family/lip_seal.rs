//! Rotary shaft lip seal (ISO 6194-1, DIN 3760).

use super::bench::{
    ClosedWidth, Measured, Notes, OPEN_PART, Order, Reach, RoomLeft, Spans, Told, Unsound, Words,
    span,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "lip_seal",
    name: "rotary shaft lip seal",
    class: PartClass::Seals,

    shape: Shape {
        key: &[D::ShaftDiameter, D::HousingBore, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
    },

    marks: Marks {
        has_radial_clearance: false,
    },

    rolling: Rolling { is_radial: false },

    exchange: Exchange {
        other_width: OtherWidth::InBore,
    },

    bench: Bench {
        share: Some(0.12),
        measured: Measured::LipAndCase,
        reach: Reach {
            inner: Spans {
                own: span(2_500, 50),
                ..Spans::FAR_BELOW
            },
            shaft: Spans {
                own: span(350, 400),
                ..Spans::FAR_BELOW
            },
            free_lip: Spans::FAR_BELOW,
            width: CASE,
            other: CASE,
        },
        words: Words::OF_SEATED_RING,
        unsound: Unsound::OF_RINGS,
        notes: Notes {
            open_type: OPEN_PART,
            room_left: RoomLeft::Seated(
                "press the seal in flush with the face or against a shoulder, square to the shaft; it takes no spacer",
            ),
            closed_width: ClosedWidth::OfTable,
            is_larger_split: false,
            when_worn: Some(
                "read a lip seal's size from shaft and housing: a worn lip and a pressed case measure wrong",
            ),
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
            has_seal_form: true,
        },
    },

    asked: Asked {
        standards: &["3760", "3761", "6194", "b2402"],
    },
};

/// Case and bore, whose bands are tenths of a millimetre apart.
const CASE: Spans = Spans {
    own: span(700, 400),
    ..Spans::COARSE
};
