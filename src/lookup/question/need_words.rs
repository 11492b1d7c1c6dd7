//! Words that ask for more than a size: fluid, temperature, location, dust, rows, surroundings.

use std::borrow::Cow;
use std::sync::LazyLock;

use super::any_of::AnyOf;
use super::place_words::{
    HARD, HOT, arrangement, hangs, has_lips, hot, may_be_lip_seal, on_hard_shaft,
    on_straight_shaft, outside, soft,
};
use super::plain::plain;
use super::{Question, amount, contrary, load_words, place_words, quantity, set_words};
use crate::interchange::{AxialNeed, Fluid, Needs};
use crate::part::designation::trade_words::{self, Said};
use crate::part::{Closure, Family, InSets, RibForm, SealForm, WordMap};

/// What a word or phrase sets.
type Apply = fn(&mut Question);

/// Phrases of several words, looked for in the whole text before its words are; longest first.
const PHRASES: [(&str, Apply); 57] = [
    ("frequency inverter", |q| q.needs.has_inverter = true),
    ("inverter motor", |q| q.needs.has_inverter = true),
    ("inverter drive", |q| q.needs.has_inverter = true),
    ("frequenzumrichter", |q| q.needs.has_inverter = true),
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
    ("no ribs on the inner", |q| rib(q, RibForm::Nu)),
    ("no ribs on inner", |q| rib(q, RibForm::Nu)),
    ("no ribs on outer", |q| rib(q, RibForm::N)),
    ("locates both ways", |q| {
        q.needs.axial = Some(AxialNeed::BothWays)
    }),
    ("frequency converter", |q| q.needs.has_inverter = true),
    ("variable speed drive", |q| q.needs.has_inverter = true),
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
    ("food grade", |q| q.needs.is_food = true),
    ("locating both sides", |q| {
        q.needs.axial = Some(AxialNeed::BothWays)
    }),
    ("locating both ways", |q| {
        q.needs.axial = Some(AxialNeed::BothWays)
    }),
    ("locating one side", |q| {
        q.needs.axial = Some(AxialNeed::OneWay)
    }),
    ("locating one way", |q| {
        q.needs.axial = Some(AxialNeed::OneWay)
    }),
    ("locates one side", |q| {
        q.needs.axial = Some(AxialNeed::OneWay)
    }),
    ("locates one way", |q| {
        q.needs.axial = Some(AxialNeed::OneWay)
    }),
    ("non locating", |q| q.needs.axial = Some(AxialNeed::Floats)),
    ("free end", |q| q.needs.axial = Some(AxialNeed::Floats)),
    ("fixed end", |q| q.needs.axial = Some(AxialNeed::BothWays)),
    ("vertical shaft", hangs),
    ("shaft vertical", hangs),
    ("senkrechte welle", hangs),
    ("senkrechter welle", hangs),
    ("vertikale welle", hangs),
    ("vertikaler welle", hangs),
    ("arbre vertical", hangs),
    ("straight shaft", on_straight_shaft),
    ("hardened and ground shaft", on_hard_shaft),
    ("shaft hardened and ground", on_hard_shaft),
    ("shaft is hardened and ground", on_hard_shaft),
    ("shaft hardened", on_hard_shaft),
    ("hardened shaft", on_hard_shaft),
    ("gehärtete welle", on_hard_shaft),
    ("welle gehärtet", on_hard_shaft),
    ("rubber outside", |q| outside(q, SealForm::A)),
    ("outside rubber", |q| outside(q, SealForm::A)),
    ("rubber covered", |q| outside(q, SealForm::A)),
    ("metal outside", |q| outside(q, SealForm::B)),
    ("outside metal", |q| outside(q, SealForm::B)),
    ("metal case", |q| outside(q, SealForm::B)),
    ("both sides", |q| sides(q, "both sides", true)),
    ("each side", |q| sides(q, "each side", true)),
    ("one side", |q| sides(q, "one side", false)),
];

/// True for the families that a phrase says something of.
type OfFamily = fn(Family) -> bool;
/// True where a need is given.
type IsGiven = fn(&Needs) -> bool;

