//! `sparewright check`: the engineering checks behind a verdict, one at a time.
//!
//! JSON, schema 1: `{"schema", "check", "values": {name: number or null}, "says": [text], "against": [text], "cautions":
//! [text]}`; names carry their unit.

mod bearing;
mod seat;

use serde_json::{Map, Value, json};

use bearing::{lives, speed, static_safety};
use seat::seat_fit;

use super::args::{CheckArgs, CheckKind, Format};
use super::exit::ExitCode;
use super::output;
use super::planning::usage;
use super::refusal::Refusal;
use crate::caution;
use crate::engineering as eng;
use crate::language::Translator;
use crate::limit::Duty;
use crate::lookup::WorkedOut;
use crate::report::model::grouped;

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the command.
pub fn run(args: &CheckArgs) -> ExitCode {
    let checked = match check(&args.kind) {
        Ok(checked) => checked,
        Err(why) => return usage(why),
    };
    output::result(&match args.format {
        Format::Json => format!("{:#}\n", as_json(&checked)),
        Format::Table => as_text(&checked, &mut Translator::new(args.language.chosen())),
    })
}

fn check(kind: &CheckKind) -> Result<WorkedOut, Refusal> {
    match kind {
        CheckKind::Life {
            family,
            rating,
            static_rating,
            load,
            rpm,
            instead_rating,
            instead_family,
            same_source,
        } => lives(
            (family, instead_family.as_deref()),
            (*rating, *static_rating),
            (*load, *rpm),
            (*instead_rating, *same_source),
        ),
        CheckKind::Speed {
            rpm,
            limit,
            closure,
            limit_of_open,
        } => speed(*rpm, *limit, closure.as_deref(), *limit_of_open),
        CheckKind::Static {
            family,
            rating,
            radial,
            axial,
            angle,
            axial_factor,
        } => static_safety((family, *angle, *axial_factor), *rating, (*radial, *axial)),
        CheckKind::Seat {
            diameter,
            seat,
            class,
            measured,
            uncertainty,
            clearance,
            family,
            bore,
        } => seat_fit(
            *diameter,
            seat,
            class,
            *measured,
            *uncertainty,
            (clearance.as_deref(), family.as_deref(), *bore),
        ),
        CheckKind::Oring {
            inside,
            section,
            floor,
            depth,
            width,
            duty,
        } => o_ring((*inside, *section), (*floor, *depth, *width), duty),
        CheckKind::Lip {
            shaft,
            rpm,
            elastomer,
        } => Ok(lip(*shaft, *rpm, elastomer.as_deref())),
        CheckKind::Spacer {
            first,
            second,
            load,
            uncertainty,
            documented,
            documented_load,
            arrangement,
            from_widths,
        } => spacer(
            (*first, *second, *load, *uncertainty),
            (*documented, *documented_load),
            arrangement,
            *from_widths,
        ),
    }
}

/// A ring of inside diameter and section in a groove of floor, depth and width.
fn o_ring(
    (inside, section): (f64, f64),
    (floor, depth, width): (Option<f64>, f64, Option<f64>),
    duty: &str,
) -> Result<WorkedOut, Refusal> {
    let duty = Duty::from_code(duty).ok_or_else(|| {
        format!("`{duty}` is no duty; expected static_radial, static_face or reciprocating")
    })?;
    let of = eng::o_ring_in_gland(inside, section, floor, depth, width, duty);
    Ok(WorkedOut {
        of: String::new(),
        check: "oring",
        values: vec![
            ("stretch_share", of.stretch_share),
            ("section_mm", Some(of.section_mm)),
            ("squeeze_share", Some(of.squeeze_share)),
            ("fill_share", of.fill_share),
            (
                "published_least_depth_mm",
                of.published.map(|gland| gland.least_depth_mm),
            ),
            (
                "published_greatest_depth_mm",
                of.published.map(|gland| gland.greatest_depth_mm),
            ),
        ],
        says: of.notes,
        against: of.against,
    })
}

fn lip(shaft: f64, rpm: f64, elastomer: Option<&str>) -> WorkedOut {
    let of = eng::surface_speed(shaft, rpm, elastomer);
    let unknown = "no limit known for this elastomer".to_owned();
    let too_fast = "faster than the elastomer stands".to_owned();
    WorkedOut {
        of: String::new(),
        check: "lip",
        values: vec![
            ("speed_m_s", Some(of.speed_m_s)),
            ("limit_m_s", of.limit_m_s),
        ],
        says: Vec::from_iter(of.limit_m_s.is_none().then_some(unknown)),
        against: Vec::from_iter((of.is_within == Some(false)).then_some(too_fast)),
    }
}

