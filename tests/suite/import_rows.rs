//! What rows of each kind of table become, from small text tables written as shops and suppliers write them.
//!
//! Sizes are those of ISO 15, ISO 355, ABMA 20 and SAE AS568 as the handbooks print them; layouts are common
//! practice, no source.

use std::path::Path;

use sparewright::import::{Cell, GridBuilder, Imported, Problem, Severity, read_folder};
use sparewright::part::{Clearance, Closure, Family, PartClass, ToleranceClass};
use sparewright::record::{ApprovalOutcome, OfferRecord, OtherWayKind, PartRecord, TableKind};

/// Imports a folder of text tables.
fn import(files: &[(&str, &str)]) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    read_folder(folder.path()).unwrap()
}

fn problems(imported: &Imported) -> Vec<String> {
    imported
        .issues
        .iter()
        .map(|issue| format!("{}: {}", issue.place.cell(), issue.problem))
        .collect()
}

fn offers(text: &str) -> Vec<OfferRecord> {
    import(&[("nordlager.csv", text)])
        .records
        .offers
        .into_iter()
        .collect()
}

fn parts(rows: &str) -> Imported {
    let header =
        "Part no;Type;Designation;d;D;B;T;H;Fw;ID;CS;Closure;Clearance;Tolerance class;Unit\n";
    import(&[("parts.csv", &format!("{header}{rows}"))])
}

fn size(part: &PartRecord) -> Option<String> {
    part.size.map(|size| size.to_string())
}

fn cost_of_one(offer: &OfferRecord) -> Option<String> {
    offer.price.map(|price| price.cost_of(1.0).to_string())
}

#[test]
fn suppliers_carry_approval_hours_and_freight() {
    let imported = import(&[(
        "suppliers.csv",
        "Supplier;Approved;Approved for;Order cut-off;Counter hours;Freight EUR;Freight free from EUR;Courier EUR;Courier hours\n\
         Nordlager;yes;bearings, seals;14:00;07:00-17:00;9,50;150;48;3\n\
         Südlager;no;;;;;;;\n\
         Ostlager;yes;gaskets;;;;;;\n\
         Westlager;;;;;;;;\n",
    )]);
    let suppliers = &imported.records.suppliers;
    assert_eq!(suppliers.len(), 4, "a name alone is a supplier");
    assert_eq!(
        suppliers[0].approved_classes,
        [PartClass::Bearings, PartClass::Seals]
    );
    assert_eq!(suppliers[0].order_cutoff.unwrap().to_string(), "14:00:00");
    assert_eq!(
        suppliers[0].counter_hours.unwrap().1.to_string(),
        "17:00:00"
    );
    assert_eq!(suppliers[0].freight.unwrap().to_string(), "9.50 EUR");
    assert_eq!(suppliers[1].is_approved, Some(false));
    // A class that cannot be read must not become "approved for all".
    assert_eq!(suppliers[2].is_approved_for(PartClass::Bearings), None);
    assert_eq!(suppliers[3].is_approved, None);
}

