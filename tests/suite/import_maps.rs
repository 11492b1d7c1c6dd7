//! Meanings of columns that people give, the dry run that shows them, and the evidence of standard sizes.
//!
//! Layouts are common practice, no source.

use sparewright::import::{Field, ImportOptions, Imported, read_folder_with};
use sparewright::record::TableKind;

const LIST: &str =
    "Nr.;Netto EK;Basis;Was\nN1;4,50;x;Rillenkugellager 6206\nN2;5,25;y;Rillenkugellager 6207\n";

fn import(files: &[(&str, &str)], options: &ImportOptions) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    std::fs::write(
        folder.path().join("stock.csv"),
        "Part no;Bin;On hand\nA1;B1;3\n",
    )
    .unwrap();
    read_folder_with(folder.path(), options).unwrap()
}

fn options(maps: &[&str]) -> ImportOptions {
    ImportOptions {
        maps: maps.iter().map(|map| map.parse().unwrap()).collect(),
    }
}

fn prices(imported: &Imported) -> Vec<Option<String>> {
    imported
        .records
        .offers
        .iter()
        .map(|offer| offer.price.map(|price| price.cost_of(1.0).to_string()))
        .collect()
}

#[test]
fn a_given_mapping_reads_a_list_that_no_word_explains() {
    let none = import(&[("nordlager.csv", LIST)], &ImportOptions::default());
    assert_eq!(none.records.offers.len(), 0);
    let maps = ["nord*.csv!Netto EK=price", "nord*.csv!$D=description"];
    let given = import(&[("nordlager.csv", LIST)], &options(&maps));
    let expected = [Some("4.50 EUR".to_owned()), Some("5.25 EUR".to_owned())];
    assert_eq!(prices(&given), expected);
    // Another file of the same headers is not meant.
    let other = import(&[("sudlager.csv", LIST)], &options(&maps));
    assert_eq!(other.records.offers.len(), 0);
    // What was used is remembered for tables of the same shape, whatever their name.
    let remembered = ImportOptions {
        maps: given.used_maps.clone(),
    };
    assert_eq!(remembered.maps.len(), 2);
    let next = import(&[("liste_2027.csv", LIST)], &remembered);
    assert_eq!(prices(&next), expected);
    let other_shape = LIST.replace("Basis", "Menge");
    let next = import(&[("liste_2027.csv", &other_shape)], &remembered);
    assert_eq!(next.records.offers.len(), 0);
}

#[test]
fn a_given_mapping_wins_over_words_and_can_leave_a_column_out() {
    let list = "Part no;Supplier;Price;List price;Lead time (days)\nA1;Nord;4.50;6.00;3\n";
    let plain = import(&[("a.csv", list)], &ImportOptions::default());
    assert_eq!(prices(&plain), [Some("4.50 EUR".to_owned())]);
    let swapped = import(&[("a.csv", list)], &options(&["List price=price"]));
    assert_eq!(prices(&swapped), [Some("6.00 EUR".to_owned())]);
    let without = import(&[("a.csv", list)], &options(&["price=-", "LIST PRICE=-"]));
    assert_eq!(prices(&without), [None]);
    assert_eq!(without.used_maps.len(), 2);
}

#[test]
fn letters_of_a_column_can_mean_any_table_of_any_sheet() {
    // Two lists below each other that no word explains.
    let second = "Zeichen;VK neu;Farbe;Text\nN8;7,50;x;Rillenkugellager 6206\nN9;5,25;y;Rillenkugellager 6207\n";
    let both = format!("{LIST}\n{second}");
    let maps = [
        "$B=price",
        "$D=description",
        "two.csv!$B#2=price",
        "$D#2=description",
    ];
    let given = import(&[("two.csv", &both)], &options(&maps));
    let price = |text: &str| Some(format!("{text} EUR"));
    let all = [price("4.50"), price("5.25"), price("7.50"), price("5.25")];
    assert_eq!(prices(&given), all);
    assert_eq!(given.unused_maps(), []);
    let numbers: Vec<u32> = given
        .dry_run()
        .iter()
        .filter(|table| table.file == "two.csv")
        .map(|table| table.table)
        .collect();
    assert_eq!(numbers, [1, 2]);
    // What was used is remembered for the second table by itself.
    let remembered = ImportOptions {
        maps: given.used_maps.clone(),
    };
    let next = import(&[("next.csv", &both)], &remembered);
    assert_eq!(prices(&next), all);
    let alone = import(&[("alone.csv", second)], &remembered);
    assert_eq!(prices(&alone), all[2..]);
    // Without a number the first table is meant: nothing tells the second header from a row then.
    let first = import(&[("two.csv", &both)], &options(&maps[..2]));
    let tables = first.dry_run().into_iter();
    assert_eq!(tables.filter(|table| table.file == "two.csv").count(), 1);
}

