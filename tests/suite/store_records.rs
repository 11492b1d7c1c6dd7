//! Every record kind goes to Parquet and comes back equal, and the columns are those that are documented.

use std::fmt::Debug;

use chrono::{Days, NaiveDate, NaiveTime};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use sparewright::import::{Field, Problem, RowIssue, Severity};
use sparewright::part::{
    BoreForm, Clearance, Closure, ContactAngle, Family, FitClass, LoadRatings, PartClass, RibForm,
    SealForm, SizeKey, ToleranceClass, Traits,
};
use sparewright::place::Place;
use sparewright::record::{
    ApprovalOutcome, ApprovalRecord, Condition, CountedIn, Expedite, KitLine, LeadUnit,
    MachineRecord, OfferRecord, OtherWay, OtherWayKind, PartFacts, PartRecord, PlannedRebuild,
    PriceBreak, QuotedLeadTime, ReceiptRecord, SameDay, StockRecord, SupplierRecord, Task,
    UsageReason, UsageRecord,
};
use sparewright::store::{
    Cells, Kept, Mends, Origin, State, Stored, Table, columns_of, describe_tables, from_bytes,
    to_bytes,
};
use sparewright::units::{Currency, Length, Money, Price, UnitOfCount};

fn text() -> impl Strategy<Value = String> {
    prop_oneof![Just(String::new()), "[ -~äöß\u{1f}\n\",;\\[\\]]{1,12}"]
}

fn some_text() -> impl Strategy<Value = Option<String>> {
    option::of(text())
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(0.0),
        Just(0.1 + 0.2),
        -1e9..1e9,
        Just(-1e300),
        Just(f64::MIN_POSITIVE)
    ]
}

fn some_number() -> impl Strategy<Value = Option<f64>> {
    option::of(number())
}

fn date() -> impl Strategy<Value = NaiveDate> {
    (0u64..80_000).prop_map(|days| NaiveDate::from_ymd_opt(1899, 12, 30).unwrap() + Days::new(days))
}

fn some_date() -> impl Strategy<Value = Option<NaiveDate>> {
    option::of(date())
}

fn time() -> impl Strategy<Value = NaiveTime> {
    (0u32..86_400).prop_map(|s| NaiveTime::from_num_seconds_from_midnight_opt(s, 0).unwrap())
}

fn place() -> impl Strategy<Value = Place> {
    (text(), text(), 0u32..1_048_576)
        .prop_map(|(file, sheet, row)| Place::row(&file.into(), &sheet.into(), row))
}

fn currency() -> impl Strategy<Value = Currency> {
    "[A-Z]{3}".prop_map(|code| Currency::new(&code).unwrap())
}

fn money() -> impl Strategy<Value = Money> {
    (0i64..10_000_000_000, currency()).prop_map(|(cents, currency)| Money { cents, currency })
}

fn price() -> impl Strategy<Value = Price> {
    (0i64..10_000_000_000, 1u32..10_001, currency()).prop_map(|(amount_cents_e2, per, currency)| {
        Price {
            amount_cents_e2,
            per,
            currency,
        }
    })
}

fn unit() -> impl Strategy<Value = Option<UnitOfCount>> {
    option::of(prop_oneof![
        Just(UnitOfCount::Piece),
        Just(UnitOfCount::Pair),
        Just(UnitOfCount::Metre),
        // A set of one piece is none and is not read back.
        (2u32..1000).prop_map(|pieces| UnitOfCount::MatchedSet { pieces }),
        (1u32..1000).prop_map(|pieces| UnitOfCount::Pack { pieces }),
    ])
}

fn family() -> impl Strategy<Value = Family> {
    proptest::sample::select(Family::ALL.to_vec())
}

