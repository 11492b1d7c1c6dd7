//! Look-up at the bench: figures or a number in, the part, the reasons and the next question out.
//!
//! The page works without scripting: the form is sent and the answer comes with the page. With scripting the answer
//! alone is fetched while typing.

use axum::Extension;
use axum::extract::{Query, State};
use axum::http::header::CONTENT_DISPOSITION;
use axum::response::{Html, IntoResponse, Response};
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, Failure, current};
use crate::caution;
use crate::interchange::Verdict;
use crate::lookup::{
    Answer, Answers, Question, QuestionError, Reading, StockLine, WorkedOut, answer, certainty,
    percent,
};
use crate::report::PAGE_STYLE;
use crate::web::access::Role;
use crate::web::route::Serving;

/// Refused parts shown; more are counted.
const REFUSED_SHOWN: usize = 6;
/// Types that can be chosen: word as the question takes it.
const TYPES: [&str; 12] = [
    "deep groove",
    "angular contact",
    "cylindrical roller",
    "tapered roller",
    "spherical roller",
    "needle roller",
    "thrust ball",
    "oil seal",
    "o-ring",
    "external circlip",
    "internal circlip",
    "dowel pin",
];

/// What the form sends.
#[derive(Debug, Default, Clone, Deserialize)]
#[serde(default)]
pub(in crate::web) struct Asked {
    /// Free words: a number, a size, anything.
    q: String,
    /// Measured figures.
    bore: String,
    od: String,
    width: String,
    /// A type of [`TYPES`], or empty.
    kind: String,
    /// `mm`, `in`, or empty.
    unit: String,
    /// `rule`, `calliper`, `micrometer`, or empty.
    tool: String,
    /// Any text where the part is worn.
    worn: String,
}

impl Asked {
    /// The question as a person would write it at the command line; empty where nothing was asked.
    fn words(&self) -> String {
        let unit = match self.unit.as_str() {
            "in" => " in",
            "mm" => " mm",
            _ => "",
        };
        let mut words: Vec<String> = vec![self.q.trim().to_owned()];
        for (role, figure) in [
            ("bore", &self.bore),
            ("od", &self.od),
            ("width", &self.width),
        ] {
            let figure = figure.trim();
            if !figure.is_empty() {
                words.push(format!("{role} {figure}{unit}"));
            }
        }
        if words.iter().all(String::is_empty) {
            return String::new();
        }
        words.push(self.kind.trim().to_owned());
        words.push(self.tool.trim().to_owned());
        if !self.worn.is_empty() {
            words.push("worn".to_owned());
        }
        words.retain(|word| !word.is_empty());
        words.join(" ")
    }
}

/// The page with the form, and the answer where something was asked.
pub(in crate::web) async fn page(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
    Query(asked): Query<Asked>,
) -> Result<Html<String>, Failure> {
    let answered = answered(&serving, &asked).await?;
    let body = html! {
        h1 { "Which part is it?" }
        (form(&asked))
        div #answer role="region" aria-label="Answer" aria-live="polite" { (answered) }
        p.row.screen-only {
            button type="button" #print hidden { "Print this answer" }
            a #keep href={ "/answer.html" } hidden { "Keep as a file" }
        }
    };
    Ok(frame::page("Look up", role, "/", &body))
}

/// The answer alone, for the script of the page.
pub(in crate::web) async fn answer_only(
    State(serving): State<Serving>,
    Query(asked): Query<Asked>,
) -> Result<Html<String>, Failure> {
    Ok(Html(answered(&serving, &asked).await?.into_string()))
}

/// The answer as one file that needs no network.
pub(in crate::web) async fn to_keep(
    State(serving): State<Serving>,
    Query(asked): Query<Asked>,
) -> Result<Response, Failure> {
    let answered = answered(&serving, &asked).await?;
    let page = html! {
        (maud::DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (asked.words()) }
                style { (maud::PreEscaped(PAGE_STYLE)) }
            }
            body { main { (answered) } }
        }
    };
    let name = [(CONTENT_DISPOSITION, "attachment; filename=\"answer.html\"")];
    Ok((name, Html(page.into_string())).into_response())
}

