//! Tapered roller bearing, cone and cup together (ISO 355).

use super::asked::{Asked, ClassBeside, Element, InForm, RingAway, Short, Way};
use super::bench::{
    Band, Bench, ClosedWidth, InchRings, Measured, Notes, Reach, Rings, RoomLeft, Spans, Told,
    Unsound, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, KindWord, Listed, MadeClosed, OnShaft, OtherWidth,
    Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy, PAIRS, Unmarked, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "tapered_roller",
    name: "tapered roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("tapered_roller"), table!("tapered_roller_inch")],
        key: &[D::Bore, D::OutsideDiameter, D::AssembledWidth],
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
        radial_clearance: Which::None,
        closures: Which::None,
        unmarked: Unmarked::RADIAL,
        tapers: &[],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: PAIRS,
        number_letters: &[("X", None), ("B", Some("steep contact angle (B)"))],
        designs: &[],
        halves: Some(["cone only", "cup only"]),
        worded_designs: &[],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: true,
        // A single row.
        static_load: StaticLoad::FactorOfSheet { radial: 0.5 },
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Spacer { most_mm: 0.0 },
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::OneWay,
        floats_on_its_seat: false,
        carries: Carries::Across,
        on_shaft: OnShaft::OwnRing,
        in_sets: InSets::Pairs,
        closed: MadeClosed::Sometimes,
        is_often_tapered: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: Some(KindWord::Roller),
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: true,
        },
    },

    bench: Bench {
        share: Some(0.05),
        measured: Measured::Rings(&RINGS),
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
            has_steep_series: true,
            has_sleeves: false,
            twin: None,
        },
    },

    asked: Asked {
        standards: &["720", "355"],
        standard_says: &[],
        elements: &[Element::Rollers],
        way: Some(Way::Across),
        words: &[
            "tapered",
            "taper",
            "kegelrollenlager",
            "conique",
            "coniques",
            "cup",
        ],
        loose_words: &[],
        also_called: &[],
        short: Some(Short {
            rank: 6,
            of_each: &[&[
                "tapered",
                "taper",
                "kegelrollenlager",
                "conique",
                "coniques",
            ]],
            may_be_load: false,
        }),
        seat_words: &[],
        ring_away: RingAway::OtherHalf,
        class_beside: ClassBeside::Seats,
        in_form: InForm::usual("tapered roller"),
    },
};

const RINGS: Rings = Rings {
    // ISO 492, assembled width of tapered roller bearings, from memory.
    width: Band::UpToBore(80.0, (0.0, 200.0), (-200.0, 200.0)),
    // ISO 578, from memory: the rings of inch sizes are held the other way.
    inch: Some(InchRings {
        standard: "ABMA 19",
        bore: (0.0, 13.0),
        outside: (0.0, 25.0),
    }),
    ..Rings::ISO_492
};
