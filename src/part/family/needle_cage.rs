//! Radial needle roller and cage assembly (ISO 3030).

use super::asked::{Asked, ClassBeside, Element, RingAway, Way};
use super::bench::{
    Band, Bench, CLOSED_KIND, HousingBand, Measured, Notes, Reach, Rings, RoomLeft, ShaftBand,
    Spans, Told, UNDER_NEEDLES, Unsound, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, Listed, MadeClosed, OnShaft, OtherWidth,
    Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "needle_cage",
    name: "needle roller and cage assembly",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("needle_cage")],
        key: &[D::InnerRacewayDiameter, D::OuterRacewayDiameter, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::NeedleRollerNoInnerRing,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Size,
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
        instead: &[Instead {
            of: Family::DrawnCupNeedle,
            effect: "a drawn cup needs a press seat in the housing, not a raceway",
            source: "ISO 3030 and ISO 3245, published tables",
        }],
        aligns_itself: false,
        along_axis: AlongAxis::Nothing,
        floats_on_its_seat: false,
        carries: Carries::Across,
        on_shaft: OnShaft::Raceway,
        in_sets: InSets::Alone,
        closed: MadeClosed::Never,
        is_often_tapered: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[Family::NeedleRoller],
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
        words: Words::OF_NEEDLES,
        unsound: Unsound::OF_NEEDLES_ON_SHAFT,
        notes: Notes {
            room_left: RoomLeft::Seated(
                "guide the cage by smooth faces or washers that leave it some tenths of play; it takes no spacer",
            ),
            closed_width: CLOSED_KIND,
            is_larger_split: false,
            when_worn: None,
        },
        told: Told {
            has_steep_series: false,
            has_sleeves: false,
            twin: None,
        },
    },

    asked: Asked {
        standards: &["5405", "3030"],
        standard_says: &[],
        elements: &[Element::Needles],
        way: Some(Way::Across),
        words: &["cage", "assembly"],
        loose_words: &[],
        also_called: &[],
        short: None,
        seat_words: &[],
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::NotLookedAt,
        in_form: None,
    },
};

const RINGS: Rings = Rings {
    bore: UNDER_NEEDLES,
    // A cage over its needles (common practice, no source).
    outside: Band::Um(-60.0, 20.0),
    // ISO 3030, from memory.
    width: Band::Um(-500.0, 0.0),
    on_shaft: ShaftBand::BelowNominal("g6"),
    // It runs in it: common practice, from memory.
    in_housing: HousingBand::Class("G6"),
    soft_mm: 0.06,
    inch: None,
    may_have_inner_ring: false,
};
