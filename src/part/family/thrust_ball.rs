//! Thrust ball bearing (ISO 104, DIN 711).

use super::bench::{
    Band, ClosedWidth, HousingBand, Measured, Notes, OPEN_BEARING, Order, Reach, Rings, RoomLeft,
    Spans, Told, Unsound, WASHER_TIGHT, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "thrust_ball",
    name: "thrust ball bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::HousingWasherBore, D::OutsideDiameter, D::Height],
        ordered: &[(0, 2), (1, 2)],
        outer_place: 2,
        width_place: Some(3),
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
        words: Words::OF_BEARING,
        unsound: Unsound {
            housing_below: WASHER_TIGHT,
            ..Unsound::OF_RINGS
        },
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
        standards: &["711", "715", "104"],
    },
};

const RINGS: Rings = Rings {
    // ISO 199, from memory.
    width: Band::Um(-250.0, 20.0),
    in_housing: HousingBand::AroundWasher,
    ..Rings::ISO_492
};
