//! Lines above a table: whose list it is, of which day, in which currency and units, and what only looks like it.

use sparewright::record::OfferRecord;

use super::import;

/// The offer of a list with these lines above it.
fn under(lines: &str) -> OfferRecord {
    let imported = import(
        "list.csv",
        &format!("{lines}\n\nArt no;Designation;Price;Lead time\nN1;6305-2RS;8,50;2 days\n"),
    );
    assert_eq!(imported.records.offers.len(), 1, "{lines}");
    imported.records.offers[0].clone()
}

#[test]
fn the_supplier_is_the_firm_that_a_line_names_and_no_word_of_the_trade() {
    for (lines, supplier) in [
        ("Supplier: Nordlager", "Nordlager"),
        ("Lieferant: Nordlager Handel GmbH", "Nordlager Handel GmbH"),
        ("Fournisseur: Courroux SA", "Courroux SA"),
        ("Proveedor: Rodamientos del Sur", "Rodamientos del Sur"),
        ("Fornitore;Cuscinetti Nord", "Cuscinetti Nord"),
        ("Angebot Muster GmbH", "Muster GmbH"),
        ("Angebot von Nordlager Handel", "Nordlager Handel"),
        ("Offer from Nordlager", "Nordlager"),
        ("Quotation by Nordlager Ltd", "Nordlager Ltd"),
        ("Devis de Courroux SA", "Courroux SA"),
        ("Offerta di Cuscinetti Nord", "Cuscinetti Nord"),
        // These name nobody: the list goes by the name of its file.
        ("Offre de prix", "list"),
        ("OFFRE DE PRIX", "list"),
        ("Oferta de precios", "list"),
        ("Offerta prezzi", "list"),
        ("Angebot freibleibend", "list"),
        ("Angebot gültig bis auf Widerruf", "list"),
        ("Offer subject to confirmation", "list"),
        ("Offer Prices", "list"),
        ("Angebot Wälzlager", "list"),
        ("Offer Bearings", "list"),
        ("Angebot 4711", "list"),
        ("Angebot Nr. 26-0188", "list"),
        ("Supplier: -", "list"),
        ("Supplier: n/a", "list"),
    ] {
        assert_eq!(&*under(lines).supplier, supplier, "{lines}");
    }
}

#[test]
fn the_day_of_a_list_is_that_of_its_line_and_an_end_is_none() {
    for (lines, dated) in [
        ("Date: 2026-02-16", Some("2026-02-16")),
        ("Datum:;16.02.2026", Some("2026-02-16")),
        ("Stand 16.02.2026", Some("2026-02-16")),
        (
            "Prepared for the mill, 16 February 2026. Prices net.",
            Some("2026-02-16"),
        ),
        ("Printed February 16, 2026", Some("2026-02-16")),
        ("Tarif du 16 février 2026", Some("2026-02-16")),
        ("Listino del 16 febbraio 2026", Some("2026-02-16")),
        ("Preisliste, gültig ab 16.02.2026", Some("2026-02-16")),
        ("valid until 16.02.2026", None),
        ("Valid until;16.02.2026", None),
        ("Gültig bis:;16.02.2026", None),
        ("gültig bis 16.02.2026", None),
        ("valable jusqu'au 16.02.2026", None),
        ("válido hasta 16.02.2026", None),
        ("Price list 2026", None),
        ("February 2026", None),
        ("Angebot Nr. 26-0188", None),
        ("", None),
        // The first of two days holds.
        ("Stand 16.02.2026\nDate: 2026-03-01", Some("2026-02-16")),
    ] {
        let found = under(lines).quote_date.map(|date| date.to_string());
        assert_eq!(found.as_deref(), dated, "{lines}");
    }
}

