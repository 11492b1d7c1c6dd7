//! Free sizes of rotary shaft lip seals: the case is larger than its bore, the lip smaller than its shaft.

use std::sync::LazyLock;

use super::deviation::{Deviation, Steps};

/// What of a free lip seal a deviation is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SealFeature {
    /// Outside of a metal case over the nominal housing bore.
    MetalCase,
    /// Outside of a rubber-covered case over the nominal housing bore.
    RubberCase,
    /// Width over its nominal.
    Width,
    /// Free lip under the nominal shaft diameter.
    FreeLip,
}

static TABLE: LazyLock<Steps> =
    LazyLock::new(|| Steps::read(include_str!("../../data/limit/lip_seal.csv"), 1));

/// Deviation of a free lip seal at its nominal diameter, or width.
///
/// # Source
/// Case and width: two public oil-seal tolerance pages, ISO 6194-1 practice. Free lip: common practice, no source (from
/// memory: a new lip is 0.6 mm to 1.4 mm + 1 % of the shaft smaller than its shaft).
pub fn lip_seal(feature: SealFeature, nominal_mm: f64) -> Option<Deviation> {
    let key = match feature {
        SealFeature::MetalCase => "metal_case",
        SealFeature::RubberCase => "rubber_case",
        SealFeature::Width => "width",
        SealFeature::FreeLip => {
            return Some(Deviation {
                lower_um: -1400.0 - 10.0 * nominal_mm,
                upper_um: -600.0,
            });
        }
    };
    TABLE.at(key, nominal_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_case_is_over_its_bore_and_the_lip_under_its_shaft() {
        // Public tolerance pages: metal case over a 62 mm bore +0.13 to +0.23 mm, rubber +0.20 to +0.35.
        let band = |feature, mm| lip_seal(feature, mm).map(|d| (d.lower_um, d.upper_um));
        assert_eq!(band(SealFeature::MetalCase, 62.0), Some((130.0, 230.0)));
        assert_eq!(band(SealFeature::RubberCase, 62.0), Some((200.0, 350.0)));
        assert_eq!(band(SealFeature::Width, 8.0), Some((-200.0, 200.0)));
        assert!(band(SealFeature::FreeLip, 35.0).unwrap().1 < 0.0);
    }
}
