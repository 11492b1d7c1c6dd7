//! O-ring (ISO 3601-1, SAE AS568).

use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Listed, MadeClosed, OnShaft, OtherWidth, Pressure,
};
use super::facts::{Asked, Bench, Facts, Marks, Rolling, Shape};
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
        most_spacer_mm: 0.0,
        has_diameter_class: false,
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

    bench: Bench { share: Some(0.12) },

    asked: Asked {
        standards: &["3601", "3771", "b2401"],
    },
};
