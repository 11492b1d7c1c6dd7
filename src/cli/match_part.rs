//! `sparewright match`: the answer at the bench, as a table or as JSON.
//!
//! JSON, schema 1: `{"schema", "query": {"text", "family", "lengths_mm"}, "answers": [answer], "refused": [answer],
//! "none_of_these": {"probability", "why"} or null, "ask_next": {"question", "why"} or null, "warnings": [text],
//! "cautions": [text]}`. An answer is `{"designation", "number", "kind", "standard", "dimensions": {"bore_mm", ...},
//! "verdict", "matched", "confidence", "cross_checked", "agrees", "differs": [{"what", "have", "want", "effect",
//! "source"}], "unknown", "checks", "rework", "stock": [{"bin", "free", "unit_of_count"}], "offers": [{"supplier",
//! "unit_price", "currency", "lead_time"}]}`. `confidence` is the letter of the standard row, A to D. Unknown is
//! null, never 0; `probability` is null until the matcher can state one.

use serde_json::{Map, Value, json};

use super::args::{Format, MatchArgs};
use super::exit::ExitCode;
use super::output;
use crate::caution;
use crate::interchange::Envelopes;
use crate::job::Job;
use crate::lookup::{Answer, Answers, Question, answer};

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the command.
pub fn run(args: &MatchArgs) -> ExitCode {
    let question = match Question::read(&args.question.join(" ")) {
        Ok(question) => question,
        Err(error) => {
            output::error(&error, None);
            return ExitCode::Usage;
        }
    };
    let shop = match args
        .shop
        .as_deref()
        .map(|folder| Job::read(folder, None))
        .transpose()
    {
        Ok(job) => job.map(|job| (Envelopes::new(&job.shop.catalogue), job.shop)),
        Err(error) => {
            output::error(
                &error,
                Some("`--shop` takes a folder with the shop's spreadsheets"),
            );
            return ExitCode::Input;
        }
    };
    let answers = answer(
        &question,
        shop.as_ref().map(|(envelopes, shop)| (shop, envelopes)),
    );
    output::result(&match args.format {
        Format::Json => format!("{:#}\n", as_json(&question, &answers)),
        Format::Table => as_text(&question, &answers),
    })
}

fn as_json(question: &Question, answers: &Answers) -> Value {
    let lengths: Vec<f64> = question
        .lengths
        .iter()
        .map(|read| read.length.to_mm())
        .collect();
    json!({
        "schema": SCHEMA,
        "query": {"text": question.text, "family": question.family, "lengths_mm": lengths},
        "answers": answers.answers.iter().map(answer_json).collect::<Vec<_>>(),
        "refused": answers.refused.iter().map(answer_json).collect::<Vec<_>>(),
        "none_of_these": answers.none_of_these.as_ref().map(|why| json!({"probability": null, "why": why})),
        "ask_next": answers.ask_next,
        "warnings": answers.warnings,
        "cautions": caution::FITTING,
    })
}

fn answer_json(answer: &Answer) -> Value {
    let dimensions: Map<String, Value> = answer
        .size
        .iter()
        .flat_map(|size| {
            size.dimensions()
                .map(|(name, length)| (name.field().to_owned(), json!(length.to_mm())))
        })
        .collect();
    let judgement = &answer.judgement;
    json!({
        "designation": answer.designation,
        "number": answer.number,
        "kind": answer.size.map(|size| size.family()),
        "standard": answer.standard,
        "dimensions": dimensions,
        "verdict": judgement.verdict,
        "matched": answer.matched,
        "confidence": answer.confidence,
        "cross_checked": answer.confidence.map(|confidence| confidence.is_cross_checked()),
        "agrees": judgement.agrees,
        "differs": judgement.differs,
        "unknown": judgement.unknown,
        "checks": judgement.checks,
        "rework": judgement.rework,
        "stock": answer.stock,
        "offers": answer.offers,
    })
}

fn as_text(question: &Question, answers: &Answers) -> String {
    let mut text = format!("{}\n\n", question.text);
    if !answers.answers.is_empty() {
        text.push_str(&output::table(
            &[
                "part",
                "size",
                "verdict",
                "why",
                "before fitting",
                "stock",
                "offers",
            ],
            rows(&answers.answers),
        ));
    }
    if !answers.refused.is_empty() {
        text.push_str("\nNot these:\n");
        text.push_str(&output::table(
            &[
                "part",
                "size",
                "verdict",
                "why",
                "before fitting",
                "stock",
                "offers",
            ],
            rows(&answers.refused),
        ));
    }
    if let Some(why) = &answers.none_of_these {
        text.push_str(&format!("\nMaybe none of these: {why}\n"));
    }
    if let Some(ask) = &answers.ask_next {
        text.push_str(&format!(
            "\nLook next: {}\n  because {}\n",
            ask.question, ask.why
        ));
    }
    for warning in &answers.warnings {
        text.push_str(&format!("\nNote: {warning}\n"));
    }
    text.push('\n');
    for caution in caution::FITTING {
        text.push_str(&format!("Caution: {caution}\n"));
    }
    text
}

fn rows(answers: &[Answer]) -> Vec<Vec<String>> {
    let none = || "-".to_owned();
    answers
        .iter()
        .map(|answer| {
            let judgement = &answer.judgement;
            let part = match &answer.number {
                Some(number) if *number != answer.designation => {
                    format!("{} ({number})", answer.designation)
                }
                _ => answer.designation.clone(),
            };
            let confidence = answer
                .confidence
                .map_or_else(String::new, |letter| format!(" [{letter}]"));
            let size = answer
                .size
                .map_or_else(none, |size| format!("{size}{confidence}"));
            let against = judgement.against();
            let why = if against.is_empty() {
                answer.matched.words().to_owned()
            } else {
                against
            };
            vec![
                part,
                size,
                judgement.verdict.to_string(),
                why,
                judgement.before_fitting(),
                stock(answer),
                offers(answer),
            ]
        })
        .collect()
}

fn stock(answer: &Answer) -> String {
    let lines = answer.stock.iter().map(|stock| {
        let free = stock
            .free
            .map_or_else(|| "unknown".to_owned(), |free| free.to_string());
        let unit = stock.unit_of_count.as_deref().unwrap_or("unit not stated");
        format!(
            "{free} {unit} in {}",
            stock.bin.as_deref().unwrap_or("no bin")
        )
    });
    lines.collect::<Vec<_>>().join("; ")
}

fn offers(answer: &Answer) -> String {
    let lines = answer.offers.iter().map(|offer| {
        let price = match (offer.unit_price, &offer.currency) {
            (Some(price), Some(currency)) => format!("{price:.2} {currency}"),
            _ => "price unknown".to_owned(),
        };
        format!("{}: {price}, {}", offer.supplier, offer.lead_time)
    });
    lines.collect::<Vec<_>>().join("; ")
}
