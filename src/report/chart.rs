//! Charts as inline pictures of the page. The only home of plotters.
//!
//! Names of bars and bands stand above them, not beside, so that a long name keeps its size on a phone. Every colour is one
//! of [`Ink`]; the page gives each its own in dark and in print by its value (`html/style.rs`).

use plotters::backend::SVGBackend;
use plotters::chart::ChartBuilder;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, DrawingAreaErrorKind, IntoDrawingArea};
use plotters::element::{Circle, PathElement, Rectangle, Text};
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{Color, IntoFont, RGBColor, ShapeStyle, TextStyle};

use crate::language::Language;

use super::model::{Band, Bar, ColumnKind, Drawn, Point, Value, grouped};

/// Width of every picture in its own units; the page scales it.
const WIDTH: u32 = 560;
/// Height of letters.
const LETTERS: i32 = 15;
/// Height of one name with its bar.
const STEP: i32 = 46;
/// Top of a bar within its step, and its height.
const BAR: (i32, i32) = (22, 14);
/// Height of a picture with two axes.
const LINE_HEIGHT: u32 = 320;
/// Height below the bands for the dates.
const DATES_HEIGHT: i32 = 34;
/// Letters of a name that fit beside its figure.
const NAME_LENGTH: usize = 44;
/// Ink of a picture, by what it is for.
pub(super) enum Ink {}

impl Ink {
    /// Letters.
    pub(super) const WORDS: RGBColor = RGBColor(0x1D, 0x2A, 0x33);
    /// Bars, lines and points.
    pub(super) const FIGURE: RGBColor = RGBColor(0x2F, 0x62, 0x7F);
    /// What the report stands on, besides its larger mark.
    pub(super) const CHOSEN: RGBColor = RGBColor(0x8F, 0x1D, 0x10);
    /// Room that a bar could fill.
    pub(super) const RAIL: RGBColor = RGBColor(0xE4, 0xE8, 0xEB);
    /// Rules and axes.
    pub(super) const RULE: RGBColor = RGBColor(0xCD, 0xD3, 0xD8);
}

type Area<'a> = DrawingArea<SVGBackend<'a>, Shift>;
type Failure<'a> = DrawingAreaErrorKind<<SVGBackend<'a> as DrawingBackend>::ErrorType>;

/// The picture as the inside of an `svg` element, and its size (width, height); figures and dates in the form of
/// `language`.
pub(super) fn picture(drawn: &Drawn, language: Language) -> (String, (u32, u32)) {
    let height = match drawn {
        Drawn::Bars(_, bars) => (STEP as u32) * bars.len() as u32,
        Drawn::Line { .. } => LINE_HEIGHT,
        Drawn::Bands(bands) => (STEP as u32) * bands.len() as u32 + DATES_HEIGHT as u32,
    };
    let mut svg = String::new();
    {
        let area = SVGBackend::with_string(&mut svg, (WIDTH, height)).into_drawing_area();
        let done = match drawn {
            Drawn::Bars(_, bars) => draw_bars(&area, bars),
            Drawn::Line { across, up, points } => draw_line(&area, (across, up, points), language),
            Drawn::Bands(bands) => draw_bands(&area, bands, language),
        };
        done.and_then(|()| area.present())
            .expect("a picture in memory has no device that could fail");
    }
    let inside = svg
        .split_once('>')
        .and_then(|(_, rest)| rest.rsplit_once("</svg>"))
        .map_or("", |(inside, _)| inside);
    (inside.trim().to_owned(), (WIDTH, height))
}

fn words(at: HPos) -> TextStyle<'static> {
    let font = ("sans-serif", LETTERS).into_font();
    font.color(&Ink::WORDS).pos(Pos::new(at, VPos::Top))
}

fn filled(ink: RGBColor) -> ShapeStyle {
    ink.filled()
}

fn draw_bars<'a>(area: &Area<'a>, bars: &[Bar]) -> Result<(), Failure<'a>> {
    let longest = bars.iter().filter_map(|bar| bar.length).fold(0.0, f64::max);
    let right = WIDTH as i32;
    for (bar, top) in bars.iter().zip((0..).step_by(STEP as usize)) {
        area.draw(&Text::new(
            short(&bar.name),
            (0, top + 2),
            words(HPos::Left),
        ))?;
        area.draw(&Text::new(
            bar.words.clone(),
            (right, top + 2),
            words(HPos::Right),
        ))?;
        let (from, to) = (top + BAR.0, top + BAR.0 + BAR.1);
        area.draw(&Rectangle::new([(0, from), (right, to)], filled(Ink::RAIL)))?;
        if let Some(length) = bar.length.filter(|length| *length > 0.0 && longest > 0.0) {
            let end = (length / longest * f64::from(right)).round() as i32;
            area.draw(&Rectangle::new(
                [(0, from), (end.max(1), to)],
                filled(Ink::FIGURE),
            ))?;
        }
    }
    Ok(())
}

