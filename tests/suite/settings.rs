//! The shop's settings: what each key may hold, and what is said of one that is wrong. Ranges are the project's own.

use proptest::prelude::*;
use sparewright::record::{
    DateOrder, DemandMethod, LeadTimeModel, LeadUnit, LevelsBy, SettingsError, SettingsInPart,
    ShopSettings, Weekday, read_moment,
};

fn error(text: &str) -> String {
    match ShopSettings::from_toml(text) {
        Ok(settings) => panic!("`{text}` was taken: {settings:?}"),
        Err(error) => error.to_string(),
    }
}

fn read(text: &str) -> ShopSettings {
    ShopSettings::from_toml(text).unwrap_or_else(|error| panic!("`{text}`: {error}"))
}

#[test]
fn each_figure_has_a_least_and_a_most_and_both_are_taken() {
    for (key, least, most, below, above) in [
        ("holding_cost_share", "0.0", "2.0", "-0.01", "2.01"),
        ("order_cost", "0.0", "1000000.0", "-1.0", "1000001.0"),
        ("service_target_share", "0.5", "0.9999", "0.49", "1.0"),
        ("discount_per_month", "0.5", "1.0", "0.49", "1.01"),
        ("kit_target_share", "0.5", "0.9999", "0.4", "1.0"),
        ("stock_budget", "0.0", "1000000000000.0", "-1.0", "1e13"),
        (
            "downtime_cost_per_hour",
            "0.01",
            "1000000000000.0",
            "0.0",
            "1e13",
        ),
        (
            "greased_bearing_shelf_months",
            "0.01",
            "1000000000000.0",
            "0.0",
            "1e13",
        ),
    ] {
        for right in [least, most] {
            read(&format!("[planning]\n{key} = {right}\n"));
        }
        for wrong in [below, above, "nan"] {
            let said = error(&format!("[planning]\n{key} = {wrong}\n"));
            assert!(
                said.starts_with(&format!("settings: `{key}` is ")),
                "{said}"
            );
            assert!(said.contains("but must be"), "{said}");
        }
    }
}

#[test]
fn figures_by_criticality_are_each_checked() {
    for (table, right, wrong) in [
        ("service_targets_by_criticality", "0.99", "99"),
        ("criticality_weights", "2.5", "0"),
    ] {
        read(&format!("[planning.{table}]\nA = {right}\n"));
        let said = error(&format!("[planning.{table}]\nA = {right}\nB = {wrong}\n"));
        assert!(said.contains(table), "{said}");
    }
}

#[test]
fn exchange_rates_are_above_zero_and_of_currencies() {
    let settings = read("[exchange_rates]\nUSD = 0.92\nPLN = 0.23\n");
    assert_eq!(settings.exchange_rates.len(), 2);
    for wrong in [
        "USD = 0.0",
        "USD = -1.0",
        "USD = 1e9",
        "DOLLAR = 1.0",
        "\"US$\" = 1.0",
    ] {
        let said = error(&format!("[exchange_rates]\n{wrong}\n"));
        assert!(said.contains("exchange_rates"), "{wrong}: {said}");
    }
}

