//! Thrust ball bearing (ISO 104, DIN 711).

use super::asked::{Asked, ClassBeside, Element, InForm, RingAway, Short, Way};
use super::bench::{
    Band, Bench, ClosedWidth, HousingBand, Measured, Notes, Reach, Rings, RoomLeft, Spans, Told,
    Unsound, WASHER_TIGHT, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Listed, MadeClosed, OnShaft, OtherWidth, Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy, Unmarked, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "thrust_ball",
    name: "thrust ball bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("thrust_ball")],
        key: &[D::Bore, D::HousingWasherBore, D::OutsideDiameter, D::Height],
        ordered: &[(0, 2), (1, 2)],
        outer_place: 2,
        width_place: Some(3),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::ThrustBall,
        grid_places: [0, 2, 3],
    },

    marks: Marks {
        named_by: NamedBy::Number,
        has_stated_types: false,
        radial_clearance: Which::None,
        closures: Which::None,
        unmarked: &[Unmarked::NormalClass],
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[],
        halves: Some(["shaft washer only", "housing washer only"]),
        worded_designs: &[],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: false,
        static_load: StaticLoad::AxialAlone,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Never,
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::OneWay,
        floats_on_its_seat: false,
        carries: Carries::Along,
        on_shaft: OnShaft::OwnRing,
        in_sets: InSets::Alone,
        closed: MadeClosed::Never,
        is_often_tapered: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: None,
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench {
        share: None,
        measured: Measured::Rings(&RINGS),
        reach: Reach::all(Spans::COARSE),
        words: Words::OF_BEARING,
        unsound: Unsound {
            housing_below: WASHER_TIGHT,
            ..Unsound::OF_RINGS
        },
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
        standards: &["711", "715", "104"],
        standard_says: &[],
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
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::NotLookedAt,
        in_form: InForm::usual("thrust ball"),
    },
};

const RINGS: Rings = Rings {
    // ISO 199, from memory.
    width: Band::Um(-250.0, 20.0),
    in_housing: HousingBand::AroundWasher,
    ..Rings::ISO_492
};
