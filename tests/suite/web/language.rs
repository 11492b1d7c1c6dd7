//! The page in the language of the browser, and the switch.

use super::client::Server;
use crate::imported;

const GERMAN: (&str, &str) = ("Accept-Language", "de-DE,de;q=0.9,en;q=0.8");

#[test]
fn a_page_follows_the_browser_and_the_switch() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let ask = |path: &str, headers: &[(&str, &str)]| server.send("GET", path, headers, b"");
    let german = ask("/overview", &[GERMAN]).text();
    assert!(german.contains("<html lang=\"de\">"), "{german}");
    assert!(german.contains("Es wurde noch nichts eingelesen."));
    let english = ask("/overview", &[]).text();
    assert!(english.contains("<html lang=\"en\">"), "{english}");
    assert!(english.contains("href=\"/language/de\""), "{english}");
    let kept = ask(
        "/overview",
        &[GERMAN, ("Cookie", "sparewright_language=en")],
    );
    assert!(kept.text().contains("<html lang=\"en\">"));
    let switched = ask("/language/de", &[]);
    assert_eq!(switched.status, 303, "{}", switched.head);
    assert_eq!(switched.header("location"), Some("/"));
    let cookie = switched.header("set-cookie").unwrap_or_default();
    assert!(
        cookie.starts_with("sparewright_language=de; Path=/; HttpOnly; SameSite=Lax"),
        "{cookie}"
    );
    assert_eq!(ask("/language/xx", &[]).status, 404);
}

#[test]
fn tables_and_files_come_in_the_language_of_who_asks() {
    let folder = tempfile::tempdir().unwrap();
    let parts = "Part no;Designation;Description;Unit\nB-1;6308;on the shelf;pcs\n";
    let lists = imported::lists(folder.path(), &[("parts.csv", parts)]);
    let workspace = folder.path().join("workspace");
    let server = Server::empty(&workspace);
    let done = imported::import(&lists, &workspace);
    assert!(done.status.success(), "{done:?}");
    let ask = |path: &str, headers: &[(&str, &str)]| server.send("GET", path, headers, b"").text();
    let overview = ask("/overview", &[GERMAN]);
    for shown in [
        "Jetzt bestellen",
        "Auf einen Blick",
        "Gelesene Zeilen",
        "Sicherheitshinweise",
    ] {
        assert!(overview.contains(shown), "no `{shown}` in {overview}");
    }
    assert!(ask("/overview", &[]).contains("At a glance"));
    let table = ask("/table/files", &[GERMAN]);
    assert!(
        table.contains("Gelesene Dateien") && table.contains("= Teilenummer"),
        "{table}"
    );
    let json = ask("/download/reorder.json", &[GERMAN]);
    assert!(json.contains("\"language\": \"de\""), "{json}");
}
