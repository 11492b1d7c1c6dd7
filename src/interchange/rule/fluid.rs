//! Fluid and temperature of the place against the elastomer of a seal; fluid against a bearing.

use super::super::needs::{Fluid, Need, Needs};
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
    /// Highest in mineral oil, °C, where that is less than in air: in the oils that attack it most, and in those that it
    /// stands best.
    in_oil_c: Option<(f64, f64)>,
}

/// Water that is hotter is under pressure, and attacks as its steam does, °C (common practice, no source).
const WATER_AS_STEAM_C: f64 = 100.0;

const ELASTOMERS: [Elastomer; 7] = [
    Elastomer {
        symbol: "NBR",
        range_c: (-30.0, 100.0),
        fails_in: &[Fluid::BrakeFluid, Fluid::Steam, Fluid::PhosphateEster],
        in_oil_c: None,
    },
    Elastomer {
        symbol: "HNBR",
        range_c: (-30.0, 150.0),
        fails_in: &[Fluid::BrakeFluid, Fluid::PhosphateEster],
        in_oil_c: None,
    },
    Elastomer {
        symbol: "FKM",
        range_c: (-20.0, 200.0),
        fails_in: &[Fluid::BrakeFluid, Fluid::Steam, Fluid::PhosphateEster],
        in_oil_c: None,
    },
    Elastomer {
        symbol: "EPDM",
        range_c: (-45.0, 130.0),
        fails_in: &[Fluid::MineralOil, Fluid::Fuel],
        in_oil_c: None,
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
        // DIN 3760: gear and pressure oils, engine oils; from memory.
        in_oil_c: Some((130.0, 150.0)),
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
        // DIN 3760: gear and pressure oils, engine oils; from memory.
        in_oil_c: Some((120.0, 130.0)),
    },
    Elastomer {
        symbol: "CR",
        range_c: (-40.0, 100.0),
        // Steam: from memory.
        fails_in: &[Fluid::Fuel, Fluid::Steam, Fluid::PhosphateEster],
        in_oil_c: None,
    },
];

impl Elastomer {
    /// True where the fluid asked for attacks it; water above its boiling point is steam to it.
    fn fails(&self, needs: &Needs) -> bool {
        let is_over = needs.highest_c.is_some_and(|of| of > WATER_AS_STEAM_C);
        needs.fluid.is_some_and(|fluid| {
            let as_steam = fluid == Fluid::Water && is_over;
            self.fails_in.contains(&fluid) || as_steam && self.fails_in.contains(&Fluid::Steam)
        })
    }

    /// The fluid in words, with its heat where cold it would do no harm.
    fn attacked_by(&self, fluid: Fluid, heat_c: Option<f64>) -> String {
        match heat_c.filter(|_| !self.fails_in.contains(&fluid)) {
            Some(celsius) => format!("{} at {celsius} °C", fluid.words()),
            None => fluid.words().to_owned(),
        }
    }

    /// Asks which oil it is where only some of them may be that hot.
    fn check_in_oil(&self, fluid: Fluid, heat_c: Option<f64>, findings: &mut Findings) {
        let (Fluid::MineralOil, Some((least_c, most_c))) = (fluid, self.in_oil_c) else {
            return;
        };
        if let Some(celsius) = heat_c.filter(|of| (least_c..=most_c).contains(of) && *of > least_c)
        {
            findings.check(format!(
                "{} keeps {least_c} °C in some mineral oils and {most_c} °C in others (DIN 3760, from memory): ask the seal's maker whether it stands {celsius} °C in this one",
                self.symbol
            ));
        }
    }
}

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
    let Some(family) = have.family else { return };
    if family.facts().exchange.is_of_elastomer {
        if asks {
            seal(want, have, findings);
        }
    } else if let Some(fluid) = needs.fluid
        && family.class() == PartClass::Bearings
    {
        bearing(fluid, want, have, findings);
    }
}

