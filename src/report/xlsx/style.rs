//! Formats of cells, made once for each combination and kept.

use std::borrow::Cow;
use std::collections::BTreeMap;

use rust_xlsxwriter::{Color, Format, FormatAlign, FormatBorder, FormatUnderline};

use crate::language::Language;
use crate::report::model::{ColumnKind, Emphasis, SMALL_SHARE};

/// Ink of headings and header rows: dark slate, 11.8:1 on white, prints as near black.
pub(super) const INK: Color = Color::RGB(0x1F_3A_4D);
/// Ink of side remarks: grey, 5.8:1 on white, so it still passes for small text.
pub(super) const QUIET: Color = Color::RGB(0x5F_66_6D);
/// Links: blue of the usual kind and underlined, so that they show in grey too.
const LINK: Color = Color::RGB(0x0B_57_A4);
/// Rules between rows: hair lines guide the eye where a filled band would fight with the marks.
const RULE: Color = Color::RGB(0xC9_CF_D4);
/// Fill of rows to stop at: the darkest of the three in grey (81 % light), and bold as well.
const STOP: Color = Color::RGB(0xF3_C1_B8);
/// Fill of rows to check: amber, 94 % light in grey, so it stays apart from `STOP`.
const CHECK: Color = Color::RGB(0xFF_F0_C4);
/// Fill of totals: the lightest grey that survives a copier.
const TOTAL: Color = Color::RGB(0xE9_ED_F0);
/// Size of table text.
pub(super) const TABLE_POINTS: f64 = 9.0;
/// The face: as wide in every program, because others of the same widths stand in for it where it is not installed. In 9
/// points its small letters are as high as those of the usual narrower face in 10.
const FACE: &str = "Arial";

/// How a number is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Digits {
    /// As text or as the program thinks best.
    General,
    /// Whole, grouped.
    Whole,
    /// One decimal, grouped.
    Tenths,
    /// Up to three decimals, grouped.
    Thousandths,
    /// Up to four decimals.
    Length,
    /// Two decimals, grouped.
    Cents,
    /// Two to four decimals, grouped.
    Price,
    /// Percent with one decimal.
    Percent,
    /// Percent below one, with up to five decimals.
    FinePercent,
    /// Year, month, day.
    Date,
    /// Year, month, day, hour, minute.
    Moment,
}

/// Everything that tells one cell format of a table from another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Look {
    /// How a number is written.
    pub(super) digits: Digits,
    /// Flush right.
    pub(super) is_right: bool,
    /// Wraps long text.
    pub(super) wraps: bool,
    /// The word `unknown`: grey and slanted, because it is not a figure.
    pub(super) is_unknown: bool,
    /// Part of the totals row.
    pub(super) is_total: bool,
    /// Text that a spreadsheet would take for a formula when it is typed again.
    pub(super) is_quoted: bool,
    /// A hair line stands below it; in long sheets the lines of the grid do.
    pub(super) is_ruled: bool,
}

/// Formats made so far.
#[derive(Debug)]
pub(super) struct Styles {
    language: Language,
    made: BTreeMap<Look, Format>,
}

impl Digits {
    const ALL: [Self; 11] = [
        Self::General,
        Self::Whole,
        Self::Tenths,
        Self::Thousandths,
        Self::Length,
        Self::Cents,
        Self::Price,
        Self::Percent,
        Self::FinePercent,
        Self::Date,
        Self::Moment,
    ];

    /// How a number of this kind is written; whole figures show no empty decimals.
    pub(super) fn of(kind: ColumnKind, number: f64) -> Self {
        let is_whole = (number - number.round()).abs() < 5e-10;
        match kind {
            ColumnKind::Hours => Self::Tenths,
            ColumnKind::Days | ColumnKind::Workdays if is_whole => Self::Whole,
            ColumnKind::Days | ColumnKind::Workdays => Self::Tenths,
            ColumnKind::Share if number != 0.0 && number.abs() < SMALL_SHARE => Self::FinePercent,
            ColumnKind::Share => Self::Percent,
            ColumnKind::Money(_) => Self::Cents,
            ColumnKind::UnitPrice(_) => Self::Price,
            ColumnKind::LengthMm if !is_whole => Self::Length,
            ColumnKind::Quantity if !is_whole => Self::Thousandths,
            ColumnKind::Integer | ColumnKind::Quantity | ColumnKind::LengthMm => Self::Whole,
            ColumnKind::Date => Self::Date,
            ColumnKind::Moment => Self::Moment,
            ColumnKind::Text | ColumnKind::Flag => Self::General,
        }
    }

    /// The format of the figures along an axis, which are round.
    pub(super) const fn axis(kind: ColumnKind) -> &'static str {
        match kind {
            ColumnKind::Share => "0%",
            _ => "#,##0",
        }
    }

    /// The format with the unit behind the figure, for places without a header.
    pub(super) fn with_unit(self, unit: Option<&str>, language: Language) -> String {
        match unit {
            Some(unit) => format!("{}\" {}\"", self.format(language), language.text(unit)),
            None => self.format(language).into_owned(),
        }
    }

    /// The format string of the workbook.
    pub(super) fn format(self, language: Language) -> Cow<'static, str> {
        let format = match self {
            Self::Date => return language.workbook_date().into(),
            Self::Moment => return format!("{} hh:mm", language.workbook_date()).into(),
            Self::General => "General",
            Self::Whole => "#,##0",
            Self::Tenths => "#,##0.0",
            Self::Thousandths => "#,##0.0##",
            Self::Length => "#,##0.0###",
            Self::Cents => "#,##0.00",
            Self::Price => "#,##0.00##",
            Self::Percent => "0.0%",
            Self::FinePercent => "0.0###%",
        };
        format.into()
    }
}

