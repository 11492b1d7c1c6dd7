//! The cases of exchange as they meet a technician: the one part is in a shop's file, the other is asked for by its words.

use sparewright::lookup::{Question, answer};

use super::{expected, table};
use crate::sample::index_of_file;

const NUMBER: &str = "E-1";

/// What to ask for the part of a case and what its place needs; `None` where it has a variant or chamfer beside its number.
fn question(want: &str) -> Option<String> {
    let mut pieces = want.split(';').map(str::trim);
    let mut words = vec![pieces.next()?.to_owned()];
    for piece in pieces {
        let need = piece.strip_prefix("need ")?;
        words.push(match need.ends_with("hrc") {
            // The hardness of a shaft is said of the shaft.
            true => format!("shaft {need}"),
            false => need.to_owned(),
        });
    }
    Some(words.join(" "))
}

#[test]
fn a_part_of_the_file_gets_the_verdict_of_its_case() {
    let (mut wrong, mut shown, mut free) = (Vec::new(), 0, 0);
    for case in table("exchange_cases.csv") {
        let Some(text) = question(&case[0]).filter(|_| !case[1].contains(';')) else {
            continue;
        };
        let index = index_of_file(&format!("Part number;Designation\n{NUMBER};{}\n", &case[1]));
        let read = Question::read_in(&text, Some(&index)).unwrap();
        let found = answer(&read, Some(&index));
        let mut listed = found.answers.iter().chain(&found.refused);
        let (verdict, _) = expected(&case);
        let Some(one) = listed.find(|one| one.number.as_deref() == Some(NUMBER)) else {
            // Another size is no answer at all.
            if verdict != "near" {
                wrong.push(format!("{text} by {}: not shown", &case[1]));
            }
            continue;
        };
        shown += 1;
        free += usize::from(verdict == "as_it_is");
        let judgement = &one.judgement;
        let names_it = case[3].is_empty()
            || judgement
                .differs
                .iter()
                .any(|difference| difference.what == &case[3]);
        if judgement.verdict.code() != verdict || !names_it {
            wrong.push(format!("{text} by {}: {judgement:?}", &case[1]));
        }
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(shown >= 140 && free >= 15, "{shown} {free}");
}
