//! O-ring (ISO 3601-1, SAE AS568).

use super::bench::{
    ClosedWidth, Measured, Notes, OPEN_PART, Order, Reach, RoomLeft, Spans, Told, Unsound, Words,
    span,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "o_ring",
    name: "O-ring",
    class: PartClass::Seals,

    shape: Shape {
        key: &[D::InsideDiameter, D::Section],
        ordered: &[],
        outer_place: 1,
        width_place: None,
    },

    marks: Marks {
        has_radial_clearance: false,
    },

    rolling: Rolling { is_radial: false },

    exchange: Exchange {
        other_width: OtherWidth::Gland,
    },

    bench: Bench {
        share: Some(0.12),
        measured: Measured::RubberRing,
        reach: Reach::all(Spans {
            tables: span(1_500, 10),
            by_rule: span(1_500, 10),
            own: span(500, 25),
        }),
        words: Words {
            inner: "inside diameter",
            ..Words::OF_SEATED_RING
        },
        unsound: Unsound {
            inner_above: STRETCHED,
            outer_below: SWOLLEN,
            outer_above: STRETCHED,
            width_below: SWOLLEN,
            section_below: "the ring is flattened (compression set); measure the groove instead",
            shaft_below: SWOLLEN,
            shaft_above: SWOLLEN,
            housing_below: SWOLLEN,
            housing_above: SWOLLEN,
            other: SWOLLEN,
        },
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
        standards: &["3601", "3771", "b2401"],
    },
};

const STRETCHED: &str = "the ring is stretched; measure the groove instead";
const SWOLLEN: &str = "the ring has shrunk or swollen; measure the groove instead";
