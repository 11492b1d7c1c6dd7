//! Angular contact ball bearing (ISO 15, DIN 628).

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

    bench: Bench { share: Some(0.03) },

    asked: Asked {
        standards: &["628"],
    },
};
