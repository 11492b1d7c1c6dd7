//! Units of count: words of seven languages, what is no unit, what opens into pieces and what never does.

use proptest::prelude::*;
use sparewright::units::{CountError, Quantity, UnitOfCount};

const PIECE: UnitOfCount = UnitOfCount::Piece;
const PAIR: UnitOfCount = UnitOfCount::Pair;
const METRE: UnitOfCount = UnitOfCount::Metre;

const fn set(pieces: u32) -> UnitOfCount {
    UnitOfCount::MatchedSet { pieces }
}

const fn pack(pieces: u32) -> UnitOfCount {
    UnitOfCount::Pack { pieces }
}

#[test]
fn words_of_seven_languages_are_the_units_they_mean() {
    // What a word means is common practice, no source; codes of UN/ECE Recommendation 20 are not used by shops.
    for (language, text, unit) in [
        ("en", "piece", PIECE),
        ("en", "Pieces", PIECE),
        ("en", "pc", PIECE),
        ("en", "pcs.", PIECE),
        ("en", "EA", PIECE),
        ("en", "each", PIECE),
        ("en", "1 pc", PIECE),
        ("en", "pair", PAIR),
        ("en", "pr", PAIR),
        ("en", "metre", METRE),
        ("en", "m", METRE),
        ("en", "mtr.", METRE),
        ("en", "set of 2", set(2)),
        ("en", "Set of 4", set(4)),
        ("en", "matched set of 3", set(3)),
        ("en", "matched pair", set(2)),
        ("en", "2/set", set(2)),
        ("en", "set (2)", set(2)),
        ("en", "pack of 10", pack(10)),
        ("en", "pk 25", pack(25)),
        ("en", "10/pk", pack(10)),
        ("en", "bag of 100", pack(100)),
        ("en", "pack of 1,000", pack(1_000)),
        ("de", "Stück", PIECE),
        ("de", "Stueck", PIECE),
        ("de", "Stk.", PIECE),
        ("de", "ST", PIECE),
        ("de", "Paar", PAIR),
        ("de", "Satz à 2", set(2)),
        ("de", "Satz zu 3", set(3)),
        ("de", "Packung 25", pack(25)),
        ("de", "Packung zu 1.000", pack(1_000)),
        ("de", "lfm", METRE),
        ("fr", "pièce", PIECE),
        ("fr", "pce", PIECE),
        ("fr", "paire", PAIR),
        ("fr", "jeu de 2", set(2)),
        ("fr", "paquet de 50", pack(50)),
        ("fr", "mètre", METRE),
        ("es", "pieza", PIECE),
        ("es", "ud.", PIECE),
        ("es", "par", PAIR),
        ("es", "juego de 2", set(2)),
        ("es", "metro", METRE),
        ("it", "pezzo", PIECE),
        ("it", "pz", PIECE),
        ("pl", "szt.", PIECE),
        ("pl", "para", PAIR),
        ("pl", "kpl 2", set(2)),
        ("pl", "opak 20", pack(20)),
        ("pt", "pça", PIECE),
        ("pt", "un", PIECE),
        ("pt", "peças", PIECE),
        // UN/ECE Recommendation 20: C62 is one, H87 a piece, MTR a metre, PR a pair; from memory.
        ("code", "C62", PIECE),
        ("code", "H87", PIECE),
        ("code", "MTR", METRE),
        ("code", "PR", PAIR),
        ("en", "box of 10", pack(10)),
        ("en", "pairs", PAIR),
        ("de", "Karton zu 25", pack(25)),
        ("de", "10er Karton", pack(10)),
        ("de", "VE 50", pack(50)),
        ("de", "Stck.", PIECE),
    ] {
        assert_eq!(UnitOfCount::read(text), Ok(unit), "{language}: {text}");
    }
}

#[test]
fn an_unknown_unit_and_a_set_of_unknown_size_are_refused_and_never_pieces() {
    for text in [
        "",
        "-",
        "?",
        "box",
        "carton",
        "kg",
        "l",
        "roll",
        "set",
        "1 set",
        "Satz",
        "1 Satz",
        "set of 0",
        "set of 1",
        "pack",
        "pack of 0",
        "pack of many",
        "2 pcs",
        "10 Stk",
        "pcs x",
        "piece of metre",
        "10",
        "100 m",
        "m 50",
        "m of rope",
        "pair of 4",
        "5 pair",
        "set of 99999999999",
    ] {
        let read = UnitOfCount::read(text);
        let expected = CountError::NotAUnit {
            found: text.to_owned(),
        };
        assert_eq!(read, Err(expected), "{text}");
    }
    assert_eq!(
        UnitOfCount::read(" Karton ").unwrap_err().to_string(),
        "`Karton` is not a unit of count; expected piece, pair, set of 2, pack of 10 or metre"
    );
}

#[test]
fn two_figures_are_never_put_together_to_one() {
    for text in [
        "pack 2x5",
        "pack of 2 x 5",
        "set 2 of 5",
        "pack of 2.5",
        "pack of 2,5",
        "Packung 0,5",
        "10/pk 20",
        "set of 2 (1)",
        "pack of 1,00",
        "pack of 1,0000",
    ] {
        assert!(
            UnitOfCount::read(text).is_err(),
            "{text}: {:?}",
            UnitOfCount::read(text)
        );
    }
}

