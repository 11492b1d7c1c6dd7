//! Parts without a table.

use super::*;

#[test]
fn parts_without_a_table_are_told_by_whole_words() {
    for (text, name) in [
        ("spacer 40 x 52 x 12", Some("spacer")),
        ("Distanzring 40x52x12", Some("spacer")),
        ("tab washer 30", Some("tab washer")),
        ("taper pin 1:50 8 x 60", Some("taper pin")),
        ("V-belt 1250", Some("belt")),
        (
            "adapter sleeve for 22210 K",
            Some("adapter or withdrawal sleeve"),
        ),
        ("MB8", Some("tab washer")),
        ("H 206", Some("adapter or withdrawal sleeve")),
        ("AHX2318", Some("adapter or withdrawal sleeve")),
        ("key 8x7x40", Some("feather key")),
        ("DIN 6799 8", Some("retaining washer for a shaft (E-clip)")),
        ("e-clip 8", Some("retaining washer for a shaft (E-clip)")),
        ("V-ring 40", Some("V-ring")),
        ("NK20/16", Some("machined needle bearing")),
        ("NKI 20/16", Some("machined needle bearing")),
        ("KM 40", Some("large lock nut")),
        ("lock nut KM24", Some("large lock nut")),
        ("KML 24", Some(LIGHT_NUT)),
        ("HM3044", Some(HM_NUT)),
        // ABMA 19.2: a cone of five digits.
        ("HM88649", None),
        ("MB 8", Some("tab washer")),
        // ISO 246: HJ is the angle ring of NJ and NU bearings.
        ("HJ 208", Some(ANGLE_RING)),
        ("HJ208E", Some(ANGLE_RING)),
        ("HJ 2210 E", Some(ANGLE_RING)),
        ("HJ208 for NU208", Some(ANGLE_RING)),
        ("Winkelring HJ 208", Some(ANGLE_RING)),
        ("NJ208 with angle ring", None),
        ("HJ20", None),
        ("MB8 washer", Some("tab washer")),
        ("washer MB8 thread 40", Some("tab washer")),
        ("MBL 24", Some("tab washer")),
        ("UC206", Some(INSERT)),
        ("insert bearing UC 206", Some(INSERT)),
        ("5206 2RS", Some(INCH_ANGULAR)),
        ("52206", None),
        ("5206 x 5300 x 12", None),
        ("22208 K with MB8", None),
        ("Sprengring 62", Some(SNAP_RING)),
        ("Kerbstift 6x30", Some("grooved pin")),
        ("Federring M8", Some("washer")),
        ("thrust washer 25 42 1", Some("thrust washer")),
        // Another ring of the same figures is no O-ring.
        ("backup ring 20x2.5", Some("backup ring of an O-ring")),
        ("Stützring 40x2.5", Some("backup ring of an O-ring")),
        ("20x2.5 backup ring", Some("backup ring of an O-ring")),
        ("o-ring 20x2.5 backup ring", None),
        ("20x2.5 NBR with backup ring", None),
        ("AS568-318 with backup ring", None),
        ("x-ring 20.29x2.62", Some("X-ring")),
        ("X-Ring 20,29x2,62", Some("X-ring")),
        ("o-ring 20 x 2.5", None),
        (
            "Abstreifer 40x50x7",
            Some("wiper, guide or ring of a cylinder"),
        ),
        ("oil seal 40x52x7 beside the guide ring", None),
        ("Scheibe M10", Some(WASHER)),
        ("castle nut M30x1.5", Some(THREADED)),
        ("51105 thrust washer", None),
        ("6206 mit Sprengring", None),
        ("KM20", None),
        ("KM8", None),
        ("nut M12", Some(THREADED)),
        ("M12", Some(THREADED)),
        ("bolt M12", Some(THREADED)),
        ("rod end M12", Some(THREADED)),
        ("M12x40", Some(THREADED)),
        ("M12 x 40", Some(THREADED)),
        ("M12x1.5 bolt", Some(THREADED)),
        // A fine thread, a lock nut, a number, a fit.
        ("M40x1.5", None),
        ("nut M40 x 1.5", None),
        ("lock nut M30", None),
        ("shaft nut M30", None),
        ("KM6 M30", None),
        ("M30 DIN 981", None),
        ("6205 behind bolt M12", None),
        ("pin 6 m6", None),
        ("M86649", None),
        ("NU205 M", None),
        ("thrust roller 30 47 11", Some(THRUST_ROLLERS)),
        (
            "30 47 11 cylindrical roller thrust bearing",
            Some(THRUST_ROLLERS),
        ),
        ("thrust needle roller bearing 25 42", None),
        ("thrust ball 30 47 11", None),
        ("HK2020", None),
        ("H7", None),
        ("30 x 62 x 16 deep groove", None),
        ("tapered roller bearing 30206", None),
        ("dowel pin 8x40", None),
        ("beltless 40 x 80 x 18", None),
        // What stands first is asked for, and a place is no part.
        ("40 x 52 x 12 spacer", Some("spacer")),
        ("6206 coupling side", None),
        ("40x80x18 for chain drive", None),
        ("30 x 62 x 16 deep groove beside the spacer", None),
        ("NU205 with spacer", None),
        ("oil seal 35x52x8 chain drive", None),
    ] {
        assert_eq!(asked_for(text).map(|kind| kind.name), name, "{text}");
    }
}

/// Brute force: every name is searched for by itself.
#[test]
fn names_are_found_as_a_search_for_each_finds_them() {
    let searched = |lower: &str| {
        let names = KINDS
            .iter()
            .flat_map(|kind| kind.words.iter().map(move |word| (*word, kind)));
        names
            .filter_map(|(word, kind)| Some((place(lower, word)?, word, kind.name)))
            .max_by_key(|(_, word, _)| word.len())
    };
    let names: Vec<&str> = KINDS.iter().flat_map(|kind| kind.words).copied().collect();
    for (at, name) in names.iter().enumerate() {
        let other = names[(at * 7 + 3) % names.len()];
        for text in [
            format!("{name} m10"),
            format!("20x40 {name}-{other}, {name}"),
            format!("{other}/{name}"),
            format!("{name}{other} é{name}"),
            format!("{name}s"),
        ] {
            let found = named(&text).map(|(at, word, kind)| (at, word, kind.name));
            assert_eq!(found, searched(&text), "{text}");
        }
    }
}
