//! Who may do what: roles, and requests that come from somewhere else.
//!
//! A key is 128 bits from the operating system's generator, kept in a cookie that scripts cannot read. Requests whose
//! `Host` is not ours are refused, so that a foreign name that is made to point here gets nothing; requests that change
//! something must come from our own pages (`Origin`).

use axum::extract::{Request, State};
use axum::http::header::{HOST, LOCATION, ORIGIN, REFERER, SET_COOKIE};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use super::cookie::{cookie, kept};
use super::key::Role;
use super::language;
use super::serving::Serving;

/// Name of the cookie that keeps a key.
const COOKIE_NAME: &str = "sparewright_key";
/// Name of the query parameter that brings a key.
const PARAMETER: &str = "key";

/// Lets a request through that may be answered, with its [`Role`] among its extensions.
pub(super) async fn guard(
    State(serving): State<Serving>,
    mut request: Request,
    next: Next,
) -> Response {
    let headers = request.headers();
    if !serving.hosts.are_named_by(headers) {
        return refusal(
            headers,
            StatusCode::MISDIRECTED_REQUEST,
            "this server answers to its own name only",
        );
    }
    if !matches!(*request.method(), Method::GET | Method::HEAD) && !comes_from_us(headers) {
        return refusal(
            headers,
            StatusCode::FORBIDDEN,
            "the request came from another site",
        );
    }
    if let Some(keys) = &serving.keys {
        if let Some(brought) = parameter(request.uri().query().unwrap_or_default()) {
            return match keys.role(brought) {
                Some(_) => keep_key(headers, request.uri().path(), brought),
                None => refusal(
                    headers,
                    StatusCode::FORBIDDEN,
                    "this key is not valid here: scan the code again",
                ),
            };
        }
        let Some(role) = cookie(headers, COOKIE_NAME).and_then(|key| keys.role(key)) else {
            return refusal(
                headers,
                StatusCode::UNAUTHORIZED,
                "a key is needed: open the address that `sparewright serve` printed, or scan its code",
            );
        };
        request.extensions_mut().insert(role);
    } else {
        request.extensions_mut().insert(Role::Import);
    }
    next.run(request).await
}

/// Refuses what changes something to those who may only look.
pub(super) async fn importers_only(request: Request, next: Next) -> Response {
    match request.extensions().get::<Role>() {
        Some(Role::Import) => next.run(request).await,
        _ => refusal(
            request.headers(),
            StatusCode::FORBIDDEN,
            "this key is for looking things up; importing needs the other key",
        ),
    }
}

/// A refusal in the language of the browser: the request goes no further than here.
fn refusal(headers: &HeaderMap, status: StatusCode, words: &'static str) -> Response {
    let words = language::of(headers, None).text(words);
    (status, format!("{words}\n")).into_response()
}

/// Keeps a key in a cookie and goes on to the address without it, so that it stays in no history.
fn keep_key(headers: &HeaderMap, path: &str, key: &str) -> Response {
    // `//name` would lead to another site.
    let path = format!("/{}", path.trim_start_matches('/'));
    let (Some(cookie), Ok(path)) = (kept(COOKIE_NAME, key), HeaderValue::try_from(path)) else {
        return refusal(
            headers,
            StatusCode::BAD_REQUEST,
            "the address cannot be read",
        );
    };
    (
        StatusCode::SEE_OTHER,
        [(SET_COOKIE, cookie), (LOCATION, path)],
    )
        .into_response()
}

fn parameter(query: &str) -> Option<&str> {
    query
        .split('&')
        .filter_map(|pair| pair.split_once('='))
        .find_map(|(name, value)| (name == PARAMETER).then_some(value))
}

/// True where a request that changes something was sent by one of our pages, or by no browser at all.
///
/// Browsers send `Origin` with every POST; where they send `null` or another site, it is not ours.
fn comes_from_us(headers: &HeaderMap) -> bool {
    let host = headers.get(HOST).and_then(|host| host.to_str().ok());
    let is_ours = |site: &str| {
        site.strip_prefix("http://")
            .is_some_and(|rest| Some(rest.split('/').next().unwrap_or_default()) == host)
    };
    match (headers.get(ORIGIN), headers.get(REFERER)) {
        (Some(origin), _) => origin.to_str().is_ok_and(is_ours),
        (None, Some(referer)) => referer.to_str().is_ok_and(is_ours),
        (None, None) => {
            let fetched = headers.get("sec-fetch-site");
            fetched.is_none_or(|site| site == "same-origin")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn headers(pairs: &[(&'static str, &'static str)]) -> HeaderMap {
        pairs
            .iter()
            .map(|(name, value)| {
                (
                    axum::http::HeaderName::from_static(name),
                    HeaderValue::from_static(value),
                )
            })
            .collect()
    }

    #[test]
    fn a_change_asked_for_by_another_site_is_refused() {
        let ours = ("host", "127.0.0.1:8090");
        assert!(comes_from_us(&headers(&[
            ours,
            ("origin", "http://127.0.0.1:8090")
        ])));
        assert!(comes_from_us(&headers(&[ours])));
        for foreign in [
            "http://shop.example",
            "null",
            "http://127.0.0.1:8090.example",
        ] {
            assert!(
                !comes_from_us(&headers(&[ours, ("origin", foreign)])),
                "{foreign}"
            );
        }
        assert!(!comes_from_us(&headers(&[
            ours,
            ("sec-fetch-site", "cross-site")
        ])));
    }
}