fn draw_line<'a>(
    area: &Area<'a>,
    (across, up, points): (&(String, ColumnKind), &(String, ColumnKind), &[Point]),
    language: Language,
) -> Result<(), Failure<'a>> {
    let wide = range(points.iter().map(|point| point.across), across.1);
    let high = range(points.iter().map(|point| point.up), up.1);
    let mut chart = ChartBuilder::on(area)
        .margin(8)
        .margin_right(24)
        .x_label_area_size(48)
        .y_label_area_size(78)
        .build_cartesian_2d(wide, high)?;
    chart
        .configure_mesh()
        .x_labels(5)
        .y_labels(6)
        .max_light_lines(0)
        .bold_line_style(Ink::RULE)
        .axis_style(Ink::RULE)
        .label_style(words(HPos::Center))
        .axis_desc_style(words(HPos::Center))
        .x_label_formatter(&|number| tick(*number, across.1, language))
        .y_label_formatter(&|number| tick(*number, up.1, language))
        .x_desc(axis_name(across, language))
        .y_desc(axis_name(up, language))
        .draw()?;
    let line = points.iter().map(|point| (point.across, point.up));
    let style = Ink::FIGURE.stroke_width(2);
    chart.draw_series([PathElement::new(line.collect::<Vec<_>>(), style)])?;
    let plain = points.iter().filter(|point| !point.is_chosen);
    chart.draw_series(
        plain.map(|point| Circle::new((point.across, point.up), 4, filled(Ink::FIGURE))),
    )?;
    // Larger and hollow as well, so that it is told apart in grey.
    let chosen = points.iter().filter(|point| point.is_chosen);
    chart.draw_series(chosen.map(|point| {
        let style = Ink::CHOSEN.stroke_width(3);
        Circle::new((point.across, point.up), 8, style)
    }))?;
    Ok(())
}

fn draw_bands<'a>(area: &Area<'a>, bands: &[Band], language: Language) -> Result<(), Failure<'a>> {
    let spans = || bands.iter().filter_map(|band| band.span);
    let (Some(first), Some(last)) = (
        spans().map(|(from, _)| from).min(),
        spans().map(|(_, to)| to).max(),
    ) else {
        return Ok(());
    };
    let day_one = first.date();
    let days = |moment: chrono::NaiveDateTime| {
        (moment - day_one.and_time(chrono::NaiveTime::MIN)).num_minutes() as f64 / 1_440.0
    };
    let end = days(last).ceil().max(1.0);
    let bottom = STEP * bands.len() as i32;
    let at = |day: f64| (8.0 + day / end * f64::from(WIDTH as i32 - 16)).round() as i32;
    let step = day_step(end);
    let ticks = (0..).map(|number| f64::from(number) * step);
    for day in ticks.take_while(|day| *day <= end) {
        let date = day_one + chrono::Days::new(day as u64);
        let rule = PathElement::new(vec![(at(day), 0), (at(day), bottom)], Ink::RULE);
        area.draw(&rule)?;
        let (x, place) = match at(day) {
            x if x < 40 => (0, HPos::Left),
            x if x > WIDTH as i32 - 40 => (WIDTH as i32, HPos::Right),
            x => (x, HPos::Center),
        };
        let label = language.date(date);
        area.draw(&Text::new(label, (x, bottom + 10), words(place)))?;
    }
    draw_names(area, bands, language)?;
    for (band, top) in bands.iter().zip((0..).step_by(STEP as usize)) {
        let Some((from, to)) = band.span else {
            continue;
        };
        let (left, right) = (at(days(from)), at(days(to)));
        let (upper, lower) = (top + BAR.0 + 2, top + BAR.0 + BAR.1 - 2);
        area.draw(&Rectangle::new(
            [(left, upper), (right.max(left + 2), lower)],
            filled(Ink::FIGURE),
        ))?;
        let middle = (upper + lower) / 2;
        area.draw(&Circle::new((left, middle), 7, filled(Ink::FIGURE)))?;
    }
    Ok(())
}