#[test]
fn reads_same_day_delivery_and_the_kind_of_supplier_in_seven_languages() {
    let head = |supplier, until, there, cost, kind| {
        format!(
            "{supplier};{until};{there};{cost};{kind}\nNord;10:30;15:00;35,00;A\nWest;11:00;;;B\n"
        )
    };
    for text in [
        head(
            "supplier",
            "same day order by",
            "same day there by",
            "same day cost",
            "kind of supplier",
        ),
        head(
            "Lieferant",
            "Taggleich bestellen bis",
            "Taggleich da um",
            "Zuschlag taggleich",
            "Lieferantenart",
        ),
        head(
            "Fournisseur",
            "Limite livraison jour même",
            "Livré le jour même à",
            "Supplément jour même",
            "Type de fournisseur",
        ),
        head(
            "Proveedor",
            "Pedido mismo día hasta",
            "Entrega mismo día a las",
            "Recargo mismo día",
            "Tipo de proveedor",
        ),
        head(
            "Fornitore",
            "Ordine in giornata entro",
            "Consegna in giornata alle",
            "Supplemento in giornata",
            "Tipo di fornitore",
        ),
        head(
            "Dostawca",
            "Zamówienie na ten sam dzień do",
            "Dostawa tego samego dnia do",
            "Dopłata ten sam dzień",
            "Rodzaj dostawcy",
        ),
        head(
            "Fornecedor",
            "Pedido no mesmo dia até",
            "Entrega no mesmo dia até",
            "Taxa mesmo dia",
            "Tipo de fornecedor",
        ),
    ] {
        let imported = import(&[("suppliers.csv", &text)]);
        let suppliers = &imported.records.suppliers;
        assert_eq!(suppliers.len(), 2, "{text}");
        let same_day = suppliers[0].same_day.expect(&text);
        assert_eq!(same_day.order_by.to_string(), "10:30:00", "{text}");
        assert_eq!(same_day.there_by.to_string(), "15:00:00", "{text}");
        assert_eq!(same_day.cost.unwrap().to_string(), "35.00 EUR", "{text}");
        assert_eq!(suppliers[1].group.as_deref(), Some("B"), "{text}");
        assert_eq!(suppliers[1].same_day, None, "an hour is missing");
    }
}

#[test]
fn receipts_keep_what_is_known_and_refuse_impossible_orders() {
    let imported = import(&[(
        "receipts.csv",
        "Supplier;Part no;Qty;Ordered;Promised;Received\n\
         Nordlager;A1;4;2026-01-05;2026-01-12;2026-01-14\n\
         Nordlager;A1;4;2026-01-05;;2026-01-14\n\
         Nordlager;A1;4;2026-01-14;2026-01-12;2026-01-05\n\
         Nordlager;A1;4 pcs?;2026-01-05;2026-01-12;\n",
    )]);
    let receipts = &imported.records.receipts;
    assert_eq!(
        (receipts.len(), imported.rows_rejected),
        (3, 1),
        "{:?}",
        problems(&imported)
    );
    assert_eq!(receipts[0].promised.unwrap().to_string(), "2026-01-12");
    assert_eq!(receipts[1].promised, None);
    assert_eq!((receipts[2].quantity, receipts[2].received), (None, None));
}

#[test]
fn approvals_need_a_name_and_failures_stay_failures() {
    let imported = import(&[(
        "approvals.csv",
        "kit;line;substitute;outcome;checks;approved by;date\n\
         K;10;A2;approved;size;Edda;2026-01-05\n\
         K;10;A3;\"tried, did not fit\";size;Jonte;2026-01-05\n\
         K;10;A4;approved;size;;2026-01-05\n\
         K;10;A5;perhaps;size;Edda;2026-01-05\n",
    )]);
    let outcomes: Vec<ApprovalOutcome> = imported
        .records
        .approvals
        .iter()
        .map(|approval| approval.outcome)
        .collect();
    assert_eq!(
        outcomes,
        [ApprovalOutcome::Approved, ApprovalOutcome::DidNotFit]
    );
    assert_eq!(imported.rows_rejected, 2);
}

#[test]
fn other_ways_say_kind_hours_and_cost() {
    let imported = import(&[(
        "ways.csv",
        "Part no;Kit;Line;Way;Hours;Cost EUR;From;Approved by\n\
         A1;K;70;make in house;6;45;toolroom;\n\
         A2;;;repair outside;96;260;chroming;Edda\n\
         A3;;;other machine;5;0;no. 5;\n\
         A4;;;wish;5;0;;\n",
    )]);
    let ways = &imported.records.other_ways;
    let kinds: Vec<OtherWayKind> = ways.iter().map(|way| way.kind).collect();
    assert_eq!(
        kinds,
        [
            OtherWayKind::MakeInHouse,
            OtherWayKind::RepairOutside,
            OtherWayKind::OtherMachine
        ]
    );
    assert_eq!(ways[0].hours, Some(6.0));
    assert_eq!(ways[1].cost.unwrap().to_string(), "260.00 EUR");
    assert_eq!(ways[1].approved_by.as_deref(), Some("Edda"));
    assert_eq!(imported.rows_rejected, 1);
}

