use super::*;

fn german() -> Language {
    Language::of_code("de").unwrap()
}

/// A language of its own for tests of the matching.
fn say(file: &'static str, english: &str) -> (String, bool) {
    let (messages, faults) = Messages::read_checking(file);
    assert_eq!(faults, [""; 0]);
    let mut translator = Translator::new(german());
    let said = translator.say_with(&messages, english);
    (said, translator.missing().is_empty())
}

#[test]
fn every_message_file_can_be_read() {
    for (at, file) in FILES.iter().enumerate() {
        let (messages, faults) = Messages::read_checking(file);
        assert_eq!(faults, [""; 0], "file {at}");
        let form = &messages.form;
        for said in [form.code, form.name, form.date, form.workbook_date] {
            assert!(!said.is_empty(), "file {at}: {form:?}");
        }
        // ISO 639-1: two letters.
        assert_eq!(form.code.len(), 2, "file {at}");
    }
}

#[test]
fn faults_of_a_message_file_are_named() {
    for (file, fault) in [
        ("Order now", "line 1: no tab"),
        ("Order now\t", "line 1: no translation"),
        ("a\tb\na\tc", "line 2: `a` stands twice"),
        ("{n} of {n}\t{n}", "line 1: hole `n` must stand once"),
        ("{n} of {n2}\t{n3}", "line 1: hole `n3` must stand once"),
        ("{n}{s}\t{s}", "line 1: two holes need words between them"),
        ("{x} of\t{x}", "line 1: hole `x` must begin with"),
        ("{n of\tx", "line 1: a hole has no end"),
        ("{n}\t{n}", "line 1: holes alone are no message"),
    ] {
        let (_, faults) = Messages::read_checking(file);
        assert_eq!(faults.len(), 1, "{file}: {faults:?}");
        assert!(faults[0].starts_with(fault), "{file}: {faults:?}");
    }
}

#[test]
fn numbers_and_dates_take_the_form_of_the_language() {
    // DIN 5008: comma before decimals, point between groups of amounts, day.month.year (from memory).
    let german = german();
    assert_eq!(german.number("-1,234,567.89"), "-1.234.567,89");
    let day = NaiveDate::from_ymd_opt(2026, 3, 9).unwrap();
    assert_eq!(german.date(day), "09.03.2026");
    assert_eq!(
        german.moment(day.and_hms_opt(7, 30, 0).unwrap()),
        "09.03.2026 07:30"
    );
    assert_eq!(Language::ENGLISH.date(day), "2026-03-09");
    assert_eq!(Language::ENGLISH.number("1,234.5"), "1,234.5");
}

#[test]
fn holes_may_stand_in_another_order() {
    let file =
        "#: decimal ,\n#: group .\n#: date %d.%m.%Y\n{n1} of {s} by {d}\tam {d} von {s}: {n1}";
    let said = say(file, "1,234.5 of 6205 by 2026-03-09");
    assert_eq!(said, ("am 09.03.2026 von 6205: 1.234,5".to_owned(), true));
}

#[test]
fn the_template_with_most_words_wins_and_words_of_the_shop_stay() {
    let file = "{s}, line {s2}\t{s}, Position {s2}\n{s}, by courier, line {s2}\t{s}, per Kurier, Position {s2}\nfree\tfrei";
    assert_eq!(say(file, "Press, line 10").0, "Press, Position 10");
    assert_eq!(
        say(file, "Press, by courier, line 10").0,
        "Press, per Kurier, Position 10"
    );
    // A name that is a word of the program elsewhere.
    assert_eq!(say(file, "free, line free").0, "free, Position free");
    // A number inside a name is no number of ours.
    assert_eq!(
        say(file, "Press 2.5 of 2026-03-09, line 1.5").0,
        "Press 2.5 of 2026-03-09, Position 1.5"
    );
}

