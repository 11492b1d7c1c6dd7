//! The card index: it gives what a look at every part gives, and its file is never trusted blindly.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use proptest::prelude::*;
use sparewright::catalogue::card_index::{self, CARDS, CardIndex, IndexFault, Windows};
use sparewright::catalogue::{CataloguePart, Shop};
use sparewright::import::Imported;
use sparewright::interchange::{NEAR_NM, Subject};
use sparewright::lookup::{Question, answer};
use sparewright::part::{Family, NameKey, SizeKey};
use sparewright::record::Records;
use sparewright::standard;
use sparewright::store::Workspace;
use sparewright::units::Length;

use super::sample::{identity, monday, offer, part, place, shop, stock};

/// Records of parts on every seventh standard row, of specials beside them, with stock and offers; all invented.
fn records() -> Records {
    let mut records = Records::default();
    let suffixes = ["", "-2RS C3", " C3", "-2Z"];
    for (at, row) in standard::parts().iter().step_by(7).enumerate() {
        let mut known = part(
            &format!("P-{at:04}"),
            &format!("{}{}", row.designation, suffixes[at % 4]),
        );
        known.size = Some(row.size);
        known.family = Some(row.size.family());
        known.aliases = vec![format!("OLD {at}")];
        known.place = place(at as u32);
        if at % 3 == 0 {
            let lengths: Vec<Length> = row
                .size
                .dimensions()
                .filter_map(|(_, length)| Length::from_nm(length.as_nm() + 300_000).ok())
                .collect();
            let mut special = known.clone();
            special.own_number = format!("S-{at:04}");
            special.designation = None;
            special.aliases = Vec::new();
            special.size = SizeKey::new(row.size.family(), &lengths).ok();
            records.parts.push(special);
        }
        if at % 2 == 0 {
            let mut row = offer("East", &row.designation, 3.5, None);
            row.own_number = Some(known.own_number.clone());
            row.size = known.size;
            row.place = place(at as u32);
            records.offers.push(row);
        }
        if at % 5 == 0 {
            let mut row = stock(&known.own_number, &format!("R-{at}"), 2.0);
            row.place = place(at as u32);
            records.stock.push(row);
        }
        records.parts.push(known);
    }
    let mut unsized_part = part("U-1", "6206");
    unsized_part.size = None;
    unsized_part.designation = Some("spacer, drawing 4711".to_owned());
    records.parts.push(unsized_part);
    records
}

/// A workspace with those records, and the folder it is in.
fn workspace() -> (tempfile::TempDir, Workspace) {
    let folder = tempfile::tempdir().unwrap();
    let workspace = Workspace::create(folder.path()).unwrap();
    fill(&workspace, records());
    (folder, workspace)
}

fn fill(workspace: &Workspace, records: Records) {
    let mut imported = Imported::default();
    imported.records = records;
    workspace.import(&imported, monday()).unwrap();
}

fn index_and_shop() -> (CardIndex, Shop) {
    let shop = shop(records());
    (CardIndex::of_shop(&shop), shop)
}

fn numbers(index: &CardIndex, at: u32) -> Vec<String> {
    let drawer = index.drawer(at);
    (0..index.parts_of(at))
        .map(|card| index.card(&drawer, card).unwrap().number)
        .collect()
}

