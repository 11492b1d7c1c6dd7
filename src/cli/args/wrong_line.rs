//! A command line that cannot be parsed, in words of our own: for languages that the parser does not speak, and for JSON.

use std::error::Error as _;

use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{CommandFactory, Error};

use super::Line;
use super::meant::{did_you_mean, meant};
use crate::cli::refusal::Refusal;

/// What is wrong with the line, and what was meant if that can be told.
pub(super) fn refusal(error: &Error) -> Refusal {
    let text = |kind| text_of(error, kind).filter(|text| !text.is_empty());
    let argument = text(ContextKind::InvalidArg).unwrap_or_default();
    let value = text(ContextKind::InvalidValue);
    let message = match (error.kind(), &value) {
        (ErrorKind::InvalidValue, None) => format!("`{argument}` needs a value"),
        (ErrorKind::InvalidValue, Some(value)) => match text(ContextKind::ValidValue) {
            Some(valid) => {
                format!("`{value}` is not possible for `{argument}`; expected one of {valid}")
            }
            None => format!("`{value}` is not possible for `{argument}`"),
        },
        (ErrorKind::ValueValidation, Some(value)) => {
            let why = error.source().map(ToString::to_string);
            let why = why.map_or_else(String::new, |why| format!("; {why}"));
            format!("`{value}` is not possible for `{argument}`{why}")
        }
        (ErrorKind::UnknownArgument, _) => format!("unexpected argument `{argument}`"),
        (ErrorKind::InvalidSubcommand, _) => {
            let command = text(ContextKind::InvalidSubcommand).unwrap_or_default();
            format!("there is no command `{command}`")
        }
        (ErrorKind::MissingRequiredArgument, _) => format!("not given: {argument}"),
        (ErrorKind::ArgumentConflict, _) => match text(ContextKind::PriorArg) {
            Some(prior) if prior != argument => {
                format!("`{argument}` and `{prior}` cannot be used together")
            }
            _ => format!("`{argument}` is given more than once"),
        },
        // What is left is rare: the parser's own sentence.
        _ => {
            let whole = error.to_string();
            let first = whole.lines().next().unwrap_or_default();
            first.strip_prefix("error: ").unwrap_or(first).to_owned()
        }
    };
    let suggested = [
        ContextKind::SuggestedArg,
        ContextKind::SuggestedValue,
        ContextKind::SuggestedSubcommand,
    ];
    // Of several the parser tells the likest last.
    let likest = |kind| match error.get(kind)? {
        ContextValue::Strings(texts) => texts.last().cloned(),
        _ => text(kind),
    };
    let meant = suggested.into_iter().find_map(likest).or_else(|| {
        // The parser finds letters that changed places less like than letters that are missing.
        let typed = text(ContextKind::InvalidSubcommand)?;
        meant(&typed, commands(&Line::command()))
    });
    let hint = meant.map_or_else(
        || "`--help` behind the command shows what can be given".to_owned(),
        |meant| did_you_mean(&meant),
    );
    Refusal::new(message).hinting(Some(hint))
}

/// Names of all commands, those below a command too.
fn commands(of: &clap::Command) -> Vec<String> {
    let below = of.get_subcommands().flat_map(|command| {
        let own = std::iter::once(command.get_name().to_owned());
        own.chain(commands(command))
    });
    below.collect()
}

fn text_of(error: &Error, kind: ContextKind) -> Option<String> {
    match error.get(kind)? {
        ContextValue::String(text) => Some(text.clone()),
        ContextValue::Strings(texts) => Some(texts.join(", ")),
        ContextValue::Number(number) => Some(number.to_string()),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use clap::Parser;

    use super::*;
    use crate::language::{Language, Translator};

    #[test]
    fn every_kind_of_mistake_has_words_in_every_language() {
        let mut german = Translator::new(Language::of_code("de").unwrap());
        for (line, english) in [
            (
                "run x --format xml",
                "`xml` is not possible for `--format <FORMAT>`; expected one of table, csv, json",
            ),
            ("run x --out", "`--out <DIR>` needs a value"),
            ("run x --fromat csv", "unexpected argument `--fromat`"),
            ("rnu x", "there is no command `rnu`"),
            ("compare 1 2", "not given: --workspace <DIR>"),
            (
                "compare one 2 --workspace w",
                "`one` is not possible for `<A>`; invalid digit found in string",
            ),
            (
                "serve --workspace w --listen 8090",
                "`8090` is not possible for `--listen <ADDRESS:PORT>`; the address is missing; expected such as 127.0.0.1:8090",
            ),
            (
                "check life --family x --rating 0 --load 1",
                "`0` is not possible for `--rating <RATING>`; expected a number above 0",
            ),
            (
                "match 6205 --shop a --workspace b",
                "`--shop <DIR>` and `--workspace <DIR>` cannot be used together",
            ),
            (
                "run x --language xx",
                "`xx` is not possible for `--language <CODE>`; ",
            ),
            ("run x --quiet --quiet", "`--quiet` is given more than once"),
        ] {
            let words = ["sparewright"].into_iter().chain(line.split(' '));
            let error = Line::try_parse_from(words).unwrap_err();
            let refusal = refusal(&error);
            assert!(
                refusal.to_string().starts_with(english),
                "{line}: {refusal}"
            );
            german.say(&refusal.to_string());
        }
        assert!(german.missing().is_empty(), "{:?}", german.missing());
    }

    #[test]
    fn what_is_like_no_command_leads_to_the_help() {
        for line in ["zzzz", "check zzzz"] {
            let words = ["sparewright"].into_iter().chain(line.split(' '));
            let refusal = refusal(&Line::try_parse_from(words).unwrap_err());
            let help = "`--help` behind the command shows what can be given";
            let expected = Refusal::new(refusal.to_string()).hinting(Some(help));
            assert_eq!(refusal, expected, "{line}");
        }
    }

    #[test]
    fn a_near_miss_is_the_next_step() {
        for (line, meant) in [
            ("run x --fromat csv", "--format"),
            ("levles --shop x", "levels"),
            ("rnu x", "run"),
            ("kti --shop x", "kit"),
            ("check saet", "seat"),
            ("check lfie", "life"),
            ("run x --format jsn", "json"),
        ] {
            let words = ["sparewright"].into_iter().chain(line.split(' '));
            let refusal = refusal(&Line::try_parse_from(words).unwrap_err());
            let hinted = Refusal::new(refusal.to_string()).hinting(Some(did_you_mean(meant)));
            assert_eq!(refusal, hinted, "{line}");
        }
    }
}
