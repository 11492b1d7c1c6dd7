//! Bands on one clock: for each row a stretch that is likely and one that is late.

use maud::Markup;
use svg::node::element::{Line, Rectangle};

use super::scale::Axis;
use super::{Caption, across, figure, name, picture, words};

/// Height of one row: its name, and its bands below it.
const ROW: f64 = 44.0;
/// Base line of the name within its row.
const NAME_LINE: f64 = 15.0;
/// Top of the bands within their row.
const BAND_TOP: f64 = 21.0;
/// Height of a band.
const BAND_HEIGHT: f64 = 14.0;
/// Room for the steps of the clock.
const BELOW: f64 = 24.0;
/// Characters of a name that fit beside its words on a phone.
const NAME_LENGTH: usize = 27;

/// What a stretch of a row stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Band {
    /// Waiting for what is likely to be there by its end.
    Wait,
    /// From the likely moment to the late one.
    Spread,
    /// Work.
    Work,
    /// The same work where parts come late.
    LateWork,
    /// From a likely to a late moment, where nothing else is drawn.
    Span,
}

impl Band {
    const fn class(self) -> &'static str {
        match self {
            Self::Wait => "band wait",
            Self::Spread => "band spread",
            Self::Work => "band work",
            Self::LateWork => "band late-work",
            Self::Span => "band span",
        }
    }
}

/// One row.
#[derive(Debug, Clone)]
pub(crate) struct BandRow {
    /// Its name.
    pub(crate) name: String,
    /// What is said at its right.
    pub(crate) words: String,
    /// Its stretches: what, from and until, on the axis.
    pub(crate) bands: Vec<(Band, f64, f64)>,
}

/// Draws rows of bands over an axis.
pub(crate) fn bands(
    caption: &Caption<'_>,
    x: &Axis,
    rows: &[BandRow],
    legend: &[(&str, String)],
) -> Markup {
    let base = rows.len() as f64 * ROW;
    let mut drawn = picture(caption, (base + BELOW) as usize);
    let named = x.named_steps();
    for (number, (value, step)) in x.steps.iter().enumerate() {
        let class = if named.contains(&number) {
            "step"
        } else {
            "step roomy"
        };
        let anchor = x.anchor_of_step(number);
        let place = across(x.share(*value));
        let upright = Line::new()
            .set("x1", place.clone())
            .set("y1", 0)
            .set("x2", place.clone())
            .set("y2", base)
            .set("class", "grid");
        drawn = drawn
            .add(upright)
            .add(words(step, place, base + 17.0, anchor, class));
    }
    for (number, row) in rows.iter().enumerate() {
        let top = number as f64 * ROW;
        let line = top + NAME_LINE;
        for text in name(&row.name, line, NAME_LENGTH) {
            drawn = drawn.add(text);
        }
        drawn = drawn.add(words(&row.words, "100%".to_owned(), line, "end", "figure"));
        for (band, from, until) in &row.bands {
            let (left, right) = (x.share(*from), x.share(*until));
            let width = (96.0 * (right - left)).max(0.6);
            let shape = Rectangle::new()
                .set("x", across(left))
                .set("y", top + BAND_TOP)
                .set("width", format!("{width:.2}%"))
                .set("height", BAND_HEIGHT)
                .set("class", band.class());
            drawn = drawn.add(shape);
        }
    }
    let legend: Vec<(String, String)> = legend
        .iter()
        .map(|(sign, name)| ((*sign).to_owned(), name.clone()))
        .collect();
    figure(caption, &drawn, &legend)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_named_and_even_the_shortest_band_is_seen() {
        let caption = Caption {
            id: "rebuild",
            title: "Rebuild",
            description: "Arrivals and tasks.",
        };
        let axis = super::super::hours_from_now(48.0, str::to_owned);
        let row = |name: &str, until| BandRow {
            name: name.to_owned(),
            words: String::new(),
            bands: vec![(Band::Wait, 0.0, until)],
        };
        let rows = [
            row("line 10: a long name that no phone has room for", 0.01),
            row("b & c", 48.0),
        ];
        let text = bands(&caption, &axis, &rows, &[("▬", "waiting".to_owned())]).into_string();
        assert!(text.contains("line 10: a long name that …") && text.contains("b &amp; c"));
        // Where there is more room the whole name stands in its place.
        assert!(text.contains("name tight") && text.contains("name roomy"));
        assert!(text.contains("line 10: a long name that no phone has room for"));
        for look in [
            ".drawing .roomy{display:none}",
            ".drawing .tight{display:none}",
        ] {
            assert!(crate::report::PAGE_STYLE.contains(look), "{look}");
        }
        assert!(text.contains("width=\"0.60%\"") && text.contains("width=\"96.00%\""));
    }

    #[test]
    fn bands_lie_where_their_hours_are() {
        let caption = Caption {
            id: "a",
            title: "A",
            description: "B.",
        };
        let axis = Axis::from_zero("h", 100.0, |value| format!("{value}"));
        let row = BandRow {
            name: "line 10".to_owned(),
            words: "Mon".to_owned(),
            bands: vec![
                (Band::Wait, 0.0, 25.0),
                (Band::Spread, 25.0, 75.0),
                (Band::Work, 75.0, 100.0),
            ],
        };
        let text = bands(&caption, &axis, &[row.clone(), row], &[]).into_string();
        let of = |rect: &str, name: &str| -> f64 {
            let value = rect.split(&format!(" {name}=\"")).nth(1).unwrap();
            let value = value.split('"').next().unwrap();
            value.trim_end_matches('%').parse().unwrap()
        };
        let rects: Vec<(f64, f64, f64)> = text
            .split("<rect")
            .skip(1)
            .map(|rect| (of(rect, "x"), of(rect, "width"), of(rect, "y")))
            .collect();
        assert_eq!(rects.len(), 6);
        for (pair, next) in rects.iter().zip(&rects[1..]) {
            if pair.2 < next.2 {
                continue;
            }
            // One ends where the next begins.
            assert!((pair.0 + pair.1 - next.0).abs() < 0.02, "{pair:?} {next:?}");
        }
        let widths: Vec<f64> = rects[..3].iter().map(|of| of.1).collect();
        assert!((widths[1] - 2.0 * widths[0]).abs() < 0.02 && (widths[2] - widths[0]).abs() < 0.02);
        // The second row lies below the first.
        assert!((rects[3].2 - rects[0].2 - ROW).abs() < 1e-9);
    }

    #[test]
    fn a_row_without_an_end_has_its_words_and_no_band() {
        let caption = Caption {
            id: "a",
            title: "A",
            description: "B.",
        };
        let axis = Axis::from_zero("h", 10.0, |value| format!("{value}"));
        let row = BandRow {
            name: "line 30".to_owned(),
            words: "unknown".to_owned(),
            bands: Vec::new(),
        };
        let text = bands(&caption, &axis, &[row], &[]).into_string();
        assert!(text.contains("line 30") && text.contains("unknown") && !text.contains("<rect"));
    }

    #[test]
    fn what_each_band_stands_for_has_a_look_of_its_own() {
        let all = [
            Band::Wait,
            Band::Spread,
            Band::Work,
            Band::LateWork,
            Band::Span,
        ];
        let looks: std::collections::BTreeSet<&str> = all.iter().map(|of| of.class()).collect();
        assert_eq!(looks.len(), all.len());
        // And the style sheet knows it.
        for look in looks {
            let class = look.split(' ').nth(1).unwrap();
            assert!(
                crate::report::PAGE_STYLE.contains(&format!(".drawing .{class}")),
                "{class}"
            );
        }
    }
}