fn scanned(shop: &Shop, is_it: impl Fn(&CataloguePart) -> bool) -> Vec<String> {
    let mut numbers: Vec<String> = shop
        .catalogue
        .parts()
        .iter()
        .filter(|part| is_it(part))
        .map(|part| part.number.clone())
        .collect();
    numbers.sort();
    numbers
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn the_index_finds_what_a_full_scan_finds(pick in any::<prop::sample::Index>(), reach_nm in 0i64..4_000_000, given in 1u8..16) {
        static BOTH: std::sync::LazyLock<(CardIndex, Shop)> = std::sync::LazyLock::new(index_and_shop);
        let (index, shop) = &*BOTH;
        let sizes: Vec<SizeKey> = shop.catalogue.sizes().map(|(size, _)| *size).collect();
        let size = *pick.get(&sizes);
        let all = |positions: Vec<u32>| {
            let mut found: Vec<String> = positions.into_iter().flat_map(|at| numbers(index, at)).collect();
            found.sort();
            found
        };
        // Windows of some of the dimensions.
        let mut windows = Windows::default();
        for (at, (_, length)) in size.dimensions().enumerate().filter(|(at, _)| given & (1 << at) != 0) {
            windows.0[at] = Some((length.as_nm() - reach_nm, length.as_nm() + reach_nm));
        }
        let mut positions = Vec::new();
        index.within(size.family(), &windows, &mut positions);
        let holds = |have: &SizeKey| have.family() == size.family() && windows.hold(have);
        positions.retain(|at| index.size(*at).is_some_and(|have| holds(&have)));
        prop_assert_eq!(all(positions), scanned(shop, |part| part.size.is_some_and(|have| holds(&have))));
        // Near enough to be mistaken for it.
        let near = index.near(&size, NEAR_NM).into_iter().map(|(at, _)| at).collect();
        let is_near = |part: &CataloguePart| {
            part.size.is_some_and(|have| {
                let away = |a: Length, b: Length| (a.as_nm() - b.as_nm()).abs() <= NEAR_NM;
                let both = have.diameters().zip(size.diameters());
                have.family() == size.family() && both.is_some_and(|(a, b)| away(a.0, b.0) && away(a.1, b.1))
            })
        };
        prop_assert_eq!(all(near), scanned(shop, is_near));
        // The same envelope under other names.
        let envelope = index.of_envelope(&size).into_iter().map(|(at, _)| at).collect();
        prop_assert_eq!(all(envelope), scanned(shop, |part| part.size.is_some_and(|have| have.has_envelope_of(&size))));
        prop_assert_eq!(index.fault(), None);
    }
}

#[test]
fn every_card_holds_what_the_shop_holds() {
    let (index, shop) = index_and_shop();
    let mut cards = 0;
    for (size, parts) in shop.catalogue.sizes() {
        let drawer = index.drawer(index.position(size).unwrap());
        let glances = index.glances(&drawer).into_iter();
        for (alike, glance) in index.alike(&drawer).iter().zip(glances) {
            assert_eq!(glance.alike(), *alike);
            assert_eq!(
                (glance.count, glance.is_in_stock, glance.is_on_offer),
                (alike.count, alike.is_in_stock, alike.is_on_offer)
            );
            assert_eq!(glance.traits.material, alike.traits.material.as_deref());
            for at in alike.first..alike.first + alike.count {
                let card = index.card(&drawer, at).unwrap();
                let id = *parts
                    .iter()
                    .find(|id| shop.catalogue.part(**id).number == card.number)
                    .unwrap();
                let part = shop.catalogue.part(id);
                assert_eq!(
                    (&card.designation, &card.aliases),
                    (&part.designation, &part.aliases)
                );
                let (have, want) = (
                    Subject::of_alike(Some(*size), alike),
                    Subject::of_part(part),
                );
                assert_eq!(
                    (have.size, have.family, &have.traits),
                    (want.size, want.family, &want.traits)
                );
                assert_eq!(
                    (have.chamfer_mm, have.confidence),
                    (want.chamfer_mm, want.confidence)
                );
                let bins: Vec<_> = shop
                    .stock
                    .iter()
                    .filter(|of| of.part == id)
                    .map(|of| of.record.bin.clone())
                    .collect();
                assert_eq!(
                    card.stock
                        .iter()
                        .map(|of| of.bin.clone())
                        .collect::<Vec<_>>(),
                    bins
                );
                let prices: Vec<_> = shop
                    .offers
                    .iter()
                    .filter(|of| of.part == id)
                    .map(|of| of.record.price.map(|p| p.unit_price()))
                    .collect();
                assert_eq!(
                    card.offers
                        .iter()
                        .map(|of| of.unit_price)
                        .collect::<Vec<_>>(),
                    prices
                );
                assert!(
                    card.offers
                        .iter()
                        .all(|of| of.supplier == "East" && of.lead_time == "unknown")
                );
                cards += 1;
            }
        }
    }
    assert_eq!(cards + 1, shop.catalogue.parts().len());
}

