//! Lock nut (ISO 2982, DIN 981).

use super::bench::{
    ClosedWidth, Measured, Notes, OPEN_PART, Order, Reach, RoomLeft, Spans, Told, Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "lock_nut",
    name: "lock nut",
    class: PartClass::Fasteners,

    shape: Shape {
        key: &[D::ThreadDiameter, D::ThreadPitch],
        ordered: &[(1, 0)],
        outer_place: 0,
        width_place: None,
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
        measured: Measured::Thread,
        reach: Reach::all(Spans::FAR_BELOW),
        words: Words {
            inner: "thread",
            width: "width",
            is_no_ring: true,
        },
        unsound: Unsound::OF_RINGS,
        notes: Notes {
            open_type: OPEN_PART,
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::OfTable,
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
        standards: &["981", "2982"],
    },
};
