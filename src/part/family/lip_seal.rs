//! Rotary shaft lip seal (ISO 6194-1, DIN 3760).

use super::asked::{ClassBeside, InForm, InSets, PartKind, RingAway, Short, Way};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
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
    },

    bench: Bench { share: Some(0.12) },

    asked: Asked {
        standards: &["3760", "3761", "6194", "b2402"],
        standard_says: &[],
        kinds: &[PartKind::Seal],
        elements: &[],
        way: Some(Way::Across),
        words: &["oil", "rotary", "wellendichtring"],
        loose_words: &[],
        also_called: &[],
        short: Some(Short {
            rank: 5,
            of_each: &[&[
                "lip",
                "wellendichtring",
                "radialwellendichtring",
                "wdr",
                "lèvre",
                "lèvres",
                "rotary seal",
                "shaft seal",
            ]],
            may_be_load: false,
        }),
        seat_words: &[],
        in_sets: InSets::Never,
        has_angle: false,
        ring_away: RingAway::Nothing,
        has_lips: true,
        class_beside: ClassBeside::LipShaft,
        in_form: InForm::usual("oil seal"),
    },
};
