//! Drawn cup needle roller bearing (ISO 3245).

use super::asked::{Asked, ClassBeside, Element, RingAway, Way};
use super::bench::{
    Band, Bench, ClosedWidth, HousingBand, Measured, Notes, Reach, Rings, RoomLeft, ShaftBand,
    Spans, Told, UNDER_NEEDLES, Unsound, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, Listed, MadeClosed, OnShaft, OtherWidth,
    Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy, Unmarked, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "drawn_cup_needle",
    name: "drawn cup needle roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("drawn_cup_needle")],
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
        closures: Which::Every,
        unmarked: &[Unmarked::Open],
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[],
        halves: None,
        worded_designs: &["closed end"],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: false,
        static_load: StaticLoad::RadialAlone,
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Never,
        instead: &[Instead {
            of: Family::NeedleCage,
            effect: "a cage assembly has no ring: it needs a hardened and ground housing",
            source: "ISO 3030 and ISO 3245, published tables",
        }],
        aligns_itself: false,
        along_axis: AlongAxis::Nothing,
        floats_on_its_seat: false,
        carries: Carries::Across,
        on_shaft: OnShaft::Raceway,
        in_sets: InSets::Alone,
        closed: MadeClosed::Seldom,
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
        unsound: Unsound {
            housing_below: "the cup is pressed together and its needles lose their play: N6 or N7 in steel, R6 or R7 in light metal",
            housing_above: "the cup sits loose: it is pressed into N6 or N7 in steel, R6 or R7 in light metal",
            ..Unsound::OF_NEEDLES_ON_SHAFT
        },
        notes: Notes {
            room_left: RoomLeft::Seated(
                "press the cup to its depth with a mandrel, clear of the shoulder; it takes no spacer",
            ),
            closed_width: ClosedWidth::Larger(
                // HK2012 is open, HK2016-2RS the same with a seal on each side.
                "a seal commonly makes a drawn cup 2 mm wider on its side, and the width in its number is that with the seals (common practice, from memory): measure the width of the old bearing, and ask whether it is made closed in it",
            ),
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
        standards: &["618", "3245"],
        standard_says: &[],
        elements: &[Element::Needles],
        way: Some(Way::Across),
        words: &["drawn", "cup"],
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
    // Before it is pressed in (common practice, no source).
    outside: Band::Um(0.0, 40.0),
    // ISO 3245, from memory.
    width: Band::Um(-300.0, 0.0),
    on_shaft: ShaftBand::BelowNominal("h6"),
    // N6 and N7 in steel, R6 and R7 in light metal, which is some 6 µm below P7: common practice, from memory.
    in_housing: HousingBand::Pressed {
        below_um: 6.0,
        lower: "P7",
        upper: "N7",
    },
    soft_mm: 0.04,
    inch: None,
    may_have_inner_ring: false,
};