#[test]
fn names_are_found_as_the_catalogue_finds_them() {
    let (index, shop) = index_and_shop();
    for part in shop.catalogue.parts() {
        for name in std::iter::once(&part.number).chain(&part.aliases) {
            let spelt = name.to_lowercase().replace('-', " ");
            let found = index
                .find(&spelt)
                .map(|named| NameKey::new(&named.card.number));
            assert_eq!(found, Some(NameKey::new(&part.number)), "{spelt}");
        }
    }
    assert!(index.find("P-9999").is_none());
    let named = index.find("Spacer drawing 4711").unwrap();
    assert_eq!((named.size, named.card.number.as_str()), (None, "U-1"));
}

/// What a supplier calls a part finds it, unless that is what another is called.
#[test]
fn a_suppliers_number_names_what_is_offered_under_it() {
    let offered = |supplier: &str, own: &str, theirs: &str| {
        let designation = if own == "Q-78" { "6207" } else { "6206-2RS C3" };
        let mut row = offer(supplier, designation, 3.5, None);
        row.own_number = Some(own.to_owned());
        row.supplier_number = Some(theirs.to_owned());
        row
    };
    let records = Records {
        parts: vec![
            part("Q-77", "6206-2RS C3"),
            part("Q-78", "6207"),
            part("VK-9", "6208"),
        ],
        offers: vec![
            offered("East", "Q-77", "VK 71315"),
            offered("West", "Q-77", "VK 71315"),
            offered("East", "Q-78", "TWICE-1"),
            offered("West", "Q-77", "TWICE-1"),
            offered("East", "Q-77", "VK-9"),
        ]
        .into(),
        ..Records::default()
    };
    let index = CardIndex::of_shop(&shop(records));
    let found = |name: &str| index.find(name).map(|named| named.card.number);
    assert_eq!(found("vk71315").as_deref(), Some("Q-77"));
    assert_eq!(found("TWICE-1"), None);
    assert_eq!(found("VK-9").as_deref(), Some("VK-9"));
    assert_eq!(found("VK 71316"), None);
    let question = Question::read_in("VK 71315", Some(&index)).unwrap();
    let answers = answer(&question, Some(&index));
    let first = answers
        .answers
        .first()
        .and_then(|one| one.number.as_deref());
    assert_eq!(first, Some("Q-77"));
}

/// A number of the shop's own is answered as the part it names.
#[test]
fn an_own_number_is_a_question() {
    let records = Records {
        parts: vec![part("Q-77", "6206-2RS C3"), part("Q-78", "41x63x9 AS NBR")],
        stock: vec![stock("Q-77", "B-12", 3.0)],
        ..Records::default()
    };
    let index = CardIndex::of_shop(&shop(records));
    let question = Question::read_in("q77", Some(&index)).unwrap();
    let answers = answer(&question, Some(&index));
    let own = answers
        .answers
        .iter()
        .find(|one| one.number.as_deref() == Some("Q-77"))
        .unwrap();
    assert_eq!(own.size, identity("6206").1);
    assert_eq!(own.stock[0].bin.as_deref(), Some("B-12"));
    assert!(
        answers.warnings.iter().any(|text| text.contains("Q-77")),
        "{:?}",
        answers.warnings
    );
    assert!(Question::read_in("Q-99 is not there", Some(&index)).is_err());
}

#[test]
fn a_file_answers_as_the_index_in_memory_does() {
    let (_folder, workspace) = workspace();
    let made = card_index::open(&workspace).unwrap();
    assert_eq!(
        (made.made_because, made.not_written),
        (Some(IndexFault::Missing), None)
    );
    let opened = card_index::open(&workspace).unwrap();
    assert_eq!(opened.made_because, None);
    for text in [
        "40x80x18",
        "44.96 84.9 19 worn",
        "6308 2RS C3",
        "od 62 w 16",
        "oil seal 62 x 40 x 8",
        "P-0007",
    ] {
        let ask = |index: &CardIndex| {
            let question = Question::read_in(text, Some(index)).unwrap();
            format!("{:?}", answer(&question, Some(index)))
        };
        assert_eq!(ask(&opened.index), ask(&made.index), "{text}");
    }
    assert_eq!(opened.index.fault(), None);
    let loaded = card_index::load(&workspace).unwrap();
    assert_eq!(
        (loaded.made_because, loaded.index.length()),
        (None, made.index.length())
    );
}

