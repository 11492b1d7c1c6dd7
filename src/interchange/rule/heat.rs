//! Heat and cold of the place against rings, cage, grease and seals of a bearing.

use super::super::needs::Need;
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::cage::is_polyamide;
use super::elastomer::{UNMARKED_SEALS, of_contact_seals};
use super::finding::{Bar, Findings};
use super::fluid::{RANGES, range_c};
use super::variant::stabilised_to_c;
use crate::part::PartClass;

/// Polyamide cages stand about this, °C.
const POLYAMIDE_C: f64 = 120.0;
/// Rings that are not stabilised keep their size up to about this, °C.
const UNSTABILISED_C: f64 = 120.0;
/// Common grease still moves down to about this, °C: common practice, from memory.
const COMMON_GREASE_C: f64 = -30.0;
const CLOSURES: &str = "published closure description (nitrile -40 to +110 °C)";

/// Compares the temperatures asked for with what a bearing stands.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let is_bearing = have
        .family
        .is_some_and(|family| family.class() == PartClass::Bearings);
    if !is_bearing {
        return;
    }
    findings.looks_at(Need::Heat);
    findings.looks_at(Need::Cold);
    if let Some(highest_c) = want.needs.highest_c {
        let told = seals(highest_c, have, findings);
        if !heat(highest_c, have, findings) && !told {
            findings.agrees(format!("stands {highest_c} °C"));
        }
    }
    if let Some(lowest_c) = want.needs.lowest_c {
        let told = seals(lowest_c, have, findings);
        if lowest_c < COMMON_GREASE_C {
            findings.check(format!("grease and cage for {lowest_c} °C"));
        } else if !told {
            findings.agrees(format!("stands {lowest_c} °C"));
        }
    }
}

fn difference(what: &'static str, have: String, celsius: f64, effect: &str) -> Difference {
    Difference {
        what,
        have,
        want: format!("stands {celsius} °C"),
        effect: effect.to_owned(),
        source: "common practice, from memory",
    }
}

/// Rings and cage in the heat; true where something is said.
fn heat(highest_c: f64, have: &Subject, findings: &mut Findings) -> bool {
    let traits = &have.traits;
    let has_polyamide = traits.cage.as_deref().is_some_and(is_polyamide);
    if highest_c > POLYAMIDE_C && has_polyamide {
        let cage = "polyamide cage".to_owned();
        let effect = "the cage softens and breaks";
        findings.differs(Bar::Never, difference("heat", cage, highest_c, effect));
    }
    if highest_c <= UNSTABILISED_C {
        return false;
    }
    let stabilised = traits.variants().find(|piece| piece.contains("stabilised"));
    match stabilised.map(stabilised_to_c) {
        // A grade that is not told is no grade.
        None | Some(None) => findings
            .check("rings stabilised for the temperature (S0 and up), or a bearing known to be"),
        Some(Some(to_c)) if to_c < highest_c => {
            let rings = format!("rings stabilised to about {to_c} °C");
            let effect = "rings that are not stabilised grow when they run hot";
            findings.differs(Bar::Check, difference("heat", rings, highest_c, effect));
            findings.check("rings stabilised for the temperature");
        }
        Some(Some(_)) => findings.agrees("dimensionally stabilised rings"),
    }
    findings.check("grease for the temperature, and clearance left when hot");
    true
}

/// The rubber of contact seals, hot or cold; true where something is said.
///
/// Sources differ by 10 °C for nitrile and 20 to 30 °C for fluoroelastomer: in between the seal's own limit is asked for.
fn seals(celsius: f64, have: &Subject, findings: &mut Findings) -> bool {
    let Some((symbol, is_marked)) = of_contact_seals(have) else {
        return false;
    };
    let Some(sure) = range_c(&symbol) else {
        findings.check(format!(
            "contact seals of {symbol} at {celsius} °C: ask the bearing's maker"
        ));
        return true;
    };
    let most = match symbol.as_str() {
        "NBR" => (-40.0, 110.0),
        "FKM" => (-40.0, 230.0),
        _ => sure,
    };
    let is_within = |range: (f64, f64)| (range.0..=range.1).contains(&celsius);
    if is_within(sure) {
        findings.agrees(format!("{symbol} at {celsius} °C"));
    } else if is_within(most) {
        findings.check(format!(
            "contact seals of {symbol} at {celsius} °C: ask the bearing's maker"
        ));
    } else {
        let is_nitrile = symbol == "NBR";
        let is_cold = celsius < sure.0;
        let effect = match (is_cold, is_nitrile) {
            (true, _) => "stiffens and leaks",
            (false, true) => "nitrile seals harden and crack above about 110 °C",
            (false, false) => "hardens and cracks",
        };
        let seals = if is_marked {
            symbol
        } else {
            UNMARKED_SEALS.to_owned()
        };
        let what = if is_cold { "cold" } else { "heat" };
        findings.differs(
            Bar::Never,
            Difference {
                source: if is_nitrile { CLOSURES } else { RANGES },
                ..difference(what, seals, celsius, effect)
            },
        );
    }
    true
}
