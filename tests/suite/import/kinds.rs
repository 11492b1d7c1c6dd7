//! Every kind of table is told by its headers in seven languages, whatever the file is called, and no column is lost.
//!
//! Headers as lists carry them: common practice, no source.

use sparewright::import::{Imported, read_folder};
use sparewright::record::TableKind;

/// Reads one list of a name that says nothing.
fn read(text: &str) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("list.csv"), text).unwrap();
    read_folder(folder.path()).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

/// The list is of this kind, its two rows are read, and every column has its field.
fn is(kind: TableKind, language: &str, fields: &[&str], text: &str) {
    let imported = read(text);
    let table = &imported.dry_run()[0];
    assert_eq!(table.kind, kind, "{language}: {text}");
    assert_eq!(
        (table.rows.read, table.rows.rejected),
        (2, 0),
        "{language}: {text}{:?}",
        imported.issues
    );
    let found: Vec<String> = table
        .columns
        .iter()
        .map(|column| {
            column.field.map_or_else(
                || format!("`{}` not read", column.header),
                |field| field.name().to_owned(),
            )
        })
        .collect();
    assert_eq!(found, fields, "{language}");
}

#[test]
fn parts() {
    let fields = ["part number", "designation", "description"];
    for (language, header) in [
        ("en", "Part no;Designation;Description"),
        ("de", "Teilenummer;Bezeichnung;Beschreibung"),
        ("fr", "Référence;Désignation;Description"),
        ("es", "Referencia;Designación;Descripción"),
        ("it", "Codice articolo;Designazione;Descrizione"),
        ("pl", "Numer części;Oznaczenie;Opis"),
        ("pt", "Código da peça;Designação;Descrição"),
    ] {
        let text = format!("{header}\nB-1;6205-2RS;fan, drive side\nB-2;6308;crusher\n");
        is(TableKind::Parts, language, &fields, &text);
    }
}

#[test]
fn suppliers() {
    let fields = ["supplier", "approved", "freight"];
    for (language, header, yes, no) in [
        ("en", "Supplier;Approved;Freight", "yes", "no"),
        ("de", "Lieferant;Freigegeben;Fracht", "ja", "nein"),
        ("fr", "Fournisseur;Agréé;Port", "oui", "non"),
        ("es", "Proveedor;Aprobado;Portes", "sí", "no"),
        ("it", "Fornitore;Approvato;Trasporto", "sì", "no"),
        ("pl", "Dostawca;Zatwierdzony;Transport", "tak", "nie"),
        ("pt", "Fornecedor;Aprovado;Frete", "sim", "não"),
    ] {
        let text = format!("{header}\nMarlow;{yes};12\nRuiz;{no};8\n");
        is(TableKind::Suppliers, language, &fields, &text);
        let approved: Vec<Option<bool>> = read(&text)
            .records
            .suppliers
            .iter()
            .map(|of| of.is_approved)
            .collect();
        assert_eq!(approved, [Some(true), Some(false)], "{language}");
    }
}

#[test]
fn offers() {
    let fields = ["supplier", "part number", "price", "lead time"];
    for (language, header, days, weeks) in [
        (
            "en",
            "Supplier;Part no;Price EUR;Lead time",
            "3 days",
            "2 weeks",
        ),
        (
            "de",
            "Lieferant;Teilenummer;Preis EUR;Lieferzeit",
            "3 Tage",
            "2 Wochen",
        ),
        (
            "fr",
            "Fournisseur;Référence;Prix EUR;Délai",
            "3 jours",
            "2 semaines",
        ),
        (
            "es",
            "Proveedor;Referencia;Precio EUR;Plazo de entrega",
            "3 días",
            "2 semanas",
        ),
        (
            "it",
            "Fornitore;Codice articolo;Prezzo EUR;Tempo di consegna",
            "3 giorni",
            "2 settimane",
        ),
        (
            "pl",
            "Dostawca;Numer części;Cena EUR;Czas dostawy",
            "3 dni",
            "2 tygodnie",
        ),
        (
            "pt",
            "Fornecedor;Código da peça;Preço EUR;Prazo de entrega",
            "3 dias",
            "2 semanas",
        ),
    ] {
        let text = format!("{header}\nMarlow;B-1;4,20;{days}\nMarlow;B-2;14,20;{weeks}\n");
        is(TableKind::Offers, language, &fields, &text);
        let offers = read(&text).records.offers;
        let prices: Vec<f64> = offers
            .iter()
            .map(|offer| offer.price.unwrap().unit_price())
            .collect();
        assert!(
            (prices[0] - 4.2).abs() < 1e-9 && (prices[1] - 14.2).abs() < 1e-9,
            "{language}: {prices:?}"
        );
        assert!(
            offers.iter().all(|offer| offer.lead_time.is_some()),
            "{language}"
        );
    }
}

