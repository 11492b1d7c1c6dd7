//! Encodings: byte order marks, UTF-16 with and without one, and the western code page, by the WHATWG encoding standard.

use proptest::prelude::*;
use sparewright::import::{FileError, ImportError};

use super::{import, stock, told};

const TEXT: &str = "Part no;Bin;On hand\nÖl-Ø 5;Süd-Fach 3, «à droite»;5\n";
const ROW: &str = "row 2: Öl-Ø 5|Süd-Fach 3, «à droite»|5";

fn utf16(text: &str, to_bytes: fn(u16) -> [u8; 2]) -> Vec<u8> {
    text.encode_utf16().flat_map(to_bytes).collect()
}

#[test]
fn each_encoding_gives_the_same_cells_and_is_told() {
    let marked = |mark: &[u8], bytes: Vec<u8>| [mark, &bytes].concat();
    let western: Vec<u8> = TEXT
        .chars()
        .map(|c| u8::try_from(u32::from(c)).unwrap())
        .collect();
    for (what, bytes, name) in [
        ("UTF-8", TEXT.as_bytes().to_vec(), "UTF-8"),
        (
            "UTF-8 with its mark",
            marked(b"\xef\xbb\xbf", TEXT.into()),
            "UTF-8",
        ),
        (
            "UTF-16, small end first, marked",
            marked(b"\xff\xfe", utf16(TEXT, u16::to_le_bytes)),
            "UTF-16LE",
        ),
        (
            "UTF-16, big end first, marked",
            marked(b"\xfe\xff", utf16(TEXT, u16::to_be_bytes)),
            "UTF-16BE",
        ),
        (
            "UTF-16, small end first, bare",
            utf16(TEXT, u16::to_le_bytes),
            "UTF-16LE",
        ),
        (
            "UTF-16, big end first, bare",
            utf16(TEXT, u16::to_be_bytes),
            "UTF-16BE",
        ),
        ("western", western, "Windows-1252"),
    ] {
        assert_eq!(stock(&bytes), [ROW], "{what}");
        assert_eq!(
            told(&bytes),
            [format!("read as {name}, columns separated by semicolons")],
            "{what}"
        );
    }
}

#[test]
fn the_western_code_page_is_that_of_the_whatwg_index() {
    // WHATWG Encoding Standard, index windows-1252: the bytes that differ from ISO 8859-1, and some that do not.
    for (byte, sign) in [
        (0x80, '€'),
        (0x82, '‚'),
        (0x84, '„'),
        (0x85, '…'),
        (0x89, '‰'),
        (0x8a, 'Š'),
        (0x8c, 'Œ'),
        (0x8e, 'Ž'),
        (0x91, '‘'),
        (0x92, '’'),
        (0x93, '“'),
        (0x94, '”'),
        (0x96, '–'),
        (0x97, '—'),
        (0x99, '™'),
        (0x9a, 'š'),
        (0x9c, 'œ'),
        (0x9e, 'ž'),
        (0x9f, 'Ÿ'),
        (0xa7, '§'),
        (0xb0, '°'),
        (0xb1, '±'),
        (0xb2, '²'),
        (0xb5, 'µ'),
        (0xc4, 'Ä'),
        (0xd6, 'Ö'),
        (0xd8, 'Ø'),
        (0xdc, 'Ü'),
        (0xdf, 'ß'),
        (0xe0, 'à'),
        (0xe4, 'ä'),
        (0xe7, 'ç'),
        (0xe9, 'é'),
        (0xf1, 'ñ'),
        (0xf6, 'ö'),
        (0xf8, 'ø'),
        (0xfc, 'ü'),
        (0xff, 'ÿ'),
    ] {
        let bytes = [b"Part no;Bin;On hand\nA-1;x", &[byte][..], b"x;5\n"].concat();
        assert_eq!(
            stock(&bytes),
            [format!("row 2: A-1|x{sign}x|5")],
            "{byte:#x}"
        );
    }
}

#[test]
fn zero_bytes_are_no_text_and_say_so() {
    for bytes in [
        &b"Part no;Bin;On hand\nA-1;R1\0;5\n"[..],
        b"\0\0\0\0\0\0\0\0",
        b"GIF89a\0\0\x01\x02",
        b"Part no;Bin\0",
    ] {
        match import("stock.csv", bytes) {
            Err(ImportError::NothingUsable { problems, .. }) => {
                let said: Vec<String> = problems
                    .iter()
                    .map(|problem| problem.reason.to_string())
                    .collect();
                assert_eq!(
                    said,
                    ["the file holds zero bytes and is no text"],
                    "{bytes:?}"
                );
            }
            other => panic!("{bytes:?}: {other:?}"),
        }
    }
}

#[test]
fn a_blank_file_is_told_and_not_an_empty_table() {
    for bytes in [&b""[..]] {
        let Err(ImportError::NothingUsable { problems, .. }) = import("stock.csv", bytes) else {
            panic!("{bytes:?}");
        };
        assert!(matches!(problems[0].reason, FileError::Empty));
    }
    for bytes in [&b"\n\n\n"[..], b"\xef\xbb\xbf", b"   ;  ;\n", b"\xff\xfe"] {
        let nothing = import("stock.csv", bytes);
        assert!(
            matches!(nothing, Err(ImportError::NothingUsable { .. })),
            "{bytes:?}"
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    /// Text of the western languages gives the same rows in every encoding it can be written in.
    #[test]
    fn the_encoding_changes_nothing(
        rows in prop::collection::vec(("[A-ZÄÖÜ]{2}-[0-9]{2}", "[a-zäöüßéèçñ]{4,12}", 0_u32..1_000), 3..10),
    ) {
        let body: String = rows.iter().map(|(part, bin, on_hand)| format!("{part};{bin};{on_hand}\n")).collect();
        let text = format!("Part no;Bin;On hand\n{body}");
        let expected = stock(text.as_bytes());
        prop_assert_eq!(expected.len(), rows.len());
        let western: Vec<u8> = text.chars().map(|c| u8::try_from(u32::from(c)).unwrap()).collect();
        prop_assert_eq!(&stock(&western), &expected);
        prop_assert_eq!(&stock(&utf16(&text, u16::to_le_bytes)), &expected);
        prop_assert_eq!(&stock(&utf16(&text, u16::to_be_bytes)), &expected);
        prop_assert_eq!(&stock(&[b"\xef\xbb\xbf", text.as_bytes()].concat()), &expected);
        prop_assert_eq!(&stock(text.replace('\n', "\r\n").as_bytes()), &expected);
    }
}
