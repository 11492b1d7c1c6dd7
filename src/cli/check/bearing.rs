//! Checks of a rolling bearing: life, static safety, speed.

use crate::cli::refusal::Refusal;
use crate::engineering as eng;
use crate::lookup::WorkedOut;
use crate::part::{Closure, Family, LoadRatings, StaticLoad};

fn family_of(code: &str) -> Result<Family, Refusal> {
    Family::from_code(code).ok_or_else(|| {
        let hint = crate::cli::meant::hint(code, Family::ALL.iter().map(|family| family.code()));
        let rolling: Vec<&str> = Family::ALL
            .iter()
            .filter(|family| eng::has_rating_life(**family))
            .map(|family| family.code())
            .collect();
        Refusal::new(format!(
            "`{code}` is no family; expected one of {}",
            rolling.join(", ")
        ))
        .hinting(hint)
    })
}

/// Codes of the families whose static load is reckoned in a way.
fn codes_where(is_wanted: impl Fn(StaticLoad) -> bool) -> String {
    let wanted = (Family::ALL.into_iter())
        .filter(|family| is_wanted(family.facts().rolling.static_load))
        .map(Family::code);
    wanted.collect::<Vec<&str>>().join(", ")
}

/// A family that has a rating life at all.
pub fn family_that_rolls(code: &str) -> Result<Family, Refusal> {
    let family = family_of(code)?;
    if eng::has_rating_life(family) {
        Ok(family)
    } else {
        Err(Refusal::new(format!(
            "a part of the family `{code}` does not roll and has no rating life"
        )))
    }
}

/// The life of a bearing, and beside it that of one put in instead.
pub fn lives(
    (family, instead_family): (&str, Option<&str>),
    (rating, static_rating): (f64, Option<f64>),
    (load, rpm): (f64, Option<f64>),
    (instead_rating, is_same_source): (Option<f64>, bool),
) -> Result<WorkedOut, Refusal> {
    let mut checked = life(family, (rating, static_rating), load, rpm)?;
    if let Some(instead) = instead_rating {
        let instead_family = instead_family.unwrap_or(family);
        let of = [
            (rating, family_that_rolls(family)?),
            (instead, family_that_rolls(instead_family)?),
        ];
        compare_lives(&mut checked, of, load, is_same_source);
    }
    Ok(checked)
}

/// Adds the life of a bearing put in instead, as a share of the first one's.
fn compare_lives(
    checked: &mut WorkedOut,
    [(old_kn, old), (new_kn, new)]: [(f64, Family); 2],
    load_kn: f64,
    is_same_source: bool,
) {
    let rating = |kn: f64| LoadRatings {
        dynamic_kn: Some(kn),
        static_kn: None,
        source: is_same_source.then(|| "the same".to_owned()),
    };
    let ratio = eng::life_ratio(
        (&rating(old_kn), old),
        (&rating(new_kn), new),
        Some(load_kn),
    );
    let share = match ratio {
        eng::LifeRatio::Share(share) => Some(share),
        eng::LifeRatio::NotComparable { why } => {
            checked.says.push(format!("not comparable: {why}"));
            None
        }
    };
    checked.values.push(("life_ratio", share));
    for limit in eng::life_formula_limits(new_kn, None, load_kn) {
        if !checked.against.iter().any(|known| known == limit) {
            checked.against.push(limit.to_owned());
        }
    }
    if share.is_some_and(|share| share < 1.0) {
        checked
            .against
            .push("the bearing put in instead has the shorter life".to_owned());
    }
}

