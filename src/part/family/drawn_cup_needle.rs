//! Drawn cup needle roller bearing (ISO 3245).

use super::bench::{
    Band, ClosedWidth, HousingBand, Measured, Notes, OPEN_BEARING, Order, Reach, Rings, RoomLeft,
    ShaftBand, Spans, Told, UNDER_NEEDLES, Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "drawn_cup_needle",
    name: "drawn cup needle roller bearing",
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
        reach: Reach::all(Spans::COARSE),
        words: Words::OF_NEEDLES,
        unsound: Unsound {
            housing_below: "the cup is pressed together and its needles lose their play: N6 or N7 in steel, R6 or R7 in light metal",
            housing_above: "the cup sits loose: it is pressed into N6 or N7 in steel, R6 or R7 in light metal",
            ..Unsound::OF_NEEDLES_ON_SHAFT
        },
        notes: Notes {
            open_type: OPEN_BEARING,
            room_left: RoomLeft::Seated(
                "press the cup to its depth with a mandrel, clear of the shoulder; it takes no spacer",
            ),
            closed_width: ClosedWidth::Larger(
                // HK2012 is open, HK2016-2RS the same with a seal on each side.
                "a seal commonly makes a drawn cup 2 mm wider on its side, and the width in its number is that with the seals (common practice, from memory): measure the width of the old bearing, and ask whether it is made closed in it",
            ),
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
            has_closure: true,
            has_set: false,
            has_seal_form: false,
        },
    },

    asked: Asked {
        standards: &["618", "3245"],
    },
};

const RINGS: Rings = Rings {
    bore: UNDER_NEEDLES,
    // Before it is pressed in (common practice, no source).
    outside: Band::Um(0.0, 40.0),
    // ISO 3245, from memory.
    width: Band::Um(-300.0, 0.0),
    on_shaft: ShaftBand::BelowNominal("h6"),
    // N6 and N7 in steel, R6 and R7 in light metal, which is some 6 µm below P7: common practice, from memory.
    in_housing: HousingBand::Pressed {
        below_um: 6.0,
        lower: "P7",
        upper: "N7",
    },
    soft_mm: 0.04,
    inch: None,
    may_have_inner_ring: false,
};