/// Phrases that no rule looks at, the families they say something of, and what is to be said of them.
const EXPLAINED: [(&str, OfFamily, &str); 6] = [
    ("matched pair", is_set, PAIR),
    ("paarweise", is_set, PAIR),
    ("pair", is_set, PAIR),
    (
        "reciprocating",
        has_lips,
        "rotary shaft lip seals are for shafts that turn: a rod that strokes needs a rod seal",
    ),
    (
        "oil bath",
        Family::is_radial_bearing,
        "in an oil bath the seals of a sealed bearing may come off, or an open one be used: look at how the place is lubricated",
    ),
    (
        "grease for life",
        Family::is_radial_bearing,
        "an open bearing in place of one that is greased for life has no lubricant: look at how the place is lubricated",
    ),
];
pub(super) const PAIR: &str = "a pair is a set: ask for its arrangement (DB, DF or DT) and for bearings made for it; two loose basic ones make none";

/// True for bearings that stand in sets as a rule.
pub(super) fn is_set(family: Family) -> bool {
    family.facts().exchange.in_sets != InSets::Alone
}

/// Words that only name a need which a figure or another word gives: `pressure 5 bar`, `inverter motor`.
const NAMES_OF_NEEDS: [(&str, IsGiven); 16] = [
    ("pressure", |needs| needs.pressure_bar.is_some()),
    ("druck", |needs| needs.pressure_bar.is_some()),
    ("pression", |needs| needs.pressure_bar.is_some()),
    ("speed", |needs| needs.speed_rpm.is_some()),
    ("drehzahl", |needs| needs.speed_rpm.is_some()),
    ("vitesse", |needs| needs.speed_rpm.is_some()),
    ("temperature", has_heat),
    ("temperatur", has_heat),
    ("température", has_heat),
    ("motor", |needs| needs.has_inverter),
    ("moteur", |needs| needs.has_inverter),
    ("drive", |needs| needs.has_inverter),
    ("frequency", |needs| needs.has_inverter),
    ("hardness", |needs| needs.shaft_hrc.is_some()),
    ("härte", |needs| needs.shaft_hrc.is_some()),
    ("medium", |needs| needs.fluid.is_some()),
];

const fn has_heat(needs: &Needs) -> bool {
    needs.highest_c.is_some() || needs.lowest_c.is_some()
}

/// Forgets words that were not understood where the need they name is known.
pub(super) fn drop_names_of_needs(question: &mut Question) {
    let needs = &question.needs;
    question.not_understood.retain(|word| {
        let lower = word.to_lowercase();
        !NAMES_OF_NEEDS
            .iter()
            .any(|(name, is_known)| *name == lower && is_known(needs))
    });
}

/// Single words.
const WORDS: [(&str, Apply); 64] = [
    ("silikonöl", |q| q.needs.fluid = Some(Fluid::SiliconeFluid)),
    ("silikonoel", |q| q.needs.fluid = Some(Fluid::SiliconeFluid)),
    ("silikonfett", |q| {
        q.needs.fluid = Some(Fluid::SiliconeFluid)
    }),
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
    ("loslager", |q| q.needs.axial = Some(AxialNeed::Floats)),
    ("festlager", |q| q.needs.axial = Some(AxialNeed::BothWays)),
    ("offen", |q| contrary::set(q, Closure::Open, "offen")),
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
    ("heiß", hot),
    ("soft", soft),
    ("weich", soft),
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
    ("misaligned", |q| q.needs.is_misaligned = true),
    ("misalignment", |q| q.needs.is_misaligned = true),
    ("hot", hot),
    ("dirt", |q| q.needs.is_dirty = true),
    ("staubig", |q| q.needs.is_dirty = true),
    ("staub", |q| q.needs.is_dirty = true),
    ("schmutz", |q| q.needs.is_dirty = true),
    ("schmutzig", |q| q.needs.is_dirty = true),
    ("poussière", |q| q.needs.is_dirty = true),
    ("wet", |q| q.needs.is_corrosive = true),
    ("nass", |q| q.needs.is_corrosive = true),
    ("nässe", |q| q.needs.is_corrosive = true),
    ("humide", |q| q.needs.is_corrosive = true),
];

