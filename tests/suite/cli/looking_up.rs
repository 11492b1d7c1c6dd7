//! `match` at the command line: words in one argument or several, forms, languages, and questions that are none.

use super::program::Bench;

#[test]
fn a_question_in_several_words_is_the_same_as_in_one() {
    let bench = Bench::new();
    for (one, several) in [
        (
            "30 x 62 x 16 deep groove",
            &["30", "x", "62", "x", "16", "deep", "groove"][..],
        ),
        ("6206-2RS C3", &["6206-2RS", "C3"]),
        (
            "bore 40 od 68 room for 15",
            &["bore 40", "od 68", "room for 15"],
        ),
    ] {
        let said = bench.said(&["match", one]);
        assert_eq!(bench.said(&[&["match"], several].concat()), said, "{one}");
    }
}

#[test]
fn the_json_form_has_its_fields_whatever_is_asked() {
    let bench = Bench::new();
    for asked in [
        "6206",
        "30 x 62 x 16",
        "o-ring 31.34 x 3.53",
        "63?6",
        "oil seal 40 x 62 x 8",
        "external circlip 25",
        "KM8",
        "bore 12.345 od 99.876 w 3.21",
        "Rillenkugellager 40 90 23",
        "dowel pin 6 x 30",
    ] {
        let json = bench.json(&["match", asked]);
        assert_eq!(json["schema"], 1, "{asked}");
        for key in [
            "query",
            "answers",
            "refused",
            "not_listed",
            "none_of_these",
            "ask_next",
            "worked_out",
            "warnings",
            "cautions",
        ] {
            assert!(json.get(key).is_some(), "{asked}: {key}");
        }
        assert_eq!(json["query"]["text"], asked);
        let answers = json["answers"].as_array().unwrap();
        let mut sum = json["none_of_these"]["probability"].as_f64().unwrap();
        assert!((0.0..=1.0).contains(&sum), "{asked}: {sum}");
        let mut sizes = std::collections::BTreeMap::new();
        for answer in answers {
            let share = answer["probability"].as_f64().unwrap();
            assert!((0.0..=1.0).contains(&share), "{asked}: {answer}");
            // Answers of one size share its probability.
            sizes.insert(
                answer["dimensions"].to_string() + &answer["kind"].to_string(),
                share,
            );
        }
        sum += sizes.values().sum::<f64>();
        assert!(
            sum < 1.0 + 1e-6,
            "{asked}: probabilities of sizes add up to {sum}"
        );
        assert!(!json["cautions"].as_array().unwrap().is_empty(), "{asked}");
    }
}

#[test]
fn the_most_probable_size_comes_first() {
    let bench = Bench::new();
    for asked in [
        "44.96 84.9 19 worn",
        "bore 40 od 68 room for 15",
        "63?6",
        "lip free id 33.6 on 35 shaft",
    ] {
        let json = bench.json(&["match", asked]);
        let shares: Vec<f64> = json["answers"]
            .as_array()
            .unwrap()
            .iter()
            .filter(|answer| answer["verdict"] == json["answers"][0]["verdict"])
            .map(|answer| answer["probability"].as_f64().unwrap())
            .collect();
        assert!(shares.len() > 1, "{asked}: {shares:?}");
        assert!(
            shares.windows(2).all(|pair| pair[0] >= pair[1]),
            "{asked}: {shares:?}"
        );
    }
}

#[test]
fn own_numbers_stock_and_offers_come_from_folder_and_workspace_alike() {
    let bench = Bench::new();
    bench.said(&["import", "shop", "--workspace", "kept"]);
    for asked in ["A-1", "6205-2RS", "A-3", "6206", "35x52x7"] {
        let folder = bench.json(&["match", asked, "--shop", "shop"]);
        let kept = bench.json(&["match", asked, "--workspace", "kept"]);
        assert_eq!(folder["answers"], kept["answers"], "{asked}");
        assert_eq!(folder["none_of_these"], kept["none_of_these"], "{asked}");
    }
    let own = bench.json(&["match", "A-1", "--shop", "shop"]);
    let answers = own["answers"].as_array().unwrap();
    let first = answers
        .iter()
        .find(|of| of["number"] == "A-1")
        .unwrap_or_else(|| panic!("{answers:?}"));
    let suppliers: Vec<&str> = first["offers"]
        .as_array()
        .unwrap()
        .iter()
        .map(|of| of["supplier"].as_str().unwrap())
        .collect();
    assert!(
        suppliers.contains(&"North") && suppliers.contains(&"South"),
        "{suppliers:?}"
    );
    // Without a shop nothing of it is known.
    let alone = bench.json(&["match", "6205-2RS"]);
    assert!(
        alone["answers"]
            .as_array()
            .unwrap()
            .iter()
            .all(|of| of["number"].is_null())
    );
}

#[test]
fn a_question_that_is_none_is_wrong_usage_with_an_example() {
    let bench = Bench::new();
    for none in ["", "   ", "bearing", "???", "-", "hello there"] {
        let said = bench.run(&["match", none]);
        assert_eq!(said.code, 2, "{none:?}: {}{}", said.out, said.errors);
        assert!(
            said.errors.starts_with("error: "),
            "{none:?}: {}",
            said.errors
        );
        assert!(said.errors.len() > 30, "{none:?}: {}", said.errors);
    }
    bench.refused(&["match"], 2);
    bench.refused(
        &["match", "6205", "--shop", "shop", "--workspace", "kept"],
        2,
    );
    bench.refused(&["match", "6205", "--format", "csv"], 2);
    bench.refused(&["match", "6205", "--shop", "nowhere"], 3);
}

#[test]
fn signs_that_steer_a_terminal_are_not_printed() {
    let bench = Bench::new();
    bench.write(
        "shop/parts.csv",
        "part no,designation,description\nA-1\u{7},6205-2RS,\u{1b}[31mred\u{1b}[0m\n",
    );
    for arguments in [
        &["match", "6205 \u{1b}[2J"][..],
        &["match", "6205-2RS", "--shop", "shop"],
        &["levels", "--shop", "shop"],
        &["kit", "\u{1b}]0;title\u{7}", "--shop", "shop"],
    ] {
        let said = bench.run(arguments);
        for text in [&said.out, &said.errors] {
            let steers = text
                .chars()
                .any(|sign| sign.is_control() && !matches!(sign, '\n' | '\t' | '\r'));
            assert!(!steers, "{arguments:?}: {text:?}");
        }
    }
}

#[test]
fn figures_with_comma_point_and_fraction_are_one_question() {
    let bench = Bench::new();
    let first = |asked: &str| {
        let json = bench.json(&["match", asked]);
        json["answers"][0]["designation"]
            .as_str()
            .unwrap_or("-")
            .to_owned()
    };
    for asked in [
        "19.05 x 41.275 x 11.112 deep groove",
        "19,05 x 41,275 x 11,112 deep groove",
        "3/4 x 1 5/8 x 7/16 deep groove",
        "0.75 in x 1.625 in x 0.4375 in deep groove",
        "3/4\" x 1-5/8\" x 7/16\" deep groove",
    ] {
        // R12 of ABMA 20: 3/4 x 1 5/8 x 7/16 in, closed.
        assert!(first(asked).starts_with("R12"), "{asked}: {}", first(asked));
    }
}
