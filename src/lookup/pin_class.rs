//! The class of a pin's diameter, as it was asked for or as a micrometer tells it: `m6`, `h8`.

use super::found::Found;
use super::likelihood::expanded_uncertainty_mm;
use super::reading::{Instrument, Reading, Role};
use crate::limit;
use crate::part::Dimension;
use crate::standard::StandardPart;

/// Of a pin, only the rows of the class asked for (`m6`), where there are any.
pub(super) fn keep_class(found: &mut Found, classes: &[String]) {
    let is_of = |row: &&StandardPart| {
        row.size
            .fit()
            .is_some_and(|fit| classes.contains(&fit.to_string()))
    };
    let has_class = found.size.family().facts().bench.told.has_class;
    if has_class && found.rows.iter().any(is_of) {
        found.rows.retain(is_of);
    }
}

/// Of a pin whose diameter was read with a micrometer or finer, only the rows of classes that have it, where there are any.
pub(super) fn keep_measured_class(found: &mut Found, reading: &Reading) {
    let instrument = reading.likely_instrument(&reading.length);
    let has_class = found.size.family().facts().bench.told.has_class;
    if !has_class || instrument < Instrument::Micrometer {
        return;
    }
    // A pin is measured over its outside.
    let sure_mm = expanded_uncertainty_mm(instrument, Role::Outer);
    let has_it = |row: &&StandardPart| {
        let diameter = row.size.get(Dimension::PinDiameter);
        let (Some(diameter), Some(class)) = (diameter, row.size.fit()) else {
            return true;
        };
        let off_mm = reading.length.length.difference_mm(diameter);
        limit::fit(&class.to_string(), diameter.to_mm()).is_none_or(|band| {
            off_mm >= band.lower_um / 1000.0 - sure_mm && off_mm <= band.upper_um / 1000.0 + sure_mm
        })
    };
    if found.rows.iter().any(has_it) {
        found.rows.retain(has_it);
    }
}

#[cfg(test)]
mod tests {
    use super::super::found::find;
    use crate::lookup::Question;

    #[test]
    fn a_micrometer_tells_the_classes_of_a_pin_apart() {
        // ISO 286-2: m6 at 8 mm +6/+15, h8 -22/0 µm; a micrometer is sure to 6 µm.
        for (text, classes) in [
            ("dowel 8.010 x 30 micrometer", &["m6"][..]),
            ("dowel 7.985 x 30 micrometer", &["h8"]),
            ("dowel 8.003 x 30 micrometer", &["h8", "m6"]),
            ("dowel 8.01 x 30", &["h8", "m6"]),
            // A pin wears thinner.
            ("dowel 7.985 x 30 micrometer worn", &["h8", "m6"]),
        ] {
            let all = find(&Question::read(text).unwrap(), None);
            let rows = all.found[0].rows.iter();
            let mut found: Vec<String> = rows
                .filter_map(|row| Some(row.size.fit()?.to_string()))
                .collect();
            found.sort();
            found.dedup();
            assert_eq!(found, classes, "{text}");
        }
    }
}