fn rib(question: &mut Question, form: RibForm) {
    question.traits.rib_form = Some(form);
    question.family = question.family.or(Some(Family::CylindricalRoller));
}

/// Sides that nothing in the text is on: a closure on as many is said by its mark, and a load or a shoulder took its own words.
fn sides(question: &mut Question, words: &str, is_both: bool) {
    let closure = question.traits.closure;
    let closed = closure.filter(|closure| *closure != Closure::Open);
    let is_said = closed.is_some_and(|closure| closure.code().starts_with('2') == is_both);
    if !is_said && (closed.is_some() || question.needs.axial.is_none()) {
        question.not_understood.push(words.to_owned());
    }
}

/// A dust lip is the `S` of DIN 3760, behind each of its outsides; which of them is meant the lip does not say.
fn lip(question: &mut Question, has_lip: bool) {
    question.family = question.family.or(Some(Family::LipSeal));
    question.needs.has_dust_lip = Some(has_lip);
}

/// Once every word is read: a form that was named takes the dust lip that words gave it.
pub(super) fn settle_lip(question: &mut Question) {
    let Some(form) = question.traits.seal_form else {
        return;
    };
    match question.needs.has_dust_lip.take() {
        Some(true) => question.traits.seal_form = Some(trade_words::with_dust_lip(form)),
        Some(false) if form.has_dust_lip() => {
            question.not_understood.push("without dust lip".to_owned());
        }
        _ => {}
    }
}

/// Takes the words that also name a part out of the text; gives what is left.
fn take_trade_words(question: &mut Question, text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let lower: Vec<Cow<'_, str>> = words.iter().map(|word| plain(word)).collect();
    let mut left = Vec::with_capacity(words.len());
    let mut at = 0;
    while let Some(word) = words.get(at) {
        // Halves and features of a bearing were looked for before.
        let is_left = |said: &Said| {
            matches!(
                said,
                Said::Variant(_) | Said::Cage(_) | Said::Rows(_) | Said::DustLip(_) | Said::TwoLips
            )
        };
        let said = trade_words::at(&lower, at).filter(|(_, said)| is_left(said));
        let Some((count, said)) = said else {
            left.push(*word);
            at += 1;
            continue;
        };
        let phrase = lower[at..at + count].join(" ");
        if !set(question, said, &phrase) {
            question.not_understood.push(phrase);
        }
        at += count;
    }
    if left.len() == words.len() {
        return text.to_owned();
    }
    left.join(" ")
}

/// Writes what the words of a part's name say into the question; false where its part cannot be so.
fn set(question: &mut Question, said: Said, phrase: &str) -> bool {
    let is_of = match question.family {
        None if !question.families.is_empty() => {
            let mut families = question.families.iter();
            families.any(|family| said.is_of(Some(*family)))
        }
        family => said.is_of(family),
    };
    let traits = &mut question.traits;
    match said {
        _ if !is_of => return false,
        Said::DustLip(has_lip) => lip(question, has_lip),
        Said::TwoLips => place_words::two_lips(question, phrase),
        Said::Rows(rows) => traits.rows = Some(rows),
        // The letters of a number go before words.
        Said::Cage(letters) => {
            traits.cage.get_or_insert_with(|| letters.to_owned());
        }
        Said::Variant(name) if phrase.contains("clockwise") => {
            turning(question, phrase);
            return Said::Variant(name).set(&mut question.traits, question.family);
        }
        said => return said.set(traits, question.family),
    }
    true
}

/// Ribs by the way a clock turns, which hangs on the side that is looked at.
fn turning(question: &mut Question, phrase: &str) {
    let (way, ribs) = if phrase.contains("anticlockwise") {
        ("anticlockwise", "ribs for left-hand rotation")
    } else {
        ("clockwise", "ribs for right-hand rotation")
    };
    question.notes.push(format!(
        "{way} read as {ribs}, the shaft seen from the air side: look at the arrow on the old seal"
    ));
}

