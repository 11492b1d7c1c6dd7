//! Bars: for each row its name, its figure in words, and its share of the longest.

use maud::Markup;
use svg::node::element::Rectangle;

use super::{Caption, figure, name, picture, words};

/// Height of one row: its name, and its bar below it.
const ROW: f64 = 42.0;
/// Base line of the name within its row.
const NAME_LINE: f64 = 15.0;
/// Top of the bar within its row.
const BAR_TOP: f64 = 21.0;
/// Height of a bar.
const BAR_HEIGHT: f64 = 13.0;
/// Characters of a name that fit beside its figure on a phone.
const NAME_LENGTH: usize = 32;
/// Least width of a bar that is not nothing, in percent.
const LEAST_WIDTH: f64 = 0.4;

/// One row.
#[derive(Debug, Clone)]
pub(crate) struct BarRow {
    /// Its name.
    pub(crate) name: String,
    /// Its figure in words.
    pub(crate) words: String,
    /// Its length; `None` where it is unknown, which is drawn as no bar and no rail.
    pub(crate) length: Option<f64>,
}

/// Draws a bar for each row, the longest over the whole width.
pub(crate) fn bars(caption: &Caption<'_>, rows: &[BarRow]) -> Markup {
    let longest = rows.iter().filter_map(|row| row.length).fold(0.0, f64::max);
    let mut drawn = picture(caption, (rows.len() as f64 * ROW) as usize);
    for (number, row) in rows.iter().enumerate() {
        let top = number as f64 * ROW;
        let line = top + NAME_LINE;
        for text in name(&row.name, line, NAME_LENGTH) {
            drawn = drawn.add(text);
        }
        drawn = drawn.add(words(&row.words, "100%".to_owned(), line, "end", "figure"));
        let Some(length) = row.length else { continue };
        drawn = drawn.add(bar(top, 100.0, "rail"));
        if length > 0.0 && longest > 0.0 {
            let width = (100.0 * length / longest).max(LEAST_WIDTH);
            drawn = drawn.add(bar(top, width, "bar"));
        }
    }
    figure(caption, &drawn, &[])
}

fn bar(top: f64, width_percent: f64, class: &str) -> Rectangle {
    Rectangle::new()
        .set("x", 0)
        .set("y", top + BAR_TOP)
        .set("width", format!("{width_percent:.2}%"))
        .set("height", BAR_HEIGHT)
        .set("class", class)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(name: &str, length: Option<f64>) -> BarRow {
        BarRow {
            name: name.to_owned(),
            words: length.map_or("unknown".to_owned(), |length| length.to_string()),
            length,
        }
    }

    fn drawn(rows: &[BarRow]) -> String {
        let caption = Caption {
            id: "down",
            title: "Hours down",
            description: "The longest first.",
        };
        bars(&caption, rows).into_string()
    }

    #[test]
    fn bars_keep_their_proportion_and_names_cannot_become_elements() {
        let text = drawn(&[
            row("</svg><script>x</script>", Some(10.0)),
            row("half", Some(5.0)),
            row("hardly any", Some(0.001)),
            row("dark", None),
            row("none", Some(0.0)),
        ]);
        assert!(!text.contains("<script") && text.contains("&lt;script&gt;"));
        let widths: Vec<&str> = text
            .split("<rect")
            .skip(1)
            .filter(|of| of.contains("class=\"bar\""))
            .map(|of| of.split("width=\"").nth(1).unwrap())
            .map(|of| of.split('"').next().unwrap())
            .collect();
        assert_eq!(widths, ["100.00%", "50.00%", "0.40%"]);
        // What is unknown has no rail that reads as nothing.
        assert_eq!(text.matches("class=\"rail\"").count(), 4);
    }

    #[test]
    fn where_all_is_nothing_there_is_no_bar_and_no_division_by_it() {
        let text = drawn(&[row("a", Some(0.0)), row("b", Some(0.0))]);
        assert!(!text.contains("class=\"bar\"") && !text.contains("NaN"));
        assert!(!drawn(&[]).contains("<rect"));
    }

    #[test]
    fn long_names_and_signs_that_steer_are_cut() {
        let text = drawn(&[row(&"x".repeat(200), Some(1.0)), row("a\u{7}b", Some(1.0))]);
        assert!(text.contains(&format!("{}…", "x".repeat(NAME_LENGTH - 1))));
        assert!(text.contains("a b") && !text.contains('\u{7}'));
    }
}
