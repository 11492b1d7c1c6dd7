//! Fluid and temperature of the place against the elastomer of a seal; fluid against a bearing.

use super::super::needs::{Fluid, Need};
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::elastomer::{UNMARKED_SEALS, of_contact_seals, symbol};
use super::finding::{Bar, Findings};
use super::surroundings::AGAINST_WATER;
use crate::part::PartClass;

const MEDIA: &str =
    "published media lists; ISO 1629 symbols; from memory for HNBR, VMQ, ACM and CR";
/// Peroxide-cured EPDM keeps this in steam, °C: published description of the elastomer (125 °C in standard compounds, 150 °C
/// in special ones); that it is the one for steam is from memory.
const EPDM_IN_STEAM_C: f64 = 150.0;
/// Who gives the temperatures of elastomers.
pub const RANGES: &str =
    "published ranges (NBR -30 to +100, FKM -20 to +200 °C); others from memory";

const PEROXIDE_CURED: &str = "EPDM cured with peroxide for hot steam, not with sulphur; the seal's maker states its temperature";

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
        // It swells in what it is made of: from memory.
        fails_in: &[
            Fluid::Fuel,
            Fluid::Steam,
            Fluid::BrakeFluid,
            Fluid::SiliconeFluid,
        ],
    },
    Elastomer {
        symbol: "ACM",
        range_c: (-20.0, 150.0),
        fails_in: &[
            Fluid::Water,
            Fluid::Steam,
            Fluid::BrakeFluid,
            Fluid::Fuel,
            Fluid::PhosphateEster,
        ],
    },
    Elastomer {
        symbol: "CR",
        range_c: (-40.0, 100.0),
        fails_in: &[Fluid::Fuel, Fluid::PhosphateEster],
    },
];

/// The temperatures that an elastomer stands, °C.
pub fn range_c(symbol: &str) -> Option<(f64, f64)> {
    find(symbol).map(|known| known.range_c)
}

fn find(symbol: &str) -> Option<&'static Elastomer> {
    ELASTOMERS.iter().find(|known| known.symbol == symbol)
}

/// Compares what a seal must stand with its elastomer, and what a bearing meets with its seals.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let needs = &want.needs;
    let asks = needs.fluid.is_some() || needs.highest_c.is_some() || needs.lowest_c.is_some();
    match have.family.map(|family| family.class()) {
        Some(PartClass::Seals) if asks => seal(want, have, findings),
        Some(PartClass::Bearings) => {
            if let Some(fluid) = needs.fluid {
                bearing(fluid, want, have, findings);
            }
        }
        _ => {}
    }
}

/// Bearings run in oil; other fluids attack the rubber of their seals, wash the grease out and rust the rings (common
/// practice, no source; media of the elastomers as for seals).
fn bearing(fluid: Fluid, want: &Subject, have: &Subject, findings: &mut Findings) {
    findings.looks_at(Need::Fluid);
    if let Some((symbol, is_marked)) = of_contact_seals(have) {
        match find(&symbol) {
            None => elastomers_that_stand(want, findings),
            Some(known) if known.fails_in.contains(&fluid) => findings.differs(
                Bar::Never,
                Difference {
                    what: "elastomer",
                    have: if is_marked {
                        symbol
                    } else {
                        UNMARKED_SEALS.to_owned()
                    },
                    want: fluid.words().to_owned(),
                    effect: "swells, softens or cracks in it".to_owned(),
                    source: MEDIA,
                },
            ),
            Some(known) => findings.agrees(format!("{} in {}", known.symbol, fluid.words())),
        }
    } else if fluid == Fluid::MineralOil {
        findings.agrees("mineral oil lubricates it");
    }
    let is_stainless = (have.traits.variant.as_deref())
        .is_some_and(|variant| variant.to_lowercase().contains("stainless"));
    match fluid {
        Fluid::MineralOil => {}
        Fluid::Water if is_stainless => findings.agrees("stainless"),
        Fluid::Water => findings.check(AGAINST_WATER),
        _ => findings.check(format!(
            "rings, cage and grease in {}: rust, and grease washed out or dissolved",
            fluid.words()
        )),
    }
}

/// Names the elastomers that stand what is asked for, where that of the part is not known.
fn elastomers_that_stand(want: &Subject, findings: &mut Findings) {
    let fits: Vec<&str> = ELASTOMERS
        .iter()
        .filter(|known| stands(known, want))
        .map(|known| known.symbol)
        .collect();
    findings.check(if fits.is_empty() {
        "no common elastomer stands the fluid and heat asked for: ask the seal's maker".to_owned()
    } else {
        format!(
            "elastomer for the fluid and heat asked for: {}",
            fits.join(", ")
        )
    });
}

