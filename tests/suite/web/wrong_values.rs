//! Values in addresses and forms as people and programs mistype them: a page that says what would be right.

use super::client::{Reply, Server, encoded};
use crate::imported::demo_workspace;

fn page(server: &Server, path: &str) -> Reply {
    let reply = server.get(path);
    assert_eq!(reply.status, 200, "{path}: {}", reply.text());
    assert!(reply.text().contains("</html>"), "{path}");
    reply
}

/// What the slider of the levels shows: most, step and where it stands.
fn slider(text: &str) -> [u64; 3] {
    let range = text.split("type=\"range\"").nth(1).unwrap();
    ["max", "step", "value"].map(|name| {
        let value = range.split(&format!("{name}=\"")).nth(1).unwrap();
        value.split('"').next().unwrap().parse().unwrap()
    })
}

#[test]
fn a_sum_for_levels_that_is_none_is_told_and_todays_levels_stand() {
    let server = Server::empty(demo_workspace());
    let plain = slider(&page(&server, "/levels").text());
    for sum in [
        "abc",
        "12k",
        "1e",
        "--5",
        "-5",
        "nan",
        "inf",
        "5000 USD?",
        "<b>",
    ] {
        let reply = page(&server, &format!("/levels?budget={}", encoded(sum)));
        let text = reply.text();
        assert!(
            text.contains("is no budget: a sum such as 3000 or 3000,50"),
            "{sum}: {text:.600}"
        );
        assert!(!text.contains("<b>"), "{sum}");
        assert_eq!(slider(&text), plain, "{sum}");
        let part = server.get(&format!("/levels/part?budget={}", encoded(sum)));
        assert_eq!(part.status, 200, "{sum}");
    }
    let german = server.send(
        "GET",
        "/levels?budget=abc",
        &[("Accept-Language", "de")],
        b"",
    );
    assert_eq!(german.status, 200);
    assert!(!german.text().contains("is no budget"), "{}", german.text());
}

#[test]
fn a_sum_for_levels_is_read_as_people_write_it() {
    let server = Server::empty(demo_workspace());
    let plain = slider(&page(&server, "/levels").text());
    let [most, step, _] = plain;
    let asked =
        |sum: &str| slider(&page(&server, &format!("/levels?budget={}", encoded(sum))).text())[2];
    let up = |sum: u64| sum.div_ceil(step) * step;
    for (sum, at) in [
        ("5000", up(5_000)),
        ("5,000", up(5_000)),
        ("5.000", up(5_000)),
        ("5000,00", up(5_000)),
        ("5000.00", up(5_000)),
        (" 5000 ", up(5_000)),
        ("0", 0),
        ("1", step),
        ("99999999999", most),
    ] {
        assert_eq!(asked(sum), at, "{sum}");
    }
    // An empty field is no question.
    let empty = page(&server, "/levels?budget=").text();
    assert_eq!(slider(&empty), plain);
    assert!(!empty.contains("is no budget"));
    let other = page(&server, "/levels?other=1").text();
    assert_eq!(slider(&other), plain);
}

#[test]
fn a_budget_or_time_of_a_kit_that_is_none_is_told_beside_the_plan() {
    let server = Server::empty(demo_workspace());
    let plain = page(&server, "/kits/0").text();
    let held = |text: &str| text.matches("Held by").count();
    for (query, words) in [
        ("budget=much", "`much` is no budget"),
        ("budget=-3", "`-3` is no budget"),
        ("budget=%E2%82%AC", "is no budget"),
        ("budget=1e400", "is no budget"),
        ("by=soon", "`soon` is no moment"),
        ("by=2026-02-30", "`2026-02-30` is no moment"),
        ("by=2026-03-09T25%3A00", "is no moment"),
        ("without=nowhere", "the offer in nowhere is no longer there"),
        ("without=%3Cscript%3E", "is no longer there"),
    ] {
        let text = page(&server, &format!("/kits/0?{query}")).text();
        assert!(text.contains(words), "{query}: {text:.800}");
        assert!(!text.contains("<script>"), "{query}");
        assert_eq!(held(&text), held(&plain), "{query}: the plan stands");
    }
    for query in [
        "budget=",
        "by=",
        "without=",
        "budget=&by=&without=",
        "other=1",
        "",
    ] {
        let text = page(&server, &format!("/kits/0?{query}")).text();
        assert!(!text.contains("is no "), "{query}");
    }
    let both = page(&server, "/kits/0?budget=much&by=soon").text();
    assert!(both.contains("`much` is no budget") && both.contains("`soon` is no moment"));
}

#[test]
fn money_of_a_kit_is_read_with_comma_or_point() {
    let server = Server::empty(demo_workspace());
    for (sum, words) in [
        ("3000", "soonest for 3,000.00"),
        ("3000,50", "soonest for 3,000.50"),
        ("3000.50", "soonest for 3,000.50"),
        ("3.000,50", "soonest for 3,000.50"),
        ("3,000.50", "soonest for 3,000.50"),
        ("3 000", "soonest for 3,000.00"),
    ] {
        let text = page(&server, &format!("/kits/0?budget={}", encoded(sum))).text();
        assert!(text.contains(words), "{sum}: no `{words}`");
    }
}