#[test]
fn choices_are_taken_by_their_words_and_others_are_named() {
    for (word, expected) in [
        ("stock_out_price", LevelsBy::StockOutPrice),
        ("downtime_cost", LevelsBy::DowntimeCost),
        ("service_target", LevelsBy::ServiceTarget),
    ] {
        let settings = read(&format!("[planning]\nlevels_by = \"{word}\"\n"));
        assert_eq!(settings.planning.levels_by, expected);
    }
    for (word, expected) in [
        ("shrinkage", DemandMethod::Shrinkage),
        ("plain", DemandMethod::Plain),
        ("sba", DemandMethod::Sba),
        ("tsb", DemandMethod::Tsb),
    ] {
        let settings = read(&format!("[planning]\ndemand_method = \"{word}\"\n"));
        assert_eq!(settings.planning.demand_method, expected);
    }
    for (word, expected) in [
        ("lognormal", LeadTimeModel::Lognormal),
        ("gamma", LeadTimeModel::Gamma),
        ("best_fit", LeadTimeModel::BestFit),
    ] {
        let settings = read(&format!("[planning]\nlead_time_model = \"{word}\"\n"));
        assert_eq!(settings.planning.lead_time_model, expected);
    }
    for (word, expected) in [("workdays", LeadUnit::Workdays), ("days", LeadUnit::Days)] {
        let settings = read(&format!("[planning]\nlead_time_days_are = \"{word}\"\n"));
        assert_eq!(settings.day_unit(), expected);
    }
    for (word, expected) in [
        ("dmy", DateOrder::Dmy),
        ("mdy", DateOrder::Mdy),
        ("ymd", DateOrder::Ymd),
    ] {
        assert_eq!(
            read(&format!("date_order = \"{word}\"\n")).date_order,
            expected
        );
    }
    for text in [
        "[planning]\nlevels_by = \"best\"\n",
        "[planning]\ndemand_method = \"croston\"\n",
        "[planning]\nlead_time_model = \"normal\"\n",
        "[planning]\nlead_time_days_are = \"hours\"\n",
        "date_order = \"ydm\"\n",
        "currency = \"Euro\"\n",
    ] {
        let said = error(text);
        assert!(
            said.starts_with("settings cannot be read"),
            "{text}: {said}"
        );
    }
}

#[test]
fn a_wrong_value_is_told_with_its_line() {
    let said = error("shop = \"Hall 3\"\n[planning]\norder_cost = 25.0\nlevels_by = \"best\"\n");
    assert!(said.contains("line 4"), "{said}");
}

#[test]
fn a_key_that_nobody_knows_is_told_and_never_passed_over() {
    for (text, key) in [
        ("servce_target = 1\n", "servce_target"),
        ("[planning]\nordercost = 1\n", "ordercost"),
        ("[calendars.day]\nshifts = []\nholiday = []\n", "holiday"),
    ] {
        let said = error(text);
        assert!(
            said.contains("unknown field") && said.contains(key),
            "{said}"
        );
    }
}

#[test]
fn names_are_those_of_the_top_level_that_the_file_holds() {
    for (text, named) in [
        ("", &[][..]),
        ("shop = \"Hall 3\"\n", &["shop"]),
        (
            "currency = \"EUR\"\ndate_order = \"dmy\"\n",
            &["currency", "date_order"],
        ),
        ("[planning]\norder_cost = 25.0\n", &["planning"]),
        ("[exchange_rates]\n", &["exchange_rates"]),
    ] {
        let settings = read(text);
        assert_eq!(
            settings
                .named
                .iter()
                .map(String::as_str)
                .collect::<Vec<_>>(),
            named,
            "{text}"
        );
    }
}

#[test]
fn a_calendar_that_is_used_must_be_there() {
    for (key, words) in [
        ("maintenance_calendar", "maintenance"),
        ("production_calendar", "production"),
        ("receiving_calendar", "receiving"),
        ("supplier_calendar", "suppliers"),
    ] {
        let said = error(&format!("{key} = \"night\"\n"));
        let expected = format!(
            "settings: calendar `night` is used for {words}, but there is no [calendars.night]"
        );
        assert_eq!(said, expected);
    }
    let own =
        "[calendars.night]\nshifts = [{ days = [\"sun\"], from = \"22:00\", until = \"00:00\" }]\n";
    // A shop that names calendars of its own names every one it uses.
    let all = ["maintenance", "production", "receiving", "supplier"]
        .map(|used| format!("{used}_calendar = \"night\"\n"))
        .concat();
    let settings = read(&format!("{all}{own}"));
    assert_eq!(settings.calendars["night"].shifts[0].days, [Weekday::Sun]);
}

#[test]
fn a_calendar_without_a_shift_is_refused() {
    for shifts in ["[]", "[{ days = [], from = \"07:00\", until = \"15:00\" }]"] {
        let said = error(&format!("[calendars.day]\nshifts = {shifts}\n"));
        assert!(said.contains("calendars.shifts"), "{said}");
    }
}

