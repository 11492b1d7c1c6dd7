//! `sparewright match`: the answer at the bench, as a table or as JSON.
//!
//! JSON, schema 1: `{"schema", "query": {"text", "family", "designation", "lengths_mm", "readings": [{"role", "mm",
//! "mm_if_inches", "instrument", "worn"}], "not_understood"}, "answers": [answer], "refused": [answer], "none_of_these":
//! {"probability", "why"}, "ask_next": {"question", "why", "bits"} or null, "worked_out":
//! [{"of", "check", "values": {name: number or null}, "says", "against"}], "warnings": [text], "cautions": [text]}`. An
//! answer is `{"designation", "twins", "number", "kind", "standard", "dimensions": {"bore_mm", ...}, "verdict", "matched",
//! "probability", "certainty", "confidence", "cross_checked", "agrees", "differs": [{"what", "have", "want", "effect",
//! "source"}], "unknown", "checks", "rework", "stock": [{"bin", "free", "unit_of_count"}], "offers": [{"supplier",
//! "unit_price", "currency", "lead_time"}]}`. `probability` is that of the size the answer was judged against, `certainty`
//! the same in words; `twins` are designations of the same size that nothing read tells apart; `confidence` is the letter
//! of the standard row, A to D. `lengths_mm` are the figures read in the unit written, or in millimetres. `bits` is what the
//! answer to the question is expected to tell. Unknown is null, never 0.

use serde_json::{Map, Value, json};

use super::args::{Format, MatchArgs};
use super::check;
use super::exit::ExitCode;
use super::output;
use crate::caution;
use crate::interchange::Envelopes;
use crate::job::Job;
use crate::lookup::{
    Answer, Answers, OfferLine, Question, Reading, Shelf, StockLine, answer, certainty,
};
use crate::standard::Confidence;

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
        Ok(job) => job.map(|job| {
            let (envelopes, shelf) = (Envelopes::new(&job.shop.catalogue), Shelf::new(&job.shop));
            (envelopes, shelf, job.shop)
        }),
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
        shop.as_ref()
            .map(|(envelopes, shelf, shop)| (shop, envelopes, shelf)),
    );
    output::result(&match args.format {
        Format::Json => format!("{:#}\n", as_json(&question, &answers)),
        Format::Table => as_text(&question, &answers),
    })
}

fn as_json(question: &Question, answers: &Answers) -> Value {
    let readings: Vec<Value> = question.readings.iter().map(reading_json).collect();
    let lengths: Vec<f64> = question
        .readings
        .iter()
        .map(|reading| reading.length.length.to_mm())
        .collect();
    json!({
        "schema": SCHEMA,
        "query": {"text": question.text, "family": question.family, "lengths_mm": lengths, "readings": readings,
            "designation": question.designation.as_ref().map(|designation| &designation.basic), "not_understood": question.not_understood},
        "answers": answers.answers.iter().map(answer_json).collect::<Vec<_>>(),
        "refused": answers.refused.iter().map(answer_json).collect::<Vec<_>>(),
        "none_of_these": answers.none_of_these,
        "ask_next": answers.ask_next,
        "worked_out": answers.worked_out.iter().map(check::worked_json).collect::<Vec<_>>(),
        "warnings": answers.warnings,
        "cautions": caution::FITTING,
    })
}

fn reading_json(reading: &Reading) -> Value {
    json!({
        "role": reading.role,
        "mm": reading.length.length.to_mm(),
        "mm_if_inches": reading.as_inches.map(|read| read.length.to_mm()),
        "instrument": reading.instrument,
        "worn": reading.is_worn,
    })
}

