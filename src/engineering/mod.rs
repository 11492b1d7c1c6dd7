//! Checks behind a verdict by published formulas: life, static safety, speed, seat fit, O-ring glands, lip-seal speed and
//! preload spacers.
//!
//! Numbers in, numbers out. None of them releases a part: the machine's documentation and a licensed person do.

mod life;
mod lip_seal;
mod o_ring;
mod preload;
mod seat;
mod speed;
mod static_safety;

pub use life::{
    LifeRatio, basic_rating_life_h, basic_rating_life_mrev, has_rating_life, life_exponent,
    life_formula_limits, life_ratio, reliability_factor, required_rating_kn,
};
pub use lip_seal::{SurfaceSpeed, surface_speed};
pub use o_ring::{LEAST_STRETCH, OringInGland, against_stretch, o_ring_in_gland, squeeze_window};
pub use preload::{
    Arrangement, FaceOffsets, OFFSET_SIGN, OffsetSource, SpacerAdvice, spacer, spacer_first,
};
pub use seat::{
    Interference, Seat, SeatFinding, bearing_seat, clearance_after_fit, clearance_taken,
    interference, likely_clearance_after_fits, likely_interference, ring_deviation, seat_finding,
};
pub use speed::{SpeedCheck, speed_check, speed_factor};
pub use static_safety::{
    StaticSafety, angular_static_safety, axial_factor_static_safety, static_safety,
};
