//! Lead times at their bounds: units, spans, ten years, dates, and texts that could be a week or two.

use proptest::prelude::*;
use sparewright::import::value::{CalendarWeek, LeadTimeError, LeadTimeUnit, read_lead_time};
use sparewright::record::{DateOrder, LeadUnit, QuotedLeadTime};

fn said(text: &str, header: Option<LeadTimeUnit>) -> String {
    read_lead_time(text, header, LeadUnit::Workdays, Some(DateOrder::Dmy))
        .map_or_else(|error| format!("error: {error}"), |read| read.to_string())
}

#[test]
fn ten_years_are_the_longest_lead_time_and_nothing_the_shortest() {
    for (text, expected) in [
        ("0 days", "0 working days"),
        ("0 weeks", "0 days"),
        ("0 h", "0 h"),
        ("3650 days", "3650 working days"),
        (
            "3651 days",
            "error: `3651 days` is out of range; expected a lead time of 0 to 10 years",
        ),
        ("521 weeks", "3647 days"),
        (
            "522 weeks",
            "error: `522 weeks` is out of range; expected a lead time of 0 to 10 years",
        ),
        ("121 months", "3630 days"),
        (
            "122 months",
            "error: `122 months` is out of range; expected a lead time of 0 to 10 years",
        ),
        ("87600 h", "87600 h"),
        (
            "87601 h",
            "error: `87601 h` is out of range; expected a lead time of 0 to 10 years",
        ),
        ("1-3650 days", "1 to 3650 working days"),
        (
            "1-3651 days",
            "error: `1-3651 days` is out of range; expected a lead time of 0 to 10 years",
        ),
        (
            "8-6 days",
            "error: `8-6 days` is out of range; expected a lead time of 0 to 10 years",
        ),
        ("6-6 days", "6 working days"),
        ("0-2 days", "0 to 2 working days"),
    ] {
        assert_eq!(said(text, None), expected, "{text}");
    }
}

#[test]
fn a_bare_figure_takes_the_unit_of_its_header_and_no_other() {
    use LeadTimeUnit as U;
    for (text, unit, expected) in [
        ("6", U::Hours, "6 h"),
        ("6", U::Days, "6 working days"),
        ("6", U::Workdays, "6 working days"),
        ("6", U::CalendarDays, "6 days"),
        ("6", U::Weeks, "42 days"),
        ("6", U::Months, "180 days"),
        ("6-8", U::Weeks, "42 to 56 days"),
        ("6 - 8", U::Months, "180 to 240 days"),
        ("1,5", U::Weeks, "10.5 days"),
        ("0", U::Weeks, "0 days"),
        ("6 h", U::Weeks, "6 h"),
        ("6 weeks", U::Hours, "42 days"),
        ("in stock", U::Weeks, "in stock"),
        ("on request", U::Weeks, "on request"),
    ] {
        assert_eq!(said(text, Some(unit)), expected, "{text} under {unit:?}");
    }
    for text in ["6", "6-8", "1,5", "0"] {
        let error = read_lead_time(text, None, LeadUnit::Days, None).unwrap_err();
        assert_eq!(
            error.to_string(),
            format!(
                "`{text}` has no unit, and its header names none; expected days, working days, weeks or hours"
            )
        );
    }
    for text in ["-6", "(6)", "6-"] {
        let read = read_lead_time(text, Some(U::Weeks), LeadUnit::Days, None);
        assert!(
            matches!(read, Err(LeadTimeError::OutOfRange { .. })),
            "{text}: {read:?}"
        );
    }
}

#[test]
fn units_are_known_in_seven_languages_and_other_words_name_none() {
    use LeadTimeUnit as U;
    for (unit, words) in [
        (
            Some(U::Hours),
            &[
                "h", "hr", "hrs", "hour", "hours", "std", "stunden", "heures", "horas", "ore",
                "godzin",
            ][..],
        ),
        (
            Some(U::Days),
            &[
                "d", "day", "days", "tag", "tage", "jours", "j", "dias", "días", "giorni", "gg",
                "dni",
            ],
        ),
        (
            Some(U::Workdays),
            &[
                "wd",
                "workdays",
                "at",
                "arbeitstage",
                "werktage",
                "habiles",
                "lavorativi",
                "roboczych",
                "ouvrables",
                "úteis",
            ],
        ),
        (
            Some(U::Weeks),
            &[
                "w",
                "wk",
                "wks",
                "week",
                "weeks",
                "wo",
                "wochen",
                "sem",
                "semaines",
                "semanas",
                "settimane",
                "tyg",
            ],
        ),
        (
            Some(U::Months),
            &[
                "month", "months", "monate", "mois", "meses", "mesi", "miesiecy",
            ],
        ),
        (
            None,
            &[
                "",
                "year",
                "years",
                "min",
                "minutes",
                "fortnight",
                "quarter",
                "kw",
                "pcs",
                "m",
                "s",
            ],
        ),
    ] {
        for word in words {
            assert_eq!(LeadTimeUnit::of_word(word), unit, "{word}");
        }
    }
}

