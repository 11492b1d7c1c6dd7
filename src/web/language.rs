//! The language of a page: that of the cookie which the switch sets, else the server's, else the browser's.
//!
//! It holds for the request that is answered, so that pages ask for words with [`say`] and need not hand it on; work that is
//! done beside the threads that answer takes it along ([`speaking`]).

use std::cell::RefCell;
use std::sync::{Arc, Mutex, PoisonError, Weak};

use chrono::NaiveDateTime;

use axum::extract::{Path, Request, State};
use axum::http::header::{ACCEPT_LANGUAGE, HOST, LOCATION, REFERER, SET_COOKIE};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use super::cookie::{self, cookie};
use super::serving::Serving;
use crate::language::{Language, Translator};
use crate::report::{Report, translated};

/// Name of the cookie that keeps the language.
const COOKIE_NAME: &str = "sparewright_language";
/// Reports kept in another language; there is one a snapshot.
const MOST_KEPT: usize = 4;

/// Translators that rest between requests, and texts that each may remember: whatever is asked, that is a few megabytes.
const MOST_AT_REST: usize = 16;
const MOST_REMEMBERED: usize = 10_000;

/// The language of a request, and what was said in it already: pages and answers say much twice.
struct Speaker {
    language: Language,
    translator: RefCell<Translator>,
}

/// Translators of finished requests, which know what they said.
static AT_REST: Mutex<Vec<Translator>> = Mutex::new(Vec::new());

impl Speaker {
    fn new(language: Language) -> Self {
        let mut resting = AT_REST.lock().unwrap_or_else(PoisonError::into_inner);
        let known = resting.iter().position(|of| of.language() == language);
        let known = known.map(|at| resting.swap_remove(at));
        drop(resting);
        Self {
            language,
            translator: RefCell::new(known.unwrap_or_else(|| Translator::new(language))),
        }
    }
}

impl Drop for Speaker {
    fn drop(&mut self) {
        let translator = self.translator.replace(Translator::new(self.language));
        // English needs no memory, and one that was asked too much that is new is let go.
        if self.language == Language::ENGLISH || translator.remembered() > MOST_REMEMBERED {
            return;
        }
        let mut resting = AT_REST.lock().unwrap_or_else(PoisonError::into_inner);
        if resting.len() < MOST_AT_REST {
            resting.push(translator);
        }
    }
}

tokio::task_local! {
    static SPEAKER: Speaker;
}

/// The language of the request that is answered.
pub(super) fn chosen() -> Language {
    SPEAKER
        .try_with(|speaker| speaker.language)
        .unwrap_or_default()
}

/// A text of the page in the language of the request.
pub(super) fn say(english: &str) -> String {
    SPEAKER
        .try_with(|speaker| speaker.translator.borrow_mut().say(english))
        .unwrap_or_else(|_| english.to_owned())
}

/// A number as the page writes it (`1,234.5`), in the form of the language of the request.
pub(super) fn number(english: &str) -> String {
    chosen().number(english)
}

/// A moment with its day of the week, in the form of the language of the request.
pub(super) fn moment(moment: NaiveDateTime) -> String {
    chosen().moment_on_weekday(moment)
}

/// Does work of a request on another thread in the language of that request.
pub(super) fn speaking<T>(language: Language, work: impl FnOnce() -> T) -> T {
    SPEAKER.sync_scope(Speaker::new(language), work)
}

/// The report in the language of the request, translated once.
pub(super) async fn report_in_it(report: Arc<Report>) -> Arc<Report> {
    let language = chosen();
    if language == report.language {
        return report;
    }
    let english = Arc::clone(&report);
    let made = tokio::task::spawn_blocking(move || kept(&english, language)).await;
    made.unwrap_or(report)
}

/// An English report, what was made of it, and the language of that.
type Kept = (Weak<Report>, Language, Arc<Report>);

fn kept(english: &Arc<Report>, language: Language) -> Arc<Report> {
    static KEPT: Mutex<Vec<Kept>> = Mutex::new(Vec::new());
    // The lock is held while one is made, so that twenty phones make it once.
    let mut all = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    all.retain(|(of, _, _)| of.strong_count() > 0);
    let is_it = |(of, in_it, _): &&Kept| {
        *in_it == language && std::ptr::eq(of.as_ptr(), Arc::as_ptr(english))
    };
    if let Some((_, _, made)) = all.iter().find(is_it) {
        return Arc::clone(made);
    }
    let made = Arc::new(translated(Report::clone(english), language));
    if all.len() >= MOST_KEPT {
        all.remove(0);
    }
    all.push((Arc::downgrade(english), language, Arc::clone(&made)));
    made
}