/// A size whose lengths rise, or fall where the family wants that; `None` where neither is in order.
fn size() -> impl Strategy<Value = Option<SizeKey>> {
    let lengths = proptest::collection::btree_set(1i64..3_000_000_000, 4);
    let fit = option::of(("[a-z]", 1u8..19));
    (family(), lengths, fit, any::<bool>()).prop_map(|(family, lengths, fit, is_known)| {
        let up: Vec<Length> = lengths
            .into_iter()
            .map(|nm| Length::from_nm(nm).unwrap())
            .collect();
        let up = &up[..family.key_dimensions().len()];
        let down: Vec<Length> = up.iter().rev().copied().collect();
        let size = SizeKey::new(family, up)
            .or_else(|_| SizeKey::new(family, &down))
            .ok()?;
        let fit = fit.and_then(|(letter, grade)| FitClass::read(&format!("{letter}{grade}")));
        is_known.then(|| fit.map_or(size, |fit| size.with_fit(fit)))
    })
}

fn one_of<T: Copy + Debug + 'static>(all: &'static [T]) -> impl Strategy<Value = Option<T>> {
    option::of(proptest::sample::select(all))
}

fn traits() -> impl Strategy<Value = Traits> {
    let coded = (
        one_of(Closure::ALL),
        one_of(Clearance::ALL),
        one_of(ToleranceClass::ALL),
        one_of(RibForm::ALL),
        one_of(BoreForm::ALL),
        one_of(SealForm::ALL),
    );
    let numbers = (
        option::of(any::<u8>()),
        option::of(any::<bool>()),
        option::of(any::<u8>()),
    );
    (coded, numbers, vec(some_text(), 6), vec(text(), 0..3)).prop_map(
        |(coded, numbers, texts, unknown_suffixes)| {
            let mut texts = texts.into_iter();
            let mut next = || texts.next().flatten();
            Traits {
                closure: coded.0,
                clearance: coded.1,
                tolerance_class: coded.2,
                contact_angle: numbers.0.map(ContactAngle),
                rib_form: coded.3,
                bore_form: coded.4,
                has_snap_ring_groove: numbers.1,
                rows: numbers.2,
                preload_class: next(),
                arrangement: next(),
                cage: next(),
                seal_form: coded.5,
                material: next(),
                hardness: next(),
                variant: next(),
                unknown_suffixes,
            }
        },
    )
}

fn ratings() -> impl Strategy<Value = Option<LoadRatings>> {
    option::of((some_number(), some_number(), some_text()).prop_map(
        |(dynamic_kn, static_kn, source)| LoadRatings {
            dynamic_kn,
            static_kn,
            source,
        },
    ))
}

fn lead_time() -> impl Strategy<Value = QuotedLeadTime> {
    let units = [LeadUnit::Hours, LeadUnit::Workdays, LeadUnit::Days];
    prop_oneof![
        Just(QuotedLeadTime::InStock),
        Just(QuotedLeadTime::OnRequest),
        date().prop_map(QuotedLeadTime::By),
        (
            0.0..500.0,
            0.0..500.0,
            proptest::sample::select(units.to_vec())
        )
            .prop_map(|(least, most, unit)| QuotedLeadTime::Span { least, most, unit }),
    ]
}

fn part() -> impl Strategy<Value = PartRecord> {
    let texts = (
        text(),
        vec(text(), 0..3),
        some_text(),
        some_text(),
        vec(text(), 0..3),
    );
    let identity = (option::of(family()), size(), traits(), ratings());
    (
        texts,
        identity,
        (some_number(), some_number(), some_number()),
        (some_text(), some_date(), vec(text(), 0..3)),
        unit(),
        place(),
    )
        .prop_map(
            |(texts, identity, numbers, said, unit_of_count, place)| PartRecord {
                own_number: texts.0,
                facts: PartFacts {
                    aliases: texts.1,
                    designation: texts.2,
                    description: texts.3,
                    family: identity.0,
                    size: identity.1,
                    size_notes: texts.4,
                    traits: identity.2,
                    ratings: identity.3,
                    speed_limit_rpm: numbers.0,
                    shelf_life_months: numbers.1,
                    unit_of_count,
                    own_min_stock: numbers.2,
                    own_min_reason: said.0,
                    own_min_date: said.1,
                    machines: said.2,
                },
                place,
            },
        )
}

