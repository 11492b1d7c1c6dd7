//! Which part may replace which, and why not.
//!
//! Rules judge two parts; acceptance belongs to the kit line and adds what people approved for it.

mod acceptance;
mod groups;
mod judge;
mod needs;
mod rule;
mod search;
mod subject;
mod verdict;

pub use acceptance::{
    Accepted, AcceptedBecause, LineAcceptance, MATCHED_SET, MOST_NEAR, OpenSubstitute, accept,
    is_to_come,
};
pub use groups::groups;
pub(crate) use judge::goes_in_as_it_is;
pub use judge::judge;
pub use needs::{AxialNeed, Fluid, Need, Needs, Turning};
pub use rule::{
    FROM_MEMORY, HALF, LIP_SEAT, LIP_TRACK, RACEWAY, is_half, is_made_to_order, is_of_lip_seals,
    runs_on_shaft,
};
pub use search::{Envelopes, NEAR_NM};
pub use subject::Subject;
pub use verdict::{Difference, Judgement, Verdict};