#[test]
fn an_offer_holds_as_long_as_a_line_beside_its_list_says() {
    let until = |offer: &OfferRecord| offer.valid_until.map(|date| date.to_string());
    for (lines, end) in [
        ("Angebot gültig bis 28.02.2026", Some("2026-02-28")),
        ("Gültig bis: 28.02.2026", Some("2026-02-28")),
        ("Quote valid until 2026-02-28", Some("2026-02-28")),
        ("Valid until;2026-02-28", Some("2026-02-28")),
        (
            "Prices valid from 01.01.2026 to 28.02.2026",
            Some("2026-02-28"),
        ),
        ("Preisliste, gültig ab 16.02.2026", None),
        ("Antwort bis 28.02.2026", None),
    ] {
        assert_eq!(until(&under(lines)).as_deref(), end, "{lines}");
    }
    // A row's own day holds, and one that cannot be read is not the list's.
    let imported = import(
        "list.csv",
        "Art no;Designation;Price;Valid until\nN1;6305-2RS;8,50;2026-03-31\nN2;6306-2RS;9,50;\n\
         N3;6307-2RS;9,90;soon\n\nPrices valid until 2026-02-28\n",
    );
    let ends: Vec<Option<String>> = imported.records.offers.iter().map(until).collect();
    let expected = [
        Some("2026-03-31".to_owned()),
        Some("2026-02-28".to_owned()),
        None,
    ];
    assert_eq!(ends, expected);
    let says = "its offers hold until 2026-02-28, as a line beside the table says";
    assert!(imported.tables[0].why.iter().any(|why| why == says));
}

#[test]
fn a_lead_time_or_a_discount_of_the_whole_list_holds_for_its_offers() {
    use sparewright::record::{LeadUnit, QuotedLeadTime};
    let weeks = |weeks: f64| QuotedLeadTime::exactly(weeks * 7.0, LeadUnit::Days);
    let imported = import(
        "list.csv",
        "Lieferzeit 6 Wochen\nRabatt 20 % auf alle Listenpreise\n\nArtikelnr;Bezeichnung;Listenpreis EUR;Lieferzeit\n\
         N1;6305-2RS;10,00;\nN2;6306-2RS;20,00;2 Wochen\nN3;6307-2RS;30,00;bald\n",
    );
    let offers = &imported.records.offers;
    let prices: Vec<String> = (0..3)
        .filter_map(|at| offers[at].price)
        .map(|price| price.cost_of(1.0).to_string())
        .collect();
    // 10, 20 and 30 less a fifth.
    assert_eq!(prices, ["8.00 EUR", "16.00 EUR", "24.00 EUR"]);
    let times: Vec<_> = (0..3).map(|at| offers[at].lead_time).collect();
    assert_eq!(times, [Some(weeks(6.0)), Some(weeks(2.0)), None]);
}

#[test]
fn terms_beside_a_list_that_have_no_place_are_told() {
    let imported = import(
        "list.csv",
        "Rabatt 20 % auf alle Preise\nMusterweg 5, 12345 Musterort\n\nArtikelnr;Bezeichnung;Preis EUR;Lieferzeit\n\
         N1;6305-2RS;10,00;3 Tage\n\nAlle Preise zzgl. 3 % Legierungszuschlag\nMindestbestellwert 150 EUR\n\
         Fracht 9,50 EUR je Sendung\nEs gelten unsere allgemeinen Bedingungen\n",
    );
    let told = super::problems(&imported);
    let lines: Vec<&str> = (told.iter())
        .filter_map(|told| told.split_once(": the line `"))
        .map(|(_, rest)| rest.split('`').next().unwrap_or_default())
        .collect();
    assert_eq!(
        lines,
        [
            // A price may be less its discount already.
            "Rabatt 20 % auf alle Preise",
            "Alle Preise zzgl. 3 % Legierungszuschlag",
            "Mindestbestellwert 150 EUR",
            "Fracht 9,50 EUR je Sendung",
        ]
    );
    let price = imported.records.offers[0].price.unwrap();
    assert_eq!(price.cost_of(1.0).to_string(), "10.00 EUR");
    let why = &imported.tables[0].why;
    for line in [
        "Musterweg 5, 12345 Musterort",
        "Es gelten unsere allgemeinen Bedingungen",
    ] {
        let says = format!("not read: line `{line}` in A");
        assert!(
            why.iter().any(|why| why.starts_with(&says)),
            "{says}: {why:?}"
        );
    }
}

#[test]
fn terms_beside_a_list_of_everything_are_those_of_its_offers() {
    let imported = import(
        "list.csv",
        "Unsere Liste\nLieferzeit 6 Wochen\nMindestbestellwert 150 EUR\n\n\
         Part no;Designation;Bin;On hand;Supplier;Price EUR\nA-1;6205;B1;2;North;4.20\n",
    );
    assert_eq!(imported.records.stock.len(), 1);
    let lead_time = imported.records.offers[0].lead_time.unwrap();
    assert_eq!(lead_time.to_string(), "42 days");
    let told = super::problems(&imported);
    let charges = told.iter().filter(|told| told.contains("not planned with"));
    assert_eq!(charges.count(), 1, "{told:?}");
}