fn seal(want: &Subject, have: &Subject, findings: &mut Findings) {
    let needs = &want.needs;
    for need in [Need::Fluid, Need::Heat, Need::Cold] {
        findings.looks_at(need);
    }
    let Some(known) = symbol(have).and_then(|symbol| find(&symbol)) else {
        elastomers_that_stand(want, findings);
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
        let is_hot = needs
            .highest_c
            .is_some_and(|celsius| celsius > known.range_c.1);
        if is_for_steam(known, Some(fluid)) && is_hot {
            findings.check(PEROXIDE_CURED);
        }
    }
    for (limit, is_over) in [(needs.highest_c, true), (needs.lowest_c, false)] {
        let Some(celsius) = limit else { continue };
        let is_outside = if is_over {
            celsius > highest_c(known, needs.fluid)
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

/// Highest temperature in a fluid, °C.
fn highest_c(known: &Elastomer, fluid: Option<Fluid>) -> f64 {
    if is_for_steam(known, fluid) {
        EPDM_IN_STEAM_C
    } else {
        known.range_c.1
    }
}

fn is_for_steam(known: &Elastomer, fluid: Option<Fluid>) -> bool {
    known.symbol == "EPDM" && fluid == Some(Fluid::Steam)
}

fn stands(known: &Elastomer, want: &Subject) -> bool {
    let needs = &want.needs;
    needs
        .fluid
        .is_none_or(|fluid| !known.fails_in.contains(&fluid))
        && needs
            .highest_c
            .is_none_or(|celsius| celsius <= highest_c(known, needs.fluid))
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::{Judgement, Subject, Verdict, judge};
    use crate::standard;

    fn of(material: Option<&str>, fluid: Fluid, celsius: f64) -> Judgement {
        let row = standard::find("AS568-214").unwrap();
        let (mut want, mut have) = (Subject::of_standard(row), Subject::of_standard(row));
        want.needs.fluid = Some(fluid);
        want.needs.highest_c = Some(celsius);
        want.traits.material = material.map(str::to_owned);
        have.traits.material = material.map(str::to_owned);
        judge(&want, &have)
    }

    #[test]
    fn ethylene_propylene_is_the_rubber_for_steam() {
        // Published description: 125 °C, in special compounds 150 °C; that it is the one for steam is from memory.
        for (celsius, is_barred, asks_cure) in [
            (120.0, false, false),
            (130.0, false, false),
            (131.0, false, true),
            (150.0, false, true),
            (151.0, true, true),
        ] {
            let judgement = of(Some("EPDM"), Fluid::Steam, celsius);
            assert_eq!(
                judgement.verdict == Verdict::MustNot,
                is_barred,
                "{celsius}: {judgement:?}"
            );
            let asks = judgement.checks.iter().any(|check| check == PEROXIDE_CURED);
            assert_eq!(asks, asks_cure, "{celsius}: {judgement:?}");
        }
        // Hot water is no steam, and other elastomers gain nothing by it.
        assert_eq!(
            of(Some("EPDM"), Fluid::Water, 150.0).verdict,
            Verdict::MustNot
        );
        assert_eq!(
            of(Some("NBR"), Fluid::Steam, 90.0).verdict,
            Verdict::MustNot
        );
        let open = of(None, Fluid::Steam, 150.0);
        assert!(
            open.checks
                .iter()
                .any(|check| check.ends_with(": HNBR, EPDM")),
            "{open:?}"
        );
    }

    #[test]
    fn silicone_rubber_swells_in_silicone_oil() {
        // From memory: like swells in like; the usual rubbers stand it.
        let verdict = |symbol| of(Some(symbol), Fluid::SiliconeFluid, 60.0).verdict;
        assert_eq!(verdict("VMQ"), Verdict::MustNot);
        for symbol in ["NBR", "FKM", "EPDM"] {
            assert_ne!(verdict(symbol), Verdict::MustNot, "{symbol}");
        }
    }

    #[test]
    fn phosphate_ester_leaves_few_elastomers() {
        // EPDM is used in phosphate ester (published description of the elastomer); ACM is not, from memory.
        assert_eq!(
            of(Some("ACM"), Fluid::PhosphateEster, 60.0).verdict,
            Verdict::MustNot
        );
        assert_ne!(
            of(Some("EPDM"), Fluid::PhosphateEster, 60.0).verdict,
            Verdict::MustNot
        );
        let open = of(None, Fluid::PhosphateEster, 60.0);
        let elastomers = open.checks.iter().find(|check| check.contains(": "));
        assert!(
            elastomers.is_some_and(|check| !check.contains("ACM") && check.contains("EPDM")),
            "{open:?}"
        );
    }
}
