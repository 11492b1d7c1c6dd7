//! What every page shares: head, ways to the other pages, and the page of an error.

use std::sync::Arc;

use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Response};
use maud::{DOCTYPE, Markup, html};

use crate::language::Language;
use crate::report::Report;
use crate::web::key::Role;
use crate::web::language::{chosen, report_in_it, say, speaking};
use crate::web::live_shop::{LiveShopError, Loaded, PlannedShop};
use crate::web::serving::Serving;

/// Pages that every other page leads to: address, name, who may see it.
const WAYS: [(&str, &str, Role); 6] = [
    ("/", "Look up", Role::Look),
    ("/kits", "Kits", Role::Look),
    ("/levels", "Levels", Role::Look),
    ("/overview", "Shop", Role::Look),
    ("/download", "Downloads", Role::Look),
    ("/import", "Import", Role::Import),
];

/// The current shop, at once where it is at hand; it is read without holding up other requests.
pub(super) async fn current(serving: &Serving) -> Result<Option<Arc<Loaded>>, Failure> {
    if let Some(loaded) = serving.shop.at_hand().map_err(LiveShopError::from)? {
        return Ok(Some(loaded));
    }
    let shop = Arc::clone(&serving.shop);
    aside(move || shop.current()).await?.map_err(Failure::from)
}

/// The number of the current snapshot with its plan and report; `None` before the first import.
pub(super) async fn planned(serving: &Serving) -> Result<Option<(u32, Arc<PlannedShop>)>, Failure> {
    let shop = Arc::clone(&serving.shop);
    let planned = aside(move || -> Result<_, LiveShopError> {
        let Some(loaded) = shop.current()? else {
            return Ok(None);
        };
        Ok(Some((loaded.number, loaded.planned()?)))
    });
    planned.await?.map_err(Failure::from)
}

/// As [`planned`], the report alone, in the language of the request.
pub(super) async fn reported(serving: &Serving) -> Result<Option<(u32, Arc<Report>)>, Failure> {
    let Some((number, shop)) = planned(serving).await? else {
        return Ok(None);
    };
    Ok(Some((number, report_of(&shop).await?)))
}

/// The report of a planned shop in the language of the request.
pub(super) async fn report_of(shop: &Arc<PlannedShop>) -> Result<Arc<Report>, Failure> {
    let shop = Arc::clone(shop);
    Ok(report_in_it(aside(move || shop.report()).await?).await)
}

/// Does work that blocks beside the threads that answer, in the language of the request.
pub(super) async fn aside<T: Send + 'static>(
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, Failure> {
    let language = chosen();
    tokio::task::spawn_blocking(move || speaking(language, work))
        .await
        .map_err(|_| Failure::Broken)
}

/// Why a page cannot be shown.
#[derive(Debug)]
pub(in crate::web) enum Failure {
    /// The shop cannot be read.
    Shop(LiveShopError),
    /// Something that was sent cannot be used; in words.
    Sent(StatusCode, String),
    /// There is no such page, table or file.
    NoSuchPage,
    /// A defect of this program.
    Broken,
}

impl From<LiveShopError> for Failure {
    fn from(error: LiveShopError) -> Self {
        Self::Shop(error)
    }
}

impl IntoResponse for Failure {
    fn into_response(self) -> Response {
        let (status, words) = match self {
            Self::Shop(error) => (StatusCode::INTERNAL_SERVER_ERROR, error.to_string()),
            Self::Sent(status, words) => (status, words),
            Self::NoSuchPage => (
                StatusCode::NOT_FOUND,
                "there is no such page here".to_owned(),
            ),
            Self::Broken => (
                StatusCode::INTERNAL_SERVER_ERROR,
                "the work stopped on a defect of this program; nothing was changed".to_owned(),
            ),
        };
        let page = page(
            "Not done",
            Role::Look,
            "",
            &html! { h1 { (say("Not done")) } p.stop-line { (say(&words)) } p { a href="/" { (say("Back to the look-up")) } } },
        );
        (status, page).into_response()
    }
}

/// A whole page. `at` is the address among the ways to other pages.
pub(super) fn page(title: &str, role: Role, at: &str, body: &Markup) -> Html<String> {
    let markup = html! {
        (DOCTYPE)
        html lang=(chosen().code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (say(title)) " - sparewright" }
                link rel="stylesheet" href="/asset/page.css";
                link rel="icon" href="/asset/icon.svg" type="image/svg+xml";
                script src="/asset/page.js" defer {}
                script src="/asset/sorting.js" defer {}
            }
            body {
                a.skip href="#main" { (say("Skip to the page")) }
                header.top {
                    nav aria-label=(say("Pages")) { ul {
                        @for (address, name, least) in WAYS {
                            @if role >= least {
                                li { a href=(address) aria-current=[(address == at).then_some("page")] { (say(name)) } }
                            }
                        }
                        @for language in Language::all().filter(|of| *of != chosen()) {
                            li { a href={ "/language/" (language.code()) } lang=(language.code()) hreflang=(language.code()) { (language.name()) } }
                        }
                    } }
                }
                main id="main" { (body) }
            }
        }
    };
    Html(markup.into_string())
}

/// `As of 2026-03-09 07:30, snapshot 2.`
pub(super) fn as_of(shop: &PlannedShop, number: u32) -> String {
    let moment = chosen().moment(shop.job.shop.as_of);
    format!("{} {moment}, {} {number}.", say("As of"), say("snapshot"))
}

/// `and 3 more`, below a list that was cut.
pub(super) fn and_more(more: usize) -> String {
    say(&format!("and {more} more"))
}

/// The page of something that an import has to come before.
pub(super) fn nothing_imported(title: &str, role: Role, at: &str) -> Html<String> {
    let body = html! {
        p.none {
            (say("Nothing was imported yet.")) " "
            @if role == Role::Import { a href="/import" { (say("Import spreadsheets")) } "." }
            @else { (say("Someone with the key for importing has to do that.")) }
        }
    };
    page(title, role, at, &body)
}
