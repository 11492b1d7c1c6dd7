//! Why a part was used: words of seven languages, and words that only look like them.

use sparewright::import::value::read_reason;
use sparewright::record::UsageReason::{self, Failure, Planned, Rebuild};

/// Cases by language; what a word means is common practice, no source.
const CASES: [(&str, &str, Option<UsageReason>); 74] = [
    ("en", "rebuild", Some(Rebuild)),
    ("en", "Pump overhaul", Some(Rebuild)),
    ("en", "kit", Some(Rebuild)),
    ("en", "seal kit fitted", Some(Rebuild)),
    ("en", "breakdown", Some(Failure)),
    ("en", "Broken shaft", Some(Failure)),
    ("en", "failed in service", Some(Failure)),
    ("en", "failure", Some(Failure)),
    ("en", "unplanned stop", Some(Failure)),
    ("en", "not planned", Some(Failure)),
    ("en", "planned", Some(Planned)),
    ("en", "plan", Some(Planned)),
    ("en", "PM", Some(Planned)),
    ("en", "monthly PM", Some(Planned)),
    ("en", "preventive maintenance", Some(Planned)),
    ("en", "scheduled change", Some(Planned)),
    ("en", "500 h service", Some(Planned)),
    // A plant, equipment, a kitchen or a shipment says nothing of the reason.
    ("en", "plant 2", None),
    ("en", "equipment store", None),
    ("en", "kitchen fan", None),
    ("en", "shipment", None),
    ("en", "development", None),
    ("en", "explanation follows", None),
    ("en", "kitting room", None),
    ("en", "kitchen fan failed", Some(Failure)),
    ("en", "plant breakdown", Some(Failure)),
    ("en", "equipment overhaul", Some(Rebuild)),
    ("en", "lost", None),
    ("en", "", None),
    ("de", "Überholung", Some(Rebuild)),
    ("de", "Generalüberholung", Some(Rebuild)),
    ("de", "Revision", Some(Rebuild)),
    ("de", "Ausfall", Some(Failure)),
    ("de", "defekt", Some(Failure)),
    ("de", "Störung", Some(Failure)),
    ("de", "Lagerschaden", Some(Failure)),
    ("de", "ungeplant", Some(Failure)),
    ("de", "geplant", Some(Planned)),
    ("de", "planmäßig", Some(Planned)),
    ("de", "Wartung", Some(Planned)),
    ("de", "vorbeugend", Some(Planned)),
    ("de", "Verlust", None),
    ("fr", "révision", Some(Rebuild)),
    ("fr", "panne", Some(Failure)),
    ("fr", "défaillance", Some(Failure)),
    ("fr", "casse", Some(Failure)),
    ("fr", "arrêt non planifié", Some(Failure)),
    ("fr", "imprévu", Some(Failure)),
    ("fr", "entretien", Some(Planned)),
    ("fr", "planifié", Some(Planned)),
    ("fr", "programmé", Some(Planned)),
    ("fr", "maintenance préventive", Some(Planned)),
    ("es", "reconstrucción", Some(Rebuild)),
    ("es", "avería", Some(Failure)),
    ("es", "fallo", Some(Failure)),
    ("es", "rotura", Some(Failure)),
    ("es", "parada no planificada", Some(Failure)),
    ("es", "no programado", Some(Failure)),
    ("es", "planificado", Some(Planned)),
    ("es", "mantenimiento", Some(Planned)),
    ("es", "planta 2", None),
    ("it", "revisione", Some(Rebuild)),
    ("it", "guasto", Some(Failure)),
    ("it", "rottura", Some(Failure)),
    ("it", "manutenzione", Some(Planned)),
    ("pl", "remont", Some(Rebuild)),
    ("pl", "awaria", Some(Failure)),
    ("pl", "nieplanowane", Some(Failure)),
    ("pl", "planowane", Some(Planned)),
    ("pl", "zaplanowane", Some(Planned)),
    ("pl", "przegląd", Some(Planned)),
    ("pt", "avaria", Some(Failure)),
    ("pt", "manutenção", Some(Planned)),
    ("pt", "não planejado", Some(Failure)),
];

#[test]
fn reasons_are_told_by_whole_words_in_every_language() {
    let mut wrong = Vec::new();
    for (language, text, expected) in CASES {
        let found = read_reason(text);
        if found != expected {
            wrong.push(format!(
                "{language} `{text}`: {found:?} instead of {expected:?}"
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_look_of_a_reason_changes_nothing() {
    for (_, text, expected) in CASES {
        for look in [
            text.to_uppercase(),
            format!("  {text} "),
            format!("{text}!"),
            format!("({text})"),
        ] {
            assert_eq!(read_reason(&look), expected, "{look}");
        }
    }
}