#[test]
fn a_place_comes_off_before_what_is_said_of_it_is_taken_apart() {
    let file = "{s}, row {n}\t{s}, Zeile {n}\nno unit of `{s}`; pieces are assumed\tkeine Einheit von `{s}`; Stück angenommen\n\
                {s1}, sheet `{s2}`, {s3}\t{s1}, Blatt `{s2}`, {s3}";
    for (english, german) in [
        // No place: rows of a file are not grouped.
        (
            "stock.csv, row x: no unit of `B-1`; all are assumed",
            "stock.csv, row x: no unit of `B-1`; all are assumed",
        ),
        (
            "stock.csv, row 7: no unit of `B-1`; pieces are assumed",
            "stock.csv, Zeile 7: keine Einheit von `B-1`; Stück angenommen",
        ),
        (
            "stock.xlsx, sheet `A`, C7: no unit of `B: x, row 3`; pieces are assumed",
            "stock.xlsx, Blatt `A`, C7: keine Einheit von `B: x, row 3`; Stück angenommen",
        ),
    ] {
        let (said, is_whole) = say(file, english);
        assert_eq!(said, german);
        assert_eq!(is_whole, english != german, "{english}");
    }
}

#[test]
fn one_is_said_as_one_and_a_cell_with_its_sheet() {
    for (english, in_german) in [
        ("1 of 7 lines missing", "1 von 7 Positionen fehlt"),
        ("2 of 7 lines missing", "2 von 7 Positionen fehlen"),
        ("11 of 12 lines missing", "11 von 12 Positionen fehlen"),
        (
            "3 read, 0 rejected; 1 table, 1 file skipped, 0 could not be read",
            "3 gelesen, 0 abgelehnt; 1 Tabelle, 1 Datei übersprungen, 0 nicht lesbar",
        ),
        (
            "3 read, 0 rejected; 12 tables, 1 file skipped, 0 could not be read",
            "3 gelesen, 0 abgelehnt; 12 Tabellen, 1 Datei übersprungen, 0 nicht lesbar",
        ),
        (
            "parts.xlsx, sheet `Bearings`, A10",
            "parts.xlsx, Blatt `Bearings`, A10",
        ),
        (
            "parts.xlsx, sheet `Bearings`, row 4",
            "parts.xlsx, Blatt `Bearings`, Zeile 4",
        ),
    ] {
        assert_eq!(german().text(english), in_german);
    }
}

#[test]
fn a_sentence_keeps_its_joint_where_a_message_has_it() {
    let file = "{n} free, {n2} on order\t{n} frei, {n2} bestellt\nreorder point {n}\tMeldebestand {n}\n\
                never used: {t}; it would pay from {n} on\tnie verbraucht: {t}; lohnt ab {n}\nno machine\tkeine Maschine";
    assert_eq!(
        say(
            file,
            "1 free, 0 on order; reorder point 2. Never used: no machine; it would pay from 0.5 on."
        ),
        (
            "1 frei, 0 bestellt; Meldebestand 2. Nie verbraucht: keine Maschine; lohnt ab 0.5."
                .to_owned(),
            true
        )
    );
}

#[test]
fn joined_texts_are_taken_apart_outside_of_brackets_and_quotes() {
    let file = "a\tA1\nb\tB1\nnamed `{s}`\tgenannt `{s}`\nset ({s})\tSatz ({s})";
    assert_eq!(say(file, "a; b. a"), ("A1; B1. A1".to_owned(), true));
    assert_eq!(
        say(file, "a; named `b; a`"),
        ("A1; genannt `b; a`".to_owned(), true)
    );
    assert_eq!(
        say(file, "set (b; a); b"),
        ("Satz (b; a); B1".to_owned(), true)
    );
    // What has no message stays, and is told.
    assert_eq!(say(file, "a; c"), ("A1; c".to_owned(), false));
}

#[test]
fn a_full_stop_and_a_large_first_letter_need_no_message() {
    let file = "equal size\tgleiche Größe";
    assert_eq!(
        say(file, "Equal size."),
        ("Gleiche Größe.".to_owned(), true)
    );
}