fn draw_names<'a>(area: &Area<'a>, bands: &[Band], language: Language) -> Result<(), Failure<'a>> {
    for (band, top) in bands.iter().zip((0..).step_by(STEP as usize)) {
        let name = match band.span {
            Some(_) => short(&band.name),
            None => format!("{}: {}", short(&band.name), language.text("unknown")),
        };
        area.draw(&Text::new(name, (0, top + 2), words(HPos::Left)))?;
    }
    Ok(())
}

/// From the least to the greatest figure with a little air; money and hours from zero, so that the line does not lie.
fn range(figures: impl Iterator<Item = f64>, kind: ColumnKind) -> std::ops::Range<f64> {
    let (least, most) = figures.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), figure| {
        (a.min(figure), b.max(figure))
    });
    let air = ((most - least) * 0.05).max(most.abs() * 1e-3).max(1e-6);
    match kind {
        ColumnKind::Share => (least - air).max(0.0)..(most + air).min(1.0),
        _ => 0.0_f64.min(least)..most + air,
    }
}

fn tick(number: f64, kind: ColumnKind, language: Language) -> String {
    match kind {
        ColumnKind::Share => Value::Number(number)
            .in_language(kind, language)
            .into_owned(),
        _ => language.number(&grouped(number, 0, 1)),
    }
}

fn axis_name((header, kind): &(String, ColumnKind), language: Language) -> String {
    match kind.unit() {
        Some(unit) => format!("{header} ({})", language.text(unit)),
        None => header.clone(),
    }
}

/// Days from one date below the bands to the next, so that at most four intervals fit.
fn day_step(days: f64) -> f64 {
    let steps = [1.0, 2.0, 7.0, 14.0, 28.0, 56.0, 91.0, 182.0, 364.0];
    let enough = steps.into_iter().find(|step| days / step <= 4.0);
    enough.unwrap_or_else(|| (days / 4.0).ceil())
}

fn short(name: &str) -> String {
    let clean = name.replace(|c: char| c.is_control(), " ");
    if clean.chars().count() <= NAME_LENGTH {
        clean
    } else {
        clean.chars().take(NAME_LENGTH - 1).chain(['…']).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bar(name: &str, length: Option<f64>) -> Bar {
        Bar {
            name: name.to_owned(),
            length,
            words: length.map_or("unknown".to_owned(), |length| length.to_string()),
        }
    }

    #[test]
    fn bars_keep_their_proportion_and_names_cannot_become_elements() {
        let bars = vec![
            bar("</svg><script>x</script>", Some(10.0)),
            bar("half", Some(5.0)),
            bar("dark", None),
        ];
        let (svg, (width, height)) =
            picture(&Drawn::Bars(ColumnKind::Hours, bars), Language::ENGLISH);
        assert_eq!((width, height), (560, 138));
        assert!(
            !svg.contains("<script") && svg.contains("&lt;script&gt;"),
            "{svg}"
        );
        let figures: Vec<&str> = svg
            .lines()
            .filter(|line| line.contains("#2F627F"))
            .collect();
        // The longest fills the width, the half of it half, the unknown nothing.
        assert_eq!(figures.len(), 2, "{svg}");
        assert!(figures[0].contains("width=\"560\"") && figures[1].contains("width=\"280\""));
    }

    #[test]
    fn a_band_begins_and_ends_at_its_days() {
        let day = |d| {
            chrono::NaiveDate::from_ymd_opt(2026, 3, d).and_then(|date| date.and_hms_opt(0, 0, 0))
        };
        let band = Band {
            name: "seal".to_owned(),
            span: day(9).zip(day(13)),
        };
        let unknown = Band {
            name: "bearing".to_owned(),
            span: None,
        };
        let (svg, _) = picture(&Drawn::Bands(vec![band, unknown]), Language::ENGLISH);
        // Four days over the width less the edges: 560 - 16.
        assert!(
            svg.contains("x=\"8\"") && svg.contains("width=\"544\""),
            "{svg}"
        );
        assert!(
            svg.contains("2026-03-09") && svg.contains("bearing: unknown"),
            "{svg}"
        );
    }

    #[test]
    fn dates_below_the_bands_stay_few() {
        for days in [1.0, 3.0, 9.0, 30.0, 200.0, 1_000.0, 5_000.0] {
            assert!(days / day_step(days) <= 4.0, "{days}");
        }
    }
}