#[test]
fn a_later_import_makes_the_file_stale() {
    let (_folder, workspace) = workspace();
    card_index::open(&workspace).unwrap();
    fill(
        &workspace,
        Records {
            parts: vec![part("NEW-1", "6206-2RS C3")],
            ..Records::default()
        },
    );
    let opened = card_index::open(&workspace).unwrap();
    assert_eq!(opened.made_because, Some(IndexFault::Stale));
    assert!(opened.index.find("NEW-1").is_some());
}

fn ask(folder: &Path, text: &str) -> Output {
    Command::new(env!("CARGO_BIN_EXE_sparewright"))
        .args(["match", text, "--format", "json", "--workspace"])
        .arg(folder)
        .output()
        .unwrap()
}

#[test]
fn damage_anywhere_is_mended_with_a_word() {
    let (folder, workspace) = workspace();
    card_index::open(&workspace).unwrap();
    let path = folder.path().join(CARDS);
    let whole = fs::read(&path).unwrap();
    let sound = ask(folder.path(), "40x80x18");
    assert!(
        sound.status.success() && sound.stderr.is_empty(),
        "{sound:?}"
    );
    let mut told = 0;
    for at in (0..whole.len()).step_by(whole.len() / 24) {
        let mut bytes = whole.clone();
        bytes[at] ^= 0x10;
        fs::write(&path, &bytes).unwrap();
        let found = ask(folder.path(), "40x80x18");
        // A page that no question needed is not looked at; whatever was read, the answer is the same.
        assert_eq!(found.stdout, sound.stdout, "byte {at}");
        if !found.stderr.is_empty() {
            told += 1;
            assert!(
                String::from_utf8_lossy(&found.stderr).contains(CARDS),
                "{found:?}"
            );
            assert_eq!(fs::read(&path).unwrap(), whole, "byte {at}");
        }
    }
    assert!(told > 5, "{told}");
    fs::write(&path, &whole[..whole.len() / 2]).unwrap();
    assert!(String::from_utf8_lossy(&ask(folder.path(), "40x80x18").stderr).contains("damaged"));
    fs::remove_file(&path).unwrap();
    assert!(
        String::from_utf8_lossy(&ask(folder.path(), "40x80x18").stderr)
            .contains("there is none yet")
    );
}

/// A reader keeps the file it opened, whatever is put in its place; two processes that make it at once both answer.
#[test]
fn readers_are_not_blocked_and_two_may_make_it_at_once() {
    let (folder, workspace) = workspace();
    let expected = ask(folder.path(), "6308 2RS C3").stdout;
    let opened = card_index::open(&workspace).unwrap();
    fs::remove_file(folder.path().join(CARDS)).unwrap();
    let children: Vec<_> = (0..4)
        .map(|_| {
            let folder = folder.path().to_owned();
            std::thread::spawn(move || ask(&folder, "6308 2RS C3"))
        })
        .collect();
    for child in children {
        let output = child.join().unwrap();
        assert!(output.status.success(), "{output:?}");
        assert_eq!(output.stdout, expected);
    }
    let question = Question::read("6308 2RS C3").unwrap();
    assert!(!answer(&question, Some(&opened.index)).answers.is_empty());
    assert_eq!(opened.index.fault(), None);
    assert_eq!(card_index::open(&workspace).unwrap().made_because, None);
    let left: Vec<_> = fs::read_dir(folder.path())
        .unwrap()
        .filter(|entry| {
            entry
                .as_ref()
                .unwrap()
                .path()
                .extension()
                .is_some_and(|ending| ending == "tmp")
        })
        .collect();
    assert!(left.is_empty(), "{left:?}");
}

