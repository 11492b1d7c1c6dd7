//! Parallel or dowel pin (ISO 8734, ISO 2338, ASME B18.8.2).

use super::bench::{
    ClosedWidth, Measured, Notes, OPEN_PART, Order, Reach, RoomLeft, Spans, Told, Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "dowel_pin",
    name: "dowel pin",
    class: PartClass::Fasteners,

    shape: Shape {
        key: &[D::PinDiameter, D::Length],
        ordered: &[],
        outer_place: 1,
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
        share: Some(0.02),
        measured: Measured::Pin,
        reach: Reach {
            width: Spans::COARSE,
            ..Reach::all(Spans::FINE)
        },
        words: Words {
            inner: "diameter",
            width: "length",
            is_no_ring: true,
        },
        unsound: Unsound {
            inner_above: "a pin wears thinner and never thicker: measure again, or it is another part",
            ..Unsound::OF_RINGS
        },
        notes: Notes {
            open_type: OPEN_PART,
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::OfTable,
            is_larger_split: false,
            when_worn: None,
        },
        told: Told {
            has_class: true,
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
        standards: &["8734", "2338", "6325", "7", "b18.8.2"],
    },
};
