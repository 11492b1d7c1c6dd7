//! Questions as people write them, one generator a shape; the first of each is the example.

use sparewright::part::{Family, SizeKey};
use sparewright::standard::{self, StandardPart};

use crate::catalogue::Dice;

/// A shape of question.
pub struct Shape {
    /// One of the shape, as in the manual.
    pub example: &'static str,
    /// True for exact sizes and designations, which are aimed at 100 µs; the rest at 2 ms.
    pub is_exact: bool,
    another: fn(&mut Dice) -> String,
}

/// Questions of a shape; the first is the example.
pub fn questions(shape: &Shape, count: usize) -> Vec<String> {
    let mut dice = Dice::new(7);
    let others = (1..count).map(|_| (shape.another)(&mut dice));
    std::iter::once(shape.example.to_owned())
        .chain(others)
        .collect()
}

const fn exact(example: &'static str, another: fn(&mut Dice) -> String) -> Shape {
    Shape {
        example,
        is_exact: true,
        another,
    }
}

const fn other(example: &'static str, another: fn(&mut Dice) -> String) -> Shape {
    Shape {
        example,
        is_exact: false,
        another,
    }
}

/// Every shape.
pub const SHAPES: &[Shape] = &[
    exact("40x80x18", |dice| plain(&ball(dice).size, "x")),
    exact("40 x 80 x 18 deep groove", |dice| {
        format!("{} deep groove", plain(&ball(dice).size, " x "))
    }),
    exact("4O x 8O x 18", |dice| {
        plain(&ball(dice).size, " x ").replace('0', "O")
    }),
    other("44.96 84.9 19 worn", |dice| {
        let [bore, outside, width] = mm(&ball(dice).size);
        let worn = |mm: f64, by: f64| format!("{:.2}", mm - by);
        format!(
            "{} {} {} worn",
            worn(bore, -0.03),
            worn(outside, 0.06),
            worn(width, 0.08)
        )
    }),
    exact("3/4 x 1 5/8 x 7/16", |dice| {
        let inch = |row: &StandardPart| row.standard.contains("inch");
        let figures = mm(&row(dice, Family::DeepGrooveBall, inch).size).map(fraction);
        figures.join(" x ")
    }),
    other("1.181 2.441 .63", |dice| {
        let inches = mm(&ball(dice).size).map(|mm| format!("{:.3}", mm / 25.4));
        inches.join(" ")
    }),
    other("bore 40 od 68 room for 15", |dice| {
        let [bore, outside, width] = mm(&ball(dice).size);
        format!("bore {bore} od {outside} room for {}", width + 3.0)
    }),
    exact("6308 2RS C3", |dice| {
        let open = |row: &StandardPart| row.traits.closure.is_none();
        format!(
            "{} 2RS C3",
            row(dice, Family::DeepGrooveBall, open).designation
        )
    }),
    exact("62 06 2RS", |dice| {
        format!(
            "{} {:02} 2RS",
            dice.of(&["60", "62", "63"]),
            dice.below(17) + 4
        )
    }),
    other("63?6", |dice| {
        format!(
            "{}?{}",
            dice.of(&["60", "62", "63", "NU2", "302"]),
            dice.below(10)
        )
    }),
    exact("6308-", |dice| format!("{}-", ball(dice).designation)),
    exact("33208 P5", |dice| {
        format!(
            "{} P5",
            row(dice, Family::TaperedRoller, |row| row
                .standard
                .contains("355"))
            .designation
        )
    }),
    exact("AS568-318", |dice| {
        let dash = |row: &StandardPart| row.designation.starts_with("AS568-");
        row(dice, Family::ORing, dash).designation.clone()
    }),
    exact("O-ring 31.34 x 3.53", |dice| {
        format!("O-ring {}", plain(&any(dice, Family::ORing).size, " x "))
    }),
    exact("oil seal 62 x 40 x 8", |dice| {
        let [shaft, housing, width] = mm(&any(dice, Family::LipSeal).size);
        format!("oil seal {housing} x {shaft} x {width}")
    }),
    other("lip free id 33.6 on 35 shaft", |dice| {
        let [shaft, ..] = mm(&any(dice, Family::LipSeal).size);
        format!("lip free id {:.1} on {shaft} shaft", shaft - 1.4)
    }),
    exact("internal circlip 40", |dice| {
        format!(
            "internal circlip {}",
            plain(&any(dice, Family::BoreRetainingRing).size, "")
        )
    }),
    exact("KM8", |dice| any(dice, Family::LockNut).designation.clone()),
    other("3/8 dowel", |dice| {
        format!(
            "{} dowel",
            dice.of(&["3/8", "1/4", "1/2", "5/16", "3/16", "6", "8", "10"])
        )
    }),
    other("od 62 w 16", |dice| {
        let [_, outside, width] = mm(&ball(dice).size);
        format!("od {outside} w {width}")
    }),
];

fn any(dice: &mut Dice, family: Family) -> &'static StandardPart {
    row(dice, family, |_| true)
}

/// A metric deep groove ball bearing of one row.
fn ball(dice: &mut Dice) -> &'static StandardPart {
    let is_plain = |row: &StandardPart| {
        !row.standard.contains("inch") && row.designation.bytes().all(|b| b.is_ascii_digit())
    };
    row(dice, Family::DeepGrooveBall, is_plain)
}

fn row(dice: &mut Dice, family: Family, is_it: fn(&StandardPart) -> bool) -> &'static StandardPart {
    let rows: Vec<&StandardPart> = standard::parts()
        .iter()
        .filter(|row| row.size.family() == family && is_it(row))
        .collect();
    *dice.of(rows.as_slice())
}

/// The dimensions, mm; 0 where there are fewer than three.
fn mm(size: &SizeKey) -> [f64; 3] {
    let mut all = [0.0; 3];
    for (slot, (_, length)) in all.iter_mut().zip(size.dimensions()) {
        *slot = length.to_mm();
    }
    all
}

fn plain(size: &SizeKey, between: &str) -> String {
    let figures: Vec<String> = size
        .dimensions()
        .map(|(_, length)| format!("{length:#}"))
        .collect();
    figures.join(between)
}

/// Millimetres as inches and 64ths.
fn fraction(mm: f64) -> String {
    let parts = (mm / 25.4 * 64.0).round() as u64;
    let (whole, mut top, mut bottom) = (parts / 64, parts % 64, 64);
    while top > 0 && top % 2 == 0 {
        top /= 2;
        bottom /= 2;
    }
    match (whole, top) {
        (whole, 0) => format!("{whole}\""),
        (0, top) => format!("{top}/{bottom}"),
        (whole, top) => format!("{whole} {top}/{bottom}"),
    }
}