#[test]
fn headings_and_lines_that_were_read_are_not_told() {
    for lines in [
        "Preisliste 2026",
        "Nordlager Handel — unsere ganze Liste der Wälzlager",
        "Supplier: Nordlager",
        "Stand 16.02.2026",
        "Alle Preise in EUR je 100 Stk",
        "Prices valid until 2026-02-28",
        "Alle Preise in EUR inkl. 19 % MwSt.",
    ] {
        let imported = import(
            "list.csv",
            &format!("{lines}\n\nArt no;Designation;Price;Lead time\nN1;6305-2RS;8,50;2 days\n"),
        );
        let said = imported.tables[0].why.join("; ");
        assert!(!said.contains("not read"), "{lines}: {said}");
        let problems = super::problems(&imported).join("; ");
        assert!(
            !problems.contains("not planned with"),
            "{lines}: {problems}"
        );
    }
}

#[test]
fn a_first_line_with_a_day_that_is_not_read_is_told() {
    let line = "Bestellungen bis 28.02.2026 werden bis 31.03.2026 geliefert";
    let imported = import(
        "list.csv",
        &format!(
            "{line}\nStand 16.02.2026\n\nArt no;Designation;Price;Lead time\nN1;6305-2RS;8,50;2 days\n"
        ),
    );
    let said = &imported.tables[0].why;
    let expected = format!("not read: line `{line}` in A1");
    assert!(said.contains(&expected), "{said:?}");
    assert_eq!(imported.records.offers[0].valid_until, None);
}

#[test]
fn currency_units_and_tax_of_a_list_are_those_of_its_lines() {
    for (lines, thousand) in [
        ("All prices in EUR", Some("8,500.00 EUR")),
        ("All prices in USD", Some("8,500.00 USD")),
        ("Alle Preise in CHF", Some("8,500.00 CHF")),
        ("Prix en EUR HT", Some("8,500.00 EUR")),
        ("Ceny w zł", Some("8,500.00 PLN")),
        ("Quotation, US dollars, net 30", Some("8,500.00 USD")),
        ("pounds sterling", Some("8,500.00 GBP")),
        ("Preise in Schweizer Franken", Some("8,500.00 CHF")),
        ("Alle Preise in EUR je 100 Stk", Some("85.00 EUR")),
        ("Prices in EUR per 1000 pcs", Some("8.50 EUR")),
        ("Alle Preise in EUR inkl. MwSt", None),
        ("Prices incl. VAT", None),
        ("Prices excl. VAT", Some("8,500.00 EUR")),
        ("", Some("8,500.00 EUR")),
    ] {
        let price = under(lines)
            .price
            .map(|price| price.cost_of(1_000.0).to_string());
        assert_eq!(price.as_deref(), thousand, "{lines}");
    }
}

#[test]
fn the_unit_of_dimensions_is_that_of_a_line_above_them() {
    // ABMA 20: 3/4 by 1 5/8 by 5/16 in; ISO 15: 6204 is 20 x 47 x 14 mm.
    for (lines, rows, size) in [
        (
            "All dimensions in mm",
            "A1;deep groove ball bearing;20;47;14",
            "20 x 47 x 14 mm",
        ),
        (
            "Maße in mm",
            "A1;deep groove ball bearing;20;47;14",
            "20 x 47 x 14 mm",
        ),
        (
            "All dimensions in inch",
            "A1;deep groove ball bearing;.75;1.625;.3125",
            "19.05 x 41.275 x 7.9375 mm",
        ),
        (
            "Dimensions in inches",
            "A1;deep groove ball bearing;3/4;1 5/8;5/16",
            "19.05 x 41.275 x 7.9375 mm",
        ),
        (
            "Dimensions in cm",
            "A1;deep groove ball bearing;2;4,7;1,4",
            "20 x 47 x 14 mm",
        ),
    ] {
        let imported = import(
            "parts.csv",
            &format!("{lines}\n\nPart no;Type;d;D;B\n{rows}\n"),
        );
        let part = &imported.records.parts[0];
        let found = part.size.map(|size| size.to_string());
        assert_eq!(
            found.as_deref(),
            Some(size),
            "{lines}: {:?}",
            super::problems(&imported)
        );
    }
}
