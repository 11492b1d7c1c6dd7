//! What an address asks, as in `/levels?budget=900`; one that cannot be read is answered by a page of ours that says so.

use axum::extract::{FromRequestParts, Query};
use axum::http::StatusCode;
use axum::http::request::Parts;
use serde::de::DeserializeOwned;

use super::page::Failure;

/// The values of an address.
pub(super) struct AskedIn<T>(pub(super) T);

impl<S: Send + Sync, T: DeserializeOwned> FromRequestParts<S> for AskedIn<T> {
    type Rejection = Failure;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, Failure> {
        let read = Query::<T>::try_from_uri(&parts.uri);
        read.map(|Query(asked)| Self(asked)).map_err(|_| {
            Failure::Sent(
                StatusCode::BAD_REQUEST,
                "the address gives a value twice, or one that cannot be read: begin again from the form"
                    .to_owned(),
            )
        })
    }
}
