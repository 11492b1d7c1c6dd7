//! Needle roller bearing with machined ring, without inner ring (ISO 1206).

use super::asked::{ClassBeside, Element, InSets, PartKind, RingAway, Way};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "needle_roller_no_inner_ring",
    name: "needle roller bearing without inner ring",
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
        standards: &[],
        standard_says: &[],
        kinds: &[PartKind::Bearing, PartKind::Needles],
        elements: &[Element::Needles],
        way: Some(Way::Across),
        words: &[],
        loose_words: &[],
        also_called: &[],
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
