//! What the columns of the stored tables mean, for other tools that read them.

use std::fmt::Write;

use super::state::State;

/// The description of every stored table, in Markdown.
pub fn describe_tables() -> String {
    let mut text = String::from(
        "# Tables of a workspace\n\n`tables/<table>-<sum>.parquet`, compressed with Zstandard; the sum is the first half \
         of the SHA-256 of the file, which stands in full in the manifest `snapshots/<number>.json`. A file never \
         changes once written. Null is \"the table does not say\", never zero. Lists are JSON arrays of texts.\n",
    );
    for (table, columns) in State::columns() {
        let _ = write!(
            text,
            "\n## {table}\n\n| Column | Type | Meaning |\n|---|---|---|\n"
        );
        for (column, kind) in columns {
            let _ = writeln!(
                text,
                "| `{column}` | {} | {} |",
                kind.name(),
                meaning(table, column)
            );
        }
    }
    text
}

/// What a column means; empty for one that is not described, which a test does not allow.
fn meaning(table: &str, column: &str) -> &'static str {
    match (table, column) {
        ("suppliers", "name") => "name as used in the other tables",
        ("machines", "machine") => "name as used in the other tables",
        ("machines", "description") => "description as printed",
        ("approvals", "date") => "day of the judgement",
        ("planned_rebuilds", "date") => "planned day",
        ("usages", "date") => "day of usage",
        ("usages", "quantity") => "quantity; a return is negative",
        ("receipts", "quantity") => "quantity ordered or received",
        ("kit_lines", "quantity") => "quantity per rebuild",
        ("other_ways", "quantity") => "quantity the way can give",
        ("other_ways", "hours") => "hours of work or turnaround",
        ("tasks", "hours") => "hours of work",
        ("kit_lines", "task") => "task that needs the line; null gates the first task",
        ("tasks", "task") => "task name, unique within the kit",
        ("offers", "unit_of_count") => {
            "unit of price, minimum and pack: piece, pair, matched set of N, pack of N, metre"
        }
        ("stock", "unit_of_count") => {
            "piece, pair, matched set of N, pack of N, metre, or pack of as many as offers pack; null where it is not said"
        }
        ("usages" | "receipts", "unit_of_count") => {
            "what the quantity counts in: piece, pair, matched set of N, pack of N, metre, or pack of as many as offers pack; null for the unit of the part"
        }
        ("issues", "column") => "column, from 1; null where the row as a whole is meant",
        _ => meaning_anywhere(column),
    }
}

fn meaning_anywhere(column: &str) -> &'static str {
    meaning_of_part(column)
        .or_else(|| meaning_of_buying(column))
        .or_else(|| meaning_of_work(column))
        .unwrap_or("")
}

fn meaning_of_part(column: &str) -> Option<&'static str> {
    Some(match column {
        "import" => "number of the import, which is the number of the snapshot it made",
        "list_dated" => "date of the list the row was on; decides which of two lists is newer",
        "is_whole_list" => "true for rows of a list that one supplier gave as a whole",
        "mends_file" => {
            "file of the row that this one was mended from; null for a row as it was read"
        }
        "mends_sheet" => "its sheet",
        "mends_row" => "its row, from 1",
        "mends_import" => "import that read it; null where none did",
        "file" => "file name",
        "sheet" => "sheet name; empty for text files",
        "row" => "row in the sheet, from 1",
        "own_number" => "the shop's own number",
        "aliases" => "other numbers the part goes by, list",
        "designation" => "designation as printed",
        "description" => "description as printed",
        "family" => "family by its code, such as `deep_groove_ball`; null where it is unknown",
        "size_family" => {
            "family whose key dimensions are in `key_1_nm` to `key_4_nm`; null where the size is unknown"
        }
        "key_1_nm" => "first key dimension of `size_family`, nanometres",
        "key_2_nm" => "second key dimension, nanometres",
        "key_3_nm" => "third key dimension, nanometres",
        "key_4_nm" => "fourth key dimension, nanometres",
        "fit" => "tolerance class of a pin, such as `m6`",
        "size_notes" => "why the size differs from what was printed, list",
        "closure" => "shields and seals: open, Z, 2Z, RZ, 2RZ, RS, 2RS",
        "clearance" => "radial internal clearance (ISO 5753-1): C2, CN, C3, C4, C5",
        "tolerance_class" => "tolerance class (ISO 492): P0, P6, P5, P4, P2",
        "contact_angle_deg" => "contact angle, degrees",
        "rib_form" => "ribs of a cylindrical roller bearing: N, NU, NJ, NUP",
        "bore_form" => "cylindrical, K (1:12) or K30 (1:30)",
        "has_snap_ring_groove" => "snap-ring groove in the outer ring",
        "rows" => "rows of rolling elements",
        "preload_class" => "preload class as printed",
        "arrangement" => "arrangement of a set: DB, DF, DT or universal",
        "cage" => "cage as printed",
        "seal_form" => "form of a lip seal (DIN 3760): A, AS, B, BS, C, CS",
        "material" => "elastomer by its ISO 1629 symbol, or another material as printed",
        "hardness" => "hardness as printed",
        "variant" => "variant within a standard's series",
        "unknown_suffixes" => "suffixes that no standard explains, list",
        "has_ratings" => "true where ratings were given at all",
        "dynamic_kn" => "basic dynamic load rating C (ISO 281), kN",
        "static_kn" => "basic static load rating C0 (ISO 76), kN",
        "ratings_source" => "where the ratings were read",
        "speed_limit_rpm" => "speed limit, rev/min",
        "shelf_life_months" => "shelf life, months",
        "unit_of_count" => {
            "piece, pair, matched set of N, pack of N, metre; null where it is not said"
        }
        "machines" => "machines that use it as the parts table says, list",
        "own_min_stock" => "a planner's own minimum stock",
        "own_min_reason" => "why the planner set it",
        "own_min_date" => "when the planner set it",
        _ => return None,
    })
}

