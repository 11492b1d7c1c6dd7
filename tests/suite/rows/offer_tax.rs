//! Value added tax that titles, headers and cells say is in the price of an offer.

use sparewright::record::OfferRecord;

use super::{import, problems};

/// The offer of one row with the problems said of it.
fn offer(header: &str, row: &str) -> (OfferRecord, Vec<String>) {
    let imported = import("nordlager.csv", &format!("{header}\n{row}\n"));
    let said = problems(&imported);
    assert_eq!(imported.records.offers.len(), 1, "{header} {row}: {said:?}");
    (imported.records.offers[0].clone(), said)
}

#[test]
fn tax_in_titles_headers_cells_and_breaks_is_taken_out() {
    // Council Directive 2006/112/EC, article 78: 11.90 at 19 % is 10.00 without; 9.52 is 8.00.
    let head = "Art no;Designation;Preis";
    for (header, row) in [
        (
            format!("Alle Preise inkl. 19 % MwSt.\n\n{head} EUR"),
            "N1;6305;11,90",
        ),
        (
            format!("Preise inklusive MwSt.\n\n{head} EUR;MwSt %"),
            "N1;6305;11,90;19",
        ),
        (format!("{head} inkl. 19 % MwSt."), "N1;6305;11,90"),
        (format!("{head} (inkl. 19% MwSt)"), "N1;6305;11,90"),
        (format!("{head} inkl. 7 % MwSt.;MwSt %"), "N1;6305;11,90;19"),
        (format!("{head} EUR;MwSt"), "N1;6305;11,90;inkl. 19 %"),
        (format!("{head} EUR;MwSt"), "N1;6305;11,90;19 % enthalten"),
        (format!("{head} EUR;MwSt"), "N1;6305;10,00;zzgl. 19 %"),
        (
            format!("Preise inkl. MwSt.\n\n{head} zzgl. 19 % MwSt."),
            "N1;6305;10,00",
        ),
    ] {
        let (found, said) = offer(&header, row);
        let price = found.price.map(|price| price.unit_price());
        let is_it = price.is_some_and(|price| (price - 10.0).abs() < 1e-4);
        assert!(
            is_it && said.is_empty(),
            "{header} {row}: {price:?} {said:?}"
        );
    }
    for (header, row) in [
        (
            "Art no;Designation;Price EUR incl. VAT;VAT %;from 10",
            "N1;6305;11,90;19;9,52",
        ),
        (
            "Art no;Designation;Price EUR incl. 19 % VAT;from 10",
            "N1;6305;11,90;9,52",
        ),
        (
            "Art no;Designation;Price EUR incl. 19 % VAT;from 10 excl. VAT",
            "N1;6305;11,90;8,00",
        ),
    ] {
        let (found, said) = offer(header, row);
        let [of_ten] = found.breaks.as_slice() else {
            panic!("{header}: {:?} {said:?}", found.breaks);
        };
        assert!(
            (of_ten.price.unit_price() - 8.0).abs() < 1e-4,
            "{header}: {of_ten:?}"
        );
    }
    // What may mean either is told, and is no price.
    for (header, row) in [
        (
            "Art no;Designation;Price EUR;VAT",
            "N1;6305;11,90;with 19 %",
        ),
        (
            "Art no;Designation;Price EUR incl. VAT;VAT",
            "N1;6305;11,90;plus 19 %",
        ),
    ] {
        let (found, said) = offer(header, row);
        assert_eq!(found.price, None, "{header}");
        let is_told = |said: &String| said.starts_with("D2: ") && said.contains("leaves open");
        assert!(said.iter().any(is_told), "{said:?}");
    }
    let (found, said) = offer("Art no;Designation;Price EUR;VAT", "N1;6305;11,90;incl.");
    assert_eq!(found.price, None);
    assert!(
        said.iter()
            .any(|said| said.starts_with("C2: the price includes")),
        "{said:?}"
    );
}

/// The net price of the only offer of a list, in hundredths.
fn cents(text: &str) -> Option<f64> {
    let imported = import("nordlager.csv", text);
    let offers = &imported.records.offers;
    assert_eq!(offers.len(), 1, "{text}: {:?}", problems(&imported));
    let price = offers[0].price?.unit_price();
    Some((price * 100.0).round())
}