#[test]
fn tasks_whose_names_hold_a_comma_stay_whole() {
    let imported = import(&[(
        "tasks.csv",
        "Kit;Task;Hours;After\n\
         K;Lock out, strip;2;\n\
         K;Inspect;1;Lock out, strip\n\
         K;Fit;1;Inspect, Lock out, strip\n\
         K;Close;1;Fit, vent\n",
    )]);
    let tasks = &imported.records.tasks;
    let kinds: Vec<TableKind> = imported.tables.iter().map(|table| table.kind).collect();
    assert_eq!(kinds, [TableKind::Tasks]);
    let after: Vec<&[String]> = tasks
        .iter()
        .map(|task| task.predecessors.as_slice())
        .collect();
    assert_eq!(after[0], Vec::<String>::new());
    // This file is separated by semicolons, so the commas are the shop's.
    assert_eq!(after[1], ["Lock out, strip"]);
    assert_eq!(after[2], ["Inspect", "Lock out, strip"]);
    assert_eq!(after[3], ["Fit", "vent"]);
}

#[test]
fn list_less_discount_per_hundred_and_breaks_give_net_prices() {
    let list = offers(
        "Art.-Nr.;Bezeichnung;Listenpreis €/100;Rabatt %;Lieferzeit\n\
         N1;6305-2RS;1.250,00;40;2 AT\n\
         N2;6306-2RS;250,00;;ab Lager\n",
    );
    // 1250 / 100 less 40 % is 7.50.
    assert_eq!(cost_of_one(&list[0]).as_deref(), Some("7.50 EUR"));
    assert_eq!(cost_of_one(&list[1]).as_deref(), Some("2.50 EUR"));
    assert_eq!(list[0].designation.as_deref(), Some("6305-2RS"));
    assert_eq!(list[0].lead_time.unwrap().to_string(), "2 working days");

    let broken = offers(
        "Item no;Designation;1+;10+;50+;Rush lead time;Rush surcharge EUR\n\
         N1;6305-2RS;4.00;3.50;3.00;1 day;90\n\
         N2;6306-2RS;4.00;4.50;3.00;1 day;\n",
    );
    assert_eq!(cost_of_one(&broken[0]).as_deref(), Some("4.00 EUR"));
    let quantities: Vec<f64> = broken[0].breaks.iter().map(|b| b.from_quantity).collect();
    assert_eq!(quantities, [1.0, 10.0, 50.0]);
    assert_eq!(
        broken[0].expedite[0].surcharge.unwrap().to_string(),
        "90.00 EUR",
        "{:?}",
        broken[0].expedite
    );
    assert!(
        broken[1].breaks.is_empty(),
        "prices that rise are no breaks"
    );
    // A rush without a price is one of unknown price, not one for nothing.
    assert_eq!(broken[1].expedite.len(), 1);
    assert_eq!(broken[1].expedite[0].surcharge, None);
}

