//! Widths of letters against those of the fonts themselves.

use self::skipped::no_reader;
use super::*;

#[path = "../../../../tests/suite/skipped.rs"]
mod skipped;

/// Where distributions put Liberation Sans, whose widths are those of Arial.
const FOLDERS: [&str; 3] = [
    "/usr/share/fonts/truetype/liberation",
    "/usr/share/fonts/truetype/liberation2",
    "/usr/share/fonts/liberation-sans",
];

/// Widths of a TrueType file (ISO/IEC 14496-22: `head`, `hhea`, `hmtx`, and `cmap` in format 4), in thousandths.
struct FontFile {
    bytes: Vec<u8>,
}

impl FontFile {
    fn open(name: &str) -> Option<Self> {
        let files = FOLDERS.iter().map(|folder| format!("{folder}/{name}"));
        let bytes = files
            .into_iter()
            .find_map(|file| std::fs::read(file).ok())?;
        Some(Self { bytes })
    }

    fn u16(&self, at: usize) -> usize {
        usize::from(u16::from_be_bytes([self.bytes[at], self.bytes[at + 1]]))
    }

    fn u32(&self, at: usize) -> usize {
        self.u16(at) << 16 | self.u16(at + 2)
    }

    /// Where a table begins.
    fn table(&self, tag: &str) -> usize {
        let entries = (0..self.u16(4)).map(|entry| 12 + 16 * entry);
        let mut found = entries.filter(|at| &self.bytes[*at..at + 4] == tag.as_bytes());
        self.u32(found.next().unwrap_or_else(|| panic!("no table {tag}")) + 8)
    }

    fn glyph(&self, sign: char) -> usize {
        let cmap = self.table("cmap");
        let mut parts = (0..self.u16(cmap + 2)).map(|part| cmap + self.u32(cmap + 8 + 8 * part));
        let part = parts.find(|at| self.u16(*at) == 4).unwrap();
        let (sign, twice) = (sign as usize, self.u16(part + 6));
        let end = |segment: usize| self.u16(part + 14 + 2 * segment);
        let segment = (0..twice / 2).find(|of| end(*of) >= sign).unwrap();
        let start = self.u16(part + 16 + twice + 2 * segment);
        if start > sign {
            return 0;
        }
        let delta = self.u16(part + 16 + 2 * twice + 2 * segment);
        let offset_at = part + 16 + 3 * twice + 2 * segment;
        match self.u16(offset_at) {
            0 => (sign + delta) & 0xffff,
            offset => (self.u16(offset_at + offset + 2 * (sign - start)) + delta) & 0xffff,
        }
    }

    fn advance(&self, sign: char) -> f64 {
        let whole = self.u16(self.table("hhea") + 34);
        let of = self.glyph(sign).min(whole - 1);
        let width = self.u16(self.table("hmtx") + 4 * of) as f64;
        1000.0 * width / self.u16(self.table("head") + 18) as f64
    }
}

#[test]
fn widths_are_those_of_the_font_file() {
    for (name, weight) in [
        ("LiberationSans-Regular.ttf", Weight::Regular),
        ("LiberationSans-Bold.ttf", Weight::Bold),
    ] {
        let Some(font) = FontFile::open(name) else {
            no_reader(name);
            continue;
        };
        for sign in ' '..='~' {
            let (ours, theirs) = (f64::from(advance(sign, weight)), font.advance(sign));
            assert!(
                (ours - theirs).abs() < 1.0,
                "{name} {sign}: {ours}, {theirs}"
            );
        }
        // What is not in the table is never taken for much narrower than it is.
        for sign in "äöüßéøłńčąÄÖÜÉŁ–·•°²×µ±●■▲→←≤".chars() {
            let (ours, theirs) = (f64::from(advance(sign, weight)), font.advance(sign));
            assert!(ours + 1.0 >= theirs, "{name} {sign}: {ours}, {theirs}");
        }
    }
}

#[test]
fn a_font_file_is_read_by_the_signs_it_holds() {
    let Some(font) = FontFile::open("LiberationSans-Regular.ttf") else {
        no_reader("Liberation Sans (fonts-liberation)");
        return;
    };
    // A narrow and a wide letter, so that the reader is seen to tell them apart.
    assert!(font.advance('i') * 3.0 < font.advance('W') * 1.01);
    assert_ne!(font.glyph('i'), font.glyph('W'));
}

#[test]
fn words_are_as_wide_as_their_letters() {
    // Adobe, `Helvetica.afm` and `Helvetica-Bold.afm`: B 667, R 722, G 778; bold B and R 722, G 778.
    assert!((width("BRG", Weight::Regular) - 2.167).abs() < 1e-9);
    assert!((width("BRG", Weight::Bold) - 2.222).abs() < 1e-9);
    assert!((width("", Weight::Bold)).abs() < 1e-9);
    let (one, two) = ("needed by", " 2026-03-09");
    let both = width(&format!("{one}{two}"), Weight::Regular);
    let apart = width(one, Weight::Regular) + width(two, Weight::Regular);
    assert!((both - apart).abs() < 1e-9);
}

#[test]
fn signs_of_no_table_have_a_width() {
    for (sign, least) in [
        ('ü', 556.0),
        ('Ł', 556.0),
        ('面', 1000.0),
        ('■', 604.0),
        ('\n', 0.0),
    ] {
        assert!(f64::from(advance(sign, Weight::Regular)) >= least, "{sign}");
    }
    assert_eq!(
        advance('\u{a0}', Weight::Regular),
        advance(' ', Weight::Regular)
    );
}
