//! What every request works with.

use std::sync::Arc;

use super::address::Hosts;
use super::intake::Intake;
use super::key::Keys;
use super::live_shop::LiveShop;
use crate::language::Language;

/// What every request works with.
#[derive(Debug, Clone)]
pub(super) struct Serving {
    /// The shop.
    pub(super) shop: Arc<LiveShop>,
    /// Keys; `None` on the loopback address.
    pub(super) keys: Option<Arc<Keys>>,
    /// Names we answer to.
    pub(super) hosts: Arc<Hosts>,
    /// Files that wait for a yes or no.
    pub(super) intake: Arc<Intake>,
    /// Language of pages where nobody chose one; `None` for that of the browser.
    pub(super) language: Option<Language>,
}
