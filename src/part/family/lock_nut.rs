//! Lock nut (ISO 2982, DIN 981).

use super::asked::{ClassBeside, InSets, RingAway};
use super::facts::{Asked, Bench, Exchange, Facts, Marks, OtherWidth, Rolling, Shape};
use super::{Dimension as D, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "lock_nut",
    name: "lock nut",
    class: PartClass::Fasteners,

    shape: Shape {
        key: &[D::ThreadDiameter, D::ThreadPitch],
        ordered: &[(1, 0)],
        outer_place: 0,
        width_place: None,
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
        standards: &["981", "2982"],
        standard_says: &[],
        kinds: &[],
        elements: &[],
        way: None,
        words: &[
            "lock",
            "locknut",
            "nut",
            "nuts",
            "mutter",
            "nutmutter",
            "wellenmutter",
        ],
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