/// Unknown is said: no bin, no price and no lead time are null or "unknown", never 0.
#[test]
fn what_a_workspace_does_not_know_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let workspace = Workspace::create(folder.path()).unwrap();
    let mut quoted = offer("East", "6206-2RS C3", 1.0, None);
    quoted.price = None;
    let mut lying = stock("Q-1", "", 0.0);
    (lying.bin, lying.on_hand) = (None, None);
    fill(
        &workspace,
        Records {
            parts: vec![part("Q-1", "6206-2RS C3")],
            offers: vec![quoted].into(),
            stock: vec![lying],
            ..Records::default()
        },
    );
    let output = ask(folder.path(), "6206-2RS C3");
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let own = json["answers"]
        .as_array()
        .unwrap()
        .iter()
        .find(|one| one["number"] == "Q-1")
        .unwrap();
    assert!(
        own["stock"][0]["bin"].is_null() && own["stock"][0]["free"].is_null(),
        "{own}"
    );
    assert!(own["offers"][0]["unit_price"].is_null(), "{own}");
    assert_eq!(own["offers"][0]["lead_time"], "unknown");
    assert_eq!(json["not_listed"], 0);
}

/// Sizes a tenth of a millimetre apart in four families, hundreds within reach of any figures; all invented.
fn dense_records() -> Records {
    let families = [
        (Family::DeepGrooveBall, &[0, 1, 2][..]),
        (Family::NeedleCage, &[0, 1, 2]),
        (Family::LipSeal, &[0, 1, 2]),
        (Family::ThrustBall, &[0, 0, 1, 2]),
    ];
    let base_nm = [8_000_000, 22_000_000, 7_000_000];
    let mut records = Records::default();
    for (family, columns) in families {
        for at in 0..2_197 {
            let steps = [at % 13, at / 13 % 13, at / 169];
            let nm = |column: usize| base_nm[column] + 100_000 * (steps[column] - 6);
            let lengths: Vec<Length> = columns
                .iter()
                .map(|column| Length::from_nm(nm(*column)).unwrap())
                .collect();
            let mut part = part(&format!("{}-{at}", family.code()), "");
            part.designation = None;
            part.family = Some(family);
            part.size = SizeKey::new(family, &lengths).ok();
            part.place = place(at as u32);
            records.parts.push(part);
        }
    }
    records
}

/// The dense sizes in memory and in a file, where each page is read when it is needed.
struct Dense {
    in_memory: CardIndex,
    in_file: CardIndex,
    sizes: Vec<SizeKey>,
    _folder: tempfile::TempDir,
}

