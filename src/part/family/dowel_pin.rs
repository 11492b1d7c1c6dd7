//! Parallel or dowel pin (ISO 8734, ISO 2338, ASME B18.8.2).

use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Listed, MadeClosed, OnShaft, OtherWidth, Pressure,
};
use super::facts::{Asked, Bench, Facts, Marks, Rolling, Shape};
use super::{Dimension as D, PartClass};

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
        most_spacer_mm: 0.0,
        has_diameter_class: true,
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::Untold,
        floats_on_its_seat: false,
        carries: Carries::Nothing,
        on_shaft: OnShaft::Nothing,
        in_sets: InSets::Alone,
        has_contact_angles: false,
        closed: MadeClosed::Never,
        has_tapered_bores: false,
        has_seal_forms: false,
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

    bench: Bench { share: Some(0.02) },

    asked: Asked {
        standards: &["8734", "2338", "6325", "7", "b18.8.2"],
    },
};