#[test]
fn stock() {
    let fields = ["part number", "bin", "on hand"];
    for (language, header) in [
        ("en", "Part no;Bin;On hand"),
        ("de", "Teilenummer;Lagerplatz;Bestand"),
        ("fr", "Référence;Emplacement;Stock"),
        ("es", "Referencia;Ubicación;Existencias"),
        ("it", "Codice articolo;Ubicazione;Giacenza"),
        ("pl", "Numer części;Lokalizacja;Stan"),
        ("pt", "Código da peça;Localização;Estoque"),
    ] {
        is(
            TableKind::Stock,
            language,
            &fields,
            &format!("{header}\nB-1;R-01;3\nB-2;R-02;0\n"),
        );
    }
}

#[test]
fn usages() {
    let fields = ["date", "part number", "quantity", "machine"];
    for (language, header, first, second) in [
        (
            "en",
            "Date;Part no;Quantity;Machine",
            "2025-03-01",
            "2025-06-21",
        ),
        (
            "de",
            "Datum;Teilenummer;Menge;Maschine",
            "01.03.2025",
            "21.06.2025",
        ),
        (
            "fr",
            "Date;Référence;Quantité;Machine",
            "01/03/2025",
            "21/06/2025",
        ),
        (
            "es",
            "Fecha;Referencia;Cantidad;Máquina",
            "01/03/2025",
            "21/06/2025",
        ),
        (
            "it",
            "Data;Codice articolo;Quantità;Macchina",
            "01/03/2025",
            "21/06/2025",
        ),
        (
            "pl",
            "Data;Numer części;Ilość;Maszyna",
            "01.03.2025",
            "21.06.2025",
        ),
        (
            "pt",
            "Data;Código da peça;Quantidade;Máquina",
            "01/03/2025",
            "21/06/2025",
        ),
    ] {
        let text = format!("{header}\n{first};B-1;1;Fan\n{second};B-2;2;Crusher\n");
        is(TableKind::Usages, language, &fields, &text);
        let days: Vec<String> = read(&text)
            .records
            .usages
            .iter()
            .map(|of| of.date.to_string())
            .collect();
        assert_eq!(days, ["2025-03-01", "2025-06-21"], "{language}");
    }
}

#[test]
fn receipts() {
    let fields = ["supplier", "part number", "ordered", "promised", "received"];
    for (language, header, sign) in [
        ("en", "Supplier;Part no;Ordered;Promised;Received", "."),
        (
            "de",
            "Lieferant;Teilenummer;Bestellt am;Zugesagt;Eingang am",
            ".",
        ),
        (
            "fr",
            "Fournisseur;Référence;Date de commande;Date promise;Date de réception",
            "/",
        ),
        (
            "es",
            "Proveedor;Referencia;Fecha de pedido;Fecha prometida;Fecha de recepción",
            "/",
        ),
        (
            "it",
            "Fornitore;Codice articolo;Data ordine;Data promessa;Data ricevimento",
            "/",
        ),
        (
            "pl",
            "Dostawca;Numer części;Data zamówienia;Data obiecana;Data przyjęcia",
            ".",
        ),
        (
            "pt",
            "Fornecedor;Código da peça;Data do pedido;Data prometida;Data de recebimento",
            "/",
        ),
    ] {
        let day = |day: &str, month: &str| [day, month, "2025"].join(sign);
        let (ordered, promised, received) = (day("01", "02"), day("15", "02"), day("20", "02"));
        let text = format!(
            "{header}\nMarlow;B-1;{ordered};{promised};{received}\nMarlow;B-2;{};{};\n",
            day("01", "03"),
            day("15", "03")
        );
        is(TableKind::Receipts, language, &fields, &text);
        let receipts = read(&text).records.receipts;
        assert_eq!(
            receipts[0].received.map(|day| day.to_string()).as_deref(),
            Some("2025-02-20"),
            "{language}"
        );
        assert_eq!(
            receipts[1].received, None,
            "{language}: an order that is open"
        );
    }
}

