//! Load ratings, which compare only within one source and edition.

/// Basic load ratings with the source they were read from.
///
/// Ratings of one size differ between editions and sources, so they never identify a part and two of them
/// compare only where `source` is the same.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct LoadRatings {
    /// Basic dynamic load rating C (ISO 281), kN.
    pub dynamic_kn: Option<f64>,
    /// Basic static load rating C0 (ISO 76), kN.
    pub static_kn: Option<f64>,
    /// Where the figures were read, with edition.
    pub source: Option<String>,
}
