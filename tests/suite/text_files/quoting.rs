//! Quotes, line ends and blank lines, by the rules of RFC 4180, section 2.

use proptest::prelude::*;

use super::stock;

const HEADER: &str = "Part no,Bin,On hand\n";

#[test]
fn cells_are_read_by_the_rules_of_rfc_4180() {
    for (rule, body, expected) in [
        (
            "2.1 each record on its own line",
            "A-1,R1,5\nA-2,R2,6\n",
            &["row 2: A-1|R1|5", "row 3: A-2|R2|6"][..],
        ),
        (
            "2.1 lines end in CR LF",
            "A-1,R1,5\r\nA-2,R2,6\r\n",
            &["row 2: A-1|R1|5", "row 3: A-2|R2|6"],
        ),
        (
            "2.2 the last line may lack its end",
            "A-1,R1,5\nA-2,R2,6",
            &["row 2: A-1|R1|5", "row 3: A-2|R2|6"],
        ),
        (
            "2.5 a field may be quoted",
            "\"A-1\",\"R1\",\"5\"\n",
            &["row 2: A-1|R1|5"],
        ),
        (
            "2.5 some fields may be quoted",
            "A-1,\"R1\",5\n",
            &["row 2: A-1|R1|5"],
        ),
        (
            "2.6 a quoted field may hold a comma",
            "\"A,1\",\"R 1,2\",5\n",
            &["row 2: A,1|R 1,2|5"],
        ),
        (
            "2.6 a quoted field may hold a line end",
            "A-1,\"R1\nleft\",5\nA-2,R2,6\n",
            &["row 2: A-1|R1\nleft|5", "row 3: A-2|R2|6"],
        ),
        (
            "2.7 a quote is doubled",
            "A-1,\"R \"\"1\"\"\",5\n",
            &["row 2: A-1|R \"1\"|5"],
        ),
        (
            "2.7 nothing but a quote",
            "A-1,\"\"\"\",5\n",
            &["row 2: A-1|\"|5"],
        ),
        (
            "2.5 a quote inside an unquoted field is itself",
            "A-1,3/8\" bin,5\n",
            &["row 2: A-1|3/8\" bin|5"],
        ),
        (
            "2.5 an empty quoted field is empty",
            "A-1,\"\",5\n",
            &["row 2: A-1|-|5"],
        ),
        ("an empty field is empty", "A-1,,5\n", &["row 2: A-1|-|5"]),
        (
            "blanks around a field are not of it",
            " A-1 ,  R1, 5 \n",
            &["row 2: A-1|R1|5"],
        ),
        (
            "a short row lacks its last fields",
            "A-1,R1\nA-2,R2,6\n",
            &["row 2: A-1|R1|?", "row 3: A-2|R2|6"],
        ),
        (
            "a row longer than its header may have slipped and is not read",
            "A-1,R1,5,x,y\nA-2,R2,6,,\n",
            &["row 3: A-2|R2|6"],
        ),
        (
            "an apostrophe is of its field",
            "'A-1,R1,5\n",
            &["row 2: 'A-1|R1|5"],
        ),
        (
            "a tab inside a field is a blank at its ends",
            "\tA-1\t,R1,5\n",
            &["row 2: A-1|R1|5"],
        ),
    ] {
        assert_eq!(
            stock(format!("{HEADER}{body}").as_bytes()),
            expected,
            "{rule}"
        );
    }
}

#[test]
fn rows_keep_the_number_an_editor_shows_past_blank_lines() {
    for (body, expected) in [
        (
            "A-1,R1,5\n\nA-2,R2,6\n",
            &["row 2: A-1|R1|5", "row 4: A-2|R2|6"][..],
        ),
        ("\n\n\nA-1,R1,5\n", &["row 5: A-1|R1|5"]),
        (
            "A-1,R1,5\r\n\r\n\r\nA-2,R2,6\r\n",
            &["row 2: A-1|R1|5", "row 5: A-2|R2|6"],
        ),
        (
            "A-1,R1,5\n,,\n , ,\nA-2,R2,6\n",
            &["row 2: A-1|R1|5", "row 5: A-2|R2|6"],
        ),
        ("A-1,R1,5\n\n\n\n", &["row 2: A-1|R1|5"]),
        (
            "\"A-1\",R1,5\n\n\"A-2\",R2,6\n",
            &["row 2: A-1|R1|5", "row 4: A-2|R2|6"],
        ),
    ] {
        assert_eq!(
            stock(format!("{HEADER}{body}").as_bytes()),
            expected,
            "{body:?}"
        );
    }
    // Titles and blank lines above the header count too.
    let titled = format!("Stock list\n\n\n{HEADER}A-1,R1,5\n");
    assert_eq!(stock(titled.as_bytes()), ["row 5: A-1|R1|5"]);
}

#[test]
fn a_problem_stands_at_the_cell_an_editor_shows() {
    for (body, at) in [
        ("A-1,R1,oops\n", "stock.csv, C2"),
        ("A-1,R1,5\n\nA-2,R2,oops\n", "stock.csv, C4"),
        ("\"A,1\",\"R,1\",oops\n", "stock.csv, C2"),
        ("A-1,R1,5\nA-2,R2,6\nA-3,R3,-?-7\n", "stock.csv, C4"),
    ] {
        let imported = super::import("stock.csv", format!("{HEADER}{body}").as_bytes()).unwrap();
        let places: Vec<String> = imported
            .issues
            .iter()
            .map(|issue| issue.place.to_string())
            .collect();
        assert_eq!(places, [at], "{body:?}");
    }
}

/// A field as RFC 4180 would write it.
fn quoted(field: &str) -> String {
    format!("\"{}\"", field.replace('"', "\"\""))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    /// What is quoted and what is not is one and the same field, wherever it needs no quotes.
    #[test]
    fn quotes_change_nothing(
        rows in prop::collection::vec(("[A-Z]{2}-[0-9]{3}", "[A-Z][0-9]{1,3}", 0_u32..10_000), 1..12),
        quotes in prop::collection::vec(any::<bool>(), 36),
        ends in prop::sample::select(vec!["\n", "\r\n"]),
    ) {
        let plain: String = rows.iter().map(|(part, bin, on_hand)| format!("{part},{bin},{on_hand}{ends}")).collect();
        let mut quote = quotes.iter().cycle();
        let mut maybe = |field: &str| {
            if *quote.next().unwrap() { quoted(field) } else { field.to_owned() }
        };
        let mixed: String = rows
            .iter()
            .map(|(part, bin, on_hand)| format!("{},{},{}{ends}", maybe(part), maybe(bin), maybe(&on_hand.to_string())))
            .collect();
        prop_assert_eq!(stock(format!("{HEADER}{plain}").as_bytes()), stock(format!("{HEADER}{mixed}").as_bytes()));
    }

    /// A bin of any signs that a field can hold comes back as it was written, without blanks at its ends.
    #[test]
    fn a_quoted_field_comes_back_as_it_was(bin in "[ -~äöüß€]{1,20}") {
        let text = format!("{HEADER}A-1,{},5\nA-2,R2,6\n", quoted(&bin));
        let bin = bin.trim();
        let found = stock(text.as_bytes());
        prop_assert_eq!(found.len(), 2);
        // Dashes and question marks alone say nothing; an error value is no bin.
        if bin.chars().any(char::is_alphanumeric) && !bin.starts_with('#') && bin.len() > 12 {
            prop_assert_eq!(&found[0], &format!("row 2: A-1|{bin}|5"));
        }
    }
}
