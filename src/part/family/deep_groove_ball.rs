//! Deep groove ball bearing, single or double row (ISO 15).

use super::asked::{Asked, ClassBeside, Element, InForm, RingAway, Way};
use super::bench::{
    Bench, ClosedWidth, Measured, Notes, Reach, Rings, RoomLeft, Spans, Told, Unsound, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, KindWord, Listed, MadeClosed, OnShaft,
    OtherWidth, Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy, PAIRS, TAPER_12, Unmarked, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "deep_groove_ball",
    name: "deep groove ball bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[
            table!("deep_groove_ball"),
            table!("deep_groove_ball_double_row"),
            table!("deep_groove_ball_inch"),
        ],
        key: &[D::Bore, D::OutsideDiameter, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::DeepGrooveBall,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Number,
        has_stated_types: false,
        radial_clearance: Which::Every,
        closures: Which::Every,
        unmarked: Unmarked::RADIAL,
        tapers: &[TAPER_12],
        may_have_snap_ring: true,
        angles: &[],
        arrangements: PAIRS,
        number_letters: &[],
        designs: &[],
        halves: None,
        worded_designs: &[],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: true,
        static_load: StaticLoad::Factors {
            radial: 0.6,
            axial: 0.5,
        },
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Spacer { most_mm: 10.0 },
        instead: &[Instead {
            of: Family::AngularContactBall,
            effect: "carries axial load one way only and must be set against a second bearing",
            source: "published type descriptions",
        }],
        aligns_itself: false,
        along_axis: AlongAxis::BothWays,
        floats_on_its_seat: true,
        carries: Carries::MostlyAcross,
        on_shaft: OnShaft::OwnRing,
        in_sets: InSets::Alone,
        closed: MadeClosed::Often,
        // Some are, and then marked so: a bore of which nothing is said is cylindrical.
        is_often_tapered: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: Some(KindWord::Ball),
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench {
        share: Some(0.50),
        measured: Measured::Rings(&Rings::ISO_492),
        reach: Reach::all(Spans::FINE),
        words: Words::OF_BEARING,
        unsound: Unsound::OF_RINGS,
        notes: Notes {
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::OfTable,
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
        standards: &["625"],
        standard_says: &[],
        elements: &[Element::Balls],
        way: Some(Way::Across),
        words: &["deep", "dgbb", "rillenkugellager", "groove"],
        loose_words: &[],
        also_called: &[],
        short: None,
        seat_words: &[],
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::Seats,
        in_form: InForm::usual("deep groove"),
    },
};
