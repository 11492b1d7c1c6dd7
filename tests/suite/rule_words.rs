//! What the rules of exchange and the look-up say has a German message, whichever case brings it out.

use std::collections::{BTreeMap, BTreeSet};

use sparewright::caution;
use sparewright::interchange::{Judgement, Verdict, judge};
use sparewright::language::{Language, Translator};
use sparewright::lookup::{Answers, Question, answer, certainty, percent};
use sparewright::part::Family;

use super::interchange::{subject, table};

/// Texts without a message, with the case that brought each out first.
struct Heard {
    german: Translator,
    missing: BTreeMap<String, String>,
}

impl Heard {
    fn new() -> Self {
        Self {
            german: Translator::new(Language::of_code("de").unwrap()),
            missing: BTreeMap::new(),
        }
    }

    fn hear(&mut self, text: &str, case: &str) {
        let before = self.german.missing().len();
        self.german.say(text);
        if self.german.missing().len() > before {
            self.missing.insert(text.to_owned(), case.to_owned());
        }
    }

    fn hear_all<'t>(&mut self, texts: impl IntoIterator<Item = &'t String>, case: &str) {
        for text in texts {
            self.hear(text, case);
        }
    }

    /// What is had and wanted may be a mark that means the same in every language.
    fn judgement(&mut self, of: &Judgement, case: &str) {
        self.hear(&of.verdict.to_string(), case);
        for texts in [&of.agrees, &of.unknown, &of.checks, &of.rework] {
            self.hear_all(texts, case);
        }
        for difference in &of.differs {
            for text in [difference.what, &*difference.effect, difference.source] {
                self.hear(text, case);
            }
            for text in [&difference.have, &difference.want] {
                let is_mark = |word: &str| word.chars().filter(|c| c.is_lowercase()).count() < 3;
                if !text.split_whitespace().all(is_mark) {
                    self.hear(text, case);
                }
            }
        }
    }

    fn answers(&mut self, of: &Answers, case: &str) {
        for answer in of.answers.iter().chain(&of.refused) {
            self.judgement(&answer.judgement, case);
            self.hear(answer.matched.words(), case);
        }
        for worked in &of.worked_out {
            self.hear_all(worked.says.iter().chain(&worked.against), case);
        }
        if let Some(ask) = &of.ask_next {
            self.hear_all([&ask.question, &ask.why], case);
        }
        self.hear(&of.none_of_these.why, case);
        self.hear_all(&of.warnings, case);
    }

    fn is_whole(&self) {
        let lines: Vec<String> = self
            .missing
            .iter()
            .map(|(text, case)| format!("{text}\t    [{case}]"))
            .collect();
        assert!(
            lines.is_empty(),
            "{} texts:\n{}",
            lines.len(),
            lines.join("\n")
        );
    }
}

#[test]
fn a_text_without_a_message_is_heard() {
    let mut heard = Heard::new();
    heard.hear("goes in as it is", "a");
    assert!(heard.missing.is_empty());
    heard.hear("goes in after a prayer", "b");
    assert_eq!(heard.missing["goes in after a prayer"], "b");
}

#[test]
fn every_case_of_exchange_is_judged_in_german() {
    let mut heard = Heard::new();
    let cases = table("exchange_cases.csv");
    assert!(cases.len() > 100);
    for case in &cases {
        let judgement = judge(&subject(&case[0]), &subject(&case[1]));
        heard.judgement(&judgement, &format!("{} for {}", &case[1], &case[0]));
    }
    heard.is_whole();
}

#[test]
fn every_question_of_the_bench_is_answered_in_german() {
    let mut heard = Heard::new();
    for case in &table("bench_cases.csv") {
        match Question::read(&case[0]) {
            Ok(question) => heard.answers(&answer(&question, None), &case[0]),
            Err(error) => heard.hear(&error.to_string(), &case[0]),
        }
    }
    heard.is_whole();
}

#[test]
fn fixed_words_of_answers_are_german() {
    let mut heard = Heard::new();
    for share in [0.0, 0.03, 0.1, 0.4, 0.7, 0.95, 0.995, 1.0] {
        heard.hear(certainty(share), "certainty");
        heard.hear(&percent(share), "percent");
    }
    for verdict in [
        Verdict::AsItIs,
        Verdict::AfterChecks,
        Verdict::WithRework,
        Verdict::MustNot,
        Verdict::Near,
    ] {
        heard.hear(&verdict.to_string(), "verdict");
    }
    for family in Family::ALL {
        heard.hear(family.name(), "family");
    }
    let cautions = [caution::FITTING, caution::REPORT, caution::ISOLATION].concat();
    let cautions: BTreeSet<&str> = cautions.into_iter().collect();
    assert_eq!(cautions.len(), 9);
    for text in cautions {
        heard.hear(text, "caution");
    }
    heard.is_whole();
}