#[test]
fn a_hole_for_a_text_takes_only_texts() {
    let file = "no level: {t}\tkeine Vorgabe: {t}\nno price\tkein Preis\nkept: {w}\tgehalten: {w}\nnot known: {l}\tunbekannt: {l}\nbore\tBohrung";
    assert_eq!(
        say(file, "no level: no price"),
        ("keine Vorgabe: kein Preis".to_owned(), true)
    );
    assert_eq!(
        say(file, "no level: Schmidt"),
        ("keine Vorgabe: Schmidt".to_owned(), false)
    );
    assert_eq!(
        say(file, "kept: Schmidt"),
        ("gehalten: Schmidt".to_owned(), true)
    );
    assert_eq!(
        say(file, "not known: bore, no price"),
        ("unbekannt: Bohrung, kein Preis".to_owned(), true)
    );
}

#[test]
fn odd_texts_never_panic() {
    let mut translator = Translator::new(german());
    for text in [
        "",
        ".",
        "; ",
        "äöü; ",
        "((((",
        "`",
        "{n}",
        "-",
        "2026-03-0ä",
        "\u{1f527}; \u{1f527}. ",
        "12.",
        ")); (",
    ] {
        translator.say(text);
    }
    let long = "a; ".repeat(5_000);
    assert_eq!(translator.say(&long), long);
}

#[test]
fn the_browser_is_asked_for_its_languages() {
    // RFC 9110, section 12.5.4: the weights decide, 0 is refused.
    for (header, code) in [
        ("de-AT,de;q=0.9,en;q=0.5", "de"),
        ("en-GB,en;q=0.9,de;q=0.1", "en"),
        ("fr, de;q=0.4, en;q=0.8", "en"),
        ("fr", "en"),
        ("de;q=0, *", "en"),
        ("de;q=x", "en"),
        ("", "en"),
    ] {
        assert_eq!(Language::accepted(header).code(), code, "{header}");
    }
}

#[test]
fn sentences_behind_a_joined_one_are_said_too() {
    let mut translator = Translator::new(german());
    let text = "0 free, 0 on order; reorder point 0. Never used in 1890 days of records, only its group's rate asks for it: no machine of the highest criticality is known to use it; the first one would pay from 0.22 EUR an hour down on.";
    assert_eq!(
        translator.say(text),
        "0 verfügbar, 0 bestellt; Meldebestand 0. In 1890 Tagen Aufzeichnung nie verbraucht, nur die Rate seiner Gruppe verlangt es: keine Maschine der höchsten Kritikalität braucht es, soweit bekannt; das erste würde sich ab 0,22 EUR je Stunde Stillstand lohnen."
    );
    translator.say("0 free, 0 on order; reorder point 0. Never used in 1890 days of records, only its group's rate asks for it: an insurance for PS-8, the first one pays from 9.46 EUR an hour down on and an hour costs 290.00 EUR.");
    assert!(
        translator.missing().is_empty(),
        "{:?}",
        translator.missing()
    );
}

#[test]
fn moments_have_the_day_of_the_week_of_the_language() {
    // 2026-03-09 is a Monday.
    let monday = chrono::NaiveDate::from_ymd_opt(2026, 3, 9).unwrap();
    for (day, english, german) in [
        (0, "Mon 2026-03-09 07:05", "Mo 09.03.2026 07:05"),
        (2, "Wed 2026-03-11 07:05", "Mi 11.03.2026 07:05"),
        (6, "Sun 2026-03-15 07:05", "So 15.03.2026 07:05"),
    ] {
        let date = monday + chrono::Days::new(day);
        let moment = date.and_hms_opt(7, 5, 0).unwrap();
        assert_eq!(Language::ENGLISH.moment_on_weekday(moment), english);
        let of_german = Language::of_code("de").unwrap();
        assert_eq!(of_german.moment_on_weekday(moment), german);
    }
    let moment = monday.and_hms_opt(7, 5, 0).unwrap();
    assert_eq!(Language::ENGLISH.short_moment(moment), "Mon 09 Mar 07:05");
    let german = Language::of_code("de").unwrap();
    assert_eq!(german.short_moment(moment), "Mo 09.03. 07:05");
}