fn spacer(
    (first, second, load, uncertainty): (Option<f64>, Option<f64>, Option<f64>, f64),
    (documented, documented_load): (Option<f64>, Option<f64>),
    arrangement: &str,
    from_widths: bool,
) -> Result<WorkedOut, Refusal> {
    let arrangement = match arrangement.to_ascii_uppercase().as_str() {
        "DB" => eng::Arrangement::BackToBack,
        "DF" => eng::Arrangement::FaceToFace,
        _ => {
            return Err(Refusal::new(format!(
                "`{arrangement}` is no arrangement; expected DB or DF"
            )));
        }
    };
    let source = match (from_widths, first, second, load) {
        (true, ..) => eng::OffsetSource::Nominal,
        (false, Some(_), Some(_), Some(_)) => eng::OffsetSource::MeasuredUnderLoad,
        _ => eng::OffsetSource::Unloaded,
    };
    let offsets = eng::FaceOffsets {
        first_um: first.unwrap_or_default(),
        second_um: second.unwrap_or_default(),
        measured_under_n: load.unwrap_or_default(),
        uncertainty_um: uncertainty,
        source,
    };
    let is_load_missing = documented.is_some() && documented_load.is_none();
    let advice = if is_load_missing && source == eng::OffsetSource::MeasuredUnderLoad {
        eng::SpacerAdvice::MeasureFirst {
            why: "the load that the documentation states its preload under is not given",
            how: eng::spacer_first(),
        }
    } else {
        let documented_load = documented_load.unwrap_or_default();
        eng::spacer(arrangement, offsets, documented, documented_load)
    };
    let (mut says, amount, against) = match advice {
        eng::SpacerAdvice::Equal => (
            vec!["leave both spacers at one length".to_owned()],
            Some(0.0),
            Vec::new(),
        ),
        eng::SpacerAdvice::ShortenInner(um) => (
            vec![format!(
                "make the inner spacer {um:.1} µm shorter than the outer one"
            )],
            Some(um),
            Vec::new(),
        ),
        eng::SpacerAdvice::ShortenOuter(um) => (
            vec![format!(
                "make the outer spacer {um:.1} µm shorter than the inner one"
            )],
            Some(um),
            Vec::new(),
        ),
        eng::SpacerAdvice::MeasureFirst { why, how } => (
            how.iter().map(|step| (*step).to_owned()).collect(),
            None,
            vec![format!("no amount: {why}")],
        ),
    };
    says.push(eng::OFFSET_SIGN.to_owned());
    Ok(WorkedOut {
        of: String::new(),
        check: "spacer",
        values: vec![("difference_um", amount)],
        says,
        against,
    })
}

fn as_json(checked: &WorkedOut) -> Value {
    json!({
        "schema": SCHEMA,
        "check": checked.check,
        "values": values_json(checked),
        "says": checked.says,
        "against": checked.against,
        "cautions": caution::FITTING,
    })
}

fn values_json(worked: &WorkedOut) -> Map<String, Value> {
    let values = worked.values.iter();
    values
        .map(|(name, value)| ((*name).to_owned(), json!(value)))
        .collect()
}

/// A check that `match` worked out, for its JSON form.
pub(super) fn worked_json(worked: &WorkedOut) -> Value {
    json!({
        "of": worked.of,
        "check": worked.check,
        "values": values_json(worked),
        "says": worked.says,
        "against": worked.against,
    })
}

/// A check that `match` worked out, in words.
pub(super) fn worked_text(worked: &WorkedOut, words: &mut Translator) -> String {
    let title = match worked.check {
        "seat" => "Seat of",
        "oring" => "Groove of",
        "lip" => "Lip of",
        _ => "Check of",
    };
    let says = words.say(&worked.says.join("; "));
    let says = format!("{} {}: {says}", words.say(title), worked.of);
    let mut text = output::wrapped("\n", &says);
    for line in &worked.against {
        text.push_str(&output::wrapped("  ▲ ", &words.say(line)));
    }
    text
}

fn as_text(checked: &WorkedOut, words: &mut Translator) -> String {
    let mut text = String::new();
    for (name, value) in &checked.values {
        let (label, shown) = in_words(name, *value);
        let label = words.say(&label);
        let shown = match shown {
            Some((figure, unit)) => {
                let figure = words.language().number(&figure);
                format!("{figure} {}", words.say(unit))
                    .trim_end()
                    .to_owned()
            }
            None => words.say("unknown"),
        };
        text.push_str(&format!("{label:<28} {shown}\n"));
    }
    for line in &checked.says {
        text.push_str(&output::wrapped("  ", &words.say(line)));
    }
    for line in &checked.against {
        text.push_str(&output::wrapped("▲ ", &words.say(line)));
    }
    let label = format!("{}: ", words.say("Caution"));
    for caution in caution::FITTING {
        text.push_str(&output::wrapped(&label, &words.say(caution)));
    }
    text
}

/// Units that names end in, and how a person reads them; a longer ending comes before one that it ends in.
const UNITS: [(&str, &str); 9] = [
    ("_mrev", "million revolutions"),
    ("_m_s", "m/s"),
    ("_share", "%"),
    ("_rpm", "rev/min"),
    ("_um", "µm"),
    ("_mm", "mm"),
    ("_kn", "kN"),
    ("_h", "h"),
    ("", ""),
];

/// `squeeze_share` and 0.187 as `squeeze`, `18.7` and `%`.
fn in_words(name: &str, value: Option<f64>) -> (String, Option<(String, &'static str)>) {
    let found = UNITS
        .iter()
        .find_map(|(ending, unit)| Some((name.strip_suffix(ending)?, *unit)));
    let (stem, unit) = found.unwrap_or((name, ""));
    let figure = |value: f64| match unit {
        "%" => grouped(100.0 * value, 1, 1),
        _ => grouped(value, 3, 3),
    };
    let label = match name {
        "speed_m_s" => "surface speed".to_owned(),
        _ => stem.replace('_', " "),
    };
    (label, value.map(|value| (figure(value), unit)))
}

#[cfg(test)]
mod tests;
