//! Hours that really pass between two readings of a shop's clock, by the IANA time zone database.

use chrono::{Duration, NaiveDateTime};
use proptest::prelude::*;
use sparewright::record::{TimeZone, read_moment};

fn zone(name: &str) -> TimeZone {
    name.parse().unwrap()
}

fn at(text: &str) -> NaiveDateTime {
    read_moment(text).unwrap()
}

#[test]
fn nights_of_a_change_are_shorter_or_longer_by_its_step() {
    // Directive 2000/84/EC: last Sundays of March and October. Energy Policy Act of 2005 (USA): second Sunday of March, first
    // of November. Australia: first Sundays of October and April, Lord Howe by half an hour. Zones without a change: none.
    for (name, from, until, minutes) in [
        (
            "Europe/Berlin",
            "2026-03-28T22:00",
            "2026-03-29T06:00",
            7 * 60,
        ),
        (
            "Europe/Berlin",
            "2026-10-24T22:00",
            "2026-10-25T06:00",
            9 * 60,
        ),
        (
            "Europe/Berlin",
            "2026-03-29T06:00",
            "2026-03-29T22:00",
            16 * 60,
        ),
        (
            "Europe/London",
            "2026-03-28T22:00",
            "2026-03-29T06:00",
            7 * 60,
        ),
        (
            "Europe/London",
            "2026-10-24T22:00",
            "2026-10-25T06:00",
            9 * 60,
        ),
        (
            "Europe/Lisbon",
            "2026-03-29T00:00",
            "2026-03-30T00:00",
            23 * 60,
        ),
        (
            "Europe/Warsaw",
            "2026-10-25T00:00",
            "2026-10-26T00:00",
            25 * 60,
        ),
        (
            "America/New_York",
            "2026-03-07T22:00",
            "2026-03-08T06:00",
            7 * 60,
        ),
        (
            "America/New_York",
            "2026-10-31T22:00",
            "2026-11-01T06:00",
            9 * 60,
        ),
        (
            "America/New_York",
            "2026-03-28T22:00",
            "2026-03-29T06:00",
            8 * 60,
        ),
        (
            "America/Chicago",
            "2026-03-08T00:00",
            "2026-03-09T00:00",
            23 * 60,
        ),
        (
            "America/Phoenix",
            "2026-03-08T00:00",
            "2026-03-09T00:00",
            24 * 60,
        ),
        (
            "Australia/Sydney",
            "2026-04-05T00:00",
            "2026-04-06T00:00",
            25 * 60,
        ),
        (
            "Australia/Sydney",
            "2026-10-04T00:00",
            "2026-10-05T00:00",
            23 * 60,
        ),
        (
            "Australia/Lord_Howe",
            "2026-04-05T00:00",
            "2026-04-06T00:00",
            24 * 60 + 30,
        ),
        (
            "Asia/Kolkata",
            "2026-03-29T00:00",
            "2026-03-30T00:00",
            24 * 60,
        ),
        ("UTC", "2026-03-29T00:00", "2026-03-30T00:00", 24 * 60),
        // A summer is as long as its calendar says.
        (
            "Europe/Berlin",
            "2026-03-30T00:00",
            "2026-10-24T00:00",
            208 * 24 * 60,
        ),
        (
            "Europe/Berlin",
            "2026-01-01T00:00",
            "2027-01-01T00:00",
            365 * 24 * 60,
        ),
        // Samoa left 30 December 2011 out.
        (
            "Pacific/Apia",
            "2011-12-29T12:00",
            "2011-12-31T12:00",
            24 * 60,
        ),
    ] {
        let (from, until) = (at(from), at(until));
        let seconds = zone(name).seconds_between(from, until);
        assert_eq!(seconds, minutes * 60, "{name}: {from} to {until}");
        assert_eq!(
            zone(name).seconds_between(until, from),
            -seconds,
            "{name}, the other way"
        );
    }
}

#[test]
fn readings_that_are_skipped_or_shown_twice_have_one_moment() {
    let berlin = zone("Europe/Berlin");
    for (from, seconds, until) in [
        ("2026-03-29T01:59", 60, "2026-03-29T03:00"),
        ("2026-03-29T01:30", 3_600, "2026-03-29T03:30"),
        ("2026-03-28T01:30", 86_400, "2026-03-29T01:30"),
        ("2026-03-28T02:30", 86_400, "2026-03-29T03:30"),
        ("2026-10-25T01:30", 3_600, "2026-10-25T02:30"),
        ("2026-10-25T01:30", 7_200, "2026-10-25T02:30"),
        ("2026-10-25T01:30", 10_800, "2026-10-25T03:30"),
        ("2026-06-01T08:00", -3_600, "2026-06-01T07:00"),
        ("2026-06-01T08:00", 0, "2026-06-01T08:00"),
    ] {
        assert_eq!(
            berlin.after(at(from), seconds),
            at(until),
            "{from} and {seconds} s"
        );
    }
    // Half past two in spring is half an hour past the step; half past two in autumn is the first of the two.
    assert_eq!(
        berlin.seconds_between(at("2026-03-29T01:00"), at("2026-03-29T02:30")),
        90 * 60
    );
    assert_eq!(
        berlin.seconds_between(at("2026-10-25T01:00"), at("2026-10-25T02:30")),
        90 * 60
    );
    assert_eq!(
        berlin.seconds_between(at("2026-10-25T01:00"), at("2026-10-25T03:00")),
        180 * 60
    );
}

#[test]
fn zones_go_by_the_names_of_the_database() {
    for name in [
        "Europe/Berlin",
        "Europe/Paris",
        "America/Sao_Paulo",
        "Asia/Tokyo",
        "UTC",
        " Europe/Madrid ",
    ] {
        assert!(name.parse::<TimeZone>().is_ok(), "{name}");
    }
    for name in [
        "",
        "Berlin",
        "europe/berlin!",
        "CEST",
        "Europe/Berln",
        "+01:00",
        "GMT plus 1",
    ] {
        let error = name.parse::<TimeZone>().unwrap_err().to_string();
        assert_eq!(
            error,
            format!(
                "`{name}` is not a time zone; expected a name of the IANA database such as `Europe/Berlin` or `America/Chicago`"
            )
        );
    }
}

proptest! {
    /// So many seconds after a reading are so many seconds from it, unless the clock shows that reading twice.
    #[test]
    fn after_and_between_turn_back(
        minutes in 0_i64..2_600_000,
        seconds in 0_i64..4_000_000,
        name in prop::sample::select(vec!["Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Asia/Kolkata"]),
    ) {
        let zone = zone(name);
        let from = at("2024-01-01") + Duration::minutes(minutes);
        let until = zone.after(from, seconds);
        let between = zone.seconds_between(from, until);
        // The second showing of an hour is counted as the first.
        prop_assert!(between == seconds || (0..=3_600).contains(&(seconds - between)), "{name} {from} {until}: {between} {seconds}");
        prop_assert!(zone.after(from, seconds + 60) >= until || zone.seconds_between(until, zone.after(from, seconds + 60)) <= 60);
    }

    /// Stretches add up, whatever lies between.
    #[test]
    fn stretches_add_up(a in 0_i64..1_000_000, b in 0_i64..1_000_000, c in 0_i64..1_000_000) {
        let zone = zone("Europe/Berlin");
        let [a, b, c] = [a, b, c].map(|minutes| at("2025-06-01") + Duration::minutes(minutes));
        prop_assert_eq!(
            zone.seconds_between(a, b) + zone.seconds_between(b, c),
            zone.seconds_between(a, c)
        );
    }
}
