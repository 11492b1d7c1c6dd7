//! The sizes that standards list, shipped in `data/standard/`, each row with its source and confidence.
//!
//! Tables are read once, on first use. Nothing here judges exchange.

mod index;
mod join;
mod part;
mod resolve;
mod row;
mod slip;
mod table;

pub use index::{find, named, near, of_envelope, of_family, of_size, parts};
pub use join::{Joined, is_own_section, join};
pub use part::{
    Confidence, FREE_DIAMETER, GROOVE_DIAMETER, GROOVE_WIDTH, INNER_RING_BORE, StandardPart, noted,
};
pub use resolve::{is_designation, resolve};
pub use row::RowError;
pub use slip::{Slip, slip_to, slips};
pub use table::{BadRow, TableReport, edition, table_reports};
