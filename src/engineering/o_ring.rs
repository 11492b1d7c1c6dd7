//! An O-ring in a measured groove: stretch, squeeze and fill.

use crate::limit::{self, Duty, Gland, gland};

/// Least stretch of the inside diameter on a groove floor that a ring is chosen for: handbook practice, from memory (1 to
/// 5 %).
pub const LEAST_STRETCH: f64 = 0.01;
/// Most stretch of the inside diameter on a groove floor.
const MOST_STRETCH: f64 = 0.05;
/// Most fill of the groove's cross section, to leave room for swell and heat.
const MOST_FILL: f64 = 0.85;

/// Decimals of a per cent after which a share is no longer told apart from its limit: nobody measures that.
const MOST_DECIMALS: usize = 4;

/// What a ring does in a groove, and what speaks against it.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct OringInGland {
    /// Stretch of the inside diameter on the groove floor; negative where the ring is loose. `None` without a floor.
    pub stretch_share: Option<f64>,
    /// Section after stretching, mm.
    pub section_mm: f64,
    /// Squeeze of the section.
    pub squeeze_share: f64,
    /// Fill of the groove's cross section; `None` without a width.
    pub fill_share: Option<f64>,
    /// Published gland of the section and duty, where there is one.
    pub published: Option<Gland>,
    /// What speaks against it; empty where nothing does.
    pub against: Vec<String>,
    /// True where nothing speaks against it but a depth outside its published gland.
    pub is_only_depth_off: bool,
    /// What is worth a word and speaks against nothing.
    pub notes: Vec<String>,
}

/// Works out stretch, squeeze and fill.
///
/// # Units
/// Millimetres. `floor_mm` is the diameter of the groove floor on a rod, `depth_mm` the depth of the gland from floor to
/// counterface.
///
/// # Source
/// Depth and squeeze by duty and section: published gland table (see [`gland`]), whose squeeze takes in the tolerance of the
/// section, so that a nominal ring is judged by the depth; stretch up to 5 % and fill up to 85 %: handbook
/// practice, from memory; the section of a stretched ring by constant volume.
///
/// # Example
/// ```
/// use sparewright::engineering::o_ring_in_gland;
/// use sparewright::limit::Duty;
/// // A 3.0 mm ring in the 2.87 mm gland of a 3.53 mm one: 4.3 % squeeze, it leaks.
/// let wrong = o_ring_in_gland(40.0, 3.0, None, 2.87, None, Duty::StaticRadial);
/// assert!((wrong.squeeze_share - 0.043).abs() < 0.001 && !wrong.against.is_empty());
/// ```
pub fn o_ring_in_gland(
    inside_mm: f64,
    section_mm: f64,
    floor_mm: Option<f64>,
    depth_mm: f64,
    width_mm: Option<f64>,
    duty: Duty,
) -> OringInGland {
    let stretch_share = floor_mm.map(|floor_mm| (floor_mm - inside_mm) / inside_mm);
    let stretch = stretch_share.unwrap_or(0.0).max(0.0);
    let stretched_mm = section_mm * (1.0 / (1.0 + stretch)).sqrt();
    let squeeze_share = (stretched_mm - depth_mm) / stretched_mm;
    let area = std::f64::consts::FRAC_PI_4 * stretched_mm * stretched_mm;
    let fill_share = width_mm.map(|width_mm| area / (width_mm * depth_mm));
    let published = gland(duty, section_mm);
    let mut against = Vec::new();
    let measures = [
        Some(inside_mm),
        Some(section_mm),
        floor_mm,
        Some(depth_mm),
        width_mm,
    ];
    if measures
        .iter()
        .flatten()
        .any(|mm| !(*mm > 0.0 && mm.is_finite()))
    {
        against.push("a measure is not above 0: nothing can be said of this groove".to_owned());
    }
    let off_squeeze = against_squeeze(squeeze_share, squeeze_window(section_mm, duty));
    // A squeeze that is off by itself says it all.
    let off_depth = published
        .filter(|_| off_squeeze.is_none())
        .and_then(|gland| {
            let of_section = limit::o_ring(inside_mm, section_mm, "").section_mm;
            let thinned = stretched_mm / section_mm;
            let ends_mm = [section_mm - of_section, section_mm + of_section];
            against_depth(&gland, depth_mm, ends_mm.map(|mm| mm * thinned))
        });
    let off_squeeze_is_told = off_squeeze.is_some();
    against.extend(off_squeeze);
    against.extend(stretch_share.and_then(against_stretch));
    if let Some(share) = fill_share.filter(|share| *share > MOST_FILL) {
        against.push(if share > 1.0 {
            // Rubber keeps its volume under pressure.
            format!(
                "fills {} % of the groove: more than it holds, so that it does not go in as measured: measure groove and ring again",
                beyond(share, 1.0, 0)
            )
        } else {
            format!(
                "fills {} % of the groove, above 85 %: no room for swell and heat",
                beyond(share, MOST_FILL, 0)
            )
        });
    }
    let beside_squeeze = published
        .filter(|_| off_squeeze_is_told)
        .and_then(|gland| outside_gland(&gland, depth_mm));
    let is_only_depth_off = against.is_empty() && off_depth.is_some();
    against.extend(off_depth);
    OringInGland {
        stretch_share,
        section_mm: stretched_mm,
        squeeze_share,
        fill_share,
        published,
        against,
        is_only_depth_off,
        notes: slack(stretch_share, duty)
            .into_iter()
            .chain(beside_squeeze)
            .collect(),
    }
}

