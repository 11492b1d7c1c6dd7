//! Where dates decide, importing in any order, or all at once, gives the same state.

use proptest::prelude::*;
use proptest::sample::{Index, select};

use super::shops::{Bench, said};

/// One dated file: a list of its kind as of a day.
#[derive(Debug, Clone)]
struct Dated {
    name: String,
    text: String,
}

fn stock(list: &str, day: u32, rows: &[(usize, u8)]) -> Dated {
    let rows = rows
        .iter()
        .map(|(part, count)| format!("B-{part},A{part},{count}\n"));
    Dated {
        name: format!("{list}_2026-01-{day:02}.csv"),
        text: format!("Part no,Bin,On hand\n{}", rows.collect::<String>()),
    }
}

fn prices(supplier: &str, day: u32, rows: &[(usize, u8)]) -> Dated {
    const SIZES: [&str; 4] = ["6305-2RS", "6204-2Z", "6001", "6308 C3"];
    let rows = rows
        .iter()
        .map(|(part, price)| format!("{},{price}.50,{price} days\n", SIZES[part % 4]));
    Dated {
        name: format!("{supplier}_2026-01-{day:02}.csv"),
        text: format!(
            "Designation,Price EUR,Lead time\n{}",
            rows.collect::<String>()
        ),
    }
}

fn parts(day: u32, rows: &[(usize, u8)]) -> Dated {
    let rows = rows
        .iter()
        .map(|(part, min)| format!("B-{part},6305-2RS,{min}\n"));
    Dated {
        name: format!("parts_2026-01-{day:02}.csv"),
        text: format!(
            "Own number,Designation,Min. stock\n{}",
            rows.collect::<String>()
        ),
    }
}

fn usages(day: u32, rows: &[(usize, u8)]) -> Dated {
    let rows = rows
        .iter()
        .map(|(part, quantity)| format!("2025-0{}-01,B-{part},{quantity},M1,failure\n", 1 + part));
    Dated {
        name: format!("usages_2026-01-{day:02}.csv"),
        text: format!(
            "Date,Part no,Quantity,Machine,Reason\n{}",
            rows.collect::<String>()
        ),
    }
}

fn kits(day: u32, rows: &[(usize, u8)]) -> Dated {
    let rows = rows
        .iter()
        .enumerate()
        .map(|(line, (kit, quantity))| format!("Kit{kit},{line},B-1,{quantity}\n"));
    Dated {
        name: format!("kits_2026-01-{day:02}.csv"),
        text: format!("Kit,Line,Part no,Quantity\n{}", rows.collect::<String>()),
    }
}

/// Files of different days, so that dates decide everything.
fn files() -> impl Strategy<Value = Vec<Dated>> {
    let rows = proptest::collection::vec((0usize..4, 1u8..9), 1..4);
    proptest::collection::vec((select(vec![0, 1, 2, 3, 4, 5, 6]), rows), 2..6).prop_map(|drawn| {
        let file = |(day, (kind, rows)): (usize, (i32, Vec<(usize, u8)>))| {
            let day = day as u32 + 1;
            match kind {
                0 => stock("stock", day, &rows),
                1 => stock("annex", day, &rows),
                2 => prices("nordlager", day, &rows),
                3 => prices("suedlager", day, &rows),
                4 => parts(day, &rows),
                5 => usages(day, &rows),
                _ => kits(day, &rows),
            }
        };
        drawn.into_iter().enumerate().map(file).collect()
    })
}

fn pairs(files: &[Dated]) -> Vec<(&str, &str)> {
    files
        .iter()
        .map(|file| (file.name.as_str(), file.text.as_str()))
        .collect()
}

fn one_by_one(files: &[Dated]) -> String {
    let bench = Bench::new();
    for pair in pairs(files) {
        bench.import(&[pair]);
    }
    said(&bench.workspace)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn the_order_of_importing_never_matters_where_dates_decide(
        files in files(), swaps in proptest::collection::vec((any::<Index>(), any::<Index>()), 1..6)
    ) {
        let as_drawn = one_by_one(&files);
        let mut shuffled = files.clone();
        for (a, b) in swaps {
            shuffled.swap(a.index(files.len()), b.index(files.len()));
        }
        prop_assert_eq!(&as_drawn, &one_by_one(&shuffled));
        let at_once = Bench::new();
        at_once.import(&pairs(&files));
        prop_assert_eq!(&as_drawn, &said(&at_once.workspace));
    }

    #[test]
    fn importing_again_changes_nothing(files in files()) {
        let bench = Bench::new();
        bench.import(&pairs(&files));
        let before = said(&bench.workspace);
        let outcome = bench.import(&pairs(&files));
        prop_assert!(!outcome.is_new);
        prop_assert_eq!(before, said(&bench.workspace));
    }
}
