//! Radial needle roller and cage assembly (ISO 3030).

use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, Listed, MadeClosed, OnShaft, OtherWidth,
    Pressure,
};
use super::facts::{Asked, Bench, Facts, Marks, Rolling, Shape};
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "needle_cage",
    name: "needle roller and cage assembly",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::InnerRacewayDiameter, D::OuterRacewayDiameter, D::Width],
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
        most_spacer_mm: 0.0,
        has_diameter_class: false,
        instead: &[Instead {
            of: Family::DrawnCupNeedle,
            effect: "a drawn cup needs a press seat in the housing, not a raceway",
            source: "ISO 3030 and ISO 3245, published tables",
        }],
        aligns_itself: false,
        along_axis: AlongAxis::Nothing,
        floats_on_its_seat: false,
        carries: Carries::Across,
        on_shaft: OnShaft::Raceway,
        in_sets: InSets::Alone,
        has_contact_angles: false,
        closed: MadeClosed::Never,
        has_tapered_bores: false,
        has_seal_forms: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[Family::NeedleRoller],
            kind: None,
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["5405", "3030"],
    },
};
