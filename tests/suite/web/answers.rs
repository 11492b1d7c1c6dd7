//! The look-up as it is served: what the library answers, alone and within the page, as a file, and whatever is asked.

use sparewright::catalogue::card_index;
use sparewright::lookup::{Question, answer, percent};
use sparewright::store::Workspace;

use super::client::{Reply, Server, encoded};
use crate::imported::{self, demo_workspace};

/// Questions of every kind: numbers, sizes, worn parts, half numbers, seats, grooves, words in German.
const QUESTIONS: [&str; 16] = [
    "6308",
    "6206-2RS C3",
    "40x90x23",
    "44.96 84.9 19 worn",
    "bore 40 od 68 room for 15",
    "lip free id 33.6 on 35 shaft",
    "63?6",
    "AS568-222",
    "oil seal 40 x 62 x 8",
    "internal circlip 40",
    "KM8",
    "BRG-0106",
    "3/4 x 1 5/8 x 7/16",
    "6205 C3 shaft 25.008 k6 micrometer",
    "o-ring 37.69 x 3.53 groove floor 38.1 depth 2.87 width 4.6",
    "Rillenkugellager 40 90 23",
];

fn unescaped(text: &str) -> String {
    let pairs = [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&amp;", "&"),
    ];
    let all = pairs.iter();
    all.fold(text.to_owned(), |text, (from, to)| text.replace(from, to))
}

/// What the headings of the cards say, refused parts behind the others.
fn cards(page: &str) -> Vec<String> {
    let cards = page.split("<article class=\"card ").skip(1);
    let cards = cards.filter(|card| !card.starts_with("worked"));
    cards
        .map(|card| {
            let heading = card.split("<h3>").nth(1).unwrap();
            unescaped(heading.split([' ', '<']).next().unwrap())
        })
        .collect()
}

#[test]
fn a_page_shows_the_answers_of_the_library_in_their_order() {
    let server = Server::empty(demo_workspace());
    let workspace = Workspace::open(demo_workspace()).unwrap();
    let index = card_index::load(&workspace).unwrap().index;
    for text in QUESTIONS {
        let question = Question::read_in(text, Some(&index)).unwrap();
        let answers = answer(&question, Some(&index));
        let page = server.get(&format!("/answer?q={}", encoded(text))).text();
        let shown = cards(&page);
        let listed = answers.answers.iter().chain(answers.refused.iter().take(6));
        let listed: Vec<String> = listed
            .map(|of| of.designation.split(' ').next().unwrap().to_owned())
            .collect();
        assert_eq!(shown, listed, "{text}");
        let none = percent(answers.none_of_these.probability);
        assert!(unescaped(&page).contains(&none), "{text}: {none}");
        if let Some(ask) = &answers.ask_next {
            assert!(
                unescaped(&page).contains(&ask.question),
                "{text}: {}",
                ask.question
            );
        }
    }
}

#[test]
fn alone_within_the_page_and_as_a_file_the_answer_is_the_same() {
    let server = Server::empty(demo_workspace());
    for text in QUESTIONS {
        let asked = format!("q={}", encoded(text));
        let alone = server.get(&format!("/answer?{asked}"));
        assert_eq!(alone.status, 200, "{text}");
        let alone = alone.text();
        assert!(!alone.contains("<html"), "{text}");
        let page = server.get(&format!("/?{asked}")).text();
        assert!(page.contains(&alone), "{text}");
        let file = server.get(&format!("/answer.html?{asked}"));
        let disposition = file.header("content-disposition").unwrap().to_owned();
        assert!(disposition.contains("answer.html"), "{disposition}");
        let file = file.text();
        assert!(file.contains(&alone), "{text}");
        // A file that is read where there is no network.
        for outside in ["http://", "https://", "src=", "<link", "<script", "url("] {
            assert!(!file.contains(outside), "{text}: {outside}");
        }
    }
}

