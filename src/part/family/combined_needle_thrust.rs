//! Combined needle roller and thrust or angular contact bearing (DIN 5429).

use super::asked::{ClassBeside, Element, InSets, PartKind, RingAway, Way};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
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
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["5429"],
        standard_says: &[],
        kinds: &[PartKind::Bearing],
        elements: &[Element::Needles, Element::Balls],
        way: Some(Way::Along),
        words: &["angular", "contact", "combined"],
        loose_words: &[],
        also_called: &[Family::ThrustBall],
        short: None,
        seat_words: &[],
        in_sets: InSets::Never,
        has_angle: false,
        ring_away: RingAway::Nothing,
        has_lips: false,
        class_beside: ClassBeside::NotLookedAt,
        in_form: None,
    },
};