#[test]
fn kit_lines() {
    let fields = ["kit", "line", "part number", "quantity"];
    for (language, header) in [
        ("en", "Kit;Line;Part no;Quantity"),
        ("de", "Baugruppe;Position;Teilenummer;Menge"),
        ("fr", "Kit;Ligne;Référence;Quantité"),
        ("es", "Kit;Línea;Referencia;Cantidad"),
        ("it", "Kit;Riga;Codice articolo;Quantità"),
        ("pl", "Zestaw;Pozycja;Numer części;Ilość"),
        ("pt", "Kit;Linha;Código da peça;Quantidade"),
    ] {
        is(
            TableKind::KitLines,
            language,
            &fields,
            &format!("{header}\nShaft;10;B-1;2\nShaft;20;B-2;1\n"),
        );
    }
}

#[test]
fn tasks() {
    let fields = ["kit", "task", "hours", "predecessors"];
    for (language, header) in [
        ("en", "Kit;Task;Hours;Predecessors"),
        ("de", "Baugruppe;Arbeitsschritt;Stunden;Vorgänger"),
        ("fr", "Kit;Tâche;Heures;Prédécesseurs"),
        ("es", "Kit;Tarea;Horas;Predecesores"),
        ("it", "Kit;Attività;Ore;Predecessori"),
        ("pl", "Zestaw;Zadanie;Godziny;Poprzednicy"),
        ("pt", "Kit;Tarefa;Horas;Predecessores"),
    ] {
        let text = format!("{header}\nShaft;strip;3;\nShaft;fit;4;strip\n");
        is(TableKind::Tasks, language, &fields, &text);
        let tasks = read(&text).records.tasks;
        assert_eq!(tasks[1].predecessors, ["strip"], "{language}");
    }
}

#[test]
fn machines() {
    for (language, header) in [
        ("en", "Machine;Installed;Downtime cost EUR/h;Criticality"),
        ("de", "Maschine;Anzahl;Stillstandskosten EUR/h;Kritikalität"),
        ("fr", "Machine;Nombre;Coût arrêt EUR/h;Criticité"),
        ("es", "Máquina;Instaladas;Coste de parada EUR/h;Criticidad"),
        ("it", "Macchina;Installate;Costo fermo EUR/h;Criticità"),
        ("pl", "Maszyna;Liczba;Koszt postoju EUR/h;Krytyczność"),
        ("pt", "Máquina;Instaladas;Custo de parada EUR/h;Criticidade"),
    ] {
        let text = format!("{header}\nFan;2;120;A\nCrusher;1;300;B\n");
        let machines = read(&text).records.machines;
        let told: Vec<(String, Option<f64>, Option<String>)> = machines
            .iter()
            .map(|of| {
                (
                    of.machine.clone(),
                    of.downtime_cost_per_hour
                        .map(|cost| cost.cents as f64 / 100.0),
                    of.criticality.clone(),
                )
            })
            .collect();
        let expected = [("Fan", 120.0, "A"), ("Crusher", 300.0, "B")];
        for (found, (machine, cost, criticality)) in told.iter().zip(expected) {
            assert_eq!(found.0, machine, "{language}");
            assert_eq!(found.1, Some(cost), "{language}");
            assert_eq!(found.2.as_deref(), Some(criticality), "{language}");
        }
        assert_eq!(told.len(), 2, "{language}");
    }
}