#[test]
fn a_mapping_that_no_table_has_a_column_for_is_told() {
    let maps = [
        "nord*.csv!Netto EK=price",
        "$D=description",
        "Netto VK=price",
        "!Offers!$B=price",
        "Basis=-",
    ];
    let given = import(&[("nordlager.csv", LIST)], &options(&maps));
    let unused: Vec<String> = given
        .unused_maps()
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(unused, ["Netto VK=price", "!Offers!$B=price"]);
}

#[test]
fn a_dry_run_shows_every_column_with_its_evidence_and_values() {
    let list = "Part no;Type;A;B;C;Farbe;\n\
                P1;Deep groove ball bearing;30;62;16;rot;7\n\
                P2;Deep groove ball bearing;25;62;17;rot;8\n\
                P3;Deep groove ball bearing;35;72;17;blau;9\n\
                P4;Deep groove ball bearing;31;63;17;grau;9\n";
    let imported = import(&[("parts.csv", list)], &options(&["Farbe=note"]));
    let run = imported.dry_run();
    let table = run.iter().find(|table| table.file == "parts.csv").unwrap();
    assert_eq!(table.kind, TableKind::Parts);
    assert_eq!(table.kinds[0].kind, TableKind::Parts);
    assert!(
        table.kinds[0].reasons.contains(&"type +1".to_owned()),
        "{:?}",
        table.kinds
    );
    let shown: Vec<String> = table
        .columns
        .iter()
        .map(|column| {
            let field = column.field.map_or("-", Field::code);
            format!(
                "{} {} {field} ({}) {}",
                column.letters,
                column.header,
                column.evidence,
                column.samples.join(" ")
            )
        })
        .collect();
    assert_eq!(
        shown,
        [
            "A Part no part_number (known word) P1 P2 P3",
            "B Type type (known word) Deep groove ball bearing",
            "C A bore (by its values: 3 of 4 fit) 30 25 35",
            "D B outside_diameter (by its values: 3 of 4 fit) 62 72 63",
            "E C width (by its values: 3 of 4 fit) 16 17",
            "F Farbe - (of no use to this table) rot blau grau",
            "G  - (no header) 7 8 9",
        ]
    );
}

#[test]
fn portuguese_lists_are_read_word_by_word() {
    // Words of Portuguese and Brazilian trade, common practice, from memory.
    let list = "Referência do fornecedor;Descrição;Furo;Diâmetro externo;Largura;Preço de tabela (EUR);Desconto;Quantidade mínima;Prazo de entrega (dias úteis);Validade\n\
                F-1;Rolamento rígido de esferas;30;62;16;10,00;25 %;5;8;31.12.2026\n";
    let imported = import(&[("rolamentos_norte.csv", list)], &ImportOptions::default());
    let offer = &imported.records.offers[0];
    assert_eq!(offer.supplier_number.as_deref(), Some("F-1"));
    assert_eq!(offer.size.unwrap().to_string(), "30 x 62 x 16 mm");
    assert_eq!(prices(&imported), [Some("7.50 EUR".to_owned())]);
    assert_eq!(offer.minimum_quantity, Some(5.0));
    assert_eq!(offer.lead_time.unwrap().to_string(), "8 working days");
    assert_eq!(offer.valid_until.unwrap().to_string(), "2026-12-31");
    assert_eq!(imported.issues.len(), 0, "{:?}", imported.issues);
    let stock =
        "Código interno;Prateleira;Estoque;Reservado;Data da contagem\nA-1;R1;4;1;02.03.2026\n";
    let imported = import(&[("estoque.csv", stock)], &ImportOptions::default());
    let row = &imported.records.stock[0];
    assert_eq!((row.on_hand, row.reserved), (Some(4.0), Some(1.0)));
    assert_eq!(row.counted_on.unwrap().to_string(), "2026-03-02");
}