#[test]
fn a_question_in_any_letters_gets_an_answer_in_words() {
    let server = Server::empty(demo_workspace());
    for asked in [
        "6308",
        "６３０８",
        "٦٣٠٨",
        "подшипник 6308",
        "軸受 40x90x23",
        "Wälzlager 40 × 90 × 23",
        "roulement à billes 40 90 23",
        "\u{202e}6308\u{202c}",
        "6308\u{0}",
        "6308\r\nSet-Cookie: a=b",
        "🔩 6308 🔩",
        "' OR 1=1 --",
        "../../etc/passwd",
        "{{7*7}}",
        "%00%ff",
    ] {
        let reply = server.get(&format!("/?q={}", encoded(asked)));
        assert_eq!(reply.status, 200, "{asked:?}");
        let text = reply.text();
        assert!(text.contains("id=\"answer\""), "{asked:?}");
        assert!(reply.header("set-cookie").is_none(), "{asked:?}");
        let after = text.split("id=\"answer\"").nth(1).unwrap();
        assert!(
            after.contains("<p") || after.contains("<article"),
            "{asked:?}: {after:.300}"
        );
    }
}

#[test]
fn fields_of_the_form_that_are_not_its_own_change_nothing() {
    let server = Server::empty(demo_workspace());
    let plain = server.get("/answer?bore=40&od=90&width=23").text();
    for more in [
        "&other=1",
        "&unit=furlong",
        "&tool=",
        "&kind=",
        "&worn=",
        "&q=",
        "&Bore=17",
        "&unit=",
    ] {
        let text = server
            .get(&format!("/answer?bore=40&od=90&width=23{more}"))
            .text();
        let designation = |text: &str| {
            text.split("<h3>")
                .nth(1)
                .map(|rest| rest.split('<').next().unwrap_or("").to_owned())
        };
        assert_eq!(designation(&text), designation(&plain), "{more}");
    }
    // One field given twice is no question that can be read.
    let twice = server.get("/answer?q=6308&q=6309");
    assert!(matches!(twice.status, 200 | 400), "{}", twice.head);
}

#[test]
fn a_language_is_one_of_those_there_are_in_cookie_header_and_switch() {
    let server = Server::empty(demo_workspace());
    let lang = |headers: &[(&str, &str)]| {
        let text = server.send("GET", "/kits", headers, b"").text();
        let at = text.find("<html lang=\"").unwrap() + 12;
        text[at..at + 2].to_owned()
    };
    for (accepted, shown) in [
        ("de", "de"),
        ("DE", "de"),
        ("de-AT", "de"),
        ("de-CH,de;q=0.9,en;q=0.5", "de"),
        ("en;q=0.5, de;q=0.9", "de"),
        ("en, de;q=0.9", "en"),
        ("fr, it;q=0.9, de;q=0.2", "de"),
        ("fr, it", "en"),
        ("de;q=0", "en"),
        ("*", "en"),
        ("", "en"),
        (";;;,,,q=", "en"),
        ("d", "en"),
    ] {
        assert_eq!(lang(&[("Accept-Language", accepted)]), shown, "{accepted}");
    }
    for (cookie, shown) in [
        ("sparewright_language=de", "de"),
        ("a=b; sparewright_language=de; c=d", "de"),
        ("sparewright_language=xx", "en"),
        ("sparewright_language=", "en"),
        ("Sparewright_language=de", "en"),
        ("xsparewright_language=de", "en"),
    ] {
        assert_eq!(lang(&[("Cookie", cookie)]), shown, "{cookie}");
    }
    // The cookie comes before the header.
    let both = [
        ("Cookie", "sparewright_language=en"),
        ("Accept-Language", "de"),
    ];
    assert_eq!(lang(&both), "en");
    for code in ["xx", "DEU", "..", "de%0d%0aSet-Cookie:a=b", ""] {
        let reply = server.get(&format!("/language/{code}"));
        assert_eq!(reply.status, 404, "{code}");
        assert!(reply.header("set-cookie").is_none(), "{code}");
    }
    let host = server.address.to_string();
    for (from, to) in [
        (format!("http://{host}/kits/0"), "/kits/0"),
        (
            format!("http://{host}/levels?budget=5000"),
            "/levels?budget=5000",
        ),
        (format!("http://{host}//evil.example/"), "/"),
        ("http://evil.example/kits".to_owned(), "/"),
        ("nonsense".to_owned(), "/"),
    ] {
        let reply = server.send("GET", "/language/de", &[("Referer", &from)], b"");
        assert_eq!(reply.status, 303, "{from}");
        let back = reply.header("location").unwrap();
        assert!(
            back == to || !back.starts_with("//") && from.contains("//evil"),
            "{from}: {back}"
        );
        assert!(
            !back.contains("evil.example") || back.starts_with("/evil"),
            "{from}: {back}"
        );
    }
}

#[test]
fn requests_that_are_no_http_harm_nobody() {
    use std::io::Write;
    let server = Server::empty(demo_workspace());
    for bytes in [
        &b"\r\n\r\n"[..],
        b"GET\r\n\r\n",
        b"GET / HTTP/9.9\r\n\r\n",
        b"GET  / HTTP/1.1\r\nHost: x\r\n\r\n",
        b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03",
        b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
        b"GET / HTTP/1.1\r\nContent-Length: -1\r\n\r\n",
        b"GET / HTTP/1.1\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n",
    ] {
        let mut stream = server.connect();
        let _ = stream.write_all(bytes);
        let _ = stream.shutdown(std::net::Shutdown::Write);
        let reply = Reply::read(&mut stream);
        assert!(
            matches!(reply.status, 0 | 400 | 421 | 505),
            "{bytes:?}: {}",
            reply.head
        );
    }
    assert_eq!(server.get("/").status, 200, "it still answers");
}
