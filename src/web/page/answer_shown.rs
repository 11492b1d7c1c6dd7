//! How an answer is shown: what was read, what to look at next, a card for each part, the checks, the cautions.

use chrono::NaiveDate;
use maud::{Markup, html};

use super::frame::and_more;
use crate::caution;
use crate::interchange::Verdict;
use crate::lookup::{
    Answer, Answers, Matched, OfferLine, Question, Reading, StockLine, WorkedOut, certainty,
    percent,
};
use crate::report::model::grouped;
use crate::report::unbroken;
use crate::units::UnitOfCount;
use crate::web::language::{number, say};

/// Refused parts shown; more are counted.
const REFUSED_SHOWN: usize = 6;
/// A figure is like a dimension within this share of it, or this much: wear, a free lip, an instrument.
const NEAR_SHARE: f64 = 0.06;
const NEAR_MM: f64 = 1.0;

/// The whole answer to what was `asked`, with offers looked at on a day.
pub(super) fn shown(asked: &str, question: &Question, answers: &Answers, on: NaiveDate) -> Markup {
    let none = &answers.none_of_these;
    html! {
        h2.asked { (asked) }
        (read_as(question, &answers.answers))
        @if let Some(ask) = &answers.ask_next {
            div.ask { strong { (say("Look next")) ": " (say(&ask.question)) } p { (say(&ask.why)) } }
        }
        @for warning in &answers.warnings { p.note-line { (say(warning)) } }
        @for answer in &answers.answers { (card(answer, on)) }
        @if answers.not_listed > 0 {
            p.note-line { (say(&format!("The shop's tables hold {} more parts of these sizes or near them: say closure, clearance, class or material to see the right ones.", answers.not_listed))) }
        }
        (worked_out(&answers.worked_out))
        p.none-of-these { strong { (say("None of these")) ": " (say(&percent(none.probability))) ", " (say(certainty(none.probability))) ". " } (say(&none.why)) }
        @if !answers.refused.is_empty() {
            details { summary { (say(&format!("Tempting, but not these ({})", answers.refused.len()))) }
                @for answer in answers.refused.iter().take(REFUSED_SHOWN) { (card(answer, on)) }
                @if answers.refused.len() > REFUSED_SHOWN { p.quiet { (and_more(answers.refused.len() - REFUSED_SHOWN)) } }
            }
        }
        section.cautions aria-label=(say("Cautions")) { ul.plain { @for caution in caution::FITTING { li { (say(caution)) } } } }
    }
}

/// How the figures were read, millimetres first, and what was not understood.
fn read_as(question: &Question, answers: &[Answer]) -> Markup {
    let readings = question.readings.iter();
    let figures: Vec<String> = readings.map(|of| figure_read(of, answers)).collect();
    let untold = question.untold();
    html! {
        @if !figures.is_empty() { p.quiet { (say("Read as")) " " (figures.join("; ")) "." } }
        @if !untold.is_empty() { p.note-line { (say("Not understood")) ": " (untold.join(", ")) } }
    }
}

/// A figure as it was read; the reading in inches only where one of the answers has a size like it.
fn figure_read(reading: &Reading, answers: &[Answer]) -> String {
    let is_used = |read_mm: f64| {
        let sizes = answers.iter().filter_map(|answer| answer.size);
        let is_like = |of_mm: f64| (of_mm - read_mm).abs() <= NEAR_MM.max(NEAR_SHARE * of_mm);
        sizes
            .into_iter()
            .any(|size| size.dimensions().any(|(_, of)| is_like(of.to_mm())))
    };
    let role = reading
        .role
        .map_or_else(String::new, |role| format!("{} ", say(role.words())));
    let written_mm = reading.length.length.to_mm();
    let in_mm = |length_mm: f64| format!("{} mm", number(&format!("{length_mm:.3}")));
    let as_inches = reading.as_inches.as_ref().map(|read| read.length.to_mm());
    match as_inches.filter(|inches_mm| is_used(*inches_mm)) {
        Some(inches_mm) if is_used(written_mm) => format!(
            "{role}{}, {} {} {}",
            in_mm(written_mm),
            say("or"),
            in_mm(inches_mm),
            say("if it was inches")
        ),
        Some(inches_mm) => format!("{role}{} ({})", in_mm(inches_mm), say("read as inches")),
        None => format!("{role}{}", in_mm(written_mm)),
    }
}

