//! The rebuild sheets and the page on paper, as a browser prints them.

use std::path::Path;
use std::process::Command;

use sparewright::language::Language;
use sparewright::report::content::rebuild_sheets;
use sparewright::report::model::Cover;
use sparewright::report::{html_of, rebuild_sheets_html};

use super::outside::{browser, is_there};
use crate::skipped::no_reader;

/// Sheets of paper that the page takes; Chromium prints on Letter, which is shorter than A4 by 18 mm.
fn printed(page: &str) -> Option<usize> {
    let folder = tempfile::tempdir().unwrap();
    let bytes = pdf_of(page, folder.path())?;
    let text = String::from_utf8_lossy(&bytes).into_owned();
    // Page objects; the one node above them is of type Pages.
    Some(text.matches("/Type /Page\n").count())
}

/// The page as the browser prints it, into `page.pdf` of a folder; `None` where there is no browser.
fn pdf_of(page: &str, folder: &Path) -> Option<Vec<u8>> {
    let browser = browser()?;
    let (html, pdf) = (folder.join("page.html"), folder.join("page.pdf"));
    std::fs::write(&html, page).unwrap();
    let output = Command::new(browser)
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--no-pdf-header-footer",
        ])
        .arg(format!(
            "--user-data-dir={}",
            folder.join("profile").display()
        ))
        .arg(format!("--print-to-pdf={}", pdf.display()))
        .arg(format!("file://{}", html.display()))
        .output()
        .unwrap();
    let bytes = std::fs::read(&pdf);
    Some(bytes.unwrap_or_else(|_| panic!("{}", String::from_utf8_lossy(&output.stderr))))
}

#[test]
fn a_header_stands_on_every_sheet_of_paper_that_its_table_takes() {
    let (job, planned) = crate::demo::demo();
    let mut report = job.report(planned);
    report.cover = Cover::default();
    report.sheets.retain(|sheet| sheet.key == "order_now");
    // A word that stands nowhere else.
    report.sheets[0].columns[1].header = "Ourhead".to_owned();
    let folder = tempfile::tempdir().unwrap();
    let Some(bytes) = pdf_of(&html_of(&report), folder.path()) else {
        return;
    };
    assert!(!bytes.is_empty());
    if !is_there("pdftotext", "-v") {
        no_reader("pdftotext (poppler-utils)");
        return;
    }
    let output = Command::new("pdftotext")
        .args(["-layout", "page.pdf", "-"])
        .current_dir(folder.path())
        .output()
        .unwrap();
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let with_rows: Vec<&str> = text
        .split('\u{c}')
        .filter(|page| page.contains("BRG-"))
        .collect();
    assert!(with_rows.len() > 1, "{} pages with rows", with_rows.len());
    for (at, page) in with_rows.iter().enumerate() {
        assert!(
            page.contains("Ourhead"),
            "page {} of the table: {page}",
            at + 1
        );
    }
}

#[test]
fn every_kit_of_the_demo_fits_one_sheet_of_paper() {
    let (job, planned) = crate::demo::demo();
    let sheets = rebuild_sheets(&job.inputs(planned));
    for sheet in &sheets {
        let page = rebuild_sheets_html(std::slice::from_ref(sheet), Language::ENGLISH);
        let Some(pages) = printed(&page) else { return };
        assert_eq!(pages, 1, "{} of {} lines", sheet.name, sheet.lines.len());
    }
    assert_eq!(
        printed(&rebuild_sheets_html(&sheets, Language::ENGLISH)),
        Some(sheets.len())
    );
}

#[test]
fn a_sheet_says_what_was_tried_what_must_not_be_fitted_and_where_to_write() {
    let (job, planned) = crate::demo::demo();
    let sheets = rebuild_sheets(&job.inputs(planned));
    let sheet = sheets
        .iter()
        .find(|sheet| sheet.name == "Flaking roll FR-2 drive end")
        .unwrap();
    let line = &sheet.lines[0];
    // NUP approved for a builder's number; NU and NJ of the size do not locate the shaft (DIN 5412-1).
    assert!(line.accepted.contains("BRG-0315"), "{}", line.accepted);
    assert!(line.refused.contains("BRG-0317"), "{}", line.refused);
    assert!(
        line.checks
            .iter()
            .any(|check| check.contains("did not fit")),
        "{:?}",
        line.checks
    );
    for label in [
        "full marking",
        "side up",
        "order in the set",
        "grease, kind and amount",
        "heated to at most, °C",
    ] {
        assert!(line.boxes.contains(&label), "{label}");
    }
    assert!(line.is_never_again);
    let page = rebuild_sheets_html(&sheets, Language::ENGLISH);
    let isolate = page.find("Isolate first").unwrap();
    assert!(
        isolate < page.find("<table").unwrap(),
        "isolation comes first"
    );
}

#[test]
fn a_page_without_kits_says_so_in_its_language() {
    for (code, title, words) in [
        ("en", "Rebuild sheets", "No table gives a rebuild kit."),
        (
            "de",
            "Instandsetzungsbl",
            "Keine Tabelle nennt einen Bauteilsatz.",
        ),
    ] {
        let language = Language::all().find(|of| of.code() == code).unwrap();
        let page = rebuild_sheets_html(&[], language);
        assert!(page.contains(&format!("<html lang=\"{code}\">")), "{page}");
        assert!(page.contains(&format!("<title>{title}")), "{page}");
        assert!(page.contains(words), "{page}");
    }
}
