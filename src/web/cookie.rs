//! Cookies of our own: read from a request, and made to be kept for a working year.

use axum::http::header::COOKIE;
use axum::http::{HeaderMap, HeaderValue};

/// How long a browser keeps one, in seconds: one working year.
const KEPT_SECONDS: u32 = 365 * 24 * 3600;

/// The value of the cookie of this name.
pub(super) fn cookie<'h>(headers: &'h HeaderMap, name: &str) -> Option<&'h str> {
    let cookies = headers.get_all(COOKIE).iter();
    cookies
        .filter_map(|value| value.to_str().ok())
        .flat_map(|line| line.split(';'))
        .filter_map(|pair| pair.trim().split_once('='))
        .find_map(|(of, value)| (of == name).then_some(value))
}

/// A cookie that scripts cannot read and other sites do not get; `None` where the value has signs that no header takes.
pub(super) fn kept(name: &str, value: &str) -> Option<HeaderValue> {
    let cookie = format!("{name}={value}; Path=/; HttpOnly; SameSite=Lax; Max-Age={KEPT_SECONDS}");
    HeaderValue::try_from(cookie).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cookie_is_found_by_its_whole_name_in_any_header() {
        let headers = |lines: &[&'static str]| {
            let mut headers = HeaderMap::new();
            for line in lines {
                headers.append(COOKIE, HeaderValue::from_static(line));
            }
            headers
        };
        for (lines, found) in [
            (&["a=1"][..], Some("1")),
            (&["b=2; a=1; c=3"], Some("1")),
            (&["b=2;a=1"], Some("1")),
            (&["b=2", "a=1"], Some("1")),
            // The first one counts: browsers send that of the longer path first (RFC 6265, section 5.4).
            (&["a=1; a=2"], Some("1")),
            (&["a="], Some("")),
            (&["a=1=2"], Some("1=2")),
            (&["aa=1"], None),
            (&["A=1"], None),
            (&["b=a=1"], None),
            (&["a"], None),
            (&[""], None),
            (&[], None),
        ] {
            assert_eq!(cookie(&headers(lines), "a"), found, "{lines:?}");
        }
    }

    #[test]
    fn a_cookie_in_letters_of_no_language_is_passed_over() {
        let mut headers = HeaderMap::new();
        headers.append(COOKIE, HeaderValue::from_bytes(b"a=\xff").unwrap());
        headers.append(COOKIE, HeaderValue::from_static("a=1"));
        assert_eq!(cookie(&headers, "a"), Some("1"));
    }

    #[test]
    fn what_is_kept_is_for_this_site_and_no_script() {
        // Attributes of RFC 6265, section 4.1.2, and SameSite of its draft revision.
        let made = kept("name", "value").unwrap();
        assert_eq!(
            made.to_str().unwrap(),
            "name=value; Path=/; HttpOnly; SameSite=Lax; Max-Age=31536000"
        );
        assert!(kept("name", "a\r\nSet-Cookie: b=c").is_none());
    }
}
