//! Curves of one figure against another: steps or straight lines, each with dashes and marks of its own.

use maud::Markup;
use svg::node::element::{Line, SVG};

use super::scale::Axis;
use super::{Caption, across, figure, picture, words};

/// Height of the plot in pixels.
const HEIGHT: f64 = 220.0;
/// Room above the plot, for the name of the figure.
const ABOVE: f64 = 26.0;
/// Room below it, for the steps across and the name of what they count.
const BELOW: f64 = 40.0;

/// Sign and dashes of a curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Mark {
    /// A disc on an unbroken line.
    Disc,
    /// A square on a dashed line.
    Square,
    /// A triangle on a dotted line.
    Triangle,
}

impl Mark {
    const fn sign(self) -> &'static str {
        match self {
            Self::Disc => "●",
            Self::Square => "■",
            Self::Triangle => "▲",
        }
    }

    const fn class(self) -> &'static str {
        match self {
            Self::Disc => "line whole",
            Self::Square => "line dashed",
            Self::Triangle => "line dotted",
        }
    }
}

/// One curve; a single point is a mark alone.
#[derive(Debug, Clone)]
pub(crate) struct Series {
    /// Its name.
    pub(crate) name: String,
    /// Its sign and dashes.
    pub(crate) mark: Mark,
    /// Its points from left to right.
    pub(crate) points: Vec<(f64, f64)>,
    /// True where a value holds until the next point.
    pub(crate) is_stepped: bool,
}

/// Draws curves over two axes.
pub(crate) fn curve(caption: &Caption<'_>, x: &Axis, y: &Axis, series: &[Series]) -> Markup {
    let down = |value: f64| ABOVE + HEIGHT * (1.0 - y.share(value).clamp(0.0, 1.0));
    let mut drawn = picture(caption, (ABOVE + HEIGHT + BELOW) as usize);
    drawn = axes(drawn, x, y, down);
    for one in series {
        for pair in one.points.windows(2) {
            let ((from_x, from_y), (to_x, to_y)) = (pair[0], pair[1]);
            let (left, right) = (across(x.share(from_x)), across(x.share(to_x)));
            let (high, low) = (down(from_y), down(to_y));
            if one.is_stepped {
                drawn = drawn
                    .add(line(&left, high, &right, high, one.mark.class()))
                    .add(line(&right, high, &right, low, one.mark.class()));
            } else {
                drawn = drawn.add(line(&left, high, &right, low, one.mark.class()));
            }
        }
        for (at_x, at_y) in &one.points {
            let place = across(x.share(*at_x));
            drawn = drawn.add(words(
                one.mark.sign(),
                place,
                down(*at_y) + 4.5,
                "middle",
                "sign",
            ));
        }
    }
    let legend: Vec<(String, String)> = series
        .iter()
        .map(|one| (one.mark.sign().to_owned(), one.name.clone()))
        .collect();
    figure(caption, &drawn, &legend)
}

fn axes(mut drawn: SVG, x: &Axis, y: &Axis, down: impl Fn(f64) -> f64) -> SVG {
    for (value, name) in &y.steps {
        let at = down(*value);
        drawn = drawn.add(line("0", at, "100%", at, "grid")).add(words(
            name,
            "0".to_owned(),
            at - 3.0,
            "start",
            "step",
        ));
    }
    drawn = drawn.add(words(&y.name, "100%".to_owned(), 12.0, "end", "axis"));
    let base = ABOVE + HEIGHT;
    let named = x.named_steps();
    for (number, (value, name)) in x.steps.iter().enumerate() {
        let place = across(x.share(*value));
        drawn = drawn.add(line(&place, base, &place, base + 4.0, "grid"));
        let class = if named.contains(&number) {
            "step"
        } else {
            "step roomy"
        };
        let anchor = x.anchor_of_step(number);
        drawn = drawn.add(words(name, place, base + 18.0, anchor, class));
    }
    drawn.add(words(
        &x.name,
        "100%".to_owned(),
        base + 34.0,
        "end",
        "axis",
    ))
}

