//! Parallel or dowel pin (ISO 8734, ISO 2338, ASME B18.8.2).

use super::asked::{ClassBeside, FormFigures, InForm, InSets, RingAway, Short, StandardSays};
use super::bench::{
    ClosedWidth, Measured, Notes, OPEN_PART, Order, Reach, RoomLeft, Spans, Told, Unsound, Words,
};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

/// Hardened or not, and the class of the diameter: ISO 8734 (DIN 6325) and ISO 2338 (DIN 7); from memory.
const SAYS: &[StandardSays] = &[
    StandardSays {
        number: "8734",
        design: "hardened",
        class: Some("m6"),
    },
    StandardSays {
        number: "6325",
        design: "hardened",
        class: Some("m6"),
    },
    StandardSays {
        number: "2338",
        design: "unhardened",
        class: None,
    },
    StandardSays {
        number: "7",
        design: "unhardened",
        class: Some("m6"),
    },
];

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
        standard_says: SAYS,
        kinds: &[],
        elements: &[],
        way: None,
        words: &[
            "cylindrical",
            "cylindriques",
            "dowel",
            "dowels",
            "pin",
            "pins",
            "parallel",
            "zylinderstift",
            "goupille",
        ],
        loose_words: &[],
        also_called: &[],
        short: Some(Short {
            rank: 3,
            of_each: &[&[
                "dowel",
                "dowels",
                "zylinderstift",
                "passstift",
                "goupille",
                "pin",
                "pins",
            ]],
            may_be_load: false,
        }),
        seat_words: &[],
        in_sets: InSets::Never,
        has_angle: false,
        ring_away: RingAway::Nothing,
        has_lips: false,
        class_beside: ClassBeside::Own,
        in_form: Some(InForm {
            name: "dowel pin",
            figures: FormFigures {
                labels: ["Hole", "Diameter", "Length"],
                words: ["diameter", "diameter", "length"],
            },
        }),
    },
};
