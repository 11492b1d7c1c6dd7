//! What went wrong, told once: to people on stderr in their language, and to a program that asked for JSON on stdout too.
//!
//! JSON, schema 1, in English: `{"schema", "error": {"message", "because": [text], "place": text or null, "hint": text or
//! null}}`. `place` is the file or folder that it is about; the exit code is the same in every form.

use std::error::Error;
use std::path::Path;
use std::sync::{Mutex, PoisonError};

use serde_json::json;

use super::output;
use crate::import::ImportError;
use crate::language::{Language, Translator};
use crate::report::WriteError;
use crate::store::StoreError;

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// In which language and form this run was asked to answer.
#[derive(Debug, Clone, Copy, Default)]
struct Asked {
    language: Option<Language>,
    is_json: bool,
}

static ASKED: Mutex<Asked> = Mutex::new(Asked {
    language: None,
    is_json: false,
});

/// Remembers what the command line asks for, before anything can go wrong.
pub fn asked(language: Option<Language>, is_json: bool) {
    *ASKED.lock().unwrap_or_else(PoisonError::into_inner) = Asked { language, is_json };
}

/// The settings' language, which holds where the command line names none.
pub fn settled(language: Option<Language>) {
    let mut asked = ASKED.lock().unwrap_or_else(PoisonError::into_inner);
    asked.language = asked.language.or(language);
}

fn chosen() -> Asked {
    *ASKED.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A text for people on stderr, in the language of this run.
pub fn said(english: &str) -> String {
    chosen().language.unwrap_or_default().text(english)
}

/// What went wrong, why, and the next step where there is one; all in English.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Refusal {
    message: String,
    because: Vec<String>,
    place: Option<String>,
    hint: Option<String>,
}

impl Refusal {
    /// One sentence: what is wrong, what was found, what would be right.
    pub fn new(message: impl Into<String>) -> Self {
        Self {
            message: message.into(),
            ..Self::default()
        }
    }

    /// An error with its causes; a cause that its effect tells already is not told twice.
    pub fn of(error: &(dyn Error + 'static)) -> Self {
        let mut refusal = Self::new(error.to_string());
        let mut cause = error.source();
        let mut last = refusal.message.clone();
        while let Some(inner) = cause {
            let words = inner.to_string();
            if !last.contains(&words) {
                refusal.because.push(words.clone());
            }
            last = words;
            cause = inner.source();
        }
        refusal.place = place_of(error);
        refusal
    }

    /// A file or folder that cannot be written.
    pub fn not_written(path: &Path, error: &std::io::Error) -> Self {
        Self {
            because: vec![error.to_string()],
            place: Some(path.display().to_string()),
            ..Self::new(format!("`{}` cannot be written", path.display()))
        }
    }

    /// With the next step, where there is one.
    #[must_use]
    pub fn hinting(self, hint: Option<impl Into<String>>) -> Self {
        Self {
            hint: hint.map(Into::into).or(self.hint),
            ..self
        }
    }

    /// Tells it.
    pub fn tell(&self) {
        let Asked { language, is_json } = chosen();
        output::note(&self.in_words(language.unwrap_or_default()));
        if is_json {
            // A closed pipe is nobody's loss, and the exit code says the rest.
            let _ = output::result(&format!("{:#}\n", self.as_json()));
        }
    }

    fn in_words(&self, language: Language) -> String {
        let words = &mut Translator::new(language);
        let mut text = format!("{} {}\n", words.say("error:"), words.say(&self.message));
        let because = self.because.iter().map(|cause| ("because:", cause));
        for (label, said) in because.chain(self.hint.iter().map(|hint| ("hint:", hint))) {
            text.push_str(&format!("  {} {}\n", words.say(label), words.say(said)));
        }
        text
    }

    fn as_json(&self) -> serde_json::Value {
        json!({"schema": SCHEMA, "error": {
            "message": self.message, "because": self.because, "place": self.place, "hint": self.hint,
        }})
    }
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message)
    }
}

impl From<String> for Refusal {
    fn from(message: String) -> Self {
        Self::new(message)
    }
}

impl From<&str> for Refusal {
    fn from(message: &str) -> Self {
        Self::new(message)
    }
}

