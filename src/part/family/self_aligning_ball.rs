//! Self-aligning ball bearing (ISO 15, DIN 630).

use super::asked::{ClassBeside, Element, InSets, PartKind, RingAway, Way};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "self_aligning_ball",
    name: "self-aligning ball bearing",
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
    },

    bench: Bench { share: None },

    asked: Asked {
        standards: &["630"],
        standard_says: &[],
        kinds: &[PartKind::Bearing, PartKind::Balls],
        elements: &[Element::Balls],
        way: Some(Way::Across),
        words: &["self-aligning", "aligning"],
        loose_words: &[],
        also_called: &[],
        short: None,
        seat_words: &[],
        in_sets: InSets::Never,
        has_angle: false,
        ring_away: RingAway::Nothing,
        has_lips: false,
        class_beside: ClassBeside::Seats,
        in_form: None,
    },
};
