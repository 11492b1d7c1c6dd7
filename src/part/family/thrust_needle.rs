//! Thrust needle roller and cage assembly or washer (ISO 3031).

use super::bench::{
    Band, ClosedWidth, HousingBand, Measured, Notes, OPEN_BEARING, Order, Reach, Rings, RoomLeft,
    ShaftBand, Spans, Told, Unsound, WASHER_TIGHT, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "thrust_needle",
    name: "thrust needle roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::CageOutsideDiameter, D::Height],
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
        standards: &["3031"],
    },
};

const RINGS: Rings = Rings {
    // Cages and washers run clear of shaft and housing (ISO 3031 and ISO 104, from memory).
    bore: Band::Um(0.0, 150.0),
    outside: Band::Um(-300.0, 0.0),
    // From memory.
    width: Band::Um(-10.0, 10.0),
    // The cage lies loose on it.
    on_shaft: ShaftBand::BelowNominal("h8"),
    // The cage touches it nowhere (common practice, no source).
    in_housing: HousingBand::Um(0.0, 300.0),
    soft_mm: 0.03,
    inch: None,
    may_have_inner_ring: false,
};