/// The file or folder that an error, or one of its causes, is about.
fn place_of(error: &(dyn Error + 'static)) -> Option<String> {
    let path: Option<&Path> = if let Some(error) = error.downcast_ref::<ImportError>() {
        match error {
            ImportError::Folder { path, .. } | ImportError::NothingUsable { path, .. } => {
                Some(path)
            }
            ImportError::NoRows { files } => return files.first().cloned(),
        }
    } else if let Some(error) = error.downcast_ref::<StoreError>() {
        error.path()
    } else if let Some(error) = error.downcast_ref::<WriteError>() {
        error.path()
    } else if let Some(error) = error.downcast_ref::<crate::job::JobError>() {
        return match error {
            crate::job::JobError::Import(inner) => place_of(inner),
            crate::job::JobError::Store(inner) => place_of(inner),
            _ => None,
        };
    } else {
        None
    };
    path.map(|path| path.display().to_string())
        .or_else(|| place_of(error.source()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn german() -> Language {
        Language::of_code("de").unwrap()
    }

    fn unreadable() -> ImportError {
        ImportError::Folder {
            path: "shop".into(),
            cause: std::io::Error::from_raw_os_error(2),
        }
    }

    #[test]
    fn an_error_is_told_with_its_causes_and_the_next_step() {
        let refusal = Refusal::of(&unreadable()).hinting(Some("name another folder"));
        let words = refusal.in_words(Language::ENGLISH);
        let lines: Vec<&str> = words.lines().collect();
        assert_eq!(lines[0], "error: the folder `shop` cannot be read");
        assert!(lines[1].starts_with("  because: No such file"), "{words}");
        assert_eq!(lines[2..], ["  hint: name another folder"]);
        let in_german = refusal.in_words(german());
        for words in ["Fehler: ", "Ordner `shop`", "  weil: "] {
            assert!(in_german.contains(words), "{words} in {in_german}");
        }
        assert!(!in_german.contains("No such file"), "{in_german}");
    }

    #[test]
    fn a_program_gets_the_same_in_english_whatever_people_read() {
        let json = Refusal::of(&unreadable()).as_json();
        assert_eq!(json["schema"], SCHEMA);
        let error = &json["error"];
        assert_eq!(error["message"], "the folder `shop` cannot be read");
        assert_eq!(error["place"], "shop");
        assert_eq!(error["because"].as_array().unwrap().len(), 1);
        assert!(error["hint"].is_null());
        let bare = Refusal::new("no kit").as_json();
        assert!(bare["error"]["place"].is_null());
        assert_eq!(bare["error"]["because"], json!([]));
    }

    #[test]
    fn a_cause_that_stands_in_its_effect_is_not_told_twice() {
        #[derive(Debug, thiserror::Error)]
        enum Twice {
            #[error("`x` cannot be written: {0}")]
            Inside(#[source] std::io::Error),
            #[error("`x` cannot be written")]
            Behind(#[source] std::io::Error),
        }
        let failed = || std::io::Error::other("the device is gone");
        assert!(Refusal::of(&Twice::Inside(failed())).because.is_empty());
        assert_eq!(
            Refusal::of(&Twice::Behind(failed())).because,
            ["the device is gone"]
        );
    }

    #[test]
    fn the_place_is_found_however_deep_the_error_lies() {
        let store = StoreError::NotAWorkspace {
            path: "kept".into(),
        };
        let job = crate::job::JobError::Store(store);
        assert_eq!(Refusal::of(&job).place.as_deref(), Some("kept"));
        let rows = ImportError::NoRows {
            files: vec!["parts.csv".to_owned()],
        };
        assert_eq!(Refusal::of(&rows).place.as_deref(), Some("parts.csv"));
        assert_eq!(Refusal::of(&StoreError::Empty).place, None);
        assert_eq!(Refusal::of(&std::io::Error::other("x")).place, None);
    }

    #[test]
    fn a_later_hint_takes_the_place_of_none_only() {
        let refusal = Refusal::new("x").hinting(Some("first"));
        assert_eq!(
            refusal.clone().hinting(None::<String>).hint.as_deref(),
            Some("first")
        );
        assert_eq!(
            refusal.hinting(Some("second")).hint.as_deref(),
            Some("second")
        );
    }
}