#[test]
fn a_title_gives_date_and_supplier_and_is_no_header() {
    let suppliers = "Supplier;Approved;Freight EUR\nNordlager Handel;yes;9\nCourroux SA;yes;9\n";
    let list = "Nordlager Handel — customer prices\n\
                Prepared for the mill, 16 February 2026. Prices net.\n\
                Item no.;Designation;Net price EUR;Lead time\nN1;6305;4;2 days\n";
    let imported = import(&[
        ("a_list.csv", list),
        (
            "prix_courroux_2026.csv",
            "Réf;Désignation;Prix HT;Délai\nC1;6305;4;8 jours ouvrés\n",
        ),
        ("zz_shop.csv", suppliers),
    ]);
    let offers = &imported.records.offers;
    assert_eq!(&*offers[0].supplier, "Nordlager Handel");
    assert_eq!(offers[0].quote_date.unwrap().to_string(), "2026-02-16");
    // The suppliers table is read last and still names the second list.
    assert_eq!(&*offers[1].supplier, "Courroux SA");
    let why = &imported.tables[1].why;
    assert!(
        why.contains(
            &"supplier `Courroux SA`: `courroux` stands in the name of the file".to_owned()
        ),
        "{why:?}"
    );
    assert!(
        why.iter()
            .any(|why| why.contains("prices without one are taken as EUR")),
        "{why:?}"
    );
    assert_eq!(imported.tables[0].columns[0].header, "Item no.");
}

/// A sheet as a workbook with merged cells gives it: each cell of a merged block holds its text.
#[test]
fn a_merged_header_keeps_dimensions_and_breaks_apart() {
    let rows = [
        [
            "Nordlager Handel — customer price list",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
        ],
        [
            "Prepared for the mill, 16 February 2026. Prices net, per piece.",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
        ],
        [
            "Item no.",
            "Designation",
            "Dimensions, mm",
            "Dimensions, mm",
            "Dimensions, mm",
            "Dimensions, mm",
            "Net price EUR each",
            "Net price EUR each",
            "Lead time",
        ],
        [
            "Item no.",
            "Designation",
            "Bore",
            "OD",
            "Width",
            "T",
            "1+",
            "10+",
            "Lead time",
        ],
        ["N1", "6305", "25", "62", "17", "", "4", "3.5", "2 days"],
        ["N2", "30205", "25", "52", "15", "16.25", "9", "8", "2 days"],
        [
            "Seals", "Seals", "Seals", "Seals", "Seals", "Seals", "Seals", "Seals", "Seals",
        ],
    ];
    let mut builder = GridBuilder::new(&"list.xlsx".into(), "Bearings");
    for (row, cells) in rows.iter().enumerate() {
        for (column, text) in cells.iter().enumerate() {
            builder
                .push(row as u32, column as u32, Cell::Text(text))
                .unwrap();
        }
    }
    let mut imported = Imported::default();
    imported.read_grid(&builder.finish().unwrap());
    imported.settle();
    let offers = &imported.records.offers;
    assert_eq!(offers.len(), 2, "{:?}", problems(&imported));
    assert_eq!(&*offers[0].supplier, "Nordlager Handel");
    let sizes: Vec<String> = offers.iter().map(|o| o.size.unwrap().to_string()).collect();
    // ISO 15: 6305 is 25 x 62 x 17; ISO 355: 30205 is 25 x 52 x 16.25.
    assert_eq!(sizes, ["25 x 62 x 17 mm", "25 x 52 x 16.25 mm"]);
    assert_eq!(cost_of_one(&offers[0]).as_deref(), Some("4.00 EUR"));
    assert_eq!(offers[0].breaks.len(), 2);
    assert_eq!(imported.tables[0].rows.headings, 1);
    assert_eq!(imported.tables[0].dated.unwrap().to_string(), "2026-02-16");
}

#[test]
fn a_contradiction_takes_no_size_and_says_both_sides() {
    let imported = parts(
        "A1;deep groove ball bearing;6207 2RS;35;72;18;;;;;;;;;\n\
         A2;deep groove ball bearing;6207 2RS;35;72;17;;;;;;;;;\n\
         A3;tapered roller bearing;6207 2RS;35;72;17;;;;;;;;;\n",
    );
    let records = &imported.records.parts;
    assert_eq!(size(&records[0]), None);
    assert_eq!(size(&records[1]).as_deref(), Some("35 x 72 x 17 mm"));
    assert_eq!((records[2].family, size(&records[2])), (None, None));
    assert!(
        problems(&imported)[0].ends_with(
            "dimensions 35 x 72 x 18 mm contradict designation `6207 2RS`, which is 35 x 72 x 17 mm; no size was taken"
        ),
        "{:?}",
        problems(&imported)
    );
}