fn supplier() -> impl Strategy<Value = SupplierRecord> {
    let classes = [
        PartClass::Bearings,
        PartClass::Seals,
        PartClass::Fasteners,
        PartClass::Other,
    ];
    let said = (
        option::of(any::<bool>()),
        vec(proptest::sample::select(classes.to_vec()), 0..4),
    );
    let times = (option::of(time()), option::of((time(), time())));
    let costs = (
        option::of(money()),
        option::of(money()),
        option::of(money()),
    );
    (
        text(),
        said,
        times,
        some_text(),
        costs,
        (some_number(), some_number()),
        (
            option::of((time(), time(), option::of(money()))),
            some_text(),
        ),
        place(),
    )
        .prop_map(
            |(name, said, times, calendar, costs, hours, others, place)| SupplierRecord {
                name,
                is_approved: said.0,
                approved_classes: said.1,
                order_cutoff: times.0,
                counter_hours: times.1,
                calendar,
                freight: costs.0,
                freight_free_from: costs.1,
                collection_h: hours.0,
                courier_cost: costs.2,
                courier_h: hours.1,
                same_day: others.0.map(|(order_by, there_by, cost)| SameDay {
                    order_by,
                    there_by,
                    cost,
                }),
                group: others.1,
                place,
            },
        )
}

fn offer() -> impl Strategy<Value = OfferRecord> {
    let breaks = vec(
        (number(), price()).prop_map(|(from_quantity, price)| PriceBreak {
            from_quantity,
            price,
        }),
        0..3,
    );
    let hurried = (lead_time(), option::of(money())).prop_map(|(lead_time, surcharge)| Expedite {
        lead_time,
        surcharge,
    });
    let conditions = [Condition::New, Condition::Reconditioned, Condition::Used];
    let buying = (
        option::of(price()),
        unit(),
        breaks,
        option::of(lead_time()),
        vec(hurried, 0..3),
    );
    let rest = (
        some_text(),
        proptest::sample::select(conditions.to_vec()),
        some_date(),
        some_date(),
    );
    (part(), text(), some_text(), buying, rest).prop_map(
        |(part, supplier, supplier_number, buying, rest)| OfferRecord {
            supplier: supplier.into(),
            own_number: part.facts.description.clone(),
            supplier_number,
            designation: part.facts.designation.map(Into::into),
            description: part.facts.description,
            family: part.facts.family,
            size: part.facts.size,
            size_notes: part.facts.size_notes,
            traits: part.facts.traits.into(),
            ratings: part.facts.ratings.map(Box::new),
            maker: rest.0,
            condition: rest.1,
            price: buying.0,
            unit_of_count: buying.1,
            breaks: buying.2,
            minimum_quantity: part.facts.speed_limit_rpm,
            pack_quantity: part.facts.shelf_life_months,
            quantity_available: part.facts.own_min_stock,
            lead_time: buying.3,
            expedite: buying.4,
            cancellation_charge_share: part.facts.speed_limit_rpm,
            quote_date: rest.2,
            valid_until: rest.3,
            place: part.place,
        },
    )
}

