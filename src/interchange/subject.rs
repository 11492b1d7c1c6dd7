//! What the rules look at: one part, whether from the catalogue, a standard table or a question at the bench.

use super::needs::Needs;
use crate::catalogue::CataloguePart;
use crate::catalogue::card_index::Alike;
use crate::part::{Family, LoadRatings, SizeKey, Traits};
use crate::standard::{Confidence, StandardPart};

/// A part as the rules see it.
#[derive(Debug, Clone)]
pub struct Subject {
    /// What it is called in reasons.
    pub label: String,
    /// Family and key dimensions.
    pub size: Option<SizeKey>,
    /// Family, where it is known without a size.
    pub family: Option<Family>,
    /// What is known besides size.
    pub traits: Traits,
    /// What the place asks of it, where a person said so; only of the part wanted.
    pub needs: Needs,
    /// Smallest chamfer r_s min, mm.
    pub chamfer_mm: Option<f64>,
    /// Load ratings with source.
    pub ratings: Option<LoadRatings>,
    /// Speed limit, rev/min.
    pub speed_limit_rpm: Option<f64>,
    /// How far the standard row behind the size was cross-checked; `None` where no standard row is behind it.
    pub confidence: Option<Confidence>,
}

impl Subject {
    /// Takes a part of the catalogue.
    pub fn of_part(part: &CataloguePart) -> Self {
        let row = part.standard_row();
        Self {
            label: part.label(),
            size: part.size,
            family: part.family.or(part.size.map(|size| size.family())),
            traits: part.traits.clone(),
            needs: Needs::default(),
            chamfer_mm: row.and_then(|row| row.chamfer_mm),
            ratings: part.ratings.clone(),
            speed_limit_rpm: part.speed_limit_rpm,
            confidence: row.map(|row| row.confidence),
        }
    }

    /// Takes what parts of one size on the cards of an index have in common.
    pub fn of_alike(size: Option<SizeKey>, alike: &Alike) -> Self {
        let row = size.as_ref().and_then(|size| alike.standard_row(size));
        Self {
            label: alike.label.clone().unwrap_or_default(),
            size,
            family: alike.family,
            traits: alike.traits.clone(),
            needs: Needs::default(),
            chamfer_mm: row.and_then(|row| row.chamfer_mm),
            ratings: alike.ratings.clone(),
            speed_limit_rpm: alike.speed_limit_rpm,
            confidence: row.map(|row| row.confidence),
        }
    }

    /// A part of which nothing is known but perhaps its size.
    pub fn unknown(size: Option<SizeKey>) -> Self {
        Self {
            label: String::new(),
            size,
            family: size.map(|size| size.family()),
            traits: Traits::default(),
            needs: Needs::default(),
            chamfer_mm: None,
            ratings: None,
            speed_limit_rpm: None,
            confidence: None,
        }
    }

    /// Takes a row of a standard's table: the basic part, open and of normal clearance and class only where it says so.
    pub fn of_standard(row: &StandardPart) -> Self {
        Self {
            label: row.designation.clone(),
            size: Some(row.size),
            family: Some(row.size.family()),
            traits: row.traits.clone(),
            needs: Needs::default(),
            chamfer_mm: row.chamfer_mm,
            ratings: row.ratings.clone(),
            speed_limit_rpm: None,
            confidence: Some(row.confidence),
        }
    }
}
