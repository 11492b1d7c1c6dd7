//! `sparewright check`: the engineering checks behind a verdict, one at a time.
//!
//! JSON, schema 1: `{"schema", "check", "values": {name: number or null}, "says": [text], "against": [text], "cautions":
//! [text]}`; names carry their unit.

mod bearing;

use serde_json::{Map, Value, json};

use bearing::{compare_lives, family_that_rolls, life, speed, static_safety};

use super::args::{CheckArgs, CheckKind, Format};
use super::exit::ExitCode;
use super::output;
use super::planning::usage;
use super::refusal::Refusal;
use crate::caution;
use crate::engineering as eng;
use crate::language::Translator;
use crate::limit::{self, Deviation, Duty};
use crate::lookup::{
    Instrument, LOOSE_ON_SHAFT, LOOSER_THAN_CLASS, Role, TIGHTER_THAN_CLASS, WorkedOut,
    against_clearance, expanded_uncertainty_mm, likely_in_words,
};
use crate::part::{Clearance, Family, ToleranceClass};
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
        } => {
            let mut checked = life(family, (*rating, *static_rating), *load, *rpm)?;
            if let Some(instead) = *instead_rating {
                let instead_family = instead_family.as_deref().unwrap_or(family);
                let of = [
                    (*rating, family_that_rolls(family)?),
                    (instead, family_that_rolls(instead_family)?),
                ];
                compare_lives(&mut checked, of, *load, *same_source);
            }
            Ok(checked)
        }
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
        } => seat_fit(
            *diameter,
            seat,
            class,
            *measured,
            *uncertainty,
            clearance.as_deref(),
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

fn seat_fit(
    diameter: f64,
    seat_class: &str,
    class: &str,
    measured: Option<f64>,
    uncertainty_um: Option<f64>,
    clearance: Option<&str>,
) -> Result<WorkedOut, Refusal> {
    let class = ToleranceClass::from_code(class)
        .ok_or_else(|| format!("`{class}` is no tolerance class; expected P0, P6, P5 or P4"))?;
    let is_shaft = seat_class.starts_with(|c: char| c.is_ascii_lowercase());
    let seat = if is_shaft {
        eng::Seat::Shaft
    } else {
        eng::Seat::Housing
    };
    let role = if is_shaft { Role::Shaft } else { Role::Housing };
    let uncertainty_um = uncertainty_um
        .unwrap_or_else(|| expanded_uncertainty_mm(Instrument::Micrometer, role) * 1000.0);
    let by_class = eng::bearing_seat(seat, diameter, class, seat_class)
        .ok_or_else(|| format!("no limits here for `{seat_class}` at {diameter} mm"))?;
    let fit = match measured {
        Some(measured) => {
            near_its_diameter(measured, diameter)?;
            let off_um = (measured - diameter) * 1000.0;
            let of_seat = Deviation {
                lower_um: off_um - uncertainty_um,
                upper_um: off_um + uncertainty_um,
            };
            eng::ring_deviation(seat, diameter, class)
                .map(|ring| eng::interference(seat, ring, of_seat))
                .ok_or("no limits for this ring here")?
        }
        None => by_class,
    };
    let group = clearance.map(clearance_group).transpose()?;
    let left = group
        .filter(|_| is_shaft)
        .and_then(|group| clearance_left(group, (diameter, class), fit));
    let mut against = Vec::new();
    if let (Some(_), Some(ring)) = (measured, eng::ring_deviation(seat, diameter, class)) {
        let of_class = limit::fit(seat_class, diameter);
        let finding = eng::seat_finding((seat, ring, of_class), fit, uncertainty_um);
        against.extend(finding.map(|finding| match finding {
                eng::SeatFinding::TooCoarse { band_um } => format!(
                    "the reading is sure to {uncertainty_um:.0} µm and the band is {band_um:.0} µm: this instrument cannot tell; use one that is sure to a third of the band"
                ),
                eng::SeatFinding::LooserThanClass => LOOSER_THAN_CLASS.to_owned(),
                eng::SeatFinding::TighterThanClass => TIGHTER_THAN_CLASS.to_owned(),
                eng::SeatFinding::LooseOnShaft => LOOSE_ON_SHAFT.to_owned(),
                eng::SeatFinding::NotProved => format!(
                    "a limit of the seat's class lies nearer than the {uncertainty_um:.0} µm that the reading is sure to: it is proved neither right nor wrong (ISO 14253-1); measure again with a finer instrument"
                ),
        }));
    }
    let mut says = vec!["negative interference is play".to_owned()];
    let unknown = group.filter(|_| left.is_none());
    says.extend(unknown.map(|group| why_no_clearance(is_shaft, group, diameter)));
    if let Some((left, likely)) = left {
        says.extend(likely_in_words(left, likely));
        against.extend(against_clearance(likely).map(str::to_owned));
    }
    let (left, likely) = left.unzip();
    Ok(WorkedOut {
        of: String::new(),
        check: "seat",
        values: vec![
            ("least_interference_um", Some(fit.least_um)),
            ("greatest_interference_um", Some(fit.greatest_um)),
            ("least_clearance_left_um", left.map(|left| left.lower_um)),
            ("greatest_clearance_left_um", left.map(|left| left.upper_um)),
            (
                "likely_least_clearance_left_um",
                likely.map(|left| left.lower_um),
            ),
            (
                "likely_greatest_clearance_left_um",
                likely.map(|left| left.upper_um),
            ),
        ],
        says,
        against,
    })
}

/// Furthest that a measured seat lies from its diameter, as a share of it and mm at least: worn or turned down further, it is a
/// seat for another bearing (common practice, no source).
const FURTHEST_SEAT: (f64, f64) = (0.02, 1.0);

/// Refuses a seat that no ring of the diameter was ever on: a slip of the pen, inches, or micrometres.
fn near_its_diameter(measured: f64, diameter: f64) -> Result<(), Refusal> {
    let off_mm = (measured - diameter).abs();
    let (share, least_mm) = FURTHEST_SEAT;
    if off_mm <= (share * diameter).max(least_mm) {
        return Ok(());
    }
    let off_mm = (off_mm * 1e3).round() / 1e3;
    Err(Refusal::new(format!(
        "`--measured {measured}` lies {off_mm} mm beside the diameter of {diameter} mm: no seat for it does; give both in mm and look at the figures again"
    )))
}

fn clearance_group(code: &str) -> Result<Clearance, Refusal> {
    let group = Clearance::from_code(code);
    Ok(group
        .ok_or_else(|| format!("`{code}` is no clearance group; expected C2, CN, C3, C4 or C5"))?)
}

/// Clearance left between the ends of all tolerances, and as it is likely; of a deep groove ball bearing.
fn clearance_left(
    group: Clearance,
    (bore_mm, class): (f64, ToleranceClass),
    fit: eng::Interference,
) -> Option<(Deviation, Deviation)> {
    let family = Family::DeepGrooveBall;
    let left = eng::clearance_after_fit(family, group, bore_mm, fit)?;
    let fit = eng::likely_interference(eng::Seat::Shaft, (bore_mm, class), fit)?;
    let likely = eng::likely_clearance_after_fits(family, group, bore_mm, &[fit])?;
    Some((left, likely))
}

/// Why the clearance left is not worked out.
fn why_no_clearance(is_shaft: bool, group: Clearance, diameter: f64) -> String {
    if is_shaft {
        format!("no limits of clearance {group} (ISO 5753-1) here for a bore of {diameter} mm")
    } else {
        "the clearance left is worked out for the seat on the shaft: the outer ring's seat takes its share as well".to_owned()
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