static DENSE: std::sync::LazyLock<Dense> = std::sync::LazyLock::new(|| {
    let folder = tempfile::tempdir().unwrap();
    let workspace = Workspace::create(folder.path()).unwrap();
    fill(&workspace, dense_records());
    drop(card_index::open(&workspace).unwrap());
    let in_file = card_index::open(&workspace).unwrap();
    assert_eq!(in_file.made_because, None);
    let shop = shop(dense_records());
    Dense {
        in_memory: CardIndex::of_shop(&shop),
        in_file: in_file.index,
        sizes: shop.catalogue.sizes().map(|(size, _)| *size).collect(),
        _folder: folder,
    }
});

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn sizes_that_lie_close_together_are_found_by_rows_as_by_a_full_scan(
        pick in any::<prop::sample::Index>(), off_nm in prop::array::uniform4(-900_000i64..900_000),
        reach_nm in prop::array::uniform4(0i64..1_500_000), given in 1u8..16,
    ) {
        let dense = &*DENSE;
        let size = *pick.get(&dense.sizes);
        let mut windows = Windows::default();
        for (at, (_, length)) in size.dimensions().enumerate().filter(|(at, _)| given & (1 << at) != 0) {
            let middle = length.as_nm() + off_nm[at];
            windows.0[at] = Some((middle - reach_nm[at], middle + reach_nm[at]));
        }
        let holds = |have: &SizeKey| have.family() == size.family() && windows.hold(have);
        let scanned: Vec<SizeKey> = dense.sizes.iter().copied().filter(holds).collect();
        for index in [&dense.in_memory, &dense.in_file] {
            let mut positions = Vec::new();
            index.within(size.family(), &windows, &mut positions);
            let mut found: Vec<SizeKey> = positions.iter().filter_map(|at| index.size(*at)).filter(holds).collect();
            found.sort();
            prop_assert_eq!(&found, &scanned);
            // A range of positions keeps what is in it, and nothing else.
            let of_family = index.positions_of(size.family());
            let half = of_family.start..of_family.start + of_family.len() as u32 / 2;
            let mut in_half = Vec::new();
            index.within_of(size.family(), &windows, &half, &mut in_half);
            in_half.sort_unstable();
            let mut expected: Vec<u32> = positions.into_iter().filter(|at| half.contains(at)).collect();
            expected.sort_unstable();
            prop_assert_eq!(in_half, expected);
            prop_assert_eq!(index.fault(), None);
        }
    }

    #[test]
    fn the_reach_is_halved_until_few_enough_are_left(
        pick in any::<prop::sample::Index>(), reach_nm in 0i64..2_000_000, most in 0usize..400,
    ) {
        let dense = &*DENSE;
        let size = *pick.get(&dense.sizes);
        let (inner, outer) = size.diameters().unwrap();
        let of_family = || dense.sizes.iter().filter(|have| have.family() == size.family());
        // The grids are to whole micrometres.
        let in_window = |of: Length, have: Length, reach_nm: i64| {
            let um = |nm: i64| nm.max(0) / 1000;
            (um(of.as_nm() - reach_nm)..=um(of.as_nm() + reach_nm)).contains(&um(have.as_nm()))
        };
        let count = |reach_nm: i64| {
            let is_in = |have: &&SizeKey| {
                let (other_inner, other_outer) = have.diameters().unwrap();
                in_window(inner, other_inner, reach_nm) && in_window(outer, other_outer, reach_nm)
            };
            of_family().filter(is_in).count()
        };
        // The same by trying every reach in turn.
        let mut reach = reach_nm;
        while count(reach) > most && reach > 0 {
            reach /= 2;
        }
        let away = |a: Length, b: Length| (a.as_nm() - b.as_nm()).abs();
        let is_near = |have: &&SizeKey| {
            let (other_inner, other_outer) = have.diameters().unwrap();
            away(inner, other_inner) <= reach && away(outer, other_outer) <= reach
        };
        let expected: Vec<SizeKey> = of_family().filter(is_near).copied().collect();
        for index in [&dense.in_memory, &dense.in_file] {
            let found: Vec<SizeKey> = index.nearest(&size, reach_nm, most).into_iter().map(|(_, size)| size).collect();
            prop_assert_eq!(&found, &expected);
        }
    }
}

#[test]
fn a_size_stands_where_its_lengths_are_looked_for() {
    let dense = &*DENSE;
    let (index, shop) = index_and_shop();
    let sparse: Vec<SizeKey> = shop.catalogue.sizes().map(|(size, _)| *size).collect();
    for (index, sizes) in [
        (&dense.in_memory, &dense.sizes),
        (&dense.in_file, &dense.sizes),
        (&index, &sparse),
    ] {
        for size in sizes.iter().step_by(97) {
            let found: Vec<SizeKey> = index
                .of_lengths(size)
                .into_iter()
                .filter_map(|at| index.size(at))
                .collect();
            let same = sizes
                .iter()
                .filter(|have| have.without_fit() == size.without_fit());
            assert!(found.iter().eq(same), "{size}: {found:?}");
            assert_eq!(
                index.position(size).and_then(|at| index.size(at)),
                Some(*size)
            );
        }
    }
    // A size that nobody has.
    let nobody = standard::find("6206").unwrap().size;
    assert!(dense.in_memory.of_lengths(&nobody).is_empty());
    assert_eq!(dense.in_memory.position(&nobody), None);
}

/// What is near is answered alike from memory and from a file, whatever is asked.
#[test]
fn a_dense_catalogue_is_answered_alike_from_memory_and_from_its_file() {
    let dense = &*DENSE;
    for text in [
        "8 x 22 x 7",
        "7.95 21.9 6.93 worn",
        "8 x 22 x 7 deep groove",
        "oil seal 22 x 8 x 7",
        "od 22 w 7",
        "bore 8 od 22 room for 8",
        "needle cage 8.1 22.1 7.1",
        "608",
        "608-2Z",
        "lip free id 7 on 8 shaft 22 x 7",
    ] {
        let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        let [memory, file] =
            [&dense.in_memory, &dense.in_file].map(|index| answer(&question, Some(index)));
        assert_eq!(format!("{memory:?}"), format!("{file:?}"), "{text}");
        assert_eq!(dense.in_file.fault(), None);
    }
}