/// Takes the phrases out of the text; gives what is left.
pub(super) fn take_phrases(question: &mut Question, text: &str) -> String {
    let mut rest = load_words::take(question, text).unwrap_or_else(|| text.to_owned());
    rest = arrangement(question, &rest).unwrap_or(rest);
    rest = set_words::take(question, &rest).unwrap_or(rest);
    if ANY_PHRASE.stands_in(&rest) {
        rest = take_any_phrase(question, rest);
    }
    take_trade_words(question, &rest)
}

/// Every phrase of the two lists.
static ANY_PHRASE: LazyLock<AnyOf> = LazyLock::new(|| {
    let phrases = PHRASES.iter().map(|(phrase, _)| *phrase);
    phrases
        .chain(EXPLAINED.iter().map(|(phrase, ..)| *phrase))
        .collect()
});

/// Takes those phrases out of a text that holds some; gives what is left.
fn take_any_phrase(question: &mut Question, mut rest: String) -> String {
    for (phrase, is_of, says) in EXPLAINED {
        if let Some(at) = place_of_words(&rest, phrase) {
            // `7206 B DB pair` says it twice.
            let is_said = says == PAIR && question.traits.arrangement.is_some();
            if !is_said {
                question.not_understood.push(phrase.to_owned());
            }
            if !is_said && question.family.is_some_and(is_of) {
                question.notes.push(says.to_owned());
            }
            rest.replace_range(at..at + phrase.len(), " ");
        }
    }
    for (phrase, apply) in PHRASES {
        // `self-aligning ball` names a family; the bare word, or one beside a number, is a need.
        let names_family = question.family.is_some() && question.designation.is_none();
        if phrase == "self-aligning" && names_family {
            continue;
        }
        // `outside` names a dimension of other parts.
        if (phrase.contains("outside")
            || phrase.contains("metal case")
            || phrase.contains("rubber"))
            && !may_be_lip_seal(question)
        {
            continue;
        }
        if let Some(at) = find_ignoring_case(&rest, phrase) {
            apply(question);
            rest.replace_range(at..at + phrase.len(), " ");
        }
    }
    rest
}

/// Where a phrase in lower case stands as words of its own.
fn place_of_words(text: &str, phrase: &str) -> Option<usize> {
    let at = find_ignoring_case(text, phrase)?;
    let is_letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    let before = text.get(..at)?.chars().next_back();
    let behind = text.get(at + phrase.len()..)?.chars().next();
    (!is_letter(before) && !is_letter(behind)).then_some(at)
}

/// Where a phrase in lower case begins.
///
/// Questions are short and phrases many: this is quicker than a search that is made ready for each.
fn find_ignoring_case(text: &str, phrase: &str) -> Option<usize> {
    let mut windows = text.as_bytes().windows(phrase.len());
    windows.position(|window| window.eq_ignore_ascii_case(phrase.as_bytes()))
}

/// What single words set.
static APPLIES: LazyLock<WordMap<Apply>> = LazyLock::new(|| WORDS.into_iter().collect());

/// Takes a single word; false where it asks for nothing.
pub(super) fn take_word(question: &mut Question, word: &str) -> bool {
    let lower = word.to_lowercase();
    let found = APPLIES.get(&lower);
    if let Some(apply) = found {
        apply(question);
    }
    found.is_some()
}

/// True for a word that asks for something, in a text that would else be read as a suffix.
pub(super) fn is_word(suffix: &str) -> bool {
    let lower = suffix.to_lowercase();
    APPLIES.has(&lower)
        || super::vocabulary::is_known(&lower)
        || load_words::is_word(&lower)
        || super::asked_checks::is_word(&lower)
        || set_words::is_word(&lower)
        || trade_words::is_in_phrase(&lower)
        || NAMES_OF_NEEDS.iter().any(|(name, _)| *name == lower)
        || PHRASES
            .iter()
            .map(|(phrase, _)| *phrase)
            .chain(EXPLAINED.iter().map(|(phrase, ..)| *phrase))
            .any(|phrase| phrase.split(' ').any(|word| word == lower))
}