/// Finds the language of a request before it is answered.
pub(super) async fn choose(
    State(serving): State<Serving>,
    request: Request,
    next: Next,
) -> Response {
    let language = of(request.headers(), serving.language);
    SPEAKER
        .scope(Speaker::new(language), next.run(request))
        .await
}

/// The language that somebody switched to, else that of the server, else the one that the browser asks for.
pub(super) fn of(headers: &HeaderMap, served: Option<Language>) -> Language {
    let kept = cookie(headers, COOKIE_NAME).and_then(Language::of_code);
    let kept = kept.or(served);
    let asked = headers
        .get(ACCEPT_LANGUAGE)
        .and_then(|header| header.to_str().ok());
    kept.unwrap_or_else(|| asked.map_or(Language::ENGLISH, Language::accepted))
}

/// Keeps the language that was chosen and goes back to the page it was chosen on.
pub(super) async fn keep(Path(code): Path<String>, headers: HeaderMap) -> Response {
    let Some(language) = Language::of_code(&code) else {
        return StatusCode::NOT_FOUND.into_response();
    };
    let cookie = cookie::kept(COOKIE_NAME, language.code());
    match (cookie, HeaderValue::try_from(back(&headers))) {
        (Some(cookie), Ok(path)) => (
            StatusCode::SEE_OTHER,
            [(SET_COOKIE, cookie), (LOCATION, path)],
        )
            .into_response(),
        _ => StatusCode::BAD_REQUEST.into_response(),
    }
}

/// The page of ours that the request came from; the first where it came from elsewhere.
fn back(headers: &HeaderMap) -> String {
    let text = |name| {
        headers
            .get(name)
            .and_then(|value: &HeaderValue| value.to_str().ok())
    };
    let path = text(REFERER)
        .and_then(|from| from.strip_prefix("http://"))
        .zip(text(HOST))
        .and_then(|(from, host)| from.strip_prefix(host))
        .filter(|path| path.starts_with('/'));
    // `//name` would lead to another site.
    format!(
        "/{}",
        path.unwrap_or_default().trim_start_matches(['/', '\\'])
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn headers(pairs: &[(&'static str, &'static str)]) -> HeaderMap {
        let name = axum::http::HeaderName::from_static;
        let pairs = pairs.iter();
        pairs
            .map(|(key, value)| (name(key), HeaderValue::from_static(value)))
            .collect()
    }

    #[test]
    fn the_switch_comes_before_the_browser() {
        for (pairs, code) in [
            (vec![("accept-language", "de-DE,de;q=0.9")], "de"),
            (
                vec![
                    ("accept-language", "de"),
                    ("cookie", "a=b; sparewright_language=en"),
                ],
                "en",
            ),
            (
                vec![
                    ("accept-language", "de"),
                    ("cookie", "sparewright_language=xx"),
                ],
                "de",
            ),
            (vec![], "en"),
        ] {
            assert_eq!(of(&headers(&pairs), None).code(), code, "{pairs:?}");
        }
        let german = Language::of_code("de");
        for (cookie, code) in [("", "de"), ("sparewright_language=en", "en")] {
            let pairs = headers(&[("accept-language", "en"), ("cookie", cookie)]);
            assert_eq!(of(&pairs, german).code(), code, "{cookie}");
        }
    }

    #[test]
    fn the_switch_leads_back_to_our_own_pages_only() {
        let host = ("host", "127.0.0.1:8090");
        for (referer, path) in [
            ("http://127.0.0.1:8090/table/kits?a=b", "/table/kits?a=b"),
            (
                "http://127.0.0.1:8090//elsewhere.example",
                "/elsewhere.example",
            ),
            ("http://127.0.0.1:8090.elsewhere.example/x", "/"),
            ("http://elsewhere.example/x", "/"),
            ("https://127.0.0.1:8090/x", "/"),
        ] {
            let from = headers(&[host, ("referer", referer)]);
            assert_eq!(back(&from), path, "{referer}");
        }
        assert_eq!(back(&headers(&[host])), "/");
    }
}