pub fn speed(
    rpm: f64,
    limit: f64,
    closure: Option<&str>,
    is_limit_of_open: bool,
) -> Result<WorkedOut, Refusal> {
    let closure = closure
        .map(|code| {
            Closure::from_code(code)
                .ok_or_else(|| format!("`{code}` is no closure; expected open, Z, 2Z, RS or 2RS"))
        })
        .transpose()?;
    let of = eng::speed_check(rpm, limit, closure, is_limit_of_open)
        .ok_or("speed and limit must be above 0 rev/min")?;
    let mut says = Vec::new();
    if of.limit_rpm < limit {
        says.push("contact seals leave about 60 % of the open bearing's limit".to_owned());
    } else if closure.is_none() && is_limit_of_open {
        says.push("closure unknown: contact seals would leave about 60 % of the limit".to_owned());
    }
    let too_fast = "faster than the limit; the machine's documentation decides".to_owned();
    Ok(WorkedOut {
        of: String::new(),
        check: "speed",
        values: vec![
            ("limit_rpm", Some(of.limit_rpm)),
            ("limit_used_share", Some(of.share)),
        ],
        says,
        against: Vec::from_iter((!of.is_within).then_some(too_fast)),
    })
}

fn life(
    family: &str,
    (rating, static_kn): (f64, Option<f64>),
    load: f64,
    rpm: Option<f64>,
) -> Result<WorkedOut, Refusal> {
    let exponent = eng::life_exponent(family_that_rolls(family)?);
    let mrev = eng::basic_rating_life_mrev(rating, load, exponent)
        .ok_or("rating and load must be above 0 kN")?;
    Ok(WorkedOut {
        of: String::new(),
        check: "life",
        values: vec![
            ("exponent", Some(exponent)),
            ("life_mrev", Some(mrev)),
            (
                "life_h",
                rpm.and_then(|rpm| eng::basic_rating_life_h(rating, load, exponent, rpm)),
            ),
        ],
        says: vec![
            "basic rating life, 90 % reliability, ISO 281; lubrication and dirt are not in it"
                .to_owned(),
        ],
        against: eng::life_formula_limits(rating, static_kn, load)
            .into_iter()
            .map(str::to_owned)
            .collect(),
    })
}

pub fn static_safety(
    (family, angle, axial_factor): (&str, Option<u8>, Option<f64>),
    rating: f64,
    (radial, axial): (f64, f64),
) -> Result<WorkedOut, Refusal> {
    let is_axial = axial > 0.0;
    let mut says = "factors of ISO 76 from memory";
    let found = family_of(family)?;
    let of = match (found.facts().rolling.static_load, angle, axial_factor) {
        (StaticLoad::FactorsOfAngle, Some(angle), _) => {
            eng::angular_static_safety(angle, rating, radial, axial).ok_or_else(|| {
                format!("no factors for an angle of {angle}° and this load; expected 15, 20, 25, 30, 35 or 40")
            })?
        }
        (_, Some(_), _) => {
            return Err(Refusal::new(format!(
                "`{family}` has no contact angle to choose; expected --angle only with {}",
                codes_where(|load| load == StaticLoad::FactorsOfAngle)
            )));
        }
        (_, None, Some(factor)) => {
            says = "axial factor Y0 as given, radial factor X0 of ISO 76 from memory";
            eng::axial_factor_static_safety(found, factor, rating, radial, axial).ok_or_else(|| {
                let codes = codes_where(|load| matches!(load, StaticLoad::FactorOfSheet { .. }));
                format!("`{family}` has no axial factor to choose, or there is no load; expected --axial-factor only with {codes}")
            })?
        }
        (StaticLoad::FactorsOfAngle, None, None) if is_axial => {
            return Err("no factors without the contact angle; expected --angle, or those of its data sheet".into());
        }
        (StaticLoad::FactorOfSheet { .. }, None, None) if is_axial => {
            return Err("the axial factor Y0 differs from bearing to bearing; expected --axial-factor, the Y0 of its data sheet".into());
        }
        (_, None, None) => eng::static_safety(found, rating, radial, axial)
            .ok_or("no factors for this family and load here; use the ones of its data sheet")?,
    };
    Ok(WorkedOut {
        of: String::new(),
        check: "static",
        values: vec![("load_kn", Some(of.load_kn)), ("safety", Some(of.safety))],
        says: vec![says.to_owned()],
        against: (of.safety < 1.0)
            .then(|| "static safety below 1".to_owned())
            .into_iter()
            .collect(),
    })
}
