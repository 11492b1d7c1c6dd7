//! Kits and levels of the demo shop as pages: the figures are those of the library, the address alone says what is asked.

use sparewright::job::Job;
use sparewright::plan::{StudyAsk, levels_for_budget};

use super::client::{Server, encoded};
use crate::imported::demo_workspace;

#[test]
fn a_kit_shows_its_plan_its_charts_and_its_cautions() {
    let server = Server::empty(demo_workspace());
    let job = Job::open(demo_workspace(), None).unwrap();
    let all = server.get("/kits").text();
    for (position, kit) in job.shop.kits.iter().enumerate() {
        assert!(all.contains(&kit.name) && all.contains(&format!("href=\"/kits/{position}\"")));
        let page = server.get(&format!("/kits/{position}"));
        assert_eq!(page.status, 200, "{}", page.text());
        let text = page.text();
        let study = job
            .study_kit(&job.acceptances(), position, &StudyAsk::default())
            .unwrap()
            .study;
        if let Some(running) = &study.plan.accepted.running {
            let up = running.p50.up.format("%a %Y-%m-%d %H:%M").to_string();
            // A date is kept on one line.
            let text = text
                .replace("<span class=\"unbroken\">", "")
                .replace("</span>", "");
            assert!(text.contains(&up), "{} runs again {up}", kit.name);
        }
        for words in [
            "isolate and lock off",
            "Rebuild sheet to print",
            "role=\"img\"",
        ] {
            assert!(text.contains(words), "{}: {words}", kit.name);
        }
        let sheet = server.get(&format!("/kits/{position}/sheet"));
        assert_eq!(sheet.status, 200);
        assert!(
            sheet
                .header("content-security-policy")
                .unwrap()
                .contains("default-src 'none'")
        );
    }
    assert_eq!(server.get("/kits/999").status, 404);
    assert_eq!(server.get("/kits/none").status, 404);
}

/// The report's sheet of offers that nothing is bought from, by their rows.
#[test]
fn an_offer_that_nothing_is_bought_from_says_so_where_it_may_be_struck_out() {
    let server = Server::empty(demo_workspace());
    let job = Job::open(demo_workspace(), None).unwrap();
    let unusable = job.plan().unwrap().plan.unusable_offers;
    let reason = |place: &str| {
        let mut unusable = unusable.iter();
        unusable.find(|of| of.place.to_string() == place)
    };
    let mut told = 0;
    for position in 0..job.shop.kits.len() {
        let page = server.get(&format!("/kits/{position}")).text();
        for offer in page.split("name=\"without\" value=\"").skip(1) {
            let place = offer.split('"').next().unwrap();
            let words = offer.split("</label>").next().unwrap();
            let reason = reason(place);
            assert_eq!(words.contains(", not used: "), reason.is_some(), "{words}");
            told += usize::from(reason.is_some());
        }
    }
    assert!(told > 0, "the demo has offers that have ended");
}

#[test]
fn a_struck_out_offer_a_budget_and_a_time_stand_in_the_address() {
    let server = Server::empty(demo_workspace());
    let job = Job::open(demo_workspace(), None).unwrap();
    let plain = server.get("/kits/0").text();
    let first = plain
        .split("name=\"without\" value=\"")
        .nth(1)
        .expect("an offer to strike out");
    let place = first.split('"').next().unwrap();
    let offer = job
        .shop
        .offers
        .iter()
        .position(|offer| offer.record.place.to_string() == place)
        .expect("the offer is the shop's");
    let without = server
        .get(&format!("/kits/0?without={}", encoded(place)))
        .text();
    assert!(
        without.contains("Planned without 1 offer that"),
        "{without}"
    );
    let ask = StudyAsk {
        without: vec![offer],
        ..StudyAsk::default()
    };
    let study = job.study_kit(&job.acceptances(), 0, &ask).unwrap().study;
    let up = study.plan.accepted.running.unwrap().p50.up;
    assert!(without.contains(&up.format("%a %Y-%m-%d %H:%M").to_string()));

    let asked = server
        .get("/kits/0?budget=3000%2C50&by=2026-04-20T14%3A00")
        .text();
    assert!(
        asked.contains("soonest for 3,000.50") && asked.contains("cheapest by 2026-04-20 14:00")
    );
    let wrong = server
        .get("/kits/0?budget=much&by=soon&without=nowhere")
        .text();
    for words in [
        "`much` is no budget",
        "`soon` is no moment",
        "nowhere is no longer there",
    ] {
        assert!(wrong.contains(words), "{words}");
    }
}

#[test]
fn levels_for_a_sum_are_those_of_the_plan_with_that_budget() {
    let server = Server::empty(demo_workspace());
    let job = Job::open(demo_workspace(), None).unwrap();
    let planned = job.plan().unwrap();
    let page = server.get("/levels").text();
    let of = |name: &str| {
        let range = page.split("type=\"range\"").nth(1).unwrap();
        let value = range.split(&format!("{name}=\"")).nth(1).unwrap();
        value.split('"').next().unwrap().parse::<f64>().unwrap()
    };
    let (most, step) = (of("max"), of("step"));
    let asked = (most / 2.0 / step).round() * step;
    let levels = levels_for_budget(&job.shop, &planned.plan, asked);
    let given = levels.chosen.unwrap();
    assert!(
        given.stock_value <= asked + 0.005,
        "{} for {asked}",
        given.stock_value
    );
    let text = server.get(&format!("/levels/part?budget={asked}")).text();
    assert!(!text.contains("<html"), "the changing part alone");
    assert!(
        text.contains(&format!("{:.1} %", 100.0 * given.fill_share)),
        "{text}"
    );
    let changed = levels.by_part.iter().filter(|(part, level)| {
        planned.plan.levels.by_part.get(part).is_none_or(|was| {
            (was.min_stock, was.reorder_point) != (level.min_stock, level.reorder_point)
        })
    });
    assert!(text.contains(&format!("Levels that change ({})", changed.count())));
}
