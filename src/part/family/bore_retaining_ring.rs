//! Retaining ring for bores (DIN 472).

use super::bench::{
    ClosedWidth, Measured, Notes, OPEN_RING, Order, Reach, RoomLeft, Spans, Told, Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "bore_retaining_ring",
    name: "retaining ring for bores",
    class: PartClass::Fasteners,

    shape: Shape {
        key: &[D::HousingBore],
        ordered: &[],
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
        share: Some(0.03),
        measured: Measured::SpringRing {
            groove: "H11",
            is_in_bore: true,
        },
        reach: Reach::all(Spans::FREE_RING),
        words: Words::OF_SEATED_RING,
        unsound: Unsound::OF_RINGS,
        notes: Notes {
            open_type: OPEN_RING,
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::OfTable,
            is_larger_split: false,
            when_worn: None,
        },
        told: Told {
            has_class: false,
            is_plain_unmarked: true,
            is_asked_closed: false,
            has_steep_series: false,
            has_sleeves: false,
            twin: Some(Family::ShaftRetainingRing),
        },
        order: Order {
            has_angle: false,
            has_closure: false,
            has_set: false,
            has_seal_form: false,
        },
    },

    asked: Asked {
        standards: &["472"],
    },
};
