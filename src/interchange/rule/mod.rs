//! Rules of exchange, one idea a file. Each looks at the part wanted and the part at hand and adds its findings.
//!
//! A new rule is one file here and one line in [`RULES`]. A rule that looks at a need of the place says so
//! ([`Findings::looks_at`]): what no rule looked at is a check.

mod angular;
mod asked;
mod axial_need;
mod bore_form;
mod cage;
mod clearance;
mod closure;
mod elastomer;
mod family;
mod fillet;
mod finding;
mod fluid;
mod heat;
mod known_variant;
mod lip_seal;
mod load;
mod location;
mod marks;
mod raceway;
mod ratings;
mod size;
mod snap_ring;
mod speed;
mod surroundings;
mod tolerance;
mod variant;

pub use asked::what_is_left;
pub use finding::Findings;
pub use known_variant::{HALF, is_half, is_made_to_order, is_of_lip_seals};
pub use lip_seal::{LIP_SEAT, LIP_TRACK};
pub use raceway::{RACEWAY, runs_on_shaft};
pub use size::{FROM_MEMORY, is_other_size};

use super::subject::Subject;

/// A rule: part wanted, part at hand, findings so far.
pub type Rule = fn(&Subject, &Subject, &mut Findings);

/// Every rule, in the order reasons are listed.
pub const RULES: &[Rule] = &[
    family::judge,
    size::judge,
    location::judge,
    angular::judge,
    closure::judge,
    clearance::judge,
    tolerance::judge,
    bore_form::judge,
    snap_ring::judge,
    lip_seal::judge,
    elastomer::judge,
    cage::judge,
    variant::judge,
    marks::judge,
    asked::judge,
    ratings::judge,
    axial_need::judge,
    load::judge,
    fillet::judge,
    raceway::judge,
    lip_seal::judge_shaft,
    heat::judge,
    fluid::judge,
    speed::judge,
    surroundings::judge,
];