async fn answered(serving: &Serving, asked: &Asked) -> Result<Markup, Failure> {
    let words = asked.words();
    if words.is_empty() {
        return Ok(
            html! { p.quiet { "Type what is stamped on the part, or what you measured. Half a number will do." } },
        );
    }
    let shop = current(serving).await?;
    let question = match &shop {
        Some(shop) => shop.question(&words),
        None => Question::read(&words),
    };
    let question = match question {
        Ok(question) => question,
        Err(error) => return Ok(not_read(&error)),
    };
    let answers = match &shop {
        Some(shop) => shop.answer(&question),
        None => answer(&question, None),
    };
    Ok(shown(&question, &answers))
}

fn not_read(error: &QuestionError) -> Markup {
    html! { p.none { (error) } }
}

fn form(asked: &Asked) -> Markup {
    let figure = |name: &str, label: &str, value: &str| {
        html! {
            label.figure-in { span { (label) }
                input type="text" inputmode="decimal" name=(name) value=(value) autocomplete="off" enterkeyhint="next";
            }
        }
    };
    html! {
        form #ask method="get" action="/" role="search" {
            label.wide-in { span { "Number or size, as it stands there" }
                input type="search" name="q" value=(asked.q) autocomplete="off" autocapitalize="characters" spellcheck="false"
                    placeholder="6308 2RS C3, 40x80x18, 63?6" enterkeyhint="search";
            }
            fieldset {
                legend { "or what you measured" }
                div.figures {
                    (figure("bore", "Bore", &asked.bore))
                    (figure("od", "Outside", &asked.od))
                    (figure("width", "Width", &asked.width))
                }
                div.figures {
                    label { span { "Unit" } select name="unit" {
                        @for (value, name) in [("", "mm or inch"), ("mm", "mm"), ("in", "inch")] {
                            option value=(value) selected[asked.unit == value] { (name) }
                        }
                    } }
                    label { span { "Type" } select name="kind" {
                        option value="" { "not known" }
                        @for kind in TYPES { option value=(kind) selected[asked.kind == kind] { (kind) } }
                    } }
                    label { span { "Measured with" } select name="tool" {
                        @for (value, name) in [("", "calliper"), ("micrometer", "micrometer"), ("rule", "rule")] {
                            option value=(value) selected[asked.tool == value] { (name) }
                        }
                    } }
                    label.tick { input type="checkbox" name="worn" value="yes" checked[!asked.worn.is_empty()]; span { "worn" } }
                }
            }
            p.row { button type="submit" { "Find" } button type="reset" #clear { "Clear" } }
        }
    }
}

fn shown(question: &Question, answers: &Answers) -> Markup {
    let none = &answers.none_of_these;
    html! {
        h2.asked { (question.text) }
        (read_as(question))
        @if let Some(ask) = &answers.ask_next {
            div.ask { strong { "Look next: " (ask.question) } p { (ask.why) } }
        }
        @for warning in &answers.warnings { p.note-line { (warning) } }
        @for answer in &answers.answers { (card(answer)) }
        @if answers.not_listed > 0 {
            p.note-line { "The shop's tables hold " (answers.not_listed) " more parts of these sizes or near them: say closure, clearance, class or material to see the right ones." }
        }
        (worked_out(&answers.worked_out))
        p.none-of-these { strong { "None of these: " (percent(none.probability)) ", " (certainty(none.probability)) ". " } (none.why) }
        @if !answers.refused.is_empty() {
            details { summary { "Tempting, but not these (" (answers.refused.len()) ")" }
                @for answer in answers.refused.iter().take(REFUSED_SHOWN) { (card(answer)) }
                @if answers.refused.len() > REFUSED_SHOWN { p.quiet { "and " (answers.refused.len() - REFUSED_SHOWN) " more" } }
            }
        }
        section.cautions aria-label="Cautions" { ul.plain { @for caution in caution::FITTING { li { (caution) } } } }
    }
}

/// How the figures were read, millimetres first, and what was not understood.
fn read_as(question: &Question) -> Markup {
    let figures: Vec<String> = question.readings.iter().map(figure_read).collect();
    html! {
        @if !figures.is_empty() { p.quiet { "Read as " (figures.join("; ")) "." } }
        @if !question.not_understood.is_empty() { p.note-line { "Not understood: " (question.not_understood.join(", ")) } }
    }
}