/// A probability for people: never a bare 0 or 100 %.
fn percent(probability: f64) -> String {
    match probability {
        p if p > 0.999 => "over 99.9 %".to_owned(),
        p if p < 0.001 => "under 0.1 %".to_owned(),
        p if !(0.01..0.99).contains(&p) => format!("{:.1} %", p * 100.0),
        p => format!("{:.0} %", p * 100.0),
    }
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
        "twins": answer.twins,
        "probability": (answer.probability * 1e4).round() / 1e4,
        "certainty": answer.certainty(),
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

/// Refused parts shown at the terminal; all of them are in the JSON form.
const REFUSED_SHOWN: usize = 6;

/// One block per part: what it is, the verdict, where to get it, what stands against it, what to do first.
fn as_text(question: &Question, answers: &Answers) -> String {
    let mut text = format!("{}\n", question.text);
    for answer in &answers.answers {
        text.push_str(&block(answer));
    }
    if !answers.refused.is_empty() {
        text.push_str("\nNot these:\n");
        answers
            .refused
            .iter()
            .take(REFUSED_SHOWN)
            .for_each(|answer| text.push_str(&block(answer)));
        if let Some(more) = answers
            .refused
            .len()
            .checked_sub(REFUSED_SHOWN)
            .filter(|more| *more > 0)
        {
            text.push_str(&format!("\n  and {more} more, see --format json\n"));
        }
    }
    let none = &answers.none_of_these;
    text.push_str(&output::wrapped(
        "\nNone of these: ",
        &format!(
            "{} ({}): {}",
            percent(none.probability),
            certainty(none.probability),
            none.why
        ),
    ));
    if let Some(ask) = &answers.ask_next {
        text.push_str(&format!(
            "\nLook next: {}\n  because {}\n",
            ask.question, ask.why
        ));
    }
    for worked in &answers.worked_out {
        text.push_str(&check::worked_text(worked));
    }
    for warning in &answers.warnings {
        text.push_str(&format!("\nNote: {warning}\n"));
    }
    text.push('\n');
    for caution in caution::FITTING {
        text.push_str(&output::wrapped("Caution: ", caution));
    }
    text
}

fn block(answer: &Answer) -> String {
    let is_right_size = answer
        .judgement
        .differs
        .iter()
        .all(|d| !matches!(d.what, "size" | "width"));
    let judgement = &answer.judgement;
    let number = answer
        .number
        .as_ref()
        .filter(|number| **number != answer.designation);
    let number = number.map_or_else(String::new, |number| format!(" ({number})"));
    let mut text = format!(
        "\n  {}{number}: {}\n",
        answer.designation, judgement.verdict
    );
    let mut line = |label: &str, words: &str| {
        if !words.is_empty() {
            text.push_str(&output::wrapped(&format!("    {label:<8}"), words));
        }
    };
    let size = answer.size.map_or_else(
        || "unknown".to_owned(),
        |size| format!("{} {size}", size.family()),
    );
    let standard = answer
        .standard
        .as_ref()
        .map_or_else(String::new, |standard| format!(", {standard}"));
    let checked = answer
        .confidence
        .map_or_else(String::new, |letter| format!(", {}", confidence(letter)));
    let matched = if is_right_size {
        format!("; {}", answer.matched.words())
    } else {
        String::new()
    };
    line("size", &format!("{size}{standard}{checked}{matched}"));
    if !answer.twins.is_empty() {
        line(
            "or",
            &format!(
                "{}: same size, not told apart by what was read",
                answer.twins.join(", ")
            ),
        );
    }
    if is_right_size {
        line(
            "sure",
            &format!("{}, {}", answer.certainty(), percent(answer.probability)),
        );
    }
    answer.stock.iter().for_each(|of| line("stock", &stock(of)));
    answer
        .offers
        .iter()
        .for_each(|of| line("offer", &offer(of)));
    judgement.differs.iter().for_each(|d| {
        line(
            "but",
            &format!("{}: {} instead of {}; {}", d.what, d.have, d.want, d.effect),
        )
    });
    line("unknown", &judgement.unknown.join("; "));
    line("first", &judgement.before_fitting());
    text
}

/// How far the size was cross-checked, in words.
const fn confidence(letter: Confidence) -> &'static str {
    match letter {
        Confidence::A => "three or more open sources agree (A)",
        Confidence::B => "two open sources agree (B)",
        Confidence::C => "one open source (C)",
        Confidence::D => "from memory, not cross-checked (D)",
    }
}

fn stock(stock: &StockLine) -> String {
    let free = stock
        .free
        .map_or_else(|| "unknown number of".to_owned(), |free| free.to_string());
    let unit = stock
        .unit_of_count
        .as_deref()
        .unwrap_or("(unit not stated)");
    format!(
        "{free} {unit} in {}",
        stock.bin.as_deref().unwrap_or("no bin")
    )
}

fn offer(offer: &OfferLine) -> String {
    let price = match (offer.unit_price, &offer.currency) {
        (Some(price), Some(currency)) => format!("{price:.2} {currency}"),
        _ => "price unknown".to_owned(),
    };
    format!("{}: {price}, lead time {}", offer.supplier, offer.lead_time)
}
