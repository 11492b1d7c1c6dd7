//! The workspace: what an import does to what is stored, history, and that nothing but whole states are ever seen.

mod changes;
mod editions;
mod interrupted;
mod mended;
mod order;
mod rules;
mod same_things;
mod shops;
mod snapshots;
mod stocked_parts;
mod undo;
