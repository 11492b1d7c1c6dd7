//! The local page: who gets in, import by dropping a file, hostile texts and hostile clients, kits and
//! levels.

mod access;
mod answers;
mod client;
mod downloads;
mod forms;
mod german;
mod hostile;
mod intake;
mod language;
mod many;
mod methods;
mod pages;
mod planning;
mod proposals;
mod sparse;
mod wrong_values;
