//! Words that stand for a choice, for a total or for nothing.

use sparewright::import::value::{
    is_count_word, is_placeholder, is_total_word, read_condition, read_flag, read_outcome,
    read_reason, read_way_kind,
};
use sparewright::record::{ApprovalOutcome, Condition, OtherWayKind, UsageReason};

#[test]
fn yes_and_no_are_known_in_seven_languages_and_nothing_is_guessed() {
    for (yes, no) in [
        ("yes", "no"),
        ("ja", "nein"),
        ("oui", "non"),
        ("sí", "no"),
        ("sì", "no"),
        ("tak", "nie"),
        ("sim", "não"),
        ("TRUE", "FALSE"),
        ("✓", "✗"),
        ("1", "0"),
    ] {
        assert_eq!(read_flag(yes), Some(true), "{yes}");
        assert_eq!(read_flag(no), Some(false), "{no}");
    }
    for text in ["", "maybe", "2", "yes?no", "pending", "-"] {
        assert_eq!(read_flag(text), None, "{text}");
    }
}

#[test]
fn conditions_are_known_in_seven_languages() {
    use Condition::{New, Reconditioned, Used};
    for (new, reconditioned, used) in [
        ("new", "reconditioned", "used"),
        ("neu", "aufgearbeitet", "gebraucht"),
        ("neuf", "reconditionné", "d'occasion"),
        ("nuevo", "reacondicionado", "usado"),
        ("nuovo", "ricondizionato", "usato"),
        ("nowy", "regenerowany", "używany"),
        ("novo", "recondicionado", "usado"),
    ] {
        assert_eq!(read_condition(new), Some(New), "{new}");
        assert_eq!(
            read_condition(reconditioned),
            Some(Reconditioned),
            "{reconditioned}"
        );
        assert_eq!(read_condition(used), Some(Used), "{used}");
    }
    for text in ["", "as new", "fair", "nearly new", "B-stock"] {
        assert_eq!(read_condition(text), None, "{text}");
    }
}

#[test]
fn outcomes_of_trials_are_known_in_seven_languages() {
    use ApprovalOutcome::{Approved, DidNotFit};
    for (approved, refused) in [
        ("approved", "did not fit"),
        ("freigegeben", "passt nicht"),
        ("approuvé", "ne convient pas"),
        ("aprobado", "no encaja"),
        ("approvato", "non va bene"),
        ("zatwierdzony", "nie pasuje"),
        ("aprovado", "não serve"),
    ] {
        assert_eq!(read_outcome(approved), Some(Approved), "{approved}");
        assert_eq!(read_outcome(refused), Some(DidNotFit), "{refused}");
        assert_eq!(
            read_outcome(&format!("tried, {refused}")),
            Some(DidNotFit),
            "{refused}"
        );
        // Consent is the whole text: with words around it, it may be taken back by them.
        assert_eq!(
            read_outcome(&format!("{approved} perhaps")),
            None,
            "{approved}"
        );
    }
}

#[test]
fn reasons_of_usages_are_known_in_seven_languages() {
    use UsageReason::{Failure, Planned, Rebuild};
    for (failure, planned, rebuild) in [
        ("breakdown", "preventive maintenance", "rebuild"),
        ("Ausfall", "Wartung", "Überholung"),
        ("panne", "entretien", "révision"),
        ("avería", "mantenimiento programado", "revisión"),
        ("guasto", "manutenzione", "revisione"),
        ("awaria", "przegląd", "remont"),
        ("avaria", "manutenção", "revisão"),
    ] {
        assert_eq!(read_reason(failure), Some(Failure), "{failure}");
        assert_eq!(read_reason(planned), Some(Planned), "{planned}");
        assert_eq!(read_reason(rebuild), Some(Rebuild), "{rebuild}");
    }
    assert_eq!(read_reason("unplanned"), Some(Failure));
    assert_eq!(read_reason("who knows"), None);
}

#[test]
fn ways_other_than_buying_are_known_in_seven_languages() {
    use OtherWayKind::{MakeInHouse, OtherBin, OtherMachine, RepairOutside, ReworkInHouse};
    for (make, rework, repair, bin, machine) in [
        (
            "make in house",
            "rework",
            "repair outside",
            "other bin",
            "other machine",
        ),
        (
            "Eigenfertigung",
            "Nacharbeit",
            "Reparatur",
            "anderes Lager",
            "andere Maschine",
        ),
        (
            "fabrication",
            "retouche",
            "réparation",
            "autre magasin",
            "autre machine",
        ),
        (
            "fabricar",
            "retrabajo",
            "reparación",
            "otro almacén",
            "otra máquina",
        ),
        (
            "produzione interna",
            "rilavorazione",
            "riparazione",
            "altro magazzino",
            "altra macchina",
        ),
        (
            "wykonanie",
            "przeróbka",
            "naprawa",
            "inny magazyn",
            "inna maszyna",
        ),
        (
            "fabrico",
            "retrabalho",
            "reparação",
            "outro armazém",
            "outra máquina",
        ),
    ] {
        for (text, kind) in [
            (make, MakeInHouse),
            (rework, ReworkInHouse),
            (repair, RepairOutside),
            (bin, OtherBin),
            (machine, OtherMachine),
        ] {
            assert_eq!(read_way_kind(text), Some(kind), "{text}");
        }
    }
    assert_eq!(read_way_kind("magic"), None);
}

#[test]
fn rows_of_totals_are_known_in_seven_languages_and_parts_are_none() {
    for text in [
        "Total",
        "Subtotal",
        "Grand total",
        "Sum:",
        "Summe",
        "Zwischensumme",
        "Gesamtsumme",
        "Totaux",
        "Sous-total",
        "Suma",
        "Totale",
        "Somma",
        "Razem",
        "Podsuma",
        "Soma",
        "Σ",
        "TOTAL EUR",
    ] {
        assert!(is_total_word(text), "{text}");
    }
    for text in [
        "",
        "6305",
        "Totaliser spring",
        "Seal 40x62",
        "Gasket",
        "Sommer",
        "Pump",
        "Ring",
        "Zahnrad",
    ] {
        assert!(!is_total_word(text), "{text}");
    }
    for text in [
        "Number of items",
        "Anzahl",
        "Nombre d'articles",
        "Liczba pozycji",
    ] {
        assert!(is_count_word(text), "{text}");
    }
    for text in ["6305", "Counter bore", "Ring"] {
        assert!(!is_count_word(text), "{text}");
    }
}

#[test]
fn placeholders_say_nothing_and_values_are_never_taken_for_one() {
    for text in [
        "-",
        "--",
        "—",
        "?",
        "...",
        "n/a",
        "N/A",
        "n.a.",
        "k.A.",
        "keine",
        "unbekannt",
        "inconnu",
        "brak",
        "n.d.",
        "null",
    ] {
        assert!(is_placeholder(text), "{text}");
    }
    for text in [
        "0", "1", "x", "✓", "✗", "NBR", "NU205", "NA4905", "no", "nein", "in stock", "black", "K",
        "\"",
    ] {
        assert!(!is_placeholder(text), "{text}");
    }
}
