//! Combined needle roller and thrust or angular contact bearing (DIN 5429).

use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Listed, MadeClosed, OnShaft, OtherWidth, Pressure,
};
use super::facts::{Asked, Bench, Facts, Marks, Rolling, Shape};
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "combined_needle_thrust",
    name: "combined needle roller and thrust bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::InnerRacewayDiameter, D::OutsideDiameter, D::Width],
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
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::Untold,
        floats_on_its_seat: false,
        carries: Carries::Across,
        // Those with a needle and an angular contact part come with an inner ring (DIN 5429-2); those with a thrust ball part have
        // none (DIN 5429-1).
        on_shaft: OnShaft::RacewayUnless("needle roller and angular contact ball"),
        in_sets: InSets::Alone,
        has_contact_angles: false,
        closed: MadeClosed::Seldom,
        has_tapered_bores: false,
        has_seal_forms: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[
                Family::ThrustBall,
                Family::ThrustNeedle,
                Family::NeedleRoller,
                Family::AngularContactBall,
            ],
            kind: None,
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["5429"],
    },
};
