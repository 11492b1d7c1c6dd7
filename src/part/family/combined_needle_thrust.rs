//! Combined needle roller and thrust or angular contact bearing (DIN 5429).

use super::asked::{Asked, ClassBeside, Element, RingAway, Way};
use super::bench::{
    Bench, CLOSED_KIND, Measured, Notes, Reach, Rings, RoomLeft, Spans, Told, UNDER_NEEDLES,
    Unsound, Words, span,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Listed, MadeClosed, OnShaft, OtherWidth, Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "combined_needle_thrust",
    name: "combined needle roller and thrust bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("combined_needle_thrust")],
        key: &[D::InnerRacewayDiameter, D::OutsideDiameter, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::NeedleRollerNoInnerRing,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Number,
        has_stated_types: false,
        radial_clearance: Which::None,
        closures: Which::None,
        unmarked: &[],
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[],
        halves: None,
        worded_designs: &[],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: false,
        static_load: StaticLoad::Unknown,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Never,
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::Untold,
        floats_on_its_seat: false,
        carries: Carries::Across,
        // Those with a needle and an angular contact part come with an inner ring (DIN 5429-2); those with a thrust ball part have
        // none (DIN 5429-1).
        on_shaft: OnShaft::RacewayUnless("needle roller and angular contact ball"),
        in_sets: InSets::Alone,
        closed: MadeClosed::Seldom,
        is_often_tapered: false,
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

    bench: Bench {
        share: None,
        measured: Measured::Rings(&RINGS),
        reach: Reach {
            inner: UNDER_RING,
            shaft: UNDER_RING,
            ..Reach::all(Spans::COARSE)
        },
        words: Words::OF_NEEDLES,
        unsound: Unsound::OF_NEEDLES,
        notes: Notes {
            room_left: RoomLeft::Spacer,
            closed_width: CLOSED_KIND,
            is_larger_split: true,
            when_worn: None,
        },
        told: Told {
            has_steep_series: false,
            has_sleeves: false,
            twin: None,
        },
    },

    asked: Asked {
        standards: &["5429"],
        standard_says: &[],
        elements: &[Element::Needles, Element::Balls],
        way: Some(Way::Along),
        words: &["angular", "contact", "combined"],
        loose_words: &[],
        also_called: &[Family::ThrustBall],
        short: None,
        seat_words: &[],
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::NotLookedAt,
        in_form: None,
    },
};

const RINGS: Rings = Rings {
    bore: UNDER_NEEDLES,
    soft_mm: 0.04,
    may_have_inner_ring: true,
    ..Rings::ISO_492
};

/// The bore of its inner ring is millimetres below the raceway of its needles.
const UNDER_RING: Spans = Spans {
    tables: span(8_500, 100),
    by_rule: span(8_500, 100),
    ..Spans::COARSE
};
