//! Fluid and temperature of the place against the elastomer of a seal.

use super::super::needs::Fluid;
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::PartClass;

const MEDIA: &str =
    "published media lists; ISO 1629 symbols; from memory for HNBR, VMQ, ACM and CR";
const RANGES: &str = "published ranges (NBR -30 to +100, FKM -20 to +200 °C); others from memory";

/// What an elastomer stands, °C, and which fluids it must not see.
struct Elastomer {
    symbol: &'static str,
    range_c: (f64, f64),
    fails_in: &'static [Fluid],
}

const ELASTOMERS: [Elastomer; 7] = [
    Elastomer {
        symbol: "NBR",
        range_c: (-30.0, 100.0),
        fails_in: &[Fluid::BrakeFluid, Fluid::Steam, Fluid::PhosphateEster],
    },
    Elastomer {
        symbol: "HNBR",
        range_c: (-30.0, 150.0),
        fails_in: &[Fluid::BrakeFluid, Fluid::PhosphateEster],
    },
    Elastomer {
        symbol: "FKM",
        range_c: (-20.0, 200.0),
        fails_in: &[Fluid::BrakeFluid, Fluid::Steam, Fluid::PhosphateEster],
    },
    Elastomer {
        symbol: "EPDM",
        range_c: (-45.0, 130.0),
        fails_in: &[Fluid::MineralOil, Fluid::Fuel],
    },
    Elastomer {
        symbol: "VMQ",
        range_c: (-55.0, 200.0),
        fails_in: &[Fluid::Fuel, Fluid::Steam, Fluid::BrakeFluid],
    },
    Elastomer {
        symbol: "ACM",
        range_c: (-20.0, 150.0),
        fails_in: &[Fluid::Water, Fluid::Steam, Fluid::BrakeFluid, Fluid::Fuel],
    },
    Elastomer {
        symbol: "CR",
        range_c: (-40.0, 100.0),
        fails_in: &[Fluid::Fuel, Fluid::PhosphateEster],
    },
];

/// Compares what a seal must stand with its elastomer.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let is_seal = have
        .family
        .is_some_and(|family| family.class() == PartClass::Seals);
    let needs = &want.needs;
    let asks = needs.fluid.is_some() || needs.highest_c.is_some() || needs.lowest_c.is_some();
    if !is_seal || !asks {
        return;
    }
    let symbol = have.traits.material.as_deref().map(str::to_ascii_uppercase);
    let known = symbol.as_ref().and_then(|symbol| {
        ELASTOMERS
            .iter()
            .find(|known| known.symbol == symbol.as_str())
    });
    let Some(known) = known else {
        let fits: Vec<&str> = ELASTOMERS
            .iter()
            .filter(|known| stands(known, want))
            .map(|known| known.symbol)
            .collect();
        findings.check(if fits.is_empty() {
            "no common elastomer stands the fluid and heat asked for: ask the seal's maker"
                .to_owned()
        } else {
            format!(
                "elastomer for the fluid and heat asked for: {}",
                fits.join(", ")
            )
        });
        return;
    };
    if let Some(fluid) = needs.fluid {
        if known.fails_in.contains(&fluid) {
            bar(
                findings,
                known,
                fluid.words().to_owned(),
                "swells, softens or cracks in it",
                MEDIA,
            );
        } else {
            findings.agrees(format!("{} in {}", known.symbol, fluid.words()));
        }
    }
    for (limit, is_over) in [(needs.highest_c, true), (needs.lowest_c, false)] {
        let Some(celsius) = limit else { continue };
        let is_outside = if is_over {
            celsius > known.range_c.1
        } else {
            celsius < known.range_c.0
        };
        if is_outside {
            let effect = if is_over {
                "hardens and cracks"
            } else {
                "stiffens and leaks"
            };
            bar(
                findings,
                known,
                format!("stands {celsius} °C"),
                effect,
                RANGES,
            );
        } else {
            findings.agrees(format!("{} at {celsius} °C", known.symbol));
        }
    }
}

fn stands(known: &Elastomer, want: &Subject) -> bool {
    let needs = &want.needs;
    needs
        .fluid
        .is_none_or(|fluid| !known.fails_in.contains(&fluid))
        && needs
            .highest_c
            .is_none_or(|celsius| celsius <= known.range_c.1)
        && needs
            .lowest_c
            .is_none_or(|celsius| celsius >= known.range_c.0)
}

fn bar(
    findings: &mut Findings,
    known: &Elastomer,
    want: String,
    effect: &str,
    source: &'static str,
) {
    let have = format!(
        "{} ({} to {} °C)",
        known.symbol, known.range_c.0, known.range_c.1
    );
    findings.differs(
        Bar::Never,
        Difference {
            what: "elastomer",
            have,
            want,
            effect: effect.to_owned(),
            source,
        },
    );
}