#[test]
fn rounded_millimetres_join_the_inch_size_with_a_note() {
    let imported = parts(
        "A1;deep groove ball bearing;;9.525;22.23;5.556;;;;;;;;;\n\
         A2;deep groove ball bearing;R6 2Z;9.525;22.225;7.142;;;;;;;;;\n\
         A3;deep groove ball bearing;R8 2RS;12.7;28.575;7.938;;;;;;;;;\n\
         A4;deep groove ball bearing;R8;12.7;28.575;7.938;;;;;;2RS;;;\n\
         A5;deep groove ball bearing;R10 2Z;0.625;34.925;8.733;;;;;;;;;\n",
    );
    let records = &imported.records.parts;
    // ABMA 20: R6 is 3/8 x 7/8 x 7/32 in open and 9/32 in wide closed; R8 closed is 5/16 in wide.
    assert_eq!(
        size(&records[0]).as_deref(),
        Some("9.525 x 22.225 x 5.55625 mm")
    );
    assert!(records[0].size_notes[0].contains("22.23"));
    assert_eq!(
        size(&records[1]).as_deref(),
        Some("9.525 x 22.225 x 7.14375 mm")
    );
    for closed in &records[2..4] {
        assert_eq!(
            size(closed).as_deref(),
            Some("12.7 x 28.575 x 7.9375 mm"),
            "{}",
            closed.own_number
        );
        assert_eq!(closed.traits.closure, Some(Closure::SealBothSides));
    }
    assert_eq!(size(&records[4]), None, "inches in a millimetre column");
    assert_eq!(imported.issues.len(), 1, "{:?}", problems(&imported));
}

#[test]
fn inch_columns_read_fractions_and_decimals() {
    let list = offers(
        "Our P/N;Part;Bore (in);O.D. (in);Width (in);Unit price USD\n\
         T1;R8 2RS;1/2;\"1 1/8\"\"\";5/16;4.73\n\
         T2;R6 2Z;3/8;.875;.2812;3.82\n",
    );
    assert_eq!(
        list[0].size.unwrap().to_string(),
        "12.7 x 28.575 x 7.9375 mm"
    );
    assert_eq!(
        list[1].size.unwrap().to_string(),
        "9.525 x 22.225 x 7.14375 mm"
    );
    assert_eq!(list[0].supplier_number.as_deref(), Some("T1"));
    assert_eq!(cost_of_one(&list[0]).as_deref(), Some("4.73 USD"));
}

#[test]
fn the_width_of_a_cone_is_not_the_width_of_its_bearing() {
    let imported = parts(
        "A1;tapered roller bearing;30308;40;90;23;25.25;;;;;;;;\n\
         A2;tapered roller bearing;30308;40;90;23;;;;;;;;;\n\
         A3;tapered roller bearing;;40;90;23;;;;;;;;;\n\
         A4;tapered roller bearing;30308;40;90;33;;;;;;;;;\n",
    );
    let records = &imported.records.parts;
    // ISO 355: 30308 is 40 x 90 x 25.25, B 23.
    assert_eq!(size(&records[0]).as_deref(), Some("40 x 90 x 25.25 mm"));
    assert_eq!(size(&records[1]).as_deref(), Some("40 x 90 x 25.25 mm"));
    assert!(records[1].size_notes[0].contains("width of the cone"));
    assert_eq!((size(&records[2]), size(&records[3])), (None, None));
    let kinds: Vec<Severity> = imported.issues.iter().map(|issue| issue.severity).collect();
    assert_eq!(kinds, [Severity::Note, Severity::Doubtful]);
    assert!(matches!(
        imported.issues[0].problem,
        Problem::ConeWidthOnly { .. }
    ));
}