/// Least and greatest squeeze of a section in a duty, shares of the section: of its published gland where there is one, else
/// the window of its duty at large (common handbook practice).
pub fn squeeze_window(section_mm: f64, duty: Duty) -> (f64, f64) {
    gland(duty, section_mm).map_or(
        match duty {
            Duty::StaticRadial => (0.12, 0.25),
            Duty::StaticFace => (0.18, 0.30),
            Duty::Reciprocating => (0.08, 0.18),
        },
        |gland| (gland.least_squeeze_share, gland.greatest_squeeze_share),
    )
}

/// What speaks against a squeeze outside its window.
fn against_squeeze(share: f64, (least, greatest): (f64, f64)) -> Option<String> {
    if share < least {
        Some(format!(
            "squeeze {} % is below {} %: leaks",
            beyond(share, least, 1),
            percent(least)
        ))
    } else if share > greatest {
        Some(format!(
            "squeeze {} % is above {} %: hard to fit, sets early, runs hot when moving",
            beyond(share, greatest, 1),
            percent(greatest)
        ))
    } else {
        None
    }
}

/// What speaks against a depth outside a published gland, with the squeeze of the thinnest and the thickest ring of the section
/// (mm, as stretched); `None` within it.
fn against_depth(gland: &Gland, depth_mm: f64, [thinnest, thickest]: [f64; 2]) -> Option<String> {
    // Depths are read to a hundredth of a millimetre: less than this is the sum of the figures only.
    const NOTHING_MM: f64 = 1e-6;
    let squeeze = |section_mm: f64| percent((section_mm - depth_mm) / section_mm);
    let (least, greatest) = (gland.least_depth_mm, gland.greatest_depth_mm);
    let is_deep = depth_mm > greatest + NOTHING_MM;
    if !is_deep && depth_mm >= least - NOTHING_MM {
        return None;
    }
    let [from, to] = [gland.least_squeeze_share, gland.greatest_squeeze_share].map(percent);
    Some(if is_deep {
        format!(
            "depth {depth_mm} mm is more than the published {least} to {greatest} mm: the thinnest ring of this section is squeezed {} %, and {from} to {to} % are published",
            squeeze(thinnest)
        )
    } else {
        format!(
            "depth {depth_mm} mm is less than the published {least} to {greatest} mm: the thickest ring of this section is squeezed {} %, and {from} to {to} % are published",
            squeeze(thickest)
        )
    })
}

/// A word on a depth outside a published gland, mm, beside a squeeze that speaks against it; `None` within it.
fn outside_gland(gland: &Gland, depth_mm: f64) -> Option<String> {
    let (least, greatest) = (gland.least_depth_mm, gland.greatest_depth_mm);
    let is_inside = (least..=greatest).contains(&depth_mm);
    (!is_inside).then(|| format!("published for this section: a depth of {least} to {greatest} mm"))
}

/// A share in per cent to a tenth, and whole where it is: `14`, `8.5`.
fn percent(share: f64) -> String {
    let tenths = format!("{:.1}", share * 100.0);
    tenths.strip_suffix(".0").unwrap_or(&tenths).to_owned()
}

/// What speaks against a stretch of the inside diameter on the groove floor; `None` where nothing does.
pub fn against_stretch(share: f64) -> Option<String> {
    if share > MOST_STRETCH {
        Some(format!(
            "stretch {} % is above 5 %: thinner section, early ageing",
            beyond(share, MOST_STRETCH, 1)
        ))
    } else if share < -0.005 {
        Some(format!(
            "loose on the groove floor by {:.1} %",
            -share * 100.0
        ))
    } else {
        None
    }
}

