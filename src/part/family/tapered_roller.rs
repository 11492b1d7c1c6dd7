//! Tapered roller bearing, cone and cup together (ISO 355).

use super::asked::{ClassBeside, Element, InForm, InSets, PartKind, RingAway, Short, Way};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
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
    },

    bench: Bench { share: Some(0.05) },

    asked: Asked {
        standards: &["720", "355"],
        standard_says: &[],
        kinds: &[PartKind::Bearing, PartKind::Rollers],
        elements: &[Element::Rollers],
        way: Some(Way::Across),
        words: &[
            "tapered",
            "taper",
            "kegelrollenlager",
            "conique",
            "coniques",
            "cup",
        ],
        loose_words: &[],
        also_called: &[],
        short: Some(Short {
            rank: 6,
            of_each: &[&[
                "tapered",
                "taper",
                "kegelrollenlager",
                "conique",
                "coniques",
            ]],
            may_be_load: false,
        }),
        seat_words: &[],
        in_sets: InSets::Usual,
        has_angle: false,
        ring_away: RingAway::OtherHalf,
        has_lips: false,
        class_beside: ClassBeside::Seats,
        in_form: InForm::usual("tapered roller"),
    },
};