#[test]
fn a_designation_names_the_kind_where_words_name_the_genus() {
    let imported = parts(
        "A1;Combined needle roller / thrust ball bearing;NKX20;;;;;;;;;;;;\n\
         A2;thrust ball bearing;NKX20;;;;;;;;;;;;\n\
         A3;thrust ball bearing;51105;25;42;;;11;;;;;;;\n",
    );
    let families: Vec<Option<Family>> = imported.records.parts.iter().map(|p| p.family).collect();
    assert_eq!(
        families,
        [
            Some(Family::CombinedNeedleThrust),
            Some(Family::CombinedNeedleThrust),
            Some(Family::ThrustBall)
        ]
    );
    assert_eq!(problems(&imported), Vec::<String>::new());
}

#[test]
fn columns_speak_where_a_designation_only_leaves_a_suffix_out() {
    let imported = parts(
        "A1;deep groove ball bearing;6205;25;52;15;;;;;;2RS;C3;P6;\n\
         A2;deep groove ball bearing;6205-2Z C3;25;52;15;;;;;;2RS;C4;;\n\
         A3;deep groove ball bearing;6205;25;52;15;;;;;;;;;\n",
    );
    let traits = |at: usize| &imported.records.parts[at].traits;
    assert_eq!(traits(0).closure, Some(Closure::SealBothSides));
    assert_eq!(traits(0).clearance, Some(Clearance::C3));
    assert_eq!(traits(0).tolerance_class, Some(ToleranceClass::P6));
    assert_eq!((traits(1).closure, traits(1).clearance), (None, None));
    // ISO 5753-1 and ISO 492: an unmarked bearing is open, of clearance N and class Normal.
    assert_eq!(traits(2).closure, Some(Closure::Open));
    assert_eq!(traits(2).clearance, Some(Clearance::Normal));
    assert_eq!(imported.issues.len(), 2, "{:?}", problems(&imported));
}

#[test]
fn counts_and_headings_between_rows_are_no_parts() {
    let imported = import(&[(
        "parts.csv",
        "Part no;Type;Designation;Unit\n\
         A1;deep groove ball bearing;6205;pc\n\
         O-rings of NBR;;;\n\
         A2;deep groove ball bearing;6206;pc\n\
         Total;2;;\n\
         A3;;;\n",
    )]);
    let rows = imported.tables[0].rows;
    assert_eq!((rows.read, rows.headings, rows.totals), (3, 1, 1));
    let mut builder = GridBuilder::new(&"a.xlsx".into(), "A");
    for (column, text) in ["Part no", "Type", "Designation", "Unit"]
        .iter()
        .enumerate()
    {
        builder.push(0, column as u32, Cell::Text(text)).unwrap();
    }
    builder.push(1, 0, Cell::Text("A1")).unwrap();
    builder
        .push(2, 1, Cell::Text("Number of items, sheet 1"))
        .unwrap();
    builder.push(2, 3, Cell::Number(157.0)).unwrap();
    let mut counted = Imported::default();
    counted.read_grid(&builder.finish().unwrap());
    let rows = counted.tables[0].rows;
    assert_eq!((rows.read, rows.totals, rows.rejected), (1, 1, 0));
}

#[test]
fn a_span_that_became_a_date_is_no_lead_time() {
    let mut builder = GridBuilder::new(&"list.xlsx".into(), "Sheet1");
    let header = ["Item no", "Designation", "Price", "Lead time"];
    for (column, text) in header.iter().enumerate() {
        builder.push(0, column as u32, Cell::Text(text)).unwrap();
    }
    for row in 1..=6 {
        builder.push(row, 0, Cell::Text("N1")).unwrap();
        builder.push(row, 1, Cell::Text("6305")).unwrap();
        builder.push(row, 2, Cell::Number(4.0)).unwrap();
        let lead_time = if row == 3 {
            let day = chrono::NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();
            Cell::Date(day.and_hms_opt(0, 0, 0).unwrap())
        } else {
            Cell::Text("2-3 days")
        };
        builder.push(row, 3, lead_time).unwrap();
    }
    let mut imported = Imported::default();
    imported.read_grid(&builder.finish().unwrap());
    imported.settle();
    assert_eq!(imported.records.offers[2].lead_time, None);
    assert!(imported.records.offers[3].lead_time.is_some());
    let problems = problems(&imported);
    assert!(
        problems.len() == 1 && problems[0].contains("perhaps `2-3`"),
        "{problems:?}"
    );
}

