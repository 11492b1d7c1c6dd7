//! Thrust needle roller and cage assembly or washer (ISO 3031).

use super::asked::{ClassBeside, Element, InSets, PartKind, RingAway, Short, Way};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "thrust_needle",
    name: "thrust needle roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        key: &[D::Bore, D::CageOutsideDiameter, D::Height],
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
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["3031"],
        standard_says: &[],
        kinds: &[PartKind::Bearing],
        elements: &[Element::Needles],
        way: Some(Way::Along),
        words: &["cage", "assembly"],
        loose_words: &[],
        also_called: &[Family::ThrustBall],
        short: Some(Short {
            rank: 10,
            of_each: &[
                &["thrust", "axial", "butée"],
                &["needle", "needles", "aiguilles"],
            ],
            may_be_load: true,
        }),
        seat_words: &[],
        in_sets: InSets::Never,
        has_angle: false,
        ring_away: RingAway::Nothing,
        has_lips: false,
        class_beside: ClassBeside::NotLookedAt,
        in_form: None,
    },
};
