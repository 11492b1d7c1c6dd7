//! A chart with its title, what it cannot show, and what is read out in its place.

use maud::{Markup, PreEscaped, html};

use super::table::words;
use crate::report::chart::picture;
use crate::report::model::{Chart, Sheet};

/// The chart of a sheet; the table of the sheet is its text alternative.
pub(super) fn figure(sheet: &Sheet, chart: &Chart, number: usize) -> Markup {
    let Some((drawn, remark)) = chart.drawn(sheet) else {
        return html! {};
    };
    let id = format!("{}-chart-{number}", sheet.key);
    let (title_id, text_id) = (format!("{id}-title"), format!("{id}-text"));
    let (inside, (width, height)) = picture(&drawn, sheet.language);
    html! {
        figure {
            figcaption { (words(&chart.title)) }
            div.drawing role="region" aria-labelledby=(title_id) tabindex="0" {
                svg role="img" aria-labelledby={ (title_id) " " (text_id) } viewBox={ "0 0 " (width) " " (height) } {
                    title id=(title_id) { (words(&chart.title)) }
                    desc id=(text_id) {
                        (words(&chart.description)) " " (sheet.language.text("The table gives the same figures."))
                    }
                    // The crate that draws escapes the words that it sets.
                    (PreEscaped(inside))
                }
            }
            p.quiet { (words(&chart.description)) }
            @if let Some(remark) = remark { p { (words(&remark)) } }
        }
    }
}
