//! The chart of a sheet with what it cannot show; the table of the sheet is its text alternative.

use chrono::{NaiveDateTime, NaiveTime};
use maud::{Markup, html};

use super::words::words;
use crate::language::Language;
use crate::report::drawing::{
    Axis, Band as Stretch, BandRow, BarRow, Caption, Mark, Series, bands, bars, curve, days_from,
};
use crate::report::model::{Band, Bar, Chart, ColumnKind, Drawn, Point, Sheet, Value, grouped};

/// Draws a chart of a sheet; nothing where there is nothing to draw.
pub(super) fn figure(sheet: &Sheet, chart: &Chart, number: usize) -> Markup {
    let Some((drawn, remark)) = chart.drawn(sheet) else {
        return html! {};
    };
    let language = sheet.language;
    let id = format!("{}-chart-{number}", sheet.key);
    let title = words(&chart.title);
    let same = language.text("The table gives the same figures.");
    let description = format!("{} {same}", words(&chart.description));
    let caption = Caption {
        id: &id,
        title: &title,
        description: &description,
    };
    html! {
        (match &drawn {
            Drawn::Bars(_, of) => bars(&caption, &bar_rows(of)),
            Drawn::Line { across, up, points } => line(&caption, (across, up, points), language),
            Drawn::Bands(of) => calendar(&caption, of, language),
        })
        @if let Some(remark) = remark { p { (words(&remark)) } }
    }
}

fn bar_rows(bars: &[Bar]) -> Vec<BarRow> {
    let row = |bar: &Bar| BarRow {
        name: bar.name.clone(),
        words: bar.words.clone(),
        length: bar.length,
    };
    bars.iter().map(row).collect()
}

/// One figure against another; what the report stands on has a mark of its own.
fn line(
    caption: &Caption<'_>,
    (across, up, points): (&(String, ColumnKind), &(String, ColumnKind), &[Point]),
    language: Language,
) -> Markup {
    let place = |point: &Point| (point.across, point.up);
    let of = |is_chosen: bool| -> Vec<(f64, f64)> {
        let points = points.iter().filter(|point| point.is_chosen == is_chosen);
        points.map(place).collect()
    };
    let mut series = vec![Series {
        name: up.0.clone(),
        mark: Mark::Disc,
        points: of(false),
        is_stepped: false,
    }];
    let chosen = of(true);
    if !chosen.is_empty() {
        series.push(Series {
            name: language.text("this report"),
            mark: Mark::Square,
            points: chosen,
            is_stepped: false,
        });
    }
    let wide = axis(points.iter().map(|point| point.across), across, language);
    let high = axis(points.iter().map(|point| point.up), up, language);
    curve(caption, &wide, &high, &series)
}

/// Money and hours from zero, so that the line does not lie; a share around what there is, within 0 and 1.
fn axis(
    figures: impl Iterator<Item = f64>,
    (header, kind): &(String, ColumnKind),
    language: Language,
) -> Axis {
    let (least, most) = figures.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), figure| {
        (a.min(figure), b.max(figure))
    });
    let name = match kind.unit() {
        Some(unit) => format!("{header} ({})", language.text(unit)),
        None => header.clone(),
    };
    let tick = |number: f64| match kind {
        ColumnKind::Share => {
            let value = Value::Number(number);
            value.in_language(*kind, language).into_owned()
        }
        _ => language.number(&grouped(number, 0, 1)),
    };
    let (least, possible) = match kind {
        ColumnKind::Share => (least, (0.0, 1.0)),
        _ => (least.min(0.0), (f64::NEG_INFINITY, f64::INFINITY)),
    };
    Axis::between(&name, (least, most), possible, tick)
}

/// Bands from a likely to a late moment over the days.
fn calendar(caption: &Caption<'_>, of: &[Band], language: Language) -> Markup {
    let spans = || of.iter().filter_map(|band| band.span);
    let (Some(first), Some(last)) = (
        spans().map(|(from, _)| from).min(),
        spans().map(|(_, to)| to).max(),
    ) else {
        return html! {};
    };
    let day_one = first.date();
    let days = |moment: NaiveDateTime| {
        (moment - day_one.and_time(NaiveTime::MIN)).num_minutes() as f64 / 1_440.0
    };
    let row = |band: &Band| BandRow {
        name: band.name.clone(),
        words: match band.span {
            Some((from, _)) => language.short_moment(from),
            None => language.text("unknown"),
        },
        bands: band.span.map_or_else(Vec::new, |(from, to)| {
            vec![(Stretch::Span, days(from), days(to))]
        }),
    };
    let rows: Vec<BandRow> = of.iter().map(row).collect();
    let clock = days_from(day_one, days(last), |date| language.date(date));
    let legend = [("▬", language.text("from the likely to the late moment"))];
    bands(caption, &clock, &rows, &legend)
}
