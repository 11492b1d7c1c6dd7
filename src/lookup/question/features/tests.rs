//! Features named in words.

use super::*;

fn read(text: &str) -> Question {
    Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

#[test]
fn closures_in_words_are_those_of_the_suffixes() {
    use Closure as C;
    // DIN 623-1: Z and RS on one side, 2Z and 2RS on both, RZ without contact.
    for (text, closure) in [
        ("6206 sealed one side", C::SealOneSide),
        ("6206 sealed on one side only", C::SealOneSide),
        ("6206 one side sealed", C::SealOneSide),
        ("6206 with one rubber seal", C::SealOneSide),
        ("6206 seal on one side", C::SealOneSide),
        ("6206 einseitig abgedichtet", C::SealOneSide),
        ("6206 shielded one side", C::ShieldOneSide),
        ("6206 one shield", C::ShieldOneSide),
        ("6206 eine Deckscheibe", C::ShieldOneSide),
        ("6206 with rubber seals", C::SealBothSides),
        ("6206 two seals", C::SealBothSides),
        ("6206 sealed both sides", C::SealBothSides),
        ("6206 sealed at both ends", C::SealBothSides),
        ("6206 double sealed C3", C::SealBothSides),
        ("6206 beidseitig abgedichtet", C::SealBothSides),
        ("6206 abgedichtet", C::SealBothSides),
        ("6206 shields", C::ShieldBothSides),
        ("6206 2 shields", C::ShieldBothSides),
        ("6206 non-contact seals", C::LowFrictionSealBothSides),
        ("6206 without seals", C::Open),
        ("6206 not sealed", C::Open),
        ("30 x 62 x 16 deep groove sealed one side", C::SealOneSide),
        ("30 x 62 x 16 sealed one side", C::SealOneSide),
        // Sheet metal makes a shield, rubber a seal: common practice, no source.
        ("6206 steel shields both sides", C::ShieldBothSides),
        ("6206 metal shield both sides", C::ShieldBothSides),
        ("6206 metal cover on one side", C::ShieldOneSide),
        ("6206 both sides rubber covers", C::SealBothSides),
        ("6206 one rubber seal", C::SealOneSide),
        ("6206 two contact seals", C::SealBothSides),
        ("6206 2 seals both sides", C::SealBothSides),
        ("6206 rubber both sides", C::SealBothSides),
        ("6206 metal both sides", C::ShieldBothSides),
        ("6206 double-shielded", C::ShieldBothSides),
        ("6206 non contact seals", C::LowFrictionSealBothSides),
        ("6206 beidseitig Blechscheibe", C::ShieldBothSides),
        ("6206 eine Gummidichtung", C::SealOneSide),
        ("6206 Deckscheiben aus Blech", C::ShieldBothSides),
        (
            "6206 berührungslose Dichtungen",
            C::LowFrictionSealBothSides,
        ),
        ("6206 schleifende Dichtungen beidseitig", C::SealBothSides),
        ("6206 étanche des deux côtés", C::SealBothSides),
        ("6206 deux flasques métalliques", C::ShieldBothSides),
        ("6206 un joint caoutchouc", C::SealOneSide),
        ("6206 blindado ambos lados", C::ShieldBothSides),
        ("6206 dos tapas de goma", C::SealBothSides),
        ("6206 without metal shields", C::Open),
        ("6206 ohne Deckscheiben", C::Open),
        ("6206 open", C::Open),
        ("6206 beidseits abgedichtet", C::SealBothSides),
        ("6206 abgedichtet beidseits", C::SealBothSides),
        ("6206 einfach abgedichtet", C::SealOneSide),
        ("6206 con doble sello", C::SealBothSides),
        ("6206 blindé", C::ShieldBothSides),
        ("6206 low friction seals", C::LowFrictionSealBothSides),
        ("6206-Z one side open", C::ShieldOneSide),
        ("6206 RS one side", C::SealOneSide),
    ] {
        let question = read(text);
        assert_eq!(question.traits.closure, Some(closure), "{text}");
        assert!(
            question.not_understood.is_empty(),
            "{text}: {:?}",
            question.not_understood
        );
    }
}

#[test]
fn what_leaves_a_side_open_or_contradicts_the_number_is_told() {
    for (text, closure, words) in [
        (
            "6206-2RS sealed one side",
            Some(Closure::SealBothSides),
            "sealed one side",
        ),
        ("6206 ZZ sealed", Some(Closure::ShieldBothSides), "sealed"),
        ("6206-2Z with seal", Some(Closure::ShieldBothSides), "seal"),
        (
            "6206-2RZ contact seal",
            Some(Closure::LowFrictionSealBothSides),
            "contact seal",
        ),
        ("seal for 6206", Some(Closure::Open), "seal"),
        ("6206 rubber cage", Some(Closure::Open), "rubber cage"),
        ("6206 in rubber mount", Some(Closure::Open), "rubber mount"),
        ("6206 one side open", None, "one side open"),
        ("6206 einseitig offen", None, "einseitig offen"),
        ("6206 open on one side", None, "open on one side"),
        (
            "6206-2RS one side",
            Some(Closure::SealBothSides),
            "one side",
        ),
        (
            "6206 Z both sides",
            Some(Closure::ShieldOneSide),
            "both sides",
        ),
        ("6206 both sides", Some(Closure::Open), "both sides"),
        // DIN 5412-1: cylindrical roller bearings have neither.
        ("NU206 sealed", Some(Closure::Open), "sealed"),
    ] {
        let question = read(text);
        assert_eq!(question.traits.closure, closure, "{text}");
        let told = question.not_understood.join(" ");
        let mut told: Vec<&str> = told.split(' ').collect();
        let mut words: Vec<&str> = words.split(' ').collect();
        told.sort_unstable();
        words.sort_unstable();
        assert_eq!(told, words, "{text}");
    }
}

/// One or both sides is what decides, and nobody said it: unknown, and equal to neither.
#[test]
fn what_closes_a_bearing_on_nobody_knows_how_many_sides_is_kept() {
    for (text, by) in [
        ("6206 metal shield", ClosedBy::Shield),
        ("6206 Blechscheibe", ClosedBy::Shield),
        ("6206 Blechdeckel", ClosedBy::Shield),
        ("6206 mit Deckel", ClosedBy::Shield),
        ("6206 flasque", ClosedBy::Shield),
        ("6206 dust shield", ClosedBy::Shield),
        ("6206 rubber seal", ClosedBy::ContactSeal),
        ("6206 with a rubber seal", ClosedBy::ContactSeal),
        ("6206 with seal", ClosedBy::ContactSeal),
        ("6206 Gummidichtung", ClosedBy::ContactSeal),
        ("6206 rubber", ClosedBy::ContactSeal),
        ("6206 joint", ClosedBy::ContactSeal),
        ("6206 sello de goma", ClosedBy::ContactSeal),
        ("6206 non-contact seal", ClosedBy::LowFrictionSeal),
        // The material goes before the name.
        ("6206 metal seal", ClosedBy::Shield),
        ("6206 rubber shield", ClosedBy::ContactSeal),
    ] {
        let question = read(text);
        assert_eq!(question.traits.closure, None, "{text}");
        assert_eq!(question.needs.closed_by, Some(by), "{text}");
        let told = question.notes.join("; ");
        assert!(told.contains("on one side or on both"), "{text}: {told}");
        let left = &question.not_understood;
        assert!(left.is_empty(), "{text}: {left:?}");
    }
    // A mark says it.
    for text in ["6206-2RS with seal", "6206 Z metal shield", "6206-2RZ seal"] {
        let question = read(text);
        assert!(question.traits.closure.is_some(), "{text}");
        assert_eq!(question.needs.closed_by, None, "{text}");
        let left = &question.not_understood;
        assert!(left.is_empty(), "{text}: {left:?}");
    }
}

/// A labyrinth does not touch and felt is no lip (ISO 5593): neither is a shield or a contact seal, and covers may be either.
#[test]
fn what_closes_a_bearing_otherwise_leaves_its_closure_unknown() {
    for (text, words) in [
        ("6206 labyrinth seal", "labyrinth seal"),
        ("6206 felt seal", "felt seal"),
        ("6206 felt seals both sides", "felt seals"),
        ("6206 Filzring", "Filzring"),
        ("6206 Labyrinthdichtung", "Labyrinthdichtung"),
        ("6206 joint à labyrinthe", "joint à labyrinthe"),
        ("6206 dos tapas", "dos tapas"),
        ("6206 two covers", "two covers"),
    ] {
        let question = read(text);
        assert_eq!(question.traits.closure, None, "{text}");
        assert_eq!(question.needs.closed_by, None, "{text}");
        let left = question.not_understood.join(" ");
        assert!(left.contains(words), "{text}: {left}");
        let told = question.notes.join("; ");
        let says = format!("`{words}` is no mark of a bearing");
        assert!(told.contains(&says), "{text}: {told}");
    }
    let touching = read("6206 low friction seal");
    let by = touching.needs.closed_by;
    assert_eq!(by, Some(ClosedBy::LowFrictionSeal));
    // A mark says it.
    let marked = read("6206-2RS felt seal").traits.closure;
    assert_eq!(marked, Some(Closure::SealBothSides));
}

#[test]
fn other_features_are_those_of_the_suffixes() {
    let of = |text: &str| {
        let question = read(text);
        assert!(
            question.not_understood.is_empty(),
            "{text}: {:?}",
            question.not_understood
        );
        question
    };
    // DIN 623-1: N groove, NR groove and ring, K 1:12, K30 1:30, DB, DF, DT.
    for text in ["6206 snap ring groove", "6206 mit Ringnut"] {
        let traits = of(text).traits;
        assert_eq!(traits.has_snap_ring_groove, Some(true), "{text}");
        assert_eq!(traits.variant, None, "{text}");
    }
    for text in ["6206 with snap ring", "6206 NR", "6206 NR with snap ring"] {
        let traits = of(text).traits;
        assert_eq!(traits.has_snap_ring_groove, Some(true), "{text}");
        assert_eq!(
            traits.variant.as_deref(),
            Some("snap ring fitted (NR)"),
            "{text}"
        );
    }
    for (text, form) in [
        ("22208 tapered bore", BoreForm::Taper12),
        ("22208 taper bore 1:12", BoreForm::Taper12),
        ("24024 tapered bore 1:30", BoreForm::Taper30),
        ("22208 cylindrical bore", BoreForm::Cylindrical),
        ("22208 K", BoreForm::Taper12),
    ] {
        assert_eq!(of(text).traits.bore_form, Some(form), "{text}");
    }
    for (text, arrangement) in [
        ("7206 B back-to-back", "DB"),
        ("7206 B face to face", "DF"),
        ("7206 B tandem", "DT"),
        ("7206 B DB back to back", "DB"),
    ] {
        let known = of(text).traits.arrangement;
        assert_eq!(known.as_deref(), Some(arrangement), "{text}");
    }
    for text in [
        "SS 6206 2RS",
        "6206 stainless",
        "6206-2RS rostfrei",
        "KM10 stainless",
    ] {
        let known = of(text).traits.variant;
        assert_eq!(known.as_deref(), Some("stainless"), "{text}");
    }
    for (text, class) in [
        ("6206 ABEC 5", ToleranceClass::P5),
        ("6206 ABEC-7", ToleranceClass::P4),
        ("6206 class 6", ToleranceClass::P6),
        ("6206 ABEC 1", ToleranceClass::Normal),
    ] {
        assert_eq!(of(text).traits.tolerance_class, Some(class), "{text}");
    }
    for (text, mm) in [
        ("6205 fillet radius 1 mm", 1.0),
        ("6205 fillet 1.5", 1.5),
        ("6205 Hohlkehle R1,1", 1.1),
        ("6205 2 mm fillet", 2.0),
    ] {
        assert_eq!(of(text).needs.fillet_mm, Some(mm), "{text}");
    }
}

#[test]
fn what_must_not_be_is_told_as_not_understood() {
    for (text, words) in [
        ("6205 not C3", "not C3"),
        ("6205 without snap ring groove", "without snap ring groove"),
        ("7206 B DF back-to-back", "back-to-back"),
        ("22208 K cylindrical bore", "cylindrical bore"),
    ] {
        let question = read(text);
        if text.contains("cylindrical") {
            // The unmarked form is what the number already excludes.
            assert_eq!(question.traits.bore_form, Some(BoreForm::Taper12), "{text}");
        }
        assert_eq!(question.not_understood, [words], "{text}");
    }
    let clearance = read("6205 not C3").traits.clearance;
    assert_eq!(clearance, Some(Clearance::Normal));
}

#[test]
fn words_of_other_parts_stay_theirs() {
    for text in [
        "oil seal 40 x 62 x 8",
        "seal 40 62 8",
        "snap ring 40",
        "taper pin 1:50 8 x 60",
        "two seals 40 x 62 x 8",
        "seal 100 x 120 x 12",
        "joint torique 40 x 3",
        "Sprengring 62",
        "Dichtungen 40 x 62 x 8",
        "o-ring 40 x 3 stainless",
    ] {
        let (left, features) = split(text);
        assert_eq!(left, text);
        assert!(features.0.is_empty(), "{text}");
    }
    // A need that is no feature of a bearing stays for the other words.
    let (left, _) = split("oil seal 40 x 62 x 8 without dust lip");
    assert_eq!(left, "oil seal 40 x 62 x 8 without dust lip");
}

#[test]
fn words_beside_an_own_number_are_of_its_family() {
    for (text, family, count) in [
        ("rubber both sides", Family::DeepGrooveBall, 1),
        ("metal covers", Family::DeepGrooveBall, 1),
        ("rubber both sides", Family::LipSeal, 0),
    ] {
        let (left, features) = split_beside(text, Some(family));
        assert_eq!(features.0.len(), count, "{text}");
        assert_eq!(left.is_empty(), count > 0, "{text}: {left}");
    }
}
