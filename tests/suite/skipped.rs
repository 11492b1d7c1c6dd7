//! Tests that this machine cannot run: each says so where somebody reads it.

use std::io::Write;

/// Says that a test checks nothing for want of a program or a file that `.ci/run` installs, and stops it where
/// `SPAREWRIGHT_ALL_READERS=1` says that all of them are here.
///
/// The line goes to the stream itself: what the print macros write in a passing test, the test harness keeps to itself.
pub fn no_reader(what: &str) {
    let must_be_here = std::env::var("SPAREWRIGHT_ALL_READERS").is_ok_and(|set| set == "1");
    tell_missing(what, must_be_here, &mut std::io::stderr());
}

/// Says that a test checks nothing because of what this machine is, which nothing installs.
#[allow(
    dead_code,
    reason = "the tests of widths, which use this file too, need no more than readers"
)]
pub fn skipped(why: &str) {
    tell(why, &mut std::io::stderr());
}

fn tell_missing(what: &str, must_be_here: bool, to: &mut impl Write) {
    assert!(
        !must_be_here,
        "{what} is not installed, and SPAREWRIGHT_ALL_READERS=1 says that every reader is"
    );
    tell(&format!("{what} is not installed"), to);
}

fn tell(why: &str, to: &mut impl Write) {
    // A closed stream is no reason for a test to fail.
    let _ = writeln!(to, "skipped: {why}");
}

#[test]
fn a_missing_reader_is_told() {
    let mut said = Vec::new();
    tell_missing("xmllint", false, &mut said);
    assert_eq!(said, b"skipped: xmllint is not installed\n");
}

#[test]
#[should_panic(expected = "xmllint is not installed, and SPAREWRIGHT_ALL_READERS=1")]
fn a_reader_that_must_be_here_stops_the_test() {
    tell_missing("xmllint", true, &mut Vec::new());
}
