//! Maps of our own tables with a quick hash: nobody outside chooses their keys, so that none need be kept from guessing it.

use std::collections::HashMap;

use foldhash::fast::FixedState;

/// A map that hashes quickly and the same in every run.
pub type QuickMap<K, V> = HashMap<K, V, FixedState>;
