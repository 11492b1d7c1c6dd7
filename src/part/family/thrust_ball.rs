//! Thrust ball bearing (ISO 104, DIN 711).

use super::asked::{ClassBeside, Element, InForm, InSets, PartKind, RingAway, Short, Way};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "thrust_ball",
    name: "thrust ball bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::HousingWasherBore, D::OutsideDiameter, D::Height],
        ordered: &[(0, 2), (1, 2)],
        outer_place: 2,
        width_place: Some(3),
    },

    marks: Marks {
        has_radial_clearance: false,
    },

    rolling: Rolling { is_radial: false },

    exchange: Exchange {
        other_width: OtherWidth::Never,
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["711", "715", "104"],
        standard_says: &[],
        kinds: &[PartKind::Bearing, PartKind::Balls],
        elements: &[Element::Balls],
        way: Some(Way::Along),
        words: &[],
        loose_words: &[],
        also_called: &[],
        short: Some(Short {
            rank: 11,
            of_each: &[&["thrust", "axiallager", "axialkugellager", "butée"]],
            may_be_load: true,
        }),
        seat_words: &[],
        in_sets: InSets::Never,
        has_angle: false,
        ring_away: RingAway::Nothing,
        has_lips: false,
        class_beside: ClassBeside::NotLookedAt,
        in_form: InForm::usual("thrust ball"),
    },
};