#[test]
fn a_workbook_that_declares_too_much_is_not_opened() {
    // ZIP format, APPNOTE.TXT 6.3.9: a central directory of one entry of 3 GB, and its end.
    let mut entry = [0_u8; 46];
    entry[..4].copy_from_slice(b"PK\x01\x02");
    entry[24..28].copy_from_slice(&3_000_000_000_u32.to_le_bytes());
    let mut end = [0_u8; 22];
    end[..4].copy_from_slice(b"PK\x05\x06");
    end[12..16].copy_from_slice(&46_u32.to_le_bytes());
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(
        folder.path().join("bomb.xlsx"),
        [&entry[..], &end[..]].concat(),
    )
    .unwrap();
    std::fs::write(
        folder.path().join("stock.csv"),
        "Part no;Bin;On hand\nA1;B1;3\n",
    )
    .unwrap();
    let imported = read_folder(folder.path()).unwrap();
    assert_eq!(imported.records.stock.len(), 1);
    assert_eq!(
        imported.problems[0].reason.to_string(),
        "the workbook is not opened: it would unpack to 3000000000 bytes; at most 2147483648 are read"
    );
}

/// The mistakes planted in the demo shop, by file, sheet and cell, with words of what is said about them.
const PLANTED: [(&str, &str, &str, &str); 18] = [
    (
        "Lagerbestand_2026-03-06.xls",
        "Bestand",
        "F46",
        "`ca. 3` is not a number",
    ),
    (
        "Lagerbestand_2026-03-06.xls",
        "Bestand",
        "F55",
        "`-2` is out of range",
    ),
    (
        "ostrelby_price_list.xlsx",
        "Bearings",
        "Q25",
        "perhaps `2-3`",
    ),
    ("ostrelby_price_list.xlsx", "Bearings", "K53", "on request"),
    (
        "parts_master.xlsx",
        "Bearings",
        "E34",
        "which is 35 x 72 x 17 mm",
    ),
    ("parts_master.xlsx", "Bearings", "Y74", "#N/A"),
    (
        "parts_master.xlsx",
        "Bearings",
        "E80",
        "dimensions 62 x 25 x 17 mm contradict",
    ),
    (
        "parts_master.xlsx",
        "Bearings",
        "E143",
        "dimensions 0.625 x",
    ),
    (
        "parts_master.xlsx",
        "Bearings",
        "E167",
        "which is 30 x 72 x 19 mm",
    ),
    (
        "prix_courroux_2026.ods",
        "Tarif",
        "J18",
        "`-1240` is out of range",
    ),
    ("prix_courroux_2026.ods", "Tarif", "J41", "on request"),
    ("quotes_received.xlsx", "Quotes", "Q15", "on request"),
    ("approvals.csv", "", "F10", "is missing"),
    (
        "receipts.xlsx",
        "Order lines",
        "G41",
        "received on 2021-08-25",
    ),
    (
        "receipts.xlsx",
        "Order lines",
        "D121",
        "`4 pcs?` is not a number",
    ),
    ("usages_2021-2026.csv", "", "C203", "`two` is not a number"),
    ("usages_2021-2026.csv", "", "A706", "is not a date"),
    ("usages_2021-2026.csv", "", "C807", "is missing"),
];

