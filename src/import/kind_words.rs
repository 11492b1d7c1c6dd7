//! Header words that mean something else in one kind of table, by `data/import/headers_of_kinds.csv`: a list of parts has
//! no least quantity to order, and machines are counted, not stocked.

use super::field::Field;
use super::fold::fold;
use super::header::How;
use super::shipped::lines;
use super::table::Column;
use super::table_kind::code_of;
use crate::record::TableKind;

/// The table as shipped.
const HEADERS_OF_KINDS_CSV: &str = include_str!("../../data/import/headers_of_kinds.csv");

/// What makes a list one of offers, in which a minimum is the least quantity to order.
const OF_OFFERS: [Field; 6] = [
    Field::Supplier,
    Field::Price,
    Field::ListPrice,
    Field::PriceFrom,
    Field::LeadTime,
    Field::PackQuantity,
];
/// What makes a list one of parts or their stock, in which a count is that of the shelf.
const OF_PARTS: [Field; 5] = [
    Field::OwnNumber,
    Field::PartNumber,
    Field::SupplierNumber,
    Field::Designation,
    Field::Bin,
];

/// What makes a list one of orders, beside the day on which they were placed.
const OF_ORDERS: [Field; 2] = [Field::Received, Field::Promised];
/// What makes a list of a shelf one of lots, even where it says prices.
const OF_LOTS: [Field; 2] = [Field::Lot, Field::CureDate];
/// What makes a list one of what lies on a shelf.
const OF_SHELF: [Field; 4] = [Field::OnHand, Field::Bin, Field::Reserved, Field::CountedOn];

/// Gives columns the fields that their words name in the kind of table that the other columns make, where no other column
/// has that field.
pub fn settle_by_kind(columns: &mut [Column]) {
    for (kind, field, words) in lines(HEADERS_OF_KINDS_CSV) {
        let Some(field) = Field::from_code(field) else {
            continue;
        };
        let has = |field: &Field| columns.iter().any(|column| column.header.field == *field);
        if has(&field) || !may_be(kind, has) {
            continue;
        }
        let is_meant = |column: &&mut Column| {
            let printed = fold(&column.printed);
            column.header.how != How::Given && words.split('|').any(|word| word == printed)
        };
        if let Some(column) = columns.iter_mut().find(is_meant) {
            column.header.field = field;
        }
    }
}

/// True where the fields of a table make it one of this kind, and of none in which the word means something else.
fn may_be(kind: &str, has: impl Fn(&Field) -> bool) -> bool {
    if kind == code_of(TableKind::Machines) {
        return has(&Field::Machine) && !OF_PARTS.iter().any(has);
    }
    if kind == code_of(TableKind::Receipts) {
        return has(&Field::Ordered) && OF_ORDERS.iter().any(has);
    }
    if kind == code_of(TableKind::Stock) {
        let is_of_lots = OF_LOTS.iter().any(&has);
        let is_shelf = OF_SHELF.iter().any(&has);
        return is_shelf && (is_of_lots || !OF_OFFERS.iter().any(&has));
    }
    !OF_OFFERS.iter().any(has)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::find_table::only_table;

    fn field_of(text: &str, printed: &str) -> Option<Field> {
        let table = only_table(text);
        let mut columns = table.columns.iter();
        let column = columns.find(|column| column.printed == printed);
        column.map(|column| column.header.field)
    }

    #[test]
    fn every_line_names_a_kind_a_field_and_folded_words() {
        let mut count = 0;
        for (kind, field, words) in lines(HEADERS_OF_KINDS_CSV) {
            assert!(
                TableKind::ALL.into_iter().any(|of| code_of(of) == kind),
                "{kind}"
            );
            assert!(Field::from_code(field).is_some(), "{field}");
            assert!(words.split('|').all(|word| fold(word) == word), "{words}");
            assert!(
                ["parts", "machines", "receipts", "stock"].contains(&kind),
                "{kind}: when?"
            );
            count += 1;
        }
        assert!(count > 1);
    }

    /// Common practice, no source: what the words mean in a shop's own lists.
    #[test]
    fn a_word_means_what_its_table_is_about() {
        let parts = "Part number;Designation;Minimum\nP1;6205;4\nP2;6206;2\n";
        assert_eq!(field_of(parts, "Minimum"), Some(Field::MinStock));
        let ordered = "Part number;Designation;Bore;MOQ\nP1;6205;25;4\nP2;6206;30;2\n";
        assert_eq!(field_of(ordered, "MOQ"), Some(Field::MinimumQuantity));
        let both = "Part number;Designation;Min stock;Minimum qty\nP1;6205;4;10\n";
        assert_eq!(field_of(both, "Min stock"), Some(Field::MinStock));
        assert_eq!(field_of(both, "Minimum qty"), Some(Field::MinimumQuantity));
        let offers = "Supplier;Part number;Price;Minimum qty\nAlpha;P1;4.00;10\n";
        assert_eq!(
            field_of(offers, "Minimum qty"),
            Some(Field::MinimumQuantity)
        );
        let machines = "Machine;Downtime cost per hour;Count\nMixer;50;2\n";
        assert_eq!(field_of(machines, "Count"), Some(Field::Installed));
        for printed in ["Expiry date", "Valid until", "Gültig bis", "Scadenza"] {
            let lots = format!("Part number;Lot;On hand;{printed}\nP1;L1;2;2026-01-31\n");
            assert_eq!(
                field_of(&lots, printed),
                Some(Field::UsableUntil),
                "{printed}"
            );
            let priced =
                format!("Part number;Lot;On hand;Price;{printed}\nP1;L1;2;4.00;2026-01-31\n");
            assert_eq!(
                field_of(&priced, printed),
                Some(Field::UsableUntil),
                "{printed}"
            );
            let offers =
                format!("Supplier;Part number;Price;{printed}\nAlpha;P1;4.00;2026-01-31\n");
            assert_eq!(
                field_of(&offers, printed),
                Some(Field::ValidUntil),
                "{printed}"
            );
        }
        for printed in ["Stato", "Estado"] {
            let orders = format!(
                "Supplier;Part number;Ordered;Received;{printed}\nN;P1;2026-01-05;2026-01-09;chiuso\n"
            );
            assert_eq!(field_of(&orders, printed), Some(Field::Status), "{printed}");
            let offers = format!("Supplier;Part number;Price;{printed}\nN;P1;4.00;nuovo\n");
            assert_eq!(
                field_of(&offers, printed),
                Some(Field::Condition),
                "{printed}"
            );
        }
        let stock = "Part number;Bin;Count\nP1;A1;2\n";
        assert_eq!(field_of(stock, "Count"), Some(Field::OnHand));
    }
}