#[test]
fn times_days_and_moments_are_read_in_one_form_each() {
    let shift = |from: &str| {
        format!(
            "[calendars.day]\nshifts = [{{ days = [\"mon\"], from = \"{from}\", until = \"15:00\" }}]\n"
        )
    };
    for right in ["00:00", "07:30", "23:59"] {
        read(&shift(right));
    }
    // A shift to the end of the day, in both ways of writing it; it begins at 00:00 only.
    let until = |until: &str| {
        let text = shift("14:00").replace("15:00", until);
        read(&text).calendars["day"].clone()
    };
    assert_eq!(until("24:00"), until("00:00"));
    for wrong in ["24:00", "7h", "07:60", "noon", ""] {
        assert!(
            error(&shift(wrong)).contains("is not a time of day"),
            "{wrong}"
        );
    }
    for right in [
        "2026-03-09T07:30",
        "2026-03-09 07:30",
        "2026-03-09",
        "2026-03-09T07:30:15",
    ] {
        assert!(
            read(&format!("as_of = \"{right}\"\n")).as_of.is_some(),
            "{right}"
        );
    }
    for wrong in ["9.3.2026", "2026-02-30", "today"] {
        assert!(
            error(&format!("as_of = \"{wrong}\"\n")).contains("is not a moment"),
            "{wrong}"
        );
    }
    assert!(error("records_from = \"2026-13-01\"\n").contains("is not a date"));
    assert!(error("time_zone = \"Middle/Earth\"\n").contains("is not a time zone"));
    assert!(read("time_zone = \"Europe/Berlin\"\n").time_zone.is_some());
}

#[test]
fn days_off_are_days_or_ranges_of_a_year_at_most() {
    let count = |holidays: &str| {
        let day = "shifts = [{ days = [\"mon\"], from = \"07:00\", until = \"15:00\" }]";
        ShopSettings::from_toml(&format!(
            "[calendars.day]\n{day}\nholidays = [{holidays}]\n"
        ))
        .map(|settings| settings.calendars["day"].holidays.len())
        .map_err(|error| error.to_string())
    };
    for (holidays, days) in [
        ("", 0),
        ("\"2026-12-25\"", 1),
        ("\"2026-12-25\", \"2026-12-26\"", 2),
        ("\"2026-08-03 to 2026-08-03\"", 1),
        ("\"2026-08-03 to 2026-08-21\"", 19),
        ("\"2024-02-28 to 2024-03-01\"", 3),
        ("\"2026-01-01 to 2027-01-02\"", 367),
    ] {
        assert_eq!(count(holidays), Ok(days), "{holidays}");
    }
    for wrong in [
        "\"2026-08-21 to 2026-08-03\"",
        "\"2026-01-01 to 2027-01-03\"",
        "\"25.12.2026\"",
        "\"2026-12-25 until 2026-12-26\"",
    ] {
        assert!(count(wrong).is_err(), "{wrong}");
    }
}

#[test]
fn a_budget_and_another_way_of_setting_levels_contradict_each_other() {
    for way in ["downtime_cost", "service_target"] {
        let text = format!("[planning]\nstock_budget = 9000.0\nlevels_by = \"{way}\"\n");
        let found = ShopSettings::from_toml(&text).unwrap_err();
        assert!(
            matches!(
                found,
                SettingsError::Contradiction {
                    key: "stock_budget",
                    other: "levels_by",
                    ..
                }
            ),
            "{found}"
        );
    }
    read("[planning]\nstock_budget = 9000.0\nlevels_by = \"stock_out_price\"\n");
}

