//! The workspace: what an import does to what is stored, history, and that nothing but whole states are ever seen.

mod changes;
mod interrupted;
mod mended;
mod order;
mod rules;
mod shops;
mod snapshots;
mod stocked_parts;