fn figure_read(reading: &Reading) -> String {
    let role = reading
        .role
        .map_or_else(String::new, |role| format!("{} ", role.words()));
    let inches = reading.as_inches.as_ref().map_or_else(String::new, |read| {
        format!(", or {:.3} mm if it was inches", read.length.to_mm())
    });
    format!("{role}{:.3} mm{inches}", reading.length.length.to_mm())
}

/// The checks that the figures allow: seat, groove, lip.
fn worked_out(checks: &[WorkedOut]) -> Markup {
    html! {
        @for check in checks {
            article.card.worked {
                h3 { @match check.check { "seat" => "Seat", "oring" => "Groove", "lip" => "Lip", _ => "Check" }
                    @if !check.of.is_empty() { " of " (check.of) } }
                @for line in &check.says { p { (line) } }
                @for line in &check.against { p.stop-line { (line) } }
            }
        }
    }
}

/// One part: what it is, whether it goes in, where to get it, why, and what to check.
fn card(answer: &Answer) -> Markup {
    let judgement = &answer.judgement;
    let number = answer
        .number
        .as_ref()
        .filter(|number| **number != answer.designation);
    html! {
        article class={ "card " (mark(judgement.verdict).0) } {
            h3 { (answer.designation) @if let Some(number) = number { " " span.quiet { (number) } } }
            p.verdict { span.mark { (mark(judgement.verdict).1) } " " (judgement.verdict) }
            p { @match answer.size { Some(size) => { (size.family()) " " (size) } None => "size unknown" }
                @if let Some(standard) = &answer.standard { ", " (standard) }
                ". " span.quiet { (answer.certainty()) ", " (percent(answer.probability)) } }
            @if !answer.twins.is_empty() { p { "Or " (answer.twins.join(", ")) ": same size, not told apart by what was read." } }
            @if answer.stock.is_empty() && answer.offers.is_empty() { p.quiet { "No stock and no offer known here." } }
            ul.where {
                @for stock in &answer.stock { li { (on_shelf(stock)) } }
                @for offer in &answer.offers { li { (offer) } }
            }
            @if !judgement.differs.is_empty() {
                dl.differs { @for d in &judgement.differs { dt { (d.what) ": " (d.have) " instead of " (d.want) } dd { (d.effect) } } }
            }
            (listed("Unknown", &judgement.unknown))
            (listed("Check first", &judgement.checks))
            (listed("Rework", &judgement.rework))
            (listed("Agrees", &judgement.agrees))
        }
    }
}

fn listed(title: &str, items: &[String]) -> Markup {
    html! {
        @if !items.is_empty() { p.listed { strong { (title) ": " } (items.join("; ")) } }
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
    let free = stock
        .free
        .map_or_else(|| "unknown number".to_owned(), |free| free.to_string());
    let unit = stock
        .unit_of_count
        .as_deref()
        .unwrap_or("(unit not stated)");
    match &stock.bin {
        Some(bin) => format!("On the shelf: {free} {unit} in {bin}"),
        None => format!("On the shelf: {free} {unit}, no bin named"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(pairs: &[(&str, &str)]) -> Asked {
        let mut asked = Asked::default();
        for (name, value) in pairs {
            let value = (*value).to_owned();
            match *name {
                "q" => asked.q = value,
                "bore" => asked.bore = value,
                "od" => asked.od = value,
                "width" => asked.width = value,
                "unit" => asked.unit = value,
                "kind" => asked.kind = value,
                "worn" => asked.worn = value,
                other => panic!("no field {other}"),
            }
        }
        asked
    }

    #[test]
    fn figures_become_the_words_a_person_would_write() {
        assert_eq!(asked(&[]).words(), "");
        assert_eq!(
            asked(&[("kind", "deep groove"), ("worn", "yes")]).words(),
            ""
        );
        assert_eq!(asked(&[("q", " 6308 2RS ")]).words(), "6308 2RS");
        assert_eq!(
            asked(&[
                ("bore", "44,96"),
                ("od", "84.9"),
                ("unit", "mm"),
                ("worn", "yes")
            ])
            .words(),
            "bore 44,96 mm od 84.9 mm worn"
        );
    }
}