#[test]
fn the_demo_shop_gives_its_planted_mistakes_and_no_others() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo");
    let imported = read_folder(&demo).unwrap();
    for (file, sheet, cell, words) in PLANTED {
        let is_said = imported.issues.iter().any(|issue| {
            (
                &*issue.place.file,
                &*issue.place.sheet,
                issue.place.cell().as_str(),
            ) == (file, sheet, cell)
                && issue.problem.to_string().contains(words)
        });
        assert!(is_said, "{file} {sheet} {cell}: {words}");
    }
    assert_eq!(
        imported.issues.len(),
        PLANTED.len(),
        "{:?}",
        problems(&imported)
    );
    let supplier_of = |file: &str| {
        imported
            .tables
            .iter()
            .filter(|table| &*table.file == file)
            .map(|table| table.supplier.as_deref().unwrap_or_default())
            .collect::<Vec<_>>()
    };
    for (file, supplier) in [
        ("restposten_pfennigring.csv", "Pfennigring Direkt"),
        ("prix_courroux_2026.ods", "Courroux Lamballais"),
        ("quote_tarnwick_2026-02-20.xlsx", "Tarnwick Fallow Supply"),
        (
            "angebot_strattwieser_26-0188.xlsx",
            "Mühlenbau Strattwieser",
        ),
        ("listino_guarniedda_2026.xlsx", "Guarniedda Tenute"),
        ("ostrelby_price_list.xlsx", "Ostrelby Bearing Counter"),
        (
            "preisliste_vossenkamper_2026.csv",
            "Vossenkamper Lagerkontor",
        ),
    ] {
        let found = supplier_of(file);
        assert!(
            !found.is_empty() && found.iter().all(|name| *name == supplier),
            "{file}: {found:?}"
        );
    }
}

#[test]
fn a_price_with_vat_is_taken_without_it_where_the_row_says_its_rate() {
    // Council Directive 2006/112/EC, article 78: the taxable amount is without the VAT itself, so that 119 at 19 % is 100.
    for (header, rate) in [
        ("MwSt %", "19"),
        ("MwSt-Satz", "19"),
        ("MwSt", "19 %"),
        ("VAT rate", "19%"),
    ] {
        let text = format!(
            "Artikelnummer;Bezeichnung;Preis EUR inkl. MwSt;{header}\nN-1;6205-2RS;119,00;{rate}\n"
        );
        let price = offers(&text)[0]
            .price
            .map(|price| price.cost_of(1.0).to_string());
        assert_eq!(price.as_deref(), Some("100.00 EUR"), "{header}");
    }
    // Net prices stay as they are.
    let net = offers("Artikelnummer;Bezeichnung;Preis EUR;MwSt %\nN-1;6205-2RS;100,00;19\n");
    assert_eq!(net[0].price.unwrap().cost_of(1.0).to_string(), "100.00 EUR");
}

#[test]
fn a_delivery_in_a_calendar_week_is_the_friday_of_the_week_after_the_lists_date() {
    // `date.fromisocalendar(2026, 14, 5)` of Python's standard library is 2026-04-03.
    let told = |text: &str| -> Vec<Option<String>> {
        let offers = offers(text);
        offers
            .iter()
            .map(|offer| offer.lead_time.map(|time| time.to_string()))
            .collect()
    };
    let by = |day: &str| Some(format!("by {day}"));
    let rows = "Artikelnummer;Bezeichnung;Preis EUR;Lieferzeit\nN-1;6205-2RS;1,50;KW 14\nN-2;6205-2RS;1,50;KW 14/2027\n";
    assert_eq!(
        told(&format!("Preisliste vom 02.03.2026\n\n{rows}")),
        [by("2026-04-03"), by("2027-04-09")]
    );
    assert_eq!(told(rows), [None, by("2027-04-09")]);
    let dated = "Artikelnummer;Bezeichnung;Preis EUR;Lieferzeit;Angebotsdatum\nN-1;6205-2RS;1,50;week 14;05.01.2026\nN-2;6205-2RS;1,50;week 14;05.11.2026\n";
    assert_eq!(told(dated), [by("2026-04-03"), by("2027-04-09")]);
}