/// The checks that the figures allow: seat, groove, lip.
fn worked_out(checks: &[WorkedOut]) -> Markup {
    html! {
        @for check in checks {
            article.card.worked {
                h3 { (say(match check.check { "seat" => "Seat", "oring" => "Groove", "lip" => "Lip", _ => "Check" }))
                    @if !check.of.is_empty() { " " (say("of")) " " (check.of) } }
                @for line in &check.says { p { (say(line)) } }
                @for line in &check.against { p.stop-line { (say(line)) } }
            }
        }
    }
}

/// One part: what it is, whether it goes in, where to get it, why, and what to check.
fn card(answer: &Answer, on: NaiveDate) -> Markup {
    let judgement = &answer.judgement;
    let number = answer
        .number
        .as_ref()
        .filter(|number| **number != answer.designation);
    let (class, sign) = mark(judgement.verdict);
    html! {
        article class={ "card " (class) } {
            h3 { (answer.designation) @if let Some(number) = number { " " span.quiet { (number) } } }
            p.verdict { span.mark { (say(sign)) } " " (say(&judgement.verdict.to_string())) }
            (what_it_is(answer))
            @if !answer.twins.is_empty() { p { (say("Or")) " " (answer.twins.join(", ")) ": " (say("same size, not told apart by what was read")) "." } }
            @if answer.stock.is_empty() && answer.offers.is_empty() { p.quiet { (say("No stock and no offer known here.")) } }
            ul.where {
                @for (stock, has_expired) in last_those_past(&answer.stock, on) {
                    li class=[has_expired.then_some("ended")] { (unbroken(&on_shelf(stock))) @if let Some(said) = stock.last_day_in_words(on) { ", " (say(&said)) } }
                }
                @for (offer, has_ended) in last_those_that_ended(&answer.offers, on) {
                    li class=[has_ended.then_some("ended")] { (unbroken(&offer.said(say))) @if has_ended { ", " strong { (say("no longer valid")) } } }
                }
            }
            @if !judgement.differs.is_empty() {
                dl.differs { @for d in &judgement.differs {
                    dt { (say(d.what)) ": " (say(&d.have)) " " (say("instead of")) " " (say(&d.want)) } dd { (say(&d.effect)) } } }
            }
            (listed("Unknown", &judgement.unknown))
            (listed("Check first", &judgement.checks))
            (listed("Rework", &judgement.rework))
            (listed("Agrees", &judgement.agrees))
        }
    }
}

/// Offers in their order, those that have ended behind the others.
fn last_those_that_ended(offers: &[OfferLine], on: NaiveDate) -> Vec<(&OfferLine, bool)> {
    let ended = offers
        .iter()
        .map(|offer| (offer, offer.has_ended(on) == Some(true)));
    let mut offers: Vec<(&OfferLine, bool)> = ended.collect();
    offers.sort_by_key(|(_, has_ended)| *has_ended);
    offers
}

/// Stock in its order, lots past their last day behind the others.
fn last_those_past(stock: &[StockLine], on: NaiveDate) -> Vec<(&StockLine, bool)> {
    let past = stock
        .iter()
        .map(|line| (line, line.has_expired(on) == Some(true)));
    let mut stock: Vec<(&StockLine, bool)> = past.collect();
    stock.sort_by_key(|(_, has_expired)| *has_expired);
    stock
}

/// Type, size, standard, and how sure it is.
fn what_it_is(answer: &Answer) -> Markup {
    let size = answer.size.map_or_else(
        || say("size unknown"),
        |size| {
            format!(
                "{} {}",
                say(size.family().name()),
                number(&size.to_string())
            )
        },
    );
    html! {
        p { (size) @if let Some(standard) = &answer.standard { ", " (say(standard)) }
            ". " span.quiet { (how_sure(answer)) } }
    }
}

fn how_sure(answer: &Answer) -> String {
    if answer.matched == Matched::Neighbour {
        return say(answer.matched.words());
    }
    let share = percent(answer.probability);
    format!("{}, {}", say(answer.certainty()), say(&share))
}

fn listed(title: &str, items: &[String]) -> Markup {
    let items: Vec<String> = items.iter().map(|item| say(item)).collect();
    html! {
        @if !items.is_empty() { p.listed { strong { (say(title)) ": " } (items.join("; ")) } }
    }
}

/// Class and mark of a verdict: a shape and a word, as in the report.
const fn mark(verdict: Verdict) -> (&'static str, &'static str) {
    match verdict {
        Verdict::AsItIs => ("good", "● good"),
        Verdict::AfterChecks | Verdict::WithRework => ("check", "▲ check"),
        _ => ("stop", "■ STOP"),
    }
}