#[test]
fn a_wrong_key_takes_no_other_with_it() {
    let text = r#"
        shop = "Hall 3"
        as_of = "2026-03-09T07:30"
        records_from = "2021-01-04"
        production_calendar = "late"
        [calendars.day]
        shifts = [{ days = ["mon"], from = "06:00", until = "14:00" }]
        [calendars.late]
        shifts = [{ days = ["mon"], from = "14:00", until = "22:00" }]
        [planning]
        order_cost = 40.0
        safety_workdays = 2
    "#;
    for (right, wrong, left_out) in [
        (
            "order_cost = 40.0",
            "order_cost = -1.0",
            &["planning.order_cost"][..],
        ),
        (
            "safety_workdays = 2",
            "safety_workdays = -1",
            &["planning.safety_workdays"],
        ),
        (
            "safety_workdays = 2",
            "safty_workdays = 2",
            &["planning.safty_workdays"],
        ),
        ("shop = ", "shp = ", &["shp"]),
        (
            "as_of = \"2026-03-09T07:30\"",
            "as_of = \"9 March\"",
            &["as_of"],
        ),
        // Whatever worked by the calendar that is gone works by the usual one.
        (
            "until = \"22:00\"",
            "until = \"22\"",
            &["calendars.late", "production_calendar"],
        ),
    ] {
        let part = SettingsInPart::of(&text.replace(right, wrong)).unwrap();
        let keys: Vec<&str> = part.left_out.iter().map(|(key, _)| key.as_str()).collect();
        assert_eq!(keys, left_out, "{wrong}");
        assert_eq!(part.settings, read(&part.text), "{wrong}");
        // All other keys hold.
        assert_eq!(
            part.settings.records_from,
            read(text).records_from,
            "{wrong}"
        );
        let is_lost = |key: &str| left_out.contains(&key);
        assert_eq!(part.settings.as_of.is_none(), is_lost("as_of"), "{wrong}");
        let cost = if is_lost("planning.order_cost") {
            ShopSettings::default().planning.order_cost
        } else {
            40.0
        };
        assert!(
            (part.settings.planning.order_cost - cost).abs() < 1e-12,
            "{wrong}"
        );
    }
    // Nothing is left out of settings that hold, nothing is left of one wrong key, and no text is settings in part.
    for whole in [text, "shp = 1\n", "shop = \"Hall", ""] {
        assert!(SettingsInPart::of(whole).is_none(), "{whole}");
    }
}

#[test]
fn a_budget_and_a_service_target_contradict_each_other() {
    for text in [
        "[planning]\nstock_budget = 9000.0\nservice_target_share = 0.9\n",
        // The figure that holds anyway says no less that it shall hold.
        "[planning]\nservice_target_share = 0.95\nstock_budget = 0\n",
    ] {
        let said = error(text);
        assert!(
            said.starts_with("settings: `service_target_share` contradicts `stock_budget`: "),
            "{said}"
        );
    }
    // A value out of its range is told first, and targets by criticality belong to another way of setting levels.
    let said = error("[planning]\nstock_budget = -1\nservice_target_share = 0.9\n");
    assert!(said.starts_with("settings: `stock_budget` is -1"), "{said}");
    read(
        "[planning]\nstock_budget = 9000.0\n[planning.service_targets_by_criticality]\nA = 0.99\n",
    );
}

proptest! {
    #[test]
    fn any_text_gives_settings_or_an_error_in_words(text in "[a-z_=\\[\\]\" 0-9.\\n]{0,80}") {
        if let Err(error) = ShopSettings::from_toml(&text) {
            prop_assert!(error.to_string().starts_with("settings"), "{}", error);
        }
    }

    #[test]
    fn a_moment_reads_back_as_it_is_written(minutes in 0_i64..50_000_000) {
        let moment = chrono::NaiveDate::from_ymd_opt(1970, 1, 1).unwrap().and_hms_opt(0, 0, 0).unwrap()
            + chrono::Duration::minutes(minutes);
        for form in ["%Y-%m-%dT%H:%M", "%Y-%m-%d %H:%M", "%Y-%m-%dT%H:%M:%S"] {
            prop_assert_eq!(read_moment(&moment.format(form).to_string()), Some(moment));
        }
    }
}