impl Look {
    /// The look of plain text.
    pub(super) const PLAIN: Self = Self {
        digits: Digits::General,
        is_right: false,
        wraps: false,
        is_unknown: false,
        is_total: false,
        is_quoted: false,
        is_ruled: true,
    };
}

impl Look {
    /// Every look of a cell: figures and days stand right and never wrap.
    fn all() -> Vec<Self> {
        let mut looks = Vec::new();
        for digits in Digits::ALL {
            for bits in 0..64_u8 {
                let has = |bit: u8| bits & (1 << bit) != 0;
                let look = Self {
                    digits,
                    is_right: has(0),
                    wraps: has(1),
                    is_unknown: has(2),
                    is_total: has(3),
                    is_quoted: has(4),
                    is_ruled: !has(5),
                };
                let is_of_words = look.wraps || look.is_quoted || !look.is_right;
                let is_possible = look.is_ruled || !look.is_total;
                if is_possible && (digits == Digits::General || !is_of_words) {
                    looks.push(look);
                }
            }
        }
        looks
    }
}

impl Styles {
    /// No formats yet, for a report in `language`.
    pub(super) fn new(language: Language) -> Self {
        Self {
            language,
            made: BTreeMap::new(),
        }
    }

    /// Every format that a sheet without a chart may have, each once.
    pub(super) fn of_tables(language: Language) -> Vec<Format> {
        let frame = [
            title(),
            question(),
            link_line(),
            header(false),
            header(true),
            heading(),
            body(),
            quiet(),
        ];
        let looks = Look::all();
        let cells = looks.into_iter().map(|look| cell(look, language));
        frame.into_iter().chain(cells).collect()
    }

    /// The language of the report.
    pub(super) const fn language(&self) -> Language {
        self.language
    }

    /// The format for a look.
    pub(super) fn of(&mut self, look: Look) -> &Format {
        let language = self.language;
        self.made
            .entry(look)
            .or_insert_with(|| cell(look, language))
    }
}

/// A format in our face and nothing else.
pub(super) fn plain() -> Format {
    Format::new().set_font_name(FACE).set_font_size(10)
}

fn cell(look: Look, language: Language) -> Format {
    let mut format = plain()
        .set_font_size(TABLE_POINTS)
        .set_align(FormatAlign::Top)
        .set_num_format(look.digits.format(language).as_ref());
    if look.is_ruled {
        format = format
            .set_border_bottom(FormatBorder::Hair)
            .set_border_bottom_color(RULE);
    }
    // One step of air, so that figures do not run into the words of the next column. It stands before the words:
    // an indent after figures is drawn for some rows and not for others by at least one program.
    format = if look.is_right {
        format.set_align(FormatAlign::Right)
    } else {
        format.set_align(FormatAlign::Left).set_indent(1)
    };
    if look.wraps {
        format = format.set_text_wrap();
    }
    if look.is_unknown {
        format = format.set_italic().set_font_color(QUIET);
    }
    if look.is_total {
        format = format
            .set_bold()
            .set_background_color(TOTAL)
            .set_border_top(FormatBorder::Thin)
            .set_border_top_color(INK);
    }
    if look.is_quoted {
        format = format.set_quote_prefix();
    }
    format
}

/// What a marked row has besides the look of its cells.
pub(super) fn marked(emphasis: Emphasis) -> Format {
    let format = Format::new();
    match emphasis {
        Emphasis::None | Emphasis::Good => format,
        Emphasis::Attention => format.set_background_color(CHECK),
        Emphasis::Stop => format.set_background_color(STOP).set_bold(),
    }
}

/// Header row of a table.
pub(super) fn header(is_right: bool) -> Format {
    let format = plain()
        .set_font_size(TABLE_POINTS)
        .set_bold()
        .set_font_color(Color::White)
        .set_background_color(INK)
        .set_align(FormatAlign::Bottom)
        .set_text_wrap();
    if is_right {
        format.set_align(FormatAlign::Right)
    } else {
        format.set_align(FormatAlign::Left).set_indent(1)
    }
}

/// Title of a sheet.
pub(super) fn title() -> Format {
    plain().set_font_size(16).set_bold().set_font_color(INK)
}

/// Heading of a section.
pub(super) fn heading() -> Format {
    plain()
        .set_font_size(12)
        .set_bold()
        .set_font_color(INK)
        .set_border_bottom(FormatBorder::Thin)
        .set_border_bottom_color(INK)
}

/// Running text, wrapped.
pub(super) fn body() -> Format {
    plain()
        .set_font_size(TABLE_POINTS)
        .set_align(FormatAlign::Top)
        .set_text_wrap()
}

/// Running text that should be seen first.
pub(super) fn strong() -> Format {
    body().set_bold()
}

/// Side remarks.
pub(super) fn quiet() -> Format {
    body().set_font_color(QUIET)
}

/// The question a sheet answers: one line that runs on over the cells to its right.
pub(super) fn question() -> Format {
    plain().set_font_size(11).set_font_color(QUIET)
}

/// The mark of our own workbooks in the first cell: small and grey, because it is meant for machines.
pub(super) fn own_mark() -> Format {
    plain().set_font_size(8).set_font_color(QUIET)
}

/// A link.
pub(super) fn link() -> Format {
    body()
        .set_font_color(LINK)
        .set_underline(FormatUnderline::Single)
}

/// A link that runs on over the cells to its right.
pub(super) fn link_line() -> Format {
    plain()
        .set_font_size(TABLE_POINTS)
        .set_font_color(LINK)
        .set_underline(FormatUnderline::Single)
}
