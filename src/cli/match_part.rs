//! `sparewright match`: the answer at the bench, as a table or as JSON.
//!
//! JSON, schema 1: `{"schema", "as_of", "query": {"text", "family", "designation", "lengths_mm", "readings": [{"role", "mm",
//! "mm_if_inches", "instrument", "worn"}], "fit_classes": [class of the seats], "groove": {"floor_mm", "depth_mm",
//! "width_mm", "duty"} or null, "not_understood"}, "answers": [answer], "refused": [answer], "not_listed",
//! "none_of_these": {"probability", "why"}, "ask_next": {"question", "why", "bits"} or null, "worked_out":
//! [{"of", "check", "values": {name: number or null}, "says", "against"}], "warnings": [text], "cautions": [text]}`. An
//! answer is `{"designation", "twins", "number", "kind", "standard", "dimensions": {"bore_mm", ...}, "verdict", "matched",
//! "probability", "certainty", "confidence", "cross_checked", "agrees", "differs": [{"what", "have", "want", "effect",
//! "source"}], "unknown", "checks", "rework", "stock": [{"bin", "free", "unit_of_count",
//! "usable_until", "has_expired"}], "offers": [{"supplier",
//! "supplier_number", "unit_price", "currency", "breaks": [{"from_quantity", "unit_price"}], "minimum_quantity", "pack_quantity", "lead_time", "quote_date",
//! "age_days", "valid_until", "has_ended", "condition", "is_approved"}]}`. `probability` is that of the size the answer
//! was judged against, `certainty` the same in words; both and `matched` are null for a part found by the shop's own name,
//! of which no size is known. Age and end of an offer are as of `as_of`, and offers that have ended, and lots past their last day, come last; `twins` are designations of the same size that nothing read tells apart; `confidence` is the letter
//! of the standard row, A to D. `lengths_mm` are the figures read in the unit written, or in millimetres. `bits` is what the
//! answer to the question is expected to tell. `not_listed` counts parts of the shop that are of these sizes or near them and
//! not among the answers, because there are so many. `duty` is static_radial, static_face or reciprocating; without one the
//! ring is taken to be at rest between bore and rod. Unknown is null, never 0.

use chrono::NaiveDate;
use serde_json::{Map, Value, json};

use super::args::{Format, MatchArgs};
use super::check;
use super::exit::ExitCode;
use super::output::{self, fail};
use super::progress::under_a_bar;
use super::refusal::{self, Refusal};
use crate::catalogue::card_index::{self, CARDS, CardIndex, Opened};
use crate::caution;
use crate::job::{Job, now, stated_day};
use crate::language::Translator;
use crate::limit::Duty;
use crate::lookup::{
    Answer, Answers, Groove, OfferLine, Question, QuestionError, Reading, StockLine, answer,
    certainty, percent,
};
use crate::standard::Confidence;
use crate::store::{StoreError, Workspace};
use crate::units::UnitOfCount;

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the command.
pub fn run(args: &MatchArgs) -> ExitCode {
    let text = args.question.join(" ");
    let mut parts = match Parts::of(args) {
        Ok(parts) => parts,
        Err(code) => return code,
    };
    let mut asked = ask(&text, parts.index());
    // Damage in the middle of the file shows only when it is read; then the answer is void.
    match parts.mend() {
        Ok(true) => asked = ask(&text, parts.index()),
        Ok(false) => {}
        Err(error) => return fail(&error),
    }
    let (question, mut answers) = match asked {
        Ok(asked) => asked,
        Err(error) => {
            Refusal::of(&error).tell();
            return ExitCode::Usage;
        }
    };
    let as_of = parts.as_of();
    let all = answers.answers.iter_mut().chain(&mut answers.refused);
    all.for_each(|answer| {
        let has_ended = |offer: &OfferLine| offer.has_ended(as_of) == Some(true);
        answer.offers.sort_by_key(has_ended);
        let has_expired = |stock: &StockLine| stock.has_expired(as_of) == Some(true);
        answer.stock.sort_by_key(has_expired);
    });
    output::result(&match args.format {
        Format::Json => format!("{:#}\n", as_json(&question, &answers, as_of)),
        Format::Table => {
            let words = &mut Translator::new(args.language.unwrap_or_default());
            as_text(&question, &answers, as_of, words)
        }
    })
}