fn stock() -> impl Strategy<Value = StockRecord> {
    let numbers = (some_number(), some_number(), some_number());
    let dates = (some_date(), some_date(), some_date(), some_date());
    (
        text(),
        some_text(),
        some_text(),
        (numbers, any::<bool>()),
        dates,
        unit(),
        proptest::option::of(part()),
        place(),
    )
        .prop_map(
            |(part, bin, lot, (numbers, is_blocked), dates, unit_of_count, said, place)| {
                StockRecord {
                    facts: said.map(|said| {
                        Box::new(PartFacts {
                            unit_of_count,
                            ..said.facts
                        })
                    }),
                    part,
                    bin,
                    lot,
                    cure_date: dates.0,
                    usable_until: dates.3,
                    is_blocked,
                    on_hand: numbers.0,
                    reserved: numbers.1,
                    on_order: numbers.2,
                    due_date: dates.1,
                    unit_of_count,
                    // A row that says its unit leaves none open.
                    is_in_packs: unit_of_count.is_none() && numbers.2.is_some(),
                    counted_on: dates.2,
                    place,
                }
            },
        )
}

fn counted_in() -> impl Strategy<Value = Option<CountedIn>> {
    const UNITS: &[CountedIn] = &[
        CountedIn::Pack,
        CountedIn::Unit(UnitOfCount::Metre),
        CountedIn::Unit(UnitOfCount::Pack { pieces: 10 }),
        CountedIn::Unit(UnitOfCount::MatchedSet { pieces: 2 }),
    ];
    one_of(UNITS)
}

fn usage() -> impl Strategy<Value = UsageRecord> {
    const REASONS: &[UsageReason] = &[
        UsageReason::Failure,
        UsageReason::Planned,
        UsageReason::Rebuild,
    ];
    (
        date(),
        text(),
        number(),
        counted_in(),
        some_text(),
        one_of(REASONS),
        place(),
    )
        .prop_map(
            |(date, part, quantity, counted_in, machine, reason, place)| UsageRecord {
                date,
                part: part.into(),
                quantity,
                counted_in,
                machine: machine.map(Into::into),
                reason,
                place,
            },
        )
}

fn receipt() -> impl Strategy<Value = ReceiptRecord> {
    (
        text(),
        text(),
        date(),
        some_date(),
        some_date(),
        (some_number(), some_number(), any::<bool>()),
        counted_in(),
        place(),
    )
        .prop_map(
            |(supplier, part, ordered, promised, received, amounts, counted_in, place)| {
                ReceiptRecord {
                    supplier: supplier.into(),
                    part: part.into(),
                    ordered,
                    promised,
                    received,
                    quantity: amounts.0,
                    still_open: amounts.1,
                    is_closed: amounts.2,
                    counted_in,
                    place,
                }
            },
        )
}

fn kit_line() -> impl Strategy<Value = KitLine> {
    (part(), text(), vec(some_text(), 5), number(), any::<bool>()).prop_map(
        |(part, line, texts, quantity, no_substitutes)| KitLine {
            kit: part.own_number,
            machine: texts[0].clone(),
            assembly: texts[1].clone(),
            line,
            part: texts[2].clone(),
            description: part.facts.description,
            family: part.facts.family,
            size: part.facts.size,
            traits: part.facts.traits,
            quantity: Some(quantity).filter(|quantity| *quantity > 0.0),
            unit_of_count: part.facts.unit_of_count,
            task: texts[3].clone(),
            note: texts[4].clone(),
            no_substitutes,
            place: part.place,
        },
    )
}

fn task() -> impl Strategy<Value = Task> {
    (text(), text(), number(), vec(text(), 0..3), place()).prop_map(
        |(kit, task, hours, predecessors, place)| Task {
            kit,
            task,
            hours,
            predecessors,
            place,
        },
    )
}

fn rebuild() -> impl Strategy<Value = PlannedRebuild> {
    (text(), some_text(), date(), place()).prop_map(|(kit, machine, date, place)| PlannedRebuild {
        kit,
        machine,
        date,
        place,
    })
}

fn approval() -> impl Strategy<Value = ApprovalRecord> {
    let outcomes = [
        ApprovalOutcome::Approved,
        ApprovalOutcome::DidNotFit,
        ApprovalOutcome::Rejected,
    ];
    (
        vec(text(), 4),
        proptest::sample::select(outcomes.to_vec()),
        some_text(),
        some_date(),
        place(),
    )
        .prop_map(|(texts, outcome, checks, date, place)| ApprovalRecord {
            kit: texts[0].clone(),
            line: texts[1].clone(),
            substitute: texts[2].clone(),
            outcome,
            checks,
            by: texts[3].clone(),
            date,
            place,
        })
}