fn line(from_x: &str, from_y: f64, to_x: &str, to_y: f64, class: &str) -> Line {
    Line::new()
        .set("x1", from_x)
        .set("y1", format!("{from_y:.1}"))
        .set("x2", to_x)
        .set("y2", format!("{to_y:.1}"))
        .set("class", class)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chart_has_a_title_and_a_text_and_escapes_names() {
        let caption = Caption {
            id: "money",
            title: "Cost <now>",
            description: "What \"sooner\" costs & when.",
        };
        let x = Axis::from_zero("days", 4.0, |value| format!("{value}"));
        let y = Axis::from_zero("<b>money", 90.0, |value| format!("{value}"));
        let series = [Series {
            name: "<script>".to_owned(),
            mark: Mark::Disc,
            points: vec![(0.0, 80.0), (2.0, 40.0)],
            is_stepped: true,
        }];
        let text = curve(&caption, &x, &y, &series).into_string();
        assert!(text.contains("role=\"img\"") && text.contains("<title id=\"money-title\">"));
        assert!(text.contains("aria-labelledby=\"money-title money-text\""));
        assert!(
            text.contains("Cost &lt;now&gt;") && !text.contains("<script") && !text.contains("<b>")
        );
        assert_eq!(
            text.matches("line whole").count(),
            2,
            "one step down and one across"
        );
    }

    /// Places of the marks of a curve: percent across, pixels down.
    fn marks(text: &str, sign: &str) -> Vec<(f64, f64)> {
        let signs = text.split("<text").skip(1);
        let signs = signs.filter(|of| of.contains("class=\"sign\"") && of.contains(sign));
        let of = |text: &str, name: &str| -> f64 {
            let value = text.split(&format!(" {name}=\"")).nth(1).unwrap();
            let value = value.split('"').next().unwrap();
            value.trim_end_matches('%').parse().unwrap()
        };
        signs.map(|text| (of(text, "x"), of(text, "y"))).collect()
    }

    fn drawn(points: &[(f64, f64)], is_stepped: bool) -> String {
        let caption = Caption {
            id: "a",
            title: "A",
            description: "B.",
        };
        let words = |value: f64| format!("{value}");
        let (x, y) = (
            Axis::from_zero("days", 10.0, words),
            Axis::from_zero("money", 100.0, words),
        );
        let series = [Series {
            name: "one".to_owned(),
            mark: Mark::Square,
            points: points.to_vec(),
            is_stepped,
        }];
        curve(&caption, &x, &y, &series).into_string()
    }

    #[test]
    fn places_are_proportional_to_the_figures() {
        let text = drawn(
            &[(0.0, 0.0), (2.5, 25.0), (5.0, 50.0), (10.0, 100.0)],
            false,
        );
        let marks = marks(&text, "■");
        assert_eq!(marks.len(), 4);
        let (first, last) = (marks[0], marks[3]);
        for (mark, share) in marks.iter().zip([0.0, 0.25, 0.5, 1.0]) {
            let across = first.0 + share * (last.0 - first.0);
            let down = first.1 + share * (last.1 - first.1);
            assert!((mark.0 - across).abs() < 0.02, "{mark:?} for {across}");
            assert!((mark.1 - down).abs() < 0.11, "{mark:?} for {down}");
        }
        // More stands higher, later stands further right, and both ends stay within the picture.
        assert!(last.1 < first.1 && first.0 < last.0);
        assert!(first.0 >= 0.0 && last.0 <= 100.0);
    }

    #[test]
    fn a_step_holds_its_value_until_the_next_point() {
        let lines = |text: &str| text.matches("class=\"line dashed\"").count();
        let points = [(0.0, 90.0), (4.0, 40.0), (8.0, 10.0)];
        assert_eq!(lines(&drawn(&points, true)), 4, "along and down, twice");
        assert_eq!(lines(&drawn(&points, false)), 2);
        assert_eq!(
            lines(&drawn(&points[..1], true)),
            0,
            "one point is a mark alone"
        );
        assert_eq!(lines(&drawn(&[], true)), 0);
    }

    #[test]
    fn what_lies_outside_of_the_axes_is_drawn_at_their_edge() {
        let text = drawn(&[(-5.0, 500.0), (50.0, -20.0)], false);
        let inside = drawn(&[(0.0, 100.0), (10.0, 0.0)], false);
        assert_eq!(marks(&text, "■"), marks(&inside, "■"));
        assert!(!text.contains("NaN") && !text.contains("inf"));
    }

    #[test]
    fn curves_are_told_apart_without_colour() {
        let all = [Mark::Disc, Mark::Square, Mark::Triangle];
        let signs: std::collections::BTreeSet<&str> = all.iter().map(|of| of.sign()).collect();
        let lines: std::collections::BTreeSet<&str> = all.iter().map(|of| of.class()).collect();
        assert_eq!((signs.len(), lines.len()), (3, 3));
    }
}