#[test]
fn every_language_names_seven_days() {
    for language in Language::all() {
        let monday = chrono::NaiveDate::from_ymd_opt(2026, 3, 9).unwrap();
        let midnight = chrono::NaiveTime::MIN;
        let days = (0..7).map(|day| (monday + chrono::Days::new(day)).and_time(midnight));
        let names: std::collections::BTreeSet<String> = days
            .map(|moment| language.moment_on_weekday(moment))
            .map(|words| words.split(' ').next().unwrap().to_owned())
            .collect();
        assert_eq!(names.len(), 7, "{}: {names:?}", language.code());
        assert!(names.iter().all(|name| !name.is_empty()));
    }
}

#[test]
fn money_in_a_reason_is_written_as_the_language_writes_it() {
    // DIN 5008: a comma before decimals, points between groups.
    let mut translator = Translator::new(german());
    for (english, amounts) in [
        (
            "bought from North, which costs 1,250.50 EUR less a year than the lower unit price of South with its quantity, lead time and freight",
            ["1.250,50 EUR", "North"],
        ),
        (
            "never used in 1890 days of records, only its group's rate asks for it: an hour of Mill costs 2,400.00 EUR, the first one would pay from 14,000.00 EUR on",
            ["2.400,00 EUR", "14.000,00 EUR"],
        ),
        (
            "economic quantity 14.1 at 1,250.50 EUR each",
            ["14,1", "1.250,50 EUR"],
        ),
    ] {
        let said = translator.say(english);
        assert!(amounts.iter().all(|amount| said.contains(amount)), "{said}");
    }
    assert!(
        translator.missing().is_empty(),
        "{:?}",
        translator.missing()
    );
}

#[test]
fn what_a_row_misses_is_said_of_every_kind_of_row() {
    let mut translator = Translator::new(german());
    for record in [
        "approval",
        "kit line",
        "kit task",
        "machine",
        "offer",
        "part",
        "planned rebuild",
        "receipt",
        "stock row",
        "supplier",
        "usage",
        "way other than buying",
    ] {
        let missing = format!(
            "part number is missing; {} needs one",
            super::with_article(record)
        );
        for text in [
            missing.clone(),
            format!("{missing}, and `?` is read as no value"),
        ] {
            let said = translator.say(&text);
            assert!(!said.contains(record) || record == "part", "{said}");
        }
    }
    assert!(
        translator.missing().is_empty(),
        "{:?}",
        translator.missing()
    );
}

/// Arithmetic of the message file beside it.
#[test]
fn a_list_is_taken_apart_before_words_of_the_shop_take_in_what_follows() {
    let file = "What if {l}\tWas, wenn {l}\n{s} is gone\t{s} wegfällt\nand {s} is gone\tund {s} wegfällt\n{s} ({l})\t{s} ({l})\nclearance {s}\tLagerluft {s}\nbore {w}\tBohrung {w}\ncylindrical\tzylindrisch";
    for (english, said) in [
        (
            "What if A is gone, and B is gone",
            "Was, wenn A wegfällt, und B wegfällt",
        ),
        // A name may hold a comma itself.
        ("What if A, B is gone", "Was, wenn A, B wegfällt"),
        (
            "22311 (clearance CN, bore cylindrical)",
            "22311 (Lagerluft CN, Bohrung zylindrisch)",
        ),
    ] {
        assert_eq!(say(file, english), (said.to_owned(), true));
    }
}

#[test]
fn what_tables_and_seals_say_beside_their_rows_is_german() {
    let mut words = Translator::new(german());
    for text in [
        "Elastomer for the fluid and heat asked for: NBR, HNBR, FKM",
        "column `Our P/N` is the supplier's number, since no column names a supplier: the list is the supplier's own",
        "`pfennigring` stands in the name of the file",
        "supplier Nord; neither header nor title names a currency; prices without one are taken as EUR; hidden sheet",
        "tasks",
        "Row in the file",
        "18 mm is the width of its inner ring (B), and the bearing is 19.75 mm wide: measure the whole, cone in cup",
    ] {
        words.say(text);
    }
    assert!(words.missing().is_empty(), "{:?}", words.missing());
}