fn other_way() -> impl Strategy<Value = OtherWay> {
    use OtherWayKind as K;
    let kinds = [
        K::MakeInHouse,
        K::ReworkInHouse,
        K::RepairOutside,
        K::OtherBin,
        K::OtherMachine,
    ];
    let numbers = (some_number(), some_number());
    (
        text(),
        vec(some_text(), 5),
        proptest::sample::select(kinds.to_vec()),
        numbers,
        option::of(money()),
        place(),
    )
        .prop_map(|(part, texts, kind, numbers, cost, place)| OtherWay {
            part,
            kit: texts[0].clone(),
            line: texts[1].clone(),
            kind,
            hours: numbers.0,
            cost,
            quantity: numbers.1,
            from: texts[2].clone(),
            approved_by: texts[3].clone(),
            note: texts[4].clone(),
            place,
        })
}

fn machine() -> impl Strategy<Value = MachineRecord> {
    let texts = (text(), some_text(), some_text());
    let numbers = (some_number(), some_number());
    (
        texts,
        option::of(money()),
        numbers,
        (some_date(), some_date()),
        place(),
    )
        .prop_map(
            |(texts, downtime_cost_per_hour, numbers, dates, place)| MachineRecord {
                machine: texts.0,
                description: texts.1,
                downtime_cost_per_hour,
                installed: numbers.0,
                in_use_from: dates.0,
                in_use_until: dates.1,
                running_hours: numbers.1,
                criticality: texts.2,
                place,
            },
        )
}

fn issue() -> impl Strategy<Value = RowIssue> {
    let severities = [Severity::Rejected, Severity::Doubtful, Severity::Note];
    let column = option::of(0u32..16_384);
    (
        place(),
        column,
        proptest::sample::select(severities.to_vec()),
        one_of(Field::ALL),
        text(),
        vec(text(), 0..4),
    )
        .prop_map(
            |(mut place, column, severity, field, words, original_cells)| {
                place.column = column;
                RowIssue {
                    place,
                    severity,
                    field,
                    problem: Problem::Recorded { words },
                    original_cells,
                }
            },
        )
}

/// A table with the nulls that a column of nothing else is read without.
fn with_nulls(mut table: Table) -> Table {
    for (_, cells) in &mut table.columns {
        match cells {
            Cells::Text(of) => of.resize(table.height, None),
            Cells::Number(of) => of.resize(table.height, None),
            Cells::Integer(of) => of.resize(table.height, None),
            Cells::Flag(of) => of.resize(table.height, None),
            Cells::Date(of) => of.resize(table.height, None),
        }
    }
    table
}

/// Writes records with their origins as Parquet, reads them and compares.
fn assert_comes_back<R: Stored + Clone + PartialEq + Debug>(
    records: &[R],
    dated: Option<NaiveDate>,
) {
    let origin = Origin {
        import: 7,
        dated,
        is_whole_list: dated.is_some(),
        mends: dated.map(|_| {
            Box::new(Mends {
                place: Place::row(&"prices.xlsx".into(), &"May".into(), 6),
                import: Some(3),
            })
        }),
    };
    let kept: Vec<Kept<R>> = records
        .iter()
        .map(|record| Kept {
            record: record.clone(),
            origin: origin.clone(),
        })
        .collect();
    let table = Table::of(&kept);
    let bytes = to_bytes(&table).unwrap();
    let read = from_bytes(&bytes).unwrap();
    assert_eq!(with_nulls(read.clone()), table);
    assert_eq!(read.records::<Kept<R>>().unwrap(), kept);
    let names: Vec<&str> = read.columns.iter().map(|(name, _)| name.as_str()).collect();
    let expected: Vec<&str> = columns_of::<Kept<R>>()
        .into_iter()
        .map(|(name, _)| name)
        .collect();
    assert_eq!(names, expected);
    assert_eq!(
        bytes,
        to_bytes(&read).unwrap(),
        "the same table must give the same bytes"
    );
}