#[test]
fn the_form_keeps_what_was_asked() {
    let server = Server::empty(demo_workspace());
    let page = server
        .get("/?q=%3Cb%3E%22&bore=39%2C98&od=90&width=23&kind=deep+groove&unit=mm&tool=micrometer&worn=yes")
        .text();
    for kept in [
        "name=\"q\" value=\"&lt;b&gt;&quot;\"",
        "name=\"bore\" value=\"39,98\"",
        "name=\"od\" value=\"90\"",
        "value=\"deep groove\" selected",
        "value=\"mm\" selected",
        "value=\"micrometer\" selected",
        "name=\"worn\" value=\"yes\" checked",
    ] {
        assert!(page.contains(kept), "no `{kept}` in {page}");
    }
}

#[test]
fn the_same_part_comes_out_of_figures_in_any_order_unit_and_notation() {
    let server = Server::empty(demo_workspace());
    // 6308 has 40 x 90 x 23 mm (ISO 15); an inch is 25.4 mm.
    for asked in [
        "bore=40&od=90&width=23",
        "bore=40,0&od=90.00&width=23",
        "bore=40&od=90&width=23&unit=mm",
        "bore=1.5748&od=3.5433&width=0.9055&unit=in",
        "bore=1,5748&od=3,5433&width=,9055&unit=in",
        "q=40x90x23&kind=deep+groove",
        "q=90+23+40&kind=deep+groove",
        "q=40+%C3%97+90+%C3%97+23&kind=deep+groove",
    ] {
        let page = server.get(&format!("/answer?{asked}")).text();
        let first = cards(&page).into_iter().next();
        assert_eq!(first.as_deref(), Some("6308"), "{asked}: {page}");
    }
}

/// SAE AS568-218 is 31.34 x 3.53 mm; ISO 2338 and ISO 8734 have 6 x 24 mm; DIN 471 has 25 mm, DIN 472 has 52 mm.
#[test]
fn each_kind_that_is_offered_is_found_by_the_figures_of_the_form() {
    let server = Server::empty(demo_workspace());
    for (asked, first, label) in [
        ("bore=31.34&width=3.53&kind=o-ring", "AS568-218", "Section"),
        ("od=6&width=24&kind=dowel+pin", "6x24", "Length"),
        ("od=25&kind=external+circlip", "DIN 471-25", "Shaft"),
        (
            "bore=52&kind=internal+circlip",
            "DIN 472-52",
            "Housing bore",
        ),
    ] {
        // Without scripting the page itself has the answer, and the names.
        let page = server.get(&format!("/?{asked}")).text();
        let card = page.find("<article").map_or("", |at| &page[at..]);
        let name = first.replace("6x24", "x24");
        assert!(card.contains(&name), "{asked}: {card}");
        assert!(page.contains(&format!(">{label}</span>")), "{asked}");
        assert!(!page.contains("contradict each other"), "{asked}");
    }
}

#[test]
fn whatever_is_asked_gets_an_answer_and_no_failure() {
    let server = Server::empty(demo_workspace());
    let long = "6".repeat(4_000);
    for asked in [
        "",
        "q=",
        "q=+++",
        "kind=deep+groove",
        "kind=nonsense&q=6308",
        "unit=furlong&bore=40",
        "q=%00%01%1B%5B31m",
        "q=%F0%9F%94%A7+%E2%80%AE6308",
        "q=1e308+1e-308+nan+inf",
        "q=99999999999999999999999",
        "q=-1+-2+-3",
        "q=0+0+0",
        "q=%3Cscript%3Ealert(1)%3C%2Fscript%3E",
        "bore=abc&od=%22&width=%27",
        "q=6308&nothing=known",
        &format!("q={long}"),
    ] {
        for path in ["/answer?", "/?", "/answer.html?"] {
            let reply = server.get(&format!("{path}{asked}"));
            assert_eq!(reply.status, 200, "{path}{asked}: {}", reply.text());
            let text = reply.text();
            assert!(!text.contains("<script>"), "{path}{asked}: {text}");
            assert!(
                !text.contains('\u{1b}') && !text.contains('\0'),
                "{path}{asked}"
            );
        }
    }
}

