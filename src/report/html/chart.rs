//! Bars drawn as an inline picture that scales with the page and can be read out.
//!
//! Names stand above their bars, not beside them, so that a long name keeps its size on a phone. Widths are in
//! percent and there is no view box: text keeps its size at any width. An unknown length draws no bar; the
//! word stands in its place.

use maud::{Markup, html};

use super::table::words;
use crate::report::model::{Bar, Chart, Sheet};

/// Height of one name with its bar in pixels.
const STEP: usize = 46;
/// Base line of the name within its step.
const NAME_LINE: usize = 16;
/// Top of the bar within its step.
const BAR_TOP: usize = 23;
/// Height of a bar.
const BAR_HEIGHT: usize = 13;
/// Characters of a name that fit beside its figure on a phone.
const NAME_LENGTH: usize = 30;

/// The chart with its title and what it cannot show; the table of the sheet is its text alternative.
pub(super) fn figure(sheet: &Sheet, chart: &Chart, number: usize) -> Markup {
    let drawn = chart.bars(sheet);
    let id = format!("{}-chart-{number}", sheet.key);
    let longest = drawn
        .bars
        .iter()
        .filter_map(|bar| bar.length)
        .fold(0.0, f64::max);
    let (title_id, text_id) = (format!("{id}-title"), format!("{id}-text"));
    html! {
        @if !drawn.bars.is_empty() {
            figure {
                figcaption { (words(&chart.title)) }
                svg role="img" aria-labelledby={ (title_id) " " (text_id) } height=(drawn.bars.len() * STEP) {
                    title id=(title_id) { (words(&chart.title)) }
                    desc id=(text_id) {
                        (words(&chart.description)) " " (sheet.language.text("The table below gives the same figures."))
                    }
                    @for (place, bar) in drawn.bars.iter().enumerate() {
                        (one_bar(bar, place * STEP, longest))
                    }
                }
                p.quiet { (words(&chart.description)) }
                @if let Some(remark) = drawn.remark() { p { (words(&remark)) } }
            }
        }
    }
}

fn one_bar(bar: &Bar, top: usize, longest: f64) -> Markup {
    let percent = match bar.length {
        Some(length) if longest > 0.0 => {
            Some((length.max(0.0) / longest * 100.0).clamp(0.0, 100.0))
        }
        _ => None,
    };
    html! {
        text x="0" y=(top + NAME_LINE) { (words(&short_name(&bar.name))) }
        text x="100%" y=(top + NAME_LINE) text-anchor="end" { (words(&bar.words)) }
        rect.rail x="0" y=(top + BAR_TOP) width="100%" height=(BAR_HEIGHT) {}
        @if let Some(percent) = percent {
            rect.bar x="0" y=(top + BAR_TOP) width=(format!("{percent:.1}%")) height=(BAR_HEIGHT) {}
        }
    }
}

fn short_name(name: &str) -> String {
    if name.chars().count() <= NAME_LENGTH {
        name.to_owned()
    } else {
        name.chars().take(NAME_LENGTH - 1).chain(['…']).collect()
    }
}
