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