#[test]
fn packs_and_pairs_open_and_sets_and_lengths_do_not() {
    for (have, want, expected) in [
        (PIECE, PIECE, Ok(1.0)),
        (PAIR, PIECE, Ok(2.0)),
        (PIECE, PAIR, Ok(0.5)),
        (pack(10), PIECE, Ok(10.0)),
        (PIECE, pack(10), Ok(0.1)),
        (pack(10), PAIR, Ok(5.0)),
        (pack(3), PAIR, Ok(1.5)),
        (pack(100), pack(25), Ok(4.0)),
        (set(2), set(2), Ok(1.0)),
        (METRE, METRE, Ok(1.0)),
        (set(2), PIECE, Err("a matched set is never split")),
        (set(2), PAIR, Err("a matched set is never split")),
        (set(4), pack(4), Err("a matched set is never split")),
        (set(2), METRE, Err("a matched set is never split")),
        (
            PIECE,
            set(2),
            Err("a matched set is never made up of singles"),
        ),
        (
            PAIR,
            set(2),
            Err("a matched set is never made up of singles"),
        ),
        (
            pack(2),
            set(2),
            Err("a matched set is never made up of singles"),
        ),
        (
            METRE,
            set(2),
            Err("a matched set is never made up of singles"),
        ),
        (
            set(2),
            set(3),
            Err("the sets hold different numbers of pieces"),
        ),
        (METRE, PIECE, Err("a length is not a number of pieces")),
        (PIECE, METRE, Err("a length is not a number of pieces")),
        (pack(5), METRE, Err("a length is not a number of pieces")),
    ] {
        let found = have.in_units_of(want);
        match expected {
            Ok(times) => assert_eq!(found, Ok(times), "{have} in {want}"),
            Err(why) => {
                assert_eq!(
                    found,
                    Err(CountError::Mismatch { have, want, why }),
                    "{have} in {want}"
                );
                assert_eq!(
                    found.unwrap_err().to_string(),
                    format!("{have} cannot be counted as {want}: {why}")
                );
            }
        }
    }
}

#[test]
fn amounts_are_said_with_the_plural_of_their_unit() {
    for (unit, amount, words) in [
        (PIECE, 0.0, "0 pieces"),
        (PIECE, 1.0, "1 piece"),
        (PIECE, 2.0, "2 pieces"),
        (PAIR, 1.0, "1 pair"),
        (PAIR, 3.0, "3 pairs"),
        (METRE, 0.5, "0.5 metres"),
        (METRE, 1.0, "1 metre"),
        (METRE, 12.25, "12.25 metres"),
        (set(2), 1.0, "1 matched set of 2"),
        (set(3), 4.0, "4 matched sets of 3"),
        (pack(10), 1.0, "1 pack of 10"),
        (pack(1_000), 2.0, "2 packs of 1000"),
        (PIECE, -1.0, "-1 pieces"),
    ] {
        assert_eq!(unit.counted(amount), words);
    }
}

#[test]
fn a_quantity_is_kept_in_files_with_the_words_of_its_unit() {
    for (unit, json) in [
        (PIECE, r#"{"amount":2.0,"unit":"piece"}"#),
        (PAIR, r#"{"amount":2.0,"unit":"pair"}"#),
        (set(2), r#"{"amount":2.0,"unit":"matched set of 2"}"#),
        (pack(10), r#"{"amount":2.0,"unit":"pack of 10"}"#),
        (METRE, r#"{"amount":2.0,"unit":"metre"}"#),
    ] {
        let quantity = Quantity { amount: 2.0, unit };
        assert_eq!(serde_json::to_string(&quantity).unwrap(), json);
    }
}

proptest! {
    /// A pack by way of pieces is the pack itself: ten of a hundred are a thousand of one.
    #[test]
    fn conversions_go_together(a in 1_u32..500, b in 1_u32..500, c in 1_u32..500) {
        let (a, b, c) = (pack(a), pack(b), pack(c));
        let direct = a.in_units_of(c).unwrap();
        let by_way = a.in_units_of(b).unwrap() * b.in_units_of(c).unwrap();
        prop_assert!((direct - by_way).abs() <= 1e-9 * direct, "{a} {b} {c}: {direct} {by_way}");
    }

    /// Blanks, case and a full stop at the end change nothing.
    #[test]
    fn the_look_of_a_word_changes_nothing(
        word in prop::sample::select(vec!["piece", "Stk", "paar", "set of 2", "pack of 10", "matched pair", "m"]),
        blanks in 0_usize..4,
    ) {
        let expected = UnitOfCount::read(word);
        prop_assert!(expected.is_ok());
        let pad = " ".repeat(blanks);
        for text in [format!("{pad}{word}{pad}"), word.to_uppercase(), word.to_lowercase(), format!("{word}.")] {
            prop_assert_eq!(UnitOfCount::read(&text), expected.clone(), "{}", text);
        }
    }
}
