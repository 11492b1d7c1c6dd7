//! A workspace: what was imported, kept on disk with its history.
//!
//! ```text
//! WORKSPACE/current                        the number of the current snapshot
//! WORKSPACE/snapshots/000012.json          one manifest per snapshot: files, tables, readings, settings
//! WORKSPACE/tables/parts-<sum>.parquet     tables, shared between snapshots
//! WORKSPACE/lock                           held by the one writer
//! ```
//!
//! Tables are named by their SHA-256, so that a table two snapshots share is stored once, a stored file never changes,
//! and damage shows when it is read. [`crate::digest`] is the whole of the published algorithm in one small file and
//! is checked against the published examples; comparing bytes with the previous snapshot's file, the other way, could
//! not share a table with a snapshot further back, as a restore does, and would not show damage.
//!
//! A writer takes the lock, writes tables, then the manifest, then the pointer; each file is written under a temporary
//! name, synced, renamed, and its folder synced, before the next step begins. Whatever ends it (kill, power cut, full
//! disk), the pointer leads to the last whole snapshot. Readers take no lock: what the pointer leads to never changes.
//!
//! Which row holds where imports differ is the matter of `precedence` alone.

mod arrival;
mod change;
mod columns;
mod coming_lists;
mod durable;
mod error;
mod history;
mod identity;
mod kept_out;
mod kit;
mod list_name;
mod lock;
mod manifest;
mod mending;
mod near_copy;
mod newest_list;
mod order_packs;
mod origin;
mod parquet;
mod precedence;
mod price;
mod problem;
mod provenance;
mod prune;
mod reading;
mod repeated_list;
mod rule;
mod same;
mod shelf;
mod source_field;
mod state;
mod table;
mod take_in;
mod told_once;
mod usages;
mod workspace;

pub use change::{Change, ChangeKind, changes};
pub use columns::describe_tables;
pub use error::StoreError;
pub use kept_out::KeptOut;
pub use manifest::{Counts, MadeBy, Manifest, SCHEMA, SettingsFile, TableFile};
pub use origin::{Kept, Mends, Origin};
pub use parquet::{ParquetError, from_bytes, to_bytes};
pub use provenance::{Provenance, Replaced};
pub use prune::{PruneRules, Pruned};
pub use reading::{ColumnReading, LeftOut, NotRead, Reading};
pub use state::State;
pub use table::{CellKind, Cells, RowIn, RowOut, Stored, Table, TableError, columns_of};
pub use take_in::{Outcome, preview_first};
pub use workspace::{Loaded, Workspace};