fn ask(text: &str, index: Option<&CardIndex>) -> Result<(Question, Answers), QuestionError> {
    let question = Question::read_in(text, index)?;
    let answers = answer(&question, index);
    Ok((question, answers))
}

/// Whose parts are looked at besides the standard tables.
enum Parts {
    Nobody,
    /// The shop of a folder, as of the day its settings give.
    Shop(CardIndex, NaiveDate),
    Workspace(Workspace, CardIndex),
}

impl Parts {
    fn of(args: &MatchArgs) -> Result<Self, ExitCode> {
        if let Some(folder) = &args.workspace {
            let opened = Workspace::open(folder).and_then(|workspace| {
                let opened = card_index::open(&workspace)?;
                Ok((workspace, opened))
            });
            let (workspace, opened) = opened.map_err(|error| fail(&error))?;
            return Ok(Self::Workspace(workspace, told(opened)));
        }
        let Some(folder) = &args.shop else {
            return Ok(Self::Nobody);
        };
        match under_a_bar("Reading the shop", || Job::read(folder, None)) {
            Ok(job) => Ok(Self::Shop(
                CardIndex::of_shop(&job.shop),
                job.shop.as_of.date(),
            )),
            Err(error) => {
                Refusal::of(&error)
                    .hinting(Some("`--shop` takes a folder with the shop's spreadsheets"))
                    .tell();
                Err(ExitCode::Input)
            }
        }
    }

    const fn index(&self) -> Option<&CardIndex> {
        match self {
            Self::Nobody => None,
            Self::Shop(index, _) | Self::Workspace(_, index) => Some(index),
        }
    }

    /// The day that offers are looked at: that of the shop's settings where they give one, else today.
    fn as_of(&self) -> NaiveDate {
        match self {
            Self::Shop(_, as_of) => *as_of,
            Self::Workspace(workspace, _) => {
                let number = workspace.number().ok();
                let stated = number.and_then(|number| stated_day(workspace, number));
                stated.unwrap_or_else(|| now().date())
            }
            Self::Nobody => now().date(),
        }
    }

    /// Makes an index anew whose file turned out to be damaged; true where it had to be.
    fn mend(&mut self) -> Result<bool, StoreError> {
        let Self::Workspace(workspace, index) = self else {
            return Ok(false);
        };
        let Some(fault) = index.fault() else {
            return Ok(false);
        };
        *index = told(card_index::make(workspace, fault.clone())?);
        Ok(true)
    }
}

/// Says on stderr why an index was made, and whether it could be kept.
fn told(opened: Opened) -> CardIndex {
    if let Some(fault) = &opened.made_because {
        let note = format!("note: made `{CARDS}` of the workspace: {fault}");
        output::note(&format!("{}\n", refusal::said(&note)));
    }
    if let Some(reason) = &opened.not_written {
        let note = format!(
            "note: `{CARDS}` cannot be written, so the next question takes as long: {reason}"
        );
        output::note(&format!("{}\n", refusal::said(&note)));
    }
    opened.index
}

fn as_json(question: &Question, answers: &Answers, as_of: NaiveDate) -> Value {
    let answer_json = |answer: &Answer| answer_json(answer, as_of);
    let readings: Vec<Value> = question.readings.iter().map(reading_json).collect();
    let lengths: Vec<f64> = question
        .readings
        .iter()
        .map(|reading| reading.length.length.to_mm())
        .collect();
    json!({
        "schema": SCHEMA,
        "as_of": as_of,
        "query": {"text": question.text, "family": question.family, "lengths_mm": lengths, "readings": readings,
            "designation": question.designation.as_ref().map(|designation| &designation.basic),
            "fit_classes": question.fit_classes, "groove": groove_json(&question.groove),
            "not_understood": question.not_understood},
        "answers": answers.answers.iter().map(answer_json).collect::<Vec<_>>(),
        "refused": answers.refused.iter().map(answer_json).collect::<Vec<_>>(),
        "not_listed": answers.not_listed,
        "none_of_these": answers.none_of_these,
        "ask_next": answers.ask_next,
        "worked_out": answers.worked_out.iter().map(check::worked_json).collect::<Vec<_>>(),
        "warnings": answers.warnings,
        "cautions": caution::FITTING,
    })
}

