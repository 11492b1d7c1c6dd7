//! Charts of reports and pages, as inline pictures that scale with the page, print in grey and can be read out. The only
//! home of svg.
//!
//! Belongs here: shapes. Which figures are drawn is the page's business, and every page gives them as a table too.
//! Places across are in percent and there is no view box, so that text keeps its size at 360 and at 1280 pixels. Nothing
//! hangs on colour: lines differ in their dashes and marks, bands in their fill and edge. Looks are classes of the style
//! sheet (`html/style.rs`), since the content security policy of the pages allows no styles within them.

#![cfg_attr(
    not(feature = "tables"),
    allow(
        dead_code,
        unused_imports,
        reason = "some shapes are drawn by the pages of the server alone"
    )
)]

mod bands;
mod bars;
mod curve;
mod scale;

pub(crate) use bands::{Band, BandRow, bands};
pub(super) use bars::{BarRow, bars};
pub(crate) use curve::{Mark, Series, curve};
pub(super) use scale::days_from;
pub(crate) use scale::{Axis, hours_from_now, nice_step};

use maud::{Markup, PreEscaped, html};
use svg::node::element::{Description, SVG, Text, Title};

/// What a chart is called and what is to be seen in it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Caption<'a> {
    /// Short name without blanks, of which names within the page are made.
    pub(crate) id: &'a str,
    /// Title.
    pub(crate) title: &'a str,
    /// One or two sentences that stand for the picture.
    pub(crate) description: &'a str,
}

/// Place across, from a share of the width; both ends leave room for marks.
fn across(share: f64) -> String {
    format!("{:.2}%", 2.0 + 96.0 * share.clamp(0.0, 1.0))
}

/// An empty picture with its title and description.
fn picture(caption: &Caption<'_>, height: usize) -> SVG {
    let (title, description) = (
        format!("{}-title", caption.id),
        format!("{}-text", caption.id),
    );
    SVG::new()
        .set("role", "img")
        .set("class", "drawing")
        .set("height", height)
        .set("aria-labelledby", format!("{title} {description}"))
        .add(Title::new(caption.title).set("id", title))
        .add(
            Description::new()
                .set("id", description)
                .add(svg::node::Text::new(caption.description)),
        )
}

/// Words in a picture; `anchor` is `start`, `middle` or `end`.
fn words(text: &str, x: String, y: f64, anchor: &str, class: &str) -> Text {
    Text::new(text)
        .set("x", x)
        .set("y", format!("{y:.1}"))
        .set("text-anchor", anchor)
        .set("class", class)
}

/// Letters of a name that a picture has room for where it is wider than a phone.
const ROOMY_LETTERS: usize = 64;

/// A name at the left: cut to what a phone has room for, and beside it the longer one that wider pictures show.
fn name(name: &str, y: f64, most_letters: usize) -> Vec<Text> {
    let text =
        |most: usize, class: &str| words(&short(name, most), "0".to_owned(), y, "start", class);
    match name.chars().count() <= most_letters {
        true => vec![text(most_letters, "name")],
        false => vec![
            text(most_letters, "name tight"),
            text(ROOMY_LETTERS, "name roomy"),
        ],
    }
}

/// A name cut to so many letters; signs that steer are none of a picture's.
fn short(name: &str, most_letters: usize) -> String {
    let clean = name.replace(|c: char| c.is_control(), " ");
    if clean.chars().count() <= most_letters {
        clean
    } else {
        let kept = clean.chars().take(most_letters - 1);
        kept.chain(['…']).collect()
    }
}

/// The picture as an element of a page, which knows the names of its elements: the report names no address at all.
fn inline(picture: &SVG) -> String {
    let named = " xmlns=\"http://www.w3.org/2000/svg\"";
    picture.to_string().replacen(named, "", 1)
}

/// The picture below its title, with a legend.
fn figure(caption: &Caption<'_>, picture: &SVG, legend: &[(String, String)]) -> Markup {
    html! {
        figure.chart {
            figcaption { (caption.title) }
            @if !legend.is_empty() {
                ul.legend aria-hidden="true" { @for (sign, name) in legend { li { span.sign { (sign) } " " (name) } } }
            }
            (PreEscaped(inline(picture)))
            p.quiet { (caption.description) }
        }
    }
}