macro_rules! come_back {
    ($($name:ident: $records:expr;)+) => {
        proptest! {
            #![proptest_config(ProptestConfig::with_cases(48))]
            $(#[test]
            fn $name(records in vec($records, 0..6), dated in some_date()) {
                assert_comes_back(&records, dated);
            })+
        }
    };
}

come_back! {
    parts_come_back: part();
    suppliers_come_back: supplier();
    offers_come_back: offer();
    stock_comes_back: stock();
    usages_come_back: usage();
    receipts_come_back: receipt();
    kit_lines_come_back: kit_line();
    tasks_come_back: task();
    planned_rebuilds_come_back: rebuild();
    approvals_come_back: approval();
    other_ways_come_back: other_way();
    machines_come_back: machine();
    issues_come_back: issue();
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn tables_from_before_parts_named_their_machines_are_read(records in vec(part(), 1..4), shelf in vec(stock(), 1..4)) {
        fn without<R: Stored>(records: &[R]) -> Table {
            let mut table = Table::of(records);
            table.columns.retain(|(name, _)| name != "machines");
            from_bytes(&to_bytes(&table).unwrap()).unwrap()
        }
        let mut of_then = records.clone();
        for part in &mut of_then {
            part.facts.machines.clear();
        }
        prop_assert_eq!(without(&records).records::<PartRecord>().unwrap(), of_then);
        let mut of_then = shelf.clone();
        for facts in of_then.iter_mut().filter_map(|row| row.facts.as_mut()) {
            facts.machines.clear();
        }
        prop_assert_eq!(without(&shelf).records::<StockRecord>().unwrap(), of_then);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn tables_from_before_lots_had_a_last_day_and_orders_a_status_are_read(
        shelf in vec(stock(), 1..4),
        orders in vec(receipt(), 1..4),
    ) {
        fn without<R: Stored>(records: &[R]) -> Table {
            const NEW: [&str; 4] = ["usable_until", "is_blocked", "still_open", "is_closed"];
            let mut table = Table::of(records);
            table.columns.retain(|(name, _)| !NEW.contains(&name.as_str()));
            from_bytes(&to_bytes(&table).unwrap()).unwrap()
        }
        let mut of_then = shelf.clone();
        for row in &mut of_then {
            row.usable_until = None;
            row.is_blocked = false;
        }
        prop_assert_eq!(without(&shelf).records::<StockRecord>().unwrap(), of_then);
        let mut of_then = orders.clone();
        for order in &mut of_then {
            order.still_open = None;
            order.is_closed = false;
        }
        prop_assert_eq!(without(&orders).records::<ReceiptRecord>().unwrap(), of_then);
    }
}

#[test]
fn a_table_of_another_form_is_refused_by_name_of_its_column() {
    let table = Table::of::<Kept<StockRecord>>(&[]);
    assert!(!table.columns.is_empty());
    let of_tasks = Table { height: 1, ..table };
    let error = of_tasks.records::<Kept<Task>>().unwrap_err().to_string();
    assert!(
        error.contains("column 8 is `part`, but must be `kit`"),
        "{error}"
    );
}

#[test]
fn every_table_is_documented_as_it_is_written() {
    let path =
        std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden/workspace_columns.md");
    let text = describe_tables();
    if std::env::var_os("SPAREWRIGHT_UPDATE_GOLDEN").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, &text).unwrap();
    }
    assert_eq!(State::TABLES.len(), 13);
    assert_eq!(text, std::fs::read_to_string(path).unwrap());
}
