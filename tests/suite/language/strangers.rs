//! The four small shops of strangers in German: every text has its message, and no page that people get is half English.
//!
//! They lack tables, name parts in other languages and give no settings, so that they bring out texts that the demo never says.

use std::collections::BTreeSet;

use sparewright::job::Job;
use sparewright::language::Language;
use sparewright::report::content::{kit_report, purchase_requests, rebuild_sheets};
use sparewright::report::{html_of, rebuild_sheets_html, translated, translated_sheets};

use super::{german, missing_of, none_missing};
use crate::german_words::{Words, faults_of, none};
use crate::shops::{folder, shop};

const SHOPS: [&str; 4] = [
    "bakery_german",
    "bottling_two_languages",
    "gravel_lists_only",
    "sawmill_inch",
];

/// All that the tables of a shop say, with the names that may stand in a sentence of ours.
fn words_of(name: &str, job: &Job) -> Words {
    let mut all = format!("{:?} {:?}", job.shop, job.imported);
    for file in std::fs::read_dir(folder(name)).unwrap() {
        let path = file.unwrap().path();
        all.push_str(&path.file_name().unwrap().to_string_lossy());
        all.push_str(&String::from_utf8_lossy(&std::fs::read(path).unwrap()));
    }
    let mut words = Words::new(&all);
    let kits = job.shop.kits.iter().map(|kit| kit.name.clone());
    let suppliers = job
        .shop
        .offers
        .iter()
        .map(|offer| offer.record.supplier.to_string());
    let names: BTreeSet<String> = kits.chain(suppliers).collect();
    words.names = names.into_iter().collect();
    words
        .names
        .sort_by_key(|name| std::cmp::Reverse(name.len()));
    words
}

#[test]
fn every_text_of_each_has_its_message() {
    for name in SHOPS {
        let (job, planned) = shop(name);
        none_missing(name, &missing_of(&job, &planned));
    }
}

#[test]
fn no_report_of_theirs_is_half_english() {
    for name in SHOPS {
        let (job, planned) = shop(name);
        let inputs = job.inputs(&planned);
        let report = |language: Language| html_of(&translated(job.report(&planned), language));
        let sheets = |language: Language| {
            rebuild_sheets_html(
                &translated_sheets(rebuild_sheets(&inputs), language),
                language,
            )
        };
        let mut pages = vec![(
            format!("{name}: reorder.html"),
            report(Language::ENGLISH),
            report(german()),
        )];
        // A shop without kits has a page without sheets, which say their language.
        if !job.shop.kits.is_empty() {
            pages.push((
                format!("{name}: rebuild_sheets.html"),
                sheets(Language::ENGLISH),
                sheets(german()),
            ));
        }
        for request in purchase_requests(&inputs) {
            let of = |language| html_of(&translated(request.report.clone(), language));
            let what = format!("{name}: {}", request.file_stem);
            pages.push((what, of(Language::ENGLISH), of(german())));
        }
        let acceptances = job.acceptances();
        let ask = sparewright::plan::StudyAsk::default();
        for kit in 0..job.shop.kits.len() {
            let study = job.study_kit(&acceptances, kit, &ask).unwrap();
            let inputs = job.inputs_of_kit(&acceptances, &study);
            let of = |language| {
                html_of(&translated(
                    kit_report(&inputs, &study.study, &ask),
                    language,
                ))
            };
            pages.push((
                format!("{name}: kit {kit}"),
                of(Language::ENGLISH),
                of(german()),
            ));
        }
        none(&faults_of(pages.into_iter(), &words_of(name, &job)));
    }
}

#[test]
fn a_shop_without_a_name_is_called_so_in_its_language() {
    let (job, planned) = shop("gravel_lists_only");
    let report = translated(job.report(&planned), german());
    assert_eq!(report.shop, "der Betrieb");
    let page = html_of(&report);
    assert!(
        !page.contains("the shop") && page.contains("der Betrieb"),
        "{page}"
    );
}