/// A word on a ring that is hardly stretched; in the groove of a face nothing stretches it.
fn slack(stretch_share: Option<f64>, duty: Duty) -> Option<String> {
    let is_slack = |share: &f64| (-0.005..LEAST_STRETCH).contains(share);
    let share = stretch_share
        .filter(is_slack)
        .filter(|_| duty != Duty::StaticFace)?;
    Some(format!(
        "stretch {} % is below 1 %, the least a ring is chosen for: it may slip out of its groove while it is fitted",
        beyond(share, LEAST_STRETCH, 1)
    ))
}

/// A share in per cent that lies beyond a limit and does not read like it: with so many decimals, or as many more as that
/// takes.
fn beyond(share: f64, limit: f64, decimals: usize) -> String {
    let words = |share: f64, decimals: usize| format!("{:.decimals$}", share * 100.0);
    let reads_apart = |decimals: &usize| words(share, *decimals) != words(limit, *decimals);
    let enough = (decimals..MOST_DECIMALS).find(reads_apart);
    words(share, enough.unwrap_or(MOST_DECIMALS))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn share(value: Option<f64>) -> f64 {
        value.unwrap_or(f64::NAN)
    }

    #[test]
    fn published_glands_agree() {
        // Published gland table: section 3.53 in 2.79 to 2.95 mm: 21.0 to 16.4 %.
        for (depth, squeeze) in [(2.79, 0.2096), (2.95, 0.1643)] {
            let of = o_ring_in_gland(40.0, 3.53, None, depth, None, Duty::StaticRadial);
            assert!((of.squeeze_share - squeeze).abs() < 0.0005, "{of:?}");
            assert!(of.against.is_empty(), "{of:?}");
        }
        // AS568-222 (37.69) on a 38.1 mm floor: 1.09 % stretch.
        let of = o_ring_in_gland(
            37.69,
            3.53,
            Some(38.1),
            2.87,
            Some(4.57),
            Duty::StaticRadial,
        );
        assert!((share(of.stretch_share) - 0.0109).abs() < 0.0001);
        assert!(
            share(of.fill_share) < 0.85 && of.against.is_empty(),
            "{of:?}"
        );
        // Open CAD library, constant volume: 5 % stretch thins the section by 2.4 %.
        let thin = o_ring_in_gland(
            24.99,
            3.53,
            Some(24.99 * 1.05),
            2.87,
            None,
            Duty::StaticRadial,
        );
        assert!((thin.section_mm - 3.445).abs() < 0.001);
    }

    /// Published gland table: 3.53 at rest in 2.79 to 2.95 mm with 14 to 23 %, 5.33 moving in 4.65 to 4.78 mm with 8.5 to
    /// 15 %. Its squeeze is of sections of 3.43 to 3.63 and 5.20 to 5.46 mm (ISO 3601-1), so that those of the ends are, by
    /// hand: 1 - 3.00/3.43 = 12.5 %, 1 - 2.72/3.63 = 25.1 %, 1 - 4.60/5.46 = 15.8 %, 1 - 4.85/5.20 = 6.7 %.
    #[test]
    fn a_depth_outside_the_published_gland_is_told() {
        for (section_mm, depth_mm, duty, words) in [
            (
                3.53,
                3.00,
                Duty::StaticRadial,
                Some(
                    "more than the published 2.79 to 2.95 mm: the thinnest ring of this section is squeezed 12.5 %, and 14 to 23 %",
                ),
            ),
            (
                3.53,
                2.72,
                Duty::StaticRadial,
                Some(
                    "less than the published 2.79 to 2.95 mm: the thickest ring of this section is squeezed 25.1 %, and 14 to 23 %",
                ),
            ),
            (
                5.33,
                4.60,
                Duty::Reciprocating,
                Some(
                    "less than the published 4.65 to 4.78 mm: the thickest ring of this section is squeezed 15.8 %, and 8.5 to 15 %",
                ),
            ),
            (
                5.33,
                4.85,
                Duty::Reciprocating,
                Some(
                    "more than the published 4.65 to 4.78 mm: the thinnest ring of this section is squeezed 6.7 %, and 8.5 to 15 %",
                ),
            ),
            (3.53, 2.79, Duty::StaticRadial, None),
            (3.53, 2.95, Duty::StaticRadial, None),
            // No gland is published for 3 mm: its depths stay unknown, and 1 - 2.63/3 = 12.3 % is within the duty's window.
            (3.0, 2.63, Duty::StaticRadial, None),
        ] {
            let of = o_ring_in_gland(40.0, section_mm, None, depth_mm, None, duty);
            let said = of.against.join("; ");
            assert_eq!(
                of.is_only_depth_off,
                words.is_some(),
                "{section_mm} {depth_mm}"
            );
            assert!(
                said.contains(words.unwrap_or_default()),
                "{depth_mm}: {said}"
            );
            assert_eq!(of.against.len(), usize::from(words.is_some()), "{said}");
        }
        // By hand: 3.43 mm stretched by 38.1/37.69 is 3.41 mm, and 1 - 3.00/3.41 = 12 %.
        let of = o_ring_in_gland(37.69, 3.53, Some(38.1), 3.0, Some(4.6), Duty::StaticRadial);
        assert!(of.against.join("; ").contains("squeezed 12.1 %"), "{of:?}");
        // A squeeze that is off by itself is told alone.
        let of = o_ring_in_gland(40.0, 3.53, None, 3.2, None, Duty::StaticRadial);
        assert!(!of.is_only_depth_off && of.against.len() == 1, "{of:?}");
    }

    /// Published gland table: 5.33 mm moving is squeezed 8.5 to 15 %; 1 - 4.90/5.33 = 8.1 % by hand.
    #[test]
    fn half_a_per_cent_of_a_limit_is_told() {
        let of = o_ring_in_gland(40.0, 5.33, None, 4.9, None, Duty::Reciprocating);
        assert_eq!(of.against, ["squeeze 8.1 % is below 8.5 %: leaks"]);
    }

    #[test]
    fn a_share_beyond_its_limit_never_reads_like_the_limit() {
        // Plain rounding, by hand.
        for (share, limit, decimals, words) in [
            (0.8526, 0.85, 0, "85.3"),
            (0.86, 0.85, 0, "86"),
            (1.15, 0.85, 0, "115"),
            (0.8504, 0.85, 0, "85.04"),
            (0.850_04, 0.85, 0, "85.004"),
            (0.850_004, 0.85, 0, "85.0004"),
            (0.85 + 1e-12, 0.85, 0, "85.0000"),
            (0.2304, 0.23, 1, "23.04"),
            (0.231, 0.23, 1, "23.1"),
            (0.1396, 0.14, 1, "13.96"),
            (0.0503, 0.05, 1, "5.03"),
        ] {
            assert_eq!(beyond(share, limit, decimals), words, "{share} {limit}");
        }
    }

    #[test]
    fn what_speaks_against_is_said() {
        let words = |of: &OringInGland| of.against.join("; ");
        let tight = o_ring_in_gland(40.0, 3.53, Some(44.0), 2.2, Some(3.6), Duty::StaticRadial);
        let said = words(&tight);
        assert!(
            said.contains("above 23 %")
                && said.contains("stretch 10.0 %")
                && said.contains("fills"),
            "{said}"
        );
        let loose = o_ring_in_gland(40.0, 3.53, Some(39.0), 2.87, None, Duty::StaticRadial);
        assert!(words(&loose).contains("loose"), "{loose:?}");
        assert_eq!(loose.notes, [""; 0]);
    }

    #[test]
    fn a_slack_ring_is_a_note_and_no_reason_against() {
        // Handbook practice, from memory: 1 to 5 % of stretch. 37.8 on 37.69 mm is 0.29 %, by arithmetic.
        for (floor_mm, duty, words) in [
            (37.8, Duty::StaticRadial, "stretch 0.3 % is below 1 %"),
            (37.8, Duty::Reciprocating, "stretch 0.3 % is below 1 %"),
            (38.066, Duty::StaticRadial, "stretch 0.998 % is below 1 %"),
            (37.69, Duty::StaticRadial, "stretch 0.0 % is below 1 %"),
            (38.07, Duty::StaticRadial, ""),
            (37.3, Duty::StaticRadial, ""),
            (37.8, Duty::StaticFace, ""),
        ] {
            let of = o_ring_in_gland(37.69, 3.53, Some(floor_mm), 2.87, None, duty);
            let slack = of.notes.iter().filter(|note| note.starts_with("stretch"));
            let said = slack.cloned().collect::<Vec<_>>().join(" ");
            assert!(
                said.starts_with(words) && said.is_empty() == words.is_empty(),
                "{floor_mm}: {said}"
            );
        }
        let unknown = o_ring_in_gland(37.69, 3.53, None, 2.87, None, Duty::StaticRadial);
        assert_eq!(unknown.notes, [""; 0]);
    }

    /// Published gland table: a depth beside which the squeeze is off is outside of it too.
    #[test]
    fn a_depth_outside_its_gland_is_told_beside_the_squeeze() {
        for (depth_mm, is_told) in [(2.4, true), (3.3, true), (2.87, false)] {
            let of = o_ring_in_gland(37.69, 3.53, None, depth_mm, None, Duty::StaticRadial);
            let said = of.notes.join(" ");
            let says = "published for this section: a depth of ";
            assert_eq!(said.starts_with(says), is_told, "{depth_mm}: {said}");
            assert_eq!(of.against.is_empty(), !is_told, "{depth_mm}: {of:?}");
        }
    }
}
