//! Rotary shaft lip seal (ISO 6194-1, DIN 3760).

use super::asked::{Asked, ClassBeside, InForm, RingAway, Short, Way};
use super::bench::{
    Bench, ClosedWidth, Measured, Notes, Reach, RoomLeft, Spans, Told, Unsound, Words, span,
};
use super::exchange::{
    AlongAxis, Carries, Exchange, InSets, Listed, MadeClosed, OnShaft, OtherWidth, Pressure,
};
use super::facts::{Facts, Shape};
use super::marks::{Marks, NamedBy};
use super::rolling::{Rolling, StaticLoad};
use super::teardown::Teardown;
use super::{Dimension as D, Family, PartClass};

pub(super) const FACTS: Facts = Facts {
    code: "lip_seal",
    name: "rotary shaft lip seal",
    class: PartClass::Seals,

    shape: Shape {
        tables: &[table!("lip_seal")],
        key: &[D::ShaftDiameter, D::HousingBore, D::Width],
        ordered: &[(0, 1)],
        outer_place: 1,
        width_place: Some(2),
        is_outer_section: false,
        size_prefix: "",
        grid_with: Family::LipSeal,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Size,
        has_stated_types: false,
        worded_designs: &[
            "split",
            "pressure profile",
            "ribs for right-hand rotation",
            "ribs for left-hand rotation",
            "ribs for both rotations",
        ],
        has_seal_forms: true,
        ..Marks::NO_BEARING
    },

    rolling: Rolling {
        is_radial: false,
        static_load: StaticLoad::Unknown,
    },

    teardown: Teardown {
        is_fitted_again: false,
        noted: &[
            "full marking",
            "lip towards",
            "shaft under the lip, mm",
            "housing, mm",
            "depth, mm",
        ],
    },

    exchange: Exchange {
        other_width: OtherWidth::InBore,
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::Untold,
        floats_on_its_seat: false,
        carries: Carries::Nothing,
        on_shaft: OnShaft::Lip,
        in_sets: InSets::Alone,
        closed: MadeClosed::Never,
        is_often_tapered: false,
        is_of_elastomer: true,
        // Lip seals of DIN 3760 stand about this.
        pressure: Pressure::OnLip { most_bar: 0.3 },
        listed: Listed {
            genera: &[],
            kind: None,
            word_before_size: Some("OIL SEAL"),
            is_size_told: true,
            has_two_numbers: false,
        },
    },

    bench: Bench {
        share: Some(0.12),
        measured: Measured::LipAndCase,
        reach: Reach {
            inner: Spans {
                own: span(2_500, 50),
                ..Spans::FAR_BELOW
            },
            shaft: Spans {
                own: span(350, 400),
                ..Spans::FAR_BELOW
            },
            free_lip: Spans::FAR_BELOW,
            width: CASE,
            other: CASE,
        },
        words: Words::OF_SEATED_RING,
        unsound: Unsound::OF_RINGS,
        notes: Notes {
            room_left: RoomLeft::Seated(
                "press the seal in flush with the face or against a shoulder, square to the shaft; it takes no spacer",
            ),
            closed_width: ClosedWidth::OfTable,
            is_larger_split: false,
            when_worn: Some(
                "read a lip seal's size from shaft and housing: a worn lip and a pressed case measure wrong",
            ),
        },
        told: Told {
            has_steep_series: false,
            has_sleeves: false,
            twin: None,
        },
    },

    asked: Asked {
        standards: &["3760", "3761", "6194", "b2402"],
        standard_says: &[],
        elements: &[],
        way: Some(Way::Across),
        words: &["oil", "rotary", "wellendichtring"],
        loose_words: &[],
        also_called: &[],
        short: Some(Short {
            rank: 5,
            of_each: &[&[
                "lip",
                "wellendichtring",
                "radialwellendichtring",
                "wdr",
                "lèvre",
                "lèvres",
                "rotary seal",
                "shaft seal",
            ]],
            may_be_load: false,
        }),
        seat_words: &[],
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::LipShaft,
        in_form: InForm::usual("oil seal"),
    },
};

/// Case and bore, whose bands are tenths of a millimetre apart.
const CASE: Spans = Spans {
    own: span(700, 400),
    ..Spans::COARSE
};