#[test]
fn approvals_and_rebuilds() {
    let fields = [
        "kit",
        "line",
        "substitute",
        "approved by",
        "outcome",
        "date",
    ];
    for (language, header, outcome, day) in [
        (
            "en",
            "Kit;Line;Substitute;Approved by;Outcome;Date",
            "approved",
            "2025-01-10",
        ),
        (
            "de",
            "Baugruppe;Position;Ersatz;Freigegeben von;Ergebnis;Datum",
            "freigegeben",
            "10.01.2025",
        ),
    ] {
        let text = format!(
            "{header}\nShaft;10;6308 C3;Ruiz;{outcome};{day}\nShaft;20;6205;Ruiz;{outcome};{day}\n"
        );
        is(TableKind::Approvals, language, &fields, &text);
    }
    for (language, header, day) in [
        ("en", "Kit;Planned date", "2027-01-18"),
        ("de", "Baugruppe;Geplant am", "18.01.2027"),
        ("fr", "Kit;Date prévue", "18/01/2027"),
    ] {
        let rebuilds = read(&format!("{header}\nShaft;{day}\nFan;{day}\n"))
            .records
            .planned_rebuilds;
        let days: Vec<String> = rebuilds.iter().map(|of| of.date.to_string()).collect();
        assert_eq!(days, ["2027-01-18"; 2], "{language}");
    }
}

#[test]
fn one_file_of_each_kind_is_a_shop_whatever_their_names() {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in [
        ("a.csv", "Part no;Designation\nB-1;6205\nB-2;6308\n"),
        ("b.csv", "Supplier;Approved\nMarlow;yes\n"),
        (
            "c.csv",
            "Supplier;Part no;Price EUR;Lead time\nMarlow;B-1;4.20;3 days\n",
        ),
        ("d.csv", "Part no;Bin;On hand\nB-1;R-01;3\n"),
        (
            "e.csv",
            "Date;Part no;Quantity;Machine\n2025-03-01;B-1;1;Fan\n",
        ),
        ("f.csv", "Kit;Line;Part no;Quantity\nShaft;10;B-1;2\n"),
        ("g.csv", "Kit;Task;Hours;Predecessors\nShaft;strip;3;\n"),
        (
            "h.csv",
            "Machine;Installed;Downtime cost EUR/h\nFan;2;120\n",
        ),
    ] {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    let imported = read_folder(folder.path()).unwrap();
    let kinds: Vec<TableKind> = imported.dry_run().iter().map(|table| table.kind).collect();
    assert_eq!(
        kinds,
        [
            TableKind::Parts,
            TableKind::Suppliers,
            TableKind::Offers,
            TableKind::Stock,
            TableKind::Usages,
            TableKind::KitLines,
            TableKind::Tasks,
            TableKind::Machines,
        ]
    );
    assert!(imported.problems.is_empty(), "{:?}", imported.problems);
}

#[test]
fn the_delivery_date_of_an_order_is_the_day_it_was_promised_for() {
    // `Liefertermin` is what German order confirmations call that day. Common practice, no source.
    let promised = |header: &str| {
        let imported = read(&format!(
            "Lieferant;Teilenr.;Menge;Bestelldatum;{header};Wareneingang\n\
             Nord;BF-1;2;05.03.2024;12.03.2024;15.03.2024\nNord;BF-1;2;05.04.2024;;\n"
        ));
        let receipts = &imported.records.receipts;
        let dates = receipts
            .iter()
            .map(|order| order.promised.map(|day| day.to_string()));
        dates.collect::<Vec<_>>()
    };
    for header in ["Liefertermin", "zugesagt"] {
        assert_eq!(
            promised(header),
            [Some("2024-03-12".to_owned()), None],
            "{header}"
        );
    }
    // Where a table has both, the promise counts, and the other day only where there is none.
    let both = read(
        "Lieferant;Teilenr.;Menge;Bestelldatum;Liefertermin;zugesagt\n\
         Nord;BF-1;2;05.03.2024;20.03.2024;12.03.2024\nNord;BF-1;2;05.04.2024;20.04.2024;\n",
    );
    let days: Vec<String> = both
        .records
        .receipts
        .iter()
        .map(|order| order.promised.unwrap().to_string())
        .collect();
    assert_eq!(days, ["2024-03-12", "2024-04-20"]);
}
