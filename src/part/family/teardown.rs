//! What becomes of a part at a teardown.

/// What becomes of a part when its machine is taken apart.
#[derive(Debug)]
pub(crate) struct Teardown {
    /// True where the old part may go in again. Common practice, no source: seals take a set and lose their lip, bearings are
    /// marked by pressing off, rings lose their spring.
    pub(crate) is_fitted_again: bool,
    /// What is to be written down before it comes off.
    pub(crate) noted: &'static [&'static str],
}

impl Teardown {
    /// Of a rolling bearing.
    pub(super) const BEARING: Self = Self {
        is_fitted_again: false,
        noted: &[
            "full marking",
            "side up",
            "order in the set",
            "seat on shaft, mm",
            "seat in housing, mm",
            "grease, kind and amount",
            "heated to at most, °C",
        ],
    };

    /// What is written down of a part of which nothing else is known.
    pub(crate) const NOTED_OF_ANY: &'static [&'static str] =
        &["marking", "side up", "measured, mm"];
}
