//! Which sign separates the columns: the one that splits most lines alike, outside of quotes.

use proptest::prelude::*;

use super::{stock, told};

#[test]
fn each_delimiter_is_told_by_its_lines() {
    for (sign, name) in [
        (";", "semicolons"),
        ("\t", "tabs"),
        (",", "commas"),
        ("|", "strokes"),
    ] {
        let text = ["Part no;Bin;On hand", "A-1;R1;5", "A-2;R2;6", ""]
            .join("\n")
            .replace(';', sign);
        assert_eq!(
            stock(text.as_bytes()),
            ["row 2: A-1|R1|5", "row 3: A-2|R2|6"],
            "{name}"
        );
        assert_eq!(
            told(text.as_bytes()),
            [format!("read as UTF-8, columns separated by {name}")]
        );
    }
}

#[test]
fn decimal_commas_and_commas_in_words_do_not_make_columns() {
    for (text, expected) in [
        (
            "Part no;Bin;On hand\nA-1;R1;1,5\nA-2;R2;2,5\n",
            &["row 2: A-1|R1|1.5", "row 3: A-2|R2|2.5"][..],
        ),
        (
            "Part no\tBin\tOn hand\nA-1\tR1\t1,5\nA-2\tR2\t2,5\n",
            &["row 2: A-1|R1|1.5", "row 3: A-2|R2|2.5"],
        ),
        (
            "Part no;Bin;On hand\nA-1;rack 1, left, top;5\nA-2;rack 2, right, low;6\n",
            &[
                "row 2: A-1|rack 1, left, top|5",
                "row 3: A-2|rack 2, right, low|6",
            ],
        ),
        (
            "Part no,Bin,On hand\nA-1,\"a;b;c;d\",5\nA-2,\"a;b;c;d\",6\n",
            &["row 2: A-1|a;b;c;d|5", "row 3: A-2|a;b;c;d|6"],
        ),
        (
            "Part no,Bin,On hand\n\"A|1\",R1,5\n\"A|2\",R2,6\n",
            &["row 2: A|1|R1|5", "row 3: A|2|R2|6"],
        ),
        // Titles of other form stand above a table.
        (
            "Stock, as of 9 March 2026\nAll bins, all halls\n\nPart no;Bin;On hand\nA-1;R1;5\nA-2;R2;6\n",
            &["row 5: A-1|R1|5", "row 6: A-2|R2|6"],
        ),
    ] {
        assert_eq!(stock(text.as_bytes()), expected, "{text:?}");
    }
}

#[test]
fn a_delimiter_that_is_told_once_holds_for_the_file() {
    // The first forty lines decide; a comma in a later cell is of its cell.
    let mut text = "Part no;Bin;On hand\n".to_owned();
    for row in 0..60 {
        let bin = if row < 45 {
            "R1"
        } else {
            "R1, upper, left, behind"
        };
        text.push_str(&format!("A-{row};{bin};{row}\n"));
    }
    let rows = stock(text.as_bytes());
    assert_eq!(rows.len(), 60);
    assert_eq!(rows[59], "row 61: A-59|R1, upper, left, behind|59");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    /// The same table with another delimiter is the same table, in the same rows.
    #[test]
    fn the_delimiter_changes_nothing(rows in prop::collection::vec(("[A-Z]{2}-[0-9]{2}", "[A-Z][0-9]{1,2}", 0_u32..1_000), 1..10)) {
        let body: String = rows.iter().map(|(part, bin, on_hand)| format!("{part};{bin};{on_hand}\n")).collect();
        let text = format!("Part no;Bin;On hand\n{body}");
        let expected = stock(text.as_bytes());
        prop_assert_eq!(expected.len(), rows.len());
        for sign in ["\t", ",", "|"] {
            prop_assert_eq!(&stock(text.replace(';', sign).as_bytes()), &expected, "{:?}", sign);
        }
    }

    /// Columns in any order give the same rows.
    #[test]
    fn the_order_of_columns_changes_nothing(
        rows in prop::collection::vec(("[A-Z]{2}-[0-9]{2}", "[A-Z][0-9]{1,2}", 0_u32..1_000), 1..10),
        order in Just(vec![0_usize, 1, 2]).prop_shuffle(),
    ) {
        let line = |cells: [&str; 3]| {
            let cells: Vec<&str> = order.iter().map(|at| cells[*at]).collect();
            format!("{}\n", cells.join(";"))
        };
        let plain: String = rows.iter().map(|(part, bin, on_hand)| format!("{part};{bin};{on_hand}\n")).collect();
        let mut shuffled = line(["Part no", "Bin", "On hand"]);
        for (part, bin, on_hand) in &rows {
            shuffled.push_str(&line([part, bin, &on_hand.to_string()]));
        }
        prop_assert_eq!(stock(format!("Part no;Bin;On hand\n{plain}").as_bytes()), stock(shuffled.as_bytes()));
    }
}
