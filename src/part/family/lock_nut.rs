//! Lock nut (ISO 2982, DIN 981).

use super::asked::{Asked, ClassBeside, RingAway};
use super::bench::{
    Bench, ClosedWidth, Measured, Notes, Reach, RoomLeft, Spans, Told, Unsound, Words,
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
    code: "lock_nut",
    name: "lock nut",
    class: PartClass::Fasteners,

    shape: Shape {
        tables: &[table!("lock_nut")],
        key: &[D::ThreadDiameter, D::ThreadPitch],
        ordered: &[(1, 0)],
        outer_place: 0,
        width_place: None,
        is_outer_section: false,
        size_prefix: "M",
        grid_with: Family::LockNut,
        grid_places: [0, 1, 2],
    },

    marks: Marks {
        named_by: NamedBy::Size,
        has_stated_types: false,
        worded_designs: &["stainless"],
        has_seal_forms: false,
        ..Marks::NO_BEARING
    },

    rolling: Rolling {
        is_radial: false,
        static_load: StaticLoad::Unknown,
    },

    teardown: Teardown {
        is_fitted_again: true,
        noted: &["marking", "side up", "tightened to, Nm", "locked by"],
    },

    exchange: Exchange {
        other_width: OtherWidth::Never,
        instead: &[],
        aligns_itself: false,
        along_axis: AlongAxis::Untold,
        floats_on_its_seat: false,
        carries: Carries::Nothing,
        on_shaft: OnShaft::Nothing,
        in_sets: InSets::Alone,
        closed: MadeClosed::Never,
        is_often_tapered: false,
        is_of_elastomer: false,
        pressure: Pressure::Untold,
        listed: Listed {
            genera: &[],
            kind: None,
            word_before_size: None,
            is_size_told: false,
            has_two_numbers: false,
        },
    },

    bench: Bench {
        share: None,
        measured: Measured::Thread,
        reach: Reach::all(Spans::FAR_BELOW),
        words: Words {
            inner: "thread",
            width: "width",
            is_no_ring: true,
        },
        unsound: Unsound::OF_RINGS,
        notes: Notes {
            room_left: RoomLeft::Spacer,
            closed_width: ClosedWidth::OfTable,
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
        standards: &["981", "2982"],
        standard_says: &[],
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
        ring_away: RingAway::Nothing,
        class_beside: ClassBeside::NotLookedAt,
        in_form: None,
    },
};