fn meaning_of_buying(column: &str) -> Option<&'static str> {
    Some(match column {
        "supplier" => "supplier",
        "supplier_number" => "the supplier's number for the part",
        "is_approved" => {
            "approved; null where the table does not say, of a substitute where it was rejected without a word of a trial: neither is yes"
        }
        "approved_classes" => {
            "classes approved for, list of bearings, seals, fasteners, other; null holds for all"
        }
        "order_cutoff" => "orders after this time count as the next working day, HH:MM:SS",
        "counter_from" => "counter opens, HH:MM:SS",
        "counter_until" => "counter closes, HH:MM:SS",
        "calendar" => "name of a calendar in the settings",
        "freight_cents" => "freight per order, hundredths of `freight_currency`",
        "freight_currency" => "currency (ISO 4217)",
        "freight_free_from_cents" => {
            "order value from which freight is free, hundredths of `freight_free_from_currency`"
        }
        "freight_free_from_currency" => "currency (ISO 4217)",
        "collection_h" => "hours to collect from the counter, there and back",
        "courier_cents" => "cost of a courier, hundredths of `courier_currency`",
        "courier_currency" => "currency (ISO 4217)",
        "courier_h" => "hours of a courier",
        "same_day_order_by" => "latest order for delivery on the same day, HH:MM:SS",
        "same_day_there_by" => "hour at which a same-day delivery is there, HH:MM:SS",
        "same_day_cents" => "surcharge of a same-day delivery, hundredths of `same_day_currency`",
        "same_day_currency" => "currency (ISO 4217)",
        "supplier_group" => "kind of supplier in the shop's own words",
        "maker" => "maker as printed; text only",
        "condition" => "new, reconditioned or used",
        "price_cents_e2" => "net price of `price_per` units, ten-thousandths of `price_currency`",
        "price_per" => "number of units the price is for",
        "price_currency" => "currency (ISO 4217)",
        "breaks" => "price breaks, list of `from quantity@ten-thousandths/per/currency`",
        "minimum_quantity" => "least quantity sold",
        "pack_quantity" => "sold in multiples of this",
        "quantity_available" => "quantity the supplier has",
        "lead_time" => {
            "`in stock`, `on request`, a date, or `least/most/unit` in hours, workdays or days"
        }
        "expedite" => {
            "faster deliveries, list of `lead time@surcharge in cents currency`, nothing behind the @ where nobody says it"
        }
        "cancellation_charge_share" => "share of the goods' price charged on cancelling",
        "quote_date" => "date of the quote",
        "valid_until" => "last day the quote holds",
        "ordered" => "day of order",
        "promised" => "day promised",
        "received" => "day received; null while the order is open",
        "still_open" => "what is still to come of an order of which a part has come",
        "is_closed" => {
            "true where nothing is still to come although no day of receipt is known: cancelled or closed"
        }
        _ => return None,
    })
}

fn meaning_of_work(column: &str) -> Option<&'static str> {
    Some(match column {
        "part" => "own number, alias or designation as printed",
        "bin" => "bin",
        "lot" => "lot",
        "cure_date" => "cure date of an elastomer or pack date of a greased part",
        "usable_until" => "last day the lot may be fitted, as the list says it",
        "is_blocked" => "true where what lies there may not be used",
        "on_hand" => "on hand, in `unit_of_count`",
        "reserved" => "reserved for other work",
        "on_order" => "on order",
        "due_date" => "due date of what is on order",
        "counted_on" => "day of counting",
        "describes_part" => {
            "true where the list says what the part is; its columns hold it, and are null where it does not"
        }
        "machine" => "machine",
        "reason" => "failure, planned or rebuild",
        "kit" => "kit",
        "assembly" => "assembly",
        "line" => "line of the kit",
        "note" => "note",
        "no_substitutes" => "true where nothing but this part may be fitted",
        "predecessors" => "tasks that must be done before, list",
        "substitute" => "substitute as printed",
        "checks" => "checks that were done, as printed",
        "by" => "by whom",
        "kind" => "make_in_house, rework_in_house, repair_outside, other_bin or other_machine",
        "cost_cents" => "cost, hundredths of `cost_currency`",
        "cost_currency" => "currency (ISO 4217)",
        "from" => "bin, workshop or donor machine",
        "approved_by" => "who approved it",
        "downtime_cents_per_hour" => "cost of one hour down, hundredths of `downtime_currency`",
        "downtime_currency" => "currency (ISO 4217)",
        "installed" => "how many are installed",
        "in_use_from" => "in use from",
        "in_use_until" => "in use until",
        "running_hours" => "running hours a year",
        "criticality" => "criticality as printed",
        "severity" => "rejected, doubtful or note",
        "field" => "field concerned, by its code",
        "problem" => "what was found and what would be right",
        "original_cells" => "cells of a rejected row as they were, list",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_column_is_described() {
        for (table, columns) in State::columns() {
            assert!(columns.len() > 5, "{table}");
            for (column, _) in columns {
                assert!(!meaning(table, column).is_empty(), "{table}.{column}");
            }
        }
    }
}
