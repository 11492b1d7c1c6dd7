//! Spherical roller bearing (ISO 15, DIN 635-2).

use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, KindWord, Listed, MadeClosed, OnShaft,
    OtherWidth, Pressure,
};
use super::facts::{Asked, Bench, Facts, Marks, Rolling, Shape};
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "spherical_roller",
    name: "spherical roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::OutsideDiameter, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
    },

    marks: Marks {
        has_radial_clearance: true,
    },

    rolling: Rolling { is_radial: true },

    exchange: Exchange {
        other_width: OtherWidth::Spacer,
        most_spacer_mm: 10.0,
        has_diameter_class: false,
        instead: &[Instead {
            of: Family::SelfAligningBall,
            effect: "aligns itself too, but balls carry far less than barrel-shaped rollers of one size",
            source: "published type descriptions",
        }],
        aligns_itself: true,
        along_axis: AlongAxis::BothWays,
        floats_on_its_seat: true,
        carries: Carries::MostlyAcross,
        on_shaft: OnShaft::OwnRing,
        in_sets: InSets::Alone,
        has_contact_angles: false,
        closed: MadeClosed::Sometimes,
        has_tapered_bores: true,
        has_seal_forms: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: Some(KindWord::Roller),
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench { share: Some(0.01) },

    asked: Asked {
        standards: &["635"],
    },
};