/// A bare `F` behind less than this is no heat.
const LEAST_BARE_FAHRENHEIT: f64 = 100.0;

/// Degrees Celsius to a tenth.
pub(super) fn from_fahrenheit(degrees: f64) -> f64 {
    ((degrees - 32.0) / 1.8 * 10.0).round() / 10.0
}

fn set_celsius(question: &mut Question, celsius: f64) {
    if celsius < 0.0 {
        question.needs.lowest_c = Some(celsius);
    } else {
        question.needs.highest_c = Some(celsius);
        // The figure says it better.
        question.notes.retain(|note| note != HOT);
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

/// No bearing aligns itself by as much, degrees: what is larger is a temperature.
const MOST_MISALIGNED: f64 = 10.0;

/// True where the text speaks of a shaft that is not in line with its housing.
fn is_misaligned(question: &Question) -> bool {
    question.needs.is_misaligned || find_ignoring_case(&question.text, "misalign").is_some()
}

/// Units of which nothing is below zero, besides those of speed.
fn is_never_below_zero(unit: &str) -> bool {
    matches!(
        unit,
        "hrc" | "row" | "rows" | "reihen" | "shore" | "pcs" | "pieces"
    )
}

/// Takes a figure with its unit: degrees, rev/min, bar, HRC, rows, fillet; false where it has none of them.
pub(super) fn take_quantity(question: &mut Question, figure: &str, unit: &str) -> bool {
    let Ok(value) = figure.replace(',', ".").parse::<f64>() else {
        return false;
    };
    let is_angular = question
        .family
        .is_some_and(|family| family.facts().marks.has_angles());
    let is_out_of_line = is_misaligned(question);
    let needs = &mut question.needs;
    let unit = unit.trim_end_matches([',', ';']).to_lowercase();
    if value < 0.0 && (quantity::is_of_speed(&unit) || is_never_below_zero(&unit)) {
        question.not_understood.push(format!("{figure} {unit}"));
        return true;
    }
    match unit.as_str() {
        "°" | "deg" | "degs" | "degree" | "degrees" | "grad" | "degrés" if is_angular => {
            let angle = crate::part::ContactAngle(value as u8);
            let known = *question.traits.contact_angle.get_or_insert(angle);
            if known != angle {
                contrary::tell_angle(question, known, &value.to_string());
            }
        }
        "°" | "deg" | "degs" | "degree" | "degrees" | "grad" | "degrés"
            if value < MOST_MISALIGNED && is_out_of_line =>
        {
            question.needs.is_misaligned = true;
            question.notes.push(format!(
                "a misalignment of {value}° is not looked at by itself: compare it with what the bearing's data allow"
            ));
        }
        heat @ ("c" | "°c" | "degc" | "celsius" | "f" | "°f" | "degf" | "fahrenheit")
            if !amount::may_be_heat(figure, value, heat) =>
        {
            return false;
        }
        "c" | "°c" | "degc" | "celsius" => set_celsius(question, value),
        "°" | "deg" | "degs" | "degree" | "degrees" | "grad" | "degrés" => {
            set_celsius(question, value);
            question
                .notes
                .push(format!("{value} degrees read as {value} °C"));
        }
        "f" if value < LEAST_BARE_FAHRENHEIT => return false,
        "f" | "°f" | "degf" | "fahrenheit" => {
            set_celsius(question, from_fahrenheit(value));
        }
        unit if quantity::is_of_speed(unit) => needs.speed_rpm = Some(value),
        "bar" => needs.pressure_bar = Some(value),
        // How many are wanted says nothing of which.
        "off" | "pcs" | "pieces" | "stück" | "stueck" | "stk" | "ea" => {}
        "hrc" => {
            needs.shaft_hrc = Some(value);
            question.notes.retain(|note| note != HARD);
        }
        "row" | "rows" | "reihen" => question.traits.rows = Some(value as u8),
        "shore" => question.traits.hardness = Some(format!("{value} Shore A")),
        _ => return false,
    }
    true
}
