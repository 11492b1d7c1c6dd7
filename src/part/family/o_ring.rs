//! O-ring (ISO 3601-1, SAE AS568).

use super::asked::{Asked, ClassBeside, FormFigures, InForm, RingAway, Short};
use super::bench::{
    Bench, ClosedWidth, Measured, Notes, Reach, RoomLeft, Spans, Told, Unsound, Words, span,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Listed, MadeClosed, OnShaft, OtherWidth, Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "o_ring",
    name: "O-ring",
    class: PartClass::Seals,

    shape: Shape {
        tables: &[table!("o_ring_as568"), table!("o_ring_metric")],
        key: &[D::InsideDiameter, D::Section],
        ordered: &[],
        outer_place: 1,
        width_place: None,
        is_outer_section: true,
        size_prefix: "",
        grid_with: Family::ORing,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Size,
        has_stated_types: false,
        worded_designs: &[],
        has_seal_forms: false,
        ..Marks::NO_BEARING
    },

    rolling: Rolling {
        is_radial: false,
        static_load: StaticLoad::Unknown,
    },

    teardown: Teardown {
        is_fitted_again: false,
        noted: &[
            "section, mm",
            "groove depth, mm",
            "groove width, mm",
            "hardness",
        ],
    },

    exchange: Exchange {
        other_width: OtherWidth::Gland,
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::Untold,
        floats_on_its_seat: false,
        carries: Carries::Nothing,
        on_shaft: OnShaft::Nothing,
        in_sets: InSets::Alone,
        closed: MadeClosed::Never,
        is_often_tapered: false,
        is_of_elastomer: true,
        pressure: Pressure::IntoGap,
        listed: Listed {
            genera: &[],
            kind: None,
            word_before_size: Some("O-RING"),
            is_size_told: false,
            has_two_numbers: false,
        },
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
        standards: &["3601", "3771", "b2401"],
        standard_says: &[],
        elements: &[],
        way: None,
        words: &[
            "groove", "o-ring", "oring", "o-rings", "orings", "torique", "o",
        ],
        loose_words: &["rings"],
        also_called: &[],
        short: Some(Short {
            rank: 4,
            of_each: &[&[
                "oring",
                "o-ring",
                "o-rings",
                "orings",
                "o ring",
                "joint torique",
            ]],
            may_be_load: false,
        }),
        seat_words: &[],
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::NotLookedAt,
        in_form: Some(InForm {
            name: "o-ring",
            figures: FormFigures {
                labels: ["Inside", "Outside", "Section"],
                words: ["inside", "od", "section"],
            },
        }),
    },
};

const STRETCHED: &str = "the ring is stretched; measure the groove instead";
const SWOLLEN: &str = "the ring has shrunk or swollen; measure the groove instead";