#[test]
fn a_promised_day_is_a_day_and_a_doubtful_one_is_refused() {
    for (text, expected) in [
        ("15.04.2026", "by 2026-04-15"),
        ("by 15.04.2026", "by 2026-04-15"),
        ("ab 15.04.2026", "by 2026-04-15"),
        ("bis 15. April 2026", "by 2026-04-15"),
        ("from 15 April 2026", "by 2026-04-15"),
        ("le 15 avril 2026", "by 2026-04-15"),
        ("il 15 aprile 2026", "by 2026-04-15"),
        ("do 15.04.2026", "by 2026-04-15"),
        ("ETA 2026-04-15", "by 2026-04-15"),
        ("03/04/2026", "by 2026-04-03"),
        ("15.04.2026 07:30", "by 2026-04-15"),
    ] {
        assert_eq!(said(text, None), expected, "{text}");
    }
    for text in [
        "30.02.2026",
        "before 15.04.2026",
        "15.04.",
        "April",
        "mid April 2026",
        "15.04.2026 or 20.04.2026",
    ] {
        assert!(
            said(text, None).starts_with("error: "),
            "{text}: {}",
            said(text, None)
        );
    }
    // Where a column holds dates of both orders, one that could be two days is none.
    let doubtful = read_lead_time("03/04/2026", None, LeadUnit::Days, None);
    assert!(doubtful.is_err(), "{doubtful:?}");
}

#[test]
fn two_spans_two_units_and_a_qualified_figure_are_refused() {
    for text in [
        "6 weeks 2 days",
        "6 weeks or 8 weeks",
        "2-3-4 weeks",
        "2 to 3 to 4 weeks",
        "6 weeks days",
        "6 days weeks",
        "> 6 weeks",
        "< 6 weeks",
        "min 6 weeks",
        "max. 6 weeks",
        "6+ weeks",
        "6x weeks",
        "six weeks",
        "6 weeks + 2",
        "-6 weeks",
        "−6 weeks",
        "1.500 weeks",
        "1e2 days",
        "6 years",
        "0.5.1 weeks",
    ] {
        assert!(
            said(text, Some(LeadTimeUnit::Days)).starts_with("error: "),
            "{text}: {}",
            said(text, None)
        );
    }
}

#[test]
fn a_week_of_the_year_is_no_span_of_weeks() {
    for (text, is_week) in [
        ("KW 14", true),
        ("KW14", true),
        ("week 14", true),
        ("wk 14", true),
        ("Week 14/2026", true),
        ("2026-W14", true),
        ("semaine 14", true),
        ("settimana 14", true),
        ("tydzień 14", true),
        ("KW 53", true),
        ("KW 54", false),
        ("KW 0", false),
        ("KW", false),
        ("14 weeks", false),
        ("14 KW", false),
        ("KW 14/15", false),
        ("KW 14-15", false),
        ("2026-W54", false),
        ("1999-W14", false),
        ("KW 14/26", false),
    ] {
        assert_eq!(CalendarWeek::read(text).is_some(), is_week, "{text}");
        if is_week {
            let span = read_lead_time(text, None, LeadUnit::Days, None);
            assert!(span.is_err(), "{text} is no span: {span:?}");
        }
    }
}

/// The days of a span on the calendar.
fn days(text: &str) -> Option<(f64, f64)> {
    match read_lead_time(text, None, LeadUnit::Days, None) {
        Ok(QuotedLeadTime::Span {
            least,
            most,
            unit: LeadUnit::Days,
        }) => Some((least, most)),
        _ => None,
    }
}

proptest! {
    /// Weeks and months are so many days, as a figure and as a span.
    #[test]
    fn weeks_and_months_are_days(least in 0_u32..60, more in 0_u32..60) {
        let most = least + more;
        prop_assert_eq!(days(&format!("{least}-{most} weeks")), days(&format!("{}-{} days", least * 7, most * 7)));
        prop_assert_eq!(days(&format!("{least} Wochen")), Some((f64::from(least * 7), f64::from(least * 7))));
        prop_assert_eq!(days(&format!("{least} bis {most} Monate")), Some((f64::from(least * 30), f64::from(most * 30))));
    }

    /// What is printed of a lead time reads back as itself.
    #[test]
    fn a_lead_time_reads_back_as_it_prints(least in 0_u32..400, more in 0_u32..400, unit in 0_usize..3) {
        let unit = [LeadUnit::Hours, LeadUnit::Workdays, LeadUnit::Days][unit];
        let span = QuotedLeadTime::Span { least: f64::from(least), most: f64::from(least + more), unit };
        let read = read_lead_time(&span.to_string(), None, LeadUnit::Days, None);
        prop_assert_eq!(read.ok(), Some(span), "{}", span);
    }

    /// A longer figure in the same unit is never the shorter lead time.
    #[test]
    fn lead_times_rise_with_their_figure(a in 0_u32..500, b in 0_u32..500, unit in prop::sample::select(vec!["days", "weeks", "Tage", "semaines", "dni"])) {
        if let (Some(one), Some(other)) = (days(&format!("{a} {unit}")), days(&format!("{b} {unit}"))) {
            prop_assert_eq!(one.1.total_cmp(&other.1), a.cmp(&b));
        }
    }
}