/// `None` where the question speaks of no groove.
fn groove_json(groove: &Groove) -> Option<Value> {
    let duty = groove.duty.map(|duty| match duty {
        Duty::StaticRadial => "static_radial",
        Duty::StaticFace => "static_face",
        Duty::Reciprocating => "reciprocating",
    });
    (*groove != Groove::default()).then(|| {
        json!({"floor_mm": groove.floor_mm, "depth_mm": groove.depth_mm, "width_mm": groove.width_mm, "duty": duty})
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

fn answer_json(answer: &Answer, on: NaiveDate) -> Value {
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
        "probability": answer.size.map(|_| (answer.probability * 1e4).round() / 1e4),
        "certainty": answer.size.map(|_| answer.certainty()),
        "matched": answer.size.map(|_| answer.matched),
        "confidence": answer.confidence,
        "cross_checked": answer.confidence.map(|confidence| confidence.is_cross_checked()),
        "agrees": judgement.agrees,
        "differs": judgement.differs,
        "unknown": judgement.unknown,
        "checks": judgement.checks,
        "rework": judgement.rework,
        "stock": answer.stock.iter().map(|stock| stock_json(stock, on)).collect::<Vec<_>>(),
        "offers": answer.offers.iter().map(|offer| offer_json(offer, on)).collect::<Vec<_>>(),
    })
}

/// The stock with whether its last day is past.
fn stock_json(stock: &StockLine, on: NaiveDate) -> Value {
    let mut value = json!(stock);
    value["has_expired"] = json!(stock.has_expired(on));
    value
}

/// The offer with its age and whether it has ended.
fn offer_json(offer: &OfferLine, on: NaiveDate) -> Value {
    let mut value = json!(offer);
    value["age_days"] = json!(offer.age_days(on));
    value["has_ended"] = json!(offer.has_ended(on));
    value
}

/// Width of the words before the lines of a part, the blank behind them included.
const LABEL_WIDTH: usize = 8;
/// Refused parts shown at the terminal; all of them are in the JSON form.
const REFUSED_SHOWN: usize = 6;

/// One block per part: what it is, the verdict, where to get it, what stands against it, what to do first.
fn as_text(
    question: &Question,
    answers: &Answers,
    on: NaiveDate,
    words: &mut Translator,
) -> String {
    let mut text = format!("{}\n", question.text);
    for answer in &answers.answers {
        text.push_str(&block(answer, on, words));
    }
    if !answers.refused.is_empty() {
        text.push_str(&format!("\n{}:\n", words.say("Not these")));
        for answer in answers.refused.iter().take(REFUSED_SHOWN) {
            text.push_str(&block(answer, on, words));
        }
        let more = answers.refused.len().saturating_sub(REFUSED_SHOWN);
        if more > 0 {
            let words = words.say(&format!("and {more} more, see --format json"));
            text.push_str(&format!("\n  {words}\n"));
        }
    }
    if answers.not_listed > 0 {
        text.push('\n');
        let more = format!(
            "The shop's tables hold {} more parts of these sizes or near them: say closure, clearance, class or material to see the right ones",
            answers.not_listed
        );
        text.push_str(&output::wrapped("", &words.say(&more)));
    }
    text.push_str(&open_ends(answers, words));
    for worked in &answers.worked_out {
        text.push_str(&check::worked_text(worked, words));
    }
    for warning in &answers.warnings {
        text.push('\n');
        text.push_str(&labelled("Note", warning, words));
    }
    text.push('\n');
    for caution in caution::FITTING {
        text.push_str(&labelled("Caution", caution, words));
    }
    text
}

/// What it may be besides, and what to look at next.
fn open_ends(answers: &Answers, words: &mut Translator) -> String {
    let none = &answers.none_of_these;
    let mut text = "\n".to_owned();
    let label = format!("{}: ", words.say("None of these"));
    let how_likely = format!(
        "{} ({}): {}",
        words.say(&percent(none.probability)),
        words.say(certainty(none.probability)),
        words.say(&none.why)
    );
    text.push_str(&output::wrapped(&label, &how_likely));
    if let Some(ask) = &answers.ask_next {
        text.push('\n');
        text.push_str(&labelled("Look next", &ask.question, words));
        let because = format!("  {} ", words.say("because"));
        text.push_str(&output::wrapped(&because, &words.say(&ask.why)));
    }
    text
}

fn labelled(label: &str, english: &str, words: &mut Translator) -> String {
    let label = format!("{}: ", words.say(label));
    output::wrapped(&label, &words.say(english))
}

fn block(answer: &Answer, on: NaiveDate, words: &mut Translator) -> String {
    let judgement = &answer.judgement;
    let is_right_size = judgement
        .differs
        .iter()
        .all(|d| !matches!(d.what, "size" | "width"));
    let number = answer
        .number
        .as_ref()
        .filter(|number| **number != answer.designation);
    let number = number.map_or_else(String::new, |number| format!(" ({number})"));
    let verdict = words.say(&judgement.verdict.to_string());
    let mut text = format!("\n  {}{number}: {verdict}\n", answer.designation);
    let mut lines = vec![("size", size_words(answer, is_right_size, words))];
    if !answer.twins.is_empty() {
        let why = words.say("same size, not told apart by what was read");
        lines.push(("or", format!("{}: {why}", answer.twins.join(", "))));
    }
    if is_right_size && !answer.is_by_name_only() {
        let (sure, share) = (answer.certainty(), percent(answer.probability));
        lines.push((
            "sure",
            format!("{}, {}", words.say(sure), words.say(&share)),
        ));
    }
    let stock = answer
        .stock
        .iter()
        .map(|of| ("stock", stock(of, on, words)));
    lines.extend(stock.collect::<Vec<_>>());
    for offer in &answer.offers {
        let mut said = offer.said(|said| words.say(said));
        if offer.has_ended(on) == Some(true) {
            said = format!("{said}, {}", words.say("no longer valid"));
        }
        lines.push(("offer", said));
    }
    for d in &judgement.differs {
        let (what, effect) = (words.say(d.what), words.say(&d.effect));
        let (have, want) = (words.say(&d.have), words.say(&d.want));
        let instead_of = words.say("instead of");
        lines.push((
            "but",
            format!("{what}: {have} {instead_of} {want}; {effect}"),
        ));
    }
    lines.push(("unknown", words.say(&judgement.unknown.join("; "))));
    lines.push(("first", words.say(&judgement.before_fitting())));
    lines.retain(|(_, said)| !said.is_empty());
    let labels: Vec<String> = lines.iter().map(|(label, _)| words.say(label)).collect();
    let widest = labels.iter().map(|label| label.chars().count() + 1).max();
    let width = widest.unwrap_or_default().max(LABEL_WIDTH);
    for (label, (_, said)) in labels.iter().zip(&lines) {
        text.push_str(&output::wrapped(&format!("    {label:<width$}"), said));
    }
    text
}

/// Type, size, standard, how far that was cross-checked and how it was matched.
fn size_words(answer: &Answer, is_right_size: bool, words: &mut Translator) -> String {
    let mut text = match answer.size {
        Some(size) => format!(
            "{} {}",
            words.say(size.family().name()),
            words.say(&size.to_string())
        ),
        None => words.say("unknown"),
    };
    if let Some(standard) = &answer.standard {
        text.push_str(&format!(", {}", words.say(standard)));
    }
    if let Some(letter) = answer.confidence {
        text.push_str(&format!(", {}", words.say(confidence(letter))));
    }
    if answer.is_by_name_only() {
        text.push_str(&format!("; {}", words.say("by the shop's own name only")));
    } else if is_right_size {
        text.push_str(&format!("; {}", words.say(answer.matched.words())));
    }
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

/// An unknown number of pieces is spoken of as several.
const MANY: f64 = 2.0;

fn stock(stock: &StockLine, on: NaiveDate, words: &mut Translator) -> String {
    let last_day = stock.last_day_in_words(on);
    let last_day = last_day.map_or_else(String::new, |said| format!(", {}", words.say(&said)));
    let free = match stock.free {
        Some(free) => words.say(&free.to_string()),
        None => words.say("unknown number of"),
    };
    let unit = stock.unit_of_count.as_deref();
    let unit = match (unit.map(UnitOfCount::read), stock.free) {
        (Some(Ok(unit)), free) => unit.noun(free.unwrap_or(MANY)),
        _ => unit.unwrap_or("(unit not stated)").to_owned(),
    };
    let bin = match &stock.bin {
        Some(bin) => format!("{} {bin}", words.say("in")),
        None => words.say("in no bin"),
    };
    format!("{free} {} {bin}{last_day}", words.say(&unit))
}
