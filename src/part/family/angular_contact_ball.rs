//! Angular contact ball bearing (ISO 15, DIN 628).

use super::bench::{
    ClosedWidth, Measured, Notes, OPEN_BEARING, Order, Reach, Rings, RoomLeft, Spans, Told,
    Unsound, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, KindWord, Listed, MadeClosed, OnShaft,
    OtherWidth, Pressure,
};
use super::facts::{Asked, Bench, Facts, Marks, Rolling, Shape};
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "angular_contact_ball",
    name: "angular contact ball bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::OutsideDiameter, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
    },

    marks: Marks {
        has_radial_clearance: false,
    },

    rolling: Rolling { is_radial: true },

    exchange: Exchange {
        other_width: OtherWidth::Spacer,
        most_spacer_mm: 10.0,
        has_diameter_class: false,
        instead: &[Instead {
            of: Family::DeepGrooveBall,
            effect: "cannot be preloaded as half of a pair",
            source: "published type descriptions",
        }],
        aligns_itself: false,
        along_axis: AlongAxis::ByArrangement,
        floats_on_its_seat: false,
        carries: Carries::Across,
        on_shaft: OnShaft::OwnRing,
        in_sets: InSets::Sets,
        has_contact_angles: true,
        closed: MadeClosed::Often,
        has_tapered_bores: false,
        has_seal_forms: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: Some(KindWord::Ball),
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench {
        share: Some(0.03),
        measured: Measured::Rings(&Rings::ISO_492),
        reach: Reach::all(Spans::FINE),
        words: Words::OF_BEARING,
        unsound: Unsound::OF_RINGS,
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
            is_asked_closed: true,
            has_steep_series: false,
            has_sleeves: false,
            twin: None,
        },
        order: Order {
            has_angle: true,
            has_closure: false,
            has_set: true,
            has_seal_form: false,
        },
    },

    asked: Asked {
        standards: &["628"],
    },
};