#[test]
fn what_no_page_could_send_is_refused_without_harm() {
    let server = Server::empty(demo_workspace());
    for (method, path, status) in [
        ("GET", "/answer?q=%FF%FE", &[200, 400][..]),
        ("GET", "/answer?q=6308&q=6310", &[200, 400]),
        ("GET", "/kits/-1", &[400, 404]),
        ("GET", "/kits/99999999999999999999", &[400, 404]),
        ("GET", "/levels?budget=abc", &[200]),
        ("GET", "/levels?budget=NaN", &[200]),
        ("GET", "/levels?budget=-5", &[200]),
        ("GET", "/levels?budget=1e300", &[200]),
        ("GET", "/table/nothing", &[404]),
        ("GET", "/table/..%2F..%2Fetc%2Fpasswd", &[404]),
        ("GET", "/download/..%2Fcurrent", &[404]),
        ("GET", "/download/reorder.exe", &[404]),
        ("GET", "/asset/..%2F..%2Fcurrent", &[404]),
        ("GET", "//elsewhere.example/", &[404]),
        ("POST", "/answer", &[405]),
        ("DELETE", "/import", &[405]),
        ("PUT", "/kits/0", &[405]),
        ("OPTIONS", "/", &[405]),
    ] {
        let reply = server.send(method, path, &[], b"");
        assert!(
            status.contains(&reply.status),
            "{method} {path}: {}",
            reply.head
        );
        assert!(
            reply.header("content-security-policy").is_some(),
            "{method} {path}"
        );
    }
    let head = "x".repeat(40_000);
    let reply = server.send("GET", "/", &[("X-Much", &head)], b"");
    assert!(matches!(reply.status, 0 | 400 | 431), "{}", reply.head);
    assert_eq!(server.get("/").status, 200, "the server goes on");
}

fn milliseconds(reply: &Reply) -> f64 {
    let header = reply
        .header("server-timing")
        .expect("an answer tells its time");
    let (name, took) = header
        .split_once(";dur=")
        .expect("in the form of W3C Server Timing");
    assert_eq!(name, "answer");
    took.parse().unwrap()
}

#[test]
fn every_answer_tells_what_it_took_within_the_server() {
    let server = Server::empty(demo_workspace());
    for path in [
        "/",
        "/answer?q=6308",
        "/kits",
        "/nowhere",
        "/asset/page.css",
    ] {
        let took = milliseconds(&server.get(path));
        assert!(took.is_finite() && took >= 0.0, "{path}: {took}");
    }
    let start = std::time::Instant::now();
    let took = milliseconds(&server.get("/levels"));
    // The client waits for all of it.
    assert!(took <= start.elapsed().as_secs_f64() * 1e3);
    let foreign = server.send_raw("GET", "/", &[("Host", "rebound.example")], b"");
    assert!(milliseconds(&foreign) >= 0.0);
}

#[test]
fn an_import_is_seen_by_the_very_next_question() {
    let folder = tempfile::tempdir().unwrap();
    let space = folder.path().join("space");
    let server = Server::empty(&space);
    assert!(cards(&server.get("/answer?q=6308").text()).contains(&"6308".to_owned()));
    for bin in 1..=5 {
        let parts = "Part no;Designation;Description;Unit\nB-1;6308;Bearing;pcs\n";
        let stock = format!("Part no;Bin;On hand;Unit\nB-1;R-{bin};{bin};pcs\n");
        let stock_name = format!("stock_2026-03-0{bin}.csv");
        let lists = imported::lists(
            &folder.path().join(bin.to_string()),
            &[("parts.csv", parts), (&stock_name, &stock)],
        );
        assert!(imported::import(&lists, &space).status.success());
        let text = server.get("/answer?q=6308").text();
        assert!(text.contains(&format!("R-{bin}<")), "{bin}: {text}");
    }
}

#[test]
fn german_answers_are_the_same_however_often_they_are_given() {
    // Translators rest between requests with what they said; another question in between must not change an answer.
    let server = Server::empty(demo_workspace());
    let ask = |text: &str, language: &str| {
        let path = format!("/answer?q={}", encoded(text));
        server
            .send("GET", &path, &[("Accept-Language", language)], b"")
            .text()
    };
    let first: Vec<String> = QUESTIONS.iter().map(|text| ask(text, "de")).collect();
    let english: Vec<String> = QUESTIONS.iter().map(|text| ask(text, "en")).collect();
    for round in 0..3 {
        for (text, (german, english)) in QUESTIONS.iter().zip(first.iter().zip(&english)) {
            assert_eq!(&ask(text, "de"), german, "{text}, round {round}");
            assert_eq!(&ask(text, "en"), english, "{text}, round {round}");
        }
    }
    assert_ne!(first, english);
}

