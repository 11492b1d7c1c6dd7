//! Parallel or dowel pin (ISO 8734, ISO 2338, ASME B18.8.2).

use super::asked::{Asked, ClassBeside, FormFigures, InForm, RingAway, Short, StandardSays};
use super::bench::{
    Bench, ClosedWidth, Measured, Notes, Reach, RoomLeft, Spans, Told, Unsound, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Listed, MadeClosed, OnShaft, OtherWidth, Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

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
        tables: &[table!("dowel_pin"), table!("dowel_pin_inch")],
        key: &[D::PinDiameter, D::Length],
        ordered: &[],
        outer_place: 1,
        width_place: None,
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::DowelPin,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::SizeAndClass,
        has_stated_types: false,
        worded_designs: &["hardened", "unhardened"],
        has_seal_forms: false,
        ..Marks::NO_BEARING
    },

    rolling: Rolling {
        is_radial: false,
        static_load: StaticLoad::Unknown,
    },

    teardown: Teardown {
        is_fitted_again: true,
        noted: Teardown::NOTED_OF_ANY,
    },

    exchange: Exchange {
        other_width: OtherWidth::Never,
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::Untold,
        floats_on_its_seat: false,
        carries: Carries::Nothing,
        on_shaft: OnShaft::Nothing,
        in_sets: InSets::Alone,
        closed: MadeClosed::Never,
        is_often_tapered: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: None,
            word_before_size: None,
            is_size_told: false,
            has_two_numbers: false,
        },
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
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::OfTable,
            is_larger_split: false,
            when_worn: None,
        },
        told: Told {
            has_steep_series: false,
            has_sleeves: false,
            twin: None,
        },
    },

    asked: Asked {
        standards: &["8734", "2338", "6325", "7", "b18.8.2"],
        standard_says: SAYS,
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
        ring_away: RingAway::Nothing,
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
