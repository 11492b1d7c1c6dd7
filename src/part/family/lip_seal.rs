//! Rotary shaft lip seal (ISO 6194-1, DIN 3760).

use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Listed, MadeClosed, OnShaft, OtherWidth, Pressure,
};
use super::facts::{Asked, Bench, Facts, Marks, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "lip_seal",
    name: "rotary shaft lip seal",
    class: PartClass::Seals,

    shape: Shape {
        key: &[D::ShaftDiameter, D::HousingBore, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
    },

    marks: Marks {
        has_radial_clearance: false,
    },

    rolling: Rolling { is_radial: false },

    exchange: Exchange {
        other_width: OtherWidth::InBore,
        most_spacer_mm: 0.0,
        has_diameter_class: false,
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::Untold,
        floats_on_its_seat: false,
        carries: Carries::Nothing,
        on_shaft: OnShaft::Lip,
        in_sets: InSets::Alone,
        has_contact_angles: false,
        closed: MadeClosed::Never,
        has_tapered_bores: false,
        has_seal_forms: true,
        is_of_elastomer: true,
        // Lip seals of DIN 3760 stand about this.
        pressure: Pressure::OnLip { most_bar: 0.3 },
        listed: Listed {
            genera: &[],
            kind: None,
            word_before_size: Some("OIL SEAL"),
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench { share: Some(0.12) },

    asked: Asked {
        standards: &["3760", "3761", "6194", "b2402"],
    },
};
