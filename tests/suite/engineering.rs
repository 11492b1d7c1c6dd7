//! Formulas and limits against worked examples of books, courses and public pages.

mod glands;
mod life;
mod lips;
mod seats;
mod spacers;
mod static_loads;

use std::collections::BTreeMap;

use sparewright::engineering::{
    Seat, basic_rating_life_h, basic_rating_life_mrev, bearing_seat, life_exponent,
    o_ring_in_gland, reliability_factor, required_rating_kn, static_safety, surface_speed,
};
use sparewright::limit::{self, BearingFeature, Duty};
use sparewright::part::{Clearance, Family, ToleranceClass};

use super::{outside, table};

/// Inputs of a case by name.
struct Inputs<'a>(BTreeMap<&'a str, &'a str>);

impl<'a> Inputs<'a> {
    fn read(text: &'a str) -> Self {
        let pairs = text.split(' ').map(|pair| pair.split_once('=').unwrap());
        Self(pairs.collect())
    }

    fn number(&self, name: &str) -> f64 {
        self.0[name].parse().unwrap()
    }

    fn family(&self) -> Family {
        Family::from_code(self.0["family"]).unwrap()
    }

    fn class(&self) -> ToleranceClass {
        let is_it = |class: &&ToleranceClass| class.to_string() == self.0["class"];
        *ToleranceClass::ALL.iter().find(is_it).unwrap()
    }

    fn group(&self) -> Clearance {
        let is_it = |group: &&Clearance| group.to_string() == self.0["group"];
        *Clearance::ALL.iter().find(is_it).unwrap()
    }

    fn feature(&self) -> BearingFeature {
        match self.0["feature"] {
            "bore" => BearingFeature::Bore,
            "outside" => BearingFeature::OutsideDiameter,
            "width" => BearingFeature::Width,
            other => panic!("feature {other}"),
        }
    }
}

/// What the crate gives for a case.
fn found(formula: &str, inputs: &Inputs<'_>) -> Option<f64> {
    let of = |name: &str| inputs.number(name);
    let exponent = || life_exponent(inputs.family());
    let clearance = || limit::clearance(inputs.family(), inputs.group(), of("bore_mm"));
    let seat = || {
        let class = inputs.0["class"];
        let seat = if class.starts_with(char::is_lowercase) {
            Seat::Shaft
        } else {
            Seat::Housing
        };
        bearing_seat(seat, of("mm"), ToleranceClass::Normal, class)
    };
    let ring = || {
        let floor_mm = inputs.0.contains_key("floor_mm").then(|| of("floor_mm"));
        let (inside_mm, section_mm) = (of("inside_mm"), of("section_mm"));
        let duty = Duty::StaticRadial;
        o_ring_in_gland(inside_mm, section_mm, floor_mm, of("depth_mm"), None, duty)
    };
    match formula {
        "life_mrev" => basic_rating_life_mrev(of("rating_kn"), of("load_kn"), exponent()),
        "life_h" => {
            basic_rating_life_h(of("rating_kn"), of("load_kn"), exponent(), of("speed_rpm"))
        }
        "required_kn" => required_rating_kn(of("load_kn"), of("life_mrev"), exponent()),
        "reliability" => reliability_factor(of("percent")),
        "static_kn" => static_safety(inputs.family(), 10.0, of("radial_kn"), of("axial_kn"))
            .map(|safety| safety.load_kn),
        "surface_m_s" => Some(surface_speed(of("shaft_mm"), of("speed_rpm"), None).speed_m_s),
        "clearance_lower_um" => clearance().map(|band| band.lower_um),
        "clearance_upper_um" => clearance().map(|band| band.upper_um),
        "ring_lower_um" => {
            limit::bearing(inputs.feature(), inputs.class(), of("mm")).map(|band| band.lower_um)
        }
        "seat_least_um" => seat().map(|fit| fit.least_um),
        "seat_greatest_um" => seat().map(|fit| fit.greatest_um),
        "squeeze_share" => Some(ring().squeeze_share),
        "thinned_mm" => Some(ring().section_mm),
        other => panic!("formula {other}"),
    }
}

#[test]
pub fn formulas_give_what_books_and_public_pages_give() {
    let cases = table::read("engineering_cases");
    assert_eq!(cases.len(), 44);
    let mut wrong = Vec::new();
    for case in &cases {
        outside::compared_by(&case["source"]);
        let inputs = Inputs::read(&case["inputs"]);
        let found = found(&case["formula"], &inputs);
        let number = |column: &str| case[column].parse::<f64>().unwrap();
        let (expected, within) = (number("expected"), number("within"));
        if found.is_none_or(|found| (found - expected).abs() > within) {
            wrong.push(format!("{case:?}: {found:?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
