//! Words that ask for more than a size: fluid, temperature, location, dust, rows, surroundings.

use super::Question;
use crate::interchange::{AxialNeed, Fluid};
use crate::part::{Closure, Family, RibForm, SealForm};

/// Pumping ribs of a lip seal, as the rules of exchange call them.
const RIGHT_RIBS: &str = "ribs for right-hand rotation";
const LEFT_RIBS: &str = "ribs for left-hand rotation";
const BOTH_RIBS: &str = "ribs for both rotations";

/// What a word or phrase sets.
type Apply = fn(&mut Question);

/// Phrases of several words, looked for in the whole text before its words are; longest first.
const PHRASES: [(&str, Apply); 50] = [
    ("ribs for both directions", |q| variant(q, BOTH_RIBS)),
    ("bidirectional ribs", |q| variant(q, BOTH_RIBS)),
    ("anticlockwise ribs", |q| {
        turning(q, "anticlockwise", LEFT_RIBS)
    }),
    ("ribs anticlockwise", |q| {
        turning(q, "anticlockwise", LEFT_RIBS)
    }),
    ("must not locate axially", |q| {
        q.needs.axial = Some(AxialNeed::Floats)
    }),
    ("must locate both ways", |q| {
        q.needs.axial = Some(AxialNeed::BothWays)
    }),
    ("must locate one way", |q| {
        q.needs.axial = Some(AxialNeed::OneWay)
    }),
    ("must locate axially", |q| {
        q.needs.axial = Some(AxialNeed::BothWays)
    }),
    ("ribs on both rings", |q| rib(q, RibForm::Nup)),
    ("right-hand helix", |q| variant(q, RIGHT_RIBS)),
    ("clockwise ribs", |q| turning(q, "clockwise", RIGHT_RIBS)),
    ("ribs clockwise", |q| turning(q, "clockwise", RIGHT_RIBS)),
    ("right-hand ribs", |q| variant(q, RIGHT_RIBS)),
    ("left-hand helix", |q| variant(q, LEFT_RIBS)),
    ("left-hand ribs", |q| variant(q, LEFT_RIBS)),
    ("helix right", |q| variant(q, RIGHT_RIBS)),
    ("helix left", |q| variant(q, LEFT_RIBS)),
    ("no ribs on the inner", |q| rib(q, RibForm::Nu)),
    ("no ribs on inner", |q| rib(q, RibForm::Nu)),
    ("no ribs on outer", |q| rib(q, RibForm::N)),
    ("locates both ways", |q| {
        q.needs.axial = Some(AxialNeed::BothWays)
    }),
    ("frequency converter", |q| q.needs.has_inverter = true),
    ("variable speed drive", |q| q.needs.has_inverter = true),
    ("without dust lip", |q| lip(q, false)),
    ("phosphate ester", |q| {
        q.needs.fluid = Some(Fluid::PhosphateEster)
    }),
    ("locates axially", |q| {
        q.needs.axial = Some(AxialNeed::BothWays)
    }),
    ("self-aligning", |q| q.needs.is_misaligned = true),
    ("hydraulic oil", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("must float", |q| q.needs.axial = Some(AxialNeed::Floats)),
    ("brake fluid", |q| q.needs.fluid = Some(Fluid::BrakeFluid)),
    ("water glycol", |q| q.needs.fluid = Some(Fluid::Water)),
    ("mineral oil", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("no dust lip", |q| lip(q, false)),
    ("food grade", |q| q.needs.is_food = true),
    ("double row", |q| q.traits.rows = Some(2)),
    ("single row", |q| q.traits.rows = Some(1)),
    ("polyamide cage", |q| cage(q, "TN")),
    ("plastic cage", |q| cage(q, "TN")),
    ("nylon cage", |q| cage(q, "TN")),
    ("brass cage", |q| cage(q, "M")),
    ("cage brass", |q| cage(q, "M")),
    ("steel cage", |q| cage(q, "J")),
    ("ceramic balls", |q| variant(q, "hybrid")),
    ("double lip", |q| lip(q, true)),
    ("twin lip", |q| lip(q, true)),
    ("single lip", |q| lip(q, false)),
    ("both sides", |_| {}),
    ("each side", |_| {}),
    ("two rows", |q| q.traits.rows = Some(2)),
    ("dust lip", |q| lip(q, true)),
];

/// Single words.
const WORDS: [(&str, Apply); 62] = [
    ("oil", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("grease", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("fuel", |q| q.needs.fluid = Some(Fluid::Fuel)),
    ("petrol", |q| q.needs.fluid = Some(Fluid::Fuel)),
    ("gasoline", |q| q.needs.fluid = Some(Fluid::Fuel)),
    ("kerosene", |q| q.needs.fluid = Some(Fluid::Fuel)),
    ("benzin", |q| q.needs.fluid = Some(Fluid::Fuel)),
    ("kraftstoff", |q| q.needs.fluid = Some(Fluid::Fuel)),
    ("essence", |q| q.needs.fluid = Some(Fluid::Fuel)),
    ("öl", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("oel", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("mineralöl", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("mineraloel", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("hydraulikoel", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("diesel", |q| q.needs.fluid = Some(Fluid::Fuel)),
    ("staublippe", |q| lip(q, true)),
    ("doppellippe", |q| lip(q, true)),
    ("loslager", |q| q.needs.axial = Some(AxialNeed::Floats)),
    ("festlager", |q| q.needs.axial = Some(AxialNeed::BothWays)),
    ("zweireihig", |q| q.traits.rows = Some(2)),
    ("einreihig", |q| q.traits.rows = Some(1)),
    ("rechtsdrall", |q| variant(q, RIGHT_RIBS)),
    ("linksdrall", |q| variant(q, LEFT_RIBS)),
    ("wechseldrall", |q| variant(q, BOTH_RIBS)),
    ("offen", |q| q.traits.closure = Some(Closure::Open)),
    ("hydrauliköl", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("fett", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("huile", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("graisse", |q| q.needs.fluid = Some(Fluid::MineralOil)),
    ("bremsflüssigkeit", |q| {
        q.needs.fluid = Some(Fluid::BrakeFluid)
    }),
    ("wasser", |q| q.needs.fluid = Some(Fluid::Water)),
    ("eau", |q| q.needs.fluid = Some(Fluid::Water)),
    ("glycol", |q| q.needs.fluid = Some(Fluid::Water)),
    ("dampf", |q| q.needs.fluid = Some(Fluid::Steam)),
    ("vapeur", |q| q.needs.fluid = Some(Fluid::Steam)),
    ("heiß", |q| {
        q.needs.highest_c = q.needs.highest_c.or(Some(120.0))
    }),
    ("water", |q| q.needs.fluid = Some(Fluid::Water)),
    ("coolant", |q| q.needs.fluid = Some(Fluid::Water)),
    ("steam", |q| q.needs.fluid = Some(Fluid::Steam)),
    ("dusty", |q| q.needs.is_dirty = true),
    ("dirty", |q| q.needs.is_dirty = true),
    ("mud", |q| q.needs.is_dirty = true),
    ("dust", |q| q.needs.is_dirty = true),
    ("inverter", |q| q.needs.has_inverter = true),
    ("vfd", |q| q.needs.has_inverter = true),
    ("converter", |q| q.needs.has_inverter = true),
    ("food", |q| q.needs.is_food = true),
    ("washdown", |q| q.needs.is_corrosive = true),
    ("wash-down", |q| q.needs.is_corrosive = true),
    ("corrosive", |q| q.needs.is_corrosive = true),
    ("floating", |q| q.needs.axial = Some(AxialNeed::Floats)),
    ("non-locating", |q| q.needs.axial = Some(AxialNeed::Floats)),
    ("locating", |q| q.needs.axial = Some(AxialNeed::BothWays)),
    ("insulated", |q| variant(q, "current insulated")),
    ("stromisoliert", |q| variant(q, "current insulated")),
    ("hybrid", |q| variant(q, "hybrid")),
    ("ceramic", |q| variant(q, "hybrid")),
    ("messingkäfig", |q| cage(q, "M")),
    ("stahlblechkäfig", |q| cage(q, "J")),
    ("misaligned", |q| q.needs.is_misaligned = true),
    ("misalignment", |q| q.needs.is_misaligned = true),
    ("hot", |q| {
        q.needs.highest_c = q.needs.highest_c.or(Some(120.0))
    }),
];

fn rib(question: &mut Question, form: RibForm) {
    question.traits.rib_form = Some(form);
    question.family = question.family.or(Some(Family::CylindricalRoller));
}

/// A design that the trade knows by name, beside those that the number says.
pub(super) fn variant(question: &mut Question, name: &str) {
    let known = &mut question.traits.variant;
    *known = Some(match known.take() {
        Some(others) if others.split(", ").any(|other| other == name) => others,
        Some(others) => format!("{others}, {name}"),
        None => name.to_owned(),
    });
}

/// Ribs by the way a clock turns, which hangs on the side that is looked at.
fn turning(question: &mut Question, way: &str, ribs: &'static str) {
    question.read_as.push(format!(
        "{way} read as {ribs}, the shaft seen from the air side: look at the arrow on the old seal"
    ));
    variant(question, ribs);
}

/// A cage by its letters of DIN 623-1, where the number says none.
fn cage(question: &mut Question, letters: &str) {
    question
        .traits
        .cage
        .get_or_insert_with(|| letters.to_owned());
}

/// A dust lip is the `S` of DIN 3760; without a form, the rubber-covered one is meant.
fn lip(question: &mut Question, has_lip: bool) {
    question.family = question.family.or(Some(Family::LipSeal));
    question.traits.seal_form = Some(match (question.traits.seal_form, has_lip) {
        (Some(SealForm::B | SealForm::Bs), true) => SealForm::Bs,
        (Some(SealForm::C | SealForm::Cs), true) => SealForm::Cs,
        (_, true) => SealForm::As,
        (Some(form), false) => form,
        (None, false) => SealForm::A,
    });
}

/// Takes the phrases out of the text; gives what is left.
pub(super) fn take_phrases(question: &mut Question, text: &str) -> String {
    let mut rest = text.to_owned();
    for (phrase, apply) in PHRASES {
        // `self-aligning ball` names a family; only the bare word is a need.
        if phrase == "self-aligning" && question.family.is_some() {
            continue;
        }
        if let Some(at) = find_ignoring_case(&rest, phrase) {
            apply(question);
            rest.replace_range(at..at + phrase.len(), " ");
        }
    }
    rest
}

/// Where a phrase in lower case begins.
///
/// Questions are short and phrases many: this is quicker than a search that is made ready for each.
fn find_ignoring_case(text: &str, phrase: &str) -> Option<usize> {
    let mut windows = text.as_bytes().windows(phrase.len());
    windows.position(|window| window.eq_ignore_ascii_case(phrase.as_bytes()))
}

/// Takes a single word; false where it asks for nothing.
pub(super) fn take_word(question: &mut Question, word: &str) -> bool {
    let lower = word.to_lowercase();
    let found = WORDS.iter().find(|(known, _)| *known == lower);
    if let Some((_, apply)) = found {
        apply(question);
    }
    found.is_some()
}

/// True for a word that asks for something, in a text that would else be read as a suffix.
pub(super) fn is_word(suffix: &str) -> bool {
    let lower = suffix.to_lowercase();
    WORDS.iter().any(|(known, _)| *known == lower)
        || super::vocabulary::is_known(&lower)
        || PHRASES
            .iter()
            .any(|(phrase, _)| phrase.split(' ').any(|word| word == lower))
}

/// A bare `F` behind less than this is no heat.
const LEAST_BARE_FAHRENHEIT: f64 = 100.0;

fn set_celsius(question: &mut Question, celsius: f64) {
    if celsius < 0.0 {
        question.needs.lowest_c = Some(celsius);
    } else {
        question.needs.highest_c = Some(celsius);
    }
}

/// True for a figure with a unit of heat, speed, pressure, hardness or length in one, which is no suffix: `120C`, `40°`.
pub(super) fn is_quantity(suffix: &str) -> bool {
    let unit = suffix.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ','));
    let digits = suffix.len() - unit.len();
    let unit = unit.to_lowercase();
    match unit.as_str() {
        "c" => digits >= 2,
        "f" => digits >= 3,
        "°" | "°c" | "°f" | "degc" | "deg" | "grad" | "rpm" | "bar" | "hrc" | "shore" | "mm" => {
            digits > 0
        }
        _ => digits >= 2 && crate::part::designation::elastomer(&unit).is_some(),
    }
}

/// Takes a figure with its unit: degrees, rev/min, bar, HRC, rows, fillet; false where it has none of them.
pub(super) fn take_quantity(question: &mut Question, figure: &str, unit: &str) -> bool {
    let Ok(value) = figure.replace(',', ".").parse::<f64>() else {
        return false;
    };
    let is_angular = question.family == Some(Family::AngularContactBall);
    let needs = &mut question.needs;
    let unit = unit.trim_end_matches([',', ';']).to_lowercase();
    match unit.as_str() {
        "°" | "deg" | "degs" | "degree" | "degrees" | "grad" | "degrés" if is_angular => {
            question.traits.contact_angle = Some(crate::part::ContactAngle(value as u8));
        }
        "c" | "°c" | "degc" | "celsius" => set_celsius(question, value),
        "°" | "deg" | "degs" | "degree" | "degrees" | "grad" | "degrés" => {
            set_celsius(question, value);
            question
                .read_as
                .push(format!("{value} degrees read as {value} °C"));
        }
        "f" if value < LEAST_BARE_FAHRENHEIT => return false,
        "f" | "°f" | "degf" | "fahrenheit" => {
            set_celsius(question, ((value - 32.0) / 1.8 * 10.0).round() / 10.0);
        }
        "rpm" | "rev/min" | "1/min" | "u/min" | "min-1" => needs.speed_rpm = Some(value),
        "bar" => needs.pressure_bar = Some(value),
        // How many are wanted says nothing of which.
        "off" | "pcs" | "pieces" | "stück" | "stueck" | "stk" | "ea" => {}
        "hrc" => needs.shaft_hrc = Some(value),
        "row" | "rows" | "reihen" => question.traits.rows = Some(value as u8),
        "shore" => question.traits.hardness = Some(format!("{value} Shore A")),
        _ => return false,
    }
    true
}
