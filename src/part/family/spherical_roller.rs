//! Spherical roller bearing (ISO 15, DIN 635-2).

use super::asked::{Asked, ClassBeside, Element, InForm, RingAway, Short, Way};
use super::bench::{
    Bench, ClosedWidth, Measured, Notes, Reach, Rings, RoomLeft, Spans, Told, Unsound, Words,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Instead, KindWord, Listed, MadeClosed, OnShaft,
    OtherWidth, Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{INCREASED_CAPACITY, Marks, NamedBy, TAPER_12, Unmarked, Which};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};
use crate::part::BoreForm;

pub(super) const FACTS: Facts = Facts {
    code: "spherical_roller",
    name: "spherical roller bearing",
    class: PartClass::Bearings,

    shape: Shape {
        tables: &[table!("spherical_roller")],
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
        tapers: &[TAPER_12, ("K30", BoreForm::Taper30)],
        may_have_snap_ring: false,
        angles: &[],
        arrangements: &[],
        number_letters: &[],
        designs: &[INCREASED_CAPACITY],
        halves: None,
        worded_designs: &[],
        has_seal_forms: false,
    },

    rolling: Rolling {
        is_radial: true,
        // Two rows.
        static_load: StaticLoad::FactorOfSheet { radial: 1.0 },
    },

    teardown: Teardown::BEARING,

    exchange: Exchange {
        other_width: OtherWidth::Spacer { most_mm: 10.0 },
        instead: &[Instead {
            of: Family::SelfAligningBall,
            effect: "aligns itself too, but balls carry far less than barrel-shaped rollers of one size",
            source: "published type descriptions",
        }],
        aligns_itself: true,
        along_axis: AlongAxis::BothWays,
        floats_on_its_seat: true,
        carries: Carries::MostlyAcross,
        on_shaft: OnShaft::OwnRing,
        in_sets: InSets::Alone,
        closed: MadeClosed::Sometimes,
        is_often_tapered: true,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: Some(KindWord::Roller),
            word_before_size: None,
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench {
        share: Some(0.01),
        measured: Measured::Rings(&Rings::ISO_492),
        reach: Reach::all(Spans::FINE),
        words: Words::OF_BEARING,
        unsound: Unsound::OF_RINGS,
        notes: Notes {
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::Larger(
                "sealed spherical roller bearings are commonly wider than the open ones, whose width is in the tables (common practice, no source): measure the width of the old bearing",
            ),
            is_larger_split: true,
            when_worn: None,
        },
        told: Told {
            has_steep_series: false,
            has_sleeves: true,
            twin: None,
        },
    },

    asked: Asked {
        standards: &["635"],
        standard_says: &[],
        elements: &[Element::Rollers],
        way: Some(Way::Across),
        words: &[
            "self-aligning",
            "aligning",
            "spherical",
            "barrel",
            "barrel-shaped",
        ],
        loose_words: &[],
        also_called: &[Family::SelfAligningBall],
        short: Some(Short {
            rank: 8,
            of_each: &[&["spherical", "pendelrollenlager", "barrel-shaped", "barrel"]],
            may_be_load: false,
        }),
        seat_words: &[],
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::Seats,
        in_form: InForm::usual("spherical roller"),
    },
};