fn on_shelf(stock: &StockLine) -> String {
    let unit = stock.unit_of_count.as_deref();
    let known = unit.and_then(|unit| UnitOfCount::read(unit).ok());
    let free = match (stock.free, known) {
        (Some(free), _) => number(&grouped(free, 0, 3)),
        (None, Some(_)) => say("unknown number of"),
        (None, None) => say("unknown number"),
    };
    // An unknown number is spoken of as several.
    let unit = match known {
        Some(unit) => unit.noun(stock.free.unwrap_or(2.0)),
        None => unit.unwrap_or("(unit not stated)").to_owned(),
    };
    let bin = stock.bin.as_ref().map_or_else(
        || say("no bin named"),
        |bin| format!("{} {bin}", say("bin")),
    );
    format!("{}: {free} {}, {bin}", say("On the shelf"), say(&unit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::answer;

    fn read(text: &str) -> String {
        let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        let answers = answer(&question, None).answers;
        let figures = question.readings.iter();
        let read: Vec<String> = figures.map(|of| figure_read(of, &answers)).collect();
        read.join("; ")
    }

    #[test]
    fn a_reading_is_shown_only_where_an_answer_has_its_size() {
        // ISO 15: 6308 is 40 x 90 x 23 mm; nothing is 1016 mm wide.
        assert_eq!(
            read("40 90 23 deep groove"),
            "40.000 mm; 90.000 mm; 23.000 mm"
        );
        // 6206 is 30 x 62 x 16 mm: 1.181, 2.441 and 0.630 in.
        let inches = read("1.181 2.441 .63");
        assert!(inches.contains("29.997 mm (read as inches)"), "{inches}");
        assert!(inches.contains("16.002 mm (read as inches)"), "{inches}");
        // A unit that is written leaves nothing to choose.
        assert_eq!(
            read("bore 30 mm od 62 mm width 16 mm deep groove"),
            "bore or inside diameter 30.000 mm; outside diameter 62.000 mm; width 16.000 mm"
        );
    }

    #[test]
    fn what_fits_nothing_is_shown_as_it_was_written() {
        let question = Question::read("40 90 23 deep groove").unwrap();
        assert_eq!(figure_read(&question.readings[0], &[]), "40.000 mm");
    }

    #[test]
    fn every_verdict_has_its_mark() {
        for (verdict, class, sign) in [
            (Verdict::AsItIs, "good", "● good"),
            (Verdict::AfterChecks, "check", "▲ check"),
            (Verdict::WithRework, "check", "▲ check"),
            (Verdict::MustNot, "stop", "■ STOP"),
            (Verdict::Near, "stop", "■ STOP"),
        ] {
            assert_eq!(mark(verdict), (class, sign));
        }
    }

    #[test]
    fn stock_says_how_many_of_what_and_where() {
        let line = |free, unit: Option<&str>, bin: Option<&str>| StockLine {
            bin: bin.map(str::to_owned),
            free,
            unit_of_count: unit.map(str::to_owned),
            usable_until: None,
        };
        for (stock, words) in [
            (
                line(Some(1_234.5), Some("pcs"), Some("R-04")),
                "On the shelf: 1,234.5 pieces, bin R-04",
            ),
            (
                line(Some(0.0), Some("pcs"), None),
                "On the shelf: 0 pieces, no bin named",
            ),
            (
                line(None, None, Some("<b>")),
                "On the shelf: unknown number (unit not stated), bin <b>",
            ),
            (
                line(Some(1.0), Some("piece"), Some("R-04")),
                "On the shelf: 1 piece, bin R-04",
            ),
            (
                line(Some(3.0), Some("matched set of 2"), Some("R-04")),
                "On the shelf: 3 matched sets of 2, bin R-04",
            ),
            (
                line(None, Some("pair"), Some("R-04")),
                "On the shelf: unknown number of pairs, bin R-04",
            ),
            (
                line(Some(2.0), Some("armfuls"), None),
                "On the shelf: 2 armfuls, no bin named",
            ),
        ] {
            assert_eq!(on_shelf(&stock), words);
        }
    }

    #[test]
    fn words_of_a_question_stay_words() {
        let question = Question::read("6308 <script>alert(1)</script>").unwrap();
        let on = NaiveDate::from_ymd_opt(2026, 3, 9).unwrap();
        let answers = answer(&question, None);
        let page = shown(&question.text, &question, &answers, on).into_string();
        assert!(!page.contains("<script"), "{page}");
        assert!(page.contains("6308"));
    }
}