#[test]
fn a_line_below_the_table_says_it_of_all_of_its_prices() {
    // 11.90 at 19 % is 10.00 without.
    for (line, net) in [
        ("Alle Preise inkl. 19 % MwSt.", Some(1000.0)),
        ("\nAll prices incl. 19 % VAT", Some(1000.0)),
        ("Preise inkl. MwSt.", None),
        ("prices incl. VAT", None),
        ("Preise zzgl. MwSt.", Some(1190.0)),
        (
            "Alle Preise zzgl. 19 % MwSt.\nLieferung ab Werk",
            Some(1190.0),
        ),
        ("Alle Preise in EUR je 100 Stück", Some(12.0)),
    ] {
        let text = format!("Art no;Designation;Preis EUR\nN1;6305;11,90\n{line}\n");
        assert_eq!(cents(&text), net, "{line}");
    }
    // In a table of two columns the line is no row either.
    let text = "Designation;Preis EUR\n6305;11,90\nPreise zzgl. MwSt.\n";
    assert_eq!(cents(text), Some(1190.0));
    // The header holds before the line below.
    let text = "Art no;Designation;Preis zzgl. MwSt.\nN1;6305;11,90\nPreise inkl. MwSt.\n";
    assert_eq!(cents(text), Some(1190.0));
}

#[test]
fn yes_and_no_below_a_header_that_tax_is_in() {
    for (header, cell, net, told) in [
        ("MwSt. inkl.", "nein", Some(1190.0), None),
        ("MwSt. inkl.", "ja", None, Some("at an unknown rate")),
        ("VAT included", "yes", None, Some("at an unknown rate")),
        ("VAT included", "no", Some(1190.0), None),
        ("MwSt. incl.", "x", None, Some("at an unknown rate")),
        ("MwSt. inkl.", "19 %", Some(1000.0), None),
        ("MwSt. inkl.", "1,90", None, Some("leaves open")),
        (
            "MwSt. inkl.",
            "",
            None,
            Some("is missing; an offer needs one"),
        ),
        ("MwSt", "ja", None, Some("`ja` leaves open")),
        ("MwSt", "nein", Some(1190.0), None),
        // Keys of rates say nothing of the price.
        ("MwSt", "S", Some(1190.0), None),
    ] {
        let text = format!("Art no;Designation;Preis EUR;{header}\nN1;6305;11,90;{cell}\n");
        assert_eq!(cents(&text), net, "{header}: {cell}");
        let said = problems(&import("nordlager.csv", &text));
        match told {
            Some(told) => assert!(
                said.iter().any(|said| said.contains(told)),
                "{header}: {said:?}"
            ),
            None => assert!(said.is_empty(), "{header} {cell}: {said:?}"),
        }
    }
}

#[test]
fn a_gross_price_is_one_before_discount_or_with_tax_and_never_a_guess() {
    // 11.90 less 20 % is 9.52; 11.90 at 19 % is 10.00 without.
    for (header, row, net, told, note) in [
        ("Bruttopreis;Rabatt", "11,90;20 %", Some(952.0), false, true),
        (
            "Bruttopreis EUR;Rabatt",
            "11,90;20 %",
            Some(952.0),
            false,
            true,
        ),
        (
            "Preis EUR brutto;Rabatt",
            "11,90;20 %",
            Some(952.0),
            false,
            true,
        ),
        ("Bruttopreis", "11,90", None, true, false),
        ("Bruttopreis;MwSt-Satz", "11,90;19", None, true, false),
        (
            "Bruttopreis inkl. 19 % MwSt.",
            "11,90",
            Some(1000.0),
            false,
            false,
        ),
        (
            "Bruttopreis (zzgl. MwSt.);Rabatt",
            "11,90;20 %",
            Some(952.0),
            false,
            false,
        ),
        ("Preis EUR brutto", "11,90", None, false, false),
        (
            "Bruttopreis;Nettopreis",
            "11,90;8,00",
            Some(800.0),
            false,
            false,
        ),
        ("Nettopreis", "8,00", Some(800.0), false, false),
    ] {
        let text = format!("Art no;Designation;{header}\nN1;6305;{row}\n");
        assert_eq!(cents(&text), net, "{header}");
        let imported = import("nordlager.csv", &text);
        let is_told = problems(&imported)
            .iter()
            .any(|said| said.contains("the price is gross"));
        assert_eq!(is_told, told, "{header}: {:?}", problems(&imported));
        let why = &imported.tables[0].why;
        let is_noted = why
            .iter()
            .any(|why| why.contains("beside a discount is taken for the price before it"));
        assert_eq!(is_noted, note, "{header}: {why:?}");
    }
    let titled = "Bruttopreise 2026\n\nArt no;Designation;Preis EUR\nN1;6305;11,90\n";
    assert_eq!(cents(titled), None);
}
