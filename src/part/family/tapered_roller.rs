//! Tapered roller bearing, cone and cup together (ISO 355).

use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, KindWord, Listed, MadeClosed, OnShaft, OtherWidth,
    Pressure,
};
use super::facts::{Asked, Bench, Facts, Marks, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "tapered_roller",
    name: "tapered roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::OutsideDiameter, D::AssembledWidth],
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
        most_spacer_mm: 0.0,
        has_diameter_class: false,
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::OneWay,
        floats_on_its_seat: false,
        carries: Carries::Across,
        on_shaft: OnShaft::OwnRing,
        in_sets: InSets::Pairs,
        has_contact_angles: false,
        closed: MadeClosed::Sometimes,
        has_tapered_bores: false,
        has_seal_forms: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: Some(KindWord::Roller),
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: true,
        },
    },

    bench: Bench { share: Some(0.05) },

    asked: Asked {
        standards: &["720", "355"],
    },
};
