//! The local page over a workspace: look-up at the bench, kits, levels, import by dropping a file, downloads.
//!
//! Belongs here: serving. What is said about parts, kits and levels comes from `lookup`, `plan` and `report`; text from
//! spreadsheets is escaped by the macros that build the pages.
//!
//! Who may do what: on the loopback address everybody at this machine may look and import. On any other address nobody
//! may without a key; the key for looking and the key for importing are two (`key`, `access`).

mod access;
mod address;
mod asked;
mod cookie;
mod intake;
mod key;
mod language;
mod live_shop;
mod page;
mod route;
mod server;
mod serving;
mod wire;

pub use address::{Listen, invitation};
pub use key::{Key, Keys, Role};
pub use live_shop::{LiveShop, LiveShopError};
pub use server::{ServeError, Served, serve};
