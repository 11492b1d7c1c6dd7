//! Combined needle roller and thrust or angular contact bearing (DIN 5429).

use super::bench::{
    CLOSED_KIND, Measured, Notes, OPEN_BEARING, Order, Reach, Rings, RoomLeft, Spans, Told,
    UNDER_NEEDLES, Unsound, Words, span,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "combined_needle_thrust",
    name: "combined needle roller and thrust bearing",
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
        reach: Reach {
            inner: UNDER_RING,
            shaft: UNDER_RING,
            ..Reach::all(Spans::COARSE)
        },
        words: Words::OF_NEEDLES,
        unsound: Unsound::OF_NEEDLES,
        notes: Notes {
            open_type: OPEN_BEARING,
            room_left: RoomLeft::Spacer,
            closed_width: CLOSED_KIND,
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
        standards: &["5429"],
    },
};

const RINGS: Rings = Rings {
    bore: UNDER_NEEDLES,
    soft_mm: 0.04,
    may_have_inner_ring: true,
    ..Rings::ISO_492
};

/// The bore of its inner ring is millimetres below the raceway of its needles.
const UNDER_RING: Spans = Spans {
    tables: span(8_500, 100),
    by_rule: span(8_500, 100),
    ..Spans::COARSE
};