#[test]
fn clients_of_both_languages_at_once_get_each_their_own() {
    let server = Server::empty(demo_workspace());
    std::thread::scope(|scope| {
        for client in 0..24 {
            let server = &server;
            scope.spawn(move || {
                let (language, words, other) = match client % 2 {
                    0 => ("de", "Sicherheitshinweise", "aria-label=\"Cautions\""),
                    _ => ("en", "aria-label=\"Cautions\"", "Sicherheitshinweise"),
                };
                for text in QUESTIONS {
                    let path = format!("/answer?q={}", encoded(text));
                    let reply = server.send("GET", &path, &[("Accept-Language", language)], b"");
                    let page = reply.text();
                    assert!(page.contains(words), "{language}, {text}: {page}");
                    assert!(!page.contains(other), "{language}, {text}: {page}");
                }
            });
        }
    });
}

#[test]
fn offers_that_have_ended_stand_behind_the_others_and_say_so() {
    let parts = "Part no;Designation;Unit\nB-1;6308 C3;pcs\n";
    let offers = "Supplier;Part no;Price;Currency;Lead time;Quote date;Valid until\n\
        Alder;B-1;10.00;EUR;5 days;2026-01-05;2026-02-28\n\
        Birch;B-1;12.00;EUR;5 days;2026-01-05;2026-03-09\n\
        Cedar;B-1;9.00;EUR;5 days;2026-01-05;2026-03-08\n\
        Hazel;B-1;15.00;EUR;5 days;2026-01-05;\n";
    // Birch's ends on the day itself, and holds on it.
    let settings = "as_of = \"2026-03-09T07:30\"\ncurrency = \"EUR\"\n";
    let folder = tempfile::tempdir().unwrap();
    let space = folder.path().join("space");
    let lists = imported::lists(
        folder.path(),
        &[
            ("parts.csv", parts),
            ("offers.csv", offers),
            ("shop.toml", settings),
        ],
    );
    let done = imported::import(&lists, &space);
    assert!(done.status.success(), "{done:?}");
    let server = Server::empty(&space);
    for (code, ended) in [("en", "no longer valid"), ("de", "nicht mehr gültig")] {
        let reply = server.send(
            "GET",
            "/answer?q=6308+C3",
            &[("Accept-Language", code)],
            b"",
        );
        let page = reply.text();
        let said: Vec<(&str, bool)> = page
            .split("<li")
            .filter_map(|line| {
                let suppliers = ["Alder", "Birch", "Cedar", "Hazel"];
                let supplier = suppliers.into_iter().find(|of| line.contains(of))?;
                Some((supplier, line.contains(ended)))
            })
            .collect();
        let named = |has_ended: bool| -> Vec<&str> {
            let of = said.iter().filter(|(_, ended)| *ended == has_ended);
            let mut names: Vec<&str> = of.map(|(supplier, _)| *supplier).collect();
            names.sort_unstable();
            names
        };
        assert_eq!(named(false), ["Birch", "Hazel"], "{code}: {page}");
        assert_eq!(named(true), ["Alder", "Cedar"], "{code}: {page}");
        assert!(
            said.is_sorted_by_key(|(_, has_ended)| *has_ended),
            "{said:?}"
        );
    }
}

#[test]
fn what_the_form_adds_to_a_question_is_said_in_the_language_of_the_page() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let asked =
        "/answer?bore=39%2C98&od=89%2C99&width=23&kind=deep+groove&tool=micrometer&worn=yes";
    for (code, heading) in [
        (
            "en",
            "bore 39,98 od 89,99 width 23 deep groove micrometer worn",
        ),
        (
            "de",
            "Bohrung 39,98 Außen 89,99 Breite 23 Rillenkugellager Messschraube verschlissen",
        ),
    ] {
        let reply = server.send("GET", asked, &[("Accept-Language", code)], b"");
        let page = reply.text();
        let heading = format!("<h2 class=\"asked\">{heading}</h2>");
        assert!(
            page.contains(&heading) && page.contains("6308"),
            "{code}: {page}"
        );
    }
}