/// Bearings run in oil; other fluids attack the rubber of their seals, wash the grease out and rust the rings (common
/// practice, no source; media of the elastomers as for seals).
fn bearing(fluid: Fluid, want: &Subject, have: &Subject, findings: &mut Findings) {
    findings.looks_at(Need::Fluid);
    if let Some((symbol, is_marked)) = of_contact_seals(have) {
        match find(&symbol) {
            None => elastomers_that_stand(want, findings),
            Some(known) if known.fails(&want.needs) => findings.differs(
                Bar::Never,
                Difference {
                    what: "elastomer",
                    have: if is_marked {
                        symbol
                    } else {
                        UNMARKED_SEALS.to_owned()
                    },
                    want: known.attacked_by(fluid, want.needs.highest_c),
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
        if known.fails(needs) {
            bar(
                findings,
                (known, known.range_c.1),
                known.attacked_by(fluid, needs.highest_c),
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
        known.check_in_oil(fluid, needs.highest_c, findings);
    }
    for (limit, is_over) in [(needs.highest_c, true), (needs.lowest_c, false)] {
        let Some(celsius) = limit else { continue };
        let highest_c = highest_c(known, needs.fluid);
        let is_outside = if is_over {
            celsius > highest_c
        } else {
            celsius < known.range_c.0
        };
        if is_outside {
            let effect = if is_over {
                "hardens and cracks"
            } else {
                "stiffens and leaks"
            };
            // What it stands less or more than in air is of the fluid.
            let of_fluid = needs.fluid.filter(|_| is_over);
            let is_other = highest_c.total_cmp(&known.range_c.1).is_ne();
            let want = match of_fluid.filter(|_| is_other) {
                Some(fluid) => format!("stands {celsius} °C in {}", fluid.words()),
                None => format!("stands {celsius} °C"),
            };
            let range_to_c = if is_over { highest_c } else { known.range_c.1 };
            bar(findings, (known, range_to_c), want, effect, RANGES);
        } else {
            findings.agrees(format!("{} at {celsius} °C", known.symbol));
        }
    }
}

/// Highest temperature in a fluid, °C.
fn highest_c(known: &Elastomer, fluid: Option<Fluid>) -> f64 {
    match (fluid, known.in_oil_c) {
        _ if is_for_steam(known, fluid) => EPDM_IN_STEAM_C,
        (Some(Fluid::MineralOil), Some((_, most_c))) => most_c,
        _ => known.range_c.1,
    }
}

fn is_for_steam(known: &Elastomer, fluid: Option<Fluid>) -> bool {
    known.symbol == "EPDM" && fluid == Some(Fluid::Steam)
}

fn stands(known: &Elastomer, want: &Subject) -> bool {
    let needs = &want.needs;
    !known.fails(needs)
        && needs
            .highest_c
            .is_none_or(|celsius| celsius <= highest_c(known, needs.fluid))
        && needs
            .lowest_c
            .is_none_or(|celsius| celsius >= known.range_c.0)
}

fn bar(
    findings: &mut Findings,
    (known, range_to_c): (&Elastomer, f64),
    want: String,
    effect: &str,
    source: &'static str,
) {
    let have = format!(
        "{} ({} to {} °C)",
        known.symbol, known.range_c.0, range_to_c
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
    fn chloroprene_is_not_for_steam() {
        // From memory: hot water and steam swell and harden it; it is used in water, refrigerants and weather.
        assert_eq!(of(Some("CR"), Fluid::Steam, 90.0).verdict, Verdict::MustNot);
        assert_ne!(of(Some("CR"), Fluid::Water, 60.0).verdict, Verdict::MustNot);
        let perfluoro = of(Some("FFKM"), Fluid::Steam, 90.0);
        let listed = perfluoro.checks.iter().any(|check| check.contains("CR"));
        assert!(!listed, "{perfluoro:?}");
    }

    /// DIN 3760, from memory: silicone 150 °C in engine oils, 130 °C in gear and pressure oils, acrylate 130 and 120 °C.
    #[test]
    fn oil_takes_heat_from_silicone_and_acrylate() {
        for (symbol, celsius, is_barred, asks_oil) in [
            ("VMQ", 120.0, false, false),
            ("VMQ", 130.0, false, false),
            ("VMQ", 140.0, false, true),
            ("VMQ", 150.0, false, true),
            ("VMQ", 180.0, true, false),
            ("ACM", 120.0, false, false),
            ("ACM", 125.0, false, true),
            ("ACM", 140.0, true, false),
            // Published range, in oil too.
            ("FKM", 180.0, false, false),
        ] {
            let judgement = of(Some(symbol), Fluid::MineralOil, celsius);
            let is_never = judgement.verdict == Verdict::MustNot;
            assert_eq!(is_never, is_barred, "{symbol} {celsius}: {judgement:?}");
            let asks = judgement.checks.iter().any(|of| of.contains("in this one"));
            assert_eq!(asks, asks_oil, "{symbol} {celsius}: {judgement:?}");
        }
        let hot = of(Some("VMQ"), Fluid::MineralOil, 180.0);
        let told = hot.differs.iter().any(|of| {
            of.have == "VMQ (-55 to 150 °C)" && of.want == "stands 180 °C in mineral oil"
        });
        assert!(told, "{hot:?}");
    }

    #[test]
    fn water_under_pressure_is_as_bad_as_steam() {
        // Common practice, no source; media as for steam.
        for (symbol, celsius, is_barred) in [
            ("FKM", 90.0, false),
            ("FKM", 120.0, true),
            ("VMQ", 120.0, true),
            ("EPDM", 120.0, false),
            ("HNBR", 120.0, false),
        ] {
            let verdict = of(Some(symbol), Fluid::Water, celsius).verdict;
            assert_eq!(verdict == Verdict::MustNot, is_barred, "{symbol} {celsius}");
        }
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
